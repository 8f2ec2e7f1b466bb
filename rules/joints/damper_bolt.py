"""The damper on the snout: its press, its bolt, and how it is drawn on."""

from buildlint.rulebook import *

PRESS = """
crank: {snout_diameter: 1.2500 in}
damper: {hub_bore: %s}  %s
joints:
  damper: {kind: bolt, count: 1}
"""


@rule(
    scope="joint",
    level="error",
    due="assembly",
    says="{trouble}",
    fix="{remedy}",
    source="common practice, no source; interference from memory",
    when={"joint_name": ("damper",)},
    points_at=("damper_hub_bore", "damper_interference"),
    compares=("damper_interference",),
    conforming=(PRESS % ("1.2490 in", ""), PRESS % ("1.2493 in", "")),
    nonconforming=(PRESS % ("1.2502 in", "# <-"), PRESS % ("1.2475 in", "# <-")),
)
def damper_grips_the_snout(
    joint_name: Choice, damper_interference: Length = None, damper_kind: Choice = None, damper_original: Choice = None, *,
    least: Length = q("0.0003 in"), most: Length = q("0.0020 in"), slip_fit: Length = q("0.0020 in"),
):
    """The press of the hub carries the damper; a loose one frets the snout, shears the key and breaks the crank.

    A heavy press is hard to draw on straight and has cracked hubs. The plain pulley that many small engines came with
    slides on by hand and is held by its key and bolt: that is no fault of it.
    """
    if damper_interference is None:
        return not_applicable("hub and snout are not measured")
    if damper_kind == damper_original == "solid_hub" and -slip_fit * (1 + 1e-9) <= damper_interference <= least:
        return not_applicable("a plain hub made to slide on")
    verdict = within(Length(damper_interference), warning=(least, most))
    if damper_interference <= 0:
        verdict = at_least(Length(damper_interference), Length(0.0)) if damper_interference < 0 else require(False)
        return verdict.telling(play=Length(-damper_interference), hone_to=least).saying(
            "The damper's hub is loose on the snout by {play}." if damper_interference < 0 else "The damper's hub does not grip the snout at all.",
            "Have the hub sleeved and honed to grip by 0.001 in, or take another.")
    if verdict.facts.get("side") == "above":
        return verdict.telling(off=Length(damper_interference - most)).saying(
            "The damper's hub presses on the snout with {value}; {limit} is much already.",
            "Have the hub honed {off:up} larger or more.")
    return verdict.saying("The damper's hub presses on the snout with only {value}.",
                          "Have the hub corrected to at least {limit}, 0.001 in is usual.")


BOLT = """
build: {duty: %s}
joints:
  damper: {kind: bolt, count: %s, washer: {kind: %s}}  %s
"""


@rule(
    scope="joint",
    level="error",
    due="ordering",
    says="{trouble}",
    fix="Order the bolt with its thick washer, and the key; leave 1.5 diameters of thread in the snout without bottoming.",
    source="common practice, no source",
    when={"joint_name": ("damper",)},
    points_at=("count", "washer_kind", "kind"),
    conforming=(BOLT % ("street", "1", "hardened_flat", ""), BOLT % ("stock", "1", "integral_flange", "")),
    nonconforming=(BOLT % ("street_strip", "0", "none", "# <-"), BOLT % ("street", "1", "none", "# <-"), """
        crank: {snout_keys: 0}  # <-
        joints:
          damper: {kind: bolt, count: 1, washer: {kind: hardened_flat}}
        """),
)
def damper_bolt_is_present(
    joint_name: Choice, count: Count = None, washer_kind: Choice = None, head_kind: Choice = None, crank_snout_keys: Count = None,
    duty: Choice = None, kind: Choice = None,
):
    """A hub that only presses walks off at speed; the bolt also clamps the timing gear that drives the cam.

    Some stock engines were built without a bolt; there it is a warning.
    """
    if count == 0:
        return require(False, "warning" if duty == "stock" else "error").telling(trouble="No bolt holds the damper.")
    if washer_kind == "none" and head_kind not in ("hex_flange", "twelve_point_flange"):
        return require(False, "warning").at("washer_kind").telling(trouble="The damper bolt has no washer.")
    if crank_snout_keys == 0:
        return require(False, "warning").at("crank_snout_keys").telling(trouble="No key is written between damper and snout.")
    return passes()


@rule(
    scope="joint",
    level="reminder",
    due="assembly",
    says="Draw the damper on with a tool that turns on its own bearing, keyway sealed with a smear of silicone; never hammer it.",
    fix="Oil the snout, start the hub square on its key, pull it home, then fit the bolt.",
    source="common practice, no source",
    caution="A puller under load stores energy: stand aside and keep hands clear, by its maker's instructions.",
    when={"joint_name": ("damper",)},
    conforming="joints: {damper: {kind: bolt, count: 1}}",
)
def damper_is_pulled_on(joint_name: Choice):
    """A hammer drives the ring off its rubber and the crank against its thrust bearing; the bolt alone tears its first threads."""
    return review()
