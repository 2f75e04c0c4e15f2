"""Figures: every recipe runs, its files are there, and pages that embed it carry its words."""

import importlib.util
import re
from pathlib import Path

import nbformat
import pytest

ROOT = Path(__file__).parents[2]
spec = importlib.util.spec_from_file_location("figure_build", ROOT / "figures" / "build.py")
figures = importlib.util.module_from_spec(spec)
spec.loader.exec_module(figures)


def pages():
    """Markdown of the README and of every chapter, by file name."""
    yield "README.md", (ROOT / "README.md").read_text(encoding="utf-8")
    for path in sorted((ROOT / "workbook").glob("*.ipynb")):
        cells = nbformat.read(path, as_version=4).cells
        yield path.name, "\n\n".join(cell.source for cell in cells if cell.cell_type == "markdown")


EMBEDDED = [
    (page, match["words"], Path(match["path"]).stem)
    for page, text in pages()
    for match in re.finditer(r"!\[(?P<words>[^\]]*)\]\((?P<path>[^)]*figures/[^)]*)\)", text)
]


@pytest.mark.parametrize("name", figures.recipes())
def test_recipe_draws_and_its_files_are_kept(name, tmp_path):
    figures.build(name, tmp_path)
    for kind in ("svg", "png"):
        assert (tmp_path / f"{name}.{kind}").stat().st_size > 2000
        assert (ROOT / "figures" / f"{name}.{kind}").exists()
    words = figures.recipe(name).WORDS
    assert len(words) > 60 and "[" not in words and "\n" not in words


@pytest.mark.parametrize(("page", "words", "name"), EMBEDDED, ids=[f"{page}-{name}" for page, _, name in EMBEDDED])
def test_embedded_pictures_carry_the_recipes_words(page, words, name):
    assert words == figures.recipe(name).WORDS


def test_every_figure_is_used_somewhere():
    assert set(figures.recipes()) == {name for _, _, name in EMBEDDED}
