"""Pieces on the order sheet against what the engine takes, and lines that order none."""

from buildlint.rulebook import *
from buildlint.tables.order_items import FOR_EACH_CYLINDER, FOR_EACH_HEAD, FOR_EACH_VALVE, HEAD_FASTENERS, SETS_OR_PIECES, first_line

ITEMS = """
engine: {cylinders: 8}
heads: {per_engine: 2, holes_per_head: 17}
block: {mains: 5, main_fasteners_per_cap: 4}
order:
  items:
    - {item: %s, quantity: %s}  %s
"""

# What has to be known before the pieces of an item can be counted.
INPUTS = {
    **dict.fromkeys((*FOR_EACH_VALVE, *FOR_EACH_CYLINDER, "rod_bolt"), ("cylinders",)),
    **dict.fromkeys(FOR_EACH_HEAD, ("head_per_engine",)),
    **dict.fromkeys(HEAD_FASTENERS, ("head_per_engine", "head_holes_per_head")),
    "main_fastener": ("block_mains", "block_main_fasteners_per_cap"),
}


@rule(
    scope="item",
    level="error",
    due="ordering",
    says="{ordered} {pieces} on the order{which}; the engine takes {limit}.",
    fix="Order {limit} pieces; where one line is a set, write per_set. Spares are welcome but belong in the count.",
    source="arithmetic",
    points_at=("quantity",),
    conforming=(ITEMS % ("valve_lock", "32", ""), ITEMS % ("head_stud", "34", ""), ITEMS % ("head_gasket", "2", ""),
                ITEMS % ("main_fastener", "20", ""), ITEMS % ("ring_set", "8, per_set: 1", ""), ITEMS % ("ring_set", "1", ""), """
        engine: {cylinders: 8}
        order:
          items:
            - {item: valve, side: intake, quantity: 8}
            - {item: valve, side: exhaust, quantity: 8}
        """),
    nonconforming=(ITEMS % ("valve_lock", "16", "# <-"), ITEMS % ("head_stud", "30", "# <-"), ITEMS % ("piston", "14", "# <-"),
                   ITEMS % ("head_gasket", "1", "# <-"), ITEMS % ("ring_set", "6", "# <-"), """
        engine: {cylinders: 8}
        order:
          items:
            - {item: valve, side: intake, quantity: 8}
            - {item: valve, side: exhaust, quantity: 6}  # <-
        """),
    edit=("decision", "quantity", "{to_order}"),
)
def quantity_suits_the_engine(
    item: Choice, quantity: Count, line: Count, ordered_altogether: Count, order_lines: Entries, ordered_pieces: Entries,
    side: Choice = None, per_set: Count = None, needed: Count = None, cylinders: Count = None, block_mains: Count = None,
    manifold_valley_tray: Choice = None, *, spare_share: Fraction = q("0.20", "fraction"),
):
    """A stud short on Saturday is a head off the stand until Tuesday.

    Counted in pieces over all lines of one item, for each side apart where the sides are bought apart. Up to a fifth
    more passes as spares; beyond that it is noted. Rings and shells count as one set for the engine or as pieces.
    """
    if item in SETS_OR_PIECES:
        return _sets(item, ordered_altogether, line, order_lines, {"cylinders": cylinders, "block_mains": block_mains})
    if item in ("head_nut", "head_washer") and (ordered_pieces.get("head_stud") or ordered_pieces.get("head_bolt")):
        return not_applicable("counted with the studs or bolts they go with")
    if item == "pushrod" and side in ("intake", "exhaust"):
        return not_applicable("counted for each side by a rule of its own")
    if item == "intake_gasket" and manifold_valley_tray == "pan_gasket":
        return not_applicable("one piece with the valley pan")
    if needed is None:
        lacks = [word for word in INPUTS.get(item, ())]
        return lacking(*lacks) if lacks else not_applicable("no count is known for it")
    ordered, which = ordered_altogether, ""
    same = [row for row in order_lines if row["item"] == item]
    if side in ("intake", "exhaust") and item in FOR_EACH_VALVE and all(row.get("side") in ("intake", "exhaust") for row in same):
        same = [row for row in same if row["side"] == side]
        ordered, needed = sum(row.get("quantity", 0) * row.get("per_set", 1) for row in same), needed // 2
        which = f" for the {side} side"
    if line != first_line(order_lines, lambda row: row in same):
        return not_applicable("counted with the first line of its kind")
    verdict = at_least(Count(ordered), Count(needed))
    if verdict.kind == "pass" and ordered > max(needed * (1 + spare_share), needed + 2):
        verdict = at_most(Count(ordered), note=Count(needed))
    if len(same) == 1 and per_set is None:
        verdict.telling(to_order=str(int(needed)))
    return verdict.telling(ordered=Count(ordered), pieces=_pieces(item, ordered), which=which)


def _sets(item, ordered, line, lines, counts):
    """One set for the engine, or pieces for each place; sets per cylinder are often written as such."""
    if line != first_line(lines, lambda row: row["item"] == item):
        return not_applicable("counted with the first line of its kind")
    if ordered == 1:
        return passes()
    places = counts[SETS_OR_PIECES[item]]
    if places is None:
        return lacking(SETS_OR_PIECES[item])
    return at_least(Count(ordered), Count(places)).telling(ordered=Count(ordered), pieces=_pieces(item, ordered), which="")


def _pieces(item, ordered):
    """The pieces with their verb: valve locks are, head gasket is."""
    name = item.replace("_", " ")
    return f"{name} is" if ordered == 1 else f"{name}{'' if name.endswith('s') else 's'} are"


NOTHING = """
engine: {cylinders: 8}
order:
  items:
    - {item: piston, quantity: 8}
    - {item: %s, quantity: %s}  %s
"""


@rule(
    scope="item",
    level="warning",
    due="ordering",
    says="The line for {item} orders {what}.",
    fix="Write how many are wanted; where it is on the shelf or left out, write that under notes and take the line off the order.",
    source="arithmetic",
    when={"quantity": given},
    points_at=("quantity", "per_set"),
    conforming=(NOTHING % ("break_in_oil", "1", ""), NOTHING % ("injector", "8", "")),
    nonconforming=(NOTHING % ("break_in_oil", "0", "# <-"), NOTHING % ("piston", "0", "# <-"), NOTHING % ("injector", "1, per_set: 0", "# <-")),
)
def order_line_orders_something(
    item: Choice, quantity: Count, ordered_altogether: Count, ordered_pieces: Entries, per_set: Count = None, needed: Count = None,
):
    """A line that was copied and never filled in looks ordered on the sheet, and nothing comes.

    Where the engine's own count already says that all of an item are missing, that is told there and not twice.
    """
    if quantity and per_set != 0:
        return passes()
    with_studs = item in ("head_nut", "head_washer") and (ordered_pieces.get("head_stud") or ordered_pieces.get("head_bolt"))
    if not ordered_altogether and (needed or item in SETS_OR_PIECES or with_studs):
        return not_applicable("told with the count that the engine takes")
    return require(False).at("quantity" if not quantity else "per_set").telling(what="0 pieces" if not quantity else "sets of 0 pieces")


WASHERS = """
order:
  items:
    - {item: head_stud, quantity: 34}
    - {item: head_nut, quantity: %s}%s
    - {item: head_washer, quantity: %s}%s
"""


@rule(
    scope="item",
    level="error",
    due="ordering",
    says="{ordered_altogether} {what} are ordered for {fasteners} head {kind}.",
    fix="Order {fasteners} {what}, one to each; kits are often sold by the head, so count pieces.",
    source="arithmetic",
    when={"item": ("head_washer", "head_nut")},
    points_at=("quantity",),
    conforming=(WASHERS % ("34", "", "34", ""), "order: {items: [{item: head_bolt, quantity: 20}, {item: head_washer, quantity: 20}]}"),
    nonconforming=(WASHERS % ("34", "", "17", "  # <-"), WASHERS % ("30", "  # <-", "34", "")),
)
def washers_match_the_fasteners(item: Choice, ordered_altogether: Count, quantity: Count, line: Count, order_lines: Entries,
                                ordered_pieces: Entries):
    """One washer under each nut or bolt head, all of one kind: a nut without its washer clamps less than its neighbors.

    Short inner studs take theirs too.
    """
    studs, bolts = ordered_pieces.get("head_stud", 0), ordered_pieces.get("head_bolt", 0)
    fasteners = studs + (bolts if item == "head_washer" else 0)
    if not fasteners:
        return not_applicable("no head fasteners on this order")
    if line != first_line(order_lines, lambda row: row["item"] == item):
        return not_applicable("counted with the first line of its kind")
    return at_least(Count(ordered_altogether), Count(fasteners)).telling(
        fasteners=Count(fasteners), what="washers" if item == "head_washer" else "nuts",
        kind="studs" if not bolts else "bolts" if not studs else "studs and bolts")


PUSHRODS = """
engine: {cylinders: 8}
order:
  items:
    - {item: pushrod, side: intake, quantity: %s}
    - {item: pushrod, side: exhaust, quantity: %s}  %s
"""


@rule(
    scope="item",
    level="error",
    due="ordering",
    says="{ordered} {side} pushrods are ordered; the engine has {cylinders} {side} valves.",
    fix="Order {cylinders} for each side, each with its own length and label.",
    source="arithmetic",
    when={"item": ("pushrod",)},
    points_at=("quantity",),
    conforming=(PUSHRODS % ("8", "8", ""), "engine: {cylinders: 8}\norder: {items: [{item: pushrod, side: both, quantity: 16}]}",
                "engine: {cylinders: 8}\norder: {items: [{item: pushrod, quantity: 16}]}", """
        engine: {cylinders: 8}
        order:
          items:
            - {item: pushrod, side: intake, quantity: 4, length: 7.800 in}
            - {item: pushrod, side: intake, quantity: 4, length: 7.850 in}
        """),
    nonconforming=(PUSHRODS % ("10", "6", "# <-"), PUSHRODS % ("8", "4", "# <-")),
)
def pushrod_counts_match_sides(line: Count, quantity: Count, cylinders: Count, order_lines: Entries, side: Choice = None):
    """Intake and exhaust pushrods often differ in length; ten of one and six of the other still make sixteen.

    All lines of one side count together; a line without a side is for both.
    """
    if side not in ("intake", "exhaust"):
        return not_applicable("one length for both sides")
    same = [row for row in order_lines if row["item"] == "pushrod" and row.get("side") == side]
    if line != first_line(order_lines, lambda row: row in same):
        return not_applicable("counted with the first line of this side")
    ordered = sum(row.get("quantity", 0) * row.get("per_set", 1) for row in same)
    return at_least(Count(ordered), Count(cylinders)).telling(ordered=Count(ordered))
