"""Rule modules given as text, loaded through the door that every rule module goes through."""

import textwrap
from pathlib import Path

from buildlint import rulebook

HEAD = "from buildlint.rulebook import *\n\n"


def rules_of(folder, text, area="valvetrain"):
    """The rules of a module written into ``folder``/``area``."""
    place = Path(folder) / area
    place.mkdir(parents=True, exist_ok=True)
    (place / "trial.py").write_text(HEAD + textwrap.dedent(text), encoding="utf-8")
    return rulebook.load_folder(Path(folder), "trial_rules")


def decorated(body, **changes):
    """A rule about the stroke with a given body; ``changes`` replace arguments of the decorator."""
    given = {
        "scope": '"build"', "level": '"error"', "due": '"ordering"', "says": '"{crank_stroke} is more than {limit}."',
        "fix": '"Take a shorter stroke."', "source": '"common practice, no source"', "conforming": '"crank: {stroke: 3 in}"',
        "nonconforming": '"crank: {stroke: 4 in}  # <-"',
    }
    given.update(changes)
    arguments = ", ".join(f"{name}={value}" for name, value in given.items() if value is not None)
    return f"@rule({arguments})\n{textwrap.dedent(body).strip()}\n"


STROKE = '''
def stroke_stays_short_enough(crank_stroke: Length, *, limit: Length = q("3.5 in")):
    """A trial."""
    return at_most(crank_stroke, limit)
'''
