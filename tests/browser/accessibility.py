"""axe-core in a page that is open already: what it finds among the project's own parts, in the light theme and the dark one."""

from pathlib import Path

import axe_playwright_python

AXE = (Path(axe_playwright_python.__file__).parent / "axe.min.js").read_text(encoding="utf-8")
OWN = ".jp-OutputArea-output, .jp-MarkdownOutput"  # what chapters put into JupyterLab's page; the rest is JupyterLab's own
RUN = """async ([inside, rules]) => {
  const include = [...document.querySelectorAll(inside)];
  if (!include.length) throw new Error(`nothing to look at: ${inside}`);
  const look = { resultTypes: ['violations'], iframes: false };
  if (rules.length) look.runOnly = rules;
  const found = await axe.run({ include }, look);
  return found.violations.filter(one => ['serious', 'critical'].includes(one.impact))
    .flatMap(one => one.nodes.map(node => `${one.impact} ${one.id}: ${node.html.slice(0, 120)}`));
}"""
DARK = """async () => {
  const link = Object.assign(document.createElement('link'), { rel: 'stylesheet' });
  const loaded = new Promise((done, failed) => { link.onload = done; link.onerror = failed; });
  link.href = '/lab/api/themes/@jupyterlab/theme-dark-extension/index.css';
  document.body.append(link);
  await loaded;
  document.body.dataset.jpThemeLight = 'false';
}"""
WHOLE = "() => document.querySelector('.jp-WindowedPanel-outer').scrollHeight + 200"
NAMELESS = """() => [...document.querySelectorAll('.jp-OutputArea-output :is(input, select, textarea, button, summary)')]
  .filter(one => one.getClientRects().length)
  .filter(one => !/[\\p{L}\\d]/u.test(one.ariaLabel || [...(one.labels ?? [])].map(label => label.textContent).join(' ') || one.textContent))
  .map(one => one.outerHTML.slice(0, 120))"""


def faults(page, inside, *rules):
    """Serious and critical faults that axe finds in a ``page``, in what a selector ``inside`` finds; by all rules, or by some."""
    if not page.evaluate("() => 'axe' in window"):
        page.evaluate(AXE)
    return page.evaluate(RUN, [inside, list(rules)])


def nameless(page):
    """Controls in sight that a screen reader has no name for, the placeholder of a box not counted."""
    return page.evaluate(NAMELESS)


def open_all(page):
    """Press what shows answers, panels and folded controls."""
    for button in page.get_by_role("button", name="Show me", exact=True).all():
        button.click()
    page.evaluate("() => document.querySelectorAll('.jp-Notebook details').forEach(one => { one.open = true; })")
    page.evaluate(
        "() => document.querySelectorAll('.jupyter-widgets.widget-toggle-button:not(.mod-active)').forEach(one => one.click())"
    )


def of_chapter(page):
    """Faults of an open chapter that has been run, by theme, with all of it in sight: axe looks at no colour that is scrolled away."""
    open_all(page)
    size = page.viewport_size
    page.set_viewport_size({"width": size["width"], "height": min(page.evaluate(WHOLE), 16000)})
    page.wait_for_timeout(600)
    found = {"light": faults(page, OWN), "no name": nameless(page)}
    page.evaluate(DARK)
    found["dark"] = faults(page, OWN, "color-contrast")
    page.set_viewport_size(size)
    return {where: some for where, some in found.items() if some}
