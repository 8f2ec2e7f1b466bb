"""What the makers of parts say: whether their sheet is at hand, agrees with the calculation, and with the other maker's."""

import re

from buildlint.rulebook import *
from buildlint.tables.fasteners import CRITICAL_JOINTS

DAY = re.compile(r"\b(19|20)\d\d\b")

ON_FILE = """
build: {stage: assembly}
joints:
  head: {kind: stud, torque: 70 lbf-ft, torque_source: maker%s}  %s
"""


@rule(
    scope="joint",
    level="warning",
    due="assembly",
    says="The torque of the {joint_name} joint is the maker's, and {sentence}.",
    fix="Put the maker's instructions in the folder, and write maker_sheet: which sheet, and of what date.",
    source="common practice, no source",
    points_at=("torque",),
    conforming=(ON_FILE % (", maker_sheet: stud sheet of 2025-11-01", ""), """
        build: {stage: assembly}
        joints: {oil_pan: {torque: 12 lbf-ft, torque_source: maker}}
        """),
    nonconforming=(ON_FILE % ("", "# <-"), ON_FILE % (", maker_sheet: the stud sheet", "# <-")),
)
def maker_instruction_is_on_file(joint_name: Choice, torque_source: Choice = None, torque: Torque = None, maker_sheet: Text = None):
    """The part maker's written word wins over every rule of thumb, if somebody can still read it on the day.

    Asked of the joints an engine hangs on. A sheet without a date cannot be told from the one that replaced it, which is noted.
    """
    if joint_name not in CRITICAL_JOINTS or torque_source != "maker":
        return not_applicable("not a critical joint, or its torque is not the maker's")
    if maker_sheet is None:
        return wanting("maker_sheet").at("torque").telling(sentence="no sheet of his is named")
    return require(DAY.search(maker_sheet) is not None, "note").at("maker_sheet").telling(sentence="the sheet is named without its date")


AGREES = """
joints:
  head: {kind: stud, thread: 7/16-20, strength_class: 190_ksi, lubricant: moly_paste, face_lubricant: moly_paste, maker_torque: %s}  %s
"""


@rule(
    scope="joint",
    level="warning",
    due="assembly",
    says="The maker gives {maker_torque}; for {share} of proof with this lubricant {computed} comes out, and the maker's is {value} of that.",
    fix="Look at lubricant, unit and thread of the sheet; where they are right the maker's figure stands.",
    source="Shigley, Mechanical Engineering Design, 9th ed., Eq. 8-27 and 8-31; the 25 percent common practice, no source",
    when={"maker_torque": given},
    points_at=("maker_torque",),
    conforming=(AGREES % ("70 lbf-ft", ""), AGREES % ("60 lbf-ft", "")),
    nonconforming=(AGREES % ("95 lbf-ft", "# <-"), AGREES % ("40 lbf-ft", "# <-")),
)
def maker_value_agrees_with_calculated(
    joint_name: Choice, maker_torque: Torque, nut_factor: Ratio = None, diameter: Length = None, proof_load: Force = None,
    tightening: Choice = None, *,
    share: Fraction = q("0.75", "fraction"), beyond: Fraction = q("0.25", "fraction"), asked=("head", "main", "rod"),
):
    """A maker's torque far from what the bolt asks for mostly belongs to another lubricant, another thread or another unit.

    Asked of head, main and rod joints, which are tightened for all they are worth; gasketed and light joints are meant to stay far
    below. Bolts tightened by angle or stretch are left out.
    """
    if joint_name not in asked or tightening in ("torque_angle", "yield_angle", "stretch"):
        return not_applicable("not tightened to a share of proof by torque")
    if None in (nut_factor, diameter, proof_load):
        return not_applicable("thread, class or lubricant of the bolt is not written")
    computed = share * proof_load * nut_factor * diameter
    verdict = within(Ratio(maker_torque / computed), 1 - beyond, 1 + beyond)
    return verdict.telling(computed=Torque(computed, maker_torque.unit))


TWO = """
joints:
  head: {kind: stud, maker_torque: 80 lbf-ft, second_maker_torque: %s%s}  %s
"""


@rule(
    scope="joint",
    level="error",
    due="assembly",
    says="Two makers disagree on this joint: {maker_torque} and {second_maker_torque}, {value} apart.",
    fix="Ask both with the lubricant in hand, choose one, and write chosen_because on the joint.",
    source="common practice, no source",
    when={"maker_torque": given, "second_maker_torque": given},
    points_at=("second_maker_torque",),
    conforming=(TWO % ("75 lbf-ft", "", ""), TWO % ("65 lbf-ft", ", chosen_because: stud maker's figure with his own paste; gasket maker agreed", "")),
    nonconforming=TWO % ("65 lbf-ft", "", "# <-"),
)
def conflicting_makers_are_decided(
    maker_torque: Torque, second_maker_torque: Torque, chosen_because: Text = None, *, most: Fraction = q("0.15", "fraction"),
):
    """The gasket maker wants 65, the stud maker 80; whoever tightens that day decides, unless somebody has before.

    Compared as torques; where the two sheets name different lubricants the tension differs by more than that.
    """
    if chosen_because is not None:
        return passes()
    apart = abs(maker_torque - second_maker_torque) / max(maker_torque, second_maker_torque)
    return at_most(Fraction(apart, "%"), most)


REVISED = """
joints:
  head: {kind: stud, maker_sheet: stud sheet of %s, part_revised_on: 2025-10-01}  %s
"""
FULL_DAY = re.compile(r"\b\d{4}-\d{2}-\d{2}\b")


@rule(
    scope="joint",
    level="note",
    due="assembly",
    says="The part in hand was revised on {part_revised_on}; the sheet in the folder is of {sheet}.",
    fix="Ask the maker for the sheet that goes with this revision.",
    source="common practice, no source",
    when={"part_revised_on": given, "maker_sheet": given},
    points_at=("maker_sheet",),
    conforming=REVISED % ("2025-11-01", ""),
    nonconforming=REVISED % ("2024-03-12", "# <-"),
)
def maker_sheet_suits_part_revision(part_revised_on: Date, maker_sheet: Text):
    """A new coating or a new steel under the same part number comes with another torque, and only the new sheet says so."""
    days = FULL_DAY.findall(maker_sheet)
    if not days:
        return not_applicable("the sheet's date is not written as a day")
    return require(max(days) >= str(part_revised_on)).telling(sheet=max(days))
