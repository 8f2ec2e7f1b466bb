"""Washers: hard enough, under every face that turns on aluminum, and the right way round."""

from buildlint.rulebook import *
from buildlint.tables.fasteners import CRITICAL_JOINTS

ON_ALUMINUM = """
joints:
  head:
    washer: {kind: %s}  # <-
    clamped: {material: aluminum_356_t6}
"""


@rule(
    scope="joint",
    level="error",
    due="ordering",
    says="The fastener turns on aluminum with {washer_text}.",
    fix="Put a hardened washer under every head or nut that turns on aluminum, and add them to the order.",
    source="practice behind ISO 898-3 and ASTM F436 washers, from memory",
    points_at=("washer_kind", "clamped_material"),
    conforming=(ON_ALUMINUM % "hardened_textured").replace("  # <-", ""),
    nonconforming=(ON_ALUMINUM % "none", ON_ALUMINUM % "plain_flat"),
)
def aluminum_has_hard_washers(clamped_material: Choice, washer_kind: Choice, joint_name: Choice = None):
    """A steel face that turns on aluminum galls it: the torque goes into the head instead of the bolt, and the clamp sinks in.

    A wide flange on the bolt may do where its bearing pressure is proven; it counts as a warning until that is.
    """
    if not clamped_material.startswith("aluminum"):
        return not_applicable("does not turn on aluminum")
    if joint_name not in CRITICAL_JOINTS:
        return not_applicable("not a critical joint")
    verdict = one_of(washer_kind, ("hardened_flat", "hardened_textured"), "warning" if washer_kind == "integral_flange" else None)
    return verdict.telling(washer_text="no washer" if washer_kind == "none" else f"a {washer_kind.replace('_', ' ')} washer")


HARD = """
joints:
  head:
    strength_class: %s
    washer: {kind: hardened_flat, hardness: %s}  %s
"""


@rule(
    scope="joint",
    level="error",
    due="ordering",
    says="Washers of {washer_hardness} are soft for {strength_class} fasteners; take {limit} or harder.",
    fix="Order washers of at least {limit}.",
    source="ISO 898-3 pairing, partly from memory; rows for stud steels common practice, no source",
    points_at=("washer_hardness",),
    conforming=(HARD % ("190_ksi", "400 HV", ""), HARD % ("iso_10_9", "38 HRC", ""), HARD % ("iso_8_8", "200 HV", "")),
    nonconforming=(HARD % ("190_ksi", "200 HV", "# <-"), HARD % ("iso_10_9", "200 HV", "# <-"), HARD % ("iso_8_8", "140 HV", "# <-")),
)
def washer_hardness_suits_fastener(
    washer_hardness: Hardness, strength_class: Choice, *,
    least_vickers={"iso_8_8": 200, "sae_grade_5": 200, "iso_9_8": 300, "iso_10_9": 300, "sae_grade_8": 300, "iso_12_9": 380,
                   "170_ksi": 380, "190_ksi": 380, "200_ksi": 380, "220_ksi": 380, "260_ksi": 380},
    least_rockwell={"iso_9_8": 30, "iso_10_9": 30, "sae_grade_8": 30, "iso_12_9": 39, "170_ksi": 39, "190_ksi": 39, "200_ksi": 39,
                    "220_ksi": 39, "260_ksi": 39},
):
    """A washer softer than the bolt wants sinks and spreads under the turning face, and the clamp goes with it.

    The lines for the strongest class and for stud steels are practice, not a standard, and count as a warning.
    Hardness is compared within one scale; any other scale is left open.
    """
    rows = {"HV": least_vickers, "HRC": least_rockwell}.get(washer_hardness.unit)
    if rows is None:
        return lacking("washer_hardness")
    if strength_class not in rows:
        return not_applicable("no pairing is known for this class")
    limit = Hardness(rows[strength_class], washer_hardness.unit)
    if strength_class == "iso_12_9" or strength_class.endswith("_ksi"):
        return at_least(washer_hardness, warning=limit)
    return at_least(washer_hardness, limit)


SIDES = """
joints:
  head:
    clamped: {material: aluminum_356_t6}
    washer: {kind: hardened_textured, textured_side_faces: %s}  # <-
"""


@rule(
    scope="joint",
    level="error",
    due="assembly",
    says="The textured side of the washer faces the {washer_textured_side_faces}.",
    fix="Turn it: texture to the casting, dry; smooth side to the nut, lubricated. One flipped washer found after torquing means "
        "taking the head off again.",
    source="common practice, no source",
    when={"washer_kind": ("hardened_textured",)},
    points_at=("washer_textured_side_faces",),
    conforming=(SIDES % "casting").replace("  # <-", ""),
    nonconforming=SIDES % "fastener",
    edit=("decision", "washer_textured_side_faces", "casting"),
)
def textured_washer_faces_the_casting(washer_textured_side_faces: Choice):
    """The texture keeps the washer still on the aluminum, so that only the nut slides and the torque means tension.

    The other way round the washer turns on the head, chews it, and the torque reads another friction.
    """
    return one_of(washer_textured_side_faces, ("casting", "both_plain"))
