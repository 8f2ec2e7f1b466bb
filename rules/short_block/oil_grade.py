"""The oil: whether its label is true, whether it suits clearance, cold and heat."""

from buildlint.rulebook import *
from buildlint.tables.oil import HIGH_SHEAR, HIGH_SHEAR_LIGHT_40, HOT_GRADES, LIGHT_WINTER_GRADES, WINTER_GRADES, read_label

LABEL = """
oiling: {grade: %s, viscosity_100: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="The oil is labeled {oil_grade}, but {trouble}.",
    fix="Correct the label, or the figure copied from the data sheet; {grade_text}.",
    source="SAE J300 (January 2015)",
    compares=("oil_viscosity_40", "oil_viscosity_100"),
    points_at=("oil_grade",),
    conforming=(LABEL % ("10W-30", "10.6 mm^2/s", ""), "oiling: {grade: 5W-20, viscosity_100: 8.4 mm^2/s, high_shear_viscosity: 2.6 mPa*s}",
                "oiling: {grade: 20W-50}"),
    nonconforming=(LABEL % ("10W-30", "12.6 mm^2/s", "# <-"), LABEL % ("SAE 40", "11.0 mm^2/s", "# <-"),
                   "oiling: {grade: 5W-40, high_shear_viscosity: 3.4 mPa*s}  # <-",
                   "oiling: {grade: 15W-40, high_shear_viscosity: 3.6 mPa*s}  # <-",
                   "oiling: {grade: 10W-40, viscosity_40: 14.4 mm^2/s, viscosity_100: 97 mm^2/s}  # <-"),
)
def oil_label_matches_viscosity(
    oil_grade: Choice, oil_viscosity_100_written: KinematicViscosity = None, oil_viscosity_40_written: KinematicViscosity = None,
    oil_high_shear_viscosity: Viscosity = None,
):
    """Everything about bearings and lifters is worked out from the oil; a label that its own data contradict spoils all of it.

    A hot grade is a band of viscosity at 100 degC and a least viscosity at 150 degC and high shear. An oil that satisfies
    two light grades carries the higher one.
    """
    label = read_label(oil_grade)
    if label is None:
        return not_applicable("not a grade of SAE J300")
    winter, hot = label
    at_100, at_40 = oil_viscosity_100_written, oil_viscosity_40_written
    if at_100 is not None and at_40 is not None and at_40 <= at_100:
        verdict = require(False).telling(trouble="it is not thicker at 40 degC than at 100", grade_text="the two figures are exchanged")
        return verdict.at("oil_viscosity_40_written")
    if at_100 is not None:
        least, below = HOT_GRADES[hot]
        if at_100 < least or at_100 >= below:
            true = [grade for grade, (low, high) in HOT_GRADES.items() if low <= at_100 < high]
            verdict = within(KinematicViscosity(at_100), least, KinematicViscosity(below * (1 - 1e-6)))
            verdict.limit = least if at_100 < least else below
            return verdict.telling(
                trouble="{value} at 100 degC", grade_text="").saying(
                f"The oil is labeled {{oil_grade}}, but {{value}} at 100 degC is {'below' if at_100 < least else 'at or above'} the {{limit}} of that grade.",
                "Correct the label, or the figure copied from the data sheet" + (f"; by its viscosity it is a {max(true)}." if true else ".")
            ).at("oil_viscosity_100_written")
    if oil_high_shear_viscosity is not None:
        least = HIGH_SHEAR_LIGHT_40 if hot == 40 and winter in LIGHT_WINTER_GRADES else HIGH_SHEAR[hot]
        verdict = at_least(oil_high_shear_viscosity, least)
        return verdict.saying("The oil is labeled {oil_grade}, but {value} at 150 degC and high shear is below the {limit} of that grade.",
                              "Correct the label, or the figure copied from the data sheet.").at("oil_high_shear_viscosity")
    return passes()


CHART = """
build: {induction: %s, fuel: pump_gasoline}
bearings:
  main: {clearance: %s}
  rod: {clearance: %s}
oiling: {grade: %s}  %s
"""
# hot grade: clearance up to which it is wanted; beyond the last the next grade. Seen in several articles; common practice, no source.
ROD_CHART = {20: q("0.0018 in"), 30: q("0.0024 in"), 40: q("0.0029 in"), 50: q("0.0040 in")}
MAIN_CHART = {20: q("0.0020 in"), 30: q("0.0025 in"), 40: q("0.0030 in")}
GRADES = (8, 12, 16, 20, 30, 40, 50, 60)


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="{oil_grade} is {steps} than the {wanted} grade that the clearances ask for{because}.",
    fix="Run a {wanted} grade, or set the clearances for the oil at the next build.",
    source="chart seen in several articles; heat and fuel common practice, no source",
    points_at=("oil_grade",),
    conforming=(CHART % ("natural", "0.0024 in", "0.0022 in", "10W-30", ""), CHART % ("turbocharged", "0.0024 in", "0.0022 in", "10W-40", ""),
                CHART % ("natural", "0.0019 in", "0.0017 in", "5W-20", ""), """
        build: {induction: natural}
        bearings:
          main: {clearance: 0.045 mm, journal_diameter: 54.0 mm}
          rod: {clearance: 0.040 mm, journal_diameter: 47.6 mm}
        oiling: {grade: 15W-40}
        """),
    nonconforming=(CHART % ("natural", "0.0027 in", "0.0026 in", "5W-20", "# <-"), CHART % ("turbocharged", "0.0024 in", "0.0022 in", "10W-30", "# <-"),
                   CHART % ("natural", "0.0019 in", "0.0017 in", "20W-50", "# <-"), """
        build: {induction: turbocharged, fuel: e85}
        bearings:
          main: {clearance: 0.0024 in}
          rod: {clearance: 0.0022 in}
        oiling: {grade: 10W-30}  # <-
        """),
)
def oil_grade_suits_clearance(
    oil_grade: Choice, rod_bearing_clearance_largest: Length, main_bearing_clearance_largest: Length,
    main_bearing_clearance_hot_largest: Length = None, block_material: Choice = None, induction: Choice = None, fuel: Choice = None,
    oil_temperature_highest: Temperature = None, oil_temperature: Temperature = None,
    rod_bearing_journal_diameter_smallest: Length = None, main_bearing_journal_diameter_smallest: Length = None, *,
    rod_chart=ROD_CHART, main_chart=MAIN_CHART, rod_journal: Length = q("2.10 in"), main_journal: Length = q("2.45 in"),
    clearly_apart: Ratio = q("1.1", "ratio"), hot_above: Temperature = q("130 degC"), cool_below: Temperature = q("80 degC"),
):
    """A wide bearing throws thin oil out faster than the pump brings it; a tight one starves on thick oil and runs hot.

    The chart is folklore that agrees with itself: the heavier of rods and mains counts, one step more for boost or for
    alcohol that thins the oil (one for both, as such engines are really run), one for a hot sump, one less where it never warms up. One step short is noted, since
    boosted street engines on a 30 grade are everywhere; two are a warning. In an aluminum block the hot clearance counts,
    less what an iron one grows. The chart was made with V8 journals in mind; on clearly smaller or larger ones a
    clearance counts in proportion.
    """
    label = read_label(oil_grade)
    if label is None:
        return not_applicable("not a grade of SAE J300")
    main = main_bearing_clearance_largest
    if block_material is not None and block_material.startswith("aluminum") and main_bearing_clearance_hot_largest is not None:
        main = max(main, (main + main_bearing_clearance_hot_largest) / 2)
    rod = rod_bearing_clearance_largest * _wider(rod_journal, rod_bearing_journal_diameter_smallest, clearly_apart)
    main = main * _wider(main_journal, main_bearing_journal_diameter_smallest, clearly_apart)
    wanted = max(_chart(rod, rod_chart), _chart(main, main_chart))
    place, reasons = GRADES.index(wanted), []
    hottest = oil_temperature_highest or oil_temperature
    boosted = induction in ("supercharged", "turbocharged")
    for applies, move, reason in (
            (boosted, 1, "boost"),
            (fuel in ("methanol", "ethanol", "e85", "nitromethane_blend"), 0 if boosted else 1, "the fuel's dilution"),
            (hottest is not None and hottest > hot_above, 1, "the hot sump"),
            (hottest is not None and hottest < cool_below, -1, "the cool sump")):
        if applies:
            place += move
            reasons.append(reason)
    place = min(max(place, 0), len(GRADES) - 1)
    apart = GRADES.index(label[1]) - place
    verdict = within(Count(apart), warning=(Count(-1), Count(1)), note=(Count(0), Count(1)))
    verdict.comparing(Count(label[1]), Count(GRADES[place]))
    steps = f"{abs(apart)} step{'s' if abs(apart) > 1 else ''} {'lighter' if apart < 0 else 'heavier'}"
    return verdict.telling(
        steps=steps, wanted=str(GRADES[place]), because=f" with {' and '.join(reasons)}" if reasons else "")


def _wider(usual, journal, clearly_apart):
    """How much wider a clearance is on this journal than on the chart's; 1 where the journal is about as large."""
    share = usual / journal if journal else 1.0
    return share if max(share, 1 / share) > clearly_apart else 1.0


def _chart(clearance, chart):
    beyond = GRADES[GRADES.index(max(chart)) + 1]
    return next((grade for grade, limit in chart.items() if clearance <= limit * (1 + 1e-9)), beyond)


COLD = """
build: {ambient_coldest: %s}
oiling: {grade: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="{oil_grade} is to be pumped at {value}; {promise}.",
    fix="Take an oil with a lower winter grade, or preheat the oil, and do not start colder than {limit}.",
    source="SAE J300 (January 2015): at most 60 000 mPa*s at the pumping temperature of the winter grade",
    points_at=("oil_grade", "ambient_coldest"),
    when={"ambient_coldest": given},
    conforming=(COLD % ("15 degF", "10W-40", ""), COLD % ("40 degF", "SAE 30", ""), COLD % ("-4 degF", "20W-50", "")),
    nonconforming=(COLD % ("-15 degF", "20W-50", "# <-"), COLD % ("20 degF", "SAE 40", "# <-")),
)
def oil_pumps_at_coldest_start(
    oil_grade: Choice, ambient_coldest: Temperature, *, straight_least: Temperature = q("32 degF"),
):
    """Oil that does not flow to the pickup leaves the bearings dry while the gauge still looks like a cold start.

    The winter grade promises a temperature at which the oil can still be pumped. A straight grade promises nothing for
    the cold; below freezing that is a warning.
    """
    label = read_label(oil_grade)
    if label is None:
        return not_applicable("not a grade of SAE J300")
    if label[0] is None:
        return at_least(ambient_coldest, warning=straight_least).telling(promise="a straight grade promises nothing below freezing")
    return at_least(ambient_coldest, WINTER_GRADES[label[0]][0]).telling(promise=f"{label[0]} promises to flow down to {{limit}}").saying(
        "{oil_grade} is to be pumped at {value}; its winter grade promises to flow down to {limit}.")


USED = """
oiling: {grade: 10W-40, used_viscosity_100: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="handover",
    says="The used oil has {value} at 100 degC, {lost} less than the least of its label.",
    fix="Change it, look for fuel in the oil (mixture, injectors, rings, ignition), and shorten the interval.",
    source="SAE J300 for the label; the fifth common practice, no source",
    when={"oil_used_viscosity_100": given},
    points_at=("oil_used_viscosity_100",),
    conforming=USED % ("12.0 mm^2/s", ""),
    nonconforming=USED % ("9.5 mm^2/s", "# <-"),
)
def used_oil_keeps_its_viscosity(
    oil_used_viscosity_100: KinematicViscosity, oil_grade: Choice, *, most_lost: Fraction = q("0.20", "fraction"),
):
    """Fuel in the oil thins it for good; the bearings are then run on a grade nobody chose."""
    label = read_label(oil_grade)
    if label is None:
        return not_applicable("not a grade of SAE J300")
    least = HOT_GRADES[label[1]][0]
    verdict = at_least(oil_used_viscosity_100, KinematicViscosity(least * (1 - most_lost)))
    return verdict.telling(lost=f"{1 - oil_used_viscosity_100 / least:.0%}")


WINDOW = """
oiling: {temperature_highest: %s, temperature_lowest: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="The sump is planned at {value} at load; {limit} is the line.",
    fix="Fit or enlarge the oil cooler, raise the fill, and look for what heats the oil.",
    source="common practice, no source",
    when={"oil_temperature_window": given},
    points_at=("oil_temperature_highest", "oil_temperature", "oil_temperature_lowest"),
    conforming=(WINDOW % ("240 degF", "160 degF", ""), WINDOW % ("266 degF", "122 degF", "")),
    nonconforming=(WINDOW % ("285 degF", "160 degF", "# <-"), WINDOW % ("240 degF", "100 degF", "# <-")),
)
def oil_stays_in_temperature_window(
    oil_temperature_window: Temperature, oil_temperature_highest: Temperature = None, oil_temperature: Temperature = None,
    oil_temperature_lowest: Temperature = None, *, hottest: Temperature = q("130 degC"), coldest: Temperature = q("50 degC"),
):
    """Cold oil shears the pump's drive and does not carry water off; hot oil thins, burns on the rings and cooks its seals.

    Mineral oils give up earlier than synthetic ones; at 150 degC even those are used up in hours.
    """
    verdict = at_most(Temperature(oil_temperature_window), warning=hottest).at(
        "oil_temperature_highest" if oil_temperature_highest is not None else "oil_temperature")
    if verdict.kind == "pass" and oil_temperature_lowest is not None:
        verdict = at_least(oil_temperature_lowest, warning=coldest).at("oil_temperature_lowest")
        return verdict.saying(fix="Warm the oil before loading the engine: a heater, a thermostat at the cooler, or a longer warm-up.")
    return verdict


THIN = """
oiling: {grade: %s, temperature_highest: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="In the bearings, at {film_temperature}, the oil has {value}; {limit} is the line.",
    fix="A heavier grade, or a cooler: the film is taken 25 K above the sump.",
    source="ASTM D341; shear and limits common practice, no source",
    when={"oil_viscosity_bearing": given},
    points_at=("oil_grade", "oil_viscosity_100"),
    conforming=(THIN % ("10W-30", "212 degF", ""), THIN % ("10W-40", "240 degF", "")),
    nonconforming=(THIN % ("5W-20", "275 degF", "# <-"), THIN % ("0W-20", "285 degF", "# <-")),
)
def oil_stays_viscous_when_hot(
    oil_viscosity_bearing: Viscosity, oil_temperature_bearing: Temperature, oil_grade: Choice = None, *,
    note_below: Viscosity = q("3.0 mPa*s"), warning_below: Viscosity = q("2.6 mPa*s"),
):
    """What carries the crank is viscosity at film temperature, after shear; the label tells it only for one temperature.

    Modern 20 grades work near three millipascal-seconds by design; below 2.6, the least a 20 has at 150 degC, the
    bearings live on luck.
    """
    verdict = at_least(Viscosity(oil_viscosity_bearing, "mPa*s"), warning=warning_below, note=note_below)
    return verdict.telling(film_temperature=Temperature(oil_temperature_bearing))


COOLER = """
build: {full_load_time: %s}
oiling: {cooler: %s}  %s
"""


@rule(
    scope="build",
    level="note",
    due="ordering",
    says="{value} at full load without an oil cooler.",
    fix="Plan an oil cooler with a thermostat, or show by measurement that the sump stays below 130 degC (266 degF).",
    source="common practice, no source",
    when={"full_load_time": given},
    points_at=("oil_cooler",),
    conforming=(COOLER % ("2 h", "fitted", ""), COOLER % ("10 s", "none", "")),
    nonconforming=COOLER % ("2 h", "none", "# <-"),
)
def oil_cooler_serves_long_runs(full_load_time: Time, oil_cooler: Choice = None, *, longest: Time = q("20 min")):
    """A pan cools enough for a pass or a lap or two; after twenty minutes the oil is as hot as it will ever get."""
    if oil_cooler == "fitted":
        return passes()
    if oil_cooler is None and full_load_time > longest:
        return lacking("oil_cooler")
    return at_most(full_load_time, longest).at("oil_cooler")
