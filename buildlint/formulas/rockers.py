"""What a rocker's pivot carries, and how far its tip has to slide across the valve."""

from ..dimensions import Angle, Force, Length, Ratio
from ..mechanics import rocker
from ..numeric import PI


def rocker_fulcrum_load(rocker_ratio: Ratio, spring_open_load: Force, rocker_included_angle: Angle = None) -> Force:
    """Load on the rocker's pivot at full lift: open load and push, (1 + ratio) times the open load with both in line.

    Arms at an angle are added as arrows. N. Source: lever; Khurmi and Gupta, A Textbook of Machine Design, Art. 32.23.
    """
    angle = PI if rocker_included_angle is None else rocker_included_angle
    return rocker.fulcrum_load(spring_open_load, rocker_ratio, angle)


def rocker_sweep_least(rocker_valve_arm: Length, valve_lift: Length) -> Length:
    """Least width of the pattern a roller tip leaves: arm less sqrt(arm^2 - (lift / 2)^2), arm square at half lift.

    Source: geometry.
    """
    return rocker.least_sweep(rocker_valve_arm, valve_lift)
