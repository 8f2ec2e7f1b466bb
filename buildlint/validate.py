"""Whether a spec has the shape that the JSON Schema asks for, and where it has not, told in the builder's words.

A compiled validator decides; only a spec it refuses is looked at again by the one that can say why. Whether
the text of a quantity can be read, and whether a value makes sense, is not asked here.
"""

import functools
import math

from buildlint.model import Mapping, Scalar, Sequence
from buildlint.vocabulary import document, target

# Keywords that tell people something and decide nothing; the validators are spared them.
_TOLD = frozenset(
    "$schema title description examples enumDescriptions plausible per path word words scope scope_of dimension "
    "list_of table entries open".split()
)
_LEADING_ON = _TOLD | {"$ref"}
_BY_NAME = frozenset(("properties", "$defs", "dependentSchemas"))
_INNER = frozenset(("items", "additionalProperties", "if", "then", "else", "not"))
_LARGEST = 2**63  # beyond it whole numbers are given to the validators as decimals


def validate(tree, vocabulary, schema="build.json"):
    """(problems, pointers of what is broken) of the node tree of a spec.

    ``schema`` is the schema file to hold it against: "build.json" or "catalogue.json". The pointers
    (RFC 6901) name unknown keys, headings of a wrong shape, entries of a list of entries (sign-offs, permits)
    and whole values with anything wrong in them; all else can be judged.
    """
    data = plain(tree)
    if _is_valid(data, schema):
        return [], set()
    from buildlint.shape import told  # wording, and the libraries it needs, only for a spec with mistakes

    return told(tree, data, vocabulary, schema)


def plain(node):
    """The node tree as plain mappings, lists and values, as the validators take them."""
    kind = type(node)
    if kind is Scalar:
        value = node.value
        if type(value) is float and not math.isfinite(value):
            return node.text  # JSON has no such numbers
        if type(value) is int and not -_LARGEST <= value < _LARGEST:
            return float(value) if abs(value) < 10**300 else node.text
        return value
    if kind is Mapping:
        return {key: plain(entry.node) for key, entry in node.entries.items()}
    if kind is Sequence:
        return [plain(item) for item in node.items]
    raise TypeError(f"{kind.__name__} is not a node of a spec")


@functools.cache
def bundle(schema):
    """The schema file ``schema`` with all files it refers to, in one document without remarks."""
    definitions = {}
    waiting = [schema]
    while waiting:
        name = waiting.pop()
        if name not in definitions:
            definitions[name] = _portable(document(name), name, waiting)
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$ref": _inside(schema, []),
        "$defs": definitions,
    }


def _portable(schema, name, waiting):
    """``schema`` of the file ``name`` with its references turned inward; files they lead to are added."""
    if not isinstance(schema, dict):
        return schema
    if "$ref" in schema and schema.keys() <= _LEADING_ON:  # nearly all of them
        file, found = _reference(schema["$ref"], name)
        waiting.append(file)
        return found
    found = {}
    for keyword, value in schema.items():
        if keyword in _TOLD:
            continue
        if keyword == "$ref":
            file, reference = _reference(value, name)
            waiting.append(file)
            found |= reference
        elif keyword in _BY_NAME:
            found[keyword] = {key: _portable(child, name, waiting) for key, child in value.items()}
        elif keyword in _INNER:
            found[keyword] = _portable(value, name, waiting)
        elif keyword == "prefixItems":
            found[keyword] = [_portable(child, name, waiting) for child in value]
        else:
            found[keyword] = value
    others = found.get("additionalProperties")
    if others and "properties" in found:  # joints: a known name asks no more than any other, and need not be compiled again
        found["properties"] = {key: child for key, child in found["properties"].items() if child != others}
    return found


@functools.cache
def _reference(reference, name):
    """The file that ``reference`` of the file ``name`` leads to, and the same reference turned inward."""
    file, steps = target(reference, name)
    return file, {"$ref": _inside(file, steps)}


def _inside(file, steps):
    return "/".join(("#/$defs", file.replace("/", "~1"), *steps))


@functools.cache
def compiled(schema):
    """The compiled validator of the schema file ``schema``."""
    import jsonschema_rs  # 23 ms, so not before there is a spec

    return jsonschema_rs.Draft202012Validator(bundle(schema), validate_formats=True)


def _is_valid(data, schema):
    try:
        return compiled(schema).is_valid(data)
    except (ValueError, OverflowError, RecursionError):  # text that is no Unicode, too deep: the other one decides
        return False
