"""Springs, pushrods and rockers against published examples, another library, and independent methods.

Each test says which it is. Frozen numbers carry their book; "from memory" where the page was not at hand, in which
case the number was worked again from the book's inputs.
"""

import math

import numpy
import pytest
from me_toolbox.springs import HelicalCompressionSpring
from scipy.integrate import quad
from scipy.linalg import eigh
from scipy.optimize import brentq

from buildlint import road
from buildlint.formulas import guides_and_seats, pushrods, rockers, spring_coils, springs, valves
from buildlint.mechanics import beam, column, flank_push, helical_spring, lobe, rocker
from buildlint.quantities import q

INCH, LBF, PSI = 0.0254, 4.4482216152605, 6894.757293168


# -- published: springs ---------------------------------------------------------------------------------


def test_published_trade_example_of_a_load_at_full_lift():
    """Trade press: 100 lb at 1.750 in, 300 lb/in, 0.500 in of lift are 250 lb."""
    assert springs.spring_open_load__from_reference(q("100 lbf"), q("1.750 in"), q("300 lbf/in"), q("1.250 in")) == pytest.approx(250 * LBF, rel=1e-12)


def spec(text, rule):
    report = road.check("oracle.yaml", text=text.encode(), chosen=[one for one in road.rules() if one.id == rule])
    return [finding for finding in report.findings if finding.rule == rule and finding.scope == ("intake",)]


def test_published_service_sheet_gives_its_rate_and_its_misprint_is_found():
    """A 5.7 L V8's sheet: 340 N at 45.75 mm, 980 N at 35.55 mm: 62.745 N/mm. It prints 1.32 in for 35.55 mm, which is 1.40."""
    table = [(0.04575, 340.0), (0.03555, 980.0)]
    assert springs.spring_rate(table, 0.04575, 0.03555) == pytest.approx(62745, rel=1e-4)
    text = "intake:\n  spring:\n    rate: 62.745 N/mm\n    installed_height: 1.80 in\n    load_table: [[1.80 in, 76 lbf], [%s, 220 lbf]]\n" \
           "  lobe: {lift: %s}\nrockers: {ratio: 1.0}\n"
    (found,) = spec(text % ("1.32 in", "0.48 in"), "spring-rate-agrees-with-loads")
    assert (found.kind, found.level) == ("fail", "warning")
    (found,) = spec(text % ("1.3996 in", "0.4004 in"), "spring-rate-agrees-with-loads")
    assert found.kind == "pass"


def test_published_service_sheet_of_a_v6_agrees_with_its_free_length():
    """A 3.3 L V6's sheet: 97.5 lbf at 1.570 in, 218 lbf at 1.169 in; free length 1.909 in: 300.5 lbf/in, 0.8 percent off."""
    rate = springs.spring_rate([(1.570 * INCH, 97.5 * LBF), (1.169 * INCH, 218 * LBF)], 1.570 * INCH, 1.169 * INCH)
    assert rate == pytest.approx(300.5 * LBF / INCH, rel=1e-3)
    free = spring_coils.free_length_by_rate(1.570 * INCH, 97.5 * LBF, rate)
    assert free == pytest.approx(1.8945 * INCH, rel=1e-3)
    assert abs(1.909 * INCH / free - 1) == pytest.approx(0.008, abs=0.001)


def test_published_concentric_springs_share_their_load():
    """Bhandari, Design of Machine Elements, Example 10.19: 706.02 and 293.98 N, 24.9888 mm, 375.31 and 225.03 N/mm2."""
    modulus = 81370e6
    outer, inner = helical_spring.rate(0.006, 0.036, 10, modulus), helical_spring.rate(0.005, 0.030, 8, modulus)
    travel = (1000 + inner * 0.015) / (outer + inner)
    loads = outer * travel, inner * (travel - 0.015)
    assert travel == pytest.approx(0.0249888, rel=5e-4)
    assert loads == pytest.approx((706.02, 293.98), rel=5e-4)
    stresses = [helical_spring.wahl_factor(mean / wire) * helical_spring.shear_stress(load, wire, mean)
                for load, wire, mean in zip(loads, (0.006, 0.005), (0.036, 0.030))]
    assert stresses == pytest.approx((375.31e6, 225.03e6), rel=5e-4)


def test_published_sheet_after_the_standard_gives_its_rate():
    """A public worked sheet after EN 13906-1: d 5, D 34.6, n 9.5, G 81500 N/mm2: 16.181 N/mm."""
    assert helical_spring.rate(0.005, 0.0346, 9.5, 81500e6) == pytest.approx(16181, rel=1e-4)


def test_frozen_number_of_another_library():
    """springcalc 0.1.24: Wahl 1.212857 at index 7; 17.829 N/mm for G 79.5 GPa, d 4, D 28 and 6.5 active coils."""
    assert helical_spring.wahl_factor(7.0) == pytest.approx(1.212857, rel=1e-6)
    assert helical_spring.rate(0.004, 0.028, 6.5, 79.5e9) == pytest.approx(17829, rel=1e-4)


def test_published_surge_example():
    """Shigley, Mechanical Engineering Design, Example 10-4 (from memory): 48.1 lbf/in, 0.0586 lbf, 281 Hz."""
    wire, mean = 0.092 * INCH, (0.5625 - 0.092) * INCH
    stiffness = helical_spring.rate(wire, mean, 21, 11.75e6 * PSI)
    mass = helical_spring.active_mass(wire, mean, 21, 0.284 * 0.45359237 / INCH**3)
    assert stiffness == pytest.approx(48.1 * LBF / INCH, rel=5e-3)
    assert mass == pytest.approx(0.0586 * 0.45359237, rel=5e-3)
    assert helical_spring.first_frequency_of_mass(stiffness, mass) == pytest.approx(281, rel=5e-3)


def test_published_spring_strength_example():
    """Shigley, Mechanical Engineering Design, Example 10-1 (from memory): 0.037 in wire, OD 7/16: 6.46 lbf at yield, 4.13 lbf/in."""
    wire, mean = 0.037 * INCH, (0.4375 - 0.037) * INCH
    factor = helical_spring.curvature_factor(mean / wire)
    assert factor == pytest.approx(1.124, abs=5e-4)
    force = 145.9e3 * PSI / (factor * helical_spring.shear_stress(1.0, wire, mean))
    assert force == pytest.approx(6.46 * LBF, rel=5e-3)
    assert helical_spring.rate(wire, mean, 10.5, 11.85e6 * PSI) == pytest.approx(4.13 * LBF / INCH, rel=5e-3)


def test_published_limit_of_a_pushrod_spring_is_its_ninth_harmonic():
    """Rothbart, Cam Design Handbook, Fig. 16.7: 24,000 cycles per minute are good to 5333 rpm."""
    text = "build: {rev_limit: 5333 rpm}\nintake:\n  spring: {wire_diameter: %s mm, outside_diameter: 32.1 mm, active_coils: %s}\n"
    frequency, wire = 24000 / 60, 4.6
    coils = helical_spring.first_frequency(wire / 1000, 0.0321 - wire / 1000, 1.0, 79.5e9, 7850) / frequency
    (found,) = spec(text % (wire, coils), "spring-surge-order-is-high")
    assert found.value == pytest.approx(9.0006, rel=1e-4)


@pytest.mark.parametrize("order, speed", [(12, 4000), (10, 4800), (8, 6000), (7, 6857), (6, 8000), (5, 9600), (4, 12000)])
def test_published_harmonics_fall_where_the_handbook_draws_them(order, speed):
    """Rothbart, Cam Design Handbook, Fig. 16.7: harmonics of 24,000 cycles per minute over crank speed."""
    assert 24000 / (speed / 2) == pytest.approx(order, rel=1e-3)
    text = f"build: {{rev_limit: {speed} rpm}}\nintake:\n  spring: {{wire_diameter: 4.6 mm, outside_diameter: 32.1 mm, active_coils: %s}}\n"
    coils = helical_spring.first_frequency(0.0046, 0.0275, 1.0, 79.5e9, 7850) / 400
    (found,) = spec(text % coils, "spring-surge-order-is-high")
    assert found.value == pytest.approx(order, rel=1e-3)


# -- another library: springs -----------------------------------------------------------------------------


@pytest.mark.parametrize("wire, mean, coils, force", [
    (4.6, 27.5, 4.0, 1304.45), (4.0, 28.0, 6.0, 500.0), (3.2, 19.0, 5.2, 420.0), (5.2, 31.0, 3.6, 2100.0), (6.0, 36.0, 10.0, 706.02)])
def test_another_library_gives_the_same_factors_stress_and_frequency(wire, mean, coils, force):
    """me-toolbox 0.0.18, a third-party package (its own rate counts direct shear too and is not compared)."""
    modulus, density = 79500.0, 7850.0
    stiffness = helical_spring.rate(wire / 1000, mean / 1000, coils, modulus * 1e6)
    other = HelicalCompressionSpring(
        max_force=force, wire_diameter=wire, spring_diameter=mean, ultimate_tensile_strength=2000, shear_yield_percent=0.45,
        shear_modulus=modulus, elastic_modulus=206e3, end_type="squared and ground", spring_rate=stiffness / 1000)
    index = mean / wire
    assert helical_spring.wahl_factor(index) == pytest.approx(other.factor_Kw, rel=1e-9)
    assert helical_spring.curvature_factor(index) == pytest.approx(other.factor_KB, rel=1e-9)
    assert spring_coils.shear_stress_open(force, wire / 1000, mean / 1000, index) == pytest.approx(
        other.calc_shear_stress(force, other.factor_KB) * 1e6, rel=1e-9)
    mass = helical_spring.active_mass(wire / 1000, mean / 1000, coils, density)
    assert helical_spring.first_frequency(wire / 1000, mean / 1000, coils, modulus * 1e6, density) == pytest.approx(
        math.sqrt(stiffness / mass) / 2, rel=1e-12)


# -- independent methods: springs ---------------------------------------------------------------------------


def test_a_helix_stores_the_energy_that_the_rate_says():
    """Castigliano's theorem integrated along the wire with scipy: twist F D/2 over G J, J = pi d^4 / 32."""
    wire, mean, coils, modulus, force = 0.0046, 0.0275, 4.0, 79.5e9, 1000.0
    polar = math.pi * wire**4 / 32
    energy, _ = quad(lambda angle: (force * mean / 2) ** 2 / (2 * modulus * polar) * mean / 2, 0, 2 * math.pi * coils)
    assert helical_spring.rate(wire, mean, coils, modulus) == pytest.approx(force**2 / (2 * energy), rel=1e-9)


def test_a_chain_of_masses_rings_at_the_surge_frequency():
    """An eigenvalue problem with scipy: 200 springs and 199 masses between two fixed ends."""
    wire, mean, coils, modulus, density = 0.0046, 0.0275, 4.0, 79.5e9, 7850.0
    pieces = 200
    stiffness = helical_spring.rate(wire, mean, coils, modulus) * pieces
    mass = helical_spring.active_mass(wire, mean, coils, density) / pieces
    size = pieces - 1
    matrix = stiffness * (2 * numpy.eye(size) - numpy.eye(size, k=1) - numpy.eye(size, k=-1))
    lowest = math.sqrt(eigh(matrix, mass * numpy.eye(size), eigvals_only=True, subset_by_index=[0, 0])[0]) / (2 * math.pi)
    assert helical_spring.first_frequency(wire, mean, coils, modulus, density) == pytest.approx(lowest, rel=1e-4)


# -- published: valves ----------------------------------------------------------------------------------


@pytest.mark.parametrize("diameter, pressure, weight, expected, tolerance", [
    pytest.param(0.032, 0.03e6, -0.4905, 24.618, 1e-4, id="Bhandari, Example 10.15: 24.127 + 0.4905 N"),
    pytest.param(0.080, 0.02e6, 3.92, 96.61, 1e-3, id="Khurmi and Gupta, Example 32.7: 96.6 N"),
    pytest.param(0.051, 0.025e6, 3.0, 48.07, 2e-3, id="Khurmi and Gupta, Example 32.8: 48 N"),
])
def test_published_force_of_pressure_on_a_valve(diameter, pressure, weight, expected, tolerance):
    area = valves.seat_area(diameter, 0.0)
    assert valves.pressure_lift_force("intake", area, pressure) - weight == pytest.approx(expected, rel=tolerance)


def test_published_seat_insert_fit():
    """TM 5-6115-400-35, table 2.1: insert 1.6445 to 1.6455 in, bore 1.6415 to 1.6425 in: 0.002 to 0.004 in of press."""
    for insert, bore, press in (("1.6445 in", "1.6425 in", "0.002 in"), ("1.6455 in", "1.6415 in", "0.004 in")):
        assert guides_and_seats.seat_insert_interference(q(insert), q(bore)) == pytest.approx(q(press), rel=1e-9)


def test_published_guide_clearance():
    """A published shop example: guide 0.342 less stem 0.340 is 0.002 in."""
    assert guides_and_seats.guide_stem_clearance(q("0.342 in"), q("0.340 in")) == pytest.approx(q("0.002 in"), rel=1e-9)


# -- published and independent: rockers -----------------------------------------------------------------


def test_published_load_on_a_rockers_pivot():
    """Khurmi and Gupta, A Textbook of Machine Design, Example 32.8: arms of 885 N at 160 degrees: 1743 N."""
    assert rockers.rocker_fulcrum_load(1.0, 885.0, math.radians(160)) == pytest.approx(1743.1, rel=5e-4)


@pytest.mark.parametrize("load, ratio, push", [(810, 1.7, 1377), (500, 1.5, 750)])
def test_published_push_of_a_rocker(load, ratio, push):
    """Trade press: 810 lbf at 1.7 push 1377 lbf, 500 at 1.5 push 750."""
    assert pushrods.pushrod_static_load(ratio, load * LBF) == pytest.approx(push * LBF, rel=1e-12)


@pytest.mark.parametrize("arm, lift", [(1.65, 0.600), (1.60, 0.550), (1.65, 0.800)])
def test_a_swinging_arm_sweeps_what_the_formula_says(arm, lift):
    """The tip's circle followed point by point: valve from shut to open, arm square to the stem at half lift."""
    rise = numpy.linspace(-lift / 2, lift / 2, 20001)
    across = numpy.sqrt(arm**2 - rise**2)
    assert rocker.least_sweep(arm, lift) == pytest.approx(across.max() - across.min(), rel=1e-6)
    rise = numpy.linspace(0, lift, 20001)
    across = numpy.sqrt(arm**2 - rise**2)
    assert rocker.sweep_from_square_when_shut(arm, lift) == pytest.approx(across.max() - across.min(), rel=1e-6)


def test_no_other_setting_of_the_arm_sweeps_less():
    arm, lift = 1.65, 0.600
    sweeps = []
    for below in numpy.linspace(0, lift, 121):
        rise = numpy.linspace(-below, lift - below, 2001)
        across = numpy.sqrt(arm**2 - rise**2)
        sweeps.append(across.max() - across.min())
    assert min(sweeps) == pytest.approx(rocker.least_sweep(arm, lift), rel=1e-3)


# -- published: columns ---------------------------------------------------------------------------------


def round_bar(diameter, length, modulus, strength):
    return column.buckling_load(math.pi / 4 * diameter**2, math.pi / 64 * diameter**4, length, modulus, strength)


def test_published_tube_on_pins():
    """Gere and Goodno, Mechanics of Materials, 7th ed., Problem 11.4-2: tube 40/36 mm, 1.2 m, 210 GPa: 62.2 kN."""
    area, moment = column.tube_area(0.040, 0.002), column.tube_second_moment(0.040, 0.002)
    assert moment == pytest.approx(43.22e-9, rel=1e-3)
    assert column.buckling_load(area, moment, 1.2, 210e9, 1e9) == pytest.approx(62.2e3, rel=1e-3)


def test_published_slender_bar():
    """Mott, Machine Elements in Mechanical Design: 1.25 in bar, 54 in long, SAE 1020, 51 ksi: 12,169 lbf."""
    assert round_bar(1.25 * INCH, 54 * INCH, 30e6 * PSI, 51e3 * PSI) == pytest.approx(12169 * LBF, rel=5e-4)


@pytest.mark.parametrize("strength, diameter", [
    pytest.param(48e3, 1.0959, id="Johnson, 48 ksi: 1.096 in"), pytest.param(1e9, 1.0657, id="Euler: 1.0657 in")])
def test_published_column_sizes(strength, diameter):
    """Faires, Design of Machine Elements, Problem 334: 10 kip with a factor of 3 over 25 in."""
    found = brentq(lambda size: round_bar(size * INCH, 25 * INCH, 30e6 * PSI, strength * PSI) - 30e3 * LBF, 0.5, 2.0)
    assert found == pytest.approx(diameter, rel=5e-4)


def test_published_pushrod_size():
    """A push-rod example after Khurmi and Gupta, Art. 16.14: 1400 N, factor 2.5, 300 mm, D = 1.25 d: 6.808 and 8.510 mm."""
    def lacking(outside):
        wall = (outside - outside / 1.25) / 2
        return column.buckling_load(column.tube_area(outside, wall), column.tube_second_moment(outside, wall), 0.3, 210e9, 1e9) - 3500
    assert brentq(lacking, 0.005, 0.02) == pytest.approx(0.008510, rel=5e-4)


def test_published_machine_column():
    """Shigley, Mechanical Engineering Design, Example 4-16 (from memory): 22 kN, factor 4, 1.5 m, 207 GPa: 37.48 mm."""
    found = brentq(lambda size: round_bar(size, 1.5, 207e9, 500e6) - 88e3, 0.02, 0.06)
    assert found == pytest.approx(0.03748, rel=5e-4)


# -- independent methods: columns and beams -----------------------------------------------------------------


def elements(length, pieces):
    """Bending stiffness, geometric stiffness and mass of Hermite beam elements, for unit E I and unit mass per length."""
    h = length / pieces
    bend = numpy.array([[12, 6 * h, -12, 6 * h], [6 * h, 4 * h * h, -6 * h, 2 * h * h],
                        [-12, -6 * h, 12, -6 * h], [6 * h, 2 * h * h, -6 * h, 4 * h * h]]) / h**3
    squeeze = numpy.array([[36, 3 * h, -36, 3 * h], [3 * h, 4 * h * h, -3 * h, -h * h],
                           [-36, -3 * h, 36, -3 * h], [3 * h, -h * h, -3 * h, 4 * h * h]]) / (30 * h)
    weigh = h / 420 * numpy.array([[156, 22 * h, 54, -13 * h], [22 * h, 4 * h * h, 13 * h, -3 * h * h],
                                   [54, 13 * h, 156, -22 * h], [-13 * h, -3 * h * h, -22 * h, 4 * h * h]])
    size = 2 * pieces + 2
    whole = [numpy.zeros((size, size)) for _ in range(3)]
    for number in range(pieces):
        part = slice(2 * number, 2 * number + 4)
        for matrix, element in zip(whole, (bend, squeeze, weigh)):
            matrix[part, part] += element
    free = [place for place in range(size) if place not in (0, size - 2)]  # both ends on pins
    return [matrix[numpy.ix_(free, free)] for matrix in whole]


@pytest.mark.parametrize("diameter, wall, length", [
    ("5/16 in", "0.080 in", "7.40 in"), ("5/16 in", "0.105 in", "7.80 in"), ("3/8 in", "0.135 in", "8.20 in"), ("7/16 in", "0.125 in", "10 in")])
def test_an_eigenvalue_problem_bows_the_rod_at_the_same_load(diameter, wall, length):
    """scipy: the smallest load at which the stiffness of a finite-element column on pins vanishes."""
    moment = column.tube_second_moment(q(diameter), q(wall))
    bend, squeeze, _ = elements(q(length), 40)
    load = 205e9 * moment / eigh(squeeze, bend, eigvals_only=True)[-1]
    found = pushrods.pushrod_buckling_load(q(diameter), q(wall), q(length), 5e9)
    assert found == pytest.approx(load, rel=1e-4)


@pytest.mark.parametrize("diameter, wall, length", [("5/16 in", "0.080 in", "7.40 in"), ("3/8 in", "0.080 in", "9.4 in")])
def test_an_eigenvalue_problem_rings_the_rod_at_the_same_frequency(diameter, wall, length):
    """scipy: lowest mode of a finite-element beam on pins with consistent mass."""
    area, moment = column.tube_area(q(diameter), q(wall)), column.tube_second_moment(q(diameter), q(wall))
    bend, _, weigh = elements(q(length), 40)
    lowest = eigh(205e9 * moment * bend, 7850 * area * weigh, eigvals_only=True)[0]
    assert pushrods.pushrod_bending_frequency(q(diameter), q(wall), q(length)) == pytest.approx(math.sqrt(lowest) / (2 * math.pi), rel=1e-4)
    assert beam.first_bending_frequency(205e9, moment, 7850, area, q(length)) == pytest.approx(math.sqrt(lowest) / (2 * math.pi), rel=1e-4)


def test_johnsons_parabola_meets_eulers_curve_with_one_slope():
    area, moment, modulus, strength = column.tube_area(0.008, 0.002), column.tube_second_moment(0.008, 0.002), 205e9, 900e6
    meeting = math.sqrt(2 * math.pi**2 * modulus / strength) * math.sqrt(moment / area)
    step = 1e-6
    before, at, after = (column.buckling_load(area, moment, meeting + off, modulus, strength) for off in (-step, 0, step))
    assert at == pytest.approx(strength * area / 2, rel=1e-9)
    assert (at - before) / step == pytest.approx((after - at) / step, rel=1e-3)


def test_a_grid_finds_the_same_highest_push():
    """Second differences on a fine grid of the lobe, in place of its derivative."""
    exponent, gain, inertia = 5.0544, 1.6667, 0.9
    shares = numpy.linspace(0, 1, 200001)
    heights = numpy.array([lobe.flank(float(share), exponent) for share in shares[::100]])
    step = shares[100] - shares[0]
    curvature = (heights[2:] - 2 * heights[1:-1] + heights[:-2]) / step**2
    grid = (1 + gain * heights[1:-1] + inertia * curvature).max()
    assert flank_push.highest_push(exponent, gain, inertia) == pytest.approx(grid, rel=1e-3)
