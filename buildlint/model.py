"""The plain types that every step of the road speaks in: places, nodes, problems, findings, reports.

No logic stands here, and nothing of the package is imported, so that everybody may import it.
"""

from typing import NamedTuple

LEVELS = ("error", "warning", "note")
STAGES = ("planning", "ordering", "machining", "mock_up", "assembly", "handover")

FAIL, PASS, OPEN, REVIEW, NOT_APPLICABLE = "fail", "pass", "open", "review", "notApplicable"
KINDS = (FAIL, OPEN, REVIEW, PASS, NOT_APPLICABLE)
NOTATION, DECISION = "notation", "decision"
MAXIMUM, MINIMUM, BAND, AGREEMENT = "maximum", "minimum", "band", "agreement"  # what a limit is to a value


class Place(NamedTuple):
    """A span of text. Lines and columns count from 1, columns in code points; the end is exclusive."""

    file: str
    line: int
    column: int
    end_line: int
    end_column: int


class Node:
    """A part of a spec with the place where it was written. Nodes are never changed once loaded."""

    __slots__ = ("place",)

    def __init__(self, place):
        self.place = place


class Scalar(Node):
    """One value as it stands in the file.

    ``text`` is the content exactly as written (quotes and folding removed), ``value`` its YAML 1.2 core
    meaning (str, int, float, bool or None), ``plain`` whether it stood without quotes.
    """

    __slots__ = ("text", "value", "plain")

    def __init__(self, place, text, value, plain):
        self.place = place
        self.text = text
        self.value = value
        self.plain = plain


class Sequence(Node):
    """A list of nodes."""

    __slots__ = ("items",)

    def __init__(self, place, items):
        self.place = place
        self.items = items


class Entry(NamedTuple):
    """One key of a mapping and what stands under it; ``chosen`` is the place that chose it, where a
    template or a catalogue part brought it in."""

    key: Scalar
    node: Node
    chosen: Place | None = None


class Mapping(Node):
    """Keys in the order written, each key once."""

    __slots__ = ("entries",)

    def __init__(self, place, entries):
        self.place = place
        self.entries = entries

    def get(self, key):
        entry = self.entries.get(key)
        return entry.node if entry else None


class Edit(NamedTuple):
    """A change to the text of a spec that would put a finding right.

    ``sort`` is NOTATION where the build stays what it is, DECISION where another one would be built. ``pointer``
    (RFC 6901) names the value, or with ``at_key`` its key; what it names need not be there yet. ``new`` is what to
    write, as YAML on one line; ``place`` is where the old stands, None where nothing does.
    """

    sort: str
    pointer: str
    new: str
    place: Place | None = None
    at_key: bool = False


class Problem(NamedTuple):
    """Something wrong with the text of a spec itself, found before any rule is asked.

    ``check`` is the id it is reported under, ``pointer`` an RFC 6901 pointer where one exists, ``related``
    a tuple of (what stands there, Place), ``edit`` the Edit that puts it right, where there is but one.
    """

    check: str
    message: str
    place: Place
    fix: str = ""
    level: str = "error"
    pointer: str = ""
    related: tuple = ()
    edit: Edit | None = None


class Finding(NamedTuple):
    """What one rule says about one scope. Every output is drawn from a list of these.

    ``level`` is error, warning or note when ``kind`` is fail, else "none". ``value`` and ``limit`` are
    shown in ``unit``, the builder's, and ``bound`` is what the limit is to the value. ``place`` may be None only
    for findings about no file.
    """

    rule: str
    area: str
    kind: str
    level: str
    scope: tuple
    message: str
    fix: str = ""
    value: object = None
    limit: object = None
    unit: str = ""
    utilization: float | None = None
    missing: tuple = ()
    place: Place | None = None
    pointer: str = ""
    related: tuple = ()
    permit: dict | None = None
    source: str = ""
    caution: str = ""
    due: str = ""
    edit: Edit | None = None
    bound: str = ""

    @property
    def counts(self):
        """Whether it is about pieces: a whole number held against another, without a unit."""
        return self.unit == "" and all(isinstance(one, (int, float)) and float(one).is_integer() for one in (self.value, self.limit))

    @property
    def has_margin(self):
        """Whether the use of its limit says how much room is left. A count that agrees leaves none and needs none."""
        if self.kind not in (FAIL, PASS) or self.utilization is None or self.utilization != self.utilization:
            return False
        return self.kind == FAIL or not self.counts


class Report(NamedTuple):
    """Everything the judge has to say about one spec, sorted, with every kind included.

    ``crashed`` lists the ids of rules that broke down: the check is then incomplete. ``inputs`` is what was looked
    at besides the spec, as (path, bytes): templates, catalogue files, the shop standard.
    """

    path: str
    name: str
    stage: str
    findings: tuple
    crashed: tuple = ()
    unlocks: tuple = ()
    inputs: tuple = ()
