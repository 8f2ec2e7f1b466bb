"""The most and the least tension that a torque makes in its fastener."""

from buildlint.precedence import defer_to_maker, is_the_makers, less_serious
from buildlint.rulebook import *
from buildlint.tables.fasteners import CRITICAL_JOINTS, GASKETED_COVERS, ROCKER_BOLT_TORQUE, ROCKER_JOINTS, STRENGTH_CLASSES
from buildlint.tables.joint_metals import SOFT

HEAD = """
joints:
  head:
    {kind: stud, thread: 7/16-20, hole_thread: 7/16-14, strength_class: %s, lubricant: %s, face_lubricant: moly_paste,
     tightening: torque, torque: %s%s}  %s
"""


@rule(
    scope="joint",
    level="error",
    due="ordering",
    says="{torque} with {sliding_product} takes the fastener to {trouble}.{maker}",
    fix="Tighten to at most {torque_to_stay_under:down} with this lubricant, take a stronger class, or tighten by measured stretch. {whose}",
    source="VDI 2230-1 (tension and twist together); Shigley, Mechanical Engineering Design, 9th ed., section 8-9",
    when={"torque": given},
    points_at=("torque",),
    conforming=(HEAD % ("190_ksi", "moly_paste", "65 lbf-ft", "", ""), HEAD % ("iso_10_9", "moly_paste", "45 lbf-ft", "", ""),
                HEAD % ("sae_grade_8", "moly_paste", "58 lbf-ft", ", torque_source: maker", ""),
                HEAD % ("190_ksi", "moly_paste", "74 lbf-ft", ", torque_source: maker", "")),
    nonconforming=(HEAD % ("190_ksi", "moly_paste", "95 lbf-ft", "", "# <-"),
                   HEAD % ("sae_grade_8", "moly_paste", "70 lbf-ft", "", "# <-"),
                   HEAD % ("sae_grade_8", "moly_paste", "70 lbf-ft", ", maker_torque: 50 lbf-ft", "# <-"),
                   HEAD % ("190_ksi", "moly_paste", "100 lbf-ft", ", torque_source: maker", "# <-")),
)
def bolt_stays_below_yield(
    torque: Torque, preload: Force = None, proof_load: Force = None, yield_load: Force = None, tightening_stress: Pressure = None,
    assembly_stress: Pressure = None,
    yield_strength: Pressure = None, preload_high: Force = None, tightening: Choice = None, strength_class: Choice = None,
    yield_strength_written: Pressure = None, proof_strength_written: Pressure = None, sliding_product: Choice = None,
    torque_source: Choice = None, maker_torque: Torque = None, torque_unit_meant: Text = None, lubricant_share: Fraction = None,
    joint_name: Choice = None, hole_material: Choice = None, hole_repair: Choice = None, diameter: Length = None, *,
    error_proof: Fraction = q("1.00", "fraction"), warning_proof: Fraction = q("0.90", "fraction"),
    error_yield: Fraction = q("1.00", "fraction"), warning_yield: Fraction = q("0.90", "fraction"),
    slippery_warning: Fraction = q("1.15", "fraction"), maker_scatter: Fraction = q("0.10", "fraction"), gross: Fraction = q("1.25", "fraction"),
):
    """A reusable fastener tightened past proof stays stretched and no longer springs back on the joint.

    Counted are the tension against proof of the weakest section (of a stud the coarse end in the block), and
    tension and twist together against yield; a stud is twisted too. The standard's own torque tables use 0.90 of yield
    and pass; an error is a core whose skin yields while it is turned. Where the class is a stud steel known only by
    its tensile strength, proof and yield are assumed, and the finding counts one level lower; write the certified
    yield_strength to have it judged in full. Fasteners tightened by angle or stretch are judged elsewhere; where only
    the lubricant is another than the torque is given for, that alone is the finding. A maker's torque is a note at most,
    and none while it is past the line by less than the tenth by which friction is only guessed; one that is past it by a
    quarter is a slip of the pen.
    """
    if tightening not in (None, "torque", "power_driver", "impact"):
        return not_applicable("not tightened by torque alone")
    if torque_unit_meant is not None:
        return not_applicable("the unit of the torque is asked about")
    if None in (preload, proof_load, yield_load, tightening_stress, assembly_stress, yield_strength):
        return not_applicable("thread, strength or lubricant is not known")
    if _rocker_bolt_speaks(torque, joint_name, hole_material, hole_repair, diameter):
        return not_applicable("the rule on 8 mm rocker bolts speaks")
    share, combined, skin = preload / proof_load, assembly_stress / yield_strength, tightening_stress / yield_strength
    if lubricant_share is not None and max(share / warning_proof, combined / warning_yield) <= lubricant_share:
        return not_applicable("the lubricant is asked about")
    verdict = at_most(Fraction(share), error=error_proof, warning=warning_proof)
    trouble = f"{share:.0%} of its proof load"
    twisted = at_most(Fraction(combined), warning=warning_yield)
    if skin > error_yield * (1 + 1e-9):
        twisted, combined = at_most(Fraction(skin), error=error_yield), skin
    if _rank(twisted) > _rank(verdict):
        verdict, trouble = twisted, f"{combined:.0%} of yield, tension and twist together"
    if verdict.kind == "pass" and preload_high is not None:
        slippery = preload_high / yield_load
        verdict = at_most(Fraction(slippery), warning=slippery_warning)
        if verdict.kind == "pass":
            verdict = at_most(Fraction(share), warning_proof)
        else:
            trouble = f"{slippery:.0%} of yield where the thread is as slippery as it may be"
    assumed = strength_class in STRENGTH_CLASSES and not STRENGTH_CLASSES[strength_class][3]
    if assumed and yield_strength_written is None and proof_strength_written is None and verdict.level:
        verdict.level = less_serious(verdict.level)
    worst = max(share / warning_proof, combined / warning_yield)
    verdict.telling(trouble=trouble, torque_to_stay_under=Torque(torque / worst),
                    whose="The maker's written torque wins: where this is his, write torque_source: maker.")
    if verdict.kind == "fail" and is_the_makers(torque, torque_source, maker_torque):
        if max(share, combined) > gross:
            return verdict.telling(maker=" No maker goes so far: look whether torque, thread, class or lubricant is mistyped.")
        if max(share / error_proof, combined / error_yield) <= 1 + maker_scatter:
            return passes()
        return verdict.within_level("note").telling(maker=" The torque is the maker's own and wins over this estimate.",
                                                    whose="Look once more that lubricant and class are those of the maker's sheet.")
    return defer_to_maker(verdict, torque, torque_source, maker_torque)


def _rocker_bolt_speaks(torque, joint_name, hole_material, hole_repair, diameter):
    """Whether the rule on 8 mm rocker bolts in soft heads reports this torque; then it alone speaks."""
    if joint_name not in ROCKER_JOINTS or hole_material not in SOFT or diameter is None or not 0.0075 <= diameter <= 0.0085:
        return False
    return torque > ROCKER_BOLT_TORQUE[1 if hole_repair in ("wire_insert", "solid_insert") else 0]


def _rank(verdict):
    return ("note", "warning", "error").index(verdict.level) + 1 if verdict.kind == "fail" else 0


DAMPER = """
crank: {stroke: 3.480 in%s}
damper: {interference: 0.0010 in}
joints:
  damper: {kind: bolt, thread: 5/8-18, strength_class: sae_grade_8, lubricant: engine_oil, torque: 90 lbf-ft}  %s
"""


@rule(
    scope="joint",
    level="error",
    due="ordering",
    says="{torque} with {sliding_product} gives only {trouble}.{maker}",
    fix="Raise the torque towards {torque_to_reach:up} if the maker's instruction allows it, or tighten by a method that scatters "
        "less.",
    source="Shigley, Mechanical Engineering Design, 9th ed., section 8-9 and Tables 8-13, 8-14; VDI 2230-1",
    when={"torque": given},
    points_at=("torque",),
    conforming=(HEAD % ("190_ksi", "moly_paste", "65 lbf-ft", "", ""), """
        joints:
          oil_pan: {kind: bolt, thread: 1/4-20, strength_class: sae_grade_5, lubricant: engine_oil, torque: 30 lbf-in}
        """, DAMPER % (", snout_keys: 1", "")),
    nonconforming=(HEAD % ("190_ksi", "moly_paste", "25 lbf-ft", "", "# <-"), HEAD % ("190_ksi", "engine_oil", "50 lbf-ft", "", "# <-"), """
        joints:
          starter: {kind: bolt, thread: 3/8-16, strength_class: sae_grade_8, lubricant: engine_oil, torque: 12 lbf-ft}  # <-
        """, DAMPER % ("", "# <-")),
)
def bolt_preload_is_high_enough(
    torque: Torque, preload: Force = None, preload_low: Force = None, proof_load: Force = None, joint_name: Choice = None,
    tightening: Choice = None, sliding_product: Choice = None, torque_source: Choice = None, maker_torque: Torque = None,
    head_clamp_ratio: Ratio = None, torque_unit_meant: Text = None, lubricant_share: Fraction = None,
    damper_interference: Length = None, crank_snout_keys: Count = None, *,
    error_below: Fraction = q("0.40", "fraction"), warning_below: Fraction = q("0.60", "fraction"),
    lowest_warning_below: Fraction = q("0.45", "fraction"), general_note_below: Fraction = q("0.40", "fraction"),
    enough_head_clamp: Ratio = q("3.0", "ratio"), lowest_of_pressed_damper: Fraction = q("0.30", "fraction"),
):
    """A fastener that is not stretched enough lets the joint breathe: gaskets leak, bolts loosen and break.

    A critical joint wants 60 percent of proof, and 45 percent still where the torque wrench and the thread did
    their worst; textbooks aim at 75. A damper that is pressed on a keyed snout is held by its press; its thick bolt is sold
    with far less, which is a note. Where a head is clamped well enough over its gas load, strong studs that are not
    used to the full are a note. Bolts of covers are tightened for their gasket and are not judged.
    """
    if tightening not in (None, "torque", "power_driver", "impact"):
        return not_applicable("not tightened by torque alone")
    if torque_unit_meant is not None:
        return not_applicable("the unit of the torque is asked about")
    if preload is None or proof_load is None:
        return not_applicable("thread, strength or lubricant is not known")
    if joint_name in GASKETED_COVERS:
        return not_applicable("tightened for its gasket")
    share = preload / proof_load
    if lubricant_share is not None and lubricant_share < 1 and share / lubricant_share >= warning_below:
        return not_applicable("the lubricant is asked about")
    trouble = f"{share:.0%} of proof load"
    if joint_name not in CRITICAL_JOINTS:
        verdict = at_least(Fraction(share), note=general_note_below)
    else:
        verdict = at_least(Fraction(share), error=error_below, warning=warning_below)
        if verdict.kind == "pass" and preload_low is not None and preload_low / proof_load < lowest_warning_below:
            lowest = preload_low / proof_load
            verdict = at_least(Fraction(lowest), warning=lowest_warning_below)
            trouble = f"{lowest:.0%} of proof load where torque and friction come out low"
        if joint_name == "head" and head_clamp_ratio is not None and head_clamp_ratio >= enough_head_clamp:
            verdict.within_level("note")
        if joint_name == "damper" and (damper_interference or 0) > 0 and (crank_snout_keys or 0) > 0:
            verdict = at_least(Fraction(share), note=lowest_of_pressed_damper)
    verdict.telling(trouble=trouble, torque_to_reach=Torque(torque * 0.70 / share))
    return defer_to_maker(verdict, torque, torque_source, maker_torque)
