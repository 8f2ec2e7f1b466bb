"""Whole builds on the camshaft's side of the valvetrain: good ones are left alone, flawed ones are found line by line.

The specs stand in ``specs/camshaft``. In a flawed one the end of a line says what must be found on it:
``# <- level rule scope; level rule scope``, and nothing else of these rules may be reported.
"""

from pathlib import Path

import pytest
from marked_builds import expected

from buildlint import road
from buildlint.model import FAIL, OPEN, REVIEW

SPECS = Path(__file__).parent / "specs" / "camshaft"
TOPICS = {
    "cam_card", "cam_durations", "cam_lift", "cam_lobes", "cam_gear", "cam_bearings", "timing_set", "lifter_kind", "lifter_bore",
    "roller_lifters", "roller_conversion", "lash", "preload", "oil_feed", "break_in", "float_speed", "valve_clearances", "piston_to_valve",
    "valve_pockets", "pump_drive", "lobe_followers", "cam_position", "lifter_limits", "run_in", "oil_pump_drive",
}
RULES = [rule for rule in road.rules() if rule.area == "valvetrain" and Path(rule.file).stem in TOPICS]


def reported(path):
    """{(line, level, rule, scope)} of what these rules report of a spec, and the whole report."""
    report = road.check(path, chosen=RULES)
    own = {(found.place.line, found.level, found.rule, " ".join(found.scope)) for found in report.findings
           if found.kind == FAIL and found.area == "valvetrain"}
    return own, report


GOOD = sorted(path for path in SPECS.glob("*.yaml") if not path.stem.endswith("_flawed"))
FLAWED = sorted(SPECS.glob("*_flawed.yaml"))


def test_there_are_eight_pairs_and_all_rules_of_the_topics():
    assert len(GOOD) == len(FLAWED) == 8
    assert [f"{path.stem}_flawed" for path in GOOD] == [path.stem for path in FLAWED]
    assert len(RULES) == 73


@pytest.mark.parametrize("path", GOOD, ids=lambda path: path.stem)
def test_a_good_build_is_left_alone(path):
    own, report = reported(path)
    assert own == expected(path) == set()
    assert not report.crashed
    assert not [found for found in report.findings if found.area == "spec" and found.level in ("error", "warning")], "a slip in the spec itself"


@pytest.mark.parametrize("path", [path for path in GOOD if path.stem != "high_lift_lobe_table"], ids=lambda path: path.stem)
def test_a_finished_build_leaves_nothing_open_and_nothing_unsigned(path):
    """All but the one that is about to be ordered are far enough that every rule due by now must have its answer."""
    _, report = reported(path)
    waiting = {(found.rule, found.missing) for found in report.findings
               if found.kind in (OPEN, REVIEW) and found.rule not in ("drain-backs-are-open", "cam-bearings-feed-oil")}
    assert not waiting
    if report.stage in ("assembly", "handover"):
        assert not [found for found in report.findings if found.kind == REVIEW]


@pytest.mark.parametrize("path", FLAWED, ids=lambda path: path.stem)
def test_every_flaw_is_found_where_it_stands_and_nothing_else(path):
    own, report = reported(path)
    wanted = expected(path)
    assert len(wanted) >= 6
    assert own - wanted == set(), "reported but not marked"
    assert wanted - own == set(), "marked but not reported"
    assert not report.crashed


def test_the_eight_flawed_builds_together_meet_most_rules():
    met = {rule for path in FLAWED for _, _, rule, _ in expected(path)}
    assert len(met) >= 48, sorted({rule.id for rule in RULES if rule.level != "reminder"} - met)


def text_of(name, *changes):
    text = (SPECS / f"{name}.yaml").read_text(encoding="utf-8")
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return text


def answers(text, rule):
    report = road.check("changed.yaml", text=text.encode(), chosen=[one for one in RULES if one.id == rule])
    return {(" ".join(found.scope), found.kind, found.level) for found in report.findings if found.rule == rule}


def test_a_measured_gap_wins_over_what_lobe_and_crank_give():
    shallow = ("depth: 0.090 in, floor_thickness: 0.200 in", "depth: 0.030 in, floor_thickness: 0.200 in")
    text = text_of("high_lift_lobe_table", shallow)
    assert ("intake", "fail", "error") in answers(text, "piston-clears-the-valve")
    clayed = text.replace("  card_lash: 0.016 in\n", "  card_lash: 0.016 in\n  piston_gap: {measured: 0.085 in, by: TK, on: 2026-07-01}\n")
    assert ("intake", "pass", "none") in answers(clayed, "piston-clears-the-valve")


def test_measured_drops_stand_in_for_pockets_and_gaskets():
    """The drop to contact at each crank angle, less what the tabulated lobe opens: no head, gasket or pocket is needed."""
    drops = "  drop_table: [[-20 deg, %s in], [-10 deg, %s in], [0 deg, %s in], [10 deg, %s in], [20 deg, %s in], [30 deg, %s in]]\n"
    near = drops % ("0.330", "0.236", "0.205", "0.236", "0.330", "0.486")
    far = drops % ("0.390", "0.296", "0.265", "0.296", "0.390", "0.546")
    bare = text_of("high_lift_lobe_table", ("recess: 0.140 in, mass: 92 g", "mass: 92 g"))
    assert ("intake", "open", "none") in answers(bare, "piston-clears-the-valve")
    for table, answer in ((near, ("intake", "fail", "error")), (far, ("intake", "pass", "none"))):
        text = bare.replace("intake:\n  card_lash", "intake:\n" + table + "  card_lash")
        assert answer in answers(text, "piston-clears-the-valve")


def test_a_gap_from_two_durations_is_never_an_error():
    text = text_of("high_lift_lobe_table", ("depth: 0.110 in, floor_thickness: 0.210 in", "depth: 0.001 in, floor_thickness: 0.210 in"))
    assert ("exhaust", "fail", "warning") in answers(text, "piston-clears-the-valve")


def test_aluminum_rods_want_more_room():
    text = text_of("high_lift_lobe_table", ("rods: {material: steel,", "rods: {material: aluminum,"))
    assert ("intake", "fail", "warning") in answers(text, "piston-clears-the-valve")


def test_a_cam_degreed_elsewhere_is_judged_where_it_stands():
    """Retarded six degrees, the exhaust of the estimated lobe comes too near; the card's centerline would have passed."""
    text = text_of("high_lift_lobe_table", ("wanted_centerline: 109 deg", "wanted_centerline: 115 deg"))
    assert ("exhaust", "fail", "warning") in answers(text, "piston-clears-the-valve")
    assert ("intake", "pass", "none") in answers(text, "piston-clears-the-valve")


def test_pumped_up_lifters_are_an_error_only_beyond_the_share_of_float_speed():
    shallow = ("piston_gap: [0.112 in, 0.118 in, 0.114 in, 0.116 in, 0.113 in, 0.117 in, 0.115 in, 0.114 in]", "piston_gap: 0.060 in")
    slow = text_of("hydraulic_roller", shallow)
    fast = slow.replace("rev_limit: 6500 rpm", "rev_limit: 7400 rpm")
    for text, wanted in ((slow, {"warning"}), (fast, {"warning", "error"})):  # one cylinder's plunger is less deep
        found = {level for scope, kind, level in answers(text, "piston-clears-pumped-lifter") if scope.startswith("intake") and kind == "fail"}
        assert found == wanted


def test_a_much_smaller_base_circle_asks_for_a_look_where_the_heights_are_not_written():
    text = text_of("roller_conversion", ("replaced_base_circle_diameter: 1.150 in", "replaced_base_circle_diameter: 1.250 in"),
                   ("oil_band_bottom: 0.62 in, oil_band_top: 1.02 in, feed_height: 1.40 in, bore_bottom: 1.00 in, bore_top: 2.00 in, ", ""))
    assert answers(text, "lifter-band-stays-fed") == {("intake", "review", "none"), ("exhaust", "review", "none")}


def test_a_shop_that_trusts_less_sets_its_own_limit(tmp_path):
    """The limits are the shop's: with 0.100 in asked of the intake a gap of 0.090 in is reported."""
    (tmp_path / ".git").mkdir()
    (tmp_path / "shop.yaml").write_text("limits:\n  piston-clears-the-valve: {warning_below: {intake: 0.120 in}}\n", encoding="utf-8")
    spec = tmp_path / "build.yaml"
    spec.write_text(text_of("high_lift_lobe_table"), encoding="utf-8")
    report = road.check(spec, chosen=[rule for rule in RULES if rule.id == "piston-clears-the-valve"])
    assert [(found.level, found.scope) for found in report.findings if found.rule == "piston-clears-the-valve" and found.kind == FAIL] == [
        ("warning", ("intake",))]
