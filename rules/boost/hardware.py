"""What has to change when boost comes: sensor, fuel pressure, crankcase valve, and the carburetor that is blown through."""

from buildlint.rulebook import *

BOOSTED = ("supercharged", "turbocharged")

SENSOR = """
build: {induction: turbocharged, altitude_lowest: 300 ft}
fuel_system: {delivery: port_injection}
boost: {pressure: %s, manifold_sensor_range: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="The manifold sensor reads to {value}; at {boost_pressure} of boost it must read {limit} absolute.",
    fix="Order a sensor of at least {limit}, absolute, and give its scale to the controller.",
    source="definition of absolute pressure; the 5 percent above it common practice, no source",
    when={"induction": BOOSTED},
    points_at=("boost_manifold_sensor_range",),
    conforming=("build: {induction: supercharged}\nboost: {pressure: 28 psi}\nfuel_system: {delivery: mechanical_injection}",
                SENSOR % ("10 psi", "250 kPa", ""), SENSOR % ("10 psi", "300 kPa", "")),
    nonconforming=(SENSOR % ("10 psi", "100 kPa", "# <-"), SENSOR % ("18 psi", "200 kPa", "# <-")),
)
def manifold_sensor_reads_full_pressure(
    manifold_pressure_absolute: Pressure, boost_pressure: Pressure, boost_manifold_sensor_range: Pressure = None,
    fuel_delivery: Choice = None, *, above: Ratio = q("1.05", "ratio"),
):
    """Past its full scale a sensor reports the same pressure for ever more, and fuel and spark stay where they were.

    Only where the fuel is metered by a controller; a blow-through carburetor and a geared pump with its jets have no such sensor.
    """
    if fuel_delivery == "mechanical_injection":
        return not_applicable("pump and jets meter the fuel")
    if boost_manifold_sensor_range is None:
        return not_applicable("a carburetor meters the fuel") if fuel_delivery == "carburetor" else lacking("boost_manifold_sensor_range")
    return at_least(boost_manifold_sensor_range, Pressure(above * manifold_pressure_absolute))


REFERENCE = """
build: {induction: %s}
boost: {pressure: %s}
induction: {carburetor: {placed: %s}}
fuel_system: {delivery: %s, pressure: %s, regulator_reference: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="The fuel regulator refers to {reference}, not to the manifold: at {boost_pressure} of boost {left}.",
    fix="Fit a regulator with a line to the {where}, rising one to one: {needed} at full boost.",
    source="pressure balance",
    when={"induction": BOOSTED},
    points_at=("fuel_regulator_reference",),
    caution="Fuel under pressure: depressurize before opening a line, keep flames away, and follow the regulator maker's instructions.",
    conforming=(REFERENCE % ("turbocharged", "12 psi", "natural", "port_injection", "43.5 psi", "manifold", ""),
                REFERENCE % ("supercharged", "8 psi", "draw_through", "carburetor", "6.5 psi", "atmosphere", ""),
                REFERENCE % ("turbocharged", "12 psi", "natural", "port_injection", "58 psi", "controller_modeled", ""),
                REFERENCE % ("supercharged", "28 psi", "natural", "mechanical_injection", "110 psi", "atmosphere", "")),
    nonconforming=(REFERENCE % ("turbocharged", "12 psi", "natural", "port_injection", "43.5 psi", "atmosphere", "# <-"),
                   REFERENCE % ("supercharged", "8 psi", "blow_through", "carburetor", "6.5 psi", "atmosphere", "# <-")),
)
def fuel_pressure_follows_manifold(
    boost_pressure: Pressure, fuel_pressure: Pressure, fuel_regulator_reference: Choice = None, fuel_delivery: Choice = None,
    carburetor_placed: Choice = None,
):
    """Boost pushes back on the fuel: the engine leans out exactly as the load comes on.

    A carburetor that draws through the blower sees the outside air and keeps its plain regulator; one in a bonnet sees boost
    and gets no fuel at all once boost passes its few psi. A controller that knows the pressure across the injectors may do
    without a referenced regulator, within the injectors' range. Of mechanical injection the pump's speed and the jets meter the fuel.
    """
    if fuel_delivery == "mechanical_injection":
        return not_applicable("pump and jets meter the fuel")
    if fuel_delivery == "carburetor":
        if carburetor_placed is None:
            return lacking("carburetor_placed")
        if carburetor_placed != "blow_through":
            return not_applicable("the carburetor stands in outside air")
    if boost_pressure <= 0:
        return not_applicable("no boost")
    if fuel_regulator_reference is None:
        return lacking("fuel_regulator_reference")
    allowed = ("manifold",) if fuel_delivery == "carburetor" else ("manifold", "controller_modeled")
    left = Pressure(fuel_pressure - boost_pressure, fuel_pressure.unit)
    needed = Pressure(fuel_pressure + boost_pressure, fuel_pressure.unit)
    sentence = "nothing pushes the fuel in" if left <= 0 else "only {remaining} of the {fuel_pressure} are left across the injectors"
    if fuel_delivery == "carburetor":
        sentence = "no fuel enters the bowls" if left <= 0 else "only {remaining} are left at the needle valve"
    verdict = require(fuel_regulator_reference in allowed)
    return verdict.telling(reference={"atmosphere": "the outside air"}.get(fuel_regulator_reference, fuel_regulator_reference), remaining=left,
                           needed=needed, where="bonnet" if fuel_delivery == "carburetor" else "manifold").saying(
        "The fuel regulator refers to {reference}, not to the manifold: at {boost_pressure} of boost " + sentence + ".")


VALVE = """
build: {induction: supercharged}
accessories:
  breather: {ventilation_valve: %s, check_valve: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="The ventilation valve opens into a manifold under boost, and no check valve stands between.",
    fix="Add a check valve that closes toward the crankcase, and lead a second vent to the compressor's inlet or a catch can; or do without the valve.",
    source="common practice, no source",
    when={"induction": BOOSTED, "breather_ventilation_valve": ("fitted",)},
    points_at=("breather_check_valve", "breather_ventilation_valve"),
    conforming=(VALVE % ("fitted", "fitted", ""), VALVE % ("none", "none", "")),
    nonconforming=VALVE % ("fitted", "none", "# <-"),
)
def crankcase_valve_holds_pressure(breather_check_valve: Choice):
    """Boost in the crankcase blows out seals, dipstick and the sealant of the end rails, and holds the oil up in the heads."""
    return require(breather_check_valve != "none")


BLOWN = """
build: {induction: supercharged}
induction: {carburetor: {placed: blow_through}}
"""


@rule(
    scope="build",
    level="reminder",
    due="ordering",
    says="A carburetor that is blown through needs solid floats, sealed or pressure-fed throttle shafts, an enclosed or referenced bonnet, and "
         "fuel that rises with boost.",
    fix="Look at floats, shafts, bonnet, power valve reference and fuel pressure against the carburetor maker's instructions, then sign.",
    source="common practice, no source",
    when={"induction": BOOSTED},
    caution="Fuel vapor under boost: no leaks are tolerable; have a fire extinguisher at hand when it first runs.",
    conforming=BLOWN,
)
def blow_through_carburetor_is_prepared(carburetor_placed: Choice = None):
    """Hollow floats crush, shafts leak fuel into the engine bay, and a bonnet without reference starves the bowls."""
    return review() if carburetor_placed == "blow_through" else not_applicable("no carburetor is blown through")
