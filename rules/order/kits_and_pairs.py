"""What belongs together on the order: left and right, kits and what they leave out, one length or two, single-use parts."""

from buildlint.rulebook import *
from buildlint.tables.order_items import (
    IN_A_GASKET_SET, JOINT_OF, MOLDED, SMALL_AND_CRITICAL, USED_ONCE, WITH_STUDS, WORN_IN, first_line, item_called,
)

MARK = "  # <-"
LENGTHS = """
intake: {pushrod: {zero_lash_length: 7.780 in}}
exhaust: {pushrod: {zero_lash_length: %s}}%s
lifters: {kind: hydraulic_roller, preload: 0.030 in}
order:
  items:
    - {item: pushrod, side: both, quantity: 16, length: 7.800 in}
"""


@rule(
    scope="side",
    level="warning",
    due="ordering",
    says="One pushrod length is ordered for both sides, but intake and exhaust want lengths that differ by {value}.",
    fix="Order two lengths: {intake_length} for the intake and {exhaust_length} for the exhaust, as many of each as there are cylinders.",
    source="common practice, no source; lengths are sold in steps of 0.050 in",
    points_at=("pushrod_zero_lash_length",),
    conforming=(LENGTHS % ("7.790 in", ""), (LENGTHS % ("7.860 in", "")).replace("side: both, quantity: 16, length: 7.800 in}", """side: intake, quantity: 8, length: 7.800 in}
    - {item: pushrod, side: exhaust, quantity: 8, length: 7.900 in}""")),
    nonconforming=LENGTHS % ("7.860 in", MARK),
)
def pushrod_lengths_are_split(
    side_name: Choice, order_lines: Entries = None, intake_pushrod_length_to_order: Length = None,
    exhaust_pushrod_length_to_order: Length = None, pushrod_zero_lash_length: Length = None, *, apart: Length = q("0.025 in"),
):
    """Valves that stand at different heights, or a raised exhaust port, move the cup of one row and not of the other.

    Half the step in which lengths are sold can be taken up by preload or an adjuster; more cannot. Told once, at the
    exhaust.
    """
    lengths = intake_pushrod_length_to_order, exhaust_pushrod_length_to_order
    rows = [row for row in order_lines or () if row["item"] == "pushrod"]
    if side_name == "intake" or None in lengths or not rows:
        return not_applicable("told at the exhaust, where both lengths and an order are known")
    ordered = {row.get("length") for row in rows}
    if len(ordered) > 1 or not any(row.get("side") in (None, "both") for row in rows) and None in ordered:
        return passes()
    return at_most(abs(lengths[0] - lengths[1]), apart).telling(intake_length=Length(lengths[0]), exhaust_length=Length(lengths[1]))


HANDED = """
engine: {layout: v}
heads: {handing: pair, per_engine: 2}
order:
  items:
    - {item: head, bank: %s, quantity: %s}%s
    - {item: head, bank: %s, quantity: 1}%s
"""


@rule(
    scope="item",
    level="error",
    due="ordering",
    says="Left and right of {item} are not ordered in the same number.",
    fix="Order as many left as right, looked at from behind the flywheel, and compare the marks when they come.",
    source="common practice, no source",
    when={"bank": given},
    points_at=("bank",),
    conforming=(HANDED % ("left", "1", "", "right", ""), "heads: {handing: both}\norder: {items: [{item: head, bank: both, quantity: 2}]}"),
    nonconforming=(HANDED % ("left", "1", MARK, "left", ""), HANDED % ("left", "2", MARK, "right", ""),
                   "heads: {handing: pair}\norder: {items: [{item: head, bank: both, quantity: 2}]}  # <-"),
)
def left_and_right_parts_are_paired(
    item: Choice, bank: Choice, line: Count, quantity: Count, order_lines: Entries, layout: Choice = None,
    head_handing: Choice = None, head_gasket_handing: Choice = None,
):
    """Two left heads fit one engine badly, and are found on the day they are unpacked.

    Lines that say left or right are counted against each other. Heads and gaskets that the spec calls a pair are not
    ordered as fitting either side.
    """
    if bank == "pair":
        return not_applicable("each is a left and a right")
    if bank == "both":
        handing = {"head": head_handing, "head_gasket": head_gasket_handing}.get(item)
        return require(handing != "pair").saying("{what}").telling(what=f"{item.replace('_', ' ').capitalize()}s are ordered to fit either side; the spec says they come as a left and a right.")
    if layout == "inline":
        return not_applicable("one bank")
    rows = [row for row in order_lines if row["item"] == item and row.get("bank") in ("left", "right")]
    if line != first_line(order_lines, lambda row: row in rows):
        return not_applicable("told at the first line of its kind")
    left, right = (sum(row.get("quantity", 0) * row.get("per_set", 1) for row in rows if row["bank"] == name) for name in ("left", "right"))
    return require(left == right).saying("{what}").telling(what=f"{left} left and {right} right of {item.replace('_', ' ')} are ordered.")


SET = """
order:
  items:
    - {item: gasket_set, quantity: 1, contains: [head gaskets, intake gaskets, exhaust gaskets, rocker cover gaskets, pan gasket, timing cover gasket, valve seals%s]}%s
    - {item: camshaft, quantity: 1}
%s"""


@rule(
    scope="item",
    level="error",
    due="ordering",
    says="The {item} comes without a part that the engine needs, and nothing else on the order brings it.",
    fix="Add what is missing to the order, or to contains where the kit holds it.",
    source="arithmetic; what a full set holds is common practice, no source",
    when={"item": ("gasket_set", "head_stud")},
    points_at=("contains", "item"),
    conforming=(SET % (", rear main seal, timing cover seal", "", ""), SET % ("", "", "    - {item: rear_main_seal, quantity: 1}\n    - {item: front_seal, quantity: 1}\n"),
                "order: {items: [{item: head_stud, quantity: 34, contains: [nuts, washers]}]}",
                "order: {items: [{item: head_stud, quantity: 34}, {item: head_nut, quantity: 34}, {item: head_washer, quantity: 34}]}"),
    nonconforming=(SET % ("", MARK, ""), "order: {items: [{item: gasket_set, quantity: 1}]}  # <-", "order: {items: [{item: head_stud, quantity: 34}]}  # <-",
                   SET % (", rear main seal, timing cover seal", MARK, "    - {item: rear_main_seal, quantity: 1}\n")),
)
def kits_cover_the_need(item: Choice, line: Count, order_lines: Entries, ordered_pieces: Entries, contains: List = None):
    """A set is called full by whoever sells it; the rear seal it lacks is found when the crank is in.

    Needed, less what the kit holds, less what is bought apart. A set without its list of contents cannot be counted
    and is asked for it. What is bought twice is only noted: the second one is a spare, or a mistake.
    """
    if line != first_line(order_lines, lambda row: row["item"] == item):
        return not_applicable("told at the first line of its kind")
    needed = IN_A_GASKET_SET if item == "gasket_set" else WITH_STUDS
    held = {item_called(text) for row in order_lines if row["item"] == item for text in row.get("contains") or ()}
    apart = {name for name in ordered_pieces if name != item}
    if item == "gasket_set" and contains is None:
        return require(False, "warning").at("item").saying("{what}", "{how}").telling(
            what="The gasket set does not say what it contains.", how="Write contains, from its list of contents, so that what it lacks is bought apart.")
    missing = [name for name in needed if name not in held and name not in apart]
    if missing:
        said = ", ".join(name.replace("_", " ") for name in missing)
        return require(False).saying("{what}", "{how}").telling(
            what=f"The {item.replace('_', ' ')}{'s' if item == 'head_stud' else ''} come{'' if item == 'head_stud' else 's'} without {said}, and nothing else on the order brings it.",
            how=f"Add {said} to the order, or to contains where the kit holds it.")
    twice = [name for name in needed if name in held and name in apart]
    if twice:
        return require(False, "note").saying("{what}", "{how}").telling(what=f"{', '.join(name.replace('_', ' ') for name in twice).capitalize()}: in the kit and bought apart.",
                                              how="Keep it as a spare, or take one off the order.")
    return passes()


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
    says="{ordered_altogether} of {item} are ordered, exactly what the engine takes; a lost one costs {lead_altogether}.",
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
    return require(lead_altogether < long * (1 - 1e-9) or ordered_altogether != needed)
