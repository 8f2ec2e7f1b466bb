"""SARIF 2.1.0 for code hosts: one run, a result for every finding that failed, a descriptor for every rule.

What is open, passed or not applicable comes only with ``every``; a host would show it as an alarm. Places are
relative to the folder the check ran in, columns in code points, and permitted findings are suppressed results
with their reason. Descriptors stand before the results, what became of the run after them.
"""

from urllib.parse import quote

from .. import __version__
from ..fingerprints import of_report
from ..model import FAIL, LEVELS, NOT_APPLICABLE, NOTATION, OPEN, PASS, REVIEW
from .json_report import encoded, number
from .text import paired, visible

BETWEEN = ",\n"
SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"

OWN = {
    "file-is-readable": "The file can be read as text.",
    "spec-is-well-formed": "The file is one sound YAML document.",
    "key-is-written-once": "No key stands twice.",
    "value-is-plain-data": "Values are plain: no tags, no merge keys, no hidden characters.",
    "key-is-known": "Every key is one of the vocabulary.",
    "choice-is-known": "A value of choice is one of its list.",
    "value-has-its-shape": "A value has the shape its key asks for.",
    "quantity-can-be-read": "A quantity is a number with a unit of its dimension.",
    "list-has-one-value-each": "A list by cylinder or journal has one value for each.",
    "due-inputs-are-written": "What rules need by this stage is written.",
    "due-reminders-are-signed": "Reminders that are due are signed.",
    "rule-runs-to-its-end": "A rule runs to its end.",
}


def opening(wishes):
    from .. import road  # the rules are loaded by now

    driver = {
        "name": "buildlint", "version": __version__, "semanticVersion": __version__,
        "rules": [_descriptor(rule) for rule in road.rules()] + [_own(*each) for each in OWN.items()],
    }
    head = {"tool": {"driver": driver}, "columnKind": "unicodeCodePoints", "defaultEncoding": "utf-8", "language": "en-US",
            "automationDetails": {"id": "buildlint/"}}
    return f'{{"$schema": {encoded(SCHEMA)}, "version": "2.1.0", "runs": [{encoded(head)[:-1]}, "results": [\n'


def _descriptor(rule):
    from inspect import cleandoc

    why = cleandoc(rule.why)
    first = why.split("\n", 1)[0]
    described = {
        "id": rule.id, "name": "".join(part.capitalize() for part in rule.id.split("-")),
        "shortDescription": {"text": paired(first)}, "fullDescription": {"text": paired(why)},
        "help": {"text": paired(f"{why}\n\n{rule.fix}\n\nSource: {rule.source}")},
        "defaultConfiguration": {"level": rule.level if rule.level in LEVELS else "none"},
        "properties": {"tags": sorted({rule.area, f"due {rule.due}"}), "scope": rule.scope, "source": paired(rule.source)},
    }
    if rule.was:
        described["deprecatedIds"] = list(rule.was)
    return described


def _own(name, sentence):
    return {"id": name, "name": "".join(part.capitalize() for part in name.split("-")), "shortDescription": {"text": sentence},
            "fullDescription": {"text": sentence}, "help": {"text": sentence}, "defaultConfiguration": {"level": "error"},
            "properties": {"tags": ["spec"]}}


def sheet(report, wishes):
    """Return the results of one spec; nothing where nothing failed."""
    results = [encoded(_result(finding, place, content, report)) for finding, place, content in of_report(report, _path(report.path))]
    if wishes.every:
        results += [encoded(_other(finding, report)) for finding in report.findings if finding.kind != FAIL]
    return ",\n".join(results)


def _result(finding, place, content, report):
    result = {
        "ruleId": finding.rule, "kind": "fail", "level": finding.level,
        "message": {"text": paired(visible(_sentence(finding)))},
        "locations": [_location(finding.place, finding.pointer, report)],
        "partialFingerprints": {"ruleAndPlace/v1": place, "content/v1": content},
        "suppressions": [_suppression(finding.permit)] if finding.permit else [],
        "properties": {"area": finding.area, "scope": list(map(paired, finding.scope)), "fix": paired(finding.fix)},
    }
    for name, value in (("measured", number(finding.value)), ("limit", number(finding.limit)), ("unit", finding.unit or None),
                        ("utilization", number(finding.utilization)), ("missing", list(finding.missing) or None)):
        if value is not None:
            result["properties"][name] = value
    related = [{"id": index, "message": {"text": paired(visible(str(what)))}, **_location(where, "", report)}
               for index, (what, where) in enumerate(finding.related, 1) if where is not None]
    if related:
        result["relatedLocations"] = related
    if finding.edit is not None and _stands_here(finding.edit, report):
        result["fixes"] = [_fix(finding.edit)]
    return result


def _stands_here(edit, report):
    """Whether an edit replaces something on one line of the spec itself; only such a change stands by itself."""
    place = edit.place
    return place is not None and place.file == report.path and place.line == place.end_line and place.column < place.end_column


def _fix(edit):
    place = edit.place
    region = {"startLine": place.line, "startColumn": place.column, "endLine": place.end_line, "endColumn": place.end_column}
    described = "Write it as" if edit.sort == NOTATION else "A decision, since another engine would be built:"
    return {"description": {"text": paired(visible(f"{described} {edit.new}"))}, "artifactChanges": [{
        "artifactLocation": {"uri": uri(place.file)},
        "replacements": [{"deletedRegion": region, "insertedContent": {"text": paired(edit.new)}}]}]}


def _sentence(finding):
    scope = f"{', '.join(finding.scope)}: " if finding.scope else ""
    stop = "." if finding.fix and finding.message[-1:].isalnum() else ""
    return f"{scope}{finding.message}{stop} {finding.fix}".rstrip()


def _other(finding, report):
    text = finding.message or {PASS: "holds", OPEN: "cannot be judged yet", NOT_APPLICABLE: "not for this build"}.get(finding.kind, "")
    kinds = {PASS: "pass", OPEN: "open", REVIEW: "review", NOT_APPLICABLE: "notApplicable"}
    return {"ruleId": finding.rule, "kind": kinds[finding.kind], "level": "none", "message": {"text": paired(visible(text or finding.rule))},
            "locations": [_location(finding.place, finding.pointer, report)], "suppressions": [],
            "properties": {"area": finding.area, "scope": list(map(paired, finding.scope)), "missing": list(finding.missing)}}


def _suppression(permit):
    properties = {name: paired(permit[name]) for name in ("approved", "until") if name in permit}
    return {"kind": "inSource", "status": "accepted", "justification": paired(permit.get("because", "")), "properties": properties}


def _location(place, pointer, report):
    physical = {"artifactLocation": {"uri": uri(place.file if place is not None else report.path)}}
    if place is not None:
        region = {"startLine": place.line, "startColumn": place.column}
        if (place.end_line, place.end_column) > (place.line, place.column):
            region |= {"endLine": place.end_line, "endColumn": place.end_column}
        physical["region"] = region
    location = {"physicalLocation": physical}
    if pointer:
        location["logicalLocations"] = [{"fullyQualifiedName": paired(pointer), "kind": "member"}]
    return location


def uri(path):
    """A path as a relative URI: forward slashes, percent-encoded; a colon in the first part would be a scheme."""
    return quote(_path(path).encode("utf-8", "surrogateescape"), safe="/-._~!$&'()*+,;=@") or "."


def _path(path):
    path = str(path).replace("\\", "/")
    while path.startswith("./"):
        path = path[2:]
    return path


def closing(totals, wishes):
    notes = [{"level": "error", "message": {"text": f"the rule '{rule}' broke down; what it would have said is not known"},
              "associatedRule": {"id": rule}} for rule in totals.crashed]
    notes += [{"level": "error", "message": {"text": paired(visible(f"not checked: {why}"))},
               "locations": [{"physicalLocation": {"artifactLocation": {"uri": uri(path)}}}]}
              for path, why in totals.unchecked]
    invocation = {"executionSuccessful": not notes, "toolExecutionNotifications": notes}
    return f'\n], "invocations": [{encoded(invocation)}]}}]}}\n'
