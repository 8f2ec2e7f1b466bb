"""Gas temperature and pressure against manifold, turbine and the fasteners that hold them."""

from buildlint.rulebook import *

# Sustained gas temperature that manifolds stand where their maker names none; common practice, no source.
MANIFOLDS = {"cast_iron": q("800 degC"), "stainless_304": q("870 degC"), "stainless_321": q("930 degC"), "nickel_alloy": q("930 degC")}

TURBINE = """
build: {induction: turbocharged}
boost: {pressure: 12 psi, exhaust_pressure: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="planning",
    says="{boost_exhaust_pressure} stands before the turbine for {boost_pressure} of boost, {value} times as much; {limit} times is where it starts to cost.",
    fix="Take a larger turbine housing or wheel: at this boost {pressure_there:down} before the turbine is as much as costs little.",
    source="common practice, no source",
    when={"induction": ("turbocharged",), "boost_exhaust_pressure": given},
    points_at=("boost_exhaust_pressure",),
    conforming=(TURBINE % ("14 psi", ""), TURBINE % ("18 psi", "")),
    nonconforming=(TURBINE % ("22 psi", "# <-"), TURBINE % ("30 psi", "# <-")),
)
def turbine_back_pressure_is_moderate(
    boost_exhaust_pressure: Pressure, boost_pressure: Pressure, *, noted_above: Ratio = q("1.5", "ratio"), warned_above: Ratio = q("2.0", "ratio"),
):
    """Exhaust that waits before a small turbine stays in the cylinder, heats the next charge and pushes the exhaust valve open.

    Up to half as much again as the boost is common on the street; twice as much means a turbine that is too small at this power.
    """
    if boost_pressure <= 0:
        return not_applicable("no boost")
    verdict = at_most(Ratio(boost_exhaust_pressure / boost_pressure), note=noted_above, warning=warned_above)
    return verdict.telling(pressure_there=Pressure(boost_pressure * noted_above, boost_exhaust_pressure.unit))


GAS = """
build: {induction: turbocharged}
boost: {turbine_temperature_limit: %s}
exhaust_system: {exhaust_manifold: {material: %s}}
exhaust:
  port: {gas_temperature: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="planning",
    says="The gas is expected at {value}; {what} {limit}.",
    fix="{better}; more fuel and more advance cool the gas, retard heats it.",
    source="common practice, no source; a limit written from the maker's sheet wins",
    when={"exhaust_port_gas_temperature": given},
    points_at=("exhaust_port_gas_temperature",),
    conforming=(GAS % ("1740 degF", "cast_iron", "1420 degF", ""), GAS % ("950 degC", "stainless_321", "880 degC", "")),
    nonconforming=(GAS % ("1740 degF", "cast_iron", "1500 degF", "# <-"), GAS % ("900 degC", "stainless_321", "870 degC", "# <-"), """
        exhaust_system: {exhaust_manifold: {material: mild_steel, temperature_limit: 1400 degF}}
        exhaust:
          port: {gas_temperature: [1350 degF, 1440 degF]}  # <-
        """),
)
def gas_temperature_suits_parts(
    exhaust_port_gas_temperature: Temperature, exhaust_manifold_material: Choice = None, exhaust_manifold_temperature_limit: Temperature = None,
    boost_turbine_temperature_limit: Temperature = None, induction: Choice = None, *, manifolds=MANIFOLDS,
    turbine_margin: TemperatureRise = q("50 K", "temperature_rise"), close: TemperatureRise = q("15 K", "temperature_rise"),
):
    """A manifold that glows grows, cracks and lets go of its studs; a turbine wheel creeps until it touches.

    Valves are judged by their own rule. Cast iron is good to 800 degC, 304 stainless to 870, 321 and nickel alloys to 930; a
    turbine wants 50 K in hand, since its inlet sees pulses hotter than the mean. Within 15 K of a limit is noted.
    """
    limits = []
    if exhaust_manifold_temperature_limit is not None:
        limits.append((exhaust_manifold_temperature_limit, "the manifold stands", "Take a manifold of a better alloy"))
    elif exhaust_manifold_material in manifolds:
        name = exhaust_manifold_material.replace("_", " ")
        limits.append((manifolds[exhaust_manifold_material], f"a manifold of {name} stands about", "Take a manifold of a better alloy"))
    if induction == "turbocharged" and boost_turbine_temperature_limit is not None:
        limits.append((Temperature(boost_turbine_temperature_limit - turbine_margin), "the turbine, with 50 K in hand, stands",
                       "Take a turbine of a hotter alloy"))
    if not limits:
        return not_applicable("nothing is known of manifold or turbine")
    limit, what, better = min(limits, key=lambda row: row[0])
    unit = getattr(exhaust_port_gas_temperature, "unit", "")
    verdict = at_most(exhaust_port_gas_temperature, warning=Temperature(limit, unit), note=Temperature(limit - close, unit))
    verdict.utilization = None
    if verdict.level == "note":
        verdict.limit = Temperature(limit, unit)
    return verdict.telling(what=what, better=better)


EVEN = """
build: {stage: handover}
engine: {cylinders: 4}
exhaust:
  port: {gas_temperature: [%s]}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="handover",
    says="The cylinders differ by {value} in gas temperature; keep {limit}.",
    fix="Look at the hottest and the coldest: injectors or jets, plug and lead, a leak at the gasket, the valve lash; then the manifold.",
    source="common practice, no source",
    when={"exhaust_port_gas_temperature_spread": given},
    points_at=("exhaust_port_gas_temperature",),
    conforming=EVEN % ("1350 degF, 1380 degF, 1365 degF, 1340 degF", ""),
    nonconforming=EVEN % ("1350 degF, 1380 degF, 1290 degF, 1340 degF", "# <-"),
)
def gas_temperatures_are_even(
    exhaust_port_gas_temperature_spread: Temperature, *, most: TemperatureRise = q("45 K", "temperature_rise"),
):
    """The hot cylinder is the lean one, and it sets how far the engine may be leaned and advanced as a whole."""
    return at_most(TemperatureRise(exhaust_port_gas_temperature_spread), most)


FASTENER = """
joints:
  exhaust_manifold: {strength_class: %s, coating: %s, service_temperature: %s, nut: {kind: %s}}  %s
"""


@rule(
    scope="joint",
    level="error",
    due="ordering",
    says="{sentence}",
    fix="{remedy}",
    source="temperature lines of fasteners from memory, common practice; the maker's data win",
    when={"joint_name": ("exhaust_manifold",)},
    points_at=("coating", "nut_kind", "strength_class"),
    conforming=(FASTENER % ("heat_resisting", "none", "800 degF", "copper_coated", ""), FASTENER % ("sae_grade_5", "black_oxide", "550 degF", "all_metal_lock", "")),
    nonconforming=(FASTENER % ("iso_8_8", "zinc_electroplated", "550 degF", "hex", "# <-"), FASTENER % ("heat_resisting", "none", "550 degF", "nylon_insert", "# <-"),
                   FASTENER % ("iso_8_8", "phosphate", "700 degF", "hex", "# <-"), FASTENER % ("iso_10_9", "phosphate", "850 degF", "hex", "# <-")),
)
def hot_fasteners_stand_the_heat(
    joint_name: Choice, coating: Choice = None, nut_kind: Choice = None, strength_class: Choice = None, metal: Choice = None,
    service_temperature: Temperature = None, *, zinc_to: Temperature = q("120 degC", "temperature"),
    plain_to: Temperature = q("300 degC", "temperature"), heat_resisting_from: Temperature = q("400 degC", "temperature"),
):
    """Zinc runs and makes steel brittle, nylon melts, and plain steel forgets its tension: the manifold begins to tick.

    Where no temperature is written the flange is taken as hotter than zinc and nylon stand. Plain class 8.8 bolts hold to about
    300 degC, above 400 it takes studs of a heat-resisting alloy. Copper-coated or all-metal nuts and anti-seize on both threads
    belong with them; long manifolds keep slip along their length.
    """
    hot = service_temperature is None or service_temperature > zinc_to
    if hot and (coating in ("zinc_electroplated", "zinc_flake", "cadmium") or metal == "cadmium_plated"):
        return require(False).at("coating").telling(
            sentence="The exhaust fasteners are coated with zinc or cadmium, which melts, fumes and makes steel brittle there.",
            remedy="Order them plain, phosphated or stainless, with copper-coated or all-metal nuts and anti-seize.")
    if hot and nut_kind == "nylon_insert":
        return require(False).at("nut_kind").telling(sentence="The nylon in the exhaust nuts melts.",
                                                     remedy="Take copper-coated or all-metal lock nuts.")
    if service_temperature is None or strength_class in (None, "heat_resisting", "stainless_70") or metal == "stainless":
        return passes()
    limit = heat_resisting_from if strength_class not in ("iso_8_8", "sae_grade_2", "sae_grade_5") else plain_to
    verdict = at_most(service_temperature, warning=limit).at("strength_class")
    verdict.utilization = None
    return verdict.saying("Bolts of {strength_class} sit in a flange of {value}; they keep their tension to about {limit}.",
                          "Order studs of a heat-resisting alloy.")
