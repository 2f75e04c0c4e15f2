"""Folders that are there as a whole or not at all."""

import os
import shutil
import tempfile
from contextlib import contextmanager
from pathlib import Path

from ..inputs import InputError


@contextmanager
def whole_folder(target, replace=False):
    """A context that gives a new folder to write in, which becomes ``target`` at the end; after an error nothing is
    left of it.

    Parameters
    ----------
    target : path
        Its name.
    replace : bool
        Whether a folder that is there gives way; it is kept beside it, as NAME.before.

    Raises
    ------
    InputError
        There is one, and it is not to be replaced; or nothing can be written there.
    """
    target = Path(target)
    check_free(target, replace)
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        made = Path(tempfile.mkdtemp(prefix=f".{target.name}.", suffix=".unfinished", dir=target.parent))
    except OSError as error:
        raise InputError("folder", f"{target}: cannot be written: {error.strerror or error}") from None
    try:
        yield made
        made.chmod(0o777 & ~_mask())
        if target.exists():
            check_free(target, replace)
            _set_aside(target)
        made.rename(target)
    except BaseException:
        shutil.rmtree(made, ignore_errors=True)
        raise


def check_free(target, replace=False):
    """Refuse a folder ``target`` (a path, a name) that holds something, unless ``replace`` is true; a file is always
    refused.

    Raises
    ------
    InputError
        One line of words.
    """
    if target.is_symlink() or (target.exists() and not target.is_dir()):
        raise InputError("folder", f"{target}: is no folder; choose another name")
    if not replace and target.exists() and any(target.iterdir()):
        raise InputError("folder", f"{target}: is there already; choose another name, or add --replace")


def _set_aside(target):
    """Put a folder out of the way, under a name that is free; an empty one goes."""
    if not any(target.iterdir()):
        target.rmdir()
        return
    place = 1
    while (aside := target.with_name(f"{target.name}.before{place if place > 1 else ''}")).exists():
        place += 1
    target.rename(aside)


def _mask():
    mask = os.umask(0)
    os.umask(mask)
    return mask
