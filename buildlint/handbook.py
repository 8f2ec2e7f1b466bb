"""The pages that are made from the rules and the schema: the catalogue of rules and the glossary of words.

`python -m buildlint.handbook` writes them; a test fails when they are stale. Nothing else is in here.
"""

import inspect
import re
import sys
import textwrap
from pathlib import Path

from . import road
from .house import folder
from .quantities import Amount
from .quantity_display import show_amount
from .value_display import plain_words

MADE = "<!-- made by python -m buildlint.handbook; do not edit by hand -->\n"

TITLES = {
    "general": "The spec as a whole", "short_block": "Short block and oil", "compression": "Compression",
    "valvetrain": "Valvetrain and cylinder head", "joints": "Bolted joints", "sealing": "Sealing",
    "air_and_fuel": "Air and fuel", "ignition": "Ignition", "cooling": "Cooling", "boost": "Boost and nitrous",
    "exhaust": "Exhaust", "accessories": "Accessories and drive end", "assembly": "Order of work", "order": "Order sheet",
}


def pages():
    """{path below the repository: text} of every generated page."""
    rules = road.rules()
    made = {"rules/README.md": _index(rules), "schemas/README.md": _glossary()}
    for area in dict.fromkeys(rule.area for rule in rules):
        made[f"rules/{area}/README.md"] = _chapter(area, [rule for rule in rules if rule.area == area])
    return made


def _index(rules):
    lines = [MADE, "# The rules\n",
             "One function, one fact, one finding. The folder is the area; each area has its chapter. Limits can be changed by the",
             "shop, each by the name given with its rule; every rule names its source, and `common practice, no source` says that",
             "there is none. A part maker's written instruction wins over any rule of thumb here.\n",
             "| area | errors | warnings | notes | reminders | all |", "|---|---|---|---|---|---|"]
    areas = {}
    for rule in rules:
        areas.setdefault(rule.area, []).append(rule)
    for area, own in areas.items():
        counts = [sum(rule.level == level for rule in own) for level in ("error", "warning", "note", "reminder")]
        lines.append(f"| [{TITLES.get(area, area)}]({area}/README.md) | {' | '.join(map(str, counts))} | {len(own)} |")
    counts = [sum(rule.level == level for rule in rules) for level in ("error", "warning", "note", "reminder")]
    lines.append(f"| **all** | {' | '.join(map(str, counts))} | {len(rules)} |\n")
    for area, own in areas.items():
        lines += [f"## {TITLES.get(area, area)}\n", "| rule | at | level | due | |", "|---|---|---|---|---|"]
        for rule in own:
            lines.append(f"| [{rule.id}]({area}/README.md#{rule.id}) | {_scope(rule)} | {rule.level} | {plain_words(rule.due)} | "
                         f"{_first_sentence(rule)} |")
        lines.append("")
    return "\n".join(lines)


def _chapter(area, rules):
    lines = [MADE, f"# {TITLES.get(area, area)}\n"]
    topic = None
    for rule in rules:
        if rule.file != topic:
            topic = rule.file
            title = Path(topic).stem.replace("_", " ").capitalize()
            opening = inspect.cleandoc(sys.modules[rule.function.__module__].__doc__ or "")
            lines += [f"## {title}\n", opening, ""]
        lines += _rule(rule)
    return "\n".join(lines)


def _rule(rule):
    lines = [f"### {rule.id}\n", f"*{rule.level}, asked of each {_scope(rule)}, to be answered by {plain_words(rule.due)}*\n",
             inspect.cleandoc(rule.why), "", f"> {_quoted(rule.says)}\n>\n> {_quoted(rule.fix)}\n"]
    if rule.caution:
        lines.append(f"**Caution.** {rule.caution}\n")
    if rule.limits:
        lines += ["Limits:\n"] + [f"- `{name}`: {_limit(limit)}" for name, limit in rule.limits.items()] + [""]
    lines.append(f"Source: {rule.source}.\n" if not rule.source.endswith(".") else f"Source: {rule.source}\n")
    if rule.nonconforming:
        lines += ["```yaml", textwrap.dedent(rule.nonconforming[0]).strip("\n"), "```\n"]
    return lines


def _scope(rule):
    return {"value": "written value"}.get(rule.scope, rule.scope.replace("_", " "))


def _quoted(sentence):
    return re.sub(r":(up|down)\}", "}", sentence).replace("{", "*").replace("}", "*").replace("_", " ")


def _first_sentence(rule):
    return inspect.cleandoc(rule.why).split("\n", 1)[0]


def _limit(limit):
    if isinstance(limit, Amount):
        return show_amount(limit)
    if isinstance(limit, dict):
        return "; ".join(f"{plain_words(key)} {_limit(value)}" for key, value in limit.items())
    if isinstance(limit, (tuple, list, set, frozenset)):
        return ", ".join(_limit(part) for part in limit)
    return plain_words(limit) if isinstance(limit, (str, bool)) else str(limit)


def _glossary():
    words = road.words().words
    lines = [MADE, "# The words\n",
             "Every key of the build spec and the word it becomes. *Typical* is an example, *plausible* only asks whether a value is",
             "a slip of the pen, never whether it is good practice. The longer choices, and the words that formulas give, stand at the end.\n"]
    headings, longer = {}, {}
    for word in words.values():
        headings.setdefault(word.path.split(".")[0].split("[")[0], []).append(word)
    for heading, own in headings.items():
        lines += [f"## {heading.replace('<side>', 'intake, exhaust')}\n", "| key | word | kind | meaning | typical | plausible |",
                  "|---|---|---|---|---|---|"]
        for word in own:
            plausible = " to ".join(word.plausible) if word.plausible else ""
            kind = _kind(word, longer)
            lines.append("| " + " | ".join(_cell(text) for text in (
                f"`{word.path}`", f"`{word.name}`", kind, word.meaning, word.typical or "", plausible)) + " |")
        lines.append("")
    lines += ["## The longer choices\n", "| key | may be |", "|---|---|"]
    lines += [f"| {', '.join(f'`{path}`' for path in paths)} | {', '.join(values)}{'; or a name of your own' if own else ''} |"
              for (values, own), paths in longer.items()]
    lines.append("")
    lines += ["## Words that follow from others\n", "| word | kind | how | source |", "|---|---|---|---|"]
    for word, formulas in sorted(road.ways().items()):
        for formula in formulas:
            lines.append("| " + " | ".join(_cell(text) for text in (
                f"`{word}`", str(formula.gives).replace("_", " "), formula.sentence, formula.source)) + " |")
    return "\n".join(lines) + "\n"


SHORT = 14  # values that stand beside the key


def _kind(word, longer):
    """What may be written: the values of a short choice, the fields of an entry; long lists of values go to ``longer``."""
    if word.choices and len(word.choices) > SHORT:
        longer.setdefault((word.choices, word.open), []).append(word.path)
        return f"{word.dimension}, listed at the end"
    if word.choices:
        return f"{'list of ' if word.dimension == 'list' else ''}{', '.join(word.choices)}"
    if word.dimension != "entries":
        return word.dimension.replace("_", " ")
    fields = []
    for field, _ in word.elements:
        values = road.words().entry_choices.get((word.path, field))
        if values:
            longer.setdefault((values, False), []).append(f"{word.path}[].{field}")
        fields.append(field)
    return f"entries of {', '.join(fields)}"


def _cell(text):
    return str(text).replace("|", "\\|").replace("\n", " ").replace("<", "&lt;") if not str(text).startswith("`") else str(text)


def main():
    root = Path(folder("rules")).parent
    for path, text in pages().items():
        (root / path).write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
