"""Specs as they are while the work goes on: half measured, half named, a value replaced by something else. The rest
is judged, no rule breaks down, and what is odd is said at its line."""

import random

import pytest
import yaml
from specs_in_text import report_of, spec_of

from buildlint import cli
from buildlint.model import FAIL, OPEN, STAGES
from buildlint.spelling import joint_meant
from test_examples import EXAMPLES


def failed(report, rule):
    return [finding for finding in report.findings if finding.kind == FAIL and finding.rule == rule]


# -- half measured ----------------------------------------------------------------------------------------------

HALF = """
build: {stage: %s, duty: street}
engine: {cylinders: 8, layout: v}
block: {bore: 4.030 in}
rings: {top: {end_gap: {%smeasured: [0.0120 in, 0.0185 in]}}}
"""


@pytest.mark.parametrize("stage", STAGES)
def test_a_list_half_measured_is_a_note_until_the_engine_is_assembled(stage):
    finding, = failed(report_of(HALF % (stage, "plan: 0.018 in, ")), "list-has-one-value-each")
    assert finding.level == ("warning" if stage in ("assembly", "handover") else "note")
    assert finding.message == "end gap is measured for 2 of 8 cylinders; 3 to 8 still to come" and finding.place.line == 4


GAPS = """
build: {stage: %s, duty: street}
engine: {cylinders: 8, layout: v}
block: {bore: 4.030 in}
rings: {top: {end_gap: {plan: 0.018 in, measured: [0.0120 in, null, 0.0185 in, ~, 0.0186 in, 0.0187 in]}}}
"""


@pytest.mark.parametrize("stage", STAGES)
def test_a_list_with_gaps_says_where_they_are(stage):
    finding, = failed(report_of(GAPS % stage), "list-has-one-value-each")
    assert finding.level == ("warning" if stage in ("assembly", "handover") else "note")
    assert finding.message == "end gap is measured for 4 of 8 cylinders; 2, 4, 7 and 8 still to come" and finding.place.line == 4
    without = report_of((GAPS % stage).replace("cylinders: 8, ", ""))
    assert failed(without, "list-has-one-value-each")[0].message == "end gap is measured for 4 of 6 cylinders; 2 and 4 still to come"


def test_what_is_measured_beside_a_gap_keeps_its_number_and_the_gap_is_as_planned():
    ring = spec_of(GAPS % "mock_up").rings[0]
    taken = {number: ring.at(("cylinder", ""), number).value("end_gap_measured") for number in range(1, 9)}
    assert {number: round(value.data / 0.0254, 4) for number, value in taken.items() if value is not None} == {
        1: 0.0120, 3: 0.0185, 5: 0.0186, 6: 0.0187}
    assert ring.at(("cylinder", ""), 2).value("end_gap").data == pytest.approx(0.018 * 0.0254)
    assert ring.value("end_gap_smallest").data == pytest.approx(0.0120 * 0.0254)
    assert ring.value("end_gap_spread").data == pytest.approx(0.0067 * 0.0254)
    assert ring.value("end_gap_measured").data == pytest.approx((0.0120 + 0.0185 + 0.0186 + 0.0187) / 4 * 0.0254)


def test_a_gap_without_a_plan_stays_open_and_the_next_cylinder_is_judged_by_its_own():
    report = report_of((GAPS % "mock_up").replace("plan: 0.018 in, ", "").replace("0.0186 in", "0.0110 in"))
    asked = [finding for finding in report.findings if finding.rule == "top-ring-gap-suits-duty" and finding.scope[:1] == ("top ring",)]
    assert {finding.scope[-1] for finding in asked if finding.kind == OPEN} == {f"cylinder {number}" for number in (2, 4, 7, 8)}
    assert {finding.scope[-1] for finding in asked if finding.kind == FAIL} == {"cylinder 1", "cylinder 5"}


def test_nothing_measured_yet_anywhere_is_the_plan():
    text = (GAPS % "mock_up").replace("0.0120 in, null, 0.0185 in, ~, 0.0186 in, 0.0187 in", "null, null")
    assert failed(report_of(text), "list-has-one-value-each") == []
    assert spec_of(text).rings[0].value("end_gap").data == pytest.approx(0.018 * 0.0254)


def test_a_gap_in_a_list_that_is_not_measured_is_told_where_it_may_stand():
    finding, = failed(report_of("bearings: {main: {clearance: [0.0024 in, null, 0.0025 in]}}\n"), "value-has-its-shape")
    assert finding.fix.endswith(" Or write the list under `measured`, where null stands for what is not measured yet.")


def test_every_command_takes_a_list_with_gaps(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "one.yaml").write_text(GAPS % "mock_up")
    (tmp_path / "two.yaml").write_text((GAPS % "mock_up").replace("~", "0.0190 in"))
    assert cli.run(["compare", "one.yaml", "two.yaml"]) in (0, 1)
    assert "cylinder 4" in capsys.readouterr().out
    assert cli.run(["explain", "top_ring_end_gap", "one.yaml"]) == 0
    assert "cylinder 5: 0.0186 in" in capsys.readouterr().out
    assert cli.run(["spread", "one.yaml"]) in (0, 1)
    assert cli.run(["sheet", "one.yaml", "--only", "html"]) == 0
    page = next(tmp_path.glob("**/*.html")).read_text()
    assert "0.0186 in" in page and "cylinder 8" in page


def test_what_is_measured_is_judged_and_the_rest_by_its_plan():
    found = failed(report_of(HALF % ("mock_up", "plan: 0.010 in, ")), "top-ring-gap-suits-duty")
    told = " ".join(" ".join(finding.scope) + " " + finding.message for finding in found)
    assert "0.0120 in" in told and "0.0100 in" in told and "0.0185 in" not in told
    assert {finding.place.line for finding in found} == {4}


def test_without_a_plan_the_cylinders_not_measured_stay_open():
    report = report_of(HALF % ("mock_up", ""))
    asked = [finding for finding in report.findings if finding.rule == "top-ring-gap-suits-duty" and finding.scope[:1] == ("top ring",)]
    waiting = {finding.scope[-1]: finding.missing for finding in asked if finding.kind == OPEN}
    assert waiting == {f"cylinder {number}": ("rings.top.end_gap",) for number in range(3, 9)}
    assert [finding.scope for finding in asked if finding.kind == FAIL] == [("top ring", "cylinder 1")]


def test_a_cylinder_that_is_not_measured_has_a_plan_and_no_measurement():
    ring = spec_of(HALF % ("mock_up", "plan: 0.018 in, ")).rings[0]
    first, third = (ring.at(("cylinder", ""), number) for number in (1, 3))
    assert first.value("end_gap_measured").data == pytest.approx(0.0120 * 0.0254)
    assert third.value("end_gap").data == third.value("end_gap_planned").data == pytest.approx(0.018 * 0.0254)
    assert third.value("end_gap_measured") is None


def test_a_full_list_beside_a_half_one_is_judged_in_every_cylinder():
    text = HALF.replace("bore: 4.030 in", "bore: {measured: [%s]}" % ", ".join(["4.030 in"] * 8)) % ("mock_up", "")
    asked = [finding.scope for finding in report_of(text).findings if finding.rule == "top-ring-gap-suits-duty"]
    assert len({scope for scope in asked if scope[:1] == ("top ring",)}) == 8


TOO_MANY = {"a measured list": "{measured: [%s]}", "a plain list": "[%s]"}


@pytest.mark.parametrize("written", TOO_MANY.values(), ids=TOO_MANY)
def test_more_values_than_cylinders_are_an_error(written):
    text = "engine: {cylinders: 4}\nblock:\n  bore: " + written % ", ".join(["4.030 in"] * 5)
    finding, = failed(report_of(text), "list-has-one-value-each")
    assert finding.level == "error" and "5 values, but the engine has 4 cylinders" in finding.message


def test_a_plain_list_that_stops_short_is_an_error():
    finding, = failed(report_of("engine: {cylinders: 4}\nblock: {bore: [4.030 in]}\n"), "list-has-one-value-each")
    assert finding.level == "error" and "1 value, but" in finding.message


# -- names of joints ----------------------------------------------------------------------------------------------

MEANT = {"two letters changed places": ("haed", "head"), "a plural": ("rods", "rod"), "the fastener named": ("head_bolts", "head"),
         "a letter too few": ("intake_manifld", "intake_manifold"), "two words": ("fly_wheel", "flywheel"), "one word": ("oilpan", "oil_pan"),
         "the word of another place": ("rocker_inlet", "rocker_intake"), "a letter too many": ("dampper", "damper")}
OWN_NAMES = ["header", "rod_cap", "rocker_arm", "rocker_shaft", "water_pump_pulley", "timing_chain_cover", "head_inner", "alternator",
             "pressure_plate", "fuel_pump", "oil_filter", "coil", "red"]


@pytest.mark.parametrize("name, meant", MEANT.values(), ids=MEANT)
def test_a_joint_that_misses_a_known_name_is_asked_about(name, meant):
    finding, = failed(report_of(f"joints:\n  {name}: {{kind: bolt}}\n"), "key-is-known")
    assert finding.level == "warning" and finding.place.line == 2 and f"Did you mean `{meant}`?" in finding.fix
    assert finding.pointer == f"/joints/{name}" and f"serves: {meant}" in finding.fix


@pytest.mark.parametrize("name", OWN_NAMES)
def test_a_joint_with_a_name_of_its_own_is_left_alone(name):
    assert not failed(report_of(f"joints:\n  {name}: {{kind: bolt}}\n"), "key-is-known")


def test_a_joint_that_serves_another_may_have_any_name():
    assert not failed(report_of("joints:\n  heads: {serves: head, kind: bolt}\n"), "key-is-known")


def test_no_known_joint_is_taken_for_another():
    from buildlint import road

    names = road.joint_names()
    assert all(joint_meant(name, [other for other in names if other != name]) is None for name in names)


# -- a value replaced by something else -----------------------------------------------------------------------------

OTHERS = {"a list": ["x", 1, None, {"a": 1}], "an empty list": [], "a mapping": {"plan": {"a": []}, "zzz": 1}, "an empty mapping": {},
          "null": None, "true": True, "text": "x\x1b[31m", "an empty text": "", "a number": 12345678901234567890, "a negative length": "-1 in",
          "no length": "0 in", "no number": ".inf", "400 digits": "9" * 400, "a huge length": "1e308 in"}


def paths(tree, at=()):
    children = tree.items() if isinstance(tree, dict) else enumerate(tree) if isinstance(tree, list) else ()
    for name, child in children:
        yield (*at, name)
        yield from paths(child, (*at, name))


def replaced(tree, path, value):
    copy = yaml.safe_load(yaml.safe_dump(tree))
    inner = copy
    for step in path[:-1]:
        inner = inner[step]
    inner[path[-1]] = value
    return yaml.safe_dump(copy, sort_keys=False)


@pytest.mark.parametrize("name", ["measured.yaml", "good.yaml"])
@pytest.mark.parametrize("other", OTHERS.values(), ids=OTHERS)
def test_any_value_may_be_something_else_and_no_rule_breaks_down(name, other):
    tree = yaml.safe_load((EXAMPLES / name).read_text(encoding="utf-8"))
    tree.pop("based_on", None)
    chosen = random.Random(f"{name} {other!r}").sample(list(paths(tree)), 5)
    for path in chosen:
        report = report_of(replaced(tree, path, other))
        assert report.crashed == (), path
        assert all(finding.message and finding.place.line for finding in report.findings if finding.kind == FAIL)


UNNAMED = {"a list": "[]", "a mapping": "{a: b}", "null": "null", "a number": "12", "an empty text": "''"}


@pytest.mark.parametrize("name", UNNAMED.values(), ids=UNNAMED)
def test_a_step_an_item_and_a_joint_whose_name_cannot_be_read_break_no_rule(name):
    report = report_of(f"""
        build: {{stage: assembly}}
        assembly: {{steps: [{{step: {name}, by: RM}}, {{by: RM}}, x, {{step: final_wash}}]}}
        order: {{items: [{{item: {name}, quantity: 1}}, {{quantity: 2}}, 3]}}
        joints: {{head: {{serves: {name}}}}}
        """)
    assert report.crashed == ()
    assert any(finding.rule in ("value-has-its-shape", "choice-is-known") and finding.place.line == 2 for finding in report.findings)


def test_a_part_of_the_catalogue_is_told_at_its_own_line(tmp_path, monkeypatch):
    from buildlint import road

    (tmp_path / "catalogue").mkdir()
    (tmp_path / "shop.yaml").write_text("shop: Hollow Creek Engine Works\n")
    (tmp_path / "catalogue" / "springs.yaml").write_text("sp-1:\n  spring:\n    seat_load: 130 in\n    installed_height: 1.8\n    ratee: 300 lbf/in\n")
    (tmp_path / "build.yaml").write_text("intake:\n  spring: {part: sp-1}\n")
    monkeypatch.chdir(tmp_path)
    report = road.check("build.yaml")
    said = {finding.place.line: finding for finding in report.findings if finding.place and "catalogue" in finding.place.file and finding.level == "error"}
    assert sorted(said) == [3, 4, 5]
    assert "a force was expected" in said[3].message and "has no unit" in said[4].message and "Did you mean `rate`?" in said[5].fix
