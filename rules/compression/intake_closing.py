"""When the intake valve closes, and the ratio that is left from there."""

from buildlint.rulebook import *
from buildlint.tables.duties import STREET_DUTIES

ENGINE = """
block: {bore: 4.030 in}
crank: {stroke: 3.480 in}
rods: {length: 5.700 in}
pistons: {below_deck: 0.005 in, dish_volume: 5.0 cc}
heads: {chamber_volume: 64.0 cc}
head_gasket: {compressed_thickness: 0.039 in, bore: 4.100 in}
"""

CLOSING = ENGINE + """
intake:
  lobe: {centerline: 106 deg, advertised_duration: 276 deg, advertised_check_height: 0.006 in, closes_after_bottom_advertised: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="The intake valve closes {value} after bottom by the cam's figures{trouble}; {least} to {most} is what engines use.",
    fix="Read the card again: closing after bottom, at the advertised height, in crank degrees; half the duration plus the centerline "
        "less 180 degrees must give it.",
    source="definition of the events; the band common practice, no source",
    points_at=("intake_lobe_closes_after_bottom_advertised", "intake_lobe_advertised_duration"),
    conforming=CLOSING % ("64 deg", ""),
    nonconforming=(CLOSING % ("116 deg", "# <-"), CLOSING % ("14 deg", "# <-"), CLOSING % ("-2 deg", "# <-")),
)
def intake_closing_is_plausible(
    intake_closing_seat: Angle, trapped_compression_ratio: Ratio = None, compression_ratio: Ratio = None, *,
    least: Angle = q("25 deg"), most: Angle = q("100 deg"),
):
    """Everything that is said of trapped compression hangs on this angle; a wrong line of the card spoils it all.

    A closing before bottom would trap more than the whole cylinder, which is the same slip seen from the other side.
    """
    impossible = trapped_compression_ratio is not None and compression_ratio is not None and (
        trapped_compression_ratio > compression_ratio * (1 + 1e-9))
    trouble = ", and the trapped ratio would be above the static one" if impossible else ""
    return within(Angle(intake_closing_seat), least, most).telling(trouble=trouble)


CARD = """
build: {stage: ordering}
intake:
  lobe: {advertised_duration: 276 deg, centerline: 106 deg%s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="The card's advertised figures do not say at which lift they are taken; the intake closes {intake_closing_seat} after bottom "
         "at that lift, whatever it is.",
    fix="Write intake.lobe.advertised_check_height: 0.006 in on most hydraulic cards, 0.015 to 0.020 in on many solid ones; ask the "
        "grinder.",
    source="common practice, no source",
    points_at=("intake_lobe_advertised_duration", "intake_lobe_closes_after_bottom_advertised"),
    conforming=CARD % (", advertised_check_height: 0.006 in", ""),
    nonconforming=CARD % ("", "# <-"),
)
def intake_closing_states_its_lift(
    intake_lobe_advertised_duration: Angle = None, intake_lobe_closes_after_bottom_advertised: Angle = None,
    intake_lobe_advertised_check_height: Length = None,
):
    """The same lobe closes 25 degrees apart at 0.006 and at 0.050 in, which is worth a whole ratio of trapped compression.

    Numbers from different check heights must never be compared; the limits here are for a closing near the seat.
    """
    if intake_lobe_advertised_duration is None and intake_lobe_closes_after_bottom_advertised is None:
        return not_applicable("no advertised figure is written")
    if intake_lobe_advertised_check_height is None:
        return wanting("intake_lobe_advertised_check_height").at("intake_lobe_advertised_duration",
                                                                 "intake_lobe_closes_after_bottom_advertised")
    return passes()


LAZY = "build: {duty: %s, induction: %s}" + CLOSING


@rule(
    scope="build",
    level="note",
    due="planning",
    says="Only {value} of compression is trapped when the intake closes {intake_closing_seat} after bottom: the engine will be lazy below "
         "its torque peak.",
    fix="Too much cam for the ratio: an intake closing about {degrees} degrees earlier, or a static ratio of about {ratio_to_reach:up}, traps "
        "{limit}.",
    source="common practice, no source",
    when={"duty": STREET_DUTIES, "induction": ("natural",)},
    points_at=("intake_lobe_closes_after_bottom_advertised",),
    conforming=(LAZY % ("street", "natural", "64 deg", ""), LAZY % ("drag_race", "natural", "90 deg", "")),
    nonconforming=LAZY % ("street", "natural", "92 deg", "# <-"),
)
def trapped_ratio_keeps_low_end(
    trapped_compression_ratio: Ratio, compression_ratio: Ratio, *, least: Ratio = q("6.5:1", "ratio"),
    ratio_per_degree: Ratio = q("0.063", "ratio"),
):
    """A street engine lives below its torque peak, and there the piston pushes back out what a late valve lets go.

    Race engines never see that range; a supercharger fills the gap.
    """
    short = max(least - trapped_compression_ratio, 0.0)
    static = 1 + (compression_ratio - 1) * (least - 1) / (trapped_compression_ratio - 1)
    verdict = at_least(Ratio(trapped_compression_ratio, ":1"), note=least)
    return verdict.telling(degrees=f"{short / ratio_per_degree:.0f}", ratio_to_reach=Ratio(static, ":1"))
