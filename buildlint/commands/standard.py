"""What the shop has settled, and the proof of its own rules."""

import os

import click

from ..render.text import counted, line
from . import (
    FINE, FOUND, UNWRAPPED, CannotStart, color_option, put, road_with, rules_option, say, two_formats_option,
    wishes,
)


@click.command(short_help="Show what the shop has settled, and where.", epilog=f"""{UNWRAPPED}
Examples:
  buildlint standard builds/street.yaml
  buildlint standard builds/street.yaml --prove""")
@click.argument("spec", default=".")
@click.option("--prove", is_flag=True, help="Run the examples of the shop's own rules and tell which do not hold.")
@rules_option
@two_formats_option
@color_option
def standard(spec, prove, rules, form, color):
    """Show what the shop standard settles for SPEC, where each setting was written, and what is wrong in the catalogue."""
    from ..library import reports_of_catalogues
    from ..render import settings
    from ..render.lines import one

    road = road_with(rules)
    if not os.path.lexists(spec):
        raise CannotStart(f"{line(spec)}: there is no such file or folder")
    path = os.path.join(spec, "any.yaml") if os.path.isdir(spec) else spec
    try:
        found = road.standard_for(path)
    except road.CannotStart as error:
        raise CannotStart(str(error)) from error
    if not prove:
        put(settings.as_json(found, spec) if form == "json" else settings.sheet(found, spec, wishes(color)))
        unsound = [one(finding, report.path) for report in reports_of_catalogues([path]) for finding in report.findings]
        for each in unsound:
            say(each)
        return FOUND if unsound else FINE
    from ..proof import broken_examples

    own = [*found.rules, *(rule for rule in road.rules() if rule.file and not road.shipped(rule))]
    broken = broken_examples(own)
    for each in broken:
        say(each)
    examples = sum(len(rule.conforming) + len(rule.nonconforming) for rule in own)
    say(f"{counted(examples, 'example')} of {counted(len(own), 'rule')}, {len(broken) or 'none'} of them broken")
    return FOUND if broken else FINE
