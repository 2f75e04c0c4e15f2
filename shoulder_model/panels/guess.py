"""A guess before the answer: the reader commits, then the verdict shows and the answer below unfolds."""

import random
from math import isfinite
from pathlib import Path

import anywidget
import ipywidgets as w
import traitlets

from ..printed import markup
from .group_name import GroupName
from .of_cell import OfCell
from .panel import TEXT, button

NOT_CHOSEN, NOT_TYPED, NO_NUMBER = "Pick one first.", "Type a number first.", "Type a number first: “{}” is none."
LONGEST_SAID = 20  # letters of what was typed that are said back


class Verdict(anywidget.AnyWidget):
    """What is said to a guess, ``value`` (str); it can open the folded answers in the cells below, up to the next guess or heading."""

    _esm = Path(__file__).with_name("verdict.js").read_text("utf-8")
    value = traitlets.Unicode().tag(sync=True)

    def unfold(self):
        """Open them now."""
        self.send({"kind": "open"})


class Guess(OfCell, w.VBox):
    """A question that takes a guess, and only then says the answer and why.

    The answer in full stands in the cells below, folded (`folded`, or ``<details>`` in a text cell); a guess, or "Show me",
    opens it. Choices stand in an order of their own, so that their place tells nothing.

    Parameters
    ----------
    question : str
    answer : str or float
        One of ``choices``, or a number computed by the model.
    because : str
        Said after the guess, whatever it was.
    choices : sequence of str, optional
        Without them the guess is a number.
    unit : str
        Of a number.
    close : float
        A number within this share of the answer counts as right.
    within : float, optional
        In place of ``close``, in ``unit``; an answer of 0 needs it.
    then : widget, optional
        Shown below the verdict, once there is one: a panel whose picture tells the answer.
    """

    def __init__(self, question, answer, because, choices=None, unit="", close=0.2, within=None, then=None):
        super().__init__()
        self.question, self.answer, self.because, self.unit = question, answer, because, unit
        if choices is not None and answer not in choices:
            raise ValueError(f"answer {answer!r} is not among the choices {list(choices)}")
        if choices is None and not answer and within is None:
            raise ValueError("an answer of 0 needs within: no share of nothing is close")
        self.within = close * abs(answer) if choices is None and within is None else within
        self.choices = None if choices is None else shuffled(question, choices)
        asked = w.HTML(f'<div style="{TEXT}"><b>Your guess first.</b> {markup(question)}</div>')
        if choices is None:
            self.guess = w.Text(
                placeholder="type a number", description=unit, layout=w.Layout(width="14em"),
                style={"description_width": "initial"},
            )  # fmt: skip
        else:
            self.guess = w.RadioButtons(options=self.choices, index=None, layout=w.Layout(width="auto"))
        self.verdict = Verdict()
        self.button = button("That is my guess", self.judge, "compare the guess with the answer")
        self.show_button = button("Show me", self.show, "the answer without a guess")
        self.then = w.VBox([then] if then else [], layout=w.Layout(display="none", width="100%"))
        name = GroupName(question, for_input=f"Your guess in {unit}" if unit else "Your guess")
        asking = w.VBox([name, asked, self.guess, w.HBox([self.button, self.show_button])])
        asking.add_class("guess")
        self.children = [asking, self.verdict, self.then]

    @property
    def number(self):
        """The number that was typed, or None."""
        try:
            number = float(self.guess.value.strip().replace("−", "-").replace(",", "."))
        except ValueError:
            return None
        return number if isfinite(number) else None

    def judge(self):
        """Compare the guess with the answer and say both; nothing chosen gets a reminder."""
        if isinstance(self.guess, w.RadioButtons):
            if self.guess.value is None:
                self.verdict.value = NOT_CHOSEN
                return
            right = self.guess.value == self.answer
        else:
            if self.number is None:
                typed = self.guess.value.strip()
                self.verdict.value = NO_NUMBER.format(typed[:LONGEST_SAID]) if typed else NOT_TYPED
                return
            right = abs(self.number - self.answer) <= self.within
        self._reveal(self.said(right))

    def show(self):
        """Say the answer without a guess."""
        self._reveal(self.said())

    def said(self, right=None):
        """The verdict on a guess that is ``right`` (bool) or not, or the answer alone for None."""
        mark = "" if right is None else "✓ Yes: " if right else "✗ Not quite: "
        return f"{mark}{self.shown}. {self.because}"

    def _reveal(self, text):
        """Verdict, what comes after it, and the answers below."""
        self.verdict.value = text
        self.then.layout.display = "flex"
        self.verdict.unfold()

    @property
    def shown(self):
        """The answer as it is said: a choice with a capital letter, a number with its unit."""
        if isinstance(self.guess, w.RadioButtons):
            return f"{self.answer[0].upper()}{self.answer[1:]}"
        return f"{self.answer + 0.0:.3g} {self.unit}".strip().replace("-", "−")


def shuffled(question, choices):
    """``choices`` in an order that hangs on the ``question`` only: the same for every reader, another for every question.

    >>> sorted(shuffled("Which?", ["a", "b", "c"]))
    ['a', 'b', 'c']
    """
    order = list(choices)
    random.Random(question).shuffle(order)
    return order
