"""Exhaust: how fast the gas runs in primaries and pipes, and the primary length that old practice asks for.

Gas is taken as air of the temperature named; wave action is not worked out. Where the exhaust valve opens follows
the cam card as everywhere else.
"""

from ..dimensions import Angle, Area, Count, Flow, Length, MassFlow, Ratio, Rpm, Speed, Volume
from ..mechanics import atmosphere
from ..numeric import PI, greatest
from ..quantities import q

# From the seat to 0.050 in of lobe, where no advertised figure is known. Common practice, no source.
RAMP = q("25 deg")

# Part of the added charge of a boosted engine that primaries are sized for: back pressure packs the gas closer.
BOOSTED_SHARE = 0.85

# 850 in x degrees / rpm, as a speed, and the length taken off. It is no single reflection: at 700 degC the wave runs
# some 2.4 times there and back while the angle passes.
LENGTH_SPEED = q("129.54 m/s", "speed")
LENGTH_OFF = q("3 in")

PIPE_TEMPERATURE, PIPE_PRESSURE = q("450 degC", "temperature"), q("105 kPa")


def primary_inside_diameter(primary_outside_diameter: Length, primary_wall: Length) -> Length:
    """Inside diameter of a header tube: outside less two walls.

    m. Source: geometry.
    """
    return primary_outside_diameter - 2 * primary_wall


def primary_area(primary_inside_diameter: Length) -> Area:
    """Area inside a header tube.

    m -> m2. Source: geometry.
    """
    return PI / 4 * primary_inside_diameter**2


def exhaust_charge_factor(charge_density_factor: Ratio) -> Ratio:
    """What boost does to the gas that primaries are sized for: 0.85 x density of the charge, at least 1.

    Source: common practice, no source.
    """
    return greatest(BOOSTED_SHARE * charge_density_factor, 1.0)


def primary_gas_speed(cylinder_displacement: Volume, peak_torque_speed: Rpm, primary_area: Area,
                      exhaust_charge_factor: Ratio = None) -> Speed:
    """Speed in a primary at the torque peak: swept volume x speed / (pi x area), the mean over the exhaust stroke.

    m3, rad/s, m2 -> m/s. Source: continuity; the same as area in square inches = cubic inches x rpm / 88 200 at 245 ft/s.
    """
    speed = cylinder_displacement * peak_torque_speed / (PI * primary_area)
    return speed if exhaust_charge_factor is None else speed * exhaust_charge_factor


def exhaust_opening_seat__of_event(exhaust_lobe_opens_before_bottom_advertised: Angle) -> Angle:
    """Exhaust opening before bottom near the seat: the card's advertised event.

    rad of crank. Source: definition of the events.
    """
    return exhaust_lobe_opens_before_bottom_advertised


def exhaust_opening_seat__of_duration(exhaust_lobe_advertised_duration: Angle, exhaust_lobe_centerline: Angle) -> Angle:
    """Exhaust opening before bottom near the seat: half the advertised duration plus centerline less 180 degrees.

    rad of crank; true for a symmetric lobe. Source: definition of the events.
    """
    return exhaust_lobe_advertised_duration / 2 + exhaust_lobe_centerline - PI


def exhaust_opening_seat__of_event_at_050(exhaust_lobe_opens_before_bottom_at_050: Angle) -> Angle:
    """Exhaust opening before bottom near the seat: the event at 0.050 in and 25 degrees of ramp, an assumption.

    rad of crank. Source: common practice, no source.
    """
    return exhaust_lobe_opens_before_bottom_at_050 + RAMP


def primary_tuning_speed(peak_torque_speed: Rpm, peak_power_speed: Rpm) -> Rpm:
    """Speed that primaries are cut for: midway between torque and power peak.

    rad/s. Source: common practice, no source.
    """
    return (peak_torque_speed + peak_power_speed) / 2


def primary_length_wanted(exhaust_opening_seat: Angle, primary_tuning_speed: Rpm) -> Length:
    """Primary length by the old rule: 850 in x (180 deg + opening before bottom) / rpm - 3 in.

    rad, rad/s -> m. Source: Bell, Performance Tuning in Theory and Practice: Four-Strokes (from memory).
    """
    return LENGTH_SPEED * (PI + exhaust_opening_seat) / primary_tuning_speed - LENGTH_OFF


def collector_ratio(collector_diameter: Length, primary_outside_diameter: Length) -> Ratio:
    """Collector over primary diameter.

    Source: geometry.
    """
    return collector_diameter / primary_outside_diameter


def exhaust_gas_flow(air_mass_flow: MassFlow, mixture_lambda: Ratio, fuel_stoichiometric_ratio: Ratio) -> Flow:
    """Exhaust gas at the power peak behind the collectors: air and fuel as a gas of 450 degC and 105 kPa.

    kg/s -> m3/s. Source: balance of mass and gas law; temperature and pressure common practice, no source.
    """
    mass = air_mass_flow * (1 + 1 / (mixture_lambda * fuel_stoichiometric_ratio))
    return mass / atmosphere.density(PIPE_PRESSURE, PIPE_TEMPERATURE)


def exhaust_pipe_speed(exhaust_gas_flow: Flow, exhaust_pipe_inside_diameter: Length, exhaust_pipe_count: Count) -> Speed:
    """Speed of the gas in the pipes at the power peak: flow / area of all pipes.

    m3/s, m -> m/s. Source: continuity.
    """
    return exhaust_gas_flow / (exhaust_pipe_count * PI / 4 * exhaust_pipe_inside_diameter**2)
