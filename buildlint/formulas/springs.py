"""Valve lift, spring heights and loads of the whole set as it is sold; each coil by itself stands in ``spring_coils``."""

from ..dimensions import Choice, Count, Force, Length, Ratio, Stiffness, Table
from ..mechanics.load_table import load_at
from ..mechanics.quotient import over
from ..numeric import least


def valve_lift_gross(lobe_lift: Length, rocker_ratio: Ratio) -> Length:
    """Valve lift before lash: lobe lift times rocker ratio.

    Source: kinematics of the rocker.
    """
    return lobe_lift * rocker_ratio


def valve_lift(valve_lift_gross: Length, lifter_kind: Choice = None, lash_hot: Length = None) -> Length:
    """Lift at the valve: gross lift, less the hot lash of solid lifters.

    Without a written lash the gross lift stands in: the most the valve can open. Source: kinematics.
    """
    if lash_hot is None or lifter_kind not in ("solid_flat", "solid_roller"):
        return valve_lift_gross
    return valve_lift_gross - lash_hot


def spring_installed_height(valve_stem_height: Length, retainer_tip_to_face: Length, lock_height_gain: Length = None,
                            spring_shim_thickness: Length = None) -> Length:
    """Installed height from its stack: stem height less tip to retainer face, plus lock offset, less shims and cup.

    Source: geometry.
    """
    height = valve_stem_height - retainer_tip_to_face
    if lock_height_gain is not None:
        height = height + lock_height_gain
    return height if spring_shim_thickness is None else height - spring_shim_thickness


def spring_open_height(spring_installed_height: Length, valve_lift: Length) -> Length:
    """Height of the spring at full lift: installed height less valve lift.

    Source: geometry.
    """
    return spring_installed_height - valve_lift


def spring_rate(spring_load_table: Table, spring_installed_height: Length, spring_open_height: Length) -> Stiffness:
    """Mean rate over the working travel of a tested spring: load gained over height lost.

    Source: Hooke's law.
    """
    seat = load_at(spring_load_table, spring_installed_height)
    full = load_at(spring_load_table, spring_open_height)
    return over(full - seat, spring_installed_height - spring_open_height)


def spring_rate__of_nest(outer_spring_coil_rate: Stiffness, inner_spring_coil_rate: Stiffness,
                         innermost_spring_coil_rate: Stiffness = None) -> Stiffness:
    """Rate of a nested set: the sum of its coils.

    Source: springs in parallel.
    """
    both = outer_spring_coil_rate + inner_spring_coil_rate
    return both if innermost_spring_coil_rate is None else both + innermost_spring_coil_rate


def spring_seat_load(spring_load_table: Table, spring_installed_height: Length) -> Force:
    """Load with the valve shut, read from the tested loads at the installed height.

    Straight lines between measured heights; nothing beyond the ends but 1 mm. Source: measurement.
    """
    return load_at(spring_load_table, spring_installed_height)


def spring_seat_load__of_nest(outer_spring_coil_seat_load: Force, inner_spring_coil_seat_load: Force,
                              innermost_spring_coil_seat_load: Force = None) -> Force:
    """Load of a nested set with the valve shut: the sum of its coils, each at its own height.

    Source: springs in parallel.
    """
    both = outer_spring_coil_seat_load + inner_spring_coil_seat_load
    return both if innermost_spring_coil_seat_load is None else both + innermost_spring_coil_seat_load


def spring_seat_load__from_reference(spring_reference_load: Force, spring_reference_height: Length,
                                     spring_rate: Stiffness, spring_installed_height: Length) -> Force:
    """Load with the valve shut from one load of the sheet and the rate: F + k (reference height - height).

    Source: Hooke's law.
    """
    return spring_reference_load + spring_rate * (spring_reference_height - spring_installed_height)


def spring_open_load(spring_load_table: Table, spring_open_height: Length) -> Force:
    """Load at full lift, read from the tested loads at the open height.

    Straight lines between measured heights; nothing beyond the ends but 1 mm. Source: measurement.
    """
    return load_at(spring_load_table, spring_open_height)


def spring_open_load__of_nest(outer_spring_coil_open_load: Force, inner_spring_coil_open_load: Force,
                              innermost_spring_coil_open_load: Force = None) -> Force:
    """Load of a nested set at full lift: the sum of its coils, each at its own height.

    Source: springs in parallel.
    """
    both = outer_spring_coil_open_load + inner_spring_coil_open_load
    return both if innermost_spring_coil_open_load is None else both + innermost_spring_coil_open_load


def spring_open_load__from_rate(spring_seat_load: Force, spring_rate: Stiffness, valve_lift: Length) -> Force:
    """Load at full lift from the load on the seat: F + k x lift.

    Source: Hooke's law.
    """
    return spring_seat_load + spring_rate * valve_lift


def spring_open_load__from_reference(spring_reference_load: Force, spring_reference_height: Length,
                                     spring_rate: Stiffness, spring_open_height: Length) -> Force:
    """Load at full lift from one load of the sheet and the rate: F + k (reference height - open height).

    Source: Hooke's law.
    """
    return spring_reference_load + spring_rate * (spring_reference_height - spring_open_height)


def spring_coil_bind_margin(spring_open_height: Length, spring_solid_height: Length) -> Length:
    """What is left at full lift before the set goes solid: open height less solid height.

    Source: geometry.
    """
    return spring_open_height - spring_solid_height


def spring_coil_bind_margin__of_nest(outer_spring_coil_bind_margin: Length, inner_spring_coil_bind_margin: Length,
                                     innermost_spring_coil_bind_margin: Length = None) -> Length:
    """What is left before the first coil of a nested set goes solid: the least over its coils.

    Source: geometry.
    """
    smallest = least(outer_spring_coil_bind_margin, inner_spring_coil_bind_margin)
    return smallest if innermost_spring_coil_bind_margin is None else least(smallest, innermost_spring_coil_bind_margin)


def spring_coil_bind_margin__of_one(outer_spring_coil_bind_margin: Length, spring_count: Count) -> Length:
    """What is left before a set of one coil goes solid.

    Source: geometry.
    """
    return outer_spring_coil_bind_margin if spring_count == 1 else None


def spring_wire_rate(outer_spring_wire_rate: Stiffness, spring_count: Count) -> Stiffness:
    """Rate of a set of one coil by its wire.

    Source: EN 13906-1:2013, 9.4.
    """
    return outer_spring_wire_rate if spring_count == 1 else None


def spring_wire_rate__of_nest(outer_spring_wire_rate: Stiffness, inner_spring_wire_rate: Stiffness,
                              innermost_spring_wire_rate: Stiffness = None) -> Stiffness:
    """Rate of a nested set by its wires: the sum of its coils.

    Source: springs in parallel.
    """
    both = outer_spring_wire_rate + inner_spring_wire_rate
    return both if innermost_spring_wire_rate is None else both + innermost_spring_wire_rate


def spring_seal_gap(innermost_spring_inside_diameter: Length, seal_outside_diameter: Length,
                    spring_damper: Choice = None) -> Length:
    """Diametral gap between the third coil and the seal; with a damper inside it has to be measured.

    Source: geometry.
    """
    return _bare(spring_damper, innermost_spring_inside_diameter - seal_outside_diameter)


def spring_seal_gap__of_pair(inner_spring_inside_diameter: Length, seal_outside_diameter: Length, spring_count: Count,
                             spring_damper: Choice = None) -> Length:
    """Diametral gap between the inner coil of a pair and the seal; with a damper inside it has to be measured.

    Source: geometry.
    """
    return _bare(spring_damper, inner_spring_inside_diameter - seal_outside_diameter) if spring_count == 2 else None


def spring_seal_gap__of_one(outer_spring_inside_diameter: Length, seal_outside_diameter: Length, spring_count: Count,
                            spring_damper: Choice = None) -> Length:
    """Diametral gap between a single coil and the seal; with a damper inside it has to be measured.

    Source: geometry.
    """
    return _bare(spring_damper, outer_spring_inside_diameter - seal_outside_diameter) if spring_count == 1 else None


def _bare(damper, gap):
    """The gap where no damper stands in it."""
    return gap if damper in (None, "none") else None


def spring_locator_clearance(outer_spring_outside_diameter: Length, spring_locator_diameter: Length,
                             spring_located_by: Choice) -> Length:
    """Radial looseness of the set in its cup: half of cup less coil.

    Source: geometry.
    """
    return (spring_locator_diameter - outer_spring_outside_diameter) / 2 if spring_located_by == "cup" else None


def spring_locator_clearance__inside(outer_spring_inside_diameter: Length, spring_locator_diameter: Length,
                                     spring_located_by: Choice, inner_spring_inside_diameter: Length = None) -> Length:
    """Radial looseness of the set on an inner locator: half of the smallest coil's inside less locator.

    Source: geometry.
    """
    inside = outer_spring_inside_diameter if inner_spring_inside_diameter is None else inner_spring_inside_diameter
    return (inside - spring_locator_diameter) / 2 if spring_located_by == "inner_locator" else None
