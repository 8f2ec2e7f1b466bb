"""Builds written without the rules in view: what is noted of them is marked on its line, everything else leaves them alone.

Each is of a kind the other specs have none of: mechanical injection and a magneto on methanol, a carburetor prescribed by a rule
book, split pins, a dry sump and a belt to the cam, head bolts drawn into yield, two turbochargers on E85. Single mistakes of the kind shops make are then planted in them, one at a time.
"""

from pathlib import Path

import pytest
from marked_builds import OVERDUE, expected

from buildlint import road
from buildlint.model import FAIL

FOLDER = Path(__file__).parent / "specs" / "honest"
BUILDS = sorted(FOLDER.glob("*.yaml"))


def failed(text, name="build.yaml"):
    report = road.check(name, text=text.encode())
    assert not report.crashed
    return {(finding.place.line, finding.level, finding.rule, " ".join(finding.scope))
            for finding in report.findings if finding.kind == FAIL and finding.rule not in OVERDUE}


@pytest.mark.parametrize("path", BUILDS, ids=[path.stem for path in BUILDS])
def test_an_honest_build_is_left_alone_but_for_what_its_lines_say(path):
    found = failed(path.read_text(encoding="utf-8"))
    assert found == expected(path)
    assert not [one for one in found if one[1] != "note"]


@pytest.mark.parametrize(("build", "old", "new", "level", "rule"), [
    ("split_pin_v6", "30 deg, 240 deg, 270 deg", "30 deg, 210 deg, 240 deg", "error", "firing-order-suits-crank"),
    ("split_pin_v6", "banks: [[1, 3, 5], [2, 4, 6]]", "banks: [[2, 4, 6], [1, 3, 5]]", "error", "firing-order-suits-crank"),
    ("split_pin_v6", "made_for_diameter: 3.400 in", "made_for_diameter: 3.850 in", "error", "seal-fits-sleeve-diameter"),
    ("split_pin_v6", "reach: 0.460 in", "reach: 0.750 in", "error", "spark-plug-reach-fits-head"),
    ("split_pin_v6", "glycol_fraction: 0.5,", "glycol_fraction: 0.1,", "error", "coolant-stands-the-cold"),
    ("split_pin_v6", "laid_out_for: [alternator, water_pump, power_steering]", "laid_out_for: [alternator, water_pump, power_steering, air_conditioning]",
     "error", "belt-follows-its-accessories"),
    ("split_pin_v6", "rev_limit: 5400 rpm", "rev_limit: 7600 rpm", "warning", "lifter-type-suits-limiter"),
    ("restricted_circle_track", "stud_diameter: 7/16 in", "stud_diameter: 3/8 in", "error", "rocker-fits-its-stud"),
    ("restricted_circle_track", "adjuster_thread: 7/16-20", "adjuster_thread: 3/8-24", "error", "rocker-fits-its-stud"),
    ("restricted_circle_track", "sanction: \"two-barrel late model, 2025 book\"", "sanction: none", "warning", "carburetor-suits-air-demand"),
    ("dry_sump_endurance", "thread_product: ptfe_paste, stud_fit", "thread_product: none, stud_fit", "error", "open-bolt-hole-is-sealed"),
    ("dry_sump_endurance", "scavenge_flow: 150 L/min", "scavenge_flow: 60 L/min", "warning", "scavenge-outpumps-pressure-stage"),
    ("dry_sump_endurance", "dowels_per_bank: 2, dowel_holes", "dowels_per_bank: 1, dowel_holes", "error", "head-dowels-are-fitted"),
    ("dry_sump_endurance", "mock_up_fasteners: stud", "mock_up_fasteners: bolt", "note", "mock-up-clamps-as-final"),
    ("dry_sump_endurance", "lip_faces: crankcase, fitted: dry", "lip_faces: outside, fitted: dry", "error", "crank-seal-lip-faces-oil"),
    ("dry_sump_endurance", "{step: head_gasket}\n    - {step: head_studs}", "{step: head_studs}\n    - {step: head_gasket}", "warning", "gasket-precedes-the-studs"),
    ("dry_sump_endurance", "length: 123 mm", "length: 115 mm", "warning", "stud-reaches-through-its-nut"),
    ("dry_sump_endurance", "material: beryllium_copper, angle: 45 deg, width: 1.2 mm", "material: hardened_iron, angle: 45 deg, width: 1.2 mm", "warning",
     "seat-material-suits-valve"),
    ("dry_sump_endurance", "installed_centerline: {measured: [106 deg, null, null, null, null, 106 deg]",
     "installed_centerline: {measured: [106 deg, null, null, null, null, 110 deg]", "error", "installed-centerline-matches-card"),
    ("inline_four_standard_parts", "condition: new, reuse: once_only, length: 105 mm", "condition: reused, reuse: once_only, length: 105 mm", "error", "yield-bolts-are-new"),
    ("inline_four_standard_parts", "length: 105 mm", "length: 115 mm", "error", "bolt-clamps-before-bottoming"),
    ("inline_four_standard_parts", "[A3, B3, A4, B4, A2, B2, A5, B5, A1, B1]", "[A1, B1, A2, B2, A3, B3, A4, B4, A5, B5]", "error", "tightening-starts-at-the-middle"),
    ("inline_four_standard_parts", "lash_cold: 0.25 mm", "lash_cold: 0.30 mm", "note", "lash-agrees-with-card"),
    ("inline_four_standard_parts", "material: cast_iron, bolts: 6", "material: cast_iron, bolts: 8", "error", "crank-flange-matches-flywheel"),
    ("inline_four_standard_parts", "cap_numbers: [1, 2, 3, 4]", "cap_numbers: [1, 2, 4, 3]", "error", "rod-caps-return-to-their-rods"),
    ("inline_four_standard_parts", "interference: 0 mm", "interference: -0.1 mm", "error", "damper-grips-the-snout"),
    ("e85_twin_turbo", "fuel: e85", "fuel: pump_gasoline", "error", "fuel-holds-the-ethanol-it-names"),
    ("e85_twin_turbo", "regulator_reference: manifold", "regulator_reference: atmosphere", "error", "fuel-pressure-follows-manifold"),
    ("e85_twin_turbo", "manifold_sensor_range: 400 kPa", "manifold_sensor_range: 200 kPa", "error", "manifold-sensor-reads-full-pressure"),
    ("e85_twin_turbo", "bore: 103.30 mm", "bore: 101.30 mm", "error", "gasket-clears-the-bore"),
    ("e85_twin_turbo", "hc-lk-8, quantity: 32}", "hc-lk-8, quantity: 31}", "error", "quantity-suits-the-engine"),
    ("e85_twin_turbo", "torque: 150 N*m}", "torque: 150 lbf-ft}", "warning", "tapped-thread-outlasts-preload"),
    ("e85_twin_turbo", "end_gap: 0.71 mm", "end_gap: 0.36 mm", "warning", "top-ring-gap-suits-duty"),
    ("methanol_roots_drag", "total_advance: 30 deg", "total_advance: 36 deg", "error", "advance-falls-with-charge"),
    ("methanol_roots_drag", "delivery: mechanical_injection", "delivery: port_injection", "error", "fuel-pressure-follows-manifold"),
    ("methanol_roots_drag", "rocker: {kind: bolt, count: 16,", "rocker: {tip_to_obstacle: -0.02 in, kind: bolt, count: 16,", "error", "stud-end-clears-moving-parts"),
])
def test_a_mistake_planted_in_an_honest_build_is_told(build, old, new, level, rule):
    text = (FOLDER / f"{build}.yaml").read_text(encoding="utf-8")
    assert text.count(old) == 1
    assert (level, rule) in {one[1:3] for one in failed(text.replace(old, new))}


def test_an_order_that_fits_with_the_banks_the_other_way_round_says_so():
    text = (FOLDER / "split_pin_v6.yaml").read_text(encoding="utf-8").replace("banks: [[1, 3, 5], [2, 4, 6]]", "banks: [[2, 4, 6], [1, 3, 5]]")
    fix = next(finding.fix for finding in road.check("build.yaml", text=text.encode()).findings if finding.rule == "firing-order-suits-crank")
    assert "left bank first" in fix
