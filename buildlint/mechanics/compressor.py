"""What a compressor does to air: how hot it makes it, what that costs, and what a cooler takes away again.

One-dimensional and steady, with air as an ideal gas of constant heat. Which compressor is how good stands in tables.
"""

from ..quantities import q

HEATS = 1.4  # ratio of the specific heats of air
EXPONENT = (HEATS - 1) / HEATS
AIR_HEAT = q("1.005 kJ/kg")  # for each kelvin, at constant pressure
KELVIN = q("1 K", "temperature_rise")


def outlet_temperature(inlet_temperature, pressure_ratio, efficiency):
    """Temperature behind a compressor: T1 (1 + (ratio^0.2857 - 1) / adiabatic efficiency).

    K absolute; ratio of absolute pressures. Source: Heywood, Internal Combustion Engine Fundamentals, section 6.8.
    """
    return inlet_temperature * (1 + (pressure_ratio**EXPONENT - 1) / efficiency)


def inlet_power(mass_flow, inlet_temperature, outlet_temperature_, drive_efficiency):
    """Power that drives a compressor: mass flow x heat of air x rise of temperature / efficiency of the drive.

    kg/s, K -> W. Source: first law of thermodynamics, steady flow.
    """
    return mass_flow * AIR_HEAT * ((outlet_temperature_ - inlet_temperature) / KELVIN) / drive_efficiency


def cooled(temperature, coolant_temperature, effectiveness):
    """Temperature behind a cooler: what goes in less effectiveness x (in - coolant).

    K. Source: definition of the effectiveness of a heat exchanger, as Heywood, section 6.8.
    """
    return temperature - effectiveness * (temperature - coolant_temperature)


def density_ratio(pressure_ratio, temperature_ratio):
    """Density over that of the outside air: ratio of pressures over ratio of absolute temperatures. Source: gas law."""
    return pressure_ratio / temperature_ratio
