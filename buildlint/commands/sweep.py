"""Parts and values on trial."""

import os

import click

from ..model import LEVELS, STAGES
from . import (
    FINE, FOUND, UNWRAPPED, CannotStart, Choice, Progress, color_option, put, road_with, rules_option,
    two_formats_option, wishes,
)


@click.command(short_help="Try parts and values: which of them suit each other.", epilog=f"""{UNWRAPPED}
Examples:
  buildlint sweep builds/street.yaml --vary rockers.ratio=1.6,1.7 --vary "pushrods.wall=0.080 in,0.105 in"
  buildlint sweep builds/street.yaml --vary intake.spring.part,exhaust.spring.part=all

Exit status: 0 some combination has nothing at the level or above, 1 none is that good.""")
@click.argument("spec")
@click.option("--vary", "choices", multiple=True, required=True, metavar="PATH=VALUE,...",
              help="A value of the spec and what to try for it; for a part also all, every one in the catalogue. "
                   "PATH,PATH=... sets several alike. May be given several times.")
@click.option("--without", multiple=True, metavar="PATH", help="Leave out what the spec writes there, so that a part's own figure counts.")
@click.option("--level", type=Choice(LEVELS), default="warning", show_default=True,
              help="The level from which a finding spoils a combination.")
@click.option("--stage", type=Choice(STAGES), help="Judge as if the build were at this stage.")
@click.option("--most", type=click.IntRange(min=1), metavar="N", help="Show the N best combinations.  [default: 20]")
@click.option("--workers", type=click.IntRange(1, 64), metavar="N", help="How many processes share the work.  [default: by the number of combinations]")
@rules_option
@two_formats_option
@color_option
def sweep(spec, choices, without, level, stage, most, workers, rules, form, color):
    """Try parts and values in SPEC: which combinations suit each other, and what speaks against the others."""
    from .. import sweep as what_if
    from ..render import trials

    road = road_with(rules)
    if spec == "-" or os.path.isdir(spec):
        raise CannotStart("parts are tried in one spec: name its file")
    try:
        found = what_if.sweep(spec, [what_if.axis(choice) for choice in choices], stage, workers, without=without,
                              progress=Progress("tried {number} of {count} combinations"))
    except (road.CannotStart, what_if.NotUnderstood) as error:
        raise CannotStart(str(error)) from error
    put(trials.as_json(found) if form == "json" else trials.sheet(found, wishes(color, most), level))
    return FINE if any(trials.is_good(trial, level) for trial in found.trials) else FOUND
