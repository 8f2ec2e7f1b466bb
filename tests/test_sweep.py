"""What-if over parts and values: the same findings as if each combination had been written, and the best one first."""

import json
import os
import shutil
import subprocess
import sys
from itertools import product
from pathlib import Path

import pytest

from buildlint import cli, road, sweep
from buildlint.load import load
from buildlint.model import FAIL
from buildlint.validate import plain

ROOT = Path(__file__).parent.parent

CARD = """\
build: {name: street and strip, stage: ordering}
rockers: {class: production_needle_trunnion, ratio: 1.7}
pushrods: {outside_diameter: 5/16 in, wall: 0.080 in, length: 7.800 in, material: chrome_moly}
intake:
  lobe: {lift: 0.353 in}
  valve: {tip: hardened_wafer}
  spring: {part: sp-soft, installed_height: 1.800 in}
"""
CATALOGUE = """\
sp-soft: {spring: {seat_load: 130 lbf, rate: 370 lbf/in, solid_height: 1.100 in}}
sp-stiff: {spring: {seat_load: 160 lbf, rate: 480 lbf/in, solid_height: 1.120 in}}
sp-long: {spring: {seat_load: 130 lbf, rate: 370 lbf/in, solid_height: 1.260 in}}
pr-80: {pushrods: {wall: 0.080 in}}
"""


@pytest.fixture
def card(tmp_path, monkeypatch):
    """A spec in a shop's folder with a catalogue; gives its name."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "catalogue").mkdir()
    (tmp_path / "catalogue" / "springs.yaml").write_text(CATALOGUE)
    (tmp_path / "shop.yaml").write_text("shop: a shop of this test\n")
    (tmp_path / "card.yaml").write_text(CARD)
    return "card.yaml"


def tried(name, *choices, **more):
    return sweep.sweep(name, [sweep.axis(choice) for choice in choices], **more)


def failures(report):
    return said(report, [finding for finding in report.findings if finding.kind == FAIL])


def said(trial, findings=None):
    return sorted((finding.rule, finding.scope, finding.level, finding.message) for finding in findings or trial.findings)


# -- the same as written ----------------------------------------------------------------------------------


def test_each_combination_gives_what_the_spec_gives_when_it_is_written_so(card):
    walls, ratios, parts = ("0.080 in", "0.105 in"), ("1.6", "1.7", "1.8"), ("sp-soft", "sp-stiff", "sp-long")
    found = tried(card, f"pushrods.wall={','.join(walls)}", f"rockers.ratio={','.join(ratios)}", f"intake.spring.part={','.join(parts)}")
    assert len(found.trials) == len(walls) * len(ratios) * len(parts)
    by_values = {trial.values: trial for trial in found.trials}
    for wall, ratio, part in product(walls, ratios, parts):
        text = CARD.replace("0.080 in", wall).replace("ratio: 1.7", f"ratio: {ratio}").replace("sp-soft", part)
        Path("written.yaml").write_text(text)
        trial = by_values[wall, ratio, part]
        assert said(trial) == failures(road.check("written.yaml"))


def test_every_combination_that_is_good_is_good_alone_and_the_first_is_the_best(card):
    found = tried(card, "pushrods.wall=0.080 in,0.105 in,0.120 in", "intake.spring.part=all", "rockers.ratio=1.6,1.7")
    ranks = [(trial.count("error"), trial.count("warning"), trial.open, trial.count("note")) for trial in found.trials]
    assert ranks == sorted(ranks) and ranks[0] < ranks[-1]
    assert found.common == set.intersection(*({(f.rule, f.scope, f.missing) for f in trial.findings} for trial in found.trials))
    assert all(sorted(map(sweep.key_of, found.own(trial))) == sorted({*map(sweep.key_of, trial.findings)} - found.common) for trial in found.trials)


def test_workers_share_the_work_and_give_the_same(card):
    choices = ("pushrods.wall=0.080 in,0.105 in", "intake.spring.part=all", "rockers.ratio=1.5,1.6,1.7")
    assert tried(card, *choices, workers=1) == tried(card, *choices, workers=2)


def test_the_margin_told_is_one_that_the_choice_moves(card):
    found = tried(card, "intake.spring.part=sp-soft,sp-stiff", "pushrods.wall=0.105 in")
    for trial in found.trials:
        assert trial.tightest is not None and trial.tightest.scope == ("intake",)
        assert trial.tightest.utilization == max(finding.utilization for finding in trial.moved.values())


# -- what may be tried ------------------------------------------------------------------------------------


def test_all_is_every_part_that_the_catalogue_describes_so(card):
    assert tried(card, "intake.spring.part=all").axes[0].values == ("sp-soft", "sp-stiff", "sp-long")
    assert tried(card, "pushrods.part=all").axes[0].values == ("pr-80",)


def test_several_paths_are_set_alike(card):
    found = tried(card, "intake.spring.part,exhaust.spring.part=sp-soft,sp-stiff")
    assert found.axes[0].name == "intake.spring.part and exhaust.spring.part" and len(found.trials) == 2
    scopes = {f.scope for trial in found.trials for f in trial.findings}
    assert () in scopes and ("exhaust",) not in scopes  # both sides changed alike, so what they say is one thing


def test_what_the_spec_writes_beside_a_part_is_told_and_can_be_left_out(card):
    Path(card).write_text(CARD.replace("installed_height: 1.800 in", "installed_height: 1.800 in, seat_load: 150 lbf"))
    found = tried(card, "intake.spring.part=sp-soft,sp-stiff")
    assert found.stays == (("intake.spring.installed_height", "1.800 in"), ("intake.spring.seat_load", "150 lbf"))
    left = tried(card, "intake.spring.part=sp-soft,sp-stiff", without=["intake.spring.seat_load"])
    assert left.stays == (("intake.spring.installed_height", "1.800 in"),)
    Path(card).write_text(CARD)
    again = tried(card, "intake.spring.part=sp-soft,sp-stiff")
    assert [said(trial) for trial in left.trials] == [said(trial) for trial in again.trials]


@pytest.mark.parametrize(("choice", "told"), [
    ("rockers.ratio", "write PATH=VALUE,VALUE"), ("rockers.ratio=", "write PATH=VALUE,VALUE"), ("=1.6", "write PATH=VALUE,VALUE"),
    ("rockers.ratios=1.6", "Did you mean rockers.ratio?"), ("rockers=1.6", "is a heading"), ("rockers.ratio.more=1", "no rockers.ratio.more"),
    ("rocker.ratio=1.6", "Did you mean rockers?"),
])
def test_a_choice_that_cannot_be_made_out_is_refused_with_advice(choice, told):
    with pytest.raises(sweep.NotUnderstood, match=told.replace("?", r"\?")):
        sweep.axis(choice)


def test_too_many_combinations_a_path_twice_and_all_of_no_part_are_refused(card):
    with pytest.raises(sweep.NotUnderstood, match="10,000 combinations"):
        tried(card, *(f"{path}={','.join(map(str, range(1, 101)))}" for path in ("rockers.ratio", "engine.cylinders")))
    with pytest.raises(sweep.NotUnderstood, match="tried twice"):
        tried(card, "rockers.ratio=1.6", "rockers.ratio=1.7")
    with pytest.raises(sweep.NotUnderstood, match="all is for parts"):
        tried(card, "rockers.ratio=all")
    with pytest.raises(sweep.NotUnderstood, match="no part as damper"):
        tried(card, "damper.part=all")


@pytest.mark.parametrize("value", ["a: b", "{x", "it's", "#4", "- 1", "", "null", "\x1b[2J", "yes", "\u2028", '"'])
def test_a_value_is_taken_as_it_would_be_written(value):
    tree = sweep.overlay([(("intake.spring.part", "exhaust.spring.part"), value), (("rockers.ratio",), "1.7")])
    data = plain(tree)
    assert data["rockers"] == {"ratio": 1.7} and data["intake"] == data["exhaust"]
    meant = data["intake"]["spring"]["part"]
    assert meant == value or meant is None and value == "null" or "\x1b" in value or value == "\u2028"


# -- as its user sees it ----------------------------------------------------------------------------------


def test_the_sheet_says_what_each_value_does_and_the_exit_status_whether_one_is_good(card, capsys):
    choices = ["--vary", "pushrods.wall=0.080 in,0.105 in", "--vary", "intake.spring.part=all", "--stage", "planning"]
    assert cli.run(["sweep", card, *choices, "--level", "error"]) == 0
    out = capsys.readouterr().out
    assert "6 combinations of pushrods.wall (2) and intake.spring.part (3)" in out
    assert "sp-long: good in 0 of 2; spring-stays-clear-of-coil-bind in 2" in " ".join(out.split())
    assert "4 of 6 combinations are free of errors." in out
    assert cli.run(["sweep", card, "--vary", "intake.spring.part=sp-long", "--stage", "planning", "--level", "error"]) == 1
    assert cli.run(["sweep", card, *choices]) == 1
    assert "3 of 6 combinations are free of errors and warnings, but for what every one has." in " ".join(capsys.readouterr().out.split())


def test_the_json_holds_every_combination_with_its_findings(card, capsys):
    cli.run(["sweep", card, "--vary", "intake.spring.part=all", "--format", "json"])
    told = json.loads(capsys.readouterr().out)
    assert told["axes"] == [{"paths": ["intake.spring.part"], "values": ["sp-soft", "sp-stiff", "sp-long"]}]
    assert {tuple(one["values"]) for one in told["combinations"]} == {("sp-soft",), ("sp-stiff",), ("sp-long",)}
    bind = next(one for one in told["combinations"] if one["values"] == ["sp-long"])
    assert "spring-stays-clear-of-coil-bind" in {finding["rule"] for finding in bind["findings"]} and bind["counts"]["error"] >= 1


def test_wrong_input_is_told(card, capsys):
    assert cli.run(["sweep", "none.yaml", "--vary", "rockers.ratio=1.6"]) == 2
    assert cli.run(["sweep", card, "--vary", "rockers.ration=1.6"]) == 2
    assert cli.run(["sweep", card]) == 2 and cli.run(["sweep", ".", "--vary", "rockers.ratio=1.6"]) == 2
    Path("broken.yaml").write_text("build: [\n")
    assert cli.run(["sweep", "broken.yaml", "--vary", "rockers.ratio=1.6"]) == 2
    err = capsys.readouterr().err
    assert "There is no such file" in err and "Did you mean rockers.ratio?" in err and "cannot be read to its end" in err


def test_the_parts_of_the_example_shop_are_told_apart(tmp_path):
    """Of three springs and three rockers: the soft spring floats or runs out of rating, the tall ratio drives the retainer into the seal."""
    shutil.copytree(ROOT / "examples", tmp_path / "examples")
    ran = subprocess.run([sys.executable, "-m", "buildlint", "sweep", "choosing.yaml", "--vary", "intake.spring.part,exhaust.spring.part=all",
                          "--vary", "rockers.part=all"], cwd=tmp_path / "examples", capture_output=True, text=True,
                         env={**os.environ, "PYTHONPATH": str(ROOT), "COLUMNS": "100"})
    assert ran.returncode == 0, ran.stderr
    out = " ".join(ran.stdout.split())
    assert "sp-306: good in 0 of 3; valve-follows-lobe-to-limiter in 3" in out
    assert "hc-rocker-17: good in 0 of 3; retainer-clears-the-seal in 3" in out
    assert "4 of 9 combinations are free of errors and warnings." in out


def test_the_overlay_leaves_the_rest_of_a_spec_alone():
    from buildlint.compose import laid_over

    spec, _ = load(CARD, "card.yaml")
    changed = plain(laid_over(spec, sweep.overlay([(("intake.spring.installed_height",), None), (("rockers.ratio",), "1.5")])))
    wanted = plain(spec)
    del wanted["intake"]["spring"]["installed_height"]
    wanted["rockers"]["ratio"] = 1.5
    assert changed == wanted
