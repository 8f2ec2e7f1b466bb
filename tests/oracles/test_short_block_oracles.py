"""The short block against what others have published, and against methods that share no code with ours.

Published: numbers printed in a standard or book, named beside each. Independent method: another library (kimech,
sympy, scipy, chemicals) or a solution written here from the differential equation.
"""

import itertools
import math

import numpy
import pytest
import sympy
from chemicals import viscosity_index
from kimech import KinematicDriver, Mechanism, solve
from scipy import sparse
from scipy.linalg import eigvalsh
from sympy.physics.mechanics import Point, ReferenceFrame, dynamicsymbols

from buildlint import road
from buildlint.formulas import balance, bearings, engine, rods
from buildlint.mechanics import journal_bearing, oil_viscosity, slider_crank, torsion
from buildlint.tables import journal_bearing as bearing_table
from buildlint.tables import materials
from buildlint.tables.oil import HIGH_SHEAR, HIGH_SHEAR_LIGHT_40, HOT_GRADES, TYPICAL_VISCOSITY, WINTER_GRADES

RPM = math.pi / 30


# Slider-crank. Independent method: kimech solves the linkage numerically, sympy differentiates it.

def of_kimech(throw, rod, offset, degrees):
    """Position, velocity and acceleration of the piston pin along the bore, by kimech 0.7.0, at 6000 rpm."""
    mechanism = Mechanism("engine")
    crank_axis = mechanism.ground.add_point("crank axis", (0.0, 0.0))
    bore_axis = mechanism.ground.add_point("bore axis", (0.0, -offset))
    crank, connecting, piston = (mechanism.add_link(name) for name in ("crank", "rod", "piston"))
    journal, pin = crank.add_point("journal", (0.0, 0.0)), crank.add_point("pin", (throw, 0.0))
    big_end, small_end = connecting.add_point("big end", (0.0, 0.0)), connecting.add_point("small end", (rod, 0.0))
    wrist = piston.add_point("wrist pin", (0.0, 0.0))
    input_joint = mechanism.revolute(crank_axis, journal, name="input")
    mechanism.revolute(pin, big_end)
    mechanism.revolute(small_end, wrist)
    mechanism.prismatic(bore_axis, wrist, axis_a=(1.0, 0.0), axis_b=(1.0, 0.0))
    angles = numpy.radians(numpy.linspace(1, degrees, degrees))
    solution = solve(mechanism, drivers=KinematicDriver(input_joint, position=angles, velocity=200 * math.pi, acceleration=0.0),
                     initial_guess={crank: (0.0, 0.0, angles[0]), connecting: (throw, 0.0, -0.005), piston: (throw + rod, -offset, 0.0)})
    return [float(found(wrist)[degrees - 1, 0]) for found in
            (solution.point_positions, solution.point_velocities, solution.point_accelerations)]


@pytest.mark.parametrize("offset", [pytest.param(0.0, id="pin on the bore's axis"), pytest.param(0.0015, id="pin offset"),
                                    pytest.param(-0.0015, id="pin offset the other way")])
@pytest.mark.parametrize("degrees", [20, 76, 140])
def test_piston_motion_is_that_of_a_mechanism_solver(offset, degrees):
    throw, rod, angle, speed = 0.0442, 0.1448, math.radians(degrees), 200 * math.pi
    position, velocity, acceleration = of_kimech(throw, rod, offset, degrees)
    highest = math.sqrt((throw + rod) ** 2 - offset**2)
    assert highest - slider_crank.piston_drop(angle, throw, rod, offset) == pytest.approx(position, rel=1e-8)
    assert -slider_crank.piston_velocity(angle, throw, rod, speed, offset) == pytest.approx(velocity, rel=1e-8)
    assert -slider_crank.piston_acceleration(angle, throw, rod, speed, offset) == pytest.approx(acceleration, rel=1e-7)


def test_piston_motion_is_that_of_symbolic_differentiation():
    """Printed by both solvers: 0.148996 m, -29.030138 m/s, 671.088271 m/s2 at 76 degrees and 6000 rpm."""
    angle, (throw, rod, speed) = dynamicsymbols("angle"), sympy.symbols("throw rod speed")
    time = dynamicsymbols._t
    space = ReferenceFrame("space")
    web = space.orientnew("web", "Axis", [angle, space.z])
    lean = space.orientnew("lean", "Axis", [sympy.asin(-throw * sympy.sin(angle) / rod), space.z])
    axis = Point("axis")
    wrist = axis.locatenew("pin", throw * web.x).locatenew("wrist", rod * lean.x)
    along = wrist.pos_from(axis).dot(space.x)
    values = {throw: 0.0442, rod: 0.1448, speed: 200 * sympy.pi}
    found = []
    for order in range(3):
        expression = along.diff(time, order) if order else along
        expression = expression.subs(angle.diff(time, 2), 0).subs(angle.diff(time), speed).subs(angle, sympy.rad(76)).subs(values)
        found.append(float(expression))
    assert found == pytest.approx([0.148996, -29.030138, 671.088271], abs=5e-7)
    assert -slider_crank.piston_velocity(math.radians(76), 0.0442, 0.1448, 200 * math.pi) == pytest.approx(found[1], rel=1e-12)
    assert -slider_crank.piston_acceleration(math.radians(76), 0.0442, 0.1448, 200 * math.pi) == pytest.approx(found[2], rel=1e-10)


def test_acceleration_at_top_is_the_second_difference_of_position():
    throw, rod, speed, step = 0.0442, 0.1448, 680.7, 1e-4
    drops = [slider_crank.piston_drop(turn * step, throw, rod) for turn in (-1, 0, 1)]
    by_difference = (drops[0] - 2 * drops[1] + drops[2]) / step**2 * speed**2
    assert engine.piston_acceleration_top(throw, rod, speed) == pytest.approx(by_difference, rel=1e-6)


@pytest.mark.parametrize("bore, rod, rpm, mean, at_20, fallen", [
    pytest.param(0.0860, 0.172, 3000, 8.60, 5.71, 0.0032, id="Gupta, Fundamentals of Internal Combustion Engines, Ex. 16.1"),
    pytest.param(0.0860, 0.166, 3600, 10.32, 6.90, 0.0032, id="Pulkrabek, Engineering Fundamentals, Ex. 2-1 (from memory)"),
])
def test_published_piston_speeds(bore, rod, rpm, mean, at_20, fallen):
    """A square engine: stroke as bore; 20 degrees after top; printed to three figures, the book's table has 1 percent."""
    throw, speed, angle = bore / 2, rpm * RPM, math.radians(20)
    assert engine.piston_speed_mean(bore, speed) == pytest.approx(mean, abs=0.005)
    assert slider_crank.piston_velocity(angle, throw, rod, speed) == pytest.approx(at_20, rel=0.01)
    assert slider_crank.piston_drop(angle, throw, rod) == pytest.approx(fallen, abs=1e-4)


# Firing orders. Published: the orders of the trade; independent method: every order of the cylinders is tried.

SUITS = next(rule for rule in road.rules() if rule.id == "firing-order-suits-crank").function
TWO_HANDS = 2  # an engine that turns the other way fires the same cylinders the other way round


def orders_that_suit(**engine_words):
    count = engine_words["cylinders"]
    return {(1, *rest) for rest in itertools.permutations(range(2, count + 1)) if SUITS([1, *rest], **engine_words).kind == "pass"}


def turned_round(order):
    return (order[0], *reversed(order[1:]))


def test_a_cross_plane_v8_has_eight_orders_for_each_direction():
    """Pins at 0, 90, 270 and 180 degrees in pairs, banks 90 degrees apart: the eight that were enumerated beforehand."""
    pins = [math.radians(angle) for angle in (0, 0, 90, 90, 270, 270, 180, 180)]
    found = orders_that_suit(cylinders=8, layout="v", crank_throw_angles=pins, banks=[[1, 3, 5, 7], [2, 4, 6, 8]], bank_angle=math.radians(90))
    published = {tuple(map(int, order)) for order in ("18436572", "18736542", "18426573", "18726543", "15436872", "15736842", "15426873", "15726843")}
    assert published <= found
    assert found == published | {turned_round(order) for order in published}
    assert len(found) == TWO_HANDS * 8


def test_a_straight_six_has_four_orders_for_each_crank():
    pins = [math.radians(angle) for angle in (0, 240, 120, 120, 240, 0)]
    found = orders_that_suit(cylinders=6, layout="inline", crank_throw_angles=pins)
    one_hand = {tuple(map(int, order)) for order in ("153624", "123654", "124653", "154623")}
    other_hand = {tuple(map(int, order)) for order in ("142635", "132645", "135642", "145632")}
    assert found == one_hand | other_hand


def test_changing_companions_of_an_order_that_suits_gives_another():
    pins = [math.radians(angle) for angle in (0, 0, 90, 90, 270, 270, 180, 180)]
    words = dict(cylinders=8, layout="v", crank_throw_angles=pins, banks=[[1, 3, 5, 7], [2, 4, 6, 8]], bank_angle=math.radians(90))
    for order in orders_that_suit(**words):
        for place in range(1, 4):
            swapped = list(order)
            swapped[place], swapped[place + 4] = swapped[place + 4], swapped[place]
            assert SUITS(swapped, **words).kind == "pass"


# Loads on rods. Published.

@pytest.mark.parametrize("mass, rpm, throw, rod, force", [
    pytest.param(2.25, 1800, 0.095, 0.380, 9493, id="Khurmi and Gupta, A Textbook of Machine Design, Ex. 32.3"),
    pytest.param(1.5, 3000, 0.070, 0.350, 12440, id="same book, a problem with stroke 140"),
    pytest.param(1.6, 3000, 0.0625, 0.300, None, id="same book, a problem with stroke 125"),
])
def test_inertia_force_of_a_textbook(mass, rpm, throw, rod, force):
    found = rods.rod_beam_load(mass, throw, rod, rpm * RPM)
    if force:
        assert found == pytest.approx(force, rel=1e-3)
    assert found == pytest.approx(mass * engine.piston_acceleration_top(throw, rod, rpm * RPM))
    assert rods.rod_inertia_load(mass, 0.0, throw, rod, rpm * RPM) == pytest.approx(found)


def test_big_end_load_is_newtons_law_on_the_moving_masses():
    """Independent method: piston by differences of its position, big end by differences of its circle, at top."""
    reciprocating, big_end, throw, rod, speed, step = 0.70, 0.45, 0.0442, 0.1448, 680.7, 1e-4
    heights = [-slider_crank.piston_drop(turn * step, throw, rod) for turn in (-1, 0, 1)]
    circle = [throw * math.cos(turn * step) for turn in (-1, 0, 1)]
    pulls = [mass * (place[0] - 2 * place[1] + place[2]) / step**2 * speed**2 for mass, place in ((reciprocating, heights), (big_end, circle))]
    assert bearings.big_end_inertia_load(reciprocating, big_end, throw, rod, speed) == pytest.approx(-sum(pulls), rel=1e-6)


# Journal bearing. Published: Raimondi and Boyd; Shigley; Jindal; Friswell et al.

RAIMONDI_AND_BOYD = {  # Transactions ASLE 1 (1958), 159-209; as tabled by Hamrock
    1.0: {0.1: 1.33, 0.2: 0.631, 0.4: 0.264, 0.6: 0.121, 0.8: 0.0446, 0.9: 0.0188},
    0.5: {0.1: 4.31, 0.2: 2.03, 0.4: 0.779, 0.6: 0.319, 0.8: 0.0923, 0.9: 0.0313},
    0.25: {0.1: 16.2, 0.2: 7.57, 0.4: 2.83, 0.6: 1.07, 0.8: 0.261, 0.9: 0.0736},
}


@pytest.mark.parametrize("ratio, deep, number", [(ratio, deep, number) for ratio, rows in RAIMONDI_AND_BOYD.items() for deep, number in rows.items()])
def test_the_table_meets_raimondi_and_boyd(ratio, deep, number):
    column = bearing_table.LENGTH_RATIOS.index(ratio)
    assert bearing_table.BEARING_NUMBERS[deep][column] == pytest.approx(number, rel=0.014)
    assert journal_bearing.eccentricity(number, ratio) == pytest.approx(deep, abs=0.004)


@pytest.mark.parametrize("number, ratio, film", [
    pytest.param(0.182, 0.5, 0.30, id="problem 12-1"), pytest.param(0.2975, 0.5, 0.40, id="problem 12-9"),
    pytest.param(0.358, 1.0, 0.68, id="problem 12-11"), pytest.param(0.1350, 1.0, 0.42, id="example 12-1"),
])
def test_chart_readings_of_shigley(number, ratio, film):
    """Shigley, Mechanical Engineering Design, solutions of chapter 12; read off charts to two hundredths."""
    assert 1 - journal_bearing.eccentricity(number, ratio) == pytest.approx(film, abs=0.02)


def test_shigleys_example_from_its_data():
    """Example 12-1: 4 microreyn, 30 rev/s, 500 lbf, radius 0.75, clearance 0.0015, length 1.5 in: S 0.135, film 0.00063 in."""
    viscosity, inch = 4e-6 * 6894.757, 0.0254
    number = journal_bearing.bearing_number(viscosity, 60 * math.pi, 500 * 4.448222 / (1.5 * inch) ** 2, 1.5 * inch, 0.003 * inch)
    assert number == pytest.approx(0.135, rel=2e-3)
    film = journal_bearing.least_film(500 * 4.448222, viscosity, 60 * math.pi, 1.5 * inch, 1.5 * inch, 0.003 * inch)
    assert film / inch == pytest.approx(0.00063, rel=0.02)


def test_jindals_example():
    """Jindal, Machine Design, Ex. 17-2: 60 x 60 mm, radial clearance 0.04, film 0.008 mm, 1260 rpm, 6000 N: 6.293 cP."""
    film = journal_bearing.least_film(6000.0, 6.293e-3, 1260 * RPM, 0.060, 0.060, 0.08e-3)
    assert film == pytest.approx(0.008e-3, rel=5e-3)


def test_short_bearing_of_friswell():
    """Friswell et al., Dynamics of Rotating Machines, Ex. 5.5.1, as run by ROSS 2.3.0: eccentricity 0.2662975 at 525 N."""
    load = journal_bearing.short_bearing_load(0.2662975090, 0.1, 1500 * RPM, 0.100, 0.030, 0.2e-3)
    assert load == pytest.approx(525.0, rel=1e-6)


def bearing_number_by_differences(deep, ratio, around=240, along=40):
    """Independent method: Reynolds' equation of a full bearing by finite differences, no pressure below nothing.

    Unwrapped film h = 1 + e cos(angle), half the length with its middle a mirror. Returns S in turns a second.
    """
    angles = numpy.arange(around) * 2 * math.pi / around
    step_around, step_along = 2 * math.pi / around, 0.5 / along
    here, forward, backward = ((1 + deep * numpy.cos(angles + shift * step_around / 2)) ** 3 for shift in (0, 1, -1))
    forward, backward, across = forward / step_around**2, backward / step_around**2, here / (2 * ratio * step_along) ** 2
    source = 6.0 * deep * numpy.sin(angles)  # -6 dh/dangle with the wedge's sign, pressure in mu w (r/c)^2
    pressure = numpy.zeros((around, along + 1))
    center = forward + backward + 2 * across
    relax, number = 1.85, numpy.arange(around)
    for _ in range(6000):
        before = pressure.copy()
        for color in (0, 1):
            for place in range(along):
                beyond = pressure[:, place + 1]
                inner = pressure[:, place - 1] if place else pressure[:, 1]
                change = (forward * numpy.roll(pressure[:, place], -1) + backward * numpy.roll(pressure[:, place], 1)
                          + across * (beyond + inner) + source) / center - pressure[:, place]
                mask = (number + place) % 2 == color
                pressure[mask, place] = numpy.maximum(pressure[mask, place] + relax * change[mask], 0.0)
        if numpy.abs(pressure - before).max() < 1e-7 * max(pressure.max(), 1e-12):
            break
    weights = numpy.ones(along + 1)
    weights[0] = weights[-1] = 0.5
    line = (pressure * weights).sum(axis=1) / along
    along_load = -(line * numpy.cos(angles)).sum() * step_around
    across_load = (line * numpy.sin(angles)).sum() * step_around
    unit = math.hypot(along_load, across_load) / 2  # over the diameter, in mu w (r/c)^2
    return 1 / (2 * math.pi * unit)


@pytest.mark.parametrize("deep, ratio", [(0.4, 1.0), (0.6, 0.5), (0.8, 0.4)])
def test_the_table_meets_a_solution_by_finite_differences(deep, ratio):
    column = bearing_table.LENGTH_RATIOS.index(ratio)
    assert bearing_table.BEARING_NUMBERS[deep][column] == pytest.approx(bearing_number_by_differences(deep, ratio), rel=0.015)


def test_the_short_bearing_theory_agrees_where_it_holds():
    """Ocvirk's S at a quarter of length 15.84, 7.379, 2.727; within five percent of the full solution below 0.5."""
    for deep, ocvirk in ((0.1, 15.84), (0.2, 7.379), (0.4, 2.727)):
        load = journal_bearing.short_bearing_load(deep, 0.01, 100.0, 0.05, 0.0125, 1e-4)
        number = journal_bearing.bearing_number(0.01, 100.0, load / (0.05 * 0.0125), 0.05, 1e-4)
        assert number == pytest.approx(ocvirk, rel=1e-3)
        assert number == pytest.approx(bearing_table.BEARING_NUMBERS[deep][0], rel=0.05)


# Oil. Published: ASTM D341 examples, SAE J300. Independent method: viscosity index of chemicals.

@pytest.mark.parametrize("first, second, at, expected, relative", [
    pytest.param((40, 404.0), (100, 28.0), 60, 132.126, 1e-4, id="worked example on a public page"),
    pytest.param((40, 32.0), (100, 5.4), 80, 8.5, 6e-3, id="lubricant sheet"),
    pytest.param((40, 68.0), (80, 14.85), 100, 8.8, 6e-3, id="second lubricant sheet"),
])
def test_published_viscosities(first, second, at, expected, relative):
    found = oil_viscosity.viscosity_between(first[1] * 1e-6, first[0] + 273.15, second[1] * 1e-6, second[0] + 273.15, at + 273.15)
    assert found * 1e6 == pytest.approx(expected, rel=relative)


def test_grades_are_those_of_sae_j300():
    """SAE J300, January 2015, two look-ups agreeing."""
    assert {grade: [round(float(limit) * 1e6, 6) for limit in limits] for grade, limits in HOT_GRADES.items()} == {
        8: [4.0, 6.1], 12: [5.0, 7.1], 16: [6.1, 8.2], 20: [6.9, 9.3], 30: [9.3, 12.5], 40: [12.5, 16.3], 50: [16.3, 21.9], 60: [21.9, 26.1]}
    assert {grade: round(float(limit) * 1e3, 6) for grade, limit in HIGH_SHEAR.items()} == {
        8: 1.7, 12: 2.0, 16: 2.3, 20: 2.6, 30: 2.9, 40: 3.7, 50: 3.7, 60: 3.7}
    assert float(HIGH_SHEAR_LIGHT_40) == pytest.approx(3.5e-3)
    assert {grade: (round(float(limits[0]) - 273.15), round(float(limits[1]) * 1e6, 6)) for grade, limits in WINTER_GRADES.items()} == {
        "0W": (-40, 3.8), "5W": (-35, 3.8), "10W": (-30, 4.1), "15W": (-25, 5.6), "20W": (-20, 5.6), "25W": (-15, 9.3)}


@pytest.mark.parametrize("label", TYPICAL_VISCOSITY)
def test_typical_oils_have_a_believable_viscosity_index(label):
    """ASTM D2270 by chemicals: published 92 for 73.30 and 8.86 mm2/s; straight mineral grades near 100, multigrades 120 to 180."""
    assert round(viscosity_index(73.30e-6, 8.86e-6)) == 92
    index = viscosity_index(*(float(value) for value in TYPICAL_VISCOSITY[label]))
    assert 95 <= index <= 115 if label.startswith("SAE") else 120 <= index <= 180


# Materials. Published: Callister, Materials Science and Engineering, Table B.6; AISC Manual of Steel Construction.

@pytest.mark.parametrize("metal, published", [
    ("steel", 11.7), ("steel_4340", 12.3), ("stainless_304", 17.2), ("martensitic_stainless", 11.0), ("aluminum_6061", 23.6),
    ("aluminum_7075", 23.4), ("aluminum_356", 21.5), ("copper", 17.0), ("bronze", 18.0), ("magnesium", 26.0), ("titanium", 8.6)])
def test_expansions_are_those_of_callister(metal, published):
    assert materials.EXPANSION[metal] * 1e6 == pytest.approx(published, abs=1e-9)


def test_irons_lie_between_their_sources():
    assert 10.6 <= materials.EXPANSION["gray_iron"] * 1e6 <= 11.4  # AISC 10.6, Callister 11.4
    assert 10.6 <= materials.EXPANSION["ductile_iron"] * 1e6 <= 12.0
    assert materials.EXPANSION["steel"] * 1e6 == pytest.approx(0.00065 / 100 * 1.8 * 1e6, rel=1e-3)  # AISC, 0.00065 in 100 degF


# Balance. Published: the two short forms of ISO 21940-11.

@pytest.mark.parametrize("grade, rpm", [(6.3, 3000), (2.5, 3000), (16, 7000), (40, 6000)])
def test_unbalance_is_that_of_both_short_forms(grade, rpm):
    """U = 9549 G m / n in g mm, kg, rpm; U = 6.015 G W / N in oz in, lb, rpm; both over two planes here."""
    mass = 25.0
    metric = 9549 * grade * mass / rpm * 1e-6
    customary = 6.015 * grade * (mass / 0.45359237) / rpm * 720.0778e-6
    for both_planes in (metric, customary):
        assert balance.balance_grade(both_planes / 2, mass, rpm * RPM) * 1e3 == pytest.approx(grade, rel=1.5e-4)


def test_published_permissible_eccentricities():
    """Micrometers at 3000 rpm: G6.3 20.05, G2.5 7.96; at 6000 rpm G16 25.46."""
    for grade, rpm, micrometers in ((6.3, 3000, 20.05), (2.5, 3000, 7.96), (16, 6000, 25.46)):
        assert balance.balance_grade(micrometers * 1e-6 * 30 / 2, 30.0, rpm * RPM) * 1e3 == pytest.approx(grade, rel=1e-3)


# Torsion. Published: the uniform chain of any text. Independent method: eigenvalues by scipy.

@pytest.mark.parametrize("count", [2, 3, 6, 9])
def test_a_uniform_chain(count):
    inertia, stiffness = 0.016, 5e5
    analytic = 2 * math.sqrt(stiffness / inertia) * math.sin(math.pi / (2 * count)) / (2 * math.pi)
    assert torsion.lowest_frequency([inertia] * count, [stiffness] * (count - 1)) == pytest.approx(analytic, rel=1e-9)


@pytest.mark.parametrize("seed", range(5))
def test_any_chain_has_the_frequency_of_its_matrices(seed):
    chance = numpy.random.default_rng(seed)
    inertias, shafts = chance.uniform(0.005, 0.2, 7), chance.uniform(1e5, 9e5, 6)
    stiffness = numpy.zeros((7, 7))
    for place, shaft in enumerate(shafts):
        stiffness[place:place + 2, place:place + 2] += shaft * numpy.array([[1, -1], [-1, 1]])
    squares = eigvalsh(stiffness, numpy.diag(inertias))
    assert torsion.lowest_frequency(list(inertias), list(shafts)) == pytest.approx(math.sqrt(squares[1]) / (2 * math.pi), rel=1e-8)


def test_two_flywheels_on_a_shaft():
    first, second, shaft = 0.02, 0.14, 3e5
    analytic = math.sqrt(shaft * (first + second) / (first * second)) / (2 * math.pi)
    assert torsion.lowest_frequency([first, second], [shaft]) == pytest.approx(analytic, rel=1e-9)


# Crush. Independent method: the thick ring by finite elements in one dimension.

def test_growth_of_a_housing_is_that_of_a_ring_by_finite_elements():
    """Plane stress, inner pressure, radius 28.25 to 36.725 mm of steel: linear elements along the radius."""
    inner, outer, pressure, modulus, poisson, count = 0.02825, 0.036725, 6.23e6, 205e9, 0.3, 400
    nodes = numpy.linspace(inner, outer, count + 1)
    matrix = sparse.lil_matrix((count + 1, count + 1))
    elastic = modulus / (1 - poisson**2) * numpy.array([[1, poisson], [poisson, 1]])
    for place in range(count):
        length, middle = nodes[place + 1] - nodes[place], (nodes[place] + nodes[place + 1]) / 2
        strain = numpy.array([[-1 / length, 1 / length], [0.5 / middle, 0.5 / middle]])
        matrix[place:place + 2, place:place + 2] += strain.T @ elastic @ strain * length * middle
    force = numpy.zeros(count + 1)
    force[0] = pressure * inner
    radial = sparse.linalg.spsolve(matrix.tocsc(), force)[0]
    grown = bearings.housing_growth_by_crush("rod", pressure, 2 * inner, 2 * outer, rod_material="steel")
    assert grown == pytest.approx(2 * radial, rel=1e-4)


# Balance of a V6. Independent method: first-order forces of six pistons and six counterweights, added up turn by turn.

def rocking(bank, splay, fraction):
    """Long and short half axis of the first-order rocking couple of a V6, for one reciprocating mass, throw and throw spacing."""
    couples = []
    for turned in numpy.linspace(0, 2 * math.pi, 720, endpoint=False):
        couple = numpy.zeros(2)
        for place, throw in ((1, 0), (0, 120), (-1, 240)):
            for side in (1, -1):
                pin = turned + math.radians(throw) - side * math.radians(splay) / 2
                axis = side * math.radians(bank) / 2
                along, out = numpy.array([math.cos(axis), math.sin(axis)]), numpy.array([math.cos(pin), math.sin(pin)])
                couple += place * (math.cos(pin - axis) * along - fraction * out)
        couples.append(couple)
    return tuple(numpy.linalg.svd(numpy.array(couples), compute_uv=False) / math.sqrt(360))


@pytest.mark.parametrize("bank, splay", [(90, 30), (90, 18), (90, 0), (60, 60), (60, 0), (75, 45)])
def test_a_v6_rocks_in_one_plane_at_that_fraction_and_evenly_all_round_at_half(bank, splay):
    one_plane = balance.balance_fraction_one_plane("v", 6, math.radians(bank), math.radians(splay))
    longer, shorter = rocking(bank, splay, one_plane)
    assert shorter == pytest.approx(0, abs=1e-9)
    even = rocking(bank, splay, 0.5)
    assert even[0] == pytest.approx(even[1]) and longer == pytest.approx(2 * even[0], abs=1e-9)
    assert rocking(bank, splay, 0.6)[0] > even[0] + 0.1
    whole = balance.balance_fraction("v", 6, math.radians(bank), math.radians(splay))
    assert (whole == 0.5) == (even[0] < 0.03)
