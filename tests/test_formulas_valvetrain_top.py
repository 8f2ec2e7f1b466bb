"""Worked numbers of springs, pushrods, rockers, valves, guides and seats, each worked by hand or in a second way.

The formulas are asked through q(), in the builder's units. Published examples stand in tests/oracles.
"""

import math

import numpy
import pytest

from buildlint.formulas import guides_and_seats, pushrods, rockers, spring_coils, springs, valves
from buildlint.mechanics.flank_push import highest_push
from buildlint.mechanics.load_table import load_at
from buildlint.mechanics.rocker import sweep_from_square_when_shut
from buildlint.quantities import q

INCH, LBF = 0.0254, 4.4482216152605
TABLE = [(q("1.800 in"), q("150 lbf")), (q("1.500 in"), q("268 lbf")), (q("1.200 in"), q("400 lbf")), (q("1.150 in"), q("424 lbf"))]


def amounts(**texts):
    return {name: q(text) if isinstance(text, str) and text[0].isdigit() else text for name, text in texts.items()}


WORKED = [
    pytest.param(springs.spring_open_load__from_rate, dict(spring_seat_load="150 lbf", spring_rate="410 lbf/in", valve_lift="0.600 in"),
                 396.0 * LBF, 1e-9, id="150 lbf, 410 lbf/in and 0.600 in of lift are 396 lbf open"),
    pytest.param(springs.spring_installed_height, dict(valve_stem_height="2.560 in", retainer_tip_to_face="0.760 in"),
                 1.800 * INCH, 1e-12, id="stem height less tip to face"),
    pytest.param(springs.spring_installed_height, dict(valve_stem_height="2.560 in", retainer_tip_to_face="0.760 in",
                                                       spring_shim_thickness="0.030 in"), 1.770 * INCH, 1e-12, id="a shim takes its thickness"),
    pytest.param(springs.spring_installed_height, dict(valve_stem_height="2.560 in", retainer_tip_to_face="0.760 in",
                                                       lock_height_gain="0.050 in"), 1.850 * INCH, 1e-12, id="offset locks give theirs"),
    pytest.param(spring_coils.wire_rate, dict(wire_diameter="4.6 mm", mean_coil_diameter="27.5 mm", active_coils=4.0),
                 305.42 * LBF / INCH, 1e-4, id="4.6 mm wire on 27.5 mm, four coils, is 305.42 lbf/in"),
    pytest.param(spring_coils.shear_stress_open, dict(coil_open_load=1304.45, wire_diameter="4.6 mm", mean_coil_diameter="27.5 mm",
                                                      spring_index=27.5 / 4.6), 1162.9e6, 1e-4, id="corrected stress at full lift 1162.9 MPa"),
    pytest.param(spring_coils.natural_frequency, dict(wire_diameter="4.6 mm", mean_coil_diameter="27.5 mm", active_coils=4.0),
                 544.6, 2e-4, id="that spring rings at 544.6 Hz"),
    pytest.param(spring_coils.wire_solid_height, dict(wire_diameter="4.6 mm", total_coils=6.0, ends="ground"), 0.0276, 1e-12,
                 id="six ground coils of 4.6 mm are 27.60 mm solid"),
    pytest.param(spring_coils.wire_solid_height, dict(wire_diameter="4.6 mm", total_coils=6.0, ends="unground"), 7.5 * 0.0046, 1e-12,
                 id="unground ends stand one and a half wires taller"),
    pytest.param(pushrods.pushrod_static_load, dict(rocker_ratio=1.7, spring_open_load="400 lbf"), 680 * LBF, 1e-12, id="400 lbf at 1.7 push 680 lbf"),
    pytest.param(pushrods.pushrod_stiffness, dict(pushrod_outside_diameter="5/16 in", pushrod_wall="0.080 in", pushrod_length="7.40 in"),
                 234780 * LBF / INCH, 1e-4, id="a 5/16 x 0.080 x 7.40 in rod gives 1 in per 234,780 lbf"),
    pytest.param(pushrods.pushrod_lift_lost, dict(pushrod_static_load="714 lbf", pushrod_stiffness="234780 lbf/in", rocker_ratio=1.7),
                 0.00517 * INCH, 1e-3, id="714 lbf on it take 0.00517 in of lift"),
    pytest.param(pushrods.pushrod_opening_load, dict(side_name="exhaust", rocker_ratio=1.7, spring_seat_load="0 lbf", valve_head_diameter="1.55 in"),
                 232.6 * LBF, 1e-3, id="5 bar under a 1.55 in exhaust valve push 232.6 lbf"),
    pytest.param(pushrods.pushrod_opening_load, dict(side_name="exhaust", rocker_ratio=1.7, spring_seat_load="0 lbf", valve_head_diameter="1.55 in",
                                                     induction="turbocharged"), 372.2 * LBF, 1e-3, id="8 bar of a charged engine push 372.2 lbf"),
    pytest.param(pushrods.pushrod_length_from_machining, dict(
        pushrod_replaced_length="7.400 in", rocker_ratio=1.7, rocker_adjustment="none_net_lash", block_deck_removed="0.010 in",
        head_face_removed="0.005 in", head_gasket_compressed_thickness="0.054 in", head_gasket_replaced_thickness="0.041 in",
        camshaft_base_circle_diameter="1.450 in", camshaft_replaced_base_circle_diameter="1.550 in", pushrod_tip_rise="0.017 in"),
        7.438 * INCH, 1e-9, id="deck, head, gasket, base circle and tip together lengthen the rod by 0.038 in"),
    pytest.param(pushrods.pushrod_length_from_machining, dict(pushrod_replaced_length="7.400 in", rocker_ratio=1.7, rocker_stand_raised="0.030 in"),
                 (7.400 + 2.7 / 1.7 * 0.030) * INCH, 1e-12, id="a raised stand lengthens it by (1 + r) / r of the shim"),
    pytest.param(pushrods.pushrod_length_from_machining, dict(pushrod_replaced_length="7.400 in", rocker_ratio=1.7, rocker_adjustment="stud_nut",
                                                              pushrod_tip_rise="0.080 in"), 7.480 * INCH, 1e-12,
                 id="on a stud the pivot follows a lash cap and the rod grows with it"),
    pytest.param(rockers.rocker_fulcrum_load, dict(rocker_ratio=1.7, spring_open_load="460 lbf"), 1242 * LBF, 1e-12, id="460 lbf at 1.7 pull 1242 lbf at the pivot"),
    pytest.param(rockers.rocker_sweep_least, dict(rocker_valve_arm="1.65 in", valve_lift="0.600 in"), 0.02750 * INCH, 1e-4, id="least sweep 0.0275 in"),
    pytest.param(rockers.rocker_sweep_least, dict(rocker_valve_arm="1.60 in", valve_lift="0.550 in"), 0.0238 * INCH, 2e-3, id="least sweep 0.0238 in"),
    pytest.param(rockers.rocker_sweep_least, dict(rocker_valve_arm="1.65 in", valve_lift="0.800 in"), 0.0492 * INCH, 2e-3, id="least sweep 0.0492 in"),
    pytest.param(sweep_from_square_when_shut, dict(arm="1.65 in", lift="0.600 in"), 0.11296 * INCH, 1e-4, id="set square when shut it sweeps 0.113 in"),
    pytest.param(valves.seat_area, dict(seat_contact_diameter="2.125 in", valve_stem_diameter="0.3134 in"), 3.4694 * INCH**2, 1e-4, id="seat area 3.4694 in2"),
    pytest.param(valves.pressure_lift_force, dict(side_name="intake", seat_area="3.4694 in^2", boost_pressure="20 psi"), 69.39 * LBF, 1e-4,
                 id="20 psi behind it push 69.39 lbf"),
    pytest.param(valves.pressure_lift_force, dict(side_name="exhaust", seat_area="1.8098 in^2", boost_pressure="20 psi", exhaust_back_pressure="45 psi"),
                 45.24 * LBF, 2e-4, id="45 psi against 20 psi push 45.24 lbf at the exhaust"),
    pytest.param(valves.pressure_lift_force, dict(side_name="exhaust", seat_area="1.8098 in^2", boost_pressure="20 psi", exhaust_back_pressure="5 psi"),
                 0.0, 0, id="less back pressure than boost pushes nothing open"),
    pytest.param(guides_and_seats.guide_stem_clearance, dict(guide_bore="0.3150 in", valve_stem_diameter="0.3134 in"), 0.0016 * INCH, 1e-9,
                 id="guide less stem"),
    pytest.param(guides_and_seats.seat_insert_interference_hot, dict(seat_insert_interference="0.0050 in", seat_insert_outside_diameter="2.100 in",
                                                                     head_material="aluminum_356_t6", seat_material="powder_metal"),
                 (0.0050 - (21.5e-6 - 12e-6) * 150 * 2.100) * INCH, 1e-9, id="0.0050 in cold leave 0.0020 in hot in aluminum"),
    pytest.param(guides_and_seats.seat_insert_interference_hot, dict(seat_insert_interference="0.0030 in", seat_insert_outside_diameter="2.100 in",
                                                                     head_material="cast_iron", seat_material="powder_metal"),
                 (0.0030 + (12e-6 - 11e-6) * 150 * 2.100) * INCH, 1e-9, id="in iron the insert grips harder when hot"),
]


@pytest.mark.parametrize("formula, inputs, expected, tolerance", WORKED)
def test_a_worked_number_comes_out(formula, inputs, expected, tolerance):
    assert formula(**amounts(**inputs)) == pytest.approx(expected, rel=tolerance, abs=1e-12)


def test_a_tested_spring_is_read_between_its_points():
    assert load_at(TABLE, q("1.215 in")) == pytest.approx(393.4 * LBF, rel=1e-4)
    assert load_at(TABLE, q("1.800 in")) == pytest.approx(150 * LBF)


@pytest.mark.parametrize("rows", [
    pytest.param(TABLE[:1], id="one point"),
    pytest.param([TABLE[0], TABLE[0]], id="one height twice"),
])
def test_a_table_that_says_nothing_of_the_rate_gives_no_load(rows):
    assert math.isnan(load_at(rows, q("1.7 in")))


def test_a_tested_spring_is_carried_on_for_a_millimeter_and_no_further():
    assert load_at(TABLE, q("1.130 in")) == pytest.approx((424 + 0.020 * 480) * LBF, rel=1e-6)
    assert math.isnan(load_at(TABLE, q("1.100 in")))


# outside diameter, wall, slenderness, buckling load in N, stiffness in lbf/in, first sideways frequency in Hz; rods of
# 7.40 in, E 205 GPa, yield 900 MPa. Worked in a spreadsheet from the section, and again below with scipy in the oracles.
RODS = [
    ("5/16 in", "0.065 in", 81.8, 9861, 203070, 522), ("5/16 in", "0.080 in", 85.1, 10526, 234780, 502),
    ("5/16 in", "0.105 in", 90.0, 11030, 275020, 475), ("11/32 in", "0.080 in", 75.9, 15004, 266340, 562),
    ("11/32 in", "0.120 in", 82.4, 16202, 338920, 518), ("3/8 in", "0.080 in", 68.5, 20639, 297900, 624),
    ("3/8 in", "0.135 in", 76.0, 22997, 408980, 562), ("7/16 in", "0.125 in", 62.2, 40612, 493080, 687),
]


@pytest.mark.parametrize("diameter, wall, slenderness, buckling, stiffness, frequency", RODS,
                         ids=[f"{diameter} by {wall}" for diameter, wall, *_ in RODS])
def test_the_usual_pushrods_come_out_as_tabled(diameter, wall, slenderness, buckling, stiffness, frequency):
    rod = amounts(pushrod_outside_diameter=diameter, pushrod_wall=wall, pushrod_length="7.40 in")
    assert pushrods.pushrod_buckling_load(**rod, pushrod_strength=q("900 MPa")) == pytest.approx(buckling, rel=1e-4)
    assert pushrods.pushrod_stiffness(**rod) == pytest.approx(stiffness * LBF / INCH, rel=1e-4)
    assert pushrods.pushrod_bending_frequency(**rod) == pytest.approx(frequency, abs=0.6)
    area = pushrods.tube_area(rod["pushrod_outside_diameter"], rod["pushrod_wall"])
    moment = pushrods.tube_second_moment(rod["pushrod_outside_diameter"], rod["pushrod_wall"])
    assert rod["pushrod_length"] / math.sqrt(moment / area) == pytest.approx(slenderness, abs=0.06)


@pytest.mark.parametrize("wall, buckling", [("0.080 in", 10129), ("0.105 in", 10921)])
def test_soft_tube_bows_by_johnson(wall, buckling):
    rod = amounts(pushrod_outside_diameter="5/16 in", pushrod_wall=wall, pushrod_length="7.40 in")
    assert pushrods.pushrod_buckling_load(**rod, pushrod_strength=q("450 MPa")) == pytest.approx(buckling, rel=1e-4)


def test_the_thicker_wall_is_a_matter_of_stiffness():
    thin, thick = (amounts(pushrod_outside_diameter="5/16 in", pushrod_wall=wall, pushrod_length="7.40 in") for wall in ("0.080 in", "0.105 in"))
    gain = pushrods.pushrod_stiffness(**thick) / pushrods.pushrod_stiffness(**thin) - 1
    assert gain == pytest.approx(0.171, abs=0.001)
    gain = pushrods.pushrod_buckling_load(**thick, pushrod_strength=q("900 MPa")) / pushrods.pushrod_buckling_load(
        **thin, pushrod_strength=q("900 MPa")) - 1
    assert gain == pytest.approx(0.048, abs=0.001)


def test_a_tapered_rod_counts_its_thinnest_middle():
    rod = amounts(pushrod_outside_diameter="3/8 in", pushrod_wall="0.080 in", pushrod_length="7.40 in", pushrod_strength="900 MPa")
    assert pushrods.pushrod_buckling_load(**rod, pushrod_smallest_body_diameter=q("5/16 in")) == pytest.approx(10526, rel=1e-4)


def test_the_flank_pushes_harder_than_the_nose():
    """Valve 100 g, retainer and locks 22, spring 105, rocker 40, pushrod 60, lifter 110; 150/400 lbf; 7000 rpm: 3384.5 N."""
    mass = 0.197 + 0.170 / 1.7**2
    push = pushrods.pushrod_flank_load(mass, 0.110, 1.7, 150 * LBF, 400 * LBF, 0.6 / 1.7 * INCH, math.radians(80.071), 5.0544, 7000 * math.pi / 30)
    assert push == pytest.approx(3384.5, rel=1e-4)
    assert push / (1.7 * 400 * LBF) == pytest.approx(1.119, abs=0.001)


def test_the_highest_push_without_inertia_is_the_spring_at_full_lift():
    assert highest_push(5.0, 1.6, 0.0) == pytest.approx(2.6, rel=1e-12)
    assert numpy.allclose(highest_push(numpy.array([5.0, 6.0]), 1.6, 0.0), 2.6)


def test_the_design_load_takes_the_worst_of_its_estimates():
    static, opening, flank = 3000.0, 4000.0, 5000.0
    assert pushrods.pushrod_design_load(static, 1.5) == 4500
    assert pushrods.pushrod_design_load(static, 1.5, opening) == pytest.approx(5200)
    assert pushrods.pushrod_design_load(static, 1.5, opening, flank) == pytest.approx(6500)


@pytest.mark.parametrize("inputs, factor", [
    pytest.param({}, 1.5, id="usual"), pytest.param({"rev_limit": q("7500 rpm")}, 1.5, id="7500 rpm exactly"),
    pytest.param({"rev_limit": q("7600 rpm")}, 2.0, id="fast"), pytest.param({"boost_pressure": q("16 psi")}, 2.0, id="much boost"),
    pytest.param({"nitrous_power": q("100 hp")}, 2.0, id="nitrous"), pytest.param({"nitrous_power": q("0 hp")}, 1.5, id="no nitrous"),
])
def test_a_hard_driven_train_doubles_the_push(inputs, factor):
    assert pushrods.pushrod_load_factor(**inputs) == factor


def test_a_nest_shares_the_load_at_each_coils_own_height():
    """Outer 110 lbf at 1.800 in and 300 lbf/in, inner 40 lbf at its own 1.700 in and 110 lbf/in, 0.600 in of lift: 150 and 396 lbf."""
    seat = [spring_coils.coil_seat_load__from_reference(q(load), q(height), q(rate), spring_coils.coil_installed_height(q("1.800 in"), q(step)))
            for load, height, rate, step in (("110 lbf", "1.800 in", "300 lbf/in", "0 in"), ("40 lbf", "1.700 in", "110 lbf/in", "0.100 in"))]
    assert springs.spring_seat_load__of_nest(*seat) == pytest.approx(150 * LBF)
    opened = [spring_coils.coil_open_load__from_rate(load, q(rate), q("0.600 in")) for load, rate in zip(seat, ("300 lbf/in", "110 lbf/in"))]
    assert springs.spring_open_load__of_nest(*opened) == pytest.approx(396 * LBF)


@pytest.mark.parametrize("pressure, induction, back", [
    ("20 psi", "turbocharged", "30 psi"), ("10 psi", "supercharged", "0.2 bar")])
def test_back_pressure_is_assumed_where_none_is_written(pressure, induction, back):
    assert valves.exhaust_back_pressure__assumed(q(pressure), induction) == pytest.approx(q(back))


def test_the_sound_of_a_coil_follows_from_its_mass_too():
    rate, mass = spring_coils.wire_rate(0.0046, 0.0275, 4.0), 0.045084
    assert spring_coils.natural_frequency__of_mass(rate, mass * 6 / 4, 4.0, 6.0) == pytest.approx(544.6, rel=1e-3)
