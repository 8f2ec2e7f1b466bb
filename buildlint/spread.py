"""What the tolerances of a spec do: which limits that hold as planned no longer hold when parts come out at the edges.

Every written value that carries a tolerance or a range, and is not measured yet, is put at either end, one at a time;
what moves a margin the wrong way adds up to the worst case, which is then judged as it is, and to the likely case, the
root of the sum of squares of independent parts.
Source: worst case and root sum square, the two usual ways to add up tolerances; E. Oberg et al., Machinery's Handbook,
allowances and tolerances, from memory.
"""

import datetime
from math import sqrt
from typing import NamedTuple

from . import judge, permits, road
from .compose import compose
from .model import FAIL, LEVELS, PASS, Finding
from .quantities import Amount
from .reading import outside_name, read_spec
from .resolve import dimension_of
from .validate import validate
from .value_display import unit_of, usual_unit

MOST = 300  # values with a tolerance; each costs two judgements of the whole spec
CORNERS = 60  # worst cases that are judged in full, the nearest to their limits first


class Toleranced(NamedTuple):
    """A written value with its two ends: its word as it is called from outside, its pointer, its text, low and high in SI."""

    word: str
    pointer: str
    text: str
    low: Amount
    high: Amount


class Margin(NamedTuple):
    """One limit: the finding as planned and as it is at the worst, the likely use of the limit, and the values that move
    it the wrong way, each with its share of the spread (of the sum of squares)."""

    planned: Finding
    worst: Finding
    likely: float
    movers: tuple


class Range(NamedTuple):
    """What becomes of one word in one scope, in SI: planned, the worst and the likely (low, high), and what moves it."""

    scope: tuple
    word: str
    dimension: str
    unit: str
    planned: float
    worst: tuple
    likely: tuple
    movers: tuple


class Spread(NamedTuple):
    """``lost`` are margins that hold as planned and not at the worst, ``kept`` those that hold, the nearest to their limit
    first, ``failing`` the findings there are already as planned."""

    path: str
    stage: str
    inputs: tuple
    lost: tuple
    kept: tuple
    failing: tuple


class TooMany(Exception):
    """More values carry a tolerance than can be looked at."""


class _Study:
    """One spec that is judged again and again with some of its values elsewhere in their tolerance."""

    def __init__(self, path, stage):
        self.path = str(path)
        tree = road.tree_of(path, road.bytes_of(path))
        self.shop = road.standard_for(path)
        self.tree, _, _ = compose(path, tree)
        _, self.broken = validate(self.tree, road.words())
        self.rules = [*road.rules(), *self.shop.rules]
        self.wanted = stage
        spec = self.read({})
        self.stage = stage or spec.stage
        self.inputs = _toleranced(spec)
        if len(self.inputs) > MOST:
            raise TooMany(f"{len(self.inputs)} values carry a tolerance; {MOST} are the most")

    def read(self, ends):
        """The Spec with the values at these pointers elsewhere: {pointer: Amount}."""
        spec = read_spec(self.tree, road.words(), road.ways(), self.broken, self.shop.units)
        if self.wanted:
            spec.judge_at(self.wanted)
        for _, value in spec.written:
            if value.pointer in ends:
                value.data = value.plan = ends[value.pointer]
        return spec

    def judged(self, ends):
        """{(rule, scope): Finding} of everything that passes or fails."""
        bench = judge.Bench(self.read(ends), road.words(), road.ways(), self.wanted, self.shop, road.compared_words(), once=False)
        findings, _ = judge.judge(self.rules, bench)
        findings = permits.settle(findings, self.tree, self.rules, self.shop, datetime.date.today)
        return {(finding.rule, finding.scope): finding for finding in findings
                if finding.kind == PASS or finding.kind == FAIL and not finding.permit}


def _toleranced(spec):
    found = {}
    for scope, value in spec.written:
        data = value.data
        if isinstance(data, Amount) and data.low is not None and data.low < data.high and value.measured is None and not value.count:
            low, high = (Amount(end, data.dimension, data.unit) for end in (data.low, data.high))
            found.setdefault(value.pointer, Toleranced(outside_name(scope, value.word), value.pointer, value.text, low, high))
    return tuple(found.values())


def spread(path, stage=None):
    """Put the toleranced values of a spec at their ends and tell which limits hold. Returns a Spread.

    Raises TooMany, and road.CannotStart as a check does.
    """
    study = _Study(path, stage)
    planned = study.judged({})
    moves = {}  # key -> {pointer: (how much more of the limit is used, the end that does it)}
    turned = {}  # key -> {pointer: end}: what fails with one value at one end, though no number tells how near it is
    for one in study.inputs:
        for end in (one.low, one.high):
            for key, finding in study.judged({one.pointer: end}).items():
                before = planned.get(key)
                if before is None or before.kind == FAIL:
                    continue
                more = _more(before, finding)
                if more is not None and more > moves.get(key, {}).get(one.pointer, (1e-12,))[0]:
                    moves.setdefault(key, {})[one.pointer] = more, end
                elif more is None and finding.kind == FAIL:
                    turned.setdefault(key, {})[one.pointer] = end
    corners = _corners(study, planned, moves, turned)
    words = {one.pointer: one.word for one in study.inputs}
    lost, kept = [], []
    for key, (ends, at_worst) in corners.items():
        before, moved = planned[key], moves.get(key, {})
        likely = before.utilization + sqrt(sum(more * more for more, _ in moved.values())) if moved else None
        margin = Margin(before, at_worst, likely, _movers({words[pointer]: more for pointer, (more, _) in moved.items()}
                                                         or dict.fromkeys((words[pointer] for pointer in ends), 1.0)))
        (lost if at_worst.kind == FAIL else kept).append(margin)
    lost.sort(key=lambda margin: (LEVELS.index(margin.worst.level), margin.worst.rule, margin.worst.scope))
    kept.sort(key=lambda margin: (-margin.worst.utilization, margin.worst.rule, margin.worst.scope))
    return Spread(study.path, study.stage, study.inputs, tuple(lost), tuple(kept),
                  tuple(finding for finding in planned.values() if finding.kind == FAIL))


def _more(before, finding):
    """How much more of its limit a finding uses than before; None where that cannot be told in a number."""
    if before.utilization is None or finding.utilization is None or before.counts:
        return None
    return finding.utilization - before.utilization


def _corners(study, planned, moves, turned):
    """{key: (ends, the Finding there)} for every margin that may be lost, and those that come nearest."""
    wanted = {key: planned[key].utilization + sum(more for more, _ in moved.values()) for key, moved in moves.items()}
    nearest = sorted(wanted, key=lambda key: (-wanted[key], key))[:CORNERS]
    judged, found = {}, {}
    for key in (*nearest, *(key for key in turned if key not in nearest)):
        ends = {pointer: end for pointer, (_, end) in moves.get(key, {}).items()} | turned.get(key, {})
        corner = tuple(sorted(ends.items()))
        if corner not in judged:
            judged[corner] = study.judged(ends)
        if key in judged[corner]:
            found[key] = ends, judged[corner][key]
    return found


def _movers(parts):
    """((word, share of the sum of squares), ...), the largest first."""
    total = sum(part * part for part in parts.values())
    return tuple(sorted(((word, part * part / total) for word, part in parts.items()), key=lambda pair: (-pair[1], pair[0]))) if total else ()


def ranges(path, word, stage=None):
    """What becomes of a word in every scope of a spec that has its own answer. Returns a tuple of Range; raises as spread."""
    study = _Study(path, stage)
    planned = _values(study.read({}), word)
    lows, highs, parts = {}, {}, {}
    for one in study.inputs:
        both = [_values(study.read({one.pointer: end}), word) for end in (one.low, one.high)]
        for key, (value, _) in planned.items():
            moved = [found[key][0].data - value.data for found in both if key in found]
            lows.setdefault(key, []).append(min(0.0, *moved, 0.0))
            highs.setdefault(key, []).append(max(0.0, *moved, 0.0))
            parts.setdefault(key, {})[one.word] = max(map(abs, (*moved, 0.0)))
    bench = judge.Bench(study.read({}), road.words(), road.ways())
    found = []
    for key, (value, scope) in planned.items():
        below, above = lows.get(key, [0.0]), highs.get(key, [0.0])
        middle, dimension = float(value.data), str(dimension_of(value))
        found.append(Range(
            scope.label, word, dimension, unit_of(value) or usual_unit(dimension, bench, middle), middle,
            (middle + sum(below), middle + sum(above)),
            (middle - sqrt(sum(part * part for part in below)), middle + sqrt(sum(part * part for part in above))),
            _movers({name: part for name, part in parts.get(key, {}).items() if part})))
    return tuple(found)


def _values(spec, word):
    """{scope label: (Value, scope)} of a word that is a number, in every scope that has its own answer."""
    found = {}
    for scope in spec.scopes:
        value = scope.value(word)
        if value is None or isinstance(value.data, bool) or not isinstance(value.data, (int, float)) or not dimension_of(value).numeric:
            continue
        if scope.parent is not None and scope.parent.value(word) is value:
            continue
        found[scope.label] = value, scope
    return found
