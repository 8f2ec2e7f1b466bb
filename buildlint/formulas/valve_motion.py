"""How the valves move with the engine: moving masses, the speed at which the lifter leaves its lobe, and the gaps to
the piston, to the other valve and to the wall.

Gaps that were measured are written under the same words and win. Whatever rests on the synthetic lobe is an estimate;
rules know it by the missing lobe table.
"""

from functools import lru_cache

from ..dimensions import Angle, Choice, Force, Length, Mass, Ratio, Rpm, Table
from ..mechanics import lobe, overlap, separation
from ..mechanics import lobe_table as tables_of_lobes
from ..mechanics.lobe import positive
from ..mechanics.slider_crank import piston_drop
from ..numeric import cos, least, sin, sqrt
from ..tables.camshafts import USUAL_MASS

DEGREE = overlap.DEGREE

# -- masses and float ---------------------------------------------------------------------------------------


def springs_mass(outer_spring_mass: Mass, inner_spring_mass: Mass = None, innermost_spring_mass: Mass = None) -> Mass:
    """Mass of all coils on one valve.

    Source: sum.
    """
    mass = outer_spring_mass if inner_spring_mass is None else outer_spring_mass + inner_spring_mass
    return mass if innermost_spring_mass is None else mass + innermost_spring_mass


def valve_side_mass(valve_mass: Mass, retainer_mass: Mass, lock_mass: Mass, springs_mass: Mass, rocker_equivalent_mass: Mass,
                    pushrod_mass: Mass, lifter_mass: Mass, rocker_ratio: Ratio, valve_lash_cap_mass: Mass = None) -> Mass:
    """Mass of the whole train as it is felt at the valve.

    Valve, cap, retainer, locks, a third of the springs, the rocker's inertia, and pushrod and lifter over the ratio
    squared, since they move that much slower. kg. Source: equal kinetic energy; Rothbart, Cam Design Handbook, ch. 16.
    """
    own = valve_mass + retainer_mass + lock_mass + springs_mass / 3 + rocker_equivalent_mass
    own = own if valve_lash_cap_mass is None else own + valve_lash_cap_mass
    return own + (pushrod_mass + lifter_mass) / positive(rocker_ratio) ** 2


def valve_side_mass_usual(rocker_ratio: Ratio, valve_mass: Mass = None, retainer_mass: Mass = None, lock_mass: Mass = None,
                          springs_mass: Mass = None, rocker_equivalent_mass: Mass = None, pushrod_mass: Mass = None,
                          lifter_mass: Mass = None) -> Mass:
    """Mass at the valve with the usual figure for every part that was not weighed.

    Source: valve_side_mass; usual masses from memory.
    """
    usual = USUAL_MASS
    own = ((usual["valve"] if valve_mass is None else valve_mass) + (usual["retainer"] if retainer_mass is None else retainer_mass)
           + (usual["locks"] if lock_mass is None else lock_mass)
           + (usual["springs"] if springs_mass is None else springs_mass) / 3
           + (usual["rocker"] if rocker_equivalent_mass is None else rocker_equivalent_mass))
    slow = (usual["pushrod"] if pushrod_mass is None else pushrod_mass) + (usual["lifter"] if lifter_mass is None else lifter_mass)
    return own + slow / positive(rocker_ratio) ** 2


def float_speed__of_table(lobe_table: Table, rocker_ratio: Ratio, spring_seat_load: Force, spring_open_load: Force,
                          valve_side_mass: Mass) -> Rpm:
    """Crank speed at which a tabulated lobe falls away faster than the spring can follow, the train taken as rigid.

    Least over the lobe of sqrt(spring load / (mass x ratio x -s'')), in cam rad/s, times two.
    Source: force balance; Rothbart, Cam Design Handbook, ch. 16; Norton, from memory.
    """
    return 2 * separation.separation_of_table(lobe_table, spring_seat_load, spring_open_load,
                                              positive(valve_side_mass * rocker_ratio), 8 * DEGREE)


def float_speed(lobe_lift: Length, lobe_half_width: Angle, lobe_fullness: Ratio, rocker_ratio: Ratio,
                spring_seat_load: Force, spring_open_load: Force, valve_side_mass: Mass) -> Rpm:
    """Crank speed at which the synthetic lobe falls away faster than the spring can follow; an estimate.

    The load rises from the seat load to the open load as the lift does. rad/s. Source: as float_speed__of_table.
    """
    return _float_speed(lobe_lift, lobe_half_width, lobe_fullness, rocker_ratio, spring_seat_load, spring_open_load, valve_side_mass)


def float_speed_usual__of_table(lobe_table: Table, rocker_ratio: Ratio, spring_seat_load: Force, spring_open_load: Force,
                                valve_side_mass_usual: Mass) -> Rpm:
    """Float speed with the usual masses for parts that were not weighed, from the table of the lobe.

    Source: as float_speed__of_table.
    """
    return 2 * separation.separation_of_table(lobe_table, spring_seat_load, spring_open_load,
                                              positive(valve_side_mass_usual * rocker_ratio), 8 * DEGREE)


def float_speed_usual(lobe_lift: Length, lobe_half_width: Angle, lobe_fullness: Ratio, rocker_ratio: Ratio,
                      spring_seat_load: Force, spring_open_load: Force, valve_side_mass_usual: Mass) -> Rpm:
    """Float speed with the usual masses for parts that were not weighed, from the synthetic lobe.

    Source: as float_speed__of_table.
    """
    return _float_speed(lobe_lift, lobe_half_width, lobe_fullness, rocker_ratio, spring_seat_load, spring_open_load,
                        valve_side_mass_usual)


def _float_speed(lift, half_width, fullness, ratio, seat_load, open_load, mass):
    push = separation.tightest_push(fullness + 2, open_load / positive(seat_load) - 1)
    return 2 * sqrt(seat_load * half_width**2 * push / positive(mass * ratio * lift))


# -- piston to valve ------------------------------------------------------------------------------------------


def valve_to_piston_at_top(valve_recess: Length, head_gasket_compressed_thickness: Length, piston_below_deck: Length,
                           pocket_depth: Length) -> Length:
    """From the edge of the shut valve to the floor of its pocket, along the bore, piston at top.

    Recess of the valve, gasket, piston below the deck and depth of the pocket. m. Source: geometry.
    """
    return valve_recess + head_gasket_compressed_thickness + piston_below_deck + pocket_depth


def valve_to_piston_at_top__over_flat(valve_recess: Length, head_gasket_compressed_thickness: Length, piston_below_deck: Length,
                                      piston_crown: Choice) -> Length:
    """From the edge of the shut valve to a crown without pockets, along the bore, piston at top.

    m. Source: geometry.
    """
    if piston_crown not in ("flat", "dish"):
        return None
    return valve_recess + head_gasket_compressed_thickness + piston_below_deck


def lash_running(lifter_kind: Choice, lash_hot: Length = None, card_lash: Length = None) -> Length:
    """Lash the valve runs with: none with hydraulic lifters; with solid ones the hot lash, else the card's, else none.

    Source: definition.
    """
    if lifter_kind in ("hydraulic_flat", "hydraulic_roller"):
        return 0.0
    if lash_hot is not None:
        return lash_hot
    return 0.0 if card_lash is None else card_lash


def piston_gap__of_drop_table(drop_table: Table, lobe_table: Table, rocker_ratio: Ratio, lash_running: Length,
                              lobe_centerline_in_engine: Angle, side_name: Choice) -> Length:
    """Least gap from measured valve drops and a tabulated lobe: drop to contact less valve lift, around overlap top.

    Source: measurement.
    """
    return _over_drops(drop_table, tables_of_lobes.tabulated(lobe_table), rocker_ratio, lash_running, lobe_centerline_in_engine, side_name)[0]


def piston_gap__of_drop_table_estimated(drop_table: Table, lobe_lift: Length, lobe_half_width: Angle, lobe_fullness: Ratio,
                                        rocker_ratio: Ratio, lash_running: Length, lobe_centerline_in_engine: Angle,
                                        side_name: Choice) -> Length:
    """Least gap from measured valve drops and the synthetic lobe; an estimate.

    Source: measurement; mechanics.lobe.
    """
    curve = lobe.synthetic(lobe_lift, lobe_half_width, lobe_fullness + 2)
    return _over_drops(drop_table, curve, rocker_ratio, lash_running, lobe_centerline_in_engine, side_name)[0]


def piston_gap__of_lobe_table(lobe_table: Table, rocker_ratio: Ratio, lash_running: Length, lobe_centerline_in_engine: Angle,
                              side_name: Choice, crank_throw: Length, rod_length: Length, valve_to_piston_at_top: Length,
                              valve_axis_angle: Angle, pocket_depth: Length = None,
                              piston_pin_offset_to_thrust_side: Length = None) -> Length:
    """Least gap along the valve's axis around overlap top, from the tabulated lobe and the crank.

    Gap at top plus fall of the piston, along the valve's axis, less valve lift; searched from 30 degrees before top
    to 60 after for the intake, the other way round for the exhaust. m.
    Source: slider-crank, Heywood, Internal Combustion Engine Fundamentals, section 2.2; kinematics of the rocker.
    """
    return _over_crank(tables_of_lobes.tabulated(lobe_table), rocker_ratio, lash_running, lobe_centerline_in_engine, side_name, crank_throw,
                       rod_length, valve_to_piston_at_top, valve_axis_angle, pocket_depth, piston_pin_offset_to_thrust_side)[0]


def piston_gap(lobe_lift: Length, lobe_half_width: Angle, lobe_fullness: Ratio, rocker_ratio: Ratio, lash_running: Length,
               lobe_centerline_in_engine: Angle, side_name: Choice, crank_throw: Length, rod_length: Length,
               valve_to_piston_at_top: Length, valve_axis_angle: Angle, pocket_depth: Length = None,
               piston_pin_offset_to_thrust_side: Length = None) -> Length:
    """Least gap along the valve's axis around overlap top, from the synthetic lobe and the crank; an estimate.

    As piston_gap__of_lobe_table. m. Source: as there; mechanics.lobe.
    """
    return positive(crank_throw) * _estimated(0, lobe_lift, lobe_half_width, lobe_fullness, rocker_ratio, lash_running,
                                    lobe_centerline_in_engine, side_name, crank_throw, rod_length, valve_to_piston_at_top,
                                    valve_axis_angle, pocket_depth, piston_pin_offset_to_thrust_side)


def piston_gap_angle__of_drop_table(drop_table: Table, lobe_table: Table, rocker_ratio: Ratio, lash_running: Length,
                                    lobe_centerline_in_engine: Angle, side_name: Choice) -> Angle:
    """Where the gap from drops and tabulated lobe is least, after overlap top; before it is negative.

    Source: measurement.
    """
    return _over_drops(drop_table, tables_of_lobes.tabulated(lobe_table), rocker_ratio, lash_running, lobe_centerline_in_engine, side_name)[1]


def piston_gap_angle__of_lobe_table(lobe_table: Table, rocker_ratio: Ratio, lash_running: Length,
                                    lobe_centerline_in_engine: Angle, side_name: Choice, crank_throw: Length, rod_length: Length,
                                    valve_to_piston_at_top: Length, valve_axis_angle: Angle, pocket_depth: Length = None,
                                    piston_pin_offset_to_thrust_side: Length = None) -> Angle:
    """Where the gap from tabulated lobe and crank is least, after overlap top; before it is negative.

    Source: as piston_gap__of_lobe_table.
    """
    return _over_crank(tables_of_lobes.tabulated(lobe_table), rocker_ratio, lash_running, lobe_centerline_in_engine, side_name, crank_throw,
                       rod_length, valve_to_piston_at_top, valve_axis_angle, pocket_depth, piston_pin_offset_to_thrust_side)[1]


def piston_gap_angle(lobe_lift: Length, lobe_half_width: Angle, lobe_fullness: Ratio, rocker_ratio: Ratio, lash_running: Length,
                     lobe_centerline_in_engine: Angle, side_name: Choice, crank_throw: Length, rod_length: Length,
                     valve_to_piston_at_top: Length, valve_axis_angle: Angle, pocket_depth: Length = None,
                     piston_pin_offset_to_thrust_side: Length = None) -> Angle:
    """Where the estimated gap is least, after overlap top; before it is negative.

    Source: as piston_gap.
    """
    return _estimated(1, lobe_lift, lobe_half_width, lobe_fullness, rocker_ratio, lash_running, lobe_centerline_in_engine,
                      side_name, crank_throw, rod_length, valve_to_piston_at_top, valve_axis_angle, pocket_depth,
                      piston_pin_offset_to_thrust_side)


def piston_gap_timing_slope__of_table(lobe_table: Table, rocker_ratio: Ratio, lobe_centerline_in_engine: Angle,
                                      piston_gap_angle: Angle) -> Length:
    """How much of the gap goes with each radian of crank that the cam is mistimed, from the tabulated lobe.

    Half the ratio times the slope of the lobe where the gap is least: at the bottom of the valley the piston stands,
    and only the valve's lift counts. m per rad. Source: derivative of piston_gap by the centerline.
    """
    side = 1 if piston_gap_angle >= 0 else -1
    fit = tables_of_lobes.local_motion(tables_of_lobes.whole(lobe_table), (piston_gap_angle - side * lobe_centerline_in_engine) / 2, 4 * DEGREE)
    return None if fit is None else rocker_ratio * abs(fit[1]) / 2


def piston_gap_timing_slope(lobe_lift: Length, lobe_half_width: Angle, lobe_fullness: Ratio, rocker_ratio: Ratio,
                            lobe_centerline_in_engine: Angle, piston_gap_angle: Angle, side_name: Choice) -> Length:
    """How much of the gap goes with each radian of crank that the cam is mistimed, from the synthetic lobe.

    m per rad; an estimate. Source: derivative of piston_gap by the centerline.
    """
    away = lobe_centerline_in_engine - (piston_gap_angle if side_name == "intake" else -piston_gap_angle)
    width = positive(lobe_half_width)
    return -rocker_ratio * lobe_lift / width * lobe.flank_slope(abs(away) / 2 / width, positive(lobe_fullness) + 2) / 2


def _window(side_name):
    return (-30 * DEGREE, 60 * DEGREE) if side_name == "intake" else (-60 * DEGREE, 30 * DEGREE)


def _nose(centerline, side_name):
    return centerline if side_name == "intake" else -centerline


def _over_drops(drops, curve, ratio, lash, centerline, side_name):
    opening = overlap.valve_opening(curve, ratio, lash, _nose(centerline, side_name))
    return overlap.least_gap(overlap.gap_to_drop_table(drops), opening, *_window(side_name))


def _over_crank(curve, ratio, lash, centerline, side_name, throw, rod, at_top, axis_angle, pocket_depth, offset):
    opening = overlap.valve_opening(curve, ratio, lash, _nose(centerline, side_name))
    if not 0 < throw < rod:
        return lobe.NAN, lobe.NAN
    gap = overlap.gap_to_piston(at_top, throw, rod, 0.0 if offset is None else offset, axis_angle, pocket_depth is None)
    return overlap.least_gap(gap, opening, *_window(side_name))


def _estimated(which, lift, half_width, fullness, ratio, lash, centerline, side_name, throw, rod, at_top, axis_angle,
               pocket_depth, offset):
    """Gap over throw, or its angle, with every length counted in throws so that only plain numbers are searched."""

    throw = positive(throw)

    def one(*numbers):
        return _least_gap_in_throws(side_name, pocket_depth is None, *numbers)[which]

    return lobe.elementwise(one, lift / throw, half_width, fullness, ratio, lash / throw, centerline, rod / throw, at_top / throw,
                            axis_angle, 0.0 if offset is None else offset / throw)


@lru_cache(maxsize=512)
def _least_gap_in_throws(side_name, flat_crown, lift, half_width, fullness, ratio, lash, centerline, rod, at_top, axis_angle, offset):
    if not (fullness > 0 and half_width > 0 and rod > 1 and abs(offset) < rod - 1):
        return lobe.NAN, lobe.NAN
    opening = overlap.valve_opening(lobe.synthetic(lift, half_width, fullness + 2), ratio, lash, _nose(centerline, side_name))
    gap = overlap.gap_to_piston(at_top, 1.0, rod, offset, axis_angle, flat_crown)
    return overlap.least_gap(gap, opening, *_window(side_name))


def pocket_radial_gap(pocket_diameter: Length, valve_head_diameter: Length, valve_axis_angle: Angle = None,
                      piston_gap_angle: Angle = None, crank_throw: Length = None, rod_length: Length = None) -> Length:
    """Room at the edge of a valve in its pocket: half of what the pocket is larger, less the way the leaning valve goes aside.

    Where angle and crank are known, the piston's fall at the closest point times sin(angle) is taken off: pocket and
    valve meet there, not at top. m. Source: geometry; slider-crank.
    """
    room = (pocket_diameter - valve_head_diameter) / 2
    if valve_axis_angle is None or piston_gap_angle is None or crank_throw is None or rod_length is None:
        return room
    return room - piston_drop(piston_gap_angle, crank_throw, positive(rod_length)) * sin(valve_axis_angle)


# -- valve to valve, wall and gasket --------------------------------------------------------------------------


def head_valve_to_valve_gap(head_valve_layout: Choice, head_valve_spacing: Length, intake_valve_head_diameter: Length,
                            exhaust_valve_head_diameter: Length) -> Length:
    """Gap between the heads of parallel valves, which pass each other side by side: spacing less half of both diameters.

    m. Source: geometry.
    """
    if head_valve_layout != "parallel":
        return None
    return head_valve_spacing - (intake_valve_head_diameter + exhaust_valve_head_diameter) / 2


def head_valve_to_valve_gap__inclined(head_valve_layout: Choice, head_valve_spacing: Length, intake_valve_head_diameter: Length,
                                      exhaust_valve_head_diameter: Length, intake_valve_axis_angle: Angle,
                                      exhaust_valve_axis_angle: Angle, intake_lobe_lift: Length, intake_lobe_half_width: Angle,
                                      intake_lobe_fullness: Ratio, intake_lobe_centerline_in_engine: Angle, intake_rocker_ratio: Ratio,
                                      exhaust_lobe_lift: Length, exhaust_lobe_half_width: Angle, exhaust_lobe_fullness: Ratio,
                                      exhaust_lobe_centerline_in_engine: Angle, exhaust_rocker_ratio: Ratio) -> Length:
    """Least gap through overlap between valves that open toward each other in one plane, synthetic lobes; an estimate.

    Nearest points of both edges, each moved along its own axis; walked from 40 degrees before overlap top to 40 after,
    with no lash. m. Source: geometry; mechanics.lobe.
    """
    if head_valve_layout != "hemi":
        return None
    gap = None
    for step in range(-8, 9):
        crank = step * 5 * DEGREE
        intake = intake_rocker_ratio * intake_lobe_lift * lobe.flank(
            abs(crank - intake_lobe_centerline_in_engine) / 2 / positive(intake_lobe_half_width), intake_lobe_fullness + 2)
        exhaust = exhaust_rocker_ratio * exhaust_lobe_lift * lobe.flank(
            abs(crank + exhaust_lobe_centerline_in_engine) / 2 / positive(exhaust_lobe_half_width), exhaust_lobe_fullness + 2)
        here = overlap.inclined_gap(head_valve_spacing, intake_valve_head_diameter, exhaust_valve_head_diameter,
                                    intake_valve_axis_angle, exhaust_valve_axis_angle, intake, exhaust)
        gap = here if gap is None else least(gap, here)
    return gap


def wall_gap(block_bore: Length, valve_bore_offset: Length, valve_head_diameter: Length, valve_axis_angle: Angle,
             valve_lift_gross: Length, head_valve_layout: Choice = None) -> Length:
    """Least gap between the opening valve and the cylinder wall, from where the valve sits.

    Parallel valves stand off center along the crank and lean across it, so the open head is sqrt(offset^2 +
    (lift sin a)^2) from the bore's center; canted and hemispherical valves open away from the wall and are nearest as
    they leave the seat. Half the head's diameter comes on top. m. Source: geometry.
    """
    if head_valve_layout in ("canted", "hemi"):
        reach = valve_bore_offset + valve_head_diameter / 2 * cos(valve_axis_angle)
    else:
        reach = sqrt(valve_bore_offset**2 + (valve_lift_gross * sin(valve_axis_angle)) ** 2) + valve_head_diameter / 2
    return block_bore / 2 - reach


def gasket_edge_gap(head_gasket_bore: Length, block_bore: Length, wall_gap: Length) -> Length:
    """Gap between the open valve and the edge of the gasket: gap to the wall plus half of what the opening is larger.

    m. Source: geometry.
    """
    return wall_gap + (head_gasket_bore - block_bore) / 2
