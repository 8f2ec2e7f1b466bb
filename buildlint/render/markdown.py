"""A summary in Markdown, for the page of a build server or a note to a customer: a table for each spec."""

import re

from ..model import FAIL, REVIEW
from . import counted_as, counts_in_words, not_checked, reasons, stage_name, tally
from .text import counted, line

BETWEEN = "\n"
_MARKS = re.compile(r"([\\`*_{}\[\]()#+\-.!|<>~&])")


def opening(wishes):
    return "# buildlint\n\n"


def closing(totals, wishes):
    told = f"\n**{counted(totals.specs, 'spec')}:** {counts_in_words(totals.counts)}\n" if totals.specs > 1 else ""
    for why, paths in reasons(totals.unchecked):
        told += f"\n**{not_checked(len(paths))}** {escaped(' '.join(why))}\n\n" + "".join(f"- {escaped(path)}\n" for path in paths)
    return told


def sheet(report, wishes):
    """Return the section of one spec."""
    failed = [finding for finding in report.findings if finding.kind == FAIL]
    name = f"{escaped(report.name)} · " if report.name else ""
    lines = [f"## {name}{escaped(report.path)}", "", f"At {stage_name(report.stage)}. {counts_in_words(tally(report.findings))}", ""]
    shown = failed if wishes.most is None else failed[: wishes.most]
    if shown:
        lines += ["| level | where | found | do | rule |", "|---|---|---|---|---|"]
        lines += [_row(finding) for finding in shown]
        if len(failed) > len(shown):
            lines += ["", f"{len(failed) - len(shown)} more are not shown."]
        lines.append("")
    for paths, rules in report.unlocks:
        lines.append(f"- Add {', '.join(escaped(path) for path in paths)} to settle {counted(rules, 'rule')}.")
    waiting = [finding.rule for finding in report.findings if finding.kind == REVIEW]
    if waiting:
        lines.append(f"- To be looked at and signed: {', '.join(escaped(rule) for rule in dict.fromkeys(waiting))}.")
    return "\n".join(lines).rstrip("\n") + "\n"


def _row(finding):
    level = counted_as(finding)
    if finding.permit:
        level = f"permitted: {escaped(finding.permit.get('because', ''))}"
    place = f"{escaped(finding.place.file)}:{finding.place.line}" if finding.place else ""
    scope = f"{escaped(', '.join(finding.scope))}: " if finding.scope else ""
    return f"| {level} | {place} | {scope}{escaped(finding.message)} | {escaped(finding.fix)} | {escaped(finding.rule)} |"


def escaped(text):
    """Text of others as it is, with nothing of it read as Markdown or HTML."""
    return _MARKS.sub(r"\\\1", line(text)).replace("\\.", ".").replace("\\-", "-")
