"""What is forgotten under the springs: a valve job after the measuring, and rotators."""

from buildlint.rulebook import *
from buildlint.tables.spring_loads import SPRING_CAUTION

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
    caution=SPRING_CAUTION,
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
