"""A sheet brought to its files, so that there is never half of one."""

import os

from ..deliver import Replacement


def sheet(build, folder, only=None, derivations=False):
    """Write the page and the PDF of a Build into a folder; ``only`` "html" or "pdf", ``derivations`` on paper too. Returns
    the paths written.

    Raises CannotWrite, and paper.NoPrinter before anything is written.
    """
    from . import html, paper

    text = html(build, derivations=derivations)
    name = os.path.join(folder, os.path.splitext(os.path.basename(build.path))[0] + "_build_sheet")
    outputs = {}
    if only != "pdf":
        outputs[name + ".html"] = text.encode("utf-8")
    if only != "html":
        outputs[name + ".pdf"] = paper.pdf(text, build.bench.system)
    for path, data in outputs.items():
        put(path, data)
    return list(outputs)


def put(path, data):
    """Write bytes to a file in one piece. Raises CannotWrite."""
    new = Replacement(path)
    new.write_bytes(data)
    new.settled()
