"""A file by the path that somebody typed: read whole, or refused in one line and at once."""

import os

import pytest

from shoulder_model import given_file
from shoulder_model.given_file import letters_of, path_of, read_given
from shoulder_model.inputs import InputError
from shoulder_model.panels import GripPanel
from shoulder_model.panels.file_door import FileDoor


@pytest.fixture
def file(tmp_path):
    path = tmp_path / "my week 100%.json"
    path.write_bytes(b"{}")
    return path


@pytest.mark.parametrize(
    "typed",
    [
        "{0}", "  {0}\n", "'{0}'", '"{0}"', "“{0}”", "file://{0}", "FILE://localhost{0}", "\u202a{0}\u202c", "\ufeff{0}",
        "file://{1}", "{1}", "'file://{1}'",
    ],
)  # fmt: skip
def test_a_path_is_understood_as_programs_write_it(file, typed):
    quoted = str(file).replace("%", "%25").replace(" ", "%20")
    assert read_given(typed.format(file, quoted), 100) == (file.name, b"{}")


def test_a_home_folder_is_understood(file, monkeypatch):
    monkeypatch.setenv("HOME", str(file.parent))
    monkeypatch.setenv("USERPROFILE", str(file.parent))
    assert path_of(f"~/{file.name}") == file


def refusal(typed, largest=100):
    with pytest.raises(InputError) as caught:
        read_given(typed, largest)
    said = str(caught.value)
    assert said.isprintable() and len(said) <= 300
    return said


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("a\0b", "is no path"),
        ("", "is no path"),
        ("x" * 9000, "is no path"),
        ("~nosuchuser/x", "leads to no folder"),
        ("/nowhere/x.json", "there is no such file"),
        ("x" * 300, "cannot be opened"),
        (".", "no file but a folder or a device"),
        ("file://elsewhere/x.json", "there is no such file"),
        ("http://x/y.json", "there is no such file"),
    ],
)
def test_what_is_no_file_is_refused_in_one_line(typed, says):
    assert says in refusal(typed)


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no pipes with names")
def test_a_pipe_and_devices_are_refused_at_once(tmp_path):
    os.mkfifo(tmp_path / "pipe.json")
    for typed in (tmp_path / "pipe.json", "/dev/zero", "/dev/stdin", "/proc/self/fd"):
        assert not os.path.exists(typed) or "a folder or a device" in refusal(str(typed))


def test_a_large_file_is_refused_before_it_is_read(tmp_path):
    with (tmp_path / "large.json").open("wb") as file:
        file.truncate(10**11)
    assert "at most 1 kB" in refusal(str(tmp_path / "large.json"), 1000)


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be"])
def test_letters_are_read_in_the_usual_encodings(encoding):
    assert letters_of('{"name": "Zoë 1.5 ×"}'.encode(encoding)) == '{"name": "Zoë 1.5 ×"}'


def test_the_same_path_opens_again_and_again(tmp_path):
    panel, path = GripPanel("front pulldown"), tmp_path / "mine.json"
    path.write_text(panel.content("json").decode(), encoding="utf-16")
    for load in ("45", "50"):
        panel.load.value = load
        panel.door._hear(panel.door, {"kind": "path", "typed": f"'{path}'"}, [])
        assert panel.picture.said["trouble"] == "" and "40 kg" in panel.words
    panel.door.open_path("/dev/zero")
    assert panel.picture.said["trouble"].startswith("/dev/zero: this is no file") and "40 kg" in panel.words
    panel.door.open_path("  ")
    assert panel.picture.said["trouble"].startswith("/dev/zero")


def test_without_a_disk_of_the_readers_there_is_no_box(monkeypatch, tmp_path):
    taken, refused = [], []
    assert FileDoor(taken.append, refused.append, path=True).path and not FileDoor(taken.append, refused.append).path
    monkeypatch.setattr(given_file.sys, "platform", "emscripten")
    door = FileDoor(taken.append, refused.append, path=True)
    door.open_path(str(tmp_path))
    assert not door.path and not taken and not refused


def test_a_file_that_the_page_did_not_send_is_refused(monkeypatch):
    panel = GripPanel()
    before = panel.content("json")
    for buffers in ([], [b"x" * (panel.door.largest + 1)]):
        panel.door._hear(panel.door, {"kind": "opened", "name": "x" * 500}, buffers)
        assert "has more than 5000 kB" in panel.picture.said["trouble"] and len(panel.picture.said["trouble"]) < 200
    panel.door._hear(panel.door, {"kind": "opened", "name": "mine.json"}, [memoryview(before)])
    assert panel.picture.said["trouble"] == "" and panel.content("json") == before
