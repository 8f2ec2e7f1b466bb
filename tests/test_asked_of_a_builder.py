"""What a builder would not have is not asked of him, and what the trade lets pass is let pass; the fault beside it is still told."""

import pytest

from buildlint import road
from buildlint.model import FAIL, OPEN


def said(text, rule):
    """What is said of a rule: the levels it fails at, and "open" where it still waits."""
    found = [finding for finding in road.check("build.yaml", text=text.encode()).findings if finding.rule == rule]
    assert found, rule
    return sorted({finding.level if finding.kind == FAIL else "open" for finding in found if finding.kind in (FAIL, OPEN)})


ASSEMBLY = "build: {stage: assembly, duty: %s}\n"
DRY = ASSEMBLY % "road_race" + "oiling: {sump: %s}\nblock: {main_caps_history: fasteners_changed}\njoints: {main: {kind: stud}}\n"
STROKED = "crank: {stroke: 3.75 in, original_stroke: 3.48 in%s}\nrods: {pan_gap: 0.10 in}\noiling: {cooler: none}\n"
LEADS = "engine: {layout: %s, cylinders: %s, firing_order: %s}\nignition: {spark_source: distributor}\n"
LASH = "lifters: {kind: solid_flat}\nblock: {material: cast_iron}\nheads: {material: aluminum_319}\nintake: {lash_cold: 0.25 mm, card_lash: 0.25 mm, card_lash_state: %s}\n"
PULLEY = "damper: {kind: %s, original: %s, interference: %s}\njoints: {damper: {kind: bolt}}\n"
SHAFT = "build: {duty: %s}\nrockers: {mount: shaft, bearing: plain_shaft, shaft_clearance: %s}\nintake: {valve: {condition: new}}\n"
RUNNERS = ("build: {stage: assembly, induction: natural, peak_torque_speed: 5400 rpm, peak_power_speed: 7000 rpm}\n"
           "induction: {manifold: {runner_length: %s}}\n")
ALTERNATOR = ("build: {duty: %s, idle_speed: 1200 rpm, rev_limit: 7600 rpm}\ndamper: {pulley_diameter: 110 mm}\nfuel_system: {pump: {kind: electric}}\n"
              "accessories: {alternator: {pulley_diameter: %s, electric_load: 60 A, rated_current: %s, speed_limit: 16000 rpm}}\n")
FOUR = ("build: {peak_cylinder_pressure: 13 MPa}\nblock: {head_bolts_per_cylinder: 4}\n"
        "joints: {head: {kind: stud, strength_class: 220_ksi, thread: %s, hole_thread: 1/2-13}}\n")
DEGREED = "build: {stage: assembly}\nengine: {cylinders: 8}\ntiming_set: {wanted_centerline: 108 deg, installed_centerline: {measured: %s, by: RM, on: 2026-05-13}}\n"
HEAT = "build: {duty: street, peak_power: 745 kW, full_load_time: %s}\ncooling: {radiator: {heat_rejection: 190 kW}}\n"


@pytest.mark.parametrize(("text", "rule", "expected"), [
    (DRY % "dry", "oil-pickup-clears-the-pan", []), (DRY % "wet", "oil-pickup-clears-the-pan", ["open"]),
    (DRY % "dry", "main-stud-change-is-followed-up", []), (DRY % "wet", "main-stud-change-is-followed-up", ["open"]),
    (STROKED % ", pan_gap: 0.10 in", "oil-pan-clears-the-stroke", []), (STROKED % "", "oil-pan-clears-the-stroke", ["open"]),
    (LEADS % ("inline", 4, "[1, 3, 4, 2]"), "neighbour-leads-are-separated", []),
    (LEADS % ("inline", 6, "[1, 5, 3, 6, 2, 4]"), "neighbour-leads-are-separated", []),
    (LEADS % ("v", 8, "[1, 8, 4, 3, 6, 5, 7, 2]"), "neighbour-leads-are-separated", ["open"]),
    (LASH % "cold", "cold-lash-follows-from-hot", []), (LASH % "hot", "cold-lash-follows-from-hot", ["note"]),
    (PULLEY % ("solid_hub", "solid_hub", "0 mm"), "damper-grips-the-snout", []),
    (PULLEY % ("solid_hub", "solid_hub", "-0.1 mm"), "damper-grips-the-snout", ["error"]),
    (PULLEY % ("bonded_rubber", "bonded_rubber", "0 mm"), "damper-grips-the-snout", ["error"]),
    (SHAFT % ("stock", "0.0012 in"), "rocker-runs-free-on-shaft", []), (SHAFT % ("stock", "0.0007 in"), "rocker-runs-free-on-shaft", ["warning"]),
    (SHAFT % ("stock", "0.0003 in"), "rocker-runs-free-on-shaft", ["error"]), (SHAFT % ("road_race", "0.0012 in"), "rocker-runs-free-on-shaft", ["error"]),
    (RUNNERS % "300 mm", "runner-length-suits-power-range", []),
    (RUNNERS % "300 mm, tuning_method: resonator", "runner-length-suits-power-range", ["open"]),
    (RUNNERS % "300 mm, tuning_method: constant_product", "runner-length-suits-power-range", []),
    (ALTERNATOR % ("road_race", "90 mm", "100 A"), "alternator-speed-suits-engine", []),
    (ALTERNATOR % ("street", "90 mm", "100 A"), "alternator-speed-suits-engine", ["warning"]),
    (ALTERNATOR % ("road_race", "50 mm", "100 A"), "alternator-speed-suits-engine", ["warning"]),
    (ALTERNATOR % ("road_race", "90 mm", "100 A"), "alternator-feeds-the-pumps", []),
    (ALTERNATOR % ("drag_race", "90 mm", "100 A"), "alternator-feeds-the-pumps", ["warning"]),
    (ALTERNATOR % ("road_race", "90 mm", "50 A"), "alternator-feeds-the-pumps", ["warning"]),
    (FOUR % "1/2-20", "head-fasteners-suit-pressure", []), (FOUR % "7/16-20", "head-fasteners-suit-pressure", ["warning"]),
    (DEGREED % "[108 deg, null, null, null, null, 108.5 deg]", "installed-centerline-matches-card", []),
    (DEGREED % "[108 deg, null, null, null, null, 111 deg]", "installed-centerline-matches-card", ["error"]),
    (HEAT % "12 s", "radiator-rejects-the-heat", []), (HEAT % "60 s", "radiator-rejects-the-heat", ["warning"]),
])
def test_a_rule_asks_what_a_builder_has(text, rule, expected):
    assert said(text, rule) == expected


def test_a_cam_is_degreed_on_a_cylinder_or_two_and_no_more_is_missed():
    report = road.check("build.yaml", text=(DEGREED % "[108 deg, null, null, null, null, 111 deg]").encode())
    told = {(finding.rule, finding.scope) for finding in report.findings if finding.kind == FAIL}
    assert told == {("installed-centerline-matches-card", ("cylinder 6",))} | {one for one in told if one[0].startswith("due-")}
    assert "timing_set.installed_centerline" not in {path for finding in report.findings for path in finding.missing}


@pytest.mark.parametrize(("duty", "asked"), [("stock", False), ("street", True)])
def test_a_stock_rebuild_is_not_asked_to_measure_what_its_maker_settled(duty, asked):
    text = (f"build: {{stage: assembly, duty: {duty}}}\nrockers: {{mount: shaft, class: production_shaft, ratio: 1.5, %s}}\n"
            "pushrods: {length: 188 mm}\nlifters: {kind: solid_flat}\n")
    missing = {path for finding in road.check("build.yaml", text=(text % "tip: shoe").encode()).findings
               if finding.rule == "due-inputs-are-written" and finding.level == "warning" for path in finding.missing}
    assert ({"pushrods.zero_lash_length", "rockers.retainer_gap_open"} <= missing) == asked
    assert not asked or missing
    wrong = road.check("build.yaml", text=(text % "retainer_gap_shut: 0 mm, retainer_gap_open: 0 mm").encode()).findings
    assert "error" in {finding.level for finding in wrong if finding.rule == "rocker-clears-the-retainer"}  # what is written is judged
