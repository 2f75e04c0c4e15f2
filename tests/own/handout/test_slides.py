"""The slides as they are before a browser spreads them: order, and what is in the page."""

import re

from shoulder_model.handout.command import for_projector, set_ups
from shoulder_model.lesson import Ask, Fold, Live

from .conftest import HOME
from .pages import Parsed, asked_from_outside, body, markdown_words, plain


def groups(page):
    """Heading and words of each group."""
    found = re.findall(
        r'<div class="group".*?<(h[12])[^>]*>(.*?)</\1>(.*?)(?=<div class="group"|</main>)', body(page), re.DOTALL
    )
    return [(plain(title), plain(rest)) for _, title, rest in found]


def test_a_guess_has_a_slide_of_its_own_and_its_answer_comes_next(chapter, slides):
    titles = [title for title, _ in groups(slides)]
    asked = [one.guess for part in chapter.sections for one in part.blocks if isinstance(one, Ask)]
    numbers = [int(title.split()[1]) for title in titles if title.startswith("Guess")]
    assert len(numbers) == len(asked)
    for guess, number in zip(asked, numbers, strict=True):
        place = titles.index(f"Guess {number}")
        assert titles[place + 1] == f"Answer {number}"
        assert guess.question in groups(slides)[place][1] and guess.because not in groups(slides)[place][1]
        assert guess.because in groups(slides)[place + 1][1]


def test_solutions_come_next_to_their_exercises_and_more_and_notes_at_the_end(chapter, slides):
    names = [title for title, _ in groups(slides)]
    for place, name in enumerate(names):
        if name.startswith("Solution"):
            assert names[place - 1] == "3.9 Exercises"
    assert names.index("More, for those who want it") > names.index("3.10 Say it out loud")
    assert names[-2:] == ["Words", "Notes"]
    text = plain(body(slides))
    for one in [block for part in chapter.sections for block in part.blocks if isinstance(block, Fold)]:
        assert all(piece in text for piece in markdown_words(one.markdown))


def test_slides_need_nothing_else_and_show_no_code(slides):
    parsed = Parsed(body(slides))
    assert not parsed.wrong and len(parsed.ids) == len(set(parsed.ids)) and not asked_from_outside(slides)
    assert all(link[1:] in parsed.ids for link in parsed.links if link.startswith("#"))
    assert not re.search(r"\bGuess\(|\bimport\b", plain(body(slides))) and len(slides.encode()) < 5e6


def test_no_letter_is_set_smaller_than_24_pixels():
    sheet = (HOME / "shoulder_model" / "handout" / "slides.css").read_text(encoding="utf-8")
    sizes = [float(size) for size in re.findall(r"font-size: ([\d.]+)px", sheet)]
    assert len(sizes) > 8 and min(sizes) >= 24 and len(re.findall("font-size:", sheet)) == len(sizes)


def test_panels_are_made_again_for_a_projector_and_say_the_same(chapter):
    large = for_projector(chapter, HOME / "workbook" / "03_grip_width.ipynb")
    pairs = [
        (one, other)
        for part, again in zip(chapter.sections, large.sections, strict=True)
        for one, other in zip(part.blocks, again.blocks, strict=True)
    ]
    panels = [(one.panel, other.panel) for one, other in pairs if isinstance(one, Live)]
    assert panels and all(one is other for one, other in pairs if not isinstance(one, Live))
    assert set_ups(chapter) == set_ups(large)
    for one, other in panels:
        assert other.stage.width < one.stage.width and one.bands.is_on and not other.bands.is_on
