"""The words of the build spec, read from the schema files, and the tree of keys to walk a spec along.

A word is a path inside a scope, joined by underscores; the schema's annotations alone say how (``word``,
``scope``, ``scope_of``). Nothing is checked here: whether a spec has the schema's shape is asked in
validate, whether the schema is sound is asked by the tests.
"""

import functools
import json
from typing import NamedTuple

from buildlint.house import folder

LEAF, HEADING, INSTANCE, CONTAINER, BOOKKEEPING = "leaf", "heading", "instance", "container", "bookkeeping"

SCOPES = ("build", "side", "spring", "ring", "bearing", "joint", "step", "item")

class Word(NamedTuple):
    """One word of the vocabulary.

    ``dimension`` is a dimension of units, or "text", "date", "part_number", "yes_no", "thread", "choice",
    "list", "table" or "entries". ``elements`` tells what a list, table or entry is made of: ("count",),
    ("list of count",), ("length", "force"), or the (field, dimension) pairs of an entry. ``choices`` are the
    values a choice may take; where ``open``, own names are allowed beside them. ``typical`` is text, and
    ``plausible`` a pair of texts or None. ``per`` is "cylinder" or "journal" where the value may be a list.
    ``measured`` is what only the assembled engine tells: before, it is asked for by what it follows from.
    ``sampled`` is a list that is taken on a cylinder or two: none of it is missed.
    """

    name: str
    scope: str
    dimension: str
    meaning: str
    typical: str | None
    plausible: tuple | None
    path: str
    per: str | None
    choices: tuple | None
    elements: tuple
    open: bool
    measured: bool = False
    sampled: bool = False


class Key:
    """One key of the spec's tree.

    ``kind`` is LEAF (a word stands under it), HEADING (more keys in the same scope), INSTANCE (its keys
    are words of the scope ``scope``), CONTAINER (its children are instances of ``scope``) or BOOKKEEPING
    (no words). ``children`` maps the names below; ``any`` is the Key for every other name (joints) or for
    each item of a list (steps, items). ``word`` is a leaf's Word; ``alone`` is its Word in the scope spring
    where the set is one coil and stands for it. A coil's own key under ``spring`` has only ``alone``.
    """

    __slots__ = ("name", "kind", "scope", "title", "meaning", "word", "alone", "children", "any")

    def __init__(self, name, kind, scope, title, meaning, word=None, alone=None, children=None, any=None):
        self.name = name
        self.kind = kind
        self.scope = scope
        self.title = title
        self.meaning = meaning
        self.word = word
        self.alone = alone
        self.children = children or {}
        self.any = any

    def child(self, name):
        """The Key under ``name``, or None."""
        return self.children.get(name) or self.any

    def __repr__(self):
        return f"Key({self.name!r}, {self.kind}, {self.scope})"


class Vocabulary(NamedTuple):
    """``words`` by (scope, name), ``tree``, the Key of a whole build spec, and the values that a choice in an entry may
    take, by the entry's path and the field."""

    words: dict
    tree: Key
    entry_choices: dict


@functools.cache
def load():
    """The vocabulary of the build spec, read once per process."""
    reader = _Reader()
    tree = reader.key("", {"$ref": "build.json"}, "build.json", "build", "", "")
    for key in reader.coils:
        key.alone = reader.words["spring", key.name]
    return Vocabulary(reader.words, tree, reader.entry_choices)


@functools.cache
def document(name):
    """The parsed schema file ``name``, a path inside the schemas with forward slashes: headings/block.json."""
    with open(f"{folder('schemas')}/{name}", encoding="utf-8") as file:
        return json.load(file)


@functools.cache
def target(reference, name):
    """(file, steps) that the ``$ref`` of a schema in the file ``name`` leads to."""
    file, _, pointer = reference.partition("#")
    if file:
        parts = name.split("/")[:-1]
        for part in file.split("/"):
            parts = parts[:-1] if part == ".." else [*parts, part]
        name = "/".join(parts)
    return name, pointer.split("/")[1:]


def suggest(name, known):
    """The one of ``known`` that ``name`` was most likely meant to be, or None: the question "did you mean".

    Knows the spellings of both sides of the Atlantic, and for a dotted path (engine.bore) the usual place.
    """
    from buildlint.spelling import nearest  # only a name that is not known needs it

    return nearest(name, known)


def or_meant(name, known, otherwise=""):
    """The question for a name that was probably misspelt, to stand behind a sentence; ``otherwise`` where there is none."""
    meant = suggest(name, known)
    return f"; did you mean {meant}?" if meant else otherwise


def outside_names(scope_kind, instance_name, word):
    """The name of ``word`` of one instance as it is called outside of it: name before kind.

    ("side", "intake", "valve_margin") is intake_valve_margin, ("ring", "top", "end_gap") is
    top_ring_end_gap.
    """
    if scope_kind == "side":
        return f"{instance_name}_{word}"
    return f"{instance_name}_{scope_kind}_{word}"


class _Reader:
    """Walks the schema files from build.json and gathers words as it goes."""

    def __init__(self):
        self.words = {}
        self.entry_choices = {}
        self.coils = []
        self._keys = {}
        self._dimensions = {}

    def key(self, key, schema, file, scope, beginning, path):
        """The Key of ``schema``, which stands in ``file``; its words go to ``scope`` and begin so."""
        reference = schema.get("$ref")
        own_scope = schema.get("scope")
        words = schema.get("words", True)
        while reference and "quantities.json#" not in reference and "choices.json#" not in reference:
            schema, file = _find(reference, file)
            shared = document(file).get("path")
            if shared:
                path = shared + path[path.index(".") :]
            reference = schema.get("$ref")
            own_scope = own_scope or schema.get("scope")
        if not words:
            return Key(key, BOOKKEEPING, None, schema.get("title"), schema.get("description"))
        if "properties" not in schema and "scope_of" not in schema:
            return self.leaf(key, schema, scope, own_scope, beginning, path)
        seen = (id(schema), scope, beginning, path)
        found = self._keys.get(seen)
        if found is None:
            found = self._keys[seen] = self.branch(key, schema, file, scope, own_scope, beginning, path)
        return found

    def branch(self, key, schema, file, scope, own_scope, beginning, path):
        """The Key of an object: a heading, an instance of a scope, or a container of instances."""
        title, meaning = schema.get("title"), schema.get("description")
        inner = schema.get("scope_of")
        if inner:
            return self.container(key, schema, file, inner, path)
        if own_scope:
            scope, beginning = own_scope, ""
        else:
            begins = schema.get("word", key)
            beginning = f"{beginning}{begins}_" if begins else beginning
        kind = INSTANCE if own_scope else HEADING
        return Key(key, kind, scope, title, meaning, children=self.children(schema, file, scope, beginning, path))

    def container(self, key, schema, file, inner, path):
        """The Key of rings, bearings, joints, springs, steps, items: what is in them is an instance."""
        title, meaning = schema.get("title"), schema.get("description")
        if schema.get("type") == "array":
            items = schema["items"]
            children = self.children(items, file, inner, "", f"{path}[].")
            each = Key(inner, INSTANCE, inner, items.get("title"), items.get("description"), children=children)
            return Key(key, CONTAINER, inner, title, meaning, any=each)
        below = f"{path}.<{inner}>."
        instances = {}
        for name, child in schema["properties"].items():
            if name == "notes":
                instances[name] = Key(name, BOOKKEEPING, None, None, None)
                continue
            shape, home = _find(child["$ref"], file)
            instances[name] = self.instance(name, shape, home, inner, below, child)
        others = schema.get("additionalProperties")
        each = None
        if others:
            shape, home = _find(others["$ref"], file)
            each = self.instance(f"<{inner}>", shape, home, inner, below, shape)
        return Key(key, CONTAINER, inner, title, meaning, children=instances, any=each)

    def instance(self, name, shape, file, scope, below, told):
        """One named instance; the keys below are shared by all instances of the same shape."""
        seen = (id(shape), scope, "", below)
        children = self._keys.get(seen)
        if children is None:
            children = self._keys[seen] = self.children(shape, file, scope, "", below)
        return Key(name, INSTANCE, scope, told.get("title"), told.get("description"), children=children)

    def children(self, schema, file, scope, beginning, path):
        """The Keys of an object's properties, by name. ``path`` is empty or ends with what joins it."""
        if path and not path.endswith("."):
            path += "."
        found = {}
        for name, child in schema["properties"].items():
            if name == "notes":
                found[name] = Key(name, BOOKKEEPING, None, None, None)
            else:
                found[name] = self.key(name, child, file, scope, beginning, path + name)
        return found

    def leaf(self, key, schema, scope, own_scope, beginning, path):
        """The Key of a value, whose Word is noted in the vocabulary."""
        word = None if own_scope == "spring" else self.word(beginning + key, scope, schema, path)
        found = Key(key, LEAF, scope, schema.get("title"), schema.get("description"), word)
        if own_scope:
            self.coils.append(found)
        return found

    def word(self, name, scope, schema, path):
        """The Word ``name``, made from its schema and noted."""
        dimension, choices, elements, own_names = self.dimension(schema)
        examples = schema.get("examples")
        plausible = schema.get("plausible")
        word = Word(
            name,
            scope,
            dimension,
            schema.get("description", ""),
            _shown(examples[0]) if examples else None,
            tuple(plausible) if plausible else None,
            path,
            schema.get("per"),
            choices,
            elements,
            own_names,
            schema.get("measured", False),
            schema.get("sampled", False),
        )
        self.words[scope, name] = word
        for field, own in schema.get("items", {}).get("properties", {}).items() if dimension == "entries" else ():
            if "choices.json#" in own.get("$ref", ""):
                self.entry_choices[path, field] = self.dimension(own)[1]
        return word

    def dimension(self, schema):
        """(dimension, choices or None, elements, own names allowed) of a value's schema."""
        reference = schema.get("$ref")
        if reference:
            told = self._dimensions.get(reference)
            if told is None:
                name = reference.rpartition("/")[2]
                if "choices.json#" in reference:
                    choice = document("choices.json")["$defs"][name]
                    told = "choice", _values(choice), (), bool(choice.get("open"))
                else:
                    told = document("quantities.json")["$defs"][name]["dimension"], None, (), False
                self._dimensions[reference] = told
            return told
        listed = schema.get("list_of")
        if listed:
            choice = document("choices.json")["$defs"].get(listed)
            if choice:
                return "list", _values(choice), ("choice",), bool(choice.get("open"))
            return "list", None, (listed,), False
        if "table" in schema:
            return "table", None, tuple(schema["table"]), False
        fields = schema["items"]["properties"].items()
        told = tuple((name, self.dimension(field)[0]) for name, field in fields if name != "notes")
        return "entries", None, told, False


def _find(reference, name):
    """The schema that ``reference`` in the file ``name`` points at, and the file it stands in."""
    name, steps = target(reference, name)
    schema = document(name)
    for step in steps:
        schema = schema[step]
    return schema, name


def _values(choice):
    return tuple(choice.get("enum") or choice["examples"])


def _shown(example):
    """An example as a builder writes it."""
    if isinstance(example, list):
        return "[" + ", ".join(_shown(part) for part in example) + "]"
    return str(example)
