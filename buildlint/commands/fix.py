"""Changing a spec where only one thing can be meant."""

import os

import click

from ..render.text import joined, line
from . import FINE, FOUND, INCOMPLETE, UNWRAPPED, CannotStart, nearest, put, road_with, rule_named, rules_option, say


@click.command(short_help="Put right in a spec what can only be meant in one way.", epilog=f"""{UNWRAPPED}
Examples:
  buildlint fix builds/street.yaml
  buildlint fix builds/street.yaml --decide textured-washer-faces-the-casting --write

Exit status: 0 nothing to change, or written; 1 shown and not written.""")
@click.argument("spec")
@click.option("--decide", "decided", multiple=True, metavar="RULE",
              help="Make the change that RULE proposes too; it builds another engine. May be given several times.")
@click.option("--write", is_flag=True, help="Write the changed text to SPEC; else it is only shown.")
@rules_option
def fix(spec, decided, write, rules):
    """Change in SPEC what can only have been meant in one way: spellings, units, lists, days.

    What would be built stays as it is, unless a decision is asked for by its rule. Shown as a unified diff; only the
    lines concerned are touched.
    """
    from .. import fix as mending
    from ..deliver import CannotWrite
    from ..render import difference

    road = road_with(rules)
    if spec == "-" or os.path.isdir(spec):
        raise CannotStart("one spec is changed at a time: name its file")
    decided = {_deciding(name, road.rules()) for name in decided}
    try:
        found = mending.fixed(spec, decided)
        if write and found.made:
            mending.write(spec, found)
    except (road.CannotStart, mending.Refused) as error:
        raise CannotStart(str(error)) from error
    except CannotWrite as error:
        say(str(error))
        return INCOMPLETE
    if not write:
        put(difference.diff(found, spec))
    for told in difference.told(found):
        say(told)
    if not found.made:
        say(f"{line(spec)}: nothing that can be changed without a decision" if found.offered else f"{line(spec)}: nothing to change")
    elif write:
        say(f"{line(spec)}: {'one change' if len(found.made) == 1 else f'{len(found.made)} changes'} written")
    return FOUND if found.made and not write else FINE


def _deciding(name, rules):
    """Return the id of the rule that a decision is asked of."""
    able = [rule.id for rule in rules if rule.edit]
    rule = rule_named(name, rules)
    if rule is None:
        raise CannotStart(f"there is no rule {line(name)!r}.{nearest(name, able)}")
    if rule.edit is None:
        raise CannotStart(f"{rule.id} proposes no change that can be made for you; those that do: {joined(able)}")
    return rule.id
