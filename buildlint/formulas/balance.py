"""What moves, weighed: reciprocating and rotating mass, the bobweight, and the grade of what is left."""

from ..dimensions import Angle, Choice, Count, Fraction, Mass, Rpm, Speed, Unbalance
from ..numeric import greatest, valid


def rings_mass(top_ring_mass: Mass, second_ring_mass: Mass, oil_ring_mass: Mass) -> Mass:
    """The rings of one piston: top, second and oil ring together.

    kg. Source: arithmetic.
    """
    return top_ring_mass + second_ring_mass + oil_ring_mass


def rings_mass__of_card(balance_card_rings_mass: Mass) -> Mass:
    """The rings of one piston, as the balance card has them, where they were not weighed again.

    kg. Source: the card.
    """
    return balance_card_rings_mass


def reciprocating_mass(piston_mass: Mass, piston_pin_mass: Mass, rod_small_end_mass: Mass,
                       piston_pin_locks_mass: Mass = None, rings_mass: Mass = None) -> Mass:
    """What goes up and down in one cylinder: piston, pin, locks, rings and small end.

    Locks and rings count as nothing where they are not written. kg. Source: definition.
    """
    mass = piston_mass + piston_pin_mass + rod_small_end_mass
    mass = mass if piston_pin_locks_mass is None else mass + piston_pin_locks_mass
    return mass if rings_mass is None else mass + rings_mass


def rotating_mass(rod_big_end_mass: Mass, balance_shells_mass: Mass) -> Mass:
    """What goes round with the pin for one rod: big end and its pair of shells.

    kg. Source: definition.
    """
    return rod_big_end_mass + balance_shells_mass


def balance_fraction(layout: Choice, cylinders: Count, bank_angle: Angle = None) -> Fraction:
    """Part of the reciprocating mass in the bobweight: half for a 90-degree V8, none for a straight four or six.

    Two pistons at right angles on one pin pull together like one mass that turns. For any other engine the crank's maker
    gives it. Source: kinematics of a 90-degree pair (Den Hartog, Mechanical Vibrations, from memory).
    """
    if layout == "inline" and cylinders in (4, 6):
        return 0.0
    if layout == "v" and cylinders == 8 and bank_angle is not None:
        return valid((bank_angle > 1.553) & (bank_angle < 1.588), 0.5)
    return None


def balance_bobweight(rotating_mass: Mass, reciprocating_mass: Mass, balance_fraction: Fraction, crank_rods_per_pin: Count,
                      rings_mass: Mass, balance_oil_allowance: Mass = None) -> Mass:
    """Weight hung on each pin for balancing: for every rod on it the rotating mass and a part of the reciprocating, and oil.

    Only where the rings were weighed too: they are part of the reciprocating mass, and without them no card is met. kg.
    Source: definition; common practice.
    """
    bobweight = crank_rods_per_pin * (rotating_mass + balance_fraction * reciprocating_mass)
    return bobweight if balance_oil_allowance is None else bobweight + balance_oil_allowance


def balance_grade(balance_residual_per_plane: Unbalance, crank_mass: Mass, rev_limit: Rpm) -> Speed:
    """Grade of balance G: unbalance of both planes over the mass, times the speed.

    kg*m, kg, rad/s -> m/s; 0.016 m/s is G16. Source: ISO 21940-11, e_per x w = G.
    """
    return 2 * balance_residual_per_plane * rev_limit / crank_mass


def weights_spread_worst(piston_mass_spread: Mass = None, rod_small_end_mass_spread: Mass = None,
                         rod_big_end_mass_spread: Mass = None) -> Mass:
    """Largest spread of pistons, small ends and big ends that were weighed one by one.

    kg. Source: definition.
    """
    return _largest(piston_mass_spread, rod_small_end_mass_spread, rod_big_end_mass_spread)


def balance_card_deviation(
    balance_card_piston_mass: Mass = None, piston_mass_smallest: Mass = None, balance_card_pin_mass: Mass = None, piston_pin_mass: Mass = None,
    balance_card_rings_mass: Mass = None, rings_mass: Mass = None, balance_card_small_end_mass: Mass = None,
    rod_small_end_mass_smallest: Mass = None, balance_card_big_end_mass: Mass = None, rod_big_end_mass_smallest: Mass = None,
    balance_card_shells_mass: Mass = None, balance_shells_mass: Mass = None, balance_card_locks_mass: Mass = None,
    piston_pin_locks_mass: Mass = None,
) -> Mass:
    """Largest difference between a mass of the balance card and the part as it is now.

    kg. Source: definition.
    """
    pairs = ((balance_card_piston_mass, piston_mass_smallest), (balance_card_pin_mass, piston_pin_mass), (balance_card_rings_mass, rings_mass),
             (balance_card_small_end_mass, rod_small_end_mass_smallest), (balance_card_big_end_mass, rod_big_end_mass_smallest),
             (balance_card_shells_mass, balance_shells_mass), (balance_card_locks_mass, piston_pin_locks_mass))
    return _largest(*(abs(now - card) for card, now in pairs if card is not None and now is not None))


def balance_bobweight_planned(balance_card_bobweight: Mass) -> Mass:
    """The bobweight the crank will be balanced to: that of the card.

    kg. Source: the card.
    """
    return balance_card_bobweight


def balance_bobweight_planned__from_parts(balance_bobweight_largest: Mass) -> Mass:
    """The bobweight the crank will be balanced to: from the parts where there is no card yet.

    kg. Source: definition.
    """
    return balance_bobweight_largest


def _largest(*values):
    known = [value for value in values if value is not None]
    return greatest(*known) if known else None
