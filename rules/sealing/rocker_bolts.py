"""Sealed rocker bolts: their end in the port, and their torque after the first heat."""

from buildlint.rulebook import *
from buildlint.tables.fasteners import ROCKER_JOINTS

PORT = """
joints:
  rocker_intake: {kind: bolt, tip_to_obstacle: %s, hole: {opens_into: intake_port}}  %s
"""


@rule(
    scope="joint",
    level="warning",
    due="assembly",
    says="The rocker bolt stands {stands:up} into the intake port.",
    fix="Shorten it by {stands:up} and dress the tip, so that it ends flush with the wall.",
    source="common practice, no source",
    when={"tip_to_obstacle": given},
    points_at=("tip_to_obstacle",),
    conforming=(PORT % ("0 in", ""), PORT % ("-0.4 mm", "")),
    nonconforming=PORT % ("-0.06 in", "# <-"),
)
def rocker_bolt_stays_out_of_port(
    tip_to_obstacle: Length, joint_name: Choice, hole_opens_into: Choice = None, *, most: Length = q("0.5 mm"),
):
    """A bolt end in the port trips the flow, wets its wall, and carries sealant away with it."""
    if joint_name not in ROCKER_JOINTS or hole_opens_into != "intake_port":
        return not_applicable("not a rocker bolt into a port")
    return at_most(Length(-tip_to_obstacle), most).telling(stands=Length(max(0.0, -tip_to_obstacle)))


@rule(
    scope="joint",
    level="reminder",
    due="handover",
    says="Check the torque of the sealed {joint_name} bolts once, cold, after the first heat.",
    fix="One at a time, on the base circle; never add threadlocker to a sealed bolt.",
    source="common practice, no source",
    when={"thread_product": given},
    points_at=("thread_product",),
    conforming="joints: {rocker_intake: {kind: shouldered_stud, thread_product: ptfe_paste, hole: {opens_into: intake_port}}}",
)
def sealed_bolt_is_retorqued(thread_product: Choice, joint_name: Choice, hole_opens_into: Choice = None):
    """Sealant lubricates and creeps: the same torque gave more tension at first, and a little of it goes in the first heat."""
    sealed = thread_product in ("ptfe_paste", "anaerobic_sealant", "silicone") and hole_opens_into not in (None, "nothing")
    if joint_name not in ROCKER_JOINTS or not sealed:
        return not_applicable("not a sealed rocker bolt")
    return review()
