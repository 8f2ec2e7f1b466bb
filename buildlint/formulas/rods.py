"""The rod: its play beside its mate, its stretch at speed, and the joint of its cap."""

from ..dimensions import Area, Choice, Count, Force, Length, Mass, Ratio, Rpm
from ..numeric import least
from ..quantities import q
from ..tables.materials import MODULUS, ROD_METAL

# Smallest section of a beam where it is not written; common practice, no source.
USUAL_BEAM_AREA = {"steel": q("200 mm^2"), "powder_steel": q("200 mm^2"), "cast_iron": q("200 mm^2"),
                   "titanium": q("200 mm^2"), "aluminum": q("450 mm^2")}
USUAL_BEAM_SHARE = 0.82  # of the rod's length; common practice, no source
BOLTS_PER_ROD = 2
CLAMP_AIM = 0.75  # of yield, as makers of rod bolts set their torque; common practice, no source


def rod_side_clearance(crank_pin_length: Length, crank_rods_per_pin: Count, rod_big_end_width: Length) -> Length:
    """Play of the rods along their pin, all of one pin together: pin length less the widths.

    m. Source: geometry.
    """
    return crank_pin_length - crank_rods_per_pin * rod_big_end_width


def rod_beam_load(reciprocating_mass: Mass, crank_throw: Length, rod_length: Length, rev_limit: Rpm) -> Force:
    """Pull in the rod at top, both orders: reciprocating mass x r w^2 (1 + r / rod).

    kg, m, rad/s -> N. Source: Khurmi and Gupta, A Textbook of Machine Design, article 32.15.
    """
    return reciprocating_mass * crank_throw * rev_limit**2 * (1 + crank_throw / rod_length)


def rod_stretch(rod_beam_load: Force, rod_length: Length, rod_material: Choice, rod_beam_area: Area = None,
                rod_beam_length: Length = None) -> Length:
    """How much the beam gets longer at top at the rev limit: pull x length over area and modulus.

    N, m -> m. Where the section is not written a usual one of its material is taken: 200 mm2 steel, 450 mm2 aluminum, and
    0.82 of the rod's length. Source: Hooke's law.
    """
    metal = ROD_METAL.get(rod_material)
    if metal is None:
        return None
    modulus = MODULUS["steel" if metal == "steel_4340" else metal]
    area = USUAL_BEAM_AREA[rod_material] if rod_beam_area is None else rod_beam_area
    length = USUAL_BEAM_SHARE * rod_length if rod_beam_length is None else rod_beam_length
    return rod_beam_load * length / (modulus * area)


def rod_inertia_load(reciprocating_mass: Mass, rod_big_end_mass: Mass, crank_throw: Length, rod_length: Length,
                     rev_limit: Rpm, rod_cap_mass: Mass = None) -> Force:
    """Pull on the joint of the cap at top at the rev limit: piston's side m r w^2 (1 + r / rod), big end m r w^2.

    Of the big end what is above the cap; without the cap's mass all of it counts. kg, m, rad/s -> N.
    Source: Khurmi and Gupta, A Textbook of Machine Design, article 32.15, with the rotating end added.
    """
    return _joint_pull(reciprocating_mass, rod_big_end_mass, crank_throw, rod_length, rev_limit, rod_cap_mass)


def rod_inertia_load_overspeed(reciprocating_mass: Mass, rod_big_end_mass: Mass, crank_throw: Length, rod_length: Length,
                               overspeed: Rpm, rod_cap_mass: Mass = None) -> Force:
    """The same pull at the speed of a missed shift.

    kg, m, rad/s -> N. Source: as rod_inertia_load.
    """
    return _joint_pull(reciprocating_mass, rod_big_end_mass, crank_throw, rod_length, overspeed, rod_cap_mass)


def _joint_pull(reciprocating, big_end, throw, rod, speed, cap):
    turning = big_end if cap is None else big_end - cap
    return throw * speed**2 * (reciprocating * (1 + throw / rod) + turning)


def rod_clamp_load(rod_joint_preload: Force) -> Force:
    """What the two bolts of a rod clamp with, from their torque or stretch.

    N. Source: two bolts to a cap; common practice.
    """
    return BOLTS_PER_ROD * rod_joint_preload


def rod_clamp_load__of_yield(rod_joint_yield_load: Force) -> Force:
    """What the two bolts of a rod clamp with when they are set to three quarters of yield.

    N. Source: common practice, no source.
    """
    return BOLTS_PER_ROD * CLAMP_AIM * rod_joint_yield_load


def rod_clamp_ratio(rod_clamp_load: Force, rod_inertia_load: Force, rod_bearing_shell_parting_force: Force = None) -> Ratio:
    """Clamp of the rod's joint over what pulls it open at the rev limit: inertia, and the shells' push on both faces.

    Source: equilibrium of the cap.
    """
    return rod_clamp_load / _opening(rod_inertia_load, rod_bearing_shell_parting_force)


def rod_clamp_ratio_overspeed(rod_clamp_load: Force, rod_inertia_load_overspeed: Force,
                              rod_bearing_shell_parting_force: Force = None) -> Ratio:
    """The same at the speed of a missed shift.

    Source: equilibrium of the cap.
    """
    return rod_clamp_load / _opening(rod_inertia_load_overspeed, rod_bearing_shell_parting_force)


def _opening(inertia, parting):
    return inertia if parting is None else inertia + 2 * parting


def rod_cam_gap_least(rod_cam_gap: Length, rod_bolt_cam_gap: Length = None) -> Length:
    """Least gap of rod and rod bolt to the cam.

    m. Source: definition.
    """
    return rod_cam_gap if rod_bolt_cam_gap is None else least(rod_cam_gap, rod_bolt_cam_gap)


def rod_cam_gap_least__of_bolt(rod_bolt_cam_gap: Length) -> Length:
    """Least gap to the cam where only that of the bolt is written.

    m. Source: definition.
    """
    return rod_bolt_cam_gap
