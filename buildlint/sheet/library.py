"""A list of many specs with a page for each: the list in one file, the pages in a folder beside it that is named after it.

Pages of specs that are no longer there are left alone; the list links only to those of this run.
"""

import json
import os
import re
from hashlib import sha256
from urllib.parse import quote

from ..deliver import CannotWrite, why
from .written import put

BACK = "\x00index"  # stands in a page for the way back to its list until it is known where that is


def page_name(path):
    """The file of a spec's page: readable, and different for different paths."""
    readable = re.sub(r"[^A-Za-z0-9._-]+", "-", os.path.splitext(path)[0]).strip("-.")[-80:]
    return f"{readable}-{sha256(path.encode('utf-8', 'surrogateescape')).hexdigest()[:8]}.html"


class Library:
    """The output ``html:FILE`` of a check, with the methods of ``deliver.Output``."""

    def __init__(self, form, path, wishes, put_out, say):
        self.form, self.path, self.wishes, self.say = form, path, wishes, say
        self.broken, self.rows = False, []
        self.folder = os.path.splitext(path)[0] + "_pages"

    def begin(self):
        try:
            os.makedirs(self.folder, exist_ok=True)
        except OSError as error:
            self._failed(CannotWrite(f"{self.folder}: cannot be made: {why(error)}"))

    def add(self, sheet):
        if self.broken or not sheet:
            return
        told = json.loads(sheet)
        self.rows.append(told["row"])
        back = os.path.basename(self.path)
        self._put(os.path.join(self.folder, told["row"]["page"]), told["page"].replace(shown(BACK), shown(f"../{quote(back)}")))

    def end(self, totals):
        from .page import index

        if not self.broken:
            self._put(self.path, index(self.rows, os.path.basename(self.folder), totals.unchecked))

    def abandoned(self):
        """Pages are written in one piece or not at all; nothing half done is left."""

    def _put(self, path, text):
        try:
            put(path, text.encode("utf-8"))
        except CannotWrite as error:
            self._failed(error)

    def _failed(self, error):
        self.say(str(error))
        self.broken = True


def shown(text):
    """A text as it stands in a page once it is made visible and escaped."""
    from markupsafe import escape

    from ..render.text import visible

    return str(escape(visible(text)))
