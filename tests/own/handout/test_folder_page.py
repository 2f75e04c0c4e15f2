"""The start page of a folder of hand-outs."""

import re

from shoulder_model.handout import command
from shoulder_model.handout.folder_page import folder_page
from shoulder_model.handout.start_page import measured, ways

from .conftest import HOME


def test_it_leads_to_all_that_is_there_with_its_size(tmp_path):
    for name, size in {
        "03_grip_width.html": 700_000,
        "03_grip_width_slides.pdf": 4_900_000,
        "worksheet.html": 90_000,
    }.items():
        (tmp_path / name).write_bytes(bytes(size))
    for name, title in {"girdle": "Blades?", "grip": "How wide?"}.items():
        (tmp_path / f"panel_{name}.html").write_text(
            f"<title>{title} · Shoulder model workbook</title>", encoding="utf-8"
        )
    (tmp_path / "mine.html").write_text("mine")
    assert command.main(["start", "--to", str(tmp_path)]) == 0
    page = (tmp_path / "index.html").read_text(encoding="utf-8")
    assert re.findall(r'href="([^"]+\.(?:html|pdf))"', page) == [
        "panel_grip.html", "panel_girdle.html", "03_grip_width.html", "03_grip_width_slides.pdf", "worksheet.html",
    ]  # fmt: skip
    assert "How wide?</td>" in page and "(0.70 MB)" in page and "(4.9 MB)" in page and "mine.html" not in page
    assert folder_page(tmp_path, HOME) == str(tmp_path / "index.html"), "its own page is written again"


def test_somebody_elses_page_stays(tmp_path, capsys):
    (tmp_path / "index.html").write_text("mine")
    command.main(["start", "--to", str(tmp_path)])
    assert "another page of this name lies there" in capsys.readouterr().out
    assert (tmp_path / "index.html").read_text() == "mine"


def test_the_ways_say_what_was_measured():
    said = " ".join(text for way in ways() for text in way.values())
    assert all(value in said for value in measured()["values"].values())
    assert "{" not in said and "?" not in said
