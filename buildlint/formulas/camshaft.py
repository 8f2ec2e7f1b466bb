"""What a cam card says and what follows from it: events, centerlines, separation, overlap, and the shape of the lobe.

Angles of events and durations are crank angles; angles along the lobe are cam angles from its nose. How the lobe
moves a valve in an engine stands in ``valve_motion``.
"""

from ..dimensions import Angle, Choice, Length, Pressure, Ratio, Table, Force
from ..mechanics import hertz, lobe
from ..mechanics import lobe_table as tables_of_lobes
from ..mechanics.lobe import positive
from ..numeric import PI
from ..tables.camshafts import (
    CORE_MODULUS,
    CORE_POISSON,
    FOLLOWER_MODULUS,
    FOLLOWER_POISSON,
    HEIGHT_050,
    HEIGHT_200,
    USUAL_CROWN_RADIUS,
)

ROLLERS = ("hydraulic_roller", "solid_roller")
FLATS = ("hydraulic_flat", "solid_flat")

# -- events, centerlines, overlap ---------------------------------------------------------------------------


def lobe_duration_at_050__of_intake(lobe_opens_before_top_at_050: Angle, lobe_closes_after_bottom_at_050: Angle) -> Angle:
    """Intake duration at 0.050 in: opening before top plus closing after bottom plus 180 degrees.

    Source: definition of the events.
    """
    return lobe_opens_before_top_at_050 + lobe_closes_after_bottom_at_050 + PI


def lobe_duration_at_050__of_exhaust(lobe_opens_before_bottom_at_050: Angle, lobe_closes_after_top_at_050: Angle) -> Angle:
    """Exhaust duration at 0.050 in: opening before bottom plus closing after top plus 180 degrees.

    Source: definition of the events.
    """
    return lobe_opens_before_bottom_at_050 + lobe_closes_after_top_at_050 + PI


def lobe_advertised_duration__of_intake(lobe_opens_before_top_advertised: Angle,
                                        lobe_closes_after_bottom_advertised: Angle) -> Angle:
    """Intake duration at the advertised check height, from its events plus 180 degrees.

    Source: definition of the events.
    """
    return lobe_opens_before_top_advertised + lobe_closes_after_bottom_advertised + PI


def lobe_advertised_duration__of_exhaust(lobe_opens_before_bottom_advertised: Angle,
                                         lobe_closes_after_top_advertised: Angle) -> Angle:
    """Exhaust duration at the advertised check height, from its events plus 180 degrees.

    Source: definition of the events.
    """
    return lobe_opens_before_bottom_advertised + lobe_closes_after_top_advertised + PI


def lobe_centerline_of_events__intake_050(lobe_opens_before_top_at_050: Angle,
                                          lobe_closes_after_bottom_at_050: Angle) -> Angle:
    """Middle of the intake events at 0.050 in, after top: (closing after bottom - opening before top + 180) / 2.

    Source: definition of the events.
    """
    return (lobe_closes_after_bottom_at_050 - lobe_opens_before_top_at_050 + PI) / 2


def lobe_centerline_of_events__exhaust_050(lobe_opens_before_bottom_at_050: Angle,
                                           lobe_closes_after_top_at_050: Angle) -> Angle:
    """Middle of the exhaust events at 0.050 in, before top: (opening before bottom - closing after top + 180) / 2.

    Source: definition of the events.
    """
    return (lobe_opens_before_bottom_at_050 - lobe_closes_after_top_at_050 + PI) / 2


def lobe_centerline_of_events__intake_advertised(lobe_opens_before_top_advertised: Angle,
                                                 lobe_closes_after_bottom_advertised: Angle) -> Angle:
    """Middle of the intake events at the advertised check height, after top.

    Source: definition of the events.
    """
    return (lobe_closes_after_bottom_advertised - lobe_opens_before_top_advertised + PI) / 2


def lobe_centerline_of_events__exhaust_advertised(lobe_opens_before_bottom_advertised: Angle,
                                                  lobe_closes_after_top_advertised: Angle) -> Angle:
    """Middle of the exhaust events at the advertised check height, before top.

    Source: definition of the events.
    """
    return (lobe_opens_before_bottom_advertised - lobe_closes_after_top_advertised + PI) / 2


def lobe_centerline(lobe_centerline_of_events: Angle) -> Angle:
    """Centerline of a lobe where the card does not name it: the middle of its events.

    Source: definition of the events.
    """
    return lobe_centerline_of_events


def lobe_centerline__of_separation(camshaft_lobe_separation: Angle, camshaft_ground_advance: Angle,
                                   side_name: Choice) -> Angle:
    """Centerline of a lobe from separation and advance: intake the separation less the advance, exhaust plus it.

    Cam degrees of separation and crank degrees of centerline have the same number. Source: definition.
    """
    return camshaft_lobe_separation + (camshaft_ground_advance if side_name == "exhaust" else -camshaft_ground_advance)


def lobe_separation_from_centerlines(intake_lobe_centerline: Angle, exhaust_lobe_centerline: Angle) -> Angle:
    """Lobe separation that the two centerlines make: their mean.

    Source: definition.
    """
    return (intake_lobe_centerline + exhaust_lobe_centerline) / 2


def camshaft_advance_from_centerlines(intake_lobe_centerline: Angle, exhaust_lobe_centerline: Angle) -> Angle:
    """Advance ground into the cam: separation less intake centerline; retarded is negative.

    Source: definition.
    """
    return (exhaust_lobe_centerline - intake_lobe_centerline) / 2


def overlap_at_050(intake_lobe_duration_at_050: Angle, exhaust_lobe_duration_at_050: Angle,
                   intake_lobe_centerline: Angle, exhaust_lobe_centerline: Angle) -> Angle:
    """Overlap at 0.050 in: half of both durations less both centerlines; negative where both are shut for a while.

    Source: definition of the events.
    """
    return (intake_lobe_duration_at_050 + exhaust_lobe_duration_at_050) / 2 - intake_lobe_centerline - exhaust_lobe_centerline


def lobe_centerline_in_engine__installed(lobe_centerline: Angle, intake_lobe_centerline: Angle, side_name: Choice,
                                         timing_set_installed_centerline: Angle) -> Angle:
    """Centerline as the cam really stands: the intake as degreed; the exhaust moved the other way by as much.

    Source: both lobes sit on one shaft.
    """
    later = timing_set_installed_centerline - intake_lobe_centerline
    return lobe_centerline + (-later if side_name == "exhaust" else later)


def lobe_centerline_in_engine__wanted(lobe_centerline: Angle, intake_lobe_centerline: Angle, side_name: Choice,
                                      timing_set_wanted_centerline: Angle) -> Angle:
    """Centerline as the cam is meant to stand, before it has been degreed.

    Source: both lobes sit on one shaft.
    """
    later = timing_set_wanted_centerline - intake_lobe_centerline
    return lobe_centerline + (-later if side_name == "exhaust" else later)


def lobe_centerline_in_engine__by_key(lobe_centerline: Angle, side_name: Choice, timing_set_advance: Angle = None) -> Angle:
    """Centerline of the card, moved by a key or dowel in the sprocket where one is named.

    Source: definition of advance.
    """
    if timing_set_advance is None:
        return lobe_centerline
    return lobe_centerline + (timing_set_advance if side_name == "exhaust" else -timing_set_advance)


# -- what is driven off the cam ---------------------------------------------------------------------------


def distributor_pump_drive_gap(distributor_pump_drive_gap_before: Length, intake_rail_cut: Length) -> Length:
    """End gap of the distributor over the pump's drive after cuts: what there was less what the intake came down.

    The intake, cut to fit again, comes down by what its end rails lose, and the distributor stands on it. m.
    Source: geometry of the wedge between heads and valley.
    """
    return distributor_pump_drive_gap_before - intake_rail_cut


# -- the synthetic flank -----------------------------------------------------------------------------------


def lobe_fullness__of_flank(lobe_lift: Length, lobe_duration_at_050: Angle, lobe_duration_at_200: Angle) -> Ratio:
    """Fullness of the synthetic flank (its exponent less 2) through the durations at 0.050 and 0.200 in.

    Source: mechanics.lobe; an estimate of the real flank.
    """
    return lobe.exponent_of(lobe_duration_at_050, lobe_duration_at_200, HEIGHT_050 / positive(lobe_lift), HEIGHT_200 / positive(lobe_lift)) - 2


def lobe_fullness__of_ramp(lobe_lift: Length, lobe_advertised_duration: Angle, lobe_advertised_check_height: Length,
                           lobe_duration_at_050: Angle) -> Ratio:
    """Fullness of the synthetic flank (its exponent less 2) through the advertised duration and that at 0.050 in.

    Source: mechanics.lobe; an estimate of the real flank, and a gentler one.
    """
    return lobe.exponent_of(lobe_advertised_duration, lobe_duration_at_050, lobe_advertised_check_height / positive(lobe_lift),
                            HEIGHT_050 / positive(lobe_lift)) - 2


def lobe_exponent(lobe_fullness: Ratio) -> Ratio:
    """Exponent q of the synthetic flank: its fullness plus 2.

    Source: mechanics.lobe.
    """
    return lobe_fullness + 2


def lobe_half_width(lobe_fullness: Ratio, lobe_lift: Length, lobe_duration_at_050: Angle) -> Angle:
    """Cam angle from the nose to the end of the synthetic flank: a quarter of the duration over its share there.

    rad. Source: mechanics.lobe.
    """
    return lobe_duration_at_050 / (4 * lobe.share_at(HEIGHT_050 / positive(lobe_lift), lobe_fullness + 2))


# -- what the shape asks of the follower ---------------------------------------------------------------------


def lobe_velocity_peak__of_table(lobe_table: Table) -> Length:
    """Steepest rise or fall of a tabulated lobe, per radian of the cam: the largest slope of the fitted parabolas.

    m per rad; what a flat foot needs to either side of its center. Source: kinematics of a flat follower.
    """
    return tables_of_lobes.steepest_of_table(lobe_table)


def lobe_velocity_peak(lobe_lift: Length, lobe_half_width: Angle, lobe_fullness: Ratio) -> Length:
    """Steepest slope of the synthetic lobe, per radian of the cam; an estimate.

    m per rad. Source: mechanics.lobe.
    """
    return lobe_lift / positive(lobe_half_width) * lobe.steepest_of_flank(lobe_fullness + 2)


def lobe_acceleration_nose__of_table(lobe_table: Table) -> Length:
    """Second derivative of a tabulated lobe at its nose, per radian squared; negative.

    Source: least squares over ten degrees to either side.
    """
    return tables_of_lobes.nose_of_table(lobe_table)


def lobe_acceleration_nose(lobe_lift: Length, lobe_half_width: Angle, lobe_fullness: Ratio) -> Length:
    """Second derivative of the synthetic lobe at its nose: -2 A L / half width squared; negative, an estimate.

    m per rad2. Source: mechanics.lobe.
    """
    return lobe_lift / positive(lobe_half_width) ** 2 * lobe.nose_curvature(lobe_fullness + 2)


def lobe_area__of_table(lobe_table: Table) -> Length:
    """Area under a tabulated lobe over the cam angle, in m times rad.

    Source: trapezoids.
    """
    return tables_of_lobes.area_under(tables_of_lobes.whole(lobe_table))


def lobe_area(lobe_lift: Length, lobe_half_width: Angle, lobe_fullness: Ratio) -> Length:
    """Area under the synthetic lobe over the cam angle, in m times rad; an estimate.

    Source: mechanics.lobe.
    """
    return lobe_lift * lobe_half_width * lobe.flank_area(lobe_fullness + 2)


def lobe_nose_radius(camshaft_base_circle_diameter: Length, lobe_lift: Length, lobe_acceleration_nose: Length,
                     lifter_kind: Choice, lifter_foot_diameter: Length = None) -> Length:
    """Radius of the lobe at its nose, from the motion it gives its follower.

    Flat follower: base radius + lift + s''. Roller: that of the path of the wheel's center,
    (r + s)^2 / (r + s - s'') with r = base radius + wheel radius, less the wheel's radius. m.
    Source: Rothbart, Cam Design Handbook; Norton, Cam Design and Manufacturing Handbook, from memory.
    """
    top = positive(camshaft_base_circle_diameter / 2 + lobe_lift)
    if lifter_kind in FLATS:
        return top + lobe_acceleration_nose
    if lifter_kind not in ROLLERS or lifter_foot_diameter is None:
        return None
    wheel = positive(lifter_foot_diameter) / 2
    return (top + wheel) ** 2 / (top + wheel - lobe_acceleration_nose) - wheel


def lobe_hollow_radius(lobe_table: Table, camshaft_base_circle_diameter: Length, lobe_wheel_diameter: Length) -> Length:
    """Smallest radius of a hollow flank, from the table and the wheel the lobe was laid out for.

    Radius of the path of the wheel's center where it is hollow, plus the wheel's own radius; no answer where the
    flank is not hollow. m. Source: Rothbart, Cam Design Handbook, from memory.
    """
    return tables_of_lobes.hollow_of_table(lobe_table, camshaft_base_circle_diameter / 2, lobe_wheel_diameter / 2)


def lobe_contact_pressure(pushrod_static_load: Force, lobe_nose_radius: Length, lifter_kind: Choice, camshaft_core: Choice,
                          lifter_foot_diameter: Length = None, camshaft_lobe_width: Length = None,
                          lifter_foot: Choice = None, lifter_foot_crown_radius: Length = None) -> Pressure:
    """Highest contact pressure between nose and follower at full lift, the engine barely turning.

    A roller and a foot without crown touch along the width of the lobe, a crowned foot in an ellipse; a crown that is
    not written is taken as 50 in. Pa. Source: K. L. Johnson, Contact Mechanics, ch. 4; Hamrock's closed form.
    """
    if camshaft_core not in CORE_MODULUS:
        return None
    modulus = hertz.contact_modulus(CORE_MODULUS[camshaft_core], CORE_POISSON[camshaft_core], FOLLOWER_MODULUS, FOLLOWER_POISSON)
    load, nose = positive(pushrod_static_load), positive(lobe_nose_radius)
    if lifter_kind in ROLLERS:
        if lifter_foot_diameter is None or camshaft_lobe_width is None:
            return None
        radius = hertz.combined_radius(nose, positive(lifter_foot_diameter) / 2)
        return hertz.line_pressure(load, modulus, positive(camshaft_lobe_width), radius)
    if lifter_foot == "flat":
        if camshaft_lobe_width is None:
            return None
        return hertz.line_pressure(load, modulus, positive(camshaft_lobe_width), nose)
    crown = USUAL_CROWN_RADIUS if lifter_foot_crown_radius is None else lifter_foot_crown_radius
    return hertz.ellipse_pressure(load, modulus, nose, positive(crown))
