"""Which files a check is about: the operands of the command line turned into a list of specs.

Nothing is opened here; whether a file can be read is seen when it is.
"""

import os

from .render.text import line

LEFT_OUT_FOLDERS = frozenset(("catalogue", "templates"))
SHOP_STANDARD = "shop.yaml"
STANDARD_INPUT = "-"
NONE_FOUND = "no spec was found there; a spec is a file that ends in .yaml or .yml"


class NotThere(Exception):
    """An operand that names nothing; the message is for a person."""


def gather(operands):
    """Return (paths of specs, number of YAML files left out), whatever the order of the operands.

    A file is taken as it is. In a folder, and in the folders below it, every ``*.yaml`` and ``*.yml`` is a
    spec, save hidden ones, shop standards, and what lies in a folder ``catalogue`` or ``templates``; a folder
    named on the command line is always looked into. Links to folders are not followed. A file that is reached by
    several names is taken once; a folder that may not be looked into stands among the specs, so that whoever reads
    it says why it cannot be. Raises NotThere.
    """
    found, left_out = set(), 0
    for operand in operands:
        if operand == STANDARD_INPUT:
            found.add(operand)
        elif os.path.isdir(operand):
            specs, others = _in_folder(os.path.normpath(operand))
            found.update(specs)
            left_out += others
        elif os.path.lexists(operand):
            found.add(os.path.normpath(operand))
        else:
            raise NotThere(f"{line(operand)}: there is no such file or folder")
    return _once(sorted(found, key=lambda path: path.split(os.sep))), left_out


def _once(paths):
    """Each file once, under its first name that is no link, or its first name of all."""
    if len(paths) < 2:
        return paths
    folders, named = {}, {}
    for path in paths:
        folder, name = os.path.split(path)
        if folder not in folders:
            folders[folder] = os.path.realpath(folder)
        link = os.path.islink(path)
        real = os.path.realpath(path) if link else os.path.join(folders[folder], name)
        known = named.get(real)
        if path == STANDARD_INPUT or known is None or (known[1] and not link):
            named[path if path == STANDARD_INPUT else real] = path, link
    kept = {path for path, _ in named.values()}
    return [path for path in paths if path in kept]


def _in_folder(top):
    specs, left_out = [], 0
    for folder, folders, files in os.walk(top, onerror=lambda error: specs.append(os.path.normpath(error.filename))):
        folders[:] = sorted(name for name in folders if not name.startswith("."))
        below = os.path.relpath(folder, top).split(os.sep)
        for name in sorted(files):
            if name.startswith(".") or not name.endswith((".yaml", ".yml")):
                continue
            if name == SHOP_STANDARD or not LEFT_OUT_FOLDERS.isdisjoint(below):
                left_out += 1
            else:
                specs.append(os.path.normpath(os.path.join(folder, name)))
    return specs, left_out
