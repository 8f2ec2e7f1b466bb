"""The figures of a finding in words: what was found, what it was held against, and how far that is.

A maximum is used up, a minimum is there in part, a band is missed by so much, and what should agree lies so far apart;
one sentence for all of them would read wrong for three.
"""

from ..model import AGREEMENT, BAND, FAIL, MAXIMUM, MINIMUM
from .text import figures, line

FINEST = {"in": 4, "mm": 3}  # the last decimal a size is read to at the bench


def measured(finding):
    """Return what was found beside its limit as a row of figures, as far as there are any; of pieces no share."""
    value, limit = finding.value, finding.limit
    unit = _unit(finding)
    if not _number(value):
        return ""
    if not _number(limit):
        return f"found {figures(value)[0]}{unit}"
    found, bound = figures(value, limit, finest=FINEST.get(finding.unit, 12))
    if finding.counts:  # sixteen of thirty-two is plain; a share of it is not
        return f"found {found}, held against {bound}"
    away = figures(abs(float(found) - float(bound)))[0]
    found, bound, away = f"{found}{unit}", f"{bound}{unit}", f"{away}{unit}"
    used = finding.utilization
    if finding.bound == AGREEMENT:
        if found == bound:
            return f"found {found}"
        much = "" if not _number(used) else ", more than ten times the difference allowed" if used >= 10 else \
            f", {used * 100:.0f} % of the difference allowed"
        return f"found {found}, {away} away from {bound}{much}"
    least = _is_least(finding)
    if least is None or found == bound or unit == " %":
        return f"found {found}, {f'{bound} {_asked(least)}' if least is not None else f'limit {bound}'}"
    share = _share(value / limit, least) if finding.bound != BAND and _number(used) and _in_proportion(finding) else ""
    if share:
        return f"found {found}, {share} the {bound} {_asked(least)}"
    if least:
        far = "short of" if value < limit else "more than"
    else:
        far = "over" if value > limit else "under"
    return f"found {found}, {away} {far} the {bound} {_asked(least)}"


def pair(finding):
    """Return what was found beside what was asked: ", 0.080 in where 0.105 in is allowed"; nothing where they are no numbers."""
    if not _number(finding.value) or not _number(finding.limit):
        return ""
    found, bound = figures(finding.value, finding.limit, finest=FINEST.get(finding.unit, 12))
    unit, least = _unit(finding), _is_least(finding)
    asked = f"where {bound}{unit} is {_asked(least)}" if least is not None else f"against {bound}{unit}"
    return f", {found}{unit} {asked}"


def _is_least(finding):
    """Whether the limit is the least that is wanted; None where it is neither least nor most."""
    if finding.bound == BAND:  # of a band the nearer end is told, and a failure lies outside of it
        return (finding.value < finding.limit) == (finding.kind == FAIL)
    return {MINIMUM: True, MAXIMUM: False}.get(finding.bound)


def _asked(least):
    return "wanted" if least else "allowed"


def _in_proportion(finding):
    """Whether the utilization is one number over the other; of temperatures and gauge pressures it is not."""
    value, limit, used = finding.value, finding.limit, finding.utilization
    if finding.bound == MINIMUM:
        value, limit = limit, value
    return limit > 0 <= value and abs(used * limit - value) <= 0.005 * value


def _share(share, least):
    if share >= 10:
        return "more than ten times"
    if least and share < 0.01:
        return "less than 1 % of"
    return "" if round(share, 2) == 1 else f"{share * 100:.0f} % of"  # so near, the difference says more


def _unit(finding):
    unit = line(finding.unit)
    return f" {unit}" if unit and not unit.startswith(":") else unit


def _number(value):
    return isinstance(value, (int, float)) and not isinstance(value, bool) and abs(value) < float("inf")
