"""Locks: whether they fit retainer and groove, and suit what the engine is for."""

from buildlint.rulebook import *
from buildlint.tables.spring_loads import LONG_RUNNING

LOCKS = """
intake:
  retainer: {angle: %s, family: %s}
  locks: {angle: 7 deg, family: standard}  %s
"""


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="The locks are made for {lock_angle}, the retainer for {retainer_angle}.",
    fix="Order retainers and locks as one matched set.",
    source="common practice, no source",
    points_at=("lock_angle", "lock_family"),
    conforming=LOCKS % ("7 deg", "standard", ""),
    nonconforming=(LOCKS % ("10 deg", "standard", "# <-"), LOCKS % ("7 deg", "large", "# <-")),
)
def locks_match_the_retainer(
    lock_angle: Angle, retainer_angle: Angle, lock_family: Choice = None, retainer_family: Choice = None, *,
    tolerance: Angle = q("0.1 deg"),
):
    """A lock that does not fill its taper holds by a line; the valve drops, and the engine with it.

    The same angle is not enough: large locks of 7 degrees do not fit a standard retainer of 7 degrees.
    """
    verdict = matches(lock_angle, retainer_angle, tolerance=tolerance)
    if verdict.kind == "pass" and lock_family is not None and retainer_family is not None:
        return matches(lock_family, retainer_family).at("lock_family").saying(
            "The locks are of the {lock_family} size and the retainer of the {retainer_family}, though both have {lock_angle}.")
    return verdict


DUTY = """
build: {duty: %s}
intake:
  locks: {angle: %s}  %s
"""


@rule(
    scope="side",
    level="note",
    due="ordering",
    says="Locks of {lock_angle} let go more easily than narrow ones, and {trouble}.",
    fix="Use 7 or 8 degree locks with their retainers, or keep well away from float.",
    source="taper behavior: trade press; common practice, no source",
    when={"lock_angle": given},
    conforming=(DUTY % ("marine", "7 deg", ""), DUTY % ("drag_race", "10 deg", "")),
    nonconforming=DUTY % ("oval_race", "10 deg", "# <-"),
)
def lock_angle_suits_duty(
    lock_angle: Angle, duty: Choice = None, float_speed_smallest: Rpm = None, rev_limit: Rpm = None, *,
    narrow_to: Angle = q("8.5 deg"), share_of_float: Fraction = q("0.95", "fraction"),
):
    """A narrow taper wedges harder: 7 degrees clamp the stem with 8.1 times the spring's load, 10 degrees with 5.7.

    Wide tapers are lighter to take apart and popular in drag racing; through long running, or where valves float, they
    are not trusted as far.
    """
    if lock_angle <= narrow_to:
        return passes()
    if duty in LONG_RUNNING:
        return require(False).telling(trouble="this engine runs long at full load")
    if float_speed_smallest is not None and rev_limit is not None and rev_limit > share_of_float * float_speed_smallest:
        return require(False).telling(trouble="the limiter lies close to the speed at which the valves float")
    return passes()


HALVES = """
intake:
  locks: {groove: %s, halves_gap: %s}  %s
"""


@rule(
    scope="side",
    level="reminder",
    due="assembly",
    says="Look at the halves of every pair of locks: seated, they must not touch each other.",
    fix="Keep {least:up} to {most:down} on each side; halves that touch do not clamp the stem.",
    source="common practice, no source",
    points_at=("lock_halves_gap", "lock_angle", "lock_groove"),
    conforming=("intake: {locks: {angle: 7 deg}}", "intake: {locks: {groove: single_square}}"),
    nonconforming=(HALVES % ("single_square", "0.004 in", "# <-"), HALVES % ("single_square", "0.045 in", "# <-")),
)
def lock_halves_keep_a_gap(
    lock_halves_gap: Length = None, lock_groove: Choice = None, lock_angle: Angle = None, *,
    least: Length = q("0.010 in"), most: Length = q("0.030 in"),
):
    """Locks whose halves meet grip each other and not the valve.

    Locks for several grooves are an exception: their halves meet on purpose, so that the valve can turn.
    """
    if lock_groove == "multi_groove":
        return not_applicable("halves for several grooves meet on purpose")
    if lock_halves_gap is not None:
        return within(lock_halves_gap, warning=(least, most)).at("lock_halves_gap").saying(
            "The halves of the locks stand {lock_halves_gap} apart; {least:up} to {most:down} is right.")
    if lock_groove is None and lock_angle is None:
        return not_applicable("no locks are written")
    return review()


GROOVE = """
intake:
  valve: {groove: %s}
  locks: {groove: single_square}  %s
"""


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="The valve has a {valve_groove} groove, the locks are made for {lock_groove}.",
    fix="Order locks for the valve's groove.",
    source="common practice, no source",
    points_at=("lock_groove", "valve_groove"),
    conforming=GROOVE % ("single_square", ""),
    nonconforming=(GROOVE % ("single_round", "# <-"), GROOVE % ("multi_groove", "# <-"), GROOVE % ("metric_square", "# <-")),
)
def locks_match_valve_groove(valve_groove: Choice, lock_groove: Choice):
    """A bead that does not fill its groove shears off, and the valve falls into the cylinder."""
    return matches(lock_groove, valve_groove)


BEADS = """
intake:
  valve: {groove: %s}  %s
  spring: {open_load: %s}
"""


@rule(
    scope="side",
    level="note",
    due="ordering",
    says="Valves with several grooves are held loosely so that they turn; under {spring_open_load_largest} open a single groove is preferred.",
    fix="Order valves and locks with a single groove for springs above {limit} open.",
    source="common practice, no source",
    points_at=("valve_groove",),
    conforming=(BEADS % ("multi_groove", "", "300 lbf"), BEADS % ("single_square", "", "850 lbf")),
    nonconforming=BEADS % ("multi_groove", "# <-", "650 lbf"),
)
def groove_type_suits_load(valve_groove: Choice, spring_open_load_largest: Force, *, several_to: Force = q("600 lbf")):
    """Several small beads are made for a valve that turns in its locks, not for one that is clamped and thrown about."""
    if valve_groove != "multi_groove":
        return passes()
    return at_most(spring_open_load_largest, note=several_to)
