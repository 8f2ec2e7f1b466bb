"""Reads a quantity as a builder writes it, and writes one back: `1.800 in`, `1-1/4 in`, `70 lbf-ft`, `10.3:1`.

The grammar of the number stands here; units and factors are the closed list of units.py. Text is only ever compared
and counted, never evaluated. How values are written stands in quantity_display.py (its functions are offered here
too), why a text was refused in quantity_refusals.py, which is loaded only then.
"""

import functools
import re

from buildlint.quantity_display import BARE_UNITS, default_unit, in_unit, joined, show, show_amount
from buildlint.unit_factors import FACTORS

__all__ = [
    "Amount",
    "QuantityError",
    "default_unit",
    "guess_slip",
    "in_unit",
    "q",
    "read",
    "show",
    "show_amount",
]

LONGEST_TEXT = 200
# A number of more digits or a larger exponent was not measured on an engine.
MOST_DIGITS = 30
LARGEST_NUMBER = 10**15


class QuantityError(ValueError):
    """A text that is not a quantity of the expected dimension: what is wrong, and what to write instead.

    ``instead`` is the quantity that alone can be meant, None where it takes a person to say.
    """

    def __init__(self, message, fix="", instead=None):
        super().__init__(message)
        self.message = message
        self.fix = fix
        self.instead = instead

    def __reduce__(self):
        return QuantityError, (self.message, self.fix, self.instead)


class Amount(float):
    """A quantity in SI that remembers how it was written. Calculating with it gives a plain float.

    ``dimension`` is a name of units.DIMENSIONS, ``unit`` the unit as written (a hardness: its scale), ``text`` the
    whole text, ``low`` and ``high`` the limits in SI that a tolerance or a range gave, else None.
    """

    __slots__ = ("dimension", "unit", "text", "low", "high")

    def __new__(cls, value, dimension="", unit="", text="", low=None, high=None):
        amount = _new(cls, value)
        amount.dimension = dimension
        amount.unit = unit
        amount.text = text
        amount.low = low
        amount.high = high
        return amount

    def __str__(self):
        if self.text or not self.dimension:
            return self.text or float.__repr__(self)
        return show(self, self.dimension, self.unit or default_unit(self.dimension, "us", self))

    def __repr__(self):
        return f"Amount({str(self)!r})"


_new = float.__new__


# The way nearly every quantity is written: digits, perhaps a point and digits, and a unit.
_PLAIN = re.compile(r"([-+]?[0-9]{1,15})(?:\.([0-9]{1,15}))? ?(.*)").fullmatch
_TENS = tuple(10**places for places in range(16))
# Dimensions in which a number with a known unit can still be refused: half a bolt, less than no heat.
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
        raise QuantityError(f"{text!r} is no text.", "Write a number and a unit, for example 1.800 in.")
    plain = _PLAIN(text)
    if plain is None:
        return _read_other(text, dimension, system)
    whole, decimals, unit = plain.groups("")
    found = spellings.get(unit)
    if found is None:
        return _read_other(text, dimension, system)
    numerator, denominator, zero, _ = found
    ten = _TENS[len(decimals)]
    # The same as Amount(...), without the price of a second call.
    amount = _new(Amount, (int(whole + decimals) * numerator + zero * ten) / (denominator * ten))
    if dimension in _WITH_LIMITS and (decimals or amount < 0):
        return _read_other(text, dimension, system)
    amount.dimension = dimension
    amount.unit = unit
    amount.text = text
    amount.low = amount.high = None
    return amount


def q(text, dimension=None):
    """Read a limit of a rule; without ``dimension`` the unit must tell it.

    A unit of two dimensions is settled by PREFERRED where the trade hears only one of them; `5 lb` and `5` are
    refused with QuantityError: say q("5 lb", "force").
    """
    return read(text, dimension or dimension_of(text))


# Units that two dimensions share, and the dimension that is meant when nothing else is said.
PREFERRED = {"degF": "temperature", "degC": "temperature", "g": "mass"}


def dimension_of(text):
    """The dimension that the unit in ``text`` tells. Raises QuantityError where it tells none, or more than one."""
    plain = _PLAIN(text)
    alone = _only_of(plain[3]) if plain is not None else None
    if alone is not None:  # the way nearly every limit is written
        return alone
    unit = ""
    for side in re.split(r"\+/-|\.\.", clean_text(text)):
        side = side.strip(" ")
        unit = unit or (":1" if ":" in side else side[NUMBER(side).end() :].lstrip(" "))
    rows = {dimension: known[unit] for dimension, known in FACTORS.items() if unit and unit in known}
    if len(rows) > 1:
        preferred = PREFERRED.get(next(iter(rows.values()))[3])
        rows = {preferred: None} if preferred else rows
    if len(rows) != 1:
        told = "none that is known" if not rows else " or ".join(rows)
        raise QuantityError(f"The unit of {quoted(text)} does not tell its dimension: {told}.", "Name the dimension.")
    return next(iter(rows))


@functools.cache
def _only_of(unit):
    """The dimension that is the only one with this unit, else None."""
    rows = [dimension for dimension, known in FACTORS.items() if unit and unit in known]
    return rows[0] if len(rows) == 1 else None


# Characters that look alike and mean the same at the bench. Unicode normalization is not used: it turns 1½ into 11/2.
_LOOKALIKES = str.maketrans(
    {
        **dict.fromkeys("\t\u00a0\u2002\u2003\u2007\u2008\u2009\u200a\u202f", " "),
        **dict.fromkeys("\u2212\u2010\u2011", "-"),
        **dict.fromkeys("\u2033\u201c\u201d", '"'),
        **dict.fromkeys("\u2032\u2018\u2019", "'"),
        **dict.fromkeys("\u22c5\u2219\u2022\u00d7", "·"),
        **dict.fromkeys("\u00ba\u02da", "°"),
        "\u03bc": "µ",
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

# A number at the beginning of a text. It also matches nothing at all; then every group is empty.
NUMBER = re.compile(
    r"([-+]?)"
    r"(?:(?:([0-9]+)[- ])?([0-9]+)/([0-9]+)"  # 5/16, 1-1/4, 1 1/4
    r"|([0-9]+)?(?:\.([0-9]+))?(?:[eE]([-+]?[0-9]+))?)"  # 12, 1.800, .040, 1e3
).match


def clean_text(text):
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


class _Unread(Exception):
    """What keeps a text from being read: (what it does wrong, what to write), or nothing where that is still open."""


def _read_other(text, dimension, system):
    """Read everything but the plain number with a unit: fractions, exponents, tolerances, ranges, bare numbers."""
    clean = clean_text(text)
    first, mark, second = parted(clean)
    try:
        if mark == "+/-":
            value, low, high, unit = _with_tolerance(first, second, dimension, system)
        elif mark:
            value, low, high, unit = _with_range(first, second, dimension, system)
        else:
            number, unit = _side(first, dimension)
            unit = unit or _bare_unit(dimension, system, is_zero=number[0] == 0)
            value = low = high = _in_si(number, unit, dimension)
        if dimension == "count" and (low[0] % low[1] or high[0] % high[1]):
            raise _Unread("is not a whole number; a count was expected", "Write a whole number.")
        if dimension == "temperature" and low[0] < 0:
            raise _Unread("is below absolute zero", "Check the number and the unit.")
    except _Unread as reason:
        if reason.args:
            raise QuantityError(f"{quoted(text)} {reason.args[0]}.", reason.args[1]) from None
        from buildlint.quantity_refusals import refusal

        raise refusal(text, clean, dimension) from None
    limits = (low[0] / low[1], high[0] / high[1]) if mark else (None, None)
    return Amount(value[0] / value[1], dimension, unit, text, *limits)


def parted(clean):
    """Part `A +/- B` or `A..B` at its mark; a text with more than one mark is left whole, to be refused."""
    for mark in ("+/-", ".."):
        if clean.count(mark) == 1 and "..." not in clean:
            first, _, second = clean.partition(mark)
            return first.rstrip(" "), mark, second.lstrip(" ")
    return clean, "", ""


def _side(side, dimension):
    """Part one side into its number, as a whole numerator and denominator, and the spelling of its unit."""
    if dimension == "ratio" and ":" in side:
        left, _, right = side.partition(":")
        (top, below), left_unit = _side(left.rstrip(" "), "")
        (other_top, other_below), right_unit = _side(right.lstrip(" "), "")
        if left_unit or right_unit or other_top <= 0:
            raise _Unread
        return (top * other_below, below * other_top), ":1"
    found = NUMBER(side)
    sign, whole, top, below, digits, decimals, exponent = found.groups("")
    if sum(map(len, (whole, top, below, digits, decimals))) > MOST_DIGITS:
        raise _Unread("has too many digits", "Round the number to what was measured.")
    if below:
        numerator, denominator = int(top), int(below)
        if not denominator or (whole and numerator >= denominator):
            raise _Unread("holds a fraction that makes no sense", "Write it like 5/16 or 1-1/4.")
        numerator += int(whole or 0) * denominator
    elif digits or decimals:
        if len(exponent) > 3:
            raise _Unread("is out of all measure", "Check the exponent.")
        power = int(exponent or 0) - len(decimals)
        numerator = int(digits + decimals) * 10 ** max(power, 0)
        denominator = 10 ** max(-power, 0)
    else:
        raise _Unread
    if numerator > LARGEST_NUMBER * denominator:
        raise _Unread("is out of all measure", "Check the number.")
    return (-numerator if sign == "-" else numerator, denominator), side[found.end() :].lstrip(" ")


def _bare_unit(dimension, system, is_zero=False):
    """The unit of a number that was written without one. Nothing is nothing in every unit that begins at nothing."""
    if "" in FACTORS[dimension]:
        return ""
    usual = BARE_UNITS[dimension][system == "metric"]
    if usual and (system or (is_zero and dimension != "temperature")):
        return usual
    raise _Unread


def _in_si(number, unit, dimension, zero_counts=True):
    """A number of a unit in SI, as numerator and denominator; a difference leaves out where the scale begins."""
    row = FACTORS[dimension].get(unit)
    if row is None:
        raise _Unread
    return number[0] * row[0] + zero_counts * row[2] * number[1], row[1] * number[1]


def _with_tolerance(first, second, dimension, system):
    """Value, low, high and unit of `A +/- B`. B may be in percent of A, except where percent is itself the unit."""
    number, unit = _side(first, dimension)
    tolerance, other_unit = _side(second, dimension)
    if tolerance[0] < 0:
        raise _Unread("has a negative tolerance", "Write the tolerance without a sign.")
    in_percent = other_unit == "%" and dimension not in ("fraction", "temperature")
    unit = unit or ("" if in_percent else other_unit) or _bare_unit(dimension, system)
    value = _in_si(number, unit, dimension)
    if in_percent:
        half = abs(value[0]) * tolerance[0], value[1] * tolerance[1] * 100
    else:
        half = _in_si(tolerance, other_unit or unit, dimension, zero_counts=False)
    denominator = value[1] * half[1]
    middle, step = value[0] * half[1], half[0] * value[1]
    return value, (middle - step, denominator), (middle + step, denominator), unit


def _with_range(first, second, dimension, system):
    """Middle, low, high and unit of `A..B`, with the unit on the last or on both."""
    number, unit = _side(first, dimension)
    other, other_unit = _side(second, dimension)
    if unit and not other_unit and unit in FACTORS[dimension]:
        start = first[: len(first) - len(unit)].rstrip(" ")
        raise _Unread("has its unit in the middle", f"Write {start}..{joined(second, unit)}.")
    other_unit = other_unit or _bare_unit(dimension, system)
    low = _in_si(number, unit or other_unit, dimension)
    high = _in_si(other, other_unit, dimension)
    if low[0] * high[1] > high[0] * low[1]:
        end = first if unit else first + second[NUMBER(second).end() :]
        raise _Unread("runs from the larger to the smaller", f"Write {second[: NUMBER(second).end()]}..{end}.")
    return (low[0] * high[1] + high[0] * low[1], 2 * low[1] * high[1]), low, high, other_unit


def guess_slip(amount, low, high):
    """The usual slip that would explain an amount outside (low, high) in SI: another unit, or the point displaced.

    Returns (the unit that was meant, the text to write), or None where no known slip brings it into the range.
    """
    from buildlint.quantity_slips import slip

    return slip(amount, low, high)


def quoted(text):
    """The text safe to print: nothing invisible, nothing endless."""
    shown = "".join(letter if letter.isprintable() else f"\\u{ord(letter):04x}" for letter in text[:61])
    return f"`{shown[:60]}{'...' if len(text) > 60 else ''}`"
