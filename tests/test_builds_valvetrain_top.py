"""Whole builds of an invented shop, sound and flawed, with exactly the findings they deserve of springs, pushrods,
rockers and valves.

What is expected stands in the builds themselves: a line that must be reported ends with ``# <- level rule scope`` (more of
them parted by semicolons), and nothing else may be reported by the rules named here.
"""

import re
from pathlib import Path

import marked_builds
import pytest
from marked_builds import expected, reported, strange

from buildlint import road
from buildlint.model import FAIL, OPEN

FOLDER = Path(__file__).parent / "specs" / "valvetrain"
BUILDS = sorted(FOLDER.glob("*.yaml"))
SOUND = [path for path in BUILDS if not path.stem.endswith(("flawed", "over_the_limit"))]
FILES = ("pushrod_", "rocker_", "spring_", "valve_guides", "valve_locks", "valve_materials", "valve_seals", "valve_seats", "valve_tips",
         "retainers", "seat_inserts", "stem_sizes")
RULES = {rule.id: rule for rule in road.rules() if rule.area == "valvetrain" and Path(rule.file).name.startswith(FILES)}


def report_of(path):
    return marked_builds.report_of(path, RULES)


@pytest.mark.parametrize("path", BUILDS, ids=[path.stem for path in BUILDS])
def test_a_build_is_told_exactly_what_is_wrong_with_it(path):
    assert reported(report_of(path), RULES) == expected(path)


@pytest.mark.parametrize("path", SOUND, ids=[path.stem for path in SOUND])
def test_a_sound_build_draws_no_more_than_notes_and_has_nothing_overdue(path):
    report = report_of(path)
    levels = {finding.level for finding in report.findings if finding.kind == FAIL and finding.rule in RULES}
    assert levels <= {"note"}
    overdue = [finding.message for finding in report.findings if finding.rule == "due-inputs-are-written"]
    assert not overdue


@pytest.mark.parametrize("path", BUILDS, ids=[path.stem for path in BUILDS])
def test_a_build_is_read_whole(path):
    """No key is misspelt and no quantity unreadable: every finding comes from a rule."""
    assert not strange(report_of(path), RULES)


def test_there_are_sound_and_flawed_builds_of_every_kind():
    assert len(SOUND) >= 8 and len(BUILDS) >= 2 * len(SOUND)


def test_the_marks_name_rules_that_exist():
    for path in BUILDS:
        assert {rule for _, _, rule, _ in expected(path)} <= set(RULES)


# -- the one figure everybody agrees on, from both sides ---------------------------------------------------

LIMIT = FOLDER / "hydraulic_roller_at_the_limit.yaml"


def changed(*pairs):
    text = LIMIT.read_text(encoding="utf-8")
    for old, new in pairs:
        assert old in text
        text = text.replace(old, new)
    report = road.check("limit.yaml", text=text.encode(), chosen=list(RULES.values()))
    return {(finding.level, finding.rule) for finding in report.findings if finding.kind == FAIL and finding.rule in RULES}


def test_right_at_the_limit_is_one_note_and_full_use():
    report = report_of(LIMIT)
    fails = [finding for finding in report.findings if finding.kind == FAIL and finding.rule in RULES]
    (only,) = fails
    assert (only.level, only.rule) == ("note", "rocker-carries-open-load")
    assert only.utilization == pytest.approx(1.0)
    assert "right at the limit of 460 lbf" in only.message


@pytest.mark.parametrize("pairs, expected", [
    pytest.param([("open_load: 460 lbf", "open_load: 461 lbf"), ("rate: 500 lbf/in", "rate: 501.6 lbf/in")],
                 {("error", "rocker-carries-open-load")}, id="a pound more is an error"),
    pytest.param([("open_load: 460 lbf", "open_load: 2046.18 N")], {("note", "rocker-carries-open-load")}, id="the same in newtons is the same note"),
    pytest.param([("wall: 0.105 in", "wall: 0.080 in")], {("note", "rocker-carries-open-load"), ("warning", "pushrod-wall-suits-load")},
                 id="the thin wall is reported"),
    pytest.param([("tip: hardened_wafer, tip_hardness: 55 HRC, ", "")], {("note", "rocker-carries-open-load"), ("error", "valve-tip-is-hard-enough")},
                 id="tips of which nothing is written are an error"),
    pytest.param([("ratio: 1.7,", "ratio: 1.8,"), ("solid_height: 1.050 in", "solid_height: 1.000 in"), ("rate: 500 lbf/in", "rate: 473 lbf/in")],
                 {("error", "rocker-carries-open-load")}, id="the next ratio lowers the limit"),
])
def test_one_step_from_the_limit_changes_the_answer(pairs, expected):
    assert changed(*pairs) == expected


def open_inputs(text):
    report = road.check("part.yaml", text=text.encode(), chosen=list(RULES.values()))
    return {path for finding in report.findings if finding.kind == OPEN for path in finding.missing}


def test_a_cup_on_the_order_is_not_asked_for_its_hardness():
    assert "intake.spring.shim_kind" not in open_inputs("heads: {material: aluminum_cast}\nintake: {spring: {located_by: cup}}\n")


def test_the_material_of_a_lightly_loaded_pushrod_is_nobodys_business():
    text = "build: {rev_limit: 5500 rpm}\nintake: {spring: {open_load: %s}}\n"
    rule = [RULES["pushrod-material-suits-load"]]

    def missing(load):
        report = road.check("part.yaml", text=(text % load).encode(), chosen=rule)
        return {path for finding in report.findings if finding.scope == ("intake",) for path in finding.missing}

    assert missing("280 lbf") == set()
    assert missing("430 lbf") == {"pushrods.material"}


# -- more load is never judged more mildly -----------------------------------------------------------------

SERIOUSNESS = {None: 0, "note": 1, "warning": 2, "error": 3}
LOADED = """
build: {duty: street, rev_limit: 6500 rpm}
lifters: {kind: %s}
pushrods: {outside_diameter: 5/16 in, wall: 0.080 in, length: 7.8 in, material: seamless, hardened: none}
rockers: {class: %s, ratio: 1.6, mount: stud, stud_fixing: screwed, stud_diameter: 3/8 in}
intake:
  valve: {material: austenitic_21_4n, tip: plain, groove: multi_groove}
  retainer: {material: stamped_steel}
  spring: {open_load: %d lbf}
"""


@pytest.mark.parametrize("rule, lifters, rockers", [
    ("rocker-carries-open-load", "solid_roller", "production_needle_trunnion"), ("rocker-carries-open-load", "solid_roller", "stamped_ball"),
    ("rocker-stud-carries-open-load", "solid_roller", "aluminum_roller_stud_3_8"), ("retainer-carries-open-load", "solid_roller", "stamped_ball"),
    ("valve-tip-is-hard-enough", "solid_roller", "stamped_ball"), ("open-load-suits-lifter", "hydraulic_flat", "stamped_ball"),
    ("open-load-suits-lifter", "hydraulic_roller", "stamped_ball"), ("pushrod-wall-suits-load", "solid_roller", "stamped_ball"),
    ("pushrod-material-suits-load", "solid_roller", "stamped_ball"), ("pushrod-carries-static-load", "solid_roller", "stamped_ball"),
    ("pushrod-carries-dynamic-load", "solid_roller", "stamped_ball"), ("pushrod-stays-stiff", "solid_roller", "stamped_ball"),
    ("groove-type-suits-load", "solid_roller", "stamped_ball"),
])
def test_more_load_is_never_judged_more_mildly(rule, lifters, rockers):
    said = []
    for load in range(150, 1500, 75):
        report = road.check("loaded.yaml", text=(LOADED % (lifters, rockers, load)).encode(), chosen=[RULES[rule]])
        (level,) = {finding.level if finding.kind == FAIL else None for finding in report.findings if finding.rule == rule and finding.scope == ("intake",)}
        said.append(SERIOUSNESS[level])
    assert said == sorted(said) and said[0] == 0 and said[-1] > 0


# -- a slip of the finger ----------------------------------------------------------------------------------

QUANTITY = re.compile(r"(?<=[ \[])\d+(?:\.\d+)?(?= (?:in|mm|lbf|N|lbf/in|N/mm|deg|psi|rpm|g|hp|lbf-ft|in\^3)\b)|(?<=ratio: )\d\.\d|(?<=coils: )\d[.\d]*")


@pytest.mark.parametrize("path", SOUND, ids=[path.stem for path in SOUND])
def test_a_zero_typed_anywhere_breaks_no_rule_down(path):
    text = path.read_text(encoding="utf-8")
    places = list(dict.fromkeys(place.span() for place in QUANTITY.finditer(text)))
    assert len(places) > 30
    for start, end in places:
        for slip in ("0", "-1"):
            report = road.check("slip.yaml", text=(text[:start] + slip + text[end:]).encode(), chosen=list(RULES.values()))
            assert not report.crashed, (text[max(0, start - 60): end], report.crashed)
