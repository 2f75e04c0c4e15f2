"""The printed page of a week: the same words in HTML and PDF, nothing lost on either paper, nothing of a week without one."""

import csv
import io
import re
import subprocess
import sys
from dataclasses import replace
from functools import cache

import pytest
from pypdf import PdfReader
from pypdf.generic import ContentStream

import shoulder_model as sm
from shoulder_model.document.html import PAPERS, STYLE
from shoulder_model.document.parts import Entry, Table
from shoulder_model.inputs import InputError
from shoulder_model.week import Client, Plan, all_no, candidates, fitted_pulls, plan_week
from shoulder_model.week.load import Known
from shoulder_model.week.words import CAUTIONS, grip_words, set_up_words, turn_words
from shoulder_model.week_page.csv_text import CSV_HEADS, page_csv
from shoulder_model.week_page.html import page_html, table_html
from shoulder_model.week_page.parts import document
from shoulder_model.week_page.pdf import page_pdf
from shoulder_model.week_page.wording import LOG_HEADS, WEEK_HEADS, more_words
from tests.own.document.papers import check_inside, check_same_on_both, pages, read, squeezed

WOMEN, MEN = (sm.Lifter.average(sex) for sex in ("women", "men"))
OK = all_no()
PULLDOWN = "front pulldown at 1.5 ×"
CLIENTS = {
    "gym": Client(WOMEN, "intermediate", 3, health=OK, name="Anna", known=(Known(PULLDOWN, 35, 10),)),
    "home": Client(MEN, "novice", 2, health=OK, equipment=("bands", "dumbbells")),
    "bar": Client(WOMEN, "novice", 3, health=OK, equipment=("pull-up bar",)),
    "advanced": Client(MEN, "advanced", 5, health=OK | {"low back": "yes"}, own_weight_repetitions=15),
    "full": Client(MEN, "advanced", 6, health=OK, wide_grip=True, own_weight_repetitions=8),
    "cleared": Client(
        WOMEN, health=OK | {"shoulder": "cleared"}, cleared="Dr. E: nothing overhead.", limits=("nothing overhead",)
    ),
    "one day": Client(WOMEN, "novice", 1, health=OK, equipment=("towel and post", "sturdy table")),
}
NO_WEEKS = {
    "ask": Client(WOMEN, health={}),
    "referral": Client(WOMEN, health=OK | {"surgery": "yes"}),
    "today": Client(WOMEN, health=OK | {"chest or fainting": "yes", "numbness": "yes"}),
    "nothing": Client(WOMEN, health=OK, equipment=()),
}


@cache
def answer(name):
    """The answer for a client; two names joined by + are two weeks side by side."""
    if "+" in name:
        return tuple(answer(one) for one in name.split("+"))
    return plan_week((CLIENTS | NO_WEEKS)[name])


EVERY = (*CLIENTS, *NO_WEEKS, "gym+bar", "gym+gym", "gym+today")


@cache
def pdf_of(name, paper="A4"):
    return page_pdf(answer(name), paper=paper)


# --- the same on every paper --------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", EVERY)
def test_the_html_holds_every_text_of_the_document_and_no_other(name):
    page = page_html(answer(name))
    assert squeezed("".join(read(page).texts)) == squeezed("".join(document(answer(name)).texts))


@pytest.mark.parametrize(
    ("name", "paper"), [*((name, "A4") for name in EVERY), *((name, "Letter") for name in ("full", "bar", "gym+bar"))]
)
def test_the_pdf_holds_every_text_of_the_document_in_order_and_breaks_no_word(name, paper):
    check_same_on_both(document(answer(name)), page_html(answer(name), paper=paper), pdf_of(name, paper))


@pytest.mark.parametrize(("paper", "size"), [("A4", (595.28, 841.89)), ("Letter", (612, 792))])
def test_nothing_is_printed_outside_the_margins(paper, size):
    reader = PdfReader(io.BytesIO(pdf_of("full", paper)))
    for page in reader.pages:
        assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx(size, abs=0.01)
    check_inside(pdf_of("full", paper), size)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("experience", ["novice", "intermediate", "advanced"])
def test_the_days_stand_on_the_first_page(experience, paper):
    plan = plan_week(Client(WOMEN, experience, 6, health=OK | {"low back": "yes"}, own_weight_repetitions=9))
    first = squeezed(pages(page_pdf(plan, paper=paper))[0])
    table = next(part for part in document(plan).parts if isinstance(part, Table))
    assert squeezed("".join(table.rows[-1][1:])) in first


@pytest.mark.parametrize("paper", PAPERS)
def test_a_long_log_has_its_heads_on_every_page_and_splits_no_day(paper):
    plan = answer("full")
    log = next(part for part in document(plan).parts if isinstance(part, Table) and part.heads == LOG_HEADS)
    plan = replace(plan, rows=tuple(replace(row, sets=row.sets + 2) for row in plan.rows))
    printed = [squeezed(page) for page in pages(page_pdf(plan, paper=paper))]
    holding = [page for page in printed if squeezed("".join(LOG_HEADS)) in page]
    assert len(holding) > 1
    longer = next(part for part in document(plan).parts if isinstance(part, Table) and part.heads == LOG_HEADS)
    assert len(longer.rows) == len(log.rows) + 2 * len(plan.rows)
    for day, rows in longer.groups:
        assert sum(squeezed(day + "".join("".join(row) for row in rows)) in page for page in holding) == 1


def test_black_and_white_is_enough():
    reader = PdfReader(io.BytesIO(pdf_of("gym")))
    for page in reader.pages:
        for numbers, operator in ContentStream(page.get_contents(), reader).operations:
            if operator in (b"rg", b"RG"):
                assert len(set(map(float, numbers))) == 1
    assert set(re.findall(r"#\w{3,6}\b", STYLE)) <= {"#000", "#fff", "#e6e6e6"}


def test_one_week_gives_one_file():
    assert page_pdf(answer("home")) == pdf_of("home")


def test_the_pdf_needs_no_matplotlib():
    code = (
        "import sys, shoulder_model as sm; from shoulder_model.week import *\n"
        "from shoulder_model.week_page.pdf import page_pdf\n"
        "assert page_pdf(plan_week(Client(sm.Lifter.average('men'), health=all_no()))).startswith(b'%PDF')\n"
        "assert not {'matplotlib', 'ipywidgets'} & set(sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", code], capture_output=True, text=True).stderr == ""


# --- what stands there ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", CLIENTS)
def test_cautions_come_first_and_every_row_of_the_week_stands_in_the_table(name):
    plan, texts = answer(name), document(answer(name)).texts
    assert all(line in texts for line in CAUTIONS)
    assert max(map(texts.index, CAUTIONS)) < texts.index("pull")
    table = next(part for part in document(plan).parts if isinstance(part, Table))
    assert table.heads == WEEK_HEADS
    assert [row[:2] for row in table.rows] == [(row.weekday, row.name) for row in plan.rows]
    assert [row[5].split(" × ")[0] for row in table.rows] == [str(row.sets) for row in plan.rows]
    assert all(cell for row in table.rows for cell in row)


def test_a_known_load_stands_in_the_table_and_an_unknown_one_is_left_to_write():
    rows = next(part for part in document(answer("gym")).parts if isinstance(part, Table)).rows
    loads = {row[1]: row[6] for row in rows}
    assert re.fullmatch(r"\d+–\d+ kg on the stack", loads.pop(PULLDOWN))
    assert loads and all("____" in load for load in loads.values())


@pytest.mark.parametrize("name", CLIENTS)
def test_the_log_has_one_line_for_each_set(name):
    plan = answer(name)
    log = next(part for part in document(plan).parts if isinstance(part, Table) and part.heads == LOG_HEADS)
    wanted = [(row.weekday, row.name, str(n + 1)) for row in plan.rows for n in range(row.sets)]
    assert [row[:3] for row in log.rows] == wanted
    assert all(cell == "" for row in log.rows for cell in row[3:]) and log.to_write


def test_what_was_cleared_and_what_is_not_reached_stand_on_the_page():
    texts = " ".join(document(answer("cleared")).texts)
    assert (
        "Cleared, with these limits (shoulder): Dr. E: nothing overhead. The week keeps to: nothing overhead." in texts
    )
    assert answer("home").short and all(line in document(answer("home")).texts for line in answer("home").short)
    entries = [part for part in document(answer("cleared")).parts if isinstance(part, Entry)]
    steps = " ".join(words for entry in entries for label, words in entry.pairs if label in ("Easier", "Harder"))
    assert not re.search("pulldown|pull-up|chin-up|pullover", steps)


def test_figures_of_the_appendix_are_per_hand_and_say_whose_they_are():
    plan = answer("home")
    table = next(part for part in document(plan).parts if isinstance(part, Table) and part.heads[-1] == "figures of")
    for name, adduction, extension, _, lat, _, whose in table.rows:
        fitted = next(row.fitted for row in plan.rows if row.name == name)
        ten_each = 10 * fitted.pull.hands / fitted.load_kg * fitted.torque
        assert [float(text.replace("−", "-")) for text in (adduction, extension)] == pytest.approx(
            ten_each[:2], abs=0.5
        )
        assert lat.startswith(f"{100 * fitted.shares['lat'][0]:.0f} % (")
        assert whose == (fitted.candidate.stands_for or "its own")


# --- wording -------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("lifter", [WOMEN, MEN], ids=["women", "men"])
def test_every_candidate_is_worded_as_a_coach_would(lifter):
    assert len(fitted_pulls(lifter)) == len(candidates())
    for fitted in fitted_pulls(lifter):
        candidate, words = fitted.candidate, f"{grip_words(fitted)}, {turn_words(fitted.pull)}, {set_up_words(fitted)}"
        pieces = [piece for one_of in candidate.equipment for piece in one_of]
        assert "to the under" not in words and "to the behind" not in words and "thigh," not in words, words
        assert "bench" not in words or any("bench" in piece for piece in pieces), words
        assert "bar" not in re.findall(r"\w+", words) or any("bar" in piece for piece in pieces), words
        on_a_bar = fitted.pull.hands == 2 and "dumb" not in candidate.loading and fitted.pull.hand_turn != "neutral"
        assert bool(re.search(r"\d cm", words)) == on_a_bar, words
        assert not re.search(r"\b1[014] cm", words), words


@pytest.mark.parametrize("name", EVERY)
def test_ones_are_singular_and_nothing_is_doubled(name):
    for text in document(answer(name)).texts:
        assert not re.search(
            r"\b1 (days|pull-ups|pulls|sets|weekly sets)\b|\.\.|  |\bNone\b|\bnan\b|to the under", text
        ), text


# --- no week -------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", [*NO_WEEKS, "gym+today"])
def test_without_a_week_there_is_no_table_and_no_log(name):
    given = answer(name)
    none = given[1] if isinstance(given, tuple) else given
    page, html = document(given), read(page_html(given))
    assert not any(isinstance(part, Table | Entry) for part in page.parts)
    assert "table" not in html.tags and all(line in page.texts for line in none.lines)
    text = " ".join(pages(pdf_of(name)))
    assert not any(one.name in text for one in candidates()) and "Anna" not in text


def test_go_today_says_where():
    assert "call the emergency number" in " ".join(document(answer("today")).texts)
    sore, well = (" ".join(document(answer(name)).texts) for name in ("advanced", "gym"))
    assert "Low back: today, at an emergency department, with numb" in sore and "Low back:" not in well


@pytest.mark.parametrize("given", [None, "a week", (), [], ("gym",)])
@pytest.mark.parametrize("make", [page_html, page_pdf, page_csv])
def test_anything_else_is_refused(make, given):
    with pytest.raises(InputError):
        make(given)
    with pytest.raises(InputError):
        make((answer("gym"),) * 3)


@pytest.mark.parametrize("wrong", [{"paper": "A5"}, {"paper": None}, {"date": 3}, {"date": "9" * 41}])
@pytest.mark.parametrize("make", [page_html, page_pdf])
def test_a_wrong_paper_or_date_is_refused(make, wrong):
    with pytest.raises(InputError):
        make(answer("gym"), **wrong)


# --- two weeks -----------------------------------------------------------------------------------------------------------


def test_two_weeks_share_a_line_for_each_pull_and_name_the_difference():
    first = answer("gym")
    second = replace(first, rows=tuple(replace(row, sets=row.sets + 1) for row in first.rows if row.name != PULLDOWN))
    table = next(part for part in document((first, second)).parts if isinstance(part, Table))
    lines = {row[0]: row[1:] for row in table.rows}
    assert list(lines) == list(dict.fromkeys(row.name for row in first.rows))
    assert lines[PULLDOWN][1] == "not in it" and lines[PULLDOWN][2].startswith("gone, ")
    for name, (one, other, change) in lines.items():
        if name != PULLDOWN:
            days = sum(row.name == name for row in first.rows)
            assert change == more_words(days) and one != other
    same = next(part for part in document((first, first)).parts if isinstance(part, Table))
    assert {row[-1] for row in same.rows} == {"as many"}


# --- names and cells -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "clean"),
    [
        ("<b>Ann</b> & $x$", "<b>Ann</b> & $x$"),
        ("Ann\n\tB\u202etxt\u200f\x1b", "Ann Btxt"),
        ("{nb} **A** __b__", None),
        ("$x_{$", None),
        ('"Q" & <i>', None),
    ],
)
def test_a_name_prints_as_a_name(name, clean):
    clean, plan = clean or name, plan_week(replace(CLIENTS["bar"], name=name))
    html, printed = page_html(plan), pages(page_pdf(plan))[0]
    assert clean in read(html).texts and clean in document(plan).texts
    assert squeezed(clean) in squeezed(printed)
    assert not {"\u202e", "\u200f", "\x1b"} & set(html)


def test_the_csv_has_a_line_for_every_row_and_no_cell_is_a_formula():
    plan = answer("gym")
    assert isinstance(plan, Plan)
    plan = replace(plan, rows=tuple(replace(row, why="=1+1") for row in plan.rows))
    head, *lines = csv.reader(io.StringIO(page_csv(plan)))
    assert tuple(head) == CSV_HEADS and len(lines) == len(plan.rows)
    for line, row in zip(lines, plan.rows, strict=True):
        cells = dict(zip(head, line, strict=True))
        assert (cells["day"], cells["pull"], cells["sets"]) == (str(row.day), row.name, str(row.sets))
        assert cells["why"] == "'=1+1"
        assert (cells["first load low [kg]"] != "") == (row.name == PULLDOWN)


@pytest.mark.parametrize("name", NO_WEEKS)
def test_the_csv_without_a_week_says_why(name):
    lines = [line for (line,) in csv.reader(io.StringIO(page_csv(answer(name))))]
    assert lines == ["no week", *answer(name).lines]


def test_the_table_alone_is_the_page_s():
    alone = read(table_html(answer("gym")))
    assert squeezed("".join(alone.texts)) in squeezed("".join(read(page_html(answer("gym"))).texts))
    assert alone.tags.count("th") == len(WEEK_HEADS) + answer("gym").days
