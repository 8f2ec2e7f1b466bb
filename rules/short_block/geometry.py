"""Displacement, deck, quench and piston speed: what bore, stroke, rod and piston add up to."""

from buildlint.rulebook import *
from buildlint.tables.piston_motion import SPEED_NOTE, SPEED_WARNING

SIZE = """
engine: {cylinders: 8, stated_displacement: %s}  %s
block: {bore: 4.030 in}
crank: {stroke: 3.750 in}
"""

OVERBORED = """
engine: {layout: v, cylinders: 8, stated_displacement: %s}  %s
block: {original_bore: 4.040 in, bore: 4.070 in}
crank: {stroke: 3.310 in}
"""


@rule(
    scope="build",
    level="error",
    due="planning",
    says="The displacement is stated as {stated_displacement}; bore, stroke and {cylinders} cylinders give {limit}.",
    fix="Correct the field that is mistyped{slip}; trust a measured bore and stroke over the name.",
    source="geometry; limits common practice, no source",
    points_at=("stated_displacement",),
    conforming=(SIZE % ("383 in^3", ""), SIZE % ("6.27 L", ""), OVERBORED % ("340 in^3", "")),
    nonconforming=(OVERBORED % ("360 in^3", "# <-"), SIZE % ("400 in^3", "# <-"), SIZE % ("390 in^3", "# <-"), SIZE % ("383 cc", "# <-")),
)
def displacement_matches_bore_and_stroke(
    stated_displacement: Volume, displacement: Volume, cylinders: Count, block_bore: Length = None, block_original_bore: Length = None, *,
    note_beyond: Fraction = q("0.007", "fraction"), warning_beyond: Fraction = q("0.025", "fraction"),
    error_beyond: Fraction = q("0.04", "fraction"),
    overbored_by: Length = q("0.080 in"),
):
    """The name on the sheet and the parts must describe one engine, or something of another engine gets ordered.

    Names round by up to two percent, so a small difference is only a note. An overbored engine keeps its name: where the
    name is what the bore gave before it was ever bored out, nothing is wrong. A difference of a known unit factor names the slip.
    """
    if displacement <= 0:
        return not_applicable("a size of nothing is asked about elsewhere")
    if None not in (block_bore, block_original_bore) and 0 < block_bore - block_original_bore <= overbored_by:
        if abs(stated_displacement / (displacement * (block_original_bore / block_bore) ** 2) - 1) <= note_beyond:
            return passes()
    share = stated_displacement / displacement
    verdict = at_most(Fraction(abs(share - 1)), error=error_beyond, warning=warning_beyond, note=note_beyond)
    slips = {"in^3 was meant, not cc": 1 / 16.387064, "cc was meant, not in^3": 16.387064}
    slip = next((f" ({text})" for text, factor in slips.items() if abs(share / factor - 1) < 0.03), "")
    verdict.comparing(Volume(stated_displacement), Volume(displacement))
    return verdict.telling(slip=slip)


DECK = """
block: {deck_height: 9.025 in}
crank: {stroke: 3.750 in}
rods: {length: 6.000 in}
pistons: {compression_height: 1.125 in, below_deck: %s}  %s
"""


@rule(
    scope="cylinder",
    level="error",
    due="ordering",
    says="The piston is written as {piston_below_deck_written} below the deck; deck height, throw, rod and compression "
         "height leave {piston_below_deck_computed}.",
    fix="Measure at top over the pin; correct the dimension that is off. A positive value is below the deck.",
    source="geometry; limits common practice, no source",
    when={"piston_below_deck_written": given},
    compares=("piston_below_deck",),
    points_at=("piston_below_deck_written",),
    conforming=(DECK % ("0.025 in", ""), DECK % ("0.026 in", "")),
    nonconforming=(DECK % ("0.005 in", "# <-"), DECK % ("0.014 in", "# <-"), DECK % ("-0.025 in", "# <-")),
)
def deck_clearance_matches_parts(
    piston_below_deck_written: Length, piston_below_deck_computed: Length, *,
    pass_within: Length = q("0.05 mm"), note_beyond: Length = q("0.13 mm"), warning_beyond: Length = q("0.25 mm"),
    error_beyond: Length = q("0.5 mm"),
):
    """Deck height, throw, rod and piston stack up to where the piston stands; a stack that does not close hides a wrong part.

    Planned deck and compression heights carry 0.05 mm each, so a tenth is no more than a note.
    """
    gap = piston_below_deck_written - piston_below_deck_computed
    return at_most(Length(abs(gap)), error=error_beyond, warning=warning_beyond, note=note_beyond)


QUENCH = """
heads: {quench_pad: fitted}
rods: {material: %s}
crank: {stroke: 3.750 in}
build: {rev_limit: 6200 rpm}
pistons: {below_deck: %s}
head_gasket: {compressed_thickness: 0.039 in}  %s
"""


@rule(
    scope="cylinder",
    level="error",
    due="ordering",
    says="Piston and head are {value} apart at top, cold; with {rod_material} rods keep {limit}{because}.",
    fix="Take a gasket thicker by {short:up}, or leave the piston that much deeper.",
    source="common practice, no source; contacts seen at 0.022 and 0.026 in; growth and stretch by the table of materials",
    when={"head_quench_pad": ("fitted",)},
    points_at=("head_gasket_compressed_thickness", "piston_below_deck"),
    conforming=(QUENCH % ("steel", "0.005 in", ""), QUENCH % ("aluminum", "0.020 in", "")),
    nonconforming=(QUENCH % ("steel", "-0.014 in", "# <-"), QUENCH % ("steel", "-0.006 in", "# <-"),
                   QUENCH % ("aluminum", "0.005 in", "# <-"), QUENCH % ("aluminum", "0.014 in", "# <-"), """
        heads: {quench_pad: fitted}
        rods: {material: steel, length: 6.200 in, small_end_mass: 200 g}
        crank: {stroke: 3.900 in}
        build: {rev_limit: 9800 rpm}
        block: {material: cast_iron, deck_height: 9.200 in, bore: 4.155 in}
        pistons:
          class: forged_2618
          compression_height: 1.050 in
          below_deck: 0.001 in
          mass: 470 g
          wall_clearance: 0.008 in
          skirt_length: 1.5 in
          pin: {mass: 150 g}
        head_gasket: {compressed_thickness: 0.036 in}  # <-
        """),
)
def piston_clears_the_head(
    quench_gap_smallest: Length, rod_material: Choice, crank_stroke: Length = None, rev_limit: Rpm = None,
    block_bore_largest: Length = None, quench_closing_largest: Length = None, *,
    error_below={"steel": q("0.71 mm"), "powder_steel": q("0.71 mm"), "cast_iron": q("0.71 mm"),
                 "titanium": q("0.81 mm"), "aluminum": q("1.14 mm")},
    warning_below={"steel": q("0.035 in"), "powder_steel": q("0.97 mm"), "cast_iron": q("0.97 mm"),
                   "titanium": q("0.97 mm"), "aluminum": q("0.050 in")},
    aluminum_note_below: Length = q("0.055 in"), fast_error_below: Length = q("0.81 mm"), fast_above: Rpm = q("6500 rpm"),
    long_stroke_above: Length = q("100 mm"), closing_error: Ratio = q("1.3", "ratio"), closing_warning: Ratio = q("1.8", "ratio"),
    large_bore: Length = q("4.25 in"), large_bore_more: Length = q("0.005 in"), faster_above: Rpm = q("7000 rpm"),
    more_for_each: Rpm = q("1000 rpm"), faster_more: Length = q("0.05 mm"),
):
    """At speed rods stretch, pistons rock and bearings give; a gap that looks safe on the stand closes.

    Steel rods are run at 0.035 in and more; contact has been seen at 0.022 and at 0.026 in, while 0.028 to
    0.030 in is run on purpose. Above 6500 rpm or a stroke of 100 mm the harder line counts; large bores and speeds
    above 7000 rpm are noted a little earlier. Aluminum rods grow and stretch more. Where masses and parts are written,
    growth, stretch, play and rock are added up, and the gap has to be 1.3 times as large (error) and 1.8 times
    (warning). Check with clay at mock-up all the same.
    """
    hard, soft = error_below[rod_material], warning_below[rod_material]
    if rod_material != "aluminum" and ((rev_limit or 0) > fast_above or (crank_stroke or 0) > long_stroke_above):
        hard = max(hard, fast_error_below)
    mild, because = aluminum_note_below if rod_material == "aluminum" else soft, ""
    if block_bore_largest is not None and block_bore_largest >= large_bore:
        mild, because = mild + large_bore_more, " in a bore this large"
    if rev_limit is not None and rev_limit > faster_above:
        mild, because = mild + faster_more * (rev_limit - faster_above) / more_for_each, because or " at this speed"
    wanted = max(soft, mild)
    if quench_closing_largest is not None and closing_warning * quench_closing_largest > soft:
        hard, soft = max(hard, closing_error * quench_closing_largest), closing_warning * quench_closing_largest
        wanted = max(wanted, soft)
    verdict = at_least(quench_gap_smallest, error=Length(hard), warning=Length(soft), note=Length(max(mild, soft)))
    if quench_closing_largest is not None and quench_gap_smallest < closing_warning * quench_closing_largest:
        verdict.telling(closing=Length(quench_closing_largest)).saying(
            "Piston and head are {value} apart at top, cold; growth, stretch, play and rock take {closing} of it, so keep {limit}.")
    return verdict.telling(short=Length(wanted - quench_gap_smallest), because=because)


WIDE = QUENCH.replace("head_gasket: {compressed_thickness: 0.039 in}", "head_gasket: {compressed_thickness: %s}")


@rule(
    scope="cylinder",
    level="note",
    due="ordering",
    says="The quench gap is up to {value}; above {limit} the pads no longer stir the charge.",
    fix="Take a gasket thinner by {to_take_out:up}, or have the decks cut by as much; the ratio rises with it.",
    source="common practice, no source",
    when={"head_quench_pad": ("fitted",)},
    points_at=("head_gasket_compressed_thickness", "piston_below_deck"),
    conforming=(WIDE % ("steel", "0.005 in", "0.041 in", ""), WIDE % ("aluminum", "0.015 in", "0.051 in", "")),
    nonconforming=WIDE % ("steel", "0.025 in", "0.039 in", "# <-"),
)
def quench_gap_is_close(
    quench_gap_largest: Length, rod_material: Choice = None, *, note_above: Length = q("0.060 in"),
    aluminum_note_above: Length = q("1.90 mm"), pointless_above: Length = q("2.54 mm"),
):
    """A close gap squeezes the end gas into the chamber and cools it; a wide one keeps knock's last corner.

    Never harm by itself: factory stacks sit at 0.060 to 0.065 in. Aluminum rods need more to begin with. Above 0.100 in
    there is no quench to speak of and nothing to say.
    """
    if quench_gap_largest > pointless_above:
        return not_applicable("too wide to be a quench gap")
    limit = aluminum_note_above if rod_material == "aluminum" else note_above
    return at_most(quench_gap_largest, limit).telling(to_take_out=Length(quench_gap_largest - limit))


SPEED = """
build: {rev_limit: %s}  %s
crank: {stroke: 3.750 in}
pistons: {class: %s}
rods: {class: forged_i_beam}
"""


@rule(
    scope="build",
    level="warning",
    due="planning",
    says="Mean piston speed at the limiter is {value}; {weakest} parts are run to {limit}.",
    fix="Lower the rev limit to {speed_to_limit_to:down}, or step up the {weakest} parts.",
    source="definition: Heywood, Internal Combustion Engine Fundamentals, ch. 2; bands common practice, no source",
    points_at=("rev_limit",),
    conforming=SPEED % ("6200 rpm", "", "forged_4032"),
    nonconforming=(SPEED % ("6500 rpm", "# <-", "hypereutectic"), SPEED % ("7000 rpm", "# <-", "hypereutectic")),
)
def piston_speed_suits_parts(
    piston_speed_mean: Speed, piston_class: Choice, crank_stroke: Length, rod_class: Choice = None, *,
    note_above=SPEED_NOTE, warning_above=SPEED_WARNING,
):
    """Load on rod and piston grows with the square of piston speed; each class of part has a band it lives in.

    A note stands where careful builders begin to think, a warning where parts get old fast. The weaker of piston and rod
    counts. Short-lived drag engines run at 27 m/s, which is why no speed is an error.
    """
    classes = [name for name in (piston_class, rod_class) if name in warning_above]
    if not classes or crank_stroke <= 0:
        return not_applicable()
    weakest = min(classes, key=lambda name: warning_above[name])
    verdict = at_most(Speed(piston_speed_mean), warning=Speed(warning_above[weakest]), note=Speed(note_above[weakest]))
    wanted = verdict.goal if verdict.kind == "fail" else warning_above[weakest]
    return verdict.telling(weakest=weakest.replace("_", " "), speed_to_limit_to=Rpm(wanted * 3.141592653589793 / crank_stroke))
