"""One cylinder's closed cycle with a burn of finite length: the pressure that a given mean pressure implies.

Everything is counted in pressures of the charge at bottom and in swept volumes, so that no quantity with a
dimension enters. One zone, one constant ratio of specific heats, no loss of heat: good enough to place the peak
within some eight percent, and no more is claimed.
"""

from functools import lru_cache

from ..numeric import PI, exp, greatest
from . import slider_crank

SPECIFIC_HEATS = 1.30  # ratio for compressed, burning and burned charge together
BURN_LENGTH = PI / 3  # 60 degrees of crank from first spark to the knee of the curve
HEAT = 23.0  # heat of the charge over (pressure at bottom x swept volume), gasoline near full load
USUAL_ROD_RATIO = 1.638  # rod over stroke where neither is known; a quarter more or less moves the peak by 1 percent

SHAPE, POWER = 5.0, 3.0  # of the burn curve 1 - exp(-5 u^3)
HALF_BURNED = 0.5175  # share of the burn length at which half is burned: (ln 2 / 5)^(1/3)
STEPS = 90  # over one and a half burn lengths, where all but 5e-8 has burned
REACH = 1.5


def burned_share(progress):
    """Share of the charge that has burned after ``progress`` burn lengths: 1 - exp(-5 u^3), 0 before the start.

    Source: Wiebe's function with a = 5 and n = 3, Ferguson and Kirkpatrick, Internal Combustion Engines, ch. 2.
    """
    return 1.0 - exp(-SHAPE * greatest(progress, 0.0 * progress) ** POWER)


def volume(angle, compression_ratio, rod_ratio=USUAL_ROD_RATIO):
    """Volume over the piston at a crank angle, in swept volumes; slider-crank, no pin offset."""
    return 1.0 / (compression_ratio - 1.0) + slider_crank.piston_drop(angle, 0.5, rod_ratio)


def cycle(compression_ratio, burn_center, rod_ratio=USUAL_ROD_RATIO, heat=HEAT, burn_length=BURN_LENGTH,
          specific_heats=SPECIFIC_HEATS, steps=STEPS):
    """(peak pressure, indicated mean pressure), both over the pressure at bottom.

    dp = -g p dV/V + (g - 1) dQ/V makes p V^g grow by (g - 1) V^(g-1) dQ alone, so the cycle is one sum; the work
    follows from the first law. ``burn_center`` is where half has burned, rad after top.
    Source: Ferguson and Kirkpatrick, Internal Combustion Engines, ch. 2 (finite heat release).
    """
    given = compression_ratio, burn_center, rod_ratio, heat, burn_length, specific_heats, steps
    return (_cycle_again if all(isinstance(value, (float, int)) for value in given) else _cycle)(*given)


def _cycle(compression_ratio, burn_center, rod_ratio, heat, burn_length, specific_heats, steps):
    clearance = 1.0 / (compression_ratio - 1.0)
    full = volume(PI, compression_ratio, rod_ratio)
    held = full**specific_heats  # p V^g, at bottom p is one
    again = isinstance(burn_center, (float, int)) and isinstance(rod_ratio, (float, int)) and isinstance(burn_length, (float, int))
    drops = (_drops_again if again else _drops)(burn_center, rod_ratio, burn_length, steps)
    pressures = []
    for burned, middle, end in zip(_burned_in_steps(steps), *drops):
        held = held + (specific_heats - 1.0) * heat * burned * (clearance + middle) ** (specific_heats - 1.0)
        pressures.append(held / (clearance + end) ** specific_heats)
    last = held / full**specific_heats
    work = heat * sum(_burned_in_steps(steps)) - (last - 1.0) * full / (specific_heats - 1.0)
    return greatest(*pressures), work


def _drops(burn_center, rod_ratio, burn_length, steps):
    """Piston drop in the middle and at the end of each step of the burn, in strokes."""
    start, step = burn_center - HALF_BURNED * burn_length, REACH / steps
    middles = [slider_crank.piston_drop(start + (number - 0.5) * step * burn_length, 0.5, rod_ratio) for number in range(1, steps + 1)]
    ends = [slider_crank.piston_drop(start + number * step * burn_length, 0.5, rod_ratio) for number in range(1, steps + 1)]
    return middles, ends


@lru_cache(8)
def _burned_in_steps(steps):
    """Share of the charge that burns in each step."""
    shares = [1.0 - exp(-SHAPE * (number * REACH / steps) ** POWER) for number in range(steps + 1)]
    return tuple(after - before for before, after in zip(shares, shares[1:]))


# The cylinders of an engine differ in their ratio alone, and several words ask for the same cycle.
_drops_again = lru_cache(64)(_drops)
_cycle_again = lru_cache(1024)(_cycle)


def peak_over_mean(compression_ratio, burn_center, rod_ratio=USUAL_ROD_RATIO):
    """Peak pressure over indicated mean pressure. Source: ``cycle`` with the usual heat and burn length."""
    peak, mean = cycle(compression_ratio, burn_center, rod_ratio)
    return peak / mean
