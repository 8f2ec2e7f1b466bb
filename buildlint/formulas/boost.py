"""What a compressor and its cooler make of the charge, how fast a belt drives a blower, and what nitrous adds.

The outside air and the pressure in the manifold stand in ``air``; what the cylinder makes of them in
``cylinder_pressure``. Pressures are ratios of absolute pressures unless a word says gauge.
"""

from ..dimensions import Choice, Fraction, Length, MassFlow, Power, Pressure, Ratio, Rpm, Temperature, TemperatureRise, Torque, Volume, YesNo
from ..mechanics import compressor
from ..quantities import q
from ..tables.compressors import DELIVERY, DELIVERY_COOLED, USUAL_EFFECTIVENESS, USUAL_EFFICIENCY

STANDARD_INLET = q("25 degC", "temperature")
USUAL_DRIVE_EFFICIENCY = 0.95


# -- pressure ------------------------------------------------------------------------------------------------


def pressure_ratio(air_pressure: Pressure, boost_pressure: Pressure) -> Ratio:
    """Manifold pressure over outside air, both absolute: (air + boost) / air.

    Pa. The air of the lowest place of use counts. Source: definition.
    """
    return (air_pressure + boost_pressure) / air_pressure


def compressor_pressure_ratio(air_pressure: Pressure, boost_pressure: Pressure, boost_inlet_depression: Pressure = None,
                              boost_cooler_pressure_loss: Pressure = None) -> Ratio:
    """Pressure ratio the compressor itself must make: (air + boost + loss in the cooler) / (air - inlet depression).

    Pa. Source: definition.
    """
    none = 0 * boost_pressure
    behind = none if boost_cooler_pressure_loss is None else boost_cooler_pressure_loss
    before = none if boost_inlet_depression is None else boost_inlet_depression
    return (air_pressure + boost_pressure + behind) / (air_pressure - before)


def boosted_compression_ratio(compression_ratio: Ratio, pressure_ratio: Ratio) -> Ratio:
    """Static ratio that would squeeze outside air to the same pressure at top: ratio x pressure ratio^(1/1.4).

    The only one of the formulas in use with a physical meaning; charts mostly multiply by the pressure ratio itself,
    which reads higher. Source: isentropic compression, Heywood, Internal Combustion Engine Fundamentals, section 5.2.
    """
    return compression_ratio * pressure_ratio ** (1 / compressor.HEATS)


def boosted_compression_ratio_linear(compression_ratio: Ratio, pressure_ratio: Ratio) -> Ratio:
    """Static ratio times pressure ratio, as most charts count it.

    Source: common practice, no source.
    """
    return compression_ratio * pressure_ratio


# -- temperature -----------------------------------------------------------------------------------------------


def compressor_efficiency(boost_efficiency: Fraction) -> Fraction:
    """Adiabatic efficiency of the compressor, as written.

    Source: the compressor's map.
    """
    return boost_efficiency


def compressor_efficiency__usual(boost_compressor: Choice) -> Fraction:
    """Adiabatic efficiency of the compressor where none is written, by its kind.

    Source: middle of the bands that are printed; common practice, no source.
    """
    return USUAL_EFFICIENCY.get(boost_compressor)


def compressor_inlet_temperature(boost_inlet_temperature: Temperature) -> Temperature:
    """Temperature of the air into the compressor, as written.

    K. Source: measurement.
    """
    return boost_inlet_temperature


def compressor_inlet_temperature__hottest(ambient_hottest: Temperature) -> Temperature:
    """Temperature of the air into the compressor, where none is written: the hottest day of use.

    K. Source: the plan.
    """
    return ambient_hottest


def compressor_inlet_temperature__standard() -> Temperature:
    """Temperature of the air into the compressor, where neither it nor a hottest day is written: 25 degC.

    K. Source: standard condition of engine tests, ISO 1585.
    """
    return STANDARD_INLET


def compressor_outlet_temperature(compressor_inlet_temperature: Temperature, compressor_pressure_ratio: Ratio,
                                  compressor_efficiency: Fraction) -> Temperature:
    """Temperature behind the compressor, dry: inlet x (1 + (pressure ratio^0.2857 - 1) / efficiency).

    K absolute. Source: Heywood, Internal Combustion Engine Fundamentals, section 6.8.
    """
    return compressor.outlet_temperature(compressor_inlet_temperature, compressor_pressure_ratio, compressor_efficiency)


def charge_temperature_uncooled(compressor_outlet_temperature: Temperature,
                                boost_wet_compressor_drop: TemperatureRise = None) -> Temperature:
    """Temperature of the charge before a cooler: behind the compressor, less what fuel through the rotor takes.

    K. Source: balance of heat.
    """
    if boost_wet_compressor_drop is None:
        return compressor_outlet_temperature
    return compressor_outlet_temperature - boost_wet_compressor_drop


def charge_coolant_temperature(boost_cooler_coolant_temperature: Temperature) -> Temperature:
    """Temperature of the air or water that cools the charge, as written.

    K. Source: measurement.
    """
    return boost_cooler_coolant_temperature


def charge_coolant_temperature__outside_air(boost_cooler_kind: Choice, compressor_inlet_temperature: Temperature) -> Temperature:
    """Temperature of what cools the charge of an air-to-air cooler: that of the outside air.

    K; water coolers have to name theirs. Source: definition.
    """
    return compressor_inlet_temperature if boost_cooler_kind == "air_to_air" else None


def charge_cooler_effectiveness(boost_cooler_effectiveness: Fraction) -> Fraction:
    """Share of the possible cooling that the charge cooler reaches, as written.

    Source: the maker's sheet or a measurement.
    """
    return boost_cooler_effectiveness


def charge_cooler_effectiveness__usual(boost_cooler_kind: Choice) -> Fraction:
    """Share of the possible cooling that a charge cooler reaches where none is written, by its kind.

    Source: common practice, no source.
    """
    return USUAL_EFFECTIVENESS.get(boost_cooler_kind)


def boost_charge_temperature__uncooled(boost_cooler_kind: Choice, charge_temperature_uncooled: Temperature) -> Temperature:
    """Temperature in the manifold without a cooler: as it leaves the compressor.

    K. Source: definition.
    """
    return charge_temperature_uncooled if boost_cooler_kind == "none" else None


def boost_charge_temperature__cooled(charge_temperature_uncooled: Temperature, charge_cooler_effectiveness: Fraction,
                                     charge_coolant_temperature: Temperature) -> Temperature:
    """Temperature in the manifold behind a cooler: what goes in less effectiveness x (in - coolant).

    K. Source: definition of effectiveness, Heywood, Internal Combustion Engine Fundamentals, section 6.8.
    """
    return compressor.cooled(charge_temperature_uncooled, charge_coolant_temperature, charge_cooler_effectiveness)


def density_ratio(pressure_ratio: Ratio, compressor_inlet_temperature: Temperature, boost_charge_temperature: Temperature) -> Ratio:
    """Density of the charge over that of the outside air: pressure ratio x inlet temperature / charge temperature.

    K absolute. Source: gas law.
    """
    return compressor.density_ratio(pressure_ratio, boost_charge_temperature / compressor_inlet_temperature)


def boost_drive_power(air_mass_flow: MassFlow, compressor_inlet_temperature: Temperature, compressor_outlet_temperature: Temperature,
                      boost_drive_efficiency: Fraction = None) -> Power:
    """Power that turns the compressor at the power peak: air x 1.005 kJ/kg K x rise of temperature / drive efficiency.

    kg/s, K -> W; 0.95 where the drive names no efficiency. Source: first law, steady flow; the 0.95 common practice.
    """
    return compressor.inlet_power(air_mass_flow, compressor_inlet_temperature, compressor_outlet_temperature,
                                  USUAL_DRIVE_EFFICIENCY if boost_drive_efficiency is None else boost_drive_efficiency)


# -- the belt --------------------------------------------------------------------------------------------------


def blower_drive_ratio(boost_crank_pulley: Length, boost_blower_pulley: Length, boost_blower_step_up: Ratio = None) -> Ratio:
    """Turns of the rotor for each turn of the crank: crank pulley / blower pulley x gears inside.

    Source: geometry.
    """
    ratio = boost_crank_pulley / boost_blower_pulley
    return ratio if boost_blower_step_up is None else ratio * boost_blower_step_up


def blower_speed(rev_limit: Rpm, blower_drive_ratio: Ratio) -> Rpm:
    """Speed of the rotor at the limiter.

    rad/s. Source: geometry.
    """
    return rev_limit * blower_drive_ratio


def blower_speed_overspeed(overspeed: Rpm, blower_drive_ratio: Ratio) -> Rpm:
    """Speed of the rotor at the overspeed.

    rad/s. Source: geometry.
    """
    return overspeed * blower_drive_ratio


def blower_delivery(boost_compressor: Choice, boost_cooler_kind: Choice = None) -> Ratio:
    """Share of the swept volume that a displacing blower brings into the manifold, heat and leakage together.

    Source: common practice, no source; within 0.08.
    """
    rows = DELIVERY if boost_cooler_kind in (None, "none") else DELIVERY_COOLED
    return rows.get(boost_compressor)


def blower_pressure_expected(blower_delivery: Ratio, boost_blower_displacement: Volume, blower_drive_ratio: Ratio,
                             displacement: Volume, air_pressure: Pressure) -> Pressure:
    """Boost that a displacing blower should make: air x (delivery x 2 x blower volume x ratio / displacement - 1).

    m3, Pa -> Pa, gauge; an estimate within a third. Source: continuity; the delivery common practice, no source.
    """
    return air_pressure * (blower_delivery * 2 * boost_blower_displacement * blower_drive_ratio / displacement - 1)


# -- nitrous ---------------------------------------------------------------------------------------------------


def nitrous_torque(nitrous_power: Power, peak_torque_speed: Rpm, nitrous_counted_in_peak_power: YesNo = None) -> Torque:
    """Torque that a nitrous shot adds at the torque peak: its power / speed; nothing where the build's torque is with it.

    W, rad/s -> N m. Source: definition of power.
    """
    return (0.0 if nitrous_counted_in_peak_power else 1.0) * nitrous_power / peak_torque_speed
