"""What must not change a finding: the system of units, the order of keys, comments, and template against one file."""

import random
from pathlib import Path

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from buildlint import road
from buildlint.compose import compose
from buildlint.load import load
from buildlint.reading import read_spec
from buildlint.validate import validate

ROOT = Path(__file__).parent.parent
SPECS = sorted(path for folder in ("tests/specs", "examples") for path in (ROOT / folder).rglob("*.yaml")
               if not {"catalogue", "templates", ".github"} & set(path.parts) and path.name != "shop.yaml"
               and b"based_on" not in path.read_bytes())

SLIPS = ("value-lies-in-plausible-range", "written-unit-fits-the-value")  # which of them doubts a value hangs on the unit it is written in
OTHER = {"in": ("mm", 0.001), "mm": ("in", 0.0254), "lbf": ("N", 1.0), "lbf-ft": ("N*m", 1.0), "psi": ("kPa", 1000.0),
         "lbf/in": ("N/mm", 1000.0), "cc": ("in^3", 0.0254**3)}


def verdicts(text, name="build.yaml"):
    """What every rule says, without the words of it: those change with the unit."""
    report = road.check(name, text=text)
    doubted = {("value in doubt", (), "fail", "", finding.pointer) for finding in report.findings
               if finding.rule in SLIPS and finding.kind == "fail"}
    return sorted(doubted) + sorted((finding.rule, finding.scope, finding.kind, finding.level, finding.pointer if finding.kind == "fail" else "")
                  for finding in report.findings if finding.rule not in SLIPS)


def in_other_units(text):
    """The same spec with lengths, forces, torques and pressures written in the other system."""
    tree, _ = load(text, "build.yaml")
    composed, _, _ = compose("build.yaml", tree)
    _, broken = validate(composed, road.words())
    spec = read_spec(composed, road.words(), road.ways(), broken)
    lines = text.decode().splitlines(keepends=True)
    places = {}
    for _, value in spec.written:
        for part in value.known or (value,):
            amounts = [part]
            for one in amounts:
                if one.unit in OTHER and one.text and one.data.low is None and one.place.line == one.place.end_line:
                    places[one.place] = one
    for place in sorted(places, reverse=True):
        one = places[place]
        unit, size = OTHER[one.unit]
        line = lines[place.line - 1]
        if line[place.column - 1: place.end_column - 1].strip("'\"") == one.text:
            written = f"{one.data / size!r}"
            if "e" in written:
                written = f"{one.data / size:.18f}"
            lines[place.line - 1] = line[: place.column - 1] + f"{written} {unit}" + line[place.end_column - 1:]
    return "".join(lines).encode()


@pytest.mark.parametrize("path", [pytest.param(path, id=str(path.relative_to(ROOT))) for path in SPECS])
def test_the_other_system_of_units_gives_the_same_verdicts(path):
    text = path.read_bytes()
    other = in_other_units(text)
    assert other != text
    assert verdicts(other) == verdicts(text)


def shuffled(value, rng):
    if isinstance(value, dict):
        keys = list(value)
        rng.shuffle(keys)
        return {key: shuffled(value[key], rng) for key in keys}
    return value


@settings(max_examples=12, deadline=None)
@given(path=st.sampled_from(SPECS), seed=st.integers(0, 2**32 - 1))
def test_the_order_of_keys_gives_the_same_verdicts(path, seed):
    plain = yaml.load(path.read_bytes(), Loader=yaml.BaseLoader)
    again = yaml.dump(shuffled(plain, random.Random(seed)), sort_keys=False, allow_unicode=True).encode()
    assert verdicts(again) == verdicts(yaml.dump(plain, sort_keys=False, allow_unicode=True).encode())


@settings(max_examples=12, deadline=None)
@given(path=st.sampled_from(SPECS), seed=st.integers(0, 2**32 - 1))
def test_comments_and_blank_lines_give_the_same_verdicts(path, seed):
    rng = random.Random(seed)
    text = path.read_text(encoding="utf-8")
    lines = []
    for line in text.splitlines():
        if rng.random() < 0.2 and not line.startswith(" " * 8):
            lines += ["", "# a remark"]
        lines.append(line)
    assert verdicts("\n".join(lines).encode() + b"\n") == verdicts(text.encode())


@settings(max_examples=8, deadline=None)
@given(path=st.sampled_from(SPECS), data=st.data())
def test_a_template_gives_the_same_verdicts_as_one_file(path, data, tmp_path_factory):
    plain = yaml.load(path.read_bytes(), Loader=yaml.BaseLoader)
    below = {key for key in plain if data.draw(st.booleans())}
    folder = tmp_path_factory.mktemp("shop")
    (folder / "base.yaml").write_text(yaml.dump({key: plain[key] for key in plain if key in below} or {"notes": "none"}, sort_keys=False), encoding="utf-8")
    own = {"based_on": "base.yaml", **{key: plain[key] for key in plain if key not in below}}
    (folder / "build.yaml").write_text(yaml.dump(own, sort_keys=False), encoding="utf-8")
    found = road.check(folder / "build.yaml")
    together = sorted((finding.rule, finding.scope, finding.kind, finding.level) for finding in found.findings if finding.rule not in SLIPS)
    assert together == sorted(verdict[:4] for verdict in verdicts(yaml.dump(plain, sort_keys=False).encode()) if verdict[0] != "value in doubt")
