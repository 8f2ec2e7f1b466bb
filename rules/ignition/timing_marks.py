"""Where top is, and whether mark, pointer and tape say so."""

from buildlint.numeric import PI
from buildlint.rulebook import *

FOUND = """
damper: {top_found_by: %s}
"""


@rule(
    scope="build",
    level="reminder",
    due="mock_up",
    says="Top of cylinder one must be proven with a stop or dial, turned both ways and halved{found}.",
    fix="Fit a positive stop, turn the crank by hand both ways, mark both readings and halve them; set the pointer to it, then sign this check.",
    source="common practice, no source",
    caution="Turn by hand with the plugs out: a starter against a piston stop breaks the piston.",
    points_at=("damper_top_found_by",),
    conforming=(FOUND % "mark_only", "damper: {mark_angle: 10 deg}"),
)
def dead_center_is_proven(damper_top_found_by: Choice = None):
    """Damper, cover and pointer come from mixed families, and old rings slip: only the piston knows where top is.

    Two degrees at the wheel move the trapped ratio by more than any rod length and the spark by as much. A spec that
    says it was found by stop or dial has its answer.
    """
    if damper_top_found_by in ("piston_stop", "dial_indicator"):
        return passes()
    return review().telling(found=": so far only the mark was read" if damper_top_found_by == "mark_only" else "")


MARKS = """
damper: {outside_diameter: %s, mark_angle: %s, pointer_angle: 10 deg, pointer_made_for_diameter: 6.75 in}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="Mark and pointer differ by {value}; every timing reading would be out by as much.",
    fix="Take damper and pointer of one family, or make a new mark where the piston says top is.",
    source="common practice, no source; one engine family has dampers marked 2 and 10 degrees before the key",
    when={"damper_mark_angle": given, "damper_pointer_angle": given},
    points_at=("damper_mark_angle", "damper_pointer_angle"),
    conforming=MARKS % ("6.75 in", "10 deg", ""),
    nonconforming=(MARKS % ("6.75 in", "2 deg", "# <-"), MARKS % ("8.0 in", "10 deg", "# <-")),
)
def timing_mark_matches_pointer(
    damper_mark_angle: Angle, damper_pointer_angle: Angle, damper_outside_diameter: Length = None,
    damper_pointer_made_for_diameter: Length = None, *, angle_within: Angle = q("0.5 deg"),
    diameter_within: Fraction = q("0.03", "fraction"),
):
    """A mark of one family under a pointer of another is 8 degrees out, and the engine is tuned to a lie.

    The key decides: both angles are counted from it. A pointer made for another diameter does not reach its damper or
    stands beside the mark, which is a warning.
    """
    difference = damper_mark_angle - damper_pointer_angle
    if abs(difference) > angle_within * (1 + 1e-9):
        return at_most(Angle(abs(difference)), angle_within)
    if damper_outside_diameter is not None and damper_pointer_made_for_diameter is not None:
        share = abs(damper_pointer_made_for_diameter / damper_outside_diameter - 1)
        return at_most(Fraction(share), warning=diameter_within).saying(
            "The pointer is made for a damper of {damper_pointer_made_for_diameter}, this one measures {damper_outside_diameter}: timing "
            "would be read beside the mark.", "Take the pointer that belongs to this diameter.")
    return at_most(Angle(abs(difference)), angle_within)


TAPE = """
damper: {outside_diameter: %s, tape_diameter: %s}  %s
ignition: {total_advance: 36 deg}
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="The timing tape is made for {damper_tape_diameter}, the damper measures {damper_outside_diameter}: the mark for {shown} "
         "stands at {true} in truth.",
    fix="Take a tape for {damper_outside_diameter}; one degree is {per_degree} there.",
    source="geometry: pi x diameter / 360",
    when={"damper_tape_diameter": given},
    points_at=("damper_tape_diameter",),
    conforming=TAPE % ("6.75 in", "6.75 in", ""),
    nonconforming=(TAPE % ("6.75 in", "8.0 in", "# <-"), TAPE % ("8.0 in", "7.9 in", "# <-")),
)
def timing_tape_fits_damper(
    damper_tape_diameter: Length, damper_outside_diameter: Length, total_advance: Angle = None, *,
    share_within: Fraction = q("0.005", "fraction"),
    usual_advance: Angle = q("36 deg"),
):
    """A tape off another damper reads right at top and wrong everywhere else, worst where it matters."""
    shown = total_advance if total_advance is not None else usual_advance
    true = shown * damper_tape_diameter / damper_outside_diameter
    verdict = at_most(Fraction(abs(damper_tape_diameter / damper_outside_diameter - 1)), share_within)
    return verdict.telling(shown=Angle(shown, "deg"), true=Angle(true, "deg"),
                           per_degree=Length(damper_outside_diameter * PI / 360, damper_outside_diameter.unit))
