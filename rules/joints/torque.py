"""Whether a torque makes sense for the fastener: its unit, the least and the most tension it makes."""

from buildlint.precedence import defer_to_maker, less_serious
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
    fix="Tighten to at most {torque_to_stay_under} with this lubricant, take a stronger class, or tighten by measured stretch. "
        "The maker's written torque wins.",
    source="VDI 2230-1 (tension and twist together); Shigley, Mechanical Engineering Design, 9th ed., section 8-9",
    when={"torque": given},
    points_at=("torque",),
    conforming=(HEAD % ("190_ksi", "moly_paste", "65 lbf-ft", "", ""), HEAD % ("iso_10_9", "moly_paste", "45 lbf-ft", "", ""),
                HEAD % ("sae_grade_8", "moly_paste", "58 lbf-ft", ", torque_source: maker", "")),
    nonconforming=(HEAD % ("190_ksi", "moly_paste", "95 lbf-ft", "", "# <-"), HEAD % ("sae_grade_8", "moly_paste", "70 lbf-ft", "", "# <-"),
                   HEAD % ("sae_grade_8", "moly_paste", "70 lbf-ft", ", maker_torque: 50 lbf-ft", "# <-")),
)
def bolt_stays_below_yield(
    torque: Torque, preload: Force = None, proof_load: Force = None, yield_load: Force = None, tightening_stress: Pressure = None, assembly_stress: Pressure = None,
    yield_strength: Pressure = None, preload_high: Force = None, tightening: Choice = None, strength_class: Choice = None,
    yield_strength_written: Pressure = None, proof_strength_written: Pressure = None, sliding_product: Choice = None,
    torque_source: Choice = None, maker_torque: Torque = None, torque_unit_meant: Text = None, lubricant_share: Fraction = None,
    joint_name: Choice = None, hole_material: Choice = None, hole_repair: Choice = None, diameter: Length = None, *,
    error_proof: Fraction = q("1.00", "fraction"), warning_proof: Fraction = q("0.90", "fraction"),
    error_yield: Fraction = q("1.00", "fraction"), warning_yield: Fraction = q("0.90", "fraction"),
    slippery_warning: Fraction = q("1.15", "fraction"),
):
    """A reusable fastener tightened past proof stays stretched and no longer springs back on the joint.

    Counted are the tension against proof of the weakest section (of a stud the coarse end in the block), and
    tension and twist together against yield; a stud is twisted too. The standard's own torque tables use 0.90 of yield
    and pass; an error is a core whose skin yields while it is turned. Where the class is a stud steel known only by
    its tensile strength, proof and yield are assumed, and the finding counts one level lower; write the certified
    yield_strength to have it judged in full. Fasteners tightened by angle or stretch are judged elsewhere; where only
    the lubricant is another than the torque is given for, that alone is the finding.
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
    verdict.telling(trouble=trouble, torque_to_stay_under=Torque(torque / worst))
    return defer_to_maker(verdict, torque, torque_source, maker_torque)


def _rocker_bolt_speaks(torque, joint_name, hole_material, hole_repair, diameter):
    """Whether the rule on 8 mm rocker bolts in soft heads reports this torque; then it alone speaks."""
    if joint_name not in ROCKER_JOINTS or hole_material not in SOFT or diameter is None or not 0.0075 <= diameter <= 0.0085:
        return False
    return torque > ROCKER_BOLT_TORQUE[1 if hole_repair in ("wire_insert", "solid_insert") else 0]


def _rank(verdict):
    return ("note", "warning", "error").index(verdict.level) + 1 if verdict.kind == "fail" else 0


@rule(
    scope="joint",
    level="error",
    due="ordering",
    says="{torque} with {sliding_product} gives only {trouble}.{maker}",
    fix="Raise the torque towards {torque_to_reach} if the maker's instruction allows it, or tighten by a method that scatters "
        "less.",
    source="Shigley, Mechanical Engineering Design, 9th ed., section 8-9 and Tables 8-13, 8-14; VDI 2230-1",
    when={"torque": given},
    points_at=("torque",),
    conforming=(HEAD % ("190_ksi", "moly_paste", "65 lbf-ft", "", ""), """
        joints:
          oil_pan: {kind: bolt, thread: 1/4-20, strength_class: sae_grade_5, lubricant: engine_oil, torque: 30 lbf-in}
        """),
    nonconforming=(HEAD % ("190_ksi", "moly_paste", "25 lbf-ft", "", "# <-"), HEAD % ("190_ksi", "engine_oil", "50 lbf-ft", "", "# <-"), """
        joints:
          starter: {kind: bolt, thread: 3/8-16, strength_class: sae_grade_8, lubricant: engine_oil, torque: 12 lbf-ft}  # <-
        """),
)
def bolt_preload_is_high_enough(
    torque: Torque, preload: Force = None, preload_low: Force = None, proof_load: Force = None, joint_name: Choice = None,
    tightening: Choice = None, sliding_product: Choice = None, torque_source: Choice = None, maker_torque: Torque = None,
    head_clamp_ratio: Ratio = None, torque_unit_meant: Text = None, lubricant_share: Fraction = None, *,
    error_below: Fraction = q("0.40", "fraction"), warning_below: Fraction = q("0.60", "fraction"),
    lowest_warning_below: Fraction = q("0.45", "fraction"), general_note_below: Fraction = q("0.40", "fraction"),
    enough_head_clamp: Ratio = q("3.0", "ratio"),
):
    """A fastener that is not stretched enough lets the joint breathe: gaskets leak, bolts loosen and break.

    A critical joint wants 60 percent of proof, and 45 percent still where the torque wrench and the thread did
    their worst; textbooks aim at 75. Where a head is clamped well enough over its gas load, strong studs that are not
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
    verdict.telling(trouble=trouble, torque_to_reach=Torque(torque * 0.70 / share))
    return defer_to_maker(verdict, torque, torque_source, maker_torque)


SLIP = """
joints:
  %s: {kind: bolt, thread: %s, strength_class: %s, lubricant: %s, torque: %s}  %s
"""


@rule(
    scope="joint",
    level="error",
    due="ordering",
    says="{torque} {trouble}",
    fix="Look at the sheet again and write the unit that stands there{instead}.",
    source="T = K d F, Shigley Eq. 8-27, with the definitions of the units; limits common practice, no source",
    when={"torque": given},
    points_at=("torque",),
    conforming=(SLIP % ("valve_cover", "1/4-20", "sae_grade_5", "dry", "90 lbf-in", ""),
                SLIP % ("head", "M10x1.5", "iso_10_9", "engine_oil", "50 lbf-ft", ""),
                SLIP % ("head", "M10x1.5", "iso_10_9", "engine_oil", "50 N*m", ""), """
        joints:
          rocker: {kind: bolt, thread: M8x1.25, hole: {material: aluminum_356_t6}, torque: 42 N*m}
        """),
    nonconforming=(SLIP % ("valve_cover", "1/4-20", "sae_grade_5", "dry", "90 lbf-ft", "# <-"),
                   SLIP % ("head", "7/16-14", "sae_grade_8", "engine_oil", "65 lbf-in", "# <-"), """
        joints:
          water_pump: {kind: bolt, thread: M8x1.25, torque: 45 N*m}  # <-
        """),
)
def torque_unit_fits_the_fastener(
    torque: Torque, diameter: Length = None, share_of_proof: Fraction = None, torque_unit_meant: Text = None, joint_name: Choice = None,
    hole_material: Choice = None, tightening: Choice = None, *,
    small_size: Length = q("8.2 mm"), most_for_small: Torque = q("30 lbf-ft"), large_size: Length = q("11 mm"),
    least_for_large: Torque = q("15 N*m"),
):
    """Ninety on a cover bolt is pound-inches; a wrench set to pound-feet pulls its head off, or strips the casting.

    The torque as read is turned into a share of the bolt's proof load; where that is absurd and another unit makes it
    ordinary, the unit is wrong. Newton-meters and pound-feet lie so close that a share alone seldom tells them apart.
    Where the strength is not known only the size can be judged. Rocker bolts in soft heads have a rule of their own.
    """
    if diameter is None or tightening in ("torque_angle", "yield_angle"):
        return not_applicable("thread not known, or tightened by angle")
    if torque_unit_meant is not None:
        number = torque.text.removesuffix(torque.unit).strip()
        verdict = require(False, "error" if joint_name not in GASKETED_COVERS or share_of_proof > 1 else "warning")
        verdict.value = Fraction(share_of_proof)
        return verdict.telling(instead=f": {number} {torque_unit_meant}", trouble=(
            f"would take the fastener to {share_of_proof:.0%} of its proof load; {number} {torque_unit_meant} would be usual."))
    if share_of_proof is not None:
        return passes()
    soft_rocker = joint_name in ROCKER_JOINTS and hole_material in SOFT
    if diameter <= small_size and not soft_rocker:
        verdict = at_most(torque, warning=most_for_small)
    elif diameter >= large_size and joint_name in CRITICAL_JOINTS:
        verdict = at_least(torque, warning=least_for_large)
    else:
        return passes()
    much = "much" if diameter <= small_size else "little"
    return verdict.telling(instead="", trouble=f"is {much} for a fastener of this size.")


ROCKER = """
joints:
  rocker_intake: {kind: bolt, thread: M8x1.25, hole: {material: %s, repair: %s}, torque: %s}  %s
"""


@rule(
    scope="joint",
    level="warning",
    due="assembly",
    says="{torque} is much for an 8 mm thread in {where}; it is good for {limit}.{maker}",
    fix="Tighten rocker bolts of 8 mm to at most {limit} here; where they need more, fit thread inserts and write hole repair.",
    source="trade press: bare aluminum threads of 8 mm begin to fail about 44 N*m; lines drawn here common practice, no source",
    when={"torque": given},
    points_at=("torque",),
    conforming=(ROCKER % ("aluminum_356_t6", "none", "22 lbf-ft", ""), ROCKER % ("aluminum_356_t6", "wire_insert", "28 lbf-ft", "")),
    nonconforming=(ROCKER % ("aluminum_356_t6", "none", "28 lbf-ft", "# <-"), ROCKER % ("aluminum_356_t6", "wire_insert", "44 N*m", "# <-")),
)
def rocker_bolt_torque_suits_thread(
    torque: Torque, joint_name: Choice, diameter: Length = None, hole_material: Choice = None, hole_repair: Choice = None,
    torque_source: Choice = None, maker_torque: Torque = None, *,
    most_in_bare_aluminum: Torque = ROCKER_BOLT_TORQUE[0], most_in_insert: Torque = ROCKER_BOLT_TORQUE[1],
):
    """An 8 mm rocker bolt in bare aluminum pulls its thread with a torque that the bolt itself would shrug off.

    The rocker's bolts are tightened again at every look under the cover, and each time takes a little. This rule
    alone speaks of their torque in a soft head.
    """
    if joint_name not in ROCKER_JOINTS or hole_material not in SOFT:
        return not_applicable("not a rocker bolt in a soft head")
    if diameter is None or not 0.0075 <= diameter <= 0.0085:
        return not_applicable("not an 8 mm thread")
    inserted = hole_repair in ("wire_insert", "solid_insert")
    verdict = at_most(torque, warning=most_in_insert if inserted else most_in_bare_aluminum)
    verdict.telling(where="an insert in aluminum" if inserted else "bare aluminum")
    return defer_to_maker(verdict, torque, torque_source, maker_torque)
