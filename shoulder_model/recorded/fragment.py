"""A record as a piece of a page: its controls, its picture and its data, with the panel's own scripts and style sheets.

The page's script puts ``panels/picture.js`` and ``panels/slider.js`` on the record as they are: what they ask a kernel for is
answered by ``recorded.js``, which looks it up.
"""

from dataclasses import dataclass
from html import escape
from pathlib import Path

from ..draw.stage import own_names
from ..panels.group_name import STYLE
from ..panels.picture import Picture
from ..panels.slider import Slider
from .packing import packed
from .recorder import LAYOUTS
from .set_up import fixed_words

HERE = Path(__file__).parent
TRAITS = ("description", "unit", "digits", "also", "main")
ASLEEP = "This browser is too old to move the picture. A newer one can."
NO_SCRIPT = "The picture moves where scripts are allowed."
AGAINST_KEPT = "The bold sentence says the difference to it."
STANDS = "Stays as it is here"
FROM_SCRIPTS = (
    "\N{MINUS SIGN}“”⌘⚠\N{NO-BREAK SPACE}✓✗"  # characters that only scripts and style sheets write, as numbers
)


@dataclass(frozen=True)
class Fragment:
    """A recorded panel for a page.

    ``html`` (str) of its box; ``letters`` (str) has every character that may come to stand in it.
    """

    html: str
    letters: str


def fragment(record, panel, still, number=0):
    """A record as a piece of a page.

    Parameters
    ----------
    record : recorder.Record
    panel : panels.panel.Panel
        As it starts, for the words on its controls.
    still : str
        SVG text of its picture, for a page that cannot move it.
    number : int
        A whole number that no other recorded panel of the page has.

    Returns
    -------
    Fragment
        HTML text and its letters.
    """
    grid = record.grid
    controls = [_control(varied, values, panel, grid.finer) for varied, values in grid.axes.items()]
    stills = {layout: _still(record.stills[layout], f"r{number}{layout[0]}-") for layout in LAYOUTS}
    head = {"controls": controls, "start": grid.start, "stills": stills}
    fixed = fixed_words(panel, [varied.of(panel) for varied in grid.axes])
    kept = f"<p>Kept in grey: {escape(panel.set_up(panel.kept))}. {AGAINST_KEPT}</p>" if panel.kept is not None else ""
    html = (
        f'<div class="recorded pull-panel" role="group" aria-label="Panel: {escape(panel_words(panel))}">\n'
        f'<div class="controls"></div>\n<p class="set-up">{escape(panel.set_up(panel.state))}</p>\n'
        f'<div class="here"><div class="still">{still}</div></div>\n'
        f'<p class="asleep" role="status"></p><noscript><p>{NO_SCRIPT}</p></noscript>\n'
        f'<div class="fixed">{kept}<p>{STANDS}: {escape("; ".join(fixed))}.</p></div>\n'
        f'<script type="text/plain" class="record">{packed(head, list(record.tables.values()))}</script>\n</div>\n'
    )
    letters = (
        set(html)
        | set(FROM_SCRIPTS)
        | set(str(head))
        | set().union(*(table.letters() for table in record.tables.values()))
    )
    return Fragment(html, "".join(sorted(letters)))


def panel_words(panel):
    """What ``panel`` (`panels.panel.Panel`) is called, in a word or two."""
    return panel.name.removesuffix("-panel").replace("-", " ")


def _control(varied, values, panel, finer):
    """One control, as the script makes it."""
    control = varied.of(panel)
    made = {"short": varied.short, "label": control.description, "values": values}
    if not isinstance(control, Slider):
        return made | {"kind": "tick" if isinstance(control.value, bool) else "choice"}
    stops = {words: place for words, place in control.stops.items() if place in values}
    ends = {"min": values[0], "max": values[-1], "step": varied.step_of(finer), "start": control.value}
    return made | {
        "kind": "slider",
        "slider": {name: getattr(control, name) for name in TRAITS} | ends | {"stops": stops},
    }


def _still(still, prefix):
    return {"frame": own_names(still.frame, prefix), "layer": still.layer, "size": still.size}


def style():
    """Style sheets of a recorded panel, text."""
    return "\n".join([Slider._css, Picture._css, STYLE, _file("recorded.css")])


def script(*more):
    """The script of a page with recorded panels (text): the panels' own parts, the record, then what ``more`` names files of (str)."""
    parts = [_module(name, text) for name, text in (("picture", Picture._esm), ("slider", Slider._esm))]
    words = f"const ASLEEP = {ASLEEP!r};"
    return "\n".join([*parts, words, _file("recorded.js"), *(_file(f"{name}.js") for name in more)])


def _module(name, text):
    """A module of the panels' page as one constant of a plain script."""
    return f"const {name} = (() => {{\n{text.replace('export default', 'return')}}})();"


def _file(name):
    return (HERE / name).read_text(encoding="utf-8")
