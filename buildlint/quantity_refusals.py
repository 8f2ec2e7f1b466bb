"""Works out why a text is not a quantity, and what the builder should write instead.

Nothing is read here; quantities.py asks only after it has refused. pint is asked last, and only about one plain word
that it knows without a prefix, to say what that unit would have been.
"""

import difflib
import functools
import re
import unicodedata

from buildlint.quantities import QuantityError, quoted, read
from buildlint.quantity_display import BARE_UNITS, default_unit, joined, show
from buildlint.unit_factors import FACTORS
from buildlint.units import DIMENSIONS, registry

KINDS = {
    "length": "a length",
    "area": "an area",
    "volume": "a volume",
    "angle": "an angle",
    "mass": "a mass",
    "force": "a force",
    "stiffness": "a stiffness (force per length)",
    "pressure": "a pressure",
    "torque": "a torque",
    "rpm": "a speed of rotation",
    "rpm_per_time": "a gain of speed per time",
    "power": "a power",
    "time": "a time",
    "temperature": "a temperature",
    "temperature_rise": "a difference of temperatures",
    "flow": "a flow (volume per time)",
    "mass_flow": "a flow (mass per time)",
    "density": "a density",
    "viscosity": "a viscosity",
    "kinematic_viscosity": "a kinematic viscosity",
    "specific_energy": "an energy per mass",
    "fuel_per_work": "a fuel consumption (mass per power and time)",
    "unbalance": "an unbalance (mass times radius)",
    "inertia": "a moment of inertia",
    "torsional_stiffness": "a torsional stiffness (torque per angle)",
    "angle_per_pressure": "an angle per pressure",
    "frequency": "a frequency",
    "voltage": "a voltage",
    "current": "a current",
    "speed": "a speed",
    "acceleration": "an acceleration",
    "energy": "an energy",
    "ratio": "a ratio",
    "fraction": "a fraction",
    "count": "a count",
    "hardness": "a hardness",
    "octane": "an octane number",
}

# A text that could stand in a spec, for each dimension.
EXAMPLES = {
    "length": "1.800 in",
    "area": "2.05 in^2",
    "volume": "64 cc",
    "angle": "34 deg",
    "mass": "412 g",
    "force": "160 lbf",
    "stiffness": "410 lbf/in",
    "pressure": "65 psi",
    "torque": "70 lbf-ft",
    "rpm": "6800 rpm",
    "rpm_per_time": "300 rpm/s",
    "power": "450 hp",
    "time": "25 min",
    "temperature": "180 degF",
    "temperature_rise": "30 K",
    "flow": "260 ft^3/min",
    "mass_flow": "42 lb/h",
    "density": "745 kg/m^3",
    "viscosity": "3.7 mPa*s",
    "kinematic_viscosity": "14.4 mm^2/s",
    "specific_energy": "43.4 MJ/kg",
    "fuel_per_work": "0.48 lb/hp/h",
    "unbalance": "0.25 ozf*in",
    "inertia": "0.25 kg*m^2",
    "torsional_stiffness": "500000 N*m/rad",
    "angle_per_pressure": "1 deg/psi",
    "frequency": "10 kHz",
    "voltage": "13.5 V",
    "current": "80 A",
    "speed": "4000 ft/min",
    "acceleration": "2500 g",
    "energy": "100 J",
    "ratio": "1.7 or 10.3:1",
    "fraction": "10 % or 0.10",
    "count": "8",
    "hardness": "58 HRC",
    "octane": "93",
}

# What a number without a unit is most likely to have meant, besides the usual unit of the two systems.
LIKELY_UNITS = {"time": ("s", "h", "days"), "hardness": ("HRC", "HV"), "flow": ("ft^3/min", "gpm", "L/min")}

# Spellings that are known and still refused: the reason, and the units one of which was meant.
REFUSED = {
    ("temperature", "F"): ("F alone is also the farad", "degF"),
    ("temperature", "C"): ("C alone is also the coulomb", "degC"),
    ("temperature_rise", "F"): ("F alone is also the farad", "degF"),
    ("temperature_rise", "C"): ("C alone is also the coulomb", "degC"),
    ("temperature", "R"): ("R may be Rankine or Reaumur", "degF", "degC"),
    ("temperature", "deg"): ("deg alone is an angle", "degF", "degC"),
    ("temperature", "°"): ("° alone is an angle", "degF", "degC"),
    ("torque", "ft"): ("ft alone is a length", "lbf-ft"),
    ("torque", "lb"): ("lb alone is a force or a mass", "lbf-ft", "lbf-in"),
    ("torque", "lbs"): ("lbs alone is a force or a mass", "lbf-ft", "lbf-in"),
    ("torque", "kg-m"): ("a kilogram is a mass", "kgf*m"),
    ("torque", "kg*m"): ("a kilogram is a mass", "kgf*m"),
    ("torque", "kgm"): ("a kilogram is a mass", "kgf*m"),
    ("force", "kg"): ("a kilogram is a mass", "kgf"),
    ("force", "g"): ("a gram is a mass", "lbf", "N"),
    ("stiffness", "kg/mm"): ("a kilogram is a mass", "kgf/mm"),
    ("time", "m"): ("m is the meter", "min"),
    ("time", "month"): ("a month has no fixed length", "days", "weeks"),
    ("time", "months"): ("a month has no fixed length", "days", "weeks"),
}
METRIC_HORSEPOWER = ("PS", "ps", "cv", "CV", "ch", "pk")

_NUMBER = re.compile(
    r"[-+]?(?:(?:[0-9]+[- ])?[0-9]+/[0-9]+|(?:[0-9]+(?:\.[0-9]+)?|\.[0-9]+)(?:[eE][-+]?[0-9]+)?)"
).match


def refusal(text, clean, dimension):
    """The QuantityError for a text that quantities.read refused; ``clean`` is the text with look-alikes replaced."""
    shown = quoted(text)
    expected = f"{KINDS[dimension]} was expected" if dimension else "a ratio was expected"
    dimension = dimension or "ratio"
    example = f"Write for example {EXAMPLES[dimension]}."
    for find in (_odd_characters, _no_number, _commas_and_underscores, _several_numbers, _unknown_unit):
        found = find(clean, dimension)
        if found:
            message, fix, *instead = found
            if instead and fix == "":
                fix = f"Write {instead[0]}."
            return QuantityError(f"{shown} {message}; {expected}.", fix or example, _readable(instead[0] if instead else None, dimension))
    return QuantityError(f"{shown} cannot be read; {expected}.", example)


_DASHES = {
    "\u2013": "an en dash",
    "\u2014": "an em dash",
    "\u2012": "a figure dash",
    "\u2015": "a horizontal bar",
}
_READABLE = frozenset("µ°·")


def _odd_characters(clean, dimension):
    for letter in clean:
        if letter.isascii() and letter.isprintable() or letter in _READABLE:
            continue
        name = _DASHES.get(letter) or unicodedata.name(letter, "a control character").lower()
        place = f"holds {name} (U+{ord(letter):04X})"
        if letter in _DASHES:
            return place, "Write two points for a range (0.018..0.020 in) or a plain - for a minus."
        if letter == "\u2026":
            return place, "Write two points for a range: 0.018..0.020 in."
        if letter in "\u2044\u2215":
            return place, "Write fractions with a plain slash: 1/2 in, 1-1/2 in."
        if letter.isdigit() or letter.isnumeric():
            return place, "Write numbers with the digits 0 to 9."
        if letter.isprintable():
            return place, "Write plain letters, digits and signs."
        return place + ", which cannot be seen", "Delete that character."
    return None


def _no_number(clean, dimension):
    if not clean:
        return "is empty", f"Write for example {EXAMPLES[dimension]}, or leave the key out while it is not known."
    if re.match(r"[-+]?\.?(nan|inf|infinity)\b", clean, re.IGNORECASE):
        return "is not a finite number", ""
    if re.match(r"[-+.]?\.?[0-9]", clean):
        return None
    if clean in FACTORS[dimension] or _dimensions_of(clean):
        return "is a unit without a number", ""
    if clean[0] in "<>~=":
        return f"begins with {clean[0]}", "Write the number alone, or a range such as 0.0022..0.0028 in."
    if re.match(r"[-+(] ?\(?[0-9.]", clean) and clean[0] != "(":
        return "has a blank between sign and number", "", clean[0] + clean[1:].lstrip()
    return "does not begin with a number", ""


def _commas_and_underscores(clean, dimension):
    if re.match(r"[-+]?[0-9]{1,3}(?:(?:,[0-9]{3})+\.[0-9]|(?:,[0-9]{3}){2,}(?![0-9]))", clean):
        return "holds commas between thousands", "", clean.replace(",", "")
    if re.match(r"[-+]?[1-9][0-9]{0,2},[0-9]{3}(?![0-9])", clean):
        plain, point = clean.replace(",", "", 1), clean.replace(",", ".", 1)
        return "holds a comma that may mean thousands or decimals", f"Write {plain} or {point}."
    if re.match(r"[-+]?[0-9]+,[0-9]", clean):
        return "holds a decimal comma", "", clean.replace(",", ".")
    if re.match(r"[-+]?[0-9]*_", clean):
        return "holds an underscore", "", clean.replace("_", "")
    if re.match(r"[-+]?[0-9]+\.(?![0-9.])", clean):
        return "ends its number with a point", "", clean.replace(".", "", 1)
    return None


def _several_numbers(clean, dimension):
    rest = clean[_NUMBER(clean).end() :] if _NUMBER(clean) else clean
    if re.search(r"\+/-|±|\.\.", clean):
        return _range_or_tolerance(clean, dimension)
    between = re.match(r"( ?[a-zA-Z\"'°]*) ?(-|to|through) ?(?=[0-9.])", rest)
    if between and not re.match(r"[0-9]+/[0-9]+-[0-9]", clean):
        first = _NUMBER(clean).group()
        return "reads like a range", f"Write {first}..{rest[between.end() :]}."
    if re.match(r" ?[a-zA-Z\"]* ?\+[0-9. ]+[a-z\"]* ?/? ?-", rest):
        return "has two different tolerances", "Write the two limits: 1.000..1.002 in."
    if re.match(r" ?(\*\*|[*^x·]|[-+/] ?[0-9(]|\()", rest) or "**" in rest:
        return "is a calculation, which is never worked out here", "Write its result."
    if ":" in rest:
        return "is not one ratio of two numbers" if dimension == "ratio" else "is a ratio", ""
    if dimension in ("count", "octane") and rest:
        return "is more than a plain number", f"Write {_NUMBER(clean).group()}."
    if re.search(r"(?:^|[ ;,])[-+]?\.?[0-9]", rest):
        return "holds more than one number", f"Write one number and one unit, for example {EXAMPLES[dimension]}."
    if ".." in rest or re.match(r"\.[0-9]", rest):
        return "holds a number with two points", ""
    return None


def _range_or_tolerance(clean, dimension):
    if "..." in clean or clean.count("..") > 1 or clean.count("+/-") > 1 or (".." in clean and "+/-" in clean):
        return (
            "is neither one range nor one tolerance",
            "Write a range as 0.0022..0.0028 in, a tolerance as 0.0025 in +/- 0.0003 in.",
        )
    mark = ".." if ".." in clean else "+/-"
    for side in clean.split(mark):
        side = side.strip(" ")
        found = _NUMBER(side)
        if not found:
            word = "range" if mark == ".." else "tolerance"
            return f"has a {word} with a side that holds no number", ""
        inner = _unknown_unit(side, dimension) if side[found.end() :].strip() else None
        if inner:
            return inner[0], ""
    return _without_unit(clean, dimension)


def _without_unit(clean, dimension):
    usual = dict.fromkeys(LIKELY_UNITS.get(dimension) or BARE_UNITS[dimension])
    return "has no unit", f"Write {_either([joined(clean, unit) for unit in usual])}."


def _either(texts):
    return f"{', '.join(texts[:-1])} or {texts[-1]}" if len(texts) > 1 else texts[0]


def _unknown_unit(clean, dimension):
    found = _NUMBER(clean)
    if not found:
        return None
    number, unit = found.group(), clean[found.end() :].strip(" ")
    if not unit:
        return _without_unit(clean, dimension)
    if unit in FACTORS[dimension]:
        return None
    if (dimension, unit) in REFUSED:
        reason, *meant = REFUSED[dimension, unit]
        if "month" in unit:
            return f"has a unit that can be misread: {reason}", f"Write the time in {_either(meant)}."
        texts = [joined(number, one) for one in meant]
        return f"has a unit that can be misread: {reason}", f"Write {_either(texts)}."
    if dimension == "power" and unit in METRIC_HORSEPOWER:
        fix = _converted(registry(), number, "metric_horsepower", "kW", dimension)
        return "is in metric horsepower, a little less than hp", fix
    same, near = _same(unit, dimension), _nearest(unit, dimension)
    others = _dimensions_of(unit) or (_dimensions_of(unit, str.casefold) if near is None and len(unit) > 1 else [])
    if others:
        return f"is {_either([KINDS[other] for other in others])}", f"Write for example {EXAMPLES[dimension]}."
    if near is not None:
        instead = joined(number, near)
        return f"has the unknown unit {quoted(unit)}", f"Write {instead}.", instead if same else None
    words = unit.split(" ")
    if len(words) > 1 and all(word in FACTORS[dimension] or _dimensions_of(word) for word in words):
        return "has two units", f"Write one number and one unit, for example {EXAMPLES[dimension]}."
    return _named_by_pint(number, unit, dimension) or (
        f"has the unknown unit {quoted(unit)}",
        f"Known here: {', '.join(known for known in _units(dimension) if known) or 'plain numbers only'}.",
    )


def _dimensions_of(spelling, alike=str):
    """Every dimension that has this spelling; with ``alike=str.casefold`` whatever its capitals."""
    wanted = alike(spelling)
    return [dimension for dimension, known in FACTORS.items() if wanted and wanted in map(alike, known)]


def _units(dimension):
    return dict.fromkeys(row[3] for row in FACTORS[dimension].values())


def _nearest(unit, dimension):
    """The spelling that was most likely meant: the same in other letters, or one letter off."""
    same = _same(unit, dimension)
    if same is not None:
        return same
    tight, plain = _tight_spellings(dimension), _tight(unit)
    close = difflib.get_close_matches(plain, tight, 1, 0.75) if len(plain) > 2 else []
    return tight[close[0]] if close else None


def _same(unit, dimension):
    """The unit that this is with other capitals, blanks or in the plural, where there is one."""
    tight, plain = _tight_spellings(dimension), _tight(unit)
    for candidate in (plain, plain.removesuffix("s"), plain.removesuffix("es")):
        if candidate in tight and len(plain) > 1:
            return tight[candidate]
    return None


def _tight_spellings(dimension):
    return {_tight(spelling): row[3] for spelling, row in FACTORS[dimension].items() if spelling}


def _readable(instead, dimension):
    """The text, if it is one number with a unit that is known: what is proposed must not be refused in its turn."""
    found = _NUMBER(instead) if instead else None
    return instead if found and instead[found.end() :].strip(" ") in FACTORS[dimension] else None


def _tight(spelling):
    return spelling.replace(" ", "").casefold().rstrip(".")


def _named_by_pint(number, unit, dimension):
    """Ask pint's own registry about one plain word. It is given a word of letters, never an expression."""
    if not re.fullmatch(r"[A-Za-z]{3,20}", unit):
        return None
    known = _known_to_pint()
    if not any(name == unit or not prefix and not suffix for prefix, name, suffix in known.parse_unit_name(unit)):
        return None
    usual = default_unit(dimension)
    fix = _converted(known, number, unit, usual, dimension)
    if fix is None:
        return f"is in {unit}, which no spec uses for it", f"Write for example {EXAMPLES[dimension]}."
    return f"is in {unit}, which is not among the units of a spec", fix


def _converted(known, number, unit, instead, dimension):
    """`Write 72 in.`: a number of a unit of a pint registry in one of our units; None where it is something else."""
    import pint

    try:
        value = known.Quantity(float(read(number, "ratio")), unit).to(DIMENSIONS[dimension].replace("^", "**"))
    except (pint.PintError, ValueError):
        return None
    if not 1e-6 < abs(value.magnitude) < 1e6:
        return None
    return f"Write {show(value.magnitude, dimension, instead)}."


@functools.cache
def _known_to_pint():
    import pint

    return pint.UnitRegistry()
