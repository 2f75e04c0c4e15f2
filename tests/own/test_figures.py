"""Figures: every recipe runs, its files are there, a projector's can be read, and pages that embed it carry its words."""

import importlib.util
import re
from pathlib import Path

import nbformat
import numpy as np
import pytest
from matplotlib.text import Text
from PIL import Image

from shoulder_model.draw.forest import Forest
from shoulder_model.draw.forest_lines import ForestLine, ForestTrial
from shoulder_model.draw.look import PROJECTOR, SMALL, new_figure, projector
from shoulder_model.draw.stage import Stage

ROOT = Path(__file__).parents[2]
spec = importlib.util.spec_from_file_location("figure_build", ROOT / "figures" / "build.py")
figures = importlib.util.module_from_spec(spec)
spec.loader.exec_module(figures)
TOLERANCE = 1.0  # pixel
FAR_OFF = 90  # of 255: what fewer colours may do to one of them


def drawn_texts(stage):
    """Texts of a saved picture: words, letters in points, and box (left, bottom, right, top) in pixels, 72 an inch."""
    found, draw = [], Text.draw

    def note(text, renderer, *args, **more):
        if text.get_visible() and text.get_text().strip():
            found.append((text.get_text(), text.get_fontsize(), Text.get_window_extent(text, renderer).extents))
        return draw(text, renderer, *args, **more)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(Text, "draw", note)
        stage.save("png", dpi=72)
    return found


def has_letters(words):
    """Whether there is a letter in ``words``."""
    return any(sign.isalpha() for sign in words)


def too_small(texts):
    """Words with letters of less than 10 points."""
    return [words for words, size, _ in texts if has_letters(words) and size < SMALL - 1e-9]


def outside(texts, width, height):
    """Words that reach out of the picture, which is ``width`` by ``height`` pixels."""
    return [
        words
        for words, _, (left, bottom, right, top) in texts
        if min(left, bottom, width - right, height - top) < -TOLERANCE
    ]


def overlaps(texts):
    """Pairs of words whose boxes share more than a pixel in both directions."""
    found = []
    for k, (words, _, one) in enumerate(texts):
        for others, _, other in texts[k + 1 :]:
            shared = [min(one[side + 2], other[side + 2]) - max(one[side], other[side]) for side in (0, 1)]
            if min(shared) > TOLERANCE:
                found.append((words, others))
    return found


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
    assert (tmp_path / "projector" / f"{name}.svg").stat().st_size > 2000
    for kind in ("svg", "png"):
        assert (tmp_path / f"{name}.{kind}").stat().st_size > 2000
        assert (ROOT / "figures" / f"{name}.{kind}").exists()
    words = figures.recipe(name).WORDS
    assert len(words) > 60 and "[" not in words and "\n" not in words


@pytest.mark.parametrize("name", figures.recipes())
def test_a_projectors_figure_can_be_read(name):
    assert (ROOT / "figures" / "projector" / f"{name}.svg").stat().st_size > 2000
    recipe = figures.recipe(name)
    with projector():
        stage = recipe.stage()
    assert stage.width == pytest.approx(72 * 11.2 / PROJECTOR)
    texts = drawn_texts(stage)
    assert sum(has_letters(words) for words, _, _ in texts) >= 3
    assert not too_small(texts)
    assert not outside(texts, stage.width, stage.height)
    assert not overlaps(texts)


@pytest.mark.parametrize("name", figures.films())
def test_a_film_is_small_moves_and_comes_to_rest(name):
    with Image.open(ROOT / "figures" / f"{name}.gif") as kept:
        assert (ROOT / "figures" / f"{name}.gif").stat().st_size < 2_000_000
        assert kept.n_frames >= 20 and kept.info["loop"] == 1, "it plays twice"
        shown = kept.convert("RGB")
    image, _ = next(figures.recipe(name).film())
    assert image.size == shown.size
    differs = np.abs(np.asarray(image, float) - np.asarray(shown, float)).max(axis=2) > FAR_OFF
    assert differs.mean() < 0.001, "the stored film is another one: run figures/build.py"


def test_words_that_are_small_or_cut_or_touch_are_found():
    figure = new_figure()
    axes = figure.add_axes([0, 0, 1, 1])
    axes.set_axis_off()
    for x, y, words, size in (
        (0.5, 0.5, "one", 12),
        (0.51, 0.51, "other", 12),
        (0.99, 0.2, "cut", 12),
        (0.2, 0.2, "low", 9),
    ):
        axes.text(x, y, words, fontsize=size)
    axes.text(0.5, 0.5, "hidden", visible=False)
    axes.text(0.2, 0.21, "moves", animated=True)
    stage = Stage(figure)
    texts = drawn_texts(stage)
    assert too_small(texts) == ["low"]
    assert outside(texts, stage.width, stage.height) == ["cut"]
    assert overlaps(texts) == [("one", "other"), ("low", "moves")]


@pytest.mark.parametrize(("count", "rows", "limits"), [(1, 2, 1), (5, 1, 1), (6, 1, 1), (12, 1, 0)])
def test_a_forest_for_a_projector_has_as_many_rows_of_words_as_do_not_touch(count, rows, limits):
    lines = [
        ForestLine((k,), f"top {k}", f"result {k}", f"remark {k}", "order", also=f"also {k}") for k in range(count)
    ]
    trials = [ForestTrial(f"head {k}", f"limit {k}", (line,), "who") for k, line in enumerate(lines)]
    with projector():
        figure = new_figure(11.2, 5.05)
    Forest(figure.add_axes([0.3, 0.16, 0.4, 0.77]), "g", -0.6, 1.03).show(trials)
    texts = drawn_texts(Stage(figure))
    said = [words for words, _, _ in texts]
    assert sum(words.startswith("top") or words.startswith("who: top") for words in said) == count
    assert sum(words.startswith("remark") for words in said) == count * (rows - 1)
    assert sum("limits" in words for words in said) == count * limits
    assert not overlaps(texts)


@pytest.mark.parametrize(("page", "words", "name"), EMBEDDED, ids=[f"{page}-{name}" for page, _, name in EMBEDDED])
def test_embedded_pictures_carry_the_recipes_words(page, words, name):
    assert words == figures.recipe(name).WORDS


def test_every_figure_is_used_somewhere():
    assert {*figures.recipes(), *figures.films()} == {name for _, _, name in EMBEDDED}
