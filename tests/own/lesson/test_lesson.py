"""A chapter taken apart, and its Markdown as HTML."""

import re
from pathlib import Path

import nbformat
import pytest

import shoulder_model
from shoulder_model.inputs import UnknownName
from shoulder_model.lesson import Ask, Code, Fold, Lines, Live, Page, Text, formula, inlined, read_chapter, titles

HOME = Path(shoulder_model.__file__).parents[1]
QUICK = HOME / "workbook" / "02_one_arm_one_plane.ipynb"


@pytest.fixture(scope="module")
def chapter():
    return read_chapter(QUICK)


def write(folder, *cells):
    """A notebook of these cells: Markdown where it begins with #, or with ``text:``, else code."""
    made = []
    for cell in cells:
        is_text = cell.startswith(("#", "text:"))
        made.append(
            (nbformat.v4.new_markdown_cell if is_text else nbformat.v4.new_code_cell)(cell.removeprefix("text:"))
        )
    nbformat.write(nbformat.v4.new_notebook(cells=made), folder / "x.ipynb")
    return folder / "x.ipynb"


def test_a_chapter_has_every_section_and_every_cell(chapter):
    cells = nbformat.read(QUICK, as_version=4).cells
    blocks = [block for section in chapter.sections for block in section.blocks]
    assert [section.title for section in chapter.sections[1:]] == titles(QUICK)
    assert sum(isinstance(block, Code) for block in blocks) == sum(cell.cell_type == "code" for cell in cells)
    assert sum(isinstance(block, Ask) for block in blocks) == sum("Guess(" in cell.source for cell in cells)
    source = "\n".join(cell.source for cell in cells if cell.cell_type == "markdown")
    in_text = sum(isinstance(block, Fold) and "<pre>" not in block.markdown for block in blocks)
    assert in_text == source.count("<details>")
    assert (chapter.title, chapter.question) == (
        "2 One arm, one plane",
        "It's only five kilos. Why does it feel like so much?",
    )


def test_a_panel_stands_after_its_guess_and_its_still_figure_is_gone(chapter):
    blocks = next(
        section for section in chapter.sections if any(isinstance(one, Live) for one in section.blocks)
    ).blocks
    place = next(number for number, block in enumerate(blocks) if isinstance(block, Live))
    assert blocks[place].asked and isinstance(blocks[place - 1], Ask)
    assert not any("one_arm_panel.svg" in block.markdown for block in blocks if isinstance(block, (Text, Fold)))


def test_a_section_is_found_by_number_and_title(chapter):
    assert chapter.section("2.3") is chapter.section("2.3 Which side?")
    with pytest.raises(UnknownName, match=r"2\.3"):
        chapter.section("2.33")


def test_reading_stops_after_the_section_asked_for(tmp_path):
    path = write(tmp_path, "# X", "## 1.1 A", "print('one')", "## 1.2 B", "raise RuntimeError")
    assert [section.title for section in read_chapter(path, "1.1").sections] == ["X", "1.1 A"]
    with pytest.raises(RuntimeError):
        read_chapter(path)


def test_what_a_cell_prints_shows_and_folds(tmp_path):
    code = "from shoulder_model.panels import folded\nprint('a < b')\nwith folded('Answer in numbers'):\n    print('1 < 2')"
    path = write(
        tmp_path, "# X", code, "text:Before\n\n<details><summary>Solution</summary>\n\nSo.\n</details>\n\nafter"
    )
    _, printed, fold, before, solution, after = read_chapter(path).sections[0].blocks[1:]
    assert printed == Lines("a < b") and fold == Fold("Answer in numbers", "<pre>1 &lt; 2</pre>")
    assert (before, solution, after) == (Text("Before"), Fold("Solution", "So."), Text("after"))
    assert fold.kind == "Answer"


def test_a_file_that_is_no_notebook_says_so(tmp_path):
    (tmp_path / "x.ipynb").write_text('{"worksheets": []}')
    with pytest.raises(ValueError, match=r"x\.ipynb is no notebook"):
        read_chapter(tmp_path / "x.ipynb")


def test_a_failed_check_is_raised(tmp_path):
    path = write(tmp_path, "# X", "from shoulder_model.panels import checked\nchecked('2 × 3', 7.0, 6)")
    with pytest.raises(AssertionError, match="2 × 3"):
        read_chapter(path)


def test_a_picture_stands_in_the_page_with_its_words():
    page = Page((HOME / "no_such_folder", HOME / "figures"))
    html = page.html('![So "wide"](../figures/tape_law.svg)')
    assert html.startswith('<svg class="picture" role="img" aria-label="So &quot;wide&quot;"') and "<style" not in html
    with pytest.raises(FileNotFoundError, match="no_such_figure"):
        page.html("![x](../figures/no_such_figure.svg)")


def test_of_two_folders_the_first_that_has_a_figure_gives_it(tmp_path):
    (tmp_path / "tape_law.svg").write_text('<svg viewBox="0 0 7 7"><g/></svg>')
    assert 'viewBox="0 0 7 7"' in Page((tmp_path, HOME / "figures")).picture("tape_law", "")
    assert 'viewBox="0 0 7 7"' not in Page((HOME / "figures", tmp_path)).picture("tape_law", "")


def test_links_lead_where_the_page_says_or_are_words():
    page = Page(HOME, {"03_grip_width.ipynb": "03.html"}.get)
    html = page.html("[a](03_grip_width.ipynb) and [b](04_from_pulldown_to_row.ipynb)")
    assert html == '<p><a href="03.html">a</a> and b</p>\n'


def test_a_formula_is_drawn_and_spoken():
    html = Page(HOME).html(r"So $F\,w$ and" + "\n\n" + r"$$\frac{a}{b}$$")
    assert len(re.findall('class="formula inline"', html)) == len(re.findall('class="formula block"', html)) == 1
    assert html.count("<math") == 2 and html.count('aria-hidden="true"') == 2 and "$" not in html
    assert formula("x") != formula("x", block=True)


def test_a_saved_picture_loses_what_would_touch_the_page():
    svg = inlined('<?xml?><svg viewBox="0 0 1 1" width="9"><metadata>x</metadata><style>*{}</style><g/></svg>', 'a "b"')
    assert "metadata" not in svg and "style" not in svg and "width" not in svg and 'aria-label="a &quot;b&quot;"' in svg


def test_practice_has_words_on_paper():
    chapter = read_chapter(HOME / "workbook" / "11_practice.ipynb", "11.1")
    told = [block.markdown for section in chapter.sections for block in section.blocks if isinstance(block, Text)]
    assert any("a sheet for each student" in words for words in told)
