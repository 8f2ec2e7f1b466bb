"""Rule modules of a shop: the same door, their own prefix, and a stop that names the file when one is not sound."""

import json
import os
import subprocess
import sys
import textwrap
from pathlib import Path

import pytest
from rules_in_text import HEAD, STROKE, decorated

from buildlint import outside, road
from buildlint.rulebook import RulebookError

ROOT = Path(__file__).parent.parent
OWN = STROKE.replace("stroke_stays_short_enough", "creek_stroke_stays_short")


@pytest.fixture
def folder(tmp_path):
    """A shop's folder of rules named creek, with one rule."""
    place = tmp_path / "creek"
    place.mkdir()
    (place / "__init__.py").write_text("RULEBOOK = 1\n")
    (place / "strokes.py").write_text(HEAD + decorated(OWN))
    return place


@pytest.fixture(autouse=True)
def only_shipped_rules_afterwards():
    yield
    road.take_rules_from([])


def test_rules_of_a_folder_are_asked_with_the_shipped_ones(folder):
    shipped = len(road.rules())
    road.take_rules_from([str(folder)])
    assert len(road.rules()) == shipped + 1
    report = road.check("x.yaml", text=b"crank: {stroke: 4 in}\n")
    finding = next(finding for finding in report.findings if finding.rule == "creek-stroke-stays-short")
    assert (finding.kind, finding.area) == ("fail", "shop")


def test_a_folder_below_is_the_area(folder):
    (folder / "short_block").mkdir()
    (folder / "strokes.py").rename(folder / "short_block" / "strokes.py")
    assert [rule.area for rule in outside.load(folder)] == ["short_block"]


@pytest.mark.parametrize("change, said", [
    pytest.param(lambda place: (place / "__init__.py").write_text("RULEBOOK = 2\n"), "__init__.py: says 2", id="another rule book"),
    pytest.param(lambda place: (place / "__init__.py").unlink(), "__init__.py: does not say", id="no rule book named"),
    pytest.param(lambda place: (place / "strokes.py").write_text("import no_such_module\n"), "strokes.py: cannot be loaded: ModuleNotFoundError", id="import error"),
    pytest.param(lambda place: (place / "strokes.py").write_text("raise SystemExit(0)\n"), "strokes.py: cannot be loaded: SystemExit", id="it exits"),
    pytest.param(lambda place: (place / "strokes.py").write_text("def broken(:\n"), "strokes.py: cannot be loaded: SyntaxError", id="no Python"),
    pytest.param(lambda place: (place / "strokes.py").write_text(HEAD + decorated(STROKE)), "must begin with creek-", id="no prefix"),
    pytest.param(lambda place: (place / "strokes.py").write_text(""), "no rule was found", id="no rule"),
    pytest.param(lambda place: (place / "more.py").write_text((place / "strokes.py").read_text()), "already stands in", id="twice"),
    pytest.param(lambda place: (place / "strokes.py").write_text(HEAD + decorated(OWN.replace("crank_stroke", "crank_stoke")).replace("{crank_stroke}", "{value}")),
                 "did you mean crank_stroke", id="unknown word"),
])
def test_what_is_not_sound_stops_and_names_the_file(folder, change, said):
    change(folder)
    road.take_rules_from([str(folder)])
    with pytest.raises(road.CannotStart, match="creek") as told:
        road.rules()
    assert said in str(told.value)


def test_a_missing_folder_is_named(tmp_path):
    with pytest.raises(RulebookError, match="no such folder"):
        outside.load(tmp_path / "nowhere")
    with pytest.raises(RulebookError, match="no rule module in it"):
        outside.load(tmp_path)


def test_rules_of_an_installed_package_are_found_by_its_entry_point(tmp_path, folder):
    site = tmp_path / "site"
    (site / "hollow_creek").mkdir(parents=True)
    for file in folder.iterdir():
        if file.is_file():
            (site / "hollow_creek" / file.name).write_text(file.read_text())
    info = site / "hollow_creek-1.0.dist-info"
    info.mkdir()
    (info / "METADATA").write_text("Metadata-Version: 2.1\nName: hollow-creek\nVersion: 1.0\n")
    (info / "entry_points.txt").write_text("[buildlint.rules]\ncreek = hollow_creek\n")
    program = textwrap.dedent(f"""
        import sys
        sys.path.insert(0, {str(site)!r})
        from buildlint import road
        print([rule.id for rule in road.rules() if rule.area == "shop"])
        """)
    found = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, timeout=60)
    assert found.stdout.strip() == "['creek-stroke-stays-short']", found.stderr


def test_code_beside_a_spec_is_never_loaded(tmp_path):
    (tmp_path / "rules").mkdir()
    (tmp_path / "rules" / "__init__.py").write_text("raise SystemExit('loaded')\n")
    (tmp_path / "sitecustomize.py").write_text("raise SystemExit('loaded')\n")
    (tmp_path / "build.yaml").write_text("build: {name: x}\n")
    assert road.check(tmp_path / "build.yaml").name == "x"


def test_what_a_rule_prints_gets_into_no_output(folder):
    talking = OWN.replace('"""A trial."""', '"""A trial."""\n    print("from inside the rule")')
    (folder / "strokes.py").write_text(HEAD + 'print("from the module")\n' + decorated(talking))
    for number in range(3):
        (folder.parent / f"job_{number}.yaml").write_text("crank: {stroke: 4 in}\n")
    specs = [f"job_{number}.yaml" for number in range(3)]
    for more in (["--workers", "1"], ["--workers", "2"]):
        run = subprocess.run([sys.executable, "-m", "buildlint", "check", *specs, "--rules", "creek", "--fresh", "--format", "json", *more],
                             cwd=folder.parent, capture_output=True, text=True, env={**os.environ, "PYTHONPATH": str(ROOT)}, timeout=120)
        assert len(json.loads(run.stdout)["specs"]) == 3
        assert "from the module" in run.stderr and run.stderr.count("from inside the rule") == 3
