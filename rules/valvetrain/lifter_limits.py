"""What lifters of a class carry and how fast and how hot they are trusted."""

from buildlint.rulebook import *

ROLLERS = ("hydraulic_roller", "solid_roller")

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
    level="warning",
    due="planning",
    says="The limiter stands at {value}; {lifter} lifters are usually done by {limit}.",
    fix="Set the limiter to {limit}, or take limited-travel or solid lifters. The lifter maker's own figure wins.",
    source="common practice, no source",
    when={"lifter_kind": ("hydraulic_flat", "hydraulic_roller")},
    points_at=("rev_limit", "lifter_kind"),
    conforming=(CLASS_SPEED % ("6800 rpm", "", "hydraulic_roller", "standard_travel"), CLASS_SPEED % ("6500 rpm", "", "hydraulic_flat", "standard_travel"),
                CLASS_SPEED % ("7500 rpm", "", "hydraulic_roller", "limited_travel")),
    nonconforming=(CLASS_SPEED % ("7000 rpm", "# <-", "hydraulic_roller", "standard_travel"),
                   CLASS_SPEED % ("7600 rpm", "# <-", "hydraulic_roller", "standard_travel"),
                   CLASS_SPEED % ("6600 rpm", "# <-", "hydraulic_flat", "standard_travel")),
)
def lifter_type_suits_limiter(
    rev_limit: Rpm, lifter_kind: Choice, lifter_plunger: Choice = None, *,
    usual_up_to={"hydraulic_flat": q("6500 rpm"), "hydraulic_roller": q("6800 rpm"), "limited_travel": q("7500 rpm")},
    far_beyond: Ratio = q("1.1", "ratio"),
):
    """A hydraulic lifter that is thrown off its lobe pumps itself up and holds the valve open.

    How fast it may turn hangs on springs and masses; the class speeds are only where builders stop trusting it, a tenth
    beyond them is where it takes more than good springs.
    """
    limited = lifter_plunger == "limited_travel" and lifter_kind == "hydraulic_roller"
    usual = usual_up_to["limited_travel" if limited else lifter_kind]
    verdict = at_most(rev_limit, note=usual, warning=Rpm(far_beyond * usual))
    if verdict.kind == "fail":
        verdict.limit = usual
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
    fix="Cool the oil to {most:down} or below, take a thicker grade, or lifters of limited travel; expect more oil pressure at hot idle.",
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
        return require(False).at("oil_grade").telling(trouble=f"{oil_grade} is thin for a race engine on hydraulic lifters").saying(
            fix="Take a thicker grade, or lifters of limited travel; expect more oil pressure at hot idle.")
    if oil_temperature_highest is None and oil_grade is None:
        return not_applicable("neither oil grade nor oil temperature is written")
    return passes()


def _thickness(grade):
    """The figure of the hot oil in a grade such as 10W-40 or 30."""
    figure = grade.rpartition("-")[2].rstrip("W")
    return int(figure) if figure.isdigit() else 99
