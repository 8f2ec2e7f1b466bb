"""Installed height: what it stacks up from, how even it is, and whether it was measured after the last cut."""

from buildlint.rulebook import *

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
    source="geometry; limits common practice, no source",
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
    verdict.value, verdict.limit = Length(spring_installed_height_written), Length(spring_installed_height_computed)
    if gap < 0:
        verdict.saying(fix="Measure the height with these very parts. To come back to the written height it is {gap} short: "
                           "take out shim, or fit offset locks or a longer valve.")
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


JOB = """
heads:
  valve_job_on: 2026-04-20
intake:
  spring: {tested_on: %s}  %s
"""


@rule(
    scope="side",
    level="warning",
    due="mock_up",
    says="The springs were tested on {spring_tested_on}, before the valve job of {head_valve_job_on}.",
    fix="Measure installed heights, loads and pushrod length again, and write the new dates; a seat sunk 0.020 in takes "
        "eight pounds from a 400 lbf/in spring.",
    source="geometry; common practice, no source",
    points_at=("spring_tested_on", "seat_sunk"),
    conforming=(JOB % ("2026-04-22", ""), JOB % ("2026-04-20", "")),
    nonconforming=(JOB % ("2026-04-10", "# <-"), """
        intake:
          seat: {sunk: 0.020 in}  # <-
          spring: {rate: 410 lbf/in}
        """),
)
def valve_job_precedes_spring_measurement(
    head_valve_job_on: Date = None, spring_tested_on: Date = None, seat_sunk: Length = None, spring_rate_smallest: Stiffness = None, *,
    sunk_to_ask_about: Length = q("0.005 in"),
):
    """A valve job lets the valve down into the head, and every height, load and length measured before is stale.

    The stem stands higher by as much: installed height grows, the spring gets weaker, a hydraulic lifter on a fixed
    pivot gets more preload, the chamber a little larger.
    """
    if seat_sunk is not None and seat_sunk > sunk_to_ask_about * (1 + 1e-9):
        verdict = at_most(seat_sunk, warning=sunk_to_ask_about).at("seat_sunk")
        if spring_rate_smallest is None:
            return verdict.saying("The seats lie {seat_sunk} lower than when heights were measured.")
        return verdict.telling(lost=Force(seat_sunk * spring_rate_smallest)).saying(
            "The seats lie {seat_sunk} lower than when heights were measured: the springs stand that much taller and lose {lost}.")
    if head_valve_job_on is None or spring_tested_on is None:
        return not_applicable("the dates of valve job and spring test are not both written")
    return require(spring_tested_on >= head_valve_job_on)


ROTATOR = """
rockers: {ratio: 1.5}
exhaust:
  lobe: {lift: %s}
  rotator: {kind: under_spring, thickness: 0.250 in}
  spring: {shim_thickness: %s}  %s
"""


@rule(
    scope="side",
    level="warning",
    due="ordering",
    says="{spring_shim_thickness} is written under the springs, less than the rotator's own {rotator_thickness}: it is not in "
         "the stack.",
    fix="Above {most_lift} of lift replace the rotator by a shim of its thickness, or count it into shim_thickness.",
    source="common practice, no source; from memory",
    when={"rotator_kind": given},
    points_at=("rotator_kind", "spring_shim_thickness"),
    conforming=(ROTATOR % ("0.260 in", "0.250 in", ""), "exhaust: {rotator: {kind: none}}"),
    nonconforming=(ROTATOR % ("0.260 in", "0.030 in", "# <-"), """
        rockers: {ratio: 1.6}
        exhaust:
          lobe: {lift: 0.320 in}
          rotator: {kind: in_retainer, thickness: 0.250 in}  # <-
        """),
)
def valve_rotators_are_counted(
    rotator_kind: Choice, rotator_thickness: Length = None, spring_shim_thickness: Length = None, valve_lift: Length = None, *,
    most_lift: Length = q("0.450 in"),
):
    """A rotator takes a quarter inch of the spring's room and is the first thing forgotten when springs are changed.

    It belongs in the stack under the spring, and it is too heavy and too loose for a lively cam.
    """
    if rotator_kind == "none":
        return not_applicable("no rotators")
    if valve_lift is not None and valve_lift > most_lift * (1 + 1e-9):
        return at_most(valve_lift, warning=most_lift).at("rotator_kind").saying(
            "Rotators are fitted with {valve_lift} of lift; they are for {limit} and less.")
    if rotator_kind == "under_spring":
        if rotator_thickness is None or spring_shim_thickness is None:
            return lacking(*(["rotator_thickness"] if rotator_thickness is None else []),
                           *(["spring_shim_thickness"] if spring_shim_thickness is None else []))
        return at_least(spring_shim_thickness, warning=rotator_thickness).at("spring_shim_thickness")
    return passes()
