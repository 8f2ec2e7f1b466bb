"""Two specs beside each other: what was written differently, which numbers follow differently, which findings went
and came. Places and positions of lists do not count; a value is the same when it means the same."""

from typing import NamedTuple

from . import fingerprints, judge, road
from .resolve import dimension_of
from .value_display import show_value


class Change(NamedTuple):
    """One word in one scope, before and after; None where it is not known on that side."""

    scope: tuple
    word: str
    before: str | None
    after: str | None
    place: object = None


class Comparison(NamedTuple):
    """``written`` and ``follows`` are tuples of Change, ``gone``, ``new`` and ``same`` tuples of findings."""

    old: str
    new: str
    written: tuple
    follows: tuple
    gone: tuple
    new_findings: tuple
    same: tuple


def compare(old, new):
    """Compare two spec files. Raises road.CannotStart for one that cannot be read."""
    before, after = _seen(old), _seen(new)
    written = _changes(before.written, after.written)
    follows = _changes(before.computed, after.computed)
    first, second = ({place: (finding, content) for finding, place, content in fingerprints.of_report(side.report, "")}
                     for side in (before, after))
    gone = [finding for place, (finding, content) in first.items() if second.get(place, (None, None))[1] != content]
    came = [finding for place, (finding, content) in second.items() if first.get(place, (None, None))[1] != content]
    same = [finding for place, (finding, content) in second.items() if first.get(place, (None, None))[1] == content]
    return Comparison(str(old), str(new), written, follows, tuple(gone), tuple(came), tuple(same))


class _Seen(NamedTuple):
    written: dict
    computed: dict
    report: object


def _seen(path):
    """{(scope, word): (meaning, shown, place)} of what is written and what follows from it, and the Report."""
    report = road.check(path)
    spec, _, _ = road.prepare(path, str(path), road.bytes_of(path), road.standard_for(path).units)
    if spec is None:
        return _Seen({}, {}, report)
    bench = judge.Bench(spec, road.words(), road.ways())
    written = {}
    for scope, value in spec.written:
        for number, element in enumerate(value.elements or (value,), 1):
            if element is None:  # not measured yet
                continue
            label = (*scope.label, f"{value.along[0]} {number}") if value.elements else scope.label
            written[label, value.word] = _meaning(element), show_value(element, bench), element.place
    asked = {word for rule in road.rules() for word in rule.words} & set(road.ways())
    computed = {}
    for scope in spec.scopes:
        for word in sorted(asked):
            value = scope.value(word)
            if value is None or value.formula is None or not dimension_of(value).numeric:
                continue
            if scope.parent is not None and scope.parent.value(word) is value:
                continue  # nothing of its own here
            computed[scope.label, word] = _meaning(value), show_value(value, bench), None
    return _Seen(written, computed, report)


def _meaning(value):
    """What a value means, for telling whether two are the same: nine figures of a number, else the text."""
    data = value.data
    if isinstance(data, (int, float)) and not isinstance(data, bool):
        return f"{float(data):.9g}"
    return repr(data) if not hasattr(data, "_fields") else repr(tuple(data))


def _changes(before, after):
    found = []
    for key in dict.fromkeys([*before, *after]):
        old, new = before.get(key), after.get(key)
        if old is None or new is None or old[0] != new[0]:
            found.append(Change(key[0], key[1], old and old[1], new and new[1], (new or old)[2]))
    return tuple(sorted(found, key=lambda change: (change.scope, change.word)))
