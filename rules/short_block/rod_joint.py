"""Whether the rod's cap stays on: clamp of its bolts against inertia and the push of the shells."""

from buildlint.rulebook import *

JOINT = """
build: {rev_limit: %s}
crank: {stroke: 3.750 in}
rods: {length: 6.000 in, small_end_mass: 178 g, big_end_mass: 470 g, cap_mass: 150 g}
pistons:
  mass: 420 g
  pin: {mass: 118 g, locks_mass: 2 g}
balance: {card_rings_mass: 22 g}
joints:
  rod: {thread: 3/8-24, yield_strength: %s}  %s
"""


@rule(
    scope="cylinder",
    level="error",
    due="ordering",
    says="At {where} the rod's bolts clamp {value} times what pulls on the cap ({load}); keep {limit}.",
    fix="Order bolts that clamp {clamp_needed:up} together: a stronger class or the next size; or lighten the piston's side, or stay below "
        "{speed_to_stay_under:down}.",
    source="inertia load: Khurmi and Gupta, A Textbook of Machine Design, article 32.15; factors common practice, no source",
    points_at=("rod_clamp_load", "rev_limit"),
    conforming=(JOINT % ("7000 rpm", "200 ksi", ""), JOINT % ("7000 rpm", "120 ksi", "")),
    nonconforming=(JOINT % ("8600 rpm", "120 ksi", "# <-"), JOINT % ("9500 rpm", "120 ksi", "# <-"), """
        build: {rev_limit: 9500 rpm}
        crank: {stroke: 3.750 in}
        rods: {length: 6.000 in, small_end_mass: 178 g, big_end_mass: 470 g, cap_mass: 150 g}
        pistons:
          mass: 420 g
          pin: {mass: 118 g, locks_mass: 2 g}
        balance: {card_rings_mass: 22 g}
        joints:
          rod: {thread: 3/8-24, yield_strength: 120 ksi, lubricant: moly_paste, torque: 26 lbf-ft}  # <-
        """),
)
def rod_joint_stays_closed(
    rod_clamp_load: Force, rod_clamp_ratio_smallest: Ratio, rod_clamp_ratio_overspeed_smallest: Ratio, rev_limit: Rpm,
    rod_joint_preload: Force = None, *,
    warning_below: Ratio = q("1.5", "ratio"), error_below: Ratio = q("1.2", "ratio"), overspeed_error_below: Ratio = q("1.0", "ratio"),
    overspeed_warning_below: Ratio = q("1.2", "ratio"),
):
    """The joint must never open: once it does, the bolts carry every stroke alone and break of fatigue.

    Counted are both orders of the piston's side and the big end above the cap, and the shells' push on the parting faces
    where their crush is written. A factor of two is what builders aim at. Where the bolts have neither torque nor stretch,
    three quarters of yield is taken and nothing here is more than a warning. A missed shift (ten percent unless
    missed_shift_overspeed says otherwise) must not open it either.
    """
    if rod_clamp_ratio_smallest <= 0:
        return not_applicable("the masses of the rod contradict each other")
    verdict = at_least(Ratio(rod_clamp_ratio_smallest), error=error_below, warning=warning_below)
    where, ratio = "the limiter", rod_clamp_ratio_smallest
    if verdict.kind == "pass":
        over = at_least(Ratio(rod_clamp_ratio_overspeed_smallest), error=overspeed_error_below, warning=overspeed_warning_below)
        if over.kind == "fail":
            verdict, where, ratio = over, "a missed shift", rod_clamp_ratio_overspeed_smallest
    if rod_joint_preload is None:
        verdict.within_level("warning")
    wanted = warning_below if where == "the limiter" else overspeed_warning_below
    return verdict.telling(
        where=where, load=Force(rod_clamp_load / ratio), clamp_needed=Force(rod_clamp_load * wanted / ratio),
        speed_to_stay_under=Rpm(rev_limit * (ratio / wanted) ** 0.5))


ALONE = JOINT.replace("rev_limit: %s", "rev_limit: 8500 rpm")


@rule(
    scope="cylinder",
    level="note",
    due="ordering",
    says="One bolt yields at {value}; the whole pull on the cap is {limit}.",
    fix="Larger or stronger bolts give the old rule's factor of two.",
    source="each of two bolts sized for the whole load: a published engineering note; common practice",
    when={"rod_inertia_load_largest": given},
    points_at=("rod_joint_yield_load",),
    conforming=ALONE % ("200 ksi", ""),
    nonconforming=ALONE % ("100 ksi", "# <-"),
)
def rod_bolt_carries_inertia_alone(rod_joint_yield_load: Force, rod_inertia_load_largest: Force):
    """An old rule sizes each of the two bolts for the whole load, since a cap that bends loads one of them more."""
    return at_least(Force(rod_joint_yield_load), note=Force(rod_inertia_load_largest))
