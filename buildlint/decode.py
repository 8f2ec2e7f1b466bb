"""From a file to characters: what may be read at all, in which encoding, and which characters are not what they seem.

YAML itself is not known here, apart from the characters that it forbids.
"""

import os
import re
import stat

from buildlint.model import Place, Problem

LIMIT = 2_000_000  # bytes; a long spec has 20,000

# patterns are compiled where they are needed: the usual file needs none of them, and compiling takes milliseconds
BREAK = r"\r\n|\r|\n"
_BYTE_BREAK = rb"\r\n|\r|\n"
_SUSPICIOUS = (
    "(?P<forbidden>[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\ud800-\udfff\ufffe\uffff])"
    "|(?P<separator>[\x85\u2028\u2029])"
    "|(?P<turning>[\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069])"
    "|(?P<invisible>[\u00ad\u180e\u200b-\u200d\u2060-\u2064\ufeff])"
)
_ORDINARY = bytes([10, *range(32, 127)])
_SHOWN = 3  # of each kind, then a count: a broken file has thousands
_KINDS = {  # level, message, fix
    "forbidden": (
        "error",
        "The control character {code} stands in the text; it is read as a blank.",
        "Delete it; it is often left behind by copying from another program.",
    ),
    "separator": (
        "error",
        "The line separator {code} stands in the text; it is read as a space, not as a new line.",
        "Replace it by an ordinary line break or a space.",
    ),
    "turning": (
        "error",
        "The invisible character {code} turns the direction of writing: the text may show otherwise than it is read.",
        "Delete it and type the text again.",
    ),
    "invisible": (
        "warning",
        "The invisible character {code} stands in the text.",
        "Delete it and type the word again; two names that look alike are not alike with it.",
    ),
}
_FIX_SIZE = "Split the spec; a build has one file, and long tables of measurements do not belong in it."
_FIX_ENCODING = "Save the file as UTF-8."
_NO_TEXT = "This is no text file: it is full of bytes that no text has."
_FIX_NO_TEXT = "Name the spec itself: a text file, as it is typed in an editor."
_BEGINNINGS = (  # the first bytes of what is often named by mistake, from the published descriptions of these formats
    (b"\xff\xd8\xff", "a photo (JPEG)"),
    (b"\x89PNG\r\n\x1a\n", "a picture (PNG)"),
    (b"GIF8", "a picture (GIF)"),
    (b"%PDF-", "a PDF"),
    (b"PK\x03\x04", "an archive or a document of an office program (ZIP)"),
    (b"\xd0\xcf\x11\xe0", "a document of an office program"),
)
_OF_NO_TEXT = rb"[\x01-\x08\x0b\x0e-\x1a\x1c-\x1f]"


class Unreadable(Exception):
    """A file that cannot be taken as a spec; the message is one sentence for a builder."""


def read_bytes(path, limit=LIMIT):
    """The bytes of a regular file of at most ``limit`` bytes. Devices, pipes and sockets are refused, never waited on.

    Raises Unreadable with the reason; no byte of a refused file is shown.
    """
    try:
        descriptor = os.open(
            path,
            os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_CLOEXEC", 0) | getattr(os, "O_BINARY", 0),
        )
    except FileNotFoundError:
        raise Unreadable("There is no such file.") from None
    except PermissionError:
        raise Unreadable("The file may not be read by this user.") from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or "its name is not usable"
        raise Unreadable(f"The file cannot be opened: {reason}.") from None
    try:
        status = os.fstat(descriptor)
        if stat.S_ISDIR(status.st_mode):
            raise Unreadable("This is a folder, not a file.")
        if not stat.S_ISREG(status.st_mode):
            raise Unreadable("This is a device, a pipe or a socket; only ordinary files are read.")
        if status.st_size > limit:
            raise Unreadable(too_big(limit))
        pieces = []
        left = limit + 1
        while left > 0 and (piece := os.read(descriptor, min(left, 1 << 20))):
            pieces.append(piece)
            left -= len(piece)
        if not left:
            raise Unreadable(too_big(limit))
        return b"".join(pieces)
    except OSError as error:
        raise Unreadable(f"The file cannot be read: {error.strerror}.") from None
    finally:
        os.close(descriptor)


def too_big(limit=LIMIT):
    size = f"{limit // 1_000_000} MB" if limit >= 1_000_000 else f"{limit:,} bytes"
    return f"The file is larger than {size} and is not read; a spec is a text of a few pages."


def decode(data, file):
    """Text without a byte order mark: (text or None, list of Problem). Takes bytes or text."""
    start = Place(file, 1, 1, 1, 1)
    if len(data) > LIMIT:
        return None, [_unreadable(too_big(), start, _FIX_SIZE)]
    if isinstance(data, str):
        return data.removeprefix("\ufeff"), []
    for beginning, what in _BEGINNINGS:
        if data.startswith(beginning):
            return None, [_unreadable(f"This is {what}, not a spec.", start, _FIX_NO_TEXT)]
    if data[:4] in (b"\xff\xfe\x00\x00", b"\x00\x00\xfe\xff"):
        return None, [_unreadable("The file is written in UTF-32.", start, _FIX_ENCODING)]
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        try:
            return data.decode("utf-16"), []
        except UnicodeDecodeError as error:
            message = f"The file begins as UTF-16, but byte {error.start:,} does not fit."
            return None, [_unreadable(message, start, _FIX_ENCODING)]
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError as error:
        if _is_no_text(data):
            return None, [_unreadable(_NO_TEXT, start, _FIX_NO_TEXT)]
        return None, [_not_utf_8(data, error, file)]
    if "\0" in text and text.count("\0") * 3 >= len(text):
        if _is_no_text(data):
            return None, [_unreadable(_NO_TEXT, start, _FIX_NO_TEXT)]
        width = 32 if "\0\0" in text else 16
        message = f"The file looks like UTF-{width} without a byte order mark."
        return None, [_unreadable(message, start, _FIX_ENCODING)]
    return text.removeprefix("\ufeff"), []


def _is_no_text(data):
    """Whether more than one byte in fifty is a control code that nobody types; the NUL of UTF-16 is none of them."""
    return len(re.compile(_OF_NO_TEXT).findall(data)) * 50 > len(data)


def _not_utf_8(data, error, file):
    before = data[: error.start]
    breaks = list(re.compile(_BYTE_BREAK).finditer(before))
    line_start = breaks[-1].end() if breaks else 0
    column = len(before[line_start:].decode("utf-8", "replace")) + 1
    byte = data[error.start]
    seen = f" (in Latin-1 it would be `{chr(byte)}`)" if byte >= 0xA0 else ""
    place = Place(file, len(breaks) + 1, column, len(breaks) + 1, column + 1)
    return _unreadable(f"The byte 0x{byte:02X} at offset {error.start:,} is not UTF-8{seen}.", place, _FIX_ENCODING)


def _unreadable(message, place, fix, level="error"):
    return Problem("file-is-readable", message, place, fix, level)


def place_at(text, file, start, end, known=(0, 1, 1)):
    """The Place between two indices of the text; ``known`` is an earlier (index, line, column) to count from."""
    line, column = _position(text, start, *known)
    end_line, end_column = _position(text, end, start, line, column)
    return Place(file, line, column, end_line, end_column)


def _position(text, index, known, line, column):
    line_start = known - column + 1
    for found in re.compile(BREAK).finditer(text, known, index):
        line += 1
        line_start = found.end()
    return line, index - line_start + 1


def shown(text, length=60):
    """Text of a file as it may stand in a message: on one line, with visible letters only, and not too long."""
    cut = text[:length]
    if not cut.isprintable():
        cut = "".join(letter if letter.isprintable() else f"\\u{ord(letter):04x}" for letter in cut)
    return cut if len(text) <= length else cut + "..."


def has_unusual_letters(text):
    """Whether a text needs ``inspect_text``: a quick look, which most files need only."""
    if not text.encode("utf-8", "surrogatepass").translate(None, _ORDINARY):
        return False
    return not text.replace("\n", "").isprintable()


def _seen_by_the_parser(found):
    return found[0] if found.lastgroup in ("turning", "invisible") else " "


def inspect_text(text, file):
    """What the parser shall see of a text with unusual characters: (text, tabs in indentations, list of Problem).

    Every replaced character is replaced by one, so that all places hold. A tab counts as one blank; the second
    value holds the places of the tabs in the indentation of lines that are not empty.
    """
    problems, tabs = [], []
    counts = {}
    for found in re.compile(_SUSPICIOUS).finditer(text):
        kind = found.lastgroup
        counts[kind] = counts.get(kind, 0) + 1
        if counts[kind] <= _SHOWN:
            level, message, fix = _KINDS[kind]
            place = place_at(text, file, found.start(), found.end())
            problems.append(_unreadable(message.format(code=f"U+{ord(found[0]):04X}"), place, fix, level))
    for kind, count in counts.items():
        if count > _SHOWN:
            last = max(index for index, problem in enumerate(problems) if problem.fix == _KINDS[kind][2])
            more = f" The file holds {count - _SHOWN:,} more of this kind."
            problems[last] = problems[last]._replace(message=problems[last].message + more)
    if "forbidden" in counts or "separator" in counts:
        text = re.compile(_SUSPICIOUS).sub(_seen_by_the_parser, text)
    # a byte order mark inside the text has no column of its own in one of the parsers: its modern twin has
    text = text.replace("\ufeff", "\u2060")
    if "\t" in text:
        for number, line in enumerate(re.compile(BREAK).split(text), 1):
            content = line.lstrip(" \t")
            column = line.find("\t", 0, len(line) - len(content)) + 1
            if column and content and not content.startswith("#"):
                tabs.append(Place(file, number, column, number, column + 1))
        text = text.replace("\t", " ")
    return text, tabs, problems
