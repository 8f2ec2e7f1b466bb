"""Pan, pickup, tray and dipstick."""

from buildlint.rulebook import *

PICKUP = """
oiling:
  pickup: {to_floor: %s}  %s
"""
DEPTHS = """
oiling:
  pan: {depth: 7.5 in}
  pickup: {held_by: weld%s, depth: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="assembly",
    says="The pickup stands {value} off the pan's floor; {least:up} to {most:down} is right, {aim} the aim.",
    fix="Set the pickup {move} {direction} and fix it there; measure with clay or gasket and pan in place.",
    source="common practice, no source",
    compares=("oil_pickup_to_floor",),
    points_at=("oil_pickup_to_floor",),
    conforming=(PICKUP % ("0.375 in", ""), PICKUP % ("1/4 in", ""), PICKUP % ("1/2 in", ""), DEPTHS % (", to_floor: 0.375 in", "7.1 in", ""),
                DEPTHS % ("", "7.125 in", "")),
    nonconforming=(PICKUP % ("0.200 in", "# <-"), PICKUP % ("0.150 in", "# <-"), PICKUP % ("0.55 in", "# <-"), PICKUP % ("0.75 in", "# <-"),
                   DEPTHS % (", to_floor: 0.375 in", "7.3 in", "# <-"), """
        oiling:
          pickup: {depth: 7.35 in}
          pan: {depth: 7.5 in}  # <-
        """),
)
def oil_pickup_clears_the_pan(
    oil_pickup_to_floor: Length = None, oil_sump: Choice = None, oil_pickup_to_floor_written: Length = None,
    oil_pickup_to_floor_computed: Length = None, *, least: Length = q("1/4 in"), most: Length = q("1/2 in"),
    error_below: Length = q("3/16 in"), error_above: Length = q("5/8 in"), aim: Length = q("3/8 in"), agree_within: Length = q("1/16 in"),
):
    """Too low and the pickup closes itself on the floor, too high and it draws air in the first corner.

    Another pump, another pan gasket, a tray or main studs move it. A dry sump has no pickup: its scavenge stages draw at
    the pan's own outlets. The gap follows from the depths of pan and pickup where it is not written; those are taken with a
    rule, so that a sixteenth between them and a written gap is nothing.
    """
    if oil_sump == "dry":
        return not_applicable("a dry sump draws at the pan's own outlets")
    if oil_pickup_to_floor is None:
        return lacking("oil_pickup_to_floor")
    if oil_pickup_to_floor_written is not None and oil_pickup_to_floor_computed is not None:
        verdict = at_most(Length(abs(oil_pickup_to_floor_written - oil_pickup_to_floor_computed)), warning=agree_within)
        if verdict.kind == "fail":
            verdict.comparing(oil_pickup_to_floor_written, Length(oil_pickup_to_floor_computed)).at("oil_pickup_to_floor_written")
            return verdict.saying("The pickup is written {value} off the floor, but the depths of pan and pickup leave {limit}.",
                                  "Lay clay on the screen, set the pan on with its gasket, and write what it measures.")
    verdict = within(Length(oil_pickup_to_floor), error=(error_below, error_above), warning=(least, most))
    gap = aim - oil_pickup_to_floor
    return verdict.telling(least=Length(least), most=Length(most), aim=Length(aim), move=Length(abs(gap)), direction="higher" if gap > 0 else "lower")


@rule(
    scope="build",
    level="reminder",
    due="assembly",
    says="The pickup is welded or bracketed to the pump, not only pressed in.",
    fix="Weld or braze it with the relief spring taken out and the pump washed afterwards, or fit the bracket; then write held_by.",
    source="common practice, no source",
    caution="Welding heat takes the temper out of the relief spring: take spring and plunger out first.",
    when={"oil_sump": ("wet",)},
    points_at=("oil_pickup_held_by", "oil_sump"),
    conforming="oiling: {sump: wet}",
    nonconforming="oiling: {sump: wet, pickup: {held_by: press_only}}  # <-",
)
def oil_pickup_is_secured(oil_sump: Choice, oil_pickup_held_by: Choice = None):
    """A pressed pickup shakes out of the pump one day, and there is oil pressure until there is none."""
    if oil_pickup_held_by == "press_only":
        return require(False).saying("The pickup is only pressed into the pump.")
    return passes() if oil_pickup_held_by in ("weld", "bracket") else review()


FILL = """
build: {peak_power: %s, rev_limit: %s}
oiling:
  sump: wet
  pan: {capacity: %s}  %s
"""
# up to this power and speed: least oil in the pan. Common practice, no source.
FILLS = {
    "mild": {"power": q("350 hp"), "speed": q("5500 rpm"), "fill": q("4 qt")},
    "warm": {"power": q("400 hp"), "speed": q("6000 rpm"), "fill": q("5 qt")},
    "brisk": {"power": q("425 hp"), "speed": q("6500 rpm"), "fill": q("6 qt")},
    "fast": {"speed": q("7000 rpm"), "fill": q("7 qt")},
    "fastest": {"fill": q("8 qt")},
}


@rule(
    scope="build",
    level="note",
    due="ordering",
    says="The pan holds {value}; {limit} is usual for this power and speed.",
    fix="A deeper or kicked-out pan, or an oil accumulator; oil in the pan counts, not in filter and lines.",
    source="common practice, no source",
    when={"oil_sump": ("wet",)},
    points_at=("oil_pan_capacity",),
    conforming=(FILL % ("300 hp", "5500 rpm", "4 qt", ""), FILL % ("450 hp", "6500 rpm", "7 qt", "")),
    nonconforming=(FILL % ("450 hp", "6500 rpm", "5 qt", "# <-"), FILL % ("700 hp", "8500 rpm", "5 qt", "# <-")),
)
def oil_pan_holds_enough(
    oil_pan_capacity: Volume, peak_power: Power, rev_limit: Rpm, displacement: Volume = None, *, rows=FILLS,
    small_engine: Volume = q("4 L"),
):
    """At speed two quarts are on the way back down from the heads; what is left has to cover the pickup in every corner.

    Four quarts in the pan are the standard of mild engines, eight of fast ones. The rows are for V8s; an engine below four
    liters keeps what its maker gave it.
    """
    if displacement is not None and displacement < small_engine:
        return not_applicable("a small engine")
    row = next(row for row in rows.values() if peak_power <= row.get("power", peak_power) * (1 + 1e-9)
               and rev_limit <= row.get("speed", rev_limit) * (1 + 1e-9))
    return at_least(oil_pan_capacity, row["fill"])


STROKE = """
crank: {stroke: %s, original_stroke: 3.480 in}
oiling:
  pan: {made_for_stroke: %s, baffle: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="The pan is not made for the stroke of {crank_stroke}.",
    fix="Order a pan made for a stroke of {crank_stroke}, with kicked-out rails, and notch the block's rails as its maker shows; measure rods "
        "and counterweights to rails, pan and tray when turning by hand.",
    source="common practice, no source",
    points_at=("oil_pan_made_for_stroke",),
    conforming=(STROKE % ("3.750 in", "3.750 in", "fitted", ""), STROKE % ("3.480 in", "3.480 in", "none", "")),
    nonconforming=(STROKE % ("3.750 in", "3.480 in", "fitted", "# <-"), STROKE % ("4.000 in", "3.875 in", "fitted", "# <-"),
                   STROKE % ("3.750 in", "3.750 in", "none", "# <-")),
)
def oil_pan_clears_the_stroke(
    crank_stroke: Length, oil_pan_made_for_stroke: Length = None, crank_original_stroke: Length = None, oil_pan_baffle: Choice = None,
    oil_sump: Choice = None, crank_pan_gap: Length = None, rod_pan_gap: Length = None, *, within_of: Length = q("0.005 in"),
    stroked_by: Length = q("0.02 in"),
):
    """A longer stroke swings the rod bolts wider; they meet the pan's rail, the tray or the dipstick tube.

    A stroked crank takes a pan made for its stroke, and a baffle round the pickup is usual with it, since the fill lies
    nearer to the crank. Over the crank's own stroke any pan of that engine fits; where the gaps of crank and rods to the
    pan were measured, its label is not asked for.
    """
    if oil_pan_made_for_stroke is None:
        if crank_original_stroke is not None and crank_stroke - crank_original_stroke <= stroked_by:
            return not_applicable("the stroke is the engine's own")
        if crank_pan_gap is not None and rod_pan_gap is not None:
            return not_applicable("the gaps to the pan were measured, and say more than its label")
        return lacking("oil_pan_made_for_stroke")
    if crank_stroke - oil_pan_made_for_stroke > within_of:
        return at_most(Length(crank_stroke), Length(oil_pan_made_for_stroke)).saying(
            "The pan is made for a stroke of {limit}, the crank has {value}.")
    stroked = crank_original_stroke is not None and crank_stroke - crank_original_stroke > stroked_by
    if stroked and oil_pan_baffle == "none" and oil_sump != "dry":
        return require(False, "note").at("oil_pan_baffle").saying(
            "The stroked crank runs over a pan without a baffle round the pickup.",
            "Fit a baffle with one-way doors round the pickup; the pan's makers sell it.")
    return passes()


TRAY = """
crank: {pan_gap: %s}
rods: {pan_gap: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="mock_up",
    says="Between {which} and pan, tray or scraper {value} is left; keep {limit}.",
    fix="Grind, space or dent it {short:up} away, and turn the engine twice round by hand with pan, gasket and tray bolted on.",
    source="common practice, no source",
    when={"oil_pan_gap_least": given},
    points_at=("crank_pan_gap", "rod_pan_gap"),
    conforming=(TRAY % ("0.080 in", "0.080 in", ""), TRAY % ("0.060 in", "0.070 in", "")),
    nonconforming=("""
        crank: {pan_gap: 0.040 in}  # <-
        rods: {pan_gap: 0.080 in}
        """, TRAY % ("0.080 in", "0.030 in", "# <-")),
)
def windage_tray_clears_the_crank(
    oil_pan_gap_least: Length, crank_pan_gap: Length = None, rod_pan_gap: Length = None, rod_material: Choice = None, *,
    least: Length = q("0.060 in"), more_for_aluminum: Length = q("0.5 mm"),
):
    """A tray that is thin sheet moves with every resonance; what was clear by a hair when still is cut to strips at speed.

    Aluminum rods are thicker and grow: half a millimeter more.
    """
    rods_first = crank_pan_gap is None or rod_pan_gap is not None and rod_pan_gap <= crank_pan_gap
    limit = least + (more_for_aluminum if rods_first and rod_material == "aluminum" else 0.0)
    verdict = at_least(Length(oil_pan_gap_least), Length(limit))
    return verdict.telling(which="the rods" if rods_first else "the crank", short=Length(limit - oil_pan_gap_least)).at(
        "rod_pan_gap" if rods_first else "crank_pan_gap")


@rule(
    scope="build",
    level="reminder",
    due="assembly",
    says="The dipstick clears crank, tray and pan, and its full mark stands where the measured fill comes to.",
    fix="Fill with the measured quantity, filter included, let it settle, and mark full; then mark the quart below.",
    source="common practice, no source",
    when={"oil_sump": ("wet",)},
    points_at=("oil_sump",),
    conforming="oiling: {sump: wet}",
)
def dipstick_reads_the_fill(oil_sump: Choice):
    """Another pan, tray or tube makes the old mark a guess; a quart too much is beaten to foam, a quart too little is air."""
    return review()


LEVEL = """
oiling: {sump: %s, pan: {oil_below_crank: %s}}  %s
"""


@rule(
    scope="build",
    level="note",
    due="mock_up",
    says="The full level lies {value} below the swing of the crank; keep {limit}.",
    fix="A deeper or kicked-out pan, a tray between, or less oil with the dipstick marked anew; look that the pickup stays covered.",
    source="common practice, no source",
    when={"oil_pan_oil_below_crank": given},
    points_at=("oil_pan_oil_below_crank",),
    conforming=(LEVEL % ("wet", "1.5 in", ""), LEVEL % ("wet", "25 mm", ""), LEVEL % ("dry", "0 in", "")),
    nonconforming=(LEVEL % ("wet", "0.5 in", "# <-"), LEVEL % ("wet", "-0.5 in", "# <-")),
)
def oil_lies_below_the_crank(oil_pan_oil_below_crank: Length, oil_sump: Choice = None, *, least: Length = q("25 mm")):
    """A crank that dips its counterweights whips the oil to froth, and the pump sends air to the bearings.

    In a pan of full depth an inch below the swing is the least that is usual; on a hill or under acceleration the level tilts into it.
    """
    if oil_sump == "dry":
        return not_applicable("the oil of a dry sump stands in its tank")
    verdict = at_least(oil_pan_oil_below_crank, note=least)
    if oil_pan_oil_below_crank < 0:
        verdict.telling(deep=Length(-oil_pan_oil_below_crank, oil_pan_oil_below_crank.unit)).saying(
            "At the full mark the crank swings {deep} deep through the oil; keep the level {limit} below it.")
    return verdict


WINDAGE = """
build: {rev_limit: %s}
oiling: {sump: wet, pan: {windage_tray: %s}}  %s
"""


@rule(
    scope="build",
    level="note",
    due="ordering",
    says="The engine turns to {value} over a pan without a windage tray; above {limit} one is usual.",
    fix="Order a tray or a scraper for this stroke and these main caps or studs, and turn the crank over it by hand.",
    source="common practice, no source",
    when={"oil_pan_windage_tray": given},
    points_at=("oil_pan_windage_tray",),
    conforming=(WINDAGE % ("7000 rpm", "fitted", ""), WINDAGE % ("6500 rpm", "none", "")),
    nonconforming=WINDAGE % ("7200 rpm", "none", "# <-"),
)
def windage_tray_suits_the_speed(oil_pan_windage_tray: Choice, rev_limit: Rpm, oil_sump: Choice = None, *, without_to: Rpm = q("6500 rpm")):
    """What drains from above falls on a crank that turns a hundred times a second, and is carried round with it.

    A tray or screen takes it off: some power, cooler oil, and a sump that still holds what the dipstick said.
    """
    return passes() if oil_pan_windage_tray == "fitted" or oil_sump == "dry" else at_most(rev_limit, without_to)
