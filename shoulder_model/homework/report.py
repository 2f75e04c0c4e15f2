"""What the tutor reads after marking: scores, slips, how the questions worked, what has to be looked after."""

from ..document.parts import Box, Document, Entry, Fields, Heading, Line, NewPage, Picture, Points, Table
from ..printed import plain
from ..words import counted, written
from .item_analysis import analysis_of, item_picture
from .marking import summary
from .sheets import CAUTION

MOST_TOLD, PICTURE_MM = 200, 90  # lines of what is told; width of the picture
CAPTION = "Questions by number. Below the dashed line a question says little about who knows the rest."
SCORE_HEADS, SCORE_WIDTHS = ("student", "sheet", "score", "per cent", "slips by question"), (50, 22, 16, 20, 78)
ITEM_HEADS = (
    "no.",
    "item",
    "mean score",
    "correlation with the rest",
    "top minus bottom",
    "most common slip",
    "what that means",
)
ITEM_WIDTHS = (11, 34, 16, 18, 18, 35, 54)
HOW_TO_READ = (
    "Mean score: 1 = everybody right, 0 = nobody. Correlation with the rest: of its score with the sum of the others. "
    "Top minus bottom: mean score of the best 27 % of the class less that of the weakest 27 %.",
    "Numbers differ from sheet to sheet, the question is the same. An answer within the tolerance of its own key is "
    "right; the right choice for another reason counts half.",
)


def report_document(marks):
    """The report on ``marks`` (`marking.ClassMarks`), a `document.parts.Document` in words."""
    analysis = analysis_of(marks)
    look = f"{counted(len(marks.told), 'thing')} to check, on the last page." if marks.told else "Nothing is missing."
    parts = [Box("In short", (summary(marks), analysis.words, look))]
    if marks.marked:
        parts += [
            Heading("How the questions worked"),
            Table(ITEM_HEADS, tuple(map(_item_row, analysis.items)), ITEM_WIDTHS),
        ]
        parts += [
            Points(HOW_TO_READ),
            Picture(item_picture(analysis), PICTURE_MM, CAPTION),
            NewPage(),
            Heading("Scores"),
        ]
        parts += [Table(SCORE_HEADS, tuple(map(_score_row, marks.everybody)), SCORE_WIDTHS)]
    if marks.told:
        told, more = tuple(map(plain, marks.told[:MOST_TOLD])), len(marks.told) - MOST_TOLD
        parts += [Heading("Please check"), Points(told + ((f"And {more} more.",) if more > 0 else ()))]
    return Document(f"Report: {marks.title}", tuple(parts), f"Report: {marks.title}")


def _figure(value):
    return "–" if value != value else written(value, 2)


def _item_row(one):
    slip = f"{one.slip} ({100 * one.slip_share:.0f} %)" if one.slip else "none named"
    figures = map(_figure, (one.difficulty, one.with_rest, one.upper_lower))
    return (str(one.number), one.name, *figures, slip, one.words)


def _score_row(one):
    count = len(one.verdicts)
    if not count:
        return plain(one.student.label), one.sheet_id, "–", "–", "no answers came"
    slips = "; ".join(f"{place}: {name}" for place, name in one.slips)
    return (
        plain(one.student.label),
        one.sheet_id,
        f"{one.score:g}/{count}",
        f"{100 * one.score / count:.0f}",
        slips,
    )


def feedback_document(marks, one):
    """What one student gets back: a `document.parts.Document` in words, an entry for each question.

    Parameters
    ----------
    marks : marking.ClassMarks
    one : marking.Marked
        Of a student whose answers came, with their texts.
    """
    fields = (("Student", one.student.label), ("Sheet", one.sheet_id), ("Score", f"{one.score:g}/{len(one.verdicts)}"))
    entries = (
        Entry(
            f"{place}: {name}",
            (("Your answer", plain(text) or "–"), ("Feedback", verdict.words), ("Right answer", plain(right))),
        )
        for place, (name, text, verdict, right) in enumerate(
            zip(marks.names, one.answers, one.verdicts, one.right, strict=True), 1
        )
    )
    lead = Line("A line of the solution that is named here is one of the key, which your tutor has.")
    return Document(
        f"Feedback: {marks.title}", (Fields(fields), lead, *entries, Line(CAUTION)), f"Sheet {one.sheet_id}"
    )
