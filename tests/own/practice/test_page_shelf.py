"""A record that the page keeps does what one in a file does; two pages, damaged entries, a full browser, one that refuses."""

import subprocess
import sys
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shoulder_model.inputs import InputError
from shoulder_model.practice.answer import as_row
from shoulder_model.practice.desk import Desk
from shoulder_model.practice.page_shelf import REFUSED, as_entry, row_of
from shoulder_model.practice.pages import WEAK
from shoulder_model.practice.record import Record, own_record

from .browser_store import Page, Store
from .record_writers import HERE, answer, numbers
from .test_record import ANSWERS


@pytest.fixture
def store():
    return Store()


def in_file(tmp_path, name="a"):
    return Record(tmp_path / f"{name}.sqlite")


def test_it_does_what_a_file_does(tmp_path, store):
    """The same calls on both shelves: the same answers in the same order, the same words, the same table."""
    other = in_file(tmp_path, "other")
    other.add_all([answer("b", 3), answer("b", 30), answer("b", 8)])
    seen = []
    for open_one in (lambda: in_file(tmp_path), lambda: Page(store).opens().record):
        record, said = open_one(), []
        given = [replace(answer("a", number), at=at) for number, at in enumerate((5.0, 9.0, 2.0, 9.0))]
        said += [record.add(given[0]), record.add_all(given[1:]), record.answers()]
        said += [record.take(other.export()), record.answers(), record.take(other.export())]
        with pytest.raises(InputError) as caught:
            record.take(b"no table")
        said += [str(caught.value), record.answers(), record.notes, record.exams(), record.open_exams()]
        said.append([line.partition(b",")[2] for line in record.export().splitlines()])
        seen.append((said, record))
    assert seen[0][0] == seen[1][0]
    assert [record.erase() for _, record in seen] == ["", ""]
    assert [record.answers() for _, record in seen] == [(), ()]


def test_answers_are_there_for_the_next_page(store):
    page = Page(store).opens()
    given = [replace(answer("a", number), at=at) for number, at in enumerate((500.0, 900.0, 20.0, 900.0, 1.0))]
    for one in given:
        assert page.record.add(one) == "" and page.record.waiting == 1
        page.work()
        assert page.record.waiting == 0
    assert page.record.answers() == Page(store).opens().record.answers() == tuple(given)


@settings(max_examples=40, deadline=None)
@given(st.lists(ANSWERS, max_size=6))
def test_any_answers_come_back_from_the_page(answers):
    store = Store()
    page = Page(store).opens()
    page.record.add_all(answers)
    page.work()
    assert Page(store).opens().record.answers() == tuple(answers)


def test_what_is_answered_before_the_page_has_sent_its_rows_comes_behind_them(store):
    first = Page(store).opens()
    first.record.add_all([answer("a", 1), answer("a", 2), answer("a", 3)])
    first.work()
    early = Page(store)
    early.record.add(answer("b", 0))
    assert early.told == [] and numbers(early.record, "a") == []
    early.opens()
    assert [one.template for one in early.record.answers()] == ["item a"] * 3 + ["item b"]
    assert Page(store).opens().record.answers() == early.record.answers()


def test_two_pages_add_and_neither_writes_over_the_other(store):
    one, other = Page(store).opens(), Page(store).opens()
    for number in range(5):
        one.record.add(answer("a", number))
        other.record.add(answer("b", number))
        other.work()
        one.work()
    for page in (one, other):
        page.look()
    assert one.record.answers() == other.record.answers() == Page(store).opens().record.answers()
    assert len(one.record.answers()) == 10 and numbers(one.record, "a") == numbers(one.record, "b") == list(range(5))


def test_rows_that_another_page_added_are_put_in_order_with_the_rest(tmp_path, store):
    saved = in_file(tmp_path)
    saved.add_all([answer("a", 10), answer("a", 30)])
    one, other = Page(store).opens(), Page(store).opens()
    one.record.add(answer("b", 15))
    one.work()
    other.record.add(answer("c", 20))  # the first page has not heard of it
    other.work()
    other.record.take(saved.export())
    saved.add(answer("d", 35))
    assert one.record.take(saved.export()) == "3 answers taken over, 0 were here already."  # at the same time
    one.work()  # refused first, and then put in order with the other page's answer
    other.work()
    one.look()
    kept = Page(store).opens().record.answers()
    assert one.record.answers() == other.record.answers() == kept
    assert len(one.record.shelf.rows()) == len(other.record.shelf.rows()) == 5
    assert len(kept) == 5 and [one.seed for one in kept if one.template == "item a"] == ["10", "30"]
    assert kept.index(answer("a", 10)) < kept.index(answer("c", 20)) < kept.index(answer("a", 30))


def test_an_erased_record_does_not_come_back_from_another_page(tmp_path, store):
    one, other = Page(store).opens(), Page(store).opens()
    one.record.add_all([answer("a", 1), answer("a", 2)])
    one.work()
    other.look()
    assert one.record.erase() == ""
    one.work()
    saved = in_file(tmp_path)
    saved.add(answer("c", 1))
    other.record.add(answer("b", 1))
    other.record.take(saved.export())
    other.work()
    one.look()
    assert one.record.answers() == other.record.answers() == (answer("b", 1), answer("c", 1))
    assert not any("item a" in text for _, text in store.entries.values())


def test_erasing_drops_what_was_still_to_be_kept(store):
    page = Page(store).opens()
    page.record.add(answer("a", 0))
    page.work()
    page.record.add(answer("a", 1))
    page.record.add(answer("a", 2))
    assert len(page.told) == 1, "one step after the other"
    store.full = True  # answers cannot be kept, and must not stand in the way
    page.work()
    assert page.record.erase() == "" and page.record.answers() == ()
    page.work()
    assert store.entries == {}
    store.full = False
    page.record.add(answer("b", 1))
    page.work()
    assert page.record.answers() == Page(store).opens().record.answers() == (answer("b", 1),)


def test_damaged_entries_are_set_aside_and_counted(store):
    page = Page(store).opens()
    page.record.add_all([answer("a", number) for number in range(8)])
    page.work()
    store.entries[2] = ("x", store.entries[2][1][:-3])
    store.entries[3] = ("y", store.entries[3][1].replace("12.5 N m", "13.5 N m"))
    store.entries[5] = ("z", as_entry(["no id", 1.0, "t", "s", "x", 1.0, "", 0.0, 0, ""]))
    store.entries[6] = ("w", as_entry([1, 2]))
    store.entries[7] = ("v", "undefined")
    again = Page(store).opens()
    assert numbers(again.record, "a") == [0, 3, 7]
    assert len(store.aside) == 5 and sorted(store.entries) == [1, 4, 8]
    assert again.record.notes == (
        "5 answers in this browser cannot be read any more. They were set aside; all others are whole.",
    )
    last = Page(store).opens()
    assert last.record.notes == () and "5 entries that cannot be read are set aside" in last.record.shelf.keeping()[0]
    assert last.record.erase() == ""
    last.work()
    assert store.aside == [] and store.entries == {}


def test_an_entry_is_read_as_it_was_written_or_not_at_all():
    row = as_row("0" * 32, answer("ä\N{PILE OF POO}", 1))
    entry = as_entry(row)
    assert row_of(entry) == row
    for place in range(len(entry)):
        assert row_of(entry[:place] + ("0" if entry[place] != "0" else "1") + entry[place + 1 :]) is None
    for wrong in (
        "",
        " ",
        "00000000 ",
        "x" * 99_999,
        as_entry([]),
        as_entry("text"),
        as_entry({"a": 1}),
        "\ud800 \ud800",
    ):
        assert row_of(wrong) is None


def test_a_full_browser_keeps_answers_in_memory_until_there_is_room(store):
    page = Page(store).opens()
    store.full = True
    for number in range(2):
        page.record.add(answer("a", number))
        page.work()
    assert page.record.waiting == 2 and store.entries == {} and numbers(page.record, "a") == [0, 1]
    assert b"item a" in page.record.export()
    store.full = False
    page.record.add(answer("a", 2))
    page.work()
    assert page.record.waiting == 0 and numbers(Page(store).opens().record, "a") == [0, 1, 2]


def test_a_page_that_went_before_it_kept_a_step_is_followed_by_one_that_does(store):
    page = Page(store).opens()
    page.record.add(answer("a", 1))
    page.told.clear()  # the tab was closed
    page.record.add(answer("a", 2))
    page.opens()  # another one, the kernel still runs
    assert page.record.waiting == 0 and numbers(Page(store).opens().record, "a") == [1, 2]


def test_a_browser_that_keeps_nothing_is_said_and_keeps_nothing_back():
    page = Page(None).opens()
    assert page.record.notes == (REFUSED,) and page.record.shelf.stays == "" and page.record.shelf.keeping() == ()
    assert page.record.add(answer("a", 1)) == "" and page.record.answers() == (answer("a", 1),) and page.told == []
    assert b"item a" in page.record.export()
    assert page.record.erase() == "" and page.record.answers() == () and page.record.notes == (REFUSED,)
    page.record.add(answer("a", 2))
    page.store = Store()
    page.opens()  # allowed now
    assert page.record.notes == () and numbers(Page(page.store).opens().record, "a") == [2]


def test_the_desk_waits_for_the_rows_and_tells_of_new_ones_where_they_matter(store):
    first = Page(store).opens()
    first.record.add(replace(answer("a", 1), template="grip in centimetres"))
    first.work()
    page = Page(store)
    desk = Desk(page.record, clock=lambda: 1.7e9)
    assert desk.view["title"] == "Fetching your record …"
    assert desk.act("today")["title"] == "Fetching your record …"
    page.opens()
    assert desk.look_again()["title"] == "What do you want to practise?"
    assert desk.view["lines"] == ["Your answers stay in this browser, on this computer. Save them now and then."]
    assert desk.view["focus"] == "" and "nothing yet" not in desk.view["tiles"][0]["more"]
    desk.act("progress")
    assert "1 answer, about 1 kB" in " ".join(desk.view["lines"])
    assert desk.look_again()["title"] == WEAK
    assert "This erases 1 answer in this browser." in desk.act("ask_erase")["lines"][0]
    desk.act("today")
    question = desk.view
    assert desk.look_again() == question


def test_it_is_chosen_by_name_or_where_there_is_no_disk(monkeypatch):
    assert own_record("page").path is None
    assert own_record("file").path.name == own_record().path.name == "practice.sqlite"
    with pytest.raises(InputError):
        own_record("cloud")
    monkeypatch.setattr("sys.platform", "emscripten")
    assert own_record().path is None and own_record().add(answer("a", 1)) == ""


WITHOUT = """
import sys
import scipy.optimize, scipy.special, xarray
sys.modules |= dict.fromkeys(("sqlite3", "_sqlite3", "subprocess", "fcntl", "platformdirs"))
sys.platform = "emscripten"
import _thread
def refused(*_, **__):
    raise RuntimeError("can't start new thread")
import threading
threading.Thread.start = refused
from shoulder_model.practice.desk import Desk
desk = Desk()
desk.record.shelf.hear({"kind": "refused"})
desk.look_again()
desk.act("today")
desk.act("show")
desk.act("start")
for _ in range(40):
    desk.act("go", place=0)
print(desk.act("hand_in")["title"], len(desk.record.answers()))
"""


def test_it_needs_no_sqlite_no_threads_and_no_other_process():
    run = subprocess.run([sys.executable, "-c", WITHOUT], capture_output=True, text=True, timeout=60, **HERE)
    assert run.stdout.split() == ["The", "result", "41"], run.stderr
