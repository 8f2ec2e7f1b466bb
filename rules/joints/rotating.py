"""Bolts on what turns: cam sprocket, flywheel or flexplate, damper."""

from buildlint.rulebook import *
from buildlint.tables.fasteners import THREADLOCKERS

LOCKED = """
build: {stage: assembly}
joints:
  %s: {kind: bolt, count: 6%s}  %s
"""


@rule(
    scope="joint",
    level="error",
    due="assembly",
    says="Nothing locks the {joint_name} bolts{but}.",
    fix="Put threadlocker on clean, dry threads (sealing threadlocker where the hole opens into the crankcase), or fit a lock plate; "
        "write locked_by and thread_product.",
    source="common practice, no source",
    when={"joint_name": ("cam_sprocket", "flywheel", "flexplate")},
    points_at=("locked_by", "thread_product", "kind"),
    conforming=(LOCKED % ("flywheel", ", thread_product: sealing_threadlocker", ""), LOCKED % ("cam_sprocket", ", locked_by: lock_plate", ""),
                LOCKED % ("flexplate", ", tightening: yield_angle, snug_torque: 20 lbf-ft, angle: 60 deg", "")),
    nonconforming=(LOCKED % ("cam_sprocket", ", thread_product: none, locked_by: preload_only", "# <-"), LOCKED % ("flywheel", "", "# <-")),
)
def rotating_bolts_are_locked(
    joint_name: Choice, locked_by: Choice = None, thread_product: Choice = None, tightening: Choice = None, torque_source: Choice = None,
    kind: Choice = None,
):
    """A cam bolt that backs out ends in the timing cover; a wheel bolt in the bellhousing, with a foot beside it.

    Bolts drawn into yield hold by their tension. Where the maker's own sheet says tension alone, it is a note.
    """
    locked = locked_by not in (None, "preload_only") or thread_product in THREADLOCKERS or tightening == "yield_angle"
    if locked:
        return passes()
    if locked_by is None and thread_product in (None, "none"):
        return wanting("locked_by").telling(but=", as far as is written")
    verdict = require(False).telling(but=" but their tension" if locked_by == "preload_only" else "")
    return verdict.within_level("note") if torque_source == "maker" and locked_by == "preload_only" else verdict


CARRIES = """
build: {peak_torque: %s}
flywheel: {bolt_circle: 3.58 in, friction: 0.15}
joints:
  flywheel: {kind: bolt, count: 6, thread: 7/16-20, strength_class: sae_grade_8, torque: 75 lbf-ft, torque_given_for: engine_oil}  %s
"""


@rule(
    scope="joint",
    level="warning",
    due="ordering",
    says="The {count} bolts hold the wheel by friction up to {flywheel_torque_capacity}, {value} of 2.5 times the engine's torque.",
    fix="Take stronger or more bolts, or dowels; dowels are not counted here.",
    source="statics; factor of 2.5 on torque common practice, no source",
    when={"joint_name": ("flywheel", "flexplate")},
    points_at=("count", "torque"),
    conforming=CARRIES % ("480 lbf-ft", ""),
    nonconforming=(CARRIES % ("700 lbf-ft", "# <-"), CARRIES % ("600 lbf-ft", "# <-")),
)
def flywheel_bolts_carry_torque(
    joint_name: Choice, flywheel_torque_capacity: Torque = None, peak_torque: Torque = None, count: Count = None, torque: Torque = None, *,
    factor: Ratio = q("2.5", "ratio"), warning_below: Ratio = q("1.0", "ratio"), note_below: Ratio = q("1.2", "ratio"),
):
    """A wheel whose bolts carry torque by their shanks instead of by friction works loose; the bolts bend and break.

    Engine torque is multiplied by 2.5 for launch and torsional peaks.
    """
    if flywheel_torque_capacity is None or not peak_torque:
        return not_applicable("bolt circle, friction, tension or torque is not known")
    return at_least(Ratio(flywheel_torque_capacity / (factor * peak_torque)), warning=warning_below, note=note_below)


CLEAR = """
joints:
  %s: {kind: bolt, tip_to_obstacle: %s}  %s
"""


@rule(
    scope="joint",
    level="error",
    due="assembly",
    says="The ends of the {joint_name} bolts are {value} from block or cap; keep {limit}.",
    fix="Take bolts shorter by {shorten_by}; flexplate bolts and flywheel bolts differ in length and head and are not swapped.",
    source="common practice, no source",
    when={"tip_to_obstacle": given},
    points_at=("tip_to_obstacle",),
    conforming=(CLEAR % ("flexplate", "0.08 in", ""), CLEAR % ("main", "0.01 in", "")),
    nonconforming=(CLEAR % ("flywheel", "-0.02 in", "# <-"), CLEAR % ("flexplate", "0.03 in", "# <-")),
)
def flywheel_bolts_clear_the_block(tip_to_obstacle: Length, joint_name: Choice, *, warning_below: Length = q("1.5 mm")):
    """A bolt long enough to touch the block or the rear cap holds the wheel off its flange, or saws the block."""
    if joint_name not in ("flywheel", "flexplate"):
        return not_applicable("not a wheel")
    verdict = at_least(Length(tip_to_obstacle), warning=warning_below)
    if tip_to_obstacle <= 0:
        verdict.level = "error"
    return verdict.telling(shorten_by=Length(max(warning_below - tip_to_obstacle, 0.0)))


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
    joint_name: Choice, damper_interference: Length = None, *, least: Length = q("0.0003 in"), most: Length = q("0.0020 in"),
):
    """The press of the hub carries the damper; a loose one frets the snout, shears the key and breaks the crank.

    A heavy press is hard to draw on straight and has cracked hubs.
    """
    if damper_interference is None:
        return not_applicable("hub and snout are not measured")
    verdict = within(Length(damper_interference), warning=(least, most))
    if damper_interference <= 0:
        verdict = at_least(Length(damper_interference), Length(0.0)) if damper_interference < 0 else require(False)
        return verdict.telling(play=Length(-damper_interference), hone_to=least).saying(
            "The damper's hub is loose on the snout by {play}.", "Have the hub sleeved and honed to grip by 0.001 in, or take another.")
    if verdict.facts.get("side") == "above":
        return verdict.telling(off=Length(damper_interference - most)).saying(
            "The damper's hub presses on the snout with {value}; {limit} is much already.", "Have the hub honed {off} larger or more.")
    return verdict.saying("The damper's hub presses on the snout with only {value}.", "Have the hub corrected to at least {limit}, 0.001 in is usual.")


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
