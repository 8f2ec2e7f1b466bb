"""What turning the engine by hand tells, and what must be sure of castings and passages before it turns."""

from buildlint.rulebook import *

TURNING = """
crank: {turning_torque: %s}  %s
"""


@rule(
    scope="cylinder",
    level="warning",
    due="assembly",
    says="The turning torque does not rise evenly.",
    fix="Take the last piston out again: look at ring gaps and lands, rod cap, side clearance, shells and bore before going on.",
    source="common practice, no source; from memory",
    when={"crank_turning_torque": given},
    points_at=("crank_turning_torque",),
    conforming=(TURNING % ("[4 lbf-ft, 7 lbf-ft, 10 lbf-ft, 13.5 lbf-ft, 16 lbf-ft, 19 lbf-ft, 22 lbf-ft, 25 lbf-ft, 28 lbf-ft]", ""),),
    nonconforming=(TURNING % ("[4 lbf-ft, 7 lbf-ft, 10 lbf-ft, 19 lbf-ft, 22 lbf-ft, 25 lbf-ft, 28 lbf-ft, 31 lbf-ft, 34 lbf-ft]", "# <-"),
                   TURNING % ("[25 lbf-ft, 28 lbf-ft, 31 lbf-ft, 34 lbf-ft, 37 lbf-ft]", "# <-")),
)
def turning_torque_rises_evenly(
    crank_turning_torque: List, *, least_share: Ratio = q("0.5", "ratio"), most_share: Ratio = q("2.0", "ratio"),
    crank_alone_most: Torque = q("15 lbf-ft"),
):
    """Every piston adds about the same drag; the one that adds twice as much is telling something.

    The crank alone turns by hand: more than a few foot-pounds is a bearing, a seal fitted dry or a cap turned round.
    """
    torques = list(crank_turning_torque)
    if torques[0] > crank_alone_most:
        verdict = at_most(Torque(torques[0]), warning=crank_alone_most)
        return verdict.saying("The crank alone takes {value} to turn; by hand, or {limit} at most, is right.",
                              "Slacken the caps one after the other until it turns: that is the bearing; look for a cap turned round, dirt behind a "
                              "shell, or a dry seal.")
    steps = [after - before for before, after in zip(torques, torques[1:])]
    if len(steps) < 3:
        return not_applicable("fewer than three pistons are in")
    middle = sorted(steps)[len(steps) // 2]
    for place, step in enumerate(steps, 1):
        if step > most_share * middle or step < least_share * middle:
            verdict = require(False).telling(place=place, step=Torque(step), middle=Torque(middle))
            verdict.comparing(Torque(step), Torque(middle))
            return verdict.saying(f"Piston number {place} to go in changes the turning torque by {{value}}; the others by about {{limit}}.")
    return passes()


USED = """
order:
  items:
    - {item: %s, quantity: 1, condition: %s, crack_tested: %s}  %s
"""


@rule(
    scope="item",
    level="warning",
    due="machining",
    says="The {condition} {item} was not tested for cracks.",
    fix="Have it tested before money goes into it: magnetic particles on iron and steel, dye on aluminum, pressure for water jackets; write "
        "crack_tested: done.",
    source="magnetic particle ASTM E1444, dye penetrant ASTM E1417",
    when={"item": ("crank", "rod", "block", "head"), "condition": ("reused", "reused_in_place", "reconditioned")},
    points_at=("crack_tested", "condition"),
    conforming=(USED % ("crank", "reconditioned", "done", ""), USED % ("crank", "new", "not_done", "")),
    nonconforming=USED % ("crank", "reconditioned", "not_done", "# <-"),
)
def used_castings_are_crack_tested(item: Text, condition: Choice, crack_tested: Choice):
    """A crank, rod, head or block with a past has had a missed shift, a hot day or a winter; the crack shows under the lamp or on the road."""
    return one_of(crack_tested, ("done",))


@rule(
    scope="build",
    level="reminder",
    due="assembly",
    says="Every drilled passage of the crank has its plug back, staked; holes are chamfered, and brushed after balancing and polishing.",
    fix="Pull a bore brush through every passage with solvent, blow through from pin to main, and look for light.",
    source="common practice, no source",
    when={"crank_material": given},
    points_at=("crank_material",),
    conforming="crank: {material: forged_4340}",
)
def crank_passages_are_plugged_and_clean(crank_material: Choice):
    """Chips from balancing sit in the passages until oil pressure brings them to the first rod; a plug left out feeds the pan instead."""
    return review()
