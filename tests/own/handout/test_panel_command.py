"""``handout panel``: what the page has, and what is refused, by name and in one line, before anything is written."""

import re
from dataclasses import replace

import pytest

from shoulder_model.handout import command, moving
from shoulder_model.handout.page import CAUTION, NOTHING_FROM_OUTSIDE
from shoulder_model.handout.panel_page import guess_form, of_chapter
from shoulder_model.handout.paper import paper_of
from shoulder_model.handout.reading import reading_page
from shoulder_model.inputs import InputError
from shoulder_model.panels import Guess, OneArmPanel
from shoulder_model.recorded import grids
from shoulder_model.recorded.grids import KINDS
from shoulder_model.recorded.set_up import SetUp

from ..recorded.small import SMALL
from .conftest import FIGURES, HOME
from .pages import Parsed, asked_from_outside, body


@pytest.fixture
def small(monkeypatch):
    for kind in ("grip", "one-arm"):
        monkeypatch.setitem(grids.KINDS, kind, replace(KINDS[kind], grid=SMALL[kind]))


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["grap"], "panel 'grap' is not known; nearest: grip"),
        (["grip", "--pull", "front pulldwon"], "nearest: front pulldown"),
        (["grip", "--sex", "man"], "sex 'man' is not known; nearest: "),
        (["grip", "--stature", "tall"], "stature = 'tall' is not a number; give one in cm"),
        (["grip", "--stature", "nan"], "stature = nan cm is outside"),
        (["grip", "--stature", "90"], "stature = 90.0 cm is outside"),
        (["grip", "--mass", "-3"], "mass"),
        (["lat", "--sex", "men"], "sex: the lat panel has none; leave --sex out"),
        (["one-arm", "--mass", "70"], "mass: the one-arm panel has none"),
        (["grip", "--open", "no.json"], "no.json: there is no such file"),
        (["grip", "--open", "a.json", "--sex", "men"], "leave --sex out"),
    ],
)
def test_a_wrong_value_is_refused_by_name_and_nothing_is_written(arguments, words, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    with pytest.raises(InputError) as refused:
        command.main(["panel", *arguments, "--to", "out"], HOME)
    assert words in str(refused.value) and "\n" not in str(refused.value)
    assert not (tmp_path / "out").exists()


def test_a_saved_set_up_of_another_panel_is_refused_and_the_right_one_makes_a_page(small, tmp_path, capsys):
    panel, saved = OneArmPanel("women"), tmp_path / "mine.json"
    panel.sliders["load_kg"].value = 12
    saved.write_bytes(panel.content("json"))
    with pytest.raises(InputError, match="not a 'pull set-up'"):
        command.main(["panel", "grip", "--open", str(saved), "--to", str(tmp_path)], HOME)
    assert command.main(["panel", "one-arm", "--open", str(saved), "--to", str(tmp_path)], HOME) == 0
    path = tmp_path / "panel_one_arm.html"
    said = capsys.readouterr()
    assert said.out.splitlines() == [str(path)] and "24 of 24 states recorded" in said.err
    html = path.read_text(encoding="utf-8")
    assert "Load: 12.0 kg" in html and "Lifter: women" in html and 'class="guess"' not in html


def test_the_page_needs_nothing_else_and_asks_the_chapters_guess(small, tmp_path):
    command.main(["panel", "one-arm", "--to", str(tmp_path)], HOME)
    html = (tmp_path / "panel_one_arm.html").read_text(encoding="utf-8")
    assert NOTHING_FROM_OUTSIDE in html and CAUTION in html and "licence: MIT" in html
    assert asked_from_outside(re.sub(r"<script.*?</script>", "", html, flags=re.DOTALL)) == []
    parsed = Parsed(re.sub(r"<script.*?</script>", "", body(html), flags=re.DOTALL))
    assert parsed.wrong == [] and len(set(parsed.ids)) == len(parsed.ids) and parsed.headings == [1]
    assert "How many times its weight do they have to pull?" in html and "from chapter 2 " in html


@pytest.mark.parametrize("kind", KINDS)
def test_the_panel_of_a_chapter_can_be_made_again_from_its_set_up(kind):
    chapter = of_chapter(kind, HOME)
    again = SetUp.of(chapter.panel).panel()
    assert (
        again.picture.said == chapter.panel.picture.said
        and again.stage.attributes() == chapter.panel.stage.attributes()
    )
    assert chapter.guess is not None and KINDS[kind].chapter[1] in chapter.title


def test_a_guess_says_on_the_page_what_it_says_in_the_chapter():
    guess = Guess("How <much>?", 5.0, "Because.", unit="N m")
    form = guess_form(guess)
    for typed in ("5", "50", "", "much"):
        guess.guess.value = typed
        guess.judge()
        said = guess.verdict.value.replace("“much”", "“{}”")
        assert f'"{said}"' in form, typed
    assert "How &lt;much&gt;?" in form and 'aria-label="Your guess in N m"' in form


def test_a_chapters_panels_move_on_its_page_and_leave_it_as_it_was_otherwise(small, paper, chapter, glossary, reading):
    made = ("00_start", "03_grip_width", "04_from_pulldown_to_row")
    recorded = moving.recorded_panels(chapter, 1)
    assert len(recorded) == 1
    html = reading_page(paper, [FIGURES], glossary, made, recorded)
    assert html.count('<div class="recorded pull-panel"') == 1 and NOTHING_FROM_OUTSIDE in html
    assert paper_of(chapter).title == paper.title
    still = re.compile(r'<figure class="panel">.*?</figure>', re.DOTALL)
    scripts = re.compile(r"<script.*?</script>", re.DOTALL)
    bare = [re.sub(r"p\d+-", "", still.sub("", scripts.sub("", body(page)))).split() for page in (html, reading)]
    assert bare[0] == bare[1]
