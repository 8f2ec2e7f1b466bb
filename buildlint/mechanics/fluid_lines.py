"""Fuel in pipes and through pumps: speed, loss by friction, and what a pump gives at a pressure off its table."""

from ..numeric import PI, greatest, interpolate, where
from ..quantities import q

# Viscosity of the fuel at 20 degC: gasoline between n-heptane and toluene, and blends of mostly alcohol near ethanol's 1.19, which
# methanol stays below: pure liquids in CoolProp.
GASOLINE_VISCOSITY = q("0.50 mPa*s")
ALCOHOL_VISCOSITY = q("1.1 mPa*s")

TURBULENT_FROM = 4000.0
HIGHEST = 1e12  # Pa, beyond any pump
FITTING_LENGTHS = 30.0  # a right-angle fitting counts as thirty diameters of pipe


def pipe_speed(flow, inside_diameter):
    """Mean speed in a round pipe: 4 Q / (pi d^2). m3/s, m -> m/s. Source: continuity."""
    return 4 * flow / (PI * inside_diameter**2)


def pipe_loss(flow, inside_diameter, length, right_angles, density, viscosity):
    """Pressure lost by friction in a smooth pipe, right-angle fittings counted as 30 diameters each.

    f L/d x density x speed^2 / 2, f = 64/Re below Re 4000, else 0.3164 / Re^0.25. SI -> Pa.
    Source: Darcy and Weisbach with Blasius' friction factor, any text on fluid mechanics.
    """
    speed = pipe_speed(flow, inside_diameter)
    reynolds = greatest(density * speed * inside_diameter / viscosity, 1e-9)
    friction = where(reynolds > TURBULENT_FROM, 0.3164 / reynolds**0.25, 64 / reynolds)
    return friction * (length / inside_diameter + FITTING_LENGTHS * right_angles) * density * speed**2 / 2


def pump_flow(table, pressure):
    """Flow of a pump at a pressure, from its table of (pressure, flow) in SI; NaN where the table tells nothing.

    Straight lines between points. Below the first point the first flow counts (a pump gives more there, so this
    is safe); above the last, the last slope is drawn on down to nothing; a lone point tells nothing above it.
    """
    rows = sorted((float(pressure), float(flow)) for pressure, flow in table)
    points = [(-HIGHEST, rows[0][1]), *rows]
    if len(rows) > 1:
        (low, more), (high, less) = rows[-2:]
        slope = min((less - more) / (high - low), -1e-30)
        end = high - less / slope
        points += [(end, 0.0), (end + HIGHEST, 0.0)]
    return interpolate(pressure, points)
