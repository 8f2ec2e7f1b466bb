"""The report of code quality that a code host shows with a merge request: a JSON list, an object a finding.

The names of the fields are the host's. Each finding has a fingerprint of its own, so that none hides another.
"""

from ..fingerprints import of_report
from . import counted_as
from .json_report import encoded
from .sarif import uri
from .text import paired, visible

BETWEEN = ",\n"
SEVERITIES = {"error": "critical", "warning": "minor", "note": "info"}


def opening(wishes):
    return "[\n"


def closing(totals, wishes):
    return "\n]\n"


def sheet(report, wishes):
    """Return the objects of one spec; nothing where nothing failed."""
    return BETWEEN.join(encoded(one(finding, place, report)) for finding, place, _ in of_report(report)
                        if counted_as(finding) != "permitted")


def one(finding, fingerprint, report):
    """Return a finding as the host names its parts."""
    scope = f"{', '.join(finding.scope)}: " if finding.scope else ""
    return {"description": paired(visible(f"{scope}{finding.message} {finding.fix}".rstrip())), "check_name": finding.rule,
            "fingerprint": fingerprint, "severity": SEVERITIES[finding.level],
            "location": {"path": uri(finding.place.file if finding.place else report.path),
                         "lines": {"begin": finding.place.line if finding.place else 1}}}
