"""Installed height: what it stacks up from, how even it is, and what lies under the spring."""

from buildlint.rulebook import *
from buildlint.tables.spring_loads import SPRING_CAUTION

STACK = """
intake:
  valve: {stem_height: 2.560 in}
  retainer: {tip_to_face: 0.760 in}
  locks: {height_gain: %s}
  spring: {shim_thickness: 0.030 in, installed_height: %s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="mock_up",
    says="The installed height is written as {spring_installed_height_written}, but stem, retainer, locks and shims "
         "stack to {spring_installed_height_computed}.",
    fix="Measure the height with these very parts. To come back to the written height add {gap} of shim.",
    spared=("stock",),
    source="geometry; limits common practice, no source",
    caution=SPRING_CAUTION,
    compares=("spring_installed_height",),
    points_at=("spring_installed_height_written",),
    conforming=(STACK % ("0 in", "1.770 in", ""), STACK % ("0 in", "1.780 in", ""), STACK % ("0.050 in", "1.820 in", ""),
                "intake: {spring: {installed_height: {measured: 1.800 in, by: TK}}}"),
    nonconforming=(STACK % ("0 in", "1.785 in", "# <-"), STACK % ("0 in", "1.800 in", "# <-"), STACK % ("0.050 in", "1.770 in", "# <-")),
)
def installed_height_matches_stack(
    spring_installed_height_written: Length = None, spring_installed_height_computed: Length = None,
    spring_installed_height_measured: Length = None, spring_shim_thickness: Length = None, spring_shim_kind: Choice = None,
    spring_located_by: Choice = None, *,
    warning_beyond: Length = q("0.010 in"), error_beyond: Length = q("0.020 in"),
):
    """Installed height comes from the parts, not from the catalogue: retainers, locks and seats all move it.

    A hundredth is what a card allows either way; two hundredths of a stiff spring are ten pounds on the seat. Offset
    locks of 0.050 in raise the retainer: more room to bind and to the seal, less seat load, less room to the rocker.
    """
    if spring_installed_height_computed is None or spring_installed_height_written is None:
        if spring_installed_height_measured is not None:
            return passes()
        if spring_installed_height_written is None and spring_installed_height_computed is not None:
            return passes()
        missing = () if spring_installed_height_written is not None else ("spring_installed_height",)
        return lacking(*missing, "valve_stem_height", "retainer_tip_to_face")
    stands_on_something = spring_shim_kind not in (None, "none") or spring_located_by in ("cup", "inner_locator")
    if spring_shim_thickness is None and stands_on_something:
        return lacking("spring_shim_thickness")
    gap = spring_installed_height_computed - spring_installed_height_written
    verdict = at_most(Length(abs(gap)), warning=warning_beyond, error=error_beyond)
    verdict.comparing(Length(spring_installed_height_written), Length(spring_installed_height_computed))
    if gap < 0:
        shim = "" if not spring_shim_thickness or spring_shim_thickness < -gap else "take out shim, or "
        verdict.saying(fix="Measure the height with these very parts. To come back to the written height it is {gap} short: "
                           f"{shim}fit offset locks or a longer valve.")
    if spring_installed_height_measured is not None:
        verdict.saying(fix="Measure that valve once more. If the reading stands, a seat, stem, retainer, lock or shim of it is off by "
                           "{gap} from what is written: find which, before anything is shimmed.")
    return verdict.telling(gap=Length(abs(gap)))


HEIGHTS = """
engine: {cylinders: 4}
intake:
  spring:
    installed_height: %s  %s
"""


@rule(
    scope="side",
    level="warning",
    due="mock_up",
    says="Installed heights differ by {spring_installed_height_spread}; keep them within {limit}.",
    fix="Shim the tall ones, up to {spring_installed_height_spread}, so that every spring starts at the same height.",
    source="common practice, no source",
    caution=SPRING_CAUTION,
    when={"spring_installed_height_spread": given},
    points_at=("spring_installed_height",),
    conforming=HEIGHTS % ("[1.800 in, 1.805 in, 1.798 in, 1.802 in]", ""),
    nonconforming=HEIGHTS % ("[1.800 in, 1.815 in, 1.798 in, 1.802 in]", "# <-"),
)
def installed_heights_are_even(spring_installed_height_spread: Length, *, most: Length = q("0.010 in")):
    """The lowest spring is nearest to bind and the tallest the first to float; the engine is as good as the worst."""
    return at_most(spring_installed_height_spread, warning=most)


SHIMS = """
intake:
  spring: {seat_load: %s, shim_kind: %s, shim_thickness: %s}  %s
"""


@rule(
    scope="side",
    level="warning",
    due="mock_up",
    says="{spring_shim_thickness} of shims lies under the springs; {limit} is the most.",
    fix="Use a cup, a retainer with another step or offset locks instead of a stack of shims, and hardened shims under "
        "stiff springs.",
    source="trade press figures without a derivation: common practice, no source",
    caution=SPRING_CAUTION,
    when={"spring_shim_thickness": fitted},
    points_at=("spring_shim_thickness", "spring_shim_kind"),
    conforming=(SHIMS % ("150 lbf", "hardened_shim", "0.060 in", ""), SHIMS % ("75 lbf", "soft_shim", "0.030 in", ""),
                SHIMS % ("150 lbf", "hardened_cup", "0.090 in", "")),
    nonconforming=(SHIMS % ("150 lbf", "hardened_shim", "0.075 in", "# <-"), SHIMS % ("130 lbf", "soft_shim", "0.030 in", "# <-"),
                   SHIMS % ("150 lbf", "hardened_cup", "0.140 in", "# <-")),
)
def spring_shims_are_few_and_hard(
    spring_shim_thickness: Length, spring_shim_kind: Choice = None, spring_seat_load_largest: Force = None, *,
    most: Length = q("0.060 in"), cup: Length = q("0.065 in"), soft_to: Force = q("80 lbf"),
):
    """A tall stack of shims walks, and a soft shim is hammered thin by a stiff spring; the height grows with the miles.

    Flat shims come in 0.015, 0.030 and 0.060 in; more than 0.060 in altogether calls for a cup, which counts as 0.065.
    """
    if spring_shim_kind is None:
        light = spring_seat_load_largest is None or spring_seat_load_largest <= soft_to
        return passes() if spring_shim_thickness <= most and light else lacking("spring_shim_kind")
    if spring_shim_kind == "soft_shim" and spring_seat_load_largest is not None and spring_seat_load_largest > soft_to * (1 + 1e-9):
        return at_most(spring_seat_load_largest, warning=soft_to).at("spring_shim_kind").saying(
            "Soft shims lie under {spring_seat_load_largest} on the seat; above {limit} they are hammered thin.")
    limit = Length(most + cup, most.unit) if spring_shim_kind in ("hardened_cup", "locator") else most
    return at_most(spring_shim_thickness, warning=limit)
