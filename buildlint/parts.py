"""How a spec takes the values of its parts: ``spring: {part: sp-312}`` is filled from the catalogue.

What is written in the spec or its templates always wins; of two parts that fill one key, the first one in the
document. A heading of the catalogue entry goes where it belongs: to the part itself, to its side, or to the top.
"""

import unicodedata

from buildlint.catalogue import ABOUT, SOUND, read_catalogue
from buildlint.decode import shown
from buildlint.model import Entry, Mapping, Problem, Scalar, Sequence
from buildlint.trees import children, pointer_of

# a heading whose children are many of one kind, and the heading of one of them in a catalogue entry
ONE_OF = {"joints": "joint", "springs": "spring", "rings": "ring", "bearings": "bearing"}
# may be written for the whole engine or for one side
TWINS = {"lifters": "lifter", "pushrods": "pushrod", "rockers": "rocker"}
TWINS |= {one: many for many, one in TWINS.items()}
SIDES = ("intake", "exhaust")
OF_A_SIDE = frozenset(
    "valve guide seat spring springs retainer locks seal lifter pushrod rocker lobe port pocket".split()
)
NO_PARTS_IN = ("order", "permits")
MOST_VALUES = 100_000  # in one spec, those that come from the catalogue
MOST_PARTS = 500  # in one spec, those that a part brings along included
ROUNDS = 16  # a part may bring along a part, which may bring along a part

_FOUND = "part-is-in-the-catalogue"


def take_parts(tree, root, root_label, known):
    """A tree with the values of its catalogue parts: (Mapping, list of Problem, list of inputs, set of ids).

    The ids are those of the nulls that kept a value of the catalogue out: they have done their work.
    """
    waiting = _choices(tree, (), set())
    if not waiting:
        return tree, [], [], set()
    catalogue = read_catalogue(root, root_label, known)
    work = _Taking(catalogue)
    done = set()
    rounds = 0
    while waiting and not work.full:
        if rounds == ROUNDS:
            work.stop(waiting[0][1], f"Parts bring along parts more than {ROUNDS} deep")
            break
        for path, number in waiting:
            done.add(path)
            if len(done) > MOST_PARTS:
                work.stop(number, f"More than {MOST_PARTS} parts are taken from the catalogue")
            if work.full:
                break
            tree = work.take(tree, path, number)
        waiting = _choices(tree, (), done)
        rounds += 1
    return tree, catalogue.problems + work.problems, catalogue.inputs, work.removing


def _choices(mapping, path, done):
    """(path, part scalar) of every mapping that chooses a part, in the order of the document. Lists are not entered."""
    found = []
    for name, entry in mapping.entries.items():
        node = entry.node
        if isinstance(node, Mapping):
            if path or name not in NO_PARTS_IN:
                found += _choices(node, (*path, name), done)
        elif name == "part" and path and path not in done and isinstance(node, Scalar) and node.value not in (None, ""):
            found.append((path, node))
    return found


def heading_of(path):
    """The heading under which a catalogue entry speaks of what stands at a path: joints.head is a joint."""
    if len(path) > 1 and path[-2] in ONE_OF:
        return ONE_OF[path[-2]]
    return path[-1]


def destination(heading, path):
    """Where a heading of an entry belongs, when the entry is chosen at a path."""
    for length in range(len(path), 0, -1):
        if heading in (heading_of(path[:length]), TWINS.get(path[length - 1])):
            return path[:length]
    if path[0] in SIDES and heading in OF_A_SIDE:
        return (path[0], heading)
    return (heading,)


class _Taking:
    """One spec taking its parts. A class only because every part may add a problem."""

    def __init__(self, catalogue):
        self.catalogue = catalogue
        self.problems = []
        self.removing = set()  # ids of nulls in the spec that kept a catalogue value out
        self.places = set()  # the part scalars that chose something: a value with such a chooser came from a part
        self.values = 0
        self.full = False

    def stop(self, number, message):
        self.full = True
        self.problems.append(
            Problem(
                SOUND,
                f"{message}; the rest is left out.",
                number.place,
                "Let a part bring along only parts that it holds itself.",
            )
        )

    def take(self, tree, path, number):
        """The tree with what the catalogue says about one part."""
        name = unicodedata.normalize("NFC", number.text)
        part = self.catalogue.parts.get(name)
        if part is None:
            self._not_found(name, number, pointer_of((*path, "part")))
            return tree
        headings = {
            heading: below
            for heading, below in part.node.entries.items()
            if heading not in ABOUT and isinstance(below.node, Mapping)
        }
        if not any(_speaks_of(path, destination(heading, path), below.node) for heading, below in headings.items()):
            said = ", ".join(f"`{heading}`" for heading in headings) or "nothing"
            self.problems.append(
                Problem(
                    _FOUND,
                    f"In the catalogue the part `{shown(name)}` is not described as `{heading_of(path)}`, but as "
                    f"{said}; nothing is taken from it.",
                    number.place,
                    f"Choose another part, or write the heading `{heading_of(path)}:` in its catalogue entry.",
                    "warning",
                    pointer_of((*path, "part")),
                    (("the catalogue entry", part.key.place),),
                )
            )
            return tree
        self.values += sum(map(_count, headings.values()))
        if self.values > MOST_VALUES:
            self.stop(number, f"More than {MOST_VALUES:,} values are taken from the catalogue")
            return tree
        self.places.add(number.place)
        for heading, below in headings.items():
            tree = self._fill_at(tree, destination(heading, path), (), below, number.place)
        return tree

    def _fill_at(self, mapping, steps, path, addition, chosen):
        """A mapping with the addition merged in at the end of the steps; the headings on the way are made."""
        if not steps:
            return self._fill(mapping, addition.node, path, chosen)
        name = steps[0]
        entry = mapping.entries.get(name)
        entries = dict(mapping.entries)
        if entry is None:
            if len(steps) > 1:
                empty = Mapping(addition.node.place, {})
                below = self._fill_at(empty, steps[1:], (*path, name), addition, chosen)
                key = Scalar(addition.key.place, name, name, True)
                entries[name] = Entry(key, below, chosen)
            else:
                key = addition.key if addition.key.text == name else Scalar(addition.key.place, name, name, True)
                entries[name] = stamped(Entry(key, addition.node), chosen)
        elif isinstance(entry.node, Mapping):
            entries[name] = entry._replace(
                node=self._fill_at(entry.node, steps[1:], (*path, name), addition, chosen),
            )
        else:
            self._kept_out(entry)
            return mapping
        return Mapping(mapping.place, entries)

    def _fill(self, mapping, addition, path, chosen):
        entries = dict(mapping.entries)
        for name, new in addition.entries.items():
            old = entries.get(name)
            if isinstance(new.node, Scalar) and new.node.value is None:
                continue  # a line of the catalogue that is still empty
            if old is None:
                entries[name] = stamped(new, chosen)
            elif isinstance(old.node, Mapping) and isinstance(new.node, Mapping):
                below = self._fill(old.node, new.node, (*path, name), chosen)
                entries[name] = old._replace(node=below)
            elif old.chosen in self.places and old.chosen != chosen:
                self._differs(old, new, (*path, name), chosen)
            else:
                self._kept_out(old)
        return Mapping(mapping.place, entries)

    def _kept_out(self, entry):
        if isinstance(entry.node, Scalar) and entry.node.value is None:
            self.removing.add(id(entry.node))

    def _differs(self, old, new, path, chosen):
        if same_data(old.node, new.node):
            return
        self.problems.append(
            Problem(
                _FOUND,
                f"Two parts give different values for `{'.'.join(path)}`: "
                f"{_shown(old.node)} is taken, {_shown(new.node)} is not.",
                old.key.place,
                "Write the value that holds in the spec itself.",
                "note",
                pointer_of(path),
                (
                    ("the value that is taken was chosen here", old.chosen),
                    ("the other value", new.key.place),
                    ("and chosen here", chosen),
                ),
            )
        )

    def _not_found(self, name, number, pointer):
        if not self.catalogue.parts:
            return
        close = _close(name, self.catalogue.parts)
        if close:
            place = self.catalogue.parts[close].key.place
            self.problems.append(
                Problem(
                    _FOUND,
                    f"The part `{shown(name)}` is not in the catalogue; did you mean `{shown(close)}`?",
                    number.place,
                    f"Write `part: {shown(close)}`, or add the part to the catalogue.",
                    "warning",
                    pointer,
                    (("the part that may be meant", place),),
                )
            )
        else:
            self.problems.append(
                Problem(
                    _FOUND,
                    f"The part `{shown(name)}` is not in the catalogue; only what the spec says about it is known.",
                    number.place,
                    "Add the part to the catalogue, or write its values in the spec.",
                    "note",
                    pointer,
                )
            )


def _speaks_of(path, place, node):
    """Whether an entry's mapping, which belongs at a place, says something of the mapping at a path."""
    if path[: len(place)] != place:
        return False
    for step in path[len(place) :]:
        node = node.get(step)
        if not isinstance(node, Mapping):
            return False
    return True


def stamped(entry, chosen):
    """A copy of an entry in which everything that nobody has chosen yet carries the place that chooses it now."""
    return _stamp_entry(entry, chosen, {})


def _stamp_entry(entry, chosen, done):
    if entry.chosen is not None:
        return entry  # and so is everything below it
    return Entry(entry.key, _stamp(entry.node, chosen, done), chosen)


def _count(entry):
    """The nodes below an entry, shared ones counted wherever they stand."""
    total, waiting = 0, [entry.node]
    while waiting:
        total += 1
        waiting += children(waiting.pop())
    return total


def _stamp(node, chosen, done):
    if isinstance(node, Scalar):
        return node
    copy = done.get(id(node))
    if copy is None:
        if isinstance(node, Mapping):
            copy = Mapping(
                node.place,
                {name: _stamp_entry(entry, chosen, done) for name, entry in node.entries.items()},
            )
        else:
            copy = Sequence(node.place, [_stamp(item, chosen, done) for item in node.items])
        done[id(node)] = copy
    return copy


def same_data(one, other):
    """Whether two nodes hold the same keys and texts, wherever and however they are written."""
    if isinstance(one, Scalar) and isinstance(other, Scalar):
        return one.text == other.text or (one.value == other.value and type(one.value) is type(other.value))
    if isinstance(one, Sequence) and isinstance(other, Sequence):
        return len(one.items) == len(other.items) and all(map(same_data, one.items, other.items))
    if isinstance(one, Mapping) and isinstance(other, Mapping):
        return one.entries.keys() == other.entries.keys() and all(
            same_data(entry.node, other.entries[name].node) for name, entry in one.entries.items()
        )
    return False


def _close(name, parts):
    """The part number that was most likely meant, or None."""
    if len(name) > 60:
        return None
    folded = name.casefold()
    for number in parts:
        if number.casefold() == folded:
            return number
    import difflib

    near = [number for number in parts if abs(len(number) - len(name)) <= 3]
    return next(iter(difflib.get_close_matches(name, near[:5000], 1, 0.8)), None)


def _shown(node):
    if isinstance(node, Scalar):
        return f"`{shown(node.text)}`"
    return "a list" if isinstance(node, Sequence) else "a mapping"
