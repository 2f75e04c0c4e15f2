"""The reading version: nothing answers a guess before the answers, nothing gets lost, everything is in the page."""

import re

import pytest

from shoulder_model.handout.page import CAUTION, with_note
from shoulder_model.handout.paper import Part, paper_of
from shoulder_model.handout.prose import labels, works_the_page
from shoulder_model.handout.reading import reading_page
from shoulder_model.lesson import Ask, Chapter, Code, Fold, Lines, Live, Section, Text, read_chapter
from shoulder_model.panels import GripPanel, Guess

from .conftest import FIGURES, HOME
from .pages import Parsed, asked_from_outside, body, markdown_words, plain

QUICK = ("00_start", "02_one_arm_one_plane", "a1_out_of_the_plane")


def check_answers_come_last(chapter, page):
    """All that a guess or a fold "Answer" tells stands behind the heading of the answers, and is there."""
    before, after = body(page).split('<section aria-labelledby="answers">')
    before, after = plain(before), plain(after)
    blocks = [block for section in chapter.sections for block in section.blocks]
    told = [
        piece
        for one in blocks
        if isinstance(one, Fold) and one.kind == "Answer"
        for piece in markdown_words(one.markdown)
    ]
    told += [re.sub(r"\s+", " ", one.guess.because) for one in blocks if isinstance(one, Ask)]
    assert told
    controls = labels([one.panel for one in blocks if isinstance(one, Live)])
    for piece in told:
        assert piece not in before and (piece in after or works_the_page(piece, controls)), piece
    assert sum(piece in after for piece in told) > 0.9 * len(told)
    shown = body(page).index('id="answers"')
    for one in blocks:
        if isinstance(one, Live) and one.asked:
            assert body(page).index(plain(one.panel.picture.said["verdict"])[:20]) > shown


def check_the_page(page):
    """One page that needs no other: links, headings, tags."""
    parsed = Parsed(body(page))
    assert not parsed.wrong
    assert len(parsed.ids) == len(set(parsed.ids))
    assert not asked_from_outside(page)
    assert all(link[1:] in parsed.ids for link in parsed.links if link.startswith("#"))
    assert parsed.headings[0] == 1 and parsed.headings.count(1) == 1
    assert all(below - above <= 1 for above, below in zip(parsed.headings, parsed.headings[1:], strict=False))
    assert {"main", "header", "footer"} <= set(parsed.tags)
    assert page.startswith('<!DOCTYPE html>\n<html lang="en">') and re.search("<title>.+</title>", page)
    assert len(page.encode()) < 5e6


def test_no_answer_stands_before_the_answers(chapter, reading):
    check_answers_come_last(chapter, reading)


def test_the_check_above_finds_an_answer_that_stands_too_early(chapter, glossary):
    paper = paper_of(chapter)
    early = paper.answers[1].told[0]
    paper.parts[1].blocks.insert(0, early)
    with pytest.raises(AssertionError):
        check_answers_come_last(chapter, reading_page(paper, [FIGURES], glossary))


def test_the_page_needs_nothing_else(reading):
    check_the_page(reading)


@pytest.mark.parametrize("name", QUICK)
def test_other_chapters_keep_the_same_rules(name, glossary):
    chapter = read_chapter(HOME / "workbook" / f"{name}.ipynb")
    page = reading_page(paper_of(chapter), [FIGURES], glossary)
    check_answers_come_last(chapter, page)
    check_the_page(page)


def test_every_picture_keeps_its_alt_text(chapter, reading):
    texts = [one.markdown for part in chapter.sections for one in part.blocks if isinstance(one, (Text, Fold))]
    words = [alt for text in texts for alt in re.findall(r"!\[([^\]]+)\]", text)]
    words += [one.panel.words for part in chapter.sections for one in part.blocks if isinstance(one, Live)]
    assert len(words) >= 3
    assert sorted(Parsed(reading).words) == sorted(words)


def test_text_solutions_and_printed_lines_are_all_there(chapter, reading):
    text = plain(body(reading))
    exercises = chapter.section("3.9")
    for block in [one for part in chapter.sections for one in part.blocks if isinstance(one, Fold)] + exercises.blocks:
        if not isinstance(block, Code):
            assert all(piece in text for piece in markdown_words(block.markdown))
    printed = [one for part in chapter.sections for one in part.blocks if isinstance(one, Lines)]
    assert printed and all(re.sub(r"\s+", " ", one.text).strip() in text for one in printed)


def test_guesses_have_their_choices_and_lead_to_their_answers(chapter, reading):
    asked = [one.guess for part in chapter.sections for one in part.blocks if isinstance(one, Ask)]
    boxes = re.findall(r'<div class="guess".*?</div>', reading, re.DOTALL)
    assert len(boxes) == len(asked)
    for guess, box in zip(asked, boxes, strict=True):
        assert guess.question in plain(box)
        if guess.choices is None:
            assert 'class="line"' in box and guess.unit in plain(box)
        else:
            found = re.findall(r"<li>.*?</li>", box)
            assert [plain(one) for one in found] == guess.choices and all("class='box'" in one for one in found)
        number = re.search(r'href="#answer-(\d+)"', box)[1]
        reply = re.search(rf'id="answer-{number}".*?Back to guess {number}<', reading, re.DOTALL)[0]
        assert guess.shown in plain(reply) and guess.because in plain(reply) and f'href="#to-answer-{number}"' in reply


def test_code_stands_on_the_page_only_when_it_is_asked_for(chapter, reading, glossary):
    sources = [one.source for part in chapter.sections for one in part.blocks if isinstance(one, Code)]
    assert not re.search(r"\bGuess\(|\bimport\b|sm\.rep", plain(body(reading)))
    page = reading_page(paper_of(chapter, code=True), [FIGURES], glossary)
    text = plain(body(page))
    assert all(re.sub(r"\s+", " ", source).strip() in text for source in sources)
    check_answers_come_last(chapter, page)
    assert "Guess(" not in plain(body(page).split('<section aria-labelledby="answers">')[0])


def test_what_only_the_notebook_has_is_left_out(reading):
    text = plain(body(reading))
    for words in (
        "Run everything",
        "Back to the start",
        "panel opens",
        "Press Play",
        "cell below",
        "panel above",
        "before: 2",
    ):
        assert words not in text
    assert "Runa's hands stay where they are" in text and "Those three lines are the whole proof." in text


def test_links_lead_to_pages_that_are_made_and_else_are_words(reading, paper, glossary):
    assert 'href="04_from_pulldown_to_row.html"' in reading and "05_where_the_lat_pulls" not in reading
    alone = reading_page(paper, [FIGURES], glossary)
    assert ".html" not in "".join(Parsed(body(alone)).links) and "chapter 4" in plain(alone)


def test_notes_and_words_are_linked_and_explained(reading, glossary):
    numbers = set(re.findall(r'href="#note-(\d+)"', reading))
    assert numbers == set(re.findall(r'<li id="note-(\d+)"', reading)) and len(numbers) >= 8
    terms = re.findall(r'<dt id="[^"]+">(.*?)</dt><dd>(.*?)</dd>', reading)
    assert {"Torque", "EMG", "Biacromial breadth"} <= {plain(term) for term, _ in terms}
    assert all(plain(meaning) == plain(re.sub(r"\*", "", glossary[plain(term)])) for term, meaning in terms)
    assert re.search(r'href="#torque"', reading)


def test_the_foot_says_what_it_is_and_warns(reading):
    foot = plain(re.search(r"<footer>.*?</footer>", reading, re.DOTALL)[0])
    assert "Shoulder model workbook" in foot and "3 Grip width" in foot and "MIT" in foot and CAUTION in foot


def test_how_to_print_is_said_on_screens_only_where_there_is_no_pdf(reading):
    assert "no-pdf" not in body(reading)
    noted = with_note(reading)
    assert plain(body(noted)).find("Save as PDF") < plain(body(noted)).find("3 Grip width")
    assert re.search(r"@media print \{[^@]*\.no-pdf \{ display: none; \}", noted)


def small_chapter(*blocks):
    """A chapter of one section with these blocks."""
    return Chapter("x", "X", "", (Section("X", []), Section("1.1 One", list(blocks))))


def test_an_answer_that_follows_no_guess_is_pointed_to():
    paper = paper_of(small_chapter(Text("Work it out."), Fold("Answer", "42"), Fold("Answer in numbers", "6 × 7")))
    assert [reply.guess for reply in paper.answers] == [None] and len(paper.answers[0].told) == 2
    assert paper.parts[-1].blocks[-1].number == 1 and paper.answers[0].section == "1.1 One"


def test_a_heading_or_text_ends_what_a_guess_is_answered_by():
    guess = Guess("How many?", 3.0, "Because.")
    told = [Ask(guess), Fold("Answer", "three"), Text("And now?"), Fold("Answer", "four")]
    paper = paper_of(small_chapter(*told))
    assert [reply.guess for reply in paper.answers] == [guess, None]
    back = paper_of(
        small_chapter(Ask(guess), Fold("Answer", "three"), Text("Look at that table."), Fold("Answer", "four"))
    )
    assert len(back.answers) == 1 and len(back.answers[0].told) == 3  # what looks back at an answer goes with it


def test_lines_printed_right_after_an_answer_go_with_it():
    told = [
        Ask(Guess("How many?", 3.0, "Because.")),
        Fold("Answer", "three"),
        Code("print(3)"),
        Lines("3"),
        Text("So."),
        Lines("4"),
    ]
    paper = paper_of(small_chapter(*told))
    assert [type(one).__name__ for one in paper.answers[0].blocks] == ["Text", "Lines"]
    assert [type(one).__name__ for one in paper.parts[-1].blocks] == ["Question", "Text", "Lines"]


def test_other_folds_stay_where_they_are():
    paper = paper_of(small_chapter(Fold("The table", "rows"), Fold("Solution", "so")))
    assert isinstance(paper.parts[-1], Part) and [one.markdown for one in paper.parts[-1].blocks[:2]] == [
        "**The table**",
        "rows",
    ]
    assert [reply.number for reply in paper.solutions] == [1]


def test_a_text_about_the_picture_goes_to_the_panel_that_it_means():
    guess = Guess("How many?", 3.0, "Because.", then=GripPanel())
    panel = Live(guess.then.children[0], asked=True)
    told = [Ask(guess), panel, Text("A panel opens with your guess. It shows Runa."), Fold("Answer", "three")]
    sections = (
        Section("X", []),
        Section("1.1 One", told),
        Section("1.2 Two", [Text("The picture has one column."), Text("So.")]),
    )
    paper = paper_of(Chapter("x", "X", "", sections))
    assert [getattr(one, "markdown", "") for one in paper.answers[0].seen] == [
        "",
        "It shows Runa.",
        "The picture has one column.",
    ]
    assert [one.markdown for one in paper.parts[-1].blocks] == ["So."]
