"""Slender columns with ball ends."""

from ..numeric import PI, sqrt, where
from .quotient import over


def tube_area(outside_diameter, wall):
    """Cross-section of a tube, m2, from outside diameter and wall in m."""
    inside = outside_diameter - 2 * wall
    return PI / 4 * (outside_diameter**2 - inside**2)


def tube_second_moment(outside_diameter, wall):
    """Second moment of area of a tube, m4."""
    inside = outside_diameter - 2 * wall
    return PI / 64 * (outside_diameter**4 - inside**4)


def buckling_load(area, second_moment, length, youngs_modulus, yield_strength):
    """Load at which a column with both ends free to swivel gives way, N.

    Euler pi^2 E I / L^2 for slender columns, J. B. Johnson's parabola A (Sy - (Sy s / 2 pi)^2 / E) for short
    ones, s = L / sqrt(I / A); they meet at s = sqrt(2 pi^2 E / Sy).
    Source: Shigley, Mechanical Engineering Design, 9th ed., sections 4-12 and 4-13.
    """
    slenderness = over(length, sqrt(over(second_moment, area)))
    change = sqrt(over(2 * PI**2 * youngs_modulus, yield_strength))
    euler = over(PI**2 * youngs_modulus * second_moment, length**2)
    johnson = area * (yield_strength - (yield_strength * slenderness / (2 * PI)) ** 2 / youngs_modulus)
    return where(slenderness >= change, euler, johnson)
