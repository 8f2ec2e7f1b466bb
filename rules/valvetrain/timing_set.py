"""The drive of the cam: whether it fits the distance, carries the springs, and has no slack to speak of."""

from buildlint.rulebook import *

CHAINS = ("single_chain", "double_roller")

MOVED = """
block: {line_bore_removed: %s}
timing_set: {kind: double_roller, center_distance_change: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="The crank moved {block_line_bore_removed} toward the cam, and the timing set is made for {made_for}: the chain is "
         "{value} too {state}.",
    fix="Order the set made for a distance shorter by {wanted}.",
    source="geometry; limits common practice, no source",
    when={"block_line_bore_removed": given, "timing_set_kind": CHAINS},
    points_at=("timing_set_center_distance_change", "timing_set_kind"),
    conforming=(MOVED % ("0.005 in", "0.005 in", ""), MOVED % ("0.001 in", "0 in", "")),
    nonconforming=(MOVED % ("0.006 in", "0 in", "# <-"), MOVED % ("0.003 in", "0 in", "# <-"), MOVED % ("0.001 in", "0.010 in", "# <-")),
)
def chain_suits_center_distance(
    block_line_bore_removed: Length, timing_set_kind: Choice, timing_set_center_distance_change: Length = None, *,
    note_above: Length = q("0.002 in"), warning_above: Length = q("0.004 in"), tight_above: Length = q("0.003 in"),
):
    """Honing the main line brings the crank nearer to the cam; a standard chain then hangs slack from the first day.

    Slack is retard that grows. Sets are sold 0.005 and 0.010 in short. A set shorter than the block needs is a chain
    run like a saw. A set that says nothing is taken as standard.
    """
    made_for = 0.0 if timing_set_center_distance_change is None else timing_set_center_distance_change
    slack = block_line_bore_removed - made_for
    if slack >= 0:
        verdict = at_most(Length(slack), warning=warning_above, note=note_above)
    else:
        verdict = at_most(Length(-slack), warning=tight_above)
    verdict.telling(made_for="the standard distance", state="long" if slack >= 0 else "short", wanted=block_line_bore_removed)
    if not made_for:
        return verdict
    return verdict.telling(made_for=Length(made_for)).saying(
        "The crank moved {block_line_bore_removed} toward the cam, and the timing set is made for a distance shorter by {made_for}: the "
        "chain is {value} too {state}.")


CARRYING = """
timing_set: {kind: single_chain}  %s
intake:
  spring: {open_load: %s}
exhaust:
  spring: {open_load: 320 lbf}
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="A single chain drives a cam that works against {value} open.",
    fix="Fit a double roller chain, a belt or gears; with the single chain stay under {limit} open.",
    source="common practice, no source",
    when={"timing_set_kind": ("single_chain",)},
    points_at=("timing_set_kind",),
    conforming=CARRYING % ("", "350 lbf"),
    nonconforming=CARRYING % ("# <-", "380 lbf"),
)
def chain_carries_spring_load(
    timing_set_kind: Choice, intake_spring_open_load: Force = None, exhaust_spring_open_load: Force = None, *,
    most: Force = q("350 lbf"),
):
    """Stiff springs pull the cam back and forth as each lobe goes over its nose; a plain single chain stretches under it.

    The figure is the trade's.
    """
    loads = [load for load in (intake_spring_open_load, exhaust_spring_open_load) if load is not None]
    if not loads:
        return lacking("intake_spring_open_load")
    return at_most(max(loads, key=float), most)


SLACK = """
timing_set: {kind: double_roller, chain_slack: %s, cam_sprocket_radius: 2.15 in}  %s
"""


@rule(
    scope="build",
    level="note",
    due="mock_up",
    says="The chain's slack of {timing_set_chain_slack} lets the cam fall {value} late; keep {limit}.",
    fix="Fit a new set, or one for the true center distance; degree the cam with the slack taken up as it runs.",
    source="geometry; limit common practice, no source",
    when={"timing_set_chain_slack": given},
    points_at=("timing_set_chain_slack",),
    conforming=(SLACK % ("0.060 in", ""), SLACK % ("0.190 in", "")),
    nonconforming=SLACK % ("0.250 in", "# <-"),
)
def chain_slack_retard_is_small(
    timing_set_chain_slack: Length, timing_set_cam_sprocket_radius: Length = None, block_cam_to_crank_center: Length = None, *,
    most: Angle = q("1 deg"), usual_radius: Length = q("2.15 in"), usual_center_distance: Length = q("4.52 in"),
):
    """A chain that can be pushed aside lets the cam fall behind by what it is too long.

    It is too long by twice that way squared over its free span; that length over the radius of the cam sprocket is cam
    angle, and twice that crank degrees of retard.
    A quarter of an inch to either side, at which factory books have always changed chains, is some one and a half degrees.
    The intake then shuts later and the exhaust valve is nearer to the piston. A cam sprocket of 36 teeth of 3/8 in
    pitch has a radius of 2.15 in, which is taken where none is written.
    """
    radius = timing_set_cam_sprocket_radius or usual_radius
    span = ((block_cam_to_crank_center or usual_center_distance) ** 2 - (radius / 2) ** 2) ** 0.5
    too_long = 2 * timing_set_chain_slack ** 2 / span
    return at_most(Angle(2 * too_long / radius, "deg"), most)
