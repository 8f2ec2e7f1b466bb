"""The command line: which commands there are, and how a run ends whatever happens."""

import os
import sys
from importlib import import_module

import click

from . import __version__
from .commands import CANNOT_START, FINE, FOUND, INCOMPLETE, STOPPED, UNREAD, UNWRAPPED, CannotStart, NotWritten, ReaderLeft, nearest, say
from .render.text import line

NAMES = ("begin", "check", "compare", "explain", "fix", "known", "rules", "sheet", "spread", "standard", "sweep", "words")
HELP = {"help_option_names": ["-h", "--help"], "max_content_width": 100}


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


def _meant(name):
    """Return what somebody probably wanted who named no command: another command, or that a spec be checked."""
    if os.path.exists(name) or name.endswith((".yaml", ".yml")):
        return f" To check a spec: buildlint check {line(name)}"
    return nearest(name, NAMES)


class Commands(click.Group):
    """Commands that are loaded when they are asked for."""

    def list_commands(self, context):
        return list(NAMES)

    def get_command(self, context, name):
        return getattr(import_module(f".commands.{name}", __package__), name) if name in NAMES else None

    def resolve_command(self, context, arguments):
        if arguments[0] not in NAMES and not context.resilient_parsing:  # which completion asks for
            raise click.UsageError(f"there is no command {line(arguments[0])!r}.{_meant(arguments[0])}", context)
        return super().resolve_command(context, arguments)


@click.command(cls=Commands, context_settings=HELP, no_args_is_help=False, epilog=f"""{UNWRAPPED}
Example:
  buildlint begin builds/street.yaml
  buildlint check builds/street.yaml""")
@click.version_option(__version__, message="buildlint %(version)s")
def commands():
    """Check declarative engine build specs before parts are bought and bolts are torqued."""
