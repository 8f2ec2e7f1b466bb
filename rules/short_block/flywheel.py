"""The back of the crank: flywheel, ring gear, pilot, bellhousing and converter."""

from buildlint.rulebook import *

RATED = """
build: {rev_limit: %s, sanction: %s}
flywheel: {kind: flywheel, material: %s, certified: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="{reason} with an uncertified {wheel}.",
    fix="Fit one tested to {standard}, with a rated shield round it where the rule book asks for it.",
    source="SFI 1.1, 1.2 and 29.1 (from memory); the trigger speed common practice, no source",
    caution="A flywheel or flexplate that bursts goes through the floor: nobody in its plane when the engine is revved.",
    points_at=("flywheel_certified", "flywheel_material"),
    conforming=(RATED % ("7500 rpm", "none", "steel", "sfi_1_1", ""), RATED % ("6000 rpm", "none", "cast_iron", "none", "")),
    nonconforming=(RATED % ("6800 rpm", "none", "cast_iron", "none", "# <-"), RATED % ("6000 rpm", "club drag racing rules", "steel", "none", "# <-")),
)
def flywheel_rating_suits_use(
    flywheel_kind: Choice, rev_limit: Rpm, flywheel_certified: Choice = None, flywheel_material: Choice = None, sanction: Text = None, *,
    cast_warning_above: Rpm = q("6500 rpm"), other_note_above: Rpm = q("7500 rpm"),
):
    """A cast wheel bursts without warning when it is overspeeded or hot from the clutch.

    Below 6500 rpm production wheels have their record; under a rule book the certificate is asked for at any speed.
    Where neither asks, nobody needs to write which paper the wheel has.
    """
    ruled = sanction is not None and sanction.strip().lower() not in ("", "none", "no")
    if flywheel_certified is None:
        asked = ruled or rev_limit > (other_note_above if flywheel_material not in (None, "cast_iron") else cast_warning_above)
        return lacking("flywheel_certified") if asked else not_applicable("no certificate is asked for")
    wheel = "flexplate" if flywheel_kind == "flexplate" else "flywheel"
    if flywheel_certified in ("sfi_1_1", "sfi_1_2", "sfi_29_1"):
        return passes()
    standard = "SFI 29.1" if wheel == "flexplate" else "SFI 1.1 or 1.2"
    if ruled:
        return require(False).telling(reason="An engine under a rule book runs", wheel=wheel, standard=standard)
    if flywheel_material == "cast_iron":
        verdict = at_most(rev_limit, warning=cast_warning_above)
    else:
        verdict = at_most(rev_limit, note=other_note_above)
    return verdict.telling(wheel=wheel, standard=standard).at("flywheel_certified").saying(
        "At {value} the engine runs an uncertified {wheel}; above {limit} a certified one is usual.")


RUNOUT = """
flywheel: {runout: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="assembly",
    says="The {flywheel_kind} runs out by {value}; keep {limit}.",
    fix="Clean flange and register, look for burrs, push the crank one way while reading; then have the wheel faced, or shimmed at the flange.",
    source="0.003 in seen",
    when={"flywheel_runout": given},
    points_at=("flywheel_runout",),
    conforming=RUNOUT % ("0.002 in", ""),
    nonconforming=RUNOUT % ("0.005 in", "# <-"),
)
def flywheel_runs_true(flywheel_runout: Length, flywheel_kind: Choice = None, *, most: Length = q("0.003 in")):
    """A wheel that wobbles makes the clutch chatter and shakes the rear main; a flexplate may do three times as much."""
    limit = 3 * most if flywheel_kind == "flexplate" else most
    return at_most(flywheel_runout, Length(limit)).saying(
        f"The {'flexplate' if flywheel_kind == 'flexplate' else 'flywheel'} runs out by {{value}}; keep {{limit}}.")


TEETH = """
flywheel: {ring_gear_teeth: %s, starter_for_teeth: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="The ring gear has {value} teeth, the starter is for {limit}.",
    fix="Order starter and ring gear for one tooth count; the two sizes need different starters and often another nose.",
    source="geometry",
    points_at=("flywheel_ring_gear_teeth", "flywheel_starter_for_teeth"),
    conforming=TEETH % ("168", "168", ""),
    nonconforming=TEETH % ("153", "168", "# <-"),
)
def ring_gear_matches_starter(flywheel_ring_gear_teeth: Count, flywheel_starter_for_teeth: Count):
    """A pinion on the wrong circle meets the gear's tips or does not reach it; either way both are milled in a week."""
    return matches(Count(flywheel_ring_gear_teeth), Count(flywheel_starter_for_teeth))


FLANGE = """
crank: {flange_bolts: 6, flange_bolt_circle: 3.580 in, flange_register_diameter: 2.500 in}
flywheel: {bolts: %s, bolt_circle: %s, register_bore: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="The wheel does not fit the crank's flange.",
    fix="Order the wheel for this crank's flange: one- and two-piece rear seals have different circles.",
    source="geometry; play of the register common practice, no source",
    points_at=("flywheel_bolt_circle", "crank_flange_bolt_circle"),
    conforming=(FLANGE % ("6", "3.580 in", "2.501 in", ""), """
        crank: {flange_bolt_circle: 3.580 in, flange_dowels: 1}
        flywheel: {bolt_circle: 3.580 in, dowel_holes: 2}
        """),
    nonconforming=("""
        crank: {flange_bolts: 6}
        flywheel: {bolts: 8}  # <-
        """, FLANGE % ("6", "3.000 in", "2.501 in", "# <-"), FLANGE % ("8", "3.580 in", "2.501 in", "# <-"),
                   FLANGE % ("6", "3.580 in", "2.510 in", "# <-"), FLANGE % ("6", "3.580 in", "2.498 in", "# <-"), """
        crank: {flange_bolt_circle: 3.580 in, flange_thread: 7/16-20}
        flywheel: {bolt_circle: 3.580 in}
        joints:
          flywheel: {thread: M11x1.5}  # <-
        """, """
        crank: {flange_bolt_circle: 3.580 in, pilot_bore: 1.703 in}
        flywheel: {kind: flexplate, bolt_circle: 3.580 in}
        driveline:
          converter: {hub_diameter: 1.375 in}  # <-
        """, """
        crank: {flange_bolt_circle: 3.580 in, flange_dowels: 2}
        flywheel: {bolt_circle: 3.580 in, dowel_holes: 1}  # <-
        """),
)
def crank_flange_matches_flywheel(
    crank_flange_bolt_circle: Length = None, flywheel_bolt_circle: Length = None, crank_flange_bolts: Count = None, flywheel_bolts: Count = None,
    crank_flange_thread: Thread = None, flywheel_joint_thread: Thread = None, flexplate_joint_thread: Thread = None,
    crank_flange_register_diameter: Length = None, flywheel_register_bore: Length = None, crank_pilot_bore: Length = None,
    converter_hub_diameter: Length = None, crank_flange_dowels: Count = None, flywheel_dowel_holes: Count = None, *,
    circle_within: Length = q("0.005 in"), loosest: Length = q("0.08 mm"),
):
    """A wheel on another circle does not go on; one on a loose register goes on and runs out of true and balance.

    The converter's hub sits in the crank the same way. A dowel of the flange that finds no hole holds the wheel off its
    face; a hole without a dowel does no harm.
    """
    def wrong(sentence, word):
        return require(False).saying(sentence).at(word)

    if None not in (crank_flange_bolt_circle, flywheel_bolt_circle) and abs(crank_flange_bolt_circle - flywheel_bolt_circle) > circle_within:
        return wrong("The wheel's bolt circle of {flywheel_bolt_circle} is not the crank's {crank_flange_bolt_circle}.", "flywheel_bolt_circle")
    if crank_flange_bolts is not None and flywheel_bolts is not None and crank_flange_bolts != flywheel_bolts:
        return wrong(f"The wheel takes {int(flywheel_bolts)} bolts, the crank's flange has {int(crank_flange_bolts)} holes.", "flywheel_bolts")
    if crank_flange_bolt_circle is None:
        return not_applicable("the crank's bolt circle is not written")
    if flywheel_bolt_circle is None:
        return lacking("flywheel_bolt_circle")
    if crank_flange_dowels is not None and flywheel_dowel_holes is not None and flywheel_dowel_holes < crank_flange_dowels:
        return wrong(f"The crank's flange has {int(crank_flange_dowels)} dowels, the wheel {int(flywheel_dowel_holes)} holes for them: it does not "
                     "seat.", "flywheel_dowel_holes").saying(
            fix="Have the wheel drilled to the crank's dowels and balanced again, or order one that has the holes; do not drive the dowels in.")
    for word, thread in (("flywheel_joint_thread", flywheel_joint_thread), ("flexplate_joint_thread", flexplate_joint_thread)):
        if crank_flange_thread is not None and thread is not None and (
                abs(thread.diameter - crank_flange_thread.diameter) > 1e-5 or abs(thread.pitch - crank_flange_thread.pitch) > 1e-6):
            return wrong(f"The bolts' thread is {{{word}}}, that of the crank's flange {{crank_flange_thread}}.", word)
    for name, bore, shaft, word in (
            ("wheel's register", flywheel_register_bore, crank_flange_register_diameter, "flywheel_register_bore"),
            ("converter's hub in the crank", crank_pilot_bore, converter_hub_diameter, "converter_hub_diameter")):
        if bore is None or shaft is None:
            continue
        play = bore - shaft
        if play < 0:
            return require(False).telling(over=Length(-play)).at(word).saying(f"The {name} is {{over}} too tight.")
        if play > loosest:
            verdict = at_most(Length(play), warning=loosest).at(word)
            if play > 10 * loosest:
                verdict.level = "error"
            return verdict.saying(f"The {name} has {{value}} of play; {{limit}} is the most that centers.")
    return passes()


PILOT = """
build: {transmission: %s}
driveline:
  pilot: {kind: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="A manual gearbox is to be fitted without a pilot bearing.",
    fix="Order the pilot for this crank and input shaft: bronze bush or roller.",
    source="common practice, no source",
    when={"transmission": ("manual",)},
    points_at=("pilot_kind",),
    conforming=(PILOT % ("manual", "bronze_bush", ""), "build: {transmission: automatic}"),
    nonconforming=PILOT % ("manual", "none", "# <-"),
)
def pilot_bearing_is_fitted(pilot_kind: Choice):
    """The front of the input shaft has no other bearing: without the pilot it whips, and the gearbox's front bearing goes with it."""
    return require(pilot_kind != "none")


PILOT_FIT = """
build: {transmission: manual}
driveline:
  pilot: {kind: bronze_bush, interference: %s, clearance: %s}  %s
"""
PILOT_SIZE = """
build: {transmission: manual}
crank: {pilot_bore: 1.0930 in}
driveline:
  pilot: {kind: bronze_bush, outside_diameter: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="assembly",
    says="The pilot {which} by {value}; {least:up} to {most:down} is usual.",
    fix="Ream the bush in place to the shaft, or fit the right bush.",
    source="common practice, no source",
    when={"transmission": ("manual",), "pilot_interference": given},
    points_at=("pilot_interference_written", "pilot_outside_diameter"),
    conforming=(PILOT_FIT % ("0.001 in", "0.002 in", ""), PILOT_SIZE % ("1.0942 in", "")),
    nonconforming=(PILOT_SIZE % ("0.5910 in", "# <-"), PILOT_SIZE % ("1.2500 in", "# <-"), PILOT_FIT % ("0.003 in", "0.002 in", "# <-"), PILOT_FIT % ("0.001 in", "0.0005 in", "# <-")),
)
def pilot_bearing_fits(
    pilot_interference: Length, pilot_clearance: Length = None, pilot_kind: Choice = None, *,
    press={"least": q("0.0005 in"), "most": q("0.002 in")}, play={"least": q("0.001 in"), "most": q("0.003 in")},
    another_size_beyond: Length = q("0.010 in"),
):
    """Pressed too hard, a bush closes on the shaft and drags the gears; too loose, it falls out or lets the shaft whip.

    Pressing takes up some of the bore: the play is measured after the bush is in. Cranks are bored for one pilot or
    another, and some of automatics for none: a size that is off altogether is the pilot of another crank.
    """
    if abs(pilot_interference) > another_size_beyond:
        return require(False).telling(apart=Length(abs(pilot_interference))).at("pilot_interference").saying(
            "The pilot is {apart} " + ("larger" if pilot_interference > 0 else "smaller") + " than its bore in the crank: it belongs to another.",
            "Order the pilot for this crank's bore and this input shaft; a crank that was not bored for a pilot has to be.")
    if pilot_interference < 0:
        return at_least(pilot_interference, warning=press["least"]).telling(loose=Length(-pilot_interference)).at("pilot_interference").saying(
            "The pilot is {loose} loose in the crank.", "Fit a pilot of the right size; do not knurl or glue it.")
    verdict = within(pilot_interference, warning=(press["least"], press["most"])).telling(
        which="is pressed into the crank", least=Length(press["least"]), most=Length(press["most"]),
        ).at("pilot_interference").saying(fix="Look for a pilot of another bore, or a worn pilot bore in the crank.")
    if verdict.kind == "pass" and pilot_clearance is not None and pilot_kind != "roller":
        verdict = within(pilot_clearance, warning=(play["least"], play["most"])).telling(
            which="clears the input shaft", least=Length(play["least"]), most=Length(play["most"]),
            ).at("pilot_clearance")
    return verdict


BELL = """
build: {transmission: manual}
driveline:
  bellhousing: {bore_runout: %s, face_runout: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="assembly",
    says="The bellhousing's {which} runs out by {value}, full reading; keep {limit}.",
    fix="Fit offset dowels of {offset} and set them by indicator with the bolts torqued.",
    source="0.005 in bore and 0.010 in face common practice; 0.015 in seen as a factory limit",
    when={"transmission": ("manual",), "bellhousing_bore_runout": given},
    points_at=("bellhousing_bore_runout",),
    conforming=(BELL % ("0.004 in", "0.006 in", ""), BELL % ("0.005 in", "0.010 in", "")),
    nonconforming=(BELL % ("0.007 in", "0.006 in", "# <-"), BELL % ("0.009 in", "0.006 in", "# <-"), BELL % ("0.004 in", "0.014 in", "# <-")),
)
def bellhousing_is_centered(
    bellhousing_bore_runout: Length, bellhousing_face_runout: Length = None, *, bore_warning: Length = q("0.005 in"),
    bore_error: Length = q("0.008 in"), face_warning: Length = q("0.010 in"),
):
    """A gearbox that stands off the crank's center eats its pilot, its front bearing and the clutch's splines.

    Half of the reading is the offset. Factory limits of 0.015 in have been seen; gearboxes that are shifted hard do not
    like them.
    """
    verdict = at_most(bellhousing_bore_runout, warning=bore_warning, error=bore_error).telling(
        which="bore", offset=Length(bellhousing_bore_runout / 2)).at("bellhousing_bore_runout")
    if verdict.kind == "pass" and bellhousing_face_runout is not None:
        verdict = at_most(bellhousing_face_runout, warning=face_warning).telling(which="face").at("bellhousing_face_runout").saying(
            fix="Look for burrs and paint between block and bellhousing, then have the face cut or shimmed.")
    return verdict


@rule(
    scope="build",
    level="reminder",
    due="assembly",
    says="The converter is home in the pump (it drops in steps), its hub reaches into the crank, and the pull-forward to the flexplate is measured.",
    fix="Push and turn until the last step is felt, measure from the bellhousing's face, bolt up, and measure the pull-forward.",
    source="common practice, no source",
    caution="A filled converter is heavy and slides out: keep the gearbox level and the converter tied in until it is bolted.",
    when={"transmission": ("automatic",)},
    points_at=("converter_pull_forward", "transmission"),
    conforming="build: {transmission: automatic}",
)
def converter_engages_the_pump(transmission: Choice):
    """A converter that is not home breaks the pump the moment the bellhousing is drawn up with its bolts."""
    return review()
