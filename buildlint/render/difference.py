"""What a mended spec changes: a unified diff that other programs can apply, and a line for a person on every edit."""

import difflib
import io

from ..trees import steps_of
from ..model import LEVELS
from ..shape_wording import called
from .text import line, place, visible


def diff(fixed, name):
    """Return the change of a text as a unified diff, with nothing in it that moves a cursor."""
    old, new = (io.StringIO(text.decode("utf-8-sig"), newline="").readlines() for text in (fixed.before, fixed.after))
    pieces = []
    for piece in difflib.unified_diff(old, new, line(name), line(name)):
        body = piece.rstrip("\r\n")
        ending = piece[len(body):]
        pieces.append("".join(map(_shown, body)) + (ending or "\n\\ No newline at end of file\n"))
    return "".join(pieces)


def _shown(character):
    return character if character == "\t" else visible(character)


def told(fixed):
    """Return a line for every change that is made, offered, or to be made elsewhere, and for what comes with them."""
    lines = [f"{place(finding.place)}: {_change(finding.edit)}  ({finding.rule})" for finding in fixed.made]
    for finding, why in fixed.elsewhere:
        lines.append(f"not changed here: {_change(finding.edit)}  ({finding.rule}): {line(why)}")
    for finding in fixed.offered:
        lines.append(f"{place(finding.place)}: to be decided: {_change(finding.edit)}  (--decide {finding.rule})")
    for finding in sorted(fixed.came, key=lambda finding: LEVELS.index(finding.level)):
        lines.append(f"now told: {finding.level}: {line(finding.message)}  ({finding.rule})")
    return lines


def _change(edit):
    path = tuple(int(step) if step.isdigit() else step for step in steps_of(edit.pointer))
    if edit.at_key:
        return f"the key {line(called(path))} becomes `{line(edit.new)}`"
    return f"{line(called(path))} becomes `{line(edit.new)}`"
