"""Whole builds as seen from the bench and the order desk: the exact findings about order of work and order sheet.

The good ones are clean; the flawed ones are found where they are flawed, on the line, and nowhere else. Reminders
are followed from the first listing to the signature, through the program itself where it prints them.
"""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from specs_in_text import report_of

from buildlint import road
from buildlint.model import FAIL, NOT_APPLICABLE, OPEN, PASS, REVIEW

SPECS = Path(__file__).parent / "specs" / "assembly"
OWN = ("assembly", "order")
REMINDERS = {rule.id for rule in road.rules() if rule.area in OWN and rule.level == "reminder"}

# {spec: [(rule, scope, level, line)]}, in the order of the report.
EXPECTED = {
    "handed_over": [
    ],
    "handed_over_with_gaps": [
        ("pump-drive-returns-after-priming", "", "error", 56),
        ("final-wash-follows-last-machining", "final_wash step", "error", 80),
        ("measurement-dates-are-possible", "main_and_crank step", "error", 85),
        ("measurement-dates-are-possible", "pushrods step", "error", 103),
        ("valves-are-set-after-torque", "valve_adjust step", "error", 105),
        ("bench-checks-are-signed", "", "error", 124),
        ("lubricant-suits-each-surface", "", "error", 143),
        ("measurements-are-complete", "", "error", 153),
        ("stand-carries-the-engine", "", "error", 155),
        ("oil-shows-at-every-rocker", "", "warning", 58),
        ("standard-steps-are-present", "main_and_crank step", "warning", 85),
        ("abrasive-pads-stay-off-faces", "", "warning", 140),
        ("retorque-is-followed-by-setting", "", "warning", 161),
        ("measurements-differ-from-nominal", "", "note", 34),
    ],
    "inline_six": [
    ],
    "intake_on_back_order": [
        ("storage-protects-the-engine", "", "warning", 77),
        ("parts-arrive-before-their-step", "intake_manifold item", "error", 77),
        ("long-lead-parts-have-alternatives", "flywheel item", "warning", 82),
    ],
    "intake_on_back_order_stored": [
    ],
    "long_block_shipped": [
    ],
    "mock_up_left_in": [
        ("mock-up-gasket-equals-final", "", "error", 35),
        ("temporary-parts-are-signed-out", "", "error", 117),
        ("one-use-parts-skip-mock-up", "head_bolt item", "error", 140),
        ("valve-setting-names-its-method", "valve_adjust step", "warning", 97),
        ("clearances-checked-on-both-banks", "", "note", 122),
        ("mock-up-clamps-as-final", "", "note", 121),
    ],
    "order_sheet": [
    ],
    "order_sheet_flawed": [
        ("one-use-parts-are-bought-new", "head item", "error", 22),
        ("left-and-right-parts-are-paired", "head item", "error", 34),
        ("bought-part-matches-specified", "head_gasket item", "error", 35),
        ("left-and-right-parts-are-paired", "head_gasket item", "error", 35),
        ("quantity-suits-the-engine", "head_gasket item", "error", 35),
        ("kits-cover-the-need", "head_stud item", "error", 36),
        ("washers-match-the-fasteners", "head_washer item", "error", 37),
        ("measured-parts-are-bought-late", "pushrod item", "error", 39),
        ("pushrod-counts-match-sides", "pushrod item", "error", 40),
        ("bought-part-matches-specified", "valve_spring item", "error", 41),
        ("quantity-suits-the-engine", "valve_lock item", "error", 42),
        ("kits-cover-the-need", "gasket_set item", "error", 43),
        ("one-use-parts-are-bought-new", "rear_main_seal item", "error", 44),
        ("quantity-suits-the-engine", "ring_set item", "error", 45),
        ("parts-arrive-before-their-step", "lifter item", "error", 46),
        ("pushrod-lengths-are-split", "exhaust", "warning", 19),
        ("parts-arrive-before-their-step", "camshaft item", "warning", 38),
        ("quantity-suits-the-engine", "spark_plug item", "note", 47),
    ],
    "other_valid_order": [
    ],
    "steps_in_a_circle": [
        ("build-steps-form-an-order", "coat_and_mask step", "error", 23),
        ("cam-is-degreed-before-cover", "front_cover step", "error", 45),
        ("build-steps-form-an-order", "damper step", "error", 48),
    ],
    "studs_first": [
        ("gasket-precedes-the-studs", "head_gasket step", "warning", 22),
    ],
    "studs_first_with_reason": [
    ],
}


def own_findings(report):
    return [finding for finding in report.findings if finding.kind == FAIL and finding.area in OWN]


@pytest.fixture(scope="module")
def reports():
    return {name: road.check(SPECS / f"{name}.yaml") for name in EXPECTED}


def test_every_build_of_the_folder_is_looked_at():
    assert {path.stem for path in SPECS.glob("*.yaml")} == set(EXPECTED)


@pytest.mark.parametrize("name", EXPECTED)
def test_a_build_has_exactly_the_findings_it_should_have(name, reports):
    found = sorted((finding.rule, finding.scope[0] if finding.scope else "", finding.level, finding.place.line)
                   for finding in own_findings(reports[name]))
    assert found == sorted(EXPECTED[name])
    assert not reports[name].crashed


@pytest.mark.parametrize("name", EXPECTED)
def test_no_spec_is_broken_and_no_list_of_work_or_order_is_overdue(name, reports):
    for finding in reports[name].findings:
        if finding.area == "spec" and finding.kind == FAIL:
            assert finding.level != "error", finding
            assert not (finding.missing and finding.missing[0].startswith(OWN)), finding


@pytest.mark.parametrize("name", [name for name, findings in EXPECTED.items() if not findings])
def test_what_is_good_has_its_due_reminders_signed(name, reports):
    due = [finding for finding in reports[name].findings if finding.rule == "due-reminders-are-signed"]
    assert not [reminder for finding in due for reminder in REMINDERS if reminder in finding.message]


@pytest.mark.parametrize("name", EXPECTED)
def test_findings_of_a_build_tell_days_and_numbers_and_what_to_do(name, reports):
    for finding in own_findings(reports[name]):
        assert finding.message and finding.fix and finding.source
        assert "not written" not in finding.message + finding.fix and "_" not in finding.message.replace(finding.rule, "")


def test_a_late_part_moves_the_hand_over_and_asks_for_storage(reports):
    late = {finding.rule: finding for finding in own_findings(reports["intake_on_back_order"])}
    assert "the hand-over of 2026-05-13 then moves to 2026-06-13" in late["parts-arrive-before-their-step"].fix
    storage = late["storage-protects-the-engine"]
    assert "31 days" in storage.message and "ports_capped" in storage.fix and "not before 2026-06-06" in storage.fix


def test_a_lock_kit_counted_as_pieces_says_how_many_the_engine_takes(reports):
    locks = next(finding for finding in own_findings(reports["order_sheet_flawed"]) if finding.scope == ("valve_lock item",))
    assert (locks.value, locks.limit) == (16, 32) and "Order 32 pieces" in locks.fix


# -- a spec that says little ----------------------------------------------------------------------------


@pytest.mark.parametrize("stage", ["planning", "ordering", "assembly", "handover"])
def test_a_spec_without_steps_and_order_is_not_drowned(stage):
    report = report_of(f"build: {{stage: {stage}}}\nengine: {{cylinders: 8}}\nintake: {{spring: {{installed_height: 1.8 in}}}}\n")
    assert not own_findings(report)
    notes = [finding for finding in report.findings if finding.rule == "due-inputs-are-written" and finding.missing[0] in OWN]
    assert all(finding.level == "note" for finding in notes) and len(notes) <= 2


def test_rules_of_steps_that_are_not_listed_do_not_apply():
    report = report_of("build: {stage: handover}\nassembly:\n  steps:\n    - {step: damper}\n")
    for rule in ("cam-is-degreed-before-cover", "heads-precede-the-pushrods", "first-start-has-two-people", "threads-are-chased-gently"):
        assert {finding.kind for finding in report.findings if finding.rule == rule} == {NOT_APPLICABLE}, rule


# -- reminders and signatures, from the first listing to the hand-over ------------------------------------


LISTED = """
build: {stage: %s}
engine: {cylinders: 8, lifted_mass: 560 lb}
rings: {top: {face: plasma_moly}}
oiling: {break_in: {base: mineral, changed_after: 1 h}}
intake: {spring: {seat_load: 150 lbf, rate: 450 lbf/in}}
assembly:
  steps:
    - {step: spring_bench_test}
    - {step: chase_threads}
    - {step: heads_assembled}
    - {step: sign_off}
    - {step: first_fire}
    - {step: store_or_ship}
%s
"""
DUE = {
    "threads-are-chased-gently": "assembly", "spring-work-has-cautions": "assembly", "rings-are-bedded-under-load": "handover",
    "first-oil-change-is-planned": "handover", "first-heat-is-followed-up": "handover", "engine-is-shipped-safely": "handover",
    "fuel-work-has-cautions": "handover", "first-start-has-two-people": "handover",
}


def of_reminder(report, rule):
    return [finding for finding in report.findings if finding.rule == rule and finding.kind != NOT_APPLICABLE]


def unsigned(report):
    finding = next((finding for finding in report.findings if finding.rule == "due-reminders-are-signed"), None)
    return set() if finding is None else {rule for rule in DUE if rule in finding.message}


def signatures(*lines):
    return "  signed:\n" + "".join(f"    - {{{line}}}\n" for line in lines)


def test_every_reminder_of_the_area_is_followed_here():
    assert set(DUE) == REMINDERS


@pytest.mark.parametrize("stage", ["planning", "mock_up"])
def test_a_reminder_that_is_not_due_is_listed_and_disturbs_nobody(stage):
    report = report_of(LISTED % (stage, ""))
    for rule in DUE:
        assert {finding.kind for finding in of_reminder(report, rule)} == {REVIEW}, rule
    assert unsigned(report) == set()


def test_unsigned_reminders_are_one_warning_when_they_are_due():
    assert unsigned(report_of(LISTED % ("assembly", ""))) == {rule for rule, due in DUE.items() if due == "assembly"}
    report = report_of(LISTED % ("handover", ""))
    assert unsigned(report) == set(DUE)
    assert sum(finding.rule == "due-reminders-are-signed" for finding in report.findings) == 1


@pytest.mark.parametrize("rule", DUE)
def test_a_signature_settles_a_reminder_everywhere_it_was_given(rule):
    report = report_of(LISTED % ("handover", signatures(f"check: {rule}, by: RM, on: 2026-05-04")))
    settled = of_reminder(report, rule)
    assert {finding.kind for finding in settled} == {PASS} and all("signed by RM on 2026-05-04" in finding.message for finding in settled)
    assert unsigned(report) == set(DUE) - {rule}
    if rule == "spring-work-has-cautions":
        assert len(settled) == 2, "asked at the bench and at the head, signed once"


@pytest.mark.parametrize("line, lacks", [("on: 2026-05-04", "by"), ("by: RM", "on"), ("notes: looked fine", "by and on")])
def test_half_a_signature_is_an_error_of_its_own(line, lacks):
    text = LISTED % ("handover", signatures(f"check: first-start-has-two-people, {line}"))
    report = report_of(text)
    finding, = [finding for finding in report.findings if finding.rule == "bench-checks-are-signed"]
    assert finding.kind == FAIL and finding.level == "error" and f"lacks {lacks}." in finding.message
    assert "check: first-start" in text.strip().splitlines()[finding.place.line - 1]
    assert ("first-start-has-two-people" in unsigned(report)) == (lacks != "on")


def test_a_signature_for_what_is_hidden_already_is_an_error_on_its_line():
    text = """
        assembly:
          steps:
            - {step: front_cover, by: RM, on: 2026-05-02}
          signed:
            - {check: cam-bearings-feed-oil, by: RM, on: 2026-05-01}
            - {check: hidden-plugs-are-checked-first, by: RM, on: 2026-05-03}
        """
    finding, = [finding for finding in report_of(text).findings if finding.rule == "bench-checks-are-signed"]
    assert finding.kind == FAIL and finding.place.line == 6
    assert "hidden-plugs-are-checked-first is signed for 2026-05-03, and front cover hid it on 2026-05-02." == finding.message


def test_dangerous_work_carries_its_caution_and_its_energy():
    report = report_of(LISTED % ("handover", ""))
    for rule in ("threads-are-chased-gently", "spring-work-has-cautions", "fuel-work-has-cautions", "first-start-has-two-people",
                 "first-oil-change-is-planned", "engine-is-shipped-safely"):
        assert all(len(finding.caution) > 60 for finding in of_reminder(report, rule)), rule
    assert all("10 J" in finding.message for finding in of_reminder(report, "spring-work-has-cautions"))
    cautioned = [rule for rule in road.rules() if rule.id in ("stand-carries-the-engine", "hoist-bolts-are-strong-enough")]
    assert len(cautioned) == 2 and all(rule.caution and not rule.permits for rule in cautioned)


def test_a_fix_that_sends_hands_to_a_loaded_spring_carries_its_caution():
    handled = [rule for rule in road.rules() if rule.due in ("mock_up", "machining", "assembly") and "spring" in rule.id + rule.fix
               and any(work in rule.fix.lower() for work in ("shim", "test ", "measure installed", "replace the spring"))]
    assert len(handled) >= 6
    assert not [rule.id for rule in handled if not rule.caution]


def program(*arguments):
    environment = {**os.environ, "PYTHONPATH": str(Path(__file__).parent.parent), "NO_COLOR": "1", "COLUMNS": "100"}
    return subprocess.run([sys.executable, "-m", "buildlint", *arguments], capture_output=True, text=True, timeout=120, env=environment)


def test_the_program_prints_what_is_to_be_signed_and_who_has_signed(tmp_path):
    spec = tmp_path / "build.yaml"
    spec.write_text(LISTED % ("handover", signatures("check: fuel-work-has-cautions, by: TK, on: 2026-05-04")), encoding="utf-8")
    said = " ".join(program("check", str(spec)).stdout.split())
    assert "fuel-work-has-cautions, by TK on 2026-05-04" in said
    assert "Two people at the first start" in said and "first-start-has-two-people" in said
    assert "throws its retainer and locks like a shot" in said


def test_the_program_gives_every_reminder_to_other_programs_with_its_kind(tmp_path):
    spec = tmp_path / "build.yaml"
    spec.write_text(LISTED % ("handover", signatures("check: first-heat-is-followed-up, by: RM, on: 2026-05-08")), encoding="utf-8")
    findings = json.loads(program("check", "--format", "json", str(spec)).stdout)["specs"][0]["findings"]
    kinds = {finding["rule"]: finding["kind"] for finding in findings if finding["rule"] in DUE and finding["kind"] != NOT_APPLICABLE}
    assert kinds == {rule: "pass" if rule == "first-heat-is-followed-up" else "review" for rule in DUE}


def test_an_engine_signed_off_with_no_check_signed_is_told_at_the_step():
    report = report_of("""
        assembly:
          steps:
            - {step: damper, by: RM, on: 2026-05-03}
            - {step: sign_off, by: RM, on: 2026-05-04}
        """)
    finding, = [finding for finding in report.findings if finding.rule == "bench-checks-are-signed"]
    assert finding.kind == FAIL and finding.place.line == 4


# -- what is open before it is due, and a failure from then on --------------------------------------------


@pytest.mark.parametrize("rule, text, stage_before, stage_due", [
    pytest.param("measurements-are-complete", "bearings: {main: {clearance: {plan: 0.0025 in}}}", "assembly", "handover", id="measurement"),
    pytest.param("temporary-parts-are-signed-out", "assembly: {temporary: [{item: clay, fitted_on: 2026-05-01}]}", "mock_up", "assembly", id="clay"),
    pytest.param("retorque-is-followed-by-setting", "assembly: {retorqued_on: 2026-05-01}", "assembly", "handover", id="setting"),
    pytest.param("springs-are-measured-before-fitting", "intake: {spring: {seat_load: 130 lbf}}", "mock_up", "assembly", id="springs"),
    pytest.param("pump-drive-returns-after-priming", "oiling: {primed_by: drill_on_pump_shaft, pump: {drive: distributor_gear}}",
                 "assembly", "handover", id="pump drive"),
])
def test_what_is_not_written_yet_is_open_before_its_stage_and_a_failure_from_it_on(rule, text, stage_before, stage_due):
    for stage, kind in ((stage_before, OPEN), (stage_due, FAIL)):
        kinds = {finding.kind for finding in report_of(f"build: {{stage: {stage}}}\n{text}\n").findings if finding.rule == rule}
        assert kind in kinds and not kinds - {kind, NOT_APPLICABLE}, (stage, kinds)
