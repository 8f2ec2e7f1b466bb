"""Speeds of what the belt drives, current at idle, and how fast the crankcase breathes.

Diameters are those of the pulleys that are fitted, so that an underdrive is in them already. The water pump's speed
stands in ``cooling``, the blower's in ``boost``.
"""

from ..dimensions import Area, Choice, Current, Flow, Length, List, Rpm, Speed
from ..numeric import PI, greatest, interpolate
from ..tables.belts import OUTPUT, THOUSAND

# Gas past the rings over the air taken in: 0.01 to 0.02 natural, 0.02 to 0.04 boosted. Common practice, no source.
BLOW_BY = {"natural": 0.015, "supercharged": 0.03, "turbocharged": 0.03}


def alternator_speed(rev_limit: Rpm, damper_pulley_diameter: Length, alternator_pulley_diameter: Length) -> Rpm:
    """Speed of the alternator at the limiter: limiter x crank pulley / its own pulley.

    rad/s. Source: geometry.
    """
    return rev_limit * damper_pulley_diameter / alternator_pulley_diameter


def alternator_speed_idle(idle_speed: Rpm, damper_pulley_diameter: Length, alternator_pulley_diameter: Length) -> Rpm:
    """Speed of the alternator at idle: idle x crank pulley / its own pulley.

    rad/s. Source: geometry.
    """
    return idle_speed * damper_pulley_diameter / alternator_pulley_diameter


def alternator_current_idle(alternator_rated_current: Current, alternator_speed_idle: Rpm) -> Current:
    """Current the alternator gives at idle: rating x share by its speed, 0.43 at 1800 rpm, 0.50 at 2000, 0.72 at 3000.

    A, rad/s -> A; an estimate. Source: shape of curves by ISO 8854 (from memory); common practice.
    """
    return alternator_rated_current * interpolate(greatest(alternator_speed_idle / THOUSAND, 1.0), OUTPUT)


def belt_speed(rev_limit: Rpm, damper_pulley_diameter: Length) -> Speed:
    """Speed of the accessory belt at the limiter: half the diameter of the crank pulley x speed.

    m, rad/s -> m/s. Source: geometry.
    """
    return damper_pulley_diameter / 2 * rev_limit


def blow_by(air_volume_flow: Flow, induction: Choice) -> Flow:
    """Gas that passes the rings at the power peak: 1.5 percent of the air taken, boosted 3 percent.

    m3/s of outside air. Source: common practice, no source; fresh V8s are published at 10 to 15 ft^3/min.
    """
    return BLOW_BY[induction] * air_volume_flow if induction in BLOW_BY else None


def breather_area(breather_hose_diameters: List) -> Area:
    """Area of all vent hoses together.

    m -> m2. Source: geometry.
    """
    return PI / 4 * sum(diameter**2 for diameter in breather_hose_diameters) if breather_hose_diameters else None


def breather_speed(blow_by: Flow, breather_area: Area) -> Speed:
    """Speed of the blow-by in the vent hoses: flow / area.

    m3/s, m2 -> m/s. Source: continuity.
    """
    return blow_by / breather_area
