"""Where the launcher keeps its state, and where the workbook of a package without a checkout is laid out.

The first folder that can be used is taken: ``.lab`` beside the workbook, one of the user's own, one for this start only.
A folder that belongs to somebody else is not used, and nobody else can look into the one that is.
"""

import atexit
import json
import os
import shutil
import tempfile
from contextlib import suppress
from hashlib import sha256
from pathlib import Path

from ..checkout import HOME, PACKED, NoWorkbook
from ..inputs import InputError
from .trust import LECTURE_PAGE, digest

ROOMS = ("config", "jupyter", "runtime", "ipython", "matplotlib", "user", "workspaces", "lecture")
WORKBOOK = "Shoulder workbook"  # the folder of a reader's own copy
LAID = ".laid-out.json"  # in it: what was put there, by digest


def own_folder(folder):
    """Make ``folder`` (path) with the rooms of a state, for nobody else to look into.

    Returns
    -------
    bool
        Whether it can be used: it is the user's own, and everything in it can be written.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
        if hasattr(os, "geteuid") and folder.stat().st_uid != os.geteuid():
            return False
        folder.chmod(0o700)
        for room in ROOMS:
            (folder / room).mkdir(exist_ok=True)
            _try_to_write(folder / room)
        return all(os.access(path, os.W_OK) for path in folder.rglob("*") if not path.is_symlink())
    except OSError:
        return False


def _try_to_write(folder):
    with tempfile.TemporaryFile(dir=folder) as file:
        file.write(bytes(10_000))  # more than nothing: the disk may be full


def state_folder(home):
    """A folder for the state of the workbook in ``home`` (path), a path, and a sentence where it is lost at the end, else "".

    Raises
    ------
    InputError
        No folder on this machine can be written.
    """
    import platformdirs

    places = [Path(home) / ".lab"]
    if user := _or_none(lambda: platformdirs.user_state_path("shoulder-model", appauthor=False)):
        places.append(user / sha256(str(home).encode("utf-8", "surrogatepass")).hexdigest()[:12])
    for place in places:
        if own_folder(place):
            return place, ""
    try:
        made = Path(tempfile.mkdtemp(prefix="shoulder-model-"))
    except OSError:
        raise InputError(
            "state", "no folder can be written here, not even for a short time: make room or ask for one"
        ) from None
    own_folder(made)
    atexit.register(shutil.rmtree, made, ignore_errors=True)
    return made, f"No folder of yours can be written: settings are kept in {made}, for this time only."


def settle(home):
    """Where this start works: folder of the workbook, folder of the state (paths), and what the reader should know (text).

    ``home`` (path) is the checkout, or `checkout.PACKED` where the package was installed without one.
    """
    words = []
    if home == PACKED:
        home = own_copy()
        words.append(f"The workbook lies in {home}; what you save stays there.")
    state, lost = state_folder(home)
    return home, state, "\n".join([*words, lost] if lost else words)


def _or_none(work):
    try:
        return work()
    except (OSError, RuntimeError, KeyError):  # a user without a home
        return None


def reader_folder():
    """Where the workbook of an installed package is laid out: in the user's documents, or else among the user's data; a path.

    Raises
    ------
    NoWorkbook
        Neither can be written.
    """
    import platformdirs

    for place in (
        platformdirs.user_documents_path,
        lambda: platformdirs.user_data_path("shoulder-model", appauthor=False),
    ):
        parent = _or_none(place)
        try:
            (parent / WORKBOOK).mkdir(parents=True, exist_ok=True)
            _try_to_write(parent / WORKBOOK)
            return parent / WORKBOOK
        except (OSError, TypeError):  # TypeError: a user without a home
            continue
    raise NoWorkbook(
        "the workbook has to be copied into a folder of yours, and none can be written: free some room, or say where with HOME"
    )


def own_copy():
    """The reader's own copy of the workbook, brought up to date; the path of its folder.

    Raises
    ------
    NoWorkbook
        There is no place for it.
    """
    folder = reader_folder()
    try:
        lay_out(folder, HOME)
    except OSError as error:
        raise NoWorkbook(f"the workbook could not be copied into {folder}: {error.strerror}") from None
    return folder


def lay_out(target, source):
    """Copy chapters and figures from ``source`` into the folder ``target`` (paths), and newer ones over those left unchanged.

    What the reader has changed stays as it is. Returns the names of the files that were written, a list of text.
    """
    note = target / LAID
    laid = {}
    with suppress(OSError, ValueError):  # the first time; a note that was damaged
        laid = json.loads(note.read_bytes())
    written = []
    for path, name in _course(source):
        there, new = target / name, _digest(path)
        if there.exists() and (laid.get(name) != _digest(there) or new == laid[name]):
            continue
        there.parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(path, there)  # without the mode: what is read-only there is not here
        laid[name] = new
        written.append(name)
    if written:
        note.write_text(json.dumps(laid, indent=1), encoding="utf-8")
    return written


def _course(source):
    """Files of a course and their names below its folder."""
    for room, kinds in (("workbook", "*.ipynb"), ("figures", "**/*.svg")):
        for path in sorted((source / room).glob(kinds)):
            yield path, path.relative_to(source).as_posix()
    yield Path(__file__).parents[2] / LECTURE_PAGE, LECTURE_PAGE


def _digest(path):
    content = path.read_bytes()
    try:
        return digest(content)
    except ValueError:  # a picture, or a notebook that was damaged
        return sha256(content).hexdigest()
