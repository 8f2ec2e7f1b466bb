"""A page of text as it goes to a terminal: labels in a left column, paragraphs wrapped beside them.

It knows widths and styles, not findings. All text handed in must have been made safe before.
"""

import re

from rich.console import Console
from rich.text import Text

LEVEL_STYLES = {"error": "bold red", "warning": "bold yellow", "note": "bold"}

NARROWEST, WIDEST, STACKED = 40, 100, 60
LABEL = 9  # cells of the column in which labels stand, to the right

# A number and its unit stay on one line. The glue is a private character, which safe text never holds.
GLUE = "\ue000"
_BEFORE_A_UNIT = re.compile(r"(?<=\d) (?=(?:[A-Za-z%][\w/^*-]{0,9})(?![\w_]))")


def _cut_at_slashes(text, width):
    """The text with a blank behind the slash at which a path that is longer than a line is best cut: never inside its line number."""
    if len(text) <= width or "/" not in text:
        return text
    return re.sub(r"\S+", lambda found: " ".join(_pieces(found[0], width)) if len(found[0]) > width else found[0], text)


def _pieces(word, width):
    """A long word in pieces that end with a slash, each as long as the width takes: two together never fit on one line."""
    pieces = [""]
    for part in re.findall(r"[^/]*/|[^/]+", word):
        if pieces[-1] and len(pieces[-1]) + len(part) > width:
            pieces.append("")
        pieces[-1] += part
    return pieces


class Page:
    """Lines collected for one width; ``finished`` gives them as one string."""

    def __init__(self, width, color):
        self.width = max(NARROWEST, min(width, WIDEST))
        self.stacked = self.width < STACKED
        self.color = color
        self.lines = []
        # Everything is given, so that nothing in the environment decides behind the caller's back.
        self.console = Console(
            file=None, width=self.width, height=25, force_terminal=color, force_interactive=False,
            force_jupyter=False, color_system="standard" if color else None, no_color=not color,
            markup=False, emoji=False, highlight=False, legacy_windows=False, _environ={})

    def gap(self):
        """Leave a line free, but never two, and none at the top."""
        if self.lines and self.lines[-1].plain:
            self.lines.append(Text())

    def heading(self, text):
        """The name of a section, after a free line."""
        self.gap()
        self.paragraph(text.upper(), "bold")
        self.gap()

    def paragraph(self, text, style="", indent=0):
        """A wrapped paragraph; ``text`` is a string or a Text."""
        for piece in self._wrapped(text, style, self.width - indent):
            self.lines.append(Text(" " * indent) + piece if indent else piece)

    def labelled(self, label, text, label_style="", style="", beside=True):
        """A paragraph with its label: in the left column, or above it where the page is narrow."""
        if self.stacked:
            if label and beside:
                text = Text.assemble((f"{label.strip()}: ", label_style), (_cut_at_slashes(text, self.width - 2), style))
            elif label:
                self.lines.append(Text(label.strip(), label_style))
            self.paragraph(text, style, indent=2)
            return
        for number, piece in enumerate(self._wrapped(text, style, self.width - LABEL - 2)):
            margin = f"{label if number == 0 else '':>{LABEL}}  "
            self.lines.append(Text.assemble((margin, label_style), piece))

    def _wrapped(self, text, style, width):
        """The text in lines of at most ``width`` cells, as Text without blanks at the end."""
        text = text if isinstance(text, Text) else Text(_cut_at_slashes(text, width), style)
        text.plain = _BEFORE_A_UNIT.sub(GLUE, text.plain)
        for piece in text.wrap(self.console, width, overflow="fold"):
            piece.plain = piece.plain.replace(GLUE, " ").rstrip(" ")
            yield piece

    def ends(self, left, right, style=""):
        """A line with something at either end; two lines where both do not fit."""
        from rich.cells import cell_len

        room = self.width - cell_len(left) - cell_len(right)
        if right and room >= 2:
            self.lines.append(Text.assemble((left, style), " " * room, right))
        else:
            self.paragraph(left, style)
            if right:
                self.paragraph(right)

    def verbatim(self, text, style="", indent=4):
        """Lines as they stand; what is longer than the page goes on further in."""
        for each in text.split("\n"):
            first = len(each) - len(each.lstrip(" "))
            pieces = list(self._wrapped(each[first:], style, max(20, self.width - indent - first - 4)))
            for number, piece in enumerate(pieces):
                self.lines.append(Text.assemble(" " * (indent + first + (4 if number else 0)), piece))

    def finished(self):
        """The page as text, with escape sequences only where color was asked for."""
        while self.lines and not self.lines[-1].plain:
            self.lines.pop()
        if not self.color:
            return "".join(f"{each.plain.rstrip()}\n" for each in self.lines)
        with self.console.capture() as captured:
            self.console.print(Text("\n").join(self.lines), no_wrap=True, overflow="ignore", crop=False)
        return captured.get()
