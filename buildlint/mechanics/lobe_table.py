"""A cam lobe read from a table of (cam angle from the nose in rad, lift): lift between the rows, slope, curvature, area.

Angles before the nose are negative. Lifts may be in any one unit. The synthetic lobe stands in ``lobe``.
"""

import math
from bisect import bisect_right

from ..numeric import NAN


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
