"""JupyterLab for the workbook: one chapter at a time, no pop-ups, nothing written into the user's own settings.

All state (settings, trust, history) lies in ``.lab/`` beside the workbook; deleting it loses nothing.
"""

import json
import os
from pathlib import Path

import nbformat
from nbformat.sign import NotebookNotary

from ..inputs import UnknownName, choice

HOME = Path(__file__).parents[2]  # the checkout
LECTURE_FONTS = {"code-font-size": "18px", "content-font-size1": "20px", "ui-font-size1": "16px"}
THEME_FILE = Path("@jupyterlab", "apputils-extension", "themes.jupyterlab-settings")
FIRST = "00_start"


class NoWorkbook(RuntimeError):
    """The notebooks are not where the package expects them."""


def chapters(home=HOME):
    """Names of the workbook's chapters.

    Raises
    ------
    NoWorkbook
        Where there is no workbook beside the package.
    """
    names = sorted(path.stem for path in (home / "workbook").glob("*.ipynb"))
    if not names:
        raise NoWorkbook(
            f"no notebooks in {home / 'workbook'}: get the whole project and install it with 'pip install -e .'"
        )
    return names


def environment(state):
    """The variables that keep Jupyter's, IPython's and the kernels' files in the folder ``state``, and panels quick."""
    return {
        "JUPYTER_CONFIG_DIR": str(state / "config"),
        "JUPYTER_DATA_DIR": str(state / "data"),
        "JUPYTER_RUNTIME_DIR": str(state / "runtime"),
        "IPYTHONDIR": str(state / "ipython"),
        "MPLCONFIGDIR": str(state / "matplotlib"),
        "JUPYTER_WIDGETS_ECHO": "0",  # a panel answers sooner when the page does not hear its own moves again
    }


def settings_folder(state, lecture=False):
    """Where a reader's settings are kept; a lecture has its own, so that neither changes the other."""
    return state / ("lecture" if lecture else "user")


def write_settings(state, lecture=False):
    """Prepare the settings folder, with larger letters for a lecture; what a reader has set there stays."""
    fonts = settings_folder(state, lecture) / THEME_FILE
    fonts.parent.mkdir(parents=True, exist_ok=True)
    if lecture and not fonts.exists():
        fonts.write_text(json.dumps({"overrides": LECTURE_FONTS}), encoding="utf-8")


def trust(home, state):
    """Sign every chapter, so that its pictures and buttons show at once. Returns the names of those signed.

    A damaged file is left out: JupyterLab says what is wrong with it when it is opened.
    """
    signed = []
    (state / "data").mkdir(parents=True, exist_ok=True)  # first: without it the signatures stay in memory
    notary = NotebookNotary(data_dir=str(state / "data"))
    for name in chapters(home):
        try:
            notary.sign(nbformat.read(home / "workbook" / f"{name}.ipynb", as_version=4))
        except (ValueError, AttributeError, nbformat.ValidationError):  # no JSON, or not a notebook's
            continue
        signed.append(name)
    notary.store.close()
    return signed


def lab_arguments(home, state, chapter=FIRST, port=None, browser=True, lecture=False):
    """Command line of JupyterLab for one chapter, on loopback only.

    Raises
    ------
    UnknownName
        A chapter that is not there; the text gives the nearest.
    """
    name = choice("chapter", chapter.removesuffix(".ipynb"), chapters(home))
    line = [
        "--ServerApp.ip=127.0.0.1",
        f"--ServerApp.root_dir={home}",
        f"--LabApp.default_url=/doc/tree/workbook/{name}.ipynb",
        f"--LabApp.app_settings_dir={Path(__file__).parent}",
        f"--LabApp.user_settings_dir={settings_folder(state, lecture)}",
        f"--LabApp.workspaces_dir={state / 'workspaces'}",
        f"--LabApp.extra_labextensions_path={Path(__file__).parent / 'labextensions'}",
        "--LabApp.extension_manager=readonly",
        "--LanguageServerManager.autodetect=False",
        "--ServerApp.answer_yes=True",  # Ctrl+C stops it, without a question
        "--log-level=WARN",
    ]
    if port is not None:
        line += [f"--ServerApp.port={port}", "--ServerApp.port_retries=0"]
    if not browser:
        line.append("--no-browser")
    if hasattr(os, "geteuid") and os.geteuid() == 0:
        line.append("--allow-root")
    return line


def prepare(home, state, lecture=False):
    """Everything but the start: settings, environment of this process, trust."""
    write_settings(state, lecture)
    os.environ.update(environment(state))
    trust(home, state)


__all__ = [
    "NoWorkbook",
    "UnknownName",
    "chapters",
    "environment",
    "lab_arguments",
    "prepare",
    "settings_folder",
    "trust",
    "write_settings",
]
