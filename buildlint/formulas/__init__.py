"""How one number follows from others: one module for each subject, one pure function for each way.

A formula's name is the word it gives (what follows ``__`` only tells the ways apart), its parameters are the
words it needs, its annotations their dimensions. SI inside; NaN outside its validity. A parameter with the
default None is a word it can do without. This file gathers them; no formula stands here.
"""

from importlib import import_module
from itertools import chain
from pathlib import Path
from typing import NamedTuple


class Formula(NamedTuple):
    """One way to one word."""

    name: str
    word: str
    inputs: tuple
    optional: frozenset
    dimensions: dict
    gives: object
    function: object

    @property
    def sentence(self):
        """The first line of its docstring: the equation in words."""
        return (self.function.__doc__ or "").strip().split("\n", 1)[0]

    @property
    def source(self):
        """What its docstring names after ``Source:``."""
        _, _, source = (self.function.__doc__ or "").partition("Source:")
        return " ".join(source.split())


def formula_of(function):
    """Read a formula off a function's signature."""
    code = function.__code__
    inputs = code.co_varnames[: code.co_argcount]
    defaults = function.__defaults__ or ()
    annotations = dict(function.__annotations__)
    return Formula(
        name=function.__name__,
        word=function.__name__.partition("__")[0],
        inputs=inputs,
        optional=frozenset(inputs[len(inputs) - len(defaults):] if defaults else ()),
        gives=annotations.pop("return", None),
        dimensions=annotations,
        function=function,
    )


class Ways(dict):
    """{word: [formulas in the order to be tried]}, and what each word rests on, however far down."""

    def __init__(self, *given):
        super().__init__(*given)
        self._rests_on, self._idle = {}, {}

    def idle(self, names, parts):
        """{word: whether a scope that knows these names and parts adds nothing to it}, filled by those who ask."""
        if len(self._idle) > 10_000:
            self._idle.clear()
        return self._idle.setdefault((names, parts), {})

    def rests_on(self, word):
        """(names, beginnings that name a part) of everything that may be asked for in a scope on the way to a word,
        the word itself among them."""
        found = self._rests_on.get(word)
        if found is None:
            from ..resolve import split_ending, split_outside

            names, parts, waiting = {word}, set(), [word]
            while waiting:
                name = waiting.pop()
                outside = split_outside(name)
                if outside is not None:
                    parts.add(outside[0])
                ending = split_ending(name)
                ways = self.get(name, ())
                inputs = [way.inputs for way in ways] if ending is None else [ending[:1], *(way.inputs for way in ways)]
                for wanted in chain.from_iterable(inputs):
                    if wanted in names:
                        continue
                    known = self._rests_on.get(wanted)
                    if known is None:
                        names.add(wanted)
                        waiting.append(wanted)
                    else:
                        names |= known[0]
                        parts |= known[1]
            found = self._rests_on[word] = frozenset(names), frozenset(parts)
        return found


def load():
    """Return the Ways of every module in this folder."""
    ways = Ways()
    for path in sorted(Path(__file__).parent.glob("*.py")):
        if path.stem.startswith("_"):
            continue
        module = import_module(f"{__name__}.{path.stem}")
        for name, function in vars(module).items():
            if not name.startswith("_") and getattr(function, "__module__", None) == module.__name__ and hasattr(function, "__code__"):
                found = formula_of(function)
                ways.setdefault(found.word, []).append(found)
    return ways
