"""Worked numbers for the formulas of compression, cylinder pressure, air, fuel and ignition.

Engine A is a street V8 of 4.030 x 3.480 in with 5.700 in rods, worked through by hand and by a separate program;
published examples name their book beside the number.
"""

import math
from math import pi, radians

import numpy
import pytest

from buildlint.formulas import air, compression, cylinder_pressure, fuel, ignition
from buildlint.mechanics import atmosphere, combustion, fluid_lines, head_flow, knock
from buildlint.quantities import q, read
from buildlint.tables import octane

INCH, CC, CFM, HP, LBH = 0.0254, 1e-6, 4.719474e-4, 745.6998716, 0.45359237 / 3600
PSI, BAR, LBFT = 6894.757293, 1e5, 1.355817948
BORE, THROW, STROKE, ROD = 4.030 * INCH, 1.740 * INCH, 3.480 * INCH, 5.700 * INCH
SWEPT = pi / 4 * BORE**2 * STROKE


def rpm(speed):
    return speed * pi / 30


def deg(angle):
    return angle * 180 / pi


def close(value, tolerance=5e-4):
    return pytest.approx(value, rel=tolerance)


# -- compression ------------------------------------------------------------------------------------------------------


def clearance(chamber=64.0, deck=0.005, crown=5.0):
    gasket = compression.gasket_volume__of_round_opening(4.100 * INCH, 0.039 * INCH)
    deck = compression.deck_volume(BORE, deck * INCH)
    return compression.clearance_volume(chamber * CC, gasket, deck, crown * CC)


@pytest.mark.parametrize("change, volume, ratio", [
    pytest.param({}, 78.48, 10.27, id="as planned"),
    pytest.param({"deck": -0.005}, 76.39, 10.52, id="piston as far above the deck"),
    pytest.param({"crown": -5.0}, 68.48, 11.62, id="pockets with the wrong sign"),
])
def test_the_clearance_volume_of_engine_a(change, volume, ratio):
    assert clearance(**change) / CC == close(volume)
    assert compression.compression_ratio(SWEPT, clearance(**change)) == close(ratio)


def test_a_fill_test_gives_a_dome_its_sign():
    assert compression.crown_volume__of_fill_test(92.0 * CC, 0.500 * INCH, BORE) / CC == pytest.approx(-12.5, abs=0.05)
    assert compression.crown_volume__of_fill_test(104.51 * CC, 0.500 * INCH, BORE) / CC == pytest.approx(0.0, abs=0.01)


def test_the_crevice_of_engine_a_costs_a_tenth_of_a_ratio():
    crevice = compression.crevice_volume(BORE, 4.000 * INCH, 0.275 * INCH)
    assert crevice / CC == close(0.8526)
    assert compression.crevice_share(crevice, clearance()) == close(0.01075, 2e-3)
    assert compression.compression_ratio_with_crevice(SWEPT, clearance(), crevice) == close(10.17)


@pytest.mark.parametrize("closing, rod, ratio", [
    pytest.param(64, 5.7, 8.248, id="as timed"), pytest.param(40, 5.7, 9.479, id="40 degrees"),
    pytest.param(50, 5.7, 9.034, id="50 degrees"), pytest.param(60, 5.7, 8.491, id="advanced by 4"),
    pytest.param(68, 5.7, 7.991, id="retarded by 4"), pytest.param(70, 5.7, 7.857, id="70 degrees"),
    pytest.param(80, 5.7, 7.141, id="80 degrees"), pytest.param(64, 6.0, 8.218, id="longer rod"),
])
def test_the_trapped_ratio_of_engine_a(closing, rod, ratio):
    assert compression.trapped_compression_ratio(BORE, THROW, rod * INCH, radians(closing), clearance()) == close(ratio, 2e-4)


def test_the_trapped_ratio_counts_the_crevice_and_the_offset_of_the_pin():
    crevice = compression.crevice_volume(BORE, 4.000 * INCH, 0.275 * INCH)
    closing = radians(64)
    assert compression.trapped_compression_ratio(BORE, THROW, ROD, closing, clearance(), crevice) == close(8.170, 2e-4)
    toward = compression.trapped_compression_ratio(BORE, THROW, ROD, closing, clearance(), None, 0.060 * INCH)
    away = compression.trapped_compression_ratio(BORE, THROW, ROD, closing, clearance(), None, -0.060 * INCH)
    assert (toward, away) == (close(8.232, 2e-4), close(8.265, 2e-4))


def test_the_intake_closing_follows_from_centerline_and_duration_or_from_the_card():
    assert deg(compression.intake_closing_seat__of_duration(radians(276), radians(106))) == close(64.0)
    assert deg(compression.intake_closing_seat__of_event(radians(64), radians(102), radians(106))) == close(60.0)
    assert deg(compression.intake_closing_seat__of_event_at_050(radians(38))) == close(63.0)
    assert deg(compression.intake_closing_seat__of_duration_at_050(radians(224), radians(106))) == close(63.0)


@pytest.mark.parametrize("trapped, pressure, gauge", [
    pytest.param(8.248, 101325.0, 170.2, id="sea level"), pytest.param(8.0, 101325.0, 163.5, id="a ratio of eight"),
    pytest.param(8.248, 84310.0, 141.6, id="five thousand feet"),
])
def test_the_gauge_in_the_plug_hole(trapped, pressure, gauge):
    assert compression.cranking_pressure_expected(trapped, pressure) / PSI == close(gauge, 1e-3)


def test_the_band_of_the_gauge_is_that_of_its_exponents():
    assert compression.cranking_pressure_expected_high(8.248, 101325.0) / PSI == close(213.6)
    assert compression.cranking_pressure_expected_low(8.248, 101325.0) / PSI == close(14.6959 * (8.248**1.10 - 1))


@pytest.mark.parametrize("aki, ron, mon", [(87, 91.5, 82.5), (91, 95.5, 86.5), (93, 97.5, 88.5)])
def test_octane_scales_of_pump_gasoline(aki, ron, mon):
    assert compression.research_octane(aki, 9.0) == ron and compression.motor_octane(aki, 9.0) == mon
    assert compression.antiknock_index(ron, "ron", 9.0) == compression.antiknock_index(mon, "mon", 9.0) == aki


def test_octane_rows_rise_with_octane_and_with_aluminum():
    for rows in (octane.IRON_ROWS, octane.ALUMINUM_ROWS):
        found = [octane.row_for(rows, "pump_gasoline", number) for number in range(84, 121)]
        assert found == sorted(found)
        thin = [octane.row_for(rows, "e85", None, share / 100) for share in range(51, 90)]
        assert thin == sorted(thin) and thin[-1] == rows["e85"] and thin[0] > rows["aki_91"]
    assert octane.row_for(octane.IRON_ROWS, "pump_gasoline", 89) == 7.7
    assert octane.row_for(octane.ALUMINUM_ROWS, "race_gasoline", 118) == 11.0
    assert octane.row_for(octane.IRON_ROWS, "pump_gasoline") is None
    assert octane.row_for(octane.IRON_ROWS, "nitromethane_blend", 100) is None


# -- cylinder pressure ------------------------------------------------------------------------------------------------


def test_the_mean_pressures_of_engine_a():
    displacement = 8 * SWEPT
    brake = cylinder_pressure.mean_effective_pressure(450 * LBFT, displacement)
    assert brake / BAR == close(13.18)
    assert cylinder_pressure.mean_effective_pressure_at_power(500 * HP, rpm(6200), displacement) / BAR == close(12.40)
    friction = cylinder_pressure.friction_mean_effective_pressure(rpm(4800))
    assert friction / BAR == close(2.842)
    assert cylinder_pressure.indicated_mean_effective_pressure(brake, friction) / BAR == close(16.02)
    shot = cylinder_pressure.nitrous_mean_effective_pressure(150 * HP, rpm(5000), displacement)
    assert shot / BAR == close(4.613, 1e-3)
    assert cylinder_pressure.nitrous_mean_effective_pressure(150 * HP, rpm(5000), displacement, True) == 0.0


@pytest.mark.parametrize("center, row", [
    pytest.param(8, (4.089, 4.408, 4.723, 5.034, 5.343, 5.651, 5.958), id="best torque"),
    pytest.param(10, (3.925, 4.216, 4.502, 4.785, 5.065, 5.343, 5.621), id="10 degrees"),
    pytest.param(12, (3.767, 4.032, 4.291, 4.546, 4.798, 5.049, 5.299), id="12 degrees"),
    pytest.param(14, (3.616, 3.856, 4.089, 4.318, 4.544, 4.769, 4.992), id="held back by knock"),
    pytest.param(16, (3.473, 3.688, 3.897, 4.102, 4.303, 4.503, 4.702), id="16 degrees"),
])
def test_peak_over_mean_pressure_by_ratio(center, row):
    """Table of a finer integration of the same cycle, made apart from this program."""
    found = [cylinder_pressure.peak_over_mean_pressure(ratio, radians(center)) for ratio in range(8, 15)]
    assert found == [close(value) for value in row]


@pytest.mark.parametrize("indicated, ratio, center, peak", [
    pytest.param(16.02, 10.27, 8, 77.00, id="street engine A"), pytest.param(24.97, 9.0, 14, 96.27, id="boosted engine C"),
    pytest.param(19.30, 14.0, 8, 115.0, id="race engine D"),
])
def test_the_peak_pressure_of_three_engines(indicated, ratio, center, peak):
    factor = cylinder_pressure.peak_over_mean_pressure(ratio, radians(center))
    found = cylinder_pressure.peak_cylinder_pressure(indicated * BAR, factor)
    assert found / BAR == close(peak, 1e-3)
    assert cylinder_pressure.design_cylinder_pressure(found) == close(1.15 * found)


def test_the_burn_center_is_later_where_boosted_gasoline_knocks():
    assert [round(deg(cylinder_pressure.combustion_center__usual(*case))) for case in
            (("natural", "pump_gasoline"), ("turbocharged", "pump_gasoline"), ("supercharged", "methanol"))] == [8, 14, 10]


@pytest.mark.parametrize("ratio, speed, temperature, pressure, center, asked", [
    pytest.param(9, 3000, 335, 1.0, 8, 80.5, id="ratio 9"), pytest.param(10, 3000, 335, 1.0, 8, 87.9, id="ratio 10"),
    pytest.param(11, 3000, 335, 1.0, 8, 95.1, id="ratio 11"), pytest.param(10, 2000, 335, 1.0, 8, 99.1, id="slow"),
    pytest.param(10, 5000, 335, 1.0, 8, 75.7, id="fast"), pytest.param(9, 3000, 345, 1.68, 12, 102.1, id="boosted, cooled"),
    pytest.param(9, 3000, 375, 1.68, 12, 113.8, id="boosted, hot"),
])
def test_the_knock_integral(ratio, speed, temperature, pressure, center, asked):
    found = knock.octane_asked(ratio, radians(center), rpm(speed), temperature, pressure / 1.01325)
    assert found == pytest.approx(asked, abs=0.15)


def test_the_burn_curve_is_half_done_where_it_says():
    assert combustion.burned_share(combustion.HALF_BURNED) == pytest.approx(0.5, abs=1e-4)
    assert combustion.burned_share(-1.0) == 0.0


# -- air ----------------------------------------------------------------------------------------------------------------


def test_the_air_outside():
    assert air.air_pressure__at_altitude(1524.0) / 1e3 == close(84.31)
    assert air.air_pressure__at_sea_level() == 101325.0
    assert atmosphere.water_vapor_pressure(298.15) / 1e3 == close(3.170, 1e-3)
    assert atmosphere.density(101325.0, 298.15) == close(1.184)
    assert atmosphere.sound_speed(298.15) == close(346.1)


def test_the_pressure_in_the_manifold():
    assert air.manifold_pressure_absolute("turbocharged", 101325.0, 10 * PSI) / 101325.0 == close(1.680)
    assert air.manifold_pressure_absolute("natural", 101325.0, None) == 101325.0
    assert air.manifold_pressure_absolute("supercharged", 101325.0, None) is None
    assert air.charge_density_factor("natural") == 1.0
    assert air.charge_density_factor__assumed(101325.0 * 1.680, 101325.0) == close(1.680 / (1 + (1.680**0.2857 - 1) / 0.65))


def test_the_air_of_engine_a():
    flow = air.air_mass_flow(0.95, 1.0, 8 * SWEPT, rpm(6200))
    assert flow == close(0.3382) and flow / LBH / 60 == close(44.73)
    assert air.air_volume_flow(flow) / CFM == close(605.2, 1e-3)
    claim = air.air_mass_flow_of_claim(500 * HP, 0.46 * LBH / HP, 1.0, 12.8)
    assert claim == close(0.3709)
    assert air.volumetric_efficiency_of_claim(claim, 1.0, 8 * SWEPT, rpm(6200)) == close(1.042, 1e-3)


@pytest.mark.parametrize("coefficient, index", [(0.30, 0.7002), (0.35, 0.6002), (0.40, 0.5251)])
def test_the_inlet_mach_index_of_engine_a(coefficient, index):
    assert air.inlet_mach_index(BORE, STROKE, rpm(6200), 2.02 * INCH, coefficient) == close(index)


def test_the_inlet_mach_index_of_a_long_stroke_engine():
    assert air.inlet_mach_index(4.155 * INCH, 4.000 * INCH, rpm(7000), 2.08 * INCH, 0.38) == close(0.7192)


FLOWS = [(0.1 * step * INCH, flow * CFM) for step, flow in enumerate((65, 125, 185, 228, 250, 260), 1)]


@pytest.mark.parametrize("exponent, mean", [pytest.param(2.0, 0.3175, id="gentle"), pytest.param(1.2, 0.3775, id="full")])
def test_the_mean_flow_coefficient_from_a_flow_table(exponent, mean):
    assert head_flow.mean_coefficient(FLOWS, q("28 inH2O"), 2.02 * INCH, 0.560 * INCH, exponent) == close(mean)


def test_the_shape_of_the_lobe_follows_from_its_durations():
    exponent = head_flow.lobe_exponent(0.310 * INCH, radians(260), radians(210))
    assert (pi / 2 * (1 - 210 / 260)) > 0 and 0.310 * math.sin(pi / 2 * (1 - 210 / 260)) ** exponent == close(0.050)
    gentle = air.inlet_flow_coefficient__of_table(FLOWS, q("28 inH2O"), 2.02 * INCH, 0.560 * INCH)
    assert 0.3175 < gentle < 0.3775
    shaped = air.inlet_flow_coefficient__of_table(FLOWS, q("28 inH2O"), 2.02 * INCH, 0.560 * INCH, 0.310 * INCH, radians(260), radians(210))
    assert shaped == close(head_flow.mean_coefficient(FLOWS, q("28 inH2O"), 2.02 * INCH, 0.560 * INCH, exponent))


def test_tables_serve_many_lifts_at_once():
    """A sweep hands over arrays; each element gives what its float gives."""
    lifts = numpy.array([0.300, 0.450, 0.560]) * INCH
    many = air.inlet_flow_coefficient__of_table(FLOWS, q("28 inH2O"), 2.02 * INCH, lifts)
    best = air.inlet_flow_at_standard__of_table(FLOWS, q("28 inH2O"), lifts)
    pump = fuel.fuel_pump_flow([(3e5, 1e-4), (5e5, 0.7e-4)], numpy.array([1e5, 4e5, 6e5]))
    assert list(many) == [close(air.inlet_flow_coefficient__of_table(FLOWS, q("28 inH2O"), 2.02 * INCH, float(lift)), 1e-12) for lift in lifts]
    assert list(best / CFM) == [close(185.0), close(228.0), close(250.0)]
    assert list(pump) == [close(1e-4), close(0.85e-4), close(0.55e-4)]


def test_flow_bench_figures():
    assert air.inlet_flow_at_standard(180 * CFM, q("10 inH2O")) / CFM == close(301.2)
    assert head_flow.bench_speed(q("28 inH2O")) / 0.3048 == close(353.1)
    assert head_flow.curtain_coefficient(260 * CFM, q("28 inH2O"), 2.02 * INCH, 0.600 * INCH) == close(0.4641)
    assert head_flow.curtain_coefficient(125 * CFM, q("28 inH2O"), 2.02 * INCH, 0.200 * INCH) == close(0.6694)
    assert air.inlet_flow_at_standard__of_table(FLOWS, q("28 inH2O"), 0.500 * INCH) / CFM == close(250.0)
    assert air.power_of_head_flow(260 * CFM, 8, 1.0) / HP == close(534.6, 1e-3)


@pytest.mark.parametrize("rod_over_stroke, factor", [(1.638, 1.643), (1.50, 1.657), (1.90, 1.625)])
def test_peak_over_mean_piston_speed(rod_over_stroke, factor):
    peak = air.piston_speed_peak(0.5, rod_over_stroke, 1.0)
    assert peak / (1.0 / pi) == close(factor)


def test_the_port_velocity_of_engine_a():
    peak = air.piston_speed_peak(THROW, ROD, rpm(6200))
    found = air.port_velocity(BORE, peak, 2.05 * INCH**2)
    assert found / 0.3048 == pytest.approx(603.4 * 1.643 / 1.618, rel=2e-3), "the trade's 0.00353 stands for 1.618 times the mean"
    assert found * 1.618 / 1.643 == close(183.9, 2e-3)


def test_the_tuned_speed_of_a_runner_by_three_methods():
    volume = clearance()
    ratio = compression.compression_ratio(SWEPT, volume)
    area, length = 2.2 * INCH**2, 13.5 * INCH
    assert air.runner_tuned_speed("resonator", length, area, SWEPT, ratio) / rpm(1) == close(4816, 1e-3)
    assert air.runner_tuned_speed("constant_product", 15.27 * INCH) / rpm(1) == close(5500, 1e-3)
    assert air.runner_tuned_speed("time_of_flight", 15.28 * INCH, intake_lobe_advertised_duration=radians(276)) / rpm(1) == close(5500, 2e-3)
    assert air.runner_tuned_speed("resonator", length) is None


@pytest.mark.parametrize("count, bore, shaft, loss", [(1, 0.090, 0.010, 2.241), (2, 0.058, 0.008, 3.523)])
def test_the_loss_in_the_throttle_of_engine_a(count, bore, shaft, loss):
    area = air.throttle_area(count, bore, shaft)
    assert air.throttle_pressure_loss(0.3382, area, 1.0) / 1e3 == close(loss, 1e-3)


@pytest.mark.parametrize("rating, depression", [(750, 0.9767), (650, 1.300)])
def test_the_depression_under_a_carburetor(rating, depression):
    found = air.carburetor_depression(605.2 * CFM, 1, rating * CFM, q("1.5 inHg"), 1.0)
    assert found / 3386.389 == close(depression, 1e-3)


def test_a_two_barrel_rating_stands_for_less_flow_at_the_four_barrel_depression():
    wanted = air.carburetor_depression(353.6 * CFM, 1, 500 * CFM, air.carburetor_rated__usual("none_two_barrel"), 1.0)
    assert wanted / 3386.389 == close(1.5, 1e-3)


@pytest.mark.parametrize("mercury, fahrenheit, humidity, factors", [
    pytest.param(29.50, 80, 0.50, (1.0136, 1.0520, 1.0138), id="ordinary day"),
    pytest.param(28.85, 85, 0.85, (1.0693, 1.1012, 1.0709), id="summer"),
    pytest.param(30.10, 55, 0.35, (0.9481, 0.9943, 0.9474), id="autumn"),
])
def test_correction_factors(mercury, fahrenheit, humidity, factors):
    """STD factors of summer and autumn: published as 1.1005 and 0.994; the others by a separate program."""
    pressure, temperature = mercury * 3386.389, (fahrenheit + 459.67) / 1.8
    found = [air.dyno_correction_factor(standard, pressure, temperature, humidity) for standard in
             ("sae_j1349", "std_j607", "iso_1585")]
    assert found == [close(factor, 1e-3) for factor in factors]


def test_the_factor_of_j1349_in_the_units_it_is_printed_in():
    """1.180 (990 mbar / dry pressure) sqrt((air in degC + 273) / 298) - 0.18: public guides to dynamometer correction."""
    for millibar, celsius in ((990, 25), (960, 35), (1010, 10)):
        printed = 1.180 * (990 / millibar) * ((celsius + 273) / 298) ** 0.5 - 0.18
        assert air.dyno_correction_factor("sae_j1349", millibar * 100.0, celsius + 273.0, 0.0) == close(printed)


def test_correction_factors_at_their_own_reference_are_one():
    assert air.dyno_correction_factor("sae_j1349", 99e3, 298.0, 0.0) == pytest.approx(1.0, abs=1e-12)
    assert air.dyno_correction_factor("iso_1585", 99e3, 298.0, 0.0) == pytest.approx(1.0, abs=1e-12)
    assert air.dyno_correction_factor("std_j607", 101325.0, 519.67 / 1.8, 0.0) == pytest.approx(1.0, abs=1e-12)
    assert air.dyno_correction_factor("std_j607", 99e3, 298.15, 0.0) == close(1.0401)
    assert air.dyno_correction_factor("iso_3046", 100e3, 298.0, 0.30) == pytest.approx(1.0, abs=1e-12)
    assert 1 / air.dyno_correction_factor("iso_3046", 98e3, 303.15, 0.0) == close(0.9786, 1e-3)
    assert air.dyno_correction_factor("none", 99e3, 298.0, 0.0) is None


# -- fuel -----------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("fuel_name, ethanol, ratio, heat, density", [
    pytest.param("pump_gasoline", 0.0, 14.60, 43.4, 745, id="gasoline"), pytest.param("e10", 0.10, 14.01, 41.65, 749.4, id="E10"),
    pytest.param("e85", 0.85, 9.802, 29.17, 782.4, id="E85"), pytest.param("ethanol", 1.0, 9.003, 26.81, 789, id="ethanol"),
    pytest.param("e85", 0.51, 11.66, 34.70, 767.4, id="thin winter E85"),
])
def test_blends_are_averaged_by_mass(fuel_name, ethanol, ratio, heat, density):
    assert fuel.fuel_stoichiometric_ratio(ethanol) == close(ratio, 1e-3)
    assert fuel.fuel_heating_value(ethanol) / 1e6 == close(heat, 1e-3)
    assert fuel.fuel_density(ethanol) == close(density)


def test_ethanol_by_volume_of_the_names():
    assert [fuel.ethanol_by_volume(name) for name in ("pump_gasoline", "e10", "e85", "ethanol", "methanol")] == [0.0, 0.10, 0.85, 1.0, None]
    assert fuel.ethanol_by_volume("e85", 0.74) == 0.74


def test_lambda_from_an_air_to_fuel_number():
    assert fuel.fuel_full_load_lambda(12.85, 14.60) == close(0.88)
    assert fuel.fuel_full_load_lambda(11.76, 9.80, "gasoline_scale") == close(0.80)


def test_the_fuel_of_engine_a():
    work = 0.46 * LBH / HP
    assert work * 3.6e9 == close(279.8)
    assert fuel.brake_efficiency(work, 43.4e6) == close(0.2965, 1e-3)
    assert fuel.fuel_mass_flow(500 * HP, work) == close(0.02898) and fuel.fuel_mass_flow(500 * HP, work) / LBH == close(230.0)


@pytest.mark.parametrize("rated, pressure, flow", [(300, 400, 48.50), (300, 300, 42.0), (300, 220, 42 * 0.8563)])
def test_an_injector_follows_the_root_of_its_pressure(rated, pressure, flow):
    assert fuel.injector_static_flow(42 * LBH, rated * 1e3, pressure * 1e3, 745.0) / LBH == close(flow)


def test_an_injector_rated_on_heptane_gives_more_of_gasoline():
    assert fuel.injector_static_flow(1.0, 3e5, 3e5, 745.0, "heptane") == close(1.044)
    assert fuel.injector_static_flow(1.0, 3e5, 3e5, 782.4, "gasoline") == close((782.4 / 745) ** 0.5)
    assert fuel.injector_static_flow(1.0, 3e5, -1e4, 745.0) == 0.0


def test_injector_sizes():
    """500 hp at 0.60 lb/hp/h with eight injectors at 80 percent: 46.9 lb/h, a published figure."""
    each = fuel.fuel_mass_flow(500 * HP, 0.60 * LBH / HP) / 8 / 0.80
    assert each / LBH == close(46.9, 1e-3)
    needed = fuel.injector_flow_needed(fuel.fuel_mass_flow(500 * HP, 0.48 * LBH / HP), 8)
    assert fuel.injector_duty(needed, 36 * LBH) == close(0.8333 * 1.05, 1e-3)


def test_the_injectors_feed_a_dry_shot_only():
    base = fuel.injector_flow_needed(0.03, 8)
    shot = fuel.nitrous_fuel_flow(150 * HP, "pump_gasoline")
    assert shot / LBH == close(82.5)
    assert fuel.injector_flow_needed(0.03, 8, shot, "main_system") == base
    assert fuel.injector_flow_needed(0.03, 8, shot, "dry") == close(base + 1.05 * shot / 8)
    assert fuel.fuel_mass_flow_of_pump(0.03, shot, "own_system") == 0.03
    assert fuel.fuel_mass_flow_of_pump(0.03, shot, "main_system") == close(0.03 + shot)
    assert air.engine_power(650 * HP, 150 * HP, True) == close(500 * HP) and air.engine_power(500 * HP, 150 * HP) == 500 * HP


def test_the_rail_follows_the_manifold_where_the_regulator_does():
    rail = fuel.fuel_rail_pressure(276e3, "turbocharged", 68.95e3, "manifold")
    assert rail / 1e3 == close(344.7, 1e-3)
    assert fuel.fuel_injector_pressure(rail, "turbocharged", 68.95e3) == close(276e3)
    stuck = fuel.fuel_rail_pressure(300e3, "supercharged", 80e3, "atmosphere")
    assert fuel.fuel_injector_pressure(stuck, "supercharged", 80e3) == close(220e3)


def test_a_pump_is_read_off_its_table_at_pressure_and_voltage():
    table = [(3e5, 1e-4), (5e5, 0.7e-4)]
    assert fuel.fuel_pump_flow(table, 4e5) == close(0.85e-4)
    assert fuel.fuel_pump_flow(table, 1e5) == 1e-4
    assert fuel.fuel_pump_flow(table, 6e5) == close(0.55e-4)
    assert fuel.fuel_pump_flow(table, 5e6) == 0.0
    assert fuel.fuel_pump_flow(table, 3e5, "electric", 13.5, 12.0) == close(1e-4 * 700 / 800, 1e-3)
    assert fuel.fuel_pump_flow(table, 3e5, "mechanical", 13.5, 12.0) == 1e-4
    lone = fuel.fuel_pump_flow([(3e5, 1e-4)], 4e5)
    assert lone != lone


@pytest.mark.parametrize("bore, speed, loss", [(8.74, 1.677, 15.60), (11.13, 1.034, 4.953), (14.27, 0.6283, 1.516)])
def test_five_meters_of_fuel_line_at_362_liters_an_hour(bore, speed, loss):
    flow = 362e-3 / 3600
    assert fluid_lines.pipe_speed(flow, bore / 1e3) == close(speed, 1e-3)
    assert fluid_lines.pipe_loss(flow, bore / 1e3, 5.0, 0, 745.0, fluid_lines.GASOLINE_VISCOSITY) / 1e3 == close(loss, 4e-3)


def test_the_volume_a_boosted_engine_burns():
    whole = fuel.fuel_mass_flow(800 * HP, 0.62 * LBH / HP)
    assert whole / LBH == close(496.0)
    assert fuel.fuel_volume_flow(whole, 745.0) * 3.6e6 == close(302.0)


# -- ignition -----------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("pressure, temperature, gap, voltage", [
    (10, 620, 0.90, 11.20), (22, 680, 0.90, 18.13), (22, 680, 0.70, 16.04), (22, 680, 0.60, 14.99)])
def test_the_voltage_that_breaks_a_gap_down(pressure, temperature, gap, voltage):
    found = ignition.spark_breakdown_voltage(gap * 1e-3, pressure * BAR, float(temperature))
    assert found / 1e3 == close(voltage)


def test_the_steps_colder_of_a_boosted_engine():
    found = ignition.plug_steps_wanted(550 * HP, 300 * HP, 9.0, 70e3)
    assert found == close(250 / 90)
    assert ignition.plug_steps_wanted(300 * HP, 300 * HP, 13.5) == close(2.0)
    assert ignition.plug_steps_wanted(200 * HP, 300 * HP) == 0.0


def test_the_gap_under_the_plug():
    """Roof 8.0 mm, tip 5.5 mm, deck and gasket 1.118 mm: 3.618 mm over a flat crown, contact with a 6 mm dome."""
    deck, gasket = 0.005 * INCH, 0.039 * INCH
    assert ignition.spark_plug_piston_gap(8.0e-3, 5.5e-3, deck, gasket) * 1e3 == close(3.618)
    assert ignition.spark_plug_piston_gap(8.0e-3, 5.5e-3, deck, gasket, 6.0e-3) * 1e3 == close(-2.382)
    assert ignition.spark_plug_piston_gap(8.0e-3, 5.5e-3, deck, gasket, None, 2e-3, 1.5e-3) * 1e3 == close(4.118)


@pytest.mark.parametrize("source, speed, there", [("distributor", 6000, 2.500), ("distributor", 7000, 2.143), ("coil_per_cylinder", 7000, 17.14)])
def test_the_time_between_the_sparks_of_a_coil(source, speed, there):
    count = ignition.sparks_per_cycle(source, None, 8)
    assert ignition.coil_time_there(rpm(speed), count) * 1e3 == close(there)


def test_the_speed_a_coil_can_follow():
    needed = ignition.coil_time_needed(3.2e-3)
    assert needed == close(4.2e-3)
    assert needed / ignition.coil_time_there(rpm(6000), 8) == close(1.680)
    assert ignition.coil_speed_limit(needed, 8) / rpm(1) == close(6000 / 1.680)
    assert ignition.sparks_per_cycle("wasted_spark", None, 8) == 2


def test_trigger_and_rotor():
    assert ignition.trigger_frequency(60, rpm(8000)) == close(8000.0)
    assert ignition.trigger_speed_cranking(0.160) == close(1.676)
    assert deg(ignition.rotor_sweep(radians(10), radians(40))) == close(15.0)


def test_boost_and_shot_take_their_advance():
    left = ignition.advance_at_full_charge(radians(34), read("1 deg/psi", "angle_per_pressure"), 10 * PSI, radians(6))
    assert deg(left) == close(18.0)
    assert ignition.advance_at_full_charge(radians(34)) == radians(34)


def test_the_charge_is_denser_the_later_the_spark():
    early = ignition.spark_volume_ratio(8.2, 10.27, radians(34), THROW, ROD)
    late = ignition.spark_volume_ratio(8.2, 10.27, radians(10), THROW, ROD)
    assert early < late < ignition.spark_volume_ratio(8.2, 10.27, 0.0, THROW, ROD) == close(8.2)
    assert ignition.spark_pressure(5.0, 101325.0) == close(101325 * 5**1.32)
    assert ignition.spark_temperature(5.0, "natural", 400.0) == close(335 * 5**0.32)
    assert ignition.spark_temperature(5.0, "turbocharged", 330.0) == close(330 * 5**0.32)
