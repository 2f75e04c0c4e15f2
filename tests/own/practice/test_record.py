"""The record: order, two notebooks, kills, damaged files, a full disk, a folder that cannot be written, the table
out and back."""

import contextlib
import os
import random
import signal
import sqlite3
import subprocess
import sys
import tempfile
import threading
import time
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from shoulder_model.inputs import InputError
from shoulder_model.practice import record_file
from shoulder_model.practice.record import Answer, Record, exam_id, folder

from .record_writers import HERE, answer, numbers, writer

ANSWERS = st.builds(
    Answer,
    st.floats(allow_nan=False) | st.floats(0, 4e9),
    st.text(max_size=12),
    st.text(max_size=12),
    st.text(max_size=30),
    st.sampled_from([0.0, 0.5, 1.0]),
    st.sampled_from(["", "whole load"]),
    st.floats(allow_nan=False),
    st.booleans(),
    st.sampled_from(["", "Mock exam/K7Q/3"]),
)


@pytest.fixture
def path(tmp_path):
    return tmp_path / "practice.sqlite"


@pytest.fixture
def unsynced(monkeypatch):
    """Nobody pulls the plug: the same steps without waiting for the disk."""
    monkeypatch.setattr(record_file, "SYNCHRONOUS", "OFF")


def filled(path, count=60, length=40):
    """A record of some pages, and its answers."""
    record = Record(path)
    given = [replace(answer("a", number), text=f"{number} " + "x" * length) for number in range(count)]
    assert record.add_all(given) == ""
    return record, tuple(given)


def put_aside(path):
    return [name for name in path.parent.iterdir() if "-aside-" in name.name and name.suffix == ".sqlite"]


def test_answers_come_back_in_the_order_they_were_given(path):
    record = Record(path)
    assert record.notes == () and record.answers() == ()
    given = [replace(answer("a", number), at=at) for number, at in enumerate((500.0, 900.0, 20.0, 900.0, 1.0))]
    for one in given:
        assert record.add(one) == ""
    assert record.answers() == Record(path).answers() == tuple(given)
    assert not path.with_name("practice.sqlite-journal").exists()


@settings(max_examples=20, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.lists(ANSWERS, max_size=8))
def test_any_answers_come_back_from_the_file_and_from_the_table(tmp_path_factory, unsynced, answers):
    place = tmp_path_factory.mktemp("records")
    record = Record(place / "a.sqlite")
    assert record.add_all(answers) == ""
    assert Record(place / "a.sqlite").answers() == tuple(answers)
    table = record.export()
    assert table.startswith(b"\xef\xbb\xbfid,")
    other = Record(place / "b.sqlite")
    other.take(table)
    assert sorted(map(repr, other.answers())) == sorted(map(repr, answers))
    if [one.at for one in answers] == sorted(one.at for one in answers):
        assert other.answers() == tuple(answers)


def test_an_answer_is_kept_on_one_line_and_inside_its_ranges():
    odd = Answer(-5, "a", 7, " 12\r\n\x00N\ud800  m ", 1, seconds=-3.0, hint=1)
    assert (odd.at, odd.seed, odd.text, odd.seconds, odd.hint) == (0.0, "7", "12 N? m", 0.0, True)
    assert Answer(1, "a", "1", "x" * 9999, 0.5).text == "x" * 500
    assert Answer(1e300, "a", "1", "x", 1).at < 4e10
    for wrong in (
        {"score": 1.5},
        {"score": float("nan")},
        {"at": float("nan")},
        {"seconds": "soon"},
        {"score": None},
    ):
        with pytest.raises(InputError):
            replace(answer("a", 1), **wrong)


def test_the_data_folder_is_the_users_own_or_the_one_that_is_named(monkeypatch, tmp_path):
    monkeypatch.delenv("SHOULDER_MODEL_PRACTICE", raising=False)
    assert folder().name == "shoulder-model" and folder().is_absolute()
    monkeypatch.setenv("SHOULDER_MODEL_PRACTICE", str(tmp_path / "mine" / "deep"))
    assert folder() == tmp_path / "mine" / "deep"
    record = Record()
    assert record.add(answer("a", 1)) == "" and record.path == tmp_path / "mine" / "deep" / "practice.sqlite"
    assert record.path.exists()


def test_two_threads_and_two_records_write_at_once(path):
    one, other = Record(path), Record(path)
    said = []

    def write(record, name):
        said.extend(record.add(answer(name, number)) for number in range(25))

    threads = [threading.Thread(target=write, args=pair) for pair in ((one, "a"), (one, "b"), (other, "c"))]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert said == [""] * 75
    assert one.answers() == other.answers() and len(one.answers()) == 75
    for name in "abc":
        assert numbers(one, name) == list(range(25))


def test_two_processes_write_at_once(path):
    writers = {name: writer(path, name, 60) for name in "ab"}
    for name, process in writers.items():
        out, wrong = process.communicate(timeout=60)
        assert out.split() == [str(number) for number in range(60)] and not wrong, name
    record = Record(path)
    assert numbers(record, "a") == numbers(record, "b") == list(range(60)) and record.notes == ()


def killed(process, seconds):
    """Kill a writer after some seconds from its first answer; what it said was on disk.

    All is read through one stream: ``communicate`` would lose what ``readline`` took along with its line.
    """
    with process:
        said = process.stdout.readline()
        time.sleep(seconds)
        process.send_signal(signal.SIGKILL)
        said += process.stdout.read()
        assert not process.stderr.read()
    return [int(number) for number in said.split()]


@pytest.mark.skipif(sys.platform == "win32", reason="no SIGKILL there; record_kills.py is run by hand")
def test_every_answer_that_was_on_disk_outlives_a_kill(path):
    chance, promised = random.Random(4), []
    for _ in range(3):
        promised += killed(writer(path, "a", 10_000, first=len(promised)), chance.uniform(0, 0.3))
        record = Record(path)
        found = numbers(record, "a")
        assert record.notes == ()
        assert found[: len(promised)] == promised and len(found) <= len(promised) + 1, "lost, or two out of nowhere"
        promised = found
        assert record.add(answer("b", len(found))) == ""


def test_a_kill_while_the_file_is_made_leaves_nothing_behind(path, monkeypatch):
    """A file that was just made, or half made with its journal beside it, as a power cut leaves them."""
    path.touch()
    record = Record(path)
    assert len(record.notes) == 1 and "empty" in record.notes[0]
    assert record.add(answer("a", 1)) == "" and put_aside(path) == []


@pytest.mark.parametrize("length", [40, 200])
def test_a_file_that_was_cut_is_opened_or_put_aside_and_never_lost(path, length, unsynced):
    record, given = filled(path, length=length)
    whole = path.read_bytes()
    assert len(whole) > 4 * 4096
    readable = 0
    for end in range(0, len(whole), 512):
        for name in path.parent.iterdir():
            name.unlink()
        path.write_bytes(whole[:end])
        record = Record(path)
        kept = record.answers()
        assert len(record.notes) == 1, end
        assert kept == tuple(one for one in given if one in kept), end  # in order, none invented
        readable += bool(kept)
        if end:
            [aside] = put_aside(path)
            assert aside.read_bytes() == whole[:end] and aside.name in record.notes[0]
            assert not kept or record.notes[0].endswith(f": {len(kept)}.")
        assert record.add(answer("b", 1)) == "" and Record(path).answers() == (*kept, answer("b", 1))
    assert readable > 5, "nothing of a cut file was saved over"


def test_a_file_with_a_torn_page_is_opened_whole_or_put_aside(path, unsynced):
    _, given = filled(path, length=400)
    whole, chance = path.read_bytes(), random.Random(3)
    for _ in range(25):
        for name in path.parent.iterdir():
            name.unlink()
        place = chance.randrange(0, len(whole), 512)
        torn = chance.choice([bytes(512), chance.randbytes(512), whole[:512]])
        path.write_bytes(whole[:place] + torn + whole[place + 512 :])
        record = Record(path)
        kept = record.answers()
        assert kept == tuple(one for one in given if one in kept), place
        assert kept == given or (put_aside(path) and record.notes), place
        assert record.add(answer("b", 1)) == ""


def test_one_letter_changed_in_the_file_is_seen(path, unsynced):
    _, given = filled(path)
    path.write_bytes(path.read_bytes().replace(b"7 xxxx", b"7 xxyx", 1))
    record = Record(path)
    assert len(record.answers()) == len(given) - 1 and record.notes[0].endswith(f": {len(given) - 1}.")
    assert put_aside(path)


def test_damage_is_seen_while_the_notebook_is_open(path, unsynced):
    record, given = filled(path)
    path.write_bytes(path.read_bytes().replace(b"7 xxxx", b"7 xxyx", 1))
    other = Record(path.with_name("other.sqlite"))
    other.add(answer("b", 1))
    assert record.take(other.export()).startswith("1 answer taken over") and len(put_aside(path)) == 1
    assert len(record.notes) == 1 and len(record.answers()) == len(given)  # one lost, one new
    assert answer("b", 1) in record.answers() and Record(path).notes == ()
    path.write_bytes(path.read_bytes().replace(b"8 xxxx", b"8 xxyx", 1))
    assert len(record.answers()) == len(given) - 1 and len(put_aside(path)) == 2 and len(record.notes) == 2


def test_a_journal_goes_aside_with_its_file(path):
    record, _ = filled(path)
    path.write_bytes(b"no database" * 1000)
    journal = path.with_name("practice.sqlite-journal")
    journal.write_bytes(bytes(1000))  # not one that is played in first
    assert record.add(answer("b", 1)) == ""  # damaged while the notebook is open
    assert record.answers() == (answer("b", 1),) and len(record.notes) == 1
    [aside] = put_aside(path)
    assert aside.read_bytes() == b"no database" * 1000
    assert not journal.exists() and aside.with_name(aside.name + "-journal").exists()


def test_a_file_of_somebody_else_is_put_aside_as_it_is(path, unsynced):
    for turn in range(3):
        path.unlink(missing_ok=True)
        with closing(sqlite3.connect(path)) as other:
            other.execute("CREATE TABLE answers (mine TEXT)")
            other.execute("INSERT INTO answers VALUES ('keep me')")
            other.commit()
        content = path.read_bytes()
        record = Record(path)
        assert "not a record of this workbook" in record.notes[0] and record.answers() == ()
        asides = put_aside(path)
        assert len(asides) == turn + 1 and all(aside.read_bytes() == content for aside in asides)


def test_two_notebooks_that_meet_a_damaged_file_put_it_aside_once(path):
    filled(path)
    path.write_bytes(path.read_bytes()[:6000])
    records = []
    threads = [threading.Thread(target=lambda: records.append(Record(path))) for _ in range(6)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert len(records) == 6 and len(put_aside(path)) == 1
    assert sum(len(record.notes) for record in records) == 1


def test_a_record_of_a_newer_version_is_left_alone(path):
    filled(path)
    with closing(sqlite3.connect(path)) as newer:
        newer.execute("PRAGMA user_version = 2")
        newer.execute("ALTER TABLE answers ADD COLUMN mood TEXT")
        newer.commit()
    content = path.read_bytes()
    record = Record(path)
    assert len(record.notes) == 1 and "newer version" in record.notes[0]
    said = record.add(answer("b", 1))
    assert "newer version" in said and "save the record as a table" in said and "next answer" not in said
    assert record.answers() == (answer("b", 1),) and record.waiting == 1 and b"item b" in record.export()
    assert "newer version" in record.erase()
    assert path.read_bytes() == content and put_aside(path) == []


def test_a_full_disk_keeps_answers_in_memory_until_there_is_room(path, monkeypatch):
    record, given = filled(path, 3)
    inserted = record_file.INSERT

    def full(connection, *_):
        raise full_error

    with closing(sqlite3.connect(":memory:")) as small:
        small.execute("PRAGMA max_page_count = 1")
        with pytest.raises(sqlite3.OperationalError) as caught:
            small.execute("CREATE TABLE a (b)")
    full_error = caught.value
    monkeypatch.setattr(record._file, "_within", full)
    said = record.add(answer("b", 1))
    assert "1 answer not on disk: the disk is full" in said and record.waiting == 1
    assert "2 answers" in record.add(answer("b", 2))
    assert record.answers() == (*given, answer("b", 1), answer("b", 2))  # those of the last time, and the new ones
    monkeypatch.undo()
    assert record_file.INSERT == inserted and Record(path).answers() == given
    assert record.add(answer("b", 3)) == "" and record.waiting == 0
    assert Record(path).answers() == record.answers() == (*given, *(answer("b", number) for number in (1, 2, 3)))


def test_an_answer_that_is_on_disk_but_was_not_told_so_is_not_written_twice(path, monkeypatch):
    record, given = filled(path, 3)
    within = record._file._within

    def cut_off(work, writes):
        within(work, writes)
        raise sqlite3.OperationalError("disk I/O error")

    monkeypatch.setattr(record._file, "_within", cut_off)
    assert "1 answer not on disk" in record.add(answer("b", 1))
    monkeypatch.undo()
    assert record.answers() == (*given, answer("b", 1)) and record.waiting == 1
    assert record.add(answer("b", 2)) == "" and record.answers() == (*given, answer("b", 1), answer("b", 2))


LIMITED = """
import resource, sys
from dataclasses import replace
from shoulder_model.practice.record import Record
from tests.own.practice.record_writers import answer
record = Record(sys.argv[1])
assert record.add(answer("first", 0)) == ""
resource.setrlimit(resource.RLIMIT_FSIZE, (record.path.stat().st_size + 8192, resource.RLIM_INFINITY))
said = [record.add(replace(answer("a", number), text="x" * 450)) for number in range(60)]
on_disk = len(Record(sys.argv[1]).answers())
on_disk -= 1
assert on_disk + record.waiting == 60 and record.waiting, (on_disk, record.waiting)
assert on_disk == said.index(next(filter(None, said))), "said to be on disk and is not"
assert len(record.answers()) == 61
resource.setrlimit(resource.RLIMIT_FSIZE, (resource.RLIM_INFINITY, resource.RLIM_INFINITY))
assert record.add(answer("a", 60)) == ""
print(on_disk, len(Record(sys.argv[1]).answers()))
"""


@pytest.mark.skipif(sys.platform == "win32", reason="no limit on the size of files there")
def test_a_file_that_must_not_grow_loses_nothing(path):
    run = subprocess.run([sys.executable, "-c", LIMITED, str(path)], capture_output=True, text=True, timeout=60, **HERE)
    assert not run.stderr
    on_disk, after = map(int, run.stdout.split())
    assert 0 < on_disk < 60 and after == 62


READ_ONLY = """
import os, sys
from shoulder_model.practice.record import Record
from tests.own.practice.record_writers import answer
if os.getuid() == 0:
    os.setuid(65534)  # nothing is read-only for root
for path in sys.argv[1:]:
    record = Record(path)
    if os.path.exists(path):  # where there is none, the first answer says it
        assert len(record.notes) == 1 and "cannot be written" in record.notes[0], record.notes
    before = len(record.answers())
    said = record.add(answer("b", 1))
    assert "cannot be written" in said and record.waiting == 1, said
    assert record.answers()[-1] == answer("b", 1) and b"item b" in record.export()
    print(before, len(record.answers()))
"""


@pytest.mark.skipif(sys.platform == "win32", reason="folders have other rights there")
def test_a_folder_that_cannot_be_written_is_said_and_read_all_the_same():
    with tempfile.TemporaryDirectory() as name:
        paths = [Path(name) / folder / "practice.sqlite" for folder in ("new", "full", "open")]
        for path, count in zip(paths, (0, 5, 7), strict=True):
            path.parent.mkdir()
            if count:
                filled(path, count)
            for file in path.parent.iterdir():
                file.chmod(0o666 if path.parent.name == "open" else 0o444)
            if path.parent.name == "open":
                path.with_name("practice.sqlite-door").unlink()
            path.parent.chmod(0o555)
        Path(name).chmod(0o555)
        command = [sys.executable, "-c", READ_ONLY, *map(str, paths)]
        run = subprocess.run(command, capture_output=True, text=True, timeout=60, **HERE)
        for path in (Path(name), *(path.parent for path in paths)):
            path.chmod(0o755)
    assert not run.stderr
    assert run.stdout.splitlines() == ["0 1", "5 6", "7 8"]


@pytest.mark.skipif(sys.platform == "win32", reason="folders have other rights there")
def test_only_the_owner_can_read_the_record_whatever_the_user_lets_others_read(tmp_path):
    before = os.umask(0)
    try:
        record, old = Record(tmp_path / "new" / "practice.sqlite"), tmp_path / "old.sqlite"
        assert record.add(answer("a", 1)) == ""
        filled(old, 1)
        old.chmod(0o644)  # as an earlier edition left it
        Record(old)
    finally:
        os.umask(before)
    files = [record.path, record.path.with_name("practice.sqlite-door"), old]
    assert [path.stat().st_mode & 0o777 for path in (record.path.parent, *files)] == [0o700, 0o600, 0o600, 0o600]


def test_looking_makes_no_file(tmp_path):
    record = Record(tmp_path / "new" / "practice.sqlite")
    assert record.answers() == () and record.notes == () and not (tmp_path / "new").exists()


def test_a_folder_that_is_a_file_keeps_answers_in_memory(tmp_path):
    (tmp_path / "folder").write_text("in the way")
    record = Record(tmp_path / "folder" / "practice.sqlite")
    assert record.add(answer("a", 1)) != "" and record.answers() == (answer("a", 1),)
    (tmp_path / "folder").unlink()
    assert record.add(answer("a", 2)) == ""
    assert Record(record.path).answers() == (answer("a", 1), answer("a", 2))


def test_another_notebook_that_does_not_let_go_is_said(path, monkeypatch):
    monkeypatch.setattr(record_file, "PATIENCE", 0.05)
    record, given = filled(path, 3)
    for name in (path, path.with_name("practice.sqlite-door")):
        with closing(sqlite3.connect(name, isolation_level=None)) as other:
            other.execute("BEGIN EXCLUSIVE")
            assert "another notebook" in record.add(answer("b", 1))
            assert record.answers()[:3] == given
    assert record.add(answer("b", 2)) == "" and len(Record(path).answers()) == 6


def test_a_door_that_somebody_wrote_on_keeps_nobody_out(path):
    path.with_name("practice.sqlite-door").write_text("no door " * 200)
    _, given = filled(path, 3)
    assert Record(path).answers() == given


def test_a_table_is_taken_over_without_doubles_and_in_order(tmp_path):
    one, other = Record(tmp_path / "one.sqlite"), Record(tmp_path / "other.sqlite")
    shared = [answer("a", number) for number in range(4)]
    one.add_all(shared)
    assert other.take(one.export()) == "4 answers taken over, 0 were here already."
    one.add(answer("a", 20))
    other.add_all([answer("b", 10), answer("b", 30)])
    assert other.take(one.export()) == "1 answer taken over, 4 were here already."
    assert other.answers() == (*shared, answer("b", 10), answer("a", 20), answer("b", 30))
    assert other.take(other.export()).startswith("0 answers")
    assert Record(other.path).answers() == other.answers()


def test_equal_answers_are_two_answers(path, tmp_path):
    record = Record(path)
    record.add_all([answer("a", 1)] * 3)
    assert record.answers() == (answer("a", 1),) * 3
    other = Record(tmp_path / "other.sqlite")
    other.take(record.export())
    assert len(other.answers()) == 3


def test_no_cell_of_the_table_is_a_formula(path):
    record = Record(path)
    typed = ["=1+1", "+cmd", "-3 N m", "@x", "'quoted", "a,b;c", '"']
    record.add_all([replace(answer("a", number), text=text) for number, text in enumerate(typed)])
    text = record.export().decode("utf-8-sig")
    assert not any(cell[:1] in "=+@" for row in text.splitlines() for cell in row.split(",") if cell)
    other = Record(path.with_name("other.sqlite"))
    other.take(record.export())
    assert [one.text for one in other.answers()] == typed


def test_a_table_gone_wrong_is_refused_in_one_line_and_changes_nothing(path, unsynced):
    record, given = filled(path, 5)
    good, chance = record.export(), random.Random(1)
    other = Record(path.with_name("other.sqlite"))
    lines = good.split(b"\n")
    wrong = [
        b"", b"\x00\xff", b"id,time\n", b"PK\x03\x04", good[:-1] + b",more\n", good.replace(b"no", b"maybe"),
        b"\n".join([lines[0], lines[1].replace(b"1.0", b"7.0")]),
        b"\n".join([lines[0], lines[1].replace(b",1.0,", b",nan,")]),
        b"\n".join([lines[0], b'"' + lines[1]]), b"\n".join([lines[0], b"0" + lines[1]]),
    ]  # fmt: skip
    for content in wrong:
        with pytest.raises(InputError) as caught:
            other.take(content)
        assert (
            str(caught.value).startswith("record") and "\n" not in str(caught.value) and len(str(caught.value)) <= 300
        )
        assert other.answers() == ()
    for _ in range(300):
        torn = bytearray(good)
        torn[chance.randrange(len(torn))] = chance.randrange(256)
        with contextlib.suppress(InputError):
            Record(path.with_name("torn.sqlite")).take(bytes(torn))
    assert record.answers() == given


def test_erasing_leaves_no_word_of_it(path):
    record, _ = filled(path)
    other = Record(path)
    assert b"item a" in path.read_bytes()
    assert record.erase() == "" and record.answers() == other.answers() == ()
    assert not any(b"item a" in name.read_bytes() for name in path.parent.iterdir())
    assert other.add(answer("b", 1)) == "" and record.answers() == (answer("b", 1),)
    path.write_bytes(b"no database" * 100)
    Record(path)
    assert "-aside-" in record.erase()
    assert put_aside(path), "erase told of a file that it took away"
    path.write_bytes(b"no database" * 100)
    assert "-aside-" in record.erase() and record.answers() == () and record.add(answer("b", 1)) == ""


def test_an_exam_is_finished_with_an_answer_to_every_item(path):
    record, exam = Record(path), exam_id("Mock exam", "K7Q", 3)
    given = [replace(answer("a", number), exam=exam) for number in range(2)]
    record.add_all([*given, answer("a", 9)])
    assert record.exams() == {} and record.open_exams() == {exam: tuple(given)}
    again = replace(given[0], text="13 N m", score=0.0)
    record.add(again)
    assert record.exams() == {} and set(record.open_exams()[exam]) == {again, given[1]}
    record.add(replace(answer("a", 2), text="", score=0.0, exam=exam))
    assert record.open_exams() == {} and len(record.exams()[exam]) == 3
    assert record.exams()[exam][-1].is_open
