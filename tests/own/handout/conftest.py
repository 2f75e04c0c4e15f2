"""One quick chapter, read once for all tests of hand-outs."""

from pathlib import Path

import pytest

import shoulder_model
from shoulder_model.handout.paper import paper_of
from shoulder_model.handout.reading import reading_page
from shoulder_model.handout.render import glossary_of
from shoulder_model.handout.slides import slides_page
from shoulder_model.lesson import read_chapter

HOME = Path(shoulder_model.__file__).parents[1]
FIGURES = HOME / "figures"


@pytest.fixture(scope="session")
def chapter():
    return read_chapter(HOME / "workbook" / "03_grip_width.ipynb")


@pytest.fixture(scope="session")
def paper(chapter):
    return paper_of(chapter)


@pytest.fixture(scope="session")
def glossary():
    return glossary_of(HOME / "workbook")


@pytest.fixture(scope="session")
def reading(paper, glossary):
    return reading_page(paper, [FIGURES], glossary, made=("00_start", "03_grip_width", "04_from_pulldown_to_row"))


@pytest.fixture(scope="session")
def slides(paper, glossary):
    return slides_page(paper, [FIGURES / "projector", FIGURES], glossary)
