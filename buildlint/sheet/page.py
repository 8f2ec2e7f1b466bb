"""A sheet as one self-contained page of HTML: templates filled with escaped text, a strict policy, nothing from outside.

Every text passes ``visible`` and then the escaping of the templates; only pictures, drawn here, are taken as they are.
"""

import base64
import hashlib
import os

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from ..render.text import paired, visible

FOLDER = os.path.join(os.path.dirname(os.path.abspath(__file__)), "templates")

SECTIONS = (("summary", "Summary"), ("pictures", "Pictures"), ("traveler", "Traveler"), ("orders", "Order sheet"),
            ("findings", "Findings"), ("numbers", "Numbers"), ("record", "Record"))


def _safe(value):
    """What an expression of a template gives: untrusted text made visible; drawings as they are."""
    return visible(paired(value)) if type(value) is str else value


def environment():
    """The environment of the templates: escaping on, undefined names refused."""
    return Environment(loader=FileSystemLoader(FOLDER), autoescape=True, undefined=StrictUndefined, finalize=_safe,
                       trim_blocks=True, keep_trailing_newline=True)


def style():
    """(the style sheet, the source expression that allows it and nothing else)."""
    with open(os.path.join(FOLDER, "sheet.css"), encoding="utf-8") as file:
        text = file.read()
    digest = base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()
    return Markup(text), f"'sha256-{digest}'"


def index(rows, folder, unchecked=()):
    """The list of a library as text: a row for each spec, its page in ``folder`` beside the list, and below it the
    specs that could not be checked as (path, why)."""
    from urllib.parse import quote

    from .. import __version__

    text, allowed = style()
    return environment().get_template("index.html").render(rows=rows, unchecked=unchecked, folder=quote(folder), version=__version__, style=text, style_hash=Markup(allowed))


def page(sheet, pictures, left_out, index="", derivations=False):
    """The whole page of one sheet as text; ``index`` is a link back to the list of all specs, ``derivations`` prints how
    each number came about, which else stands on the screen alone."""
    text, allowed = style()
    return environment().get_template("sheet.html").render(
        sheet=sheet, pictures=pictures, left_out=left_out, index=index, sections=SECTIONS, derivations=derivations, style=text, style_hash=Markup(allowed))
