"""The list of words."""

import click

from ..render.text import joined, line
from . import FINE, UNWRAPPED, CannotStart, color_option, list_format_option, nearest, put, road_with, wishes


@click.command(short_help="List the words of a spec.", epilog=f"""{UNWRAPPED}
Examples:
  buildlint words --scope side
  buildlint words spring
  buildlint words --format json""")
@click.argument("part", required=False)
@click.option("--scope", metavar="SCOPE", help="build, side, spring, ring, bearing, joint, step or item.")
@list_format_option
@color_option
def words(part, scope, form, color):
    """List the words of a spec, or those that have PART in their name."""
    from ..render import listing

    road = road_with()
    rows = listing.rows_of_words(road.words(), road.ways(), road.rules())
    scopes = dict.fromkeys(row.scope for row in rows if row.scope)
    if scope is not None and scope not in scopes:
        raise CannotStart(f"{scope} is not a scope; there are {joined(scopes)}.{nearest(scope, scopes)}")
    found = [row for row in rows if scope in (None, row.scope) and (part or "") in row.word]
    if not found:
        where = f" of the scope {scope}" if scope is not None else ""
        raise CannotStart(f"no word{where} has {line(part)} in it.{_nearest_part(part, [row.word for row in rows])}")
    rows = found
    if form == "json":
        put(listing.words_json(rows))
    elif form == "lines":
        put(listing.words_lines(rows))
    else:
        put(listing.words_sheet(rows, wishes(color)))
    return FINE


def _nearest_part(part, words):
    """Return a question for a part of a word that was probably misspelt: parts of words that are near to it."""
    return nearest(part, dict.fromkeys([piece for word in words for piece in word.split("_")] + words))
