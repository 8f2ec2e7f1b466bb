"""Scopes full of words, and how a word is found: written here, written further out, or given by a formula.

Words are looked up from the inside out, and inner knowledge wins. A value knows whether it was written (and
where) or computed (by which formula from which values); where findings point, how a number came about and
what is missing all follow from that. How a spec is read into scopes stands in ``reading``.
"""

import re
from functools import cache

from .dimensions import Dimension, List

ENDINGS = ("_smallest", "_largest", "_spread", "_each", "_computed", "_written", "_planned", "_measured")
_ENDING = re.compile(f"(.+)({'|'.join(ENDINGS)})")

# Seen from outside, name before kind: intake_valve..., main_bearing_clearance, top_ring_end_gap.
OUTSIDE = {"side": "", "spring": "spring_", "bearing": "bearing_", "ring": "ring_", "joint": "joint_"}
_SEEN_FROM_OUTSIDE = re.compile("((?:intake|exhaust)_|.+?_(?:spring|bearing|ring|joint)_)(.+)")


@cache
def split_ending(word):
    """(word, ending) of a word with a reserved ending, else None."""
    match = _ENDING.fullmatch(word)
    return match.groups() if match else None


@cache
def split_outside(word):
    """(beginning that may name a part, the word inside it) of a word seen from outside, else None."""
    match = _SEEN_FROM_OUTSIDE.fullmatch(word)
    return match.groups() if match else None


class Value:
    """What a word means in one scope.

    ``data`` is what a rule is given: an Amount or float in SI, a text, a list. ``elements`` holds one Value
    for each cylinder or journal where the word is a list (or follows from one, then worked out when asked for), None where
    nothing is measured yet,
    ``along`` what they are counted along. A computed value has its ``formula`` and ``inputs``; a written one its place and pointer.
    """

    __slots__ = ("word", "data", "dimension", "unit", "text", "place", "pointer", "chosen", "plan", "measured",
                 "_elements", "along", "formula", "inputs", "definition", "wanted")

    def __init__(self, word, data, dimension, unit="", text="", place=None, pointer="", chosen=None, plan=None,
                 measured=None, elements=(), along=None, formula=None, inputs=(), definition=None):
        self.word, self.data, self.dimension, self.unit, self.text = word, data, dimension, unit, text
        self.place, self.pointer, self.chosen = place, pointer, chosen
        self.plan, self.measured = plan, measured
        self._elements, self.along = elements, along
        self.formula, self.inputs, self.definition = formula, inputs, definition
        self.wanted = 0  # how many elements a list that is not finished will have

    @property
    def elements(self):
        if type(self._elements) is _Later:
            self._elements = self._elements.worked_out(self)
        return self._elements

    @property
    def known(self):
        """The elements that are not still to be measured."""
        return tuple(element for element in self.elements if element is not None)

    @property
    def count(self):
        """How many elements there are, without working any out."""
        return self._elements.count if type(self._elements) is _Later else len(self._elements)

    @property
    def reach(self):
        """How many cylinders or journals are asked about: those of the list, and those it will have."""
        return max(self.count, self.wanted)

    @elements.setter
    def elements(self, elements):
        self._elements = elements

    @property
    def written(self):
        return self.formula is None

    def leaves(self):
        """The written values this one rests on, in the order the formulas name them, each once."""
        found, seen, stack = [], set(), [self]
        while stack:
            value = stack.pop()
            if value.formula is None:
                if value.pointer not in seen:
                    seen.add(value.pointer)
                    found.append(value)
            else:
                stack.extend(reversed(value.inputs))
        return found


_NOT_ASKED = object()


class _Later:
    """The values of a computed word for each cylinder or journal, worked out only when somebody asks."""

    __slots__ = ("scope", "count")

    def __init__(self, scope, count):
        self.scope, self.count = scope, count

    def worked_out(self, whole):
        views = (self.scope.at(whole.along, position) for position in range(1, self.count + 1))
        return tuple(view.computed(whole.word) or whole for view in views)


class Scope:
    """A place where words have a meaning: the build, one side, one joint, one cylinder."""

    __slots__ = ("kind", "name", "parent", "words", "children", "cache", "ways", "pointer", "place", "base",
                 "along", "position", "prefix", "positions_cache", "label_cache", "computed_cache", "seen_cache", "idle_cache")

    def __init__(self, kind, name, parent, ways, pointer="", place=None):
        self.kind, self.name, self.parent, self.ways = kind, name, parent, ways
        self.pointer, self.place = pointer, place
        self.words, self.children, self.cache, self.computed_cache = {}, {}, {}, {}
        self.base, self.along, self.position = self, None, None
        self.prefix = f"{name}_{OUTSIDE[kind]}" if kind in OUTSIDE else None
        self.positions_cache = self.label_cache = self.seen_cache = self.idle_cache = None
        if parent is not None and self.prefix:
            parent.children[self.prefix] = self

    @property
    def seen(self):
        """{word: Value} of all that is written in this scope and those it lies in, from the inside out."""
        if self.seen_cache is None:
            outer = self.parent.seen if self.parent is not None else {}
            self.seen_cache = {**outer, **self.words} if self.words else outer
        return self.seen_cache

    @property
    def label(self):
        """The scope in words, outermost first, as a finding shows it."""
        if self.label_cache is None:
            self.label_cache = self._label()
        return self.label_cache

    def _label(self):
        outer = self.parent.label if self.parent is not None else ()
        if self.kind == "build":
            return outer
        if self.kind == "side":
            return (*outer, self.name)
        if self.kind in ("cylinder", "journal", "fastener"):
            return (*outer, f"{self.kind} {self.name}")
        return (*outer, f"{self.name} {self.kind}")

    def at(self, along, position):
        """The same scope seen from one cylinder or journal (counted from 1): lists give that element."""
        if self.positions_cache is None:
            self.positions_cache = {}
        view = self.positions_cache.get((along, position))
        if view is None:
            view = Scope(along[0], str(position), self.base, self.ways, self.pointer, self.place)
            view.base, view.along, view.position = self.base, along, position
            self.positions_cache[along, position] = view
        return view

    def value(self, word):
        """The Value of a word in this scope, or None when it cannot be had."""
        found = self.cache.get(word, _NOT_ASKED)
        if found is _NOT_ASKED:
            self.cache[word] = None  # a word that comes back to itself has no answer that way
            found = self.cache[word] = self._find(word)
        return found

    def _adds_nothing_to(self, word):
        """Whether the answer is that of the scope this one lies in: nothing it rests on is known here alone."""
        known = self.idle_cache
        if known is None:
            known = self.idle_cache = self.ways.idle(frozenset(self.words), frozenset(self.children))
        found = known.get(word)
        if found is None:
            names, parts = self.ways.rests_on(word)
            found = known[word] = names.isdisjoint(self.words) and parts.isdisjoint(self.children)
        return found

    def _find(self, word):
        base = self.base
        found = base.seen.get(word)
        if found is not None:
            return found if base is self else self._here(found)
        parts = split_ending(word)
        if parts is None and word not in self.ways:  # nobody gives it, unless it is a part's
            child, inner = self.child(word)
            return child.value(inner) if child is not None else None
        if base is self and self.parent is not None and self._adds_nothing_to(word):
            return self.parent.value(word)
        if base is not self and parts is None:  # what the whole does not have, or not one by one, no cylinder has
            whole = base.value(word)
            if whole is None or whole.along is None:
                return whole
        if word in self.ways:
            found = self.computed(word)
            if found is not None:
                return found
        if parts is not None:
            return self._ending(*parts, word)
        child, inner = self.child(word)
        return child.value(inner) if child is not None else None

    def _here(self, found):
        """The element for this cylinder or journal, where the value has one; what is not measured there yet is as planned."""
        if self.position is None or found.along != self.along:
            return found
        here = found.elements[self.position - 1] if self.position <= found.count else None
        if here is not None:
            return here
        if found.formula is not None:
            return found
        if found.plan is None:
            return None
        planned = _derived(found, found.word, found.plan)
        planned.plan = found.plan
        return planned

    def child(self, word):
        """The part of this or an outer scope that a word's beginning names, and the word inside it; else None twice."""
        parts = split_outside(word)
        if parts is None:
            return None, None
        scope = self.base
        while scope is not None:
            child = scope.children.get(parts[0])
            if child is not None:
                return child if self.position is None else child.at(self.along, self.position), parts[1]
            scope = scope.parent
        return None, None

    def computed(self, word):
        """The Value that a formula gives, whether or not the word itself is written; None when none does.

        Where this scope knows nothing of its own that the formulas rest on, the answer is that of the scope it
        lies in, worked out once.
        """
        found = self.computed_cache.get(word, _NOT_ASKED)
        if found is _NOT_ASKED:
            self.computed_cache[word] = None
            found = self.computed_cache[word] = self._computed(word) if word in self.ways else None
        return found

    def _computed(self, word):
        if self.position is not None:
            whole = self.base.computed(word)
            if whole is None or whole.along != self.along:
                return whole
        elif self.parent is not None and self._adds_nothing_to(word):
            return self.parent.computed(word)
        for formula in self.ways[word]:
            inputs, data, lists = [], [], []
            optional = formula.optional
            for name in formula.inputs:
                value = self.value(name)
                if value is not None:
                    inputs.append(value)
                    data.append(value.data)
                    if value.along is not None:
                        lists.append(value)
                elif name in optional:
                    data.append(None)
                else:
                    break
            if len(data) < len(formula.inputs):
                continue
            try:
                data = formula.function(*data)
            except (ZeroDivisionError, OverflowError):  # a zero or a huge figure lies outside every formula's validity
                continue
            if data is None or data != data:
                continue
            result = Value(word, data, formula.gives, formula=formula, inputs=tuple(inputs))
            if lists and self.position is None:
                result.along = lists[0].along
                alike = [value for value in lists if value.along == result.along]
                result.elements = _Later(self, max(value.count for value in alike))
                result.wanted = max(value.wanted for value in alike)
            return result
        return None

    def _ending(self, word, ending, whole):
        if ending == "_computed":
            found = self.computed(word)
            if found is not None:
                return found
            child, inner = self.child(word)
            return child.value(inner + ending) if child is not None else None
        found = self.base.seen.get(word) if ending in ("_written", "_planned", "_measured") else self.base.value(word)
        if found is None:
            child, inner = self.child(word)
            return child.value(inner + ending) if child is not None else None
        if ending == "_written":
            return self._here(found)
        if ending in ("_planned", "_measured"):
            found = self._here(found)
            data = None if found is None else found.plan if ending == "_planned" else found.measured
            return None if data is None else _derived(found, whole, data)
        if not found.elements:
            return found if ending not in ("_spread", "_each") else None
        known = [element for element in found.known if isinstance(element.data, (int, float))]
        if not known:
            return None
        if ending == "_each":
            return Value(whole, [element.data for element in known], List, formula=_each_way, inputs=tuple(known))
        lowest, highest = min(known, key=lambda value: value.data), max(known, key=lambda value: value.data)
        if ending == "_spread":
            return Value(whole, highest.data - lowest.data, found.dimension, unit=found.unit,
                         formula=_spread_way, inputs=(highest, lowest))
        return lowest if ending == "_smallest" else highest


def _derived(value, word, data):
    same = Value(word, data, value.dimension, value.unit, "", value.place, value.pointer, value.chosen)
    same.definition = value.definition
    return same


def _spread_way_function(largest, smallest):
    """The largest less the smallest of the measured values."""
    return largest - smallest


def _each_way_function(values):
    """The values one by one, in the numbering of the engine."""
    return values


def _as_way(function):
    from .formulas import formula_of

    return formula_of(function)


_spread_way = _as_way(_spread_way_function)
_each_way = _as_way(_each_way_function)


def dimension_of(value):
    """The dimension of a Value as an annotation would name it."""
    return value.dimension if isinstance(value.dimension, Dimension) else Dimension(value.dimension or "text")
