"""Whether the pushrod's tube carries what pushes on it: wall, material, and the load at which it bows."""

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
    says="A {pushrod_outside_diameter} pushrod with a {pushrod_wall} wall under {spring_open_load_largest} open is thin; "
         "use {next_wall}.",
    fix="Go to the {next_wall} wall, which drops into the same guide slots; where the head has room, 11/32 or 3/8 in "
        "is stiffer still.",
    source="common practice, no source",
    points_at=("pushrod_wall",),
    conforming=(WALL % ("0.105 in", "", "460 lbf"), WALL % ("0.080 in", "", "420 lbf"), WALL % ("0.080 in", "", "396 lbf"),
                WALL % ("0.103 in", "", "460 lbf"), """
        rockers: {ratio: 1.5}
        pushrods: {outside_diameter: 5/16 in, wall: 0.080 in}
        intake:
          spring: {open_load: 460 lbf}
        """),
    nonconforming=(WALL % ("0.080 in", "# <-", "460 lbf"), WALL % ("0.080 in", "# <-", "430 lbf"),
                   WALL % ("0.065 in", "# <-", "360 lbf"), """
        rockers: {ratio: 1.9}
        pushrods: {outside_diameter: 5/16 in, wall: 0.080 in}  # <-
        intake:
          spring: {open_load: 390 lbf}
        """),
)
def pushrod_wall_suits_load(
    pushrod_wall: Length, pushrod_outside_diameter: Length, spring_open_load_largest: Force, rocker_ratio: Ratio, *,
    thick_wall: Length = q("0.105 in"), needed_above: Force = q("420 lbf"),
    usual_wall: Length = q("0.080 in"), usual_needed_above: Force = q("350 lbf"),
    small_diameter: Length = q("0.316 in"), tolerance: Length = q("0.002 in"), usual_tolerance: Length = q("0.005 in"),
    push_needing_thick_wall: Force = q("714 lbf"),
):
    """A thin tube bows and springs: the valve follows late and the push wears the ends.

    The trade's rule for 5/16 in: the standard 0.080 in wall to about 420 lbf open at a ratio near 1.7, the next
    wall, 0.105 in, above it. Others go straight to a larger diameter. Both are right: from 0.080 to 0.105 in the rod
    gains 17 % stiffness but only 5 % of buckling load, so that the wall is a matter of stiffness and wear, while
    3/8 in nearly doubles the buckling load. The wall is the default because it drops into the same guide slots.
    Away from a ratio of 1.6 to 1.8 the push at the rod counts instead, 714 lbf.
    """
    if pushrod_outside_diameter > small_diameter:
        return not_applicable("larger than 5/16 in")
    heavy = spring_open_load_largest
    if not 1.6 * (1 - 1e-9) <= rocker_ratio <= 1.8 * (1 + 1e-9):
        heavy = spring_open_load_largest * rocker_ratio * needed_above / push_needing_thick_wall
    if heavy > needed_above * (1 + 1e-9):
        return at_least(pushrod_wall, Length(thick_wall - tolerance, thick_wall.unit)).telling(next_wall=thick_wall)
    if heavy > usual_needed_above * (1 + 1e-9):
        return at_least(pushrod_wall, Length(usual_wall - usual_tolerance, usual_wall.unit)).telling(next_wall=usual_wall)
    return passes()


SOFT = """
build: {rev_limit: %s}
pushrods: {material: %s, build: %s, hardened: %s}  %s
intake:
  spring: {open_load: %s}
"""


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="A {kind} pushrod is worked at {value}; such a tube is not strong enough above {limit}.",
    fix="Order heat-treated chrome-moly pushrods in one piece.",
    source="published in the trade press without a derivation: common practice, no source",
    points_at=("pushrod_material", "pushrod_build"),
    conforming=(SOFT % ("6500 rpm", "low_carbon", "pressed_ends", "ends_only", "", "400 lbf"),
                SOFT % ("8000 rpm", "chrome_moly", "one_piece", "through_hardened", "", "600 lbf"),
                SOFT % ("7000 rpm", "seamless", "pressed_ends", "none", "", "380 lbf"),
                SOFT % ("6500 rpm", "seamless", "one_piece", "case_hardened", "", "440 lbf")),
    nonconforming=(SOFT % ("6500 rpm", "low_carbon", "pressed_ends", "ends_only", "# <-", "410 lbf"),
                   SOFT % ("7200 rpm", "low_carbon", "pressed_ends", "ends_only", "# <-", "380 lbf"),
                   SOFT % ("6500 rpm", "chrome_moly", "welded_ends", "ends_only", "# <-", "440 lbf"),
                   SOFT % ("6500 rpm", "seamless", "pressed_ends", "none", "# <-", "440 lbf")),
)
def pushrod_material_suits_load(
    spring_open_load_largest: Force, rev_limit: Rpm = None, pushrod_material: Choice = None, pushrod_build: Choice = None,
    pushrod_hardened: Choice = None, *,
    soft_tube_to: Force = q("400 lbf"), soft_tube_speed: Rpm = q("7000 rpm"),
):
    """Plain tube and welded ends are for stock springs: under stiff ones the ball pulls loose or the tube mushrooms.

    The trade draws the line at 400 lbf open or 7000 rpm. Low-carbon tube and welded balls are the known failures;
    seamless tube that nobody heat-treated is asked about more mildly. Under both figures any tube will do, and the
    material need not be written.
    """
    if spring_open_load_largest > soft_tube_to * (1 + 1e-9):
        worked, limit = spring_open_load_largest, soft_tube_to
    elif rev_limit is not None and rev_limit > soft_tube_speed * (1 + 1e-9):
        worked, limit = rev_limit, soft_tube_speed
    else:
        return passes()
    if pushrod_build == "welded_ends":
        return at_most(worked, limit).telling(kind="welded").at("pushrod_build")
    if pushrod_material is None:
        return lacking("pushrod_material")
    if pushrod_material == "low_carbon":
        return at_most(worked, limit).telling(kind="plain low-carbon")
    if pushrod_material == "seamless" and pushrod_hardened not in ("through_hardened", "case_hardened"):
        return at_most(worked, limit).within_level("warning").telling(kind="seamless, not heat-treated")
    return passes()


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="The pushrod bows at {pushrod_buckling_load_smallest}, only {value} times the {pushrod_static_load_largest} on it at full lift; "
         "keep {limit} times.",
    fix="Take a larger diameter first, then a thicker wall; a rod of {pushrod_length_largest} wants it more than a short one. "
        "Or keep the open load under {load_to_stay_under:down}.",
    source="column strength: Shigley, Mechanical Engineering Design, 9th ed., sections 4-12 and 4-13; factor 2.5: Khurmi "
           "and Gupta, A Textbook of Machine Design, Art. 16.14",
    points_at=("pushrod_outside_diameter", "pushrod_wall"),
    conforming=("""
        rockers: {ratio: 1.7}
        pushrods: {outside_diameter: 5/16 in, wall: 0.105 in, length: 7.800 in, material: chrome_moly}
        intake:
          spring: {open_load: 460 lbf}
        """, """
        rockers: {ratio: 1.7}
        pushrods: {outside_diameter: 5/16 in, wall: 0.080 in, length: 7.400 in, material: seamless}
        intake:
          spring: {open_load: 420 lbf}
        """),
    nonconforming=("""
        rockers: {ratio: 1.8}
        pushrods: {outside_diameter: 5/16 in, wall: 0.080 in, length: 9.400 in, material: chrome_moly}  # <-
        intake:
          spring: {open_load: 480 lbf}
        """, """
        rockers: {ratio: 1.7}
        pushrods: {outside_diameter: 5/16 in, wall: 0.080 in, length: 8.600 in, material: chrome_moly}  # <-
        intake:
          spring: {open_load: 460 lbf}
        """),
)
def pushrod_carries_static_load(
    pushrod_static_load_largest: Force, pushrod_buckling_load_smallest: Force, spring_open_load_largest: Force, pushrod_length_largest: Length, *,
    warning_below: Ratio = q("2.5", "ratio"), error_below: Ratio = q("2.0", "ratio"),
):
    """A pushrod is a column on ball ends: past its buckling load it bows and stays bowed.

    The static margin covers what the model leaves out: the dynamic peaks, a rod not quite straight, a load not
    quite central. Both ends count as free to swivel; no rod is ever held more firmly than that. A textbook uses 2.5
    for push rods; below 2.0 no builder would run it.
    """
    if pushrod_static_load_largest <= 0:
        return not_applicable("a zero or less is a slip, which the rule on plausible values reports")
    margin = pushrod_buckling_load_smallest / pushrod_static_load_largest
    verdict = at_least(Ratio(margin), warning=warning_below, error=error_below)
    return verdict.telling(load_to_stay_under=Force(spring_open_load_largest * margin / warning_below))


PUSH = """
build: {rev_limit: %s}
rockers: {ratio: 1.7}
pushrods: {outside_diameter: %s, wall: %s, length: 8.200 in, material: chrome_moly}  %s
intake:
  spring: {open_load: 850 lbf}
"""


@rule(
    scope="side",
    level="warning",
    due="ordering",
    says="The pushrod bows at {pushrod_buckling_load_smallest}, only {value} times the {pushrod_design_load_largest} that the running train "
         "is taken to put on it; keep {limit} times.",
    fix="Take a larger diameter, or a shorter rod with a taller lifter; a thicker wall helps little against bowing.",
    source="column strength: Shigley, Mechanical Engineering Design, 9th ed., sections 4-12 and 4-13; load factors and "
           "margin: engineering judgement, no source",
    points_at=("pushrod_outside_diameter", "pushrod_wall"),
    conforming=PUSH % ("8500 rpm", "7/16 in", "0.125 in", ""),
    nonconforming=PUSH % ("8500 rpm", "3/8 in", "0.135 in", "# <-"),
)
def pushrod_carries_dynamic_load(
    pushrod_buckling_load_smallest: Force, pushrod_design_load_largest: Force, *, warning_below: Ratio = q("1.5", "ratio"),
):
    """The highest push comes while the valve is being thrown open, not at full lift standing still.

    The running load is only estimated: 1.5 times the static push, twice it above 7500 rpm, above 15 psi of boost or
    with nitrous, or what opening the exhaust valve against the cylinder takes. One guess bears one margin, so that
    1.5 on top of it is enough for a warning, and there is no error.
    """
    if pushrod_design_load_largest <= 0:
        return not_applicable("a zero or less is a slip, which the rule on plausible values reports")
    return at_least(Ratio(pushrod_buckling_load_smallest / pushrod_design_load_largest), warning=warning_below)
