"""Threads, lubricant and torque: the tension a fastener really gets, and what it may bear."""

from buildlint.rulebook import *
from buildlint.tables.fasteners import CRITICAL_JOINTS, NUT_FACTORS, STRENGTH_CLASSES

HEAD = """
joints:
  head:
    {kind: stud, thread: 7/16-20, hole_thread: 7/16-14, strength_class: %s, lubricant: %s, face_lubricant: moly_paste,
     tightening: torque, torque: %s}  %s
"""


@rule(
    scope="joint",
    level="error",
    due="ordering",
    says="{torque} with {sliding_product} takes the fastener to {trouble}.",
    fix="Tighten to at most {torque_to_stay_under} with this lubricant, take a stronger class, or tighten by measured stretch. "
        "The maker's written torque wins.",
    source="VDI 2230 (tension and twist together); Shigley, Mechanical Engineering Design, 9th ed., section 8-9",
    when={"tightening": ("torque", "power_driver", "impact")},
    points_at=("torque",),
    conforming=(HEAD % ("190_ksi", "moly_paste", "65 lbf-ft", ""), HEAD % ("iso_10_9", "moly_paste", "45 lbf-ft", "")),
    nonconforming=(HEAD % ("190_ksi", "moly_paste", "95 lbf-ft", "# <-"), HEAD % ("sae_grade_8", "moly_paste", "70 lbf-ft", "# <-")),
)
def bolt_stays_below_yield(
    torque: Torque, preload: Force, proof_load: Force, yield_load: Force, tightening_stress: Pressure,
    yield_strength: Pressure, nut_factor: Ratio, strength_class: Choice = None, nut_factor_low: Ratio = None,
    sliding_product: Choice = None, *,
    error_proof: Fraction = q("1.00", "fraction"), warning_proof: Fraction = q("0.90", "fraction"),
    error_yield: Fraction = q("1.00", "fraction"), warning_yield: Fraction = q("0.90", "fraction"),
    slippery_warning: Fraction = q("1.15", "fraction"),
):
    """A reusable fastener tightened past proof stays stretched and no longer springs back on the joint.

    Counted are the tension against proof of the weakest section (of a stud the coarse end in the block), and
    tension and twist together against yield. Where the class is a stud steel known only by its tensile
    strength, proof and yield are assumed, and the finding counts one level lower; write the certified
    yield_strength to have it judged in full. Fasteners tightened into yield on purpose are not judged here.
    """
    share, combined = preload / proof_load, tightening_stress / yield_strength
    verdict = at_most(Fraction(share), error=error_proof, warning=warning_proof)
    trouble = f"{share:.0%} of its proof load"
    twisted = at_most(Fraction(combined), error=error_yield, warning=warning_yield)
    if _rank(twisted) > _rank(verdict):
        verdict, trouble = twisted, f"{combined:.0%} of yield, tension and twist together"
    if verdict.kind == "pass" and nut_factor_low:
        slippery = preload * nut_factor / nut_factor_low / yield_load
        if slippery > slippery_warning:
            verdict = at_most(Fraction(slippery), warning=slippery_warning)
            trouble = f"{slippery:.0%} of yield where the thread is as slippery as it may be"
    if strength_class in STRENGTH_CLASSES and not STRENGTH_CLASSES[strength_class][3]:
        verdict.level = {"error": "warning", "warning": "note"}.get(verdict.level, verdict.level)
    worst = max(share / warning_proof, combined / warning_yield)
    return verdict.telling(trouble=trouble, torque_to_stay_under=Torque(torque / worst))


def _rank(verdict):
    return ("note", "warning", "error").index(verdict.level) + 1 if verdict.kind == "fail" else 0


@rule(
    scope="joint",
    level="error",
    due="ordering",
    says="{torque} with {sliding_product} gives only {trouble}.",
    fix="Raise the torque towards {torque_to_reach} if the maker's instruction allows it, or tighten by a method that scatters "
        "less.",
    source="Shigley, Mechanical Engineering Design, 9th ed., section 8-9 and Tables 8-13, 8-14; VDI 2230",
    when={"tightening": ("torque", "power_driver", "impact")},
    points_at=("torque",),
    conforming=HEAD % ("190_ksi", "moly_paste", "65 lbf-ft", ""),
    nonconforming=(HEAD % ("190_ksi", "moly_paste", "25 lbf-ft", "# <-"), HEAD % ("190_ksi", "engine_oil", "50 lbf-ft", "# <-")),
)
def bolt_preload_is_high_enough(
    torque: Torque, preload: Force, preload_low: Force, proof_load: Force, joint_name: Choice = None,
    sliding_product: Choice = None, *,
    error_below: Fraction = q("0.40", "fraction"), warning_below: Fraction = q("0.60", "fraction"),
    lowest_warning_below: Fraction = q("0.45", "fraction"), general_note_below: Fraction = q("0.40", "fraction"),
):
    """A fastener that is not stretched enough lets the joint breathe: gaskets leak, bolts loosen and break.

    A critical joint wants 60 percent of proof, and 45 percent still where the torque wrench and the thread did
    their worst. Others are only noted below 40 percent. Textbooks aim at 75 percent.
    """
    share, lowest = preload / proof_load, preload_low / proof_load
    aim = Torque(torque * 0.70 / share)
    if joint_name not in CRITICAL_JOINTS:
        verdict, trouble = at_least(Fraction(share), note=general_note_below), f"{share:.0%} of proof load"
    else:
        verdict, trouble = at_least(Fraction(share), error=error_below, warning=warning_below), f"{share:.0%} of proof load"
        if verdict.kind == "pass" and lowest < lowest_warning_below:
            verdict = at_least(Fraction(lowest), warning=lowest_warning_below)
            trouble = f"{lowest:.0%} of proof load where torque and friction come out low"
    return verdict.telling(trouble=trouble, torque_to_reach=aim)


LUBRICANT = """
joints:
  head: {kind: stud, thread: 7/16-20, lubricant: %s, face_lubricant: moly_paste, torque: 70 lbf-ft, torque_given_for: %s}  # <-
"""


@rule(
    scope="joint",
    level="error",
    due="assembly",
    says="The torque is given for {torque_given_for}, but {sliding_product} is on the thread: the tension comes out {share} of "
         "what is meant.",
    fix="Ask the maker for the torque with {sliding_product}; by the usual nut factors it would be {converted_torque}, written "
        "with torque_source: converted.",
    source="T = K d F, Shigley Eq. 8-27; converting by the ratio of nut factors: common practice, no source",
    points_at=("torque_given_for", "lubricant"),
    conforming=(LUBRICANT % ("moly_paste", "moly_paste")).replace("  # <-", ""),
    nonconforming=(LUBRICANT % ("moly_paste", "engine_oil"), LUBRICANT % ("engine_oil", "moly_paste")),
)
def torque_belongs_to_lubricant_used(
    torque_given_for: Choice, sliding_product: Choice, torque: Torque, joint_name: Choice = None, torque_source: Choice = None, *,
    critical_beyond: Fraction = q("0.15", "fraction"), warning_beyond: Fraction = q("0.10", "fraction"),
):
    """The wrench feels friction, not tension: a torque printed for oil overtightens by a quarter on moly.

    Charts differ in what they take off; here it is the ratio of the usual nut factors. Converting carries the
    doubt of both figures, so the maker's own torque for the lubricant used is better.
    """
    if torque_given_for == sliding_product or torque_source in ("converted", "computed"):
        return passes()
    given_for, used = NUT_FACTORS.get(torque_given_for), NUT_FACTORS.get(sliding_product)
    if given_for is None or used is None:
        return require(False, "warning").telling(share="another share", converted_torque="another value")
    share = given_for[1] / used[1]
    critical = critical_beyond if joint_name in CRITICAL_JOINTS else None
    verdict = at_most(Fraction(abs(share - 1)), error=critical, warning=warning_beyond)
    return verdict.telling(share=f"{share:.0%}", converted_torque=Torque(torque / share))


NAMED = """
build: {stage: assembly}
joints:
  head: {kind: stud, thread: 7/16-20, torque: 70 lbf-ft, lubricant: moly_paste%s}  %s
"""


@rule(
    scope="joint",
    level="error",
    due="assembly",
    says="Nothing is written of the lubricant {where}; the same torque can then make anything from {least} to {most}.",
    fix="Write lubricant for the thread and face_lubricant for the face that turns; where there is none, write dry.",
    source="Shigley, Mechanical Engineering Design, 9th ed., section 8-8; VDI 2230 friction classes",
    when={"torque": given},
    points_at=("torque",),
    conforming=NAMED % (", face_lubricant: moly_paste", ""),
    nonconforming=NAMED % ("", "# <-"),
)
def critical_fastener_names_its_lubricant(
    torque: Torque, joint_name: Choice, diameter: Length, sliding_product: Choice = None, face_lubricant: Choice = None, *,
    slippery: Ratio = q("0.10", "ratio"), sticky: Ratio = q("0.30", "ratio"),
):
    """Without the lubricant a torque says little: the tension of a critical joint may lie anywhere within a factor of three."""
    if joint_name not in CRITICAL_JOINTS:
        return not_applicable("not a critical joint")
    missing = {"lubricant": "on the thread"} if sliding_product is None else {}
    if face_lubricant is None:
        missing["face_lubricant"] = "under the turning face"
    if not missing:
        return passes()
    return wanting(*missing).telling(where=" and ".join(missing.values()), least=Force(torque / sticky / diameter),
                                     most=Force(torque / slippery / diameter))


ENGAGED = """
joints:
  head: {thread: 7/16-14, engagement_length: %s, hole: {material: %s, repair: none}}  %s
"""


@rule(
    scope="joint",
    level="error",
    due="ordering",
    says="The thread is engaged for {value} diameters; {hole_material} wants {limit}.",
    fix="Engage {length_to_reach} of full thread: a longer fastener where the hole is deep enough, else a thread insert.",
    source="steel stud in cast iron 1.5 d, in aluminum 2 d: machine-design handbooks, from memory; the lines drawn here: common "
           "practice, no source",
    points_at=("engagement_length",),
    conforming=(ENGAGED % ("0.875 in", "cast_iron", ""), ENGAGED % ("0.900 in", "aluminum_356_t6", "")),
    nonconforming=(ENGAGED % ("0.400 in", "cast_iron", "# <-"), ENGAGED % ("0.600 in", "aluminum_356_t6", "# <-")),
)
def thread_engagement_is_long_enough(
    engagement_ratio: Ratio, diameter: Length, hole_material: Choice, hole_repair: Choice = None, *,
    note_below={"cast_iron": 1.25, "ductile_iron": 1.25, "compacted_iron": 1.25, "aluminum": 2.0, "wrought_aluminum": 1.6,
                "steel": 1.0, "insert": 1.5},
    warning_below={"cast_iron": 1.0, "ductile_iron": 1.0, "compacted_iron": 1.0, "aluminum": 1.5, "wrought_aluminum": 1.25,
                   "steel": 0.8, "insert": 1.25},
):
    """Too little thread strips out of the casting before the fastener is tight, or the tenth time it is.

    Length over diameter is a stand-in for the force it takes to strip the thread; where that force can be
    worked out, the rule on it decides.
    """
    row = hole_material
    if hole_repair in ("wire_insert", "solid_insert"):
        row = "insert"
    elif hole_material in ("aluminum_6082", "aluminum_7075"):
        row = "wrought_aluminum"
    elif hole_material.startswith("aluminum") or hole_material == "magnesium":
        row = "aluminum"
    elif hole_material == "steel_sheet":
        row = "steel"
    verdict = at_least(engagement_ratio, warning=warning_below[row], note=note_below[row])
    return verdict.telling(length_to_reach=Length(note_below[row] * diameter))


STUD = """
joints:
  head: {kind: stud, stud_install_torque: %s}  %s
"""


@rule(
    scope="joint",
    level="warning",
    due="assembly",
    says="The studs are driven into the casting with {stud_install_torque}; set them by hand, at most {most}.",
    fix="Run them in with fingers or a small key, {usual} or so; the nut does the clamping. Fit sealed studs and torque the nuts "
        "before the product sets.",
    source="common practice, no source",
    when={"kind": ("stud",)},
    points_at=("stud_install_torque",),
    conforming=(STUD % ("2 lbf-ft", ""), STUD % ("5 lbf-ft", "")),
    nonconforming=(STUD % ("6 lbf-ft", "# <-"), STUD % ("20 lbf-ft", "# <-")),
)
def stud_is_set_finger_tight(
    stud_install_torque: Torque, stud_fit: Choice = None, *, most: Torque = q("5 lbf-ft"), usual: Torque = q("2 lbf-ft"),
):
    """A stud torqued into the block pushes on the bottom of its hole or spreads its last thread before the nut is even on.

    Two foot-pounds snug it, five is the most. Studs made for an interference fit are driven by design and are not
    judged.
    """
    if stud_fit == "interference":
        return not_applicable("driven by design")
    return at_most(stud_install_torque, most)
