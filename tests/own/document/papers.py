"""What stands on a printed page: the texts of HTML and PDF, and where lines end."""

import io
import re
from html.parser import HTMLParser

from pypdf import PdfReader
from pypdf.generic import ContentStream

from shoulder_model.document.parts import Document


def squeezed(text):
    """A text without blanks."""
    return re.sub(r"\s+", "", text)


def pages(pdf):
    """The text of each page of a PDF, given as bytes."""
    return [page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages]


class Texts(HTMLParser):
    """Texts between tags of an HTML page, in order; every tag that opens closes, nothing is fetched, nothing runs."""

    def __init__(self):
        super().__init__()
        self.open, self.texts, self.tags = [], [], []

    def handle_starttag(self, tag, attributes):
        assert tag not in ("script", "link", "img", "iframe") and not {"src", "href"} & {name for name, _ in attributes}
        assert not any(name.startswith("on") for name, _ in attributes)
        self.tags.append(tag)
        if tag not in ("meta", "col"):
            self.open.append(tag)

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        if self.open and self.open[-1] not in ("style", "title") and data.strip():
            self.texts.append(data)


def read(html):
    """The `Texts` of a whole page."""
    reader = Texts()
    reader.feed(html)
    reader.close()
    assert not reader.open
    return reader


def drawn(page, reader):
    """Corners of every rectangle and ends of every line on a page, in points."""
    for numbers, operator in ContentStream(page.get_contents(), reader).operations:
        if operator in (b"m", b"l"):
            yield float(numbers[0]), float(numbers[1])
        elif operator == b"re":
            x, y, wide, tall = map(float, numbers)
            yield from ((x, y), (x + wide, y + tall))


def check_same_on_both(document, html, pdf, footer=""):
    """HTML and PDF hold every text of a document in order, and no other; no word of the PDF is broken."""
    assert squeezed("".join(read(html).texts)) == squeezed("".join(document.texts))
    printed = pages(pdf)
    footers = [f"{squeezed(footer)}{place}/{len(printed)}" for place in range(1, len(printed) + 1)]
    each = []
    for page, foot in zip(printed, footers, strict=True):
        assert squeezed(page).endswith(foot)
        each.append(squeezed(page).removesuffix(foot))
    left = "".join(each).replace("•", "")  # the mark before a point
    for text in document.texts:
        before, there, left = left.partition(squeezed(text))
        assert there and (not before or before in squeezed("".join(document.texts))), (
            text
        )  # only heads that are repeated
    assert not left
    there = {word for page in printed for word in page.split()}
    letters = {
        text
        for part in document.parts
        if getattr(part, "picture", None)
        for text in Document("", (part.picture,)).texts
    }
    assert {word for text in document.texts if text not in letters for word in text.split()} <= there


def check_inside(pdf, size):
    """Nothing of a PDF is printed outside the margins of a paper, in points."""
    reader = PdfReader(io.BytesIO(pdf))
    for page in reader.pages:
        places = []
        page.extract_text(visitor_text=lambda text, _, at, *rest, places=places: places.append((text, at[4], at[5])))
        assert all(30 < x < size[0] - 30 and 20 < y < size[1] - 30 for text, x, y in places if text.strip())
        assert all(30 < x < size[0] - 30 and 30 < y < size[1] - 30 for x, y in drawn(page, reader))
