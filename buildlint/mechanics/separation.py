"""When a follower leaves its lobe: the speed at which the spring can no longer push the train down as fast as the
lobe falls away, every part of the train taken as rigid.

Real trains are elastic and leave earlier; how much earlier is the rules' affair.
"""

import math
from functools import lru_cache

from . import lobe, lobe_table

GOLDEN = (5**0.5 - 1) / 2


def tightest_push(exponent, load_gain):
    """Least of (1 + g f) / -f'' over the round part of the synthetic flank, f its height; no unit.

    ``load_gain`` g is open load over seat load less 1. Source: force balance, see ``separation_speed``.
    """
    return lobe.elementwise(_tightest_push, exponent, load_gain)


@lru_cache(maxsize=512)
def _tightest_push(exponent, load_gain):
    if not exponent > 2:
        return lobe.NAN
    end = lobe.turning_share(exponent)
    a = (exponent + 2) / (exponent - 2)
    rise, fall = exponent * (exponent - 1) * a, (exponent + 2) * (exponent + 1)

    def push(x):
        square = x * x
        power = x ** (exponent - 2)
        curvature = -2 * a + power * (rise - fall * square)
        return (1 + load_gain * (1 - a * square + power * square * (a - square))) / -curvature if curvature < 0 else math.inf

    count = 16
    best, number = min((push(end * number / count), number) for number in range(count))
    low, high = end * max(0, number - 1) / count, end * (number + 1) / count
    left, right = high - GOLDEN * (high - low), low + GOLDEN * (high - low)
    push_left, push_right = push(left), push(right)
    for _ in range(24):  # golden section between the neighbors of the best step
        if push_left < push_right:
            high, right, push_right = right, left, push_left
            left = high - GOLDEN * (high - low)
            push_left = push(left)
        else:
            low, left, push_left = left, right, push_right
            right = low + GOLDEN * (high - low)
            push_right = push(right)
    return min(best, push_left, push_right)


def separation_of_table(table, seat_load, open_load, lever_mass, reach):
    """Cam speed in rad/s at which a train on a tabulated lobe separates; NaN for a table too coarse.

    ``lever_mass`` is the mass at the valve times the rocker ratio, kg. Source: force balance at every row.
    """
    least = math.inf
    for height, curvature in _round_part(tuple(lobe_table.whole(table)), reach):
        load = seat_load + (open_load - seat_load) * height
        least = min(least, load / (lever_mass * -curvature))
    return least**0.5 if 0 < least < math.inf else lobe.NAN


@lru_cache(maxsize=64)
def _round_part(rows, reach):
    """(lift over full lift, curvature) at every row of a table where the lobe is round, not hollow."""
    highest = max(lift for _, lift in rows)
    if highest <= 0:
        return ()
    window = lobe_table.window_of(rows, reach)
    fits = [(max(0.0, lift) / highest, lobe_table.local_motion(rows, angle, window)) for angle, lift in rows]
    return tuple((height, fit[2]) for height, fit in fits if fit is not None and fit[2] < 0)
