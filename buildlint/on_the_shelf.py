"""Whether every part of a shop's catalogue could be taken into a build, also the parts that no spec takes.

A part that a spec takes is judged with the spec; what lies on the shelf for the next one would be found unsound only on
the day it is wanted. Each file is held against the schema of catalogues, and its quantities are read.
"""

import os
from pathlib import PurePosixPath

from .catalogue import ABOUT, read_catalogue
from .model import Entry, Mapping, Scalar
from .reading import read_spec
from .shelf import label_of, root_of
from .trees import pointer_of
from .validate import validate

# where the values of a part stand in a spec, if any place is as good as another
_PLACES = {"joint": ("joints", "head"), "ring": ("rings", "top"), "bearing": ("bearings", "main")}


def catalogues_of(specs):
    """{root: label} of the shops that these specs lie in; the label names the root as seen from where the specs were named."""
    roots = {}
    for path in specs:
        real = os.path.realpath(path)
        root, _ = root_of(os.path.dirname(real))
        if root not in roots:
            roots[root] = os.path.dirname(label_of(os.path.join(root, "shop.yaml"), real, path)) or "."
    return roots


def unsound(root, label, vocabulary, ways, units=None):
    """{name of a catalogue file: problems in it}, in the order of the files; what is wrong with a folder stands under its name."""
    catalogue = read_catalogue(root, label, None)
    found = {}
    for problem in catalogue.problems:
        found.setdefault(problem.place.file, []).append(problem)
    for file in catalogue.files:
        problems, broken = validate(file.tree, vocabulary, "catalogue.json")
        told = {problem.place for problem in found.get(file.label, ())}
        for number, entry in file.tree.entries.items():
            if isinstance(entry.node, Mapping):
                problems = [*problems, *_unreadable(number, entry.node, broken, vocabulary, ways, units)]
        for problem in problems:
            if problem.place not in told:
                told.add(problem.place)
                found.setdefault(file.label, []).append(problem._replace(edit=None))  # what puts a spec right is not written here
    return {name: sorted(found[name], key=lambda problem: problem.place) for name in sorted(found, key=PurePosixPath)}


def _unreadable(number, part, broken, vocabulary, ways, units):
    """The quantities of a part that cannot be read, found by putting it where a spec would have it."""
    entries, moved, back = {}, set(), {}
    for heading, below in part.entries.items():
        if heading in ABOUT or not isinstance(below.node, Mapping):
            continue
        path = (heading,) if heading in vocabulary.tree.children else _PLACES.get(heading, ("intake", heading))
        here = pointer_of((number, heading))
        back[pointer_of(path)] = here
        moved |= {pointer_of(path) + pointer.removeprefix(here) for pointer in broken if (pointer + "/").startswith(here + "/")}
        _put(entries, path, below)
    tree = Mapping(part.place, entries)
    for problem in read_spec(tree, vocabulary, ways, moved, units).problems:
        place = next((path for path in back if (problem.pointer + "/").startswith(path + "/")), None)
        yield problem._replace(pointer="" if place is None else back[place] + problem.pointer.removeprefix(place))


def _put(entries, path, below):
    """Lay an entry into a tree of mappings at a path, beside what lies there."""
    for step in path[:-1]:
        if step not in entries:
            place = below.key.place
            entries[step] = Entry(Scalar(place, step, step, True), Mapping(place, {}))
        entries = entries[step].node.entries
    if path[-1] in entries:  # a part that says joint and joints says it of the same set
        below = Entry(below.key, Mapping(below.node.place, {**entries[path[-1]].node.entries, **below.node.entries}))
    entries[path[-1]] = below
