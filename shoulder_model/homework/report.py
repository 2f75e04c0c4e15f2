"""What the tutor reads after marking: scores, slips, how the questions worked, what has to be looked after."""

from ..document.parts import Box, Document, Heading, NewPage, Picture, Points, Table, plain
from ..words import counted, written
from .item_analysis import analysis_of, item_picture
from .marking import summary

MOST_TOLD, PICTURE_MM = 200, 90  # lines of what is told; width of the picture
CAPTION = "Questions by number. Below the dashed line a question says little about who knows the rest."
SCORE_HEADS, SCORE_WIDTHS = ("student", "sheet", "score", "per cent", "slips by question"), (50, 22, 16, 20, 78)
ITEM_HEADS = (
    "no.",
    "item",
    "mean score",
    "with the rest",
    "upper less lower",
    "commonest slip",
    "what that means",
)
ITEM_WIDTHS = (11, 34, 16, 18, 18, 35, 54)
HOW_TO_READ = (
    "Mean score: 1 is everybody, 0 nobody. With the rest: correlation of its score with the sum of the others. "
    "Upper less lower: mean score of the best 27 % of the class less that of the weakest 27 %.",
    "Numbers differ from sheet to sheet, the question is the same. An answer within the tolerance of its own key is "
    "right; the right choice for another reason counts half.",
)


def report_document(marks):
    """The report on ``marks`` (`marking.ClassMarks`), a `document.parts.Document` in words."""
    analysis = analysis_of(marks)
    look = f"{counted(len(marks.told), 'line')} to look at, on the last page." if marks.told else "Nothing is missing."
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
        parts += [Table(SCORE_HEADS, tuple(_score_row(one) for one in marks.marked), SCORE_WIDTHS)]
    if marks.told:
        told, more = tuple(map(plain, marks.told[:MOST_TOLD])), len(marks.told) - MOST_TOLD
        parts += [Heading("Please look at"), Points(told + ((f"And {more} more.",) if more > 0 else ()))]
    return Document(f"Report: {marks.title}", tuple(parts), f"Report: {marks.title}")


def _figure(value):
    return "–" if value != value else written(value, 2)


def _item_row(one):
    slip = f"{one.slip} ({100 * one.slip_share:.0f} %)" if one.slip else "none named"
    figures = map(_figure, (one.difficulty, one.with_rest, one.upper_lower))
    return (str(one.number), one.name, *figures, slip, one.words)


def _score_row(one):
    count = len(one.verdicts)
    slips = "; ".join(f"{place}: {name}" for place, name in one.slips)
    return (
        plain(one.student.label),
        one.sheet_id,
        f"{one.score:g} of {count}",
        f"{100 * one.score / count:.0f}",
        slips,
    )
