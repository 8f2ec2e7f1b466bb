"""Around overlap top: the least gap between a valve that is open and a piston that comes up to it or runs from it.

Plain floats but for ``inclined_gap``; lengths in any one unit, angles in rad. The crank angle counts from the piston's true top between
exhaust and intake, as on a degree wheel zeroed with a stop, positive after it.
"""

from math import cos, pi

from ..numeric import cos as cosine
from ..numeric import sin, sqrt, where
from .lobe_table import between
from .slider_crank import piston_drop, top_angle

DEGREE = pi / 180


def valve_opening(lobe, ratio, lash, centerline):
    """Valve lift as a function of the crank angle: ratio times lobe lift less lash, never below nothing.

    ``lobe`` gives the lift at a cam angle from its nose; ``centerline`` is the crank angle of the nose after overlap
    top, negative for an exhaust lobe. Source: kinematics of the rocker.
    """

    def at(crank_angle):
        lift = ratio * lobe((crank_angle - centerline) / 2) - lash
        return lift if lift > 0 else 0.0

    return at


def gap_to_piston(gap_at_top, throw, rod, offset, axis_angle, flat_crown):
    """Gap along the valve's axis between a valve opened by ``lift`` and the piston, as a function of (angle, lift).

    ``gap_at_top`` is measured along the bore from the shut valve's edge to the piston at top. With a pocket whose
    floor lies parallel to the valve the gap is (G + x) cos a - lift; over a flat crown (G + x) / cos a - lift, the
    lowest edge being the nearest. Source: geometry; slider-crank.
    """
    slope = cos(axis_angle)
    along = 1 / slope if flat_crown else slope
    top = top_angle(throw, rod, offset)

    def at(crank_angle, lift):
        return (gap_at_top + piston_drop(crank_angle + top, throw, rod, offset)) * along - lift

    return at


def gap_to_drop_table(points):
    """The same from a measured table of (crank angle, valve drop to contact): drop less lift.

    Source: measurement.
    """
    rows = sorted({float(angle): float(drop) for angle, drop in points}.items())

    def at(crank_angle, lift):
        return between(rows, crank_angle) - lift

    return at


def least_gap(gap, opening, first, last, step=6 * DEGREE):
    """(least gap, crank angle of it) between two crank angles.

    ``gap`` is a function of (angle, lift), ``opening`` of the angle. A coarse walk finds the valley, parabolas
    through three points find its bottom; near top the gap is a smooth valley some twenty degrees wide.
    Angles for which there is no gap (beyond a table) are passed over; (NaN, NaN) when there is none at all.
    """

    def at(angle):
        return gap(angle, opening(angle))

    count = max(2, round((last - first) / step))
    width = (last - first) / count
    walked = [(at(first + number * width), first + number * width) for number in range(count + 1)]
    walked = [pair for pair in walked if pair[0] == pair[0]]
    if not walked:
        return float("nan"), float("nan")
    best = min(walked)
    reach = width
    for _ in range(4):
        angle = best[1]
        low, high = at(max(first, angle - reach)), at(min(last, angle + reach))
        if low != low or high != high:
            reach /= 6
            continue
        bend = low - 2 * best[0] + high
        if bend <= 0:
            break
        vertex = min(last, max(first, angle + reach * (low - high) / (2 * bend)))
        best = min(best, (at(vertex), vertex))
        reach /= 6
    return best


def inclined_gap(spacing, intake_diameter, exhaust_diameter, intake_angle, exhaust_angle, intake_lift, exhaust_lift):
    """Gap between the nearest edges of two valves tilted toward each other in one plane, each opened by its lift.

    Lengths in one unit; spacing between the centers of the shut heads; works on floats and arrays.
    Source: geometry, each edge moved along its own axis.
    """
    across = (spacing - exhaust_lift * sin(exhaust_angle) - exhaust_diameter / 2 * cosine(exhaust_angle)
              - intake_lift * sin(intake_angle) - intake_diameter / 2 * cosine(intake_angle))
    along = (exhaust_lift * cosine(exhaust_angle) - exhaust_diameter / 2 * sin(exhaust_angle)
             - intake_lift * cosine(intake_angle) + intake_diameter / 2 * sin(intake_angle))
    # Past each other in the plane the heads have met, however far apart they are along the bore.
    return where(across > 0, sqrt(across**2 + along**2), across)
