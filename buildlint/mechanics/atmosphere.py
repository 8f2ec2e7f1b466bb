"""The air an engine stands in: its pressure by altitude, the water in it, and how fast sound runs through it."""

from ..dimensions import Speed
from ..numeric import exp, sqrt
from ..quantities import q

STANDARD_PRESSURE = q("101.325 kPa")
STANDARD_TEMPERATURE = q("298.15 K", "temperature")  # 25 degC, as engine tests count it
STANDARD_DENSITY = q("1.184 kg/m^3")  # dry air at those two
SOUND_AT_STANDARD = Speed(346.1)  # m/s in air of 25 degC, sqrt(1.400 x 287.05 J/(kg K) x 298.15 K)

LAPSE_HEIGHT = q("44330.77 m")  # 288.15 K over 6.5 K/km
LAPSE_POWER = 5.25588

ZERO_CELSIUS = q("273.15 K", "temperature")
WATER_PRESSURE = q("611.21 Pa")
WATER_FIRST, WATER_SECOND = 18.678, q("234.5 K", "temperature")
WATER_THIRD = q("257.14 K", "temperature")


def pressure_at(altitude):
    """Air pressure at an altitude up to 11 km: 101.325 kPa (1 - z / 44331 m)^5.256.

    m -> Pa. Source: ISO 2533 standard atmosphere, troposphere.
    """
    return STANDARD_PRESSURE * (1 - altitude / LAPSE_HEIGHT) ** LAPSE_POWER


def density(pressure, temperature):
    """Density of dry air as an ideal gas, counted from the standard state. Pa, K -> kg/m3. Source: gas law."""
    return STANDARD_DENSITY * (pressure / STANDARD_PRESSURE) * (STANDARD_TEMPERATURE / temperature)


def sound_speed(temperature):
    """Speed of sound in air: that at 25 degC times the root of the absolute temperature. K -> m/s. Source: gas law."""
    return SOUND_AT_STANDARD * sqrt(temperature / STANDARD_TEMPERATURE)


def water_vapor_pressure(temperature):
    """Pressure of saturated water vapor over water, 0 to 50 degC, within 0.1 percent.

    611.21 Pa exp((18.678 - t/234.5) t/(257.14 + t)), t in degC; K -> Pa.
    Source: Buck, Journal of Applied Meteorology 20 (1981), constants of 1996 (from memory), checked against CoolProp.
    """
    above_zero = temperature - ZERO_CELSIUS
    return WATER_PRESSURE * exp((WATER_FIRST - above_zero / WATER_SECOND) * (above_zero / (WATER_THIRD + above_zero)))


def dry_pressure(pressure, temperature, humidity):
    """What is left of the air's pressure without its water vapor. Pa, K, share -> Pa. Source: Dalton's law."""
    return pressure - humidity * water_vapor_pressure(temperature)
