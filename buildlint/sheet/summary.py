"""The first screen of the sheet: key numbers with their sources, counts by area, the tightest margins, what is missing.

Which numbers are key is a matter of the trade, kept in one table; common practice, no source.
"""

from ..model import FAIL, LEVELS, OPEN
from ..render import by_area, tally
from ..render.text import joined, line
from .source import in_words, scope_in_words, told

# (group, what a builder calls it, the word, the scope it is looked up in: "" the build, else side, or a bearing or joint)
KEY = (
    ("Size and ratios", "Displacement", "displacement", ""),
    ("Size and ratios", "Bore", "block_bore", ""),
    ("Size and ratios", "Stroke", "crank_stroke", ""),
    ("Size and ratios", "Compression ratio", "compression_ratio", ""),
    ("Size and ratios", "Trapped compression ratio", "trapped_compression_ratio", ""),
    ("Size and ratios", "Rod over stroke", "rod_ratio", ""),
    ("Speeds", "Rev limit", "rev_limit", ""),
    ("Speeds", "Mean piston speed", "piston_speed_mean", ""),
    ("Speeds", "Valve float", "float_speed", "side"),
    ("Loads", "Highest cylinder pressure", "peak_cylinder_pressure", ""),
    ("Loads", "Spring load on the seat", "spring_seat_load", "side"),
    ("Loads", "Spring load at full lift", "spring_open_load", "side"),
    ("Loads", "Pushrod load", "pushrod_design_load", "side"),
    ("Loads", "Pushrod buckling load", "pushrod_buckling_load", "side"),
    ("Loads", "Rod bolts: clamp over pull", "rod_clamp_ratio", ""),
    ("Clearances", "Main bearings", "main_bearing_clearance", ""),
    ("Clearances", "Rod bearings", "rod_bearing_clearance", ""),
    ("Clearances", "Piston to wall", "piston_wall_clearance", ""),
    ("Clearances", "Quench gap", "quench_gap", ""),
    ("Clearances", "Piston to valve", "piston_gap", "side"),
    ("Clearances", "Spring before coil bind", "spring_coil_bind_margin", "side"),
    ("Clearances", "Valve stem in guide", "guide_stem_clearance", "side"),
    ("Clearances", "Top ring end gap", "top_ring_end_gap", ""),
    ("Clearances", "Second ring end gap", "second_ring_end_gap", ""),
    ("Preloads", "Head fasteners, tension of one", "head_joint_preload", ""),
    ("Preloads", "Head: clamp over lifting force", "head_clamp_ratio", ""),
    ("Preloads", "Main fasteners, tension of one", "main_joint_preload", ""),
    ("Preloads", "Rod bolts, tension of one", "rod_joint_preload", ""),
    ("Preloads", "Lifter preload", "lifter_preload", ""),
    ("Preloads", "Hot lash", "lash_hot", "side"),
)

MOST_MARGINS = 15


def key_numbers(build, anchors):
    """[(group, rows)]: each row with its label, its parts (one, or one for each side) with their sources, and what it needs.

    Lash is asked of solid lifters only, preload of hydraulic ones.
    """
    groups = {}
    lifters = build.datum("lifter_kind") or ""
    for group, label, word, kind in KEY:
        if (word == "lash_hot" and lifters.startswith("hydraulic")) or (word == "lifter_preload" and lifters.startswith("solid")):
            continue
        scopes = build.spec.sides if kind == "side" else [build.spec.build]
        parts, needs = [], {}
        for scope in scopes:
            value = scope.value(word)
            if value is None:
                needs.update(dict.fromkeys(line(path) for path in build.missing(word, scope)))
            else:
                parts.append(_part(build, value, scope.name, anchors))
        if len(parts) == 2 and parts[0][1:] == parts[1][1:]:
            parts = [("", *parts[0][1:])]  # both sides alike, from one line
        groups.setdefault(group, []).append({"label": label, "parts": parts, "needs": joined(needs)})
    return list(groups.items())


def _part(build, value, name, anchors):
    """(side or "", text, where it is written or "", sentence of its formula or "", anchor among the numbers or "")."""
    if value.formula is not None:
        return name, told(build, value), "", line(value.formula.sentence), anchors.get(id(value), "")
    return name, told(build, value), build.where(value.place), "", ""


def counts(build):
    """(rows by area, totals): how many findings of each sort every area has."""
    rows = []
    for area, findings in by_area(build.report.findings):
        rows.append({"area": in_words(area), **tally(findings)})
    return rows, tally(build.report.findings)


def verdict(totals):
    """One sentence that says how the build stands."""
    found = [f"{totals[level]} {level}{'' if totals[level] == 1 else 's'}" for level in LEVELS if totals[level]]
    stands = joined(found).capitalize() if found else "Nothing to put right"
    return f"{stands}; {totals['open']} questions still open, {totals['review']} reminders to sign."


def margins(build):
    """The tightest limits of the build: rows with how much of each is used, the fullest first, each rule once."""
    tightest = {}
    for finding in build.report.findings:
        if not finding.has_margin:
            continue
        key = finding.rule, finding.scope[:1] if finding.scope and finding.scope[0] in ("intake", "exhaust") else ()
        if key not in tightest or finding.utilization > tightest[key].utilization:
            tightest[key] = finding
    ranked = sorted(tightest.values(), key=lambda each: (-each.utilization, each.rule, each.scope))
    return [_margin(finding) for finding in ranked[:MOST_MARGINS]], max(0, len(ranked) - MOST_MARGINS)


def _margin(finding):
    share = finding.utilization
    if finding.kind == FAIL:
        stand = "set aside by permit" if finding.permit else f"past the limit ({finding.level})"
    else:
        stand = "at the limit" if share >= 0.995 else "within"
    percent = min(share, 99.99) * 100
    return {"rule": line(finding.rule), "label": in_words(finding.rule), "scope": scope_in_words(finding.scope),
            "percent": f"{percent:.0f} %", "bar": round(min(percent, 150.0), 1), "stand": stand, "past": finding.kind == FAIL,
            "at": share >= 0.995}


def missing(build):
    """What to write next: (few keys that settle most, rows of keys with how many rules wait for each)."""
    waiting = {}
    for finding in build.report.findings:
        if finding.kind == OPEN:
            for path in finding.missing:
                waiting.setdefault(path, set()).add(finding.rule)
    ranked = sorted(waiting.items(), key=lambda pair: (-len(pair[1]), pair[0]))
    unlocks = [{"keys": [line(path) for path in paths], "rules": count} for paths, count in build.report.unlocks]
    return unlocks, [{"key": line(path), "rules": len(rules)} for path, rules in ranked[:24]], max(0, len(ranked) - 24)
