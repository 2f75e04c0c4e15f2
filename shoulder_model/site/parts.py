"""What the table ``parts.toml`` says: which package of which registry carries which part of Python in the page."""

import hashlib
import re
import tomllib
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from ..inputs import InputError

TABLE = Path(__file__).with_name("parts.toml")


@dataclass(frozen=True)
class Core:
    """The official release without its packages, from npm; ``files`` of it are used, ``lock`` names its packages."""

    name: str
    version: str
    sha256: str
    lock: str
    files: tuple

    @property
    def archive(self):
        """Name of the file, text."""
        return f"{self.name}-{self.version}.tgz"


@dataclass(frozen=True)
class Carrier:
    """A general package on PyPI for a version of ``python`` that has official ``wheels`` in its ``folder``."""

    name: str
    version: str
    python: str
    sha256: str
    folder: str
    wheels: tuple


@dataclass(frozen=True)
class Plain:
    """A package on PyPI that is Python only."""

    name: str
    version: str
    sha256: str


@dataclass(frozen=True)
class Parts:
    """The whole table: version of ``python``, names of ``tools`` with their versions, and what is fetched."""

    python: str
    tools: tuple
    core: Core
    carriers: tuple
    plain: tuple


@cache
def parts():
    """The table as `Parts`, by the names of its columns."""
    table = tomllib.loads(TABLE.read_text(encoding="utf-8"))
    core, carriers = table["core"], table["carriers"]
    return Parts(
        table["python"],
        tuple(table["tools"]["packages"]),
        Core(**core | {"files": tuple(core["files"])}),
        tuple(Carrier(**row | {"wheels": tuple(row["wheels"])}) for row in carriers),
        tuple(Plain(**row) for row in table["plain"]),
    )


def canonical(name):
    """The ``name`` of a package as every tool writes it, text.

    >>> canonical("Typing_Extensions")
    'typing-extensions'
    """
    return re.sub(r"[-_.]+", "-", name).lower()


def held(content, sha256, what):
    """``content`` (bytes) if its digest is ``sha256`` (text); ``what`` names it in words.

    Raises
    ------
    InputError
        It is another file than the table or the lock means.
    """
    found = hashlib.sha256(content).hexdigest()
    if found != sha256:
        raise InputError("site", f"{what} is not the file that was expected: SHA-256 {found}, expected {sha256}")
    return content
