"""Peak pressure where nothing better is known: a figure by duty and induction, tried after every other way.

The cycle's own pressure, from torque, compression ratio and burn, is computed elsewhere and comes first.
"""

from ..dimensions import Choice, Pressure, Torque
from ..numeric import where
from ..quantities import q

DESIGN_OVER_PEAK = 1.15  # a strong cycle over the mean one; common practice, no source

# Common practice, no source.
STREET = q("6.9 MPa")
STRONG = q("9.0 MPa")
RACE = q("10.3 MPa")
MILD_BOOST = q("12.4 MPa")
HARD_BOOST = q("17 MPa")
HARD_FROM = q("105 kPa")

NATURAL = {"stock": STREET, "street": STREET, "street_strip": STRONG, "marine": STREET, "towing": STREET, "road_race": RACE,
           "oval_race": RACE, "drag_race": RACE}


def design_cylinder_pressure__from_peak(peak_cylinder_pressure: Pressure) -> Pressure:
    """Pressure to design for: 1.15 times the peak, for the strongest cycles.

    Pa. Source: common practice, no source.
    """
    return DESIGN_OVER_PEAK * peak_cylinder_pressure


def peak_cylinder_pressure__by_duty(duty: Choice, induction: Choice, boost_pressure: Pressure = None,
                                    peak_cylinder_pressure_written: Pressure = None, peak_torque: Torque = None) -> Pressure:
    """Peak pressure usual for a duty: 6.9 MPa on the street, 9.0 strong, 10.3 in racing, 12.4 and 17 with mild and hard boost.

    Pa. A stand-in that findings must call one; where the torque is known, the cycle decides and this is not tried. Source: common practice, no source.
    """
    if peak_cylinder_pressure_written is not None or peak_torque is not None:
        return None
    if induction == "natural":
        return NATURAL.get(duty)
    if boost_pressure is None:
        return MILD_BOOST
    return where(boost_pressure > HARD_FROM, HARD_BOOST, MILD_BOOST)
