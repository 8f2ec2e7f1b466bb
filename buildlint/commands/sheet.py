"""The build sheet."""

import os

import click

from ..render.text import joined
from . import FINE, INCOMPLETE, UNWRAPPED, CannotStart, Choice, road_with, rules_option, say, underway


@click.command(short_help="Write the build sheet to print, pin up and sign.", epilog=f"""{UNWRAPPED}
Examples:
  buildlint sheet builds/street.yaml
  buildlint sheet builds/street.yaml --to sheets --only pdf
  buildlint sheet builds/street.yaml --derivations

Exit status: 0 written, whatever was found; 2 could not start, 3 incomplete.""")
@click.argument("spec")
@click.option("--to", metavar="FOLDER", help="The folder to write to.  [default: beside the spec]")
@click.option("--only", type=Choice(("html", "pdf")), help="Write only this one of the two.")
@click.option("--derivations", is_flag=True, help="Print how each number came about too: twice the pages.")
@rules_option
def sheet(spec, to, only, derivations, rules):
    """Write the build sheet of SPEC: the page that is printed, pinned to the engine stand and signed.

    It is SPEC_build_sheet.html, self-contained, and SPEC_build_sheet.pdf.
    """
    from .. import sheet as sheets

    lacking = sheets.lacking(pdf=only != "html")
    if lacking:
        raise CannotStart(f"a build sheet needs {joined(lacking)}: pip install 'buildlint[report]'")
    if spec == "-" or os.path.isdir(spec):
        raise CannotStart("a build sheet is made of one spec: name its file")
    folder = to if to is not None else os.path.dirname(spec)
    if folder and not os.path.isdir(folder):
        raise CannotStart(f"{folder} is no folder; make it first, or name another one")
    road = road_with(rules)
    from ..deliver import CannotWrite
    from ..sheet import paper, source, written

    try:
        build = source.read(spec)
        with underway(f"drawing and laying out {'the page' if only == 'html' else 'the pages; a PDF takes some seconds'}"):
            names = written.sheet(build, folder, only, derivations)
    except (road.CannotStart, paper.NoPrinter) as error:
        raise CannotStart(str(error)) from error
    except CannotWrite as error:
        say(str(error))
        return INCOMPLETE
    say(f"written: {joined(names)}")
    return INCOMPLETE if build.report.crashed else FINE
