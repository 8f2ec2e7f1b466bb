"""What is bought against what the spec was worked out with."""

from buildlint.rulebook import *
from buildlint.tables.order_items import PART_NAMED_BY, PART_NAMED_BY_SIDE

BOUGHT = """
camshaft: {part: hc-cam-224h}
pushrods: {length: 7.800 in, length_measured_how: overall}
heads: {part: hc-head-065, handing: pair}
order:
  items:
    - {item: %s, quantity: 1%s}%s
"""
MARK = "  # <-"


@rule(
    scope="item",
    level="error",
    due="ordering",
    says="What is ordered for {item} is not what the spec was worked out with.",
    fix="Order the part of the spec; or write the new part's numbers into the spec, and chosen_because on this line.",
    source="common practice, no source",
    points_at=("part", "length"),
    conforming=(BOUGHT % ("camshaft", ", part: hc-cam-224h", ""), BOUGHT % ("camshaft", ", part: hc-cam-226h, chosen_because: the first is out of stock", ""),
                BOUGHT % ("pushrod", ", side: intake, length: 7.800 in", ""), BOUGHT % ("head", ", bank: left, part: hc-head-065-l", ""),
                BOUGHT % ("oil_pump", ", part: hc-pump-1", ""), BOUGHT % ("pushrod", ", length: 7.700 in, length_measured_how: ball_centers", "")),
    nonconforming=(BOUGHT % ("camshaft", ", part: hc-cam-226h", MARK), BOUGHT % ("pushrod", ", side: exhaust, length: 7.850 in", MARK),
                   "intake: {spring: {part: sp-312}}\nexhaust: {spring: {part: sp-312}}\norder: {items: [{item: valve_spring, quantity: 16, part: sp-313}]}  # <-"),
)
def bought_part_matches_specified(
    item: Choice, parts_named: Entries, order_lines: Entries, part: PartNumber = None, side: Choice = None, bank: Choice = None,
    chosen_because: Text = None, length: Length = None, length_measured_how: Choice = None, intake_pushrod_length: Length = None,
    exhaust_pushrod_length: Length = None, pushrod_length_measured_how: Choice = None, head_joint_length: Length = None, *,
    pushrod_within: Length = q("0.002 in"), fastener_within: Length = q("0.5 mm"),
):
    """Every number of the spec belongs to the part it names; another spring in the box makes them somebody else's.

    A part that is bought instead is a decision, and chosen_because says why it is as good. Numbers that differ only
    in the ending for left or right are one part.
    """
    said = item.replace("_", " ")
    if chosen_because is not None:
        return passes()
    named = _named(item, side, parts_named)
    handed = bank in ("left", "right") and any(str(part).startswith(name) for name in named)
    if part is not None and named and str(part) not in named and not handed:
        return require(False).at("part").saying(
            "The order says {part} for the {item}; the spec was worked out with {named}.",
            "Order {named}; or write the new part's numbers into the spec, and chosen_because on this line.").telling(
            named=" and ".join(named))
    wanted, allowed, measured_alike = (), fastener_within, True
    if item == "pushrod":
        wanted = {"intake": (intake_pushrod_length,), "exhaust": (exhaust_pushrod_length,)}.get(
            side, (intake_pushrod_length, exhaust_pushrod_length))
        allowed, measured_alike = pushrod_within, length_measured_how in (None, pushrod_length_measured_how)
    elif item in ("head_stud", "head_bolt") and sum(row["item"] == item for row in order_lines) == 1:
        wanted = (head_joint_length,)
    wanted = [value for value in wanted if value is not None]
    if length is None or not wanted or not measured_alike:
        return passes() if part is not None and named else not_applicable("nothing on the line stands elsewhere too")
    nearest = min(wanted, key=lambda value: abs(value - length))
    return matches(length, nearest, tolerance=allowed).at("length").saying(
        f"The order says {{length}} for the {said}; the spec says {{wanted}}.", "Order {wanted}, or write the right length into the spec."
    ).telling(wanted=Length(nearest))


def _named(item, side, parts_named):
    """The part numbers that the spec names for an item, on the side the line is for."""
    words = [PART_NAMED_BY[item]] if item in PART_NAMED_BY else []
    if item in PART_NAMED_BY_SIDE:
        words += [f"{name}_{PART_NAMED_BY_SIDE[item]}" for name in ("intake", "exhaust") if side in (None, "both", name)]
    return tuple(dict.fromkeys(parts_named[word] for word in words if word in parts_named))
