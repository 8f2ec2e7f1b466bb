"""Figures that a sheet gives in inches and in millimeters at once."""

import re

from buildlint.rulebook import *

US_UNITS = {"in", "ft", "lb", "lbf", "lbm", "psi", "ksi", "gal", "gpm", "gph", "cfm", "oz", "ozf", "hp", "inHg", "inch", "inches"}

SHEET = """
intake:
  spring:
    load_table: [[45.75 mm, 340 N], [35.55 mm, 980 N], [1.80 in, 76 lbf], [%s, 220 lbf]]  %s
"""


@rule(
    scope="value",
    level="error",
    due="planning",
    says="{word} gives {metric} and {us} for the same point; {shown} would be {should}.",
    fix="Look at the sheet: one of the two is a slip of the pen; write the table once, in one system.",
    source="unit conversion, NIST SP 811",
    conforming=(SHEET % ("1.40 in", ""), """
        intake:
          spring: {load_table: [[1.80 in, 76 lbf], [1.32 in, 220 lbf]]}
        """),
    nonconforming=SHEET % ("1.32 in", "# <-"),
)
def inch_and_metric_figures_agree(value, scope, *, within_share: Fraction = q("0.01", "fraction")):
    """Sheets that print both systems are copied by hand, and one of the two columns is wrong more often than one thinks.

    A table with as many rows in inches as in millimeters, at least half of which agree pair by pair, is taken as the same table
    written twice; then all of them must, within a hundredth.
    """
    if value.dimension != "table" or not value.data or scope.kind == "spring" and "/spring/" in value.pointer:
        return None  # a lone spring's table is read twice, for the set and for the coil
    rows = {True: [], False: []}
    for row in value.data:
        if not all(isinstance(cell, Amount) for cell in row):
            return None
        rows[_is_us(row[0].unit)].append(row)
    us, metric = rows[True], rows[False]
    if not us or len(us) != len(metric):
        return None
    pairs = list(zip(sorted(us, key=float_key), sorted(metric, key=float_key)))
    apart = [(one, other) for one, other in pairs if any(_differ(a, b, within_share) for a, b in zip(one, other))]
    if not apart or 2 * len(apart) > len(pairs):
        return None
    one, other = apart[0]
    column = next(number for number, (a, b) in enumerate(zip(one, other)) if _differ(a, b, within_share))
    should = Amount(float(other[column]), other[column].dimension, one[column].unit)
    return require(False).telling(word=value.word.replace("_", " "), metric=" at ".join(cell.text for cell in other),
                                  us=" at ".join(cell.text for cell in one), shown=other[column].text, should=should)


def float_key(row):
    return float(row[0])


def _differ(one, other, share):
    return abs(one - other) > share * (1 + 1e-9) * max(abs(one), abs(other))


def _is_us(unit):
    return '"' in unit or bool(US_UNITS & set(re.split(r"[^A-Za-z]+", unit)))
