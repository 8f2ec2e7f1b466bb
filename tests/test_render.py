"""What the outputs say: for people at every width and on every terminal, for programs to the letter."""

import json
import re
from collections import namedtuple
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from buildlint.library import Answer
from buildlint.model import FAIL, NOT_APPLICABLE, OPEN, PASS, REVIEW, Finding, Place, Report
from buildlint.render import AREAS, FORMATS, Wishes, module, tally
from buildlint.render import explanation, json_report, lines, listing, missing, terminal
from buildlint.render.measured import measured, pair
from buildlint.render.text import visible
from buildlint.render.totals import Totals

SPEC = "builds/street-383.yaml"


def spot(line, column, file=SPEC):
    return Place(file, line, column, line, column + 8)


def finding(rule, area, level="error", message="Something is not as it should be.", kind=FAIL, **more):
    more.setdefault("scope", ())
    if kind == FAIL:
        more.setdefault("place", spot(12, 3))
    return Finding(rule, area, kind, level if kind == FAIL else "none", message=message, **more)


FOUND = (
    finding("key-is-known", "spec", message='"bore" is not a key of engine.',
            fix="Write it as block.bore.", place=spot(21, 3), pointer="/engine/bore"),
    finding("build-states-duty-and-fuel", "general", "warning",
            "The octane of the fuel is not written, so knock is judged as for 87 (R+M)/2.",
            fix="Write fuel_system.octane with its scale.", place=spot(3, 1), pointer="/build"),
    finding("displacement-matches-bore-and-stroke", "short_block",
            message="Bore 4.030 in and stroke 3.750 in make 382.7 in^3; the spec says 363 in^3.",
            fix="Correct engine.stated_displacement to 383 in^3, or the bore or the stroke.", value=363.0,
            limit=382.66, unit="in^3", place=spot(24, 24), pointer="/engine/stated_displacement",
            related=(("block bore 4.030 in", spot(30, 9)), ("crank stroke 3.750 in", spot(41, 41)))),
    finding("piston-clears-the-head", "short_block", "error",
            "0.031 in is left between piston and head at 6200 rpm; steel rods want 0.035 in.",
            fix="A head gasket 0.043 in thick (compressed) gives 0.035 in.", scope=("cylinder 3",), value=0.0309,
            limit=0.035, unit="in", utilization=1.132, place=spot(53, 17), pointer="/pistons/below_deck"),
    finding("main-clearance-suits-journal", "short_block", "note",
            "0.0024 in of clearance on a 2.4480 in journal is right at the limit of 0.0024 in.",
            fix="Leave it, and check the measured clearances of all five journals.", scope=("main bearing", "journal 2"),
            value=0.00242, limit=0.00245, unit="in", utilization=0.99, place=spot(64, 45)),
    finding("spring-stays-clear-of-coil-bind", "valvetrain",
            message="0.032 in is left at full lift before the coils touch; keep 0.050 in.",
            fix="Raise the installed height to 1.818 in, or choose a spring with a lower solid height.",
            scope=("intake",), value=0.032, limit=0.050, unit="in", utilization=1.5625, bound="minimum", place=spot(88, 12),
            pointer="/intake/spring/installed_height",
            caution="A compressed valve spring can injure. Wear eye protection, use a proper spring compressor, and "
                    "follow its maker's instructions.",
            related=(("chosen here", spot(12, 5, "builds/templates/street.yaml")),
                     ("spring solid height 1.145 in", spot(90, 64)))),
    finding("spring-seat-load-suits-lifter", "valvetrain", "warning",
            "95 lbf on the seat is little for a hydraulic roller; 120 lbf is usual.",
            fix="Shim the springs by 0.060 in, which gives 118 lbf, or choose a stiffer set.", scope=("exhaust",),
            value=95.0, limit=120.0, unit="lbf", utilization=1.263, place=spot(109, 70)),
    finding("distributor-gear-suits-cam-core", "valvetrain",
            message="An iron distributor gear runs on a hardened steel cam core and will be eaten.",
            fix="Fit a gear of the kind the cam maker names for this core.", place=spot(160, 35),
            value="iron", limit=("bronze", "polymer", "hardened_steel")),
    finding("wet-stud-holes-are-sealed", "joints",
            message="The head studs open into the coolant and no thread product is written.",
            fix="Write joints.head.thread_product, such as ptfe_paste.", scope=("head joint",), place=spot(128, 5)),
    finding("head-clamp-holds-gas-force", "joints", "warning",
            "The studs clamp 1.4 times the gas force of one cylinder; 1.6 times is wanted.",
            fix="Use a stud of a higher class, or raise the torque to what its maker allows.", scope=("head joint",),
            value=1.4, limit=1.6, unit="", utilization=1.143, place=spot(133, 13),
            permit={"rule": "head-clamp-holds-gas-force", "at": "joints.head", "because": "studs are on the shelf, boost "
                    "was dropped", "approved": "RM", "until": "2026-09-30"}),
    finding("rear-main-seal-lip-faces-in", "sealing", "warning",
            "The lip of the rear main seal faces out.", fix="Turn the seal: the lip faces the oil.", place=spot(140, 3)),
    finding("compression-suits-the-fuel", "compression", "warning",
            "10.9:1 is much for 91 octane with iron heads; 9.8:1 is the usual end.",
            fix="Use a 76 cc chamber (9.8:1), or a fuel of more octane.", value=10.9, limit=9.8, unit=":1",
            utilization=1.112, place=spot(25, 29)),
    finding("fuel-pump-flow-covers-demand", "air_and_fuel", "note",
            "The pump gives 62 US gal/h at 6.5 psi; the engine drinks 48.", fix="No need to change anything.",
            place=spot(150, 8), value=48.0, limit=62.0, unit="gal/h", utilization=0.774),
    finding("total-advance-suits-chamber", "ignition", "warning",
            "38 deg of total advance is much for a closed chamber; 34 deg is usual.",
            fix="Begin at 32 deg and add while the plugs are read.", value=38.0, limit=34.0, unit="deg",
            place=spot(157, 18), utilization=1.118,
            caution="Set the timing with hands, hair and cords clear of the fan and belts."),
    finding("pushrod-order-waits-for-measurement", "order", "error",
            "The intake pushrods are ordered before their length was measured.",
            fix="Let the item wait for check_pushrod_geometry.", scope=("pushrod item",), place=spot(171, 7)),
)
OPEN_ONES = tuple(
    finding(f"open-rule-{number}", area, kind=OPEN, message=f"cannot be judged yet: needs {', '.join(missing)}",
            missing=missing)
    for number, (area, missing) in enumerate([
        ("valvetrain", ("camshaft.core",)), ("valvetrain", ("camshaft.lobe_separation", "camshaft.ground_advance")),
        ("valvetrain", ("camshaft.journal_diameter",)), ("valvetrain", ("intake.retainer.mass",)),
        ("short_block", ("bearings.rod.housing_bore", "bearings.rod.shell_wall")),
        ("cooling", ("cooling.radiator.area",))]))
REVIEWS = (
    finding("thrust-shells-are-seated-first", "assembly", kind=REVIEW, due="assembly",
            message="The crank is pried fore and aft before the thrust cap gets its final torque."),
    finding("engine-hangs-safely", "assembly", kind=REVIEW, due="machining",
            message="Chain, hooks and stand are rated for the engine as it hangs.",
            caution="Never stand or reach under a hanging engine; follow the hoist maker's instructions."),
)
OTHERS = tuple(finding(f"good-rule-{number}", "short_block", kind=PASS, message="") for number in range(214)) + tuple(
    finding(f"other-rule-{number}", "boost", kind=NOT_APPLICABLE, message="") for number in range(96))

STREET = Report(SPEC, "383 street and strip", "ordering", FOUND + OPEN_ONES + REVIEWS + OTHERS,
                unlocks=((("camshaft.core", "camshaft.ground_advance", "camshaft.lobe_separation"), 2),
                         (("cooling.radiator.area",), 1)))


def sheet(report=STREET, **wishes):
    return terminal.sheet(report, Wishes(**wishes))


# -- the sheet for people --------------------------------------------------------------------------------

WIDTHS = (0, 1, 20, 40, 59, 60, 80, 120, 100_000)


@pytest.mark.parametrize("width", WIDTHS)
def test_no_line_of_the_sheet_is_wider_than_the_page(width):
    widest = max(map(len, sheet(width=width).splitlines()))
    assert widest <= max(40, min(width, 100))


@pytest.mark.parametrize("width", WIDTHS)
def test_every_finding_is_told_whatever_the_width(width):
    told = " ".join(sheet(width=width).split())
    for each in FOUND:
        assert each.rule in told.replace(" ", "") or each.rule in told
        assert each.message in told
    now = " ".join(sheet(STREET._replace(stage="assembly"), width=width).split())
    for each in REVIEWS:
        assert each.message in now and each.rule in now


def test_reminders_of_a_later_stage_are_counted_and_listed_on_request():
    told = " ".join(sheet(STREET).split())
    assert REVIEWS[0].message not in told and "To come: 1 at machining and 1 at assembly; --every lists them." in told
    assert REVIEWS[0].message in " ".join(sheet(STREET, every=True).split())


def test_a_finding_tells_level_scope_figures_caution_remedy_place_and_rule():
    text = " ".join(sheet(width=100).split())
    start = text.index("error intake: 0.032 in is left at full lift before the coils touch; keep 0.050 in.")
    rest = [
        "found 0.032 in, 64 % of the 0.050 in wanted", "caution A compressed valve spring can injure.",
        "remedy Raise the installed height to 1.818 in", "builds/street-383.yaml:88:12 spring-stays-clear-of-coil-bind",
        "see also builds/templates/street.yaml:12:5 (chosen here), line 90 (spring solid height 1.145 in)"]
    for part in rest:
        start = text.index(part, start)


def test_areas_come_as_an_engine_is_assembled_and_the_spec_itself_first():
    shown = [line for line in sheet(width=80).splitlines() if line.isupper() and not line.startswith(" ")]
    assert shown == ["THE SPEC ITSELF", "GENERAL", "SHORT BLOCK", "COMPRESSION", "VALVETRAIN", "JOINTS", "SEALING",
                     "AIR AND FUEL", "IGNITION", "ORDER", "ALLOWED BY PERMIT", "NOT KNOWN YET",
                     "TO BE LOOKED AT AND SIGNED"]


def test_errors_come_first_within_an_area():
    valvetrain = sheet(width=80).partition("VALVETRAIN")[2].partition("JOINTS")[0]
    levels = [line.split()[0] for line in valvetrain.splitlines() if line.split()[:1] and line.split()[0] in
              ("error", "warning", "note")]
    assert levels == ["error", "error", "warning"]


def test_a_level_is_a_word_also_where_there_is_color():
    colored = sheet(width=80, color=True)
    assert "\x1b[1;31m" in colored
    assert re.sub("\x1b\\[[0-9;]*m", "", colored) == sheet(width=80)


def test_without_color_there_is_no_escape_at_all():
    assert "\x1b" not in sheet(width=80)


def test_the_last_line_counts_everything_in_words():
    assert " ".join(sheet().split("\n\n")[-1].split()) == (
        "7 errors, 5 warnings and 2 notes; 1 allowed by permit, 2 to be signed, 6 still open, 214 good and 96 not for "
        "this build.")


def test_a_cap_keeps_the_worst_and_says_how_many_more():
    capped = " ".join(sheet(most=3).split())
    assert "And 4 errors, 5 warnings and 2 notes more; --most 3 leaves them out here." in capped
    assert capped.count("remedy") == 3
    assert "key-is-known" in capped and "spring-seat-load-suits-lifter" not in capped


@pytest.mark.parametrize("most", [14, 15, 1000])
def test_a_cap_that_is_not_reached_changes_nothing(most):
    assert sheet(most=most) == sheet()


def test_the_inputs_that_settle_most_are_named():
    text = " ".join(sheet().split())
    assert "Add camshaft.core, camshaft.ground_advance and camshaft.lobe_separation to settle 2 rules." in text


def test_many_inputs_of_one_heading_are_told_as_the_heading():
    assert "Valvetrain: 4 rules wait for camshaft (4 inputs) and intake.retainer.mass." in " ".join(sheet().split())


def test_the_long_listing_names_every_answer():
    told = sheet(every=True)
    for each in OPEN_ONES + OTHERS:
        assert each.rule in told
    assert "open-rule-5: open, waits for cooling.radiator.area" in told


def due(path, level="warning", line=34):
    return finding("due-inputs-are-written", "spec", level, f"{path} is not written.", missing=(path,),
                   place=spot(line, 3), fix=f"Write {path}.")


def test_inputs_that_are_due_are_gathered_under_their_heading():
    waiting = tuple(finding(f"open-{path}", "valvetrain", kind=OPEN, missing=(path,)) for path in (
        "intake.spring.rate", "intake.spring.count", "order.items", "order.date"))
    text = sheet(Report(SPEC, "", "machining", (
        due("intake.spring.rate"), due("intake.spring.count"), due("heads.quench_pad", line=20),
        due("order", "note", 2), due("dyno", "note", 2), *waiting)))
    told = " ".join(text.split())
    assert "NOT WRITTEN, AND DUE BY NOW due-inputs-are-written" in told
    assert "warning intake.spring: rate and count 2 rules wait, builds/street-383.yaml:34:3" in told
    assert "warning heads.quench_pad builds/street-383.yaml:20:3" in told
    assert "note nothing yet under order and dyno 2 rules wait, builds/street-383.yaml:2:3" in told
    assert "3 warnings and 2 notes; 4 still open." in told


@pytest.mark.parametrize(("paths", "told"), [
    (["a.b.c"], "a.b.c"), (["a.b.c", "a.b.d"], "a.b: c and d"), (["a.b", "a.b.c"], "a: b and b.c"),
    (["a.b", "c.d"], "a.b and c.d"), (["a"], "nothing yet under a"), (["a", "a.b"], "a and a.b")])
def test_paths_share_what_they_begin_with(paths, told):
    assert missing._under_one_heading(paths) == told


def test_who_has_signed_already_is_told():
    signed = finding("engine-hangs-safely", "assembly", kind=PASS, message="signed by RM on 2026-03-02")
    text = " ".join(sheet(Report(SPEC, "", "assembly", (REVIEWS[0], signed, signed))).split())
    assert text.count("signed engine-hangs-safely, by RM on 2026-03-02") == 1
    assert "thrust-shells-are-seated-first, due at assembly by ________ on ____________" in text


def test_findings_that_say_the_same_of_two_sides_are_read_once():
    twins = tuple(
        finding("retainer-clears-seal", "valvetrain", scope=(side,), place=spot(line, 7))
        for side, line in (("intake", 80), ("exhaust", 99)))
    text = sheet(Report(SPEC, "", "planning", twins))
    assert text.count("Something is not as it should be.") == 1
    assert "intake and exhaust: Something" in text and ":80:7  builds/street-383.yaml:99:7" in text
    assert "2 errors." in text


def test_nothing_found_is_said_in_one_line():
    assert sheet(Report(SPEC, "", "planning", ())) == (
        "builds/street-383.yaml" + " " * 47 + "at planning\n\nNothing to put right.\n")


def test_a_rule_that_broke_down_makes_the_check_incomplete_in_words():
    text = sheet(Report(SPEC, "", "planning", FOUND[:1], crashed=("odd-rule",)))
    assert "This check is incomplete: 1 rule broke down, odd-rule." in text


@pytest.mark.parametrize(("bound", "value", "limit", "unit", "utilization", "shown"), [
    ("maximum", 0.0309, 0.025, "in", 1.236, "found 0.0309 in, 124 % of the 0.0250 in allowed"),
    ("maximum", 6213.4, 6000.0, "rpm", 1.0356, "found 6213 rpm, 104 % of the 6000 rpm allowed"),
    ("maximum", 6002.0, 6000.0, "rpm", 1.00033, "found 6002 rpm, 2 rpm over the 6000 rpm allowed"),
    ("maximum", 6000.04, 6000.0, "rpm", 1.0000067, "found 6000.04 rpm, 0.04 rpm over the 6000.00 rpm allowed"),
    ("maximum", 5900.0, 6000.0, "rpm", 0.9833, "found 5900 rpm, 98 % of the 6000 rpm allowed"),
    ("maximum", 6000.0, 6000.0, "rpm", 1.0, "found 6000 rpm, 6000 rpm allowed"),
    ("maximum", 260.0, 240.0, "degF", 1.0286, "found 260 degF, 20 degF over the 240 degF allowed"),
    ("maximum", 230.0, 240.0, "degF", 0.9857, "found 230 degF, 10 degF under the 240 degF allowed"),
    ("maximum", 12.5, 10.0, "%", 1.25, "found 12.5 %, 10.0 % allowed"),
    ("maximum", 10.9, 9.8, ":1", 1.1122, "found 10.9:1, 111 % of the 9.8:1 allowed"),
    ("maximum", 0.2, 0.01, "in", 20.0, "found 0.20 in, more than ten times the 0.01 in allowed"),
    ("maximum", 0.015, 0.0098425, "in", 1.524, "found 0.0150 in, 152 % of the 0.0098 in allowed"),
    ("minimum", 0.05, 0.0762, "mm", 1.524, "found 0.050 mm, 66 % of the 0.076 mm wanted"),
    ("minimum", 0.0125, 0.0762, "mm", 6.096, "found 0.0125 mm, 16 % of the 0.0762 mm wanted"),
    ("maximum", 0.076404, 0.0762, "mm", 1.0027, "found 0.0764 mm, 0.0002 mm over the 0.0762 mm allowed"),
    ("maximum", 0.00002, 0.00001, "in", 2.0, "found 0.00002 in, 200 % of the 0.00001 in allowed"),
    ("maximum", 1234567.0, 1200000.0, "N", 1.0288, "found 1234567 N, 103 % of the 1200000 N allowed"),
    ("minimum", 0.0152, 0.03, "in", 1.974, "found 0.0152 in, 51 % of the 0.0300 in wanted"),
    ("minimum", 0.052, 0.05, "in", 0.9615, "found 0.052 in, 104 % of the 0.050 in wanted"),
    ("minimum", 1e-12, 0.05, "in", 5e10, "found 0.00 in, less than 1 % of the 0.05 in wanted"),
    ("minimum", 0.0, 0.05, "in", None, "found 0.00 in, 0.05 in short of the 0.05 in wanted"),
    ("minimum", -0.02, 0.005, "in", None, "found -0.020 in, 0.025 in short of the 0.005 in wanted"),
    ("minimum", 190.0, 180.0, "degF", 0.985, "found 190 degF, 10 degF more than the 180 degF wanted"),
    ("band", 0.0018, 0.002, "in", 1.4, "found 0.0018 in, 0.0002 in short of the 0.0020 in wanted"),
    ("band", 0.0033, 0.003, "in", 1.6, "found 0.0033 in, 0.0003 in over the 0.0030 in allowed"),
    ("agreement", 363.0, 382.66, "in^3", 1.284, "found 363.0 in^3, 19.7 in^3 away from 382.7 in^3, 128 % of the difference allowed"),
    ("agreement", 0.02, 0.01, "in", 20.0, "found 0.02 in, 0.01 in away from 0.01 in, more than ten times the difference allowed"),
    ("agreement", 0.02, 0.01, "in", None, "found 0.02 in, 0.01 in away from 0.01 in"),
    ("agreement", 12, 16, "", None, "found 12, held against 16"),
    ("", 10.9, 9.8, ":1", 1.1122, "found 10.9:1, limit 9.8:1"),
    ("", 1e-300, 1e-300, "", None, "found 0, limit 0"),
    ("", 3, None, "", None, "found 3"),
    ("", "iron", ("bronze",), "", None, ""),
    ("", True, False, "", None, ""),
    ("maximum", float("nan"), float("inf"), "in", float("nan"), ""),
], ids=["too much", "no decimals in thousands", "a little too much", "hardly too much", "nearly all", "all of it",
        "degrees have no share", "degrees left", "percent of percent", "ratio", "far too much", "no more decimals than are read", "a limit of another unit",
        "a size with four decimals", "hardly apart", "tiny",
        "large", "too little", "just enough", "almost nothing", "nothing", "below nothing", "degrees enough", "below a band",
        "above a band", "should agree", "far from agreeing", "no difference allowed", "pieces", "a limit of no known kind",
        "beyond measure", "count", "words", "yes and no", "no number"])
def test_figures_are_written_as_a_person_says_them(bound, value, limit, unit, utilization, shown):
    told = finding("a", "b", value=value, limit=limit, unit=unit, utilization=utilization, bound=bound)
    assert measured(told) == shown


@pytest.mark.parametrize(("bound", "value", "limit", "shown"), [
    ("maximum", 0.08, 0.105, ", 0.080 in where 0.105 in is allowed"),
    ("minimum", 0.105, 0.08, ", 0.105 in where 0.080 in is wanted"),
    ("band", 0.0022, 0.002, ", 0.0022 in where 0.0020 in is wanted"),
    ("band", 0.0029, 0.003, ", 0.0029 in where 0.0030 in is allowed"),
    ("agreement", 5.703, 5.7, ", 5.703 in against 5.700 in"),
    ("maximum", True, 1.0, ""),
], ids=["most", "least", "low end", "high end", "should agree", "no number"])
def test_a_margin_is_told_beside_what_was_asked(bound, value, limit, shown):
    told = finding("a", "b", kind=PASS, value=value, limit=limit, unit="in", utilization=0.9, bound=bound)
    assert pair(told) == shown


@pytest.mark.parametrize("width", range(40, 60, 3))
def test_a_path_that_is_longer_than_a_line_is_cut_behind_a_slash(width):
    place = spot(118, 27, "customers/hollow_creek/library/templates/street_and_strip.yaml")
    told = sheet(Report(SPEC, "", "planning", (finding("a-rule", "general", place=place),)), width=width)
    assert re.search(r"(/|  )street_and_strip\.yaml:118:27\n", told), told
    assert "".join(told.split()).count(f"{place.file}:118:27") == 1


@pytest.mark.parametrize("width", range(40, 100, 7))
def test_a_number_is_not_parted_from_its_unit(width):
    text = "Keep 0.050 in, or 12 lbf-ft, or 10 % more of 1.25 mm^2/s. " * 4
    told = sheet(Report(SPEC, "", "planning", (finding("a-rule", "general", message=text),)), width=width)
    for unit in ("in", "lbf-ft", "%", "mm^2/s"):
        assert not re.search(rf"\d\n +{re.escape(unit)}", told)


# -- text that is not to be trusted ----------------------------------------------------------------------

EVIL = {
    "escape": "\x1b[2J\x1b]8;;http://x\x07link", "C1 control": "a\x9b31mred", "bell and backspace": "\x07\x08\x08\x08",
    "carriage return": "bad\rgood", "line end": "one\ntwo", "windows line end": "one\r\ntwo",
    "line separator": "one\u2028two\u2029three", "next line": "one\x85two", "form feed": "one\x0ctwo\x0b",
    "direction": "\u202egnp.exe\u2066\u200f", "zero width": "a\u200bb\ufeffc", "surrogate": "\udcff\ud800",
    "delete": "\x7f", "nul": "\x00", "tab": "a\tb", "markup": "bolt [/closed] [red]x[/red] [link=file:///etc]y[/link]",
    "emoji name": ":b: :skull:", "tag characters": "\U000e0041", "private": "\ue000",
}


def evil_report(text):
    bad = finding(
        "a-rule", "general", message=f"Found {text}.", fix=f"Not {text}.", scope=(text,), unit=text, value=1.0,
        limit=2.0, utilization=0.5, place=spot(1, 1, text), related=((text, spot(2, 2, text)),), caution=text,
        pointer=f"/{text}", missing=(text,))
    permit = {"because": text, "approved": text, "until": text}
    return Report(text, text, "planning", (
        bad, bad._replace(permit=permit), bad._replace(kind=OPEN, level="none"),
        bad._replace(kind=REVIEW, level="none"), bad._replace(kind=PASS, level="none")),
        crashed=(text,), unlocks=(((text,), 1),))


@pytest.mark.parametrize("width", [40, 80])
@pytest.mark.parametrize("text", EVIL.values(), ids=EVIL.keys())
def test_text_of_a_spec_cannot_steer_the_terminal(text, width):
    told = sheet(evil_report(text), width=width, every=True)
    for character in told:
        assert character.isprintable() or character == "\n"
    assert len(told.splitlines()) == told.count("\n")
    assert visible(text).replace(" ", "") in re.sub(r"\s", "", told)


@pytest.mark.parametrize("text", EVIL.values(), ids=EVIL.keys())
def test_color_adds_only_escapes_of_our_own(text):
    told = sheet(evil_report(text), color=True)
    assert re.sub("\x1b\\[[0-9;]+m", "", told) == sheet(evil_report(text))


@pytest.mark.parametrize("text", EVIL.values(), ids=EVIL.keys())
def test_one_finding_is_one_line_for_any_text(text):
    told = lines.sheet(evil_report(text), Wishes())
    assert told.count("\n") == 1 == len(told.splitlines())
    assert all(character.isprintable() for character in told[:-1])


@given(st.text(st.characters()))
def test_visible_text_is_one_printable_line(text):
    assert visible(text).isprintable()


@given(st.text(st.characters(exclude_categories=("C", "Z"))))
def test_text_that_prints_is_left_alone(text):
    assert visible(text) == text


@settings(max_examples=50, deadline=None)
@given(st.text(st.characters()), st.sampled_from(WIDTHS))
def test_any_text_at_any_width_gives_a_sheet(text, width):
    told = sheet(evil_report(text), width=width, every=True)
    assert all(character.isprintable() or character == "\n" for character in told)


def test_an_endless_text_is_cut_with_a_mark():
    told = sheet(Report(SPEC, "", "planning", (finding("a-rule", "general", message="x" * 1_000_000),)))
    assert len(told) < 5000
    assert "(998000 more characters)" in " ".join(told.split())


def test_wide_characters_are_counted_as_they_stand():
    from rich.cells import cell_len

    told = sheet(Report(SPEC, "", "planning", (finding("a-rule", "general", message="鋼" * 200),)), width=60)
    assert max(map(cell_len, told.splitlines())) <= 60


# -- one line each ---------------------------------------------------------------------------------------


def test_a_line_has_the_form_that_editors_read():
    told = lines.sheet(STREET, Wishes(width=40)).splitlines()
    assert told[5] == (
        "builds/street-383.yaml:88:12: error: spring-stays-clear-of-coil-bind (intake): 0.032 in is left at full lift "
        "before the coils touch; keep 0.050 in. Raise the installed height to 1.818 in, or choose a spring with a lower "
        "solid height.")
    for each in told:
        assert re.fullmatch(r"[^:]+:\d+:\d+: (error|warning|note): [a-z-]+( \(.+?\))?: .+", each)


def test_lines_tell_what_failed_and_nothing_else():
    told = lines.sheet(STREET, Wishes())
    assert told.count("\n") == len(FOUND) - 1
    assert "head-clamp-holds-gas-force" not in told and "thrust-shells" not in told and "open-rule" not in told


def test_a_finding_about_no_place_names_the_file_alone():
    told = lines.sheet(Report(SPEC, "", "planning", (finding("a-rule", "general", place=None),)), Wishes())
    assert told.startswith("builds/street-383.yaml: error: a-rule: ")


def test_a_finding_that_points_into_a_template_names_its_spec():
    elsewhere = finding("a-rule", "general", place=spot(3, 4, "templates/street.yaml"))
    told = lines.sheet(Report(SPEC, "", "planning", (elsewhere, finding("a-rule", "general", place=spot(3, 4)))), Wishes()).splitlines()
    assert told[0].startswith("templates/street.yaml:3:4: ") and told[0].endswith(f" In {SPEC}.")
    assert told[1].startswith(f"{SPEC}:3:4: ") and " In " not in told[1]


# -- JSON ------------------------------------------------------------------------------------------------

SCHEMA = json.loads((Path(__file__).parent.parent / "schemas" / "report.json").read_text())


def as_json(*reports):
    parts = [json_report.sheet(report, Wishes()) for report in reports]
    return json_report.opening(Wishes()) + json_report.BETWEEN.join(parts) + json_report.closing(Totals(), Wishes())


def refuse(name):
    raise AssertionError(f"{name} is not JSON")


def read(text):
    return json.loads(text, parse_constant=refuse)


def valid(document, part=""):
    from jsonschema import Draft202012Validator

    Draft202012Validator.check_schema(SCHEMA)
    schema = {"$defs": SCHEMA["$defs"], "$ref": f"#/$defs/{part}"} if part else SCHEMA
    problems = [f"{error.json_path}: {error.message}" for error in Draft202012Validator(schema).iter_errors(document)]
    assert problems == []
    return document


def test_the_json_keeps_its_contract():
    document = valid(read(as_json(STREET, STREET)))
    assert list(document) == ["buildlint", "specs", "unchecked"]
    spec = document["specs"][0]
    assert list(spec) == ["path", "stage", "counts", "findings"]
    assert {tuple(each) for each in spec["findings"]} == {(
        "rule", "area", "kind", "level", "scope", "message", "fix", "value", "limit", "unit", "utilization", "missing",
        "at", "related", "permit")}


def test_the_json_holds_every_kind():
    spec = read(as_json(STREET))["specs"][0]
    assert len(spec["findings"]) == len(STREET.findings)
    assert spec["counts"] == {"error": 7, "warning": 5, "note": 2, "permitted": 1, "open": 6, "review": 2, "pass": 214,
                              "notApplicable": 96}


def test_the_json_tells_a_finding_whole():
    told = read(as_json(STREET))["specs"][0]["findings"][5]
    assert told["scope"] == ["intake"] and told["value"] == 0.032 and told["unit"] == "in"
    assert told["at"] == {"file": SPEC, "line": 88, "column": 12, "pointer": "/intake/spring/installed_height"}
    assert told["related"][0] == {"message": "chosen here", "file": "builds/templates/street.yaml", "line": 12,
                                  "column": 5, "pointer": ""}


def test_a_report_of_nothing_is_valid():
    assert valid(read(as_json()))["specs"] == []
    assert valid(read(as_json(Report(SPEC, "", "planning", ()))))["specs"][0]["findings"] == []


@pytest.mark.parametrize("text", EVIL.values(), ids=EVIL.keys())
def test_json_is_ascii_and_valid_for_any_text(text):
    told = as_json(evil_report(text))
    assert told.isascii() and all(character.isprintable() or character == "\n" for character in told)
    document = valid(read(told))
    json.dumps(document, ensure_ascii=False).encode("utf-8")


@pytest.mark.parametrize("number", [float("nan"), float("inf"), float("-inf")])
def test_what_is_no_number_becomes_null(number):
    told = read(as_json(Report(SPEC, "", "planning", (finding("a", "b", value=number, utilization=number),))))
    assert told["specs"][0]["findings"][0]["value"] is None
    assert told["specs"][0]["findings"][0]["utilization"] is None


def test_the_noise_of_unit_factors_is_rounded_away():
    told = read(as_json(Report(SPEC, "", "planning", (finding("a", "b", value=0.1 + 0.2),))))
    assert told["specs"][0]["findings"][0]["value"] == 0.3


@pytest.mark.parametrize("break_it", [
    lambda spec: spec["findings"][0].update(level="critical"), lambda spec: spec["findings"][0].update(level="none"),
    lambda spec: spec["findings"][0].pop("permit"), lambda spec: spec["findings"][0].update(extra=1),
    lambda spec: spec["counts"].pop("open"), lambda spec: spec["findings"][0]["at"].update(line=0)],
    ids=["unknown level", "failed without a level", "part left out", "part added", "count left out", "line nought"])
def test_the_schema_of_the_report_refuses_what_breaks_the_contract(break_it):
    document = read(as_json(STREET))
    break_it(document["specs"][0])
    with pytest.raises(AssertionError):
        valid(document)


# -- explanations and lists ------------------------------------------------------------------------------

Explanation = namedtuple("Explanation", "word scope value dimension unit shown origin")


def written(word, shown, line, chosen=None, value=1.0):
    return Explanation(word, ("intake",), value, "length", "in", shown,
                       {"at": spot(line, 9), "text": shown, "chosen": chosen})


def computed(word, shown, *inputs, scope=("intake",)):
    return Explanation(word, scope, 1.0, "length", "in", shown, {
        "formula": f"{word}__from_parts", "sentence": f"How {word.replace('_', ' ')} follows.",
        "source": "common practice, no source", "inputs": list(inputs)})


LOBE, RATIO = written("lobe_lift", "0.353 in", 80), written("rocker_ratio", "1.6", 60, spot(4, 2, "t.yaml"))
LIFT = computed("valve_lift", "0.565 in", LOBE, RATIO)
MARGIN = computed("spring_coil_bind_margin", "0.032 in", written("spring_installed_height", "1.742 in", 88),
                  computed("spring_travel", "0.6 in", LIFT), LIFT)


def test_a_number_is_worked_out_line_by_line_inputs_first_and_each_once():
    told = [line.split() for line in explanation.worked_sheet([MARGIN], Wishes()).splitlines()]
    numbered = [" ".join(words) for words in told if words and words[0].isdigit()]
    assert numbered == [
        "1 spring_installed_height = 1.742 in", "2 lobe_lift = 0.353 in", "3 rocker_ratio = 1.6",
        "4 valve_lift = 0.565 in", "5 spring_travel = 0.6 in", "6 spring_coil_bind_margin = 0.032 in"]
    text = " ".join(word for words in told for word in words)
    assert "from 1, 5 and 4: How spring coil bind margin follows. source: common practice, no source" in text
    assert "written at builds/street-383.yaml:60:9, chosen at t.yaml:4:2" in text


def test_the_json_of_an_explanation_keeps_its_contract():
    document = valid(read(explanation.worked_json([MARGIN, LOBE])), "explanations")
    assert document[1]["origin"] == {"at": {"file": SPEC, "line": 80, "column": 9}}
    assert [each["word"] for each in document[0]["origin"]["inputs"]] == [
        "spring_installed_height", "spring_travel", "valve_lift"]


def a_rule():
    from buildlint import rulebook
    from buildlint.rulebook import Length, YesNo, at_least, fitted, q

    collected = len(rulebook._collected)

    @rulebook.rule(
        scope="side", level="error", due="mock_up", says="{value} is left; keep {minimum}.", fix="Cut the guide.",
        near="{value} is right at the limit.", source="common practice, no source",
        caution="Springs under load can injure; follow the tool maker's instructions.", was=("old-name",),
        when={"seal_kind": ("positive", "umbrella"), "seal_part": fitted}, permits=False,
        conforming="intake: {spring: {rate: 350 lbf/in}}", nonconforming="\nintake:\n  lift: 0.7 in  # <- too much\n")
    def retainer_stays_clear_of_seal(
            seal_gap: Length, seal_checked: YesNo = None, *, minimum: Length = q("0.050 in"), share=0.5,
            by_duty={"street": q("0.050 in"), "drag_race": q("0.030 in")}):
        """The retainer stays clear of the seal.

        A retainer that lands on the seal
        drives it off the guide.
        """
        return at_least(seal_gap, minimum)

    made = rulebook._collected.pop()
    assert len(rulebook._collected) == collected
    made.area = "valvetrain"
    return made


def test_a_rule_is_explained_whole():
    text = " ".join(explanation.rule_sheet(a_rule(), Wishes()).split())
    for part in (
            "retainer-stays-clear-of-seal valvetrain, error, due at mock-up, asked of each side once named old-name",
            "A retainer that lands on the seal drives it off the guide.", "[value] is left; keep [minimum].",
            "Cut the guide.", "SOURCE common practice, no source", "Springs under load can injure",
            "seal_gap (length) seal_checked (yes or no), if known only where seal_kind is positive or umbrella",
            "only where seal_part is fitted", "minimum: 0.050 in share: 0.5 by_duty: street: 0.050 in drag_race: 0.030 in",
            "intake: {spring: {rate: 350 lbf/in}}", "lift: 0.7 in # <- too much", "No permit may set this rule aside."):
        assert part in text


def test_examples_of_a_rule_keep_their_indentation():
    assert "\n    intake:\n      lift: 0.7 in  # <- too much\n" in explanation.rule_sheet(a_rule(), Wishes())


def test_the_json_of_a_rule_keeps_its_contract():
    told = valid(read(explanation.rule_json(a_rule())), "rule")
    assert told["limits"]["by_duty"]["drag_race"]["shown"] == "0.030 in"
    assert told["limits"]["minimum"]["value"] == pytest.approx(0.00127)
    assert told["words"] == ["seal_gap", "seal_checked", "seal_kind", "seal_part"]
    listed = valid(read(listing.rules_json([a_rule(), a_rule()])), "rules")
    assert list(listed[0]) == ["id", "area", "scope", "level", "due", "says", "fix", "source", "limits", "words"]


def test_a_rule_takes_one_line_of_the_list():
    assert listing.rules_lines([a_rule()]) == (
        "retainer-stays-clear-of-seal: valvetrain, error, due at mock-up, asked of each side: The retainer stays clear of "
        "the seal.\n")
    assert "VALVETRAIN, 1 RULE" in listing.rules_sheet([a_rule()], Wishes())


Word = namedtuple("Word", "name scope dimension meaning typical plausible path per choices")
Way = namedtuple("Way", "name inputs sentence source gives")


def rows():
    words = [
        Word("seal_gap", "side", "length", "Retainer to seal at full lift.", "0.090 in", ("0 in", "0.4 in"),
             "<side>.seal_gap", "cylinder", None),
        Word("seal_kind", "side", "choice", "How it holds.", "positive", None, "<side>.seal.kind", None,
             ("positive", "umbrella"))]
    vocabulary = namedtuple("Vocabulary", "words")({(word.scope, word.name): word for word in words})
    ways = {"seal_gap": [Way("seal_gap", ("seal_gap_shut", "valve_lift"), "Shut less lift.", "", "length")],
            "rod_ratio": [Way("rod_ratio", ("rod_length", "crank_stroke"), "Rod over stroke.", "a handbook", "ratio")]}
    return listing.rows_of_words(vocabulary, ways, [a_rule()])


def test_the_list_of_words_joins_formulas_and_rules():
    told = valid(read(listing.words_json(rows())), "words")
    assert [word["word"] for word in told] == ["rod_ratio", "seal_gap", "seal_kind"]
    assert told[0]["formulas"] == ["rod_ratio"] and "path" not in told[0]
    assert told[1]["path"] == "<side>.seal_gap" and told[1]["rules"] == ["retainer-stays-clear-of-seal"]


def test_a_word_is_explained_whole():
    text = " ".join(explanation.word_sheet(rows()[1:], [a_rule()], Wishes()).split())
    for part in (
            "seal_gap, of the side length Retainer to seal at full lift.",
            "write <side>.seal_gap, one value or a list, one for each cylinder", "typical 0.090 in",
            "plausible 0 in to 0.4 in", "HOW IT IS COMPUTED WHERE IT IS NOT WRITTEN seal_gap Shut less lift. from seal_gap_shut and valve_lift",
            "1 RULE ASKS FOR IT retainer-stays-clear-of-seal The retainer stays clear of the seal.",
            "one of positive or umbrella"):
        assert part in text


@pytest.mark.parametrize(("outside", "inside"), [
    ("intake_valve_margin", "valve_margin"), ("exhaust_valve_lift_largest", "valve_lift"),
    ("main_bearing_clearance", "clearance"), ("top_ring_end_gap", "end_gap"), ("block_bore_spread", "block_bore"),
    ("rocker_intake_joint_torque", "torque")])
def test_a_word_is_known_by_its_name_from_outside(outside, inside):
    assert inside in listing.inner_names(outside)


@pytest.mark.parametrize(("path", "written_path", "same"), [
    ("<side>.spring.rate", "intake.spring.rate", True), ("joints.<joint>.torque", "joints.head.torque", True),
    ("block.bore", "block.bore", True), ("block.bore", "block_bore", False), ("block.bore", "block.bores", False),
    ("order.items[].quantity", "order.items[3].quantity", True), ("order.items[].quantity", "order.items.quantity", True)])
def test_a_path_in_a_spec_names_its_word(path, written_path, same):
    assert listing.path_matches(path, written_path) is same


# -- the same for every output ---------------------------------------------------------------------------


@pytest.mark.parametrize("name", FORMATS)
def test_every_format_answers_to_the_same_calls(name):
    made = module(name)
    totals = Totals()
    for _ in range(2):
        totals.add(Answer(STREET.path, tally(STREET.findings), ()))
    assert totals.specs == 2 and totals.counts["error"] == 2 * tally(STREET.findings)["error"] > 0
    text = made.opening(Wishes()) + made.sheet(STREET, Wishes()) + made.BETWEEN + made.sheet(
        STREET, Wishes()) + made.closing(totals, Wishes())
    assert text == made.opening(Wishes()) + made.sheet(STREET, Wishes()) + made.BETWEEN + made.sheet(
        STREET, Wishes()) + made.closing(totals, Wishes())
    assert text.endswith("\n")


def test_the_order_of_areas_is_that_of_the_judge():
    from buildlint import judge

    assert ("spec", *AREAS) == judge.AREAS


def test_only_the_commands_print_or_exit():
    package = Path(terminal.__file__).parent.parent
    pattern = re.compile(r"(?<![\w.])print\(|sys\.exit|os\._exit|SystemExit|sys\.std(out|err)|click\.echo|(?<![\w.])exit\(")
    guilty = [path.relative_to(package).as_posix() for path in sorted(package.rglob("*.py"))
              if pattern.search(path.read_text())]
    # rule book and judge catch a rule that would end the program, and say so; a worker ends itself where a rule does not;
    # what a rule of a shop prints is led to standard error
    assert guilty == ["cli.py", "commands/__init__.py", "commands/check.py", "judge.py", "library.py", "outside.py", "rulebook.py"]
