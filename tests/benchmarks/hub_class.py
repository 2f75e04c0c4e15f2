"""A class on one machine: everybody signs in to a JupyterHub, runs chapter 03 and practises, at the same time.

As root, on Linux: ``python tests/benchmarks/hub_class.py [--people 10] [--python PYTHON] [--proxy COMMAND]``. Prints times,
memory, and whether anybody can read what is another's. Makes users ``shoulder01`` and so on, and removes them again.

It needs ``pip install jupyterhub`` (into the Python that has the package and that every user may run) and
``npm install -g configurable-http-proxy``. People speak to the hub and to their kernels as a page does, but no page is
drawn: in a class that happens on other computers.
"""

import argparse
import json
import os
import pwd
import secrets
import signal
import socket
import sqlite3
import subprocess
import sys
import tempfile
import time
from concurrent.futures import ThreadPoolExecutor
from datetime import UTC, datetime
from pathlib import Path

import psutil
import requests
import websocket

sys.path.insert(0, str(Path(__file__).parents[2]))
from shoulder_model.checkout import HOME
from tests.browser.lab import wait

TEMPLATE = HOME / "shoulder_model" / "lab" / "hub" / "jupyterhub_config.txt"
CLASS, PATIENCE = "shoulderclass-trial", 600  # group of the system; seconds for a step
MEGABYTE = 2**20
PRACTICE = """
for number in range(3):
    panel.act({"do": "chapter" if number == 0 else "next", **({"value": "03"} if number == 0 else {})})
    panel.act({"do": "show"})
said = panel.page.view["title"]
"""
TRY_TO_READ = """
said = []
for path in {paths!r}:
    try:
        open(path, "rb").read(1)
        said.append("read")
    except Exception as error:
        said.append(type(error).__name__)
"""


class Person:
    """One user of the system, signed in."""

    def __init__(self, name):
        self.name, self.password, self.kernels = name, secrets.token_hex(12), {}
        subprocess.run(["useradd", "-m", "-G", CLASS, "-s", "/bin/bash", name], check=True)
        subprocess.run(["chpasswd"], input=f"{name}:{self.password}", text=True, check=True)
        self.folder, self.uid = Path(pwd.getpwnam(name).pw_dir), pwd.getpwnam(name).pw_uid
        self.session = requests.Session()

    @property
    def record(self):
        return self.folder / ".local" / "share" / "shoulder-model" / "practice.sqlite"

    def sign_in(self, address):
        """Fill in the hub's form, and wait until the first page is there."""
        self.own = f"{address}/user/{self.name}"
        self.session.get(f"{address}/hub/login")
        form = {"username": self.name, "password": self.password, "_xsrf": self._key("/hub/")}
        self.session.post(f"{address}/hub/login?next=/hub/spawn", data=form)
        page = f"{self.own}/doc/tree/workbook/03_grip_width.ipynb"
        end = time.monotonic() + PATIENCE
        while not ((reply := self.session.get(page)).ok and reply.url.startswith(self.own)):
            assert time.monotonic() < end, f"{self.name}: {reply.status_code} {reply.url}"
            time.sleep(2)

    def _key(self, path):
        """The key against foreign forms, for the hub or for the own server."""
        return next(cookie.value for cookie in self.session.cookies if cookie.name == "_xsrf" and cookie.path == path)

    def open(self, chapter):
        """Start a chapter's kernel and run every cell."""
        asked = {
            "path": f"workbook/{chapter}.ipynb",
            "name": chapter,
            "type": "notebook",
            "kernel": {"name": "python3"},
        }
        headers = {"X-XSRFToken": self._key(f"/user/{self.name}/")}
        reply = self.session.post(f"{self.own}/api/sessions", json=asked, headers=headers)
        self.kernels[chapter] = reply.json()["kernel"]["id"]
        book = self.session.get(f"{self.own}/api/contents/workbook/{chapter}.ipynb").json()["content"]
        for cell in book["cells"]:
            if cell["cell_type"] == "code":
                self.run(chapter, cell["source"].replace("PracticePanel()", "panel = PracticePanel()"))

    def run(self, chapter, code):
        """Run code in a chapter's kernel; gives the value of ``said`` there, as its representation."""
        cookies = "; ".join(
            f"{cookie.name}={cookie.value}" for cookie in self.session.cookies if cookie.path != "/hub/"
        )
        address = f"{self.own}/api/kernels/{self.kernels[chapter]}/channels?session_id=a".replace("http", "ws", 1)
        line = websocket.create_connection(address, cookie=cookies, timeout=PATIENCE)
        header = {"msg_id": secrets.token_hex(8), "session": "a", "username": "", "msg_type": "execute_request"}
        header |= {"version": "5.3", "date": datetime.now(UTC).isoformat()}
        content = {"code": code, "user_expressions": {"said": "globals().get('said')"}, "allow_stdin": False}
        message = {"channel": "shell", "header": header, "parent_header": {}, "metadata": {}, "content": content}
        line.send(json.dumps(message))
        while True:
            reply = json.loads(line.recv())
            if reply["msg_type"] == "execute_reply" and reply["parent_header"]["msg_id"] == header["msg_id"]:
                line.close()
                assert reply["content"]["status"] == "ok", reply["content"]
                return reply["content"]["user_expressions"]["said"]["data"]["text/plain"]

    def processes(self):
        """(what, process) of all that runs as this user."""
        for process in psutil.process_iter(["uids", "cmdline"]):
            if process.info["uids"] and process.info["uids"].real == self.uid:
                line = " ".join(process.info["cmdline"])
                yield "kernel" if "ipykernel" in line else "server" if "lab.hub" in line else "other", process


def megabytes(processes):
    """Memory of processes: their own and their share of what several use (PSS), and all they touch (RSS). [MB]"""
    pss = rss = 0
    for process in processes:
        full = process.memory_full_info()
        pss, rss = pss + full.pss, rss + full.rss
    return pss / MEGABYTE, rss / MEGABYTE


def print_memory(people, when):
    print(f"memory {when}, MB a person (PSS, RSS), mean and most of {len(people)}:")
    total = 0
    for what in ("server", "kernel"):
        each = [megabytes(process for kind, process in person.processes() if kind == what) for person in people]
        total += sum(pss for pss, _ in each)
        words = [f"{sum(one) / len(one):.0f} (most {max(one):.0f})" for one in zip(*each, strict=True)]
        print(f"   {what}: {words[0]}, {words[1]}")
    print(f"   everybody's servers and kernels together: {total:.0f} MB (PSS)", flush=True)


def ports(count):
    probes = [socket.socket() for _ in range(count)]
    for probe in probes:
        probe.bind(("127.0.0.1", 0))
    found = [probe.getsockname()[1] for probe in probes]
    for probe in probes:
        probe.close()
    return found


def start_hub(folder, options):
    """The hub with the template as it is but for ports and group; its process and address."""
    front, back, own = ports(3)
    config = folder / "trial_config.py"
    config.write_text(
        f"load_subconfig({str(TEMPLATE)!r})\n"
        f"c.LocalAuthenticator.allowed_groups = {{{CLASS!r}}}\n"
        f"c.JupyterHub.bind_url = 'http://127.0.0.1:{front}'\nc.JupyterHub.hub_port = {own}\n"
        f"c.ConfigurableHTTPProxy.api_url = 'http://127.0.0.1:{back}'\n"
        f"c.ConfigurableHTTPProxy.command = {options.proxy.split()!r}\n"
    )
    log = open(folder / "log", "w")
    line = [options.python, "-m", "jupyterhub", "-f", str(config)]
    where = os.environ | {"PYTHONPATH": str(HOME)}
    hub = subprocess.Popen(line, cwd=folder, env=where, stdout=log, stderr=log, start_new_session=True)

    def up():
        assert hub.poll() is None, Path(log.name).read_text()
        with socket.socket() as probe:
            return (
                probe.connect_ex(("127.0.0.1", front)) == 0
                and "JupyterHub is now running" in Path(log.name).read_text()
            )

    wait(up, "the hub")
    return hub, f"http://127.0.0.1:{front}"


def all_at_once(people, work, what):
    """Have everybody do ``work`` at the same time; prints when the first and the last were done."""
    start = time.monotonic()

    def timed(person):
        work(person)
        return time.monotonic() - start

    with ThreadPoolExecutor(len(people)) as pool:
        times = sorted(pool.map(timed, people))
    print(f"{what}: first after {times[0]:.0f} s, last after {times[-1]:.0f} s", flush=True)


def print_separate(people, address):
    """Whose records there are, and who can read another's."""
    rows = {}
    for person in people:
        modes = [oct(path.stat().st_mode & 0o777) for path in (person.record.parent, person.record)]
        with sqlite3.connect(f"file:{person.record}?mode=ro", uri=True) as record:
            rows[person.name] = [row[0] for row in record.execute("SELECT uid FROM answers")]
        assert person.record.stat().st_uid == person.uid, person.name
    own = len({uid for uids in rows.values() for uid in uids}) == sum(map(len, rows.values()))
    counts = sorted({len(uids) for uids in rows.values()})
    print(
        f"records: {len(rows)}, answers in each: {counts}, folder and file {modes}, nobody's answer in another's: {own}"
    )
    said = {}
    for person in people:
        others = [
            str(place) for other in people if other is not person for place in (other.record, *secret_files(other))
        ]
        told = person.run("03_grip_width", TRY_TO_READ.format(paths=others))
        for word in json.loads(told.replace("'", '"')):
            said[word] = said.get(word, 0) + 1
    print(f"kernels that try to open others' records, keys and notebooks: {said}")
    codes = {}
    for person in people:
        for other in people:
            for path in ("api/contents/workbook", "api/kernels", "doc/tree/workbook/00_start.ipynb"):
                if other is not person:
                    code = person.session.get(f"{address}/user/{other.name}/{path}").status_code
                    codes[code] = codes.get(code, 0) + 1
    print(f"requests for others' servers with one's own cookies: {codes}")
    keys = [json.loads(path.read_text()) for person in people for path in person.folder.rglob("kernel-*.json")]
    print(f"kernels whose traffic is encrypted: {sum('curve_publickey' in key for key in keys)} of {len(keys)}")
    if len(people) > 1:
        yes = own and set(said) == {"PermissionError"} and set(codes) <= {403, 404}
        print(f"all records separate: {'yes' if yes else 'NO'}")


def secret_files(person):
    """Files of a person that nobody else may read: kernels' keys, the secret of trust, a chapter."""
    found = [
        next(person.folder.rglob(kind), None) for kind in ("kernel-*.json", "notebook_secret", "03_grip_width.ipynb")
    ]
    return [path for path in found if path]


def trial(people, hub, address):
    all_at_once(people, lambda person: person.sign_in(address), "signed in, and the page of chapter 03 is there")
    all_at_once(people, lambda person: person.open("03_grip_width"), "chapter 03 has run")
    print_memory(people, "with chapter 03")
    all_at_once(people, lambda person: person.open("11_practice"), "chapter 11 has run")
    all_at_once(people, lambda person: person.run("11_practice", PRACTICE), "three questions practised")
    print_memory(people, "with the kernels of chapters 03 and 11")
    shared = [one for one in (hub, *hub.children(recursive=True)) if one.uids().real == 0]
    print(f"hub and proxy together: {megabytes(shared)[0]:.0f} MB (PSS)")
    print_separate(people, address)


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--people", type=int, default=10)
    parser.add_argument(
        "--python", default=sys.executable, help="the Python with JupyterHub, one that every user may run"
    )
    parser.add_argument("--proxy", default="configurable-http-proxy")
    options = parser.parse_args()
    if not hasattr(os, "geteuid") or os.geteuid() != 0:
        sys.exit("This makes users of the system: run it as root, on a machine for trials.")
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(1))  # through the clearing away below
    hub, people = None, []
    subprocess.run(["groupadd", CLASS], check=True)
    folder = Path(tempfile.mkdtemp(prefix="hub-", dir="/root" if Path("/root").is_dir() else None))
    try:
        for number in range(options.people):
            people.append(Person(f"shoulder{number + 1:02d}"))
        hub, address = start_hub(folder, options)
        print(f"{len(people)} people, {os.cpu_count()} processors", flush=True)
        trial(people, psutil.Process(hub.pid), address)
    finally:
        clear_away(hub, people, folder)


def clear_away(hub, people, folder):
    """End what was started, and remove the users."""
    if hub:
        hub.terminate()
        hub.wait(60)
    for person in people:
        for _, process in person.processes():
            process.kill()
        subprocess.run(["userdel", "-r", person.name], stderr=subprocess.DEVNULL, check=False)
    subprocess.run(["groupdel", CLASS], check=False)
    print(f"the hub's log: {folder / 'log'}")


if __name__ == "__main__":
    main()
