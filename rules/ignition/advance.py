"""Spark advance: the total at full load, what charge takes from it, and the curve towards it."""

from buildlint.rulebook import *
from buildlint.tables.fuels import ALCOHOLS, FAMILY
from buildlint.tables.octane import is_aluminum

ENGINE = """
build: {duty: street, induction: %s, fuel: %s}
heads: {chamber_kind: %s, material: %s}
"""

TOTAL = ENGINE + """ignition: {total_advance: %s, boost_retard: %s}  %s
boost: {pressure: %s, knock_control: fitted, cooler: {kind: air_to_air}}
"""


@rule(
    scope="build",
    level="warning",
    due="planning",
    says="At full load {value} of advance is planned; for {why} {limit} is the {end}.",
    fix="Start from {aim} and go by knock detection and plugs: half burned 8 to 10 degrees after top is the goal.",
    source="ranges 28 to 38 degrees in part published in the trade; rows common practice, no source",
    caution="Too much advance under load breaks pistons in seconds: begin below the figure, on a dynamometer, with somebody listening.",
    when={"total_advance": given, "head_chamber_kind": given},
    points_at=("total_advance",),
    conforming=(TOTAL % ("natural", "pump_gasoline", "closed_wedge", "cast_iron", "34 deg", "0 deg/psi", "", "0 psi"),
                TOTAL % ("turbocharged", "pump_gasoline", "closed_wedge", "aluminum_356_t6", "34 deg", "0.7 deg/psi", "",
                         "10 psi")),
    nonconforming=(TOTAL % ("natural", "pump_gasoline", "fast_burn", "aluminum_356_t6", "36 deg", "0 deg/psi", "# <-", "0 psi"),
                   TOTAL % ("turbocharged", "pump_gasoline", "closed_wedge", "aluminum_356_t6", "36 deg", "0.1 deg/psi", "# <-",
                            "15 psi"),
                   TOTAL % ("natural", "pump_gasoline", "bathtub", "cast_iron", "44 deg", "0 deg/psi", "# <-", "0 psi"),
                   TOTAL % ("natural", "pump_gasoline", "closed_wedge", "cast_iron", "26 deg", "0 deg/psi", "# <-", "0 psi")),
)
def total_advance_suits_chamber(
    advance_at_full_charge: Angle, head_chamber_kind: Choice, head_material: Choice, fuel: Choice, induction: Choice,
    boost_pressure: Pressure = None, boost_cooler_kind: Choice = None, boost_knock_control: Choice = None,
    nitrous_power: Power = None,
    total_advance: Angle = None, boost_retard: AnglePerPressure = None, nitrous_retard: Angle = None, *,
    latest={"open_wedge": q("36 deg"), "bathtub": q("36 deg"), "flat_head": q("36 deg"), "closed_wedge_iron": q("34 deg"),
            "closed_wedge_aluminum": q("32 deg"), "fast_burn": q("26 deg"), "hemi": q("36 deg")},
    earliest={"open_wedge": q("38 deg"), "bathtub": q("38 deg"), "flat_head": q("38 deg"), "closed_wedge_iron": q("36 deg"),
              "closed_wedge_aluminum": q("36 deg"), "fast_burn": q("31 deg"), "hemi": q("42 deg")},
    fuel_gain={"gasoline": q("0 deg"), "e85": q("2 deg"), "ethanol": q("2 deg"), "methanol": q("3 deg"), "lpg": q("2 deg")},
    retard_uncooled: AnglePerPressure = q("0.145 deg/kPa"), retard_cooled: AnglePerPressure = q("0.073 deg/kPa"),
    retard_per_shot: Angle = q("2 deg"), shot: Power = q("50 hp"), least: Angle = q("12 deg"), warning_over: Angle = q("2 deg"),
    note_under: Angle = q("6 deg"),
):
    """A compact chamber burns fast and wants less advance, an open one more; pressure and nitrous make every charge burn faster.

    Counted is what is left at full boost with the shot on. Bathtub and side-valve chambers take the open wedge's row and
    are only noted. A degree for each psi without a cooler or knock control, half with both or on alcohol.
    """
    row = head_chamber_kind
    if row == "closed_wedge":
        row += "_aluminum" if is_aluminum(head_material) else "_iron"
    gain = fuel_gain.get(FAMILY.get(fuel), 0.0)
    late, early = latest[row] + gain, earliest[row] + gain
    said = [head_chamber_kind.replace("_", " ") + " chambers"]
    if induction != "natural" and boost_pressure:
        calm = fuel in ALCOHOLS or (boost_cooler_kind not in (None, "none") and boost_knock_control == "fitted")
        taken = (retard_cooled if calm else retard_uncooled) * boost_pressure
        late, early = max(late - taken, least), max(early - taken, least)
        said.append("this boost")
    if nitrous_power:
        taken = retard_per_shot * nitrous_power / shot
        late, early = max(late - taken, least), max(early - taken, least)
        said.append("this shot")
    over = advance_at_full_charge > early
    unretarded = (induction != "natural" and boost_pressure and not boost_retard) or (nitrous_power and not nitrous_retard)
    if over and unretarded:
        return not_applicable("the missing retard has a rule of its own")
    if over:
        verdict = at_most(Angle(advance_at_full_charge), warning=early + warning_over)
        if row in ("bathtub", "flat_head"):
            verdict.within_level("note")
    else:
        verdict = at_least(Angle(advance_at_full_charge), note=late - note_under)
        if induction != "natural":
            verdict = passes()
    return verdict.telling(why=" and ".join(said), end="most" if over else "least", aim=Angle((late + early) / 2))


MAGNETO = """
build: {induction: supercharged, fuel: methanol}
boost: {pressure: 25 psi}
ignition: {spark_source: magneto, total_advance: %s}  %s
"""

CHARGED = """
build: {induction: %s, fuel: pump_gasoline}
ignition: {total_advance: %s%s}  %s
%s
"""


@rule(
    scope="build",
    level="error",
    due="planning",
    says="{trouble}: full advance under a denser charge breaks pistons.",
    fix="Write ignition.boost_retard, about 1 degree a psi without a charge cooler and half of it with one, or nitrous.retard, about 2 "
        "degrees for each 50 hp.",
    source="1 degree a psi and 2 degrees for each 50 hp of nitrous: trade figures, in part published",
    caution="Never open the bottle or load a boosted engine before the retard has been seen with a timing light.",
    points_at=("boost_retard", "nitrous_retard", "total_advance"),
    conforming=(CHARGED % ("turbocharged", "34 deg", ", boost_retard: 1 deg/psi", "", "boost: {pressure: 10 psi}"),
                CHARGED % ("turbocharged", "21 deg", "", "", "boost: {pressure: 10 psi}"),
                MAGNETO % ("30 deg", ""),
                CHARGED % ("natural", "34 deg", "", "", "nitrous: {power: 150 hp, retard: 6 deg}")),
    nonconforming=(CHARGED % ("turbocharged", "34 deg", "", "# <-", "boost: {pressure: 10 psi}"),
                   MAGNETO % ("36 deg", "# <-"),
                   CHARGED % ("supercharged", "34 deg", ", boost_retard: 0 deg/psi", "# <-", "boost: {pressure: 8 psi}"),
                   (CHARGED % ("natural", "34 deg", "", "", "nitrous: {power: 150 hp, retard: 0 deg}  # <-")),
                   CHARGED % ("natural", "34 deg", "", "# <-", "nitrous: {power: 150 hp}")),
)
def advance_falls_with_charge(
    induction: Choice = None, boost_pressure: Pressure = None, boost_retard: AnglePerPressure = None, nitrous_power: Power = None,
    nitrous_retard: Angle = None, total_advance: Angle = None, head_chamber_kind: Choice = None, spark_source: Choice = None,
    fuel: Choice = None, *, alcohol_more: Angle = q("6 deg"),
    retarded_already: Angle = q("26 deg"),
    fast_retarded_already: Angle = q("20 deg"), small_boost: Pressure = q("3 psi"), usual: AnglePerPressure = q("1 deg/psi"),
    per_shot: Angle = q("2 deg"), shot: Power = q("50 hp"),
):
    """A denser charge burns faster, and the spark that suits the road is far too early for it.

    A total that is written as low as a boosted engine needs it counts as retarded already. A magneto has one advance, which
    is the one at full charge; on alcohol that may be six degrees more. Fifty horsepower of nitrous
    want about two degrees. Where nothing is written of the advance at all the answer is open.
    """
    boosted = induction not in (None, "natural") and boost_pressure is not None and boost_pressure > small_boost
    if not boosted and not nitrous_power:
        return not_applicable("neither boost nor nitrous")
    if total_advance is None and (boosted and boost_retard is None or nitrous_power and nitrous_retard is None):
        return lacking("boost_retard" if boosted and boost_retard is None else "nitrous_retard", "total_advance")
    low = fast_retarded_already if head_chamber_kind == "fast_burn" else retarded_already
    if fuel in ALCOHOLS and spark_source == "magneto":
        low += alcohol_more
    already = total_advance is not None and total_advance <= low * (1 + 1e-9)
    if boosted and not already and not boost_retard:
        words = ("boost_retard", "total_advance", "boost_pressure")
        verdict = wanting("boost_retard").at(*words) if boost_retard is None else require(False).at(*words)
        said = "No retard is written for the boost" if boost_retard is None else "The retard for boost is written as nothing"
        return verdict.telling(trouble=said, most=AnglePerPressure(usual, "deg/psi"), at_full=Angle(usual * boost_pressure)).saying(
            fix="Write ignition.boost_retard: about {most} without a charge cooler, half of it with one and knock control; {at_full} at full "
                "boost.")
    if nitrous_power and not nitrous_retard and not (already and not boosted):
        words = ("nitrous_retard", "total_advance", "nitrous_power")
        verdict = wanting("nitrous_retard").at(*words) if nitrous_retard is None else require(False).at(*words)
        said = "No retard is written for the nitrous" if nitrous_retard is None else "The retard for nitrous is written as nothing"
        return verdict.telling(trouble=said, wanted=Angle(per_shot * nitrous_power / shot)).saying(
            fix="Write nitrous.retard: about {wanted} for this shot.")
    return passes()


SHAPE = """
build: {duty: %s, fuel: pump_gasoline, induction: natural}
intake:
  lobe: {duration_at_050: %s}
ignition: {total_advance: 34 deg, initial_advance: %s, all_in_speed: %s, load_advance: %s}  %s
"""


@rule(
    scope="build",
    level="note",
    due="handover",
    says="The advance curve does not suit cam, fuel or use.",
    fix="About 14 to 20 degrees at idle for a long cam, all in between 2500 and 3200 rpm, load advance on the road.",
    source="common practice, no source",
    when={"total_advance": given},
    points_at=("initial_advance", "all_in_speed", "load_advance"),
    conforming=(SHAPE % ("street", "224 deg", "12 deg", "2800 rpm", "fitted", ""),
                SHAPE % ("drag_race", "270 deg", "20 deg", "2500 rpm", "none", "")),
    nonconforming=(SHAPE % ("street_strip", "240 deg", "6 deg", "2800 rpm", "fitted", "# <-"),
                   SHAPE % ("street", "224 deg", "12 deg", "1800 rpm", "fitted", "# <-"),
                   SHAPE % ("street", "224 deg", "12 deg", "4600 rpm", "fitted", "# <-"),
                   SHAPE % ("street", "224 deg", "12 deg", "2800 rpm", "none", "# <-")),
)
def advance_curve_suits_use(
    duty: Choice, fuel: Choice = None, initial_advance: Angle = None, all_in_speed: Rpm = None, load_advance: Choice = None,
    intake_lobe_duration_at_050: Angle = None, spark_source: Choice = None, *, big_cam: Angle = q("230 deg"),
    least_initial: Angle = q("8 deg"),
    earliest_all_in: Rpm = q("2200 rpm"), latest_all_in: Rpm = q("4000 rpm"),
):
    """The same total makes a lazy, rattling or thirsty engine, depending on how it gets there.

    A long cam idles on 14 to 20 degrees; all of it in before 2200 rpm rattles on pump fuel; a street engine without load
    advance burns a tenth more on the road. Race and marine engines do without it.
    """
    if initial_advance is not None and intake_lobe_duration_at_050 is not None and intake_lobe_duration_at_050 > big_cam:
        if initial_advance < least_initial:
            return require(False).at("initial_advance").saying("The initial advance is small for this cam, which idles on little mixture.", "Set 14 to 20 degrees at idle and limit the curve to keep the total.")
    if all_in_speed is not None and all_in_speed < earliest_all_in and fuel in ("pump_gasoline", "e10") and duty != "drag_race":
        return require(False).at("all_in_speed").saying("All of the advance is in very early, where pump fuel rattles.", "Stiffer springs: all in between 2500 and 3200 rpm.")
    if all_in_speed is not None and all_in_speed > latest_all_in:
        return require(False).at("all_in_speed").saying("The advance comes in late, and the middle of the range is lost.", "Lighter springs: all in between 2500 and 3200 rpm.")
    if duty in ("stock", "street") and load_advance == "none" and spark_source in (None, "distributor"):
        return require(False).at("load_advance").saying("A street engine without load advance runs hot and thirsty at part throttle.", "Fit a vacuum advance of 10 to 15 degrees, or map it in the controller.")
    return passes()
