"""The static compression ratio: against what is stated, and as such."""

from buildlint.rulebook import *

STACK = """
engine: {stated_compression_ratio: %s}  %s
block: {bore: 4.030 in}
crank: {stroke: 3.750 in}
pistons: {below_deck: 0.005 in, dish_volume: 5.0 cc}
heads: {chamber_volume: 70.0 cc}
head_gasket: {compressed_thickness: 0.039 in, bore: 4.100 in}
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="The ratio is stated as {value}; chamber, gasket, deck and piston give {limit}.",
    fix="{slip}A chamber of {chamber_to_reach} or a gasket of {gasket_to_reach} compressed would reach the stated ratio.",
    source="definition: Heywood, Internal Combustion Engine Fundamentals, ch. 2; limits common practice, no source",
    points_at=("stated_compression_ratio",),
    conforming=(STACK % ("10.3:1", ""), STACK % ("10.1:1", "")),
    nonconforming=(STACK % ("9.5:1", "# <-"), STACK % ("11.6:1", "# <-")),
)
def stated_ratio_matches_parts(
    stated_compression_ratio: Ratio, compression_ratio: Ratio, cylinder_displacement: Volume, clearance_volume: Volume,
    head_chamber_volume: Volume = None, crown_volume: Volume = None, deck_volume: Volume = None,
    gasket_volume: Volume = None, head_gasket_compressed_thickness: Length = None, *,
    warning_beyond: Ratio = q("0.25", "ratio"), error_beyond: Ratio = q("0.5", "ratio"),
):
    """A ratio off by half a point is another fuel or another piston; most often one volume has the wrong sign.

    Catalogue ratios leave the crevice above the top ring out and are rounded at an assumed chamber, so a quarter
    passes. Where a single likely mistake explains the difference the finding names it.
    """
    gap = abs(compression_ratio - stated_compression_ratio)
    verdict = at_most(Ratio(gap), error=error_beyond, warning=warning_beyond)
    verdict.value, verdict.limit = Ratio(stated_compression_ratio, ":1"), Ratio(compression_ratio, ":1")
    wanted = cylinder_displacement / (stated_compression_ratio - 1) - clearance_volume if stated_compression_ratio > 1 else 0.0
    slips = (
        ("dish or dome entered with the wrong sign", -2 * crown_volume if crown_volume else None),
        ("piston written on the wrong side of the deck", -2 * deck_volume if deck_volume else None),
        ("gasket left out", -gasket_volume if gasket_volume else None),
    )
    slip = ""
    for text, change in slips:
        if change and abs(1 + cylinder_displacement / (clearance_volume + change) - stated_compression_ratio) < 0.1 < gap:
            slip = f"It fits if this was the slip: {text}. "
    chamber = Volume(head_chamber_volume + wanted, "cc") if head_chamber_volume is not None else "another size"
    gasket = "another thickness"
    if gasket_volume and head_gasket_compressed_thickness and gasket_volume + wanted > 0:
        gasket = Length(head_gasket_compressed_thickness * (1 + wanted / gasket_volume))
    return verdict.telling(slip=slip, chamber_to_reach=chamber, gasket_to_reach=gasket)


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="The parts give a compression ratio of {value}; outside {lowest} to {highest} one of the volumes is mistyped.",
    fix="Look at chamber, gasket, deck and piston volumes: units first, then signs.",
    source="common practice, no source",
    points_at=("head_chamber_volume",),
    conforming=STACK % ("10.3:1", ""),
    nonconforming=(STACK % ("10.3:1", "")).replace("chamber_volume: 70.0 cc}", "chamber_volume: 7.0 cc}  # <-"),
)
def static_ratio_lies_in_range(compression_ratio: Ratio, *, lowest: Ratio = q("7:1", "ratio"), highest: Ratio = q("17:1", "ratio")):
    """No pushrod gasoline or alcohol engine runs below 7 or above 17 to one; such a figure is a slip of the pen."""
    return within(Ratio(compression_ratio, ":1"), lowest, highest)
