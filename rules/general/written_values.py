"""What can be asked of any written value: is it believable, in the right unit, and at one with the rest?"""

from functools import cache

from buildlint.quantities import guess_slip, read
from buildlint.reading_precision import half_a_digit
from buildlint.rulebook import *

STROKE = """
crank: {stroke: %s}  %s
"""


def _outside(value):
    """(low, high) of the word's plausible range where the value lies outside of it, else None."""
    range_ = value.definition.plausible
    if range_ is None or not isinstance(value.data, Amount):
        return None
    low, high, slack = _limits(range_, str(value.dimension))
    if value.dimension == "hardness" and value.data.unit != low.unit:  # no sum turns one scale into another
        return None
    return None if low - slack <= value.data <= high + slack else (low, high)


@cache
def _limits(range_, dimension):
    low, high = read(range_[0], dimension), read(range_[1], dimension)
    return low, high, 1e-9 * max(abs(low), abs(high))


@rule(
    scope="value",
    level="error",
    due="planning",
    says="{word} is written as {written}, outside {low} to {high}; {meant} would be usual, so the unit looks wrong.",
    fix="Write {meant} if that is what was measured.",
    source="plausible range of the word; common practice, no source",
    conforming=(STROKE % ("3.750 in", ""), STROKE % ("95.25 mm", "")),
    nonconforming=(STROKE % ("95.25 in", "# <-"), STROKE % ("3.75 mm", "# <-"), """
        rockers: {ratio: 1.7}
        intake:
          valve: {stem_diameter: 8 in}  # <-
        """),
    edit=("decision", "value", "{meant}"),
)
def written_unit_fits_the_value(value, scope):
    """A number that makes sense only in another unit was read off another sheet; the part would be ordered wrong.

    The range asked about is wide, far beyond good practice: it catches millimeters written as inches and
    pound-feet as pound-inches, not unusual engines.
    """
    range_ = _outside(value)
    if range_ is None:
        return None
    guess = guess_slip(value.data, *range_)
    if guess is None or guess[0] == value.data.unit:
        return None
    return require(False).telling(word=value.word.replace("_", " "), written=value.text, low=range_[0].text,
                                  high=range_[1].text, meant=guess[1])


@rule(
    scope="value",
    level="warning",
    due="planning",
    says="{word} is written as {written}; usual is {low} to {high}.{meant}",
    fix="Look at the sheet again. If the value is right, it is an unusual part: say why under notes and have it permitted.",
    source="plausible range of the word; common practice, no source",
    conforming=("build: {rev_limit: 6800 rpm}", """
        joints:
          head:
            washer: {hardness: 40 HRC}
        """),
    nonconforming=("build: {rev_limit: 68000 rpm}  # <-", "build: {rev_limit: 650 rpm}  # <-"),
)
def value_lies_in_plausible_range(value, scope):
    """A finger on the wrong key moves a decimal point, and every number after it goes along.

    Only asks whether it is a slip; whether the value is good practice is for the rules on the part. A value
    that would be usual in another unit is left to the rule on units.
    """
    range_ = _outside(value)
    if range_ is None:
        return None
    guess = guess_slip(value.data, *range_)
    if guess is not None and guess[0] != value.data.unit:
        return None
    meant = f" Was {guess[1]} meant?" if guess else ""
    return require(False).telling(word=value.word.replace("_", " "), written=value.text, low=range_[0].text,
                                  high=range_[1].text, meant=meant)


BOBWEIGHT = """
bearings:
  main: {housing_bore: 2.6411 in}
joints:
  head: {thread: 7/16-20, strength_class: sae_grade_8, proof_strength: %s}  %s
"""


@rule(
    scope="value",
    level="warning",
    due="planning",
    says="{word} is written as {written}, but {computed} follows from what else is written. {sentence}",
    fix="Correct the one that is wrong: the written value, or what it follows from.",
    source="the formula named in the finding",
    conforming=(BOBWEIGHT % ("120 ksi", ""), BOBWEIGHT % ("121 ksi", "")),
    nonconforming=BOBWEIGHT % ("85 ksi", "# <-"),
)
def written_value_agrees_with_formula(value, scope, compared, *, beyond: Fraction = q("0.02", "fraction"), coarse: Fraction = q("0.10", "fraction")):
    """Where a number is written and follows from others too, the two must agree, or one of them is of another build.

    Quantities that have a rule of their own for this (spring loads, heights, deck) are left to it. What was read to a
    tenth of a millimeter agrees with whatever rounds to it.
    """
    if value.word not in scope.ways or value.word in compared or not isinstance(value.data, Amount):
        return None
    computed = scope.value(value.word + "_computed")
    if computed is None or not isinstance(computed.data, (int, float)):
        return None
    size = max(abs(computed.data), abs(value.data))
    if size == 0:
        return None
    share = abs(value.data - computed.data) / size
    if share <= coarse and abs(value.data - computed.data) <= half_a_digit(value) * (1 + 1e-9):
        return None
    verdict = at_most(Fraction(share), beyond)
    shown = Amount(computed.data)
    shown.dimension, shown.unit, shown.text, shown.low, shown.high = str(value.dimension), value.unit, "", None, None
    return verdict.telling(word=value.word.replace("_", " "), written=value.text, computed=shown,
                           sentence=computed.formula.sentence)


PLAN = """
block: {bore: {plan: %s, measured: 4.0304 in, by: RM, on: 2026-03-02}}  # <-
"""


@rule(
    scope="value",
    level="warning",
    due="mock_up",
    says="{word} was measured as {written}; planned is {plan}, {low} to {high}.",
    fix="Measure again; if it stands, work the part to the plan or change the plan and look at everything that follows from it.",
    source="the plan of the spec itself",
    conforming=((PLAN % "4.030 in +/- 0.0005 in").replace("  # <-", ""), (PLAN % "4.031 in").replace("  # <-", "")),
    nonconforming=(PLAN % "4.0295 in +/- 0.0005 in", """
        block:
          bore: {plan: 4.030 in +/- 0.0005 in, measured: [4.0302 in, 4.0309 in]}  # <-
        """),
)
def measured_value_agrees_with_plan(value, scope):
    """A measurement outside the plan's own tolerance is either a wrong measurement or another engine.

    Only asked where the plan carries a tolerance or a range.
    """
    plan, measured = value.plan, value.measured
    if not isinstance(plan, Amount) or not isinstance(measured, Amount) or plan.low is None:
        return None
    slack = 1e-9 * max(abs(plan.low), abs(plan.high))
    good = plan.low - slack <= measured <= plan.high + slack

    def shown(limit):
        amount = Amount(limit)
        amount.dimension, amount.unit, amount.text, amount.low, amount.high = plan.dimension, plan.unit, "", None, None
        return amount

    return require(good).telling(word=value.word.replace("_", " "), written=value.text or measured, plan=plan.text,
                                 low=shown(plan.low), high=shown(plan.high))
