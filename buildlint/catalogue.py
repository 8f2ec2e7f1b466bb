"""The parts of the shop: ``spring: {part: sp-312}`` takes what the catalogue says about sp-312.

A catalogue file is a mapping from part numbers to entries, an entry a mapping of headings. What is written in
the spec or its templates always wins; of two parts that fill one key, the first one in the document.
"""

import os
import unicodedata

from buildlint.decode import Unreadable, shown
from buildlint.model import Entry, Mapping, Place, Problem, Scalar, Sequence
from buildlint.shelf import inside, listing, read_file, yaml_files

FOLDER = "catalogue"
# a heading whose children are many of one kind, and the heading of one of them in a catalogue entry
ONE_OF = {"joints": "joint", "springs": "spring", "rings": "ring", "bearings": "bearing"}
# may be written for the whole engine or for one side
TWINS = {"lifters": "lifter", "pushrods": "pushrod", "rockers": "rocker"}
TWINS |= {one: many for many, one in TWINS.items()}
SIDES = ("intake", "exhaust")
OF_A_SIDE = frozenset(
    "valve guide seat spring springs retainer locks seal lifter pushrod rocker lobe port pocket".split()
)
ABOUT = ("description", "notes")  # of the entry itself, not of the build
NO_PARTS_IN = ("order", "permits")
MOST_PARTS = 500  # in one spec, those that a part brings along included
ROUNDS = 16  # a part may bring along a part, which may bring along a part

_SOUND = "catalogue-is-sound"
_FOUND = "part-is-in-the-catalogue"


class Catalogue:
    """Every part of the shop: ``parts`` by number as Entry, the ``problems`` found in it, and the ``inputs`` read."""

    __slots__ = ("parts", "problems", "inputs")

    def __init__(self):
        self.parts = {}
        self.problems = []
        self.inputs = []


def read_catalogue(root, root_label, known):
    """The Catalogue of a shop; its folders are ``catalogue`` at the root and those that shop.yaml names."""
    key = ("catalogue", root, root_label)
    if known is not None and key in known:
        return known[key]
    catalogue = Catalogue()
    for folder in _folders(root, root_label, known, catalogue):
        paths = yaml_files(folder)
        catalogue.inputs.append((folder, listing(folder, paths)))
        for path in paths:
            _read_parts(path, root, root_label, known, catalogue)
    if known is not None:
        known[key] = catalogue
    return catalogue


def _label(root_label, root, path):
    return os.path.normpath(os.path.join(root_label, os.path.relpath(path, root))).replace(os.sep, "/")


def _folders(root, root_label, known, catalogue):
    """The folders of the catalogue that exist, without links, each once."""
    folders = []
    own = os.path.join(root, FOLDER)
    if os.path.isdir(own):
        start = Place(_label(root_label, root, own), 1, 1, 1, 1)
        _add_folder(FOLDER, start, root, catalogue, folders)
    else:
        catalogue.inputs.append((own, b""))
    shop = os.path.join(root, "shop.yaml")
    try:
        if not inside(os.path.realpath(shop), root):
            raise Unreadable("It is a link out of the shop's folder.")
        file = read_file(shop, _label(root_label, root, shop), known)
    except Unreadable:
        # whatever is wrong with the shop standard is told by those who read the rest of it
        catalogue.inputs.append((shop, b""))
        return folders
    catalogue.inputs.append((shop, file.data))
    named = file.tree.get("catalogue") if file.tree else None
    for item in named.items if isinstance(named, Sequence) else ():
        if isinstance(item, Scalar) and item.text:
            _add_folder(item.text, item.place, root, catalogue, folders)
    return folders


def _add_folder(text, place, root, catalogue, folders):
    folder = os.path.realpath(os.path.join(root, text)) if _relative(text) else ""
    if not inside(folder, root):
        message = f"The catalogue folder `{shown(text)}` is not a path inside the shop's folder; it is not read."
        fix = "Write it as seen from shop.yaml, with forward slashes, and keep it inside the shop's folder."
    elif not os.path.isdir(folder):
        catalogue.inputs.append((folder, b""))
        message = f"There is no catalogue folder `{shown(text)}`."
        fix = "Correct the name; it is read as seen from shop.yaml."
    else:
        if folder not in folders:
            folders.append(folder)
        return
    catalogue.problems.append(Problem(_SOUND, message, place, fix))


def _relative(text):
    return not (text.startswith(("/", "~")) or "\\" in text or ":" in text or "\0" in text)


def _read_parts(path, root, root_label, known, catalogue):
    label = _label(root_label, root, path)
    real = os.path.realpath(path)
    start = Place(label, 1, 1, 1, 1)
    if not inside(real, root):
        catalogue.problems.append(
            Problem(_SOUND, "This catalogue file is a link out of the shop's folder; it is not read.", start, "Put the file itself here.")
        )
        return
    try:
        file = read_file(real, label, known, numbers_as_keys=True)
    except Unreadable as reason:
        catalogue.inputs.append((path, b""))
        catalogue.problems.append(Problem(_SOUND, f"This catalogue file is not read. {reason}", start))
        return
    catalogue.inputs.append((path, file.data))
    catalogue.problems += file.problems
    if file.tree is None:
        return
    for number, entry in file.tree.entries.items():
        if not isinstance(entry.node, Mapping):
            catalogue.problems.append(
                Problem(
                    _SOUND,
                    f"Nothing is written about the part `{shown(number)}` that a build could take.",
                    entry.key.place,
                    "Write its values below it under the heading of the part, such as `spring: {installed_height: 1.800 in}`.",
                )
            )
            continue
        for heading, below in entry.node.entries.items():
            if heading not in ABOUT and not isinstance(below.node, Mapping):
                catalogue.problems.append(
                    Problem(
                        _SOUND,
                        f"`{shown(heading)}` stands in the part `{shown(number)}` without a heading; it is not taken into any build.",
                        below.key.place,
                        f"Write it under the heading of the part, such as `spring: {{{shown(heading)}: ...}}`.",
                    )
                )
        if number in catalogue.parts:
            first = catalogue.parts[number].key.place
            catalogue.problems.append(
                Problem(
                    _SOUND,
                    f"The part `{shown(number)}` stands twice in the catalogue, first in {first.file} line {first.line}; that entry is taken.",
                    entry.key.place,
                    "Delete one of the two, or correct its part number.",
                    related=(("written first here", first),),
                )
            )
        else:
            catalogue.parts[number] = entry


# Taking parts into a spec


def take_parts(tree, root, root_label, known):
    """A tree with the values of its catalogue parts: (Mapping, list of Problem, list of inputs, nulls that did their work)."""
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
        elif name == "part" and path and path not in done and isinstance(node, Scalar) and node.text and node.value is not None:
            found.insert(0, (path, node))
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
        self.full = False

    def stop(self, number, message):
        self.full = True
        self.problems.append(
            Problem(_SOUND, f"{message}; the rest is left out.", number.place, "Let a part bring along only parts that it holds itself.")
        )

    def take(self, tree, path, number):
        """The tree with what the catalogue says about one part."""
        name = unicodedata.normalize("NFC", number.text)
        part = self.catalogue.parts.get(name)
        if part is None:
            self._not_found(name, number, _pointer((*path, "part")))
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
                    f"In the catalogue the part `{shown(name)}` is not described as `{heading_of(path)}`, but as {said}; nothing is taken from it.",
                    number.place,
                    f"Choose another part, or write the heading `{heading_of(path)}:` in its catalogue entry.",
                    "warning",
                    _pointer((*path, "part")),
                    (("the catalogue entry", part.key.place),),
                )
            )
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
                entries[name] = Entry(key, stamped(addition.node, chosen), chosen)
        elif isinstance(entry.node, Mapping):
            entries[name] = entry._replace(node=self._fill_at(entry.node, steps[1:], (*path, name), addition, chosen))
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
                entries[name] = Entry(new.key, stamped(new.node, chosen), chosen)
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
                f"Two parts give different values for `{'.'.join(path)}`: {_shown(old.node)} is taken, {_shown(new.node)} is not.",
                old.key.place,
                "Write the value that holds in the spec itself.",
                "note",
                _pointer(path),
                (("the value that is taken was chosen here", old.chosen), ("the other value", new.key.place), ("and chosen here", chosen)),
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


def stamped(node, chosen):
    """A copy of a node in which every entry carries the place that chose it; earlier choices stay."""
    return _stamp(node, chosen, {})


def _stamp(node, chosen, done):
    if isinstance(node, Scalar):
        return node
    copy = done.get(id(node))
    if copy is None:
        if isinstance(node, Mapping):
            copy = Mapping(
                node.place,
                {
                    name: Entry(entry.key, _stamp(entry.node, chosen, done), entry.chosen or chosen)
                    for name, entry in node.entries.items()
                },
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


def _pointer(path):
    return "".join("/" + step.replace("~", "~0").replace("/", "~1") for step in path)


def _shown(node):
    if isinstance(node, Scalar):
        return f"`{shown(node.text)}`"
    return "a list" if isinstance(node, Sequence) else "a mapping"
