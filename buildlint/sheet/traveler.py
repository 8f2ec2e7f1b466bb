"""The assembly traveler: every step in a valid order with its torques, products, boxes for what is measured, reminders and cautions.

The spec's own list of work is followed where it has one; else the standard order, as it fits this engine.
"""

from .. import judge, road
from ..model import PASS, REVIEW
from ..render.text import joined, line
from ..tables.build_sequence import HIDDEN_BY, SHUT_IN_BY, steps_for
from . import traveler_table as table
from .source import in_words, scope_in_words

BOXES = 16  # more boxes than this for one measurement would not fit a line of the sheet


def steps(build):
    """([step], whether the order is the spec's own, reminders and joints that belong to no step of the list)."""
    listed = [(scope.name, scope) for scope in build.spec.steps]
    standard = _standard(build)
    own = bool(listed)
    if not own:
        listed = [(name, None) for name in standard]
    reminders, joints, measured = _reminders(build), {scope: scope for scope in build.spec.joints}, _measurements(build)
    told, seen, boxed = [], set(), {}
    for number, (name, scope) in enumerate(listed, 1):
        first = name not in seen
        seen.add(name)
        told.append({
            "number": number, "name": in_words(name), "done": standard[name].done if name in standard else "",
            "by": build.text("by", scope) if scope is not None and "by" in scope.words else "",
            "on": build.text("on", scope) if scope is not None and "on" in scope.words else "",
            "needed_on": build.text("needed_on", scope) if scope is not None and "needed_on" in scope.words else "",
            "because": build.text("because", scope) if scope is not None and "because" in scope.words else "",
            "caution": table.CAUTIONS.get(name, "") if first else "",
            "joints": [_joint(build, joints.pop(joint)) for joint in _joints_of(name, joints)] if first else [],
            "studs": _studs(build, name) if first else [],
            "facts": _facts(build, name) if first else [],
            "boxes": _boxes(build, name, measured, boxed, number) if first else [],
            "taken_before": _taken_before(name, boxed, number) if first else [],
            "reminders": [reminders.pop(rule) for rule in _reminded_at(name) if rule in reminders] if first else [],
        })
    return told, own, list(reminders.values()), [_joint(build, joint) for joint in joints]


def _standard(build):
    arguments = [build.datum(word) for word in ("layout", "head_joint_kind", "head_cover_lifters", "block_dowel_holes_per_bank", "duty")]
    found = steps_for(*arguments, lifter_foot=build.datum("lifter_foot"))
    return found if build.spec.steps else {name: step for name, step in found.items() if step.standard}


def _joints_of(name, joints):
    wanted = table.JOINTS.get(name, ())
    return sorted((joint for joint in joints if _joint_name(joint) in wanted), key=lambda joint: wanted.index(_joint_name(joint)))


def _joint_name(joint):
    found = joint.value("joint_name")
    return found.data if found is not None else joint.name


def _joint(build, joint):
    """One bolted joint as it is tightened."""
    def text(word):
        return build.text(word, joint)

    steps = joint.value("torque_steps")
    passes = [build.amount(each, joint.value("torque") or _as_torque(each)) if isinstance(each, float) else line(str(each))
              for each in (steps.data if steps is not None else ())]
    order = joint.value("tightening_order")
    last = [part for part in (
        text("torque") and f"{text('torque')}",
        text("snug_torque") and text("angle") and f"{text('snug_torque')}, then {text('angle')}",
        text("stretch") and f"stretch {text('stretch')}") if part]
    return {
        "name": in_words(joint.name), "where": build.where(joint.place),
        "what": " ".join(part for part in (text("count"), text("thread"), text("kind")) if part),
        "final": "; ".join(last) or "not written", "passes": passes, "method": text("tightening"),
        "order": [line(str(each)) for each in order.data] if order is not None else [],
        "thread": text("lubricant"), "face": text("face_lubricant"), "product": text("thread_product"),
        "locked_by": text("locked_by"), "washer": _washer(build, joint), "hole": text("hole_opens_into"),
        "check": _tension(build, joint),
    }


def _tension(build, joint):
    """The tension that tightening gives and its scatter, all in the unit of the largest; empty where it cannot be had."""
    aim, low, high = (joint.value(word) for word in ("preload", "preload_low", "preload_high"))
    if aim is None or low is None or high is None:
        return aim and f"{build.shown(aim)} in each"
    return f"{build.amount(aim.data, high)} in each ({build.amount(low.data, high)} to {build.amount(high.data, high)})"


def _as_torque(amount):
    from ..dimensions import Torque
    from ..resolve import Value

    return Value("torque", amount, Torque, getattr(amount, "unit", ""), "", formula=None)


def _washer(build, joint):
    parts = [build.text("washer_kind", joint)]
    for word, what in (("washer_textured_side_faces", "textured side to the"), ("washer_chamfer_faces", "chamfer to the")):
        if joint.value(word) is not None:
            parts.append(f"{what} {build.text(word, joint)}")
    return ", ".join(part for part in parts if part)


def _studs(build, name):
    """How studs go into the casting, at the step that sets them."""
    if name != "head_studs":
        return []
    found = [joint for joint in build.spec.joints if _joint_name(joint) == "head"]
    return [{"torque": build.text("stud_install_torque", joint, "not written"), "product": build.text("thread_product", joint, "not written"),
             "hole": build.text("hole_opens_into", joint, "not written"), "end": build.text("stud_end", joint)} for joint in found]


def _facts(build, name):
    """Orientation, products and lubricants of a step: (what, text, where it is written)."""
    rows = []
    for word in (*table.ORIENTATION.get(name, ()), *table.PRODUCTS.get(name, ())):
        value = build.value(word)
        if value is not None:
            rows.append((in_words(word), build.shown(value), build.where(value.place)))
    coated = build.value("assembly_lubricants")
    for row in coated.data if coated is not None else ():
        if row.get("surface") in table.SURFACES.get(name, ()):
            rows.append((in_words(str(row["surface"])), in_words(str(row.get("product") or "not written")).lower(),
                         build.where(row["place_in_file"])))
    return rows


# -- what is measured -------------------------------------------------------------------------------------


def _measurements(build):
    found = build.value("measurements")
    return {row["word"]: row for row in (found.data if found is not None else ())}


def _boxes(build, name, measured, boxed, number):
    """Boxes for what is measured at a step and has no box yet; ``boxed`` remembers at which step each word has its own."""
    rows = []
    for word in _measured_at(name):
        if word in boxed:
            continue
        value = build.value(word)
        if value is None and word not in table.ALWAYS:
            continue
        if value is not None and not getattr(value.dimension, "numeric", True):
            continue
        boxed[word] = number
        rows.append(_box(build, word, value, measured.get(word)))
    return rows


def _measured_at(name):
    return dict.fromkeys((*table.MEASURED.get(name, ()), *SHUT_IN_BY.get(name, ())))


def _taken_before(name, boxed, number):
    """(what, step) of each measurement that this step shuts in and that has its boxes at an earlier one."""
    return [(in_words(word), boxed[word]) for word in _measured_at(name) if boxed.get(word, number) < number]


def _box(build, word, value, row):
    label = in_words(word)
    if value is None:
        return {"label": label, "plan": "not written", "tolerance": "", "cells": _empty(build, word, None), "by": "", "on": ""}
    plan = row["plan"] if row is not None else (value.data if value.formula is not None or value.plan is None else value.plan)
    shown = "not written" if plan is None else (getattr(plan, "text", "") or build.amount(plan, value))
    if value.formula is not None:
        shown = f"{build.shown(value)} computed"
    low, high = getattr(plan, "low", None), getattr(plan, "high", None)
    tolerance = f"{build.amount(low, value)} to {build.amount(high, value)}" if low is not None and high is not None else ""
    taken = row["measured"] if row is not None else []
    cells = _empty(build, word, value)
    if taken:
        kind = value.along[0] if value.along and len(taken) > 1 else ""
        if kind and value.written and value.count > 1:  # with an empty box where nothing is measured yet
            taken = [None if each is None else each.data for each in value.elements]
        cells = [(f"{kind} {number}" if kind else "", "" if each is None else build.amount(each, value)) for number, each in enumerate(taken, 1)]
    return {"label": label, "plan": line(shown), "tolerance": tolerance, "cells": cells,
            "by": line(str(row["by"] or "")) if row is not None else "", "on": line(str(row["on"] or "")) if row is not None else ""}


def _empty(build, word, value):
    """Boxes to be filled by hand: one for each cylinder or main bearing where the word is measured at each."""
    definition = value.definition if value is not None else None
    per = definition.per if definition is not None else _per(word)
    count = 1
    if value is not None and value.along and value.elements:
        count, per = len(value.elements), value.along[0]
    elif per == "cylinder" or (per == "journal" and word.startswith("rod_")):
        count, per = build.datum("cylinders") or 1, "cylinder"
    elif per == "journal":
        count = build.datum("block_mains") or 1
    if not 1 < count <= BOXES:
        return [("", "")]
    return [(f"{per} {number}", "") for number in range(1, int(count) + 1)]


def _per(word):
    """What a word is measured along, by the vocabulary; seen from the build."""
    words = road.words().words
    for scope in ("build", "side", "bearing", "ring"):
        for name in (word, word.partition("_")[2], word.partition("_bearing_")[2], word.partition("_ring_")[2]):
            if (scope, name) in words:
                return words[scope, name].per
    return None


# -- reminders ----------------------------------------------------------------------------------------------


def _reminded_at(name):
    return dict.fromkeys((*table.REMINDERS.get(name, ()), *(rule for rule, step in HIDDEN_BY.items() if step == name)))


def _reminders(build):
    """{rule: its reminder}, signed ones with who signed; each once, with every part it is about."""
    said = {}
    wanted = {finding.rule for finding in build.report.findings
              if finding.kind == REVIEW or (finding.kind == PASS and finding.message.startswith("signed by "))}
    if not wanted:
        return said
    rules = [rule for rule in (*road.rules(), *build.bench.standard.rules) if rule.id in wanted]
    unsigned = judge.Bench(build.spec, build.bench.vocabulary, build.bench.ways, build.bench.stage, build.bench.standard, build.bench.compared)
    unsigned.signed = {}
    for finding in judge.judge(rules, unsigned)[0]:
        if finding.kind != REVIEW:
            continue
        row = said.setdefault(finding.rule, {"rule": line(finding.rule), "said": {}, "caution": line(finding.caution), "signed": "",
                                             "due": in_words(finding.due).lower()})
        row["said"].setdefault(line(finding.message), []).append(_part(finding.scope))
        signed = build.spec.signed.get(finding.rule)
        row["signed"] = f"signed {line(signed)}" if signed else ""
    for row in said.values():
        row["text"] = [f"{joined(dict.fromkeys(filter(None, scopes)))}: {text}" if any(scopes) else text for text, scopes in row["said"].items()]
    return said


def _part(scope):
    """The part a reminder is about, without the cylinder and without the step it stands at anyway."""
    return scope_in_words([part for part in scope if not part.startswith(("cylinder ", "journal ", "fastener ")) and not part.endswith((" step", " item"))])
