"""The two faces of the head joint: as smooth as the gasket wants, and flat."""

from buildlint.rulebook import *

FINISH = """
block: {deck_finish: %s}  %s
heads: {material: %s, face_finish: %s}
head_gasket: {kind: %s, coating: %s}
joints: {head: {kind: stud}}
"""


@rule(
    scope="joint",
    level="error",
    due="machining",
    says="The {face} is finished to {value}; a {gasket} gasket wants {limit}{or_what}.",
    fix="Resurface the {face} for this gasket, or take a gasket that suits the finish.",
    source="gasket makers' statements quoted in the trade press; lines common practice, no source",
    when={"joint_name": ("head",)},
    points_at=("block_deck_finish", "head_face_finish", "head_gasket_kind"),
    conforming=(FINISH % ("30 uin", "", "aluminum_356_t6", "25 uin", "multilayer_steel", "none"),
                FINISH % ("70 uin", "", "cast_iron", "63 uin", "composite", "none")),
    nonconforming=(FINISH % ("63 uin", "# <-", "cast_iron", "30 uin", "multilayer_steel", "none"),
                   FINISH % ("55 uin", "# <-", "cast_iron", "30 uin", "multilayer_steel", "thin"),
                   FINISH % ("15 uin", "# <-", "cast_iron", "63 uin", "composite", "none"), """
        build: {stage: machining}
        block: {deck_height: 9.025 in}
        head_gasket: {kind: multilayer_steel}  # <-
        joints: {head: {kind: stud}}
        """),
)
def deck_finish_suits_gasket(
    joint_name: Choice, joint_leads: YesNo = True, head_gasket_kind: Choice = None, head_gasket_coating: Choice = None,
    block_deck_finish: Length = None, head_face_finish: Length = None, block_deck_waviness_height: Length = None,
    head_face_waviness_height: Length = None, head_material: Choice = None, *,
    steel_note: Length = q("30 uin"), steel_warning: Length = q("50 uin"), steel_error: Length = q("60 uin"),
    thick_coat_warning: Length = q("60 uin"), thick_coat_error: Length = q("72 uin"), soft_most: Length = q("100 uin"),
    soft_least: Length = q("20 uin"),
    copper_most: Length = q("50 uin"), waviness_note: Length = q("6 um"),
):
    """Steel layers seal on a mirror, soft gaskets need teeth to hold them: a deck cut for one is wrong for the other.

    Bare multilayer wants 30 microinches; coated sheets live with 50, some with 60. Composite holds from 20 to 100.
    With multilayer steel the finish must be known from machining on.
    """
    if not joint_leads or head_gasket_kind is None:
        return not_applicable("asked at the head joint, with the gasket known")
    faces = [(block_deck_finish, "deck of the block", "block_deck_finish"),
             (head_face_finish, "face of the head", "head_face_finish")]
    missing = [word for finish, _, word in faces if finish is None]
    if missing and head_gasket_kind == "multilayer_steel":
        return wanting(*missing).within_level("warning").at("block_deck_finish", "head_face_finish", "head_gasket_kind").saying(
            "Nothing is written of the finish of " + ("either face" if len(missing) == 2
                                                      else "one face") + " under a multilayer gasket.",
            "Measure both faces with a profilometer and write deck_finish and face_finish.")
    worst = None
    for finish, face, word in faces:
        if finish is None:
            continue
        verdict = _judge(finish, head_gasket_kind, head_gasket_coating, steel_note, steel_warning, steel_error, thick_coat_warning,
                         thick_coat_error, soft_least, soft_most, copper_most)
        verdict.at(word).telling(face=face, gasket=head_gasket_kind.replace("_", " "),
                                 or_what=" or rougher" if verdict.facts.get("side") == "below" else " or smoother")
        if worst is None or _rank(verdict) > _rank(worst):
            worst = verdict
    for height, face, word in ((block_deck_waviness_height, "deck of the block", "block_deck_waviness_height"),
                               (head_face_waviness_height, "face of the head", "head_face_waviness_height")):
        if height is not None and (worst is None or worst.kind == "pass") and head_gasket_kind == "multilayer_steel":
            verdict = at_most(height, note=waviness_note).at(word).telling(face=face, gasket="multilayer steel",
                or_what=" from peak to valley")
            worst = verdict if verdict.kind == "fail" else worst
    return worst or not_applicable("no finish is written")


def _judge(finish, kind, coating, steel_note, steel_warning, steel_error, thick_warning, thick_error, soft_least, soft_most,
           copper_most):
    if kind in ("multilayer_steel", "steel_shim"):
        if coating == "thick":
            return at_most(finish, error=thick_error, warning=thick_warning)
        return at_most(finish, error=steel_error, warning=steel_warning, note=steel_note)
    if kind == "copper":
        return at_most(finish, warning=copper_most)
    return within(finish, warning=(soft_least, soft_most))


def _rank(verdict):
    return ("note", "warning", "error").index(verdict.level or "error") + 1 if verdict.kind == "fail" else 0


FLAT = """
build: {induction: %s}
block: {deck_flatness: %s%s}  %s
joints: {head: {kind: stud}}
"""


@rule(
    scope="joint",
    level="error",
    due="machining",
    says="The {face} is out of flat by {value} {over}; {limit} is the line{halved}.",
    fix="Resurface it, and look at the intake face again if it was the head.",
    source="factory manuals: 0.05 mm new, 0.10 mm overall, 0.05 mm within 152 mm; halved under boost: trade press",
    when={"joint_name": ("head",)},
    points_at=("block_deck_flatness", "head_face_flatness", "block_deck_flatness_local", "head_face_flatness_local"),
    conforming=(FLAT % ("natural", "0.03 mm", "", ""), FLAT % ("natural", "0.002 in", ", deck_flatness_local: 0.02 mm", "")),
    nonconforming=(FLAT % ("natural", "0.08 mm", "", "# <-"), FLAT % ("turbocharged", "0.08 mm", "", "# <-"),
                   FLAT % ("natural", "0.03 mm", ", deck_flatness_local: 0.06 mm", "# <-")),
)
def decks_are_flat(
    joint_name: Choice, joint_leads: YesNo = True, block_deck_flatness: Length = None, head_face_flatness: Length = None,
    block_deck_flatness_local: Length = None, head_face_flatness_local: Length = None, induction: Choice = None,
    nitrous_power: Power = None, *,
    error_overall: Length = q("0.004 in"), warning_overall: Length = q("0.002 in"), error_local: Length = q("0.002 in"),
    warning_local: Length = q("0.001 in"), boosted_share: Fraction = q("0.5", "fraction"),
):
    """A gasket follows a warp only as far as its beads are high; the low spot is where it blows.

    With boost or nitrous the lines are halved, as one says for twice the power.
    """
    if not joint_leads:
        return not_applicable("asked at the head joint")
    share = boosted_share if induction in ("supercharged", "turbocharged") or nitrous_power else 1.0
    worst = None
    for out, face, over, word, error, warning in (
        (block_deck_flatness, "deck of the block", "over its whole length", "block_deck_flatness", error_overall, warning_overall),
        (head_face_flatness, "face of the head", "over its whole length", "head_face_flatness", error_overall, warning_overall),
        (block_deck_flatness_local, "deck of the block", "within 6 in", "block_deck_flatness_local", error_local, warning_local),
        (head_face_flatness_local, "face of the head", "within 6 in", "head_face_flatness_local", error_local, warning_local),
    ):
        if out is None:
            continue
        verdict = at_most(out, error=Length(share * error), warning=Length(share * warning)).at(word).telling(
            face=face, over=over, halved=" with boost or nitrous" if share < 1 else "")
        if worst is None or _rank(verdict) > _rank(worst):
            worst = verdict
    return worst or not_applicable("flatness is not measured")
