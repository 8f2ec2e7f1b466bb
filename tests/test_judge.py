"""Every rule in every scope; a broken rule hides nothing; what is missing is named; the same comes out every time."""

import itertools

import pytest
from rules_in_text import STROKE, decorated, rules_of
from specs_in_text import report_of

from buildlint import road
from buildlint.model import FAIL, NOT_APPLICABLE, OPEN, PASS, REVIEW, Finding
from buildlint.open_results import unlocks


def only(report, rule):
    return [finding for finding in report.findings if finding.rule == rule]


def test_a_finding_points_at_the_line_and_names_value_limit_and_utilization_in_the_builders_unit(tmp_path):
    rules = rules_of(tmp_path, decorated(STROKE))
    finding, = only(report_of("crank:\n  stroke: 95.25 mm\n", rules), "stroke-stays-short-enough")
    assert (finding.kind, finding.level, finding.area) == (FAIL, "error", "valvetrain")
    assert (finding.place.line, finding.place.column, finding.pointer) == (2, 11, "/crank/stroke")
    assert finding.message == "95.25 mm is more than 88.90 mm."
    assert (finding.value, finding.limit, finding.unit) == (pytest.approx(95.25), pytest.approx(88.9), "mm")
    assert finding.utilization == pytest.approx(3.75 / 3.5)


@pytest.mark.parametrize("stroke, kind", [("3.5 in", PASS), ("88.9 mm", PASS), ("3.5001 in", FAIL), ("88.901 mm", FAIL)])
def test_a_limit_met_exactly_passes_in_either_system(tmp_path, stroke, kind):
    rules = rules_of(tmp_path, decorated(STROKE))
    finding, = only(report_of(f"crank: {{stroke: {stroke}}}\n", rules), "stroke-stays-short-enough")
    assert finding.kind == kind


@pytest.mark.parametrize("runout, kind, message", [
    ("0.10 mm", FAIL, "keep 0.076 mm"), ("0.0763 mm", FAIL, "0.0763 mm, keep 0.0762 mm"), ("0.0762 mm", PASS, ""), ("0.004 in", FAIL, "keep 0.0030 in"),
], ids=["rounded as it is read", "rounded no further than they differ", "judged as it stands", "in its own unit"])
def test_a_limit_of_another_unit_is_shown_as_it_is_read_and_judged_as_it_stands(tmp_path, runout, kind, message):
    rules = rules_of(tmp_path, decorated('''
        def flywheel_runs_well_enough(flywheel_runout: Length, *, most: Length = q("0.003 in")):
            """A trial."""
            return at_most(flywheel_runout, most)
        ''', says='"{value}, keep {most}"', conforming='""', nonconforming='"x"'))
    finding, = only(report_of(f"flywheel: {{runout: {runout}}}\n", rules), "flywheel-runs-well-enough")
    assert finding.kind == kind and message in finding.message
    assert finding.limit == pytest.approx(0.0762 if "mm" in runout else 0.003)


def test_a_missing_input_leaves_the_rule_open_and_says_where_to_write_it(tmp_path):
    rules = rules_of(tmp_path, decorated(STROKE))
    finding, = only(report_of("crank: {material: forged_4340}\n", rules), "stroke-stays-short-enough")
    assert finding.kind == OPEN and finding.missing == ("crank.stroke",)
    assert finding.place.line == 1 and finding.pointer == "/crank"


def test_a_word_that_only_formulas_give_is_missing_by_its_inputs(tmp_path):
    rules = rules_of(tmp_path, decorated('''
        def margin_is_kept_well(spring_coil_bind_margin: Length):
            """A trial."""
            return at_least(spring_coil_bind_margin, q("0.050 in"))
        ''', scope='"side"', says='"{value}"', conforming='""', nonconforming='"x"'))
    found = only(report_of("intake: {spring: {installed_height: 1.8 in}, lobe: {lift: 0.3 in}}\nrockers: {ratio: 1.6}\n", rules),
                 "margin-is-kept-well")
    assert {finding.scope: finding.missing for finding in found}[("intake",)] == ("intake.spring.solid_height",)


def test_a_crashed_rule_is_a_finding_of_its_own_and_hides_nothing(tmp_path):
    crash = '''
        def stroke_breaks_down(crank_stroke: Length):
            """A trial."""
            return at_most(crank_stroke, crank_stroke / 0)
        '''
    rules = rules_of(tmp_path, decorated(STROKE) + "\n\n" + decorated(crash))
    report = report_of("crank: {stroke: 4 in}\n", rules)
    assert report.crashed == ("stroke-breaks-down",)
    assert only(report, "stroke-stays-short-enough")[0].kind == FAIL
    crashed, = only(report, "rule-runs-to-its-end")
    assert "ZeroDivisionError" in crashed.message and crashed.level == "error"


@pytest.mark.parametrize("body", ["raise RecursionError", "raise MemoryError", "assert False", "raise KeyError('x')", "return None"])
def test_whatever_a_rule_raises_the_others_are_asked(tmp_path, body):
    crash = f'''
        def stroke_breaks_down(crank_stroke: Length):
            """A trial."""
            {body}
        '''
    rules = rules_of(tmp_path, decorated(crash) + "\n\n" + decorated(STROKE))
    report = report_of("crank: {stroke: 4 in}\n", rules)
    assert report.crashed == ("stroke-breaks-down",)
    assert only(report, "stroke-stays-short-enough")[0].kind == FAIL


def test_a_verdict_on_what_is_not_a_number_breaks_the_rule_and_never_passes(tmp_path):
    crash = '''
        def stroke_is_not_a_number(crank_stroke: Length):
            """A trial."""
            return at_most(float("nan"), crank_stroke)
        '''
    report = report_of("crank: {stroke: 4 in}\n", rules_of(tmp_path, decorated(crash)))
    assert report.crashed == ("stroke-is-not-a-number",)


def test_a_rule_is_asked_for_each_cylinder_where_its_word_is_a_list(tmp_path):
    rules = rules_of(tmp_path, decorated('''
        def bore_is_large_enough(block_bore: Length):
            """A trial."""
            return at_least(block_bore, q("4.030 in"))
        ''', says='"{block_bore} is less than {limit}."', scope='"cylinder"'))
    text = "engine: {cylinders: 3}\nblock:\n  bore:\n    - 4.030 in\n    - 4.029 in\n    - 4.031 in\n"
    found = only(report_of(text, rules), "bore-is-large-enough")
    assert [(finding.scope, finding.kind) for finding in found] == [
        (("cylinder 2",), FAIL), (("cylinder 1",), PASS), (("cylinder 3",), PASS)]
    assert found[0].place.line == 5


def test_what_every_cylinder_says_of_one_line_is_said_once(tmp_path):
    rules = rules_of(tmp_path, decorated('''
        def taper_stays_small_enough(block_bore_taper: Length, block_bore_out_of_round: Length):
            """A trial."""
            return at_most(block_bore_taper, q("0.001 in"))
        ''', says='"{value}"', conforming='""', nonconforming='"x"'))
    found = only(report_of("block: {bore_taper: 0.002 in, bore_out_of_round: [0.0003 in, 0.0004 in]}\n", rules), "taper-stays-small-enough")
    assert [(finding.kind, finding.scope) for finding in found] == [(FAIL, ())]


def test_what_some_cylinders_say_of_one_line_is_said_once_with_their_numbers(tmp_path):
    rules = rules_of(tmp_path, decorated('''
        def taper_stays_small_enough(block_bore_taper: Length, block_bore_out_of_round: Length):
            """A trial."""
            if block_bore_out_of_round < q("0.0002 in"):
                return passes()
            return at_most(block_bore_taper, q("0.001 in"))
        ''', says='"{value}"', conforming='""', nonconforming='"x"'))
    found = only(report_of("block: {bore_taper: 0.002 in, bore_out_of_round: [0.0003 in, 0.0001 in, 0.0004 in]}\n", rules), "taper-stays-small-enough")
    assert [(finding.kind, finding.scope) for finding in found] == [(FAIL, ("cylinder 1, 3",)), (PASS, ("cylinder 2",))]


def test_conditions_say_not_applicable_or_open(tmp_path):
    body = '''
        def stroke_suits_the_fuel(crank_stroke: Length):
            """A trial."""
            return at_most(crank_stroke, q("3.5 in"))
        '''
    rules = rules_of(tmp_path, decorated(body, when='{"fuel": ("methanol",), "boost_pressure": given}', says='"{value}"'))
    name = "stroke-suits-the-fuel"
    kinds = [only(report_of(text, rules), name)[0].kind for text in (
        "crank: {stroke: 4 in}\nbuild: {fuel: e85}\n",
        "crank: {stroke: 4 in}\n",
        "crank: {stroke: 4 in}\nbuild: {fuel: methanol}\n",
        "crank: {stroke: 4 in}\nbuild: {fuel: methanol}\nboost: {pressure: 10 psi}\n")]
    assert kinds == [NOT_APPLICABLE, OPEN, NOT_APPLICABLE, FAIL]


REMINDER = '''
        def marks_are_looked_at(crank_stroke: Length = None):
            """A trial."""
            return review()
        '''


def test_a_reminder_waits_for_its_sign_off(tmp_path):
    rules = rules_of(tmp_path, decorated(REMINDER, level='"reminder"', due='"assembly"', says='"Look at the marks."', nonconforming=None))
    waiting, = only(report_of("build: {stage: planning}\n", rules), "marks-are-looked-at")
    assert waiting.kind == REVIEW and waiting.message == "Look at the marks."
    signed, = only(report_of("assembly: {signed: [{check: marks-are-looked-at, by: RM, on: 2026-05-01}]}\n", rules), "marks-are-looked-at")
    assert signed.kind == PASS and "RM" in signed.message


def test_an_unsigned_reminder_is_overdue_from_its_stage_on(tmp_path):
    rules = rules_of(tmp_path, decorated(REMINDER, level='"reminder"', due='"assembly"', says='"Look at the marks."', nonconforming=None))
    levels = {stage: [finding.level for finding in only(report_of("assembly: {stand_rating: 1250 lb}\n", rules, stage), "due-reminders-are-signed")]
              for stage in ("mock_up", "assembly", "handover")}
    assert levels == {"mock_up": [], "assembly": ["warning"], "handover": ["warning"]}


def test_an_overdue_input_is_one_warning_and_an_absent_heading_one_note(tmp_path):
    rules = rules_of(tmp_path, decorated(STROKE))
    begun, = only(report_of("crank: {material: forged_4340}\n", rules, "ordering"), "due-inputs-are-written")
    assert (begun.level, begun.missing) == ("warning", ("crank.stroke",))
    absent, = only(report_of("rods: {length: 6 in}\n", rules, "ordering"), "due-inputs-are-written")
    assert (absent.level, absent.missing) == ("note", ("crank",))
    assert not only(report_of("crank: {material: forged_4340}\n", rules, "planning"), "due-inputs-are-written")


def test_what_must_be_written_by_a_stage_fails_from_it_on(tmp_path):
    rules = rules_of(tmp_path, decorated('''
        def stroke_names_its_crank(crank_stroke: Length, crank_material: Choice = None):
            """A trial."""
            return passes() if crank_material else wanting("crank_material")
        ''', due='"assembly"', says='"No material."'))
    kinds = [(only(report_of("crank: {stroke: 4 in}\n", rules, stage), "stroke-names-its-crank")[0].kind) for stage in ("mock_up", "assembly")]
    assert kinds == [OPEN, FAIL]


def test_the_few_inputs_that_settle_most_are_named():
    findings = [Finding(f"rule-{number}", "valvetrain", OPEN, "none", (), "", missing=missing) for number, missing in enumerate(
        [("a",), ("a",), ("a", "b"), ("a", "b"), ("c", "d", "e", "f")])]
    first = unlocks(findings)[0]
    assert first == (("a", "b"), 4)


def test_the_order_of_rules_does_not_change_what_is_found():
    text = "engine: {cylinders: 8, firing_order: [1, 8, 4, 3, 6, 5, 7, 7], stated_displacement: 400 in^3}\nblock: {bore: 4.03 in}\ncrank: {stroke: 3.75 in}\n"
    some = road.rules()[:12]
    reports = {report_of(text, list(order)).findings for order in itertools.islice(itertools.permutations(some), 0, 40, 7)}
    assert len(reports) == 1


def test_words_say_what_was_meant_when_a_rule_misspells_one(tmp_path):
    from buildlint import consistency

    rules = rules_of(tmp_path, decorated('''
        def stroke_is_misspelt(crank_stoke: Length):
            """A trial."""
            return passes()
        '''))
    with pytest.raises(Exception, match="crank_stoke is no word.*did you mean crank_stroke"):
        consistency.check(rules, road.ways(), road.words(), road.joint_names())


def test_a_rule_with_another_dimension_than_the_schema_is_refused(tmp_path):
    from buildlint import consistency

    rules = rules_of(tmp_path, decorated('''
        def stroke_is_a_force(crank_stroke: Force):
            """A trial."""
            return passes()
        '''))
    with pytest.raises(Exception, match="crank_stroke is a length, not a force"):
        consistency.check(rules, road.ways(), road.words(), road.joint_names())


@pytest.mark.parametrize("change, said", [
    ({"scope": '"engine"'}, "scope"), ({"level": '"fatal"'}, "level"), ({"due": '"someday"'}, "stage"),
    ({"source": '""'}, "source"), ({"says": '""'}, "says"), ({"nonconforming": None}, "nonconforming"),
])
def test_a_rule_that_lacks_something_is_refused_with_file_and_name(tmp_path, change, said):
    with pytest.raises(Exception, match=f"trial.py.*stroke-stays-short-enough.*{said}"):
        rules_of(tmp_path, decorated(STROKE, **change))


def test_a_module_that_cannot_be_imported_is_named(tmp_path):
    with pytest.raises(Exception, match="trial.py: cannot be loaded: NameError"):
        rules_of(tmp_path, "undefined_name\n")


def test_two_rules_of_one_name_are_refused(tmp_path):
    from buildlint import rulebook

    rules = rules_of(tmp_path, decorated(STROKE))
    with pytest.raises(rulebook.RulebookError, match="already stands"):
        rulebook.refuse_twins(rules + rules)


def test_formulas_that_run_in_a_circle_are_refused():
    from buildlint import consistency
    from buildlint.dimensions import Length
    from buildlint.formulas import formula_of

    def chicken(egg: Length) -> Length:
        return egg

    def egg(chicken: Length) -> Length:
        return chicken

    circle = {"chicken": [formula_of(chicken)], "egg": [formula_of(egg)]}
    with pytest.raises(Exception, match="circle"):
        consistency.check([], circle, road.words())


GAPS = "build: {duty: street_strip, induction: natural}\nblock: {bore: 4.030 in}\nrings:\n  top: {end_gap: [%s]}\n"


@pytest.mark.parametrize(("gaps", "scopes", "line"), [
    ("0.017 in, 0.019 in, 0.017 in, 0.019 in", ["top ring cylinder 1", "top ring cylinder 3"], ""),
    ("0.017 in, 0.016 in, 0.017 in, 0.019 in", ["top ring cylinder 1 to 3"], "That is cylinder 2, the worst of them."),
    ("0.016 in, 0.016 in, 0.019 in, 0.016 in", ["top ring cylinder 1, 2 and 4"], ""),  # all alike: none is the worst
    ("0.017 in, 0.016 in, 0.017 in, 0.013 in", ["top ring cylinder 4", "top ring cylinder 1 to 3"], "cylinder 2, the worst"),  # an error is told by itself
])
def test_what_several_values_of_a_list_break_is_told_once_by_the_worst(gaps, scopes, line):
    report = road.check("build.yaml", text=(GAPS % gaps).encode())
    found = [finding for finding in report.findings if finding.rule == "top-ring-gap-suits-duty" and finding.kind == FAIL]
    assert [" ".join(finding.scope) for finding in found] == scopes
    assert line in found[-1].message and ("worst" in found[-1].message) == bool(line)
    if line:
        assert found[-1].value == pytest.approx(0.016)
