"""Where the piston is, how fast it moves and how hard it is pulled, exactly, with the pin off the bore's axis.

Crank angles are in radians from the crank throw standing in line with the bore, positive in the direction of
rotation. A degree wheel that was zeroed at the piston's true top reads ``top_angle`` less: a reading r stands for
the angle r + top_angle. The offset of the pin is positive toward the major thrust side, as builders speak of it:
after top the rod leans so that it pushes the piston there, which makes the lever R sin(angle) + offset.
"""

from ..numeric import PI, asin, cos, sin, sqrt


def _side(angle, throw, offset):
    """How far the crankpin stands to the side of the piston pin, m."""
    return throw * sin(angle) + offset


def top_angle(throw, rod, offset=0.0):
    """Crank angle at which the piston is at its true top: -asin(offset / (throw + rod)), rad.

    throw, rod, offset in m. A pin set toward the major thrust side reaches its top before the throw stands upright.
    Source: geometry, rod and throw in one line.
    """
    return -asin(offset / (throw + rod))


def bottom_angle(throw, rod, offset=0.0):
    """Crank angle at which the piston is at its true bottom: pi - asin(offset / (rod - throw)), rad.

    m. Source: geometry, rod folded back along the throw.
    """
    return PI - asin(offset / (rod - throw))


def stroke_with_offset(throw, rod, offset=0.0):
    """Travel of the piston from true top to true bottom, m; twice the throw when the pin is not offset.

    sqrt((rod + throw)^2 - offset^2) - sqrt((rod - throw)^2 - offset^2). Source: geometry.
    """
    return sqrt((rod + throw) ** 2 - offset**2) - sqrt((rod - throw) ** 2 - offset**2)



def piston_drop(angle, throw, rod, offset=0.0):
    """Fall of the piston from its true top at a crank angle, m.

    x = sqrt((R + l)^2 - e^2) - R cos(angle) - sqrt(l^2 - (R sin(angle) + e)^2); angle in rad, R throw, l rod
    between centers and e offset in m. NaN where the rod cannot reach.
    Source: Heywood, Internal Combustion Engine Fundamentals, section 2.2, with the pin offset added.
    """
    highest = sqrt((throw + rod) ** 2 - offset**2)
    return highest - throw * cos(angle) - sqrt(rod**2 - _side(angle, throw, offset) ** 2)


def piston_velocity(angle, throw, rod, speed, offset=0.0):
    """Speed of the piston away from the head, m/s, at a crank turning with ``speed`` rad/s.

    The derivative of piston_drop: w R (sin + (R sin + e) cos / sqrt(l^2 - (R sin + e)^2)).
    Source: Heywood, section 2.2, differentiated.
    """
    side = _side(angle, throw, offset)
    along = sqrt(rod**2 - side**2)
    return speed * throw * (sin(angle) + side * cos(angle) / along)


def piston_acceleration(angle, throw, rod, speed, offset=0.0):
    """Acceleration of the piston away from the head, m/s2, at a crank turning steadily with ``speed`` rad/s.

    The second derivative of piston_drop; w^2 R (1 + R/l) at top without offset.
    Source: Heywood, section 2.2, differentiated twice.
    """
    side = _side(angle, throw, offset)
    along = sqrt(rod**2 - side**2)
    swing = throw * cos(angle)
    return speed**2 * (swing + (swing**2 - side * throw * sin(angle)) / along + side**2 * swing**2 / along**3)
