"""Builds the site: distribution, chapters and start page, put together by JupyterLite."""

import json
import os
import shutil
import tempfile
from dataclasses import dataclass
from pathlib import Path

from ..inputs import InputError
from .chapters import lay_out_chapters, size
from .compiling import compile_wheels, named_by_content
from .distribution import lay_out
from .download import run
from .panels import record_panels
from .start_page import write_start_page

HERE = Path(__file__).parent
LAB = HERE.parent / "lab"
KERNEL = "@jupyterlite/pyodide-kernel-extension"
EXTENSIONS = ("@jupyter-widgets/jupyterlab-manager", "anywidget", KERNEL)
SUPPORT = ("ipykernel", "piplite", "pyodide_kernel", "widgetsnbextension-4")  # wheels that come with the kernel
BARE = "SHOULDER_MODEL_BARE"  # variable: the package without its figures, which the site has beside it
MARK = ".shoulder-model-site.json"  # a folder that this command has made, and may make again


@dataclass(frozen=True)
class Built:
    """What was built: ``folder`` (path), how many ``files`` and ``bytes``, and ``words`` (tuple of text) on the way."""

    folder: Path
    files: int
    bytes: int
    words: tuple


def free(folder):
    """``folder`` (a path in words or as such) if a site may be put there: it is not there, empty, or an older site.

    Raises
    ------
    InputError
        Something else lies there.
    """
    if folder.is_file() or (folder.is_dir() and any(folder.iterdir()) and not (folder / MARK).exists()):
        raise InputError("folder", f"folder: {folder} holds something else; name a new folder, or an older site")
    return folder


@dataclass(frozen=True)
class Order:
    """What is to be built.

    Parameters
    ----------
    home : path
        The checkout.
    source : distribution.Registries or distribution.Release
    store : download.Store
    panels : bool
        Whether panels that open at once come with it; they take minutes to record the first time.
    """

    home: Path
    source: object
    store: object
    panels: bool = True


def build(folder, order, say=print):
    """Build a site into ``folder``.

    Parameters
    ----------
    folder : path
    order : Order
    say : callable
        Is told each step, in words.

    Returns
    -------
    Built

    Raises
    ------
    InputError
        In one line: a part that cannot be had, or one that is not what it should be. The folder is as it was then.
    """
    free(folder)
    with tempfile.TemporaryDirectory(prefix="site-") as temporary:
        lite, made = Path(temporary, "lite"), Path(temporary, "made")
        say("Tools ...")
        python = order.store.tools()
        say("Python for the page ...")
        there, words = _python_for_page(lite, python, order)
        say("Chapters ...")
        editions = lay_out_chapters(lite / "files", order.home)
        say("Putting it together ...")
        _put_together(lite, made, python, there.start)
        (made / "api" / "editions.json").write_text(json.dumps(editions), encoding="utf-8")
        (made / MARK).write_text(json.dumps({"packages": there.packages}), encoding="utf-8")
        if order.panels:
            say("Panels that open at once ...")
            words.append(record_panels(made, order.home, order.store))
        write_start_page(made, order.home, editions)
        shutil.rmtree(folder, ignore_errors=True)
        folder.parent.mkdir(parents=True, exist_ok=True)
        shutil.move(made, folder)
    return Built(folder, *size(folder), tuple(words))


def _python_for_page(lite, python, order):
    """The distribution, with this package in it and compiled; and sentences on that."""
    folder = lite / "static" / "pyodide"
    own = _own_wheel(python, order.home, lite.parent)
    there = lay_out(folder, order.source, order.store, own | _support(_installed(python)))
    words = [compile_wheels(folder, order.store)]
    named_by_content(folder)
    return there, words


def _put_together(lite, made, python, start):
    """Let JupyterLite make its folder."""
    _extensions(lite, python)
    _settings(lite, start)
    line = [
        python,
        "-m",
        "jupyter",
        "lite",
        "build",
        "--contents",
        "files",
        "--output-dir",
        made,
        "--apps",
        "notebooks",
    ]
    run([*line, "--no-sourcemaps", "--no-unused-shared-packages", "--ignore-sys-prefix"], "JupyterLite", lite)


def _installed(python):
    """Where the tools have their extensions of JupyterLab."""
    return python.parents[1] / "share" / "jupyter" / "labextensions"


def _extensions(lite, python):
    """Extensions of the page: those that widgets and kernel need, and the workbook's own."""
    for name in EXTENSIONS:
        shutil.copytree(_installed(python) / name, lite / "labextensions" / name, ignore=shutil.ignore_patterns("pypi"))
    for place in (LAB / "labextensions", HERE / "labextensions"):
        shutil.copytree(place, lite / "labextensions", dirs_exist_ok=True)


def _own_wheel(python, home, temporary):
    """The wheel of this package without its figures: its name and bytes, a dict."""
    if not (home / "pyproject.toml").exists():
        raise InputError("site", f"{home} has no pyproject.toml: a site is built from the project's own folder")
    before = os.environ.get(BARE)
    os.environ[BARE] = "1"
    try:
        line = [python, "-m", "pip", "wheel", "-q", "--no-deps", "--no-build-isolation", "--disable-pip-version-check"]
        run([*line, "-w", temporary / "own", home], "the package's own wheel")
    finally:
        os.environ.pop(BARE) if before is None else os.environ.update({BARE: before})
    (wheel,) = (temporary / "own").glob("*.whl")
    return {wheel.name: wheel.read_bytes()}


def _support(extensions):
    """What the kernel brings along for its own start: names of wheels and their bytes, a dict."""
    wheels = (extensions / KERNEL / "static" / "pypi").glob("*.whl")
    return {path.name: path.read_bytes() for path in wheels if path.name.startswith(SUPPORT)}


def _settings(lite, start):
    """JupyterLite's settings: what the kernel loads at its start, and how a chapter looks, as in JupyterLab."""
    kernel = {"disablePyPIFallback": True, "loadPyodideOptions": {"packages": list(start)}}
    page = {
        "appName": "Shoulder model workbook",
        "enableServiceWorkerCache": True,
        "litePluginSettings": {f"{KERNEL}:kernel": kernel},
    }
    text = {"jupyter-lite-schema-version": 0, "jupyter-config-data": page}
    config = {"FederatedExtensionAddon": {"extra_labextensions_path": [str(lite / "labextensions")]}}
    (lite / "jupyter_lite_config.json").write_text(json.dumps(config), encoding="utf-8")
    (lite / "jupyter-lite.json").write_text(json.dumps(text, indent=1), encoding="utf-8")
    shutil.copyfile(LAB / "overrides.json", lite / "overrides.json")
