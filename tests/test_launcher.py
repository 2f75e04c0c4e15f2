"""How the workbook is opened: arguments and settings by themselves, and one real start."""

import http.client
import json
import os
import re
import signal
import socket
import subprocess
import sys
import time
from importlib.resources import files
from pathlib import Path

import nbformat
import pytest
from nbformat.sign import NotebookNotary

from shoulder_model.__main__ import main
from shoulder_model.checkout import LECTURE, LECTURE_STATE, chapters
from shoulder_model.lab.launch import (
    HOME,
    LECTURE_PAGE,
    NoWorkbook,
    chapter_page,
    environment,
    lab_arguments,
    lecture_environment,
    trust,
)

TABLE = Path("/proc/net/tcp")


@pytest.fixture
def home(tmp_path):
    """A tiny checkout with two chapters."""
    (tmp_path / "workbook").mkdir()
    for name in ("00_start", "03_grip_width"):
        nbformat.write(nbformat.v4.new_notebook(), tmp_path / "workbook" / f"{name}.ipynb")
    return tmp_path


def test_every_folder_lies_in_the_state(tmp_path):
    made = environment(tmp_path)
    assert made.pop("JUPYTER_WIDGETS_ECHO") == "0"
    assert len(made) == 5 and all(Path(folder).is_relative_to(tmp_path) for folder in made.values())


def test_the_page_opens_on_loopback_at_the_chapter_asked_for(home, tmp_path):
    line = lab_arguments(home, tmp_path / ".lab", chapter_page(home, "03_grip_width"), port=8888, browser=False)
    assert "--ServerApp.ip=127.0.0.1" in line
    assert "--LabApp.default_url=/doc/tree/workbook/03_grip_width.ipynb" in line
    assert "--no-browser" in line and "--ServerApp.port_retries=0" in line
    assert ("--allow-root" in line) == (os.geteuid() == 0)
    folders = [word.split("=")[1] for word in line if word.startswith(("--LabApp.user", "--LabApp.work"))]
    assert folders and all(folder.startswith(str(tmp_path / ".lab")) for folder in folders)


def test_an_unknown_chapter_gives_the_nearest(home):
    with pytest.raises(ValueError, match="chapter '03_grip' is not known; nearest: 03_grip_width"):
        chapter_page(home, "03_grip")


def test_a_package_without_its_workbook_says_what_to_do(tmp_path):
    with pytest.raises(NoWorkbook, match=r"no notebooks in .*workbook: get the whole project"):
        chapters(tmp_path)


def test_a_wrong_chapter_ends_in_one_sentence():
    with pytest.raises(SystemExit, match="chapter 'nothing' is not known"):
        main(["--chapter", "nothing"])


def test_a_lecture_keeps_where_it_stands_in_the_state(tmp_path):
    told = lecture_environment(tmp_path, "my_class")
    assert told[LECTURE] == "my_class" and Path(told[LECTURE_STATE]).is_relative_to(tmp_path)
    assert (HOME / LECTURE_PAGE).is_file()


def test_a_lecture_that_is_none_ends_in_one_sentence():
    with pytest.raises(SystemExit, match=r"^[^\n]*nothing[^\n]*$"):
        main(["--lecture", "nothing", "--no-browser"])


def test_every_chapter_is_trusted(home):
    state = home / ".lab"
    assert trust(home, state) == ["00_start", "03_grip_width"]
    notary = NotebookNotary(data_dir=str(state / "data"))
    for name in chapters(home):
        assert notary.check_signature(nbformat.read(home / "workbook" / f"{name}.ipynb", as_version=4))
    assert not notary.check_signature(nbformat.v4.new_notebook(cells=[nbformat.v4.new_code_cell("1")]))
    notary.store.close()


@pytest.mark.parametrize("content", ["", "not a notebook", "{}", "[]", '{"nbformat": 4}'])
def test_a_damaged_notebook_does_not_keep_the_workbook_from_starting(home, content):
    (home / "workbook" / "Untitled.ipynb").write_text(content)
    assert trust(home, home / ".lab")[:2] == ["00_start", "03_grip_width"]


def test_no_pop_ups_and_two_buttons_that_the_page_knows():
    lab = files("shoulder_model.lab")
    settings = json.loads(lab.joinpath("overrides.json").read_text())
    news = settings["@jupyterlab/apputils-extension:notification"]
    assert news["fetchNews"] == "false" and news["checkForUpdates"] is False
    buttons = [button["command"] for button in settings["@jupyterlab/notebook-extension:panel"]["toolbar"]]
    assert buttons == ["workbook:run-everything", "workbook:show-code"]
    extension = lab.joinpath("labextensions", "workbook-buttons")
    build = json.loads(extension.joinpath("package.json").read_text())["jupyterlab"]["_build"]
    script = extension.joinpath(build["load"]).read_text()
    assert all(f'addCommand("{command}"' in script for command in buttons) and build["extension"] in script


def free_port():
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


def answer(port, path):
    """Status of one request, or None while nobody listens."""
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=5)
    try:
        connection.request("GET", path)
        return connection.getresponse().status
    except OSError:
        return None
    finally:
        connection.close()


def test_it_really_starts_and_writes_nothing_into_the_users_home(tmp_path):
    port, log = free_port(), tmp_path / "log"
    home = tmp_path / "home"
    home.mkdir()
    known = {key: value for key, value in os.environ.items() if not key.startswith(("JUPYTER", "IPYTHON", "XDG"))}
    line = [sys.executable, "-m", "shoulder_model", "--no-browser", "--port", str(port)]
    with open(log, "w") as out:
        server = subprocess.Popen(
            line, env=known | {"HOME": str(home)}, stdout=out, stderr=out, cwd=HOME, start_new_session=True
        )
    try:
        wanted = re.compile(rf"http://127\.0\.0\.1:{port}(/doc/tree/workbook/00_start\.ipynb\?token=\w+)")
        deadline = time.monotonic() + 60
        while not (found := wanted.search(log.read_text())):
            assert server.poll() is None and time.monotonic() < deadline, log.read_text()
            time.sleep(0.1)
        while (status := answer(port, found[1])) is None:
            assert time.monotonic() < deadline
            time.sleep(0.1)
        assert status == 200
        assert answer(port, "/api/sessions") == 403  # nobody without the token
        if TABLE.exists():
            assert listening_on(port) == {"127.0.0.1"}
    finally:
        os.killpg(server.pid, signal.SIGTERM)
        server.wait(20)
    assert not [path for path in home.rglob("*") if path.is_file() and ".cache" not in path.parts]


def listening_on(port):
    """Local addresses that listen on ``port``, from the kernel's table (Linux)."""
    found = set()
    for line in TABLE.read_text().splitlines()[1:]:
        local, state = line.split()[1], line.split()[3]
        address, where = local.split(":")
        if int(where, 16) == port and state == "0A":
            found.add(socket.inet_ntoa(bytes.fromhex(address)[::-1]))
    return found
