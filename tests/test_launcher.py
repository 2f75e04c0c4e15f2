"""How the workbook is opened: arguments and settings by themselves, and one real start among hostile settings."""

import http.client
import json
import os
import re
import shutil
import signal
import socket
import subprocess
import sys
import time
from importlib.resources import files
from pathlib import Path

import nbformat
import pytest
from jupyter_client import BlockingKernelClient
from nbformat.sign import NotebookNotary

from shoulder_model.__main__ import main
from shoulder_model.checkout import HOME, LECTURE, LECTURE_STATE, NoWorkbook, chapter_called, chapters
from shoulder_model.inputs import InputError
from shoulder_model.lab import places, trust
from shoulder_model.lab.launch import (
    LECTURE_PAGE,
    environment,
    lab_arguments,
    lecture_environment,
    port_number,
    without_foreign,
)

TABLE = Path("/proc/net/tcp")
TITLES = ["00_start", "01_width_and_thickness", "03_grip_width", "10_from_numbers_to_a_session", "a1_out_of_the_plane"]
AS_ROOT = hasattr(os, "geteuid") and os.geteuid() == 0


@pytest.fixture
def home(tmp_path):
    """A tiny checkout with two chapters."""
    (tmp_path / "workbook").mkdir()
    for name in ("00_start", "03_grip_width"):
        shutil.copy(HOME / "workbook" / f"{name}.ipynb", tmp_path / "workbook")
    return tmp_path


def test_every_folder_lies_in_the_state(tmp_path):
    made = environment(tmp_path)
    assert made.pop("JUPYTER_WIDGETS_ECHO") == "0"
    assert len(made) == 5 and all(Path(folder).is_relative_to(tmp_path) for folder in made.values())


def test_the_page_opens_on_loopback_at_the_chapter_asked_for(home, tmp_path):
    page = "workbook/03_grip_width.ipynb"
    line = lab_arguments(home, tmp_path / ".lab", page, port=8888, browser=False)
    assert "--ServerApp.ip=127.0.0.1" in line
    assert f"--LabApp.default_url=/doc/tree/{page}" in line
    assert "--no-browser" in line and "--ServerApp.port_retries=0" in line
    assert ("--allow-root" in line) == AS_ROOT
    folders = [word.split("=")[1] for word in line if word.startswith(("--LabApp.user", "--LabApp.work"))]
    assert folders and all(folder.startswith(str(tmp_path / ".lab")) for folder in folders)


@pytest.mark.parametrize(
    "text", ["03_grip_width", "3", "03", "grip", "03_grip_width.ipynb", "workbook/03_grip_width.ipynb"]
)
def test_a_chapter_is_found_by_name_number_or_part(text):
    assert chapter_called(text, TITLES) == "03_grip_width"


def test_a_number_is_no_part_of_another_and_letters_count_as_well():
    assert chapter_called("1", TITLES) == "01_width_and_thickness"
    assert chapter_called("10", TITLES) == "10_from_numbers_to_a_session"
    assert chapter_called("a1", TITLES) == "a1_out_of_the_plane"


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("03_grap", "chapter '03_grap' is not known; nearest: 03_grip_width"),
        ("8", "chapter '8' is not known; nearest: 10_from_numbers_to_a_session, 03_grip_width"),
        ("width", "chapter 'width' may be 01_width_and_thickness or 03_grip_width; say which"),
        ("nothing", "chapter 'nothing' is not known; choose from: 00_start"),
        ("", "chapter '' is not known"),
    ],
)
def test_an_unknown_chapter_gives_the_nearest(text, said):
    with pytest.raises(InputError, match=f"^{re.escape(said)}[^\n]*$"):
        chapter_called(text, TITLES)


def test_a_package_without_its_workbook_says_what_to_do(tmp_path):
    with pytest.raises(NoWorkbook, match=r"no notebooks in .*workbook: get the whole project"):
        chapters(tmp_path)


@pytest.mark.parametrize(
    "line",
    [
        "--chapter nothing", "--lecture nothing --no-browser", "--port 70000", "--port -5", "--port abc", "--port 0",
        "--port 8_8", "--port ٣", "--port " + "9" * 5000,
    ],
)  # fmt: skip
def test_a_wrong_word_ends_in_one_sentence(line):
    with pytest.raises(SystemExit, match=r"^[^\n]{20,}$") as end:
        main(line.split())
    assert end.value.code not in (0, None)


def test_it_says_its_version(capsys):
    with pytest.raises(SystemExit) as ended:
        main(["--version"])
    assert not ended.value.code and re.fullmatch(r"shoulder-model \d+\.\d+\.\d+\n", capsys.readouterr().out)


def test_a_busy_port_ends_in_one_sentence():
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        with pytest.raises(SystemExit, match=r"^port \d+ is in use: [^\n]*$"):
            main(["--port", str(taken.getsockname()[1])])


def test_a_free_port_is_taken():
    port = free_port()
    assert port_number(str(port)) == port


def test_a_lecture_keeps_where_it_stands_in_the_state(tmp_path):
    told = lecture_environment(tmp_path, "my_class")
    assert told[LECTURE] == "my_class" and Path(told[LECTURE_STATE]).is_relative_to(tmp_path)
    assert (HOME / LECTURE_PAGE).is_file()


def test_the_list_of_what_is_shipped_is_up_to_date():
    found = {path.relative_to(HOME).as_posix(): trust.digest(path.read_bytes()) for path in trust.pages(HOME)}
    listed = json.loads(trust.LIST.read_text())
    assert found == listed, "after editing a chapter: python -m shoulder_model.lab.trust"


def test_only_what_is_shipped_is_trusted_and_by_its_content(home):
    data = home / "data"
    mine = home / "workbook" / "03_grip_width.ipynb"
    changed = nbformat.read(mine, as_version=4)
    changed.cells[-1].source += " "
    nbformat.write(changed, home / "workbook" / "04_changed.ipynb")
    nbformat.write(nbformat.v4.new_notebook(), home / "workbook" / "05_foreign.ipynb")
    shutil.copy(mine, home / "workbook" / "06_renamed.ipynb")
    assert trust.trust(home, data) == ["00_start", "03_grip_width", "06_renamed"]
    with NotebookNotary(data_dir=str(data)) as notary:
        signed = {
            path.stem: notary.check_signature(nbformat.read(path, as_version=4)) for path in trust.pages(home)[:-1]
        }
    assert [name for name, yes in signed.items() if not yes] == ["04_changed", "05_foreign"]


def test_a_digest_is_over_everything_but_the_way_it_is_written_down():
    content = (HOME / "workbook" / "00_start.ipynb").read_bytes()
    same = json.dumps(json.loads(content), indent=3).replace("\n", "\r\n").encode()
    assert trust.digest(same) == trust.digest(content)
    for change in (
        lambda book: book["cells"][0].update(source=["<script>1</script>"]),
        lambda book: book["cells"][0]["metadata"].update(new=1),
        lambda book: book["metadata"].update(widgets={"state": {}}),
        lambda book: next(cell for cell in book["cells"] if cell["cell_type"] == "code")["outputs"].append({}),
    ):
        book = json.loads(content)
        change(book)
        assert trust.digest(json.dumps(book).encode()) != trust.digest(content)


@pytest.mark.parametrize("content", ["", "not a notebook", "{}", "[]", '{"nbformat": 4}', "[" * 100_000])
def test_a_damaged_notebook_does_not_keep_the_workbook_from_starting(home, content):
    (home / "workbook" / "Untitled.ipynb").write_text(content)
    assert trust.trust(home, home / "data") == ["00_start", "03_grip_width"]


def test_the_state_lies_beside_the_workbook_and_is_the_owners_alone(home):
    state, words = places.state_folder(home)
    assert state == home / ".lab" and words == ""
    if os.name == "posix":
        assert state.stat().st_mode & 0o777 == 0o700


@pytest.fixture
def elsewhere(tmp_path, monkeypatch):
    """A user whose own folders lie below a temporary one; gives it."""
    import platformdirs

    own = tmp_path / "user"
    for name in ("user_state_path", "user_documents_path", "user_data_path"):
        monkeypatch.setattr(platformdirs, name, lambda *_, name=name, **__: own / name)
    return own


@pytest.fixture
def blocked(home):
    """A checkout in which no folder for the state can be made."""
    (home / ".lab").write_text("a file is in the way")
    return home


def test_where_the_checkout_cannot_be_written_the_state_is_the_users(blocked, elsewhere):
    state, words = places.state_folder(blocked)
    assert state.is_relative_to(elsewhere / "user_state_path") and words == ""
    assert trust.trust(blocked, state / "jupyter") == ["00_start", "03_grip_width"]


def test_where_the_user_has_no_folder_it_is_for_this_time_only(blocked, elsewhere):
    elsewhere.write_text("no folder")
    state, words = places.state_folder(blocked)
    assert "for this time only" in words and str(state) in words
    assert (state / "jupyter").is_dir()
    shutil.rmtree(state)


def test_where_nothing_can_be_written_one_sentence_says_so(blocked, elsewhere, monkeypatch):
    elsewhere.write_text("no folder")

    def full(**_):
        raise OSError("no room")

    monkeypatch.setattr(places.tempfile, "mkdtemp", full)
    with pytest.raises(InputError, match=r"^no folder can be written here[^\n]*$"):
        places.state_folder(blocked)


@pytest.mark.skipif(not AS_ROOT, reason="only root can give a folder away")
def test_the_folder_of_another_user_is_left_alone(home, elsewhere):
    (home / ".lab").mkdir()
    os.chown(home / ".lab", 12345, 12345)
    assert places.state_folder(home)[0].is_relative_to(elsewhere)
    assert list((home / ".lab").iterdir()) == []


def test_an_installed_package_lays_its_workbook_out_and_keeps_what_the_reader_changed(tmp_path, elsewhere):
    packed = tmp_path / "packed"
    for room in ("workbook", "figures"):
        (packed / room).mkdir(parents=True)
    for name in ("workbook/00_a.ipynb", "workbook/01_b.ipynb", "figures/a.svg"):
        (packed / name).write_text('"first"')
    folder = places.reader_folder()
    assert folder.is_relative_to(elsewhere / "user_documents_path")
    assert sorted(places.lay_out(folder, packed)) == sorted(
        ["workbook/00_a.ipynb", "workbook/01_b.ipynb", "figures/a.svg", LECTURE_PAGE]
    )
    (folder / "workbook/00_a.ipynb").write_text('"changed by the reader"')
    for name in ("workbook/00_a.ipynb", "workbook/01_b.ipynb"):
        (packed / name).write_text('"second"')
    assert places.lay_out(folder, packed) == ["workbook/01_b.ipynb"]
    assert (folder / "workbook/00_a.ipynb").read_text() == '"changed by the reader"'
    assert places.lay_out(folder, packed) == []


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


def answer(port, path, method="GET"):
    """Status and text of one request, or None while nobody listens."""
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=20)
    try:
        connection.request(method, path, body="{}" if method == "POST" else None)
        reply = connection.getresponse()
        return reply.status, reply.read().decode()
    except OSError:
        return None
    finally:
        connection.close()


HOSTILE = """
c.IdentityProvider.token = ""
c.ServerApp.token = ""
c.ServerApp.allow_unauthenticated_access = True
c.ServerApp.ip = "0.0.0.0"
c.ServerApp.disable_check_xsrf = True
c.ServerApp.identity_provider_class = "jupyter_server.auth.PasswordIdentityProvider"
open({mark!r}, "a").write("a configuration was read ")
"""


def hostile(folder):
    """Variables of a user's shell that would open the server to everybody and run other code; marks are left in ``folder``."""
    mark = str(folder / "mark")
    config = folder / "config"
    (config / "jupyter_server_config.d").mkdir(parents=True)
    for name in ("jupyter_config", "jupyter_server_config", "jupyter_lab_config"):
        (config / f"{name}.py").write_text(HOSTILE.format(mark=mark))
    opened = {"IdentityProvider": {"token": ""}, "ServerApp": {"token": "", "ip": "0.0.0.0"}}
    (config / "jupyter_server_config.json").write_text(json.dumps(opened))
    (config / "jupyter_server_config.d" / "open.json").write_text(json.dumps(opened))
    kernel = folder / "share" / "kernels" / "python3"
    kernel.mkdir(parents=True)
    run = [sys.executable, "-c", f"open({mark!r}, 'a').write('another kernel ran ')"]
    (kernel / "kernel.json").write_text(json.dumps({"argv": run, "display_name": "P", "language": "python"}))
    for place in (folder / "home" / ".jupyter", folder / "home" / ".local" / "etc" / "jupyter"):
        shutil.copytree(config, place)
    shutil.copytree(folder / "share", folder / "home" / ".local" / "share" / "jupyter")
    start = folder / "ipython" / "profile_default" / "startup"
    start.mkdir(parents=True)
    for script in (start / "00.py", folder / "startup.py"):
        script.write_text(f"open({mark!r}, 'a').write('a start-up file ran ')")
    return {
        "HOME": str(folder / "home"), "USERPROFILE": str(folder / "home"), "JUPYTER_CONFIG_PATH": str(config),
        "JUPYTER_CONFIG_DIR": str(config), "JUPYTER_PATH": str(folder / "share"), "JUPYTER_TOKEN": "known",
        "JUPYTERLAB_DIR": str(folder / "no such folder"), "JUPYTER_NO_CONFIG": "0", "JUPYTER_PREFER_ENV_PATH": "0",
        "JUPYTER_DATA_DIR": str(folder / "share"), "JUPYTER_PORT": "1", "IPYTHONDIR": str(folder / "ipython"),
        "PYTHONSTARTUP": str(folder / "startup.py"), "JUPYTERLAB_SETTINGS_DIR": str(folder / "config"),
    }  # fmt: skip


def test_foreign_variables_are_left_out_and_others_stay(tmp_path):
    kept = without_foreign(hostile(tmp_path) | {"PATH": "x", "SHOULDER_MODEL_PRACTICE": "y", "jupyter_path": "z"})
    assert set(kept) == {"HOME", "USERPROFILE", "PATH", "SHOULDER_MODEL_PRACTICE"}


@pytest.fixture(scope="module")
def started(tmp_path_factory):
    """The workbook as a stranger's shell starts it, with hostile settings all around: port, folder, process, first line."""
    folder, port = tmp_path_factory.mktemp("hostile"), free_port()
    known = {key: value for key, value in os.environ.items() if not key.startswith(("JUPYTER", "IPYTHON", "XDG"))}
    line = [sys.executable, "-m", "shoulder_model", "--no-browser", "--port", str(port)]
    log, variables = folder / "log", known | hostile(folder)
    with open(log, "w") as out:
        server = subprocess.Popen(line, env=variables, stdout=out, stderr=out, cwd=HOME, start_new_session=True)
    deadline = time.monotonic() + 90
    wanted = re.compile(
        rf"^Open this address: http://127\.0\.0\.1:{port}(/doc/tree/workbook/00_start\.ipynb\?token=\w+)$", re.M
    )
    while not (found := wanted.search(log.read_text())) or answer(port, "/api") is None:
        assert server.poll() is None and time.monotonic() < deadline, log.read_text()
        time.sleep(0.1)
    yield port, folder, server, found[1]
    if server.poll() is None:
        os.killpg(server.pid, signal.SIGKILL)


def test_nobody_gets_in_without_the_token(started):
    port, _, _, page = started
    token = page.rpartition("=")[2]
    assert len(token) >= 40
    assert answer(port, page)[0] == 200 and answer(port, f"/api/sessions?token={token}")[0] == 200
    for wrong in ("", "?token=", "?token=known", f"?token={token[:-1]}"):
        assert answer(port, f"/api/sessions{wrong}")[0] == 403
        assert answer(port, f"/api/contents/workbook{wrong}")[0] == 403
    if TABLE.exists():
        assert listening_on(port) == {"127.0.0.1"}


@pytest.mark.skipif(not Path("/proc/self/cmdline").exists(), reason="needs the table of processes")
def test_the_token_is_not_in_the_list_of_processes(started):
    _, _, server, page = started
    assert page.rpartition("=")[2].encode() not in Path(f"/proc/{server.pid}/cmdline").read_bytes()


def test_chapters_are_trusted_and_their_kernel_is_that_of_the_workbook(started):
    port, folder, _, page = started
    key = page.partition("?")[2]
    book = json.loads(answer(port, f"/api/contents/workbook/03_grip_width.ipynb?{key}")[1])["content"]
    assert {cell["metadata"]["trusted"] for cell in book["cells"] if cell["cell_type"] == "code"} == {True}
    specs = json.loads(answer(port, f"/api/kernelspecs?{key}")[1])
    assert list(specs["kernelspecs"]) == ["python3"]
    assert specs["kernelspecs"]["python3"]["spec"]["argv"][0] == sys.executable
    status, told = answer(port, f"/api/kernels?{key}", "POST")
    assert status == 201
    client = BlockingKernelClient()
    client.load_connection_file(HOME / ".lab" / "runtime" / f"kernel-{json.loads(told)['id']}.json")
    client.start_channels()
    asked = {"user_expressions": {"python": "sys.executable"}, "reply": True, "timeout": 60}
    told = client.execute("import shoulder_model, sys", **asked)["content"]["user_expressions"]["python"]
    client.stop_channels()
    assert told["data"]["text/plain"] == repr(sys.executable)
    assert not (folder / "mark").exists(), (folder / "mark").read_text()


@pytest.mark.skipif(os.name != "posix", reason="sends Ctrl+C as a terminal does")
def test_it_stops_with_one_word_and_has_said_nothing_else(started):
    port, folder, server, page = started
    server.send_signal(signal.SIGINT)
    time.sleep(0.2)
    server.send_signal(signal.SIGINT)
    server.wait(60)
    said = (folder / "log").read_text().splitlines()
    assert [line for line in said if not line.startswith(("Stop", "Still stopping"))] == [
        "Starting ...", f"Open this address: http://127.0.0.1:{port}{page}", "To stop, press Ctrl+C in this window.",
    ]  # fmt: skip
    assert said[-1] == "Stopped."
    left = [path for path in (folder / "home").rglob("*") if path.is_file() and ".cache" not in path.parts]
    ours = [
        path for path in left if not path.is_relative_to(folder / "home" / ".jupyter") and ".local" not in path.parts
    ]
    assert ours == [], "something was written into the user's home"


def listening_on(port):
    """Local addresses that listen on ``port``, from the kernel's table (Linux)."""
    found = set()
    for line in TABLE.read_text().splitlines()[1:]:
        local, state = line.split()[1], line.split()[3]
        address, where = local.split(":")
        if int(where, 16) == port and state == "0A":
            found.add(socket.inet_ntoa(bytes.fromhex(address)[::-1]))
    return found
