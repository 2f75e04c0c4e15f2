"""What is weak, and how it went so far: worked out from the answers each time.

Each objective is judged by its last ten answers. Its share of points comes with a range (`exam.share_interval`),
and objectives stand in the order of the lower end of that range: what is known to be weak comes first, and so does
what was hardly practised, where little can be said. An answer counts for every objective that its template serves.
Items of a mock exam that were left open count as nothing here, they say nothing about what was asked.
"""

from collections import Counter
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from ..document.scene import Dot, Label, Scene, Stroke
from ..words import counted
from .bank import templates
from .exam import points_words, share_interval
from .objectives import objectives
from .schedule import cards, now_for, steady_times
from .slips import slip_table

LAST = 10  # answers of an objective that count
MOST_TOLD, MOST_LISTED = 3, 12  # weak objectives in words; points in the words of a picture
SPANS = (1, 7, 28, 91, 364, 3640)  # days that a point of the picture may stand for
NAMES = {1: "day", 7: "week", 28: "four weeks", 91: "quarter of a year", 364: "year", 3640: "ten years"}
MOST_POINTS = 26  # of the picture
MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
LEFT, RIGHT, TOP, BOTTOM, FOOT = 20.0, 96.0, 11.0, 44.0, 64.0  # of the picture, 100 wide


@dataclass(frozen=True)
class Standing:
    """How an objective stands.

    Parameters
    ----------
    objective : str
        Its id.
    words : str
    answered : int
        Answers in all, a whole number.
    asked : int
        Answers that count here, the last ten at most, a whole number.
    points : float
        Of these, without unit.
    low, high : float
        The range of the share of points.
    due : float
        When an item of it is due next. [s since 1970, UTC]
    slip : str
        The name of the commonest slip in the answers that count, "" without one.
    slips : int
        How often that was, a whole number.
    """

    objective: str
    words: str
    answered: int
    asked: int
    points: float
    low: float
    high: float
    due: float
    slip: str
    slips: int

    @property
    def share(self):
        """Points over answers that count, a share from 0 to 1."""
        return self.points / self.asked


def standings(answers, last=LAST):
    """How each objective with answers stands, the weakest first, see above.

    Parameters
    ----------
    answers : sequence of record.Answer
    last : int
        How many of an objective's answers count, a whole number from 1.

    Returns
    -------
    tuple of Standing
    """
    bank, known = templates(), cards(answers)
    given = {id: [] for id in objectives()}
    due = dict.fromkeys(given, float("inf"))
    for answer in answers:
        for id in bank[answer.template].objectives if answer.template in bank and not answer.is_open else ():
            given[id].append(answer)
            due[id] = min(due[id], known[answer.template].due)
    found = [_standing(id, given[id], last, due[id]) for id in given if given[id]]
    return tuple(sorted(found, key=lambda one: (one.low, one.share)))


def _standing(id, answers, last, due):
    counting = answers[-last:]
    points = sum(answer.score for answer in counting)
    slips = Counter(answer.slip for answer in reversed(counting) if answer.slip)  # of equals the latest
    slip, times = slips.most_common(1)[0] if slips else ("", 0)
    low, high = share_interval(points, len(counting))
    return Standing(id, objectives()[id].words, len(answers), len(counting), points, low, high, due, slip, times)


def rows(standings, now):
    """Rows for a table, a list of tuples of text, the heads first.

    Parameters
    ----------
    standings : sequence of Standing
    now : float
        The time, not before the last answer, see `schedule.now_for`. [s since 1970]
    """
    heads = ("chapter", "skill", "answers", "right", "range", "due", "commonest slip")
    return [heads, *(_cells(one, now) for one in standings)]


def _cells(one, now):
    happened = slip_table().get(one.slip, (one.slip, ""))[0]
    return (
        objectives()[one.objective].title,
        one.words,
        str(one.answered),
        f"{points_words(one.points)} of {one.asked}",
        f"{100 * one.low:.0f} to {100 * one.high:.0f} %",
        when(one.due, now),
        f"{happened} ({one.slips} ×)" if one.slip else "",
    )


def when(due, now):
    """A time in words, as seen from now.

    Parameters
    ----------
    due, now : float
        [s since 1970, UTC]

    >>> when(0, 5), when(90_000_000, 0), when(300, 0)
    ('now', 'in 3 years', 'in 5 minutes')
    """
    left = due - now
    if left <= 0:
        return "now"
    for unit, seconds, most in (("minute", 60, 90), ("hour", 3600, 36), ("day", 86_400, 60), ("month", 2_629_800, 24)):
        if left < most * seconds:
            return f"in {counted(max(1, round(left / seconds)), unit)}"
    return f"in {counted(round(left / 31_557_600), 'year')}"


def words(answers, now):
    """How it stands, a tuple of sentences.

    Parameters
    ----------
    answers : sequence of record.Answer
    now : float
        The time. [s since 1970]
    """
    found = standings(answers)
    if not found:
        return ("There are no answers yet.",)
    count = sum(not answer.is_open for answer in answers)
    waiting = sum(one.due <= now_for(answers, now) for one in found)
    due = {0: "None is due now.", 1: "One is due now."}.get(waiting, f"{waiting} are due now.")
    first = f"{counted(count, 'answer')} so far, on {len(found)} of {len(objectives())} skills. {due}"
    weak = [_told(one) for one in found[:MOST_TOLD] if one.share < 1]
    return (first, *weak, "The range says how far a share may be off. With few answers it is wide.")


def _told(one):
    """One weak objective in words."""
    happened, advice = slip_table().get(one.slip, (one.slip, ""))
    slip = f" Most often {happened}. {advice}".rstrip() if one.slips > 1 else ""
    right = f"{points_words(one.points)} of {'' if one.asked == one.answered else 'the last '}{counted(one.asked, 'answer')} right."
    return f"{objectives()[one.objective].title}, “{one.words}”: {right}{slip}"


@dataclass(frozen=True)
class Point:
    """Answers of one stretch of days.

    ``start`` is the first day (a date), ``answers`` how many (a whole number), ``points`` theirs (without unit).
    """

    start: date
    answers: int
    points: float

    @property
    def share(self):
        """Points over answers, a share from 0 to 1."""
        return self.points / self.answers


def over_time(answers):
    """The answers by day, or by a longer stretch where there would be too many points.

    Parameters
    ----------
    answers : sequence of record.Answer

    Returns
    -------
    int, a whole number, and list of Point
        Days that a point stands for; points in order, only stretches with answers.
    """
    timed = [
        (datetime.fromtimestamp(max(0.0, time)).date(), answer.score)
        for answer, time in zip(answers, steady_times(answers), strict=True)
        if not answer.is_open
    ]
    if not timed:
        return SPANS[0], []
    first = timed[0][0]
    length = (timed[-1][0] - first).days + 1
    span = next((span for span in SPANS if length <= span * MOST_POINTS), SPANS[-1])
    found = {}
    for day, score in timed:
        found.setdefault((day - first).days // span, []).append(score)
    return span, [Point(first + timedelta(place * span), len(scores), sum(scores)) for place, scores in found.items()]


def picture(answers):
    """How the share of right answers went, with the number of answers below, a `document.scene.Scene`; None without answers.

    Parameters
    ----------
    answers : sequence of record.Answer
        In words of the picture, an item that was left open is none.
    """
    span, points = over_time(answers)
    if not points:
        return None
    stretches = (points[-1].start - points[0].start).days // span
    room = (RIGHT - LEFT - 8) / max(stretches, 1)
    places = [LEFT + 4 + room * ((point.start - points[0].start).days // span) for point in points]
    if not stretches:
        places = [(LEFT + RIGHT) / 2]
    shapes = [*_frame(), *_line(points, places), *_bars(points, places), *_dates(points, places, span)]
    return Scene(_picture_words(span, points), FOOT + 6, tuple(shapes))


def _height(share):
    return BOTTOM - share * (BOTTOM - TOP)


def _frame():
    shapes = [Stroke(((LEFT, TOP), (LEFT, BOTTOM), (RIGHT, BOTTOM)), "axis"), Label(2, TOP - 5, "right")]
    for share in (0.0, 0.5, 1.0):
        shapes.append(Label(LEFT - 1.5, _height(share) + 1.4, f"{100 * share:.0f} %", "end"))
        if share:
            shapes.append(Stroke(((LEFT, _height(share)), (RIGHT, _height(share))), "guide"))
    return shapes


def _line(points, places):
    path = tuple((x, _height(point.share)) for point, x in zip(points, places, strict=True))
    line = [Stroke(path, "interval")] if len(path) > 1 else []
    return [*line, *(Dot(x, y, radius=1.3) for x, y in path)]


def _bars(points, places):
    """The number of answers as bars hanging below the line."""
    most = max(point.answers for point in points)
    top = FOOT - 12
    shapes = [Stroke(((LEFT, FOOT), (RIGHT, FOOT)), "axis"), Label(LEFT - 1.5, FOOT, "answers", "end")]
    shapes += [
        Stroke(((x, FOOT), (x, FOOT - 10 * point.answers / most)), "body")
        for point, x in zip(points, places, strict=True)
    ]
    highest = next(x for point, x in zip(points, places, strict=True) if point.answers == most)
    return [*shapes, Label(highest, top, str(most), "middle")]


def _dates(points, places, span):
    years = points[0].start.year != points[-1].start.year
    first = Label(places[0], FOOT + 5, _day(points[0].start, years), "middle" if len(points) == 1 else "start")
    return [first] if len(points) == 1 else [first, Label(places[-1], FOOT + 5, _day(points[-1].start, years), "end")]


def _day(day, year):
    return f"{day.day} {MONTHS[day.month - 1]}" + (f" {day.year}" if year else "")


def _picture_words(span, points):
    answers, right = sum(point.answers for point in points), sum(point.points for point in points)
    years = points[0].start.year != points[-1].start.year
    each = [f"{_day(point.start, years)} {100 * point.share:.0f} % of {point.answers}" for point in points]
    if len(each) > MOST_LISTED:
        half = MOST_LISTED // 2
        each = [*each[:half], f"{len(each) - 2 * half} more", *each[-half:]]
    return (
        f"Share of right answers, a point for each {NAMES[span]} with answers, with bars for how many: "
        f"{'; '.join(each)}. In all {100 * right / answers:.0f} % of {counted(answers, 'answer')}."
    )
