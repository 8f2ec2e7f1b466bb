"""Cams, contacts, float and piston to valve against published figures, sympy, and independent methods.

Each test says which it is: published (whose, and whether from memory), another library, or an independent method
with a general library. The independent ones share no code with what they check.
"""

import math

import numpy
import pytest
import sympy
from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq, fsolve, minimize_scalar
from scipy.special import ellipe, ellipk

from buildlint import road
from buildlint.formulas import camshaft, valve_motion
from buildlint.mechanics import hertz, lobe, overlap, separation, slider_crank

INCH, POUND = 0.0254, 4.4482216152605
LIFT = 0.600 / 1.7


# -- slider-crank --------------------------------------------------------------------------------------------


def test_published_piston_position_and_speed():
    """Pulkrabek, Engineering Fundamentals of the Internal Combustion Engine, Example 2-1: stroke 86, rod 166 mm, 20 degrees
    after top: 3.246 mm down, 6.899 m/s at 3600 rpm (from memory, worked again)."""
    angle, throw, rod, speed = math.radians(20), 0.043, 0.166, 3600 * math.pi / 30
    assert slider_crank.piston_drop(angle, throw, rod) == pytest.approx(0.003246, abs=5e-7)
    assert slider_crank.piston_velocity(angle, throw, rod, speed) == pytest.approx(6.899, abs=5e-4)


def test_two_mechanism_solvers_agree_on_position_velocity_and_acceleration():
    """kimech 0.7.0 (frozen) and sympy 1.14 mechanics: throw 44.2, rod 144.8 mm, 6000 rpm, 76 degrees: pin 0.148996 m from the
    crank, -29.030138 m/s and 671.088271 m/s2 along the bore, away from the crank positive."""
    angle, throw, rod, speed = math.radians(76), 0.0442, 0.1448, 200 * math.pi
    assert throw + rod - slider_crank.piston_drop(angle, throw, rod) == pytest.approx(0.148996, abs=5e-7)
    assert slider_crank.piston_velocity(angle, throw, rod, speed) == pytest.approx(29.030138, rel=1e-7)
    assert slider_crank.piston_acceleration(angle, throw, rod, speed) == pytest.approx(-671.088271, rel=1e-7)


@pytest.mark.parametrize("offset", [0.0, 0.0015, -0.0015], ids=["on center", "toward thrust", "away from thrust"])
def test_sympy_differentiates_the_offset_crank_to_the_same(offset):
    """Another library: position written down with a rod of fixed length, differentiated by sympy."""
    a, throw, rod, pin = sympy.symbols("a R l e", real=True)
    height = throw * sympy.cos(a) + sympy.sqrt(rod**2 - (throw * sympy.sin(a) + pin) ** 2)
    values = {throw: sympy.Float("0.0442", 30), rod: sympy.Float("0.1448", 30), pin: sympy.Float(str(offset), 30)}
    for degrees in (-170, -60, -5, 0, 7, 76, 90, 179):
        at = math.radians(degrees)
        first = float(sympy.diff(-height, a).subs(values).subs(a, at))
        second = float(sympy.diff(-height, a, 2).subs(values).subs(a, at))
        assert slider_crank.piston_velocity(at, 0.0442, 0.1448, 1.0, offset) == pytest.approx(first, rel=1e-9, abs=1e-12)
        assert slider_crank.piston_acceleration(at, 0.0442, 0.1448, 1.0, offset) == pytest.approx(second, rel=1e-9, abs=1e-12)


@pytest.mark.parametrize("offset", [0.0, 0.060 * INCH, -0.060 * INCH])
def test_a_rod_of_fixed_length_is_solved_for_by_root_finding(offset):
    """Independent method: the pin is sought along the bore until the rod has its length; top and bottom by minimizing."""
    throw, rod = 1.811 * INCH, 6.098 * INCH

    def height(angle):
        def off(y):
            return math.hypot(throw * math.sin(angle) + offset, y - throw * math.cos(angle)) - rod

        return brentq(off, throw * math.cos(angle) + 1e-6, throw * math.cos(angle) + rod + 1e-6, xtol=1e-15)

    top = minimize_scalar(lambda angle: -height(angle), bounds=(-0.1, 0.1), method="bounded", options={"xatol": 1e-10})
    bottom = minimize_scalar(height, bounds=(math.pi - 0.1, math.pi + 0.1), method="bounded", options={"xatol": 1e-10})
    assert slider_crank.top_angle(throw, rod, offset) == pytest.approx(top.x, abs=1e-6)
    assert slider_crank.bottom_angle(throw, rod, offset) == pytest.approx(bottom.x, abs=1e-6)
    assert slider_crank.stroke_with_offset(throw, rod, offset) == pytest.approx(-top.fun - bottom.fun, abs=1e-11)
    for angle in numpy.linspace(-math.pi, math.pi, 25):
        assert slider_crank.piston_drop(angle, throw, rod, offset) == pytest.approx(-top.fun - height(angle), abs=1e-11)


# -- the synthetic lobe ------------------------------------------------------------------------------------------


def test_sympy_finds_nothing_left_at_the_end_of_the_flank():
    """Another library: lift, slope and curvature vanish at the end for every exponent, and the area integrates."""
    x, q = sympy.symbols("x q", positive=True)
    a = (q + 2) / (q - 2)
    flank = 1 - a * x**2 + a * x**q - x ** (q + 2)
    for derivative in (flank, sympy.diff(flank, x), sympy.diff(flank, x, 2)):
        assert sympy.simplify(derivative.subs(x, 1)) == 0
    area = 2 * sympy.integrate(flank.subs(q, sympy.Rational(5)), (x, 0, 1))
    assert lobe.flank_area(5.0) == pytest.approx(float(area), rel=1e-12)
    for exponent in (2.5, 5.0544, 9.0):
        numbers = {q: exponent}
        for at in (0.05, 0.4, 0.8, 0.99):
            assert lobe.flank(at, exponent) == pytest.approx(float(flank.subs(numbers).subs(x, at)), rel=1e-9, abs=1e-12)
            assert lobe.flank_slope(at, exponent) == pytest.approx(float(sympy.diff(flank, x).subs(numbers).subs(x, at)), rel=1e-9)
            assert lobe.flank_curvature(at, exponent) == pytest.approx(float(sympy.diff(flank, x, 2).subs(numbers).subs(x, at)), rel=1e-8, abs=1e-9)


@pytest.mark.parametrize("wide, narrow, low, high", [
    pytest.param(281, 231, 0.006, 0.050, id="worked intake"), pytest.param(289, 239, 0.006, 0.050, id="worked exhaust"),
    pytest.param(231, 152, 0.050, 0.200, id="fitted at 0.050 and 0.200"), pytest.param(262, 204, 0.006, 0.050, id="mild"),
])
def test_scipy_solves_both_equations_of_the_lobe_to_the_same(wide, narrow, low, high):
    """Independent method: half width and exponent together by scipy's fsolve on the two given points."""
    lift = 0.270 if narrow == 204 else LIFT

    def off(unknown):
        half, exponent = unknown
        a = (exponent + 2) / (exponent - 2)
        values = []
        for duration, height in ((wide, low), (narrow, high)):
            x = duration / 4 / half
            values.append(1 - a * x**2 + a * x**exponent - x ** (exponent + 2) - height / lift)
        return values

    exponent = lobe.exponent_of(wide, narrow, low / lift, high / lift)
    half = narrow / 4 / lobe.share_at(high / lift, exponent)
    found, _, fine, _ = fsolve(off, (half * 1.02, exponent * 0.95), xtol=1e-13, full_output=True)
    assert fine == 1
    assert (half, exponent) == pytest.approx(tuple(found), rel=1e-7)


def test_scipy_integrates_the_lobe_and_finds_its_steepest_place():
    """Independent method: quadrature of the lift, and the peak of its numeric derivative."""
    exponent = lobe.exponent_of(281, 231, 0.006 / LIFT, 0.050 / LIFT)
    half = math.radians(231 / 4) / lobe.share_at(0.050 / LIFT, exponent)
    at = lobe.synthetic(LIFT, half, exponent)
    area, _ = quad(at, -half, half, epsabs=1e-12)
    assert lobe.flank_area(exponent) * LIFT * half == pytest.approx(area, rel=1e-9)
    peak = minimize_scalar(lambda angle: (at(angle + 1e-6) - at(angle - 1e-6)) / 2e-6, bounds=(0.1, half - 0.1), method="bounded",
                           options={"xatol": 1e-9})
    assert lobe.steepest_of_flank(exponent) * LIFT / half == pytest.approx(-peak.fun, rel=1e-7)
    assert -peak.fun * math.pi / 180 == pytest.approx(0.00756, abs=6e-6)


# -- contact -------------------------------------------------------------------------------------------------------


def exact_ellipse_pressure(force, modulus, tight, wide):
    """Hertz with complete elliptic integrals (Johnson, Contact Mechanics, section 4.2), solved for the axes' ratio."""
    one, two = 1 / wide, 1 / tight

    def off(ratio):  # b / a
        m = 1 - ratio**2
        return two / one - (ellipe(m) / ratio**2 - ellipk(m)) / (ellipk(m) - ellipe(m))

    if abs(two / one - 1) < 1e-9:
        radius = 1 / (one + two) * 2
        return (6 * force * modulus**2 / (math.pi**3 * radius**2)) ** (1 / 3)
    ratio = brentq(off, 1e-4, 1 - 1e-9, xtol=1e-14)
    m = 1 - ratio**2
    # A + B = 3 F E(e) / (2 pi E* a^3 (b/a)^2), where A and B are half the two curvatures; p0 = 3 F / (2 pi a b)
    axis = (3 * force * ellipe(m) / (2 * math.pi * modulus * ratio**2 * (one + two) / 2)) ** (1 / 3)
    return 3 * force / (2 * math.pi * axis**2 * ratio)


MODULUS = hertz.contact_modulus(207e9, 0.3, 207e9, 0.3)


def test_two_spheres_have_the_exact_hertz_pressure():
    """Published closed form (Johnson, section 4.2): 10 mm spheres' combined curvature, 100 N, steel: 1357.79 MPa both ways."""
    assert exact_ellipse_pressure(100, MODULUS, 0.010, 0.010) / 1e6 == pytest.approx(1357.79, rel=1e-5)
    assert hertz.ellipse_pressure(100, MODULUS, 0.010, 0.010) / 1e6 == pytest.approx(1357.79, rel=1e-5)


@pytest.mark.parametrize("nose, closed, exact", [(6, 1276.1, 1307.5), (8, 1120.2, 1141.3)])
def test_a_crowned_foot_on_a_nose_lies_a_little_under_the_exact_pressure(nose, closed, exact):
    """Independent method: exact elliptic integrals by scipy; 328 lbf, crown 50 in, steel on steel."""
    force, tight, wide = 328 * POUND, nose / 1000, 50 * INCH
    assert exact_ellipse_pressure(force, MODULUS, tight, wide) / 1e6 == pytest.approx(exact, rel=1e-4)
    assert hertz.ellipse_pressure(force, MODULUS, tight, wide) / 1e6 == pytest.approx(closed, rel=1e-4)


@pytest.mark.parametrize("shape", [1, 2, 5, 20, 100, 250])
def test_the_closed_form_stays_near_the_exact_ellipse(shape):
    """Independent method: within 3 percent over the shapes that lobes and feet make."""
    exact = exact_ellipse_pressure(1500.0, MODULUS, 0.006, 0.006 * shape)
    assert hertz.ellipse_pressure(1500.0, MODULUS, 0.006, 0.006 * shape) == pytest.approx(exact, rel=0.03)


def test_a_pressed_strip_carries_the_line_load_and_touches_flat():
    """Independent method: the half-ellipse of pressure integrates to the load, and under it the surfaces, bent by the
    half-plane's influence function (Flamant), touch all over."""
    force, width, radius = 680 * POUND, 0.45 * INCH, 0.2212 * INCH
    peak = hertz.line_pressure(force, MODULUS, width, radius)
    assert peak / 1e6 == pytest.approx(1305.9, rel=1e-4)
    half = 4 * radius * peak / (2 * MODULUS)  # a = 2 p0 R / E*
    carried, _ = quad(lambda x: peak * math.sqrt(1 - (x / half) ** 2), -half, half)
    assert carried * width == pytest.approx(force, rel=1e-9)

    def slope(x):  # d/dx of the surfaces' displacement: -(2 / pi E*) PV integral of p(s) / (x - s)
        inside = lambda s: peak * math.sqrt(max(0.0, 1 - (s / half) ** 2))  # noqa: E731
        near, _ = quad(inside, -half, half, weight="cauchy", wvar=x)  # integral of p / (s - x)
        return 2 / (math.pi * MODULUS) * near

    for share in (-0.7, -0.2, 0.35, 0.8):
        assert slope(share * half) == pytest.approx(-share * half / radius, rel=1e-5)


# -- float ---------------------------------------------------------------------------------------------------------


def lobe_with(duration=231, wide=281):
    exponent = lobe.exponent_of(wide, duration, 0.006 / LIFT, 0.050 / LIFT)
    return math.radians(duration / 4) / lobe.share_at(0.050 / LIFT, exponent), exponent


def test_the_force_on_the_lobe_vanishes_at_the_float_speed():
    """Independent method: contact force along the lobe from numeric differences of the lift; the speed at which its least
    value is nothing, by root finding."""
    half, exponent = lobe_with()
    at = lobe.synthetic(LIFT * INCH, half, exponent)
    mass, ratio, seat, full = 0.25582, 1.7, 150 * POUND, 400 * POUND

    def least_force(speed):
        angles = numpy.linspace(-half * 0.98, half * 0.98, 8001)
        step = 1e-5
        lift = numpy.array([at(angle) for angle in angles])
        bend = numpy.array([(at(angle + step) - 2 * at(angle) + at(angle - step)) / step**2 for angle in angles])
        return (seat + (full - seat) * lift / (LIFT * INCH) + mass * ratio * bend * (speed / 2) ** 2).min()

    speed = brentq(least_force, 300, 1500, xtol=0.01)
    assert valve_motion.float_speed(LIFT * INCH, half, exponent - 2, ratio, seat, full, mass) == pytest.approx(speed, rel=2e-4)
    assert speed * 30 / math.pi == pytest.approx(8366, abs=3)


def test_a_valve_let_go_at_the_nose_flies_off_only_above_the_float_speed():
    """Independent method: the valve is integrated freely under its spring from the place where the force is least; above the
    float speed it runs ahead of the lobe, below it the lobe runs into it."""
    half, exponent = lobe_with()
    at = lobe.synthetic(LIFT * INCH * 1.7, half, exponent)
    mass, seat, full = 0.25582, 150 * POUND, 400 * POUND
    float_speed = valve_motion.float_speed(LIFT * INCH, half, exponent - 2, 1.7, seat, full, mass)

    def gap_after(speed, start=math.radians(5), run=math.radians(6)):
        cam = speed / 2
        slope = (at(start + 1e-6) - at(start - 1e-6)) / 2e-6 * cam

        def motion(_, state):
            return [state[1], -(seat + (full - seat) * state[0] / (1.7 * LIFT * INCH)) / mass]

        end = solve_ivp(motion, (0, run / cam), [at(start), slope], rtol=1e-11, atol=1e-14).y[0, -1]
        return end - at(start + run)

    assert gap_after(1.02 * float_speed) > 0
    assert gap_after(0.98 * float_speed) < 0


def test_the_tightest_push_is_found_by_scipy_too():
    """Independent method: the same quotient minimized by scipy over a fine grid."""
    for exponent, gain in ((5.0544, 400 / 150 - 1), (3.0, 0.8), (9.0, 2.5)):
        shares = numpy.linspace(0, lobe.turning_share(exponent) * 0.999, 200001)
        values = [(1 + gain * lobe.flank(share, exponent)) / -lobe.flank_curvature(share, exponent) for share in shares[::40]]
        assert separation.tightest_push(exponent, gain) == pytest.approx(min(values), rel=1e-6)


# -- piston to valve -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("side, center, at_top, wide, narrow, wanted, where", [
    ("intake", 109, 0.200, 281, 231, 0.0547502, 8.5), ("intake", 105, 0.200, 281, 231, 0.03096, 8.8),
    ("exhaust", 117, 0.230, 289, 239, 0.1068609, -7.9), ("exhaust", 113, 0.230, 289, 239, 0.0845338, -8.3),
])
def test_the_least_gap_is_found_another_way(side, center, at_top, wide, narrow, wanted, where):
    """Independent method: rod lean by arcsine, lobe by fsolve, gap minimized by scipy; the worked figures to 7 places."""
    throw, rod, axis = 3.622 / 2, 6.098, math.radians(15)

    def off(unknown):
        values = []
        for duration, height in ((wide, 0.006), (narrow, 0.050)):
            x, q = duration / 4 / unknown[0], unknown[1]
            a = (q + 2) / (q - 2)
            values.append(1 - a * x**2 + a * x**q - x ** (q + 2) - height / LIFT)
        return values

    half, q = fsolve(off, (80.0, 5.0), xtol=1e-13)
    a = (q + 2) / (q - 2)

    def gap(degrees):
        crank = math.radians(degrees)
        lean = math.asin(throw / rod * math.sin(crank))
        fall = throw * (1 - math.cos(crank)) + rod * (1 - math.cos(lean))
        cam = abs(degrees - center if side == "intake" else degrees + center) / 2 / half
        lift = 1.7 * LIFT * (1 - a * cam**2 + a * cam**q - cam ** (q + 2)) if cam < 1 else 0.0
        return (at_top + fall) * math.cos(axis) - lift

    bounds = (0, 30) if side == "intake" else (-30, 0)
    found = minimize_scalar(gap, bounds=bounds, method="bounded", options={"xatol": 1e-9})
    full = camshaft.lobe_fullness__of_ramp(LIFT * INCH, math.radians(wide), 0.006 * INCH, math.radians(narrow))
    width = camshaft.lobe_half_width(full, LIFT * INCH, math.radians(narrow))
    ours = valve_motion.piston_gap(LIFT * INCH, width, full, 1.7, 0.0, math.radians(center), side, throw * INCH, rod * INCH,
                                   at_top * INCH, axis, 0.1 * INCH) / INCH
    assert ours == pytest.approx(found.fun, abs=1e-8)
    assert ours == pytest.approx(wanted, abs=1e-5)
    assert found.x == pytest.approx(where, abs=0.06)


def test_heads_that_tilt_toward_each_other_are_as_near_as_their_edges():
    """Independent method: the two rims drawn as segments in their plane, the distance between the segments minimized."""
    spacing, intake, exhaust = 2.05, 2.165, 1.590
    for tilt_in, tilt_ex, lift_in, lift_ex in ((4, 4, 0.120, 0.100), (10, 6, 0.20, 0.15)):
        ti, te = math.radians(tilt_in), math.radians(tilt_ex)

        def head(center, tilt, lift, diameter, toward):
            middle = numpy.array([center + toward * lift * math.sin(tilt), -lift * math.cos(tilt)])
            along = numpy.array([math.cos(tilt), toward * math.sin(tilt)]) * diameter / 2
            return middle + toward * along

        nearest_in = head(0.0, ti, lift_in, intake, +1)
        nearest_ex = head(spacing, te, lift_ex, exhaust, -1)
        assert overlap.inclined_gap(spacing, intake, exhaust, ti, te, lift_in, lift_ex) == pytest.approx(
            numpy.linalg.norm(nearest_ex - nearest_in), rel=1e-9)


# -- published service figures, read by the rules -------------------------------------------------------------------


def found(rule, text):
    report = road.check("oracle.yaml", text=text.encode(), chosen=[one for one in road.rules() if one.id == rule])
    own = [finding for finding in report.findings if finding.rule == rule]
    return own[0].kind, own[0].level


@pytest.mark.parametrize("play, answer", [
    pytest.param("0.0031 in", ("pass", "none"), id="army manual, lower limit"),
    pytest.param("0.0045 in", ("pass", "none"), id="army manual, upper limit"),
    pytest.param("0.008 in", ("pass", "none"), id="army manual, wear limit"),
    pytest.param("0.0010 in", ("fail", "warning"), id="production V6, lower limit"),
    pytest.param("0.006 in", ("pass", "none"), id="production V6, upper limit"),
    pytest.param("0.082 in", ("fail", "error"), id="army manual, misprint of 0.080 mm"),
])
def test_published_end_play_passes_and_its_misprint_is_found(play, answer):
    """TM 9-2815-254-24 gives 0.0031 to 0.0045 in and 0.008 in worn, and prints 0.082 in where 0.080 mm is meant; a production V6
    gives 0.001 to 0.006 in."""
    assert found("cam-end-play-is-set", f"camshaft: {{held_by: thrust_plate, end_play: {play}}}\n") == answer


@pytest.mark.parametrize("clearance, answer", [("0.0010 in", ("fail", "warning")), ("0.0030 in", ("pass", "none"))])
def test_published_cam_bearing_clearance_is_no_error(clearance, answer):
    """A production 4.2 L V6: cam journals 0.0010 to 0.0030 in."""
    assert found("cam-bearing-clearance-is-set", f"bearings: {{cam: {{kind: plain, clearance: {clearance}}}}}\n") == answer


def test_published_lifter_clearance_is_what_the_rule_aims_at():
    """Trade press: bore 0.9045 less lifter 0.9030 in is the rule of thumb of 0.0015 in."""
    assert found("lifter-bore-clearance-is-set", "lifters: {body_diameter: 0.9030 in, bore: 0.9045 in}\n") == ("pass", "none")


def test_published_cards_agree_with_themselves():
    """Trade press: 20-60 / 60-20 is 260 degrees at 110; advanced by five it is 25-55 / 65-15."""
    card = "intake:\n  lobe: {{duration_at_050: 260 deg, centerline: {}, opens_before_top_at_050: {}, closes_after_bottom_at_050: {}}}\n"
    assert found("cam-events-match-durations", card.format("110 deg", "20 deg", "60 deg"))[0] in ("pass", "not_applicable", "notApplicable")
    report = road.check("oracle.yaml", text=card.format("105 deg", "25 deg", "55 deg").encode(),
                        chosen=[one for one in road.rules() if one.id == "cam-events-match-durations"])
    assert [one.kind for one in report.findings if one.scope == ("intake",)] == ["pass"]
    report = road.check("oracle.yaml", text=card.format("110 deg", "25 deg", "55 deg").encode(),
                        chosen=[one for one in road.rules() if one.id == "cam-events-match-durations"])
    assert [(one.kind, one.level) for one in report.findings if one.scope == ("intake",)] == [("fail", "error")]
