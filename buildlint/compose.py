"""From the tree of a spec to the tree that is judged: its templates below it, the values of its parts filled in.

``based_on`` names a template by a path inside the shop's folder. Mappings merge deeply, lists replace, null
removes (RFC 7386); every node keeps the place where it was written, and every entry that came from elsewhere
knows the place that chose it. The parts are the work of ``parts``, the reading of files that of ``shelf``.
"""

import os
import re

from buildlint.decode import Unreadable, shown
from buildlint.model import Entry, Mapping, Problem, Scalar, Sequence
from buildlint.parts import stamped, take_parts
from buildlint.shelf import SUFFIXES, content, inside, label_of, read_file, root_of

__all__ = ["compose", "content", "merge", "project_root"]

CHAIN = 16  # templates on templates

_FOUND = "template-is-found"
_INSIDE = "template-stays-inside-the-shop"
_CHAIN = "templates-form-a-chain"
_FIX_PATH = "Write the path as seen from this file, with forward slashes, such as ../templates/street.yaml."
# what a path inside the shop never holds; the first that fits is named
_ESCAPES = (
    (r"[\x00-\x1f\x7f-\x9f\ud800-\udfff]", "holds a control character"),
    (r"\\", "holds a backslash"),
    (r"\A/", "begins at the top of the disk"),
    (r"\A~", "begins at somebody's home folder"),
    (r"\A[A-Za-z]:", "begins with a drive letter"),
    (r"\A[A-Za-z][A-Za-z0-9+.-]*:", "is an address, not a file of the shop"),
    (r"%[0-9a-fA-F]{2}", "is written with percent signs"),
)


def project_root(path):
    """The folder of the shop that a spec belongs to, as a Path without links.

    The nearest folder upward that holds ``shop.yaml`` or ``.git``; where there is none, the spec's own folder.
    """
    from pathlib import Path

    return Path(root_of(_folder(os.path.realpath(path)))[0])


def _folder(real):
    return real if os.path.isdir(real) else os.path.dirname(real)


def compose(path, tree, *, known=None):
    """The tree of a spec with its templates and catalogue parts: (Mapping, list of Problem, inputs).

    ``path`` is where the spec was read, ``tree`` what ``load`` gave. ``inputs`` is a list of (path, bytes) of
    everything else that was looked at, as ``content`` gives it. ``known`` is a dict that a run over many specs
    may pass to every call, so that templates and catalogue are looked at once; without it a file is read again
    when it has changed. A problem leaves out what it is about and nothing else.
    """
    real = os.path.realpath(path)
    label = tree.place.file
    work = _Composing(real, known)
    base = tree.entries.get("based_on")
    patched = set()
    if base is not None:
        tree, patched = work.with_template(tree, real, label, [(real, label, base.node.place)])
    root_label = os.path.relpath(work.root, os.path.dirname(real))
    root_label = os.path.normpath(os.path.join(os.path.dirname(label), root_label))
    tree, problems, inputs, removing = take_parts(tree, work.root, root_label, known)
    removing |= patched
    if removing:
        tree = _without(tree, removing)
    return tree, work.problems + problems, work.inputs + inputs


class _Composing:
    """One spec on its templates. A class only because its parts share problems and inputs."""

    def __init__(self, spec, known):
        self.root, self.marked = root_of(_folder(spec))
        self.known = known
        self.problems = []
        self.inputs = []

    def with_template(self, tree, real, label, chain):
        """(a tree merged onto the template that it names, ids of the nulls in it that remove).

        ``chain`` holds (real path, label, place of based_on) of every file from the spec to this one.
        """
        entry = tree.entries["based_on"]
        tree = Mapping(tree.place, {name: other for name, other in tree.entries.items() if name != "based_on"})
        file = self._template(entry.node, real, label, chain)
        if file is None:
            return tree, set()
        below, removing = file.tree, set()
        base = below.entries.get("based_on")
        if base is not None:
            link = (file.path, file.label, base.node.place)
            below, removing = self.with_template(below, file.path, file.label, [*chain, link])
        return merge(below, tree, entry.node.place, removing), removing

    def _template(self, named, real, label, chain):
        """The File of a template, or None with a problem."""
        target = self._target(named, real)
        if target is None:
            return None
        name = label_of(target, real, label)
        for index, (earlier, _, _) in enumerate(chain):
            if earlier == target:
                circle = [link[1] for link in chain[index:]] + [name]
                self._refuse(
                    _CHAIN,
                    f"These templates rest on each other in a circle: {' -> '.join(circle)}.",
                    named,
                    "Take one `based_on` out.",
                    chain[index:-1],
                )
                return None
        if len(chain) > CHAIN:
            self._refuse(
                _CHAIN,
                f"More than {CHAIN} templates rest on each other.",
                named,
                "Merge some of them.",
                chain[:-1],
            )
            return None
        try:
            file = read_file(target, name, self.known)
        except Unreadable as reason:
            self.inputs.append((target, b""))
            self._refuse(
                _FOUND,
                f"The template `{shown(named.text)}` is not read. {reason}",
                named,
                self._alike(target, named.text),
                chain[:-1],
            )
            return None
        self.inputs.append((target, file.data))
        chosen = ("the template is chosen here", named.place)
        self.problems += [problem._replace(related=(*problem.related, chosen)) for problem in file.problems]
        if file.tree is None:
            self._refuse(
                _FOUND,
                f"The template `{shown(named.text)}` cannot be used; the spec is read without it.",
                named,
                f"Correct {name} first.",
                chain[:-1],
            )
            return None
        return file

    def _target(self, named, real):
        """The real path of a template, or None with a problem. Nothing is read before the path is known to be good."""
        text = named.text if isinstance(named, Scalar) else ""
        if not text or named.value is None:
            what = {Scalar: "nothing", Sequence: "a list"}.get(type(named), "a mapping")
            self._refuse(_FOUND, f"`based_on` names one template, and {what} is written here.", named, _FIX_PATH)
            return None
        for escape, reason in _ESCAPES:
            if re.search(escape, text):
                self._refuse(_INSIDE, f"The path of the template {reason}; it is not read.", named, _FIX_PATH)
                return None
        plain = os.path.normpath(os.path.join(os.path.dirname(real), text))
        target = os.path.realpath(plain)
        if not inside(plain, self.root) or not inside(target, self.root):
            fix = "Keep templates inside the shop's folder."
            if not self.marked:
                fix = (
                    "Put a shop.yaml at the top of the shop's folder: templates are then found everywhere below it. "
                    "Without it only the spec's own folder is read."
                )
            self._refuse(
                _INSIDE,
                "The path of the template leads out of the shop's folder; it is not read.",
                named,
                fix,
            )
            return None
        if not text.lower().endswith(SUFFIXES):
            self._refuse(
                _FOUND,
                f"`{shown(text)}` is not the name of a YAML file.",
                named,
                "A template is a file whose name ends in .yaml.",
            )
            return None
        return target

    def _alike(self, target, text):
        import difflib

        folder = os.path.dirname(target)
        try:
            names = [name for name in os.listdir(folder) if name.lower().endswith(SUFFIXES)]
        except OSError:
            names = []
        near = difflib.get_close_matches(os.path.basename(target), names, 1, 0.7)
        if near and near[0] != os.path.basename(target):
            return f"Did you mean `{os.path.join(os.path.dirname(text), near[0])}`?"
        return _FIX_PATH

    def _refuse(self, check, message, named, fix, chain=()):
        related = tuple(("chosen here", place) for _, _, place in chain)
        self.problems.append(Problem(check, message, named.place, fix, "error", "/based_on", related))


def laid_over(spec, over):
    """The spec with other values in the place of its own: a new Mapping; a null takes out what the spec writes, so that
    its template or a part may fill the place."""
    removing = set()
    merged = merge(spec, over, None, removing)
    return _without(merged, removing) if removing else merged


def merge(template, spec, chosen, removing):
    """The spec written over the template (RFC 7386, but that what was measured keeps the plan): a new Mapping; ``chosen`` is the place that chose the template.

    Keys come in the template's order, then the spec's new ones. A null of the spec that removes stays in the tree
    for the moment, so that no catalogue part fills its place; its id is added to ``removing``. A null that has nothing
    to remove stays for good, and is told: it is a slip of the pen.
    """
    entries = {}
    for name, below in template.entries.items():
        above = spec.entries.get(name)
        if above is None:
            entries[name] = stamped(below, chosen)
        else:
            entries[name] = _over(below, above, chosen, removing)
    for name, above in spec.entries.items():
        if name not in entries:
            entries[name] = _over(None, above, chosen, removing)
    return Mapping(spec.place, entries)


def _over(below, above, chosen, removing):
    node = above.node
    if isinstance(node, Mapping):
        if below is None:
            beneath = Mapping(node.place, {})
        elif isinstance(below.node, Mapping):
            beneath = below.node
        elif _only_measured(node) and isinstance(below.node, Scalar) and below.node.value is not None:
            # a measurement does not replace the template's plan, it is held against it
            beneath = Mapping(node.place, {"plan": Entry(below.key, below.node, chosen)})
        else:
            beneath = Mapping(node.place, {})
        return above._replace(node=merge(beneath, node, chosen, removing))
    removes = below is not None and id(below.node) not in removing  # what a template has taken away is not there any more
    if removes and isinstance(node, Scalar) and node.value is None:
        removing.add(id(node))
    return above


def _only_measured(node):
    return "measured" in node.entries and "plan" not in node.entries


def _without(mapping, removing):
    """A mapping without the entries whose node has done its work of removing."""
    entries = {}
    changed = False
    for name, entry in mapping.entries.items():
        node = entry.node
        if id(node) in removing:
            changed = True
            continue
        if isinstance(node, Mapping):
            below = _without(node, removing)
            if below is not node:
                changed = True
                entry = entry._replace(node=below)
        entries[name] = entry
    return Mapping(mapping.place, entries) if changed else mapping
