"""The clearance volume, term by term, and the ratio that follows."""

from ..dimensions import Choice, Length, Ratio, Volume
from ..numeric import PI


def crown_volume(piston_dish_volume: Volume, piston_dome_volume: Volume = None) -> Volume:
    """What the crown adds to the chamber: dish less dome; negative for a dome.

    m3. Source: geometry.
    """
    return piston_dish_volume if piston_dome_volume is None else piston_dish_volume - piston_dome_volume


def crown_volume__of_dome(piston_dome_volume: Volume) -> Volume:
    """What a domed crown without a dish takes from the chamber: minus the dome.

    m3. Source: geometry.
    """
    return -piston_dome_volume


def crown_volume__of_flat(piston_crown: Choice) -> Volume:
    """A flat crown without pockets adds nothing.

    m3. Source: geometry.
    """
    return 0.0 if piston_crown == "flat" else None


def gasket_volume(head_gasket_opening_volume: Volume) -> Volume:
    """Volume inside the clamped gasket, as its maker gives it for openings that are not round.

    m3. Source: the gasket maker's sheet.
    """
    return head_gasket_opening_volume


def gasket_volume__of_round_opening(head_gasket_bore: Length, head_gasket_compressed_thickness: Length) -> Volume:
    """Volume inside the clamped gasket: pi/4 x opening^2 x compressed thickness.

    m -> m3. Source: geometry.
    """
    return PI / 4 * head_gasket_bore**2 * head_gasket_compressed_thickness


def deck_volume(block_bore: Length, piston_below_deck: Length) -> Volume:
    """Volume between the flat of the crown and the deck at top: pi/4 x bore^2 x depth below the deck.

    Negative when the piston stands above the deck. m -> m3. Source: geometry.
    """
    return PI / 4 * block_bore**2 * piston_below_deck


def clearance_volume(head_chamber_volume: Volume, gasket_volume: Volume, deck_volume: Volume,
                     crown_volume: Volume) -> Volume:
    """Volume left at top: chamber, gasket, deck and crown.

    The crevice above the top ring is left out, as catalogue ratios leave it out. m3. Source: geometry.
    """
    return head_chamber_volume + gasket_volume + deck_volume + crown_volume


def compression_ratio(cylinder_displacement: Volume, clearance_volume: Volume) -> Ratio:
    """Static compression ratio: (swept + clearance) / clearance.

    Source: Heywood, Internal Combustion Engine Fundamentals, ch. 2.
    """
    return (cylinder_displacement + clearance_volume) / clearance_volume
