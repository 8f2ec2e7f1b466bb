"""Products that defeat each other, on threads and on gaskets."""

from buildlint.mechanics.sealed_places import product_name
from buildlint.rulebook import *
from buildlint.tables.fasteners import THREADLOCKERS


THREAD = """
joints:
  %s: {kind: %s, thread_product: %s, lubricant: %s%s}  %s
"""


@rule(
    scope="joint",
    level="error",
    due="assembly",
    says="{trouble}",
    fix="{remedy}",
    source="data sheets of anaerobic adhesives: clean, active metal; common practice, no source",
    when={"thread_product": given},
    points_at=("thread_product", "lubricant"),
    conforming=(THREAD % ("head", "stud", "ptfe_paste", "moly_paste", "", ""),
                THREAD % ("flywheel", "bolt", "threadlocker_medium", "dry", "", ""),
                THREAD % ("exhaust_manifold", "bolt", "anti_seize", "anti_seize", "", ""),
                THREAD % ("head", "bolt", "ptfe_paste", "dry", ", face_lubricant: engine_oil", "")),
    nonconforming=(THREAD % ("rod", "cap_screw", "threadlocker_medium", "extreme_pressure_paste", "", "# <-"),
                   THREAD % ("head", "bolt", "ptfe_tape", "dry", "", "# <-"),
                   THREAD % ("head", "bolt", "ptfe_paste", "engine_oil", "", "# <-"),
                   THREAD % ("flywheel", "bolt", "threadlocker_high", "dry", ", nut: {kind: nylon_insert}", "# <-")),
)
def one_product_per_thread(
    thread_product: Choice, joint_name: Choice, lubricant: Choice = None, kind: Choice = None, nut_kind: Choice = None,
    hole_opens_into: Choice = None,
):
    """Threadlocker does not cure in oil, sealant does not hold on paste, and shreds of tape end in an oil gallery.

    A stud has two threads: sealant in the block and paste under the nut are right. So is oil under the head of a bolt
    whose thread is sealed.
    """
    if thread_product == "ptfe_tape" and (joint_name in ("head", "main") or hole_opens_into == "oil_gallery"):
        return require(False).saying("Tape is to go on threads of the {joint_name} joint; its shreds travel.",
                                     "Use PTFE paste, or nothing in a dry hole.")
    facts = {"product": product_name(thread_product, True), "other": product_name(lubricant)}
    slick = lubricant not in (None, "dry")
    same_thread = kind != "stud"
    if thread_product in THREADLOCKERS and slick and same_thread:
        return require(False).telling(**facts).saying("{product} and {other} are to go on one thread: the locker does not cure in it.",
                                     "Keep one: clean the thread and lock it, or lubricate it and lock it otherwise.")
    if thread_product == "anti_seize" and slick and lubricant != "anti_seize" and same_thread:
        return require(False, "warning").telling(**facts).saying("{product} and {other} are to go on one thread.",
                                                                 "Keep one, and the torque that belongs to it.")
    if thread_product in ("ptfe_paste", "anaerobic_sealant", "silicone", "gasket_shellac",
                          "water_plug_sealer") and slick and same_thread:
        return require(False, "warning").telling(**facts).saying("{product} is to go on a thread wet with {other}: it seals on clean metal only.",
                                                "Put the sealant alone on the thread, write lubricant: dry, and oil the face under the head.")
    if thread_product in THREADLOCKERS and nut_kind == "nylon_insert":
        return require(False, "note").saying("A nylon-insert nut and threadlocker lock twice; the locker softens the insert.",
                                             "Keep one of the two.")
    return passes()


CLEAN = """
joints:
  flywheel: {kind: bolt, thread_product: %s, hole: {state: %s}}  %s
"""


@rule(
    scope="joint",
    level="warning",
    due="assembly",
    says="{product} is to go on threads that are {state}.",
    fix="Chase both threads, wash them with solvent, let them dry, and write hole state: chased_dry_empty.",
    source="data sheets of anaerobic adhesives: clean, active metal",
    when={"thread_product": given, "hole_state": given},
    points_at=("hole_state", "thread_product"),
    conforming=(CLEAN % ("threadlocker_medium", "chased_dry_empty", ""), CLEAN % ("none", "oily", "")),
    nonconforming=(CLEAN % ("threadlocker_medium", "oily", "# <-"), CLEAN % ("sealing_threadlocker", "as_found", "# <-")),
)
def threadlocker_has_clean_threads(thread_product: Choice, hole_state: Choice):
    """Threadlocker cures where air is shut out and bare metal is near; in an oily thread it stays a liquid.

    On aluminum, stainless and plated threads it is slow and wants an activator.
    """
    if thread_product not in THREADLOCKERS:
        return not_applicable("no threadlocker")
    states = {"oily": "oily", "as_found": "as they were found", "liquid_inside": "wet"}
    return require(hole_state == "chased_dry_empty").telling(state=states.get(hole_state, "clean"),
                                                             product=product_name(thread_product, True))


SEALER = """
head_gasket: {kind: %s, coating: %s, sealer: %s}  %s
joints: {head: {kind: stud}}
"""


@rule(
    scope="joint",
    level="error",
    due="assembly",
    says="{product} is to go on a gasket that has a coating of its own.",
    fix="Fit it dry on faces wiped with solvent: write sealer: none.",
    source="gasket makers' instructions quoted in the trade press",
    when={"joint_name": ("head",), "head_gasket_sealer": given},
    points_at=("head_gasket_sealer",),
    conforming=(SEALER % ("multilayer_steel", "thin", "none", ""), SEALER % ("steel_shim", "none", "copper_spray", "")),
    nonconforming=(SEALER % ("multilayer_steel", "thin", "copper_spray", "# <-"),
                   SEALER % ("composite", "thin", "brushed", "# <-")),
    edit=("decision", "head_gasket_sealer", "none"),
)
def coated_gasket_stays_dry(
    joint_name: Choice, head_gasket_sealer: Choice, joint_leads: YesNo = True, head_gasket_kind: Choice = None,
    head_gasket_coating: Choice = None,
):
    """A coating is made to stick by itself; spray on top floats the gasket out of place and keeps its beads from biting.

    Where the gasket's maker asks for it, have it permitted with his sheet as the reason.
    """
    if not joint_leads:
        return not_applicable("asked at the head joint")
    coated = head_gasket_coating in ("thin", "thick") or head_gasket_kind == "multilayer_steel"
    if not coated:
        return not_applicable("a gasket without coating")
    return require(head_gasket_sealer == "none").telling(product=product_name(head_gasket_sealer, True))


@rule(
    scope="joint",
    level="warning",
    due="assembly",
    says="{what} {state}.",
    fix="{remedy}",
    source="common practice, no source",
    when={"joint_name": ("head",)},
    points_at=("head_gasket_sealer", "head_gasket_kind"),
    conforming=(SEALER % ("copper", "none", "spray_round_coolant", ""), SEALER % ("composite", "none", "none", "")),
    nonconforming=(SEALER % ("copper", "none", "none", "# <-"), SEALER % ("steel_shim", "none", "none", "# <-"), """
        build: {stage: assembly}
        head_gasket: {kind: copper}  # <-
        joints: {head: {kind: stud}}
        """),
)
def bare_gasket_has_sealer(
    joint_name: Choice, joint_leads: YesNo = True, head_gasket_kind: Choice = None, head_gasket_coating: Choice = None,
    head_gasket_sealer: Choice = None,
):
    """Bare metal seals gas by pressure, but water finds the scratches: copper weeps round its coolant holes, steel shims all over."""
    if not joint_leads or head_gasket_kind not in ("copper", "steel_shim") or head_gasket_coating in ("thin", "thick"):
        return not_applicable("not a bare metal gasket")
    copper = head_gasket_kind == "copper"
    verdict = wanting("head_gasket_sealer") if head_gasket_sealer is None else require(head_gasket_sealer != "none")
    return verdict.telling(what="A solid copper gasket" if copper else "A bare steel shim gasket",
                           state="has no word on its sealer" if head_gasket_sealer is None else "is to be fitted without sealer",
                           remedy="Spray it round the coolant holes, or use a bead in a groove there; keep the bores dry."
                           if copper else
                           "Give both sides a thin, even spray and fit it tacky.")
