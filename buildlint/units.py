"""The dimensions a builder measures in, and the closed list of spellings of each unit.

pint and the file unit_definitions.txt own every factor; `python -m buildlint.units` computes the table in
unit_factors.py from them, so that a plain check never has to import pint. Reading and showing of values stand in
quantities.py.
"""

import functools
from pathlib import Path

DIMENSIONS = {
    "length": "m",
    "area": "m^2",
    "volume": "m^3",
    "angle": "rad",
    "mass": "kg",
    "force": "N",
    "stiffness": "N/m",
    "pressure": "Pa",
    "torque": "N*m",
    "rpm": "rad/s",
    "rpm_per_time": "rad/s^2",
    "power": "W",
    "time": "s",
    "temperature": "K",
    "temperature_rise": "K",
    "flow": "m^3/s",
    "mass_flow": "kg/s",
    "density": "kg/m^3",
    "viscosity": "Pa*s",
    "kinematic_viscosity": "m^2/s",
    "specific_energy": "J/kg",
    "fuel_per_work": "kg/J",
    "unbalance": "kg*m",
    "inertia": "kg*m^2",
    "torsional_stiffness": "N*m/rad",
    "angle_per_pressure": "rad/Pa",
    "frequency": "Hz",
    "voltage": "V",
    "current": "A",
    "speed": "m/s",
    "acceleration": "m/s^2",
    "energy": "J",
    "ratio": "",
    "fraction": "",
    "count": "",
    "hardness": "",
    "octane": "",
}


def products(left, right):
    """Every way the trade joins two units into one: `lbf-ft`, `ft-lbf`, `ft*lb`, `ft·lb`, `ft lb`."""
    pairs = [pair for one in left for other in right for pair in ((one, other), (other, one))]
    return [f"{one}{mark}{other}" for one, other in pairs for mark in "-*· "]


def quotients(left, right):
    """Every spelling of one unit over another: `lb/in`, `lbs/in`, `lbs/inch`."""
    return [f"{one}/{other}" for one in left for other in right]


POUNDS = ("lb", "lbs")
POUNDS_FORCE = ("lbf", "lb", "lbs")
HOURS = ("h", "hr", "hour")

# dimension: {unit as we write it: (what it is to pint, its other spellings)}
SPELLINGS = {
    "length": {
        "in": ("inch", ["in.", "inch", "inches", '"', "IN"]),
        "mm": ("millimeter", ["millimeter", "millimeters"]),
        "cm": ("centimeter", ["centimeter", "centimeters"]),
        "m": ("meter", ["meter", "meters"]),
        "km": ("kilometer", ["kilometer", "kilometers"]),
        "um": ("micrometer", ["µm", "micrometer", "micrometers", "micron", "microns"]),
        "uin": ("microinch", ["µin", "microinch", "microinches"]),
        "thou": ("thou", ["mil", "mils"]),
        "ft": ("foot", ["ft.", "foot", "feet", "'", "FT"]),
        "mi": ("mile", ["mile", "miles"]),
    },
    "area": {
        "in^2": ("inch**2", ["in2", "sq in", "sq. in.", "sq.in.", "square inch", "square inches"]),
        "ft^2": ("foot**2", ["ft2", "sq ft", "square feet"]),
        "mm^2": ("millimeter**2", ["mm2", "sq mm"]),
        "cm^2": ("centimeter**2", ["cm2", "sq cm"]),
        "m^2": ("meter**2", ["m2"]),
    },
    "volume": {
        "cc": ("cc", ["CC", "ccm"]),
        "cm^3": ("centimeter**3", ["cm3", "cu cm"]),
        "mL": ("milliliter", ["ml", "milliliter", "milliliters"]),
        "L": ("liter", ["l", "liter", "liters"]),
        "in^3": (
            "inch**3",
            ["in3", "ci", "CI", "cid", "CID", "cu in", "cu. in.", "cu.in.", "cubic inch", "cubic inches"],
        ),
        "ft^3": ("foot**3", ["ft3", "cu ft", "cubic feet"]),
        "mm^3": ("millimeter**3", ["mm3"]),
        "m^3": ("meter**3", ["m3"]),
        "pt": ("pint", ["pint", "pints"]),
        "qt": ("quart", ["qts", "quart", "quarts"]),
        "gal": ("gallon", ["gallon", "gallons"]),
    },
    "angle": {
        "deg": ("degree", ["°", "degree", "degrees"]),
        "rad": ("radian", ["radian", "radians"]),
        "turn": ("turn", ["turns"]),
    },
    "mass": {
        "g": ("gram", ["gram", "grams"]),
        "kg": ("kilogram", ["kilogram", "kilograms"]),
        "oz": ("ounce", ["ounce", "ounces"]),
        "lb": ("pound", ["lbs", "lb.", "lbs.", "lbm", "pound", "pounds", "LB", "LBS"]),
    },
    "force": {
        "lbf": ("pound_force", ["lb", "lbs", "lb.", "lbs.", "pound", "pounds", "LB", "LBS", "LBF"]),
        "ozf": ("ounce_force", ["oz"]),
        "N": ("newton", ["newton", "newtons"]),
        "kN": ("kilonewton", []),
        "kgf": ("kilogram_force", []),
    },
    "stiffness": {
        "lbf/in": ("lbf/inch", quotients(POUNDS_FORCE, ("in", "inch", "in."))),
        "N/mm": ("newton/millimeter", []),
        "N/m": ("newton/meter", []),
        "kN/m": ("kilonewton/meter", []),
        "kgf/mm": ("kgf/millimeter", []),
    },
    "pressure": {
        "psi": ("psi", ["PSI", "lbf/in^2", "lb/in^2", "lbf/in2"]),
        "psig": ("psi", ["PSIG", "psi gauge"]),
        "psia": ("psi", ["PSIA", "psi absolute"]),
        "ksi": ("ksi", ["KSI"]),
        "Mpsi": ("megapsi", ["Msi"]),
        "Pa": ("pascal", []),
        "kPa": ("kilopascal", ["kN/m^2"]),
        "MPa": ("megapascal", ["N/mm^2", "N/mm2"]),
        "GPa": ("gigapascal", ["kN/mm^2"]),
        "hPa": ("hectopascal", []),
        "bar": ("bar", []),
        "mbar": ("millibar", []),
        "inHg": ("inHg", ["in Hg", "in. Hg", "in-Hg", '"Hg', '" Hg']),
        "mmHg": ("mmHg", ["mm Hg"]),
        "inH2O": ("inH2O", ["in H2O", "in. H2O", "in-H2O", '"H2O', '" H2O']),
    },
    "torque": {
        "lbf-ft": ("lbf*foot", [*products(POUNDS_FORCE, ("ft", "foot")), "ftlb", "lbft", "ft.lb", "ft.-lb.", "FT-LB"]),
        "lbf-in": ("lbf*inch", [*products(POUNDS_FORCE, ("in", "inch")), "inlb", "lbin", "in.-lb.", "IN-LB"]),
        "ozf-in": ("ozf*inch", ["in-ozf", "oz-in", "in-oz", "oz in", "in oz"]),
        "N*m": ("newton*meter", ["N·m", "N m", "N-m", "Nm", "N.m"]),
        "kgf*m": ("kgf*meter", ["kgf·m", "kgf m", "kgf-m"]),
    },
    "rpm": {
        "rpm": ("rpm", ["RPM", "r/min", "rev/min", "1/min"]),
        "rad/s": ("radian/second", ["rad/sec"]),
        "rev/s": ("turn/second", ["r/s"]),
    },
    "rpm_per_time": {
        "rpm/s": ("rpm/second", ["rpm/sec", "rpm/second", "RPM/s", "RPM/sec"]),
        "rpm/min": ("rpm/minute", []),
        "rad/s^2": ("radian/second**2", ["rad/s2"]),
    },
    "power": {
        "hp": ("hp", ["HP", "bhp", "BHP", "horsepower"]),
        "kW": ("kilowatt", []),
        "W": ("watt", ["watt", "watts"]),
    },
    "time": {
        "s": ("second", ["sec", "second", "seconds"]),
        "ms": ("millisecond", ["millisecond", "milliseconds"]),
        "min": ("minute", ["min.", "minute", "minutes"]),
        "h": ("hour", ["hr", "hrs", "hour", "hours"]),
        "days": ("day", ["day", "d"]),
        "weeks": ("week", ["week"]),
        "years": ("year", ["year"]),
    },
    "temperature": {
        "degF": ("degF", ["deg F", "°F", "° F"]),
        "degC": ("degC", ["deg C", "°C", "° C"]),
        "K": ("kelvin", ["kelvin"]),
    },
    "temperature_rise": {
        "degF": ("delta_degF", ["deg F", "°F", "° F"]),
        "degC": ("delta_degC", ["deg C", "°C", "° C"]),
        "K": ("kelvin", ["kelvin"]),
    },
    "flow": {
        "ft^3/min": ("cfm", ["cfm", "CFM", "ft3/min", "cu ft/min"]),
        "gpm": ("gpm", ["GPM", "gal/min"]),
        "gal/h": ("gallon/hour", ["gal/hr", "gph", "GPH"]),
        "L/min": ("liter/minute", ["l/min", "lpm", "LPM"]),
        "L/h": ("liter/hour", ["l/h", "L/hr", "lph", "LPH"]),
        "L/s": ("liter/second", ["l/s"]),
        "cc/min": ("cc/minute", ["cm^3/min", "cm3/min", "mL/min", "ml/min"]),
        "m^3/h": ("meter**3/hour", ["m3/h"]),
        "m^3/min": ("meter**3/minute", ["m3/min"]),
        "m^3/s": ("meter**3/second", ["m3/s"]),
    },
    "mass_flow": {
        "lb/h": ("pound/hour", [*quotients((*POUNDS, "lbm"), HOURS), "pph", "PPH"]),
        "lb/min": ("pound/minute", ["lbs/min", "lbm/min"]),
        "kg/h": ("kilogram/hour", ["kg/hr"]),
        "kg/s": ("kilogram/second", []),
        "g/s": ("gram/second", ["g/sec"]),
        "g/min": ("gram/minute", []),
    },
    "density": {
        "kg/m^3": ("kilogram/meter**3", ["kg/m3"]),
        "g/cm^3": ("gram/centimeter**3", ["g/cm3", "g/cc", "g/mL", "g/ml"]),
        "kg/L": ("kilogram/liter", ["kg/l"]),
        "g/L": ("gram/liter", ["g/l"]),
        "lb/gal": ("pound/gallon", ["lbs/gal", "lbm/gal"]),
        "lb/in^3": ("pound/inch**3", ["lb/in3", "lbm/in^3"]),
        "lb/ft^3": ("pound/foot**3", ["lb/ft3", "lbm/ft^3"]),
    },
    "viscosity": {
        "mPa*s": ("millipascal*second", ["mPa·s", "mPa s", "mPa-s"]),
        "cP": ("centipoise", []),
        "Pa*s": ("pascal*second", ["Pa·s", "Pa s", "Pa-s"]),
    },
    "kinematic_viscosity": {
        "mm^2/s": ("millimeter**2/second", ["mm2/s"]),
        "cSt": ("centistokes", []),
        "m^2/s": ("meter**2/second", ["m2/s"]),
    },
    "specific_energy": {
        "MJ/kg": ("megajoule/kilogram", []),
        "kJ/kg": ("kilojoule/kilogram", []),
        "kJ/g": ("kilojoule/gram", []),
        "J/kg": ("joule/kilogram", []),
        "BTU/lb": ("BTU/pound", ["Btu/lb", "BTU/lbm", "Btu/lbm"]),
    },
    "fuel_per_work": {
        "lb/hp/h": (
            "pound/hp/hour",
            ["lb/hp/hr", "lbs/hp/hr", "lbs/hp/h", "lb/hp-h", "lb/hp-hr", "lbs/hp-hr", "lb/hp·h", "lb/hp*h", "lb/hph"],
        ),
        "g/kWh": ("gram/kilowatt/hour", ["g/kW/h", "g/kW-h", "g/kW*h", "g/kW·h"]),
        "kg/kWh": ("kilogram/kilowatt/hour", ["kg/kW/h"]),
        "kg/J": ("kilogram/joule", []),
    },
    "unbalance": {
        # The trade's ounce-inch of unbalance is mass times radius: the ounce is a mass, whatever letter follows it.
        "ozf*in": ("ounce*inch", products(("oz", "ozf"), ("in",))),
        "g*mm": ("gram*millimeter", ["g-mm", "g·mm", "g mm", "gmm"]),
        "g*cm": ("gram*centimeter", ["g-cm", "g·cm", "g cm"]),
        "g*in": ("gram*inch", ["g-in", "g·in", "g in"]),
        "kg*m": ("kilogram*meter", ["kg-m", "kg·m", "kg m"]),
    },
    "inertia": {
        "kg*m^2": ("kilogram*meter**2", ["kg·m^2", "kg m^2", "kg-m^2", "kg*m2"]),
        "kg*cm^2": ("kilogram*centimeter**2", ["kg·cm^2", "kg cm^2", "kg-cm^2"]),
        "lbf-in-s^2": (
            "lbf*inch*second**2",
            ["lbf*in*s^2", "lbf·in·s^2", "lb-in-s^2", "lb*in*s^2", "in-lbf-s^2", "in-lb-s^2"],
        ),
        "lbf-ft-s^2": ("lbf*foot*second**2", ["lbf*ft*s^2", "lb-ft-s^2", "ft-lb-s^2"]),
        "lb*in^2": ("pound*inch**2", ["lb-in^2", "lb·in^2", "lb in^2", "lbm*in^2", "lbm-in^2"]),
        "lb*ft^2": ("pound*foot**2", ["lb-ft^2", "lb·ft^2", "lb ft^2", "lbm*ft^2", "lbm-ft^2"]),
    },
    "torsional_stiffness": {
        "N*m/rad": ("newton*meter/radian", ["N·m/rad", "Nm/rad", "N-m/rad"]),
        "N*m/deg": ("newton*meter/degree", ["N·m/deg", "Nm/deg", "N-m/deg"]),
        "lbf-in/rad": ("lbf*inch/radian", ["lbf*in/rad", "lbf·in/rad", "in-lbf/rad", "lb-in/rad", "in-lb/rad"]),
        "lbf-ft/rad": ("lbf*foot/radian", ["lbf*ft/rad", "lbf·ft/rad", "ft-lbf/rad", "lb-ft/rad", "ft-lb/rad"]),
        "lbf-ft/deg": ("lbf*foot/degree", ["lbf*ft/deg", "lbf·ft/deg", "ft-lbf/deg", "lb-ft/deg", "ft-lb/deg"]),
    },
    "angle_per_pressure": {
        "deg/psi": ("degree/psi", ["°/psi"]),
        "deg/bar": ("degree/bar", ["°/bar"]),
        "deg/kPa": ("degree/kilopascal", ["°/kPa"]),
        "rad/Pa": ("radian/pascal", []),
    },
    "frequency": {
        "Hz": ("hertz", ["hertz"]),
        "kHz": ("kilohertz", []),
    },
    "voltage": {
        "V": ("volt", ["volt", "volts"]),
        "kV": ("kilovolt", []),
        "mV": ("millivolt", []),
    },
    "current": {
        "A": ("ampere", ["amp", "amps", "ampere", "amperes"]),
        "mA": ("milliampere", []),
    },
    "speed": {
        "m/s": ("meter/second", []),
        "ft/min": ("foot/minute", ["fpm"]),
        "ft/s": ("foot/second", ["ft/sec", "fps"]),
        "in/s": ("inch/second", ["in/sec"]),
        "mph": ("mile/hour", ["MPH", "mi/h"]),
        "km/h": ("kilometer/hour", []),
    },
    "acceleration": {
        "m/s^2": ("meter/second**2", ["m/s2"]),
        "ft/s^2": ("foot/second**2", ["ft/s2", "ft/sec^2"]),
        "g": ("standard_gravity", []),
    },
    "energy": {
        "J": ("joule", []),
        "kJ": ("kilojoule", []),
        "MJ": ("megajoule", []),
        "BTU": ("BTU", ["Btu"]),
    },
    "ratio": {"": ("", []), ":1": ("", [])},
    "fraction": {"": ("", []), "%": ("percent", ["percent"]), "ppm": ("ppm", ["PPM"])},
    "count": {"": ("", [])},
    # Numbers on a scale, kept with its name and never converted.
    "hardness": {
        "HRC": ("", ["Rc"]),
        "HRB": ("", ["Rb"]),
        "HV": ("", []),
        "HB": ("", ["HBW", "BHN"]),
    },
    "octane": {"": ("", [])},
}

DEFINITIONS = Path(__file__).with_name("unit_definitions.txt")
TABLE = Path(__file__).with_name("unit_factors.py")


@functools.cache
def registry():
    """Our pint registry, with the units of the trade and nothing else. It takes a noticeable moment to build."""
    import pint

    return pint.UnitRegistry(str(DEFINITIONS))


def exact_factors():
    """Compute every factor through pint in whole numbers.

    Returns {dimension: {unit: (numerator, denominator, zero)}}: a number n in that unit is
    (n * numerator + zero) / denominator in the SI unit of DIMENSIONS. Raises ValueError for a unit that does not
    have the dimension it is listed under.
    """
    from fractions import Fraction
    from math import lcm

    import pint

    exact = pint.UnitRegistry(str(DEFINITIONS), non_int_type=Fraction)
    factors = {}
    for dimension, units in SPELLINGS.items():
        kind = exact.Quantity(Fraction(1), DIMENSIONS[dimension].replace("^", "**")).dimensionality
        for unit, (expression, _) in units.items():
            if exact.Quantity(Fraction(1), expression).dimensionality != kind:
                raise ValueError(f"{unit} is not a unit of {dimension}: {expression} has another dimension")
            zero = exact.Quantity(Fraction(0), expression).to_root_units().magnitude
            factor = exact.Quantity(Fraction(1), expression).to_root_units().magnitude - zero
            denominator = lcm(factor.denominator, zero.denominator)
            row = int(factor * denominator), denominator, int(zero * denominator)
            factors.setdefault(dimension, {})[unit] = row
    return factors


def table():
    """The text of unit_factors.py. Raises ValueError where one spelling of a dimension would have two meanings."""
    factors = exact_factors()
    lines = [
        '"""Every spelling of every unit with its exact factor.',
        "",
        "Generated by `python -m buildlint.units` from the spellings there and unit_definitions.txt; never edited.",
        "FACTORS[dimension][spelling] is (numerator, denominator, zero, unit): a number n so written is",
        "(n * numerator + zero) / denominator in the SI unit of the dimension, and `unit` is our own spelling of it.",
        '"""',
        "",
        "FACTORS = {",
    ]
    for dimension, units in SPELLINGS.items():
        lines.append(f'    "{dimension}": {{')
        seen = {}
        for unit, (_, others) in units.items():
            row = (*factors[dimension][unit], unit)
            for spelling in dict.fromkeys([unit, *others]):
                if spelling in seen:
                    raise ValueError(f"{spelling} would be both {seen[spelling]} and {unit} as {dimension}")
                seen[spelling] = unit
                lines.append(f"        {spelling!r}: {row!r},")
        lines.append("    },")
    return "\n".join([*lines, "}", ""])


if __name__ == "__main__":
    TABLE.write_text(table(), encoding="utf-8")
