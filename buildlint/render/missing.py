"""What is not written: the part of a sheet that says what is overdue, what waits for it, and what to write first."""

from ..model import LEVELS
from . import area_name, by_area
from .page import LEVEL_STYLES
from .text import counted, joined, line, place

RULE = "due-inputs-are-written"  # under this id the judge reports each input that is due
UNLOCKS = 6  # the few inputs that would settle most
HEADING_ALONE = 3  # more missing inputs than this under one heading are told as the heading


def due(page, findings, waiting):
    """Inputs that should be written by now, gathered by the heading under which they belong."""
    if not findings:
        return
    page.heading("not written, and due by now")
    page.paragraph(RULE, "dim", indent=2)
    page.gap()
    groups = {}
    for finding in findings:
        groups.setdefault((LEVELS.index(finding.level), finding.place), []).append(finding)
    for (rank, spot), members in sorted(groups.items(), key=lambda group: group[0][0]):
        paths = list(dict.fromkeys(path for finding in members for path in finding.missing))
        rules = {finding.rule for finding in waiting if _asks_for(finding, paths)}
        level = LEVELS[rank]
        page.labelled(level, _under_one_heading(paths), LEVEL_STYLES[level])
        told = [counted(len(rules), "rule waits", "rules wait")] if rules else []
        page.labelled("", ", ".join([*told, *([place(spot)] if spot else [])]), style="dim")
        page.gap()


def _asks_for(finding, paths):
    """Whether an open finding waits for one of these inputs, or for something under one of these headings."""
    return any(missing == path or missing.startswith(f"{path}.") for missing in finding.missing for path in paths)


def _under_one_heading(paths):
    """Return dotted paths in few words: joints.head: torque, washer.kind."""
    if not any("." in path for path in paths):
        return f"nothing yet under {joined(map(line, paths))}"
    steps = [path.split(".") for path in paths]
    shared = 0
    while len(steps) > 1 and all(each[: shared + 1] == steps[0][: shared + 1] != each for each in steps):
        shared += 1
    if not shared:
        return joined(map(line, paths))
    return f"{line('.'.join(steps[0][:shared]))}: {joined(line('.'.join(each[shared:])) for each in steps)}"


def waiting(page, findings, unlocks):
    """What could not be judged, and what to write first."""
    if not findings:
        return
    page.heading("not known yet")
    for paths, settled in unlocks[:UNLOCKS]:
        page.paragraph(f"Add {joined(map(line, paths))} to settle {counted(settled, 'rule')}.", indent=2)
    page.gap()
    for area, members in by_area(findings):
        rules = len({finding.rule for finding in members})
        inputs = sorted({path for finding in members for path in finding.missing})
        for_what = f" for {joined(_by_heading(inputs))}" if inputs else ""
        text = f"{counted(rules, 'rule waits', 'rules wait')}{for_what}"
        page.paragraph(f"{area_name(area).capitalize()}: {text}.", "dim", indent=2)


def _by_heading(inputs):
    """Return the inputs in few words: many under one heading are told as the heading with their number."""
    headings = {}
    for path in inputs:
        headings.setdefault(path.partition(".")[0], []).append(path)
    for heading, paths in headings.items():
        if len(paths) > HEADING_ALONE:
            yield f"{line(heading)} ({len(paths)} inputs)"
        else:
            yield from map(line, paths)
