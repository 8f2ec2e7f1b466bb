"""A rule or a word, and how its number came about."""

import click

from ..render.text import line
from . import (
    FINE, FOUND, UNWRAPPED, CannotStart, Choice, color_option, nearest, put, road_with, rows_named, rule_named,
    rules_option, say, wishes,
)


@click.command(short_help="Explain a rule, or a word and how its number came about.", epilog=f"""{UNWRAPPED}
Examples:
  buildlint explain spring-stays-clear-of-coil-bind
  buildlint explain spring_coil_bind_margin
  buildlint explain spring_coil_bind_margin builds/street.yaml""")
@click.argument("name")
@click.argument("spec", required=False)
@click.option("--format", "form", type=Choice(("terminal", "json")), default="terminal", show_default=True)
@rules_option
@color_option
def explain(name, spec, form, rules, color):
    """Explain a rule or a word; with a SPEC, how its number came about, line by line."""
    from ..render import explanation, listing

    road = road_with(rules)
    rules = road.rules()
    rule = rule_named(name, rules)
    rows = [] if rule else rows_named(name, listing.rows_of_words(road.words(), road.ways(), rules))
    if rule is None and not rows:
        known = [rule.id for rule in rules] + [word for _, word in road.words().words] + list(road.ways())
        raise CannotStart(f"{line(name) or 'An empty name'} is neither a rule nor a word.{nearest(name, dict.fromkeys(known))} "
                          "The lists: buildlint rules, buildlint words")
    seen = wishes(color)
    if spec is None:
        if form == "json":
            put(explanation.rule_json(rule) if rule else explanation.words_json(rows))
        else:
            put(explanation.rule_sheet(rule, seen) if rule else explanation.word_sheet(rows, rules, seen))
        return FINE
    try:
        if rule:
            worked = [each for word in rule.words for each in road.explain(word, spec)]
        else:
            worked = road.explain(name, spec) or road.explain(rows[0].word, spec)
        report = road.check(spec, chosen=[rule]) if rule and form == "terminal" else None
    except road.CannotStart as error:
        raise CannotStart(str(error)) from error
    if report is not None:
        from ..render import terminal

        said = tuple(finding for finding in report.findings if finding.rule == rule.id)
        put(terminal.sheet(report._replace(findings=said, unlocks=()), seen._replace(every=True)) + "\n")
    elif not worked:
        say(f"{spec} does not give {name}; what it needs is told by: buildlint explain {name}")
    put(explanation.worked_json(worked) if form == "json" else explanation.worked_sheet(worked, seen))
    return FINE if worked else FOUND
