"""The road from a file to a report, in one place: load, compose, validate, resolve, judge.

Nothing is printed here. What is the same for every spec (vocabulary, formulas, rules) is made once a process.
"""

import functools
import os
from pathlib import Path
from typing import NamedTuple

from . import cache, formulas, judge, outside, permits, rulebook, standard, vocabulary
from .compose import compose, laid_over
from .house import folder
from .load import Unreadable, load, read_bytes
from .model import FAIL, Finding, Report
from .open_results import overdue, unlocks
from .reading import read_spec
from .resolve import dimension_of
from .validate import validate
from .value_display import show_value, unit_of


class CannotStart(Exception):
    """The check cannot begin as asked: an unreadable file, or a rule set that is not sound."""

    holds_up_others = False


class StandardNotSound(CannotStart):
    """The shop.yaml that holds for a spec is not sound; it may hold for many."""

    holds_up_others = True


@functools.cache
def words():
    """The vocabulary of the build spec."""
    return vocabulary.load()


@functools.cache
def ways():
    """{word: its formulas, in the order to be tried}."""
    return formulas.load()


_FOLDERS = []


def take_rules_from(folders):
    """Ask also the rules of these folders of a shop, besides those of installed packages; for the whole process."""
    if list(folders) != _FOLDERS:
        _FOLDERS[:] = folders
        for cached in (rules, compared_words):
            cached.cache_clear()
        _STANDARDS.clear()


def folders():
    """The folders of a shop whose rules are asked too."""
    return tuple(_FOLDERS)


@functools.cache
def rules():
    """Every rule: the shipped ones, those of installed packages, and those of folders that were named; in the
    order of areas and files. Raises CannotStart naming what is not sound."""
    try:
        found = rulebook.load_folder(Path(folder("rules")), "buildlint.rules")
        announced = outside.installed()
        for prefix, place in announced:
            found += outside.load(place, prefix)
        for place in _FOLDERS:
            found += outside.load(place)
        rulebook.refuse_twins(found)
        program = cache.of_program([*(place for _, place in announced), *_FOLDERS])
        if not cache.proven(program):  # the check takes as long as all else before the first spec
            from . import consistency

            consistency.check(found, ways(), words(), joint_names())
            cache.remember_proof(program)
    except rulebook.RulebookError as error:
        raise CannotStart(str(error)) from error
    found.sort(key=lambda rule: judge.AREAS.index(rule.area) if rule.area in judge.AREAS else len(judge.AREAS))
    return found


def shipped(rule):
    """Whether a rule came with the program and not from a shop."""
    return str(rule.file).startswith(folder("rules") + os.sep)


@functools.cache
def joint_names():
    """The names of joints that the schema knows."""
    return tuple(name for name, key in words().tree.children["joints"].children.items() if key.kind == vocabulary.INSTANCE)


@functools.cache
def compared_words():
    """The words for which a rule of their own compares what is written with what follows."""
    return frozenset(word for rule in rules() for word in rule.compares)


_STANDARDS = {}


def standard_for(path):
    """The shop's Standard for one spec; Raises StandardNotSound where the shop.yaml that holds for it is not sound."""
    found = standard.find(path)
    if found is None:
        return standard.NONE
    mark = os.stat(found) if os.path.exists(found) else os.lstat(found)  # a link to nowhere is told by who reads it
    key = found, mark.st_mtime_ns, mark.st_size
    if key not in _STANDARDS:
        try:
            _STANDARDS[key] = standard.read_standard(found, rules(), words(), ways(), joint_names())
        except standard.NotSound as error:
            raise StandardNotSound(str(error)) from error
    return standard.for_spec(_STANDARDS[key], path)


def check(path, given_name=None, text=None, stage=None, chosen=None, settled=None, today=None,
          known=None, detail=True, advice=True, over=None):
    """Check one spec and return its Report.

    ``text`` is the spec itself where it does not come from the file; ``given_name`` the name to report it
    under; ``chosen`` a list of rules to ask instead of all; ``settled`` a Standard instead of the shop.yaml
    found upward from the spec; ``today`` a function that gives the day on which permits are judged, instead of
    the calendar; ``known`` a dict that a run over many specs passes to every call, so that templates and
    catalogue are looked at once; ``detail`` False where nobody will look at the numbers of what passes, ``advice``
    False where nobody asks which few inputs would settle most; ``over`` a Mapping that is laid over what the spec says. Raises CannotStart for an unreadable file, a broken rule set or a shop
    standard that is not sound.
    """
    name = str(given_name or path)
    shop = standard_for(path) if settled is None else settled
    asked = [*rules(), *shop.rules] if chosen is None else chosen
    data = bytes_of(path, name) if text is None else text
    spec, problems, inputs = prepare(path, name, data, shop.units, known, over)
    if spec is None:
        return Report(name, "", stage or "planning", judge.order([problem_found(problem) for problem in problems]))
    if stage is not None:
        spec.judge_at(stage)
    bench = judge.Bench(spec, words(), ways(), stage, shop, compared_words(), detail)
    with outside.spoken_aside():
        findings, crashed = judge.judge(asked, bench)
    findings += overdue(findings, bench)
    findings += [problem_found(problem) for problem in (*problems, *spec.problems)]
    findings = permits.settle(findings, spec.tree, asked, shop, today or _today)
    title = spec.build.words.get("name")
    return Report(name, title.data if title is not None else "", bench.stage, judge.order(findings), tuple(crashed),
                  unlocks(findings) if advice else (), tuple(inputs))


def _today():
    from datetime import date

    return date.today()


def shown_path(path):
    """A path on one line; only what is not printable is shown as an escape."""
    from .render.text import line

    return line(path)


def bytes_of(path, name=None):
    """The bytes of a spec file, which is spoken of as ``name``. Raises CannotStart where it cannot be read."""
    try:
        return read_bytes(path)
    except Unreadable as error:
        raise CannotStart(f"{shown_path(name or path)}: {error}") from error


def tree_of(path, data, name=None):
    """The tree of a spec of which there is sense in judging other versions. Raises CannotStart where there is none."""
    shown = shown_path(name or path)
    tree, _ = load(data, str(name or path))
    if tree is None:
        raise CannotStart(f"{shown}: it cannot be read to its end; see buildlint check {shown}")
    return tree


def prepare(path, name, data, units=None, known=None, over=None):
    """Load, compose, validate and read one spec: (Spec or None, problems so far, what else was looked at)."""
    tree, problems = load(data, name)
    if tree is None:
        return None, problems, []
    if over is not None:
        tree = laid_over(tree, over)
    composed, more, inputs = compose(path, tree, known=known)
    problems = [*problems, *more]
    shape, broken = validate(composed, words())
    return read_spec(composed, words(), ways(), broken, units), [*problems, *shape], inputs


def problem_found(problem):
    """What is wrong with the text of a spec, as a finding."""
    return Finding(problem.check, "spec", FAIL, problem.level, (), problem.message, problem.fix, place=problem.place,
                   pointer=problem.pointer, related=tuple(problem.related), edit=problem.edit)


class Explanation(NamedTuple):
    """How one number came about: written somewhere, or computed from others which are explained in turn."""

    word: str
    scope: tuple
    value: object
    dimension: str
    unit: str
    shown: str
    origin: dict


def explain(word, path):
    """Explain a word in every scope of a spec that has its own answer; outer scopes first."""
    spec, _, _ = prepare(path, str(path), bytes_of(path), standard_for(path).units)
    if spec is None:
        return []
    bench = judge.Bench(spec, words(), ways())
    found, seen = [], set()
    for scope in (*spec.scopes, *spec.steps, *spec.items):
        value = scope.value(word)
        if value is None:
            continue
        signature = tuple(leaf.pointer for leaf in value.leaves()), str(value.data)
        if signature in seen and scope is not spec.build:
            continue
        seen.add(signature)
        found.append(_explain(value, scope, bench))
        for position in range(1, len(value.elements) + 1):
            view = scope.at(value.along, position)
            here = view.value(word)
            if here is not None:
                found.append(_explain(here, view, bench))
    return found


def _explain(value, scope, bench):
    if value.formula is None:
        origin = {"at": value.place, "text": value.text, "chosen": value.chosen}
    else:
        origin = {"formula": value.formula.name, "sentence": value.formula.sentence, "source": value.formula.source,
                  "inputs": [_explain(part, scope, bench) for part in value.inputs]}
    shown = show_value(value, bench)
    data = float(value.data) if isinstance(value.data, float) else shown if hasattr(value.data, "pitch") else value.data
    return Explanation(value.word, scope.label, data, str(dimension_of(value)), unit_of(value), shown, origin)
