"""From the events of a YAML parser to nodes that know their place.

What a plain scalar means (YAML 1.2 core schema), and everything that a build spec does not use although YAML has
it: tags, merge keys, keys that are no text, aliases that unfold without end. The parsers themselves and the look
at the characters stand in ``load`` and ``decode``.
"""

import functools
import re
import unicodedata

from buildlint.decode import BREAK, place_at, shown
from buildlint.model import Entry, Mapping, Place, Problem, Scalar, Sequence
from buildlint.syntax import FIX_NO_KEY, KEY_LENGTH, NO_KEY, bad_escape, deep, explain
from buildlint.trees import children, pointer_of

DEPTH = 64  # mappings and lists inside each other; the vocabulary needs about eight
NUMBER_LENGTH = 100  # longer runs of digits are slips; Python refuses integers over 4,300 digits
EXPANSION = 100_000  # nodes that a file with aliases may unfold to, unless its own text is longer

ENOUGH = 200  # problems in one file

_TOO_LONG = object()
_ORDINARY_KEYS = set()  # keys met so far that are short ASCII text: they need no second look
_QUOTES = ("'", '"')
_HALF_PAIR = "[\ud800-\udfff]"
_HIDDEN_ESCAPES = (
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u061c\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff]"
)
_WORDS = {"": None, "~": None, "null": None, "Null": None, "NULL": None}
_WORDS |= {"true": True, "True": True, "TRUE": True, "false": False, "False": False, "FALSE": False}
# YAML 1.2.2 section 10.3.2, core schema tag resolution
_INTEGER = re.compile(r"[-+]?[0-9]+|0o[0-7]+|0x[0-9a-fA-F]+")
_FLOAT = re.compile(
    r"[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?|[-+]?\.(?:inf|Inf|INF)|\.(?:nan|NaN|NAN)"
)
# an anchor or a tag before a value, with the blanks and comments behind it
_PROPERTIES = r"(?:(?:&[^\s\[\]{},]+|!<[^>\n]*>|![^\s\[\]{},]*)(?:\s|#[^\r\n]*)*)*"


_UNKNOWN_DIRECTIVE = r"(?m)^%(?!(?:YAML[ \t]+[0-9.]+|TAG[ \t].*)(?:\s|\Z))"
# where libyaml is more lenient than the other parser: the stricter answer from both
_TAG_AND_COMMA = r"!(?:<[^>\s]*>|[^\s,\[\]{}]*),"
_REMARK_IN_BLOCK_HEADER = _PROPERTIES + r"[|>][-+0-9]*(?P<sign>#)"
_EXPLICIT_KEY = r"\?(?:\s|#[^\r\n]*)*\Z"


class Stop(Exception):
    """Reading cannot go on; carries the Problem."""


@functools.lru_cache(maxsize=32768)
def meaning(text):
    """What a plain scalar means in the YAML 1.2 core schema: None, bool, int, float, or the text itself.

    ``10:1``, ``on``, ``1_000`` and ``2026-03-05`` are text; ``010`` is ten. Source: YAML 1.2.2, section 10.3.2.
    """
    if text in _WORDS:
        return _WORDS[text]
    if text[0] not in "+-.0123456789":
        return text
    if _INTEGER.fullmatch(text):
        if len(text) > NUMBER_LENGTH:
            return _TOO_LONG
        if text.startswith("0x"):
            return int(text[2:], 16)
        return int(text[2:], 8) if text.startswith("0o") else int(text)
    if _FLOAT.fullmatch(text):
        return float(text.lower().replace(".inf", "inf").replace(".nan", "nan"))
    return text


class Reader:
    """One pass over the events of one document. A class only because its parts share the state of the pass."""

    def __init__(self, get_event, text, file, problems, numbers_as_keys):
        self.get_event = get_event
        self.text = text
        self.file = file
        self.problems = problems
        self.numbers_as_keys = numbers_as_keys
        self.path = []  # keys and indices from the root to the node being read
        self.anchors = {}  # name -> (node, or None while it is still open; place of the anchor)
        self.ordinary = _ORDINARY_KEYS
        self.sizes = {}  # id -> (nodes after unfolding the aliases, depth, the node, which keeps the id its own)

    def document(self):
        """The root mapping of the only document, or None with a problem."""
        from yaml import events

        self.events = events
        get_event = self.get_event
        get_event()
        opening = get_event()
        if opening.__class__ is events.StreamEndEvent:
            return self._refuse(
                "Nothing is written in this file.",
                Place(self.file, 1, 1, 1, 1),
                "Write at least one heading, such as `build:`.",
                "file-is-readable",
            )
        self._check_directives(opening)
        root = self._node_reader()(get_event(), 0)
        get_event()
        closing = get_event()
        if closing.__class__ is not events.StreamEndEvent:
            self._refuse(
                "A second document begins here; only the first one in the file is read.",
                self._place(closing),
                "Keep one spec in one file: take out the `---` or move what follows to its own file.",
            )
        if self.sizes:
            self._measure(root, "the whole file", root.place)
        if isinstance(root, Mapping):
            return root
        if isinstance(root, Scalar) and root.value is None:
            return self._refuse(
                "Nothing is written in this file.",
                root.place,
                "Write at least one heading, such as `build:`.",
                "file-is-readable",
            )
        what = "a list" if isinstance(root, Sequence) else f"the text `{shown(root.text)}`"
        return self._refuse(
            f"The file holds {what}, not headings with values.",
            root.place,
            "Begin with a heading at the left margin, such as `build:`.",
        )

    def _node_reader(self):
        """The function that reads the node beginning with an event.

        This is the busy part of every check: half a dozen functions in one scope, because names in it are found
        faster than attributes, and nodes made without a call of their class.
        """
        get_event, file, path = self.get_event, self.file, self.path
        scalar_event, alias_event = self.events.ScalarEvent, self.events.AliasEvent
        mapping_event, mapping_end = self.events.MappingStartEvent, self.events.MappingEndEvent
        sequence_end = self.events.SequenceEndEvent
        new, make, ordinary = tuple.__new__, object.__new__, self.ordinary

        def written(event):
            node = make(Scalar)
            start, end = event.start_mark, event.end_mark
            node.place = new(Place, (file, start.line + 1, start.column + 1, end.line + 1, end.column + 1))
            node.text = text = event.value
            if event.style:
                node.value = text
                node.plain = False
                if event.style not in _QUOTES or event.style == '"' and not text.isprintable():
                    self._unusual(node, event)
            else:
                node.value = value = meaning(text)
                node.plain = True
                if value is _TOO_LONG:
                    self._overlong(node)
            if event.anchor is not None or event.tag is not None:
                self._with_properties(node, event)
            return node

        def mapping(opening, depth):
            entries = {}
            last = None
            while True:
                event = get_event()
                if event.__class__ is scalar_event:
                    name = event.value
                    if name in ordinary and event.anchor is None and event.tag is None:
                        key = make(Scalar)
                        start, end = event.start_mark, event.end_mark
                        key.place = new(
                            Place,
                            (file, start.line + 1, start.column + 1, end.line + 1, end.column + 1),
                        )
                        key.text = key.value = name
                        key.plain = not event.style
                        keep = True
                    else:
                        key = written(event)
                        name, keep = self._seldom_key(key, depth)
                elif event.__class__ is mapping_end:
                    break
                else:
                    name, keep = "", self._compound_key(node(event, depth), event)
                event = get_event()
                if event.__class__ is scalar_event and event.anchor is None and event.tag is None and not event.style:
                    value = make(Scalar)
                    start, end = event.start_mark, event.end_mark
                    value.place = last = new(
                        Place,
                        (file, start.line + 1, start.column + 1, end.line + 1, end.column + 1),
                    )
                    value.text = text = event.value
                    value.value = meaning(text)
                    value.plain = True
                    if value.value is _TOO_LONG:
                        path.append(name)
                        self._overlong(value)
                        path.pop()
                else:
                    path.append(name)
                    value = node(event, depth)
                    path.pop()
                    last = value.place if event.__class__ is not alias_event else self._place(event)
                if not keep:
                    continue
                if name in entries:
                    self._written_twice(entries[name].key, key, name)
                else:
                    entries[name] = new(Entry, (key, value, None))
            if opening.flow_style:
                return Mapping(self._place_between(opening, event), entries)
            # the parser ends a block where the next thing begins; a reader ends it with its last value
            start = opening.start_mark
            return Mapping(new(Place, (file, start.line + 1, start.column + 1, last[3], last[4])), entries)

        def sequence(opening, depth):
            items = []
            last = None
            while True:
                event = get_event()
                if event.__class__ is scalar_event:
                    item = written(event)
                    last = item.place
                elif event.__class__ is sequence_end:
                    break
                else:
                    path.append(len(items))
                    item = node(event, depth)
                    path.pop()
                    last = item.place if event.__class__ is not alias_event else self._place(event)
                items.append(item)
            if opening.flow_style:
                return Sequence(self._place_between(opening, event), items)
            start = opening.start_mark
            return Sequence(new(Place, (file, start.line + 1, start.column + 1, last[3], last[4])), items)

        def node(event, depth):
            kind = event.__class__
            if kind is scalar_event:
                return written(event)
            if kind is alias_event:
                return self._alias(event, depth)
            if depth >= DEPTH:
                raise Stop(deep(self._place(event), DEPTH))
            if event.tag is not None:
                self._tag(event)
            if event.anchor is not None:
                self._anchor(event, None)
            result = (mapping if kind is mapping_event else sequence)(event, depth + 1)
            if event.anchor is not None:
                self.anchors[event.anchor] = (result, self.anchors[event.anchor][1])
            return result

        return node

    # Scalars that are more than plain text or a number

    def _unusual(self, node, event):
        """A block of text, whose end is looked for, or a double-quoted text with a character that cannot be seen."""
        if event.style not in _QUOTES:
            if remark := re.compile(_REMARK_IN_BLOCK_HEADER).match(self.text, event.start_mark.index):
                self._stop_at("while scanning a block scalar", remark.start("sign"))
            # the parser's end lies behind the empty lines and remarks that follow
            node.place = self._content_place(event)
            return
        hidden = re.search(_HALF_PAIR, node.text) or re.search(_HIDDEN_ESCAPES, node.text)
        if hidden and hidden.re.pattern == _HALF_PAIR:
            # libyaml refuses half of a surrogate pair, the pure parser does not: the same answer from both
            raise Stop(bad_escape(self.text, event.start_mark.index, self.file))
        if hidden:
            self._refuse(
                f"The text holds the hidden character U+{ord(hidden[0]):04X}, written as an escape.",
                node.place,
                "Take the escape out; a spec is read by people.",
                "file-is-readable",
                "warning",
            )

    def _with_properties(self, node, event):
        node.place = self._content_place(event)
        if event.tag is not None:
            self._tag(event)
            if event.tag == "tag:yaml.org,2002:str":
                node.value = node.text
        if event.anchor is not None:
            self._anchor(event, node)

    def _content_place(self, event):
        """The place without the anchor and tag before a value, and without the empty lines behind a block of text."""
        mark, end = event.start_mark, event.end_mark.index
        start = min(re.compile(_PROPERTIES).match(self.text, mark.index, end).end(), end)
        if event.style in ("|", ">"):
            end = start + len(self.text[start:end].rstrip())
        return place_at(self.text, self.file, start, end, (mark.index, mark.line + 1, mark.column + 1))

    def _overlong(self, node):
        node.value = node.text
        self._refuse(
            f"A number of {len(node.text):,} characters cannot be meant; it is read as text.",
            node.place,
            "Write the number with the digits that can be measured; quote it if it is a part number.",
            "value-is-plain-data",
        )

    # Keys that are not plain short text

    def _seldom_key(self, key, depth):
        """(name in the tree, whether to keep it) of a key that was not met before; tells what is wrong with it."""
        text = key.text
        meant, key.value = key.value, text
        plain_text = text.isascii() and text.isprintable() and len(text) <= KEY_LENGTH
        if plain_text and text != "<<" and isinstance(meant, str):
            if len(self.ordinary) < 5000 and isinstance(meaning(text), str):
                self.ordinary.add(text)
            return text, True
        name = unicodedata.normalize("NFC", text)
        self.path.append(name)
        keep = self._odd_key(key, meant, depth)
        self.path.pop()
        return name, keep

    def _odd_key(self, key, meant, depth):
        text, place = key.text, key.place
        if key.plain and text == "<<":
            self._refuse(
                "`<<` (a merge key) is not read in a build spec; what it would bring in is left out.",
                place,
                "Use `based_on: ../templates/name.yaml` for a template, or write the values out.",
                "value-is-plain-data",
            )
            return False
        if len(text) > KEY_LENGTH:
            self._refuse(
                f"This key is {len(text):,} characters long.",
                place,
                "Write a short key, then a colon, then the text.",
            )
            return False
        if not isinstance(meant, str) and not (self.numbers_as_keys and depth == 1 and text[:1].isdigit()):
            message, fix = NO_KEY, FIX_NO_KEY
            if key.plain and not text:
                place = self._behind_the_question_mark(place)
            if text:
                message = f"The key `{shown(text)}` is {_kind(meant)}; it is read as text."
                fix = f'Write the name of a heading or part; if the key is meant as text, quote it: "{shown(text)}".'
            self._refuse(message, place, fix, "value-is-plain-data")
        if any(letter.isspace() and letter != " " for letter in text):
            self._refuse(
                f"The key `{shown(text)}` holds a blank that is not an ordinary space.",
                place,
                "Type the line again with ordinary spaces.",
                "value-is-plain-data",
            )
        return True

    def _behind_the_question_mark(self, place):
        """The place of an empty key: one parser finds it there, the other at what comes next."""
        lines = re.compile(BREAK).finditer(self.text)
        start = [0, *(found.end() for found in lines)][place.line - 1] + place.column - 1
        sign = re.compile(_EXPLICIT_KEY).search(self.text, max(0, start - 500), start)
        return place_at(self.text, self.file, sign.start() + 1, sign.start() + 1) if sign else place

    def _compound_key(self, node, event):
        """A list, a mapping or an alias as a key: left out with its value."""
        what = {Mapping: "a mapping", Sequence: "a list"}.get(type(node), "an alias")
        place = node.place
        if event.__class__ is self.events.AliasEvent:
            what, place = "an alias", self._place(event)
        self._refuse(
            f"The key is {what}; it is left out with its value.",
            place,
            "Write the key as plain text.",
            "value-is-plain-data",
        )
        return False

    def _written_twice(self, first, key, name):
        self.path.append(name)
        self._refuse(
            f"`{shown(key.text)}` is written twice here, first on line {first.place.line}; that value is kept and "
            "this one is not read.",
            key.place,
            "Delete one of the two, or give it its right name.",
            "key-is-written-once",
            related=(("written first here", first.place),),
        )
        self.path.pop()

    # Tags, anchors, aliases

    def _tag(self, event):
        tag = event.tag.replace("tag:yaml.org,2002:", "!!")
        start = self.text.find("!", event.start_mark.index)
        if any(sign in tag for sign in ",[]{}") or re.compile(_TAG_AND_COMMA).match(self.text, start):
            # libyaml stops at these signs, the pure parser takes them into the tag
            raise Stop(explain("while scanning a tag", "", start, start, self.text, self.file))
        fix = "Take it out; a build spec holds plain text, numbers, lists and mappings only."
        if tag == "!!str":
            fix = "Take it out; to keep a value as text, quote it."
        self._refuse(
            f"The tag `{shown(tag)}` is not read in a build spec.",
            self._place(event),
            fix,
            "value-is-plain-data",
        )

    def _anchor(self, event, node):
        place = self._place(event)
        end = self.text.find(f"&{event.anchor}", event.start_mark.index) + 1 + len(event.anchor)
        if self.text[end : end + 1] in ("?", ":", "%", "@", "`"):
            self._refuse(
                f"The name of the anchor `&{shown(event.anchor)}` ends before `{self.text[end]}`, and the value begins with it.",
                place,
                "Name the anchor with letters, digits, hyphens and underscores only, and put a blank behind it; quote text "
                "that begins with `&`.",
            )
        if event.anchor in self.anchors:
            self._refuse(
                f"The anchor `&{shown(event.anchor)}` is written twice.",
                place,
                "Give each anchor a name of its own.",
                related=(("written first here", self.anchors[event.anchor][1]),),
            )
        self.anchors[event.anchor] = (node, place)

    def _alias(self, event, depth):
        place = self._place(event)
        name = shown(event.anchor)
        if event.anchor not in self.anchors:
            self._refuse(
                f"`*{name}` refers to an anchor that is not written before it; it is read as no value.",
                place,
                f"Write `&{name}` at the value that is meant, or quote text that begins with a star.",
            )
            return Scalar(place, "", None, True)
        node, anchor = self.anchors[event.anchor]
        if node is None:
            self._refuse(
                f"`*{name}` stands inside the value that it refers to; it is read as no value.",
                place,
                "Write the values out instead.",
                related=(("the anchor", anchor),),
            )
            return Scalar(place, "", None, True)
        if not isinstance(node, Scalar):
            levels = self._measure(node, f"`*{name}`", place)[1]
            if depth + levels > DEPTH:
                raise Stop(deep(place, DEPTH))
        else:
            self.sizes[id(node)] = (1, 0, node)
        return node

    def _measure(self, node, what, place):
        """Nodes and depth once every alias is unfolded; each node is counted once, so this is linear."""
        known = self.sizes.get(id(node))
        if known is None:
            size, levels = 1, 0
            for child in children(node):
                if isinstance(child, Scalar):
                    size += 1
                else:
                    more, deeper, _ = self._measure(child, what, place)
                    size += more
                    levels = max(levels, deeper)
            known = self.sizes[id(node)] = (size, levels + 1, node)
        if known[0] > max(EXPANSION, len(self.text)):
            raise Stop(
                Problem(
                    "spec-is-well-formed",
                    f"The aliases of {what} unfold to more than {EXPANSION:,} values; the file is not read.",
                    place,
                    "Write the values out instead of nesting aliases in aliases.",
                )
            )
        return known

    # Places

    def _place(self, event):
        return self._place_between(event, event)

    def _place_between(self, opening, closing):
        start, end = opening.start_mark, closing.end_mark
        return Place(self.file, start.line + 1, start.column + 1, end.line + 1, end.column + 1)

    def _check_directives(self, opening):
        """The parsers disagree about lines with a percent sign before the document: the stricter answer from both."""
        version = getattr(opening, "version", None)
        if version and version not in ((1, 1), (1, 2)):
            self._stop_at("found incompatible YAML document", opening.start_mark.index)
        if not opening.explicit:
            return
        if unknown := re.search(_UNKNOWN_DIRECTIVE, self.text[: opening.end_mark.index]):
            self._stop_at("found unknown directive name", unknown.start())

    def _stop_at(self, complaint, index):
        raise Stop(explain("", complaint, index, index, self.text, self.file))

    def _refuse(self, message, place, fix, check="spec-is-well-formed", level="error", related=()):
        self.problems.append(Problem(check, message, place, fix, level, pointer_of(self.path), related))
        if len(self.problems) >= ENOUGH:
            raise Stop(
                Problem(
                    "spec-is-well-formed",
                    f"{ENOUGH} problems were found up to here; the rest of the file is not read.",
                    place,
                    "Correct these first.",
                )
            )


def _kind(value):
    if value is None:
        return "an empty value"
    if isinstance(value, bool):
        return "a yes-or-no value"
    return "a number"
