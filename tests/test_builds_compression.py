"""Whole builds of an invented shop, sound and flawed, with exactly the findings they deserve of compression, air, fuel and spark.

What is expected stands in the builds themselves: a line that must be reported ends with ``# <- level rule scope`` (more of
them parted by semicolons), and nothing else may be reported by the rules of these three areas.
"""

import re
from pathlib import Path

import pytest

from buildlint import road
from buildlint.model import FAIL, NOT_APPLICABLE, OPEN

FOLDER = Path(__file__).parent / "specs" / "compression"
BUILDS = sorted(FOLDER.glob("*.yaml"))
SOUND = [path for path in BUILDS if not path.stem.endswith("flawed")]
FLAWED = [path for path in BUILDS if path.stem.endswith("flawed")]
AREAS = ("compression", "air_and_fuel", "ignition")
RULES = {rule.id: rule for rule in road.rules() if rule.area in AREAS}


def expected(path):
    """(line, level, rule, scope) of every mark in a build."""
    found = set()
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
        mark = re.search(r"# <- (.*)$", line)
        for one in mark[1].split(";") if mark else ():
            level, rule, *scope = one.split()
            found.add((number, level, rule, " ".join(scope)))
    return found


def reported(path):
    report = road.check(str(path), chosen=list(RULES.values()))
    assert not report.crashed
    return report


@pytest.mark.parametrize("path", BUILDS, ids=[path.stem for path in BUILDS])
def test_a_build_is_told_exactly_what_is_wrong_with_it(path):
    found = {(finding.place.line, finding.level, finding.rule, " ".join(finding.scope))
             for finding in reported(path).findings if finding.kind == FAIL and finding.rule in RULES}
    assert found == expected(path)


@pytest.mark.parametrize("path", SOUND, ids=[path.stem for path in SOUND])
def test_a_sound_build_is_clean_and_has_nothing_overdue(path):
    report = reported(path)
    assert not [finding for finding in report.findings if finding.kind == FAIL], "not even a note"


@pytest.mark.parametrize("path", BUILDS, ids=[path.stem for path in BUILDS])
def test_a_build_is_read_whole(path):
    """No key is misspelt and no quantity unreadable: every finding comes from a rule."""
    own = {"due-inputs-are-written", "due-reminders-are-signed"}
    strange = [finding for finding in reported(path).findings if finding.kind == FAIL and finding.rule not in RULES and finding.rule not in own]
    assert not strange


def test_there_is_a_flawed_build_beside_every_sound_one():
    assert len(SOUND) >= 8
    assert {path.stem + "_flawed" for path in SOUND} == {path.stem for path in FLAWED}


def test_the_marks_name_rules_that_exist():
    for path in BUILDS:
        assert {rule for _, _, rule, _ in expected(path)} <= set(RULES)


def test_every_rule_of_error_level_is_answered_by_some_build():
    """A rule that no whole build ever reaches was tested on its own examples only."""
    answered = {finding.rule for path in BUILDS for finding in reported(path).findings if finding.kind not in (OPEN, NOT_APPLICABLE)}
    assert {rule.id for rule in RULES.values() if rule.level == "error"} <= answered
