"""The strength of a fastener, what lies on its surfaces, and the tension that tightening makes.

Threads and areas stand in ``threads``, how the joint gives under load in ``joint_stiffness``.
"""

from ..dimensions import Angle, Area, Choice, Force, Fraction, Length, Pressure, Ratio, Stiffness, Text, Torque
from ..mechanics import bolt, threads
from ..mechanics.validity import positive
from ..numeric import PI, least, sqrt, where
from ..tables.fasteners import (
    ABSURD_SHARE,
    ISO_8_8_ABOVE,
    ISO_8_8_CHANGES_ABOVE,
    NUT_FACTOR_OFFSET,
    NUT_FACTOR_SLOPE,
    NUT_FACTORS,
    ORDINARY_SHARE,
    OTHER_TORQUE_UNITS,
    PRELOAD_SCATTER,
    SCATTER_WITH_MEASURED_FRICTION,
    STRENGTH_CLASSES,
    USUAL_FACE_MEAN,
    USUAL_HOLE,
)

BY_TORQUE = ("torque", "power_driver", "impact")
PROOF_OF_YIELD = 0.90  # stud steels and certificates that give the yield alone; common practice, no source
INTENDED_SHARE = 0.75  # of proof, for a joint that is opened again: Shigley, 9th ed., Eq. 8-31


def proof_strength(strength_class: Choice, diameter: Length = None) -> Pressure:
    """Proof stress of a strength class of a standard.

    Source: ISO 898-1; SAE J429.
    """
    return _of_standard(strength_class, diameter, 0)


def yield_strength(strength_class: Choice, diameter: Length = None) -> Pressure:
    """Yield stress of a strength class of a standard.

    Source: ISO 898-1; SAE J429.
    """
    return _of_standard(strength_class, diameter, 1)


def tensile_strength(strength_class: Choice, diameter: Length = None) -> Pressure:
    """Tensile strength of a strength class of a standard.

    Source: ISO 898-1; SAE J429.
    """
    return _of_standard(strength_class, diameter, 2)


def proof_strength__from_yield(yield_strength_written: Pressure) -> Pressure:
    """Proof stress where the certificate gives only the yield: 0.90 of it.

    Source: common practice, no source; the ratio of the classes 8.8 to 12.9 of ISO 898-1 is 0.88 to 0.91.
    """
    return PROOF_OF_YIELD * yield_strength_written


def proof_strength__assumed(strength_class: Choice, proof_strength_written: Pressure = None) -> Pressure:
    """Proof stress assumed for a stud steel that is named by its tensile strength.

    Source: common practice, no source; a certificate wins.
    """
    return _assumed(strength_class, 0, proof_strength_written)


def yield_strength__assumed(strength_class: Choice, yield_strength_written: Pressure = None) -> Pressure:
    """Yield stress assumed for a stud steel that is named by its tensile strength: 0.88 of it.

    Source: common practice, no source; a certificate wins.
    """
    return _assumed(strength_class, 1, yield_strength_written)


def tensile_strength__assumed(strength_class: Choice, tensile_strength_written: Pressure = None) -> Pressure:
    """Tensile strength of a stud steel that is named by it.

    Source: the name of the class; a certificate wins.
    """
    return _assumed(strength_class, 2, tensile_strength_written)


def _of_standard(strength_class, diameter, column):
    row = STRENGTH_CLASSES.get(strength_class)
    if row is None or not row[3]:
        return None
    if strength_class == "iso_8_8" and diameter is not None:
        return where(diameter > ISO_8_8_CHANGES_ABOVE, ISO_8_8_ABOVE[column], row[column])
    return row[column]


def _assumed(strength_class, column, written):
    row = STRENGTH_CLASSES.get(strength_class)
    return None if written is not None or row is None or row[3] else row[column]


def sliding_product(thread_product: Choice, lubricant: Choice = None, kind: Choice = None) -> Choice:
    """What lies on the thread that turns: the sealant of a bolt that turns in the casting, else the lubricant.

    A stud's sealant sits on the end that stands still, so it does not count. Source: common practice, no source.
    """
    if kind != "stud" and thread_product not in ("none", None):
        return thread_product
    return lubricant


def sliding_product__lubricant(lubricant: Choice) -> Choice:
    """What lies on the thread that turns: the lubricant.

    Source: common practice, no source.
    """
    return lubricant


def sliding_product__as_given(torque_given_for: Choice) -> Choice:
    """What lies on the thread that turns, where only the maker's torque says so: the state it is given for.

    Source: common practice, no source.
    """
    return "dry" if torque_given_for == "none" else torque_given_for


def _factor(product, coating, column):
    """A row of the table of nut factors; a dry thread is the plated one where it is zinc-plated."""
    if product == "dry" and coating in ("zinc_electroplated", "zinc_flake"):
        product = "dry_zinc_plated"
    row = NUT_FACTORS.get(product)
    return None if row is None else row[column]


def _two_factors(sliding_product, face_lubricant, coating, column):
    """Nut factors of thread and face where they differ, else None."""
    if face_lubricant == sliding_product:
        return None
    thread, face = _factor(sliding_product, coating, column), _factor(face_lubricant, coating, column)
    return None if thread is None or face is None else (thread, face)


def _friction(nut_factor):
    """Friction coefficient that a nut factor of the table stands for."""
    return (nut_factor - NUT_FACTOR_OFFSET) / NUT_FACTOR_SLOPE


def _long_form(factors, diameter, pitch, face_mean_diameter):
    if factors is None:
        return None
    middle = threads.pitch_diameter(diameter, pitch)
    return bolt.nut_factor_long_form(diameter, pitch, middle, _friction(factors[0]), _friction(factors[1]), face_mean_diameter)


def face_mean_diameter(bearing_diameter: Length, diameter: Length, washer_inside_diameter: Length = None,
                       clamped_hole_diameter: Length = None) -> Length:
    """Mean diameter of the face that turns: halfway between its outside and the washer's or hole's diameter.

    m. Source: VDI 2230-1.
    """
    inside = washer_inside_diameter if washer_inside_diameter is not None else clamped_hole_diameter
    return (bearing_diameter + (USUAL_HOLE * diameter if inside is None else inside)) / 2


def face_mean_diameter__usual(diameter: Length) -> Length:
    """Mean diameter of the face that turns, for a head or nut of ordinary size: 1.25 d.

    m. Source: Shigley, Mechanical Engineering Design, 9th ed., section 8-8.
    """
    return USUAL_FACE_MEAN * diameter


def nut_factor_long_form(thread_friction: Ratio, face_friction: Ratio, diameter: Length, pitch: Length,
                         face_mean_diameter: Length) -> Ratio:
    """Nut factor from the friction of both surfaces as written: (0.159 P + 0.577 d2 mu + mu_face Dm / 2) / d.

    Source: VDI 2230-1.
    """
    return bolt.nut_factor_long_form(diameter, pitch, threads.pitch_diameter(diameter, pitch), thread_friction, face_friction,
                                     face_mean_diameter)


def nut_factor_long_form__of_products(sliding_product: Choice, face_lubricant: Choice, diameter: Length, pitch: Length,
                                      face_mean_diameter: Length, coating: Choice = None) -> Ratio:
    """Nut factor of the real face with the usual friction of what lies on thread and face.

    Source: VDI 2230-1; friction from the table of nut factors, K = 0.02 + 1.16 mu.
    """
    thread, face = _factor(sliding_product, coating, 1), _factor(face_lubricant, coating, 1)
    return None if thread is None or face is None else _long_form((thread, face), diameter, pitch, face_mean_diameter)


def nut_factor(thread_friction: Ratio, face_friction: Ratio, nut_factor_long_form: Ratio) -> Ratio:
    """Nut factor where both frictions are written: the long form.

    Source: VDI 2230-1.
    """
    return nut_factor_long_form


def nut_factor__two_lubricants(sliding_product: Choice, face_lubricant: Choice, diameter: Length, pitch: Length,
                               face_mean_diameter: Length, coating: Choice = None) -> Ratio:
    """Nut factor where thread and face are lubricated differently: the long form with each surface's own friction.

    Source: VDI 2230-1; friction from the table of nut factors.
    """
    return _long_form(_two_factors(sliding_product, face_lubricant, coating, 1), diameter, pitch, face_mean_diameter)


def nut_factor__one_lubricant(sliding_product: Choice, coating: Choice = None) -> Ratio:
    """Usual nut factor K for what lies on thread and face.

    Source: Shigley Table 8-15 and published ranges; see the table of nut factors.
    """
    return _factor(sliding_product, coating, 1)


def nut_factor_low__measured(nut_factor_written: Ratio) -> Ratio:
    """Lowest likely nut factor where it was measured: a fifth less.

    Source: VDI 2230-1, tightening factor 1.4 to 1.6 for friction measured on the parts.
    """
    return nut_factor_written * (1 - SCATTER_WITH_MEASURED_FRICTION)


def nut_factor_low__two_lubricants(sliding_product: Choice, face_lubricant: Choice, diameter: Length, pitch: Length,
                                   face_mean_diameter: Length, coating: Choice = None) -> Ratio:
    """Lowest likely nut factor where thread and face are lubricated differently.

    Source: as nut_factor.
    """
    return _long_form(_two_factors(sliding_product, face_lubricant, coating, 0), diameter, pitch, face_mean_diameter)


def nut_factor_low__one_lubricant(sliding_product: Choice, coating: Choice = None) -> Ratio:
    """Lowest likely nut factor: the slipperiest case, the highest tension.

    Source: as nut_factor.
    """
    return _factor(sliding_product, coating, 0)


def nut_factor_high__measured(nut_factor_written: Ratio) -> Ratio:
    """Highest likely nut factor where it was measured: a fifth more.

    Source: VDI 2230-1, tightening factor 1.4 to 1.6 for friction measured on the parts.
    """
    return nut_factor_written * (1 + SCATTER_WITH_MEASURED_FRICTION)


def nut_factor_high__two_lubricants(sliding_product: Choice, face_lubricant: Choice, diameter: Length, pitch: Length,
                                    face_mean_diameter: Length, coating: Choice = None) -> Ratio:
    """Highest likely nut factor where thread and face are lubricated differently.

    Source: as nut_factor.
    """
    return _long_form(_two_factors(sliding_product, face_lubricant, coating, 2), diameter, pitch, face_mean_diameter)


def nut_factor_high__one_lubricant(sliding_product: Choice, coating: Choice = None) -> Ratio:
    """Highest likely nut factor: the stickiest case, the lowest tension.

    Source: as nut_factor.
    """
    return _factor(sliding_product, coating, 2)


def friction_in_thread(thread_friction: Ratio) -> Ratio:
    """Friction coefficient in the thread that turns, as written.

    Source: the spec itself.
    """
    return thread_friction


def friction_in_thread__of_product(sliding_product: Choice, coating: Choice = None) -> Ratio:
    """Friction coefficient in the thread that turns: (K - 0.02) / 1.16 of what lies on it.

    Source: the table of nut factors, turned by VDI 2230-1.
    """
    factor = _factor(sliding_product, coating, 1)
    return None if factor is None else _friction(factor)


def friction_in_thread__of_nut_factor(nut_factor: Ratio) -> Ratio:
    """Friction coefficient in the thread that a measured nut factor stands for: (K - 0.02) / 1.16.

    Source: VDI 2230-1, fitted for ordinary faces.
    """
    return _friction(nut_factor)


def torque_before_angle(snug_torque: Torque) -> Torque:
    """Torque to which the fastener is drawn before it is turned by an angle.

    Source: the spec itself.
    """
    return snug_torque


def torque_before_angle__as_torque(angle: Angle, torque: Torque) -> Torque:
    """Torque before the angle, where it is written as the torque.

    Source: the spec itself.
    """
    return torque


def preload__by_stretch(tightening: Choice, stretch: Length, bolt_stiffness: Stiffness) -> Force:
    """Tension of a fastener tightened by measured stretch: stretch times the fastener's stiffness.

    m, N/m -> N. Source: Hooke; VDI 2230-1.
    """
    return positive(stretch) * bolt_stiffness if tightening == "stretch" else None


def preload__by_angle(tightening: Choice, angle: Angle, angle_preload: Force, yield_load: Force) -> Force:
    """Tension after torque and angle, at most the yield load: past it the fastener only gets longer.

    N. Source: VDI 2230-1; the rise past yield is left out.
    """
    return least(angle_preload, yield_load) if tightening in ("torque_angle", "yield_angle") else None


def preload__by_torque(torque: Torque, nut_factor: Ratio, diameter: Length, tightening: Choice = None) -> Force:
    """Tension that a torque makes: F = T / (K d).

    N*m, -, m -> N. Not for a torque that is followed by an angle. Source: Shigley, Mechanical Engineering Design, 9th ed.,
    Eq. 8-27.
    """
    return None if tightening in ("torque_angle", "yield_angle") else positive(torque) / positive(nut_factor * diameter)


def preload_scatter__measured_friction(nut_factor_written: Ratio, tightening: Choice = None) -> Fraction:
    """How far the tension may lie from nominal with a torque wrench and a nut factor measured on the parts.

    Source: VDI 2230-1, tightening factor 1.4 to 1.6.
    """
    return SCATTER_WITH_MEASURED_FRICTION if tightening in (None, "torque") else None


def preload_scatter(tightening: Choice) -> Fraction:
    """How far the tension may lie from nominal, plus or minus, by the method of tightening.

    Source: VDI 2230-1 tightening factors; stretch common practice, no source.
    """
    return PRELOAD_SCATTER.get(tightening)


def preload_scatter__torque_wrench(torque: Torque) -> Fraction:
    """How far the tension may lie from nominal, where only a torque is written: a torque wrench is taken.

    Source: VDI 2230-1 tightening factors.
    """
    return PRELOAD_SCATTER["torque"]


def preload_low(preload: Force, preload_scatter: Fraction) -> Force:
    """Lowest likely tension: nominal less the scatter of the method.

    Source: VDI 2230-1.
    """
    return preload * (1 - preload_scatter)


def preload_high(preload: Force, nut_factor: Ratio, nut_factor_low: Ratio, tightening: Choice = None) -> Force:
    """Highest likely tension of a fastener tightened by torque: that of the lowest nut factor.

    N. Source: Shigley Eq. 8-27 with the low end of the nut factor.
    """
    return preload * nut_factor / positive(nut_factor_low) if tightening in (None, *BY_TORQUE) else None


def preload_high__of_method(preload: Force, preload_scatter: Fraction) -> Force:
    """Highest likely tension: nominal and the scatter of the method.

    Source: VDI 2230-1.
    """
    return preload * (1 + preload_scatter)


def proof_load(proof_strength: Pressure, weakest_area: Area) -> Force:
    """Load at which the weakest section reaches proof stress.

    Source: ISO 898-1.
    """
    return positive(proof_strength * weakest_area)


def yield_load(yield_strength: Pressure, weakest_area: Area) -> Force:
    """Load at which the weakest section yields.

    Source: ISO 898-1.
    """
    return positive(yield_strength * weakest_area)


def breaking_load(tensile_strength: Pressure, weakest_area: Area) -> Force:
    """Load at which the weakest section breaks.

    Source: ISO 898-1.
    """
    return positive(tensile_strength * weakest_area)


def share_of_proof(preload: Force, proof_load: Force) -> Fraction:
    """Tension over proof load of the weakest section.

    Source: Shigley, Mechanical Engineering Design, 9th ed., section 8-9.
    """
    return preload / proof_load


def share_of_yield(preload: Force, yield_load: Force) -> Fraction:
    """Tension over yield load of the weakest section.

    Source: Shigley, Mechanical Engineering Design, 9th ed., section 8-9.
    """
    return preload / yield_load


def lubricant_share(torque_given_for: Choice, sliding_product: Choice, nut_factor: Ratio, torque_source: Choice = None) -> Fraction:
    """Tension over what is meant, where a torque is used with another product than it is given for: ratio of the nut factors.

    Nothing where the two are the same, or the torque was converted. Source: T = K d F, Shigley Eq. 8-27.
    """
    given_for = "dry" if torque_given_for == "none" else torque_given_for
    row = NUT_FACTORS.get(given_for)
    if row is None or given_for == sliding_product or torque_source in ("converted", "computed"):
        return None
    return row[1] / positive(nut_factor)


def torque_unit_meant(torque: Torque, share_of_proof: Fraction) -> Text:
    """The unit that would turn an absurd torque into an ordinary one; nothing where the torque makes sense as read.

    Source: definitions of the units; what is absurd and ordinary common practice, no source.
    """
    if ABSURD_SHARE[0] <= share_of_proof <= ABSURD_SHARE[1]:
        return None
    for unit, factor in OTHER_TORQUE_UNITS.get(getattr(torque, "unit", ""), ()):
        if ORDINARY_SHARE[0] <= share_of_proof * factor <= ORDINARY_SHARE[1]:
            return unit
    return None


def intended_preload(preload: Force) -> Force:
    """Tension the joint is meant to have: that of its tightening.

    Source: the spec itself.
    """
    return preload


def intended_preload__usual(proof_load: Force) -> Force:
    """Tension the joint is meant to have, where no tightening is written yet: 0.75 of proof.

    Source: Shigley, Mechanical Engineering Design, 9th ed., Eq. 8-31.
    """
    return INTENDED_SHARE * proof_load


def tightening_stress(preload: Force, diameter: Length, pitch: Length, friction_in_thread: Ratio) -> Pressure:
    """Stress at the core's skin while the fastener turns: tension and twist together, sqrt(s^2 + 3 t^2).

    The twist is the thread's share of the torque, F (0.159 P + 0.577 d2 mu), on the core between pitch and root
    diameter. A stud is twisted too, though its other end stands still. Source: VDI 2230-1; strength of materials.
    """
    return _tension_and_twist(preload, diameter, pitch, friction_in_thread, 16)


def assembly_stress(preload: Force, diameter: Length, pitch: Length, friction_in_thread: Ratio) -> Pressure:
    """Stress that the standard's table of tightening torques is drawn up for: as tightening_stress, with twist spread evenly.

    A core that yields all through bears the same twist with three quarters of the shear. Source: VDI 2230-1, which
    allows 0.90 of yield.
    """
    return _tension_and_twist(preload, diameter, pitch, friction_in_thread, 12)


def _tension_and_twist(preload, diameter, pitch, friction, section):
    pitch_diameter = threads.pitch_diameter(diameter, pitch)
    core = (pitch_diameter + threads.minor_diameter(diameter, pitch)) / 2
    shear = section * bolt.thread_torque(preload, pitch, pitch_diameter, friction) / (PI * core**3)
    return sqrt((preload / (PI / 4 * core**2)) ** 2 + 3 * shear**2)
