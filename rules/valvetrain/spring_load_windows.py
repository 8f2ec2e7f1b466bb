"""Whether the spring's loads suit lifters, use and pressure: strong enough to shut, weak enough to live."""

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
    says="{value} on the seat is {which} for {row} ({low} to {high} is usual).",
    fix="{cure}",
    source="flat tappets: trade press ceilings of 135 and 160 lbf; the rest common practice, no source",
    points_at=("spring_seat_load_smallest",),
    conforming=(SEAT % ("street", "hydraulic_roller", "150 lbf", ""), SEAT % ("stock", "hydraulic_flat", "58 lbf", ""),
                SEAT % ("street", "hydraulic_flat", "85 lbf", ""), SEAT % ("drag_race", "solid_roller", "325 lbf", ""),
                SEAT % ("street", "hydraulic_roller", "180 lbf", "")),
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
    spring_rate_smallest: Stiffness = None, *,
    warning_below=LEAST_SEAT_LOAD,
    warning_above={"hydraulic_flat": q("130 lbf"), "solid_flat": q("150 lbf"), "hydraulic_roller": q("210 lbf"),
                   "solid_roller": q("260 lbf"), "solid_roller_race": q("400 lbf")},
    note_above={"hydraulic_roller": q("175 lbf")},
    more_for_heavy_valves: Force = q("10 lbf"), large_head: Length = q("2.25 in"), heavy_valve: Mass = q("130 g", "mass"),
):
    """Too little on the seat and the valve bounces off it; too much and lobe, lifter and seat wear for nothing.

    Rows by lifter and use; a large or heavy valve wants ten pounds more. The stock row has only a floor, since engines
    are sold with what suits them. For hydraulic rollers makers' ceilings differ most, so that theirs begins as a note.
    Seat load and open load belong together: a spring chosen by one of them alone can miss on the other.
    """
    row = seat_load_row(lifter_kind, duty)
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
    telling = {"row": f"{named} in racing" if row.endswith("_race") else named,
               "which": "little" if low else "much", "low": Force(least),
               "high": Force(most) if most is not None else "what it was sold with"}
    if spring_rate_smallest and target is not None:
        telling["shim"] = Length(abs(target - load) / spring_rate_smallest)
        move = "of shim brings it to" if low else "more height brings it to"
        return verdict.telling(**telling, target=Force(target)).saying(
            fix=cure + ": {shim} " + move + " {target}. Look at bind and open load again.")
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
    fix="Choose a spring under {limit} open, lighten the valve side so that less is needed, or change to rollers on a steel core.",
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


BOOSTED = """
build: {induction: supercharged}
boost: {pressure: %s}
lifters: {kind: hydraulic_roller}
intake:
  valve: {stem_diameter: 0.3134 in}
  seat: {contact_diameter: 2.125 in}
  spring: {seat_load: %s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="{spring_seat_load_smallest} on the seat does not hold {lift_force} of {what} on the shut valve; {wanted} is wanted.",
    fix="Add seat load until {wanted} is reached{shim_text}, or fit a lighter valve; then look at open load, rocker and pushrod again.",
    source="statics; Bhandari, Design of Machine Elements, Example 10.15 counts the same force; shares engineering judgement",
    points_at=("spring_seat_load_smallest",),
    conforming=(BOOSTED % ("20 psi", "175 lbf", ""), BOOSTED % ("10 psi", "140 lbf", ""), """
        build: {induction: natural, duty: stock}
        lifters: {kind: hydraulic_flat}
        exhaust:
          valve: {head_diameter: 1.500 in, stem_diameter: 0.3414 in}
          spring: {seat_load: 58 lbf}
        """),
    nonconforming=(BOOSTED % ("20 psi", "140 lbf", "# <-"), BOOSTED % ("20 psi", "120 lbf", "# <-"), """
        build: {induction: turbocharged}
        boost: {pressure: 20 psi, exhaust_pressure: 45 psi}
        lifters: {kind: hydraulic_roller}
        exhaust:
          valve: {stem_diameter: 0.3134 in}
          seat: {contact_diameter: 1.55 in}
          spring: {seat_load: 130 lbf}  # <-
        """, """
        build: {induction: natural, duty: stock}
        lifters: {kind: hydraulic_flat}
        exhaust:
          valve: {head_diameter: 1.900 in, stem_diameter: 0.3414 in}
          spring: {seat_load: 50 lbf}  # <-
        """),
)
def seat_load_holds_pressure(
    spring_seat_load_smallest: Force, lifter_kind: Choice, side_name: Choice, duty: Choice = None, induction: Choice = None,
    boost_pressure: Pressure = None, pressure_lift_force_largest: Force = None, overrun_lift_force_largest: Force = None, spring_rate_smallest: Stiffness = None, *,
    least=LEAST_SEAT_LOAD, share_left: Fraction = q("0.60", "fraction"),
):
    """Boost pushes the intake valve open and back pressure the exhaust valve; the spring has to hold both and still seat.

    Intake: boost on the seat's area, since the cylinder is emptied behind it. Exhaust: back pressure less the boost
    that fills the cylinder. Many shops add full boost to the intake only, some leave it out because the cylinder's
    pressure balances it; while the cylinder empties it does not, so it counts here. With boost the lifter's own least
    seat load has to be left over, and less than 0.6 of it is an error. Without boost that least load already holds
    the engine; only on the overrun, the port 10 psi above the cylinder, must 0.6 of it be left on the exhaust.
    """
    floor = least[seat_load_row(lifter_kind, duty)]
    boosted = (boost_pressure is not None and boost_pressure > 0) or induction in ("supercharged", "turbocharged")
    if boosted:
        if pressure_lift_force_largest is None:
            return lacking("pressure_lift_force_largest")
        force, what = pressure_lift_force_largest, "boost" if side_name == "intake" else "exhaust back pressure"
        verdict = at_least(spring_seat_load_smallest, error=Force(share_left * floor + force), warning=Force(floor + force))
        wanted = floor + force
    elif side_name == "intake":
        return passes()
    elif overrun_lift_force_largest is None:
        return passes() if spring_seat_load_smallest >= floor else lacking("overrun_lift_force_largest")
    else:
        force, what = overrun_lift_force_largest, "port pressure on the overrun"
        wanted = share_left * floor + force
        verdict = at_least(spring_seat_load_smallest, warning=Force(wanted))
    verdict.telling(lift_force=Force(force), what=what, wanted=Force(wanted), shim_text="")
    if spring_rate_smallest and verdict.kind == "fail":
        verdict.telling(shim=Length((wanted - spring_seat_load_smallest) / spring_rate_smallest)).saying(
            fix="Add seat load until {wanted} is reached ({shim} of shim does it with this rate), or fit a lighter valve; then look at "
                "bind, open load, rocker and pushrod again.")
    return verdict


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
    fix="Order that much more, or plan to test and shim the springs after the first heat.",
    source="common practice, no source",
    points_at=("spring_seat_load_smallest",),
    conforming=(SETTLED % ("drag_race", "325 lbf", ""), SETTLED % ("street", "155 lbf", "")),
    nonconforming=SETTLED % ("drag_race", "185 lbf", "# <-"),
)
def springs_suit_after_settling(
    spring_seat_load_smallest: Force, lifter_kind: Choice, duty: Choice = None, spring_condition: Choice = None,
    pressure_lift_force_largest: Force = None, float_speed_smallest: Rpm = None, rev_limit: Rpm = None, *,
    loss: Fraction = q("7 %", "fraction"), least=LEAST_SEAT_LOAD, share_left: Fraction = q("0.60", "fraction"),
    share_of_float: Fraction = q("0.85", "fraction"), drag_share_of_float: Fraction = q("0.92", "fraction"),
):
    """Race springs settle by five to eight percent when they first get hot, and a build that just passes no longer does.

    Only where that changes an answer: the least seat load, what is left against boost, or the speed at which the
    lifter leaves the lobe. Asked of racing and of street-and-strip engines with new springs.
    """
    if spring_condition not in (None, "new") or duty not in (*RACING, "street_strip"):
        return not_applicable("no new springs in racing")
    floor, settled = least[seat_load_row(lifter_kind, duty)], spring_seat_load_smallest * (1 - loss)
    trouble = ""
    if spring_seat_load_smallest >= floor > settled:
        trouble = "that is less than the lifters want"
    if pressure_lift_force_largest is not None and spring_seat_load_smallest - pressure_lift_force_largest >= share_left * floor > settled - pressure_lift_force_largest:
        trouble = "that no longer holds the pressure"
    if float_speed_smallest is not None and rev_limit is not None:
        share = drag_share_of_float if duty == "drag_race" else share_of_float
        if rev_limit <= share * float_speed_smallest and rev_limit > share * float_speed_smallest * (1 - loss) ** 0.5:
            trouble = "the limiter comes too near the speed at which the valves float"
    return require(not trouble).telling(settled=Force(settled), trouble=trouble)


REVIEWED = """
boost: {added_on: 2026-02-14}
intake:
  seal: {kind: positive}
  spring: {chosen_on: %s}  %s
exhaust:
  valve: {material: austenitic_23_8n}
  seat: {width: 0.080 in}
  seal: {kind: positive}
  spring: {chosen_on: 2026-02-20}
pushrods: {wall: 0.080 in}
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="Boost was added on {boost_added_on}, but the {side} springs were chosen on {chosen} and have not been looked at since.",
    fix="Look at springs, pushrods, exhaust alloy, seat width and stem seals with the boost, and write the new date.",
    source="common practice, no source",
    when={"boost_added_on": given},
    points_at=("intake_spring_chosen_on", "exhaust_spring_chosen_on"),
    conforming=REVIEWED % ("2026-02-20", ""),
    nonconforming=REVIEWED % ("2026-01-10", "# <-"),
)
def boosted_springs_are_reviewed(
    boost_added_on: Date, intake_spring_chosen_on: Date = None, exhaust_spring_chosen_on: Date = None,
    pushrod_wall: Length = None, exhaust_valve_material: Choice = None, exhaust_seat_width: Length = None,
    intake_seal_kind: Choice = None, exhaust_seal_kind: Choice = None,
):
    """Springs chosen for an engine without boost do not shut its valves with it.

    Boost changes the seat load wanted, the push that opens the exhaust valve, the heat in it and the way out of it, and
    what blows through the guides. Asked where boost came later than the build was begun.
    """
    missing = [word for word, value in (
        ("intake_spring_chosen_on", intake_spring_chosen_on), ("exhaust_spring_chosen_on", exhaust_spring_chosen_on),
        ("pushrod_wall", pushrod_wall), ("exhaust_valve_material", exhaust_valve_material), ("exhaust_seat_width", exhaust_seat_width),
        ("intake_seal_kind", intake_seal_kind), ("exhaust_seal_kind", exhaust_seal_kind)) if value is None]
    for side, chosen in (("intake", intake_spring_chosen_on), ("exhaust", exhaust_spring_chosen_on)):
        if chosen is not None and chosen < boost_added_on:
            return require(False).telling(side=side, chosen=chosen.isoformat()).at(f"{side}_spring_chosen_on")
    return lacking(*missing) if missing else passes()
