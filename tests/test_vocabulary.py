"""The schema files as a vocabulary: every key gives one word, no word has two meanings, everything is told."""

import json
import re
import subprocess
import sys
from pathlib import Path

import jsonschema
import pytest

from buildlint import vocabulary
from buildlint.house import folder
from buildlint.quantities import read
from buildlint.units import DIMENSIONS
from buildlint.vocabulary import BOOKKEEPING, CONTAINER, HEADING, INSTANCE, LEAF, outside_names, suggest

KEYS = (Path(__file__).parent / "specs" / "keys.txt").read_text(encoding="utf-8").split()
SCHEMAS = sorted(Path(folder("schemas")).rglob("*.json"))
PERMITS = [path for path in KEYS if path.startswith("permits[]")]
VOCABULARY_FILES = [
    path.relative_to(folder("schemas")).as_posix()
    for path in SCHEMAS
    if path.parent.name == "headings" or path.name in ("build.json", "catalogue.json", "quantities.json", "choices.json")
]
PLAIN = ("text", "date", "part_number", "yes_no", "thread", "choice", "list", "table", "entries")

# With what the words of a heading begin, written down a second time: the schema must say the same.
BEGINNINGS = {
    "rods": "rod",
    "pistons": "piston",
    "heads": "head",
    "lifters": "lifter",
    "pushrods": "pushrod",
    "rockers": "rocker",
    "oiling": "oil",
    "fuel_system": "fuel",
    **dict.fromkeys(
        "build engine sealing induction ignition cooling exhaust_system accessories driveline".split(), ""
    ),
}
INSIDE = {
    "<side>": "side",
    "intake": "side",
    "exhaust": "side",
    "rings.<ring>": "ring",
    "bearings.<bearing>": "bearing",
    "joints.<joint>": "joint",
    "<side>.springs.<spring>": "spring",
    "assembly.steps[]": "step",
    "order.items[]": "item",
}
OUTER = {"side": ("build",), "spring": ("side", "build"), **dict.fromkeys(("ring", "bearing", "joint", "step", "item"), ("build",))}
RESERVED = ("_smallest", "_largest", "_spread", "_computed", "_written", "_plan", "_planned", "_measured")


@pytest.fixture(scope="module")
def words():
    return vocabulary.load().words


def leaves(key=None, path="", seen=None):
    """(path without templates, Key) of every leaf of the tree; joints by one name besides the known ones."""
    key = key or vocabulary.load().tree
    for name, child in key.children.items():
        where = f"{path}.{name}" if path else name
        if child.kind == LEAF:
            yield where, child
        else:
            yield from leaves(child, where)
    if key.any:
        yield from leaves(key.any, f"{path}.another")


def at(path):
    """The Key that a path of the ledger leads to."""
    key = vocabulary.load().tree
    for step in path.replace("[]", ".each").split("."):
        step = {"<side>": "intake", "<spring>": "outer", "<ring>": "top", "<bearing>": "main"}.get(step, step)
        key = key.child(step)
        assert key is not None, path
    return key


def expected_word(path):
    """(scope, word) that a key must give, by the rules of section headings and scopes."""
    start = max((inside for inside in INSIDE if path.startswith(inside + ".")), key=len, default=None)
    if start:
        steps = path[len(start) + 1 :].split(".")
        scope = INSIDE[start]
    else:
        heading, *steps = path.split(".")
        beginning = BEGINNINGS.get(heading, heading)
        steps = [beginning, *steps] if beginning else steps
        scope = "build"
    return scope, "_".join("lock" if step == "locks" and scope == "side" else step for step in steps)


def test_no_key_of_the_ledger_is_lost():
    assert len(KEYS) == len(set(KEYS)) == 1131
    for path in KEYS:
        if path not in PERMITS:
            assert at(path).kind in (LEAF, BOOKKEEPING), path
    permit = vocabulary.document("headings/permits.json")["items"]["properties"]
    assert [f"permits[].{name}" for name in permit if name != "notes"] == PERMITS


def test_every_key_gives_the_word_its_path_says(words):
    without = {path for path in KEYS if path not in PERMITS and at(path).kind == BOOKKEEPING}
    assert without == {path for path in KEYS if "." not in path}
    for path in KEYS:
        if path not in PERMITS and path not in without:
            word = words[expected_word(path)]
            assert word.path == path
            assert at(path).word == word or at(path).alone == word


def test_a_key_that_is_not_on_the_ledger_is_a_part_number(words):
    """Every part may name its part; any other new key is written on the ledger, where it stays."""
    told = {word.path for word in words.values()}
    new = {path for path in told - set(KEYS) if not path.endswith(".part")}
    sides = {path for path in new if re.match(r"<side>\.(lifter|pushrod|rocker)\.", path)}
    assert {path.replace("<side>.", "").replace(".", "s.", 1) for path in sides} <= set(KEYS)
    assert new == sides
    assert len(words) == 1247


def test_no_two_keys_give_one_word():
    paths = {}
    for _, key in leaves():
        for word in (key.word, key.alone):
            if word:
                paths.setdefault((word.scope, word.name), set()).add(word.path)
    assert {name: found for name, found in paths.items() if len(found) > 1} == {}
    assert set(paths) == set(vocabulary.load().words)


def test_a_word_of_an_inner_scope_hides_none_of_an_outer_one(words):
    hidden = {
        (scope, name)
        for scope, name in words
        for outer in OUTER.get(scope, ())
        if (outer, name) in words and not re.match(r"(lifter|pushrod|rocker)_", name)
    }
    assert hidden == set()


def test_lifter_pushrod_and_rocker_stand_in_a_side_with_the_same_words(words):
    for heading in ("lifter_", "pushrod_", "rocker_"):
        outside = {name for scope, name in words if scope == "build" and name.startswith(heading)}
        inside = {name for scope, name in words if scope == "side" and name.startswith(heading)}
        assert outside == inside and len(inside) > 15


def test_a_name_from_outside_is_no_other_word(words):
    build = {name for scope, name in words if scope == "build"}
    instances = {"side": ("intake", "exhaust"), "ring": ("top", "second", "oil"), "bearing": ("main", "rod", "cam")}
    instances["joint"] = vocabulary.load().tree.children["joints"].children
    seen = {}
    for kind, names in instances.items():
        for instance in names:
            for scope, name in words:
                if scope == kind:
                    outside = outside_names(kind, instance, name)
                    assert outside not in build, outside
                    assert seen.setdefault(outside, (kind, instance, name)) == (kind, instance, name)


@pytest.mark.parametrize(
    ("kind", "instance", "word", "outside"),
    [
        ("side", "intake", "valve_head_diameter", "intake_valve_head_diameter"),
        ("ring", "top", "end_gap", "top_ring_end_gap"),
        ("bearing", "main", "clearance", "main_bearing_clearance"),
        ("joint", "head", "torque", "head_joint_torque"),
        ("spring", "outer", "wire_diameter", "outer_spring_wire_diameter"),
    ],
)
def test_from_outside_the_name_stands_before_the_kind(kind, instance, word, outside):
    assert outside_names(kind, instance, word) == outside
    assert (kind, word) in vocabulary.load().words


def test_no_word_ends_as_the_house_ends_its_own(words):
    assert [name for _, name in words if name.endswith(RESERVED)] == []


def test_what_is_true_of_one_coil_may_stand_under_spring(words):
    spring = at("<side>.spring")
    coil = at("<side>.springs.<spring>")
    assert coil.kind == INSTANCE and coil.scope == "spring" and at("<side>.springs").kind == CONTAINER
    for name, key in coil.children.items():
        if key.kind == LEAF and name != "part":
            assert spring.children[name].alone == key.word == words["spring", name]
    assert spring.children["wire_diameter"].word is None
    assert spring.children["rate"].word == words["side", "spring_rate"]
    assert spring.children["seat_load"].alone is None


def test_the_tree_tells_what_each_key_is():
    tree = vocabulary.load().tree
    kinds = {"block": HEADING, "intake": INSTANCE, "rings": CONTAINER, "joints": CONTAINER, "permits": BOOKKEEPING}
    assert {name: tree.children[name].kind for name in kinds} == kinds
    assert tree.children["intake"].scope == "side"
    assert tree.children["joints"].child("head").scope == "joint"
    assert tree.children["joints"].child("a_name_of_our_own").kind == INSTANCE
    assert tree.children["joints"].child("notes").kind == BOOKKEEPING
    assert tree.children["rings"].child("third") is None
    assert tree.children["assembly"].child("steps").any.scope == "step"
    assert tree.children["block"].child("bore").word.scope == "build"


def test_a_word_tells_what_its_values_are(words):
    assert words["build", "firing_order"].dimension == "list" and words["build", "firing_order"].elements == ("count",)
    assert words["build", "banks"].elements == ("list of count",)
    assert words["side", "spring_load_table"].elements == ("length", "force")
    assert words["build", "assembly_lubricants"].elements == (("surface", "choice"), ("product", "choice"))
    assert words["build", "rocker_guided_by"].dimension == "list" and "guideplate" in words["build", "rocker_guided_by"].choices
    assert words["build", "lifter_kind"].choices == ("hydraulic_flat", "solid_flat", "hydraulic_roller", "solid_roller")
    assert words["step", "step"].open and len(words["step", "step"].choices) == 56
    assert not words["build", "stage"].open
    assert words["build", "block_bore"].per == "cylinder" and words["bearing", "clearance"].per == "journal"
    assert sum(word.per is not None for word in words.values()) == 48 + 7  # seven more inside the sides
    assert words["build", "block_bore"].plausible == ("2.4 in", "5.6 in")


# What people are told


def test_every_word_is_told_in_a_sentence(words):
    for word in words.values():
        assert re.fullmatch(r"[A-Z].{8,}[.?]", word.meaning), word
    for path, key in leaves():
        assert key.title, path


def headings(key, path=""):
    for name, child in key.children.items():
        if child.kind != LEAF and name != "notes":
            yield f"{path}{name}", child
            yield from headings(child, f"{path}{name}.")


def test_every_heading_is_told_in_a_sentence():
    for path, key in headings(vocabulary.load().tree):
        assert key.title and re.fullmatch(r"[A-Z].{4,}[.]", key.meaning), path


def test_every_example_and_range_is_a_quantity_of_its_dimension(words):
    looked = 0
    for word in words.values():
        if word.dimension in PLAIN:
            continue
        dimensions = ("length", "time") if word.dimension == "length_or_time" else (word.dimension,)
        assert set(dimensions) <= set(DIMENSIONS), word
        if word.typical:
            read(word.typical, dimensions[0])
            looked += 1
        if word.plausible:
            low, high = (read(text, dimensions[0]) for text in word.plausible)
            assert low < high, word
            if word.typical:
                assert low <= read(word.typical, dimensions[0]) <= high, word
    assert looked > 600


def test_lists_and_tables_are_made_of_known_things(words):
    for word in words.values():
        if word.dimension in ("list", "table"):
            known = {*DIMENSIONS, "text", "choice", "list of count"}
            assert set(word.elements) <= known, word
        if word.dimension == "entries":
            assert {dimension for _, dimension in word.elements} <= {*DIMENSIONS, *PLAIN}, word


def test_only_quantities_have_ranges(words):
    of_lists = {word for word in words.values() if word.plausible and word.dimension in PLAIN}
    assert {word.name for word in of_lists} == {"crank_throw_angles", "breather_hose_diameters"}
    for word in of_lists:
        low, high = (read(text, word.elements[0]) for text in word.plausible)
        assert all(low <= read(text, word.elements[0]) <= high for text in word.typical.strip("[]").split(", "))


# The files themselves


def schemas_within(schema):
    """Every schema inside ``schema``, itself included."""
    yield schema
    for keyword in ("properties", "$defs", "dependentSchemas"):
        for child in schema.get(keyword, {}).values():
            yield from schemas_within(child)
    for keyword in ("items", "additionalProperties", "if", "then", "not"):
        if isinstance(schema.get(keyword), dict):
            yield from schemas_within(schema[keyword])
    for child in schema.get("prefixItems", ()):
        yield from schemas_within(child)


@pytest.mark.parametrize("name", VOCABULARY_FILES)
def test_a_schema_file_is_sound(name):
    document = vocabulary.document(name)
    jsonschema.Draft202012Validator.check_schema(document)
    for schema in schemas_within(document):
        assert "$id" not in schema and "oneOf" not in schema, "an editor must find its way by the file names"
        if "$ref" in schema:
            file, steps = vocabulary.target(schema["$ref"], name)
            found = vocabulary.document(file)
            for step in steps:
                found = found[step]
            assert isinstance(found, dict)
        if "properties" in schema and schema.get("type") == "object":
            assert schema["additionalProperties"] is False or document["title"] == "Joints"
            assert "notes" in schema["properties"]


def test_every_value_of_choice_is_used_and_listed_once():
    choices = vocabulary.document("choices.json")["$defs"]
    used = {
        schema["$ref"].rpartition("/")[2]
        for name in VOCABULARY_FILES
        for schema in schemas_within(vocabulary.document(name))
        if "choices.json#" in schema.get("$ref", "")
    }
    assert used == set(choices)
    for name, choice in choices.items():
        values = choice.get("enum") or choice["examples"]
        assert len(values) == len(set(values)) > 1, name
        assert all(re.fullmatch(r"[a-z0-9_]+|[0-9]+W-[0-9]+|SAE [0-9]+", value) for value in values), name
        assert len(choice.get("enumDescriptions", values)) == len(values), name
        assert choice["title"] and choice["description"].endswith("."), name
        assert name not in DIMENSIONS and name not in PLAIN, "list_of could not tell it from a dimension"


def test_the_spelling_is_american():
    text = "".join(path.read_text(encoding="utf-8") for path in SCHEMAS).lower()
    for british in ("aluminium", "centre", "carburettor", "petrol", "litre", "colour", "fibre", "vapour", "grey"):
        assert not re.search(rf"\b{british}\b", text.replace("_", " ")), british


def test_reading_the_vocabulary_loads_nothing_heavy():
    code = (
        "import sys; before = set(sys.modules); from buildlint import vocabulary; vocabulary.load();"
        "print(' '.join(sorted(set(sys.modules) - before)))"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=Path(__file__).parents[1])
    loaded = {name.partition(".")[0] for name in run.stdout.split()}
    assert loaded.isdisjoint({"dataclasses", "inspect", "jsonschema", "jsonschema_rs", "difflib", "pathlib", "numpy", "pint", "yaml"})


def test_the_schemas_are_plain_ascii_but_for_the_sign_of_multiplication():
    strange = {
        character
        for path in SCHEMAS
        if path.relative_to(folder("schemas")).as_posix() in VOCABULARY_FILES
        for character in path.read_text(encoding="utf-8")
        if ord(character) > 126
    }
    assert strange == {"\N{MULTIPLICATION SIGN}"}


# Did you mean


@pytest.mark.parametrize(
    ("name", "meant"),
    [
        pytest.param("carburettor_flow", "carburetor_flow", id="a British carburetor"),
        pytest.param("lobe_centreline", "lobe_centerline", id="a British centerline"),
        pytest.param("head_aluminium", None, id="a word that is nothing here"),
        pytest.param("installed_hight", "installed_height", id="a slip of the finger"),
        pytest.param("height_installed", "installed_height", id="words in another order"),
        pytest.param("rod_lengths", "rod_length", id="plural for singular"),
        pytest.param("Rod-Length", "rod_length", id="capitals and hyphens"),
        pytest.param("rod_weight", "rod_mass", id="weight for mass"),
        pytest.param("gudgeon_pin", "pin", id="a British pin"),
        pytest.param("qwertyuiop", None, id="nonsense"),
        pytest.param("", None, id="nothing"),
    ],
)
def test_a_near_miss_is_answered_with_what_was_meant(name, meant):
    known = ["carburetor_flow", "lobe_centerline", "installed_height", "rod_length", "rod_mass", "pin", "head_material"]
    assert suggest(name, known) == meant


def test_a_path_is_answered_with_the_usual_place(words):
    paths = {word.path for word in words.values()}
    assert suggest("engine.bore", paths) == "block.bore"
    assert suggest("engine.stroke", paths) == "crank.stroke"
    assert suggest("deck_clearance", paths) == "pistons.below_deck"


def test_every_usual_place_exists_and_is_not_where_it_is_looked_for():
    from buildlint.spelling import AMERICAN, USUAL_PLACES

    for wrong, place in USUAL_PLACES.items():
        assert at(place), place
        assert wrong != place
        if "." in wrong:
            heading, _, name = wrong.rpartition(".")
            assert name not in at(heading).children, f"{wrong} is a key of its own"
    assert all(british != american for british, american in AMERICAN.items())


def test_the_parsed_files_are_the_files():
    for name in VOCABULARY_FILES:
        assert vocabulary.document(name) == json.loads((Path(folder("schemas")) / name).read_text(encoding="utf-8"))


# -- every word is looked at ------------------------------------------------------------------------------

# What is written for people or read as a whole, with the reason. A word that no rule asks for would be silence.
FOR_PEOPLE = {
    "name", "number", "bag_label", "because",  # titles and labels: printed, searched, told
    "serves", "needed_on", "sheet_dated",  # read into words that rules ask for: joint_name, steps_wanted_on, order_lines
    "crank_cheek_thickness", "crank_cheek_width",  # for the stiffness of a throw, which explain works out
    "land_width", "block_bore_material_ratio", "block_deck_land_behind_bore", "block_pan_rail_notched", "converter_lockup",
    "dyno_sweep_rate", "front_seal_sleeve", "head_flow_with", "manifold_bolt_hole_clearance", "manifold_height", "oil_base",
    "piston_skirt_coating_thickness", "pushrod_taper", "retainer_outside_diameter",  # for the sheet: no limit that holds for every engine is known
}


def test_every_word_is_looked_at_by_a_rule_or_is_for_people(words):
    from buildlint import road
    from buildlint.resolve import split_ending, split_outside

    def inner(name):
        parts = split_outside(name)
        return [name] if parts is None else [name, *inner(parts[1])]

    asked, waiting = set(), [word for rule in road.rules() for word in (*rule.words, *rule.when)]
    while waiting:
        for name in inner(waiting.pop()):
            ending = split_ending(name)
            for word in (name, *(inner(ending[0]) if ending else ())):
                if word not in asked:
                    asked.add(word)
                    waiting += [wanted for way in road.ways().get(word, ()) for wanted in way.inputs]
    unseen = {word.name for word in words.values() if word.name not in asked and str(word.dimension) != "part_number"}
    assert unseen == FOR_PEOPLE
