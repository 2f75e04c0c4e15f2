"""The command line: what it writes, what it refuses, and that a set is there as a whole or not at all."""

import csv
import subprocess
import sys
import time
from html.parser import HTMLParser

import psutil
import pytest

from shoulder_model import __main__
from shoulder_model.homework import command
from shoulder_model.practice.bank import templates

from .invented import STUDENTS, some_students


@pytest.fixture
def class_file(tmp_path):
    """A class list of six on disk."""
    path = tmp_path / "class.csv"
    path.write_text("id;name\n" + "".join(f"{one.id};{one.name}\n" for one in STUDENTS), encoding="utf-8")
    return path


def files(folder):
    return sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file())


def contents(folder):
    return {name: (folder / name).read_bytes() for name in files(folder)}


def run(*arguments):
    return command.main([str(one) for one in arguments])


def set_it(class_file, to, *more):
    return run("set", class_file, "--to", to, "--seed", "7", "--chapters", "3", "--items", "4", *more)


def test_a_set_is_made_and_marked(class_file, tmp_path, capsys):
    to = tmp_path / "week3"
    assert set_it(class_file, to) == 0
    there = files(to)
    assert {"README.txt", "answers.csv", "assignment.json", "class.csv", "key.csv", "marking_table.html"} <= set(there)
    assert (
        sum(name.startswith("sheets/") for name in there)
        == sum(name.startswith("keys/") for name in there)
        == len(STUDENTS)
    )
    assert not [name for name in there if name.endswith(".pdf")]
    with (to / "class.csv").open(encoding="utf-8-sig", newline="") as opened:
        rows = list(csv.DictReader(opened))
    assert {f"sheets/{row['file']}.html" for row in rows} <= set(there)
    assert capsys.readouterr().out.startswith(f"{to}: 6 sheets with 4 questions")
    (to / "answers.csv").write_bytes((to / "key.csv").read_bytes())
    assert run("mark", to, to / "answers.csv") == 0
    assert files(to / "marks") == ["answers_marked.csv", "marks.csv", "report.html"]
    assert "6 of 6 students marked, 4 questions: mean 4.0 of 4" in capsys.readouterr().out


def test_the_same_list_and_seed_give_the_same_files(tmp_path):
    path, (one, other) = tmp_path / "class.csv", (tmp_path / "one", tmp_path / "other")
    path.write_text("name\nZoë\n", encoding="utf-8")
    assert [set_it(path, to, "--pdf", "--paper", "Letter") for to in (one, other)] == [0, 0]
    assert contents(one) == contents(other)
    assert sum(name.endswith(".pdf") for name in files(one)) == 3


def test_two_processes_make_what_one_makes(tmp_path, monkeypatch):
    path = tmp_path / "class.csv"
    path.write_text("id,name\n" + "".join(f"{one.id},{one.name}\n" for one in some_students(23)), encoding="utf-8")
    assert set_it(path, tmp_path / "two") == 0
    monkeypatch.setattr("shoulder_model.homework.make_set.FEW", 1000)
    assert set_it(path, tmp_path / "one") == 0
    assert contents(tmp_path / "one") == contents(tmp_path / "two")


def test_nothing_is_overwritten_without_a_word_and_nothing_is_lost_with_it(class_file, tmp_path, capsys):
    to = tmp_path / "week3"
    assert set_it(class_file, to) == 0
    (to / "answers.csv").write_text("mine")
    before = contents(to)
    assert set_it(class_file, to) == 1 and "--replace" in capsys.readouterr().err
    assert contents(to) == before
    assert set_it(class_file, to, "--replace") == 0
    assert contents(tmp_path / "week3.before") == before and (to / "answers.csv").read_text("utf-8") != "mine"
    assert set_it(class_file, to, "--replace") == 0 and (tmp_path / "week3.before2").is_dir()


@pytest.mark.parametrize(
    ("more", "said"),
    [
        (["--chapters", "99"], "chapter '99'"),
        (["--names", "grip in inches"], "nearest: grip in centimetres"),
        (["--items", "900"], "items: that number does not work, there are"),
        (["--title", ""], "title"),
    ],
)
def test_a_wrong_wish_is_one_line_and_makes_nothing(class_file, tmp_path, capsys, more, said):
    to = tmp_path / "week3"
    assert set_it(class_file, to, *more) == 1
    err = capsys.readouterr().err
    assert said in err and len(err.splitlines()) == 1
    assert files(tmp_path) == ["class.csv"] and not to.exists()


def test_files_that_are_not_there_or_are_no_such_file_are_one_line(class_file, tmp_path, capsys):
    to = tmp_path / "week3"
    missing, folder = tmp_path / "no.csv", tmp_path
    for path in (missing, folder):
        assert set_it(path, to) == 1
    assert set_it(class_file, class_file) == 1
    assert run("mark", tmp_path / "nowhere", class_file) == 1
    assert set_it(class_file, to) == 0
    assert run("mark", to, missing) == run("mark", class_file, class_file) == 1
    lines = capsys.readouterr().err.splitlines()
    assert len(lines) == 6 and all(lines)
    assert not (to / "marks").exists()


def test_usage_is_two(capsys):
    for wrong in ([], ["give"], ["set"], ["set", "x", "--to", "y", "--seed", "1", "--paper", "A5"]):
        with pytest.raises(SystemExit) as caught:
            run(*wrong)
        assert caught.value.code == 2
    with pytest.raises(SystemExit) as caught:
        run("--help")
    assert caught.value.code == 0 and "examples:" in capsys.readouterr().out


def test_the_list_has_every_template(capsys):
    assert __main__.main(["homework", "list"]) == 0
    lines = [line.strip() for line in capsys.readouterr().out.splitlines()]
    assert all(name in lines for name in templates())


def test_processes_end_with_the_one_that_started_them(tmp_path):
    path, to = tmp_path / "class.csv", tmp_path / "week3"
    path.write_text("id\n" + "".join(f"{one.id}\n" for one in some_students(2000)), encoding="utf-8")
    line = [
        sys.executable,
        "-m",
        "shoulder_model",
        "homework",
        "set",
        str(path),
        "--to",
        str(to),
        "--seed",
        "1",
        "--chapters",
        "3",
    ]
    started = subprocess.Popen(line)
    begun = time.monotonic()
    while not list(tmp_path.glob(".week3.*/sheets/*")) and time.monotonic() - begun < 60:
        time.sleep(0.05)
    workers = psutil.Process(started.pid).children(recursive=True)
    started.kill()
    started.wait()
    assert workers and not psutil.wait_procs(workers, timeout=20)[1]
    assert not to.exists()


def test_stopping_it_leaves_nothing(class_file, tmp_path, monkeypatch, capsys):
    def stopped(*_, **__):
        raise KeyboardInterrupt

    monkeypatch.setattr("shoulder_model.homework.make_set.marking_table", stopped)
    assert set_it(class_file, tmp_path / "week3") == 1
    assert "stopped" in capsys.readouterr().err and [path.name for path in tmp_path.iterdir()] == ["class.csv"]


def test_a_reader_that_has_enough_is_no_error():
    line = [sys.executable, "-m", "shoulder_model", "homework", "list"]
    run = subprocess.Popen(line, stdout=subprocess.PIPE, stderr=subprocess.PIPE)
    run.stdout.close()
    assert run.stderr.read() == b"" and run.wait() == 0
    run.stderr.close()


def test_an_error_on_the_way_leaves_nothing(class_file, tmp_path, monkeypatch, capsys):
    def broken(*_, **__):
        raise RuntimeError("grip: no numbers in 200 draws")

    monkeypatch.setattr("shoulder_model.homework.make_set.marking_table", broken)
    assert set_it(class_file, tmp_path / "week3") == 1
    assert capsys.readouterr().err == "grip: no numbers in 200 draws\n"
    assert [path.name for path in tmp_path.iterdir()] == ["class.csv"]


def test_a_run_that_is_killed_leaves_no_half_set(class_file, tmp_path):
    to = tmp_path / "week3"
    code = (
        "import sys, time, shoulder_model.homework.make_set as made\n"
        "made.marking_table = lambda *_: time.sleep(300)\n"
        "from shoulder_model.homework.command import main\n"
        "main(sys.argv[1:])"
    )
    line = [sys.executable, "-c", code, "set", str(class_file), "--to", str(to), "--seed", "1", "--chapters", "3"]
    started = subprocess.Popen(line)
    begun = time.monotonic()
    while not list(tmp_path.glob(".week3.*/key.csv")) and time.monotonic() - begun < 60:
        time.sleep(0.05)
    started.kill()
    started.wait()
    assert not to.exists() and list(tmp_path.glob(".week3.*/key.csv"))
    assert set_it(class_file, to) == 0 and (to / "marking_table.html").is_file()


def test_sheets_fetch_nothing_and_run_nothing(class_file, tmp_path):
    class Reader(HTMLParser):
        def handle_starttag(self, tag, attributes):
            assert tag not in ("script", "link", "img", "iframe", "object")
            assert not [name for name, _ in attributes if name in ("src", "href", "action") or name.startswith("on")]

    to = tmp_path / "week3"
    assert set_it(class_file, to) == 0
    for path in to.rglob("*.html"):
        Reader().feed(path.read_text(encoding="utf-8"))
