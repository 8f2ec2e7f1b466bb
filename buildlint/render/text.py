"""Making text safe to show: what a spec, a key or a file name says may not move the cursor or fake a line.

Every human output passes untrusted text through here. JSON has its own rules and only borrows ``paired``.
"""

import re
from math import floor, isclose, log10

LONGEST = 2000  # characters of one text that a person is asked to read
_NAMED = {"\n": "\\n", "\r": "\\r", "\t": "\\t"}
_SURROGATE = re.compile("[\ud800-\udfff]")


def visible(text):
    """Return ``text`` with every character that does not print shown as an escape.

    That covers line ends, escape sequences, the C1 controls, direction marks, zero-width characters, odd
    spaces and lone surrogates. The result is one line.
    """
    if text.isprintable():
        return text
    return "".join(character if character.isprintable() else _escape(character) for character in text)


def _escape(character):
    code = ord(character)
    if character in _NAMED:
        return _NAMED[character]
    if code < 0x100:
        return f"\\x{code:02x}"
    return f"\\u{code:04x}" if code < 0x10000 else f"\\U{code:08x}"


def line(text, longest=LONGEST):
    """Return ``text`` visible and cut to a length that can be read; a cut says how much is left out."""
    text = str(text)
    if len(text) > longest:
        return f"{visible(text[:longest])} ... ({len(text) - longest} more characters)"
    return visible(text)


def prose(text):
    """Return our own running text, such as a docstring, as paragraphs: a list of single lines."""
    return [line(" ".join(part.split()), 20 * LONGEST) for part in re.split(r"\n[ \t]*\n", text) if part.strip()]


def paired(text):
    """Return ``text`` without lone surrogates, which no UTF-8 or JSON reader takes; they show as escapes."""
    return _SURROGATE.sub(lambda found: _escape(found.group()), text)


def joined(parts, last="and"):
    """Return the parts as a person lists them: one, two and three."""
    parts = list(parts)
    if len(parts) < 2:
        return "".join(parts)
    return f"{', '.join(parts[:-1])} {last} {parts[-1]}"


def counted(number, one, many=None):
    """Return the number with its noun: 1 rule, 3 rules."""
    return f"{number:,} {one if number == 1 else many or one + 's'}"


def scope(scope):
    """Return a scope as it is spoken: intake, cylinder 3."""
    return line(", ".join(scope).replace("_", " "))


def place(place):
    """Return a place as file:line:column."""
    return f"{line(place.file)}:{place.line}:{place.column}"


def figures(*values, finest=12):
    """Return numbers as a person writes them side by side: the largest with four figures and more where they would
    look alike, all with as many decimals, no exponent, and no zeros at the end that all of them have.

    ``finest`` is the last decimal that is read in their unit; more are written where the first of them, the one that was
    found, was written with more or would read as nothing.
    """
    largest = max(map(abs, values))
    decimals = min(12, max(0, 3 - floor(log10(largest)))) if largest > 0 else 0
    found = values[0]
    if finest < decimals and abs(found) >= 10**-finest:
        decimals = next((more for more in range(finest, decimals + 1) if isclose(round(found, more), found, rel_tol=1e-9)), finest)
    differ = max(values) - min(values) > 1e-9 * largest
    texts = [f"{value:.{decimals}f}" for value in values]
    while differ and decimals < 12 and len(set(texts)) == 1:
        decimals += 1
        texts = [f"{value:.{decimals}f}" for value in values]
    while decimals and all(text.endswith("0") for text in texts):
        texts, decimals = [text[:-1] for text in texts], decimals - 1
    return [text.removesuffix(".") for text in texts]
