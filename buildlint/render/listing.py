"""The lists of rules and of words, for people, one to a line, and as JSON after the contract.

What belongs together is joined here (which formulas give a word, which rules ask for it); nothing is judged.
"""

import re
from typing import NamedTuple

from . import area_name, by_area, stage_name
from .json_report import encoded, number
from .text import counted, joined, line, prose

ENDINGS = ("_smallest", "_largest", "_spread", "_computed", "_written", "_planned", "_measured")
_OUTSIDE = re.compile(r"(?:intake|exhaust)_(.+)|[a-z0-9_]+?_(?:spring|ring|bearing|joint)_(.+)")


class WordRow(NamedTuple):
    """One word with all that is known of it; ``scope`` and ``path`` are empty for one that is only computed."""

    word: str
    scope: str
    dimension: str
    meaning: str
    typical: object
    plausible: object
    path: str
    per: object
    choices: tuple
    formulas: tuple
    rules: tuple


def inner_names(word):
    """Return the names a word goes by further in: intake_valve_margin_smallest is valve_margin inside."""
    names = [word]
    for ending in ENDINGS:
        if word.endswith(ending):
            names.append(word[: -len(ending)])
    for name in tuple(names):
        outside = _OUTSIDE.fullmatch(name)
        if outside:
            names.append(outside.group(1) or outside.group(2))
    return names


def path_matches(path, written):
    """Say whether a path as written in a spec (intake.spring.rate) is an instance of a schema path."""
    pattern = re.escape(path).replace(r"\[\]", r"(?:\[\d*\])?")
    return re.fullmatch(re.sub("<[a-z_]+>", "[a-z0-9_]+", pattern), written) is not None


def rows_of_words(vocabulary, ways, rules):
    """Return a WordRow for each word that can be written and each that a formula gives, by name."""
    askers = {}
    for rule in rules:
        for word in dict.fromkeys([*rule.words, *rule.when]):
            for name in inner_names(word):
                askers.setdefault(name, {})[rule.id] = None
    rows = [
        WordRow(word.name, word.scope, str(word.dimension), word.meaning, word.typical, word.plausible, word.path,
                word.per, tuple(word.choices or ()), tuple(ways.get(word.name, ())), tuple(askers.get(word.name, ())))
        for word in vocabulary.words.values()]
    written = {row.word for row in rows}
    rows += [
        WordRow(word, "", str(found[0].gives or ""), found[0].sentence, None, None, "", None, (), tuple(found),
                tuple(askers.get(word, ())))
        for word, found in ways.items() if word not in written]
    return sorted(rows, key=lambda row: (row.word, row.scope))


def about(rule):
    """Return the first sentence a rule's documentation says."""
    return (prose(rule.why) or [""])[0]


def asked(rule):
    """Return level, due stage and scope of a rule in words."""
    whom = "the build" if rule.scope == "build" else f"each {rule.scope.replace('_', ' ')}"
    return f"{rule.level}, due at {stage_name(rule.due)}, asked of {whom}"


def rules_sheet(rules, wishes):
    """Return the rules by area for a person to read."""
    from .page import Page

    page = Page(wishes.width, wishes.color)
    for area, members in by_area(rules):
        page.heading(f"{area_name(area)}, {counted(len(members), 'rule')}")
        for rule in members:
            page.paragraph(line(rule.id), "bold")
            page.paragraph(f"{asked(rule)}", "dim", indent=2)
            page.paragraph(about(rule), indent=2)
            page.gap()
    return page.finished()


def rules_lines(rules):
    """Return one rule to a line."""
    return "".join(f"{line(rule.id)}: {rule.area}, {asked(rule)}: {about(rule)}\n" for rule in rules)


def rules_json(rules):
    """Return the list of rules as the contract names their parts."""
    return _list(rule_told(rule) for rule in rules)


def rule_told(rule):
    return {
        "id": rule.id, "area": rule.area, "scope": rule.scope, "level": rule.level, "due": rule.due,
        "says": rule.says, "fix": rule.fix, "source": rule.source, "limits": limits_told(rule.limits),
        "words": [word for word in dict.fromkeys([*rule.words, *rule.when])],
    }


def limits_told(limit):
    """Return a limit in the types of JSON: a quantity as its SI value, unit and text; tables stay tables."""
    if isinstance(limit, dict):
        return {str(key): limits_told(value) for key, value in limit.items()}
    if isinstance(limit, (list, tuple)):
        return [limits_told(value) for value in limit]
    if hasattr(limit, "dimension"):
        return {"value": number(float(limit)), "dimension": str(limit.dimension), "shown": str(limit)}
    return limit


def words_sheet(rows, wishes):
    """Return the words for a person to read."""
    from .page import Page

    page = Page(wishes.width, wishes.color)
    for row in rows:
        page.paragraph(line(row.word), "bold")
        page.paragraph(kind_of(row), "dim", indent=2)
        page.paragraph(line(row.meaning) or "No meaning is written down.", indent=2)
        page.gap()
    return page.finished()


def kind_of(row):
    """Return scope, dimension and origin of a word in a few words."""
    where = f" of the {row.scope}" if row.scope else ""
    ways = [f"written as {line(row.path)}"] if row.path else []
    ways += [f"computed by {joined((formula.name for formula in row.formulas), 'or')}"] if row.formulas else []
    return ", ".join([f"{spoken_dimension(row.dimension)}{where}".strip(), *ways])


def spoken_dimension(dimension):
    """Return the name of a dimension in words."""
    return {"yes_no": "yes or no"}.get(str(dimension), str(dimension or "").replace("_", " "))


def words_lines(rows):
    """Return one word to a line."""
    return "".join(f"{line(row.word)}: {kind_of(row)}: {line(row.meaning)}\n" for row in rows)


def words_json(rows):
    """Return the list of words as the contract names their parts."""
    return _list(word_told(row) for row in rows)


def word_told(row):
    told = {"word": row.word, "scope": row.scope, "dimension": row.dimension, "meaning": row.meaning,
            "typical": row.typical, "plausible": row.plausible}
    if row.path:
        told["path"] = row.path
    if row.formulas:
        told["formulas"] = [formula.name for formula in row.formulas]
    told["rules"] = row.rules
    return told


def _list(items):
    return "[\n" + ",\n".join(encoded(item) for item in items) + "\n]\n"
