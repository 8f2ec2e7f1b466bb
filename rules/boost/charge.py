"""The compressed charge: what ratio it amounts to, how hot it gets, and how good the compressor is said to be."""

from math import ceil

from buildlint.numeric import interpolate
from buildlint.rulebook import *
from buildlint.tables.compressors import BEST_EFFICIENCY, GOOD_EFFICIENCY
from buildlint.tables.fuels import FAMILY

BOOSTED = ("supercharged", "turbocharged")

def _lines(noted, warned):
    return q(noted, "ratio"), q(warned, "ratio")


# Static ratio x pressure ratio^(1/1.4) that a fuel bears: (noted above, warned above).
HELD_BACK = {
    "aki_89": _lines("9.8", "10.8"), "aki_91": _lines("10.8", "12.0"), "aki_93": _lines("10.8", "12.0"),
    "aki_100": _lines("14.5", "16.0"), "aki_104": _lines("14.5", "16.0"), "aki_116": _lines("18", "21"),
    "e85": _lines("16", "18"), "ethanol": _lines("16", "18"), "methanol": _lines("22", "26"),
}
HELPED = {**HELD_BACK, "aki_91": _lines("13.2", "13.8"), "aki_93": _lines("13.2", "13.8")}

CHARGED = """
build: {induction: supercharged, fuel: %s}
fuel_system: {octane: %s, octane_scale: aki}
engine: {clearance_volume: %s}
block: {bore: 4.030 in}
crank: {stroke: 3.480 in}
boost: {pressure: %s, cooler: {kind: %s}, knock_control: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="planning",
    says="With {boost_pressure} a ratio of {compression_ratio} squeezes the charge like {value} without a compressor; {named} bears about {limit} "
         "(charts that multiply ratio and pressure would say {boosted_compression_ratio_linear}).",
    fix="Come down to {ratio_to_reach:down} at this boost, or to {boost_to_reach:down} at this ratio; or {remedy}.",
    source="isentropic compression; the rows by fuel are common practice, no source",
    when={"induction": BOOSTED},
    points_at=("boost_pressure",),
    conforming=(CHARGED % ("pump_gasoline", 93, "90.93 cc", "10 psi", "air_to_air", "fitted", ""),
                CHARGED % ("e85", 97, "80 cc", "12 psi", "none", "none", ""),
                CHARGED % ("pump_gasoline", 93, "97 cc", "5 psi", "none", "none", "")),
    nonconforming=(CHARGED % ("pump_gasoline", 93, "90.93 cc", "10 psi", "none", "fitted", "# <-"),
                   CHARGED % ("pump_gasoline", 93, "80 cc", "12 psi", "air_to_air", "fitted", "# <-"),
                   CHARGED % ("pump_gasoline", 87, "90.93 cc", "6 psi", "air_to_air", "fitted", "# <-")),
)
def charged_ratio_suits_fuel(
    compression_ratio: Ratio, pressure_ratio: Ratio, boosted_compression_ratio: Ratio, boosted_compression_ratio_linear: Ratio,
    fuel: Choice, air_pressure: Pressure, boost_pressure: Pressure, antiknock_index: Octane = None, boost_cooler_kind: Choice = None,
    boost_knock_control: Choice = None, *, held_back=HELD_BACK, helped=HELPED,
):
    """Boost on top of too much compression knocks at the torque peak, and the ring lands of the piston go first.

    Three formulas are in use: multiply by the pressure ratio, by its square root, or by its 1.4th root. Only the last
    keeps the pressure at top equal, so it judges; the first is printed beside it because charts use it, and an old limit
    of 12:1 on premium belongs to that first one without a cooler. Pump gasoline with both a charge cooler and knock
    control bears about a ratio and a half more. Rows are folklore with scatter: notes and warnings.
    """
    family = FAMILY.get(fuel)
    if family == "gasoline" and antiknock_index is None:
        return lacking("fuel_octane")
    limits, lenient = _row(held_back, family, antiknock_index), _row(helped, family, antiknock_index)
    if limits is None:
        return not_applicable("no row for this fuel")
    verdict = _judged(boosted_compression_ratio, limits)
    named, remedy = fuel.replace("_", " "), "take a fuel of more octane, or inject water and alcohol"
    if verdict.kind == "fail" and lenient != limits:
        unknown = [word for word, value in (("boost_cooler_kind", boost_cooler_kind), ("boost_knock_control", boost_knock_control)) if value is None]
        if "none" in (boost_cooler_kind, boost_knock_control):
            named += " without charge cooler and knock control"
            remedy = f"fit a charge cooler and knock control, which together bear {lenient[0]:.1f}:1"
        elif unknown:
            return lacking(*unknown)
        else:
            verdict, limits, named = _judged(boosted_compression_ratio, lenient), lenient, named + " with charge cooler and knock control"
    root = boosted_compression_ratio / compression_ratio
    boost = Pressure(max(air_pressure * ((limits[0] / compression_ratio) ** 1.4 - 1), 0.0), boost_pressure.unit)
    return verdict.telling(named=named, remedy=remedy, ratio_to_reach=Ratio(limits[0] / root, ":1"), boost_to_reach=boost)


def _row(rows, family, antiknock):
    if family != "gasoline":
        return rows.get(family)
    points = [(float(name[4:]), limits) for name, limits in rows.items() if name.startswith("aki_")]
    octane = min(max(float(antiknock), min(points)[0]), max(points)[0])
    return tuple(interpolate(octane, [(at, limits[tier]) for at, limits in points]) for tier in (0, 1))


def _judged(value, limits):
    """What is over the row by half a percent is on the line: the rows are no finer than that."""
    if limits[0] < value <= limits[0] * 1.005:
        value = limits[0]
    return at_most(Ratio(value), note=Ratio(limits[0]), warning=Ratio(limits[1]))


HEATED = """
build: {induction: %s, fuel: %s}
boost: {pressure: %s, compressor: %s, efficiency: %s, inlet_temperature: 77 degF, cooler: {kind: %s, effectiveness: %s}}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="planning",
    says="The charge reaches the cylinders at about {value}; on {fuel} keep it at {limit}.",
    fix="{remedy}",
    source="Heywood, Internal Combustion Engine Fundamentals, section 6.8, for the temperature; limits common practice, no source",
    when={"induction": BOOSTED, "fuel": ("pump_gasoline", "e10")},
    points_at=("boost_pressure",),
    conforming=(HEATED % ("supercharged", "pump_gasoline", "10 psi", "high_helix", "0.62", "air_to_air", "0.70", ""),
                HEATED % ("supercharged", "pump_gasoline", "4 psi", "centrifugal", "0.72", "none", "0.70", ""),
                HEATED % ("turbocharged", "e85", "25 psi", "turbo", "0.72", "none", "0.70", "")),
    nonconforming=(HEATED % ("supercharged", "pump_gasoline", "10 psi", "high_helix", "0.62", "none", "0.70", "# <-"),
                   HEATED % ("supercharged", "pump_gasoline", "10 psi", "two_lobe", "0.50", "air_to_air", "0.40", "# <-"),
                   HEATED % ("turbocharged", "e10", "8.2 psi", "turbo", "0.80", "none", "0.70", "# <-")),
)
def charge_temperature_is_bounded(
    boost_charge_temperature: Temperature, fuel: Choice, boost_pressure: Pressure, compressor_inlet_temperature: Temperature,
    compressor_pressure_ratio: Ratio, pressure_ratio: Ratio, compressor_efficiency: Fraction = None, charge_temperature_uncooled: Temperature = None,
    charge_coolant_temperature: Temperature = None, boost_cooler_kind: Choice = None, carburetor_placed: Choice = None,
    boost_wet_compressor_drop: TemperatureRise = None, air_pressure: Pressure = None, *,
    cooled: Temperature = q("60 degC", "temperature"), uncooled: Temperature = q("65 degC", "temperature"),
    uncooled_ratio: Ratio = q("1.55", "ratio"),
):
    """Pump gasoline knocks by temperature: ten degrees more in the charge are worth several octane numbers.

    A compressor heats what it squeezes, a poor one more; a cooler takes most of it back. Fuel that passes through the
    rotor cools too, by 20 to 40 K, and counts when it is written. Race gasoline and alcohols are left alone here. A
    pressure ratio above 1.55 without a cooler is asked about even where the estimate comes out cool.
    """
    bare = boost_cooler_kind == "none"
    limit = uncooled if bare else cooled
    verdict = at_most(boost_charge_temperature, warning=limit)
    if limit > compressor_inlet_temperature:  # share of the heating that is allowed, not of absolute temperature
        verdict.utilization = (boost_charge_temperature - compressor_inlet_temperature) / (limit - compressor_inlet_temperature)
    if verdict.kind != "fail":
        if bare:
            verdict = at_most(Ratio(pressure_ratio), warning=uncooled_ratio)
            return verdict.telling(remedy="Fit a charge cooler, or come down to {boost:down} of boost.").saying(
                "A pressure ratio of {value} on {fuel} without a charge cooler; above {limit} pump gasoline wants one.",
                "Fit a charge cooler, or come down to {boost:down}.").telling(
                boost=Pressure((uncooled_ratio - 1) * (boost_pressure / (pressure_ratio - 1) if pressure_ratio > 1 else 0.0), boost_pressure.unit))
        return verdict
    if carburetor_placed == "draw_through" and boost_wet_compressor_drop is None:
        return lacking("boost_wet_compressor_drop")
    ways, facts = [], {}
    if not bare and None not in (charge_temperature_uncooled, charge_coolant_temperature) and charge_coolant_temperature < limit:
        needed = (charge_temperature_uncooled - limit) / (charge_temperature_uncooled - charge_coolant_temperature)
        facts["needed"] = f"{ceil(needed * 100 - 1e-9) / 100:.2f}"
        ways.append("a cooler of effectiveness {needed}")
    elif bare:
        ways.append("a charge cooler")
    if bare and compressor_efficiency is not None and air_pressure is not None and limit > compressor_inlet_temperature:
        drop = boost_wet_compressor_drop or 0.0
        share = (1 + compressor_efficiency * ((limit + drop) / compressor_inlet_temperature - 1)) ** 3.5
        cool = boost_pressure - (compressor_pressure_ratio - share) * air_pressure
        bearable = boost_pressure - (pressure_ratio - uncooled_ratio) * air_pressure  # the ratio asked about without a cooler
        facts["boost"] = Pressure(min(cool, bearable), boost_pressure.unit)
        if facts["boost"] > 0:
            ways.append("{boost:down} of boost")
    ways.append("a compressor that runs nearer its best point")
    return verdict.telling(**facts).saying(fix="Reach {limit} with " + ", or ".join(ways) + ".")


EFFICIENCY = """
boost: {compressor: %s, efficiency: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="planning",
    says="An adiabatic efficiency of {value} is claimed for the {boost_compressor} compressor; {limit} is {what}.",
    fix="Take the figure from the compressor's map at this flow and pressure; {usual} is usual for the kind.",
    source="bands printed for the kinds of compressors; common practice, no source",
    when={"boost_efficiency": given},
    conforming=(EFFICIENCY % ("centrifugal", "0.72", ""), EFFICIENCY % ("two_lobe", "0.50", ""), EFFICIENCY % ("turbo", "0.78", "")),
    nonconforming=(EFFICIENCY % ("two_lobe", "0.68", "# <-"), EFFICIENCY % ("turbo", "0.90", "# <-")),
)
def compressor_efficiency_is_possible(
    boost_efficiency: Fraction, boost_compressor: Choice = None, *, good=GOOD_EFFICIENCY, best=BEST_EFFICIENCY,
    impossible: Fraction = q("0.85", "fraction"),
):
    """An efficiency that is too good makes a cool charge on paper and a hot one in the engine.

    A straight two-lobe blower heats most, screws and well-matched centrifugal compressors least; above the best that is
    printed for its kind is a warning, above 0.85 no compressor of this size has ever been.
    """
    verdict = at_most(boost_efficiency, error=impossible, warning=best.get(boost_compressor), note=good.get(boost_compressor))
    what = {"error": "more than any of this size reaches", "warning": "the best that is printed for its kind"}.get(
        verdict.level, "what good ones of its kind reach")
    usual = good.get(boost_compressor)
    return verdict.telling(what=what, usual="0.70" if usual is None else f"up to {float(usual):.2f}")
