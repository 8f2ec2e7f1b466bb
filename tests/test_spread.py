"""Tolerances at either end: the worst case is what a check of that very build says, the likely case the root of the sum of squares."""

import itertools
import json
import math
import re
import shutil
from pathlib import Path

import pytest

from buildlint import cli, road, spread
from buildlint.model import FAIL, PASS

ROOT = Path(__file__).parent.parent

CARD = """\
build: {name: tolerance study, stage: planning, duty: street}
block: {deck_height: 8.992 in +/- 0.003 in}
crank: {stroke: 3.750 in +/- 0.002 in}
rods: {length: 6.000 in +/- 0.001 in}
pistons: {compression_height: 1.115 in +/- 0.001 in}
head_gasket: {compressed_thickness: 0.039..0.043 in}
heads: {quench_pad: fitted}
intake:
  lobe: {lift: 0.353 in}
  spring: {installed_height: 1.800 in +/- 0.015 in, solid_height: 1.165 in +/- 0.010 in, seat_load: 150 lbf, rate: 410 lbf/in}
rockers: {ratio: 1.6}
"""
INCH = 0.0254
TOLERANCE = re.compile(r"([0-9.]+) in \+/- ([0-9.]+) in|([0-9.]+)\.\.([0-9.]+) in")


@pytest.fixture
def card(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "card.yaml").write_text(CARD)
    return "card.yaml"


def corners(text):
    """Every text in which each toleranced value stands at one of its ends."""
    found = TOLERANCE.findall(text)
    ends = [(float(a) - float(b), float(a) + float(b)) if a else (float(c), float(d)) for a, b, c, d in found]
    for chosen in itertools.product(*ends):
        waiting = iter(chosen)
        yield TOLERANCE.sub(lambda _: f"{next(waiting):.4f} in", text)


def quench(text):
    Path("corner.yaml").write_text(text)
    return road.explain("quench_gap", "corner.yaml")[0].value


# -- against arithmetic and brute force -------------------------------------------------------------------


def test_the_range_of_a_stack_is_the_sum_of_its_tolerances_and_the_likely_one_their_root_of_squares(card):
    """A plain chain of dimensions: gap = deck - stroke/2 - rod - compression height + gasket. Arithmetic."""
    one, = spread.ranges(card, "quench_gap")
    tolerances = {"block_deck_height": 0.003, "crank_stroke": 0.001, "rod_length": 0.001, "piston_compression_height": 0.001,
                  "head_gasket_compressed_thickness": 0.002}
    middle, sum_, root = 0.043, sum(tolerances.values()), math.sqrt(sum(part**2 for part in tolerances.values()))
    assert one.planned == pytest.approx(middle * INCH)
    assert one.worst == pytest.approx(((middle - sum_) * INCH, (middle + sum_) * INCH))
    assert one.likely == pytest.approx(((middle - root) * INCH, (middle + root) * INCH))
    assert dict(one.movers) == pytest.approx({word: part**2 / root**2 for word, part in tolerances.items()})
    assert one.movers[0][0] == "block_deck_height"


def test_the_worst_range_is_that_of_all_corners(card):
    """All 128 builds with every value at an end, each resolved as a spec of its own: the smallest and largest gap."""
    gaps = [quench(text) for text in corners(CARD)]
    assert len(gaps) == 2**7
    one, = spread.ranges(card, "quench_gap")
    assert one.worst == pytest.approx((min(gaps), max(gaps)))


def test_the_worst_case_of_each_margin_is_the_worst_of_all_corners(card):
    found = spread.spread(card)
    worst = {}
    for text in corners(CARD):
        Path("corner.yaml").write_text(text)
        for finding in road.check("corner.yaml").findings:
            if finding.kind in (PASS, FAIL) and finding.utilization is not None:
                key = finding.rule, finding.scope
                worst[key] = max(worst.get(key, 0.0), finding.utilization)
    told = {(margin.worst.rule, margin.worst.scope): margin for margin in (*found.lost, *found.kept)}
    assert ("spring-stays-clear-of-coil-bind", ("intake",)) in told and len(told) >= 3
    for key, margin in told.items():
        assert margin.worst.utilization == pytest.approx(worst[key], rel=1e-6), key
        assert margin.planned.utilization - 1e-12 <= margin.likely <= margin.worst.utilization * 1.05
    missed = {key for key, use in worst.items() if use > 1 and key not in told}
    assert not missed - {(finding.rule, finding.scope) for finding in found.failing}


def test_what_is_lost_holds_as_planned_and_fails_at_the_worst(card):
    found = spread.spread(card)
    assert found.lost
    for margin in found.lost:
        assert margin.planned.kind == PASS and margin.worst.kind == FAIL
    for margin in found.kept:
        assert margin.worst.kind == PASS


# -- what counts as a tolerance ---------------------------------------------------------------------------


def test_what_is_measured_has_no_tolerance_left(card):
    Path(card).write_text(CARD.replace("8.992 in +/- 0.003 in", "{plan: 8.992 in +/- 0.003 in, measured: 8.9925 in}"))
    assert "block_deck_height" not in {one.word for one in spread.spread(card).inputs}
    assert {one.word for one in spread.spread(card).inputs} >= {"crank_stroke", "head_gasket_compressed_thickness"}


def test_a_tolerance_of_the_catalogue_and_the_template_counts_too(card, tmp_path):
    (tmp_path / "shop.yaml").write_text("shop: a shop of this test\n")
    (tmp_path / "catalogue").mkdir()
    (tmp_path / "catalogue" / "gaskets.yaml").write_text("g-41: {head_gasket: {compressed_thickness: 0.039..0.043 in}}\n")
    Path(card).write_text(CARD.replace("{compressed_thickness: 0.039..0.043 in}", "{part: g-41}"))
    one, = spread.ranges(card, "quench_gap")
    assert dict(one.movers)["head_gasket_compressed_thickness"] == pytest.approx(0.25)


def test_a_spec_without_tolerances_says_how_they_are_written(card, capsys):
    Path(card).write_text("block: {deck_height: 9.025 in}\n")
    assert cli.run(["spread", card]) == 0
    assert "9.025 in +/- 0.001 in" in " ".join(capsys.readouterr().out.split())


def test_too_many_are_refused(card, monkeypatch, capsys):
    monkeypatch.setattr(spread, "MOST", 3)
    assert cli.run(["spread", card]) == 2
    assert "7 values carry a tolerance; 3 are the most" in capsys.readouterr().err


# -- as its user sees it ----------------------------------------------------------------------------------


def test_the_sheet_names_what_is_lost_what_moves_it_and_the_exit_status(card, capsys):
    assert cli.run(["spread", card]) == 1
    out = " ".join(capsys.readouterr().out.split())
    assert "7 written values with a tolerance" in out
    assert "spring-stays-clear-of-coil-bind" in out and "moved by intake spring installed height (" in out
    assert "at the worst" in out and "Hold the first of these closer" in out


def test_a_word_is_shown_with_where_it_comes_to_lie(card, capsys):
    assert cli.run(["spread", card, "quench_gap"]) == 0
    out = " ".join(capsys.readouterr().out.split())
    assert "quench gap 0.0430 in likely 0.0390 in to 0.0470 in" in out and "0.0350 in to 0.0510 in" in out
    assert "block deck height (56%)" in out


def test_the_json_forms(card, capsys):
    cli.run(["spread", card, "--format", "json"])
    told = json.loads(capsys.readouterr().out)
    assert len(told["inputs"]) == 7 and told["lost"] and told["lost"][0]["moved_by"]
    assert {"planned", "likely", "worst"} == set(told["lost"][0]["utilization"])
    cli.run(["spread", card, "quench_gap", "--format", "json"])
    one, = json.loads(capsys.readouterr().out)
    assert one["unit"] == "in" and one["worst"] == pytest.approx([0.035, 0.051])


def test_wrong_input_is_told(card, capsys):
    assert cli.run(["spread", "none.yaml"]) == 2
    assert cli.run(["spread", card, "quench_gp"]) == 2
    assert cli.run(["spread", card, "valve_margin"]) == 2
    assert cli.run(["spread", "."]) == 2
    err = capsys.readouterr().err
    assert "There is no such file" in err and "Did you mean quench_gap" in err and "does not give valve_margin" in err


def test_the_examples_can_be_studied(tmp_path, monkeypatch):
    shutil.copytree(ROOT / "examples", tmp_path / "examples")
    monkeypatch.chdir(tmp_path / "examples")
    found = spread.spread("good.yaml")
    assert found.inputs and found.kept and not [margin for margin in found.lost if margin.worst.level == "error"]
    assert spread.spread("inline_six.yaml").inputs == ()  # everything that carries one is measured


def test_a_permitted_limit_is_not_lost(card):
    permit = ("permits:\n  - {rule: spring-stays-clear-of-coil-bind, at: intake, because: trial springs, approved: RM, until: 2999-01-01}\n")
    Path(card).write_text(CARD + permit)
    assert "spring-stays-clear-of-coil-bind" not in {margin.worst.rule for margin in spread.spread(card).lost}


def test_a_limit_that_both_sides_lose_in_the_same_words_is_lost(tmp_path):
    """A check tells what intake and exhaust say of one line as one finding; of tolerances each side is asked by itself."""
    card = tmp_path / "build.yaml"
    card.write_text(
        "build: {name: try, stage: mock_up, duty: street, induction: natural}\nrockers: {ratio: 1.7}\n"
        "pushrods: {outside_diameter: 5/16 in, wall: 0.080 in +/- 0.010 in}\n"
        "intake: {spring: {open_load: 400 lbf}}\nexhaust: {spring: {open_load: 400 lbf}}\n")
    lost = spread.spread(card).lost
    assert {(one.worst.rule, one.worst.scope) for one in lost if one.worst.rule == "pushrod-wall-suits-load"} == {
        ("pushrod-wall-suits-load", ("intake",)), ("pushrod-wall-suits-load", ("exhaust",))}
