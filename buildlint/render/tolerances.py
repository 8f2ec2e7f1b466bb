"""The sheet and the JSON of a tolerance study: what is lost at the worst, what comes nearest, and what moves it."""

from ..model import LEVELS
from ..quantity_display import default_unit, in_unit, show
from . import stage_name
from .json_report import encoded, number, told
from .measured import pair
from .page import LEVEL_STYLES, Page
from .text import counted, joined, line, scope

SHOWN = 12  # margins that hold, where no other number is asked for
MOVERS = 4


def sheet(spread, wishes):
    """Return the tolerance study as a page."""
    page = Page(wishes.width, wishes.color)
    page.ends(line(spread.path), f"at {stage_name(spread.stage)}", "bold")
    page.paragraph(f"{counted(len(spread.inputs), 'written value')} with a tolerance, not measured yet", "dim")
    if not spread.inputs:
        page.gap()
        page.paragraph("Write a tolerance as 9.025 in +/- 0.001 in, or a range as 0.039..0.043 in.")
        return page.finished()
    if spread.lost:
        page.heading("Good as planned, not at the worst")
    for margin in spread.lost:
        finding = margin.worst
        where = f"{scope(finding.scope)}: " if finding.scope else ""
        page.labelled(finding.level, f"{where}{line(finding.message)}", LEVEL_STYLES[finding.level])
        page.labelled("", _use(margin), beside=False)
        page.labelled("moved by", _movers(margin.movers), "bold")
        page.labelled("remedy", f"Hold the first of these closer, or: {line(finding.fix)}", "bold")
        page.labelled("", line(finding.rule), beside=False)
        page.gap()
    kept = _alike(spread.kept)
    shown = kept[:wishes.most or SHOWN]
    if shown:
        page.heading("Good even at the worst, the nearest to its limit first")
    for margins in shown:
        margin = margins[0]
        where = joined(scope(one.worst.scope) for one in margins if one.worst.scope)
        page.labelled(f"{margin.worst.utilization:.0%}", f"{line(margin.worst.rule)}{where and f' ({where})'}{pair(margin.worst)}; "
                                                        f"{_use(margin)}; moved by {_movers(margin.movers)}")
    if len(kept) > len(shown):
        page.labelled("", f"and {len(kept) - len(shown)} more")
    page.gap()
    page.paragraph(_last(spread), "bold")
    return page.finished()


def _alike(margins):
    """Lists of the margins of one rule that are the same in several scopes."""
    groups = {}
    for margin in margins:
        alike = margin.worst.rule, f"{margin.planned.utilization:.6g}", f"{margin.worst.utilization:.6g}", pair(margin.worst)
        groups.setdefault(alike, []).append(margin)
    return list(groups.values())


def _use(margin):
    uses = [(margin.planned.utilization, "as planned"), (margin.likely, "likely"), (margin.worst.utilization, "at the worst")]
    told_uses = [f"{use * 100:.0f} % {what}" for use, what in uses if use is not None]
    return f"of the limit {', '.join(told_uses)}" if told_uses else "at one end of a tolerance"


def _movers(movers):
    shown = [f"{line(word).replace('_', ' ')} ({share:.0%})" for word, share in movers[:MOVERS]]
    more = [f"{len(movers) - MOVERS} more"] if len(movers) > MOVERS else []
    return joined([*shown, *more]) or "nothing"


def _last(spread):
    lost = [counted(sum(margin.worst.level == level for margin in spread.lost), level) for level in LEVELS
            if any(margin.worst.level == level for margin in spread.lost)]
    told_lost = f"{joined(lost)} more at the worst" if lost else "Every limit that holds as planned holds at the worst"
    failing = sum(finding.level != "note" for finding in spread.failing)
    already = f"; {counted(failing, 'finding')} already as planned: buildlint check {line(spread.path)}" if failing else ""
    return f"{told_lost}{already}."


def ranges_sheet(ranges, wishes):
    """Return what becomes of a word as a page."""
    page = Page(wishes.width, wishes.color)
    for one in ranges:
        where = f"{scope(one.scope)}: " if one.scope else ""
        page.paragraph(f"{where}{line(one.word).replace('_', ' ')} {_shown(one, one.planned)}", "bold")
        page.labelled("likely", f"{_shown(one, one.likely[0])} to {_shown(one, one.likely[1])} (root of the sum of squares)")
        page.labelled("at worst", f"{_shown(one, one.worst[0])} to {_shown(one, one.worst[1])}")
        page.labelled("moved by", _movers(one.movers))
        page.gap()
    return page.finished()


def _shown(one, value):
    return show(value, one.dimension, one.unit or default_unit(one.dimension, "us", value))


def as_json(spread):
    """Return the tolerance study as one JSON object."""
    return encoded({
        "spec": spread.path, "stage": spread.stage,
        "inputs": [{"word": one.word, "pointer": one.pointer, "text": one.text} for one in spread.inputs],
        "lost": [_margin(margin) for margin in spread.lost], "kept": [_margin(margin) for margin in spread.kept]}) + "\n"


def _margin(margin):
    return {"worst": told(margin.worst), "utilization": {
        "planned": number(margin.planned.utilization), "likely": number(margin.likely), "worst": number(margin.worst.utilization)},
        "moved_by": [{"word": word, "share": number(share)} for word, share in margin.movers]}


def ranges_json(ranges):
    """Return what becomes of a word as a JSON list, one object for each scope; numbers in ``unit``."""
    return encoded([{
        "word": one.word, "scope": list(one.scope), "unit": one.unit, "planned": _in_unit(one, one.planned),
        "likely": [_in_unit(one, end) for end in one.likely], "worst": [_in_unit(one, end) for end in one.worst],
        "moved_by": [{"word": word, "share": number(share)} for word, share in one.movers]} for one in ranges]) + "\n"


def _in_unit(one, value):
    return number(in_unit(value, one.dimension, one.unit) if one.unit else value)
