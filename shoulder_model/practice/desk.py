"""The desk where somebody practises: what the page sends comes in as ``Desk.act``, what it shows goes out as ``Desk.view``.

    start ─> a set of questions ─> question ─> verdict ─> ... ─> how it went ─> start
          └> mock exam ─> questions, no verdicts, a clock ─> result
          └> what is weak

No page and no notebook is needed to use it. What counts is kept in the record as soon as it is answered.
"""

import secrets
import threading
import time

from ..inputs import InputError, choice
from ..words import counted
from . import exam as exams
from . import schedule
from .bank import make
from .blueprint import read_blueprint
from .objectives import chapters, objectives
from .pages import WEAK, erase_page, exam_page, fetching_page, hand_in_page, progress_page, result_page, set_page
from .progress import when
from .question import Question
from .record import own_record
from .views import STOP, choosers, question_screen, screen, tile

MOST = 12  # questions of a set
GRACE = 5.0  # s that an answer may be late


def fresh_seed():
    """A seed that nobody had, text."""
    return secrets.token_hex(6)


def _known_words(again, new, later):
    """What today's set holds, in words; ``later`` says when the next one is due."""
    if not again + new:
        return f"nothing is due now{later}; or choose below"
    return ", ".join([*([f"{again} to see again"] if again else []), *([f"{new} new"] if new else [])])


class Desk:
    """What one person does at the desk.

    Parameters
    ----------
    record : record.Record, optional
        By default the reader's own, `record.own_record`.
    clock : callable
        Gives the time. [s]
    seeds : callable
        Gives a new seed, text.
    blueprint : path-like, optional
        Of the mock exam, a TOML file; by default the workbook's own. Raises `InputError` where it cannot be used.
    """

    def __init__(self, record=None, clock=time.time, seeds=fresh_seed, blueprint=None):
        self.record = own_record() if record is None else record
        self.blueprint = read_blueprint(blueprint)
        self.clock, self.seeds = clock, seeds
        self.lock = threading.RLock()
        self.turn = 0
        self.trouble = ""
        self._begin_again()
        self.view = self._home() if self.record.shelf.ready else fetching_page()

    def _begin_again(self):
        self.questions, self.waiting, self.again, self.place, self.sitting, self.ends = [], [], set(), 0, None, 0.0
        self.skill = None

    def act(self, what, **more):
        """Do ``what`` (text) the page asks, with ``more`` values of its own; returns the new view, a dict.

        Raises
        ------
        InputError
            It is nothing that can be done here.
        """
        with self.lock:
            if not self.record.shelf.ready:
                return self.view
            acts = {name[4:]: getattr(self, name) for name in dir(self) if name.startswith("_do_")}
            shown = acts[choice("do", what, tuple(acts))](**more)
            if shown is not None:
                self.turn += 1  # each view differs, so that the page shows and says it
                self.view = {**shown, "turn": self.turn}
            return self.view

    def look_again(self):
        """After rows of the record came in by themselves: the view, a dict, anew if it tells of the record. The keyboard stays where it is."""
        at = self.view["title"]
        if self.turn == 0 or self.view["screen"] == "home" or at == WEAK:
            self.view = {**self.act("progress" if at == WEAK else "home"), "focus": "", "say": ""}
        return self.view

    # the start

    def _do_home(self):
        """Back to the start; a set that is not over ends here."""
        self._begin_again()
        return self._home()

    def _home(self, say=""):
        answers, now = self.record.answers(), self.clock()
        due, wrong = schedule.today(answers, now, MOST), schedule.what_i_get_wrong(answers, now, MOST)
        new = sum(name not in {answer.template for answer in answers} for name in due)
        known = _known_words(len(due) - new, new, self._later(answers, now))
        tiles = [
            tile("today", "Today's set", known, not due),
            tile(
                "wrong",
                "What I get wrong",
                counted(len(wrong), "kind of question", "kinds of question") if wrong else "nothing yet",
                not wrong,
            ),
            tile("exam", "Mock exam", self._exam_words(now)),
            tile("progress", WEAK, "a page on what you know, and your record"),
        ]
        title = "What do you want to practise?"
        return screen(
            "home",
            title,
            lines=[self.record.shelf.stays] if self.record.shelf.stays else [],
            tiles=tiles,
            choosers=choosers(),
            notes=self._notes(),
            say=say,
        )

    @staticmethod
    def _later(answers, now):
        """When the next question is due, in words."""
        _, later = schedule.next_due(answers, now)
        return "" if later is None else f", the next one {when(later, now)}"

    def _notes(self):
        return tuple(dict.fromkeys((*self.record.notes, *([self.trouble] if self.trouble else []))))

    # a set

    def _do_today(self):
        """Today's set."""
        return self._set(schedule.today(self.record.answers(), self.clock(), MOST))

    def _do_wrong(self):
        """What is answered wrong."""
        return self._set(schedule.what_i_get_wrong(self.record.answers(), self.clock(), MOST))

    def _do_chapter(self, value):
        """A set of one chapter; ``value`` is its number, text."""
        number = choice("chapter", value, tuple(chapters()))
        return self._set(schedule.of_chapter(number, self.record.answers(), self.clock()))

    def _do_objective(self, value):
        """A set of one objective; ``value`` is its id, text."""
        name = choice("objective", value, tuple(objectives()))
        return self._set(schedule.of_objective(name, self.record.answers(), self.clock()), name)

    def _set(self, names, skill=None):
        self._begin_again()
        self.skill = skill
        self.waiting = list(names)[:MOST]
        self.size = len(self.waiting)
        return self._next_question()

    def _next_question(self):
        if not self.waiting:
            return set_page(self.questions, self.record.answers(), self.clock(), self._notes())
        item = make(self.waiting.pop(0), self.seeds())
        self.questions.append(Question(item, self.clock()))
        return self._question_view()

    def _question_view(self, kept=""):
        if self.sitting is not None:
            answered = [bool(one.tries) for one in self.questions]
            exam = {"answered": answered, "place": self.place}
            leave = "Leave, the clock goes on" if any(answered) else "Leave"  # without an answer nothing is kept of it
            away = ((leave, "home"), ("Hand in", "finish"))
            left = max(0.0, self.ends - self.clock())
            question = self.questions[self.place]
            return question_screen(
                question, self.place + 1, len(answered), exam=exam, kept=kept, away=away, left=left, notes=self._notes()
            )
        question, notes = self.questions[-1], self._notes()
        return question_screen(question, len(self.questions), self.size, skill=self.skill, away=(STOP,), notes=notes)

    def _do_answer(self, text, at=""):
        """An answer, ``text`` as typed, to the question whose seed is ``at``: a second click hits no other question."""
        question, now = self._at(), self.clock()
        if at and at != question.item.seed:
            return None
        if self.sitting is not None:
            return self._answer_in_exam(question, text, now)
        if not question.over:
            self._keep(question.answer(text, now))
        return self._question_view()

    def _do_hint(self, text=""):
        """The hint; ``text`` is what was typed so far."""
        question = self._at()
        question.hinted, question.given = True, text
        return self._question_view()

    def _do_show(self):
        """The solution, without an answer or after a wrong one."""
        question = self._at()
        if not question.over:
            self._keep(question.show(self.clock()))
        return self._question_view()

    def _do_next(self):
        """The next question, or how the set went."""
        question = self._at()
        if not question.over:
            return self._question_view()
        name = question.item.template
        if question.counted.score == 0 and name not in self.again:  # it comes once more, with other numbers
            self.again.add(name)
            self.waiting.append(name)
            self.size += 1
        return self._next_question()

    def _at(self):
        if not self.questions:
            raise InputError("do", "do: no question is open; start a set")
        return self.questions[self.place if self.sitting is not None else -1]

    def _keep(self, answer):
        if answer is not None:
            self.trouble = self.record.add(answer)

    # a mock exam

    def _do_exam(self):
        """What a mock exam is, before it starts; one that was begun and still has time goes on."""
        begun = self._begun(self.clock())
        return exam_page(self.blueprint, bool(begun), self._notes())

    def _exam_words(self, now):
        blueprint, begun = self.blueprint, self._begun(now)
        if begun:
            return f"one is open, {(begun[1] - now) / 60:.0f} minutes left"
        return f"{blueprint.items} questions in {blueprint.minutes:g} minutes"

    def _begun(self, now):
        """The newest exam that was begun and not handed in, and its end [s]; None where there is none or its time is over."""
        seconds, ours = 60 * self.blueprint.minutes, (f"{self.blueprint.title}/", f"/{self.blueprint.items}")
        for name, answers in reversed(self.record.open_exams().items()):
            if not (name.startswith(ours[0]) and name.endswith(ours[1])):
                continue
            ends = min(one.at - one.seconds for one in answers) + seconds
            if now < ends <= now + seconds:
                return name, ends
        return None

    def _do_start(self):
        """Start a mock exam, or go on with the one that is open."""
        now, begun = self.clock(), self._begun(self.clock())
        self._begin_again()
        seed = begun[0].split("/")[1] if begun else exams.new_seed(self.record.answers())
        self.sitting = exams.draw(self.blueprint, seed)
        self.ends = begun[1] if begun else now + 60 * self.sitting.minutes
        self.questions = [Question(item, now, self.sitting.id) for item in self.sitting.items]
        for answer in self.record.open_exams().get(self.sitting.id, ()):
            for question in self.questions:
                if question.item.template == answer.template and question.item.seed == answer.seed:
                    question.answer(answer.text, now)
        self._to(next((place for place, one in enumerate(self.questions) if not one.tries), 0))
        return self._question_view()

    def _answer_in_exam(self, question, text, now):
        """Keep an answer, and go to the next question that is open; when all are answered, stay."""
        if over := self._over(now):
            return over
        self._keep(question.answer(text, now))
        kept = f"Answer {self.place + 1} is kept." if question.verdict.is_read else ""
        if kept:
            count = len(self.questions)
            order = [(self.place + step) % count for step in range(1, count)]
            self._to(next((place for place in order if not self.questions[place].tries), self.place))
        return self._question_view(kept)

    def _over(self, now):
        """The result, where the time is over or the exam was handed in from another page; None else."""
        elsewhere = self.sitting.id in self.record.exams() and not all(one.tries for one in self.questions)
        return self._do_hand_in() if elsewhere or now > self.ends + GRACE else None

    def _leave(self, text, at):
        """Keep what was typed or chosen before another question is shown, if it is a whole answer to the one ``at``."""
        question = self._at()
        if text and at == question.item.seed and text != question.given and question.item.judge(text).is_read:
            self._keep(question.answer(text, self.clock()))

    def _do_go(self, place, text="", at=""):
        """To another question of the exam; ``place`` is a whole number, 0 the first; ``text`` was given to the one ``at``."""
        if self.sitting is None or not isinstance(place, int) or not 0 <= place < len(self.questions):
            raise InputError("place", "place: there is no such question")
        if over := self._over(self.clock()):
            return over
        self._leave(text, at)
        self._to(place)
        return self._question_view()

    def _to(self, place):
        self.place = place
        if not self.questions[place].tries:
            self.questions[place].began = self.clock()

    def _do_finish(self, text="", at=""):
        """Before handing in: how many are open; ``text`` was given to the question ``at``."""
        if self.sitting is None:
            return None
        if over := self._over(self.clock()):
            return over
        self._leave(text, at)
        left = max(0.0, self.ends - self.clock())
        return hand_in_page(sum(not question.tries for question in self.questions), left, self._notes())

    def _do_back(self):
        """Back to the questions of the exam."""
        return self._question_view() if self.questions else self._home()

    def _do_hand_in(self):
        """Hand in: what is open counts as wrong."""
        if self.sitting is None:
            return None
        name, given = self.sitting.id, [one for one in self.record.answers() if one.exam == self.sitting.id]
        self.trouble = self.record.add_all(self.sitting.left_open(given, self.clock()))
        answers = [one for one in self.record.answers() if one.exam == name]
        self._begin_again()
        return result_page(answers, self._notes())

    def _do_time(self):
        """The page's clock is at its end."""
        if self.sitting is None or self.clock() < self.ends - 2:
            return None
        return self._do_hand_in()

    # the record

    def _do_progress(self):
        """What is weak."""
        self._begin_again()
        return progress_page(self.record, self.clock(), self._notes())

    def _do_refuse_file(self, words):
        """Say ``words`` about a file that cannot be taken."""
        self._begin_again()
        return progress_page(self.record, self.clock(), self._notes(), words)

    def _do_take(self, content):
        """Take over the answers of a saved record, ``content`` bytes; what became of it stands on the page of what is weak."""
        self._begin_again()
        try:
            told = self.record.take(content)
        except InputError as error:
            told = str(error)
        return progress_page(self.record, self.clock(), self._notes(), told)

    def _do_ask_erase(self):
        """Before the record is erased."""
        count = sum(not one.is_open for one in self.record.answers())
        return erase_page(count, self.record.shelf.where, self._notes())

    def _do_erase(self):
        """Erase the record."""
        self._begin_again()
        self.trouble = self.record.erase()
        return self._home(say="Your record is erased." if not self.trouble else self.trouble)
