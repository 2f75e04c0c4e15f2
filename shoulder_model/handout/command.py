"""``python -m shoulder_model handout``: chapters, all of them or some, as pages to read and as slides; a work sheet."""

import argparse
import json
import os
import sys
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path

from ..checkout import HOME, chapter_path, chapters
from ..draw.look import projector
from ..inputs import choice
from ..lesson import Live, read_chapter
from ..processes import processes
from . import panel_command
from .folder_page import folder_page
from .moving import recorded_panels
from .page import with_note
from .paper import paper_of
from .pdf import browser, print_pdf
from .reading import reading_page
from .render import glossary_of
from .slides import slides_page
from .work_sheet import work_sheet

FOLDER = "handouts"
WORK_SHEET = "worksheet"
PANEL = "panel"
ALL = "all"
START = "start"  # the folder's start page
SLOW_FIRST = ("07_who_does_the_work", "10_from_numbers_to_a_session")  # so that nobody waits for one at the end
PROCESSES = 2


@dataclass(frozen=True)
class Wanted:
    """What is made of each chapter.

    Parameters
    ----------
    folder : path
        Where it goes.
    made : tuple of str
        Names of all chapters that are made in one go; their pages may link to each other.
    reading, slides, code, pdf, moving : bool
    processes : int
        That record the panels which are to be ``moving``, a whole number.
    """

    folder: Path
    made: tuple = ()
    reading: bool = True
    slides: bool = True
    code: bool = False
    pdf: bool = True
    moving: bool = False
    processes: int = 1


def make_chapter(name, wanted, home=HOME):
    """Make the hand-outs of one chapter.

    Parameters
    ----------
    name : str
    wanted : Wanted
    home : path
        The checkout.

    Returns
    -------
    list of str
        A line of text for each file, or one that says why there is none.
    """
    try:
        pages = dict(_pages(name, wanted, Path(home)))
    except Exception as error:  # whatever a cell raises, the other chapters are made
        return [f"{name}: no page, it does not run: {type(error).__name__}: {' '.join(str(error).split())}"]
    return [line for stem, html in pages.items() for line in _written(stem, html, wanted)]


def _pages(name, wanted, home):
    """Name and HTML of each version of a chapter."""
    path, figures = chapter_path(home, name), home / "figures"
    glossary, chapter = glossary_of(home / "workbook"), read_chapter(path)
    if wanted.reading:
        recorded = recorded_panels(chapter, wanted.processes) if wanted.moving else {}
        yield name, reading_page(paper_of(chapter, wanted.code), [figures], glossary, wanted.made, recorded)
    if wanted.slides:
        paper = paper_of(for_projector(chapter, path))
        yield f"{name}_slides", slides_page(paper, [figures / "projector", figures], glossary)


def for_projector(chapter, path):
    """``chapter`` (`lesson.Chapter`) with its panels made at a projector's size; all else, text and numbers, is shared.

    The notebook at ``path`` is run once more, only as far as its last panel. Where a cell further on has changed a panel, all
    of it is run.
    """
    panels = _panels(chapter)
    if not panels:
        return chapter
    last = [section.title for section in chapter.sections if any(isinstance(one, Live) for one in section.blocks)][-1]
    with projector():
        again = read_chapter(path, last)
        if set_ups(again) != set_ups(chapter):
            return read_chapter(path)
    large = dict(zip(map(id, panels), _panels(again), strict=True))

    def enlarged(block):
        return replace(block, panel=large[id(block.panel)]) if isinstance(block, Live) else block

    sections = (replace(section, blocks=[enlarged(one) for one in section.blocks]) for section in chapter.sections)
    return replace(chapter, sections=tuple(sections))


def _panels(chapter):
    return [block.panel for section in chapter.sections for block in section.blocks if isinstance(block, Live)]


def set_ups(chapter):
    """How the panels of a ``chapter`` (`lesson.Chapter`) stand, a list of dict; not their bands, which a projector starts without."""

    def without_bands(parts):
        return {name: value for name, value in parts.items() if name != "bands"}

    return [json.loads(panel.setup(panel.state), object_hook=without_bands) for panel in _panels(chapter)]


def _written(stem, html, wanted):
    """Write a page and its PDF; a line for each, and one where there is no PDF."""
    page = wanted.folder / f"{stem}.html"
    page.write_text(html, encoding="utf-8")
    lines = [str(page)]
    if wanted.pdf:
        pdf = page.with_suffix(".pdf")
        if print_pdf(page, pdf):
            lines.append(str(pdf))
        else:
            page.write_text(with_note(html), encoding="utf-8")
            why = "it could not be printed" if browser() else "no Chromium-like browser was found"
            lines.append(f"{stem}: no PDF, {why}; the page says how to print it yourself")
    return lines


def _parser():
    parser = argparse.ArgumentParser(
        prog="python -m shoulder_model handout",
        description="Make pages to hand out: HTML that needs no network, and PDF where a Chromium-like browser is found.",
        epilog=f"One panel as one page that moves by itself: python -m shoulder_model handout {PANEL} --help",
    )
    parser.add_argument(
        "names",
        nargs="+",
        metavar="NAME",
        help=f"chapters, for example 03_grip_width; {WORK_SHEET}; {START}, a page that leads to all that is there; {ALL} of these",
    )
    parser.add_argument("--reading", action="store_true", help="the version to read only")
    parser.add_argument("--slides", action="store_true", help="the slides only")
    parser.add_argument("--code", action="store_true", help="with the code, in the version to read")
    parser.add_argument(
        "--moving",
        action="store_true",
        help="pull panels move on the page to read; a minute or two more for each chapter",
    )
    parser.add_argument("--no-pdf", dest="pdf", action="store_false", help="HTML only")
    parser.add_argument("--to", type=Path, default=Path(FOLDER), metavar="FOLDER", help=f"where to (default: {FOLDER})")
    return parser


def main(arguments=None, home=HOME):
    """Make what the command line asks for, and print a line for each file.

    Parameters
    ----------
    arguments : list of str, optional
        By default the real command line.
    home : path
        The checkout.

    Returns
    -------
    int
        0, or 1 where a chapter has no page: the number to exit with, without unit.

    Raises
    ------
    inputs.UnknownName
        A chapter that is not there; the text gives the nearest. Nothing has been written then.
    """
    arguments = sys.argv[1:] if arguments is None else arguments
    if arguments[:1] == [PANEL]:
        return panel_command.main(arguments[1:], home)
    options = _parser().parse_args(arguments)
    there = chapters(home)
    names = [choice("chapter", name.removesuffix(".ipynb"), (*there, ALL, WORK_SHEET, START)) for name in options.names]
    made = there if ALL in names else [name for name in dict.fromkeys(names) if name in there]
    both = options.reading == options.slides
    wanted = Wanted(
        options.to, tuple(made), both or options.reading, both or options.slides, options.code, options.pdf,
        options.moving, PROCESSES if len(made) == 1 else 1,
    )  # fmt: skip
    options.to.mkdir(parents=True, exist_ok=True)
    lines = _all_made(made, wanted, home)
    if WORK_SHEET in names or ALL in names:
        lines.append(_written(WORK_SHEET, work_sheet(), wanted))
    if START in names or ALL in names:
        lines.append([folder_page(options.to, home)])
    for line in (line for some in lines for line in some):
        print(line)
    return int(any(": no page" in some[0] for some in lines))


def _all_made(names, wanted, home):
    """The lines of each chapter, in order; several are made by two processes."""
    if len(names) < 2:
        return [make_chapter(name, wanted, home) for name in names]
    slow_first = sorted(names, key=lambda name: SLOW_FIRST.index(name) if name in SLOW_FIRST else len(SLOW_FIRST))
    with processes(min(PROCESSES, os.cpu_count() or 1)) as pool:
        lines = dict(
            zip(slow_first, pool.map(partial(make_chapter, wanted=wanted, home=home), slow_first), strict=True)
        )
    return [lines[name] for name in names]
