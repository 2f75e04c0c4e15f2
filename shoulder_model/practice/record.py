"""The record of what a reader answered, to which answers are only added.

Nothing but answers is kept; what is due and what is weak is worked out from them each time (`schedule`,
`progress`). Answers keep the order in which they were given, whatever the clock says. They lie on one of two shelves:
an SQLite file in the reader's own data folder, safe against two notebooks, a killed kernel and a full disk
(`record_file`), or, where Python itself runs in a browser, that browser's own store (`page_shelf`). What cannot be
written stays in memory, and that is said.
"""

import os
import threading
import uuid
from contextlib import suppress
from pathlib import Path

from ..given_file import has_disk
from ..inputs import choice
from ..words import counted
from .answer import Answer, as_pair, as_row, one_line
from .page_shelf import PageShelf
from .record_table import as_table, read_export

if has_disk():  # elsewhere SQLite may be missing
    from .record_file import RecordFile

__all__ = ["Answer", "Record", "exam_id", "folder", "own_record"]
FOLDER, FILE = "SHOULDER_MODEL_PRACTICE", "practice.sqlite"  # variable that names another folder; the file


def folder():
    """The reader's own data folder for the record, a path; the variable ``SHOULDER_MODEL_PRACTICE`` names another."""
    import platformdirs

    return Path(os.environ.get(FOLDER) or platformdirs.user_data_dir("shoulder-model", appauthor=False))


def exam_id(name, seed, count):
    """What an exam is called in the record, text.

    Parameters
    ----------
    name, seed : str
    count : int
        Its items, a whole number: an exam is finished once the record has as many.

    >>> exam_id("Mock exam", "K7Q", 40)
    'Mock exam/K7Q/40'
    """
    return one_line(f"{name}/{seed}/{count}")


def _items_in(exam):
    count = exam.rpartition("/")[2]
    return int(count) if count.isascii() and count.isdigit() and len(count) < 6 else 1


def own_record(keep=None):
    """The reader's own `Record`; ``keep`` is a name, file or page, or None for a file wherever there is a disk."""
    if keep is not None:
        choice("keep", keep, ("file", "page"))
    return Record(shelf=PageShelf() if keep == "page" else None)


class Record:
    """The reader's record.

    Parameters
    ----------
    path : path-like, optional
        The file; ``practice.sqlite`` in `folder` without it.
    shelf : page_shelf.PageShelf, optional
        Where answers are kept instead of in a file; without a disk always one.
    """

    def __init__(self, path=None, shelf=None):
        self._file = shelf or (RecordFile(path or folder() / FILE) if has_disk() else PageShelf())
        self._lock = threading.RLock()
        self._waiting, self._known = {}, {}  # uid -> Answer, not on disk yet; row -> uid and Answer, as last read
        try:
            self._file.begin()
        except self._file.failures as error:
            reason = self._file.why(error)
            self._file.notes.append(
                f"The record {self.path} cannot be written: {reason}. What you answer now is kept in this notebook "
                "only; save it as a table before you close."
            )
        self._pairs()

    @property
    def path(self):
        """The name of the file with its folder, a path; None where the page keeps the record."""
        return self._file.path

    @property
    def shelf(self):
        """Where the answers lie, in a word: a `record_file.RecordFile` or a `page_shelf.PageShelf`."""
        return self._file

    @property
    def notes(self):
        """What happened to the file since this record was opened, a tuple of sentences; empty where nothing did."""
        return tuple(self._file.notes)

    @property
    def waiting(self):
        """How many answers are only in memory, a whole number."""
        return len(self._waiting) + self._file.waiting

    def add(self, answer):
        """Add an ``answer`` (`Answer`), as `add_all`; gives the same text."""
        return self.add_all((answer,))

    def add_all(self, answers):
        """Add answers in one step, with those that could not be written before.

        Parameters
        ----------
        answers : sequence of Answer

        Returns
        -------
        str
            "" once they are on disk, or handed to the page; else a sentence that says in words why they are not. They
            then stay in memory.
        """
        with self._lock:
            self._waiting |= {uuid.uuid4().hex: answer for answer in answers}
            rows = {as_row(*pair): pair for pair in self._waiting.items()}
            try:
                self._file.append(list(rows))
            except self._file.failures as error:
                return self._not_written(error)
            self._known |= rows
            self._waiting.clear()
            return ""

    def _not_written(self, error):
        kept = "They are kept" if len(self._waiting) > 1 else "It is kept"
        count, reason = counted(len(self._waiting), "answer"), self._file.why(error)
        said = f"{count} not on disk: {reason}. {kept} in this notebook"
        return f"{said}; save the record as a table before you close." if self._file.is_final(error) else (
            f"{said} and written with the next answer."
        )  # fmt: skip

    def answers(self):
        """All answers in the order they were given, a tuple of `Answer`; those that are only in memory come last.

        Where the file cannot be read just now, they are those of the last time.
        """
        return tuple(answer for _, answer in self._pairs())

    def _pairs(self):
        """Pairs of uid and answer, on disk or not."""
        with self._lock:
            with suppress(*self._file.failures):
                self._known = {row: self._known.get(row) or as_pair(row) for row in self._file.rows()}
            pairs = [pair for pair in self._known.values() if pair and pair[0] not in self._waiting]
            return [*pairs, *self._waiting.items()]

    def export(self):
        """The whole record as text, a CSV table: bytes in UTF-8 with a byte-order mark; no cell of it is a formula."""
        return as_table([as_row(uid, answer) for uid, answer in self._pairs()])

    def take(self, content):
        """Take over the answers of an export that are not here yet, and put all in the order of their times.

        Parameters
        ----------
        content : bytes
            What `export` gave, here or elsewhere, in words of a CSV table.

        Returns
        -------
        str
            A sentence: how many were new.

        Raises
        ------
        InputError
            In one line: this is no such table, or a row of it cannot be read; nothing is taken then.
        """
        pairs = read_export(content, lambda row: as_pair(row, strict=True))
        with self._lock:
            known = {uid for uid, _ in self._pairs()}
            new = {uid: answer for uid, answer in pairs if uid not in known}
            told = f"{counted(len(new), 'answer')} taken over, {len(pairs) - len(new)} were here already."
            rows = [as_row(uid, answer) for uid, answer in {**self._waiting, **new}.items()]
            try:
                self._file.merge(lambda old: _in_order(old, rows))
            except self._file.failures as error:
                self._waiting |= new
                return f"{told} {self._not_written(error)}"
            self._waiting.clear()
            return told

    def erase(self):
        """Remove every answer, from memory and from the disk, and start a new file.

        Returns
        -------
        str
            "", or words: what could not be removed, or which files that were put aside still lie there.
        """
        with self._lock:
            self._waiting, self._known = {}, {}
            try:
                self._file.erase()
            except self._file.failures as error:
                return f"The record {self.path} is still there: {self._file.why(error)}."
            left = ", ".join(path.name for path in self._file.aside())
            return (
                f"Files that were put aside still lie in {self.path.parent}: {left}. Delete them yourself."
                if left
                else ""
            )

    def exams(self):
        """The mock exams that were handed in: a dict from `exam_id` to a tuple of `Answer`, the last to each item."""
        return {exam: given for exam, given in self._by_exam().items() if len(given) >= _items_in(exam)}

    def open_exams(self):
        """The mock exams that were begun and not handed in: a dict as that of `exams`."""
        return {exam: given for exam, given in self._by_exam().items() if len(given) < _items_in(exam)}

    def _by_exam(self):
        found = {}
        for answer in self.answers():
            if answer.exam:
                found.setdefault(answer.exam, {})[answer.template, answer.seed] = answer
        return {exam: tuple(last.values()) for exam, last in found.items()}


def _in_order(old, new):
    """Rows of two records as one, by time; a clock that was set back in one of them does not change its order."""
    keyed = []
    for rows in (old, new):
        latest = 0.0
        for row in rows:
            latest = max(latest, row[1])
            keyed.append((latest, row))
    keyed.sort(key=lambda pair: pair[0])
    return [row for _, row in keyed]
