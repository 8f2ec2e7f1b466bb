"""Every rule asked in every scope it is about: words in, findings out.

A rule receives everything as arguments and never sees the spec. Where one of its words is a list, it is
asked for each cylinder or journal. A rule that breaks down becomes a finding of its own and hides nothing.
"""

import re
from itertools import chain

from .model import FAIL, LEVELS, NOT_APPLICABLE, OPEN, PASS, REVIEW, STAGES, Finding, Mapping, Sequence
from .quantity_display import default_unit, in_unit, show
from .resolve import split_ending
from .standard import NONE

AREAS = ("spec", "general", "short_block", "compression", "valvetrain", "joints", "sealing", "air_and_fuel",
         "ignition", "cooling", "boost", "exhaust", "accessories", "assembly", "order")


class Bench:
    """What the judge needs beside the rules: the spec that was read, the vocabulary, the ways to words, the stage,
    the shop's standard, the words that rules of their own compare with formulas, and whether what passes is to be
    told with its numbers."""

    def __init__(self, spec, vocabulary, ways, stage=None, standard=NONE, compared=frozenset(), detail=True):
        self.compared, self.detail, self.missing, self.headings, self.identities = compared, detail, {}, {}, {}
        self.spec, self.vocabulary, self.ways = spec, vocabulary, ways
        self.build, self.instances = spec.build, spec.instances
        self.values = [(value, scope) for scope, written in spec.written for value in written.elements or (written,)]
        self.system, self.signed = spec.system, spec.signed
        self.stage = stage or spec.stage
        self.standard = standard

    def begun(self, heading):
        """Whether anything is written under a heading such as "sealing" or "joints.head"."""
        if heading not in self.headings:
            node = self.spec.tree
            for key in heading.split("."):
                node = node.get(key) if isinstance(node, Mapping) else None
            self.headings[heading] = isinstance(node, (Mapping, Sequence)) and bool(
                node.entries if isinstance(node, Mapping) else node.items)
        return self.headings[heading]

    def named(self, kind, names):
        """The steps, joints or items of these names, in their order; one whose name cannot be read may be any."""
        scopes = self.instances(kind)
        known = self.identities.get(kind)
        if known is None:
            values = [scope.value(IDENTITY[kind]) for scope in scopes]
            known = self.identities[kind] = [None if value is None else value.data for value in values]
        return [scope for scope, name in zip(scopes, known) if name is None or name in names]

    def place_of_path(self, path):
        """Place and pointer of the deepest part of a dotted path that stands in the spec."""
        node, place, pointer = self.spec.tree, self.spec.tree.place, ""
        for key in path.split("."):
            entry = node.entries.get(key) if isinstance(node, Mapping) else None
            if entry is None:
                break
            node, place, pointer = entry.node, entry.key.place, f"{pointer}/{key}"
        return place, pointer


MANY = ("joints", "bearings", "rings")

_JOINED_WORDS = re.compile("(?<=[a-z])_(?=[a-z])")  # of a choice; a part number keeps what it is written with
NO_UNIT = " "  # looked for, and there is none

# The word that says which of its kind a scope is.
IDENTITY = {"step": "step", "item": "item", "joint": "joint_name"}


def heading_of(path):
    """The heading that a missing path belongs to: its first key; of joints, bearings and rings the first two."""
    keys = path.replace("[]", "").split(".")
    return ".".join(keys[:2]) if keys[0] in MANY and len(keys) > 1 else keys[0]


def judge(rules, bench):
    """Ask every rule in every scope. Returns (findings, ids of the rules that broke down)."""
    findings, crashed = [], []
    standard = bench.standard
    for rule in rules:
        if standard.silences(rule):
            findings.append(Finding(rule.id, rule.area, NOT_APPLICABLE, "none", (), f"silent by {standard.file}", due=rule.due))
            continue
        limits = standard.limits_of(rule)
        try:
            if rule.scope == "value":
                findings += _ask_of_values(rule, limits, bench)
                continue
            scopes = bench.instances(rule.scope)
            if not scopes:
                findings.append(_nothing_there(rule, bench))
            named = rule.when.get(IDENTITY.get(rule.scope))
            if isinstance(named, tuple):  # about some steps, joints or items by name: the others are not even asked
                scopes = bench.named(rule.scope, named)
                if not scopes:
                    findings.append(_alike(rule, NOT_APPLICABLE, bench.build))
            for scope in scopes:
                _ask(rule, limits, scope, bench, findings)
        except Exception as error:  # a broken rule must not hide what the others find
            crashed.append(rule.id)
            findings.append(_crash(rule, error, bench))
    return findings, crashed


def _ask(rule, limits, scope, bench, found):
    """Ask a rule in one scope, or in each cylinder or journal of it where one of its words is a list."""
    for word, test, allowed in rule.conditions:
        value = scope.value(word)
        if test is not None:
            if value is None or not test(value.data):
                return found.append(_alike(rule, NOT_APPLICABLE, scope))
        elif value is None:
            return found.append(_open(rule, scope, missing_for(scope, word, bench), bench))
        elif value.data not in allowed:
            return found.append(_alike(rule, NOT_APPLICABLE, scope))
    values, data, absent, along = [], [], None, None
    known = scope.cache
    for word, needed in rule.asks:
        value = known[word] if word in known else scope.value(word)
        values.append(value)
        if value is None:
            data.append(None)
            if needed:
                absent = [*absent, word] if absent else [word]
        else:
            data.append(value.data)
            if value.along is not None and (along is None or value.along == along.along and value.reach > along.reach):
                along = value
    if absent is not None:
        paths = dict.fromkeys(path for word in absent for path in missing_for(scope, word, bench))
        return found.append(_open(rule, scope, tuple(paths), bench))
    if along is not None and scope.position is None:
        before = len(found)
        for position in range(1, along.reach + 1):
            _ask(rule, limits, scope.at(along.along, position), bench, found)
        if len(found) > before + 1:
            found[before:] = _said_once(found[before:], scope.label)
        return None
    verdict = rule.function(*data, **limits)
    if verdict.kind == PASS and not bench.detail and not verdict.near:
        return found.append(_alike(rule, PASS, scope))
    return found.append(_finding(rule, limits, verdict, scope, values, bench))


def _said_once(findings, label):
    """What several cylinders say in the same words of the same line is one fact, told once with their numbers.

    Where all of them say it, it is a fact about the engine.
    """
    groups, kept = {}, []
    for finding in findings:
        said = (finding.level, finding.message, finding.fix, finding.pointer) if finding.kind == FAIL else None
        if said is not None and said in groups:
            groups[said].append(finding)
            continue
        if said is not None:
            groups[said] = [finding]
        kept.append(finding)
    for place, finding in enumerate(kept):
        alike = groups.get((finding.level, finding.message, finding.fix, finding.pointer), ()) if finding.kind == FAIL else ()
        if len(alike) == len(findings):
            kept[place] = finding._replace(scope=label)
        elif len(alike) > 1:
            kind = alike[0].scope[-1].rpartition(" ")[0]
            numbers = ", ".join(other.scope[-1].rpartition(" ")[2] for other in alike)
            kept[place] = finding._replace(scope=(*label, f"{kind} {numbers}"))
    return kept


def _alike(rule, kind, scope, message=""):
    """A finding that has nothing of its own but scope and standing words; the same object serves every spec."""
    label = scope.label
    found = rule.alike.get((kind, label, message))
    if found is None:
        found = rule.alike[kind, label, message] = Finding(rule.id, rule.area, kind, "none", label, message, due=rule.due)
    return found


def _ask_of_values(rule, limits, bench):
    """A rule about written values as such is asked of each; None is a pass, and all passes are reported once.

    It may take the value, its scope, and the words that other rules compare with their formulas.
    """
    found, extra = [], (bench.compared,) if "compared" in rule.words else ()
    for value, scope in bench.values:
        verdict = rule.function(value, scope, *extra, **limits)
        if verdict is not None and verdict.kind != PASS:
            found.append(_finding(rule, limits, verdict, scope, [value], bench))
    if not found:
        kind = PASS if bench.values else NOT_APPLICABLE
        found.append(Finding(rule.id, rule.area, kind, "none", (), f"{len(bench.values)} written values looked at", due=rule.due))
    return found


# -- one verdict, one finding ---------------------------------------------------------------------------


def _finding(rule, limits, verdict, scope, values, bench):
    kind = verdict.kind
    if kind == PASS and not verdict.near:
        return _passed(rule, scope, verdict, values, bench)
    if kind == NOT_APPLICABLE:
        return _alike(rule, kind, scope, verdict.says or "")
    if kind == OPEN or (verdict.missing and STAGES.index(rule.due) > STAGES.index(bench.stage)):
        paths = [path for word in verdict.missing for path in missing_for(scope, word, bench)]
        return _open(rule, scope, tuple(dict.fromkeys(paths)), bench)
    dimension, unit = _judged(verdict, values, rule, bench)
    names = _Names(rule, limits, verdict, values, scope, bench, dimension, unit)
    place, pointer, related = _where(rule, verdict, values, scope)
    if kind == REVIEW:
        signed = bench.signed.get(rule.id)
        if signed:
            return Finding(rule.id, rule.area, PASS, "none", scope.label, f"signed {signed}", place=place,
                           pointer=pointer, due=rule.due)
        return Finding(rule.id, rule.area, REVIEW, "none", scope.label, names.fill(verdict.says or rule.says),
                       names.fill(verdict.fix or rule.fix), place=place, pointer=pointer, source=rule.source,
                       caution=rule.caution, due=rule.due)
    level = bench.standard.level_of(rule, verdict)
    says = verdict.says or (rule.near if verdict.near else None) or rule.says
    if verdict.near and not rule.near and not verdict.says:
        says = "{value} is right at the limit of {limit}."
    return Finding(rule.id, rule.area, FAIL, level, scope.label, names.fill(says), names.fill(verdict.fix or rule.fix),
                   _in_unit(verdict.value, dimension, unit), _in_unit(verdict.limit, dimension, unit), unit,
                   verdict.utilization, (), place, pointer, related, None, rule.source, rule.caution, rule.due)


def _passed(rule, scope, verdict, values, bench):
    """What a rule lets pass, with how near it came."""
    if not isinstance(verdict.value, float):
        return _alike(rule, PASS, scope)
    dimension, unit = _judged(verdict, values, rule, bench)
    return Finding(rule.id, rule.area, PASS, "none", scope.label, "", "", _in_unit(verdict.value, dimension, unit),
                   _in_unit(verdict.limit, dimension, unit), unit, verdict.utilization, due=rule.due)


def _open(rule, scope, missing, bench):
    place, pointer = bench.place_of_path(missing[0] if missing else "")
    return Finding(rule.id, rule.area, OPEN, "none", scope.label, "cannot be judged yet: needs " + ", ".join(missing),
                   rule.fix if not missing else "Write " + ", ".join(missing) + ".", missing=missing, place=place,
                   pointer=pointer, due=rule.due)


SCOPE_HEADINGS = {"joint": "joints", "step": "assembly.steps", "item": "order.items"}


def _nothing_there(rule, bench):
    heading = SCOPE_HEADINGS.get(rule.scope, rule.scope)
    place, pointer = bench.place_of_path(heading)
    return Finding(rule.id, rule.area, OPEN, "none", (), f"cannot be judged yet: needs {heading}",
                   f"Write {heading}.", missing=(heading,), place=place, pointer=pointer, due=rule.due)


def _crash(rule, error, bench):
    trace = error.__traceback__
    while trace.tb_next is not None:
        trace = trace.tb_next
    return Finding("rule-runs-to-its-end", rule.area, FAIL, "error", (),
                   f"the rule {rule.id} broke down ({type(error).__name__}: {error}, line {trace.tb_lineno} of its module); "
                   "what it would have said is not known",
                   "Report this with the spec; every other rule has been asked.",
                   place=bench.build.place, due=rule.due)


def _judged(verdict, values, rule, bench):
    """The dimension and the builder's unit of the value a verdict is about."""
    if isinstance(verdict.value, bool) or not isinstance(verdict.value, (int, float)):
        return None, ""
    dimension = getattr(verdict.value, "dimension", None) or getattr(verdict.limit, "dimension", None)
    for value in values:
        if value is None:
            continue
        own = value.dimension
        if dimension is None and getattr(own, "numeric", True) and isinstance(value.data, (int, float)):
            dimension = own
        if own == dimension:
            unit = getattr(verdict.value, "unit", "") or _unit_of(value)
            return dimension, unit or _usual_unit(dimension, bench, verdict.value)
    if dimension is None:
        return None, ""
    return dimension, getattr(verdict.value, "unit", "") or _usual_unit(dimension, bench, verdict.value)


def _unit_of(value):
    """The unit a value was written in, or that of the first written value of its dimension it rests on."""
    if not value.unit and value.formula is not None:
        value.unit = next((leaf.unit for leaf in value.leaves() if leaf.unit and leaf.dimension == value.dimension), NO_UNIT)
    return "" if value.unit is NO_UNIT else value.unit


def _usual_unit(dimension, bench, value):
    return default_unit(str(dimension), bench.system, value)


def _in_unit(value, dimension, unit):
    if isinstance(value, tuple):
        return list(value)
    if value is None or isinstance(value, (str, bool)):
        return value
    if not isinstance(value, (int, float)):
        return str(value)
    if not dimension or not unit:
        return float(value)
    return in_unit(value, str(dimension), unit)


class _Names(dict):
    """The names a sentence may use, shown as the builder writes them."""

    def __init__(self, rule, limits, verdict, values, scope, bench, dimension, unit):
        self.rule, self.limits, self.verdict, self.scope, self.bench = rule, limits, verdict, scope, bench
        self.values = dict(zip(rule.words, values))
        self.dimension, self.unit = dimension, unit

    def fill(self, sentence):
        return sentence.format_map(self)

    def __missing__(self, name):
        if name == "value":
            return self._show(self.verdict.value, self.dimension, self.unit)
        if name == "limit":
            return self._show(self.verdict.limit, self.dimension, self.unit)
        if name == "scope":
            return " ".join(self.scope.label) or "build"
        if name in self.verdict.facts:
            return self._show(self.verdict.facts[name])
        if name in self.limits:
            limit = self.limits[name]
            same = getattr(limit, "dimension", None) == self.dimension
            return self._show(limit, None, self.unit if same else "")
        value = self.values.get(name)
        if value is None and name not in self.values:
            value = self.scope.value(name)
        return show_value(value, self.bench) if value is not None else "not written"

    def _show(self, value, dimension=None, unit=""):
        dimension = getattr(value, "dimension", None) or dimension
        if isinstance(value, (tuple, list)):
            return ", ".join(self._show(part) for part in value)
        if isinstance(value, str):
            return _JOINED_WORDS.sub(" ", value)
        if value is None or isinstance(value, bool):
            return plain_words(value)
        if not isinstance(value, (int, float)):
            return str(value)
        if dimension is None:
            return f"{value:.4g}"
        own_unit = getattr(value, "unit", "")
        return show(float(value), str(dimension), unit or own_unit or _usual_unit(dimension, self.bench, value))


def plain_words(value):
    """A choice as it is said: hydraulic_roller becomes hydraulic roller."""
    if value is None:
        return "not written"
    if isinstance(value, bool):
        return "yes" if value else "no"
    return str(value).replace("_", " ")


def show_value(value, bench):
    """A Value as the builder wrote it, or a computed one in the builder's unit."""
    if value.formula is None and value.text:
        return plain_words(value.text) if value.dimension in ("choice", "list", "yes_no") else value.text
    data = value.data
    if isinstance(data, (int, float)) and not isinstance(data, bool):
        unit = _unit_of(value) or _usual_unit(value.dimension, bench, data)
        return show(float(data), str(value.dimension), unit)
    if isinstance(data, (list, tuple)) and not hasattr(data, "_fields"):
        return ", ".join(f"[{', '.join(map(str, part))}]" if isinstance(part, (list, tuple)) else plain_words(part) for part in data)
    return plain_words(data)


# -- where a finding points -----------------------------------------------------------------------------


def _where(rule, verdict, values, scope):
    """The primary place, its pointer, and the other written values the verdict rests on."""
    named = dict(zip(rule.words, values))
    told = rule.says + rule.fix
    said = [word for word in rule.words if word not in rule.optional or f"{{{word}}}" in told]
    order = ["value"] if rule.scope == "value" else [*verdict.words, *rule.points_at, *said, *rule.when]
    leaves = _leaves(order, named, rule, scope) or _leaves(rule.words, named, rule, scope)
    if not leaves:
        return scope.place, scope.pointer, ()
    first = leaves[0]
    related = [("chosen here", first.chosen)] if first.chosen else []
    for leaf in leaves[1:6]:
        related.append((f"{leaf.word.replace('_', ' ')} {leaf.text}".strip(), leaf.place))
    return first.place, first.pointer, tuple(related)


def _leaves(words, named, rule, scope):
    """The written values that these words rest on, each once."""
    leaves = {}
    for word in words:
        value = named.get(word) or (scope.value(word) if rule.scope != "value" else None)
        for leaf in value.leaves() if value is not None else ():
            if leaf.place is not None:
                leaves.setdefault(leaf.pointer, leaf)
    return list(leaves.values())


# -- what is missing -----------------------------------------------------------------------------------


def missing_for(scope, word, bench):
    """The dotted paths which, once written, give the word in this scope: its own, or a formula's inputs.

    Returns a tuple; the way that needs the fewest. A word that no key and no formula of this spec gives is
    named as it is.
    """
    known = bench.missing.get((id(scope), word))
    if known is None:
        bench.missing[id(scope), word] = (word,)
        known = bench.missing[id(scope), word] = _missing(scope, word, bench) or (word,)
    return known


def _missing(scope, word, bench):
    own, ways = _own_key(scope, word, bench), list(_ways_missing(scope, word, bench))
    if own is not None and not (own.measured and ways):
        ways.insert(0, (path_in(own.path, scope),))
    if ways:
        return min(ways, key=lambda paths: (sum(bench.begun(heading_of(path)) for path in paths), len(paths)))
    parts = split_ending(word)
    if parts is not None:
        return _missing(scope, parts[0], bench)
    child, inner = scope.child(word)
    if child is not None:
        return _missing(child, inner, bench)
    joint, beyond, _ = word.partition("_joint_")
    return (f"joints.{joint}",) if beyond and joint in bench.vocabulary.tree.children["joints"].children else ()


def _own_key(scope, word, bench):
    """The Word itself, where the schema has it in this scope or an outer one; else None."""
    chain, current = [], scope.base
    while current is not None:
        chain.append(current)
        current = current.parent
    for outer in reversed(chain):
        definition = bench.vocabulary.words.get((outer.kind, word))
        if definition is not None:
            return definition
    return None


def _ways_missing(scope, word, bench):
    """For each formula that could give the word, the paths it lacks."""
    for formula in bench.ways.get(word, ()):
        lacks = {}
        for name in formula.inputs:
            if name not in formula.optional and scope.value(name) is None:
                paths = missing_for(scope, name, bench)
                if paths == (name,):
                    break
                lacks.update(dict.fromkeys(paths))
        else:
            if lacks:
                yield tuple(lacks)


def path_in(path, scope):
    """A schema path with the names of this scope and its outer ones put in place."""
    current = scope.base
    while current is not None:
        path = path.replace(f"<{current.kind}>", current.name)
        current = current.parent
    return path


# -- what is overdue -----------------------------------------------------------------------------------


def overdue(findings, bench):
    """One warning for each missing input that rules due by now wait for; one note for a heading not begun.

    Unsigned reminders that are due are one finding together.
    """
    now = STAGES.index(bench.stage)
    waiting, unsigned = {}, []
    for finding in findings:
        if not finding.due or STAGES.index(finding.due) > now:
            continue
        if finding.kind == OPEN:
            for path in finding.missing:
                waiting.setdefault(path, {}).setdefault(finding.rule, None)
        elif finding.kind == REVIEW:
            unsigned.append(finding.rule)
    found, absent = [], {}
    for path, rules in waiting.items():
        heading = heading_of(path)
        if not bench.begun(heading):
            absent.setdefault(heading, {}).update(rules)
            continue
        place, pointer = bench.place_of_path(path)
        found.append(Finding(
            "due-inputs-are-written", "spec", FAIL, "warning", (),
            f"{path} is not written, and {_count(len(rules), 'rule')} due by {plain_words(bench.stage)} "
            f"{'waits' if len(rules) == 1 else 'wait'} for it: {', '.join(rules)}",
            f"Write {path}.", missing=(path,), place=place, pointer=pointer))
    for heading, rules in absent.items():
        place, pointer = bench.place_of_path(heading)
        found.append(Finding(
            "due-inputs-are-written", "spec", FAIL, "note", (),
            f"{heading}: nothing written yet, {_count(len(rules), 'rule')} {'waits' if len(rules) == 1 else 'wait'}",
            f"Begin the heading {heading}, or leave it out if this spec is not about it.", missing=(heading,),
            place=place, pointer=pointer))
    if unsigned:
        unsigned = list(dict.fromkeys(unsigned))
        begun = bench.begun("assembly")
        place, pointer = bench.place_of_path("assembly.signed")
        found.append(Finding(
            "due-reminders-are-signed", "spec", FAIL, "warning" if begun else "note", (),
            f"{_count(len(unsigned), 'reminder')} due by {plain_words(bench.stage)} "
            f"{'is' if len(unsigned) == 1 else 'are'} not signed: {', '.join(unsigned)}",
            "Look, then write {check, by, on} under assembly.signed for each.", place=place, pointer=pointer))
    return found


def _count(number, noun):
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"


def unlocks(findings, most=3, lines=3):
    """The few inputs that settle most open rules: tuple of (paths, number of rules they settle together)."""
    needs = {}
    for finding in findings:
        if finding.kind == OPEN and finding.missing:
            needs.setdefault(finding.missing, set()).add(finding.rule)
    results, taken, done = [], set(), set()
    for _ in range(lines):
        chosen = set()
        best = set()
        for _ in range(most):
            step = None
            for missing in needs:
                extra = set(missing) - taken - chosen
                if not extra or len(chosen) + len(extra) > most:
                    continue
                trial = taken | chosen | extra
                gain = set().union(*(rules for need, rules in needs.items() if trial.issuperset(need))) - done
                rank = (len(gain) / len(extra), len(gain), sorted(extra))
                if step is None or rank[:2] > step[0][:2] or (rank[:2] == step[0][:2] and rank[2] < step[0][2]):
                    step = (rank, extra, gain)
            if step is None or len(step[2]) <= len(best):
                break
            chosen |= step[1]
            best = step[2]
        if not chosen:
            break
        results.append((tuple(sorted(chosen)), len(best)))
        taken |= chosen
        done |= best
    return tuple(results)


_LEVEL_RANK = {level: rank for rank, level in enumerate(LEVELS)}
_KIND_RANK = {FAIL: 0, OPEN: 1, REVIEW: 2, PASS: 3, NOT_APPLICABLE: 4}
_AREA_RANK = {area: rank for rank, area in enumerate(AREAS)}


def order(findings):
    """Sort findings as an engine is assembled, the serious first; the same list comes out the same way.

    What passes or does not apply comes behind all that is told, by area and rule.
    """
    last = len(AREAS)

    def told(finding):
        place = finding.place
        return (_KIND_RANK[finding.kind], _AREA_RANK.get(finding.area, last), finding.area, _LEVEL_RANK.get(finding.level, 3),
                (place.file, place.line, place.column) if place else ("", 0, 0), finding.rule, finding.scope, finding.message)

    def quiet(finding):
        return _AREA_RANK.get(finding.area, last), finding.area, finding.rule, finding.scope, finding.message

    by_kind = {kind: [] for kind in _KIND_RANK}
    for finding in findings:
        by_kind[finding.kind].append(finding)
    passed, beside = by_kind.pop(PASS), by_kind.pop(NOT_APPLICABLE)
    return (*sorted(chain(*by_kind.values()), key=told), *sorted(passed, key=quiet), *sorted(beside, key=quiet))
