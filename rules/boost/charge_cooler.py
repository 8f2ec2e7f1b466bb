"""The charge cooler: what it is said to do, and the pressure it costs."""

from buildlint.rulebook import *

COOLER = """
build: {induction: turbocharged}
boost: {pressure: 15 psi, compressor: turbo, efficiency: 0.72, inlet_temperature: 77 degF, %scooler: {kind: %s, effectiveness: %s, coolant_temperature: %s}}  %s
"""


@rule(
    scope="build",
    level="error",
    due="planning",
    says="{sentence}",
    fix="Take effectiveness and coolant temperature from a measurement or the cooler's sheet; usual is {usual}.",
    source="definition of effectiveness; bands common practice, no source",
    when={"boost_cooler_kind": fitted},
    points_at=("boost_cooler_effectiveness",),
    compares=("boost_charge_temperature",),
    conforming=(COOLER % ("", "air_to_air", "0.70", "77 degF", ""), COOLER % ("", "ice_water", "0.85", "40 degF", ""),
                COOLER % ("charge_temperature: 125 degF, ", "air_to_air", "0.70", "77 degF", "")),
    nonconforming=(COOLER % ("", "air_to_air", "0.95", "77 degF", "# <-"), COOLER % ("", "ice_water", "1.15", "40 degF", "# <-"),
                   COOLER % ("", "air_to_water", "0.93", "100 degF", "# <-"),
                   COOLER % ("charge_temperature: 70 degF, ", "air_to_air", "0.70", "77 degF", "# <-")),
)
def charge_cooler_performs_plausibly(
    boost_cooler_kind: Choice, boost_cooler_effectiveness: Fraction = None, boost_cooler_coolant_temperature: Temperature = None,
    boost_charge_temperature_written: Temperature = None, charge_temperature_uncooled: Temperature = None,
    charge_coolant_temperature: Temperature = None, *, usual_most={"air_to_air": q("0.80", "fraction"), "water": q("0.90", "fraction")},
    possible_most={"air_to_air": q("0.88", "fraction"), "water": q("1", "fraction")},
):
    """No cooler takes the charge below the temperature of what cools it; whoever counts on it orders too small a cooler.

    Ice water seems to do better than possible only while it is counted against the outside air, so a cooler with ice
    has to name the temperature of its water. Air-to-air coolers reach 0.55 to 0.80 on the road, water coolers 0.65 to 0.90.
    A charge temperature that was measured is held against the estimate in the same way.
    """
    row = "air_to_air" if boost_cooler_kind == "air_to_air" else "water"
    usual = {"air_to_air": "0.55 to 0.80", "water": "0.65 to 0.90"}[row]
    if boost_cooler_kind == "ice_water" and boost_cooler_coolant_temperature is None:
        return lacking("boost_cooler_coolant_temperature")
    if None not in (boost_charge_temperature_written, charge_temperature_uncooled, charge_coolant_temperature):
        verdict = at_least(boost_charge_temperature_written, error=charge_coolant_temperature)
        verdict.utilization = None
        if verdict.kind == "fail":
            return verdict.telling(usual=usual, coolant=charge_coolant_temperature).at("boost_charge_temperature").saying(
                "The charge is written as {value}, colder than the {limit} of what cools it.")
    if boost_cooler_effectiveness is None:
        return not_applicable("no effectiveness is claimed")
    verdict = at_most(boost_cooler_effectiveness, error=possible_most[row], warning=usual_most[row])
    kind = boost_cooler_kind.replace("_", "-")
    says = f"An effectiveness of {{value}} is claimed for the {kind} cooler; " + (
        "more than {limit} is not possible." if verdict.level == "error" else "above {limit} is rare on the road.")
    return verdict.telling(usual=usual).saying(says)


LOSS = """
boost: {pressure: 10 psi, cooler: {kind: air_to_air, pressure_loss: %s}}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="The charge cooler loses {value}; keep {limit}.",
    fix="Take a larger core or larger tanks; as it is the compressor works at {behind} for {boost_pressure} in the manifold.",
    source="common practice, no source",
    when={"boost_cooler_pressure_loss": given},
    conforming=(LOSS % ("1 psi", ""), LOSS % ("10 kPa", "")),
    nonconforming=LOSS % ("2.2 psi", "# <-"),
)
def charge_cooler_loses_little_pressure(
    boost_cooler_pressure_loss: Pressure, boost_pressure: Pressure = None, *, most: Pressure = q("10 kPa"),
):
    """Pressure lost in the cooler is made by the compressor all the same, and comes back as heat."""
    behind = Pressure(boost_cooler_pressure_loss + (boost_pressure or 0.0), getattr(boost_pressure, "unit", ""))
    return at_most(boost_cooler_pressure_loss, most).telling(behind=behind)
