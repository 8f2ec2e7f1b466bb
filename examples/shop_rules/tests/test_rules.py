"""The rules of the shop against their own examples, and in a whole check as the shop runs it."""

from pathlib import Path

import pytest

from buildlint import outside, road
from buildlint.proof import broken_examples

FOLDER = Path(__file__).parent.parent / "hollow_creek"


@pytest.fixture
def rules():
    road.take_rules_from([str(FOLDER)])
    yield [rule for rule in road.rules() if not road.shipped(rule)]
    road.take_rules_from([])


def test_the_examples_of_every_rule_hold(rules):
    assert len(rules) == 2
    assert broken_examples(rules) == []


def test_a_withdrawn_spring_is_found_in_a_spec(rules, tmp_path):
    spec = tmp_path / "job.yaml"
    spec.write_text("intake:\n  spring: {part: hc-spring-209}\n")
    found = [finding for finding in road.check(spec).findings if finding.rule == "hollow-creek-spring-is-on-the-list" and finding.kind == "fail"]
    assert [(finding.level, finding.place.line) for finding in found] == [("error", 2)]


def test_the_ids_begin_with_the_name_of_the_shop():
    assert all(rule.id.startswith("hollow-creek-") for rule in outside.load(FOLDER))
