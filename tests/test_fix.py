"""The command fix and what it does to a text: one span changed, everything else byte for byte, nothing guessed."""

import io
import json
import os
import subprocess
import sys
import textwrap
from pathlib import Path

import jsonpatch
import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from buildlint import cli, fix, road
from buildlint import load as loading
from buildlint.load import load
from buildlint.model import DECISION, NOTATION, Edit, Finding, Place
from buildlint.validate import plain

ROOT = Path(__file__).parent.parent

CARD = """\
# the card of a build, as it was typed in
build: {name: spelled by hand, stage: planning, Duty: street}   # capital
engine: {cylinders: 8, firing_order: 1-8-4-3-6-5-7-2}
block:
  bore: 103,76 mm
  deck-height: 9.025 in   # hyphen
heads: {material: aluminium_356_t6}
joints:
  head:
    torque: 70 LBF-FT
rockers:
  girdle: "no"
assembly:
  signed:
    - {check: blind-hole-is-dry, by: RM, on: 2026-3-5}
"""
MENDED = (CARD.replace("Duty", "duty").replace("1-8-4-3-6-5-7-2", "[1, 8, 4, 3, 6, 5, 7, 2]").replace("103,76", "103.76")
          .replace("deck-height", "deck_height").replace("aluminium", "aluminum").replace("LBF-FT", "lbf-ft")
          .replace('"no"', '"none"').replace("2026-3-5", "2026-03-05"))
WASHER = """\
build: {name: flipped washer, stage: planning}
joints:
  head:
    clamped: {material: aluminum_356_t6}
    washer: {kind: hardened_textured, textured_side_faces: fastener}
"""
DECIDED = "textured-washer-faces-the-casting"


@pytest.fixture
def spec(tmp_path, monkeypatch):
    """A function that writes a spec (text or bytes) into a folder of its own and gives its name."""
    monkeypatch.chdir(tmp_path)

    def written(text, name="card.yaml"):
        path = tmp_path / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
        return name

    return written


def mended(name, *decided):
    return fix.fixed(name, set(decided)).after.decode()


def run(*arguments):
    return cli.run(["fix", *arguments])


# -- what is changed --------------------------------------------------------------------------------------


def test_slips_of_notation_are_put_right_and_all_else_stays(spec):
    name = spec(CARD)
    found = fix.fixed(name)
    assert found.after.decode() == MENDED
    assert {finding.edit.sort for finding in found.made} == {NOTATION} and len(found.made) == 8
    assert fix.fixed(spec(MENDED)).made == ()


@pytest.mark.parametrize(("before", "after"), [
    ("block: {bore: '103,76 mm'}", "block: {bore: '103.76 mm'}"),
    ('block: {bore: "103,76 mm"}', 'block: {bore: "103.76 mm"}'),
    ("build: {rev_limit: 6_800 rpm}", "build: {rev_limit: 6800 rpm}"),
    ("build: {peak_power: '1,250.5 hp'}", "build: {peak_power: '1250.5 hp'}"),
    ("block: {bore: 4.085 Inches}", "block: {bore: 4.085 in}"),
    ("camshaft: {firing_order: '1, 8, 4, 3, 6, 5, 7, 2'}", "camshaft: {firing_order: [1, 8, 4, 3, 6, 5, 7, 2]}"),
    ("head_gasket: {kind: MLS}", "head_gasket: {kind: multilayer_steel}"),
    ("inlet: {valve: {head_diameter: 2.02 in}}", "intake: {valve: {head_diameter: 2.02 in}}"),
    ("block:\n  bore: {plan: 4.085 in, measured: ['103,76 mm', 103.75 mm]}",
     "block:\n  bore: {plan: 4.085 in, measured: ['103.76 mm', 103.75 mm]}"),
])
def test_each_kind_of_slip(spec, before, after):
    assert mended(spec(before + "\n")) == after + "\n"


@pytest.mark.parametrize("text", [
    "block: {bore: 1,250 in}",  # thousands or decimals: nobody knows
    "block: {bore: 4.085}",  # no unit
    "block: {bore: 4.085 ink}",  # one letter off is a guess
    "block: {boer: 4.085 in}",
    "heads: {material: alu}",
    "block: {bore: 4.085 in, Bore: 4.090 in}",  # both are written: which one holds is for a person
    "assembly: {signed: [{check: blind-hole-is-dry, by: RM, on: 2026-2-30}]}",
])
def test_what_can_be_meant_in_two_ways_is_left_alone(spec, text):
    found = fix.fixed(spec(text + "\n"))
    assert found.made == () and found.after == found.before


@pytest.mark.parametrize("around", [
    lambda text: text.replace("\n", "\r\n"),
    lambda text: text.rstrip("\n"),
    lambda text: "\ufeff" + text,
    lambda text: text.replace("by hand", "by hand, 1-1/4″ Ölablaß"),
])
def test_line_ends_marks_and_letters_stay(spec, around):
    assert fix.fixed(spec(around(CARD))).after == around(MENDED).encode()


# -- decisions --------------------------------------------------------------------------------------------


def test_a_decision_is_only_made_when_it_is_asked_for(spec):
    name = spec(WASHER)
    found = fix.fixed(name)
    assert found.made == () and [finding.rule for finding in found.offered] == [DECIDED]
    assert mended(name, DECIDED) == WASHER.replace("fastener", "casting")


def test_a_permitted_finding_is_left_as_it_is(spec):
    permit = f"permits:\n  - {{rule: {DECIDED}, at: joints.head.washer, because: trial, approved: RM, until: 2999-01-01}}\n"
    found = fix.fixed(spec(WASHER + permit), {DECIDED})
    assert found.made == () and found.offered == ()


def test_a_key_that_is_not_there_is_added_where_it_belongs(spec):
    block = """\
build: {name: open holes, stage: assembly}
joints:
  head:
    kind: stud
    hole:
      opens_into: coolant   # two of them

  main: {kind: bolt}
"""
    flow = "build: {name: open holes, stage: assembly}\njoints:\n  head: {kind: stud, hole: {opens_into: coolant}}  # all\n"
    assert mended(spec(block), "open-bolt-hole-is-sealed") == block.replace(
        "# two of them\n", "# two of them\n    thread_product: ptfe_paste\n")
    assert mended(spec(flow), "open-bolt-hole-is-sealed") == flow.replace("coolant}}", "coolant}, thread_product: ptfe_paste}")
    ends = block[:block.index("   # two")]
    assert mended(spec(ends), "open-bolt-hole-is-sealed") == ends + "\n    thread_product: ptfe_paste"


def test_what_comes_with_a_decision_is_told(spec, capsys):
    oiled = "build: {name: x, stage: assembly}\njoints:\n  head: {kind: bolt, lubricant: engine_oil, thread_product: none, hole: {opens_into: coolant}}\n"
    assert run(spec(oiled), "--decide", "open-bolt-hole-is-sealed") == 1
    assert "now told: warning: PTFE paste is to go on a thread wet with engine oil" in capsys.readouterr().err


def test_every_decision_of_a_rule_settles_its_own_example(spec):
    """Fixed and checked again, the nonconforming examples of a rule with an edit no longer fail it."""
    able = [rule for rule in road.rules() if rule.edit]
    assert len(able) >= 9
    settled = set()
    for rule in able:
        for example in rule.nonconforming:
            name = spec(textwrap.dedent(example))
            found = fix.fixed(name, {rule.id})
            if any(finding.rule == rule.id for finding in found.made):
                Path(name).write_bytes(found.after)
                left = [finding for finding in road.check(name).findings if finding.rule == rule.id and finding.kind == "fail"]
                assert left == [], (rule.id, example, found.after)
                settled.add(rule.id)
    assert settled == {rule.id for rule in able}


# -- what is not changed ----------------------------------------------------------------------------------


def test_templates_and_catalogue_are_never_touched(spec):
    spec("shop: a shop of this test\n", "shop.yaml")
    spec("joints:\n  head:\n    clamped: {material: aluminum_356_t6}\n"
         "    washer: {kind: hardened_textured, textured_side_faces: fastener}\nblock: {bore: '103,76 mm'}\n", "templates/street.yaml")
    name = spec("based_on: ../templates/street.yaml\nbuild: {stage: planning}\n", "jobs/one.yaml")
    found = fix.fixed(name, {DECIDED})
    assert found.made == () and found.after == found.before
    assert {(finding.rule, why.split(",")[0]) for finding, why in found.elsewhere} == {
        (DECIDED, "it is written in templates/street.yaml"), ("quantity-can-be-read", "it is written in templates/street.yaml")}


def test_a_value_behind_an_alias_is_left_alone(spec):
    text = "joints:\n  head: &same\n    washer: {kind: hardened_textured, textured_side_faces: fastener}\n  main: *same\n"
    found = fix.fixed(spec(text), {DECIDED})
    assert found.made == () and all("alias" in why for _, why in found.elsewhere) and found.elsewhere


def test_a_file_that_is_not_utf_8_is_refused(spec, capsys):
    assert run(spec(CARD.encode("utf-16"))) == 2
    assert "Save the file as UTF-8" in capsys.readouterr().err


def test_a_photo_is_refused_as_one(spec, capsys):
    assert run(spec(b"\xff\xd8\xff\xe0\x00\x10JFIF")) == 2
    assert "card.yaml: This is a photo (JPEG), not a spec. Name the spec itself" in capsys.readouterr().err


@pytest.mark.parametrize("text, place", [("build: {name: [broken\nblock: {bore: '1,5 mm'}\n", "card.yaml:2:"), ("", "card.yaml:1:1: Nothing is written")])
def test_what_cannot_be_read_to_its_end_is_left_alone_and_told(spec, capsys, text, place):
    name = spec(text)
    assert run(name, "--write") == 2 and Path(name).read_text() == text
    told = capsys.readouterr().err
    assert place in told and "nothing to change" not in told


def test_a_text_that_would_say_something_else_is_refused():
    edit = Edit(NOTATION, "/block/bore", "4.085 in, deck_height: 9 in", Place("a.yaml", 1, 15, 1, 23))
    finding = Finding("a-rule", "spec", "fail", "error", (), "", edit=edit)
    with pytest.raises(fix.Refused, match="would not say what was meant"):
        fix.edited("block: {bore: 4.000 in}\n", [finding], "a.yaml")


def test_of_two_edits_of_one_place_the_first_is_made():
    place = Place("a.yaml", 1, 15, 1, 23)
    findings = [Finding(rule, "spec", "fail", "error", (), "", edit=Edit(DECISION, "/block/bore", new, place))
                for rule, new in (("one", "4.1 in"), ("two", "4.2 in"))]
    text, made, elsewhere = fix.edited("block: {bore: 4.000 in}\n", findings, "a.yaml")
    assert [finding.rule for finding in made] == ["one"] and text == "block: {bore: 4.1 in}\n" and elsewhere == []


# -- writing ----------------------------------------------------------------------------------------------


def test_nothing_is_written_unless_asked(spec, capsys):
    name = spec(CARD)
    assert run(name) == 1
    assert Path(name).read_text() == CARD
    out, err = capsys.readouterr()
    assert out.startswith(f"--- {name}\n+++ {name}\n@@ ") and "`block.bore` becomes `103.76 mm`" in err
    assert run(name, "--write") == 0
    assert Path(name).read_text() == MENDED and capsys.readouterr().out == ""
    assert run(name) == 0


def test_the_diff_is_one_that_patch_applies(spec, capsys):
    """POSIX diff -u: a general program that applies such diffs makes the same file of it."""
    name = spec(CARD.rstrip("\n"))
    run(name)
    subprocess.run(["git", "apply", "-p0"], input=capsys.readouterr().out.encode(), check=True)
    assert Path(name).read_text() == MENDED.rstrip("\n")


def test_a_file_that_was_changed_meanwhile_is_left_alone(spec):
    name = spec(CARD)
    found = fix.fixed(name)
    Path(name).write_text(CARD + "# a late note\n")
    with pytest.raises(fix.Refused, match="changed meanwhile"):
        fix.write(name, found)
    assert Path(name).read_text() == CARD + "# a late note\n" and os.listdir() == [name]


def test_permissions_stay_and_a_link_is_refused(spec, capsys):
    name = spec(CARD)
    os.chmod(name, 0o640)
    assert run(name, "--write") == 0 and os.stat(name).st_mode & 0o777 == 0o640
    Path(name).write_text(CARD)
    os.symlink(name, "link.yaml")
    assert run("link.yaml", "--write") == 3 and "is a link" in capsys.readouterr().err
    assert Path(name).read_text() == CARD


def test_a_wrong_rule_is_told_with_what_was_meant(spec, capsys):
    assert run(spec(CARD), "--decide", "textured-washer-faces-the-castin") == 2
    assert f"Did you mean {DECIDED}?" in capsys.readouterr().err
    assert run(spec(CARD), "--decide", "pushrod-wall-suits-load") == 2
    assert "proposes no change" in capsys.readouterr().err


def test_the_diff_of_a_hostile_spec_moves_no_cursor(spec, capsys):
    run(spec('build: {name: "a\\e[2Jb", Duty: street}  # \x1b[31m\n'))
    out, err = capsys.readouterr()
    assert "\x1b" not in out + err and "-build" in out


# -- against other programs -------------------------------------------------------------------------------


def test_only_the_meant_values_differ_for_another_reader(spec):
    """PyYAML's own loader and jsonpatch, general libraries, see the replaced values and nothing else."""
    before, after = (yaml.load(text, Loader=yaml.BaseLoader) for text in (WASHER, mended(spec(WASHER), DECIDED)))
    assert jsonpatch.make_patch(before, after).patch == [
        {"op": "replace", "path": "/joints/head/washer/textured_side_faces", "value": "casting"}]


def test_sarif_offers_the_same_change(spec, capsys):
    """A host that applies the replacement of the SARIF result gets the text that fix writes."""
    name = spec(WASHER)
    cli.run(["check", name, "--format", "sarif"])
    result, = [result for result in json.loads(capsys.readouterr().out)["runs"][0]["results"] if "fixes" in result]
    replacement = result["fixes"][0]["artifactChanges"][0]["replacements"][0]
    region, lines = replacement["deletedRegion"], WASHER.splitlines(keepends=True)
    assert region["startLine"] == region["endLine"]
    row = lines[region["startLine"] - 1]
    lines[region["startLine"] - 1] = (row[:region["startColumn"] - 1] + replacement["insertedContent"]["text"]
                                      + row[region["endColumn"] - 1:])
    assert "".join(lines) == mended(name, DECIDED)


words = st.text("abcdefghijk", min_size=1, max_size=6)
values = st.one_of(words, st.sampled_from(["1.5 mm", "'quoted'", '"double"', "[a, b]", "{x: 1}", "null", "", "5"]))


@settings(max_examples=150, deadline=None)
@given(rows=st.dictionaries(words, st.dictionaries(words, values, min_size=1, max_size=4), min_size=1, max_size=4),
       flow=st.booleans(), ends=st.sampled_from(["\n", "\r\n"]), new=st.sampled_from(["casting", "2.5 mm", "[1, 2]"]), data=st.data())
def test_an_edit_changes_its_value_and_no_other(rows, flow, ends, new, data):
    if flow:
        text = "".join(f"{name}: {{{', '.join(f'{key}: {value}' for key, value in row.items())}}}  # note{ends}" for name, row in rows.items())
    else:
        text = "".join(f"{name}:{ends}" + "".join(f"  {key}: {value}{ends}" for key, value in row.items()) for name, row in rows.items())
    tree, problems = load(text, "a.yaml")
    if tree is None or problems:
        return
    name = data.draw(st.sampled_from(sorted(rows)))
    key = data.draw(st.sampled_from([*sorted(rows[name]), "added"]))
    entry = tree.entries[name].node.entries.get(key)
    edit = Edit(DECISION, f"/{name}/{key}", new, entry.node.place if entry is not None else None)
    changed, made, elsewhere = fix.edited(text, [Finding("a-rule", "spec", "fail", "error", (), "", edit=edit)], "a.yaml")
    if elsewhere:
        assert changed == text
        return
    before, after = plain(tree), plain(load(changed, "a.yaml")[0])
    meant = plain(load(f"value: {new}", "a.yaml")[0])["value"]
    got = after[name].pop(key)
    before[name].pop(key, None)
    assert before == after and (got == meant or str(got) == str(meant))
    assert sum(len(line) for line in io.StringIO(changed, newline="")) == len(changed)
    assert changed.count("\r") - text.count("\r") in (0, ends.count("\r"))


def test_a_key_is_added_behind_an_empty_value_by_either_parser(monkeypatch):
    text = "joints: {head: {kind: stud, lubricant: }}\n"
    edit = Edit(DECISION, "/joints/head/torque", "65 lbf-ft")
    for parser in (loading._fast_parser, loading._pure_parser):
        monkeypatch.setattr(loading, "_fast_parser", parser)
        changed, made, _ = fix.edited(text, [Finding("a-rule", "spec", "fail", "error", (), "", edit=edit)], "a.yaml")
        head = load(changed, "a.yaml")[0].get("joints").get("head")
        assert len(made) == 1 and head.get("lubricant").value is None and head.get("torque").text == "65 lbf-ft"


def test_as_its_user_runs_it(spec):
    name = spec(CARD)
    ran = subprocess.run([sys.executable, "-m", "buildlint", "fix", name], capture_output=True, text=True,
                         env={**os.environ, "PYTHONPATH": str(ROOT)})
    assert ran.returncode == 1 and "+  bore: 103.76 mm" in ran.stdout
