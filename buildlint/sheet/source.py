"""One build as the sheet sees it: what was read, what was judged, and how a number is told with its source.

Nothing is laid out here. Every section of the sheet asks a Build and gets plain text, lists and dicts.
"""

import os

from .. import judge, road
from ..model import Mapping, Place
from ..open_results import missing_for
from ..quantity_display import default_unit, in_unit, show
from ..reading import read_spec
from ..render.text import line
from ..value_display import show_value, unit_of


class Build:
    """A spec that was read and judged once: ``data`` is the text of the file, ``bench`` what judged it, ``report``
    the findings."""

    def __init__(self, path, data, spec, bench, report):
        self.path, self.data, self.spec, self.bench, self.report = path, data, spec, bench, report
        self.folder = os.path.dirname(os.path.abspath(path))

    def value(self, word, scope=None):
        """The Value of a word in the build or in a scope, or None."""
        return (scope or self.spec.build).value(word)

    def datum(self, word, scope=None):
        """What a word means, or None."""
        found = self.value(word, scope)
        return None if found is None else found.data

    def shown(self, value):
        """A Value as text in the builder's unit."""
        return line(show_value(value, self.bench))

    def text(self, word, scope=None, absent=""):
        """What a word means as text; ``absent`` where it cannot be had."""
        found = self.value(word, scope)
        return absent if found is None else self.shown(found)

    def amount(self, number, like):
        """A number in SI as text, in the unit of the Value it is ``like``."""
        return show(float(number), str(like.dimension), self.unit(like))

    def unit(self, value):
        """The builder's unit of a numeric Value: as written, or the usual one of the build's system."""
        return unit_of(value) or default_unit(str(value.dimension), self.bench.system, float(value.data))

    def usual_unit(self, dimension, number=None):
        """The usual unit of a dimension in the build's system."""
        return default_unit(dimension, self.bench.system, number)

    def number(self, value, unit=None):
        """A numeric Value as a plain number in its unit, or in another one of its dimension."""
        return in_unit(float(value.data), str(value.dimension), unit or self.unit(value))

    def where(self, place):
        """A place as file:line, the file as it is found from the folder of the spec."""
        return f"{self.file(place.file)}:{place.line}" if isinstance(place, Place) else ""

    def file(self, name):
        """A file as it is found from the folder of the spec; the spec itself by its name."""
        if os.path.abspath(name) == os.path.abspath(self.path):
            return line(os.path.basename(name))
        try:
            return line(os.path.relpath(os.path.abspath(name), self.folder).replace(os.sep, "/"))
        except ValueError:  # another drive
            return line(name)

    def missing(self, word, scope=None):
        """The keys that would give a word which cannot be had."""
        return missing_for(scope or self.spec.build, word, self.bench)


def read(path, stage=None):
    """Read and judge one spec. Raises road.CannotStart where it cannot be read or the rules are not sound.

    A spec that is no YAML, or no mapping, gives an empty build with the findings that say so.
    """
    data = road.bytes_of(path)
    shop = road.standard_for(path)
    report = road.check(path, text=data, stage=stage)
    spec, _, _ = road.prepare(path, str(path), data, shop.units)
    if spec is None:
        nothing = Mapping(Place(str(path), 1, 1, 1, 1), {})
        spec = read_spec(nothing, road.words(), road.ways(), frozenset(), shop.units)
    if stage is not None:
        spec.judge_at(stage)
    bench = judge.Bench(spec, road.words(), road.ways(), stage, shop, road.compared_words())
    return Build(str(path), data, spec, bench, report)


def in_words(name):
    """A key, a word or the id of a rule as it is said."""
    text = line(name).replace("_", " ").replace("-", " ")
    return text[:1].upper() + text[1:]


def scope_in_words(label):
    """A scope as it is said: intake, cylinder 3; the build itself has no name."""
    return line(", ".join(label)).replace("_", " ")


def span(build, value):
    """(smallest, largest) of the values one by one as text, with how many there are; None where there is one value."""
    known = [each for each in value.known if isinstance(each.data, (int, float)) and each.data == each.data]
    if len(known) < 2:
        return None
    least, most = min(known, key=lambda each: each.data), max(known, key=lambda each: each.data)
    return build.amount(least.data, value), build.amount(most.data, value), len(known)


def told(build, value):
    """A Value as a line of text; where there is one for each cylinder or journal, with how far they spread."""
    text = build.shown(value)
    found = span(build, value) if getattr(value.dimension, "numeric", True) else None
    if found is None:
        return text
    least, most, count = found
    kind = value.along[0] + "s" if value.along else "values"
    if least == most:
        return f"{text} on all {count} {kind}" if least == text else f"{text} ({least} on all {count} {kind})"
    return f"{text} ({least} to {most} over {count} {kind})"
