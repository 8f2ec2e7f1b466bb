"""Whether loads, rate, heights and free length of a spring agree."""

from buildlint.rulebook import *
from buildlint.tables.spring_loads import SPRING_CAUTION

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
            verdict.comparing(Force(written), Force(computed))
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
        verdict.comparing(Stiffness(spring_rate_written), Stiffness(spring_rate_computed))
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
        verdict.comparing(length, Length(wanted))
        if verdict.kind == "fail":
            return verdict.telling(which=which).at(f"{which}_spring_free_length")
    return passes() if asked else not_applicable("free length or rate is not written")
