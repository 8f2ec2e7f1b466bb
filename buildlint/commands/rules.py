"""The list of rules."""

import click

from ..model import LEVELS, STAGES
from ..render import AREAS
from ..render.text import joined
from . import (
    FINE, UNWRAPPED, CannotStart, Choice, color_option, list_format_option, nearest, put, road_with, rules_option,
    wishes,
)


@click.command(epilog=f"""{UNWRAPPED}
Examples:
  buildlint rules --area valvetrain --level error
  buildlint rules --format json""")
@click.option("--area", type=Choice(AREAS))
@click.option("--level", type=Choice((*LEVELS, "reminder")))
@click.option("--due", type=Choice(STAGES))
@click.option("--scope", metavar="SCOPE", help="Where a rule is asked: build, side, cylinder, joint, ...")
@rules_option
@list_format_option
@color_option
def rules(area, level, due, scope, rules, form, color):
    """List the rules."""
    from ..render import listing

    known = road_with(rules).rules()
    scopes = dict.fromkeys(rule.scope for rule in known)
    if scope is not None and scope not in scopes:
        raise CannotStart(f"{scope} is not a scope; there are {joined(scopes)}.{nearest(scope, scopes)}")
    chosen = sorted(
        (rule for rule in known
         if area in (None, rule.area) and level in (None, rule.level) and due in (None, rule.due)
         and scope in (None, rule.scope)),
        key=lambda rule: (AREAS.index(rule.area) if rule.area in AREAS else len(AREAS), rule.area, rule.id))
    if form == "json":
        put(listing.rules_json(chosen))
    elif form == "lines":
        put(listing.rules_lines(chosen))
    else:
        put(listing.rules_sheet(chosen, wishes(color)))
    return FINE
