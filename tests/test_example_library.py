"""A shop's library as it would lie in a shop: examples/library, with everything the checker says of it.

The table below is the whole of what counts; a job that is not in it has nothing above a note. Permits are judged
on a fixed day, so that the page stays true when their dates have gone by.
"""

import functools
import json
import os
import re
import shutil
import subprocess
import sys
from collections import Counter
from datetime import date
from pathlib import Path

import pytest

from buildlint import cache, cli, library, road
from buildlint.gather import gather
from buildlint.load import load
from buildlint.model import FAIL
from buildlint.render import Wishes

ROOT = Path(__file__).parents[1]
LIBRARY = ROOT / "examples" / "library"
TODAY = date(2026, 4, 1)

# job: every finding above a note, as (rule, scope, level)
FINDINGS = {
    "drag/0561_locks_mixed.yaml": [("locks-match-the-retainer", "exhaust", "error")],
    "six/0573_crank_at_twenty.yaml": [("shell-undersize-matches-journal-grind", "main bearing", "error")],
    "street/0505_seventy_over.yaml": [("overbore-has-sonic-map", "", "warning")],
    "street/0508_short_order.yaml": [("washers-match-the-fasteners", "head_washer item", "error")],
    "street/0513_old_allowance.yaml": [("permit-is-in-date", "", "warning")],
    "strip/0521_stiffer_springs.yaml": [
        ("pushrod-wall-suits-load", "", "warning"),
    ],
    "strip/0523_oil_on_the_studs.yaml": [("torque-belongs-to-lubricant-used", "head joint", "error")],
    "strip/0529_thin_mock_up.yaml": [("mock-up-gasket-equals-final", "", "error")],
    "strip/0531_limiter_up.yaml": [("valve-follows-lobe-to-limiter", "intake", "warning")],
}
# job: what somebody wrote, and what puts it right
MISTAKES = {
    "drag/0561_locks_mixed.yaml": ("hc-locks-7-342", "hc-locks-10-342"),
    "six/0573_crank_at_twenty.yaml": ("2.3300 in", "2.3400 in"),
    "street/0505_seventy_over.yaml": ("sonic_check: not_done", "sonic_check: done"),
    "street/0508_short_order.yaml": ("{item: head_washer, quantity: 17}", "{item: head_washer, quantity: 34}"),
    "street/0513_old_allowance.yaml": ("until: 2025-12-31", "until: 2026-12-31"),
    "strip/0521_stiffer_springs.yaml": ("sp-480", "sp-389"),
    "strip/0523_oil_on_the_studs.yaml": ("engine_oil", "moly_paste"),
    "strip/0529_thin_mock_up.yaml": ("mock_up_thickness: 0.028 in", "mock_up_thickness: 0.040 in"),
    "strip/0531_limiter_up.yaml": ("7400 rpm", "6800 rpm"),
}
PERMITS = {  # job: the rules that are set aside in it, with the finding still in sight
    "street/0506_as_bought.yaml": ["quench-gap-is-close"],
    "strip/0537_one_meeting.yaml": ["valve-follows-lobe-to-limiter"],
}
CHAINS = {
    "v8": [],
    "street": ["v8"],
    "street_iron": ["street", "v8"],
    "street_strip": ["street", "v8"],
    "street_roller": ["street", "v8"],
    "street_boosted": ["street", "v8"],
    "marine": ["v8"],
    "drag": ["v8"],
    "inline_six": [],
}
STAGES = {"planning": 7, "ordering": 31, "machining": 7, "mock_up": 5, "assembly": 3, "handover": 2}


def jobs(folder=LIBRARY):
    return sorted(str(path.relative_to(folder / "jobs")) for path in (folder / "jobs").rglob("*.yaml"))


@functools.cache
def report(job):
    return road.check(str(LIBRARY / "jobs" / job), today=lambda: TODAY)


def counted(job):
    """Every finding of a job that counts, above a note."""
    return [finding for finding in report(job).findings if finding.kind == FAIL and finding.permit is None and finding.level != "note"]


def chain(path):
    """The files a spec lies on, nearest first."""
    tree, problems = load(path.read_bytes(), path.name)
    assert problems == []
    base = tree.get("based_on")
    return [] if base is None else [(path.parent / base.text).resolve(), *chain((path.parent / base.text).resolve())]


@pytest.fixture
def copied(tmp_path, monkeypatch):
    """A copy of the library to write in, with a cache of its own and the day fixed."""
    shutil.copytree(LIBRARY, tmp_path / "library")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    monkeypatch.setattr(road, "_today", lambda: TODAY)
    monkeypatch.chdir(tmp_path / "library")
    return tmp_path / "library"


def said(capsys, *arguments):
    """(exit status, standard output, standard error) of a command in this process."""
    capsys.readouterr()
    status = cli.run(list(arguments))
    out, err = capsys.readouterr()
    return status, out, err


def test_the_library_holds_as_many_specs_as_its_page_says():
    specs, _ = gather([str(LIBRARY)])
    assert len(specs) == len(jobs()) == 55
    assert len(list((LIBRARY / "templates").glob("*.yaml"))) == len(CHAINS) == 9
    assert Counter(report(job).stage for job in jobs()) == STAGES


def test_every_file_of_the_table_is_there():
    assert {*FINDINGS, *PERMITS} <= set(jobs()) and set(MISTAKES) == set(FINDINGS)


@pytest.mark.parametrize("job", jobs())
def test_a_job_has_exactly_the_findings_of_the_table_and_else_none_above_a_note(job):
    found = Counter((finding.rule, "/".join(finding.scope), finding.level) for finding in counted(job))
    assert found == Counter(FINDINGS.get(job, ()))
    assert report(job).crashed == ()


@pytest.mark.parametrize("job, wrong, right", [(job, *words) for job, words in MISTAKES.items()], ids=MISTAKES)
def test_with_its_one_mistake_put_right_a_flawed_job_is_clean(job, wrong, right, copied):
    path = copied / "jobs" / job
    text = path.read_text()
    assert wrong in text
    path.write_text(text.replace(wrong, right))
    left = [finding for finding in road.check(str(path)).findings if finding.kind == FAIL and finding.permit is None and finding.level != "note"]
    assert [finding.rule for finding in left] == []


@pytest.mark.parametrize("job", jobs())
def test_a_job_leans_on_the_library_and_on_nothing_else(job):
    path = LIBRARY / "jobs" / job
    files = [Path(file) for file, *_ in report(job).inputs]
    assert files and all(file.resolve().is_relative_to(LIBRARY) for file in files)
    assert any(file.parent.name == "templates" for file in files) and any(file.parent.name == "catalogue" for file in files)
    assert len(path.read_text().splitlines()) <= 80, "a job of this library is short, because it leans on templates and catalogue"


@pytest.mark.parametrize("template, below", CHAINS.items(), ids=CHAINS)
def test_templates_lie_on_each_other_as_intended(template, below):
    assert [file.stem for file in chain(LIBRARY / "templates" / f"{template}.yaml")] == below


def test_no_template_chain_is_longer_than_three():
    for job in jobs():
        assert len([file for file in chain(LIBRARY / "jobs" / job) if file.parent.name == "templates"]) <= 3


def test_a_spring_taken_from_the_catalogue_brings_its_loads_and_no_line_of_the_job_repeats_them():
    text = (LIBRARY / "jobs" / "strip" / "0521_stiffer_springs.yaml").read_text()
    assert "lbf" not in text and text.count("sp-480") == 2
    messages = [finding.message for finding in counted("strip/0521_stiffer_springs.yaml")]
    # 165 lbf at 1.800 in and 480 lbf/in over a valve lift of 0.353 in x 1.6
    assert len(messages) == 1 and all(f"{165 + 480 * 0.353 * 1.6:.0f} lbf" in message for message in messages)


@pytest.mark.parametrize("job, rules", PERMITS.items(), ids=PERMITS)
def test_a_permit_sets_its_finding_aside_and_keeps_it_in_sight(job, rules):
    permitted = [finding for finding in report(job).findings if finding.permit is not None]
    assert [finding.rule for finding in permitted] == rules
    assert all(finding.permit["because"] and finding.permit["approved"] for finding in permitted)
    assert counted(job) == []


def test_a_permit_of_the_library_ends_on_its_day():
    path = str(LIBRARY / "jobs" / "strip" / "0537_one_meeting.yaml")
    last = date(2036, 9, 30)
    for day, counts in ((last, False), (last.replace(month=10, day=1), True)):
        rules = {finding.rule for finding in road.check(path, today=lambda: day).findings if finding.kind == FAIL and finding.permit is None}
        assert ("permit-is-in-date" in rules) is counts and ("valve-follows-lobe-to-limiter" in rules) is counts


def test_the_shop_standard_holds_and_reaches_the_drag_jobs_only(copied, capsys):
    status, out, _ = said(capsys, "standard", "jobs/drag/0560_bracket_car.yaml")
    assert status == 0 and "note_above of piston-speed-suits-parts" in out and "most of stud-is-set-finger-tight: 3 lbf-ft" in out
    status, out, _ = said(capsys, "standard", "jobs/street/0501_mild_355.yaml")
    assert status == 0 and "piston-speed-suits-parts" not in out and "warning_below of spring-stays-clear-of-coil-bind: 0.060 in" in out
    status, out, err = said(capsys, "standard", "--prove", ".")
    assert status == 0, out + err


def test_the_limit_for_the_drag_jobs_is_what_keeps_their_piston_speed_quiet(copied):
    def rules():
        found = road.check(str(copied / "jobs/drag/0560_bracket_car.yaml")).findings
        return {finding.rule for finding in found if finding.kind == FAIL}

    assert "piston-speed-suits-parts" not in rules()
    text = Path("shop.yaml").read_text()
    Path("shop.yaml").write_text(text.replace("jobs/drag/**", "jobs/elsewhere/**"))
    road._STANDARDS.clear()
    assert "piston-speed-suits-parts" in rules()


def test_the_rule_of_the_shop_finds_a_rod_bolt_that_goes_by_torque(copied):
    path = copied / "jobs" / "strip" / "0520_387.yaml"
    path.write_text(path.read_text() + "joints: {rod: {tightening: torque}}\n")
    assert "shop-forged-rods-go-by-stretch" in {finding.rule for finding in road.check(str(path)).findings if finding.kind == FAIL}


def test_the_summary_names_every_mistake_first_and_the_page_shows_it(copied, capsys):
    status, out, _ = said(capsys, "check", "jobs", "--format", "summary", "--workers", "1", "--fresh")
    assert status == 1
    specs, rules = out.split("BY SPEC\n\n")[1].split("\n\n")[0], out.split("BY RULE\n\n")[1].split("\n\n")[0]
    named = re.findall(r"^ +(?:error|warning)  (\S+?):?(?: |$)", specs, re.M)
    assert {name.removeprefix("jobs/") for name in named} == set(FINDINGS)
    named = re.findall(r"^ +(?:error|warning)  ([a-z-]+):", rules, re.M)
    assert set(named) == {rule for found in FINDINGS.values() for rule, _, _ in found}
    first = [part.split("\n     note  ")[0] for part in (specs, rules)]
    shown = f"<!-- summary -->\n```\nBY SPEC\n\n{first[0]}\n\nBY RULE\n\n{first[1]}\n```\n<!-- end -->"
    assert shown in (LIBRARY / "README.md").read_text(), f"examples/library/README.md should show\n{shown}"


def test_every_command_of_the_page_runs(copied, capsys):
    page = (LIBRARY / "README.md").read_text()
    commands = re.findall(r"^    buildlint (.*?)(?:\s{2,}#.*|\s+# .*)?$", page, re.M)
    assert len(commands) == 8
    for command in commands:
        status, out, err = said(capsys, *command.split())
        assert status in (0, 1) and "Traceback" not in err, (command, err)


def test_every_mistake_of_the_page_is_written_in_its_job():
    rows = re.findall(r"^\| (\d{4}) \| `(.*?)` \|", (LIBRARY / "README.md").read_text(), re.M)
    assert {number for number, _ in rows} == {Path(job).name[:4] for job in FINDINGS}
    for number, written in rows:
        (path,) = (LIBRARY / "jobs").rglob(f"{number}_*.yaml")
        assert written in path.read_text(), (number, written)


def test_an_unchanged_library_is_answered_from_the_last_run(copied, monkeypatch):
    asked = []
    honest = road.check
    monkeypatch.setattr(road, "check", lambda path, **more: (asked.append(path), honest(path, **more))[1])
    job = library.Job((("lines", Wishes()),))
    paths = [f"jobs/{name}" for name in jobs(copied)]

    def answers():
        asked.clear()
        kept = cache.Cache(job, TODAY.isoformat())
        try:
            return [(answer.path, answer.sheets, answer.counts) for answer in library.run(paths, job, 1, kept)], len(asked)
        finally:
            kept.close()

    first, judged = answers()
    assert judged == 55
    assert answers() == (first, 0)
    iron = Path("templates/street_iron.yaml")
    iron.write_text(iron.read_text().replace("below_deck: 0.025 in", "below_deck: 0.010 in"))
    again, judged = answers()
    leaning = [name for name in jobs(copied) if any(file.stem == "street_iron" for file in chain(copied / "jobs" / name))]
    assert judged == len(leaning) == 13 and again != first


def test_a_known_library_leaves_only_what_is_new(copied):
    def buildlint(*arguments):
        return subprocess.run([sys.executable, "-m", "buildlint", *arguments], capture_output=True, text=True, timeout=300,
                              env={**os.environ, "PYTHONPATH": str(ROOT)})

    assert buildlint("known", "jobs", "--file", "known.json").returncode == 0
    assert len(json.loads(Path("known.json").read_text())["findings"]) >= sum(map(len, FINDINGS.values()))
    quiet = buildlint("check", "jobs", "--format", "lines", "--known", "known.json")
    assert (quiet.returncode, quiet.stdout) == (0, "")
    path = Path("jobs/street/0501_mild_355.yaml")
    path.write_text(path.read_text() + "block: {bore: 4.065 in}\n")
    new = buildlint("check", "jobs", "--format", "lines", "--known", "known.json")
    assert new.returncode == 1 and "0501_mild_355.yaml" in new.stdout
    assert all("0501_mild_355.yaml" in line or "catalogue/" in line or "templates/" in line for line in new.stdout.splitlines())


@pytest.mark.parametrize("path", sorted(LIBRARY.rglob("*.yaml")), ids=lambda path: str(path.relative_to(LIBRARY)))
def test_a_file_says_in_its_first_line_what_it_is(path):
    first = path.read_text().splitlines()[0]
    assert first.startswith("# ") and len(first) > 20
