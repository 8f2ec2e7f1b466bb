"""The workflow examples, the hook file and the package of shop rules, run as far as they can be run here."""

import json
import os
import re
import subprocess
import sys
import xml.etree.ElementTree as ElementTree
from pathlib import Path

import pytest
import yaml

ROOT = Path(__file__).parent.parent


@pytest.fixture
def shop(tmp_path):
    """A folder in which `examples` is the examples of this repository, `buildlint` the program, installing a no-op."""
    (tmp_path / "examples").symlink_to(ROOT / "examples")
    commands = tmp_path / "bin"
    commands.mkdir()
    for name, line in (("buildlint", f'exec "{sys.executable}" -m buildlint "$@"'), ("pip", "exit 0")):
        (commands / name).write_text(f"#!/bin/sh\n{line}\n")
        (commands / name).chmod(0o755)
    return tmp_path


def run(line, shop):
    environment = {**os.environ, "PATH": f"{shop / 'bin'}:{os.environ['PATH']}", "PYTHONPATH": str(ROOT),
                   "GITHUB_STEP_SUMMARY": str(shop / "step.md"), "XDG_CACHE_HOME": str(shop / "cache")}
    return subprocess.run(["sh", "-c", line], cwd=shop, env=environment, capture_output=True, text=True, timeout=240)


def test_the_annotations_workflow_runs(shop):
    steps = yaml.safe_load((ROOT / "examples/.github/workflows/annotations.yaml").read_text())["jobs"]["check"]["steps"]
    statuses = [run(step["run"], shop).returncode for step in steps if "run" in step]
    assert statuses == [0, 1, 0]
    assert json.loads((shop / "buildlint.sarif").read_text())["version"] == "2.1.0"
    assert (shop / "step.md").read_text().startswith("# buildlint")
    told = run(steps[3]["run"], shop).stdout.splitlines()
    assert told and all(re.match(r"::(error|warning|notice) file=[^,]+,line=[0-9]+", line) for line in told)


def test_the_quality_pipeline_runs(shop):
    job = yaml.safe_load((ROOT / "examples/.gitlab-ci.yml").read_text())["build specs"]
    assert [run(line, shop).returncode for line in job["script"]] == [0, 1]
    for name in job["artifacts"]["reports"].values():
        assert (shop / name).exists()
    prints = [each["fingerprint"] for each in json.loads((shop / "quality.json").read_text())]
    assert prints and len(prints) == len(set(prints))
    assert ElementTree.parse(shop / "junit.xml").getroot().tag == "testsuites"


def test_the_hook_checks_the_files_it_is_given(shop):
    hook, = yaml.safe_load((ROOT / ".pre-commit-hooks.yaml").read_text())
    assert {"id", "name", "entry", "language", "types", "require_serial"} <= hook.keys()
    excluded = re.compile(hook["exclude"])
    assert excluded.search("examples/catalogue/springs.yaml") and excluded.search("shop.yaml") and not excluded.search("jobs/a.yaml")
    assert run(f"{hook['entry']} examples/good.yaml examples/flawed.yaml", shop).returncode == 1
    assert run(f"{hook['entry']} examples/good.yaml", shop).returncode == 0


def test_the_package_of_shop_rules_passes_its_own_tests(tmp_path):
    found = subprocess.run([sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", "-c", os.devnull, "tests"],
                           cwd=ROOT / "examples" / "shop_rules", env={**os.environ, "PYTHONPATH": str(ROOT)}, capture_output=True, text=True, timeout=120)
    assert found.returncode == 0, found.stdout


def test_the_command_proves_the_rules_of_the_shop():
    command = [sys.executable, "-m", "buildlint", "standard", "--rules", "hollow_creek", "--prove"]
    found = subprocess.run(command, cwd=ROOT / "examples" / "shop_rules", env={**os.environ, "PYTHONPATH": str(ROOT)}, capture_output=True, text=True, timeout=60)
    assert found.returncode == 0 and "5 examples of 2 rules, none of them broken" in found.stderr, found.stderr
