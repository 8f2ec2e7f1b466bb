"""The mock-up: what it is measured with, on which cylinders, and what of it must not stay in the engine."""

from buildlint.rulebook import *
from buildlint.tables.order_items import GASKETS, JOINT_OF, item_called

GAPS = """
engine: {layout: v, cylinders: 8, banks: [[1, 3, 5, 7], [2, 4, 6, 8]]}
assembly: {clearances_checked_on: [%s]}  %s
"""


@rule(
    scope="build",
    level="note",
    due="mock_up",
    says="The gaps of valve and piston were measured on cylinder {assembly_clearances_checked_on} only{missed}.",
    fix="Measure one cylinder at each end of each bank; decks, gaskets and heads differ from bank to bank.",
    source="common practice, no source",
    when={"assembly_clearances_checked_on": given},
    conforming=(GAPS % ("1, 8", ""), GAPS.replace("layout: v, cylinders: 8, banks: [[1, 3, 5, 7], [2, 4, 6, 8]]",
                                                  "layout: inline, cylinders: 6") % ("1, 6", "")),
    nonconforming=(GAPS % ("1", "# <-"), GAPS % ("1, 3", "# <-")),
)
def clearances_checked_on_both_banks(assembly_clearances_checked_on: List, banks: List = None, *, at_least_on: int = 2):
    """One cylinder tells of one chamber: the other deck may be lower, the other head cut once more.

    Asked where the spec says on which cylinders the gaps were read; values by cylinder say it by themselves.
    """
    seen = set(assembly_clearances_checked_on)
    missed = [bank for bank in banks or () if not seen.intersection(bank)]
    return require(len(seen) >= at_least_on and not missed).telling(
        missed=f", none of the bank {', '.join(map(str, missed[0]))}" if missed else "")


GASKET = "head_gasket: {compressed_thickness: 0.041 in, mock_up_thickness: %s}  %s"


@rule(
    scope="build",
    level="error",
    due="mock_up",
    says="The mock-up was measured on {head_gasket_mock_up_thickness} of gasket, the engine gets {head_gasket_compressed_thickness}; "
         "every gap read there is off by {difference}.",
    fix="Measure again on a gasket of the final thickness, or add {difference} to each gap read{sense} and write the thickness it then stands for.",
    source="common practice, no source",
    when={"head_gasket_mock_up_thickness": given},
    conforming=(GASKET % ("0.041 in", ""), GASKET % ("0.0417 in", "")),
    nonconforming=(GASKET % ("0 in", "# <-"), GASKET % ("0.0435 in", "# <-"), GASKET % ("0.0425 in", "# <-")),
    points_at=("head_gasket_mock_up_thickness",),
)
def mock_up_gasket_equals_final(
    head_gasket_mock_up_thickness: Length, head_gasket_compressed_thickness: Length, *, most: Length = q("0.05 mm"),
    warned_from: Length = q("0.02 mm"),
):
    """Gasket thickness stands in piston-to-head, piston-to-valve, pushrod length and intake fit alike.

    An old gasket, or none, is good enough to measure on as long as its real thickness is carried into the numbers.
    """
    difference = head_gasket_compressed_thickness - head_gasket_mock_up_thickness
    return at_most(abs(difference), error=most, warning=warned_from).telling(
        difference=Length(abs(difference)), sense="" if difference > 0 else ", as a negative amount")


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


COVER = """
timing_set: {degreed_on: %s}
assembly:
  steps:
    - {step: %s}%s
    - {step: %s}%s
"""


@rule(
    scope="step",
    level="error",
    due="assembly",
    says="The front cover closes{when} before the cam is degreed{later}.",
    fix="Degree the cam with its final drive and lock its bolts; then the cover, the damper and the pan.",
    source="common practice, no source",
    when={"step": ("front_cover",)},
    points_at=("step",),
    conforming=(COVER % ("2026-05-11", "final_degree", "", "front_cover", ""), """
        timing_set: {degreed_on: 2026-05-11}
        assembly:
          steps:
            - {step: front_cover, by: RM, on: 2026-05-11}
        """),
    nonconforming=(COVER % ("2026-05-11", "front_cover", "  # <-", "final_degree", ""), """
        timing_set: {degreed_on: 2026-05-14}
        assembly:
          steps:
            - {step: front_cover, by: RM, on: 2026-05-11}  # <-
        """),
)
def cam_is_degreed_before_cover(
    step: Choice, earlier_steps: List, later_steps: List, on: Date = None, by: Text = None, timing_set_degreed_on: Date = None,
):
    """The last chance to see the chain, the dots, the cam bolts and the plug behind them ends with the cover.

    Degreed in the mock-up only, the cam is degreed once more when the final set is on: keys, bushings and chains
    differ by more than the degree that is looked for.
    """
    if "final_degree" in later_steps and "final_degree" not in earlier_steps:
        return require(False).telling(when="", later="")
    if timing_set_degreed_on is not None and on is not None and by is not None and timing_set_degreed_on > on:
        return require(False).at("on").telling(when=f" on {on},", later=f" on {timing_set_degreed_on}")
    return passes()
