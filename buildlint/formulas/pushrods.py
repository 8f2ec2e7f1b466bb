"""Forces on pushrod and rocker, and what the pushrod carries before it bows."""

from ..dimensions import Choice, Force, Length, Pressure, Ratio
from ..mechanics.column import buckling_load, tube_area, tube_second_moment
from ..quantities import q

STEEL_MODULUS = q("205 GPa")  # common steels 200 to 210 GPa, handbook value

# Yield strength by material: plain seamless tube 450 MPa, heat-treated chrome-moly and tool steel 900 MPa.
# Engineering judgement, from memory; a written yield_strength wins.
PUSHROD_YIELD = {"low_carbon": q("250 MPa"), "seamless": q("450 MPa"), "chrome_moly": q("900 MPa"),
                 "tool_steel": q("1400 MPa")}


def pushrod_yield_strength(pushrod_material: Choice) -> Pressure:
    """Yield strength of the pushrod's tube by its material, where no certificate is written.

    Source: common practice, no source; from memory.
    """
    return PUSHROD_YIELD.get(pushrod_material)


def pushrod_static_load(rocker_ratio: Ratio, spring_open_load: Force) -> Force:
    """Push at full lift, standing still: rocker ratio times open load.

    Source: lever.
    """
    return rocker_ratio * spring_open_load


def rocker_fulcrum_load(rocker_ratio: Ratio, spring_open_load: Force) -> Force:
    """Load on the rocker's pivot at full lift with both arms in line: open load times (1 + ratio).

    Source: lever; Khurmi and Gupta, A Textbook of Machine Design, Art. 32.23 for arms at an angle.
    """
    return spring_open_load * (1 + rocker_ratio)


def pushrod_buckling_load(pushrod_outside_diameter: Length, pushrod_wall: Length, pushrod_length: Length,
                          pushrod_yield_strength: Pressure) -> Force:
    """Load at which the pushrod bows, ball ends free to swivel: Euler, or Johnson when it is short.

    m, m, m, Pa -> N. Source: Shigley, Mechanical Engineering Design, 9th ed., sections 4-12, 4-13.
    """
    area = tube_area(pushrod_outside_diameter, pushrod_wall)
    moment = tube_second_moment(pushrod_outside_diameter, pushrod_wall)
    return buckling_load(area, moment, pushrod_length, STEEL_MODULUS, pushrod_yield_strength)
