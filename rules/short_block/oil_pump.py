"""The oil pump: enough for what leaks, no more than the drive carries, and set up inside."""

from buildlint.rulebook import *
from buildlint.tables.oil import read_label

PUMP_SIZE = {"standard": 1.0, "plus_10": 1.10, "plus_25": 1.25}

DEMAND = """
bearings:
  main: {clearance: %s, reference_clearance: 0.0025 in}
  rod: {clearance: %s, reference_clearance: 0.0024 in}
oiling:
  pump: {volume: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="The bearings leak {value} times what this pump size was made for; above {limit} it falls short at hot idle.",
    fix="Close the clearances, run a heavier oil, or take a pump of more volume or a dry sump; look at the drive gear with it.",
    source="leakage goes with the cube of clearance: Shigley, Mechanical Engineering Design, section 12-12 (from memory); weights and limits common "
           "practice, no source",
    when={"main_bearing_reference_clearance": given, "rod_bearing_reference_clearance": given},
    points_at=("oil_pump_volume", "main_bearing_clearance"),
    conforming=(DEMAND % ("0.0025 in", "0.0024 in", "standard", ""), DEMAND % ("0.0028 in", "0.0026 in", "plus_25", "")),
    nonconforming=(DEMAND % ("0.0030 in", "0.0030 in", "standard", "# <-"), DEMAND % ("0.0027 in", "0.0026 in", "standard", "# <-")),
)
def oil_pump_meets_the_demand(
    main_bearing_clearance_largest: Length, main_bearing_reference_clearance: Length, rod_bearing_clearance_largest: Length,
    rod_bearing_reference_clearance: Length, oil_pump_volume: Choice, oil_flow_needed_factor: Ratio = None, *,
    sizes=PUMP_SIZE, main_share: Fraction = q("0.6", "fraction"), note_above: Ratio = q("1.25", "ratio"), warning_above: Ratio = q("1.5", "ratio"),
):
    """Half a thousandth more in every bearing nearly doubles what they leak: the flow goes with the cube of the clearance.

    A published test found two and a half times the flow where the cube says 2.7. The shares of mains and rods and the
    lines are guesses; a factor of one's own, written as flow_needed_factor, wins.
    """
    if oil_pump_volume not in sizes:
        return not_applicable("an external pump is sized by its maker")
    if min(main_bearing_reference_clearance, rod_bearing_reference_clearance) <= 0:
        return not_applicable("a size of nothing is asked about elsewhere")
    main = (main_bearing_clearance_largest / main_bearing_reference_clearance) ** 3
    rod = (rod_bearing_clearance_largest / rod_bearing_reference_clearance) ** 3
    demand = oil_flow_needed_factor or main_share * main + (1 - main_share) * rod
    return at_most(Ratio(demand / sizes[oil_pump_volume]), note=note_above, warning=warning_above)


OVERSIZE = """
build: {ambient_coldest: %s}
bearings:
  main: {clearance: %s, reference_clearance: 0.0025 in}
  rod: {clearance: 0.0024 in, reference_clearance: 0.0024 in}
oiling:
  grade: %s
  pump: {volume: plus_25, drive: distributor_gear, shaft: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="The large oil pump has little to do at these clearances and pulls the drive through {oil_grade}{cold}.",
    fix="Take the standard volume with the right relief spring; else a hardened shaft, compatible gears, thinner oil and a slow warm-up.",
    source="common practice, no source",
    when={"oil_pump_volume": ("plus_10", "plus_25"), "oil_pump_drive": ("distributor_gear", "cam_stub_shaft")},
    points_at=("oil_pump_volume",),
    conforming=(OVERSIZE % ("50 degF", "0.0029 in", "20W-50", "hardened", ""), OVERSIZE % ("50 degF", "0.0025 in", "5W-30", "hardened", "")),
    nonconforming=(OVERSIZE % ("30 degF", "0.0025 in", "20W-50", "hardened", "# <-"), OVERSIZE % ("50 degF", "0.0025 in", "10W-30", "standard", "# <-"),
                   OVERSIZE % ("50 degF", "0.0029 in", "10W-30", "standard", "# <-")),
)
def oversize_pump_spares_the_drive(
    oil_pump_volume: Choice, oil_grade: Choice, oil_pump_shaft: Choice = None, ambient_coldest: Temperature = None,
    main_bearing_clearance_largest: Length = None, main_bearing_reference_clearance: Length = None, *,
    needed_from: Ratio = q("1.10", "ratio"), cold_below: Temperature = q("10 degC"), thick_from: Count = q("50", "count"),
):
    """A pump of a quarter more volume takes a quarter more torque from a pair of gears that were never generous.

    Where the bearings need the flow there is no way round it. Where they do not, thick cold oil eats the gear. A standard
    shaft twists either way.
    """
    needed = main_bearing_clearance_largest is not None and main_bearing_reference_clearance \
        and (main_bearing_clearance_largest / main_bearing_reference_clearance) ** 3 >= needed_from
    label = read_label(oil_grade)
    thick = label is not None and label[1] >= thick_from
    cold = thick and ambient_coldest is not None and ambient_coldest < cold_below
    if cold and not needed:
        return require(False).telling(cold=" in the cold")
    if oil_pump_shaft == "standard":
        return require(False, "note").telling(cold="").saying(
            "The large oil pump is driven through a standard shaft.",
            "Fit a hardened shaft." if needed else "Fit a hardened shaft; and look whether the volume is needed at all.")
    return passes()


INSIDE = """
oiling:
  pump: {end_clearance: %s, side_clearance: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="assembly",
    says="The oil pump's {which} clearance is {value}; {least:up} to {most:down} is usual, the maker's figure wins.",
    fix="Dress the body on a plate with fine paper, or change gears or cover.",
    source="common practice, no source; from memory",
    when={"oil_pump_end_clearance": given},
    points_at=("oil_pump_end_clearance",),
    conforming=INSIDE % ("0.0025 in", "0.004 in", ""),
    nonconforming=(INSIDE % ("0.006 in", "0.004 in", "# <-"), INSIDE % ("0.001 in", "0.004 in", "# <-"), INSIDE % ("0.0025 in", "0.008 in", "# <-")),
)
def oil_pump_clearances_are_set(
    oil_pump_end_clearance: Length, oil_pump_side_clearance: Length = None, *,
    end={"least": q("0.04 mm"), "most": q("0.10 mm")}, side={"least": q("0.05 mm"), "most": q("0.15 mm")},
):
    """What slips past the gears inside the pump never reaches a bearing; end play counts most.

    A new pump out of the box is measured like a used one.
    """
    verdict = within(oil_pump_end_clearance, warning=(end["least"], end["most"]))
    verdict.telling(which="end", least=Length(end["least"]), most=Length(end["most"])).at("oil_pump_end_clearance")
    if verdict.kind == "pass" and oil_pump_side_clearance is not None:
        verdict = within(oil_pump_side_clearance, warning=(side["least"], side["most"]))
        verdict.telling(which="side", least=Length(side["least"]), most=Length(side["most"])).at("oil_pump_side_clearance")
    return verdict.saying(fix=None if verdict.facts.get("side") == "above" else
                          "Shim the cover or dress the gears' ends; it must turn freely when warm.")


SCAVENGE = """
oiling:
  sump: dry
  pump: {pressure_flow: 10 gpm, scavenge_flow: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="The scavenge stages draw {value} times what the pressure stage delivers; {limit} is the least that keeps the pan dry.",
    fix="Add a stage or wider gears: {flow:up} of scavenge flow at this speed.",
    source="common practice, no source; from memory",
    when={"oil_pump_scavenge_flow": given, "oil_sump": ("dry",)},
    points_at=("oil_pump_scavenge_flow",),
    conforming=SCAVENGE % ("20 gpm", ""),
    nonconforming=SCAVENGE % ("11 gpm", "# <-"),
)
def scavenge_outpumps_pressure_stage(
    oil_pump_scavenge_flow: Flow, oil_pump_pressure_flow: Flow, *, least: Ratio = q("1.3", "ratio"),
):
    """Scavenge stages draw as much air as oil; with too little of them the pan fills and the crank beats it to foam."""
    if oil_pump_pressure_flow <= 0:
        return not_applicable("a size of nothing is asked about elsewhere")
    verdict = at_least(Ratio(oil_pump_scavenge_flow / oil_pump_pressure_flow), least)
    return verdict.telling(flow=Flow(least * oil_pump_pressure_flow, getattr(oil_pump_pressure_flow, "unit", "")))
