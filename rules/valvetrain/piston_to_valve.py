"""The gap between an open valve and the piston around overlap top: as set, mistimed, and with a lifter pumped up."""

from buildlint.numeric import cos
from buildlint.rulebook import *

HYDRAULIC = ("hydraulic_flat", "hydraulic_roller")
COMPETITION = ("road_race", "oval_race", "drag_race")
DEGREE = q("1 deg")
FIX = ("Cut the pocket deeper by {cut:up}, or fit a gasket thicker by as much; or {move} the cam by about {turn} (it moves the other valve "
       "nearer). Never grind the valve's margin for it.")

MEASURED = """
build: {duty: %s, rev_limit: 6500 rpm}
lifters: {kind: %s}
rods: {material: %s}
%s:
  piston_gap: %s  %s
"""
COMPUTED = """
build: {rev_limit: 6500 rpm}
crank: {stroke: 3.622 in}
rods: {length: 6.098 in, material: steel}
pistons: {below_deck: 0.005 in}
head_gasket: {compressed_thickness: 0.045 in}
rockers: {ratio: 1.7}
lifters: {kind: hydraulic_roller}
intake:
  valve: {recess: 0.060 in, axis_angle: 15 deg}
  pocket: {depth: %s}  %s
  lobe: {lift: 0.3529 in, centerline: 109 deg, advertised_duration: 281 deg, advertised_check_height: 0.006 in, duration_at_050: 231 deg}
"""


@rule(
    scope="side",
    level="error",
    due="mock_up",
    says="Piston and valve come within {value}{how}; keep {limit}.",
    fix=FIX,
    spared=("stock",),
    source="slider-crank: Heywood, Internal Combustion Engine Fundamentals, section 2.2; limits common practice, no source, on "
           "which two tables of the trade press agree",
    compares=("piston_gap", "piston_gap_angle"),
    points_at=("piston_gap_written", "pocket_depth", "lobe_table", "lobe_centerline", "lobe_lift"),
    conforming=(MEASURED % ("street", "hydraulic_roller", "steel", "intake", "0.080 in", ""),
                MEASURED % ("street", "hydraulic_roller", "steel", "exhaust", "0.100 in", ""),
                MEASURED % ("drag_race", "solid_roller", "steel", "intake", "0.062 in", ""),
                MEASURED % ("drag_race", "solid_roller", "aluminum", "exhaust", "0.120 in", ""), COMPUTED % ("0.140 in", "")),
    nonconforming=(MEASURED % ("street", "hydraulic_roller", "steel", "intake", "0.075 in", "# <-"),
                   MEASURED % ("street", "hydraulic_roller", "steel", "exhaust", "0.070 in", "# <-"),
                   MEASURED % ("drag_race", "solid_roller", "aluminum", "exhaust", "0.110 in", "# <-"),
                   MEASURED % ("street", "hydraulic_roller", "steel", "intake", "[0.090 in, 0.055 in]", "# <-"),
                   COMPUTED % ("0.090 in", "# <-")),
)
def piston_clears_the_valve(
    piston_gap: Length, side_name: Choice, piston_gap_written: Length = None, lobe_table: Table = None, piston_gap_angle: Angle = None,
    piston_gap_timing_slope: Length = None, rod_material: Choice = None, rev_limit: Rpm = None, float_speed: Rpm = None,
    lifter_kind: Choice = None, duty: Choice = None, valve_axis_angle: Angle = None, *,
    error_below={"intake": q("0.060 in"), "exhaust": q("0.080 in")}, warning_below={"intake": q("0.080 in"), "exhaust": q("0.100 in")},
    race_error_below={"intake": q("0.045 in"), "exhaust": q("0.070 in")},
    race_warning_below={"intake": q("0.060 in"), "exhaust": q("0.090 in")},
    aluminum_rod_more: Length = q("0.030 in"), fast_more={"intake": q("0.010 in"), "exhaust": q("0.020 in")},
    fast_above: Rpm = q("8000 rpm"), fast_share_of_float: Fraction = q("0.90", "fraction"), estimate_more: Length = q("0.015 in"),
    usual_slope_per_degree: Length = q("0.006 in"),
):
    """A valve the piston touches is bent, or its head comes off and takes the engine with it.

    The nearest point is 5 to 15 degrees off top, not at full lift: the piston chases the exhaust valve shut and runs from
    the intake. The exhaust gets more room, since it is the one that is chased when it floats. Two tables of the trade
    agree on 0.080 and 0.100 in, 0.030 more with aluminum rods; others ask 0.100 for both, and one only a few hundredths
    for the intake. Measured gaps win. Racers who measure, on solid lifters, run closer. A gap reckoned from two durations
    is an estimate, asks 0.015 in more and bears no error.
    """
    measured, estimated = piston_gap_written is not None, piston_gap_written is None and lobe_table is None
    race = measured and duty in COMPETITION and lifter_kind not in (None, *HYDRAULIC)
    more = aluminum_rod_more if rod_material == "aluminum" else 0.0
    if rev_limit is not None and (rev_limit > fast_above or (float_speed is not None and rev_limit > fast_share_of_float * float_speed)):
        more = more + fast_more[side_name]
    if estimated:
        more = more + estimate_more
    wanted = Length((race_warning_below if race else warning_below)[side_name] + more)
    least = Length((race_error_below if race else error_below)[side_name] + more)
    verdict = at_least(piston_gap, warning=wanted, error=least)
    if estimated:
        verdict.within_level("warning")
    slope = piston_gap_timing_slope or usual_slope_per_degree / DEGREE
    where = "" if measured or piston_gap_angle is None else " {:.0f} degrees {} top".format(
        abs(piston_gap_angle) / DEGREE, "after" if piston_gap_angle >= 0 else "before")
    how = "" if measured else f" by an estimated lobe,{where}" if estimated else f", by lobe and crank,{where}"
    upright = 1.0 if valve_axis_angle is None else max(cos(valve_axis_angle), 0.5)  # what is cut or packed along the cylinder counts less along the valve
    return verdict.telling(how=how, cut=Length((wanted - piston_gap) / upright), move="retard" if side_name == "intake" else "advance",
                           turn=Angle((wanted - piston_gap) / slope, "deg"))


MISTIMED = """
build: {duty: %s, rev_limit: 6500 rpm}
lifters: {kind: %s}
rods: {material: steel}
%s:
  lash_hot: %s
  piston_gap: %s  %s
"""


@rule(
    scope="side",
    level="warning",
    due="mock_up",
    says="With the cam {degrees} off{closed} only {value} of the {piston_gap} to the piston would be left; keep {limit}.",
    fix="Cut the pocket deeper by {cut:up}, or make sure of the timing with a drive that holds it, and of the lash.",
    spared=("stock",),
    source="derivative of the gap by the centerline; limits engineering judgement, no source",
    points_at=("piston_gap_written", "pocket_depth", "lobe_table", "lobe_centerline", "lobe_lift"),
    conforming=(MISTIMED % ("street", "solid_flat", "intake", "0.018 in", "0.080 in", ""),
                MISTIMED % ("drag_race", "solid_roller", "exhaust", "0.020 in", "0.090 in", "")),
    nonconforming=(MISTIMED % ("street", "solid_flat", "intake", "0.020 in", "0.066 in", "# <-"),
                   MISTIMED % ("street_strip", "solid_roller", "exhaust", "0.026 in", "0.090 in", "# <-")),
)
def piston_clears_mistimed_valve(
    piston_gap: Length, side_name: Choice, piston_gap_timing_slope: Length = None, lash_running: Length = None,
    piston_gap_written: Length = None, lobe_table: Table = None, rod_material: Choice = None, rev_limit: Rpm = None,
    float_speed: Rpm = None, duty: Choice = None, *,
    timing_error: Angle = q("4 deg"), race_timing_error: Angle = q("2 deg"), usual_slope_per_degree: Length = q("0.006 in"),
    least={"intake": q("0.030 in"), "exhaust": q("0.050 in")}, race_least={"intake": q("0.020 in"), "exhaust": q("0.040 in")},
    aluminum_rod_more: Length = q("0.030 in"), fast_more={"intake": q("0.010 in"), "exhaust": q("0.020 in")},
    fast_above: Rpm = q("8000 rpm"), fast_share_of_float: Fraction = q("0.90", "fraction"),
    other_rule_below={"intake": q("0.060 in"), "exhaust": q("0.080 in")},
    race_other_rule_below={"intake": q("0.045 in"), "exhaust": q("0.070 in")},
):
    """Chains stretch, cams get moved and lash gets closed after the clay was looked at.

    An advanced cam brings the intake nearer, a late one the exhaust, about 0.006 in for each degree; lash that is closed
    up is gap that is gone. Four degrees stand for a set of keyways or a worn chain, two for a racer who degrees every
    cam. What must be left covers stretch of the rods and rock of the piston; it is judgement. A gap that is too small as
    it stands is the plain rule's.
    """
    race = duty in COMPETITION
    more = aluminum_rod_more if rod_material == "aluminum" else 0.0
    if rev_limit is not None and (rev_limit > fast_above or (float_speed is not None and rev_limit > fast_share_of_float * float_speed)):
        more = more + fast_more[side_name]
    if piston_gap < (race_other_rule_below if race else other_rule_below)[side_name] + more:
        return not_applicable("the gap is too small as it stands")
    slope = piston_gap_timing_slope or usual_slope_per_degree / DEGREE
    off = race_timing_error if race else timing_error
    lash = 0.0 if lash_running is None else lash_running
    left = Length(piston_gap - slope * off - lash)
    wanted = Length((race_least if race else least)[side_name] + more)
    return at_least(left, wanted).telling(degrees=off, closed=" and the lash closed" if lash else "", cut=Length(wanted - left))


PUMPED = """
build: {rev_limit: %s}
rockers: {ratio: 1.7}
lifters: {kind: hydraulic_roller, preload: %s}
exhaust:
  piston_gap: %s  %s
"""
FLOATING = """
build: {duty: street_strip, rev_limit: 7600 rpm}
rockers: {ratio: 1.7, equivalent_mass: 40 g}
pushrods: {mass: 60 g}
lifters: {kind: hydraulic_roller, mass: 110 g, preload: 0.060 in}
intake:
  lobe: {lift: 0.3529 in, advertised_duration: 281 deg, advertised_check_height: 0.006 in, duration_at_050: 231 deg}
  valve: {mass: 100 g}
  retainer: {mass: 16 g}
  locks: {mass: 6 g}
  spring: {seat_load: 150 lbf, open_load: 400 lbf, mass: 105 g}
  piston_gap: 0.090 in  # <-
"""


@rule(
    scope="side",
    level="error",
    due="mock_up",
    says="A lifter pumped up by its {lifter_preload} of preload holds the valve {held} open: {value} is left to the piston.",
    fix="Set the preload to {preload_to_set:down} or less, fit lifters of limited travel, or cut the pocket deeper by {cut:up}.",
    source="kinematics of the rocker; limit common practice, no source",
    when={"lifter_kind": HYDRAULIC},
    points_at=("piston_gap_written", "lifter_preload", "pocket_depth", "lobe_lift"),
    conforming=(PUMPED % ("6000 rpm", "0.040 in", "0.100 in", ""), PUMPED % ("6000 rpm", "0.010 in", "0.080 in", "")),
    nonconforming=(PUMPED % ("6000 rpm", "0.060 in", "0.100 in", "# <-"), FLOATING),
)
def piston_clears_pumped_lifter(
    piston_gap: Length, lifter_preload: Length, rocker_ratio: Ratio, rev_limit: Rpm = None, float_speed: Rpm = None,
    piston_gap_written: Length = None, lobe_table: Table = None, *,
    warning_below: Length = q("0.010 in"), share_of_float: Fraction = q("0.85", "fraction"),
):
    """A hydraulic lifter that is thrown off its lobe takes up the slack with oil and holds the valve open by its preload.

    Preload times the rocker ratio is lift waiting to happen: 0.040 in is 0.068 at the valve. It happens only where the
    lifter leaves its lobe, so it is an error only when the limiter lies beyond the share of float speed that is asked,
    and a warning where nobody knows.
    """
    held = lifter_preload * rocker_ratio
    left = Length(piston_gap - held)
    verdict = at_least(left, warning=warning_below)
    floats = rev_limit is not None and float_speed is not None and rev_limit > share_of_float * float_speed * (1 + 1e-9)
    estimated = piston_gap_written is None and lobe_table is None
    if left <= 0 and floats and not estimated:
        verdict.level = "error"
    if left < 0:
        verdict.telling(into=Length(-left)).saying(
            "A lifter pumped up by its {lifter_preload} of preload holds the valve {held} open, {into} into the piston.")
    return verdict.telling(held=Length(held), preload_to_set=Length(max(0.0, (piston_gap - warning_below) * lifter_preload / held if held > 0 else 0.0)),
                           cut=Length(warning_below - left))
