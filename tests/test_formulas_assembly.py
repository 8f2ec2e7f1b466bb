"""Counts, dates, weights and stored energy of the assembly, each with its worked number."""

import datetime

import pytest
from specs_in_text import spec_of

from buildlint.formulas import counts, dates, handling
from buildlint.tables.order_items import item_called

DAY = 86400.0
POUND_FORCE, POUND_PER_INCH = 4.4482216152605, 4.4482216152605 / 0.0254
MARCH = datetime.date(2025, 3, 3)


def test_a_spring_in_its_tool_holds_ten_joules():
    """Hooke by hand: 450 lbf/in, 150 lbf on the seat (0.333 in) and 0.30 in of tool travel store 10.20 J."""
    energy = handling.spring_energy_in_tool(150 * POUND_FORCE, 450 * POUND_PER_INCH)
    assert energy == pytest.approx(10.20, abs=0.01)


def test_an_engine_of_260_kilograms_pulls_each_upper_bolt_of_the_stand_with_three_kilonewton():
    """Statics by hand: 260 kg at 0.35 m make 892.7 N m (g 9.81 rounded), two bolts 0.15 m above the lower 2976 N each."""
    moment = handling.stand_moment(260.0, 0.35)
    assert moment == pytest.approx(892.7, rel=1e-3)
    assert handling.stand_bolt_load(moment, 0.15) == pytest.approx(2976, rel=1e-3)


@pytest.mark.parametrize("lead, ready, slack, level", [
    (28, datetime.date(2025, 4, 8), 6, "warning"), (42, datetime.date(2025, 4, 22), -8, "error"), (21, datetime.date(2025, 4, 1), 13, None)])
def test_an_order_of_the_third_of_march_by_hand(lead, ready, slack, level):
    """28, 5 and 3 days from 3 March 2025 are 8 April, six days before the 14th; 42 days are eight days late."""
    altogether = dates.lead_altogether(lead * DAY, 5 * DAY, 3 * DAY)
    found = dates.ready_on__expected(MARCH, altogether)
    assert found == ready
    assert dates.slack(found, datetime.date(2025, 4, 14)) == slack * DAY


def test_a_part_of_a_day_counts_as_a_day():
    assert dates.ready_on__expected(MARCH, 0.25 * DAY) == datetime.date(2025, 3, 4)
    assert dates.ready_on__expected(MARCH, 0.0) == MARCH
    assert dates.ready_on__arrived(MARCH) == MARCH and dates.ready_on__arrived(MARCH, 2 * DAY) == datetime.date(2025, 3, 5)


def test_a_line_that_waits_for_a_measurement_goes_out_when_that_is_done_or_planned():
    done, planned = {"check_pushrod_geometry": datetime.date(2025, 3, 20)}, {"check_pushrod_geometry": datetime.date(2025, 3, 25)}
    way = dates.goes_out_on__after_measurement
    assert way("check_pushrod_geometry", done, planned, MARCH) == datetime.date(2025, 3, 20)
    assert way("check_pushrod_geometry", {}, planned, MARCH) == datetime.date(2025, 3, 25)
    assert way("check_pushrod_geometry", {}, planned, datetime.date(2025, 4, 1)) == datetime.date(2025, 4, 1)
    assert way("check_pushrod_geometry") is None
    assert dates.goes_out_on__with_the_order(MARCH) == MARCH and dates.goes_out_on__with_the_order(MARCH, "deck") is None


ORDER = """
    engine: {cylinders: 8}
    heads: {per_engine: 2, holes_per_head: 10}
    block: {mains: 5, main_fasteners_per_cap: 4, dowel_holes_per_bank: 2}
    timing_set: {cam_bolts: 3}
    assembly:
      steps:
        - {step: head_torque, needed_on: 2025-04-14}
        - {step: valley_tray_and_intake, needed_on: 2025-04-20}
    order:
      date: 2025-03-03
      items:
        - {item: head_stud, quantity: 20, lead_time: 28 days, shipping_time: 5 days, check_in_time: 3 days, needed_for: head_torque}
        - {item: intake_manifold, quantity: 1, lead_time: 70 days, needed_for: valley_tray_and_intake}
        - {item: main_fastener, quantity: 20}
        - {item: cam_bolt, quantity: 3}
        - {item: head_dowel, quantity: 4}
        - {item: damper, quantity: 1}
        - {item: sticker, quantity: 1}
    """


def test_the_item_of_a_line_finds_its_count_and_its_dates_in_a_spec():
    spec = spec_of(ORDER)
    needed = {item.name: item.value("needed").data if item.value("needed") else None for item in spec.items}
    assert needed == {"head_stud": 20, "intake_manifold": 1, "main_fastener": 20, "cam_bolt": 3, "head_dowel": 4, "damper": 1, "sticker": None}
    studs = spec.items[0]
    assert studs.value("ready_on").data == datetime.date(2025, 4, 8)
    assert studs.value("slack").data == 6 * DAY
    assert studs.value("order_by").data == datetime.date(2025, 3, 9)
    assert spec.build.value("head_fasteners_needed").data == 20


def test_the_longest_wait_of_a_long_block_is_that_of_the_part_it_needs_last():
    wait = spec_of(ORDER).build.value("longest_wait").data
    assert wait == {"line": 2, "item": "intake_manifold", "days": 22, "wanted": datetime.date(2025, 4, 20), "ready": datetime.date(2025, 5, 12)}


@pytest.mark.parametrize("change", [
    ("70 days", "20 days"), ("lead_time: 70 days, needed_for", "arrived_on: 2025-05-12, lead_time: 70 days, needed_for"),
    ("needed_for: valley_tray_and_intake", "needed_for: machine_block")])
def test_nothing_waits_when_parts_are_in_time_or_there_or_needed_before_the_block_is_together(change):
    assert spec_of(ORDER.replace(*change)).build.value("longest_wait") is None


def test_storage_lasts_from_its_first_to_its_last_day():
    assert dates.storage_time(datetime.date(2026, 2, 27), datetime.date(2026, 3, 2)) == 3 * DAY


def test_fasteners_are_fitted_once_when_their_maker_says_so_or_they_are_drawn_into_yield():
    assert counts.fitted_once__by_reuse("once_only") is True and counts.fitted_once__by_reuse("by_measured_length") is False
    assert counts.fitted_once__by_tightening("yield_angle") is True and counts.fitted_once__by_tightening("torque_angle") is None
    spec = spec_of("joints: {head: {tightening: yield_angle, reuse: by_measured_length}, rod: {tightening: yield_angle}}")
    assert spec.build.value("head_joint_fitted_once").data is False
    assert spec.build.value("rod_joint_fitted_once").data is True


def test_a_step_sees_what_is_done_wanted_and_asked_for_beside_it():
    spec = spec_of("""
        assembly:
          steps:
            - {step: dowels, by: RM, on: 2026-05-03}
            - {step: head_gasket, by: RM, after: [dowels, wipe_deck]}
            - {step: head_on, needed_on: 2026-05-09, because: it is so}
            - {step: dowels, by: RM, on: 2026-05-05}
        """)
    step = spec.steps[1]
    assert step.value("steps_done").data == {"dowels": datetime.date(2026, 5, 5)}, "done when initials and day both stand"
    assert step.value("steps_wanted_on").data == {"head_on": datetime.date(2026, 5, 9)}
    assert step.value("step_prerequisites").data["head_gasket"] == ["dowels", "wipe_deck"]
    assert step.value("step_reasons").data == {"head_on": "it is so"}
    assert spec.build.value("steps_listed_3").place.line == 5


def test_what_was_measured_is_gathered_with_hand_day_and_the_name_it_has_from_outside():
    spec = spec_of("""
        bearings: {main: {clearance: {plan: 0.0025 in, measured: [0.0025 in, 0.0026 in], by: RM, on: 2026-05-03}}}
        intake: {valve: {stem_diameter: {plan: 0.3414 in}}}
        heads: {chamber_volume: 64 cc}
        """)
    rows = {row["word"]: row for row in spec.build.value("measurements").data}
    assert set(rows) == {"main_bearing_clearance", "intake_valve_stem_diameter"}
    clearance = rows["main_bearing_clearance"]
    assert (clearance["by"], clearance["on"], len(clearance["measured"])) == ("RM", datetime.date(2026, 5, 3), 2)
    assert clearance["path"] == "bearings.main.clearance" and clearance["plan"] == pytest.approx(0.0025 * 0.0254)
    assert rows["intake_valve_stem_diameter"]["measured"] == [] and rows["intake_valve_stem_diameter"]["by"] is None


def test_a_line_of_the_order_sees_the_other_lines_and_the_parts_the_spec_names():
    spec = spec_of("""
        camshaft: {part: hc-cam-224h}
        intake: {spring: {part: sp-312}}
        joints: {head: {nut: {part: 0042}}}
        order:
          items:
            - {item: pushrod, side: intake, quantity: 8}
            - {item: head_stud, quantity: 2, per_set: 10, part: own}
        """)
    item = spec.items[1]
    assert item.value("line").data == 2
    assert [row["item"] for row in item.value("order_lines").data] == ["pushrod", "head_stud"]
    assert item.value("ordered_pieces").data == {"pushrod": 8, "head_stud": 20}
    assert item.value("parts_named").data == {"camshaft_part": "hc-cam-224h", "intake_spring_part": "sp-312", "head_joint_nut_part": "0042"}
    assert spec.build.value("order_lines_1").place.line == 6


def test_a_row_of_a_list_of_mappings_is_a_word_with_a_line_of_its_own():
    spec = spec_of("""
        assembly:
          temporary:
            - {item: clay}
            - {item: stop}
        """)
    assert spec.build.value("assembly_temporary").data[1]["item"] == "stop"
    assert spec.build.value("assembly_temporary_2").place.line == 4
    assert spec.build.value("assembly_temporary_2").pointer == "/assembly/temporary/1"


@pytest.mark.parametrize("said, item", [
    ("head gaskets", "head_gasket"), ("Rear main seal", "rear_main_seal"), ("rear-seal", "rear_main_seal"), ("nuts", "head_nut"),
    ("valve stem seals", "stem_seal"), ("timing cover seal", "front_seal"), ("camshaft", "camshaft"), ("coil of wire", "coil_of_wire")])
def test_what_builders_call_an_item_leads_to_the_item(said, item):
    assert item_called(said) == item


def test_a_list_of_work_beyond_belief_is_cut_off_and_said_so():
    spec = spec_of("assembly:\n  steps:\n" + "".join(f"    - {{step: s{number}, after: [s{number - 1}]}}\n" for number in range(1200)))
    assert len(spec.steps) == 1000
    problem, = spec.problems
    assert problem.check == "value-has-its-shape" and "1200 entries, of which the first 1000 are read" in problem.message


def test_more_joints_than_an_engine_has_are_cut_off_and_said_so():
    spec = spec_of("joints:\n" + "".join(f"  set_{number}: {{quantity: 2}}\n" for number in range(1200)))
    assert [joint.name for joint in spec.joints] == [f"set_{number}" for number in range(1000)]
    problem, = spec.problems
    assert problem.check == "value-has-its-shape" and problem.pointer == "/joints"
    assert "1200 entries, of which the first 1000 are read" in problem.message and "each joint" in problem.fix
