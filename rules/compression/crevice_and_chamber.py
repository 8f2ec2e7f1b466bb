"""What moves the volume at top after the fact: the gap round the top land, and seats that were sunk."""

from buildlint.numeric import PI
from buildlint.rulebook import *

LAND = """
block: {bore: 4.030 in}
crank: {stroke: 3.480 in}
pistons: {below_deck: 0.005 in, dish_volume: 5.0 cc, top_land_diameter: %s}  %s
rings: {top: {crown_to_groove: %s}}
heads: {chamber_volume: 64.0 cc}
head_gasket: {compressed_thickness: 0.039 in, bore: 4.100 in}
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="The gap round the top land holds {crevice_volume}, {share} of the volume at top; with it the true ratio is {true_ratio}.",
    fix="Look at the diameter of the top land first. A land {land_to_reach:up} in diameter would keep {note_above} of the volume there; a "
        "thinner land only where the heat on the ring allows it.",
    source="crevices hold a few percent: Heywood, Internal Combustion Engine Fundamentals, section 8.6; limits common practice, no source",
    when={"piston_top_land_diameter": given, "top_ring_crown_to_groove": given},
    points_at=("piston_top_land_diameter", "top_ring_crown_to_groove"),
    conforming=LAND % ("4.000 in", "", "0.275 in"),
    nonconforming=(LAND % ("3.930 in", "# <-", "0.300 in"), LAND % ("3.980 in", "# <-", "0.300 in")),
)
def crevice_volume_is_small(
    crevice_volume: Volume, crevice_share: Fraction, block_bore: Length, top_ring_crown_to_groove: Length,
    compression_ratio_with_crevice: Ratio, *, note_above: Fraction = q("0.015", "fraction"),
    warning_above: Fraction = q("0.035", "fraction"),
):
    """Mixture that hides beside the top land does not burn in time: it costs ratio, power and clean exhaust.

    Boost and nitrous want a thick land below the crown, which makes the gap longer: the ring's heat comes first.
    """
    verdict = at_most(Fraction(crevice_share), warning=warning_above, note=note_above)
    volume_without = crevice_volume / crevice_share - crevice_volume
    kept = volume_without * note_above / (1 - note_above)  # the gap counts in the volume at top that it is a share of
    square = block_bore**2 - kept * 4 / PI / top_ring_crown_to_groove
    return verdict.telling(share=f"{crevice_share:.1%}", true_ratio=Ratio(compression_ratio_with_crevice, ":1"),
                           land_to_reach=Length(max(square, 0.0) ** 0.5))


SUNK = """
block: {bore: 4.030 in}
crank: {stroke: 3.480 in}
pistons: {below_deck: 0.005 in, dish_volume: 5.0 cc}
heads: {chamber_volume: %s}
head_gasket: {compressed_thickness: 0.039 in, bore: 4.100 in}
intake:
  valve: {head_diameter: 2.020 in}
  seat: {sunk: %s}  %s
"""


@rule(
    scope="side",
    level="note",
    due="machining",
    says="Seats sunk by {seat_sunk} make each chamber larger by about {growth}, which costs {loss} of ratio; the chamber volume is "
         "written as planned.",
    fix="Pour the chambers with the valves, seats and plug that will be run, and write the result under measured.",
    source="geometry; common practice, no source",
    when={"seat_sunk": fitted},
    points_at=("seat_sunk",),
    conforming=(SUNK % ("{plan: 64.0 cc, measured: 64.9 cc}", "0.015 in", ""), SUNK % ("64.0 cc", "0.002 in", "")),
    nonconforming=SUNK % ("64.0 cc", "0.015 in", "# <-"),
)
def chamber_measured_with_final_valves(
    seat_sunk: Length, valve_head_diameter: Length, compression_ratio_largest: Ratio = None,
    cylinder_displacement_smallest: Volume = None,
    head_chamber_volume_measured: Volume = None, head_chamber_volume_spread: Volume = None, *, growth_from: Volume = q("0.3 cc"),
):
    """A chamber is what it is only with its own valves in its own seats: tulips, dishes and sunk seats change it.

    A quarter of a millimeter under both valves of a small V8 is nearly a cubic centimeter, a tenth of a ratio.
    """
    if head_chamber_volume_measured is not None or head_chamber_volume_spread is not None:
        return passes()
    growth = PI / 4 * valve_head_diameter**2 * seat_sunk
    loss = "a little"
    if compression_ratio_largest is not None and cylinder_displacement_smallest is not None:
        at_top = cylinder_displacement_smallest / (compression_ratio_largest - 1)
        loss = f"{cylinder_displacement_smallest / at_top - cylinder_displacement_smallest / (at_top + growth):.2f}"
    return at_most(Volume(growth, "cc"), note=growth_from).telling(growth=Volume(growth, "cc"), loss=loss)
