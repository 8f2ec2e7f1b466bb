"""Studs and their nuts: long enough, not shanked out, strong enough, and clear of what moves."""

from buildlint.rulebook import *
from buildlint.tables.fasteners import CRITICAL_JOINTS, STRENGTH_CLASSES

LENGTHS = """
joints:
  head:
    {kind: stud, thread: 7/16-20, length: %s, engagement_length: 0.875 in, grip_length: 3.411 in, hole: {counterbore: 0.100 in}, nut: {height: 0.4375 in}}  %s
"""
PROTRUDES = """
joints:
  head: {kind: stud, thread: 7/16-20, nut: {protrusion: %s}}  %s
"""


@rule(
    scope="joint",
    level="error",
    due="ordering",
    says="{trouble}",
    fix="Take a stud {length_change}: one to three threads above the nut are right.",
    source="geometry; protrusion common practice, no source",
    when={"nut_protrusion": given},
    points_at=("nut_protrusion_written", "length"),
    compares=("nut_protrusion",),
    conforming=(LENGTHS % ("4.90 in", ""), PROTRUDES % ("0.08 in", "")),
    nonconforming=(LENGTHS % ("4.75 in", "# <-"), """
        joints:
          head: {kind: stud, thread: 7/16-20, length: 4.50 in, grip_length: 3.40 in, engagement_length: 0.875 in, nut: {height: 0.4375 in, protrusion: 0.08 in}}  # <-
        """, PROTRUDES % ("-0.04 in", "# <-"), PROTRUDES % ("0.03 in", "# <-")),
)
def stud_reaches_through_its_nut(
    nut_protrusion: Length, pitch: Length = None, kind: Choice = None, length: Length = None, nut_protrusion_written: Length = None,
    nut_protrusion_computed: Length = None, *,
    least_pitches: Ratio = q("1", "ratio"), aim_pitches: Ratio = q("2", "ratio"), most_pitches: Ratio = q("6", "ratio"),
):
    """A nut that is not filled with thread strips, and the first and last turns of a nut carry little.

    Washers, gasket and head are all in the stack: thicker washers or a thicker gasket steal nut thread. A stud that
    stands far out is harmless until it meets a rocker or a cover. A stud may go deeper than its engaged thread, with
    its nose, but it cannot stand out farther than its length leaves.
    """
    if kind not in ("stud", None):
        return not_applicable("no stud")
    if pitch is None:
        pitch = 0.00127
    if None not in (nut_protrusion_written, nut_protrusion_computed) and nut_protrusion_written - nut_protrusion_computed > 2 * pitch:
        return require(False, "warning").saying(
            "The stud is written to stand {nut_protrusion_written} above its nut, but length less grip, engagement and nut leave {nut_protrusion_computed}.",
            "Correct the length, grip, engagement or height that is of another stud; then look at the thread in nut and casting again.").at("length", "nut_protrusion_written")
    verdict = at_least(Length(nut_protrusion), error=Length(0.0), warning=Length(least_pitches * pitch))
    if verdict.kind == "pass":
        verdict = at_most(Length(nut_protrusion), note=Length(most_pitches * pitch))
    change = aim_pitches * pitch - nut_protrusion
    trouble = {"error": "The stud ends {short} below the top of its nut.",
               "warning": "The stud ends {value} above its nut; leave {limit}.",
               "note": "The stud stands {value} above its nut."}.get(verdict.level, "The stud stands {value} above its nut.")
    verdict.telling(short=Length(max(0.0, -nut_protrusion)), length_by=Length(abs(change)))
    return verdict.saying(trouble, "Take a stud {length_by} " + ("longer" if change > 0 else "shorter")
                          + " or so: one to three threads above the nut are right.")


SHANK = """
joints:
  head: {kind: stud, thread: 7/16-20, nut: {height: 0.4375 in, protrusion: 0.10 in, thread_length: %s}}  %s
"""


@rule(
    scope="joint",
    level="error",
    due="ordering",
    says="Thread is left for {value} below the nut before the plain shank begins; keep {limit}.",
    fix="Take studs with {thread_to_have:up} of thread at the nut end, or add washer under the nut if its maker allows it.",
    source="geometry; common practice, no source",
    when={"nut_thread_length": given},
    points_at=("nut_thread_length",),
    conforming=SHANK % ("0.75 in", ""),
    nonconforming=(SHANK % ("0.52 in", "# <-"), SHANK % ("0.56 in", "# <-")),
)
def nut_clears_the_stud_shank(
    nut_thread_length: Length, nut_height: Length = None, nut_protrusion: Length = None, pitch: Length = None, kind: Choice = None,
    *,
    least_pitches: Ratio = q("1", "ratio"),
):
    """A nut that runs onto the plain shank reads full torque and clamps nothing.

    Thin washers, a thin gasket or a skimmed head bring the nut further down the stud than its maker counted on.
    """
    if nut_height is None or nut_protrusion is None or kind not in ("stud", None):
        return not_applicable("nut height or protrusion is not known")
    used = nut_height + nut_protrusion
    room = least_pitches * (0.00127 if pitch is None else pitch)
    verdict = at_least(Length(nut_thread_length - used), error=Length(0.0), warning=Length(room))
    verdict.telling(thread_to_have=Length(used + room), onto=Length(used - nut_thread_length))
    return verdict.saying("The nut meets the plain shank {onto} before it is home.") if verdict.level == "error" else verdict


NUT = """
joints:
  head: {kind: stud, thread: 7/16-20, strength_class: %s, nut: {strength_class: %s, height: %s}}  %s
"""


@rule(
    scope="joint",
    level="error",
    due="ordering",
    says="{trouble}",
    fix="Order nuts of the stud's own class or above, at least {height_to_have:up} high.",
    source="ISO 898-2: a nut of the bolt's first figure or above; height common practice, no source",
    points_at=("nut_strength_class", "nut_height"),
    conforming=(NUT % ("190_ksi", "190_ksi", "0.4375 in", ""), NUT % ("iso_8_8", "iso_10_9", "0.40 in", "")),
    nonconforming=(NUT % ("iso_12_9", "iso_8_8", "0.4375 in", "# <-"), NUT % ("200_ksi", "sae_grade_8", "0.4375 in", "# <-"),
                   NUT % ("190_ksi", "190_ksi", "0.30 in", "# <-")),
)
def nut_is_as_strong_as_stud(
    strength_class: Choice = None, nut_strength_class: Choice = None, nut_height: Length = None, diameter: Length = None,
    nut_kind: Choice = None, *, least_height: Ratio = q("0.8", "ratio"), tolerance: Fraction = q("0.03", "fraction"),
):
    """The nut should hold until the stud breaks; a soft or thin one strips its thread without warning.

    Stud steels are named by their strength and have no standard nut, so against them the finding is a warning.
    """
    stud, nut = STRENGTH_CLASSES.get(strength_class), STRENGTH_CLASSES.get(nut_strength_class)
    height = least_height * diameter if diameter is not None else None
    facts = {"height_to_have": Length(height) if height is not None else "0.8 diameters"}
    if stud is not None and nut is not None and nut[2] < stud[2] * (1 - tolerance):
        level = "error" if stud[3] and nut[3] else "warning"
        verdict = require(False, level).telling(trouble=f"Nuts of {_plain(nut_strength_class)} are weaker than studs of {_plain(strength_class)}.")
        return verdict.telling(**facts)
    if height is not None and nut_height is not None:
        verdict = at_least(Length(nut_height), warning=Length(height)).at("nut_height")
        return verdict.telling(**facts).saying("The nut is {value} high; its thread wants {limit}.")
    return passes() if nut is not None and stud is not None else not_applicable("class or height of the nut is not written")


def _plain(name):
    return name.replace("_", " ")


TIP = """
joints:
  %s: {kind: stud, tip_to_obstacle: %s}  %s
"""


@rule(
    scope="joint",
    level="error",
    due="mock_up",
    says="The end of the {joint_name} fastener is {value} from what moves or covers it; keep {limit}.",
    fix="Shorten the fastener's free end by {shorten_by:up}, or make room there.",
    source="common practice, no source",
    when={"tip_to_obstacle": given},
    points_at=("tip_to_obstacle",),
    conforming=(TIP % ("main", "0.10 in", ""), TIP % ("flywheel", "0.01 in", "")),
    nonconforming=(TIP % ("main", "0.03 in", "# <-"), TIP % ("head", "-0.05 in", "# <-")),
)
def stud_end_clears_moving_parts(
    tip_to_obstacle: Length, joint_name: Choice, hole_opens_into: Choice = None, *, least: Length = q("1.5 mm"),
):
    """Long studs meet rockers and covers above, windage trays, rods and pickups below.

    One that reaches into its neighbor is an error, one that only just passes a warning. Wheel bolts and bolts that end in a
    port have rules of their own.
    """
    if joint_name in ("flywheel", "flexplate") or hole_opens_into == "intake_port" or joint_name not in CRITICAL_JOINTS:
        return not_applicable("judged elsewhere")
    verdict = at_least(Length(tip_to_obstacle), error=Length(0.0), warning=least)
    verdict.telling(shorten_by=Length(least - tip_to_obstacle), overlap=Length(-tip_to_obstacle))
    return verdict.saying("The end of the {joint_name} fastener reaches {overlap} into what moves or covers it.") if tip_to_obstacle < 0 else verdict
