"""How much lift the pushrod's give takes, and whether it rings sideways."""

from buildlint.rulebook import *

LONG = """
rockers: {ratio: 1.7}
pushrods: {outside_diameter: %s, wall: %s, length: %s}  %s
intake:
  spring: {open_load: %s}
"""


@rule(
    scope="side",
    level="warning",
    due="ordering",
    says="Under full load the pushrod gives so much that {pushrod_lift_lost_largest} of valve lift is lost; {limit} is the most "
         "that is taken without a second look.",
    fix="Take a larger diameter or a thicker wall. Compare lift with a checking spring and with the real one: the "
        "difference is what pushrod, rocker and stud give together.",
    source="elasticity; limits engineering judgement, no source",
    points_at=("pushrod_wall", "pushrod_outside_diameter"),
    conforming=(LONG % ("5/16 in", "0.080 in", "7.400 in", "", "420 lbf"), LONG % ("3/8 in", "0.135 in", "8.200 in", "", "650 lbf")),
    nonconforming=(LONG % ("5/16 in", "0.080 in", "9.800 in", "# <-", "500 lbf"),
                   LONG % ("5/16 in", "0.080 in", "9.800 in", "# <-", "780 lbf")),
)
def pushrod_stays_stiff(
    pushrod_lift_lost_largest: Length, *, note_above: Length = q("0.008 in"), warning_above: Length = q("0.012 in"),
):
    """What the rod gives on the way up it returns as a bounce on the way down, and the valve lands off the ramp."""
    return at_most(pushrod_lift_lost_largest, warning=warning_above, note=note_above)


RING = """
build: {rev_limit: %s}
pushrods: {outside_diameter: 5/16 in, wall: 0.080 in, length: %s}  %s
"""


@rule(
    scope="side",
    level="note",
    due="ordering",
    says="The pushrod rings sideways at {pushrod_bending_frequency_smallest}, low for an engine that turns above {asked_above}.",
    fix="Take a larger diameter: the frequency rises with it, hardly with the wall.",
    source="Euler-Bernoulli beam; limit engineering judgement, no source",
    points_at=("pushrod_outside_diameter", "pushrod_length"),
    conforming=(RING % ("7500 rpm", "7.400 in", ""), RING % ("6500 rpm", "8.400 in", "")),
    nonconforming=RING % ("7500 rpm", "8.400 in", "# <-"),
)
def pushrod_bending_mode_is_high(
    rev_limit: Rpm, pushrod_bending_frequency_smallest: Frequency = None, *,
    note_below: Frequency = q("450 Hz"), asked_above: Rpm = q("7000 rpm"),
):
    """A long thin rod whips between its ends and takes the valve's motion with it.

    Only asked of engines that turn fast; a larger body is the cure.
    """
    if rev_limit <= asked_above * (1 + 1e-9):
        return not_applicable("turns too slowly to matter")
    if pushrod_bending_frequency_smallest is None:
        return lacking("pushrod_bending_frequency_smallest")
    return at_least(pushrod_bending_frequency_smallest, note=note_below)
