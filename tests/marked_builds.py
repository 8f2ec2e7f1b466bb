"""Whole builds whose lines say themselves what must be reported of them.

Such a line ends with ``# <- level rule scope``, more of them parted by semicolons.
"""

import re

from buildlint import road
from buildlint.model import FAIL

MARK = re.compile(r"# <- (.*)$")
OVERDUE = frozenset(("due-inputs-are-written", "due-reminders-are-signed"))  # what the checker adds to the rules it was given


def expected(path):
    """(line, level, rule, scope) of every mark in a build."""
    found = set()
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
        mark = MARK.search(line)
        for one in mark[1].split(";") if mark else ():
            level, rule, *scope = one.split()
            found.add((number, level, rule, " ".join(scope)))
    return found


def report_of(path, rules, text=None):
    """The report of a build by these rules alone ({id: rule}), none of which may break down."""
    report = road.check(str(path), text=text, chosen=list(rules.values()))
    assert not report.crashed
    return report


def fails(report, rules):
    """What these rules found wrong."""
    return [finding for finding in report.findings if finding.kind == FAIL and finding.rule in rules]


def reported(report, rules):
    """(line, level, rule, scope) of what these rules found wrong."""
    return {(finding.place.line, finding.level, finding.rule, " ".join(finding.scope)) for finding in fails(report, rules)}


def strange(report, rules):
    """Findings that come from no rule: a key misspelt, a quantity unreadable."""
    return [finding for finding in report.findings if finding.kind == FAIL and finding.rule not in rules and finding.rule not in OVERDUE]
