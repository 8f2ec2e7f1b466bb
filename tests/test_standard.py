"""The shop standard: found upward, checked whole, laid over the rules, and rules of the shop without code."""

import textwrap
from pathlib import Path
from types import SimpleNamespace

import pytest

from buildlint import cli, road, standard
from buildlint.model import FAIL, NOT_APPLICABLE, OPEN, PASS
from buildlint.rulebook import Verdict

SPEC = """
build: {stage: assembly}
joints:
  head: {kind: stud, stud_install_torque: 4 lbf-ft}
rockers: {class: production_needle_trunnion, ratio: 1.7}
intake:
  spring: {open_load: 450 lbf}
"""


def shop(folder, text, spec=SPEC, at="jobs/build.yaml"):
    """A shop's folder with a standard and one spec; returns the path of the spec."""
    (folder / "shop.yaml").write_text(textwrap.dedent(text), encoding="utf-8")
    path = folder / at
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(textwrap.dedent(spec), encoding="utf-8")
    return path


def said(path, rule, scope=None):
    found = [finding for finding in road.check(path).findings if finding.rule == rule and (scope is None or finding.scope == scope)]
    assert found, rule
    return found[0]


def test_a_limit_of_the_shop_is_judged_by(tmp_path):
    path = shop(tmp_path, "limits: {stud-is-set-finger-tight: {most: 3 lbf-ft}}\n")
    finding = said(path, "stud-is-set-finger-tight")
    assert finding.kind == FAIL and "3.0 lbf-ft" in finding.message


def test_a_row_of_a_limit_is_changed_and_the_others_stay(tmp_path):
    path = shop(tmp_path, "limits: {rocker-carries-open-load: {error_above: {production_needle_trunnion: 430 lbf}}}\n")
    finding = said(path, "rocker-carries-open-load", ("intake",))
    assert (finding.kind, finding.level) == (FAIL, "error") and finding.limit == pytest.approx(430)
    read = standard.read_standard(str(tmp_path / "shop.yaml"), road.rules(), road.words(), road.ways(), road.joint_names())
    rule = next(rule for rule in road.rules() if rule.id == "rocker-carries-open-load")
    merged = read.base.limits_of(rule)
    assert merged["warning_above"] == rule.limits["warning_above"]


def test_one_figure_of_a_row_is_changed_and_the_rest_of_the_row_stays(tmp_path):
    shop(tmp_path, "limits: {main-clearance-suits-journal: {rows: {street: {most: 0.0014}}}}\n")
    read = standard.read_standard(str(tmp_path / "shop.yaml"), road.rules(), road.words(), road.ways(), road.joint_names())
    rule = next(rule for rule in road.rules() if rule.id == "main-clearance-suits-journal")
    rows = read.base.limits_of(rule)["rows"]
    assert rows["street"] == {**rule.limits["rows"]["street"], "most": 0.0014}
    assert rows["stock"] == rule.limits["rows"]["stock"]


def test_rows_within_rows_are_changed_for_some_paths(tmp_path):
    shop(tmp_path, "limits: {piston-clearance-suits-alloy: {rows: {forged_2618: {street: {least: 0.0008}}}}}\n"
                   "paths:\n  - match: [race/**]\n    limits: {piston-clearance-suits-alloy: {rows: {forged_2618: {street: {most: 0.0014}}}}}\n")
    read = standard.read_standard(str(tmp_path / "shop.yaml"), road.rules(), road.words(), road.ways(), road.joint_names())
    rule = next(rule for rule in road.rules() if rule.id == "piston-clearance-suits-alloy")
    here = standard.for_spec(read, str(tmp_path / "race" / "one.yaml")).limits_of(rule)["rows"]["forged_2618"]
    assert here["street"] == {"least": 0.0008, "most": 0.0014}
    assert here["race"] == rule.limits["rows"]["forged_2618"]["race"]


def test_a_level_of_the_shop_replaces_the_rules_own(tmp_path):
    path = shop(tmp_path, "levels: {stud-is-set-finger-tight: error}\n", SPEC.replace("4 lbf-ft", "9 lbf-ft"))
    assert said(path, "stud-is-set-finger-tight").level == "error"
    path = shop(tmp_path, "levels: {stud-is-set-finger-tight: note}\n", SPEC.replace("4 lbf-ft", "9 lbf-ft"))
    assert said(path, "stud-is-set-finger-tight").level == "note"


@pytest.mark.parametrize("own, settled, counts", [
    (("error", None, False), "note", "note"), (("error", "warning", False), "note", "note"), (("error", "note", True), "note", "note"),
    (("error", None, False), "warning", "warning"), (("error", "note", False), "warning", "note"),
    (("warning", None, False), "error", "error"), (("warning", "warning", False), "error", "error"),
    (("warning", "note", True), "error", "note"), (("warning", "note", False), "error", "note"),
    (("error", "warning", False), "error", "error"), (("error", "note", False), "error", "note"),
    (("note", None, False), "warning", "warning"), (("note", "note", True), "error", "note"),
    (("reminder", None, False), "error", "error"), (("reminder", None, False), "note", "note"),
    (("error", "warning", False), "silent", "warning"), (("error", "warning", False), None, "warning"),
], ids=lambda case: "-".join(map(str, case)) if isinstance(case, tuple) else str(case))
def test_a_level_of_the_shop_caps_everything_and_raises_what_is_wrong_but_no_note_beside_it(own, settled, counts):
    level, answered, near = own
    rule = SimpleNamespace(id="a-rule", level=level)
    levels = {} if settled is None else {"a-rule": settled}
    assert standard.Standard(levels=levels).level_of(rule, Verdict(FAIL, answered, near=near)) == counts


def test_a_rule_of_a_shop_gives_no_error_and_no_warning_once_it_is_a_note(tmp_path):
    path = shop(tmp_path, "levels: {rocker-carries-open-load: note}\n", SPEC.replace("450 lbf", "600 lbf"))
    assert said(path, "rocker-carries-open-load", ("intake",)).level == "note"
    path = shop(tmp_path, "levels: {rocker-carries-open-load: error}\n", SPEC.replace("450 lbf", "600 lbf"))
    assert said(path, "rocker-carries-open-load", ("intake",)).level == "error"


def test_a_limit_that_is_a_speed_takes_its_unit(tmp_path):
    spec = "build: {rev_limit: 6500 rpm}\ncrank: {stroke: 3.750 in}\npistons: {class: hypereutectic}\n"
    for row in ("17 m/s", "3350 ft/min"):
        path = shop(tmp_path, f"limits: {{piston-speed-suits-parts: {{warning_above: {{hypereutectic: {row}}}}}}}\n", spec)
        finding = said(path, "piston-speed-suits-parts")
        assert (finding.level, finding.unit) == ("warning", "ft/min") and finding.limit == pytest.approx(3350, abs=5)
    path = shop(tmp_path, "limits: {piston-speed-suits-parts: {warning_above: {hypereutectic: 17}}}\n", spec)
    with pytest.raises(road.CannotStart, match="row hypereutectic of warning_above of piston-speed-suits-parts.*unit"):
        road.check(path)


def test_a_silenced_rule_says_so_and_is_not_a_finding(tmp_path):
    path = shop(tmp_path, "levels: {stud-is-set-finger-tight: silent}\n", SPEC.replace("4 lbf-ft", "9 lbf-ft"))
    finding = said(path, "stud-is-set-finger-tight")
    assert finding.kind == NOT_APPLICABLE and "silent" in finding.message and "shop.yaml" in finding.message


def test_units_of_the_shop_let_bare_numbers_through_and_the_spec_wins(tmp_path):
    path = shop(tmp_path, "units: us\n", "crank: {stroke: 3.750}\n")
    assert not [finding for finding in road.check(path).findings if finding.rule == "quantity-can-be-read"]
    path.write_text("units: metric\ncrank: {stroke: 95.25}\n", encoding="utf-8")
    explained = road.explain("crank_stroke", path)
    assert explained[0].value == pytest.approx(0.09525)


def test_settings_for_some_paths_do_not_leak_to_others(tmp_path):
    text = """
        limits: {stud-is-set-finger-tight: {most: 5 lbf-ft}}
        paths:
          - {match: [jobs/careful/**], limits: {stud-is-set-finger-tight: {most: 3 lbf-ft}}}
          - {match: ["*.yaml", "!jobs/careful/**"], levels: {stud-is-set-finger-tight: note}}
        """
    careful = shop(tmp_path, text, at="jobs/careful/one.yaml")
    other = shop(tmp_path, text, at="jobs/other/one.yaml")
    for first, second in ((careful, other), (other, careful)):
        kinds = {path: said(path, "stud-is-set-finger-tight").kind for path in (first, second)}
        assert kinds == {careful: FAIL, other: PASS}


@pytest.mark.parametrize("patterns, path, holds", [
    ("[jobs/]", "jobs/one.yaml", True), ("[jobs/]", "jobs/deep/one.yaml", True), ("[jobs/]", "jobs.yaml", False),
    ("[jobs]", "jobs/one.yaml", True), ("[jobs]", "old/jobs/one.yaml", True), ("[/jobs]", "old/jobs/one.yaml", False),
    ("[jobs/**]", "jobs/deep/one.yaml", True), ("['**/one.yaml']", "jobs/deep/one.yaml", True), ("['*.yaml']", "jobs/deep/one.yaml", True),
    ("[/*.yaml]", "jobs/one.yaml", False), ("['jobs/*.yaml']", "jobs/deep/one.yaml", False),
    ("['jobs/**', '!jobs/one.yaml']", "jobs/one.yaml", False), ("['!jobs/one.yaml', 'jobs/**']", "jobs/one.yaml", True),
    ("['jobs/on[ef].yaml']", "jobs/one.yaml", True), ("['jobs/on?.yaml']", "jobs/one.yaml", True),
    (r"['jobs/\!one.yaml']", "jobs/!one.yaml", True), ("['jobs/one.yaml ']", "jobs/one.yaml", True), ("['']", "jobs/one.yaml", False),
])
def test_paths_are_matched_as_gitignore_files_do(tmp_path, patterns, path, holds):
    """The pattern format of gitignore(5): anchors, folders, the last match decides, a backslash takes a sign as it is."""
    spec = shop(tmp_path, f"paths: [{{match: {patterns}, levels: {{stud-is-set-finger-tight: silent}}}}]", at=path)
    assert (said(spec, "stud-is-set-finger-tight").message.startswith("silent by")) is holds


@pytest.mark.parametrize("text, line, message", [
    pytest.param("limits:\n  stud-is-set-finger-tigh: {most: 3 lbf-ft}\n", 2, "did you mean stud-is-set-finger-tight", id="unknown rule"),
    pytest.param("limits:\n  stud-is-set-finger-tight: {mst: 3 lbf-ft}\n", 2, "did you mean most", id="unknown limit"),
    pytest.param("limits:\n  stud-is-set-finger-tight:\n    most: 3 in\n", 3, "in", id="wrong dimension"),
    pytest.param("limits:\n  stud-is-set-finger-tight:\n    most: 3\n", 3, "unit", id="no unit"),
    pytest.param("limits:\n  rocker-carries-open-load:\n    error_above: 460 lbf\n", 3, "rows", id="rows wanted"),
    pytest.param("limits:\n  rocker-carries-open-load:\n    error_above: {needle: 460 lbf}\n", 3, "no row", id="unknown row"),
    pytest.param("levels:\n  quench-gap: note\n", 2, "no rule", id="level of an unknown rule"),
    pytest.param("levels:\n  quench-gap-is-close: fatal\n", 2, "fatal", id="unknown level"),
    pytest.param("limitz: {}\n", 1, "limits", id="unknown key"),
    pytest.param("units: imperial\n", 1, "us", id="unknown units"),
    pytest.param("units: us\nunits: metric\n", 2, "units", id="twice"),
    pytest.param("limits:\n  abrasive-pads-stay-off-faces:\n    gritty: [abrasive pad]\n", 3, "did you mean abrasive_pad", id="value of a list"),
    pytest.param("limits:\n  octane-numbers-are-consistent:\n    lowest: {E10: 85}\n", 3, "did you mean e10", id="row in capitals"),
    pytest.param("no_permits_for: [no-such-rule]\n", 1, "no rule", id="permits of an unknown rule"),
    pytest.param("- a list\n", 1, "", id="not a mapping"),
])
def test_a_standard_that_is_not_sound_stops_the_check_and_names_the_place(tmp_path, text, line, message):
    path = shop(tmp_path, text)
    with pytest.raises(road.CannotStart) as told:
        road.check(path)
    assert f"shop.yaml:{line}:" in str(told.value)
    assert message in str(told.value)


def test_everything_wrong_is_told_at_once(tmp_path):
    path = shop(tmp_path, "limits: {no-such-rule: {most: 1 in}}\nlevels: {another-one-missing: note}\n")
    with pytest.raises(road.CannotStart) as told:
        road.check(path)
    assert len(str(told.value).splitlines()) == 2


def test_rows_of_a_limit_are_shown_as_they_are_read_aloud(tmp_path, monkeypatch, capsys):
    shop(tmp_path, "limits: {piston-speed-suits-parts: {note_above: {cast: 17 m/s, forged_2618: 27.5 m/s}}}\n")
    monkeypatch.chdir(tmp_path)
    assert cli.run(["standard", "jobs/build.yaml"]) == 0
    assert "note_above of piston-speed-suits-parts: cast 17 m/s, forged_2618 27.5 m/s\n  shop.yaml:1:" in capsys.readouterr().out


def test_an_empty_standard_settles_nothing(tmp_path):
    path = shop(tmp_path, "shop: Hollow Creek Engine Works\n")
    assert said(path, "stud-is-set-finger-tight").kind == PASS


def test_no_standard_above_the_root_of_a_repository_is_read(tmp_path):
    path = shop(tmp_path, "levels: {stud-is-set-finger-tight: silent}\n", SPEC.replace("4 lbf-ft", "9 lbf-ft"), at="inner/jobs/build.yaml")
    assert said(path, "stud-is-set-finger-tight").kind == NOT_APPLICABLE
    (tmp_path / "inner" / ".git").mkdir()
    assert said(path, "stud-is-set-finger-tight").kind == FAIL


OWN = """
rules:
  - id: shop-pushrods-are-one-piece
    for: side
    when: {spring_open_load: {at_least: 350 lbf}}
    require: {pushrod_build: one_piece, pushrod_outside_diameter: {at_least: 5/16 in}}
    level: error
    says: "{spring_open_load} open, and the pushrods are {pushrod_build}, {pushrod_outside_diameter}."
    fix: Order one-piece pushrods of 5/16 in or more.
    why: Two sets came back.
    conforming: |
      pushrods: {build: one_piece, outside_diameter: 5/16 in}
      intake: {spring: {open_load: 400 lbf}}
    nonconforming: |
      pushrods: {build: pressed_ends, outside_diameter: 5/16 in}  # <-
      intake: {spring: {open_load: 400 lbf}}
"""
RULE = "shop-pushrods-are-one-piece"


@pytest.mark.parametrize("pushrods, load, kind", [
    ("{build: one_piece, outside_diameter: 5/16 in}", "400 lbf", PASS),
    ("{build: one_piece, outside_diameter: 7.9375 mm}", "350 lbf", PASS),
    ("{build: pressed_ends, outside_diameter: 5/16 in}", "400 lbf", FAIL),
    ("{build: one_piece, outside_diameter: 0.300 in}", "400 lbf", FAIL),
    ("{build: pressed_ends, outside_diameter: 5/16 in}", "349 lbf", NOT_APPLICABLE),
    ("{outside_diameter: 5/16 in}", "400 lbf", OPEN),
])
def test_a_declared_rule_is_asked_like_any_other(tmp_path, pushrods, load, kind):
    path = shop(tmp_path, OWN, f"pushrods: {pushrods}\nintake: {{spring: {{open_load: {load}}}}}\n")
    finding = said(path, RULE, ("intake",))
    assert finding.kind == kind
    if kind == FAIL:
        assert finding.level == "error" and finding.place.line == 1 and finding.message.startswith(load)
    if kind == OPEN:
        assert finding.missing == ("pushrods.build",)


def test_a_declared_rule_can_ask_that_something_is_written(tmp_path):
    text = OWN.replace("{pushrod_build: one_piece, pushrod_outside_diameter: {at_least: 5/16 in}}", "{pushrod_material: {written: yes}}").replace(
        'says: "{spring_open_load} open, and the pushrods are {pushrod_build}, {pushrod_outside_diameter}."', "says: No material.")
    path = shop(tmp_path, text, "intake: {spring: {open_load: 400 lbf}}\npushrods: {wall: 0.080 in}\n")
    assert said(path, RULE, ("intake",)).kind == FAIL


@pytest.mark.parametrize("change, message", [
    pytest.param(("pushrod_build: one", "pushrod_built: one"), "did you mean pushrod_build", id="unknown word"),
    pytest.param(("5/16 in}", "5/16 lbf}"), "lbf", id="wrong dimension"),
    pytest.param(("for: side", "for: engine"), "engine", id="unknown scope"),
    pytest.param(("for: side", "for: build"), "no word that can be seen from the scope build", id="word of another scope"),
    pytest.param(("{pushrod_build}", "{pushrod_bild}"), "did you mean pushrod_build", id="unknown name in the sentence"),
    pytest.param(("{pushrod_build}", "{pushrod_build.__class__}"), "no word", id="no attributes in sentences"),
    pytest.param(("{pushrod_build}", "{pushrod_build:>99999999}"), "format", id="no formats in sentences"),
    pytest.param(("{pushrod_build}", "{pushrod_build"), "brace", id="brace left open"),
    pytest.param((RULE, "stud-is-set-finger-tight"), "already the id", id="id of a shipped rule"),
    pytest.param((RULE, "Shop Rule 1"), "Shop Rule 1", id="no id"),
    pytest.param(("level: error", "level: fatal"), "fatal", id="unknown level"),
    pytest.param(("require: {pushrod_build: one_piece,", "require: {pushrod_build: {at_least: one_piece},"), "cannot be compared", id="choice compared"),
    pytest.param(("require: {pushrod_build: one_piece", "require: {pushrod_build: One piece"), "Did you mean `one_piece`?", id="choice as it is spoken"),
    pytest.param(("{spring_open_load: {at_least: 350 lbf}}", "{fuel: E10}"), "Did you mean `e10`?", id="choice in capitals"),
    pytest.param(("{spring_open_load: {at_least: 350 lbf}}", "{head_joint_thread_product: {none_of: [ptfe paste]}}"), "Did you mean `ptfe_paste`?",
                 id="choice seen from outside"),
    pytest.param(("{spring_open_load: {at_least: 350 lbf}}", "{fuel: nuclear}"), "Write one of: `pump_gasoline`", id="no choice at all"),
])
def test_a_declared_rule_that_is_not_sound_stops_the_check(tmp_path, change, message):
    path = shop(tmp_path, OWN.replace(*change))
    with pytest.raises(road.CannotStart) as told:
        road.check(path)
    assert "shop.yaml:" in str(told.value) and message in str(told.value)


def test_a_declared_rule_keeps_its_own_examples(tmp_path):
    path = shop(tmp_path, OWN)
    rule, = road.standard_for(path).rules
    for text, kind in ((rule.conforming[0], PASS), (rule.nonconforming[0], FAIL)):
        report = road.check("x.yaml", text=text.encode(), chosen=[rule], settled=standard.NONE)
        finding = next(finding for finding in report.findings if finding.rule == RULE and finding.scope == ("intake",))
        assert finding.kind == kind
        if kind == FAIL:
            assert text.splitlines()[finding.place.line - 1].endswith("# <-")


def test_the_shop_may_change_the_level_of_its_own_rule(tmp_path):
    path = shop(tmp_path, OWN + f"levels: {{{RULE}: note}}\n", "pushrods: {build: pressed_ends, outside_diameter: 5/16 in}\nintake: {spring: {open_load: 400 lbf}}\n")
    assert said(path, RULE, ("intake",)).level == "note"


def test_the_schema_of_the_standard_accepts_its_own_examples():
    import json

    import jsonschema
    from buildlint.house import folder

    schema = json.loads((Path(folder("schemas")) / "shop.json").read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)


@pytest.mark.parametrize("limit, spec, sentence", [
    ("crosshatch-angle-is-usual: {note_below: 22 deg, note_above: 32 deg}",
     "build: {stage: machining}\nblock: {crosshatch_angle: 34 deg}\n", "22.0 deg to 32.0 deg is usual"),
    ("break-in-oil-protects-flat-tappets: {zinc_warning_below: 1400 ppm}",
     "lifters: {kind: solid_flat}\noiling: {break_in: {zinc: 1300 ppm}}\n", "a break-in oil of 1400 ppm zinc or more"),
    ("piston-jets-have-oil-supply: {opens_from: 40 psi}",
     "oiling: {pump: {volume: standard}, jets: {kind: factory, opening_pressure: 35 psi}}\n", "jets that open at 40 psi or more"),
    ("maker-value-agrees-with-calculated: {share: 0.70}",
     "joints: {head: {kind: stud, thread: 7/16-20, strength_class: 190_ksi, lubricant: moly_paste, face_lubricant: moly_paste, "
     "maker_torque: 95 lbf-ft}}\n", "for 70 % of proof"),
    ("torque-wrench-is-calibrated: {term: 180 days}", "joints: {head: {torque: 70 lbf-ft}}\n", "180 days or 5000 clicks"),
], ids=["hatch", "break-in oil", "piston jets", "maker's torque", "torque wrench"])
def test_a_sentence_tells_the_limits_of_the_shop(tmp_path, limit, spec, sentence):
    """These sentences used to name the library's own figure whatever the shop judged by."""
    path = shop(tmp_path, f"limits: {{{limit}}}\n", spec)
    finding = said(path, limit.partition(":")[0])
    assert sentence in finding.message + " " + finding.fix
