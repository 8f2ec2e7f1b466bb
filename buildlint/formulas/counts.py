"""How many pieces an engine takes, counted from its cylinders, heads, caps and holes.

For a pushrod engine with two valves to a cylinder. Locks are counted as halves. What is on the order is not
looked at here.
"""

from ..dimensions import Choice, Count, YesNo
from ..tables.order_items import (
    FOR_EACH_CYLINDER,
    FOR_EACH_HEAD,
    FOR_EACH_VALVE,
    HEAD_FASTENERS,
    ONE_FOR_AN_ENGINE,
)


def valves_needed(cylinders: Count) -> Count:
    """Valves of the engine: two to a cylinder.

    Source: arithmetic.
    """
    return 2 * cylinders


def pushrods_needed(valves_needed: Count) -> Count:
    """Pushrods: one to each valve.

    Source: arithmetic.
    """
    return valves_needed


def lifters_needed(valves_needed: Count) -> Count:
    """Lifters: one to each valve.

    Source: arithmetic.
    """
    return valves_needed


def rockers_needed(valves_needed: Count) -> Count:
    """Rockers: one to each valve.

    Source: arithmetic.
    """
    return valves_needed


def valve_springs_needed(valves_needed: Count) -> Count:
    """Valve springs, a nested set counted as one: one to each valve.

    Source: arithmetic.
    """
    return valves_needed


def valve_locks_needed(valves_needed: Count) -> Count:
    """Valve locks, counted as halves: two to each valve.

    Source: arithmetic.
    """
    return 2 * valves_needed


def stem_seals_needed(valves_needed: Count) -> Count:
    """Stem seals: one to each valve.

    Source: arithmetic.
    """
    return valves_needed


def spark_plugs_needed(cylinders: Count) -> Count:
    """Spark plugs: one to each cylinder.

    Source: arithmetic.
    """
    return cylinders


def head_gaskets_needed(head_per_engine: Count) -> Count:
    """Head gaskets: one under each head.

    Source: arithmetic.
    """
    return head_per_engine


def head_fasteners_needed(head_per_engine: Count, head_holes_per_head: Count) -> Count:
    """Head studs or bolts, and as many nuts or washers: the holes of one head times the heads.

    Source: arithmetic.
    """
    return head_per_engine * head_holes_per_head


def head_dowels_needed(head_per_engine: Count, block_dowel_holes_per_bank: Count) -> Count:
    """Head dowels: one for each dowel hole of each deck.

    Source: arithmetic.
    """
    return head_per_engine * block_dowel_holes_per_bank


def main_fasteners_needed(block_mains: Count, block_main_fasteners_per_cap: Count) -> Count:
    """Main cap bolts or studs: fasteners of one cap times the main bearings.

    Source: arithmetic.
    """
    return block_mains * block_main_fasteners_per_cap


def rod_bolts_needed(cylinders: Count) -> Count:
    """Rod bolts: two to each rod.

    Source: arithmetic.
    """
    return 2 * cylinders


def cam_bolts_needed(timing_set_cam_bolts: Count) -> Count:
    """Bolts of the cam sprocket: the holes of the sprocket.

    Source: arithmetic.
    """
    return timing_set_cam_bolts


def needed__for_each_valve(item: Choice, valves_needed: Count) -> Count:
    """Pieces of an item on the order that goes with each valve: valves times the pieces for one.

    Source: arithmetic.
    """
    return valves_needed * FOR_EACH_VALVE[item] if item in FOR_EACH_VALVE else None


def needed__for_each_cylinder(item: Choice, cylinders: Count) -> Count:
    """Pieces of an item on the order that goes with each cylinder: cylinders times the pieces for one.

    Source: arithmetic.
    """
    return cylinders * FOR_EACH_CYLINDER[item] if item in FOR_EACH_CYLINDER else None


def needed__for_each_head(item: Choice, head_per_engine: Count) -> Count:
    """Pieces of an item on the order that goes with each head: heads times the pieces for one.

    Source: arithmetic.
    """
    return head_per_engine * FOR_EACH_HEAD[item] if item in FOR_EACH_HEAD else None


def needed__head_fasteners(item: Choice, head_fasteners_needed: Count) -> Count:
    """Pieces of an item on the order that goes into each hole of the heads: one to a hole.

    Source: arithmetic.
    """
    return head_fasteners_needed if item in HEAD_FASTENERS else None


def needed__head_dowels(item: Choice, head_dowels_needed: Count) -> Count:
    """Head dowels on the order: one to each hole.

    Source: arithmetic.
    """
    return head_dowels_needed if item == "head_dowel" else None


def needed__main_fasteners(item: Choice, main_fasteners_needed: Count) -> Count:
    """Main cap fasteners on the order: one to each hole of the caps.

    Source: arithmetic.
    """
    return main_fasteners_needed if item == "main_fastener" else None


def needed__rod_bolts(item: Choice, rod_bolts_needed: Count) -> Count:
    """Rod bolts on the order: two to each rod.

    Source: arithmetic.
    """
    return rod_bolts_needed if item == "rod_bolt" else None


def needed__cam_bolts(item: Choice, cam_bolts_needed: Count) -> Count:
    """Cam sprocket bolts on the order: the holes of the sprocket.

    Source: arithmetic.
    """
    return cam_bolts_needed if item == "cam_bolt" else None


def needed__one(item: Choice) -> Count:
    """Items of which an engine has one.

    Source: arithmetic.
    """
    return 1 if item in ONE_FOR_AN_ENGINE else None


def fitted_once__by_reuse(reuse: Choice) -> YesNo:
    """Whether a joint's fasteners are fitted once only: as its maker says.

    Source: the maker's instruction, as it is written under reuse.
    """
    return reuse == "once_only"


def fitted_once__by_tightening(tightening: Choice) -> YesNo:
    """Whether a joint's fasteners are fitted once only: those drawn into yield are.

    Source: common practice, no source; makers' manuals say to replace them whenever they are taken out.
    """
    return True if tightening == "yield_angle" else None
