"""A straight bar that bends between two ends free to swivel."""

from ..numeric import PI, sqrt
from .quotient import over


def first_bending_frequency(youngs_modulus, second_moment, density, area, length):
    """First lateral frequency of a bar on two pinned ends, no load along it: pi / (2 L^2) sqrt(E I / (rho A)).

    Pa, m4, kg/m3, m2, m -> Hz. A push along the bar lowers it by sqrt(1 - push / buckling load); that is left out.
    Source: Euler-Bernoulli beam, first mode; Timoshenko, Vibration Problems in Engineering, from memory.
    """
    return over(PI, 2 * length**2) * sqrt(over(youngs_modulus * second_moment, density * area))
