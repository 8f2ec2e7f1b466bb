"""The order of work as data: sound in itself, fitted to an engine, and one slip in a list told once, by one rule."""

import pytest
from specs_in_text import report_of

from buildlint import road
from buildlint.model import FAIL
from buildlint.tables.build_sequence import (
    CUTTING_WORDS,
    HIDDEN_BY,
    JUDGED_ELSEWHERE,
    SHUT_IN_BY,
    STEPS,
    circle_through,
    cuts_metal,
    needed_before,
    slips,
    steps_for,
)
from buildlint.vocabulary import document

NAMES = list(STEPS)
ORDER_RULES = [rule for rule in road.rules() if rule.area == "assembly" and rule.scope == "step"]
HEAD = "build: {stage: handover}\nhead_gasket: {kind: multilayer_steel}\nrockers: {adjusted_by: top_of_firing_order}\n"


def told(steps, head=HEAD):
    """[(rule, step, level)] of the failures that rules of the order of work find in a list of steps."""
    listed = "".join(f"    - {{step: {name}}}\n" if isinstance(name, str) else f"    - {{step: {name[0]}, {name[1]}}}\n" for name in steps)
    report = report_of(head + "assembly:\n  steps:\n" + listed, chosen=ORDER_RULES)
    return [(finding.rule, finding.scope[0].removesuffix(" step"), finding.level) for finding in report.findings
            if finding.kind == FAIL and finding.area == "assembly"]


def moved(name, before=None, behind=None):
    """The usual list with one step in another place."""
    order = [step for step in NAMES if step != name]
    order.insert(order.index(before) if before else order.index(behind) + 1, name)
    return order


def test_the_steps_are_those_of_the_schema_in_its_order():
    assert NAMES == document("choices.json")["$defs"]["step"]["examples"]
    assert len(NAMES) == 56


def test_every_prerequisite_is_a_step_that_stands_before():
    for position, (name, step) in enumerate(STEPS.items()):
        assert all(NAMES.index(before) < position for before in step.requires), name
        assert step.done and not step.done.endswith("."), name


def test_tables_that_name_steps_and_rules_name_real_ones():
    assert all(step in STEPS and before in STEPS for step, before in JUDGED_ELSEWHERE)
    assert set(JUDGED_ELSEWHERE.values()) <= {rule.id for rule in road.rules()}
    assert set(SHUT_IN_BY) | set(HIDDEN_BY.values()) <= set(STEPS)
    words = road.words().words
    for shut_in in SHUT_IN_BY.values():
        for word in shut_in:
            inner = word.removeprefix("main_bearing_").removeprefix("rod_bearing_").removeprefix("intake_").removeprefix("exhaust_")
            inner = inner.split("_ring_")[-1]
            assert any(name in (word, inner) for _, name in words) or inner in road.ways(), word


def test_an_engine_leaves_out_what_it_does_not_have():
    bolts = steps_for(head_fastener="bolt")
    assert "head_studs" not in bolts and bolts["head_on"].requires == ("head_gasket", "heads_assembled")
    bare = steps_for(dowel_holes=0)
    assert "dowels" not in bare and bare["head_gasket"].requires == ("wipe_faces",)
    both = steps_for(head_fastener="bolt", dowel_holes=0)
    assert both["head_gasket"].requires == ("wipe_faces",) and both["head_on"].requires == ("head_gasket", "heads_assembled")
    assert "lifters" in steps_for(heads_cover_lifters=True)["head_on"].requires
    mushroom = steps_for(lifter_foot="mushroom")
    assert "lifters" in mushroom["cam_bearings_and_cam"].requires and "final_degree" not in mushroom["lifters"].requires
    for table in (mushroom, steps_for(heads_cover_lifters=True), steps_for(lifter_foot="mushroom", heads_cover_lifters=True)):
        order = list(table)
        assert sorted(order) == sorted(NAMES)
        assert all(order.index(before) < order.index(name) for name, step in table.items() for before in step.requires)
    assert not steps_for(layout="inline")["valley_tray_and_intake"].standard
    assert not steps_for(duty="stock")["check_piston_valve"].standard and steps_for(duty="street")["check_piston_valve"].standard
    assert not steps_for(stored=True)["first_fire"].standard
    assert steps_for() == STEPS


@pytest.mark.parametrize("listed, nearest", [
    (NAMES, {"timing_set", "final_degree"} - {"timing_set"}),
    (["timing_set", "front_cover"], {"timing_set"}),
    (["main_and_crank", "cam_bearings_and_cam", "front_cover"], {"main_and_crank", "cam_bearings_and_cam"}),
])
def test_what_must_come_before_is_found_through_steps_that_are_not_listed(listed, nearest, monkeypatch):
    monkeypatch.setattr("buildlint.tables.build_sequence.JUDGED_ELSEWHERE", {})
    assert set(needed_before("front_cover", STEPS, listed)) == nearest


@pytest.mark.parametrize("step, cuts", [
    ("machine_heads", True), ("drill_steam_holes", True), ("hone cylinders", True), ("Mill-the-intake", True), ("port_match", True),
    ("measure_bores", False), ("chase_threads", False), ("port_caps_on", False), ("final_wash", False), ("wipe_deck", False), ("", False),
])
def test_a_step_that_takes_metal_off_is_known_by_its_name(step, cuts):
    assert cuts_metal(step) is cuts


def test_words_for_cutting_are_no_standard_steps_of_other_work():
    assert not [name for name in NAMES if name.split("_")[0] in CUTTING_WORDS and name not in ("machine_block", "machine_heads")]


def test_the_usual_order_is_in_order():
    assert slips(NAMES, STEPS) == {}
    assert told(NAMES) == []


def test_an_order_quite_different_but_valid_is_in_order():
    other = ["receive_and_count", "choose_fasteners", "inspect_castings", "machine_heads", "spring_bench_test", "machine_block",
             "coat_and_mask", "pre_clean", "measure_deck_height", "order_measured_parts", "mock_up_bottom", "mock_up_cam", "mock_up_head",
             "trial_fit_intake", "trial_fit_plug_and_cover", "check_pushrod_geometry", "order_pushrods", "check_piston_valve",
             "strip_mock_up", "final_wash", "heads_assembled", "core_plugs", "gallery_plugs", "cam_bearings_and_cam", "chase_threads",
             "main_and_crank", "oil_pump_pickup", "rear_seal", "flywheel", "rings_pistons_rods", "wipe_faces", "timing_set",
             "final_degree", "lifters", "front_cover", "damper", "oil_pan", "fill_oil_filter", "dowels", "head_gasket", "head_studs",
             "head_on", "head_washers_nuts", "head_torque", "exhaust_and_plugs", "valley_tray_and_intake", "pressure_test", "pushrods",
             "rockers", "valve_adjust", "prime", "covers", "sign_off", "first_fire", "recheck_after_heat", "store_or_ship"]
    assert sorted(other) == sorted(NAMES)
    assert told(other) == []


EDGES = [(step, before) for step, row in STEPS.items() for before in row.requires]


@pytest.mark.parametrize("step, before", EDGES, ids=[f"{step} before {before}" for step, before in EDGES])
def test_a_step_taken_before_its_turn_is_told(step, before):
    found = told(moved(step, before=before))
    assert 1 <= len(found) <= 2 and len({rule for rule, _, _ in found}) == len(found)
    assert step in {where for _, where, _ in found} or JUDGED_ELSEWHERE.get((step, before)) in {rule for rule, _, _ in found}


@pytest.mark.parametrize("step, before", EDGES, ids=[f"{before} after {step}" for step, before in EDGES])
def test_a_step_that_comes_too_late_is_told_once(step, before):
    found = told(moved(before, behind=step))
    assert len(found) == 1 or (step, before) == ("head_on", "head_gasket")


@pytest.mark.parametrize("pair", JUDGED_ELSEWHERE, ids=lambda pair: f"{pair[0]} before {pair[1]}")
def test_an_order_with_a_rule_of_its_own_is_told_by_that_rule_alone(pair):
    step, before = pair
    listed = [step, before]
    head = HEAD + "block: {dowel_holes_per_bank: 2}\n"
    found = told(listed, head)
    assert [rule for rule, _, _ in found] == [JUDGED_ELSEWHERE[pair]]
    assert found[0][1] == {"head_studs": "head_gasket"}.get(step, step)


def test_one_step_far_too_late_is_one_slip():
    assert slips(moved("machine_heads", behind="mock_up_bottom"), STEPS) == {
        "machine_heads": ((), ("coat_and_mask", "spring_bench_test", "pre_clean"))}
    assert slips(moved("main_and_crank", behind="damper"), STEPS) == {
        "main_and_crank": ((), ("rear_seal", "rings_pistons_rods", "oil_pump_pickup"))}


def test_two_slips_are_two():
    order = moved("damper", before="timing_set")
    order.remove("flywheel")
    order.insert(order.index("rear_seal"), "flywheel")
    assert slips(order, STEPS) == {"damper": (("front_cover",), ()), "flywheel": (("rear_seal",), ())}


def test_a_reason_excuses_the_usual_order_but_not_what_the_spec_asks_for_itself():
    assert slips(["covers", "prime"], STEPS) and slips(["covers", "prime"], STEPS, {}, {"covers": "oil goes in through them"}) == {}
    own = {"engrave": ["paint"]}
    assert slips(["engrave", "paint"], STEPS, own, {"engrave": "no reason helps"}) == {"engrave": (("paint",), ())}


def test_a_circle_is_found_from_each_of_its_steps_and_from_no_other():
    own = {"a": ["b"], "b": ["c"], "c": ["a"], "d": ["a"]}
    assert circle_through("a", STEPS, own) == ("a", "b", "c", "a")
    assert circle_through("b", STEPS, own) == ("b", "c", "a", "b")
    assert circle_through("d", STEPS, own) == () == circle_through("oil_pan", STEPS, own)
    assert circle_through("dowels", STEPS, {"dowels": ["head_gasket"]})[0] == "dowels"


def test_steps_that_wait_for_each_other_are_told_once_where_the_spec_says_so():
    found = told(["dowels", ("wipe_faces", "after: [head_gasket]"), "head_gasket"])
    assert found == [("build-steps-form-an-order", "wipe_faces", "error")]


@pytest.mark.parametrize("after, said", [("head_torqe", "head_torque"), ("primeing", "prime")])
def test_a_prerequisite_that_does_not_exist_is_told_with_what_may_be_meant(after, said):
    report = report_of(f"assembly:\n  steps:\n    - {{step: paint, after: [{after}]}}\n", chosen=ORDER_RULES)
    finding, = [finding for finding in report.findings if finding.rule == "build-steps-form-an-order"]
    assert finding.kind == FAIL and finding.level == "error" and finding.place.line == 3
    assert said in finding.fix


def test_a_list_of_a_part_of_the_work_is_not_asked_for_the_rest():
    head_job = ["wipe_faces", "dowels", "head_gasket", "head_studs", "head_on", "head_washers_nuts", "head_torque"]
    assert told(head_job) == []
    assert told([name for name in NAMES if name != "final_degree"]) == [("standard-steps-are-present", "receive_and_count", "warning")]


def test_a_step_that_is_listed_with_a_reason_is_not_missing():
    listed = [(name, "because: the shop does not fire engines") if name == "first_fire" else name for name in NAMES]
    assert told(listed) == []


def test_a_long_block_that_is_sent_away_is_fired_by_somebody_else():
    sent = [name for name in NAMES if name not in ("first_fire", "recheck_after_heat")]
    assert told(sent) == []
    assert told([name for name in sent if name != "store_or_ship"]) == [("standard-steps-are-present", "receive_and_count", "warning")]
