"""Every formula in three ways: on floats, on arrays, and on pint quantities, which proves its dimensions."""

import math
import sys

import numpy
import pytest

from buildlint import formulas, units, vocabulary
from buildlint.dimensions import Dimension
from buildlint.mechanics.threads import ScrewThread, read_thread
from buildlint.quantities import Amount, read

WAYS = [formula for ways in formulas.load().values() for formula in ways]
WORDS = vocabulary.load().words
REGISTRY = units.registry()

# A believable value of each dimension, in SI, for words that no key of the schema gives.
USUAL = {"length": 0.045, "area": 2e-4, "volume": 8e-5, "angle": 1.9, "mass": 0.1, "force": 1500.0, "stiffness": 7e4,
         "pressure": 8e6, "torque": 90.0, "rpm": 650.0, "power": 3e5, "time": 0.01, "temperature": 370.0,
         "temperature_rise": 60.0, "flow": 0.1, "mass_flow": 0.05, "density": 750.0, "viscosity": 0.01,
         "kinematic_viscosity": 1.4e-5, "specific_energy": 4.3e7, "fuel_per_work": 8e-8, "unbalance": 1e-3, "inertia": 0.02,
         "torsional_stiffness": 5e5, "angle_per_pressure": 2.5e-6, "frequency": 500.0, "voltage": 13.0, "current": 80.0,
         "speed": 20.0, "acceleration": 3e4, "energy": 100.0, "ratio": 1.6, "fraction": 0.8, "count": 8, "rpm_per_time": 30.0,
         "hardness": 50.0, "octane": 93.0}


def sample(name, dimension):
    """A believable value for a parameter: the typical one of the schema, else the usual one of its dimension."""
    for (_, word), entry in WORDS.items():
        if word == name and entry.typical and dimension.numeric:
            try:
                amount = read(entry.typical.split(",")[0], entry.dimension, "us")
            except ValueError:
                break
            return int(amount) if dimension == "count" else float(amount)
        if word == name and entry.choices and not dimension.numeric:
            return entry.choices
    return USUAL.get(str(dimension))


def arguments(formula):
    """Lists of arguments to try: numbers, with every value of the choices; None where a kind has no sample."""
    names = list(formula.inputs)
    samples = {name: sample(name, formula.dimensions[name]) for name in names}
    for name in names:
        if formula.dimensions[name] == "thread":
            samples[name] = read_thread("7/16-20")
        elif formula.dimensions[name] in ("table", "list", "entries", "text", "date"):
            return []
    rows = [{}]
    for name in names:
        options = samples[name]
        options = options if isinstance(options, tuple) and not isinstance(options, ScrewThread) else (options,)
        rows = [{**row, name: option} for row in rows for option in options]
    return rows[:400]


def first_answer(formula):
    """The first row of arguments that gives a number, and the number."""
    for row in arguments(formula):
        result = formula.function(**row)
        if result is not None and isinstance(result, (int, float)) and result == result:
            return row, result
    return None, None


NUMERIC = [pytest.param(formula, id=formula.name) for formula in WAYS if formula.gives.numeric]


@pytest.mark.parametrize("formula", [pytest.param(formula, id=formula.name) for formula in WAYS])
def test_a_formula_reads_as_a_page_of_a_handbook(formula):
    assert formula.sentence.endswith("."), formula.name
    assert formula.source, "its docstring names a source"
    assert isinstance(formula.gives, Dimension)
    assert all(isinstance(formula.dimensions.get(name), Dimension) for name in formula.inputs)


@pytest.mark.parametrize("formula", NUMERIC)
def test_an_array_gives_what_its_floats_give(formula):
    row, result = first_answer(formula)
    if row is None:
        pytest.skip("takes a table or a list; its own test stands with its worked examples")
    arrays = {name: numpy.array([value, value]) if isinstance(value, float) else value for name, value in row.items()}
    found = formula.function(**arrays)
    assert numpy.allclose(numpy.asarray(found, dtype=float), result, rtol=1e-12)


def in_pint(value, dimension):
    if isinstance(value, ScrewThread):
        meter = REGISTRY.meter
        return value._replace(diameter=value.diameter * meter, pitch=value.pitch * meter)
    if isinstance(value, (int, float)) and not isinstance(value, bool) and dimension not in ("count", "hardness", "octane"):
        return REGISTRY.Quantity(float(value), units.DIMENSIONS[str(dimension)])
    return value


def constants_in_pint(value):
    """A constant or table of constants with its dimensions put on."""
    if isinstance(value, Amount):
        return REGISTRY.Quantity(float(value), units.DIMENSIONS[str(value.dimension)])
    if isinstance(value, dict):
        return {key: constants_in_pint(part) for key, part in value.items()}
    if isinstance(value, (tuple, list)) and not hasattr(value, "_fields"):
        return type(value)(constants_in_pint(part) for part in value)
    return value


@pytest.fixture
def constants_with_dimensions(monkeypatch):
    """Put dimensions on every constant of the formulas, the mechanics and the tables."""
    for name, module in list(sys.modules.items()):
        if name.startswith(("buildlint.formulas", "buildlint.mechanics", "buildlint.tables")):
            for constant, value in list(vars(module).items()):
                if constant.strip("_").isupper() and isinstance(value, (Amount, dict, tuple, list)):
                    monkeypatch.setattr(module, constant, constants_in_pint(value))


@pytest.mark.parametrize("formula", NUMERIC)
def test_the_dimensions_of_a_formula_hold(formula, constants_with_dimensions):
    for row in arguments(formula):
        try:
            result = formula.function(**{name: in_pint(value, formula.dimensions[name]) for name, value in row.items()})
        except TypeError as error:
            if "NoneType" in str(error):
                continue
            raise
        if result is None:
            continue
        if hasattr(result, "dimensionality"):
            wanted = REGISTRY.Quantity(1.0, units.DIMENSIONS[str(formula.gives)]).dimensionality
            assert result.dimensionality == wanted
        else:
            assert formula.gives in ("ratio", "fraction", "count", "angle", "octane") or float(result) == 0.0, "no dimension came out"
        return
    pytest.skip("takes a table or a list; its own test stands with its worked examples")


def test_every_constant_with_a_dimension_says_so():
    for name, module in list(sys.modules.items()):
        if name.startswith("buildlint.formulas."):
            for constant, value in vars(module).items():
                if constant.isupper() and isinstance(value, float) and not isinstance(value, Amount):
                    assert abs(value) < 10 or value == math.pi, f"{name}.{constant} looks like a quantity: write q('...')"
