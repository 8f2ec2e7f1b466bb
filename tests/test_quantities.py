"""What a builder may write as a quantity, what is refused and with which advice, and how values are shown."""

import copy
import json
import math
import pickle
import re
import time
from decimal import Decimal
from pathlib import Path

import pint
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from buildlint.quantities import (
    Amount,
    QuantityError,
    default_unit,
    guess_slip,
    in_unit,
    q,
    read,
    show,
    show_amount,
)
from buildlint.quantity_display import decimals_shown
from buildlint.unit_factors import FACTORS
from buildlint.units import DIMENSIONS

INCH = 0.0254
POUND_FORCE = 4.4482216152605
POUND_FOOT = 1.3558179483314004


def case(text, dimension, value, unit, *, id):
    return pytest.param(text, dimension, value, unit, id=id)


ACCEPT = [
    # numbers
    case("1.800 in", "length", 1.8 * INCH, "in", id="decimal inches"),
    case("2 in", "length", 2 * INCH, "in", id="whole inches"),
    case(".040 in", "length", 0.040 * INCH, "in", id="no zero before the point"),
    case("-0.060 in", "length", -0.060 * INCH, "in", id="negative"),
    case("-.060 in", "length", -0.060 * INCH, "in", id="negative without zero"),
    case("+0.060 in", "length", 0.060 * INCH, "in", id="plus sign"),
    case("1e3 rpm", "rpm", 1000 * math.pi / 30, "rpm", id="exponent"),
    case("1.5E-3 m", "length", 0.0015, "m", id="capital exponent with sign"),
    case("5/16 in", "length", 0.3125 * INCH, "in", id="fraction"),
    case("1-1/4 in", "length", 1.25 * INCH, "in", id="mixed with hyphen"),
    case("1 1/4 in", "length", 1.25 * INCH, "in", id="mixed with blank"),
    case("-1-1/4 in", "length", -1.25 * INCH, "in", id="negative mixed"),
    case("1¼ in", "length", 1.25 * INCH, "in", id="vulgar quarter"),
    case("1 ½ in", "length", 1.5 * INCH, "in", id="vulgar half after a blank"),
    case("⅞ in", "length", 0.875 * INCH, "in", id="vulgar seven eighths alone"),
    case("1⅜ in", "length", 1.375 * INCH, "in", id="vulgar three eighths"),
    case("010 in", "length", 10 * INCH, "in", id="leading zero is not octal"),
    case("0.030 in", "length", 0.030 * INCH, "in", id="trailing zero"),
    case("0.03 in", "length", 0.030 * INCH, "in", id="no trailing zero"),
    case("0", "length", 0.0, "in", id="bare zero length"),
    case("0 cc", "volume", 0.0, "cc", id="zero with unit"),
    case("0.000", "force", 0.0, "lbf", id="bare zero force"),
    # look-alikes
    case('0.040"', "length", 0.040 * INCH, '"', id="inch mark"),
    case("0.040″", "length", 0.040 * INCH, '"', id="double prime"),
    case("0.040”", "length", 0.040 * INCH, '"', id="closing quotation mark"),
    case("0.040''", "length", 0.040 * INCH, '"', id="two apostrophes"),
    case("0.040′′", "length", 0.040 * INCH, '"', id="two primes"),
    case("0.040 in.", "length", 0.040 * INCH, "in.", id="in with a period"),
    case("0.040 inch", "length", 0.040 * INCH, "inch", id="inch in words"),
    case("6'", "length", 6 * 0.3048, "'", id="foot mark"),
    case("6′", "length", 6 * 0.3048, "'", id="prime"),
    case("6’", "length", 6 * 0.3048, "'", id="apostrophe"),
    case("16 µin", "length", 16e-6 * INCH, "µin", id="micro sign"),
    case("16 μin", "length", 16e-6 * INCH, "µin", id="Greek mu"),
    case("90°", "angle", math.pi / 2, "°", id="degree sign"),
    case("90º", "angle", math.pi / 2, "°", id="masculine ordinal as degree"),
    case("90˚", "angle", math.pi / 2, "°", id="ring above as degree"),
    case("−0.060 in", "length", -0.060 * INCH, "in", id="minus sign U+2212"),
    case("‐0.060 in", "length", -0.060 * INCH, "in", id="hyphen U+2010"),
    case("1.800\u00a0in", "length", 1.8 * INCH, "in", id="no-break space"),
    case("1.800\u2009in", "length", 1.8 * INCH, "in", id="thin space"),
    case("1.800\u202fin", "length", 1.8 * INCH, "in", id="narrow no-break space"),
    case("  1.800   in  ", "length", 1.8 * INCH, "in", id="blanks around and between"),
    case("1.800\tin", "length", 1.8 * INCH, "in", id="tab between"),
    case("1.800in", "length", 1.8 * INCH, "in", id="no blank"),
    case("2.05 in²", "area", 2.05 * INCH**2, "in^2", id="raised two"),
    case("383 in³", "volume", 383 * INCH**3, "in^3", id="raised three"),
    # the dimension decides
    case("160 lb", "force", 160 * POUND_FORCE, "lb", id="lb as a force"),
    case("160 lb", "mass", 160 * 0.45359237, "lb", id="lb as a mass"),
    case("350 lb/in", "stiffness", 350 * POUND_FORCE / INCH, "lb/in", id="lb per in as a spring rate"),
    *(
        case(f"70 {unit}", "torque", 70 * POUND_FOOT, shown or unit, id=f"foot-pound written {unit}")
        for unit, shown in [
            ("lbf-ft", ""),
            ("ft-lb", ""),
            ("lb-ft", ""),
            ("ft·lb", ""),
            ("ft·lbf", ""),
            ("ft⋅lb", "ft·lb"),
            ("ft×lb", "ft·lb"),
            ("lbf·ft", ""),
            ("ft lb", ""),
            ("ft lbf", ""),
            ("lbf*ft", ""),
            ("lbs-ft", ""),
            ("ft lbs", ""),
            ("ftlb", ""),
        ]
    ),
    case("120 in-lb", "torque", 10 * POUND_FOOT, "in-lb", id="inch-pound is a twelfth"),
    case("120 lbf-in", "torque", 10 * POUND_FOOT, "lbf-in", id="pound-force inch"),
    case("192 oz-in", "torque", POUND_FOOT, "oz-in", id="ounce inch as a torque"),
    case("95 N*m", "torque", 95.0, "N*m", id="newton meter"),
    case("95 Nm", "torque", 95.0, "Nm", id="newton meter closed up"),
    case("0.25 oz-in", "unbalance", 0.25 * 0.028349523125 * INCH, "oz-in", id="ounce inch as an unbalance"),
    case("0.25 ozf*in", "unbalance", 0.25 * 0.028349523125 * INCH, "ozf*in", id="ounce inch as the vocabulary has it"),
    case("180 g*mm", "unbalance", 180e-6, "g*mm", id="gram millimeter"),
    case("5 mil", "length", 5e-3 * INCH, "mil", id="mil is a length"),
    case("5 thou", "length", 5e-3 * INCH, "thou", id="thou"),
    case("30 uin", "length", 30e-6 * INCH, "uin", id="microinch"),
    case("0.8 µm", "length", 0.8e-6, "µm", id="micrometer"),
    case("20000 mi", "length", 20000 * 1609.344, "mi", id="life in miles"),
    case("650 ft", "length", 650 * 0.3048, "ft", id="altitude"),
    case("45.72 mm", "length", 0.04572, "mm", id="millimeters"),
    case("454 cu in", "volume", 454 * INCH**3, "cu in", id="cubic inches in words"),
    case("454 ci", "volume", 454 * INCH**3, "ci", id="ci"),
    case("64 cc", "volume", 64e-6, "cc", id="cc"),
    case("64 cm^3", "volume", 64e-6, "cm^3", id="cubic centimeter"),
    case("2.3 L", "volume", 2.3e-3, "L", id="liter"),
    case("6 qt", "volume", 6 * 231 * INCH**3 / 4, "qt", id="US quart"),
    case("1 gal", "volume", 231 * INCH**3, "gal", id="US gallon"),
    case("65 psi", "pressure", 65 * 6894.757293168361, "psi", id="psi"),
    case("65 psig", "pressure", 65 * 6894.757293168361, "psig", id="gauge pressure keeps its spelling"),
    case("14.4 psia", "pressure", 14.4 * 6894.757293168361, "psia", id="absolute pressure keeps its spelling"),
    case("190 ksi", "pressure", 190e3 * 6894.757293168361, "ksi", id="ksi"),
    case("11.5 Mpsi", "pressure", 11.5e6 * 6894.757293168361, "Mpsi", id="Mpsi"),
    case("80 GPa", "pressure", 80e9, "GPa", id="GPa"),
    case("200 N/mm^2", "pressure", 200e6, "N/mm^2", id="newton per square millimeter"),
    case("1.5 inHg", "pressure", 1.5 * 3386.388640341, "inHg", id="inch of mercury"),
    case("28 inH2O", "pressure", 28 * 249.08891, "inH2O", id="inch of water"),
    case("180 degF", "temperature", (180 + 459.67) * 5 / 9, "degF", id="Fahrenheit"),
    case("180 °F", "temperature", (180 + 459.67) * 5 / 9, "°F", id="Fahrenheit with a degree sign"),
    case("-20 degF", "temperature", (459.67 - 20) * 5 / 9, "degF", id="Fahrenheit below zero"),
    case("90 degC", "temperature", 363.15, "degC", id="Celsius"),
    case("90 ºC", "temperature", 363.15, "°C", id="Celsius with an ordinal sign"),
    case("363.15 K", "temperature", 363.15, "K", id="kelvin"),
    case("30 K", "temperature_rise", 30.0, "K", id="rise in kelvin"),
    case("54 degF", "temperature_rise", 30.0, "degF", id="a rise never adds the offset"),
    case("30 degC", "temperature_rise", 30.0, "degC", id="rise in Celsius"),
    case("0", "temperature_rise", 0.0, "degF", id="bare zero rise"),
    case("300 rpm/s", "rpm_per_time", 10 * math.pi, "rpm/s", id="rpm per second"),
    case("500 hp", "power", 500 * 745.6998715822702, "hp", id="horsepower"),
    case("160 kW", "power", 160e3, "kW", id="kilowatt"),
    case("3.2 ms", "time", 0.0032, "ms", id="milliseconds"),
    case("25 min", "time", 1500.0, "min", id="minutes"),
    case("48 h", "time", 172800.0, "h", id="hours"),
    case("28 days", "time", 28 * 86400.0, "days", id="days"),
    case("1 year", "time", 365.25 * 86400, "year", id="year"),
    case("750 cfm", "flow", 750 * 0.3048**3 / 60, "cfm", id="cfm is not centi-femtometer"),
    case("110 gpm", "flow", 110 * 231 * INCH**3 / 60, "gpm", id="gallons per minute"),
    case("42 lb/h", "mass_flow", 42 * 0.45359237 / 3600, "lb/h", id="pounds per hour"),
    case("42 lb/hr", "mass_flow", 42 * 0.45359237 / 3600, "lb/hr", id="pounds per hr"),
    case("0.745 g/cm^3", "density", 745.0, "g/cm^3", id="grams per cubic centimeter"),
    case("3.7 mPa*s", "viscosity", 0.0037, "mPa*s", id="millipascal second"),
    case("14.4 cSt", "kinematic_viscosity", 14.4e-6, "cSt", id="centistokes"),
    case("43.4 MJ/kg", "specific_energy", 43.4e6, "MJ/kg", id="heating value"),
    case("0.48 lb/hp/h", "fuel_per_work", 0.48 * 1.6896594104e-7, "lb/hp/h", id="brake specific fuel"),
    case("292 g/kWh", "fuel_per_work", 292 / 3.6e9, "g/kWh", id="brake specific fuel, metric"),
    case("0.25 kg*m^2", "inertia", 0.25, "kg*m^2", id="moment of inertia"),
    case("500000 N*m/rad", "torsional_stiffness", 5e5, "N*m/rad", id="torsional stiffness"),
    case("1 deg/psi", "angle_per_pressure", math.pi / 180 / 6894.757293168361, "deg/psi", id="retard per boost"),
    case("10 kHz", "frequency", 1e4, "kHz", id="kilohertz"),
    case("40 kV", "voltage", 4e4, "kV", id="kilovolt"),
    case("80 A", "current", 80.0, "A", id="ampere"),
    case("1/4 turn", "angle", math.pi / 2, "turn", id="a quarter turn"),
    case("55 HRC", "hardness", 55.0, "HRC", id="Rockwell C"),
    case("400 HV", "hardness", 400.0, "HV", id="Vickers"),
    case("93", "octane", 93.0, "", id="octane"),
    # plain numbers
    case("1.7", "ratio", 1.7, "", id="plain ratio"),
    case("10.3:1", "ratio", 10.3, ":1", id="compression ratio"),
    case("11:1", "ratio", 11.0, ":1", id="whole ratio is not base sixty"),
    case("10.3 : 1", "ratio", 10.3, ":1", id="ratio with blanks"),
    case("3:2", "ratio", 1.5, ":1", id="ratio to two"),
    case("0.10", "fraction", 0.10, "", id="plain fraction"),
    case("10 %", "fraction", 0.10, "%", id="percent"),
    case("10%", "fraction", 0.10, "%", id="percent closed up"),
    case("1400 ppm", "fraction", 0.0014, "ppm", id="parts per million"),
    case("34", "count", 34.0, "", id="count"),
    case("-3", "count", -3.0, "", id="negative count"),
    case("8.0", "count", 8.0, "", id="whole count with a point"),
]


@pytest.mark.parametrize(("text", "dimension", "value", "unit"), ACCEPT)
def test_it_is_read_as_the_builder_meant_it(text, dimension, value, unit):
    amount = read(text, dimension)
    assert amount == pytest.approx(value, rel=1e-9, abs=1e-300)
    assert (amount.dimension, amount.unit, amount.text) == (dimension, unit, text)
    assert (amount.low, amount.high) == (None, None)


LIMITS = [
    pytest.param("0.0025 in +/- 0.0003 in", "length", 0.0025, 0.0022, 0.0028, "in", id="tolerance with both units"),
    pytest.param("0.0025 in +/- 0.0003", "length", 0.0025, 0.0022, 0.0028, "in", id="tolerance shares the unit"),
    pytest.param("0.0025 +/- 0.0003 in", "length", 0.0025, 0.0022, 0.0028, "in", id="unit only at the end"),
    pytest.param("0.0025 in ± 0.0003 in", "length", 0.0025, 0.0022, 0.0028, "in", id="plus-minus sign"),
    pytest.param("0.0025in+/-0.0003in", "length", 0.0025, 0.0022, 0.0028, "in", id="no blanks"),
    pytest.param("1 in +/- 1/64 in", "length", 1, 1 - 1 / 64, 1 + 1 / 64, "in", id="fraction as tolerance"),
    pytest.param("1 in +/- 0.254 mm", "length", 1, 0.99, 1.01, "in", id="tolerance in another unit"),
    pytest.param("-0.010 in +/- 0.002 in", "length", -0.010, -0.012, -0.008, "in", id="tolerance of a negative"),
    pytest.param("200 lbf +/- 10 %", "force", 200, 180, 220, "lbf", id="tolerance in percent"),
    pytest.param("10 % +/- 2 %", "fraction", 10, 8, 12, "%", id="percent of percent is points"),
    pytest.param("180 degF +/- 5 degF", "temperature", 180, 175, 185, "degF", id="tolerance of a temperature"),
    pytest.param("0.0022..0.0028 in", "length", 0.0025, 0.0022, 0.0028, "in", id="range, unit on the last"),
    pytest.param("0.0022 in..0.0028 in", "length", 0.0025, 0.0022, 0.0028, "in", id="range, unit on both"),
    pytest.param("0.0022 .. 0.0028 in", "length", 0.0025, 0.0022, 0.0028, "in", id="range with blanks"),
    pytest.param("1/16..3/32 in", "length", 5 / 64, 1 / 16, 3 / 32, "in", id="range of fractions"),
    pytest.param("-0.060..0.120 in", "length", 0.030, -0.060, 0.120, "in", id="range across nothing"),
    pytest.param("-20..180 degF", "temperature", 80, -20, 180, "degF", id="range of temperatures"),
    pytest.param("30 min..1 h", "time", 0.75, 0.5, 1, "h", id="range with two units"),
    pytest.param("10.0..10.5:1", "ratio", 10.25, 10, 10.5, ":1", id="range of ratios"),
    pytest.param("55..60 HRC", "hardness", 57.5, 55, 60, "HRC", id="range of hardness"),
    pytest.param("16..18", "count", 17, 16, 18, "", id="range of counts"),
    pytest.param("0..60 %", "fraction", 30, 0, 60, "%", id="range of percent"),
]


@pytest.mark.parametrize(("text", "dimension", "value", "low", "high", "unit"), LIMITS)
def test_a_tolerance_or_a_range_gives_limits(text, dimension, value, low, high, unit):
    amount = read(text, dimension)
    shown = [in_unit(number, dimension, unit) for number in (amount, amount.low, amount.high)]
    assert shown == pytest.approx([value, low, high], rel=1e-9, abs=1e-12)
    assert (amount.unit, amount.text) == (unit, text)


def refused(text, dimension, says, fix, *, id):
    return pytest.param(text, dimension, says, fix, id=id)


REFUSE = [
    # commas, marks and the like in the number
    refused("3,5 mm", "length", "decimal comma", "Write 3.5 mm.", id="decimal comma"),
    refused("0,005 in", "length", "decimal comma", "Write 0.005 in.", id="three decimals after a zero"),
    refused("1,234 mm", "length", "thousands or decimals", "Write 1234 mm or 1.234 mm.", id="ambiguous comma"),
    refused("1,234.5 mm", "length", "commas between thousands", "Write 1234.5 mm.", id="thousands comma and point"),
    refused("1,234,567 mm", "length", "commas between thousands", "Write 1234567 mm.", id="two thousands commas"),
    refused("1_000 rpm", "rpm", "underscore", "Write 1000 rpm.", id="underscore"),
    refused("5. in", "length", "ends its number with a point", "Write 5 in.", id="point at the end"),
    refused("1.2.3 in", "length", "more than one number", "1.800 in", id="two points"),
    refused("1..2..3 in", "length", "neither one range", "0.0022..0.0028 in", id="three ends of a range"),
    refused("1...2 in", "length", "neither one range", "0.0022..0.0028 in", id="three points"),
    refused("1..2 in +/- 1 in", "length", "neither one range", "", id="range and tolerance"),
    refused("- 5 in", "length", "blank between sign and number", "Write -5 in.", id="sign apart"),
    refused("--5 in", "length", "", "", id="two signs"),
    refused("5/0 in", "length", "makes no sense", "5/16", id="divided by zero"),
    refused("1-5/4 in", "length", "makes no sense", "1-1/4", id="mixed with more than a whole"),
    refused("1.5/2 in", "length", "calculation", "", id="decimal over whole"),
    refused("5¼4 in", "length", "vulgar fraction one quarter", "", id="digit after a vulgar fraction"),
    refused("1⁄2 in", "length", "fraction slash", "1/2 in", id="fraction slash"),
    refused("11⁄2 in", "length", "fraction slash", "1-1/2 in", id="one and a half after normalization"),
    # other digits and characters
    refused("١٢ in", "length", "arabic-indic digit one (U+0661)", "digits 0 to 9", id="Arabic digits"),
    refused("１２ in", "length", "fullwidth digit one", "digits 0 to 9", id="full-width digits"),
    refused("0.018–0.020 in", "length", "en dash (U+2013)", "0.018..0.020 in", id="en dash as a range"),
    refused("0.018—0.020 in", "length", "em dash (U+2014)", "0.018..0.020 in", id="em dash as a range"),
    refused("0.018…0.020 in", "length", "horizontal ellipsis", "0.018..0.020 in", id="ellipsis as a range"),
    refused("1.8\u200b in", "length", "zero width space (U+200B), which cannot be seen", "Delete", id="zero width"),
    refused("\u202e1.8 in", "length", "right-to-left override (U+202E)", "Delete", id="bidirectional override"),
    refused("1.8 in\u2066", "length", "left-to-right isolate (U+2066)", "Delete", id="bidirectional isolate"),
    refused("1.8 in\n", "length", "U+000A", "Delete", id="line end"),
    refused("1.8 \x1b[31min", "length", "U+001B", "Delete", id="escape character"),
    refused("1.8 in\x00", "length", "U+0000", "Delete", id="NUL"),
    refused("1.8 \ud800", "length", "U+D800", "Delete", id="lone surrogate"),
    refused("1.8 іn", "length", "cyrillic small letter byelorussian-ukrainian i", "plain letters", id="Cyrillic i"),
    refused("1.8 ㎜", "length", "square mm", "plain letters", id="squared mm"),
    # no number, no unit, too many of them
    refused("", "length", "is empty", "1.800 in", id="empty"),
    refused("   ", "length", "is empty", "1.800 in", id="only blanks"),
    refused("mm", "length", "unit without a number", "1.800 in", id="unit alone"),
    refused("psi", "length", "unit without a number", "1.800 in", id="unit of another dimension alone"),
    refused("tight", "length", "does not begin with a number", "1.800 in", id="a word"),
    refused("about 2 in", "length", "does not begin with a number", "1.800 in", id="about"),
    refused("> 2 in", "length", "begins with >", "0.0022..0.0028 in", id="comparison"),
    refused("1.800", "length", "has no unit; a length was expected", "Write 1.800 in or 1.800 mm.", id="bare length"),
    refused("70", "torque", "has no unit; a torque", "Write 70 lbf-ft or 70 N*m.", id="bare torque"),
    refused("28", "time", "has no unit; a time", "Write 28 s, 28 h or 28 days.", id="bare time"),
    refused("58", "hardness", "has no unit; a hardness", "Write 58 HRC or 58 HV.", id="bare hardness"),
    refused("0", "temperature", "has no unit", "Write 0 degF or 0 degC.", id="bare zero is no temperature"),
    refused("0", "hardness", "has no unit", "Write 0 HRC or 0 HV.", id="bare zero is no hardness"),
    refused("0.0022..0.0028", "length", "has no unit", "Write 0.0022..0.0028 in", id="bare range"),
    refused("0.0025 +/- 0.0003", "length", "has no unit", "Write 0.0025 +/- 0.0003 in", id="bare tolerance"),
    refused("5 in; 6", "length", "more than one number", "", id="trailing junk"),
    refused("1 ft 6 in", "length", "more than one number", "", id="feet and inches"),
    refused("5 in mm", "length", "two units", "", id="two units"),
    refused("5 in # old", "length", "unknown unit", "", id="trailing remark"),
    refused("1 in..2", "length", "unit in the middle", "Write 1..2 in.", id="unit on the first only"),
    refused("1\x1f..2", "length", "U+001F", "Delete", id="hidden character in the middle"),
    refused("1 bananas..2", "length", "", "1.800 in", id="unknown unit in the middle"),
    refused("2..1 in", "length", "larger to the smaller", "Write 1..2 in.", id="range turned round"),
    refused("2 in..1 in", "length", "larger to the smaller", "Write 1..2 in.", id="range turned round, both units"),
    refused("..5 in", "length", "range with a side that holds no number", "", id="range without a beginning"),
    refused("5 in..", "length", "range with a side that holds no number", "", id="range without an end"),
    refused("5 in +/-", "length", "tolerance with a side that holds no number", "", id="tolerance without a number"),
    refused("5 in +/- -1 in", "length", "negative tolerance", "without a sign", id="negative tolerance"),
    refused("5 in +/- 1 lbf", "length", "", "", id="tolerance of another dimension"),
    refused("1.000 in +0.001/-0.000", "length", "two different tolerances", "1.000..1.002 in", id="uneven tolerance"),
    refused("180 degF +/- 5 %", "temperature", "", "", id="percent of a temperature"),
    refused("0.5-0.7 in", "length", "reads like a range", "Write 0.5..0.7 in.", id="hyphen as a range"),
    refused("0.5 in - 0.7 in", "length", "reads like a range", "Write 0.5..0.7 in.", id="spaced hyphen as a range"),
    refused("0.5 to 0.7 in", "length", "reads like a range", "Write 0.5..0.7 in.", id="to as a range"),
    # calculations are never worked out
    refused("10**10**10 mm", "length", "calculation", "Write its result.", id="towers of powers"),
    refused("9**9**9", "length", "calculation", "Write its result.", id="powers without a unit"),
    refused("(" * 90 + "1" + ")" * 90, "length", "does not begin with a number", "", id="many parentheses"),
    refused("(1.8) in", "length", "does not begin with a number", "", id="parentheses"),
    refused("2*3 in", "length", "calculation", "Write its result.", id="times"),
    refused("2 + 3 in", "length", "calculation", "Write its result.", id="plus"),
    refused("2 x 3 in", "length", "calculation", "Write its result.", id="x as times"),
    refused("2^3 in", "length", "calculation", "Write its result.", id="power"),
    refused("__import__('os') in", "length", "does not begin with a number", "", id="code"),
    # not finite, or out of all measure
    refused("nan", "length", "not a finite number", "", id="nan"),
    refused(".nan in", "length", "not a finite number", "", id="YAML nan"),
    refused("inf mm", "length", "not a finite number", "", id="inf"),
    refused("-.inf", "ratio", "not a finite number", "", id="YAML minus inf"),
    refused("Infinity in", "length", "not a finite number", "", id="Infinity"),
    refused("1e308 in", "length", "out of all measure", "", id="huge exponent"),
    refused("1e999999999 in", "length", "", "", id="exponent that would never end"),
    refused("1e-400 in", "length", "", "", id="tiny exponent"),
    refused("1e16 in", "length", "out of all measure", "", id="more than any engine"),
    refused("9" * 31 + " in", "length", "too many digits", "Round", id="too many digits"),
    refused("1 " * 150, "length", "300 characters", "one number and one unit", id="a long text"),
    refused("-500 degF", "temperature", "below absolute zero", "", id="below absolute zero"),
    refused("-1 K", "temperature", "below absolute zero", "", id="negative kelvin"),
    # units
    refused("1.8 lbf", "length", "is a force; a length was expected", "1.800 in", id="force for a length"),
    refused("1.8 lb", "length", "is a mass or a force; a length", "1.800 in", id="pound for a length"),
    refused("65 ft", "torque", "ft alone is a length", "Write 65 lbf-ft.", id="half a torque"),
    refused("70 lbf-ft", "force", "is a torque; a force was expected", "160 lbf", id="torque for a force"),
    refused("300 cc/min", "mass_flow", "volume per time", "42 lb/h", id="volume flow for a mass flow"),
    refused("10 psi", "temperature", "is a pressure", "180 degF", id="pressure for a temperature"),
    refused("10 %", "length", "is a fraction", "1.800 in", id="percent for a length"),
    refused("10.3:1", "length", "is a ratio", "1.800 in", id="ratio for a length"),
    refused("10 %", "ratio", "is a fraction", "10.3:1", id="percent for a ratio"),
    refused("1:2:3", "ratio", "not one ratio", "10.3:1", id="two colons"),
    refused("10:0", "ratio", "not one ratio", "10.3:1", id="ratio to nothing"),
    refused("90 F", "temperature", "farad", "Write 90 degF.", id="bare F"),
    refused("90 C", "temperature", "coulomb", "Write 90 degC.", id="bare C"),
    refused("90 deg", "temperature", "an angle", "Write 90 degF or 90 degC.", id="bare deg as a temperature"),
    refused("30 C", "temperature_rise", "coulomb", "Write 30 degC.", id="bare C as a rise"),
    refused("5 R", "temperature", "Rankine", "degF", id="bare R"),
    refused("5 M", "length", "unknown unit", "Known here: in, mm", id="bare M"),
    refused("500 PS", "power", "metric horsepower", "Write 368 kW.", id="metric horsepower"),
    refused("150 kg", "force", "a kilogram is a mass", "Write 150 kgf.", id="kilogram for a force"),
    refused("9 kg-m", "torque", "a kilogram is a mass", "Write 9 kgf*m.", id="kilogram meter"),
    refused("3 months", "time", "no fixed length", "days or weeks", id="month"),
    refused("65 KPA", "pressure", "unknown unit `KPA`", "Write 65 kPa.", id="wrong capitals"),
    refused("65 KPA", "length", "is a pressure", "1.800 in", id="wrong capitals and dimension"),
    refused("1.8 inn", "length", "unknown unit `inn`", "Write 1.8 in.", id="a slip of the finger"),
    refused("2 millimetres", "length", "unknown unit", "Write 2 mm.", id="British spelling"),
    refused("5 fathom", "length", "is in fathom, which is not among", "Write 360.001 in.", id="a unit pint knows"),
    refused("5 slug", "mass", "is in slug, which is not among", "Write 72970 g.", id="another unit pint knows"),
    refused("5 fathom", "force", "is in fathom", "160 lbf", id="a unit of another kind that pint knows"),
    refused("5 bananas", "length", "unknown unit `bananas`", "Known here: in, mm", id="no unit at all"),
    refused("5 bananas", "count", "more than a plain number", "Write 5.", id="pieces of a count"),
    refused("8.5", "count", "not a whole number; a count", "", id="half a count"),
    refused("1/3", "count", "not a whole number; a count", "", id="a third of a count"),
    refused("16..17.5", "count", "not a whole number", "", id="range of counts not whole"),
    refused("93 RON", "octane", "more than a plain number", "Write 93.", id="octane with its scale"),
]


@pytest.mark.parametrize(("text", "dimension", "says", "fix"), REFUSE)
def test_it_is_refused_with_a_message_and_advice(text, dimension, says, fix):
    with pytest.raises(QuantityError) as refusal:
        read(text, dimension)
    assert says in refusal.value.message
    assert fix in refusal.value.fix
    assert refusal.value.message.endswith(".")
    assert refusal.value.fix.endswith(".")
    assert refusal.value.message.isprintable()
    assert refusal.value.fix.isprintable()
    assert len(refusal.value.message) < 400


def test_a_text_that_the_advice_gives_is_itself_accepted():
    followed = 0
    for text, dimension, _, _ in (refusal.values for refusal in REFUSE):
        with pytest.raises(QuantityError) as refusal:
            read(text, dimension)
        advised = re.search(r"(?:Write|for example) ([-0-9].*?)(?: or .*|, .*)?\.$", refusal.value.fix)
        if advised:
            read(advised[1], dimension)
            followed += 1
    assert followed > 70


@pytest.mark.parametrize("thing", [True, 1, 1.8, None, float("nan")], ids=str)
def test_what_is_not_text_is_refused(thing):
    with pytest.raises(QuantityError, match="is no text"):
        read(thing, "length")


@pytest.mark.parametrize(("dimension", "system"), [("lenght", None), ("length", "imperial"), ("", None)])
def test_an_unknown_dimension_or_system_is_a_mistake_of_the_program(dimension, system):
    with pytest.raises(LookupError):
        read("1 in", dimension, system)


BARE = [
    pytest.param("1.800", "length", "us", "1.800 in", id="us length"),
    pytest.param("45.72", "length", "metric", "45.72 mm", id="metric length"),
    pytest.param("64", "volume", "us", "64 cc", id="us volume"),
    pytest.param("64", "volume", "metric", "64 cm^3", id="metric volume"),
    pytest.param("160", "force", "us", "160 lbf", id="us force"),
    pytest.param("70", "torque", "us", "70 lbf-ft", id="us torque"),
    pytest.param("95", "torque", "metric", "95 N*m", id="metric torque"),
    pytest.param("65", "pressure", "us", "65 psi", id="us pressure"),
    pytest.param("450", "pressure", "metric", "450 kPa", id="metric pressure"),
    pytest.param("180", "temperature", "us", "180 degF", id="us temperature"),
    pytest.param("90", "temperature", "metric", "90 degC", id="metric temperature"),
    pytest.param("420", "mass", "us", "420 g", id="us mass is in grams too"),
    pytest.param("5/16", "length", "us", "5/16 in", id="us fraction"),
    pytest.param("10 mm", "length", "us", "10 mm", id="a written unit wins"),
    pytest.param("0.0025 +/- 0.0003", "length", "us", "0.0025 in +/- 0.0003 in", id="us tolerance"),
    pytest.param("0.0022..0.0028", "length", "us", "0.0022..0.0028 in", id="us range"),
    pytest.param("200 +/- 10 %", "force", "us", "200 lbf +/- 10 %", id="us tolerance in percent"),
    pytest.param("0.5", "fraction", "us", "0.5", id="a fraction stays plain"),
]


@pytest.mark.parametrize(("text", "dimension", "system", "meant"), BARE)
def test_a_bare_number_means_the_unit_of_the_system(text, dimension, system, meant):
    bare, full = read(text, dimension, system), read(meant, dimension)
    assert (bare, bare.unit, bare.low, bare.high) == (full, full.unit, full.low, full.high)


@pytest.mark.parametrize("system", ["us", "metric"])
@pytest.mark.parametrize("dimension", ["time", "hardness"])
def test_a_bare_number_without_a_usual_unit_is_refused_in_every_system(dimension, system):
    with pytest.raises(QuantityError, match="has no unit"):
        read("28", dimension, system)


def test_every_quantity_of_the_schemas_can_be_read():
    """Examples and plausible ranges of every leaf, in the dimension the schema gives it."""
    seen = 0

    def walk(node):
        nonlocal seen
        if isinstance(node, list):
            for part in node:
                walk(part)
        if not isinstance(node, dict):
            return
        reference = node.get("$ref")
        if isinstance(reference, str) and "quantities.json#/$defs/" in reference:
            dimension = re.sub("_(each|value|measured)$", "", reference.rsplit("/", 1)[1])
            texts = [text for key in ("examples", "plausible") for text in node.get(key, [])]
            for text in texts if dimension in DIMENSIONS else []:
                if isinstance(text, str | int | float):
                    read(str(text), dimension)
                    seen += 1
        for part in node.values():
            walk(part)

    for schema in sorted((Path(__file__).parent.parent / "schemas").rglob("*.json")):
        walk(json.loads(schema.read_text(encoding="utf-8")))
    assert seen > 1000


def test_equal_lengths_in_inches_and_millimeters_are_equal_to_the_last_bit():
    for thousandths in range(1, 4001):
        inches = Decimal(thousandths) / 1000
        assert read(f"{inches} in", "length") == read(f"{inches * Decimal('25.4')} mm", "length")


@given(
    numerator=st.integers(0, 63),
    sixteenths=st.sampled_from([2, 4, 8, 16, 32, 64]),
    whole=st.integers(0, 20),
)
def test_a_fraction_equals_its_decimal(numerator, sixteenths, whole):
    assume(numerator < sixteenths)
    decimal = Decimal(whole) + Decimal(numerator) / sixteenths
    assert read(f"{whole}-{numerator}/{sixteenths} in", "length") == read(f"{decimal} in", "length")


@given(st.decimals(-99999, 99999, places=4), st.sampled_from(["psi", "lbf-ft", "hp", "lb", "gal", "cfm", "lbf/in"]))
def test_a_value_carried_to_another_unit_and_back_stays_the_same(number, unit):
    amount = q(f"{number} {unit}", {"lb": "mass"}.get(unit))
    for other in FACTORS[amount.dimension]:
        row = FACTORS[amount.dimension][other]
        carried = in_unit(amount, amount.dimension, other)
        assert (carried * row[0] + row[2]) / row[1] == pytest.approx(amount, rel=1e-12, abs=1e-15)


def test_units_are_told_by_a_limit_of_a_rule():
    assert q("0.050 in").dimension == "length"
    assert q("70 lbf-ft").dimension == "torque"
    assert q("0.0025 +/- 0.0003 in").dimension == "length"
    assert q("250 degF").dimension == "temperature"
    assert q("0.5 ozf*in").dimension == "unbalance"
    assert q("412 g").dimension == "mass"
    assert q("10.3:1").dimension == "ratio"
    assert q("5 %").dimension == "fraction"
    assert q("58 HRC").dimension == "hardness"
    assert q("0.50", "fraction") == 0.50
    assert q("5 lb", "force") == 5 * POUND_FORCE
    assert q("30 K", "temperature_rise") == 30


@pytest.mark.parametrize("text", ["5 lb", "5 oz", "30 K", "0.50", "8", "0", "5 bananas", "5 oz-in", "", "in"])
def test_a_limit_whose_dimension_is_not_told_is_refused(text):
    with pytest.raises(QuantityError):
        q(text)


SHOWN = [
    pytest.param("1.8 in", "length", "in", "1.800 in", id="inches from a tenth on have three decimals"),
    pytest.param("0.05 in", "length", "in", "0.0500 in", id="inches below a tenth have four"),
    pytest.param("45.72 mm", "length", "in", "1.800 in", id="in another unit"),
    pytest.param("2.4481 in", "length", "in", "2.4481 in", id="a fourth decimal that is there is shown"),
    pytest.param("5/16 in", "length", "in", "0.3125 in", id="a sixteenth is exact"),
    pytest.param("45.7249 mm", "length", "mm", "45.72 mm", id="millimeters have two decimals"),
    pytest.param("0.06354 mm", "length", "mm", "0.064 mm", id="small millimeters have three"),
    pytest.param("0.0015 in", "length", "mm", "0.038 mm", id="and no fourth where an inch figure has one"),
    pytest.param("0.00003 in", "length", "in", "0.000030 in", id="never so short that it reads as nothing"),
    pytest.param("0.04 in", "length", '"', '0.0400"', id="inch mark closed up"),
    pytest.param("20000 mi", "length", "mi", "20000 mi", id="no thousands mark, no exponent"),
    pytest.param("16 uin", "length", "uin", "16 uin", id="microinch"),
    pytest.param("160.4 lbf", "force", "lbf", "160 lbf", id="pounds of force are whole"),
    pytest.param("160.4 lbf", "force", "lb", "160 lb", id="in the builder's spelling"),
    pytest.param("12.25 lbf", "force", "lbf", "12.2 lbf", id="small force has a decimal"),
    pytest.param("64.96 psi", "pressure", "psi", "65 psi", id="psi is whole"),
    pytest.param("6.5 psi", "pressure", "psi", "6.5 psi", id="small psi has a decimal"),
    pytest.param("70.3 lbf-ft", "torque", "ft-lb", "70 ft-lb", id="torque is whole"),
    pytest.param("2.25 lbf-ft", "torque", "lbf-ft", "2.2 lbf-ft", id="small torque has a decimal"),
    pytest.param("6199.6 rpm", "rpm", "rpm", "6200 rpm", id="rpm is whole"),
    pytest.param("34 deg", "angle", "deg", "34.0 deg", id="degrees have a decimal"),
    pytest.param("212 degF", "temperature", "degF", "212 degF", id="Fahrenheit is whole"),
    pytest.param("90 degC", "temperature", "degF", "194 degF", id="no 193.99999 out of Celsius"),
    pytest.param("10.31", "ratio", ":1", "10.31:1", id="a hundredth that is there is shown"),
    pytest.param("10.3123", "ratio", ":1", "10.3:1", id="compression ratio"),
    pytest.param("1.7", "ratio", "", "1.7", id="plain ratio"),
    pytest.param("1.66667", "ratio", "", "1.67", id="plain ratio to the hundredth"),
    pytest.param("1.625", "ratio", "", "1.625", id="a plain ratio that is so"),
    pytest.param("9.002", "ratio", "", "9.0", id="plain compression ratio"),
    pytest.param("9.25", "ratio", "", "9.25", id="plain compression ratio of a hundredth that is there"),
    pytest.param("0.1554", "ratio", "", "0.155", id="nut factor"),
    pytest.param("0.10", "fraction", "%", "10 %", id="percent"),
    pytest.param("0.0014", "fraction", "ppm", "1400 ppm", id="ppm"),
    pytest.param("0.1", "fraction", "", "0.1", id="plain fraction"),
    pytest.param("8", "count", "", "8", id="count"),
    pytest.param("58 HRC", "hardness", "HRC", "58 HRC", id="hardness"),
    pytest.param("93", "octane", "", "93", id="octane"),
    pytest.param("0 in", "length", "in", "0.000 in", id="nothing"),
    pytest.param("0.48 lb/hp/h", "fuel_per_work", "lb/hp/h", "0.48 lb/hp/h", id="four digits for the rest"),
]


@pytest.mark.parametrize(("text", "dimension", "unit", "shown"), SHOWN)
def test_a_value_is_shown_as_the_trade_writes_it(text, dimension, unit, shown):
    assert show(read(text, dimension), dimension, unit) == shown


def test_nothing_is_never_shown_as_less_than_nothing():
    assert show(-0.0, "length", "in") == "0.000 in"
    assert show(-1e-15, "length", "in") == "0.000 in"
    assert show(-1e-18, "angle", "deg") == "0 deg"


def test_a_value_near_its_limit_is_shown_apart_from_it():
    value, limit = q("0.24998 in"), q("0.250 in")
    assert show(value, "length", "in") == show(limit, "length", "in") == "0.250 in"
    assert show(value, "length", "in", apart_from=limit) == "0.24998 in"
    assert show(limit, "length", "in", apart_from=value) == "0.25000 in"
    assert show(limit, "length", "in", apart_from=q("6.35 mm")) == "0.250 in"


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_what_is_not_finite_is_said_in_words(value):
    assert show(value, "length", "in") == "not a finite number"


@pytest.mark.parametrize(("dimension", "unit"), [("length", "lbf"), ("length", ""), ("lenght", "in")])
def test_showing_in_a_foreign_unit_is_a_mistake_of_the_program(dimension, unit):
    with pytest.raises(LookupError):
        show(1.0, dimension, unit)


def test_an_amount_is_shown_as_it_was_written():
    assert show_amount(read("1-1/4 in", "length")) == "1-1/4 in"
    assert show_amount(read("0.0025 in +/- 0.0003", "length")) == "0.0025 in +/- 0.0003"
    assert show_amount(read("10.3:1", "ratio")) == "10.3:1"
    assert show_amount(read("2.05 in^2", "area")) == "2.05 in^2"
    assert show_amount(read("1.800", "length", "us")) == "1.800 in"
    assert show_amount(read("0.0022..0.0028", "length", "us")) == "0.0022..0.0028 in"
    assert show_amount(read("0", "length")) == "0 in"
    assert show_amount(Amount(0.04572, "length", "in")) == "1.800 in"


def test_an_amount_is_a_float_that_knows_its_text():
    amount = read("0.0022..0.0028 in", "length")
    assert isinstance(amount, float)
    assert type(amount * 2) is float
    assert f"{amount}" == str(amount) == "0.0022..0.0028 in"
    assert f"{amount:.7f}" == "0.0000635"
    assert repr(amount) == "Amount('0.0022..0.0028 in')"
    assert json.dumps(amount) == repr(float(amount))
    for other in (pickle.loads(pickle.dumps(amount)), copy.deepcopy(amount)):
        assert (other, other.dimension, other.unit, other.text) == (amount, "length", "in", amount.text)
        assert (other.low, other.high) == (amount.low, amount.high)


def test_an_amount_without_a_text_reads_as_its_usual_unit():
    assert str(Amount(0.04572, "length")) == "1.800 in"
    assert str(Amount(0.04572, "length", "mm")) == "45.72 mm"
    assert str(Amount(3.0)) == "3.0"


def test_a_refusal_survives_the_way_to_another_process():
    with pytest.raises(QuantityError) as refusal:
        read("3,5 mm", "length")
    again = pickle.loads(pickle.dumps(refusal.value))
    assert (again.message, again.fix) == (refusal.value.message, refusal.value.fix)


def test_the_same_text_is_read_only_once():
    assert read("1.801 in", "length") is read("1.801 in", "length")
    assert read("1.801", "length", "us") is not read("1.801", "length", "metric")


USUAL = [
    pytest.param("length", "us", "1.8 in", "in", id="us length"),
    pytest.param("length", "metric", "1.8 in", "mm", id="metric length"),
    pytest.param("length", "us", "650 ft", "ft", id="us altitude"),
    pytest.param("length", "metric", "650 ft", "m", id="metric altitude"),
    pytest.param("length", "us", "20000 mi", "mi", id="us distance"),
    pytest.param("volume", "us", "64 cc", "cc", id="us chamber"),
    pytest.param("volume", "us", "383 in^3", "in^3", id="us displacement"),
    pytest.param("volume", "metric", "383 in^3", "L", id="metric displacement"),
    pytest.param("mass", "us", "412 g", "g", id="us piston"),
    pytest.param("mass", "us", "570 lb", "lb", id="us engine"),
    pytest.param("mass", "metric", "570 lb", "kg", id="metric engine"),
    pytest.param("pressure", "us", "65 psi", "psi", id="us oil pressure"),
    pytest.param("pressure", "us", "150 ksi", "ksi", id="us stress"),
    pytest.param("pressure", "metric", "150 ksi", "MPa", id="metric stress"),
    pytest.param("torque", "us", "70 lbf-ft", "lbf-ft", id="us torque"),
    pytest.param("torque", "metric", "70 lbf-ft", "N*m", id="metric torque"),
    pytest.param("time", "us", "3.2 ms", "ms", id="dwell"),
    pytest.param("time", "us", "25 min", "min", id="break-in"),
    pytest.param("time", "us", "28 days", "days", id="lead time"),
    pytest.param("temperature", "us", "90 degC", "degF", id="us temperature"),
    pytest.param("fraction", "us", "10 %", "%", id="fraction"),
    pytest.param("ratio", "metric", "1.7", "", id="ratio"),
]


@pytest.mark.parametrize(("dimension", "system", "text", "unit"), USUAL)
def test_a_value_without_a_written_unit_takes_the_usual_one(dimension, system, text, unit):
    assert default_unit(dimension, system, read(text, dimension)) == unit
    assert default_unit(dimension, system, -read(text, dimension)) == unit


SLIPS = [
    pytest.param("45.72 in", "length", ("1.1 in", "2.7 in"), ("mm", "45.72 mm"), id="millimeters called inches"),
    pytest.param("1.8 mm", "length", ("1.1 in", "2.7 in"), ("in", "1.8 in"), id="inches called millimeters"),
    pytest.param("40 in", "length", ("0 in", "0.06 in"), ("thou", "40 thou"), id="thousandths called inches"),
    pytest.param("16 in", "length", ("2 uin", "120 uin"), ("uin", "16 uin"), id="microinches called inches"),
    pytest.param("840 lbf-ft", "torque", ("1 lbf-ft", "600 lbf-ft"), ("lbf-in", "840 lbf-in"), id="inch-pounds"),
    pytest.param("20 lbf-in", "torque", ("4 lbf-ft", "40 lbf-ft"), ("lbf-ft", "20 lbf-ft"), id="foot-pounds"),
    pytest.param("5 lbf-in", "torque", ("3 N*m", "6 N*m"), ("N*m", "5 N*m"), id="newton meters"),
    pytest.param("448 psi", "pressure", ("10 psi", "150 psi"), ("kPa", "448 kPa"), id="kilopascals called psi"),
    pytest.param("4.5 psi", "pressure", ("20 psi", "150 psi"), ("bar", "4.5 bar"), id="bar called psi"),
    pytest.param("190 psi", "pressure", ("30 ksi", "330 ksi"), ("ksi", "190 ksi"), id="ksi called psi"),
    pytest.param("383 cc", "volume", ("60 in^3", "1000 in^3"), ("in^3", "383 in^3"), id="cubic inches called cc"),
    pytest.param("93 degC", "temperature", ("60 degF", "120 degF"), ("degF", "93 degF"), id="not Celsius"),
    pytest.param("90 degF", "temperature", ("160 degF", "330 degF"), ("degC", "90 degC"), id="not Fahrenheit"),
    pytest.param("85", "fraction", ("0.5", "1"), ("%", "85 %"), id="percent left out"),
    pytest.param("0.85 %", "fraction", ("0.3", "0.9"), ("", "0.85"), id="percent too many"),
    pytest.param("680 rpm", "rpm", ("2000 rpm", "12000 rpm"), ("rpm", "6800 rpm"), id="a digit lost"),
    pytest.param("103:1", "ratio", ("6:1", "19:1"), (":1", "10.3:1"), id="point left out"),
    pytest.param("0.25 deg", "angle", ("1 deg", "5 deg"), ("deg", "2.5 deg"), id="point one place too far left"),
    pytest.param("45.5..46 in", "length", ("1.1 in", "2.7 in"), ("mm", "45.5..46 mm"), id="a range"),
    pytest.param(
        "45.5 in +/- 0.3 in", "length", ("1.1 in", "2.7 in"), ("mm", "45.5 mm +/- 0.3 mm"), id="a tolerance"
    ),
    pytest.param("890 lbf +/- 10 %", "force", ("100 lbf", "300 lbf"), ("N", "890 N +/- 10 %"), id="in percent"),
    pytest.param("1-1/2 mm", "length", ("1.1 in", "2.7 in"), ("in", "1-1/2 in"), id="a mixed number"),
]


@pytest.mark.parametrize(("text", "dimension", "limits", "guess"), SLIPS)
def test_a_known_slip_is_guessed(text, dimension, limits, guess):
    low, high = (read(limit, dimension) for limit in limits)
    unit, meant = guess_slip(read(text, dimension), low, high)
    assert (unit, meant) == guess
    assert low <= read(meant, dimension) <= high


def test_a_bare_number_is_guessed_with_the_unit_it_lacked():
    amount = read("45.72", "length", "us")
    assert guess_slip(amount, q("1.1 in"), q("2.7 in")) == ("mm", "45.72 mm")


def test_no_slip_is_guessed_where_none_is_known():
    assert guess_slip(q("7.77 in"), q("1.1 in"), q("1.2 in")) is None
    assert guess_slip(read("1/3", "ratio"), 6.0, 19.0) is None


SHOWABLE = [
    (dimension, unit)
    for dimension, known in FACTORS.items()
    for unit in dict.fromkeys(row[3] for row in known.values())
    if dimension != "count"
]


@given(
    where=st.sampled_from(SHOWABLE),
    number=st.one_of(st.floats(1e-4, 1e5), st.floats(-1e5, -1e-4), st.integers(-9999, 9999).map(lambda n: n / 1000)),
)
@settings(max_examples=1500, deadline=None)
def test_what_is_shown_reads_back_within_its_own_decimals(where, number):
    dimension, unit = where
    numerator, denominator, zero, _ = FACTORS[dimension][unit]
    value = (number * numerator + zero) / denominator
    assume(dimension != "temperature" or value > 1)
    text = show(value, dimension, unit)
    assert "e" not in text.removesuffix(unit)
    assert not text.startswith("-0.000 ")
    again = in_unit(read(text, dimension), dimension, unit)
    allowed = 0.5 * 10 ** -decimals_shown(in_unit(value, dimension, unit), dimension, unit)
    assert abs(again - number) <= allowed * (1 + 1e-6) + 1e-9 * abs(number)


PIECES = [
    *["1", "0", "-", "+", ".", "..", "...", ",", "/", ":", "e", "E5", "+/-", "±", " ", "9" * 40, "5/16", "1-1/4"],
    *["in", "mm", '"', "''", "°", "degF", "lb", "ft", "lbf-ft", "%", "10.3:1", "furlong", "PS", "Hg", "µ", "μ"],
    *["¼", "½", "−", "–", "·", "²", "(", ")", "**", "*", "^", "_", "nan", "inf"],
    *["\u200b", "\u202e", "\n", "\x1b", "\ud800", "١", "㎜"],
]


@given(
    text=st.one_of(st.text(), st.lists(st.sampled_from(PIECES), max_size=9).map("".join)),
    dimension=st.sampled_from(list(DIMENSIONS)),
    system=st.sampled_from([None, "us", "metric"]),
)
@settings(max_examples=3000, deadline=None)
def test_no_text_raises_anything_but_a_refusal(text, dimension, system):
    try:
        amount = read(text, dimension, system)
    except QuantityError as refusal:
        assert refusal.message
        assert refusal.fix
        assert refusal.message.isprintable()
        assert refusal.fix.isprintable()
    else:
        assert math.isfinite(amount)
        assert amount.unit in FACTORS[dimension]
        assert amount.low is None or amount.low <= amount <= amount.high
        assert math.isfinite(read(show(amount, dimension, amount.unit), dimension))
        guess_slip(amount, 1.0, 2.0)


@given(st.text(max_size=20))
@settings(deadline=None)
def test_no_limit_raises_anything_but_a_refusal(text):
    try:
        q(text)
    except QuantityError:
        pass


def test_every_word_that_pint_knows_is_answered():
    """Logarithmic and offset units, constants, prefixes: a spelling from pint's registry never breaks a refusal."""
    for word in dir(pint.UnitRegistry()):
        for dimension in ("length", "temperature", "power"):
            try:
                read(f"5 {word}", dimension)
            except QuantityError as refusal:
                assert refusal.fix


@pytest.mark.parametrize(
    "text",
    [
        "1" * 10_000,
        "1 " * 5_000,
        "1," * 5_000,
        "1/" * 5_000,
        "-" * 10_000,
        "1." * 5_000,
        "(" * 10_000,
        "1e" * 5_000,
        "1 " + "in " * 3_000,
        " " * 10_000 + "x",
        "½" * 10_000,
        "1**" * 3_000,
        "+/-" * 3_000,
        "1,000" * 2_000,
        "\x00" * 10_000,
        "a" * 10_000,
    ],
    ids=lambda text: f"{text[:5]!r} without end",
)
@pytest.mark.parametrize("length", [199, 10_000], ids=["as long as is read", "longer"])
def test_hostile_texts_are_refused_at_once(text, length):
    started = time.process_time()
    with pytest.raises(QuantityError):
        read(text[:length], "length")
    assert time.process_time() - started < 0.05
