"""Twisting vibration of a crank: the stiffness of a throw, and the lowest frequency of a chain of flywheels on shafts."""

import math

from ..numeric import PI
from ..tables.materials import SHEAR_MODULUS


def throw_stiffness(journal_length, journal, pin_length, pin, throw, web_thickness, web_width, metal="steel"):
    """Twisting stiffness of one throw with solid journals, N*m/rad, lengths in m.

    pi G / 32 over (Lj + 0.8 Lw) / Dj^4 + 0.75 Lc / Dc^4 + 1.5 R / (Lw W^3). Source: Carter, in Nestorides, A Handbook on
    Torsional Vibration (from memory).
    """
    softness = ((journal_length + 0.8 * web_thickness) / journal**4 + 0.75 * pin_length / pin**4
                + 1.5 * throw / (web_thickness * web_width**3))
    return PI * SHEAR_MODULUS[metal] / 32 / softness


def throw_stiffness_second(journal_length, journal, pin_length, pin, throw, web_thickness, web_width, metal="steel"):
    """The same by another author's lengths, for comparing: they differ by a few percent on usual cranks.

    pi G / 32 over (Lj + 0.4 Dj) / Dj^4 + (Lc + 0.4 Dc) / Dc^4 + (R - 0.2 (Dj + Dc)) / (Lw W^3). Source: Ker Wilson,
    Practical Solution of Torsional Vibration Problems (from memory).
    """
    softness = ((journal_length + 0.4 * journal) / journal**4 + (pin_length + 0.4 * pin) / pin**4
                + (throw - 0.2 * (journal + pin)) / (web_thickness * web_width**3))
    return PI * SHEAR_MODULUS[metal] / 32 / softness


def lowest_frequency(inertias, stiffnesses):
    """Lowest frequency above zero of a free chain of inertias (kg*m2) joined by shafts (N*m/rad), Hz, or None.

    None where there is not exactly one shaft fewer than inertias, or one of them is not positive. The number of
    frequencies below a trial value is the number of sign changes of Sturm's sequence; halving finds the second
    (the first is the whole chain turning). Source: Sturm sequence of a symmetric three-diagonal matrix, any text on
    numerical analysis; frequencies of a free chain, any text on vibration.
    """
    count = len(inertias)
    if count < 2 or len(stiffnesses) != count - 1 or min(*inertias, *stiffnesses) <= 0:
        return None
    beside = [0.0, *stiffnesses, 0.0]
    diagonal = [(beside[place] + beside[place + 1]) / inertia for place, inertia in enumerate(inertias)]
    squares = [stiffnesses[place] ** 2 / (inertias[place] * inertias[place + 1]) for place in range(count - 1)]

    def below(trial):
        found, value = 0, 1.0
        for place in range(count):
            value = diagonal[place] - trial - (squares[place - 1] / value if place else 0.0)
            if value == 0.0:
                value = 1e-30
            found += value < 0
        return found

    low, high = 0.0, 2 * max(diagonal) + max(squares, default=0.0) ** 0.5
    while high - low > 1e-13 * high:
        middle = (low + high) / 2
        if below(middle) >= 2:
            high = middle
        else:
            low = middle
    return math.sqrt(high) / (2 * PI)
