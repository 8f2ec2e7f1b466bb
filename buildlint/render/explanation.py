"""What a rule is for, what a word means, and how a number came about, line by line.

Text from rules and formulas is our own; what a spec says in it is made safe like everywhere else.
"""

import re
from textwrap import dedent

from ..model import DECISION
from .json_report import encoded, number
from .listing import about, asked, rule_told, spoken_dimension, word_told
from .text import counted, joined, line, place, prose, scope


def rule_sheet(rule, wishes):
    """Return all that is known of one rule."""
    from .page import Page

    page = Page(wishes.width, wishes.color)
    page.paragraph(line(rule.id), "bold")
    page.paragraph(f"{rule.area.replace('_', ' ')}, {asked(rule)}", "dim")
    if rule.was:
        page.paragraph(f"once named {joined(map(line, rule.was))}", "dim")
    page.gap()
    for paragraph in prose(rule.why):
        page.paragraph(paragraph)
        page.gap()
    _section(page, "what it says", [rule.says, *([rule.near] if rule.near else [])])
    _section(page, "what to do", [rule.fix])
    if rule.caution:
        page.heading("caution")
        page.paragraph(line(rule.caution), "bold yellow", indent=2)
    _section(page, "source", [rule.source])
    _needs(page, rule)
    _limits(page, rule)
    _examples(page, "a build that conforms", rule.conforming)
    _examples(page, "a build that does not; the arrow marks the line", rule.nonconforming)
    if rule.edit:
        sort, word, new = rule.edit
        page.heading("what can be changed for you")
        page.paragraph(line(f"buildlint fix SPEC{f' --decide {rule.id}' if sort == DECISION else ''} writes "
                            f"{word.replace('_', ' ')}: {_spoken(new)}"), indent=2)
    if not rule.permits:
        page.gap()
        page.paragraph("No permit may set this rule aside.", "bold")
    return page.finished()


def _section(page, title, paragraphs):
    page.heading(title)
    for paragraph in paragraphs:
        page.paragraph(line(_spoken(" ".join(paragraph.split()))), indent=2)


def _spoken(sentence):
    """Return a sentence of a rule with the places left for words shown as [valve lift]."""
    return re.sub(r"\{([a-z0-9_]+)[^{}]*\}", lambda found: f"[{found.group(1).replace('_', ' ')}]", sentence)


def _needs(page, rule):
    page.heading("what it looks at")
    for word in rule.words:
        dimension = spoken_dimension(rule.dimensions.get(word))
        can_do_without = ", if known" if word in rule.optional else ""
        page.paragraph(f"{word}{f' ({dimension})' if dimension else ''}{can_do_without}", indent=2)
    for word, wanted in rule.when.items():
        told = getattr(wanted, "text", None) or f"is {joined((str(value) for value in _several(wanted)), 'or')}"
        page.paragraph(f"only where {word} {told}", indent=2)


def _several(wanted):
    return [wanted] if isinstance(wanted, (str, bool, int, float)) else sorted(wanted, key=str) \
        if isinstance(wanted, (set, frozenset)) else wanted


def _limits(page, rule):
    if not rule.limits:
        return
    page.heading("limits that a shop may change")
    for name, limit in rule.limits.items():
        if isinstance(limit, dict):
            page.paragraph(f"{name}:", indent=2)
            for key, value in limit.items():
                page.paragraph(f"{key}: {shown_limit(value)}", indent=6)
        else:
            page.paragraph(f"{name}: {shown_limit(limit)}", indent=2)


def shown_limit(limit):
    """Return a limit as text."""
    if isinstance(limit, dict):
        return ", ".join(f"{key} {shown_limit(value)}" for key, value in limit.items())
    if isinstance(limit, (list, tuple)):
        return ", ".join(shown_limit(value) for value in limit)
    return "none" if limit is None else line(limit)


def _examples(page, title, examples):
    if not examples:
        return
    page.heading(title)
    for position, example in enumerate(examples):
        if position:
            page.gap()
        page.verbatim("\n".join(line(each) for each in dedent(example).strip("\n").split("\n")))


def rule_json(rule):
    """Return one rule with its documentation and examples."""
    told = rule_told(rule)
    told.update(near=rule.near, why="\n\n".join(prose(rule.why)), caution=rule.caution, permits=bool(rule.permits),
                was=rule.was, conforming=rule.conforming, nonconforming=rule.nonconforming)
    return encoded(told) + "\n"


def word_sheet(rows, rules, wishes):
    """Return what a word means; ``rows`` has one entry for each scope it can stand in, ``rules`` all rules."""
    from .page import Page

    page = Page(wishes.width, wishes.color)
    for row in rows:
        page.gap()
        page.paragraph(f"{line(row.word)}{f', of the {row.scope}' if row.scope else ''}", "bold")
        page.paragraph(spoken_dimension(row.dimension), "dim")
        page.gap()
        page.paragraph(line(row.meaning) or "No meaning is written down.")
        page.gap()
        for label, said in _facts(row):
            page.labelled(label, said, "bold")
        if row.formulas:
            page.heading("how it is computed where it is not written")
        for formula in row.formulas:
            page.paragraph(line(formula.name), "bold", indent=2)
            page.paragraph(line(formula.sentence), indent=4)
            page.paragraph(f"from {joined(formula.inputs) or 'nothing else'}", indent=4)
            if formula.source:
                page.paragraph(f"source: {line(formula.source)}", "dim", indent=4)
        if row.rules:
            known = {rule.id: rule for rule in rules}
            page.heading(f"{counted(len(row.rules), 'rule asks', 'rules ask')} for it")
            for identifier in row.rules:
                page.paragraph(line(identifier), "bold", indent=2)
                page.paragraph(about(known[identifier]), indent=4)
        page.gap()
    return page.finished()


def _facts(row):
    if row.path:
        yield "write", f"{line(row.path)}{f', one value or a list, one for each {row.per}' if row.per else ''}"
    if row.choices:
        yield "one of", joined(map(line, map(str, row.choices)), "or")
    if row.typical not in (None, ""):
        yield "typical", line(row.typical)
    if row.plausible:
        yield "plausible", f"{line(row.plausible[0])} to {line(row.plausible[-1])}"


def words_json(rows):
    """Return what is known of a word, one object for each scope it can stand in."""
    return "[\n" + ",\n".join(encoded(word_told(row)) for row in rows) + "\n]\n"


def worked_sheet(explanations, wishes):
    """Return how a number came about in each scope: every step on a line of its own, inputs before results."""
    from .page import Page

    page = Page(wishes.width, wishes.color)
    for explanation in explanations:
        where = f", {scope(explanation.scope)}" if explanation.scope else ""
        page.gap()
        page.paragraph(f"{line(explanation.word)}{where}: {line(explanation.shown)}", "bold")
        page.gap()
        for position, (step, inputs) in enumerate(steps(explanation), 1):
            inner = f", {scope(step.scope)}" if step.scope != explanation.scope and step.scope else ""
            page.labelled(str(position), f"{line(step.word)}{inner} = {line(step.shown)}", "bold")
            for said in _how(step, inputs):
                page.labelled("", said, style="dim")
    return page.finished()


def steps(explanation):
    """Return [(step, numbers of the steps it is made from)], inputs first, each value once."""
    found, numbers = [], {}

    def walk(step):
        key = (step.word, step.scope, step.shown)
        if key not in numbers:
            inputs = [walk(each) for each in step.origin.get("inputs", ())]
            found.append((step, inputs))
            numbers[key] = len(found)
        return numbers[key]

    walk(explanation)
    return found


def _how(step, inputs):
    origin = step.origin
    if "formula" not in origin:
        where = f"written at {place(origin['at'])}" if origin.get("at") else "the part itself"
        chosen = origin.get("chosen")
        yield f"{where}, chosen at {place(chosen)}" if chosen else where
        return
    made = f"from {joined(map(str, dict.fromkeys(inputs)))}: " if inputs else ""
    yield f"{made}{line(origin.get('sentence') or origin['formula'])}"
    if origin.get("source"):
        yield f"source: {line(origin['source'])}"


def worked_json(explanations):
    """Return how a number came about, one object for each scope."""
    return "[\n" + ",\n".join(encoded(explanation_told(each)) for each in explanations) + "\n]\n"


def explanation_told(explanation):
    origin = explanation.origin
    if "formula" in origin:
        told = {"formula": origin["formula"], "source": origin.get("source", ""),
                "inputs": [explanation_told(each) for each in origin.get("inputs", ())]}
    else:
        at = origin.get("at")
        told = {"at": {"file": at.file, "line": at.line, "column": at.column} if at else None}
    return {"word": explanation.word, "scope": explanation.scope, "value": number(explanation.value),
            "unit": explanation.unit, "shown": explanation.shown, "origin": told}
