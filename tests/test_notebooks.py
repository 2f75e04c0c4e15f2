"""What every chapter has to be, and the proof that a changed number makes the run fail."""

import re
import subprocess
import sys
from pathlib import Path

import nbformat
import numpy as np
import pytest
from nbconvert import HTMLExporter

from shoulder_model.recipes.notebooks import refresh

from .notebook_names import code_cells, is_folded, loop_leftovers, ways_in

WORKBOOK = Path(__file__).parents[1] / "workbook"
CHAPTERS = sorted(WORKBOOK.glob("*.ipynb"))
COMPARED = "nbval-check-output"
TAGS = {COMPARED, "nbval-ignore-output", "solution", "static-only"}
LONGEST_CELL = 12
LONGEST_SENTENCE = 25  # words, without need
FOLDS = re.compile(
    r"Answer( in numbers| in words| in a picture| by hand)?(, continued)?|Solution( in numbers)?|The (table|numbers)|More"
)


@pytest.fixture(params=CHAPTERS, ids=lambda path: path.stem)
def chapter(request):
    return nbformat.read(request.param, as_version=4)


def compared_cells(notebook):
    return [cell for cell in code_cells(notebook) if COMPARED in cell.metadata.get("tags", [])]


def sections(notebook):
    """Lists of cells from one ``##`` heading to the next."""
    parts = [[]]
    for cell in notebook.cells:
        if cell.cell_type == "markdown" and re.search(r"^## ", cell.source, re.M):
            parts.append([])
        parts[-1].append(cell)
    return parts


def test_there_are_chapters():
    names = {path.stem for path in CHAPTERS}
    assert names >= {"00_start", "02_one_arm_one_plane", "03_grip_width", "04_from_pulldown_to_row"}
    assert names >= {
        "01_width_and_thickness",
        "05_where_the_lat_pulls",
        "06_shoulder_blades",
        "07_who_does_the_work",
        "a2_how_strong",
    }
    assert names >= {"09_reading_the_evidence", "10_from_numbers_to_a_session", "a1_out_of_the_plane"}


def test_every_worked_number_is_stored_and_so_compared(chapter):
    assert compared_cells(chapter)
    for cell in compared_cells(chapter):
        assert cell.execution_count is not None and cell.outputs, cell.source


def test_every_section_with_a_worked_number_has_one_checked_by_hand(chapter):
    for section in sections(chapter):
        code = [cell for cell in section if cell.cell_type == "code"]
        if any(COMPARED in cell.metadata.get("tags", []) for cell in code):
            source = "\n".join(cell.source for cell in code if COMPARED in cell.metadata.get("tags", []))
            assert re.search(r"checked\(", source), section[0].source[:60]


def test_a_check_is_a_line_that_the_reader_sees(chapter):
    """No bare assert, and every cell that checks is compared, so that the line is stored."""
    for cell in code_cells(chapter):
        assert not re.search(r"^\s*assert\b", cell.source, re.M), cell.source
        if "checked(" in cell.source:
            assert COMPARED in cell.metadata.get("tags", []), cell.source
            text = "".join(str(output.get("text") or output.get("data")) for output in cell.outputs)
            assert text.count("✓ checked") >= 1, cell.source


def test_code_is_out_of_the_way(chapter):
    assert all(is_folded(cell) and cell.metadata["transient"]["remove_source"] for cell in code_cells(chapter))


def test_an_exported_page_tells_no_answer_before_its_guess(chapter):
    """The code of a guess holds its answer, so an export leaves code out; what is folded stays folded."""
    page, _ = HTMLExporter().from_notebook_node(chapter)
    assert page.count("<details>") == page.count("<details") >= 2 and "<details open" not in page
    for cell in code_cells(chapter):
        if "Guess(" in cell.source:
            assert not re.search(r"\bGuess\(", page)


def test_a_chapter_says_what_to_press_and_leads_on_and_back(chapter):
    head = "\n".join(cell.source for cell in chapter.cells[:4] if cell.cell_type == "markdown")
    assert "*Run everything*" in head and re.search(r"\d+ minutes", head)
    if not chapter.cells[0].source.startswith("# Pulling"):
        assert "(00_start.ipynb)" in head
    whole = "\n".join(cell.source for cell in chapter.cells)
    targets = re.findall(r"\]\(([\w]+\.ipynb)(#[^)]*)?\)", whole)
    assert targets and all((WORKBOOK / name).is_file() for name, _ in targets)
    assert "Say it out loud" in whole


def opening(chapter):
    """The question in bold under a chapter's title, without quotation marks, and its minutes."""
    question = re.search(r"^\*\*(.+?)\*\*", chapter.cells[0].source, re.M)[1].replace('"', "")
    return question, re.search(r"(\d+) minutes", "\n".join(cell.source for cell in chapter.cells[:5]))[1]


@pytest.mark.parametrize("path", [path for path in CHAPTERS if path.stem != "00_start"], ids=lambda path: path.stem)
def test_the_lists_of_chapters_have_their_questions_and_minutes(path):
    question, minutes = opening(nbformat.read(path, as_version=4))
    start = nbformat.read(WORKBOOK / "00_start.ipynb", as_version=4)
    listed = "\n".join(cell.source for cell in start.cells)
    assert re.search(rf"\({path.name}\) \| {re.escape(question)} \| {minutes} \|", listed)
    assert f"| `{path.stem}` | {question} |" in (WORKBOOK.parent / "README.md").read_text(encoding="utf-8")


def test_terms_lead_to_the_glossary_and_notes_are_there(chapter):
    whole = "\n".join(cell.source for cell in chapter.cells if cell.cell_type == "markdown")
    for number in set(re.findall(r"\[\[(\d+)\]\(#Notes\)\]", whole)):
        assert re.search(rf"^{number}\. ", whole.partition("## Notes")[2], re.M), f"note {number}"
    if "#Glossary)" in whole:
        start = nbformat.read(WORKBOOK / "00_start.ipynb", as_version=4)
        assert any(re.search(r"^## Glossary", cell.source, re.M) for cell in start.cells)


def prose(cell):
    """The words of a text cell as they are read: without pictures, formulas, tables and marks."""
    text = re.sub(r"!\[.*?\]\([^)]*\)|\$\$.*?\$\$|<[^>]+>", " ", cell.source, flags=re.S)
    text = "\n".join(line for line in text.splitlines() if not line.lstrip().startswith(("|", "#")))
    return re.sub(r"\[([^\]]*)\]\([^)]*\)", r"\1", text).replace("*", " ")


def test_text_is_short_and_sentences_are(chapter):
    texts = []
    for cell in chapter.cells:
        if "## Notes" in cell.source or "## Glossary" in cell.source:
            break
        texts += [prose(cell)] if cell.cell_type == "markdown" else []
    counts = [len(text.split()) for text in texts if text.split()]
    assert np.median(counts) <= 45 and max(counts) <= 170, (np.median(counts), max(counts))
    sentences = [
        part for text in texts for part in re.split(r"(?<=[.!?:])[\"”)]*\s+|\n\s*\n|\n[-\d]", text) if part.split()
    ]
    long = [" ".join(part.split()) for part in sentences if len(part.split()) > LONGEST_SENTENCE]
    assert len(long) <= 0.03 * len(sentences), long


def test_only_text_is_stored(chapter):
    assert "widgets" not in chapter.metadata
    for cell in code_cells(chapter):
        assert "execution" not in cell.metadata
        for output in cell.outputs:
            assert output.output_type in ("stream", "execute_result", "display_data"), cell.source
            assert not [
                kind
                for kind in output.get("data", {})
                if kind.startswith("image/") or "widget" in kind or "html" in kind
            ]
            assert output.get("name", "stdout") == "stdout"


def test_cells_are_short_and_define_nothing(chapter):
    for cell in code_cells(chapter):
        assert len(cell.source.splitlines()) <= LONGEST_CELL, cell.source
        assert not re.search(r"^\s*(def|class) ", cell.source, re.M), cell.source


def test_tags_are_known_and_ids_are_there(chapter):
    for cell in chapter.cells:
        assert cell.id
        assert set(cell.metadata.get("tags", [])) <= TAGS, cell.source


def test_answers_and_solutions_are_folded(chapter):
    """A guess is followed by a folded answer; what its panel shows waits for it; only "Answer" stands on the fold."""
    cells, folded = chapter.cells, sum("<details>" in cell.source for cell in chapter.cells)
    for place, cell in enumerate(cells):
        assert not cell.metadata.get("jupyter", {}).get("outputs_hidden"), cell.source
        for title in re.findall(r"<summary>(.*?)</summary>|folded\(\"(.*?)\"\)", cell.source):
            assert FOLDS.fullmatch(title[0] or title[1]), title
        if "Guess(" in cell.source:
            after = "\n".join(later.source for later in cells[place + 1 : place + 4])
            assert "<summary>Answer" in after or 'folded("Answer' in after, cell.source
    assert folded >= 2


def test_pictures_are_there_and_say_what_they_show(chapter):
    for cell in chapter.cells:
        for words, path in re.findall(r"!\[([^\]]*)\]\(([^)]*)\)", cell.source if cell.cell_type == "markdown" else ""):
            assert (WORKBOOK / path).is_file(), path
            assert len(words) >= 40, path


def test_links_between_chapters_lead_somewhere(chapter):
    for cell in chapter.cells:
        for path in re.findall(r"\]\(([^)#]+\.ipynb)[^)]*\)", cell.source if cell.cell_type == "markdown" else ""):
            assert (WORKBOOK / path).is_file(), path


def test_no_check_rests_on_what_a_loop_left(chapter):
    assert loop_leftovers(chapter) == []


def test_chapters_use_the_public_calls_and_the_panels_only(chapter):
    assert ways_in(chapter) == set()


def of_cells(*sources):
    """A notebook of code cells."""
    return nbformat.v4.new_notebook(cells=[nbformat.v4.new_code_cell(source) for source in sources])


def test_the_readers_of_names_see_what_they_are_for():
    loop = "for x in (1, 2):\n    y = x"
    after = 'checked("two", y, 2)'
    assert loop_leftovers(of_cells(loop, after)) == [(after, ["y"])]
    assert loop_leftovers(of_cells(f'{loop}\n    checked("the same", y, x)', "y = 3", 'checked("three", y, 3)')) == []
    assert loop_leftovers(of_cells("z = {x: x for x in (1, 2)}", 'checked("all", all(z[x] == x for x in z))')) == []
    deep = "import shoulder_model as sm\nsm.people.lifter.survey\nsm.muscles.paths\nfrom shoulder_model.people import survey"
    assert ways_in(of_cells(deep)) == {"shoulder_model.people", "sm.people.lifter"}
    assert ways_in(of_cells("from shoulder_model import muscles")) == {"shoulder_model.muscles"}
    assert ways_in(of_cells("import shoulder_model as sm\nsm.rep\nsm.symbolic.length\nsm.pulls.items")) == set()


def nbval(path, folder):
    """Run nbval on one notebook, away from the project's own settings."""
    (folder / "empty.ini").write_text("[pytest]\n")
    line = [sys.executable, "-m", "pytest", "-c", "empty.ini", "--rootdir", str(folder), "-p", "no:cacheprovider"]
    line += ["-q", "--nbval-lax", "--nbval-current-env", str(path)]
    return subprocess.run(line, cwd=folder, capture_output=True, text=True)


def tiny():
    """A notebook with one worked number, as the chapters store theirs."""
    cell = nbformat.v4.new_code_cell("torque = 196.1 * 0.130\nprint(f'{torque:.1f} N m')", execution_count=1)
    cell.metadata["tags"] = [COMPARED]
    cell.outputs = [nbformat.v4.new_output("stream", name="stdout", text="25.5 N m\n")]
    return nbformat.v4.new_notebook(cells=[cell])


def test_an_unaltered_number_passes(tmp_path):
    nbformat.write(tiny(), tmp_path / "same.ipynb")
    run = nbval(tmp_path / "same.ipynb", tmp_path)
    assert run.returncode == 0 and "1 passed" in run.stdout, run.stdout


@pytest.mark.parametrize("where", ["source", "output"])
def test_an_altered_number_fails(where, tmp_path):
    notebook = tiny()
    if where == "source":
        notebook.cells[0].source = notebook.cells[0].source.replace("0.130", "0.131")
    else:
        notebook.cells[0].outputs[0].text = "25.6 N m\n"
    nbformat.write(notebook, tmp_path / "altered.ipynb")
    run = nbval(tmp_path / "altered.ipynb", tmp_path)
    assert run.returncode == 1 and "1 failed" in run.stdout and "N m" in run.stdout, run.stdout


def test_an_altered_number_in_a_chapter_fails(tmp_path):
    notebook = nbformat.read(WORKBOOK / "00_start.ipynb", as_version=4)
    (worked,) = [
        cell
        for cell in compared_cells(notebook)
        if "extension {extension:.1f}" in cell.source and "rep =" in cell.source
    ]
    stored = worked.outputs[0].text
    worked.outputs[0].text = stored.replace("25.", "26.")
    assert worked.outputs[0].text != stored
    nbformat.write(notebook, tmp_path / "00_start.ipynb")
    run = nbval(tmp_path / "00_start.ipynb", tmp_path)
    assert run.returncode == 1 and "1 failed" in run.stdout, run.stdout


def to_refresh(tmp_path, source):
    """A notebook in a reader's state: not run, one cell to compare and one with a picture."""
    cells = [nbformat.v4.new_code_cell(source), nbformat.v4.new_code_cell("__import__('IPython').display.HTML('<b>')")]
    cells[0].metadata["tags"] = [COMPARED]
    nbformat.write(nbformat.v4.new_notebook(cells=cells, metadata={"widgets": {}}), tmp_path / "one.ipynb")
    return tmp_path / "one.ipynb"


def test_refreshing_keeps_the_text_only_and_twice_is_once(tmp_path):
    path = to_refresh(tmp_path, "print('25.5 N m')")
    ids = [cell.id for cell in nbformat.read(path, as_version=4).cells]
    refresh(path)
    once = path.read_text()
    notebook = nbformat.read(path, as_version=4)
    assert [(cell.id, cell.execution_count) for cell in notebook.cells] == [(ids[0], 1), (ids[1], 2)]
    assert [output.text for output in notebook.cells[0].outputs] == ["25.5 N m\n"] and not notebook.cells[1].outputs
    assert "widgets" not in notebook.metadata
    refresh(path)
    assert path.read_text() == once


@pytest.mark.parametrize(
    ("source", "kind"),
    [
        ("__import__('IPython').display.HTML('25.5')", "text/html"),
        ("__import__('sys').stderr.write('25.5')", "stderr"),
    ],
)
def test_a_number_that_cannot_be_compared_is_refused(tmp_path, source, kind):
    path = to_refresh(tmp_path, source)
    before = path.read_text()
    with pytest.raises(ValueError, match=f"must give text only, not {kind}"):
        refresh(path)
    assert path.read_text() == before
