"""What is wrong with the shape of a spec, in sentences: where, what was read, what belongs there.

Called by validate for a spec that the compiled validator refused. The words for single values come from the
vocabulary, the near misses from its suggestions.
"""

import re

from buildlint.model import Mapping, Problem, Scalar, Sequence
from buildlint.spelling import USUAL_PLACES, american
from buildlint.validate import _compiled, bundle
from buildlint.vocabulary import BOOKKEEPING, CONTAINER, LEAF, suggest

KEY, CHOICE, SHAPE = "key-is-known", "choice-is-known", "value-has-its-shape"

_PLANNED = {"plan", "measured", "by", "on", "notes"}
_YES = {"yes": "fitted", "true": "fitted", "on": "fitted", "no": "none", "false": "none", "off": "none"}
# What a value of each dimension looks like, where its word has no example of its own.
_LIKE = {"date": "2026-05-12", "thread": "7/16-20", "yes_no": "yes", "count": "8"}


def told(tree, data, vocabulary, schema):
    """(problems, broken pointers) of a spec that is not valid, in the order of the file."""
    found = {}
    for error in _errors(data, schema):
        for path, check, message, fix, at_key in _explained(error, tree, vocabulary, schema):
            if path not in found:  # the first says enough: the type before the choice
                found[path] = _problem(tree, path, check, message, fix, at_key)
    if not found:
        found[()] = _unexplained(tree, data, schema)
    problems = sorted(found.values(), key=lambda problem: (problem.place.line, problem.place.column, problem.pointer))
    return problems, {pointer(_whole(path, vocabulary, schema)) for path in found}


def pointer(path):
    """The RFC 6901 pointer of a path of keys and positions."""
    return "".join("/" + str(step).replace("~", "~0").replace("/", "~1") for step in path)


def _errors(data, schema):
    """The errors of the validator that can explain itself, those of a value's type first."""
    from jsonschema import Draft202012Validator
    from referencing import Registry

    judge = Draft202012Validator(
        bundle(schema),
        registry=Registry(),  # everything is in the bundle; nothing is ever fetched
        format_checker=Draft202012Validator.FORMAT_CHECKER,
    )
    return sorted(judge.iter_errors(data), key=lambda error: error.validator != "type")


def _explained(error, tree, vocabulary, schema):
    """(path, check, message, fix, whether the key is meant) for what one error of the validator says."""
    path = tuple(error.absolute_path)
    if error.validator == "additionalProperties":
        known = [name for name in error.schema.get("properties", ())]
        for name in error.instance:
            if name not in known:
                yield _unknown_key(path, name, known, vocabulary, schema)
        return
    key = _key(path, vocabulary, schema)
    node = _node(tree, path)
    if error.validator == "required":
        for name in error.validator_value:
            if name not in error.instance:
                needed = f"`{name}` is missing in {_called(path, 'entry')}."
                yield path, SHAPE, needed, f"Write `{name}:` with what it stands for.", False
    elif error.validator == "not":
        name = _called(path)
        yield (
            path,
            SHAPE,
            f"{name} belongs to one coil, and the coils of this set have their own place under `springs`.",
            f"Move it to the coil it is true for: `springs.outer.{path[-1]}`.",
            True,
        )
    elif error.validator == "enum":
        yield (path, *_unknown_choice(path, node, error.validator_value, key), False)
    elif error.validator in ("pattern", "format"):
        yield (path, SHAPE, *_unreadable(path, node, key), False)
    elif error.validator in ("minItems", "maxItems"):
        pair = ", ".join(key.word.elements) if key and key.word else "value, value"
        said = _capital(f"{_called(path)} holds {_counted(error.instance)}, where a row is a pair.")
        yield path, SHAPE, said, f"Write each row as `[{pair}]`.", False
    elif isinstance(node, Scalar) and node.value is not None and _choices(path, key):
        yield (path, *_unknown_choice(path, node, _choices(path, key), key), False)
    else:
        yield (path, SHAPE, *_wrong_kind(path, node, error.validator_value, key), False)


# Keys


def _unknown_key(path, name, known, vocabulary, schema):
    """What to say of a key that does not stand in the schema."""
    place = _called(path, "entry") if path else "a build spec" if schema == "build.json" else "the catalogue"
    message = f"{place} has no key `{_short(name)}`."
    return (*path, name), KEY, message[:1].upper() + message[1:], _key_fix(path, name, known, vocabulary, schema), True


def _key_fix(path, name, known, vocabulary, schema):
    key = _key(path, vocabulary, schema)
    if key is not None and key.kind == LEAF:
        near = suggest(name, known)
        if near:
            return f"Did you mean `{near}`?"
        if set(known) == _PLANNED:
            return "Under a value stand `plan`, `measured`, `by`, `on` and `notes`."
        return f"What may stand here: {_listed(known)}."
    spelled = american(name)
    if spelled in known:
        return f"Write `{spelled}`."
    names = [step for step in path if isinstance(step, str)]
    elsewhere = _usual_place(names, name, spelled, known)
    if elsewhere:
        return f"It is written as `{elsewhere}`."
    near = suggest(name, [other for other in known if other != "notes"])
    if near:
        return f"Did you mean `{near}`?"
    below = _below(key)
    near = suggest(name, below)
    if near:
        return f"Did you mean {_either('.'.join((*names, *place)) for place in below[near][:3])}?"
    others = _anywhere(vocabulary, names, spelled)
    if others:
        return f"Did you mean {_either(others)}?"
    return f"What may stand here: {_listed(known)}."


def _usual_place(names, name, spelled, known):
    """The path where a builder's key has its place, or None."""
    for spelling in (name, spelled):
        place = USUAL_PLACES.get(".".join((*names, spelling)))
        if place is None and (not names or len(names) == 1):
            place = USUAL_PLACES.get(spelling)
        if place and place != ".".join(names):
            return place
    return None


def _below(key, depth=2):
    """The names of the keys below the headings of ``key``, each with the paths that lead there."""
    found = {}
    for child in key.children.values() if key is not None and depth else ():
        for name in child.children:
            found.setdefault(name, []).append((child.name, name))
        for name, places in _below(child, depth - 1).items():
            found.setdefault(name, []).extend((child.name, *place) for place in places)
    found.pop("notes", None)
    return found


def _anywhere(vocabulary, names, name):
    """Paths of the words that are called so: as a whole word, or as a key that few headings have."""
    words = vocabulary.words
    for spelling in ("_".join((*names[-1:], name)), name):
        for scope in ("build", "side"):
            if (scope, spelling) in words:
                return [words[scope, spelling].path]
    ends = "." + name
    found = list(dict.fromkeys(word.path for word in words.values() if word.path.endswith(ends)))
    return found if len(found) <= 3 else []


# Values


def _unknown_choice(path, node, values, key):
    """(check, message, fix) for a word of choice that is not on its list."""
    name = _called(path[:-1] if isinstance(path[-1], int) else path)
    text = node.text if isinstance(node, Scalar) else ""
    if not isinstance(node, Scalar) or node.value is None:
        return (SHAPE, *_wrong_kind(path, node, "string", key))
    if True in values:
        return SHAPE, f"`{_short(text)}` is not an answer to {name}.", "Write `yes` or `no`."
    message = f"`{_short(text)}` is not a value of {name}."
    near = _near_choice(text, values)
    if near:
        return CHOICE, message, f"Did you mean {_either(near)}?"
    return CHOICE, message, f"Write one of: {_listed(values)}."


def _near_choice(text, values):
    """The values that ``text`` may stand for, best first."""
    spelled = american(text)
    if set(values) == {"fitted", "none"} and spelled in _YES:
        return [_YES[spelled]]
    plain = {american(value): value for value in values}
    if spelled in plain:
        return [plain[spelled]]
    squeezed = {re.sub("[^a-z0-9]", "", value.lower()): value for value in values}
    bare = re.sub("[^a-z0-9]", "", text.lower())
    for candidate in (bare, "sae" + bare):
        if candidate in squeezed:
            return [squeezed[candidate]]
    begins = [value for value in values if value.startswith(spelled + "_") or value.endswith("_" + spelled)]
    if spelled and begins:
        return begins[:4]
    near = suggest(text, values)
    return [near] if near else []


def _unreadable(path, node, key):
    """(message, fix) for a date or thread that cannot be one."""
    text = f"`{_short(node.text)}`" if isinstance(node, Scalar) else "This"
    dimension = _field_dimension(path, key)
    if dimension == "thread":
        return f"{text} is not the name of a thread.", "Write it like `7/16-20`, `M8x1.25` or `1/8-27 NPT`."
    return f"{text} is not a day of the calendar.", "Write year, month and day like `2026-05-12`."


def _field_dimension(path, key):
    if key is None or key.word is None:
        return "date" if key is not None and key.name.endswith("on") else None
    if key.word.dimension == "entries":
        return dict(key.word.elements).get(path[-1])
    return key.word.dimension if key.word.dimension != "list" else key.word.elements[0]


def _wrong_kind(path, node, wanted, key):
    """(message, fix) for a value of the wrong kind: a list for a value, a value for a heading, nothing."""
    name = _called(path, "entry" if wanted == "object" else "value")
    like = _like(path, key)
    if isinstance(node, Scalar) and node.value is None:
        return f"Nothing is written for {name}.", f"{like} Or leave the key out until it is known.".strip()
    held = _held(node)
    if wanted == "object":
        return (
            _capital(f"{name} holds {held}, where keys of its own are expected."),
            f"Write {_listed(_first_keys(key))} below it, each on its own line." if key else "Write its keys below it.",
        )
    if wanted == "array" and isinstance(node, Mapping):
        return _capital(f"{name} holds {held}, where a list is expected."), "Begin each entry with a dash."
    if wanted in ("array", ["string", "array"]):
        return _capital(f"{name} holds {held}, where a list is expected."), _as_list(node, key) or like
    kind = "one value or a list" if isinstance(wanted, list) and "array" in wanted else "one value"
    if dimension := _field_dimension(path, key):
        kind = {"date": "a day", "thread": "a thread"}.get(dimension, kind)
    return _capital(f"{name} holds {held}, where {kind} is expected."), like


def _held(node):
    if isinstance(node, Mapping):
        return "keys of its own" if node.entries else "an empty mapping"
    if isinstance(node, Sequence):
        return f"a list of {_counted(node.items)}"
    return f"`{_short(node.text)}`"


def _choices(path, key):
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
        return "" if key.kind == LEAF or not key.children else f"Write {_listed(_first_keys(key))} below it."
    word = key.word
    last = path[-1] if path else None
    if word.dimension == "entries":
        if last in dict(word.elements):
            like = _LIKE.get(dict(word.elements)[last])
            return f"Write it like `{like}`." if like else "Write one value."
        return f"Each entry is written with {_listed([field for field, _ in word.elements])}."
    if word.dimension == "table":
        return f"Write it as rows `[{', '.join(word.elements)}]`."
    if word.dimension == "choice" and word.choices:
        return f"Write one of: {_listed(word.choices)}."
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


def _as_list(node, key):
    """The list that a value such as 1-8-4-3-6-5-7-2 was meant to be, or None."""
    if not isinstance(node, Scalar) or key is None or key.word is None or key.word.dimension != "list":
        return None
    parts = re.split(r"\s*[,;]\s*", node.text.strip())
    if len(parts) == 1 and re.fullmatch(r"[0-9]+([-\s]+[0-9]+)+", node.text.strip()):
        parts = re.split(r"[-\s]+", node.text.strip())
    return f"Write `[{', '.join(parts)}]`." if all(parts) and len(node.text) < 200 else None


def _first_keys(key):
    names = [name for name in key.children if name != "notes"]
    return [f"{name}:" for name in names[:3]]


# Places


def _problem(tree, path, check, message, fix, at_key):
    return Problem(check, message, _place(tree, path, at_key), fix, "error", pointer(path))


def _place(tree, path, at_key):
    """Where ``path`` stands: its key, or its value."""
    node = tree
    for position, step in enumerate(path):
        if isinstance(node, Mapping):
            entry = node.entries[step]
            if at_key and position == len(path) - 1:
                return entry.key.place
            node = entry.node
        else:
            node = node.items[step]
    return node.place


def _node(tree, path):
    for step in path:
        tree = tree.entries[step].node if isinstance(tree, Mapping) else tree.items[step]
    return tree


def _key(path, vocabulary, schema):
    """The Key that ``path`` leads to; for what stands inside a leaf, that leaf. None where nothing is known."""
    key = vocabulary.tree
    if schema == "catalogue.json":
        if len(path) < 2:
            return None
        key, path = _part(path[1], vocabulary), path[2:]
    for step in path:
        if key is None or key.kind == LEAF:
            break
        if isinstance(step, int):
            if key.kind == CONTAINER:
                key = key.any
            continue
        key = key.child(step)
    return key


def _part(name, vocabulary):
    """The Key of a part or heading in a catalogue entry."""
    tree = vocabulary.tree
    if name in tree.children:
        return tree.children[name]
    for heading in ("joints", "rings", "bearings"):
        inside = tree.children[heading]
        if name == inside.scope:
            return inside.any or inside.children["top" if heading == "rings" else "main"]
    return tree.children["intake"].child(name)


def _whole(path, vocabulary, schema):
    """The part of ``path`` that a walk along the vocabulary must leave alone.

    That is the whole value, the entry in a list of entries, or what ``path`` itself says.
    """
    for length in range(1, len(path)):
        key = _key(path[:length], vocabulary, schema)
        if key is not None and (key.kind == BOOKKEEPING or key.kind == LEAF):
            entry = key.kind == BOOKKEEPING or key.word is not None and key.word.dimension == "entries"
            return path[: length + 1] if entry else path[:length]
    return path


# Wording


def _called(path, each="value"):
    """A path as it is said: `block.bore`, value 3 of `block.bore.measured`, entry 2 of `permits`."""
    positions = [index for index, step in enumerate(path) if isinstance(step, int)]
    if not positions:
        return f"`{'.'.join(_short(str(step)) for step in path)}`" if path else "the spec"
    last = positions[-1]
    inner = path[last + 1 :]
    if inner:
        return f"`{'.'.join(_short(str(step)) for step in inner)}` in entry {path[last] + 1} of {_called(path[:last])}"
    if last and isinstance(path[last - 1], int):
        return f"value {path[last] + 1} in row {path[last - 1] + 1} of {_called(path[: last - 1])}"
    return f"{each} {path[last] + 1} of {_called(path[:last])}"


def _counted(items):
    return "one value" if len(items) == 1 else f"{len(items)} values"


def _capital(text):
    return text[:1].upper() + text[1:]


def _short(text):
    text = " ".join(text.split())
    return text if len(text) <= 60 else text[:60] + "..."


def _listed(names, most=12):
    names = list(names)
    more = f" and {len(names) - most} more" if len(names) > most else ""
    return ", ".join(f"`{name}`" for name in names[:most]) + more


def _either(names):
    return " or ".join(f"`{name}`" for name in names)


def _unexplained(tree, data, schema):
    """The rare case that only the compiled validator objects: say so rather than let it pass."""
    try:
        error = next(iter(_compiled(schema).iter_errors(data)), None)
    except (ValueError, OverflowError, RecursionError):
        error = None
    path = tuple(error.instance_path) if error else ()
    message = f"The spec does not have the shape of its schema at {_called(path)}."
    return _problem(tree, path, SHAPE, message, "Compare it with the schema's description of this key.", False)
