"""From the bytes of one YAML file to a tree of nodes, each with its place and its raw text.

``decode`` turns bytes into characters, a parser of PyYAML turns them into events, ``nodes`` turns those into the
tree, ``syntax`` words what went wrong; here they are put together. Templates and catalogue parts are the work of
``compose``.
"""

import functools
import re

from buildlint.decode import LIMIT, Unreadable, decode, has_unusual_letters, inspect_text, place_at, read_bytes, shown
from buildlint.model import Problem
from buildlint.nodes import DEPTH, Reader, Stop, meaning
from buildlint.syntax import syntax_problem, tab_in_indentation, tab_problem
from buildlint.trees import scalars, walk

__all__ = ["DEPTH", "LIMIT", "Unreadable", "load", "meaning", "read_bytes", "scalars"]

MOST_REMARKS = 20  # notes about number signs in one file


def load(data, file, *, numbers_as_keys=False, pure=False):
    """Read one YAML document: (Mapping or None, list of Problem).

    ``data`` is bytes or text, ``file`` the label put into every Place. The tree is None when the text could not
    be read to its end or is no mapping; after any lesser error it holds all the rest. ``numbers_as_keys`` allows
    plain numbers as keys at the top (part numbers of a catalogue); ``pure`` takes the pure Python parser.
    """
    text, problems = decode(data, file)
    if text is None:
        return None, problems
    tabs = ()
    if has_unusual_letters(text):
        text, tabs, found = inspect_text(text, file)
        problems += found
    before = len(problems)
    try:
        parser = (_pure_parser() if pure else _fast_parser())(text)
        tree = Reader(parser.get_event, text, file, problems, numbers_as_keys).document()
    except Stop as stop:
        return None, _with_last(problems, before, stop.args[0], tabs)
    except _yaml_error() as error:
        if not pure and "depth" in str(error):
            # libyaml looks ahead and stops far behind the place; the other parser counts along
            return load(data, file, numbers_as_keys=numbers_as_keys, pure=True)
        return None, _with_last(problems, before, syntax_problem(error, text, file), tabs)
    if tree is not None:
        if tabs and (found := _tabs_outside_text(tree, tabs)):
            return None, problems[:before] + found
        problems += _cut_text(tree, text, file)
        problems += _misread_signs(tree, text, file)
    return tree, problems


def _with_last(problems, before, last, tabs):
    """The problems when reading stopped. A tab in an indentation at or before the last one is the cause of them all."""
    cause = tab_problem(tabs, last)
    return [*problems[:before], cause] if cause else [*problems, last]


@functools.cache
def _fast_parser():
    """The events of libyaml, or of the pure Python parser where libyaml is absent."""
    try:
        from yaml._yaml import CParser
    except ImportError:
        return _pure_parser()
    return CParser


@functools.cache
def _pure_parser():
    from yaml.parser import Parser
    from yaml.reader import Reader as Characters
    from yaml.scanner import Scanner, ScannerError

    class PureParser(Characters, Scanner, Parser):
        def __init__(self, text):
            Characters.__init__(self, text)
            Scanner.__init__(self)
            Parser.__init__(self)

        in_plain = False

        def peek(self, index=0):
            letter = super().peek(index)
            return "x" if letter == "?" and self.in_plain else letter

        def scan_plain(self):
            # as libyaml does: a question mark may stand inside text, and `{pan:{...}}` is refused
            self.in_plain = True
            token = super().scan_plain()
            self.in_plain = False
            if self.flow_level and self.peek() == ":" and self.peek(1) in ",[]{}?":
                raise ScannerError(
                    "while scanning a plain scalar",
                    token.start_mark,
                    "found unexpected ':'",
                    self.get_mark(),
                )
            return token

    return PureParser


@functools.cache
def _yaml_error():
    from yaml.error import YAMLError

    return YAMLError


def _tabs_outside_text(tree, tabs):
    """A problem for the first tab that indents a key or an item; inside a text of several lines it is harmless."""
    inside = set()
    for scalar in scalars(tree):
        if scalar.place.end_line > scalar.place.line:
            inside.update(range(scalar.place.line + 1, scalar.place.end_line + 1))
    return [tab_in_indentation(tab) for tab in tabs if tab.line not in inside][:1]


def _cut_text(tree, text, file):
    """Notes for values that a number sign right before a digit cuts off: `bolt #4 long` is `bolt`."""
    hits = []
    index = text.find("#", 1)
    while index >= 0:
        if text[index - 1] == " " and text[index + 1 : index + 2].isdigit():
            hits.append(index)
        index = text.find("#", index + 1)
    if not hits:
        return []
    ends = {scalar.place.end_line: scalar for scalar in scalars(tree) if scalar.plain}
    problems = []
    known = (0, 1, 1)
    for hit in hits[:MOST_REMARKS]:
        place = place_at(text, file, hit, hit + 1, known)
        known = (hit, place.line, place.column)
        value = ends.get(place.line)
        if value is None or value.place.end_column > place.column:
            continue
        between = text[hit - (place.column - value.place.end_column) : hit]
        if not between.strip():
            read = f"`{shown(value.text)}`" if value.text else "empty"
            problems.append(
                Problem(
                    "value-is-plain-data",
                    f"From the number sign on this is a remark, and the value is {read}.",
                    place,
                    "Put the whole value in quotes if the number sign belongs to it; write a space after # in a "
                    "remark.",
                    "note",
                )
            )
    return problems


_MISREAD = r"\?(?![\s?,\[\]{}])|(?<=[\"'\]}])#"


def _misread_signs(tree, text, file):
    """Problems for signs that both parsers take for something else without a blank: `{?a: 1}` and `"a"#b`.

    YAML 1.2.2 takes the question mark into the text (section 7.3.3) and refuses the remark (section 6.6).
    """
    if "?" not in text and not any(sign in text for sign in ("\"#", "'#", "]#", "}#")):
        return []
    hits = list(re.compile(_MISREAD).finditer(text))
    begins, ends = set(), set()
    for place in (node.place for node in walk(tree)) if hits else ():
        begins.add((place.line, place.column))
        ends.add((place.end_line, place.end_column))
    problems, known = [], (0, 1, 1)
    for hit in hits:
        place = place_at(text, file, hit.start(), hit.end(), known)
        known = (hit.start(), place.line, place.column)
        if hit[0] == "?" and (place.line, place.column + 1) in begins:
            message = "This question mark is read as the sign of a key and not as text."
            fix = "Put the whole text in quotes."
        elif hit[0] == "#" and (place.line, place.column) in ends:
            message = "A remark begins here right behind a value; what it says is not read."
            fix = "Put a blank before the number sign of a remark, or the whole text in one pair of quotes."
        else:
            continue
        problems.append(Problem("spec-is-well-formed", message, place, fix))
        if len(problems) >= MOST_REMARKS:
            break
    return problems
