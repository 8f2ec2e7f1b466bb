"""Check specs: gathering them, every output, the exit status."""

import os
import sys
from itertools import chain

import click

from ..model import LEVELS, STAGES
from ..render import FORMATS, WITH_PAGES, counts_in_words, not_checked
from ..render.text import joined, line
from . import (
    CANNOT_START, FINE, FOUND, INCOMPLETE, UNWRAPPED, CannotStart, Choice, color_option, Progress, nearest, put,
    road_with, rules_option, say, wishes,
)


HOSTS_TAKE = 25_000  # results in one file, as code hosts document it for uploads


class Destination(click.ParamType):
    """FORMAT or FORMAT:FILE."""

    name = "FORMAT[:FILE]"

    def convert(self, value, param, ctx):
        if isinstance(value, tuple):
            return value
        form, colon, path = value.partition(":")
        known = (*FORMATS, *WITH_PAGES)
        if form not in known:
            self.fail(f"{form!r} is not a format; there are {joined(known)}.{nearest(form, known)}", param, ctx)
        if form in WITH_PAGES and not path:
            self.fail(f"{form} is a list and a page for each spec: give the list a file, such as {form}:sheets.html", param, ctx)
        if colon and not path:
            self.fail(f"a file name is missing after {value!r}", param, ctx)
        return form, path

    def shell_complete(self, ctx, param, incomplete):
        from click.shell_completion import CompletionItem

        return [CompletionItem(form) for form in (*FORMATS, *WITH_PAGES) if form.startswith(incomplete)]


@click.command(short_help="Check build specs: files, folders, or standard input.", epilog=f"""{UNWRAPPED}
Examples:
  buildlint check builds/street.yaml
  buildlint check library/ --format lines --level error
  buildlint check builds/ --format terminal --format json:report.json
  buildlint check - --name builds/street.yaml < draft.yaml

Exit status: 0 nothing at or above the level, 1 findings, 2 could not start, 3 incomplete.""")
@click.argument("paths", nargs=-1, required=True, metavar="PATH...")
@click.option("--format", "formats", multiple=True, type=Destination(),
              help=f"{', '.join(FORMATS)}; with :FILE into a file; html:FILE for a list and a sheet of each spec. May be given several times.  [default: terminal]")
@click.option("--level", type=Choice(LEVELS), default="warning", show_default=True,
              help="The level from which a finding makes the exit status 1.")
@click.option("--stage", type=Choice(STAGES), help="Judge as if the build were at this stage.")
@click.option("--most", type=click.IntRange(min=1), metavar="N",
              help="Show the N worst findings of each spec, and say how many more; in terminal, summary and markdown.")
@click.option("--every", is_flag=True, help="List also what is open, good, and not for this build; in terminal alone.")
@click.option("--name", metavar="PATH", help="The path that standard input (-) goes by.")
@click.option("--known", metavar="FILE", help="Leave out the findings recorded in FILE (buildlint known), and tell which are gone.")
@click.option("--changed", metavar="DIFF", help="Only findings on the lines that a unified diff changes; - reads it from standard input.")
@click.option("--workers", type=click.IntRange(1, 64), metavar="N", help="How many processes share the work.  [default: by the number of specs]")
@click.option("--fresh", is_flag=True, help="Judge everything anew instead of taking unchanged answers from the last run.")
@rules_option
@color_option
def check(paths, formats, level, stage, most, every, name, known, changed, workers, fresh, rules, color):
    """Check build specs: files, folders, or - for standard input.

    In a folder every YAML file is a spec, but for shop.yaml and what lies under catalogue/ or templates/.
    """
    from .. import gather

    if name is not None and gather.STANDARD_INPUT not in paths:
        raise click.UsageError("--name goes with standard input: give - as a PATH")
    try:
        specs, left_out = gather.gather(paths)
    except gather.NotThere as error:
        raise CannotStart(str(error)) from error
    if left_out:
        say(f"{left_out} {'file' if left_out == 1 else 'files'} left out: templates, catalogue parts and shop standards")
    if not specs:
        raise CannotStart(gather.NONE_FOUND)
    formats = formats or (("terminal", ""),)
    _refuse_clashes(formats, specs)
    if changed == "-" and gather.STANDARD_INPUT in specs:
        raise click.UsageError("standard input cannot be both a spec and a diff")
    road_with(rules)
    outputs = [_kind_of_output(form, specs)(form, path, wishes(color, most, every, to_file=bool(path)), put, say) for form, path in formats]
    if any(form in WITH_PAGES for form, _ in formats):
        fresh = True  # pages are too many bytes to be kept
        workers = workers or min(os.cpu_count() or 1, 1 + len(specs) // 4)  # and take long enough to be shared
    job = _job(outputs, stage, rules, known, changed)
    try:
        return _check(specs, name, level, outputs, job, workers, fresh)
    finally:
        for output in outputs:
            output.abandoned()


def _kind_of_output(form, specs):
    """Return the class that brings a format to its place. Raises CannotStart where the extra it needs is not installed."""
    from ..deliver import Output

    if form not in WITH_PAGES:
        return Output
    from .. import sheet as sheets

    lacking = sheets.lacking(pdf=False)
    if lacking:
        raise CannotStart(f"the format {form} needs {joined(lacking)}: pip install 'buildlint[report]'")
    if "-" in specs:
        raise CannotStart(f"the format {form} needs specs in files, not standard input")
    from ..sheet.library import Library

    return Library


def _job(outputs, stage, rules, known, changed):
    """Return what is the same for every spec of a run."""
    from ..library import Job

    recorded = lines = None
    if known is not None:
        from .. import known as records

        try:
            recorded = records.read(known)
        except records.NotSound as error:
            raise CannotStart(str(error)) from error
    if changed is not None:
        from ..changed import is_diff, lines_of

        text = _diff(changed)
        lines = lines_of(text)
        if not lines and not is_diff(text):
            raise CannotStart(f"{changed}: it is no unified diff; write one with: git diff --output={changed if changed != '-' else 'FILE'}")
        if lines and not any(os.path.exists(path) for path in lines):
            raise CannotStart(f"{changed}: {line(next(iter(lines)))} is not there, nor any other file it names; check where its paths begin, "
                              "or write them as seen from here with: git diff --relative")
    return Job(tuple((output.form, output.wishes) for output in outputs), stage, tuple(rules), recorded, lines)


def _diff(name):
    """Return the text of a diff, from a file or from standard input."""
    try:
        if name == "-" and sys.stdin is None:
            raise CannotStart("standard input is closed")
        if name == "-":
            return sys.stdin.buffer.read().decode("utf-8", "replace")
        with open(name, "rb") as file:
            data = file.read()
    except (OSError, ValueError) as error:
        why = "there is no such file" if isinstance(error, FileNotFoundError) else getattr(error, "strerror", None) or "is no name of a file"
        raise CannotStart(f"{line(name)}: {why}") from error
    return data.decode("utf-8", "replace")


def _check(specs, name, level, outputs, job, workers, fresh):
    """Check every spec into every output; return the exit status."""
    from ..render.totals import Totals

    totals = Totals()
    for output in outputs:
        output.begin()
    told_how_far = Progress("checking {number} of {count} specs") if _screen_is_free(outputs) else lambda number, count: None
    answers, kept = _answers(specs, name, job, workers, fresh)
    if len(specs) > 1:
        from ..library import of_catalogues

        answers = chain(answers, of_catalogues(specs, job, totals.told_of))
    try:
        for number, answer in enumerate(answers):
            told_how_far(number, len(specs))
            totals.add(answer)
            if answer.unread is not None and not answer.holds_up:
                told_how_far(len(specs), len(specs))
                say(answer.unread)
            for output, sheet in zip(outputs, answer.sheets):
                output.add(sheet)
    finally:
        if kept is not None:
            kept.close()
    told_how_far(len(specs), len(specs))
    for why, number in totals.held_up.items():
        say(why if len(specs) == 1 else f"{why}\n{not_checked(number)}")
    for output in outputs:
        output.end(totals)
    _say_beside(totals, outputs)
    return _status(totals, outputs, level)


def _say_beside(totals, outputs):
    """What belongs into none of the outputs."""
    results = sum(totals.counts[sort] for sort in (*LEVELS, "permitted"))
    if results > HOSTS_TAKE and any(output.form == "sarif" for output in outputs):
        say(f"the SARIF report holds {results:,} results; code hosts take {HOSTS_TAKE:,} in one file: check the library in parts")
    for path, rule, message in totals.gone:
        say(f"{path}: a known finding is gone: {rule}: {message}")
    on_screen = [output.form for output in outputs if not output.path]
    if totals.specs and (not on_screen or on_screen == ["lines"]):
        say(f"{f'{totals.specs} specs: ' if totals.specs > 1 else ''}{counts_in_words(totals.counts)}")


def _status(totals, outputs, level):
    if totals.unread:
        return CANNOT_START
    if totals.crashed or totals.lost or any(output.broken for output in outputs):
        return INCOMPLETE
    return FOUND if any(totals.counts[found] for found in LEVELS[: LEVELS.index(level) + 1]) else FINE


def _answers(specs, name, job, workers, fresh):
    """Return the answers, one for each spec, and the cache they may come from."""
    from .. import library

    if specs == ["-"]:
        return _of_standard_input(name, job), None
    kept = None
    if len(specs) > 1 and not fresh:
        from datetime import date

        from ..cache import Cache

        kept = Cache(job, date.today().isoformat())
    if "-" in specs:
        raise click.UsageError("standard input (-) goes alone")
    return library.run(specs, job, workers, kept), kept


def _of_standard_input(name, job):
    from .. import library, road

    path = name or "-"
    try:
        report = road.check(path, given_name=path, text=_standard_input(), stage=job.stage, detail=job.detail, advice=job.advice)
    except road.CannotStart as error:
        yield library.Answer(path, {}, (), unread=str(error))
        return
    yield library.told(report, job, path)


def _standard_input():
    from ..load import LIMIT

    if sys.stdin is None:
        raise CannotStart("standard input is closed")
    try:
        return sys.stdin.buffer.read(LIMIT + 1)
    except OSError as error:
        raise CannotStart(f"standard input cannot be read: {error.strerror}") from error


def _refuse_clashes(formats, specs):
    """Refuse two outputs in one place, and an output in the place of a spec."""
    files = [os.path.realpath(path) for _, path in formats if path]
    if len(formats) - len(files) > 1:
        raise click.UsageError("only one format can go to standard output; give the others a file, "
                               "such as json:report.json")
    if len(set(files)) < len(files):
        raise click.UsageError("two outputs name the same file")
    taken = {os.path.realpath(spec) for spec in specs if spec != "-"} & set(files)
    if taken:
        raise click.UsageError(f"{joined(sorted(taken))} is a spec; it would be overwritten by the output")


def _screen_is_free(outputs):
    """Whether no output is being shown on a terminal meanwhile; the summary comes when all is done."""
    return sys.stdout is None or not sys.stdout.isatty() or all(output.path or output.form == "summary" for output in outputs)
