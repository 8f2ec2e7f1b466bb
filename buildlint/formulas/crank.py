"""The crank itself: overlap of its journals and how it twists."""

from ..dimensions import Frequency, Length, List, TorsionalStiffness
from ..mechanics import torsion
from ..numeric import least


def crank_journal_overlap(main_bearing_journal_diameter_smallest: Length, rod_bearing_journal_diameter_smallest: Length,
                          crank_throw: Length) -> Length:
    """How far main journal and pin overlap seen from the end: half of both diameters less the throw.

    m; negative when they stand clear of each other. Source: geometry.
    """
    return (main_bearing_journal_diameter_smallest + rod_bearing_journal_diameter_smallest) / 2 - crank_throw


def crank_throw_stiffness(main_bearing_width: Length, main_bearing_journal_diameter_smallest: Length,
                          crank_pin_length: Length, rod_bearing_journal_diameter_smallest: Length, crank_throw: Length,
                          crank_cheek_thickness: Length, crank_cheek_width: Length) -> TorsionalStiffness:
    """Twisting stiffness of one throw, solid journals, by Carter's equivalent shaft.

    m -> N*m/rad. Source: Carter, in Nestorides, A Handbook on Torsional Vibration (from memory).
    """
    return torsion.throw_stiffness(main_bearing_width, main_bearing_journal_diameter_smallest, crank_pin_length,
                                   rod_bearing_journal_diameter_smallest, crank_throw, crank_cheek_thickness, crank_cheek_width)


def crank_torsional_frequency(crank_torsional_inertias: List, crank_torsional_stiffnesses: List) -> Frequency:
    """Lowest frequency at which the chain of inertias and shafts twists, undamped.

    kg*m2 and N*m/rad, front to rear, one shaft fewer than inertias -> Hz. Source: free-free torsional chain, any text on
    vibration (Den Hartog, Mechanical Vibrations, chapter 5, from memory).
    """
    return torsion.lowest_frequency(crank_torsional_inertias, crank_torsional_stiffnesses)


def crank_counterweight_gap(crank_skirt_gap: Length, crank_block_gap: Length = None) -> Length:
    """Least gap of the counterweights to skirts and block, as measured.

    m. Source: definition.
    """
    return crank_skirt_gap if crank_block_gap is None else least(crank_skirt_gap, crank_block_gap)


def crank_counterweight_gap__to_block(crank_block_gap: Length) -> Length:
    """Least gap of the counterweights where only that to the block is written.

    m. Source: definition.
    """
    return crank_block_gap


def crank_counterweight_gap__from_parts(rod_length: Length, crank_throw: Length, piston_crown_to_skirt_end: Length,
                                        piston_compression_height: Length, crank_counterweight_radius: Length) -> Length:
    """Gap from skirt to counterweight at bottom: rod less throw, less skirt below the pin, less counterweight radius.

    m. Source: geometry.
    """
    return rod_length - crank_throw - (piston_crown_to_skirt_end - piston_compression_height) - crank_counterweight_radius


def pilot_interference(pilot_outside_diameter: Length, crank_pilot_bore: Length) -> Length:
    """Press of the pilot in the crank: its outside diameter less the bore; negative where it is loose.

    m. Source: definition.
    """
    return pilot_outside_diameter - crank_pilot_bore
