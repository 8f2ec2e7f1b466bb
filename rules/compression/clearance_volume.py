"""The volume left at top, term by term: its sum against a measurement, its size and its signs."""

from buildlint.mechanics.clearance_stack import likely_slip, slips
from buildlint.rulebook import *

POURED = """
engine: {clearance_volume: %s}  %s
block: {bore: 4.030 in}
crank: {stroke: 3.480 in}
pistons: {below_deck: 0.005 in, %s}
heads: {chamber_volume: 64.0 cc}
head_gasket: {compressed_thickness: 0.039 in, bore: 4.100 in}
"""


@rule(
    scope="cylinder",
    level="warning",
    due="machining",
    says="Poured out, the volume at top is {clearance_volume_written}; chamber, gasket, deck and piston add up to {clearance_volume_computed}.",
    fix="{slip}Measure again the term that weighs most. Dish, gasket and a piston below the deck add; a dome takes away.",
    source="geometry; 1.5 cc common practice, no source",
    when={"clearance_volume_written": given},
    compares=("clearance_volume",),
    points_at=("clearance_volume_written",),
    conforming=(POURED % ("79.0 cc", "", "dish_volume: 5.0 cc"), POURED % ("[78.2 cc, 79.1 cc]", "", "dish_volume: 5.0 cc")),
    nonconforming=(POURED % ("80.5 cc", "# <-", "dish_volume: 5.0 cc"), POURED % ("68.4 cc", "# <-", "dish_volume: 5.0 cc")),
)
def clearance_volume_agrees_with_measured(
    clearance_volume_written: Volume, clearance_volume_computed: Volume, crown_volume: Volume = None, deck_volume: Volume = None,
    gasket_volume: Volume = None, crevice_volume: Volume = None, *, most: Volume = q("1.5 cc"), slip_within: Volume = q("1.0 cc"),
):
    """A burette does not argue: where the sum of the parts differs, one of the parts is not what the sheet says.

    A good fill test repeats within half a cubic centimeter, and greased rings hide a little more.
    """
    difference = clearance_volume_written - clearance_volume_computed
    found = likely_slip(difference, slips(crown_volume, deck_volume, gasket_volume, crevice_volume), slip_within)
    verdict = at_most(Volume(abs(difference), "cc"), most)
    return verdict.telling(slip=f"It fits if this was the slip: {found}. " if found else "")


SUM = """
block: {bore: 4.030 in}
crank: {stroke: 3.480 in}
pistons: {below_deck: 0.005 in, dome_volume: %s}
heads: {chamber_volume: %s}  %s
head_gasket: {compressed_thickness: 0.039 in, bore: 4.100 in}
"""


@rule(
    scope="cylinder",
    level="error",
    due="ordering",
    says="Chamber, gasket, deck and piston leave {clearance_volume} at top, {value} of the swept {swept}; no engine "
         "runs outside {least:up} to {most:down}.",
    fix="Look at the units and signs of chamber, gasket, deck, dish and dome: a chamber of {chamber_low:up} to {chamber_high:down} would fit the "
        "other parts.",
    source="geometry; the band common practice, no source",
    points_at=("head_chamber_volume",),
    conforming=SUM % ("12 cc", "76 cc", ""),
    nonconforming=(SUM % ("12 cc", "7.6 cc", "# <-"), SUM % ("0 cc", "300 cc", "# <-"), SUM % ("12 cc", "30 cc", "# <-")),
)
def clearance_volume_is_positive(
    clearance_volume: Volume, cylinder_displacement: Volume, head_chamber_volume: Volume = None, *,
    least: Fraction = q("0.055", "fraction"), most: Fraction = q("0.25", "fraction"),
):
    """A volume at top that is negative or fills a quarter of the cylinder is a slip of the pen, not an engine."""
    share = clearance_volume / cylinder_displacement
    others = clearance_volume - (head_chamber_volume or 0.0)
    return within(Fraction(share), least, most).telling(
        swept=Volume(cylinder_displacement, "cc"), chamber_low=Volume(cylinder_displacement / 15 - others, "cc"),
        chamber_high=Volume(cylinder_displacement / 7.5 - others, "cc"))


CROWN = """
pistons: {crown: %s, %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="A piston with a {piston_crown} crown is written so that it {effect} by {value}.",
    fix="Write what stands up as dome_volume and what is cut in, dish and pockets, as dish_volume; both positive.",
    source="common practice, no source",
    points_at=("piston_dish_volume", "piston_dome_volume", "piston_crown"),
    conforming=(CROWN % ("dish", "dish_volume: 12 cc", ""), CROWN % ("dome", "dome_volume: 10 cc, dish_volume: 2 cc", ""),
                CROWN % ("flat_with_pockets", "dish_volume: 5 cc", "")),
    nonconforming=(CROWN % ("dome", "dish_volume: 10 cc", "# <-"), CROWN % ("dish", "dome_volume: 12 cc", "# <-"),
                   CROWN % ("flat_with_pockets", "dish_volume: -5 cc", "# <-")),
)
def piston_volume_sign_suits_shape(
    piston_crown: Choice, crown_volume: Volume, piston_dish_volume: Volume = None, piston_dome_volume: Volume = None, *,
    slack: Volume = q("1 cc"),
):
    """Some catalogues write a dome as plus, others as minus; here both volumes are positive and the name says which way.

    A dish and pockets add to the chamber, a dome takes away. Net counts: a dome with deep pockets may come near zero.
    """
    negative = [value for value in (piston_dish_volume, piston_dome_volume) if value is not None and value < 0]
    fits = crown_volume < 0 if piston_crown == "dome" else crown_volume >= -slack
    if fits and not negative:
        return passes()
    verdict = require(False).telling(effect="adds to the chamber" if crown_volume >= 0 else "takes from the chamber")
    verdict.value = Volume(abs(crown_volume), "cc")
    return verdict
