"""Whole builds of an invented shop, sound and flawed: centrifugal, lobe and screw blowers, a turbo, nitrous, a boat's heat,
a street car with air conditioning, a bracket car without, an automatic; with exactly the findings they deserve.

What is expected stands in the builds themselves: a line that must be reported ends with ``# <- level rule scope`` (more of
them parted by semicolons), and nothing else may be reported by the rules of cooling, boost, exhaust, accessories and the
general ones.
"""

import re
from pathlib import Path

import marked_builds
import pytest
from marked_builds import expected, reported, strange

from buildlint import road
from buildlint.model import FAIL, OPEN

FOLDER = Path(__file__).parent / "specs" / "boost"
BUILDS = sorted(FOLDER.glob("*.yaml"))
SOUND = [path for path in BUILDS if not path.stem.endswith("_flawed")]
AREAS = ("cooling", "boost", "exhaust", "accessories", "general")
RULES = {rule.id: rule for rule in road.rules() if rule.area in AREAS}


def report_of(path):
    return marked_builds.report_of(path, RULES)


def changed(name, *pairs):
    """What is said of a build with some of its text replaced: {(level, rule)}, and the findings by rule."""
    text = (FOLDER / f"{name}.yaml").read_text(encoding="utf-8")
    for old, new in pairs:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    findings = [finding for finding in road.check("changed.yaml", text=text.encode(), chosen=list(RULES.values())).findings
                if finding.kind == FAIL and finding.rule in RULES]
    return {(finding.level, finding.rule) for finding in findings}, {finding.rule: finding for finding in findings}


@pytest.mark.parametrize("path", BUILDS, ids=[path.stem for path in BUILDS])
def test_a_build_is_told_exactly_what_is_wrong_with_it(path):
    assert reported(report_of(path), RULES) == expected(path)


@pytest.mark.parametrize("path", SOUND, ids=[path.stem for path in SOUND])
def test_a_sound_build_is_clean_has_nothing_overdue_and_every_reminder_signed(path):
    report = report_of(path)
    assert [finding.message for finding in report.findings if finding.kind == FAIL] == []
    assert not expected(path)


@pytest.mark.parametrize("path", BUILDS, ids=[path.stem for path in BUILDS])
def test_a_build_is_read_whole(path):
    """No key is misspelt and no quantity unreadable: every finding comes from a rule."""
    assert not strange(report_of(path), RULES)


def test_there_are_sound_and_flawed_builds_of_every_kind():
    assert len(SOUND) >= 8 and len(BUILDS) == 2 * len(SOUND)
    told = {rule for path in BUILDS for _, _, rule, _ in expected(path)}
    assert told <= set(RULES)
    assert len(told) >= 45
    for area in AREAS:
        assert sum(RULES[rule].area == area for rule in told) >= 5


# -- the numbers in a fix: done as told, the finding is gone ------------------------------------------------------


def number(text, unit):
    """The first number before a unit in a fix."""
    return float(re.search(rf"([\d.]+) {re.escape(unit)}", text)[1])


def test_the_boost_that_is_told_settles_the_ratio():
    _, said = changed("centrifugal_street", ("pressure: 9 psi", "pressure: 14 psi"))
    pounds = number(said["charged-ratio-suits-fuel"].fix, "psi")
    assert 9 < pounds < 14
    assert "charged-ratio-suits-fuel" not in changed("centrifugal_street", ("pressure: 9 psi", f"pressure: {pounds - 0.05:.2f} psi"))[1]


def test_the_pulley_that_is_told_brings_the_rotor_below_its_limit():
    _, said = changed("methanol_screw_drag", ("blower_pulley: 4.4 in", "blower_pulley: 3.6 in"))
    inches = number(said["blower-rotor-stays-below-limit"].fix, "in")
    assert "blower-rotor-stays-below-limit" not in changed("methanol_screw_drag", ("blower_pulley: 4.4 in", f"blower_pulley: {inches + 0.001:.3f} in"))[1]


def test_the_pulley_that_is_told_makes_the_stated_boost():
    _, said = changed("roots_street_strip", ("pressure: 6 psi\n", "pressure: 12 psi\n"))
    inches = number(said["blower-drive-gives-stated-pressure"].fix, "in")
    levels, _ = changed("roots_street_strip", ("pressure: 6 psi\n", "pressure: 12 psi\n"), ("blower_pulley: 6.6 in", f"blower_pulley: {inches} in"))
    assert not any(rule == "blower-drive-gives-stated-pressure" for _, rule in levels)


def test_the_cap_and_the_temperature_that_are_told_keep_the_margin():
    hot = ("temperature_highest: 225 degF", "temperature_highest: 250 degF")
    _, said = changed("centrifugal_street", hot, ("pressure: 18 psi, placed", "pressure: 13 psi, placed"))
    fix = said["coolant-stays-below-boiling"].fix
    pounds, degrees = number(fix, "psi"), number(fix, "degF")
    assert "coolant-stays-below-boiling" not in changed("centrifugal_street", hot, ("pressure: 18 psi, placed", f"pressure: {pounds + 0.1:.1f} psi, placed"))[1]
    assert "coolant-stays-below-boiling" not in changed(
        "centrifugal_street", ("temperature_highest: 225 degF", f"temperature_highest: {degrees - 0.6:.1f} degF"),
        ("pressure: 18 psi, placed", "pressure: 13 psi, placed"))[1]


def test_the_flow_that_is_told_carries_the_heat():
    _, said = changed("marine_heat", ("flow: 95 gal/min", "flow: 60 gal/min"))
    gallons = number(said["coolant-flow-carries-the-heat"].fix, "gal/min")
    assert "coolant-flow-carries-the-heat" not in changed("marine_heat", ("flow: 95 gal/min", f"flow: {gallons + 1:.0f} gal/min"))[1]


def test_the_speed_that_is_told_is_safe_when_a_shift_is_missed():
    _, said = changed("centrifugal_street", ("stated_valvetrain_speed: 7000 rpm", "stated_valvetrain_speed: 6800 rpm"))
    speed = number(said["overspeed-stays-within-limits"].fix, "rpm")
    lower = ("  rev_limit: 6300 rpm", f"  rev_limit: {speed:.0f} rpm")
    assert "overspeed-stays-within-limits" not in changed("centrifugal_street", ("stated_valvetrain_speed: 7000 rpm", "stated_valvetrain_speed: 6800 rpm"), lower)[1]


# -- what only meets across the parts --------------------------------------------------------------------------------


UNDERDRIVEN = ("underdrive: 0 %, pulley_diameter: 6.9 in, drives: [alternator, water_pump, power_steering, air_conditioning]",
               "underdrive: 25 %, pulley_diameter: 5.6 in, drives: [alternator, water_pump, power_steering]")


def test_a_damper_without_the_groove_refuses_the_compressor_on_the_order_and_not_the_rest():
    levels, said = changed("street_with_air_conditioning", UNDERDRIVEN)
    assert levels == {("error", "deleted-items-leave-nothing-behind")}
    assert said["deleted-items-leave-nothing-behind"].scope == ("air_conditioning item",)
    gone = ("    - {item: air_conditioning, quantity: 1}\n", "")
    levels, said = changed("street_with_air_conditioning", UNDERDRIVEN, gone)
    assert said["deleted-items-leave-nothing-behind"].scope == ("damper item",)  # still fitted
    assert changed("street_with_air_conditioning", UNDERDRIVEN, gone, (
        "fitted_accessories: [alternator, water_pump, power_steering, air_conditioning, fan]",
        "fitted_accessories: [alternator, water_pump, power_steering, fan]\n  deleted_accessories: [air_conditioning]"), (
        "laid_out_for: [alternator, water_pump, power_steering, air_conditioning, fan]", "laid_out_for: [alternator, water_pump, power_steering, fan]"))[0] == set()


def test_the_shot_counts_in_the_clutch_and_the_altitude_in_the_cap():
    manual = ("transmission: automatic", "transmission: manual"), ("converter: {stall: 3400 rpm, cooler: fitted}", "clutch: {capacity: 640 lbf-ft}")
    levels, said = changed("nitrous_plate", *manual)
    assert levels == {("warning", "clutch-carries-the-torque")}
    assert "645" in said["clutch-carries-the-torque"].message
    assert changed("nitrous_plate", *manual, ("counted_in_peak_power: no", "counted_in_peak_power: yes"))[0] == set()
    high = ("altitude_highest: 4000 ft", "altitude_highest: 13000 ft"), ("pressure: 18 psi, placed", "pressure: 12 psi, placed")
    assert changed("centrifugal_street", *high)[0] == {("note", "coolant-stays-below-boiling")}
    assert changed("centrifugal_street", high[1])[0] == set()


def test_a_speed_is_held_against_the_nearest_that_is_written():
    levels, said = changed("turbo_street", ("  shift_speed: 5800 rpm\n", ""), ("  rev_limit: 6000 rpm", "  rev_limit: 5300 rpm"))
    assert ("error", "speeds-stand-in-order") in levels
    assert "The limiter stands at 5300 rpm, the power peak at 5400 rpm" in said["speeds-stand-in-order"].message


def test_an_induction_that_contradicts_its_compressor_is_told():
    levels, said = changed("turbo_street", ("induction: turbocharged", "induction: supercharged"))
    assert ("warning", "build-states-duty-and-fuel") in levels
    assert said["build-states-duty-and-fuel"].message == "The engine is written as supercharged, and its compressor as turbo."


def test_a_missing_octane_is_one_line_beside_the_fuel_and_a_note_where_nothing_of_fuel_is_written():
    report = road.check("part.yaml", text=b"build: {duty: street, induction: natural, fuel: e10, rev_limit: 5500 rpm}\nfuel_system: {pressure: 6 psi}\n",
                        chosen=[RULES["build-states-duty-and-fuel"]])
    (only,) = [finding for finding in report.findings if finding.kind == FAIL]
    assert (only.level, only.missing) == ("warning", ("fuel_system.octane",))
    report = road.check("part.yaml", text=b"build: {duty: street, induction: natural, fuel: e10, rev_limit: 5500 rpm}\n",
                        chosen=[RULES["build-states-duty-and-fuel"]])
    (only,) = [finding for finding in report.findings if finding.kind == FAIL]
    assert (only.level, only.missing) == ("note", ("fuel_system",))


def test_nothing_of_boost_is_asked_of_an_engine_without_it():
    report = report_of(FOLDER / "marine_heat.yaml")
    assert not [finding for finding in report.findings if finding.kind == OPEN and finding.area == "boost"]


def test_an_electric_pump_hangs_on_the_alternator_and_a_mechanical_one_does_not():
    tired = ("rated_current: 130 A", "rated_current: 95 A")
    assert changed("street_with_air_conditioning", tired)[0] == set()
    levels, said = changed("street_with_air_conditioning", tired, ("pump: {kind: mechanical}", "pump: {kind: electric}"))
    assert levels == {("warning", "alternator-feeds-the-pumps")}
    amperes = number(said["alternator-feeds-the-pumps"].fix, "A")
    assert changed("street_with_air_conditioning", ("rated_current: 130 A", f"rated_current: {amperes + 1:.0f} A"),
                   ("pump: {kind: mechanical}", "pump: {kind: electric}"))[0] == set()


def test_a_switch_that_is_not_written_is_asked_for_and_one_that_is_left_out_is_refused():
    rule = RULES["nitrous-has-safety-switches"]
    assert not rule.permits and rule.caution
    unwritten = road.check("part.yaml", text=b"build: {stage: ordering}\nnitrous: {power: 150 hp, speed_low: 3000 rpm}\n", chosen=[rule])
    assert {finding.missing for finding in unwritten.findings if finding.kind == FAIL} == {
        ("nitrous.full_throttle_switch",), ("nitrous.fuel_pressure_switch",)}
    assert ("error", "nitrous-has-safety-switches") in changed("nitrous_plate", ("fuel_pressure_switch: fitted", "fuel_pressure_switch: none"))[0]
