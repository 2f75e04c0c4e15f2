"""The chance of a right answer from day to day: it falls, and after each right answer it falls more slowly."""

import matplotlib as mpl
import numpy as np

from shoulder_model.draw.look import BLACK, BLUE, GREY, STYLE, VERMILLION, new_figure, page_or_projector
from shoulder_model.draw.stage import Stage
from shoulder_model.practice.record import Answer
from shoulder_model.practice.schedule import DAY, cards

NAME, LAST = "grip in centimetres", 75.0  # a template; days shown
ENOUGH = 90  # per cent: when it is asked again


def practised(answered_at_due):
    """Days, and the chance on each of them [%], with an answer each time it is due, or only on the first evening."""
    answers, days, chances, asked = [Answer(0.0, NAME, "1", "60 cm", 1.0)], [], [], []
    answers.append(Answer(cards(answers)[NAME].due, NAME, "2", "60 cm", 1.0))
    while True:
        card = cards(answers)[NAME]
        begin, end = card.last / DAY, min(LAST, card.due / DAY if answered_at_due else LAST)
        for after in range(round(end - begin) + 1):  # the method counts whole days
            days.append(begin + after)
            chances.append(100 * card.recall(card.last + after * DAY))
        if end >= LAST:
            return np.array(days), np.array(chances), asked
        asked.append(end)
        answers.append(Answer(card.due, NAME, "3", "60 cm", 1.0))


DAYS, CHANCES, ASKED = practised(True)
ONCE_DAYS, ONCE, _ = practised(False)
WORDS = (
    f"The chance of a right answer, as the method estimates it, over {LAST:.0f} days. It falls from 100 %; at {ENOUGH} % the question "
    f"comes back, after {', '.join(f'{gap:.0f}' for gap in np.diff([0, *ASKED]))} days. After each right answer it falls more slowly. "
    f"Without them it would be at {ONCE[-1]:.0f} % on day {LAST:.0f}."
)


def stage():
    """The two curves, and a ring where the question comes back."""
    with mpl.rc_context(STYLE):
        figure = new_figure(11.2, page_or_projector(3.9, 5.0))
        axes = figure.add_axes(page_or_projector([0.09, 0.17, 0.88, 0.78], [0.12, 0.2, 0.85, 0.75]))
        axes.axhline(ENOUGH, color=GREY, lw=1, ls=":")
        axes.plot(ONCE_DAYS, ONCE, color=VERMILLION, ls="--", lw=2.5)
        axes.plot(DAYS, CHANCES, color=BLUE, lw=2.5)
        axes.plot(ASKED, [ENOUGH] * len(ASKED), "o", mfc="white", mec=BLACK, ms=9, mew=1.8, zorder=5)
        axes.text(LAST - 1, 96.5, "asked when it is due", color=BLUE, ha="right", va="center", fontweight="bold")
        axes.text(
            LAST - 1, ONCE[-1] + 4.5, "asked on the first evening only", color=VERMILLION, ha="right", fontweight="bold"
        )
        axes.set(xlim=(0, LAST), ylim=(55, 102), xlabel="days", ylabel="chance of a right answer [%]")
        return Stage(figure)
