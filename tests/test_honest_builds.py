"""Builds written without the rules in view: what is noted of them is marked on its line, everything else leaves them alone.

Each is of a kind the other specs have none of: mechanical injection and a magneto on methanol, a carburetor prescribed by a rule
book, split pins. Single mistakes of the kind shops make are then planted in them, one at a time.
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
