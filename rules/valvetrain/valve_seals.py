"""Stem seals: whether they suit lift, springs and boost, fit their guides, and go on last."""

from buildlint.rulebook import *

KIND = """
rockers: {ratio: 1.7}
intake:
  lobe: {lift: 0.353 in}
  spring: {count: %s, open_load: %s}
  seal: {kind: %s, material: %s}  %s
"""


@rule(
    scope="side",
    level="warning",
    due="ordering",
    says="Seals of the kind {seal_kind} do not suit this lift, these springs or this boost.",
    fix="Order positive seals of fluorocarbon for the guide's and the stem's size, with a band where boost blows up the guide.",
    source="common practice, no source",
    points_at=("seal_kind", "seal_material"),
    conforming=(KIND % ("2", "400 lbf", "positive", "fluorocarbon", ""), """
        rockers: {ratio: 1.5}
        intake:
          lobe: {lift: 0.270 in}
          spring: {count: 1, open_load: 250 lbf}
          seal: {kind: umbrella, material: nitrile}
        """),
    nonconforming=(KIND % ("2", "400 lbf", "umbrella", "fluorocarbon", "# <-"), KIND % ("1", "340 lbf", "positive", "nitrile", "# <-"), """
        boost: {pressure: 10 psi}
        intake:
          seal: {kind: umbrella}  # <-
        """, """
        boost: {pressure: 10 psi}
        intake:
          seal: {kind: positive}  # <-
        """, """
        intake:
          seal: {kind: none}  # <-
        """),
)
def valve_seal_suits_lift_and_load(
    seal_kind: Choice, side_name: Choice, valve_lift: Length = None, spring_count: Count = None, seal_material: Choice = None,
    spring_open_load_largest: Force = None, boost_pressure: Pressure = None, *,
    loose_seal_to: Length = q("0.500 in"), plain_rubber_to: Force = q("300 lbf"),
):
    """An umbrella is thrown about by a lively valve and has no room inside a nest; a seal that came off lets oil in.

    Boost is blown up the intake guide, so that both sides want positive seals then, and the intake one with a band. The
    exhaust can live without a seal; many racing engines leave it off over iron guides.
    """
    boosted = boost_pressure is not None and boost_pressure > 0
    loose = seal_kind in ("umbrella", "o_ring")
    if seal_kind == "none":
        if side_name == "intake":
            return require(False).saying("The intake guides have no seals: oil is drawn down them at every stroke.")
        return require(not boosted).saying("The exhaust guides have no seals, and exhaust pressure blows up them under boost.")
    if loose and boosted:
        return require(False).saying("Seals of the kind {seal_kind} do not hold against boost.")
    if loose and valve_lift is not None and valve_lift > loose_seal_to * (1 + 1e-9):
        return at_most(valve_lift, warning=loose_seal_to).at("seal_kind").saying(
            "Seals of the kind {seal_kind} are for up to {limit} of lift; this valve lifts {valve_lift}.")
    if loose and spring_count is not None and spring_count > 1:
        return require(False).saying("Seals of the kind {seal_kind} have no room inside nested springs.")
    if seal_material in ("nitrile", "polyacrylate") and spring_open_load_largest is not None and spring_open_load_largest > plain_rubber_to:
        return at_most(spring_open_load_largest, note=plain_rubber_to).at("seal_material").saying(
            "Seals of {seal_material} harden in the heat that {spring_open_load_largest} open makes; fluorocarbon stands it.")
    if boosted and side_name == "intake" and seal_kind == "positive":
        return require(False, level="note").saying("Boost blows up the intake guides; seals held by a band stay on.")
    return passes()


TOP = """
intake:
  guide: {top_outside_diameter: %s}
  seal: {kind: positive, guide_diameter: 0.500 in}  %s
"""


@rule(
    scope="side",
    level="error",
    due="machining",
    says="The seal is made to grip a guide of {seal_guide_diameter}, but the guide's top is {guide_top_outside_diameter}.",
    fix="Order seals for {guide_top_outside_diameter}, or have the guides' tops machined to the seals' size.",
    source="common practice, no source",
    when={"seal_kind": ("positive", "positive_banded")},
    points_at=("seal_guide_diameter", "guide_top_outside_diameter"),
    conforming=(TOP % ("0.500 in", ""), TOP % ("0.502 in", ""), "intake: {seal: {kind: positive}}"),
    nonconforming=(TOP % ("0.531 in", "# <-"), TOP % ("0.490 in", "# <-"), """
        intake:
          guide: {top_outside_diameter: 0.570 in}
          seal: {kind: positive, outside_diameter: 0.562 in}  # <-
        """),
)
def guide_top_fits_seal(
    guide_top_outside_diameter: Length = None, seal_guide_diameter: Length = None, seal_outside_diameter: Length = None, *,
    within_of: Length = q("0.005 in"),
):
    """A positive seal holds by its grip on the guide: too large and it pumps up and down with the stem.

    Asked where the seal's size is written; heads that come assembled are their maker's affair. Of a seal of which only the
    outside is known, that must at least be larger than the guide.
    """
    if seal_guide_diameter is not None:
        if guide_top_outside_diameter is None:
            return lacking("guide_top_outside_diameter")
        return matches(seal_guide_diameter, guide_top_outside_diameter, tolerance=within_of)
    if guide_top_outside_diameter is None or seal_outside_diameter is None:
        return not_applicable("the size of the seal is not written")
    return require(guide_top_outside_diameter < seal_outside_diameter).at("seal_outside_diameter").saying(
        "The seal is {seal_outside_diameter} over all, and the guide's top it should grip is {guide_top_outside_diameter}.")


@rule(
    scope="side",
    level="reminder",
    due="assembly",
    says="Positive seals go on last, after every trial fit of valves and springs.",
    fix="Slide each over a sleeve or tape on the grooves, press it home square, and never take a fitted one off to use it again.",
    source="common practice, no source",
    when={"seal_kind": given},
    conforming="intake: {seal: {kind: positive}}",
)
def valve_seals_are_fitted_last(seal_kind: Choice):
    """The edge of a lock groove cuts the lip of a seal that is pulled on and off during mock-up."""
    return review() if seal_kind in ("positive", "positive_banded") else not_applicable("no seals that grip the guide")
