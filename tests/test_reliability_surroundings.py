"""The surroundings of a run: no network, no home, another folder, another day, other workers, two runs at once; and
what the rules and formulas may not touch. The same specs give the same bytes, and nothing of the machine gets in."""

import ast
import json
import os
import re
import socket
import subprocess
import sys
import time
from pathlib import Path

import pytest

import buildlint
from buildlint import cli, formulas, road
from buildlint.render import FORMATS

ROOT = Path(__file__).parent.parent
SPEC = """
build: {name: small street V8, stage: machining, duty: street}
engine: {cylinders: 8, layout: v}
block: {bore: 4.030 in}
joints:
  head: {kind: stud, stud_install_torque: %s lbf-ft}
"""


def program(*arguments, folder, options=(), without=(), **environment):
    known = {name: value for name, value in os.environ.items() if name not in without}
    return subprocess.run([sys.executable, *options, "-m", "buildlint", *map(str, arguments)], cwd=folder, capture_output=True, timeout=120,
                          stdin=subprocess.DEVNULL, env={**known, "PYTHONPATH": str(ROOT), "TZ": "UTC", **environment})


@pytest.fixture
def shop(tmp_path):
    folder = tmp_path / "shop"
    (folder / "jobs").mkdir(parents=True)
    (folder / "shop.yaml").write_text("shop: Hollow Creek Engine Works\n")
    for number in range(6):
        (folder / "jobs" / f"job_{number}.yaml").write_text(SPEC % (2 + 2 * number))
    return folder


# -- the same bytes ------------------------------------------------------------------------------------------


@pytest.mark.parametrize("form", ["json", "sarif", "quality", "summary"])
def test_workers_hash_seeds_and_the_order_of_operands_change_no_byte(shop, form):
    jobs = sorted(str(path.relative_to(shop)) for path in shop.glob("jobs/*.yaml"))
    runs = {
        program("check", *(reversed(jobs) if turned else jobs), "--format", form, "--workers", workers, "--fresh", folder=shop,
                PYTHONHASHSEED=seed, XDG_CACHE_HOME=str(shop / "cache")).stdout
        for workers, seed, turned in ((1, "0", False), (2, "1", True), (8, "random", False))}
    assert len(runs) == 1 and runs.pop()


def test_another_folder_to_start_from_changes_no_fingerprint(shop, tmp_path):
    def prints(operand, folder):
        run = program("check", operand, "--format", "sarif", folder=folder)
        return [result["partialFingerprints"]["content/v1"] for result in json.loads(run.stdout)["runs"][0]["results"]]

    here = prints("jobs/job_3.yaml", shop)
    assert here and here == prints("./jobs/../jobs/job_3.yaml", shop) == prints("shop/jobs/job_3.yaml", tmp_path)


def test_known_findings_hold_from_any_folder(shop, tmp_path):
    assert program("known", "jobs", "--file", "known.json", folder=shop).returncode == 0
    for folder, operand, file in ((shop, "jobs", "known.json"), (tmp_path, "shop/jobs", "shop/known.json"), (shop / "jobs", ".", "../known.json")):
        assert program("check", operand, "--known", file, folder=folder).returncode == 0
    assert "\\\\" not in (shop / "known.json").read_text() and str(tmp_path) not in (shop / "known.json").read_text()


@pytest.mark.parametrize("zone", ["Pacific/Kiritimati", "Etc/GMT+12", "no/such/zone", ""])
def test_the_zone_of_the_clock_changes_no_byte(shop, zone):
    usual = program("check", "jobs", "--format", "json", "--fresh", folder=shop)
    assert program("check", "jobs", "--format", "json", "--fresh", folder=shop, TZ=zone).stdout == usual.stdout


# -- what gets in, what gets out -------------------------------------------------------------------------------


def test_no_connection_is_ever_opened(shop, monkeypatch, capsys):
    def refused(*arguments, **options):
        raise AssertionError("a connection was opened")

    for name in ("create_connection", "getaddrinfo", "gethostbyname"):
        monkeypatch.setattr(socket, name, refused)
    for name in ("connect", "connect_ex", "bind", "sendto"):
        monkeypatch.setattr(socket.socket, name, refused, raising=False)
    monkeypatch.chdir(shop)
    (shop / "far.yaml").write_text("based_on: https://example.org/street.yaml\nbuild: {stage: planning}\n")
    for form in FORMATS:
        assert cli.run(["check", "jobs", "far.yaml", "--fresh", "--workers", "1", "--format", form]) == 1
    assert "broke down" not in capsys.readouterr().err


def test_nothing_of_the_machine_stands_in_a_report(shop):
    for form in FORMATS:
        run = program("check", "jobs", "--fresh", "--format", form, folder=shop, DATABASE_PASSWORD="hunter-2-hunter", HOSTNAME="bench-seven")
        said = (run.stdout + run.stderr).decode()
        assert "hunter-2" not in said and "bench-seven" not in said and str(shop) not in said, form


@pytest.mark.parametrize("surroundings", [
    {"XDG_CACHE_HOME": "cache"}, {"XDG_CACHE_HOME": "/dev/null/cache"}, {"XDG_CACHE_HOME": "/proc/cache"}, {"HOME": "/dev/null"}],
    ids=["a relative folder", "a folder in a device", "a folder that cannot be written", "a home that is none"])
def test_without_a_usable_cache_the_answer_is_the_same(shop, surroundings):
    without = ("HOME", "XDG_CACHE_HOME")
    usual = program("check", "jobs", "--format", "json", folder=shop, XDG_CACHE_HOME=str(shop / "cache"))
    run = program("check", "jobs", "--format", "json", folder=shop, without=without, **surroundings)
    assert (run.returncode, run.stdout, run.stderr) == (usual.returncode, usual.stdout, usual.stderr)
    assert not (shop / "cache" / "cache").exists() and not (shop / "jobs" / "cache").exists()


def test_two_runs_at_once_leave_one_whole_report(shop):
    start = [sys.executable, "-m", "buildlint", "check", "jobs", "--fresh", "--format"]
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    runs = [subprocess.Popen([*start, f"{form}:report"], cwd=shop, env=environment, stderr=subprocess.DEVNULL) for form in ("json", "sarif", "json")]
    assert {run.wait(120) for run in runs} == {1}
    assert json.loads((shop / "report").read_text())
    assert [path.name for path in shop.iterdir() if path.name.endswith(".part")] == []


def test_forty_columns_and_an_ascii_locale_are_enough(shop):
    (shop / "jobs" / "inch.yaml").write_text("build: {name: bore 4\u2033 \u00b0 \u03bc}\n", encoding="utf-8")
    for form in FORMATS:
        run = program("check", "jobs", "--fresh", "--format", form, folder=shop, COLUMNS="40", LANG="C", LC_ALL="C", PYTHONUTF8="0",
                      PYTHONCOERCECLOCALE="0", PYTHONIOENCODING="ascii", TERM="dumb")
        assert run.returncode == 1 and b"Traceback" not in run.stderr and b"broke down" not in run.stderr, form
        if form == "lines":
            assert all(re.match(rb"jobs/\w+\.yaml:\d+:\d+: (error|warning|note): ", each) for each in run.stdout.splitlines())


# -- begin, then check -------------------------------------------------------------------------------------------


@pytest.mark.parametrize("more", [[], ["--cylinders", "4"], ["--cylinders", "6", "--layout", "inline"], ["--duty", "drag_race"]],
                         ids=["as it comes", "four", "an inline six", "a drag race"])
def test_what_begin_writes_is_checked_without_a_warning(tmp_path, monkeypatch, capsys, more):
    monkeypatch.chdir(tmp_path)
    assert cli.run(["begin", "build.yaml", *more]) == 0
    for form in FORMATS:
        assert cli.run(["check", "build.yaml", "--format", form]) == 0
    assert cli.run(["explain", "crank_stroke", "build.yaml"]) in (0, 1)
    assert "broke down" not in capsys.readouterr().err


# -- what rules and formulas may touch ----------------------------------------------------------------------------

PURE = sorted([*(ROOT / "rules").rglob("*.py"), *(ROOT / "buildlint" / "formulas").glob("*.py"), *(ROOT / "buildlint" / "mechanics").glob("*.py")])
STANDARD = {"bisect", "cmath", "collections", "datetime", "fractions", "functools", "itertools", "math", "numpy", "operator", "re", "scipy", "statistics", "typing"}
LOADING = {"__init__.py"}  # finds the modules that stand beside it


@pytest.mark.parametrize("file", PURE, ids=[str(path.relative_to(ROOT)) for path in PURE])
def test_a_rule_or_formula_reads_no_clock_no_chance_no_file_and_no_network(file):
    tree = ast.parse(file.read_text(encoding="utf-8"))
    for node in ast.walk(tree):
        if isinstance(node, (ast.Import, ast.ImportFrom)) and file.name not in LOADING:
            names = [node.module or ""] if isinstance(node, ast.ImportFrom) else [alias.name for alias in node.names]
            inside = isinstance(node, ast.ImportFrom) and node.level or all(name.split(".")[0] == "buildlint" for name in names)
            assert inside or {name.split(".")[0] for name in names} <= STANDARD, f"line {node.lineno}: {names}"
        elif isinstance(node, ast.Call):
            called = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
            assert called not in {"open", "print", "exec", "eval", "compile", "input", "exit", "today", "now", "utcnow", "globals"} or (
                file.name in LOADING or called == "compile" and "re" in ast.unparse(node.func)), f"line {node.lineno}: {called}"
        elif isinstance(node, (ast.Global, ast.Nonlocal)):
            raise AssertionError(f"line {node.lineno}: what one spec leaves behind would reach the next")


def test_a_rule_leaves_what_it_was_given_as_it_was():
    text = (ROOT / "examples" / "measured.yaml").read_bytes()
    rules = road.rules()

    def answers(chosen):
        report = road.check(ROOT / "examples" / "measured.yaml", text=text, chosen=chosen)
        return sorted(str(finding) for finding in report.findings if not finding.rule.startswith("due-"))

    assert answers(rules) == answers(rules[::-1]) == answers(rules)


# -- patterns --------------------------------------------------------------------------------------------------------

WORST = {"one letter": "a" * 10_000, "digits": "1" * 10_000, "blanks": " " * 10_000, "digits and blanks": "1 " * 5_000, "fractions": "1/" * 5_000,
         "hyphens": "1-" * 5_000, "a thread that never ends": "M8" + "x1" * 5_000, "words": "A1 " * 3_300 + "!", "quotes": "'\"" * 5_000,
         "sides": "1-1/4 in " * 1_000, "words behind a thread": "M8 " + "a" * 26 + "!", "letters in threes": "7/16-20 " + "ab " * 3_000 + "!"}


def patterns():
    for module in list(sys.modules.values()):
        if getattr(module, "__name__", "").startswith("buildlint"):
            for name, value in vars(module).items():
                if module.__name__ in ("buildlint.resolve", "buildlint.render.listing"):
                    continue  # asked of words of the vocabulary and of the command line, never of the text of a spec
                if isinstance(value, re.Pattern) and isinstance(value.pattern, str):
                    yield f"{module.__name__}.{name}", value
    for file in (ROOT / "schemas").rglob("*.json"):
        for found in re.findall(r'"pattern":\s*("(?:[^"\\]|\\.)*")', file.read_text(encoding="utf-8")):
            yield f"{file.name} {found[:30]}", re.compile(json.loads(found))


def test_no_pattern_takes_long_over_any_text():
    formulas.load()
    road.rules()
    slow = []
    for name, pattern in dict(patterns()).items():
        for case, text in WORST.items():
            began = time.perf_counter()
            pattern.search(text)
            pattern.fullmatch(text)
            if time.perf_counter() - began > 0.25:
                slow.append((name, case, round(time.perf_counter() - began, 2)))
    assert slow == []


def test_the_program_runs_nothing_that_a_file_could_bring():
    """No pickle, no evaluation of text, no shell, nowhere in the package."""
    for file in (ROOT / "buildlint").rglob("*.py"):
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, (ast.Import, ast.ImportFrom)):
                names = [alias.name for alias in node.names] + [getattr(node, "module", "") or ""]
                assert not {"pickle", "marshal", "shelve", "dill"} & {name.split(".")[0] for name in names}, file
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
                assert node.func.id not in {"eval", "exec"}, f"{file}:{node.lineno}"
            if isinstance(node, ast.keyword) and node.arg == "shell":
                assert getattr(node.value, "value", None) is False, file
    assert buildlint.__version__
