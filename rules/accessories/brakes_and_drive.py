"""What hangs on the engine's idle and torque: brake booster, converter and clutch."""

from buildlint.rulebook import *

STREET = ("stock", "street", "street_strip", "towing")
ROAD = (*STREET, "road_race", "oval_race", "drag_race")  # a boat has no brakes

BRAKES = """
build: {duty: street}
accessories: {brake_assist: %s}
induction:
  idle_vacuum: %s  %s
"""
CAM = """
build: {duty: street}
camshaft: {lobe_separation: %s}
intake: {lobe: {duration_at_050: %s}}
engine: {cylinders: 8}
block: {bore: 4.030 in}
crank: {stroke: 3.480 in}
accessories:
  brake_assist: %s  %s
"""


@rule(
    scope="build",
    level="warning",
    due="planning",
    says="The engine pulls {value} at idle; below {limit} a vacuum booster {effect}.",
    fix="Fit a vacuum pump or hydraulic assist, or take a cam with less overlap; a reservoir alone only stores what there is.",
    source="16 to 18 inHg (0.54 bar) is a published least for boosters; the rest common practice",
    when={"duty": ROAD, "brake_assist": ("vacuum_booster", "vacuum_booster_with_reservoir")},
    points_at=("idle_vacuum", "brake_assist"),
    caution="Brakes: try them at walking pace first, engine warm and in gear, on level ground.",
    conforming=(BRAKES % ("vacuum_booster", "17 inHg", ""), BRAKES % ("vacuum_booster_with_reservoir", "14 inHg", ""),
                CAM % ("106 deg", "244 deg", "hydraulic", ""), "build: {duty: marine}", CAM % ("112 deg", "224 deg", "vacuum_booster", "")),
    nonconforming=(BRAKES % ("vacuum_booster", "14 inHg", "# <-"), BRAKES % ("vacuum_booster", "9 inHg", "# <-"),
                   BRAKES % ("vacuum_booster_with_reservoir", "11 inHg", "# <-"), CAM % ("106 deg", "244 deg", "vacuum_booster", "# <-")),
)
def idle_vacuum_works_the_brakes(
    duty: Choice, brake_assist: Choice, idle_vacuum: Pressure = None, intake_lobe_duration_at_050: Angle = None, camshaft_lobe_separation: Angle = None,
    displacement: Volume = None, *, plenty: Pressure = q("16 inHg"), least: Pressure = q("12 inHg"), long_duration: Angle = q("235 deg"),
    narrow_separation: Angle = q("107 deg"), small_engine: Volume = q("6.6 L"),
):
    """A long cam idles without vacuum, and the third stop from traffic speed is the one without a booster.

    Below 16 inHg a booster is weak, below 12 it does not help; a reservoir evens out the first of these but not the second. Where
    no vacuum is written a cam beyond 235 degrees at 0.050 in in an engine below 6.6 liters, or with lobes closer than 107 degrees,
    is noted, since it mostly idles below 12 inHg.
    """
    if idle_vacuum is not None:
        noted = plenty if brake_assist == "vacuum_booster" else None
        verdict = at_least(idle_vacuum, warning=least, note=noted)
        return verdict.telling(effect="does not help" if verdict.level == "warning" else "is weak")
    if intake_lobe_duration_at_050 is None and camshaft_lobe_separation is None:
        return lacking("idle_vacuum")
    small = displacement is None or displacement < small_engine
    long = intake_lobe_duration_at_050 is not None and intake_lobe_duration_at_050 > long_duration * (1 + 1e-9) and small
    narrow = camshaft_lobe_separation is not None and camshaft_lobe_separation < narrow_separation * (1 - 1e-9)
    return require(not (long or narrow), "note").at("brake_assist").saying(
        "With this cam the engine will mostly idle below {least} of vacuum, too little for a booster.",
        "Plan a vacuum pump or hydraulic assist, or measure the vacuum and write induction.idle_vacuum.")


CONVERTER = """
build: {transmission: automatic, duty: %s, window_low: 2800 rpm, peak_torque_speed: 4800 rpm, peak_power_speed: 6200 rpm, idle_speed_in_gear: %s}
driveline:
  converter: {stall: %s, cooler: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="planning",
    says="The converter stalls at {value}; {what} {limit}.",
    fix="Order a converter that stalls at {low:up} to {high:down} behind this torque, or choose a cam for the converter that is there.",
    source="common practice, no source",
    when={"converter_stall": given, "transmission": ("automatic",)},
    points_at=("converter_stall",),
    conforming=(CONVERTER % ("street_strip", "800 rpm", "3000 rpm", "fitted", ""), CONVERTER % ("drag_race", "1100 rpm", "5600 rpm", "fitted", "")),
    nonconforming=(CONVERTER % ("street", "800 rpm", "2200 rpm", "fitted", "# <-"), CONVERTER % ("street", "800 rpm", "5500 rpm", "fitted", "# <-"),
                   CONVERTER % ("drag_race", "1100 rpm", "6400 rpm", "fitted", "# <-"), CONVERTER % ("street_strip", "800 rpm", "3400 rpm", "none", "# <-"),
                   CONVERTER % ("street_strip", "2500 rpm", "2700 rpm", "fitted", "# <-")),
)
def converter_stall_suits_the_cam(
    converter_stall: Rpm, window_low: Rpm = None, peak_torque_speed: Rpm = None, peak_power_speed: Rpm = None, idle_speed_in_gear: Rpm = None,
    duty: Choice = None, converter_cooler: Choice = None, *, bog: Rpm = q("400 rpm"), loose: Rpm = q("500 rpm"), creep: Rpm = q("300 rpm"),
    hot_from: Rpm = q("3000 rpm"),
):
    """A big cam on a tight converter bogs, a loose converter on a small cam only heats its oil.

    Right is between the low end of the cam's window and the torque peak; on the street not more than 500 rpm past that, and
    nowhere at the power peak. Without a cooler a loose converter boils its oil; a car that only makes passes may do without, which
    is noted. Stall is quoted behind some torque: more torque stalls the same converter higher.
    """
    low = window_low if window_low is not None else converter_stall
    high = peak_torque_speed if peak_torque_speed is not None else converter_stall
    checks = []
    if window_low is not None:
        checks.append((at_least(converter_stall, Rpm(window_low - bog)), "the cam is lazy below"))
    if peak_power_speed is not None:
        verdict = at_most(converter_stall, peak_power_speed)
        if verdict.kind == "pass" and converter_stall >= peak_power_speed:
            verdict = require(False)
            verdict.value, verdict.limit = converter_stall, peak_power_speed
        checks.append((verdict, "nothing is left above the power peak of"))
    if peak_torque_speed is not None and duty in STREET:
        checks.append((at_most(converter_stall, Rpm(peak_torque_speed + loose)), "on the street it slips too much above"))
    if idle_speed_in_gear is not None:
        checks.append((at_least(converter_stall, Rpm(idle_speed_in_gear + creep)), "with this idle in gear the car creeps or stalls below"))
    if not checks:
        return lacking("window_low")
    for verdict, what in checks:
        if verdict.kind == "fail":
            return verdict.telling(what=what, low=Rpm(low), high=Rpm(high))
    if converter_cooler == "none":
        verdict = at_most(converter_stall, hot_from).at("converter_cooler")
        if verdict.kind == "fail" and duty == "drag_race":
            verdict.within_level("note")
        if verdict.kind == "fail":
            return verdict.saying("A converter that stalls at {value} runs without an oil cooler; above {limit} it cooks the gearbox.",
                                  "Fit a cooler, after the one in the radiator or instead of it.")
    return checks[0][0]


CLUTCH = """
build: {peak_torque: %s, peak_torque_speed: 4500 rpm}%s
driveline:
  clutch: {capacity: 600 lbf-ft}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="The clutch holds {clutch_capacity}, {value} times the {torque} it gets; keep {limit}.",
    fix="Order a clutch good for {wanted:up} or more.",
    source="common practice, no source",
    when={"clutch_capacity": given},
    points_at=("clutch_capacity",),
    conforming=(CLUTCH % ("450 lbf-ft", "", ""), CLUTCH % ("400 lbf-ft", "\nnitrous: {power: 50 hp}", "")),
    nonconforming=(CLUTCH % ("520 lbf-ft", "", "# <-"), CLUTCH % ("480 lbf-ft", "", "# <-"), CLUTCH % ("450 lbf-ft", "\nnitrous: {power: 150 hp}", "# <-")),
)
def clutch_carries_the_torque(
    clutch_capacity: Torque, peak_torque: Torque, nitrous_torque: Torque = None, *, noted_below: Ratio = q("1.3", "ratio"),
    warned_below: Ratio = q("1.2", "ratio"),
):
    """A clutch that just carries the torque when new slips when hot, and heat is what it dies of.

    A nitrous shot counts at the torque peak, where it adds most.
    """
    torque = peak_torque + (nitrous_torque or 0.0)
    verdict = at_least(Ratio(clutch_capacity / torque), warning=warned_below, note=noted_below)
    return verdict.telling(torque=Torque(torque, peak_torque.unit), wanted=Torque(noted_below * torque, clutch_capacity.unit))
