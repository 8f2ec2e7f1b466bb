"""Every rule against its own examples: they are its tests.

A conforming example must come out clean of the rule, a nonconforming one must be found on the line marked
``# <-``; each missing input must leave the rule open and name it. Select an area with ``-k valvetrain``.
"""

import textwrap

import pytest

from buildlint import road
from buildlint.model import FAIL, LEVELS, NOT_APPLICABLE, OPEN, PASS, REVIEW

RULES = road.rules()
EXPECTED_BESIDE = {"due-inputs-are-written", "due-reminders-are-signed"}


def examples(kind):
    return [pytest.param(rule, textwrap.dedent(text).strip("\n") + "\n", id=f"{rule.area} {rule.id} {number}")
            for rule in RULES for number, text in enumerate(getattr(rule, kind), 1)]


def ask(rule, text):
    """What one rule says of a spec, and what else was found wrong with the spec's text."""
    report = road.check("example.yaml", text=text.encode(), chosen=[rule])
    own = [finding for finding in report.findings if finding.rule == rule.id]
    others = [finding for finding in report.findings if finding.rule not in (rule.id, *EXPECTED_BESIDE)]
    return own, others


@pytest.mark.parametrize("rule, text", examples("conforming"))
def test_a_conforming_example_is_not_reported(rule, text):
    own, others = ask(rule, text)
    assert not others, others
    reported = [finding for finding in own if finding.kind == FAIL and not (finding.level == "note" and rule.level != "note")]
    assert not reported, reported
    answered = (REVIEW,) if rule.level == "reminder" else (PASS, NOT_APPLICABLE)
    assert any(finding.kind in answered or finding.kind == FAIL for finding in own), own


@pytest.mark.parametrize("rule, text", examples("nonconforming"))
def test_a_nonconforming_example_is_found_on_the_marked_line(rule, text):
    own, others = ask(rule, text)
    assert not others, others
    marked = {number for number, line in enumerate(text.splitlines(), 1) if line.rstrip().endswith("# <-")}
    assert marked, "the example marks no line"
    found = {finding.place.line for finding in own if finding.kind == FAIL}
    assert marked <= found, own


@pytest.mark.parametrize("rule, text", examples("nonconforming"))
def test_a_finding_is_complete_and_no_more_serious_than_its_rule(rule, text):
    own, _ = ask(rule, text)
    for finding in own:
        if finding.kind != FAIL:
            continue
        assert finding.message and finding.fix and finding.source and finding.place
        assert "{" not in finding.message + finding.fix
        assert "None" not in finding.message + finding.fix and "Amount(" not in finding.message + finding.fix
        assert "nan" not in (finding.message + finding.fix).split()
        if rule.level in LEVELS:
            assert LEVELS.index(finding.level) >= LEVELS.index(rule.level)


@pytest.mark.parametrize("rule, text", examples("nonconforming"))
def test_some_example_reaches_the_level_the_rule_may_give(rule, text):
    levels = {finding.level for example in rule.nonconforming for finding in ask(rule, _dedent(example))[0] if finding.kind == FAIL}
    if rule.level in LEVELS:
        assert rule.level in levels or rule.level == "error" and "warning" in levels, levels


def _dedent(text):
    return textwrap.dedent(text).strip("\n") + "\n"


@pytest.mark.parametrize("rule", [pytest.param(rule, id=f"{rule.area} {rule.id}") for rule in RULES if rule.scope != "value"])
def test_an_empty_spec_leaves_the_rule_open_or_not_applicable(rule):
    own, _ = ask(rule, "build: {name: empty}\n")
    assert own
    for finding in own:
        assert finding.kind in (OPEN, NOT_APPLICABLE, REVIEW, PASS), finding
        if finding.kind == OPEN:
            assert finding.missing
            assert all("." in path or path in ("joints", "rings", "bearings", "springs") for path in finding.missing), finding.missing


@pytest.mark.parametrize("rule", [pytest.param(rule, id=f"{rule.area} {rule.id}") for rule in RULES])
def test_a_rule_reads_as_a_page_of_a_handbook(rule):
    assert rule.why.strip().splitlines()[0].rstrip().endswith("."), "the docstring begins with a sentence"
    assert 3 <= len(rule.id.split("-")) <= 7
    assert not any(character.isdigit() for character in rule.id)
    assert rule.fix.rstrip().endswith((".", "}"))


def test_ids_are_unique():
    assert len({rule.id for rule in RULES}) == len(RULES)
