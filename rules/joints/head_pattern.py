"""Block, head, gasket and fasteners of one pattern, and every hole of it described."""

from buildlint.rulebook import *

AGREE = """
block: {head_bolts_per_cylinder: 5, head_holes_per_bank: 17}
heads: {bolts_per_cylinder: %s, holes_per_head: %s}  %s
head_gasket: {bolts_per_cylinder: 5}
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="{trouble}",
    fix="One of them is for another engine or another generation: order the one that fits the rest. A row left unused on purpose "
        "still wants a gasket that suits it.",
    source="geometry; common practice, no source",
    points_at=("head_bolts_per_cylinder", "head_gasket_bolts_per_cylinder", "block_head_bolts_per_cylinder", "head_holes_per_head"),
    conforming=(AGREE % ("5", "17", ""), "heads: {bolts_per_cylinder: 6}"),
    nonconforming=(AGREE % ("4", "17", "# <-"), AGREE % ("5", "10", "# <-")),
)
def block_head_and_gasket_agree(
    head_bolts_per_cylinder: Count = None, block_head_bolts_per_cylinder: Count = None,
    head_gasket_bolts_per_cylinder: Count = None,
    head_holes_per_head: Count = None, block_head_holes_per_bank: Count = None, head_cylinders_per_head: Count = None,
    banks: List = None,
):
    """Heads of another pattern look alike on the shelf; the missing row shows when the head is on the block.

    Heads that cover only a part of a bank are counted against the whole bank.
    """
    rounds = [(head_bolts_per_cylinder, "the heads", "head_bolts_per_cylinder"),
              (block_head_bolts_per_cylinder, "the block", "block_head_bolts_per_cylinder"),
              (head_gasket_bolts_per_cylinder, "the gasket", "head_gasket_bolts_per_cylinder")]
    rounds = [row for row in rounds if row[0] is not None]
    if len({row[0] for row in rounds}) > 1:
        text = ", ".join(f"{what} {'has' if what != 'the heads' else 'have'} {number}" for number, what, _ in rounds)
        odd = min(rounds, key=lambda row: sum(other[0] == row[0] for other in rounds))
        return require(False).at(odd[2]).telling(trouble=f"Fasteners round one cylinder: {text}.")
    if head_holes_per_head is not None and block_head_holes_per_bank is not None:
        whole = head_cylinders_per_head is None or banks is None or head_cylinders_per_head == len(banks[0])
        if whole and head_holes_per_head != block_head_holes_per_bank:
            return require(False).at("head_holes_per_head").telling(
                trouble=f"The head has {head_holes_per_head} fastener holes, the bank of the block {block_head_holes_per_bank}.")
        return passes()
    return passes() if len(rounds) > 1 else not_applicable("only one of block, head and gasket is described")


COUNT = """
heads: {per_engine: 2, holes_per_head: 17}
joints:
  head: {kind: stud, count: %s}  %s
"""


@rule(
    scope="joint",
    level="error",
    due="ordering",
    says="{written} head fasteners are written{parts}; {head_per_engine} heads of {head_holes_per_head} holes want {wanted}.",
    fix="Write and order {wanted}; where the rows differ in size, write the other row as a joint of its own that serves head.",
    source="counting; common practice, no source",
    when={"joint_name": ("head",)},
    points_at=("count",),
    conforming=(COUNT % ("34", ""), """
        heads: {per_engine: 2, holes_per_head: 15}
        joints:
          head: {count: 20}
          head_inner: {serves: head, count: 10}
        """),
    nonconforming=(COUNT % ("28", "# <-"), """
        heads: {per_engine: 2, holes_per_head: 10}
        joints:
          head:
            count: 20
            washer: {count: 18}  # <-
        """, """
        heads: {per_engine: 2, holes_per_head: 15}
        joints:
          head: {count: 20}  # <-
          head_inner: {serves: head, count: 5}
        """),
)
def head_fastener_count_matches_pattern(
    joint_name: Choice, joints_listed: Entries, joint_leads: YesNo = True, count: Count = None, head_holes_per_head: Count = None,
    head_per_engine: Count = None, block_head_holes_per_bank: Count = None, cylinders: Count = None, washer_count: Count = None,
    washer_kind: Choice = None,
):
    """Fasteners come per head, per bank or per engine, and the inner row comes in another bag; the count shows what was forgotten.

    Loose washers are counted with them: one to each fastener of the row.
    """
    if not joint_leads:
        return not_applicable("asked at the head joint")
    rows = [row for row in joints_listed if row.get("joint_name") == "head"]
    if len(rows) == 1 and None not in (count, washer_count) and washer_kind not in ("none", "integral_flange") and washer_count < count:
        return require(False).at("washer_count").telling(short=str(count - washer_count)).saying(
            "{washer_count} washers are written for {count} head fasteners.", "Order {short} more: one washer to each fastener, all of one kind.")
    if None in (count, head_holes_per_head, head_per_engine) or any(row.get("count") is None for row in rows):
        return not_applicable("count, holes or number of heads is not written")
    written, wanted = sum(row["count"] for row in rows), head_holes_per_head * head_per_engine
    parts = f" ({' and '.join(str(row['count']) for row in rows)})" if len(rows) > 1 else ""
    return matches(written, wanted).telling(written=str(written), wanted=str(wanted), parts=parts)


HOLES = """
build: {stage: ordering}
joints:
  head: {kind: stud, thread: 7/16-20%s}  %s
"""


@rule(
    scope="joint",
    level="warning",
    due="ordering",
    says="Not written of {which}: {missing_facts}.",
    fix="Write {paths}; probe each hole with a wire and a light, or take it off the block's drawing.",
    source="common practice, no source",
    when={"joint_name": ("head",)},
    points_at=("positions", "kind", "thread", "count"),
    conforming=(HOLES % (", length: 4.75 in, hole: {opens_into: coolant}", ""), HOLES % (", part: st-716, hole: {opens_into: nothing}", ""), """
        joints:
          head:
            positions:
              - {name: U1, length: 4.75 in, thread: 7/16-20, opens_into: coolant}
              - {name: L1, length: 3.90 in, thread: 7/16-20, opens_into: coolant}
        """),
    nonconforming=(HOLES % ("", "# <-"), """
        build: {stage: ordering}
        joints:
          head:
            thread: 7/16-20
            positions:
              - {name: U1, length: 4.75 in, opens_into: coolant}
              - {name: L1, opens_into: coolant}  # <-
        """),
)
def each_head_hole_is_described(
    joint_name: Choice, positions: Entries = None, length: Length = None, thread: Thread = None, hole_opens_into: Choice = None,
    part: PartNumber = None, kind: Choice = None, condition: Choice = None, count: Count = None,
):
    """Long and short, wet and dry stand side by side in one head: a bolt in the wrong hole bottoms, a dry thread in a wet hole weeps.

    Where the holes differ they are written one by one under positions; what the joint says counts for all. Fasteners
    that stay in the engine, or come as a kit with a number, need no length here.
    """
    if positions:
        fields = {"length": length, "thread": thread, "opens_into": hole_opens_into}
        for row in positions:
            missing = [name for name, known in fields.items() if known is None and row.get(name) is None]
            if missing:
                return wanting("positions").at(f"positions_{row['number']}").telling(
                    which=f"the hole {row.get('name') or row['number']}", missing_facts=_text(missing), paths=" and ".join(missing))
        return passes()
    kept = condition in ("reused", "reused_in_place")
    missing = [] if hole_opens_into is not None else ["hole_opens_into"]
    if length is None and part is None and not kept and kind in ("stud", None):
        missing.append("length")
    if not missing:
        return passes()
    paths = " and ".join(name.replace("hole_", "hole ") for name in missing)
    return wanting(*missing).telling(which="the head fasteners", missing_facts=_text(missing), paths=paths)


def _text(names):
    words = {"opens_into": "what the hole opens into", "hole_opens_into": "what the holes open into"}
    return " and ".join(words.get(name, name) for name in names)
