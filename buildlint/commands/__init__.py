"""The commands, one module for each; what they share stands here: exit status, the two streams, options, the road.

Only these modules and ``cli`` print or exit. Exit status: 0 nothing at or above the chosen level; 1 findings; 2 it could
not start as asked (usage, unreadable input, broken rules or shop standard); 3 incomplete (a rule broke down or did not
come back, an output could not be written); 130 stopped by Ctrl-C; 141 the reader of a pipe went away. 2 wins over 3, and
3 over 1.
"""

import os
import sys
import time
from contextlib import contextmanager

import click

from ..render import Wishes, screen
from ..render.text import joined, line

FINE, FOUND, CANNOT_START, INCOMPLETE, STOPPED, UNREAD = 0, 1, 2, 3, 130, 141

COLORS = ("auto", "always", "never")
UNWRAPPED = "\b"  # before lines of help that stay as they are


class CannotStart(Exception):
    """What was asked for cannot be done; the message is for a person."""


class NotWritten(Exception):
    """Standard output is closed or full."""


class ReaderLeft(Exception):
    """The program that read standard output has gone."""


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


class Choice(click.Choice):
    """One of a few words; another is answered with those there are, and with the one that was probably meant."""

    def convert(self, value, param, ctx):
        if value in self.choices:
            return value
        meant = nearest(value.lower().replace("-", "_"), self.choices)
        self.fail(f"{line(value)} is none of {joined(self.choices)}.{meant}", param, ctx)


def road_with(folders=()):
    """Return the road with its rules loaded; a broken rule set is told before anything else."""
    from .. import patience, road

    patience.last_resort = _leave
    try:
        if folders:
            road.take_rules_from(folders)
        road.rules()
    except road.CannotStart as error:
        raise CannotStart(str(error)) from error
    return road


def _leave(rule):
    """End the program, because a rule does not end and does not let itself be stopped either."""
    from ..patience import not_stopped

    say(f"{not_stopped(rule)}; the check is incomplete")
    os._exit(INCOMPLETE)


class Progress:
    """Tells on a terminal how far a piece of work has come: what takes more than a second, and a few times a second.

    ``told`` is a sentence with {number} and {count}.
    """

    PATIENCE, PACE = 1.0, 0.2  # seconds

    def __init__(self, told, clock=time.monotonic):
        self.told, self.clock, self.cells = told, clock, 0
        self.next = clock() + self.PATIENCE

    def __call__(self, number, count):
        if sys.stderr is None or not sys.stderr.isatty():
            return
        if number >= count:
            self._show("")
        elif self.clock() >= self.next:
            self._show(self.told.format(number=f"{number:,}", count=f"{count:,}"))
            self.next = self.clock() + self.PACE

    def _show(self, text):
        """Write over what was shown before; nothing where nothing was and nothing is to be."""
        if not text and not self.cells:
            return
        sys.stderr.write(f"\r{text:<{self.cells}}\r")
        sys.stderr.flush()
        self.cells = len(text)


@contextmanager
def underway(told):
    """Say on a terminal what is going on that takes a while and cannot be counted; it is wiped when it is done."""
    shown = told if sys.stderr is not None and sys.stderr.isatty() else ""
    if shown:
        sys.stderr.write(f"{shown}\r")
        sys.stderr.flush()
    try:
        yield
    finally:
        if shown:
            sys.stderr.write(f"{' ' * len(shown)}\r")
            sys.stderr.flush()


def rule_named(name, rules):
    """Return the rule of this id, or of this id it had before, or None; underscores count as hyphens."""
    identifier = name.replace("_", "-")
    for rule in rules:
        if identifier == rule.id or identifier in rule.was:
            return rule
    return None


def rows_named(name, rows):
    """Return the rows of a word, by its name, its name from outside, or its path in a spec."""
    from ..render.listing import inner_names, path_matches

    if "." in name:
        return [row for row in rows if row.path and path_matches(row.path, name)]
    for known in inner_names(name):
        found = [row for row in rows if row.word == known]
        if found:
            return found
    return []


list_format_option = click.option("--format", "form", type=Choice(("terminal", "lines", "json")),
                                  default="terminal", show_default=True)
two_formats_option = click.option("--format", "form", type=Choice(("terminal", "json")), default="terminal", show_default=True)
rules_option = click.option("--rules", multiple=True, metavar="DIR", help="Ask the rule modules in DIR too. They are code: name only what you trust.")
color_option = click.option("--color", type=Choice(COLORS), default="auto", show_default=True,
                            help="Color on standard output.")
