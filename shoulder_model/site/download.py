"""Files from the registries, by the tools of each, into a folder that is kept for the next build."""

import shutil
import subprocess
import sys
import tempfile
from dataclasses import dataclass
from pathlib import Path

from ..inputs import InputError
from .parts import canonical, held, parts

LAST = 4  # lines of what a command printed before it failed


class Missing(InputError):
    """A part that cannot be had here; the text says which, and what to do."""

    def __init__(self, text):
        super().__init__("site", text)


def run(line, what, folder=None):
    """Run a command ``line`` (list of text or paths) in ``folder``, quietly; ``what`` says in words what it is for.

    Returns what it prints, text.

    Raises
    ------
    Missing
        The command is not there, or it failed.
    """
    try:
        done = subprocess.run([str(part) for part in line], cwd=folder, capture_output=True, text=True)
    except FileNotFoundError:
        raise Missing(f"{what} needs the program {line[0]!r}, which is not here") from None
    if done.returncode:
        said = " / ".join((done.stderr or done.stdout).strip().splitlines()[-LAST:]) or f"exit code {done.returncode}"
        raise Missing(f"{what} failed: {said[:900]}")
    return done.stdout


@dataclass(frozen=True)
class Store:
    """The folder of what has been fetched, by digest; a path."""

    folder: Path

    def kept(self, name, sha256, fetch, what):
        """Bytes of a file: from the folder, or by ``fetch(folder)``, which puts it there as the only file.

        ``name`` and ``what`` are text, ``sha256`` its digest; another file raises `InputError`.
        """
        place = self.folder / sha256[:16] / name
        if not place.exists():
            self.folder.mkdir(parents=True, exist_ok=True)
            with tempfile.TemporaryDirectory(dir=self.folder) as temporary:
                fetch(temporary)
                (found,) = Path(temporary).iterdir()
                content = held(found.read_bytes(), sha256, what)
                place.parent.mkdir(exist_ok=True)
                shutil.move(found, place)
                return content
        return held(place.read_bytes(), sha256, what)

    def core(self):
        """The archive of the release's core, bytes, by its name in the table."""
        core, what = parts().core, "the core of Python for the page"
        line = ["npm", "pack", "--silent", f"{core.name}@{core.version}"]
        return self.kept(core.archive, core.sha256, lambda folder: run(line, f"{what}, from npm,", folder), what)

    def package(self, one, python=None):
        """The wheel of ``one`` (`parts.Carrier` or `parts.Plain`), bytes, for a version of ``python`` (text)."""
        what = f"{one.name} {one.version}"
        line = [
            sys.executable,
            "-m",
            "pip",
            "download",
            "-q",
            "--disable-pip-version-check",
            "--no-deps",
            "--only-binary=:all:",
        ]
        line += [
            "--platform",
            "any",
            "--python-version",
            python or parts().python,
            f"{one.name}=={one.version}",
            "-d",
            ".",
        ]
        return self.kept(
            f"{canonical(one.name)}.whl", one.sha256, lambda folder: run(line, f"{what}, from PyPI,", folder), what
        )

    def tools(self):
        """An environment with what puts the site together; the path, by name, of its Python."""
        name = hashed("\n".join(parts().tools) + sys.version)
        home = self.folder / f"tools-{name}"
        python = home / ("Scripts" if sys.platform == "win32" else "bin") / "python"
        if not (home / "ready").exists():
            shutil.rmtree(home, ignore_errors=True)
            run([sys.executable, "-m", "venv", home], "an environment for the tools")
            run(
                [python, "-m", "pip", "install", "-q", "--disable-pip-version-check", *parts().tools],
                "installing the tools",
            )
            (home / "ready").touch()
        return python


def hashed(text):
    """A short name for a ``text``, the same on every machine: text."""
    import hashlib

    return hashlib.sha256(text.encode()).hexdigest()[:12]
