"""Whether loads, rate, heights and free length of a spring agree, and whether anybody has measured them."""

from buildlint.rulebook import *

SPRING_CAUTION = "A valve spring under load can fly out: use a locked tool and eye protection, and follow its maker."

LOADS = """
rockers: {ratio: 1.7}
intake:
  lobe: {lift: 0.353 in}
  spring: {installed_height: 1.800 in, seat_load: 150 lbf, rate: 410 lbf/in, open_load: %s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="The {which} load is written as {value}, but the spring's own figures give {limit} at that height.",
    fix="Measure the spring on a tester at installed height, half lift and full lift, write the loads as load_table, and "
        "correct the load, the rate or the height that was mistyped.",
    source="Hooke's law; limits common practice, no source",
    compares=("spring_seat_load", "spring_open_load"),
    points_at=("spring_load_table",),
    caution=SPRING_CAUTION,
    conforming=(LOADS % ("396 lbf", ""), LOADS % ("385 lbf", ""), "intake: {spring: {seat_load: 150 lbf, open_load: 396 lbf}}"),
    nonconforming=(LOADS % ("340 lbf", "# <-"), LOADS % ("372 lbf", "# <-"), """
        rockers: {ratio: 1.7}
        exhaust:
          lobe: {lift: 0.344 in}
          spring:
            installed_height: 1.800 in
            seat_load: 120 lbf  # <-
            load_table: [[1.800 in, 150 lbf], [1.500 in, 268 lbf], [1.200 in, 400 lbf]]
        """, """
        intake:
          spring:
            load_table: [[1.800 in, 150 lbf], [1.500 in, 400 lbf], [1.200 in, 268 lbf]]  # <-
        """),
)
def spring_loads_match_heights(
    spring_seat_load_written: Force = None, spring_seat_load_computed: Force = None,
    spring_open_load_written: Force = None, spring_open_load_computed: Force = None, spring_load_table: Table = None,
    spring_seat_load: Force = None, *,
    warning_beyond: Fraction = q("0.05", "fraction"), error_beyond: Fraction = q("0.10", "fraction"),
):
    """Every later check rests on the seat and open loads; a load that its own rate or test contradicts is a typing slip.

    Tested loads win over a rate. Five percent covers the tolerance of springs and testers. A tested spring that is
    weaker when squeezed further was written down in the wrong order.
    """
    if spring_load_table is not None:
        loads = [load for _, load in sorted(spring_load_table, reverse=True)]
        if any(later <= earlier for earlier, later in zip(loads, loads[1:])):
            return require(False).at("spring_load_table").saying(
                "The tested loads do not rise as the spring gets shorter.", "Look at the test sheet: two rows are swapped or mistyped.")
    worst = None
    for which, written, computed in (("seat", spring_seat_load_written, spring_seat_load_computed),
                                     ("open", spring_open_load_written, spring_open_load_computed)):
        if written is None or not computed:
            continue
        share = abs(written / computed - 1)
        verdict = at_most(Fraction(share), warning=warning_beyond, error=error_beyond)
        if worst is None or share > worst[0]:
            verdict.value, verdict.limit = Force(written), Force(computed)
            worst = share, verdict.telling(which=which).at(f"spring_{which}_load_written")
    if worst is not None:
        return worst[1]
    if spring_seat_load is None:
        return lacking("spring_seat_load", "spring_open_load")
    return not_applicable("only one figure is known for each load")


RATE = """
rockers: {ratio: 1.7}
intake:
  lobe: {lift: 0.344 in}
  spring:
    count: 1
    installed_height: 1.800 in
    rate: %s  %s
    load_table: [[1.800 in, 150 lbf], [1.500 in, 268 lbf], [1.200 in, 400 lbf]]
"""
WIRE = """
intake:
  spring: {count: 1, form: cylindrical, wire_diameter: 4.6 mm, outside_diameter: 32.1 mm, active_coils: 4, rate: %s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="The rate is {value}, but {what} gives {limit}.",
    fix="Trust the tested loads before the sheet, and the sheet before the wire; correct what was mistyped, or test again.",
    source="Hooke's law; rate by the wire: EN 13906-1:2013, 9.4; limits common practice, no source",
    compares=("spring_rate",),
    points_at=("spring_rate",),
    conforming=(RATE % ("416 lbf/in", ""), RATE % ("400 lbf/in", ""), WIRE % ("305 lbf/in", ""), WIRE % ("53.5 N/mm", "")),
    nonconforming=(RATE % ("370 lbf/in", "# <-"), RATE % ("300 lbf/in", "# <-"), WIRE % ("340 lbf/in", "# <-")),
)
def spring_rate_agrees_with_loads(
    spring_rate: Stiffness = None, spring_rate_written: Stiffness = None, spring_rate_computed: Stiffness = None,
    spring_wire_rate: Stiffness = None, spring_form: Choice = None, *,
    warning_beyond: Fraction = q("0.08", "fraction"), error_beyond: Fraction = q("0.20", "fraction"),
):
    """Rate and loads of one spring are two views of one line; where they part, one of them is mistyped.

    A printed sheet that gives a height in two unit systems has been seen to contradict itself by a sixth. The wire's
    own rate is held against it for cylindrical springs, more mildly, since active coils are counted differently.
    """
    if spring_rate_written is not None and spring_rate_computed:
        verdict = at_most(Fraction(abs(spring_rate_written / spring_rate_computed - 1)), warning=warning_beyond,
                          error=error_beyond)
        verdict.value, verdict.limit = Stiffness(spring_rate_written), Stiffness(spring_rate_computed)
        if verdict.kind == "fail":
            return verdict.telling(what="the test of the spring")
    else:
        verdict = None
    if spring_rate is not None and spring_wire_rate and spring_form in (None, "cylindrical"):
        by_wire = at_most(Fraction(abs(spring_rate / spring_wire_rate - 1)), warning=warning_beyond)
        by_wire.value, by_wire.limit = Stiffness(spring_rate), Stiffness(spring_wire_rate)
        return by_wire.telling(what="the wire")
    return verdict or not_applicable("the rate is known in one way only")


FREE = """
intake:
  spring: {count: 1, form: %s, installed_height: 1.570 in, seat_load: 97.5 lbf, rate: 300.5 lbf/in, free_length: %s}  %s
"""


@rule(
    scope="side",
    level="note",
    due="ordering",
    says="The {which} spring is {value} long when free, but its load and rate ask for {limit}.",
    fix="Measure the free length, and look at load and rate again; a spring that got shorter has taken a set.",
    source="Hooke's law; limit common practice, no source",
    points_at=("outer_spring_free_length", "inner_spring_free_length"),
    conforming=(FREE % ("cylindrical", "1.909 in", ""), FREE % ("beehive", "2.100 in", "")),
    nonconforming=FREE % ("cylindrical", "2.000 in", "# <-"),
)
def spring_free_length_fits_rate(
    outer_spring_free_length: Length = None, outer_spring_free_length_by_rate: Length = None,
    inner_spring_free_length: Length = None, inner_spring_free_length_by_rate: Length = None, spring_form: Choice = None, *,
    beyond: Fraction = q("0.03", "fraction"),
):
    """A cylindrical spring's load, rate and free length are one line; the free length is the easiest to measure.

    Only for cylindrical springs: a beehive's rate is not the same at both ends of its travel.
    """
    if spring_form in ("beehive", "conical"):
        return not_applicable("a progressive spring")
    asked = False
    for which, length, wanted in (("outer", outer_spring_free_length, outer_spring_free_length_by_rate),
                                  ("inner", inner_spring_free_length, inner_spring_free_length_by_rate)):
        if length is None or not wanted:
            continue
        asked = True
        verdict = at_most(Fraction(abs(length / wanted - 1)), note=beyond)
        verdict.value, verdict.limit = length, Length(wanted)
        if verdict.kind == "fail":
            return verdict.telling(which=which).at(f"{which}_spring_free_length")
    return passes() if asked else not_applicable("free length or rate is not written")


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
    nonconforming=TESTED % ("150 lbf", "396 lbf", "# <-"),
)
def spring_load_is_measured(
    stage: Choice = None, spring_seat_load_largest: Force = None, spring_load_table: Table = None, outer_spring_load_table: Table = None,
    spring_seat_load_measured: Force = None, spring_seat_load_spread: Force = None,
):
    """Springs of one part number differ by ten pounds and more; only a tester knows.

    Before the springs are there nothing can be measured, so that it is asked from the mock-up on.
    """
    if stage in (None, "planning", "ordering", "machining"):
        return not_applicable("the springs need not be there yet")
    if spring_seat_load_largest is None:
        return not_applicable("no loads are written")
    return require(any(value is not None for value in (
        spring_load_table, outer_spring_load_table, spring_seat_load_measured, spring_seat_load_spread)))


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
