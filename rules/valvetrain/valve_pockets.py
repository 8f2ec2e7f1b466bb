"""Whether the pockets in the pistons are wide enough for the valves, and leave enough piston."""

from buildlint.rulebook import *

POCKET = """
build: {induction: %s}
intake:
  valve: {head_diameter: 2.165 in}
  pocket: {diameter: %s, floor_thickness: %s, edge_to_groove: %s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="mock_up",
    says="{what} is {value}; keep {limit}.",
    fix="{cure}",
    source="common practice, no source; the trade press gives 0.050 in at the side",
    points_at=("pocket_radial_gap_written", "pocket_diameter", "pocket_floor_thickness", "pocket_edge_to_groove"),
    conforming=(POCKET % ("natural", "2.265 in", "0.180 in", "0.150 in", ""), POCKET % ("turbocharged", "2.290 in", "0.200 in", "0.201 in", "")),
    nonconforming=(POCKET % ("natural", "2.255 in", "0.200 in", "0.200 in", "# <-"), POCKET % ("natural", "2.235 in", "0.200 in", "0.200 in", "# <-"),
                   POCKET % ("turbocharged", "2.290 in", "0.190 in", "0.201 in", "# <-"), POCKET % ("natural", "2.290 in", "0.200 in", "0.140 in", "# <-")),
)
def valve_pocket_has_side_room(
    pocket_radial_gap: Length = None, pocket_floor_thickness: Length = None, pocket_edge_to_groove: Length = None, induction: Choice = None, *,
    error_below: Length = q("0.040 in"), warning_below: Length = q("0.050 in"),
    floor={"natural": q("0.180 in"), "boosted": q("0.200 in")}, land={"natural": q("0.150 in"), "boosted": q("0.200 in")},
):
    """A pocket bored for a smaller valve, or off its axis, is touched at the rim long before its floor.

    Piston rock, valve play in a worn guide and the lean of the valve all go sideways. Cut deeper or wider, the pocket
    comes through to the ring groove or thins the crown; with boost both want more.
    """
    row = "boosted" if induction in ("supercharged", "turbocharged") else "natural"
    asked = []
    if pocket_radial_gap is not None:
        wide = Length(2 * (warning_below - pocket_radial_gap))
        asked.append(at_least(pocket_radial_gap, warning=warning_below, error=error_below).telling(
            what="The room from valve edge to pocket wall", wide=wide).saying(fix="Cut the pocket wider by {wide} in diameter, on the valve's axis."))
    for value, rows, what, word, cure in (
        (pocket_floor_thickness, floor, "The crown under the pocket", "pocket_floor_thickness",
         "Cut no deeper; take pistons with a thicker crown, or gain the room with gasket or timing."),
        (pocket_edge_to_groove, land, "What the pocket leaves over the top ring groove", "pocket_edge_to_groove",
         "Cut no wider; take pistons with the ring lower, or a smaller valve."),
    ):
        if value is not None:
            asked.append(at_least(value, warning=rows[row]).telling(what=what).at(word).saying(fix=cure))
    if not asked:
        return not_applicable("no pocket is written")
    failed = [verdict for verdict in asked if verdict.kind == "fail"]
    return min(failed, key=lambda verdict: verdict.level != "error") if failed else asked[0]


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
