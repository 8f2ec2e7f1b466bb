"""Whether two threads belong together, or only look as if they did."""

from buildlint.mechanics.threads import flank_overlap, same_thread, thread_name, turns_to_bind
from buildlint.rulebook import *

PAIR = """
joints:
  head: {kind: %s, thread: %s, hole_thread: %s, tapped_thread: %s}  %s
"""


@rule(
    scope="joint",
    level="error",
    due="ordering",
    says="The fastener has {male}, the hole is tapped {female}.",
    fix="Order the fastener with {female} in the casting, or have the hole retapped or inserted; never force it.",
    source="ISO 68-1, ISO 261, ASME B1.1, ASME B1.20.1, ISO 7-1",
    points_at=("tapped_thread", "hole_thread", "thread"),
    conforming=(PAIR % ("stud", "7/16-20", "7/16-14", "7/16-14 UNC", ""), PAIR % ("bolt", "M8", "M8", "M8x1.25", "")),
    nonconforming=("joints: {head: {kind: bolt, thread: M10x1.25, hole_thread: M10x1.5}}  # <-",
                   PAIR % ("stud", "M11x1.5", "M11x2", "7/16-14", "# <-"), PAIR % ("bolt", "3/8-16", "3/8-16", "3/8-24", "# <-"), """
        joints:
          oil_sender: {thread: 1/8-27 NPT, tapped_thread: 1/8-28 BSPT}  # <-
        """),
)
def threads_of_a_pair_match(tapped_thread: Thread = None, hole_thread: Thread = None, thread: Thread = None, kind: Choice = None):
    """A thread of the wrong pitch or system starts by hand, feels right for some turns, and then tears the hole.

    An M size without a pitch is taken as coarse. A stud may have two threads, a bolt has one.
    """
    if tapped_thread is None:
        if kind not in ("bolt", "cap_screw") or None in (thread, hole_thread):
            return not_applicable("the thread in the casting is not written")
        if same_thread(thread, hole_thread):
            return not_applicable("the bolt has one thread, and the hole's is not written")
        return require(False).at("hole_thread").telling(
            male=thread_name(thread), female=thread_name(hole_thread)).saying(
            "The bolt has {male}, but {female} is written for its end in the casting.",
            "Read both with a thread gauge, and order bolts with the thread that is in the casting; never force them.")
    male = hole_thread if hole_thread is not None else thread if kind != "stud" else None
    if male is None:
        return not_applicable("the fastener's thread in the casting is not written")
    return require(same_thread(male, tapped_thread)).telling(male=thread_name(male), female=thread_name(tapped_thread))


ALIKE = """
joints:
  head: {kind: stud, thread: %s, tapped_thread: %s, engagement_length: 0.75 in}
  main: {kind: bolt, thread: %s, tapped_thread: %s, engagement_length: 0.75 in%s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="{male} of {male_joint} runs {turns} into the {female} holes of {female_joint} and holds on {overlap} of the flank: "
         "easily swapped by hand, and it pulls out under torque.",
    fix="Bag and mark the two apart and write bag_label for one of them, or bring the engine to one standard.",
    source="geometry of the flanks; play of 0.08 mm between usual tolerances: common practice, no source",
    when={"joints_listed": given},
    conforming=(ALIKE % ("7/16-20", "7/16-14", "1/2-13", "1/2-13", "", ""),
                ALIKE % ("M12x1.25", "M12x1.25", "1/2-20", "1/2-20", ", bag_label: main caps red", "")),
    nonconforming=(ALIKE % ("M12x1.25", "M12x1.25", "1/2-20", "1/2-20", "", "# <-"),
                   ALIKE % ("7/16-20", "M12x1.75", "1/2-13", "M12x1.25", "", "# <-")),
)
def look_alike_threads_are_kept_apart(
    joints_listed: Entries, *, diameters_within: Length = q("1.0 mm"), share_of_engagement: Fraction = q("0.8", "fraction"),
    usual_engagement: Ratio = q("1.5", "ratio"),
):
    """Some inch and metric fasteners wind into each other's holes all the way and hold on a fraction of their flanks.

    A thinner male thread of nearly the same pitch is the trap: it goes in like the right one and strips at half the
    torque. Pairs that bind after a turn or two announce themselves, and sizes of one standard are told apart by eye.
    """
    if len(joints_listed) < 2:
        return not_applicable("one joint only")
    worst, joints_listed = None, sorted(joints_listed, key=lambda row: row["joint"])
    for one in joints_listed:
        male = one.get("thread") or one.get("hole_thread")
        for other in joints_listed:
            female = other.get("tapped_thread") or (other.get("hole_thread") or other.get("thread"))
            if one is other or male is None or female is None or male.taper or female.taper or one.get("bag_label") or other.get("bag_label"):
                continue
            if male.unified == female.unified or not 0 < female.diameter - male.diameter <= diameters_within:
                continue
            engaged = (other.get("engagement_length") or usual_engagement * female.diameter) / female.pitch
            turns = turns_to_bind(male, female)
            if turns >= share_of_engagement * engaged and (worst is None or turns / engaged > worst[0]):
                worst = (turns / engaged, male, female, one, other, turns, engaged)
    if worst is None:
        return passes()
    share, male, female, one, other, turns, engaged = worst
    later = max(one, other, key=joints_listed.index)
    return require(False).at(f"{later['joint']}_joint_thread", f"{later['joint']}_joint_tapped_thread").telling(
        male=thread_name(male), female=thread_name(female), male_joint=_name(one), female_joint=_name(other),
        turns="all the way" if turns >= engaged else "nearly all the way", overlap=f"{flank_overlap(male, female):.0%}")


def _name(row):
    return row["joint"].replace("_", " ")
