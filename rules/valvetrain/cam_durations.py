"""Whether the durations of a lobe are possible and comparable, and whether its ramp suits what runs on it."""

from buildlint.rulebook import *

HYDRAULIC = ("hydraulic_flat", "hydraulic_roller")
PRODUCTION_ROCKERS = ("stamped_ball", "production_needle_trunnion", "production_caged_trunnion", "production_bushing_trunnion",
                      "production_shaft")

THREE = """
intake:
  lobe: {advertised_duration: 281 deg, advertised_check_height: 0.006 in, duration_at_050: %s, duration_at_200: %s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="{longer} is {value}, not more than {limit} {shorter}; a lobe is open longest at its lowest lift.",
    fix="Read the card again: the figures have changed places, or stand for two cams.",
    source="geometry of a lobe",
    conforming=(THREE % ("231 deg", "150 deg", ""), "intake: {lobe: {duration_at_050: 231 deg, duration_at_200: 230 deg}}"),
    nonconforming=(THREE % ("281 deg", "150 deg", "# <-"), THREE % ("150 deg", "231 deg", "# <-")),
)
def duration_figures_are_ordered(
    lobe_advertised_duration: Angle = None, lobe_duration_at_050: Angle = None, lobe_duration_at_200: Angle = None,
):
    """Duration falls as the lift it is taken at rises; figures in another order were mistyped.

    Everything computed from the flank of the lobe (float speed, piston to valve) rests on them.
    """
    known = [row for row in (("The advertised duration", "advertised", "lobe_advertised_duration", lobe_advertised_duration),
                             ("The duration at 0.050 in", "at 0.050 in", "lobe_duration_at_050", lobe_duration_at_050),
                             ("The duration at 0.200 in", "at 0.200 in", "lobe_duration_at_200", lobe_duration_at_200))
             if row[3] is not None]
    if len(known) < 2:
        return not_applicable("only one duration is written")
    for (longer, _, word, value), (_, shorter, _, limit) in zip(known, known[1:]):
        if value <= limit:
            verdict = require(False).telling(longer=longer, shorter=shorter).at(word)
            verdict.value, verdict.limit = Angle(value, "deg"), Angle(limit, "deg")
            return verdict
    return passes()


@rule(
    scope="side",
    level="warning",
    due="ordering",
    says="The advertised duration of {lobe_advertised_duration} does not say at what lift it was taken.",
    fix="Write advertised_check_height from the card (0.004, 0.006 and 0.020 in are in use). Compare cams at 0.050 in.",
    source="common practice, no source; the trade press shows 30 degrees between check heights of 0.002 and 0.020 in",
    when={"lobe_advertised_duration": given},
    points_at=("lobe_advertised_duration",),
    conforming="intake: {lobe: {advertised_duration: 281 deg, advertised_check_height: 0.006 in}}",
    nonconforming="""
        build: {stage: ordering}
        intake: {lobe: {advertised_duration: 281 deg}}  # <-
        """,
)
def duration_states_check_height(lobe_advertised_duration: Angle, lobe_advertised_check_height: Length = None):
    """An advertised duration without its check height cannot be compared with another, nor turned into a flank.

    Check heights differ by maker and by kind of lifter; the same lobe may gain 30 degrees on paper.
    """
    if lobe_advertised_check_height is None:
        return wanting("lobe_advertised_check_height").at("lobe_advertised_duration")
    return passes()


RAMP = """
lifters: {kind: %s}
rockers: {class: %s}
exhaust:
  lobe: {advertised_duration: %s, advertised_check_height: %s, duration_at_050: 230 deg, ramp: %s}  %s
  spring: {seat_load: %s}
"""


@rule(
    scope="side",
    level="warning",
    due="ordering",
    says="{trouble}",
    fix="{cure}",
    source="common practice, no source",
    points_at=("lobe_ramp", "lobe_advertised_duration"),
    conforming=(RAMP % ("hydraulic_roller", "production_needle_trunnion", "282 deg", "0.006 in", "standard", "", "130 lbf"),
                RAMP % ("hydraulic_roller", "production_needle_trunnion", "273 deg", "0.006 in", "standard", "", "130 lbf"),
                RAMP % ("solid_roller", "shaft_aluminum", "262 deg", "0.020 in", "standard", "", "220 lbf"),
                RAMP % ("hydraulic_flat", "stamped_ball", "294 deg", "0.008 in", "standard", "", "100 lbf")),
    nonconforming=(RAMP % ("hydraulic_roller", "production_needle_trunnion", "273 deg", "0.006 in", "standard", "# <-", "110 lbf"),
                   RAMP % ("hydraulic_roller", "pedestal_roller", "264 deg", "0.006 in", "standard", "# <-", "150 lbf"),
                   RAMP % ("hydraulic_flat", "stamped_ball", "311 deg", "0.006 in", "standard", "# <-", "110 lbf"),
                   RAMP % ("hydraulic_roller", "pedestal_roller", "284 deg", "0.006 in", "tight_lash", "# <-", "150 lbf"),
                   RAMP % ("solid_flat", "shaft_aluminum", "280 deg", "0.020 in", "standard", "# <-", "130 lbf")),
)
def lobe_ramp_suits_the_lifter(
    lifter_kind: Choice, lobe_ramp: Choice = None, lobe_advertised_duration: Angle = None,
    lobe_advertised_check_height: Length = None, lobe_duration_at_050: Angle = None, rocker_class: Choice = None,
    spring_seat_load: Force = None, *,
    hydraulic_check_height: Length = q("0.006 in"), solid_check_height: Length = q("0.020 in"),
    check_height_tolerance: Length = q("0.0006 in"),
    hydraulic_warning=(q("35 deg"), q("80 deg")), hydraulic_usual=(q("40 deg"), q("62 deg")), solid_usual=(q("25 deg"), q("45 deg")),
    fast_below: Angle = q("45 deg"),
    seat_load_for_fast={"hydraulic_flat": q("100 lbf"), "hydraulic_roller": q("120 lbf")},
):
    """The ramp sets the valve down; a fast one under a soft spring bounces it, a slack one shuts late and idles badly.

    What is judged is the advertised duration less that at 0.050 in, only at the check height the bands were drawn
    for: 0.006 in with hydraulic and 0.020 in with solid lifters. A lobe ground for tight lash has hardly any ramp,
    and a hydraulic lifter on it hammers. The bands are practice and wide.
    """
    hydraulic = lifter_kind in HYDRAULIC
    if hydraulic and lobe_ramp == "tight_lash":
        return require(False).at("lobe_ramp").telling(
            trouble="The lobe is ground for tight lash, and a hydraulic lifter runs on it.",
            cure="Take a hydraulic grind, or solid lifters set to the lash of the card.")
    at = hydraulic_check_height if hydraulic else solid_check_height
    comparable = lobe_advertised_check_height is not None and abs(lobe_advertised_check_height - at) <= check_height_tolerance
    ramp = None
    if comparable and lobe_advertised_duration is not None and lobe_duration_at_050 is not None:
        ramp = Angle(lobe_advertised_duration - lobe_duration_at_050, "deg")
        ramp = ramp if ramp > 0 else None  # durations in the wrong order are another rule's affair
    soft = (hydraulic and rocker_class in PRODUCTION_ROCKERS and spring_seat_load is not None
            and spring_seat_load < seat_load_for_fast[lifter_kind])
    if soft and (lobe_ramp == "fast" or (ramp is not None and ramp < fast_below)):
        wanted = seat_load_for_fast[lifter_kind]
        verdict = at_least(spring_seat_load, wanted) if ramp is None else at_least(ramp, fast_below)
        return verdict.telling(
            trouble="The lobe has a fast ramp, on production rockers and a soft seat spring: the valve will bounce.",
            least=wanted).saying(fix="Raise the seat load to at least {least:up}, or take a gentler lobe.")
    if ramp is None:
        return not_applicable("ramp and check height are not written so that they can be compared")
    usual = hydraulic_usual if hydraulic else solid_usual
    verdict = within(ramp, warning=hydraulic_warning, note=hydraulic_usual) if hydraulic else within(ramp, note=solid_usual)
    return verdict.telling(low=Angle(usual[0], "deg"), high=Angle(usual[1], "deg")).saying(
        "Between its advertised duration and 0.050 in the lobe takes {value}; usual for this lifter is {low:up} to {high:down}.",
        "Make sure of the check height and the duration; a lobe this far from usual wants the cam grinder's word on spring and lifter.")


LIFTS = """
intake:
  lobe: {measured_lift: [%s]}  %s
"""


@rule(
    scope="side",
    level="note",
    due="ordering",
    says="The lobes differ by {spread} in lift, {value} of it; {lowest} is the lowest.",
    fix="Measure again with the lifter running true. If it stands, the cam is worn or badly ground: do not fit it.",
    source="common practice, no source",
    when={"lobe_measured_lift": given},
    points_at=("lobe_measured_lift",),
    conforming=(LIFTS % ("0.3530 in, 0.3528 in, 0.3531 in, 0.3530 in", ""), LIFTS % ("0.353 in, 0.350 in", "")),
    nonconforming=LIFTS % ("0.3530 in, 0.3529 in, 0.3461 in, 0.3530 in", "# <-"),
)
def lobes_of_one_side_match(
    lobe_measured_lift_spread: Length = None, lobe_measured_lift_largest: Length = None,
    lobe_measured_lift_smallest: Length = None, *, beyond: Fraction = q("0.01", "fraction"),
):
    """Lobes of one kind are ground alike; one that is lower has worn or was never right, and its cylinder will be weak.

    Lift stands for the area under the lobe: of like lobes one follows the other. A flat cam that is going shows here
    before it is heard.
    """
    if lobe_measured_lift_spread is None or not lobe_measured_lift_largest:
        return not_applicable("only one lobe was measured")
    verdict = at_most(Fraction(lobe_measured_lift_spread / lobe_measured_lift_largest, "%"), beyond)
    return verdict.telling(spread=Length(lobe_measured_lift_spread), lowest=lobe_measured_lift_smallest)
