"""What a builder found who read every line: what must be said once, what must stay unsaid, and in which words.

Small specs in text; each names the rule it asks and what that rule answers. Whole builds stand in the tests of the areas.
"""

import re

import pytest

from buildlint import road
from buildlint.model import FAIL
from specs_in_text import report_of

RULES = {rule.id: rule for rule in road.rules()}


def said(rule, text, stage=None):
    """(level, message, fix) of every failure of one rule."""
    report = report_of(text, chosen=[RULES[rule]], stage=stage)
    assert not [finding for finding in report.findings if finding.kind == "crash"]
    return [(finding.level, finding.message, finding.fix) for finding in report.findings if finding.kind == FAIL and finding.rule == rule]


def overdue(text, stage):
    """The messages about inputs that are due."""
    return [finding.message for finding in report_of(text, stage=stage).findings if finding.rule == "due-inputs-are-written"]


PLAIN = """
build: {stage: assembly, rev_limit: 5200 rpm, duty: stock}
crank: {stroke: 3.000 in, original_stroke: 3.000 in}
pistons: {crown: dish, compression_height: 1.605 in, pin: {outside_diameter: 0.912 in}}
oiling: {pan: {capacity: 4 qt}}
damper: {kind: bonded_rubber}
flywheel: {kind: flexplate, material: steel}
ignition: {spark_plug: {gap: 0.044 in}}
intake: {valve: {head_diameter: 1.780 in}}
rings: {oil: {crown_to_groove_bottom: 0.90 in}}
"""


@pytest.mark.parametrize("word", [
    "certified", "made_for_stroke", "lash_cap", "support_rail", "spark_plug.piston_gap",
])
def test_a_plain_rebuild_is_not_asked_for_what_it_does_not_have(word):
    assert not [message for message in overdue(PLAIN, "assembly") if word in message]


@pytest.mark.parametrize("old, new, word", [
    ("rev_limit: 5200 rpm", "rev_limit: 7600 rpm", "damper.certified"),
    ("rev_limit: 5200 rpm", "rev_limit: 7600 rpm", "flywheel.certified"),
    ("duty: stock", "duty: stock, sanction: club drag racing rules", "damper.certified"),
    ("stroke: 3.000 in, original", "stroke: 3.400 in, original", "made_for_stroke"),
    ("crown_to_groove_bottom: 0.90 in", "crown_to_groove_bottom: 1.20 in", "support_rail"),
    ("head_diameter: 1.780 in", "lash_cap: fitted", "lash_cap_to_lock_gap"),
])
def test_what_an_engine_needs_to_tell_is_still_asked_for(old, new, word):
    assert old in PLAIN
    assert [message for message in overdue(PLAIN.replace(old, new), "assembly") if word in message]


@pytest.mark.parametrize("crown, kind", [("dome", "open"), ("dish", "notApplicable"), ("flat", "notApplicable")])
def test_the_plug_is_measured_to_a_dome_only(crown, kind):
    report = report_of(PLAIN.replace("crown: dish", f"crown: {crown}"), chosen=[RULES["plug-tip-clears-piston"]])
    assert {finding.kind for finding in report.findings if finding.rule == "plug-tip-clears-piston"} == {kind}


HEAD = "joints: {head: {kind: stud, thread: 7/16-20, hole_thread: 7/16-14, strength_class: 190_ksi, lubricant: moly_paste, " \
       "face_lubricant: moly_paste, torque_given_for: moly_paste, torque_source: maker, torque: %s}}"


@pytest.mark.parametrize("torque, level, doubt", [("65 lbf-ft", None, None), ("70 lbf-ft", None, None), ("85 lbf-ft", "note", "wins over this estimate"),
                                                  ("100 lbf-ft", "warning", "No maker goes so far")])
def test_a_maker_is_believed_but_not_a_slip_of_the_pen(torque, level, doubt):
    found = said("bolt-stays-below-yield", HEAD % torque)
    assert [one[0] for one in found] == ([level] if level else [])
    assert all(doubt in one[1] for one in found)


DRY = HEAD.replace("lubricant: moly_paste, face_lubricant: moly_paste", "lubricant: dry, face_lubricant: dry")


def test_a_dry_thread_is_called_dry():
    (level, message, fix), = said("torque-belongs-to-lubricant-used", DRY % "65 lbf-ft", "assembly")
    assert level == "error" and "but the thread is dry: the tension" in message and "the torque with a dry thread" in fix


@pytest.mark.parametrize("dowels, found", [
    ("dowels_per_bank: 1", ["warning"]), ("dowels_per_bank: 2", []), ("dowels_per_bank: 0", []),
    ("dowels_per_bank: 1, dowel_holes_per_bank: 2", ["error"]), ("dowels_per_bank: 0, dowel_holes_per_bank: 0", []),
])
def test_a_lone_dowel_is_seen(dowels, found):
    text = f"block: {{{dowels}}}\njoints: {{head: {{kind: bolt}}}}"
    assert [one[0] for one in said("head-dowels-are-fitted", text)] == found


@pytest.mark.parametrize("washer, found", [("{kind: hardened_flat, count: 18}", ["error"]), ("{kind: hardened_flat, count: 20}", []),
                                           ("{kind: integral_flange, count: 0}", []), ("{kind: hardened_flat}", [])])
def test_short_washers_are_counted_with_the_fasteners(washer, found):
    text = f"heads: {{per_engine: 2, holes_per_head: 10}}\njoints: {{head: {{count: 20, washer: {washer}}}}}"
    got = said("head-fastener-count-matches-pattern", text)
    assert [one[0] for one in got] == found
    assert all("18 washers are written for 20 head fasteners" in one[1] and "2 more" in one[2] for one in got)


PRELOAD = "lifters: {kind: hydraulic_flat, plunger: standard_travel, plunger_travel: 0.160 in, preload: 0.120 in}\nrockers: {%s}"


@pytest.mark.parametrize("rockers, remedy", [
    ("ratio: 1.6, adjustment: stud_nut", "turn the adjuster out"), ("ratio: 1.6, adjustment: none_net_lash", "a pushrod shorter"),
    ("ratio: 1.6, adjustment: stud_nut, adjuster_thread: 3/8-24", "Turn the adjuster 1."),
])
def test_preload_is_put_right_where_it_is_set(rockers, remedy):
    found = said("preload-suits-the-lifter", PRELOAD % rockers, "assembly")
    assert len(found) == 1 and all(remedy in fix for _, _, fix in found)


def test_tested_springs_are_not_called_untested():
    text = "build: {stage: mock_up}\nintake: {spring: {seat_load: 150 lbf, open_load: 396 lbf%s}}"
    (_, message, _), = said("spring-load-is-measured", text % ", tested_on: 2026-03-09")
    assert "were tested on 2026-03-09" in message and "have not been tested" not in message
    (_, message, _), = said("spring-load-is-measured", text % "")
    assert "have not been tested" in message


def test_locks_of_another_angle_are_told_without_what_is_not_written():
    (_, message, _), = said("locks-match-the-retainer", "intake: {retainer: {angle: 7 deg}, locks: {angle: 10 deg}}")
    assert "not written" not in message and "10 deg" in message and "7 deg" in message


SMALL = """
build: {induction: natural, duty: street}
bearings:
  main: {clearance: %s, journal_diameter: %s}
  rod: {clearance: %s, journal_diameter: %s}
oiling: {grade: %s}
"""


@pytest.mark.parametrize("row, level", [
    (("0.045 mm", "54.0 mm", "0.040 mm", "47.6 mm", "15W-40"), None),
    (("0.0018 in", "2.45 in", "0.0016 in", "2.10 in", "15W-40"), "warning"),
    (("0.0031 in", "2.749 in", "0.0027 in", "2.199 in", "15W-40"), None),
    (("0.0031 in", "2.45 in", "0.0027 in", "2.10 in", "15W-40"), "note"),
], ids=["small journals", "usual journals, tight", "large journals", "usual journals, wide"])
def test_the_oil_is_judged_by_the_clearance_for_the_journal(row, level):
    assert [one[0] for one in said("oil-grade-suits-clearance", SMALL % row)] == ([level] if level else [])


def test_oil_pressure_is_told_in_the_unit_it_is_written_in():
    text = "build: {rev_limit: 6000 rpm}\noiling: {grade: 15W-40, pressure_hot: 3.2 bar}"
    (_, message, _), = said("oil-pressure-suits-speed", text, "handover")
    assert "kPa" not in message and "4.14 bar" in message


@pytest.mark.parametrize("bore, load, level", [("81.5 mm", "260 N", None), ("81.5 mm", "200 N", "warning"), ("101.6 mm", "260 N", "warning")])
def test_a_small_engine_keeps_its_light_springs(bore, load, level):
    text = f"build: {{duty: street}}\nblock: {{bore: {bore}}}\nlifters: {{kind: solid_flat}}\nintake: {{spring: {{seat_load: {load}}}}}"
    assert [one[0] for one in said("seat-load-suits-lifter", text)] == ([level] if level else [])


GAPS = "build: {duty: drag_race, induction: natural}\nnitrous: {power: 200 hp}\nblock: {bore: 4.155 in}\n" \
       "rings: {top: {end_gap: %s}, second: {end_gap: %s}}"


@pytest.mark.parametrize("top, second, spoken", [
    ("0.0290 in", "0.031 in", set()),
    ("0.0285 in", "0.031 in", {"top-ring-gap-suits-duty"}),
    ("0.0220 in", "0.031 in", {"top-ring-gap-suits-duty"}),
    ("0.0290 in", "0.024 in", {"second-ring-gap-exceeds-top"}),
], ids=["within what a gauge shows", "half a thousandth short", "gapped for natural", "second smaller than top"])
def test_one_wrong_ring_gap_is_told_once(top, second, spoken):
    names = ("top-ring-gap-suits-duty", "second-ring-gap-suits-duty", "second-ring-gap-exceeds-top")
    assert {name for name in names if said(name, GAPS % (top, second), "mock_up")} == spoken


def test_a_regulator_without_its_hose_is_told_once():
    text = "build: {induction: turbocharged}\nboost: {pressure: 10 psi}\nfuel_system: {delivery: port_injection, regulator: bypass, " \
           "regulator_reference: atmosphere, return_line: fitted%s}"
    names = ("fuel-regulator-suits-the-pump", "fuel-pressure-follows-manifold")
    assert [len(said(name, text % ", pressure: 58 psi")) for name in names] == [0, 1]
    assert [len(said(name, text % "")) for name in names] == [1, 0]


@pytest.mark.parametrize("base, level", [("1.470 in", None), ("1.480 in", "warning"), ("1.490 in", "error")])
def test_a_cam_that_just_passes_its_bearings_is_no_error(base, level):
    text = f"camshaft: {{base_circle_diameter: {base}}}\nbearings: {{cam: {{journal_diameter: 2.165 in}}}}\nintake: {{lobe: {{lift: 0.341 in}}}}"
    assert [one[0] for one in said("cam-lobes-pass-the-bearings", text)] == ([level] if level else [])


def test_the_order_is_counted_in_plain_english():
    text = "engine: {cylinders: 8}\nheads: {per_engine: 2}\norder: {items: [{item: valve_lock, quantity: 16}, {item: head_gasket, quantity: 1}]}"
    messages = [message for _, message, _ in said("quantity-suits-the-engine", text)]
    assert messages == ["16 valve locks are on the order; the engine takes 32.", "1 head gasket is on the order; the engine takes 2."]


def test_an_old_damper_has_years():
    (_, message, _), = said("damper-is-young-enough", "damper: {kind: bonded_rubber, age: 20 year}")
    assert "20 years old; above 10 years" in message


def test_an_assumed_seat_of_the_gasket_bears_only_a_note():
    text = "block: {bore: 4.125 in, bore_chamfer: 0.015 in}\nhead_gasket: {bore: 4.165 in%s}"
    assert [one[0] for one in said("gasket-bead-clears-bore-chamfer", text % "")] == ["note"]
    assert [one[0] for one in said("gasket-bead-clears-bore-chamfer", text % ", locating_slack: 0.010 in")] == ["warning"]


PISTONS = "build: {duty: stock, induction: natural}\nblock: {bore: 4.030 in}\npistons: {class: cast, nominal_bore: %s, wall_clearance: 0.0018 in}"


@pytest.mark.parametrize("nominal, found", [("4.030 in", []), ("4.000 in", ["error"]), ("4.040 in", ["error"])])
def test_pistons_of_another_size_are_seen(nominal, found):
    assert [one[0] for one in said("piston-clearance-suits-alloy", PISTONS % nominal, "machining")] == found


@pytest.mark.parametrize("joint, found", [("kind: bolt, thread: M10x1.25, hole_thread: M10x1.5", ["error"]),
                                          ("kind: bolt, thread: M10x1.25, hole_thread: M10x1.25", []),
                                          ("kind: stud, thread: M10x1.25, hole_thread: M10x1.5", [])])
def test_a_bolt_has_one_thread(joint, found):
    assert [one[0] for one in said("threads-of-a-pair-match", f"joints: {{head: {{{joint}}}}}")] == found


NOTHING_LEFT = """
build: {stage: ordering, duty: street, induction: natural, fuel: pump_gasoline, peak_torque_speed: 3200 rpm}
engine: {layout: inline, cylinders: 4, stated_compression_ratio: 9.3:1}
block: {bore: 81.50 mm, deck_height: 212.0 mm}
crank: {stroke: 89.5 mm}
rods: {length: 139.7 mm, material: steel}
pistons: {crown: dish, dish_volume: 4.5 cc, dome_volume: 0 cc, compression_height: 37.2 mm}
heads: {material: cast_iron, chamber_volume: 36 cc, chamber_kind: bathtub}
head_gasket: {compressed_thickness: 1.2 mm, bore: 83.0 mm}
timing_set: {wanted_centerline: 108 deg}
camshaft: {lobe_separation: 110 deg}
intake: {lobe: {centerline: 108 deg, advertised_duration: 262 deg}}
fuel_system: {octane: 95, octane_scale: ron}
ignition: {total_advance: 34 deg}
"""


def test_a_slip_in_the_deck_height_gives_no_ratio_below_nothing():
    failed = [finding for finding in report_of(NOTHING_LEFT).findings if finding.kind == FAIL]
    assert "piston-stays-near-the-deck" in {finding.rule for finding in failed}
    assert not [finding.message for finding in failed if re.search(r"-\d[\d.]*:1|\dj\b", finding.message)]
    assert not {"knock-margin-is-ranked", "trapped-ratio-keeps-low-end", "stated-ratio-matches-parts"} & {finding.rule for finding in failed}


def test_a_thin_pocket_floor_and_a_narrow_land_are_told_once():
    build = """
        build: {induction: turbocharged}
        intake:
          valve: {head_diameter: 2.165 in}
          pocket: {diameter: 2.290 in, floor_thickness: 0.190 in, edge_to_groove: 0.070 in}
        """
    about = [rule for rule in RULES if said(rule, build) and "pocket" in rule]
    assert about == ["valve-pocket-clears-ring-groove", "pocket-floor-keeps-thickness"]


@pytest.mark.parametrize("metal, casting, volts", [
    ("stainless", "cast_iron", 0.35), ("stainless", "aluminum_cast", 0.40), ("steel", "aluminum_319", None), ("steel", "magnesium", 0.90),
])
def test_metals_differ_by_the_public_anodic_index(metal, casting, volts):
    """18-percent chromium steel 0.50 V, iron and steel 0.85, aluminum 0.90, magnesium 1.75, as the public tables have it."""
    found = said("wetted-metals-suit-each-other",
                 f"joints: {{thermostat_housing: {{kind: bolt, metal: {metal}, hole: {{material: {casting}}}, environment: normal, thread_product: none}}}}")
    assert [float(re.search(r"by ([0-9.]+) volts", message).group(1)) for _, message, _ in found] == ([volts] if volts else [])


def test_the_label_of_e85_covers_what_its_standard_covers():
    rule = RULES["ethanol-content-is-stated"]
    assert "51 to 83 percent" in rule.says and "51 to 83 percent" in rule.source


def test_classes_of_bolts_have_the_least_tensile_strength_of_their_standard():
    """ISO 898-1 as public extracts have it, in MPa; 8.8 above 16 mm has its own row."""
    from buildlint.tables.fasteners import ISO_8_8_ABOVE, STRENGTH_CLASSES

    found = [STRENGTH_CLASSES[name][2] / 1e6 for name in ("iso_8_8", "iso_9_8", "iso_10_9", "iso_12_9")]
    assert found == pytest.approx([800, 900, 1040, 1220]) and ISO_8_8_ABOVE[2] / 1e6 == pytest.approx(830)


def test_the_line_between_gasoline_and_diesel_lies_below_the_diesel_of_its_standard():
    """EN 590: 820 to 845 kg/m3 at 15 degC; gasolines end at 775."""
    assert 775 < RULES["spark-engine-burns-spark-fuel"].limits["heaviest"] < 820


@pytest.mark.parametrize("share, coldest, found", [
    (0.5, "-33 degF", []), (0.5, "-36 degF", ["50.5 %"]), (0.2, "-20 degF", ["43.4 %"]), (0.6, "-70 degF", [None]),
])
def test_coolant_tells_the_glycol_it_needs(share, coldest, found):
    build = f"build: {{duty: street, ambient_coldest: {coldest}}}\ncooling: {{coolant: {{glycol_fraction: {share}}}}}\n"
    needed = [re.search(r"up to ([0-9.]+ %)", fix) for _, _, fix in said("coolant-stands-the-cold", build)]
    assert [match and match.group(1) for match in needed] == found
