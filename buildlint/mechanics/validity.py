"""Where a quantity makes no sense it has no answer."""

from ..numeric import NAN, where


def positive(value):
    """The value where it is above zero, else NaN: a length, an area or a torque of nothing divides nothing."""
    return where(value > 0 * value, value, NAN * value)
