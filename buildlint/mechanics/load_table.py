"""Loads of a spring that was tested at several heights, read between the tested points."""

from ..numeric import NAN, interpolate

REACH = 0.001  # m that a table may be carried on beyond its ends, along the outermost line


def load_at(table, height):
    """Load of a tested spring at a height: straight lines between the points, 1 mm beyond the ends, else NaN.

    ``table`` is rows of (height in m, load in N) in any order. Source: measurement.
    """
    points = sorted((float(at), float(load)) for at, load in table)
    if len({at for at, _ in points}) < max(len(points), 2):
        return NAN  # fewer than two heights, or two loads at one height
    (low, low_load), (next_low, next_load) = points[0], points[1]
    (high, high_load), (next_high, next_high_load) = points[-1], points[-2]
    points.insert(0, (low - REACH, low_load + (low_load - next_load) / (next_low - low) * REACH))
    points.append((high + REACH, high_load + (high_load - next_high_load) / (high - next_high) * REACH))
    return interpolate(height, points)
