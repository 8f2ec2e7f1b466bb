"""Clamp against gas: whether fasteners and gasket hold the head on the block."""

from buildlint.rulebook import *
from buildlint.tables.fasteners import EMBRITTLING

CLAMP = """
build: {peak_cylinder_pressure: %s}
block: {bore: 4.125 in, head_bolts_per_cylinder: %s}
head_gasket: {bore: 4.165 in}
joints:
  head: {kind: stud, thread: 7/16-20, hole_thread: 7/16-14, strength_class: 190_ksi, torque: %s, torque_given_for: moly_paste}  %s
"""


@rule(
    scope="joint",
    level="error",
    due="ordering",
    says="The {fasteners_round_bore} fasteners round a cylinder clamp {value} times the {head_lift_load} with which the gas lifts "
         "the head{low}{basis}.",
    fix="More or stronger studs, more torque as far as they bear it, or a gasket with rings of its own; it takes {preload_to_have:up} "
        "each.",
    source="trade press: about three times the lifting force; scatter after VDI 2230-1; lower lines common practice, no source",
    when={"joint_name": ("head",)},
    points_at=("torque", "strength_class"),
    conforming=(CLAMP % ("10.3 MPa", "5", "70 lbf-ft", ""), CLAMP % ("9 MPa", "5", "70 lbf-ft", "")),
    nonconforming=(CLAMP % ("10.3 MPa", "4", "60 lbf-ft", "# <-"), CLAMP % ("17 MPa", "4", "45 lbf-ft", "# <-"),
                   CLAMP % ("10.3 MPa", "4", "70 lbf-ft, tightening: impact", "# <-")),
)
def head_clamp_exceeds_gas_load(
    joint_name: Choice, joint_leads: YesNo = True, head_clamp_ratio: Ratio = None, head_clamp_ratio_low: Ratio = None,
    head_lift_load: Force = None, fasteners_round_bore: Count = None, intended_preload: Force = None, torque: Torque = None,
    strength_class: Choice = None, peak_cylinder_pressure_written: Pressure = None, peak_torque: Torque = None,
    lifting_diameter: Length = None, *,
    note_below: Ratio = q("3.0", "ratio"), warning_below: Ratio = q("2.5", "ratio"),
    lowest_warning_below: Ratio = q("1.6", "ratio"),
    lowest_error_below: Ratio = q("1.0", "ratio"),
):
    """Gas lifts the head off its gasket at every firing; what is left of the clamp then is what seals.

    About three times the lifting force is the trade's rule, two the textbook's. All fasteners round the bore are
    counted, though those between bores are shared, because neighbors do not fire together; a half share would give a
    quarter less. An error is a clamp that the gas overcomes when torque and friction come out low. Where no torque is
    written 0.75 of proof is taken.
    """
    if not joint_leads:
        return not_applicable("asked at the head joint")
    if None in (head_clamp_ratio, head_lift_load, intended_preload):
        return not_applicable("tension, bore, fasteners or pressure is not known")
    known = peak_cylinder_pressure_written is not None or peak_torque is not None
    low = "" if head_clamp_ratio_low is None else f", {head_clamp_ratio_low:.2f} times where torque and friction come out low"
    verdict = at_least(Ratio(head_clamp_ratio), warning=warning_below, note=note_below)
    if head_clamp_ratio_low is not None:
        lowest = at_least(Ratio(head_clamp_ratio_low), error=lowest_error_below, warning=lowest_warning_below)
        if lowest.level == "error" or lowest.level == "warning" and verdict.level != "warning":
            verdict.kind, verdict.level = lowest.kind, lowest.level
            verdict.limit, verdict.utilization = warning_below, warning_below / head_clamp_ratio
    if not known:
        verdict.within_level("warning")
    residual = ""
    if lifting_diameter is not None and head_clamp_ratio_low is not None:
        left = (head_clamp_ratio_low - 1) * head_lift_load / (3.14159265 * lifting_diameter) / 1000
        residual = f", which leaves {left:.0f} N/mm on the sealing ring" if left > 0 else ""
    return verdict.telling(low=low + residual, basis="" if known else "; the pressure is taken for the duty",
                           preload_to_have=Force(intended_preload * note_below / head_clamp_ratio))


SUITS = """
build: {peak_cylinder_pressure: %s}
block: {head_bolts_per_cylinder: %s}
joints:
  head: {kind: %s, strength_class: %s}  %s
"""


@rule(
    scope="joint",
    level="warning",
    due="ordering",
    says="{design_cylinder_pressure} of design pressure stands against {what}; that is usual up to {limit}.",
    fix="{remedy}",
    source="common practice, no source",
    when={"joint_name": ("head",)},
    points_at=("kind", "strength_class"),
    conforming=(SUITS % ("10 MPa", "5", "bolt", "sae_grade_8", ""), SUITS % ("13 MPa", "5", "stud", "190_ksi", "")),
    nonconforming=(SUITS % ("12 MPa", "5", "bolt", "sae_grade_8", "# <-"), SUITS % ("12 MPa", "4", "stud", "190_ksi", "# <-")),
)
def head_fasteners_suit_pressure(
    joint_name: Choice, joint_leads: YesNo = True, design_cylinder_pressure: Pressure = None, kind: Choice = None,
    strength_class: Choice = None,
    fasteners_round_bore: Count = None, yield_strength_written: Pressure = None, stress_area: Area = None, *,
    most_for_bolts: Pressure = q("12 MPa"), most_for_four: Pressure = q("12 MPa"), most_without_studs: Pressure = q("17 MPa"),
    usual_area: Area = q("76.6 mm^2"),
):
    """Production bolts and four to a cylinder are made for production pressures; boost and nitrous outgrow them.

    Design pressure is the peak with its strong cycles. Strong aftermarket bolts count as studs up to the higher line. Four
    to a cylinder are reckoned as 7/16 in (11 mm); larger ones carry more by their section, up to the line of five.
    """
    if not joint_leads or design_cylinder_pressure is None:
        return not_applicable("asked at the head joint, and pressure must be known")
    strong = strength_class in EMBRITTLING or yield_strength_written is not None and yield_strength_written >= 1.0e9
    if kind in ("bolt", "cap_screw"):
        limit = most_without_studs if strong else most_for_bolts
        verdict = at_most(Pressure(design_cylinder_pressure), limit)
        if verdict.kind == "fail":
            return verdict.telling(what="head bolts" if strong else "production head bolts",
                                   remedy="Fit studs of a 190 ksi class or better, with hard washers.")
    if fasteners_round_bore is not None and fasteners_round_bore < 5:
        larger = max(1.0, stress_area / usual_area) if stress_area is not None else 1.0
        verdict = at_most(Pressure(design_cylinder_pressure), Pressure(min(most_for_four * larger, max(most_for_four, most_without_studs))))
        return verdict.telling(what=f"{fasteners_round_bore} fasteners round a cylinder",
                               remedy="Take a block and heads with five or six to a cylinder, larger studs, or less pressure.")
    return passes() if kind is not None else not_applicable("the kind of fastener is not written")


GASKET = """
build: {peak_cylinder_pressure: %s}
head_gasket: {kind: %s}  %s
joints: {head: {kind: stud}}
"""


@rule(
    scope="joint",
    level="warning",
    due="ordering",
    says="A {head_gasket_kind} gasket is to hold {design_cylinder_pressure} of design pressure; it is usual up to {limit}.",
    fix="Take {better}.",
    source="common practice, no source",
    when={"joint_name": ("head",)},
    points_at=("head_gasket_kind",),
    conforming=(GASKET % ("9 MPa", "composite", ""), GASKET % ("14 MPa", "multilayer_steel", "")),
    nonconforming=(GASKET % ("12 MPa", "composite", "# <-"), GASKET % ("16 MPa", "copper", "# <-")),
)
def head_gasket_suits_pressure(
    joint_name: Choice, joint_leads: YesNo = True, head_gasket_kind: Choice = None, design_cylinder_pressure: Pressure = None,
    head_gasket_ring_wire_diameter: Length = None, *, most_for_soft: Pressure = q("12 MPa"),
    most_without_ring: Pressure = q("17 MPa"),
):
    """A soft gasket is pushed out between head and block when the pressure outgrows it; steel layers or wire rings hold.

    Copper needs its rings above the highest production pressures.
    """
    if not joint_leads or head_gasket_kind is None or design_cylinder_pressure is None:
        return not_applicable("asked at the head joint, with gasket and pressure known")
    if head_gasket_kind in ("composite", "graphite", "steel_shim"):
        verdict = at_most(Pressure(design_cylinder_pressure), most_for_soft)
        return verdict.telling(better="a multilayer steel gasket, and finish the decks for it")
    if head_gasket_kind == "copper" and head_gasket_ring_wire_diameter is None:
        verdict = at_most(Pressure(design_cylinder_pressure), most_without_ring)
        return verdict.telling(better="copper with wire rings in grooves, or multilayer steel")
    return passes()
