"""From findings to a changed text: each edit at its place, and the proof that nothing else has changed.

Where an edit is known, it hangs on the finding. Only the spec itself is ever changed, never a template or the catalogue
behind it.
"""

import re
from typing import NamedTuple

from . import road
from .decode import BREAK
from .load import Unreadable, load, read_bytes
from .model import DECISION, FAIL, NOTATION, Mapping, Scalar, Sequence
from .trees import behind_aliases, steps_of

PASSES = 10  # a value that is put right may show the next one
BOM = b"\xef\xbb\xbf"


class Refused(Exception):
    """The text cannot be changed safely; the message says why."""


class Elsewhere(Exception):
    """One edit cannot be made in this text; the message says where the value comes from or what is in the way."""


class Fixed(NamedTuple):
    """What came of a spec: its bytes ``before`` and ``after``, the findings whose edit was ``made``, those that are
    ``offered`` (decisions nobody asked for), those that are ``elsewhere`` with the reason, and the findings that ``came``
    with the changes."""

    before: bytes
    after: bytes
    made: tuple
    offered: tuple
    elsewhere: tuple
    came: tuple


def fixed(path, decided=(), name=None):
    """Make every edit of notation, and the decisions of the rules named in ``decided``, in the text of a spec.

    Returns a Fixed. Raises Refused where the file is not UTF-8 or cannot be read to its end, or where the changed text
    would say anything but what was meant; road.CannotStart as a check does.
    """
    name = str(name or path)
    before = road.bytes_of(path, name)
    text = _text_of(before, name)
    tree, problems = load(text, name)
    if tree is None:
        first = problems[0]
        raise Refused(f"{road.shown_path(name)}:{first.place.line}:{first.place.column}: {first.message} {first.fix} "
                      "Nothing else can be changed before that.")
    first = report = _checked(path, name, text)
    made, seen = [], {text}
    for _ in range(PASSES):
        wanted = [finding for finding in _with_edits(report) if finding.edit.sort == NOTATION or finding.rule in decided]
        text, done, elsewhere = edited(text, wanted, name)
        if not done:
            break
        if text in seen:
            raise Refused(f"{road.shown_path(name)}: the changes undo each other; nothing is changed")
        seen.add(text)
        made += done
        report = _checked(path, name, text)
    offered = [finding for finding in _with_edits(report) if finding.edit.sort == DECISION and finding.rule not in decided]
    known = {(finding.rule, finding.scope, finding.pointer) for finding in first.findings if finding.kind == FAIL}
    came = [finding for finding in report.findings
            if finding.kind == FAIL and (finding.rule, finding.scope, finding.pointer) not in known]
    after = (BOM if before.startswith(BOM) else b"") + text.encode("utf-8")
    return Fixed(before, after if made else before, tuple(made), tuple(offered), tuple(elsewhere), tuple(came))


def write(path, fixed):
    """Put the changed text in the place of the old one. Raises Refused where the file is no longer what was changed,
    deliver.CannotWrite where it cannot be written; it is then as it was."""
    from .deliver import Replacement

    new = Replacement(path)
    new.write_bytes(fixed.after)
    try:
        unchanged = read_bytes(path) == fixed.before
    except Unreadable:
        unchanged = False
    if not unchanged:
        new.abandoned()
        raise Refused(f"{road.shown_path(path)}: it was changed meanwhile; nothing is written")
    new.settled()


def _checked(path, name, text):
    return road.check(path, name, text=text.encode("utf-8"), detail=False, advice=False)


def _with_edits(report):
    return [finding for finding in report.findings if finding.edit is not None and not finding.permit]


def _text_of(data, name):
    try:
        return data.removeprefix(BOM).decode("utf-8")
    except UnicodeDecodeError:
        _, problems = load(data, name)
        why = f"{problems[0].message} {problems[0].fix}" if problems else "It is not UTF-8. Save the file as UTF-8."
        raise Refused(f"{road.shown_path(name)}: {why}") from None


# -- a text and its edits ---------------------------------------------------------------------------------


def edited(text, findings, file):
    """(the text with the edits of these findings, those whose edit was made, (finding, why) of those that cannot be).

    Of edits that touch each other only the first is made; the others may be asked for again. Raises Refused where
    the new text does not read as the old one with the edits in it.
    """
    tree, _ = load(text, file)
    if tree is None:
        return text, [], []
    written = _Written(text, tree, file)
    spans, elsewhere = [], []
    for finding in findings:
        try:
            spans.append((*written.span(finding.edit), finding))
        except Elsewhere as reason:
            elsewhere.append((finding, str(reason)))
    spans.sort(key=lambda span: span[:2])
    wanted, made, pieces, end = _plainly(tree), [], [], 0
    for start, stop, new, finding in spans:
        if made and start <= end:
            continue
        pieces += (text[end:start], new)
        end = stop
        made.append(finding)
        wanted = _with(wanted, steps_of(finding.edit.pointer), finding.edit)
    changed = "".join((*pieces, text[end:]))
    again, _ = load(changed, file)
    if again is None or _plainly(again) != wanted:
        raise Refused(f"{road.shown_path(file)}: the changed text would not say what was meant; nothing is changed")
    return changed, made, elsewhere


class _Written:
    """A text and its tree, in which edits find their span."""

    def __init__(self, text, tree, file):
        self.text, self.tree, self.file = text, tree, file
        self.line_starts = [0, *(found.end() for found in re.finditer(BREAK, text))]
        self.aliased = behind_aliases(tree)

    def offset(self, position):
        line, column = position
        return self.line_starts[line - 1] + column - 1

    def span(self, edit):
        """(start, end, text to put there) of one edit. Raises Elsewhere where it cannot be made in this text."""
        if edit.place is not None and edit.place.file != self.file:
            raise Elsewhere(f"it is written in {edit.place.file}, line {edit.place.line}, which others may lean on too")
        above, entry, node, steps = self._deepest(steps_of(edit.pointer))
        if id(node) in self.aliased:
            raise Elsewhere("it stands behind an alias, which is written in more than one place")
        if steps:
            return self._added(edit, steps, node)
        if edit.at_key:
            if edit.new in above.entries:
                raise Elsewhere(f"{edit.new} is written there already")
            return self.offset(entry.key.place[1:3]), self.offset(entry.key.place[3:]), edit.new
        if not isinstance(node, Scalar) or node.place.line != node.place.end_line:
            raise Elsewhere("the value is more than one word or number on one line")
        start, end = self.offset(node.place[1:3]), self.offset(node.place[3:])
        return start, end, f" {edit.new}" if start == end else _as_quoted(self.text[start:start + 1], edit.new)

    def _deepest(self, steps):
        """(mapping above, its entry, node, steps left) of the deepest node on the way that stands there, or is aliased."""
        above, entry, node = None, None, self.tree
        while steps and id(node) not in self.aliased:
            if isinstance(node, Mapping) and steps[0] in node.entries:
                above, entry = node, node.entries[steps[0]]
                node = entry.node
            elif isinstance(node, Sequence) and steps[0].isdigit() and int(steps[0]) < len(node.items):
                node = node.items[int(steps[0])]
            else:
                break
            steps = steps[1:]
        return above, entry, node, steps

    def _added(self, edit, steps, mapping):
        """The span of a key that is not there yet: behind the last one of the heading it belongs under."""
        if not isinstance(mapping, Mapping) or mapping is self.tree or not mapping.entries:
            raise Elsewhere(f"the heading it belongs under is not in this file: {edit.pointer[1:].replace('/', '.')}")
        text, new = self.text, edit.new
        for step in reversed(steps[1:]):
            new = f"{{{step}: {new}}}"
        new = f"{steps[0]}: {new}"
        end = self.offset(list(mapping.entries.values())[-1].node.place[3:])
        if text[self.offset(mapping.place[1:3])] == "{":
            return end, end, f"{' ' if text[end - 1] == ':' else ''}, {new}"  # `a:,` is no value without its space
        next_line = next((start for start in self.line_starts if start > end), len(text))
        stop = len(text[:next_line].rstrip("\r\n"))
        ending = text[stop:next_line] or ("\r\n" if "\r\n" in text else "\n")
        column = next(iter(mapping.entries.values())).key.place.column
        return stop, stop, f"{ending}{' ' * (column - 1)}{new}"


def _as_quoted(quote, new):
    """The new value in the quotes of the old one; a list is written without."""
    if quote not in ("'", '"') or new.startswith("["):
        return new
    return quote + new.replace(quote, quote * 2 if quote == "'" else '\\"') + quote


# -- what a text says -------------------------------------------------------------------------------------


def _plainly(node):
    """A tree as plain dicts, lists and texts, to be compared."""
    if isinstance(node, Mapping):
        return {name: _plainly(entry.node) for name, entry in node.entries.items()}
    if isinstance(node, Sequence):
        return [_plainly(item) for item in node.items]
    return node.text


def _with(data, steps, edit):
    """The plain data as one edit would have it; what was there is left as it was."""
    if not steps:
        said, _ = load(f"value: {edit.new}", "edit")
        return _plainly(said.entries["value"].node) if said is not None else said
    step, rest = steps[0], steps[1:]
    if isinstance(data, list):
        return [_with(item, rest, edit) if number == int(step) else item for number, item in enumerate(data)]
    if edit.at_key and not rest:
        return {edit.new if name == step else name: value for name, value in data.items()}
    return {**data, step: _with(data.get(step, {}), rest, edit)}
