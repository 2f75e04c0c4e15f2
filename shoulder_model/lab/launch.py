"""How JupyterLab is set for the workbook: one chapter at a time, no pop-ups, nothing written into the user's own settings.

The launcher, a hub's servers (`lab.hub`) and the browser tests all start from here. All state (settings, trust, history)
lies in one folder (`lab.places`); deleting it loses nothing.
"""

import os
import socket
from pathlib import Path

from ..checkout import FIRST, HOME, LECTURE, LECTURE_STATE, NoWorkbook, chapter_called, chapters
from ..inputs import InputError
from .trust import LECTURE_PAGE, trust

FOREIGN = ("JUPYTER", "IPYTHON", "JPY_", "PYTHONSTARTUP")  # how variables begin that set another Jupyter
LAST_PORT = 65535


def environment(state):
    """The variables that keep Jupyter's, IPython's and the kernels' files in the folder ``state``, and panels quick."""
    return {
        "JUPYTER_CONFIG_DIR": str(state / "config"),
        "JUPYTER_DATA_DIR": str(state / "jupyter"),
        "JUPYTER_RUNTIME_DIR": str(state / "runtime"),
        "IPYTHONDIR": str(state / "ipython"),
        "MPLCONFIGDIR": str(state / "matplotlib"),
        "JUPYTER_WIDGETS_ECHO": "0",  # a panel answers sooner when the page does not hear its own moves again
    }


def without_foreign(variables):
    """``variables`` (dict of text) without those that would set or start something else in Jupyter, IPython or a kernel."""
    return {name: value for name, value in variables.items() if not name.upper().startswith(FOREIGN)}


def page_arguments(home, state, page):
    """Command line for one ``page``, a notebook's path below ``home``, as the launcher and a hub's servers share it."""
    line = [
        f"--ServerApp.root_dir={home}",
        f"--LabApp.default_url=/doc/tree/{page}",
        f"--LabApp.app_settings_dir={Path(__file__).parent}",
        f"--LabApp.user_settings_dir={state / 'user'}",
        f"--LabApp.workspaces_dir={state / 'workspaces'}",
        f"--LabApp.extra_labextensions_path={Path(__file__).parent / 'labextensions'}",
        "--LabApp.extension_manager=readonly",
        "--LanguageServerManager.autodetect=False",
    ]
    if _kernels_can_encrypt():  # else everybody on this machine could listen to a kernel
        line.append("--KernelManager.transport_encryption=auto")
    return line


def _kernels_can_encrypt():
    from jupyter_client import KernelManager

    return hasattr(KernelManager, "transport_encryption")


def lab_arguments(home, state, page=f"workbook/{FIRST}.ipynb", port=None, browser=True):
    """Command line of the launcher's own server (`lab.server`) for one ``page``; on loopback only."""
    line = [
        *page_arguments(home, state, page),
        "--ServerApp.ip=127.0.0.1",
        *(f"--{app}.log_level=ERROR" for app in ("ServerApp", "LabApp")),
    ]
    if port is not None:
        line += [f"--ServerApp.port={port}", "--ServerApp.port_retries=0"]
    if not browser:
        line.append("--no-browser")
    if hasattr(os, "geteuid") and os.geteuid() == 0:
        line.append("--allow-root")
    return line


def chapter_page(home, chapter):
    """Path of a ``chapter``'s notebook below ``home``; see `checkout.chapter_called` for what is understood."""
    return f"workbook/{chapter_called(chapter, chapters(home))}.ipynb"


def port_number(text):
    """The port that ``text`` names, a whole number, if this machine lets it be listened on.

    Raises
    ------
    InputError
        In one line: no port, or one that is taken or kept for others.
    """
    if not (text.isascii() and text.isdigit() and 0 < int(text[:6]) <= LAST_PORT):
        raise InputError("port", f"port {text[:20]!r} is none: give a whole number from 1024 to {LAST_PORT}")
    with socket.socket() as probe:
        if os.name == "posix":  # as the server does: a port that was left a moment ago is free
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind(("127.0.0.1", int(text)))
        except PermissionError:
            raise InputError("port", f"port {text} is kept for others by this machine: give one from 1024") from None
        except OSError:
            raise InputError("port", f"port {text} is in use: give another one, or none to have one chosen") from None
    return int(text)


def lecture_environment(state, lecture):
    """The variables that tell the lecture's kernel its run sheet or chapter (``lecture``, str; empty to choose on the page)."""
    return {LECTURE: lecture, LECTURE_STATE: str(state / "lecture")}


def start(home, state, page=f"workbook/{FIRST}.ipynb", port=None, browser=True, lecture=None):
    """Run the launcher's own server until it is stopped.

    Parameters
    ----------
    home, state : path
        The folders of the workbook and of the state.
    page : str
        The notebook that opens first, its path below ``home``.
    port : int, optional
        A whole number; without it one is chosen.
    browser : bool
        Whether a browser is opened, too.
    lecture : str, optional
        As in `lecture_environment`; its page is then opened in place of ``page``.
    """
    variables = without_foreign(os.environ) | environment(state)
    if lecture is not None:
        page, variables = LECTURE_PAGE, variables | lecture_environment(state, lecture)
    os.environ.clear()
    os.environ.update(variables)
    trust(home, state / "jupyter")
    from .server import serve  # after the environment is set

    serve(lab_arguments(home, state, page, port, browser))


__all__ = [
    "FIRST",
    "HOME",
    "LECTURE_PAGE",
    "NoWorkbook",
    "chapter_page",
    "environment",
    "lab_arguments",
    "lecture_environment",
    "page_arguments",
    "port_number",
    "start",
    "trust",
    "without_foreign",
]
