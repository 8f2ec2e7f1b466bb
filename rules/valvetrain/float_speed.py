"""Whether the spring keeps the valve on its lobe as far as the limiter lets the engine turn."""

from buildlint.rulebook import *

TRAIN = """
build: {duty: %s, rev_limit: %s}  %s
rockers: {ratio: 1.7, equivalent_mass: 40 g}
pushrods: {mass: 60 g}
lifters: {kind: hydraulic_roller, mass: 110 g}
intake:
  lobe: {lift: 0.3529 in, duration_at_050: 231 deg, %s}
  valve: {mass: 100 g}
  retainer: {mass: 16 g}
  locks: {mass: 6 g}
  spring: {seat_load: %s, open_load: 400 lbf, mass: 105 g}
"""
FLANK, RAMP = "duration_at_200: 144.7 deg", "advertised_duration: 281 deg, advertised_check_height: 0.006 in"
UNWEIGHED = """
build: {duty: street, rev_limit: %s}  %s
rockers: {ratio: 1.7}
lifters: {kind: hydraulic_roller}
intake:
  lobe: {lift: 0.3529 in, advertised_duration: 281 deg, advertised_check_height: 0.006 in, duration_at_050: 231 deg}
  spring: {seat_load: 150 lbf, open_load: 400 lbf}
"""


@rule(
    scope="side",
    level="warning",
    due="ordering",
    says="The limiter at {rev_limit} is {value} of the {speed} at which a rigid train leaves its lobe; keep {limit}.",
    fix="Set the limiter to {speed_to_limit:down}, or fit springs with {more:up} more load shut and open, or take {lighter:up} off at the valve.",
    source="force balance: Rothbart, Cam Design Handbook, ch. 16; share of the rigid speed engineering judgement, no source",
    points_at=("rev_limit", "spring_seat_load", "spring_open_load"),
    conforming=(TRAIN % ("street_strip", "7100 rpm", "", FLANK, "150 lbf"), TRAIN % ("drag_race", "7300 rpm", "", FLANK, "150 lbf"),
                TRAIN % ("street_strip", "7300 rpm", "", RAMP, "150 lbf"), UNWEIGHED % ("6500 rpm", "")),
    nonconforming=(TRAIN % ("street_strip", "7300 rpm", "# <-", FLANK, "150 lbf"), TRAIN % ("drag_race", "7800 rpm", "# <-", FLANK, "150 lbf"),
                   TRAIN % ("street_strip", "7800 rpm", "# <-", RAMP, "150 lbf"), UNWEIGHED % ("7600 rpm", "# <-")),
)
def valve_follows_lobe_to_limiter(
    rev_limit: Rpm, float_speed: Rpm = None, float_speed_usual: Rpm = None, valve_side_mass: Mass = None, duty: Choice = None,
    lobe_table: Table = None, lobe_lift: Length = None, lobe_duration_at_050: Angle = None, lobe_duration_at_200: Angle = None,
    lobe_fullness: Ratio = None, rocker_ratio: Ratio = None, spring_seat_load: Force = None, spring_open_load: Force = None, *,
    warning_above: Fraction = q("0.85", "fraction"), drag_note_above: Fraction = q("0.85", "fraction"),
    drag_warning_above: Fraction = q("0.92", "fraction"), unweighed_note_above: Fraction = q("0.92", "fraction"),
):
    """A lifter that leaves its lobe lands on it, and the valve lands on the piston, on its seat, or nowhere.

    The speed is that of a train without any give; pushrod, rocker and spring do give, so a real one lets go earlier, and
    0.85 of it is what is asked. Cam designers are said to aim a few hundred rpm above the limiter; drag engines run
    closer and change their springs, and so is asked of a lobe known only by its ramp, whose nose comes out too sharp by
    a tenth. Where parts were not weighed their usual masses stand in, and the answer is at most a note. Each side is judged:
    exhaust valves are often the first.
    """
    speed = float_speed_usual if float_speed is None else float_speed
    if not speed:
        shape = () if lobe_table is not None or lobe_fullness is not None else (
            ("lobe_lift", lobe_lift), ("lobe_duration_at_050", lobe_duration_at_050), ("lobe_duration_at_200", lobe_duration_at_200))
        absent = [word for word, value in (*shape, ("rocker_ratio", rocker_ratio), ("spring_seat_load", spring_seat_load),
                                           ("spring_open_load", spring_open_load)) if value is None]
        return lacking(*absent) if absent else not_applicable("no smooth lobe has these durations")
    share = Fraction(rev_limit / speed, "%")
    asked = warning_above
    if float_speed is None:
        asked = unweighed_note_above
        verdict = at_most(share, note=asked)
    elif duty == "drag_race" or (lobe_table is None and lobe_duration_at_200 is None):
        asked = drag_warning_above if share > drag_warning_above else drag_note_above
        verdict = at_most(share, warning=drag_warning_above, note=drag_note_above)
    else:
        verdict = at_most(share, warning=asked)
    more = (share / asked) ** 2 - 1
    verdict.telling(speed=Rpm(speed, "rpm"), speed_to_limit=Rpm(asked * speed, "rpm"), more=Fraction(more, "%"))
    if float_speed is None:
        return verdict.saying(
            "With the usual masses a rigid train leaves its lobe at about {speed}, and the limiter at {rev_limit} is {value} of it.",
            "Weigh valve, retainer, locks, springs, rocker, pushrod and lifter and write their masses; or set the limiter to {speed_to_limit:down}.")
    mass = 0.0 if valve_side_mass is None else valve_side_mass
    return verdict.telling(lighter=Mass(mass * more / max(1 + more, 1e-9)))
