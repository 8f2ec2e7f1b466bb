"""The drive of the cam: whether it fits, whether it carries the springs, and whether the cam stands where it should."""

from buildlint.rulebook import *

CHAINS = ("single_chain", "double_roller")

MOVED = """
block: {line_bore_removed: %s}
timing_set: {kind: double_roller, center_distance_change: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="The crank moved {block_line_bore_removed} toward the cam, and the timing set is made for {made_for}: the chain is "
         "{value} too {state}.",
    fix="Order the set made for a distance shorter by {wanted}.",
    source="geometry; limits common practice, no source",
    when={"block_line_bore_removed": given, "timing_set_kind": CHAINS},
    points_at=("timing_set_center_distance_change", "timing_set_kind"),
    conforming=(MOVED % ("0.005 in", "0.005 in", ""), MOVED % ("0.001 in", "0 in", "")),
    nonconforming=(MOVED % ("0.006 in", "0 in", "# <-"), MOVED % ("0.003 in", "0 in", "# <-"), MOVED % ("0.001 in", "0.010 in", "# <-")),
)
def chain_suits_centre_distance(
    block_line_bore_removed: Length, timing_set_kind: Choice, timing_set_center_distance_change: Length = None, *,
    note_above: Length = q("0.002 in"), warning_above: Length = q("0.004 in"), tight_above: Length = q("0.003 in"),
):
    """Honing the main line brings the crank nearer to the cam; a standard chain then hangs slack from the first day.

    Slack is retard that grows. Sets are sold 0.005 and 0.010 in short. A set shorter than the block needs is a chain
    run like a saw. A set that says nothing is taken as standard.
    """
    made_for = 0.0 if timing_set_center_distance_change is None else timing_set_center_distance_change
    slack = block_line_bore_removed - made_for
    if slack >= 0:
        verdict = at_most(Length(slack), warning=warning_above, note=note_above)
    else:
        verdict = at_most(Length(-slack), warning=tight_above)
    verdict.telling(made_for="the standard distance", state="long" if slack >= 0 else "short", wanted=block_line_bore_removed)
    if not made_for:
        return verdict
    return verdict.telling(made_for=Length(made_for)).saying(
        "The crank moved {block_line_bore_removed} toward the cam, and the timing set is made for a distance shorter by {made_for}: the "
        "chain is {value} too {state}.")


CARRYING = """
timing_set: {kind: single_chain}  %s
intake:
  spring: {open_load: %s}
exhaust:
  spring: {open_load: 320 lbf}
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="A single chain drives a cam that works against {value} open.",
    fix="Fit a double roller chain, a belt or gears; with the single chain stay under {limit} open.",
    source="common practice, no source",
    when={"timing_set_kind": ("single_chain",)},
    points_at=("timing_set_kind",),
    conforming=CARRYING % ("", "350 lbf"),
    nonconforming=CARRYING % ("# <-", "380 lbf"),
)
def chain_carries_spring_load(
    timing_set_kind: Choice, intake_spring_open_load: Force = None, exhaust_spring_open_load: Force = None, *,
    most: Force = q("350 lbf"),
):
    """Stiff springs pull the cam back and forth as each lobe goes over its nose; a plain single chain stretches under it.

    The figure is the trade's.
    """
    loads = [load for load in (intake_spring_open_load, exhaust_spring_open_load) if load is not None]
    if not loads:
        return lacking("intake_spring_open_load")
    return at_most(max(loads, key=float), most)


SLACK = """
timing_set: {kind: double_roller, chain_slack: %s, cam_sprocket_radius: 2.15 in}  %s
"""


@rule(
    scope="build",
    level="note",
    due="mock_up",
    says="The chain's slack of {timing_set_chain_slack} lets the cam fall {value} late; keep {limit}.",
    fix="Fit a new set, or one for the true center distance; degree the cam with the slack taken up as it runs.",
    source="geometry; limit common practice, no source",
    when={"timing_set_chain_slack": given},
    points_at=("timing_set_chain_slack",),
    conforming=(SLACK % ("0.010 in", ""), SLACK % ("0.0187 in", "")),
    nonconforming=SLACK % ("0.030 in", "# <-"),
)
def chain_slack_retard_is_small(
    timing_set_chain_slack: Length, timing_set_cam_sprocket_radius: Length = None, *, most: Angle = q("1 deg"),
    usual_radius: Length = q("2.15 in"),
):
    """Slack over the radius of the cam sprocket is cam angle; twice that is crank degrees of retard.

    The intake then shuts later and the exhaust valve is nearer to the piston. A cam sprocket of 36 teeth of 3/8 in
    pitch has a radius of 2.15 in, which is taken where none is written.
    """
    radius = timing_set_cam_sprocket_radius or usual_radius
    return at_most(Angle(2 * timing_set_chain_slack / radius, "deg"), most)


NOSE = """
camshaft: {nose_bolts: 3, sensor_teeth: 4}
timing_set: {cam_bolts: %s, sensor_teeth_expected: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="{what} {part}: {value}; {other}: {limit}.",
    fix="Order the two to one pattern: they cannot be made to fit.",
    source="geometry",
    points_at=("timing_set_cam_bolts", "timing_set_sensor_teeth_expected"),
    conforming=NOSE % ("3", "4", ""),
    nonconforming=(NOSE % ("1", "4", "# <-"), NOSE % ("3", "1", "# <-")),
)
def cam_drive_fits_cam_nose(
    camshaft_nose_bolts: Count = None, timing_set_cam_bolts: Count = None, camshaft_sensor_teeth: Count = None,
    timing_set_sensor_teeth_expected: Count = None,
):
    """One family of engines has noses of one and of three bolts and sensor wheels of one and of four teeth.

    A sprocket that does not bolt on stops the job; a wheel with the wrong teeth only shows when the engine will not
    start.
    """
    pairs = [row for row in (
        ("of the sprocket", "Bolt holes", "in the nose of the cam", timing_set_cam_bolts, camshaft_nose_bolts, "timing_set_cam_bolts"),
        ("the controller expects", "Teeth", "on the wheel of the cam", timing_set_sensor_teeth_expected, camshaft_sensor_teeth,
         "timing_set_sensor_teeth_expected"),
    ) if row[3] is not None and row[4] is not None]
    if not pairs:
        return not_applicable("no two figures stand beside each other")
    for part, what, other, value, wanted, word in pairs:
        if value != wanted:
            return matches(value, wanted).telling(part=part, what=what, other=other).at(word)
    return passes()


DEGREED = """
intake:
  lobe: {centerline: 109 deg}
timing_set: {%sinstalled_centerline: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="assembly",
    says="The cam stands at an intake centerline of {value}; {wanted} is {limit}.",
    fix="{move} by {by} of crank with an offset key, bushing or the sprocket's keyways, and degree it again.",
    source="common practice, no source",
    points_at=("timing_set_installed_centerline",),
    conforming=(DEGREED % ("", "109.5 deg", ""), DEGREED % ("wanted_centerline: 107 deg, ", "107 deg", ""), DEGREED % ("", "108 deg", "")),
    nonconforming=(DEGREED % ("", "111 deg", "# <-"), DEGREED % ("", "111.5 deg", "# <-"),
                   DEGREED % ("wanted_centerline: 107 deg, ", "110 deg", "# <-"), DEGREED % ("", "[109 deg, 106.5 deg]", "# <-")),
)
def installed_centerline_matches_card(
    timing_set_installed_centerline: Angle, timing_set_wanted_centerline: Angle = None, intake_lobe_centerline: Angle = None, *,
    warning_beyond: Angle = q("1 deg"), error_beyond: Angle = q("2 deg"),
):
    """The dots on the sprockets are only a promise: cam, key, dowel and sprocket each have their degree.

    Advance moves the intake valve nearer to the piston, retard the exhaust, about 0.006 in for each degree. A cam that
    is meant to stand elsewhere says so under wanted_centerline. Where more than one cylinder was degreed, each is
    judged.
    """
    meant, wanted = timing_set_wanted_centerline, "what is wanted"
    if meant is None:
        meant, wanted = intake_lobe_centerline, "the card's"
    if meant is None:
        return lacking("timing_set_wanted_centerline")
    off = timing_set_installed_centerline - meant
    verdict = at_most(Angle(abs(off)), warning=warning_beyond, error=error_beyond)
    verdict.value, verdict.limit = Angle(timing_set_installed_centerline, "deg"), Angle(meant, "deg")
    return verdict.telling(wanted=wanted, move="Advance the cam" if off > 0 else "Retard the cam", by=Angle(abs(off), "deg"))


COVER = """
timing_set: {cover_gap: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="mock_up",
    says="Between the cam drive and its cover or block {value} is left; keep {limit}.",
    fix="Relieve cover or block by {cut}, take bolts with thinner heads, or a cover made for this drive.",
    source="common practice, no source; limit from memory",
    when={"timing_set_cover_gap": given},
    conforming=(COVER % ("0.120 in", ""), COVER % ("1.5 mm", "")),
    nonconforming=(COVER % ("0 in", "# <-"), COVER % ("0.040 in", "# <-")),
)
def timing_cover_clears_the_drive(timing_set_cover_gap: Length, *, least: Length = q("1.5 mm")):
    """A double roller chain or an adjustable sprocket is wider than what the cover was made for and saws through it.

    Chain, gears, bolt heads and the sensor wheel are looked at through a full turn, the cam pushed forward.
    """
    verdict = at_least(timing_set_cover_gap, warning=least)
    if timing_set_cover_gap <= 0:
        verdict.level = "error"
    return verdict.telling(cut=Length(least - timing_set_cover_gap))
