"""Measurements: are they whole, can their dates be, and do they look as if somebody had looked?"""

from buildlint.rulebook import *
from buildlint.tables.build_sequence import SHUT_IN_BY, steps_for

MARK = "  # <-"
RECORDS = """
build: {stage: handover}
bearings:
  main: {clearance: {plan: 0.0025 in +/- 0.0003 in%s}}%s
assembly:
  records:
    - {item: pickup tube length, value: 9.40 in, tool: caliper, by: RM, on: 2026-05-12}
    - {item: damper runout, value: 0.004 in%s}%s
"""
MEASURED = ", measured: 0.0026 in, by: RM, on: 2026-05-10"
WHOLE = ", tool: dial indicator, by: RM, on: 2026-05-12"


@rule(
    scope="build",
    level="error",
    due="handover",
    says="{complete} of {all} measurements are complete; {what}.",
    fix="Measure what was planned and write measured, by and on; a record needs value, tool, by and on.",
    source="common practice, no source",
    conforming=(RECORDS % (MEASURED, "", WHOLE, ""), "build: {stage: handover}\nbearings: {main: {clearance: 0.0026 in}}\n"),
    nonconforming=(RECORDS % ("", MARK, WHOLE, ""), RECORDS % (MEASURED, "", ", by: RM, on: 2026-05-12", MARK),
                   RECORDS % (", measured: 0.0026 in, by: RM", MARK, WHOLE, "")),
)
def measurements_are_complete(measurements: Entries, assembly_records: Entries = None, steps_done: Entries = None):
    """A number without tool, hand and day is a memory; the next one to open the engine has only the sheet.

    Counted are values written with plan or measured, and the records. What a signed step has shut in already is told
    there. A number that stands alone in the spec is taken as it is.
    """
    done, wanting_names, first, path = steps_done or {}, [], None, ""
    complete = 0
    for row in measurements:
        lacks = [] if row["measured"] else ["measured"]
        lacks += [name for name in ("by", "on") if row["measured"] and row[name] is None]
        if lacks == ["measured"] and any(row["word"] in words for step, words in SHUT_IN_BY.items() if step in done):
            continue
        complete += not lacks
        if lacks:
            first, path = first or row["word"], path or f"{row['path']}.{lacks[0]}"
            wanting_names.append(f"{row['word'].replace('_', ' ')} lacks {' and '.join(lacks)}")
    for row in assembly_records or ():
        lacks = [name for name in ("item", "value", "tool", "by", "on") if not row.get(name)]
        complete += not lacks
        if lacks:
            first, path = first or f"assembly_records_{row['number']}", path or "assembly.records"
            wanting_names.append(f"{row.get('item', 'a record')} lacks {' and '.join(lacks)}")
    if not wanting_names:
        return passes() if complete else not_applicable("nothing is written as planned and measured")
    verdict = wanting(path).at(first)
    verdict.value, verdict.limit = complete / (complete + len(wanting_names)), 1.0
    more = f", and {len(wanting_names) - 4} more" if len(wanting_names) > 4 else ""
    return verdict.telling(complete=str(complete), all=str(complete + len(wanting_names)), what="; ".join(wanting_names[:4]) + more)


DATES = """
bearings:
  main: {clearance: {plan: 0.0025 in, measured: 0.0026 in, by: RM, on: %s}}
assembly:
  steps:
    - {step: gallery_plugs, by: RM, on: %s}
    - {step: main_and_crank, by: RM, on: 2026-05-11}%s
order:
  items:
    - {item: main_bearing_set, quantity: 1, needed_for: main_and_crank, arrived_on: %s}
"""


@rule(
    scope="step",
    level="error",
    due="handover",
    says="The day of {step} does not fit the days of what it builds on, uses or shuts in.",
    fix="Mend the date that is wrong; if none is, look again at what was done.",
    source="common practice, no source",
    when={"on": given},
    points_at=("on",),
    conforming=(DATES % ("2026-05-11", "2026-05-11", "", "2026-05-02"), DATES % ("2026-05-09", "2026-05-04", "", "2026-05-11")),
    nonconforming=(DATES % ("2026-05-13", "2026-05-10", MARK, "2026-05-02"), DATES % ("2026-05-10", "2026-05-12", MARK, "2026-05-02"),
                   DATES % ("2026-05-10", "2026-05-10", MARK, "2026-05-12"), """
        bearings: {main: {clearance: {plan: 0.0025 in}}}
        assembly:
          steps:
            - {step: main_and_crank, by: RM, on: 2026-05-11}  # <-
        """),
)
def measurement_dates_are_possible(
    step: Choice, on: Date, by: Text = None, earlier_steps: List = None, steps_done: Entries = None, measurements: Entries = None,
    order_lines: Entries = None, step_prerequisites: Entries = None, step_reasons: Entries = None, layout: Choice = None,
    head_joint_kind: Choice = None, head_cover_lifters: YesNo = None, block_dowel_holes_per_bank: Count = None, lifter_foot: Choice = None,
):
    """A clearance dated after the crank was laid in was either not measured or not on that day.

    Held against the day of each signed step: the steps it builds on, the parts it uses, and the measurements it shuts
    in. Where the list itself stands in a wrong order, that is told by itself and not once more by the dates.
    """
    if by is None:
        return not_applicable("not signed")
    table = steps_for(layout, head_joint_kind, head_cover_lifters, block_dowel_holes_per_bank, lifter_foot=lifter_foot)
    said = step.replace("_", " ")
    before = (*(table[step].requires if step in table else ()), *(step_prerequisites.get(step) or ()))
    for name in before:
        if name in earlier_steps and steps_done.get(name) is not None and steps_done[name] > on and not {step, name} & set(step_reasons):
            return require(False).saying("{what}", "{how}").telling(
                what=f"The step {said} is signed for {on}, and {name.replace('_', ' ')}, which comes before it, for {steps_done[name]}.",
                how="Mend the date that is wrong; if neither is, look again at what was done over the top of it.")
    for row in order_lines or ():
        if row.get("needed_for") == step and row.get("arrived_on") is not None and row["arrived_on"] > on:
            return require(False).saying("{what}", "{how}").telling(
                what=f"The step {said} is signed for {on}, and its {row['item'].replace('_', ' ')} came on {row['arrived_on']}.",
                how="Mend the date that is wrong, or write which part was fitted instead.")
    for row in measurements or ():
        if row["word"] not in SHUT_IN_BY.get(step, ()):
            continue
        word = row["word"].replace("_", " ")
        if not row["measured"]:
            return require(False).saying("{what}", "{how}").telling(
                what=f"The step {said} is signed for {on}, and {word}, which it shuts in, was planned but never measured.",
                how="Measure it while that still costs only a little work, or write the number if it was taken.")
        if row["on"] is not None and row["on"] > on:
            return require(False).saying("{what}", "{how}").telling(
                what=f"{word.capitalize()} is dated {row['on']}, and {said} shut it in on {on}.",
                how="Mend the date that is wrong; if neither is, the number is of another assembly: open it and measure.")
    return passes()


ROW = "heads: {chamber_volume: {plan: 64.0 cc, measured: [%s], by: RM, on: 2026-05-04}}  %s\n"


@rule(
    scope="build",
    level="note",
    due="handover",
    says="All {count} values of {what} are exactly what was planned.",
    fix="If they were measured, say so when signing; a row that was copied from the plan is measured again.",
    source="common practice, no source",
    conforming=(ROW % ("64.0 cc, 64.1 cc, 63.9 cc, 64.0 cc", ""), ROW % ("64.0 cc, 64.0 cc", "")),
    nonconforming=ROW % ("64.0 cc, 64.0 cc, 64.0 cc, 64.0 cc", "# <-"),
)
def measurements_differ_from_nominal(measurements: Entries, *, least: int = 4):
    """Real parts scatter in the last digit; eight equal numbers were written from memory or from the plan.

    A row of fewer than four may be luck.
    """
    for row in measurements:
        if row["plan"] is not None and len(row["measured"]) >= least and all(
                abs(number - row["plan"]) <= 1e-9 * abs(row["plan"]) for number in row["measured"]):
            return require(False).at(row["word"]).telling(count=str(len(row["measured"])), what=row["word"].replace("_", " "))
    return passes() if measurements else not_applicable("nothing is written as planned and measured")
