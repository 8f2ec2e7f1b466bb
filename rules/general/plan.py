"""What a plan must say before anything can be judged by it: use, fuel and place."""

from buildlint.rulebook import *
from buildlint.tables.fuels import FAMILY

PLAN = """
build: {duty: street, induction: natural, rev_limit: 6500 rpm, fuel: %s}  %s
fuel_system: {%s}
"""


@rule(
    scope="build",
    level="warning",
    due="planning",
    says="The fuel is to be {fuel}, and its octane is not written.",
    fix="Write fuel_system.octane and octane_scale as the pump or the drum says.",
    source="common practice, no source",
    points_at=("fuel",),
    conforming=(PLAN % ("pump_gasoline", "", "octane: 93, octane_scale: aki"), PLAN % ("methanol", "", "delivery: carburetor")),
    nonconforming=PLAN % ("pump_gasoline", "# <-", "delivery: carburetor"),
)
def build_states_duty_and_fuel(
    duty: Choice = None, induction: Choice = None, fuel: Choice = None, rev_limit: Rpm = None, fuel_octane: Octane = None,
):
    """Duty, induction, fuel and limiter choose the row of nearly every limit; without them a check guesses which engine it is.

    A spec that says none of these is about some part alone and is left so. Of those that are begun, each missing one is named with
    the rules that wait for it; a gasoline without its octane is told here.
    """
    known = {"duty": duty, "induction": induction, "fuel": fuel, "rev_limit": rev_limit}
    missing = [word for word, value in known.items() if value is None]
    if len(missing) == len(known):
        return not_applicable("the spec is not about a whole engine")
    if missing:
        return lacking(*missing)
    return require(FAMILY.get(fuel) != "gasoline" or fuel_octane is not None)


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
