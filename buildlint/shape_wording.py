"""The sentences about a single value of a wrong shape: what was read, what belongs there, how it is written.

Which value it is, and where it stands, is found in ``shape``.
"""

import datetime
import re

from buildlint.model import Mapping, Scalar, Sequence
from buildlint.near_misses import either, for_choice, listed
from buildlint.vocabulary import LEAF

# What a value of each dimension looks like, where its word has no example of its own.
_LIKE = {"date": "2026-05-12", "thread": "7/16-20", "yes_no": "yes", "count": "8"}


def called(path, each="value"):
    """A path as it is said: `block.bore`, value 3 of `block.bore.measured`, entry 2 of `permits`."""
    positions = [index for index, step in enumerate(path) if isinstance(step, int)]
    if not positions:
        return f"`{'.'.join(short(str(step)) for step in path)}`" if path else "the spec"
    last = positions[-1]
    inner = path[last + 1 :]
    if inner:
        return f"`{'.'.join(short(str(step)) for step in inner)}` in entry {path[last] + 1} of {called(path[:last])}"
    if last and isinstance(path[last - 1], int):
        return f"value {path[last] + 1} in row {path[last - 1] + 1} of {called(path[: last - 1])}"
    return f"{each} {path[last] + 1} of {called(path[:last])}"


def counted(items):
    """How many values there are, in words."""
    return "one value" if len(items) == 1 else f"{len(items)} values"


def capital(text):
    """A sentence with its first letter in capitals."""
    return text[:1].upper() + text[1:]


def short(text):
    """A text of the spec on one line, cut where it is long."""
    text = " ".join(text.split())
    return text if len(text) <= 60 else text[:60] + "..."


def unknown_choice(path, node, values):
    """(message, fix) for a word of choice that is not on its list."""
    name = called(path[:-1] if isinstance(path[-1], int) else path)
    text = f"`{short(node.text)}`"
    if True in values:
        return f"{text} is not an answer to {name}.", "Write `yes` or `no`."
    near = for_choice(node.text, values)
    advice = f"Did you mean {either(near)}?" if near else f"Write one of: {listed(values)}."
    return f"{text} is not a value of {name}.", advice


def unreadable(path, node, key):
    """(message, fix) for a date or thread that cannot be one."""
    text = f"`{short(node.text)}`" if isinstance(node, Scalar) else "This"
    dimension = _field_dimension(path, key)
    if dimension == "thread":
        return f"{text} is not the name of a thread.", "Write it like `7/16-20`, `M8x1.25` or `1/8-27 NPT`."
    return f"{text} is not a day of the calendar.", "Write year, month and day like `2026-05-12`."


def padded_day(path, node, key):
    """The day that a text such as 2026-3-5 was meant to be, or None."""
    found = isinstance(node, Scalar) and _field_dimension(path, key) == "date" and re.fullmatch(r"([0-9]{4})-([0-9]{1,2})-([0-9]{1,2})", node.text)
    if not found:
        return None
    try:
        return datetime.date(*map(int, found.groups())).isoformat()
    except ValueError:
        return None


def _field_dimension(path, key):
    if key is None or key.word is None:
        return "date" if key is not None and key.name.endswith("on") else None
    if key.word.dimension == "entries":
        return dict(key.word.elements).get(path[-1])
    return key.word.dimension if key.word.dimension != "list" else key.word.elements[0]


def wrong_kind(path, node, wanted, key):
    """(message, fix) for a value of the wrong kind: a list for a value, a value for a heading, nothing."""
    name = called(path, "entry" if wanted == "object" else "value")
    like = _like(path, key)
    if isinstance(node, Scalar) and node.value is None:
        one_of_many = key is not None and key.word is not None and key.word.per and isinstance(path[-1], int)
        otherwise = "write the list under `measured`, where null stands for what is not measured yet" if one_of_many else \
            "leave the key out until it is known"
        return f"Nothing is written for {name}.", f"{like} Or {otherwise}.".strip()
    held = _held(node)
    if wanted == "object":
        return (
            capital(f"{name} holds {held}, where keys of its own are expected."),
            f"Write {listed(_first_keys(key))} below it, each on its own line." if key else "Write its keys below it.",
        )
    if wanted == "array" and isinstance(node, Mapping):
        return capital(f"{name} holds {held}, where a list is expected."), "Begin each entry with a dash."
    if wanted in ("array", ["string", "array"]):
        instead = as_list(node, key)
        return capital(f"{name} holds {held}, where a list is expected."), f"Write `{instead}`." if instead else like
    kind = "one value or a list" if isinstance(wanted, list) and "array" in wanted else "one value"
    if dimension := _field_dimension(path, key):
        kind = {"date": "a day", "thread": "a thread"}.get(dimension, kind)
    return capital(f"{name} holds {held}, where {kind} is expected."), like


def _held(node):
    if isinstance(node, Mapping):
        return "keys of its own" if node.entries else "an empty mapping"
    if isinstance(node, Sequence):
        return f"a list of {counted(node.items)}"
    return f"`{short(node.text)}`"


def choices(path, key):
    """The values that may be chosen at ``path``, or None where it is no choice."""
    if key is None or key.word is None or key.word.open:
        return None
    word = key.word
    return word.choices if word.dimension == "choice" or (word.dimension == "list" and path[-1] != key.name) else None


def _like(path, key):
    """How the value at ``path`` is written, as a sentence."""
    if key is None:
        return ""
    if key.word is None:
        return "" if key.kind == LEAF or not key.children else f"Write {listed(_first_keys(key))} below it."
    word = key.word
    last = path[-1] if path else None
    if word.dimension == "entries":
        if last in dict(word.elements):
            like = _LIKE.get(dict(word.elements)[last])
            return f"Write it like `{like}`." if like else "Write one value."
        return f"Each entry is written with {listed([field for field, _ in word.elements])}."
    if word.dimension == "table":
        return f"Write it as rows `[{', '.join(word.elements)}]`."
    if word.dimension == "choice" and word.choices:
        return f"Write one of: {listed(word.choices)}."
    example = word.typical or _LIKE.get(word.dimension)
    if word.dimension == "list" and isinstance(last, int):
        return f"Write the list like `{example}`." if example else ""
    if last in ("by", "notes"):
        return "Write a few words."
    if last == "on":
        return "Write the day like `2026-05-12`."
    if last == "measured":
        return f"Write one value like `{example}`, or a list of them." if example else "Write one value, or a list."
    if not example:
        return ""
    each = f", or a list with one for each {word.per}" if word.per and last == key.name else ""
    return f"Write it like `{example}`{each}."


def _first_keys(key):
    names = [name for name in key.children if name != "notes"]
    return [f"{name}:" for name in names[:3]]


def as_list(node, key):
    """The list that a value such as 1-8-4-3-6-5-7-2 was meant to be, as YAML, or None."""
    if not isinstance(node, Scalar) or key is None or key.word is None or key.word.dimension != "list":
        return None
    parts = re.split(r"\s*[,;]\s*", node.text.strip())
    if len(parts) == 1 and re.fullmatch(r"[0-9]+([-\s]+[0-9]+)+", node.text.strip()):
        parts = re.split(r"[-\s]+", node.text.strip())
    return f"[{', '.join(parts)}]" if all(parts) and len(node.text) < 200 else None
