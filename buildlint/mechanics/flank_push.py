"""The highest push on a rigid train while a synthetic lobe throws it open: spring and inertia together."""

from . import lobe


def highest_push(exponent, load_gain, inertia):
    """Most of 1 + g f + c f'' over the opening flank, f its height: the push over that with the lobe at rest. No unit.

    ``load_gain`` g is open load over seat load less 1, ``inertia`` c the force that unit curvature takes over the seat
    push. Source: force balance of a rigid train; it peaks where the flank is hollow, near the seat, not at full lift.
    """
    return lobe.elementwise(_highest_push, exponent, load_gain, inertia)


def _highest_push(exponent, load_gain, inertia):
    if not exponent > 2:
        return lobe.NAN

    def push(share):
        return 1 + load_gain * lobe.flank(share, exponent) + inertia * lobe.flank_curvature(share, exponent)

    count = 50
    best = max((push(number / count), number) for number in range(count + 1))
    low, high = max(0.0, (best[1] - 1) / count), min(1.0, (best[1] + 1) / count)
    for _ in range(40):  # golden section: the most lies between the neighbors of the best step
        left, right = high - 0.6180339887498949 * (high - low), low + 0.6180339887498949 * (high - low)
        low, high = (low, right) if push(left) > push(right) else (left, high)
    return max(best[0], push((low + high) / 2))
