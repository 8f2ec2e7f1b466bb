"""Rules a shop writes in its standard without code: for a scope, when words meet conditions, others must too.

Each becomes a Rule like any other, asked by the same judge. There is no expression language: a condition is a
value, a list of values, or at_least, at_most, between, one_of, none_of, written.
"""

from .consistency import Lexicon
from .mechanics.threads import read_thread
from .model import BAND, FAIL, MAXIMUM, MINIMUM, NOT_APPLICABLE, OPEN, PASS, Scalar, Sequence
from .quantities import QuantityError, read
from .rulebook import SAME, Rule, Verdict
from .vocabulary import or_meant

BOUNDS = {"at_most": MAXIMUM, "at_least": MINIMUM, "between": BAND}


def declared_rules(node, label, vocabulary, ways, joint_names, work):
    """The rules of the list ``node``; what is wrong is told to ``work`` and the rule left out."""
    lexicon = Lexicon(vocabulary, ways, joint_names)
    made, seen = [], {}
    for item in node.items:
        name = item.get("id").text
        if name in work.rules:
            work.refuse(item.get("id"), f"{name} is already the id of a shipped rule")
            continue
        if name in seen:
            work.refuse(item.get("id"), f"{name} already stands at line {seen[name]}")
            continue
        seen[name] = item.place.line
        rule = _rule(item, label, lexicon, work)
        if rule is not None:
            made.append(rule)
    return tuple(made)


def _rule(item, label, lexicon, work):
    scope = item.get("for").text
    when = _conditions(item.get("when"), scope, lexicon, work)
    require = _conditions(item.get("require"), scope, lexicon, work)
    if when is None or require is None:
        return None
    rule = Rule()
    text = {name: entry.node.text for name, entry in item.entries.items() if isinstance(entry.node, Scalar)}
    rule.id, rule.area, rule.scope, rule.level = text["id"], "shop", scope, text["level"]
    rule.due, rule.says, rule.fix, rule.near = text.get("due", "planning"), text["says"], text["fix"], ""
    rule.source, rule.caution = text.get("source", "practice of the shop"), ""
    rule.conforming, rule.nonconforming = _texts(item.get("conforming")), _texts(item.get("nonconforming"))
    rule.when, rule.compares, rule.was, rule.limits = {}, (), (), {}
    words = tuple(dict.fromkeys([*require, *when]))
    rule.words, rule.points_at = words, tuple(require)
    rule.optional = frozenset(words)
    rule.dimensions = {word: lexicon.dimension(word, scope) for word in words}
    rule.file, rule.permits, rule.edit, rule.spared = f"{label}:{item.place.line}", True, None, ()

    def judge(*values):
        return _verdict(dict(zip(words, values)), when, require)

    judge.__doc__ = text.get("why") or text["says"]
    rule.function = judge
    for name in _names_in(text["says"] + text["fix"]):
        if name not in ("value", "limit", "scope") and lexicon.dimension(name, scope) is None:
            work.refuse(item.get("says"), f"{rule.id} names {{{name}}}, which is no word{or_meant(name, lexicon.names(scope))}")
            return None
    return rule.made_ready()


def _names_in(sentence):
    from string import Formatter

    try:
        parts = [part for part in Formatter().parse(sentence) if part[1] is not None]
    except ValueError:
        return ["unmatched brace"]
    return [name if not spec and conversion is None else f"{name} with a format" for _, name, spec, conversion in parts]


def _texts(node):
    if isinstance(node, Scalar):
        return (node.text,)
    return tuple(part.text for part in node.items) if isinstance(node, Sequence) else ()


def _conditions(node, scope, lexicon, work):
    """{word: [(test name, wanted)]} of a mapping of conditions; None after saying what is wrong."""
    if node is None:
        return {}
    sound, found = True, {}
    for entry in node.entries.values():
        word = entry.key.text
        dimension = lexicon.dimension(word, scope)
        if dimension is None:
            work.refuse(entry.key, f"{word} is no word that can be seen from the scope {scope}{or_meant(word, lexicon.names(scope))}")
            sound = False
            continue
        try:
            found[word] = _tests(entry.node, dimension, lexicon.choices(word, scope))
        except QuantityError as error:
            work.refuse(entry.node, f"{word}: {error.message} {error.fix}")
            sound = False
    return found if sound else None


def _tests(node, dimension, choices):
    if isinstance(node, Sequence):
        return [("one_of", tuple(_value(item, dimension, choices) for item in node.items))]
    if isinstance(node, Scalar):
        return [("one_of", (_value(node, dimension, choices),))]
    tests = []
    for entry in node.entries.values():
        name = entry.key.text
        if name in ("one_of", "none_of", "between"):
            tests.append((name, tuple(_value(item, dimension, choices) for item in entry.node.items)))
        elif name == "written":
            tests.append((name, entry.node.text.lower() in ("yes", "true")))
        else:
            if not dimension.numeric:
                raise QuantityError(f"a {str(dimension).replace('_', ' ')} cannot be compared by {name}.", "Use one_of or none_of.")
            tests.append((name, _value(entry.node, dimension, choices)))
    return tests


def _value(node, dimension, choices):
    if dimension.numeric:
        return read(node.text, str(dimension), "us" if dimension in ("count", "ratio", "fraction", "octane") else None)
    if dimension == "yes_no":
        return node.text.lower() in ("yes", "true")
    if dimension == "thread":
        thread = read_thread(node.text)
        if thread is None:
            raise QuantityError(f"{node.text!r} is no thread that can be read.", "Write it as 7/16-20 or M8x1.25.")
        return thread
    if dimension == "date":
        from datetime import date

        try:
            return date.fromisoformat(node.text)
        except ValueError as error:
            raise QuantityError(f"{node.text!r} is no date.", "Write 2026-03-05.") from error
    if choices and node.text not in map(str, choices):
        from .near_misses import either, for_choice, listed

        near = for_choice(node.text, choices)
        raise QuantityError(f"`{node.text}` is not one of its values.", f"Did you mean {either(near)}?" if near else f"Write one of: {listed(choices)}.")
    return node.text


def _verdict(values, when, require):
    """Open while a word of a condition is not known, else what the first requirement that is not met says."""
    for word, tests in when.items():
        for name, wanted in tests:
            if name == "written":
                if (values[word] is not None) != wanted:
                    return Verdict(NOT_APPLICABLE)
            elif values[word] is None:
                return Verdict(OPEN, missing=(word,))
            elif not _meets(values[word], name, wanted):
                return Verdict(NOT_APPLICABLE)
    missing = [word for word, tests in require.items() if values[word] is None and any(name != "written" for name, _ in tests)]
    passed = Verdict(PASS)
    for word, tests in require.items():
        for name, wanted in tests:
            if name == "written":
                if (values[word] is not None) != wanted:
                    return Verdict(FAIL, missing=(word,) if wanted else ()).at(word)
            elif values[word] is not None:
                limit = _limit(values[word], name, wanted)
                number = isinstance(values[word], (int, float)) and not isinstance(values[word], bool)
                if not _meets(values[word], name, wanted):
                    return Verdict(FAIL, None, values[word], limit, bound=BOUNDS.get(name, "")).at(word)
                if number and name in ("at_least", "at_most"):
                    demand, capacity = (wanted, values[word]) if name == "at_least" else (values[word], wanted)
                    passed = Verdict(PASS, None, values[word], limit, demand / capacity if capacity > 0 <= demand else None,
                                     BOUNDS[name])
    return Verdict(OPEN, missing=tuple(missing)) if missing else passed


def _limit(value, name, wanted):
    if name == "between":
        return wanted[0] if value < wanted[0] else wanted[1]
    return wanted[0] if isinstance(wanted, tuple) and len(wanted) == 1 else wanted


def _meets(value, name, wanted):
    if isinstance(value, (int, float)) and not isinstance(value, bool):
        scale = SAME * abs(value)
        if name == "at_least":
            return value >= wanted - scale
        if name == "at_most":
            return value <= wanted + scale
        if name == "between":
            return wanted[0] - scale <= value <= wanted[1] + scale
        same = any(abs(value - one) <= scale for one in wanted)
    elif isinstance(value, list):
        same = any(one in value for one in wanted)
    else:
        same = value in wanted
    return same if name == "one_of" else not same
