"""Files as they lie about in a real shop: several names for one, names of any bytes, folders nobody may enter,
records and standards in the wrong place. Nothing is passed over in silence and nothing is overwritten."""

import json
import os
from xml.etree import ElementTree

import pytest

from buildlint import cli, gather, road
from buildlint.changed import is_diff

SPEC = "build: {name: small street V8, stage: planning}\n"
WRONG = "bild: {stage: planning}\n"


@pytest.fixture
def folder(tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    shop = tmp_path / "shop"
    shop.mkdir()
    monkeypatch.chdir(shop)
    (shop / "a.yaml").write_text(SPEC)
    return shop


def told(capsys, *arguments):
    """(exit status, standard output, standard error) of a command."""
    status = cli.run(list(map(str, arguments)))
    return status, *capsys.readouterr()


# -- one file, several names --------------------------------------------------------------------------------


def test_a_file_is_taken_once_whatever_its_names(folder):
    (folder / "link.yaml").symlink_to("a.yaml")
    (folder / "further").mkdir()
    (folder / "further" / "link.yaml").symlink_to("../a.yaml")
    assert gather.gather(["."]) == (["a.yaml"], 0)
    assert gather.gather(["link.yaml", "a.yaml", "./a.yaml", "further"]) == (["a.yaml"], 0)
    assert len(gather.gather([str(folder / "a.yaml"), "a.yaml"])[0]) == 1


def test_a_link_to_a_spec_elsewhere_and_two_hard_links_are_specs_of_their_own(folder, tmp_path):
    (tmp_path / "elsewhere.yaml").write_text(SPEC)
    (folder / "link.yaml").symlink_to(tmp_path / "elsewhere.yaml")
    os.link("a.yaml", "b.yaml")
    assert gather.gather(["."])[0] == ["a.yaml", "b.yaml", "link.yaml"]


def test_a_folder_reached_through_a_link_holds_the_same_specs(folder, tmp_path):
    (tmp_path / "way").symlink_to(folder)
    assert len(gather.gather([".", str(tmp_path / "way")])[0]) == 1


def test_links_that_lead_nowhere_are_told_and_the_rest_is_checked(folder, capsys):
    (folder / "nowhere.yaml").symlink_to("gone")
    (folder / "circle.yaml").symlink_to("circle.yaml")
    status, out, err = told(capsys, "check", ".", "--format", "lines")
    assert status == 2 and "nowhere.yaml: There is no such file." in err and "circle.yaml: The file cannot be opened" in err
    assert "a.yaml:1:1" in out


def test_a_folder_nobody_may_enter_is_told_and_the_rest_is_checked(folder, monkeypatch, capsys):
    (folder / "locked").mkdir()
    walk = os.walk

    def locked(top, **options):
        options["onerror"](PermissionError(13, "Permission denied", str(folder / "locked")))
        return walk(top)

    monkeypatch.setattr(os, "walk", locked)
    status, out, err = told(capsys, "check", ".", "--format", "lines")
    assert status == 2 and "locked: " in err and "a.yaml:1:1" in out


# -- names of any bytes ---------------------------------------------------------------------------------------

NAMES = {
    "a line end": b"a\nb.yaml", "an escape": b"a\x1b[2Jb.yaml", "a command": b"::error::x.yaml", "bytes that are no UTF-8": b"\xe9.yaml",
    "a dash": b"-dash.yaml", "signs of an address": b"sp ace#%?.yaml", "a drive": b"c:x.yaml", "a backslash": b"a\\b.yaml", "a quote": b"a'\"<b>.yaml",
}


@pytest.mark.parametrize("name", NAMES.values(), ids=NAMES)
@pytest.mark.parametrize("form", ["terminal", "lines", "json", "sarif", "junit", "markdown", "annotations", "quality", "summary"])
def test_any_name_of_a_file_gives_a_sound_report(folder, capsys, name, form):
    (folder / "a.yaml").unlink()
    with open(os.path.join(os.fsencode(folder), name), "w") as file:
        file.write(WRONG)
    status, out, _ = told(capsys, "check", ".", "--format", form)
    assert status == 1
    out.encode("utf-8")  # no lone surrogate comes out
    assert "\x1b" not in out
    if form in ("json", "sarif", "quality"):
        assert json.loads(out)
    elif form == "junit":
        assert ElementTree.fromstring(out).tag == "testsuites"
    elif form == "lines":
        assert all(":1:1: " in each for each in out.splitlines())
    elif form == "annotations":
        assert all(each.startswith(("::error file=", "::warning file=", "::notice file=")) for each in out.splitlines())


def test_a_name_with_a_line_end_cannot_fake_a_line_of_ours(folder, capsys):
    for arguments in (["check", "a\nbuildlint: fine.yaml"], ["explain", "a\nb"], ["standard", "a\nb"], ["words", "zz\nb"]):
        status, out, err = told(capsys, *arguments)
        assert status == 2 and out == "" and err.count("\n") == 1 and "\\n" in err


# -- what was not checked is told everywhere ------------------------------------------------------------------


def test_what_could_not_be_checked_stands_in_the_report_of_a_code_host(folder, capsys):
    os.mkfifo("pipe.yaml")
    status, out, _ = told(capsys, "check", ".", "--format", "sarif")
    invocation, = json.loads(out)["runs"][0]["invocations"]
    note, = invocation["toolExecutionNotifications"]
    assert status == 2 and invocation["executionSuccessful"] is False
    assert note["level"] == "error" and "not checked: pipe.yaml" in note["message"]["text"]
    assert note["locations"][0]["physicalLocation"]["artifactLocation"]["uri"] == "pipe.yaml"


def test_what_could_not_be_checked_is_an_error_of_a_build_server_and_no_failure(folder, capsys):
    os.mkfifo("pipe.yaml")
    _, out, _ = told(capsys, "check", ".", "--format", "junit")
    suite = ElementTree.fromstring(out).findall("testsuite")[-1]
    assert suite.get("name") == "not checked" and suite.get("errors") == "1" and suite.get("failures") == "0"
    assert "pipe" in suite.find("testcase/error").get("message")


# -- records, diffs, standards ----------------------------------------------------------------------------------


def test_a_record_of_known_findings_never_takes_the_place_of_another_file(folder, capsys):
    (folder / "other.yaml").write_text("units: us\n")
    (folder / "link.yaml").symlink_to("a.yaml")
    for file in ("a.yaml", "./a.yaml", "link.yaml", "other.yaml"):
        status, _, err = told(capsys, "known", "a.yaml", "--file", file)
        assert status == 2 and "record" in err
    assert (folder / "a.yaml").read_text() == SPEC and (folder / "other.yaml").read_text() == "units: us\n"


def test_a_record_may_be_written_anew_and_into_an_empty_file(folder, capsys):
    (folder / "known.json").write_text("")
    assert told(capsys, "known", "a.yaml", "--file", "known.json")[0] == 0
    status, _, err = told(capsys, "known", "a.yaml", "--file", "known.json")
    assert status == 0 and "of 1 spec recorded" in err


def test_a_spec_is_no_record_of_known_findings(folder, capsys):
    status, out, err = told(capsys, "check", "a.yaml", "--known", "a.yaml")
    assert status == 2 and out == "" and "no record of known findings" in err and "buildlint known PATH" in err


@pytest.mark.parametrize("text", ["", "\n", "diff --git a/x b/x\nrename from x\n", "--- a/x\n+++ b/x\n", "Index: x\n"])
def test_a_diff_that_changes_no_line_is_a_diff(text):
    assert is_diff(text)


@pytest.mark.parametrize("text", ["build: {stage: planning}\n", "\x00\x01\ufffd", "no diff\n"])
def test_what_is_no_diff_is_refused(folder, capsys, text):
    (folder / "x.diff").write_text(text)
    status, out, err = told(capsys, "check", "a.yaml", "--changed", "x.diff")
    assert status == 2 and out == "" and "no unified diff" in err


def test_a_diff_from_a_closed_standard_input_is_told(folder, capsys, monkeypatch):
    monkeypatch.setattr("sys.stdin", None)
    status, _, err = told(capsys, "check", "a.yaml", "--changed", "-")
    assert status == 2 and "standard input is closed" in err


@pytest.mark.parametrize("make", [os.mkdir, os.mkfifo, lambda name: os.symlink("gone", name), lambda name: os.symlink(name, name),
                                  lambda name: os.symlink("/etc/passwd", name)],
                         ids=["a folder", "a pipe", "a link to nowhere", "a link in a circle", "a link out of the shop"])
def test_a_shop_standard_that_is_no_file_is_told_and_never_passed_over(folder, capsys, make):
    make("shop.yaml")
    for command in (["check", "a.yaml"], ["standard"]):
        status, out, err = told(capsys, *command)
        assert status == 2 and out == "" and err.startswith("buildlint: shop.yaml: ") and "itself" not in err


BROKEN = {
    "nothing": ("", "1:1: Nothing is written in this file", "`units:`"),
    "a list": ("[]", "1:1: The file holds a list", "`units:`"),
    "a bracket left open": ("rules: {a: b\n", "2:1:", "Close it"),
    "a key of a spec": ("build: {}\n", "1:1: The shop standard has no key `build`", "What may stand here"),
    "a key twice": ("units: us\nunits: metric\n", "2:1:", "first on line 1"),
    "a rule with an id of two words": (
        "rules:\n  - {id: my-rule, for: side, require: {spring_coil_bind_margin: present}, level: note, says: x, fix: y}\n",
        "2:10: `my-rule` is not the id of a rule", "shop-pushrods-are-one-piece"),
    "rules of every wrong kind": ("rules: [1, null, {}, [x]]\n", "1:9:", "keys of its own"),
    "units that are none": ("units: feet\n", "1:8:", "`us`, `metric`"),
}


@pytest.mark.parametrize("text, place, advice", BROKEN.values(), ids=BROKEN)
@pytest.mark.parametrize("more", [[], ["--prove"]], ids=["shown", "proved"])
def test_a_broken_shop_standard_is_told_at_its_place_with_advice(folder, capsys, text, place, advice, more):
    (folder / "shop.yaml").write_text(text)
    status, out, err = told(capsys, "standard", "a.yaml", *more)
    assert status == 2 and out == "" and f"buildlint: shop.yaml:{place}" in err and advice in err
    assert "`build:`" not in err and "catalogue has no key" not in err


def test_a_shop_standard_with_a_byte_order_mark_is_read(folder):
    (folder / "shop.yaml").write_bytes(b"\xef\xbb\xbfunits: us\n")
    assert road.standard_for("a.yaml").units == "us"


def test_the_standard_of_a_spec_that_is_not_there_is_not_made_up(folder, capsys):
    assert told(capsys, "standard", "b.yaml")[::2] == (2, "buildlint: b.yaml: there is no such file or folder\n")


# -- names misspelt ---------------------------------------------------------------------------------------------


def test_a_part_of_a_word_that_is_misspelt_is_answered_with_what_was_meant(folder, capsys):
    status, _, err = told(capsys, "words", "sprnig")
    assert status == 2 and "no word has sprnig in it. Did you mean spring" in err
    status, _, err = told(capsys, "words", "stroek", "--scope", "ring")
    assert status == 2 and "no word of the scope ring has stroek in it" in err


def test_an_empty_name_is_told_as_one(folder, capsys):
    assert "An empty name is neither a rule nor a word" in told(capsys, "explain", "")[2]
