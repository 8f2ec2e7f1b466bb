"""Whether the washer fits its bolt, its hole and the pad it sits on."""

from buildlint.rulebook import *

FILLET = """
joints:
  head:
    {kind: bolt, thread: 7/16-14, head_fillet_radius: 1.20 mm, washer: {kind: hardened_flat, inside_diameter: 11.40 mm, chamfer: %s, chamfer_faces: %s}}  %s
"""


@rule(
    scope="joint",
    level="error",
    due="assembly",
    says="{trouble}",
    fix="{remedy}",
    source="geometry; trade press: chamfer up, to match the fillet",
    points_at=("washer_chamfer_faces", "washer_chamfer", "washer_inside_diameter"),
    conforming=(FILLET % ("1.20 mm", "fastener", ""), """
        joints:
          head: {kind: stud, washer: {kind: hardened_flat, chamfer_faces: casting}}
        """),
    nonconforming=(FILLET % ("0.80 mm", "fastener", "# <-"), FILLET % ("1.20 mm", "casting", "# <-"), """
        joints:
          head: {kind: bolt, washer: {kind: hardened_flat, chamfer_faces: casting}}  # <-
        """),
    edit=("decision", "washer_chamfer_faces", "fastener"),
)
def washer_chamfer_clears_the_fillet(
    kind: Choice = None, washer_chamfer_faces: Choice = None, washer_inside_diameter: Length = None, washer_chamfer: Length = None,
    head_fillet_radius: Length = None, diameter: Length = None, shank_diameter: Length = None, washer_kind: Choice = None,
):
    """Under a bolt head the bore of the washer must clear the fillet, or the head rides on its corner and breaks there.

    The chamfer goes up, to the head. A nut has no fillet, so under a nut it may go either way as long as it leaves the
    nut its face; texture wins there.
    """
    if kind not in ("bolt", "cap_screw") or washer_kind in ("none", "integral_flange"):
        return not_applicable("no washer under a bolt head")
    bolt = shank_diameter or diameter
    if None in (washer_inside_diameter, head_fillet_radius, bolt):
        if washer_chamfer_faces is None:
            return not_applicable("which way the chamfer faces is not written")
        verdict = require(washer_chamfer_faces != "casting", "warning")
        return verdict.telling(trouble="The chamfer of the washer faces the casting, away from the fillet of the bolt head.",
                               remedy="Turn the washer: chamfer to the head of the bolt.")
    need = bolt / 2 + head_fillet_radius
    up = washer_inside_diameter / 2 + (washer_chamfer or 0.0)
    reversed_ = washer_chamfer_faces == "casting"
    has = washer_inside_diameter / 2 if reversed_ else up
    verdict = at_least(Length(has), Length(need))
    if reversed_ and up >= need:
        return verdict.telling(trouble="The washer lies with its chamfer down: its plain bore rides on the fillet under the bolt head.",
                               remedy="Turn the washer: chamfer to the head of the bolt.")
    more = Length(need - washer_inside_diameter / 2)
    verdict.telling(need=Length(need), has=Length(up), chamfer_to_have=more)
    return verdict.saying("The washer clears a radius of {has}; shank and fillet of the bolt reach out to {need}.",
                          "Take washers with a chamfer of at least {chamfer_to_have:up} at the bore.")


NUT_FACE = """
joints:
  head:
    {kind: stud, thread: 7/16-20, bearing_diameter: 0.625 in, washer: {kind: hardened_flat, inside_diameter: 0.450 in, chamfer: %s, chamfer_faces: %s}}  %s
"""


@rule(
    scope="joint",
    level="warning",
    due="assembly",
    says="The chamfer of the washer faces the nut and leaves {value} of the face it turns on; keep {limit}.",
    fix="Turn the washer, chamfer to the casting: a nut has no fillet to clear. Where a texture has to face the casting, take washers with a "
        "chamfer of at most {chamfer_to_have:down}.",
    source="geometry; common practice, no source",
    when={"washer_chamfer_faces": given, "washer_chamfer": given, "bearing_diameter": given, "washer_inside_diameter": given},
    points_at=("washer_chamfer_faces", "washer_chamfer"),
    conforming=(NUT_FACE % ("0.020 in", "fastener", ""), NUT_FACE % ("0.045 in", "casting", "")),
    nonconforming=NUT_FACE % ("0.045 in", "fastener", "# <-"),
)
def washer_chamfer_leaves_the_nut_its_face(
    washer_chamfer_faces: Choice, washer_chamfer: Length, washer_inside_diameter: Length, bearing_diameter: Length, kind: Choice = None,
    washer_kind: Choice = None, *, least: Fraction = q("0.60", "fraction"),
):
    """A nut may turn on either side of its washer, as long as there is a face to turn on: the chamfer takes it away next to the thread.

    A nut of small hexagon on a deep chamfer rides on a narrow ring, galls it, and the torque reads more than the stud
    gets. Toward the casting the chamfer costs nothing where the hole is as wide.
    """
    if kind not in ("stud", "nut_on_through_bolt") or washer_chamfer_faces != "fastener" or washer_kind in ("none", "integral_flange"):
        return not_applicable("no chamfer under a nut")
    if bearing_diameter <= washer_inside_diameter:
        return not_applicable("a nut no wider than the bore of its washer is another rule's affair")
    whole = bearing_diameter**2 - washer_inside_diameter**2
    left = max(0.0, bearing_diameter**2 - (washer_inside_diameter + 2 * washer_chamfer) ** 2)
    widest = (bearing_diameter**2 - least * whole) ** 0.5
    return at_least(Fraction(left / whole), least).telling(chamfer_to_have=Length((widest - washer_inside_diameter) / 2, washer_chamfer.unit))


PAD = """
joints:
  head: {thread: 7/16-20, washer: {kind: hardened_flat, outside_diameter: 20.62 mm}, clamped: {hole_diameter: 12.19 mm, pad_diameter: %s}}  %s
"""


@rule(
    scope="joint",
    level="error",
    due="ordering",
    says="The washer of {washer_outside_diameter} can lie {need} wide when it sits off center; the pad is {clamped_pad_diameter}.",
    fix="Spot-face the pad to {pad_to_have:up}, or take a washer of at most {washer_to_have:down}.",
    source="geometry; common practice, no source",
    when={"washer_outside_diameter": given, "clamped_pad_diameter": given},
    points_at=("washer_outside_diameter", "clamped_pad_diameter"),
    conforming=PAD % ("22.00 mm", ""),
    nonconforming=(PAD % ("20.00 mm", "# <-"), PAD % ("21.80 mm", "# <-")),
)
def washer_fits_the_pad(
    washer_outside_diameter: Length, clamped_pad_diameter: Length, clamped_hole_diameter: Length = None, diameter: Length = None,
    washer_kind: Choice = None, *, margin: Length = q("0.2 mm"),
):
    """A washer that climbs the edge of its spot face bends, tilts the nut and lets the clamp go.

    The stud may stand to one side of its hole, and the washer with it; the pad must be wide enough for that.
    """
    if washer_kind in ("none", "integral_flange"):
        return not_applicable("no washer")
    offset = 0.0
    if clamped_hole_diameter is not None and diameter is not None:
        offset = max(0.0, clamped_hole_diameter - diameter)
    need = washer_outside_diameter + offset
    verdict = at_least(Length(clamped_pad_diameter - need), error=Length(0.0), warning=margin)
    return verdict.telling(need=Length(need), pad_to_have=Length(need + margin),
                           washer_to_have=Length(clamped_pad_diameter - offset - margin))


COVERS = """
joints:
  head:
    {thread: 7/16-20, bearing_diameter: 0.625 in, washer: {kind: hardened_flat, outside_diameter: %s, inside_diameter: %s}, clamped: {hole_diameter: 0.480 in}}  %s
"""


@rule(
    scope="joint",
    level="warning",
    due="ordering",
    says="{trouble}",
    fix="Take washers of at least {outside_to_have:up} outside and at most {inside_to_have:down} inside.",
    source="common practice, no source",
    when={"washer_outside_diameter": given},
    points_at=("washer_outside_diameter", "washer_inside_diameter"),
    conforming=COVERS % ("0.812 in", "0.455 in", ""),
    nonconforming=(COVERS % ("0.640 in", "0.455 in", "# <-"), COVERS % ("0.812 in", "0.500 in", "# <-")),
)
def washer_covers_hole_and_nut(
    washer_outside_diameter: Length, washer_inside_diameter: Length = None, bearing_diameter: Length = None,
    clamped_hole_diameter: Length = None, diameter: Length = None, washer_kind: Choice = None, *,
    past_nut: Length = q("1 mm"), past_hole: Length = q("4 mm"), bore_play: Length = q("0.8 mm"),
):
    """A washer narrower than the nut presses a ring of its own size; one with a wide bore walks off the hole.

    It wants to be 1 mm wider than the face that turns and to lie 2 mm on metal all round the hole.
    """
    if washer_kind in ("none", "integral_flange"):
        return not_applicable("no washer")
    wanted = [(bearing_diameter + past_nut, "the face that turns") if bearing_diameter is not None else None,
              (clamped_hole_diameter + past_hole, "the hole") if clamped_hole_diameter is not None else None]
    wanted = [row for row in wanted if row is not None]
    widest = max(wanted, default=None)
    inside = diameter + bore_play if diameter is not None else None
    facts = {"outside_to_have": Length(widest[0]) if widest else washer_outside_diameter,
             "inside_to_have": Length(inside) if inside else "the thread and a little"}
    if widest is not None:
        verdict = at_least(Length(washer_outside_diameter), Length(widest[0]))
        if verdict.kind == "fail":
            bore_fits = inside is None or washer_inside_diameter is None or washer_inside_diameter <= inside
            return verdict.telling(**facts, over=widest[1]).saying(
                "The washer is {value} wide; to cover {over} it wants {limit}.", "Take washers of at least {outside_to_have:up} outside." if bore_fits else None)
    if inside is not None and washer_inside_diameter is not None:
        verdict = at_most(Length(washer_inside_diameter), Length(inside)).at("washer_inside_diameter")
        return verdict.telling(**facts).saying("The washer's bore of {value} leaves it loose on the fastener; at most {limit}.",
                                               "Take washers of at most {inside_to_have:down} inside, as wide as these.")
    return passes() if widest is not None else not_applicable("neither face, hole nor thread is written")
