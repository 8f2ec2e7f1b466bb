"""Pieces on the order sheet against what the engine takes."""

from buildlint.rulebook import *

ITEMS = """
engine: {cylinders: 8}
heads: {per_engine: 2, holes_per_head: 17}
order:
  items:
    - {item: %s, quantity: %s}  %s
"""

# Pieces for each cylinder, of a pushrod engine with two valves to a cylinder. Locks are counted as halves.
PER_CYLINDER = {
    "pushrod": 2, "lifter": 2, "rocker": 2, "valve": 2, "valve_spring": 2, "retainer": 2, "valve_lock": 4, "stem_seal": 2,
    "lash_cap": 2, "spring_cup": 2, "piston": 1, "rod": 1, "spark_plug": 1,
}
PER_HEAD = {"head_gasket": 1, "head": 1, "valve_cover_gasket": 1, "exhaust_gasket": 1}
ONE_EACH = ("crank", "camshaft", "timing_set", "rear_main_seal", "front_seal", "pan_gasket", "oil_pump", "oil_pan", "damper",
            "distributor", "distributor_gear")
HEAD_FASTENERS = ("head_stud", "head_bolt", "head_nut", "head_washer")


@rule(
    scope="item",
    level="error",
    due="ordering",
    says="{ordered_altogether} of {item} are on the order; the engine takes {limit}.",
    fix="Order {limit} pieces; spares are welcome but belong in the count.",
    source="arithmetic",
    points_at=("quantity",),
    conforming=(ITEMS % ("valve_lock", "32", ""), ITEMS % ("head_stud", "34", ""), ITEMS % ("head_gasket", "2", "")),
    nonconforming=(ITEMS % ("valve_lock", "16", "# <-"), ITEMS % ("head_stud", "30", "# <-"), ITEMS % ("piston", "14", "# <-")),
)
def quantity_suits_the_engine(
    item: Text, ordered_altogether: Count, quantity: Count, cylinders: Count = None, head_per_engine: Count = None,
    head_holes_per_head: Count = None, *, spare_share: Fraction = q("0.20", "fraction"),
):
    """A stud short on Saturday is a head off the stand until Tuesday.

    Counted in pieces over all lines of the same item: sixteen pushrods of a V8 may be two lines of eight. Up to
    a fifth more passes as spares; beyond that it is noted.
    """
    needed = None
    if item in PER_CYLINDER:
        if cylinders is None:
            return lacking("cylinders")
        needed = PER_CYLINDER[item] * int(cylinders)
    elif item in PER_HEAD:
        if head_per_engine is None:
            return lacking("head_per_engine")
        needed = PER_HEAD[item] * int(head_per_engine)
    elif item in HEAD_FASTENERS:
        if head_per_engine is None or head_holes_per_head is None:
            return lacking("head_per_engine", "head_holes_per_head")
        needed = int(head_per_engine) * int(head_holes_per_head)
        if item in ("head_bolt", "head_stud") and ordered_altogether < needed:
            pass
    elif item in ONE_EACH:
        needed = 1
    if needed is None:
        return not_applicable("no count is known for it")
    verdict = at_least(Count(ordered_altogether), Count(needed))
    if verdict.kind == "pass" and ordered_altogether > max(needed * (1 + spare_share), needed + 2):
        verdict = at_most(Count(ordered_altogether), note=Count(needed))
    return verdict


WASHERS = """
order:
  items:
    - {item: head_stud, quantity: 34}
    - {item: head_nut, quantity: 34}
    - {item: head_washer, quantity: %s}  %s
"""


@rule(
    scope="item",
    level="error",
    due="ordering",
    says="{ordered_altogether} washers are ordered for {fasteners} head fasteners.",
    fix="Order {fasteners} washers, one under every nut or bolt head; kits are often sold by the head, so count pieces.",
    source="arithmetic",
    when={"item": ("head_washer",)},
    points_at=("quantity",),
    conforming=WASHERS % ("34", ""),
    nonconforming=WASHERS % ("17", "# <-"),
)
def washers_match_the_fasteners(ordered_altogether: Count, quantity: Count, ordered_pieces: Entries):
    """One washer to each fastener, all of one kind: a nut without its washer clamps less than its neighbors."""
    fasteners = ordered_pieces.get("head_nut") or ordered_pieces.get("head_bolt") or ordered_pieces.get("head_stud")
    if not fasteners:
        return not_applicable("no head fasteners on this order")
    return at_least(Count(ordered_altogether), Count(fasteners)).telling(fasteners=Count(fasteners))


PUSHRODS = """
engine: {cylinders: 8}
order:
  items:
    - {item: pushrod, side: intake, quantity: 8}
    - {item: pushrod, side: exhaust, quantity: %s}  %s
"""


@rule(
    scope="item",
    level="error",
    due="ordering",
    says="{quantity} {side} pushrods are ordered; the engine has {cylinders} {side} valves.",
    fix="Order {cylinders} for each side, each with its own length and label.",
    source="arithmetic",
    when={"item": ("pushrod",)},
    points_at=("quantity",),
    conforming=(PUSHRODS % ("8", ""), """
        engine: {cylinders: 8}
        order:
          items:
            - {item: pushrod, side: both, quantity: 16}
        """),
    nonconforming=PUSHRODS % ("6", "# <-"),
)
def pushrod_counts_match_sides(quantity: Count, side: Choice, cylinders: Count, per_set: Count = None):
    """Intake and exhaust pushrods often differ in length; ten of one and six of the other still make sixteen."""
    if side == "both":
        return not_applicable("one length for both sides")
    return at_least(Count(quantity * (per_set or 1)), Count(cylinders))
