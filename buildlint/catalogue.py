"""The catalogue of the shop: files that map part numbers to what is known of each part.

Here they are read and looked over; how a spec takes the values of its parts stands in ``parts``.
"""

import os

from buildlint.decode import Unreadable, shown
from buildlint.model import Mapping, Place, Problem, Scalar, Sequence
from buildlint.shelf import inside, listing, read_file, yaml_files

FOLDER = "catalogue"
ABOUT = ("description", "notes")  # of the entry itself, not of the build
SOUND = "catalogue-is-sound"


class Catalogue:
    """Every part of the shop: ``parts`` by number as Entry, the ``problems`` found in it, the ``inputs`` read, and the
    ``files`` that hold the parts."""

    __slots__ = ("parts", "problems", "inputs", "files")

    def __init__(self):
        self.parts = {}
        self.problems = []
        self.inputs = []
        self.files = []


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
    catalogue.problems.append(Problem(SOUND, message, place, fix))


def _relative(text):
    return not (text.startswith(("/", "~")) or "\\" in text or ":" in text or "\0" in text)


def _read_parts(path, root, root_label, known, catalogue):
    label = _label(root_label, root, path)
    real = os.path.realpath(path)
    start = Place(label, 1, 1, 1, 1)
    if not inside(real, root):
        catalogue.problems.append(
            Problem(
                SOUND,
                "This catalogue file is a link out of the shop's folder; it is not read.",
                start,
                "Put the file itself here.",
            )
        )
        return
    try:
        file = read_file(real, label, known, numbers_as_keys=True)
    except Unreadable as reason:
        catalogue.inputs.append((path, b""))
        catalogue.problems.append(Problem(SOUND, f"This catalogue file is not read. {reason}", start))
        return
    catalogue.inputs.append((path, file.data))
    catalogue.problems += file.problems
    if file.tree is None:
        return
    catalogue.files.append(file)
    for number, entry in file.tree.entries.items():
        if not isinstance(entry.node, Mapping):
            catalogue.problems.append(
                Problem(
                    SOUND,
                    f"Nothing is written about the part `{shown(number)}` that a build could take.",
                    entry.key.place,
                    "Write its values below it under the heading of the part, such as `spring: "
                    "{installed_height: 1.800 in}`.",
                )
            )
            continue
        for heading, below in entry.node.entries.items():
            if heading not in ABOUT and not isinstance(below.node, Mapping):
                catalogue.problems.append(
                    Problem(
                        SOUND,
                        f"`{shown(heading)}` stands in the part `{shown(number)}` without a heading; it is not "
                        "taken into any build.",
                        below.key.place,
                        f"Write it under the heading of the part, such as `spring: {{{shown(heading)}: ...}}`.",
                    )
                )
        if number in catalogue.parts:
            first = catalogue.parts[number].key.place
            catalogue.problems.append(
                Problem(
                    SOUND,
                    f"The part `{shown(number)}` stands twice in the catalogue, first in {first.file} line "
                    f"{first.line}; that entry is taken.",
                    entry.key.place,
                    "Delete one of the two, or correct its part number.",
                    related=(("written first here", first),),
                )
            )
        else:
            catalogue.parts[number] = entry
