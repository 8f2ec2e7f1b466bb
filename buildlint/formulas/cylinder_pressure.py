"""From the torque an engine is to give to the pressure its parts must hold.

Brake mean pressure from torque, indicated from that and friction, the peak from a cycle with a burn of finite
length. A peak pressure that is written (measured or simulated) wins over all of this.
"""

import math

from ..dimensions import Angle, Choice, Power, Pressure, Ratio, Rpm, Torque, Volume, YesNo
from ..mechanics import combustion
from ..numeric import PI, where
from ..quantities import q
from ..tables.fuels import FAMILY

# Total motored friction with pumping: 0.97 + 0.15 n + 0.05 n^2 bar, n in thousands of revolutions a minute.
FRICTION = (q("0.97 bar"), q("0.15 bar"), q("0.05 bar"))
THOUSAND = q("1000 rpm")

# Half burned, after top, where it is not written: the best the spark allows; later where the fuel holds it back.
CENTER_BEST, CENTER_BOOSTED, CENTER_BOOSTED_GASOLINE = q("8 deg"), q("10 deg"), q("14 deg")

CYCLE_SPREAD = 1.15  # the strong cycles over the mean one


def mean_effective_pressure(peak_torque: Torque, displacement: Volume) -> Pressure:
    """Brake mean effective pressure at the torque peak of a four-stroke: 4 pi x torque / displacement.

    N m, m3 -> Pa. Source: Heywood, Internal Combustion Engine Fundamentals, section 2.7.
    """
    return 4 * PI * peak_torque / displacement


def mean_effective_pressure_at_power(peak_power: Power, peak_power_speed: Rpm, displacement: Volume) -> Pressure:
    """Brake mean effective pressure at the power peak of a four-stroke: 4 pi x power / (speed x displacement).

    W, rad/s, m3 -> Pa. Source: Heywood, Internal Combustion Engine Fundamentals, section 2.7.
    """
    return 4 * PI * peak_power / (peak_power_speed * displacement)


def friction_mean_effective_pressure(peak_torque_speed: Rpm) -> Pressure:
    """Friction and pumping at the torque peak: 0.97 + 0.15 n + 0.05 n^2 bar, n in thousands of rpm.

    rad/s -> Pa; unsure above 6500 rpm. Source: Heywood, Internal Combustion Engine Fundamentals, ch. 13 (from memory).
    """
    thousands = peak_torque_speed / THOUSAND
    return FRICTION[0] + FRICTION[1] * thousands + FRICTION[2] * thousands**2


def nitrous_mean_effective_pressure(nitrous_power: Power, peak_torque_speed: Rpm, displacement: Volume,
                                    nitrous_counted_in_peak_power: YesNo = None) -> Pressure:
    """Mean pressure that the shot adds at the torque peak: 4 pi x its power / (speed x displacement).

    Nothing where the build's torque is with the shot. W, rad/s, m3 -> Pa. Source: as mean_effective_pressure.
    """
    share = 0.0 if nitrous_counted_in_peak_power else 1.0
    return share * 4 * PI * nitrous_power / (peak_torque_speed * displacement)


def indicated_mean_effective_pressure(mean_effective_pressure: Pressure, friction_mean_effective_pressure: Pressure,
                                      nitrous_mean_effective_pressure: Pressure = None) -> Pressure:
    """Indicated mean effective pressure: brake plus friction, plus what a nitrous shot adds.

    Pa. Source: Heywood, Internal Combustion Engine Fundamentals, section 2.7.
    """
    indicated = mean_effective_pressure + friction_mean_effective_pressure
    return indicated if nitrous_mean_effective_pressure is None else indicated + nitrous_mean_effective_pressure


def combustion_center(burn_center: Angle) -> Angle:
    """Crank angle after top where half has burned, as written.

    Source: measurement.
    """
    return burn_center


def combustion_center__usual(induction: Choice, fuel: Choice) -> Angle:
    """Crank angle after top where half has burned, if not written: 8 degrees; boosted 10, on gasoline 14.

    rad. Source: Heywood, Internal Combustion Engine Fundamentals, ch. 9, for best torque; the rest common practice.
    """
    if induction == "natural":
        return CENTER_BEST
    return CENTER_BOOSTED_GASOLINE if FAMILY.get(fuel) == "gasoline" else CENTER_BOOSTED


def peak_over_mean_pressure(compression_ratio: Ratio, combustion_center: Angle, rod_ratio: Ratio = None) -> Ratio:
    """Peak over indicated mean pressure of a cycle with a burn of 60 degrees, by compression ratio and burn center.

    One zone, ratio of specific heats 1.30, heat 23 times pressure x volume: sure within 8 percent. No number at a ratio of one
    or less, which only a mistyped volume gives.
    Source: Ferguson and Kirkpatrick, Internal Combustion Engines, ch. 2 (finite heat release); mechanics.combustion.
    """
    compression_ratio = where(compression_ratio > 1.0, compression_ratio, math.nan)
    if rod_ratio is None:
        return combustion.peak_over_mean(compression_ratio, combustion_center)
    return combustion.peak_over_mean(compression_ratio, combustion_center, rod_ratio)


def peak_cylinder_pressure(indicated_mean_effective_pressure: Pressure, peak_over_mean_pressure: Ratio) -> Pressure:
    """Highest pressure of the mean cycle at the torque peak: indicated mean pressure times peak over mean.

    Pa; an estimate within 8 percent. Source: mechanics.combustion.
    """
    return indicated_mean_effective_pressure * peak_over_mean_pressure


def design_cylinder_pressure(peak_cylinder_pressure: Pressure) -> Pressure:
    """Pressure that parts are held against: 1.15 times the peak of the mean cycle, for the strong cycles.

    Pa. Source: common practice, no source.
    """
    return CYCLE_SPREAD * peak_cylinder_pressure
