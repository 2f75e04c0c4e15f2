"""Every chapter, opened and run as a reader would."""

from pathlib import Path

import pytest

pytestmark = pytest.mark.browser
CHAPTERS = sorted(path.stem for path in (Path(__file__).parents[2] / "workbook").glob("*.ipynb"))


@pytest.mark.parametrize("name", CHAPTERS)
def test_chapter_opens_and_runs(name, open_chapter):
    chapter = open_chapter(name)
    assert chapter.page.locator(".jp-Dialog").count() == 0
    chapter.run_everything()
    assert chapter.failed_cells == []
    assert chapter.page.locator(".jp-Dialog").count() == 0
    pictures = chapter.page.locator(".jp-MarkdownOutput img")
    assert pictures.count() > 0
    assert pictures.evaluate_all("all => all.filter(one => !one.naturalWidth).length") == 0
    assert chapter.outside == []
    assert chapter.errors == []
