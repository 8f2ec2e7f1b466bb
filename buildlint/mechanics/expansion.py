"""Growth of a length with heat."""

from ..quantities import q
from ..tables.materials import EXPANSION

ONE_KELVIN = q("1 K", "temperature_rise")
REFERENCE_TEMPERATURE = q("20 degC")  # dimensions hold at this temperature: ISO 1


def growth(metal, length, rise):
    """How much a length of a metal grows when it gets warmer by ``rise``: coefficient x length x rise.

    ``metal`` is a row of the table of materials, length in m, rise in K -> m; negative when it gets colder.
    Source: thermal strain, any handbook of materials.
    """
    return EXPANSION[metal] * length * (rise / ONE_KELVIN)
