"""What keeps roller lifters straight on their lobes, and what their wheels carry."""

from buildlint.rulebook import *

ROLLERS = ("hydraulic_roller", "solid_roller")

TURNING = """
lifters: {kind: hydraulic_roller, kept_from_turning_by: %s%s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="{trouble}",
    fix="Fit lifters with link bars, or the trays, dog bones or keyed bushings the block was made for; one of them, not two.",
    source="common practice, no source",
    when={"lifter_kind": ROLLERS},
    points_at=("lifter_kept_from_turning_by", "lifter_guides_condition"),
    conforming=(TURNING % ("link_bar", "", ""), TURNING % ("guide_tray", ", guides_condition: new", "")),
    nonconforming=(TURNING % ("none", "", "# <-"), TURNING % ("guide_tray", ", guides_condition: reused", "# <-")),
)
def roller_lifters_cannot_turn(lifter_kept_from_turning_by: Choice, lifter_guides_condition: Choice = None):
    """A roller lifter that turns in its bore runs its wheel across the lobe and takes both with it.

    Production guides hold it to about two degrees. Plastic trays that have been through heat cycles grow brittle; new
    ones cost little.
    """
    if lifter_kept_from_turning_by == "none":
        return require(False).telling(trouble="Nothing keeps the roller lifters from turning in their bores.")
    if lifter_kept_from_turning_by == "guide_tray" and lifter_guides_condition in ("reused", "reused_in_place"):
        return require(False, "note").telling(trouble="The guide trays are used ones.").saying(
            fix="Fit new trays: heat makes the old ones brittle.")
    return passes()


BAR = """
lifters: {kind: solid_roller, kept_from_turning_by: link_bar, bar_gap: %s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="mock_up",
    says="The link bar comes within {value} of block, cover or pushrod; keep {limit}.",
    fix="Turn the pair round, relieve the block by {cut}, or take lifters with another bar. A smaller base circle lowers the bar by "
        "half of what it is smaller.",
    source="common practice, no source",
    when={"lifter_kind": ROLLERS, "lifter_kept_from_turning_by": ("link_bar",)},
    points_at=("lifter_bar_gap",),
    conforming=(BAR % ("0.060 in", ""), BAR % ("0.040 in", "")),
    nonconforming=(BAR % ("0.035 in", "# <-"), BAR % ("0.020 in", "# <-")),
)
def link_bar_clears_the_block(
    lifter_bar_gap: Length, *, warning_below: Length = q("0.040 in"), error_below: Length = q("0.030 in"),
):
    """A bar that touches holds one lifter up while its neighbor rises, and breaks.

    The least gap counts, on the base circle as well as at full lift, both lifters of the pair in turn.
    """
    verdict = at_least(lifter_bar_gap, warning=warning_below, error=error_below)
    return verdict.telling(cut=Length(warning_below - lifter_bar_gap))


@rule(
    scope="side",
    level="reminder",
    due="assembly",
    says="Look at the link bars: their side is {side}, and each pair swings free through a full turn of the cam.",
    fix="Turn the cam once by hand with the pushrods out and move every pair; write bar_side, then sign for it.",
    source="common practice, no source",
    when={"lifter_kind": ROLLERS, "lifter_kept_from_turning_by": ("link_bar",)},
    points_at=("lifter_bar_side", "lifter_kept_from_turning_by"),
    conforming="lifters: {kind: solid_roller, kept_from_turning_by: link_bar, bar_side: valley}",
)
def link_bar_side_is_recorded(lifter_kept_from_turning_by: Choice, lifter_bar_side: Choice = None):
    """Bars toward the valley in one block foul the wall in another, and pairs get turned round at every service.

    What is written tells the next hand how they came out.
    """
    return review().telling(side="not written" if lifter_bar_side is None else lifter_bar_side)


AXLE = """
build: {duty: %s}
lifters: {kind: solid_roller, wheel_bearing: %s}
exhaust:
  spring: {open_load: %s}  %s
"""


@rule(
    scope="side",
    level="note",
    due="ordering",
    says="{spring_open_load} open is a lot for wheels on needles in {duty} use; keep {limit}.",
    fix="Take lifters whose wheels run on bushings with pressure oil, or plan to look at the wheels every season.",
    source="common practice, no source",
    when={"lifter_kind": ROLLERS, "lifter_wheel_bearing": given, "duty": ("stock", "street", "street_strip", "marine", "towing")},
    points_at=("spring_open_load",),
    conforming=(AXLE % ("street_strip", "needle", "500 lbf", ""), AXLE % ("drag_race", "needle", "850 lbf", ""),
                AXLE % ("street", "bushing", "650 lbf", "")),
    nonconforming=AXLE % ("street_strip", "needle", "560 lbf", "# <-"),
)
def lifter_axle_carries_the_load(
    spring_open_load: Force, lifter_wheel_bearing: Choice, duty: Choice, *, most: Force = q("500 lbf"),
):
    """Needles in a lifter's wheel live on splash and die of stiff springs at idle, and then go through the engine.

    A drag engine is looked into often enough.
    """
    if lifter_wheel_bearing not in ("needle", "caged_needle"):
        return passes()
    return at_most(spring_open_load, most)


CLASS_SPEED = """
build: {rev_limit: %s}  %s
lifters: {kind: %s, plunger: %s}
"""


@rule(
    scope="side",
    level="note",
    due="planning",
    says="The limiter stands at {value}; {lifter} lifters are usually done by {limit}.",
    fix="Set the limiter to {limit}, or take limited-travel or solid lifters. The lifter maker's own figure wins.",
    source="common practice, no source",
    when={"lifter_kind": ("hydraulic_flat", "hydraulic_roller")},
    points_at=("rev_limit", "lifter_kind"),
    conforming=(CLASS_SPEED % ("6800 rpm", "", "hydraulic_roller", "standard_travel"), CLASS_SPEED % ("6500 rpm", "", "hydraulic_flat", "standard_travel"),
                CLASS_SPEED % ("7500 rpm", "", "hydraulic_roller", "limited_travel")),
    nonconforming=(CLASS_SPEED % ("7000 rpm", "# <-", "hydraulic_roller", "standard_travel"),
                   CLASS_SPEED % ("6600 rpm", "# <-", "hydraulic_flat", "standard_travel")),
)
def lifter_type_suits_limiter(
    rev_limit: Rpm, lifter_kind: Choice, lifter_plunger: Choice = None, *,
    usual_up_to={"hydraulic_flat": q("6500 rpm"), "hydraulic_roller": q("6800 rpm"), "limited_travel": q("7500 rpm")},
):
    """A hydraulic lifter that is thrown off its lobe pumps itself up and holds the valve open.

    How fast it may turn hangs on springs and masses; the class speeds are only where builders stop trusting it.
    """
    limited = lifter_plunger == "limited_travel" and lifter_kind == "hydraulic_roller"
    verdict = at_most(rev_limit, usual_up_to["limited_travel" if limited else lifter_kind])
    return verdict.telling(lifter=f"limited-travel {lifter_kind.replace('_', ' ')}" if limited else lifter_kind)


HOT = """
build: {duty: %s}
lifters: {kind: hydraulic_roller, plunger: standard_travel}
oiling: {grade: %s, temperature_highest: %s}  %s
"""


@rule(
    scope="side",
    level="note",
    due="ordering",
    says="{trouble}: the plungers will bleed down and take lift with them.",
    fix="Cool the oil to {most} or below, take a thicker grade, or lifters of limited travel; expect more oil pressure at hot idle.",
    source="common practice, no source",
    when={"lifter_kind": ("hydraulic_flat", "hydraulic_roller")},
    points_at=("oil_temperature_highest", "oil_grade"),
    conforming=(HOT % ("oval_race", "10W-40", "250 degF", ""), HOT % ("street", "0W-20", "230 degF", "")),
    nonconforming=(HOT % ("oval_race", "10W-40", "265 degF", "# <-"), HOT % ("road_race", "0W-20", "230 degF", "# <-")),
)
def hot_oil_suits_hydraulic_lifters(
    oil_temperature_highest: Temperature = None, oil_grade: Choice = None, duty: Choice = None, lifter_plunger: Choice = None, *,
    most: Temperature = q("250 degF"), thin_up_to=20,
):
    """A hydraulic lifter holds its length by oil that leaks slowly; hot thin oil leaks faster than it is pumped in.

    250 degF (121 degC) is where the trade begins to look. The shortest plungers lose the least.
    """
    if lifter_plunger == "limited_travel":
        return passes()
    if oil_temperature_highest is not None and oil_temperature_highest > most + 0.01:
        return at_most(oil_temperature_highest, most).saying(
            "The oil reaches {oil_temperature_highest}: the plungers will bleed down and take lift with them.")
    if duty in ("road_race", "oval_race", "drag_race") and oil_grade is not None and _thickness(oil_grade) <= thin_up_to:
        return require(False).at("oil_grade").telling(trouble=f"{oil_grade} is thin for a race engine on hydraulic lifters")
    if oil_temperature_highest is None and oil_grade is None:
        return not_applicable("neither oil grade nor oil temperature is written")
    return passes()


def _thickness(grade):
    """The figure of the hot oil in a grade such as 10W-40 or 30."""
    figure = grade.rpartition("-")[2].rstrip("W")
    return int(figure) if figure.isdigit() else 99
