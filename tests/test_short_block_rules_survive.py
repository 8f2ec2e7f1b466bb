"""No rule of the short block breaks down or speaks nonsense, whatever believable or extreme values a spec holds together.

Specs are drawn from the vocabulary: every value lies in its plausible range, at an end of it or at nothing, so that the
combinations are such as no engine has.
"""

import random

import pytest

from buildlint import road, vocabulary
from buildlint.model import FAIL
from buildlint.quantities import in_unit, read

HEADINGS = ("build", "engine", "block", "crank", "rods", "pistons", "rings", "bearings", "oiling", "balance", "damper", "flywheel", "driveline",
            "heads", "head_gasket", "boost", "nitrous", "camshaft", "accessories", "ignition", "fuel_system")
PARTS = {"<ring>": ("top", "second", "oil"), "<bearing>": ("main", "rod", "cam")}
RULES = [rule for rule in road.rules() if rule.area == "short_block"]
BESIDES = """
joints:
  rod: {thread: 3/8-24, strength_class: 190_ksi, lubricant: engine_oil, tightening: torque, torque: 45 lbf-ft}
order:
  items:
    - {item: crank, quantity: 1, condition: reused, crack_tested: not_done}
"""


def drawn(word, chance):
    """A value for a word as text, or None where the vocabulary has no example."""
    if word.choices:
        return chance.choice(word.choices)
    if not word.plausible or word.dimension in ("list", "table"):
        return word.typical or None
    low, high = (read(text, word.dimension) for text in word.plausible)

    def one():
        if word.dimension == "count":
            return str(chance.randint(int(low), int(high)))
        amount = chance.choice((low, high, chance.uniform(low, high), 0.0))
        return f"{in_unit(amount, word.dimension, low.unit):.6g} {low.unit}".strip()

    return f"[{', '.join(one() for _ in range(8))}]" if word.per and chance.random() < 0.4 else one()


def spec_of(seed):
    chance, lines, tree = random.Random(seed), [], {}
    for word in vocabulary.load().words.values():
        heading = word.path.split(".")[0]
        if heading not in HEADINGS or "[" in word.path or "<side>" in word.path or chance.random() < 0.35:
            continue
        mark = next((mark for mark in PARTS if mark in word.path), None)
        for part in PARTS.get(mark, ("",)):
            value = drawn(word, chance)
            if value is None:
                continue
            *above, key = (word.path.replace(mark, part) if mark else word.path).split(".")
            node = tree
            for step in above:
                node = node.setdefault(step, {})
            node[key] = value

    def write(node, depth):
        for key, value in node.items():
            lines.append("  " * depth + (f"{key}:" if isinstance(value, dict) else f"{key}: {value}"))
            if isinstance(value, dict):
                write(value, depth + 1)

    write(tree, 0)
    return "\n".join(lines) + BESIDES


@pytest.mark.parametrize("seed", range(60))
def test_no_rule_breaks_down_and_every_finding_can_be_read(seed):
    report = road.check("drawn.yaml", text=spec_of(seed).encode(), chosen=RULES)
    assert not report.crashed, [finding.message for finding in report.findings if finding.rule == "rule-runs-to-its-end"]
    for finding in report.findings:
        if finding.kind == FAIL and finding.area == "short_block":
            said = f"{finding.message} {finding.fix}"
            assert not any(nonsense in said for nonsense in ("{", "None", "Amount(", " nan", " inf "))
