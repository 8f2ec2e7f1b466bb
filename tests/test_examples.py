"""What the checker says of every file in examples/: the whole of it, neither more nor less.

The expected findings stand in ``expected_findings.yaml``, one row a finding, and are extended there. A test
that fails says which rows to add and which to take out.
"""

import functools
from collections import Counter
from pathlib import Path

import pytest
import yaml

from buildlint import road
from buildlint.gather import gather
from buildlint.model import FAIL, LEVELS

ROOT = Path(__file__).parents[1]
EXAMPLES = ROOT / "examples"
TABLE = yaml.safe_load((Path(__file__).parent / "expected_findings.yaml").read_text())
FILES = sorted(TABLE["files"])
SOUND = [name for name in FILES if name.startswith("sound/") or name in ("good.yaml", "measured.yaml", "inline_six.yaml")]
ELSEWHERE = (".github", "library", "shop_rules")  # workflows, a library of jobs and a rule package: each has its own tests


@functools.cache
def report(name):
    return road.check(str(EXAMPLES / name))


def failed(name):
    return [finding for finding in report(name).findings if finding.kind == FAIL]


def row(finding):
    """A finding as it stands in the table: rule, scope, level, and the path it points at."""
    at = ".".join(finding.missing) if finding.missing else finding.pointer.lstrip("/").replace("/", ".")
    return (finding.rule, "/".join(finding.scope) or "-", finding.level, at or "-")


def spelled(rows):
    return "\n".join(f"    - [{', '.join(entry)}]" for entry in sorted(rows.elements())) or "    none"


def line_of(name, fragment):
    """The number of the one line of an example that holds a piece of text."""
    lines = (EXAMPLES / name).read_text().splitlines()
    found = [number for number, line in enumerate(lines, 1) if fragment in line]
    assert len(found) == 1, f"{fragment!r} stands on {len(found)} lines of {name}, not on one"
    return found[0]


def places(finding):
    """(file name, line) of a finding and of everything it rests on."""
    spots = [finding.place, *(place for _, place in finding.related)]
    return [(Path(place.file).name, place.line) for place in spots if place is not None]


def test_every_example_is_in_the_table():
    specs, _ = gather([str(EXAMPLES)])
    names = [Path(spec).relative_to(EXAMPLES) for spec in specs]
    assert sorted(str(name) for name in names if name.parts[0] not in ELSEWHERE) == FILES


@pytest.mark.parametrize("name", FILES)
def test_an_example_gives_exactly_the_findings_of_the_table(name):
    expected = Counter(tuple(entry) for entry in TABLE["files"][name] or ())
    found = Counter(row(finding) for finding in failed(name))
    assert found == expected, (
        f"\n{name}\n  found, and not in the table:\n{spelled(found - expected)}\n  in the table, and not found:\n{spelled(expected - found)}"
    )


@pytest.mark.parametrize("name", FILES)
def test_no_rule_breaks_down_on_an_example(name):
    assert report(name).crashed == ()


@pytest.mark.parametrize("name", FILES)
def test_a_finding_points_at_a_line_that_is_there(name):
    for finding in failed(name):
        lines = Path(finding.place.file).read_text().splitlines()
        assert lines[finding.place.line - 1].strip(), (finding.rule, finding.place)


@pytest.mark.parametrize("name", SOUND)
def test_a_sound_build_gives_nothing_above_a_note(name):
    assert [row(finding) for finding in failed(name) if finding.level != "note"] == []


@pytest.mark.parametrize("fragment, rule", TABLE["mistakes"].items(), ids=lambda part: str(part))
def test_a_mistake_is_found_on_its_line(fragment, rule):
    spot = ("flawed.yaml", line_of("flawed.yaml", fragment))
    rules = {finding.rule for finding in failed("flawed.yaml") if spot in places(finding)}
    assert rule in rules, f"line {spot[1]} ({fragment}) is blamed by {sorted(rules) or 'no rule'}"


def test_nothing_is_blamed_in_the_flawed_build_but_its_mistakes():
    mistakes = {("flawed.yaml", line_of("flawed.yaml", fragment)) for fragment in TABLE["mistakes"]}
    for finding in failed("flawed.yaml"):
        if finding.level != "note":
            assert mistakes.intersection(places(finding)), row(finding)


STIFF = "sound/hydraulic_roller_460.yaml"
CHANGES = {
    "one pound more": ("open_load: 460 lbf", "open_load: 461 lbf", "rocker-carries-open-load", "error"),
    "a longer rocker arm": ("ratio: 1.7, standard_ratio: 1.7", "ratio: 1.8, standard_ratio: 1.8", "rocker-carries-open-load", "error"),
    "thin pushrods": ("wall: 0.105 in", "wall: 0.080 in", "pushrod-wall-suits-load", "warning"),
    "tips of unknown hardness": ("tip: hardened_wafer, tip_hardness: 55 HRC, ", "", "valve-tip-is-hard-enough", "error"),
}


@pytest.mark.parametrize("before, after, rule, level", CHANGES.values(), ids=CHANGES)
def test_the_build_at_its_limit_stands_no_further_step(before, after, rule, level):
    text = (EXAMPLES / STIFF).read_text()
    assert text.count(before) in (1, 2)
    findings = road.check(str(EXAMPLES / STIFF), text=text.replace(before, after)).findings
    assert (rule, level) in {(finding.rule, finding.level) for finding in findings if finding.kind == FAIL}


def test_the_flawed_build_differs_from_the_good_one_in_errors():
    levels = Counter(finding.level for finding in failed("flawed.yaml"))
    assert levels["error"] >= 8
    assert Counter(finding.level for finding in failed("good.yaml"))["error"] == 0


def test_the_readme_says_what_the_checker_says():
    """The message of a failure is the table to put there."""
    lines = ["| file | stage | errors | warnings | notes |", "|---|---|---|---|---|"]
    for name in FILES:
        levels = Counter(finding.level for finding in failed(name))
        lines.append(f"| `{name}` | {report(name).stage.replace('_', ' ')} | {' | '.join(str(levels[level]) for level in LEVELS)} |")
    table = "\n".join(lines)
    assert table in (EXAMPLES / "README.md").read_text(), f"the table in examples/README.md should read\n{table}"


@pytest.mark.parametrize("path", sorted(EXAMPLES.rglob("*.yaml")), ids=lambda path: str(path.relative_to(EXAMPLES)))
def test_an_example_says_in_its_first_line_what_it_is(path):
    first = path.read_text().splitlines()[0]
    assert first.startswith("# ") and len(first) > 30
