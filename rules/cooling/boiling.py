"""Boiling under the cap, the cap on the radiator, and what is mixed into the water."""

from buildlint.mechanics import coolant
from buildlint.rulebook import *
from buildlint.tables.glycol import freezing_point, share_for

BOIL = """
build: {altitude_highest: %s}
cooling:
  coolant: {glycol_fraction: %s, temperature_highest: %s}
  pressure_cap: {pressure: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="The coolant boils at {coolant_boiling_temperature} under its cap; it gets {coolant_hottest} hot, which leaves {value}; keep {noted_below}.",
    fix="Fit a cap of {cap:up} or more where radiator and heater stand it, or keep the coolant at {hottest:down} or below.",
    source="IAPWS R7-97 for water, Raoult's law for the glycol; margins common practice, no source",
    points_at=("pressure_cap_pressure",),
    caution="Never open a hot system: let it cool until the upper hose is soft, and turn the cap with a rag.",
    conforming=(BOIL % ("1500 ft", "0.50", "220 degF", "15 psi", ""), BOIL % ("5000 ft", "0.50", "221 degF", "16 psi", ""),
                BOIL % ("0 ft", "0", "200 degF", "14 psi", "")),
    nonconforming=(BOIL % ("5000 ft", "0", "245 degF", "15 psi", "# <-"), BOIL % ("5000 ft", "0", "235 degF", "15 psi", "# <-"),
                   BOIL % ("0 ft", "0.50", "221 degF", "4 psi", "# <-")),
)
def coolant_stays_below_boiling(
    coolant_boiling_margin: TemperatureRise, coolant_boiling_temperature: Temperature, coolant_hottest: Temperature,
    pressure_cap_pressure: Pressure, coolant_glycol_fraction: Fraction, air_pressure_lowest: Pressure, *,
    noted_below: TemperatureRise = q("15 K", "temperature_rise"), warned_below: TemperatureRise = q("8 K", "temperature_rise"),
    least: TemperatureRise = q("0 K", "temperature_rise"), most_cap: Pressure = q("170 kPa"),
):
    """Steam at the exhaust seats does not cool; it cracks the bridge between the valves and lifts the cap.

    Worked out from the pressure of saturated water at the highest place of use, with glycol by Raoult; the old "three degrees
    for each pound" gives 257 degF for water at 15 psi, where the steam tables say 249.7. What is not written is taken as
    105 degC, the hottest that gauges on the road show.
    """
    margin = at_least(TemperatureRise(coolant_boiling_margin), error=least, warning=warned_below, note=noted_below)
    wanted = coolant.boiling_pressure(coolant_hottest + noted_below, coolant_glycol_fraction) - air_pressure_lowest
    margin.telling(cap=Pressure(wanted), hottest=Temperature(coolant_boiling_temperature - noted_below))
    if wanted > most_cap:
        margin.saying(fix="Bring the coolant down to {hottest:down} or below; a cap of {cap:up} is more than most radiators stand.")
    return margin


CAP = """
cooling:
  radiator: {tanks: %s}
  heater_core: %s
  pressure_cap: {pressure: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="A cap of {value} on {what}; keep {limit}.",
    fix="Take a cap of {limit} or less, or {instead}.",
    source="common practice, no source",
    when={"pressure_cap_pressure": given},
    conforming=(CAP % ("plastic", "fitted", "16 psi", ""), CAP % ("metal", "none", "28 psi", "")),
    nonconforming=(CAP % ("plastic", "none", "24 psi", "# <-"), CAP % ("metal", "fitted", "30 psi", "# <-")),
)
def pressure_cap_suits_radiator(
    pressure_cap_pressure: Pressure, radiator_tanks: Choice = None, heater_core: Choice = None, *,
    plastic: Pressure = q("145 kPa"), heater: Pressure = q("170 kPa"),
):
    """The weakest thing under the cap opens first: a crimped plastic tank, or the heater core above somebody's feet."""
    if radiator_tanks == "plastic":
        return at_most(pressure_cap_pressure, plastic).telling(what="a radiator with plastic tanks", instead="fit a metal radiator")
    if heater_core == "fitted":
        return at_most(pressure_cap_pressure, heater).telling(what="a system with a heater core", instead="leave the heater out of the circuit")
    if pressure_cap_pressure > plastic and None in (radiator_tanks, heater_core):
        return lacking("radiator_tanks" if radiator_tanks is None else "heater_core")
    return passes()


MIX = """
build: {stage: handover}
heads: {material: %s}
cooling:
  coolant: {glycol_fraction: %s%s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="handover",
    says="{sentence}",
    fix="{remedy}",
    source="common practice, no source",
    when={"coolant_glycol_fraction": given},
    points_at=("coolant_inhibitor", "coolant_glycol_fraction"),
    conforming=(MIX % ("aluminum_356_t6", "0.50", ", inhibitor: fitted", ""), MIX % ("cast_iron", "0.30", "", "")),
    nonconforming=(MIX % ("aluminum_356_t6", "0", ", inhibitor: none", "# <-"), MIX % ("aluminum_356_t6", "0.70", ", inhibitor: fitted", "# <-")),
)
def coolant_has_inhibitor(
    coolant_glycol_fraction: Fraction, coolant_inhibitor: Choice = None, head_material: Choice = None, block_material: Choice = None,
    manifold_material: Choice = None, *, most: Fraction = q("0.60", "fraction"),
):
    """Plain water makes a battery of iron, aluminum and brass, and eats the aluminum first.

    Sold coolant brings its inhibitor; water for the strip needs one of its own. Above 60 percent glycol carries less heat and
    freezes earlier again. An iron engine without inhibitor rusts, which is noted.
    """
    verdict = at_most(coolant_glycol_fraction, most).at("coolant_glycol_fraction")
    if verdict.kind == "fail":
        return verdict.saying("The coolant is {value} glycol; above {limit} it carries less heat and freezes earlier.",
                              "Mix it at 50 percent, with soft water.")
    aluminum = any((material or "").startswith("aluminum") for material in (head_material, block_material, manifold_material))
    if coolant_inhibitor == "none":
        verdict = require(False, None if aluminum else "note")
        where = "The engine has aluminum in its water jacket" if aluminum else "The engine is of iron"
        return verdict.telling(sentence=f"{where}, and the coolant has no inhibitor.",
                               remedy="Add a corrosion inhibitor that suits aluminum, and write cooling.coolant.inhibitor: fitted.")
    if coolant_inhibitor is None and aluminum:
        return lacking("coolant_inhibitor")
    return passes()


COLD = """
build: {duty: street, ambient_coldest: %s}
cooling:
  coolant: {glycol_fraction: %s}  %s
"""
RACING = ("drag_race", "road_race", "oval_race")


@rule(
    scope="build",
    level="error",
    due="assembly",
    says="The coolant begins to freeze at {limit}; the engine is to start at {value}.",
    fix="Drain block, pump and radiator before the frost; no mixture of glycol stays liquid there.",
    source="ASHRAE Handbook, Fundamentals: freezing points of ethylene glycol by volume",
    when={"ambient_coldest": given, "coolant_glycol_fraction": given},
    points_at=("coolant_glycol_fraction", "ambient_coldest"),
    conforming=(COLD % ("15 degF", "0.50", ""), COLD % ("-33 degF", "0.50", ""), COLD % ("40 degF", "0", "")),
    nonconforming=(COLD % ("-20 degF", "0.20", "# <-"), COLD % ("20 degF", "0", "# <-"), COLD % ("-70 degF", "0.60", "# <-")),
)
def coolant_stands_the_cold(ambient_coldest: Temperature, coolant_glycol_fraction: Fraction, duty: Choice = None):
    """Water that freezes in its jacket pushes the core plugs out where one is lucky, and the wall of the block where not.

    A race engine runs on plain water and is drained in winter; there it is a warning.
    """
    verdict = at_least(ambient_coldest, Temperature(freezing_point(coolant_glycol_fraction), ambient_coldest.unit))
    needed = share_for(ambient_coldest)
    if verdict.kind == "fail" and needed is not None:
        verdict.telling(needed=Fraction(needed)).saying(
            fix="Mix in glycol up to {needed:up} of the coolant by volume, or drain block, pump and radiator before the frost.")
    return verdict.within_level("warning") if duty in RACING else verdict
