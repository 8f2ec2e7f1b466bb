"""What pressure does to a shut valve, and what is left of the valve's gaps when it is open."""

from ..dimensions import Area, Choice, Force, Length, Pressure
from ..numeric import PI, greatest
from ..quantities import q

# Pressure in the exhaust manifold where none is written. Engineering judgement, no source.
TURBO_BACK_PRESSURE = 1.5  # times the boost
SUPERCHARGED_BACK_PRESSURE = q("0.2 bar")

# How far the port stands above the cylinder with the throttle shut at speed. Engineering judgement, no source.
OVERRUN_DIFFERENCE = q("10 psi")


def retainer_seal_gap_open(retainer_seal_gap_shut: Length, valve_lift: Length) -> Length:
    """What is left between retainer and seal at full lift: the gap with the valve shut, less the lift.

    Source: geometry.
    """
    return retainer_seal_gap_shut - valve_lift


def seat_area(seat_contact_diameter: Length, valve_stem_diameter: Length) -> Area:
    """Area that pressure works on behind a shut valve: circle of the seat's contact, less the stem.

    Source: statics; as in Bhandari, Design of Machine Elements, Example 10.15.
    """
    return PI / 4 * (seat_contact_diameter**2 - valve_stem_diameter**2)


def seat_area__of_head(valve_head_diameter: Length, valve_stem_diameter: Length) -> Area:
    """Area that pressure works on behind a shut valve, the whole head counted: a little too much.

    Source: statics.
    """
    return PI / 4 * (valve_head_diameter**2 - valve_stem_diameter**2)


def exhaust_back_pressure(boost_exhaust_pressure: Pressure) -> Pressure:
    """Pressure in the exhaust manifold above the outside air, as measured or foreseen.

    Source: measurement.
    """
    return boost_exhaust_pressure


def exhaust_back_pressure__assumed(boost_pressure: Pressure, induction: Choice) -> Pressure:
    """Pressure in the exhaust manifold where none is written: 1.5 times the boost of a turbo, 0.2 bar with a supercharger.

    Source: engineering judgement, no source.
    """
    if induction == "turbocharged":
        return TURBO_BACK_PRESSURE * boost_pressure
    return SUPERCHARGED_BACK_PRESSURE if induction == "supercharged" else None


def pressure_lift_force(side_name: Choice, seat_area: Area, boost_pressure: Pressure,
                        exhaust_back_pressure: Pressure = None) -> Force:
    """Force of boost or back pressure that tries to open a shut valve at full throttle.

    Intake: boost on the seat area while the cylinder is emptied. Exhaust: back pressure less the boost that fills the
    cylinder behind it, never below zero. N. Source: statics.
    """
    if side_name == "intake":
        return boost_pressure * seat_area
    if exhaust_back_pressure is None:
        return None
    return greatest(exhaust_back_pressure - boost_pressure, 0 * boost_pressure) * seat_area


def overrun_lift_force(side_name: Choice, seat_area: Area) -> Force:
    """Force that tries to open a shut exhaust valve with the throttle shut at speed: 10 psi on the seat area.

    Source: engineering judgement, no source.
    """
    return OVERRUN_DIFFERENCE * seat_area if side_name == "exhaust" else None
