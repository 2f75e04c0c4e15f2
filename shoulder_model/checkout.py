"""Where the workbook lies, and the names by which the launcher tells a lecture's kernel what to show."""

from pathlib import Path

from .inputs import InputError, choice

CHECKOUT, PACKED = Path(__file__).parents[1], Path(__file__).parent / "course"
HOME = PACKED if not (CHECKOUT / "workbook").is_dir() and PACKED.is_dir() else CHECKOUT  # packed: installed as a wheel
FIRST = "00_start"  # the chapter that opens where none is asked for
LECTURE, LECTURE_STATE = (
    "SHOULDER_MODEL_LECTURE",
    "SHOULDER_MODEL_LECTURE_STATE",
)  # variables: run sheet or chapter; folder


class NoWorkbook(RuntimeError):
    """The notebooks are not where the package expects them."""


def chapter_path(home, name):
    """Where the notebook of the chapter called ``name`` (str) lies in the checkout ``home`` (path)."""
    return Path(home) / "workbook" / f"{name}.ipynb"


def chapters(home=HOME):
    """Names of the workbook's chapters, a list of str; ``home`` (path) is the checkout.

    Raises
    ------
    NoWorkbook
        Where there is no workbook beside the package.
    """
    names = sorted(path.stem for path in (home / "workbook").glob("*.ipynb"))
    if not names:
        raise NoWorkbook(
            f"no notebooks in {home / 'workbook'}: get the whole project and install it with 'pip install -e .'"
        )
    return names


def chapter_called(text, names):
    """The one of ``names`` (list of str) that a reader means with ``text`` (str): its name, number or a part of it.

    Raises
    ------
    InputError
        Where none or more than one fits; the text gives the nearest.

    >>> chapter_called("3", ["01_levers", "03_grip_width"])
    '03_grip_width'
    """
    wanted = text.strip().removesuffix(".ipynb").replace("\\", "/").rpartition("/")[2].lower()
    number = f"{int(wanted):02d}" if wanted.isascii() and wanted.isdigit() and len(wanted) < 3 else wanted
    for fits in (
        [name for name in names if name.lower() == wanted],
        [name for name in names if name.lower().startswith(f"{number}_")],
        [name for name in names if wanted and wanted in name.lower()],
    ):
        if len(fits) == 1:
            return fits[0]
        if fits:
            raise InputError("chapter", f"chapter {text!r} may be {' or '.join(fits)}; say which")
    if number.isdigit():
        near = sorted((abs(int(name[:2]) - int(number)), name) for name in names if name[:2].isdigit())[:2]
        raise InputError("chapter", f"chapter {text!r} is not known; nearest: {', '.join(name for _, name in near)}")
    return choice("chapter", wanted, names)
