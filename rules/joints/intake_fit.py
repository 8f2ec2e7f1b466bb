"""The manifold of a V engine after heads and block were cut."""

from buildlint.rulebook import *

CUT = """
engine: {layout: %s, bank_angle: 90 deg}
block: {deck_removed: 0.010 in}
heads: {face_removed: %s}  %s
induction: {manifold: {face_angle: 55 deg, valley_tray: open%s}}
"""


@rule(
    scope="build",
    level="error",
    due="machining",
    says="The heads sit {head_drop} lower than they did, and the manifold's faces were cut by {cut}: {left} is left to mend.",
    fix="Cut {face} off each intake face of manifold or heads and {rail} off the end rails, or take manifold gaskets thinner by as much; "
        "then try it on.",
    source="the wedge between the heads and the valley; shop figures of 1.23 and 1.71 for 10 degree faces on a 90 degree V agree with it",
    when={"head_drop": given, "layout": ("v",)},
    points_at=("head_face_removed", "block_deck_removed", "head_gasket_compressed_thickness"),
    conforming=(CUT % ("v", "0.020 in", "", ", face_removed: 0.037 in, end_rail_removed: 0.051 in"),
                CUT % ("inline", "0.030 in", "", "")),
    nonconforming=(CUT % ("v", "0.020 in", "# <-", ""), CUT % ("v", "0.004 in", "# <-", ""), CUT % ("v", "0.020 in", "# <-", ", face_removed: 0.020 in"),
                   CUT % ("v", "0 in", "# <-", ", face_removed: 0.040 in")),
)
def intake_face_matches_the_cuts(
    head_drop: Length, layout: Choice, intake_face_cut: Length = None, intake_rail_cut: Length = None,
    manifold_face_removed: Length = None, manifold_end_rail_removed: Length = None, head_angle_milled: YesNo = None,
    head_face_removed: Length = None, block_deck_removed: Length = None, head_gasket_compressed_thickness: Length = None, *,
    pass_within: Length = q("0.010 in"), error_beyond: Length = q("0.020 in"),
):
    """Every cut off deck or head lowers the heads and brings them together; the manifold then sits high, and its ports with it.

    A quarter of a millimeter is taken up by the gaskets. Angle-milled heads do not follow this wedge: there only a
    trial fit tells. Inline engines and manifolds on one side move with their head and are not asked.
    """
    if head_angle_milled:
        return not_applicable("angle-milled heads: try the manifold on")
    if intake_face_cut is None:
        return not_applicable("bank angle or face angle is not written")
    ratio = intake_face_cut / head_drop if head_drop else 1.0
    if ratio <= 0:
        return not_applicable("the angles make no wedge")
    left = head_drop - (manifold_face_removed or 0.0) / ratio
    facts = {"cut": manifold_face_removed if manifold_face_removed else "nothing", "left": Length(abs(left)),
             "face": Length(abs(intake_face_cut - (manifold_face_removed or 0.0))),
             "rail": Length(max(intake_rail_cut - (manifold_end_rail_removed or 0.0), 0.0))}
    verdict = at_most(Length(abs(left)), error=error_beyond, warning=pass_within)
    if manifold_face_removed and verdict.kind == "fail":
        verdict.within_level("warning")
    if verdict.kind == "pass" and manifold_face_removed and intake_rail_cut > pass_within and manifold_end_rail_removed is not None:
        rail = at_most(Length(abs(intake_rail_cut - manifold_end_rail_removed)), warning=Length(2 * pass_within))
        if rail.kind == "fail":
            return rail.at("head_face_removed").telling(**facts, removed=manifold_end_rail_removed).saying(
                "The manifold's faces follow the cut, but {removed} came off its end rails where {wanted} belongs.",
                "Cut {rail} off the end rails." if manifold_end_rail_removed < intake_rail_cut else "Lay the bead on the end rails as much higher.").telling(
                wanted=Length(intake_rail_cut))
    if left < 0:
        verdict.saying("The manifold's faces were cut by {cut}, {face} more than the heads' drop asks for.",
                       "Take manifold gaskets thicker by {face} on each side, lay the bead on the end rails as much higher, and try it on.")
    return verdict.telling(**facts)


FLAT = """
joints: {intake_manifold: {kind: bolt}}
induction: {manifold: {face_flatness: %s}}  %s
"""


@rule(
    scope="joint",
    level="warning",
    due="machining",
    says="The manifold's flange is out of flat by {value}; {limit} is the line.",
    fix="Have the flange surfaced, both sides by the same amount.",
    source="factory figures for intake flanges: 0.13 and 0.20 mm",
    when={"joint_name": ("intake_manifold",), "manifold_face_flatness": given},
    points_at=("manifold_face_flatness",),
    conforming=(FLAT % ("0.003 in", ""), FLAT % ("0.005 in", "")),
    nonconforming=(FLAT % ("0.007 in", "# <-"), FLAT % ("0.0052 in", "# <-")),
)
def intake_flange_is_flat(joint_name: Choice, manifold_face_flatness: Length, joint_leads: YesNo = True, *,
                          most: Length = q("0.005 in")):
    """A warped flange sucks air at one port and oil at the next."""
    if not joint_leads:
        return not_applicable("asked at the manifold's joint")
    return at_most(manifold_face_flatness, most)
