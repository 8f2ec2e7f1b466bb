"""Moving parts against cam, block and each other: gaps found by turning the engine over by hand."""

from buildlint.rulebook import *

CAM = """
rods: {material: %s, cam_gap: %s, bolt_cam_gap: %s}  %s
"""
FIX = ("Take a rod with smaller shoulders or cap screws, a cam with a smaller base circle, or grind {short:up} off where the rod's maker "
       "allows it; then balance again.")
SOURCE = "0.050 in to the cam and 1/16 in elsewhere seen; the rest common practice, no source"


@rule(
    scope="cylinder",
    level="error",
    due="mock_up",
    says="Between {which} and the cam {value} is left; keep {limit}.",
    fix=FIX,
    source=SOURCE,
    when={"rod_cam_gap_least": given},
    points_at=("rod_cam_gap", "rod_bolt_cam_gap"),
    conforming=(CAM % ("steel", "0.060 in", "0.060 in", ""), CAM % ("steel", "0.050 in", "0.050 in", "")),
    nonconforming=(CAM % ("steel", "0.045 in", "0.060 in", "# <-"), CAM % ("steel", "0.060 in", "0.030 in", "# <-"),
                   CAM % ("aluminum", "0.055 in", "0.060 in", "# <-")),
)
def rods_clear_the_cam(
    rod_cam_gap_least: Length, rod_cam_gap: Length = None, rod_bolt_cam_gap: Length = None, rod_material: Choice = None, *,
    least: Length = q("0.050 in"), more_for_aluminum: Length = q("0.5 mm"), error_share: Fraction = q("0.75", "fraction"),
):
    """Rod shoulders and lobes miss each other by the timing of the cam; a chain that stretches or a cam moved four degrees changes it.

    Measured with the cam timed as it will run and tried four degrees either way, every cylinder. Aluminum rods are
    thicker and grow.
    """
    bolt = rod_cam_gap is None or rod_bolt_cam_gap is not None and rod_bolt_cam_gap < rod_cam_gap
    verdict = _gap(rod_cam_gap_least, least, rod_material, more_for_aluminum, error_share)
    return verdict.telling(which="the rod bolt" if bolt else "the rod").at("rod_bolt_cam_gap" if bolt else "rod_cam_gap")


def _gap(gap, least, rod_material, more_for_aluminum, error_share):
    limit = least + (more_for_aluminum if rod_material == "aluminum" else 0.0)
    verdict = at_least(Length(gap), error=Length(error_share * limit), warning=Length(limit))
    return verdict.telling(short=Length(max(limit - gap, 0.0)))


BLOCK = """
rods: {material: steel, block_gap: %s}  %s
"""


@rule(
    scope="cylinder",
    level="error",
    due="mock_up",
    says="Between rod or bolt and the block {value} is left; keep {limit}.",
    fix="Grind the bore's end or the pan rail {short:up} away with care for the water behind it, clean up, and turn the engine over again.",
    source=SOURCE,
    when={"rod_block_gap": given},
    points_at=("rod_block_gap",),
    conforming=(BLOCK % ("0.070 in", ""), BLOCK % ("0.060 in", "")),
    nonconforming=(BLOCK % ("0.050 in", "# <-"), BLOCK % ("0.040 in", "# <-")),
)
def rods_clear_the_block(
    rod_block_gap: Length, rod_material: Choice = None, *, least: Length = q("0.060 in"), more_for_aluminum: Length = q("0.5 mm"),
    error_share: Fraction = q("0.75", "fraction"),
):
    """Rods move sideways with their clearance, bearings give, and the block is a casting: what looks like plenty by eye is not.

    A sixteenth of an inch all round is the usual figure, with every cylinder turned past.
    """
    return _gap(rod_block_gap, least, rod_material, more_for_aluminum, error_share)


WEIGHT = """
crank: {skirt_gap: %s, block_gap: %s}  %s
"""


@rule(
    scope="cylinder",
    level="error",
    due="mock_up",
    says="Between counterweight and {which} {value} is left; keep {limit}.",
    fix="Turn the counterweights {short:up} smaller and balance again, or take parts that leave the room.",
    source=SOURCE,
    when={"crank_counterweight_gap": given},
    points_at=("crank_skirt_gap", "crank_block_gap"),
    conforming=(WEIGHT % ("0.075 in", "0.070 in", ""), """
        crank: {stroke: 3.750 in, counterweight_radius: 3.000 in}
        rods: {length: 6.000 in}
        pistons: {compression_height: 1.125 in, crown_to_skirt_end: 2.175 in}
        """),
    nonconforming=(WEIGHT % ("0.050 in", "0.070 in", "# <-"), WEIGHT % ("0.075 in", "0.040 in", "# <-"), """
        crank: {stroke: 4.000 in, counterweight_radius: 3.000 in}
        rods: {length: 6.000 in}
        pistons: {compression_height: 1.000 in, crown_to_skirt_end: 2.020 in}  # <-
        """),
)
def counterweights_clear_skirts_and_block(
    crank_counterweight_gap: Length, crank_skirt_gap: Length = None, crank_block_gap: Length = None, *,
    least: Length = q("0.060 in"), error_share: Fraction = q("0.75", "fraction"),
):
    """At bottom the skirt comes down between the counterweights; a long stroke with a short rod brings them together.

    Where no gap is written it follows from stroke, rod, skirt and counterweight radius, and the estimate counts no higher than a warning.
    """
    verdict = at_least(Length(crank_counterweight_gap), error=Length(error_share * least), warning=least)
    short = Length(max(least - crank_counterweight_gap, 0.0))
    block = crank_block_gap is not None and (crank_skirt_gap is None or crank_block_gap <= crank_counterweight_gap)
    if block and crank_block_gap == crank_counterweight_gap:
        return verdict.telling(which="block").saying(
            fix="Turn the counterweights or grind the block {short:up}; balance again.").telling(short=short).at("crank_block_gap")
    if crank_skirt_gap is None:
        verdict.within_level("warning").at("piston_crown_to_skirt_end")
    else:
        verdict.at("crank_skirt_gap")
    return verdict.telling(which="skirt", short=short).saying(
        fix="Turn the counterweights {short:up} smaller and balance again, order shorter skirts, or a longer rod with a shorter piston.")


STROKER = """
crank: {stroke: 3.750 in, original_stroke: 3.480 in, block_gap: 0.070 in, skirt_gap: 0.075 in%s}
rods: {cam_gap: 0.060 in, block_gap: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="mock_up",
    says="The stroke is longer than the original, and its gaps are not measured.",
    fix="With timing set, cam, pan and every jet fitted turn the engine twice round by hand, look at every cylinder, and write the least gaps as "
        "measured: rods to cam, block and pan, counterweights to skirts and block.",
    source="common practice, no source",
    caution="Turn by hand, plugs out, fingers clear; stop at the first resistance.",
    when={"crank_original_stroke": given},
    points_at=("crank_stroke",),
    conforming=(STROKER % (", pan_gap: 0.080 in", "0.070 in", ""), "crank: {stroke: 3.480 in, original_stroke: 3.480 in}"),
    nonconforming="""
        build: {stage: assembly}
        crank: {stroke: 3.750 in, original_stroke: 3.480 in}  # <-
        """,
)
def stroker_clearances_are_measured(
    crank_stroke: Length, crank_original_stroke: Length, rod_cam_gap: Length = None, rod_block_gap: Length = None,
    crank_block_gap: Length = None, crank_skirt_gap: Length = None, rod_pan_gap: Length = None, crank_pan_gap: Length = None,
    stage: Choice = None, *, longer_by: Length = q("0.10 in"),
):
    """A tenth more stroke brings rods to the cam and the pan rails in engines that never were near them.

    Until mock-up the missing gaps are open questions; once the engine is being assembled an unmeasured stroker is an
    error.
    """
    if crank_stroke - crank_original_stroke <= longer_by:
        return not_applicable("the stroke is not longer than the original")
    gaps = {"rod_cam_gap": rod_cam_gap, "rod_block_gap": rod_block_gap, "crank_block_gap": crank_block_gap,
            "crank_skirt_gap": crank_skirt_gap, "crank_pan_gap": rod_pan_gap if crank_pan_gap is None else crank_pan_gap}
    missing = [word for word, gap in gaps.items() if gap is None]
    if not missing:
        return passes()
    if stage in ("assembly", "handover"):
        names = ", ".join(word.replace("_", " ") for word in missing)
        return require(False).telling(names=names).saying(
            "The stroke is longer than the original, and the engine is being assembled without: {names}.")
    return lacking(*missing)
