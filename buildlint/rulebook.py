"""What a rule is: the decorator that makes one, the verdicts it may return, and the loading of rule folders.

A rule is a function. Its positional parameters are words, looked up from the inside out; a parameter with
the default None is a word it can do without. Its keyword-only parameters are limits that a shop may change.
Nothing here runs a rule; that is the judge's work.
"""

from . import dimensions
from .dimensions import *  # noqa: F403 - rule modules take their annotations from here
from .model import AGREEMENT, BAND, DECISION, FAIL, LEVELS, MAXIMUM, MINIMUM, NOT_APPLICABLE, NOTATION, OPEN, PASS, REVIEW, STAGES
from .quantities import Amount, q

__all__ = [name for name in vars(dimensions) if name[0].isupper() and name not in ("Dimension", "Plain")] + [
    "rule", "q", "at_least", "at_most", "within", "one_of", "matches", "require", "review", "not_applicable",
    "lacking", "wanting", "passes", "given", "fitted", "Amount",
]

RULEBOOK = 1  # the shape of a rule; a folder of outside rules says which one it was written for
SAME = 1e-9  # equality across unit systems: 1 in and 25.4 mm must meet the same limit
NOISE = 1e-13  # what a difference of written figures is off by in SI, far below anything that is measured: a limit may be nothing

SCOPES = ("build", "side", "spring", "cylinder", "ring", "main_bearing", "rod_bearing", "cam_bearing", "bearing",
          "joint", "step", "item", "value")


class RulebookError(Exception):
    """A rule or formula that cannot be used as it is written; the message names file, rule and remedy."""


class Condition:
    """What a word must be for a rule to apply at all; see ``given`` and ``fitted``."""

    def __init__(self, text, test):
        self.text = text
        self.test = test


given = Condition("is written", lambda value: True)
fitted = Condition("is fitted", lambda value: value not in ("none", "not_done", False, 0))


class Rule:
    """One rule with everything that is known of it before it is asked."""

    __slots__ = ("id", "area", "scope", "level", "due", "says", "fix", "near", "source", "caution", "conforming",
                 "nonconforming", "when", "points_at", "compares", "was", "words", "optional", "limits",
                 "dimensions", "function", "file", "permits", "edit", "spared", "conditions", "asks", "alike")

    def __repr__(self):
        return f"<rule {self.id}>"

    def made_ready(self):
        """Lay out what the judge needs of a rule in the order it asks for it; called once, when all else is set.

        ``conditions`` are (word, test or None, allowed values), ``asks`` (word, whether the rule needs it),
        ``alike`` the findings that say the same in every spec.
        """
        self.conditions = tuple((word, wanted.test, None) if isinstance(wanted, Condition) else (word, None, wanted)
                                for word, wanted in self.when.items())
        self.asks = tuple((word, word not in self.optional) for word in self.words)
        self.alike = {}
        return self

    @property
    def why(self):
        """The rule's documentation: what it is for, where practice disagrees, why the default is what it is."""
        return self.function.__doc__ or ""


_collected = []


def rule(*, scope, level, due, says, fix, source, conforming, nonconforming=(), near="", when=None, points_at=(),
         compares=(), caution="", was=(), permits=True, edit=None, spared=()):
    """Make a rule of a function.

    scope         where it is asked: one of SCOPES
    level         the highest it may give: error, warning, note, or reminder (only a person can verify it)
    due           the stage by which it must be answerable
    says, fix     sentences with {words}, {limits}, {value}, {limit} and facts the verdict tells; {goal} is the mildest of
                  several limits, which a remedy names, and {name:up}, {name:down} what has to be rounded to the safe side
    near          what to say when the value is inside the limit but right at it
    when          {word: values or condition}: the rule applies only then; a missing word means open for a
                  tuple of values, and not applicable for ``given`` and ``fitted``
    points_at     words whose line a finding should name first; else the first parameter's
    compares      words whose written and computed value this rule compares, so that the general rule leaves them
    caution       printed where the work can hurt somebody
    permits       False where no permit may set the rule aside (safety)
    spared        duties of which the missing input is never overdue: what an engine put together as it was made keeps from its
                  maker is judged where it was measured, and not asked for
    edit          a change that can be made for the builder: (sort, word, what to write), where the sort is NOTATION or
                  DECISION and the text may name limits and facts the verdict tells in {}; the word "value" in the scope value
    """

    def make(function):
        code = function.__code__
        made = Rule()
        made.id = function.__name__.replace("_", "-")
        made.area = ""
        made.scope, made.level, made.due = scope, level, due
        made.says, made.fix, made.near, made.source, made.caution = says, fix, near, source, caution
        made.conforming, made.nonconforming = _texts(conforming), _texts(nonconforming)
        made.when = dict(when or {})
        made.points_at, made.compares, made.was = _texts(points_at), _texts(compares), _texts(was)
        made.words = code.co_varnames[: code.co_argcount]
        defaults = function.__defaults__ or ()
        made.optional = frozenset(made.words[len(made.words) - len(defaults):] if defaults else ())
        made.limits = dict(function.__kwdefaults__ or {})
        made.dimensions = {word: function.__annotations__.get(word) for word in made.words}
        made.function, made.file, made.permits, made.edit = function, code.co_filename, permits, edit
        made.spared = _texts(spared)
        _check_alone(made, function)
        _collected.append(made.made_ready())
        return function

    return make


def _texts(value):
    return (value,) if isinstance(value, str) else tuple(value)


def _check_alone(made, function):
    """Refuse what can be seen wrong without knowing the vocabulary."""

    def refuse(message):
        raise RulebookError(f"{made.file}: rule {made.id}: {message}")

    if made.scope not in SCOPES:
        refuse(f"scope {made.scope!r} is not one of {', '.join(SCOPES)}")
    if made.level not in (*LEVELS, "reminder"):
        refuse(f"level {made.level!r} is not error, warning, note or reminder")
    if made.due not in STAGES:
        refuse(f"due {made.due!r} is not a stage; write one of {', '.join(STAGES)}")
    if not made.source.strip():
        refuse("a source is needed; write 'common practice, no source' where there is none")
    if not (made.says.strip() and made.fix.strip() and (function.__doc__ or "").strip()):
        refuse("says, fix and a docstring that tells why are needed")
    if made.edit is not None and not (len(made.edit) == 3 and made.edit[0] in (NOTATION, DECISION)):
        refuse(f"edit is a triple: {NOTATION} or {DECISION}, a word, and what to write")
    code = function.__code__
    if code.co_kwonlyargcount != len(made.limits):
        refuse("every limit (keyword-only parameter) needs a default")
    if code.co_flags & 0x0C:
        refuse("no *args or **kwargs: every word and limit is named")
    if made.scope != "value":
        for word in made.words:
            if not isinstance(made.dimensions[word], dimensions.Dimension):
                refuse(f"parameter {word} needs a dimension as annotation, such as Length")
    if made.level != "reminder" and not made.nonconforming and made.scope != "value":
        refuse("a nonconforming example is needed: it is the rule's test")


class Verdict:
    """A rule's answer. Facts told by ``telling`` can be named in ``says`` and ``fix``."""

    __slots__ = ("kind", "level", "value", "limit", "utilization", "bound", "facts", "words", "says", "fix", "near", "missing", "goal")

    def __init__(self, kind, level=None, value=None, limit=None, utilization=None, bound="", near=False, missing=(), goal=None):
        self.kind, self.level, self.value, self.limit, self.utilization = kind, level, value, limit, utilization
        self.goal = limit if goal is None else goal  # the mildest of several limits: kept to, nothing is said any more
        self.bound, self.facts, self.words, self.says, self.fix = bound, {}, (), None, None
        self.near, self.missing = near, missing

    def comparing(self, value, wanted):
        """Show these two figures, which should agree, in the place of the difference that was judged."""
        self.value, self.limit, self.bound, self.goal = value, wanted, AGREEMENT, wanted
        return self

    def telling(self, **facts):
        """Give names to numbers or texts that ``says`` and ``fix`` may use."""
        self.facts.update(facts)
        return self

    def at(self, *words):
        """Point at the line of the first of these words that is written."""
        self.words = words
        return self

    def saying(self, says=None, fix=None):
        """Say something else than the rule's standing sentence in this case."""
        self.says, self.fix = says, fix
        return self

    def within_level(self, level):
        """Let a failure count no higher than ``level``: an estimate or an assumed strength bears no error."""
        if self.kind == FAIL and LEVELS.index(level) > LEVELS.index(self.level or LEVELS[0]):
            self.level = level
        return self


def _number(value, what):
    if value != value:
        raise ValueError(f"{what} is not a number")
    return value


def _tiers(limit, error, warning, note):
    """The limits in order of seriousness; a lone limit counts at the rule's own level (None)."""
    tiers = [(None, limit)] if limit is not None else []
    tiers += [(level, at) for level, at in zip(LEVELS, (error, warning, note)) if at is not None]
    if not tiers:
        raise ValueError("a limit is needed")
    return tiers


def at_most(value, limit=None, *, error=None, warning=None, note=None, near=None):
    """Pass when ``value`` is at most the limit; equality passes.

    Several limits may be given by level; the most serious that is broken counts. ``near`` is the share of
    the hardest limit (0.95) from which a passing value is reported, as a note, as right at the limit.
    """
    if error is warning is note is near is None and value <= limit:  # the way nearly every verdict goes
        return Verdict(PASS, None, value, limit, _share(value, limit), MAXIMUM)
    value = _number(value, "the value")
    tiers = _tiers(limit, error, warning, note)
    for level, at in tiers:
        if value > _number(at, "the limit") and value - at > max(SAME * max(abs(value), abs(at)), NOISE):
            return Verdict(FAIL, level, value, at, _share(value, at), MAXIMUM, goal=tiers[-1][1])
    hard, mild = tiers[0][1], tiers[-1][1]
    if near is not None and value >= near * hard * (1 - SAME):
        return Verdict(FAIL, "note", value, hard, _share(value, hard), MAXIMUM, near=True)
    return Verdict(PASS, None, value, mild, _share(value, mild), MAXIMUM)


def at_least(value, limit=None, *, error=None, warning=None, note=None, near=None):
    """Pass when ``value`` is at least the limit; equality passes. ``near`` as 1.05 reports up to 5 % above."""
    if error is warning is note is near is None and value >= limit:
        return Verdict(PASS, None, value, limit, _share(limit, value), MINIMUM)
    value = _number(value, "the value")
    tiers = _tiers(limit, error, warning, note)
    for level, at in tiers:
        if value < _number(at, "the limit") and at - value > max(SAME * max(abs(value), abs(at)), NOISE):
            return Verdict(FAIL, level, value, at, _share(at, value), MINIMUM, goal=tiers[-1][1])
    hard, mild = tiers[0][1], tiers[-1][1]
    if near is not None and value <= near * hard * (1 + SAME):
        return Verdict(FAIL, "note", value, hard, _share(hard, value), MINIMUM, near=True)
    return Verdict(PASS, None, value, mild, _share(mild, value), MINIMUM)


def _share(demand, capacity):
    """Demand over capacity, where both have a sense as such."""
    return demand / capacity if demand >= 0 and capacity > 0 else None


def within(value, low=None, high=None, *, error=None, warning=None, note=None):
    """Pass when ``value`` lies between low and high, both allowed; tiers are (low, high) pairs, either None.

    The utilization is the share of the half band used, 1 at either end, where both ends are given.
    """
    value = _number(value, "the value")
    band = None if low is None and high is None else (low, high)
    tiers = _tiers(band, error, warning, note)
    least, most = tiers[0][1]
    utilization = None
    if least is not None and most is not None and most > least:
        utilization = abs(value - (least + most) / 2) / ((most - least) / 2)
    for level, (least, most) in tiers:
        slack = max(SAME * max(abs(value), abs(least or 0), abs(most or 0)), NOISE)
        if least is not None and value < least and least - value > slack:
            return Verdict(FAIL, level, value, least, utilization, BAND, goal=_innermost(tiers, 0)).telling(side="below")
        if most is not None and value > most and value - most > slack:
            return Verdict(FAIL, level, value, most, utilization, BAND, goal=_innermost(tiers, 1)).telling(side="above")
    least, most = tiers[0][1]
    nearest = most if least is None or (most is not None and abs(most - value) < abs(value - least)) else least
    return Verdict(PASS, None, value, nearest, utilization, BAND)


def _innermost(tiers, end):
    """The mildest of the bands' lower (0) or upper (1) ends that is given."""
    return next(band[end] for _, band in reversed(tiers) if band[end] is not None)


def one_of(value, allowed, level=None):
    """Pass when ``value`` is one of ``allowed``."""
    good = value in allowed
    return Verdict(PASS if good else FAIL, None if good else level, value, tuple(allowed))


def matches(value, wanted, *, tolerance=0.0, relative=0.0, level=None):
    """Pass when two values are the same: texts to the letter, numbers within ``tolerance`` (SI) or ``relative``."""
    if isinstance(value, (int, float)) and isinstance(wanted, (int, float)) and not isinstance(value, bool):
        _number(value, "the value"), _number(wanted, "the wanted value")
        slack = max(tolerance, relative * abs(wanted), SAME * max(abs(value), abs(wanted)))
        difference = abs(value - wanted)
        allowed = max(tolerance, relative * abs(wanted))
        good = difference <= slack * (1 + SAME)
        return Verdict(PASS if good else FAIL, None if good else level, value, wanted,
                       difference / allowed if allowed > 0 else None, AGREEMENT)
    good = value == wanted
    return Verdict(PASS if good else FAIL, None if good else level, value, wanted)


def require(condition, level=None):
    """Pass when the condition holds."""
    return Verdict(PASS if condition else FAIL, None if condition else level)


def passes():
    """Say plainly that there is nothing to report."""
    return Verdict(PASS)


def review():
    """Only a person can verify this; it stays listed until it is signed under assembly.signed."""
    return Verdict(REVIEW)


def not_applicable(reason=""):
    """The part or the case this rule is about is not there."""
    return Verdict(NOT_APPLICABLE).saying(reason or None)


def lacking(*words):
    """The answer hangs on words that are not known."""
    return Verdict(OPEN, missing=words)


def wanting(*words):
    """These words must be written by the stage the rule is due: open before it, a failure of the rule from it on."""
    verdict = Verdict(FAIL, missing=words)
    return verdict.at(*words)


def load_folder(folder, prefix, flat=None):
    """Load every rule module below ``folder``, one folder for each area, in the order of their names.

    ``prefix`` is the import name of the folder, ``flat`` the area of modules in the folder itself, if they count. Returns the list of rules. Raises RulebookError naming the
    file for a module that cannot be imported, a rule without the necessary, or an id that stands twice.
    """
    import sys
    from importlib.util import module_from_spec, spec_from_file_location

    rules = []
    for path in sorted([*(folder.glob("*.py") if flat else ()), *folder.glob("*/*.py")]):
        if path.name.startswith("_"):
            continue
        area = flat if path.parent == folder else path.parent.name
        name = f"{prefix}.{area}.{path.stem}"
        _collected.clear()
        try:
            specification = spec_from_file_location(name, path)
            module = module_from_spec(specification)
            sys.modules[name] = module
            specification.loader.exec_module(module)
        except RulebookError:
            raise
        except (Exception, SystemExit) as error:
            raise RulebookError(f"{path}: cannot be loaded: {type(error).__name__}: {error}") from error
        for made in _collected:
            made.area = area
        rules += _collected
    _collected.clear()
    return rules


def refuse_twins(rules):
    """Raise RulebookError where an id, or an old id, stands twice."""
    seen = {}
    for made in rules:
        for identifier in (made.id, *made.was):
            if identifier in seen:
                raise RulebookError(f"{made.file}: rule {identifier} already stands in {seen[identifier]}")
            seen[identifier] = made.file
