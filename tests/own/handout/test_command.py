"""The command line: what it makes, where, and what it says when it cannot."""

import shutil

import nbformat
import pytest

from shoulder_model.handout import command
from shoulder_model.handout.pdf import browser, print_pdf
from shoulder_model.inputs import UnknownName

from .conftest import HOME


@pytest.fixture
def home(tmp_path):
    """A checkout with the start, which has the glossary, and two small chapters; one of them fails."""
    (tmp_path / "workbook").mkdir()
    (tmp_path / "figures").mkdir()
    shutil.copy(HOME / "workbook" / "00_start.ipynb", tmp_path / "workbook")
    right = "from shoulder_model.panels import checked\nchecked('2 × 3', 6.0, 6)"
    for name, source in {"01_right": right, "02_wrong": right.replace("6.0", "7.0")}.items():
        text = (
            f'# {name[1]} {name[3:]}\n\n**"Why?"**\n\n[Back to the start](00_start.ipynb)\n\nSee [one](01_right.ipynb).'
        )
        cells = [nbformat.v4.new_markdown_cell(text), nbformat.v4.new_markdown_cell("## 1.1 A\n\nText.")]
        cells.append(nbformat.v4.new_code_cell(source))
        nbformat.write(nbformat.v4.new_notebook(cells=cells), tmp_path / "workbook" / f"{name}.ipynb")
    return tmp_path


def files(folder):
    return sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file())


def test_a_chapter_comes_in_both_versions_or_in_one(home, tmp_path, capsys):
    out = tmp_path / "out"
    assert command.main(["01_right", "--no-pdf", "--to", str(out)], home) == 0
    assert files(out) == ["01_right.html", "01_right_slides.html"]
    assert capsys.readouterr().out.splitlines() == [str(out / "01_right.html"), str(out / "01_right_slides.html")]
    for one, kept in (("--slides", "01_right_slides.html"), ("--reading", "01_right.html")):
        shutil.rmtree(out)
        assert command.main(["01_right", "--no-pdf", one, "--to", str(out)], home) == 0
        assert files(out) == [kept]


def test_a_file_of_the_same_name_is_replaced_and_nothing_else_touched(home, tmp_path):
    out, before = tmp_path / "out", files(tmp_path)
    out.mkdir()
    (out / "01_right.html").write_text("old")
    (out / "mine.txt").write_text("mine")
    command.main(["01_right.ipynb", "--no-pdf", "--reading", "--to", str(out)], home)
    assert "old" not in (out / "01_right.html").read_text() and (out / "mine.txt").read_text() == "mine"
    assert [name for name in files(tmp_path) if not name.startswith("out/")] == before


def test_a_check_that_fails_makes_a_plain_line_and_no_page(home, tmp_path, capsys):
    out = tmp_path / "out"
    assert command.main(["02_wrong", "--no-pdf", "--to", str(out)], home) == 1
    line = capsys.readouterr().out.strip()
    assert line.startswith("02_wrong: no page") and "2 × 3 = 6" in line and "7.0" in line and "\n" not in line
    assert files(out) == []


def test_several_chapters_are_made_at_once_and_link_to_each_other(home, tmp_path, capsys):
    out = tmp_path / "out"
    assert command.main(["02_wrong", "01_right", "--no-pdf", "--reading", "--code", "--to", str(out)], home) == 1
    assert files(out) == ["01_right.html"] and len(capsys.readouterr().out.splitlines()) == 2
    assert "checked(" in (out / "01_right.html").read_text(encoding="utf-8")


def test_an_unknown_chapter_gets_the_nearest_names_and_writes_nothing(home, tmp_path):
    out = tmp_path / "out"
    with pytest.raises(UnknownName, match="01_right"):
        command.main(["01_rihgt", "--to", str(out)], home)
    with pytest.raises(UnknownName):
        command.main(["../workbook/01_right", "--to", str(out)], home)
    assert not out.exists()


def test_without_a_browser_there_is_a_line_and_a_note_and_no_error(home, tmp_path, monkeypatch, capsys):
    monkeypatch.setenv("CHROMIUM", str(tmp_path / "no_such_browser"))
    assert browser() is None
    out = tmp_path / "out"
    assert command.main(["worksheet", "--to", str(out)], home) == 0
    assert "no PDF" in capsys.readouterr().out and files(out) == ["worksheet.html"]
    assert "Save as PDF" in (out / "worksheet.html").read_text(encoding="utf-8")


def test_a_browser_that_fails_makes_no_pdf_and_no_error(tmp_path, monkeypatch):
    program = tmp_path / "broken"
    program.write_text("#!/bin/sh\nexit 3\n")
    program.chmod(0o755)
    monkeypatch.setenv("CHROMIUM", str(program))
    page = tmp_path / "page.html"
    page.write_text("<!DOCTYPE html><title>x</title>")
    (tmp_path / "page.pdf").write_text("old")
    assert not print_pdf(page, tmp_path / "page.pdf") and not (tmp_path / "page.pdf").exists()
