"""What a hub is told, and how it sets one person's server, without a hub."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from traitlets.config import Config, PyFileConfigLoader

import shoulder_model.lab.hub
from shoulder_model.checkout import FIRST
from shoulder_model.lab.launch import environment, page_arguments

ROOM = shoulder_model.lab.hub.__path__[0]
SET_UP = """
import json, os, sys
from shoulder_model.lab.hub.__main__ import set_up
line = set_up()
from shoulder_model.lab.places import reader_folder
print(json.dumps([line, str(reader_folder()), dict(os.environ)]))
"""


def test_the_template_loads_and_lets_nobody_in_by_itself():
    read = PyFileConfigLoader("jupyterhub_config.txt", path=ROOM).load_config()
    assert isinstance(read, Config)
    assert (
        read.JupyterHub.bind_url.startswith("http://127.0.0.1:")
        and read.Spawner.ip == read.JupyterHub.hub_ip == "127.0.0.1"
    )
    assert read.ConfigurableHTTPProxy.api_url.startswith("http://127.0.0.1:")
    assert read.LocalAuthenticator.allowed_groups and "Authenticator" not in read  # nobody but a group
    assert read.JupyterHub.spawner_class.endswith(".LocalProcessSpawner")  # each as a user of the system
    assert read.Spawner.disable_user_config is True
    assert read.Spawner.cmd == [sys.executable, "-m", "shoulder_model.lab.hub"]
    assert read.Spawner.default_url == f"/doc/tree/workbook/{FIRST}.ipynb"


@pytest.mark.skipif(os.name != "posix", reason="a hub runs on Linux or macOS")
def test_a_persons_server_is_set_as_the_launcher_sets_its_own_and_is_theirs_alone(tmp_path):
    given = {name: value for name, value in os.environ.items() if not name.startswith("XDG_")}
    given |= {"HOME": str(tmp_path), "JUPYTERHUB_API_TOKEN": "kept", "JUPYTER_PATH": "left out"}
    run = subprocess.run([sys.executable, "-c", SET_UP], env=given, capture_output=True, text=True, check=True)
    line, folder, variables = json.loads(run.stdout)
    home = Path(folder)
    assert home.is_relative_to(tmp_path)
    assert line == page_arguments(home, home / ".lab", f"workbook/{FIRST}.ipynb")
    assert environment(home / ".lab").items() <= variables.items()
    assert variables["JUPYTERHUB_API_TOKEN"] == "kept" and "JUPYTER_PATH" not in variables
    assert (home / ".lab" / "jupyter" / "nbsignatures.db").is_file()
    assert {path.stat().st_mode & 0o077 for path in (home, *home.rglob("*"))} == {0}
