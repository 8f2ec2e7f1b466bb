"""What a plan must say before anything can be judged by it: use, fuel and place."""

from buildlint.rulebook import *
from buildlint.tables.fuels import FAMILY

PLAN = """
build: {duty: street, fuel: %s, rev_limit: 6500 rpm, induction: %s}  %s
fuel_system: {octane: 93, octane_scale: aki}
boost: {pressure: %s, compressor: %s}
"""


@rule(
    scope="build",
    level="warning",
    due="planning",
    says="The engine is written as {induction}, and {what}.",
    fix="Correct build.induction or the heading boost: the rows of nearly every limit hang on it.",
    source="common practice, no source",
    points_at=("induction",),
    conforming=(PLAN % ("pump_gasoline", "supercharged", "", "8 psi", "centrifugal"), PLAN % ("methanol", "turbocharged", "", "20 psi", "turbo"), """
        build: {duty: street, fuel: lpg, rev_limit: 5500 rpm, induction: natural}
        """),
    nonconforming=(PLAN % ("pump_gasoline", "natural", "# <-", "8 psi", "centrifugal"), PLAN % ("pump_gasoline", "supercharged", "# <-", "8 psi", "turbo"),
                   PLAN % ("pump_gasoline", "turbocharged", "# <-", "8 psi", "two_lobe")),
)
def build_states_duty_and_fuel(
    duty: Choice = None, induction: Choice = None, fuel: Choice = None, rev_limit: Rpm = None, fuel_octane: Octane = None,
    boost_pressure: Pressure = None, boost_compressor: Choice = None,
):
    """Duty, induction, fuel and limiter choose the row of nearly every limit; without them a check guesses which engine it is.

    A spec that says none of these is about some part alone and is left so. Of those that are begun, each missing one is named with
    the rules that wait for it, the octane of a gasoline too. An induction that contradicts the heading boost chooses wrong rows
    everywhere, which is worse than none.
    """
    known = {"duty": duty, "induction": induction, "fuel": fuel, "rev_limit": rev_limit}
    missing = [word for word, value in known.items() if value is None]
    if len(missing) == len(known):
        return not_applicable("the spec is not about a whole engine")
    if induction == "natural" and boost_pressure is not None and boost_pressure > 0:
        return require(False).telling(what=Pressure(boost_pressure, boost_pressure.unit)).saying(
            "The engine is written as without a compressor, and {what} of boost are written.")
    if induction is not None and boost_compressor is not None and induction != "natural":
        if (induction == "turbocharged") != (boost_compressor == "turbo"):
            return require(False).telling(what=f"its compressor as {boost_compressor.replace('_', ' ')}")
    if FAMILY.get(fuel) == "gasoline" and fuel_octane is None:
        missing.append("fuel_octane")
    return lacking(*missing) if missing else passes()


ALTITUDE = "build: {altitude_highest: 5000 ft%s}  %s"


@rule(
    scope="build",
    level="note",
    due="planning",
    says="{sentence}",
    fix="Write build.altitude_lowest: the lowest place the engine will ever run at full load, test bench and trips included.",
    source="common practice, no source",
    when={"altitude_highest": given},
    points_at=("altitude_lowest", "altitude_highest"),
    conforming=ALTITUDE % (", altitude_lowest: 3000 ft", ""),
    nonconforming=(ALTITUDE % ("", "# <-"), ALTITUDE % (", altitude_lowest: 6000 ft", "# <-")),
)
def lowest_altitude_is_stated(altitude_highest: Length, altitude_lowest: Length = None):
    """Thin air forgives compression; a trip to the coast, or a bench at sea level, does not.

    Knock is judged at the lowest altitude, boiling at the highest; where only the highest is written the sea stands in for the other.
    """
    if altitude_lowest is None:
        return require(False).telling(sentence="Only the highest altitude of use is written; compression is judged as at the sea.")
    return require(altitude_lowest <= altitude_highest).telling(sentence="The lowest altitude of use is written above the highest.")
