"""What the tests of hand-outs ask of a page, whatever it shows."""

import re
from html import unescape
from html.parser import HTMLParser

VOID = {"meta", "br", "hr", "img", "input", "link", "wbr"}


class Parsed(HTMLParser):
    """A page's names, links, headings and alt texts; ``wrong`` lists tags that do not close in order."""

    def __init__(self, html):
        super().__init__()
        self.ids, self.links, self.headings, self.words, self.wrong, self.open, self.tags = [], [], [], [], [], [], []
        self.feed(html)
        self.close()
        self.wrong += self.open

    def handle_starttag(self, tag, attrs):
        given = dict(attrs)
        self.tags.append(tag)
        self.ids += [given["id"]] if "id" in given else []
        self.links += [given[name] for name in ("href", "xlink:href", "src") if name in given]
        self.words += [given["aria-label"]] if given.get("role") == "img" else []
        if re.fullmatch("h[1-6]", tag):
            self.headings.append(int(tag[1]))
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):
        self.handle_starttag(tag, attrs)
        if tag not in VOID:
            self.open.pop()

    def handle_endtag(self, tag):
        if self.open and self.open[-1] == tag:
            self.open.pop()
        else:
            self.wrong.append(tag)


def body(html):
    """A page's body without its script."""
    return re.sub(r"<script>.*?</script>", "", html[html.index("<body>") : html.rindex("</html>")], flags=re.DOTALL)


def plain(html):
    """The words of a piece of HTML, spaces made one."""
    return re.sub(r"\s+", " ", unescape(re.sub(r"<[^>]*>", "", html))).strip()


def markdown_words(markdown):
    """Pieces of a fold's or text's words that HTML leaves as they are, long enough to be found."""
    text = re.sub(r"!\[[^\]]*\]\([^)]*\)|\$\$.*?\$\$|\[\[\d+\]\([^)]*\)\]|</?pre>", "\n", markdown, flags=re.DOTALL)
    pieces = re.split(r"\n(?:- |\d+\. |> )?|^- |^\d+\. |\*+|\[|\]\([^)]*\)|`|\$|\|", text)
    return [unescape(re.sub(r"\s+", " ", piece)).strip() for piece in pieces if len(piece.strip()) > 25]


def asked_from_outside(html):
    """Addresses in a page that are no place on it, no data in it and no page beside it."""
    addresses = re.findall(r"url\(\s*['\"]?([^'\")]*)", html) + Parsed(body(html)).links
    return [one for one in addresses if not re.match(r"#|data:", one) and not re.fullmatch(r"\w+\.html", one)]
