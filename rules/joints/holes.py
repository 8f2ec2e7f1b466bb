"""How deep a fastener goes: bolts that meet the bottom of their hole, studs that are driven against it."""

from buildlint.rulebook import *
from buildlint.rulebook import Condition
from buildlint.tables.fasteners import CRITICAL_JOINTS

BOTTOM = """
joints:
  %s: {kind: bolt, thread: 3/8-16, length: %s, grip_length: 1.40 in, hole: {end: blind, usable_depth: 0.80 in}}  %s
"""
STUD = """
joints:
  head: {kind: stud, thread: 7/16-20, stud_end: %s, stud_install_torque: %s}  %s
"""


@rule(
    scope="joint",
    level="error",
    due="ordering",
    says="{trouble}",
    fix="{remedy}",
    source="geometry; factory manuals; common practice, no source",
    points_at=("length", "stud_end", "hole_usable_depth"),
    conforming=(BOTTOM % ("head", "2.05 in", ""), STUD % ("rounded_on_bottom", "2 lbf-ft", ""), """
        joints:
          intake_manifold: {kind: bolt, thread: 3/8-16, length: 2.50 in, grip_length: 1.40 in, hole: {end: through, usable_depth: 0.80 in}}
        """),
    nonconforming=(BOTTOM % ("head", "2.25 in", "# <-"), BOTTOM % ("head", "2.12 in", "# <-"),
                   STUD % ("rounded_on_bottom", "12 lbf-ft", "# <-"), STUD % ("runs_out_of_thread", "8 lbf-ft", "# <-")),
)
def bolt_clamps_before_bottoming(
    kind: Choice = None, length: Length = None, grip_length: Length = None, hole_usable_depth: Length = None,
    hole_end: Choice = None,
    pitch: Length = None, stud_end: Choice = None, stud_install_torque: Torque = None, stud_fit: Choice = None, *,
    least_pitches: Ratio = q("2", "ratio"), least_gap: Length = q("3 mm"), most_on_bottom: Torque = q("5 lbf-ft"),
):
    """A bolt that stands on the bottom of its hole reads full torque on the wrench and clamps nothing.

    A blind hole also wants room for chips and oil, two threads or 3 mm. A second washer is no cure unless the maker
    says so. A skimmed head lets every bolt go deeper by the cut. A stud may rest on the bottom with a rounded end and
    finger tight; driven against the bottom, or into the run-out of its thread, it spreads the deck or cracks the boss.
    """
    if kind == "stud":
        if stud_end not in ("rounded_on_bottom", "runs_out_of_thread") or stud_install_torque is None or stud_fit == "interference":
            return not_applicable("not a stud that is stopped by its hole")
        bottomed = stud_end == "rounded_on_bottom"
        verdict = at_most(stud_install_torque, most_on_bottom)
        if not bottomed:
            verdict.within_level("warning")
        where = "the bottom of its hole" if bottomed else "the run-out of its thread"
        return verdict.at("stud_end", "stud_install_torque").telling(
            trouble=f"The stud is driven against {where} with {stud_install_torque.text}.",
            remedy="Set it by hand and let the nut do the clamping; at most a snug with two fingers on the key.")
    if hole_end == "through" or None in (length, grip_length, hole_usable_depth):
        return not_applicable("a through hole, or lengths that are not written")
    gap = hole_usable_depth - (length - grip_length)
    room = least_gap if pitch is None else max(least_pitches * pitch, least_gap)
    verdict = at_least(Length(gap), error=Length(0.0), warning=Length(room))
    if verdict.level == "error":
        return verdict.telling(short=Length(-gap), shorter_by=Length(room - gap)).saying(
            "The bolt is {short} too long for its hole: it meets the bottom before it clamps.",
            "Take a bolt {shorter_by:up} shorter, or have the hole drilled and tapped deeper.")
    return verdict.saying("The bolt ends {value} above the bottom of its blind hole; leave {limit} for chips and oil.",
                          "Take the next shorter bolt if the thread engaged allows it, or tap deeper.")


DRY = """
joints:
  head: {kind: bolt, hole: {end: blind, state: %s}}  %s
"""


@rule(
    scope="joint",
    level="reminder",
    due="assembly",
    says="The blind holes are {state}.",
    fix="Chase the threads with a chaser, blow them out with eyes covered, wick the last oil out and look down each hole with a light.",
    source="common practice, no source; factory manuals on liquid in blind holes",
    caution="Blow holes out with eye protection and a rag over the hole: what comes out is sharp.",
    when={"hole_end": Condition("is blind", lambda end: end == "blind")},
    points_at=("hole_state",),
    conforming="""
        joints:
          head: {kind: bolt, hole: {end: blind}}
        """,
    nonconforming=(DRY % ("oily", "# <-"), DRY % ("liquid_inside", "# <-")),
)
def blind_hole_is_dry(joint_name: Choice, hole_state: Choice = None):
    """Oil or coolant under a bolt in a blind hole is a hydraulic press: the block cracks before the bolt feels tight.

    Twenty kilonewtons on trapped oil in a 12 mm hole make 177 MPa, more than a thin boss of gray iron bears.
    """
    if hole_state in ("oily", "liquid_inside"):
        return require(False).telling(state="oily" if hole_state == "oily" else "not empty: there is liquid inside")
    if joint_name not in (*CRITICAL_JOINTS, "intake_manifold"):
        return not_applicable("asked of the joints an engine hangs on")
    return review().telling(state="chased, dry and empty" if hole_state == "chased_dry_empty"
                            else "to be chased, blown out and wiped dry")


FINGERS = """
joints:
  head: {kind: stud, stud_install_torque: %s%s}  %s
"""


@rule(
    scope="joint",
    level="warning",
    due="assembly",
    says="The studs are driven into the casting with {stud_install_torque}; set them by hand, at most {most:down}.",
    fix="Run them in with fingers or a small key, {usual} or so; the nut does the clamping. Fit sealed studs and torque the nuts "
        "before the product sets.",
    source="common practice, no source",
    when={"stud_install_torque": given},
    points_at=("stud_install_torque",),
    conforming=(FINGERS % ("2 lbf-ft", "", ""), FINGERS % ("5 lbf-ft", "", ""),
                FINGERS % ("20 lbf-ft", ", stud_fit: interference", "")),
    nonconforming=(FINGERS % ("6 lbf-ft", "", "# <-"), FINGERS % ("20 lbf-ft", ", stud_end: clear_of_bottom", "# <-")),
    edit=("decision", "stud_install_torque", "2 lbf-ft"),
)
def stud_is_set_finger_tight(
    stud_install_torque: Torque, kind: Choice = None, stud_fit: Choice = None, stud_end: Choice = None, *,
    most: Torque = q("5 lbf-ft"), usual: Torque = q("2 lbf-ft"),
):
    """A stud torqued into the block spreads its last thread or pushes on the bottom before the nut is even on.

    By hand is right: two foot-pounds snug it, five is the most, and the nut pulls the stud. Extreme-pressure paste on
    both ends; some builders go to ten. Studs made for an interference fit are driven by design and are not judged; one
    that stands on the bottom of its hole is judged elsewhere.
    """
    if kind not in ("stud", None) or stud_fit == "interference":
        return not_applicable("no stud, or driven by design")
    if stud_end in ("rounded_on_bottom", "runs_out_of_thread"):
        return not_applicable("judged against the bottom of its hole")
    return at_most(stud_install_torque, most)
