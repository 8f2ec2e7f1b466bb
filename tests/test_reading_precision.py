"""What differs from a limit by less than the last digit of the value was read to is no warning; an error stays one."""

import pytest

from buildlint import road
from buildlint.model import FAIL

GAP = "units: metric\nbuild: {duty: street, induction: supercharged, fuel: pump_gasoline}\nintake: {valve: {margin: %s}}\n"


def told(text, rule):
    return [(finding.level, finding.place.line) for finding in road.check("build.yaml", text=text.encode()).findings
            if finding.rule == rule and finding.kind == FAIL]


@pytest.mark.parametrize(("margin", "level"), [
    ("0.060 in", None), ("1.524 mm", None),  # the limit itself, in both systems
    ("1.5 mm", None),  # 0.024 mm short, read to 0.1 mm
    ("1.50 mm", "note"),  # the same, read to 0.01 mm
    ("1.4 mm", "note"), ("0.059 in", "note"),
    ("0.9 mm", "warning"), ("1 mm", "note"),  # however coarsely it is written, more than 2 % is told
])
def test_a_value_is_judged_as_finely_as_it_is_written(margin, level):
    found = told(GAP % margin, "valve-margin-is-thick-enough")
    assert [one[0] for one in found] == ([level] if level else [])


def test_a_fraction_is_exact():
    text = "build: {duty: street}\npistons: {class: forged_2618}\nblock: {bore: 4 in}\nrings: {second: {end_gap: %s}}\n"
    assert told(text % "0.020 in", "second-ring-gap-suits-duty") == []
    assert told(text % "5/256 in", "second-ring-gap-suits-duty") == [("note", 4)]  # 0.0195 in


def test_an_error_stays_an_error():
    text = "heads: {plug_thread_length: 0.750 in, plug_thread: M14x1.25}\nrockers: {mount: shaft, bearing: bushing, shaft_clearance: %s}\n"
    levels = {level for level, _ in told(text % "0.0004 in", "rocker-runs-free-on-shaft")}
    assert levels == {"error"}


@pytest.mark.parametrize(("gap", "told_of"), [("1.4 mm", False), ("1.40 mm", True), ("1.3 mm", True), ("1.45 mm", False)])
def test_a_coarse_reading_agrees_with_what_rounds_to_it(gap, told_of):
    text = f"exhaust:\n  valve: {{head_diameter: 40.6 mm, axis_angle: 15 deg, recess: 2.0 mm}}\n  pocket: {{diameter: 43.5 mm, depth: 4.0 mm, radial_gap: {gap}}}\n"
    assert bool(told(text, "written-value-agrees-with-formula")) == told_of
