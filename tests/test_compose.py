"""What a spec becomes on its templates and with its parts: which value holds, where it stands, who chose it."""

import os
import tempfile

import pytest
import yaml
from hypothesis import example, given, settings
from hypothesis import strategies as st
from test_load import show

from buildlint import road, shelf
from buildlint.compose import compose, content, project_root
from buildlint.load import load, read_bytes
from buildlint.model import Mapping, Sequence
from buildlint.parts import same_data
from buildlint.trees import scalars


@pytest.fixture
def shop(tmp_path):
    """A function that writes files into the folder of a shop: {path: text}."""

    def write(files):
        for name, text in files.items():
            path = tmp_path / "shop" / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text)
        return tmp_path / "shop"

    (tmp_path / "shop").mkdir()
    write({"shop.yaml": "units: us\n"})
    return write


def composed(folder, name="builds/spec.yaml", label=None, known=None):
    """(tree, problems, inputs) of a spec in a shop's folder."""
    path = os.path.join(folder, name)
    tree, problems = load(read_bytes(path), label or name)
    assert problems == []
    return compose(path, tree, known=known)


def at(tree, path):
    """The entry at a path such as intake.spring.part."""
    entry = None
    node = tree
    for step in path.split("."):
        entry = node.entries[step]
        node = entry.node
    return entry


def spot(place):
    return f"{place.file}:{place.line}:{place.column}" if place else None


def told(problems):
    return [(problem.check, problem.level, spot(problem.place)) for problem in problems]


# Merging

SPEC, STREET, BASE = "builds/spec.yaml", "templates/street.yaml", "templates/base.yaml"


def test_a_template_fills_what_the_spec_does_not_write(shop):
    folder = shop({
        SPEC: "based_on: ../templates/street.yaml\nbuild: {duty: drag_race}\ncrank: {stroke: 3.750 in}\n",
        STREET: "build: {name: street, duty: street}\nrods: {length: 5.7 in}\n",
    })
    tree, problems, inputs = composed(folder)
    assert problems == []
    assert show(tree) == {
        "build": {"name": "street", "duty": "drag_race"},
        "rods": {"length": "5.7 in"},
        "crank": {"stroke": "3.750 in"},
    }
    assert list(tree.entries) == ["build", "rods", "crank"] and list(tree.get("build").entries) == ["name", "duty"]
    assert [os.path.basename(path) for path, _ in inputs] == ["street.yaml"]


def test_lists_replace_and_null_removes(shop):
    folder = shop({
        SPEC: "based_on: ../templates/street.yaml\nengine: {firing_order: [1, 2]}\noiling: {pan: null}\nboost:\n",
        STREET: "engine: {firing_order: [1, 8, 4], layout: v}\noiling: {pan: {capacity: 7 qt}, grade: 10W-30}\nboost: {pressure: 8 psi}\n",
    })
    tree, problems, _ = composed(folder)
    assert problems == []
    assert show(tree) == {"engine": {"firing_order": [1, 2], "layout": "v"}, "oiling": {"grade": "10W-30"}}


def test_a_spec_without_a_template_keeps_what_is_still_empty(shop):
    tree, problems, inputs = composed(shop({SPEC: "build: {name: x, duty: }\n"}))
    assert show(tree) == {"build": {"name": "x", "duty": None}} and problems == [] and inputs == []


def test_every_value_keeps_its_place_and_knows_who_chose_it_through_two_levels(shop):
    folder = shop({
        SPEC: "based_on: ../templates/street.yaml\nbuild: {rev_limit: 6500 rpm}\n",
        STREET: "build: {duty: street}\nbased_on: base.yaml\nassembly: {steps: [{step: dry_fit}]}\n",
        BASE: "# base\nbuild:\n  duty: towing\n  fuel: pump_gasoline\n  rev_limit: 5000 rpm\nblock: {bore: 4.030 in}\n",
    })
    tree, _, _ = composed(folder)
    where = {
        path: (spot(at(tree, path).node.place), spot(at(tree, path).chosen))
        for path in ("build.rev_limit", "build.duty", "build.fuel", "block", "block.bore", "assembly")
    }
    assert where == {
        "build.rev_limit": (f"{SPEC}:2:20", None),
        "build.duty": (f"{STREET}:1:15", f"{SPEC}:1:11"),
        "build.fuel": (f"{BASE}:4:9", f"{STREET}:2:11"),
        "block": (f"{BASE}:6:8", f"{STREET}:2:11"),
        "block.bore": (f"{BASE}:6:15", f"{STREET}:2:11"),
        "assembly": (f"{STREET}:3:11", f"{SPEC}:1:11"),
    }
    step = tree.get("assembly").get("steps").items[0].entries["step"]
    assert spot(step.chosen) == f"{SPEC}:1:11"


def test_the_trees_that_were_loaded_are_not_changed(shop):
    folder = shop({SPEC: "based_on: ../templates/street.yaml\nbuild: {duty: null}\n", STREET: "build: {duty: street}\n"})
    path = os.path.join(folder, SPEC)
    tree, _ = load(read_bytes(path), SPEC)
    compose(path, tree)
    assert show(tree) == {"based_on": "../templates/street.yaml", "build": {"duty": None}}
    again, _, _ = compose(path, tree)
    assert show(again) == {"build": {}}


def test_a_null_that_removes_nothing_is_told(shop):
    """A forgotten quote makes a new key of the rest of a name: ``build: {name: dragster, at the shop}``."""
    folder = shop({SPEC: "based_on: ../templates/street.yaml\nbuild: {name: dragster, at the shop}\nrokcers: null\n", STREET: "build: {duty: street}\n"})
    told = [(finding.rule, finding.place.line) for finding in road.check(os.path.join(folder, SPEC)).findings if finding.rule == "key-is-known"]
    assert told == [("key-is-known", 2), ("key-is-known", 3)]


NAMES = st.sampled_from(["a", "b", "c", "d"])
VALUES = st.recursive(
    st.none() | st.integers(0, 3) | st.sampled_from(["x", "y"]),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(NAMES, inner, max_size=4),
    max_leaves=12,
)
TREES = st.dictionaries(NAMES, VALUES, min_size=1, max_size=4)


def rfc_7386(target, patch):
    """The algorithm of RFC 7386 section 2, word for word, save that a null with nothing to remove stays, to be told."""
    if not isinstance(patch, dict):
        return patch
    target = dict(target) if isinstance(target, dict) else {}
    for name, value in patch.items():
        if value is None and name not in target:
            target[name] = None
        elif value is None:
            target.pop(name, None)
        else:
            target[name] = rfc_7386(target.get(name), value)
    return target


@given(st.lists(TREES, min_size=1, max_size=4))
@example([{"a": None}, {"a": None}, {"a": None}])
@settings(max_examples=150, deadline=None)
def test_composing_is_the_merging_of_rfc_7386(trees):
    with tempfile.TemporaryDirectory() as folder:
        for level, tree in enumerate(trees):
            linked = {**tree, **({"based_on": f"{level + 1}.yaml"} if level + 1 < len(trees) else {})}
            with open(os.path.join(folder, f"{level}.yaml"), "w") as file:
                yaml.safe_dump(linked, file)
        tree, problems, _ = composed(folder, "0.yaml")
    expected = trees[-1]
    for patch in reversed(trees[:-1]):
        expected = rfc_7386(expected, patch)
    assert problems == [] and show(tree) == expected


@given(st.lists(TREES, min_size=2, max_size=4))
@settings(max_examples=100, deadline=None)
def test_a_value_stands_in_the_file_that_set_it_and_was_chosen_in_the_file_before(trees):
    """Every text tells its level, so that the right place can be read off the value."""

    def mark(value, level):
        if isinstance(value, dict):
            return {name: mark(below, level) for name, below in value.items()}
        if isinstance(value, list):
            return [mark(below, level) for below in value]
        return f"level {level}"

    with tempfile.TemporaryDirectory() as folder:
        for level, tree in enumerate(trees):
            linked = {**mark(tree, level), **({"based_on": f"{level + 1}.yaml"} if level + 1 < len(trees) else {})}
            with open(os.path.join(folder, f"{level}.yaml"), "w") as file:
                yaml.safe_dump(linked, file)
        tree, _, _ = composed(folder, "0.yaml")

    def check(node):
        if isinstance(node, Sequence):
            for item in node.items:
                check(item)
        elif isinstance(node, Mapping):
            for entry in node.entries.values():
                level = int(entry.key.place.file.removesuffix(".yaml"))
                assert spot(entry.chosen) == (None if level == 0 else f"{level - 1}.yaml:{based_on_line[level - 1]}:11")
                check(entry.node)
        else:
            assert node.text == f"level {node.place.file.removesuffix('.yaml')}"

    based_on_line = {}
    for level, tree_of_level in enumerate(trees[:-1]):
        text = yaml.safe_dump({**mark(tree_of_level, level), "based_on": f"{level + 1}.yaml"})
        based_on_line[level] = next(n for n, line in enumerate(text.split("\n"), 1) if line.startswith("based_on:"))
    check(tree)


# Which file a template is

TEMPLATES = {"secret.yaml": "build: {name: SECRET}\n", STREET: "build: {duty: street}\n"}

INSIDE = "template-stays-inside-the-shop"
REFUSED = {
    "a way out": ("../../secret.yaml", INSIDE, "leads out"),
    "a long way out": ("../" * 40 + "etc/passwd", INSIDE, "leads out"),
    "a way out and back in": ("../../shop/templates/street.yaml", None, None),
    "an absolute path": ("/etc/passwd", INSIDE, "top of the disk"),
    "a network path": ("//server/share/street.yaml", INSIDE, "top of the disk"),
    "a home folder": ("~/street.yaml", INSIDE, "home folder"),
    "somebody's home folder": ("~root/street.yaml", INSIDE, "home folder"),
    "a file address": ("file:///etc/passwd", INSIDE, "an address"),
    "a web address": ("https://example.org/street.yaml", INSIDE, "an address"),
    "a drive letter": ("C:/templates/street.yaml", INSIDE, "drive letter"),
    "a drive letter without slash": ("c:street.yaml", INSIDE, "drive letter"),
    "backslashes": ("..\\templates\\street.yaml", INSIDE, "backslash"),
    "a Windows network path": ("\\\\server\\share\\street.yaml", INSIDE, "backslash"),
    "percent signs": ("%2e%2e/%2e%2e/secret.yaml", INSIDE, "percent"),
    "percent signs within": ("../templates/street%2Eyaml", INSIDE, "percent"),
    "a NUL": ("../templates/street.yaml\\0.png", INSIDE, "control character"),
    "a line end": ("../templates/street.yaml\\n", INSIDE, "control character"),
    "another kind of file": ("../.git/config", "template-is-found", "not the name of a YAML file"),
    "a folder": ("../templates", "template-is-found", "not the name of a YAML file"),
    "no such file": ("../templates/streat.yaml", "template-is-found", "no such file"),
    "a folder named like a file": ("../folder.yaml", "template-is-found", "a folder"),
}


@pytest.mark.parametrize("path, check, message", REFUSED.values(), ids=REFUSED)
def test_a_template_is_named_by_a_path_inside_the_shop(shop, tmp_path, path, check, message):
    folder = shop(TEMPLATES)
    (tmp_path / "secret.yaml").write_text("build: {name: SECRET}\n")
    (folder / "folder.yaml").mkdir()
    spec = folder / SPEC
    spec.parent.mkdir()
    quoted = yaml.safe_dump(path.replace("\\0", "\0").replace("\\n", "\n"), default_style='"', width=10_000).strip()
    spec.write_text(f"based_on: {quoted}\nbuild: {{stage: planning}}\n")
    tree, loading = load(spec.read_bytes(), SPEC)
    tree, problems, _ = compose(spec, tree)
    if check is None:
        assert problems == [] and show(tree)["build"] == {"duty": "street", "stage": "planning"}
        return
    assert told(problems) == [(check, "error", f"{SPEC}:1:11")]
    assert message in problems[0].message and problems[0].fix and problems[0].pointer == "/based_on"
    assert show(tree) == {"build": {"stage": "planning"}}
    assert "SECRET" not in str(problems) and "root:" not in str(problems)


NO_NAMES = {"nothing": "", "null": "null", "a list": "[a.yaml, b.yaml]", "a mapping": "{a: b}", "empty text": "''"}


@pytest.mark.parametrize("text", NO_NAMES.values(), ids=NO_NAMES)
def test_based_on_names_one_file(shop, text):
    tree, problems, _ = composed(shop({SPEC: f"based_on: {text}\nunits: us\n"}))
    assert [problem.check for problem in problems] == ["template-is-found"] and show(tree) == {"units": "us"}


def test_a_slip_in_the_name_is_answered_with_the_name_that_is_there(shop):
    _, problems, _ = composed(shop({SPEC: "based_on: ../templates/streat.yaml\n", STREET: "units: us\n"}))
    assert problems[0].fix == "Did you mean `../templates/street.yaml`?"


def test_without_a_mark_only_the_spec_s_own_folder_is_read(tmp_path):
    (tmp_path / "builds").mkdir()
    (tmp_path / "templates").mkdir()
    (tmp_path / "templates/street.yaml").write_text("units: us\n")
    (tmp_path / "builds/near.yaml").write_text("units: metric\n")
    (tmp_path / "builds/spec.yaml").write_text("based_on: ../templates/street.yaml\n")
    _, problems, _ = composed(tmp_path)
    assert problems[0].check == INSIDE and "Put a shop.yaml at the top" in problems[0].fix
    (tmp_path / "builds/spec.yaml").write_text("based_on: near.yaml\n")
    tree, problems, _ = composed(tmp_path)
    assert problems == [] and show(tree) == {"units": "metric"}
    (tmp_path / "shop.yaml").write_text("units: us\n")
    (tmp_path / "builds/spec.yaml").write_text("based_on: ../templates/street.yaml\n")
    assert composed(tmp_path)[1] == []


@pytest.mark.parametrize("mark", ["shop.yaml", ".git"])
def test_the_root_is_the_nearest_folder_with_a_mark(tmp_path, mark):
    inner = tmp_path / "a/b/c"
    inner.mkdir(parents=True)
    (tmp_path / ".git").mkdir()
    (tmp_path / "a/b" / mark).write_text("gitdir: elsewhere\n")
    assert project_root(inner / "spec.yaml") == (tmp_path / "a/b").resolve()
    assert project_root(inner) == (tmp_path / "a/b").resolve()
    (tmp_path / "a/b" / mark).unlink()
    assert project_root(inner / "spec.yaml") == tmp_path.resolve()


def test_the_root_is_found_through_a_link_to_the_spec(shop, tmp_path):
    folder = shop({SPEC: "based_on: ../templates/street.yaml\n", STREET: "units: us\n"})
    (tmp_path / "link.yaml").symlink_to(folder / SPEC)
    assert project_root(tmp_path / "link.yaml") == folder.resolve()
    tree, problems, _ = composed(tmp_path, "link.yaml")
    assert problems == [] and show(tree) == {"units": "us"}


def test_links_are_followed_inside_the_shop_and_never_out_of_it(shop, tmp_path):
    folder = shop({SPEC: "based_on: ../templates/link.yaml\n", STREET: "units: us\n"})
    (folder / "templates/link.yaml").symlink_to("street.yaml")
    tree, problems, _ = composed(folder)
    assert problems == [] and spot(at(tree, "units").node.place) == f"{STREET}:1:8"
    (tmp_path / "secret.yaml").write_text("notes: SECRET: x\n")
    (folder / "templates/link.yaml").unlink()
    (folder / "templates/link.yaml").symlink_to(tmp_path / "secret.yaml")
    tree, problems, inputs = composed(folder)
    assert told(problems) == [(INSIDE, "error", f"{SPEC}:1:11")] and "SECRET" not in str(problems)
    assert b"SECRET" not in b"".join(data for _, data in inputs)


def test_a_way_out_that_a_link_leads_back_in_is_refused_as_well(shop, tmp_path):
    folder = shop({SPEC: "based_on: ../../back/street.yaml\n", STREET: "units: us\n"})
    (tmp_path / "back").symlink_to(folder / "templates")
    assert composed(folder)[1][0].check == INSIDE


def test_a_folder_that_links_out_of_the_shop_is_not_entered(shop, tmp_path):
    folder = shop({SPEC: "based_on: ../elsewhere/secret.yaml\n"})
    (tmp_path / "out").mkdir()
    (tmp_path / "out/secret.yaml").write_text("units: us\n")
    (folder / "elsewhere").symlink_to(tmp_path / "out")
    assert composed(folder)[1][0].check == INSIDE


def test_links_in_a_circle_pipes_and_devices_are_refused_without_waiting(shop):
    folder = shop({SPEC: "based_on: ../templates/odd.yaml\nunits: us\n", STREET: "units: us\n"})
    odd = folder / "templates/odd.yaml"
    odd.symlink_to("odd.yaml")
    tree, problems, _ = composed(folder)
    assert [problem.check for problem in problems] == ["template-is-found"] and show(tree) == {"units": "us"}
    odd.unlink()
    os.mkfifo(odd)
    _, problems, _ = composed(folder)
    assert "pipe" in problems[0].message
    odd.unlink()
    odd.symlink_to("/dev/zero")
    assert composed(folder)[1][0].check == INSIDE


def test_a_template_over_the_size_limit_is_refused(shop):
    folder = shop({SPEC: "based_on: ../templates/street.yaml\n", STREET: ""})
    with open(folder / STREET, "wb") as file:
        file.truncate(50_000_000)
    assert "2 MB" in composed(folder)[1][0].message


CIRCLES = {
    "on itself": ({SPEC: "based_on: spec.yaml\n"}, f"{SPEC} -> {SPEC}", f"{SPEC}:1:11"),
    "two templates": (
        {SPEC: "based_on: ../templates/street.yaml\n", STREET: "based_on: base.yaml\n", BASE: "based_on: street.yaml\n"},
        f"{STREET} -> {BASE} -> {STREET}",
        f"{BASE}:1:11",
    ),
    "back to the spec": (
        {SPEC: "based_on: ../templates/street.yaml\n", STREET: "based_on: ../builds/spec.yaml\n"},
        f"{SPEC} -> {STREET} -> {SPEC}",
        f"{STREET}:1:11",
    ),
}


@pytest.mark.parametrize("files, circle, place", CIRCLES.values(), ids=CIRCLES)
def test_templates_in_a_circle_are_named_one_by_one(shop, files, circle, place):
    folder = shop({name: text + "units: us\n" for name, text in files.items()})
    tree, problems, _ = composed(folder)
    assert told(problems) == [("templates-form-a-chain", "error", place)]
    assert circle in problems[0].message and show(tree) == {"units": "us"}


def test_a_circle_through_a_link_is_seen(shop):
    folder = shop({SPEC: "based_on: ../templates/street.yaml\n", STREET: "based_on: other.yaml\nunits: us\n"})
    (folder / "templates/other.yaml").symlink_to("street.yaml")
    _, problems, _ = composed(folder)
    assert told(problems) == [("templates-form-a-chain", "error", f"{STREET}:1:11")]


@pytest.mark.parametrize("count, checks", [(16, []), (17, ["templates-form-a-chain"])], ids=["sixteen", "seventeen"])
def test_sixteen_templates_may_rest_on_each_other(shop, count, checks):
    files = {f"builds/{level}.yaml": f"based_on: {level + 1}.yaml\nv{level}: {level}\n" for level in range(count)}
    files[f"builds/{count}.yaml"] = f"v{count}: {count}\n"
    tree, problems, _ = composed(shop(files), "builds/0.yaml")
    assert [problem.check for problem in problems] == checks
    assert len(tree.entries) == 17


def test_the_problems_of_a_template_stand_in_it_with_the_line_that_chose_it(shop):
    folder = shop({
        SPEC: "units: us\nbased_on: ../templates/street.yaml\n",
        STREET: "based_on: base.yaml\nbuild: {duty: street, duty: towing}\n",
        BASE: "notes: torque: 65\n",
    })
    tree, problems, _ = composed(folder)
    assert told(problems) == [
        ("key-is-written-once", "error", f"{STREET}:2:23"),
        ("spec-is-well-formed", "error", f"{BASE}:1:14"),
        ("template-is-found", "error", f"{STREET}:1:11"),
    ]
    assert spot(problems[0].related[-1][1]) == f"{SPEC}:2:11"
    assert spot(problems[1].related[-1][1]) == f"{STREET}:1:11"
    assert spot(problems[2].related[-1][1]) == f"{SPEC}:2:11"
    assert show(tree) == {"build": {"duty": "street"}, "units": "us"}


def test_labels_are_built_on_the_label_of_the_spec(shop, monkeypatch):
    folder = shop({SPEC: "based_on: ../templates/street.yaml\n", STREET: "units: us\n"})
    for label, expected in (
        (str(folder / SPEC), str(folder / STREET)),
        ("shop/builds/spec.yaml", "shop/templates/street.yaml"),
        ("spec.yaml", "../templates/street.yaml"),
    ):
        tree, _, _ = composed(folder, SPEC, label)
        assert tree.get("units").place.file == expected


def test_a_folder_whose_name_is_no_utf_8_is_no_obstacle(tmp_path):
    folder = os.fsencode(tmp_path) + b"/sh\xe9p"
    os.mkdir(folder)
    for name, text in ((b"spec.yaml", b"based_on: base.yaml\n"), (b"base.yaml", b"units: us\n")):
        with open(folder + b"/" + name, "wb") as file:
            file.write(text)
    tree, problems, _ = composed(os.fsdecode(folder), "spec.yaml")
    assert problems == [] and show(tree) == {"units": "us"}


# Parts of the catalogue

SPRINGS = """\
sp-312:
  description: beehive, invented
  spring: {seat_load: 130 lbf, installed_height: 1.800 in, solid_height: 1.145 in}
  retainer: {angle: 7 deg}
sp-400:
  spring: {seat_load: 150 lbf, coating: none}
00123456:
  notes: 383 crank
  crank: {stroke: 3.750 in}
  bearings: {main: {journal_diameter: 2.448 in}, rod: {journal_diameter: 2.100 in}}
"""


def test_a_part_fills_what_is_not_written(shop):
    folder = shop({
        SPEC: "intake:\n  spring: {part: sp-312, seat_load: 125 lbf}\nexhaust:\n  spring: {part: sp-400}\n",
        "catalogue/springs.yaml": SPRINGS,
    })
    tree, problems, _ = composed(folder)
    assert problems == []
    assert show(tree) == {
        "intake": {
            "spring": {"part": "sp-312", "seat_load": "125 lbf", "installed_height": "1.800 in", "solid_height": "1.145 in"},
            "retainer": {"angle": "7 deg"},
        },
        "exhaust": {"spring": {"part": "sp-400", "seat_load": "150 lbf", "coating": "none"}},
    }
    filled = at(tree, "intake.spring.installed_height")
    assert spot(filled.node.place) == "catalogue/springs.yaml:3:50" and spot(filled.chosen) == f"{SPEC}:2:18"
    assert at(tree, "intake.spring.seat_load").chosen is None and at(tree, "intake.spring").chosen is None
    for path in ("intake.retainer", "intake.retainer.angle"):
        assert spot(at(tree, path).chosen) == f"{SPEC}:2:18"


def test_a_part_is_found_by_its_text_with_every_zero(shop):
    folder = shop({SPEC: "crank: {part: 00123456}\n", "catalogue/all.yaml": SPRINGS})
    tree, problems, _ = composed(folder)
    assert problems == []
    assert show(tree.get("crank")) == {"part": 123456, "stroke": "3.750 in"}
    assert show(tree.get("bearings")) == {"main": {"journal_diameter": "2.448 in"}, "rod": {"journal_diameter": "2.100 in"}}
    folder = shop({SPEC: "crank: {part: 0123456}\n"})
    tree, problems, _ = composed(folder)
    assert show(tree) == {"crank": {"part": 123456}} and "did you mean `00123456`" in problems[0].message
    folder = shop({SPEC: "crank: {part: '00123456'}\n"})
    assert at(composed(folder)[0], "crank.stroke")


HEADINGS = {
    "a joint": ("joints: {head: {part: p}}", "joint: {torque: 65 lbf-ft}", "joints.head.torque"),
    "one of several springs": (
        "intake: {springs: {outer: {part: p}}}", "spring: {wire_diameter: 0.2 in}",
        "intake.springs.outer.wire_diameter",
    ),
    "a ring": ("rings: {top: {part: p}}", "ring: {width: 1/16 in}", "rings.top.width"),
    "a bearing": ("bearings: {main: {part: p}}", "bearing: {clearance: 0.002 in}", "bearings.main.clearance"),
    "a part of a joint": ("joints: {head: {nut: {part: p}}}", "nut: {height: 0.4 in}", "joints.head.nut.height"),
    "a part of a joint as a joint": (
        "joints: {head: {nut: {part: p}}}", "joint: {nut: {height: 0.4 in}}", "joints.head.nut.height",
    ),
    "a part of a system": (
        "induction: {carburetor: {part: p}}", "induction: {carburetor: {flow: 750 ft^3/min}}",
        "induction.carburetor.flow",
    ),
    "a part of a side": (
        "intake: {valve: {part: p}}", "valve: {length: 5 in}\n  locks: {angle: 7 deg}", "intake.locks.angle",
    ),
    "a side from a camshaft": (
        "camshaft: {part: p}", "camshaft: {core: steel}\n  intake: {lobe: {lift: 0.35 in}}", "intake.lobe.lift",
    ),
    "lifters within a side": ("intake: {lifter: {part: p}}", "lifters: {kind: solid_roller}", "intake.lifter.kind"),
    "lifters of the engine": ("lifters: {part: p}", "lifter: {kind: solid_roller}", "lifters.kind"),
    "deep in what is written": ("heads: {part: p, chamber: {a: 1}}", "heads: {chamber: {b: 2}}", "heads.chamber.b"),
    "a quantity with a plan": (
        "heads: {part: p}", "heads: {chamber_volume: {plan: 64 cc}}", "heads.chamber_volume.plan",
    ),
    "another system": ("crank: {part: p}", "crank: {}\n  balance: {scheme: internal}", "balance.scheme"),
}


@pytest.mark.parametrize("spec, entry, path", HEADINGS.values(), ids=HEADINGS)
def test_a_heading_of_the_entry_fills_its_own_place(shop, spec, entry, path):
    folder = shop({SPEC: spec + "\n", "catalogue/a.yaml": f"p:\n  {entry}\n"})
    tree, problems, _ = composed(folder)
    assert problems == []
    assert spot(at(tree, path).chosen).startswith(SPEC)


NOT_TAKEN = {
    "an ordered item": "order: {items: [{item: pushrod, part: sp-312}], part: sp-312}",
    "a part in a list": "sealing: {coated_parts: [{part: sp-312}]}",
    "a list of numbers": "notes_of_ours: [sp-312, sp-400]",
    "a permit": "permits: [{part: sp-312}]",
    "a part at the top": "part: sp-312",
    "an empty part": "intake: {spring: {part: }}",
    "a list as a part": "intake: {spring: {part: [sp-312]}}",
}


@pytest.mark.parametrize("spec", NOT_TAKEN.values(), ids=NOT_TAKEN)
def test_only_a_part_within_a_heading_is_taken(shop, spec):
    folder = shop({SPEC: spec + "\n", "catalogue/springs.yaml": SPRINGS})
    tree, problems, inputs = composed(folder)
    assert problems == [] and inputs == [] and show(tree) == show(load(spec, "x")[0])


def test_a_null_keeps_a_value_of_the_catalogue_out(shop):
    folder = shop({
        SPEC: "based_on: ../templates/street.yaml\nintake: {spring: {solid_height: null}, retainer: null}\n",
        STREET: "intake: {spring: {part: sp-312}, guide: {material: bronze, bore: }}\n",
        "catalogue/springs.yaml": SPRINGS,
    })
    tree, problems, _ = composed(folder)
    assert problems == []
    assert show(tree) == {
        "intake": {
            "spring": {"part": "sp-312", "seat_load": "130 lbf", "installed_height": "1.800 in"},
            "guide": {"material": "bronze", "bore": None},
        }
    }
    assert spot(at(tree, "intake.spring.seat_load").chosen) == f"{STREET}:1:25"


def test_a_null_keeps_a_value_out_without_a_template_as_well(shop):
    folder = shop({SPEC: "intake: {spring: {part: sp-400, coating: ~}}\n", "catalogue/springs.yaml": SPRINGS})
    assert show(composed(folder)[0]) == {"intake": {"spring": {"part": "sp-400", "seat_load": "150 lbf"}}}


def test_a_null_keeps_a_whole_heading_of_the_catalogue_out(shop):
    folder = shop({SPEC: "intake: {spring: {part: sp-312}, retainer: ~}\n", "catalogue/springs.yaml": SPRINGS})
    tree, problems, _ = composed(folder)
    assert problems == [] and list(tree.get("intake").entries) == ["spring"]


def test_text_where_the_catalogue_has_a_heading_wins(shop):
    folder = shop({SPEC: "intake: {spring: {part: sp-312}, retainer: tool steel}\n", "catalogue/springs.yaml": SPRINGS})
    tree, problems, _ = composed(folder)
    assert problems == [] and show(tree)["intake"]["retainer"] == "tool steel"


def test_an_entry_that_speaks_twice_of_one_place_is_not_called_two_parts(shop):
    folder = shop({SPEC: "lifters: {part: p}\n", "catalogue/a.yaml": "p: {lifters: {kind: solid_flat}, lifter: {kind: solid_roller}}\n"})
    tree, problems, _ = composed(folder)
    assert problems == [] and show(tree)["lifters"]["kind"] == "solid_flat"


def test_the_order_of_the_document_is_the_order_of_its_lines(shop):
    catalogue = "pin: {pin: {}, rods: {length: 6 in}}\npiston: {pistons: {}, rods: {length: 5.7 in}}\n"
    for spec, length in (
        ("pistons: {pin: {part: pin}, part: piston}", "6 in"),
        ("pistons: {part: piston, pin: {part: pin}}", "5.7 in"),
    ):
        tree, problems, _ = composed(shop({SPEC: spec + "\n", "catalogue/a.yaml": catalogue}))
        assert show(tree)["rods"] == {"length": length} and len(problems) == 1


def test_the_spec_may_choose_another_part_than_its_template(shop):
    folder = shop({
        SPEC: "based_on: ../templates/street.yaml\nintake: {spring: {part: sp-400}}\n",
        STREET: "intake: {spring: {part: sp-312}}\n",
        "catalogue/springs.yaml": SPRINGS,
    })
    tree, problems, _ = composed(folder)
    assert problems == [] and show(tree)["intake"] == {"spring": {"part": "sp-400", "seat_load": "150 lbf", "coating": "none"}}


def test_of_two_parts_the_first_in_the_document_wins_and_a_note_says_so(shop):
    folder = shop({
        SPEC: "intake:\n  spring: {part: sp-312}\n  valve: {part: v-1}\n",
        "catalogue/springs.yaml": SPRINGS,
        "catalogue/valves.yaml": "v-1:\n  valve: {length: 5 in}\n  retainer: {angle: 10 deg, material: steel}\n",
    })
    tree, problems, _ = composed(folder)
    assert show(tree.get("intake").get("retainer")) == {"angle": "7 deg", "material": "steel"}
    assert told(problems) == [("part-is-in-the-catalogue", "note", "catalogue/springs.yaml:4:14")]
    assert "`7 deg` is taken, `10 deg` is not" in problems[0].message and problems[0].pointer == "/intake/retainer/angle"
    assert [spot(place) for _, place in problems[0].related] == [f"{SPEC}:2:18", "catalogue/valves.yaml:3:14", f"{SPEC}:3:17"]


def test_two_parts_that_agree_need_no_note(shop):
    entry = "{valve: {length: 5 in}, retainer: {angle: 7 deg, sizes: [1, 2]}}"
    folder = shop({
        SPEC: "intake: {spring: {part: s}, valve: {part: v}}\n",
        "catalogue/a.yaml": f"v: {entry}\ns: {entry.replace('valve', 'spring')}\n",
    })
    assert composed(folder)[1] == []


def test_a_part_that_the_catalogue_describes_as_another_thing_is_not_taken(shop):
    folder = shop({SPEC: "intake: {spring: {part: v-1}}\n", "catalogue/a.yaml": "v-1:\n  valve: {length: 5 in}\n"})
    tree, problems, _ = composed(folder)
    assert show(tree) == {"intake": {"spring": {"part": "v-1"}}}
    assert told(problems) == [("part-is-in-the-catalogue", "warning", f"{SPEC}:1:25")]
    assert "not described as `spring`, but as `valve`" in problems[0].message
    assert spot(problems[0].related[0][1]) == "catalogue/a.yaml:1:1"


MISSING = {
    "a slip": ("sp-321", "warning", "did you mean `sp-312`"),
    "capitals": ("SP-400", "warning", "did you mean `sp-400`"),
    "nothing like it": ("hc-head-070", "note", "is not in the catalogue"),
    "a text without end": ("x" * 5000, "note", "is not in the catalogue"),
}


@pytest.mark.parametrize("number, level, message", MISSING.values(), ids=MISSING)
def test_a_part_that_is_not_in_the_catalogue_is_told(shop, number, level, message):
    folder = shop({SPEC: f"intake: {{spring: {{part: {number}}}}}\n", "catalogue/springs.yaml": SPRINGS})
    tree, problems, _ = composed(folder)
    assert told(problems) == [("part-is-in-the-catalogue", level, f"{SPEC}:1:25")]
    assert message in problems[0].message and problems[0].pointer == "/intake/spring/part"
    assert len(problems[0].message) < 300


def test_without_a_catalogue_a_part_number_is_only_a_number(shop):
    tree, problems, _ = composed(shop({SPEC: "intake: {spring: {part: sp-312}}\n"}))
    assert problems == [] and show(tree) == {"intake": {"spring": {"part": "sp-312"}}}


def test_a_part_number_stands_once_in_the_catalogue(shop):
    folder = shop({
        SPEC: "intake: {spring: {part: sp-1}}\n",
        "catalogue/a.yaml": "sp-1: {spring: {seat_load: 1 lbf}}\n",
        "catalogue/b/deep.yml": "# more\nsp-1: {spring: {seat_load: 2 lbf}}\n",
    })
    tree, problems, _ = composed(folder)
    assert show(tree)["intake"]["spring"]["seat_load"] == "1 lbf"
    assert told(problems) == [("catalogue-is-sound", "error", "catalogue/b/deep.yml:2:1")]
    assert spot(problems[0].related[0][1]) == "catalogue/a.yaml:1:1" and "catalogue/a.yaml line 1" in problems[0].message


UNSOUND = {
    "a value without a heading": (
        "sp-1: {seat_load: 130 lbf}", "catalogue-is-sound", "c.yaml:1:8", "without a heading",
    ),
    "a text": ("sp-1: a spring", "catalogue-is-sound", "c.yaml:1:1", "Nothing is written about"),
    "nothing": ("sp-1:", "catalogue-is-sound", "c.yaml:1:1", "Nothing is written about"),
    "a key twice": ("sp-1: {spring: {rate: 1, rate: 2}}", "key-is-written-once", "c.yaml:1:26", "twice"),
    "a number twice in one file": ("1: {spring: {}}\n'1': {spring: {}}", "key-is-written-once", "c.yaml:2:1", "twice"),
    "no YAML": ("a: b: c", "spec-is-well-formed", "c.yaml:1:5", "second colon"),
    "a list": ("- sp-1", "spec-is-well-formed", "c.yaml:1:1", "a list"),
}


@pytest.mark.parametrize("text, check, place, message", UNSOUND.values(), ids=UNSOUND)
def test_an_unsound_catalogue_is_told_at_its_own_lines(shop, text, check, place, message):
    folder = shop({SPEC: "intake: {spring: {part: sp-312}}\n", "catalogue/c.yaml": text + "\n", "catalogue/springs.yaml": SPRINGS})
    tree, problems, _ = composed(folder)
    assert told(problems) == [(check, "error", f"catalogue/{place}")]
    assert message in problems[0].message
    assert at(tree, "intake.spring.seat_load")


def test_the_shop_may_keep_its_catalogue_in_other_folders(shop):
    folder = shop({
        SPEC: "intake: {spring: {part: sp-312}}\ncrank: {part: c-1}\n",
        "shop.yaml": "catalogue: [parts/springs, catalogue]\n",
        "parts/springs/a.yaml": SPRINGS,
        "catalogue/b.yaml": "c-1: {crank: {stroke: 3.48 in}}\n",
    })
    tree, problems, inputs = composed(folder)
    assert problems == [] and at(tree, "intake.spring.seat_load") and at(tree, "crank.stroke")
    assert sum(path.endswith("b.yaml") for path, _ in inputs) == 1


FOLDERS = {
    "out of the shop": ("../elsewhere", "not a path inside"),
    "the top of the disk": ("/etc", "not a path inside"),
    "a home folder": ("~", "not a path inside"),
    "backslashes": ("'parts\\springs'", "not a path inside"),
    "none": ("parts", "There is no catalogue folder"),
    "a file": ("shop.yaml", "There is no catalogue folder"),
}


@pytest.mark.parametrize("name, message", FOLDERS.values(), ids=FOLDERS)
def test_a_catalogue_folder_stands_inside_the_shop(shop, name, message):
    folder = shop({SPEC: "intake: {spring: {part: x}}\n", "shop.yaml": f"units: us\ncatalogue: [{name}]\n"})
    _, problems, _ = composed(folder)
    assert told(problems) == [("catalogue-is-sound", "error", "shop.yaml:2:13")] and message in problems[0].message


def test_links_and_pipes_in_the_catalogue_are_not_read(shop, tmp_path):
    folder = shop({SPEC: "intake: {spring: {part: sp-312}}\n", "catalogue/springs.yaml": SPRINGS})
    (tmp_path / "secret.yaml").write_text("SECRET: {spring: {rate: 1}}\n")
    (folder / "catalogue/link.yaml").symlink_to(tmp_path / "secret.yaml")
    os.mkfifo(folder / "catalogue/pipe.yaml")
    (folder / "catalogue/again").symlink_to(folder / "catalogue")
    tree, problems, inputs = composed(folder)
    assert told(problems) == [
        ("catalogue-is-sound", "error", "catalogue/link.yaml:1:1"),
        ("catalogue-is-sound", "error", "catalogue/pipe.yaml:1:1"),
    ]
    assert "SECRET" not in str(problems) and at(tree, "intake.spring.seat_load")
    assert not any(b"SECRET" in data for _, data in inputs)


def test_a_catalogue_folder_that_links_out_is_not_entered(shop, tmp_path):
    folder = shop({SPEC: "intake: {spring: {part: sp-312}}\n"})
    (tmp_path / "out").mkdir()
    (tmp_path / "out/springs.yaml").write_text(SPRINGS)
    (folder / "catalogue").symlink_to(tmp_path / "out")
    tree, problems, _ = composed(folder)
    assert told(problems) == [("catalogue-is-sound", "error", "catalogue:1:1")] and show(tree)["intake"]["spring"] == {"part": "sp-312"}


def test_a_part_may_bring_along_a_part(shop):
    folder = shop({
        SPEC: "heads: {part: h-1}\n",
        "catalogue/a.yaml": "h-1:\n  heads: {material: cast_iron}\n  intake: {spring: {part: sp-312}}\n" + SPRINGS,
    })
    tree, problems, _ = composed(folder)
    assert problems == []
    assert spot(at(tree, "intake.spring.part").chosen) == f"{SPEC}:1:15"
    assert spot(at(tree, "intake.spring.seat_load").chosen) == "catalogue/a.yaml:3:27"


def test_parts_that_bring_each_other_along_come_to_an_end(shop):
    deep = "p: {a: {a: {part: p}}}\n"
    folder = shop({SPEC: "a: {part: p}\n", "catalogue/a.yaml": deep})
    _, problems, _ = composed(folder)
    assert "16 deep" in problems[0].message and problems[0].check == "catalogue-is-sound"
    wide = "p:\n  a: {" + ", ".join(f"k{n}: {{a: {{part: p}}}}" for n in range(30)) + "}\n"
    folder = shop({SPEC: "a: {part: p}\n", "catalogue/a.yaml": wide})
    _, problems, _ = composed(folder)
    assert "500 parts" in problems[0].message
    heavy = f"p:\n  a: {{values: [{', '.join('x' * 30_000)}]}}\n"
    spec = "".join(f"k{n}: {{a: {{part: p}}}}\n" for n in range(10))
    _, problems, _ = composed(shop({SPEC: spec, "catalogue/a.yaml": heavy}))
    assert [problem.place.line for problem in problems] == [4] and "100,000 values" in problems[0].message


# What was read

INPUT_FILES = {
    SPEC: "based_on: ../templates/street.yaml\nintake: {spring: {part: sp-312}}\n",
    STREET: "based_on: base.yaml\n",
    BASE: "units: us\n",
    "catalogue/springs.yaml": SPRINGS,
}


def test_the_inputs_are_everything_that_was_looked_at(shop):
    folder = shop(INPUT_FILES)
    _, _, inputs = composed(folder)
    names = [os.path.relpath(path, folder) for path, _ in inputs]
    assert names == [STREET, BASE, "shop.yaml", "catalogue", "catalogue/springs.yaml"]
    assert all(content(path) == data for path, data in inputs)


CHANGES = {
    "a template": lambda folder: (folder / BASE).write_text("units: metric\n"),
    "a template goes": lambda folder: (folder / BASE).unlink(),
    "the shop standard": lambda folder: (folder / "shop.yaml").write_text("units: metric\n"),
    "a catalogue file": lambda folder: (folder / "catalogue/springs.yaml").write_text("a: {spring: {}}\n"),
    "a new catalogue file": lambda folder: (folder / "catalogue/valves.yaml").write_text("v: {valve: {}}\n"),
    "a catalogue file goes": lambda folder: (folder / "catalogue/springs.yaml").unlink(),
}


@pytest.mark.parametrize("change", CHANGES.values(), ids=CHANGES)
def test_a_change_of_any_input_is_seen(shop, change):
    folder = shop(INPUT_FILES)
    _, _, inputs = composed(folder)
    change(folder)
    assert any(content(path) != data for path, data in inputs)


def test_a_file_that_was_missing_is_an_input_too(shop):
    folder = shop({SPEC: "based_on: ../templates/street.yaml\nintake: {spring: {part: x}}\n"})
    _, _, inputs = composed(folder)
    assert all(content(path) == data for path, data in inputs)
    for name, text in ((STREET, "units: us\n"), ("catalogue/a.yaml", "x: {spring: {}}\n")):
        shop({name: text})
        assert any(content(path) != data for path, data in inputs)
        _, _, inputs = composed(folder)


def test_files_are_read_once_until_they_change(shop, monkeypatch):
    reads = []
    monkeypatch.setattr(shelf, "read_bytes", lambda path: reads.append(os.path.basename(path)) or read_bytes(path))
    folder = shop(INPUT_FILES)
    first, _, _ = composed(folder)
    again, _, _ = composed(folder)
    assert sorted(reads) == ["base.yaml", "shop.yaml", "springs.yaml", "street.yaml"]
    assert at(first, "units").node is at(again, "units").node
    shop({BASE: "units: metric\n"})
    changed, _, _ = composed(folder)
    assert reads.count("base.yaml") == 2 and show(changed)["units"] == "metric"


def test_within_one_run_nothing_is_looked_at_twice(shop, monkeypatch):
    folder = shop(INPUT_FILES)
    known = {}
    first = composed(folder, known=known)
    monkeypatch.setattr(shelf, "_signature", lambda path: pytest.fail(f"{path} was looked at again"))
    monkeypatch.setattr(shelf.os, "walk", lambda *_: pytest.fail("the catalogue was listed again"))
    again = composed(folder, known=known)
    assert same_data(first[0], again[0]) and first[1:] == again[1:]


def test_composing_twice_gives_the_same_places(shop):
    folder = shop(INPUT_FILES)
    one, other = composed(folder)[0], composed(folder)[0]
    assert [scalar.place for scalar in scalars(one)] == [scalar.place for scalar in scalars(other)]


def test_shared_mappings_of_a_template_stay_shared(shop):
    folder = shop({SPEC: "based_on: ../templates/street.yaml\n", STREET: "a: &coil {wire: 0.2 in}\nb: {c: *coil, d: *coil}\n"})
    tree, _, _ = composed(folder)
    assert tree.get("b").get("c") is tree.get("b").get("d")


SAME = {
    "texts": ("a", "'a'", True),
    "numbers written otherwise": ("1.0", "1.00", True),
    "a number and a text": ("1", "'1.0'", False),
    "lists": ("[1, 2]", "[1, 2]", True),
    "lists of another length": ("[1]", "[1, 2]", False),
    "mappings in another order": ("{a: 1, b: 2}", "{b: 2, a: 1}", True),
    "mappings": ("{a: 1}", "{a: 2}", False),
    "unlike things": ("{a: 1}", "[a]", False),
}


@pytest.mark.parametrize("one, other, same", SAME.values(), ids=SAME)
def test_data_is_compared_by_what_it_says(one, other, same):
    assert same_data(load(f"k: {one}", "a")[0].get("k"), load(f"k: {other}", "b")[0].get("k")) is same


def test_a_measurement_in_the_spec_keeps_the_plan_of_the_template(tmp_path):
    (tmp_path / "base.yaml").write_text("bearings:\n  main: {clearance: 0.0025 in +/- 0.0003 in}\n")
    (tmp_path / "build.yaml").write_text("based_on: base.yaml\nbearings:\n  main: {clearance: {measured: 0.0026 in, by: RM}}\n")
    path = tmp_path / "build.yaml"
    tree, _ = load(path.read_bytes(), "build.yaml")
    composed, problems, _ = compose(str(path), tree)
    clearance = composed.get("bearings").get("main").get("clearance")
    assert not problems
    assert clearance.get("plan").text == "0.0025 in +/- 0.0003 in" and clearance.get("plan").place.file == "base.yaml"
    assert clearance.get("measured").text == "0.0026 in"
