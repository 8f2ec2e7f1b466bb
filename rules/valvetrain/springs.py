"""Whether heights, loads and rate of the springs agree, and whether they stay clear of coil bind."""

from buildlint.rulebook import *

SPRING_CAUTION = "A valve spring under load can fly out: use a locked tool and eye protection, and follow its maker."

BIND = """
rockers: {ratio: 1.7}
intake:
  lobe: {lift: 0.353 in}
  spring: {installed_height: 1.800 in, solid_height: %s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="{value} is left at full lift before the coils touch; keep {limit}.",
    fix="Raise the installed height by {short}, or choose a spring whose solid height is lower by as much; the load "
        "falls with the height, so look at the loads again.",
    source="common practice, no source",
    points_at=("spring_solid_height", "spring_installed_height"),
    caution=SPRING_CAUTION,
    conforming=(BIND % ("1.120 in", ""), BIND % ("1.149 in", "")),
    nonconforming=(BIND % ("1.160 in", "# <-"), BIND % ("1.180 in", "# <-")),
)
def spring_stays_clear_of_coil_bind(
    spring_coil_bind_margin: Length, spring_near_bind: YesNo = None, *,
    warning_below: Length = q("0.050 in"), error_below: Length = q("0.030 in"),
    near_bind_note_below: Length = q("0.050 in"), near_bind_warning_below: Length = q("0.030 in"),
    near_bind_error_below: Length = q("0.015 in"),
):
    """Coils that touch stop the valve dead: pushrods bend, rockers break, locks let go.

    The margin covers loft at speed and a rocker ratio a little over nominal. Older guides ask 0.050 to 0.100 in,
    race springs are run at 0.030 to 0.060 in on purpose, since coils near bind damp surge; a spring made for
    that says near_bind.
    """
    if spring_near_bind:
        verdict = at_least(spring_coil_bind_margin, error=near_bind_error_below, warning=near_bind_warning_below,
                           note=near_bind_note_below)
        wanted = near_bind_warning_below
    else:
        verdict = at_least(spring_coil_bind_margin, error=error_below, warning=warning_below)
        wanted = warning_below
    return verdict.telling(short=Length(wanted - spring_coil_bind_margin))


LOADS = """
rockers: {ratio: 1.7}
intake:
  lobe: {lift: 0.353 in}
  spring: {installed_height: 1.800 in, seat_load: 150 lbf, rate: 410 lbf/in, open_load: %s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="The {which} load is written as {value}, but the spring's own figures give {limit} at that height.",
    fix="Measure the spring on a tester at installed height, half lift and full lift, write the loads as load_table, and "
        "correct the load, the rate or the height that was mistyped.",
    source="Hooke's law; limits common practice, no source",
    compares=("spring_seat_load", "spring_open_load"),
    caution=SPRING_CAUTION,
    conforming=(LOADS % ("396 lbf", ""), LOADS % ("385 lbf", "")),
    nonconforming=(LOADS % ("340 lbf", "# <-"), """
        rockers: {ratio: 1.7}
        exhaust:
          lobe: {lift: 0.344 in}
          spring:
            installed_height: 1.800 in
            seat_load: 120 lbf  # <-
            load_table: [[1.800 in, 150 lbf], [1.500 in, 268 lbf], [1.200 in, 400 lbf]]
        """),
)
def spring_loads_match_heights(
    spring_seat_load_written: Force = None, spring_seat_load_computed: Force = None,
    spring_open_load_written: Force = None, spring_open_load_computed: Force = None, *,
    warning_beyond: Fraction = q("0.05", "fraction"), error_beyond: Fraction = q("0.10", "fraction"),
):
    """Every later check rests on the seat and open loads; a load that its own rate or test contradicts is a typing slip.

    Tested loads win over a rate. Five percent covers the tolerance of springs and testers.
    """
    worst = None
    for which, written, computed in (("seat", spring_seat_load_written, spring_seat_load_computed),
                                     ("open", spring_open_load_written, spring_open_load_computed)):
        if written is None or computed is None:
            continue
        share = abs(written / computed - 1)
        verdict = at_most(Fraction(share), warning=warning_beyond, error=error_beyond)
        if worst is None or share > worst[0]:
            verdict.value, verdict.limit = Force(written), Force(computed)
            worst = share, verdict.telling(which=which).at(f"spring_{which}_load_written")
    if worst is None:
        return lacking("spring_seat_load", "spring_rate") if spring_seat_load_written is None \
            else lacking("spring_load_table")
    return worst[1]


RATE = """
rockers: {ratio: 1.7}
intake:
  lobe: {lift: 0.344 in}
  spring:
    installed_height: 1.800 in
    rate: %s  %s
    load_table: [[1.800 in, 150 lbf], [1.500 in, 268 lbf], [1.200 in, 400 lbf]]
"""


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="The rate is written as {value}, but the loads of the spring give {limit}.",
    fix="Trust the tested loads; correct the rate, or test the spring again.",
    source="Hooke's law; limits common practice, no source",
    compares=("spring_rate",),
    conforming=(RATE % ("416 lbf/in", ""), RATE % ("400 lbf/in", "")),
    nonconforming=(RATE % ("360 lbf/in", "# <-"), RATE % ("300 lbf/in", "# <-")),
)
def spring_rate_agrees_with_loads(
    spring_rate_written: Stiffness, spring_rate_computed: Stiffness, *,
    warning_beyond: Fraction = q("0.08", "fraction"), error_beyond: Fraction = q("0.20", "fraction"),
):
    """Rate and loads of one spring are two views of one line; where they part, one of them is mistyped.

    A printed sheet that gives a height in two unit systems has been seen to contradict itself by a sixth.
    """
    verdict = at_most(Fraction(abs(spring_rate_written / spring_rate_computed - 1)), warning=warning_beyond,
                      error=error_beyond)
    verdict.value, verdict.limit = Stiffness(spring_rate_written), Stiffness(spring_rate_computed)
    return verdict


STACK = """
intake:
  valve: {stem_height: 2.560 in}
  retainer: {tip_to_face: 0.760 in}
  locks: {height_gain: 0 in}
  spring: {shim_thickness: 0.030 in, installed_height: %s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="mock_up",
    says="The installed height is written as {spring_installed_height_written}, but stem, retainer, locks and shims "
         "stack to {spring_installed_height_computed}.",
    fix="Measure the height with these very parts; {shim_text}",
    source="geometry; limits common practice, no source",
    compares=("spring_installed_height",),
    points_at=("spring_installed_height_written",),
    conforming=(STACK % ("1.770 in", ""), STACK % ("1.780 in", "")),
    nonconforming=(STACK % ("1.785 in", "# <-"), STACK % ("1.800 in", "# <-")),
)
def installed_height_matches_stack(
    spring_installed_height_written: Length, spring_installed_height_computed: Length, *,
    warning_beyond: Length = q("0.010 in"), error_beyond: Length = q("0.020 in"),
):
    """Installed height comes from the parts, not from the catalogue: retainers, locks and seats all move it.

    A hundredth is what a card allows either way; two hundredths of a stiff spring are ten pounds on the seat.
    """
    gap = spring_installed_height_computed - spring_installed_height_written
    verdict = at_most(Length(abs(gap)), warning=warning_beyond, error=error_beyond)
    shim = f"add {abs(gap) / 0.0254:.3f} in of shim to come back to it." if gap > 0 else \
        f"it is {abs(gap) / 0.0254:.3f} in short: take out shim, or fit offset locks or a longer valve."
    return verdict.telling(shim_text=shim)


NEST = """
intake:
  spring: {count: 2}
  springs:
    outer: {coil_hand: right, inside_diameter: 1.000 in}
    inner: {coil_hand: %s, outside_diameter: %s}  %s
"""


@rule(
    scope="side",
    level="warning",
    due="ordering",
    says="The inner spring does not suit the outer one: {trouble}.",
    fix="Order the springs as a set: neighboring coils wound opposite ways, and the inner one running free inside the outer.",
    source="coil hand: concentric springs in Bhandari, Design of Machine Elements, ch. 10 (from memory); fit: common practice, "
           "no source",
    when={"spring_count": (2, 3)},
    points_at=("inner_spring_coil_hand",),
    conforming=NEST % ("left", "0.985 in", ""),
    nonconforming=(NEST % ("right", "0.985 in", "# <-"), NEST % ("left", "1.010 in", "# <-")),
)
def nested_springs_fit_each_other(
    outer_spring_coil_hand: Choice, inner_spring_coil_hand: Choice, outer_spring_inside_diameter: Length = None,
    inner_spring_outside_diameter: Length = None, *,
    loosest: Length = q("0.120 in"),
):
    """Nested coils of the same hand can climb into each other; too tight a pair rubs, too loose a pair wanders.

    A flat damper between them may touch; the fit counted here is between the coils themselves.
    """
    if outer_spring_coil_hand == inner_spring_coil_hand:
        return require(False).telling(trouble="both are wound the same way")
    if outer_spring_inside_diameter is None or inner_spring_outside_diameter is None:
        return passes()
    play = outer_spring_inside_diameter - inner_spring_outside_diameter
    if play < 0:
        return require(False).telling(trouble="the inner coil is larger than the inside of the outer one").at(
            "inner_spring_outside_diameter")
    return at_most(Length(play), loosest).telling(trouble="it is loose inside the outer one").at("inner_spring_outside_diameter")
