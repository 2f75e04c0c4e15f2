"""The panels in the real page: keyboard, words, keep, save, open. Numbers are checked in tests/own."""

import json

import pytest

from .lab import Chapter, PanelPage

pytestmark = pytest.mark.browser
HOMES = (
    "02_one_arm_one_plane",
    "03_grip_width",
    "04_from_pulldown_to_row",
    "05_where_the_lat_pulls",
    "06_shoulder_blades",
    "07_who_does_the_work",
    "09_reading_the_evidence",
    "10_from_numbers_to_a_session",
)


@pytest.fixture(scope="module", params=HOMES)
def panel(request, lab, browser):
    """The first panel of each chapter, after "Run everything"."""
    chapter = Chapter(lab, browser, request.param)
    chapter.run_everything()
    yield PanelPage(chapter)
    assert chapter.errors == [] and chapter.outside == []
    chapter.close()


def readout(slider):
    """The number a slider shows; its ARIA value is rounded to one decimal."""
    box = slider.locator("xpath=ancestor::*[contains(@class, 'widget-slider')]")
    return float(box.locator(".widget-readout").inner_text().replace("−", "-"))


def test_every_slider_goes_to_both_ends_and_back_by_keyboard(panel):
    for slider in panel.sliders():
        start, words = readout(slider), panel.words
        slider.focus()
        ends = {}
        for key in ("End", "Home"):
            before = panel.picture, panel.words
            panel.page.keyboard.press(key)
            panel.becomes(lambda p, was=before: p.picture != was[0], f"the picture to follow {key}")
            panel.becomes(lambda p, was=before: p.words != was[1], "the sentence to follow")
            panel.becomes(lambda p: p.words in p.sentences, "the sentence below to say the same")
            ends[key] = readout(slider)
            assert panel.trouble == ""
        assert ends["End"] > ends["Home"]
        for _ in range(400):
            if readout(slider) >= start - 1e-9:
                break
            panel.page.keyboard.press("ArrowRight")
        panel.becomes(lambda p, was=words: p.words == was, "the first sentence to come back")


def test_keep_one_and_read_the_difference(panel):
    panel.press("Keep this one")
    slider = panel.sliders()[0]
    slider.focus()
    for _ in range(5):
        panel.page.keyboard.press("ArrowRight")
    panel.becomes(lambda p: any("Against the one you kept" in line for line in p.sentences), "the difference")
    panel.press("Let it go")
    panel.becomes(lambda p: not any("Against" in line for line in p.sentences), "the difference to go")


def test_save_everything_and_open_the_set_up_again(panel, tmp_path):
    kinds = {"SVG": b"<?xml", "PNG": b"\x89PNG", "CSV": b"", "JSON": b"{"}
    for kind, start in kinds.items():
        with panel.page.expect_download() as caught:
            panel.press(f"Save {kind}")
        caught.value.save_as(tmp_path / caught.value.suggested_filename)
        content = (tmp_path / caught.value.suggested_filename).read_bytes()
        assert content.startswith(start) and len(content) > 200, kind
        assert caught.value.suggested_filename.endswith(f"panel.{kind.lower()}")
    (saved,) = tmp_path.glob("*.json")
    words = panel.words
    slider = panel.sliders()[0]
    slider.focus()
    panel.page.keyboard.press("Home")
    panel.becomes(lambda p: p.words != words, "the set-up to change")
    panel.root.locator('input[type="file"]').set_input_files(saved)
    panel.becomes(lambda p: p.words == words, "the saved set-up to come back")
    panel.page.keyboard.press("Home")
    drop(panel, saved)
    panel.becomes(lambda p: p.words == words, "the dropped set-up to come back")


def drop(panel, path):
    """Drop a file on the panel's door, as a reader's hand would."""
    files = panel.page.evaluate_handle(
        "text => { const moved = new DataTransfer(); moved.items.add(new File([text], 'set-up.json')); return moved; }",
        path.read_text(),
    )
    door = panel.root.locator(".file-door")
    for event in ("dragover", "drop"):
        door.dispatch_event(event, {"dataTransfer": files})


def test_a_wrong_file_is_one_plain_line_and_the_picture_stays(panel, tmp_path):
    picture = panel.at_rest().picture
    (tmp_path / "wrong.json").write_text(json.dumps({"kind": "shopping list"}))
    drop(panel, tmp_path / "wrong.json")
    panel.becomes(lambda p: "not one saved here" in p.trouble, "the plain line")
    assert panel.picture == picture
    panel.sliders()[0].focus()
    for key in ("Home", "ArrowRight"):  # it may stand at its end
        panel.page.keyboard.press(key)
    panel.becomes(lambda p: p.trouble == "", "the line to go")


def test_moved_as_fast_as_a_hand_can_the_last_value_stands(panel):
    slider = panel.sliders()[0]
    slider.focus()
    panel.page.keyboard.press("Home")
    for _ in range(30):
        panel.page.keyboard.press("ArrowRight", delay=0)
    settled = panel.at_rest().words
    panel.page.keyboard.press("ArrowLeft")
    panel.becomes(lambda p: p.words != settled, "one step back")
    panel.page.keyboard.press("ArrowRight")
    panel.becomes(lambda p: p.words == settled, "the same words for the same value")
    assert panel.trouble == ""
