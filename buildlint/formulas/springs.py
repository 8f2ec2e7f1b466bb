"""Valve lift, spring heights and spring loads, for the set as sold and for each nested coil at its own height."""

from ..dimensions import Choice, Force, Length, Ratio, Stiffness, Table
from ..numeric import interpolate, least


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
    seat = _load_at(spring_load_table, spring_installed_height)
    full = _load_at(spring_load_table, spring_open_height)
    return (full - seat) / (spring_installed_height - spring_open_height)


def spring_rate__of_nest(outer_spring_rate: Stiffness, inner_spring_rate: Stiffness,
                         innermost_spring_rate: Stiffness = None) -> Stiffness:
    """Rate of a nested set: the sum of its coils.

    Source: springs in parallel.
    """
    both = outer_spring_rate + inner_spring_rate
    return both if innermost_spring_rate is None else both + innermost_spring_rate


def spring_seat_load(spring_load_table: Table, spring_installed_height: Length) -> Force:
    """Load with the valve shut, read from the tested loads at the installed height.

    Straight lines between measured heights; nothing beyond the ends but 1 mm. Source: measurement.
    """
    return _load_at(spring_load_table, spring_installed_height)


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
    return _load_at(spring_load_table, spring_open_height)


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


# -- one coil of a nested set, at its own height -----------------------------------------------------------


def coil_installed_height(spring_installed_height: Length, height_step: Length) -> Length:
    """A coil's own installed height: that of the outer less the steps of retainer and cup under it.

    Source: geometry.
    """
    return spring_installed_height - height_step


def coil_seat_load(load_table: Table, coil_installed_height: Length) -> Force:
    """A coil's load with the valve shut, read from its own tested loads.

    Source: measurement.
    """
    return _load_at(load_table, coil_installed_height)


def coil_seat_load__from_reference(reference_load: Force, reference_height: Length, rate: Stiffness,
                                   coil_installed_height: Length) -> Force:
    """A coil's load with the valve shut from one load of its sheet and its rate.

    Source: Hooke's law.
    """
    return reference_load + rate * (reference_height - coil_installed_height)


def coil_open_load(load_table: Table, coil_installed_height: Length, valve_lift: Length) -> Force:
    """A coil's load at full lift, read from its own tested loads.

    Source: measurement.
    """
    return _load_at(load_table, coil_installed_height - valve_lift)


def coil_open_load__from_rate(coil_seat_load: Force, rate: Stiffness, valve_lift: Length) -> Force:
    """A coil's load at full lift: F + k x lift.

    Source: Hooke's law.
    """
    return coil_seat_load + rate * valve_lift


def coil_bind_margin(coil_installed_height: Length, valve_lift: Length, solid_height: Length) -> Length:
    """What is left of one coil at full lift before it goes solid.

    Source: geometry.
    """
    return coil_installed_height - valve_lift - solid_height


def _load_at(table, height):
    """Load of a tested spring at a height; up to 1 mm beyond the ends along the last line, else NaN."""
    points = sorted((float(at), float(load)) for at, load in table)
    if len(points) < 2:
        return float("nan")
    (low, low_load), (next_low, next_load) = points[0], points[1]
    (high, high_load), (next_high, next_high_load) = points[-1], points[-2]
    reach = 0.001
    points.insert(0, (low - reach, low_load + (low_load - next_load) / (next_low - low) * reach))
    points.append((high + reach, high_load + (high_load - next_high_load) / (high - next_high) * reach))
    return interpolate(height, points)
