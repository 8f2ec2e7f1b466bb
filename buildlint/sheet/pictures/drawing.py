"""The drawing board: one look for every picture, and matplotlib's drawing turned into clean SVG for the page.

The same values give the same bytes. Colors are attributes that the style sheet of the page changes for a dark screen; none
carries a meaning alone, every line is named where it runs.
"""

import logging
import re
import warnings
from typing import NamedTuple
from xml.etree import ElementTree

import matplotlib
from markupsafe import Markup
from matplotlib.backends.backend_svg import FigureCanvasSVG
from matplotlib.figure import Figure

from ...render.text import paired, visible
from ...unit_factors import FACTORS

PAPER = "#ffffff"
INK, SOFT, RULE, DEMAND, LIMIT, SECOND, GOOD, BAND = (
    "#1b1f24", "#4d5560", "#c3c9d0", "#1f5fa8", "#a3231d", "#8a4a00", "#226a3c", "#dbe8f6")
SIDE_LOOK = {"intake": (DEMAND, "-"), "exhaust": (SECOND, (0, (6, 2)))}

SETTINGS = {
    "svg.fonttype": "none", "svg.hashsalt": "buildlint", "text.parse_math": False, "axes.unicode_minus": False,
    "font.family": "sans-serif", "font.sans-serif": ["DejaVu Sans"], "font.size": 9, "axes.titlesize": 10, "axes.titleweight": "bold",
    "axes.titlelocation": "left", "axes.spines.top": False, "axes.spines.right": False, "axes.edgecolor": INK, "axes.labelcolor": INK,
    "axes.titlecolor": INK, "xtick.color": INK, "ytick.color": INK, "text.color": INK, "axes.grid": True, "grid.color": RULE,
    "grid.linewidth": 0.5, "lines.linewidth": 1.8, "axes.axisbelow": True, "figure.dpi": 72, "savefig.transparent": True,
    "axes.formatter.useoffset": False,
}

SVG = "http://www.w3.org/2000/svg"
XLINK = "{http://www.w3.org/1999/xlink}"


class Wanting(Exception):
    """A picture that cannot be drawn; ``needs`` are the keys that are missing, ``why`` a word where it is no key."""

    def __init__(self, needs=(), why=""):
        super().__init__(", ".join(needs) or why)
        self.needs, self.why = tuple(needs), why


class Drawn(NamedTuple):
    """A picture: what it is called, what to see in it, the same told in words, and the drawing."""

    key: str
    title: str
    text: str
    svg: Markup


def asked(build, words, scope=None):
    """The Values of these words in a scope; raises Wanting with everything that would give the missing ones."""
    values = [build.value(word, scope) for word in words]
    needs = dict.fromkeys(path for word, value in zip(words, values) if value is None for path in build.missing(word, scope))
    if needs:
        raise Wanting(needs)
    return values


def judged(build, rule, scope=()):
    """The finding of a rule that held a number against a limit in this scope, the fullest; None where it did not."""
    found = [finding for finding in build.report.findings
             if finding.rule == rule and finding.scope[:len(scope)] == tuple(scope) and isinstance(finding.limit, (int, float))]
    return max(found, key=lambda finding: finding.utilization or 0.0, default=None)


def limit_in(finding, dimension, unit):
    """The limit of a finding as a plain number in a unit."""
    numerator, denominator, zero, _ = FACTORS[dimension][finding.unit]
    to = FACTORS[dimension][unit]
    return ((finding.limit * numerator + zero) / denominator * to[1] - to[2]) / to[0]


def settings():
    """The settings of the board, whatever the user's own are; to be used with ``with``."""
    plain = {key: value for key, value in matplotlib.rcParamsDefault.items() if "backend" not in key and key != "timezone"}
    logging.getLogger("matplotlib").setLevel(logging.ERROR)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        return matplotlib.rc_context({**plain, **SETTINGS})


def board(columns=1, width=8.2, height=3.5, shared=False):
    """A figure and its axes, one or a list of several side by side."""
    figure = Figure(figsize=(width, height), layout="constrained")
    axes = figure.subplots(1, columns, sharey=shared)
    return figure, axes


def safe(text):
    """Untrusted text for a label."""
    return visible(paired(str(text)))[:60]


def hover(artist, text, hovers):
    """Give an artist a title that shows under the pointer."""
    name = f"hover-{len(hovers)}"
    artist.set_gid(name)
    hovers[name] = text
    return artist


def name_line(axes, line_or_xy, text, color=INK, dx=4, dy=4, ha="left", va="bottom", rotation=0, xycoords="data"):
    """Write beside a line what it is."""
    # what lies behind a name shines through, but a line no longer crosses it out
    axes.annotate(text, line_or_xy, xytext=(dx, dy), textcoords="offset points", color=color, ha=ha, va=va, fontsize=8.5,
                  rotation=rotation, xycoords=xycoords, bbox={"facecolor": PAPER, "edgecolor": "none", "alpha": 0.8, "pad": 0.6})


def drawn(figure, key, title, text, hovers=None):
    """The picture that a figure holds."""
    return Drawn(key, title, text, _clean(_raw(figure), key, title, hovers or {}))


def _raw(figure):
    import io

    out = io.StringIO()
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # a name in letters the metrics font lacks is still written as text
        FigureCanvasSVG(figure).print_svg(out, metadata={"Date": None, "Creator": None, "Format": None, "Type": None})
    return out.getvalue()


def _clean(text, key, title, hovers):
    """Matplotlib's SVG without styles, foreign names and numbers that clash with those of other pictures on the page."""
    root = ElementTree.fromstring(re.sub(r"<!DOCTYPE.*?>", "", text, flags=re.S))
    used = set(re.findall(r'url\(#([^)]+)\)|href="#([^"]+)"', text) and [a or b for a, b in re.findall(r'url\(#([^)]+)\)|href="#([^"]+)"', text)])
    parents = {child: parent for parent in root.iter() for child in parent}
    for element in list(root.iter()):
        tag = element.tag.rpartition("}")[2]
        if tag in ("metadata", "style"):
            parents[element].remove(element)
            continue
        _plain_attributes(element, key, used, hovers)
    box = root.attrib["viewBox"].split()
    for name in ("version", "width", "height"):
        root.attrib.pop(name, None)
    root.attrib.update({"role": "img", "aria-label": title, "aria-describedby": f"picture-{key}-text", "focusable": "false",
                        "width": box[2], "height": box[3], "stroke-linejoin": "round"})
    ElementTree.register_namespace("", SVG)  # each time: the table of prefixes is shared with everybody in this process
    ElementTree.indent(root, "")
    return Markup(ElementTree.tostring(root, encoding="unicode"))


def _plain_attributes(element, key, used, hovers):
    style = element.attrib.pop("style", "")
    for part in style.split(";"):
        name, colon, value = part.partition(":")
        name, value = name.strip(), value.strip()
        if not colon:
            continue
        if name == "font":
            size = re.search(r"([\d.]+)px", value)
            element.attrib["font-size"] = size.group(1) if size else "9"
            element.attrib["font-family"] = "DejaVu Sans, sans-serif"
            if "bold" in value or re.match(r"700\b", value):
                element.attrib["font-weight"] = "bold"
        elif name == "font-family":
            element.attrib["font-family"] = "DejaVu Sans, sans-serif"
        else:
            element.attrib[name] = value
    if element.tag.endswith("}text") and "fill" not in element.attrib:
        element.attrib["fill"] = INK
    own = element.attrib.pop("id", None)
    if own in hovers:
        note = ElementTree.Element(f"{{{SVG}}}title")
        note.text = hovers[own]
        element.insert(0, note)
    if own in used:
        element.attrib["id"] = f"{key}-{own}"
    for name in list(element.attrib):
        value = element.attrib[name]
        if name == f"{XLINK}href":
            del element.attrib[name]
            element.attrib["href"] = f"#{key}-{value[1:]}"
        elif "url(#" in value:
            element.attrib[name] = value.replace("url(#", f"url(#{key}-")
