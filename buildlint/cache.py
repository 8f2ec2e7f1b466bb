"""Answers of earlier runs, found again by everything they follow from: the program, the rules, the job, the spec, its
templates and catalogue, the shop standard.

One sqlite file with JSON in it, never pickle. Whatever is wrong with it is passed over: an answer is then worked
out anew, and a file that is no database is begun again.
"""

import os
import sys

from . import __version__
from .house import folder
from .model import Finding, Place

LAYOUT = 1
OLDEST = 5000  # rows; the least recently used beyond it are dropped, but never one that the same library asks for


def place():
    """The folder of the cache: $XDG_CACHE_HOME or ~/.cache; None where there is no home to put it in."""
    base = os.environ.get("XDG_CACHE_HOME", "")
    if not os.path.isabs(base):
        home = os.path.expanduser("~")
        if not os.path.isabs(home):
            return None
        base = os.path.join(home, ".cache")
    return os.path.join(base, "buildlint")


def of_program(folders=()):
    """What the program itself is: version, and every file of rules, formulas and schemas with its size and time."""
    lines = [f"{LAYOUT} {__version__} {sys.version}"]
    for top in (os.path.dirname(os.path.abspath(__file__)), folder("rules"), folder("schemas"), *folders):
        waiting = [str(top)]
        while waiting:
            with os.scandir(waiting.pop()) as entries:
                found = sorted(entries, key=lambda entry: entry.name)
            for entry in found:
                if entry.name.endswith((".py", ".json")):
                    mark = entry.stat()
                    lines.append(f"{entry.path} {mark.st_size} {mark.st_mtime_ns}")
                elif entry.is_dir(follow_symlinks=False) and entry.name != "__pycache__":
                    waiting.append(entry.path)
    return "\n".join(lines).encode("utf-8", "surrogateescape")


PROOF = "consistent"  # names the program that was found consistent with itself


def proven(program):
    """Whether this very program was found consistent with itself before."""
    where = place()
    try:
        with open(os.path.join(where or "", PROOF), "rb") as file:
            return where is not None and file.read() == program
    except OSError:
        return False


def remember_proof(program):
    """Remember that this very program is consistent with itself, and forget about all others."""
    where = place()
    if where is None:
        return
    file = os.path.join(where, PROOF)
    try:
        os.makedirs(where, exist_ok=True)
        with open(f"{file}.{os.getpid()}", "xb") as draft:
            draft.write(program)
        os.replace(draft.name, file)
    except OSError:
        pass


def digest(data):
    """The SHA-256 of bytes."""
    from hashlib import sha256  # takes longer to import than a spec to load

    return sha256(data).digest()


class Cache:
    """The answers of one job. ``find`` and ``keep`` never raise; ``close`` writes what was kept."""

    def __init__(self, job, today, path=None):
        import sqlite3  # only runs over many specs get here

        self.errors = sqlite3.Error
        self.job, self.contents, self.roots, self.kept = job, {}, {}, []
        told = repr((job.outputs, job.stage, job.folders, job.changed, job.known.text if job.known else None, today))
        self.base = digest(of_program(job.folders) + told.encode("utf-8", "surrogateescape"))
        self.keys = {}
        self.database = None
        where = path or place()
        if where is None:
            return
        file = os.path.join(where, "answers.sqlite")
        for attempt in (1, 2):
            try:
                os.makedirs(where, exist_ok=True)
                self.database = sqlite3.connect(file, timeout=5, isolation_level=None)
                self.database.execute("PRAGMA journal_mode=WAL")
                self.database.execute("PRAGMA synchronous=NORMAL")
                self.database.execute("CREATE TABLE IF NOT EXISTS answers (key BLOB PRIMARY KEY, value TEXT NOT NULL, used INTEGER NOT NULL)")
                return
            except sqlite3.DatabaseError as error:
                self.database = None
                if attempt == 1 and "not a database" in str(error):
                    _remove(file)
                    continue
                return
            except OSError:
                return

    def find(self, path):
        """The Answer of an earlier run, if nothing it follows from has changed since; else None."""
        import json

        from .library import Answer
        from .load import Unreadable, read_bytes

        try:
            data = read_bytes(path)
        except Unreadable:
            return None
        key = self.keys[path] = digest(self.base + os.fsencode(path) + b"\0" + data)
        if self.database is None:
            return None
        try:
            row = self.database.execute("SELECT value FROM answers WHERE key = ?", (key,)).fetchone()
            if row is None:
                return None
            value = json.loads(row[0])
            if value["surroundings"] != self._surroundings(path) or any(self._digest(name) != digest for name, digest in value["inputs"]):
                return None
            return Answer(path, value["counts"], tuple(value["sheets"]), tuple(value["crashed"]), value["row"], gone=tuple(map(tuple, value["gone"])),
                          shared=tuple(map(_finding, value["shared"])))
        except (self.errors, ValueError, KeyError, TypeError):
            return None

    def keep(self, answer):
        """Remember an answer; what could not be checked, or not in full, is not remembered."""
        import json

        if self.database is None or answer.unread or answer.crashed or answer.path not in self.keys:
            return
        try:
            value = json.dumps({
                "counts": answer.counts, "sheets": answer.sheets, "crashed": answer.crashed, "row": answer.row, "gone": answer.gone,
                "shared": answer.shared,
                "surroundings": self._surroundings(answer.path),
                "inputs": [(os.fspath(name), digest(data).hex()) for name, data in answer.inputs]}, allow_nan=False)
            value.encode("utf-8")
        except (ValueError, TypeError):
            return
        self.kept.append((self.keys[answer.path], value))
        if len(self.kept) >= 200:
            self._write()

    def close(self):
        self._write()
        if self.database is not None:
            self.database.close()
            self.database = None

    def _write(self):
        if self.database is None or not self.kept:
            return
        try:
            self.database.execute("BEGIN IMMEDIATE")
            self.database.executemany("INSERT OR REPLACE INTO answers VALUES (?, ?, (SELECT COALESCE(MAX(used), 0) + 1 FROM answers))", self.kept)
            most = max(OLDEST, 2 * len(self.keys))
            self.database.execute("DELETE FROM answers WHERE used <= (SELECT used FROM answers ORDER BY used DESC LIMIT 1 OFFSET ?)", (most,))
            self.database.execute("COMMIT")
        except self.errors:
            try:
                self.database.execute("ROLLBACK")
            except self.errors:
                pass
        self.kept.clear()

    def _surroundings(self, path):
        """The shop's root and standard as they are for a spec's folder now."""
        from . import standard
        from .compose import project_root

        beside = os.path.dirname(os.path.realpath(path))
        if beside not in self.roots:
            found = standard.find(path)
            self.roots[beside] = [str(project_root(path)), found or "", self._digest(found) if found else ""]
        return self.roots[beside]

    def _digest(self, path):
        from .shelf import content

        if path not in self.contents:
            self.contents[path] = digest(content(path)).hex()
        return self.contents[path]


def _finding(parts):
    """A Finding about a file as it came out of JSON."""
    found = Finding(*parts)
    return found._replace(scope=tuple(found.scope), missing=tuple(found.missing), place=Place(*found.place), related=())


def _remove(file):
    for name in (file, file + "-wal", file + "-shm"):
        try:
            os.unlink(name)
        except OSError:
            pass
