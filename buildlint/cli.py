"""The commands. This is the only module that prints or exits; whatever takes time is imported where it is used.

Exit status: 0 nothing at or above the chosen level; 1 findings; 2 it could not start as asked (usage,
unreadable input, broken rules or shop standard); 3 incomplete (a rule broke down or did not come back, an output
could not be written); 130 stopped by Ctrl-C; 141 the reader of a pipe went away. 2 wins over 3, and 3 over 1.
"""

import os
import sys

import click

from . import __version__
from .model import LEVELS, STAGES
from .render import AREAS, COUNTS, FORMATS, WITH_PAGES, Wishes, counts_in_words, not_checked, screen
from .render.text import joined, line

FINE, FOUND, CANNOT_START, INCOMPLETE, STOPPED, UNREAD = 0, 1, 2, 3, 130, 141

HELP = {"help_option_names": ["-h", "--help"], "max_content_width": 100}
COLORS = ("auto", "always", "never")
UNWRAPPED = "\b"


class CannotStart(Exception):
    """What was asked for cannot be done; the message is for a person."""


class NotWritten(Exception):
    """Standard output is closed or full."""


class ReaderLeft(Exception):
    """The program that read standard output has gone."""


def main():
    """Run the command line and exit."""
    for stream in (sys.stdout, sys.stderr):
        if stream is not None:
            # Whatever the locale, a sheet with an inch mark in it is printed and not a traceback.
            stream.reconfigure(errors="backslashreplace")
    sys.exit(_flushed(run(sys.argv[1:])))


def run(arguments):
    """Run the commands and return the exit status, whatever happens."""
    try:
        if "_BUILDLINT_COMPLETE" in os.environ:
            commands.main(arguments, prog_name="buildlint")  # shell completion; exits
        with commands.make_context("buildlint", arguments) as context:
            return commands.invoke(context)
    except click.exceptions.Exit as end:
        return end.exit_code
    except (click.Abort, KeyboardInterrupt):
        return STOPPED
    except click.UsageError as error:
        usage = error.ctx.command_path if error.ctx else "buildlint"
        say(f"{error.format_message()}\nTry: {usage} --help")
        return CANNOT_START
    except CannotStart as error:
        say(str(error))
        return CANNOT_START
    except NotWritten as error:
        say(str(error))
        return INCOMPLETE
    except (ReaderLeft, BrokenPipeError):
        return UNREAD
    except Exception as error:  # a fault of ours is told as one, and never looks like a finding
        say(_fault(error))
        return INCOMPLETE


def _fault(error):
    """Say where the program itself went wrong, or all of it where BUILDLINT_TRACE is set."""
    if os.environ.get("BUILDLINT_TRACE"):
        from traceback import format_exception

        return "".join(format_exception(error)).rstrip("\n")
    trace = error.__traceback__
    while trace.tb_next is not None:
        trace = trace.tb_next
    where = f"{os.path.basename(trace.tb_frame.f_code.co_filename)}, line {trace.tb_lineno}"
    return (f"buildlint itself broke down ({type(error).__name__}: {error}; {where}); the check is incomplete.\n"
            "Set BUILDLINT_TRACE=1 to see where, and report it")


def _flushed(status):
    """Send off what is still held back; return the status, or what became of it."""
    try:
        if sys.stdout is not None:
            sys.stdout.flush()
    except BrokenPipeError:
        status = UNREAD if status in (FINE, FOUND) else status
    except OSError as error:
        say(f"standard output cannot be written: {error.strerror}")
        status = INCOMPLETE if status in (FINE, FOUND) else status
    else:
        return status
    # The interpreter tries once more on its way out, and would complain.
    os.dup2(os.open(os.devnull, os.O_WRONLY), 1)
    return status


def put(text):
    """Write to standard output. Raises NotWritten or ReaderLeft."""
    if sys.stdout is None:
        raise NotWritten("standard output is closed; nothing could be written")
    try:
        sys.stdout.write(text)
    except BrokenPipeError as error:
        raise ReaderLeft from error
    except OSError as error:
        raise NotWritten(f"standard output cannot be written: {error.strerror}") from error


def say(text):
    """Tell a person something on standard error; there may be none."""
    if sys.stderr is None:
        return
    try:
        if sys.stdout is not None:
            sys.stdout.flush()
        sys.stderr.write("".join(f"buildlint: {line(each)}\n" for each in text.split("\n")))
        sys.stderr.flush()
    except OSError:
        pass


def wishes(color, most=None, every=False, to_file=False):
    """Return how a person wants to see text, from the option, the environment and the terminal."""
    stream = None if to_file else sys.stdout
    return Wishes(screen.width(os.environ, stream), screen.colored(color, os.environ, stream), most, every)


def nearest(name, names):
    """Return a question that names what was probably meant, or nothing."""
    from difflib import get_close_matches

    close = get_close_matches(name, list(names), 3, 0.6)
    return f" Did you mean {joined(close, 'or')}?" if close else ""


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


@click.group(context_settings=HELP, no_args_is_help=False, epilog=f"""{UNWRAPPED}
Example:
  buildlint begin builds/street.yaml
  buildlint check builds/street.yaml""")
@click.version_option(__version__, message="buildlint %(version)s")
def commands():
    """Check declarative engine build specs before parts are bought and bolts are torqued."""


list_format_option = click.option("--format", "form", type=click.Choice(("terminal", "lines", "json")),
                                  default="terminal", show_default=True)
rules_option = click.option("--rules", multiple=True, metavar="DIR", help="Ask the rule modules in DIR too. They are code: name only what you trust.")
color_option = click.option("--color", type=click.Choice(COLORS), default="auto", show_default=True,
                            help="Color on standard output.")


@commands.command(epilog=f"""{UNWRAPPED}
Examples:
  buildlint check builds/street.yaml
  buildlint check library/ --format lines --level error
  buildlint check builds/ --format terminal --format json:report.json
  buildlint check - --name builds/street.yaml < draft.yaml

Exit status: 0 nothing at or above the level, 1 findings, 2 could not start, 3 incomplete.""")
@click.argument("paths", nargs=-1, required=True, metavar="PATH...")
@click.option("--format", "formats", multiple=True, type=Destination(),
              help=f"{', '.join(FORMATS)}; with :FILE into a file; html:FILE for a list and a sheet of each spec. May be given several times.  [default: terminal]")
@click.option("--level", type=click.Choice(LEVELS), default="warning", show_default=True,
              help="The level from which a finding makes the exit status 1.")
@click.option("--stage", type=click.Choice(STAGES), help="Judge as if the build were at this stage.")
@click.option("--most", type=click.IntRange(min=1), metavar="N",
              help="Show the N worst findings of each spec, and say how many more; a sheet only.")
@click.option("--every", is_flag=True, help="List also what is open, good, and not for this build; a sheet only.")
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
    from . import gather

    if name is not None and gather.STANDARD_INPUT not in paths:
        raise click.UsageError("--name goes with standard input: give - as a PATH")
    try:
        specs, left_out = gather.gather(paths)
    except gather.NotThere as error:
        raise CannotStart(str(error)) from error
    if left_out:
        say(f"{left_out} {'file' if left_out == 1 else 'files'} left out: templates, catalogue parts and shop standards")
    if not specs:
        raise CannotStart("no spec was found there; a spec is a file that ends in .yaml or .yml")
    formats = formats or (("terminal", ""),)
    _refuse_clashes(formats, specs)
    if changed == "-" and gather.STANDARD_INPUT in specs:
        raise click.UsageError("standard input cannot be both a spec and a diff")
    _road(rules)
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
    from .deliver import Output

    if form not in WITH_PAGES:
        return Output
    from . import sheet as sheets

    lacking = sheets.lacking(pdf=False)
    if lacking:
        raise CannotStart(f"the format {form} needs {joined(lacking)}: pip install 'buildlint[report]'")
    if "-" in specs:
        raise CannotStart(f"the format {form} needs specs in files, not standard input")
    from .sheet.library import Library

    return Library


def _job(outputs, stage, rules, known, changed):
    """Return what is the same for every spec of a run."""
    from .library import Job

    recorded = lines = None
    if known is not None:
        from . import known as records

        try:
            recorded = records.read(known)
        except records.NotSound as error:
            raise CannotStart(str(error)) from error
    if changed is not None:
        from .changed import is_diff, lines_of

        text = _diff(changed)
        lines = lines_of(text)
        if not lines and not is_diff(text):
            raise CannotStart(f"{changed}: it is no unified diff; write one with: git diff --output={changed if changed != '-' else 'FILE'}")
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
        raise CannotStart(f"{line(name)}: {getattr(error, 'strerror', None) or 'is no name of a file'}") from error
    return data.decode("utf-8", "replace")


def _check(specs, name, level, outputs, job, workers, fresh):
    """Check every spec into every output; return the exit status."""
    totals, done, unread, lost, crashed, rows, gone, unchecked = dict.fromkeys((*COUNTS, "known"), 0), 0, False, False, [], [], [], []
    held_up, shared = {}, {}  # what stands in the way of several specs, with their number
    for output in outputs:
        output.begin()
    answers, kept = _answers(specs, name, job, workers, fresh)
    try:
        for number, answer in enumerate(answers):
            _progress(number, len(specs))
            if answer.unread is not None:
                if answer.holds_up:
                    held_up[answer.unread] = held_up.get(answer.unread, 0) + 1
                else:
                    say(answer.unread)
                unchecked.append((answer.path, answer.unread))
                unread, lost = unread or not answer.lost, lost or answer.lost
                continue
            for counted, count in answer.counts.items():
                totals[counted] += count
            crashed += [rule for rule in answer.crashed if rule not in crashed]
            rows.append(answer.row)
            gone += answer.gone
            for finding in answer.shared:
                shared[finding] = shared.get(finding, 0) + 1
            for output, sheet in zip(outputs, answer.sheets):
                output.add(sheet)
            done += 1
    finally:
        if kept is not None:
            kept.close()
    _progress(len(specs), len(specs))
    for why, number in held_up.items():
        say(why if len(specs) == 1 else f"{why}\n{not_checked(number)}")
    totals["crashed"], totals["rows"], totals["unchecked"], totals["shared"] = tuple(crashed), rows, tuple(unchecked), sorted(shared.items(), key=lambda pair: pair[0].place)
    for output in outputs:
        output.end(totals, done)
    for path, rule, message in gone:
        say(f"{path}: a known finding is gone: {rule}: {message}")
    on_screen = [output.form for output in outputs if not output.path]
    if done and (not on_screen or on_screen == ["lines"]):
        say(f"{f'{done} specs: ' if done > 1 else ''}{counts_in_words(totals)}")
    if unread:
        return CANNOT_START
    if crashed or lost or any(output.broken for output in outputs):
        return INCOMPLETE
    return FOUND if any(totals[found] for found in LEVELS[: LEVELS.index(level) + 1]) else FINE


def _answers(specs, name, job, workers, fresh):
    """Return the answers, one for each spec, and the cache they may come from."""
    from . import library

    if specs == ["-"]:
        return _of_standard_input(name, job), None
    kept = None
    if len(specs) > 1 and not fresh:
        from datetime import date

        from .cache import Cache

        kept = Cache(job, date.today().isoformat())
    if "-" in specs:
        raise click.UsageError("standard input (-) goes alone")
    return library.run(specs, job, workers, kept), kept


def _of_standard_input(name, job):
    from . import library, road

    path = name or "-"
    try:
        report = road.check(path, given_name=path, text=_standard_input(), stage=job.stage, detail=job.detail, advice=job.advice)
    except road.CannotStart as error:
        yield library.Answer(path, {}, (), unread=str(error))
        return
    yield library.told(report, job, path)


def _standard_input():
    from .load import LIMIT

    if sys.stdin is None:
        raise CannotStart("standard input is closed")
    try:
        return sys.stdin.buffer.read(LIMIT + 1)
    except OSError as error:
        raise CannotStart(f"standard input cannot be read: {error.strerror}") from error


def _road(folders=()):
    """Return the road with its rules loaded; a broken rule set is told before anything else."""
    from . import patience, road

    patience.last_resort = _leave
    try:
        if folders:
            road.take_rules_from(folders)
        road.rules()
    except road.CannotStart as error:
        raise CannotStart(str(error)) from error
    return road


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


def _progress(number, count):
    """Say on a terminal how far a long run has come, if nothing else is being shown there."""
    if sys.stdout is not None and not sys.stdout.isatty():
        _progress_of(f"checking {number:,} of {count:,} specs", number, count)


def _progress_of(told, number, count):
    if count < 100 or sys.stderr is None or not sys.stderr.isatty():
        return
    if number % 20 == 0 or number == count:
        sys.stderr.write(f"\r{told if number < count else ' ' * len(told)}\r")
        sys.stderr.flush()


two_formats_option = click.option("--format", "form", type=click.Choice(("terminal", "json")), default="terminal", show_default=True)


@commands.command(epilog=f"""{UNWRAPPED}
Examples:
  buildlint compare builds/quoted.yaml builds/ordered.yaml
  buildlint compare builds/quoted.yaml builds/ordered.yaml --format json

Exit status: 0 no finding at or above the level came with NEW, 1 one did.""")
@click.argument("old")
@click.argument("new")
@click.option("--level", type=click.Choice(LEVELS), default="warning", show_default=True,
              help="The level from which a finding that came makes the exit status 1.")
@rules_option
@two_formats_option
@color_option
def compare(old, new, level, rules, form, color):
    """Tell what changed from OLD to NEW: in the spec, in the numbers that follow, in the findings."""
    from . import compare as sides
    from .render import comparison

    road = _road(rules)
    try:
        found = sides.compare(old, new)
    except road.CannotStart as error:
        raise CannotStart(str(error)) from error
    put(comparison.as_json(found) if form == "json" else comparison.sheet(found, wishes(color)))
    return FOUND if comparison.came_at(found, level) else FINE


@commands.command(epilog=f"""{UNWRAPPED}
Examples:
  buildlint sweep builds/street.yaml --vary rockers.ratio=1.6,1.7 --vary "pushrods.wall=0.080 in,0.105 in"
  buildlint sweep builds/street.yaml --vary intake.spring.part,exhaust.spring.part=all

Exit status: 0 some combination has nothing at the level or above, 1 none is that good.""")
@click.argument("spec")
@click.option("--vary", "choices", multiple=True, required=True, metavar="PATH=VALUE,...",
              help="A value of the spec and what to try for it; for a part also all, every one in the catalogue. "
                   "PATH,PATH=... sets several alike. May be given several times.")
@click.option("--without", multiple=True, metavar="PATH", help="Leave out what the spec writes there, so that a part's own figure counts.")
@click.option("--level", type=click.Choice(LEVELS), default="warning", show_default=True,
              help="The level from which a finding spoils a combination.")
@click.option("--stage", type=click.Choice(STAGES), help="Judge as if the build were at this stage.")
@click.option("--most", type=click.IntRange(min=1), metavar="N", help="Show the N best combinations.  [default: 20]")
@click.option("--workers", type=click.IntRange(1, 64), metavar="N", help="How many processes share the work.  [default: by the number of combinations]")
@rules_option
@two_formats_option
@color_option
def sweep(spec, choices, without, level, stage, most, workers, rules, form, color):
    """Try parts and values in SPEC: which combinations suit each other, and what speaks against the others."""
    from . import sweep as what_if
    from .render import trials

    road = _road(rules)
    if spec == "-" or os.path.isdir(spec):
        raise CannotStart("parts are tried in one spec: name its file")
    try:
        found = what_if.sweep(spec, [what_if.axis(choice) for choice in choices], stage, workers, without=without, progress=_tried)
    except (road.CannotStart, what_if.NotUnderstood) as error:
        raise CannotStart(str(error)) from error
    put(trials.as_json(found) if form == "json" else trials.sheet(found, wishes(color, most), level))
    return FINE if any(trials.is_good(trial, level) for trial in found.trials) else FOUND


@commands.command(epilog=f"""{UNWRAPPED}
Examples:
  buildlint spread builds/street.yaml
  buildlint spread builds/street.yaml quench_gap

Exit status: 0 what holds as planned holds at the worst, 1 something at the level or above does not.""")
@click.argument("spec")
@click.argument("word", required=False)
@click.option("--level", type=click.Choice(LEVELS), default="warning", show_default=True,
              help="The level from which a limit that is lost makes the exit status 1.")
@click.option("--stage", type=click.Choice(STAGES), help="Judge as if the build were at this stage.")
@click.option("--most", type=click.IntRange(min=1), metavar="N", help="Show the N nearest margins that hold.  [default: 12]")
@rules_option
@two_formats_option
@color_option
def spread(spec, word, level, stage, most, rules, form, color):
    """Put the values of SPEC that carry a tolerance at their ends: which limits still hold; with a WORD, where it comes to lie."""
    from . import spread as study
    from .render import tolerances

    road = _road(rules)
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
    from .render import listing

    rows = _rows_named(word, listing.rows_of_words(road.words(), road.ways(), road.rules()))
    if not rows:
        known = [name for _, name in road.words().words] + list(road.ways())
        raise CannotStart(f"there is no word {line(word)}.{nearest(word, dict.fromkeys(known))} The list: buildlint words")
    found = study.ranges(spec, word, stage) or study.ranges(spec, rows[0].word, stage)
    if not found:
        raise CannotStart(f"{line(spec)} does not give {line(word)} as a number; what it needs is told by: buildlint explain {line(word)}")
    put(tolerances.ranges_json(found) if form == "json" else tolerances.ranges_sheet(found, seen))
    return FINE


def _tried(number, count):
    """Say on a terminal how many combinations have been tried."""
    _progress_of(f"tried {number:,} of {count:,} combinations", number, count)


@commands.command(epilog=f"""{UNWRAPPED}
Examples:
  buildlint standard builds/street.yaml
  buildlint standard builds/street.yaml --prove""")
@click.argument("spec", default=".")
@click.option("--prove", is_flag=True, help="Run the examples of the shop's own rules and tell which do not hold.")
@rules_option
@two_formats_option
@color_option
def standard(spec, prove, rules, form, color):
    """Show what the shop standard settles for SPEC, and where each setting was written."""
    from .render import settings

    road = _road(rules)
    if not os.path.lexists(spec):
        raise CannotStart(f"{line(spec)}: there is no such file or folder")
    path = os.path.join(spec, "any.yaml") if os.path.isdir(spec) else spec
    try:
        found = road.standard_for(path)
    except road.CannotStart as error:
        raise CannotStart(str(error)) from error
    if not prove:
        put(settings.as_json(found, spec) if form == "json" else settings.sheet(found, spec, wishes(color)))
        return FINE
    from .proof import broken_examples

    own = [*found.rules, *(rule for rule in road.rules() if rule.file and not road.shipped(rule))]
    broken = broken_examples(own)
    for each in broken:
        say(each)
    say(f"{sum(len(rule.conforming) + len(rule.nonconforming) for rule in own)} examples of {len(own)} rules, "
        f"{len(broken) or 'none'} of them broken")
    return FOUND if broken else FINE


@commands.command(epilog=f"""{UNWRAPPED}
Examples:
  buildlint known library/ --file known.json
  buildlint check library/ --known known.json
  buildlint known library/ --file known.json --prune""")
@click.argument("paths", nargs=-1, required=True, metavar="PATH...")
@click.option("--file", "file", required=True, metavar="FILE", help="The record to write; check --known FILE then leaves these out.")
@click.option("--prune", is_flag=True, help="Add nothing; only take out what is gone.")
@click.option("--stage", type=click.Choice(STAGES), help="Judge as if the builds were at this stage.")
@rules_option
def known(paths, file, prune, stage, rules):
    """Record today's findings of a library, so that from now on only new ones count."""
    from . import gather
    from . import known as records
    from .deliver import CannotWrite, Replacement
    from .render.text import counted

    road = _road(rules)
    try:
        specs, _ = gather.gather(paths)
        records.refuse(file, specs)
        before = records.read(file) if prune else None
        found = [entry for spec in specs for entry in records.entries(road.check(spec, stage=stage), file)]
    except (gather.NotThere, records.NotSound, road.CannotStart) as error:
        raise CannotStart(str(error)) from error
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


@commands.command(epilog=f"""{UNWRAPPED}
Examples:
  buildlint explain spring-stays-clear-of-coil-bind
  buildlint explain spring_coil_bind_margin
  buildlint explain spring_coil_bind_margin builds/street.yaml""")
@click.argument("name")
@click.argument("spec", required=False)
@click.option("--format", "form", type=click.Choice(("terminal", "json")), default="terminal", show_default=True)
@rules_option
@color_option
def explain(name, spec, form, rules, color):
    """Explain a rule or a word; with a SPEC, how its number came about, line by line."""
    from .render import explanation, listing

    road = _road(rules)
    rules = road.rules()
    rule = _rule_named(name, rules)
    rows = [] if rule else _rows_named(name, listing.rows_of_words(road.words(), road.ways(), rules))
    if rule is None and not rows:
        known = [rule.id for rule in rules] + [word for _, word in road.words().words] + list(road.ways())
        raise CannotStart(f"{line(name) or 'An empty name'} is neither a rule nor a word.{nearest(name, dict.fromkeys(known))} "
                          "The lists: buildlint rules, buildlint words")
    seen = wishes(color)
    if spec is None:
        if form == "json":
            put(explanation.rule_json(rule) if rule else explanation.words_json(rows))
        else:
            put(explanation.rule_sheet(rule, seen) if rule else explanation.word_sheet(rows, rules, seen))
        return FINE
    try:
        if rule:
            worked = [each for word in rule.words for each in road.explain(word, spec)]
        else:
            worked = road.explain(name, spec) or road.explain(rows[0].word, spec)
        report = road.check(spec, chosen=[rule]) if rule and form == "terminal" else None
    except road.CannotStart as error:
        raise CannotStart(str(error)) from error
    if report is not None:
        from .render import terminal

        said = tuple(finding for finding in report.findings if finding.rule == rule.id)
        put(terminal.sheet(report._replace(findings=said, unlocks=()), seen._replace(every=True)) + "\n")
    elif not worked:
        say(f"{spec} does not give {name}; what it needs is told by: buildlint explain {name}")
    put(explanation.worked_json(worked) if form == "json" else explanation.worked_sheet(worked, seen))
    return FINE if worked else FOUND


def _leave(rule):
    """End the program, because a rule does not end and does not let itself be stopped either."""
    from .patience import not_stopped

    say(f"{not_stopped(rule)}; the check is incomplete")
    os._exit(INCOMPLETE)


def _nearest_part(part, words):
    """Return a question for a part of a word that was probably misspelt: parts of words that are near to it."""
    return nearest(part, dict.fromkeys([piece for word in words for piece in word.split("_")] + words))


def _rule_named(name, rules):
    """Return the rule of this id, or of this id it had before, or None; underscores count as hyphens."""
    identifier = name.replace("_", "-")
    for rule in rules:
        if identifier == rule.id or identifier in rule.was:
            return rule
    return None


def _rows_named(name, rows):
    """Return the rows of a word, by its name, its name from outside, or its path in a spec."""
    from .render.listing import inner_names, path_matches

    if "." in name:
        return [row for row in rows if row.path and path_matches(row.path, name)]
    for known in inner_names(name):
        found = [row for row in rows if row.word == known]
        if found:
            return found
    return []


@commands.command(epilog=f"""{UNWRAPPED}
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
    from . import fix as mending
    from .deliver import CannotWrite
    from .render import difference

    road = _road(rules)
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
    rule = _rule_named(name, rules)
    if rule is None:
        raise CannotStart(f"there is no rule {line(name)!r}.{nearest(name, able)}")
    if rule.edit is None:
        raise CannotStart(f"{rule.id} proposes no change that can be made for you; those that do: {joined(able)}")
    return rule.id


@commands.command(epilog=f"""{UNWRAPPED}
Examples:
  buildlint sheet builds/street.yaml
  buildlint sheet builds/street.yaml --to sheets --only pdf

Exit status: 0 written, whatever was found; 2 could not start, 3 incomplete.""")
@click.argument("spec")
@click.option("--to", metavar="FOLDER", help="The folder to write to.  [default: beside the spec]")
@click.option("--only", type=click.Choice(("html", "pdf")), help="Write only this one of the two.")
@rules_option
def sheet(spec, to, only, rules):
    """Write the build sheet of SPEC: the page that is printed, pinned to the engine stand and signed.

    It is SPEC_build_sheet.html, self-contained, and SPEC_build_sheet.pdf.
    """
    from . import sheet as sheets

    lacking = sheets.lacking(pdf=only != "html")
    if lacking:
        raise CannotStart(f"a build sheet needs {joined(lacking)}: pip install 'buildlint[report]'")
    if spec == "-" or os.path.isdir(spec):
        raise CannotStart("a build sheet is made of one spec: name its file")
    folder = to if to is not None else os.path.dirname(spec)
    if folder and not os.path.isdir(folder):
        raise CannotStart(f"{folder} is no folder; make it first, or name another one")
    road = _road(rules)
    from .deliver import CannotWrite
    from .sheet import paper, source, written

    try:
        build = source.read(spec)
        names = written.sheet(build, folder, only)
    except (road.CannotStart, paper.NoPrinter) as error:
        raise CannotStart(str(error)) from error
    except CannotWrite as error:
        say(str(error))
        return INCOMPLETE
    say(f"written: {joined(names)}")
    return INCOMPLETE if build.report.crashed else FINE


@commands.command(epilog=f"""{UNWRAPPED}
Examples:
  buildlint rules --area valvetrain --level error
  buildlint rules --format json""")
@click.option("--area", type=click.Choice(AREAS))
@click.option("--level", type=click.Choice((*LEVELS, "reminder")))
@click.option("--due", type=click.Choice(STAGES))
@click.option("--scope", metavar="SCOPE", help="Where a rule is asked: build, side, cylinder, joint, ...")
@rules_option
@list_format_option
@color_option
def rules(area, level, due, scope, rules, form, color):
    """List the rules."""
    from .render import listing

    known = _road(rules).rules()
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


@commands.command(epilog=f"""{UNWRAPPED}
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
    from .render import listing

    road = _road()
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


@commands.command(epilog=f"""{UNWRAPPED}
Examples:
  buildlint begin builds/street.yaml
  buildlint begin --cylinders 6 --layout inline --duty oval_race > builds/six.yaml""")
@click.argument("file", required=False)
@click.option("--cylinders", type=click.IntRange(1, 16), default=8, show_default=True)
@click.option("--layout", metavar="LAYOUT", help="How the cylinders stand.  [default: v for 6 and more, else inline]")
@click.option("--duty", metavar="DUTY", default="street", show_default=True, help="What the engine is for.")
@click.option("--induction", metavar="INDUCTION", default="natural", show_default=True, help="How it breathes.")
def begin(file, cylinders, layout, duty, induction):
    """Write a starter spec with a comment for every line, to FILE or to standard output.

    A file that is there already is never overwritten.
    """
    from . import begin as starter
    from .deliver import CannotWrite, create

    try:
        text = starter.spec(cylinders, layout, duty, induction)
    except starter.NotKnown as error:
        raise CannotStart(str(error)) from error
    if file is None:
        put(text)
        return FINE
    try:
        create(file, text)
    except FileExistsError as error:
        raise CannotStart(f"{file} is there already; it is left as it is. Choose another name") from error
    except CannotWrite as error:
        raise NotWritten(str(error)) from error
    say(f"{file} is begun. Next: fill in what is known, then buildlint check {file}")
    return FINE
