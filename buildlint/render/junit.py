"""JUnit XML for build servers: a suite for each spec, a test case for each answer of a rule.

Errors and warnings are failures, notes pass with what they say, open and not applicable are skipped with the
reason, permitted ones are skipped with the permit. A rule that broke down is an error, not a failure.
"""

import re
from xml.sax.saxutils import quoteattr

from ..model import FAIL, NOT_APPLICABLE, OPEN, REVIEW
from . import counted_as
from .text import paired, visible

BETWEEN = ""
_NOT_XML = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
CRASH = "rule-runs-to-its-end"


def opening(wishes):
    return '<?xml version="1.0" encoding="UTF-8"?>\n<testsuites name="buildlint">\n'


def closing(totals, wishes):
    """Return the end, and before it a suite of the specs that could not be checked: each an error, none a failure."""
    unchecked = totals.unchecked
    if not unchecked:
        return "</testsuites>\n"
    cases = "".join(f'<testcase name={_attribute(path)} classname="buildlint.spec" time="0">'
                    f'<error message={_attribute(why)} type="not checked">{_text(why)}</error></testcase>\n' for path, why in unchecked)
    count = len(unchecked)
    return (f'<testsuite name="not checked" tests="{count}" failures="0" errors="{count}" skipped="0" time="0">\n'
            f"{cases}</testsuite>\n</testsuites>\n")


def sheet(report, wishes):
    """Return the test suite of one spec."""
    counted = [counted_as(finding) for finding in report.findings]
    failures = sum(kind in ("error", "warning") and finding.rule != CRASH for kind, finding in zip(counted, report.findings))
    errors = sum(finding.rule == CRASH for finding in report.findings)
    skipped = sum(kind in (OPEN, NOT_APPLICABLE, REVIEW, "permitted") for kind in counted)
    head = (f'<testsuite name={_attribute(report.path)} tests="{len(counted)}" failures="{failures}" errors="{errors}" '
            f'skipped="{skipped}" time="0">\n')
    return head + "".join(map(_case, report.findings, counted)) + "</testsuite>\n"


def _case(finding, counted):
    scope = f" ({', '.join(finding.scope)})" if finding.scope else ""
    head = f'<testcase name={_attribute(finding.rule + scope)} classname={_attribute("buildlint." + finding.area)} time="0"'
    where = f"{finding.place.file}:{finding.place.line}:{finding.place.column}" if finding.place else ""
    body = "\n".join(part for part in (finding.message, finding.fix, where) if part)
    if finding.rule == CRASH:
        return f"{head}><error message={_attribute(finding.message)} type={_attribute(finding.level)}>{_text(body)}</error></testcase>\n"
    if counted in ("error", "warning"):
        return f"{head}><failure message={_attribute(finding.message)} type={_attribute(counted)}>{_text(body)}</failure></testcase>\n"
    if counted == "permitted":
        return f"{head}><skipped message={_attribute('permitted: ' + finding.permit.get('because', ''))}/></testcase>\n"
    if finding.kind in (OPEN, NOT_APPLICABLE, REVIEW):
        words = {OPEN: "open", NOT_APPLICABLE: "not applicable", REVIEW: "to be signed"}[finding.kind]
        return f"{head}><skipped message={_attribute(f'{words}: {finding.message}' if finding.message else words)}/></testcase>\n"
    if finding.kind == FAIL:
        return f"{head}><system-out>{_text(body)}</system-out></testcase>\n"
    return f"{head}/>\n"


def _clean(text):
    return _NOT_XML.sub("\ufffd", paired(str(text)))


def _attribute(text):
    return quoteattr(_clean(visible(str(text))))


def _text(text):
    cleaned = _clean("\n".join(visible(part) for part in str(text).split("\n")))
    return cleaned.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
