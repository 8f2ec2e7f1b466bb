"""Every written value becomes a word with its meaning in SI, and what cannot be read is reported with its place."""

import datetime

import pytest
from specs_in_text import report_of, spec_of


def test_each_kind_of_value_is_read_as_what_it_is():
    spec = spec_of("""
        build: {number: 00417, stage: ordering, rev_limit: 6800 rpm}
        engine: {cylinders: 8, firing_order: [1, 8, 4, 3, 6, 5, 7, 2]}
        pushrods: {oil_through: yes}
        block: {last_washed_on: 2026-05-03}
        joints: {head: {thread: 7/16-20}}
        intake:
          spring: {load_table: [[1.800 in, 150 lbf], [1.200 in, 400 lbf]]}
          valve: {tip_hardness: 55 HRC}
        fuel_system: {ethanol_fraction: 10 %}
        """)
    build = spec.build
    assert build.value("number").data == "00417"
    assert spec.stage == "ordering"
    assert build.value("rev_limit").data == pytest.approx(712.0943, rel=1e-6)
    assert build.value("cylinders").data == 8
    assert build.value("firing_order").data == [1, 8, 4, 3, 6, 5, 7, 2]
    assert build.value("pushrod_oil_through").data is True
    assert build.value("block_last_washed_on").data == datetime.date(2026, 5, 3)
    assert build.value("head_joint_thread").data.diameter == pytest.approx(0.4375 * 0.0254)
    assert build.value("intake_spring_load_table").data[1][1] == pytest.approx(400 * 4.4482216152605)
    assert build.value("intake_valve_tip_hardness").data == 55 and build.value("intake_valve_tip_hardness").unit == "HRC"
    assert build.value("fuel_ethanol_fraction").data == pytest.approx(0.10)


@pytest.mark.parametrize("text, line, said", [
    pytest.param("crank:\n  stroke: 3,75 in\n", 2, "comma", id="decimal comma"),
    pytest.param("crank:\n  stroke: 3.750\n", 2, "unit", id="no unit"),
    pytest.param("crank:\n  stroke: 3.750 lbf\n", 2, "lbf", id="another dimension"),
    pytest.param("crank:\n  stroke: yes\n", 2, "yes", id="a word"),
    pytest.param("block:\n  last_washed_on: 2026-13-45\n", 2, "day", id="no such day"),
    pytest.param("joints:\n  head:\n    thread: seven sixteenths\n", 3, "thread", id="no thread"),
])
def test_what_cannot_be_read_is_reported_on_its_line_with_a_fix(text, line, said):
    problems = [finding for finding in report_of(text).findings if finding.area == "spec" and finding.level == "error"]
    assert problems, "nothing was reported"
    assert {finding.place.line for finding in problems} == {line}
    assert any(said in finding.message + finding.fix for finding in problems)
    assert all(finding.fix for finding in problems)


def test_a_broken_value_does_not_stop_the_rest_from_being_judged():
    report = report_of("""
        engine: {cylinders: 8, firing_order: [1, 8, 4, 3, 6, 5, 7]}
        crank: {stroke: rubbish}
        """)
    assert any(finding.rule == "firing-order-is-a-permutation" and finding.kind == "fail" for finding in report.findings)
    assert any(finding.rule == "quantity-can-be-read" and finding.place.line == 2 for finding in report.findings)


def test_units_let_bare_numbers_through():
    assert spec_of("units: us\ncrank: {stroke: 3.750}\n").build.value("crank_stroke").data == pytest.approx(0.09525)
    assert spec_of("units: metric\ncrank: {stroke: 95.25}\n").build.value("crank_stroke").data == pytest.approx(0.09525)


def test_a_list_by_cylinder_has_one_value_for_each():
    report = report_of("engine: {cylinders: 8}\nblock: {bore: [4.030 in, 4.031 in]}\n")
    found = [finding for finding in report.findings if finding.rule == "list-has-one-value-each"]
    assert len(found) == 1 and found[0].place.line == 2 and "8 cylinders" in found[0].message


def test_the_coil_of_a_lone_spring_is_its_own_scope():
    spec = spec_of("intake:\n  spring: {wire_diameter: 0.181 in, installed_height: 1.800 in}\n")
    assert [scope.label for scope in spec.springs] == [("intake", "outer spring")]
    assert spec.springs[0].value("wire_diameter").text == "0.181 in"
    assert spec.springs[0].value("coil_installed_height").data == pytest.approx(1.8 * 0.0254)


def test_a_value_of_a_lone_spring_that_cannot_be_read_is_told_once():
    told = spec_of("intake: {spring: {rate: 71;8 N/mm, solid_height: 1.1}}\n").problems
    assert sorted(problem.pointer for problem in told) == ["/intake/spring/rate", "/intake/spring/solid_height"]


def test_steps_know_what_came_before_and_items_what_is_ordered_altogether():
    spec = spec_of("""
        assembly: {steps: [{step: dowels}, {step: head_gasket}, {step: head_studs}]}
        order: {items: [{item: pushrod, side: intake, quantity: 8}, {item: pushrod, side: exhaust, quantity: 8},
                        {item: valve_lock, quantity: 4, per_set: 8}]}
        """)
    assert spec.steps[2].value("earlier_steps").data == ["dowels", "head_gasket"]
    assert spec.items[0].value("ordered_altogether").data == 16
    assert spec.items[2].value("ordered_altogether").data == 32


def test_sign_offs_settle_reminders_only_with_initials():
    spec = spec_of("assembly: {signed: [{check: a-check, by: RM, on: 2026-05-03}, {check: another-check}]}")
    assert spec.signed == {"a-check": "by RM on 2026-05-03"}


def test_one_spring_is_the_set_unless_its_coils_are_written_in_whatever_order():
    alone = spec_of("intake: {spring: {seat_load: 150 lbf, wire_diameter: 0.187 in}}\n")
    assert [(spring.name, spring.value("wire_diameter").text) for spring in alone.springs] == [("outer", "0.187 in")]
    coils = "  springs: {outer: {rate: 330 lbf/in}, inner: {rate: 160 lbf/in}}\n"
    whole = "  spring: {wire_diameter: 0.187 in, load_table: [[1.8 in, 165 lbf], [1.2 in, 460 lbf]]}\n"
    for text in ("intake:\n" + coils + whole, "intake:\n" + whole + coils):
        springs = spec_of(text).springs
        assert [spring.name for spring in springs] == ["outer", "inner"]
        assert all(spring.value("load_table") is None for spring in springs)
