"""Every word and number in a picture, and every colour of words in a style sheet, stands out from what is behind it."""

import contextlib
import re
from functools import partial
from pathlib import Path

import pytest
from matplotlib.text import Text

import shoulder_model.panels as panels
from shoulder_model.draw import look
from shoulder_model.draw.look import ENOUGH, INK, contrast, phone, projector, readable
from shoulder_model.week import all_no

ROOT = Path(__file__).parents[3]
DARK = "#111111"  # JupyterLab's dark page
KINDS = [
    panels.OneArmPanel, panels.GripPanel, panels.TrunkPanel, panels.LatPanel, panels.GirdlePanel, panels.WorkPanel,
    panels.EvidencePanel, panels.RatioPanel, panels.MyLifterPanel, partial(panels.SessionPanel, health=all_no()),
]  # fmt: skip
COLOURS = [getattr(look, name) for name in ("GREY", "ORANGE", "SKY", "GREEN", "BLUE", "VERMILLION", "PURPLE")]
RULE = re.compile(r"([^{}]+)\{([^{}]*)\}")
SHEETS = [
    *(ROOT / "shoulder_model").glob("*/*.css"), ROOT / "shoulder_model/document/html.py",
    ROOT / "shoulder_model/panels/group_name.py", ROOT / "shoulder_model/panels/session.py",
]  # fmt: skip


@pytest.mark.published
def test_contrast_is_that_of_the_guideline():
    """WCAG 2.2 (W3C Recommendation, 5 October 2023), contrast ratio: 1:1 to 21:1; #767676 is the lightest grey on white."""
    assert contrast("white") == 1.0 and contrast("black") == pytest.approx(21.0)
    assert contrast("#767676") >= ENOUGH > contrast("#777777")


@pytest.mark.parametrize("colour", [*COLOURS, *look.GROUP_LOOK.values()])
def test_letters_are_dark_enough_and_keep_the_hue_of_their_line(colour):
    letters = readable(colour)
    assert ENOUGH <= contrast(letters) and (contrast(colour) < ENOUGH + 0.3 or letters == colour.lower())
    line, ink = ([int(one[k : k + 2], 16) for k in (1, 3, 5)] for one in (colour, letters))
    shares = [i / p for p, i in zip(line, ink, strict=True) if p > 20]
    assert max(shares) - min(shares) < 0.05, "one part of the colour is darkened more than the others"


@pytest.mark.parametrize("sheet", [contextlib.nullcontext, projector, phone], ids=["page", "projector", "phone"])
@pytest.mark.parametrize("make", KINDS, ids=lambda make: getattr(make, "__name__", "SessionPanel"))
def test_letters_of_a_panel_still_and_moving(make, sheet):
    with sheet():
        panel = make()
    moving = [now["fill"] for now in panel.stage.attributes() if now.get("fill") and now.get("text")]
    still = [
        text.get_color() for text in panel.stage.figure.findobj(Text) if text.get_text() and not text.get_animated()
    ]
    assert moving
    assert [colour for colour in {*moving, *still} if contrast(colour) < ENOUGH] == []


def test_letters_of_every_figure():
    """White letters stand on bars that are dark enough; their recipe asks for that."""
    weak, seen = [], 0
    for path in sorted((ROOT / "figures").rglob("*.svg")):
        for style, words in re.findall(r"<text ([^>]*)>(.*?)</text>", path.read_text(encoding="utf-8"), re.DOTALL):
            seen += 1
            colour = (re.findall(r"fill: (#\w{6})", style) or ["#000000"])[0]
            if INK < contrast(colour) < ENOUGH or "opacity" in style:
                weak.append(f"{path.name}: {words} {colour}")
    assert seen > 1000 and weak == []


def test_colours_of_words_in_style_sheets():
    weak, seen = [], 0
    for path in SHEETS:
        for selector, body in RULE.findall(re.sub(r"/\*.*?\*/", "", path.read_text(encoding="utf-8"))):
            behind = re.search(r"background: ?(#\w{3,6}|white)", body)
            page = DARK if "theme-light" in selector else "white"
            for colour in re.findall(r"(?<![\w-])color: ?(?:var\([^,()]*, ?)?(#\w{3,6})", body):
                seen += 1
                if contrast(colour, behind[1] if behind else page) < ENOUGH and ".mark.on" not in selector:
                    weak.append(f"{path.name}: {selector.strip()} {colour}")
    assert seen > 20 and weak == []
