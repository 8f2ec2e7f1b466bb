"""The factor table against pint's own registry, scipy's constants and the standards, and its promise to be fresh."""

import math
import re
import subprocess
import sys

import pint
import pytest
import scipy.constants as constants

from buildlint import units
from buildlint.quantities import default_unit, in_unit, read
from buildlint.quantity_display import BARE_UNITS
from buildlint.unit_factors import FACTORS

EVERY_UNIT = [(dimension, unit) for dimension, known in units.SPELLINGS.items() for unit in known]


def factor(dimension, unit):
    numerator, denominator, _, _ = FACTORS[dimension][unit]
    return numerator / denominator


@pytest.fixture(scope="module")
def pint_registry():
    return pint.UnitRegistry()


def test_the_factor_table_is_what_pint_makes_of_the_definitions():
    assert units.TABLE.read_text(encoding="utf-8") == units.table(), "stale: run python -m buildlint.units"


# Where pint's registry has another name, or means something else by ours.
NAMES_IN_PINT = {
    "cfm": "foot**3/minute",
    "gpm": "gallon/minute",
    "cc/minute": "centimeter**3/minute",
    "BTU": "Btu_it",
    "BTU/pound": "Btu_it/pound",
    # The conventional column is water of exactly 1000 kg/m^3; the one of that name in pint is water at 39 degF.
    "inH2O": "kilogram/liter * g_0 * inch",
}


@pytest.mark.parametrize(("dimension", "unit"), EVERY_UNIT, ids=lambda name: name or "bare")
def test_every_factor_agrees_with_the_registry_of_pint(dimension, unit, pint_registry):
    expression = units.SPELLINGS[dimension][unit][0]
    expression = NAMES_IN_PINT.get(expression, expression)
    if not expression:
        assert FACTORS[dimension][unit] == (1, 1, 0, unit)
        return
    base = units.DIMENSIONS[dimension] or "dimensionless"
    theirs = pint_registry.Quantity(1.0, expression).to(base)
    zero = pint_registry.Quantity(0.0, expression).to(base).magnitude
    numerator, denominator, our_zero, _ = FACTORS[dimension][unit]
    assert (numerator + our_zero) / denominator == pytest.approx(theirs.magnitude, rel=1e-9)
    assert our_zero / denominator == pytest.approx(zero, rel=1e-12)


@pytest.mark.parametrize(
    ("dimension", "unit", "expected"),
    [
        ("length", "in", constants.inch),
        ("length", "ft", constants.foot),
        ("length", "mi", constants.mile),
        ("length", "thou", constants.mil),
        ("area", "in^2", constants.inch**2),
        ("volume", "in^3", constants.inch**3),
        ("volume", "gal", constants.gallon),
        ("volume", "L", constants.liter),
        ("angle", "deg", constants.degree),
        ("mass", "lb", constants.lb),
        ("mass", "oz", constants.oz),
        ("force", "lbf", constants.lbf),
        ("force", "kgf", constants.kgf),
        ("stiffness", "lbf/in", constants.lbf / constants.inch),
        ("pressure", "psi", constants.psi),
        ("pressure", "bar", constants.bar),
        ("torque", "lbf-ft", constants.lbf * constants.foot),
        ("power", "hp", constants.hp),
        ("time", "min", constants.minute),
        ("time", "h", constants.hour),
        ("time", "days", constants.day),
        ("time", "weeks", constants.week),
        ("time", "years", constants.Julian_year),
        ("rpm", "rpm", constants.pi / 30),
        ("speed", "mph", constants.mph),
        ("speed", "km/h", constants.kmh),
        ("acceleration", "g", constants.g),
        ("energy", "BTU", constants.Btu),
        ("temperature_rise", "degF", constants.degree_Fahrenheit),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_factors_agree_with_the_constants_of_scipy(dimension, unit, expected):
    assert factor(dimension, unit) == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize("scale", ["degF", "degC"])
@pytest.mark.parametrize("number", [-40.0, 0.0, 68.0, 212.0])
def test_temperatures_agree_with_scipy(scale, number):
    name = {"degF": "Fahrenheit", "degC": "Celsius"}[scale]
    expected = constants.convert_temperature(number, name, "Kelvin")
    assert read(f"{number:.0f} {scale}", "temperature") == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "dimension", "expected"),
    [
        # NIST Special Publication 811, appendix B, and GNU units 2.22 for the columns
        pytest.param("1 inHg", "pressure", 3386.38864034, id="inch of mercury"),
        pytest.param("1 inH2O", "pressure", 249.08891, id="inch of water"),
        pytest.param("1 hp", "power", 745.69987158227022, id="horsepower"),
        pytest.param("1 gal", "volume", 3.785411784e-3, id="gallon"),
        pytest.param("1 lbf", "force", 4.4482216152605, id="pound-force"),
        pytest.param("1 lb/hp/h", "fuel_per_work", 1.6896594e-7, id="pound per horsepower-hour"),
        pytest.param("1 cSt", "kinematic_viscosity", 1e-6, id="centistokes"),
        pytest.param("1 cP", "viscosity", 1e-3, id="centipoise"),
        pytest.param("1 BTU/lb", "specific_energy", 2326.0, id="Btu per pound, exact"),
        pytest.param("1 lb/in^3", "density", 27679.904710191, id="pound per cubic inch"),
        pytest.param("1 cfm", "flow", 4.719474432e-4, id="cubic foot per minute"),
        pytest.param("1 ozf*in", "unbalance", 0.028349523125 * 0.0254, id="ounce-inch of unbalance"),
        pytest.param("1 lbf-in-s^2", "inertia", 0.1129848290276167, id="pound-force inch second squared"),
    ],
)
def test_factors_agree_with_published_tables(text, dimension, expected):
    assert read(text, dimension) == pytest.approx(expected, rel=1e-8)


def test_a_factor_is_kept_exactly_not_rounded():
    assert FACTORS["length"]["in"] == (127, 5000, 0, "in")
    assert FACTORS["temperature"]["degC"][:3] == (20, 20, 5463)
    assert read("180 deg", "angle") == math.pi
    assert read("1 turn", "angle") == 2 * math.pi


def test_units_of_the_trade_that_pint_misreads_mean_what_the_trade_means():
    assert read("1 mil", "length") == read("0.001 in", "length")
    assert read("1 cfm", "flow") == read("1 ft^3/min", "flow")
    assert read("1 Nm", "torque") == 1.0
    assert read("1 ft lb", "torque") == read("1 lbf-ft", "torque")
    assert read("1 lb", "force") != read("1 lb", "mass")


@pytest.mark.parametrize("dimension", units.DIMENSIONS)
def test_every_dimension_has_units_and_a_usual_one(dimension):
    assert set(FACTORS) == set(units.DIMENSIONS) == set(BARE_UNITS)
    assert units.DIMENSIONS[dimension] == "" or any(row[:3] == (1, 1, 0) for row in FACTORS[dimension].values())
    for system in ("us", "metric"):
        assert default_unit(dimension, system) in FACTORS[dimension]
        assert {BARE_UNITS[dimension][system == "metric"]} <= {*FACTORS[dimension], None}
        for power in range(-12, 13):
            unit = default_unit(dimension, system, 10.0**power)
            assert math.isfinite(in_unit(10.0**power, dimension, unit))


def test_no_spelling_begins_or_ends_with_a_blank_or_looks_like_a_number():
    for known in FACTORS.values():
        for spelling in known:
            assert spelling == spelling.strip()
            assert "  " not in spelling
            assert not re.match(r"[0-9.+-]", spelling) or spelling == "1/min"


def test_one_spelling_of_a_dimension_has_one_meaning(monkeypatch):
    monkeypatch.setitem(units.SPELLINGS, "length", {"in": ("inch", ["x"]), "mm": ("millimeter", ["x"])})
    with pytest.raises(ValueError, match="x would be both in and mm"):
        units.table()


def test_a_unit_listed_under_the_wrong_dimension_is_refused(monkeypatch):
    monkeypatch.setitem(units.SPELLINGS, "length", {"lbf": ("pound_force", [])})
    with pytest.raises(ValueError, match="lbf is not a unit of length"):
        units.exact_factors()


@pytest.mark.parametrize(("dimension", "unit"), EVERY_UNIT, ids=lambda name: name or "bare")
def test_our_own_registry_gives_the_same_value_and_dimension(dimension, unit):
    expression = units.SPELLINGS[dimension][unit][0]
    registry = units.registry()
    value = registry.Quantity(1.0, expression).to(units.DIMENSIONS[dimension].replace("^", "**"))
    numerator, denominator, zero, _ = FACTORS[dimension][unit]
    assert value.magnitude == pytest.approx((numerator + zero) / denominator, rel=1e-12)


def test_a_plain_reading_never_imports_pint():
    program = (
        "import sys; from buildlint.quantities import read, show, default_unit, guess_slip, QuantityError\n"
        "show(read('1-1/4 in', 'length'), 'length', default_unit('length', 'us', 0.03))\n"
        "guess_slip(read('45 in', 'length'), 0.01, 0.06)\n"
        "for text in ('3,5 mm', '5', '5 lbf', '5 inn', '5 KPA'):\n"
        "    try: read(text, 'length')\n"
        "    except QuantityError: pass\n"
        "heavy = {'pint', 'numpy', 'scipy', 'fractions', 'decimal', 'dataclasses', 'inspect'}\n"
        "assert not heavy & set(sys.modules), heavy & set(sys.modules)\n"
    )
    subprocess.run([sys.executable, "-c", program], check=True, cwd=units.TABLE.parent.parent)


def test_the_table_can_be_written_anew_from_the_command_line(tmp_path):
    for name in ("__init__.py", "units.py", "unit_definitions.txt"):
        (tmp_path / "buildlint").mkdir(exist_ok=True)
        (tmp_path / "buildlint" / name).write_bytes((units.TABLE.parent / name).read_bytes())
    subprocess.run([sys.executable, "-m", "buildlint.units"], check=True, cwd=tmp_path)
    assert (tmp_path / "buildlint" / "unit_factors.py").read_bytes() == units.TABLE.read_bytes()
