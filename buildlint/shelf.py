"""The files that a spec refers to: where the shop begins, what stays inside it, and each file read once.

A file is named in findings as seen from the spec: its label is built on the label of the spec. What is in the
files is the business of ``load`` and ``compose``.
"""

import os
import stat

from buildlint.load import Unreadable, load, read_bytes

MARKS = ("shop.yaml", ".git")
SUFFIXES = (".yaml", ".yml")

_FILES = {}  # (real path, label, numbers as keys) -> (signature, File); nodes are never changed, so trees can be shared


class File:
    """A file as read: ``path``, ``data`` (bytes), ``tree`` (None where it could not be read) and ``problems``."""

    __slots__ = ("path", "label", "data", "tree", "problems")

    def __init__(self, path, label, data, tree, problems):
        self.path = path
        self.label = label
        self.data = data
        self.tree = tree
        self.problems = problems


def root_of(folder):
    """(the nearest folder upward that holds shop.yaml or .git, True), or (the folder itself, False)."""
    here = folder
    while True:
        if any(os.path.lexists(os.path.join(here, mark)) for mark in MARKS):
            return here, True
        above = os.path.dirname(here)
        if above == here:
            return folder, False
        here = above


def inside(path, root):
    """Whether a path without links and dots lies in a folder, or is it."""
    return path == root or path.startswith(root.rstrip(os.sep) + os.sep)


def label_of(path, beside_path, beside_label):
    """What to call a file in a message: seen from the file beside it, whose label is known."""
    relative = os.path.relpath(path, os.path.dirname(beside_path))
    return os.path.normpath(os.path.join(os.path.dirname(beside_label), relative)).replace(os.sep, "/")


def read_file(path, label, known, numbers_as_keys=False):
    """The File at a real path; raises Unreadable. Read once per run (``known``), and again only when it has changed."""
    key = (path, label, numbers_as_keys)
    if known is not None and key in known:
        return known[key]
    signature = _signature(path)
    if key in _FILES and _FILES[key][0] == signature:
        file = _FILES[key][1]
    else:
        data = read_bytes(path)
        file = File(path, label, data, *load(data, label, numbers_as_keys=numbers_as_keys))
        if len(_FILES) > 10_000:
            _FILES.clear()
        _FILES[key] = (signature, file)
    if known is not None:
        known[key] = file
    return file


def _signature(path):
    try:
        status = os.stat(path)
    except (OSError, ValueError):
        return None
    return status.st_mtime_ns, status.st_size, status.st_ino, status.st_dev


def yaml_files(folder):
    """The YAML files in a folder and below it, in the order of their paths; links to folders are not followed."""
    found = []
    for here, folders, names in os.walk(folder):
        folders.sort()
        found += [os.path.join(here, name) for name in names if name.lower().endswith(SUFFIXES)]
    return sorted(found)


def content(path):
    """What an input of a check holds now: the bytes of a file, the listing of a folder, nothing where nothing is.

    ``compose`` reports its inputs in the same form, so that a cache can see whether any of them has changed.
    """
    try:
        if stat.S_ISDIR(os.stat(path).st_mode):
            return listing(path, yaml_files(path))
        return read_bytes(path)
    except (OSError, ValueError, Unreadable):
        return b""


def listing(folder, paths):
    """The names in a folder as bytes."""
    return b"\0".join(os.fsencode(os.path.relpath(path, folder)) for path in paths)
