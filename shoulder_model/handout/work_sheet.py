"""A work sheet on grip width for a class with tape measures and no computer, and its key.

The steps are those of chapter 3 by hand: half the grip less half the shoulders is w, the way to the front is a, and each times
the pull on one hand is a torque. The key works them for one invented person; every number in it is the model's, and every step
multiplies out as it is printed.
"""

from dataclasses import dataclass
from html import escape

import matplotlib as mpl

from ..draw.facing_views import FrontView
from ..draw.look import BLACK, GREY, PURPLE, STYLE, new_figure
from ..draw.scene import scene_of
from ..draw.side_views import SideView
from ..draw.stage import Stage
from ..lesson import inlined
from ..mechanics import Pull, pulls, tape_law, tape_law_margin
from ..people import Lifter
from ..repetition import rep
from ..sources import fact
from .page import CAUTION, WORKBOOK, style, whole_page

TITLE = "How wide do you hold the bar?"
PERSON = "Kim"  # invented, and so are the measures below [m], [kg]
LIFTER = Lifter.from_measures("women", stature=1.65, mass=60.0, biacromial=0.36)
PULL = pulls["front pulldown"].change(
    trunk_lean=0.0, girdle_travel=0.0, grip_ratio=1.5, load_kg=20.0, touch_forward=0.11
)
BREADTHS = range(34, 47, 2)  # shoulders in the table for checking others [cm]
RATIOS = (1.0, 1.5, 2.0)
GROUND = {"facecolor": "white", "alpha": 0.8, "edgecolor": "none", "pad": 0.8}  # under words on the sketch
SKETCH = (
    "A lifter under a bar. From the front: w runs to the side, from the middle of the shoulder joint to the line of pull "
    "through the hand. It is half the grip less half the shoulders. From the side: a runs to the front, from the shoulder joint to the "
    "line of pull, where the bar comes down before the chest."
)


@dataclass(frozen=True)
class Worked:
    """The steps for one person, as the model has them, in the units of the sheet.

    Parameters
    ----------
    lifter : people.Lifter
    pull : mechanics.Pull
        Upright, under an overhead cable.
    """

    lifter: Lifter = LIFTER
    pull: Pull = PULL

    @property
    def shoulders(self):
        """Biacromial breadth. [cm]"""
        return 100 * self.lifter.biacromial

    @property
    def grip(self):
        """Distance between the middles of the hands. [cm]"""
        return self.pull.grip_ratio * self.shoulders

    @property
    def w(self):
        """Half the grip less half the shoulders. [cm]"""
        return 100 * self.pull.hand_offset(self.lifter)

    @property
    def a(self):
        """How far in front of the shoulder joint the line of pull comes down. [cm]"""
        return 100 * self.pull.line_offset(self.lifter)

    @property
    def force(self):
        """Pull on one hand. [N]"""
        return float(self.pull.force(self.lifter))

    @property
    def torques(self):
        """Adduction and extension that the load asks of each shoulder, a pair. [N m]"""
        adduction, extension, _ = tape_law(self.force, self.w / 100, self.a / 100, self.pull.pull_angle)
        return float(adduction), float(extension)

    @property
    def tape(self):
        """What one tape reading's error changes, and what it changes with the joint's place in doubt too, a pair. [N m]"""
        return self.force * fact("tape_reading"), float(tape_law_margin(self.force, self.pull.pull_angle)[0])

    def lines(self):
        """The steps as the key prints them: pairs of a name and its line, both text."""
        shoulders, grip, force, (adduction, extension) = self.shoulders, self.grip, self.force, self.torques
        mass, tape = self.pull.mass_on_bar(self.lifter), self.tape[0]
        halves = f"{grip / 2:.1f} − {shoulders / 2:.1f}"
        return [
            ("Grip over shoulders", f"{grip:.0f} cm / {shoulders:.0f} cm = {self.pull.grip_ratio:.2f} ×"),
            ("w", f"{grip:.0f} / 2 − {shoulders:.0f} / 2 = {halves} = {self.w:.1f} cm"),
            ("a", f"{self.a:.1f} cm, off the tape"),
            ("F", f"{mass:.0f} kg × {fact('gravity'):.2f} N/kg / 2 = {force:.1f} N"),
            ("Adduction", f"{force:.1f} N × {self.w / 100:.3f} m = {adduction:.1f} N m"),
            ("Extension", f"{force:.1f} N × {self.a / 100:.3f} m = {extension:.1f} N m"),
            (
                "1 cm on the tape",
                f"{force:.1f} N × 0.01 m = {tape:.1f} N m: “about {adduction:.0f}, give or take {tape:.0f}”",
            ),
        ]

    def slips(self):
        """The usual slips: words, and the adduction (number, N m) that each would give here; a list of pairs."""
        adduction = self.torques[0]
        return [
            ("whole grip less whole shoulders", adduction * (self.grip - self.shoulders) / self.w),
            ("both hands' load on one hand", adduction * self.pull.hands),
            ("kilograms in place of newtons", self.pull.mass_on_bar(self.lifter) / self.pull.hands * self.w / 100),
            ("centimetres in place of metres", self.force * self.w),
        ]


def offsets():
    """w for each breadth of shoulders and each grip, for checking others: a list of pairs: breadth, and w at each grip. [cm]"""
    return [(breadth, [(ratio - 1.0) * breadth / 2 for ratio in RATIOS]) for breadth in BREADTHS]


def work_sheet():
    """The sheet and its key, two A4 pages, as HTML text."""
    body = f"<main>\n{_sheet()}\n{_key(Worked())}\n</main>"
    return whole_page(f"{TITLE} A work sheet · {WORKBOOK}", body, style("page", "work_sheet"))


def _blank(unit):
    return f'<span class="blank"></span> {unit}'


def _measured():
    """The steps with a tape: title, what to do, where to write it."""
    below = 100 * fact("gh_below_acromion")
    yield (
        "Shoulders.",
        "Your partner stands easy, arms down. Feel for the bony outer edge on top of each shoulder. Pull the tape straight "
        "from one edge to the other, without following the curve of the back.",
        f"shoulders = {_blank('cm')}",
    )
    yield (
        "Grip.",
        "Your partner takes the stick as for a pulldown, as wide as they like. Measure between the middles of the hands.",
        f"grip = {_blank('cm')}<br>grip over shoulders = {_blank('×')}",
    )
    yield "w, to the side.", "Half the grip less half the shoulders.", f"w = {_blank('cm')}"
    yield (
        "a, to the front.",
        f"Seen from the side, the shoulder joint is in the middle of the shoulder, about {below:.0f} cm below its bony top. "
        "Stand the stick upright so that it touches the chest where the bar would come down (or hang a plumb line there). Measure level "
        "from the joint to the middle of the stick.",
        f"a = {_blank('cm')}",
    )


def _worked_out():
    """The steps with a pencil: title, what to do, where to write it."""
    gravity = f"{fact('gravity'):.2f}"
    yield (
        "Pull on one hand.",
        f"Choose a load for the whole bar, on paper only. Two hands share it, and each kilogram pulls with {gravity} N.",
        f"{_blank('kg')} × {gravity} / 2<br>F = {_blank('N')}",
    )
    yield (
        "Two torques.",
        "Centimetres to metres first. <b>Adduction</b> draws the arm down to the side, <b>extension</b> down and back.",
        f"F × w = {_blank('N m')} adduction<br>F × a = {_blank('N m')} extension",
    )
    yield (
        "How sure?",
        "A tape is soon read 1 cm wrong. What does 1 cm more change? Say your results with it: “about …, give or take …”.",
        f"F × 0.01 m = {_blank('N m')}",
    )


def _sheet():
    steps = "".join(
        f'<li><div class="do"><b>{title}</b> {text}</div><div class="result">{result}</div></li>'
        for title, text, result in (*_measured(), *_worked_out())
    )
    return (
        f'<section class="sheet" aria-labelledby="sheet"><p class="from">{WORKBOOK} · work sheet to chapter 3, Grip width'
        '<span class="names">Names <span class="blank wide"></span></span></p>'
        f'<h1 id="sheet">{TITLE}</h1>'
        "<p>In pairs. You need a tape measure, a broom stick and a pencil.</p>"
        '<p class="care"><b>Take care.</b> Nobody has to be measured, and nobody lifts a load in this exercise: the load is a '
        "number on paper. Ask before you touch. If holding the arms up hurts or feels numb, stop; use somebody else's "
        "numbers.</p>"
        f'<div class="sketch">{_sketch()}</div><ol class="steps">{steps}</ol>'
        '<p class="discuss"><b>Discuss.</b> Your partner goes from 1 × the shoulders to 2 ×, with the same load. What changes '
        'at the shoulder, and what stays? Say why.</p><div class="lines"></div><div class="lines"></div>'
        f'<p class="small">{escape(CAUTION)} Licence: MIT.</p></section>'
    )


def _key(worked):
    rows = "".join(f"<tr><th scope='row'>{name}</th><td>{text}</td></tr>" for name, text in worked.lines())
    mass, margin = worked.pull.mass_on_bar(worked.lifter), 1000 * fact("gh_side_margin")
    return (
        f'<section class="key" aria-labelledby="key"><p class="from">{WORKBOOK} · key to the work sheet</p>'
        f'<h2 id="key">Key</h2><p>{PERSON} (invented) has shoulders of {worked.shoulders:.0f} cm and holds the bar '
        f"{worked.grip:.0f} cm apart. The load is {mass:.0f} kg. The trunk is upright, under an overhead cable.</p>"
        f"<table class='worked'><tbody>{rows}</tbody></table>"
        f"<p>The workbook says ± {worked.tape[1]:.1f} N m for adduction, because the joint may also lie up to {margin:.0f} mm "
        f"from where we think.</p>{_discussed(worked)}{_check_table(worked)}{_slips(worked)}"
        f'<p class="small">{escape(CAUTION)} Licence: MIT.</p></section>'
    )


def _discussed(worked):
    narrow, wide = (Worked(worked.lifter, worked.pull.change(grip_ratio=ratio)) for ratio in (1.0, 2.0))
    return (
        f"<p><b>From 1 × to 2 ×.</b> w goes from {narrow.w:.0f} to {wide.w:.0f} cm, so for {PERSON} adduction goes from "
        f"{narrow.torques[0]:.0f} to {wide.torques[0]:.1f} N m. The bar comes down at the same place, so a stays, and "
        f"extension stays {wide.torques[1]:.1f} N m. A wider grip takes nothing away, it adds adduction. It is harder to hold, and "
        "nobody has shown that it builds a wider back.</p>"
    )


def _check_table(worked):
    heads = "".join(f"<th scope='col'>w at {ratio:.1f} ×</th>" for ratio in RATIOS)
    rows = "".join(
        f"<tr><th scope='row'>{breadth} cm</th>{''.join(f'<td>{w:.1f} cm</td>' for w in cells)}</tr>"
        for breadth, cells in offsets()
    )
    per_cm = 10 * worked.pull.newtons_per_kg / 100
    return (
        f"<h3>To check others</h3><table class='check'><thead><tr><th scope='col'>shoulders</th>{heads}</tr></thead>"
        f"<tbody>{rows}</tbody></table><p>For every 10 kg on the bar, each centimetre of w or a makes <b>{per_cm:.2f} N m</b>. "
        f"The survey's mean woman has a = {_mean_a('women'):.1f} cm by the model, its mean man {_mean_a('men'):.1f} cm. If a pair is "
        "far from that, let them measure again.</p>"
    )


def _mean_a(sex):
    """The line offset of the survey's mean lifter where the bar comes down to the usual place. [cm]"""
    return 100 * float(PULL.change(touch_forward=None).line_offset(Lifter.average(sex)))


def _slips(worked):
    rows = "".join(f"<tr><td>{escape(words)}</td><td>{value:.1f} N m</td></tr>" for words, value in worked.slips())
    return (
        f"<h3>The usual slips</h3><table class='slips'><thead><tr><th scope='col'>taken</th><th scope='col'>adduction for {PERSON}, "
        f"in place of {worked.torques[0]:.1f} N m</th></tr></thead><tbody>{rows}</tbody></table>"
    )


def _span(axes, ends, y, words, side):
    """A length between two uprights with its words beyond its outer end (``side`` -1) or its inner one (1)."""
    own = side < 0
    axes.plot(
        ends, [y, y], color=PURPLE if own else BLACK, lw=3.5 if own else 1.6, marker="|", ms=11, mew=1.6, zorder=8
    )
    axes.text(
        (min(ends) if own else max(ends)) + 0.03 * side, y, words, ha="right" if own else "left", va="center",
        fontweight="bold" if own else "normal", zorder=9, bbox=GROUND,
    )  # fmt: skip


def _front(view):
    """w, half the grip and half the shoulders, without numbers."""
    half, grip = LIFTER.gh_breadth / 2, PULL.grip_ratio * LIFTER.biacromial / 2
    for x in (0.0, -half, -grip):
        view.axes.plot([x, x], [0.0 if x else -0.52, -0.68], color=GREY, lw=1, ls=":", zorder=2)
    _span(view.axes, (-grip, -half), -0.30, "w", -1)
    _span(view.axes, (-half, 0.0), -0.58, "½ shoulders", 1)
    _span(view.axes, (-grip, 0.0), -0.68, "½ grip", 1)


def _side(view):
    """a, without a number."""
    a = float(PULL.line_offset(LIFTER))
    view.tape.show((0.0, 0.0), (a, 0.0), (0.0, -0.29), view.window)
    view.tape.words.hide()
    view.axes.text(a + 0.04, -0.29, "a", ha="left", va="center", fontweight="bold", zorder=9, bbox=GROUND)
    view.force.hide()
    view.setting.steel.set_data([], [])


def _sketch():
    """w and a on a lifter, from the front and from the side, as SVG in text."""
    done = rep(LIFTER, PULL, arm_weight=False)
    with mpl.rc_context(STYLE):
        figure = new_figure(7.6, 3.5)
        for kind, place, limits, fill in (
            (FrontView, [0.01, 0.01, 0.48, 0.92], (-0.72, 0.72, -0.74, 0.56), _front),
            (SideView, [0.51, 0.01, 0.48, 0.92], (-0.60, 0.84, -0.74, 0.56), _side),
        ):
            view = kind(figure.add_axes(place), limits=limits)
            view.show(scene_of(LIFTER, PULL, done, len(done.point) // 2))
            view.tape.hide()
            fill(view)
        return inlined(Stage(figure).save("svg").decode(), SKETCH)
