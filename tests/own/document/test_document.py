"""A document of every part on both papers: the same words, nothing lost, no question split, pictures as they are
meant.
"""

import io
import re
from html import escape

import pytest
from pypdf import PdfReader
from pypdf.generic import ContentStream

from shoulder_model.document.html import PAPERS, STYLE, document_html
from shoulder_model.document.parts import (
    Box,
    Document,
    Entry,
    Fields,
    Heading,
    Line,
    NewPage,
    Numbered,
    Picture,
    Points,
    Question,
    Table,
)
from shoulder_model.document.pdf import document_pdf, shown
from shoulder_model.document.scene import KINDS, Dot, Label, Mark, Scene, Stroke
from shoulder_model.inputs import InputError
from shoulder_model.printed import plain

from .papers import check_inside, check_same_on_both, pages, read, squeezed

SIZES = {"A4": (595.28, 841.89), "Letter": (612, 792)}
SCENE = Scene(
    "A line <up> & away",
    50.0,
    (
        *(Stroke(((5, 5 + 8 * row), (60, 5 + 8 * row)), kind) for row, kind in enumerate(KINDS)),
        Stroke(((70, 45), (70, 10)), "load", True),
        Dot(80, 20),
        Dot(80, 30, open=True),
        Label(72, 8, "pull <b> & up"),
        Label(95, 48, "end", "end"),
    ),
    (Mark("A", 20, 20, "left"), Mark("B", 50, 40, "right")),
)
QUESTION = Question(
    "1", ("What is asked?", "And more."), (("Choice", (("a", "one"), ("b", "two"))), ("", (("1", "x"),))),
    Picture(SCENE),
    "Answer", "N m", 10,
)  # fmt: skip
EVERY = Document(
    "A title & more",
    (
        Fields((("Name", "Zoë"), ("Date", ""))),
        Box("Read", ("first", "second")),
        Heading("Head"),
        Line("A line, 8–12."),
        Line("strong", strong=True),
        Points(("one point", "another")),
        Entry("Entry", (("Label", "words"),)),
        Numbered("Worked", ("first line", "second line")),
        Table(("h1", "h2"), (("a", "b"), ("a", "c")), (1, 2)),
        QUESTION,
        Picture(SCENE, 60, "A caption"),
        NewPage(),
        Line("Last"),
    ),
    'Sheet "7" <\\ é',
)


@pytest.mark.parametrize("paper", PAPERS)
def test_every_part_stands_on_both_papers_in_the_same_words(paper):
    check_same_on_both(EVERY, document_html(EVERY, paper), document_pdf(EVERY, paper), EVERY.footer)
    check_inside(document_pdf(EVERY, paper), SIZES[paper])


def test_the_words_below_each_page_cannot_leave_the_style_sheet():
    html = document_html(Document("t", (Line("x"),), '"; } </style><b>'))
    inside = re.search(r"<style>(.*?)</style>", html, re.DOTALL)[1]
    assert "content: " in inside and "<" not in inside and html.count("</style>") == 1
    content = re.search(r'content: "([^"]*)" counter', inside)[1]
    meant = re.sub(r"\\([0-9a-f]{4,6}) ", lambda found: chr(int(found[1], 16)), content)
    assert meant.strip() == '"; } </style><b>'


def test_no_page_ends_inside_a_question():
    questions = tuple(
        Question(str(number), (f"Question {number}?",), QUESTION.lists, QUESTION.picture) for number in range(1, 12)
    )
    document = Document("t", questions)
    printed = [squeezed(page) for page in pages(document_pdf(document))]
    for number in range(1, 12):
        whole = squeezed("".join(Document("", (questions[number - 1],)).texts))
        assert sum(whole in page for page in printed) == 1, number
    assert ".question { display: grid" in STYLE and "section { break-inside: avoid" in STYLE


def test_one_document_gives_one_file():
    assert document_pdf(EVERY) == document_pdf(EVERY) and document_html(EVERY) == document_html(EVERY)


def test_a_picture_has_words_and_arrow_heads_of_its_own():
    html = document_html(Document("t", (Picture(SCENE), Picture(SCENE))))
    assert html.count(f'aria-label="{escape(SCENE.full_words)}"') == 2
    names = re.findall(r'marker id="([^"]+)"', html)
    assert len(names) == len(set(names)) == 2
    assert all(f"url(#{name})" in html for name in names)
    assert "figcaption" not in read(html).tags


def test_the_pdf_draws_what_the_picture_has():
    """Lines with their dashes and greys, an arrow's head, dots, letters."""
    reader = PdfReader(io.BytesIO(document_pdf(Document("t", (Picture(SCENE, 100),)))))
    operations = ContentStream(reader.pages[0].get_contents(), reader).operations
    dashes = [numbers for numbers, operator in operations if operator == b"d" and len(numbers[0])]
    assert len(dashes) == sum(bool(dashes) for _, _, dashes in KINDS.values())
    filled = sum(operator == b"f" for _, operator in operations)
    assert filled >= 1  # the head of the arrow
    rings = sum(operator in (b"B", b"b", b"B*") for _, operator in operations)
    assert rings == 2 + len(SCENE.marks)
    greys = {tuple(map(float, numbers)) for numbers, operator in operations if operator in (b"RG", b"G")}
    assert len(greys) >= 3 and all(len(set(grey)) == 1 for grey in greys)


def test_the_arrow_points_where_the_line_goes_and_its_tip_is_at_the_end():
    scene = Scene("w", 50.0, (Stroke(((50, 40), (50, 10)), "load", True),))
    reader = PdfReader(io.BytesIO(document_pdf(Document("t", (Picture(scene, 100),)))))
    corners = []
    for numbers, operator in ContentStream(reader.pages[0].get_contents(), reader).operations:
        if operator in (b"m", b"l"):
            corners.append((float(numbers[0]), float(numbers[1])))
        elif operator == b"f":
            break
    tip, *sides = corners[-3:]
    assert tip[1] > max(y for _, y in sides)  # y goes up on paper
    assert sum(x for x, _ in sides) / 2 == pytest.approx(tip[0], abs=0.01)


def test_letters_from_the_right_are_turned_for_paper():
    assert shown("\u05d0\u05d1\u05d2") == "\u05d2\u05d1\u05d0" and shown("abc") == "abc"
    assert plain("\u05d0\u05d1 c") == "\u05d0\u05d1 c"


@pytest.mark.parametrize("make", [document_html, document_pdf])
@pytest.mark.parametrize("paper", ["A5", None, 4])
def test_another_paper_is_refused(make, paper):
    with pytest.raises(InputError):
        make(EVERY, paper)


def test_no_colour_is_in_the_style():
    assert set(re.findall(r"#\w{3,6}\b", STYLE)) <= {"#000", "#fff", "#e6e6e6"}
