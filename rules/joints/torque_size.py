"""Whether a torque is of the size that its fastener bears: its unit, and 8 mm rocker bolts in soft heads."""

from buildlint.precedence import defer_to_maker
from buildlint.rulebook import *
from buildlint.tables.fasteners import CRITICAL_JOINTS, GASKETED_COVERS, ROCKER_BOLT_TORQUE, ROCKER_JOINTS
from buildlint.tables.joint_metals import SOFT

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
    torque: Torque, diameter: Length = None, share_of_proof: Fraction = None, torque_unit_meant: Text = None,
    joint_name: Choice = None,
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
    conforming=(ROCKER % ("aluminum_356_t6", "none", "22 lbf-ft", ""),
                ROCKER % ("aluminum_356_t6", "wire_insert", "28 lbf-ft", "")),
    nonconforming=(ROCKER % ("aluminum_356_t6", "none", "28 lbf-ft", "# <-"),
                   ROCKER % ("aluminum_356_t6", "wire_insert", "44 N*m", "# <-")),
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
