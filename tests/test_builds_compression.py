"""Whole builds of an invented shop, sound and flawed, with exactly the findings they deserve of compression, air, fuel and spark.

What is expected stands in the builds themselves: a line that must be reported ends with ``# <- level rule scope`` (more of
them parted by semicolons), and nothing else may be reported by the rules of these three areas.
"""

from pathlib import Path

import marked_builds
import pytest
from marked_builds import expected, reported, strange

from buildlint import road
from buildlint.model import FAIL, NOT_APPLICABLE, OPEN

FOLDER = Path(__file__).parent / "specs" / "compression"
BUILDS = sorted(FOLDER.glob("*.yaml"))
SOUND = [path for path in BUILDS if not path.stem.endswith("flawed")]
FLAWED = [path for path in BUILDS if path.stem.endswith("flawed")]
AREAS = ("compression", "air_and_fuel", "ignition")
RULES = {rule.id: rule for rule in road.rules() if rule.area in AREAS}


def report_of(path):
    return marked_builds.report_of(path, RULES)


@pytest.mark.parametrize("path", BUILDS, ids=[path.stem for path in BUILDS])
def test_a_build_is_told_exactly_what_is_wrong_with_it(path):
    assert reported(report_of(path), RULES) == expected(path)


@pytest.mark.parametrize("path", SOUND, ids=[path.stem for path in SOUND])
def test_a_sound_build_is_clean_and_has_nothing_overdue(path):
    report = report_of(path)
    assert not [finding for finding in report.findings if finding.kind == FAIL], "not even a note"


@pytest.mark.parametrize("path", BUILDS, ids=[path.stem for path in BUILDS])
def test_a_build_is_read_whole(path):
    """No key is misspelt and no quantity unreadable: every finding comes from a rule."""
    assert not strange(report_of(path), RULES)


def test_there_is_a_flawed_build_beside_every_sound_one():
    assert len(SOUND) >= 8
    assert {path.stem + "_flawed" for path in SOUND} == {path.stem for path in FLAWED}


def test_the_marks_name_rules_that_exist():
    for path in BUILDS:
        assert {rule for _, _, rule, _ in expected(path)} <= set(RULES)


def test_every_rule_of_error_level_is_answered_by_some_build():
    """A rule that no whole build ever reaches was tested on its own examples only."""
    answered = {finding.rule for path in BUILDS for finding in report_of(path).findings if finding.kind not in (OPEN, NOT_APPLICABLE)}
    assert {rule.id for rule in RULES.values() if rule.level == "error"} <= answered


# -- both sides of a limit, in whole builds ------------------------------------------------------------------


def asked(build, rule, *pairs):
    """(level, message, fix) of each failure of one rule in a build with some of its text changed."""
    text = (FOLDER / f"{build}.yaml").read_text(encoding="utf-8")
    for old, new in pairs:
        assert text.count(old) == 1, (old, text.count(old))
        text = text.replace(old, new)
    report = road.check("changed.yaml", text=text.encode(), chosen=[RULES[rule]])
    return [(finding.level, finding.message, finding.fix) for finding in report.findings if finding.kind == FAIL and finding.rule == rule]


SIDES = [
    ("pump_fuel_street", "stated-ratio-matches-parts", "ratio: 10.2:1", "ratio: 10.48:1", None),
    ("pump_fuel_street", "stated-ratio-matches-parts", "ratio: 10.2:1", "ratio: 10.53:1", "warning"),
    ("pump_fuel_street", "stated-ratio-matches-parts", "ratio: 10.2:1", "ratio: 10.8:1", "error"),
    ("pump_fuel_street", "trapped-ratio-suits-fuel", "octane: 91", "octane: 87", None),
    ("pump_fuel_street", "trapped-ratio-suits-fuel", "material: aluminum_356_t6", "material: cast_iron", "note"),
    ("pump_fuel_street", "trapped-ratio-suits-fuel", "closes_after_bottom_advertised: 64 deg", "closes_after_bottom_advertised: 50 deg", "warning"),
    ("pump_fuel_street", "octane-numbers-are-consistent", "octane: 91", "octane: 94", None),
    ("pump_fuel_street", "octane-numbers-are-consistent", "octane: 91", "octane: 95", "note"),
    ("pump_fuel_street", "octane-numbers-are-consistent", "octane: 91", "octane: 96", "warning"),
    ("pump_fuel_street", "octane-numbers-are-consistent", "octane: 91", "octane: 98", "error"),
    ("pump_fuel_street", "flow-bench-bore-matches", "bore: 4.030 in}\nhead_gasket", "bore: 4.125 in}\nhead_gasket", None),
    ("pump_fuel_street", "flow-bench-bore-matches", "bore: 4.030 in}\nhead_gasket", "bore: 4.130 in}\nhead_gasket", "warning"),
    ("pump_fuel_street", "fuel-pressure-suits-delivery", "pressure: 6.5 psi", "pressure: 8 psi", None),
    ("pump_fuel_street", "fuel-pressure-suits-delivery", "pressure: 6.5 psi", "pressure: 8.1 psi", "warning"),
    ("pump_fuel_street", "total-advance-suits-chamber", "total_advance: 34 deg", "total_advance: 38 deg", None),
    ("pump_fuel_street", "total-advance-suits-chamber", "total_advance: 34 deg", "total_advance: 38.1 deg", "warning"),
    ("pump_fuel_street", "total-advance-suits-chamber", "total_advance: 34 deg", "total_advance: 25.9 deg", "note"),
    ("pump_fuel_street", "plug-tip-clears-piston", "piston_gap: 0.140 in", "piston_gap: 1.0 mm", None),
    ("pump_fuel_street", "plug-tip-clears-piston", "piston_gap: 0.140 in", "piston_gap: 0.99 mm", "warning"),
    ("pump_fuel_street", "plug-tip-clears-piston", "piston_gap: 0.140 in", "piston_gap: 0.79 mm", "error"),
    ("pump_fuel_street", "mixture-suits-class", "full_load_lambda: 0.88", "full_load_lambda: 0.94", None),
    ("pump_fuel_street", "mixture-suits-class", "full_load_lambda: 0.88", "full_load_lambda: 0.941", "warning"),
    ("pump_fuel_street", "correction-factor-is-plausible", "correction_factor: 1.0136", "correction_factor: 1.023", None),
    ("pump_fuel_street", "correction-factor-is-plausible", "correction_factor: 1.0136", "correction_factor: 1.025", "warning"),
    ("turbo_street", "mixture-suits-class", "full_load_lambda: 0.80", "full_load_lambda: 0.87", None),
    ("turbo_street", "mixture-suits-class", "full_load_lambda: 0.80", "full_load_lambda: 0.88", "warning"),
    ("turbo_street", "mixture-suits-class", "full_load_lambda: 0.80", "full_load_lambda: 0.91", "error"),
    ("turbo_street", "fuel-regulator-suits-the-pump", "regulator_reference: manifold", "regulator_reference: controller_modeled", "warning"),
    ("turbo_street", "injector-duty-leaves-reserve", "injector_flow: 80 lb/h", "injector_flow: 62 lb/h", None),
    ("turbo_street", "injector-duty-leaves-reserve", "injector_flow: 80 lb/h", "injector_flow: 60 lb/h", "note"),
    ("turbo_street", "injector-duty-leaves-reserve", "injector_flow: 80 lb/h", "injector_flow: 57 lb/h", "warning"),
    ("turbo_street", "injector-duty-leaves-reserve", "injector_flow: 80 lb/h", "injector_flow: 51 lb/h", "error"),
    ("turbo_street", "fuel-pump-has-margin", "[40 psi, 118 gal/h], [60 psi, 106 gal/h], [80 psi, 92 gal/h]", "[40 psi, 80 gal/h], [60 psi, 72 gal/h]", "warning"),
    ("turbo_street", "trigger-frequency-suits-controller", "frequency_limit: 10 kHz", "frequency_limit: 6.2 kHz", "warning"),
    ("nitrous_street_strip", "advance-falls-with-charge", "retard: 6 deg, ", "", "error"),
    ("nitrous_street_strip", "fuel-pump-has-margin", "fuel_from: main_system", "fuel_from: own_system", None),
    ("roots_boost", "carburetor-suits-air-demand", "count: 2, flow: 600", "count: 2, flow: 300", "warning"),
    ("inline_six_carburetor", "carburetor-suits-air-demand", "flow: 300 ft^3/min", "flow: 190 ft^3/min", "warning"),
]


@pytest.mark.parametrize("build, rule, old, new, level", SIDES, ids=[f"{build} {rule} {new[:40]}" for build, rule, _, new, _ in SIDES])
def test_a_limit_has_two_sides(build, rule, old, new, level):
    assert [found[0] for found in asked(build, rule, (old, new))] == ([level] if level else [])


@pytest.mark.parametrize("build, rule, pair, slip", [
    pytest.param("pump_fuel_street", "stated-ratio-matches-parts", ("ratio: 10.2:1", "ratio: 11.6:1"), "dish or dome entered with the wrong sign", id="dish"),
    pytest.param("pump_fuel_street", "stated-ratio-matches-parts", ("ratio: 10.2:1", "ratio: 11.4:1"), "gasket left out on one side", id="gasket"),
    pytest.param("turbo_street", "stated-ratio-matches-parts", ('ratio: "9.5:1"', 'ratio: "9.9:1"'), "dish, dome or pockets left out on one side", id="crown"),
    pytest.param("pump_fuel_street", "octane-numbers-are-consistent", ("octane: 91", "octane: 98"), "It fits as octane_scale: ron", id="octane"),
])
def test_a_finding_names_the_single_likely_slip(build, rule, pair, slip):
    (_, message, fix), = asked(build, rule, pair)
    assert slip in message + fix


@pytest.mark.parametrize("build, rule, pair, number", [
    pytest.param("pump_fuel_street", "stated-ratio-matches-parts", ("ratio: 10.2:1", "ratio: 9.5:1"), "chamber of 71.0 cc", id="chamber to reach the ratio"),
    pytest.param("pump_fuel_street", "stated-ratio-matches-parts", ("ratio: 10.2:1", "ratio: 9.5:1"), "gasket of 0.0708 in", id="gasket to reach the ratio"),
    pytest.param("turbo_street", "injector-duty-leaves-reserve", ("injector_flow: 80 lb/h", "injector_flow: 51 lb/h"), "injectors of 62 lb/h", id="injector size"),
    pytest.param("nitrous_street_strip", "advance-falls-with-charge", ("retard: 6 deg, ", ""), "about 6.0 deg", id="retard of a shot"),
    pytest.param("pump_fuel_street", "carburetor-suits-air-demand", ("flow: 650", "flow: 350"), "507 ft^3/min to 800 ft^3/min", id="carburetor size"),
])
def test_a_fix_carries_the_number_to_order(build, rule, pair, number):
    (_, _, fix), = asked(build, rule, pair)
    assert number in fix, fix


def test_units_do_not_change_a_verdict():
    """The same engine with its lengths in millimeters and its pressures in kilopascals."""
    pairs = [("bore: 4.030 in}\ncrank: {stroke: 3.480 in}", "bore: 102.362 mm}\ncrank: {stroke: 88.392 mm}"), ("pressure: 6.5 psi", "pressure: 44.816 kPa"),
             ("peak_power: 390 hp\n", "peak_power: 290.82 kW\n"), ("gap: 0.040 in, tip", "gap: 1.016 mm, tip")]
    text = (FOLDER / "pump_fuel_street.yaml").read_text(encoding="utf-8")
    for old, new in pairs:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    report = road.check("metric.yaml", text=text.encode(), chosen=list(RULES.values()))
    assert not [finding.message for finding in report.findings if finding.kind == FAIL]
