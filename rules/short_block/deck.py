"""Where the pistons stand at top and bottom: near the deck, all alike, and with rings and skirt in the bore."""

from buildlint.rulebook import *

STACK = """
block: {deck_height: %s}
crank: {stroke: 3.750 in}
rods: {length: 6.000 in}
pistons: {compression_height: 1.125 in}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="By deck height, throw, rod and compression height the piston stands {value} {side} the deck; no such engine does.",
    fix="Look for the wrong part or the slip: throw, rod and compression height add up to about the deck height. "
        "For this block and crank a compression height of {height} would bring it to the deck.",
    source="geometry; limits common practice, no source",
    points_at=("block_deck_height", "piston_compression_height"),
    conforming=(STACK % ("9.025 in", ""), STACK % ("9.000 in", "")),
    nonconforming=(STACK.replace("%s}\ncrank", "%s}  # <-\ncrank").replace("  %s\n", "\n") % "9.525 in",
                   STACK.replace("%s}\ncrank", "%s}  # <-\ncrank").replace("  %s\n", "\n") % "8.800 in",
                   STACK.replace("%s}\ncrank", "%s}  # <-\ncrank").replace("  %s\n", "\n") % "8.980 in"),
)
def piston_stays_near_the_deck(
    piston_below_deck_computed: Length, block_deck_height: Length, crank_stroke: Length, rod_length: Length, *,
    error_beyond: Length = q("0.100 in"), note_above_deck: Length = q("0.015 in"),
):
    """A tenth of an inch off the deck is a part of another engine, a rod of another length, or a typing slip.

    Pistons above the deck are built on purpose with a thick gasket: beyond fifteen thousandths that is noted, and the
    rule on the gap to the head decides.
    """
    gap = piston_below_deck_computed
    verdict = within(Length(gap), error=(Length(-error_beyond), error_beyond), note=(Length(-note_above_deck), None))
    below = gap > 0
    verdict.value = Length(abs(gap))
    verdict.telling(side="below" if below else "above", height=Length(block_deck_height - crank_stroke / 2 - rod_length))
    if verdict.level == "note":
        verdict.saying("By the parts the piston stands {value} above the deck.",
                       "Keep the gap to the head with the gasket: piston to head decides.")
    return verdict


EVEN = """
engine: {layout: v, cylinders: 8, banks: [[1, 3, 5, 7], [2, 4, 6, 8]]}
pistons:
  below_deck: {plan: 0.005 in, measured: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="mock_up",
    says="The pistons' height at top differs by {value}{where}; keep it within {limit}.",
    fix="Measure over the pin at every cylinder again; square the decks to the crank where banks or ends differ, or sort pistons and rods.",
    source="geometry; limits common practice, no source",
    when={"piston_below_deck_spread": given},
    points_at=("piston_below_deck",),
    conforming=EVEN % ("[0.005 in, 0.006 in, 0.005 in, 0.006 in, 0.004 in, 0.005 in, 0.006 in, 0.005 in]", ""),
    nonconforming=(EVEN % ("[0.005 in, 0.010 in, 0.005 in, 0.010 in, 0.004 in, 0.009 in, 0.006 in, 0.009 in]", "# <-"),
                   EVEN % ("[0.005 in, 0.0085 in, 0.005 in, 0.005 in, 0.005 in, 0.005 in, 0.006 in, 0.005 in]", "# <-")),
)
def deck_clearance_is_even(
    piston_below_deck_spread: Length, piston_below_deck_each: List = None, banks: List = None, *,
    note_above: Length = q("0.08 mm"), warning_above: Length = q("0.10 mm"), banks_within: Length = q("0.08 mm"),
):
    """Pistons that stand unlike give cylinders of unlike ratio and quench; a difference from bank to bank is a deck that is not square.

    Nothing touches for it, so it is never an error.
    """
    verdict = at_most(Length(piston_below_deck_spread), note=note_above, warning=warning_above)
    where = ""
    if banks and piston_below_deck_each and sum(len(bank) for bank in banks) == len(piston_below_deck_each):
        means = [sum(piston_below_deck_each[int(number) - 1] for number in bank) / len(bank) for bank in banks]
        apart = max(means) - min(means)
        if apart > banks_within:
            where = ", on average from bank to bank"
            verdict = at_most(Length(apart), warning=banks_within)
    return verdict.telling(where=where)


DISH = """
heads: {quench_pad: fitted}
pistons: {crown: %s, dish_volume: %s}  %s
"""


@rule(
    scope="build",
    level="note",
    due="ordering",
    says="A round dish of {piston_dish_volume} lies under the head's quench pad.",
    fix="Order pistons whose dish mirrors the chamber and leaves the pad its flat.",
    source="common practice, no source",
    when={"piston_crown": given, "head_quench_pad": ("fitted",)},
    points_at=("piston_crown",),
    conforming=(DISH % ("step_dish", "12 cc", ""), DISH % ("flat_with_pockets", "5 cc", ""), DISH % ("dish", "6 cc", "")),
    nonconforming=DISH % ("dish", "16 cc", "# <-"),
)
def piston_dish_leaves_quench_pad(piston_crown: Choice, piston_dish_volume: Volume = None, *, shallow: Volume = q("8 cc")):
    """A full dish opens the gap just where the pad should close it; the ratio is then low and knock comes early all the same."""
    if piston_crown != "dish":
        return passes()
    if piston_dish_volume is None:
        return lacking("piston_dish_volume")
    return at_most(piston_dish_volume, shallow)


RING = """
block: {bore_length: %s}
crank: {stroke: 4.000 in}
pistons: {below_deck: 0.010 in}
rings:
  oil: {crown_to_groove_bottom: 0.7925 in}  %s
"""


@rule(
    scope="cylinder",
    level="error",
    due="ordering",
    says="At bottom the oil ring comes within {value} of the end of the bore; keep {limit}.",
    fix="A shorter stroke, a taller block or a longer sleeve, or pistons whose rings sit higher, by {short:up}.",
    source="geometry; limits common practice, no source",
    when={"block_bore_length": given},
    points_at=("oil_ring_crown_to_groove_bottom", "block_bore_length"),
    conforming=(RING % ("5.200 in", ""), "block: {bore_length: 5.100 in}\ncrank: {stroke: 3.480 in, original_stroke: 3.480 in}"),
    nonconforming=(RING % ("4.850 in", "# <-"), RING % ("4.900 in", "# <-")),
)
def oil_ring_stays_in_bore(
    block_bore_length: Length, crank_stroke: Length, crank_original_stroke: Length = None, oil_ring_bore_margin: Length = None,
    oil_ring_crown_to_groove_bottom: Length = None, piston_below_deck_largest: Length = None, *,
    error_below: Length = q("1.5 mm"), warning_below: Length = q("3 mm"),
):
    """A rail that leaves the bore at bottom snaps out and is cut off on the way up.

    The chamfer at the end of the bore counts as end. Of an engine with the stroke it was built with nobody asks where the oil
    ring sits; where it is written, it is judged.
    """
    if oil_ring_bore_margin is None:
        if crank_original_stroke is not None and crank_stroke <= crank_original_stroke * (1 + 1e-6):
            return not_applicable("the stroke is the one the block was built with")
        words = (("oil_ring_crown_to_groove_bottom", oil_ring_crown_to_groove_bottom), ("piston_below_deck", piston_below_deck_largest))
        return lacking(*(word for word, value in words if value is None))
    verdict = at_least(Length(oil_ring_bore_margin), error=error_below, warning=warning_below)
    return verdict.telling(short=Length(warning_below - oil_ring_bore_margin))


SKIRT = """
block: {bore_length: %s}
crank: {stroke: 4.000 in}
pistons: {below_deck: 0.010 in, crown_to_skirt_end: 2.200 in, skirt_length: 1.600 in}  %s
"""


@rule(
    scope="cylinder",
    level="warning",
    due="ordering",
    says="At bottom {value} of the skirt hangs out of the bore; {limit} is the line.",
    fix="Pistons with a shorter skirt, a longer rod with less compression height, or a longer sleeve.",
    source="geometry; limits common practice, no source",
    when={"block_bore_length": given, "piston_crown_to_skirt_end": given},
    points_at=("piston_crown_to_skirt_end", "block_bore_length"),
    conforming=(SKIRT % ("5.900 in", ""), SKIRT % ("6.300 in", "")),
    nonconforming=SKIRT % ("5.500 in", "# <-"),
)
def piston_skirt_stays_in_bore(
    skirt_out_of_bore: Length, piston_skirt_length: Length, *, warning_above: Fraction = q("0.25", "fraction"),
):
    """A skirt that hangs out rocks as it comes back and wears its end; it may also meet the crank.

    A quarter of the skirt is lived with.
    """
    if piston_skirt_length <= 0:
        return not_applicable("a size of nothing is asked about elsewhere")
    return at_most(Fraction(max(skirt_out_of_bore, 0.0) / piston_skirt_length), warning_above)
