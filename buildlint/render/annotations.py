"""Workflow commands, which a code host shows as annotations: an error, a warning or a notice beside its line.

The form is the host's; what stands in it is ours. Text of a spec can never become a command.
"""

from ..model import FAIL
from . import counted_as, not_checked, reasons
from .text import line

BETWEEN = ""
NAMES = {"error": "error", "warning": "warning", "note": "notice"}


def opening(wishes):
    return ""


def closing(totals, wishes):
    """Return a command for each reason why specs could not be checked; it stands beside no line."""
    return "".join(f"::error title=not checked::{_data(' '.join([*why, not_checked(len(paths))]))}\n" for why, paths in reasons(totals.unchecked))


def sheet(report, wishes):
    """Return the commands of one spec, one for each finding that failed."""
    return "".join(one(finding, report.path) + "\n" for finding in report.findings
                   if finding.kind == FAIL and counted_as(finding) != "permitted")


def one(finding, path):
    """Return a finding as one command; its parts are escaped as the host asks."""
    place = finding.place
    where = [f"file={_property(place.file if place else path)}"]
    if place:
        where += [f"line={place.line}", f"col={place.column}"]
        if place.end_line == place.line and place.end_column > place.column:
            where.append(f"endColumn={place.end_column}")
    scope = f"{', '.join(finding.scope)}: " if finding.scope else ""
    text = f"{scope}{finding.message} {finding.fix}".rstrip()
    return f"::{NAMES[finding.level]} {','.join(where)},title={_property(finding.rule)}::{_data(text)}"


def _data(text):
    return line(text).replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")


def _property(text):
    return _data(text).replace(":", "%3A").replace(",", "%2C")
