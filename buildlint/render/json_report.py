"""The JSON of a check, of the lists and of explanations. Its shape is a contract: schemas/report.json.

Everything is ASCII, one finding stands on a line, and keys come in the order of the contract.
"""

import json

from .. import __version__
from . import tally
from .text import paired

BETWEEN = ",\n"

_encode = json.JSONEncoder(allow_nan=False).encode


def encoded(thing):
    """Return JSON on one line; lone surrogates show as escapes, a number that is none becomes null."""
    try:
        text = _encode(thing)
    except (TypeError, ValueError):  # something JSON has no word for: an infinity, a set, a date
        return _encode(_plain(thing))
    return _encode(_plain(thing)) if "\\ud" in text else text


def number(value):
    """Return a measured value as it is told: twelve figures are far more than any measurement and hide the
    rounding of unit factors. What is not a float is returned as it is."""
    if isinstance(value, float):
        return float(f"{value:.12g}") if abs(value) < float("inf") else None
    if isinstance(value, (list, tuple)):
        return [number(each) for each in value]
    return value


def _plain(thing):
    """Return ``thing`` in the plain types of JSON."""
    if isinstance(thing, str):
        return paired(thing)
    if thing is None or isinstance(thing, (bool, int)):
        return thing
    if isinstance(thing, float):
        return number(thing)
    if isinstance(thing, dict):
        return {paired(str(key)): _plain(value) for key, value in thing.items()}
    if isinstance(thing, (list, tuple, set, frozenset)):
        return [_plain(each) for each in (sorted(thing) if isinstance(thing, (set, frozenset)) else thing)]
    return paired(str(thing))


def opening(wishes):
    return f'{{"buildlint": {encoded(__version__)}, "specs": [\n'


def closing(totals, wishes):
    """Return the end, with the specs that could not be checked and why."""
    unchecked = ",\n".join(encoded({"path": path, "message": why}) for path, why in totals.unchecked)
    return f'\n], "unchecked": [{unchecked and f"{chr(10)}{unchecked}{chr(10)}"}]}}\n'


def sheet(report, wishes):
    """Return the object of one spec."""
    head = encoded({"path": report.path, "stage": report.stage, "counts": tally(report.findings)})
    findings = ",\n".join(encoded(told(finding)) for finding in report.findings)
    return f'{head[:-1]}, "findings": [\n{findings}\n]}}'


def told(finding):
    """Return a finding as the contract names its parts."""
    return {
        "rule": finding.rule,
        "area": finding.area,
        "kind": finding.kind,
        "level": finding.level,
        "scope": finding.scope,
        "message": finding.message,
        "fix": finding.fix,
        "value": number(finding.value),
        "limit": number(finding.limit),
        "unit": finding.unit,
        "utilization": number(finding.utilization),
        "missing": finding.missing,
        "at": at(finding.place, finding.pointer),
        "related": [{"message": what, **at(where)} for what, where in finding.related],
        "permit": finding.permit,
    }


def at(place, pointer=""):
    """Return a place, or None where there is none; lines and columns count from 1, columns in code points."""
    if place is None:
        return None
    return {"file": place.file, "line": place.line, "column": place.column, "pointer": pointer}
