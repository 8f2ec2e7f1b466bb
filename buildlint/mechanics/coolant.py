"""Water and ethylene glycol as a coolant: when it boils under a cap, and how much heat a stream of it carries.

Saturation of water follows the industrial formulation; the mixture follows Raoult's law, which reads within 1.5 K of
activity models up to 60 percent of glycol. Freezing and corrosion do not stand here.
"""

from ..numeric import sqrt
from ..quantities import q

MEGAPASCAL, KELVIN = q("1 MPa"), q("1 K", "temperature")

# Region 4 of the IAPWS Industrial Formulation 1997 (release R7-97), equations 29 to 31.
N1, N2, N3, N4, N5 = 0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2, 0.12020824702470e5, -0.32325550322333e7
N6, N7, N8, N9, N10 = 0.14915108613530e2, -0.48232657361591e4, 0.40511340542057e6, -0.23855557567849, 0.65017534844798e3

WATER_MOLAR = q("18.015 g")  # of a mole
GLYCOL_MOLAR = q("62.07 g")
WATER_DENSITY_COLD = q("998.2 kg/m^3")
GLYCOL_DENSITY_COLD = q("1113 kg/m^3")

# Hot, about 90 degC: density, and heat for each kelvin, of water and of an even mixture; straight lines between.
WATER_DENSITY, EVEN_DENSITY = q("965 kg/m^3"), q("1030 kg/m^3")
WATER_HEAT, EVEN_HEAT = q("4.20 kJ/kg"), q("3.55 kJ/kg")
RISE = q("1 K", "temperature_rise")


def saturation_temperature(pressure):
    """Boiling temperature of water at an absolute pressure from 0.6 kPa to 22 MPa. Pa -> K.

    Source: IAPWS R7-97, equation 31 (region 4, backward).
    """
    root = (pressure / MEGAPASCAL) ** 0.25
    e = root**2 + N3 * root + N6
    f = N1 * root**2 + N4 * root + N7
    g = N2 * root**2 + N5 * root + N8
    d = 2 * g / (-f - sqrt(f**2 - 4 * e * g))
    return KELVIN * (N10 + d - sqrt((N10 + d) ** 2 - 4 * (N9 + N10 * d))) / 2


def saturation_pressure(temperature):
    """Absolute pressure at which water boils at a temperature from 273 to 647 K. K -> Pa.

    Source: IAPWS R7-97, equation 30 (region 4).
    """
    shifted = temperature / KELVIN + N9 / (temperature / KELVIN - N10)
    a = shifted**2 + N1 * shifted + N2
    b = N3 * shifted**2 + N4 * shifted + N5
    c = N6 * shifted**2 + N7 * shifted + N8
    return MEGAPASCAL * (2 * c / (-b + sqrt(b**2 - 4 * a * c))) ** 4


def water_share(glycol_fraction):
    """Moles of water in a mole of mixture, from the glycol by volume as it is poured cold. Source: definition."""
    water = (1 - glycol_fraction) * WATER_DENSITY_COLD / WATER_MOLAR
    glycol = glycol_fraction * GLYCOL_DENSITY_COLD / GLYCOL_MOLAR
    return water / (water + glycol)


def boiling_temperature(pressure, glycol_fraction):
    """Boiling temperature of coolant at an absolute pressure: that of water at pressure / share of water. Pa -> K.

    Source: Raoult's law, glycol's own vapor left out.
    """
    return saturation_temperature(pressure / water_share(glycol_fraction))


def boiling_pressure(temperature, glycol_fraction):
    """Absolute pressure that keeps coolant from boiling at a temperature. K -> Pa. Source: Raoult's law."""
    return saturation_pressure(temperature) * water_share(glycol_fraction)


def temperature_rise(heat, flow, glycol_fraction):
    """Warming of a stream of hot coolant: heat / (density x flow x heat for each kelvin). W, m3/s -> K.

    Source: balance of heat; hot water 965 kg/m3 and 4.20 kJ/kg K, even mixture 1030 and 3.55, handbook values rounded.
    """
    share = glycol_fraction / 0.5
    density = WATER_DENSITY + share * (EVEN_DENSITY - WATER_DENSITY)
    warmth = WATER_HEAT + share * (EVEN_HEAT - WATER_HEAT)
    return RISE * heat / (density * flow * warmth)


def flow_for_rise(heat, rise, glycol_fraction):
    """Flow of hot coolant that keeps the warming at ``rise``. W, K -> m3/s. Source: as temperature_rise."""
    return temperature_rise(heat, 1.0, glycol_fraction) / rise
