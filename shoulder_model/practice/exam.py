"""A mock exam of this workbook's own: drawn from a blueprint, marked, and what its result says and does not say.

It is nobody's official exam. Each chapter or objective gets its share of items (`blueprint`), and the same seed
gives the same exam; another seed gives other items and other numbers.

How sure a result is: which items come up is chance, so a share of right answers has a range. It is the score
interval of scipy (``method="wilson"``, 95 %; J Am Stat Assoc 1927;22:209-212, from memory, MH), which stays between
0 and 100 % and does not shrink to nothing for 0 of 3. It counts whole answers. Where there are half points, the
lower end is worked out without the half and the upper end with a whole point for it, so the range is rather too
wide. It takes items for independent draws of one kind, and says nothing on items that other people write.
"""

import math
import re
import secrets
from collections import Counter
from dataclasses import dataclass

from ..inputs import InputError
from ..words import counted, written
from .bank import make, templates
from .blueprint import served_by
from .chance import Chance
from .objectives import chapters, objectives
from .record import Answer, exam_id

SURE = 0.95  # how sure a range is
LETTERS, LENGTH = "ABCDEFGHJKLMNPQRTUVWXY346789", 6  # of a seed: no letter that looks like another sign
TRIES = 20  # for other numbers
OTHER = "–"  # chapter of an item that this version of the workbook does not have
OFFICIAL = (
    "This mock exam was made for this workbook. It is nobody's official exam, and its score does not tell whether you "
    "would pass one."
)


def new_seed(answers):
    """A seed, text, that none of the exams among ``answers`` (sequence of `record.Answer`) had."""
    used = {answer.exam.split("/")[1] for answer in answers if answer.exam.count("/") >= 2}
    while (seed := "".join(secrets.choice(LETTERS) for _ in range(LENGTH))) in used:
        pass
    return seed


@dataclass(frozen=True)
class Exam:
    """A mock exam with its items.

    Parameters
    ----------
    title : str
    minutes : float
        How long it takes. [min]
    seed : str
    items : tuple of item.Item
        In the order they are asked.
    """

    title: str
    minutes: float
    seed: str
    items: tuple

    @property
    def id(self):
        """What it is called in the record, text."""
        return exam_id(self.title, self.seed, len(self.items))

    def left_open(self, answers, at):
        """Empty answers for the items that have none, so that the exam counts as handed in once they are in the record.

        Parameters
        ----------
        answers : sequence of record.Answer
            The whole record, or those of this exam.
        at : float
            The time. [s since 1970, UTC]

        Returns
        -------
        tuple of record.Answer
        """
        given = {(answer.template, answer.seed) for answer in answers if answer.exam == self.id}
        left = [item for item in self.items if (item.template, item.seed) not in given]
        return tuple(Answer(at, item.template, item.seed, "", 0.0, exam=self.id) for item in left)


def draw(blueprint, seed):
    """A mock exam.

    No template comes twice while another one of its share has not come; then with other numbers. Within a chapter,
    objectives take turns.

    Parameters
    ----------
    blueprint : blueprint.Blueprint
    seed : str
        Letters, digits and hyphens; the same seed gives the same exam.

    Returns
    -------
    Exam

    Raises
    ------
    InputError
        A seed with other signs, or too long.
    """
    if not re.fullmatch(r"[A-Za-z0-9-]{1,40}", str(seed)):
        raise InputError("seed", f"seed = {str(seed)[:40]!r} cannot be used; give letters and digits, as K7QF2M")
    chance = Chance(f"exam/{blueprint.title}/{seed}")
    names = [name for share, count in blueprint.counts().items() for name in _drawn(served_by(share), count, chance)]
    items = []
    for place, name in enumerate(chance.shuffled(names), 1):
        items.append(_made(name, f"{seed} {place}", items))
    return Exam(blueprint.title, blueprint.minutes, str(seed), tuple(items))


def _made(name, seed, others):
    """An item with numbers that none of the others has, where some tries find such numbers."""
    asked = [(other.question, other.ask) for other in others if other.template == name]
    for attempt in range(TRIES):
        item = make(name, f"{seed} {attempt}" if attempt else seed)
        if (item.question, item.ask) not in asked:
            break
    return item


def _drawn(names, count, chance):
    """So many of some templates' names: none twice while one is left, their first objectives in turn."""
    bank, order = templates(), chance.shuffled(names)
    used, served, found = Counter(), Counter(), []
    for _ in range(count):
        name = min(order, key=lambda name: (used[name], served[bank[name].objectives[0]]))
        used[name] += 1
        served[bank[name].objectives[0]] += 1
        found.append(name)
    return found


def share_interval(points, asked):
    """The range of a share of right answers, see above.

    Parameters
    ----------
    points : float
        Half points are allowed; without unit.
    asked : int
        How many were asked, a whole number above 0.

    Returns
    -------
    low, high : float
        Shares from 0 to 1.
    """
    from scipy.stats import binomtest  # lazy: scipy makes importing the package slow

    ends = [
        binomtest(whole, asked).proportion_ci(SURE, method="wilson")
        for whole in (math.floor(points), math.ceil(points))
    ]
    return float(ends[0].low), float(ends[1].high)


@dataclass(frozen=True)
class Part:
    """A chapter, an objective, or the whole of an exam.

    Parameters
    ----------
    id : str
        Number of the chapter or id of the objective; "" for the whole.
    words : str
        Its title or words.
    asked : int
        Items, a whole number.
    points : float
        Without unit.
    low, high : float
        The range of the share of points, see `share_interval`.
    """

    id: str
    words: str
    asked: int
    points: float
    low: float
    high: float

    @property
    def share(self):
        """Points over items, a share from 0 to 1."""
        return self.points / self.asked


@dataclass(frozen=True)
class Reading:
    """A section to read again.

    ``section`` as "3.3", its ``notebook``, the ``title`` of its chapter, all text; ``lost`` are the points lost there.
    """

    section: str
    notebook: str
    title: str
    lost: float


@dataclass(frozen=True)
class Result:
    """What came out of a mock exam.

    Parameters
    ----------
    whole : Part
    chapters, objectives : tuple of Part
        In the order of the chapters; an item counts for its first objective only.
    left_open : int
        Items without an answer, a whole number; they count as wrong.
    seconds : float
        Time taken for all answers together. [s]
    slips : tuple
        Pairs of name and how often, the commonest first.
    readings : tuple of Reading
        What to read again, most points lost first.
    """

    whole: Part
    chapters: tuple
    objectives: tuple
    left_open: int
    seconds: float
    slips: tuple
    readings: tuple

    @property
    def words(self):
        """The result in a tuple of sentences."""
        return tuple(filter(None, (_score_words(self), _open_words(self), _weak_words(self), OFFICIAL)))

    @property
    def rows(self):
        """Rows for a table, a list of tuples of text: the heads, the whole, then each chapter with its objectives."""
        rows = [("chapter, skill", "questions", "points", "right", "range")]
        for part in (self.whole, *self.chapters):
            rows.append(_cells(part, f"{part.words}"))
            if part.id:
                rows += [_cells(one, one.words) for one in self.objectives if one.id.partition(".")[0] == part.id]
        return rows


def result(answers):
    """What came out of a mock exam.

    Parameters
    ----------
    answers : sequence of record.Answer
        Those of one exam, a sequence or a tuple; of two to the same item the last one counts.

    Returns
    -------
    Result

    Raises
    ------
    InputError
        There are none.
    """
    if not answers:
        raise InputError("answers", "answers: there are none of this exam")
    last = tuple({(answer.template, answer.seed): answer for answer in answers}.values())
    bank = templates()
    firsts = [bank[answer.template].objectives[0] if answer.template in bank else OTHER for answer in last]
    numbers = [first.partition(".")[0] for first in firsts]
    said = {id: one.words for id, one in objectives().items()}
    slips = Counter(answer.slip for answer in last if answer.slip)
    return Result(
        _part("", "all", last),
        _parts(numbers, chapters(), last),
        _parts(firsts, said, last),
        sum(answer.is_open for answer in last),
        sum(answer.seconds for answer in last),
        tuple(sorted(slips.items(), key=lambda pair: (-pair[1], pair[0]))),
        _readings(last, bank),
    )


def _part(id, words, answers):
    points = sum(answer.score for answer in answers)
    return Part(id, words, len(answers), points, *share_interval(points, len(answers)))


def _parts(labels, words, answers):
    """A part for each label that some answer has, in the order of the words."""
    by_label = {}
    for label, answer in zip(labels, answers, strict=True):
        by_label.setdefault(label, []).append(answer)
    words = {**words, OTHER: "items of another version"}
    return tuple(_part(label, words[label], by_label[label]) for label in words if label in by_label)


def _readings(answers, bank):
    """Sections where points were lost, most first."""
    lost = Counter()
    for answer in answers:
        if answer.score < 1 and answer.template in bank:
            one = bank[answer.template]
            first = objectives()[one.objectives[0]]
            lost[one.section, first.notebook, first.title] += 1 - answer.score
    return tuple(
        Reading(*place, points) for place, points in sorted(lost.items(), key=lambda pair: (-pair[1], pair[0][1]))
    )


def _per_cent(share):
    return f"{100 * share:.0f} %"


def points_words(value):
    """A number of points, ``value`` without unit, as text; a half is kept."""
    return written(value, 0 if value == int(value) else 1)


def _cells(part, words):
    span = f"{100 * part.low:.0f} to {_per_cent(part.high)}"
    return words, str(part.asked), points_words(part.points), _per_cent(part.share), span


def _score_words(result):
    whole = result.whole
    return (
        f"You have {points_words(whole.points)} of {counted(whole.asked, 'point')}: {_per_cent(whole.share)}. "
        "Which items came up is partly chance; what you can do lies somewhere from "
        f"{100 * whole.low:.0f} to {_per_cent(whole.high)}."
    )


def _open_words(result):
    count = result.left_open
    verbs = ("was", "counts") if count == 1 else ("were", "count")
    return f"{counted(count, 'question')} {verbs[0]} left open and {verbs[1]} as wrong." if count else ""


def _weak_words(result):
    weak = sorted((part for part in result.chapters if part.points < part.asked), key=lambda part: part.share)
    if not weak:
        return "Everything was right."
    parts = [f"{part.words} ({points_words(part.points)} of {part.asked})" for part in weak[:3]]
    return f"Weakest: {'; '.join(parts)}."
