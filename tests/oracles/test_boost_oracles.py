"""Charge, coolant and gas speeds against published numbers and other programs.

"Published" numbers stand in a book, a standard's table or a trade chart and are frozen here with their source;
"independent" ones come from a general library that knows nothing of this program.
"""

from math import pi

import pytest
from chemicals.iapws import iapws95_Tsat
from CoolProp.CoolProp import PropsSI
from fluids.atmosphere import ATMOSPHERE_1976

from buildlint.formulas import boost, cooling, exhaust
from buildlint.mechanics import atmosphere, compressor, coolant
from buildlint.tables import glycol as antifreeze

PSI, CELSIUS, FEET, INCH = 6894.757293, 273.15, 0.3048, 0.0254
SEA = 101325.0
RPM = 2 * pi / 60


def fahrenheit(kelvin):
    return (kelvin - CELSIUS) * 1.8 + 32


# -- boiling water -------------------------------------------------------------------------------------------


@pytest.mark.parametrize("megapascal, kelvin", [(0.1, 372.755919), (1.0, 453.035632), (10.0, 584.149488)])
def test_published_saturation_temperatures_of_the_industrial_formulation(megapascal, kelvin):
    """Published: IAPWS R7-97, table 36."""
    assert coolant.saturation_temperature(megapascal * 1e6) == pytest.approx(kelvin, abs=1e-6)


@pytest.mark.parametrize("kelvin, megapascal", [(300.0, 0.353658941e-2), (500.0, 2.63889776), (600.0, 12.3443146)])
def test_published_saturation_pressures_of_the_industrial_formulation(kelvin, megapascal):
    """Published: IAPWS R7-97, table 35."""
    assert coolant.saturation_pressure(kelvin) / 1e6 == pytest.approx(megapascal, rel=1e-8)


@pytest.mark.parametrize("pounds", [0, 7, 13, 15, 16, 18, 22, 30])
def test_water_under_a_cap_boils_as_in_the_scientific_formulation(pounds):
    """Independent: IAPWS-95 as coded in chemicals, and the reference equation of CoolProp."""
    pressure = SEA + pounds * PSI
    ours = cooling.coolant_boiling_temperature(pounds * PSI, SEA, 0.0)
    assert ours == pytest.approx(iapws95_Tsat(pressure), abs=0.02)
    assert ours == pytest.approx(PropsSI("T", "P", pressure, "Q", 0, "Water"), abs=0.02)


def test_water_at_fifteen_pounds_boils_where_steam_tables_say():
    """Published: steam tables, 249.7 degF at 29.7 psia."""
    assert fahrenheit(cooling.coolant_boiling_temperature(15 * PSI, SEA, 0.0)) == pytest.approx(249.7, abs=0.1)


# -- coolant ---------------------------------------------------------------------------------------------------


# Bubble points of ethylene glycol and water by UNIFAC activities and the vapor pressures of both, degC at 0, 15 and 18 psi
# above one atmosphere; glycol by volume, poured cold. Computed once with the thermo library 0.6.1.
BUBBLE_POINTS = {0.0: (99.97, 120.95, 124.04), 0.3: (103.48, 124.84, 127.98), 0.5: (107.64, 129.40, 132.60), 0.6: (110.94, 133.02, 136.27)}


@pytest.mark.parametrize("glycol", list(BUBBLE_POINTS))
@pytest.mark.parametrize("case, pounds", [(0, 0), (1, 15), (2, 18)])
def test_coolant_boils_within_a_kelvin_and_a_half_of_an_activity_model(glycol, case, pounds):
    """Independent: UNIFAC, frozen."""
    ours = cooling.coolant_boiling_temperature(pounds * PSI, SEA, glycol)
    assert ours - CELSIUS == pytest.approx(BUBBLE_POINTS[glycol][case], abs=1.5)


@pytest.mark.parametrize("pounds, low, high", [(0, 223, 227), (15, 264, 267)])
def test_half_glycol_boils_where_labels_say(pounds, low, high):
    """Published on labels of coolant: 223 to 226 degF open, about 265 degF under 15 psi."""
    assert low <= fahrenheit(cooling.coolant_boiling_temperature(pounds * PSI, SEA, 0.5)) <= high


@pytest.mark.parametrize("glycol", [0.0, 0.3, 0.5, 0.57])
def test_a_stream_of_coolant_carries_the_heat_of_tabled_brines(glycol):
    """Independent: CoolProp's tabled ethylene glycol brines by mass, at 90 degC; within 1.5 percent."""
    by_mass = glycol * 1113 / (glycol * 1113 + (1 - glycol) * 998.2)
    fluid = f"INCOMP::MEG[{by_mass}]"
    density, heat = (PropsSI(name, "T", 363.15, "P", 2e5, fluid) for name in "DC")
    power, flow = 235e3, 5.7e-3
    assert coolant.temperature_rise(power, flow, glycol) == pytest.approx(power / (density * flow * heat), rel=0.015)


@pytest.mark.parametrize("share", [0.1, 0.2, 0.3, 0.4, 0.5, 0.6])
def test_glycol_by_volume_freezes_where_two_tables_say(share):
    """Independent: CoolProp's tables of ethylene glycol, ASHRAE's by volume, and another by mass, reckoned to the volume poured cold."""
    found = antifreeze.freezing_point(share)
    by_mass = share * 1113 / (share * 1113 + (1 - share) * 998.2)
    assert found == pytest.approx(PropsSI("T_freeze", "T", 300, "P", 1e5, f"INCOMP::AEG[{share}]"), abs=0.1)
    if by_mass < 0.6:
        assert found == pytest.approx(PropsSI("T_freeze", "T", 300, "P", 1e5, f"INCOMP::MEG[{by_mass}]"), abs=3.0)
    assert antifreeze.share_for(found) == pytest.approx(share)


@pytest.mark.parametrize("feet", [0, 2500, 5000, 9000])
def test_boiling_at_altitude_follows_the_standard_atmosphere(feet):
    """Independent: atmosphere of 1976 in fluids, which counts height over a round earth: 1.5 parts in ten thousand at 9000 ft."""
    air = ATMOSPHERE_1976(feet * FEET).P
    assert atmosphere.pressure_at(feet * FEET) == pytest.approx(air, rel=2e-4)
    assert cooling.coolant_boiling_temperature(15 * PSI, atmosphere.pressure_at(feet * FEET), 0.0) == pytest.approx(iapws95_Tsat(air + 15 * PSI), abs=0.02)


# -- the compressor ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("ratio", [1.3, 1.68, 2.4])
@pytest.mark.parametrize("efficiency", [0.50, 0.62, 0.75])
def test_the_charge_is_as_hot_as_real_air_would_be(ratio, efficiency):
    """Independent: enthalpy and entropy of real air by CoolProp; within 0.4 percent of the rise above zero kelvin."""
    inlet, pressure = 298.15, SEA
    entropy, enthalpy = (PropsSI(name, "T", inlet, "P", pressure, "Air") for name in "SH")
    ideal = PropsSI("H", "S", entropy, "P", ratio * pressure, "Air")
    outlet = PropsSI("T", "H", enthalpy + (ideal - enthalpy) / efficiency, "P", ratio * pressure, "Air")
    assert compressor.outlet_temperature(inlet, ratio, efficiency) == pytest.approx(outlet, rel=4e-3)


def test_a_published_supercharged_engine_gains_28_kilowatts():
    """Published: Mathur and Sharma, Internal Combustion Engine, example 17.1: 366.7 K and +27.7 kW.

    3.0 l, 3500 rpm, filling 0.80, 300 K, pressure ratio 1.7, efficiency 0.75, all mechanical efficiencies 0.80, 14 kW for
    each m3/min of free air. The book rounds the ideal outlet up to 350 K.
    """
    outlet = compressor.outlet_temperature(300.0, 1.7, 0.75)
    assert outlet == pytest.approx(366.7, rel=4e-3)
    swept = 3.0e-3 * 3500 / 2  # m3/min
    book = 366.7
    free = swept * boost.density_ratio(1.7, 300.0, book)
    gained = 14e3 * (free - 0.80 * swept) + 0.7 * 1.013e5 * swept / 60
    mass = 1.7 * 1.013e5 * swept / 60 / (287 * book)
    net = 0.80 * gained - boost.boost_drive_power(mass, 300.0, book, 0.80)
    assert net == pytest.approx(27.7e3, rel=5e-3)


def test_a_published_supercharger_takes_90_kilowatts():
    """Published: Rajput, Internal Combustion Engines, example 16.1: 90.47 kW.

    735 kW, 12.8 of air to fuel, 0.350 kg/kWh, 325 K, pressure ratio 1.6, efficiency 0.70, mechanical 0.90; the charge grows
    by the density ratio.
    """
    outlet = boost.compressor_outlet_temperature(325.0, 1.6, 0.70)
    natural = 735 * 0.350 / 3600 * 12.8
    mass = natural * boost.density_ratio(1.6, 325.0, outlet)
    assert boost.boost_drive_power(mass, 325.0, outlet, 0.90) == pytest.approx(90.47e3, rel=1e-3)


def test_published_points_of_boost_charts():
    """Published: a chart gives about 11.5 for 7.0:1 at 14.7 psi; a multiplying one 13.44 for 8:1 at 10 psi."""
    even = boost.pressure_ratio(SEA, 14.7 * PSI)
    assert boost.boosted_compression_ratio(7.0, even) == pytest.approx(11.5, rel=0.01)
    assert boost.boosted_compression_ratio_linear(8.0, boost.pressure_ratio(SEA, 10 * PSI)) == pytest.approx(13.44, rel=1e-3)


# -- gas speeds -----------------------------------------------------------------------------------------------------


def test_the_primary_rule_of_88200_is_245_feet_a_second():
    """Published trade rule: area in square inches = cubic inches of a cylinder x rpm / 88 200; exact algebra."""
    cubic_inches, speed = 44.4, 4800
    area = cubic_inches * speed / 88200
    ours = exhaust.primary_gas_speed(cubic_inches * INCH**3, speed * RPM, area * INCH**2)
    assert ours / FEET == pytest.approx(245.0, rel=1e-12)


def test_exhaust_gas_is_as_thin_as_burned_gasoline():
    """Independent: gas law with 28.4 g/mol, the mean weight of stoichiometric gasoline products, 450 degC and 105 kPa.

    Counting it as air, with 28.96, is 2 percent high in density.
    """
    flow = exhaust.exhaust_gas_flow(0.3382, 1.0, 14.6)
    burned = 0.3382 * (1 + 1 / 14.6) * 8.314462618 / 28.4e-3 * 723.15 / 105e3
    assert flow == pytest.approx(burned, rel=0.025)
