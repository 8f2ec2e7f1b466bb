"""Whose number wins: a maker's written instruction over a figure worked out here.

Rules that judge a written torque by calculation pass their verdict through here, so that the deference is the same
everywhere. Whether the maker's and the calculated figure agree is asked by a rule of its own.
"""

from .model import FAIL, LEVELS

SAME_TORQUE = 0.02


def defer_to_maker(verdict, torque, torque_source=None, maker_torque=None):
    """Let a failure about a torque count one level less where the torque is the maker's own, and say so.

    The verdict's level must be set; one without counts as an error. The torque is the maker's where ``torque_source`` says maker or where it agrees with ``maker_torque`` within
    2 percent. The sentence is told as the fact ``maker``, empty where there is nothing to say; where the maker's
    written torque is another one, it is named.
    """
    sentence = ""
    if verdict.kind == FAIL:
        agrees = maker_torque is not None and torque is not None and abs(torque - maker_torque) <= SAME_TORQUE * maker_torque
        if agrees or torque_source == "maker" and maker_torque is None:
            verdict.level = less_serious(verdict.level or LEVELS[0])
            sentence = " The torque is the maker's own and wins over this estimate, so it counts one level less."
        elif maker_torque is not None:
            sentence = f" The maker's sheet says {maker_torque.text}, and that wins."
    return verdict.telling(maker=sentence)


def less_serious(level):
    """The next lower level: an error becomes a warning, a warning a note; a note stays one."""
    return LEVELS[min(LEVELS.index(level) + 1, len(LEVELS) - 1)]
