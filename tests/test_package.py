"""The built wheel, installed in a fresh environment, checks an example from another folder."""

import subprocess
import sys
import tomllib
import venv
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent


def run(*command, cwd, **options):
    return subprocess.run([str(part) for part in command], cwd=cwd, capture_output=True, text=True, timeout=280, **options)


@pytest.fixture(scope="module")
def installed(tmp_path_factory):
    """The buildlint command of a fresh environment in which only the wheel and what it needs is installed."""
    folder = tmp_path_factory.mktemp("package")
    built = run(sys.executable, "-m", "pip", "wheel", "--quiet", "--no-deps", "--wheel-dir", folder, ROOT, cwd=folder)
    assert built.returncode == 0, built.stderr
    wheel, = folder.glob("*.whl")
    venv.create(folder / "fresh", with_pip=True)
    python = folder / "fresh" / "bin" / "python"
    done = run(python, "-m", "pip", "install", "--quiet", "--disable-pip-version-check", wheel, cwd=folder)
    assert done.returncode == 0, done.stderr
    return folder / "fresh" / "bin" / "buildlint"


def test_the_wheel_checks_an_example_from_another_folder(installed, tmp_path):
    found = run(installed, "check", ROOT / "examples" / "flawed.yaml", "--format", "lines", cwd=tmp_path)
    assert found.returncode == 1, found.stderr
    assert "error:" in found.stdout and "Traceback" not in found.stderr


def test_the_wheel_knows_every_rule(installed, tmp_path):
    from buildlint import road

    found = run(installed, "rules", "--format", "lines", cwd=tmp_path)
    assert found.returncode == 0, found.stderr
    assert sum(1 for line in found.stdout.splitlines() if line.strip()) >= len(road.rules())


def test_every_package_of_the_tree_is_named_for_the_wheel():
    """A folder of rules or formulas that the wheel forgets would be a rule that is silently not asked."""
    settings = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["tool"]["setuptools"]
    named = set(settings["packages"])
    for top, prefix in (("buildlint", "buildlint"), ("rules", "buildlint.rules"), ("schemas", "buildlint.schemas")):
        for path in (ROOT / top).rglob("*"):
            if path.suffix in (".py", ".json") and "__pycache__" not in path.parts:
                below = path.parent.relative_to(ROOT / top).parts
                assert ".".join((prefix, *below)) in named, path
