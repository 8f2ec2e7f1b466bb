"""Whose number wins: a maker's written instruction over a figure worked out here.

Rules that judge a written torque by calculation pass their verdict through here, so that the deference is the same
everywhere. Whether the maker's and the calculated figure agree is asked by a rule of its own.
"""

from .model import FAIL, LEVELS

SAME_TORQUE = 0.02


def is_the_makers(torque, torque_source=None, maker_torque=None):
    """Whether a written torque is the maker's own: said to be so, or the same within 2 percent as the one on his sheet."""
    if maker_torque is None or torque is None:
        return torque_source == "maker" and maker_torque is None
    return abs(torque - maker_torque) <= SAME_TORQUE * maker_torque


def defer_to_maker(verdict, torque, torque_source=None, maker_torque=None):
    """Let a failure about a torque count one level less where the torque is the maker's own, and say so.

    The verdict's level must be set; one without counts as an error. The sentence is told as the fact ``maker``, empty
    where there is nothing to say; where the maker's written torque is another one, it is named.
    """
    sentence = ""
    if verdict.kind == FAIL:
        if is_the_makers(torque, torque_source, maker_torque):
            verdict.level = less_serious(verdict.level or LEVELS[0])
            sentence = " The torque is the maker's own and wins over this estimate, so it counts one level less."
        elif maker_torque is not None:
            sentence = f" The maker's sheet says {maker_torque.text}, and that wins."
    return verdict.telling(maker=sentence)


def less_serious(level):
    """The next lower level: an error becomes a warning, a warning a note; a note stays one."""
    return LEVELS[min(LEVELS.index(level) + 1, len(LEVELS) - 1)]
