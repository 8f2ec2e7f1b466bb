"""What is in the tank: figures that fit its name, and the ethanol in it."""

from buildlint.rulebook import *
from buildlint.tables.fuels import FAMILY

STATED = """
build: {fuel: %s}
fuel_system: {%s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="planning",
    says="For {fuel} {what} is stated as {stated}; by its make-up it is {computed}.",
    fix="Correct the figure, or name the fuel it belongs to; a blend is named by its measured ethanol.",
    source="atomic balance; property table of the Alternative Fuels Data Center, U.S. Department of Energy; Heywood, Internal Combustion "
           "Engine Fundamentals, table D.4",
    compares=("fuel_stoichiometric_ratio", "fuel_heating_value", "fuel_density"),
    points_at=("fuel_stoichiometric_ratio_written", "fuel_heating_value_written", "fuel_density_written"),
    conforming=(STATED % ("e85", "ethanol_fraction: 0.85, stoichiometric_ratio: 9.8", ""),
                STATED % ("pump_gasoline", "stoichiometric_ratio: 14.1", ""),
                STATED % ("methanol", "stoichiometric_ratio: 6.47, heating_value: 20.0 MJ/kg, density: 792 kg/m^3", "")),
    nonconforming=(STATED % ("e85", "ethanol_fraction: 0.85, stoichiometric_ratio: 14.7", "# <-"),
                   STATED % ("methanol", "stoichiometric_ratio: 9.0", "# <-"),
                   STATED % ("pump_gasoline", "heating_value: 38 MJ/kg", "# <-"),
                   STATED % ("e10", "density: 690 kg/m^3", "# <-")),
)
def fuel_properties_match_the_fuel(
    fuel: Choice, fuel_stoichiometric_ratio_written: Ratio = None, fuel_stoichiometric_ratio_computed: Ratio = None,
    fuel_heating_value_written: SpecificEnergy = None, fuel_heating_value_computed: SpecificEnergy = None,
    fuel_density_written: Density = None, fuel_density_computed: Density = None, fuel_ethanol_fraction: Fraction = None, *,
    note_beyond: Fraction = q("0.015", "fraction"), error_beyond: Fraction = q("0.04", "fraction"),
    heat_beyond: Fraction = q("0.04", "fraction"), density_beyond: Fraction = q("0.05", "fraction"),
    diesel_from: Density = q("800 kg/m^3"),
):
    """Air, injectors and pump are all sized with these numbers; a gasoline ratio on an alcohol is off by half.

    Pump gasoline without its ethanol stated may be anything from 14.6 to the 14.0 of E10; race gasolines with oxygen in
    them go further, which is noted. Heat and density spread more and are warnings at most.
    """
    pairs = (
        ("the stoichiometric ratio", fuel_stoichiometric_ratio_written, fuel_stoichiometric_ratio_computed,
         "fuel_stoichiometric_ratio_written"),
        ("the heating value", fuel_heating_value_written, fuel_heating_value_computed, "fuel_heating_value_written"),
        ("the density", fuel_density_written, fuel_density_computed, "fuel_density_written"),
    )
    known = [pair for pair in pairs if pair[1] is not None and pair[2] is not None]
    if not known:
        return not_applicable("no property is stated, or none is known of this fuel")
    found = []
    for what, stated, computed, word in known:
        gap = abs(stated / computed - 1)
        gasoline = FAMILY.get(fuel) == "gasoline" and fuel_ethanol_fraction is None
        if what == "the stoichiometric ratio":
            if gasoline and 0.955 <= stated / computed <= 1.0:
                gap = 0.0
            verdict = at_most(Fraction(gap), error=error_beyond, note=note_beyond)
            if fuel == "race_gasoline":
                verdict.within_level("note")
            same = Ratio
        elif what == "the density":
            if FAMILY.get(fuel) == "gasoline" and stated > diesel_from:
                continue  # another fuel altogether, which has a rule of its own
            verdict, same = at_most(Fraction(gap), warning=density_beyond), Density
        else:
            verdict, same = at_most(Fraction(gap), warning=heat_beyond), SpecificEnergy
        unit = getattr(stated, "unit", "")
        found.append(verdict.at(word).telling(what=what, stated=same(stated, unit), computed=same(computed, unit)))
    if not found:
        return not_applicable("another fuel by its density")
    worst = max(found, key=lambda verdict: ("note", "warning", "error").index(verdict.level) + 1 if verdict.kind == "fail" else 0)
    return worst


HOLDS = """
build: {fuel: %s}
fuel_system: {ethanol_fraction: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="planning",
    says="{fuel} is named, and {value} of ethanol by volume is in the tank; {label}.",
    fix="Write the fuel that will really be tanked under build.fuel, or correct ethanol_fraction: pump, injectors, mixture and knock follow from it.",
    source="ASTM D5798, as the U.S. Department of Energy prints it: 51 to 83 percent ethanol; ASTM D4814 to 15 percent (from memory)",
    when={"fuel_ethanol_fraction": given, "fuel": ("pump_gasoline", "e10", "e85", "ethanol")},
    points_at=("fuel_ethanol_fraction", "fuel"),
    conforming=(HOLDS % ("pump_gasoline", "10 %", ""), HOLDS % ("e85", "85 %", ""), HOLDS % ("e10", "10 %", ""), HOLDS % ("e85", "51 %", "")),
    nonconforming=(HOLDS % ("pump_gasoline", "80 %", "# <-"), HOLDS % ("e85", "10 %", "# <-"), HOLDS % ("pump_gasoline", "20 %", "# <-"),
                   HOLDS % ("e85", "45 %", "# <-")),
)
def fuel_holds_the_ethanol_it_names(
    fuel: Choice, fuel_ethanol_fraction: Fraction, *,
    bands={"pump_gasoline": (q("0", "fraction"), q("0.15", "fraction")), "e10": (q("0.05", "fraction"), q("0.15", "fraction")),
           "e85": (q("0.51", "fraction"), q("0.86", "fraction")), "ethanol": (q("0.90", "fraction"), q("1", "fraction"))},
    error_beyond: Fraction = q("0.15", "fraction"),
):
    """An engine changed over to another fuel on one line of its sheet is still the old engine on all others.

    Just outside the band is a warning: mixed tanks happen. Up to 0.86 passes as E85, since some pumps and race drums hold that.
    """
    least, most = bands[fuel]
    verdict = within(Fraction(fuel_ethanol_fraction), error=(Fraction(least - error_beyond), Fraction(most + error_beyond)), warning=(least, most))
    return verdict.telling(label=f"its label covers {least * 100:.0f} to {most * 100:.0f} percent")


BLEND = """
build: {fuel: e85}
fuel_system: {%s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="planning",
    says="E85 is named without {missing}: the label covers 51 to 83 percent.",
    fix="Write fuel_system.ethanol_fraction for the strongest and ethanol_fraction_lowest for the thinnest that may be tanked: injectors and "
        "pump are sized on the first, compression and advance on the second.",
    source="ASTM D5798, as the U.S. Department of Energy prints it: 51 to 83 percent ethanol",
    when={"fuel": ("e85",)},
    points_at=("fuel",),
    conforming=BLEND % ("ethanol_fraction: 85 %, ethanol_fraction_lowest: 70 %", ""),
    nonconforming=((BLEND % ("delivery: port_injection", "")).replace("fuel: e85}", "fuel: e85}  # <-"),
                   (BLEND % ("ethanol_fraction: 85 %", "")).replace("fuel: e85}", "fuel: e85}  # <-")),
)
def ethanol_content_is_stated(
    fuel: Choice, fuel_ethanol_fraction: Fraction = None, fuel_ethanol_fraction_lowest: Fraction = None,
    fuel_delivery: Choice = None,
    fuel_octane: Octane = None, fuel_full_load_lambda: Ratio = None,
):
    """Winter blend has a fifth less ethanol: the mixture comes out richer, and the octane some five numbers short.

    Where nothing is written of the fuel system at all the answer is open.
    """
    if all(value is None
           for value in (fuel_ethanol_fraction, fuel_ethanol_fraction_lowest, fuel_delivery, fuel_octane, fuel_full_load_lambda)):
        return lacking("fuel_ethanol_fraction", "fuel_ethanol_fraction_lowest")
    lacks = [word for word, value in (("fuel_ethanol_fraction", fuel_ethanol_fraction),
                                      ("fuel_ethanol_fraction_lowest", fuel_ethanol_fraction_lowest)) if value is None]
    if not lacks:
        return passes()
    said = {"fuel_ethanol_fraction": "its ethanol content", "fuel_ethanol_fraction_lowest": "the least it may hold"}
    return wanting(*lacks).at("fuel").telling(missing=" and ".join(said[word] for word in lacks))


TANK = """
build: {fuel: %s}
fuel_system: {%s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="planning",
    says="By its figures the {fuel} with {evidence} is diesel or kerosene; a spark engine detonates on it and is wrecked.",
    fix="Look at the drum and the order. Gasoline weighs 720 to 775 kg/m3 and has an octane number of 85 and more.",
    source="EN 590: diesel 820 to 845 kg/m3; common practice, no source",
    caution="Do not start the engine; drain the fuel as the local rules say, away from flames and with the battery off.",
    permits=False,
    points_at=("fuel_density", "fuel_octane"),
    conforming=(TANK % ("pump_gasoline", "density: 748 kg/m^3, octane: 91, octane_scale: aki", ""),
                TANK % ("race_gasoline", "density: 730 kg/m^3", "")),
    nonconforming=(TANK % ("pump_gasoline", "density: 835 kg/m^3", "# <-"),
                   TANK % ("race_gasoline", "octane: 51, octane_scale: aki", "# <-")),
)
def spark_engine_burns_spark_fuel(
    fuel: Choice, fuel_density_written: Density = None, fuel_octane: Octane = None, *, heaviest: Density = q("800 kg/m^3"),
    least_octane: Octane = q("70", "octane"),
):
    """Diesel in the name is refused with the choice of fuels; here the figures beside a gasoline's name give it away.

    A cetane number looks like an octane number of about fifty.
    """
    if FAMILY.get(fuel) != "gasoline" or fuel_density_written is None and fuel_octane is None:
        return not_applicable("no gasoline with a density or octane number")
    if fuel_density_written is not None and fuel_density_written > heaviest:
        return at_most(Density(fuel_density_written, fuel_density_written.unit),
                       heaviest).at("fuel_density").telling(evidence="a density of {}".format(fuel_density_written.text))
    if fuel_octane is not None and fuel_octane < least_octane:
        return at_least(Octane(fuel_octane),
                        least_octane).at("fuel_octane").telling(evidence=f"an octane number of {fuel_octane:g}")
    return passes()
