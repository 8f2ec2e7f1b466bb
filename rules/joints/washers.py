"""Washers: hard enough, under every face that turns on aluminum, no springs, and the right way round."""

from buildlint.rulebook import *
from buildlint.rulebook import Condition
from buildlint.tables.fasteners import CRITICAL_JOINTS

# Joints whose head or nut turns on the part it clamps: rocker studs and rod bolts have a shoulder or a face of their own.
TURNS_ON_PART = ("head", "main", "main_side", "intake_manifold", "damper", "flywheel", "flexplate")

ON_ALUMINUM = """
joints:
  head:
    kind: stud
    washer: {kind: %s}  # <-
    clamped: {material: aluminum_356_t6}
"""


@rule(
    scope="joint",
    level="error",
    due="ordering",
    says="The fastener turns on aluminum with {washer_text}.",
    fix="Put a hardened washer under every head or nut that turns on aluminum, and add {number} to the order.",
    source="practice behind ISO 898-3 and ASTM F436 washers, from memory",
    points_at=("washer_kind", "kind", "clamped_material"),
    conforming=((ON_ALUMINUM % "hardened_textured").replace("  # <-", ""), """
        joints:
          rocker_intake: {kind: shouldered_stud, clamped: {material: aluminum_356_t6}}
        """),
    nonconforming=(ON_ALUMINUM % "none", ON_ALUMINUM % "plain_flat", """
        build: {stage: ordering}
        heads: {material: aluminum_356_t6}
        joints:
          head: {kind: stud, thread: 7/16-20}  # <-
        """),
)
def aluminum_has_hard_washers(
    joint_name: Choice, kind: Choice = None, clamped_material: Choice = None, washer_kind: Choice = None, count: Count = None,
    head_kind: Choice = None, bearing_pressure: Pressure = None,
):
    """A steel face that turns on aluminum galls it: the torque goes into the head instead of the bolt, and the clamp sinks in.

    A wide flange on the bolt may do where the pressure under it is proven; it counts as a warning until that is. Rocker
    studs and rod bolts turn on faces of their own and are not asked.
    """
    if clamped_material is None or not clamped_material.startswith("aluminum"):
        return not_applicable("does not turn on aluminum")
    if joint_name not in TURNS_ON_PART or joint_name not in (*CRITICAL_JOINTS, "intake_manifold") or kind == "shouldered_stud":
        return not_applicable("no critical face turns here")
    number = f"{count} of them" if count else "one for each"
    if washer_kind is None:
        if joint_name != "head" or head_kind in ("hex_flange", "twelve_point_flange"):
            return not_applicable("the washer is not written")
        return wanting("washer_kind").within_level("warning").telling(washer_text="no washer written", number=number)
    verdict = one_of(washer_kind, ("hardened_flat", "hardened_textured"))
    if joint_name == "intake_manifold":
        verdict.within_level("note")
    elif washer_kind == "integral_flange":
        verdict = passes() if bearing_pressure is not None else verdict.within_level("warning")
    text = {"none": "no washer", "integral_flange": "the flange of the bolt alone"}.get(washer_kind,
        f"a {washer_kind.replace('_', ' ')} washer")
    return verdict.telling(washer_text=text, number=number)


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
    when={"washer_hardness": given},
    points_at=("washer_hardness",),
    conforming=(HARD % ("190_ksi", "400 HV", ""), HARD % ("iso_10_9", "38 HRC", ""), HARD % ("iso_8_8", "200 HV", "")),
    nonconforming=(HARD % ("190_ksi", "200 HV", "# <-"), HARD % ("iso_10_9", "200 HV", "# <-"),
                   HARD % ("iso_8_8", "140 HV", "# <-")),
)
def washer_hardness_suits_fastener(
    washer_hardness: Hardness, strength_class: Choice = None, washer_kind: Choice = None, *,
    least_vickers={"iso_8_8": 200, "sae_grade_5": 200, "iso_9_8": 300, "iso_10_9": 300, "sae_grade_8": 300, "iso_12_9": 380,
                   "170_ksi": 380, "190_ksi": 380, "200_ksi": 380, "220_ksi": 380, "260_ksi": 380},
    least_rockwell={"iso_9_8": 30, "iso_10_9": 30, "sae_grade_8": 30, "iso_12_9": 39, "170_ksi": 39, "190_ksi": 39, "200_ksi": 39,
                    "220_ksi": 39, "260_ksi": 39},
):
    """A washer softer than the bolt wants sinks and spreads under the turning face, and the clamp goes with it.

    The lines for the strongest class and for stud steels are practice, not a standard, and count as a warning.
    Hardness is compared within one scale.
    """
    rows = {"HV": least_vickers, "HRC": least_rockwell}.get(washer_hardness.unit)
    if rows is None or strength_class not in rows or washer_kind in ("none", "integral_flange"):
        return not_applicable("no pairing is known for this class or scale")
    limit = Hardness(rows[strength_class], washer_hardness.unit)
    if strength_class == "iso_12_9" or strength_class.endswith("_ksi"):
        return at_least(washer_hardness, warning=limit)
    return at_least(washer_hardness, limit)


NUT_ON_IRON = """
joints:
  %s: {kind: stud, head_kind: none_stud, nut: {kind: %s}, washer: {kind: %s}, clamped: {material: cast_iron}}  %s
"""


@rule(
    scope="joint",
    level="warning",
    due="ordering",
    says="The nut of the {joint_name} stud turns on {washer_text}.",
    fix="Put a hardened, ground flat washer under each nut ({number}), oiled or pasted on the side of the nut and dry below.",
    source="practice behind ISO 898-3 and ASTM F436 washers, from memory",
    when={"washer_kind": given},
    points_at=("washer_kind", "kind"),
    conforming=(NUT_ON_IRON % ("head", "twelve_point", "hardened_flat", ""), NUT_ON_IRON % ("main", "flange", "none", ""),
                NUT_ON_IRON % ("valve_cover", "hex", "plain_flat", "")),
    nonconforming=(NUT_ON_IRON % ("head", "twelve_point", "plain_flat", "# <-"), NUT_ON_IRON % ("main", "hex", "none", "# <-"),
                   NUT_ON_IRON % ("main", "twelve_point", "none", "# <-")),
)
def nut_turns_on_a_hard_washer(
    joint_name: Choice, washer_kind: Choice, kind: Choice = None, nut_kind: Choice = None, clamped_material: Choice = None, count: Count = None,
):
    """Under a nut the washer is what the torque is spent on: flat and harder than the nut, or the nut digs in and the torque lies.

    Iron stands a bare flange nut, and a twelve point nut has something of a flange, so that is noted; a hexagon nut on raw
    iron, or any on a soft washer, scatters the clamp from stud to stud. On aluminum it is an error of a rule of its own. Which side the chamfer faces matters less here than under a bolt head,
    since a nut has no fillet; see what it leaves of the face.
    """
    if joint_name not in ("head", "main", "main_side") or (clamped_material or "").startswith("aluminum"):
        return not_applicable("another rule asks on aluminum, and small joints are not asked")
    if kind not in ("stud", "nut_on_through_bolt"):
        return not_applicable("no nut is known here")
    if washer_kind == "none" and nut_kind == "flange":
        return not_applicable("the flange of the nut is its washer")
    flanged = washer_kind == "none" and nut_kind == "twelve_point"
    return require(washer_kind not in ("plain_flat", "none"), "note" if flanged else None).telling(
        washer_text="bare metal, without a washer" if washer_kind == "none" else "a plain, soft washer", number=f"{count} of them" if count else "one for each")


SPLIT = """
joints:
  %s: {washer: {kind: spring}}  %s
"""


@rule(
    scope="joint",
    level="error",
    due="ordering",
    says="A spring washer stands under the {joint_name} fasteners.",
    fix="Take a hardened flat washer; a critical joint is locked by its tension, or by threadlocker where it turns.",
    source="practice behind ISO 898-3; withdrawn spring washer standards, from memory; common practice, no source",
    when={"washer_kind": given},
    points_at=("washer_kind",),
    conforming=(SPLIT % ("valve_cover", ""), "joints: {head: {washer: {kind: hardened_flat}}}"),
    nonconforming=SPLIT % ("flywheel", "# <-"),
)
def critical_bolt_avoids_split_washer(washer_kind: Choice, joint_name: Choice):
    """A spring washer is flat long before a strong bolt is tight: it locks nothing and breaks into pieces.

    On covers with small soft bolts it does no harm.
    """
    if joint_name not in CRITICAL_JOINTS:
        return not_applicable("not a critical joint")
    return require(washer_kind != "spring")


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
    when={"washer_kind": Condition("is textured", lambda kind: kind == "hardened_textured")},
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


@rule(
    scope="joint",
    level="reminder",
    due="assembly",
    says="Lay out {number} washers, one for each fastener, and count what is left over.",
    fix="Stick each washer to its place with assembly grease or a magnet, look at every one for its side, count in and count out.",
    source="common practice, no source",
    when={"washer_kind": Condition("is loose", lambda kind: kind in ("hardened_flat", "hardened_textured", "plain_flat"))},
    conforming="joints: {head: {count: 34, washer: {kind: hardened_textured, count: 34}}}",
)
def washers_are_counted_in(joint_name: Choice, washer_kind: Choice, count: Count = None, washer_count: Count = None):
    """A washer dropped into the valley, or a flipped one under the head, is the classic find of a second teardown."""
    if joint_name not in ("head", "main", "intake_manifold", "rocker", "rocker_intake", "rocker_exhaust"):
        return not_applicable("asked where a washer can be lost in the engine")
    return review().telling(number=str(washer_count or count or "as many as fasteners"))
