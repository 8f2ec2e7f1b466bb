"""The bores as honed: round and straight, with the plate on, and with a finish the rings want."""

from buildlint.rulebook import *

RACING = ("road_race", "oval_race", "drag_race")

ROUND = """
build: {duty: %s}
block: {bore_out_of_round: %s, bore_taper: %s, torque_plate: used}  %s
"""


@rule(
    scope="cylinder",
    level="error",
    due="machining",
    says="The bore is {value} {trouble}; {use} keep {limit}.",
    fix="Hone again with the plate, the final gasket and fasteners on, at one temperature; a worn bore goes to the next size.",
    source="common practice, no source; heads have been seen to distort bores by 0.0015 in",
    points_at=("block_bore_out_of_round", "block_bore_taper"),
    conforming=(ROUND % ("street", "0.0008 in", "0.0010 in", ""), ROUND % ("drag_race", "0.0003 in", "0.0002 in", "")),
    nonconforming=(ROUND % ("drag_race", "0.0006 in", "0.0002 in", "# <-"), ROUND % ("street", "0.0015 in", "0.0005 in", "# <-"),
                   ROUND % ("street", "0.0005 in", "0.0030 in", "# <-"), """
        build: {duty: street}
        block: {bore_out_of_round: 0.0006 in}  # <-
        rings:
          oil: {tension: 8 lbf}
        """),
)
def bore_is_round_and_straight(
    block_bore_out_of_round: Length = None, block_bore_taper: Length = None, duty: Choice = None, oil_ring_tension: Force = None, *,
    fine_warning: Length = q("0.0003 in"), fine_error: Length = q("0.0005 in"), warning_beyond: Length = q("0.001 in"),
    error_beyond: Length = q("0.002 in"), low_tension: Force = q("10 lbf"),
):
    """A ring follows a bore that is out of round only as far as its tension presses it there.

    Stock rings forgive a thousandth; race bores and low-tension rings are held to three tenths. Taper is worst where
    the bore is larger at the top, since the gap opens just where the fire is.
    """
    if block_bore_out_of_round is None and block_bore_taper is None:
        return lacking("block_bore_out_of_round", "block_bore_taper")
    thin = oil_ring_tension is not None and oil_ring_tension < low_tension
    fine = thin or duty in RACING
    candidates = [(block_bore_out_of_round, "out of round", "block_bore_out_of_round"),
                  (block_bore_taper, "tapered", "block_bore_taper")]
    value, trouble, word = max((row for row in candidates if row[0] is not None), key=lambda row: row[0])
    verdict = at_most(Length(value), warning=fine_warning if fine else warning_beyond, error=fine_error if fine else error_beyond)
    use = "low-tension rings" if thin else "race bores" if fine else "street bores"
    return verdict.telling(trouble=trouble, use=use).at(word)


PLATE = """
build: {duty: %s, induction: %s}
block: {torque_plate: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="machining",
    says="The bores are honed without a torque plate, and {reason} wants them round when the head is on.",
    fix="Hone with a plate that clamps as the head will: same gasket, fasteners and torque; on deep-skirt and aluminum blocks with the "
        "main caps torqued as well.",
    source="common practice, no source; heads have been seen to distort bores by 0.0015 in",
    points_at=("block_torque_plate",),
    conforming=(PLATE % ("street", "natural", "none", ""), PLATE % ("drag_race", "natural", "used", "")),
    nonconforming=(PLATE % ("drag_race", "natural", "none", "# <-"), PLATE % ("street", "turbocharged", "none", "# <-"), """
        block: {torque_plate: none}  # <-
        rings:
          oil: {tension: 8 lbf}
        """),
)
def bores_are_honed_with_plate(
    block_torque_plate: Choice, duty: Choice = None, induction: Choice = None, nitrous_power: Power = None,
    oil_ring_tension: Force = None, *, low_tension: Force = q("10 lbf"),
):
    """Head bolts pull the bores out of round; what is honed round without them is not round when they are tight.

    A street engine with stock rings lives without a plate. Boost, racing and low-tension rings do not.
    """
    reason = next((text for text, applies in (
        ("racing", duty in RACING), ("boost", induction in ("supercharged", "turbocharged")),
        ("nitrous", nitrous_power is not None and nitrous_power > 0),
        ("a low-tension oil ring", oil_ring_tension is not None and oil_ring_tension < low_tension)) if applies), None)
    if reason is None:
        return passes()
    return require(block_torque_plate != "none").telling(reason=reason)


# ring face: Ra of the bore; the race row for faces that are lapped in by the maker. Common practice, no source.
FINISH_ROWS = {
    "plain": {"least": q("20 uin"), "most": q("35 uin")}, "chrome": {"least": q("20 uin"), "most": q("35 uin")},
    "plasma_moly": {"least": q("14 uin"), "most": q("22 uin")}, "nitride": {"least": q("8 uin"), "most": q("14 uin")},
    "pvd": {"least": q("8 uin"), "most": q("14 uin")}, "moly_race": {"least": q("8 uin"), "most": q("18 uin")},
}
# ring face: last grit. 220 for iron and chrome, 280 for moly, 320 to 400 racing seen in several articles.
GRIT_ROWS = {
    "plain": {"coarsest": 150, "finest": 280}, "chrome": {"coarsest": 150, "finest": 280}, "plasma_moly": {"coarsest": 220, "finest": 400},
    "nitride": {"coarsest": 280, "finest": 800}, "pvd": {"coarsest": 280, "finest": 800}, "moly_race": {"coarsest": 280, "finest": 800},
}

FINISH = """
build: {duty: street}
block: {bore_finish: %s}  %s
rings:
  top: {face: %s}
"""


@rule(
    scope="cylinder",
    level="warning",
    due="machining",
    says="The bore's finish is {value}; {face} rings want another.",
    fix="Hone with the grit the ring maker names, and measure Ra.",
    source="common practice, no source; Ra as in ISO 21920-2 (from memory)",
    points_at=("block_bore_finish", "block_hone_grit"),
    conforming=(FINISH % ("18 uin", "", "plasma_moly"), FINISH % ("28 uin", "", "plain"), FINISH % ("12 uin", "", "nitride")),
    nonconforming=(FINISH % ("22 uin", "# <-", "nitride"), FINISH % ("45 uin", "# <-", "plasma_moly"), FINISH % ("10 uin", "# <-", "chrome"), """
        block: {hone_grit: 180}  # <-
        rings:
          top: {face: pvd}
        """),
)
def bore_finish_suits_rings(
    top_ring_face: Choice, block_bore_finish: Length = None, block_hone_grit: Count = None, duty: Choice = None, *,
    rows=FINISH_ROWS, grit_rows=GRIT_ROWS, warning_beyond: Fraction = q("0.25", "fraction"),
    smooth_beyond: Fraction = q("0.40", "fraction"),
):
    """A plain iron ring is lapped in by the bore, a hard one comes lapped and only loses its face on a rough wall.

    Too rough wears rings and burns oil, too smooth keeps chrome and iron from seating. Just outside the range is a
    note, a quarter above or two fifths below a warning.
    """
    row = "moly_race" if top_ring_face == "plasma_moly" and duty in RACING else top_ring_face
    face = top_ring_face.replace("_", " ")
    if block_bore_finish is not None:
        least, most = rows[row]["least"], rows[row]["most"]
        verdict = within(block_bore_finish, warning=(Length(least * (1 - smooth_beyond)), Length(most * (1 + warning_beyond))),
                         note=(least, most))
        grit = "with a finer stone and a plateau brush" if verdict.facts.get("side") == "above" \
            else "break the surface with a coarser stone, then plateau it"
        return verdict.telling(face=face, least=Length(least, block_bore_finish.unit),
                               most=Length(most, block_bore_finish.unit)).saying(
            "The bore's finish is Ra {value}; {face} rings want {least:up} to {most:down}.",
            f"Hone again: {grit}; the ring maker's sheet wins.").at("block_bore_finish")
    if block_hone_grit is None:
        return lacking("block_bore_finish")
    coarse, fine = grit_rows[row]["coarsest"], grit_rows[row]["finest"]
    verdict = within(Count(block_hone_grit), warning=(Count(coarse), None), note=(None, Count(fine)))
    return verdict.saying(f"The bores are finished with {{value}} grit; {face} rings want {coarse} to {fine}.",
                          "Finish with the grit the ring maker names, and measure Ra.").at("block_hone_grit")


PLATEAU = """
block: {bore_peak_height: %s, bore_core_depth: %s, bore_valley_depth: %s}  %s
"""


@rule(
    scope="cylinder",
    level="warning",
    due="machining",
    says="{what} of the bore is {value}; {low:up} to {high:down} is usual.",
    fix="Change grit, strokes or the plateau; the ring maker's window wins.",
    source="common practice, no source; one set of 10, 44 and 72 uin seen; parameters of ISO 21920-2 (from memory)",
    when={"block_bore_valley_depth": given},
    points_at=("block_bore_peak_height", "block_bore_core_depth", "block_bore_valley_depth"),
    conforming=(PLATEAU % ("10 uin", "44 uin", "72 uin", ""), PLATEAU % ("12 uin", "35 uin", "60 uin", "")),
    nonconforming=(PLATEAU % ("18 uin", "44 uin", "72 uin", "# <-"), PLATEAU % ("10 uin", "44 uin", "20 uin", "# <-"),
                   PLATEAU % ("10 uin", "60 uin", "72 uin", "# <-"), PLATEAU % ("10 uin", "44 uin", "110 uin", "# <-")),
)
def bore_finish_holds_oil(
    block_bore_valley_depth: Length, block_bore_peak_height: Length = None, block_bore_core_depth: Length = None, *,
    peak_note: Length = q("0.30 um"), peak_warning: Length = q("0.40 um"), core_least: Length = q("0.60 um"),
    core_most: Length = q("1.15 um"), valley_warning_below: Length = q("0.7 um"), valley_note_below: Length = q("1.0 um"),
    valley_note_above: Length = q("1.9 um"), valley_warning_above: Length = q("2.3 um"),
):
    """Peaks wear the rings in the first hour, valleys feed them oil for the rest of their life; Ra alone shows neither.

    Only one complete set of figures was found, so the windows are wide and nothing here is more than a warning.
    """
    verdicts, unit = [], block_bore_valley_depth.unit
    if block_bore_peak_height is not None:
        verdicts.append(at_most(block_bore_peak_height, warning=peak_warning, note=peak_note).telling(
            what="The peak height (Rpk)", low=Length(0.0, unit), high=Length(peak_note, unit),
            work="Give it more strokes with the plateau brush; peaks eat rings.").at("block_bore_peak_height"))
    verdicts.append(within(block_bore_valley_depth, warning=(valley_warning_below, valley_warning_above),
                           note=(valley_note_below, valley_note_above)).telling(
        what="The valley depth (Rvk)", low=Length(valley_note_below, unit), high=Length(valley_note_above, unit),
        work="Shallow valleys run dry, deep ones burn oil: change the grit before the plateau, not the plateau.").at("block_bore_valley_depth"))
    if block_bore_core_depth is not None:
        verdicts.append(within(block_bore_core_depth, note=(core_least, core_most)).telling(
            what="The core depth (Rk)", low=Length(core_least, unit), high=Length(core_most, unit),
            work="Change grit or strokes; the ring maker's window wins.").at("block_bore_core_depth"))
    worst = max(verdicts, key=lambda verdict: {None: 0, "note": 1, "warning": 2}[verdict.level])
    return worst.saying(fix=worst.facts["work"])


HATCH = """
block: {crosshatch_angle: %s}  %s
"""


@rule(
    scope="cylinder",
    level="warning",
    due="machining",
    says="The crosshatch stands at {value} from the horizontal; {note_below} to {note_above} is usual.",
    fix="Hone again with {change}. The angle counts from the horizontal, half of the angle between the scratches.",
    source="common practice, no source",
    when={"block_crosshatch_angle": given},
    points_at=("block_crosshatch_angle",),
    conforming=(HATCH % ("25 deg", ""), HATCH % ("35 deg", "")),
    nonconforming=(HATCH % ("12 deg", "# <-"), HATCH % ("50 deg", "# <-"), HATCH % ("40 deg", "# <-")),
)
def crosshatch_angle_is_usual(
    block_crosshatch_angle: Angle, *, note_below: Angle = q("20 deg"), note_above: Angle = q("35 deg"),
    warning_below: Angle = q("15 deg"), warning_above: Angle = q("45 deg"),
):
    """A steep hatch lets the oil run down, a flat one makes the rings chatter and turn slowly.

    Some give the angle between the scratches, which is twice this one; a 60-degree hatch is 30 here.
    """
    verdict = within(block_crosshatch_angle, warning=(warning_below, warning_above), note=(note_below, note_above))
    return verdict.telling(change="faster strokes or a slower spindle" if verdict.facts.get("side") == "below"
                           else "slower strokes or a faster spindle")


WARM = """
block: {bore: 4.030 in, bore_surface: %s, hone_temperature: %s}  %s
"""


@rule(
    scope="build",
    level="note",
    due="machining",
    says="The bores were honed and measured at {block_hone_temperature}; at {room} they are {value} {smaller}.",
    fix="Let the block stand overnight beside pistons and gauges, and measure at {room}; or allow for {value} in the clearance.",
    source="thermal expansion; 20 degC is the reference temperature of ISO 1",
    when={"block_hone_temperature": given},
    points_at=("block_hone_temperature",),
    conforming=(WARM % ("cast_iron", "68 degF", ""), WARM % ("cast_iron", "72 degF", ""), WARM % ("cast_iron", "15 degC", "")),
    nonconforming=(WARM % ("cast_iron", "110 degF", "# <-"), WARM % ("aluminum_silicon", "35 degC", "# <-")),
)
def bores_are_measured_at_room_temperature(
    block_bore_warm_growth: Length, block_hone_temperature: Temperature, *, room: Temperature = q("20 degC"), most: Length = q("0.0003 in"),
):
    """A block warm from the hone is larger than it will be on the stand: an iron bore of 4 in gains half a thousandth in 20 degrees.

    Pistons lie on the shelf at room temperature; the clearance that was measured is then not the one that was built.
    """
    verdict = at_most(Length(abs(block_bore_warm_growth)), most)
    return verdict.telling(room=Temperature(room, block_hone_temperature.unit), smaller="smaller" if block_bore_warm_growth > 0 else "larger")
