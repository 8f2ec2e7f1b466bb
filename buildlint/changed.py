"""Which lines of which files a unified diff adds or changes, so that a report can be about those alone."""

import os
import re

_HUNK = re.compile(r"@@ -[0-9]+(?:,[0-9]+)? \+([0-9]+)(?:,([0-9]+))? @@")


def is_diff(text):
    """Whether a text can be a unified diff: empty, or with a line that begins one. Renames and modes change no lines."""
    return not text.strip() or re.search(r"^(diff |\+\+\+ |--- |Index: )", text, re.MULTILINE) is not None


def lines_of(text):
    """{path: set of line numbers in the new file} of a unified diff, paths as in the diff without the b/ before them."""
    found, path, number, left = {}, None, 0, 0
    for line in text.splitlines():
        if left > 0 and path is not None and line[:1] in ("+", " ", ""):
            if line[:1] == "+":
                found[path].add(number)
            number += 1
            left -= 1
        elif line.startswith("+++ "):
            name = line[4:].split("\t", 1)[0].strip().strip('"')
            name = name[2:] if name.startswith("b/") else name
            path = None if name == "/dev/null" else os.path.normpath(name)
            if path is not None:
                found.setdefault(path, set())
        else:
            hunk = _HUNK.match(line)
            if hunk and path is not None:
                number, left = int(hunk[1]), int(hunk[2] or 1)
    return found
