"""What a joint loses after it was tightened, and the retorque that answers it."""

from buildlint.rulebook import *
from buildlint.tables.fasteners import CRITICAL_JOINTS, GASKETED_COVERS

SETTLES = """
joints:
  %s: {kind: bolt, thread: %s, strength_class: sae_grade_8, lubricant: engine_oil, torque: %s, grip_length: %s, clamped: {material: %s}%s}  %s
"""


@rule(
    scope="joint",
    level="warning",
    due="assembly",
    says="The faces of this short joint settle; that takes {value} of its tension away.",
    fix="Retorque it once after the first heat and write retorqued, lock it, or use a longer bolt with a thick washer or sleeve.",
    source="VDI 2230, edition of 1986, from memory",
    when={"settling_loss": given},
    points_at=("grip_length", "torque"),
    conforming=(SETTLES % ("head", "7/16-14", "60 lbf-ft", "3.0 in", "cast_iron", "", ""),
                SETTLES % ("cam_sprocket", "5/16-18", "14 lbf-ft", "0.15 in", "steel", ", locked_by: threadlocker", ""),
                SETTLES % ("oil_pan", "1/4-20", "70 lbf-in", "0.10 in", "steel", "", "")),
    nonconforming=SETTLES % ("cam_sprocket", "5/16-18", "14 lbf-ft", "0.15 in", "steel", "", "# <-"),
)
def short_bolt_allows_for_settling(
    settling_loss: Force, preload: Force = None, joint_name: Choice = None, locked_by: Choice = None, retorqued: Choice = None,
    thread_product: Choice = None, tightening: Choice = None, grip_length: Length = None, torque: Torque = None, *,
    warning_above: Fraction = q("0.10", "fraction"), other_warning_above: Fraction = q("0.20", "fraction"),
):
    """A short bolt has hardly any stretch to live on: a few thousandths of a millimeter of settling and it is loose.

    The loss is a rough figure, so it is a warning for critical joints and only beyond a fifth for others. Joints that
    are locked or retorqued have their answer; covers with a gasket settle by far more than this and are not judged.
    """
    if preload is None or joint_name in GASKETED_COVERS:
        return not_applicable("the tension is not known, or the joint has a gasket")
    if locked_by not in (None, "preload_only") or retorqued in ("after_first_heat_cold", "done") or tightening == "yield_angle":
        return passes()
    if thread_product in ("threadlocker_medium", "threadlocker_high", "sealing_threadlocker"):
        return passes()
    share = Fraction(settling_loss / preload)
    if joint_name in CRITICAL_JOINTS:
        return at_most(share, warning=warning_above)
    return at_most(share, warning=other_warning_above, note=warning_above)


RETORQUE = """
head_gasket: {kind: %s, retorque: %s}
joints:
  head: {kind: bolt, tightening: %s, %s}  %s
"""


@rule(
    scope="joint",
    level="error",
    due="assembly",
    says="{trouble}",
    fix="{remedy}",
    source="gasket makers' general instructions; factory practice for yield bolts; common practice, no source",
    when={"joint_name": ("head",)},
    points_at=("retorqued", "head_gasket_retorque", "tightening"),
    conforming=(RETORQUE % ("multilayer_steel", "none", "torque", "retorqued: none", ""),
                RETORQUE % ("composite", "none", "torque", "count: 34", ""),
                RETORQUE % ("copper", "after_first_heat_cold", "torque", "count: 34", "")),
    nonconforming=(RETORQUE % ("composite", "none", "yield_angle", "retorqued: after_first_heat_cold", "# <-"), """
        head_gasket: {kind: copper, retorque: none}  # <-
        joints: {head: {kind: stud}}
        """),
)
def retorque_suits_the_gasket(
    joint_name: Choice, joint_leads: YesNo = True, head_gasket_kind: Choice = None, head_gasket_retorque: Choice = None,
    retorqued: Choice = None,
    tightening: Choice = None, reuse: Choice = None,
):
    """Some gaskets take a set in the first heat and want the bolts drawn once more; others are spoilt by it.

    Multilayer steel wants none. Solid copper wants it, cold, in the same order, one fastener at a time. Composite goes
    by its maker: many say none. A bolt drawn into yield must not be turned again.
    """
    if not joint_leads:
        return not_applicable("asked at the head joint")
    again = retorqued in ("after_first_heat_cold", "done") or head_gasket_retorque in ("after_first_heat_cold", "done")
    if again and tightening == "yield_angle":
        return require(False).telling(trouble="The head bolts are drawn into yield, yet a retorque is written.",
                                      remedy="Write retorque: none; these bolts are replaced, never turned again.")
    if again and head_gasket_kind == "multilayer_steel":
        return require(False, "note").telling(trouble="A multilayer gasket is to be retorqued; its maker seldom asks for that.",
                                              remedy="Write retorque: none unless the maker's sheet says otherwise.")
    if head_gasket_kind == "copper" and head_gasket_retorque == "none" and retorqued in (None, "none"):
        return require(False, "warning").telling(
            trouble="No retorque is planned for a solid copper gasket; it takes a set in the first heat.",
            remedy="After the first heat, cold, back each fastener off an eighth of a turn and draw it to full torque again, in order.")
    return passes() if head_gasket_kind is not None else not_applicable("the gasket is not written")
