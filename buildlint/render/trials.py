"""The sheet and the JSON of a what-if: what every combination has, what each value does, and the combinations, the best first."""

from collections import Counter

from ..model import LEVELS
from . import stage_name
from .json_report import encoded, number, told
from .measured import pair
from .page import LEVEL_STYLES, Page
from .text import counted, joined, line, scope

SHOWN = 20  # combinations, where no other number is asked for
STAYING = 6  # values beside a part on trial that are named


def sheet(sweep, wishes, level="warning"):
    """Return the what-if as a page; a choice is good when it adds nothing at the level or above to what every other has."""
    page = Page(wishes.width, wishes.color)
    page.ends(line(sweep.path), f"at {stage_name(sweep.stage)}", "bold")
    page.paragraph(f"{counted(len(sweep.trials), 'combination')} of {joined(f'{line(one.name)} ({len(one.values)})' for one in sweep.axes)}", "dim")
    _stays(page, sweep)
    _common(page, sweep)
    if len(sweep.axes) > 1:
        _values(page, sweep, level)
    _combinations(page, sweep, wishes.most or SHOWN)
    page.gap()
    good = sum(_adds_nothing(sweep, trial, level) for trial in sweep.trials)
    free = joined(f"{each}s" for each in _counting(level))
    beside = ", but for what every one has" if any(finding.level in _counting(level) for finding in sweep.every) else ""
    page.paragraph(f"{good or 'None'} of {counted(len(sweep.trials), 'combination')} {'is' if good < 2 else 'are'} free of {free}{beside}.", "bold")
    return page.finished()


def is_good(trial, level):
    """Whether a combination has nothing at the level or above."""
    return not any(trial.count(each) for each in _counting(level))


def _counting(level):
    return LEVELS[:LEVELS.index(level) + 1]


def _adds_nothing(sweep, trial, level):
    return not any(finding.level in _counting(level) for finding in sweep.own(trial))


def _stays(page, sweep):
    if not sweep.stays:
        return
    shown = [f"{line(path)} ({line(text)})" for path, text in sweep.stays[:STAYING]]
    more = [f"{len(sweep.stays) - STAYING} more"] if len(sweep.stays) > STAYING else []
    page.gap()
    page.paragraph(f"Whatever part is tried, the spec itself writes {joined([*shown, *more])}; --without PATH leaves such a value out.")


def _common(page, sweep):
    wrong = [finding for finding in sweep.every if finding.level != "note" and not finding.missing]
    others = len(sweep.every) - len(wrong)
    if wrong:
        page.heading("In every one")
    for finding in wrong:
        where = f"{scope(finding.scope)}: " if finding.scope else ""
        page.labelled(finding.level, f"{where}{line(finding.message)} {line(finding.rule)}", LEVEL_STYLES[finding.level])
    if others:
        page.gap()
        page.paragraph(f"{'Besides, e' if wrong else 'E'}very one has {counted(others, 'note or missing input', 'notes and missing inputs')}: "
                       f"buildlint check {line(sweep.path)}")


def _values(page, sweep, level):
    page.heading("What each value does")
    for position, one in enumerate(sweep.axes):
        page.paragraph(line(one.name), "bold")
        for value in one.values:
            trials = [trial for trial in sweep.trials if trial.values[position] == value]
            good = sum(_adds_nothing(sweep, trial, level) for trial in trials)
            against = Counter(finding.rule for trial in trials for finding in {f.rule: f for f in sweep.own(trial)}.values()
                              if finding.level in _counting(level))
            rule, times = max(against.items(), key=lambda pair: (pair[1], pair[0]), default=("", 0))
            held = f"; {line(rule)} in {times}" if times else ""
            page.labelled("", f"{line(value)}: good in {good} of {len(trials)}{held}")


def _combinations(page, sweep, most):
    page.heading("The combinations, the best first")
    for trial in sweep.trials[:most]:
        own = sweep.own(trial)
        worst = next((level for level in LEVELS if any(finding.level == level for finding in own)), None)
        page.labelled(worst or "good", " | ".join(map(line, trial.values)), LEVEL_STYLES.get(worst, "bold"))
        if own:
            page.labelled("", _rules(own), beside=False)
        elif trial.tightest is not None:
            page.labelled("", f"nearest its limit: {_margin(trial.tightest)}", beside=False)
        if trial.open > min(each.open for each in sweep.trials):
            page.labelled("", f"{counted(trial.open, 'result')} open: less is known of these parts", beside=False)
    if len(sweep.trials) > most:
        page.labelled("", f"and {len(sweep.trials) - most} more")


def _rules(findings):
    parts = []
    for level in LEVELS:
        rules = list(dict.fromkeys(finding.rule for finding in findings if finding.level == level))
        if rules:
            parts.append(f"{counted(sum(finding.level == level for finding in findings), level)}: {', '.join(map(line, rules))}")
    return "; ".join(parts)


def _margin(finding):
    where = f" ({scope(finding.scope)})" if finding.scope else ""
    return f"{line(finding.rule)}{where}{pair(finding)}, {finding.utilization * 100:.0f} % used"


def as_json(sweep):
    """Return the what-if as one JSON object, combinations from the best to the worst."""
    return encoded({
        "spec": sweep.path, "stage": sweep.stage,
        "axes": [{"paths": list(one.paths), "values": list(one.values)} for one in sweep.axes],
        "stays": [{"path": path, "text": text} for path, text in sweep.stays],
        "every": [told(finding) for finding in sweep.every],
        "combinations": [{
            "values": list(trial.values), "counts": {level: trial.count(level) for level in LEVELS}, "open": trial.open,
            "findings": [told(finding) for finding in sweep.own(trial)],
            "tightest": None if trial.tightest is None else {
                "rule": trial.tightest.rule, "scope": list(trial.tightest.scope), "utilization": number(trial.tightest.utilization),
                "value": number(trial.tightest.value), "limit": number(trial.tightest.limit), "unit": trial.tightest.unit},
        } for trial in sweep.trials]}) + "\n"
