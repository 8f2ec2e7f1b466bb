"""What lead, gas and alcohol ask of the system they run through."""

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
