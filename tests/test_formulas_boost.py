"""Worked numbers for charge, cooler, blower, nitrous, coolant, exhaust and accessories, each with where it comes from.

"Worked" means computed by hand or a second program for this purpose; published numbers and other programs stand in
``oracles/test_boost_oracles.py``.
"""

from math import pi, radians

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildlint.formulas import accessories, boost, cooling, exhaust
from buildlint.mechanics import compressor, coolant
from buildlint.quantities import q

INCH, PSI, RPM, CFM, HP = 0.0254, 6894.757293, 2 * pi / 60, 4.719474e-4, 745.6998716
GALLON_A_MINUTE = 3.785411784e-3 / 60
SEA = 101325.0
CELSIUS = 273.15

# A street V8 of 4.030 x 3.480 in at 6200 rpm, and the same with 10 psi; worked by hand.
CYLINDER = pi / 4 * (4.030 * INCH) ** 2 * 3.480 * INCH
ENGINE = 8 * CYLINDER
TEN_PSI = boost.pressure_ratio(SEA, 10 * PSI)


# -- the charge ---------------------------------------------------------------------------------------------


def test_ten_pounds_are_a_pressure_ratio_of_one_point_six_eight():
    assert TEN_PSI == pytest.approx(1.680, abs=5e-4)
    assert boost.pressure_ratio(84310.0, 10 * PSI) == pytest.approx(1.818, abs=5e-4)  # at 5000 ft


def test_losses_before_and_behind_the_compressor_are_its_own_to_make_good():
    assert boost.compressor_pressure_ratio(SEA, 9 * PSI, None, 1 * PSI) == pytest.approx(TEN_PSI)
    assert boost.compressor_pressure_ratio(SEA, 10 * PSI, 2000.0) == pytest.approx((SEA + 10 * PSI) / (SEA - 2000.0))


@pytest.mark.parametrize("efficiency, celsius, density", [(0.50, 120.3, 1.273), (0.62, 101.9, 1.336), (0.72, 91.2, 1.375), (0.74, 89.4, 1.382)])
def test_a_poor_compressor_heats_more_and_packs_less(efficiency, celsius, density):
    outlet = boost.compressor_outlet_temperature(298.15, TEN_PSI, efficiency)
    assert outlet - CELSIUS == pytest.approx(celsius, abs=0.06)
    assert boost.density_ratio(TEN_PSI, 298.15, outlet) == pytest.approx(density, abs=6e-4)


def test_a_cooler_takes_the_worked_charge_to_forty_eight_degrees_and_twelve_percent_more_air():
    outlet = boost.compressor_outlet_temperature(298.15, TEN_PSI, 0.62)
    charge = boost.boost_charge_temperature__cooled(outlet, 0.70, 298.15)
    assert charge - CELSIUS == pytest.approx(48.06, abs=0.02)
    manifold = boost.pressure_ratio(SEA, 9 * PSI)  # one pound is lost in the core
    assert boost.density_ratio(manifold, 298.15, charge) == pytest.approx(1.497, abs=1e-3)


def test_the_worked_drive_takes_forty_four_kilowatts():
    outlet = boost.compressor_outlet_temperature(298.15, TEN_PSI, 0.62)
    assert boost.boost_drive_power(0.5411, 298.15, outlet) == pytest.approx(43.98e3, rel=1e-3)
    assert boost.boost_drive_power(0.5411, 298.15, outlet, 0.90) == pytest.approx(43.98e3 * 0.95 / 0.90, rel=1e-3)


@pytest.mark.parametrize("static, pounds, default, linear", [(9.0, 10, 13.04, 15.12), (8.5, 8, 11.59, 13.13)])
def test_ratio_under_boost_by_two_of_the_formulas_in_use(static, pounds, default, linear):
    ratio = boost.pressure_ratio(SEA, pounds * PSI)
    assert boost.boosted_compression_ratio(static, ratio) == pytest.approx(default, abs=6e-3)
    assert boost.boosted_compression_ratio_linear(static, ratio) == pytest.approx(linear, abs=6e-3)


def test_fuel_through_the_rotor_cools_only_where_it_is_written():
    assert boost.charge_temperature_uncooled(360.0, 30.0) == 330.0
    assert boost.charge_temperature_uncooled(360.0) == 360.0


def test_only_an_air_cooler_may_take_its_air_for_granted():
    assert boost.charge_coolant_temperature__outside_air("air_to_air", 305.0) == 305.0
    assert boost.charge_coolant_temperature__outside_air("ice_water", 305.0) is None
    assert boost.boost_charge_temperature__uncooled("none", 370.0) == 370.0
    assert boost.boost_charge_temperature__uncooled("air_to_air", 370.0) is None


@given(st.floats(1.01, 3.5), st.floats(0.35, 0.82), st.floats(260.0, 320.0))
def test_density_gains_less_than_pressure_and_always_something(ratio, efficiency, inlet):
    outlet = boost.compressor_outlet_temperature(inlet, ratio, efficiency)
    assert outlet > inlet
    assert boost.density_ratio(ratio, inlet, outlet) <= ratio
    assert boost.density_ratio(ratio, inlet, compressor.cooled(outlet, inlet, 1.0)) == pytest.approx(ratio)
    if efficiency > 0.55:
        assert boost.density_ratio(ratio, inlet, outlet) > 1


# -- the blower and the bottle --------------------------------------------------------------------------------


@pytest.mark.parametrize("kind, liters, drive, pressure_ratio, pounds", [("two_lobe", 6.74, 0.90, 1.564, 8.28), ("high_helix", 2.30, 2.10, 1.527, 7.75)])
def test_worked_blowers_make_the_worked_boost(kind, liters, drive, pressure_ratio, pounds):
    expected = boost.blower_pressure_expected(boost.blower_delivery(kind), liters * 1e-3, drive, ENGINE, SEA)
    assert expected / SEA + 1 == pytest.approx(pressure_ratio, abs=1e-3)
    assert expected / PSI == pytest.approx(pounds, abs=0.02)


def test_the_worked_rotor_turns_thirteen_thousand():
    ratio = boost.blower_drive_ratio(6.72 * INCH, 3.2 * INCH)
    assert ratio == pytest.approx(2.10)
    assert boost.blower_speed(6200 * RPM, ratio) / RPM == pytest.approx(13020)
    assert boost.blower_speed_overspeed(6820 * RPM, ratio) / RPM == pytest.approx(14322)
    assert boost.blower_drive_ratio(7.0 * INCH, 3.5 * INCH, 3.6) == pytest.approx(7.2)


def test_a_cooler_behind_a_screw_takes_a_little_of_its_delivery():
    assert boost.blower_delivery("twin_screw", "none") == 0.92
    assert boost.blower_delivery("twin_screw", "air_to_water") == 0.85
    assert boost.blower_delivery("centrifugal") is None


def test_a_shot_of_150_horsepower_at_5000_is_158_foot_pounds():
    torque = boost.nitrous_torque(150 * HP, 5000 * RPM)
    assert torque / 1.355817948 == pytest.approx(157.6, abs=0.1)
    assert boost.nitrous_torque(150 * HP, 5000 * RPM, True) == 0
    assert 4 * pi * torque / ENGINE == pytest.approx(4.613e5, rel=1e-3)  # 4.613 bar of mean pressure


# -- coolant -----------------------------------------------------------------------------------------------------


def test_heat_into_the_coolant_is_seven_tenths_of_the_power_and_half_of_that_on_the_street():
    heat = cooling.coolant_heat(500 * HP)
    assert heat == pytest.approx(0.70 * 372850, rel=1e-4)
    assert cooling.coolant_heat_sustained(heat, "marine") == heat
    assert cooling.coolant_heat_sustained(heat, "street") == heat / 2
    assert cooling.coolant_heat_sustained(heat, "drag_race") is None


@pytest.mark.parametrize("glycol, gallons", [(0.0, 154.9), (0.5, 171.7)])
def test_eight_kelvin_want_the_worked_flow(glycol, gallons):
    assert coolant.flow_for_rise(316.9e3, 8.0, glycol) / GALLON_A_MINUTE == pytest.approx(gallons, rel=1e-3)


def test_110_gallons_of_half_glycol_warm_by_twelve_and_a_half_kelvin():
    assert cooling.coolant_temperature_rise(316.9e3, 110 * GALLON_A_MINUTE, 0.5) == pytest.approx(12.49, abs=0.01)


def test_a_450_horsepower_boat_on_90_gallons_of_water_warms_by_ten_kelvin():
    heat = cooling.coolant_heat_sustained(cooling.coolant_heat(450 * HP), "marine")
    assert cooling.coolant_temperature_rise(heat, 90 * GALLON_A_MINUTE, 0.0) == pytest.approx(10.2, abs=0.05)


@pytest.mark.parametrize("pounds, water, half", [(0, 100.0, 108.0), (7, 111.3, 119.9), (13, 118.8, 127.8), (15, 121.0, 130.1), (16, 122.0, 131.2),
                                                (20, 126.0, 135.4), (24, 129.6, 139.2), (30, 134.4, 144.3)])
def test_coolant_boils_where_the_worked_table_says(pounds, water, half):
    assert cooling.coolant_boiling_temperature(pounds * PSI, SEA, 0.0) - CELSIUS == pytest.approx(water, abs=0.06)
    assert cooling.coolant_boiling_temperature(pounds * PSI, SEA, 0.5) - CELSIUS == pytest.approx(half, abs=0.06)


def test_fifteen_pounds_at_five_thousand_feet_boil_three_kelvin_earlier():
    assert cooling.coolant_boiling_temperature(15 * PSI, 84310.0, 0.0) - CELSIUS == pytest.approx(118.2, abs=0.06)
    assert cooling.coolant_boiling_temperature(15 * PSI, 84310.0, 0.5) - CELSIUS == pytest.approx(127.2, abs=0.06)


def test_half_glycol_is_three_quarters_water_by_molecules():
    assert coolant.water_share(0.5) == pytest.approx(0.7555, abs=5e-5)


@given(st.floats(0.0, 210e3), st.floats(60e3, 105e3), st.floats(0.0, 0.6))
def test_boiling_rises_with_cap_air_and_glycol_and_turns_back(cap, air, glycol):
    here = cooling.coolant_boiling_temperature(cap, air, glycol)
    assert cooling.coolant_boiling_temperature(cap + 5e3, air, glycol) > here
    assert cooling.coolant_boiling_temperature(cap, air + 2e3, glycol) > here
    assert cooling.coolant_boiling_temperature(cap, air, glycol + 0.05) > here
    assert coolant.boiling_pressure(here, glycol) == pytest.approx(cap + air, rel=1e-6)


def test_a_belt_driven_pump_moves_as_it_turns_and_never_more_than_its_sheet():
    full, half = (cooling.coolant_flow__of_belt_pump(1.0, 6000 * RPM, speed * RPM, 6.0, 6.0) for speed in (9000, 3000))
    assert (full, half) == (1.0, pytest.approx(0.5))
    assert cooling.coolant_flow__of_electric_pump(1.0, "electric") == 1.0
    assert cooling.coolant_flow__of_electric_pump(1.0, "belt") is None
    assert cooling.water_pump_speed(7000 * RPM, 6.6, 6.1) / RPM == pytest.approx(7574, abs=1)
    assert cooling.water_pump_speed(7000 * RPM, 6.6, 6.1, "electric") is None


# -- exhaust -----------------------------------------------------------------------------------------------------


def test_primaries_of_the_worked_engine():
    area = CYLINDER * 4800 * RPM / (pi * 74.7)
    assert area / INCH**2 == pytest.approx(2.416, abs=3e-3)
    assert (4 * area / pi) ** 0.5 / INCH == pytest.approx(1.754, abs=1e-3)
    inside = exhaust.primary_inside_diameter(1.75 * INCH, 0.065 * INCH)
    speed = exhaust.primary_gas_speed(CYLINDER, 4800 * RPM, exhaust.primary_area(inside))
    assert speed == pytest.approx(87.52, abs=0.01)
    assert 4800 * 74.7 / speed == pytest.approx(4096, abs=2)


def test_boost_widens_the_primaries_by_most_of_its_density_and_nothing_narrows_them():
    assert exhaust.exhaust_charge_factor(1.0) == 1.0
    assert exhaust.exhaust_charge_factor(1.5) == pytest.approx(1.275)
    plain = exhaust.primary_gas_speed(CYLINDER, 4800 * RPM, 1.4e-3)
    assert exhaust.primary_gas_speed(CYLINDER, 4800 * RPM, 1.4e-3, 1.275) == pytest.approx(1.275 * plain)


def test_the_old_rule_gives_thirty_six_inches():
    speed = exhaust.primary_tuning_speed(4800 * RPM, 6200 * RPM)
    assert speed / RPM == pytest.approx(5500)
    assert exhaust.primary_length_wanted(radians(72), speed) / INCH == pytest.approx(35.95, abs=0.01)


def test_exhaust_opening_by_event_duration_or_fifty_thousandths():
    assert exhaust.exhaust_opening_seat__of_event(radians(81)) == radians(81)
    assert exhaust.exhaust_opening_seat__of_duration(radians(286), radians(118)) == pytest.approx(radians(81))
    assert exhaust.exhaust_opening_seat__of_event_at_050(radians(56)) == pytest.approx(radians(81))


def test_collector_and_pipes_of_the_worked_engine():
    assert exhaust.collector_ratio(3.0, 1.75) == pytest.approx(1.714, abs=5e-4)
    flow = exhaust.exhaust_gas_flow(0.3382, 12.8 / 14.6, 14.6)
    assert exhaust.exhaust_pipe_speed(flow, 2.37 * INCH, 2) == pytest.approx(126.6, abs=0.1)


# -- accessories ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("idle, crank, own, wanted", [(800, 6.6, 2.5, 2112), (750, 7.0, 2.6, 2019), (750, 5.0, 2.6, 1442)])
def test_alternators_at_idle(idle, crank, own, wanted):
    assert accessories.alternator_speed_idle(idle * RPM, crank, own) / RPM == pytest.approx(wanted, abs=0.5)


def test_alternator_and_belt_at_the_limiter():
    assert accessories.alternator_speed(7000 * RPM, 6.6, 2.5) / RPM == pytest.approx(18480)
    assert accessories.belt_speed(7000 * RPM, 6.6 * INCH) == pytest.approx(61.44, abs=0.01)


def test_alternator_output_rises_to_its_rating_and_is_nothing_when_it_hardly_turns():
    shares = [accessories.alternator_current_idle(100.0, speed * RPM) for speed in (500, 1000, 1500, 1800, 2400, 6000, 9000)]
    assert shares == sorted(shares) and shares[0] == shares[1] == 0 and shares[-1] == shares[-2] == 100
    assert shares[3] == pytest.approx(43)


@pytest.mark.parametrize("induction, air, blow_by", [("natural", 605.2, 9.078), ("turbocharged", 877.7, 26.33)])
def test_blow_by_of_the_worked_engines(induction, air, blow_by):
    assert accessories.blow_by(air * CFM, induction) / CFM == pytest.approx(blow_by, abs=0.01)


def test_two_hoses_of_seventeen_millimeters_let_the_boosted_engine_breathe_at_26_meters_a_second():
    area = accessories.breather_area([17.48e-3, 17.48e-3])
    assert accessories.breather_speed(26.33 * CFM, area) == pytest.approx(25.9, abs=0.05)
    assert accessories.breather_area([]) is None


def test_every_usual_value_lies_inside_its_band():
    from buildlint.tables import compressors

    for kind, usual in compressors.USUAL_EFFICIENCY.items():
        assert usual < compressors.GOOD_EFFICIENCY[kind] <= compressors.BEST_EFFICIENCY[kind] < 0.85
    assert set(compressors.DELIVERY) == set(compressors.DISPLACING)
    assert q("16 inHg") == pytest.approx(54.18e3, rel=1e-3)
