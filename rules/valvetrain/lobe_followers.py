"""Whether foot or wheel follows the lobe, and whether the core carries what presses the wheel on it."""

from buildlint.rulebook import *

ROLLERS = ("hydraulic_roller", "solid_roller")
FLATS = ("hydraulic_flat", "solid_flat")

FOOT = """
lifters: {kind: %s, foot: crowned, %s}
intake:
  lobe: {lift: %s, advertised_duration: 281 deg, advertised_check_height: 0.006 in, duration_at_050: 231 deg}  %s
"""
TABLED = """
lifters: {kind: solid_flat, foot_diameter: 0.842 in}
intake:
  lobe:
    table: [[0 deg, 0.3600 in], [4 deg, 0.3550 in], [8 deg, 0.3400 in], [12 deg, 0.3150 in], [16 deg, 0.2840 in],  # <-
            [20 deg, 0.2520 in], [24 deg, 0.2200 in], [28 deg, 0.1880 in], [32 deg, 0.1560 in], [36 deg, 0.1240 in],
            [40 deg, 0.0930 in], [44 deg, 0.0650 in], [48 deg, 0.0420 in], [52 deg, 0.0250 in], [56 deg, 0.0130 in],
            [60 deg, 0.0060 in], [64 deg, 0.0020 in], [68 deg, 0 in]]
"""


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="The contact runs out to {value} from the middle of the foot; this foot bears it to {limit}.",
    fix="Take a lifter with a foot of at least {foot_to_order:up}, a mushroom foot, rollers, or a slower lobe.",
    source="kinematics of a flat follower, any text on cams; edge margin common practice, no source",
    when={"lifter_kind": FLATS},
    points_at=("lobe_table", "lobe_lift", "lifter_foot_diameter"),
    conforming=(FOOT % ("hydraulic_flat", "foot_diameter: 0.842 in", "0.300 in", ""),
                FOOT % ("solid_flat", "body_diameter: 0.904 in", "0.350 in", "")),
    nonconforming=(FOOT % ("solid_flat", "body_diameter: 0.842 in", "0.353 in", "# <-"),
                   FOOT % ("hydraulic_flat", "foot_diameter: 0.842 in", "0.335 in", "# <-"),
                   TABLED),
)
def flat_lifter_foot_spans_lobe(
    lifter_kind: Choice, lobe_velocity_peak: Length = None, lifter_foot_diameter: Length = None,
    lifter_body_diameter_smallest: Length = None, lobe_table: Table = None, lobe_lift: Length = None,
    lobe_duration_at_050: Angle = None, lobe_duration_at_200: Angle = None, lifter_bore: Length = None, *, edge_margin: Length = q("0.020 in"),
):
    """Under a flat foot the contact wanders out as far as the lobe rises for each radian; past the edge it gouges.

    The foot's radius is the hard limit, and 0.020 in of it is kept. Without a table of the lobe its speed is
    estimated and bears no error. A foot that is not written is taken as wide as the body.
    """
    foot = lifter_body_diameter_smallest if lifter_foot_diameter is None else lifter_foot_diameter
    if foot is None or lobe_velocity_peak is None:
        absent = [word for word, value in (("lobe_lift", lobe_lift), ("lobe_duration_at_050", lobe_duration_at_050),
                                           ("lobe_duration_at_200", lobe_duration_at_200)) if value is None]
        absent = absent if lobe_velocity_peak is None else []
        absent += ["lifter_foot_diameter"] if foot is None else []
        return lacking(*absent) if absent else not_applicable("no smooth lobe has these durations")
    verdict = at_most(lobe_velocity_peak, error=Length(foot / 2), warning=Length(foot / 2 - edge_margin))
    if lobe_table is None:
        verdict.within_level("warning")
    wanted = 2 * (lobe_velocity_peak + edge_margin)
    if lifter_bore is not None and wanted > lifter_bore:
        verdict.saying(fix="Take a slower lobe, rollers, or a mushroom foot of at least {foot_to_order:up}, which goes in from below before the cam.")
    return verdict.telling(foot_to_order=Length(wanted))


HOLLOW = """
lifters: {kind: solid_roller, foot_diameter: %s}
intake:
  lobe: {hollow_radius: %s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="The flank is hollow with a radius of {value}; a wheel of {lifter_foot_diameter} needs {limit} or more.",
    fix="Take a wheel of at most {wheel_to_order:down}, or a lobe with a less hollow flank.",
    source="kinematics of a roller follower: Rothbart, Cam Design Handbook, from memory; margin common practice, no source",
    when={"lobe_hollow_radius": given, "lifter_kind": ROLLERS},
    points_at=("lobe_hollow_radius", "lobe_table"),
    conforming=(HOLLOW % ("0.750 in", "9 in", ""), HOLLOW % ("0.750 in", "0.396 in", "")),
    nonconforming=(HOLLOW % ("0.850 in", "0.420 in", "# <-"), HOLLOW % ("0.810 in", "0.420 in", "# <-")),
)
def roller_follows_concave_flank(lobe_hollow_radius: Length, lifter_foot_diameter: Length, *, margin: Length = q("0.5 mm")):
    """A wheel larger than the hollow bridges it: the lift is not the card's, and both edges are hammered.

    Arises where a lobe laid out for a small wheel meets a larger one. The grinder knows the radius; with a table of
    the lobe, its base circle and the wheel it was laid out for, it is computed.
    """
    verdict = at_least(Length(lobe_hollow_radius), Length(lifter_foot_diameter / 2 + margin))
    return verdict.telling(wheel_to_order=Length(2 * (lobe_hollow_radius - margin)))


CORE = """
lifters: {kind: %s}
camshaft: {core: %s}
exhaust:
  spring: {open_load: %s}  %s
"""


@rule(
    scope="side",
    level="warning",
    due="ordering",
    says="{spring_open_load} open is a lot for a roller cam of {camshaft_core}; keep {limit}.",
    fix="Order the cam on a steel billet, or stay under {goal} open.",
    source="common practice, no source",
    when={"lifter_kind": ROLLERS},
    points_at=("spring_open_load", "camshaft_core"),
    conforming=(CORE % ("hydraulic_roller", "induction_hardened_iron", "400 lbf", ""),
                CORE % ("solid_roller", "billet_steel", "850 lbf", ""), CORE % ("hydraulic_roller", "ductile_iron", "440 lbf", "")),
    nonconforming=(CORE % ("hydraulic_roller", "induction_hardened_iron", "460 lbf", "# <-"),
                   CORE % ("solid_roller", "ductile_iron", "420 lbf", "# <-")),
)
def cam_core_carries_open_load(
    spring_open_load: Force, camshaft_core: Choice, *, note_above: Force = q("400 lbf"), warning_above: Force = q("450 lbf"),
):
    """An iron roller cam has a hard skin on a softer core: under heavy springs the skin breaks into the lobe.

    Steel billets carry what the springs of the day give. For iron no published limit was found; the figures are the
    trade's. Flat cams are of iron by their nature and are judged by their lifters.
    """
    if camshaft_core == "billet_steel":
        return passes()
    return at_most(spring_open_load, warning=warning_above, note=note_above)
