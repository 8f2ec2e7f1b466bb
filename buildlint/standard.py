"""The shop standard: shop.yaml at the top of a shop's folder, read, checked against the rules, and laid over them.

It changes limits and levels of rules by id and adds rules of its own without code. Everything wrong with it is
told at once, with places; a shop standard that is not sound stops the check, because nobody would know what was
asked. Where catalogue folders are read is the business of ``catalogue``.
"""

import os
from typing import NamedTuple

from .load import Unreadable, load, read_bytes
from .model import LEVELS, Mapping, Place, Scalar, Sequence
from .quantities import Amount, QuantityError, read
from .shelf import MARKS, inside
from .validate import plain, validate
from .vocabulary import document, or_meant

FILE = "shop.yaml"
SILENT = "silent"


class NotSound(Exception):
    """The shop standard cannot be used; the message lists everything that is wrong, a line each."""


class Setting(NamedTuple):
    """One thing a shop has settled: what, the value, and where it stands."""

    what: str
    value: object
    place: Place


class Standard:
    """What a shop has settled, for one spec. ``limits`` {rule id: {name: value}}, ``levels`` {rule id: level}."""

    def __init__(self, file="", units=None, limits=None, levels=None, settings=(), refused_permits=frozenset(), rules=()):
        self.file, self.units = file, units
        self.limits, self.levels = limits or {}, levels or {}
        self.settings, self.refused_permits, self.rules = tuple(settings), refused_permits, tuple(rules)
        self._merged = {}

    def limits_of(self, rule):
        """The rule's limits with the shop's own laid over them, row by row."""
        own = self.limits.get(rule.id)
        if not own:
            return rule.limits
        if rule.id not in self._merged:
            self._merged[rule.id] = {
                name: _laid_over(limit, own[name]) if name in own else limit
                for name, limit in rule.limits.items()}
        return self._merged[rule.id]

    def level_of(self, rule, verdict):
        """The level a failure of the rule counts at.

        Nothing of the rule counts above the level a shop has settled. Where that is above the rule's own answer the answer is
        raised to it, but for the mild ones: what is only right at its limit, and the notes of a rule that may give more.
        """
        own = verdict.level or (rule.level if rule.level in LEVELS else "warning")
        settled = self.levels.get(rule.id)
        if settled is None or settled == SILENT:
            return own
        if LEVELS.index(settled) > LEVELS.index(own):
            return settled
        mild = verdict.near or (own == "note" and rule.level != "note")
        return own if mild else settled

    def silences(self, rule):
        """Whether the shop leaves this rule out of its findings."""
        return self.levels.get(rule.id) == SILENT

    def permits(self, rule):
        """Whether a permit may set the rule aside."""
        return rule.permits and rule.id not in self.refused_permits


NONE = Standard()


def find(path):
    """The shop.yaml that holds for a spec: the nearest upward, never above a repository's root; None if there is none."""
    folder = os.path.dirname(os.path.realpath(path))
    while True:
        here = os.path.join(folder, FILE)
        if os.path.lexists(here):
            return here  # whatever it is: a standard that cannot be read is told, never passed over
        if any(os.path.lexists(os.path.join(folder, mark)) for mark in MARKS if mark != FILE):
            return None
        above = os.path.dirname(folder)
        if above == folder:
            return None
        folder = above


class Read(NamedTuple):
    """A shop.yaml that was found sound: its folder, what holds everywhere, and (patterns, settings) for some paths."""

    folder: str
    file: str
    base: Standard
    some: tuple
    data: bytes


def read_standard(path, rules, vocabulary, ways, joint_names):
    """Read and check the shop.yaml at ``path`` against the rules. Raises NotSound with everything that is wrong.

    ``rules`` are the rules it may change. Returns a Read.
    """
    label = os.path.relpath(path)
    folder = os.path.dirname(os.path.abspath(path))
    if not inside(os.path.realpath(path), os.path.realpath(folder)):
        raise NotSound(f"{label}: it is a link out of the shop's folder")
    try:
        data = read_bytes(path)
    except Unreadable as error:
        raise NotSound(f"{label}: {error}") from error
    tree, problems = load(data, label)
    wrong = [_line(problem) for problem in problems if problem.level == "error"]
    if tree is None:
        raise NotSound("\n".join(wrong))
    shape, _ = validate(tree, vocabulary, "shop.json")
    wrong += [_line(problem) for problem in shape]
    if wrong:
        raise NotSound("\n".join(wrong))
    work = _Work(label, rules)
    own_rules = ()
    node = tree.get("rules")
    if isinstance(node, Sequence):
        from .declared import declared_rules

        own_rules = declared_rules(node, label, vocabulary, ways, joint_names, work)
    work.add_rules(own_rules)
    base = work.standard(tree, own_rules)
    some = []
    listed = tree.get("paths")
    for item in listed.items if isinstance(listed, Sequence) else ():
        patterns = [part.text for part in item.get("match").items]
        some.append((tuple(patterns), work.standard(item, ())))
    if work.wrong:
        raise NotSound("\n".join(work.wrong))
    return Read(folder, label, base, tuple(some), data)


def for_spec(found, path):
    """The Standard of one spec: what holds everywhere, and over it what the shop settled for paths like this one."""
    if not found.some:
        return found.base
    from pathspec import GitIgnoreSpec  # the pattern language of gitignore files; only shops with paths need it

    relative = os.path.relpath(os.path.realpath(path), os.path.realpath(found.folder)).replace(os.sep, "/")
    base = found.base
    units, settings = base.units, list(base.settings)
    limits = {rule: dict(own) for rule, own in base.limits.items()}
    levels, refused = dict(base.levels), base.refused_permits
    for patterns, own in found.some:
        if not GitIgnoreSpec.from_lines(patterns).match_file(relative):
            continue
        units = own.units or units
        levels.update(own.levels)
        settings += own.settings
        for rule, changed in own.limits.items():
            into = limits.setdefault(rule, {})
            for name, value in changed.items():
                into[name] = _joined(into.get(name), value)
    return Standard(base.file, units, limits, levels, settings, refused, base.rules)


class _Work:
    """Turns the nodes of a shop standard into settings and gathers what is wrong with them."""

    def __init__(self, label, rules):
        self.label, self.wrong = label, []
        self.rules = {}
        self.add_rules(rules)

    def add_rules(self, rules):
        for rule in rules:
            for identifier in (rule.id, *rule.was):
                self.rules[identifier] = rule

    def refuse(self, node, message):
        place = node.place
        self.wrong.append(f"{place.file}:{place.line}:{place.column}: {message}")

    def rule(self, key):
        """The rule an id names, or None after saying what is wrong."""
        found = self.rules.get(key.text)
        if found is None:
            self.refuse(key, f"there is no rule {key.text!r}{or_meant(key.text, self.rules)}")
        return found

    def standard(self, tree, own_rules):
        settings, limits, levels = [], {}, {}
        units = tree.get("units")
        if isinstance(units, Scalar):
            settings.append(Setting("units", units.text, units.place))
        node = tree.get("levels")
        for entry in node.entries.values() if isinstance(node, Mapping) else ():
            found = self.rule(entry.key)
            if found is not None:
                levels[found.id] = entry.node.text
                settings.append(Setting(f"level of {found.id}", entry.node.text, entry.node.place))
        node = tree.get("limits")
        for entry in node.entries.values() if isinstance(node, Mapping) else ():
            found = self.rule(entry.key)
            if found is not None:
                limits[found.id] = self.limits(found, entry.node, settings)
        refused = set()
        node = tree.get("no_permits_for")
        for item in node.items if isinstance(node, Sequence) else ():
            found = self.rule(item)
            if found is not None:
                refused.add(found.id)
                settings.append(Setting(f"no permits for {found.id}", "", item.place))
        return Standard(self.label, units.text if isinstance(units, Scalar) else None, limits, levels, settings,
                        frozenset(refused), own_rules)

    def limits(self, rule, node, settings):
        changed = {}
        for entry in node.entries.values():
            name = entry.key.text
            if name not in rule.limits:
                has = f"; it has {', '.join(rule.limits)}" if rule.limits else "; it has none"
                self.refuse(entry.key, f"{rule.id} has no limit {name!r}{or_meant(name, rule.limits, has)}")
                continue
            value = self.limit(rule.limits[name], entry.node, f"{name} of {rule.id}")
            if value is not None:
                changed[name] = value
                shown = _in_a_line(plain(entry.node))
                settings.append(Setting(f"{name} of {rule.id}", shown, entry.node.place))
        return changed

    def limit(self, default, node, what):
        """A limit of the same kind as the default, or None after saying what is wrong."""
        if isinstance(default, dict):
            return self._rows(default, node, what)
        if isinstance(default, (tuple, list)):
            return self._list(default, node, what)
        if not isinstance(node, Scalar):
            return self.refuse(node, f"{what} is one value")
        if isinstance(default, Amount):
            try:
                return read(node.text, str(default.dimension), None if default.unit else "us")
            except QuantityError as error:
                return self.refuse(node, f"{what}: {error.message} {error.fix}")
        if isinstance(default, bool):
            if node.text.lower() not in ("yes", "no", "true", "false"):
                return self.refuse(node, f"{what} is yes or no")
            return node.text.lower() in ("yes", "true")
        if isinstance(default, (int, float)):
            if isinstance(node.value, bool) or not isinstance(node.value, (int, float)) or node.value != node.value:
                return self.refuse(node, f"{what} is a plain number such as {default:g}")
            return type(default)(node.value)
        known = _chosen_beside(default) if isinstance(default, str) else ()
        if known and node.text not in known:
            return self.refuse(node, f"{what}: {node.text!r} is not a value that it knows{or_meant(node.text, known)}")
        return node.text

    def _rows(self, default, node, what):
        if not isinstance(node, Mapping):
            return self.refuse(node, f"{what} has rows ({', '.join(map(str, default))}); write the rows to be changed")
        known, rows = {str(row): row for row in default}, {}
        for entry in node.entries.values():
            row = known.get(entry.key.text)
            if row is None:
                self.refuse(entry.key, f"{what} has no row {entry.key.text!r}{or_meant(entry.key.text, known)}")
                continue
            value = self.limit(default[row], entry.node, f"row {entry.key.text} of {what}")
            if value is not None:
                rows[row] = value
        return rows

    def _list(self, default, node, what):
        if not isinstance(node, Sequence) or (default and len(node.items) != len(default) and not isinstance(default[0], str)):
            return self.refuse(node, f"{what} is a list; write it as one")
        like = default if len(default) == len(node.items) else [default[0]] * len(node.items)
        values = [self.limit(one, item, what) for one, item in zip(like, node.items)]
        return None if None in values else type(default)(values)


def _chosen_beside(text):
    """The values of every choice that has this one among its values."""
    choices = (choice.get("enum", ()) for choice in document("choices.json")["$defs"].values() if not choice.get("open"))
    return {value for values in choices if text in values for value in values if isinstance(value, str)}


def _in_a_line(data):
    """A value, a list or rows of a limit as they are read aloud: forged_2618 27.5 m/s, cast 18 m/s."""
    if isinstance(data, dict):
        return ", ".join(f"{row} {_in_a_line(value)}" for row, value in data.items())
    return ", ".join(map(_in_a_line, data)) if isinstance(data, list) else str(data)


def _laid_over(limit, own):
    """A limit with the shop's own over it; of rows, and of rows within rows, those that the shop writes."""
    if not isinstance(limit, dict) or not isinstance(own, dict):
        return own
    return {row: _laid_over(value, own[row]) if row in own else value for row, value in limit.items()}


def _joined(own, own_here):
    """What a shop writes for some paths over what it writes for all; rows within rows each by itself."""
    if not isinstance(own, dict) or not isinstance(own_here, dict):
        return own_here
    return {**own, **{row: _joined(own.get(row), value) for row, value in own_here.items()}}


def _line(problem):
    place = problem.place
    fix = problem.fix.replace("such as `build:`", "such as `units:` or `limits:`")  # words of load, for any file
    return f"{place.file}:{place.line}:{place.column}: {problem.message} {fix}".rstrip()
