"""The build sheet: one spec as a page that is printed, pinned to the engine stand and signed.

Needs the extra ``report``. Nothing is written or printed here; whatever is heavy loads only when a sheet is made.
"""

from importlib.util import find_spec

FOR_HTML, FOR_PDF = ("jinja2", "matplotlib"), ("jinja2", "matplotlib", "weasyprint")


def lacking(pdf=True):
    """The packages of the extra ``report`` that are not installed."""
    return [name for name in (FOR_PDF if pdf else FOR_HTML) if find_spec(name) is None]


def html(build, index="", derivations=False):
    """The sheet of a Build (``source.read``) as one self-contained page; ``index`` links back to a list of all specs,
    ``derivations`` prints how each number came about."""
    from . import content, page, pictures

    drawn, left_out = pictures.draw(build)
    return page.page(content.gather(build), drawn, left_out, index, derivations)
