"""Tolerances at either end."""

import os

import click

from ..model import LEVELS, STAGES
from ..render.text import line
from . import (
    FINE, FOUND, UNWRAPPED, CannotStart, Choice, color_option, nearest, put, road_with, rows_named, rules_option,
    two_formats_option, wishes,
)


@click.command(short_help="Tell what the tolerances of a spec do to its limits.", epilog=f"""{UNWRAPPED}
Examples:
  buildlint spread builds/street.yaml
  buildlint spread builds/street.yaml quench_gap

Exit status: 0 what holds as planned holds at the worst, 1 something at the level or above does not.""")
@click.argument("spec")
@click.argument("word", required=False)
@click.option("--level", type=Choice(LEVELS), default="warning", show_default=True,
              help="The level from which a limit that is lost makes the exit status 1.")
@click.option("--stage", type=Choice(STAGES), help="Judge as if the build were at this stage.")
@click.option("--most", type=click.IntRange(min=1), metavar="N", help="Show the N nearest margins that hold.  [default: 12]")
@rules_option
@two_formats_option
@color_option
def spread(spec, word, level, stage, most, rules, form, color):
    """Put the values of SPEC that carry a tolerance at their ends: which limits still hold; with a WORD, where it comes to lie."""
    from .. import spread as study
    from ..render import tolerances

    road = road_with(rules)
    if spec == "-" or os.path.isdir(spec):
        raise CannotStart("tolerances are studied in one spec: name its file")
    try:
        if word is not None:
            return _word_spread(study, tolerances, road, spec, word, stage, form, wishes(color))
        found = study.spread(spec, stage)
    except (road.CannotStart, study.TooMany) as error:
        raise CannotStart(str(error)) from error
    put(tolerances.as_json(found) if form == "json" else tolerances.sheet(found, wishes(color, most)))
    counting = LEVELS[: LEVELS.index(level) + 1]
    return FOUND if any(margin.worst.level in counting for margin in found.lost) else FINE


def _word_spread(study, tolerances, road, spec, word, stage, form, seen):
    """Tell where one word comes to lie."""
    from ..render import listing

    rows = rows_named(word, listing.rows_of_words(road.words(), road.ways(), road.rules()))
    if not rows:
        known = [name for _, name in road.words().words] + list(road.ways())
        raise CannotStart(f"there is no word {line(word)}.{nearest(word, dict.fromkeys(known))} The list: buildlint words")
    found = study.ranges(spec, word, stage) or study.ranges(spec, rows[0].word, stage)
    if not found:
        raise CannotStart(f"{line(spec)} does not give {line(word)} as a number; what it needs is told by: buildlint explain {line(word)}")
    put(tolerances.ranges_json(found) if form == "json" else tolerances.ranges_sheet(found, seen))
    return FINE
