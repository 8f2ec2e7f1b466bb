"""Which files a check is about: the operands of the command line turned into a list of specs.

Nothing is opened here; whether a file can be read is seen when it is.
"""

import os

LEFT_OUT_FOLDERS = frozenset(("catalogue", "templates"))
SHOP_STANDARD = "shop.yaml"
STANDARD_INPUT = "-"


class NotThere(Exception):
    """An operand that names nothing; the message is for a person."""


def gather(operands):
    """Return (paths of specs, number of YAML files left out), whatever the order of the operands.

    A file is taken as it is. In a folder, and in the folders below it, every ``*.yaml`` and ``*.yml`` is a
    spec, save hidden ones, shop standards, and what lies in a folder ``catalogue`` or ``templates``; a folder
    named on the command line is always looked into. Links to folders are not followed. Raises NotThere.
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
            raise NotThere(f"{operand}: there is no such file or folder")
    return sorted(found, key=lambda path: path.split(os.sep)), left_out


def _in_folder(top):
    specs, left_out = [], 0
    for folder, folders, files in os.walk(top):
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
