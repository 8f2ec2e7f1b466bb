"""The threads of a joint: diameter, pitch, areas, engagement, and the force that strips the tapped hole."""

from ..dimensions import Area, Choice, Force, Length, Pressure, Ratio, Thread
from ..mechanics import threads
from ..mechanics.validity import positive
from ..numeric import PI, least
from ..quantities import q
from ..tables.joint_metals import INSERT_GROWTH_IN_PITCHES, TAPPED_METALS
from ..tables.materials import CRANK_METAL

HOLE_CHAMFER = q("0.03 in")


def diameter(thread: Thread) -> Length:
    """Nominal diameter of the thread that turns.

    Source: ISO 261; ASME B1.1.
    """
    return thread.diameter


def pitch(thread: Thread) -> Length:
    """Pitch of the thread that turns.

    Source: ISO 261; ASME B1.1.
    """
    return thread.pitch


def stress_area(thread: Thread) -> Area:
    """Tensile stress area of the thread that turns: pi/4 (d - 0.938 P)^2.

    m2. Source: ISO 898-1 (metric); ASME B1.1 (unified).
    """
    return threads.stress_area(thread)


def hole_stress_area(hole_thread: Thread) -> Area:
    """Tensile stress area of a stud's end in the casting.

    m2. Source: ISO 898-1 (metric); ASME B1.1 (unified).
    """
    return threads.stress_area(hole_thread)


def weakest_area(stress_area: Area, hole_stress_area: Area = None, shank_diameter: Length = None) -> Area:
    """The smallest section under tension: of both thread ends and a reduced shank.

    m2. Source: geometry.
    """
    area = stress_area if hole_stress_area is None else least(stress_area, hole_stress_area)
    return area if shank_diameter is None else least(area, PI / 4 * positive(shank_diameter) ** 2)


def casting_thread(hole_thread: Thread) -> Thread:
    """The fastener's thread in the casting.

    Source: the spec itself.
    """
    return hole_thread


def casting_thread__as_tapped(tapped_thread: Thread) -> Thread:
    """The thread that is cut in the hole.

    Source: the spec itself.
    """
    return tapped_thread


def casting_thread__of_bolt(thread: Thread) -> Thread:
    """A bolt has one thread: the one that turns is the one in the casting.

    Source: the spec itself.
    """
    return thread


def hole_material__of_casting(joint_name: Choice, block_material: Choice = None, head_material: Choice = None,
                              manifold_material: Choice = None, crank_material: Choice = None,
                              camshaft_core: Choice = None) -> Choice:
    """What the threaded part is made of, where the joint's own place in the engine tells it.

    Source: the build of a pushrod engine; common practice, no source.
    """
    if joint_name in ("head", "main", "oil_pan", "timing_cover", "valley_cover", "water_pump", "bellhousing", "starter",
                      "lifter_guide",
                      "cam_thrust_plate"):
        return block_material
    if joint_name in ("rocker", "rocker_intake", "rocker_exhaust", "intake_manifold", "exhaust_manifold", "valve_cover"):
        return head_material
    if joint_name == "thermostat_housing":
        return manifold_material
    if joint_name in ("flywheel", "flexplate", "damper") and crank_material is not None:
        return "ductile_iron" if CRANK_METAL.get(crank_material) == "ductile_iron" else "steel"
    if joint_name == "cam_sprocket" and camshaft_core is not None:
        return {"billet_steel": "steel", "ductile_iron": "ductile_iron"}.get(camshaft_core, "cast_iron")
    return None


def clamped_material__of_part(joint_name: Choice, head_material: Choice = None, manifold_material: Choice = None) -> Choice:
    """What the part under the turning face is made of, where the joint's name tells it.

    Source: the build of a pushrod engine; common practice, no source.
    """
    return {"head": head_material, "intake_manifold": manifold_material}.get(joint_name)


def grip_length__of_head(joint_name: Choice, head_thickness_at_bolt: Length, head_gasket_compressed_thickness: Length,
                         washer_thickness: Length = None) -> Length:
    """What a head fastener clamps: head at the bolt, compressed gasket and washer.

    m. Source: geometry.
    """
    if joint_name != "head":
        return None
    grip = head_thickness_at_bolt + head_gasket_compressed_thickness
    return grip if washer_thickness is None else grip + washer_thickness


def engagement_length__of_bolt(kind: Choice, joint_name: Choice, length: Length, grip_length: Length, pitch: Length,
                               hole_counterbore: Length = None) -> Length:
    """Full thread a bolt finds in its hole: length less grip and counterbore, less one pitch at its end and 0.03 in of chamfer.

    m. Not for rod bolts, which have a nut or a thread in the rod. Source: geometry; allowances common practice, no source.
    """
    if kind not in ("bolt", "cap_screw") or joint_name == "rod":
        return None
    overlap = length - grip_length - pitch - HOLE_CHAMFER
    return overlap if hole_counterbore is None else overlap - hole_counterbore


def engagement_ratio(engagement_length: Length, casting_thread: Thread) -> Ratio:
    """Full thread in the hole over the diameter.

    Source: geometry.
    """
    return positive(engagement_length) / casting_thread.diameter


def hole_shear_strength(hole_material: Choice, hole_tensile_strength: Pressure = None, hole_shear_ratio: Ratio = None) -> Pressure:
    """Stress at which the tapped thread shears: tensile strength of the metal times its shear ratio.

    Pa. Source: Machinery's Handbook; VDI 2230; strengths of the usual alloys where none is written.
    """
    row = TAPPED_METALS.get(hole_material)
    if row is None:
        return None
    return (row[0] if hole_tensile_strength is None else hole_tensile_strength) * (row[1] if hole_shear_ratio is None
        else hole_shear_ratio)


def strip_load(casting_thread: Thread, engagement_length: Length, hole_shear_strength: Pressure,
               hole_repair: Choice = None) -> Force:
    """Force that pulls the thread out of the casting: shear area of the hole's thread times the metal's shear strength.

    The smallest bolt in the largest hole of the usual tolerances. An insert holds in a larger thread of the same
    pitch; its own thread is stronger than the casting. N. Source: FED-STD-H28/2B; Machinery's Handbook.
    """
    limits = threads.limits(casting_thread)
    area = threads.internal_shear_area(positive(engagement_length), casting_thread.pitch, limits.external_major_least,
                                       limits.internal_pitch_most)
    if hole_repair in ("wire_insert", "solid_insert"):
        area = area * (1 + INSERT_GROWTH_IN_PITCHES * casting_thread.pitch / casting_thread.diameter)
    return area * positive(hole_shear_strength)


def nut_protrusion__of_stud(kind: Choice, length: Length, engagement_length: Length, grip_length: Length, nut_height: Length,
                            hole_counterbore: Length = None) -> Length:
    """How far a stud stands out above its nut: length less thread in the casting, counterbore, grip and nut.

    m; negative when the nut is not filled. Source: geometry.
    """
    if kind != "stud":
        return None
    left = length - engagement_length - grip_length - nut_height
    return left if hole_counterbore is None else left - hole_counterbore
