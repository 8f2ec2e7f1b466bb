"""When a mixture of water and ethylene glycol begins to freeze, as data."""

from ..numeric import interpolate
from ..quantities import q

# Share of glycol by volume: freezing point. ASHRAE Handbook, Fundamentals, from memory; beyond 60 percent it rises again.
FREEZING = {
    0.0: q("0 degC"), 0.1: q("-3.4 degC"), 0.2: q("-7.9 degC"), 0.3: q("-14.1 degC"), 0.4: q("-22.3 degC"), 0.5: q("-33.8 degC"),
    0.6: q("-48.3 degC"),
}


def freezing_point(share):
    """The temperature at which the first ice appears in a mixture with this share of glycol; the last row beyond it."""
    return interpolate(min(share, max(FREEZING)), tuple(FREEZING.items()))
