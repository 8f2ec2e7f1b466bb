"""What a file may hold that no builder meant: one clear finding with a place, from both parsers, never a crash."""

import os
import random
import subprocess
import sys
import time
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from test_load import SPEC, dump, show

from buildlint import load as loading
from buildlint.load import load
from buildlint.model import Mapping

FORMED, PLAIN, ONCE, READABLE = "spec-is-well-formed", "value-is-plain-data", "key-is-written-once", "file-is-readable"
PARSERS = pytest.mark.parametrize("pure", [False, True], ids=["libyaml", "pure"])

# What stands in the file, the check, where (line:column), a piece of the message, a piece of the fix

NOT_READ = {
    # syntax
    "a colon in text": ("note: torque: 65\n", FORMED, "1:13", "second colon", 'note: "torque: 65"'),
    "a colon in text of a list item": ("a:\n  - name: b: c\n", FORMED, "2:12", "second colon", 'name: "b: c"'),
    "a key under a value": ("a: b\n c: d\n", FORMED, "2:3", "continuation", "Line the key up"),
    "no space after a colon": (
        "bore:4.030 in\nstroke: 3.75 in\n", FORMED, "2:7", "no space after its colon", "bore: 4.030 in",
    ),
    "no space after the last colon": ("stroke: 3.75 in\nbore:4.030 in\n", FORMED, "2:1", "no space", "bore: 4.030 in"),
    "a line that is no key": ("a: b\nc\nd: e\n", FORMED, "2:1", "neither a key", "key: value"),
    "a dash as a value": ("a: - 5\n", FORMED, "1:4", "list item", "[first, second]"),
    "an at sign first": ("a: @x\n", FORMED, "1:4", "begin with `@`", '"@x"'),
    "a back-tick first": ("a: `x`\n", FORMED, "1:4", "begin with", '"`x`"'),
    "a percent sign first": ("a: %x\n", FORMED, "1:4", "begin with `%`", '"%x"'),
    "a star without a name": ("a: * 5\n", FORMED, "1:4", "reference", "quotes"),
    "a lone ampersand": ("a: & b\n", FORMED, "1:4", "reference", "quotes"),
    "single quotes not closed": ("a: 'x\nb: c\n", FORMED, "1:4", "never closed", "Close it"),
    "double quotes not closed": ('a: "0.040\nb: c\n', FORMED, "1:4", "never closed", "inch sign"),
    "quotes not closed before a document": ('a: "x\n---\n', FORMED, "1:4", "never closed", "Close it"),
    "text behind quotes": ("a: 'x' y\n", FORMED, "1:8", "behind the closing `'`", "one pair of quotes"),
    "text behind a bracket": ("a: [b]c\n", FORMED, "1:7", "behind the closing `]`", "quotes"),
    "an anchor behind a bracket": ("a: [b] &c\n", FORMED, "1:8", "behind the closing `]`", "quotes"),
    "a tag behind a bracket": ("a: [b] !c\n", FORMED, "1:8", "behind the closing `]`", "quotes"),
    "an alias behind quotes": ("a: 'b' *c\n", FORMED, "1:8", "behind the closing `'`", "quotes"),
    "an unknown escape": ('a: "x\\q"\n', FORMED, "1:6", "backslash", "single quotes"),
    "an escape cut short": ('a: "x\\u12"\n', FORMED, "1:6", "backslash", "single quotes"),
    "half a surrogate pair": ('a: "\\ud800"\n', FORMED, "1:5", "escape", "single quotes"),
    "half a surrogate pair behind an escape": ('a: "\\x1b\\udfff"\n', FORMED, "1:9", "escape", "single quotes"),
    "a list not closed": ("a: [1, 2\nb: 3\n", FORMED, "2:2", "opens with `[` on line 1", "Close it"),
    "a mapping not closed": ("a: {b: 1\nc: 3\n", FORMED, "2:2", "opens with `{` on line 1", "Close it"),
    "a list never closed": ("a: [1, 2\n", FORMED, "2:1", "opens with `[` on line 1", "Close it"),
    "a closing brace alone": ("a: }\n", FORMED, "1:4", "without anything", "quotes"),
    "an indentation that fits nothing": (
        "a:\n    b: 1\n  c: 2\n", FORMED, "3:3", "indentation", "same number of spaces",
    ),
    "a file that begins indented": ("  a: 1\nb: 2\n", FORMED, "2:1", "indentation", "spaces"),
    "a key among items": ("a:\n- b\nc: 1\n- d\n", FORMED, "4:1", "indentation", "spaces"),
    "an item among keys at the margin": ("- a\nb: 1\n", FORMED, "2:1", "list item", "dash"),
    "no key in braces": ("{: a}\n", FORMED, "1:2", "without a key", "key before the colon"),
    "no key": (": a\n", FORMED, "1:1", "without a key", "key before the colon"),
    "text behind a block sign": ("a: |x\n  y\n", FORMED, "1:5", "rest of the line", "next line"),
    "a brace right behind a colon": ("a: {b:{c: 1}}\n", FORMED, "1:5", "no space after its colon", "b: {c: 1}"),
    "YAML 2.0": ("%YAML 2.0\n---\na: b\n", FORMED, "1:1", "percent sign", "Delete"),
    "YAML 1.3": ("%YAML 1.3\n---\na: b\n", FORMED, "1:1", "percent sign", "Delete"),
    "an unknown directive": ("%FOO bar\n---\na: b\n", FORMED, "1:1", "percent sign", "Delete"),
    "a tag cut short": ("a: !<x\n", FORMED, "1:4", "tag", "quotes"),
    "a tag of an unknown family": ("a: !b!c d\n", FORMED, "1:4", "tag", "quotes"),
    "a tag with a comma": ("a: !b,c d\n", FORMED, "1:4", "tag", "quotes"),
    "a key over 1,024 characters": ("x" * 1100 + ": 2\n", FORMED, "1:1", "longer than 1,024", "short key"),
    "a quoted key over 1,024 characters": (
        "'" + "x" * 1100 + "': 2\n", FORMED, "1:1", "longer than 1,024", "short key",
    ),
    "a long key in the middle": ("a: 1\n" + "x" * 1100 + ": 2\n", FORMED, "2:1", "longer than 1,024", "short key"),
    "only an end of document": ("...\n", FORMED, "1:1", "value was expected", "Write"),
    # tabs
    "a tab before a key": ("a:\n\tb: c\n", FORMED, "2:1", "tab", "spaces"),
    "a tab behind spaces": ("a:\n  \tb: c\n", FORMED, "2:3", "tab", "spaces"),
    "a tab before a key under a value": ("a: b\n\tc: d\n", FORMED, "2:1", "tab", "spaces"),
    "a tab at the margin": ("\ta: b\n", FORMED, "1:1", "tab", "spaces"),
    "tabs that would even nest": ("a:\n\tb:\n\t\tc: d\n", FORMED, "2:1", "tab", "spaces"),
    "a tab that makes a key twice": ("a: 1\n b: 2\n\ta: 3\n", FORMED, "2:3", "continuation", "Line the key up"),
    # depth and size
    "65 lists in each other": ("a: " + "[" * 65 + "]" * 65, FORMED, "1:67", "more than 64 deep", "eight levels"),
    "300 mappings in lines": (
        "".join(" " * depth + "a:\n" for depth in range(300)), FORMED, "65:65", "more than 64 deep", "eight",
    ),
    "900 mappings in braces": ("{a: " * 900 + "1" + "}" * 900, FORMED, "1:257", "more than 64 deep", "eight"),
    "100,000 lists": ("a: " + "[" * 100_000, FORMED, "1:67", "more than 64 deep", "eight"),
    "100,000 dashes": ("- " * 100_000, FORMED, "1:129", "more than 64 deep", "eight"),
    "100,000 question marks": ("? " * 100_000, FORMED, "1:129", "more than 64 deep", "eight"),
    "depth through aliases": (
        "a0: &a0 [x]\n" + "".join(f"a{n}: &a{n} [*a{n - 1}]\n" for n in range(1, 200)), FORMED, "64:12", "more than 64 deep", "eight",
    ),
    "an alias bomb": (
        "a0: &a0 [x, x, x, x, x, x, x, x, x]\n"
        + "".join(f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]\n" for n in range(1, 9)),
        FORMED, "7:10", "100,000 values", "Write the values out",
    ),
    "a bomb by the mapping": (
        "a0: &a0 {x: 1, y: 2}\n" + "".join(f"a{n}: &a{n} {{x: *a{n - 1}, y: *a{n - 1}}}\n" for n in range(1, 30)),
        FORMED, "17:15", "100,000 values", "Write the values out",
    ),
    # not a spec
    "an empty file": ("", READABLE, "1:1", "Nothing is written", "heading"),
    "only spaces": ("   \n  \n", READABLE, "1:1", "Nothing is written", "heading"),
    "only remarks": ("# later\n", READABLE, "1:1", "Nothing is written", "heading"),
    "only a document mark": ("---\n", READABLE, "2:1", "Nothing is written", "heading"),
    "only null": ("null\n", READABLE, "1:1", "Nothing is written", "heading"),
    "only a text": ("small street V8\n", FORMED, "1:1", "the text `small street V8`", "heading"),
    "only a number": ("383\n", FORMED, "1:1", "the text `383`", "heading"),
    "a list": ("- a\n- b\n", FORMED, "1:1", "a list", "heading"),
    # bytes
    "Latin-1": (b"a: 1\nb: 90\xb0\n", READABLE, "2:6", "0xB0 at offset 10", "UTF-8"),
    "a cut UTF-8 character": (b"a: \xe2\x80", READABLE, "1:4", "0xE2 at offset 3", "UTF-8"),
    "a surrogate in bytes": (b"a: \xed\xa0\x80\n", READABLE, "1:4", "0xED", "UTF-8"),
    "UTF-16 without a mark": ("a: 1\n".encode("utf-16-le"), READABLE, "1:1", "UTF-16 without", "UTF-8"),
    "UTF-16 big-endian without a mark": ("a: 1\n".encode("utf-16-be"), READABLE, "1:1", "UTF-16 without", "UTF-8"),
    "UTF-32": ("a: 1\n".encode("utf-32"), READABLE, "1:1", "UTF-32", "UTF-8"),
    "UTF-32 without a mark": ("a: 1\n".encode("utf-32-le"), READABLE, "1:1", "UTF-32 without", "UTF-8"),
    "UTF-16 cut in half": (b"\xff\xfea\x00b", READABLE, "1:1", "UTF-16", "UTF-8"),
    "more than 2 MB": (b"#" * 2_000_001, READABLE, "1:1", "2 MB", "Split"),
    "a program": (b"\x7fELF" + bytes(range(64)) * 4 + bytes(150), READABLE, "1:1", "no text file", "Name the spec itself"),
    "a photo": (b"\xff\xd8\xff\xe0\x00\x10JFIF\x00" + bytes(range(256)), READABLE, "1:1", "a photo (JPEG)", "Name the spec itself"),
    "a screenshot": (b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR", READABLE, "1:1", "a picture (PNG)", "Name the spec itself"),
    "a cam card as a PDF": (b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n1 0 obj\n", READABLE, "1:1", "a PDF", "Name the spec itself"),
    "a spreadsheet": (b"PK\x03\x04\x14\x00\x06\x00", READABLE, "1:1", "an archive or a document", "Name the spec itself"),
    "bytes of nothing known": (bytes(range(1, 256)), READABLE, "1:1", "no text file", "Name the spec itself"),
}

READ_ON = {
    # keys
    "a key twice": ("a: 1\nb: 2\na: 3\n", ONCE, "3:1", "first on line 1", "Delete", {"a": 1, "b": 2}),
    "a key twice further in": ("a: {b: 1, b: 2}\n", ONCE, "1:11", "`b` is written twice", "Delete", {"a": {"b": 1}}),
    "a key twice, once in quotes": ("a: 1\n'a': 2\n", ONCE, "2:1", "twice", "Delete", {"a": 1}),
    "a key twice in another spelling of its accent": (
        "e\u0301: 1\n\u00e9: 2\n", ONCE, "2:1", "twice", "Delete", {"\u00e9": 1},
    ),
    "a number as a key": ("1: a\n", PLAIN, "1:1", "is a number", '"1"', {"1": "a"}),
    "a decimal number as a key": ("a: {1.0: b}\n", PLAIN, "1:5", "is a number", '"1.0"', {"a": {"1.0": "b"}}),
    "true as a key": ("true: a\n", PLAIN, "1:1", "yes-or-no", '"true"', {"true": "a"}),
    "null as a key": ("null: a\n", PLAIN, "1:1", "empty value", '"null"', {"null": "a"}),
    "an empty key": ("?\n: a\n", PLAIN, "1:2", "without a key", "key before the colon", {"": "a"}),
    "a list as a key": ("[a]: b\nc: d\n", PLAIN, "1:1", "a list", "plain text", {"c": "d"}),
    "a mapping as a key": ("{a: b}: c\nd: e\n", PLAIN, "1:1", "a mapping", "plain text", {"d": "e"}),
    "an alias as a key": ("a: &x b\n*x : c\n", PLAIN, "2:1", "an alias", "plain text", {"a": "b"}),
    "a merge key": (
        "a: &x {b: 1}\nc: {<<: *x, d: 2}\n", PLAIN, "2:5", "merge key", "based_on", {"a": {"b": 1}, "c": {"d": 2}},
    ),
    "a merge of many": ("<<: [{a: 1}, {a: 2}]\nb: c\n", PLAIN, "1:1", "merge key", "based_on", {"b": "c"}),
    "a no-break space in a key": (
        "rev\u00a0limit: 1\n", PLAIN, "1:1", "ordinary space", "Type the line again", {"rev\u00a0limit": 1},
    ),
    "a no-break space as indentation": (
        "a:\n  b: 1\n\u00a0\u00a0c: 2\n", PLAIN, "3:1", "ordinary space", "Type", {"a": {"b": 1}, "\u00a0\u00a0c": 2},
    ),
    "an explicit key over 1,024 characters": (
        "? " + "x" * 1100 + "\n: 1\nb: c\n", FORMED, "1:3", "1,100 characters", "short key", {"b": "c"},
    ),
    # tags
    "a tag for text": ("a: !!str 5\n", PLAIN, "1:4", "`!!str`", "quote", {"a": "5"}),
    "a tag for Python": (
        "a: !!python/object/apply:os.system [x]\n", PLAIN, "1:4", "`!!python/object", "Take it out", {"a": ["x"]},
    ),
    "a tag of one's own": ("a: !foo b\n", PLAIN, "1:4", "`!foo`", "Take it out", {"a": "b"}),
    "binary data": ("a: !!binary aGVsbG8=\n", PLAIN, "1:4", "`!!binary`", "Take it out", {"a": "aGVsbG8="}),
    "a set": ("a: !!set {b, c}\n", PLAIN, "1:4", "`!!set`", "Take it out", {"a": {"b": None, "c": None}}),
    "an ordered mapping": ("a: !!omap [b: 1]\n", PLAIN, "1:4", "`!!omap`", "Take it out", {"a": [{"b": 1}]}),
    "a timestamp": ("a: !!timestamp 2026-13-45\n", PLAIN, "1:4", "`!!timestamp`", "Take it out", {"a": "2026-13-45"}),
    "a lone exclamation mark": ("a: ! 5\n", PLAIN, "1:4", "tag `!`", "Take it out", {"a": 5}),
    # anchors and aliases
    "an unknown alias": ("a: *b\nc: d\n", FORMED, "1:4", "`*b` refers", "quote text", {"a": None, "c": "d"}),
    "an alias of itself": (
        "a: &x [1, *x]\n", FORMED, "1:11", "inside the value", "Write the values out", {"a": [1, None]},
    ),
    "a mapping of itself": (
        "a: &x {b: *x}\n", FORMED, "1:11", "inside the value", "Write the values out", {"a": {"b": None}},
    ),
    "an anchor twice": (
        "a: &x 1\nb: &x 2\nc: *x\n", FORMED, "2:4", "twice", "name of its own", {"a": 1, "b": 2, "c": 2},
    ),
    "two documents": ("a: b\n---\nc: d\n", FORMED, "2:1", "second document", "one file", {"a": "b"}),
    "a broken second document": ("a: b\n---\nc: d: e\n", FORMED, "2:1", "second document", "one file", {"a": "b"}),
    # values
    "a number of 5,000 digits": (
        "a: " + "1" * 5000 + "\n", PLAIN, "1:4", "5,000 characters", "quote", {"a": "1" * 5000},
    ),
    "a number of 500 digits in a list": (
        "a: [" + "1" * 500 + "]\n", PLAIN, "1:5", "500 characters", "quote", {"a": ["1" * 500]},
    ),
    # characters
    "a NUL": ("a: b\0c\n", READABLE, "1:5", "U+0000", "Delete", {"a": "b c"}),
    "a raw escape": ("a: b\x1b[31mred\n", READABLE, "1:5", "U+001B", "Delete", {"a": "b [31mred"}),
    "a raw delete": ("a: b\x7f\n", READABLE, "1:5", "U+007F", "Delete", {"a": "b"}),
    "a control character of Latin-1": ("a: b\x9bc\n", READABLE, "1:5", "U+009B", "Delete", {"a": "b c"}),
    "a lone surrogate in text": ("a: b\ud800c\n", READABLE, "1:5", "U+D800", "Delete", {"a": "b c"}),
    "no character at all": ("a: b\uffff\n", READABLE, "1:5", "U+FFFF", "Delete", {"a": "b"}),
    "a line separator": ("a: b\u2028c\nd: e\n", READABLE, "1:5", "U+2028", "Replace", {"a": "b c", "d": "e"}),
    "a next-line character": ("a: b\x85c\n", READABLE, "1:5", "U+0085", "Replace", {"a": "b c"}),
    "text that turns round": ("a: b\u202ec\n", READABLE, "1:5", "U+202E", "Delete", {"a": "b\u202ec"}),
    "an isolate": ("a: b\u2066c\n", READABLE, "1:5", "U+2066", "Delete", {"a": "b\u2066c"}),
    "a zero-width space": ("a: b\u200bc\n", READABLE, "1:5", "U+200B", "Delete", {"a": "b\u200bc"}),
    "a byte order mark inside": ("a: b\ufeffc\n", READABLE, "1:5", "U+FEFF", "Delete", {"a": "b\u2060c"}),
    "two byte order marks": ("\ufeff\ufeffa: b\n", READABLE, "1:1", "U+FEFF", "Delete", {"\u2060a": "b"}),
    "a hidden character as an escape": ('a: "b\\x1bc"\n', READABLE, "1:4", "U+001B", "escape", {"a": "b\x1bc"}),
    "a hidden turn as an escape": ('a: "b\\u202ec"\n', READABLE, "1:4", "U+202E", "escape", {"a": "b\u202ec"}),
    "a hidden character in a key": ('"a\\0": b\n', READABLE, "1:1", "U+0000", "escape", {"a\0": "b"}),
    "a value cut by a number sign": (
        "note: bolt #4 long\n", PLAIN, "1:12", "the value is `bolt`", "quotes", {"note": "bolt"},
    ),
    "a value that is all remark": ("drill: #4\n", PLAIN, "1:8", "the value is empty", "quotes", {"drill": None}),
}

LEFT_ALONE = {
    "a remark": ("a: b # 4 long\n", {"a": "b"}),
    "a remark without a space": ("a: b #four\n", {"a": "b"}),
    "a number sign in quotes": ("a: 'bolt #4'\n", {"a": "bolt #4"}),
    "a number sign in quotes before a value": ("a: {b: 'bolt #4', c: d}\n", {"a": {"b": "bolt #4", "c": "d"}}),
    "a number sign in a word": ("a: bolt#4\n", {"a": "bolt#4"}),
    "a number sign in a block of text": ("a: |\n  bolt #4\n", {"a": "bolt #4\n"}),
    "a number sign on a line of its own": ("a: b\n #4\n", {"a": "b"}),
    "a tab behind a colon": ("a:\tb\n", {"a": "b"}),
    "a tab before a remark": ("a: b\t# c\n", {"a": "b"}),
    "a tab in a block of text": ("a: |\n  b\n  \tc\nd: e\n", {"a": "b\n c\n", "d": "e"}),
    "a tab on an empty line": ("a: b\n\t\nc: d\n", {"a": "b", "c": "d"}),
    "a tab before a remark line": ("a: b\n\t# c\nd: e\n", {"a": "b", "d": "e"}),
    "an equals sign": ("a: =\n", {"a": "="}),
    "a merge sign as a value": ("a: <<\n", {"a": "<<"}),
    "a merge sign in quotes as a key": ("'<<': a\n", {"<<": "a"}),
    "YAML 1.1 words": ("on: off\nyes: no\n", {"on": "off", "yes": "no"}),
    "YAML 1.2 named": ("%YAML 1.2\n---\na: b\n", {"a": "b"}),
    "marks around one document": ("---\na: b\n...\n", {"a": "b"}),
    "an alias": ("a: &x 1\nb: [*x, *x]\n", {"a": 1, "b": [1, 1]}),
    "sixty-four levels": ("a: " + "[" * 63 + "]" * 63, None),
    "a question mark inside braces": (
        "a: {b: is it true?, c: what? yes}\n", {"a": {"b": "is it true?", "c": "what? yes"}},
    ),
    "no final line end": ("a: b", {"a": "b"}),
    "a minus sign": ("a: -5\n", {"a": -5}),
    "a no-break space in a value": ("a: 5\u00a0mm\n", {"a": "5\u00a0mm"}),
    "an inch sign": ("a: 0.040\"\nb: 0.040\u2033\n", {"a": '0.040"', "b": "0.040\u2033"}),
    "an accent": ("customer: Jos\u00e9\n", {"customer": "Jos\u00e9"}),
    "a colon without a space": ("a: 10:1\n", {"a": "10:1"}),
    "text over two lines": ("a: b\n  c\n", {"a": "b c"}),
    "an escaped line end": ('a: "b\\\n  c"\n', {"a": "bc"}),
    "a quoted word over two lines": ("a: 'b\n\n  c'\n", {"a": "b\nc"}),
}


def table(cases):
    return pytest.mark.parametrize("case", cases.values(), ids=cases)


@PARSERS
@table(NOT_READ)
def test_it_is_refused_with_a_place_and_what_to_write_instead(case, pure):
    text, check, place, message, fix = case
    tree, problems = load(text, "spec.yaml", pure=pure)
    assert tree is None
    last = problems[-1]
    assert (last.check, last.level, f"{last.place.line}:{last.place.column}") == (check, "error", place), last
    assert message in last.message and fix in last.fix


@PARSERS
@table(READ_ON)
def test_it_is_told_and_the_rest_is_read(case, pure):
    text, check, place, message, fix, expected = case
    tree, problems = load(text, "spec.yaml", pure=pure)
    assert len(problems) == 1, problems
    problem = problems[0]
    assert (problem.check, f"{problem.place.line}:{problem.place.column}") == (check, place), problem
    assert message in problem.message and fix in problem.fix
    assert show(tree) == expected


@PARSERS
@table(LEFT_ALONE)
def test_it_is_left_alone(case, pure):
    text, expected = case
    tree, problems = load(text, "spec.yaml", pure=pure)
    assert problems == []
    assert expected is None or show(tree) == expected


@table({**NOT_READ, **READ_ON, **LEFT_ALONE})
def test_both_parsers_give_the_same_tree_messages_and_places(case):
    tree, problems = load(case[0], "spec.yaml")
    pure, pure_problems = load(case[0], "spec.yaml", pure=True)
    assert problems == pure_problems
    assert (tree is None) == (pure is None)
    assert tree is None or dump(tree) == dump(pure)


def test_without_libyaml_the_pure_parser_is_taken(monkeypatch):
    import sys

    loading._fast_parser.cache_clear()
    try:
        with monkeypatch.context() as patched:
            patched.setitem(sys.modules, "yaml._yaml", None)
            assert loading._fast_parser() is loading._pure_parser()
            tree, problems = load(SPEC, "spec.yaml")
    finally:
        loading._fast_parser.cache_clear()
    assert loading._fast_parser() is not loading._pure_parser()
    assert problems == [] and dump(tree) == dump(load(SPEC, "spec.yaml")[0])


def test_levels_tell_what_is_grave():
    def levels(text):
        return [problem.level for problem in load(text, "spec.yaml")[1]]

    assert levels("a: b\u202e\n") == ["error"]
    assert levels("a: b\u200b\n") == ["warning"]
    assert levels("a: b #4\n") == ["note"]


def test_many_characters_of_one_kind_are_counted_not_listed():
    _, problems = load("a: '" + "\u200b" * 5000 + "\u202e" * 2 + "'\n", "spec.yaml")
    assert len(problems) == 5
    assert "4,997 more" in problems[2].message


def test_a_flood_of_problems_is_stopped():
    tree, problems = load("a: 1\n" * 5000, "spec.yaml")
    assert tree is None and len(problems) == 201 and "200 problems" in problems[-1].message


def test_a_tab_is_the_only_thing_told_where_it_is_the_cause():
    _, problems = load("a:\n\tb: 1\n\tb: 2\n", "spec.yaml")
    assert [problem.message for problem in problems] == [
        "A tab stands in the indentation of this line; YAML indents with spaces only."
    ]


def test_the_budget_of_aliases_is_for_files_with_aliases_only():
    large = "a:\n" + "- x\n" * 150_000
    assert load(large, "spec.yaml")[1] == []
    assert load("b: &b 1\nc: *b\n" + large, "spec.yaml")[1] == []


def test_a_second_value_of_a_key_with_a_bomb_is_refused_too():
    bomb = "a: &a0 [x, x, x, x, x, x, x, x, x]\n"
    bomb += "".join(f"a: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]\n" for n in range(1, 9))
    tree, problems = load(bomb, "spec.yaml")
    assert tree is None and "100,000 values" in problems[-1].message


def test_no_byte_of_a_binary_file_is_shown():
    _, problems = load(b"\x00\x01secret" * 100, "spec.yaml")
    assert all("secret" not in problem.message + problem.fix for problem in problems if problem.check == READABLE)


# Anything at all

LIMITS = settings(max_examples=300, deadline=None)


def check_anything(data):
    for pure in (False, True):
        tree, problems = load(data, "spec.yaml", pure=pure)
        assert tree is None or isinstance(tree, Mapping)
        assert tree is not None or problems
        for problem in problems:
            assert problem.message and problem.place.line >= 1 and problem.place.column >= 1
            assert (problem.place.end_line, problem.place.end_column) >= (problem.place.line, problem.place.column)
            assert len(problem.message) < 400 and "\n" not in problem.message


@given(st.binary(max_size=300))
@LIMITS
def test_random_bytes_never_raise(data):
    check_anything(data)


@given(st.text(st.characters() | st.sampled_from("\n\n\n  ::--[]{}'\"#&*!|>%@`\\\t,?"), max_size=120))
@LIMITS
def test_random_text_never_raises(text):
    check_anything(text)


PIECES = [
    "\t", " ", "\n", "\r\n", "\r", ":", ": ", "- ", "[", "]", "{", "}", "'", '"', "#", " #4", "&a ", "*a", "!", "!!str ", "|", ">",
    "%", "@", "`", "\\", "\\u12", "\0", "\x7f", "\u2028", "\u202e", "\ufeff", "\u00a0", "\u00e9", "e\u0301", "---\n", "...\n", "<<: ",
    "? ", "~", "\ud800", "\U0001f600", ", ", "0x", "1_0", "%YAML 1.2\n---\n", "\x85", "  ", "\n\n", "1" * 500,
]  # fmt: skip


@given(st.integers(0, 2**32), st.integers(1, 8))
@LIMITS
def test_mutated_specs_never_raise(seed, changes):
    chance = random.Random(seed)
    text = SPEC
    for _ in range(changes):
        at = chance.randrange(len(text) + 1)
        if chance.random() < 0.6:
            text = text[:at] + chance.choice(PIECES) + text[at:]
        else:
            text = text[:at] + text[at + chance.randrange(1, 30) :]
    check_anything(text)
    check_anything(text.encode("utf-8", "surrogatepass"))


# -- a file full of mistakes takes its time, and not more -------------------------------------------------------


FLOODS = {
    "unknown keys": ("build: {stage: planning}\n", "odd_%d: {a: 1.800 in, b: 2 in}\n", "key-is-known"),
    "unknown keys of a heading": ("intake:\n  spring:\n", "    hieght_%d: 1 in\n", "key-is-known"),
    "permits for rules that are none": ("permits:\n", "  - {rule: no-such-rule-as-%d, at: /x, because: y, approved: RM, until: 2027-01-01}\n",
                                        "permit-names-a-rule"),
    "reminders that are none": ("assembly:\n  signed:\n", "    - {check: no-such-check-%d, by: RM, on: 2026-01-01}\n", "sign-off"),
    "units that are none": ("intake: {spring: {load_table: [", "[1.%d inn, 1 lbff], ", "quantity"),
}


@pytest.mark.timeout(120)
@pytest.mark.parametrize("head, row, rule", FLOODS.values(), ids=FLOODS)
def test_a_flood_of_mistakes_is_told_within_seconds(head, row, rule):
    from buildlint import road

    count = 6000
    text = head + "".join(row % number for number in range(count)) + ("]}}\n" if "{" in head.partition("build")[0] else "")
    began = time.process_time()
    report = road.check("flood.yaml", text=text.encode())
    assert time.process_time() - began < 10
    assert report.crashed == ()
    told = [finding for finding in report.findings if finding.kind == "fail" and finding.level in ("error", "warning")]
    assert told and (rule in ("sign-off", "quantity") or sum(finding.rule == rule for finding in told) == count)


@pytest.mark.skipif(not hasattr(os, "fork"), reason="the memory of a child is read the way of POSIX systems")
def test_the_largest_file_that_is_read_keeps_within_the_memory_of_a_small_machine(tmp_path):
    """At most 300 MB for a file at the limit of 2 MB, and seconds: a list of measurements nobody could have taken."""
    spec = tmp_path / "large.yaml"
    spec.write_text("build: {stage: planning}\ncrank: {rod_journal_diameter: {measured: [" + ", ".join(["2.1000 in"] * 180_000) + "]}}\n")
    assert 1_900_000 < spec.stat().st_size < 2_000_000
    begin = ("import resource, subprocess, sys; subprocess.run([sys.executable, '-m', 'buildlint', 'check', sys.argv[1], '--format', 'lines'], "
             "stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL); usage = resource.getrusage(resource.RUSAGE_CHILDREN); "
             "print(usage.ru_maxrss // (1024 * 1024 if sys.platform == 'darwin' else 1024), usage.ru_utime)")
    run = subprocess.run([sys.executable, "-c", begin, str(spec)], capture_output=True, text=True, timeout=120,
                         env={**os.environ, "PYTHONPATH": str(Path(__file__).parent.parent), "XDG_CACHE_HOME": str(tmp_path)})
    memory, seconds = run.stdout.split()
    assert int(memory) < 300 and float(seconds) < 20
