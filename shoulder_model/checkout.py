"""Where the workbook lies, and the names by which the launcher tells a lecture's kernel what to show."""

from pathlib import Path

HOME = Path(__file__).parents[1]  # the checkout
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
