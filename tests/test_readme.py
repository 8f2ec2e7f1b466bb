"""What the README shows is what the program does."""

import re
from pathlib import Path

from click.testing import CliRunner

from buildlint import cli
from buildlint.render import FORMATS

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")


def shown(*arguments, columns="80"):
    return CliRunner(env={"COLUMNS": columns, "NO_COLOR": "1"}).invoke(cli.commands, arguments).stdout


def block(name):
    return re.search(rf"<!-- {name} -->\n(.*?)<!-- end -->", README, re.S)[1]


def test_the_screen_is_a_piece_of_what_the_first_command_shows(monkeypatch):
    monkeypatch.chdir(ROOT)
    screen = shown("check", "examples/flawed.yaml")
    pieces = re.sub("^```.*$", "", block("screen"), flags=re.M).strip("\n").split("\n...\n")
    assert len(pieces) > 2
    place = 0
    for piece in pieces:
        found = screen.find(piece.strip("\n"), place)
        assert found >= 0, f"the screen no longer shows this, or not in this order:\n{piece}\n--- it shows:\n{screen}"
        place = found + len(piece)
    assert screen.rstrip().endswith(pieces[-1].strip())


def test_every_command_has_its_row_and_every_row_a_command():
    table = README.split("| command | |")[1].split("\n\n")[0]
    rows = set(re.findall(r"`([a-z]+)[ \w\[\].]*`(?=[ ,|])", "\n".join(row.split("|")[1] + "|" for row in table.splitlines() if "|" in row)))
    assert rows == set(cli.NAMES)


def test_every_format_is_named():
    row = next(row for row in README.splitlines() if row.startswith("| `check"))
    choices = re.search(r"terminal[\w, ]+?(?=, each)", row)[0].replace(" and ", ", ").split(", ")
    assert choices == list(FORMATS)


def test_the_small_spec_can_be_judged(tmp_path):
    (tmp_path / "card.yaml").write_text(re.search(r"```yaml\n(build: .*?)```", README, re.S)[1], encoding="utf-8")
    screen = shown("check", str(tmp_path / "card.yaml"))
    assert "valve-tip-is-hard-enough" in screen and "key-is-known" not in screen
