"""What is left of the block after boring: walls, webs, sleeves and filler."""

from buildlint.rulebook import *

RACING = ("road_race", "oval_race", "drag_race")

WALL = """
block: {bore: 4.030 in, wall_measured_at_bore: 4.000 in, wall_thickness: %s}  %s
"""


@rule(
    scope="cylinder",
    level="error",
    due="machining",
    says="The thinnest wall is {value} after boring; keep {limit}.",
    fix="Sleeve this cylinder, or take another block.",
    source="0.125 in seen in two trade articles; 0.090 in common practice, no source",
    when={"block_wall_left": given},
    points_at=("block_wall_thickness",),
    conforming=(WALL % ("0.180 in", ""), WALL % ("0.140 in", "")),
    nonconforming=(WALL % ("0.130 in", "# <-"), WALL % ("0.100 in", "# <-"), """
        block:
          bore: 4.060 in
          wall_measured_at_bore: 4.000 in
          wall_thickness: [0.190 in, 0.180 in, 0.150 in, 0.190 in, 0.180 in, 0.190 in, 0.180 in, 0.190 in]  # <-
        """),
)
def cylinder_wall_keeps_thickness(
    block_wall_left: Length, block_bore: Length = None, block_wall_measured_at_bore: Length = None, *,
    warning_below: Length = q("0.125 in"), error_below: Length = q("0.090 in"),
):
    """A thin wall bulges under pressure and heat, the rings lose it, and one day it splits into the water.

    Least figures from 0.090 to 0.200 in are quoted; 0.125 in is where two independent sources agree. The wall counts as it
    will be after boring from the size at which it was measured.
    """
    verdict = at_least(Length(block_wall_left), warning=warning_below, error=error_below)
    smaller = 2 * (warning_below - block_wall_left)
    to_come = block_bore - block_wall_measured_at_bore if None not in (block_bore, block_wall_measured_at_bore) else 0.0
    if to_come >= smaller * (1 - 1e-9):  # what is bored already cannot be bored less
        verdict.saying(fix="Bore less by {smaller:up}, offset the bore with the sonic map, sleeve this cylinder, or take another block.")
    elif to_come > 0:
        verdict.saying(fix="Offset the bore with the sonic map, sleeve this cylinder, or take another block; boring less does not keep so much.")
    return verdict.telling(smaller=Length(smaller))


THRUST = """
build: {duty: %s, induction: %s}
boost: {pressure: %s}
block: {bore: 4.030 in, wall_thickness_thrust: %s}  %s
"""


@rule(
    scope="cylinder",
    level="warning",
    due="machining",
    says="The wall on the thrust side is {value} after boring; {use} wants {limit}.",
    fix="Keep the bore smaller, move it away from the thrust side with the sonic map, or take a block with thicker walls.",
    source="common practice, no source",
    when={"block_wall_left_thrust": given},
    points_at=("block_wall_thickness_thrust",),
    conforming=(THRUST % ("street", "turbocharged", "10 psi", "0.190 in", ""), THRUST % ("road_race", "natural", "0 psi", "0.190 in", ""),
                THRUST % ("street", "natural", "0 psi", "0.160 in", "")),
    nonconforming=(THRUST % ("road_race", "natural", "0 psi", "0.170 in", "# <-"), THRUST % ("street", "turbocharged", "20 psi", "0.190 in", "# <-")),
)
def thrust_wall_suits_cylinder_pressure(
    block_wall_left_thrust: Length, duty: Choice = None, induction: Choice = None, boost_pressure: Pressure = None,
    nitrous_power: Power = None, displacement: Volume = None, *,
    race: Length = q("0.180 in"), mild_boost: Length = q("0.180 in"), boost: Length = q("0.200 in"),
    heavy_boost: Length = q("0.225 in"), mild_up_to: Pressure = q("105 kPa"), heavy_above: Pressure = q("200 kPa"),
):
    """The piston leans on one side of the bore with every power stroke; that side needs the metal.

    Production walls of 0.180 to 0.200 in hold ten pounds of boost for years. A street engine without boost is left to the
    rule on the thinnest wall.
    """
    if induction in ("supercharged", "turbocharged"):
        gauge = boost_pressure or 0.0
        limit = heavy_boost if gauge > heavy_above else boost if gauge > mild_up_to else mild_boost
        use = "this boost"
    elif nitrous_power is not None and nitrous_power > 0:
        limit, use = mild_boost, "nitrous"
    elif duty in RACING:
        limit, use = race, "racing"
    else:
        return not_applicable("neither boosted nor racing")
    return at_least(Length(block_wall_left_thrust), warning=limit).telling(use=use)


MAP = """
block: {class: %s, original_bore: 4.000 in, bore: %s, sonic_check: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="machining",
    says="The bore grows by {value} without a sonic map of the walls.",
    fix="Have every wall measured by sound before boring, thrust sides first, and write sonic_check: done and the thinnest walls.",
    source="common practice, no source",
    when={"block_class": ("thin_wall_two_bolt", "production_two_bolt", "production_four_bolt", "cross_bolted_iron", "cross_bolted_aluminum")},
    points_at=("block_bore",),
    conforming=(MAP % ("production_two_bolt", "4.030 in", "not_done", ""), MAP % ("production_two_bolt", "4.125 in", "done", "")),
    nonconforming=(MAP % ("production_two_bolt", "4.060 in", "not_done", "# <-"), MAP % ("production_four_bolt", "4.125 in", "not_done", "# <-")),
)
def overbore_has_sonic_map(
    block_original_bore: Length, block_bore_largest: Length, block_sonic_check: Choice = None, block_wall_thickness: Length = None, *,
    note_above: Length = q("0.030 in"), warning_above: Length = q("0.060 in"),
):
    """Cores shift in the mold; the wall that matters is somewhere else on every casting, and a bore cannot be put back.

    Thirty over is routine, sixty is a question, and a hundred and more is a gamble without a map. Walls written with their
    sonic figures count as the map.
    """
    if block_sonic_check == "done" or block_wall_thickness is not None:
        return passes()
    growth = block_bore_largest - block_original_bore
    return at_most(Length(growth), warning=warning_above, note=note_above).at("block_bore")


SHIFT = """
block: {bore: 4.030 in, wall_measured_at_bore: 4.000 in, wall_thickness: %s, wall_thickness_thickest: 0.260 in}  %s
"""


@rule(
    scope="cylinder",
    level="warning",
    due="machining",
    says="The thickest wall of the bore is {value} times its thinnest after boring; within {limit} is usual.",
    fix="Offset the bore toward the thick side with the sonic map, as far as the gasket and spacing allow, or take another block.",
    source="common practice, no source",
    when={"block_wall_left": given, "block_wall_thickness_thickest": given},
    points_at=("block_wall_thickness",),
    conforming=SHIFT % ("0.160 in", ""),
    nonconforming=SHIFT % ("0.130 in", "# <-"),
)
def cylinder_core_shift_is_moderate(
    block_wall_left: Length, block_wall_thickness: Length, block_wall_thickness_thickest: Length, *, most: Ratio = q("2.0", "ratio"),
):
    """A bore with a thick and a thin side grows crooked when it gets hot, however round it was honed."""
    thickest = block_wall_thickness_thickest - (block_wall_thickness - block_wall_left)
    if block_wall_left <= 0:
        return require(False).telling().saying("Nothing is left of the thinnest wall after boring.")
    return at_most(Ratio(thickest / block_wall_left), most)


WEB = """
block: {bore: %s, bore_spacing: 4.400 in}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="Between the bores {value} is left; keep {limit}.",
    fix="Keep the bore at {largest:down} or less, or take a block of wider spacing.",
    source="geometry; limits common practice, no source",
    points_at=("block_bore", "block_bore_spacing"),
    conforming=(WEB % ("4.125 in", ""), WEB % ("4.030 in", "")),
    nonconforming=(WEB % ("4.155 in", "# <-"), WEB % ("4.230 in", "# <-"), WEB % ("4.310 in", "# <-")),
)
def bore_web_keeps_width(
    block_bore_spacing: Length, block_bore_largest: Length, *, note_below: Length = q("0.250 in"), warning_below: Length = q("0.200 in"),
    error_below: Length = q("2.5 mm"),
):
    """The web between two bores carries both gaskets and both fires; where it is narrow the gasket burns there first."""
    web = block_bore_spacing - block_bore_largest
    verdict = at_least(Length(web), note=note_below, warning=warning_below, error=error_below)
    return verdict.telling(largest=Length(block_bore_spacing - note_below)).at("block_bore")


SLEEVE = """
block: {material: %s, sleeve_kind: %s, sleeve_outside_diameter: 4.250 in, sleeve_interference: %s}  %s
"""


@rule(
    scope="cylinder",
    level="warning",
    due="machining",
    says="The sleeve's press does not hold it, or bends its neighbors.",
    fix="Bore the block or grind the sleeve to another press, or fit a flanged sleeve.",
    source="0.0015 to 0.002 in in iron, at most 0.003, and 0.003 to 0.004 in in aluminum seen; growth by the table of materials",
    caution="Sleeves are fitted hot or cold: gloves, eye protection and a press that cannot slip.",
    when={"block_sleeve_interference": given},
    points_at=("block_sleeve_interference",),
    conforming=(SLEEVE % ("cast_iron", "dry", "0.0018 in", ""), SLEEVE % ("aluminum_356_t6", "dry_flanged", "0.0035 in", "")),
    nonconforming=(SLEEVE % ("cast_iron", "dry", "0.004 in", "# <-"), SLEEVE % ("aluminum_356_t6", "dry", "0.0035 in", "# <-"),
                   SLEEVE % ("cast_iron", "dry", "0.0005 in", "# <-"), SLEEVE % ("aluminum_356_t6", "dry_flanged", "0.0048 in", "# <-")),
)
def sleeve_keeps_its_grip(
    block_sleeve_interference: Length, block_sleeve_interference_hot: Length, block_material: Choice, block_sleeve_kind: Choice, *,
    iron_usual={"least": q("0.0010 in"), "most": q("0.003 in")},
    aluminum_usual={"least": q("0.0025 in"), "most": q("0.0045 in")},
):
    """A sleeve must stay tight when the block is hot, or it works, sinks and leaks; too tight it bends its neighbors.

    Iron takes a thousandth and a half to two. An aluminum block grows away from its sleeve by four thousandths, so there
    a flange or a step has to hold it, whatever the press.
    """
    if block_sleeve_kind not in ("dry", "dry_flanged"):
        return not_applicable("no dry sleeves")
    aluminum = block_material.startswith("aluminum") or block_material == "magnesium"
    usual = aluminum_usual if aluminum else iron_usual
    verdict = within(Length(block_sleeve_interference), warning=(usual["least"], usual["most"]))
    if verdict.kind == "fail":
        return verdict.telling(least=Length(usual["least"]), most=Length(usual["most"])).saying(
            "The sleeve's press is {value}; {least:up} to {most:down} is usual in this block.",
            "Bore the block or grind the sleeve to a press between them; pressing harder distorts the bores beside it.")
    if block_sleeve_kind == "dry":
        verdict = at_least(Length(block_sleeve_interference_hot), warning=Length(0.0))
        return verdict.saying(
            "Hot, the block lets go of the sleeve: {value} of press is left, and it has no flange.",
            "Fit a flanged sleeve or one that stands on a step, flush at the deck.")
    return passes()


FILL = """
build: {duty: %s}
block: {fill: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="machining",
    says="The block is filled for another duty.",
    fix="Fill lower, fit an oil cooler, and give rings and pistons more room.",
    source="common practice, no source",
    when={"block_fill": fitted},
    points_at=("block_fill",),
    conforming=(FILL % ("drag_race", "full", ""), FILL % ("drag_race", "half", "")),
    nonconforming=(FILL % ("street_strip", "full", "# <-"), FILL % ("road_race", "full", "# <-"), FILL % ("street", "half", "# <-")),
)
def block_fill_suits_the_duty(block_fill: Choice, duty: Choice, oil_cooler: Choice = None):
    """Filler stiffens the bores and takes the water away from them: oil and bores run hotter, and hotter still under load.

    Fill to the pump holes is run on the street with an oil cooler; a full block is for seconds at a time.
    """
    if duty == "drag_race":
        return passes()
    if block_fill == "full":
        return require(False).saying(
            "The block is filled to the deck, and {duty} duty runs longer than a pass.",
            "Fill to the bottom of the water-pump holes at most, fit an oil cooler, and give rings and pistons more room.")
    if oil_cooler == "fitted":
        return passes()
    return require(False, "note").saying(
        "The block is half filled: oil and lower bores will run hotter.",
        "Fit an oil cooler, and look again at ring gaps and piston clearance for a warmer bore; hone after filling, with the plate on.")
