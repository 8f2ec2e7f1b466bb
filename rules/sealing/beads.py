"""Beads and dabs of sealant: their gap, their place, how long they lie open and how long they cure."""

from buildlint.mechanics.sealed_places import first_joint, places_of, product_name
from buildlint.rulebook import *
from buildlint.tables.sealants import GAP_LIMIT, INTAKE_CORNERS, NEAR_THE_PICKUP, PAN_CORNERS

PLACED = """
joints: {oil_pan: {kind: bolt}}
sealing:
  sealed_places:
    - {place: %s, product: %s%s}  %s
"""


def _line(row):
    return f"sealed_places_{row['number']}"


def _plain(name):
    return str(name).replace("_", " ")


@rule(
    scope="joint",
    level="warning",
    due="assembly",
    says="A gap of {value} at {place} is to be filled with {product}, which does so up to {limit}.",
    fix="Bring the faces together, or use silicone where the gap is a gap and anaerobic sealer where metal meets metal.",
    source="data sheets' usual ranges, from memory",
    when={"sealed_places": given},
    points_at=("sealed_places",),
    conforming=(PLACED % ("rear_cover", "anaerobic_flange", ", gap: 0.1 mm", ""),
                PLACED % ("pan_front_left", "silicone", ", gap: 2 mm", "")),
    nonconforming=(PLACED % ("rear_cover", "anaerobic_flange", ", gap: 0.6 mm", "# <-"),
                   PLACED % ("pan_front_left", "silicone", ", gap: 7 mm", "# <-")),
)
def sealant_fills_the_gap(sealed_places: Entries, joint_name: Choice, joints_listed: Entries, joint_leads: YesNo = True):
    """Anaerobic sealer sets only where air is shut out, between faces that all but touch; silicone bridges a gap but not a gulf."""
    asked = False
    for row in places_of(joint_name, joint_leads, sealed_places, joints_listed):
        limit, gap = GAP_LIMIT.get(row.get("product")), row.get("gap")
        if limit is None or gap is None:
            continue
        asked = True
        verdict = at_most(gap, limit)
        if verdict.kind == "fail":
            return verdict.at(_line(row)).telling(product=product_name(row["product"]), place=_plain(row.get("place")))
    return passes() if asked else not_applicable("no gap is written")


@rule(
    scope="joint",
    level="warning",
    due="assembly",
    says="A bead of {value} is to be laid at {place}, near pickup and drains; {limit} is enough.",
    fix="Lay a thinner bead, and wipe away what is squeezed inward.",
    source="common practice, no source",
    when={"sealed_places": given},
    points_at=("sealed_places",),
    conforming=PLACED % ("pan_rear_left", "silicone", ", bead: 4 mm", ""),
    nonconforming=PLACED % ("pan_rear_left", "silicone", ", bead: 8 mm", "# <-"),
)
def sealant_keeps_clear_of_pickup(sealed_places: Entries, joint_name: Choice, joints_listed: Entries, joint_leads: YesNo = True, *,
                                  most: Length = q("6 mm")):
    """What is squeezed inward breaks loose in hot oil and lies down on the pickup's screen, or in a small feed hole."""
    asked = False
    for row in places_of(joint_name, joint_leads, sealed_places, joints_listed):
        if row.get("place") not in NEAR_THE_PICKUP or row.get("bead") is None:
            continue
        asked = True
        verdict = at_most(row["bead"], most)
        if verdict.kind == "fail":
            return verdict.at(_line(row)).telling(place=_plain(row["place"]))
    return passes() if asked else not_applicable("no bead near the pickup is written")


def _corners(corners, but=()):
    return "".join(f"\n    - {{place: {place}, product: silicone}}" for place in corners if place not in but)


@rule(
    scope="joint",
    level="error",
    due="assembly",
    says="Corners where three parts meet have no sealant written: {corners}.",
    fix="Put a dab of silicone into each, just before the parts are closed, and write them under sealed_places.",
    source="factory instructions; common practice, no source",
    when={"joint_name": ("intake_manifold", "oil_pan")},
    points_at=("sealed_places", "kind", "count"),
    conforming="joints: {oil_pan: {kind: bolt}, intake_manifold: {kind: bolt}}\nsealing:\n  sealed_places:" + _corners(PAN_CORNERS) + """
    - {place: intake_end_rail_front, product: silicone}
    - {place: intake_end_rail_rear, product: silicone}
engine: {layout: v}
induction: {manifold: {valley_tray: open}}
""",
    nonconforming=("joints: {oil_pan: {kind: bolt}}\nsealing:\n  sealed_places:" + _corners(PAN_CORNERS[:2]).replace("}", "}  # <-", 1), """
        build: {stage: assembly}
        engine: {layout: v}
        induction: {manifold: {valley_tray: open}}
        joints: {intake_manifold: {kind: bolt}}  # <-
        """),
)
def tee_joints_have_sealant(
    joint_name: Choice, sealed_places: Entries = None, joint_leads: YesNo = True, layout: Choice = None,
    manifold_valley_tray: Choice = None, end_rail_filled_with: Choice = None,
    kind: Choice = None, count: Count = None,
):
    """Where gasket, block and cover meet, each part ends a little before the others; a dab fills what no gasket reaches.

    Asked of the pan's four corners, and of the manifold's four where it closes the valley of a V. A bead of silicone along an end
    rail runs over the corners at its ends.
    """
    if not joint_leads:
        return not_applicable("asked at the joint itself")
    if joint_name == "intake_manifold" and (layout != "v" or manifold_valley_tray not in ("open", "tray", "pan_gasket")):
        return not_applicable("the manifold does not close a valley")
    wanted = INTAKE_CORNERS if joint_name == "intake_manifold" else PAN_CORNERS
    done = {row.get("place") for row in sealed_places or () if row.get("product") not in (None, "none", "gasket_only")}
    beaded = {end for end in ("front", "rear") if f"intake_end_rail_{end}" in done or end_rail_filled_with == "silicone"}
    missing = [place for place in wanted if place not in done and not (place.startswith("intake") and beaded.intersection(place.split("_")))]
    if not missing:
        return passes()
    verdict = require(False) if done.intersection(wanted) else wanting("sealed_places")
    return verdict.telling(corners=", ".join(_plain(place) for place in missing))


@rule(
    scope="joint",
    level="warning",
    due="assembly",
    says="The {product} at {place} lies open for {value} before the parts are closed; its skin forms within {limit}.",
    fix="Lay it on only when the part is ready to go down, and draw the bolts to their torque while it is wet.",
    source="factory instructions (some say within 3 minutes); common practice, no source, from memory",
    when={"sealed_places": given},
    points_at=("sealed_places",),
    conforming=PLACED % ("pan_front_left", "silicone", ", closed_after: 5 min", ""),
    nonconforming=PLACED % ("pan_front_left", "silicone", ", closed_after: 20 min", "# <-"),
)
def sealant_is_closed_wet(sealed_places: Entries, joint_name: Choice, joints_listed: Entries, joint_leads: YesNo = True, *,
                          most: Time = q("10 min")):
    """Skinned silicone no longer sticks to the second face; it is then a soft gasket that was never fixed.

    Builders who let it skin and tighten later have thick rubber gaskets in mind; between metal faces it is closed wet.
    """
    asked = False
    for row in places_of(joint_name, joint_leads, sealed_places, joints_listed):
        if row.get("product") not in ("silicone", "silicone_low_vapor") or row.get("closed_after") is None:
            continue
        asked = True
        verdict = at_most(row["closed_after"], most)
        if verdict.kind == "fail":
            return verdict.at(_line(row)).telling(product=product_name(row["product"]), place=_plain(row.get("place")))
    return passes() if asked else not_applicable("no time is written")


CURE = """
joints: {oil_pan: {kind: bolt}}
sealing: {cure_before_fluids: %s, cure_before_running: %s}  %s
"""


@rule(
    scope="joint",
    level="warning",
    due="assembly",
    says="The sealant has {value} before {what}; give it {limit}.",
    fix="Wait, or use a product whose sheet allows less and name the sheet in the notes.",
    source="data sheets' usual times, from memory",
    points_at=("cure_before_fluids", "cure_before_running"),
    conforming=CURE % ("2 h", "24 h", ""),
    nonconforming=(CURE % ("1 h", "24 h", "# <-"), CURE % ("4 h", "6 h", "# <-")),
)
def sealant_cures_before_fluids(
    joint_name: Choice, joints_listed: Entries, joint_leads: YesNo = True, cure_before_fluids: Time = None,
    cure_before_running: Time = None, *,
    fluids_after: Time = q("2 h"), running_after: Time = q("24 h"),
):
    """Oil poured onto a fresh bead floats it off the metal; heat and pressure then find the way."""
    if not joint_leads or joint_name != first_joint(joints_listed):
        return not_applicable("asked once")
    if cure_before_fluids is not None:
        verdict = at_least(cure_before_fluids, fluids_after).at("cure_before_fluids").telling(what="oil and coolant")
        if verdict.kind == "fail" or cure_before_running is None:
            return verdict
    if cure_before_running is None:
        return not_applicable("no waiting is written")
    return at_least(cure_before_running, running_after).at("cure_before_running").telling(what="the engine is run")
