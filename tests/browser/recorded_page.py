"""A page with one recorded panel in a browser, and what a live panel would show in its place."""

import numpy as np

from shoulder_model.handout.panel_page import panel_page
from shoulder_model.recorded.recorder import LAYOUTS, page_text

SEEN = """() => {
  const layer = document.querySelector('.recorded .layers > svg');
  const parts = [...layer.querySelectorAll('*')].filter(one => one.nodeName !== 'svg');
  const elements = parts.map(one => [one.nodeName, one.textContent,
    Object.fromEntries(one.getAttributeNames().map(name => [name, one.getAttribute(name)]))]);
  const text = name => document.querySelector(`.recorded .${name}`).textContent;
  return [elements, { verdict: text('verdict'), small: text('small'), trouble: text('trouble'), words: layer.getAttribute('aria-label') }];
}"""
GO = """address => new Promise(done => {
  const there = () => requestAnimationFrame(() => done());
  if (location.hash === address) return there();
  addEventListener('hashchange', there, { once: true });
  location.hash = address;
})"""


def write_page(folder, kind, made, set_up, chapter=None):
    """The page of a record as a file in ``folder``; its path."""
    path = folder / f"{kind}.html"
    path.write_text(panel_page(kind, made, set_up.panel(), chapter), encoding="utf-8")
    return path


def open_page(context, path):
    """The page in a browser's ``context``, its panel awake; ``asked`` and ``errors`` are kept with it."""
    page = context.new_page()
    page.asked, page.errors = [], []
    page.on("request", lambda request: page.asked.append(request.url))
    page.on("pageerror", lambda error: page.errors.append(str(error)))
    page.on("console", lambda line: page.errors.append(line.text) if line.type == "error" else None)
    page.goto(path.as_uri())
    page.wait_for_selector(".recorded.moves", state="attached")
    return page


def address(grid, number):
    """Where the page shows the state with this ``number``."""
    places = np.unravel_index(number, [len(values) for values in grid.axes.values()])
    pairs = [(varied.short, values[place]) for (varied, values), place in zip(grid.axes.items(), places, strict=True)]
    return "#" + "&".join(f"{short}={_written(value)}" for short, value in pairs)


def _written(value):
    return str(value).lower() if isinstance(value, bool) else page_text(value).replace(" ", "%20")


def expected(panel):
    """Elements and words of a ``panel`` as a page has them."""
    elements = []
    for element, attributes in zip(panel.stage.elements, panel.stage.attributes(), strict=True):
        given = {name: page_text(value) for name, value in (element.fixed | attributes).items()}
        elements.append([element.tag, given.pop("text", ""), given])
    return [elements, {name: panel.picture.said[name] for name in ("verdict", "small", "trouble", "words")}]


def differing(page, made, set_up, numbers, layout):
    """Which of the states with these ``numbers`` the ``page``, in this layout, does not show as a panel that is taken there."""
    assert layout in LAYOUTS
    panel, wrong = set_up.panel(layout == "narrow"), []
    for number in numbers:
        made.grid.put(number, panel)
        panel.update()
        page.evaluate(GO, address(made.grid, number))
        if page.evaluate(SEEN) != expected(panel):
            wrong.append(number)
    return wrong
