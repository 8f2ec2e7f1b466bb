"""What follows for seals and sealed holes from the parts round them."""

from ..dimensions import Choice, Length, Rpm, Speed
from ..quantities import q

BEAD_OVER_GAP = q("1.5 mm")


def hole_opens_into__of_crank(joint_name: Choice, crank_flange_holes_open_into: Choice) -> Choice:
    """What the wheel bolts' holes open into: as the crank's flange is drilled.

    Source: the spec itself.
    """
    return crank_flange_holes_open_into if joint_name in ("flywheel", "flexplate") else None


def seal_surface_speed(crank_rear_seal_diameter: Length, rev_limit: Rpm) -> Speed:
    """Speed of the shaft under the rear seal's lip at the limiter: radius x speed.

    m, rad/s -> m/s. Source: geometry.
    """
    return crank_rear_seal_diameter / 2 * rev_limit


def end_rail_bead_wanted(end_rail_gap: Length) -> Length:
    """Bead that fills an end rail's gap: gap and 1.5 mm.

    m. Source: common practice, no source.
    """
    return end_rail_gap + BEAD_OVER_GAP
