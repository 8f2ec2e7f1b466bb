"""Writes a quantity for the builder: which unit he would use, how many decimals, how number and unit are set.

Reading stands in quantities.py, which offers the functions of this module too.
"""

import math

from buildlint.unit_factors import FACTORS

# What a number without a unit means where the spec or the shop standard says `units: us` or `units: metric`.
# Time and hardness have no usual unit: 28 may be milliseconds of dwell or days of waiting.
BARE_UNITS = {
    "length": ("in", "mm"),
    "area": ("in^2", "mm^2"),
    "volume": ("cc", "cm^3"),
    "angle": ("deg", "deg"),
    "mass": ("g", "g"),
    "force": ("lbf", "N"),
    "stiffness": ("lbf/in", "N/mm"),
    "pressure": ("psi", "kPa"),
    "torque": ("lbf-ft", "N*m"),
    "rpm": ("rpm", "rpm"),
    "rpm_per_time": ("rpm/s", "rpm/s"),
    "power": ("hp", "kW"),
    "time": (None, None),
    "temperature": ("degF", "degC"),
    "temperature_rise": ("degF", "K"),
    "flow": ("ft^3/min", "L/min"),
    "mass_flow": ("lb/h", "kg/h"),
    "density": ("kg/m^3", "kg/m^3"),
    "viscosity": ("mPa*s", "mPa*s"),
    "kinematic_viscosity": ("mm^2/s", "mm^2/s"),
    "specific_energy": ("MJ/kg", "MJ/kg"),
    "fuel_per_work": ("lb/hp/h", "g/kWh"),
    "unbalance": ("ozf*in", "g*mm"),
    "inertia": ("lbf-in-s^2", "kg*m^2"),
    "torsional_stiffness": ("lbf-in/rad", "N*m/rad"),
    "angle_per_pressure": ("deg/psi", "deg/kPa"),
    "frequency": ("Hz", "Hz"),
    "voltage": ("V", "V"),
    "current": ("A", "A"),
    "speed": ("ft/min", "m/s"),
    "acceleration": ("g", "m/s^2"),
    "energy": ("J", "J"),
    "ratio": ("", ""),
    "fraction": ("", ""),
    "count": ("", ""),
    "hardness": (None, None),
    "octane": ("", ""),
}


def joined(number, unit):
    """A number and its unit as the trade sets them: 1.800 in, but 0.040" and 10.3:1."""
    return number + unit if unit in ("", ":1", '"', "'", "°") else f"{number} {unit}"


# Decimals shown for a number of a unit: (from this size on, decimals), largest first. Units that are not listed are
# shown with four significant digits.
_DECIMALS = {
    "in": ((1000, 0), (0.1, 3), (0, 4)),
    "mm": ((1000, 1), (2.5, 2), (0, 3)),
    "um": ((10, 0), (2, 1), (0, 2)),
    "uin": ((10, 0), (0, 1)),
    "thou": ((100, 0), (0, 1)),
    "ft": ((100, 0), (0, 2)),
    "mi": ((100, 0), (0, 1)),
    "km": ((100, 0), (0, 1)),
    "in^2": ((10, 1), (0, 3)),
    "cm^2": ((10, 1), (0, 2)),
    "cc": ((1000, 0), (0, 1)),
    "cm^3": ((1000, 0), (0, 1)),
    "in^3": ((100, 1), (10, 2), (0, 3)),
    "qt": ((0, 1),),
    "deg": ((0, 1),),
    "g": ((200, 0), (0, 1)),
    "lb": ((100, 0), (0, 1)),
    "lbf": ((20, 0), (0, 1)),
    "N": ((100, 0), (0, 1)),
    "lbf/in": ((20, 0), (0, 1)),
    "N/mm": ((100, 0), (0, 1)),
    "psi": ((20, 0), (0, 1)),
    "psig": ((20, 0), (0, 1)),
    "psia": ((20, 0), (0, 1)),
    "ksi": ((100, 0), (0, 1)),
    "Mpsi": ((0, 1),),
    "kPa": ((200, 0), (0, 1)),
    "MPa": ((100, 0), (0, 1)),
    "GPa": ((0, 1),),
    "bar": ((20, 0), (0, 2)),
    "inHg": ((1, 1), (0, 2)),
    "inH2O": ((0, 1),),
    "lbf-ft": ((20, 0), (0, 1)),
    "lbf-in": ((20, 0), (0, 1)),
    "N*m": ((20, 0), (0, 1)),
    "rpm": ((0, 0),),
    "rpm/s": ((0, 0),),
    "hp": ((20, 0), (0, 1)),
    "kW": ((100, 0), (0, 1)),
    "degF": ((0, 0),),
    "degC": ((0, 0),),
    "K": ((0, 0),),
    "ft^3/min": ((20, 0), (0, 1)),
    "gpm": ((20, 0), (0, 1)),
    "lb/h": ((20, 0), (0, 1)),
    ":1": ((5, 1), (0, 2)),
    "ratio": ((100, 0), (5, 1), (1, 2), (0, 3)),  # without a unit: compression ratios, rocker ratios, nut factors
    "%": ((0, 1),),
    "ppm": ((0, 0),),
}
_MOST_DECIMALS = 12
_FINER = {"in": 5, "mm": 3, ":1": 2, "ratio": 3}  # units whose sizes may take one decimal more, and the most that is read
_CLOSE = 0.02
UP, DOWN = "up", "down"  # the sides a number may be rounded to


def show(value, dimension, unit="", apart_from=None, finer=True, toward="", apart_toward="", close=False):
    """Write a value in SI for the builder, in his unit: `1.800 in`, `160 lbf`, `10.3:1`.

    ``unit`` is any spelling of the dimension and is written as given. ``apart_from`` is another value in SI (a
    limit): where both would read as one number, decimals are added until they differ. ``finer`` gives sizes one decimal
    more where they need it; a limit that only comes out of another unit does not. ``toward`` is UP or DOWN where a builder
    who keeps to what is shown must not fall short of it, ``apart_toward`` the same of the other value; ``close`` adds
    decimals where that would move a number by more than a fiftieth. Raises LookupError for a unit that the dimension does
    not have.
    """
    row = FACTORS.get(dimension, {}).get(unit)
    if row is None:
        raise LookupError(f"{unit!r} is no unit of {dimension!r}")
    number = in_unit(value, dimension, unit)
    if not math.isfinite(number):
        return "not a finite number"
    decimals = decimals_shown(number, dimension, unit, finer)
    text = _fixed(number, decimals, toward)
    while close and toward and abs(float(text) - number) > _CLOSE * abs(number) and decimals < _MOST_DECIMALS:
        decimals += 1
        text = _fixed(number, decimals, toward)
    if apart_from is not None and math.isfinite(apart_from):
        other = in_unit(apart_from, dimension, unit)
        if not _alike(number, other):
            beside = decimals_shown(other, dimension, unit, finer)
            while float(text) == float(_fixed(other, beside, apart_toward)) and decimals < _MOST_DECIMALS:
                decimals, beside = decimals + 1, beside + 1
                text = _fixed(number, decimals, toward)
    if row[3] not in _DECIMALS and not (dimension == "ratio" and abs(number) >= 5) or row[3] == "%":
        text = _without_trailing_zeros(text)
    return joined(text, unit)


def show_plain(number, toward=""):
    """A number without a dimension to four significant digits; ``toward`` as for show()."""
    if not toward or number == 0 or not math.isfinite(number):
        return f"{number:.4g}"
    return _without_trailing_zeros(_fixed(number, max(3 - math.floor(math.log10(abs(number))), 0), toward))


def show_amount(amount):
    """An Amount as the builder wrote it; the unit is added where a number stood alone."""
    text = amount.text.strip()
    if not text:
        return str(amount)
    if amount.unit and text[-1] in "0123456789" and amount.unit not in text:
        return joined(text, amount.unit)
    return amount.text


def in_unit(value, dimension, unit):
    """The plain number that a value in SI is in a unit. Raises KeyError for an unknown dimension or unit."""
    numerator, denominator, zero, _ = FACTORS[dimension][unit]
    return (value * denominator - zero) / numerator


def decimals_shown(number, dimension, unit, finer=True):
    """How many decimals show() gives a number of that unit: by the unit, and never so few that it reads as nothing."""
    size = abs(number)
    unit = FACTORS[dimension][unit][3]
    if size < 0.5 * 10**-_MOST_DECIMALS:
        return {"in": 3, "mm": 2}.get(unit, 0)
    significant = 3 - math.floor(math.log10(size))
    unit = unit or dimension
    steps = _DECIMALS.get(unit)
    if steps is None:
        return min(max(significant, 0), _MOST_DECIMALS)
    decimals = next(decimals for least, decimals in steps if size >= least)
    if size < 10**-decimals * (1 - 1e-9):
        return min(significant - 2, _MOST_DECIMALS)
    # Sizes are ground and ordered one decimal finer than most are judged: 2.4481 in, 5/16 in, 45.725 mm.
    if finer and 0 < decimals < _FINER.get(unit, 0) and not _alike(round(size, decimals), size):
        decimals += _alike(round(size, decimals + 1), size)
    return decimals


def _fixed(number, decimals, toward=""):
    """A number to so many decimals: the nearest, or the next UP or DOWN that it does not already stand at."""
    if toward:
        steps = number * 10**decimals
        whole = round(steps)
        if not _alike(whole, steps):
            whole = math.ceil(steps) if toward == UP else math.floor(steps)
        number = whole / 10**decimals
    text = f"{number:.{decimals}f}"
    return text[1:] if text[0] == "-" and not text.strip("-0.") else text


def _without_trailing_zeros(text):
    return text.rstrip("0").rstrip(".") if "." in text else text


def _alike(one, other):
    return abs(one - other) <= 1e-9 * max(abs(one), abs(other))


def default_unit(dimension, system="us", value=None):
    """The unit a builder would use for a value (SI) of a dimension in "us" or "metric"; without a value, the usual one.

    Lengths go from in to ft from 100 ft on and to mi from 6 mi on (mm, m, km alike); volumes from cc to in^3 from
    300 cc on (metric: L from 1 L on); masses from g to lb or kg from 5 kg on; stresses from psi to ksi above
    20,000 psi (kPa to MPa above 10 MPa); times take the unit that keeps the number short. Fractions are in percent.
    """
    metric = system == "metric"
    size = abs(value) if value is not None else None
    steps = _LARGER_UNITS.get(dimension)
    if steps is not None and size is not None:
        for least, us, other in steps:
            if size >= least:
                return other if metric else us
    if dimension == "fraction":
        return "%"
    usual = BARE_UNITS[dimension][metric]
    return _UNITS_WITHOUT_SYSTEM[dimension] if usual is None else usual


_UNITS_WITHOUT_SYSTEM = {"time": "s", "hardness": "HRC"}
# (from this value in SI on, us, metric), largest first
_LARGER_UNITS = {
    "length": ((1e4, "mi", "km"), (30.48, "ft", "m"), (10.0, "in", "m")),
    "volume": ((1e-3, "in^3", "L"), (3e-4, "in^3", "cm^3")),
    "mass": ((5.0, "lb", "kg"),),
    "force": ((1e5, "lbf", "kN"),),
    "pressure": ((1.4e10, "Mpsi", "GPa"), (1.38e8, "ksi", "MPa"), (1e7, "psi", "MPa")),
    "time": (
        (2 * 31557600.0, "years", "years"),
        (2 * 86400.0, "days", "days"),
        (7200.0, "h", "h"),
        (120.0, "min", "min"),
        (1.0, "s", "s"),
        (1e-9, "ms", "ms"),
    ),
    "frequency": ((1e4, "kHz", "kHz"),),
    "voltage": ((1e3, "kV", "kV"),),
    "energy": ((1e3, "kJ", "kJ"),),
}
