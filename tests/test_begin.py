"""A starter spec checks clean as it is, says what to write next in words that are right, and spoils no file."""

import re

import pytest

from buildlint import begin, cli, road
from buildlint.model import FAIL

SHAPE = ("key-is-known", "choice-is-known", "value-has-its-shape", "spec-is-well-formed", "key-is-written-once",
         "value-is-plain-data")


def failed(text):
    return [finding for finding in road.check("start.yaml", text=text).findings if finding.kind == FAIL]


def serious(text):
    return [(finding.level, finding.rule, finding.message) for finding in failed(text) if finding.level != "note"]


@pytest.mark.parametrize("wanted", [
    {}, {"duty": "stock"}, {"duty": "street_strip"}, {"duty": "towing"}, {"duty": "marine"},
], ids=lambda wanted: " ".join(map(str, wanted.values())) or "as it comes")
def test_a_starter_spec_checks_clean(wanted):
    assert serious(begin.spec(**wanted)) == []


@pytest.mark.parametrize("cylinders", range(1, 17))
@pytest.mark.parametrize("layout", [None, "v", "inline", "flat"])
def test_every_engine_gets_a_spec_that_checks_clean(cylinders, layout):
    if layout in ("v", "flat") and cylinders % 2:
        with pytest.raises(begin.NotKnown, match="two like banks"):
            begin.spec(cylinders, layout)
    else:
        assert serious(begin.spec(cylinders, layout)) == []


def test_an_order_that_is_no_engines_is_called_so():
    assert "firing_order: [1, 8, 4, 3, 6, 5, 7, 2]  # as YOUR engine fires" in begin.spec(8)
    assert "firing_order: [1, 2, 3, 4, 5]      # NOT an engine's" in begin.spec(5)


def uncovered(text):
    """The starter with every line that comes next taken out of its comment."""
    lines = []
    for line in text.splitlines():
        found = re.fullmatch(r"( *)# ( *[a-z_0-9]+:.*)", line)
        if found:
            line = found.group(1) + found.group(2)
        lines.append(line)
    return "\n".join(lines) + "\n"


@pytest.mark.parametrize("cylinders", [4, 6, 8])
def test_what_comes_next_is_written_in_words_of_the_vocabulary(cylinders):
    text = uncovered(begin.spec(cylinders, "inline" if cylinders == 6 else None))
    assert "\nblock:\n  material: cast_iron\n" in text and "\n  transmission: manual" in text
    questionable = (*SHAPE, "value-lies-in-plausible-range", "written-unit-fits-the-value")
    assert [(finding.rule, finding.message) for finding in failed(text) if finding.rule in questionable] == []


def test_no_name_of_a_choice_is_taken_that_is_not_known():
    for wanted in ({"layout": "vee"}, {"duty": "fast"}, {"induction": "turbo"}):
        with pytest.raises(begin.NotKnown, match="There are "):
            begin.spec(**wanted)
    with pytest.raises(begin.NotKnown, match="turbo is not an induction. Did you mean turbocharged?"):
        begin.spec(induction="turbo")


def test_a_file_is_written_once_and_never_over_another(tmp_path, capsys):
    file = tmp_path / "new.yaml"
    assert cli.run(["begin", str(file), "--cylinders", "6", "--layout", "inline"]) == 0
    assert file.read_text() == begin.spec(6, "inline")
    out, err = capsys.readouterr()
    assert out == "" and f"buildlint check {file}" in err
    file.write_text("mine")
    assert cli.run(["begin", str(file)]) == 2
    assert file.read_text() == "mine"


def test_without_a_file_the_spec_is_printed(capsys):
    assert cli.run(["begin"]) == 0
    assert capsys.readouterr() == (begin.spec(), "")


def test_a_file_that_cannot_be_written_is_told(tmp_path, capsys):
    (tmp_path / "builds").write_text("no folder")
    assert cli.run(["begin", str(tmp_path / "builds" / "new.yaml")]) == 3
    assert "its folder cannot be made" in capsys.readouterr().err


def test_the_folder_of_the_first_example_need_not_be_there(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert cli.run(["begin", "builds/street.yaml"]) == 0 and (tmp_path / "builds" / "street.yaml").read_text() == begin.spec()


@pytest.mark.parametrize("order", begin.FIRING_ORDERS.items(), ids=str)
def test_a_firing_order_names_each_cylinder_once(order):
    (_, cylinders), firing = order
    assert sorted(firing) == list(range(1, cylinders + 1))
