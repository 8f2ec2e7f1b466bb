"""From a verdict to a finding: the sentences filled in, the numbers in the builder's unit, the line it points at."""

import re

from .model import AGREEMENT, BAND, FAIL, MAXIMUM, MINIMUM, NOT_APPLICABLE, OPEN, PASS, REVIEW, STAGES, Edit, Finding
from .open_results import missing_for, own_key, path_in
from .quantity_display import DOWN, UP, in_unit, show, show_plain
from .value_display import plain_words, show_value, unit_of, usual_unit

_JOINED_WORDS = re.compile("(?<=[a-z])_(?=[a-z])")  # of a choice; a part number keeps what it is written with


# -- one verdict, one finding ---------------------------------------------------------------------------


def alike(rule, kind, scope, message=""):
    """A finding that has nothing of its own but scope and standing words; the same object serves every spec."""
    label = scope.label
    found = rule.alike.get((kind, label, message))
    if found is None:
        found = rule.alike[kind, label, message] = Finding(rule.id, rule.area, kind, "none", label, message, due=rule.due)
    return found


def finding_of(rule, limits, verdict, scope, values, bench):
    kind = verdict.kind
    if kind == PASS and not verdict.near:
        return _passed(rule, scope, verdict, values, bench)
    if kind == NOT_APPLICABLE:
        return alike(rule, kind, scope, verdict.says or "")
    if kind == OPEN or (verdict.missing and STAGES.index(rule.due) > STAGES.index(bench.stage)):
        paths = [path for word in verdict.missing for path in missing_for(scope, word, bench)]
        return open_finding(rule, scope, tuple(dict.fromkeys(paths)), bench)
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
                   verdict.utilization, (), place, pointer, related, None, rule.source, rule.caution, rule.due,
                   None if rule.edit is None or verdict.near else _edit(rule, scope, values, names, bench),
                   verdict.bound)


def _passed(rule, scope, verdict, values, bench):
    """What a rule lets pass, with how near it came."""
    if not isinstance(verdict.value, float):
        return alike(rule, PASS, scope)
    dimension, unit = _judged(verdict, values, rule, bench)
    return Finding(rule.id, rule.area, PASS, "none", scope.label, "", "", _in_unit(verdict.value, dimension, unit),
                   _in_unit(verdict.limit, dimension, unit), unit, verdict.utilization, due=rule.due, bound=verdict.bound)


def open_finding(rule, scope, missing, bench):
    place, pointer = bench.place_of_path(missing[0] if missing else "")
    return Finding(rule.id, rule.area, OPEN, "none", scope.label, "cannot be judged yet: needs " + ", ".join(missing),
                   rule.fix if not missing else "Write " + ", ".join(missing) + ".", missing=missing, place=place,
                   pointer=pointer, due="" if bench.spares(rule) else rule.due)


SCOPE_HEADINGS = {"joint": "joints", "step": "assembly.steps", "item": "order.items"}


def nothing_there(rule, bench):
    heading = SCOPE_HEADINGS.get(rule.scope, rule.scope)
    place, pointer = bench.place_of_path(heading)
    return Finding(rule.id, rule.area, OPEN, "none", (), f"cannot be judged yet: needs {heading}",
                   f"Write {heading}.", missing=(heading,), place=place, pointer=pointer, due=rule.due)


def broken_down(rule, error, bench):
    trace = error.__traceback__
    while trace.tb_next is not None:
        trace = trace.tb_next
    return Finding("rule-runs-to-its-end", rule.area, FAIL, "error", (),
                   f"the rule {rule.id} broke down ({type(error).__name__}: {error}, line {trace.tb_lineno} of its module); "
                   "what it would have said is not known",
                   "Report this with the spec; every other rule has been asked.",
                   place=bench.build.place, due=rule.due)


def not_come_back(rule, what, unasked, why, bench):
    """The findings about a rule that was given up on, and the rules that were not asked any more because of it."""
    rest = f"{len(unasked)} more {'rule was' if len(unasked) == 1 else 'rules were'} not asked, because {why}" if unasked else ""
    yield Finding("rule-runs-to-its-end", rule.area, FAIL, "error", (),
                  f"the rule {rule.id} {what}; what it would have said is not known{rest and f', and {rest}'}",
                  f"Report this with the spec; every other rule has been asked{' before' if rest else ''}.",
                  place=bench.build.place, due=rule.due)
    for other in unasked:
        yield Finding(other.id, other.area, OPEN, "none", (), f"not asked: {why}", due=other.due)


def _judged(verdict, values, rule, bench):
    """The dimension and the builder's unit of the value a verdict is about."""
    if isinstance(verdict.value, bool) or not isinstance(verdict.value, (int, float)):
        return None, ""
    dimension = getattr(verdict.value, "dimension", None) or getattr(verdict.limit, "dimension", None)
    for value in sorted((value for value in values if value is not None), key=lambda value: value.data != verdict.value):
        own = value.dimension
        if dimension is None and getattr(own, "numeric", True) and isinstance(value.data, (int, float)):
            dimension = own
        if own == dimension:
            unit = getattr(verdict.value, "unit", "") or unit_of(value)
            return dimension, unit or usual_unit(dimension, bench, verdict.value)
    if dimension is None:
        return None, ""
    return dimension, getattr(verdict.value, "unit", "") or usual_unit(dimension, bench, verdict.value)


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
    """The names a sentence may use, shown as the builder writes them.

    ``{name:up}`` and ``{name:down}`` are rounded to that side: what a remedy tells, done to the digit, has to settle the
    matter. The verdict's limit is rounded to the side it is kept on, wherever it is named.
    """

    def __init__(self, rule, limits, verdict, values, scope, bench, dimension, unit):
        self.rule, self.limits, self.verdict, self.scope, self.bench = rule, limits, verdict, scope, bench
        self.values = dict(zip(rule.words, values))
        self.dimension, self.unit = dimension, unit
        self.kept = _side_kept(verdict)

    def fill(self, sentence):
        return sentence.format_map(self)

    def plainly(self):
        """The facts of the verdict as they would be written in a spec, by name."""
        facts = {**self.limits, **self.verdict.facts}
        return {name: fact if isinstance(fact, str) else self._show(fact) for name, fact in facts.items()}

    def __missing__(self, name):
        return _Named(self, name)

    def shown(self, name, toward):
        """What a name stands for, rounded ``toward`` UP or DOWN, or to the nearest with an empty text."""
        verdict = self.verdict
        if name == "value":
            return self._value(verdict.value, self.dimension, self.unit, toward)
        if name == "limit":
            return self._limit(verdict.limit, self.dimension, self.unit, toward)
        if name == "goal":
            return self._limit(verdict.goal, self.dimension, self.unit, toward or self.kept)
        if name == "scope":
            return " ".join(self.scope.label) or "build"
        if name in verdict.facts:
            fact = verdict.facts[name]
            dimension = getattr(fact, "dimension", None)
            if self._judged(fact, dimension):
                return self._value(fact, dimension, getattr(fact, "unit", "") or self.unit, toward)
            if self._keeps(fact, dimension):
                return self._show(fact, dimension, toward=toward or self.kept, close=True)
            return self._show(fact, toward=toward)
        if name in self.limits:
            limit = self.limits[name]
            same = getattr(limit, "dimension", None) == self.dimension
            return self._limit(limit, None, self.unit if same else "", toward, same)
        value = self.values.get(name)
        if value is None and name not in self.values:
            value = self.scope.value(name)
        if value is None:
            return "not written"
        if value.formula is not None and isinstance(value.data, float):
            if toward or self._judged(value.data, value.dimension):
                unit = unit_of(value) or usual_unit(value.dimension, self.bench, value.data)
                return self._value(value.data, str(value.dimension), unit, toward)
        return show_value(value, self.bench)

    def _judged(self, number, dimension):
        """Whether a number is the value that was judged."""
        return self._same(number, dimension, self.verdict.value)

    def _keeps(self, number, dimension):
        """Whether a number is the limit that was judged by."""
        return self._same(number, dimension, self.verdict.limit)

    def _same(self, number, dimension, judged):
        return (self.verdict.bound in (MINIMUM, MAXIMUM, BAND) and isinstance(number, float) and isinstance(judged, float)
                and number == judged and dimension == self.dimension)

    def _value(self, value, dimension, unit, toward):
        return self._show(value, dimension, unit, self.verdict.limit, toward=toward, apart_toward=self.kept)

    def _limit(self, limit, dimension, unit, toward, judged=True):
        """A limit in the builder's unit: where it is another than its own, to the decimals he reads in that unit.

        What a value should agree with is no limit but another size.
        """
        finer = self.verdict.bound == AGREEMENT or unit in ("", getattr(limit, "unit", ""))
        kept = self.kept if judged and isinstance(limit, float) and limit == self.verdict.limit else ""
        return self._show(limit, dimension, unit, self.verdict.value if judged else None, finer, toward or kept,
                          close=True)

    def _show(self, value, dimension=None, unit="", apart_from=None, finer=True, toward="", apart_toward="",
              close=False):
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
            return show_plain(value, toward)
        own_unit = getattr(value, "unit", "")
        apart_from = float(apart_from) if isinstance(apart_from, (int, float)) and not isinstance(apart_from, bool) else None
        return show(float(value), str(dimension), unit or own_unit or usual_unit(dimension, self.bench, value), apart_from,
                    finer, toward, apart_toward, close)


class _Named:
    """A name in a sentence: how it is shown hangs on the side that the sentence asks for."""

    __slots__ = ("names", "name")

    def __init__(self, names, name):
        self.names, self.name = names, name

    def __format__(self, toward):
        if toward not in ("", UP, DOWN):
            raise ValueError(f"{{{self.name}:{toward}}}: a name in a sentence is rounded {UP} or {DOWN}")
        return self.names.shown(self.name, toward)


def _side_kept(verdict):
    """The side to which the limit of a verdict is rounded, so that what is kept to the digit shown passes."""
    if verdict.bound == BAND:
        return {"below": UP, "above": DOWN}.get(verdict.facts.get("side"), "")
    return {MINIMUM: UP, MAXIMUM: DOWN}.get(verdict.bound, "")


# -- what would put it right --------------------------------------------------------------------------------


def _edit(rule, scope, values, names, bench):
    """The Edit that a rule knows: its word, here, with its value; None where the verdict does not tell the value, or
    where it stands there already."""
    sort, word, new = rule.edit
    try:
        new = new.format_map(names.plainly())
    except KeyError:
        return None
    value = values[0] if rule.scope == "value" else scope.value(word)
    if value is not None:
        stands = value.written and value.place is not None and value.text != new
        return Edit(sort, value.pointer, new, value.place) if stands else None
    definition = own_key(scope, word, bench)
    path = definition.path.rpartition("[].")[2] if "[]." in definition.path else path_in(definition.path, scope)
    below = scope.base.pointer if "[]." in definition.path else ""
    return Edit(sort, "/".join((below, *path.split("."))), new)


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
