"""Heat at sustained load against what the pump carries and the radiator gives off."""

from buildlint.mechanics import coolant
from buildlint.rulebook import *

SUSTAINED = ("stock", "street", "street_strip", "marine", "towing", "road_race", "oval_race")

FLOW = """
build: {duty: %s, peak_power: 450 hp, peak_power_speed: 5000 rpm}
damper: {pulley_diameter: 6.2 in}
cooling:
  coolant: {glycol_fraction: %s}
  water_pump: {kind: belt, flow: %s, flow_speed: 5000 rpm, pulley_diameter: 6.2 in}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="At sustained load the coolant takes up about {coolant_heat_sustained} and warms by {value} on its way through the engine; keep {limit}.",
    fix="Move {needed:up} at that speed: a larger pump or pump pulley ratio, less restriction; or an oil cooler, which takes 5 to 10 percent of the power.",
    source="Heywood, Internal Combustion Engine Fundamentals, table 12.1 (from memory), for the heat; the limits common practice, no source",
    when={"water_pump_flow": given, "duty": SUSTAINED},
    points_at=("water_pump_flow",),
    conforming=(FLOW % ("marine", "0", "90 gal/min", ""), FLOW % ("street", "0.5", "60 gal/min", "")),
    nonconforming=(FLOW % ("marine", "0.5", "55 gal/min", "# <-"), FLOW % ("towing", "0.5", "75 gal/min", "# <-")),
)
def coolant_flow_carries_the_heat(
    coolant_temperature_rise: TemperatureRise, coolant_heat_sustained: Power, coolant_glycol_fraction: Fraction, water_pump_flow: Flow, *,
    noted_above: TemperatureRise = q("12 K", "temperature_rise"), warned_above: TemperatureRise = q("15 K", "temperature_rise"),
):
    """A slow stream leaves the last cylinder hot however large the radiator is.

    0.70 of the brake power is taken as heat into the coolant, between the textbook's figures and the old word that it is
    as much as the power; all of it for boats, towing and racing by the hour, half on the street. Half glycol carries a
    tenth less than water, so a change for winter can tip it. Drag engines are not in balance and are left out.
    """
    needed = coolant.flow_for_rise(coolant_heat_sustained, noted_above, coolant_glycol_fraction)
    verdict = at_most(TemperatureRise(coolant_temperature_rise), note=noted_above, warning=warned_above)
    return verdict.telling(needed=Flow(needed, water_pump_flow.unit))


RADIATOR = """
build: {duty: %s, peak_power: 450 hp}
cooling:
  radiator: {heat_rejection: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="The radiator gives off {value}; at sustained load the engine puts about {limit} into the coolant.",
    fix="Take a radiator (or heat exchanger) and fan good for {limit} at the real air or raw-water speed; a shroud and an oil cooler help.",
    source="Heywood, Internal Combustion Engine Fundamentals, table 12.1 (from memory), for the heat; shares by duty common practice, no source",
    when={"radiator_heat_rejection": given, "duty": SUSTAINED},
    conforming=(RADIATOR % ("street", "120 kW", ""), RADIATOR % ("marine", "240 kW", "")),
    nonconforming=(RADIATOR % ("street", "90 kW", "# <-"), RADIATOR % ("towing", "160 kW", "# <-")),
)
def radiator_rejects_the_heat(radiator_heat_rejection: Power, coolant_heat_sustained: Power):
    """What the radiator does not give off stays, degree by degree, until something boils."""
    return at_least(radiator_heat_rejection, Power(coolant_heat_sustained))


STATED = """
build: {stage: ordering}
cooling:
  water_pump: {kind: %s, flow: 110 gal/min%s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="The water pump is said to move {water_pump_flow}, but not at what pump speed.",
    fix="Write cooling.water_pump.flow_speed from the pump's sheet; a belt-driven pump moves as much less as it turns slower.",
    source="affinity of pumps, flow as speed",
    when={"water_pump_flow": given},
    points_at=("water_pump_flow",),
    conforming=(STATED % ("belt", ", flow_speed: 6000 rpm", ""), STATED % ("electric", "", "")),
    nonconforming=STATED % ("belt", "", "# <-"),
)
def coolant_pump_flow_states_speed(water_pump_flow: Flow, water_pump_flow_speed: Rpm = None, water_pump_kind: Choice = None):
    """A flow without its speed is a number from an advertisement. An electric pump turns as it likes and is left out."""
    if water_pump_kind == "electric":
        return not_applicable("an electric pump does not hang on the engine's speed")
    return passes() if water_pump_flow_speed is not None else wanting("water_pump_flow_speed").at("water_pump_flow")
