"""``python -m shoulder_model handout panel``: one panel as one page that moves without a kernel, a network or a server."""

import argparse
import sys
import time
from pathlib import Path

from ..checkout import HOME
from ..given_file import read_given
from ..inputs import Allowed, InputError, choice, scalar
from ..mechanics import pulls
from ..panels.saved import FILE
from ..people import SEXES
from ..recorded.grids import KINDS
from ..recorded.recorder import record
from ..recorded.set_up import SetUp
from .panel_page import of_chapter, panel_page

EXAMPLES = """examples:
  python -m shoulder_model handout panel grip
  python -m shoulder_model handout panel grip --pull "front pulldown" --sex women --stature 168 --mass 64 --biacromial 37.2
  python -m shoulder_model handout panel work --open saved.json --finer --to handouts

Without a set-up the panel stands as its chapter shows it, and the chapter's guess comes first. With one there is no guess, since
its answer is for the chapter's set-up. What does not move on the page stands on it in words."""
MEASURES = {"stature": ("cm", 100.0), "mass": ("kg", 1.0), "biacromial": ("cm", 100.0)}  # unit, units in one of SI
OPTIONS = {"pull", "sex", *MEASURES}
TAKEN = {"one-arm": {"sex"}, "lat": set()}  # what can be named for a panel; every other takes all
SENSIBLE = Allowed(0.0, 1000.0, "", "the model says more narrowly what it takes")
EVERY = 5.0  # seconds between two lines of progress


def main(arguments=None, home=HOME):
    """Make the page that the command line asks for, and print its name.

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
    inputs.InputError
        One line: a panel, a pull, a person, a number or a file that cannot be used. Nothing has been written then.
    """
    options = _parser().parse_args(arguments)
    kind = choice("panel", options.panel, tuple(KINDS))
    named = _named(kind, options)
    chapter = None if named or options.open else of_chapter(kind, home)
    page = recorded_page(kind, chapter.panel if chapter else _panel(kind, named, options.open), chapter, options.finer)
    options.to.mkdir(parents=True, exist_ok=True)
    path = options.to / f"panel_{kind.replace('-', '_')}.html"
    path.write_text(page, encoding="utf-8")
    print(path)
    return 0


def recorded_page(kind, panel, chapter=None, finer=False):
    """Record a panel and make its page.

    Parameters
    ----------
    kind : str
        Its name among `KINDS`.
    panel : panels.panel.Panel
        As it is to start.
    chapter : panel_page.OfChapter, optional
        Where it is from.
    finer : bool
        On the finer grid.

    Returns
    -------
    str
        HTML text.
    """
    set_up = SetUp.of(panel)
    made = record(set_up, finer=finer, progress=Progress(kind))
    return panel_page(kind, made, set_up.panel(), chapter)


def _parser():
    parser = argparse.ArgumentParser(
        prog="python -m shoulder_model handout panel",
        description="Make one panel a page that moves by itself: one HTML file, no kernel, no network, no server.",
        epilog=EXAMPLES,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("panel", metavar="PANEL", help=", ".join(KINDS))
    parser.add_argument("--pull", metavar="NAME", help="a pull of the catalogue")
    parser.add_argument("--sex", help=" or ".join(SEXES))
    for name, (unit, _) in MEASURES.items():
        parser.add_argument(f"--{name}", metavar=unit.upper(), help=f"of the lifter, in {unit}")
    parser.add_argument("--open", metavar="FILE", help="a set-up that this panel has saved")
    parser.add_argument(
        "--finer", action="store_true", help="more controls move, in smaller steps: a larger page, minutes to make"
    )
    parser.add_argument(
        "--to", type=Path, default=Path("handouts"), metavar="FOLDER", help="where to (default: handouts)"
    )
    return parser


def _named(kind, options):
    """What the command line names of a set-up, by the panel's own arguments, lengths in metres."""
    given = {name: getattr(options, name) for name in OPTIONS if getattr(options, name) is not None}
    for name in given:
        if name not in TAKEN.get(kind, OPTIONS):
            raise InputError(name, f"{name}: the {kind} panel has none; leave --{name} out, or open a saved set-up")
    if given and options.open:
        raise InputError("open", f"--open brings the whole set-up; leave --{min(given)} out, or leave out --open")
    names = {"pull": tuple(pulls), "sex": SEXES}
    return {
        name: choice(name, value, names[name]) if name in names else _number(name, value)
        for name, value in given.items()
    }


def _number(name, typed):
    """A measure in metres or kilograms, typed in centimetres or kilograms, with point or comma."""
    unit, per_si = MEASURES[name]
    try:
        value = float(typed.strip().removesuffix(unit).strip().replace(",", "."))
    except ValueError:
        value = typed
    return scalar(name, value, Allowed(SENSIBLE.low, SENSIBLE.high, unit, SENSIBLE.advice)) / per_si


def _panel(kind, named, saved):
    """The panel with a set-up that is named or saved."""
    panel = KINDS[kind].make(**named)
    if saved:
        _, content = read_given(saved, FILE.largest)
        panel.open_text(content)
    return panel


class Progress:
    """Says now and then, beside what the command prints, how many states are recorded; ``kind`` (str) is the panel's name."""

    def __init__(self, kind):
        self.kind, self.last = kind, time.monotonic()

    def __call__(self, done, size):
        """``done`` of ``size`` states, two whole numbers."""
        now = time.monotonic()
        if now - self.last >= EVERY or done == size:
            self.last = now
            print(f"{self.kind} panel: {done} of {size} states recorded", file=sys.stderr, flush=True)
