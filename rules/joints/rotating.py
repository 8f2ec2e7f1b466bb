"""Bolts on what turns: cam sprocket, flywheel or flexplate."""

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
    conforming=(LOCKED % ("flywheel", ", thread_product: sealing_threadlocker", ""),
                LOCKED % ("cam_sprocket", ", locked_by: lock_plate", ""),
                LOCKED % ("flexplate", ", tightening: yield_angle, snug_torque: 20 lbf-ft, angle: 60 deg", "")),
    nonconforming=(LOCKED % ("cam_sprocket", ", thread_product: none, locked_by: preload_only", "# <-"),
                   LOCKED % ("flywheel", "", "# <-")),
)
def rotating_bolts_are_locked(
    joint_name: Choice, locked_by: Choice = None, thread_product: Choice = None, tightening: Choice = None,
    torque_source: Choice = None,
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
    says="By friction the {count} bolts hold the wheel up to {flywheel_torque_capacity}, {value} times the engine's {peak_torque}; {limit} times are wanted for launch and torsional peaks.",
    fix="Take stronger or more bolts, or dowels; dowels are not counted here.",
    source="statics; factors on torque common practice, no source",
    when={"joint_name": ("flywheel", "flexplate")},
    points_at=("count", "torque"),
    conforming=CARRIES % ("480 lbf-ft", ""),
    nonconforming=(CARRIES % ("1100 lbf-ft", "# <-"), CARRIES % ("700 lbf-ft", "# <-")),
)
def flywheel_bolts_carry_torque(
    joint_name: Choice, flywheel_torque_capacity: Torque = None, peak_torque: Torque = None, count: Count = None,
    torque: Torque = None, *,
    warning_below: Ratio = q("1.7", "ratio"), note_below: Ratio = q("2.5", "ratio"),
):
    """A wheel whose bolts carry torque by their shanks instead of by friction works loose; the bolts bend and break.

    Two and a half times the engine's torque is room for launch and torsional peaks. Engines live for years with twice;
    below 1.7 the clutch, which holds some 1.5 times, hands on all that the bolts can bear.
    """
    if flywheel_torque_capacity is None or not peak_torque:
        return not_applicable("bolt circle, friction, tension or torque is not known")
    return at_least(Ratio(flywheel_torque_capacity / peak_torque), warning=warning_below, note=note_below)


CLEAR = """
joints:
  %s: {kind: bolt, tip_to_obstacle: %s}  %s
"""


@rule(
    scope="joint",
    level="error",
    due="assembly",
    says="The ends of the {joint_name} bolts are {value} from block or cap; keep {limit}.",
    fix="Take bolts shorter by {shorten_by:up}; flexplate bolts and flywheel bolts differ in length and head and are not swapped.",
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
