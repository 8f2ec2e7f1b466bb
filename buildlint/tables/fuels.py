"""What each fuel of the vocabulary is: its family, what it weighs, the air it takes and the heat it gives.

Ratios come from the atoms (air with 20.95 percent oxygen, 28.965 g/mol); heats are lower heating values of the
liquid as in the property table of the Alternative Fuels Data Center (U.S. Department of Energy) and Heywood,
Internal Combustion Engine Fundamentals, table D.4; the densities of alcohols and propane are those of the pure liquids in
CoolProp at 15 to 20 degC, gasoline's is typical.
A nitromethane blend has no row: its figures hang on the share of nitromethane.
"""

from ..quantities import q

FAMILY = {
    "pump_gasoline": "gasoline", "race_gasoline": "gasoline", "e10": "gasoline", "e85": "e85", "ethanol": "ethanol",
    "methanol": "methanol", "lpg": "lpg", "nitromethane_blend": "nitromethane",
}
ALCOHOLS = ("e85", "ethanol", "methanol")
PUMPED = tuple(fuel for fuel in FAMILY if fuel != "lpg")  # propane comes by its own pressure

# Fuels that are gasoline and ethanol, with the ethanol by volume that is assumed where none is written: for E85 the
# most the name allows, since injectors and pumps must be able to feed it.
ETHANOL_USUAL = {"pump_gasoline": 0.0, "race_gasoline": 0.0, "e10": 0.10, "e85": 0.85, "ethanol": 1.0}

STOICHIOMETRIC = {"gasoline": 14.60, "ethanol": 9.003, "methanol": 6.472, "lpg": 15.68}
DENSITY = {"gasoline": q("745 kg/m^3"), "ethanol": q("789 kg/m^3"), "methanol": q("791 kg/m^3"), "lpg": q("510 kg/m^3")}
HEATING = {"gasoline": q("43.4 MJ/kg"), "ethanol": q("26.81 MJ/kg"), "methanol": q("19.94 MJ/kg"), "lpg": q("46.33 MJ/kg")}

# What injectors are rated with. n-heptane of 20 degC; a rating on another fluid is taken as it is.
RATING_DENSITY = {"gasoline": q("745 kg/m^3"), "heptane": q("684 kg/m^3")}

# The scale printed on gauges that read air to fuel "as on gasoline". Common practice, no source.
SCALES = {"gasoline_scale": 14.7}


def ethanol_by_mass(by_volume):
    """Share of ethanol by mass in a blend with gasoline, from its share by volume. Source: densities above."""
    ethanol, gasoline = by_volume * DENSITY["ethanol"], (1 - by_volume) * DENSITY["gasoline"]
    return ethanol / (ethanol + gasoline)
