"""Fasteners tightened by torque and angle, and those that are drawn into yield."""

from buildlint.rulebook import *

ANGLE = """
joints:
  head:
    {kind: bolt, thread: M11x2, strength_class: iso_10_9, lubricant: engine_oil, face_lubricant: engine_oil, shank_length: 60 mm, shank_diameter: 9.4 mm,
     thread_in_grip: 40 mm, grip_length: 100 mm, clamped: {material: aluminum_356_t6, area: 700 mm^2}, tightening: %s, snug_torque: 30 N*m, angle: %s}  %s
"""


@rule(
    scope="joint",
    level="error",
    due="ordering",
    says="{torque_before_angle} and {angle} would take the bolt to {value} of its yield load; it is not written as one that is "
         "drawn into yield.",
    fix="Write tightening: yield_angle and reuse: once_only if its maker means it so, else turn it by at most {angle_to_stay_under:down}.",
    source="VDI 2230-1; stiffness of the clamped parts as written or by Shigley Eq. 8-20",
    when={"angle": given},
    points_at=("angle",),
    conforming=(ANGLE % ("torque_angle", "50 deg", ""), ANGLE % ("yield_angle", "160 deg", "")),
    nonconforming=(ANGLE % ("torque_angle", "160 deg", "# <-"), ANGLE % ("torque_angle", "76 deg", "# <-")),
)
def angle_tightening_suits_the_bolt(
    angle: Angle, tightening: Choice = None, reuse: Choice = None, angle_preload: Force = None, yield_load: Force = None,
    torque_before_angle: Torque = None, nut_factor: Ratio = None, diameter: Length = None, shank_length: Length = None, *,
    error_above: Fraction = q("1.0", "fraction"), warning_above: Fraction = q("0.9", "fraction"),
):
    """An angle turns past friction and buys tension by geometry: too far, and an ordinary bolt is pulled long for good.

    How much of the turn stretches the bolt and how much squeezes the parts follows from their stiffness. Where only
    the grip of the bolt is known its shank is guessed, and the finding is a warning at most.
    """
    if tightening == "yield_angle" or reuse == "once_only":
        return not_applicable("drawn into yield on purpose")
    if None in (angle_preload, yield_load, torque_before_angle, nut_factor, diameter):
        return not_applicable("lengths, strength or lubricant of the bolt are not known")
    if diameter <= 0 or nut_factor <= 0:
        return not_applicable("diameter or lubricant makes no sense")
    verdict = at_most(Fraction(angle_preload / yield_load), error=error_above, warning=warning_above)
    if shank_length is None:
        verdict.within_level("warning")
    snug = torque_before_angle / (nut_factor * diameter)
    room = max(0.0, warning_above * yield_load - snug) / max(angle_preload - snug, 1e-9)
    return verdict.telling(angle_to_stay_under=Angle(angle * room))


@rule(
    scope="joint",
    level="error",
    due="ordering",
    says="An angle of {angle} is written without the torque it starts from.",
    fix="Write snug_torque from the maker's sheet: the angle counts from there.",
    source="VDI 2230-1",
    when={"angle": given},
    points_at=("angle",),
    conforming="""
        joints:
          head: {tightening: torque_angle, snug_torque: 22 lbf-ft, angle: 90 deg}
        """,
    nonconforming="""
        build: {stage: ordering}
        joints:
          head: {tightening: torque_angle, angle: 90 deg}  # <-
        """,
)
def angle_has_a_snug_torque(angle: Angle, torque_before_angle: Torque = None):
    """Degrees from where? Without the torque that closes the joint first, the same angle makes any tension at all."""
    return passes() if torque_before_angle is not None else wanting("snug_torque")


YIELD = """
joints:
  head: {kind: bolt, %s}  %s
"""


@rule(
    scope="joint",
    level="error",
    due="assembly",
    says="The bolts are {what}, but only a torque is written for them.",
    fix="Write snug_torque and angle from the maker's sheet; a torque alone does not tell when such a bolt yields.",
    source="factory practice for bolts drawn into yield; VDI 2230-1",
    points_at=("tightening", "torque", "reuse"),
    conforming=(YIELD % ("tightening: yield_angle, snug_torque: 22 lbf-ft, angle: 90 deg, reuse: once_only", ""),
                YIELD % ("tightening: torque, torque: 70 lbf-ft, reuse: reusable", "")),
    nonconforming=(YIELD % ("tightening: yield_angle, torque: 70 lbf-ft", "# <-"),
                   YIELD % ("tightening: torque, torque: 70 lbf-ft, reuse: once_only", "# <-")),
)
def yield_bolts_are_tightened_by_angle(
    tightening: Choice = None, reuse: Choice = None, angle: Angle = None, torque: Torque = None, joint_name: Choice = None,
):
    """A bolt drawn into yield is tightened by turning it past the bend of its curve; a torque finds that point by luck.

    Single-use bolts of head, mains and rods are mostly of this kind; some only carry a patch of locking compound, so
    for them it is a warning.
    """
    if angle is None and torque is None:
        return not_applicable("no tightening is written")
    if angle is not None:
        return passes()
    if tightening == "yield_angle":
        return require(False).telling(what="drawn into yield")
    if reuse == "once_only" and joint_name in ("head", "main", "rod"):
        return require(False, "warning").telling(what="for one use only")
    return passes()


@rule(
    scope="joint",
    level="error",
    due="assembly",
    says="The {joint_name} bolts are {what}, and these are {condition}.",
    fix="Order a new set; where their maker allows reuse by measured length, write reuse: by_measured_length and "
        "free_length_growth.",
    source="factory practice: replace whenever removed; some makers allow a measured length",
    when={"condition": given},
    points_at=("condition",),
    conforming=(YIELD % ("tightening: yield_angle, condition: new", ""), YIELD % ("tightening: torque, condition: reused", ""),
                YIELD % ("tightening: yield_angle, condition: reused, reuse: by_measured_length, free_length_growth: 0.0002 in",
                         "")),
    nonconforming=(YIELD % ("tightening: yield_angle, condition: reused", "# <-"),
                   YIELD % ("tightening: torque, reuse: once_only, condition: reused_in_place", "# <-")),
)
def yield_bolts_are_new(
    condition: Choice, tightening: Choice = None, reuse: Choice = None, free_length_growth: Length = None,
    joint_name: Choice = None,
):
    """A bolt that has yielded once is longer and thinner at one place, and breaks there the second or third time.

    Practice is split: most sheets say replace whenever removed, some give a length to measure. The maker's word wins;
    without the measurement it allows, reuse is a warning.
    """
    if tightening != "yield_angle" and reuse != "once_only":
        return not_applicable("not drawn into yield and not for one use")
    what = "drawn into yield" if tightening == "yield_angle" else "for one use only"
    if condition not in ("reused", "reused_in_place"):
        return passes()
    if reuse in ("by_measured_length", "reusable"):
        return require(free_length_growth is not None, "warning").telling(what=what)
    return require(False).telling(what=what)
