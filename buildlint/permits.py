"""Deviations that were allowed: a deviation permit before the part exists, a concession after (ISO 9000 words).

A permit sets one rule aside at one place, with a reason, an approval and an end. Permitted findings stay in sight
and do not count. A permit that is unused, out of date, too wide or not allowed is a finding itself.
"""

from .model import FAIL, Finding, Mapping, Scalar, Sequence
from .vocabulary import suggest

ENOUGH = 200  # findings about permits, after which what a rule's name may have meant is not looked for any more
# Findings of the program itself that a permit may set aside; that a rule broke down can never be.
OWN_CHECKS = ("due-inputs-are-written", "due-reminders-are-signed", "quantity-can-be-read", "list-has-one-value-each",
              "key-is-known", "choice-is-known", "value-has-its-shape", "part-is-in-the-catalogue")


def settle(findings, tree, rules, standard, today, broken=frozenset()):
    """Return the findings with permits laid over them, and findings about the permits themselves.

    ``tree`` is the composed spec, ``today`` a function that gives the date on which permits are judged.
    """
    node = tree.get("permits")
    if not isinstance(node, Sequence):
        return findings
    known = {identifier: rule for rule in rules for identifier in (rule.id, *rule.was)}
    settled, about = list(findings), []
    for number, item in enumerate(node.items):
        if isinstance(item, Mapping) and f"/permits/{number}" not in broken:
            _settle_one(item, number, settled, about, known, standard, today)
    return settled + about


def _settle_one(item, number, settled, about, known, standard, today):
    def say(check, level, message, fix):
        about.append(Finding(check, "spec", FAIL, level, (), message, fix, place=item.place, pointer=f"/permits/{number}"))

    text = {key: entry.node.text for key, entry in item.entries.items() if isinstance(entry.node, Scalar)}
    name, because = text.get("rule", ""), text.get("because", "").strip()
    rule = known.get(name)
    if rule is None and name not in OWN_CHECKS:
        meant = suggest(name, [*known, *OWN_CHECKS]) if len(about) < ENOUGH else None
        return say("permit-names-a-rule", "error", f"there is no rule {name!r} to be set aside",
                   f"Write {meant}." if meant else "Write the id that stands with the finding.")
    identifier = rule.id if rule else name
    if rule is not None and not standard.permits(rule):
        return say("permit-is-allowed", "error", f"no permit may set {identifier} aside",
                   "Mend the build; this rule is about somebody getting hurt, or the shop allows no deviation from it.")
    if not because:
        return say("permit-gives-its-reason", "error", f"the permit for {identifier} gives no reason", "Write because: and the reason.")
    until = text.get("until")
    if until is not None and until < today().isoformat():
        return say("permit-is-in-date", "warning", f"the permit for {identifier} ended on {until}",
                   "Mend what it was for, or have it approved again with a new date.")
    used = [place for place, finding in enumerate(settled)
            if finding.kind == FAIL and finding.rule == identifier and finding.permit is None and _at(text.get("at"), finding)]
    if not used:
        return say("permit-is-used", "warning", f"the permit for {identifier} sets nothing aside: there is no such finding"
                   + (f" at {text['at']}" if "at" in text else ""), "Take the permit out, or correct its place.")
    shown = {key: text[key] for key in ("because", "approved", "until") if key in text}
    for place in used:
        settled[place] = settled[place]._replace(permit=shown)
    if "at" not in text and len({settled[place].scope for place in used}) > 1:
        say("permit-names-its-place", "note", f"the permit for {identifier} sets {len(used)} findings aside, in several places",
            "Write at: with the scope or key it is meant for.")
    lacking = [key for key in ("approved", "until") if key not in text]
    if lacking:
        say("permit-is-complete", "note", f"the permit for {identifier} does not say {' and '.join(lacking)}",
            "Write who approved it and the day it ends.")


def _at(place, finding):
    """Whether a finding lies at the place of a permit: a key, a heading, or a scope in words."""
    if place is None:
        return True
    pointer = place if place.startswith("/") else "/" + place.replace(".", "/")
    return (finding.pointer == pointer or finding.pointer.startswith(pointer + "/")
            or " ".join(finding.scope) == place or place in finding.scope)
