"""A document as PDF, on A4 or Letter, in black and white.

Of matplotlib only its font is used, from its folder; it is not imported.
"""

import unicodedata
from datetime import UTC, datetime
from importlib.util import find_spec
from pathlib import Path

from fpdf import FPDF
from fpdf.bidi import BidiParagraph
from fpdf.fonts import FontFace

from ..inputs import choice
from ..printed import unsteered
from .html import PAPERS
from .parts import Box, Entry, Fields, Heading, Line, NewPage, Numbered, Picture, Points, Question, Table
from .pdf_scene import draw

FAMILY = "DejaVu"
MARGIN, LABEL, BLANK, GAP = 12, 25, 100, 1.5  # mm
TITLE_SIZE, HEADING_SIZE, SIZE, TABLE_SIZE, SMALL = 16, 12, 10.5, 9.5, 8.5  # points
LINE = 0.47  # height of a line in mm for each point of its letters
WRITING = 6.2  # mm, least height of a line that is written on by hand
KEPT = 60  # mm, that a heading needs below it
GREY, THIN, THICK = 230, 0.2, 0.6  # heads of a table; lines in mm
NO_TIME = datetime(2000, 1, 1, tzinfo=UTC)  # the same document gives the same file
PAGES = "{  }"  # becomes the number of pages; two spaces running stand in no text of a page
RIGHT_TO_LEFT = ("R", "AL")
NUMBER, SIGN, ANSWER, APART = 9, 7, 62, 3  # mm: columns of a question's number and of signs, the line to write on, air


def document_pdf(document, paper="A4"):
    """A whole document as the bytes of a PDF; it holds what `html.document_html` holds, in the same words.

    Parameters
    ----------
    document : parts.Document
    paper : "A4" or "Letter"
        Its name.

    Raises
    ------
    InputError
        The paper is another.
    """
    choice("paper", paper, PAPERS)
    sheet = Sheet(document.title, paper, document.footer)
    for part in document.parts:
        sheet.put(part)
    return bytes(sheet.output())


def shown(words):
    """One line of ``words`` in the order its letters have on paper from the left; a script from the right is turned."""
    words = unsteered(words)
    if any(unicodedata.bidirectional(letter) in RIGHT_TO_LEFT for letter in words):
        return BidiParagraph(text=words, base_direction=None).get_reordered_string()
    return words


class Sheet(FPDF):
    """A PDF that parts of a document are put on, from the top. Lengths in mm, letters in points.

    ``title``, ``paper`` and ``below``, what stands below each page, are text.
    """

    def __init__(self, title, paper, below=""):
        self._below = f"{shown(below)}    " if below else ""
        super().__init__(unit="mm", format=paper)
        folder = Path(find_spec("matplotlib").submodule_search_locations[0]) / "mpl-data" / "fonts" / "ttf"
        self.add_font(FAMILY, "", folder / "DejaVuSans.ttf")
        self.add_font(FAMILY, "B", folder / "DejaVuSans-Bold.ttf")
        self.set_creation_date(NO_TIME)
        self.set_title(title)
        self.set_lang("en")
        self.alias_nb_pages(PAGES)
        self.set_margin(MARGIN)
        self.set_auto_page_break(True, MARGIN + 2)
        self.c_margin = 0
        self._broken = {}
        self.set_line_width(THIN)
        self.add_page()
        self._write(title, TITLE_SIZE, strong=True)
        self.ln(GAP)

    def footer(self):
        """The number of the page, in words, behind what else stands below each."""
        self.set_font(FAMILY, "", SMALL)
        self.set_y(-MARGIN + 1)
        self.cell(self.epw, 4, f"{self._below}{self.page_no()} / {PAGES}", align="C")

    def put(self, part):
        """Put one ``part`` of a document (`parts`), words, a table or a picture, below what stands there."""
        _PUT[type(part)](self, part)
        self.ln(GAP)

    def _lines(self, words, size, width, strong=False):
        """Words broken into lines of text for a width."""
        self.set_font(FAMILY, "B" if strong else "", size)
        key = words, size, width, strong
        if key not in self._broken:
            self._broken[key] = (
                self.multi_cell(width, text=words, dry_run=True, output="LINES", align="L") if words else []
            )
        return self._broken[key]

    def _write(self, words, size=SIZE, left=0.0, strong=False):
        """Words, broken into lines, so far from the left margin."""
        for line in self._lines(words, size, self.epw - left, strong):
            self.set_x(self.l_margin + left)
            self.cell(self.epw - left, LINE * size, shown(line), new_x="LMARGIN", new_y="NEXT")

    def _room(self, height):
        """Go on a new page where so much height is not left."""
        if self.will_page_break(height):
            self.add_page()

    def _tall(self, words, size=SIZE, left=0.0):
        return LINE * size * len(self._lines(words, size, self.epw - left))

    def _pair(self, label, words):
        top = self.y
        self._write(label, strong=True)
        self.y = top
        self._write(words, left=LABEL)

    def _fields(self, part):
        for label, words in part.pairs:
            if words:
                self._pair(label, words)
            else:
                self.ln(GAP)
                self._write(label, strong=True)
                self.line(self.l_margin + LABEL, self.y, self.l_margin + LABEL + BLANK, self.y)
            self.ln(GAP / 2)

    def _heading(self, part):
        self._room(KEPT)
        self.ln(GAP)
        self._write(part.text, HEADING_SIZE, strong=True)

    def _line(self, part):
        self._room(self._tall(part.text))
        self._write(part.text, strong=part.strong)

    def _points(self, part):
        for line in part.lines:
            self._room(self._tall(line, left=4))
            top = self.y
            self._write("•")
            self.y = top
            self._write(line, left=4)

    def _box(self, part):
        self._room(sum(self._tall(line, left=6) + GAP for line in part.lines) + 10)
        top = self.y
        self.l_margin, self.r_margin = self.l_margin + 3, self.r_margin + 3
        self.y += 2
        self._write(part.title, SIZE + 1, strong=True)
        for line in part.lines:
            self.ln(GAP / 2)
            self._write(line)
        self.l_margin, self.r_margin = self.l_margin - 3, self.r_margin - 3
        self.y += 2
        self.set_line_width(THICK)
        self.rect(self.l_margin, top, self.epw, self.y - top)
        self.set_line_width(THIN)

    def _entry(self, part):
        self._room(LINE * SIZE + sum(self._tall(words, left=LABEL) for _, words in part.pairs))
        self._write(part.head, strong=True)
        for label, words in part.pairs:
            self._pair(label, words)

    def _table(self, part):
        size = SMALL if part.to_write else TABLE_SIZE
        self.set_font(FAMILY, "", size)
        bold = FontFace(emphasis="BOLD")
        with self.table(
            col_widths=part.widths, text_align="LEFT", v_align="M" if part.to_write else "T", padding=(0.8, 1),
            line_height=LINE * size, min_row_height=WRITING if part.to_write else None,
            headings_style=FontFace(emphasis="BOLD", fill_color=GREY),
        ) as table:  # fmt: skip
            table.row(map(shown, part.heads))
            for first, rows in part.groups:
                for place, cells in enumerate(rows):
                    row = table.row()
                    if not place:
                        row.cell(shown(first), rowspan=len(rows), style=bold, v_align="T")
                    for cell in cells:
                        row.cell(shown(cell))

    def _new_page(self, part):
        self.add_page()

    def _tall_signs(self, pairs, left):
        return sum(self._tall(words, left=left + SIGN) + GAP / 2 for _, words in pairs)

    def _signs(self, pairs, left=0.0):
        """Texts with a sign before each, in a column of its own."""
        for sign, words in pairs:
            top = self.y
            self._write(sign, left=left, strong=True)
            self.y = top
            self._write(words, left=left + SIGN)
            self.ln(GAP / 2)

    def _picture(self, part, left=0.0):
        tall = part.width / 100 * part.scene.height
        self._room(tall + (self._tall(part.caption) if part.caption else 0))
        draw(self, part.scene, self.l_margin + left, self.y, part.width, (FAMILY, shown))
        self.y += tall + GAP
        if part.caption:
            self._write(part.caption, TABLE_SIZE, left)

    def _tall_question(self, part):
        tall = sum(self._tall(words, left=NUMBER) + GAP for words in part.paragraphs)
        if part.picture:
            tall += part.picture.width / 100 * part.picture.scene.height + 2 * GAP
        for title, pairs in part.lists:
            tall += (LINE * SIZE if title else 0) + self._tall_signs(pairs, NUMBER) + GAP
        return tall + 3 * APART + LINE * SIZE + part.space

    def _question(self, part):
        self._room(self._tall_question(part))
        self.ln(APART)
        top = self.y
        self._write(part.number, HEADING_SIZE, strong=True)
        self.y = top
        for words in part.paragraphs:
            self._write(words, left=NUMBER)
            self.ln(GAP)
        if part.picture:
            self._picture(part.picture, NUMBER)
        for title, pairs in part.lists:
            if title:
                self._write(title, left=NUMBER, strong=True)
            self._signs(pairs, NUMBER)
            self.ln(GAP / 2)
        self.ln(APART + part.space)
        self._answer(part)
        self.ln(APART)

    def _answer(self, part):
        top, wide = self.y, self._wide(part.answer) + 2
        self._write(part.answer, left=NUMBER, strong=True)
        x = self.l_margin + NUMBER + wide
        self.line(x, self.y, x + ANSWER, self.y)
        if part.unit:
            self.y = top
            self._write(part.unit, left=NUMBER + wide + ANSWER + 2)

    def _wide(self, words):
        self.set_font(FAMILY, "B", SIZE)
        return self.get_string_width(shown(words))

    def _numbered(self, part):
        pairs = tuple((str(place), line) for place, line in enumerate(part.lines, 1))
        self._room(self._tall(part.head) + self._tall_signs(pairs, 0) + GAP)
        self.ln(GAP)
        self._write(part.head, strong=True)
        self._signs(pairs)


_PUT = {
    Fields: Sheet._fields, Heading: Sheet._heading, Line: Sheet._line, Points: Sheet._points, Box: Sheet._box,
    Entry: Sheet._entry, Table: Sheet._table, NewPage: Sheet._new_page, Picture: Sheet._picture,
    Question: Sheet._question,
    Numbered: Sheet._numbered,
}  # fmt: skip
