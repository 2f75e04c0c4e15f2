"""Health before anything: what is asked, what an answer means, and what a person may not do.

The questions stand in ``data/health_questions.csv``. They are answered, each of them, before there is a week. They find out
whom to send to a clinician; they do not say what is wrong with anybody.
"""

from dataclasses import dataclass
from functools import cache

from ..inputs import choice, mapping
from ..tables import read_table
from ..words import listed

ANSWERS = ("no", "yes", "cleared")  # cleared: a clinician has said what is allowed, and it is written down
REFERRAL, TODAY = "referral", "today"  # what a yes means where it does not mean a limit
LOW_BACK = "spare the low back"
LIMITS = {  # name -> what it keeps out, in words
    LOW_BACK: "no row with the largest load on it, few sets that load it some",
    "nothing overhead": "no pulldown, pull-up or pullover",
    "no hanging": "no pull-up or chin-up",
    "no lying": "no pull on the back or the front, and none under a bar",
}
LONGEST_NOTE = 300  # letters of what a clinician allows


@dataclass(frozen=True)
class Question:
    """One question: what is asked in ``words``, what counts as yes (``means``), and what a yes means.

    ``follows`` is "referral", "today" or one of `LIMITS`; ``today`` says what makes it urgent; ``where`` whom to see.
    """

    name: str
    words: str
    means: str
    follows: str
    today: str
    where: str


@cache
def questions():
    """All rows of ``data/health_questions.csv``: a tuple of `Question`, in the order they are asked."""
    return tuple(
        Question(row["name"], row["question"], row["means"], row["follows"], row["today"], row["where"])
        for row in read_table("health_questions.csv")
    )


def all_no():
    """A dict with "no" to each question: name -> answer.

    >>> set(all_no().values())
    {'no'}
    """
    return {question.name: "no" for question in questions()}


def checked_answers(health):
    """``health``, a dict question -> answer of `ANSWERS` or None for not answered, with every question in it.

    Raises
    ------
    InputError
        It is no dict, or holds a question or an answer that does not exist.
    """
    health = mapping("health", health, "each question's name to no, yes or cleared")
    names = tuple(question.name for question in questions())
    for name, answer in health.items():
        choice("health", name, names)
        if answer is not None:
            choice(f"health: {name}", answer, ANSWERS)
    return {name: health.get(name) for name in names}


def limits_of(health):
    """Limits that the answers alone bring, a tuple of names of `LIMITS`; ``health`` a dict question -> answer."""
    return tuple(one.follows for one in questions() if health.get(one.name) == "yes" and one.follows in LIMITS)


@dataclass(frozen=True)
class NoWeek:
    """There is no week: why, and what to do, line by line.

    ``kind`` is "ask" (a question has no answer yet), "today" or "referral" (a clinician first), or "nothing" (no pull is left
    that this person can do here).
    """

    kind: str
    lines: tuple

    @property
    def sentence(self):
        """The lines in one text."""
        return " ".join(self.lines)


def before_any_week(health):
    """What the answers say before anything is planned: a `NoWeek`, or None where a week may be made.

    ``health`` is a dict question -> answer of `ANSWERS`, or None for not answered.
    """
    said_yes = [one for one in questions() if health.get(one.name) == "yes" and one.follows not in LIMITS]
    if said_yes:
        return _referral(said_yes)
    open_still = [one.name for one in questions() if health.get(one.name) is None]
    if not open_still:
        return None
    if len(open_still) == len(questions()):
        return NoWeek("ask", ("Health first: answer every question. Then there is a week.",))
    return NoWeek("ask", (f"Health first. Still to be answered: {listed(open_still)}.",))


def after_pain(hurt, health):
    """What stands before the next week where pulls hurt in a log: a `NoWeek`, or None where nothing did or somebody cleared it.

    ``hurt`` is a tuple of names of pulls; ``health`` a dict question -> answer.
    """
    if not hurt or "cleared" in health.values():
        return None
    lines = (
        f"No week now. Pain was logged: {listed(list(hurt))}. First a clinician.",
        "If it came suddenly, or does not go away: go to an emergency department today.",
        "Until then stop what brings it on, and do not test it with a load.",
        "Come back with what the clinician allows. Then answer “cleared” where it belongs, and write the limits down.",
    )
    return NoWeek(REFERRAL, lines)


def _referral(said_yes):
    """No week: what was said, whom to see, and when it cannot wait."""
    kind = TODAY if any(one.follows == TODAY for one in said_yes) else REFERRAL
    lines = [f"No week now. First a clinician, because of: {listed([one.name for one in said_yes])}."]
    for one in said_yes:
        do = "call the emergency number" if one.follows == TODAY else "go to an emergency department today"
        today = f" If {one.today}: {do}." if one.today else ""
        lines.append(f"{one.name.capitalize()}: see {one.where}.{today}")
    lines.append("Until then stop what brings it on, and do not test it with a load.")
    lines.append("Come back with what the clinician allows. Then answer “cleared”, and write the limits down.")
    return NoWeek(kind, tuple(lines))
