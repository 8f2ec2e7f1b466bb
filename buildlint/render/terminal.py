"""The sheet a person reads at the bench: what is wrong and what to do, what is not known yet, what is to be
signed, and one line of counts. Its text comes out of a Report; nothing is judged here."""

from ..model import FAIL, LEVELS, NOTATION, NOT_APPLICABLE, OPEN, PASS, REVIEW, STAGES
from . import area_name, by_area, counted_as, counts_in_words, lean_on, missing, not_checked, stage_name, tally
from .measured import measured
from .page import LEVEL_STYLES, Page
from .text import counted, joined, line, place, scope

BETWEEN = "\n\n"

SIGNED = "signed "  # how the message of a reminder begins once somebody has signed it


def opening(wishes):
    return ""


def sheet(report, wishes):
    """Return the sheet of one spec."""
    page = Page(wishes.width, wishes.color)
    _head(page, report)
    failed = [finding for finding in report.findings if finding.kind == FAIL and not finding.permit]
    waiting = [finding for finding in report.findings if finding.kind == OPEN]
    _findings(page, failed, waiting, wishes.most)
    _permitted(page, [finding for finding in report.findings if finding.kind == FAIL and finding.permit])
    missing.waiting(page, waiting, report.unlocks)
    unsigned = [finding for finding in report.findings if finding.kind == REVIEW]
    later = [] if wishes.every else [finding for finding in unsigned if _later(finding.due, report.stage)]
    _to_sign(
        page, [finding for finding in unsigned if finding not in later], later,
        [finding for finding in report.findings if finding.kind == PASS and finding.message.startswith(SIGNED)],
        wishes.most)
    if wishes.every:
        _every_other(page, report.findings)
    page.gap()
    spelled = sum(finding.edit is not None and finding.edit.sort == NOTATION for finding in report.findings)
    if spelled:
        page.paragraph(f"{counted(spelled, 'slip')} of notation can be put right by: buildlint fix {line(report.path)}")
    page.paragraph(counts_in_words(tally(report.findings)), "bold")
    if report.crashed:
        page.paragraph(f"This check is incomplete: {counted(len(report.crashed), 'rule')} broke down, "
                       f"{joined(map(line, report.crashed))}.", LEVEL_STYLES["error"])
    return page.finished()


def closing(totals, wishes):
    """Return the end of a run over several specs: what is wrong in files they lean on, and one line of counts."""
    specs, shared, unchecked = totals.specs, totals.shared, totals.unchecked
    if specs + len(unchecked) < 2:
        return ""
    page = Page(wishes.width, wishes.color)
    if shared:
        page.heading("Files that specs lean on")
    for finding, number in shared:
        _finding(page, [finding])
        page.lines[-1:] = []
        page.labelled("", lean_on(number))
        page.gap()
    if specs > 1:
        page.paragraph(f"All {specs:,} specs together: {counts_in_words(totals.counts)}", "bold")
    if unchecked:
        page.paragraph(not_checked(len(unchecked)), LEVEL_STYLES["error"])
    return ("\n\n" if specs else "") + page.finished()


def _head(page, report):
    name, path = line(report.name), line(report.path)
    stage = f"at {stage_name(report.stage)}" if report.stage else ""
    page.ends(name or path, stage, "bold")
    if name:
        page.paragraph(path, "dim")


def _findings(page, failed, waiting, most):
    shown, hidden = _the_worst(failed, most)
    for area, findings in by_area([finding for finding in shown if finding.rule != missing.RULE]):
        page.heading(area_name(area))
        for alike in _alike(sorted(findings, key=lambda finding: LEVELS.index(finding.level))):
            _finding(page, alike)
    missing.due(page, [finding for finding in shown if finding.rule == missing.RULE], waiting)
    if hidden:
        page.paragraph(f"And {_levels(hidden)} more; --most {most} leaves them out here.", "bold")


def _alike(findings):
    """Return lists of findings that say the same of several scopes, so that it need be read only once."""
    groups = {}
    for finding in findings:
        said = (finding.rule, finding.level, finding.message, finding.fix, finding.caution, finding.value,
                finding.limit)
        groups.setdefault(repr(said), []).append(finding)
    return groups.values()


def _the_worst(failed, most):
    """Return the ``most`` most serious findings in their order, and the rest."""
    if most is None or len(failed) <= most:
        return failed, []
    ranked = sorted(range(len(failed)), key=lambda number: LEVELS.index(failed[number].level))
    kept = set(ranked[:most])
    return ([finding for number, finding in enumerate(failed) if number in kept],
            [finding for number, finding in enumerate(failed) if number not in kept])


def _levels(findings):
    totals = tally(findings)
    return joined(counted(totals[level], level) for level in LEVELS if totals[level])


def _finding(page, alike):
    """One finding, or several that say the same; the caution comes before what may be done."""
    finding = alike[0]
    _statement(page, finding.level, alike, LEVEL_STYLES[finding.level])
    found = measured(finding)
    if found:
        page.labelled("", found)
    if finding.caution:
        page.labelled("caution", line(finding.caution), LEVEL_STYLES["warning"])
    if finding.fix:
        page.labelled("remedy", line(finding.fix), "bold")
    _origin(page, alike)
    page.gap()


def _statement(page, label, alike, style):
    """The first lines of a finding: its label, its scope and its sentence."""
    scopes = dict.fromkeys(scope(finding.scope) for finding in alike if finding.scope)
    where = "intake and exhaust" if set(scopes) == {"intake", "exhaust"} else "; ".join(scopes)
    message = line(alike[0].message)
    if page.stacked:
        page.labelled(f"{label}, {where}" if where else label, message, style, beside=False)
    else:
        page.labelled(label, f"{where}: {message}" if where else message, style)


def _origin(page, alike):
    """Where it is written, which rule says so, and the other places it rests on."""
    rule = line(alike[0].rule)
    places = list(dict.fromkeys(place(finding.place) for finding in alike if finding.place))
    between = "\n" if page.stacked else "  "
    page.labelled("", between.join([*places, rule]), style="dim")
    related = {}
    for finding in alike:
        for what, where in finding.related:
            same_file = finding.place is not None and where.file == finding.place.file
            related.setdefault(f"line {where.line}" if same_file else place(where), {})[line(what)] = None
    if related:
        told = ", ".join(f"{where} ({', '.join(said)})" for where, said in related.items())
        page.labelled("", f"see also {told}", style="dim")


def _permitted(page, findings):
    if not findings:
        return
    page.heading("allowed by permit")
    for finding in findings:
        permit = finding.permit
        _statement(page, finding.level, [finding], "bold")
        said = [f"{word} {line(permit[key])}" for word, key in (
            ("Allowed because", "because"), ("approved by", "approved"), ("until", "until")) if permit.get(key)]
        if said:
            page.labelled("", f"{', '.join(said)}.")
        _origin(page, [finding])
        page.gap()


def _later(due, stage):
    """Whether a stage comes after the one the build is at."""
    return due in STAGES and stage in STAGES and STAGES.index(due) > STAGES.index(stage)


def _to_sign(page, unsigned, later, signed, most):
    """What only a person can verify now, with a place for initials and day; what comes later by its number; and
    who has signed already."""
    if not unsigned and not signed and not later:
        return
    page.heading("to be looked at and signed")
    if unsigned:
        page.paragraph("Sign under assembly.signed, with check, by and on.", "dim", indent=2)
        page.gap()
    shown = unsigned if most is None else unsigned[:most]
    for alike in _alike(shown):
        finding = alike[0]
        _statement(page, "look", alike, "bold")
        if finding.caution:
            page.labelled("caution", line(finding.caution), LEVEL_STYLES["warning"])
        due = f", due at {stage_name(finding.due)}" if finding.due else ""
        page.labelled("", f"{line(finding.rule)}{due}", style="dim")
        page.labelled("", "by ________  on ____________")
        page.gap()
    if len(shown) < len(unsigned):
        page.paragraph(f"And {len(unsigned) - len(shown)} more to be signed.", "bold")
        page.gap()
    if later:
        stages = {}
        for finding in later:
            stages.setdefault(finding.due, {})[finding.rule] = None
        told = joined([f"{len(stages[stage])} at {stage_name(stage)}" for stage in STAGES if stage in stages])
        page.paragraph(f"To come: {told}; --every lists them.", indent=2)
        page.gap()
    for rule, said in dict.fromkeys((finding.rule, finding.message) for finding in signed):
        page.labelled("signed", f"{line(rule)}, {line(said.removeprefix(SIGNED))}", style="dim")


def _every_other(page, findings):
    """One line for each answer that is not told above."""
    words = {OPEN: "open", PASS: "good", NOT_APPLICABLE: "not for this build"}
    told = [finding for finding in findings if counted_as(finding) in words]
    if not told:
        return
    page.heading("every other answer")
    for area, answers in by_area(told):
        page.paragraph(area_name(area).capitalize(), "bold", indent=2)
        for finding in answers:
            where = f", {scope(finding.scope)}" if finding.scope else ""
            waits = f", waits for {joined(map(line, finding.missing))}" if finding.missing else ""
            page.paragraph(f"{line(finding.rule)}{where}: {words[finding.kind]}{waits}", indent=4)
        page.gap()
