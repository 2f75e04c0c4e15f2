"""The session panel and the printed page: what is shown, saved and refused."""

import csv
import io
import json
from html import unescape
from html.parser import HTMLParser

import numpy as np
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg

import shoulder_model as sm
from shoulder_model.panels import SessionPanel
from shoulder_model.panels.session import PAGES
from shoulder_model.week import HEALTH, Clash, Client, Plan, Referral, plan_week
from shoulder_model.week.page import CSV_HEADS, page_csv, page_html
from shoulder_model.week.page_pdf import page_figure, page_pdf
from shoulder_model.week.rules import EXPERIENCE


@pytest.fixture
def panel():
    return SessionPanel()


def blocks(panel):
    """Corner and size of every visible block of the picture."""
    return [block.get_bbox().bounds for block in panel.view.blocks if block.get_visible()]


def shown(panel):
    """Every visible text of the week view."""
    texts = [
        panel.view.asked,
        *panel.view.heads,
        *panel.view.said,
        *(line for lines in panel.view.lines for line in lines),
    ]
    return [text.get_text() for text in texts if text.get_visible()]


def test_the_picture_is_the_week(panel):
    plan = panel.state.answer
    assert isinstance(plan, Plan) and len(blocks(panel)) == len(plan.rows)
    texts = " ".join(shown(panel))
    for row in plan.rows:
        assert f"{row.sets} × {row.repetitions[0]}–{row.repetitions[1]}" in texts
        assert row.pull.hands == 1 or f"{row.grip_cm:.0f} cm" in texts
    widths = dict(zip(panel.bars.names, (bar.get_width() for bar in panel.bars.bars), strict=True))
    assert widths == plan.sets | plan.directions


@pytest.mark.parametrize("days", [2, 3, 4, 5])
@pytest.mark.parametrize("experience", EXPERIENCE)
def test_blocks_stay_apart_and_inside_their_letters_too(experience, days):
    panel = SessionPanel(experience=experience)
    with panel.quiet():
        panel.sliders["days"].value = days
    for goal in (0, 50, 100):
        panel.sliders["goal"].value = goal
        panel.update()
        found = blocks(panel)
        for i, (x, y, wide, tall) in enumerate(found):
            assert 0 <= x and x + wide <= 1 and 0 <= y and y + tall <= 0.9
            for x2, y2, wide2, tall2 in found[:i]:
                assert x2 + wide2 <= x or x + wide <= x2 or y2 + tall2 <= y or y + tall <= y2
        renderer = FigureCanvasAgg(panel.stage.figure).get_renderer()
        for block, lines in zip(panel.view.blocks, panel.view.lines, strict=True):
            if block.get_visible():
                box = block.get_window_extent(renderer)
                for line in lines:
                    if line.get_visible():
                        extent = line.get_window_extent(renderer)
                        assert box.x0 <= extent.x0 and extent.x1 <= box.x1, line.get_text()
                        assert box.y0 <= extent.y0 and extent.y1 <= box.y1, line.get_text()


def test_the_table_gives_every_pull_its_reason(panel):
    table = unescape(panel.week_table.value)
    for row in panel.state.answer.rows:
        assert row.reason in table and row.name in table
    assert "not for diagnosis" in table and "A start to test" in table


@pytest.mark.parametrize("tick", HEALTH)
def test_a_health_tick_takes_the_week_away(panel, tick):
    before = {row.name for row in panel.state.answer.rows}
    panel.health[tick].value = True
    assert isinstance(panel.state.answer, Referral) and not blocks(panel)
    told = " ".join([panel.words, panel.week_table.value, *shown(panel)])
    assert "licensed clinician" in panel.words and not any(name in told for name in before)
    for kind in ("html", "week.csv", "log.csv"):
        content = panel.content(kind).decode()
        assert "licensed clinician" in content and not any(name in content for name in before)
    assert all(bar.get_width() == 0 for bar in panel.bars.bars)
    panel.health[tick].value = False
    assert {row.name for row in panel.state.answer.rows} == before


def test_a_clash_is_named_on_the_picture_and_in_words(panel):
    for box in panel.there.values():
        box.value = False
    answer = panel.state.answer
    assert isinstance(answer, Clash) and panel.picture.said["trouble"] == ""
    for wish in answer.wishes:
        assert wish in panel.words and any(wish in line for line in shown(panel))


def test_the_difference_names_pulls_and_sets(panel):
    panel.keep()
    was = panel.state.answer
    panel.sliders["goal"].value = 100
    now = panel.state.answer
    more = now.sets["mid-back"] - was.sets["mid-back"]
    assert more > 0 and f"+{more:.1f} sets for the mid-back" in panel.picture.said["verdict"]
    panel.health["pain"].value = True
    assert "a week then, a referral now" in panel.picture.said["verdict"]


def test_set_ups_bring_every_control_back(panel):
    panel.measures["stature"].value, panel.experience.value = "171", "advanced"
    panel.sliders["days"].value, panel.there["barbell"].value = 4, False
    panel.left_out["chin-up"].value = panel.limit_low_back.value = True
    saved = panel.content("json").decode()
    other = SessionPanel()
    other.open_text(saved)
    assert other.picture.said["trouble"] == "" and other.words == panel.words
    assert other.measures["stature"].value == "171" and other.measures["mass"].value == ""
    assert other.content("json").decode() == saved


@pytest.mark.parametrize(
    ("values", "says"),
    [
        ({"days": 9}, "days = 9 is outside 2 to 5"),
        ({"stature": 0.5}, "stature = 50.0 cm is outside"),
        ({"experience": "expert"}, "experience 'expert' is not known"),
    ],
)
def test_a_spoilt_set_up_moves_nothing(panel, values, says):
    content = json.loads(panel.content("json"))
    content["values"] |= values
    before = panel.content("json"), panel.overlay
    panel.open_text(json.dumps(content))
    assert says in panel.picture.said["trouble"] and (panel.content("json"), panel.overlay) == before


def test_the_page_buttons_hand_over_downloads(panel, monkeypatch):
    sent = []
    monkeypatch.setattr(panel.door, "send", lambda content, buffers=None: sent.append((content, buffers)))
    for kind in (*PAGES, "csv"):
        panel.save(kind)
    assert [content["name"] for content, _ in sent] == [f"session-panel.{kind}" for kind in (*PAGES, "csv")]
    assert all(buffers[0] for _, buffers in sent)


def test_a_moved_slider_taken_back_gives_the_same_answer_object(panel):
    first = panel.state.answer
    panel.sliders["goal"].value = 0
    panel.sliders["goal"].value = 50
    assert panel.state.answer is first


# --- the page ---------------------------------------------------------------------------------------------------------


KINDS = {
    "week": {"experience": "advanced", "days": 5, "limit_low_back": True},
    "clash": {"equipment": ()},
    "referral": {"health": ("numbness",)},
}


def answer_of(kind):
    """A week, a clash or a referral."""
    return plan_week(Client(sm.Lifter.average("women"), **KINDS[kind]))


class Strict(HTMLParser):
    """Every tag that opens closes, in order; nothing is fetched and nothing runs."""

    def __init__(self):
        super().__init__()
        self.open = []

    def handle_starttag(self, tag, attributes):
        assert tag not in ("script", "link", "img") and not {"src", "href"} & {name for name, _ in attributes}
        if tag != "meta":
            self.open.append(tag)

    def handle_endtag(self, tag):
        assert self.open.pop() == tag


@pytest.mark.parametrize("kind", KINDS)
def test_a_page_is_whole_and_stands_alone(kind):
    answer = answer_of(kind)
    assert type(answer).__name__ == {"week": "Plan"}.get(kind, kind.capitalize())
    page, reader = page_html(answer), Strict()
    reader.feed(page)
    assert reader.open == [] and page.startswith("<!doctype html>") and "licensed clinician" in page
    for line in getattr(answer, "lines", ()):
        assert line in unescape(page)
    pdf = page_pdf(answer)
    assert pdf.startswith(b"%PDF") and pdf.count(b"/Type /Page ") == 1 and pdf == page_pdf(answer)


def test_the_csv_page_has_a_line_for_every_row():
    plan = answer_of("week")
    head, *lines = csv.reader(io.StringIO(page_csv(plan)))
    assert tuple(head) == CSV_HEADS and len(lines) == len(plan.rows)
    for line, row in zip(lines, plan.rows, strict=True):
        assert line[:2] == [str(row.day), row.name] and line[-1] == row.reason
        assert line[2] == "" if row.pull.hands == 1 else float(line[2]) == pytest.approx(row.grip_cm, abs=0.05)


@pytest.mark.parametrize("experience", EXPERIENCE)
def test_every_week_fits_on_its_page(experience):
    lifter = sm.Lifter.average("women")
    for days in (2, 4, 6):
        for goal in (0.0, 0.5, 1.0):
            plan = plan_week(Client(lifter, experience, days, goal, limit_low_back=True, own_weight_repetitions=15))
            figure = page_figure(plan)
            renderer = FigureCanvasAgg(figure).get_renderer()
            boxes = [text.get_window_extent(renderer) for text in figure.texts]
            assert min(box.y0 for box in boxes) > 0.02 * figure.bbox.y1
            assert max(box.x1 for box in boxes) < 0.98 * figure.bbox.x1


def test_the_numbers_table_has_a_row_for_every_candidate(panel):
    head, *rows = csv.reader(io.StringIO(panel.content("csv").decode()))
    assert len(rows) == 20 and np.isfinite(np.array(rows, float)).all()
    planned = sum(float(row[head.index("sets in this week")]) for row in rows)
    assert planned == sum(row.sets for row in panel.state.answer.rows)
