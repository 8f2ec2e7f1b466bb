"""When a mixture of water and ethylene glycol begins to freeze, as data."""

from ..numeric import interpolate
from ..quantities import q

# Share of glycol by volume, not by mass: freezing point. ASHRAE Handbook, Fundamentals, as CoolProp carries its table by
# volume; beyond 60 percent it rises again.
FREEZING = {
    0.0: q("0 degC"), 0.1: q("-3.6 degC"), 0.2: q("-9.0 degC"), 0.3: q("-15.7 degC"), 0.4: q("-24.8 degC"), 0.5: q("-37.1 degC"),
    0.6: q("-52.0 degC"),
}


def freezing_point(share):
    """The temperature at which the first ice appears in a mixture with this share of glycol; the last row beyond it."""
    return interpolate(min(share, max(FREEZING)), tuple(FREEZING.items()))


def share_for(temperature):
    """The share of glycol that begins to freeze at a temperature; None where no mixture stays liquid."""
    if temperature < min(FREEZING.values()):
        return None
    return interpolate(min(temperature, max(FREEZING.values())), tuple((point, share) for share, point in FREEZING.items()))
