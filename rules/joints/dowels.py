"""Dowels that put the head and its gasket where they belong, and the way the gasket lies."""

from buildlint.rulebook import *

DOWELS = """
joints:
  head: {kind: stud}
block: {dowel_holes_per_bank: 2, dowels_per_bank: %s}  %s
"""


@rule(
    scope="joint",
    level="error",
    due="assembly",
    says="The block has {block_dowel_holes_per_bank} dowel holes in each deck, and the number of dowels fitted is {block_dowels_per_bank}.",
    fix="Fit a dowel in every hole before the gasket goes on, and check its height against gasket and head.",
    source="common practice, no source",
    when={"joint_name": ("head",), "block_dowels_per_bank": given},
    points_at=("block_dowels_per_bank",),
    conforming=(DOWELS % ("2", ""), """
        joints:
          head: {kind: bolt}
        block: {dowel_holes_per_bank: 0, dowels_per_bank: 0}
        """),
    nonconforming=(DOWELS % ("1", "# <-"), """
        joints:
          head: {kind: bolt}
        block: {dowels_per_bank: 1}  # <-
        """),
)
def head_dowels_are_fitted(block_dowels_per_bank: Count, block_dowel_holes_per_bank: Count = None, joint_leads: YesNo = True):
    """Without its dowels a gasket creeps under the head and its fire ring hangs into the bore.

    Some older inline blocks have no dowel holes; then none is right. Where the holes were not counted, a lone dowel is
    asked about: the head turns round it.
    """
    if not joint_leads:
        return not_applicable("asked at the head joint")
    if block_dowel_holes_per_bank is None:
        if block_dowels_per_bank != 1:
            return not_applicable("the dowel holes of the deck are not counted")
        return require(False, "warning").saying(
            "One dowel in each deck is written: a head turns round a single dowel.",
            "Look for the second hole and fit its dowel before the gasket goes on; write the holes as dowel_holes_per_bank.")
    return matches(block_dowels_per_bank, block_dowel_holes_per_bank)


GAP = """
block: {dowel_protrusion: %s}  %s
heads: {dowel_bore_depth: 0.300 in, dowel_bore_clearance: %s}
head_gasket: {compressed_thickness: 0.041 in}
joints: {head: {kind: stud}}
"""


@rule(
    scope="joint",
    level="error",
    due="mock_up",
    says="{trouble}",
    fix="Shorten the dowels by {shorten_by:up} or counterbore the head.",
    source="geometry; common practice, no source",
    when={"joint_name": ("head",)},
    points_at=("block_dowel_protrusion", "head_dowel_bore_clearance"),
    conforming=GAP % ("0.250 in", "", "0.002 in"),
    nonconforming=(GAP % ("0.350 in", "# <-", "0.002 in"), GAP % ("0.330 in", "# <-", "0.002 in"), """
        heads: {dowel_bore_clearance: 0.006 in}  # <-
        joints: {head: {kind: stud}}
        """),
)
def head_dowels_leave_a_gap(
    joint_name: Choice, joint_leads: YesNo = True, dowel_gap: Length = None, head_dowel_bore_clearance: Length = None,
    block_dowel_protrusion: Length = None, *, warning_below: Length = q("0.5 mm"), most_clearance: Length = q("0.004 in"),
):
    """A head that sits on its dowels is clamped on two pins and nowhere else.

    Thicker gaskets help here, skimmed heads and decks take away. A dowel hole worn wide locates nothing.
    """
    if not joint_leads:
        return not_applicable("asked at the head joint")
    verdict = None
    if dowel_gap is not None:
        verdict = at_least(Length(dowel_gap), error=Length(0.0), warning=warning_below).telling(
            shorten_by=Length(max(0.0, warning_below - dowel_gap)), over=Length(max(0.0, -dowel_gap)))
        verdict.saying("The head sits on its dowels: they are {over:up} too long." if verdict.level == "error" else
                       "Only {value} is left above the dowels; keep {limit}.")
    if head_dowel_bore_clearance is not None and (verdict is None or verdict.kind == "pass"):
        wide = at_most(head_dowel_bore_clearance, warning=most_clearance).at("head_dowel_bore_clearance").saying(
            "The head's dowel holes are {value} wider than the dowels; at most {limit} locates the gasket.",
            "Fit stepped or larger dowels, or bush the holes.")
        verdict = wide if wide.kind == "fail" or verdict is None else verdict
    return verdict or not_applicable("dowels are not measured")


@rule(
    scope="joint",
    level="reminder",
    due="assembly",
    says="Lay each head gasket with its marks to front, up and its bank, and look through its holes: coolant at the right end, oil feed "
         "open, tabs seen.",
    fix="Lay gasket on block and gasket on head, both ways, before the final fit; a hole that is covered tells the wrong side.",
    source="common practice, no source",
    when={"joint_name": ("head",)},
    conforming="joints: {head: {kind: stud}}",
)
def gasket_lies_the_right_way(joint_name: Choice, joint_leads: YesNo = True):
    """Gaskets that look alike left and right carry the rocker's oil feed at one end only, and the large coolant holes at the other.

    The wrong way round it starves an oil-fed rocker shaft or lets steam stand at the rear cylinder.
    """
    return not_applicable("asked at the head joint") if not joint_leads else review()
