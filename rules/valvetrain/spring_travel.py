"""How much of its travel a spring uses: coil bind, rated lift, and springs that are far too long for the job."""

from buildlint.rulebook import *
from buildlint.tables.spring_loads import RACING, SPRING_CAUTION

BIND = """
rockers: {ratio: 1.7}
intake:
  lobe: {lift: 0.353 in}
  spring: {installed_height: 1.800 in, near_bind: %s, solid_height: %s}  %s
"""
NEST = """
rockers: {ratio: 1.7}
intake:
  lobe: {lift: 0.353 in}
  spring: {count: 2, installed_height: 1.800 in}
  springs:
    outer: {solid_height: 1.120 in}
    inner: {height_step: 0.100 in, solid_height: %s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="{value} is left at full lift before the coils touch; keep {limit}.",
    fix="Raise the installed height by {short:up}, or choose a spring whose solid height is lower by as much; the load "
        "falls with the height, so look at the loads again.",
    source="common practice, no source; a solid height from the wire: EN 13906-1:2013, 9.10",
    points_at=("spring_solid_height", "spring_installed_height"),
    caution=SPRING_CAUTION,
    conforming=(BIND % ("no", "1.120 in", ""), BIND % ("no", "1.149 in", ""), BIND % ("yes", "1.165 in", ""), NEST % ("1.040 in", "")),
    nonconforming=(BIND % ("no", "1.160 in", "# <-"), BIND % ("no", "1.180 in", "# <-"), BIND % ("yes", "1.178 in", "# <-"),
                   BIND % ("yes", "1.188 in", "# <-"), NEST % ("1.075 in", "# <-"), """
        rockers: {ratio: 1.7}
        intake:
          lobe: {lift: 0.353 in}
          spring: {count: 1, installed_height: 1.750 in, wire_diameter: 0.187 in, total_coils: 6.2, ends: ground}  # <-
        """),
)
def spring_stays_clear_of_coil_bind(
    spring_coil_bind_margin: Length, spring_near_bind: YesNo = None, spring_solid_height: Length = None,
    outer_spring_solid_height: Length = None, outer_spring_coil_bind_margin: Length = None,
    inner_spring_coil_bind_margin: Length = None, innermost_spring_coil_bind_margin: Length = None, *,
    warning_below: Length = q("0.050 in"), error_below: Length = q("0.030 in"),
    near_bind_note_below: Length = q("0.050 in"), near_bind_warning_below: Length = q("0.030 in"),
    near_bind_error_below: Length = q("0.015 in"),
):
    """Coils that touch stop the valve dead: pushrods bend, rockers break, locks let go.

    The margin covers loft at speed and a rocker ratio a little over nominal, 3 percent being common. Older guides ask
    0.050 to 0.100 in, race springs are run at 0.030 to 0.060 in on purpose, since coils near bind damp surge; a
    spring made for that says near_bind. Every coil of a nest is judged at its own height. A solid height that is only
    estimated from the wire bears no error; the standard's own gap between coils (S_a, half as much again when it
    moves) is far more than any valve spring is given.
    """
    if spring_near_bind:
        verdict = at_least(spring_coil_bind_margin, error=near_bind_error_below, warning=near_bind_warning_below,
                           note=near_bind_note_below)
        wanted = near_bind_warning_below
    else:
        verdict = at_least(spring_coil_bind_margin, error=error_below, warning=warning_below)
        wanted = warning_below
    if spring_solid_height is None:
        coils = [(margin, name) for margin, name in ((outer_spring_coil_bind_margin, "outer"), (inner_spring_coil_bind_margin, "inner"),
                                                     (innermost_spring_coil_bind_margin, "innermost")) if margin is not None]
        if coils:
            tightest = min(coils)[1]
            verdict.at(f"{tightest}_spring_solid_height", f"{tightest}_spring_wire_diameter")
        if outer_spring_solid_height is None:
            verdict.within_level("warning").saying(
                "By its wire, about {value} is left at full lift before the coils touch; keep {limit}.",
                "Measure the solid height; if it stands, raise the installed height by {short:up} or take another spring.")
    return verdict.telling(short=Length(wanted - spring_coil_bind_margin))


LONG = """
build: {duty: %s}
rockers: {ratio: 1.7}
intake:
  lobe: {lift: 0.353 in}
  spring: {installed_height: 1.900 in, rated_lift: %s, solid_height: %s}  %s
"""


@rule(
    scope="side",
    level="note",
    due="ordering",
    says="{value} is left at full lift before the coils touch, more than {limit}: in racing such a spring may surge.",
    fix="A lower installed height or another spring brings the coils nearer together and damps them; the loads change with it.",
    source="common practice, no source",
    points_at=("spring_solid_height", "spring_rated_lift", "spring_installed_height"),
    conforming=(LONG % ("drag_race", "0.700 in", "1.200 in", ""), LONG % ("street", "0.700 in", "1.100 in", "")),
    nonconforming=(LONG % ("drag_race", "0.700 in", "1.100 in", "# <-"), LONG % ("street", "1.050 in", "1.200 in", "# <-")),
)
def spring_travel_is_well_used(
    duty: Choice = None, spring_coil_bind_margin_largest: Length = None, spring_rated_lift: Length = None, valve_lift_gross: Length = None,
    spring_installed_height_largest: Length = None, spring_rated_installed_height: Length = None, *,
    most_margin: Length = q("0.150 in"), least_share: Fraction = q("0.60", "fraction"),
):
    """A spring that is far from bind rings freely, and one made for much more lift is heavier than it need be.

    Race builders run close to bind to damp surge; on the street nobody minds the room.
    """
    if spring_coil_bind_margin_largest is not None and duty in RACING:
        verdict = at_most(spring_coil_bind_margin_largest, note=most_margin)
        if verdict.kind == "fail":
            return verdict
    else:
        verdict = None
    if spring_rated_lift is not None and valve_lift_gross is not None:
        allowed = _allowed(spring_rated_lift, spring_installed_height_largest, spring_rated_installed_height)
        if allowed <= 0:
            return not_applicable("a zero or less is a slip, which the rule on plausible values reports")
        return at_least(Fraction(valve_lift_gross / allowed), note=least_share).at("spring_rated_lift").telling(
            allowed=Length(allowed)).saying(
                "The valve lifts {valve_lift_gross}, {value} of the {allowed} that the spring is made for at this height.",
                "A spring for less lift is lighter and rings higher; keep this one if a larger cam is to follow.")
    return verdict or not_applicable("neither bind nor rating is known")


RATED = """
rockers: {ratio: 1.7}
intake:
  lobe: {lift: %s}
  spring: {installed_height: %s, rated_installed_height: 1.800 in, rated_lift: 0.650 in}  %s
"""


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="The valve lifts {value}; at this installed height the spring is made for {allowed}.",
    fix="Choose a spring rated for {rated:up} and more at {height}, or raise the height and look at "
        "bind and loads again.",
    source="common practice, no source",
    when={"spring_rated_lift": given},
    points_at=("spring_rated_lift",),
    conforming=(RATED % ("0.353 in", "1.770 in", ""), RATED % ("0.370 in", "1.800 in", "")),
    nonconforming=(RATED % ("0.380 in", "1.800 in", "# <-"), RATED % ("0.390 in", "1.800 in", "# <-"), RATED % ("0.370 in", "1.770 in", "# <-")),
)
def spring_lift_stays_within_rating(
    valve_lift_gross: Length, spring_rated_lift: Length, spring_installed_height_smallest: Length = None,
    spring_rated_installed_height: Length = None, *, warning_within: Length = q("0.010 in"),
):
    """The maker's lift is where his spring still has its fatigue life; past it the wire breaks first, then the engine.

    A rating holds at one installed height and grows with it. Lash is not taken off: it can be closed up.
    """
    allowed = _allowed(spring_rated_lift, spring_installed_height_smallest, spring_rated_installed_height)
    verdict = at_most(valve_lift_gross, error=Length(allowed), warning=Length(allowed - warning_within))
    if verdict.level == "warning":
        verdict.saying("The valve lifts {value}, within {warning_within} of the {allowed} that the spring is made for at this installed height.")
    return verdict.telling(allowed=Length(allowed), rated=Length(valve_lift_gross + warning_within + spring_rated_lift - allowed),
                           height="this installed height" if spring_rated_installed_height is None else spring_rated_installed_height)


def _allowed(rated_lift, installed_height, rated_height):
    """The rated lift at this installed height."""
    if installed_height is None or rated_height is None:
        return rated_lift
    return rated_lift + (installed_height - rated_height)
