"""The lift curve of a cam lobe: read from a table, or built from two durations as a smooth synthetic flank.

Angles are cam radians from the nose, negative before it (the opening side). Lifts may be in any one unit; slope and
curvature come out in that unit per radian and per radian squared. How a lobe was timed in an engine is not its affair.
The synthetic flank has no lift, velocity or acceleration at its end. It understates the flank of modern aggressive
lobes (by 5 to 10 degrees at 0.200 in for one worked pair), so whatever rests on it is an estimate.
"""

import math
from bisect import bisect_right
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


# -- the synthetic flank -----------------------------------------------------------------------------------


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


# -- a table -----------------------------------------------------------------------------------------------


def whole(table):
    """Rows (angle, lift) of a table as plain floats in the order of the angles; one flank is mirrored to both.

    A table whose angles are all on one side of the nose is taken as a symmetric lobe.
    """
    rows = sorted({float(angle): float(lift) for angle, lift in table}.items())
    if rows and (rows[0][0] >= 0 or rows[-1][0] <= 0):
        mirrored = [(-angle, lift) for angle, lift in rows if angle != 0]
        rows = sorted(rows + mirrored)
    return rows


def between(rows, at):
    """Value of a smooth table at a place: a cubic through the four nearest rows; NaN outside the table."""
    if len(rows) < 2 or not rows[0][0] <= at <= rows[-1][0]:
        return NAN
    near = bisect_right(rows, (at, math.inf))
    first = max(0, min(near - 2, len(rows) - 4))
    chosen = rows[first:first + 4]
    total = 0.0
    for number, (x, y) in enumerate(chosen):
        weight = y
        for other, (x2, _) in enumerate(chosen):
            if other != number:
                weight *= (at - x2) / (x - x2)
        total += weight
    return total


def tabulated(table):
    """The lift of a tabulated lobe as a function of a plain angle in rad; no lift outside the table."""
    rows = whole(table)

    def at(angle):
        if not rows[0][0] <= angle <= rows[-1][0]:
            return 0.0
        return max(0.0, between(rows, angle))

    return at


def local_motion(rows, at, reach):
    """(lift, slope, curvature) at a place by the parabola that best fits the rows within ``reach`` of it.

    Lifts read to 0.0001 in at every degree carry more noise in their second differences than a nose has
    acceleration; the fit over a window takes it out. None where fewer than four rows lie in the window.
    Source: least squares.
    """
    first, last = bisect_right(rows, (at - reach - 1e-12, -math.inf)), bisect_right(rows, (at + reach + 1e-12, math.inf))
    window = rows[first:last]
    if len(window) < 4:
        return None
    sums = [0.0] * 5
    right = [0.0] * 3
    for angle, lift in window:
        x = (angle - at) / reach
        power = 1.0
        for order in range(5):
            sums[order] += power
            if order < 3:
                right[order] += lift * power
            power *= x
    constant, linear, square = _solve(
        [[sums[0], sums[1], sums[2]], [sums[1], sums[2], sums[3]], [sums[2], sums[3], sums[4]]], right)
    return constant, linear / reach, 2 * square / reach**2


def _solve(matrix, right):
    """Three linear equations by Cramer's rule."""

    def determinant(m):
        return (m[0][0] * (m[1][1] * m[2][2] - m[1][2] * m[2][1]) - m[0][1] * (m[1][0] * m[2][2] - m[1][2] * m[2][0])
                + m[0][2] * (m[1][0] * m[2][1] - m[1][1] * m[2][0]))

    whole_determinant = determinant(matrix)
    answers = []
    for column in range(3):
        changed = [[right[row] if index == column else matrix[row][index] for index in range(3)] for row in range(3)]
        answers.append(determinant(changed) / whole_determinant)
    return answers


def steepest_of_table(table, reach=math.radians(3)):
    """Largest slope of a tabulated lobe, either flank, by parabolas over three degrees to either side."""
    rows = whole(table)
    fits = [local_motion(rows, angle, window_of(rows, reach)) for angle, _ in rows]
    slopes = [abs(fit[1]) for fit in fits if fit is not None]
    return max(slopes) if slopes else NAN


def nose_of_table(table, reach=math.radians(10)):
    """Curvature of a tabulated lobe at its nose by a parabola over ten degrees to either side; NaN if it is too coarse."""
    rows = whole(table)
    fit = local_motion(rows, 0.0, window_of(rows, reach))
    return NAN if fit is None else fit[2]


def window_of(rows, least):
    """A window of at least two rows to either side, however coarse the table."""
    widest = max((b[0] - a[0] for a, b in zip(rows, rows[1:])), default=least)
    return max(least, 2 * widest)


def hollow_of_table(table, base_radius, wheel_radius, reach=math.radians(5)):
    """Smallest radius of a hollow flank, or NaN where there is none.

    The path of the wheel's center has the radius ((r+s)^2 + s'^2)^(3/2) / ((r+s)^2 + 2 s'^2 - (r+s) s''); where it is
    negative the flank is hollow, and its surface lies a wheel's radius farther out.
    """
    rows = whole(table)
    found = []
    for angle, _ in rows:
        fit = local_motion(rows, angle, window_of(rows, reach))
        if fit is None:
            continue
        lift, slope, curvature = fit
        out = base_radius + wheel_radius + lift
        bend = out**2 + 2 * slope**2 - out * curvature
        if bend < 0:
            found.append((out**2 + slope**2) ** 1.5 / -bend + wheel_radius)
    return min(found) if found else NAN


def area_under(rows):
    """Area under a tabulated lobe: trapezoids between the rows."""
    return sum((lift + lift2) / 2 * (angle2 - angle) for (angle, lift), (angle2, lift2) in zip(rows, rows[1:]))
