"""Geometry and motion of the short block: volumes, deck, quench, piston speed."""

from ..dimensions import Acceleration, Angle, Choice, Count, Fraction, Length, Ratio, Rpm, Speed, Volume
from ..mechanics import slider_crank
from ..mechanics.expansion import growth
from ..numeric import PI, asin
from ..quantities import q
from ..tables.materials import CASTING_METAL

USUAL_OVERSPEED = 0.10
SLEEVE_RISE = q("90 K", "temperature_rise")


def cylinder_displacement(block_bore: Length, crank_stroke: Length) -> Volume:
    """Swept volume of one cylinder: pi/4 x bore^2 x stroke.

    bore, stroke in m -> m3. Source: geometry.
    """
    return PI / 4 * block_bore**2 * crank_stroke


def displacement(cylinder_displacement: Volume, cylinders: Count) -> Volume:
    """Swept volume of the engine: one cylinder times the number of cylinders.

    Source: geometry.
    """
    return cylinder_displacement * cylinders


def crank_throw(crank_stroke: Length) -> Length:
    """Distance of the pin from the crank's center: half the stroke.

    Source: geometry.
    """
    return crank_stroke / 2


def rod_ratio(rod_length: Length, crank_stroke: Length) -> Ratio:
    """Rod length over stroke.

    Source: geometry.
    """
    return rod_length / crank_stroke


def piston_below_deck(block_deck_height: Length, crank_throw: Length, rod_length: Length,
                      piston_compression_height: Length) -> Length:
    """Flat of the crown below the deck at top: deck height less throw, rod and compression height.

    All in m; negative when the piston stands above the deck. Source: geometry.
    """
    return block_deck_height - (crank_throw + rod_length + piston_compression_height)


def quench_gap(piston_below_deck: Length, head_gasket_compressed_thickness: Length,
               head_pad_recess: Length = None) -> Length:
    """Gap between the flats of piston and head at top, cold: below deck plus gasket plus recess of the pad.

    Source: geometry.
    """
    gap = piston_below_deck + head_gasket_compressed_thickness
    return gap if head_pad_recess is None else gap + head_pad_recess


def piston_speed_mean(crank_stroke: Length, rev_limit: Rpm) -> Speed:
    """Mean piston speed at the rev limit: two strokes in each turn.

    m, rad/s -> m/s. Source: Heywood, Internal Combustion Engine Fundamentals, ch. 2.
    """
    return crank_stroke * rev_limit / PI


def rod_angle_largest(crank_throw: Length, rod_length: Length, piston_pin_offset_to_thrust_side: Length = None) -> Angle:
    """Steepest lean of the rod against the bore: asin((throw + pin offset) / rod).

    m -> rad. Source: geometry.
    """
    return asin((crank_throw if piston_pin_offset_to_thrust_side is None else
                 crank_throw + piston_pin_offset_to_thrust_side) / rod_length)


def overspeed(rev_limit: Rpm, missed_shift_overspeed: Fraction = None) -> Rpm:
    """Speed the engine may be driven to above its limiter: limiter x (1 + over-rev); 10 percent where none is written.

    rad/s. Source: common practice, no source.
    """
    return rev_limit * (1 + (USUAL_OVERSPEED if missed_shift_overspeed is None else missed_shift_overspeed))


def piston_acceleration_top(crank_throw: Length, rod_length: Length, rev_limit: Rpm,
                            piston_pin_offset_to_thrust_side: Length = None) -> Acceleration:
    """Pull on the piston at top at the rev limit: r w^2 (1 + r / rod), with the pin's offset taken exactly.

    m, rad/s -> m/s2. Source: Den Hartog, Mechanical Vibrations, section 5.1 (from memory); exact slider-crank.
    """
    if piston_pin_offset_to_thrust_side is None:
        return crank_throw * rev_limit**2 * (1 + crank_throw / rod_length)
    top = slider_crank.top_angle(crank_throw, rod_length, piston_pin_offset_to_thrust_side)
    return slider_crank.piston_acceleration(top, crank_throw, rod_length, rev_limit, piston_pin_offset_to_thrust_side)



def block_wall_left(block_wall_thickness: Length, block_bore: Length, block_wall_measured_at_bore: Length = None) -> Length:
    """Thinnest wall after boring: as measured less half of what the bore grows from then.

    m; a wall without the bore it was measured at counts as measured now. Source: geometry.
    """
    if block_wall_measured_at_bore is None:
        return block_wall_thickness
    return block_wall_thickness - (block_bore - block_wall_measured_at_bore) / 2


def block_wall_left_thrust(block_wall_thickness_thrust: Length, block_bore: Length,
                           block_wall_measured_at_bore: Length = None) -> Length:
    """Wall on the thrust side after boring: as measured less half of what the bore grows from then.

    m. Source: geometry.
    """
    if block_wall_measured_at_bore is None:
        return block_wall_thickness_thrust
    return block_wall_thickness_thrust - (block_bore - block_wall_measured_at_bore) / 2


def block_sleeve_interference_hot(block_sleeve_interference: Length, block_sleeve_outside_diameter: Length,
                                  block_material: Choice) -> Length:
    """Press of an iron sleeve 90 K above room temperature: press less what the block grows more than the sleeve.

    m. Source: thermal expansion by the table of materials; the 90 K common practice, no source.
    """
    metal = CASTING_METAL.get(block_material)
    if metal is None:
        return None
    lost = growth(metal, block_sleeve_outside_diameter, SLEEVE_RISE) - growth("gray_iron", block_sleeve_outside_diameter, SLEEVE_RISE)
    return block_sleeve_interference - lost
