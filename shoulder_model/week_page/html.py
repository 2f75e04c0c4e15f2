"""The page of a week as HTML that stands alone."""

from ..document.html import document_html
from ..document.html import table_html as one_table
from .parts import document, week_table


def page_html(answer, *, date="", paper="A4"):
    """A whole page to print, as HTML text.

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
    return document_html(document(answer, date), paper)


def table_html(plan):
    """The days of a ``plan`` (`week.plan.Plan`) as an HTML table, in words, to be shown inside another page."""
    return one_table(week_table(plan))
