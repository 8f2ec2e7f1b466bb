"""A fastener that is tightened: torque and tension, and how fastener and clamped parts give under load.

Plain functions of numbers; which word of a spec stands for which number is the formulas' affair.
"""

from ..numeric import PI, log
from ..quantities import q

ONE_MICROMETER = q("1 um")


def nut_factor_long_form(diameter, pitch, pitch_diameter, thread_friction, face_friction, face_mean_diameter):
    """Nut factor K = T / (F d) from the friction of both surfaces: (0.159 P + 0.577 d2 mu + mu_face Dm / 2) / d.

    Lengths in m. Source: VDI 2230-1, torque equation.
    """
    return (0.159155 * pitch + 0.577 * pitch_diameter * thread_friction + face_friction * face_mean_diameter / 2) / diameter


def thread_torque(preload, pitch, pitch_diameter, thread_friction):
    """Part of the tightening torque that twists the fastener: F (0.159 P + 0.577 d2 mu). N*m.

    Source: VDI 2230-1.
    """
    return preload * (0.159155 * pitch + 0.577 * pitch_diameter * thread_friction)


def clamped_stiffness(modulus, length, face_diameter, hole_diameter):
    """Stiffness of one clamped material of length ``length`` between two faces: two frusta of 30 degrees.

    pi 0.5774 E d / (2 ln(((1.155 t + D - d)(D + d)) / ((1.155 t + D + d)(D - d)))), t half the length, D the face.
    Pa, m -> N/m. Source: Shigley, Mechanical Engineering Design, 9th ed., Eq. 8-20.
    """
    t, outside, inside = length / 2, face_diameter, hole_diameter
    spread = log(((1.154701 * t + outside - inside) * (outside + inside)) / ((1.154701 * t + outside + inside) * (outside - inside)))
    return PI * 0.577350 * modulus * inside / (2 * spread)


def settling(grip_length, diameter):
    """How far the faces of a joint sink into each other in service: 3.29 (grip / d)^0.34 micrometers.

    m -> m. Source: VDI 2230, edition of 1986, from memory; a middle figure of what was measured on many joints.
    """
    return 3.29 * (grip_length / diameter) ** 0.34 * ONE_MICROMETER


def in_series(*stiffnesses):
    """Stiffness of parts that carry the same force one after the other: 1 / sum(1/k). N/m."""
    return 1 / sum(1 / stiffness for stiffness in stiffnesses)


def preload_from_growth(difference, fastener_stiffness, clamped_stiffness):
    """Tension added when the clamped parts grow by ``difference`` more than the fastener does. m, N/m -> N.

    Source: Bickford, Introduction to the Design and Behavior of Bolted Joints, ch. 11.
    """
    return difference * in_series(fastener_stiffness, clamped_stiffness)
