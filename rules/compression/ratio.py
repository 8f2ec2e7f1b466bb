"""The static compression ratio: against what is stated, as such, and from cylinder to cylinder."""

from buildlint.mechanics.clearance_stack import likely_slip, slips
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
    fix="{slip}State what the parts give; a chamber of {chamber_to_reach} or a gasket of {gasket_to_reach} compressed would reach the stated ratio.",
    source="definition: Heywood, Internal Combustion Engine Fundamentals, ch. 2; limits common practice, no source",
    when={"stated_compression_ratio": given},
    points_at=("stated_compression_ratio",),
    conforming=(STACK % ("10.3:1", ""), STACK % ("10.1:1", "")),
    nonconforming=(STACK % ("9.5:1", "# <-"), STACK % ("11.6:1", "# <-"), STACK % ("10.65:1", "# <-")),
)
def stated_ratio_matches_parts(
    stated_compression_ratio: Ratio, compression_ratio_smallest: Ratio, compression_ratio_largest: Ratio,
    cylinder_displacement_smallest: Volume, head_chamber_volume_smallest: Volume = None, crown_volume: Volume = None,
    deck_volume_smallest: Volume = None, gasket_volume: Volume = None, crevice_volume_smallest: Volume = None,
    head_gasket_compressed_thickness: Length = None, head_gasket_free_thickness: Length = None, *,
    warning_beyond: Ratio = q("0.25", "ratio"), error_beyond: Ratio = q("0.5", "ratio"), slip_within: Volume = q("1.2 cc"),
    thinnest: Length = q("0.015 in"), thickest: Length = q("0.080 in"),
):
    """A ratio off by half a point is another fuel or another piston; most often one volume has the wrong sign.

    Catalogue ratios leave the crevice above the top ring out and are rounded at an assumed chamber, so a quarter
    passes. Where a single likely mistake explains the difference the finding names it; a gasket is only named where one is made. Of cylinders that differ the
    middle between the highest and the lowest is compared; how even they are is another rule.
    """
    ratio = (compression_ratio_smallest + compression_ratio_largest) / 2
    verdict = at_most(Ratio(abs(ratio - stated_compression_ratio)), error=error_beyond, warning=warning_beyond)
    verdict.comparing(Ratio(stated_compression_ratio, ":1"), Ratio(ratio, ":1"))
    slip, chamber, gasket = "", "another size", None
    if stated_compression_ratio > 1:
        missing = cylinder_displacement_smallest * (1 / (stated_compression_ratio - 1) - 1 / (ratio - 1))
        free = gasket_volume * head_gasket_free_thickness / head_gasket_compressed_thickness if (
            gasket_volume and head_gasket_free_thickness and head_gasket_compressed_thickness) else None
        found = likely_slip(missing, slips(crown_volume, deck_volume_smallest, gasket_volume, crevice_volume_smallest, free),
                            slip_within)
        slip = f"It fits if this was the slip: {found}. " if found else ""
        if head_chamber_volume_smallest is not None and head_chamber_volume_smallest + missing > 0:
            chamber = Volume(head_chamber_volume_smallest + missing, "cc")
        if gasket_volume and head_gasket_compressed_thickness and gasket_volume + missing > 0:
            gasket = Length(head_gasket_compressed_thickness * (1 + missing / gasket_volume))
            gasket = gasket if thinnest <= gasket <= thickest else None
    if gasket is None:
        verdict.saying(fix="{slip}State what the parts give; a chamber of {chamber_to_reach} would reach the stated ratio, no gasket would.")
    return verdict.telling(slip=slip, chamber_to_reach=chamber, gasket_to_reach=gasket or "")


LOW = STACK % ("10.3:1", "")


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="The parts give a compression ratio of {value}; outside {lowest} to {highest} one of the volumes is mistyped.",
    fix="Look at chamber, gasket, deck and piston volumes: units first, then signs.",
    source="common practice, no source",
    points_at=("head_chamber_volume",),
    conforming=LOW,
    nonconforming=(LOW.replace("chamber_volume: 70.0 cc}", "chamber_volume: 30.0 cc}  # <-"),
                   LOW.replace("chamber_volume: 70.0 cc}", "chamber_volume: 125 cc}  # <-")),
)
def static_ratio_lies_in_range(
    compression_ratio: Ratio, *, lowest: Ratio = q("7:1", "ratio"), highest: Ratio = q("17:1", "ratio"),
    volumes_speak_below: Ratio = q("5:1", "ratio"), volumes_speak_above: Ratio = q("19.18:1", "ratio"),
):
    """No pushrod gasoline or alcohol engine runs below 7 or above 17 to one; such a figure is a slip of the pen.

    Where the volume at top itself is out of all proportion, the rule on that volume speaks instead of this one.
    """
    if not volumes_speak_below <= compression_ratio <= volumes_speak_above:
        return not_applicable("the volume at top is judged instead")
    return within(Ratio(compression_ratio, ":1"), lowest, highest)


EVEN = """
build: {duty: %s}
block: {bore: 4.030 in}
crank: {stroke: 3.480 in}
pistons: {below_deck: 0.005 in, dish_volume: 5.0 cc}
heads: {chamber_volume: [64.0 cc, 64.2 cc, 63.9 cc, %s]}  %s
head_gasket: {compressed_thickness: 0.039 in, bore: 4.100 in}
"""


@rule(
    scope="build",
    level="warning",
    due="machining",
    says="The compression ratio differs by {compression_ratio_spread} between cylinders: {lowest} to {highest}; for this duty keep {limit}.",
    fix="Bring the tightest volume up or the widest down by {volume_to_move:up}: in the chamber, or by the piston.",
    source="common practice, no source",
    points_at=("head_chamber_volume", "piston_below_deck", "compression_ratio_spread"),
    conforming=(EVEN % ("street_strip", "64.1 cc", ""), EVEN % ("street", "65.0 cc", "")),
    nonconforming=(EVEN % ("street_strip", "65.2 cc", "# <-"), EVEN % ("drag_race", "64.6 cc", "# <-")),
)
def ratio_is_even_across_cylinders(
    compression_ratio_smallest: Ratio, compression_ratio_largest: Ratio, cylinder_displacement_smallest: Volume,
    compression_ratio_spread: Ratio = None, duty: Choice = None, *,
    most={"stock": q("0.30", "ratio"), "street": q("0.20", "ratio"), "street_strip": q("0.10", "ratio"),
          "road_race": q("0.05", "ratio"),
          "oval_race": q("0.05", "ratio"), "drag_race": q("0.05", "ratio"), "marine": q("0.20", "ratio"),
          "towing": q("0.20", "ratio")},
):
    """The tightest cylinder knocks first and sets the spark for all the others, which then work below their best.

    Asked only where something is written cylinder by cylinder. Race engines are evened out to a twentieth of a
    ratio, about half a cubic centimeter; production castings differ by more and live.
    """
    if compression_ratio_spread is None:
        return not_applicable("nothing is written cylinder by cylinder")
    tight, wide = (cylinder_displacement_smallest / (ratio - 1)
                   for ratio in (compression_ratio_largest, compression_ratio_smallest))
    verdict = at_most(Ratio(compression_ratio_spread), warning=most[duty or "street"])
    return verdict.telling(lowest=Ratio(compression_ratio_smallest, ":1"), highest=Ratio(compression_ratio_largest, ":1"),
                           volume_to_move=Volume(wide - tight, "cc"))
