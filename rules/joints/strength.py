"""What must be known of a fastener before its torque means anything, and the tension it then has."""

from buildlint.rulebook import *
from buildlint.tables.fasteners import CRITICAL_JOINTS

STATED = """
build: {stage: ordering}
joints:
  head: {%s}  %s
"""


@rule(
    scope="joint",
    level="warning",
    due="ordering",
    says="Nothing is written of the {missing_facts} of the {joint_name} fasteners.",
    fix="Write thread, and strength_class or the certificate's yield_strength; for stock bolts the maker's torque and the "
        "lubricant it is given for do instead of a class.",
    source="Shigley, Mechanical Engineering Design, 9th ed., section 8-8",
    points_at=("kind", "torque", "count"),
    conforming=(STATED % ("thread: 7/16-20, strength_class: 190_ksi", ""),
                STATED % ("thread: 7/16-14, torque: 65 lbf-ft, torque_given_for: engine_oil", ""),
                STATED % ("kind: bolt, condition: reused", "")),
    nonconforming=(STATED % ("kind: bolt", "# <-"), STATED % ("kind: stud, thread: 7/16-20", "# <-"),
                   STATED % ("kind: stud, strength_class: 190_ksi", "# <-")),
)
def fastener_states_thread_and_class(
    joint_name: Choice, stage: Choice = None, thread: Thread = None, strength_class: Choice = None,
    yield_strength_written: Pressure = None,
    proof_strength_written: Pressure = None, torque: Torque = None, torque_given_for: Choice = None, lubricant: Choice = None,
    torque_source: Choice = None, condition: Choice = None, kind: Choice = None, count: Count = None,
):
    """Whether a torque stretches a bolt enough, or too far, is told by its thread and its strength and by nothing else.

    Only asked of the joints an engine hangs on. Stock bolts seldom carry a class on paper: there the maker's torque
    with its lubricant stands for it. Bolts that stay in the family are not asked before assembly.
    """
    if joint_name not in CRITICAL_JOINTS:
        return not_applicable("not a critical joint")
    if condition in ("reused", "reused_in_place") and stage in (None, "planning", "ordering", "machining", "mock_up"):
        return not_applicable("the fasteners are kept; asked at assembly")
    strong = strength_class or yield_strength_written or proof_strength_written
    by_maker = torque and (torque_given_for or lubricant) and torque_source not in ("computed", "converted")
    missing = ([] if thread else ["thread"]) + ([] if strong or by_maker else ["strength_class"])
    if not missing:
        return passes()
    return wanting(*missing).telling(missing_facts=" and the ".join(name.replace("_", " ") for name in missing))


KNOWN = """
build: {stage: ordering}
joints:
  head: {thread: 7/16-20, torque: 70 lbf-ft%s}  %s
"""


@rule(
    scope="joint",
    level="note",
    due="ordering",
    says="{torque} may mean anything from {least} to {most} of tension, since nothing is written of the lubricant.",
    fix="Write lubricant and face_lubricant, or torque_given_for from the maker's sheet.",
    source="Shigley, Mechanical Engineering Design, 9th ed., Eq. 8-27",
    when={"torque": given},
    points_at=("torque",),
    conforming=(KNOWN % (", lubricant: moly_paste, strength_class: 190_ksi", ""), KNOWN % (", torque_given_for: engine_oil", "")),
    nonconforming=KNOWN % ("", "# <-"),
)
def bolt_preload_is_known(
    torque: Torque, joint_name: Choice, diameter: Length = None, preload: Force = None, share_of_proof: Fraction = None,
    stage: Choice = None, *, slippery: Ratio = q("0.10", "ratio"), sticky: Ratio = q("0.30", "ratio"),
):
    """What holds a joint is tension, not torque; this is where the tension, and its share of proof, comes from.

    The share is taken at the weakest section: of a stud the coarse end in the block, which quoting the fine end
    flatters by a tenth. From assembly on the missing lubricant has a rule of its own.
    """
    if joint_name not in CRITICAL_JOINTS or stage in ("assembly", "handover"):
        return not_applicable("not a critical joint" if joint_name not in CRITICAL_JOINTS else "the lubricant is asked for")
    if preload is not None:
        verdict = passes()
        verdict.value = Fraction(share_of_proof) if share_of_proof is not None else Force(preload)
        return verdict
    if diameter is None:
        return not_applicable("the thread is asked for")
    return require(False).telling(least=Force(torque / sticky / diameter), most=Force(torque / slippery / diameter))
