"""Bolt holes that break into water, oil or a port, and what has to be on their threads."""

from buildlint.mechanics.sealed_places import product_name
from buildlint.rulebook import *
from buildlint.rulebook import Condition
from buildlint.tables.fasteners import NUT_FACTORS, ROCKER_JOINTS, THREAD_SEALANTS
from buildlint.tables.sealants import INSIDE_JOINTS, OPENINGS

HOLE = """
joints:
  %s: {kind: %s, thread_product: %s, hole: {opens_into: %s}}  # <-
"""

WET = Condition("breaks into coolant, oil or the intake port",
                lambda place: place in ("coolant", "oil_gallery", "crankcase", "lifter_valley", "intake_port"))

@rule(
    scope="joint",
    level="error",
    due="assembly",
    says="The hole opens into {place}, and {product_text} on the thread.",
    fix="Put {wanted} on the clean thread{tip}{torque_text}.",
    source="common practice, no source; shop accounts of coolant in the oil from unsealed head bolts",
    when={"hole_opens_into": WET},
    points_at=("thread_product", "hole_opens_into"),
    conforming=tuple((HOLE % row).replace("  # <-", "") for row in (
        ("rocker_intake", "shouldered_stud", "ptfe_paste", "intake_port"), ("head", "stud", "ptfe_paste", "coolant"),
        ("head", "bolt", "none", "nothing"), ("main", "bolt", "none", "crankcase"))),
    nonconforming=(*(HOLE % row for row in (
        ("rocker_intake", "shouldered_stud", "none", "intake_port"), ("head", "stud", "none", "coolant"),
        ("intake_manifold", "bolt", "none", "lifter_valley"))), """
        build: {stage: assembly}
        joints:
          head: {kind: bolt, thread: 7/16-14, torque: 65 lbf-ft, lubricant: engine_oil, hole: {opens_into: coolant}}  # <-
        """),
    edit=("decision", "thread_product", "ptfe_paste"),
)
def open_bolt_hole_is_sealed(
    hole_opens_into: Choice, joint_name: Choice, thread_product: Choice = None, kind: Choice = None, torque: Torque = None,
    nut_factor: Ratio = None, locked_by: Choice = None, *, sealed_nut_factor: Ratio = Ratio(NUT_FACTORS["ptfe_paste"][1]),
):
    """A thread is a leak path: water into the oil, oil into the port, boost into the cover.

    Ports that were raised until they broke into the rocker bolt holes draw oil down the thread and smoke; exhaust bolts
    are not concerned unless their hole is written as open. Whether a hole opens is settled with a wire and a light, not
    from the catalogue. Sealant on a bolt's thread also changes what its torque is worth. A product that is there but does
    not suit is another rule's matter.
    """
    if joint_name in INSIDE_JOINTS and hole_opens_into in ("crankcase", "lifter_valley"):
        return not_applicable("lies inside the crankcase")
    if joint_name in ROCKER_JOINTS and hole_opens_into == "crankcase":
        return not_applicable("lies under the rocker cover")
    if joint_name in ("flywheel", "flexplate") and thread_product in (None, "none") and locked_by in (None, "preload_only"):
        return not_applicable("asked together with the lock of the wheel's bolts")
    wanted = {"intake_port": "a fuel-proof PTFE paste", "coolant": "PTFE paste or an anaerobic sealant"}.get(
        hole_opens_into, "PTFE paste or a sealing threadlocker")
    facts = {"place": OPENINGS[hole_opens_into], "wanted": wanted,
             "tip": ", on the bolt's tip" if hole_opens_into == "intake_port" else "",
             "torque_text": "; a stud's torque stays as it is, since its nut turns elsewhere" if kind == "stud"
             else ", and use the torque for that product"}
    verdict = require(thread_product not in ("none", None)) if thread_product is not None else wanting("thread_product")
    verdict.telling(product_text="no sealant is written to be" if thread_product is None else "no sealant is", **facts)
    if kind != "stud" and torque is not None and nut_factor is not None:
        verdict.telling(torque_for_it=Torque(torque * sealed_nut_factor / nut_factor)).saying(
            None, "Put {wanted} on the clean thread{tip}; for the same tension {torque} then becomes {torque_for_it}, or the maker's "
            "torque for that product.")
    return verdict


UNKNOWN = """
build: {stage: assembly}
joints:
  %s: {kind: bolt, count: 12%s}  %s
"""


@rule(
    scope="joint",
    level="warning",
    due="assembly",
    says="What the {joint_name} holes open into is not written.",
    fix="Probe each hole with a wire and look down the port with a light, or take it off the block's sheet; write hole opens_into, nothing "
        "where it is blind or opens to the air.",
    source="common practice, no source",
    points_at=("kind", "count", "thread", "torque"),
    conforming=(UNKNOWN % ("intake_manifold", ", hole: {opens_into: lifter_valley}", ""), UNKNOWN % ("oil_pan", "", ""), """
        crank: {flange_holes_open_into: crankcase}
        joints: {flywheel: {kind: bolt}}
        """),
    nonconforming=(UNKNOWN % ("intake_manifold", "", "# <-"), UNKNOWN % ("rocker_intake", "", "# <-")),
)
def hole_opening_is_known(
    joint_name: Choice, hole_opens_into: Choice = None, positions: Entries = None, kind: Choice = None, count: Count = None,
    thread: Thread = None, torque: Torque = None,
):
    """Nobody seals a hole he believes to be blind; the leak shows when the engine is in the car.

    Head holes are asked for by a rule of their own, earlier.
    """
    if joint_name not in (*ROCKER_JOINTS, "intake_manifold", "water_pump", "timing_cover", "flywheel", "flexplate"):
        return not_applicable("not a joint whose holes break through")
    if hole_opens_into is not None or positions and all(row.get("opens_into") for row in positions):
        return passes()
    return wanting("hole_opens_into")


DRY = """
joints:
  head: {kind: bolt, thread_product: %s, hole: {opens_into: nothing, end: blind}}  %s
"""


@rule(
    scope="joint",
    level="warning",
    due="assembly",
    says="{product} is to go into a blind, dry hole.",
    fix="Leave it out: lubricate the thread and keep the hole empty.",
    source="factory manuals: no sealer in blind holes",
    when={"thread_product": given},
    points_at=("thread_product",),
    conforming=(DRY % ("none", ""), DRY % ("threadlocker_medium", ""), """
        joints:
          head: {kind: bolt, thread_product: ptfe_paste, hole: {opens_into: coolant, end: through}}
        """),
    nonconforming=(DRY % ("silicone", "# <-"), DRY % ("ptfe_paste", "# <-")),
    edit=("decision", "thread_product", "none"),
)
def dry_blind_hole_stays_unsealed(
    thread_product: Choice, hole_opens_into: Choice = None, hole_end: Choice = None, positions: Entries = None,
):
    """Sealer in a blind hole seals nothing, holds the bolt up like trapped oil, and changes what its torque is worth.

    Where wet and dry holes stand in one pattern, one product on all threads is accepted.
    """
    if hole_end != "blind" or hole_opens_into != "nothing" or positions:
        return not_applicable("not a blind, dry hole, or holes of both kinds")
    good = thread_product not in THREAD_SEALANTS or thread_product == "sealing_threadlocker"
    return require(good).telling(product=product_name(thread_product, True))


SHARE = """
joints:
  head:
    kind: bolt
    positions:
      - {name: U1, opens_into: coolant, thread_product: ptfe_paste}
      - {name: U2, opens_into: nothing, thread_product: %s}  %s
"""


@rule(
    scope="joint",
    level="note",
    due="assembly",
    says="Some bolts of the {joint_name} joint turn in {products}: one torque, different tensions.",
    fix="Put one product on all threads of the pattern, or accept that the dry ones are clamped less.",
    source="T = K d F, Shigley Eq. 8-27; common practice, no source",
    when={"positions": given},
    points_at=("positions",),
    conforming=SHARE % ("ptfe_paste", ""),
    nonconforming=SHARE % ("none", "# <-"),
)
def wet_and_dry_threads_share_product(positions: Entries, joint_name: Choice, kind: Choice = None, lubricant: Choice = None):
    """Wet holes get sealant, dry ones oil, and the wrench clicks at the same torque for both.

    A stud's sealed end stands still, so its torque is not concerned.
    """
    if kind == "stud":
        return not_applicable("studs are not turned in their holes")
    written = [(row, row["thread_product"]) for row in positions if row.get("thread_product")]
    kinds = {product for _, product in written}
    if not written:
        return not_applicable("no products are written by position")
    verdict = require(len(kinds) == 1)
    odd = next((row for row, product in written if product != written[0][1]), written[0][0])
    names = sorted((lubricant or "nothing") if product == "none" else product for product in kinds)
    return verdict.at(f"positions_{odd['number']}").telling(products=" and some in ".join(product_name(name) for name in names))
