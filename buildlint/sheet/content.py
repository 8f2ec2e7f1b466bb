"""Everything that stands on one build sheet, gathered as plain text, lists and dicts for the page to lay out."""

from . import numbers, orders, summary, traveler, verdicts
from ..render import stage_name
from ..render.text import line


def gather(build):
    """Return the sheet of a Build as a dict of its sections; pictures are drawn elsewhere."""
    computed, anchors = numbers.computed(build)
    areas, totals = summary.counts(build)
    margins, more_margins = summary.margins(build)
    unlocks, wanting, more_wanting = summary.missing(build)
    steps, own_order, reminders, joints = traveler.steps(build)
    version, files = verdicts.record(build)
    return {
        "title": line(build.report.name) or build.file(build.path),
        "file": build.file(build.path), "stage": stage_name(build.bench.stage).capitalize(),
        "about": [(label, build.text(word)) for label, word in ABOUT if build.value(word) is not None],
        "verdict": summary.verdict(totals), "totals": totals, "areas": areas,
        "key": summary.key_numbers(build, anchors), "margins": margins, "more_margins": more_margins,
        "unlocks": unlocks, "wanting": wanting, "more_wanting": more_wanting,
        "steps": steps, "own_order": own_order, "reminders": reminders, "joints": joints,
        "orders": orders.lines(build), "order_date": build.text("order_date"),
        "numbers": computed, "findings": verdicts.findings(build), "permits": verdicts.permits(build),
        "version": version, "files": files, "crashed": [line(rule) for rule in build.report.crashed],
        "system": build.bench.system or "us",
    }


ABOUT = (
    ("For", "duty"), ("Induction", "induction"), ("Fuel", "fuel"), ("Layout", "layout"), ("Cylinders", "cylinders"),
    ("Firing order", "firing_order"), ("Head joint", "head_joint_kind"), ("Lifters", "lifter_kind"),
    ("Peak power", "peak_power"), ("Peak torque", "peak_torque"),
)
