"""A spec is held against its schema: what is left alone, what is reported, where, and with which advice."""

import copy
import json
import random
import subprocess
import sys
from pathlib import Path

import jsonschema
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from referencing import Registry, Resource

from buildlint import vocabulary
from buildlint.house import folder
from buildlint.load import load
from buildlint.model import Entry, Mapping, Place, Scalar, Sequence
from buildlint.trees import pointer_of
from buildlint.validate import _is_valid, bundle, plain, validate

SPECS = Path(__file__).parent / "specs"
SAMPLES = sorted(SPECS.glob("*.yaml"))
CHECKS = {"key-is-known", "choice-is-known", "value-has-its-shape"}


def loaded(text, file="spec.yaml"):
    tree, problems = load(text, file)
    assert tree is not None, problems
    return tree


def problems_of(text, schema="build.json"):
    return validate(loaded(text), vocabulary.load(), schema)


def reference(schema="build.json"):
    """The other validator on the same schema, made without the code under test but for the bundle."""
    return jsonschema.Draft202012Validator(
        bundle(schema), registry=Registry(), format_checker=jsonschema.Draft202012Validator.FORMAT_CHECKER
    )


REFERENCE = reference()


def nodes(data):
    """A node tree of plain data, each node on a line of its own."""
    lines = iter(range(1, 10**9))

    def node(value):
        line = next(lines)
        place = Place("spec.yaml", line, 1, line, 2)
        if isinstance(value, dict):
            return Mapping(place, {key: Entry(node(key), node(child)) for key, child in value.items()})
        if isinstance(value, list):
            return Sequence(place, [node(child) for child in value])
        return Scalar(place, str(value), value, not isinstance(value, str))

    return node(data)


# Left alone


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_a_good_spec_is_left_alone(path):
    tree = loaded(path.read_bytes(), path.name)
    assert validate(tree, vocabulary.load()) == ([], set())
    assert REFERENCE.is_valid(plain(tree))


LEFT_ALONE = {
    "an empty heading": "block: {}",
    "only notes": "notes: nothing known yet",
    "a number for a name": "build: {name: 383, number: 00417}",
    "a bare number where units are said": "units: us\nblock: {bore: 4.030}",
    "yes and no": "lifters: {bore_bushed: yes, deep_set: no}",
    "true and false": "lifters: {bore_bushed: true, deep_set: false}",
    "planned and measured": "block: {bore: {plan: 4.030 in, measured: [4.0301 in, 4.0302 in], by: RM, on: 2026-03-02, notes: cold}}",
    "measured only": "crank: {end_play: {measured: 0.006 in}}",
    "a list by cylinder": "pistons: {below_deck: [0.005 in, 0.006 in]}",
    "a list by journal": "bearings: {main: {clearance: [0.0025 in, 0.0026 in]}}",
    "a joint of one's own": "joints: {head_inner: {serves: head, thread: 3/8-16}}",
    "remarks among the joints": "joints: {notes: all of one maker, head: {count: 10}}",
    "a step of one's own": "assembly: {steps: [{step: polish_the_valley, after: [final_wash]}]}",
    "an item of one's own": "order: {items: [{item: dipstick, quantity: 1}]}",
    "coil keys under the one spring": "intake: {spring: {wire_diameter: 0.181 in, active_coils: 4, rate: 300 lbf/in}}",
    "a set with its coils": "intake: {spring: {rate: 400 lbf/in}, springs: {outer: {rate: 300 lbf/in, wire_diameter: 0.2 in}}}",
    "lifter, pushrod and rocker of one side": "exhaust: {pushrod: {length: 7.8 in}, rocker: {ratio: 1.6}, lifter: {bore: 0.8435 in}}",
    "one guide": "rockers: {guided_by: guideplate}",
    "a list of guides": "rockers: {guided_by: [guideplate, head_slot]}",
    "kinds of lifter": "block: {built_for_lifters: [hydraulic_flat, solid_flat]}",
    "a table": "intake: {port: {flow_table: [[0.1 in, 60 ft^3/min], [0.2 in, 120 ft^3/min]]}}",
    "a distance or a time": "ignition: {distributor: {gear_inspection_after: 1000 mi}}",
    "metric threads": "joints: {a: {thread: M8x1.25}, b: {thread: M8}, c: {thread: M11 x 2}, d: {thread: M12×1.5}}",
    "inch threads": "joints: {a: {thread: 7/16-20}, b: {thread: 10-32}, c: {thread: 7/16-14 UNC}, d: {thread: '#10-24'}, e: {thread: 1-1/8-12}}",
    "pipe threads": "sealing: {pipe_fittings: [{thread: 1/8-27 NPT, hole_thread: 1/8-28 BSPT}, {thread: G1/4}]}",
    "single grades": "oiling: {grade: SAE 30, break_in: {grade: 20W-60}}",
    "a part of the catalogue": "intake: {spring: {part: sp-312}}\ncrank: {part: 00417}",
    "a permit": "permits: [{rule: deck-is-flat, because: customer's wish, until: 2026-12-31}]",
    "a template": "based_on: ../templates/street.yaml",
}


@pytest.mark.parametrize("text", LEFT_ALONE.values(), ids=LEFT_ALONE)
def test_what_is_rightly_written_is_left_alone(text):
    assert problems_of(text) == ([], set())
    assert REFERENCE.is_valid(plain(loaded(text)))


@pytest.mark.parametrize("scope", ["intake", "exhaust"])
def test_a_value_for_every_key_at_once_is_valid(scope):
    """The examples of the vocabulary, all written in one spec, have its shape."""

    def example(key):
        if key.kind == vocabulary.BOOKKEEPING:
            return None
        if key.kind == vocabulary.LEAF:
            word = key.word or key.alone
            if word.dimension == "table":
                return [["1", "2"]]
            if word.dimension == "entries":
                return []
            if word.dimension == "list":
                return json.loads("[]") if word.typical is None else loaded_value(word.typical)
            if word.dimension == "choice":
                return word.choices[-1]
            return word.typical or {"date": "2026-05-12", "thread": "7/16-20", "yes_no": "yes"}.get(word.dimension, "1")
        children = {name: example(child) for name, child in key.children.items() if name != "springs"}
        if key.any and not key.children:
            return [example(key.any)]
        return {name: child for name, child in children.items() if child is not None}

    def loaded_value(text):
        value = plain(loaded(f"value: {text}"))["value"]
        return value if isinstance(value, list) else [value]

    data = example(vocabulary.load().tree)
    assert len(data) > 30 and len(data[scope]["spring"]) > 30
    assert [error.message for error in REFERENCE.iter_errors(data)] == []
    assert validate(nodes(data), vocabulary.load()) == ([], set())


# Reported: text with the faulty spot marked <...>, check, pointer, words of the message, words of the fix

REPORTED = {
    "a slip in a key": (
        "block: {<boer>: 4.030 in}",
        "key-is-known",
        "/block/boer",
        "`block` has no key `boer`",
        "Did you mean `bore`?",
    ),
    "the bore under engine": (
        "engine: {<bore>: 4.030 in}",
        "key-is-known",
        "/engine/bore",
        "`engine` has no key `bore`",
        "`block.bore`",
    ),
    "the stroke under engine": ("engine: {<stroke>: 3.75 in}", "key-is-known", "/engine/stroke", "`stroke`", "`crank.stroke`"),
    "deck clearance": (
        "pistons: {<deck_clearance>: 0.005 in}",
        "key-is-known",
        "/pistons/deck_clearance",
        "`deck_clearance`",
        "`pistons.below_deck`",
    ),
    "a British heading": ("<carburettor>: {count: 1}", "key-is-known", "/carburettor", "A build spec", "`induction.carburetor`"),
    "a British key": (
        "intake: {lobe: {<centreline>: 108 deg}}",
        "key-is-known",
        "/intake/lobe/centreline",
        "`intake.lobe` has no key `centreline`",
        "Write `centerline`.",
    ),
    "a key one heading too high": (
        "intake:\n  <installed_height>: 1.8 in",
        "key-is-known",
        "/intake/installed_height",
        "`intake` has no key",
        "Did you mean `intake.spring.installed_height`?",
    ),
    "a word for its path": (
        "engine: {<crank_stroke>: 3.75 in}",
        "key-is-known",
        "/engine/crank_stroke",
        "`crank_stroke`",
        "Did you mean `crank.stroke`?",
    ),
    "a key like nothing": (
        "driveline: {<qwerty>: 1}",
        "key-is-known",
        "/driveline/qwerty",
        "`driveline` has no key `qwerty`",
        "What may stand here: `clutch`, `pilot`, `bellhousing`, `converter`, `notes`.",
    ),
    "an event of the other side": (
        "intake: {lobe: {<opens_before_bottom_at_050>: 50 deg}}",
        "key-is-known",
        "/intake/lobe/opens_before_bottom_at_050",
        "`intake.lobe` has no key",
        "`opens_before_top_at_050`",
    ),
    "a slip beside plan": (
        "block: {bore: {plan: 4.030 in, <mesured>: 4.031 in}}",
        "key-is-known",
        "/block/bore/mesured",
        "`block.bore` has no key `mesured`",
        "Did you mean `measured`?",
    ),
    "a ring that is none": ("rings: {<third>: {}}", "key-is-known", "/rings/third", "`rings`", "`top`, `second`, `oil`"),
    "a slip in a joint": (
        "joints: {head: {<torqe>: 70 lbf-ft}}",
        "key-is-known",
        "/joints/head/torqe",
        "`joints.head` has no key `torqe`",
        "`torque`",
    ),
    "a slip in an entry": (
        "permits:\n  - rule: deck-is-flat\n    because: it is\n    <untill>: 2026-12-31",
        "key-is-known",
        "/permits/0/untill",
        "Entry 1 of `permits` has no key `untill`",
        "Did you mean `until`?",
    ),
    "a key with strange signs": ("block: {<'a/b~c'>: 1}", "key-is-known", "/block/a~1b~0c", "`a/b~c`", "What may stand here"),
    "a slip in a choice": (
        "build: {stage: <plannig>}",
        "choice-is-known",
        "/build/stage",
        "`plannig` is not a value of `build.stage`",
        "Did you mean `planning`?",
    ),
    "a choice like nothing": (
        "oiling: {sump: <moist>}",
        "choice-is-known",
        "/oiling/sump",
        "`moist`",
        "Write one of: `wet`, `dry`.",
    ),
    "a British metal": ("joints: {head: {metal: <aluminium>}}", "choice-is-known", "/joints/head/metal", "`aluminium`", "`aluminum`"),
    "British aluminum without a grade": (
        "heads: {material: <aluminium>}",
        "choice-is-known",
        "/heads/material",
        "`aluminium`",
        "`aluminum_cast` or `aluminum_356_t6`",
    ),
    "a choice in capitals": ("block: {material: <Cast Iron>}", "choice-is-known", "/block/material", "`Cast Iron`", "`cast_iron`"),
    "an oil grade without its hyphen": ("oiling: {grade: <10w40>}", "choice-is-known", "/oiling/grade", "`10w40`", "`10W-40`"),
    "an oil grade without SAE": ("oiling: {grade: <30>}", "choice-is-known", "/oiling/grade", "`30`", "`SAE 30`"),
    "yes for fitted": ("heads: {quench_pad: <yes>}", "choice-is-known", "/heads/quench_pad", "`yes`", "Did you mean `fitted`?"),
    "false for none": ("oiling: {cooler: <false>}", "choice-is-known", "/oiling/cooler", "`false`", "Did you mean `none`?"),
    "a wrong value in a list of choices": (
        "rockers: {guided_by: [<guideplat>, shaft]}",
        "choice-is-known",
        "/rockers/guided_by/0",
        "`guideplat` is not a value of `rockers.guided_by`",
        "`guideplate`",
    ),
    "a wrong choice in an entry": (
        "sealing: {sealed_places: [{place: <intake_front>}]}",
        "choice-is-known",
        "/sealing/sealed_places/0/place",
        "`place` in entry 1 of `sealing.sealed_places`",
        "`intake_front_left` or `intake_front_right`",
    ),
    "neither yes nor no": (
        "lifters: {bore_bushed: <y>}",
        "value-has-its-shape",
        "/lifters/bore_bushed",
        "`y` is not an answer",
        "Write `yes` or `no`.",
    ),
    "a value for a heading": (
        "block: <cast iron>",
        "value-has-its-shape",
        "/block",
        "`block` holds `cast iron`, where keys of its own are expected",
        "`part:`, `material:`, `class:`",
    ),
    "a list for a heading": ("block: <[1, 2]>", "value-has-its-shape", "/block", "`block` holds a list of 2 values", "`part:`"),
    "a list for one value": (
        "crank: {stroke: <[3.75 in]>}",
        "value-has-its-shape",
        "/crank/stroke",
        "`crank.stroke` holds a list of one value, where one value is expected",
        "Write it like `3.750 in`.",
    ),
    "a list by cylinder in the wrong place": (
        "block: {bore: {plan: <[4.03 in, 4.03 in]>}}",
        "value-has-its-shape",
        "/block/bore/plan",
        "`block.bore.plan` holds a list of 2 values",
        "Write it like `4.030 in`.",
    ),
    "true for a length": (
        "block: {bore: <true>}",
        "value-has-its-shape",
        "/block/bore",
        "`block.bore` holds `true`, where one value or a list is expected",
        "Write it like `4.030 in`, or a list with one for each cylinder.",
    ),
    "nothing for a length": (
        "block:\n  bore:<>\n",
        "value-has-its-shape",
        "/block/bore",
        "Nothing is written for `block.bore`.",
        "leave the key out",
    ),
    "nothing in a list": (
        "block: {bore: [4.03 in, <~>]}",
        "value-has-its-shape",
        "/block/bore/1",
        "Nothing is written for value 2 of `block.bore`.",
        "4.030 in",
    ),
    "a firing order with hyphens": (
        "engine: {firing_order: <1-8-4-3-6-5-7-2>}",
        "value-has-its-shape",
        "/engine/firing_order",
        "where a list is expected",
        "Write `[1, 8, 4, 3, 6, 5, 7, 2]`.",
    ),
    "one torque for a list": (
        "joints: {head: {torque_steps: <70 lbf-ft>}}",
        "value-has-its-shape",
        "/joints/head/torque_steps",
        "where a list is expected",
        "Write `[70 lbf-ft]`.",
    ),
    "a mapping for a list": (
        "order:\n  items:\n    <item: pushrod>",
        "value-has-its-shape",
        "/order/items",
        "`order.items` holds keys of its own, where a list is expected",
        "Begin each entry with a dash.",
    ),
    "a row that is no pair": (
        "intake: {spring: {load_table: [[1.8 in, 130 lbf], <[1.5 in]>]}}",
        "value-has-its-shape",
        "/intake/spring/load_table/1",
        "Value 2 of `intake.spring.load_table` holds one value, where a row is a pair",
        "`[length, force]`",
    ),
    "a row with a list in it": (
        "intake: {spring: {load_table: [[1.8 in, <[1]>]]}}",
        "value-has-its-shape",
        "/intake/spring/load_table/0/1",
        "Value 2 in row 1 of `intake.spring.load_table`",
        "rows `[length, force]`",
    ),
    "a day that is none": (
        "heads: {valve_job_on: <2026-02-30>}",
        "value-has-its-shape",
        "/heads/valve_job_on",
        "`2026-02-30` is not a day of the calendar",
        "`2026-05-12`",
    ),
    "an American date": ("created_on: <3/1/2026>", "value-has-its-shape", "/created_on", "`3/1/2026`", "year, month and day"),
    "a day as a number": (
        "heads: {valve_job_on: <20260512>}",
        "value-has-its-shape",
        "/heads/valve_job_on",
        "holds `20260512`, where a day is expected",
        "`2026-04-20`",
    ),
    "the day of a measurement": (
        "block: {bore: {measured: 4.03 in, on: <May>}}",
        "value-has-its-shape",
        "/block/bore/on",
        "`May` is not a day",
        "year, month and day",
    ),
    "no thread": (
        "heads: {plug_thread: <fourteen>}",
        "value-has-its-shape",
        "/heads/plug_thread",
        "`fourteen` is not the name of a thread",
        "`M8x1.25`",
    ),
    "a thread in a list of entries": (
        "sealing: {pipe_fittings: [{thread: <eighth>}]}",
        "value-has-its-shape",
        "/sealing/pipe_fittings/0/thread",
        "not the name of a thread",
        "`7/16-20`",
    ),
    "a coil's key beside springs": (
        "intake: {spring: {<wire_diameter>: 0.18 in}, springs: {outer: {rate: 300 lbf/in}}}",
        "value-has-its-shape",
        "/intake/spring/wire_diameter",
        "`intake.spring.wire_diameter` belongs to one coil",
        "`springs.outer.wire_diameter`",
    ),
    "a permit without its reason": (
        "permits:\n  - <rule: deck-is-flat>",
        "value-has-its-shape",
        "/permits/0",
        "`because` is missing in entry 1 of `permits`",
        "Write `because:`",
    ),
    "a sign-off of nothing": (
        "assembly: {signed: [<{by: AB}>]}",
        "value-has-its-shape",
        "/assembly/signed/0",
        "`check` is missing",
        "Write `check:`",
    ),
    "an entry that is a value": (
        "assembly: {steps: [<prime>]}",
        "value-has-its-shape",
        "/assembly/steps/0",
        "Entry 1 of `assembly.steps` holds `prime`",
        "`step:`",
    ),
    "a list for an open choice": (
        "order: {items: [{item: <[pushrod]>}]}",
        "value-has-its-shape",
        "/order/items/0/item",
        "holds a list of one value",
        "`pushrod`",
    ),
    "a list for a choice": ("oiling: {sump: <[wet]>}", "value-has-its-shape", "/oiling/sump", "a list of one value", "`wet`, `dry`"),
}


@pytest.mark.parametrize("case", REPORTED.values(), ids=REPORTED)
def test_what_is_wrongly_written_is_reported_at_its_place(case):
    marked, check, where, said, advice = case
    start = marked.index("<")
    end = marked.index(">", start) - 1
    text = marked.replace("<", "", 1).replace(">", "", 1)
    problems, broken = problems_of(text)
    assert [(problem.check, problem.pointer, problem.level) for problem in problems] == [(check, where, "error")]
    problem = problems[0]
    line = text.count("\n", 0, start) + 1
    column = start - text.rfind("\n", 0, start)
    assert (problem.place.line, problem.place.column) == (line, column)
    if "\n" not in text[start:end] and text[start:end]:
        assert (problem.place.end_line, problem.place.end_column) == (line, column + end - start)
    assert said in problem.message and advice in problem.fix
    assert broken and not REFERENCE.is_valid(plain(loaded(text)))


def test_several_mistakes_are_reported_each_once_in_the_order_of_the_file():
    problems, broken = problems_of(
        "engine: {bore: 4.03 in, cylinders: [8]}\nblock: cast iron\nbuild: {stage: plannig, duty: street, fuell: e10}\n"
    )
    assert [problem.pointer for problem in problems] == [
        "/engine/bore",
        "/engine/cylinders",
        "/block",
        "/build/stage",
        "/build/fuell",
    ]
    assert broken == {problem.pointer for problem in problems}


@pytest.mark.parametrize(
    ("text", "broken"),
    [
        pytest.param("block: {bore: {plan: [1], measured: 4.03 in}, mains: 5}", {"/block/bore"}, id="the whole value"),
        pytest.param("block: {bore: [4.03 in, true]}", {"/block/bore"}, id="the whole list"),
        pytest.param("block: {boer: 4.03 in, mains: 5}", {"/block/boer"}, id="only the unknown key"),
        pytest.param("assembly: {signed: [{check: a}, {chek: b, check: c}]}", {"/assembly/signed/1"}, id="one sign-off"),
        pytest.param("permits: [{rule: a, because: b}, {rule: a, because: b, untill: x}]", {"/permits/1"}, id="one permit"),
        pytest.param("assembly: {steps: [{step: prime, bcause: x}]}", {"/assembly/steps/0/bcause"}, id="a key of a step"),
        pytest.param("joints: {head: {torqe: 1}, rod: {count: 16}}", {"/joints/head/torqe"}, id="a key of a joint"),
        pytest.param("joints: {head: {positions: [{name: a, x: [1]}]}}", {"/joints/head/positions/0"}, id="one position"),
    ],
)
def test_only_what_is_broken_is_kept_from_being_judged(text, broken):
    assert problems_of(text)[1] == broken


# The catalogue


def test_a_good_catalogue_is_left_alone():
    text = """
sp-312:
  description: beehive spring, invented
  spring: {form: beehive, rate: 358 lbf/in, wire_diameter: 0.181 in}
  retainer: {angle: 7 deg}
00417:
  crank: {stroke: 3.750 in, material: forged_4340}
  bearings: {main: {journal_diameter: 2.448 in}}
st-190: {joint: {strength_class: 190_ksi, thread: 7/16-20}}
"""
    assert problems_of(text, "catalogue.json") == ([], set())
    assert reference("catalogue.json").is_valid(plain(loaded(text)))


@pytest.mark.parametrize(
    ("text", "pointer", "message", "fix"),
    [
        pytest.param("a: {sprung: {}}", "/a/sprung", "`a` has no key `sprung`", "`spring`", id="a slip in a part"),
        pytest.param("a: {spring: {rat: 3 lbf/in}}", "/a/spring/rat", "`a.spring`", "`rate`", id="a slip in a key"),
        pytest.param("a: {joint: {kind: stut}}", "/a/joint/kind", "`stut`", "`stud`", id="a slip in a choice"),
        pytest.param("a: 3", "/a", "`a` holds `3`", "Write its keys", id="no entry"),
        pytest.param("a: {crank: {stroke: [1]}}", "/a/crank/stroke", "a list", "`3.750 in`", id="a list for a value"),
        pytest.param("a: {permits: []}", "/a/permits", "has no key `permits`", "What may", id="no part of a catalogue"),
    ],
)
def test_a_mistake_in_a_catalogue_is_reported(text, pointer, message, fix):
    problems, broken = problems_of(text, "catalogue.json")
    assert [problem.pointer for problem in problems] == [pointer] == sorted(broken)
    assert message in problems[0].message and fix in problems[0].fix


# Both validators agree, and nothing crashes


def test_the_bundle_refers_to_nothing_outside_itself():
    for schema in ("build.json", "catalogue.json"):
        text = json.dumps(bundle(schema))
        assert text.count('"$ref": "') == text.count('"$ref": "#/$defs/') > 1000
        jsonschema.Draft202012Validator.check_schema(bundle(schema))


@pytest.fixture(scope="module")
def as_an_editor_sees_it():
    """The schema files themselves, found by their relative references, as an editor would."""
    root = Path(folder("schemas"))
    files = {path: json.loads(path.read_text(encoding="utf-8")) for path in root.rglob("*.json")}
    found = [(path.as_uri(), Resource.from_contents(document)) for path, document in files.items()]
    return jsonschema.Draft202012Validator(
        {"$ref": (root / "build.json").as_uri()},
        registry=Registry().with_resources(found),
        format_checker=jsonschema.Draft202012Validator.FORMAT_CHECKER,
    )


def test_the_files_and_the_bundle_say_the_same(as_an_editor_sees_it):
    for good in GOOD:
        assert as_an_editor_sees_it.is_valid(good)
    for marked, *_ in REPORTED.values():
        bad = plain(loaded(marked.replace("<", "", 1).replace(">", "", 1)))
        assert not as_an_editor_sees_it.is_valid(bad), marked
    chance = random.Random(7)
    for _ in range(60):
        spec = spoiled(GOOD[chance.randrange(2)], chance, [3])
        assert as_an_editor_sees_it.is_valid(spec) == REFERENCE.is_valid(spec)


def test_a_good_spec_is_not_kept_waiting_for_explanations():
    code = (
        "import sys; from buildlint import load, vocabulary, validate;"
        "tree, _ = load.load(open(sys.argv[1], 'rb').read(), 'spec.yaml');"
        "assert validate.validate(tree, vocabulary.load()) == ([], set());"
        "print(' '.join(sys.modules))"
    )
    command = [sys.executable, "-c", code, str(SAMPLES[0])]
    run = subprocess.run(command, capture_output=True, text=True, check=True, cwd=Path(__file__).parents[1])
    assert {"jsonschema", "referencing", "buildlint.shape", "buildlint.spelling"}.isdisjoint(run.stdout.split())


NAMES = sorted({name for path in (SPECS / "keys.txt").read_text().split() for name in path.replace("[]", "").split(".")})
VALUES = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(),
    st.floats(allow_nan=True, allow_infinity=True),
    st.integers(min_value=-(10**400), max_value=10**400),
    st.text(max_size=8),
    st.sampled_from(
        ["4.030 in", "yes", "no", "none", "fitted", "cast_iron", "7/16-20", "M8", "7/16-20\n", "2026-03-01", "2026-02-30",
         "2026-03-01\n", "0000-01-01", "2026-3-1", "SAE 30", "\ud800", "\x00", "M8x1.25", "1/8-27 NPT", "٣", "2026-03-0٣"]
    ),
)
TREES = st.recursive(
    VALUES,
    lambda inner: st.one_of(
        st.lists(inner, max_size=3),
        st.dictionaries(st.one_of(st.sampled_from(NAMES), st.text(max_size=4)), inner, max_size=4),
    ),
    max_leaves=12,
)
SPEC_TREES = st.dictionaries(st.sampled_from(sorted(vocabulary.document("build.json")["properties"])), TREES, max_size=4)
GOOD = [plain(loaded(path.read_bytes(), path.name)) for path in SAMPLES] + [plain(loaded(text)) for text in LEFT_ALONE.values()]


def places_of(data, path=()):
    """Every (container, key) of plain data."""
    children = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    for key, child in children:
        yield data, key
        yield from places_of(child, (*path, key))


def spoiled(data, chance, values):
    """A copy of a good spec with a few changes of any kind."""
    data = copy.deepcopy(data)
    for value in values:
        places = list(places_of(data))
        if not places:
            return data
        container, key = chance.choice(places)
        change = chance.randrange(5)
        if change == 0:
            container[key] = value
        elif change == 1:
            del container[key]
        elif change == 2 and isinstance(container, dict):
            container[chance.choice(NAMES)] = container.pop(key)
        elif change == 3 and isinstance(container, dict):
            container[chance.choice(NAMES)] = value
        else:
            other, there = chance.choice(places)
            container[key] = copy.deepcopy(other[there])
    return data


def agreed(data):
    """Both validators give the same answer for ``data``, and validate stands by it without a crash."""
    tree = nodes(data)
    seen = plain(tree)
    errors = list(REFERENCE.iter_errors(seen))
    valid = _is_valid(seen, "build.json")
    if "\\ud800" not in json.dumps(seen):  # no YAML text can hold half a character; the compiled one refuses it
        assert valid == (not errors), [error.message for error in errors]
    problems, broken = validate(tree, vocabulary.load())
    assert bool(problems) == bool(broken) == (bool(errors) or not valid)
    pointers = {pointer_of(path) for path in all_paths(data)}
    assert broken <= pointers and {problem.pointer for problem in problems} <= pointers
    assert all(problem.check in CHECKS and problem.message.endswith(".") for problem in problems)
    assert len({(problem.pointer, problem.check) for problem in problems}) == len(problems)


def all_paths(data, path=()):
    yield path
    children = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    for key, child in children:
        yield from all_paths(child, (*path, key))


QUIET = settings(max_examples=150, deadline=None, suppress_health_check=list(HealthCheck))


@QUIET
@given(good=st.sampled_from(GOOD), seed=st.integers(0, 2**32), values=st.lists(TREES, min_size=1, max_size=3))
def test_both_validators_agree_on_a_good_spec_spoiled(good, seed, values):
    agreed(spoiled(good, random.Random(seed), values))


@QUIET
@given(data=SPEC_TREES)
def test_both_validators_agree_on_any_tree_of_headings(data):
    agreed(data)


@pytest.mark.parametrize("case", [*REPORTED.values()], ids=REPORTED)
def test_both_validators_agree_on_what_is_reported(case):
    agreed(plain(loaded(case[0].replace("<", "", 1).replace(">", "", 1))))


def test_sixty_levels_of_nesting_are_no_trouble():
    data = "deep"
    for level in range(60):
        data = {"block": data} if level % 2 else [data]
    agreed({"block": data})


def test_numbers_that_json_has_not_are_no_trouble():
    for value in (float("nan"), float("inf"), 10**400, -(10**400), 2**64, 10**30):
        assert validate(nodes({"block": {"bore": value, "material": value}}), vocabulary.load())[1] == {"/block/material"}


def test_a_thousand_mistakes_are_all_reported():
    problems, broken = validate(nodes({"block": {f"key_{number}": 1 for number in range(1000)}}), vocabulary.load())
    assert len(problems) == len(broken) == 1000
