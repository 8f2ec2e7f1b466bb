"""Two specs beside each other: what was written differently, what follows, which findings came and went."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from buildlint.compare import compare

ROOT = Path(__file__).parent.parent
OLD = """
build: {stage: assembly}
engine: {cylinders: 2}
block: {bore: [4.030 in, 4.031 in]}
crank: {stroke: 3.750 in}
joints:
  head: {kind: stud, stud_install_torque: 20 lbf-ft}
"""


@pytest.fixture
def pair(tmp_path):
    def written(new, old=OLD):
        (tmp_path / "old.yaml").write_text(old)
        (tmp_path / "new.yaml").write_text(new)
        return compare(tmp_path / "old.yaml", tmp_path / "new.yaml")
    return written


def test_the_same_spec_has_no_differences(pair):
    found = pair(OLD)
    assert not (found.written or found.follows or found.gone or found.new_findings) and found.same


def test_another_unit_order_or_place_is_no_difference(pair):
    new = "# later\n" + OLD.replace("crank: {stroke: 3.750 in}", "").replace("engine:", "crank: {stroke: 95.25 mm}\nengine:")
    found = pair(new)
    assert not found.written and not found.follows


def test_a_changed_value_shows_with_what_follows_from_it(pair):
    found = pair(OLD.replace("3.750 in", "3.480 in"))
    assert [(change.word, change.before, change.after) for change in found.written] == [("crank_stroke", "3.750 in", "3.480 in")]
    follows = {change.word for change in found.follows}
    assert "displacement" in follows


def test_a_value_of_one_cylinder_is_told_for_that_cylinder(pair):
    found = pair(OLD.replace("4.031 in", "4.032 in"))
    assert [(change.scope, change.before, change.after) for change in found.written] == [(("cylinder 2",), "4.031 in", "4.032 in")]


def test_what_is_no_longer_known_is_told(pair):
    found = pair(OLD.replace("crank: {stroke: 3.750 in}\n", ""))
    change = next(change for change in found.written if change.word == "crank_stroke")
    assert (change.before, change.after) == ("3.750 in", None)


def test_findings_that_went_and_came(pair):
    rule = "stud-is-set-finger-tight"
    found = pair(OLD.replace("20 lbf-ft", "2 lbf-ft"))
    assert rule in {finding.rule for finding in found.gone} and rule not in {finding.rule for finding in found.new_findings}
    found = pair(OLD, OLD.replace("20 lbf-ft", "2 lbf-ft"))
    assert rule in {finding.rule for finding in found.new_findings}


@pytest.mark.parametrize("new, status", [(OLD, 0), (OLD.replace("20 lbf-ft", "2 lbf-ft"), 0), (OLD.replace("20 lbf-ft", "25 lbf-ft"), 1)])
def test_the_command_tells_by_its_exit_status_whether_a_finding_came(tmp_path, new, status):
    (tmp_path / "old.yaml").write_text(OLD)
    (tmp_path / "new.yaml").write_text(new)
    run = subprocess.run([sys.executable, "-m", "buildlint", "compare", "old.yaml", "new.yaml", "--format", "json"], cwd=tmp_path,
                         env={**os.environ, "PYTHONPATH": str(ROOT)}, capture_output=True, text=True, timeout=60)
    assert run.returncode == status, run.stderr
    told = json.loads(run.stdout)
    assert set(told) == {"old", "new", "written", "follows", "came", "went", "stayed"}
