"""Parts of the mock-up that must not stay in the engine: what is fitted only once, and what is there only for measuring."""

from buildlint.rulebook import *
from buildlint.tables.order_items import GASKETS, JOINT_OF, item_called

MOCK_UP = """
joints: {head: {kind: bolt, reuse: %s}}
assembly: {mock_up_parts: [%s]}
order:
  items:
    - {item: head_bolt, quantity: 20}%s
"""


@rule(
    scope="item",
    level="error",
    due="mock_up",
    says="Of the mock-up these would stay in the engine, though they are fitted only once: {what}.",
    fix="Keep them for measuring only, marked so, and fit new parts at the end.",
    source="common practice, no source; makers' manuals for bolts drawn into yield",
    when={"assembly_mock_up_parts": given},
    points_at=("item",),
    conforming=(MOCK_UP % ("reusable", "head bolts", ""), MOCK_UP % ("once_only", "camshaft, timing set", "")),
    nonconforming=(MOCK_UP % ("once_only", "head bolts", "  # <-"), MOCK_UP % ("reusable", "head gasket", "  # <-")),
)
def one_use_parts_skip_mock_up(
    item: Choice, line: Count, assembly_mock_up_parts: List, ordered_pieces: Entries = None, head_joint_fitted_once: YesNo = None,
    main_joint_fitted_once: YesNo = None, rod_joint_fitted_once: YesNo = None, damper_joint_fitted_once: YesNo = None,
    flywheel_joint_fitted_once: YesNo = None,
):
    """A gasket that was squeezed and a bolt that was drawn into yield have given what they had.

    Told at the part's own line of the order, else at the first line. Bolts count when their joint says once_only, or
    is tightened into yield.
    """
    once = {"head": head_joint_fitted_once, "main": main_joint_fitted_once, "rod": rod_joint_fitted_once,
            "damper": damper_joint_fitted_once, "flywheel": flywheel_joint_fitted_once}
    staying = [text for text in assembly_mock_up_parts
               if item_called(text) in GASKETS or once.get(JOINT_OF.get(item_called(text)))]
    here = [text for text in staying if item_called(text) == item]
    if line == 1:
        here += [text for text in staying if item_called(text) not in (ordered_pieces or ()) and item_called(text) != item]
    if not here:
        return passes()
    return require(False).telling(what=", ".join(here))


TEMPORARY = """
build: {stage: assembly}
assembly:
  temporary:
    - {item: piston stop, fitted_on: 2026-05-08, removed_by: RM, removed_on: 2026-05-09}
    - {item: checking springs, fitted_on: 2026-05-08%s}%s
"""
LATE = """
assembly:
  steps:
    - {step: heads_assembled, by: RM, on: 2026-05-10}
  temporary:
    - {item: checking springs, fitted_on: 2026-05-08, removed_by: RM, removed_on: %s}%s
"""


@rule(
    scope="build",
    level="error",
    due="assembly",
    says="A part that was fitted for measuring only is still in, or came out too late.",
    fix="Take it out, look that nothing stayed behind, and write removed_by and removed_on.",
    source="common practice, no source",
    when={"assembly_temporary": given},
    conforming=(TEMPORARY % (", removed_by: RM, removed_on: 2026-05-10", ""), LATE % ("2026-05-10", ""), """
        build: {stage: mock_up}
        assembly:
          temporary:
            - {item: clay on two pistons, fitted_on: 2026-05-08, removed_by: RM, removed_on: 2026-05-08}
        """),
    nonconforming=(TEMPORARY % ("", "  # <-"), LATE % ("2026-05-12", "  # <-"), LATE % ("2026-05-07", "  # <-"), """
        build: {stage: mock_up}
        assembly:
          steps:
            - {step: strip_mock_up, by: RM, on: 2026-05-10}
          temporary:
            - {item: solid checking lifter, fitted_on: 2026-05-08}  # <-
        """),
)
def temporary_parts_are_signed_out(assembly_temporary: Entries, steps_done: Entries = None):
    """Checking springs, clay, a piston stop or a rag in a port that stay in are found by the first start.

    What is fitted for measuring only is logged in and logged out, by whom and on which day. While the mock-up
    stands it may be in; once that is stripped, or the engine goes together for good, it may not.
    """
    done = steps_done or {}
    wrong, still_in = [], []
    for row in assembly_temporary:
        number, name, out, fitted = row["number"], row.get("item", "a part"), row.get("removed_on"), row.get("fitted_on")
        shut = "heads_assembled" if "spring" in name.lower() else "first_fire"
        if not (row.get("removed_by") and out):
            still_in.append((number, f"{name}: still in, as far as it is written"))
        elif fitted is not None and out < fitted:
            wrong.append((number, f"{name}: out on {out}, before it went in on {fitted}"))
        elif shut in done and out > done[shut]:
            wrong.append((number, f"{name}: out on {out}, after {shut.replace('_', ' ')} was signed on {done[shut]}"))
    found = sorted(wrong + still_in)
    if not found:
        return passes()
    verdict = require(False) if wrong or "strip_mock_up" in done else wanting("assembly_temporary")
    return verdict.at(f"assembly_temporary_{found[0][0]}").saying("{what}").telling(what="; ".join(text for _, text in found) + ".")
