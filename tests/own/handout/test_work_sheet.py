"""The work sheet: its key is the model's, the panel's, and right as it is printed."""

import re

import numpy as np
import pytest

from shoulder_model.handout.work_sheet import BREADTHS, LIFTER, PULL, RATIOS, Worked, offsets, work_sheet
from shoulder_model.panels import GripPanel, setup_text

from .pages import Parsed, asked_from_outside, body, plain

NUMBER = r"-?\d+(?:\.\d+)?"


@pytest.fixture(scope="module")
def page():
    return work_sheet()


@pytest.fixture(scope="module")
def key(page):
    return plain(page[page.index('class="key"') :])


def test_the_steps_multiply_out_as_printed(key):
    force, w, adduction = map(float, re.search(rf"Adduction({NUMBER}) N × ({NUMBER}) m = ({NUMBER}) N m", key).groups())
    other, a, extension = map(float, re.search(rf"Extension({NUMBER}) N × ({NUMBER}) m = ({NUMBER}) N m", key).groups())
    kg, gravity, pull = map(float, re.search(rf"F({NUMBER}) kg × ({NUMBER}) N/kg / 2 = ({NUMBER}) N", key).groups())
    assert force == other == pull == round(kg * gravity / 2, 1)
    assert adduction == round(force * w, 1) and extension == round(force * a, 1)
    grip, shoulders, half, other_half, printed = map(
        float, re.search(rf"w({NUMBER}) / 2 − ({NUMBER}) / 2 = ({NUMBER}) − ({NUMBER}) = ({NUMBER}) cm", key).groups()
    )
    assert (half, other_half, printed) == (grip / 2, shoulders / 2, 100 * w) and printed == half - other_half
    assert float(re.search(rf"N × 0.01 m = ({NUMBER}) N m", key)[1]) == round(force * 0.01, 1)


def test_the_key_says_what_the_grip_panel_says(key):
    measures = {"sex": LIFTER.sex, "stature": LIFTER.stature, "mass": LIFTER.mass, "biacromial": LIFTER.biacromial}
    panel = GripPanel("front pulldown", **measures)
    panel.open_text(setup_text(measures, PULL, {"along": 0.5, "arm_weight": False}))
    worked, state = Worked(), panel.state
    assert not panel.picture.said["trouble"] and state.pull == PULL
    np.testing.assert_allclose(state.torque[:2], worked.torques, atol=1e-9)
    np.testing.assert_allclose(state.tape[:3], (worked.force, worked.w / 100, worked.a / 100), atol=1e-9)
    assert worked.tape[1] == pytest.approx(float(state.margin[0]))
    for number, name in zip(state.torque, ("Adduction", "Extension"), strict=False):
        assert re.search(rf"{name}{NUMBER} N × {NUMBER} m = {number:.1f} N m", key)


def test_the_table_for_checking_others(key):
    assert BREADTHS[0] == 34 and BREADTHS[-1] == 46 and RATIOS == (1.0, 1.5, 2.0)
    for breadth, cells in offsets():
        assert cells == pytest.approx([ratio * breadth / 2 - breadth / 2 for ratio in RATIOS])
        assert f"{breadth} cm{cells[0]:.1f} cm{cells[1]:.1f} cm{cells[2]:.1f} cm" in key
    each = float(re.search(rf"each centimetre of w or a makes ({NUMBER}) N m", key)[1])
    changed = Worked(LIFTER, PULL.change(load_kg=10.0, grip_ratio=PULL.grip_ratio + 0.02 / LIFTER.biacromial))
    assert changed.torques[0] - Worked(LIFTER, PULL.change(load_kg=10.0)).torques[0] == pytest.approx(each, abs=0.005)


def test_the_slips_are_what_they_are_called(key):
    worked = Worked()
    slips = [value for _, value in worked.slips()]
    assert slips == pytest.approx(
        [
            worked.force * (worked.grip - worked.shoulders) / 100,
            PULL.load_kg * worked.force / (PULL.load_kg / 2) * worked.w / 100,
            PULL.load_kg / 2 * worked.w / 100,
            worked.force * worked.w,
        ]
    )
    assert all(f"{words}{value:.1f} N m" in key for words, value in worked.slips())


def test_what_the_discussion_says_holds(key):
    narrow, wide = (Worked(LIFTER, PULL.change(grip_ratio=ratio)) for ratio in (1.0, 2.0))
    assert narrow.torques[0] == pytest.approx(0.0, abs=1e-9) and narrow.torques[1] == pytest.approx(wide.torques[1])
    assert f"adduction goes from 0 to {wide.torques[0]:.1f} N m" in key and f"stays {wide.torques[1]:.1f} N m" in key


def test_the_sheet_has_its_boxes_its_cautions_and_gives_nothing_away(page):
    sheet = page[page.index('class="sheet"') : page.index('class="key"')]
    text = plain(sheet)
    assert sheet.count('class="blank"') == 10 and text.count("Two torques.") == 1
    for words in ("Nobody has to be measured", "nobody lifts a load", "hurts or feels numb, stop", "not for diagnosis"):
        assert words in text
    worked = Worked()
    assert not any(f"{number:.1f}" in text for number in (*worked.torques, worked.force, worked.a))
    parsed = Parsed(body(page))
    assert not parsed.wrong and len(parsed.words) == 1 and "half the grip less half the shoulders" in parsed.words[0]
    assert not asked_from_outside(page) and len(parsed.ids) == len(set(parsed.ids))
