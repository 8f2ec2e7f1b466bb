"""When a follower leaves its lobe: the speed at which the spring can no longer push the train down as fast as the
lobe falls away, every part of the train taken as rigid.

Real trains are elastic and leave earlier; how much earlier is the rules' affair.
"""

from . import lobe


def tightest_push(exponent, load_gain):
    """Least of (1 + g f) / -f'' over the round part of the synthetic flank, f its height; no unit.

    ``load_gain`` g is open load over seat load less 1. Source: force balance, see ``separation_speed``.
    """
    return lobe.elementwise(_tightest_push, exponent, load_gain)


def _tightest_push(exponent, load_gain):
    if not exponent > 2:
        return lobe.NAN
    end = lobe.turning_share(exponent)

    def push(share):
        curvature = lobe.flank_curvature(share, exponent)
        return (1 + load_gain * lobe.flank(share, exponent)) / -curvature if curvature < 0 else float("inf")

    count = 24
    best = min((push(end * number / count), number) for number in range(count))
    low, high = end * max(0, best[1] - 1) / count, end * (best[1] + 1) / count
    for _ in range(40):  # golden section: the least lies between the neighbors of the best step
        left, right = high - 0.6180339887498949 * (high - low), low + 0.6180339887498949 * (high - low)
        low, high = (low, right) if push(left) < push(right) else (left, high)
    return min(best[0], push((low + high) / 2))


def separation_of_table(table, seat_load, open_load, lever_mass, reach):
    """Cam speed in rad/s at which a train on a tabulated lobe separates; NaN for a table too coarse.

    ``lever_mass`` is the mass at the valve times the rocker ratio, kg. Source: force balance at every row.
    """
    rows = lobe.whole(table)
    highest = max(lift for _, lift in rows)
    window = lobe._reach(rows, reach)
    least = None
    for angle, lift in rows:
        fit = lobe.local_motion(rows, angle, window)
        if fit is None or fit[2] >= 0:
            continue
        load = seat_load + (open_load - seat_load) * max(0.0, lift) / highest
        square = load / (lever_mass * -fit[2])
        least = square if least is None else min(least, square)
    return lobe.NAN if least is None else least**0.5
