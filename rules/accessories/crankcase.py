"""How the crankcase breathes: the area of its vents, what catches the oil, and where the vents draw from."""

from math import ceil, pi

from buildlint.rulebook import *

BREATH = """
build: {induction: %s, peak_power: 500 hp, peak_power_speed: 6200 rpm, brake_specific_fuel: 0.48 lb/hp/h, fuel: pump_gasoline}
fuel_system: {full_load_lambda: 0.87}
accessories:
  breather: {hose_diameters: [%s]}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="About {blow_by} of blow-by leave the crankcase through its vents at {value}; keep {limit}.",
    fix="Fit {count} hoses of {largest}, or as much area in larger ones; both covers, and a bulkhead between them that is open.",
    source="common practice, no source",
    when={"breather_hose_diameters": given},
    points_at=("breather_hose_diameters",),
    conforming=(BREATH % ("natural", "0.69 in, 0.69 in", ""), BREATH % ("supercharged", "0.69 in, 0.69 in, 0.69 in", "")),
    nonconforming=(BREATH % ("supercharged", "0.50 in, 0.50 in", "# <-"), BREATH % ("natural", "0.31 in, 0.31 in", "# <-")),
)
def crankcase_breathes_freely(
    breather_speed: Speed, blow_by: Flow, breather_hose_diameters: List, crankcase_vacuum: Pressure = None, *,
    noted_above: Speed = q("20 m/s", "speed"), warned_above: Speed = q("30 m/s", "speed"),
):
    """Pressure under the pistons lifts the oil into the vents, holds it up in the heads, and finds the weakest seal.

    Blow-by is counted as 1.5 percent of the air, 3 percent with boost, since rings gapped for boost leak more. Where a pump
    draws the crankcase down the vents carry nothing and are left out.
    """
    if crankcase_vacuum is not None and crankcase_vacuum > 0:
        return not_applicable("a pump draws the crankcase down")
    largest = max(breather_hose_diameters)
    unit = "ft/s" if largest.unit in ("in", '"') else "m/s"
    verdict = at_most(Speed(breather_speed, unit), note=Speed(noted_above, unit), warning=Speed(warned_above, unit))
    count = ceil(blow_by / noted_above / (pi / 4 * largest**2) - 1e-9)
    return verdict.telling(count=Count(count), largest=largest)


CAN = "accessories: {breather: {catch_can: %s}}  %s"


@rule(
    scope="build",
    level="note",
    due="ordering",
    says="The catch can has no baffle.",
    fix="Take one with a baffle and a drain, or fill it with steel mesh.",
    source="common practice, no source",
    when={"breather_catch_can": given},
    conforming=(CAN % ("baffled", ""), CAN % ("none", "")),
    nonconforming=CAN % ("plain", "# <-"),
)
def catch_can_is_baffled(breather_catch_can: Choice):
    """In an empty can the mist goes straight from one hose to the other."""
    return require(breather_catch_can != "plain")


BAFFLE = """
build: {induction: %s}
accessories:
  crankcase_vacuum: 0 inHg
  breather: {ventilation_valve: %s, cover_baffle: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="A vent {why} draws from a cover without a baffle.",
    fix="Weld or screw a baffle under the vent, or move the vent to a cover that has one, away from the rockers' splash.",
    source="common practice, no source",
    when={"breather_cover_baffle": given},
    points_at=("breather_cover_baffle",),
    conforming=(BAFFLE % ("natural", "fitted", "fitted", ""), BAFFLE % ("natural", "none", "none", "")),
    nonconforming=(BAFFLE % ("natural", "fitted", "none", "# <-"), BAFFLE % ("turbocharged", "none", "none", "# <-")),
)
def breather_sits_over_a_baffle(
    breather_cover_baffle: Choice, breather_ventilation_valve: Choice = None, induction: Choice = None, crankcase_vacuum: Pressure = None,
):
    """Rockers throw oil straight into an open vent; vacuum or blow-by does the rest, and the engine smokes from its own sump."""
    if breather_cover_baffle != "none":
        return passes()
    if crankcase_vacuum is not None and crankcase_vacuum > 0:
        return require(False).telling(why="under a vacuum pump")
    if breather_ventilation_valve == "fitted":
        return require(False).telling(why="with a ventilation valve")
    if induction in ("supercharged", "turbocharged"):
        return require(False).telling(why="of a boosted engine")
    return passes()
