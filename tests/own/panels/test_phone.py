"""Every panel's sheet for a phone: no words touch or leave the picture, and none is small; at the ends of the sliders too."""

import io
from functools import partial
from itertools import combinations

import pytest
from matplotlib.backends.backend_svg import RendererSVG
from matplotlib.text import Text

import shoulder_model.panels as panels
from shoulder_model.draw.look import PHONE, SMALL, by_sheet, new_figure, phone
from shoulder_model.evidence import SIDES, muscles
from shoulder_model.week import all_no

KINDS = [
    panels.OneArmPanel, panels.GripPanel, panels.TrunkPanel, panels.LatPanel, panels.GirdlePanel, panels.WorkPanel,
    panels.EvidencePanel, panels.RatioPanel, panels.MyLifterPanel, partial(panels.SessionPanel, health=all_no()),
]  # fmt: skip
ROOM = (
    322  # pixels that JupyterLab leaves for a panel on a page of 360, measured in tests/browser/test_accessibility.py
)
LEAST = 10.5  # pixels of the smallest letter: common practice, no source
TOUCH = 1.5  # points that two boxes may share: letters do not fill theirs


def written(figure):
    """Every word or number that is drawn, with its box as a page draws it. [points]"""
    figure.draw_without_rendering()
    beyond = set()  # labels of ticks outside the axes, which matplotlib keeps and does not draw
    for axis in (one for axes in figure.axes for one in (axes.xaxis, axes.yaxis)):
        low, high = sorted(axis.get_view_interval())
        pairs = zip(axis.get_majorticklocs(), axis.get_majorticklabels(), strict=True)
        beyond |= {label for at, label in pairs if not low <= at <= high}
    renderer = RendererSVG(*(72 * figure.get_size_inches()), io.StringIO(), image_dpi=72)
    texts = [one for one in figure.findobj(Text) if one.get_visible() and one.get_text().strip() and one not in beyond]
    return [(one, Text.get_window_extent(one, renderer)) for one in texts]


def faults(figure):
    """Words that leave the ``figure``, touch others or are small."""
    (wide, high), found = 72 * figure.get_size_inches(), []
    every = written(figure)
    for text, box in every:
        if min(box.x0, box.y0, wide - box.x1, high - box.y1) < -0.5:
            found.append(f"{text.get_text()} is cut")
        if text.get_fontsize() < SMALL - 0.01:
            found.append(f"{text.get_text()} is small")
    for (text, one), (other_text, other) in combinations(every, 2):
        if min(one.x1, other.x1) - max(one.x0, other.x0) > 1 and min(one.y1, other.y1) - max(one.y0, other.y0) > TOUCH:
            found.append(f"{text.get_text()} touches {other_text.get_text()}")
    return found


def set_ups(panel):
    """Take a ``panel`` to several set-ups, by name: kept, and every slider at both ends."""
    yield "start"
    panel.keep()
    for name, slider in panel.picture.sliders.items():
        was = slider.value
        for value in (slider.min, slider.max):
            slider.value = value
            yield f"{name} {value:g}"
        slider.value = was


def on_a_phone(make):
    panel = make()
    panel.fit(True)
    return panel


def test_the_smallest_letters_can_be_read():
    assert SMALL * ROOM / (72 * PHONE) >= LEAST


def test_the_look_is_a_phones_while_it_is_made_only():
    with phone():
        assert by_sheet(1, 2, 3) == 3 and new_figure(PHONE, 7.0).get_size_inches().tolist() == [PHONE, 7.0]
    assert by_sheet(1, 2, 3) == 1


def test_what_is_cut_small_or_touches_is_found():
    figure = new_figure(PHONE, 2.0)
    for x, words in ((0.5, "here"), (0.52, "there"), (0.99, "outside")):
        figure.text(x, 0.5, words, fontsize=8 if words == "there" else SMALL)
    assert faults(figure) == ["there is small", "outside is cut", "here touches there"]


@pytest.mark.parametrize("make", KINDS, ids=lambda make: getattr(make, "__name__", "SessionPanel"))
def test_no_words_touch_or_are_cut(make):
    panel = on_a_phone(make)
    found = {name: faults(panel.stage.figure) for name in set_ups(panel)}
    assert len(found) > (2 if make is panels.MyLifterPanel else 4) and panel.stage.width == 72 * PHONE
    assert {name: some for name, some in found.items() if some} == {}


@pytest.mark.parametrize("make", [panels.TrunkPanel, panels.GirdlePanel], ids=["trunk", "girdle"])
def test_every_pull(make):
    panel, found = on_a_phone(make), {}
    for name in panel.pull_choice.options:
        panel.pull_choice.value = name
        found[name] = faults(panel.stage.figure)
    assert {name: some for name, some in found.items() if some} == {}


def test_every_muscle_by_name():
    panel = on_a_phone(panels.WorkPanel)
    panel.every_muscle.value = True
    assert faults(panel.stage.figure) == []
    assert sum(name.get_visible() and bool(name.get_text()) for name in panel.bars.names) == 27


def test_every_question_and_every_week():
    panel, found = on_a_phone(panels.EvidencePanel), {}
    for question in SIDES:
        for muscle in muscles(question, panel.trials):
            panel.question.value, panel.muscle.value = question, muscle
            found[question, muscle] = faults(panel.stage.figure)
            assert len(panel.forest.shown) == len(panel.state.shown) + bool(panel.state.summary)
    session = on_a_phone(KINDS[-1])
    for level in session.experience.options:
        for days in range(1, 7):
            session.experience.value, session.sliders["days"].value = level, days
            found[level, days] = faults(session.stage.figure)
    assert len(found) > 60 and {name: some for name, some in found.items() if some} == {}


def test_the_small_print_stays_whole():
    panel = on_a_phone(panels.GripPanel)
    assert panel.picture.said["small"] == panel.small(panel.state) != panel.brief(panel.state)
