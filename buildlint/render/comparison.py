"""The sheet and the JSON of a comparison of two specs."""

from ..model import LEVELS
from .json_report import encoded, told
from .page import LEVEL_STYLES, Page
from .text import counted, joined, line, scope


def sheet(comparison, wishes):
    """Return what changed: in the spec, in the numbers that follow, in the findings."""
    page = Page(wishes.width, wishes.color)
    page.ends(line(comparison.old), f"to {line(comparison.new)}", "bold")
    for title, changes in (("Written differently", comparison.written), ("Follows differently", comparison.follows)):
        if changes:
            page.heading(title)
        for change in changes:
            where = f"{scope(change.scope)}: " if change.scope else ""
            before = line(change.before) if change.before is not None else "not known"
            after = line(change.after) if change.after is not None else "no longer known"
            page.paragraph(f"{where}{line(change.word).replace('_', ' ')}: {before} -> {after}", indent=2)
    for title, findings in (("Findings that came", comparison.new_findings), ("Findings that went", comparison.gone)):
        if findings:
            page.heading(title)
        for finding in findings:
            where = f"{scope(finding.scope)}: " if finding.scope else ""
            page.labelled(finding.level, f"{where}{line(finding.message)} {line(finding.rule)}", LEVEL_STYLES[finding.level])
    page.gap()
    page.paragraph(_counts(comparison), "bold")
    return page.finished()


def _counts(comparison):
    parts = [f"{counted(len(comparison.written), 'value')} written differently", f"{counted(len(comparison.follows), 'number')} that follow",
             f"{counted(len(comparison.new_findings), 'finding')} came", f"{len(comparison.gone)} went", f"{len(comparison.same)} stayed"]
    return joined(parts) + "."


def as_json(comparison):
    """Return the comparison as one JSON object."""
    return encoded({
        "old": comparison.old, "new": comparison.new,
        "written": [_change(change) for change in comparison.written], "follows": [_change(change) for change in comparison.follows],
        "came": [told(finding) for finding in comparison.new_findings], "went": [told(finding) for finding in comparison.gone],
        "stayed": len(comparison.same)}) + "\n"


def _change(change):
    return {"scope": list(change.scope), "word": change.word, "before": change.before, "after": change.after}


def came_at(comparison, level):
    """Whether a finding that counts at the level or above came with the new spec."""
    counting = LEVELS[: LEVELS.index(level) + 1]
    return any(finding.level in counting and not finding.permit for finding in comparison.new_findings)
