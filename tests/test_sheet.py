"""The build sheet: what stands on it, that hostile text stays text, and that the same input gives the same bytes."""

import os
import re
import subprocess
import sys
from hashlib import sha256
from html.parser import HTMLParser
from pathlib import Path

import pytest

from buildlint import sheet
from buildlint.model import FAIL, REVIEW
from buildlint.sheet import content, paper, pictures, source, traveler_table
from buildlint.tables.build_sequence import STEPS, slips, steps_for

ROOT = Path(__file__).parent.parent
EXAMPLES = ROOT / "examples"

HOSTILE = "\"><script>alert(1)</script><img src=x onerror=alert(2)>' {{ 7919*7907 }} </style></title></svg> javascript:alert(3) $\\frac{1}{2}$"
INVISIBLE = "safe\u202etxt\x1b[31m\u200b"


class Page(HTMLParser):
    """The elements of a page with their attributes, and its text."""

    def __init__(self, text):
        super().__init__()
        self.elements, self.text = [], []
        self.feed(text)

    def handle_starttag(self, tag, attributes):
        self.elements.append((tag, dict(attributes)))

    def handle_data(self, data):
        self.text.append(data)

    def all(self, tag):
        return [attributes for name, attributes in self.elements if name == tag]


def made(tmp_path, text, name="build.yaml"):
    path = tmp_path / name
    path.write_text(text, encoding="utf-8")
    return source.read(path)


@pytest.fixture(scope="module")
def measured():
    return source.read(EXAMPLES / "measured.yaml")


@pytest.fixture(scope="module")
def measured_page(measured):
    return sheet.html(measured)


# -- what stands on it --------------------------------------------------------------------------------------


def test_the_summary_gives_each_key_number_with_its_source(measured):
    found = content.gather(measured)
    rows = {row["label"]: row for _, rows in found["key"] for row in rows}
    (_, text, where, sentence, _), = rows["Stroke"]["parts"]
    assert text == "3.690 in" and re.fullmatch(r"catalogue/rotating\.yaml:\d+", where) and not sentence
    (_, text, where, sentence, anchor), = rows["Displacement"]["parts"]
    assert text.startswith("386.9 in^3") and not where and sentence.startswith("Swept volume")
    assert anchor in {row["anchor"] for _, section in found["numbers"] for row in section}


def test_margins_come_fullest_first_and_say_in_words_what_is_past():
    rows = content.gather(source.read(EXAMPLES / "flawed.yaml"))["margins"]
    shares = [int(row["percent"].split()[0]) for row in rows]
    assert shares == sorted(shares, reverse=True)
    assert all(row["stand"].startswith("past the limit") == row["past"] for row in rows) and rows[0]["past"]


def test_every_failed_finding_stands_on_the_page_with_its_fix():
    build = source.read(EXAMPLES / "flawed.yaml")
    page = Page(sheet.html(build))
    text = " ".join("".join(page.text).split())
    failed = [finding for finding in build.report.findings if finding.kind == FAIL]
    assert len(failed) >= 10
    for finding in failed:
        message = " ".join(finding.message.split())
        assert message[:1].upper() + message[1:] in text and " ".join(finding.fix.split()) in text and finding.rule in text


def test_every_reminder_is_on_the_traveler_once_signed_or_not(measured):
    for build in (measured, source.read(EXAMPLES / "good.yaml")):
        found = content.gather(build)
        rows = [*found["reminders"], *(row for step in found["steps"] for row in step["reminders"])]
        wanted = {finding.rule for finding in build.report.findings if finding.kind == REVIEW} | set(build.spec.signed) & {
            finding.rule for finding in build.report.findings if finding.message.startswith("signed by")}
        assert sorted(row["rule"] for row in rows) == sorted(wanted) and wanted
        for row in rows:
            assert bool(row["signed"]) == (row["rule"] in build.spec.signed)


def test_what_is_signed_in_the_spec_is_shown_signed(measured, measured_page):
    step = next(step for step in content.gather(measured)["steps"] if step["name"] == "Head torque")
    assert (step["by"], step["on"]) == ("RM", "2026-05-05")
    assert "signed by RM on 2026-05-05" in measured_page


def test_the_head_joint_is_tightened_on_the_traveler_as_it_is_written(measured):
    joint, = next(step for step in content.gather(measured)["steps"] if step["name"] == "Head torque")["joints"]
    assert joint["final"] == "65 lbf-ft" and len(joint["passes"]) == 4
    assert joint["product"] == "ptfe paste" and joint["hole"] == "coolant" and "casting" in joint["washer"]


def test_a_measured_value_fills_its_box_and_an_open_one_is_left_empty(measured):
    def box(build, step, label):
        return next(box for found in content.gather(build)["steps"] if found["name"] == step for box in found["boxes"] if box["label"] == label)

    bores = box(measured, "Machine block", "Block bore")
    assert [text for _, text in bores["cells"]][:2] == ["4.0851 in", "4.085 in"] and len(bores["cells"]) == 8
    assert bores["by"] == "TK" and "4.0845 in to 4.0855 in" == bores["tolerance"]
    planned = box(source.read(EXAMPLES / "good.yaml"), "Machine block", "Block bore")
    assert [text for _, text in planned["cells"]] == [""] * 8 and planned["plan"].startswith("4.085 in")


@pytest.mark.parametrize("name", ("measured", "good", "inline_six"))
def test_what_is_measured_has_its_boxes_once_and_is_asked_about_where_it_is_shut_in(name):
    steps = content.gather(source.read(EXAMPLES / f"{name}.yaml"))["steps"]
    boxes = [(box["label"], step["number"]) for step in steps for box in step["boxes"]]
    assert len(dict(boxes)) == len(boxes)
    asked = [(label, number, step["number"]) for step in steps for label, number in step["taken_before"]]
    assert asked and all(dict(boxes)[label] == number < later for label, number, later in asked)


def test_a_column_of_the_order_sheet_that_nothing_stands_in_is_left_out(measured_page):
    heads = re.search(r'<table class="orders".*?</thead>', measured_page, re.S).group()
    assert ">Item<" in heads and ">Goes out<" in heads and ">Order by<" not in heads and ">Part<" not in heads


@pytest.mark.parametrize("name", ("measured", "good", "half_filled", "inline_six"))
def test_the_steps_are_the_specs_own_or_a_valid_order(name):
    build = source.read(EXAMPLES / f"{name}.yaml")
    found = content.gather(build)
    if found["own_order"]:
        assert len(found["steps"]) == len(build.spec.steps)
    else:
        names = {step.replace("_", " ").capitalize(): step for step in STEPS}
        listed = [names[step["name"]] for step in found["steps"]]
        assert len(listed) > 30 and not slips(listed, steps_for(build.datum("layout")))


def test_the_table_of_the_traveler_names_only_steps_joints_words_and_rules_that_exist():
    from buildlint import road
    from buildlint.tables.build_sequence import HIDDEN_BY, SHUT_IN_BY

    assert {*traveler_table.JOINTS, *traveler_table.MEASURED, *traveler_table.ORIENTATION, *traveler_table.PRODUCTS, *traveler_table.SURFACES,
            *traveler_table.REMINDERS, *traveler_table.CAUTIONS} <= set(STEPS)
    assert {joint for joints in traveler_table.JOINTS.values() for joint in joints} <= set(road.joint_names())
    stepped = {rule for rules in traveler_table.REMINDERS.values() for rule in rules}
    assert stepped <= {rule.id for rule in road.rules()}
    assert {rule.id for rule in road.rules() if rule.level == "reminder"} <= stepped | set(HIDDEN_BY)  # each has a step to be signed at
    known = {word for _, word in road.words().words} | set(road.ways())
    for word in {*traveler_table.ALWAYS, *(word for table in (traveler_table.MEASURED, traveler_table.ORIENTATION, traveler_table.PRODUCTS, SHUT_IN_BY)
                                           for words in table.values() for word in words)}:
        parts = (word, word.partition("_")[2], word.partition("_bearing_")[2], word.partition("_ring_")[2])
        assert any(part in known for part in parts), word


def test_the_order_sheet_counts_against_need_and_tells_what_waits_and_what_is_late(tmp_path):
    build = made(tmp_path, """
engine: {cylinders: 8}
order:
  date: 2026-03-02
  items:
    - {item: pushrod, quantity: 14, waits_for: check_pushrod_geometry, needed_for: pushrods}
    - {item: camshaft, quantity: 1, ordered_on: 2026-03-02, lead_time: 30 days, needed_by: 2026-03-20}
    - {item: piston, quantity: 8, ordered_on: 2026-03-02, lead_time: 10 days, needed_by: 2026-03-20, arrived_on: 2026-03-10}
""")
    pushrod, camshaft, piston = content.gather(build)["orders"]
    assert pushrod["counts"] == "2 short" and pushrod["waits"] == "check pushrod geometry (not done yet)"
    assert camshaft["late"] == "12 days late" and camshaft["counts"] == "enough" and not camshaft["arrived"]
    assert piston["late"] == "10 days in hand" and piston["arrived"] == "2026-03-10"


@pytest.mark.parametrize("sides, told", [
    pytest.param(("intake, quantity: 10", "exhaust, quantity: 6"), [("8", "2 spare"), ("8", "2 short")], id="too many of one"),
    pytest.param(("intake, quantity: 8", "exhaust, quantity: 4, per_set: 2"), [("8", "enough"), ("8", "enough")], id="a set for one"),
    pytest.param(("both, quantity: 16", "intake, quantity: 1"), [("16", "1 spare"), ("16", "1 spare")], id="both together"),
])
def test_sides_that_are_ordered_apart_are_counted_apart(tmp_path, sides, told):
    items = "".join(f"    - {{item: valve, side: {side}}}\n" for side in sides)
    orders = content.gather(made(tmp_path, f"engine: {{cylinders: 8}}\norder:\n  items:\n{items}"))["orders"]
    assert [(row["needed"], row["counts"]) for row in orders] == told


def test_a_tension_and_its_scatter_are_told_in_one_unit():
    step = next(step for step in content.gather(source.read(EXAMPLES / "inline_six.yaml"))["steps"] if any(joint["name"] == "Damper" for joint in step["joints"]))
    told = step["joints"][0]["check"]
    assert re.fullmatch(r"[\d.]+ kN in each \([\d.]+ kN to [\d.]+ kN\)", told), told


def test_the_film_is_told_in_the_unit_of_its_picture():
    film = next(picture for picture in pictures.draw(source.read(EXAMPLES / "inline_six.yaml"))[0] if picture["key"] == "film")
    assert "least film, um" in film["svg"] and re.search(r"Main: judged [\d.]+ um", film["text"]), film["text"]


def test_every_computed_number_has_its_sentence_its_source_and_its_inputs(measured):
    sections = content.gather(measured)["numbers"]
    rows = [row for _, rows in sections for row in rows]
    assert len(rows) > 400 and len({row["anchor"] for row in rows}) == len(rows)
    assert all(row["sentence"] and row["source"] for row in rows)
    throw = next(row for row in rows if row["word"] == "crank_throw")
    assert throw["inputs"].startswith("crank stroke 3.690 in (catalogue/rotating.yaml:")


def test_the_record_holds_the_digest_of_every_file_that_was_read(measured):
    rows = {row["file"]: row for row in content.gather(measured)["files"]}
    for name in ("measured.yaml", "good.yaml", "templates/street_strip.yaml", "catalogue/valvetrain.yaml", "shop.yaml"):
        data = (EXAMPLES / name).read_bytes()
        assert rows[name]["digest"] == sha256(data).hexdigest() and rows[name]["size"] == len(data)


def test_a_permit_is_shown_with_its_reason(tmp_path):
    build = made(tmp_path, """
joints: {head: {kind: stud, stud_install_torque: 20 lbf-ft}}
permits:
  - {rule: stud-is-set-finger-tight, because: the maker says so in writing, approved: RM}
""")
    found = content.gather(build)
    assert [(row["rule"], row["because"], row["approved"]) for row in found["permits"]] == [
        ("stud-is-set-finger-tight", "the maker says so in writing", "RM")]
    assert "warning, permitted" in sheet.html(build)


# -- pictures ------------------------------------------------------------------------------------------------


def test_every_picture_of_a_full_build_is_drawn_and_tells_in_words_what_it_shows(measured):
    drawn, left_out = pictures.draw(measured)
    assert [picture["key"] for picture in drawn] == [
        "spring-load", "pushrod", "lift", "piston-to-valve", "clearances", "preload", "head-joint", "pressure", "piston", "film"]
    assert [(each["title"], each["needs"]) for each in left_out] == [
        ("Tightening pattern of the head", ["joints.head.positions", "joints.head.tightening_order"])]
    texts = {picture["key"]: picture["text"] for picture in drawn}
    assert measured.text("intake_spring_open_load") in texts["spring-load"]
    assert measured.text("peak_cylinder_pressure") in texts["pressure"]
    assert measured.text("intake_pushrod_buckling_load") in texts["pushrod"]


def test_a_head_whose_holes_are_named_shows_the_order_they_are_tightened_in():
    drawn, _ = pictures.draw(source.read(EXAMPLES / "sound" / "boosted_street.yaml"))
    text = next(picture["text"] for picture in drawn if picture["key"] == "pattern")
    assert text == "10 fasteners in the order U3, L3, U4, L4, U2, L2, U5, L5, U1, L1."


def test_clearances_that_are_a_plan_alone_are_no_picture():
    left_out = pictures.draw(source.read(EXAMPLES / "sound" / "boosted_street.yaml"))[1]
    assert [(each["title"], each["needs"]) for each in left_out] == [("Clearances", [])]
    assert left_out[0]["text"].startswith("a tolerance beside a clearance")


def test_the_gap_that_is_drawn_is_the_gap_that_is_judged():
    build = source.read(EXAMPLES / "good.yaml")
    text = next(picture["text"] for picture in pictures.draw(build)[0] if picture["key"] == "piston-to-valve")
    for side in ("intake", "exhaust"):
        drawn = float(re.search(rf"{side.capitalize()}: least gap ([\d.]+) in", text).group(1))
        judged = build.number(build.value(f"{side}_piston_gap"), "in")
        assert drawn == pytest.approx(judged, abs=0.0012)


def test_a_spring_without_its_gap_before_coil_bind_changes_the_title():
    flawed = pictures.draw(source.read(EXAMPLES / "flawed.yaml"))[0]
    assert next(each["title"] for each in flawed if each["key"] == "spring-load").endswith("it does not keep the intake's gap before coil bind")


def test_the_tightening_pattern_is_drawn_where_the_holes_stand(tmp_path):
    holes = [("U1", -3, 2), ("U2", 0, 2), ("U3", 3, 2), ("L1", -3, -2), ("L2", 0, -2), ("L3", 3, -2)]
    rows = "\n".join(f"      - {{name: {name}, x: {x} in, y: {y} in}}" for name, x, y in holes)
    build = made(tmp_path, f"joints:\n  head:\n    kind: bolt\n    positions:\n{rows}\n    tightening_order: [U2, L2, U3, L3, U1, L1]\n")
    drawn = {picture["key"]: picture for picture in pictures.draw(build)[0]}
    assert drawn["pattern"]["text"] == "6 fasteners in the order U2, L2, U3, L3, U1, L1."
    assert drawn["pattern"]["svg"].count("<title>") == 6


def test_no_picture_leans_on_the_settings_of_its_user(measured, monkeypatch):
    import matplotlib

    before = [picture["svg"] for picture in pictures.draw(measured)[0]]
    with matplotlib.rc_context({"lines.linewidth": 9, "font.size": 30, "svg.fonttype": "path", "axes.facecolor": "red"}):
        assert [picture["svg"] for picture in pictures.draw(measured)[0]] == before


# -- nothing comes from outside, nothing hostile gets in ------------------------------------------------------


def spoiled():
    return f"""
build: {{name: {HOSTILE!r}, stage: ordering, duty: {HOSTILE!r}, rev_limit: 6000 rpm}}
engine: {{cylinders: 8, firing_order: [1, 8, 4, 3, 6, 5, 7, 2]}}
block: {{bore: {{plan: 4.0 in, measured: 4.0 in, by: {HOSTILE!r}, on: 2026-01-01}}}}
crank: {{part: {HOSTILE!r}, stroke: 3.5 in}}
pistons: {{notes: {INVISIBLE!r}, mark_faces: {HOSTILE!r}}}
{HOSTILE!r}: 1
joints:
  head: {{kind: stud, count: 10, thread: 7/16-20, torque: 65 lbf-ft, torque_steps: [30 lbf-ft, 65 lbf-ft], stud_install_torque: 20 lbf-ft, chosen_because: {HOSTILE!r}, bag_label: {HOSTILE!r},
    positions: [{{name: {HOSTILE!r}, x: 1 in, y: 1 in, thread_product: {HOSTILE!r}}}, {{name: {INVISIBLE!r}, x: -1 in, y: 1 in}}], tightening_order: [{HOSTILE!r}, {INVISIBLE!r}]}}
  {HOSTILE!r}: {{kind: bolt, count: 2, thread: 3/8-16, strength_class: sae_grade_8, torque: 30 lbf-ft, lubricant: engine_oil}}
assembly:
  steps: [{{step: {HOSTILE!r}, by: {HOSTILE!r}, on: 2026-01-01, because: {HOSTILE!r}}}, {{step: main_and_crank}}, {{step: {INVISIBLE!r}}}]
  signed: [{{check: washers-are-counted-in, by: {HOSTILE!r}, on: 2026-01-01}}]
order:
  items: [{{item: {HOSTILE!r}, part: {HOSTILE!r}, quantity: 1, waits_for: {HOSTILE!r}, notes: {HOSTILE!r}}}, {{item: {INVISIBLE!r}, quantity: 3}}]
permits: [{{rule: stud-is-set-finger-tight, because: {HOSTILE!r}, approved: {HOSTILE!r}, until: 2999-01-01}}]
"""


def hostile_page(tmp_path):
    text = spoiled().replace(repr(INVISIBLE), '"safe\\u202Etxt\\e[31m\\u200B"')
    text = text.replace(repr(HOSTILE), '"' + HOSTILE.replace("\\", "\\\\").replace('"', '\\"') + '"')
    return sheet.html(made(tmp_path, text, "bad<b>name&.yaml"))


def test_hostile_text_in_every_field_stays_text(tmp_path):
    text = hostile_page(tmp_path)
    page = Page(text)
    tags = {tag for tag, _ in page.elements}
    assert not tags & {"script", "img", "iframe", "object", "embed", "link", "base", "form", "b<b"}
    assert not any(name.startswith("on") for _, attributes in page.elements for name in attributes)
    assert "62615533" not in text and "{{ 7919*7907 }}" in text
    assert "".join(page.text).count("<script>alert(1)</script>") > 8
    assert "\u202e" not in text and "\x1b" not in text and "\u200b" not in text and "\\u202e" in text
    for tag, attributes in page.elements:
        assert "style" not in attributes, tag
        for name in ("href", "xlink:href", "src"):
            assert attributes.get(name, "#").startswith("#"), attributes


def test_the_page_names_nothing_outside_itself_and_forbids_it_besides(measured_page):
    page = Page(measured_page)
    policy = next(meta["content"] for meta in page.all("meta") if meta.get("http-equiv") == "Content-Security-Policy")
    assert policy.startswith("default-src 'none'; style-src 'sha256-") and "unsafe" not in policy and "script" not in policy
    style = re.search(r"<style>(.*?)</style>", measured_page, re.S).group(1)
    import base64

    assert base64.b64encode(sha256(style.encode()).digest()).decode() in policy
    assert "@import" not in style and not re.search(r"url\((?!#)", style)
    addresses = set(re.findall(r"[a-z]+://[^\s\"'<]+", measured_page))
    assert addresses <= {"http://www.w3.org/2000/svg"}, addresses


def test_no_template_takes_text_as_it_is():
    templates = list((ROOT / "buildlint" / "sheet" / "templates").glob("*.html"))
    assert len(templates) >= 8
    for template in templates:
        text = template.read_text(encoding="utf-8")
        assert not re.search(r"\|\s*safe|autoescape|Markup|<script|\son[a-z]+=", text), template
    code = "".join(path.read_text(encoding="utf-8") for path in (ROOT / "buildlint" / "sheet").rglob("*.py"))
    assert code.count("autoescape=True") == 1 and "StrictUndefined" in code
    assert len(re.findall(r"Markup\(", code)) == 4  # the style sheet, its digest (in a sheet and in a list), a cleaned drawing


def test_every_id_of_a_page_stands_once_and_every_link_leads_somewhere(measured_page):
    page = Page(measured_page)
    ids = [attributes["id"] for _, attributes in page.elements if "id" in attributes]
    assert len(ids) == len(set(ids))
    for _, attributes in page.elements:
        for name in ("href", "aria-labelledby", "aria-describedby"):
            if name in attributes:
                assert attributes[name].removeprefix("#") in ids, attributes
        for value in attributes.values():
            for target in re.findall(r"url\(#([^)]+)\)", value or ""):
                assert target in ids


# -- the same again, and little -------------------------------------------------------------------------------


def test_a_build_with_almost_nothing_says_what_to_write(tmp_path):
    build = made(tmp_path, "build: {name: first idea}\n")
    found = content.gather(build)
    text = sheet.html(build)
    assert "None of the key numbers can be had yet" in text and "block.bore" in text and found["wanting"]
    assert "Nothing is on the order yet" in text and len(found["steps"]) > 30
    assert len(pictures.draw(build)[1]) == 11


@pytest.mark.parametrize("text", ("", "build: [", "- 1\n", "build: {name: x}\nbuild: {name: y}\n"), ids=("empty", "no YAML", "a list", "a key twice"))
def test_a_spec_that_cannot_be_read_gives_a_sheet_that_says_so(tmp_path, text):
    build = made(tmp_path, text)
    assert content.gather(build)["findings"] and "Fix:" in sheet.html(build)


def command(*arguments, cwd, before="pass", **environment):
    code = f"import sys; {before}; sys.argv = ['buildlint', *sys.argv[1:]]; from buildlint.cli import main; main()"
    return subprocess.run([sys.executable, "-c", code, *map(str, arguments)], cwd=cwd, capture_output=True, text=True, timeout=280,
                          env={**os.environ, "PYTHONPATH": str(ROOT), **environment})


def test_the_same_spec_gives_the_same_bytes_from_anywhere_with_any_hash_seed(tmp_path):
    try:
        paper.pdf("<p>one line</p>")
    except paper.NoPrinter as error:
        pytest.fail(str(error)) if os.environ.get("CI") == "true" else pytest.skip(str(error))
    kept = []
    for seed, cwd, spec in (("1", ROOT, "examples/half_filled.yaml"), ("2", tmp_path, EXAMPLES / "half_filled.yaml")):
        folder = tmp_path / seed
        folder.mkdir()
        done = command("sheet", spec, "--to", folder, cwd=cwd, PYTHONHASHSEED=seed)
        assert done.returncode == 0, done.stderr
        kept.append({path.name: path.read_bytes() for path in folder.iterdir()})
    assert set(kept[0]) == {"half_filled_build_sheet.html", "half_filled_build_sheet.pdf"} and kept[0] == kept[1]
    assert kept[0]["half_filled_build_sheet.pdf"].startswith(b"%PDF-")


@pytest.mark.parametrize(("gone", "only"), (("jinja2", "html"), ("matplotlib", "html"), ("weasyprint", "pdf")))
def test_a_missing_extra_is_told_in_one_sentence(tmp_path, gone, only):
    done = command("sheet", EXAMPLES / "half_filled.yaml", "--to", tmp_path, "--only", only, cwd=tmp_path, before=f"sys.modules[{gone!r}] = None")
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr == f"buildlint: a build sheet needs {gone}: pip install 'buildlint[report]'\n"
    assert not list(tmp_path.iterdir())


def test_only_html_needs_no_printer(tmp_path):
    done = command("sheet", EXAMPLES / "half_filled.yaml", "--to", tmp_path, "--only", "html", cwd=tmp_path, before="sys.modules['weasyprint'] = None")
    assert done.returncode == 0, done.stderr
    assert [path.name for path in tmp_path.iterdir()] == ["half_filled_build_sheet.html"]


def test_how_the_numbers_came_about_is_printed_where_it_is_asked_for(tmp_path):
    spec = tmp_path / "bore.yaml"
    spec.write_text("build: {name: x}\nengine: {cylinders: 8}\nrods: {length: 6 in}\ncrank: {stroke: 3.5 in}\n"
                    "block: {bore: 4 in}\n", encoding="utf-8")
    sizes = {}
    for folder, options in (("plain", ()), ("whole", ("--derivations",))):
        (tmp_path / folder).mkdir()
        done = command("sheet", spec, "--to", tmp_path / folder, *options, cwd=tmp_path)
        assert done.returncode == 0, done.stderr
        page = (tmp_path / folder / "bore_build_sheet.html").read_text(encoding="utf-8")
        assert ('class="scopes whole"' in page) == (folder == "whole") and ('class="scopes brief"' in page) == (folder == "plain")
        assert ("from which this was printed" in page) == (folder == "plain")
        sizes[folder] = len((tmp_path / folder / "bore_build_sheet.pdf").read_bytes())
    assert sizes["whole"] > sizes["plain"]


@pytest.mark.parametrize(("arguments", "told"), (
    (("sheet", "nowhere.yaml", "--only", "html"), "nowhere.yaml"),
    (("sheet", "-"), "a build sheet is made of one spec"),
    (("sheet", EXAMPLES / "good.yaml", "--to", "nowhere"), "nowhere is no folder"),
), ids=("no spec", "standard input", "no folder"))
def test_what_cannot_be_done_is_refused_with_exit_status_2(tmp_path, arguments, told):
    done = command(*arguments, cwd=tmp_path)
    assert done.returncode == 2 and told in done.stderr and "Traceback" not in done.stderr


def test_a_link_in_the_place_of_the_sheet_is_not_written_through(tmp_path):
    (tmp_path / "other").write_text("kept")
    (tmp_path / "half_filled_build_sheet.html").symlink_to(tmp_path / "other")
    done = command("sheet", EXAMPLES / "half_filled.yaml", "--to", tmp_path, "--only", "html", cwd=tmp_path)
    assert done.returncode == 3 and (tmp_path / "other").read_text() == "kept"


def test_a_plain_check_loads_none_of_it(tmp_path):
    done = command("check", EXAMPLES / "half_filled.yaml", "--format", "lines", cwd=tmp_path,
                   before="import atexit; atexit.register(lambda: print([m for m in ('jinja2', 'matplotlib', 'weasyprint', 'numpy') if m in sys.modules], file=sys.stderr))")
    assert done.stderr.rstrip().endswith("[]"), done.stderr


# -- a library ------------------------------------------------------------------------------------------------


def test_a_library_is_a_list_with_a_page_for_each_spec(tmp_path):
    specs = tmp_path / "specs"
    specs.mkdir()
    for name in ("one.yaml", "a b&.yaml"):
        (specs / name).write_text("build: {name: <b>idea</b>}\njoints: {head: {kind: stud, stud_install_torque: 20 lbf-ft}}\n", encoding="utf-8")
    done = command("check", specs, "--format", "html:list of specs.html", cwd=tmp_path)
    assert done.returncode == 1 and done.stdout == "", done.stderr
    page = Page((tmp_path / "list of specs.html").read_text(encoding="utf-8"))
    links = [attributes["href"] for attributes in page.all("a")]
    assert len(links) == 2 and "<b>idea</b>" in page.text
    from urllib.parse import unquote

    for link in links:
        text = (tmp_path / unquote(link)).read_text(encoding="utf-8")
        assert "stud-is-set-finger-tight" in text and 'href="../list%20of%20specs.html"' in text


@pytest.mark.parametrize(("formats", "told", "before"), (
    (("html",), "give the list a file, such as html:sheets.html", "pass"),
    (("html:list.html",), "the format html needs jinja2: pip install 'buildlint[report]'", "sys.modules['jinja2'] = None"),
), ids=("no file", "no extra"))
def test_a_list_that_cannot_be_made_is_refused(tmp_path, formats, told, before):
    done = command("check", EXAMPLES / "good.yaml", *(part for form in formats for part in ("--format", form)), cwd=tmp_path, before=before)
    assert done.returncode == 2 and told in done.stderr and not list(tmp_path.iterdir())
