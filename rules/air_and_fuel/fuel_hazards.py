"""What lead, gas and alcohol ask of the system they run through."""

from buildlint.model import LEVELS
from buildlint.rulebook import *
from buildlint.tables.fuels import ALCOHOLS

LEAD = """
build: {fuel: race_gasoline}
fuel_system: {leaded: %s, oxygen_sensor: %s}  %s
exhaust_system: {catalyst: %s}
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="Leaded fuel {harm}.",
    fix="Take unleaded fuel, or tune without that sensor and run open loop; a wideband sensor is a spare to be thrown away.",
    source="common practice, no source",
    when={"fuel_leaded": fitted},
    points_at=("fuel_leaded", "fuel_oxygen_sensor"),
    conforming=(LEAD % ("yes", "none", "", "none"), LEAD % ("no", "narrow_band", "", "fitted")),
    nonconforming=(LEAD % ("yes", "none", "# <-", "fitted"), LEAD % ("yes", "narrow_band", "# <-", "none"),
                   LEAD % ("yes", "wideband", "# <-", "none")),
)
def leaded_fuel_spares_oxygen_sensor(fuel_leaded: YesNo, fuel_oxygen_sensor: Choice = None, catalyst: Choice = None):
    """Lead coats the ceramic of a sensor within hours and blinds a catalyst for good.

    A wideband sensor is tuned with all the same and thrown away afterwards, which is only noted.
    """
    if catalyst == "fitted":
        return require(False, "error").telling(harm="blinds the catalyst for good").saying(fix="Take unleaded fuel.")
    if fuel_oxygen_sensor == "narrow_band":
        return require(False, "error").telling(harm="blinds the oxygen sensor within hours, and the mixture with it").saying(
            fix="Take unleaded fuel, or tune without that sensor and run open loop.")
    if fuel_oxygen_sensor in ("wideband", "wideband_each_bank"):
        return require(False, "note").telling(harm="wears the wideband sensor out within hours").saying(
            fix="Order a spare sensor and take it out after tuning.")
    return passes()


GAS = """
build: {stage: ordering, fuel: %s}
fuel_system: {delivery: carburetor%s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="The engine runs on LPG and {lack}.",
    fix="Order a lock-off that shuts with the ignition and when the engine stops, and write fuel_system.lock_off: fitted.",
    source="common practice, no source; the local gas code decides",
    caution="Gas gathers on the floor and waits for a spark: fitting and testing are for a licensed gas fitter, by the local code.",
    permits=False,
    when={"fuel": ("lpg",)},
    points_at=("fuel_lock_off", "fuel"),
    conforming=GAS % ("lpg", ", lock_off: fitted", ""),
    nonconforming=(GAS % ("lpg", ", lock_off: none", "# <-"), (GAS % ("lpg", "", "")).replace("fuel: lpg}", "fuel: lpg}  # <-")),
)
def gas_fuel_has_lockoff(fuel: Choice, fuel_lock_off: Choice = None, fuel_delivery: Choice = None, fuel_regulator: Choice = None):
    """A stopped engine with gas in its manifold is a bomb with a starter button; the valve shuts when nothing turns.

    Where nothing is written of the fuel system at all the answer is open.
    """
    if fuel_lock_off is None and fuel_delivery is None and fuel_regulator is None:
        return lacking("fuel_lock_off")
    if fuel_lock_off is None:
        return wanting("fuel_lock_off").at("fuel").telling(lack="no lock-off valve is written")
    return require(fuel_lock_off == "fitted").telling(lack="its lock-off valve is written as none")


STUFF = """
build: {fuel: %s}
fuel_system: {octane: 99, octane_scale: aki}
"""


@rule(
    scope="build",
    level="reminder",
    due="ordering",
    says="Hoses, seals and metals must bear {fuel}: {list}.",
    fix="Go through tank, sender, hoses, pump, filter, rail, injectors or carburetor and every seal that fuel wets, with the makers' lists; "
        "then sign this check.",
    source="common practice, no source; SAE J30 and J1737 on hoses (from memory)",
    caution="Fuel system work is done cold, without flame, battery off and with the pressure let down.",
    points_at=("fuel",),
    conforming=STUFF % "methanol",
)
def fuel_system_materials_suit_fuel(fuel: Choice, fuel_leaded: YesNo = None):
    """What gasoline leaves alone alcohol swells, and the leak comes weeks later; only eyes and makers' lists can settle it."""
    if fuel in ALCOHOLS:
        return review().telling(list="PTFE or alcohol-rated fluoroelastomer hoses, no natural rubber or cork, no bare zinc or magnesium, anodized or "
                                     "nickel-plated rails, a sealed tank vent, short oil intervals, methanol drained and fogged for storage")
    if fuel == "lpg":
        return review().telling(list="gas-rated hoses, a water-fed vaporizer, no manifold heat")
    if fuel == "nitromethane_blend":
        return review().telling(
            list="nitromethane-rated hoses and seals, no brass or copper where it stands, drained after every run")
    if fuel_leaded:
        return review().telling(list="no oxygen sensor or catalyst behind it, sealed cans, gloves: lead goes through the skin")
    return not_applicable("ordinary gasoline")


HOSE = """
build: {stage: ordering, fuel: %s}
fuel_system:
  lines:
    - {line: suction, hose: ptfe}  %s
    - {line: pressure, hose: %s}
"""

# What is read in the words of a hose, the first that is found. A rating for the fuel wins over the rubber that carries it.
# E85: Handbook for Handling, Storing, and Dispensing E85 (U.S. Department of Energy), lists of materials, from memory;
# methanol and what is said of braided hose: common practice, no source. None: nothing is known against it.
HOSE_WORDS = (
    # words                                                                   in E85 or ethanol   in methanol or nitromethane
    (("ptfe", "alcohol", "methanol", "m85", "m100"),                          None,      None),
    (("e85", "e98", "ethanol", "flex fuel"),                                  None,      "warning"),
    (("braid",),                                                              "warning", "warning"),
    (("anodized", "nickel", "stainless"),                                     None,      None),
    (("natural rubber", "cork", "polyurethane", "urethane", "pvc", "vinyl", "silicone"), "error", "error"),
    (("fluoro", "fkm", "r9", "r14"),                                          None,      "warning"),
    (("nylon", "polyamide"),                                                  None,      "warning"),
    (("nitrile", "nbr", "neoprene", "chloroprene", "polyethylene", "cpe"),    "warning", "warning"),
    (("r6", "r7", "rubber", "gasoline", "fuel hose", "elastomer"),            "warning", "error"),
    (("galvanized", "zinc", "terne", "brass", "magnesium"),                   "warning", "warning"),
    (("aluminum", "aluminium"),                                               "note",    "warning"),
)


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="The {lines} of {hose}, which does not last in {fuel}.",
    fix="Order PTFE hose, or one whose maker rates it for {fuel} by name, and write that in fuel_system.lines; ends and seals alike.",
    source="Handbook for Handling, Storing, and Dispensing E85, U.S. Department of Energy (from memory), for E85; methanol common practice, no source",
    caution="A fuel line that weeps is a fire: look along every hose cold, without flame, before each start of the season.",
    when={"fuel_lines": given, "fuel": (*ALCOHOLS, "nitromethane_blend")},
    points_at=("fuel_lines", "fuel"),
    conforming=(HOSE % ("e85", "", "ptfe"), HOSE % ("e85", "", "alcohol-rated rubber"), HOSE % ("methanol", "", "-10 braided ptfe"),
                HOSE % ("pump_gasoline", "", "nitrile rubber"), HOSE % ("e85", "", "stainless tube"), HOSE % ("methanol", "", "anodized aluminum")),
    nonconforming=(HOSE % ("methanol", "# <-", "rubber"), HOSE % ("e85", "# <-", "nitrile rubber"), HOSE % ("methanol", "# <-", "aluminum"),
                   HOSE % ("e85", "# <-", "natural rubber"), HOSE % ("e85", "# <-", "rubber not rated for e85"), HOSE % ("e85", "# <-", "stainless braided hose")),
)
def fuel_hoses_suit_the_fuel(fuel_lines: Entries, fuel: Choice):
    """Alcohol draws the softener out of a gasoline hose: it swells, hardens and cracks, and sheds into the injectors on the way.

    Nitrile and braided racing hoses live a season or two in E85, so they are a warning: replace them by the calendar or
    take PTFE. In methanol plain rubber is an error, fluoroelastomer swells unless it is a grade for it, and bare aluminum,
    zinc and brass corrode. What a line's words do not tell is left to the maker's list.
    """
    column = 1 if fuel in ("e85", "ethanol") else 2
    found = [(level, row.get("line", "fuel"), row["hose"]) for row in fuel_lines if row.get("hose") and (level := _against(row["hose"])[column])]
    if found:
        level, _, hose = min(found, key=lambda one: LEVELS.index(one[0]))
        lines = list(dict.fromkeys(line for its_level, line, its_hose in found if (its_level, its_hose) == (level, hose)))
        names = " and ".join(filter(None, (", ".join(lines[:-1]), lines[-1])))
        verb = "line is" if len(lines) == 1 else "lines are"
        return require(False, level).telling(lines=f"{names} {verb}", hose=hose.replace("_", " "))
    return passes() if any(row.get("hose") for row in fuel_lines) else not_applicable("what the hoses are made of is not written")


def _against(hose):
    """The row of the table that a hose's words name; one that is said not to be rated is read by its material."""
    words = hose.lower().replace("_", " ")
    rows = HOSE_WORDS[2:] if "not " in words or "unrated" in words else HOSE_WORDS
    return next((row for row in rows if any(word in words for word in row[0])), ((), None, None))
