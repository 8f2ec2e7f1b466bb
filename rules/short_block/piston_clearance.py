"""The piston in its bore: cold by alloy and duty, hot, and where it was measured."""

from buildlint.rulebook import *

# Clearance for each unit of bore. Forged rows seen as 0.004 to 0.007 in of a 4 in bore; the rest anchored on the alloys'
# expansion. Common practice, no source.
ROWS = {
    "cast": {"street": {"least": 0.00035, "most": 0.00055}, "race": {"least": 0.00045, "most": 0.00065},
             "forced": {"least": 0.00045, "most": 0.00065}, "marine_or_towing": {"least": 0.00050, "most": 0.00070}},
    "hypereutectic": {"street": {"least": 0.00035, "most": 0.00060}, "race": {"least": 0.00050, "most": 0.00075},
                      "forced": {"least": 0.00060, "most": 0.00095}, "marine_or_towing": {"least": 0.00055, "most": 0.00080}},
    "forged_4032": {"street": {"least": 0.00060, "most": 0.00085}, "race": {"least": 0.00075, "most": 0.00100},
                    "forced": {"least": 0.00080, "most": 0.00110}, "marine_or_towing": {"least": 0.00085, "most": 0.00110}},
    "forged_2618": {"street": {"least": 0.00090, "most": 0.00115}, "race": {"least": 0.00095, "most": 0.00130},
                    "forced": {"least": 0.00105, "most": 0.00155}, "marine_or_towing": {"least": 0.00115, "most": 0.00150}},
}
PLATED_BORE = {"least": 0.00035, "most": 0.00070}
RACING = ("road_race", "oval_race", "drag_race")

CLEARANCE = """
build: {duty: %s, induction: natural}
block: {bore: 4.030 in}
pistons: {class: %s, wall_clearance: %s}  %s
"""


@rule(
    scope="cylinder",
    level="error",
    due="machining",
    says="The piston clearance is {value}, {side} {limit}; {alloy} pistons run at {least:up} to {most:down} here. Warm, about {warm} is left.",
    fix="Hone the bore to the piston; a bore that is too large takes the next size of piston, or a sleeve.",
    source="common practice, no source, anchored on thermal expansion; the piston maker's sheet wins",
    compares=("piston_wall_clearance",),
    points_at=("piston_wall_clearance",),
    conforming=(CLEARANCE % ("street", "forged_2618", "0.0042 in", ""), CLEARANCE % ("street", "hypereutectic", "0.0015 in", ""),
                CLEARANCE % ("drag_race", "forged_2618", "0.0050 in", ""), """
        build: {duty: street, induction: natural}
        block: {bore: 4.030 in}
        pistons: {class: forged_2618, wall_clearance: 0.0028 in, maker_wall_clearance: 0.0028 in}
        """, """
        build: {duty: street, induction: natural}
        block: {bore: 4.030 in}
        pistons: {class: forged_4032, wall_clearance: 0 in, skirt_coating: abradable}
        """),
    nonconforming=(CLEARANCE % ("street", "forged_2618", "0.0025 in", "# <-"), CLEARANCE % ("street", "forged_4032", "0 in", "# <-"),
                   CLEARANCE % ("street", "hypereutectic", "0.0045 in", "# <-"), """
        build: {duty: street, induction: natural}
        block: {bore: 4.0300 in}
        pistons: {class: forged_2618, gauge_diameter: 4.0255 in, wall_clearance: 0.0035 in}  # <-
        """, """
        build: {duty: street, induction: natural}
        block: {bore: 4.030 in}
        pistons: {class: cast, nominal_bore: 4.000 in, wall_clearance: 0.0018 in}  # <-
        """),
)
def piston_clearance_suits_alloy(
    piston_wall_clearance: Length, block_bore: Length, piston_class: Choice, duty: Choice, induction: Choice = None,
    nitrous_power: Power = None, piston_maker_wall_clearance: Length = None, piston_skirt_coating: Choice = None,
    block_bore_surface: Choice = None, piston_clearance_hot: Length = None, piston_wall_clearance_written: Length = None,
    piston_wall_clearance_computed: Length = None, piston_nominal_bore: Length = None, *,
    rows=ROWS, plated_bore=PLATED_BORE, warning_beyond_row: Fraction = q("0.10", "fraction"), large_bore: Length = q("4.5 in"),
    large_bore_more: Ratio = q("0.0001", "ratio"), agree_within: Length = q("0.0005 in"), same_size: Length = q("0.004 in"),
):
    """A tight piston scuffs or seizes when it gets warm, a loose one rocks, breaks its rings' seal and wears its skirt.

    Each alloy grows at its own rate. Makers shape their skirts differently, so a figure from the maker's sheet, written
    as maker_wall_clearance, replaces the table. Just outside the row is a note, ten percent outside a warning; only no
    clearance at all is an error, and not even that where a coating is made to be worn in. Pistons of another size than the bore are told before anything else.
    """
    if piston_nominal_bore is not None and abs(piston_nominal_bore - block_bore) > same_size:
        return matches(piston_nominal_bore, block_bore, tolerance=same_size).at("piston_nominal_bore").saying(
            "The pistons are made for a bore of {piston_nominal_bore}; the bore is {block_bore}.",
            "Order pistons for {block_bore}, or finish the bore to the pistons that are there, with their clearance.")
    if piston_wall_clearance_written is not None and piston_wall_clearance_computed is not None:
        gap = abs(piston_wall_clearance_written - piston_wall_clearance_computed)
        if gap > agree_within:
            verdict = at_most(Length(gap), warning=agree_within)
            verdict.comparing(Length(piston_wall_clearance_written), Length(piston_wall_clearance_computed))
            return verdict.saying(
                "The clearance is written as {value}, but bore less gauge diameter is {limit}.",
                "Measure bore and piston at one temperature, the piston at its maker's gauge height, and correct the one that is off.",
            ).at("piston_wall_clearance_written")
    maker = piston_maker_wall_clearance
    abradable = piston_skirt_coating == "abradable"
    if maker is not None:
        least, most = maker, 1.5 * maker
    else:
        row = _row(rows, plated_bore, piston_class, duty, induction, nitrous_power, block_bore_surface)
        if row is None:
            return not_applicable("no row for this piston")
        more = large_bore_more if block_bore > large_bore else 0.0
        least, most = (row["least"] + more) * block_bore, (row["most"] + more) * block_bore
    low = None if abradable else Length(least)
    verdict = within(Length(piston_wall_clearance),
                     error=(None if abradable else Length(1e-9), None),
                     warning=(None if abradable else Length(least * (1 - (0 if maker else warning_beyond_row))),
                              Length(most * (1 + warning_beyond_row))),
                     note=(low, Length(most)))
    larger = least + (most - least) / 3 - piston_wall_clearance
    remedy = ("Hone the bore {larger:up} larger, to the piston; never cut the piston." if verdict.facts.get("side") == "below"
              else "Look for a piston of the next size, or sleeve and hone to the piston; check that it was measured at the "
                   "maker's gauge height.")
    if verdict.facts.get("side") == "below":
        verdict.limit = Length(least)
    warm = piston_clearance_hot if piston_clearance_hot is not None else piston_wall_clearance
    verdict.telling(least=Length(least), most=Length(most), larger=Length(larger), warm=Length(warm),
                    alloy=piston_class.replace("forged_", "forged ").replace("_", " "))
    return verdict.saying(fix=remedy)


def _row(rows, plated_bore, piston_class, duty, induction, nitrous_power, surface):
    if surface in ("plated_aluminum", "aluminum_silicon"):
        return plated_bore
    row = rows.get(piston_class)
    if row is None:
        return None
    if nitrous_power is not None and nitrous_power > 0 or induction in ("supercharged", "turbocharged"):
        return row["forced"]
    return row["race" if duty in RACING else "marine_or_towing" if duty in ("marine", "towing") else "street"]


WARM = """
build: {duty: street, induction: natural}
block: {bore: 4.030 in, material: cast_iron}
pistons: {class: forged_2618, wall_clearance: %s, maker_wall_clearance: %s}  %s
"""


@rule(
    scope="cylinder",
    level="warning",
    due="machining",
    says="Warm, {value} of the piston's clearance is left by calculation; below {limit} it is tighter than a skirt gives way.",
    fix="Ask the piston's maker about this bore and use; else hone {short:up} larger. Skirt and bore are taken as equally warm, 80 K "
        "above room temperature on the street, 90 racing, 110 under boost.",
    source="thermal expansion by the table of materials; temperatures common practice, no source",
    when={"piston_class": ("hypereutectic", "forged_4032", "forged_2618")},
    points_at=("piston_wall_clearance",),
    conforming=(WARM % ("0.0042 in", "0.0042 in", ""), WARM % ("0.0030 in", "0.0030 in", "")),
    nonconforming=WARM % ("0.0020 in", "0.0020 in", "# <-"),
)
def piston_stays_free_when_hot(
    piston_clearance_hot: Length, piston_wall_clearance: Length, block_bore: Length, piston_class: Choice, duty: Choice = None,
    induction: Choice = None, nitrous_power: Power = None, piston_maker_wall_clearance: Length = None,
    piston_skirt_coating: Choice = None, block_bore_surface: Choice = None, *, warning_below: Length = q("-0.001 in"),
):
    """The alloy decides how much of the cold clearance is left; a maker's figure for another use may leave none.

    Where the cold clearance has been reported already nothing is said twice. A thousandth of overlap is what skirts are
    seen to live with, since they are barrel-shaped and give. Cast pistons are left out: many are slotted or carry
    struts that hold their growth back.
    """
    if piston_skirt_coating == "abradable":
        return not_applicable("the coating wears in")
    if piston_maker_wall_clearance is None:
        row = _row(ROWS, PLATED_BORE, piston_class, duty, induction, nitrous_power, block_bore_surface)
        if row is not None and piston_wall_clearance < 0.9 * row["least"] * block_bore:
            return not_applicable("the cold clearance is reported")
    verdict = at_least(Length(piston_clearance_hot), warning=warning_below)
    return verdict.telling(short=Length(warning_below - piston_clearance_hot))


GAUGE = """
pistons: {gauge_diameter: 4.0255 in, gauge_height: %s, skirt_length: 2.0 in}  %s
"""


@rule(
    scope="cylinder",
    level="note",
    due="machining",
    says="The piston's size is given at {value} above the skirt's end, beyond the skirt's {limit}.",
    fix="Write the height at which its maker measures, counted up from the end of the skirt.",
    source="geometry",
    when={"piston_gauge_diameter": given},
    points_at=("piston_gauge_height",),
    conforming=GAUGE % ("0.50 in", ""),
    nonconforming=GAUGE % ("2.60 in", "# <-"),
)
def piston_gauge_height_is_stated(piston_gauge_height: Length, piston_skirt_length: Length = None):
    """A skirt is barrel-shaped and a piston is oval: its size means something only at the height its maker measures.

    Every half inch up or down the skirt is easily a thousandth.
    """
    if piston_skirt_length is None:
        return passes()
    return at_most(piston_gauge_height, piston_skirt_length)
