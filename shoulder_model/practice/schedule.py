"""What to practise, and when: each item comes back shortly before it would be forgotten.

The times come from FSRS-6, in the library `fsrs`. It keeps two numbers for each item, how long it is remembered
(stability: days until the chance of a right answer has fallen to 90 %) and how hard it is (difficulty, 1 to 10),
and asks again when that chance is 90 %. It was chosen because it predicts a chance, which can be checked, because
its formulas are published, because the library is kept up, and because it needs nothing but the answers: replaying
them gives the same plan on every machine (its random spread of dates is off). Source: KDD 2022, "A stochastic
shortest path algorithm for optimizing spaced repetition scheduling", doi 10.1145/3534678.3539081 (title from
memory, MM); the formulas and the 21 parameters are those of the library.

What to make of it: the parameters were fitted to cards with facts, learnt by many people. Here the numbers of an
item change each time and a skill is asked, so take "90 %" for an order of practice, not for a forecast of your next
answer.

One card stands for a template. A wrong answer counts as Again, a half right one, or a right one after the hint, as
Hard, any other right one as Good; nothing counts as Easy. An item of a mock exam that was left open counts as
nothing here. Nothing else is kept than the answers. A clock that is set back does no harm: from one answer to the
next, time goes forward or stands.
"""

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from functools import cache

from ..inputs import choice
from .bank import templates
from .objectives import chapters, objectives

MOST, NEW_A_DAY = 12, 6  # items of a session, new ones a day; own choice
DAY = 86_400.0  # seconds
LONGEST_STEP = 10 * 366 * 86_400_000  # milliseconds from one answer to the next; more is a clock gone wrong
EARLIEST = -2_208_988_800_000  # milliseconds, the year 1900: where such steps add up, no time is put before it
LAST_FEW = 5  # answers in which slips are counted
START = datetime(1970, 1, 1, tzinfo=UTC)


@dataclass(frozen=True)
class Card:
    """What is known of one template.

    Parameters
    ----------
    template : str
    answered : int
        How often it was answered, a whole number.
    last, due : float
        When it was answered last, and when it should be asked again, by the clock of the last answer of all.
        [s since 1970, UTC]
    stability : float
        Until the chance of a right answer is 90 %. [days]
    difficulty : float
        1 to 10, without unit.
    began : float
        When it was answered first. [s since 1970, UTC]
    scores : tuple of float
        Of all answers, in order; 0, 0.5 or 1.
    """

    template: str
    answered: int
    last: float
    due: float
    stability: float
    difficulty: float
    began: float
    scores: tuple

    def recall(self, now):
        """The chance of a right answer at a time ``now`` [s since 1970], as FSRS predicts it, a share from 0 to 1."""
        from fsrs import Card as Memory

        memory = Memory(
            card_id=0, stability=self.stability, difficulty=self.difficulty, last_review=_date(_ms(self.last))
        )
        return float(_scheduler().get_card_retrievability(memory, _date(_ms(max(now, self.last)))))


@cache
def _scheduler():
    from fsrs import Scheduler

    return Scheduler(enable_fuzzing=False)


def _ms(seconds):
    return round(1000 * seconds)


def _date(ms):
    return START + timedelta(milliseconds=ms)


def steady_times(answers):
    """Times of ``answers`` (sequence of `record.Answer`) that never fall, a list. [s since 1970]

    The last one is as it was given. Where the clock was set back between two answers, no time has passed between them.

    >>> from shoulder_model.practice.record import Answer
    >>> steady_times([Answer(at, "a", "1", "x", 1.0) for at in (500, 900, 100, 160)])
    [-300.0, 100.0, 100.0, 160.0]
    """
    return [ms / 1000 for ms in _steady(answers)]


def _steady(answers):
    """The same in whole milliseconds, worked out from the last one back."""
    given = [_ms(answer.at) for answer in answers]
    times = given[-1:]
    for one, other in zip(given[-2::-1], given[:0:-1], strict=True):
        times.append(max(times[-1] - min(max(other - one, 0), LONGEST_STEP), EARLIEST))
    return times[::-1]


def now_for(answers, now):
    """The time that plans go by: ``now`` [s since 1970], not before the last of ``answers``, each a `record.Answer`."""
    return max(now, answers[-1].at) if answers else now


def rating(answer):
    """How FSRS is told of an ``answer`` (`record.Answer`): 1 is Again, 2 is Hard, 3 is Good; a whole number."""
    if answer.score <= 0:
        return 1
    return 3 if answer.score >= 1 and not answer.hint else 2


def cards(answers):
    """A `Card` for each template that was answered, worked out from all answers again.

    Parameters
    ----------
    answers : sequence of record.Answer
        In the order they were given.

    Returns
    -------
    dict from name to Card, in the order of their first answers
    """
    from fsrs import Card as Memory
    from fsrs import Rating

    memories, given = {}, {}
    for answer, time in zip(answers, _steady(answers), strict=True):
        if answer.is_open:
            continue
        memory = memories.get(answer.template) or Memory(card_id=0, due=_date(time))
        memories[answer.template], _ = _scheduler().review_card(memory, Rating(rating(answer)), _date(time))
        given.setdefault(answer.template, []).append((time / 1000, answer.score))
    return {name: _card(name, memories[name], pairs) for name, pairs in given.items()}


def _card(name, memory, pairs):
    due = (memory.due - START) / timedelta(milliseconds=1) / 1000
    times, scores = zip(*pairs, strict=True)
    return Card(name, len(times), times[-1], due, float(memory.stability), float(memory.difficulty), times[0], scores)


def today(answers, now, most=MOST):
    """What to practise now: those that are due, the longest overdue first, then new ones.

    New ones come chapter by chapter, spread over the objectives of a chapter, and no more than six a day. A day is one
    of the computer's calendar.

    Parameters
    ----------
    answers : sequence of record.Answer
    now : float
        The time. [s since 1970]
    most : int
        A whole number.

    Returns
    -------
    tuple of names of templates
    """
    known, now = cards(answers), now_for(answers, now)
    due = _due(known, templates(), now)
    begun = sum(_day(card.began) == _day(now) for card in known.values())
    return (*due, *_new(known)[: max(0, NEW_A_DAY - begun)])[: max(0, most)]


def _day(seconds):
    """The day of a time in the computer's calendar."""
    return datetime.fromtimestamp(max(0.0, seconds)).date()


def _due(known, names, now):
    """Those of some names that are due, the longest overdue first."""
    found = [known[name] for name in names if name in known and known[name].due <= now]
    return [card.template for card in sorted(found, key=lambda card: card.due)]


def _new(known):
    """Templates that were never answered: chapter by chapter, always one of the objective that has fewest so far."""
    bank = templates()
    used = dict.fromkeys(objectives(), 0)
    for name in known:
        if name in bank:
            used[bank[name].objectives[0]] += 1
    left = [one for name, one in bank.items() if name not in known]
    found = []
    for number in chapters():
        here = [one for one in left if one.chapter == number]
        while here:
            least = min(here, key=lambda one: used[one.objectives[0]])
            used[least.objectives[0]] += 1
            found.append(least.name)
            here.remove(least)
    return found


def _in_turn(names, answers, now):
    """Names as they should be asked: due, new, then those that are due later."""
    known, now = cards(answers), now_for(answers, now)
    due = _due(known, names, now)
    later = sorted((name for name in names if name in known and name not in due), key=lambda name: known[name].due)
    return (*due, *(name for name in names if name not in known), *later)


def of_chapter(number, answers, now):
    """All templates of one chapter: those that are due, new ones, then the others, the soonest due first.

    Parameters
    ----------
    number : str
        Of the chapter, as "03" or "a1".
    answers : sequence of record.Answer
    now : float
        The time. [s since 1970]

    Returns
    -------
    tuple of names of templates

    Raises
    ------
    InputError
        There is no such chapter.
    """
    choice("chapter", number, tuple(chapters()))
    return _in_turn([name for name, one in templates().items() if one.chapter == number], answers, now)


def of_objective(objective, answers, now):
    """All templates that serve one objective, in the order of `of_chapter`.

    Parameters
    ----------
    objective : str
        Its id, as "03.wider".
    answers : sequence of record.Answer
    now : float
        The time. [s since 1970]

    Returns
    -------
    tuple of names of templates

    Raises
    ------
    InputError
        There is no such objective.
    """
    choice("objective", objective, tuple(objectives()))
    return _in_turn([name for name, one in templates().items() if objective in one.objectives], answers, now)


def what_i_get_wrong(answers, now, most=MOST):
    """Templates whose last answer was not right: those with most points lost in their last five answers first.

    Among equals, the one that FSRS thinks least of comes first.

    Parameters
    ----------
    answers : sequence of record.Answer
    now : float
        The time. [s since 1970]
    most : int
        A whole number.

    Returns
    -------
    tuple of names of templates
    """
    known, now = cards(answers), now_for(answers, now)
    wrong = [known[name] for name in templates() if name in known and known[name].scores[-1] < 1]
    wrong.sort(key=lambda card: (-sum(1 - score for score in card.scores[-LAST_FEW:]), card.recall(now)))
    return tuple(card.template for card in wrong)[: max(0, most)]


def next_due(answers, now):
    """How many templates are due, and when the next one is.

    Parameters
    ----------
    answers : sequence of record.Answer
    now : float
        The time. [s since 1970]

    Returns
    -------
    int, a whole number, and float or None
        The time of the next that is not due yet, by the clock of ``now``; None where there is none. [s since 1970]
    """
    known, now = cards(answers), now_for(answers, now)
    bank = templates()
    later = [card.due for name, card in known.items() if name in bank and card.due > now]
    return len(_due(known, bank, now)), min(later, default=None)
