"""A ring of wire in its groove: how much of it stands out."""

from ..numeric import acos, greatest, least, sqrt, valid
from .validity import positive


def segment(radius, height):
    """Section of a circle above a chord: r^2 acos((r - h) / r) - (r - h) sqrt(2 r h - h^2).

    m -> m2; NaN for a height outside the circle. Source: geometry of the circle.
    """
    radius = positive(radius)
    within = least(greatest(height, 0 * radius), 2 * radius)
    area = radius**2 * acos((radius - within) / radius) - (radius - within) * sqrt(2 * radius * within - within**2)
    return valid(within == height, area)
