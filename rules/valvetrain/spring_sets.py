"""How alike the springs of a set are, how much used ones have lost, and whether nested coils fit each other."""

from buildlint.rulebook import *
from buildlint.tables.spring_loads import SPRING_CAUTION

SET = """
engine: {cylinders: 4}
intake:
  spring:
    rate: 400 lbf/in
    seat_load: %s  %s
"""


@rule(
    scope="side",
    level="warning",
    due="mock_up",
    says="Seat loads differ by {value} over the set; keep them within {limit}.",
    fix="Pair the springs, and shim the weak ones: up to {shim} at this rate.",
    source="common practice, no source",
    caution=SPRING_CAUTION,
    when={"spring_seat_load_spread": given},
    points_at=("spring_seat_load",),
    conforming=(SET % ("[150 lbf, 152 lbf, 148 lbf, 157 lbf]", ""), SET % ("[350 lbf, 360 lbf, 352 lbf, 366 lbf]", "")),
    nonconforming=SET % ("[150 lbf, 152 lbf, 142 lbf, 157 lbf]", "# <-"),
)
def spring_set_is_matched(
    spring_seat_load_spread: Force, spring_seat_load_largest: Force, spring_rate_smallest: Stiffness = None, *,
    most: Force = q("10 lbf"), or_share: Fraction = q("0.05", "fraction"),
):
    """The weakest spring of the set floats first, and the engine's speed is its speed.

    Ten pounds, or a twentieth of the load where that is more.
    """
    verdict = at_most(spring_seat_load_spread, Force(max(most, or_share * spring_seat_load_largest)))
    if not spring_rate_smallest:
        return verdict.saying(fix="Pair the springs, and shim the weak ones by what they lack over their rate.")
    return verdict.telling(shim=Length(spring_seat_load_spread / spring_rate_smallest))


USED = """
intake:
  spring: {condition: reused, new_seat_load: 150 lbf, seat_load: %s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="mock_up",
    says="A used spring carries {spring_seat_load} on the seat, {value} less than the {spring_new_seat_load} it had when new; "
         "{limit} is the end of its life.",
    fix="Replace the springs; shims bring the load back, but not the life.",
    source="army maintenance manual TM 10-3930-644-14&P: replace springs that lost more than 10 percent",
    caution=SPRING_CAUTION,
    when={"spring_condition": ("reused", "reused_in_place", "reconditioned")},
    points_at=("spring_seat_load",),
    conforming=(USED % ("140 lbf", ""), USED % ("135 lbf", "")),
    nonconforming=USED % ("132 lbf", "# <-"),
)
def used_springs_keep_their_load(
    spring_seat_load: Force, spring_new_seat_load: Force, *, error_above: Fraction = q("10 %", "fraction"),
):
    """A spring that has lost a tenth has cracks in its surface or coils that have set; the rest of the load follows.

    Both loads at the same height.
    """
    if spring_new_seat_load <= 0:
        return not_applicable("a zero or less is a slip, which the rule on plausible values reports")
    return at_most(Fraction(1 - spring_seat_load / spring_new_seat_load), error=error_above)


NEST = """
intake:
  spring: {count: 2}
  springs:
    outer: {coil_hand: right, inside_diameter: 1.000 in}
    inner: {coil_hand: %s, outside_diameter: %s, height_step: 0.060 in}  %s
"""


@rule(
    scope="side",
    level="warning",
    due="ordering",
    says="The nested springs do not suit each other: {trouble}.",
    fix="Order the springs as a set: neighboring coils wound opposite ways, the inner one running free inside the outer, each with "
        "its own height and solid height written.",
    source="coil hand: concentric springs in Bhandari, Design of Machine Elements, ch. 10 (from memory); fit: common practice, "
           "no source",
    points_at=("inner_spring_coil_hand",),
    conforming=(NEST % ("left", "0.985 in", ""), "intake: {spring: {count: 1}}"),
    nonconforming=(NEST % ("right", "0.985 in", "# <-"), NEST % ("left", "1.010 in", "# <-"), NEST % ("left", "0.850 in", "# <-"), """
        intake:
          spring: {count: 2, installed_height: 1.800 in}
          springs:
            outer: {reference_height: 1.800 in, reference_load: 110 lbf, rate: 300 lbf/in}
            inner: {reference_height: 1.700 in, reference_load: 40 lbf, rate: 110 lbf/in}  # <-
        """),
)
def nested_springs_fit_each_other(
    outer_spring_coil_hand: Choice = None, inner_spring_coil_hand: Choice = None, innermost_spring_coil_hand: Choice = None,
    outer_spring_inside_diameter: Length = None, inner_spring_outside_diameter: Length = None,
    inner_spring_inside_diameter: Length = None, innermost_spring_outside_diameter: Length = None,
    inner_spring_height_step: Length = None, inner_spring_rate: Stiffness = None, inner_spring_reference_load: Force = None,
    inner_spring_load_table: Table = None, *,
    loosest: Length = q("0.120 in"),
):
    """Nested coils of the same hand can climb into each other; too tight a pair rubs, too loose a pair wanders.

    A flat damper between them may touch; the fit counted here is between the coils themselves, with room for a damper.
    An inner spring stands on its own steps of retainer and cup, so that its loads say nothing without its height. Asked
    where the coils are described one by one; a set bought as a set is its maker's affair.
    """
    asked = False
    for name, hand, other, inside, outside in (
            ("inner", inner_spring_coil_hand, outer_spring_coil_hand, outer_spring_inside_diameter, inner_spring_outside_diameter),
            ("innermost", innermost_spring_coil_hand, inner_spring_coil_hand, inner_spring_inside_diameter,
             innermost_spring_outside_diameter)):
        if hand is not None and other is not None:
            asked = True
            if hand == other:
                return require(False).telling(trouble=f"the {name} one is wound the same way as its neighbor").at(f"{name}_spring_coil_hand")
        if inside is not None and outside is not None:
            asked = True
            play = Length(inside - outside)
            if play < 0:
                return require(False).telling(trouble=f"the {name} coil is larger than the inside of its neighbor").at(
                    f"{name}_spring_outside_diameter")
            verdict = at_most(play, loosest).at(f"{name}_spring_outside_diameter")
            if verdict.kind == "fail":
                return verdict.telling(trouble=f"the {name} one is loose inside its neighbor")
    loads = [value for value in (inner_spring_load_table, inner_spring_reference_load, inner_spring_rate) if value is not None]
    if loads:
        asked = True
        if inner_spring_height_step is None:
            return require(False, level="note").at("inner_spring_reference_load", "inner_spring_load_table", "inner_spring_rate").telling(
                trouble="the inner one has loads, but its height_step is not written, so that its own height is not known")
    return passes() if asked else not_applicable("the coils are not described one by one")
