"""What moves, weighed: reciprocating and rotating mass, the bobweight, and the grade of what is left."""

from ..dimensions import Angle, Choice, Count, Fraction, Mass, Rpm, Speed, Unbalance
from ..numeric import PI, cos, greatest, valid, where

EVEN_V6 = 2 * PI / 3  # two pistons of a pair fire a third of a turn apart
BARELY = 0.02  # of one reciprocating mass, what one degree of bank angle makes


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


def balance_fraction(layout: Choice, cylinders: Count, bank_angle: Angle = None, crank_pin_splay: Angle = None,
                     balance_shaft: Choice = None) -> Fraction:
    """Part of the reciprocating mass in the bobweight: half for a 90-degree V8, none for a straight four or six.

    A mass that goes up and down is two halves that turn, one with the crank and one against it. The half that turns along
    is what a counterweight takes; where two pistons at right angles share a pin, or in a V6 of 60 degrees whose pins are
    splayed by 60, the halves that turn against it cancel, and half is the whole answer. So it is where a balance shaft
    takes them. For any other engine the crank's maker gives the fraction. Source: kinematics of two rotating halves
    (Den Hartog, Mechanical Vibrations, from memory).
    """
    if layout == "inline" and cylinders in (4, 6):
        return 0.0
    if layout != "v" or bank_angle is None:
        return None
    if cylinders == 8 and crank_pin_splay is None:
        return valid((bank_angle > 1.553) & (bank_angle < 1.588), 0.5)
    if cylinders != 6 or crank_pin_splay is None:
        return None
    if balance_shaft == "fitted":
        return 0.5
    return valid(_turning_back(bank_angle, crank_pin_splay) < BARELY, 0.5)


def balance_fraction_one_plane(layout: Choice, cylinders: Count, bank_angle: Angle, crank_pin_splay: Angle) -> Fraction:
    """Fraction for a V6 at which what cannot be balanced rocks the engine in one plane only: 1/2 - |cos(B + s/2)| / (2 cos(s/2)).

    B is the bank angle, s the splay of the pins. With less in the counterweights, what turns along and what turns back are
    equal and add up to a rocking to and fro, which mounts can be made soft for; with half, only what turns back is left,
    and rocks all round. 0.366 for 90 degrees with pins splayed by 30, which is the figure the trade uses there. Source:
    kinematics of two rotating halves; the trade's figure from memory.
    """
    if layout != "v" or cylinders != 6:
        return None
    return 0.5 - _turning_back(bank_angle, crank_pin_splay) / (2 * cos(crank_pin_splay / 2))


def _turning_back(bank_angle, pin_splay):
    """What a pair of a V6 leaves turning against the crank, as a share of one reciprocating mass; the splay is toward even firing."""
    return abs(where(bank_angle <= EVEN_V6, cos(bank_angle + pin_splay / 2), cos(bank_angle - pin_splay / 2)))


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
