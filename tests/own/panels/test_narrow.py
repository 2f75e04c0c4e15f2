"""A panel on a narrow page: the same picture with larger letters, the kept one too; and the wide one comes back as it was."""

from functools import partial

import pytest

import shoulder_model.panels as panels
from shoulder_model.draw.look import PHONE
from shoulder_model.week import all_no

KINDS = [
    panels.OneArmPanel, panels.GripPanel, panels.TrunkPanel, panels.LatPanel, panels.GirdlePanel, panels.WorkPanel,
    panels.EvidencePanel, panels.RatioPanel, panels.MyLifterPanel, partial(panels.SessionPanel, health=all_no()),
]  # fmt: skip


@pytest.mark.parametrize("make", KINDS, ids=lambda make: getattr(make, "__name__", "SessionPanel"))
def test_a_narrow_page_gets_larger_letters_and_a_wide_one_the_same_picture_again(make, monkeypatch):
    panel, sent = make(), []
    panel.keep()
    slider = next(iter(panel.picture.sliders.values()))
    slider.value = slider.min if slider.value > slider.min else slider.max
    before, words, width = panel.stage.attributes(), panel.words, panel.stage.width
    monkeypatch.setattr(panel.picture, "send", sent.append)
    panel.picture._answer({"kind": "fit", "narrow": True})
    assert panel.stage.width == pytest.approx(72 * PHONE)
    assert [message["kind"] for message in sent] == ["all"] and panel.words == words
    slider.value = slider.max if slider.value < slider.max else slider.min
    assert any(message["kind"] == "move" and message["moves"] for message in sent) and not panel.picture.said["trouble"]
    slider.value = slider.min if slider.value > slider.min else slider.max
    panel.picture._answer({"kind": "fit", "narrow": False})
    panel.picture._answer({"kind": "fit", "narrow": False})
    assert [message["kind"] for message in sent].count("all") == 2, "a width that the page has already is no change"
    assert (panel.stage.attributes(), panel.words, panel.stage.width) == (before, words, width)
