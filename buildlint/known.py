"""Findings of an old library that were there before: recorded once, so that only new ones count.

Matched by rule, place in the document and what they say, never by line; a finding whose figures have changed is
new, and says what it was. Those that are gone are told, and taken out on request.
"""

import json
import os
from typing import NamedTuple

from . import fingerprints
from .load import Unreadable, read_bytes
from .model import FAIL

LAYOUT = 1
LARGEST = 200_000_000  # bytes of a record: a large library has many thousands of findings
BEGINS = '{"known_findings"'


class NotSound(Exception):
    """The record cannot be used; the message says where and why."""


class Known(NamedTuple):
    """A record: its file, the text it was read from, and {spec: {place fingerprint: entry}}."""

    file: str
    text: str
    specs: dict

    def marked(self, report):
        """(the Report without the failures that are known, how many those were, [(spec, rule, message)] that are gone)."""
        path = relative(report.path, self.file)
        entries = self.specs.get(path, {})
        found, kept, known = set(), [], 0
        told = {id(finding): (place, content) for finding, place, content in fingerprints.of_report(report, path)}
        for finding in report.findings:
            place, content = told.get(id(finding), (None, None))
            entry = entries.get(place)
            if entry is None or finding.rule == "rule-runs-to-its-end":
                kept.append(finding)
                continue
            found.add(place)
            if entry["content"] == content or finding.permit:
                known += 1
            else:
                kept.append(finding._replace(message=f"{finding.message} (recorded before as: {entry['message']})"))
        gone = tuple((report.path, entry["rule"], entry["message"]) for place, entry in entries.items() if place not in found)
        return report._replace(findings=tuple(kept)), known, gone


def relative(path, file):
    """A spec's name in a record: seen from the record's folder, with forward slashes."""
    return os.path.relpath(os.path.realpath(path), os.path.dirname(os.path.realpath(file))).replace(os.sep, "/")


def refuse(file, specs):
    """Refuse to write a record over what is none: a spec, or any other file with something in it. Raises NotSound."""
    real = os.path.realpath(file)
    if any(os.path.realpath(spec) == real for spec in specs):
        raise NotSound(f"{file}: it is a spec; it would be overwritten by the record. Give the record a name of its own")
    try:
        begins = read_bytes(file, LARGEST)[:len(BEGINS)] if os.path.isfile(file) else b""
    except Unreadable as error:
        raise NotSound(f"{file}: {error}") from error
    if begins not in (b"", BEGINS.encode()):
        raise NotSound(f"{file}: it is there already and is no record of known findings. Give the record another name")


def read(file):
    """Read a record. Raises NotSound."""
    try:
        text = read_bytes(file, LARGEST).decode("utf-8")
    except (Unreadable, UnicodeDecodeError) as error:
        raise NotSound(f"{file}: {error}") from error
    try:
        whole = json.loads(text)
        if whole["known_findings"] != LAYOUT:
            raise NotSound(f"{file}: it was written by another version (layout {whole['known_findings']!r}); record it again")
        specs = {}
        for entry in whole["findings"]:
            specs.setdefault(str(entry["spec"]), {})[str(entry["place"])] = {
                name: str(entry[name]) for name in ("rule", "message", "content")}
    except NotSound:
        raise
    except (ValueError, KeyError, TypeError, AttributeError) as error:
        raise NotSound(f"{file}: it is no record of known findings; write one with: buildlint known PATH --file FILE") from error
    return Known(file, text, specs)


def entries(report, file):
    """What is recorded of one Report: all that failed and is not permitted."""
    path = relative(report.path, file)
    return [{"spec": path, "rule": finding.rule, "scope": list(finding.scope), "at": finding.pointer, "message": finding.message,
             "place": place, "content": content}
            for finding, place, content in fingerprints.of_report(report, path)
            if finding.kind == FAIL and not finding.permit and finding.rule != "rule-runs-to-its-end"]


def written(found):
    """The text of a record, one finding a line, in a fixed order."""
    lines = [json.dumps(entry, ensure_ascii=True) for entry in sorted(found, key=lambda entry: (entry["spec"], entry["place"]))]
    return f'{BEGINS}: {LAYOUT}, "findings": [\n' + ",\n".join(lines) + "\n]}\n"
