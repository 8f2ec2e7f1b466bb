"""What if: one spec judged with every combination of the parts and values that somebody is choosing between.

Each combination walks the whole road as if it had been written in the spec. Nothing is changed on the disk.
"""

import os
import re
from functools import lru_cache
from itertools import product
from typing import NamedTuple

from . import road
from .catalogue import read_catalogue
from .load import load
from .model import FAIL, LEVELS, OPEN, Finding, Mapping, Scalar
from .parts import heading_of
from .shelf import root_of
from .vocabulary import CONTAINER, LEAF

MOST = 5000  # combinations: some minutes of work, and more than anybody reads
ENOUGH_FOR_WORKERS = 60  # combinations
LABEL = "what-if"  # the file that values on trial stand in, as findings name it
ALL = "all"  # every part of the catalogue that describes the heading
_PLAIN = re.compile(r"[A-Za-z0-9.][A-Za-z0-9 ._/+*^%()-]*").fullmatch  # needs no quotes inside braces


class NotUnderstood(Exception):
    """What to vary cannot be made out; the message says what to write instead."""


class Axis(NamedTuple):
    """One choice: the dotted ``paths`` that are set alike, and the ``values`` to try, as they would be written."""

    paths: tuple
    values: tuple

    @property
    def name(self):
        return " and ".join(self.paths)


class Trial(NamedTuple):
    """One combination: the value of each axis, the findings that failed and are not permitted, how many results stayed
    open, and {(rule, scope): Finding} of the margins that are other than in the spec as it is. ``tightest`` is the one
    nearest its limit of all that the choice moves."""

    values: tuple
    findings: tuple
    open: int
    moved: dict
    tightest: Finding | None = None

    def count(self, level):
        """How many findings there are of one level."""
        return sum(finding.level == level for finding in self.findings)


class Sweep(NamedTuple):
    """``trials`` from the best to the worst, ``common`` the keys of what fails in every one of them, and ``stays``:
    (path, text) of what the spec itself writes beside a part on trial, which no part can change."""

    path: str
    stage: str
    axes: tuple
    trials: tuple
    common: frozenset
    stays: tuple

    def own(self, trial):
        """The findings of a trial that not every other one has too."""
        return [finding for finding in trial.findings if key_of(finding) not in self.common]

    @property
    def every(self):
        """The findings that every combination has."""
        return [finding for finding in self.trials[0].findings if key_of(finding) in self.common]


def key_of(finding):
    """What makes two findings of different combinations the same one."""
    return finding.rule, finding.scope, finding.missing


def axis(text):
    """Read PATH=VALUE,VALUE (or PATH,PATH=VALUE,VALUE) as an Axis. Raises NotUnderstood."""
    paths, equals, values = text.partition("=")
    paths = tuple(path.strip() for path in paths.split(","))
    values = tuple(dict.fromkeys(value.strip() for value in values.split(",")))
    if not equals or not all(paths) or not all(values):
        raise NotUnderstood(f"{text!r} does not say what to try: write PATH=VALUE,VALUE, such as rockers.ratio=1.6,1.7")
    for path in paths:
        _refuse_unknown(path)
    return Axis(paths, values)


def _refuse_unknown(path):
    """Raise NotUnderstood where no single value stands at a dotted path of a spec."""
    from .spelling import nearest

    key, done = road.words().tree, []
    for step in path.split("."):
        found = key.children.get(step) or (key.any if key.kind == CONTAINER else None)
        if found is None or key.kind == LEAF:
            meant = nearest(step, [name for name in key.children if name != "notes"])
            told = f" Did you mean {'.'.join((*done, meant))}?" if meant else ""
            raise NotUnderstood(f"a spec has no {'.'.join((*done, step))}.{told}")
        key = found
        done.append(step)
    if key.kind != LEAF:
        below = [name for name in key.children if name != "notes"][:4]
        raise NotUnderstood(f"{path} is a heading; name one value below it, such as {path}.{below[0] if below else 'part'}")


def sweep(path, axes, stage=None, workers=None, name=None, without=(), progress=lambda done, count: None):
    """Judge a spec with every combination of the axes' values. Returns a Sweep.

    ``without`` are dotted paths whose values the spec itself writes and which are left out, so that a part's own count;
    ``workers`` is how many processes share the work, or None to choose; ``progress`` is told how far it is. Raises
    NotUnderstood for too many combinations or an axis that stands twice, road.CannotStart as a check does.
    """
    name = str(name or path)
    data = road.bytes_of(path, name)
    tree = road.tree_of(path, data, name)
    without = tuple(without)
    for each in without:
        _refuse_unknown(each)
    axes = tuple(_with_all_parts(one, path) for one in axes)
    _refuse_twins(axes)
    combinations = list(product(*(one.values for one in axes)))
    if len(combinations) > MOST:
        raise NotUnderstood(f"that makes {len(combinations):,} combinations; {MOST:,} are the most")
    work = [(str(path), name, data, stage, without, axes, values) for values in combinations]
    trials = []
    for one in _tried(work, workers):
        _refuse_unreadable(one)
        trials.append(one)
        progress(len(trials), len(work))
    trials = _with_tightest(trials, _margins(str(path), name, data, stage, without))
    common = frozenset.intersection(*(frozenset(map(key_of, one.findings)) for one in trials))
    trials.sort(key=_rank)
    judged_at = stage or road.check(path, name, data, detail=False, advice=False).stage
    return Sweep(name, judged_at, axes, tuple(trials), common, _stays(tree, axes, without))


def _refuse_unreadable(trial):
    """Raise NotUnderstood where a value on trial is none that the spec could say: nothing would be judged with it."""
    for finding in trial.findings:
        if finding.area == "spec" and finding.level == "error" and finding.place is not None and finding.place.file == LABEL:
            raise NotUnderstood(f"{finding.pointer[1:].replace('/', '.')}: {finding.message} {finding.fix}")


def _with_tightest(trials, as_it_is):
    """Each trial with the margin nearest its limit, of those that the choice moves in any of the trials."""
    moved = {key for one in trials for key in one.moved}
    ready = []
    for one in trials:
        found = [finding for finding in (one.moved.get(key, as_it_is.get(key)) for key in moved) if finding is not None]
        ready.append(one._replace(tightest=max(found, key=lambda finding: (finding.utilization, finding.rule, finding.scope), default=None)))
    return ready


def _rank(trial):
    """The best first: what is wrong, what is not known, how near the limits."""
    return *(trial.count(level) for level in LEVELS[:2]), trial.open, trial.count(LEVELS[2]), \
        trial.tightest.utilization if trial.tightest else 0.0


def _refuse_twins(axes):
    seen = set()
    for path in (path for one in axes for path in one.paths):
        if path in seen:
            raise NotUnderstood(f"{path} is to be tried twice; put its values into one list")
        seen.add(path)


def _with_all_parts(one, path):
    """An axis whose values are spelled out: ``all`` is every part that the catalogue describes under the heading."""
    if ALL not in one.values:
        return one
    keys = tuple(one.paths[0].split("."))
    if keys[-1] != "part":
        raise NotUnderstood(f"{ALL} is for parts, and {one.paths[0]} is none; write the values")
    heading = heading_of(keys[:-1])
    root, marked = root_of(os.path.dirname(os.path.realpath(path)))
    parts = read_catalogue(root, os.path.relpath(root), None).parts
    found = tuple(number for number, entry in parts.items() if isinstance(entry.node.get(heading), Mapping))
    if not parts:
        raise NotUnderstood(f"there is no catalogue to take parts from: {ALL} tries every part in the files under {os.path.join(os.path.relpath(root), 'catalogue')}"
                            f"{'' if marked else ', and no shop.yaml marks the top of a shop above the spec'}")
    if not found:
        raise NotUnderstood(f"the catalogue describes no part as {heading}: of its {len(parts)} parts none has that heading")
    return one._replace(values=tuple(dict.fromkeys((*found, *(value for value in one.values if value != ALL)))))


def _tried(work, workers):
    """Yield the Trial of each combination, in that order."""
    if workers is None:
        workers = min(os.cpu_count() or 1, 1 + len(work) // ENOUGH_FOR_WORKERS)
    if workers < 2:
        known = {}
        yield from (trial(*one, known=known) for one in work)
        return
    from .library import Job, pool

    crew = pool(Job(outputs=(), folders=tuple(road.folders())), workers)
    try:
        yield from crew.map(_tried_by_worker, work, chunksize=8)
    finally:
        crew.shutdown(wait=True, cancel_futures=True)


_KNOWN = {}


def _tried_by_worker(one):
    return trial(*one, known=_KNOWN)


def trial(path, name, data, stage, without, axes, values, known=None):
    """Judge a spec (its path, name and bytes) with one value for each axis. Returns a Trial."""
    over = overlay([*((one.paths, value) for one, value in zip(axes, values)), (without, None)])
    report = road.check(path, name, data, stage, known=known, advice=False, over=over)
    failed = tuple(finding for finding in report.findings if finding.kind == FAIL and not finding.permit)
    before = _margins(path, name, data, stage, without)
    moved = {key: finding for key, finding in _held(report).items()
             if key not in before or abs(before[key].utilization - finding.utilization) > 1e-9 * finding.utilization}
    return Trial(tuple(values), failed, sum(finding.kind == OPEN for finding in report.findings), moved)


@lru_cache(maxsize=2)
def _margins(path, name, data, stage, without):
    """{(rule, scope): Finding} of what holds in the spec as it is, with how near it comes to its limit."""
    return _held(road.check(path, name, data, stage, advice=False, over=overlay([(without, None)])))


def _held(report):
    return {(finding.rule, finding.scope): finding for finding in report.findings
            if finding.has_margin and finding.kind != FAIL and finding.utilization <= 1 + 1e-9}


def overlay(settings):
    """The Mapping that stands over a spec: each of (paths, value) written where it belongs; None takes a value out."""
    keys = {}
    for paths, value in settings:
        for path in paths:
            *above, last = path.split(".")
            into = keys
            for step in above:
                into = into.setdefault(step, {})
            into[last] = value
    tree, _ = load(_flow(keys), LABEL)
    return tree


def _flow(keys):
    """Keys and values as YAML on one line: values as somebody would write them, in quotes where YAML wants them."""
    pairs = (f"{key}: {_flow(value) if isinstance(value, dict) else _written(value)}" for key, value in keys.items())
    return f"{{{', '.join(pairs)}}}"


def _written(value):
    if value is None:
        return "null"
    return value if _PLAIN(value) else "'" + value.replace("'", "''") + "'"


def _stays(tree, axes, without):
    """(path, text) of the values that the spec writes under the heading of a part on trial."""
    found = []
    for path in (path for one in axes for path in one.paths if path.endswith(".part")):
        node = tree
        for step in path.split(".")[:-1]:
            node = node.get(step) if isinstance(node, Mapping) else None
        for key, entry in node.entries.items() if isinstance(node, Mapping) else ():
            here = f"{path[:-len('part')]}{key}"
            if key != "part" and here not in without and isinstance(entry.node, Scalar) and entry.node.value is not None:
                found.append((here, entry.node.text))
    return tuple(found)
