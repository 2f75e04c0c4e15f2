"""The fonts in a page: every character, in every face, and small."""

import base64
import io
import re

import pytest
from fontTools.ttLib import TTFont

from shoulder_model.handout.fonts import FACES, font_faces

from .pages import body, plain


def embedded(page):
    """Family, weight, style and characters of each font in a page."""
    rule = (
        r"font-family: '([^']+)'; font-weight: (\d+); font-style: (\w+); src: url\(data:font/woff;base64,([^)]+)\) "
        r"format\('woff'\)"
    )
    for family, weight, slant, data in re.findall(rule, page):
        with TTFont(io.BytesIO(base64.b64decode(data))) as font:
            yield family, int(weight), slant, set(map(chr, font.getBestCmap()))


@pytest.mark.parametrize("kind", ["reading", "slides"])
def test_every_face_has_every_character_of_the_page(kind, request):
    page = request.getfixturevalue(kind)
    fonts = list(embedded(page))
    assert [font[:3] for font in fonts] == [face[:3] for face in FACES]
    used = {one for one in body(page) if one.isprintable()}
    assert {"×", "−", "✓"} <= used
    for *_, characters in fonts[:2]:
        assert used <= characters
    assert {one for one in used if one.isascii()} <= fonts[2][3] & fonts[3][3]
    printed = plain("".join(re.findall(r"<pre>.*?</pre>", page, re.DOTALL)))
    assert "✓" in printed and set(printed) <= fonts[3][3]


def test_only_the_characters_asked_for_are_in_it():
    *_, characters = next(embedded(font_faces("abc")))
    assert characters == {"a", "b", "c", " "}
    assert len(font_faces("abc")) < 40_000
