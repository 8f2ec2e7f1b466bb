"""The lift curve of a cam lobe built from two durations: a smooth synthetic flank. Tables stand in ``lobe_table``.

Angles are cam radians from the nose, negative before it (the opening side). Lifts may be in any one unit; slope and
curvature come out in that unit per radian and per radian squared. How a lobe was timed in an engine is not its affair.
The synthetic flank has no lift, velocity or acceleration at its end. It understates the flank of modern aggressive
lobes (by 5 to 10 degrees at 0.200 in for one worked pair), so whatever rests on it is an estimate.
"""

import math
from functools import lru_cache

from ..numeric import NAN, valid, where

STEPS = 52  # halvings of a bracket: to the last bit of a float


def elementwise(function, *values):
    """Apply a function of plain floats to floats, arrays or dimensionless quantities, element by element."""
    if all(isinstance(value, (float, int)) for value in values):
        return function(*values)
    values = [value.to("dimensionless").magnitude if hasattr(value, "magnitude") else value for value in values]
    if all(isinstance(value, (float, int)) for value in values):
        return function(*values)
    import numpy

    return numpy.vectorize(function, otypes=[float])(*values)


def positive(value):
    """The value where it is more than nothing, else NaN: what is divided by, or raised to a power, must be."""
    return valid(value > 0, value)


def flank(share, exponent):
    """Lift over full lift at ``share`` of the half width: 1 - A x^2 + A x^q - x^(q+2), A = (q+2)/(q-2).

    ``share`` x from 0 (nose) to 1 (end), beyond it 0; exponent q > 2. Zero lift, slope and curvature at x = 1 follow
    from A. Source: the 2-q-(q+2) member of the polydyne family, Rothbart, Cam Design Handbook; its end conditions
    are checked by substitution in the tests.
    """
    a = (exponent + 2) / (exponent - 2)
    x = where(share < 1, share, 1.0)
    return where(share < 1, 1 - a * x**2 + x**exponent * (a - x**2), 0.0 * share)


def flank_slope(share, exponent):
    """Derivative of ``flank`` by its share; negative, zero at both ends."""
    a = (exponent + 2) / (exponent - 2)
    x = where(share < 1, share, 1.0)
    return where(share < 1, -2 * a * x + x ** (exponent - 1) * (exponent * a - (exponent + 2) * x**2), 0.0 * share)


def flank_curvature(share, exponent):
    """Second derivative of ``flank`` by its share: -2 A at the nose, zero at the end."""
    a = (exponent + 2) / (exponent - 2)
    x = where(share < 1, share, 1.0)
    inner = x ** (exponent - 2) * (exponent * (exponent - 1) * a - (exponent + 2) * (exponent + 1) * x**2)
    return where(share < 1, -2 * a + inner, 0.0 * share)


def nose_curvature(exponent):
    """``flank_curvature`` at the nose: -2 (q+2) / (q-2)."""
    return -2 * (exponent + 2) / (exponent - 2)


def flank_area(exponent):
    """Area under both flanks of unit lift and unit half width: 2 (1 - A/3 + A/(q+1) - 1/(q+3)).

    Source: the integral of ``flank``.
    """
    a = (exponent + 2) / (exponent - 2)
    return 2 * (1 - a / 3 + a / (exponent + 1) - 1 / (exponent + 3))


def share_at(height, exponent):
    """Share of the half width at which the flank has a height (lift over full lift, 0 to 1). NaN outside."""
    return elementwise(_share_at, height, exponent)


def _share_at(height, exponent):
    if not 0 < height < 1 or not exponent > 2:
        return NAN
    a = (exponent + 2) / (exponent - 2)
    low, high = 0.0, 1.0
    if height > 0.5:
        x = math.sqrt((1 - height) / a)
    else:  # near its end the flank is q (q+2) / 3 times the cube of the way left
        x = max(0.1, 1 - (3 * height / (exponent * (exponent + 2))) ** (1 / 3))
    for _ in range(STEPS):
        power = x**exponent
        off = 1 - a * x * x + power * (a - x * x) - height
        low, high = (x, high) if off > 0 else (low, x)
        slope = -2 * a * x + power / x * (exponent * a - (exponent + 2) * x * x)
        step = x - off / slope if slope else -1.0
        if abs(step - x) <= 2e-16 * x:
            return step
        x = step if low < step < high else (low + high) / 2
    return x


def exponent_of(wider, narrower, low, high):
    """Exponent q of the flank that is ``wider`` at the height ``low`` and ``narrower`` at the height ``high``.

    Two durations in one unit, two heights as shares of full lift, low < high. The ratio of the shares at the two
    heights falls steadily as q rises; NaN where no q between 2.02 and 400 gives the ratio of the durations.
    Source: the definition of the synthetic lobe, solved by false position in a bracket.
    """
    return elementwise(_exponent_of, wider / positive(narrower), low, high)


@lru_cache(maxsize=512)
def _exponent_of(ratio, low, high):
    if not (0 < low < high < 1 and ratio > 1):
        return NAN

    def off(freedom):
        exponent = 2 + math.exp(freedom)
        return _share_at(low, exponent) / _share_at(high, exponent) - ratio

    left, right = math.log(0.02), math.log(398.0)
    off_left, off_right = off(left), off(right)
    if not (off_left >= 0 >= off_right):
        return NAN
    for _ in range(200):
        middle = (left * off_right - right * off_left) / (off_right - off_left) if off_left != off_right else left
        if not left < middle < right:
            middle = (left + right) / 2
        off_middle = off(middle)
        if abs(off_middle) < 1e-14 or right - left < 1e-13:
            return 2 + math.exp(middle)
        if off_middle > 0:
            shrink, left, off_left = (right - middle) / (right - left), middle, off_middle
            off_right = off_right / 2 if shrink > 0.5 else off_right
        else:
            shrink, right, off_right = (middle - left) / (right - left), middle, off_middle
            off_left = off_left / 2 if shrink > 0.5 else off_left
    return 2 + math.exp((left + right) / 2)


def steepest_of_flank(exponent):
    """Largest slope of ``flank`` by its share, as a positive number. Source: where its curvature is zero, by bisection."""
    return elementwise(_steepest_of_flank, exponent)


@lru_cache(maxsize=512)
def turning_share(exponent):
    """Share of the half width at which the flank turns from hollow to round: where ``flank_curvature`` is zero."""
    low, high = 0.0, 1.0
    while flank_curvature(high - (high - low) / 2, exponent) > 0:  # the zero at the end itself is not the one
        high = (low + high) / 2
    low, high = high - (high - low) / 2, high
    for _ in range(STEPS):
        middle = (low + high) / 2
        low, high = (middle, high) if flank_curvature(middle, exponent) < 0 else (low, middle)
    return (low + high) / 2


def _steepest_of_flank(exponent):
    return -flank_slope(turning_share(exponent), exponent) if exponent > 2 else NAN


def synthetic(lift, half_width, exponent):
    """The lift of a synthetic lobe as a function of a plain angle in rad. ``half_width`` in cam rad."""
    a = (exponent + 2) / (exponent - 2)

    def at(angle):
        x = abs(angle) / half_width
        if x >= 1:
            return 0.0
        square = x * x
        return lift * (1 - a * square + x**exponent * (a - square))

    return at
