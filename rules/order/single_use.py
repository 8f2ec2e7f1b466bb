"""Parts that are fitted once and bought new, and the spares of what is small and made to order."""

from buildlint.rulebook import *
from buildlint.tables.order_items import JOINT_OF, MOLDED, SMALL_AND_CRITICAL, USED_ONCE, WORN_IN, first_line

MARK = "  # <-"
ONCE = """
joints: {head: {kind: bolt, reuse: %s}}
order:
  items:
    - {item: %s, quantity: 20, condition: %s}%s
"""


@rule(
    scope="item",
    level="error",
    due="ordering",
    says="The {item} is used, though it is fitted only once.",
    fix="Order it new; keep the old one for the mock-up.",
    source="makers' manuals for bolts drawn into yield; common practice, no source",
    points_at=("condition", "item"),
    conforming=(ONCE % ("once_only", "head_bolt", "new", ""), ONCE % ("reusable", "head_bolt", "reused", ""), ONCE % ("reusable", "crank", "reused", ""),
                "joints: {head: {kind: bolt, reuse: once_only, condition: new}}\norder: {items: [{item: camshaft, quantity: 1}]}"),
    nonconforming=(ONCE % ("once_only", "head_bolt", "reused", MARK), ONCE % ("reusable", "rear_main_seal", "reused", MARK),
                   ONCE % ("reusable", "valve_cover_gasket", "reused", MARK), ONCE % ("reusable", "main_bearing_set", "reused", MARK),
                   "joints: {head: {kind: bolt, reuse: once_only}}  # <-\norder: {items: [{item: camshaft, quantity: 1}]}",
                   "head_gasket: {condition: reused}  # <-\norder: {items: [{item: camshaft, quantity: 1}]}"),
)
def one_use_parts_are_bought_new(
    item: Choice, line: Count, ordered_pieces: Entries, condition: Choice = None, head_gasket_condition: Choice = None,
    rear_main_seal_condition: Choice = None, front_seal_condition: Choice = None, intake_seal_condition: Choice = None,
    exhaust_seal_condition: Choice = None, head_joint_fitted_once: YesNo = None, main_joint_fitted_once: YesNo = None,
    rod_joint_fitted_once: YesNo = None, damper_joint_fitted_once: YesNo = None, flywheel_joint_fitted_once: YesNo = None,
    head_joint_condition: Choice = None, main_joint_condition: Choice = None, rod_joint_condition: Choice = None,
    damper_joint_condition: Choice = None, flywheel_joint_condition: Choice = None, head_joint_kind: Choice = None,
    head_fasteners_needed: Count = None,
):
    """What was crushed, cured or stretched once does not seal or spring a second time.

    Molded rubber gaskets bear it now and then, and shells that are not marked may go back to their own place: a
    warning. Bolts count when their joint says once_only or is tightened into yield; they must be on the order, or
    their joint say that new ones are there. What the spec calls reused is told at the first line.
    """
    once = {"head": (head_joint_fitted_once, head_joint_condition), "main": (main_joint_fitted_once, main_joint_condition),
            "rod": (rod_joint_fitted_once, rod_joint_condition), "damper": (damper_joint_fitted_once, damper_joint_condition),
            "flywheel": (flywheel_joint_fitted_once, flywheel_joint_condition)}
    used = condition not in (None, "new")
    said = item.replace("_", " ")
    if used and (item in USED_ONCE or once.get(JOINT_OF.get(item), (None,))[0]):
        level = "warning" if item in MOLDED else None
        return require(False, level).saying("{what}").telling(what=f"The {said} is {condition.replace('_', ' ')}, though it is fitted only once.")
    if used and item in WORN_IN and condition != "reconditioned":
        return require(False, "warning").saying("{what}").telling(what=f"The {said} is {condition.replace('_', ' ')}.")
    if line != 1:
        return passes()
    spoken = (("head_gasket", head_gasket_condition, "head_gasket_condition"), ("rear_main_seal", rear_main_seal_condition, "rear_main_seal_condition"),
              ("front_seal", front_seal_condition, "front_seal_condition"), ("stem_seal", intake_seal_condition, "intake_seal_condition"),
              ("stem_seal", exhaust_seal_condition, "exhaust_seal_condition"))
    for name, state, word in spoken:
        if state not in (None, "new"):
            return require(False).at(word).saying("{what}").telling(what=f"The {name.replace('_', ' ')} is {state.replace('_', ' ')}, though it is fitted only once.")
    for joint, names in (("head", ("head_bolt", "head_stud")), ("main", ("main_fastener",)), ("rod", ("rod_bolt",)),
                         ("damper", ("damper_bolt",)), ("flywheel", ("flywheel_bolt",))):
        fitted_once, state = once[joint]
        if fitted_once and state != "new" and not any(name in ordered_pieces for name in names):
            count = f", {head_fasteners_needed} pieces" if joint == "head" and head_fasteners_needed else ""
            return require(False).at(f"{joint}_joint_reuse", f"{joint}_joint_tightening").saying("{what}", "{how}").telling(
                what=f"The fasteners of the {joint} joint are fitted only once, and no new ones are on the order.",
                how=f"Order them new{count}; keep the old ones for the mock-up. Where new ones are there already, write condition: new.")
    return passes()


SPARES = """
engine: {cylinders: 8}
order:
  items:
    - {item: pushrod, side: both, quantity: %s, lead_time: 21 days}%s
"""


@rule(
    scope="item",
    level="note",
    due="ordering",
    says="{ordered_altogether} {pieces} are ordered, exactly what the engine takes; a lost one costs {lead_altogether}.",
    fix="Add one of each length or kind as a spare.",
    source="common practice, no source",
    when={"item": SMALL_AND_CRITICAL, "lead_time": given},
    points_at=("quantity",),
    conforming=(SPARES % ("18", ""), (SPARES % ("16", "")).replace("21", "5"), "engine: {cylinders: 8}\norder: {items: [{item: pushrod, quantity: 16}]}"),
    nonconforming=SPARES % ("16", MARK),
)
def spares_are_foreseen(item: Choice, line: Count, quantity: Count, ordered_altogether: Count, lead_altogether: Time, order_lines: Entries,
                        needed: Count = None, *, long: Time = q("21 days")):
    """A lock half rolls under the bench, a pushrod measures bent; what is made to order is missing for weeks.

    Asked only where the line says that the part takes three weeks or more; what lies on every shelf needs no spare.
    """
    if needed is None or line != first_line(order_lines, lambda row: row["item"] == item):
        return not_applicable("no count is known for it, or it is told at its first line")
    name = item.replace("_", " ")
    return require(lead_altogether < long * (1 - 1e-9) or ordered_altogether != needed).telling(pieces=name if name.endswith("s") else f"{name}s")
