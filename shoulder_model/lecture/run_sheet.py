"""Run sheets: the plan of a lecture, step by step, in a small TOML file that a tutor writes with any editor.

What is wrong with a sheet is said in one line: file, line, what is wrong, what to do. Nothing in a sheet is run or formatted,
and only ``saved`` names a file, in the sheet's own folder.
"""

import tomllib
from pathlib import Path

from ..checkout import HOME
from ..given_file import path_of
from ..inputs import InputError
from ..toml_file import Wrong, file_text, one_line, tables
from .sheet_reader import Reader

SHEETS, TEMPLATE = Path(__file__).parent / "sheets", "template.toml"
LONGEST_ERROR = 300  # characters


class RunSheetError(InputError):
    """A run sheet that cannot be used; its text is one line: file, line, what is wrong, what to do."""


def sheets():
    """The run sheets that come with the package: name -> title and minutes in words, a dict."""
    found = sorted(path for path in SHEETS.glob("*.toml") if path.name != TEMPLATE)
    read = {path.stem: tomllib.loads(path.read_text(encoding="utf-8")) for path in found}
    return {name: f"{sheet['title']} ({sheet['minutes']:g} minutes)" for name, sheet in read.items()}


def write_template(path):
    """Write a run sheet with every key explained, as text, to ``path`` (path-like).

    Raises
    ------
    InputError
        There is one already, which stays as it is; or it cannot be written there.
    """
    try:
        with Path(path).open("x", encoding="utf-8") as file:
            file.write((SHEETS / TEMPLATE).read_text(encoding="utf-8"))
    except FileExistsError:
        raise InputError(
            "path", f"{one_line(path, 150)} is there already and stays as it is; give another name"
        ) from None
    except (OSError, ValueError) as error:
        said = getattr(error, "strerror", None) or "its name cannot be used"
        raise InputError(
            "path", f"{one_line(path, 150)} cannot be written ({said}); give another name or folder"
        ) from None


def sheet_path(name):
    """The path of the run sheet called ``name`` (str or path-like): one that comes with the package, or somebody's file.

    Raises
    ------
    RunSheetError
        One line, where it is no path.
    """
    if str(name) in (*sheets(), "template"):
        return SHEETS / f"{name}.toml"
    try:
        return path_of(name)
    except InputError as error:
        raise RunSheetError("name", one_line(f"run sheet, {error}", LONGEST_ERROR)) from None


def read_run_sheet(name, home=HOME):
    """A run sheet.

    Parameters
    ----------
    name : str or path-like
        Of one that comes with the package, as `sheets` has it, or the path of a file.
    home : path-like
        The folder with the workbook and the figures.

    Returns
    -------
    RunSheet

    Raises
    ------
    RunSheetError
        One line: file, line, what is wrong, what to do.
    """
    path = sheet_path(name)
    if not path.suffix and not path.exists():
        known = ", ".join(sheets())
        raise RunSheetError(
            "name", one_line(f"no run sheet {str(name)!r}: give a .toml file, or one of {known}", LONGEST_ERROR)
        )
    try:
        text = file_text(path)
    except Wrong as wrong:
        raise _said(path.name, wrong) from None
    return parse_run_sheet(text, path.parent, home, path.name, str(name))


def parse_run_sheet(text, folder, home=HOME, file="run sheet", name=""):
    """A run sheet from its text.

    Parameters
    ----------
    text : str
    folder : path-like
        Where the set-ups lie that it names as saved.
    home : path-like
        The folder with the workbook and the figures.
    file : str
        What to call it where something is wrong.
    name : str
        What `read_run_sheet` reads it by.

    Returns
    -------
    RunSheet

    Raises
    ------
    RunSheetError
        As `read_run_sheet`.
    """
    try:
        text = text.removeprefix("\ufeff")
        return Reader(text, Path(folder), Path(home)).sheet(tables(text), name)
    except Wrong as wrong:
        raise _said(file, wrong) from None


def _said(file, wrong):
    """What is wrong as the error that callers get."""
    return RunSheetError(
        wrong.field, one_line(f"{one_line(file, 60)}, line {wrong.line}: {wrong.words}", LONGEST_ERROR)
    )
