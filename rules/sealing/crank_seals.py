"""The seals of the crank: which way they face, how they are fitted, what they run on."""

from buildlint.rulebook import *
from buildlint.rulebook import Condition

LIP = """
sealing: {rear_main_seal: {kind: one_piece, lip_faces: %s}, front_seal: {kind: one_piece, lip_faces: %s}}  %s
"""


@rule(
    scope="build",
    level="error",
    due="assembly",
    says="The lip of the {which} seal faces outside.",
    fix="Turn it: the lip with the spring looks to the oil, the dust lip outward.",
    source="shaft seal practice (DIN 3760)",
    points_at=("rear_main_seal_lip_faces", "front_seal_lip_faces"),
    conforming=LIP % ("crankcase", "crankcase", ""),
    nonconforming=(LIP % ("outside", "crankcase", "# <-"), LIP % ("crankcase", "outside", "# <-")),
)
def crank_seal_lip_faces_oil(
    rear_main_seal_lip_faces: Choice = None, front_seal_lip_faces: Choice = None, crankcase_vacuum: Pressure = None, *,
    high_vacuum: Pressure = q("41 kPa"),
):
    """A lip that looks away from the oil is pushed off the shaft by the pressure it should hold.

    Engines with a strong crankcase pump are sealed against air instead, and some turn a seal round on purpose; there
    it is a note.
    """
    if rear_main_seal_lip_faces is None and front_seal_lip_faces is None:
        return not_applicable("no seal is described")
    which = [name for name, faces in (("rear main", rear_main_seal_lip_faces), ("front", front_seal_lip_faces)) if faces == "outside"]
    on_purpose = crankcase_vacuum is not None and crankcase_vacuum >= high_vacuum
    verdict = require(not which, "note" if on_purpose else None)
    if which:
        verdict.at("rear_main_seal_lip_faces" if which[0] == "rear main" else "front_seal_lip_faces")
    return verdict.telling(which=" and the ".join(which))


SHAFT = """
sealing: {rear_main_seal: {kind: one_piece, shaft_finish: %s, shaft_hardness: %s, shaft_groove: %s}}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="machining",
    says="{trouble}",
    fix="{remedy}",
    source="DIN 3760 practice: Ra 0.2 to 0.8 um, 45 HRC or more; groove common practice, no source",
    points_at=("rear_main_seal_shaft_finish", "rear_main_seal_shaft_hardness", "rear_main_seal_shaft_groove"),
    conforming=(SHAFT % ("15 uin", "50 HRC", "0 in", ""), SHAFT % ("0.8 um", "45 HRC", "0.001 in", "")),
    nonconforming=(SHAFT % ("1.2 um", "50 HRC", "0 in", "# <-"), SHAFT % ("3 uin", "50 HRC", "0 in", "# <-"), SHAFT % ("15 uin", "40 HRC", "0 in", "# <-"),
                   SHAFT % ("15 uin", "50 HRC", "0.003 in", "# <-")),
)
def seal_shaft_is_smooth_and_hard(
    rear_main_seal_shaft_finish: Length = None, rear_main_seal_shaft_hardness: Hardness = None, rear_main_seal_shaft_groove: Length = None,
    rear_main_seal_kind: Choice = None, rear_main_seal_sleeve: Choice = None, seal_surface_speed: Speed = None, *,
    smoothest: Length = q("7.5 uin"), roughest: Length = q("32 uin"), hardest_least: Hardness = q("45 HRC"), deepest_groove: Length = q("0.002 in"),
):
    """A rough shaft files the lip off, a polished one runs dry under it, a soft one lets dirt cut a groove.

    Rope seals want a knurl and are not judged. A sleeve takes the place of a worn shaft.
    """
    if rear_main_seal_kind == "rope":
        return not_applicable("a rope seal")
    speed = ""
    verdict = None
    if seal_surface_speed is not None:
        speed = " at {seal_surface_speed}"
    if rear_main_seal_shaft_finish is not None:
        verdict = within(rear_main_seal_shaft_finish, smoothest, roughest).at("rear_main_seal_shaft_finish")
        verdict.saying(f"The seal's lip runs on {{value}}{speed}; " + ("rougher than {limit} holds an oil film." if verdict.facts.get("side") == "below" else
                       "smoother than {limit} spares it."), "Have the journal finished between {smoothest} and {roughest}, without a lead.")
    if (verdict is None or verdict.kind == "pass") and rear_main_seal_shaft_hardness is not None and rear_main_seal_shaft_hardness.unit == "HRC":
        hard = at_least(rear_main_seal_shaft_hardness, hardest_least).at("rear_main_seal_shaft_hardness").saying(
            "The seal's lip runs on a shaft of {value}; {limit} or more keeps its track.", "Fit a hardened sleeve, or set the new seal to run beside the old track.")
        verdict = hard if hard.kind == "fail" or verdict is None else verdict
    if (verdict is None or verdict.kind == "pass") and rear_main_seal_shaft_groove is not None and rear_main_seal_sleeve != "fitted":
        groove = at_most(rear_main_seal_shaft_groove, deepest_groove).at("rear_main_seal_shaft_groove").saying(
            "The old lip has cut a groove of {value} into the shaft.", "Fit a sleeve, or press the seal deeper so that it runs beside the groove.")
        verdict = groove if groove.kind == "fail" or verdict is None else verdict
    return verdict or not_applicable("the shaft is not measured")


SLEEVE = """
crank: {rear_seal_diameter: 3.200 in}
sealing: {rear_main_seal: {kind: one_piece, sleeve: %s%s}}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="{trouble}",
    fix="Order the seal for the diameter it runs on: {diameter_to_have}, and see that its lip does not land on the sleeve's edge.",
    source="common practice, no source",
    points_at=("rear_main_seal_made_for_diameter", "rear_main_seal_sleeve"),
    conforming=(SLEEVE % ("none", ", made_for_diameter: 3.200 in", ""), SLEEVE % ("fitted", ", made_for_diameter: 3.220 in", "")),
    nonconforming=(SLEEVE % ("none", ", made_for_diameter: 3.240 in", "# <-"), SLEEVE % ("fitted", "", "# <-")),
)
def seal_fits_sleeve_diameter(
    rear_main_seal_sleeve: Choice = None, rear_main_seal_made_for_diameter: Length = None, crank_rear_seal_diameter: Length = None, *,
    within_size: Length = q("0.25 mm"), sleeve_adds: Length = q("0.5 mm"),
):
    """A repair sleeve makes the shaft half a millimeter thicker; the old seal is then too tight and cooks.

    Thin sleeves that keep the old seal exist; write the diameter the seal is made for and it is compared.
    """
    if crank_rear_seal_diameter is None or rear_main_seal_sleeve is None and rear_main_seal_made_for_diameter is None:
        return not_applicable("seal or shaft is not described")
    sleeve = rear_main_seal_sleeve == "fitted"
    runs_on = crank_rear_seal_diameter + (sleeve_adds if sleeve else 0.0)
    if rear_main_seal_made_for_diameter is None:
        if not sleeve:
            return not_applicable("no sleeve, and the seal's size is not written")
        return require(False).telling(trouble="A sleeve is fitted, and nothing is written of the diameter the seal is made for.", diameter_to_have=Length(runs_on))
    low, high = crank_rear_seal_diameter - within_size, runs_on + within_size
    verdict = within(rear_main_seal_made_for_diameter, Length(low), Length(high))
    return verdict.telling(diameter_to_have=Length(runs_on), runs_on=Length(runs_on)).saying("The seal is made for {value}, but runs on {runs_on}.")


FITTED = """
sealing: {%s: {kind: %s, material: %s, fitted: %s}}  %s
"""


@rule(
    scope="build",
    level="error",
    due="assembly",
    says="The {which} seal is of {material} and is to be fitted {fitted}.",
    fix="{remedy}",
    source="seal makers' instructions; common practice, no source",
    points_at=("rear_main_seal_fitted", "front_seal_fitted"),
    conforming=(FITTED % ("rear_main_seal", "ptfe_one_piece", "ptfe", "dry", ""), FITTED % ("front_seal", "one_piece", "nitrile", "oiled", "")),
    nonconforming=(FITTED % ("rear_main_seal", "ptfe_one_piece", "ptfe", "oiled", "# <-"), FITTED % ("front_seal", "one_piece", "nitrile", "dry", "# <-")),
)
def seal_lip_is_prepared(
    rear_main_seal_fitted: Choice = None, rear_main_seal_kind: Choice = None, rear_main_seal_material: Choice = None,
    front_seal_fitted: Choice = None, front_seal_kind: Choice = None, front_seal_material: Choice = None,
):
    """A rubber lip that starts dry burns in the first turns; a PTFE lip must lay itself onto a dry shaft and rest there.

    Rope seals are soaked in oil first.
    """
    asked = False
    for which, fitted, kind, material in (("rear main", rear_main_seal_fitted, rear_main_seal_kind, rear_main_seal_material),
                                          ("front", front_seal_fitted, front_seal_kind, front_seal_material)):
        if fitted is None or kind is None and material is None:
            continue
        asked = True
        ptfe = kind == "ptfe_one_piece" or material == "ptfe"
        if fitted != ("dry" if ptfe else "oiled"):
            remedy = ("Fit it dry on a dry shaft, over its sleeve, and let it rest for half an hour." if ptfe else
                      "Oil or grease the lip and the shaft before it goes on.")
            return require(False).at("rear_main_seal_fitted" if which == "rear main" else "front_seal_fitted").telling(
                which=which, material="PTFE" if ptfe else (material or "rubber"), fitted=fitted, remedy=remedy)
    return passes() if asked else not_applicable("no seal is described")


HELIX = """
engine: {rotation: %s}
sealing: {rear_main_seal: {kind: one_piece, rotation: %s}}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="The rear main seal's helix is made for an engine that turns {rear_main_seal_rotation}; this one turns {turns}.",
    fix="Order the seal for {turns} rotation, or a plain lip.",
    source="seal makers' instructions; common practice, no source",
    when={"rear_main_seal_rotation": given},
    points_at=("rear_main_seal_rotation",),
    conforming=(HELIX % ("clockwise", "clockwise", ""), "sealing: {rear_main_seal: {rotation: clockwise}}"),
    nonconforming=HELIX % ("counterclockwise", "clockwise", "# <-"),
)
def seal_helix_suits_rotation(rear_main_seal_rotation: Choice, rotation: Choice = None):
    """The ribs of a handed seal pump oil back inside; on a reverse-rotation engine they pump it out.

    An engine whose rotation is not written turns the normal way, clockwise seen from the front.
    """
    turns = rotation or "clockwise"
    return matches(rear_main_seal_rotation, turns).telling(turns=turns)


SPLIT = """
sealing: {rear_main_seal: {kind: two_piece, split_offset: %s}}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="assembly",
    says="The ends of the two-piece seal stand {value} off the cap's parting line; {limit} keeps seal, cap and corner sealant apart.",
    fix="Turn both halves {from_offset} to {to_offset} round, leave the ends proud for crush, with a tiny dab on each.",
    source="common practice, no source",
    when={"rear_main_seal_kind": Condition("is of two pieces", lambda kind: kind == "two_piece"), "rear_main_seal_split_offset": given},
    points_at=("rear_main_seal_split_offset",),
    conforming=SPLIT % ("3/8 in", ""),
    nonconforming=(SPLIT % ("0 in", "# <-"), SPLIT % ("1/8 in", "# <-")),
)
def split_seal_ends_are_offset(
    rear_main_seal_split_offset: Length, rear_main_seal_kind: Choice, *,
    least: Length = q("6 mm"), from_offset: Length = q("6 mm"), to_offset: Length = q("10 mm"),
):
    """Three joints at one place leak: seal ends, cap line and the cap's corner sealant want their own places on the clock."""
    return at_least(rear_main_seal_split_offset, least)


VACUUM = """
accessories: {crankcase_vacuum: %s}
sealing: {rear_main_seal: {kind: %s, material: fluorocarbon}}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="{crankcase_vacuum} of crankcase vacuum pulls on a {kind} rear seal that is made to hold oil in.",
    fix="Take a seal made for vacuum, or a PTFE one, or limit the vacuum to {limit}.",
    source="common practice, no source",
    when={"crankcase_vacuum": given, "rear_main_seal_kind": given},
    points_at=("rear_main_seal_kind", "crankcase_vacuum"),
    conforming=(VACUUM % ("2 inHg", "one_piece", ""), VACUUM % ("12 inHg", "ptfe_one_piece", "")),
    nonconforming=(VACUUM % ("14 inHg", "one_piece", "# <-"), VACUUM % ("8 inHg", "rope", "# <-")),
)
def seal_suits_crankcase_vacuum(
    crankcase_vacuum: Pressure, rear_main_seal_kind: Choice, rear_main_seal_lip_faces: Choice = None, *,
    most_for_lip: Pressure = q("12 inHg"), most_for_split: Pressure = q("5 inHg"),
):
    """Vacuum lifts a lip that faces the oil and draws dust in past it; split and rope seals let air through first."""
    if rear_main_seal_kind == "ptfe_one_piece" or rear_main_seal_lip_faces == "outside":
        return passes()
    limit = most_for_split if rear_main_seal_kind in ("rope", "two_piece") else most_for_lip
    return at_most(crankcase_vacuum, limit).telling(kind=rear_main_seal_kind)
