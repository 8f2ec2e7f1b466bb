"""A quotient that has no answer, instead of breaking down, where nothing is divided by."""

from ..numeric import NAN


def over(numerator, denominator):
    """numerator / denominator; NaN where the denominator is a plain zero.

    A builder who types 0 for a length or a load gets the rest of his spec judged all the same.
    """
    if isinstance(denominator, (float, int)) and denominator == 0:
        return NAN * numerator
    return numerator / denominator
