"""How long the unburned end of the charge can bear its pressure and heat: the knock integral.

Only good for telling what a change is worth. The number itself is off by five octane numbers and more, so no rule
passes or fails an engine by it and no message shows it.
"""

from ..numeric import PI, exp
from . import combustion

BURN_LENGTH = 55.0 / 180.0 * PI
UNBURNED_HEATS = 1.32
DELAY, OCTANE_POWER, PRESSURE_POWER, ACTIVATION = 0.01768, 3.402, 1.7, 3800.0
END_OF_RISK = 0.9  # share burned after which nothing is left to knock
STEPS = 60


def octane_asked(compression_ratio, burn_center, speed, charge_temperature, charge_pressure=1.0, rod_ratio=combustion.USUAL_ROD_RATIO):
    """Octane number at which the knock integral just reaches one before 90 percent has burned.

    ``speed`` rad/s, ``charge_temperature`` K and ``charge_pressure`` (atmospheres) at bottom. The delay is
    0.01768 (ON/100)^3.402 p^-1.7 exp(3800/T) seconds.
    Source: Douaud and Eyzat, SAE 780080; Heywood, Internal Combustion Engine Fundamentals, eq. 9.50 (from memory).
    """
    heats = combustion.SPECIFIC_HEATS
    start = burn_center - combustion.HALF_BURNED * BURN_LENGTH
    end = start + BURN_LENGTH * (2.302585092994046 / combustion.SHAPE) ** (1.0 / combustion.POWER)
    full = combustion.volume(PI, compression_ratio, rod_ratio)
    first = -60.0 / 180.0 * PI  # before that the charge is too cold to count
    step = (end - first) / STEPS
    held, before, integral = full**heats, 0.0, 0.0
    for number in range(STEPS):
        angle = first + (number + 0.5) * step
        burned = combustion.burned_share((angle - start) / BURN_LENGTH)
        here = combustion.volume(angle, compression_ratio, rod_ratio)
        held = held + (heats - 1.0) * combustion.HEAT * (burned - before) * here ** (heats - 1.0)
        before = burned
        rise = held / here**heats
        temperature = charge_temperature * rise ** ((UNBURNED_HEATS - 1.0) / UNBURNED_HEATS)
        integral = integral + (rise * charge_pressure) ** PRESSURE_POWER * exp(-ACTIVATION / temperature) * step / speed / DELAY
    return 100.0 * integral ** (1.0 / OCTANE_POWER)
