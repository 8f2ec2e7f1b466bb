"""The water jacket itself: holes that must meet, holes that must stay small, thermostat, vents, and castings that were cut."""

from buildlint.rulebook import *

STEAM = """
block:
  steam_holes: %s
head_gasket:
  steam_holes: %s  %s
heads: {steam_holes: %s}
"""


@rule(
    scope="build",
    level="error",
    due="machining",
    says="The block has {block_steam_holes} steam holes, the {part} {value}.",
    fix="Let the steam holes of block, gasket and head meet, {block_steam_holes} of them.",
    source="common practice, no source",
    when={"block_steam_holes": fitted},
    points_at=("head_gasket_steam_holes", "head_steam_holes"),
    conforming=(STEAM % ("6", "6", "", "6"), STEAM % ("0", "0", "", "6")),
    nonconforming=(STEAM % ("6", "0", "# <-", "6"), """
        block: {steam_holes: 6}
        head_gasket: {steam_holes: 6}
        heads: {steam_holes: 0}  # <-
        """),
)
def steam_holes_line_up(block_steam_holes: Count, head_gasket_steam_holes: Count, head_steam_holes: Count):
    """Between siamesed bores steam gathers under the gasket; without a way out it stays, and the bores there run dry of water.

    Counted in block, gasket and head alike. More holes in head or gasket than in the block do no harm.
    """
    verdict = at_least(Count(head_gasket_steam_holes), Count(block_steam_holes)).at("head_gasket_steam_holes")
    if verdict.kind == "fail":
        return verdict.telling(part="gasket").saying(
            fix="Order the gasket for siamesed bores with {block_steam_holes} steam holes, and look that they meet.")
    return at_least(Count(head_steam_holes), Count(block_steam_holes)).at("head_steam_holes").telling(part="head").saying(
        fix="Drill the heads for {block_steam_holes} steam holes through the gasket as a pattern, as the block's maker shows.")


METERING = "head_gasket: {holes_enlarged: %s}  %s"


@rule(
    scope="build",
    level="warning",
    due="assembly",
    says="The water holes of the head gasket were enlarged; they meter the flow from cylinder to cylinder.",
    fix="Fit a gasket as it was made; where the hole pattern does not suit the heads, order the gasket that does.",
    source="common practice, no source",
    when={"head_gasket_holes_enlarged": given},
    conforming=METERING % ("no", ""),
    nonconforming=METERING % ("yes", "# <-"),
)
def metering_holes_stay_small(head_gasket_holes_enlarged: YesNo):
    """Small holes in front send the water to the back first; opened up, it takes the short way and the rear cylinders boil."""
    return require(not head_gasket_holes_enlarged)


THERMOSTAT = """
build: {duty: %s}
cooling:
  thermostat: {kind: %s%s}  %s
"""


@rule(
    scope="build",
    level="note",
    due="ordering",
    says="The thermostat opens at {value}; usual for this duty is {low:up} to {high:down}.",
    fix="Fit one of 180 degF (82 degC) unless the fuel or the rules of a class ask otherwise.",
    source="common practice, no source",
    when={"thermostat_kind": ("thermostat", "none")},
    points_at=("thermostat_temperature", "thermostat_kind"),
    conforming=(THERMOSTAT % ("street", "thermostat", ", temperature: 180 degF", ""), THERMOSTAT % ("marine", "thermostat", ", temperature: 143 degF", ""),
                THERMOSTAT % ("drag_race", "restrictor", "", "")),
    nonconforming=(THERMOSTAT % ("street", "thermostat", ", temperature: 143 degF", "# <-"), THERMOSTAT % ("street", "none", "", "# <-")),
)
def thermostat_suits_use(
    thermostat_kind: Choice, thermostat_temperature: Temperature = None, duty: Choice = None, *,
    least: Temperature = q("71 degC", "temperature"), least_marine: Temperature = q("60 degC", "temperature"),
    most: Temperature = q("96 degC", "temperature"),
):
    """Too cold an engine washes its bores and wears; too hot a one knocks. Without any thermostat water rushes past the seats.

    Boats that cool with sea water open at 140 degF, since salt falls out of hotter water. A racing restrictor is a decision.
    """
    if thermostat_kind == "none":
        return require(False).at("thermostat_kind").saying(
            "Neither a thermostat nor a restrictor is fitted.",
            "Fit a thermostat, or a restrictor plate in racing, so that pressure builds up in the jacket.")
    if thermostat_temperature is None:
        return lacking("thermostat_temperature")
    low = least_marine if duty == "marine" else least
    verdict = within(thermostat_temperature, low, most).telling(low=Temperature(low), high=Temperature(most))
    verdict.utilization = None
    return verdict


@rule(
    scope="build",
    level="reminder",
    due="assembly",
    says="Air must find its way out of the jacket: vents at the highest point and at the rear of raked engines, the cap on the suction side of the pump.",
    fix="Fill with the nose up and the vents open, run it to temperature, top up cold, and sign.",
    source="common practice, no source",
    when={"pressure_cap_pressure": given},
    caution="Never open a hot system: let it cool until the upper hose is soft.",
    conforming="cooling: {pressure_cap: {pressure: 16 psi, placed: surge_tank_suction_side}}",
)
def air_can_leave_the_jacket(pressure_cap_pressure: Pressure):
    """A pocket of air over one exhaust seat is as good as no water there, and the gauge does not show it."""
    return review()


@rule(
    scope="build",
    level="reminder",
    due="handover",
    says="An electric water pump needs its bypass settled, a supply that cannot fail unseen, and a run-on after shut-off.",
    fix="Look at bypass, fuse, warning and run-on with the engine hot, and sign.",
    source="common practice, no source",
    when={"water_pump_kind": ("electric",)},
    conforming="cooling: {water_pump: {kind: electric}}",
)
def electric_pump_keeps_flow(water_pump_kind: Choice):
    """Nothing tells the driver that the pump has stopped until the engine has; and heat soaks on after the key is turned."""
    return review()


TESTED = """
build: {stage: machining}
heads: {valve_job_on: 2026-04-20}
intake: {port: {work: %s}}
order:
  items:
    - {item: head, quantity: 2%s}  %s
"""


@rule(
    scope="item",
    level="warning",
    due="machining",
    says="The ports were cut, and {sentence}.",
    fix="Have the jacket tested with air under water, or with dye, after the last cut into port, seat or bore, and write pressure_tested_on; the "
        "sheet of whoever cut them counts.",
    source="common practice, no source",
    when={"item": ("head",)},
    points_at=("pressure_tested_on", "item"),
    caution="Compressed air in a casting can throw a plug: shields on, pressure low, and the tester's instructions followed.",
    conforming=(TESTED % ("ported", ", pressure_tested_on: 2026-04-24", ""), TESTED % ("as_cast", "", "")),
    nonconforming=(TESTED % ("ported", "", "# <-"), TESTED % ("raised", ", pressure_tested_on: 2026-04-10", "# <-")),
)
def ported_castings_hold_water(
    item: Choice, pressure_tested_on: Date = None, head_valve_job_on: Date = None, intake_port_work: Choice = None,
    exhaust_port_work: Choice = None,
):
    """A port wall is a few millimeters of cast metal with water behind it; the leak shows as a wet plug on the first heat."""
    if not {"ported", "raised"} & {intake_port_work, exhaust_port_work}:
        return not_applicable("the ports were not cut")
    if pressure_tested_on is None:
        return wanting("pressure_tested_on").at("item").telling(sentence="nothing says that the heads still hold water")
    if head_valve_job_on is not None and pressure_tested_on < head_valve_job_on:
        return require(False).telling(sentence=f"the test of {pressure_tested_on} is older than the seats of {head_valve_job_on}")
    return passes()
