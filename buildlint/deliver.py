"""Bringing outputs to where they belong, and files so that there is never half of one.

The old content of a file stays until the new is safe on the disk. Standard output is only handed through.
"""

import os
import stat
from contextlib import contextmanager


class CannotWrite(Exception):
    """A file that could not be written; the message names it and says why."""


def why(error):
    """Return what the system says of an OSError, in lower case."""
    text = error.strerror or str(error)
    return text[:1].lower() + text[1:]


class Replacement:
    """A text file (UTF-8) being written, which takes the place of ``path`` only when it is ``settled``.

    Until then, and after ``abandoned``, the old file is as it was. Links, folders and devices are refused.
    Every method raises CannotWrite, and has then cleared away what it began.
    """

    def __init__(self, path):
        self.path = path
        mode = _mode_of(path)
        folder, name = os.path.split(path)
        self.part = os.path.join(folder, f".{name[:100]}.{os.urandom(6).hex()}.part")
        if folder and not os.path.lexists(folder):
            raise CannotWrite(f"{path}: there is no folder {folder}; make it first, or write elsewhere")
        with self._told():
            handle = os.open(self.part, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o666)
        self.file = open(handle, "w", encoding="utf-8", errors="backslashreplace", newline="\n")
        if mode is not None:
            with self._told():
                os.fchmod(handle, mode)

    def write(self, text):
        with self._told():
            self.file.write(text)

    def write_bytes(self, data):
        """Write what is no text; the file then holds nothing else."""
        with self._told():
            self.file.buffer.write(data)

    def settled(self):
        """Put the new file in the place of the old."""
        with self._told():
            self.file.flush()
            os.fsync(self.file.fileno())
            self.file.close()
            os.replace(self.part, self.path)
        self.part = None
        _settle(os.path.dirname(self.path) or ".")

    def abandoned(self):
        """Take away what was begun; does nothing to a file that is settled."""
        if self.part is None:
            return
        for clear in (self._close, lambda: os.unlink(self.part)):
            try:
                clear()
            except (OSError, AttributeError):
                pass  # it never came to be, or the disk refuses even this
        self.part = None

    def _close(self):
        self.file.close()

    @contextmanager
    def _told(self):
        try:
            yield
        except OSError as error:
            self.abandoned()
            raise CannotWrite(f"{self.path}: cannot be written: {why(error)}") from error


class Output:
    """One format on its way to standard output or to a file. A file that fails is told of and then left.

    ``put`` writes to standard output, ``say`` tells a person something; they are the caller's.
    """

    def __init__(self, form, path, wishes, put, say):
        from .render import module

        self.form, self.path, self.wishes = form, path, wishes
        self.put, self.say = put, say
        self.module = module(form)
        self.broken, self.file, self.begun = False, None, False

    def begin(self):
        if self.path:
            try:
                self.file = Replacement(self.path)
            except CannotWrite as error:
                self._failed(error)
        self._write(self.module.opening(self.wishes))

    def add(self, sheet):
        if sheet and not self.broken:
            self._write((self.module.BETWEEN if self.begun else "") + sheet)
            self.begun = True

    def end(self, totals):
        self._write(self.module.closing(totals, self.wishes))
        if self.file is not None:
            try:
                self.file.settled()
            except CannotWrite as error:
                self._failed(error)

    def abandoned(self):
        if self.file is not None:
            self.file.abandoned()

    def _write(self, text):
        if not self.path:
            return self.put(text)
        if not self.broken:
            try:
                self.file.write(text)
            except CannotWrite as error:
                self._failed(error)

    def _failed(self, error):
        self.say(str(error))
        self.broken, self.file = True, None


def make_folder_of(path):
    """Make the folder that a file is to stand in, where it is not there yet. Raises CannotWrite."""
    folder = os.path.dirname(path)
    try:
        if folder:
            os.makedirs(folder, exist_ok=True)
    except OSError as error:
        raise CannotWrite(f"{path}: its folder cannot be made: {why(error)}") from error


def create(path, text):
    """Write a new file; one that is already there is left alone and FileExistsError is raised."""
    if os.path.lexists(path):
        raise FileExistsError(path)
    new = Replacement(path)
    new.write(text)
    new.settled()


def _mode_of(path):
    """Return the permissions of the file that will be replaced, None where there is none. Raises CannotWrite."""
    try:
        found = os.lstat(path)
    except FileNotFoundError:
        return None
    except OSError as error:
        raise CannotWrite(f"{path}: cannot be written: {why(error)}") from error
    if stat.S_ISLNK(found.st_mode):
        raise CannotWrite(f"{path}: is a link; name the file itself")
    if not stat.S_ISREG(found.st_mode):
        raise CannotWrite(f"{path}: is not a plain file")
    return stat.S_IMODE(found.st_mode)


def _settle(folder):
    """Make the new name itself safe on the disk, where the system lets us."""
    try:
        handle = os.open(folder, os.O_RDONLY)
    except OSError:
        return
    try:
        os.fsync(handle)
    except OSError:
        pass
    finally:
        os.close(handle)
