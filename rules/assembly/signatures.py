"""Signatures for what only eyes can settle: are they whole, and were they given while there was something to see?"""

from buildlint.rulebook import *
from buildlint.tables.build_sequence import HIDDEN_BY

MARK = "  # <-"
SIGNED = """
assembly:
  steps:
    - {step: head_on, by: RM, on: 2026-05-12}
    - {step: sign_off%s}%s
  signed:
    - {check: gasket-lies-the-right-way%s}%s
"""
BY = ", by: RM, on: 2026-05-12"


@rule(
    scope="build",
    level="error",
    due="handover",
    says="A signature is not whole, was given after its subject was hidden, or is missing though the engine is signed off.",
    fix="Write check, by and on for each check that was seen, while it can be seen.",
    source="common practice, no source",
    conforming=(SIGNED % ("", "", BY, ""), SIGNED % (", by: RM, on: 2026-05-20", "", BY, "")),
    nonconforming=(SIGNED % ("", "", ", by: RM", MARK), SIGNED % ("", "", BY.replace("12", "14"), MARK), """
        assembly:
          steps:
            - {step: sign_off, by: RM, on: 2026-05-20}  # <-
        """),
)
def bench_checks_are_signed(assembly_signed: Entries = None, steps_listed: List = None, steps_done: Entries = None):
    """What only eyes can settle counts when somebody puts initials and a day to it, while it can still be seen.

    Which checks are due and unsigned is told for the whole spec; here it is asked whether the signatures are whole,
    whether they were given before the step that hides their subject, and whether the engine is signed off with none.
    """
    done = steps_done or {}
    for row in assembly_signed or ():
        number = row["number"]
        check, lacks = row.get("check"), [name for name in ("by", "on") if not row.get(name)]
        if lacks:
            return require(False).at(f"assembly_signed_{number}").saying("{what}", "{how}").telling(
                what=f"The signature for {check} lacks {' and '.join(lacks)}.", how="Write initials and day, or take the line out.")
        hides = HIDDEN_BY.get(check)
        if hides in done and row["on"] > done[hides]:
            return require(False).at(f"assembly_signed_{number}").saying("{what}", "{how}").telling(
                what=f"{check} is signed for {row['on']}, and {hides.replace('_', ' ')} hid it on {done[hides]}.",
                how="Mend the date that is wrong; if neither is, it was signed unseen.")
    if "sign_off" in done and not assembly_signed:
        return require(False).at(f"steps_listed_{steps_listed.index('sign_off') + 1}").saying("{what}", "{how}").telling(
            what="The engine is signed off, and not one bench check is.",
            how="Go through the reminders; write check, by and on under assembly.signed for each that was seen.")
    return passes() if assembly_signed else not_applicable("nothing is signed yet")
