"""The seals of the crank: which way they face, how they are fitted, and what they suit."""

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
    which = [name for name, faces in (("rear main", rear_main_seal_lip_faces),
                                      ("front", front_seal_lip_faces)) if faces == "outside"]
    on_purpose = crankcase_vacuum is not None and crankcase_vacuum >= high_vacuum
    verdict = require(not which, "note" if on_purpose else None)
    if which:
        verdict.at("rear_main_seal_lip_faces" if which[0] == "rear main" else "front_seal_lip_faces")
    return verdict.telling(which=" and the ".join(which))


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
    conforming=(FITTED % ("rear_main_seal", "ptfe_one_piece", "ptfe", "dry", ""),
                FITTED % ("front_seal", "one_piece", "nitrile", "oiled", "")),
    nonconforming=(FITTED % ("rear_main_seal", "ptfe_one_piece", "ptfe", "oiled", "# <-"),
                   FITTED % ("front_seal", "one_piece", "nitrile", "dry", "# <-")),
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
    fix="Turn both halves {from_offset:up} to {to_offset:down} round, leave the ends proud for crush, with a tiny dab on each.",
    source="common practice, no source",
    when={"rear_main_seal_kind": Condition("is of two pieces", lambda kind: kind == "two_piece"),
          "rear_main_seal_split_offset": given},
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
