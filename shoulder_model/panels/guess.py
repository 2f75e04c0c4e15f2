"""A guess before the answer: the reader commits, then the answer shows."""

from html import escape

import ipywidgets as w

from .panel import TEXT, WIDE


class Guess(w.VBox):
    """A question that takes a guess and only then says the answer and why.

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
    """

    def __init__(self, question, answer, because, choices=None, unit="", close=0.2):
        super().__init__()
        self.answer, self.because, self.unit, self.close_by = answer, because, unit, close
        if choices is not None and answer not in choices:
            raise ValueError(f"answer {answer!r} is not among the choices {list(choices)}")
        asked = w.HTML(f'<div style="{TEXT}"><b>Your guess first.</b> {escape(question)}</div>')
        if choices is None:
            self.guess = w.FloatText(description=unit, style=WIDE, layout=w.Layout(width="14em"))
        else:
            self.guess = w.RadioButtons(options=list(choices), index=None, layout=w.Layout(width="auto"))
        self.button = w.Button(description="That is my guess", layout=w.Layout(width="auto", align_self="flex-start"))
        self.verdict = w.HTML()
        self.button.on_click(lambda _: self.judge())
        self.children = [asked, self.guess, self.button, self.verdict]

    def judge(self):
        """Compare the guess with the answer and say both; nothing chosen gets a reminder."""
        if self.guess.value is None:
            self._say("Pick one first; a wrong guess teaches more than none.")
            return
        if isinstance(self.guess, w.RadioButtons):
            right = self.guess.value == self.answer
            shown = str(self.answer)
        else:
            right = abs(self.guess.value - self.answer) <= self.close_by * abs(self.answer)
            shown = f"{self.answer:.3g} {self.unit}".strip()
        self._say(f"{'✓ Yes' if right else '✗ Not quite'}: {shown}. {self.because}")

    def _say(self, text):
        self.verdict.value = f'<div role="status" style="{TEXT}">{escape(text)}</div>'
