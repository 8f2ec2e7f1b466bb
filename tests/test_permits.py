"""A permit sets one rule aside at one place with a reason; a permit that should not be there is a finding."""

from datetime import date

import pytest

from buildlint import road, standard
from buildlint.model import FAIL

BUILD = """
build: {stage: ordering}
joints:
  head: {kind: stud, stud_install_torque: 20 lbf-ft}
  main: {kind: stud, stud_install_torque: 20 lbf-ft}
permits:
  - %s
"""
RULE = "stud-is-set-finger-tight"
WHOLE = "approved: RM, until: 2026-12-31"


def findings(permit, today=date(2026, 6, 1), settled=standard.NONE):
    report = road.check("build.yaml", text=(BUILD % permit).encode(), settled=settled, today=lambda: today)
    return report.findings


def on_permits(found):
    return [(finding.rule, finding.level) for finding in found if finding.pointer.startswith("/permits")]


def permitted(found):
    return {finding.scope: finding.permit for finding in found if finding.rule == RULE and finding.kind == FAIL}


@pytest.mark.parametrize("at", ["joints.head", "/joints/head", "joints.head.stud_install_torque", "head joint"])
def test_a_permit_sets_a_finding_aside_at_its_place_only(at):
    found = findings(f"{{rule: {RULE}, at: {at}, because: driven by the maker's sheet, {WHOLE}}}")
    marks = permitted(found)
    assert marks[("head joint",)] == {"because": "driven by the maker's sheet", "approved": "RM", "until": "2026-12-31"}
    assert marks[("main joint",)] is None
    assert on_permits(found) == []


@pytest.mark.parametrize("today, in_date", [(date(2026, 12, 30), True), (date(2026, 12, 31), True), (date(2027, 1, 1), False)])
def test_a_permit_holds_through_its_last_day(today, in_date):
    found = findings(f"{{rule: {RULE}, at: joints.head, because: agreed, {WHOLE}}}", today)
    assert (permitted(found)[("head joint",)] is not None) == in_date
    assert on_permits(found) == ([] if in_date else [("permit-is-in-date", "warning")])


@pytest.mark.parametrize("permit, said", [
    pytest.param(f"{{rule: {RULE}, because: '  ', {WHOLE}}}", [("permit-gives-its-reason", "error")], id="no reason"),
    pytest.param(f"{{rule: stud-is-set-finger-tigt, because: x, {WHOLE}}}", [("permit-names-a-rule", "error")], id="unknown rule"),
    pytest.param(f"{{rule: {RULE}, at: joints.rod, because: x, {WHOLE}}}", [("permit-is-used", "warning")], id="wrong place"),
    pytest.param(f"{{rule: quench-gap-is-close, because: x, {WHOLE}}}", [("permit-is-used", "warning")], id="nothing to set aside"),
    pytest.param(f"{{rule: {RULE}, because: x, {WHOLE}}}", [("permit-names-its-place", "note")], id="too wide"),
    pytest.param(f"{{rule: {RULE}, at: joints.head, because: x}}", [("permit-is-complete", "note")], id="no approval and no end"),
    pytest.param(f"{{rule: rule-runs-to-its-end, because: x, {WHOLE}}}", [("permit-names-a-rule", "error")], id="a crash cannot be permitted"),
])
def test_a_permit_that_should_not_be_there_is_a_finding(permit, said):
    assert on_permits(findings(permit)) == said


def test_an_unknown_rule_gets_a_suggestion():
    found = [finding for finding in findings(f"{{rule: stud-is-set-finger-tigt, because: x, {WHOLE}}}") if finding.rule == "permit-names-a-rule"]
    assert RULE in found[0].fix


def test_a_permit_without_a_reason_is_an_error_of_shape():
    found = findings(f"{{rule: {RULE}, at: joints.head}}")
    assert permitted(found)[("head joint",)] is None
    assert any(finding.pointer.startswith("/permits") and finding.level == "error" for finding in found)


def test_a_shop_may_refuse_permits():
    refused = standard.Standard("shop.yaml", refused_permits=frozenset({RULE}))
    found = findings(f"{{rule: {RULE}, at: joints.head, because: x, {WHOLE}}}", settled=refused)
    assert on_permits(found) == [("permit-is-allowed", "error")] and permitted(found)[("head joint",)] is None


def test_two_permits_for_one_finding_leave_the_second_unused():
    permit = f"{{rule: {RULE}, at: joints.head, because: x, {WHOLE}}}"
    assert on_permits(findings(permit + "\n  - " + permit)) == [("permit-is-used", "warning")]
