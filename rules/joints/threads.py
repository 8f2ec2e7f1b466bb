"""Whether the tapped hole holds what its fastener pulls."""

from buildlint.rulebook import *
from buildlint.tables.fasteners import CRITICAL_JOINTS, ROCKER_JOINTS
from buildlint.tables.joint_metals import TAPPED_METALS

ENGAGED = """
joints:
  head: {kind: bolt, thread: 7/16-14, engagement_length: %s, hole: {material: %s, repair: %s}}  %s
"""


@rule(
    scope="joint",
    level="error",
    due="ordering",
    says="The thread is engaged for {value} diameters; {metal} wants {limit}.",
    fix="Engage {length_to_reach:up} of full thread: a longer fastener where the hole is deep enough, else a thread insert.",
    source="steel stud in cast iron 1.5 d, in aluminum 2 d: machine-design handbooks, from memory; the lines drawn here: common "
           "practice, no source",
    points_at=("engagement_length_written", "length"),
    compares=("engagement_length",),
    when={"engagement_ratio": given},
    conforming=(ENGAGED % ("0.875 in", "cast_iron", "none", ""), ENGAGED % ("0.900 in", "aluminum_356_t6", "none", ""),
                ENGAGED % ("0.660 in", "aluminum_356_t6", "wire_insert", ""), """
        joints:
          rod: {kind: nut_on_through_bolt, thread: 3/8-24, engagement_length: 0.30 in, hole: {material: steel}}
        """),
    nonconforming=(ENGAGED % ("0.400 in", "cast_iron", "none", "# <-"), ENGAGED % ("0.600 in", "aluminum_356_t6", "none", "# <-"), """
        block: {material: cast_iron}
        joints:
          main: {kind: bolt, thread: 1/2-13, length: 2.90 in, grip_length: 2.40 in}  # <-
        """),
)
def thread_engagement_is_long_enough(
    engagement_ratio: Ratio, casting_thread: Thread, hole_material: Choice = None, hole_repair: Choice = None, kind: Choice = None,
    engagement_length: Length = None, length: Length = None, strip_load: Force = None, intended_preload: Force = None,
    breaking_load: Force = None, joint_name: Choice = None, *,
    strips_below: Ratio = q("1.25", "ratio"),
    note_below={"cast_iron": 1.25, "ductile_iron": 1.25, "compacted_iron": 1.25, "aluminum": 2.0, "wrought_aluminum": 1.6,
                "steel": 1.0, "insert": 1.5},
    warning_below={"cast_iron": 1.0, "ductile_iron": 1.0, "compacted_iron": 1.0, "aluminum": 1.5, "wrought_aluminum": 1.25,
                   "steel": 0.8, "insert": 1.25},
):
    """Too little thread strips out of the casting before the fastener is tight, or the tenth time it is.

    Length over diameter is a stand-in for the force it takes to strip the thread; where that force and the fastener's
    tension are known, the rule on it decides and this one only notes. A bolt that passes through to a nut is not asked.
    """
    if kind == "nut_on_through_bolt":
        return not_applicable("held by a nut")
    if hole_material is None:
        return not_applicable("the metal of the hole is not known")
    stripping = strip_load / intended_preload if strip_load is not None and intended_preload is not None else None
    if stripping is not None and stripping < strips_below:
        return not_applicable("the force that strips the thread decides")
    if stripping is not None and breaking_load is not None and joint_name in CRITICAL_JOINTS and joint_name not in ROCKER_JOINTS:
        return not_applicable("the force that strips the thread is held against preload and breaking load")
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
    if stripping is not None:
        verdict.within_level("note")
    metal = "a thread insert" if row == "insert" else hole_material.replace("_", " ")
    return verdict.telling(length_to_reach=Length(note_below[row] * casting_thread.diameter), metal=metal)


STRIPS = """
joints:
  head:
    {kind: stud, thread: 7/16-20, hole_thread: 7/16-14, strength_class: 190_ksi, lubricant: moly_paste, face_lubricant: moly_paste, torque: 70 lbf-ft,
     engagement_length: %s, hole: {material: %s}}  %s
"""


@rule(
    scope="joint",
    level="error",
    due="ordering",
    says="The tapped thread strips at {strip_load}; the fastener pulls {intended_preload}{doubt}.",
    fix="Engage {length_to_reach:up} of full thread, fit a thread insert, or tighten less.",
    source="FED-STD-H28/2B; Machinery's Handbook, working strength of threads; shear strength of the metals as tabled",
    when={"strip_load": given},
    points_at=("engagement_length_written", "length"),
    conforming=(STRIPS % ("0.700 in", "cast_iron", ""), STRIPS % ("1.00 in", "aluminum_356_t6", ""),
                STRIPS % ("1.10 in", "aluminum_cast", "")),
    nonconforming=(STRIPS % ("0.660 in", "aluminum_356_t6", "# <-"), STRIPS % ("0.875 in", "aluminum_356_t6", "# <-"),
                   STRIPS % ("0.400 in", "cast_iron", "# <-")),
)
def tapped_thread_outlasts_preload(
    strip_load: Force, engagement_length: Length, intended_preload: Force = None, hole_material: Choice = None,
    hole_tensile_strength: Pressure = None, *, error_below: Ratio = q("1.0", "ratio"), warning_below: Ratio = q("1.25", "ratio"),
):
    """A bolt may be stronger than the hole it is in: then the casting gives first, with the engine half together.

    The shear area is that of the smallest thread in the largest hole the usual classes allow. An alloy known only as
    a kind of casting counts as a warning at most; write hole tensile_strength to have it judged in full.
    """
    if intended_preload is None:
        return not_applicable("the tension is not known")
    verdict = at_least(Ratio(strip_load / intended_preload), error=error_below, warning=warning_below)
    doubt = ""
    if hole_tensile_strength is None and not TAPPED_METALS.get(hole_material, (0, 0, False))[2]:
        verdict.within_level("warning")
        doubt = f" (the strength of {str(hole_material).replace('_', ' ')} is assumed)"
    return verdict.telling(length_to_reach=Length(engagement_length * warning_below * intended_preload / strip_load), doubt=doubt)


@rule(
    scope="joint",
    level="note",
    due="ordering",
    says="The thread strips at {strip_load}, before the fastener breaks at {breaking_load}: an overtightened stud takes the "
         "casting along.",
    fix="{length_to_reach:up} of full thread would let the stud break first; else keep to measured stretch or a checked wrench.",
    source="FED-STD-H28/2B; Machinery's Handbook: the fastener should break before its thread strips",
    when={"strip_load": given},
    points_at=("engagement_length_written", "length"),
    conforming=(STRIPS % ("0.700 in", "cast_iron", ""), """
        joints:
          oil_pan: {kind: bolt, thread: 1/4-20, strength_class: sae_grade_5, engagement_length: 0.2 in, hole: {material: cast_iron}}
        """),
    nonconforming=STRIPS % ("0.95 in", "aluminum_356_t6", "# <-"),
)
def bolt_breaks_before_thread(strip_load: Force, engagement_length: Length, breaking_load: Force = None, joint_name: Choice = None):
    """A broken stud is replaced in an hour; a stripped casting is repaired by a machine shop.

    High-strength studs in aluminum seldom reach it without an insert; that is known and lived with, hence a note.
    """
    if joint_name not in CRITICAL_JOINTS or joint_name in ROCKER_JOINTS or breaking_load is None:
        return not_applicable("not a joint that is drawn near its strength, or the fastener's is not known")
    verdict = at_least(Ratio(strip_load / breaking_load), Ratio(1.0))
    return verdict.telling(length_to_reach=Length(engagement_length * breaking_load / strip_load))
