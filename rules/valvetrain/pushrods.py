"""Whether the pushrod's tube and surface suit what pushes on it and rubs along it."""

from buildlint.rulebook import *

WALL = """
rockers: {ratio: 1.7}
pushrods: {outside_diameter: 5/16 in, wall: %s}  %s
intake:
  spring: {open_load: %s}
"""


@rule(
    scope="side",
    level="warning",
    due="ordering",
    says="A {pushrod_outside_diameter} pushrod with a {pushrod_wall} wall under {spring_open_load} open is thin; "
         "use at least {limit}.",
    fix="Go to the {thick_wall} wall, which drops into the same guide slots; where the head has room, 11/32 or 3/8 in "
        "is stiffer still.",
    source="common practice, no source",
    points_at=("pushrod_wall",),
    conforming=(WALL % ("0.105 in", "", "460 lbf"), WALL % ("0.080 in", "", "420 lbf"), WALL % ("0.080 in", "", "396 lbf")),
    nonconforming=(WALL % ("0.080 in", "# <-", "460 lbf"), WALL % ("0.065 in", "# <-", "360 lbf")),
)
def pushrod_wall_suits_load(
    pushrod_wall: Length, pushrod_outside_diameter: Length, spring_open_load: Force, rocker_ratio: Ratio, *,
    thick_wall: Length = q("0.105 in"), needed_above: Force = q("420 lbf"),
    usual_wall: Length = q("0.075 in"), usual_needed_above: Force = q("350 lbf"),
    small_diameter: Length = q("0.316 in"), tolerance: Length = q("0.002 in"),
):
    """A thin tube bows and springs: the valve follows late and the push wears the ends.

    The trade's rule for 5/16 in: the standard 0.080 in wall to about 420 lbf open at a ratio near 1.7, the next
    wall, 0.105 in, above it. It is a rule of stiffness; the thicker wall adds 17 % stiffness but hardly any
    buckling load, so a larger diameter is the better cure where it fits. Away from a ratio of 1.6 to 1.8 the
    push at the rod counts instead, 714 lbf.
    """
    if pushrod_outside_diameter > small_diameter:
        return not_applicable("larger than 5/16 in")
    heavy = spring_open_load if 1.6 <= rocker_ratio <= 1.8 else spring_open_load * rocker_ratio / 1.7
    if heavy > needed_above * (1 + 1e-9):
        return at_least(pushrod_wall, Length(thick_wall - tolerance))
    if heavy > usual_needed_above * (1 + 1e-9):
        return at_least(pushrod_wall, usual_wall)
    return passes()


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="The pushrod bows at {pushrod_buckling_load}, only {value} times the {pushrod_static_load} on it at full lift; "
         "keep {limit} times.",
    fix="Take a larger diameter first, then a thicker wall; a {pushrod_length} rod wants it more than a short one. "
        "Or keep the open load under {load_to_stay_under}.",
    source="column strength: Shigley, Mechanical Engineering Design, 9th ed., sections 4-12 and 4-13; factor 2.5: Khurmi "
           "and Gupta, A Textbook of Machine Design, Art. 16.14",
    points_at=("pushrod_outside_diameter", "pushrod_wall"),
    conforming="""
        rockers: {ratio: 1.7}
        pushrods: {outside_diameter: 5/16 in, wall: 0.105 in, length: 7.800 in, material: chrome_moly}
        intake:
          spring: {open_load: 460 lbf}
        """,
    nonconforming="""
        rockers: {ratio: 1.8}
        pushrods: {outside_diameter: 5/16 in, wall: 0.080 in, length: 9.400 in, material: chrome_moly}  # <-
        intake:
          spring: {open_load: 480 lbf}
        """,
)
def pushrod_carries_static_load(
    pushrod_static_load: Force, pushrod_buckling_load: Force, spring_open_load: Force, pushrod_length: Length, *,
    warning_below: Ratio = q("2.5", "ratio"), error_below: Ratio = q("2.0", "ratio"),
):
    """A pushrod is a column on ball ends: past its buckling load it bows and stays bowed.

    The static margin covers what the model leaves out: the dynamic peaks, a rod not quite straight, a load not
    quite central. A textbook uses 2.5 for push rods; below 2.0 no builder would run it.
    """
    verdict = at_least(Ratio(pushrod_buckling_load / pushrod_static_load), warning=warning_below, error=error_below)
    return verdict.telling(load_to_stay_under=Force(
        spring_open_load * pushrod_buckling_load / pushrod_static_load / warning_below))


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="The pushrods rub on {guides} and are not hardened there.",
    fix="Order hardened pushrods (through-hardened, 58 HRC or more on the surface), or guide the rockers another way.",
    source="common practice, no source",
    when={"rocker_guided_by": given},
    points_at=("pushrod_hardened",),
    conforming="""
        rockers: {guided_by: guideplate}
        pushrods: {hardened: through_hardened}
        """,
    nonconforming=("""
        rockers: {guided_by: guideplate}
        pushrods: {hardened: none}  # <-
        """, """
        rockers: {guided_by: [guideplate, rail_tip]}
        pushrods: {hardened: ends_only}  # <-
        """),
)
def guided_pushrods_are_hardened(pushrod_hardened: Choice, rocker_guided_by: List):
    """A guideplate or slot in the head saws through a soft pushrod in an evening, even at stock loads.

    Hard ends are not enough: the rod rubs along its body.
    """
    guides = [rocker_guided_by] if isinstance(rocker_guided_by, str) else list(rocker_guided_by)
    rubbing = [guide for guide in guides if guide in ("guideplate", "head_slot")]
    if not rubbing:
        return not_applicable("nothing rubs along the pushrod")
    return one_of(pushrod_hardened, ("through_hardened", "case_hardened")).telling(guides=" and ".join(rubbing))
