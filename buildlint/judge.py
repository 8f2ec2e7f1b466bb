"""Every rule asked in every scope it is about: words in, findings out.

A rule receives everything as arguments and never sees the spec. Where one of its words is a list, it is
asked for each cylinder or journal. A rule that breaks down or does not come back becomes a finding of its own and
hides nothing.
How a verdict becomes a finding stands in ``telling``, what is missing in ``open_results``, which findings are one fact in ``once``.
"""

from itertools import chain

from .model import FAIL, LEVELS, NOT_APPLICABLE, OPEN, PASS, REVIEW, Finding, Mapping, Sequence
from .once import of_cylinders, of_sides
from .open_results import missing_for
from .patience import OutOfPatience, Patience
from .reading_precision import below_its_reading
from .standard import NONE
from .telling import alike, broken_down, finding_of, not_come_back, nothing_there, open_finding

AREAS = ("spec", "general", "short_block", "compression", "valvetrain", "joints", "sealing", "air_and_fuel",
         "ignition", "cooling", "boost", "exhaust", "accessories", "assembly", "order")


class Bench:
    """What the judge needs beside the rules: the spec that was read, the vocabulary, the ways to words, the stage,
    the shop's standard, the words that rules of their own compare with formulas, whether what passes is to be
    told with its numbers, and whether what is one fact of several cylinders or sides is to be told once."""

    def __init__(self, spec, vocabulary, ways, stage=None, standard=NONE, compared=frozenset(), detail=True, once=True):
        self.compared, self.detail, self.once, self.missing, self.headings, self.identities = compared, detail, once, {}, {}, {}
        self.spec, self.vocabulary, self.ways = spec, vocabulary, ways
        self.build, self.instances = spec.build, spec.instances
        self.values = [(value, scope) for scope, written in spec.written for value in written.known or (written,)]
        self.system, self.signed = spec.system, spec.signed
        self.stage = stage or spec.stage
        self.standard = standard

    def spares(self, rule):
        """Whether what this rule lacks is not asked of an engine of this duty."""
        if not rule.spared:
            return False
        duty = self.build.value("duty")
        return duty is not None and duty.data in rule.spared

    def begun(self, heading):
        """Whether anything is written under a heading such as "sealing" or "joints.head"."""
        if heading not in self.headings:
            node = self.spec.tree
            for key in heading.split("."):
                node = node.get(key) if isinstance(node, Mapping) else None
            self.headings[heading] = isinstance(node, (Mapping, Sequence)) and bool(
                node.entries if isinstance(node, Mapping) else node.items)
        return self.headings[heading]

    def named(self, kind, names):
        """The steps, joints or items of these names, in their order; one whose name cannot be read may be any."""
        scopes = self.instances(kind)
        known = self.identities.get(kind)
        if known is None:
            values = [scope.value(IDENTITY[kind]) for scope in scopes]
            known = self.identities[kind] = [None if value is None else value.data for value in values]
        return [scope for scope, name in zip(scopes, known) if name is None or name in names]

    def place_of_path(self, path):
        """Place and pointer of the deepest part of a dotted path that stands in the spec."""
        node, place, pointer = self.spec.tree, self.spec.tree.place, ""
        for key in path.split("."):
            entry = node.entries.get(key) if isinstance(node, Mapping) else None
            if entry is None:
                break
            node, place, pointer = entry.node, entry.key.place, f"{pointer}/{key}"
        return place, pointer


# The word that says which of its kind a scope is.
IDENTITY = {"step": "step", "item": "item", "joint": "joint_name"}


def judge(rules, bench):
    """Ask every rule in every scope. Returns (findings, ids of the rules that broke down or did not come back)."""
    findings, crashed = [], []
    standard = bench.standard
    with Patience() as patience:
        for number, rule in enumerate(rules, 1):
            if standard.silences(rule):
                findings.append(Finding(rule.id, rule.area, NOT_APPLICABLE, "none", (), f"silent by {standard.file}", due=rule.due))
                continue
            limits = standard.limits_of(rule)
            try:
                patience.asked = rule
                _ask_everywhere(rule, limits, bench, findings)
                patience.asked = None
            except (Exception, SystemExit) as error:  # a broken rule must not hide what the others find
                patience.asked = None
                crashed.append(rule.id)
                findings.append(broken_down(rule, error, bench))
            except OutOfPatience as error:
                patience.asked = None
                crashed.append(rule.id)
                unasked = rules[number:] if patience.over else ()
                findings += not_come_back(rule, error, unasked, patience.over, bench)
                if unasked:
                    break
    return findings, crashed


def _ask_everywhere(rule, limits, bench, findings):
    if rule.scope == "value":
        findings += _ask_of_values(rule, limits, bench)
        return
    scopes = bench.instances(rule.scope)
    if not scopes:
        findings.append(nothing_there(rule, bench))
    named = rule.when.get(IDENTITY.get(rule.scope))
    if isinstance(named, tuple):  # about some steps, joints or items by name: the others are not even asked
        scopes = bench.named(rule.scope, named)
        if not scopes:
            findings.append(alike(rule, NOT_APPLICABLE, bench.build))
    before = len(findings)
    for scope in scopes:
        _ask(rule, limits, scope, bench, findings)
    if bench.once and rule.scope == "side" and len(scopes) > 1:
        findings[before:] = of_sides(findings[before:], len(scopes))


def _ask(rule, limits, scope, bench, found):
    """Ask a rule in one scope, or in each cylinder or journal of it where one of its words is a list."""
    for word, test, allowed in rule.conditions:
        value = scope.value(word)
        if test is not None:
            if value is None or not test(value.data):
                return found.append(alike(rule, NOT_APPLICABLE, scope))
        elif value is None:
            return found.append(open_finding(rule, scope, missing_for(scope, word, bench), bench))
        elif value.data not in allowed:
            return found.append(alike(rule, NOT_APPLICABLE, scope))
    values, data, absent, along = [], [], None, None
    known = scope.cache
    for word, needed in rule.asks:
        value = known[word] if word in known else scope.value(word)
        values.append(value)
        if value is None:
            data.append(None)
            if needed:
                absent = [*absent, word] if absent else [word]
        else:
            data.append(value.data)
            if value.along is not None and (along is None or value.along == along.along and value.reach > along.reach):
                along = value
    if absent is not None:
        paths = dict.fromkeys(path for word in absent for path in missing_for(scope, word, bench))
        return found.append(open_finding(rule, scope, tuple(paths), bench))
    if along is not None and scope.position is None:
        before = len(found)
        for position in range(1, along.reach + 1):
            if along.definition is not None and along.definition.sampled and along.elements[position - 1] is None:
                continue
            _ask(rule, limits, scope.at(along.along, position), bench, found)
        if bench.once and len(found) > before + 1:
            found[before:] = of_cylinders(found[before:], scope.label)
        return None
    verdict = rule.function(*data, **limits)
    if verdict.kind == FAIL and below_its_reading(verdict, bench.standard.level_of(rule, verdict), values):
        verdict.kind = PASS
    if verdict.kind == PASS and not bench.detail and not verdict.near:
        return found.append(alike(rule, PASS, scope))
    return found.append(finding_of(rule, limits, verdict, scope, values, bench))


def _ask_of_values(rule, limits, bench):
    """A rule about written values as such is asked of each; None is a pass, and all passes are reported once.

    It may take the value, its scope, and the words that other rules compare with their formulas.
    """
    found, extra = [], (bench.compared,) if "compared" in rule.words else ()
    for value, scope in bench.values:
        verdict = rule.function(value, scope, *extra, **limits)
        if verdict is not None and verdict.kind != PASS:
            found.append(finding_of(rule, limits, verdict, scope, [value], bench))
    if not found:
        kind = PASS if bench.values else NOT_APPLICABLE
        found.append(Finding(rule.id, rule.area, kind, "none", (), f"{len(bench.values)} written values looked at", due=rule.due))
    return found


_LEVEL_RANK = {level: rank for rank, level in enumerate(LEVELS)}
_KIND_RANK = {FAIL: 0, OPEN: 1, REVIEW: 2, PASS: 3, NOT_APPLICABLE: 4}
_AREA_RANK = {area: rank for rank, area in enumerate(AREAS)}


def order(findings):
    """Sort findings as an engine is assembled, the serious first; the same list comes out the same way.

    What passes or does not apply comes behind all that is told, by area and rule.
    """
    last = len(AREAS)

    def told(finding):
        place = finding.place
        return (_KIND_RANK[finding.kind], _AREA_RANK.get(finding.area, last), finding.area, _LEVEL_RANK.get(finding.level, 3),
                (place.file, place.line, place.column) if place else ("", 0, 0), finding.rule, finding.scope, finding.message)

    def quiet(finding):
        return _AREA_RANK.get(finding.area, last), finding.area, finding.rule, finding.scope, finding.message

    by_kind = {kind: [] for kind in _KIND_RANK}
    for finding in findings:
        by_kind[finding.kind].append(finding)
    passed, beside = by_kind.pop(PASS), by_kind.pop(NOT_APPLICABLE)
    return (*sorted(chain(*by_kind.values()), key=told), *sorted(passed, key=quiet), *sorted(beside, key=quiet))
