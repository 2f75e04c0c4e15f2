"""The page of a week as PDF."""

from ..document.pdf import document_pdf
from .parts import document


def page_pdf(answer, *, date="", paper="A4"):
    """A whole page to print, as the bytes of a PDF; it holds what `html.page_html` holds, in the same words.

    Parameters
    ----------
    answer : plan.Plan, health.NoWeek, or a tuple of two of them
    date : str
        As it is to be printed; without it there is a line to write on.
    paper : "A4" or "Letter"

    Raises
    ------
    InputError
        As `parts.document`; or the paper is another.
    """
    return document_pdf(document(answer, date), paper)
