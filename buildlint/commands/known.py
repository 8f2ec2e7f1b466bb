"""Recording the findings of an old library."""

import click

from ..model import STAGES
from . import FINE, INCOMPLETE, UNWRAPPED, CannotStart, Choice, Progress, road_with, rules_option, say


@click.command(short_help="Record today's findings, so that only new ones count.", epilog=f"""{UNWRAPPED}
Examples:
  buildlint known library/ --file known.json
  buildlint check library/ --known known.json
  buildlint known library/ --file known.json --prune""")
@click.argument("paths", nargs=-1, required=True, metavar="PATH...")
@click.option("--file", "file", required=True, metavar="FILE", help="The record to write; check --known FILE then leaves these out.")
@click.option("--prune", is_flag=True, help="Add nothing; only take out what is gone.")
@click.option("--stage", type=Choice(STAGES), help="Judge as if the builds were at this stage.")
@rules_option
def known(paths, file, prune, stage, rules):
    """Record today's findings of a library, so that from now on only new ones count."""
    from .. import gather, library
    from .. import known as records
    from ..deliver import CannotWrite, Replacement
    from ..render.text import counted, joined

    road = road_with(rules)
    try:
        specs, _ = gather.gather(paths)
        if not specs:
            raise CannotStart(gather.NONE_FOUND)
        records.refuse(file, specs)
        before = records.read(file) if prune else None
        found, crashed, told_how_far = [], {}, Progress("checking {number} of {count} specs")
        for number, spec in enumerate(specs):
            told_how_far(number, len(specs))
            report = road.check(spec, stage=stage)
            crashed.update(dict.fromkeys(report.crashed))
            found += records.entries(report, file)
        told_how_far(len(specs), len(specs))
        if len(specs) > 1:
            found += [entry for report in library.reports_of_catalogues(specs, stage) for entry in records.entries(report, file)]
    except (gather.NotThere, records.NotSound, road.CannotStart) as error:
        raise CannotStart(str(error)) from error
    if crashed:
        say(f"nothing is recorded, because what {joined(crashed)} would have said is not known; see: buildlint check")
        return INCOMPLETE
    if before is not None:
        recorded = [(entry, before.specs.get(entry["spec"], {}).get(entry["place"])) for entry in found]
        found = [{**entry, "message": old["message"], "content": old["content"]} for entry, old in recorded if old]
    try:
        record = Replacement(file)
        record.write(records.written(found))
        record.settled()
    except CannotWrite as error:
        say(str(error))
        return INCOMPLETE
    say(f"{counted(len(found), 'finding')} of {counted(len(specs), 'spec')} recorded in {file}")
    return FINE
