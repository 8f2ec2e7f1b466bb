"""A page of HTML as a PDF: on Letter where the builder measures in inches, on A4 where in millimeters.

Nothing is fetched, whatever the page says.
"""

import logging
import warnings

PAPER = {"us": "letter", "metric": "A4"}


class NoPrinter(Exception):
    """The library that lays out pages cannot start; the message says what to install."""


def pdf(text, system="us", paper=None):
    """The bytes of the PDF; the same text gives the same bytes. Raises NoPrinter where Pango is not there."""
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            from weasyprint import CSS, HTML
    except OSError as error:
        raise NoPrinter("PDF needs the Pango library of the system (on Debian: apt-get install libpango-1.0-0 libpangoft2-1.0-0), "
                        "or take --only html") from error
    for name in ("weasyprint", "fontTools"):
        logging.getLogger(name).setLevel(logging.CRITICAL)
    size = CSS(string=f"@page {{ size: {paper or PAPER.get(system, 'letter')} }}")
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        return HTML(string=text, url_fetcher=_nothing, media_type="print").write_pdf(stylesheets=[size])


def _nothing(url, *given, **named):
    raise ValueError(f"a build sheet fetches nothing, and not {url[:80]}")
