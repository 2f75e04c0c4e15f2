"""The planner's panel: health first, a week, several clients, a log that comes back; what is shown, saved and refused."""

import csv
import io
import json
from html import unescape

import numpy as np
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from pypdf import PdfReader

import shoulder_model as sm
from shoulder_model.inputs import InputError
from shoulder_model.panels import SessionPanel
from shoulder_model.panels.session import PAGES
from shoulder_model.training.log import blank_log
from shoulder_model.week import NoWeek, Plan, all_no, questions
from shoulder_model.week.rules import EXPERIENCE
from shoulder_model.week.wish_names import WISHES


@pytest.fixture
def panel():
    return SessionPanel(health=all_no())


def blocks(panel):
    """Corner and size of every visible block of the picture."""
    return [block.get_bbox().bounds for block in panel.view.blocks if block.get_visible()]


def shown(panel):
    """Every visible text of the week view."""
    view = panel.view
    texts = [*view.asked, *view.heads, *view.said, *(line for lines in view.lines for line in lines)]
    return [text.get_text() for text in texts if text.get_visible()]


def nothing_left(panel, names):
    """No week in picture, words and table, and nothing can be saved but the clients."""
    assert "no-week" in panel._dom_classes
    told = " ".join([*panel.picture.said.values(), panel.week_table.value])
    assert not any(name in told for name in names)
    for kind in (*PAGES, "svg", "png", "csv"):
        with pytest.raises(InputError, match="there is none to save"):
            panel.content(kind)
    assert panel.keep_button.disabled


def test_the_questions_come_first_and_the_week_after_the_last_answer():
    panel = SessionPanel()
    assert panel.state.answer.kind == "ask" and panel.planner[0].layout.display == "none"
    nothing_left(panel, ["pulldown"])
    for one in questions():
        assert isinstance(panel.state.answer, NoWeek)
        panel.health.boxes[one.name].value = "no"
    assert isinstance(panel.state.answer, Plan) and panel.planner[0].layout.display is None
    assert "no-week" not in panel._dom_classes and panel.health.asking.layout.display == "none"
    panel.health.again.click()
    assert panel.health.asking.layout.display == "flex" and isinstance(panel.state.answer, Plan)


@pytest.mark.parametrize("name", [one.name for one in questions() if one.name != "low back"])
def test_a_yes_takes_the_week_away(panel, name):
    before = {row.name for row in panel.state.answer.rows}
    panel.health.boxes[name].value = "yes"
    assert panel.state.answer.kind in ("referral", "today") and "licensed" not in panel.picture.said["trouble"]
    assert "clinician" in panel.picture.said["verdict"] and panel.planner[0].layout.display == "none"
    nothing_left(panel, before)
    panel.health.boxes[name].value = "no"
    assert {row.name for row in panel.state.answer.rows} == before


def test_cleared_is_written_down_before_there_is_a_week(panel):
    before = {row.name for row in panel.state.answer.rows}
    panel.health.boxes["surgery"].value = "cleared"
    assert "who cleared" in panel.picture.said["trouble"] and panel.health.cleared.layout.display == "flex"
    nothing_left(panel, before)
    panel.health.cleared.value = "surgeon: nothing overhead"
    panel.health.limits["nothing overhead"].value = True
    assert isinstance(panel.state.answer, Plan) and not any(row.candidate.overhead for row in panel.state.answer.rows)
    assert "surgeon: nothing overhead" in panel.health.told.value
    assert "surgeon: nothing overhead" in panel.content("html").decode()


@pytest.mark.parametrize(("typed", "metres"), [("1,75", None), ("175 cm", 1.75), ("175", 1.75)])
def test_measures_are_read_as_people_write_them(panel, typed, metres):
    panel.measures["stature"].value = typed
    if metres is None:
        assert "perhaps 175" in panel.picture.said["trouble"]
    else:
        assert panel.state.client.lifter.stature == metres


@pytest.mark.parametrize("wrong", ["17", "tall", "1e400"])
def test_a_wrong_entry_takes_the_week_away_until_it_is_mended(panel, wrong):
    before = panel.picture.said, panel.overlay
    names = {row.name for row in panel.state.answer.rows}
    panel.measures["stature"].value = wrong
    assert "stature" in panel.picture.said["trouble"]
    nothing_left(panel, names)
    panel.sliders["goal"].value = 100
    assert "stature" in panel.picture.said["trouble"] and panel.state is None
    panel.sliders["goal"].value, panel.measures["stature"].value = 50, ""
    assert (panel.picture.said, panel.overlay) == before


def test_saving_without_a_week_says_so(panel):
    panel.health.boxes["arm"].value = "yes"
    for kind in PAGES:
        panel.save(kind)
        assert "there is none to save" in panel.picture.said["trouble"]


def test_the_picture_is_the_week(panel):
    plan = panel.state.answer
    assert len(blocks(panel)) == len(plan.rows)
    texts = " ".join(shown(panel))
    for row in plan.rows:
        assert f"{row.sets} × {row.repetitions[0]}–{row.repetitions[1]}" in texts and row.weekday in texts
    widths = dict(zip(panel.bars.names, (bar.get_width() for bar in panel.bars.bars), strict=True))
    assert widths == plan.sets | plan.directions


@pytest.mark.parametrize("days", range(1, 7))
@pytest.mark.parametrize("experience", EXPERIENCE)
def test_blocks_stay_apart_and_inside_their_letters_too(experience, days):
    panel = SessionPanel(experience=experience, health=all_no())
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


def test_the_table_has_every_pull_and_the_cautions_first(panel):
    table = unescape(panel.week_table.value)
    for row in panel.state.answer.rows:
        assert row.name in table and row.candidate.cue in table
    assert table.index("not for diagnosis") < table.index("<table") and "A start to test" in table


def test_nothing_there_says_so_and_leaves_the_controls(panel):
    for box in panel.there.values():
        box.value = False
    assert panel.state.answer.kind == "nothing" and "towel" in panel.picture.said["verdict"]
    assert panel.planner[0].layout.display is None and panel.picture.said["trouble"] == ""
    nothing_left(panel, ["chin-up"])


def test_the_difference_names_pulls_and_sets_and_both_weeks_go_on_one_page(panel):
    panel.keep()
    was = panel.state.answer
    panel.sliders["goal"].value = 100
    now = panel.state.answer
    more = now.sets["mid-back"] - was.sets["mid-back"]
    assert more > 0 and f"+{more:.1f} sets for the mid-back" in panel.picture.said["verdict"]
    page = unescape(panel.content("html").decode())
    for plan in (was, now):
        assert all(row.name in page for row in plan.rows)
    assert panel.content("pdf").startswith(b"%PDF")
    panel.health.boxes["arm"].value = "yes"
    assert "clinician" in panel.picture.said["verdict"]
    nothing_left(panel, {row.name for row in was.rows} | {row.name for row in now.rows})


def test_wishes_can_be_moved_and_given_up(panel):
    panel.sliders["days"].value, panel.experience.value = 6, "novice"
    before = panel.state.answer.days
    panel.wishes.ticks["two pulls a day"].value = False
    assert panel.state.answer.days > before and "two pulls a day" not in panel.state.client.wishes
    panel.wishes.ticks["two pulls a day"].value = True
    for place in range(len(WISHES) - 1, 0, -1):
        panel.wishes.move(place)
    assert panel.state.client.wishes[0] == "every day" and panel.state.answer.days == 6


def test_pulls_are_preferred_or_left_out(panel):
    choice = panel.choice
    choice.pull.value = "chin-up"
    prefer, leave_out, neither = choice.children[0].children[1:]
    prefer.click()
    assert panel.state.client.prefer == ("chin-up",)
    assert (
        any(row.candidate.family == "chin-up" for row in panel.state.answer.rows)
        and "Preferred: chin-up" in choice.told.value
    )
    leave_out.click()
    assert panel.state.client.prefer == () and panel.state.client.leave_out == ("chin-up",)
    neither.click()
    assert panel.state.client.leave_out == () and "None is preferred" in choice.told.value


def test_a_known_load_gives_a_first_load_on_the_equipments_steps(panel):
    known = panel.known
    add, clear = known.children[0].children[-2:]
    known.pull.value, known.load.value, known.count.value = "front pulldown at 1.5 ×", "42,5", "10"
    add.click()
    assert panel.state.client.known[0].load_kg == 42.5 and "42.5 kg for 10" in known.told.value
    assert "kg on the stack" in unescape(panel.week_table.value)
    panel.steps["pulldown"].value = "2.5"
    assert panel.state.client.steps == {"pulldown": 2.5}
    assert known.pull.options[0] == panel.state.answer.rows[0].name
    known.load.value = "300"
    add.click()
    assert "check it" in panel.picture.said["trouble"] and panel.state is None
    known.put((sm.week.Known("front pulldown at 1.5 ×", 42.5, 10),), ())
    panel.update()
    known.load.value, known.count.value = "42,5", "30"
    add.click()
    assert "12" in panel.picture.said["trouble"] and len(panel.state.client.known) == 1
    clear.click()
    assert panel.state.client.known == ()


def filled(panel, repetitions, pain=0):
    """The panel's blank log, filled in for two weeks."""
    head, *rows = csv.reader(io.StringIO(blank_log(panel.state.answer)))
    done = []
    for week in (1, 2):
        for row in rows:
            cells = dict(zip(head, row, strict=True))
            cells |= {
                "date": f"2031-03-{7 * week + int(cells['day']):02d}",
                "load [kg]": "20",
                "repetitions": str(repetitions),
            }
            done.append(list((cells | {"pain 0-10": str(pain), "comfort 0-10": "8"}).values()))
    store = io.StringIO()
    csv.writer(store, delimiter=";").writerows([head, *done])
    return store.getvalue()


def test_a_log_comes_back_and_makes_the_next_block(panel):
    before = panel.state.answer
    panel.log_return.take(filled(panel, 14))
    told = unescape(panel.log_return.told.value)
    assert all(row.name in told for row in before.rows) and "add" in told and not panel.log_return.next.disabled
    panel.log_return.make_next()
    assert isinstance(panel.state.answer, Plan) and panel.state.client.known
    assert panel.log_return.next.disabled and panel.log_return.told.value == ""


def test_pain_in_a_log_takes_the_week_away_at_once_until_somebody_has_cleared_it(panel):
    names = {row.name for row in panel.state.answer.rows}
    panel.log_return.take(filled(panel, 9, pain=3))
    assert panel.state.answer.kind == "referral" and "Pain was logged" in panel.picture.said["verdict"]
    assert not panel.health.is_done
    with pytest.raises(InputError, match="there is none to save"):
        panel.content("pdf")
    for box in panel.health.boxes.values():
        box.value = "no"
    assert panel.state.answer.kind == "referral" and "no-week" in panel._dom_classes
    panel.health.boxes["shoulder"].value = "cleared"
    panel.health.cleared.value = "physiotherapist: rows only"
    assert isinstance(panel.state.answer, Plan)
    assert not {row.candidate.family for row in panel.state.answer.rows} & set(panel.state.client.leave_out)
    assert names


@pytest.mark.parametrize("text", ["", "hello", "pull,repetitions\nnonsense,8\n", "=cmd()|x"])
def test_what_is_no_log_is_refused_in_a_line(panel, text):
    before = panel.overlay
    panel.log_return.take(text)
    assert panel.picture.said["trouble"] and "\n" not in panel.picture.said["trouble"] and panel.overlay == before
    assert panel.log_return.next.disabled


def test_several_clients_are_saved_and_come_back(panel):
    panel.client_name.value, panel.measures["stature"].value, panel.experience.value = "Ana <b>", "171", "advanced"
    first = panel.words
    panel.book.add()
    assert panel.state.answer.kind == "ask" and panel.client_name.value == ""
    for box in panel.health.boxes.values():
        box.value = "no"
    panel.client_name.value = "Boris"
    second = panel.words
    saved = panel.content("json").decode()
    other = SessionPanel()
    other.open_text(saved)
    assert other.picture.said["trouble"] == "" and other.words == second and other.content("json").decode() == saved
    other.book.who.value = 0
    assert other.words == first and other.measures["stature"].value == "171" and other.client_name.value == "Ana <b>"
    other.book.gone.click()
    assert other.client_name.value == "Ana <b>" and "again" in other.book.gone.description
    other.measures["stature"].value = "172"
    assert other.book.gone.description == "Remove", "a change in between asks twice again"
    other.book.gone.click()
    other.book.gone.click()
    assert other.client_name.value == "Boris" and len(other.book.records) == 1
    other.book.remove()
    other.book.remove()
    assert other.state.answer.kind == "ask"


@pytest.mark.parametrize(
    ("values", "says"),
    [
        ({"days": 9}, "days = 9 days a week is outside 1"),
        ({"measures": {"stature": 0.5}}, "stature = 50.0 cm is outside"),
        ({"experience": "expert"}, "experience 'expert' is not known"),
        ({"wide_grip": "false"}, "give true or false"),
    ],
)
def test_a_spoilt_file_moves_nothing(panel, values, says):
    content = json.loads(panel.content("json"))
    content["clients"][0] |= values
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


def test_the_page_is_made_for_the_paper_that_is_chosen(panel):
    sizes = []
    for paper in ("A4", "Letter"):
        panel.paper.value = paper
        assert f"size: {paper}" in panel.content("html").decode()
        sizes.append(PdfReader(io.BytesIO(panel.content("pdf"))).pages[0].mediabox)
    assert [round(float(one.height) / 72, 2) for one in sizes] == [11.69, 11.0]


def test_a_moved_slider_taken_back_gives_the_same_answer_object(panel):
    first = panel.state.answer
    panel.sliders["goal"].value = 0
    panel.sliders["goal"].value = 50
    assert panel.state.answer is first


def test_the_numbers_table_has_a_row_for_every_candidate(panel):
    head, *rows = csv.reader(io.StringIO(panel.content("csv").decode("utf-8-sig")))
    assert len(rows) == len(panel.state.answer.candidates) and np.isfinite(np.array(rows, float)).all()
    planned = sum(float(row[head.index("sets in this week")]) for row in rows)
    assert planned == sum(row.sets for row in panel.state.answer.rows)


def test_one_pull_up_is_no_pull_ups(panel):
    panel.sliders["own_weight_repetitions"].value = 1
    assert "1 pull-up in a row" in panel.words and "1 pull-ups" not in panel.words
