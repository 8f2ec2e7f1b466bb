"""How wide a screen is and whether it takes color, from the environment and the stream that is written to."""

import os

USUAL = 80  # where nobody tells


def width(environment, stream):
    """Return the cells across: COLUMNS (POSIX) wins over the terminal; ``stream`` is None where there is none."""
    columns = environment.get("COLUMNS", "")
    if columns.isascii() and columns.isdigit() and int(columns[:6]) > 0:
        return int(columns[:6])
    if stream is not None:
        try:
            return os.get_terminal_size(stream.fileno()).columns or USUAL
        except (OSError, ValueError):
            pass
    return USUAL


def colored(option, environment, stream):
    """Whether to color: the option wins over NO_COLOR, that over CLICOLOR_FORCE, that over the terminal.

    ``option`` is auto, always or never. An empty variable counts as not set. A file (no stream) is colored only
    where the option says always.
    """
    if option != "auto":
        return option == "always"
    if environment.get("NO_COLOR") or stream is None:
        return False
    if environment.get("CLICOLOR_FORCE", "0") not in ("", "0"):
        return True
    return environment.get("TERM", "") not in ("", "dumb") and stream.isatty()
