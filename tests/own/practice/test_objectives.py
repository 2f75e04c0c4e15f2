"""The objectives are the chapters' own lines, word for word."""

import json
import re

from shoulder_model.checkout import HOME, chapters
from shoulder_model.practice.objectives import objectives

WITHOUT = ("11_practice",)  # it practises the others
LINK = re.compile(r"\[([^\]]*)\]\([^)]*\)")


def opening_lines(name):
    """Lines of a chapter's "you will be able to", as they stand there, without links and end marks."""
    cells = json.loads((HOME / "workbook" / f"{name}.ipynb").read_text(encoding="utf-8"))["cells"][:6]
    text = "\n\n".join("".join(cell["source"]) for cell in cells if cell["cell_type"] == "markdown")
    after = text.partition("you will be able to")[2].partition("\n## ")[0]
    return [LINK.sub(r"\1", line).rstrip(",.") for line in re.findall(r"^- (.+)$", after, re.MULTILINE)]


def test_every_line_of_every_chapter_is_an_objective_and_no_other():
    named = {name: [one.words for one in objectives().values() if one.notebook == name] for name in chapters()}
    assert named == {name: [] if name in WITHOUT else opening_lines(name) for name in chapters()}


def test_ids_begin_with_the_chapter_and_titles_are_those_of_the_chapters():
    for id, one in objectives().items():
        assert one.notebook.startswith(id.partition(".")[0]) and id.partition(".")[2]
        cell = json.loads((HOME / "workbook" / f"{one.notebook}.ipynb").read_text(encoding="utf-8"))["cells"][0]
        title = "".join(cell["source"]).splitlines()[0].removeprefix("# ")
        assert one.title == (title if one.chapter != "00" else "0 Start")
