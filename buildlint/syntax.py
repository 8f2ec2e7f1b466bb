"""What a YAML parser's complaint means for a builder: one sentence, the place, and what to write instead.

Both parsers of PyYAML are understood; their words differ, the places do not, so the answer depends on the kind
of complaint and on the text alone.
"""

import re

from buildlint.decode import BREAK, place_at, shown
from buildlint.model import Problem

KEY_LENGTH = 1024  # YAML 1.2.2 section 7.4.2: a key on one line is at most 1,024 characters long

_CHECK = "spec-is-well-formed"
NO_KEY = "A value stands here without a key."
FIX_NO_KEY = "Write the key before the colon."
_LONG_KEY = f"This key is longer than {KEY_LENGTH:,} characters."
_FIX_LONG_KEY = "Write a short key, then a colon, then the text."
_FIX_TABS = "Indent with spaces; most editors can change tabs to spaces for the whole file."
_BAD_ESCAPE = (
    r"\\(?:[^0abt\tnvfre \"/\\N_LPxuU\r\n]|x(?![0-9a-fA-F]{2})|u(?![0-9a-fA-F]{4})|U(?![0-9a-fA-F]{8})"
    r"|u[dD][89a-fA-F]|U(?!000[0-9a-fA-F]|0010)|U0000[dD][89a-fA-F])"
)
_ESCAPE = r"\\(?:\r\n|[\s\S])"


def deep(place, limit):
    """The answer to mappings and lists that stand too deep inside each other."""
    return Problem(
        _CHECK,
        f"Mappings and lists stand more than {limit} deep inside each other here; the file is not read.",
        place,
        "Take the brackets or the indentation out; a build spec needs about eight levels.",
    )


def tab_problem(tabs, problem):
    """The tab in the indentation at or before a syntax error, as its likely cause; None where there is none."""
    if tabs and tabs[0].line <= problem.place.line:
        return tab_in_indentation(tabs[0])
    return None


def tab_in_indentation(place):
    return Problem(
        _CHECK,
        "A tab stands in the indentation of this line; YAML indents with spaces only.",
        place,
        _FIX_TABS,
    )


def syntax_problem(error, text, file):
    """The Problem for an exception of either parser (yaml.YAMLError)."""
    context = getattr(error, "context", None) or ""
    problem = getattr(error, "problem", None) or ""
    mark = getattr(error, "problem_mark", None)
    begun = getattr(error, "context_mark", None)
    index = mark.index if mark else getattr(error, "position", 0) or 0
    opening = begun.index if begun else index
    return explain(context, problem, min(index, len(text)), min(opening, len(text)), text, file)


def explain(context, problem, index, opening, text, file):
    """The Problem for a complaint: ``index`` is where the parser stopped, ``opening`` where the thing began."""
    # the pure parser adds what it found instead, in words that would be taken for the complaint itself
    said = f"{context} {problem.split(', but ')[0]}"
    line_start, line = _line(text, index)
    before = text[line_start:index]

    def answer(message, fix, start=index, end=None, related=()):
        end = min(start + 1, len(text)) if end is None else end
        return Problem(_CHECK, message, place_at(text, file, start, max(start, end)), fix, "error", "", related)

    if "mapping values are not allowed" in said:
        return _colon(text, index, line_start, line, before, answer)
    if "sequence entries are not allowed" in said:
        return answer(
            "A dash followed by a space begins a list item, which cannot stand here.",
            "Put each item on its own line below the key, or write the list as [first, second]; a minus sign "
            "stands right before its number; quote text that begins with a dash.",
        )
    if "expected ':'" in said:
        return _no_colon(text, opening, answer)
    if "quoted scalar" in said:
        return _quoted(text, opening, said, answer, file)
    if "cannot start any token" in said:
        letter = text[index : index + 1]
        return answer(
            f"A value cannot begin with `{letter}`.",
            f'Put the text in quotes: "{_rest(line, index - line_start)}".',
        )
    if "alias" in said or "anchor" in said:
        sign = text[opening : opening + 1]
        return answer(
            f"Text that begins with `{sign}` is read as a reference, and this one has no usable name.",
            f'Put the text in quotes: "{_rest(text[opening:_line_end(text, opening)], 0)}".',
            opening,
        )
    if "tag" in said:
        return answer(
            "Text that begins with an exclamation mark is read as a tag, which a build spec does not use.",
            "Put the text in quotes, or take the tag out.",
            opening,
        )
    if "block scalar" in said:
        return answer(
            "After `|` or `>` the rest of the line must be empty, and the text stands indented below.",
            "Put the text on the next line, or quote it if it begins with this sign.",
        )
    if "directive" in said or "YAML document" in said:
        return answer(
            "A line that begins with a percent sign is an instruction to the reader, and this one is not known; "
            "YAML 1.2 is read.",
            "Delete the line; quote text that begins with a percent sign.",
            _line(text, index)[0] if "directive" not in said else opening,
        )
    if "flow sequence" in said or "flow mapping" in said:
        return _flow(text, index, opening, answer, file)
    if "expected node content" in said or "expected the node content" in said:
        letter = text[index : index + 1]
        if letter and letter in "]},":
            return answer(
                f"`{letter}` stands here without anything that it could belong to.",
                "Take it out, or put the text in quotes.",
            )
        if letter == ":":
            return answer(NO_KEY, FIX_NO_KEY)
        return answer("A value was expected here.", "Write the value, or delete what announces it.")
    if "block mapping" in said or "block collection" in said or "document start" in said:
        return _misfit(text, index, opening, line, before, said, answer, file)
    if "depth" in said or "nest" in said:
        return deep(place_at(text, file, index, index), 64)
    return answer(
        "This line cannot be read as YAML.",
        "Compare it with the lines above: each is `key: value` or an item with a dash, indented with spaces; "
        "quote text with special signs.",
    )


def bad_escape(text, opening, file):
    """The Problem for the first backslash that begins no known escape in the double-quoted text at ``opening``."""
    index = opening
    for found in re.compile(_ESCAPE).finditer(text, opening):
        if re.compile(_BAD_ESCAPE).match(text, found.start()):
            index = found.start()
            break
    return Problem(
        _CHECK,
        f"In double quotes a backslash begins an escape, and `{shown(text[index : index + 2])}` is none that can "
        "be read.",
        place_at(text, file, index, min(index + 2, len(text))),
        "Put the text in single quotes, where a backslash is only a backslash.",
    )


def _colon(text, index, line_start, line, before, answer):
    if len(before.strip()) > KEY_LENGTH:
        return answer(_LONG_KEY, _FIX_LONG_KEY, line_start + len(before) - len(before.lstrip()))
    key, colon, value = before.lstrip().partition(": ")
    if colon and value.strip():
        whole = shown(value.strip() + line[index - line_start :].split(" #")[0].rstrip(), 200)
        name = shown(key.removeprefix("- "))
        return answer(
            f"A second colon stands in the value of `{name}`; a colon and a space begin a new value.",
            "Put text with a colon in quotes" + ("." if '"' in whole else f': {name}: "{whole}".'),
        )
    above = _line_above(text, line_start)
    if above and not above.rstrip().endswith(":") and ":" in above and before.strip():
        stripped = above.strip()
        if re.match(r"[\w-]+:\S", stripped) and ": " not in stripped:
            return answer(
                "The line above has no space after its colon, so that this line is read as its continuation.",
                f"Write `{shown(stripped.replace(':', ': ', 1))}`.",
            )
        return answer(
            "This line is read as the continuation of the value above, and so its colon cannot begin a new value.",
            "Line the key up with the key above, or leave the value above empty so that this mapping belongs to "
            "it.",
        )
    return answer(
        "A colon cannot begin a value here.",
        "Write `key: value` on one line; put text with a colon in quotes.",
    )


def _no_colon(text, opening, answer):
    start, line = _line(text, opening)
    words = line[opening - start :].split("#")[0].strip()
    if len(words) > KEY_LENGTH:
        return answer(_LONG_KEY, _FIX_LONG_KEY, opening)
    end = opening + len(words)
    if ":" in words and not words.startswith(("'", '"')):
        return answer(
            f"`{shown(words, 40)}` has no space after its colon, so that it is no key with a value.",
            f"Write `{shown(words.replace(':', ': ', 1))}`.",
            opening,
            end,
        )
    return answer(
        f"`{shown(words, 40)}` is neither a key with a value nor a list item.",
        "Write `key: value`; to go on with the text above, indent this line under it or put the whole text in "
        "quotes.",
        opening,
        end,
    )


def _quoted(text, opening, said, answer, file):
    if "end of stream" in said or "unexpected document" in said:
        return answer(
            "The quote that opens here is never closed.",
            "Close it at the end of the text; an inch sign inside double quotes is written \\\", an apostrophe "
            "inside single quotes ''.",
            opening,
        )
    return bad_escape(text, opening, file)


def _flow(text, index, opening, answer, file):
    sign = text[opening : opening + 1]
    closing = {"[": "]", "{": "}"}.get(sign, "]")
    what = "list" if sign == "[" else "mapping"
    place = place_at(text, file, opening, min(opening + 1, len(text)))
    return answer(
        f"The {what} that opens with `{sign}` on line {place.line} needs a comma or `{closing}` before this.",
        f"Close it with `{closing}`, put a comma between the entries, and quote text that holds commas, colons or "
        "brackets.",
        related=((f"the {what} opens here", place),),
    )


def _misfit(text, index, opening, line, before, said, answer, file):
    if before.strip():
        if before.rstrip()[-1] in "'\"]}":
            return answer(
                f"Text stands behind the closing `{before.rstrip()[-1]}` of a value.",
                "Put the whole value in one pair of quotes, or a space and # before a remark.",
            )
        return answer(
            "What stands here does not belong to the value before it.",
            "Put the whole value in quotes, or begin a new line.",
        )
    if line.strip().startswith(":"):
        return answer(NO_KEY, FIX_NO_KEY)
    if line.strip().startswith(("]", "}", ",")):
        return answer("A bracket or comma stands here without anything that it could belong to.", "Take it out.")
    if index >= len(text.rstrip()):
        return answer("The file ends in the middle of a value.", "Close the brackets and quotes that are open.")
    if "block collection" in said:
        return answer(
            "Among list items, this line is none.",
            "Begin it with a dash and a space, or move it to the indentation of the key that it belongs to.",
        )
    return answer(
        "The indentation of this line fits no line above it.",
        "Give keys that belong together the same number of spaces.",
    )


def _line(text, index):
    """(index of its first character, text) of the line around an index."""
    start = 0
    for found in re.compile(BREAK).finditer(text, 0, index):
        start = found.end()
    return start, text[start : _line_end(text, index)]


def _line_end(text, index):
    found = re.compile(BREAK).search(text, index)
    return found.start() if found else len(text)


def _line_above(text, line_start):
    for line in reversed(re.compile(BREAK).split(text[:line_start])):
        if line.strip() and not line.lstrip().startswith("#"):
            return line
    return ""


def _rest(line, offset, length=60):
    return shown(line[offset:].split(" #")[0].strip().replace('"', "'"), length)
