"""A file that a reader gives by its path: read whole and within a limit, or refused in one line.

Only regular files are read: a folder, a device or a pipe is refused at once. A path may be written as a file manager, a browser or
a shell gives it.
"""

import os
import stat
import sys
from pathlib import Path
from urllib.parse import unquote

from .inputs import InputError, echo

QUOTES = ("''", '""', "“”", "‘’", "«»")  # around a path that was copied
LONGEST_PATH = 4096  # letters
FEWEST_ZEROS = 0.3  # share of bytes; letters of two bytes have a zero in nearly each second one


def has_disk():
    """Whether files of the reader's can be opened by a path: not where Python itself runs in a browser."""
    return sys.platform != "emscripten"


def path_of(typed):
    """The `Path` of what somebody ``typed``, text: with quotes around it, as ``file://``, with ``~`` or with ``%20``.

    Raises
    ------
    InputError
        It is no path, or a folder of nobody.

    >>> path_of(" 'file:///tmp/my%20week.json' ").as_posix()
    '/tmp/my week.json'
    """
    given = (
        str(typed).strip().strip("\ufeff\u200b\u202a\u202c").strip()
    )  # a file manager may copy such marks with a path
    if len(given) > 1 and given[0] + given[-1] in QUOTES:
        given = given[1:-1].strip()
    if given[:7].lower() == "file://":
        host, slash, rest = unquote(given[7:]).partition("/")
        given = slash + rest if host in ("", "localhost") else given
        given = given[1:] if given[2:3] == ":" else given  # /C:/...
    if not given or len(given) > LONGEST_PATH or not given.isprintable():
        raise InputError("path", f"path: {echo(typed)} is no path; give the name of a file with its folders")
    try:
        path = Path(given).expanduser()
        return Path(unquote(given)).expanduser() if "%" in given and not path.exists() else path
    except (RuntimeError, ValueError, OSError):
        raise InputError("path", f"path: {echo(given)} leads to no folder; write it out, without ~") from None


def read_path(path, largest):
    """The bytes of the regular file at ``path`` (path-like), at most ``largest`` of them, a count.

    Raises
    ------
    InputError
        In words that go behind the file's name: no such file, no regular one, too large, or one that may not be read.
    """
    try:
        path = Path(path)
        _check(path.stat(), largest)  # first: to open a pipe or a device may do something
        number = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
        with open(number, "rb") as file:
            _check(os.fstat(number), largest)
            content = file.read(largest + 1)
    except FileNotFoundError:
        raise InputError("file", "there is no such file; check its name and folder") from None
    except (OSError, ValueError) as error:
        if isinstance(error, InputError):
            raise
        said = getattr(error, "strerror", None) or "its name cannot be used"
        raise InputError("file", f"the file cannot be opened ({said}); check its name and who may read it") from None
    if len(content) > largest:
        raise InputError("file", f"the file is too large; at most {largest // 1000} kB can be read")
    return content


def _check(found, largest):
    if not stat.S_ISREG(found.st_mode):
        raise InputError("file", "this is no file but a folder or a device; give the file itself")
    if found.st_size > largest:
        size = f"the file has {found.st_size / 1000:.0f} kB; at most {largest // 1000} kB can be read"
        raise InputError("file", size)


def read_given(typed, largest):
    """A file's name and bytes, at most ``largest`` (a count), by what a reader ``typed``, text or a path.

    Raises
    ------
    InputError
        One line: the file, shortened, and what is wrong.
    """
    path = path_of(typed)
    try:
        return path.name, read_path(path, largest)
    except InputError as error:
        raise InputError("path", f"{_shortened(path)}: {error}") from None


def _shortened(path):
    """A path's end, which tells more than its beginning."""
    said = echo(str(path))[1:-1]
    name = path.name
    return said if str(path) == said else f"…{name[-50:]}" if len(name) > 50 else f"…/{name}"


def letters_of(content):
    """The text of a file's ``content``, bytes or text: UTF-8 or UTF-16, without a byte-order mark.

    Raises
    ------
    UnicodeDecodeError
        Bytes that are neither.
    """
    if isinstance(content, str):
        return content.removeprefix("\ufeff")
    content = bytes(content)
    return content.decode(two_bytes(content) or "utf-8-sig").removeprefix("\ufeff")


def two_bytes(content):
    """The name of the encoding with two bytes a letter that ``content`` (bytes) is in, by its mark or by its zeros; "" where it is in none."""
    if content[:2] in (b"\xff\xfe", b"\xfe\xff"):
        return "utf-16"
    if len(content) % 2 or content.count(0) < FEWEST_ZEROS * max(1, len(content)):
        return ""
    return "utf-16-le" if content[1::2].count(0) > content[::2].count(0) else "utf-16-be"
