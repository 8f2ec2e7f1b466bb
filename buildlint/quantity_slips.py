"""Guesses what was meant by a quantity far outside its plausible range: millimeters called inches, a displaced point.

Only slips that people make are tried, the likelier first; a guess is offered, never applied.
"""

import re

from buildlint.quantities import QuantityError, clean_text, parted, read
from buildlint.quantity_display import joined
from buildlint.unit_factors import FACTORS

# Units that are mixed up with one another, the likeliest first. Other dimensions are tried with every unit they have.
MIXED_UP = {
    "length": ("in", "mm", "thou", "uin", "um", "cm", "ft", "m", "mi", "km"),
    "area": ("in^2", "cm^2", "mm^2", "ft^2"),
    "rpm": ("rpm",),
    "volume": ("cc", "in^3", "L", "qt", "gal"),
    "angle": ("deg", "rad", "turn"),
    "mass": ("g", "lb", "oz", "kg"),
    "force": ("lbf", "N", "kgf", "ozf", "kN"),
    "stiffness": ("lbf/in", "N/mm", "kgf/mm", "N/m"),
    "pressure": ("psi", "kPa", "bar", "ksi", "MPa", "inHg", "inH2O", "Mpsi", "GPa", "Pa"),
    "torque": ("lbf-ft", "lbf-in", "N*m", "kgf*m", "ozf-in"),
    "temperature": ("degF", "degC", "K"),
    "temperature_rise": ("degF", "K"),
    "flow": ("ft^3/min", "gpm", "L/min", "gal/h", "L/h", "cc/min"),
    "fraction": ("%", "", "ppm"),
    "unbalance": ("ozf*in", "g*mm", "g*cm", "g*in"),
}
# How far a decimal point goes astray: one place, or three (thousandths read as whole).
DISPLACED = (-1, 1, -3, 3, -2, 2)

_NUMBER = re.compile(r"([-+]?)([0-9]*)(?:\.([0-9]+))?").fullmatch


def slip(amount, low, high):
    """See quantities.guess_slip."""
    spellings = FACTORS[amount.dimension]
    written = spellings[amount.unit]
    for unit in MIXED_UP.get(amount.dimension) or dict.fromkeys(row[3] for row in spellings.values()):
        if spellings[unit][:3] != written[:3]:
            text = _with_unit(amount, unit)
            if _within(text, amount.dimension, low, high):
                return unit, text
    for places in DISPLACED:
        text = _with_point_moved(amount, places)
        if text and _within(text, amount.dimension, low, high):
            return amount.unit, text
    return None


def _within(text, dimension, low, high):
    try:
        return low <= read(text, dimension) <= high
    except QuantityError:
        return False


def _with_unit(amount, unit):
    """The text with every unit replaced; a tolerance in percent stays one."""
    first, mark, second = parted(clean_text(amount.text))
    if not mark:
        return joined(_number_of(first), unit)
    if mark == "+/-" and not second.endswith("%"):
        return f"{joined(_number_of(first), unit)} +/- {joined(_number_of(second), unit)}"
    if mark == "+/-":
        return f"{joined(_number_of(first), unit)} +/- {second}"
    return f"{_number_of(first)}..{joined(_number_of(second), unit)}"


def _number_of(side):
    return re.match(r"[-+]?(?:[0-9]+[- ][0-9]+/[0-9]+|[0-9./]+(?:[eE][-+]?[0-9]+)?)", side).group()


def _with_point_moved(amount, places):
    """The text with the decimal point moved to the right; None where the number is not a plain decimal one."""
    first, mark, _ = parted(clean_text(amount.text))
    plain = None if mark else _NUMBER(first.removesuffix(":1").removesuffix(amount.unit).rstrip(" "))
    if plain is None:
        return None
    sign, whole, decimals = plain.groups("")
    point = len(whole) + places
    digits = "0" * (1 - point) + whole + decimals
    point = max(point, 1)
    digits = digits.ljust(point, "0")
    number = f"{sign}{digits[:point].lstrip('0') or '0'}"
    return joined(f"{number}.{digits[point:]}" if digits[point:] else number, amount.unit)
