"""Two specs beside each other."""

import click

from ..model import LEVELS
from . import (
    FINE, FOUND, UNWRAPPED, CannotStart, Choice, color_option, put, road_with, rules_option, two_formats_option,
    wishes,
)


@click.command(short_help="Tell what changed from one spec to another.", epilog=f"""{UNWRAPPED}
Examples:
  buildlint compare builds/quoted.yaml builds/ordered.yaml
  buildlint compare builds/quoted.yaml builds/ordered.yaml --format json

Exit status: 0 no finding at or above the level came with NEW, 1 one did.""")
@click.argument("old")
@click.argument("new")
@click.option("--level", type=Choice(LEVELS), default="warning", show_default=True,
              help="The level from which a finding that came makes the exit status 1.")
@rules_option
@two_formats_option
@color_option
def compare(old, new, level, rules, form, color):
    """Tell what changed from OLD to NEW: in the spec, in the numbers that follow, in the findings."""
    from .. import compare as sides
    from ..render import comparison

    road = road_with(rules)
    try:
        found = sides.compare(old, new)
    except road.CannotStart as error:
        raise CannotStart(str(error)) from error
    put(comparison.as_json(found) if form == "json" else comparison.sheet(found, wishes(color)))
    return FOUND if comparison.came_at(found, level) else FINE
