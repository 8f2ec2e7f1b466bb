"""Whether the length of a bolt, what it clamps and the thread it is said to engage are of one and the same bolt."""

from buildlint.rulebook import *

REACH = """
joints:
  head: {kind: %s, thread: 7/16-14, length: %s, grip_length: 3.40 in, engagement_length: %s, hole: {end: %s%s}}  %s
"""


@rule(
    scope="joint",
    level="error",
    due="ordering",
    says="The bolt of {length} has {reach} left below the {grip_length} it clamps{beside}; {engagement_length_written} of thread is said to be "
         "engaged.",
    fix="Take a bolt of {wanted:up} where the hole is deep enough, or correct length, grip or engagement.",
    source="geometry",
    when={"engagement_length_written": given},
    points_at=("length", "engagement_length_written"),
    conforming=(REACH % ("bolt", "4.25 in", "0.75 in", "blind", "", ""), REACH % ("bolt", "4.25 in", "0.85 in", "blind", "", ""),
                REACH % ("bolt", "5.00 in", "0.75 in", "through", "", ""), REACH % ("stud", "5.00 in", "0.875 in", "blind", "", ""),
                REACH % ("bolt", "5.00 in", "0.75 in", "blind", ", counterbore: 0.60 in", "")),
    nonconforming=(REACH % ("bolt", "4.00 in", "0.75 in", "blind", "", "# <-"), REACH % ("bolt", "4.75 in", "0.75 in", "blind", "", "# <-"),
                   REACH % ("bolt", "4.25 in", "0.75 in", "blind", ", counterbore: 0.20 in", "# <-"),
                   REACH % ("stud", "5.00 in", "0.875 in", "blind", ", usable_depth: 0.80 in", "# <-")),
)
def bolt_length_suits_grip_and_engagement(
    engagement_length_written: Length, kind: Choice = None, joint_name: Choice = None, length: Length = None, grip_length: Length = None,
    diameter: Length = None, pitch: Length = None, hole_counterbore: Length = None, hole_usable_depth: Length = None,
    hole_end: Choice = None, *, measured_within: Length = q("0.5 mm"), noted_beyond: Ratio = q("0.75", "ratio"),
):
    """What a bolt has below the parts it clamps is all the thread it can engage; whoever writes more has another bolt in mind.

    The rules on engagement and stripping believe what is written, so this asks whether it can be. Half a millimeter is left
    for measuring. Less than the bolt reaches is common, since hole mouths are chamfered and the last turn counts for nothing;
    beyond three quarters of a diameter it is noted for a blind hole, where the rest has to be somewhere. Rod bolts go through
    the cap and the rod in ways of their own, and a stud's length is judged at its nut.
    """
    if kind == "nut_on_through_bolt" or joint_name == "rod":
        return not_applicable("no tapped hole is engaged, or a rod bolt")
    engaged = engagement_length_written
    if hole_usable_depth is not None and engaged > hole_usable_depth + measured_within:
        return at_most(engaged, hole_usable_depth).at("engagement_length_written").saying(
            "{engagement_length_written} of thread is said to be engaged in a hole that is good for {hole_usable_depth}.",
            "Correct one of the two; the thread that holds is never longer than the hole is deep.")
    if kind not in ("bolt", "cap_screw") or None in (length, grip_length):
        return passes() if hole_usable_depth is not None else not_applicable("no bolt, or length and grip are not written")
    reach = Length(length - grip_length - (hole_counterbore or 0.0), engaged.unit)
    facts = {"reach": Length(max(reach, 0.0), engaged.unit), "beside": "" if hole_counterbore is None else " and the counterbore",
             "wanted": Length(length + engaged - reach, length.unit)}
    if engaged > reach + measured_within:
        return at_most(engaged, reach).telling(**facts)
    if hole_end != "blind" or diameter is None or hole_usable_depth is not None:
        return passes()
    return at_least(engaged, note=Length(reach - (pitch or 0.0) - noted_beyond * diameter)).telling(**facts).saying(
        "The bolt of {length} has {reach} left below the {grip_length} it clamps{beside}; only {engagement_length_written} of thread is said to be "
        "engaged.",
        "Measure what stands out below the parts; write hole counterbore where the thread begins deep, and correct the figure that is wrong.")
