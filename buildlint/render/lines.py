"""One finding, one line, as GNU tools and editors read it: file:line:column: level: message.

Only what failed is listed; what is open, to be signed or allowed by permit is counted in the summary.
"""

from ..model import FAIL
from . import counted_as, lean_on
from .text import line, place, scope

BETWEEN = ""


def opening(wishes):
    return ""


def closing(totals, wishes):
    """Return what is wrong in files that several specs lean on, each once."""
    return "".join(f"{one(finding, '')} {lean_on(number)}\n" for finding, number in totals.shared)


def sheet(report, wishes):
    """Return the lines of one spec, in the order of the report."""
    return "".join(
        f"{one(finding, report.path)}\n" for finding in report.findings
        if finding.kind == FAIL and counted_as(finding) != "permitted")


def one(finding, path):
    """Return a finding as one line; the message begins with the rule and the scope it was asked in.

    Where it points into a template or a catalogue file, the spec at ``path`` is named at its end.
    """
    where = place(finding.place) if finding.place else line(path)
    about = line(finding.rule) + (f" ({scope(finding.scope)})" if finding.scope else "")
    message = line(finding.message)
    if finding.fix:
        message = f"{message}{'' if message.endswith(('.', '!', '?')) else '.'} {line(finding.fix)}"
    if path and finding.place is not None and finding.place.file != path:
        message = f"{message}{'' if message.endswith(('.', '!', '?')) else '.'} In {line(path)}."
    return f"{where}: {finding.level}: {about}: {message}"
