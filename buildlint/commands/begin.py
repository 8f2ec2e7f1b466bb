"""A starter spec."""

import click

from . import FINE, UNWRAPPED, CannotStart, NotWritten, put, say


@click.command(short_help="Write a starter spec with a comment on every line.", epilog=f"""{UNWRAPPED}
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

    A file that is there already is never overwritten; a folder that is not there yet is made.
    """
    from .. import begin as starter
    from ..deliver import CannotWrite, create, make_folder_of

    try:
        text = starter.spec(cylinders, layout, duty, induction)
    except starter.NotKnown as error:
        raise CannotStart(str(error)) from error
    if file is None:
        put(text)
        return FINE
    try:
        make_folder_of(file)
        create(file, text)
    except FileExistsError as error:
        raise CannotStart(f"{file} is there already; it is left as it is. Choose another name") from error
    except CannotWrite as error:
        raise NotWritten(str(error)) from error
    say(f"{file} is begun. Next: fill in what is known, then buildlint check {file}")
    return FINE
