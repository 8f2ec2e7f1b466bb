"""Joints against published standards and textbooks, and against libraries that nobody here wrote.

Each test says which it is: published (numbers of a standard, book or article) or independent method (another way to the
same number). Tolerances are those of the printed digits.
"""

import math

import numpy
import pytest
from me_toolbox.fasteners import Bolt, ThreadedFastener
from scipy.integrate import quad
from scipy.stats import spearmanr
from screw_thread_lib import Assembly
from screw_thread_lib.data import ASME_UN_2A2B_dict

from buildlint.formulas import head_joint, joints, threads
from buildlint.mechanics import bolt, gasket_wire, rank_order
from buildlint.mechanics.threads import (
    ScrewThread,
    external_shear_area,
    internal_shear_area,
    limits,
    pitch_diameter,
    read_thread,
    stress_area,
)
from buildlint.quantities import q
from buildlint.tables.fasteners import STRENGTH_CLASSES

INCH, LBF = 0.0254, 4.4482216152605

# -- threads ---------------------------------------------------------------------------------------------

# Published: Shigley, Mechanical Engineering Design, 9th ed., Table 8-2 (after ANSI B1.1), in2; printed digits.
UNIFIED = {"1/4-20": 0.0318, "5/16-18": 0.0524, "3/8-16": 0.0775, "7/16-14": 0.1063, "1/2-13": 0.1419, "9/16-12": 0.182,
           "5/8-11": 0.226,
           "3/4-10": 0.334, "1/4-28": 0.0364, "5/16-24": 0.0580, "3/8-24": 0.0878, "7/16-20": 0.1187, "1/2-20": 0.1599,
           "9/16-18": 0.203,
           "5/8-18": 0.256, "3/4-16": 0.373, "10-24": 0.0175, "10-32": 0.0200, "12-24": 0.0242}


@pytest.mark.parametrize("name", UNIFIED)
def test_published_unified_stress_areas(name):
    assert stress_area(read_thread(name)) / INCH**2 == pytest.approx(UNIFIED[name], rel=2.5e-3)


# Published: ISO 898-1, proof loads in kN of classes 8.8, 10.9 and 12.9 (the standard rounds its areas: 0.7 percent).
PROOF = {"M6": (11.6, 16.7, 19.5), "M8": (21.2, 30.4, 35.5), "M10": (33.7, 48.1, 56.3), "M12": (48.9, 70.0, 81.8),
         "M14": (66.7, 95.5, 112.0)}


@pytest.mark.parametrize("name", PROOF)
@pytest.mark.parametrize("column, grade", [(0, "iso_8_8"), (1, "iso_10_9"), (2, "iso_12_9")])
def test_published_proof_loads(name, column, grade):
    thread = read_thread(name)
    load = joints.proof_load(joints.proof_strength(grade, thread.diameter), stress_area(thread))
    assert load / 1e3 == pytest.approx(PROOF[name][column], rel=7e-3)


# Published: SAE J429 as in Shigley, 9th ed., Table 8-9, ksi: proof, yield, tensile. Exact.
@pytest.mark.parametrize("grade, row", [("sae_grade_2", (55, 57, 74)), ("sae_grade_5", (85, 92, 120)),
                                        ("sae_grade_8", (120, 130, 150))])
def test_published_bolt_grades(grade, row):
    assert STRENGTH_CLASSES[grade][:3] == tuple(q(f"{value} ksi") for value in row)


@pytest.mark.parametrize("name", [name for name in ASME_UN_2A2B_dict if name not in ("1-8", "1-12", "1-14")])
def test_the_limits_of_unified_threads_against_tabled_ones(name):
    """Independent library: screw-thread-lib carries the tabled 2A/2B limits of ASME B1.1; the hole's minor diameter is
    tabled to 0.001 in."""
    tabled = Assembly(ASME_UN_2A2B_dict[name])
    found = limits(read_thread(name))
    assert found.external_major_least / INCH == pytest.approx(tabled.dmin, abs=2e-4)
    assert found.internal_pitch_most / INCH == pytest.approx(tabled.D2max, abs=2e-4)
    assert found.external_pitch_least / INCH == pytest.approx(tabled.d2min, abs=2e-4)
    assert found.internal_minor_most / INCH == pytest.approx(tabled.D1max, abs=6e-4)


@pytest.mark.parametrize("name", ["1/4-20", "1/2-13", "1/2-20", "3/4-16"])
def test_unified_areas_against_another_library(name):
    """Independent library: screw-thread-lib (FED-STD-H28 form); inch threads only, its metric rows use the inch constant."""
    assert stress_area(read_thread(name)) / INCH**2 == pytest.approx(Assembly(ASME_UN_2A2B_dict[name]).As_FEDSTD_1b(), rel=1.5e-3)


@pytest.mark.parametrize("diameter, pitch", [(6, 1), (8, 1.25), (10, 1.5), (12, 1.75), (14, 2)])
def test_metric_areas_against_another_library(diameter, pitch):
    """Independent library: me-toolbox (ISO form)."""
    thread = ScrewThread(diameter / 1e3, pitch / 1e3)
    other = Bolt(diameter, pitch, 50, 25, 940, 1040, 830, 207e3)
    assert stress_area(thread) * 1e6 == pytest.approx(other.stress_area, rel=1e-4)
    assert pitch_diameter(thread.diameter, thread.pitch) * 1e3 == pytest.approx(other.pitch_diameter, rel=1e-6)


# Published: table of shear areas at an engagement of one diameter (Bickford), nut and bolt thread, with the limits it takes.
SHEAR_METRIC = {"M8x1.25": (134.63, 97.290, 7.760, 7.348, 6.912, 7.042), "M10x1.5": (214.77, 155.80, 9.732, 9.206, 8.676, 8.862),
                "M12x1.75": (313.41, 227.72, 11.701, 11.063, 10.441, 10.679)}
SHEAR_INCH = {"3/8-16": (0.310, 0.216), "7/16-14": (0.428, 0.296), "1/2-13": (0.562, 0.389)}


@pytest.mark.parametrize("name", SHEAR_METRIC)
def test_published_shear_areas_from_their_own_limits(name):
    thread = read_thread(name)
    nut, screw, major, hole_pitch, hole_minor, screw_pitch = SHEAR_METRIC[name]
    found = internal_shear_area(thread.diameter, thread.pitch, major / 1e3, hole_pitch / 1e3)
    assert found * 1e6 == pytest.approx(nut, rel=5e-4)
    found = external_shear_area(thread.diameter, thread.pitch, hole_minor / 1e3, screw_pitch / 1e3)
    assert found * 1e6 == pytest.approx(screw, rel=5e-4)


@pytest.mark.parametrize("name", [*SHEAR_METRIC, *SHEAR_INCH])
def test_published_shear_areas_from_the_limits_worked_out_here(name):
    thread = read_thread(name)
    at = limits(thread)
    nut, screw = SHEAR_METRIC[name][:2] if name in SHEAR_METRIC else [area * 645.16 for area in SHEAR_INCH[name]]
    assert internal_shear_area(thread.diameter, thread.pitch, at.external_major_least,
                               at.internal_pitch_most) * 1e6 == pytest.approx(nut, rel=8e-3)
    assert external_shear_area(thread.diameter, thread.pitch, at.internal_minor_most,
                               at.external_pitch_least) * 1e6 == pytest.approx(screw, rel=1e-2)


def test_published_engagement_in_aluminum():
    """Published: Handbook of Bolts and Bolted Joints (1998): M10x1.5 at 69 600 N in aluminum of 130 MPa needs 21.6 mm.

    The example takes the largest bolt (9.968 mm); the smallest would need 24.93 mm.
    """
    area_per_length = internal_shear_area(1.0, 1.5e-3, 9.968e-3, 9.206e-3)
    assert 69600 / (130e6 * area_per_length) * 1e3 == pytest.approx(21.6, rel=3e-3)
    assert 69600 / (130e6 * internal_shear_area(1.0, 1.5e-3, 9.732e-3, 9.206e-3)) * 1e3 == pytest.approx(24.93, rel=1e-3)


# -- torque and tension -----------------------------------------------------------------------------------


def test_published_textbook_torque():
    """Published: Shigley, 9th ed., Ex. 8-3: 3/4-16, 25 000 lbf, K 0.20: 3750 lbf-in; 67.02 kpsi."""
    thread = read_thread("3/4-16")
    force = joints.preload__by_torque(float(q("3750 lbf-in", "torque")), 0.20, thread.diameter)
    assert force / LBF == pytest.approx(25000, rel=1e-6)
    assert force / (0.373 * INCH**2) / float(q("1 ksi")) == pytest.approx(67.02, rel=1e-4)


def test_published_textbook_torque_in_the_long_form():
    """Published: the same example with f = fc = 0.15 and a collar of 1.25 d: 3551 lbf-in printed; the two long forms differ by
    0.2 percent."""
    thread = read_thread("3/4-16")
    factor = bolt.nut_factor_long_form(thread.diameter, thread.pitch, pitch_diameter(thread.diameter, thread.pitch), 0.15, 0.15,
                                       1.25 * thread.diameter)
    assert factor * 25000 * 0.75 == pytest.approx(3551, rel=4e-3)


def test_published_textbook_stiffness():
    """Published: Shigley, 9th ed., Ex. 8-4: 5/8-11, two plates of 0.75 in of 14 Mpsi, face 1.5 d: kb 5.21, km 8.95 Mlbf/in,
    C 0.368."""
    diameter, million = 0.625 * INCH, 1e6 * LBF / INCH
    member = bolt.clamped_stiffness(14e6 * LBF / INCH**2, 1.5 * INCH, 1.5 * diameter, diameter)
    assert member / million == pytest.approx(8.95, rel=2e-3)
    shank, thread = math.pi / 4 * 0.625**2, 0.226
    fastener = 30e6 / (0.75 / shank + 0.75 / thread) * LBF / INCH
    assert fastener / million == pytest.approx(5.21, rel=2e-3)
    assert fastener / (fastener + member) == pytest.approx(0.368, rel=3e-3)


@pytest.mark.parametrize("length, modulus", [(20, 207e3), (40, 71e3), (80, 100e3)])
def test_the_stiffness_of_clamped_parts_against_another_library(length, modulus):
    """Independent library: me-toolbox, frusta of 30 degrees."""
    other = Bolt(10, 1.5, length + 20, 26, 940, 1040, 830, 207e3)
    face = other.head_diameter
    joint = ThreadedFastener(other, [[length, modulus]], nut=True, preload=30e3)
    found = bolt.clamped_stiffness(modulus * 1e6, length / 1e3, face / 1e3, 10e-3)
    assert found / 1e3 == pytest.approx(joint.member_stiffness, rel=1e-3)


# Published: VDI 2230:2001, tables of assembly preload (kN) and torque (N*m) at 90 percent of yield for classes 8.8, 10.9 and
# 12.9: thread, friction, preloads, torques, with the outside and inside diameter of the face in mm.
VDI = [("M8x1", 0.12, (20.2, 29.7, 34.7), (26.1, 38.3, 44.9), 11.63, 9.0),
       ("M10x1.25", 0.14, (30.8, 45.2, 52.9), (57, 83, 98), 14.63, 11.0),
       ("M12x1.25", 0.10, (49.1, 72.1, 84.4), (79, 116, 135), 16.63, 13.5),
       ("M14x1.5", 0.12, (64.8, 95.2, 111.4), (142, 209, 244), 19.64, 15.5)]


@pytest.mark.parametrize("name, friction, forces, torques, outside, inside", VDI, ids=[row[0] for row in VDI])
def test_published_preloads_use_nine_tenths_of_yield(name, friction, forces, torques, outside, inside):
    thread = read_thread(name)
    for force, yield_ in zip(forces, (640e6, 940e6, 1100e6)):
        stress = joints.assembly_stress(force * 1e3, thread.diameter, thread.pitch, friction)
        assert stress / yield_ == pytest.approx(0.90, rel=5e-3)
        assert stress < joints.tightening_stress(force * 1e3, thread.diameter, thread.pitch, friction) < yield_


@pytest.mark.parametrize("name, friction, forces, torques, outside, inside", VDI, ids=[row[0] for row in VDI])
def test_published_torques_follow_from_the_long_form(name, friction, forces, torques, outside, inside):
    thread = read_thread(name)
    mean = joints.face_mean_diameter(outside / 1e3, thread.diameter, None, inside / 1e3)
    factor = joints.nut_factor_long_form(friction, friction, thread.diameter, thread.pitch, mean)
    for force, torque in zip(forces, torques):
        assert factor * thread.diameter * force * 1e3 == pytest.approx(torque, rel=1e-2)


# Published: industrial torque chart, grade 8 at 75 percent of yield (98 ksi), K 0.20 plain and 0.22 zinc-plated, lbf-ft.
CHART = [("3/8-16", "none", 47), ("7/16-14", "none", 76), ("1/2-13", "none", 116), ("1/2-20", "none", 131),
         ("7/16-14", "zinc_electroplated", 83)]


@pytest.mark.parametrize("name, coating, torque", CHART)
def test_published_torque_chart(name, coating, torque):
    thread = read_thread(name)
    tension = float(q("98 ksi")) * stress_area(thread)
    found = tension * joints.nut_factor__one_lubricant("dry", coating) * thread.diameter
    assert found / float(q("1 lbf-ft", "torque")) == pytest.approx(torque, rel=1.2e-2)


# Published: Shigley, 9th ed., Tables 8-13 and 8-14: tension in kN of 20 dry and 10 lubricated bolts at 90 N*m.
DRY = (23.6, 27.6, 28.0, 29.4, 30.3, 30.7, 32.9, 33.8, 33.8, 33.8, 34.7, 35.6, 35.6, 37.4, 37.8, 37.8, 39.2, 40.0, 40.5, 42.7)
OILED = (30.3, 32.5, 32.5, 32.9, 32.9, 33.8, 34.3, 34.7, 37.4, 40.5)


@pytest.mark.parametrize("measured", [DRY, OILED], ids=["dry", "lubricated"])
def test_published_scatter_lies_within_the_band_of_a_torque_wrench(measured):
    """All but one bolt in twenty lie within the scatter taken for a torque wrench, 28 percent about the mean."""
    mean = sum(measured) / len(measured)
    outside = [force for force in measured if abs(force / mean - 1) > joints.preload_scatter("torque")]
    assert len(outside) <= len(measured) / 20
    assert numpy.std(measured, ddof=1) / mean == pytest.approx(0.1433 if measured is DRY else 0.0843, abs=1e-4)


def test_published_clamp_of_a_head():
    """Published: trade article: 4 in bore, 1100 psi lift with 13 827 lbf; three times is about 41 500, 10 375, 8300 and 6916 for
    four, five and six bolts."""
    lift = head_joint.head_lift_load(float(q("1100 psi")), 4 * INCH)
    assert lift / LBF == pytest.approx(13827, rel=1e-3)
    for number, each in ((4, 10375), (5, 8300), (6, 6916)):
        assert head_joint.head_clamp_ratio(number, each * LBF, lift) == pytest.approx(3.0, rel=2e-3)


# -- geometry by another road -------------------------------------------------------------------------------


def test_a_drop_of_the_head_against_plain_vectors():
    """Independent method: move the head along its bore, then lower the manifold until the ports meet again."""
    drop, half = 0.762e-3, math.radians(45)
    for degrees in (45, 50, 55, 60):
        theta = math.radians(degrees)
        along, inward = numpy.array([math.sin(theta), math.cos(theta)]), numpy.array([-math.cos(theta), math.sin(theta)])
        head = -drop * numpy.array([math.sin(half), math.cos(half)])
        # The manifold sinks by v: choose v so that nothing is left along the face.
        sunk = -head @ along / along[1]
        relative = head + numpy.array([0.0, sunk])
        assert relative @ along == pytest.approx(0, abs=1e-15)
        assert head_joint.intake_rail_cut(drop, half, theta) == pytest.approx(sunk, rel=1e-9)
        assert head_joint.intake_face_cut(drop, half, theta) == pytest.approx(relative @ inward, rel=1e-9)
        assert head_joint.intake_port_drop(drop, half, theta) == pytest.approx(abs(head @ along), rel=1e-9)


@pytest.mark.parametrize("height", [0.05, 0.5, 1.0, 1.7])
def test_a_segment_of_wire_against_an_integral(height):
    """Independent method: scipy integrates the chords of the circle from its top down."""
    area, _ = quad(lambda depth: 2 * math.sqrt(max(0.0, 1 - (1 - depth) ** 2)), 0, height)
    assert gasket_wire.segment(1.0, height) == pytest.approx(area, rel=1e-7)


@pytest.mark.parametrize("seed", range(5))
def test_rank_correlation_against_scipy(seed):
    """Independent library: scipy.stats.spearmanr, with shared ranks."""
    random = numpy.random.default_rng(seed)
    one, other = list(random.integers(0, 6, 17)), list(random.integers(0, 9, 17))
    assert rank_order.rank_correlation(one, other) == pytest.approx(spearmanr(one, other).statistic, abs=1e-12)


def test_the_twist_of_a_long_bolt_against_hooke():
    """Independent method: the stretch of a stepped bar, section by section, equals force over the stiffness of the formula."""
    from buildlint.formulas.joint_stiffness import bolt_stiffness

    thread = read_thread("3/8-24")
    area, shank = stress_area(thread), 0.332 * INCH
    parts = [(1.00 * INCH, math.pi / 4 * shank**2), (0.45 * INCH, area), (0.5 * thread.diameter, area)]
    stretch = sum(13170 * LBF * length / (205e9 * section) for length, section in parts)
    assert 13170 * LBF / bolt_stiffness(1.00 * INCH, 0.45 * INCH, thread.diameter, area, 205e9, shank) == pytest.approx(stretch,
        rel=1e-9)
    assert threads.stress_area(thread) == area
