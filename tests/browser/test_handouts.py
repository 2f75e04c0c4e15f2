"""Hand-outs in a real browser without a network: nothing is asked for, nothing overflows, PDFs are made."""

import re
from pathlib import Path

import pytest

from shoulder_model.draw.look import projector
from shoulder_model.handout.paper import paper_of
from shoulder_model.handout.pdf import print_pdf
from shoulder_model.handout.reading import reading_page
from shoulder_model.handout.render import glossary_of
from shoulder_model.handout.slides import slides_page
from shoulder_model.handout.work_sheet import work_sheet
from shoulder_model.lab.launch import HOME
from shoulder_model.lesson import read_chapter

from .accessibility import faults
from .lab import BROWSER, reader

NAME = "03_grip_width"
FIGURES = (HOME / "figures" / "projector", HOME / "figures")
SCREENS = (HOME / "shoulder_model" / "lesson" / "screens.js").read_text(encoding="utf-8")
LEAST = 24  # px of a letter on a slide
OUTSIDE = """() => {
  const out = [];
  for (const slide of document.querySelectorAll('.slide')) {
    const all = slide.getBoundingClientRect(), body = slide.querySelector('.body').getBoundingClientRect();
    for (const part of slide.querySelectorAll('*')) {
      if (part.closest('.spoken, defs, clipPath, svg svg') || (part.closest('svg') && part.nodeName !== 'svg')) continue;
      const box = part.getBoundingClientRect(), frame = part.closest('.body') ? body : all;
      if (!box.width || !box.height) continue;
      if (box.left < frame.left - 1 || box.right > frame.right + 1 || box.top < frame.top - 1 || box.bottom > frame.bottom + 1)
        out.push(`${slide.firstChild.textContent}: ${part.nodeName} ${part.textContent.slice(0, 40)}`);
    }
  }
  return out;
}"""
SMALL = """([least, left_out]) => {
  const out = [];
  const walk = document.createTreeWalker(document.querySelector('#deck'), NodeFilter.SHOW_TEXT);
  let seen = 0;
  while (walk.nextNode()) {
    const part = walk.currentNode.parentElement, picture = part.closest('svg');
    if (!walk.currentNode.data.trim() || part.closest('.spoken, .formula')) continue;
    if (picture && left_out.includes(picture.getAttribute('aria-label'))) continue;
    const matrix = picture ? part.getScreenCTM() : null;
    const size = parseFloat(getComputedStyle(part).fontSize) * (matrix ? Math.hypot(matrix.a, matrix.b) : 1);
    seen += 1;
    if (size < least - 0.2) out.push(`${size.toFixed(1)}: ${walk.currentNode.data.slice(0, 40)}`);
  }
  return [seen, out];
}"""


@pytest.fixture(scope="module")
def chapter():
    with projector():
        return read_chapter(HOME / "workbook" / f"{NAME}.ipynb")


@pytest.fixture(scope="module")
def folder(chapter, tmp_path_factory):
    """The three kinds of page as files."""
    made, glossary = tmp_path_factory.mktemp("handouts"), glossary_of(HOME / "workbook")
    (made / "read.html").write_text(reading_page(paper_of(chapter), FIGURES, glossary), encoding="utf-8")
    (made / "slides.html").write_text(slides_page(paper_of(chapter), FIGURES, glossary), encoding="utf-8")
    (made / "sheet.html").write_text(work_sheet(), encoding="utf-8")
    return made


@pytest.fixture
def opened(browser, folder):
    """Opens a page, the network cut off; ``asked`` are the addresses that it asks for."""
    context = reader(browser, height=728, offline=True)
    page = context.new_page()
    page.asked, page.errors = [], []
    page.on("request", lambda request: page.asked.append(request.url))
    page.on("pageerror", lambda error: page.errors.append(str(error)))

    def open_one(name):
        page.goto((folder / name).as_uri())
        if name == "slides.html":
            page.wait_for_selector("#deck.ready")
        return page

    yield open_one
    context.close()


def pages_of(pdf):
    """Width and height in points of each page of a PDF as the browser writes it."""
    data = Path(pdf).read_bytes()
    boxes = re.findall(rb"/Type /Page\n.*?/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]", data, re.DOTALL)
    return [tuple(map(float, box)) for box in boxes]


@pytest.mark.browser
@pytest.mark.parametrize("name", ["read.html", "slides.html", "sheet.html"])
def test_a_page_asks_for_nothing_and_has_its_own_fonts(opened, folder, name):
    page = opened(name)
    outside = [one for one in page.asked if not one.startswith("data:")]
    assert outside == [(folder / name).as_uri()] and page.errors == []
    used = page.evaluate("[...document.fonts].filter(font => font.status === 'loaded').map(font => font.family)")
    assert any("DejaVu Sans" in family for family in used)
    assert faults(page, "body") == []


@pytest.mark.browser
def test_nothing_overflows_a_slide_and_nothing_is_lost(opened, folder):
    page = opened("slides.html")
    assert page.evaluate(OUTSIDE) == []
    heads = page.evaluate(
        "[...document.querySelectorAll('.slide')].filter(s => s.firstChild.scrollWidth > s.firstChild.clientWidth)"
    )
    assert heads == []
    source = re.search(r"<main.*?</main>", (folder / "slides.html").read_text(encoding="utf-8"), re.DOTALL)[0]
    words = (
        "(html) => { const held = document.createElement('div'); held.innerHTML = html;"
        "const kept = [...held.querySelectorAll('.group > *')].slice(0);"
        "return kept.filter(one => !/^H[123]$/.test(one.nodeName)).map(one => one.textContent).join('').replace(/\\s+/g, ''); }"
    )
    shown = (
        "[...document.querySelectorAll('.slide .body > *')].map(one => one.textContent).join('').replace(/\\s+/g, '')"
    )
    assert page.evaluate(shown) == page.evaluate(words, source)


@pytest.mark.browser
def test_every_letter_on_a_slide_can_be_read_from_the_last_row(opened, chapter):
    page = opened("slides.html")
    text = "\n".join(getattr(block, "markdown", "") for section in chapter.sections for block in section.blocks)
    not_made = [words for words, name in re.findall(r"!\[([^\]]+)\]\(\.\./figures/(\w+)\.svg\)", text)
                if not (FIGURES[0] / f"{name}.svg").is_file()]  # fmt: skip
    seen, small = page.evaluate(SMALL, [LEAST, not_made])
    assert seen > 150 and small == []
    seen, small = page.evaluate(SMALL, [LEAST + 1, not_made])
    assert small, "the smallest letters are 24 px, so a larger least has to be missed"


@pytest.mark.browser
def test_keys_move_from_slide_to_slide(opened):
    page = opened("slides.html")
    here = (
        "[...document.querySelectorAll('.slide')].findIndex(s => { const box = s.getBoundingClientRect();"
        "return box.top > -200 && box.top < 200; })"
    )
    for key, place in (
        ("ArrowRight", 1),
        ("PageDown", 2),
        ("ArrowDown", 3),
        ("ArrowLeft", 2),
        ("PageUp", 1),
        ("Home", 0),
    ):
        page.keyboard.press(key)
        page.wait_for_function(f"() => ({here}) === {place}")


@pytest.mark.browser
@pytest.mark.parametrize("width", [360, 1280])
def test_a_page_to_read_fits_a_phone_and_keeps_a_column(opened, width):
    page = opened("read.html")
    page.set_viewport_size({"width": width, "height": 700})
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    em = page.evaluate("parseFloat(getComputedStyle(document.body).fontSize)")
    assert page.evaluate("document.querySelector('main').getBoundingClientRect().width") <= 46 * em
    small = "[...document.querySelectorAll('main p, main li')].filter(p => parseFloat(getComputedStyle(p).fontSize) < 12).length"
    assert page.evaluate(small) == 0


@pytest.mark.browser
def test_pdfs_are_made_the_work_sheet_with_two_pages_the_slides_with_one_each(opened, folder, monkeypatch):
    monkeypatch.setenv("CHROMIUM", BROWSER)
    for name in ("sheet", "slides"):
        assert print_pdf(folder / f"{name}.html", folder / f"{name}.pdf")
    assert (folder / "sheet.pdf").read_bytes().startswith(b"%PDF")
    sheet = pages_of(folder / "sheet.pdf")
    assert len(sheet) == 2 and all(box == pytest.approx((595, 842), abs=1) for box in sheet)
    slides = pages_of(folder / "slides.pdf")
    assert len(slides) == opened("slides.html").evaluate("document.querySelectorAll('.slide').length") > 40
    assert all(box == pytest.approx((960, 540), abs=1) for box in slides)


@pytest.fixture
def spread(browser):
    """Spreads the blocks of some HTML over screens of 600 × 400 px; gives a list of HTML, one for each screen."""
    page = browser.new_page()
    page.set_content("<style>body { font: 20px/1.5 sans-serif; } * { margin: 0 0 10px; } .s { width: 600px; height: 400px;"
                     " overflow: hidden; } svg { display: block; width: 100%; }</style><div id='from'></div>")  # fmt: skip
    page.add_script_tag(content=SCREENS)

    def spread_one(html):
        return page.evaluate(
            """html => {
          const from = document.querySelector('#from'), screens = [];
          from.innerHTML = html;
          document.querySelectorAll('.s').forEach(one => one.remove());
          intoScreens([...from.children], () => {
            const body = document.createElement('div');
            body.className = 's';
            document.body.append(body);
            screens.push(body);
            return body;
          });
          const over = screens.filter(one => one.scrollHeight > one.clientHeight + 1);
          return [screens.map(one => one.innerHTML), over.length];
        }""",
            html,
        )

    yield spread_one
    page.close()


def items(count, tag="li"):
    return "".join(f"<{tag}>item {number}</{tag}>" for number in range(1, count + 1))


@pytest.mark.browser
def test_screens_keep_headings_with_what_follows(spread):
    filler = "".join(f"<p>line {number}</p>" for number in range(9))
    screens, over = spread(f"{filler}<h3>Head</h3><p>one two</p>")
    assert over == 0 and len(screens) == 2 and screens[1].startswith("<h3>Head</h3><p>one two")
    for leads in ("<p>These are:</p>", "<p><strong>These</strong></p>"):
        screens, over = spread(f"{filler}{leads}<ul>{items(3)}</ul>")
        assert over == 0 and screens[1].startswith(f"{leads}<ul>")


@pytest.mark.browser
def test_screens_split_lists_tables_and_lines_and_lose_nothing(spread):
    screens, over = spread(f"<ol>{items(25)}</ol>")
    assert over == 0 and len(screens) > 2
    starts = [int(re.search(r'start="(\d+)"', screen)[1]) for screen in screens[1:]]
    firsts = [int(re.search(r"item (\d+)", screen)[1]) for screen in screens[1:]]
    assert starts == firsts and "".join(screens).count("<li>") == 25
    rows = "".join(f"<tr><td>row {number}</td></tr>" for number in range(60))
    screens, over = spread(f"<table><thead><tr><th>Head</th></tr></thead><tbody>{rows}</tbody></table>")
    assert over == 0 and len(screens) > 2 and all(screen.count("<th>Head</th>") == 1 for screen in screens)
    assert re.findall(r"row (\d+)", "".join(screens)) == [str(number) for number in range(60)]
    lines = "\n".join(f"printed {number}" for number in range(40))
    screens, over = spread(f"<pre>{lines}</pre>")
    assert over == 0 and len(screens) > 1 and all(screen.startswith("<pre>printed") for screen in screens)
    assert re.findall(r"printed (\d+)", "".join(screens)) == [str(number) for number in range(40)]


@pytest.mark.browser
def test_screens_split_text_that_is_taller_than_one(spread):
    words = " ".join(f"word{number}" for number in range(400))
    for html in (f"<p>{words}</p>", f"<ul><li>{words}</li><li>last</li></ul>", f"<p><b>Bold</b> {words}</p>"):
        screens, over = spread(html)
        assert over == 0 and len(screens) > 1
        assert re.findall(r"word(\d+)", "".join(screens)) == [str(number) for number in range(400)]


@pytest.mark.browser
def test_screens_shrink_a_picture_only_to_a_whole_screen(spread):
    wide, tall = (
        '<svg class="picture" viewBox="0 0 100 50"></svg>',
        '<svg class="picture" viewBox="0 0 100 200"></svg>',
    )
    screens, over = spread(f"<p>text</p>{wide}<p><em>caption</em></p>")
    assert over == 0 and len(screens) == 1 and "max-height" not in screens[0]
    screens, over = spread(f"<p>text</p><p>text</p><p>text</p>{wide}<p><em>caption</em></p>")
    assert over == 0 and len(screens) == 2 and "max-height" not in screens[1] and "caption" in screens[1]
    screens, over = spread(f"<p>text</p>{tall}<p><em>caption</em></p>")
    assert over == 0 and "<svg" in screens[1] and "max-height" in screens[1] and "caption" in "".join(screens)
