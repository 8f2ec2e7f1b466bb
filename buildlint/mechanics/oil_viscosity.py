"""How thick an oil is at a temperature, from its viscosity at two others."""

import math

from ..numeric import exp, log, valid
from ..quantities import q
from .expansion import ONE_KELVIN

UNIT = q("1 mm^2/s")
DENSITY_AT_15 = q("865 kg/m^3")  # typical engine oil; common practice, no source
DENSITY_LOST = q("0.65 kg/m^3")  # for each kelvin above; common practice, no source
FIFTEEN = q("15 degC")
TEN = math.log(10)


def _double_log(viscosity):
    return log(log(viscosity / UNIT + 0.7) / TEN) / TEN


def viscosity_between(first, first_temperature, second, second_temperature, temperature):
    """Kinematic viscosity at a temperature, from two others.

    log log (v + 0.7) = A - B log T, v in mm2/s, T in kelvin. All viscosities in m2/s, temperatures in K, second the
    hotter. NaN where the result is below 2 mm2/s, the end of the equation's plain form, or where the oil would get
    thicker with heat. Source: ASTM D341.
    """
    slope = (_double_log(first) - _double_log(second)) / (log(second_temperature / first_temperature) / TEN)
    found = _double_log(first) - slope * log(temperature / first_temperature) / TEN
    viscosity = UNIT * (exp(TEN * exp(TEN * found)) - 0.7)
    good = (viscosity >= 2 * UNIT) & (slope > 0) if not isinstance(viscosity, float) else viscosity >= 2 * UNIT and slope > 0
    return valid(good, viscosity)


def density(temperature):
    """Density of a typical engine oil, kg/m3: 865 at 15 degC, 0.65 less for each kelvin.

    Source: common practice, no source.
    """
    return DENSITY_AT_15 - DENSITY_LOST * ((temperature - FIFTEEN) / ONE_KELVIN)
