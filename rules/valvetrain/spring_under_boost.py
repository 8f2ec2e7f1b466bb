"""Whether the springs hold boost and back pressure, and were looked at when boost was added."""

from buildlint.rulebook import *
from buildlint.tables.spring_loads import LEAST_SEAT_LOAD, seat_load_row

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
    says="Of {spring_seat_load_smallest} on the seat {lift_force} goes against {what}, which leaves {left} to shut the valve; keep {keep}.",
    fix="Add seat load until {wanted:up} is reached, or fit a lighter valve; then look at open load, rocker and pushrod again.",
    source="statics; Bhandari, Design of Machine Elements, Example 10.15 counts the same force; shares engineering judgement",
    points_at=("spring_seat_load_smallest",),
    conforming=(BOOSTED % ("20 psi", "175 lbf", ""), BOOSTED % ("10 psi", "140 lbf", ""), """
        build: {induction: natural, duty: stock}
        lifters: {kind: hydraulic_flat}
        exhaust:
          valve: {head_diameter: 1.500 in, stem_diameter: 0.3414 in}
          spring: {seat_load: 58 lbf}
        """, """
        build: {induction: natural, duty: street}
        lifters: {kind: hydraulic_roller}
        exhaust:
          valve: {head_diameter: 1.900 in, stem_diameter: 0.3134 in}
          lobe: {duration_at_050: 204 deg}
          spring: {seat_load: 88 lbf}
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
    boost_pressure: Pressure = None, pressure_lift_force_largest: Force = None, overrun_lift_force_largest: Force = None, spring_rate_smallest: Stiffness = None, block_bore: Length = None,
    lobe_duration_at_050: Angle = None, *,
    least=LEAST_SEAT_LOAD, share_left: Fraction = q("0.60", "fraction"),
):
    """Boost pushes the intake valve open and back pressure the exhaust valve; the spring has to hold both and still seat.

    Intake: boost on the seat's area, since the cylinder is emptied behind it. Exhaust: back pressure less the boost
    that fills the cylinder. Many shops add full boost to the intake only, some leave it out because the cylinder's
    pressure balances it; while the cylinder empties it does not, so it counts here. With boost the lifter's own least
    seat load has to be left over, and less than 0.6 of it is an error. Without boost that least load already holds
    the engine; only on the overrun, the port 10 psi above the cylinder, must 0.6 of it be left on the exhaust.
    """
    floor = least[seat_load_row(lifter_kind, duty, block_bore, lobe_duration_at_050)]
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
    left = Force(max(spring_seat_load_smallest - force, 0.0))
    verdict.telling(lift_force=Force(force), what=what, wanted=Force(wanted), left=left, keep=Force(wanted - force))
    if spring_rate_smallest and verdict.kind == "fail":
        verdict.telling(shim=Length((wanted - spring_seat_load_smallest) / spring_rate_smallest)).saying(
            fix="Add seat load until {wanted:up} is reached ({shim} of shim does it with this rate), or fit a lighter valve; then look at "
                "bind, open load, rocker and pushrod again.")
    return verdict


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
