"""What the loader makes of a file: meanings, places, raw texts, and the same from both parsers."""

import os
import re
import socket
import unicodedata

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from buildlint import decode
from buildlint.load import Unreadable, load, read_bytes
from buildlint.model import Mapping, Scalar, Sequence
from buildlint.nodes import meaning
from buildlint.trees import scalars

SPEC = """\
# Hollow Creek Engine Works: small street V8
units: us
build:
  name: 355 street   # the shop's name for it
  number: 00417
  stage: ordering
engine: {cylinders: 8, firing_order: [1, 8, 4, 3, 6, 5, 7, 2], stated_compression_ratio: 10:1}
heads:
  chamber_volume: {plan: 64 cc, measured: [64.2 cc, 63.9 cc], by: RM, on: 2026-03-02}
intake:
  spring: {installed_height: 1.800 in, load_table: [[1.800 in, 130 lbf],
           [1.235 in, 339 lbf]], notes: "0.5\\u2033, \\"tight\\""}
  valve:
    length: '4.92 in'
    stem_height: &height 2.500 in
exhaust:
  valve:
    stem_height: *height
joints:
  head:
    torque_steps:
    - 25 lbf-ft
    - 45 lbf-ft
notes: |
  First line.

    Second line.

# the end
order:
"""


def show(node):
    """A tree as plain data."""
    if isinstance(node, Mapping):
        return {name: show(entry.node) for name, entry in node.entries.items()}
    if isinstance(node, Sequence):
        return [show(item) for item in node.items]
    return node.value


def dump(node):
    """A tree with every place, text and key."""
    if isinstance(node, Mapping):
        return node.place, [(name, dump(entry.key), dump(entry.node)) for name, entry in node.entries.items()]
    if isinstance(node, Sequence):
        return node.place, [dump(item) for item in node.items]
    return node.place, node.text, repr(node.value), node.plain


def tree_of(text):
    tree, problems = load(text, "spec.yaml")
    assert problems == []
    return tree


def find(tree, path):
    """(key, node) at a path such as intake.valve.length or torque_steps.1."""
    key, node = None, tree
    for step in path.split("."):
        if isinstance(node, Sequence):
            key, node = None, node.items[int(step)]
        else:
            entry = node.entries[step]
            key, node = entry.key, entry.node
    return key, node


def span(place):
    return f"{place.line}:{place.column}-{place.end_line}:{place.end_column}"


def cut(text, place):
    """The part of a text at a place."""
    lines = re.split(r"(?<=\n)|(?<=\r)(?!\n)", text)[place.line - 1 : place.end_line]
    lines[-1] = lines[-1][: place.end_column - 1]
    lines[0] = lines[0][place.column - 1 :]
    return "".join(lines)


# What a plain value means

MEANINGS = {
    "a ratio is text, not base sixty": ("10:1", "10:1"),
    "a time of day is text": ("12:30", "12:30"),
    "three parts with colons are text": ("190:20:30", "190:20:30"),
    "on is text": ("on", "on"),
    "off is text": ("off", "off"),
    "yes is text": ("yes", "yes"),
    "no is text": ("NO", "NO"),
    "y is text": ("y", "y"),
    "a leading zero does not make it octal": ("010", 10),
    "an octal digit eight is a number": ("0778", 778),
    "0o is octal": ("0o17", 15),
    "0x is hexadecimal": ("0x1F", 31),
    "0b is text": ("0b11", "0b11"),
    "0x without digits is text": ("0x_", "0x_"),
    "an exponent without point": ("1e3", 1000.0),
    "an exponent with point": ("1.0e3", 1000.0),
    "a negative exponent": ("1E-3", 0.001),
    "a point first": (".5", 0.5),
    "a point last": ("5.", 5.0),
    "a sign": ("-12", -12),
    "a plus sign": ("+1.5", 1.5),
    "a lone sign is text": ("-.", "-."),
    "underscores are text": ("1_000", "1_000"),
    "underscores in a fraction are text": ("0.1_0", "0.1_0"),
    "a date is text": ("2026-03-05", "2026-03-05"),
    "an impossible date is text": ("2026-13-45", "2026-13-45"),
    "an infinite number": ("-.inf", float("-inf")),
    "too large a number": ("1.0e+400", float("inf")),
    "true in capitals": ("TRUE", True),
    "true in mixed letters is text": ("tRue", "tRue"),
    "false": ("False", False),
    "null": ("NULL", None),
    "a tilde": ("~", None),
    "nothing": ("", None),
    "a thread": ("10-32", "10-32"),
    "a coarse thread": ("1/2-13", "1/2-13"),
    "a fraction": ("1-1/4", "1-1/4"),
    "a firing order with dashes": ("1-8-4-3-6-5-7-2", "1-8-4-3-6-5-7-2"),
    "a firing order in one": ("18436572", 18436572),
    "an equals sign": ("=", "="),
    "digits of another script are text": ("\u0661\u0662", "\u0661\u0662"),
    "a full-width digit is text": ("\uff11", "\uff11"),
}


@pytest.mark.parametrize("text, value", MEANINGS.values(), ids=MEANINGS)
def test_a_plain_value_means_what_yaml_1_2_says(text, value):
    node = tree_of(f"length: {text}\n").get("length")
    assert node.value == value and type(node.value) is type(value)
    assert node.text == text and node.plain


def test_not_a_number_is_read_as_such_for_the_quantities_to_refuse():
    assert tree_of("length: .nan\n").get("length").value != tree_of("length: .NaN\n").get("length").value


def test_a_part_number_keeps_its_zeros_as_text():
    node = tree_of("part: 00123456\n").get("part")
    assert (node.text, node.value) == ("00123456", 123456)


@pytest.mark.parametrize("quote", ["'", '"'])
def test_a_quoted_number_is_text(quote):
    node = tree_of(f"part: {quote}00123456{quote}\n").get("part")
    assert (node.text, node.value, node.plain) == ("00123456", "00123456", False)


def test_the_meanings_agree_with_python_where_a_number_is_a_number():
    for text in ("0", "-0", "007", "1.25", "6.02e23", "-1.5E+3"):
        assert meaning(text) == float(text)


# Where things stand

PLACES = {
    "a plain value": ("units", "2:8-2:10"),
    "a value before a remark": ("build.name", "4:9-4:19"),
    "a value in braces": ("engine.cylinders", "7:21-7:22"),
    "an item in brackets": ("engine.firing_order.7", "7:60-7:61"),
    "a list in brackets": ("engine.firing_order", "7:38-7:62"),
    "a mapping in braces": ("engine", "7:9-7:95"),
    "a value with a colon": ("engine.stated_compression_ratio", "7:90-7:94"),
    "a list over two lines": ("intake.spring.load_table", "11:52-12:32"),
    "double quotes with escapes": ("intake.spring.notes", "12:41-12:63"),
    "single quotes": ("intake.valve.length", "14:13-14:22"),
    "a value behind an anchor": ("intake.valve.stem_height", "15:26-15:34"),
    "an alias stands where its value was written": ("exhaust.valve.stem_height", "15:26-15:34"),
    "a mapping in lines ends with its last value": ("intake.valve", "14:5-15:34"),
    "a mapping ends with an alias": ("exhaust.valve", "18:5-18:25"),
    "a list in lines": ("joints.head.torque_steps", "22:5-23:16"),
    "an item in lines": ("joints.head.torque_steps.1", "23:7-23:16"),
    "a block of text ends with its last line": ("notes", "24:8-27:17"),
    "an empty value": ("order", "30:7-30:7"),
}


@pytest.mark.parametrize("path, expected", PLACES.values(), ids=PLACES)
def test_a_node_knows_its_place(path, expected):
    assert span(find(tree_of(SPEC), path)[1].place) == expected


KEYS = {
    "at the margin": ("engine", "7:1-7:7"),
    "in lines": ("intake.valve.length", "14:5-14:11"),
    "in braces": ("heads.chamber_volume.by", "9:63-9:65"),
    "with an empty value": ("order", "30:1-30:6"),
}


@pytest.mark.parametrize("path, expected", KEYS.values(), ids=KEYS)
def test_a_key_knows_its_place(path, expected):
    assert span(find(tree_of(SPEC), path)[0].place) == expected


def test_the_whole_file_runs_from_the_first_key_to_the_last_value():
    assert span(tree_of(SPEC).place) == "2:1-30:7"


ENDS = {"unix": "\n", "windows": "\r\n", "lone carriage return": "\r"}


@pytest.mark.parametrize("end", ENDS.values(), ids=ENDS)
def test_line_ends_do_not_move_places(end):
    assert dump(tree_of(SPEC.replace("\n", end))) == dump(tree_of(SPEC))


def test_mixed_line_ends_are_counted_one_by_one():
    tree = tree_of("a: 1\r\nb: 2\rc: 3\nd: 4\r\r\ne: 5")
    assert [entry.key.place.line for entry in tree.entries.values()] == [1, 2, 3, 4, 6]


MARKS = {"none": "utf-8", "utf-8": "utf-8-sig", "utf-16": "utf-16"}


@pytest.mark.parametrize("encoding", MARKS.values(), ids=MARKS)
@pytest.mark.parametrize("pure", [False, True], ids=["libyaml", "pure"])
def test_a_byte_order_mark_does_not_move_places(encoding, pure):
    tree, problems = load(SPEC.encode(encoding), "spec.yaml", pure=pure)
    assert problems == [] and dump(tree) == dump(tree_of(SPEC))


def test_big_endian_utf_16_is_read_as_well():
    tree, problems = load(b"\xfe\xff" + SPEC.encode("utf-16-be"), "spec.yaml")
    assert problems == [] and dump(tree) == dump(tree_of(SPEC))


def test_columns_count_characters_not_bytes():
    key, node = find(tree_of("bohrung \u00d8: 4.030 in\n"), "bohrung \u00d8")
    assert span(key.place) == "1:1-1:10" and span(node.place) == "1:12-1:20"
    node = tree_of("a: {b: \U0001f527, c: 64 cc}\n").get("a").get("c")
    assert span(node.place) == "1:14-1:19"


def test_the_label_of_the_file_is_in_every_place():
    assert {scalar.place.file for scalar in scalars(tree_of(SPEC))} == {"spec.yaml"}


def test_an_aliased_node_is_shared():
    tree = tree_of("a: &coil {wire: 0.2 in}\nb: *coil\n")
    assert tree.get("a") is tree.get("b")


def test_folded_text_is_unfolded():
    tree = tree_of("a: >-\n  one\n  two\nb: one\n  two\nc: 'it''s'\n")
    assert show(tree) == {"a": "one two", "b": "one two", "c": "it's"}


def test_numbers_may_be_keys_at_the_top_of_a_catalogue_only():
    text = "00123456:\n  crank: {stroke: 3.75 in}\n  7: x\n"
    tree, problems = load(text, "parts.yaml", numbers_as_keys=True)
    assert list(tree.entries) == ["00123456"] and tree.entries["00123456"].key.text == "00123456"
    assert [problem.place.line for problem in problems] == [3]


def test_the_first_value_of_a_key_is_kept_and_everything_else_is_read():
    tree, problems = load("a: 1\nb: {c: 2, c: 3}\na: 4\nd: 5\n", "spec.yaml")
    assert show(tree) == {"a": 1, "b": {"c": 2}, "d": 5}
    assert [(problem.pointer, problem.related[0][1].line) for problem in problems] == [("/b/c", 2), ("/a", 1)]


def test_pointers_follow_rfc_6901():
    _, problems = load("a/b~: [x, {c: 1, c: 2}]\n", "spec.yaml")
    assert problems[0].pointer == "/a~1b~0/1/c"


# Signs that the parsers of PyYAML take for something else, or about which they differ; YAML 1.2.2, sections 6.6, 6.9 and 7.3.3

MISREAD = {
    "a question mark in braces": ("a: {?b: 1}\n", "1:5-1:6", "question mark is read as the sign of a key"),
    "a question mark in a list": ("a: [x, ?b]\n", "1:8-1:9", "question mark is read as the sign of a key"),
    "a remark behind a quote": ('bore: "4.030 in"# new\n', "1:17-1:18", "A remark begins here right behind a value"),
    "a remark behind a bracket": ("a: [1, 2]#3\n", "1:10-1:11", "A remark begins here right behind a value"),
    "an anchor with a colon": ("a: &b:c d\n", "1:4-1:10", "The name of the anchor `&b` ends before `:`"),
    "a remark behind the sign of a block text": ("a: |# b\n  c\n", "1:5-1:6", "the rest of the line must be empty"),
    "the same behind an anchor": ("a: &b >-# c\n  d\n", "1:9-1:10", "the rest of the line must be empty"),
    "a comma behind a tag": ("a: {b: !c, d: 1}\n", "1:8-1:9", "read as a tag"),
    "signs behind the version of YAML": ("%YAML 1.2#\n---\na: b\n", "1:1-1:2", "a percent sign"),
    "an empty key": ("a: {b: 1,\n  ? # c\n  }\n", "2:4-2:4", "without a key"),
}


@pytest.mark.parametrize("text, span_told, message", MISREAD.values(), ids=MISREAD)
@pytest.mark.parametrize("pure", [False, True], ids=["libyaml", "pure"])
def test_signs_that_a_parser_misreads_are_told(text, span_told, message, pure):
    _, problems = load(text, "spec.yaml", pure=pure)
    problem, = problems
    assert problem.level == "error" and message in problem.message and span(problem.place) == span_told


@pytest.mark.parametrize("text", ['a: what? no\n', 'a: "?b"\n', "a: ['?b', \"x#4\"]\n", "a: b]#c\n", "?a: b\n", 'a: "x" #4 b\n', "a: 'x' # who?me\n",
                                  "a: |  # b\n  c'#d\n", "a: [&b , *b ]\n", "a: &b {c: d}\n", "a:\n  ? b\n  : c\n", "%YAML 1.2 # x\n---\na: b\n"])
def test_the_same_signs_in_their_right_place_are_left_alone(text):
    for pure in (False, True):
        tree, problems = load(text, "spec.yaml", pure=pure)
        assert tree is not None and [problem for problem in problems if problem.level == "error"] == []


# Raw text and places belong together


def check_spans(text, tree):
    for scalar in scalars(tree):
        if scalar.plain and scalar.place.line == scalar.place.end_line:
            assert cut(text, scalar.place) == scalar.text
        if not scalar.plain and "\\" not in (raw := cut(text, scalar.place)) and raw[:1] in "'\"":
            assert raw[0] == raw[-1]


def test_the_source_at_the_place_of_a_plain_value_is_its_text():
    check_spans(SPEC, tree_of(SPEC))


# Round trips of random trees

LETTERS = st.characters(exclude_categories=["Cs"], exclude_characters="\x85\u2028\u2029")
TEXTS = st.text(LETTERS, max_size=20).filter(lambda text: isinstance(meaning(text), str))
NAMES = st.text(LETTERS, min_size=1, max_size=12).filter(lambda text: isinstance(meaning(text), str) and text != "<<")
LEAVES = (
    TEXTS
    | st.none()
    | st.booleans()
    | st.integers(-(10**15), 10**15)
    | st.floats(allow_nan=False, allow_infinity=False)
    | st.sampled_from(["1.800 in", "10:1", "5/16 in", "M14x1.25", "2026-03-05", "on", "- 5", "a: b", "#4", "a #4"])
)


def mappings(values):
    return st.dictionaries(NAMES, values, max_size=5).map(
        lambda tree: {unicodedata.normalize("NFC", name): value for name, value in tree.items()}
    )


BRANCHES = st.recursive(LEAVES, lambda inner: st.lists(inner, max_size=4) | mappings(inner), max_leaves=25)
TREES = mappings(BRANCHES).filter(bool)


@given(TREES, st.sampled_from([None, False, True]), st.sampled_from([20, 80, 400]))
@settings(max_examples=150, deadline=None)
def test_what_another_writer_wrote_is_read_back(tree, flow, width):
    text = yaml.safe_dump(tree, default_flow_style=flow, allow_unicode=True, width=width, sort_keys=False)
    back, problems = load(text, "spec.yaml")
    assert back is not None, (text, problems)
    assert show(back) == tree


def write(node, indent, draw):
    """An emitter of our own: every style that a builder may mix in one file."""
    pad = "  " * indent
    if isinstance(node, dict) and node and draw(st.booleans()):
        lines = []
        for name, value in node.items():
            body = write(value, indent + 1, draw)
            remark = draw(st.sampled_from(["", "  # a remark", "\n\n" + pad + "# a line of its own"]))
            lines.append(f"{pad}{scalar(name)}:{remark if body.startswith(chr(10)) else ''}{body}")
        return "\n" + "\n".join(lines)
    if isinstance(node, list) and node and draw(st.booleans()):
        return "\n" + "\n".join(f"{pad}-{write(item, indent + 1, draw)}" for item in node)
    return " " + flow(node)


def flow(node):
    if isinstance(node, dict):
        return "{" + ", ".join(f"{scalar(name)}: {flow(value)}" for name, value in node.items()) + "}"
    if isinstance(node, list):
        return "[" + ", ".join(map(flow, node)) + "]"
    return scalar(node)


def scalar(value):
    if value is None or isinstance(value, bool):
        return str(value).lower().replace("none", "null")
    if not isinstance(value, str):
        return repr(value)
    if re.fullmatch(r"[A-Za-z][A-Za-z0-9_./]*( [A-Za-z0-9_./]+)*", value) and isinstance(meaning(value), str):
        return value
    if value.isprintable():
        return "'" + value.replace("'", "''") + "'"
    letters = (letter if letter.isprintable() and letter not in '"\\' else f"\\U{ord(letter):08x}" for letter in value)
    return f'"{"".join(letters)}"'


@given(TREES, st.data())
@settings(max_examples=150, deadline=None)
def test_what_our_own_writer_wrote_is_read_back_by_both_parsers_with_true_places(tree, data):
    body = "\n".join(f"{scalar(name)}:{write(value, 1, data.draw)}" for name, value in tree.items())
    back, problems = load(body, "spec.yaml")
    assert back is not None, (body, problems)
    assert show(back) == tree
    check_spans(body, back)
    pure, pure_problems = load(body, "spec.yaml", pure=True)
    assert dump(pure) == dump(back) and pure_problems == problems


@pytest.mark.parametrize("pure", [False, True], ids=["libyaml", "pure"])
def test_both_parsers_read_the_sample_alike(pure):
    tree, problems = load(SPEC, "spec.yaml", pure=pure)
    assert problems == [] and dump(tree) == dump(tree_of(SPEC))


# Which files are read at all


def test_a_regular_file_is_read(tmp_path):
    (tmp_path / "spec.yaml").write_bytes(b"units: us\n")
    assert read_bytes(tmp_path / "spec.yaml") == b"units: us\n"


def refusal(path):
    with pytest.raises(Unreadable) as refused:
        read_bytes(path)
    return str(refused.value)


def test_a_missing_file_a_folder_and_a_bad_name_are_refused_in_words(tmp_path):
    assert "no such file" in refusal(tmp_path / "none.yaml")
    assert "folder" in refusal(tmp_path)
    assert "name" in refusal("a\0b.yaml")


def test_a_pipe_is_refused_without_waiting(tmp_path):
    os.mkfifo(tmp_path / "pipe.yaml")
    assert "pipe" in refusal(tmp_path / "pipe.yaml")


def test_a_device_is_refused():
    assert "device" in refusal("/dev/zero")


def test_a_socket_is_refused(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    with socket.socket(socket.AF_UNIX) as listening:
        listening.bind("s.yaml")
        assert refusal("s.yaml")


def test_a_link_in_a_circle_is_refused(tmp_path):
    (tmp_path / "a.yaml").symlink_to("a.yaml")
    assert "cannot be opened" in refusal(tmp_path / "a.yaml")


def test_a_file_that_nobody_may_read_is_refused(tmp_path, monkeypatch):
    (tmp_path / "a.yaml").write_text("a: 1\n")
    (tmp_path / "a.yaml").chmod(0)
    if os.geteuid() == 0:  # the superuser may read everything: let the system say what it says to others

        def refuse(*_):
            raise PermissionError(13, "Permission denied")

        monkeypatch.setattr(decode.os, "open", refuse)
    assert "may not be read" in refusal(tmp_path / "a.yaml")


def test_a_large_file_is_refused_by_its_size_before_it_is_read(tmp_path, monkeypatch):
    with open(tmp_path / "large.yaml", "wb") as file:
        file.truncate(100_000_000)
    monkeypatch.setattr(decode.os, "read", lambda *_: pytest.fail("a byte was read"))
    assert "2 MB" in refusal(tmp_path / "large.yaml")


def test_a_file_that_grows_while_it_is_read_is_refused(tmp_path, monkeypatch):
    (tmp_path / "a.yaml").write_bytes(b"a: 1\n")
    monkeypatch.setattr(decode.os, "read", lambda _, size: b"x" * size)
    assert "2 MB" in refusal(tmp_path / "a.yaml")


def test_a_limit_of_one_s_own_is_respected(tmp_path):
    (tmp_path / "a.yaml").write_bytes(b"a: 1\n")
    assert read_bytes(tmp_path / "a.yaml", limit=5) == b"a: 1\n"
    with pytest.raises(Unreadable, match="4 bytes"):
        read_bytes(tmp_path / "a.yaml", limit=4)


def test_text_over_the_limit_is_refused():
    tree, problems = load("a" * 2_000_001, "spec.yaml")
    assert tree is None and "2 MB" in problems[0].message


def test_nodes_have_no_room_for_more_than_they_say():
    with pytest.raises(AttributeError):
        Scalar(None, "", None, True).anything = 1
