"""One bolted joint: threads, areas, strength, and the tension that a torque makes."""

from ..dimensions import Area, Choice, Force, Fraction, Length, Pressure, Ratio, Thread, Torque
from ..mechanics import threads
from ..numeric import PI, least, sqrt, where
from ..tables.fasteners import (
    ISO_8_8_ABOVE,
    ISO_8_8_CHANGES_ABOVE,
    NUT_FACTOR_OFFSET,
    NUT_FACTOR_SLOPE,
    NUT_FACTORS,
    PRELOAD_SCATTER,
    STRENGTH_CLASSES,
)


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
    return area if shank_diameter is None else least(area, PI / 4 * shank_diameter**2)


def proof_strength(strength_class: Choice, diameter: Length = None) -> Pressure:
    """Proof stress of the strength class.

    Source: ISO 898-1; SAE J429; stud steels named by their tensile strength: common practice, no source.
    """
    return _of_class(strength_class, diameter, 0)


def yield_strength(strength_class: Choice, diameter: Length = None) -> Pressure:
    """Yield stress of the strength class.

    Source: ISO 898-1; SAE J429; stud steels named by their tensile strength: common practice, no source.
    """
    return _of_class(strength_class, diameter, 1)


def tensile_strength(strength_class: Choice, diameter: Length = None) -> Pressure:
    """Tensile strength of the strength class.

    Source: ISO 898-1; SAE J429; the name of the class.
    """
    return _of_class(strength_class, diameter, 2)


def _of_class(strength_class, diameter, column):
    row = STRENGTH_CLASSES.get(strength_class)
    if row is None:
        return None
    if strength_class == "iso_8_8" and diameter is not None:
        return where(diameter > ISO_8_8_CHANGES_ABOVE, ISO_8_8_ABOVE[column], row[column])
    return row[column]


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


def nut_factor(sliding_product: Choice) -> Ratio:
    """Usual nut factor K for what lies on the thread that turns.

    Source: Shigley Table 8-15 and published ranges; see the table of nut factors.
    """
    row = NUT_FACTORS.get(sliding_product)
    return row[1] if row else None


def nut_factor_low(sliding_product: Choice) -> Ratio:
    """Lowest likely nut factor: the slipperiest case, the highest tension.

    Source: as nut_factor.
    """
    row = NUT_FACTORS.get(sliding_product)
    return row[0] if row else None


def nut_factor_high(sliding_product: Choice) -> Ratio:
    """Highest likely nut factor: the stickiest case, the lowest tension.

    Source: as nut_factor.
    """
    row = NUT_FACTORS.get(sliding_product)
    return row[2] if row else None


def preload(torque: Torque, nut_factor: Ratio, diameter: Length) -> Force:
    """Tension that a torque makes: F = T / (K d).

    N*m, -, m -> N. Source: Shigley, Mechanical Engineering Design, 9th ed., Eq. 8-27.
    """
    return torque / (nut_factor * diameter)


def preload_scatter(tightening: Choice) -> Fraction:
    """How far the tension may lie from nominal, plus or minus, by the method of tightening.

    Source: VDI 2230 tightening factors; stretch common practice, no source.
    """
    return PRELOAD_SCATTER.get(tightening)


def preload_low(preload: Force, preload_scatter: Fraction) -> Force:
    """Lowest likely tension: nominal less the scatter of the method.

    Source: VDI 2230.
    """
    return preload * (1 - preload_scatter)


def proof_load(proof_strength: Pressure, weakest_area: Area) -> Force:
    """Load at which the weakest section reaches proof stress.

    Source: ISO 898-1.
    """
    return proof_strength * weakest_area


def yield_load(yield_strength: Pressure, weakest_area: Area) -> Force:
    """Load at which the weakest section yields.

    Source: ISO 898-1.
    """
    return yield_strength * weakest_area


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


def tightening_stress(preload: Force, diameter: Length, pitch: Length, nut_factor: Ratio,
                      thread_friction: Ratio = None) -> Pressure:
    """Stress in the fastener while it turns: tension and twist together, sqrt(s^2 + 3 t^2).

    The twist is the thread's share of the torque, F (0.159 P + 0.577 d2 mu). Where no thread friction is
    written it follows from the nut factor, mu = (K - 0.02) / 1.16. Source: VDI 2230.
    """
    friction = (nut_factor - NUT_FACTOR_OFFSET) / NUT_FACTOR_SLOPE if thread_friction is None else thread_friction
    pitch_diameter = threads.pitch_diameter(diameter, pitch)
    core = (pitch_diameter + threads.minor_diameter(diameter, pitch)) / 2
    twist = preload * (0.159155 * pitch + 0.577 * pitch_diameter * friction)
    tension = preload / (PI / 4 * core**2)
    shear = 16 * twist / (PI * core**3)
    return sqrt(tension**2 + 3 * shear**2)


def engagement_ratio(engagement_length: Length, diameter: Length) -> Ratio:
    """Full thread in the hole over the diameter.

    Source: geometry.
    """
    return engagement_length / diameter
