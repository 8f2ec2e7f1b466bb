"""Many specs in one run: order, workers, a killed worker, the cache, known findings, changed lines, the summary."""

import json
import os
import re
import shutil
import signal
import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from buildlint import cache, changed, known, library, road
from buildlint.render import Wishes

ROOT = Path(__file__).parent.parent
OUTPUTS = (("lines", Wishes()), ("json", Wishes()))
FLAWED = "build: {{stage: assembly, name: number {0}}}\njoints:\n  head: {{kind: stud, stud_install_torque: {1} lbf-ft}}\n"


@pytest.fixture
def shop(tmp_path, monkeypatch):
    """A folder of 40 small specs, with a cache of its own."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    folder = tmp_path / "shop"
    (folder / "jobs").mkdir(parents=True)
    for number in range(40):
        (folder / "jobs" / f"job_{number:02}.yaml").write_text(FLAWED.format(number, 2 + number % 7))
    monkeypatch.chdir(folder)
    return folder


def paths():
    return sorted(str(path) for path in Path("jobs").glob("*.yaml"))


def texts(answers):
    return [(answer.path, answer.sheets, answer.counts, answer.unread) for answer in answers]


def buildlint(*arguments, **options):
    environment = {**os.environ, "PYTHONPATH": str(ROOT), **options.pop("environment", {})}
    return subprocess.run([sys.executable, "-m", "buildlint", *map(str, arguments)], capture_output=True, text=True, timeout=120,
                          env=environment, **options)


def test_any_number_of_workers_gives_the_same_answers_in_the_same_order(shop):
    alone = texts(library.run(paths(), library.Job(OUTPUTS), 1))
    assert [path for path, *_ in alone] == paths()
    assert any("stud-is-set-finger-tight" in sheets[0] for _, sheets, *_ in alone)
    for workers in (2, 5):
        assert texts(library.run(paths(), library.Job(OUTPUTS), workers)) == alone


def test_an_unreadable_file_is_told_and_the_rest_is_checked(shop):
    os.mkfifo("jobs/job_05_pipe.yaml")
    answers = list(library.run(paths(), library.Job(OUTPUTS), 2))
    unread = [answer for answer in answers if answer.unread]
    assert [answer.path for answer in unread] == ["jobs/job_05_pipe.yaml"] and not unread[0].lost
    assert len(answers) == 41


def test_a_killed_worker_loses_one_spec_and_says_so(shop, monkeypatch):
    honest = road.check

    def deadly(path, **more):
        if str(path).endswith("job_17.yaml") and os.getpid() != main:
            os.kill(os.getpid(), signal.SIGKILL)
        return honest(path, **more)

    main = os.getpid()
    monkeypatch.setattr(road, "check", deadly)
    answers = list(library.run(paths(), library.Job(OUTPUTS), 2))
    assert [answer.path for answer in answers] == paths()
    lost = [answer for answer in answers if answer.unread]
    assert [answer.path for answer in lost] == ["jobs/job_17.yaml"] and lost[0].lost and "killed" in lost[0].unread


def fresh_answers(job=library.Job(OUTPUTS)):
    return texts(library.run(paths(), job, 1))


def cached_run(job=library.Job(OUTPUTS), monkeypatch=None):
    """(answers, how many specs were really checked) of a run with the cache."""
    kept = cache.Cache(job, "2026-06-01")
    asked = []
    honest = road.check
    try:
        road.check = lambda path, **more: (asked.append(path), honest(path, **more))[1]
        answers = texts(library.run(paths(), job, 1, kept))
    finally:
        road.check = honest
        kept.close()
    return answers, len(asked)


def test_an_unchanged_library_is_answered_from_the_last_run_byte_for_byte(shop):
    first, asked = cached_run()
    assert asked == 40
    again, asked = cached_run()
    assert asked == 0 and again == first == fresh_answers()


def test_a_library_larger_than_the_cache_usually_holds_is_kept_whole(shop, monkeypatch):
    monkeypatch.setattr(cache, "OLDEST", 10)
    cached_run()
    assert cached_run()[1] == 0


def test_only_what_changed_is_judged_again(shop):
    cached_run()
    Path("jobs/job_03.yaml").write_text(FLAWED.format(3, 30))
    answers, asked = cached_run()
    assert asked == 1 and answers == fresh_answers()


def test_a_changed_template_part_or_standard_judges_what_depends_on_it(shop):
    Path("shop.yaml").write_text("shop: Hollow Creek Engine Works\n")
    Path("base.yaml").write_text("joints: {head: {kind: stud, stud_install_torque: 2 lbf-ft}}\n")
    Path("jobs/job_10.yaml").write_text("based_on: ../base.yaml\nbuild: {stage: assembly}\n")
    Path("catalogue").mkdir()
    Path("catalogue/studs.yaml").write_text("st-1:\n  joint: {kind: stud, stud_install_torque: 2 lbf-ft}\n")
    Path("jobs/job_11.yaml").write_text("build: {stage: assembly}\njoints: {head: {part: st-1}}\n")
    cached_run()
    assert cached_run()[1] == 0
    Path("base.yaml").write_text("joints: {head: {kind: stud, stud_install_torque: 22 lbf-ft}}\n")
    answers, asked = cached_run()
    assert asked == 1 and answers == fresh_answers()
    Path("catalogue/studs.yaml").write_text("st-1:\n  joint: {kind: stud, stud_install_torque: 23 lbf-ft}\n")
    answers, asked = cached_run()
    assert asked >= 1 and answers == fresh_answers()
    Path("shop.yaml").write_text("shop: Hollow Creek Engine Works\nlimits: {stud-is-set-finger-tight: {most: 1 lbf-ft}}\n")
    answers, asked = cached_run()
    assert asked == 40 and answers == fresh_answers()


def test_another_job_does_not_take_the_answers_of_this_one(shop):
    cached_run()
    assert cached_run(library.Job(OUTPUTS, "planning"))[1] == 40
    assert cached_run(library.Job((("lines", Wishes(width=40)),)))[1] == 40


@pytest.mark.parametrize("harm", [
    lambda file: file.write_bytes(b"this is no database at all, but long enough to look like one" * 40),
    lambda file: file.write_bytes(file.read_bytes()[: len(file.read_bytes()) // 2]),
    lambda file: file.write_bytes(b""),
    lambda file: sqlite3.connect(file).executescript("UPDATE answers SET value = '{\"counts\": 1}'"),
    lambda file: sqlite3.connect(file).executescript("DROP TABLE answers; CREATE TABLE answers (other TEXT)"),
], ids=["no database", "cut in half", "empty", "other contents", "other columns"])
def test_a_damaged_cache_changes_nothing_but_the_time_it_takes(shop, tmp_path, harm):
    cached_run()
    file = tmp_path / "cache" / "buildlint" / "answers.sqlite"
    for beside in file.parent.glob("*-*"):
        beside.unlink()
    harm(file)
    answers, _ = cached_run()
    assert answers == fresh_answers()


def test_without_a_place_for_a_cache_everything_works(shop, monkeypatch, tmp_path):
    blocked = tmp_path / "a file"
    blocked.write_text("")
    monkeypatch.setenv("XDG_CACHE_HOME", str(blocked))
    assert cached_run()[0] == fresh_answers()
    monkeypatch.setenv("XDG_CACHE_HOME", "not/absolute")
    monkeypatch.setenv("HOME", "also/not")
    assert cache.place() is None
    assert cached_run()[0] == fresh_answers()


def test_two_runs_at_once_do_not_disturb_each_other(shop):
    runs = [subprocess.Popen([sys.executable, "-m", "buildlint", "check", "jobs", "--format", "lines"], stdout=subprocess.PIPE,
                             stderr=subprocess.PIPE, env={**os.environ, "PYTHONPATH": str(ROOT)}) for _ in range(3)]
    outputs = {run.communicate(timeout=100)[0] for run in runs}
    assert len(outputs) == 1 and all(run.returncode == 1 for run in runs)
    assert b"stud-is-set-finger-tight" in outputs.pop()


def test_no_pickle_is_written_or_read():
    for path in (ROOT / "buildlint").rglob("*.py"):
        assert not re.search(r"\b(pickle|shelve|marshal)\b", re.sub(r'""".*?"""', "", path.read_text(encoding="utf-8"), flags=re.S)), path


def recorded(file="known.json"):
    run = buildlint("known", "jobs", "--file", file)
    assert run.returncode == 0, run.stderr
    return json.loads(Path(file).read_text())["findings"]


def test_known_findings_do_not_count_and_new_ones_do(shop):
    before = buildlint("check", "jobs", "--format", "lines")
    assert before.returncode == 1
    assert len(recorded()) == len(before.stdout.splitlines())
    quiet = buildlint("check", "jobs", "--format", "lines", "--known", "known.json")
    assert (quiet.returncode, quiet.stdout) == (0, "") and "known before" in quiet.stderr
    Path("jobs/job_00.yaml").write_text("# moved down\n\n" + FLAWED.format(0, 2))
    assert buildlint("check", "jobs", "--format", "lines", "--known", "known.json").stdout == ""
    Path("jobs/job_00.yaml").write_text(FLAWED.format(0, 15))
    new = buildlint("check", "jobs", "--format", "lines", "--known", "known.json")
    assert new.returncode == 1 and "jobs/job_00.yaml:3:" in new.stdout


def test_a_known_finding_with_other_figures_is_new_and_says_what_it_was(shop):
    Path("jobs/job_00.yaml").write_text(FLAWED.format(0, 15))
    recorded()
    Path("jobs/job_00.yaml").write_text(FLAWED.format(0, 18))
    run = buildlint("check", "jobs", "--format", "lines", "--known", "known.json")
    assert run.returncode == 1 and "18 lbf-ft" in run.stdout and "recorded before as" in run.stdout and "15 lbf-ft" in run.stdout


def test_known_findings_that_are_gone_are_told_and_pruned_on_request(shop):
    Path("jobs/job_00.yaml").write_text(FLAWED.format(0, 15))
    count = len(recorded())
    Path("jobs/job_00.yaml").write_text(FLAWED.format(0, 2))
    run = buildlint("check", "jobs", "--format", "lines", "--known", "known.json")
    assert run.returncode == 0 and "a known finding is gone: stud-is-set-finger-tight" in run.stderr
    assert buildlint("known", "jobs", "--file", "known.json", "--prune").returncode == 0
    assert len(json.loads(Path("known.json").read_text())["findings"]) == count - 1


@pytest.mark.parametrize("text", ["", "{}", "[]", '{"known_findings": 99, "findings": []}', '{"known_findings": 1, "findings": [1]}', "\x00"])
def test_a_record_that_is_not_sound_stops_the_check(shop, text):
    Path("known.json").write_text(text)
    run = buildlint("check", "jobs", "--known", "known.json")
    assert run.returncode == 2 and "known.json" in run.stderr and "Traceback" not in run.stderr
    with pytest.raises(known.NotSound):
        known.read("known.json")


LISTED = """\
build: {stage: assembly}
joints:
  head: {kind: stud, stud_install_torque: 15 lbf-ft}
assembly:
  steps:
    - {step: first_look, by: RM}
    - {step: no_such_step, by: RM}
    - {step: no_such_step, by: RM}
"""


def test_known_findings_stay_known_when_keys_are_turned_about_and_items_put_before_them(shop):
    for path in paths()[1:]:
        os.unlink(path)
    Path("jobs/job_00.yaml").write_text(LISTED)
    recorded()
    head, _, steps = LISTED.partition("assembly:\n")
    build, _, joints = head.partition("\n")
    Path("jobs/job_00.yaml").write_text(f"assembly:\n{steps}{joints}\n{build.replace('{stage: assembly}', '{  stage:   assembly  }')}\n")
    assert buildlint("check", "jobs", "--format", "lines", "--known", "known.json").stdout == ""


def test_a_renamed_spec_is_a_new_one(shop):
    recorded()
    os.rename("jobs/job_08.yaml", "jobs/other.yaml")
    run = buildlint("check", "jobs", "--format", "lines", "--known", "known.json")
    assert run.returncode == 1 and {line.split(":")[0] for line in run.stdout.splitlines()} == {"jobs/other.yaml"}


def test_a_record_may_be_larger_than_a_spec(shop):
    whole = {"known_findings": 1, "findings": [{"spec": f"jobs/other_{number}.yaml", "rule": "a-rule", "scope": [], "at": "", "message": "x" * 300,
                                                "place": str(number), "content": ""} for number in range(6000)]}
    Path("known.json").write_text(json.dumps(whole))
    assert os.path.getsize("known.json") > 2_000_000
    assert buildlint("check", "jobs", "--known", "known.json", "--format", "lines").returncode == 1
    assert buildlint("known", "jobs", "--file", "known.json", "--prune").returncode == 0


def test_nothing_is_recorded_where_a_rule_broke_down(shop):
    Path("creek").mkdir()
    Path("creek/__init__.py").write_text("RULEBOOK = 1\n")
    Path("creek/trial.py").write_text(
        'from buildlint.rulebook import *\n\n@rule(scope="build", level="error", due="ordering", says="x", fix="Mend it.", '
        'source="common practice, no source", conforming="crank: {stroke: 3 in}", nonconforming="crank: {stroke: 4 in}  # <-")\n'
        'def creek_breaks_down(crank_stroke: Length):\n    """A trial."""\n    raise LookupError\n')
    recorded()
    before = Path("known.json").read_text()
    Path("jobs/job_03.yaml").write_text("crank: {stroke: 4 in}\n")
    run = buildlint("known", "jobs", "--file", "known.json", "--prune", "--rules", "creek")
    assert run.returncode == 3 and "nothing is recorded" in run.stderr and "creek-breaks-down" in run.stderr
    assert Path("known.json").read_text() == before


def test_more_results_than_code_hosts_take_are_told(shop, monkeypatch, capsys):
    from buildlint import cli
    from buildlint.commands import check

    monkeypatch.setattr(check, "HOSTS_TAKE", 10)
    assert cli.run(["check", "jobs", "--fresh", "--format", "sarif:report.sarif"]) == 1
    assert "code hosts take 10 in one file: check the library in parts" in capsys.readouterr().err
    cli.run(["check", "jobs/job_00.yaml", "--format", "lines"])
    assert "code hosts" not in capsys.readouterr().err


DIFF = """\
diff --git a/jobs/job_06.yaml b/jobs/job_06.yaml
--- a/jobs/job_06.yaml
+++ b/jobs/job_06.yaml
@@ -1,3 +1,3 @@
 build: {stage: assembly, name: number 6}
 joints:
-  head: {kind: stud, stud_install_torque: 2 lbf-ft}
+  head: {kind: stud, stud_install_torque: 8 lbf-ft}
"""


def test_a_diff_tells_the_lines_it_changes():
    assert changed.lines_of(DIFF) == {"jobs/job_06.yaml": {3}}
    assert changed.lines_of("+++ /dev/null\n@@ -1 +0,0 @@\n-x\n") == {}
    assert changed.lines_of("") == {}


def test_only_findings_on_changed_lines_are_reported(shop):
    Path("change.diff").write_text(DIFF)
    Path("jobs/job_06.yaml").write_text(FLAWED.format(6, 8))
    run = buildlint("check", "jobs", "--format", "lines", "--changed", "change.diff")
    found = [line for line in run.stdout.splitlines() if "stud-is-set-finger-tight" in line]
    assert len(found) == 1 and found[0].startswith("jobs/job_06.yaml:3:")


def test_what_is_about_a_whole_spec_stays_where_the_diff_touches_it(shop):
    Path("change.diff").write_text(DIFF)
    run = buildlint("check", "jobs", "--format", "lines", "--changed", "change.diff", "--level", "note")
    about = {line.partition(":")[0] for line in run.stdout.splitlines()}
    assert about == {"jobs/job_06.yaml"} and "nothing written yet" in run.stdout


def test_a_diff_whose_paths_begin_elsewhere_is_refused(shop):
    Path("change.diff").write_text(DIFF.replace("jobs/", "library/jobs/"))
    run = buildlint("check", "jobs", "--changed", "change.diff")
    assert run.returncode == 2 and "library/jobs/job_06.yaml is not there" in run.stderr and "git diff --relative" in run.stderr


def test_the_summary_names_each_rule_once_among_its_margins(shop):
    run = buildlint("check", "jobs", "--format", "summary", environment={"COLUMNS": "100"})
    margins = run.stdout.partition("TIGHTEST MARGINS THAT HOLD")[2]
    assert margins.count("stud-is-set-finger-tight") == 1 and re.search(r"jobs/job_03.yaml, and in 5\s+more specs", margins), margins


def test_the_summary_brings_out_specs_rules_and_tight_margins(shop):
    run = buildlint("check", "jobs", "--format", "summary", environment={"COLUMNS": "100"})
    assert "BY SPEC" in run.stdout and "BY RULE" in run.stdout and "TIGHTEST MARGINS THAT HOLD" in run.stdout
    assert re.search(r"stud-is-set-finger-tight: 16 warnings in 16 specs", run.stdout)
    short = buildlint("check", "jobs", "--format", "summary", "--most", "2", environment={"COLUMNS": "100"})
    assert "and 38 more" in short.stdout.split("BY RULE")[0] and re.search(r"and \d more", short.stdout.split("BY RULE")[1])
    assert "40 specs." in run.stdout


def test_ctrl_c_stops_the_workers_too(shop, hears_ctrl_c):
    for number in range(40, 400):
        shutil.copy("jobs/job_06.yaml", f"jobs/job_{number}.yaml")
    run = subprocess.Popen([sys.executable, "-m", "buildlint", "check", "jobs", "--workers", "2", "--format", "lines"], stdout=subprocess.PIPE,
                           stderr=subprocess.PIPE, env={**os.environ, "PYTHONPATH": str(ROOT)}, start_new_session=True, preexec_fn=hears_ctrl_c)
    run.stdout.readline()
    os.killpg(run.pid, signal.SIGINT)
    _, errors = run.communicate(timeout=10)
    assert run.returncode == 130 and b"Traceback" not in errors
    with pytest.raises(ProcessLookupError):
        for _ in range(50):
            os.killpg(run.pid, 0)
            __import__("time").sleep(0.1)


# -- what many specs lean on ---------------------------------------------------------------------------------

CONTRACT = json.loads((ROOT / "schemas" / "report.json").read_text(encoding="utf-8"))


def test_a_standard_that_is_not_sound_is_told_once_with_the_number_of_specs(shop):
    Path("shop.yaml").write_text("shop: Hollow Creek Engine Works\nlimits: {no-such-rule: {most: 1 in}}\n")
    Path("outside").mkdir()
    Path("outside/shop.yaml").write_text("shop: Hollow Creek Engine Works\n")
    shutil.copy("jobs/job_00.yaml", "outside/job.yaml")
    run = buildlint("check", "jobs", "outside", "--format", "json")
    assert run.returncode == 2
    told = [line for line in run.stderr.splitlines() if "no-such-rule" in line]
    assert len(told) == 1 and told[0].startswith("buildlint: shop.yaml:2:") and "buildlint: 40 specs are not checked." in run.stderr
    report = json.loads(run.stdout)
    Draft202012Validator(CONTRACT).validate(report)
    assert [spec["path"] for spec in report["specs"]] == ["outside/job.yaml"]
    assert [one["path"] for one in report["unchecked"]] == paths() and "no-such-rule" in report["unchecked"][0]["message"]
    for form, words in (("summary", "NOT CHECKED"), ("markdown", "**40 specs are not checked.**"), ("junit", 'errors="40"'),
                        ("sarif", '"executionSuccessful": false'), ("annotations", "::error title=not checked::shop.yaml:2:")):
        said = buildlint("check", "jobs", "outside", "--format", form)
        assert said.returncode == 2 and words in said.stdout, form
        assert form == "annotations" or all(path.split("/")[1].split(".")[0] in said.stdout.replace("\\_", "_") for path in paths()), form
    assert "40 specs are not checked." in buildlint("check", "jobs", "outside").stdout


def test_a_single_spec_under_it_is_told_the_same(shop):
    Path("shop.yaml").write_text("limits: {no-such-rule: {most: 1 in}}\n")
    run = buildlint("check", "jobs/job_00.yaml")
    assert run.returncode == 2 and "no-such-rule" in run.stderr and "not checked" not in run.stderr and run.stdout == ""


BROKEN = "st-1:\n  joint: {kind: stud}\n what is: this\n"


@pytest.fixture
def leaning(shop):
    """Ten specs, all on one shelf of parts that is not sound, three of them on one template with a misspelt key."""
    for path in paths()[10:]:
        os.unlink(path)
    Path("shop.yaml").write_text("shop: Hollow Creek Engine Works\n")
    Path("catalogue").mkdir()
    Path("catalogue/studs.yaml").write_text(BROKEN)
    Path("templates").mkdir()
    Path("templates/base.yaml").write_text("block: {boer: 4.030 in}\n")
    for number, path in enumerate(paths()):
        based = "based_on: ../templates/base.yaml\n" if number < 3 else ""
        Path(path).write_text(f"{based}build: {{stage: planning}}\njoints: {{head: {{part: st-1}}}}\n")
    return shop


@pytest.mark.parametrize("more", [[], ["--workers", "2", "--fresh"], ["--fresh"]], ids=["with a cache", "workers", "fresh"])
def test_what_is_wrong_in_a_shared_file_is_one_line_with_the_number_of_specs(leaning, more):
    for _ in range(2):
        run = buildlint("check", "jobs", "--format", "lines", *more)
        shared = [line for line in run.stdout.splitlines() if not line.startswith("jobs/") and ": error: " in line]
        assert run.returncode == 1
        assert [re.match(r"\S+:\d+:\d+: error: [a-z-]+:", line)[0] for line in shared] == [
            "catalogue/studs.yaml:3:2: error: spec-is-well-formed:", "templates/base.yaml:1:9: error: key-is-known:"]
        assert shared[0].endswith("10 specs lean on this file.")
        assert "Did you mean `bore`?" in shared[1] and shared[1].endswith("3 specs lean on this file.")


def test_on_the_sheets_it_is_one_line_for_each_spec_and_told_in_full_at_the_end(leaning):
    said = buildlint("check", "jobs", environment={"COLUMNS": "100"}).stdout
    assert said.count("This file has mistakes of its own; they are told once, at the end.") == 13
    sheets, _, end = said.partition("FILES THAT SPECS LEAN ON")
    assert end.count("boer") == 1 and "boer" not in sheets and "3 specs lean on this file." in end
    alone = buildlint("check", "jobs/job_00.yaml", environment={"COLUMNS": "100"}).stdout
    assert "boer" in alone and "at the end" not in alone


def test_outputs_for_programs_keep_it_with_every_spec(leaning):
    report = json.loads(buildlint("check", "jobs", "--format", "json").stdout)
    assert [sum(finding["rule"] == "spec-is-well-formed" for finding in spec["findings"]) for spec in report["specs"]] == [1] * 10
    assert [sum(finding["rule"] == "key-is-known" for finding in spec["findings"]) for spec in report["specs"]] == [1] * 3 + [0] * 7
    assert report["unchecked"] == []


NOBODY_TAKES = """\
st-2: {joint: {kind: stud, torque: 70 lbf-ft}}
st-3:
  description: on the shelf since the winter
  joint: {kind: Stud, torque: 70 in, thred: 7/16-20}
sp-1: {spring: {rate: 410 lbfin, seat_load: 150}, retainer: {angle: 10 deg}}
no-9:
"""
UNSOUND = [
    "catalogue/more/all.yaml:4:17: error: choice-is-known:", "catalogue/more/all.yaml:4:31: error: quantity-can-be-read:",
    "catalogue/more/all.yaml:4:38: error: key-is-known:", "catalogue/more/all.yaml:5:23: error: quantity-can-be-read:",
    "catalogue/more/all.yaml:5:45: error: quantity-can-be-read:",
]


@pytest.fixture
def shelved(leaning):
    """The ten specs on a sound part, and beside it parts that no spec takes and that no spec could."""
    Path("catalogue/studs.yaml").write_text("st-1: {joint: {kind: stud}}\n")
    Path("templates/base.yaml").write_text("block: {bore: 4.030 in}\n")
    Path("catalogue/more").mkdir()
    Path("catalogue/more/all.yaml").write_text(NOBODY_TAKES.replace("no-9:\n", ""))
    return leaning


def unsound(text):
    return [line for line in text.splitlines() if "catalogue/" in line]


@pytest.mark.parametrize("more", [[], ["--workers", "2", "--fresh"], ["--fresh"]], ids=["with a cache", "workers", "fresh"])
def test_a_part_that_no_spec_takes_is_told_once_with_its_place(shelved, more):
    for _ in range(2):
        run = buildlint("check", "jobs", "--format", "lines", "--level", "error", *more)
        told = unsound(run.stdout)
        assert run.returncode == 1 and "10 specs: 5 errors" in run.stderr
        assert [" ".join(line.split()[:3]) for line in told] == UNSOUND
        assert "Did you mean `stud`?" in told[0] and "410 lbf/in" in told[3]


def test_a_sound_shelf_and_a_single_spec_are_told_nothing_of_it(shelved):
    assert unsound(buildlint("check", "jobs/job_00.yaml", "--format", "lines").stdout) == []
    Path("catalogue/more/all.yaml").write_text("st-2: {joint: {kind: stud, torque: 70 lbf-ft}}\n")
    run = buildlint("check", "jobs", "--format", "lines", "--level", "error")
    assert run.returncode == 0 and unsound(run.stdout) == []


def test_bare_numbers_of_a_part_mean_what_the_shop_says(shelved):
    Path("catalogue/more/all.yaml").write_text("sp-1: {spring: {seat_load: 150}}\n")
    Path("shop.yaml").write_text("units: us\n")
    assert unsound(buildlint("check", "jobs", "--format", "lines").stdout) == []


def test_a_part_that_specs_take_is_told_with_them_and_not_again(shelved):
    Path("catalogue/studs.yaml").write_text("st-1: {joint: {kind: stud, torque: 70 in}}\n")
    told = unsound(buildlint("check", "jobs", "--format", "lines").stdout)
    assert len(told) == len(UNSOUND) + 1
    assert [line for line in told if "studs" in line and line.endswith("10 specs lean on this file.")]


def test_every_output_holds_the_unsound_shelf_and_known_parts_of_it_are_left_out(shelved):
    assert [spec["path"] for spec in json.loads(buildlint("check", "jobs", "--format", "json").stdout)["specs"]][-1] == "catalogue/more/all.yaml"
    assert "catalogue/more/all.yaml" in buildlint("check", "jobs", "--format", "sarif").stdout
    assert "catalogue/more/all.yaml: 5 errors" in buildlint("check", "jobs", "--format", "summary").stdout
    assert buildlint("known", "jobs", "--file", "known.json").returncode == 0
    run = buildlint("check", "jobs", "--known", "known.json", "--format", "lines")
    assert run.returncode == 0 and unsound(run.stdout) == []
    Path("catalogue/more/all.yaml").write_text(NOBODY_TAKES.replace("no-9:\n", "").replace("410 lbfin", "410 lbf/in"))
    run = buildlint("check", "jobs", "--known", "known.json", "--format", "lines")
    assert run.returncode == 0 and "catalogue/more/all.yaml: a known finding is gone: quantity-can-be-read: `410 lbfin`" in run.stderr


def test_the_standard_tells_of_every_unsound_part(shelved):
    run = buildlint("standard", "jobs/job_00.yaml")
    assert run.returncode == 1 and [" ".join(line.removeprefix("buildlint: ").split()[:3]) for line in run.stderr.splitlines()] == UNSOUND
    assert "jobs" not in run.stderr and "any.yaml" not in buildlint("standard", ".").stderr  # about the part, whichever spec takes it
    Path("catalogue/more/all.yaml").unlink()
    run = buildlint("standard", "jobs/job_00.yaml")
    assert (run.returncode, run.stderr) == (0, "")
