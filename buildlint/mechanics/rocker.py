"""A rocker as a lever: what its pivot carries, and how far its tip slides across the valve."""

from ..numeric import cos, sqrt


def fulcrum_load(valve_load, ratio, included_angle):
    """Load on the pivot: the valve's force and the pushrod's, ratio times as large, added as arrows.

    The angle is that between the two lines of force, pi where both push the same way. N, -, rad -> N.
    Source: Khurmi and Gupta, A Textbook of Machine Design, Art. 32.23.
    """
    return valve_load * sqrt(1 + ratio**2 - 2 * ratio * cos(included_angle))


def least_sweep(arm, lift):
    """Least slide of a round tip across the valve: the arm square to the stem at half lift. m, m -> m.

    The tip goes out and comes back the same way: arm - sqrt(arm^2 - (lift / 2)^2). Source: geometry.
    """
    return arm - sqrt(arm**2 - (lift / 2) ** 2)


def sweep_from_square_when_shut(arm, lift):
    """Slide of a round tip when the arm stands square to the stem with the valve shut. m, m -> m.

    Source: geometry.
    """
    return arm - sqrt(arm**2 - lift**2)
