"""Heat into the coolant, the flow that carries it, and the temperature at which it boils under its cap.

Fuel that does not become work goes into exhaust, coolant, oil and air; what share the coolant takes differs from
engine to engine, and so do the answers here: they rank, and they find the gross mistake.
"""

from ..dimensions import Choice, Flow, Fraction, Length, Power, Pressure, Rpm, Temperature, TemperatureRise, Time
from ..mechanics import coolant
from ..numeric import least, where
from ..quantities import q

# Heat into the coolant over brake power at full load. Heywood's figures for spark engines (17 to 26 percent of the
# fuel to the coolant, 25 to 28 to the shaft) give 0.6 to 1.0; old practice says as much as the brake power.
HEAT_SHARE = 0.70

# Share of full power that a duty asks for minutes on end. Drag engines are heat-soaked, not in balance. Common practice.
SUSTAINED = {"stock": 0.5, "street": 0.5, "street_strip": 0.5, "marine": 1.0, "towing": 1.0, "road_race": 1.0, "oval_race": 1.0}

STREET_SHARE, BURST_SHARE = 0.5, 0.3
BURST = q("30 s", "time")

USUAL_HOTTEST = q("105 degC", "temperature")


def coolant_heat(peak_power: Power) -> Power:
    """Heat into the coolant at full power: 0.70 x power.

    W. Source: Heywood, Internal Combustion Engine Fundamentals, table 12.1 (from memory), gives 0.6 to 1.0.
    """
    return HEAT_SHARE * peak_power


def coolant_heat_sustained(coolant_heat: Power, duty: Choice, full_load_time: Time = None) -> Power:
    """Heat that must be carried off for minutes on end: all of it in boats, towing and road racing, half on the street.

    Three tenths where a street engine is opened for half a minute at most: block, heads and coolant soak up a burst.
    W; no answer for drag racing. Source: common practice, no source.
    """
    if duty not in SUSTAINED:
        return None
    if SUSTAINED[duty] == STREET_SHARE and full_load_time is not None:
        return where(full_load_time <= BURST, BURST_SHARE, STREET_SHARE) * coolant_heat
    return SUSTAINED[duty] * coolant_heat


def water_pump_speed(rev_limit: Rpm, damper_pulley_diameter: Length, water_pump_pulley_diameter: Length,
                     water_pump_kind: Choice = None) -> Rpm:
    """Speed of a belt-driven water pump at the limiter: limiter x crank pulley / pump pulley.

    rad/s. Source: geometry.
    """
    return None if water_pump_kind == "electric" else rev_limit * damper_pulley_diameter / water_pump_pulley_diameter


def coolant_flow__of_electric_pump(water_pump_flow: Flow, water_pump_kind: Choice) -> Flow:
    """Coolant moved at full power by an electric pump: as written, whatever the engine turns.

    m3/s. Source: definition.
    """
    return water_pump_flow if water_pump_kind == "electric" else None


def coolant_flow__of_belt_pump(water_pump_flow: Flow, water_pump_flow_speed: Rpm, peak_power_speed: Rpm,
                               damper_pulley_diameter: Length, water_pump_pulley_diameter: Length) -> Flow:
    """Coolant moved at the power peak: the written flow x pump speed there / speed of the written flow, never more than written.

    m3/s, rad/s. Source: affinity of pumps, flow as speed.
    """
    speed = peak_power_speed * damper_pulley_diameter / water_pump_pulley_diameter
    return water_pump_flow * least(speed / water_pump_flow_speed, 1.0)


def coolant_flow__as_written(water_pump_flow: Flow) -> Flow:
    """Coolant moved at full power where the pulleys are not known: as written.

    m3/s. Source: the pump's sheet.
    """
    return water_pump_flow


def coolant_temperature_rise(coolant_heat_sustained: Power, coolant_flow: Flow, coolant_glycol_fraction: Fraction) -> TemperatureRise:
    """Warming of the coolant on its way through the engine: heat / (density x flow x specific heat), hot.

    W, m3/s -> K. Source: balance of heat; handbook values of water and of 50 percent ethylene glycol.
    """
    return coolant.temperature_rise(coolant_heat_sustained, coolant_flow, coolant_glycol_fraction)


def coolant_boiling_temperature(pressure_cap_pressure: Pressure, air_pressure_lowest: Pressure, coolant_glycol_fraction: Fraction) -> Temperature:
    """Temperature at which the coolant boils under its cap at the highest place of use.

    Water at (air + cap) / share of water. Pa -> K. Source: IAPWS R7-97, region 4, with Raoult's law.
    """
    return coolant.boiling_temperature(air_pressure_lowest + pressure_cap_pressure, coolant_glycol_fraction)


def coolant_hottest(coolant_temperature_highest: Temperature) -> Temperature:
    """Hottest the coolant gets, as written.

    K. Source: measurement or plan.
    """
    return coolant_temperature_highest


def coolant_hottest__usual() -> Temperature:
    """Hottest the coolant gets, where it is not written: 105 degC.

    K. Source: common practice, no source.
    """
    return USUAL_HOTTEST


def coolant_boiling_margin(coolant_boiling_temperature: Temperature, coolant_hottest: Temperature) -> TemperatureRise:
    """How far the hottest coolant stays below boiling.

    K. Source: definition.
    """
    return coolant_boiling_temperature - coolant_hottest
