"""What the belt drives: alternator, water pump and belt at idle and at the limiter, and pulleys in one plane."""

from math import atan

from buildlint.rulebook import *
from buildlint.tables.belts import BELT_SPEED

CIRCUIT = ("road_race", "oval_race")  # driven for hours, and hardly ever at idle
STREET = ("stock", "street", "street_strip", "towing")

ALTERNATOR = """
build: {idle_speed: %s, rev_limit: %s}
damper: {pulley_diameter: %s}
accessories:
  alternator: {pulley_diameter: 2.5 in%s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="{sentence}",
    fix="{remedy}",
    source="common practice, no source; a limit written from the maker's sheet wins",
    when={"alternator_pulley_diameter": given},
    points_at=("alternator_pulley_diameter",),
    conforming=(ALTERNATOR % ("800 rpm", "5500 rpm", "6.6 in", "", ""), ALTERNATOR % ("850 rpm", "6800 rpm", "6.2 in", ", speed_limit: 18000 rpm, cut_in_speed: 1500 rpm", "")),
    nonconforming=(ALTERNATOR % ("800 rpm", "7000 rpm", "6.6 in", "", "# <-"), ALTERNATOR % ("750 rpm", "6000 rpm", "5.0 in", "", "# <-"),
                   ALTERNATOR % ("850 rpm", "6500 rpm", "6.6 in", "", "# <-"), ALTERNATOR % ("850 rpm", "6800 rpm", "6.2 in", ", speed_limit: 15000 rpm", "# <-")),
)
def alternator_speed_suits_engine(
    alternator_speed_idle: Rpm, alternator_speed: Rpm, alternator_pulley_diameter: Length, idle_speed: Rpm, rev_limit: Rpm,
    alternator_cut_in_speed: Rpm = None, alternator_speed_limit: Rpm = None, damper_underdrive: Fraction = None, duty: Choice = None, *,
    least_idle: Rpm = q("1800 rpm"), noted_above: Rpm = q("15000 rpm"), most: Rpm = q("18000 rpm"),
):
    """One pair of pulleys has to charge at idle and hold together at the limiter; underdrive helps one end and starves the other.

    Ratios of 2.5 to 3.3 are usual on the street, about 1.75 for drag racing, near 1 on ovals. At idle it must be past the speed
    at which it begins to charge, 1800 rpm where that is not written; at the limiter below its maker's limit, else 18 000 rpm.
    A car that races on a circuit hardly idles, and charges as it runs: there only the limiter is looked at.
    """
    least = least_idle if alternator_cut_in_speed is None else alternator_cut_in_speed
    verdict = at_least(Rpm(alternator_speed_idle), warning=least)
    if verdict.kind == "fail" and duty not in CIRCUIT:
        why = f" (the crank pulley underdrives by {float(damper_underdrive) * 100:.0f} percent)" if damper_underdrive else ""
        return verdict.telling(smaller=Length(alternator_pulley_diameter * alternator_speed_idle / least, alternator_pulley_diameter.unit)).saying(
            "At idle the alternator turns {value}" + why + "; it charges from {limit} on.",
            "Fit an alternator pulley of {smaller:down} or less, or a larger crank pulley.")
    if alternator_speed_limit is not None:
        verdict = at_most(Rpm(alternator_speed), warning=alternator_speed_limit)
    else:
        verdict = at_most(Rpm(alternator_speed), note=noted_above, warning=most)
    unit = alternator_pulley_diameter.unit
    quiet, bearable, charging = (alternator_pulley_diameter * speed / limit for speed, limit in (
        (alternator_speed, verdict.goal), (alternator_speed, verdict.limit), (alternator_speed_idle, least)))
    larger = quiet if duty in CIRCUIT or quiet <= charging else bearable
    remedy = "Fit an alternator pulley of {larger:up} or more"
    if duty not in CIRCUIT:
        remedy += (", but not above {charging:down}, so that it still charges at idle." if larger <= charging else
                   " and a larger alternator, since it no longer charges at idle; or one that stands the speed.")
    else:
        remedy += "."
    return verdict.telling(larger=Length(larger, unit), charging=Length(charging, unit)).saying(
        "At the limiter the alternator turns {value}; {limit} is what it should see.", remedy)


FEEDS = """
build: {idle_speed: %s}
damper: {pulley_diameter: 6.4 in}
fuel_system: {pump: {kind: %s}}
accessories:
  alternator: {pulley_diameter: 2.5 in, electric_load: %s, rated_current: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="{sentence}",
    fix="Order an alternator rated {rating:up} or more, or a smaller pulley on it; low voltage costs an electric pump about an eighth of its flow.",
    source="shape of output curves by ISO 8854, from memory; common practice",
    when={"alternator_electric_load": given, "alternator_rated_current": given},
    points_at=("alternator_rated_current",),
    conforming=(FEEDS % ("850 rpm", "electric", "70 A", "140 A", ""), FEEDS % ("700 rpm", "mechanical", "55 A", "100 A", "")),
    nonconforming=(FEEDS % ("850 rpm", "electric", "95 A", "140 A", "# <-"), FEEDS % ("850 rpm", "electric", "110 A", "100 A", "# <-"), FEEDS % ("400 rpm", "electric", "60 A", "100 A", "# <-")),
)
def alternator_feeds_the_pumps(
    alternator_electric_load: Current, alternator_rated_current: Current, alternator_current_idle: Current = None,
    alternator_speed_idle: Rpm = None, fuel_pump_kind: Choice = None, water_pump_kind: Choice = None, deleted_accessories: List = None,
    duty: Choice = None, *, least_share: Fraction = q("0.80", "fraction"), hardly_charging: Fraction = q("0.25", "fraction"),
):
    """Pump, fans and ignition take what the battery has at idle; then the pump sees twelve volts at full load.

    Asked only where fuel or water hangs on an electric pump. The output at idle is an estimate by the alternator's speed, so a
    fifth too little is let pass; where it hardly charges at all the pulley is at fault and not its size. Idle is not asked of
    a car that races on a circuit; one that runs on its battery alone is left out.
    """
    if "alternator" in (deleted_accessories or ()):
        return not_applicable("the car runs on its battery")
    if "electric" not in (fuel_pump_kind, water_pump_kind):
        if None in (fuel_pump_kind, water_pump_kind):
            return not_applicable("no electric pump is written")
        return not_applicable("no electric pump hangs on it")
    verdict = at_least(alternator_rated_current, alternator_electric_load)
    if verdict.kind == "fail" or alternator_current_idle is None or duty in CIRCUIT:
        rating = 1.2 * alternator_electric_load
        share = None if alternator_current_idle is None or duty in CIRCUIT else alternator_current_idle / alternator_rated_current
        if share is not None and share >= hardly_charging:
            rating = max(rating, alternator_electric_load / share)
        return verdict.telling(rating=Current(rating)).saying("The alternator is rated {value}, and {limit} are taken.")
    share = alternator_current_idle / alternator_rated_current
    verdict = at_least(Current(alternator_current_idle), Current(least_share * alternator_electric_load))
    rating = Current(alternator_electric_load / share) if share > 0 else Current(2 * alternator_electric_load)
    return verdict.telling(rating=rating).saying(
        fix="Fit a smaller pulley on it: at this speed no alternator charges to speak of." if share < hardly_charging else None, says="At idle the alternator turns {alternator_speed_idle} and gives about {value}; {alternator_electric_load} are taken, and the battery makes up for it.")


PUMP = """
build: {rev_limit: %s, duty: %s}
damper: {pulley_diameter: %s}
cooling:
  water_pump: {kind: belt, pulley_diameter: 6.1 in%s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="At the limiter the water pump turns {value}; above {limit} it stirs foam instead of moving water.",
    fix="Fit a pump pulley of {pulley:up} or more, or a smaller crank pulley.",
    source="common practice, no source; a limit written from the maker's sheet wins",
    when={"water_pump_pulley_diameter": given, "water_pump_kind": ("belt",)},
    points_at=("water_pump_pulley_diameter",),
    conforming=(PUMP % ("6500 rpm", "street", "6.6 in", "", ""), PUMP % ("8500 rpm", "drag_race", "3.6 in", "", "")),
    nonconforming=(PUMP % ("7000 rpm", "street", "6.6 in", "", "# <-"), PUMP % ("8500 rpm", "road_race", "6.6 in", "", "# <-"),
                   PUMP % ("6500 rpm", "street", "6.6 in", ", speed_limit: 6500 rpm", "# <-"), PUMP % ("6000 rpm", "street", "3.8 in", "", "# <-")),
)
def water_pump_speed_is_bounded(
    water_pump_speed: Rpm, damper_pulley_diameter: Length, water_pump_pulley_diameter: Length, water_pump_speed_limit: Rpm = None,
    duty: Choice = None, *, noted_above: Rpm = q("7500 rpm"), most: Rpm = q("9000 rpm"), least_ratio: Ratio = q("0.65", "ratio"),
):
    """Too fast it cavitates and wears its own impeller, too slow it does not cool an idling street car in traffic.

    Pumps are driven at 0.9 to 1.25 of the crank on the street; below 0.65 such a car overheats at idle.
    """
    if water_pump_speed_limit is not None:
        verdict = at_most(Rpm(water_pump_speed), warning=water_pump_speed_limit)
    else:
        verdict = at_most(Rpm(water_pump_speed), note=noted_above, warning=most)
    if verdict.kind == "fail":
        return verdict.telling(pulley=Length(water_pump_pulley_diameter * water_pump_speed / verdict.goal, water_pump_pulley_diameter.unit))
    if duty in STREET:
        slow = at_least(Ratio(damper_pulley_diameter / water_pump_pulley_diameter), least_ratio)
        if slow.kind == "fail":
            return slow.telling(pulley=Length(damper_pulley_diameter / least_ratio, water_pump_pulley_diameter.unit)).saying(
                "The water pump turns {value} times the crank; on the street keep {limit}.", "Fit a pump pulley of {pulley:down} or less.")
    return verdict


BELT = """
build: {rev_limit: %s}
damper: {pulley_diameter: %s}
accessories:
  belt: {kind: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="The belt runs {value} at the limiter; {limit} is what a {kind} stands.",
    fix="Fit a crank pulley of {pulley:down} or less, with pulleys on the accessories to match.",
    source="common practice, no source",
    when={"belt_kind": given},
    points_at=("belt_kind",),
    conforming=("accessories: {belt: {kind: toothed}}", BELT % ("5500 rpm", "6.4 in", "v_belt", ""), BELT % ("6800 rpm", "6.2 in", "multi_rib", "")),
    nonconforming=(BELT % ("7000 rpm", "6.6 in", "multi_rib", "# <-"), BELT % ("7000 rpm", "6.0 in", "v_belt", "# <-")),
)
def belt_speed_is_bounded(
    belt_kind: Choice, belt_speed: Speed = None, rev_limit: Rpm = None, damper_pulley_diameter: Length = None, *, most=BELT_SPEED,
):
    """A fast belt lifts off its pulleys by its own weight, slips, turns over and goes through the radiator.

    Handbooks stop classical V-belts at 33 to 35 m/s for drives that run all day; at the limiter of a car the narrow sections live
    with 50 for moments, ribbed belts with 60. A toothed belt has its maker's limit.
    """
    if belt_kind not in most:
        return not_applicable("a toothed belt")
    if belt_speed is None:
        return lacking(*(word for word, value in (("rev_limit", rev_limit), ("damper_pulley_diameter", damper_pulley_diameter)) if value is None))
    unit = "ft/s" if damper_pulley_diameter.unit in ("in", '"') else "m/s"
    verdict = at_most(Speed(belt_speed, unit), Speed(most[belt_kind], unit))
    return verdict.telling(kind={"v_belt": "V-belt", "multi_rib": "ribbed belt"}[belt_kind],
                           pulley=Length(2 * most[belt_kind] / rev_limit, damper_pulley_diameter.unit))


PLANE = """
accessories:
  belt: {kind: %s, pulley_offset: %s, span: 9 in}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="assembly",
    says="Two pulleys stand {belt_pulley_offset} out of line over {belt_span} of belt, {value}; keep {limit}.",
    fix="Shim or space the accessory by {belt_pulley_offset}; {allowed:down} may be left over this span.",
    source="geometry; the angles common practice, no source",
    when={"belt_pulley_offset": given, "belt_span": given},
    points_at=("belt_pulley_offset",),
    conforming=(PLANE % ("multi_rib", "0.030 in", ""), PLANE % ("v_belt", "0.075 in", "")),
    nonconforming=(PLANE % ("multi_rib", "0.075 in", "# <-"), PLANE % ("v_belt", "0.120 in", "# <-")),
)
def pulleys_lie_in_one_plane(
    belt_pulley_offset: Length, belt_span: Length, belt_kind: Choice = None, *, ribbed: Angle = q("0.3333 deg"), plain: Angle = q("0.5 deg"),
):
    """A belt that enters its groove at an angle squeals, sheds a rib, and at speed climbs out.

    A straightedge across the faces shows it. Ribbed belts bear a third of a degree, V-belts half.
    """
    limit = plain if belt_kind == "v_belt" else ribbed
    allowed = Length(limit * belt_span, belt_pulley_offset.unit)
    return at_most(Angle(atan(belt_pulley_offset / belt_span), "deg"), limit).telling(allowed=allowed)


LAYOUT = """
accessories:
  fitted_accessories: [alternator, water_pump%s]
  deleted_accessories: [air_conditioning]
  belt: {laid_out_for: [alternator, water_pump%s]}  %s
"""
ON_THE_BELT = ("alternator", "water_pump", "power_steering", "air_conditioning", "air_pump", "vacuum_pump")


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="The belt is laid out {trouble}.",
    fix="Lay the belt out for {wanted}, and measure its length round the pulleys that are there.",
    source="arithmetic",
    when={"belt_laid_out_for": given, "fitted_accessories": given},
    points_at=("belt_laid_out_for", "fitted_accessories"),
    conforming=(LAYOUT % ("", "", ""), LAYOUT % (", power_steering", ", power_steering", "")),
    nonconforming=(LAYOUT % ("", ", air_conditioning", "# <-"), LAYOUT % (", power_steering", "", "# <-")),
)
def belt_follows_its_accessories(belt_laid_out_for: List, fitted_accessories: List, ordered_pieces: Entries = None):
    """A belt cut for a compressor that was left off is inches too long, and one that misses a pump drives nothing there.

    Where a belt is on the order, it is asked about at its line.
    """
    if "belt" in (ordered_pieces or ()):
        return not_applicable("asked at the line of the order")
    layout, fitted = set(belt_laid_out_for), set(fitted_accessories)
    too_many, missing = sorted((layout & set(ON_THE_BELT)) - fitted), sorted((fitted & set(ON_THE_BELT)) - layout)
    said = [f"for {' and '.join(too_many)}, which is not fitted"] if too_many else []
    said += [f"without {' and '.join(missing)}, which is fitted"] if missing else []
    wanted = ", ".join(sorted((layout - set(too_many)) | set(missing)))
    return require(not said).telling(trouble=" and ".join(said).replace("_", " "), wanted=wanted.replace("_", " "))
