"""The live panels on a lecture's screen: large letters, all of them in sight, none over another, in many set-ups."""

import pytest

from .lab import Chapter, wait

pytestmark = pytest.mark.browser

AREA = (1240, 600)  # pixels that a lecture's screen has for a panel
STEPS = 36  # set-ups: three for each pull of the catalogue
BANDED = range(0, STEPS, 5)  # those that are looked at with bands too
LETTER = 24  # pixels, the smallest letter
NAMES = (
    "GripPanel",
    "TrunkPanel",
    "OneArmPanel",
    "LatPanel",
    "GirdlePanel",
    "WorkPanel",
    "RatioPanel",
    "EvidencePanel",
    "SessionPanel",
    "MyLifterPanel",
)
SETTING = f"""
import ipywidgets as w
import shoulder_model as sm
from shoulder_model import evidence, muscles, panels
from shoulder_model.draw.look import projector

with projector():
    made = {{name: getattr(panels, name)() for name in {NAMES}}}
made["GripPanel"].show_sliders(["Along the rep [%]"])
made["TrunkPanel"].show_sliders(["Touch point"])
made["WorkPanel"].show_sliders(["Trunk lean [° back]"])
made["RatioPanel"].show_sliders(["Off each side of the waist"])
made["EvidencePanel"].show_sliders(["Correlation between conditions (assumed)"])
asked = [(question, muscle) for question in evidence.SIDES for muscle in evidence.muscles(question)]


def main_of(panel):
    return next(slider for slider in panel.picture.sliders.values() if slider.main)


def put(panel, k):
    # one pull, muscle or question for three steps: as it starts, then against that at both ends of the main slider
    which, step = divmod(k, 3)
    main = main_of(panel)
    if step:
        main.value = (main.min, main.max)[step - 1]
        return
    panel.drop()
    if isinstance(panel, panels.pull_panel.PullPanel):
        panel.pull_choice.value = [*sm.pulls][which % len(sm.pulls)]
        panel.along.value = (0, 50, 100, 65)[which % 4]
        panel.arm_weight.value = which % 5 == 0
    elif isinstance(panel, panels.LatPanel):
        panel.muscle.value = muscles.shoulder_muscles()[(2 * which) % len(muscles.shoulder_muscles())]
    elif isinstance(panel, panels.EvidencePanel):
        panel.question.value, panel.muscle.value = asked[(3 * which) % len(asked)]
    elif isinstance(panel, panels.RatioPanel):
        panel.sex.value, panel.tape.value = ("men", "women")[which % 2], ("shoulders", "chest")[which % 3 == 2]
        panel.sliders["off_cm"].value = (0, 1, 4)[which % 3]
        panel.boxes["upper_cm"].value = ("", "131.5")[which % 4 == 3]
    elif isinstance(panel, panels.OneArmPanel):
        panel.sliders["load_kg"].value = 2.5 * which
        panel.sliders["elbow_flexion_deg"].value = 13 * which
    elif isinstance(panel, panels.MyLifterPanel):
        panel.criterion.value = panel.criterion.options[which % 4]
        panel.pull_choice.value = panel.pull_choice.options[which // 4]
        panel.sex.value, panel.boxes["stature"].value = [("men", ""), ("women", "168")][which % 2]
    if which:
        main.value = main.start
    panel.keep()


step, told = w.Text(placeholder="set-up", continuous_update=False), w.Label("none")
step.add_class("which-set-up")
told.add_class("set-up-shown")


def go(change):
    k, _, bands = change["new"].partition(" ")
    for panel in made.values():
        put(panel, int(k))
        if panel.bands:
            panel.bands.switch.value = panel.bands_first or bool(bands)
            panel.settle(1e9)
    told.value = change["new"]


step.observe(go, "value")
areas = []
for name, panel in made.items():
    area = w.Box([panel], layout=w.Layout(width="{AREA[0]}px", height="{AREA[1]}px", flex="0 0 auto", margin="0 0 20px 0"))
    area.add_class("lecture-panel")
    area.add_class(name)
    areas.append(area)
box = w.VBox(areas, layout=w.Layout(width="1280px"))
box.add_class("lecture")
display(w.VBox([w.HBox([step, told]), box]))
"""
MEASURE = """area => {
  const room = area.getBoundingClientRect(), picture = area.querySelector(".layers").getBoundingClientRect();
  const found = [], places = [];

  function look(words, box, size, inPicture) {
    if (!box.width || !box.height) return;
    const out = Math.max(room.left - box.left, box.right - room.right, room.top - box.top, box.bottom - room.bottom);
    if (out > 1) found.push(`outside by ${Math.round(out)}: ${words}`);
    if (size < LETTER - 0.05) found.push(`letters of ${size.toFixed(1)}: ${words}`);
    if (!inPicture && box.bottom > picture.top + 1) found.push(`over the picture: ${words}`);
    for (const [other, b] of places) {
      const across = Math.min(box.right, b.right) - Math.max(box.left, b.left);
      const up = Math.min(box.bottom, b.bottom) - Math.max(box.top, b.top);
      if (across > 2 && up > 2) found.push(`${other} | ${words}`);
    }
    places.push([words, box]);
  }

  const letters = (one) => parseFloat(getComputedStyle(one).fontSize);
  const walker = document.createTreeWalker(area, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) {
    const one = walker.currentNode.parentElement, words = walker.currentNode.textContent.trim();
    if (!words || !one.getClientRects().length || one.closest("style, title, .pull-heard")) continue;
    const svg = one.closest("svg");
    if (svg) {
      const scale = svg.getBoundingClientRect().width / svg.viewBox.baseVal.width;
      look(words, one.getBoundingClientRect(), letters(one) * scale, true);
      continue;
    }
    const range = document.createRange();
    range.selectNodeContents(walker.currentNode);
    const box = range.getBoundingClientRect();
    look(words, box, letters(one), false);
    if (one.matches(".verdict, .small, .bands") && box.height > 2.5 * letters(one)) found.push(`more than two lines: ${words}`);
  }
  for (const input of area.querySelectorAll("input")) {
    look(`box ${input.value}`, input.getBoundingClientRect(), input.type === "text" ? letters(input) : LETTER, false);
    if (input.scrollWidth > input.clientWidth + 1) found.push(`cut off: ${input.value}`);
  }
  return { found, seen: places.length };
}""".replace("LETTER", str(LETTER))
IN_SIGHT = "all => all.filter(one => one.getClientRects().length).map(one => one.querySelector('.name').textContent)"


@pytest.fixture(scope="module")
def screens(lab, browser):
    """A page that shows every panel at a projector's size, each in the area it has on a lecture's screen."""
    chapter = Chapter(lab, browser, lab.add("lecture_panels", SETTING), width=1600, height=900)
    chapter.run_everything()
    chapter.page.locator(".lecture-panel svg[role='img']").nth(len(NAMES) - 1).wait_for(state="attached")
    yield chapter
    assert chapter.failed_cells == [] and chapter.errors == []
    chapter.close()


def put(screens, k):
    """Take every panel to set-up ``k``, a number, or one with bands, "3 bands"."""
    box = screens.page.locator(".which-set-up input")
    box.fill(str(k))
    box.press("Enter")
    wait(lambda: screens.page.locator(".set-up-shown").inner_text().strip() == str(k), f"set-up {k}")


def test_letters_are_large_and_nothing_is_cut_off_or_covered(screens):
    found = {}
    for k in [*range(STEPS), *(f"{k} bands" for k in BANDED)]:
        put(screens, k)
        for name in NAMES:
            measured = screens.page.locator(f".lecture-panel.{name}").evaluate(MEASURE)
            assert measured["seen"] > 10, name
            for what in measured["found"]:
                found.setdefault(f"{name}: {what}", []).append(k)
    assert found == {}


def test_only_the_tutors_sliders_are_in_sight(screens):
    sliders = {
        name: screens.page.locator(f".lecture-panel.{name} .pull-slider").evaluate_all(IN_SIGHT) for name in NAMES
    }
    assert sliders == {
        "GripPanel": ["Grip", "Along the rep"],
        "TrunkPanel": ["Trunk lean", "Touch point"],
        "OneArmPanel": ["Upper arm"],
        "LatPanel": ["Arm raised"],
        "GirdlePanel": ["Grip"],
        "WorkPanel": ["Grip", "Trunk lean"],
        "RatioPanel": ["Muscle at each side", "Off each side of the waist"],
        "EvidencePanel": ["Correlation between conditions (assumed)", "Smallest trial"],
        "SessionPanel": ["Days a week"],
        "MyLifterPanel": ["Grip"],
    }
    others = screens.page.locator(
        ".lecture-panel :is(.widget-button, .widget-dropdown, .widget-checkbox, .widget-text)"
    )
    assert others.count() > 50 and not any(one.is_visible() for one in others.all())
