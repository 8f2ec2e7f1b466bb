"""Rules that could not answer: what each lacks, what is overdue by the stage of the build, which few inputs settle most."""

from .model import FAIL, OPEN, REVIEW, STAGES, Finding
from .resolve import split_ending
from .value_display import plain_words

MANY = ("joints", "bearings", "rings")


def heading_of(path):
    """The heading that a missing path belongs to: its first key; of joints, bearings and rings the first two."""
    keys = path.replace("[]", "").split(".")
    return ".".join(keys[:2]) if keys[0] in MANY and len(keys) > 1 else keys[0]


# -- what is missing -----------------------------------------------------------------------------------


def missing_for(scope, word, bench):
    """The dotted paths which, once written, give the word in this scope: its own, or a formula's inputs.

    Returns a tuple; the way that needs the fewest. A word that no key and no formula of this spec gives is
    named as it is.
    """
    known = bench.missing.get((id(scope), word))
    if known is None:
        bench.missing[id(scope), word] = (word,)
        known = bench.missing[id(scope), word] = _missing(scope, word, bench) or (word,)
    return known


def _missing(scope, word, bench):
    own, ways = own_key(scope, word, bench), list(_ways_missing(scope, word, bench))
    if own is not None and not (own.measured and ways):
        ways.insert(0, (path_in(own.path, scope),))
    if ways:
        return min(ways, key=lambda paths: (sum(bench.begun(heading_of(path)) for path in paths), len(paths)))
    parts = split_ending(word)
    if parts is not None:
        return _missing(scope, parts[0], bench)
    child, inner = scope.child(word)
    if child is not None:
        return _missing(child, inner, bench)
    joint, beyond, _ = word.partition("_joint_")
    return (f"joints.{joint}",) if beyond and joint in bench.vocabulary.tree.children["joints"].children else ()


def own_key(scope, word, bench):
    """The Word itself, where the schema has it in this scope or an outer one; else None."""
    chain, current = [], scope.base
    while current is not None:
        chain.append(current)
        current = current.parent
    for outer in reversed(chain):
        definition = bench.vocabulary.words.get((outer.kind, word))
        if definition is not None:
            return definition
    return None


def _ways_missing(scope, word, bench):
    """For each formula that could give the word, the paths it lacks."""
    for formula in bench.ways.get(word, ()):
        lacks = {}
        for name in formula.inputs:
            if name not in formula.optional and scope.value(name) is None:
                paths = missing_for(scope, name, bench)
                if paths == (name,):
                    break
                lacks.update(dict.fromkeys(paths))
        else:
            if lacks:
                yield tuple(lacks)


def path_in(path, scope):
    """A schema path with the names of this scope and its outer ones put in place."""
    current = scope.base
    while current is not None:
        path = path.replace(f"<{current.kind}>", current.name)
        current = current.parent
    return path


# -- what is overdue -----------------------------------------------------------------------------------


def overdue(findings, bench):
    """One warning for each missing input that rules due by now wait for; one note for a heading not begun.

    Unsigned reminders that are due are one finding together.
    """
    now = STAGES.index(bench.stage)
    waiting, unsigned = {}, []
    for finding in findings:
        if not finding.due or STAGES.index(finding.due) > now:
            continue
        if finding.kind == OPEN:
            for path in finding.missing:
                waiting.setdefault(path, {}).setdefault(finding.rule, None)
        elif finding.kind == REVIEW:
            unsigned.append(finding.rule)
    found, absent = [], {}
    for path, rules in waiting.items():
        heading = heading_of(path)
        if not bench.begun(heading):
            absent.setdefault(heading, {}).update(rules)
            continue
        place, pointer = bench.place_of_path(path)
        found.append(Finding(
            "due-inputs-are-written", "spec", FAIL, "warning", (),
            f"{path} is not written, and {_count(len(rules), 'rule')} due by {plain_words(bench.stage)} "
            f"{'waits' if len(rules) == 1 else 'wait'} for it: {', '.join(rules)}",
            f"Write {path}.", missing=(path,), place=place, pointer=pointer))
    for heading, rules in absent.items():
        place, pointer = bench.place_of_path(heading)
        found.append(Finding(
            "due-inputs-are-written", "spec", FAIL, "note", (),
            f"{heading}: nothing written yet, {_count(len(rules), 'rule')} {'waits' if len(rules) == 1 else 'wait'}",
            f"Begin the heading {heading}, or leave it out if this spec is not about it.", missing=(heading,),
            place=place, pointer=pointer))
    if unsigned:
        unsigned = list(dict.fromkeys(unsigned))
        begun = bench.begun("assembly")
        place, pointer = bench.place_of_path("assembly.signed")
        found.append(Finding(
            "due-reminders-are-signed", "spec", FAIL, "warning" if begun else "note", (),
            f"{_count(len(unsigned), 'reminder')} due by {plain_words(bench.stage)} "
            f"{'is' if len(unsigned) == 1 else 'are'} not signed: {', '.join(unsigned)}",
            "Look, then write {check, by, on} under assembly.signed for each.", place=place, pointer=pointer))
    return found


def _count(number, noun):
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"


def unlocks(findings, most=3, lines=3):
    """The few inputs that settle most open rules: tuple of (paths, number of rules they settle together)."""
    needs = {}
    for finding in findings:
        if finding.kind == OPEN and finding.missing:
            needs.setdefault(finding.missing, set()).add(finding.rule)
    results, taken, done = [], set(), set()
    for _ in range(lines):
        chosen = set()
        best = set()
        for _ in range(most):
            step = None
            for missing in needs:
                extra = set(missing) - taken - chosen
                if not extra or len(chosen) + len(extra) > most:
                    continue
                trial = taken | chosen | extra
                gain = set().union(*(rules for need, rules in needs.items() if trial.issuperset(need))) - done
                rank = (len(gain) / len(extra), len(gain), sorted(extra))
                if step is None or rank[:2] > step[0][:2] or (rank[:2] == step[0][:2] and rank[2] < step[0][2]):
                    step = (rank, extra, gain)
            if step is None or len(step[2]) <= len(best):
                break
            chosen |= step[1]
            best = step[2]
        if not chosen:
            break
        results.append((tuple(sorted(chosen)), len(best)))
        taken |= chosen
        done |= best
    return tuple(results)
