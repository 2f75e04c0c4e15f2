"""``python -m shoulder_model site FOLDER``: the workbook as a folder for any web server."""

import argparse
import time
from pathlib import Path

from ..checkout import HOME
from .build import Order, build, free
from .distribution import Registries, Release
from .download import Store

EXAMPLES = """examples:
  python -m shoulder_model site public
  python -m shoulder_model site public --release pyodide-314.0.3.tar.bz2
  python -m http.server --directory public 8000     look at it: http://127.0.0.1:8000
"""


def store_folder():
    """Where parts are kept for the next build, the name of a folder as a path: in the user's own cache."""
    import platformdirs

    return platformdirs.user_cache_path("shoulder-model", appauthor=False) / "site"


def _parser():
    parser = argparse.ArgumentParser(
        prog="python -m shoulder_model site",
        description="Build the workbook as a folder of files for any web server. Readers install nothing: Python runs in their page.",
        epilog=EXAMPLES,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("folder", type=Path, metavar="FOLDER", help="where to; an older site there is replaced")
    parser.add_argument(
        "--release", type=Path, metavar="PATH",
        help="Python for the page from the official release, its archive or its folder, in place of npm and PyPI",
    )  # fmt: skip
    parser.add_argument(
        "--no-panels",
        dest="panels",
        action="store_false",
        help="without the panels that open at once; they take minutes the first time",
    )
    parser.add_argument(
        "--store", type=Path, metavar="FOLDER", help="keep fetched parts here; by default in your own cache"
    )
    return parser


def main(arguments=None, home=HOME):
    """Build what the command line asks for.

    Parameters
    ----------
    arguments : list of str, optional
        By default the real command line.
    home : path
        The checkout.

    Returns
    -------
    int
        0: the number to exit with, without unit.

    Raises
    ------
    InputError
        In one line, what is missing or not as it should be; nothing has changed then.
    """
    options = _parser().parse_args(arguments)
    start = time.monotonic()
    free(options.folder)
    store = Store(options.store or store_folder())
    source = Registries(store) if options.release is None else Release(options.release)
    order = Order(home, source, store, options.panels)
    built = build(
        options.folder, order, lambda words: print(f"[{time.monotonic() - start:4.0f} s] {words}", flush=True)
    )
    for words in built.words:
        print(words)
    print(f"{built.folder}: {built.files} files, {built.bytes / 1e6:.0f} MB, {time.monotonic() - start:.0f} s")
    return 0
