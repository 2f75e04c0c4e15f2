"""The SQLite file behind a `record.Record`: opened for each step, checked, put aside where it is damaged.

A file beside it, the door, is locked for every step, so two notebooks never have the record open at once and a
damaged file can be renamed without another notebook writing into it. The system takes the lock off a process that
dies. A write counts once SQLite has committed it with ``synchronous = EXTRA``: data, journal and folder are then on
disk. A kernel that is killed halfway leaves a journal, and the next opening goes back to what was there before.
Each row has a checksum, so an answer is read as it was given or not at all. Only the owner can read the file, and look
into a folder that was made for it.
"""

import contextlib
import errno
import random
import shutil
import sqlite3
import tempfile
import time
import zlib
from contextlib import closing, contextmanager
from pathlib import Path

from .answer import COLUMNS

APPLICATION, VERSION = 0x70726163, 1  # "prac", and the edition of the table below
PATIENCE, KNOCK = 10.0, 0.003  # seconds: as long as another notebook may take; between two tries of the door
SYNCHRONOUS = "EXTRA"  # what a write waits for: data, journal and folder on disk
CREATE = """CREATE TABLE answers (id INTEGER PRIMARY KEY AUTOINCREMENT, uid TEXT NOT NULL UNIQUE, at REAL NOT NULL,
template TEXT NOT NULL, seed TEXT NOT NULL, text TEXT NOT NULL, score REAL NOT NULL, slip TEXT NOT NULL,
seconds REAL NOT NULL, hint INTEGER NOT NULL, exam TEXT NOT NULL, checksum INTEGER NOT NULL)"""
KEPT = ", ".join((*COLUMNS, "checksum"))
INSERT = f"INSERT OR IGNORE INTO answers ({KEPT}) VALUES ({', '.join('?' * (len(COLUMNS) + 1))})"
SELECT = f"SELECT {KEPT} FROM answers ORDER BY id"
SIDES = ("-journal", "-wal", "-shm")  # what SQLite keeps beside a file
DAMAGED, NOT_OURS = "is damaged", "is not a record of this workbook"
DAMAGES = (sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB)
NOT_WRITABLE = (sqlite3.SQLITE_READONLY, sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_PERM)
NO_ROOM = (errno.ENOSPC, errno.EDQUOT)
BUSY = (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED, sqlite3.SQLITE_PROTOCOL)


class Newer(Exception):
    """The file has a table of a newer edition."""


class _Unusable(Exception):
    """The file is damaged or somebody else's; its text says which."""


FAILURES = (sqlite3.Error, OSError, Newer)  # what a step may end in


def _code(error):
    """SQLite's code for an error without its details; 0 where it has none."""
    return (getattr(error, "sqlite_errorcode", None) or 0) & 0xFF


def why(error, folder):
    """Why something could not be written, in words: ``error`` is one of `FAILURES`, ``folder`` a path."""
    code = _code(error)
    if isinstance(error, Newer):
        return "it was written by a newer version of this workbook, and this one leaves it alone"
    if code == sqlite3.SQLITE_FULL or getattr(error, "errno", None) in NO_ROOM:
        return "the disk is full"
    if code in BUSY:
        return "another notebook keeps the record busy"
    if code in NOT_WRITABLE or isinstance(error, PermissionError):
        return f"the folder {folder} cannot be written"
    return f"the disk said “{getattr(error, 'strerror', None) or error}”"


class RecordFile:
    """One file of answers at ``path`` (path-like).

    ``notes`` is a list of sentences on what happened to the file. Every method may raise one of ``failures``.
    """

    failures, ready, waiting = FAILURES, True, 0
    where, stays = "on this computer", "Your answers stay on this computer."

    def __init__(self, path):
        self.path = Path(path).absolute()
        self.notes = []

    def begin(self):
        """Look at the whole file and put it aside if it is damaged; words go to ``notes``. Where there is none, none is made."""
        if self.path.exists():
            self._step(_checked, writes=True, first=True)

    def why(self, error):
        """Why something could not be written, in words; ``error`` is one of ``failures``."""
        return why(error, self.path.parent)

    def is_final(self, error):
        """Whether a later try would end in the same ``error``, one of ``failures``."""
        return isinstance(error, Newer)

    def keeping(self):
        """What has to be known to keep the file, a tuple of sentences: nothing."""
        return ()

    def rows(self):
        """All rows in the order they were written, a list; each is a tuple of `COLUMNS`."""
        if not self.path.exists():
            return []
        return self._step(_read, writes=False) or []

    def append(self, rows):
        """Write ``rows`` behind the others, all or none; each is a tuple of `COLUMNS`. Those that are there stay."""
        self._step(lambda connection: _write(connection, rows), writes=True)

    def merge(self, merged):
        """Put the rows in a new order, in one step.

        ``merged`` (callable) takes all rows, a list where each is a tuple, and gives the list that replaces them.
        """

        def write(connection):
            rows = merged(_read(connection))
            connection.execute("DELETE FROM answers")
            _write(connection, rows)

        self._step(write, writes=True)

    def erase(self):
        """Take the file away with everything beside it and make a new one, so that no text stays in it."""
        with self._door(writes=True):
            if self.path.exists():
                with contextlib.suppress(sqlite3.DatabaseError, _Unusable):  # also raises Newer
                    self._within(lambda connection: None, writes=False)
            for side in ("", *SIDES):
                self.path.with_name(self.path.name + side).unlink(missing_ok=True)
            self._within(lambda connection: None, writes=True)

    def aside(self):
        """Files that were put aside in this folder, a sorted list of their names as paths."""
        return sorted(self.path.parent.glob(f"{self.path.stem}-aside-*{self.path.suffix}"))

    def _step(self, work, writes, first=False):
        """What ``work`` gives for a connection; a damaged file is put aside, and the step done in a new one."""
        if writes:
            self.path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        with self._door(writes):
            if first and self.path.is_file() and self.path.stat().st_size == 0:
                self.notes.append(f"The record {self.path} was there but empty; a new one was started in it.")
            try:
                return self._within(work, writes)
            except _Unusable as error:
                self._put_aside(str(error))
            except sqlite3.DatabaseError as error:
                if _code(error) not in DAMAGES:
                    raise
                self._put_aside(DAMAGED)
            return self._within(work, writes)

    @contextmanager
    def _door(self, writes):
        """Nobody else is at the record meanwhile. Reading goes on without a lock where there can be none."""
        with contextlib.ExitStack() as stack:
            try:
                door = stack.enter_context(closing(_connected(self.path.with_name(self.path.name + "-door"), 0)))
                _enter(door)
                _for_the_owner(self.path.with_name(self.path.name + "-door"))
            except sqlite3.DatabaseError as error:
                if _code(error) != sqlite3.SQLITE_NOTADB and (writes or _code(error) in BUSY):
                    raise
            yield

    def _within(self, work, writes):
        """What ``work`` gives inside a transaction, on disk when this returns; None for a file without a table."""
        with closing(_connected(self.path)) as connection:
            connection.execute(f"PRAGMA synchronous = {SYNCHRONOUS}")
            fresh = _pragma(connection, "page_count") == 0  # also after a journal took back a file half made
            connection.execute("BEGIN IMMEDIATE" if writes else "BEGIN")
            if fresh:
                if not writes:
                    return None
                connection.execute(f"PRAGMA application_id = {APPLICATION}")
                connection.execute(f"PRAGMA user_version = {VERSION}")
                connection.execute(CREATE)
            elif _pragma(connection, "application_id") != APPLICATION:
                raise _Unusable(NOT_OURS)
            elif _pragma(connection, "user_version") > VERSION:
                raise Newer
            done = work(connection)
            connection.execute("COMMIT")
            if writes:
                _for_the_owner(self.path)
            return done

    def _put_aside(self, wrong):
        """Rename the file and what SQLite keeps beside it, start a new one with what can still be read, and note it."""
        rows = _salvaged(self.path) if wrong == DAMAGED else []
        stem, count = f"{self.path.stem}-aside-{time.strftime('%Y%m%d-%H%M%S')}", 1
        aside = self.path.with_name(stem + self.path.suffix)
        while aside.exists():
            count += 1
            aside = self.path.with_name(f"{stem}-{count}{self.path.suffix}")
        self.path.rename(aside)
        for side in SIDES:  # else the old journal would be played into the new file
            with contextlib.suppress(FileNotFoundError):
                self.path.with_name(self.path.name + side).rename(aside.with_name(aside.name + side))
        said = f"The file {self.path} {wrong}. It was put aside as {aside.name}, and a new record was started."
        self.notes.append(said)
        self._within(lambda connection: _write(connection, rows), writes=True)
        if rows:
            self.notes[-1] = f"{said} Answers that could still be read and were taken over: {len(rows)}."


def _for_the_owner(path):
    """Nobody but the owner may read or write the file; a journal takes the mode of the file beside it."""
    with contextlib.suppress(OSError):  # the file of another user, or a disk without modes
        if path.stat().st_mode & 0o077:
            path.chmod(0o600)


def _enter(door):
    """Lock the door. SQLite itself tries ever more seldom, and would stand outside while another one goes in and out."""
    until = time.monotonic() + PATIENCE
    while True:
        try:
            door.execute("BEGIN EXCLUSIVE")
            return
        except sqlite3.OperationalError as error:
            if _code(error) not in BUSY or time.monotonic() > until:
                raise
        time.sleep(KNOCK * (0.5 + random.random()))


def _connected(path, patience=None):
    """A connection without transactions of its own; text that is no UTF-8 any more is read as far as it goes."""
    patience = PATIENCE if patience is None else patience
    connection = sqlite3.connect(path, timeout=patience, isolation_level=None, check_same_thread=False)
    connection.text_factory = lambda content: content.decode("utf-8", "replace")
    return connection


def _pragma(connection, name):
    return connection.execute(f"PRAGMA {name}").fetchone()[0]


def _checksum(row):
    return zlib.crc32(repr(tuple(row)).encode())


def _write(connection, rows):
    connection.executemany(INSERT, [(*row, _checksum(row)) for row in rows])


def _read(connection):
    """All rows; raise `_Unusable` where one is not as it was written."""
    found = connection.execute(SELECT).fetchall()
    if any(checksum != _checksum(row) for *row, checksum in found):
        raise _Unusable(DAMAGED)
    return [row[:-1] for row in found]


def _checked(connection):
    """Raise `_Unusable` where the file or a row is not whole; write its edition again, to see whether it works."""
    found = connection.execute("PRAGMA quick_check(1)").fetchone()[0]
    heads = [row[1] for row in connection.execute("PRAGMA table_info(answers)")]
    if found != "ok" or not {*COLUMNS, "checksum"} <= set(heads):
        raise _Unusable(DAMAGED)
    _read(connection)
    connection.execute(f"PRAGMA user_version = {VERSION}")


def _salvaged(path):
    """Rows that can still be read in a damaged file, from both ends; the file itself is only copied."""
    found = {}
    with contextlib.suppress(OSError), tempfile.TemporaryDirectory() as folder:
        for side in ("", *SIDES[:2]):
            if path.with_name(path.name + side).exists():
                shutil.copy(path.with_name(path.name + side), Path(folder) / f"copy{side}")
        with closing(_connected(Path(folder) / "copy")) as connection:
            for turned in ("", " DESC"):
                with contextlib.suppress(sqlite3.Error):
                    for number, *row, checksum in connection.execute(
                        f"{SELECT}{turned}".replace("SELECT", "SELECT id,")
                    ):
                        if checksum == _checksum(row):
                            found[number] = tuple(row)
    return [found[number] for number in sorted(found)]
