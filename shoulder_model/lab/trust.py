"""Which notebooks may run what they have saved as soon as they are opened: those that come with the package, by content.

``shipped.json`` holds a digest of each. After editing a chapter: ``python -m shoulder_model.lab.trust`` writes it again
(``recipes.notebooks`` does so by itself). What a reader runs and saves is signed by JupyterLab.
"""

import hashlib
import json
from pathlib import Path

import nbformat
from nbformat.sign import NotebookNotary

from ..checkout import HOME, chapter_path, chapters

LIST = Path(__file__).parent / "shipped.json"
LECTURE_PAGE = "shoulder_model/lecture/lecture.ipynb"


def digest(content):
    """SHA-256 of a notebook, text; ``content`` (bytes) is its file. Line ends and spaces between words of JSON do not count.

    Raises
    ------
    ValueError
        This is no JSON.
    """
    whole = json.dumps(json.loads(content), sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(whole.encode("utf-8", "surrogatepass")).hexdigest()


def pages(home):
    """The chapters and the lecture's page of the checkout ``home`` (path), a list of paths."""
    return [*(chapter_path(home, name) for name in chapters(home)), Path(home) / LECTURE_PAGE]


def shipped():
    """Digests of the notebooks that come with the package, a set of text."""
    return set(json.loads(LIST.read_text(encoding="utf-8")).values())


def write_list(home=HOME):
    """Write the digests of all notebooks that lie in the checkout ``home`` (path)."""
    found = {path.relative_to(home).as_posix(): digest(path.read_bytes()) for path in pages(home)}
    LIST.write_text(json.dumps(found, indent=1) + "\n", encoding="utf-8", newline="\n")


def trust(home, data):
    """Sign those notebooks in the checkout ``home`` (path) that are as they were shipped; signatures lie in ``data`` (path).

    Returns their names, a list of text. Any other notebook is opened with what it has saved shut off.
    """
    data.mkdir(parents=True, exist_ok=True)  # first: without it the signatures stay in memory
    known, signed = shipped(), []
    with NotebookNotary(data_dir=str(data)) as notary:
        for path in pages(home):
            try:
                content = path.read_bytes()
                if digest(content) not in known:
                    continue
                notary.sign(nbformat.reads(content.decode("utf-8"), as_version=4))
            except (OSError, ValueError, RecursionError):  # not there, no JSON; JupyterLab says so when it is opened
                continue
            signed.append(path.stem)
    return signed


if __name__ == "__main__":
    write_list()
    print(f"{LIST} is written")
