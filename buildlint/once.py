"""What is one fact is told once: findings of one rule about several cylinders, journals or sides that are one thing wrong.

Nothing that passes or is open is touched, and each place that is left out is named in the finding that speaks for it.
"""

from .model import FAIL
from .reading import numbers_as_said

SWARM = 3  # from so many values of one list that break a limit they are told as one finding


def of_sides(findings, sides):
    """What intake and exhaust say in the same words of the same line is one fact, about neither of them alone."""
    groups = {}
    for finding in findings:
        if finding.kind == FAIL:
            groups.setdefault((finding.level, finding.message, finding.fix, finding.pointer, finding.scope[1:]), []).append(finding)
    told = {id(same[0]): same[0]._replace(scope=same[0].scope[1:]) for same in groups.values() if len(same) == sides}
    left = {id(other) for same in groups.values() if len(same) == sides for other in same[1:]}
    return [told.get(id(finding), finding) for finding in findings if id(finding) not in left]


def of_cylinders(findings, label):
    """The findings of one rule in one scope with a ``label``, asked of each cylinder or journal, with what is one fact told once."""
    return _worst_of_a_list(_said_alike(findings, label), label)


def _said_alike(findings, label):
    """What several cylinders say in the same words of the same line is one fact, told once with their numbers.

    Where all of them say it, it is a fact about the engine.
    """
    groups, kept = {}, []
    for finding in findings:
        said = (finding.level, finding.message, finding.fix, finding.pointer) if finding.kind == FAIL else None
        if said is not None and said in groups:
            groups[said].append(finding)
            continue
        if said is not None:
            groups[said] = [finding]
        kept.append(finding)
    for place, finding in enumerate(kept):
        same = groups.get((finding.level, finding.message, finding.fix, finding.pointer), ()) if finding.kind == FAIL else ()
        if len(same) == len(findings):
            kept[place] = finding._replace(scope=label)
        elif len(same) > 1:
            kind = same[0].scope[-1].rpartition(" ")[0]
            numbers = ", ".join(other.scope[-1].rpartition(" ")[2] for other in same)
            kept[place] = finding._replace(scope=(*label, f"{kind} {numbers}"))
    return kept


def _worst_of_a_list(findings, label):
    """Where several values of one list break the same limit, the worst speaks for all: one thing is wrong, not eight."""
    groups = {}
    for finding in findings:
        if finding.kind == FAIL and finding.edit is None and len(finding.scope) > len(label):
            line, _, last = finding.pointer.rpartition("/")
            groups.setdefault((finding.level, line if last.isdigit() else finding.pointer), []).append(finding)
    for same in groups.values():
        if len(same) < SWARM:
            continue
        kind = same[0].scope[-1].partition(" ")[0]
        worst = max(same, key=_how_far)
        numbers, alike = _numbers_of(same), _numbers_of([finding for finding in same if finding.message == worst.message])
        spoken = worst._replace(scope=(*label, f"{kind} {numbers_as_said(numbers)}"))
        if numbers != alike:
            spoken = spoken._replace(message=f"{worst.message} That is {kind} {numbers_as_said(alike)}, the worst of them.")
        first = findings.index(same[0])
        findings = [spoken if place == first else finding for place, finding in enumerate(findings)
                    if place == first or finding not in same]
    return findings


def _numbers_of(findings):
    """The numbers of the cylinders or journals that findings are about."""
    return sorted(int(number) for finding in findings for number in finding.scope[-1].partition(" ")[2].split(", "))


def _how_far(finding):
    """How far a finding lies beyond its limit, by its utilization or by the share of the limit that is missing."""
    if finding.utilization is not None:
        return finding.utilization
    numbers = [one for one in (finding.value, finding.limit) if isinstance(one, (int, float)) and not isinstance(one, bool)]
    return abs(numbers[0] - numbers[1]) if len(numbers) == 2 else 0.0
