"""The examples that rules carry, run as the tests they are: for a shop that wants to know whether its own rules hold."""

import textwrap

from .model import FAIL

MARK = "# <-"


def broken_examples(rules):
    """Run every example of the rules; returns a sentence for each that does not hold."""
    return [said for rule in rules for said in _of_rule(rule)]


def _of_rule(rule):
    for kind in ("conforming", "nonconforming"):
        for number, text in enumerate(getattr(rule, kind), 1):
            said = _wrong(rule, kind, textwrap.dedent(text).strip("\n") + "\n")
            if said:
                yield f"{rule.file}: rule {rule.id}: {kind} example {number}: {said}"


def _wrong(rule, kind, text):
    from . import road, standard

    report = road.check("example.yaml", text=text.encode(), chosen=[rule], settled=standard.NONE)
    failed = [finding for finding in report.findings if finding.kind == FAIL and finding.rule in (rule.id, "rule-runs-to-its-end")]
    if report.crashed:
        return failed[0].message
    lines = {finding.place.line for finding in failed if finding.place is not None}
    if kind == "conforming":
        return f"it is reported: {failed[0].message}" if failed else ""
    marked = {number for number, line in enumerate(text.splitlines(), 1) if line.rstrip().endswith(MARK)}
    if not failed:
        return "nothing is reported"
    missing = sorted(marked - lines)
    return f"line {missing[0]} is marked, but line {min(lines)} was reported" if missing else ""
