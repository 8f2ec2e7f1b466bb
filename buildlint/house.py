"""Where the data of the house stands: the folders of schemas and rules.

In an installed package they lie inside it, in the source tree beside it; nobody else needs to know.
"""

import os

_HERE = os.path.dirname(os.path.abspath(__file__))


def folder(name):
    """The path of the data folder ``name`` ("schemas" or "rules") as text; raises FileNotFoundError."""
    for parent in (_HERE, os.path.dirname(_HERE)):
        path = os.path.join(parent, name)
        if os.path.isdir(path):
            return path
    raise FileNotFoundError(f"buildlint is not installed whole: its folder {name!r} is missing")
