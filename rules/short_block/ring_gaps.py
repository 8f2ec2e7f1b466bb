"""End gaps of the rings: by duty, against each other, hot, and against the set that is ordered."""

from buildlint.rulebook import *

# Least gap for each unit of bore. Repeated in many charts; common practice, no source.
TOP = {
    "stock": 0.0025, "street": 0.0040, "street_strip": 0.0045, "road_race": 0.0055, "oval_race": 0.0055, "drag_race": 0.0055,
    "marine": 0.0050, "towing": 0.0050,
}
BOOST = {"mild": {"up_to": q("55 kPa"), "factor": 0.0050}, "street": {"up_to": q("105 kPa"), "factor": 0.0055},
         "strong": {"up_to": q("200 kPa"), "factor": 0.0060}, "beyond": {"factor": 0.0070}}
NITROUS = {"small": {"up_to": q("100 hp"), "factor": 0.0050}, "large": {"up_to": q("200 hp"), "factor": 0.0060},
           "beyond": {"factor": 0.0070}}
RACING = ("road_race", "oval_race", "drag_race")

GAP = """
build: {duty: %s, induction: %s}
block: {bore: 4.030 in}
rings:
  top: {end_gap: %s}  %s
"""


@rule(
    scope="ring",
    level="error",
    due="mock_up",
    says="The top ring's gap is {value}; for {duty}{with_what} keep at least {least} ({factor} of the bore).",
    fix="File it to {least}, square, from one end only, and deburr outward.",
    source="common practice, no source; factors of 0.0045 to 0.0070 repeated in many charts; the ring maker's sheet wins",
    when={"ring_name": ("top",)},
    points_at=("end_gap",),
    conforming=(GAP % ("street_strip", "natural", "0.019 in", ""), GAP % ("stock", "natural", "0.0101 in", ""), """
        build: {duty: street_strip, induction: turbocharged}
        boost: {pressure: 10 psi}
        block: {bore: 4.030 in}
        rings:
          top: {end_gap: 0.0222 in}
        """, """
        build: {duty: street_strip, induction: natural}
        block: {bore: 4.030 in}
        rings:
          top: {end_gap: 0.014 in, maker_end_gap_factor: 0.0033}
        """),
    nonconforming=(GAP % ("street_strip", "natural", "0.017 in", "# <-"), GAP % ("street_strip", "natural", "0.014 in", "# <-"),
                   GAP % ("street", "natural", "0.062 in", "# <-"), """
        build: {duty: drag_race, induction: natural}
        nitrous: {power: 250 hp}
        block: {bore: 4.155 in}
        rings:
          top: {end_gap: 0.022 in}  # <-
        """, """
        build: {duty: street_strip, induction: natural}
        block: {bore: 4.030 in}
        rings:
          top:
            end_gap: [0.019 in, 0.019 in, 0.013 in, 0.019 in]  # <-
        """),
)
def top_ring_gap_suits_duty(
    end_gap: Length, block_bore: Length, duty: Choice, induction: Choice = None, boost_pressure: Pressure = None,
    nitrous_power: Power = None, maker_end_gap_factor: Ratio = None, joint: Choice = None, piston_class: Choice = None,
    crown_to_groove: Length = None, *,
    rows=TOP, boost_rows=BOOST, nitrous_rows=NITROUS, error_share: Fraction = q("0.80", "fraction"),
    wide_beyond: Ratio = q("2.0", "ratio"), error_above: Length = q("0.060 in"),
    high_ring_hypereutectic: Ratio = q("0.0065", "ratio"), high_ring: Length = q("0.200 in"), gauge: Length = q("0.0003 in"),
):
    """A ring whose ends meet has nowhere to go: it scuffs, lifts the land off the piston and ends the engine.

    Five thousandths too much can hardly be found on a leak-down tester, so the larger figures of the charts are taken.
    Charts agree on naturally aspirated engines; under boost and with nitrous they spread by a fifth, so there a small
    gap is a warning at most. Hypereutectic pistons with the ring near the crown keep it hotter: fifty percent more is
    asked for, as a note. The maker's sheet, written as maker_end_gap_factor, wins over all of it. A gapless ring is
    judged by its maker's figure alone. What no feeler gauge shows is not asked for.
    """
    if joint == "gapless" and maker_end_gap_factor is None:
        return not_applicable("gapless ring: its maker's figure decides")
    factor, with_what, natural = _least_factor(
        duty, induction, boost_pressure, nitrous_power, maker_end_gap_factor, rows, boost_rows, nitrous_rows)
    least = factor * block_bore
    verdict = at_least(Length(end_gap), error=Length(least * error_share) if natural else None, warning=Length(least))
    if 0 < least - end_gap <= gauge:
        verdict = passes()
    remedy = ("File it to {least}: {to_file:up} more, square, from one end only, and deburr outward. "
              "A little more does no harm.")
    if verdict.kind == "pass" and maker_end_gap_factor is None:
        if end_gap > error_above:
            verdict = at_most(Length(end_gap), error=error_above)
            remedy = "Look for a ring of another bore, or a slip of the pen; no file-fit ring is gapped so wide."
        elif end_gap > wide_beyond * least:
            verdict = at_most(Length(end_gap), note=Length(wide_beyond * least))
            remedy = "It will run; a ring for the finished bore, filed to {least}, seals better."
        elif piston_class == "hypereutectic" and crown_to_groove is not None and crown_to_groove < high_ring \
                and end_gap < high_ring_hypereutectic * block_bore:
            least, factor = high_ring_hypereutectic * block_bore, high_ring_hypereutectic
            verdict, with_what = at_least(Length(end_gap), note=Length(least)), " and a high ring in a hypereutectic piston"
    if verdict.kind == "pass":
        return verdict
    verdict.telling(least=Length(least), to_file=Length(max(least - end_gap, 0.0)), with_what=with_what, factor=f"{factor:.4f}")
    return verdict.saying(fix=remedy)


def _least_factor(duty, induction, boost_pressure, nitrous_power, maker, rows=TOP, boost_rows=BOOST, nitrous_rows=NITROUS):
    """(least gap over bore, why, whether it is one of the rows on which all charts agree)."""
    if maker is not None:
        return maker, " (the maker's figure)", True
    factor, with_what, natural = rows[duty], "", True
    if induction in ("supercharged", "turbocharged"):
        factor, with_what, natural = max(factor, _row(boost_pressure, boost_rows)), " under boost", False
    if nitrous_power is not None and nitrous_power > 0:
        shot = max(_row(nitrous_power, nitrous_rows), 0.0070 if duty in RACING else 0.0)
        factor, with_what, natural = max(factor, shot), " with nitrous", False
    return factor, with_what, natural


def _row(value, rows):
    return next(row["factor"] for row in rows.values() if value is None or value <= row.get("up_to", value))


SECOND = {
    "stock": 0.0035, "street": 0.0050, "street_strip": 0.0050, "road_race": 0.0057, "oval_race": 0.0057, "drag_race": 0.0057,
    "marine": 0.0050, "towing": 0.0050,
}

SECOND_GAP = """
build: {duty: %s, induction: %s}
block: {bore: 4.030 in}
rings:
  second: {end_gap: %s}  %s
"""


@rule(
    scope="ring",
    level="note",
    due="mock_up",
    says="The second ring's gap is {value}; {limit} is usual for {duty}.",
    fix="File it to {limit}, {to_file:up} more, unless the maker says otherwise.",
    source="common practice, no source",
    when={"ring_name": ("second",)},
    points_at=("end_gap",),
    conforming=(SECOND_GAP % ("street", "natural", "0.0202 in", ""), SECOND_GAP % ("street", "turbocharged", "0.0222 in", "")),
    nonconforming=(SECOND_GAP % ("street", "natural", "0.018 in", "# <-"), SECOND_GAP % ("street", "turbocharged", "0.021 in", "# <-")),
)
def second_ring_gap_suits_duty(
    end_gap: Length, block_bore: Length, duty: Choice, induction: Choice = None, nitrous_power: Power = None,
    maker_end_gap_factor: Ratio = None, top_ring_end_gap: Length = None, *,
    rows=SECOND, boosted_street: Ratio = q("0.0055", "ratio"), boosted_race: Ratio = q("0.0063", "ratio"),
    nitrous: Ratio = q("0.0070", "ratio"), gauge: Length = q("0.0003 in"),
):
    """The second ring scrapes oil and lets out what passed the first; a generous gap keeps pressure from building between.

    The rows are folklore with a sound reason; what counts is that the gap is not smaller than the top ring's.
    """
    if top_ring_end_gap is not None and end_gap < top_ring_end_gap:
        return not_applicable("it is smaller than the top ring's, which is told there")
    factor = rows[duty]
    if induction in ("supercharged", "turbocharged"):
        factor = max(factor, boosted_race if duty in RACING else boosted_street)
    if nitrous_power is not None and nitrous_power > 0:
        factor = max(factor, nitrous)
    factor = maker_end_gap_factor or factor
    if 0 < factor * block_bore - end_gap <= gauge:
        return passes()
    return at_least(Length(end_gap), Length(factor * block_bore)).telling(to_file=Length(factor * block_bore - end_gap))


BOTH = """
rings:
  top: {end_gap: %s}
  second: {end_gap: %s}  %s
"""


@rule(
    scope="ring",
    level="warning",
    due="mock_up",
    says="The second ring's gap of {value} is {relation} the top ring's {top_ring_end_gap}.",
    fix="Open the second ring to {aim:up}, a quarter more than the top ring.",
    source="common practice, no source",
    when={"ring_name": ("second",)},
    points_at=("end_gap", "top_ring_end_gap"),
    conforming=(BOTH % ("0.018 in", "0.022 in", ""), BOTH % ("0.018 in", "0.018 in", ""), BOTH % ("0.0185 in", "0.018 in", "")),
    nonconforming=(BOTH % ("0.022 in", "0.018 in", "# <-"), BOTH % ("0.018 in", "0.027 in", "# <-")),
)
def second_ring_gap_exceeds_top(
    end_gap: Length, top_ring_end_gap: Length, top_ring_joint: Choice = None, block_bore: Length = None, *,
    widest: Ratio = q("1.4", "ratio"), usual_share: Ratio = q("0.0075", "ratio"), gauge: Length = q("0.0006 in"),
):
    """Pressure that passes the top ring must get away past the second, or it lifts the top ring off its groove.

    Older books gap the second ring tighter, since it runs colder; measured blow-by settled that. A quarter more than
    the top gap is the usual aim. A second gap that is usual for its bore is not called wide because the top ring's is
    too tight. What no feeler gauge tells apart is called equal.
    """
    if top_ring_joint == "gapless":
        return not_applicable("gapless top ring")
    if 0 < top_ring_end_gap - end_gap <= gauge:
        return passes()
    verdict = at_least(Length(end_gap), warning=Length(top_ring_end_gap))
    verdict.telling(relation="smaller than", aim=Length(1.25 * top_ring_end_gap))
    if block_bore is not None and top_ring_end_gap <= end_gap <= usual_share * block_bore:
        return verdict
    if verdict.kind == "pass" and end_gap > widest * top_ring_end_gap:
        verdict = at_most(Length(end_gap), note=Length(widest * top_ring_end_gap))
        return verdict.telling(relation="much wider than").saying(fix="It will run; a closer gap saves a little oil.")
    return verdict


RAIL = """
build: {duty: %s}
rings:
  oil: {end_gap: %s}  %s
"""


@rule(
    scope="ring",
    level="error",
    due="mock_up",
    says="The oil rails' gap is {value}; keep at least {limit}.",
    fix="File the rails to {goal}, or look whether they are for this bore.",
    source="0.015 in repeated in many charts; 0.010 in as a factory least, from memory",
    when={"ring_name": ("oil",)},
    points_at=("end_gap",),
    conforming=(RAIL % ("street", "0.015 in", ""), RAIL % ("stock", "0.012 in", "")),
    nonconforming=(RAIL % ("street", "0.009 in", "# <-"), RAIL % ("street", "0.012 in", "# <-")),
)
def oil_rail_gap_is_wide_enough(
    end_gap: Length, duty: Choice = None, *, error_below: Length = q("0.010 in"), warning_below: Length = q("0.015 in"),
):
    """A rail that butts scores the bore from end to end; a wide rail gap passes no more oil than a narrow one.

    Some factories allow 0.010 in in a stock engine, which is why that is where the error begins.
    """
    return at_least(end_gap, error=error_below, warning=None if duty == "stock" else warning_below)


HOT = """
build: {duty: %s, induction: natural}
block: {bore: 4.030 in, material: cast_iron}
rings:
  top: {end_gap: %s, maker_end_gap_factor: 0.0029, material: ductile_iron}  %s
"""


@rule(
    scope="ring",
    level="warning",
    due="mock_up",
    says="At running heat {value} of the top ring's gap is left (its ends meet at {butting_temperature}); the estimate asks for "
         "{limit}.",
    fix="Open the gap by {short:up}, or take load and heat out of the tune. Ring and bore temperatures are assumed: see the formula.",
    source="thermal expansion by the table of materials; temperatures common practice, no source",
    when={"ring_name": ("top",), "duty": ("street", "street_strip", "road_race", "oval_race", "drag_race", "marine", "towing")},
    points_at=("end_gap",),
    conforming=(HOT % ("street", "0.0162 in", ""), HOT % ("drag_race", "0.0222 in", "")),
    nonconforming=(HOT % ("street", "0.0120 in", "# <-"), HOT % ("street", "0.0135 in", "# <-")),
)
def ring_gap_stays_open_hot(
    end_gap_hot: Length, end_gap: Length, block_bore: Length, duty: Choice, induction: Choice = None, boost_pressure: Pressure = None,
    nitrous_power: Power = None, maker_end_gap_factor: Ratio = None, joint: Choice = None, *,
    warning_below: Length = q("0 mm"), note_below: Length = q("0.04 mm"),
):
    """Ring and bore both grow, the ring more; what counts is the gap that is left when both are hot.

    The temperatures are assumptions, chosen so that the charts' gaps come out just open; a factory gap in a stock
    engine would come out closed and lives, so stock engines are not asked. A gap below the cold figure is reported there.
    """
    if joint == "gapless":
        return not_applicable("gapless ring")
    if end_gap < _least_factor(duty, induction, boost_pressure, nitrous_power, maker_end_gap_factor)[0] * block_bore * (1 - 1e-9):
        return not_applicable("the cold gap is reported")
    verdict = at_least(Length(end_gap_hot), warning=warning_below, note=note_below)
    return verdict.telling(short=Length(note_below - end_gap_hot))


SET = """
build: {duty: street}
block: {bore: 4.030 in}
rings:
  top: {set: %s, end_gap: %s}  %s
"""


@rule(
    scope="ring",
    level="warning",
    due="ordering",
    says="A gap of {value} is planned, but a drop-in set comes with {limit} or more.",
    fix="Order the file-fit set for this bore, or plan the drop-in gap.",
    source="common practice, no source",
    when={"ring_name": ("top", "second"), "set": given},
    points_at=("end_gap", "set"),
    conforming=(SET % ("drop_in", "0.020 in", ""), SET % ("file_fit", "0.014 in", "")),
    nonconforming=SET % ("drop_in", "0.014 in", "# <-"),
)
def ring_gap_suits_set_type(
    set: Choice, end_gap: Length, block_bore: Length, duty: Choice = None, *, drop_in_least: Ratio = q("0.0038", "ratio"),
):
    """Rings that are cut to drop in can be filed wider, never tighter.

    Production gaps of a stock rebuild are smaller and come from the factory's own rings, so stock duty is left out.
    """
    if set != "drop_in":
        return not_applicable("a file-fit set")
    if duty == "stock":
        return not_applicable("a stock rebuild takes the factory's gap")
    return at_least(Length(end_gap), Length(drop_in_least * block_bore))


NOMINAL = """
block: {bore: 4.030 in}
rings:
  top: {nominal_bore: %s}  %s
"""


@rule(
    scope="ring",
    level="error",
    due="ordering",
    says="The rings are for a bore of {value}; the bore is {block_bore}.",
    fix="Order rings for the finished bore; a file-fit set is made a little larger, {file_fit_over}.",
    source="geometry; limits common practice, no source",
    when={"nominal_bore": given},
    points_at=("nominal_bore",),
    conforming=(NOMINAL % ("4.030 in", ""), NOMINAL % ("4.035 in", "")),
    nonconforming=(NOMINAL % ("4.000 in", "# <-"), NOMINAL % ("4.040 in", "# <-")),
)
def ring_set_matches_bore(
    nominal_bore: Length, block_bore: Length, *, smaller: Length = q("0.03 mm"), larger: Length = q("0.16 mm"), file_fit_over: Length = q("0.005 in"),
):
    """A ring for a smaller bore is a circle no more in the larger one: it leaves daylight beside its gap.

    Over-size rings can be filed down to size, but a whole step over they are too stiff and lie out of round.
    """
    return within(Length(nominal_bore), error=(Length(block_bore - smaller), None),
                  warning=(None, Length(block_bore + larger)))
