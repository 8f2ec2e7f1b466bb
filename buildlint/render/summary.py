"""A whole library on one sheet: what each spec has, which rules report most, and where the margins are tightest.

Findings themselves are in the other outputs; here a shop sees where to begin.
"""

from ..model import FAIL, LEVELS
from . import counts_in_words, not_checked, reasons, stage_name, tally
from .json_report import number
from .measured import pair
from .text import counted, line

BETWEEN = ""
TIGHTEST = 5  # margins of one spec that are kept for the summary, one for each rule
SHOWN = 12
AS_NEAR = 0.005  # of the limit: margins that read alike


def opening(wishes):
    return ""


def sheet(report, wishes):
    return ""


def row(report):
    """What the summary needs of one spec, in plain types."""
    counts = tally(report.findings)
    rules = {}
    for finding in report.findings:
        if finding.kind == FAIL and not finding.permit:
            levels = rules.setdefault(finding.rule, dict.fromkeys(LEVELS, 0))
            levels[finding.level] += 1
    tight = sorted((finding for finding in report.findings if finding.has_margin and not finding.permit and finding.utilization <= 1 + 1e-9),
                   key=lambda finding: (-finding.utilization, finding.rule, finding.scope))
    nearest = {}
    for finding in tight:
        nearest.setdefault(finding.rule, finding)
    margins = [{"rule": finding.rule, "scope": list(finding.scope), "utilization": number(finding.utilization),
                "found": pair(finding)} for finding in list(nearest.values())[:TIGHTEST]]
    return {"path": report.path, "name": report.name, "stage": report.stage, "counts": counts, "rules": rules, "margins": margins}


def closing(totals, wishes):
    """Return the sheet: specs, rules, margins, counts."""
    from .page import LEVEL_STYLES, Page

    rows, unchecked = totals.rows, totals.unchecked
    page = Page(wishes.width, wishes.color)
    if rows:
        page.heading("By spec")
    worst = sorted(rows, key=lambda one: ([-one["counts"][level] for level in LEVELS], one["path"]))
    clean = [one for one in worst if not any(one["counts"][level] for level in LEVELS)]
    most = wishes.most
    worst = worst[:len(worst) - len(clean)]
    for one in worst[:most]:
        level = next(level for level in LEVELS if one["counts"][level])
        told = ", ".join(counted(one["counts"][level], level) for level in LEVELS if one["counts"][level])
        page.labelled(level, f"{line(one['path'])}: {told}; at {stage_name(one['stage'])}", LEVEL_STYLES[level])
    _tell_rest(page, len(worst), most)
    if clean:
        page.labelled("good", f"{counted(len(clean), 'spec')} with nothing to put right")
    if unchecked:
        page.heading("Not checked")
    for why, paths in reasons(unchecked):
        for sentence in why:
            page.labelled("error", line(sentence), LEVEL_STYLES["error"])
        for path in paths[:most]:
            page.labelled("", line(path))
        _tell_rest(page, len(paths), most)
    page.heading("By rule")
    rules = {}
    for one in rows:
        for rule, levels in one["rules"].items():
            into = rules.setdefault(rule, {"specs": 0, **dict.fromkeys(LEVELS, 0)})
            into["specs"] += 1
            for level, count in levels.items():
                into[level] += count
    order = sorted(rules.items(), key=lambda pair: ([-pair[1][level] for level in LEVELS], pair[0]))
    for rule, into in order[:most]:
        level = next(level for level in LEVELS if into[level])
        told = ", ".join(counted(into[level], level) for level in LEVELS if into[level])
        page.labelled(level, f"{line(rule)}: {told} in {counted(into['specs'], 'spec')}", LEVEL_STYLES[level])
    _tell_rest(page, len(order), most)
    if not order:
        page.labelled("", "No rule reports anything.")
    margins = sorted(((margin, one["path"]) for one in rows for margin in one["margins"]),
                     key=lambda pair: (-pair[0]["utilization"], pair[1], pair[0]["rule"], pair[0]["scope"]))
    if margins:
        page.heading("Tightest margins that hold")
        nearest = {}
        for margin, path in margins:
            nearest.setdefault(margin["rule"], []).append((margin, path))
        for alike in list(nearest.values())[:SHOWN]:
            margin, path = alike[0]
            others = sum(other["utilization"] > margin["utilization"] - AS_NEAR for other, _ in alike[1:])
            scope = f" ({line(', '.join(margin['scope']))})" if margin["scope"] else ""
            more = f", and in {counted(others, 'more spec', 'more specs')}" if others else ""
            page.labelled(f"{margin['utilization']:.0%}", f"{line(margin['rule'])}{scope}{margin['found']}, {line(path)}{more}")
    page.gap()
    page.paragraph(f"{counted(totals.specs, 'spec')}. {counts_in_words(totals.counts)}{f' {not_checked(len(unchecked))}' if unchecked else ''}")
    return page.finished()


def _tell_rest(page, count, most):
    if most is not None and count > most:
        page.labelled("", f"and {count - most} more")
