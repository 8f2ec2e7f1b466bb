"""Weights and stored energy that somebody handles: an engine on its stand, a spring in its tool."""

from ..dimensions import Energy, Force, Length, Mass, Stiffness, Torque
from ..quantities import q

GRAVITY = q("9.80665 m/s^2")
TOOL_TRAVEL = q("0.30 in")  # what a spring tool presses beyond the installed height, so that the locks go in


def spring_energy_in_tool(spring_seat_load: Force, spring_rate: Stiffness) -> Energy:
    """Energy of a spring pressed far enough for its locks to go in: half rate times the square of its compression.

    Compression is seat load over rate, and the usual travel of the tool beyond it. N, N/m -> J. Source: Hooke's law;
    the travel common practice, no source.
    """
    return spring_rate * (spring_seat_load / spring_rate + TOOL_TRAVEL) ** 2 / 2


def stand_moment(lifted_mass: Mass, assembly_stand_overhang: Length) -> Torque:
    """Moment on the plate of the stand: weight times the distance of the center of mass from it.

    kg, m -> N*m. Source: statics.
    """
    return lifted_mass * GRAVITY * assembly_stand_overhang


def stand_bolt_load(stand_moment: Torque, assembly_stand_bolt_spacing: Length) -> Force:
    """Pull on each of the two upper bolts of the stand: moment over the height between the rows, shared by two.

    N*m, m -> N. Source: statics.
    """
    return stand_moment / (2 * assembly_stand_bolt_spacing)
