"""The order sheet: every line with its count against what the engine takes, what waits for a measurement, and what is late.

All dates come from the spec; today is not asked.
"""

import datetime

from ..render.text import line
from ..tables.order_items import FOR_EACH_VALVE
from .source import in_words


def lines(build):
    """Rows of the order, in the order written; none where nothing is ordered yet."""
    rows = []
    for scope in build.spec.items:
        own = {word: value for word, value in scope.words.items()}
        waits = build.text("waits_for", scope) if "waits_for" in own else ""
        done = (build.datum("steps_done") or {}).get(build.datum("waits_for", scope)) if waits else None
        slack = scope.value("slack")
        ordered, needed = _pieces(build, scope)
        rows.append({
            "item": in_words(scope.name), "side": build.text("side", scope) if "side" in own else "",
            "part": build.text("part", scope) if "part" in own else "",
            "quantity": build.text("quantity", scope) if "quantity" in own else "not written",
            "set": build.text("per_set", scope) if "per_set" in own else "",
            "length": build.text("length", scope) if "length" in own else "",
            "needed": "" if needed is None else f"{needed:g}", "counts": _counts(ordered, needed),
            "waits": _waits(waits, done),
            "ordered": _day(scope, "goes_out_on"), "ready": _day(scope, "ready_on"), "wanted": _day(scope, "wanted_on"),
            "arrived": _day(scope, "arrived_on") if "arrived_on" in own else "",
            "order_by": _day(scope, "order_by"),
            "late": _late(slack), "where": build.where(scope.place),
        })
    return rows


def _waits(step, done):
    if not step:
        return ""
    return f"{step} (done {line(str(done))})" if done else f"{step} (not done yet)"


def _pieces(build, scope):
    """(ordered, taken by the engine) of one item in pieces, for one side where each side has lines of its own; None where not known."""
    needed, ordered = (value and value.data for value in map(scope.value, ("needed", "ordered_altogether")))
    side, same = build.datum("side", scope), [each for each in build.spec.items if each.name == scope.name]
    sides = [build.datum("side", each) for each in same]
    if needed is None or scope.name not in FOR_EACH_VALVE or not set(sides) <= {"intake", "exhaust"}:
        return ordered, needed
    of_side = [each for each, its in zip(same, sides) if its == side]
    return sum((build.datum("quantity", each) or 0) * (build.datum("per_set", each) or 1) for each in of_side), needed / 2


def _counts(ordered, needed):
    """How what is ordered stands against what the engine takes."""
    if needed is None or ordered is None:
        return ""
    if ordered < needed:
        return f"{needed - ordered:g} short"
    return "enough" if ordered == needed else f"{ordered - needed:g} spare"


def _day(scope, word):
    value = scope.value(word)
    return value.data.isoformat() if value is not None and isinstance(value.data, datetime.date) else ""


def _late(slack):
    if slack is None:
        return ""
    days = round(float(slack.data) / 86400)
    return f"{-days} days late" if days < 0 else f"{days} days in hand"
