"""Gas against clamp: the force that lifts a head or a main cap, and what its fasteners set against it; rings, dowels and
lands of the head gasket; and what cutting faces moves.
"""

from ..dimensions import Angle, Area, Choice, Count, Force, Fraction, Length, Pressure, Ratio, Torque
from ..mechanics import gasket_wire
from ..mechanics.validity import positive
from ..numeric import PI, cos, sin

HALF = 0.5


def lifting_diameter(head_gasket_bore: Length) -> Length:
    """Diameter on which the gas lifts the head: the gasket's opening.

    Source: geometry.
    """
    return head_gasket_bore


def lifting_diameter__of_bore(block_bore: Length) -> Length:
    """Diameter on which the gas lifts the head, where the gasket is not chosen yet: the bore.

    Source: geometry.
    """
    return block_bore


def head_lift_load(peak_cylinder_pressure: Pressure, lifting_diameter: Length) -> Force:
    """Force with which one cylinder lifts the head: peak pressure on the gasket's opening.

    Pa, m -> N. Source: geometry.
    """
    return peak_cylinder_pressure * PI / 4 * lifting_diameter**2


def gas_load_head(design_cylinder_pressure: Pressure, lifting_diameter: Length) -> Force:
    """Force with which one cylinder lifts the head at its design pressure, on the gasket's opening.

    Pa, m -> N. Source: geometry.
    """
    return design_cylinder_pressure * PI / 4 * lifting_diameter**2


def fasteners_round_bore(head_bolts_per_cylinder: Count) -> Count:
    """How many fasteners stand round one chamber, as the head is drilled.

    Source: the spec itself.
    """
    return head_bolts_per_cylinder


def fasteners_round_bore__of_block(block_head_bolts_per_cylinder: Count) -> Count:
    """How many fasteners stand round one bore, as the block is drilled.

    Source: the spec itself.
    """
    return block_head_bolts_per_cylinder


def head_clamp_ratio(fasteners_round_bore: Count, head_joint_intended_preload: Force, head_lift_load: Force) -> Ratio:
    """Tension of all fasteners round one bore over the force that lifts the head there.

    Fasteners between two bores count for both, since neighbors do not fire together. Source: trade-press rule of about
    three times the lifting force.
    """
    return positive(fasteners_round_bore) * head_joint_intended_preload / positive(head_lift_load)


def head_clamp_ratio_low(head_clamp_ratio: Ratio, head_joint_preload_scatter: Fraction) -> Ratio:
    """Clamp over lifting force where torque and friction come out low.

    Source: VDI 2230-1 scatter of the method of tightening.
    """
    return head_clamp_ratio * (1 - head_joint_preload_scatter)


def main_cap_load(peak_cylinder_pressure: Pressure, block_bore: Length) -> Force:
    """Force that one cylinder puts on one main cap: half the peak gas load, since two caps share it.

    Pa, m -> N. Neighbors on one cap do not fire together. Source: statics; the half common practice, no source.
    """
    return HALF * peak_cylinder_pressure * PI / 4 * block_bore**2


def main_clamp_ratio(block_main_fasteners_per_cap: Count, main_joint_intended_preload: Force, main_cap_load: Force) -> Ratio:
    """Tension of a cap's fasteners over the gas load on it.

    Source: statics.
    """
    return positive(block_main_fasteners_per_cap) * main_joint_intended_preload / positive(main_cap_load)


def damper_interference(crank_snout_diameter: Length, damper_hub_bore: Length) -> Length:
    """Press of the hub on the snout: snout less bore.

    m; negative when it is loose. Source: geometry.
    """
    return crank_snout_diameter - damper_hub_bore


def flywheel_torque_capacity(joint_name: Choice, count: Count, intended_preload: Force, flywheel_friction: Ratio,
                             flywheel_bolt_circle: Length) -> Torque:
    """Torque that the wheel carries by friction: bolts x tension x friction x radius of the bolt circle.

    N, -, m -> N*m; of the joint that holds flywheel or flexplate. Source: statics.
    """
    if joint_name not in ("flywheel", "flexplate"):
        return None
    return positive(count) * intended_preload * flywheel_friction * flywheel_bolt_circle / 2


def head_drop(block_deck_removed: Length = None, head_face_removed: Length = None, head_gasket_compressed_thickness: Length = None,
              head_gasket_replaced_thickness: Length = None) -> Length:
    """How much closer the head sits to the crank: cut off deck and head, less what the gasket is thicker than the old one.

    m; what is not written counts as nothing. Source: geometry.
    """
    if block_deck_removed is None and head_face_removed is None and head_gasket_replaced_thickness is None:
        return None
    drop = (0 if block_deck_removed is None else block_deck_removed) + (0 if head_face_removed is None else head_face_removed)
    if head_gasket_replaced_thickness is None or head_gasket_compressed_thickness is None:
        return drop
    return drop - (head_gasket_compressed_thickness - head_gasket_replaced_thickness)


def intake_face_cut(head_drop: Length, engine_bank_half_angle: Angle, manifold_face_angle: Angle) -> Length:
    """What each intake face of a V manifold must lose so that it fits dropped heads: drop x sin(half V) / cos(face angle).

    Face angle from the vertical. m, rad. Source: the wedge between heads and valley.
    """
    return head_drop * sin(engine_bank_half_angle) / cos(manifold_face_angle)


def intake_rail_cut(head_drop: Length, engine_bank_half_angle: Angle, manifold_face_angle: Angle) -> Length:
    """What the manifold's end rails must lose then: drop x cos(half V - face angle) / cos(face angle).

    m, rad. Source: the wedge between heads and valley.
    """
    return head_drop * cos(engine_bank_half_angle - manifold_face_angle) / cos(manifold_face_angle)


def intake_port_drop(head_drop: Length, engine_bank_half_angle: Angle, manifold_face_angle: Angle) -> Length:
    """How far the head's ports slide along the face past those of an uncut manifold: drop x cos(half V - face angle).

    m, rad. Source: the wedge between heads and valley.
    """
    return head_drop * cos(engine_bank_half_angle - manifold_face_angle)


def engine_bank_half_angle(bank_angle: Angle) -> Angle:
    """Lean of each bank from the vertical: half the V.

    Source: geometry.
    """
    return bank_angle * HALF


def gasket_wire_proud(head_gasket_ring_wire_diameter: Length, head_gasket_ring_groove_depth: Length) -> Length:
    """How far a ring of wire stands out of its groove: wire less depth.

    Source: geometry.
    """
    return head_gasket_ring_wire_diameter - head_gasket_ring_groove_depth


def gasket_wire_section(head_gasket_ring_wire_diameter: Length, gasket_wire_proud: Length) -> Area:
    """Section of wire that stands out of its groove and must find room: a segment of the circle.

    m -> m2. Source: geometry.
    """
    return gasket_wire.segment(head_gasket_ring_wire_diameter / 2, gasket_wire_proud)


def receiver_area(head_gasket_ring_receiver_depth: Length, head_gasket_ring_receiver_width: Length) -> Area:
    """Section of the receiver groove opposite the wire: depth x width.

    Source: geometry.
    """
    return head_gasket_ring_receiver_depth * head_gasket_ring_receiver_width


def dowel_gap(head_dowel_bore_depth: Length, head_gasket_compressed_thickness: Length, block_dowel_protrusion: Length) -> Length:
    """Gap left above a dowel: hole in the head and gasket, less what the dowel stands out of the deck.

    m; negative when the head sits on the dowel. Source: geometry.
    """
    return head_dowel_bore_depth + head_gasket_compressed_thickness - block_dowel_protrusion


def gasket_land_between_bores(block_bore_spacing: Length, head_gasket_bore: Length) -> Length:
    """Width of gasket between two openings: spacing of the bores less the opening.

    Source: geometry.
    """
    return block_bore_spacing - head_gasket_bore
