"""Whether the spring's loads suit lifters and use: strong enough to shut, weak enough to live, new and settled."""

from buildlint.rulebook import *
from buildlint.tables.spring_loads import LEAST_SEAT_LOAD, RACING, seat_load_row

SEAT = """
build: {duty: %s}
lifters: {kind: %s}
intake:
  spring: {rate: 400 lbf/in, seat_load: %s}  %s
"""


@rule(
    scope="side",
    level="warning",
    due="ordering",
    says="{value} on the seat is {which} for {row} ({low:up} to {high:down} is usual).",
    fix="{cure}",
    source="flat tappets: trade press ceilings of 135 and 160 lbf; the rest common practice, no source",
    points_at=("spring_seat_load_smallest",),
    conforming=(SEAT % ("street", "hydraulic_roller", "150 lbf", ""), SEAT % ("stock", "hydraulic_flat", "58 lbf", ""),
                SEAT % ("street", "hydraulic_flat", "85 lbf", ""), SEAT % ("drag_race", "solid_roller", "325 lbf", ""),
                SEAT % ("street", "hydraulic_roller", "180 lbf", ""), "block: {bore: 81.5 mm}\n" + (SEAT % ("street", "solid_flat", "260 N", "")).lstrip(),
                SEAT % ("street", "hydraulic_roller", "88 lbf", "") + "  lobe: {duration_at_050: 204 deg}\n"),
    nonconforming=(SEAT % ("street", "hydraulic_flat", "145 lbf", "# <-"), SEAT % ("street", "hydraulic_roller", "95 lbf", "# <-"),
                   SEAT % ("street", "hydraulic_roller", "215 lbf", "# <-"), SEAT % ("oval_race", "solid_roller", "150 lbf", "# <-"), """
        build: {duty: street}
        lifters: {kind: hydraulic_roller}
        intake:
          valve: {head_diameter: 2.300 in}
          spring: {seat_load: 110 lbf}  # <-
        """),
)
def seat_load_suits_lifter(
    spring_seat_load_smallest: Force, spring_seat_load_largest: Force, lifter_kind: Choice, duty: Choice = None, valve_head_diameter: Length = None, valve_mass: Mass = None,
    spring_rate_smallest: Stiffness = None, block_bore: Length = None, lobe_duration_at_050: Angle = None, *,
    warning_below=LEAST_SEAT_LOAD,
    warning_above={"hydraulic_flat": q("130 lbf"), "solid_flat": q("150 lbf"), "hydraulic_roller": q("210 lbf"),
                   "solid_roller": q("260 lbf"), "solid_roller_race": q("400 lbf"), "small_flat": q("130 lbf"),
                   "mild_hydraulic_roller": q("210 lbf")},
    note_above={"hydraulic_roller": q("175 lbf"), "mild_hydraulic_roller": q("175 lbf")},
    more_for_heavy_valves: Force = q("10 lbf"), large_head: Length = q("2.25 in"), heavy_valve: Mass = q("130 g", "mass"),
):
    """Too little on the seat and the valve bounces off it; too much and lobe, lifter and seat wear for nothing.

    Rows by lifter and use; a large or heavy valve wants ten pounds more. The stock row has only a floor, since engines
    are sold with what suits them, and so has a roller cam no longer than stock ones. For hydraulic rollers makers' ceilings differ most, so that theirs begins as a note.
    Seat load and open load belong together: a spring chosen by one of them alone can miss on the other.
    """
    row = seat_load_row(lifter_kind, duty, block_bore, lobe_duration_at_050)
    least = warning_below[row]
    heavy = (valve_head_diameter is not None and valve_head_diameter > large_head) or (
        valve_mass is not None and valve_mass > heavy_valve)
    least = Force(least + more_for_heavy_valves, least.unit) if heavy and row != "stock" else least
    most, mild = warning_above.get(row), note_above.get(row)
    low = spring_seat_load_smallest < least
    load = spring_seat_load_smallest if low else spring_seat_load_largest
    verdict = within(load, warning=(least, most), note=(least, mild) if mild is not None else None).at(
        "spring_seat_load_smallest" if low else "spring_seat_load_largest")
    cure = "Choose a spring with more seat load, or a lower installed height" if low else \
        "Choose a softer spring, or raise the installed height"
    target = least if low else (mild or most)
    named = "a stock engine" if row == "stock" else f"{lifter_kind.replace('_', ' ')} lifters"
    telling = {"row": f"{named} in racing" if row.endswith("_race") else f"{named} in a small engine" if row == "small_flat" else f"{named} on mild lobes" if row.startswith("mild") else named,
               "which": "little" if low else "much", "low": Force(least),
               "high": Force(most) if most is not None else "what it was sold with"}
    if spring_rate_smallest and target is not None:
        telling["shim"] = Length(abs(target - load) / spring_rate_smallest)
        move = "of shim brings it to" if low else "more height brings it to"
        return verdict.telling(**telling, target=Force(target)).saying(
            fix=cure + ": {shim:up} " + move + " {target}. Look at bind and open load again.")
    return verdict.telling(**telling, cure=cure + ", and look at bind and open load again.")


OPEN = """
build: {duty: %s}
lifters: {kind: %s}
intake:
  spring: {open_load: %s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="{spring_open_load_largest} open is more than {limit} that {lifters} lifters stand.",
    fix="Choose a spring under {goal} open, lighten the valve side so that less is needed, or change to rollers on a steel core.",
    source="flat tappets: trade press figures of 350 and 385 lbf; the rest common practice, no source",
    points_at=("spring_open_load_largest",),
    conforming=(OPEN % ("street", "hydraulic_flat", "290 lbf", ""), OPEN % ("street", "solid_flat", "350 lbf", ""),
                OPEN % ("street", "hydraulic_roller", "460 lbf", ""), OPEN % ("drag_race", "solid_roller", "850 lbf", ""), """
        lifters: {kind: hydraulic_roller, maker_load_limit: 550 lbf}
        intake:
          spring: {open_load: 520 lbf}
        """),
    nonconforming=(OPEN % ("street", "solid_flat", "396 lbf", "# <-"), OPEN % ("street", "hydraulic_flat", "340 lbf", "# <-"),
                   OPEN % ("street", "hydraulic_roller", "480 lbf", "# <-"), OPEN % ("street", "solid_roller", "700 lbf", "# <-"), """
        lifters: {kind: hydraulic_roller, maker_load_limit: 400 lbf}
        intake:
          spring: {open_load: 440 lbf}  # <-
        """),
)
def open_load_suits_lifter(
    spring_open_load_largest: Force, lifter_kind: Choice, duty: Choice = None, lifter_maker_load_limit: Force = None, *,
    error_above={"hydraulic_flat": q("350 lbf"), "solid_flat": q("385 lbf")},
    warning_above={"hydraulic_flat": q("330 lbf"), "solid_flat": q("360 lbf"), "hydraulic_roller": q("475 lbf"),
                   "solid_roller": q("650 lbf")},
):
    """A flat tappet slides, and under too much load the oil film breaks and the lobe is gone in minutes.

    Hydraulic rollers leak down and let the valve down early; their makers print limits from 350 to over 500 lbf, so
    that below 475 the rocker speaks first and the maker's own figure, where written, wins. Solid rollers on the
    street wear their needles; in racing they have no ceiling here, the core of the cam has.
    """
    named = lifter_kind.replace("_", " ")
    if lifter_maker_load_limit is not None:
        verdict = at_most(spring_open_load_largest, lifter_maker_load_limit)
        return (verdict if lifter_kind in error_above else verdict.within_level("warning")).telling(lifters=named)
    if lifter_kind == "solid_roller" and duty in RACING:
        return not_applicable("solid rollers in racing: the core of the cam sets the limit")
    return at_most(spring_open_load_largest, error=error_above.get(lifter_kind), warning=warning_above[lifter_kind]).telling(lifters=named)


SETTLED = """
build: {duty: %s}
lifters: {kind: solid_roller}
intake:
  spring: {condition: new, seat_load: %s}  %s
"""


@rule(
    scope="side",
    level="note",
    due="ordering",
    says="New springs lose about {loss} in their first heat; {spring_seat_load_smallest} on the seat becomes {settled}, and {trouble}.",
    fix="Order {wanted:up} or more on the seat, or plan to test and shim the springs after the first heat.",
    source="common practice, no source",
    points_at=("spring_seat_load_smallest",),
    conforming=(SETTLED % ("drag_race", "325 lbf", ""), SETTLED % ("street", "155 lbf", ""), """
        build: {duty: street_strip}
        lifters: {kind: hydraulic_roller}
        intake:
          lobe: {duration_at_050: 208 deg}
          spring: {condition: new, seat_load: 108 lbf}
        """),
    nonconforming=SETTLED % ("drag_race", "185 lbf", "# <-"),
)
def springs_suit_after_settling(
    spring_seat_load_smallest: Force, lifter_kind: Choice, duty: Choice = None, spring_condition: Choice = None,
    pressure_lift_force_largest: Force = None, float_speed_smallest: Rpm = None, rev_limit: Rpm = None, block_bore: Length = None,
    lobe_duration_at_050: Angle = None, *,
    loss: Fraction = q("7 %", "fraction"), least=LEAST_SEAT_LOAD, share_left: Fraction = q("0.60", "fraction"),
    share_of_float: Fraction = q("0.85", "fraction"), drag_share_of_float: Fraction = q("0.92", "fraction"),
):
    """Race springs settle by five to eight percent when they first get hot, and a build that just passes no longer does.

    Only where that changes an answer: the least seat load, what is left against boost, or the speed at which the
    lifter leaves the lobe. Asked of racing and of street-and-strip engines with new springs.
    """
    if spring_condition not in (None, "new") or duty not in (*RACING, "street_strip"):
        return not_applicable("no new springs in racing")
    floor, settled = least[seat_load_row(lifter_kind, duty, block_bore, lobe_duration_at_050)], spring_seat_load_smallest * (1 - loss)
    trouble, wanted = "", floor
    if spring_seat_load_smallest >= floor > settled:
        trouble = "that is less than the lifters want"
    if pressure_lift_force_largest is not None and spring_seat_load_smallest - pressure_lift_force_largest >= share_left * floor > settled - pressure_lift_force_largest:
        trouble, wanted = "that no longer holds the pressure", max(wanted, share_left * floor + pressure_lift_force_largest)
    if float_speed_smallest is not None and rev_limit is not None:
        share = drag_share_of_float if duty == "drag_race" else share_of_float
        if rev_limit <= share * float_speed_smallest and rev_limit > share * float_speed_smallest * (1 - loss) ** 0.5:
            trouble = "the limiter comes too near the speed at which the valves float"
            wanted = max(wanted, spring_seat_load_smallest * (rev_limit / (share * float_speed_smallest)) ** 2)
    return require(not trouble).telling(settled=Force(settled), trouble=trouble, wanted=Force(wanted / (1 - loss)))
