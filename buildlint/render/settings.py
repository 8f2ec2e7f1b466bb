"""The sheet of a shop standard: what holds for a spec, and where each setting was written."""

from .json_report import at, encoded
from .page import Page
from .text import line, place


def sheet(standard, path, wishes):
    """Return the settings that hold for a spec, or say that there are none."""
    page = Page(wishes.width, wishes.color)
    page.paragraph(line(path), "bold")
    page.gap()
    if not standard.file:
        page.paragraph("No shop.yaml holds for it; every rule stands as it was shipped.")
        return page.finished()
    for setting in standard.settings:
        value = f": {line(setting.value)}" if setting.value != "" else ""
        page.paragraph(f"{line(setting.what)}{value}")
        page.paragraph(place(setting.place), "dim", indent=2)
    for rule in standard.rules:
        page.paragraph(f"rule {line(rule.id)} ({rule.level}, for each {rule.scope})")
        page.paragraph(line(rule.file), "dim", indent=2)
    if not standard.settings and not standard.rules:
        page.paragraph(f"{line(standard.file)} settles nothing for it.")
    return page.finished()


def as_json(standard, path):
    """Return the same as one JSON object."""
    return encoded({
        "spec": path, "standard": standard.file or None,
        "settings": [{"what": setting.what, "value": setting.value, "at": at(setting.place)} for setting in standard.settings],
        "rules": [{"rule": rule.id, "level": rule.level, "scope": rule.scope} for rule in standard.rules]}) + "\n"
