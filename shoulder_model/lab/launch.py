"""JupyterLab for the workbook: one chapter at a time, no pop-ups, nothing written into the user's own settings.

All state (settings, trust, history) lies in ``.lab/`` beside the workbook; deleting it loses nothing.
"""

import os
from pathlib import Path

import nbformat
from nbformat.sign import NotebookNotary

from ..checkout import HOME, LECTURE, LECTURE_STATE, NoWorkbook, chapter_path, chapters
from ..inputs import choice

FIRST = "00_start"
LECTURE_PAGE = "shoulder_model/lecture/lecture.ipynb"


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


def trust(home, state):
    """Sign every chapter and the lecture's page, so that what they show shows at once. Returns the names of those signed.

    A damaged file is left out: JupyterLab says what is wrong with it when it is opened.
    """
    signed = []
    (state / "data").mkdir(parents=True, exist_ok=True)  # first: without it the signatures stay in memory
    notary = NotebookNotary(data_dir=str(state / "data"))
    for path in [*(chapter_path(home, name) for name in chapters(home)), home / LECTURE_PAGE]:
        try:
            notary.sign(nbformat.read(path, as_version=4))
        except (
            OSError,
            ValueError,
            AttributeError,
            nbformat.ValidationError,
        ):  # not there, no JSON, or not a notebook's
            continue
        signed.append(path.stem)
    notary.store.close()
    return signed


def lab_arguments(home, state, page=f"workbook/{FIRST}.ipynb", port=None, browser=True):
    """Command line of JupyterLab for one ``page``, a notebook's path below ``home``; on loopback only."""
    line = [
        "--ServerApp.ip=127.0.0.1",
        f"--ServerApp.root_dir={home}",
        f"--LabApp.default_url=/doc/tree/{page}",
        f"--LabApp.app_settings_dir={Path(__file__).parent}",
        f"--LabApp.user_settings_dir={state / 'user'}",
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


def chapter_page(home, chapter):
    """Path of a ``chapter``'s notebook below ``home``; raises `inputs.UnknownName` with the nearest where there is none."""
    return f"workbook/{choice('chapter', chapter.removesuffix('.ipynb'), chapters(home))}.ipynb"


def lecture_environment(state, lecture):
    """The variables that tell the lecture's kernel its run sheet or chapter (``lecture``, str; empty to choose on the page)."""
    return {LECTURE: lecture, LECTURE_STATE: str(state / "lecture")}


def prepare(home, state):
    """Everything but the start: environment of this process, trust."""
    os.environ.update(environment(state))
    trust(home, state)


__all__ = [
    "FIRST",
    "HOME",
    "LECTURE_PAGE",
    "NoWorkbook",
    "chapter_page",
    "environment",
    "lab_arguments",
    "lecture_environment",
    "prepare",
    "trust",
]
