"""The outputs. A format is a module of pure functions that turn reports into text; none prints or writes.

    opening(wishes) -> str             what stands before the first sheet
    sheet(report, wishes) -> str       one spec; may be empty
    BETWEEN                            what stands between two sheets that are not empty
    closing(totals, wishes) -> str     what stands after the last, from the ``totals.Totals`` of the run

A new format is a module with these and a line in FORMATS.
"""

from typing import NamedTuple

from ..model import FAIL, LEVELS, NOT_APPLICABLE, OPEN, PASS, REVIEW
from .text import counted, joined, line

FORMATS = {"terminal": "terminal", "lines": "lines", "json": "json_report", "sarif": "sarif", "junit": "junit",
           "markdown": "markdown", "annotations": "annotations", "quality": "quality", "summary": "summary"}

# Formats that write more than one file, and so need the name of one; reached like the others.
WITH_PAGES = {"html": "html"}

# In the order in which an engine is assembled; what is wrong with the file itself comes before all of them.
AREAS = ("general", "short_block", "compression", "valvetrain", "joints", "sealing", "air_and_fuel", "ignition",
         "cooling", "boost", "exhaust", "accessories", "assembly", "order")

COUNTS = ("error", "warning", "note", "permitted", OPEN, REVIEW, PASS, NOT_APPLICABLE)


class Wishes(NamedTuple):
    """How a person wants to read it: cells across, color, at most how many findings, every answer listed."""

    width: int = 80
    color: bool = False
    most: int | None = None
    every: bool = False


def module(name):
    """Return the module of a format by its name in FORMATS or WITH_PAGES; heavy libraries load only with their format."""
    from importlib import import_module

    return import_module(f"{__name__}.{FORMATS.get(name) or WITH_PAGES[name]}")


def counted_as(finding):
    """Return the name under which a finding is counted: its level if it failed, else its kind."""
    if finding.kind != FAIL:
        return finding.kind
    return "permitted" if finding.permit else finding.level


def tally(findings):
    """Return how many findings there are of each sort, as a mapping with all of COUNTS in that order."""
    counts = dict.fromkeys(COUNTS, 0)
    for finding in findings:
        counts[counted_as(finding)] += 1
    return counts


def counts_in_words(totals):
    """Return the counts as a sentence."""
    found = [counted(totals[level], level) for level in LEVELS if totals[level]]
    also = [
        (totals["permitted"], "allowed by permit"), (totals.get("known", 0), "known before"),
        (totals[REVIEW], "to be signed"), (totals[OPEN], "still open"),
        (totals[PASS], "good"), (totals[NOT_APPLICABLE], "not for this build")]
    rest = [f"{number:,} {what}" for number, what in also if number]
    sentence = joined(found) if found else "nothing to put right"
    sentence = sentence[0].upper() + sentence[1:]
    return f"{sentence}; {joined(rest)}." if rest else f"{sentence}."


def reasons(unchecked):
    """Return [(sentences, paths)] of the specs that could not be checked, each reason once."""
    found = {}
    for path, why in unchecked:
        found.setdefault(why, []).append(path)
    return [(why.split("\n"), paths) for why, paths in found.items()]


def not_checked(number):
    """Return how many specs were not checked, as a sentence."""
    return f"{counted(number, 'spec')} {'is' if number == 1 else 'are'} not checked."


def lean_on(number):
    """Return how many specs lean on a file, as a sentence."""
    return f"{counted(number, 'spec')} {'leans' if number == 1 else 'lean'} on this file."


def by_area(findings):
    """Return [(area, findings)] in the order of assembly; areas that are not of an engine come first."""
    areas = {}
    for finding in findings:
        areas.setdefault(finding.area, []).append(finding)
    return sorted(areas.items(), key=lambda pair: (AREAS.index(pair[0]) if pair[0] in AREAS else -1, pair[0]))


def stage_name(stage):
    """Return a stage as it is spoken: mock-up."""
    return line(stage.replace("_", "-"))


def area_name(area):
    return line(area.replace("_", " ")) if area in AREAS else "the spec itself"
