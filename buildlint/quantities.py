"""Reads a quantity as a builder writes it, and writes one back: `1.800 in`, `1-1/4 in`, `70 lbf-ft`, `10.3:1`.

The grammar of the number stands here; units and factors are the closed list of units.py. Text is only ever compared
and counted, never evaluated. Why a text was refused is worked out in quantity_refusals.py, which is loaded only then.
"""

import functools
import math
import re

from buildlint.unit_factors import FACTORS

LONGEST_TEXT = 200
# A number of more digits or a larger exponent was not measured on an engine.
MOST_DIGITS = 30
LARGEST_NUMBER = 10**15

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
SYSTEMS = ("us", "metric")


class QuantityError(ValueError):
    """A text that is not a quantity of the expected dimension: what is wrong, and what to write instead."""

    def __init__(self, message, fix=""):
        super().__init__(message)
        self.message = message
        self.fix = fix

    def __reduce__(self):
        return QuantityError, (self.message, self.fix)


class Amount(float):
    """A quantity in SI that remembers how it was written. Calculating with it gives a plain float.

    ``dimension`` is a name of units.DIMENSIONS, ``unit`` the unit as written (a hardness: its scale), ``text`` the
    whole text, ``low`` and ``high`` the limits in SI that a tolerance or a range gave, else None.
    """

    __slots__ = ("dimension", "unit", "text", "low", "high")

    def __str__(self):
        return self.text

    def __repr__(self):
        return f"Amount({self.text!r})"


# The way nearly every quantity is written: digits, perhaps a point and digits, and a unit.
_PLAIN = re.compile(r"([-+]?[0-9]{1,15})(?:\.([0-9]{1,15}))? ?(.*)").fullmatch
_TENS = tuple(10**places for places in range(16))
# Dimensions in which a plain number can still be refused.
_WITH_LIMITS = frozenset(("count", "temperature"))


@functools.lru_cache(maxsize=65536)
def read(text, dimension, system=None):
    """Read one quantity of a dimension; ``system`` ("us", "metric" or None) is what a number without a unit means.

    Returns an Amount in SI. The conversion is exact up to one final rounding, so that 1 in equals 25.4 mm.
    Raises QuantityError with a message and a fix for a builder, LookupError for an unknown dimension or system.
    """
    spellings = FACTORS.get(dimension)
    if spellings is None or system not in (None, "us", "metric"):
        raise LookupError(f"no such dimension or system of units: {dimension!r}, {system!r}")
    if not isinstance(text, str):
        raise QuantityError(f"{text!r} is not a quantity.", "Write a number and a unit, for example 1.800 in.")
    plain = _PLAIN(text)
    if plain is None:
        return _read_other(text, dimension, system)
    whole, decimals, unit = plain.groups("")
    found = spellings.get(unit)
    if found is None or dimension in _WITH_LIMITS:
        return _read_other(text, dimension, system)
    numerator, denominator, zero, _ = found
    ten = _TENS[len(decimals)]
    amount = Amount((int(whole + decimals) * numerator + zero * ten) / (denominator * ten))
    amount.dimension = dimension
    amount.unit = unit
    amount.text = text
    amount.low = amount.high = None
    return amount


def q(text, dimension=None):
    """Read a limit of a rule; without ``dimension`` the unit must tell it.

    A unit of two dimensions is settled by AMBIGUOUS where the trade hears only one of them; `5 lb` and `5` are
    refused with QuantityError: say q("5 lb", "force").
    """
    return read(text, dimension or dimension_of(text))


# Units that several dimensions share, and the one that is meant when nothing else is said.
AMBIGUOUS = {"degF": "temperature", "degC": "temperature", "ozf*in": "unbalance", ":1": "ratio", "g": "mass"}


def dimension_of(text):
    """The dimension that the unit in ``text`` tells. Raises QuantityError where it tells none, or more than one."""
    spellings = []
    for side in re.split(r"\+/-|\.\.", _clean(text)):
        number = _NUMBER(side.strip(" "))
        spellings.append(":1" if ":" in side else number.string[number.end() :].lstrip(" "))
    spelling = next(filter(None, spellings), "")
    rows = {dimension: known[spelling] for dimension, known in FACTORS.items() if spelling in known}
    if len(rows) > 1 and spelling:
        preferred = AMBIGUOUS.get(next(iter(rows.values()))[3])
        rows = {preferred: None} if preferred in rows else rows
    if len(rows) != 1:
        names = ", ".join(rows) or "none that is known"
        raise QuantityError(f"the unit of {text!r} does not tell its dimension ({names})", "Name the dimension.")
    return next(iter(rows))


# Characters that look alike and mean the same at the bench. Unicode normalization is not used: it turns 1½ into 11/2.
_LOOKALIKES = str.maketrans(
    {
        "\t": " ",
        "\u00a0": " ",
        "\u2002": " ",
        "\u2003": " ",
        "\u2007": " ",
        "\u2008": " ",
        "\u2009": " ",
        "\u200a": " ",
        "\u202f": " ",
        "\u2212": "-",
        "\u2010": "-",
        "\u2011": "-",
        "\u2033": '"',
        "\u201d": '"',
        "\u201c": '"',
        "\u2032": "'",
        "\u2019": "'",
        "\u2018": "'",
        "\u03bc": "µ",
        "º": "°",
        "\u02da": "°",
        "\u2126": "Ω",
        "⋅": "·",
        "∙": "·",
        "•": "·",
        "×": "·",
        "²": "^2",
        "³": "^3",
        "±": "+/-",
    }
)
VULGAR_FRACTIONS = {
    "¼": "1/4",
    "½": "1/2",
    "¾": "3/4",
    "⅛": "1/8",
    "⅜": "3/8",
    "⅝": "5/8",
    "⅞": "7/8",
    "⅓": "1/3",
    "⅔": "2/3",
}

_NUMBER = re.compile(
    r"([-+]?)"
    r"(?:(?:([0-9]+)[- ])?([0-9]+)/([0-9]+)"  # 5/16, 1-1/4, 1 1/4
    r"|([0-9]+)?(?:\.([0-9]+))?(?:[eE]([-+]?[0-9]+))?)"  # 12, 1.800, .040, 1e3
).match


def _clean(text):
    """The text with look-alike characters replaced and blanks made single. Anything odd is left for the refusal."""
    if len(text) > LONGEST_TEXT:
        raise QuantityError(
            f"A text of {len(text)} characters is no quantity.", "Write one number and one unit, for example 1.800 in."
        )
    if not text.isascii():
        for character, fraction in VULGAR_FRACTIONS.items():
            if character in text:
                text = re.sub(f"(?<=[0-9]){character}(?![0-9./])", " " + fraction, text)
                text = re.sub(f"{character}(?![0-9./])", fraction, text)
    text = text.translate(_LOOKALIKES).replace("''", '"').strip(" ")
    while "  " in text:
        text = text.replace("  ", " ")
    return text


def _read_other(text, dimension, system):
    """Read everything but the plain number with a unit: fractions, exponents, tolerances, ranges, bare numbers."""
    clean = _clean(text)
    first, mark, second = _parted(clean)
    number, spelling = _side(first, text, clean, dimension)
    if mark:
        other, other_spelling = _side(second, text, clean, dimension)
        if mark == ".." and spelling and not other_spelling:
            start = first[: len(first) - len(spelling)].rstrip(" ")
            raise QuantityError(
                f"{quoted(text)} has its unit in the middle.", f"Write {start}..{joined(second, spelling)}."
            )
        if mark == ".." or other_spelling != "%" or dimension == "fraction":
            spelling = spelling or other_spelling
        other_spelling = other_spelling or spelling
    unit = spelling or _unit_of_a_bare_number(number, text, clean, dimension, system, mark)
    row = _row(unit, text, clean, dimension)
    value = low = high = _in_si(number, row)
    if mark == "+/-":
        value, low, high = _with_tolerance(number, row, other, other_spelling, text, clean, dimension)
    elif mark:
        high = _in_si(other, _row(other_spelling or unit, text, clean, dimension))
        unit = other_spelling or unit
        if low[0] * high[1] > high[0] * low[1]:
            raise QuantityError(
                f"{quoted(text)} runs from the larger to the smaller.", f"Write {_turned(first, second)}."
            )
        value = low[0] * high[1] + high[0] * low[1], 2 * low[1] * high[1]
    if dimension == "count" and (low[0] % low[1] or high[0] % high[1]):
        raise QuantityError(f"{quoted(text)} is not a whole number; a count was expected.", "Write a whole number.")
    if dimension == "temperature" and low[0] < 0:
        raise QuantityError(f"{quoted(text)} is below absolute zero.", "Check the number and the unit.")
    amount = Amount(value[0] / value[1])
    amount.dimension = dimension
    amount.unit = unit
    amount.text = text
    amount.low = low[0] / low[1] if mark else None
    amount.high = high[0] / high[1] if mark else None
    return amount


def _parted(clean):
    """Part `A +/- B` or `A..B`; anything with two marks is left whole, to be refused as a unit."""
    for mark in ("+/-", ".."):
        if clean.count(mark) == 1 and "..." not in clean:
            first, _, second = clean.partition(mark)
            return first.rstrip(" "), mark, second.lstrip(" ")
    return clean, "", ""


def _side(side, text, clean, dimension):
    """Part one side into its number, as a whole numerator and denominator, and the spelling of its unit."""
    if dimension == "ratio" and ":" in side:
        left, _, right = side.partition(":")
        (top, below), left_unit = _side(left.rstrip(" "), text, clean, "")
        (other_top, other_below), right_unit = _side(right.lstrip(" "), text, clean, "")
        if left_unit or right_unit or other_top <= 0:
            raise _refusal(text, clean, dimension)
        return (top * other_below, below * other_top), ":1"
    found = _NUMBER(side)
    sign, whole, top, below, digits, decimals, exponent = found.groups("")
    if len(whole) + len(top) + len(below) + len(digits) + len(decimals) > MOST_DIGITS or len(exponent) > 3:
        raise QuantityError(f"{quoted(text)} has too many digits.", "Round the number to what was measured.")
    if below:
        numerator, denominator = int(top), int(below)
        if not denominator or (whole and numerator >= denominator):
            raise QuantityError(f"{quoted(text)} holds a fraction that makes no sense.", "Write it like 5/16 or 1-1/4.")
        numerator += int(whole or 0) * denominator
    elif digits or decimals:
        power = int(exponent or 0) - len(decimals)
        if abs(power) > 2 * MOST_DIGITS:
            raise QuantityError(f"{quoted(text)} is out of all measure.", "Check the exponent.")
        numerator, denominator = int(digits + decimals), 1
        if power > 0:
            numerator *= 10**power
        else:
            denominator = 10**-power
    else:
        raise _refusal(text, clean, dimension)
    if numerator > LARGEST_NUMBER * denominator:
        raise QuantityError(f"{quoted(text)} is out of all measure.", "Check the number.")
    return (-numerator if sign == "-" else numerator, denominator), side[found.end() :].lstrip(" ")


def _unit_of_a_bare_number(number, text, clean, dimension, system, mark):
    spellings = FACTORS[dimension]
    if "" in spellings:
        return ""
    usual = BARE_UNITS[dimension][system == "metric"]
    # Nothing is nothing in every unit, except on a scale that does not begin at nothing.
    if usual and (system or (number[0] == 0 and not mark and dimension != "temperature")):
        return usual
    raise _refusal(text, clean, dimension)


def _row(spelling, text, clean, dimension):
    row = FACTORS[dimension].get(spelling)
    if row is None:
        raise _refusal(text, clean, dimension)
    return row


def _in_si(number, row):
    return number[0] * row[0] + row[2] * number[1], row[1] * number[1]


def _with_tolerance(number, row, tolerance, spelling, text, clean, dimension):
    """Value, low and high of `A +/- B`; B may be in percent of A, except where percent is itself the unit."""
    if tolerance[0] < 0:
        raise QuantityError(f"{quoted(text)} has a negative tolerance.", "Write the tolerance without a sign.")
    value = _in_si(number, row)
    if spelling == "%" and dimension not in ("fraction", "temperature"):
        half = abs(value[0]) * tolerance[0], value[1] * tolerance[1] * 100
    else:
        other = _row(spelling, text, clean, dimension) if spelling else row
        half = tolerance[0] * other[0], tolerance[1] * other[1]
    below = value[0] * half[1] - half[0] * value[1], value[1] * half[1]
    above = value[0] * half[1] + half[0] * value[1], value[1] * half[1]
    return value, below, above


def _turned(first, second):
    unit = second[_NUMBER(second).end() :]
    return f"{second[: len(second) - len(unit)]}..{first}{'' if first.endswith(unit) else unit}"


def joined(number, unit):
    """A number and its unit as the trade sets them: 1.800 in, but 0.040" and 10.3:1."""
    return number + unit if unit in ("", ":1", '"', "'", "°") else f"{number} {unit}"


def _refusal(text, clean, dimension):
    from buildlint.quantity_refusals import refusal

    return refusal(text, clean, dimension)


def quoted(text):
    """The text safe to print: nothing invisible, nothing endless."""
    shown = "".join(letter if letter.isprintable() else f"\\u{ord(letter):04x}" for letter in text[:61])
    return f"`{shown[:60]}{'...' if len(text) > 60 else ''}`"


# Decimals shown for a number of a unit: (from this size on, decimals), largest first. Units that are not listed are
# shown with four significant digits.
_DECIMALS = {
    "in": ((1000, 0), (0.1, 3), (0, 4)),
    "mm": ((1000, 1), (2.5, 2), (0, 3)),
    "um": ((10, 0), (0, 1)),
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
    "inHg": ((0, 1),),
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
    "%": ((0, 1),),
    "ppm": ((0, 0),),
}
_MOST_DECIMALS = 9


def show(value, dimension, unit="", apart_from=None):
    """Write a value in SI for the builder, in his unit: `1.800 in`, `160 lbf`, `10.3:1`.

    ``unit`` is any spelling of the dimension and is written as given. ``apart_from`` is another value in SI (a
    limit): where both would read alike, decimals are added until they differ. Raises LookupError for a unit that
    the dimension does not have.
    """
    row = FACTORS.get(dimension, {}).get(unit)
    if row is None:
        raise LookupError(f"{unit!r} is no unit of {dimension!r}")
    number = in_unit(value, dimension, unit)
    if not math.isfinite(number):
        return "not a finite number"
    decimals = decimals_shown(number, dimension, unit)
    text = _fixed(number, decimals)
    if apart_from is not None and math.isfinite(apart_from):
        other = in_unit(apart_from, dimension, unit)
        while text == _fixed(other, decimals) and decimals < _MOST_DECIMALS and not _alike(number, other):
            decimals += 1
            text = _fixed(number, decimals)
    if row[3] == "":
        text = _without_trailing_zeros(text)
    return joined(text, unit)


def show_amount(amount):
    """An Amount as the builder wrote it; the unit is added where a number stood alone."""
    if amount.unit and amount.text.strip() and amount.text.strip()[-1] in "0123456789":
        return amount.text if amount.unit in amount.text else joined(amount.text.strip(), amount.unit)
    return amount.text


def in_unit(value, dimension, unit):
    """The plain number that a value in SI is in a unit. Raises KeyError for an unknown dimension or unit."""
    numerator, denominator, zero, _ = FACTORS[dimension][unit]
    return (value * denominator - zero) / numerator


def decimals_shown(number, dimension, unit):
    """How many decimals show() gives a number of that unit: by the unit, and never so few that it reads as nothing."""
    size = abs(number)
    if size == 0:
        return {"in": 3, "mm": 2}.get(FACTORS[dimension][unit][3], 0)
    significant = 3 - math.floor(math.log10(size))
    steps = _DECIMALS.get(FACTORS[dimension][unit][3])
    if steps is None:
        return min(max(significant, 0), _MOST_DECIMALS)
    decimals = next(decimals for least, decimals in steps if size >= least)
    if size < 10**-decimals:
        decimals = min(significant - 2, _MOST_DECIMALS)
    return decimals


def _fixed(number, decimals):
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
    return BARE_UNITS[dimension][metric] or _UNITS_WITHOUT_SYSTEM[dimension]


_UNITS_WITHOUT_SYSTEM = {"time": "s", "hardness": "HRC"}
# (from this value in SI on, us, metric), largest first
_LARGER_UNITS = {
    "length": ((1e4, "mi", "km"), (30.48, "ft", "m"), (10.0, "in", "m")),
    "volume": ((1e-3, "in^3", "L"), (3e-4, "in^3", "cm^3")),
    "mass": ((5.0, "lb", "kg"),),
    "force": ((1e5, "lbf", "kN"),),
    "pressure": ((1.4e10, "Mpsi", "GPa"), (1.38e8, "ksi", "MPa"), (1e7, "psi", "MPa")),
    "time": (
        (2 * 31557600.0, "year", "year"),
        (2 * 86400.0, "day", "day"),
        (7200.0, "h", "h"),
        (120.0, "min", "min"),
        (1.0, "s", "s"),
        (1e-9, "ms", "ms"),
    ),
    "frequency": ((1e4, "kHz", "kHz"),),
    "voltage": ((1e3, "kV", "kV"),),
    "energy": ((1e3, "kJ", "kJ"),),
}
