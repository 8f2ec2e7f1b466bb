"""Rule modules of a shop: from installed packages that announce them, and from folders named on the command line.

Nothing else is ever loaded as code, least of all from the folder of a spec. They go through the same door as the
shipped rules; their ids begin with the name they came under, so that no two can be mistaken for each other.
"""

import ast
import os
import sys
from contextlib import redirect_stdout
from pathlib import Path

from .rulebook import RULEBOOK, RulebookError, load_folder

GROUP = "buildlint.rules"


def spoken_aside():
    """``with`` this, what a rule of a shop prints goes to standard error and never in between the outputs."""
    return redirect_stdout(sys.stderr)


def installed():
    """[(prefix, folder)] of the packages that announce rules under the entry point group ``buildlint.rules``.

    Raises RulebookError for a package that cannot be found.
    """
    if not _announced():
        return []
    from importlib.metadata import entry_points
    from importlib.util import find_spec

    found = []
    for point in sorted(entry_points(group=GROUP), key=lambda point: point.name):
        package = point.dist.name if point.dist else point.value
        try:
            specification = find_spec(point.value)
        except (ImportError, ValueError) as error:
            raise RulebookError(f"package {package}: its rules {point.value} cannot be found: {error}") from error
        if specification is None or not specification.submodule_search_locations:
            raise RulebookError(f"package {package}: {point.value} is not a package of rule modules")
        found.append((point.name, specification.submodule_search_locations[0]))
    return found


def _announced():
    """Whether any installed distribution names the group at all; reading entry points in full takes far longer."""
    for folder in sys.path:
        try:
            names = os.listdir(folder or ".")
        except OSError:
            continue
        for name in names:
            if name.endswith((".dist-info", ".egg-info")):
                try:
                    with open(os.path.join(folder, name, "entry_points.txt"), "rb") as file:
                        if GROUP.encode() in file.read():
                            return True
                except OSError:
                    continue
    return False


def load(folder, prefix=None):
    """The rules of one folder of a shop; ``prefix`` is the folder's name where none is given.

    Modules stand in the folder itself (area "shop") or one folder down, which is then their area. Raises
    RulebookError naming the file for a folder that is missing, was written for another rule book, or holds an
    id without the prefix.
    """
    path = Path(folder)
    if not path.is_dir():
        raise RulebookError(f"{folder}: there is no such folder of rules")
    prefix = (prefix or path.resolve().name).replace("_", "-").lower()
    if not any(path.glob("*.py")) and not any(path.glob("*/*.py")):
        raise RulebookError(f"{folder}: there is no rule module in it; rules in Python are files that end in .py")
    _check_version(path)
    with spoken_aside():
        rules = load_folder(path, f"buildlint_outside.{prefix.replace('-', '_')}", flat="shop")
    if not rules:
        raise RulebookError(f"{folder}: no rule was found in its modules")
    for rule in rules:
        if not rule.id.startswith(prefix + "-"):
            raise RulebookError(f"{rule.file}: the id of rule {rule.id} must begin with {prefix}-, the name it comes under")
    return rules


def _check_version(path):
    """The folder says in its __init__.py for which rule book it was written: RULEBOOK = 1."""
    begin = path / "__init__.py"
    written_for = None
    try:
        for node in ast.parse(begin.read_text(encoding="utf-8")).body:
            if isinstance(node, ast.Assign) and any(getattr(target, "id", "") == "RULEBOOK" for target in node.targets):
                written_for = ast.literal_eval(node.value)
    except FileNotFoundError:
        pass
    except (OSError, SyntaxError, ValueError) as error:
        raise RulebookError(f"{begin}: cannot be read: {error}") from error
    if written_for != RULEBOOK:
        said = "does not say" if written_for is None else f"says {written_for!r}"
        raise RulebookError(f"{begin}: {said} for which rule book it was written; this one takes RULEBOOK = {RULEBOOK}")
