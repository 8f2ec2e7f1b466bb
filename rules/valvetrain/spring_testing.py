"""Whether anybody has tested the springs, and whether a rate alone will do."""

from buildlint.rulebook import *
from buildlint.tables.spring_loads import SPRING_CAUTION

TESTED = """
build: {stage: mock_up}
intake:
  spring: {seat_load: %s, open_load: %s}  %s
"""


@rule(
    scope="side",
    level="note",
    due="mock_up",
    says="The spring loads come from a sheet; the real springs have not been tested.",
    fix="Test each spring at installed height, half lift and full lift, and write load_table, or measured under the loads.",
    source="common practice, no source",
    caution=SPRING_CAUTION,
    points_at=("spring_seat_load", "spring_open_load", "spring_reference_load"),
    conforming=(TESTED % ("{measured: 150 lbf, by: TK}", "{measured: 396 lbf, by: TK}", ""), TESTED % ("[150 lbf, 152 lbf]", "396 lbf", ""), """
        build: {stage: mock_up}
        intake:
          spring: {load_table: [[1.800 in, 150 lbf], [1.200 in, 400 lbf]]}
        """, "build: {stage: ordering}\nintake: {spring: {seat_load: 150 lbf}}"),
    nonconforming=(TESTED % ("150 lbf", "396 lbf", "# <-"), """
        build: {stage: mock_up}
        intake:
          spring: {seat_load: 150 lbf, open_load: 396 lbf, tested_on: 2026-03-09}  # <-
        """),
)
def spring_load_is_measured(
    stage: Choice = None, spring_seat_load_largest: Force = None, spring_load_table: Table = None, outer_spring_load_table: Table = None,
    spring_seat_load_measured: Force = None, spring_seat_load_spread: Force = None, spring_tested_on: Date = None,
):
    """Springs of one part number differ by ten pounds and more; only a tester knows.

    Before the springs are there nothing can be measured, so that it is asked from the mock-up on.
    """
    if stage in (None, "planning", "ordering", "machining"):
        return not_applicable("the springs need not be there yet")
    if spring_seat_load_largest is None:
        return not_applicable("no loads are written")
    verdict = require(any(value is not None for value in (
        spring_load_table, outer_spring_load_table, spring_seat_load_measured, spring_seat_load_spread)))
    if spring_tested_on is None:
        return verdict
    return verdict.saying("The springs were tested on {spring_tested_on}, but the loads are still written as a sheet gives them.",
                          "Write what the tester showed: load_table, or measured under the loads.")


PROGRESSIVE = """
rockers: {ratio: 1.7}
intake:
  lobe: {lift: 0.353 in}
  spring:
    form: %s  %s
    installed_height: 1.800 in
    seat_load: 130 lbf
    rate: 340 lbf/in
"""


@rule(
    scope="side",
    level="warning",
    due="ordering",
    says="The open load of a {spring_form} spring is worked out from one rate, but its rate rises through the lift.",
    fix="Write load_table with tested loads, or the open load that its sheet gives at the open height.",
    source="common practice, no source",
    points_at=("spring_form",),
    conforming=(PROGRESSIVE % ("cylindrical", ""), """
        intake:
          spring: {form: beehive, seat_load: 130 lbf, open_load: 339 lbf}
        """, """
        intake:
          spring: {form: conical, load_table: [[1.800 in, 130 lbf], [1.500 in, 238 lbf], [1.185 in, 359 lbf]]}
        """),
    nonconforming=PROGRESSIVE % ("beehive", "# <-"),
)
def progressive_spring_has_load_table(
    spring_form: Choice = None, spring_load_table: Table = None, spring_open_load_largest: Force = None,
    spring_open_load_written_largest: Force = None,
):
    """A beehive or conical spring lays its coils down one after the other and gets stiffer on the way.

    A straight line through one load undershoots at full lift, just where rocker, pushrod and tip are judged.
    """
    if spring_form not in ("beehive", "conical"):
        return not_applicable("no progressive spring")
    if spring_load_table is not None or spring_open_load_written_largest is not None:
        return passes()
    return lacking("spring_load_table") if spring_open_load_largest is None else require(False)
