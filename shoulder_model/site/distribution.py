"""The distribution of Python that the page loads: core, wheels, and one lock that names all of them.

Two sources give the same: the archive or folder of the official release, or the registries, put together after ``parts.toml``.
"""

import hashlib
import io
import json
import re
import tarfile
import zipfile
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from ..in_page import LATE
from ..inputs import InputError
from .download import Missing
from .parts import canonical, held, parts

LATER = (
    *LATE,
    "flexcache",
    "flexparser",
    "sympy",
    "mpmath",
)  # loaded where a chapter asks for them; all others at the start
NEEDS = re.compile(r"^Requires-Dist: ([\w.-]+)[^;]*$", re.MULTILINE)  # always, not for an extra or one system
OWN = "shoulder-model"


class Registries:
    """Core and wheels from npm and PyPI; ``store`` is the `download.Store` that has or gets them."""

    def __init__(self, store):
        self.store = store

    @cached_property
    def _core(self):
        with tarfile.open(fileobj=io.BytesIO(self.store.core())) as archive:
            wanted = (*parts().core.files, parts().core.lock)
            return {name: archive.extractfile(f"package/{name}").read() for name in wanted}

    @property
    def lock(self):
        """The official lock, a dict."""
        return json.loads(self._core[parts().core.lock])

    def core(self, name):
        """A file of the core by its ``name`` (text), bytes."""
        return self._core[name]

    def wheel(self, row):
        """The wheel of a ``row`` of the lock (dict), bytes; None where no carrier has it."""
        name = canonical(row["name"])
        carrier = next((one for one in parts().carriers if name in one.wheels), None)
        if carrier is None:
            return None
        with zipfile.ZipFile(io.BytesIO(self.store.package(carrier, carrier.python))) as carried:
            try:
                return carried.read(f"{carrier.folder}/{row['file_name']}")
            except KeyError:
                raise Missing(
                    f"{carrier.name} {carrier.version} has no {row['file_name']}; parts.toml says it has"
                ) from None


class Release:
    """Core and wheels from the official release at ``path``, its folder or its archive (.tar.bz2, .tar.gz)."""

    def __init__(self, path):
        self.path = Path(path)
        try:
            self._files = self._in_folder() if self.path.is_dir() else self._in_archive()
        except (OSError, tarfile.TarError) as error:
            raise InputError("release", f"release: {self.path} cannot be read: {error}") from None
        if parts().core.lock not in self._files:
            raise InputError("release", f"release: {self.path} holds no {parts().core.lock}; give the full release")

    def _in_folder(self):
        return {path.name: path for path in self.path.rglob("*") if path.is_file()}

    def _in_archive(self):
        """Names and contents: a compressed archive is read once, from its beginning to its end."""
        wanted = {*parts().core.files, parts().core.lock}
        found = {}
        with tarfile.open(self.path) as archive:
            for member in archive:
                name = member.name.rpartition("/")[2]
                if member.isfile() and (name in wanted or name.endswith(".whl")):
                    found[name] = archive.extractfile(member).read()
        return found

    def core(self, name):
        """A file of the core by its ``name`` (text), bytes."""
        if name not in self._files:
            raise InputError("release", f"release: {self.path} holds no {name}; give the full release")
        found = self._files[name]
        return found if isinstance(found, bytes) else found.read_bytes()

    @property
    def lock(self):
        """Its lock, a dict."""
        return json.loads(self.core(parts().core.lock))

    def wheel(self, row):
        """The wheel of a ``row`` of the lock (dict), bytes; None where it is not among the files."""
        return self.core(row["file_name"]) if row["file_name"] in self._files else None


@dataclass(frozen=True)
class Distribution:
    """What was laid out: names of all ``packages``, and of those that are loaded at the ``start``, tuples of text."""

    packages: tuple
    start: tuple


def lay_out(folder, source, store, extra):
    """Put core, wheels and lock into ``folder``.

    Parameters
    ----------
    folder : path
        Made here.
    source : Registries or Release
    store : download.Store
        For what no source has.
    extra : dict
        Name of a wheel's file -> its bytes: the package itself, and what a kernel in a page needs.

    Returns
    -------
    Distribution

    Raises
    ------
    InputError
        A file that is not the one that lock or table mean; a part that cannot be had.
    """
    folder.mkdir(parents=True)
    for name in parts().core.files:
        (folder / name).write_bytes(source.core(name))
    lock, rows = source.lock, {}
    if lock["info"]["python"].rpartition(".")[0] != parts().python:
        raise InputError("release", f"release: Python {lock['info']['python']}, the table is for {parts().python}")
    official = {canonical(name): row for name, row in lock["packages"].items()}
    for name in sorted(
        {*(name for one in parts().carriers for name in one.wheels), *(one.name for one in parts().plain)}
    ):
        rows[name] = _wheel(folder, name, official.get(name), source, store)
    for file, content in extra.items():
        rows[canonical(file.split("-")[0])] = _put(folder, file, content)
    for row in rows.values():
        row["depends"] = [other for other in map(canonical, row["depends"]) if other in rows]
    (folder / parts().core.lock).write_text(json.dumps({"info": lock["info"], "packages": rows}), encoding="utf-8")
    return Distribution(tuple(rows), tuple(name for name in rows if name not in LATER))


def _wheel(folder, name, row, source, store):
    """One package, with its digest checked: as the release has it, or else as the table says."""
    content = None if row is None else source.wheel(row)
    if content is not None:
        (folder / row["file_name"]).write_bytes(held(content, row["sha256"], f"{row['file_name']} (by the lock)"))
        return row | {"name": name}
    one = next((one for one in parts().plain if one.name == name), None)
    if one is None:
        raise Missing(f"{name}: neither the release nor the table has it")
    return _put(folder, f"{one.name.replace('-', '_')}-{one.version}-py3-none-any.whl", store.package(one))


def _put(folder, file, content):
    """A wheel that the lock does not name, and the row for it."""
    (folder / file).write_bytes(content)
    name, version = file.split("-")[:2]
    return {
        "name": canonical(name), "version": version, "file_name": file, "install_dir": "site",
        "sha256": hashlib.sha256(content).hexdigest(), "package_type": "package", "imports": _imports(content),
        "depends": _depends(content), "unvendored_tests": False, "shared_library": False,
    }  # fmt: skip


def _depends(content):
    """Names of packages that a wheel's ``content`` says it needs."""
    with zipfile.ZipFile(io.BytesIO(content)) as wheel:
        said = (wheel.read(name).decode("utf-8") for name in wheel.namelist() if name.endswith(".dist-info/METADATA"))
        return NEEDS.findall(next(said, ""))


def _imports(content):
    """Names that a wheel's ``content`` makes importable, sorted."""
    with zipfile.ZipFile(io.BytesIO(content)) as wheel:
        tops = (name.split("/")[0] for name in wheel.namelist() if name.endswith(".py"))
        return sorted({top.removesuffix(".py") for top in tops if not top.endswith((".dist-info", ".data"))})
