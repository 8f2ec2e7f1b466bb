"""Whole short blocks of an invented shop, sound and flawed, with exactly the findings they deserve.

What is expected stands in the builds themselves: a line that must be reported ends with ``# <- level rule scope`` (more of
them parted by semicolons), and nothing else may be reported by the rules of the short block.
"""

from pathlib import Path

import marked_builds
import pytest
import specs_in_text
from marked_builds import expected, reported, strange

from buildlint import road
from buildlint.model import FAIL

FOLDER = Path(__file__).parent / "specs" / "short_block"
BUILDS = sorted(FOLDER.glob("*.yaml"))
SOUND = [path for path in BUILDS if not path.stem.endswith("_flawed")]
RULES = {rule.id: rule for rule in road.rules() if rule.area == "short_block"}


def report_of(path):
    return marked_builds.report_of(path, RULES)


@pytest.mark.parametrize("path", BUILDS, ids=[path.stem for path in BUILDS])
def test_a_short_block_is_told_exactly_what_is_wrong_with_it(path):
    assert reported(report_of(path), RULES) == expected(path)


@pytest.mark.parametrize("path", SOUND, ids=[path.stem for path in SOUND])
def test_a_sound_short_block_draws_no_more_than_notes_and_has_nothing_overdue(path):
    report = report_of(path)
    levels = {finding.level for finding in report.findings if finding.kind == FAIL and finding.rule in RULES}
    assert levels <= {"note"}
    overdue = [finding.message for finding in report.findings if finding.rule == "due-inputs-are-written" and finding.level != "note"]
    assert not overdue


@pytest.mark.parametrize("path", BUILDS, ids=[path.stem for path in BUILDS])
def test_a_short_block_is_read_whole(path):
    """No key is misspelt and no quantity unreadable: every finding comes from a rule."""
    assert not strange(report_of(path), RULES)


def test_every_flawed_short_block_has_a_sound_twin():
    names = {path.stem for path in BUILDS}
    assert len(SOUND) == 9
    assert names == {path.stem for path in SOUND} | {f"{path.stem}_flawed" for path in SOUND}


def test_the_flawed_builds_reach_most_rules_that_can_be_broken_on_paper():
    """Errors are what the builds are for: half of the rules that can give one are seen to give one in a whole engine."""
    seen = {rule for path in BUILDS for _, level, rule, _ in expected(path) if level == "error"}
    possible = {identifier for identifier, rule in RULES.items() if rule.level == "error"}
    assert len(seen & possible) >= len(possible) / 2


def test_a_fix_carries_the_number_to_work_to():
    fixes = {}
    for path in BUILDS:
        for finding in report_of(path).findings:
            if finding.kind == FAIL:
                fixes.setdefault(finding.rule, []).append(finding.fix)
    for rule, number in (("top-ring-gap-suits-duty", "File it to 0.0"), ("rod-clearance-suits-journal", "Aim for 0.00"),
                         ("oil-grade-suits-clearance", "grade"), ("piston-clearance-suits-alloy", "larger"),
                         ("piston-clears-the-head", "thicker by 0.0"), ("rods-clear-the-cam", "0.0"),
                         ("shell-undersize-matches-journal-grind", "0.0100 in undersize"), ("residual-unbalance-is-small", "ozf*in")):
        assert any(number in fix for fix in fixes[rule]), fixes[rule]


def test_nitrous_is_held_against_what_the_piston_stands_in_an_engine_of_this_size():
    report = specs_in_text.report_of("""
        engine: {cylinders: 8}
        block: {bore: 4.030 in}
        crank: {stroke: 3.480 in}
        nitrous: {power: 250 hp}
        pistons: {class: hypereutectic}
        """)
    found, = (finding for finding in report.findings if finding.rule == "piston-alloy-suits-induction")
    assert found.level == "error" and found.unit == "hp" and found.value == pytest.approx(250)
    assert found.limit == pytest.approx(0.35 * 355.1, rel=1e-3)  # a third of a horsepower for each of its cubic inches
    assert "124 hp is what they are known to stand at that size" in found.message and "at or below 124 hp" in found.fix
