"""Clearance of the stem in its guide, and the grip of a seat insert in the head, cold and hot."""

from ..dimensions import Choice, Length
from ..mechanics.expansion import growth
from ..quantities import q
from ..tables.materials import CASTING_METAL
from ..tables.valve_seats import SEAT_METAL

SEAT_RISE = q("150 K", "temperature_rise")  # how much warmer than the shop the seat's surroundings run; engineering judgement


def guide_stem_clearance(guide_bore: Length, valve_stem_diameter: Length) -> Length:
    """Play of the stem in its guide: guide bore less stem diameter.

    Source: geometry.
    """
    return guide_bore - valve_stem_diameter


def seat_insert_interference(seat_insert_outside_diameter: Length, seat_insert_counterbore: Length) -> Length:
    """Press fit of the seat insert: its outside diameter less its counterbore.

    Source: geometry.
    """
    return seat_insert_outside_diameter - seat_insert_counterbore


def seat_insert_interference_hot(seat_insert_interference: Length, seat_insert_outside_diameter: Length,
                                 head_material: Choice, seat_material: Choice) -> Length:
    """Press fit of the seat insert with head and insert 150 K warmer: cold fit less what the head grows away from it.

    Both are taken as equally warm. m. Source: thermal strain; the rise is engineering judgement.
    """
    head, insert = CASTING_METAL.get(head_material), SEAT_METAL.get(seat_material)
    if head is None or insert is None:
        return None
    away = growth(head, seat_insert_outside_diameter, SEAT_RISE) - growth(insert, seat_insert_outside_diameter, SEAT_RISE)
    return seat_insert_interference - away
