"""The octane number: on which scale it is, and whether it can belong to the fuel named."""

from buildlint.rulebook import *

NAMED = """
build: {fuel: pump_gasoline}
fuel_system: {octane: 93%s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="planning",
    says="The octane number {fuel_octane} is written without its scale: it means {as_ron} as RON and {as_mon} as MON on a pump's scale.",
    fix="Write fuel_system.octane_scale: aki is the number on pumps in the United States and Canada, ron nearly everywhere else, mon on "
        "many race fuels.",
    source="definition of the scales, ASTM D4814",
    when={"fuel_octane": given},
    points_at=("fuel_octane",),
    conforming=NAMED % (", octane_scale: aki", ""),
    nonconforming=NAMED % ("", "# <-"),
)
def octane_names_its_scale(fuel_octane: Octane, fuel_octane_scale: Choice = None, octane_sensitivity: Octane = None):
    """98 by the scale used in most of the world is 93 on an American pump: worth half a ratio of compression."""
    if fuel_octane_scale is not None:
        return passes()
    half = (octane_sensitivity or 9.0) / 2
    verdict = wanting("fuel_octane_scale").at("fuel_octane")
    return verdict.telling(as_ron=f"{fuel_octane - half:.4g} AKI", as_mon=f"{fuel_octane + half:.4g} AKI")


NUMBERS = """
build: {fuel: %s}
fuel_system: {octane: %s, octane_scale: %s, octane_sensitivity: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="planning",
    says="{fuel_octane} {scale} stands for {value} on the pump's scale; {fuel} has {low:up} to {high:down}.",
    fix="Look whether number, scale and fuel belong together.",
    source="definition of the scales; property table of the Alternative Fuels Data Center, U.S. Department of Energy; bands common "
           "practice, no source",
    when={"fuel_octane": given, "fuel_octane_scale": given},
    points_at=("fuel_octane", "fuel_octane_sensitivity"),
    conforming=(NUMBERS % ("pump_gasoline", "93", "aki", "9", ""), NUMBERS % ("e85", "105", "ron", "15", ""),
                NUMBERS % ("race_gasoline", "110", "mon", "8", "")),
    nonconforming=(NUMBERS % ("pump_gasoline", "98", "aki", "9", "# <-"), NUMBERS % ("e85", "87", "aki", "9", "# <-"),
                   NUMBERS % ("pump_gasoline", "93", "mon", "9", "# <-"), NUMBERS % ("pump_gasoline", "96", "aki", "9", "# <-")),
)
def octane_numbers_are_consistent(
    fuel: Choice, fuel_octane: Octane, fuel_octane_scale: Choice, antiknock_index: Octane, octane_sensitivity: Octane, *,
    lowest={"pump_gasoline": q("84", "octane"), "e10": q("84", "octane"), "race_gasoline": q("90", "octane"),
            "e85": q("92", "octane"),
            "ethanol": q("96", "octane"), "methanol": q("94", "octane"), "lpg": q("94", "octane")},
    highest={"pump_gasoline": q("94", "octane"), "e10": q("94", "octane"), "race_gasoline": q("124", "octane"),
             "e85": q("112", "octane"), "ethanol": q("120", "octane"), "methanol": q("125", "octane"), "lpg": q("112", "octane")},
    warning_beyond: Octane = q("1.5", "octane"), error_beyond: Octane = q("3", "octane"),
):
    """RON, MON and the pump's number of one fuel hang together; a number that fits no such fuel is on another scale.

    Pumps sell up to 94 by the American scale without ethanol; a few sell more, so the first point and a half above is
    only asked about.
    """
    if fuel not in lowest:
        return not_applicable("a blend of its own")
    verdict = within(Octane(antiknock_index), error=(lowest[fuel] - error_beyond, highest[fuel] + error_beyond),
                     warning=(lowest[fuel] - warning_beyond, highest[fuel] + warning_beyond), note=(lowest[fuel], highest[fuel]))
    half = octane_sensitivity / 2
    fits = [scale for scale, index in (("aki", fuel_octane), ("ron", fuel_octane - half), ("mon", fuel_octane + half))
            if scale != fuel_octane_scale and lowest[fuel] <= index <= highest[fuel]]
    if fits:
        verdict.saying(fix=f"It fits as octane_scale: {fits[0]}.")
    return verdict.telling(scale=fuel_octane_scale.upper(), low=f"{lowest[fuel]:g}", high=f"{highest[fuel]:g}")
