"""Bands around a panel's answer: people who share the measures that were typed, and what nobody has measured.

A move never waits for them. Once the controls have been still the page says so, again and again (`picture`), and each time
the kernel works for `SLICE` seconds; between two of these a move is answered as ever. What was worked out is kept for a
while, so a set-up that comes back has its bands at once.
"""

from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cache
from math import inf
from threading import Lock
from time import monotonic
from typing import NamedTuple

import ipywidgets as w
import numpy as np

from ..inputs import InputError
from ..muscles import Strength
from ..people import Lifter, draw_lifters
from ..spread import Band, as_tabled, band_of, drawn_inputs

PEOPLE, DRAWS, SEED = 200, 40, 1
BLOCK = 20  # people at a time
SLICE = 0.025  # s of work for one message from the page
KEPT = 16  # questions with their answers
LEAST = 0.5  # share of the people or draws that must have an answer; fewer of them make no band


class Who(NamedTuple):
    """A lifter, or a crowd with arrays (n,), and how strong where a load is the answer: measures [m], [kg], ratios."""

    lifter: Lifter
    strength: Strength | None = None


def some_of(crowd, rows):
    """Those of a ``crowd`` (`people.Lifter` or `muscles.Strength` with arrays) with the numbers of a slice ``rows``; units as there."""
    return replace(crowd, **{name: value[rows] for name, value in vars(crowd).items() if np.ndim(value)})


@dataclass(frozen=True)
class Question:
    """What bands are asked for.

    ``key`` (hashable) is the same for the same question, also where another choice of the panel differs. ``answer(who, drawn)`` gives an array (...) for one person, (n, ...) for a
    crowd, in one unit. ``crowd(rows)`` gives people of a slice, or is None where they are not asked. ``people`` and ``draws`` say
    how many of them are asked, and of draws of what is not known, which have a ``seed``.
    """

    key: tuple
    answer: Callable
    person: Who
    crowd: Callable | None
    people: int = PEOPLE
    draws: int = DRAWS
    seed: int = SEED


class Answers:
    """The answers to a `Question`, worked out bit by bit: ``people`` (n, ...) and ``unknown`` (draw, ...), each None where not asked."""

    def __init__(self, question):
        self.question, self.is_done, self.people, self.unknown = question, False, None, None
        self._lock, self._work = Lock(), self._steps()

    def go_on(self, seconds=inf):
        """Work for about so many ``seconds``, at least a bit; whether all is there."""
        until = monotonic() + seconds
        with self._lock:
            while not self.is_done:
                self.is_done = next(self._work, True)
                if monotonic() >= until:
                    break
        return self.is_done

    def _steps(self):
        """A generator of False, one after each bit of work."""
        asked = self.question
        self.value = asked.answer(asked.person, as_tabled())
        if asked.crowd:
            parts = []
            for first in range(0, asked.people, BLOCK):
                yield from self._block(slice(first, min(first + BLOCK, asked.people)), parts)
            self.people = np.concatenate(parts)
        if asked.draws:
            parts = []
            for drawn in drawn_inputs(asked.draws, asked.seed):
                parts.append(self._tried(lambda drawn=drawn: asked.answer(asked.person, drawn)))
                yield False
            self.unknown = np.stack(parts)
        self.bands = tuple(_band(answers) for answers in (self.people, self.unknown))

    def change(self, its, here, there, *, same_people):
        """Bands of the change from ``its`` (`Answers`) at a place ``there`` to these ``here`` (index of an answer), person by person and
        draw by draw; people only where they are the ``same_people``."""
        pairs = [(self.people, its.people if same_people else None), (self.unknown, its.unknown)]
        both = [None if one is None or other is None else one[:, *here] - other[:, *there] for one, other in pairs]
        return [_ends_of(_band(change)) for change in both]

    def at(self, *place):
        """Ends of both bands at the ``place`` (index) of an answer, each None where not asked."""
        return [band and tuple(float(end[place]) for end in band) for band in self.bands]

    def _block(self, rows, parts):
        """Answers of some people into ``parts``; where one of them cannot do the pull, they are asked one by one."""
        asked = self.question
        try:
            who = asked.crowd(rows)
            parts.append(asked.answer(who, as_tabled()))
            yield False
        except InputError:
            for one in range(rows.start, rows.stop):
                alone = slice(one, one + 1)
                parts.append(self._tried(lambda alone=alone: asked.answer(asked.crowd(alone), as_tabled())[0])[None])
                yield False

    def _tried(self, answer):
        """An answer, NaN where the model refuses: somebody who does not reach."""
        try:
            return answer()
        except InputError:
            return np.full_like(self.value, np.nan)


def _ends_of(band):
    return band and tuple(map(float, band))


def _band(answers):
    """The `spread.Band` of ``answers`` (n, ...), NaN where too few have one; None without any."""
    if answers is None:
        return None
    few = np.isfinite(answers).mean(axis=0) < LEAST
    return Band(*(np.where(few, np.nan, end) for end in band_of(answers)))


@cache
def _crowd(sex, measured):
    return draw_lifters(PEOPLE, sex, SEED, **dict(measured))


def people_like(measures):
    """``crowd(rows)`` of a `Question`: those who share ``measures`` (dict: sex and tape readings). [m], mass [kg]"""
    measured = dict(measures)
    people = _crowd(measured.pop("sex"), tuple(sorted(measured.items())))
    return lambda rows: Who(some_of(people, rows))


def tip_words(people, draws):
    """What the switch says: text with how many ``people`` and ``draws`` there are, whole numbers."""
    of = [f"of {people} people who share the measures that are typed"] if people else []
    of += [f"of {draws} draws of what nobody has measured"] if draws else []
    return f"bands that hold 9 of 10 answers: {', and '.join(of)}"


class Bands:
    """The switch of a panel's bands, and what was worked out for it.

    Parameters
    ----------
    ask : callable
        ``ask(state)`` gives the panel's `Question`.
    on : bool
        Whether they are shown at first.
    tip : str
        What the switch says of them.
    """

    def __init__(self, ask, on, tip):
        self.ask, self.start, self.found, self.shown = ask, on, OrderedDict(), None
        layout = w.Layout(width="6em", flex="0 0 auto")
        self.switch = w.Checkbox(on, description="Bands", indent=False, tooltip=tip, layout=layout)

    @property
    def is_on(self):
        """Whether they are to be shown."""
        return self.switch.value

    @property
    def stand(self):
        """ "off", "awaited" or "there", for the page."""
        return "off" if not self.is_on else "awaited" if self.shown is None else "there"

    def answers(self, state):
        """The `Answers` for a panel's ``state``, done or not."""
        question = self.ask(state)
        found = self.found.pop(question.key, None) or Answers(question)
        self.found[question.key] = found
        if len(self.found) > KEPT:
            self.found.popitem(last=False)
        return found

    def ready(self, states):
        """`Answers` for all of some panel's ``states`` that were worked out before; None where one was not."""
        found = [self.found.get(self.ask(state).key) for state in states]
        return found if all(one is not None and one.is_done for one in found) else None

    def worked_out(self, states, seconds=inf):
        """`Answers` for all of some panel's ``states``, or None where that takes more than ``seconds``."""
        until, asked = monotonic() + seconds, [self.answers(state) for state in states]
        return asked if all(one.go_on(until - monotonic()) for one in asked) else None
