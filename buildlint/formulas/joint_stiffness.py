"""How a joint gives under load: stiffness of fastener and clamped parts, what an angle, heat and settling do to the
tension, and the pressure under the turning face.
"""

from ..dimensions import Angle, Area, Choice, Force, Length, Pressure, Ratio, Stiffness, Temperature, Torque
from ..mechanics import bolt
from ..mechanics.expansion import REFERENCE_TEMPERATURE, growth
from ..mechanics.validity import positive
from ..numeric import PI, cos, greatest, least, where
from ..quantities import q
from ..tables.fasteners import USUAL_HOLE, WASHER_SPREAD
from ..tables.materials import CASTING_METAL, MODULUS

WHOLE_TURN = q("360 deg")
ENGAGED_THREAD = 0.5  # diameters of thread in hole or nut that stretch along: VDI 2230-1
USUAL_FACE = 1.5  # diameters across the face of an ordinary head or nut: Shigley, 9th ed., section 8-5

# The metal of the table of materials that a fastener's metal stands for.
FASTENER_METAL = {None: "steel", "steel": "steel", "stainless": "stainless_304", "titanium": "titanium", "cadmium_plated": "steel"}


def fastener_modulus(metal: Choice = None) -> Pressure:
    """Young's modulus of the fastener: steel where nothing else is written.

    Pa. Source: the table of materials; stainless as steel.
    """
    name = FASTENER_METAL.get(metal)
    return None if name is None else MODULUS.get(name, MODULUS["steel"])


def bolt_stiffness(shank_length: Length, thread_in_grip: Length, diameter: Length, stress_area: Area, fastener_modulus: Pressure,
                   shank_diameter: Length = None) -> Stiffness:
    """Stiffness of a fastener: E / (shank / its area + (free thread + 0.5 d) / stress area).

    Half a diameter of the engaged thread stretches along. m, m2, Pa -> N/m. Source: VDI 2230-1; Hooke.
    """
    shank = diameter if shank_diameter is None else shank_diameter
    return fastener_modulus / positive(shank_length / positive(PI / 4 * shank**2) + (thread_in_grip + ENGAGED_THREAD * diameter) / stress_area)


def bolt_stiffness__from_grip(grip_length: Length, diameter: Length, stress_area: Area, fastener_modulus: Pressure) -> Stiffness:
    """Stiffness of a fastener of which only the grip is known: as if it were threaded all along.

    m, m2, Pa -> N/m. Source: VDI 2230-1, without the shank; too soft by a sixth at most.
    """
    return fastener_modulus * stress_area / (positive(grip_length) + ENGAGED_THREAD * diameter)


def clamped_stiffness(clamped_material: Choice, grip_length: Length, clamped_area: Area) -> Stiffness:
    """Stiffness of the clamped parts where their pressed area is written: E A / grip.

    Source: Hooke.
    """
    metal = CASTING_METAL.get(clamped_material)
    return None if metal not in MODULUS else MODULUS[metal] * positive(clamped_area) / positive(grip_length)


def clamped_stiffness__of_cone(clamped_material: Choice, grip_length: Length, diameter: Length, bearing_diameter: Length = None,
                               washer_outside_diameter: Length = None, clamped_hole_diameter: Length = None) -> Stiffness:
    """Stiffness of the clamped parts as two cones of 30 degrees that spread from the faces.

    Face and hole as written, else 1.5 d and 1.1 d. N/m. Source: Shigley, Mechanical Engineering Design, 9th ed., Eq. 8-20.
    """
    metal = CASTING_METAL.get(clamped_material)
    if metal not in MODULUS:
        return None
    face = bearing_diameter if bearing_diameter is not None else USUAL_FACE * diameter
    face = greatest(face, washer_outside_diameter) if washer_outside_diameter is not None else face
    hole = USUAL_HOLE * diameter if clamped_hole_diameter is None else clamped_hole_diameter
    return bolt.clamped_stiffness(MODULUS[metal], positive(grip_length), positive(face - hole) + hole, positive(hole))


def angle_preload(torque_before_angle: Torque, nut_factor: Ratio, diameter: Length, angle: Angle, pitch: Length,
                  bolt_stiffness: Stiffness, clamped_stiffness: Stiffness) -> Force:
    """Tension after torque and angle while everything stays elastic: T/(K d) + P x angle / turn x joint stiffness.

    N*m, m, rad, N/m -> N. Source: VDI 2230-1.
    """
    turned = pitch * angle / WHOLE_TURN
    return positive(torque_before_angle) / positive(nut_factor * diameter) + turned * bolt.in_series(bolt_stiffness,
        clamped_stiffness)


def stretch_at_yield(yield_load: Force, bolt_stiffness: Stiffness) -> Length:
    """How much longer the fastener is when its weakest section yields.

    N, N/m -> m. Source: Hooke.
    """
    return yield_load / positive(bolt_stiffness)


def stretch_for_target(yield_load: Force, bolt_stiffness: Stiffness) -> Length:
    """Stretch at 0.75 of yield, the usual aim of a rod bolt.

    N, N/m -> m. Source: Hooke; the aim common practice, no source.
    """
    return 0.75 * yield_load / positive(bolt_stiffness)


def joint_temperature(service_temperature: Temperature) -> Temperature:
    """Temperature of the joint in service, as written.

    Source: the spec itself.
    """
    return service_temperature


def joint_temperature__of_head(joint_name: Choice, coolant_temperature: Temperature) -> Temperature:
    """Temperature of the head joint in service: the coolant's.

    Source: common practice, no source.
    """
    return coolant_temperature if joint_name == "head" else None


def _heat_change(clamped_material, grip_length, bolt_stiffness, clamped_stiffness, temperature, metal):
    clamped, fastener = CASTING_METAL.get(clamped_material), FASTENER_METAL.get(metal)
    if clamped is None or fastener is None:
        return None
    rise = temperature - REFERENCE_TEMPERATURE
    difference = growth(clamped, grip_length, rise) - growth(fastener, grip_length, rise)
    return bolt.preload_from_growth(difference, bolt_stiffness, clamped_stiffness)


def heat_preload_change(clamped_material: Choice, grip_length: Length, bolt_stiffness: Stiffness, clamped_stiffness: Stiffness,
                        joint_temperature: Temperature, metal: Choice = None) -> Force:
    """Tension gained when the joint is warm all through: grip x (difference of growth) x rise x joint stiffness.

    Negative where the clamped parts grow less than the fastener. N. Source: Bickford, Introduction to the Design and
    Behavior of Bolted Joints, ch. 11.
    """
    return _heat_change(clamped_material, grip_length, bolt_stiffness, clamped_stiffness, joint_temperature, metal)


def cold_preload_change(clamped_material: Choice, grip_length: Length, bolt_stiffness: Stiffness, clamped_stiffness: Stiffness,
                        ambient_coldest: Temperature, metal: Choice = None) -> Force:
    """Tension gained (negative: lost) on the coldest day with the engine cold.

    N. Source: Bickford, Introduction to the Design and Behavior of Bolted Joints, ch. 11.
    """
    return _heat_change(clamped_material, grip_length, bolt_stiffness, clamped_stiffness, ambient_coldest, metal)


def settling_loss(grip_length: Length, diameter: Length, bolt_stiffness: Stiffness, clamped_stiffness: Stiffness) -> Force:
    """Tension lost while the faces settle: 3.29 (grip / d)^0.34 micrometers times the joint's stiffness.

    m, N/m -> N. Source: VDI 2230, edition of 1986, from memory.
    """
    return bolt.settling(positive(grip_length), diameter) * bolt.in_series(bolt_stiffness, clamped_stiffness)


def bearing_pressure(preload: Force, washer_outside_diameter: Length, diameter: Length, bearing_diameter: Length = None,
                     washer_thickness: Length = None, washer_inside_diameter: Length = None,
                     clamped_hole_diameter: Length = None, washer_chamfer: Length = None,
                     washer_chamfer_faces: Choice = None) -> Pressure:
    """Pressure under the washer: tension over the pressed ring.

    Under a smaller head or nut the ring is wide by 1.6 washer thicknesses at most; a chamfer that faces the casting
    bears nothing. Pa. Source: VDI 2230-1; the spread from memory.
    """
    outside = washer_outside_diameter
    if bearing_diameter is not None and washer_thickness is not None:
        outside = least(outside, bearing_diameter + WASHER_SPREAD * washer_thickness)
    inside = USUAL_HOLE * diameter if clamped_hole_diameter is None else clamped_hole_diameter
    if washer_inside_diameter is not None:
        lies_on = washer_inside_diameter
        if washer_chamfer is not None and washer_chamfer_faces == "casting":
            lies_on = lies_on + 2 * washer_chamfer
        inside = greatest(inside, lies_on)
    return _on_ring(preload, outside, inside)


def bearing_pressure__bare(preload: Force, bearing_diameter: Length, diameter: Length, washer_kind: Choice,
                           clamped_hole_diameter: Length = None) -> Pressure:
    """Pressure under a head or nut without a washer: tension over the ring between face and hole.

    Pa. Source: VDI 2230-1.
    """
    if washer_kind not in ("none", "integral_flange"):
        return None
    return _on_ring(preload, bearing_diameter, USUAL_HOLE * diameter if clamped_hole_diameter is None else clamped_hole_diameter)


def _on_ring(force, outside, inside):
    area = PI / 4 * (outside**2 - inside**2)
    return where(outside > inside, force / positive(area), float("nan") * force / positive(area))


def wrench_set_to(torque: Torque, wrench_arm: Length, wrench_adapter: Length, wrench_adapter_angle: Angle = None) -> Torque:
    """What to set a clicking wrench to with a crowfoot or extension on it: T x L / (L + e cos(angle)).

    L from drive to hand, e from drive to bolt, angle between handle and adapter. N*m, m, rad. Source: statics.
    """
    reach = wrench_adapter if wrench_adapter_angle is None else wrench_adapter * cos(wrench_adapter_angle)
    return torque * wrench_arm / positive(wrench_arm + reach)
