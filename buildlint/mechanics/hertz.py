"""Contact pressure between two smooth elastic bodies: along a line, and in an ellipse.

Plain functions of numbers in SI; which radii a lobe and its follower have stands in the formulas. Both are static:
no oil film, no edge loading, no friction.
"""

from ..numeric import PI, sqrt


def contact_modulus(modulus, poisson, other_modulus, other_poisson):
    """Combined modulus E* of two bodies: 1 / E* = (1 - v1^2) / E1 + (1 - v2^2) / E2. Pa.

    Source: K. L. Johnson, Contact Mechanics, section 4.2.
    """
    return 1 / ((1 - poisson**2) / modulus + (1 - other_poisson**2) / other_modulus)


def combined_radius(radius, other_radius):
    """Combined radius of two convex bodies in one plane: 1 / R = 1 / R1 + 1 / R2. m.

    A flat body has no radius of its own: the other's radius is the combined one. A hollow has a negative radius.
    Source: Johnson, Contact Mechanics, section 4.1.
    """
    return 1 / (1 / radius + 1 / other_radius)


def line_pressure(force, modulus, width, radius):
    """Highest pressure of two cylinders pressed together along a line: sqrt(F E* / (pi L R)).

    force N, combined modulus Pa, width of the line m, combined radius m -> Pa.
    Source: Johnson, Contact Mechanics, section 4.2.
    """
    return sqrt(force * modulus / (PI * width * radius))


def ellipse_pressure(force, modulus, tight_radius, wide_radius):
    """Highest pressure of two bodies that touch in an ellipse: 6 F / (pi Dx Dy).

    With a = Ry / Rx at least 1, k = a^(2/pi), s = 1 + (pi/2 - 1) / a, 1/R = 1/Rx + 1/Ry and E' = 2 E*, the axes are
    Dy = 2 (6 k^2 s F R / (pi E'))^(1/3) and Dx = Dy / k. A closed form: at a = 200 it lies 2.5 % below the exact
    elliptic integrals, at a = 1 it is exact. force N, modulus Pa, radii m -> Pa.
    Source: Hamrock, Fundamentals of Fluid Film Lubrication, simplified ellipse relations, from memory.
    """
    shape = wide_radius / tight_radius
    k = shape ** (2 / PI)
    s = 1 + (PI / 2 - 1) / shape
    half_cubed = 6 * k**2 * s * force * combined_radius(tight_radius, wide_radius) / (PI * 2 * modulus)  # (Dy / 2)^3
    return 6 * k / (4 * PI) * (force**3 / half_cubed**2) ** (1 / 3)
