"""What guides the pushrod and the rocker, what the rod rubs on, and what it must not touch."""

from buildlint.rulebook import *

RUBS = """
rockers: {guided_by: %s}
pushrods: {hardened: %s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="The pushrods rub on guideplates, and {trouble}.",
    fix="Order hardened pushrods (through-hardened or case-hardened over the whole body, {hard_enough:up} or more on the "
        "surface), or guide the rockers another way.",
    source="common practice, no source",
    when={"rocker_guided_by": given},
    points_at=("pushrod_hardened", "pushrod_surface_hardness"),
    conforming=(RUBS % ("guideplate", "through_hardened", ""), RUBS % ("head_slot", "none", ""), RUBS % ("rail_tip", "none", ""),
                RUBS % ("[guideplate, shaft]", "case_hardened", "")),
    nonconforming=(RUBS % ("guideplate", "none", "# <-"), RUBS % ("[guideplate, rail_tip]", "ends_only", "# <-"), """
        rockers: {guided_by: guideplate}
        pushrods:
          hardened: through_hardened
          surface_hardness: 45 HRC  # <-
        """),
)
def guided_pushrods_are_hardened(
    rocker_guided_by: List, pushrod_hardened: Choice = None, pushrod_surface_hardness: Hardness = None, *,
    hard_enough: Hardness = q("58 HRC"),
):
    """A guideplate saws through a soft pushrod in an evening, even at stock loads.

    Hard ends are not enough: the rod rubs along its body. Slots in the head are kinder; factory engines ran plain rods in
    them for years, so that they are not asked about.
    """
    guides = [rocker_guided_by] if isinstance(rocker_guided_by, str) else list(rocker_guided_by)
    if "guideplate" not in guides:
        return not_applicable("no guideplate rubs along the pushrod")
    if pushrod_hardened is None:
        return lacking("pushrod_hardened")
    verdict = one_of(pushrod_hardened, ("through_hardened", "case_hardened")).telling(
        trouble="they are not hardened there").at("pushrod_hardened")
    if verdict.kind == "pass" and pushrod_surface_hardness is not None and pushrod_surface_hardness.unit == hard_enough.unit:
        verdict = at_least(pushrod_surface_hardness, warning=hard_enough).at("pushrod_surface_hardness").saying(
            "The pushrods rub on guideplates, and {pushrod_surface_hardness} is soft for that; keep {limit}.")
    return verdict


GUIDES = """
rockers: {mount: %s, guided_by: %s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="The rockers are not guided rightly: {trouble}.",
    fix="Keep exactly one of guideplates, slots in the head, or self-aligning rocker tips on studs, and no more than one "
        "anywhere else; open the slots where guideplates take over.",
    source="common practice, no source",
    points_at=("rocker_guided_by", "rocker_mount"),
    conforming=(GUIDES % ("stud", "guideplate", ""), GUIDES % ("stud", "[rail_tip]", ""), GUIDES % ("shaft", "shaft", ""),
                GUIDES % ("pedestal", "none", "")),
    nonconforming=(GUIDES % ("stud", "[guideplate, rail_tip]", "# <-"), GUIDES % ("stud", "none", "# <-"),
                   GUIDES % ("pedestal", "[guideplate, rail_tip]", "# <-")),
)
def pushrods_have_one_guide(rocker_guided_by: List = None, rocker_mount: Choice = None):
    """A rocker on a stud turns off the valve when nothing holds it, and binds when two things hold it.

    Guideplates, a slot in the head and a self-aligning tip each do it alone. Shafts and pedestals hold the rocker
    themselves, so that they need none of the three.
    """
    if rocker_guided_by is None:
        if rocker_mount in ("shaft", "pedestal", "ball_pedestal"):
            return passes()
        return lacking("rocker_guided_by") if rocker_mount == "stud" else lacking("rocker_mount", "rocker_guided_by")
    guides = [rocker_guided_by] if isinstance(rocker_guided_by, str) else list(rocker_guided_by)
    counted = [guide for guide in dict.fromkeys(guides) if guide in ("guideplate", "head_slot", "rail_tip")]
    if len(counted) > 1:
        named = " and ".join(guide.replace("_", " ") for guide in counted)
        return require(False).telling(trouble=f"two guides ({named}) hold the same rocker and will bind")
    if counted:
        return passes()
    if rocker_mount is None:
        return lacking("rocker_mount")
    return require(rocker_mount != "stud").telling(trouble="nothing keeps them on their studs over the valves")


GAP = """
pushrods: {head_gap: %s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="mock_up",
    says="The pushrod comes within {pushrod_head_gap} of the head or its guide; keep {limit} through the whole lift.",
    fix="Open the slot or the guideplate by {short:up}, or take a smaller body; look at every rod, at full lift and at preload.",
    spared=("stock",),
    source="common practice, no source",
    conforming=(GAP % ("0.040 in", ""), GAP % ("0.030 in", "")),
    nonconforming=(GAP % ("0.020 in", "# <-"), GAP % ("0.010 in", "# <-")),
)
def pushrod_clears_the_head(
    pushrod_head_gap: Length, *, warning_below: Length = q("0.030 in"), error_below: Length = q("0.015 in"),
):
    """A rod that touches the port wall or the slot bows, wears through and drops its filings into the oil."""
    return at_least(pushrod_head_gap, warning=warning_below, error=error_below).telling(
        short=Length(warning_below - pushrod_head_gap))


ANGLE = """
pushrods: {angle: %s}  %s
"""


@rule(
    scope="side",
    level="warning",
    due="ordering",
    says="The pushrod leans {pushrod_angle} to the lifter bore; up to {limit} the train hardly notices.",
    fix="Use offset rockers or lifters, or a head whose valves sit nearer to the lifters.",
    source="Cheng, Lewandowski and David, ASME J. Dyn. Sys. Meas. Control 123(3), 2001: little effect below 20 degrees; the "
           "first line common practice, no source",
    when={"pushrod_angle": given},
    conforming=(ANGLE % ("11 deg", ""), ANGLE % ("15 deg", ""), ANGLE % ("18 deg", "")),
    nonconforming=ANGLE % ("22 deg", "# <-"),
)
def pushrod_angle_is_small(
    pushrod_angle: Angle, *, note_above: Angle = q("15 deg"), warning_above: Angle = q("20 deg"),
):
    """A leaning rod pushes the lifter sideways in its bore and tries to turn the rocker."""
    return at_most(pushrod_angle, warning=warning_above, note=note_above)
