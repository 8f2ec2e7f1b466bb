"""A library as a page that lists its specs, and a build sheet for each. Needs the extra ``report``.

What one spec gives is handed on as a line of JSON: its row of the list and its page; ``sheet.library`` writes both where they belong.
"""

import json

from . import stage_name, tally
from .text import line

BETWEEN = ""


def opening(wishes):
    return ""


def sheet(report, wishes):
    """The row and the page of one spec. The findings are those of the report, whatever was left out of it."""
    from .. import sheet as sheets
    from ..sheet import library, source

    build = source.read(report.path)
    build.report = report
    name = library.page_name(report.path)
    row = {"path": line(report.path), "name": line(report.name), "stage": stage_name(build.bench.stage), "page": name,
           **tally(report.findings)}
    return json.dumps({"row": row, "page": sheets.html(build, index=library.BACK)})


def closing(totals, wishes):
    return ""
