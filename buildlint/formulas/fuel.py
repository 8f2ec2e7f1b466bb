"""Fuel: what it is, how much of it the engine burns at full power, and what pump, regulator and injectors make of that.

Demand is counted at peak power with the specific consumption of the spec; where none is written the middle of the
usual band for breathing and fuel stands in. What a fuel bears in compression stands in ``compression``.
"""

from ..dimensions import (
    Choice, Count, Density, Entries, Flow, Fraction, FuelPerWork, MassFlow, Power, Pressure, Ratio, SpecificEnergy,
    Table, Time, Voltage, Volume,
)
from ..mechanics import fluid_lines
from ..numeric import greatest, sqrt
from ..quantities import q
from ..tables.duties import BREATHING
from ..tables.fuels import (
    ALCOHOLS, DENSITY, ETHANOL_USUAL, FAMILY, HEATING, RATING_DENSITY, SCALES, STOICHIOMETRIC, ethanol_by_mass,
)

# Specific consumption at full load on gasoline, middle of the usual bands. Common practice, no source.
USUAL_CONSUMPTION = {"street": q("0.485 lb/hp/h"), "strip": q("0.47 lb/hp/h"), "race": q("0.42 lb/hp/h"),
                     "boosted": q("0.60 lb/hp/h"), "nitrous": q("0.55 lb/hp/h")}
# Times as much of these fuels, middle of the usual bands. Common practice, no source.
CONSUMPTION_FACTOR = {"gasoline": 1.0, "e85": 1.45, "ethanol": 1.55, "methanol": 2.2, "lpg": 0.96}

# Lambda at full load where none is written: near the middle of what is run. Common practice, no source.
USUAL_LAMBDA = {"gasoline": 0.88, "e85": 0.86, "ethanol": 0.85, "methanol": 0.80, "lpg": 0.92}
USUAL_LAMBDA_BOOSTED = 0.80

DUTY_RESERVE = 1.05  # injectors are counted 5 percent beyond peak power
VOLTAGE_POWER = 1.13  # pump flow goes with voltage to this power: 700 against 800 lb/h at 12 and 13.5 V in a published curve
USUAL_FILTER_LOSS = q("10 kPa")

# Friction and pumping that an idling engine must cover, with its poor efficiency there. Common practice, no source.
IDLE_PRESSURE, IDLE_EFFICIENCY = q("1.15 bar"), 0.25


# -- what the fuel is --------------------------------------------------------------------------------------------


def ethanol_by_volume(fuel: Choice, fuel_ethanol_fraction: Fraction = None) -> Fraction:
    """Ethanol in the fuel by volume: as written, else what the fuel's name stands for at most.

    None for fuels that are no blend of gasoline and ethanol. Source: definition of the blends.
    """
    if fuel not in ETHANOL_USUAL:
        return None
    return ETHANOL_USUAL[fuel] if fuel_ethanol_fraction is None else fuel_ethanol_fraction


def fuel_stoichiometric_ratio(ethanol_by_volume: Fraction) -> Ratio:
    """Air to fuel by mass for complete burning of a blend of gasoline and ethanol, averaged by mass.

    Gasoline 14.60, ethanol 9.003. Source: atomic balance; Heywood, table D.4.
    """
    share = ethanol_by_mass(ethanol_by_volume)
    return share * STOICHIOMETRIC["ethanol"] + (1 - share) * STOICHIOMETRIC["gasoline"]


def fuel_stoichiometric_ratio__of_fuel(fuel: Choice) -> Ratio:
    """Air to fuel by mass for complete burning: methanol 6.472, propane 15.68.

    Source: atomic balance; Heywood, table D.4.
    """
    return STOICHIOMETRIC.get(FAMILY.get(fuel))


def fuel_heating_value(ethanol_by_volume: Fraction) -> SpecificEnergy:
    """Lower heating value of a blend of gasoline and ethanol, averaged by mass.

    J/kg; gasoline 43.4, ethanol 26.81 MJ/kg. Source: Alternative Fuels Data Center, U.S. Department of Energy.
    """
    share = ethanol_by_mass(ethanol_by_volume)
    return share * HEATING["ethanol"] + (1 - share) * HEATING["gasoline"]


def fuel_heating_value__of_fuel(fuel: Choice) -> SpecificEnergy:
    """Lower heating value: methanol 19.94, propane 46.33 MJ/kg.

    J/kg. Source: Alternative Fuels Data Center, U.S. Department of Energy; Heywood, table D.4.
    """
    return HEATING.get(FAMILY.get(fuel))


def fuel_density(ethanol_by_volume: Fraction) -> Density:
    """Density of a blend of gasoline and ethanol, averaged by volume: gasoline 745, ethanol 789 kg/m3.

    Source: ethanol as in CoolProp at 20 degC; gasoline typical, from memory.
    """
    return ethanol_by_volume * DENSITY["ethanol"] + (1 - ethanol_by_volume) * DENSITY["gasoline"]


def fuel_density__of_fuel(fuel: Choice) -> Density:
    """Density of methanol, 791, and of liquid propane, 510 kg/m3.

    Source: the pure liquids in CoolProp, methanol at 20 and propane at 15 degC.
    """
    return DENSITY.get(FAMILY.get(fuel))


# -- mixture and demand ---------------------------------------------------------------------------------------------


def fuel_full_load_lambda(fuel_full_load_air_fuel: Ratio, fuel_stoichiometric_ratio: Ratio,
                          fuel_air_fuel_scale: Choice = None) -> Ratio:
    """Lambda at full load from an air to fuel number: over the fuel's own ratio, on a gasoline scale over 14.7.

    Source: definition; 14.7 as gauges are marked, common practice.
    """
    return fuel_full_load_air_fuel / (SCALES.get(fuel_air_fuel_scale, fuel_stoichiometric_ratio))


def mixture_lambda(fuel_full_load_lambda: Ratio) -> Ratio:
    """Lambda at full load that air and fuel are counted with, as written.

    Source: the plan.
    """
    return fuel_full_load_lambda


def mixture_lambda__usual(fuel: Choice, induction: Choice) -> Ratio:
    """Lambda at full load that air and fuel are counted with, where none is written.

    Source: common practice, no source.
    """
    family = FAMILY.get(fuel)
    if family not in USUAL_LAMBDA:
        return None
    return USUAL_LAMBDA[family] if induction == "natural" else min(USUAL_LAMBDA[family], USUAL_LAMBDA_BOOSTED)


def fuel_per_work(brake_specific_fuel: FuelPerWork) -> FuelPerWork:
    """Specific fuel consumption that demand is counted with, as written.

    kg/J. Source: the plan.
    """
    return brake_specific_fuel


def fuel_per_work__usual(duty: Choice, induction: Choice, fuel: Choice) -> FuelPerWork:
    """Specific fuel consumption that demand is counted with, where none is written: middle of the usual band.

    kg/J. Source: common practice, no source.
    """
    if FAMILY.get(fuel) not in CONSUMPTION_FACTOR:
        return None
    row = BREATHING.get(duty, "street") if induction == "natural" else "boosted"
    return USUAL_CONSUMPTION[row] * CONSUMPTION_FACTOR[FAMILY[fuel]]


def brake_efficiency(fuel_per_work: FuelPerWork, fuel_heating_value: SpecificEnergy) -> Fraction:
    """Share of the fuel's heat that becomes work: 1 / (specific consumption x heating value).

    Source: Heywood, section 2.8.
    """
    return 1 / (fuel_per_work * fuel_heating_value)


def fuel_mass_flow(engine_power: Power, fuel_per_work: FuelPerWork) -> MassFlow:
    """Fuel burned at peak power: power x specific consumption.

    W, kg/J -> kg/s; without a nitrous shot, which comes on top. Source: definition.
    """
    return engine_power * fuel_per_work


def nitrous_fuel_flow(nitrous_power: Power, fuel: Choice) -> MassFlow:
    """Fuel that a nitrous shot burns: its power x 0.55 lb/hp/h of gasoline, times the fuel's factor.

    kg/s. Source: common practice, no source.
    """
    if FAMILY.get(fuel) not in CONSUMPTION_FACTOR:
        return None
    return CONSUMPTION_FACTOR[FAMILY[fuel]] * nitrous_power * USUAL_CONSUMPTION["nitrous"]


def fuel_mass_flow_of_pump(fuel_mass_flow: MassFlow, nitrous_fuel_flow: MassFlow = None,
                           nitrous_fuel_from: Choice = None) -> MassFlow:
    """Fuel the main pump must give at peak power: the engine's, and the shot's unless that has a system of its own.

    kg/s. Source: definition.
    """
    if nitrous_fuel_flow is None or nitrous_fuel_from == "own_system":
        return fuel_mass_flow
    return fuel_mass_flow + nitrous_fuel_flow


def fuel_volume_flow(fuel_mass_flow_of_pump: MassFlow, fuel_density: Density) -> Flow:
    """Fuel the main pump must give at peak power, as a volume.

    kg/s, kg/m3 -> m3/s. Source: definition.
    """
    return fuel_mass_flow_of_pump / fuel_density


# -- regulator and injectors ------------------------------------------------------------------------------------------


def fuel_rail_pressure(fuel_pressure: Pressure, induction: Choice, boost_pressure: Pressure = None,
                       fuel_regulator_reference: Choice = None) -> Pressure:
    """Pressure of the fuel at full load, gauge: base, plus the boost where the regulator refers to the manifold.

    Pa. Source: definition of a 1:1 reference.
    """
    if induction == "natural" or fuel_regulator_reference != "manifold":
        return fuel_pressure
    return None if boost_pressure is None else fuel_pressure + boost_pressure


def fuel_injector_pressure(fuel_rail_pressure: Pressure, induction: Choice, boost_pressure: Pressure = None) -> Pressure:
    """Pressure difference across the injectors at full load: rail less manifold, both gauge.

    Pa; without a compressor the manifold stands near the outside air. Source: definition.
    """
    if induction == "natural":
        return fuel_rail_pressure
    return None if boost_pressure is None else fuel_rail_pressure - boost_pressure


def injector_static_flow(fuel_injector_flow: MassFlow, fuel_injector_rated_at: Pressure, fuel_injector_pressure: Pressure,
                         fuel_density: Density, fuel_injector_rated_fluid: Choice = None) -> MassFlow:
    """Flow of an injector held open: rated flow x sqrt(pressure / rated pressure) x sqrt(density / density of the rating fluid).

    kg/s, Pa. A rating on an unnamed fluid is taken as it is. Source: Bernoulli through one and the same orifice.
    """
    flow = fuel_injector_flow * sqrt(greatest(fuel_injector_pressure, 0 * fuel_injector_pressure) / fuel_injector_rated_at)
    if fuel_injector_rated_fluid not in RATING_DENSITY:
        return flow
    return flow * sqrt(fuel_density / RATING_DENSITY[fuel_injector_rated_fluid])


def injector_flow_needed(fuel_mass_flow: MassFlow, fuel_injectors: Count, nitrous_fuel_flow: MassFlow = None,
                         nitrous_fuel_from: Choice = None) -> MassFlow:
    """Mean flow asked of one injector 5 percent beyond peak power; with the shot where that is fed by the injectors.

    kg/s. Source: definition; the 5 percent common practice.
    """
    whole = fuel_mass_flow
    if nitrous_fuel_from == "dry" and nitrous_fuel_flow is not None:
        whole = whole + nitrous_fuel_flow
    return DUTY_RESERVE * whole / fuel_injectors


def injector_duty(injector_flow_needed: MassFlow, injector_static_flow: MassFlow) -> Fraction:
    """Share of the time the injectors stay open, 5 percent beyond peak power.

    Source: definition.
    """
    return injector_flow_needed / injector_static_flow


def injector_idle_pulse(displacement: Volume, fuel_heating_value: SpecificEnergy, fuel_injectors: Count,
                        injector_static_flow: MassFlow, fuel_injection: Choice = None) -> Time:
    """Open time of an injector at warm idle, an estimate without its opening delay.

    Idle work of 1.15 bar mean pressure at 25 percent efficiency; batch injection opens twice a cycle for half of it.
    m3, J/kg, kg/s -> s. Source: mean pressure as in Heywood, ch. 13; figures common practice, no source.
    """
    heat_per_cycle = IDLE_PRESSURE * displacement / IDLE_EFFICIENCY
    pulse = heat_per_cycle / fuel_heating_value / fuel_injectors / injector_static_flow
    return pulse / 2 if fuel_injection == "batch" else pulse


# -- pump and lines -----------------------------------------------------------------------------------------------------


def fuel_line_loss(fuel_lines: Entries, fuel_volume_flow: Flow, fuel_density: Density, fuel: Choice) -> Pressure:
    """Pressure lost in the pressure line at the demand of peak power.

    Pa. Source: Darcy and Weisbach with Blasius' friction factor.
    """
    viscosity = fluid_lines.ALCOHOL_VISCOSITY if fuel in ALCOHOLS else fluid_lines.GASOLINE_VISCOSITY
    loss, any_line = 0.0, False
    for row in fuel_lines:
        if row.get("line") == "pressure" and row.get("inside_diameter") and row.get("length"):
            any_line = True
            loss += fluid_lines.pipe_loss(fuel_volume_flow, row["inside_diameter"], row["length"],
                                          row.get("right_angle_fittings") or 0, fuel_density, viscosity)
    return loss if any_line else None


def fuel_pump_pressure(fuel_rail_pressure: Pressure, fuel_line_loss: Pressure = None,
                       fuel_filter_loss: Pressure = None) -> Pressure:
    """Pressure the pump works against at full load: rail, line and filter; 10 kPa for a filter whose loss is not written.

    Pa, gauge. Source: definition; the 10 kPa common practice.
    """
    filter_loss = USUAL_FILTER_LOSS if fuel_filter_loss is None else fuel_filter_loss
    pressure = fuel_rail_pressure + filter_loss
    return pressure if fuel_line_loss is None else pressure + fuel_line_loss


def fuel_pump_flow(fuel_pump_flow_table: Table, fuel_pump_pressure: Pressure, fuel_pump_kind: Choice = None,
                   fuel_pump_rated_voltage: Voltage = None, fuel_pump_supply_voltage: Voltage = None) -> Flow:
    """Flow of the pump at its working pressure, from its table; an electric one by supply over rated voltage to the 1.13.

    m3/s. Source: the maker's table; the exponent from one published curve, from memory.
    """
    flow = fluid_lines.pump_flow(fuel_pump_flow_table, fuel_pump_pressure)
    driven = fuel_pump_kind in ("mechanical", "belt")
    if driven or fuel_pump_rated_voltage is None or fuel_pump_supply_voltage is None:
        return flow
    return flow * (fuel_pump_supply_voltage / fuel_pump_rated_voltage) ** VOLTAGE_POWER


def fuel_pump_margin(fuel_pump_flow: Flow, fuel_volume_flow: Flow) -> Ratio:
    """Flow of the pump at its working pressure over the demand of peak power.

    Source: definition.
    """
    return fuel_pump_flow / fuel_volume_flow
