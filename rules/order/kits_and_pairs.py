"""What belongs together on the order: left and right, kits and what they leave out, one length of pushrod or two."""

from buildlint.rulebook import *
from buildlint.tables.order_items import IN_A_GASKET_SET, WITH_STUDS, first_line, item_called

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
        said = " and ".join(name.replace("_", " ") + ("s" if item == "head_stud" else "") for name in missing)
        return require(False).saying("{what}", "{how}").telling(
            what=f"The {item.replace('_', ' ')}{'s' if item == 'head_stud' else ''} come{'' if item == 'head_stud' else 's'} without {said}, and nothing else on the order brings it.",
            how=f"Add {said} to the order, or to contains where the kit holds it.")
    twice = [name for name in needed if name in held and name in apart]
    if twice:
        return require(False, "note").saying("{what}", "{how}").telling(what=f"{', '.join(name.replace('_', ' ') for name in twice).capitalize()}: in the kit and bought apart.",
                                              how="Keep it as a spare, or take one off the order.")
    return passes()
