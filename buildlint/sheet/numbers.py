"""Every computed number with the sentence of its formula, what went in and where that comes from, to be checked by hand."""

from ..render.text import line
from .source import in_words, scope_in_words, span, told


def computed(build):
    """([(scope in words, rows)], {id of a Value: anchor}): all numbers that follow from the spec, each where it is known.

    A part tells only what differs from the part it lies in.
    """
    sections, anchors = [], {}
    for scope in build.spec.scopes:
        rows = []
        for word in build.bench.ways:
            value = scope.value(word)
            if value is None or value.formula is None or not _tellable(value):
                continue
            if scope.parent is not None:
                outer = scope.parent.value(word)
                if outer is not None and (outer is value or outer.data == value.data):
                    continue
            anchor = f"number-{len(anchors) + 1}"
            anchors[id(value)] = anchor
            rows.append(_row(build, value, anchor))
        if rows:
            sections.append((in_words(scope_in_words(scope.label)) or "The engine", rows))
    return sections, anchors


def _tellable(value):
    return isinstance(value.data, (int, float, str)) or getattr(value.dimension, "numeric", False)


def _row(build, value, anchor):
    spread = span(build, value) if getattr(value.dimension, "numeric", True) else None
    return {
        "anchor": anchor, "word": line(value.word), "label": in_words(value.word), "text": build.shown(value),
        "spread": "" if spread is None or spread[0] == spread[1] else f"{spread[0]} to {spread[1]} over {spread[2]}",
        "sentence": line(value.formula.sentence), "source": line(value.formula.source),
        # one text, not a box for each: a page with thousands of boxes takes minutes to be laid out for print
        "inputs": "; ".join(_input(build, each) for each in value.inputs),
    }


def _input(build, value):
    where = build.where(value.place) if value.formula is None else "computed"
    told_so = f"{in_words(value.word).lower()} {_short(told(build, value))}"
    return f"{told_so} ({where})" if where else told_so


def _short(text, most=120):
    return text if len(text) <= most else f"{text[:most]} ... ({len(text) - most} more characters)"
