"""One cylindrical helical compression spring of round wire: rate, stress, first frequency, solid height.

The wire's diameter is d, the coil's mean diameter D, the active coils n. Beehive and conical springs follow these
only coil by coil; nothing here says so, the rules do.
"""

from ..numeric import PI, sqrt
from .quotient import over


def rate(wire_diameter, mean_diameter, active_coils, shear_modulus):
    """Force per travel: G d^4 / (8 D^3 n). m, m, -, Pa -> N/m.

    Source: EN 13906-1:2013, 9.4.
    """
    return over(shear_modulus * wire_diameter**4, 8 * mean_diameter**3 * active_coils)


def shear_stress(force, wire_diameter, mean_diameter):
    """Shear stress of the wire, not corrected for curvature: 8 F D / (pi d^3). N, m, m -> Pa.

    Source: EN 13906-1:2013, 9.5.
    """
    return over(8 * force * mean_diameter, PI * wire_diameter**3)


def curvature_factor(index):
    """How much more the inside of a coil carries, by the spring index w = D / d: (w + 0.5) / (w - 0.75).

    The same figure as Bergstraesser's (4 w + 2) / (4 w - 3); Wahl's lies about one percent above it.
    Source: EN 13906-1:2013, clause 7.
    """
    return over(index + 0.5, index - 0.75)


def wahl_factor(index):
    """Wahl's correction for curvature and direct shear: (4 w - 1) / (4 w - 4) + 0.615 / w.

    Source: Shigley, Mechanical Engineering Design, ch. 10.
    """
    return (4 * index - 1) / (4 * index - 4) + 0.615 / index


def first_frequency(wire_diameter, mean_diameter, active_coils, shear_modulus, density):
    """First natural frequency with both ends held: d / (2 pi n D^2) sqrt(G / (2 rho)). m, m, -, Pa, kg/m3 -> Hz.

    Source: EN 13906-1:2013, 9.12.
    """
    return over(wire_diameter, 2 * PI * active_coils * mean_diameter**2) * sqrt(over(shear_modulus, 2 * density))


def first_frequency_of_mass(stiffness, active_mass):
    """First natural frequency with both ends held: half the root of rate over moving mass. N/m, kg -> Hz.

    Source: Shigley, Mechanical Engineering Design, section 10-8.
    """
    return sqrt(over(stiffness, active_mass)) / 2


def active_mass(wire_diameter, mean_diameter, active_coils, density):
    """Mass of the coils that move: density x pi d^2 / 4 x pi D n. -> kg.

    Source: geometry.
    """
    return density * PI**2 * wire_diameter**2 * mean_diameter * active_coils / 4


def solid_height(wire_diameter, total_coils, ground):
    """Height with all coils touching: n_t d with ground ends, (n_t + 1.5) d without. m, - -> m.

    Source: EN 13906-1:2013, 9.10.
    """
    return wire_diameter * (total_coils if ground else total_coils + 1.5)
