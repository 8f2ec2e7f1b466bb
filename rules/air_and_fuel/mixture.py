"""The mixture at full load, what reads it, and how much fuel a unit of work takes."""

from buildlint.rulebook import *
from buildlint.tables.duties import BREATHING
from buildlint.tables.fuels import ALCOHOLS, FAMILY

SCALE = """
build: {fuel: %s}
fuel_system: {%s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="planning",
    says="{fuel_full_load_air_fuel} to one on {fuel} can be read in two ways.",
    fix="Write fuel_system.full_load_lambda instead, or say which scale it is in air_fuel_scale.",
    source="definition of lambda; atomic balance",
    when={"fuel_full_load_air_fuel": given},
    points_at=("fuel_full_load_air_fuel",),
    conforming=(SCALE % ("e85", "ethanol_fraction: 0.85, full_load_air_fuel: 8.3, air_fuel_scale: this_fuel", ""),
                SCALE % ("methanol", "full_load_air_fuel: 11.8, air_fuel_scale: gasoline_scale", ""),
                SCALE % ("pump_gasoline", "full_load_air_fuel: 12.8", "")),
    nonconforming=(SCALE % ("methanol", "full_load_air_fuel: 12.5", "# <-"),
                   SCALE % ("e85", "ethanol_fraction: 0.85, full_load_air_fuel: 12.5, air_fuel_scale: this_fuel", "# <-"),
                   SCALE % ("methanol", "full_load_air_fuel: 5.2, air_fuel_scale: gasoline_scale", "# <-")),
)
def mixture_is_stated_as_lambda(
    fuel: Choice, fuel_full_load_air_fuel: Ratio, fuel_stoichiometric_ratio: Ratio, fuel_air_fuel_scale: Choice = None, *,
    richest: Ratio = q("0.55", "ratio"), leanest: Ratio = q("1.12", "ratio"), gasoline_scale: Ratio = q("14.7", "ratio"),
):
    """12.5 to one is a rich gasoline mixture and, taken literally, twice too lean for methanol: the engine melts on a misread gauge.

    Lambda means the same for every fuel, so it is the number to write. Where air to fuel stands instead on an alcohol, it
    must say whether it is the fuel's own or what a gauge marked for gasoline shows, and make sense as that.
    """
    own, gauge = fuel_full_load_air_fuel / fuel_stoichiometric_ratio, fuel_full_load_air_fuel / gasoline_scale
    verdict = passes()
    if fuel in ALCOHOLS and fuel_air_fuel_scale is None:
        verdict = wanting("fuel_air_fuel_scale").at("fuel_full_load_air_fuel").saying(
            "{fuel_full_load_air_fuel} to one on {fuel} is lambda {own_lambda} by this fuel and {gauge_lambda} on a gauge marked for gasoline.",
            "Write fuel_system.full_load_lambda instead, or say which it is in air_fuel_scale.")
    else:
        read, other = (gauge, own) if fuel_air_fuel_scale == "gasoline_scale" else (own, gauge)
        if not richest <= read <= leanest:
            verdict = require(False)
            hint = "The other scale would fit: {}.".format(
                f"lambda {other:.2f}") if richest <= other <= leanest else "Neither scale fits."
            verdict.saying(
                "{fuel_full_load_air_fuel} to one on {fuel} would be lambda {read_lambda}, at which nothing runs at full load.",
                f"{hint} Write fuel_system.full_load_lambda.").telling(read_lambda=f"{read:.2f}")
    return verdict.telling(own_lambda=f"{own:.2f}", gauge_lambda=f"{gauge:.2f}")


FULL = """
build: {duty: %s, induction: %s, fuel: %s}
fuel_system: {full_load_lambda: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="handover",
    says="Lambda at full load is {value}; for {fuel} in this use it lies between {rich} and {lean}.",
    fix="Aim at {aim}; tune with a wideband sensor in each bank, and say who tunes it.",
    source="best power slightly rich: Heywood, Internal Combustion Engine Fundamentals, ch. 15 (from memory); windows common practice, no "
           "source",
    caution="A lean engine at full load melts its pistons in seconds: tune from the rich side, in short pulls, on a dynamometer.",
    points_at=("fuel_full_load_lambda", "fuel_full_load_air_fuel"),
    conforming=(FULL % ("street_strip", "natural", "pump_gasoline", "0.88", ""),
                FULL % ("street", "turbocharged", "pump_gasoline", "0.81", "")),
    nonconforming=(FULL % ("street", "turbocharged", "pump_gasoline", "0.92", "# <-"),
                   FULL % ("street", "natural", "pump_gasoline", "0.96", "# <-"),
                   FULL % ("drag_race", "natural", "pump_gasoline", "0.66", "# <-")),
)
def mixture_suits_class(
    fuel_full_load_lambda: Ratio, duty: Choice, induction: Choice, fuel: Choice, nitrous_power: Power = None,
    fuel_full_load_air_fuel: Ratio = None, fuel_air_fuel_scale: Choice = None, *,
    lean={"street": q("0.91", "ratio"), "strip": q("0.91", "ratio"), "race": q("0.90", "ratio"), "boosted": q("0.84", "ratio"),
          "nitrous": q("0.84", "ratio"), "e85": q("0.90", "ratio"), "ethanol": q("0.90", "ratio"), "methanol": q("0.88", "ratio"),
          "lpg": q("0.96", "ratio")},
    rich={"street": q("0.84", "ratio"), "strip": q("0.84", "ratio"), "race": q("0.82", "ratio"), "boosted": q("0.74", "ratio"),
          "nitrous": q("0.74", "ratio"), "e85": q("0.74", "ratio"), "ethanol": q("0.72", "ratio"), "methanol": q("0.66", "ratio"),
          "lpg": q("0.86", "ratio")},
    warning_over: Ratio = q("0.03", "ratio"), error_over: Ratio = q("0.06", "ratio"), washed_below: Ratio = q("0.70", "ratio"),
    readable_from: Ratio = q("0.55", "ratio"), readable_to: Ratio = q("1.12", "ratio"),
):
    """Rich of best power costs fuel, lean of it costs pistons, and under boost or nitrous it costs them at once.

    The window is by class and fuel; 0.03 beyond its lean end is a warning, 0.06 an error where something forces the
    charge. Gasoline below 0.70 washes the bores. Richer than usual is only noted.
    """
    family = FAMILY.get(fuel)
    forced = induction != "natural" or bool(nitrous_power)
    if family == "gasoline":
        row = "boosted" if induction != "natural" else "nitrous" if nitrous_power else BREATHING[duty]
    elif family in lean:
        row = family
    else:
        return not_applicable("no window for this fuel")
    top, bottom = lean[row], rich[row]
    if forced and family in ("e85", "ethanol"):
        top = min(top, lean["boosted"])
    value = Ratio(fuel_full_load_lambda)
    if fuel_full_load_air_fuel is not None and (fuel in ALCOHOLS and fuel_air_fuel_scale is None
                                                or not readable_from <= value <= readable_to):
        return not_applicable("the scale of the air to fuel number comes first")
    if value > top:
        verdict = at_most(value, error=top + error_over if forced else None, warning=top + warning_over)
        verdict.within_level("error" if forced else "warning")
    elif family == "gasoline" and value < washed_below:
        verdict = at_least(value, warning=washed_below)
    else:
        verdict = at_least(value, note=bottom - warning_over)
    return verdict.telling(rich=f"{bottom:.2f}", lean=f"{top:.2f}", aim=f"{(bottom + top) / 2:.2f}")


USED = """
build: {duty: %s, induction: %s, fuel: %s, brake_specific_fuel: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="planning",
    says="{brake_specific_fuel} {trouble}.",
    fix="Size pump and injectors with {aim}, the middle of the band for such an engine, never with the best number of a dynamometer.",
    source="bands common practice, no source; efficiency: Heywood, Internal Combustion Engine Fundamentals, section 2.8",
    when={"brake_specific_fuel": given},
    points_at=("brake_specific_fuel",),
    conforming=(USED % ("street_strip", "natural", "pump_gasoline", "0.46 lb/hp/h", ""),
                USED % ("street", "supercharged", "pump_gasoline", "0.60 lb/hp/h", ""),
                USED % ("drag_race", "natural", "methanol", "1.05 lb/hp/h", ""),
                USED % ("street", "turbocharged", "e85", "0.85 lb/hp/h", "")),
    nonconforming=(USED % ("street", "turbocharged", "pump_gasoline", "0.47 lb/hp/h", "# <-"),
                   USED % ("street", "natural", "e85", "0.48 lb/hp/h", "# <-"),
                   USED % ("street", "natural", "pump_gasoline", "0.62 lb/hp/h", "# <-"),
                   USED % ("street", "natural", "pump_gasoline", "0.34 lb/hp/h", "# <-")),
)
def fuel_consumption_is_realistic(
    brake_specific_fuel: FuelPerWork, duty: Choice, induction: Choice, fuel: Choice, brake_efficiency: Fraction = None, *,
    least={"street": q("0.43 lb/hp/h"), "strip": q("0.41 lb/hp/h"), "race": q("0.37 lb/hp/h"), "boosted": q("0.53 lb/hp/h")},
    most={"street": q("0.54 lb/hp/h"), "strip": q("0.53 lb/hp/h"), "race": q("0.48 lb/hp/h"), "boosted": q("0.68 lb/hp/h")},
    times_least={"gasoline": q("1.0", "ratio"), "e85": q("1.35", "ratio"), "ethanol": q("1.45", "ratio"),
                 "methanol": q("1.95", "ratio"), "lpg": q("0.93", "ratio")},
    times_most={"gasoline": q("1.0", "ratio"), "e85": q("1.55", "ratio"), "ethanol": q("1.65", "ratio"),
                "methanol": q("2.45", "ratio"), "lpg": q("1.0", "ratio")},
    efficient_above: Fraction = q("0.38", "fraction"),
):
    """Pump and injectors are sized with this number; a natural engine's figure under boost leaves them a quarter too small.

    Boosted engines burn more because they run rich and drive a compressor, alcohols because they hold less heat. Too
    low is a warning, since something runs lean on it; too high is a note.
    """
    family = FAMILY.get(fuel)
    if family not in times_least:
        return not_applicable("no band for this fuel")
    row = "boosted" if induction != "natural" else BREATHING[duty]
    low, high = least[row] * times_least[family], most[row] * times_most[family]
    unit = brake_specific_fuel.unit
    facts = {"aim": FuelPerWork((low + high) / 2, unit)}
    kind = {
        "street": "a natural street engine", "strip": "a natural engine for street and strip", "race": "a natural race engine",
        "boosted": "a boosted engine"
    }[row]
    if brake_specific_fuel < low:
        verdict = at_least(FuelPerWork(brake_specific_fuel, unit), warning=low)
        share = f", {brake_efficiency:.0%} of the fuel's heat" if brake_efficiency is not None and brake_efficiency > efficient_above else ""
        trouble = f"is too good for {kind} on this fuel{share}"
    else:
        verdict = at_most(FuelPerWork(brake_specific_fuel, unit), note=high)
        trouble = f"is much for {kind} on this fuel"
    return verdict.telling(trouble=trouble, **facts)


READ = """
build: {induction: %s, fuel: %s}
fuel_system: {delivery: %s, oxygen_sensor: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="assembly",
    says="{engine} is to be tuned with {sensor}.",
    fix="Order a wideband sensor, one in each bank of a V, with its bung in the collector ahead of any slip joint and above the horizontal, and "
        "write fuel_system.oxygen_sensor; on a dynamometer its own will do.",
    source="common practice, no source",
    points_at=("fuel_oxygen_sensor", "induction"),
    conforming=(READ % ("turbocharged", "pump_gasoline", "port_injection", "wideband_each_bank", ""), READ % ("natural", "pump_gasoline", "carburetor", "none", ""),
                READ.replace("fuel:", "duty: stock, fuel:") % ("natural", "pump_gasoline", "port_injection", "narrow_band", ""),
                READ % ("supercharged", "methanol", "mechanical_injection", "none", "")),
    nonconforming=(READ % ("turbocharged", "pump_gasoline", "port_injection", "none", "# <-"),
                   READ % ("supercharged", "pump_gasoline", "carburetor", "narrow_band", "# <-"),
                   READ % ("natural", "pump_gasoline", "port_injection", "none", "# <-"), READ % ("natural", "e85", "carburetor", "none", "# <-")),
)
def tuning_has_a_wideband(
    fuel: Choice, induction: Choice, fuel_delivery: Choice = None, fuel_oxygen_sensor: Choice = None, fuel_leaded: YesNo = None,
    duty: Choice = None,
):
    """Under boost half a point lean melts a piston before the plugs can be read, and no two pumps sell the same E85.

    A narrow-band sensor tells rich from lean of lambda 1 and nothing at full load. Asked of boosted engines and of
    electronic injection; E85 in a carburetor is noted. Left out are a carburetor on gasoline, which plugs can tune, and
    constant-flow mechanical injection, nitromethane, leaded fuel, where a sensor lives for hours, and a stock engine
    without boost, which keeps its maker's tune.
    """
    injected = fuel_delivery in ("throttle_body_injection", "port_injection")
    boosted = induction != "natural"
    if FAMILY.get(fuel) not in ("gasoline", "e85", "ethanol", "methanol") or fuel_delivery == "mechanical_injection" or fuel_leaded:
        return not_applicable("tuned by other means")
    if not boosted and duty == "stock":
        return not_applicable("a stock engine keeps its maker's tune")
    if not boosted and not injected and fuel not in ("e85", "ethanol"):
        return not_applicable("plugs and jets do on a natural engine with a carburetor" if fuel_delivery else "how the fuel gets in is not written")
    if fuel_oxygen_sensor is None:
        return lacking("fuel_oxygen_sensor")
    engine = "A boosted engine" if boosted else "Electronic injection" if injected else "A carburetor on {fuel}"
    sensor = {"none": "no oxygen sensor", "narrow_band": "a narrow-band sensor, blind at full load"}.get(fuel_oxygen_sensor, "")
    return require(fuel_oxygen_sensor.startswith("wideband"), None if boosted or injected else "note").telling(
        engine=engine.format(fuel=fuel), sensor=sensor)
