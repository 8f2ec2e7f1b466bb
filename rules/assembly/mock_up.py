"""What is measured before the engine closes: on which cylinders, on which gasket, and the cam before its cover."""

from buildlint.rulebook import *

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


CLAMP = """
assembly: {mock_up_fasteners: %s}  %s
joints: {head: {kind: %s}}
"""
STUDS, BOLTS = ("stud", "shouldered_stud", "nut_on_through_bolt"), ("bolt", "cap_screw")


@rule(
    scope="build",
    level="note",
    due="mock_up",
    says="The head was clamped with {mock_up} while measuring, and the engine gets {final}: round bores and gaps read to a thousandth are not the same.",
    fix="Read piston to head and valve to piston once more with the final fasteners at their torque, and write mock_up_fasteners: {head_joint_kind}.",
    source="common practice, no source",
    when={"assembly_mock_up_fasteners": given},
    points_at=("assembly_mock_up_fasteners",),
    conforming=(CLAMP % ("stud", "", "stud"), CLAMP % ("cap_screw", "", "bolt")),
    nonconforming=CLAMP % ("bolt", "# <-", "stud"),
)
def mock_up_clamps_as_final(assembly_mock_up_fasteners: Choice, head_joint_kind: Choice = None):
    """A stud pulls block and head otherwise than a bolt in the same hole; what was measured under one is not proved for the other.

    Old bolts do for turning the engine over with clay in it. They do not for the figures that are signed.
    """
    studs, bolts = assembly_mock_up_fasteners in STUDS, assembly_mock_up_fasteners in BOLTS
    other = studs and head_joint_kind in BOLTS or bolts and head_joint_kind in STUDS
    return require(not other).telling(mock_up="studs" if studs else "bolts", final="bolts" if studs else "studs")


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
