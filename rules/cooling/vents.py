"""Where air and steam leave the coolant: vents, cap and thermostat, and the way the coolant takes."""

from buildlint.rulebook import *

VENTS = """
build: {stage: assembly}
heads: {vent_ports: %s}
cooling: {flow_path: %s, vent_lines: %s}  %s
"""
ENDS = {"none": set(), "front": {"front"}, "rear": {"rear"}, "both_ends": {"front", "rear"}}


@rule(
    scope="build",
    level="error",
    due="assembly",
    says="The heads want vents at {wanted}, and {missing} not led away.",
    fix="Lead a line from {place} to the top of the radiator or the surge tank, rising all the way, and write cooling.vent_lines.",
    source="common practice, no source; the heads' maker says which ports may be plugged",
    points_at=("vent_lines", "thermostat_rear_vents", "head_vent_ports", "flow_path"),
    conforming=(VENTS % ("both_ends", "block_first", "both_ends", ""), VENTS % ("none", "block_first", "none", ""),
                VENTS % ("none", "heads_first", "rear", ""), VENTS % ("front", "block_first", "both_ends", "")),
    nonconforming=(VENTS % ("both_ends", "block_first", "front", "# <-"), VENTS % ("both_ends", "block_first", "none", "# <-"),
                   VENTS % ("none", "heads_first", "none", "# <-")),
)
def head_vents_are_led_away(
    head_vent_ports: Choice = None, flow_path: Choice = None, vent_lines: Choice = None, thermostat_rear_vents: Choice = None,
):
    """Steam gathers at the end of the head that stands highest and stays there: the exhaust seats under it crack while the gauge reads cool.

    Without any vent it is an error. Where the coolant runs through the heads first it pushes the steam down, against its
    rising, so that such an engine wants a vent whatever its ports. Which ports a maker plugs when the engine stands nose
    up is his affair: write what he wants.
    """
    wanted = ENDS.get(head_vent_ports, set())
    reverse = flow_path == "heads_first" and not wanted
    if not wanted and not reverse:
        return not_applicable("the heads want no vents, or none are known")
    led = ENDS.get(vent_lines, set()) | ({"rear"} if thermostat_rear_vents == "fitted" else set())
    if vent_lines is None and (wanted - led or not led):
        return lacking("vent_lines")
    missing = sorted(wanted - led)
    if reverse:
        return require(bool(led)).saying(
            "The coolant runs through the heads first, and no vent leads steam out of them.",
            "Lead a line from the highest place of each head to the top of the radiator or the surge tank, and write cooling.vent_lines.")
    return require(not missing, "warning" if led else None).telling(
        wanted=" and ".join(sorted(wanted)), missing=" and ".join(missing) + (" is" if len(missing) == 1 else " are"),
        place="the " + " and the ".join(missing) + " of each head" if missing else "")


CAP = """
cooling:
  pressure_cap: {pressure: 16 psi, placed: %s, below_highest: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="The pressure cap {trouble}.",
    fix="{remedy}",
    source="common practice, no source: highest place and the pump's suction side",
    when={"pressure_cap_placed": given},
    points_at=("pressure_cap_placed", "pressure_cap_below_highest"),
    caution="Never open a hot system: let it cool until the upper hose is soft, and turn the cap with a rag.",
    conforming=(CAP % ("radiator_pump_side", "0 in", ""), CAP % ("radiator_top_tank", "0.5 in", ""), CAP % ("surge_tank_suction_side", "0 in", ""),
                """
        cooling: {vent_lines: both_ends, pressure_cap: {placed: radiator}}
        """),
    nonconforming=(CAP % ("radiator_inlet_side", "0 in", "# <-"), CAP % ("water_neck", "0 in", "# <-"), CAP % ("radiator_pump_side", "4 in", "# <-")),
)
def pressure_cap_sits_high_and_calm(
    pressure_cap_placed: Choice, pressure_cap_below_highest: Length = None, vent_lines: Choice = None, thermostat_rear_vents: Choice = None, *,
    most_below: Length = q("0.5 in"),
):
    """The cap belongs at the highest place, where the air is, and on the side that the pump sucks from, where the system's pressure is least.

    On the hot tank of a crossflow radiator the pump's pressure adds to the system's: at speed the cap opens early and
    throws water. At the water neck it sits high but on that same side, which is noted. On the upper tank of a radiator
    that flows downward it has to sit there, and does. Below the highest place air cannot reach it: only noted where vent
    lines carry the air away.
    """
    if pressure_cap_placed == "radiator_inlet_side":
        return require(False).at("pressure_cap_placed").telling(
            trouble="sits on the tank that the hot water enters, where the pump's pressure adds to the system's and opens it early",
            remedy="Turn the radiator or have the neck moved to the tank that feeds the pump, or fit a surge tank on the suction side as the highest place.")
    if pressure_cap_below_highest is not None and pressure_cap_below_highest > most_below * (1 + 1e-9):
        vented = vent_lines not in (None, "none") or thermostat_rear_vents == "fitted"
        verdict = at_most(pressure_cap_below_highest, most_below)
        return verdict.within_level("note" if vented else "warning").at("pressure_cap_below_highest").telling(
            trouble=f"lies {pressure_cap_below_highest} below the highest place in the coolant: the air stays above it",
            remedy="Fit a surge tank as the highest place, fed by a vent line from there and joined to the pump's suction side, with the cap on it.")
    if pressure_cap_placed == "water_neck":
        return require(False, "note").at("pressure_cap_placed").telling(
            trouble="sits at the water neck, on the pressure side of the pump",
            remedy="It fills well there; if it throws water at speed, move the cap to the pump's side of the radiator or to a surge tank.")
    return passes()


STAT = """
cooling:
  flow_path: %s
  thermostat: {kind: thermostat, temperature: 180 degF, placed: %s, bypass: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="{sentence}",
    fix="{remedy}",
    source="common practice, no source",
    when={"thermostat_placed": given},
    points_at=("thermostat_placed", "thermostat_bypass"),
    conforming=(STAT % ("block_first", "engine_outlet", "none", ""), STAT % ("heads_first", "pump_inlet", "fitted", ""),
                STAT % ("block_first", "pump_inlet", "fitted", "")),
    nonconforming=(STAT % ("heads_first", "engine_outlet", "fitted", "# <-"), STAT % ("block_first", "pump_inlet", "none", "# <-")),
)
def thermostat_suits_the_flow(thermostat_placed: Choice, flow_path: Choice = None, thermostat_kind: Choice = None, thermostat_bypass: Choice = None):
    """Coolant that meets the hot heads first must not come straight from the radiator in one cold slug.

    Reverse flow wants its thermostat where the coolant comes back to the pump, mixing cold with warm. There it only opens
    if warm coolant is led past it: shut off from its bypass it feels the cold radiator and stays shut, an error.
    """
    if thermostat_kind in ("none", "restrictor"):
        return not_applicable("no thermostat is fitted")
    if thermostat_placed == "pump_inlet":
        if thermostat_bypass is None:
            return lacking("thermostat_bypass")
        return require(thermostat_bypass == "fitted").at("thermostat_bypass").telling(
            sentence="The thermostat stands at the pump's inlet, and no bypass leads warm coolant past it: it feels the radiator and stays shut.",
            remedy="Open the bypass from the engine to the thermostat's warm side, and do not plug it with the heater.")
    return require(flow_path != "heads_first", "warning").at("thermostat_placed").telling(
        sentence="The coolant runs through the heads first, and the thermostat stands where it leaves the engine: each opening sends a cold slug into hot heads.",
        remedy="Use the housing with the thermostat at the pump's inlet that belongs to reverse flow, with its bypass open.")


GASKET = """
cooling: {flow_path: %s}
head_gasket: {flow_path: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="The head gasket meters the water for {head_gasket_flow_path}, and this engine runs {flow_path}.",
    fix="Order the gasket made for this engine's flow; turned round or drilled it meters wrong all the same.",
    source="common practice, no source",
    when={"head_gasket_flow_path": given},
    points_at=("head_gasket_flow_path", "flow_path"),
    conforming=(GASKET % ("heads_first", "heads_first", ""), GASKET % ("block_first", "block_first", "")),
    nonconforming=GASKET % ("heads_first", "block_first", "# <-"),
)
def gasket_meters_for_the_flow(head_gasket_flow_path: Choice, flow_path: Choice):
    """The holes are small where the water comes first and large where it goes last; fed from the other side they cool one end only."""
    return require(head_gasket_flow_path == flow_path)
