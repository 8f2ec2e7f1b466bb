"""Whether the pockets in the pistons are wide enough for the valves, and free of sharp edges."""

from buildlint.rulebook import *

POCKET = """
intake:
  valve: {head_diameter: 2.165 in}
  pocket: {diameter: %s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="mock_up",
    says="The room from valve edge to pocket wall is {value}; keep {limit}.",
    fix="Cut the pocket wider by {wide:up} in diameter, on the valve's axis; then look at what it leaves over the top ring's groove.",
    source="common practice, no source; the trade press gives 0.050 in at the side",
    points_at=("pocket_radial_gap_written", "pocket_diameter"),
    conforming=(POCKET % ("2.265 in", ""), POCKET % ("2.290 in", ""), """
        build: {induction: turbocharged}
        intake:
          valve: {head_diameter: 2.165 in}
          pocket: {diameter: 2.290 in, floor_thickness: 0.190 in, edge_to_groove: 0.140 in}
        """),
    nonconforming=(POCKET % ("2.255 in", "# <-"), POCKET % ("2.235 in", "# <-")),
)
def valve_pocket_has_side_room(
    pocket_radial_gap: Length = None, *, error_below: Length = q("0.040 in"), warning_below: Length = q("0.050 in"),
):
    """A pocket bored for a smaller valve, or off its axis, is touched at the rim long before its floor.

    Piston rock, valve play in a worn guide and the lean of the valve all go sideways. What the pocket leaves of the
    piston, under its floor and over the top ring's groove, is judged with the pistons.
    """
    if pocket_radial_gap is None:
        return not_applicable("no pocket is written")
    return at_least(pocket_radial_gap, warning=warning_below, error=error_below).telling(
        wide=Length(2 * (warning_below - pocket_radial_gap)))


@rule(
    scope="cylinder",
    level="reminder",
    due="machining",
    says="Look at the pockets: every edge rounded, no burr, no sharp corner at the floor.",
    fix="Break the edges by hand, wash the piston, then sign for it.",
    source="common practice, no source",
    points_at=("piston_crown", "intake_pocket_depth"),
    conforming="pistons: {crown: flat_with_pockets}",
)
def valve_pocket_edges_are_rounded(piston_crown: Choice = None, intake_pocket_depth: Length = None, exhaust_pocket_depth: Length = None):
    """A sharp edge glows and lights the charge before the plug does; a sharp corner starts a crack.

    Pockets that came from the maker have it done; the ones cut in the shop are forgotten.
    """
    if piston_crown in ("flat_with_pockets", "dome") or intake_pocket_depth or exhaust_pocket_depth:
        return review()
    return not_applicable("the pistons have no pockets")
