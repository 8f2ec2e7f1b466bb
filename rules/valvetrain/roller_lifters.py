"""What keeps roller lifters straight on their lobes."""

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
    fix="Turn the pair round, relieve the block by {cut:up}, or take lifters with another bar. A smaller base circle lowers the bar by "
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
