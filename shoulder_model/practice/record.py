"""The record of what a reader answered: an SQLite file in the reader's own data folder, to which answers are only
added.

Nothing but answers is kept; what is due and what is weak is worked out from them each time (`schedule`,
`progress`). Answers keep the order in which they were given, whatever the clock says. The file is safe against two
notebooks, a killed kernel and a full disk (`record_file`); what cannot be written stays in memory, and that is
said.
"""

import os
import re
import threading
import uuid
from contextlib import suppress
from dataclasses import astuple, dataclass
from pathlib import Path

from ..inputs import Allowed, scalar
from ..words import counted
from .record_file import FAILURES, Newer, RecordFile, why
from .record_table import as_table, read_export

FOLDER, FILE = "SHOULDER_MODEL_PRACTICE", "practice.sqlite"  # variable that names another folder; the file
LONGEST = 500  # characters of an answer that are kept
LAST_TIME = 32_503_680_000.0  # the year 3000, in seconds since 1970
UID = re.compile("[0-9a-f]{32}")
POINTS = Allowed(0.0, 1.0, "", "a score is 0, 0.5 or 1")
ANY = Allowed(float("-inf"), float("inf"), "s", "give seconds")


@dataclass(frozen=True)
class Answer:
    """One answer.

    Texts are put on one line, and what cannot be kept in UTF-8 is replaced. A clock that stands before 1970 or after
    the year 3000 is read as the nearer of them, and a clock that was set back while somebody answered makes the time
    taken 0.

    Parameters
    ----------
    at : float
        When it was given. [s since 1970, UTC]
    template, seed : str
        Which item, see `bank.make`.
    text : str
        The answer as typed; "" for an item of a mock exam that was left open.
    score : float
        0, 0.5 or 1.
    slip : str
        The name of the slip that gives this answer, "" where none does.
    seconds : float
        Time taken. [s]
    hint : bool
        Whether the hint was shown.
    exam : str
        The mock exam it belongs to, see `exam_id`; "" for practice.

    Raises
    ------
    InputError
        A score outside 0 to 1, a time that is no number.
    """

    at: float
    template: str
    seed: str
    text: str
    score: float
    slip: str = ""
    seconds: float = 0.0
    hint: bool = False
    exam: str = ""

    def __post_init__(self):
        for name in ("template", "seed", "text", "slip", "exam"):
            object.__setattr__(self, name, _one_line(getattr(self, name)))
        for name, allowed, most in (("at", ANY, LAST_TIME), ("seconds", ANY, LAST_TIME), ("score", POINTS, 1.0)):
            object.__setattr__(self, name, min(max(0.0, scalar(name, getattr(self, name), allowed)), most))
        object.__setattr__(self, "hint", bool(self.hint))

    @property
    def is_open(self):
        """Whether this is no answer but an item that was left open."""
        return not self.text


def _one_line(text):
    """A text as it can be kept: one line of UTF-8 without signs that cannot be seen."""
    kept = str(text)[: 4 * LONGEST].encode("utf-8", "replace").decode("utf-8")
    return " ".join("".join(sign if sign.isprintable() else " " for sign in kept).split())[:LONGEST].strip()


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
    return _one_line(f"{name}/{seed}/{count}")


def _items_in(exam):
    count = exam.rpartition("/")[2]
    return int(count) if count.isascii() and count.isdigit() and len(count) < 6 else 1


class Record:
    """The reader's record.

    Parameters
    ----------
    path : path-like, optional
        The file; ``practice.sqlite`` in `folder` without it.
    """

    def __init__(self, path=None):
        self._file = RecordFile(path or folder() / FILE)
        self._lock = threading.RLock()
        self._waiting, self._known = {}, {}  # uid -> Answer, not on disk yet; row -> uid and Answer, as last read
        try:
            self._file.begin()
        except FAILURES as error:
            reason = why(error, self.path.parent)
            self._file.notes.append(
                f"The record {self.path} cannot be written: {reason}. What you answer now is kept in this notebook "
                "only; save it as a table before you close."
            )
        self._pairs()

    @property
    def path(self):
        """The name of the file with its folder, a path."""
        return self._file.path

    @property
    def notes(self):
        """What happened to the file since this record was opened, a tuple of sentences; empty where nothing did."""
        return tuple(self._file.notes)

    @property
    def waiting(self):
        """How many answers are only in memory, a whole number."""
        return len(self._waiting)

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
            "" once they are on disk; else a sentence that says in words why they are not. They then stay in memory.
        """
        with self._lock:
            self._waiting |= {uuid.uuid4().hex: answer for answer in answers}
            rows = {_row(*pair): pair for pair in self._waiting.items()}
            try:
                self._file.append(list(rows))
            except FAILURES as error:
                return self._not_written(error)
            self._known |= rows
            self._waiting.clear()
            return ""

    def _not_written(self, error):
        kept = "They are kept" if len(self._waiting) > 1 else "It is kept"
        count, reason = counted(len(self._waiting), "answer"), why(error, self.path.parent)
        said = f"{count} not on disk: {reason}. {kept} in this notebook"
        return f"{said}; save the record as a table before you close." if isinstance(error, Newer) else (
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
            with suppress(*FAILURES):
                self._known = {row: self._known.get(row) or _pair(row) for row in self._file.rows()}
            pairs = [pair for pair in self._known.values() if pair and pair[0] not in self._waiting]
            return [*pairs, *self._waiting.items()]

    def export(self):
        """The whole record as text, a CSV table: bytes in UTF-8 with a byte-order mark; no cell of it is a formula."""
        return as_table([_row(uid, answer) for uid, answer in self._pairs()])

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
        pairs = read_export(content, lambda row: _pair(row, strict=True))
        with self._lock:
            known = {uid for uid, _ in self._pairs()}
            new = {uid: answer for uid, answer in pairs if uid not in known}
            told = f"{counted(len(new), 'answer')} taken over, {len(pairs) - len(new)} were here already."
            rows = [_row(uid, answer) for uid, answer in {**self._waiting, **new}.items()]
            try:
                self._file.merge(lambda old: _in_order(old, rows))
            except FAILURES as error:
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
            except FAILURES as error:
                return f"The record {self.path} is still there: {why(error, self.path.parent)}."
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


def _row(uid, answer):
    *cells, hint, exam = astuple(answer)
    return (uid, *cells, int(hint), exam)


def _pair(row, strict=False):
    """The uid and the answer of a row; None, or a `ValueError` where ``strict``, for a row that makes no sense."""
    try:
        uid, at, template, seed, text, score, slip, seconds, hint, exam = row
        if not UID.fullmatch(uid):
            raise ValueError("its first cell is no id of an answer; leave that column as it was")
        return uid, Answer(at, template, seed, text, score, slip, seconds, hint, exam)
    except (TypeError, ValueError):
        if strict:
            raise
        return None


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
