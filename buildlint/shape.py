"""What is wrong with the shape of a spec: each error of the validator as a problem at its place.

Called by validate for a spec that the compiled validator refused. How a value is spoken of stands in
``shape_wording``, what an unknown name may have meant in ``near_misses``.
"""

from buildlint.model import NOTATION, Edit, Mapping, Problem, Scalar
from buildlint.near_misses import for_key, listed, sure_choice, sure_key
from buildlint.shape_wording import as_list, called, capital, choices, counted, padded_day, short, unknown_choice, unreadable, wrong_kind
from buildlint.trees import pointer_of
from buildlint.validate import bundle, compiled
from buildlint.vocabulary import BOOKKEEPING, CONTAINER, LEAF, suggest

_WHOLE = {"build.json": "a build spec", "shop.json": "the shop standard"}
ENOUGH = 200  # problems of one file, after which what an unknown key may have meant is not looked for any more
KEY, CHOICE, SHAPE = "key-is-known", "choice-is-known", "value-has-its-shape"


def told(tree, data, vocabulary, schema):
    """(problems, broken pointers) of a spec that is not valid, in the order of the file."""
    found = {}
    for error in _errors(data, schema):
        for path, check, message, fix, at_key, instead in _explained(error, tree, vocabulary, schema, found):
            if path not in found:  # the first says enough: the type before the choice
                found[path] = _problem(tree, path, check, message, fix, at_key, instead)
    if not found:
        found[()] = _unexplained(tree, data, schema)
    problems = sorted(found.values(), key=lambda problem: (problem.place.line, problem.place.column, problem.pointer))
    return problems, {pointer_of(_whole(path, vocabulary, schema)) for path in found}


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


def _explained(error, tree, vocabulary, schema, found):
    """(path, check, message, fix, whether the key is meant, what alone can be meant) for what one error says; ``found``
    is what was told before."""
    path = tuple(error.absolute_path)
    if error.validator == "additionalProperties":
        known = [name for name in error.schema.get("properties", ())]
        for name in error.instance:
            if name not in known:
                yield _unknown_key(path, name, known, vocabulary, schema, len(found) < ENOUGH)
        return
    key = _key(path, vocabulary, schema)
    node = _node(tree, path)
    if error.validator == "required":
        for name in error.validator_value:
            if name not in error.instance:
                needed = f"`{name}` is missing in {called(path, 'entry')}."
                yield path, SHAPE, needed, f"Write `{name}:` with what it stands for.", False, None
    elif error.validator == "not":
        name = called(path)
        yield (
            path,
            SHAPE,
            f"{name} belongs to one coil, and the coils of this set have their own place under `springs`.",
            f"Move it to the coil it is true for: `springs.outer.{path[-1]}`.",
            True,
            None,
        )
    elif error.validator == "enum" and _is_written(node):
        check = SHAPE if True in error.validator_value else CHOICE  # yes and no are no words of choice
        yield (path, check, *unknown_choice(path, node, error.validator_value), False, sure_choice(node.text, error.validator_value))
    elif error.validator == "pattern" and schema == "shop.json":
        text = f"`{short(node.text)}` is not the id of a rule: three to seven words in small letters, joined by hyphens."
        yield path, SHAPE, text, "Say what a good build does, such as `shop-pushrods-are-one-piece`.", False, None
    elif error.validator in ("pattern", "format"):
        yield (path, SHAPE, *unreadable(path, node, key), False, padded_day(path, node, key))
    elif error.validator in ("minItems", "maxItems"):
        pair = ", ".join(key.word.elements) if key and key.word else "value, value"
        said = capital(f"{called(path)} holds {counted(error.instance)}, where a row is a pair.")
        yield path, SHAPE, said, f"Write each row as `[{pair}]`.", False, None
    elif _is_written(node) and choices(path, key):
        yield (path, CHOICE, *unknown_choice(path, node, choices(path, key)), False, sure_choice(node.text, choices(path, key)))
    else:
        yield (path, SHAPE, *wrong_kind(path, node, error.validator_value, key), False, as_list(node, key))


def _unknown_key(path, name, known, vocabulary, schema, searching):
    """What to say of a key that does not stand in the schema; ``searching`` for what it may have meant takes its time."""
    place = called(path, "entry") if path else _WHOLE.get(schema, "the catalogue")
    message = capital(f"{place} has no key `{short(name)}`.")
    if not searching:
        advice = f"What may stand here: {listed(known)}."
    elif schema == "shop.json":  # the words of a spec have no place in it
        near = suggest(name, known)
        advice = f"Did you mean `{near}`?" if near else f"What may stand here: {listed(known)}."
    else:
        advice = for_key(path, name, known, _key(path, vocabulary, schema), vocabulary)
    return (*path, name), KEY, message, advice, True, None if schema == "shop.json" else sure_key(name, known)


def _is_written(node):
    return isinstance(node, Scalar) and node.value is not None


def _problem(tree, path, check, message, fix, at_key, instead):
    place = _place(tree, path, at_key)
    edit = Edit(NOTATION, pointer_of(path), instead, place, at_key) if instead else None
    return Problem(check, message, place, fix, "error", pointer_of(path), edit=edit)


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


def _unexplained(tree, data, schema):
    """The rare case that only the compiled validator objects: say so rather than let it pass."""
    try:
        error = next(iter(compiled(schema).iter_errors(data)), None)
    except (ValueError, OverflowError, RecursionError):
        error = None
    path = tuple(error.instance_path) if error else ()
    message = f"The spec does not have the shape of its schema at {called(path)}."
    return _problem(tree, path, SHAPE, message, "Compare it with the schema's description of this key.", False, None)
