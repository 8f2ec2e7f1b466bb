"""What pushes on a pushrod, what it carries before it bows, how far it gives, and how long it has to be."""

from ..dimensions import Angle, Choice, Force, Frequency, Length, Mass, Power, Pressure, Ratio, Rpm, Stiffness
from ..mechanics.beam import first_bending_frequency
from ..mechanics.column import buckling_load, tube_area, tube_second_moment
from ..mechanics.flank_push import highest_push
from ..mechanics.quotient import over
from ..numeric import PI, cos, greatest, where
from ..quantities import q
from ..tables.materials import DENSITY, MODULUS

# Yield strength by material: plain seamless tube 450 MPa, heat-treated chrome-moly and tool steel 900 MPa and more.
# Engineering judgement, from memory; a written yield_strength wins.
PUSHROD_YIELD = {"low_carbon": q("250 MPa"), "seamless": q("450 MPa"), "chrome_moly": q("900 MPa"),
                 "tool_steel": q("1400 MPa")}

# How much more than the static push a running train puts on the rod. Engineering judgement, no source.
USUAL_LOAD_FACTOR, HARD_LOAD_FACTOR = 1.5, 2.0
FAST = q("7500 rpm")
MUCH_BOOST = q("15 psi")
NO_POWER = q("0 hp")

# What stands in the cylinder when the exhaust valve opens, where nothing is written. Engineering judgement, no source.
OPENING_PRESSURE = {"natural": q("5 bar"), "charged": q("8 bar")}
MARGIN_ON_ESTIMATE = 1.3


def pushrod_strength(pushrod_yield_strength: Pressure) -> Pressure:
    """Yield strength of the pushrod's tube: as its certificate says.

    Source: the maker's sheet.
    """
    return pushrod_yield_strength


def pushrod_strength__by_material(pushrod_material: Choice) -> Pressure:
    """Yield strength of the pushrod's tube by its material, where no certificate is written.

    Source: common practice, no source; from memory.
    """
    return PUSHROD_YIELD.get(pushrod_material)


def pushrod_static_load(rocker_ratio: Ratio, spring_open_load: Force) -> Force:
    """Push at full lift, standing still: rocker ratio times open load.

    Source: lever.
    """
    return rocker_ratio * spring_open_load


def pushrod_load_factor(rev_limit: Rpm = None, boost_pressure: Pressure = None, nitrous_power: Power = None) -> Ratio:
    """How many times the static push the running train is taken to put on the rod: 1.5, or 2.0 when driven hard.

    Hard is above 7500 rpm, above 15 psi of boost, or with nitrous. Source: engineering judgement, no source.
    """
    factor = USUAL_LOAD_FACTOR
    if rev_limit is not None:
        factor = where(rev_limit > FAST, HARD_LOAD_FACTOR, factor)
    if boost_pressure is not None:
        factor = where(boost_pressure > MUCH_BOOST, HARD_LOAD_FACTOR, factor)
    if nitrous_power is not None:
        factor = where(nitrous_power > NO_POWER, HARD_LOAD_FACTOR, factor)
    return factor


def pushrod_opening_load(side_name: Choice, rocker_ratio: Ratio, spring_seat_load: Force, valve_head_diameter: Length,
                         port_opening_pressure: Pressure = None, induction: Choice = None,
                         nitrous_power: Power = None) -> Force:
    """Push that opens the exhaust valve against the cylinder: ratio times (seat load + pressure on the head).

    Without a written pressure 5 bar is taken, 8 bar with boost or nitrous. Source: statics, as Khurmi and Gupta, A
    Textbook of Machine Design, Example 32.8 sums them; the pressures are engineering judgement.
    """
    if side_name != "exhaust":
        return None
    pressure = port_opening_pressure
    if pressure is None:
        charged = induction in ("supercharged", "turbocharged") or nitrous_power is not None
        pressure = OPENING_PRESSURE["charged" if charged else "natural"]
    return rocker_ratio * (spring_seat_load + pressure * (PI / 4 * valve_head_diameter**2))


def pushrod_flank_load(valve_side_mass: Mass, lifter_mass: Mass, rocker_ratio: Ratio, spring_seat_load: Force,
                       spring_open_load: Force, lobe_lift: Length, lobe_half_width: Angle, lobe_exponent: Ratio,
                       rev_limit: Rpm) -> Force:
    """Highest push at the rev limit with every part rigid: spring and inertia on the opening flank of the synthetic lobe.

    ratio x (seat load + spring) + (ratio^2 x mass at the valve - lifter) x acceleration of the lifter, at its greatest.
    kg, N, m, rad, rad/s -> N. Source: force balance; the lobe is an estimate.
    """
    mass = rocker_ratio**2 * valve_side_mass - lifter_mass
    cam_speed = rev_limit / 2
    at_rest = rocker_ratio * spring_seat_load
    inertia = over(mass * lobe_lift * cam_speed**2, lobe_half_width**2 * at_rest)
    return at_rest * highest_push(lobe_exponent, over(spring_open_load, spring_seat_load) - 1, inertia)


def pushrod_design_load(pushrod_static_load: Force, pushrod_load_factor: Ratio, pushrod_opening_load: Force = None,
                        pushrod_flank_load: Force = None) -> Force:
    """Estimate of the highest push while running: static push times its factor, or 1.3 times opening or flank push.

    Source: engineering judgement, no source.
    """
    running = pushrod_load_factor * pushrod_static_load
    if pushrod_opening_load is not None:
        running = greatest(running, MARGIN_ON_ESTIMATE * pushrod_opening_load)
    return running if pushrod_flank_load is None else greatest(running, MARGIN_ON_ESTIMATE * pushrod_flank_load)


def pushrod_buckling_load(pushrod_outside_diameter: Length, pushrod_wall: Length, pushrod_length: Length,
                          pushrod_strength: Pressure, pushrod_smallest_body_diameter: Length = None) -> Force:
    """Load at which the pushrod bows, ball ends free to swivel: Euler, or Johnson when it is short.

    Of a tapered rod the smallest diameter over its middle half counts. m, m, m, Pa, m -> N.
    Source: Shigley, Mechanical Engineering Design, 9th ed., sections 4-12, 4-13.
    """
    diameter = pushrod_outside_diameter if pushrod_smallest_body_diameter is None else pushrod_smallest_body_diameter
    area = tube_area(diameter, pushrod_wall)
    moment = tube_second_moment(diameter, pushrod_wall)
    return buckling_load(area, moment, pushrod_length, MODULUS["steel"], pushrod_strength)


def pushrod_stiffness(pushrod_outside_diameter: Length, pushrod_wall: Length, pushrod_length: Length) -> Stiffness:
    """Push needed to shorten the rod: E x area / length.

    Source: elasticity.
    """
    return over(MODULUS["steel"] * tube_area(pushrod_outside_diameter, pushrod_wall), pushrod_length)


def pushrod_lift_lost(pushrod_static_load: Force, pushrod_stiffness: Stiffness, rocker_ratio: Ratio) -> Length:
    """Valve lift that the rod's shortening takes at full lift: ratio x static push / stiffness.

    Source: elasticity.
    """
    return over(rocker_ratio * pushrod_static_load, pushrod_stiffness)


def pushrod_bending_frequency(pushrod_outside_diameter: Length, pushrod_wall: Length, pushrod_length: Length) -> Frequency:
    """First sideways frequency of the rod between its ball ends.

    Source: Euler-Bernoulli beam on two pins.
    """
    return first_bending_frequency(MODULUS["steel"], tube_second_moment(pushrod_outside_diameter, pushrod_wall),
                                   DENSITY["steel"], tube_area(pushrod_outside_diameter, pushrod_wall), pushrod_length)


def pushrod_length_to_order(pushrod_zero_lash_length: Length, lifter_preload: Length, lifter_kind: Choice) -> Length:
    """Length to order for hydraulic lifters: what the checker showed at zero lash, plus the preload.

    Source: geometry.
    """
    if lifter_kind not in ("hydraulic_flat", "hydraulic_roller"):
        return None
    return pushrod_zero_lash_length + lifter_preload


def pushrod_length_to_order__solid(pushrod_zero_lash_length: Length, lifter_kind: Choice) -> Length:
    """Length to order for solid lifters: what the checker showed at zero lash, adjuster in the middle of its travel.

    Source: geometry.
    """
    return pushrod_zero_lash_length if lifter_kind in ("solid_flat", "solid_roller") else None


def pushrod_tip_rise(seat_sunk: Length = None, valve_lash_cap: Choice = None, valve_lash_cap_height: Length = None,
                     valve_tip_ground_off: Length = None) -> Length:
    """How much higher the valve tip stands than before: seat sunk, plus lash cap, less what was ground off the tip.

    Source: geometry.
    """
    rise = None
    if seat_sunk is not None:
        rise = seat_sunk
    if valve_lash_cap == "fitted" and valve_lash_cap_height is not None:
        rise = valve_lash_cap_height if rise is None else rise + valve_lash_cap_height
    if valve_tip_ground_off is not None:
        rise = -valve_tip_ground_off if rise is None else rise - valve_tip_ground_off
    return rise


def pushrod_length_from_machining(
    pushrod_replaced_length: Length, rocker_ratio: Ratio, rocker_adjustment: Choice = None,
    block_deck_removed: Length = None, head_face_removed: Length = None,
    head_gasket_compressed_thickness: Length = None, head_gasket_replaced_thickness: Length = None,
    camshaft_base_circle_diameter: Length = None, camshaft_replaced_base_circle_diameter: Length = None,
    lifter_cup_height: Length = None, lifter_replaced_cup_height: Length = None, pushrod_tip_rise: Length = None,
    rocker_stand_raised: Length = None, pushrod_angle: Angle = None,
) -> Length:
    """Length that follows from a known build: old length, less what deck, head and lifter took, plus gasket and base circle.

    old - deck cut - head cut + (new - old gasket) + half of (old - new base circle) - (new - old cup height)
    - tip rise / r + (1 + r) / r x stand raised, from the lever V = (1 + r) Q - r P; what is not written counts as
    unchanged. A nut on the stud lets the pivot follow the tip, so that there the rod grows by the tip's rise. A leaning
    rod counts the cuts and the gasket by the cosine of its angle. m. Source: geometry.
    """
    along_the_bore = 0 * pushrod_replaced_length
    for cut in (block_deck_removed, head_face_removed):
        if cut is not None:
            along_the_bore = along_the_bore - cut
    if head_gasket_compressed_thickness is not None and head_gasket_replaced_thickness is not None:
        along_the_bore = along_the_bore + head_gasket_compressed_thickness - head_gasket_replaced_thickness
    if pushrod_angle is not None:
        along_the_bore = along_the_bore * cos(pushrod_angle)
    length = pushrod_replaced_length + along_the_bore
    if camshaft_base_circle_diameter is not None and camshaft_replaced_base_circle_diameter is not None:
        length = length + (camshaft_replaced_base_circle_diameter - camshaft_base_circle_diameter) / 2
    if lifter_cup_height is not None and lifter_replaced_cup_height is not None:
        length = length - (lifter_cup_height - lifter_replaced_cup_height)
    if pushrod_tip_rise is not None:
        length = length + (pushrod_tip_rise if rocker_adjustment == "stud_nut" else -over(pushrod_tip_rise, rocker_ratio))
    if rocker_stand_raised is not None:
        length = length + over(1 + rocker_ratio, rocker_ratio) * rocker_stand_raised
    return length
