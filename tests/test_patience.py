"""A rule that does not come back: it is told as such, every other rule has been asked, and no run hangs on it."""

import json
import os
import re
import signal
import subprocess
import sys
import threading
import time
from pathlib import Path

import pytest
from rules_in_text import HEAD, STROKE, decorated, rules_of

from buildlint import patience, road

ROOT = Path(__file__).parent.parent
SPEC = b"crank: {stroke: 4 in}\n"
STUCK = '''
def {name}(crank_stroke: Length):
    """A trial."""
    import collections, itertools, re, time
    {body}
'''
HANGS = {
    "a loop": "while True: pass",
    "sleep": "time.sleep(10_000)",
    "a pattern": "re.fullmatch('(a+)+', 'a' * 60 + '!')",
    "a loop that swallows exceptions": "\n".join(("while True:", "        try: time.sleep(0.001)", "        except Exception: pass")),
}
STUBBORN = "\n".join(("while True:", "        try: time.sleep(0.001)", "        except BaseException: pass"))
DEAF = "collections.deque(itertools.repeat(0), maxlen=0)"  # never looks whether a signal has come


def stuck(name, body):
    return decorated(STUCK.format(name=name, body=body), nonconforming='"crank: {stroke: 4 in}  # <-"')


@pytest.fixture
def hurried(monkeypatch):
    """Ticks that come fast, and an alarm that nobody else has set meanwhile."""
    monkeypatch.setattr(patience, "TICK", 0.05)
    handler, waiting = signal.getsignal(signal.SIGALRM), signal.setitimer(signal.ITIMER_REAL, 0)
    signal.signal(signal.SIGALRM, signal.SIG_DFL)
    yield
    signal.signal(signal.SIGALRM, handler)
    signal.setitimer(signal.ITIMER_REAL, *waiting)


def findings_of(rules):
    report = road.check("build.yaml", text=SPEC, chosen=rules)
    return report, {finding.rule: finding for finding in report.findings}


@pytest.mark.parametrize("body", HANGS.values(), ids=HANGS)
def test_a_rule_that_hangs_is_named_and_every_other_is_asked(tmp_path, hurried, body):
    first, hanging, last = rules_of(tmp_path, decorated(STROKE) + stuck("trial_hangs", body)
                                    + decorated(STROKE.replace("stroke_stays", "stroke_still_stays")))
    began = time.monotonic()
    report, found = findings_of([first, hanging, last])
    assert time.monotonic() - began < 5
    assert report.crashed == ("trial-hangs",)
    assert found["rule-runs-to-its-end"].level == "error"
    assert found["rule-runs-to-its-end"].message == (
        "the rule trial-hangs did not come back within 5 seconds; what it would have said is not known")
    honest, _ = findings_of([first, last])
    assert honest.crashed == ()
    assert [finding for finding in report.findings if finding.rule != "rule-runs-to-its-end"] == list(honest.findings)


def test_a_spec_is_given_up_after_three_such_rules(tmp_path, hurried):
    text = "".join(stuck(f"trial_hangs_{number}", HANGS["a loop"]) for number in range(4)) + decorated(STROKE)
    report, found = findings_of(rules_of(tmp_path, text))
    assert report.crashed == ("trial-hangs-0", "trial-hangs-1", "trial-hangs-2")
    told = [finding.message for finding in report.findings if finding.rule == "rule-runs-to-its-end"]
    assert len(told) == 3 and [message for message in told if message.endswith("2 more rules were not asked, because 3 rules had not come back")]
    for unasked in ("trial-hangs-3", "stroke-stays-short-enough"):
        assert (found[unasked].kind, found[unasked].message) == ("open", "not asked: 3 rules had not come back")


def test_a_spec_is_given_up_when_its_time_is_over(tmp_path, hurried, monkeypatch):
    monkeypatch.setattr(patience, "FOR_A_SPEC", 3)
    report, found = findings_of(rules_of(tmp_path, stuck("trial_hangs", HANGS["sleep"]) + decorated(STROKE)))
    assert report.crashed == ("trial-hangs",)
    assert "was under way when the time for its spec was up" in found["rule-runs-to-its-end"].message
    assert found["stroke-stays-short-enough"].message == "not asked: the 3 seconds that one spec is given were over"


def test_slow_rules_that_come_back_are_left_alone(tmp_path, hurried):
    text = "".join(stuck(f"trial_is_slow_{number}", "time.sleep(0.1); return passes()") for number in range(6))
    report, found = findings_of(rules_of(tmp_path, text))
    assert report.crashed == () and {finding.kind for finding in found.values()} <= {"pass", "fail"}


def test_no_timer_runs_on_afterwards_and_that_of_another_is_left_alone(tmp_path, hurried):
    rules = rules_of(tmp_path, decorated(STROKE))
    findings_of(rules)
    assert signal.getitimer(signal.ITIMER_REAL) == (0, 0)
    heard = []
    signal.signal(signal.SIGALRM, lambda *_: heard.append(True))
    signal.setitimer(signal.ITIMER_REAL, 1000)
    findings_of(rules)
    assert signal.getitimer(signal.ITIMER_REAL)[0] > 990 and not heard
    signal.setitimer(signal.ITIMER_REAL, 0)


def test_outside_the_main_thread_rules_are_asked_without_a_limit(tmp_path, hurried):
    rules, reports = rules_of(tmp_path, decorated(STROKE)), []
    thread = threading.Thread(target=lambda: reports.append(findings_of(rules)[0]))
    thread.start()
    thread.join()
    assert reports == [findings_of(rules)[0]]


def test_a_system_without_timers_asks_rules_without_a_limit(tmp_path, hurried, monkeypatch):
    rules = rules_of(tmp_path, decorated(STROKE))
    usual = findings_of(rules)[0]
    with monkeypatch.context() as elsewhere:
        elsewhere.delattr(signal, "setitimer")
        elsewhere.delattr(signal, "SIGALRM")
        assert findings_of(rules)[0] == usual


@pytest.mark.parametrize("error", ["raise SystemExit(0)", "import sys; sys.exit('bye')", "raise RecursionError", "raise MemoryError"])
def test_a_rule_that_wants_to_end_the_program_has_broken_down(tmp_path, error):
    first, leaving = rules_of(tmp_path, decorated(STROKE) + stuck("trial_leaves", error))
    report, found = findings_of([leaving, first])
    assert report.crashed == ("trial-leaves",) and "broke down" in found["rule-runs-to-its-end"].message
    assert found["stroke-stays-short-enough"].kind == "fail"


def test_ctrl_c_inside_a_rule_stops_the_run(tmp_path):
    with pytest.raises(KeyboardInterrupt):
        findings_of(rules_of(tmp_path, stuck("trial_is_interrupted", "raise KeyboardInterrupt")))


# -- from outside ----------------------------------------------------------------------------------------


def shop(folder, body, specs=1):
    """A shop whose own rule hangs over every spec that has a stroke of 5 in."""
    rules = folder / "creek"
    rules.mkdir()
    (rules / "__init__.py").write_text("RULEBOOK = 1\n")
    (rules / "strokes.py").write_text(HEAD + stuck("creek_hangs", f"if crank_stroke < q('4.5 in'): return passes()\n    {body}"))
    (folder / "jobs").mkdir()
    for number in range(specs):
        (folder / "jobs" / f"job_{number}.yaml").write_text(f"crank: {{stroke: {5 if number == 1 or specs == 1 else 4} in}}\n")


def program(folder, *arguments, tick=0.04):
    begin = f"from buildlint import patience; patience.TICK = {tick}; from buildlint.cli import main; main()"
    run = subprocess.run([sys.executable, "-c", begin, "check", "jobs", "--rules", "creek", "--fresh", *arguments], cwd=folder,
                         capture_output=True, text=True, timeout=100, env={**os.environ, "PYTHONPATH": str(ROOT)})
    assert "Traceback" not in run.stderr
    return run


def test_the_run_ends_with_three_and_tells_rule_and_time(tmp_path):
    shop(tmp_path, HANGS["sleep"])
    began = time.monotonic()
    run = program(tmp_path, "--format", "lines", tick=1)
    assert 4 < time.monotonic() - began < 60
    assert run.returncode == 3
    assert re.search(r"^jobs/job_0\.yaml:\d.* the rule creek-hangs did not come back within 5 seconds; what it would", run.stdout, re.M)


@pytest.mark.parametrize("workers", ["1", "2"])
def test_in_a_library_one_hanging_rule_costs_one_spec_its_answer(tmp_path, workers):
    shop(tmp_path, HANGS["a loop that swallows exceptions"], 40)
    run = program(tmp_path, "--format", "json", "--workers", workers)
    assert run.returncode == 3
    told = [spec["path"] for spec in json.loads(run.stdout)["specs"] for finding in spec["findings"]
            if finding["rule"] == "rule-runs-to-its-end"]
    assert told == ["jobs/job_1.yaml"]


@pytest.mark.parametrize("body, tick, why", [
    (STUBBORN, 0.1, "the rule creek-hangs has not come back for 15 seconds and does not let itself be stopped"),
    (DEAF, 0.06, "no answer came within 75 seconds")], ids=["it swallows all", "it hears nothing"])
def test_a_worker_is_killed_as_the_last_resort(tmp_path, body, tick, why):
    shop(tmp_path, body, 40)
    run = program(tmp_path, "--format", "json", "--workers", "2", tick=tick)
    assert run.returncode == 3
    assert f"jobs/job_1.yaml: {why}; the worker that checked it was killed; it is not checked" in run.stderr
    assert len(json.loads(run.stdout)["specs"]) == 39


def test_a_single_run_ends_itself_as_the_last_resort(tmp_path):
    shop(tmp_path, STUBBORN)
    run = program(tmp_path)
    assert run.returncode == 3
    assert "the rule creek-hangs has not come back for 15 seconds and does not let itself be stopped; the check is incomplete" in run.stderr
