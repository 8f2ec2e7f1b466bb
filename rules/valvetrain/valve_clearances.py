"""What an open valve passes: the other valve, the cylinder wall, the edge of the gasket."""

from buildlint.rulebook import *

HEADS = """
heads: {valve_layout: parallel, valve_spacing: %s%s}  %s
intake:
  valve: {head_diameter: 2.165 in}
exhaust:
  valve: {head_diameter: 1.590 in}
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="Between the valve heads {value} is left; keep {limit}.",
    fix="Take valves smaller by {smaller:up} between them, or seats spaced wider by {short:up}{retard}.",
    source="geometry; limits common practice, no source",
    when={"head_valve_to_valve_gap": given},
    points_at=("head_valve_to_valve_gap_written", "head_valve_spacing"),
    conforming=(HEADS % ("1.940 in", "", ""), HEADS % ("1.940 in", ", valve_to_valve_gap: [0.062 in, 0.060 in]", "")),
    nonconforming=(HEADS % ("1.920 in", "", "# <-"), HEADS % ("1.900 in", "", "# <-"),
                   HEADS % ("1.940 in", ", valve_to_valve_gap: [0.062 in, 0.028 in]", "# <-")),
)
def valves_clear_each_other(
    head_valve_to_valve_gap: Length, head_valve_to_valve_gap_written: Length = None, head_valve_layout: Choice = None, *,
    warning_below: Length = q("0.060 in"), error_below: Length = q("0.030 in"),
):
    """Through overlap both valves are open, and heads that touch bend both stems at once.

    Parallel valves pass each other side by side, so the gap is that of the drawing. Valves that are tilted toward each
    other come nearer as they open: measured through overlap counts, and what is reckoned from estimated lobes bears no
    error. Big valves in an old casting are the usual case.
    """
    verdict = at_least(head_valve_to_valve_gap, warning=warning_below, error=error_below)
    tilted = head_valve_layout in ("canted", "hemi")
    if tilted and head_valve_to_valve_gap_written is None:
        verdict.within_level("warning")
    short = warning_below - head_valve_to_valve_gap
    return verdict.telling(short=Length(short), smaller=Length(2 * short),
                           retard=", or less overlap" if tilted else "")


WALL = """
block: {bore: %s}
heads: {valve_layout: parallel}
head_gasket: {bore: %s}
intake:
  lobe: {lift: 0.353 in}
  valve: {head_diameter: 2.165 in, axis_angle: 15 deg, bore_offset: %s}  %s
  %s
rockers: {ratio: 1.7}
"""


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="The open valve passes the cylinder wall at {value}; keep {limit}.",
    fix="Notch the bore where the valve passes, above the top ring, or take a valve smaller by {smaller:up} or a larger bore.",
    source="geometry; limits common practice, no source",
    when={"wall_gap": given},
    points_at=("wall_gap_written", "valve_bore_offset", "valve_head_diameter"),
    conforming=(WALL % ("4.155 in", "4.200 in", "0.930 in", "", ""), WALL % ("4.155 in", "4.200 in", "0.980 in", "", "wall_gap: 0.040 in")),
    nonconforming=((WALL % ("4.155 in", "4.200 in", "0.960 in", "# <-", "")), WALL % ("4.030 in", "4.100 in", "0.960 in", "# <-", ""),
                   (WALL % ("4.155 in", "4.200 in", "0.930 in", "", "wall_gap: 0.015 in")).replace("wall_gap: 0.015 in", "wall_gap: 0.015 in  # <-")),
)
def valve_clears_cylinder_wall(
    wall_gap: Length, wall_gap_written: Length = None, *, warning_below: Length = q("0.040 in"), error_below: Length = q("0.020 in"),
):
    """A head made for a big bore hangs its valves over the edge of a small one.

    What is measured in the mock-up counts. Reckoned from where the valve sits, only a touch is an error and a narrow
    gap a warning: a chamber's valves lean a little to this or that side.
    """
    measured = wall_gap_written is not None
    verdict = at_least(wall_gap, warning=warning_below, error=error_below if measured else Length(0.0))
    verdict.telling(smaller=Length(2 * (warning_below - wall_gap)), over=Length(-wall_gap))
    return verdict.saying("The open valve stands {over} into the cylinder wall; keep {warning_below} clear of it.") if wall_gap < 0 else verdict


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="The open valve passes the edge of the gasket at {value}; keep {limit}.",
    fix="Take a gasket with an opening larger by {larger:up}, or a smaller valve.",
    source="geometry; limit common practice, no source",
    when={"gasket_edge_gap": given},
    points_at=("head_gasket_bore", "valve_bore_offset"),
    conforming=WALL % ("4.155 in", "4.200 in", "0.930 in", "", ""),
    nonconforming=((WALL % ("4.155 in", "4.100 in", "0.935 in", "", "")).replace("{bore: 4.100 in}", "{bore: 4.100 in}  # <-"),),
)
def valve_clears_gasket_edge(gasket_edge_gap: Length, wall_gap: Length, *, least: Length = q("0.030 in")):
    """A gasket that stands in over the bore meets the valve before the wall does, and its ring burns there as well.

    Where the opening is larger than the bore the wall is nearer and speaks for both.
    """
    if gasket_edge_gap >= wall_gap:
        return passes()
    return at_least(gasket_edge_gap, least).telling(larger=Length(2 * (least - gasket_edge_gap)))
