"""Base pressure, regulator and filters, by how the fuel gets into the air and what charges it."""

from buildlint.rulebook import *
from buildlint.tables.fuels import ALCOHOLS

BASE = """
build: {induction: %s, fuel: %s}
fuel_system: {delivery: %s, pressure: %s}  %s
induction: {carburetor: {placed: %s, secondaries: %s}}
boost: {pressure: %s}
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="A base pressure of {value} stands at the {delivery}; {side} {limit} {effect}.",
    fix="Set it to {low:up} to {high:down}{above}.",
    source="four-barrels 5 to 8 psi, common practice, no source; the maker's figure wins",
    when={"fuel_pressure": given},
    points_at=("fuel_pressure",),
    conforming=(BASE % ("natural", "pump_gasoline", "carburetor", "6.5 psi", "", "natural", "mechanical", "0 psi"),
                BASE % ("natural", "pump_gasoline", "port_injection", "43.5 psi", "", "natural", "mechanical", "0 psi"),
                BASE % ("supercharged", "pump_gasoline", "carburetor", "7 psi", "", "blow_through", "mechanical", "8 psi"),
                BASE % ("supercharged", "methanol", "mechanical_injection", "110 psi", "", "natural", "mechanical", "28 psi")),
    nonconforming=(BASE % ("natural", "pump_gasoline", "carburetor", "14 psi", "# <-", "natural", "mechanical", "0 psi"),
                   BASE % ("natural", "pump_gasoline", "port_injection", "14 psi", "# <-", "natural", "mechanical", "0 psi"),
                   BASE % ("natural", "methanol", "carburetor", "5 psi", "# <-", "natural", "mechanical", "0 psi"),
                   BASE % ("natural", "pump_gasoline", "port_injection", "70 psi", "# <-", "natural", "mechanical", "0 psi")),
)
def fuel_pressure_suits_delivery(
    fuel_pressure: Pressure, fuel_delivery: Choice, fuel: Choice = None, carburetor_secondaries: Choice = None,
    carburetor_placed: Choice = None, *,
    least={"carburetor": q("5 psi"), "one_and_two_barrel": q("2 psi"), "alcohol_carburetor": q("7 psi"),
           "blow_through": q("5.5 psi"),
           "throttle_body_injection": q("9 psi"), "port_injection": q("35 psi")},
    most={"carburetor": q("8 psi"), "one_and_two_barrel": q("7 psi"), "alcohol_carburetor": q("15 psi"),
          "blow_through": q("8.5 psi"),
          "throttle_body_injection": q("65 psi"), "port_injection": q("65 psi")},
):
    """Too much pressure lifts the float needle and floods the engine, too little starves it; an injector needs its own to spray.

    Carburetors want 5 to 8 psi (older one- and two-barrels less, alcohol more), blow-through ones as much above the
    boost; throttle-body injection exists at 10 and at 45 psi; high injection pressure is only noted.
    """
    row = fuel_delivery
    if fuel_delivery == "mechanical_injection":
        return not_applicable("the pressure follows the pump's speed, nozzles and jets")
    if fuel_delivery == "carburetor":
        if carburetor_placed == "blow_through":
            row = "blow_through"
        elif fuel in ALCOHOLS:
            row = "alcohol_carburetor"
        elif carburetor_secondaries == "none_two_barrel":
            row = "one_and_two_barrel"
    value = Pressure(fuel_pressure)
    verdict = within(value, least[row], most[row])
    over = value > most[row]
    if over and row == "port_injection":
        verdict = at_most(value, note=most[row])
    effects = {
        "carburetor": ("the floats flood", "the bowls run dry"), "alcohol_carburetor": ("the floats flood", "the bowls run dry"),
        "one_and_two_barrel": ("the floats flood", "the bowls run dry"),
        "blow_through": ("the floats flood", "the bowls run dry under boost")
    }
    flood, dry = effects.get(row, ("pump and injectors work hard", "the injectors do not spray"))
    return verdict.telling(delivery=fuel_delivery,
                           side="above" if over else "below",
                           effect=flood if over else dry,
                           low=Pressure(least[row]),
                           high=Pressure(most[row]),
                           above=" above the boost" if row == "blow_through" else "")


REGULATED = """
build: {induction: %s}
fuel_system: {delivery: %s, regulator: %s, regulator_reference: %s, return_line: %s, pump: {kind: electric}}  %s
induction: {carburetor: {placed: %s}}
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="Regulator, pump and return do not belong together.",
    fix="Injection wants a bypass regulator with a return; a forced charge wants it referred to the manifold.",
    source="common practice, no source",
    caution="Let the pressure down before a line is opened, engine cold, no flame, battery off.",
    when={"fuel_regulator": given},
    points_at=("fuel_regulator", "fuel_regulator_reference", "fuel_return_line"),
    conforming=(REGULATED % ("turbocharged", "port_injection", "bypass", "manifold", "fitted", "", "natural"),
                REGULATED % ("natural", "carburetor", "dead_head", "atmosphere", "none", "", "natural")),
    nonconforming=(REGULATED % ("natural", "port_injection", "dead_head", "atmosphere", "none", "# <-", "natural"),
                   REGULATED % ("turbocharged", "port_injection", "bypass", "atmosphere", "fitted", "# <-", "natural"),
                   REGULATED % ("natural", "port_injection", "bypass", "manifold", "none", "# <-", "natural"),
                   REGULATED % ("supercharged", "carburetor", "bypass", "atmosphere", "fitted", "# <-", "blow_through"),
                   REGULATED % ("turbocharged", "port_injection", "bypass", "controller_modeled", "fitted", "# <-", "natural")),
)
def fuel_regulator_suits_the_pump(
    fuel_regulator: Choice, induction: Choice, fuel_delivery: Choice, fuel_regulator_reference: Choice = None,
    fuel_return_line: Choice = None,
    fuel_pump_kind: Choice = None, carburetor_placed: Choice = None, boost_pressure: Pressure = None, fuel_pressure: Pressure = None,
):
    """A pump that never stops needs somewhere to send what is not burned, and a charge under pressure needs fuel above it.

    Carburetors live with a dead-end regulator at a few psi. A controller that reckons with the falling pressure is an
    answer too, but it must be told so, and it has less room. Where boost and fuel pressure are both known the rule that
    reckons what is left of them speaks of the reference.
    """
    injected = fuel_delivery in ("port_injection", "throttle_body_injection")
    boosted = induction != "natural"
    if injected and fuel_pump_kind == "electric" and fuel_regulator in ("dead_head", "none"):
        kind = "a dead-end regulator" if fuel_regulator == "dead_head" else "no regulator"
        return require(False).saying(f"A high-pressure pump that runs all the time has {kind}.", "Fit a bypass regulator behind the rail, with its return to the tank.")
    if fuel_regulator == "bypass" and fuel_return_line == "none":
        return require(False).at("fuel_return_line").saying("A bypass regulator has no return line to bypass into.", "Run a return to the top of the tank, or take a regulator module in the tank and write its return as fitted.")
    if boosted and fuel_regulator_reference is not None and (fuel_delivery == "port_injection"
                                                             or carburetor_placed == "blow_through"):
        if fuel_regulator_reference == "controller_modeled" and fuel_delivery == "port_injection":
            return require(False, "warning").at("fuel_regulator_reference").saying("The fuel pressure does not follow the boost; the controller must reckon with it.", "Refer the regulator to the manifold, or have the controller measure rail and manifold pressure.")
        if fuel_regulator_reference != "manifold" and None in (boost_pressure, fuel_pressure):
            return require(False).at("fuel_regulator_reference").saying("The fuel pressure does not follow the boost, so flow falls as the engine asks for more.", "Run a hose from the manifold to the regulator's cap and write the regulator as referred to the manifold.")
    return passes()


FILTERS = """
build: {fuel: %s}
fuel_system: {delivery: %s, filter_before_pump: %s, filter_after_pump: %s, filter_before_rating: %s, filter_after_rating: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="The filters do not suit the fuel or the delivery.",
    fix="A mesh of 40 to 100 microns before the pump, 10 microns behind it for injection, no paper with alcohol.",
    source="common practice, no source",
    points_at=("fuel_filter_before_pump", "fuel_filter_after_pump"),
    conforming=(FILTERS % ("pump_gasoline", "port_injection", "steel_mesh", "paper", "100 um", "10 um", ""),
                FILTERS % ("methanol", "carburetor", "steel_mesh", "steel_mesh", "100 um", "40 um", ""),
                FILTERS % ("methanol", "mechanical_injection", "steel_mesh", "steel_mesh", "100 um", "40 um", "")),
    nonconforming=(FILTERS % ("e85", "port_injection", "steel_mesh", "paper", "100 um", "10 um", "# <-"),
                   FILTERS % ("pump_gasoline", "port_injection", "none", "none", "100 um", "10 um", "# <-"),
                   FILTERS % ("pump_gasoline", "port_injection", "steel_mesh", "steel_mesh", "100 um", "40 um", "# <-"),
                   FILTERS % ("pump_gasoline", "port_injection", "paper", "paper", "10 um", "10 um", "# <-")),
)
def fuel_filters_suit_the_fuel(
    fuel: Choice = None, fuel_filter_before_pump: Choice = None, fuel_filter_after_pump: Choice = None,
    fuel_filter_before_rating: Length = None,
    fuel_filter_after_rating: Length = None, fuel_delivery: Choice = None, *, coarse: Length = q("40 um"),
    fine: Length = q("15 um"),
):
    """Coarse before the pump so that it never starves, fine behind it so that no injector clogs; alcohol takes paper apart.

    A mesh of 40 to 100 microns guards the pump, 10 microns the injectors; a carburetor is content with 30 to 40, and so are the
    jetted nozzles of mechanical injection.
    """
    both = [element for element in (fuel_filter_before_pump, fuel_filter_after_pump) if element is not None]
    if not both:
        return not_applicable("no filter is written")
    if all(element == "none" for element in both) and len(both) == 2:
        return require(False).saying("No fuel filter is fitted.", "Fit a mesh of 40 to 100 microns before the pump, and behind it 10 microns for injection.")
    if fuel in ALCOHOLS and "paper" in both:
        word = "fuel_filter_before_pump" if fuel_filter_before_pump == "paper" else "fuel_filter_after_pump"
        return require(False).at(word).saying("A paper filter element comes apart in alcohol.", "Take a stainless mesh or glass-fiber element.")
    if fuel_delivery == "port_injection" and fuel_filter_after_rating is not None and fuel_filter_after_rating > fine * (1 +
                                                                                                                         1e-9):
        return at_most(Length(fuel_filter_after_rating), warning=fine).at("fuel_filter_after_rating").saying(
            "Behind the pump the filter passes {value}; injectors want 10 microns.", "Take a 10 micron element behind the pump.")
    if fuel_filter_before_rating is not None and fuel_filter_before_rating < coarse * (
            1 - 1e-9) and fuel_filter_before_pump != "none":
        return at_least(Length(fuel_filter_before_rating), warning=coarse).at("fuel_filter_before_rating").saying(
            "Before the pump the filter holds {value} and finer; it will starve the pump. Keep {limit} and coarser there.",
            "Move the fine filter behind the pump and put a mesh of 40 to 100 microns before it.")
    return passes()
