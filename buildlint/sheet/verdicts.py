"""Findings with their fixes, the permits, and the record of what was looked at: version and digests of every input."""

from hashlib import sha256

from .. import __version__
from ..model import FAIL
from ..render import area_name, by_area
from ..render.measured import measured
from ..render.text import line
from .source import in_words, scope_in_words


def findings(build):
    """[(area, rows)] of everything that failed, permitted findings with their permit."""
    failed = [finding for finding in build.report.findings if finding.kind == FAIL]
    return [(area_name(area).capitalize(), [_row(build, finding) for finding in found]) for area, found in by_area(failed)]


def _row(build, finding):
    permit = finding.permit or {}
    return {
        "level": f"{finding.level}, permitted" if permit else finding.level,
        "class": "permitted" if permit else finding.level,
        "scope": scope_in_words(finding.scope),
        "message": _capital(line(finding.message)), "fix": line(finding.fix), "rule": line(finding.rule),
        "where": build.where(finding.place), "source": line(finding.source), "caution": line(finding.caution),
        "related": [(line(what), build.where(place)) for what, place in finding.related],
        "permit": {key: line(value) for key, value in permit.items() if isinstance(value, str)},
        "found": measured(finding),
    }


def _capital(sentence):
    """A sentence of its own begins with a capital, also where on the screen the part stood before it."""
    return sentence[:1].upper() + sentence[1:]


def permits(build):
    """Every permit that sets a finding aside: the rule, where, why, who approved it and until when."""
    rows = []
    for finding in build.report.findings:
        if finding.permit:
            rows.append({"rule": line(finding.rule), "label": in_words(finding.rule), "scope": scope_in_words(finding.scope),
                         **{key: line(finding.permit.get(key, "") or "") for key in ("because", "approved", "until")}})
    return rows


def record(build):
    """(version, rows of file, size and sha256): the spec itself first, then everything else that was looked at."""
    rows = [{"file": build.file(build.path), "size": len(build.data), "digest": sha256(build.data).hexdigest()}]
    for path, data in build.report.inputs:
        data = b"" if data is None else data
        rows.append({"file": build.file(str(path)), "size": len(data), "digest": sha256(data).hexdigest()})
    return __version__, rows
