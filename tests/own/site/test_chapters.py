"""Chapters as a site has them, its start page, and where a site may go."""

import json
import sys

import nbformat
import pytest

from shoulder_model import in_page
from shoulder_model.checkout import HOME, chapters
from shoulder_model.handout.start_page import megabytes, ways
from shoulder_model.inputs import InputError, UnknownName
from shoulder_model.site.build import MARK, free
from shoulder_model.site.chapters import KERNEL, NEEDS, lay_out_chapters
from shoulder_model.site.command import main
from shoulder_model.site.start_page import write_start_page


@pytest.fixture(scope="module")
def files(tmp_path_factory):
    folder = tmp_path_factory.mktemp("files")
    return folder, lay_out_chapters(folder, HOME)


def test_every_chapter_is_there_with_its_edition_for_the_pages_kernel(files):
    folder, editions = files
    assert list(editions) == chapters() and len(set(editions.values())) == len(editions)
    for name, edition in editions.items():
        text = (folder / "workbook" / f"{name}.ipynb").read_text(encoding="utf-8")
        notebook, given = json.loads(text), nbformat.read(HOME / "workbook" / f"{name}.ipynb", as_version=4)
        assert notebook["metadata"]["edition"] == edition and notebook["metadata"]["kernelspec"] == KERNEL
        extra = [cell for cell in notebook["cells"] if cell["id"] == "fetched-first"]
        assert [cell["source"] for cell in notebook["cells"] if cell not in extra] == [
            cell.source for cell in given.cells
        ]
        assert len(extra) == (name in NEEDS)
        nbformat.validate(nbformat.reads(text, as_version=4))


def test_outputs_and_sources_are_single_strings(files):
    folder, _ = files
    for path in (folder / "workbook").glob("*.ipynb"):
        for cell in json.loads(path.read_text(encoding="utf-8"))["cells"]:
            assert isinstance(cell["source"], str)
            for output in cell.get("outputs", []):
                assert all(isinstance(one, str) for one in [output.get("text", ""), *output.get("data", {}).values()])


def test_every_figure_of_a_chapter_is_there_in_ascii(files):
    folder, _ = files
    there = {path.name: path.read_bytes() for path in (folder / "figures").iterdir()}
    assert all(content.isascii() for content in there.values())
    for path in (folder / "workbook").glob("*.ipynb"):
        for part in path.read_text(encoding="utf-8").split("../figures/")[1:]:
            assert part.partition(".svg")[0] + ".svg" in there


def test_a_site_goes_into_a_new_folder_or_over_an_older_site(tmp_path):
    assert free(tmp_path / "new") == tmp_path / "new"
    (tmp_path / "kept.txt").write_text("mine")
    with pytest.raises(InputError, match="holds something else"):
        free(tmp_path)
    with pytest.raises(InputError, match="holds something else"):
        main([str(tmp_path)])
    with pytest.raises(InputError, match="holds something else"):
        free(tmp_path / "kept.txt")
    (tmp_path / MARK).write_text("{}")
    assert free(tmp_path) == tmp_path


def test_the_start_page_names_each_chapter_and_each_way(tmp_path):
    (tmp_path / "panels").mkdir()
    (tmp_path / "panels" / "panel_grip.html").write_text("<title>Grip &amp; width</title>", encoding="utf-8")
    root = '<script id="jupyter-config-data" type="application/json">\n{}\n</script>'
    (tmp_path / "index.html").write_text(f"<head>{root}</head>", encoding="utf-8")
    write_start_page(tmp_path, HOME, dict.fromkeys(chapters(), "1"))
    page = (tmp_path / "index.html").read_text(encoding="utf-8")
    assert all(f"notebooks/index.html?path=workbook/{name}.ipynb" in page for name in chapters())
    assert "How wide should I hold the bar?" in page and "Grip &amp; width" in page
    assert root in page
    assert all(way["name"] in page for way in ways())
    assert megabytes(999) == "0.00 MB"


def test_a_large_library_is_sent_for_and_the_reader_is_told(monkeypatch):
    sent = []
    monkeypatch.setattr(in_page, "_fetch", lambda name: sent.append(name))
    monkeypatch.setattr(in_page.asyncio, "ensure_future", lambda one: one)
    late = in_page._Late()
    own = {"__name__": "shoulder_model.evidence.power", "late": late}
    assert late.find_spec("numpy") is None and late.find_spec("scipy.special") is None
    assert late.find_spec("scipy") is None, "another library only tries whether it is there"
    for _ in range(2):
        with pytest.raises(in_page.Fetching, match="More is fetched for this: scipy, 14 MB"):
            exec("late.find_spec('scipy')", own)
    assert sent == ["scipy"]
    assert not any(isinstance(one, in_page._Late) for one in sys.meta_path), "outside a page nothing is watched"


def finished(coroutine):
    """Run what never has to wait; a browser test may have left a loop of its own running in this process."""
    with pytest.raises(StopIteration):
        coroutine.send(None)


def test_a_library_that_is_not_fetched_late_is_refused_by_name():
    finished(in_page.ready("scipy"))
    with pytest.raises(UnknownName, match="library"):
        in_page.ready("numpy").send(None)
