"""Panels at the model: set a control, look at the artists, the words and the layers. No browser."""

import json
import sys
import threading
from html import unescape

import numpy as np
import pytest
from matplotlib.text import Text

import shoulder_model as sm
from shoulder_model.draw.look import SMALL, projector
from shoulder_model.inputs import UnknownName
from shoulder_model.panels import (
    EvidencePanel,
    GirdlePanel,
    GripPanel,
    Guess,
    LatPanel,
    MyLifterPanel,
    OneArmPanel,
    SessionPanel,
    TrunkPanel,
    WorkPanel,
    checked,
    folded,
)
from shoulder_model.panels.guess import Verdict, shuffled
from shoulder_model.panels.panel import Panel
from shoulder_model.panels.picture import Picture
from shoulder_model.panels.slider import Slider
from shoulder_model.panels.work import GROUPED, SINGLE
from shoulder_model.words import caution_words

from .mutations import PANELS, AskedPanel

IN_WORDS = [EvidencePanel, AskedPanel]  # their tables hold words too


@pytest.fixture(params=PANELS, ids=lambda panel: panel.__name__)
def panel(request):
    return request.param()


@pytest.fixture(params=PANELS, ids=lambda panel: panel.__name__)
def projected(request):
    with projector():
        return request.param()


def controls(panel):
    """Every slider of a panel, rep position included."""
    return [*panel.sliders.values(), *([panel.along] if hasattr(panel, "along") else [])]


def test_every_slider_moves_picture_and_words_to_both_ends_and_back(panel):
    for control in controls(panel):
        start, picture, words = control.value, panel.overlay, panel.words
        seen = set()
        for value in (control.min, control.max):
            control.value = value
            assert panel.picture.said["trouble"] == ""
            assert "nan" not in panel.overlay and "nan" not in panel.words
            seen.add((panel.overlay, panel.words))
        assert len(seen) == 2, control.description
        control.value = start
        assert (panel.overlay, panel.words) == (picture, words)


def test_the_words_of_the_picture_are_set_up_verdict_and_small_print(panel):
    said = panel.picture.said
    assert panel.words in unescape(panel.overlay)
    verdict, small = said["verdict"], said["small"]
    assert panel.words.endswith(f": {verdict} {small} {said['bands']}".rstrip()) and verdict and small


def test_a_step_looked_at_ahead_is_the_step_as_it_is_taken_and_leaves_all_as_it_was(panel):
    for control in controls(panel):
        before = panel.overlay, panel.picture.said, control.value, panel.content("json")
        value = control.value + control.step * (1 if control.value < control.max else -1)
        there = panel.ahead(control.description, value)
        assert (panel.overlay, panel.picture.said, control.value, panel.content("json")) == before
        assert there is not None, control.description
        panel.stage.moves()
        sent = []
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(panel.picture, "send", sent.append)
            control.value = value
        moves = {place: change for message in sent for place, change in message["moves"]}
        assert (moves, panel.picture.said) == (dict(there[0]), there[1])
        control.value = before[2]


def test_looking_ahead_of_what_the_model_refuses_gives_nothing():
    panel = GripPanel()
    assert panel.ahead("Grip", 1.55) is not None
    panel.measures["stature"].value = "no number"
    assert panel.ahead("Grip", 1.55) is None and "not a number" in panel.picture.said["trouble"]


def test_moves_and_looks_ahead_from_two_threads_leave_the_page_with_the_last_state(monkeypatch):
    panel, fresh, page = GripPanel(), GripPanel(), {}
    grip, along = panel.sliders["grip_ratio"], panel.along

    def receive(message):
        for place, changed in message["moves"] if message["kind"] != "ahead" else ():
            page.setdefault(place, {}).update(changed)

    def look():
        for k in range(60):
            panel.picture._answer({"kind": "ahead", "slider": "Along the rep", "value": 5.0 * (k % 20)})

    monkeypatch.setattr(panel.picture, "send", receive)
    panel.picture.show_all()
    looking, usual = threading.Thread(target=look), sys.getswitchinterval()
    sys.setswitchinterval(1e-5)
    try:
        looking.start()
        for k in range(60):
            grip.value, along.value = 0.3 + 0.05 * (k % 30), 5.0 * (k % 20)
        looking.join()
    finally:
        sys.setswitchinterval(usual)
    fresh.sliders["grip_ratio"].value, fresh.along.value = grip.value, along.value
    assert (grip.value, along.value, panel.words) == (0.3 + 0.05 * 29, 95.0, fresh.words)
    shown = [{name: value for name, value in page[place].items() if value is not None} for place in sorted(page)]
    assert shown == fresh.stage.attributes()


def test_keeping_one_shows_a_ghost_and_spells_out_the_difference(panel):
    plain = panel.picture.said["verdict"]
    panel.keep()
    before = panel.overlay
    control = controls(panel)[0]
    control.value = control.max
    told = panel.picture.said["verdict"]
    assert told == panel.compare(panel.state, panel.kept) != panel.verdict(panel.state)
    assert all(
        len(artist.get_xdata()) for ghost in panel.ghosts for artist in [getattr(ghost, "ghost", None)] if artist
    )
    assert panel.overlay != before
    panel.drop()
    assert panel.picture.said["verdict"] == panel.verdict(panel.state)
    control.value = control.start
    assert panel.picture.said["verdict"] == plain
    assert not any(len(ghost.ghost.get_xdata()) for ghost in panel.ghosts if hasattr(ghost, "ghost"))


def test_the_difference_is_the_difference_of_the_numbers():
    panel = GripPanel("front pulldown")
    panel.keep()
    was = panel.state.torque
    panel.sliders["grip_ratio"].value = 2.0
    more = panel.state.torque - was
    told = f"adduction up from {was[0]:.0f} to {panel.state.torque[0]:.0f}"
    assert panel.picture.said["verdict"].startswith(f"Wider by 21 cm: extension unchanged at {was[1]:.0f}, {told}, ")
    assert more[0] == pytest.approx(
        float(panel.state.rep.force) * 0.25 * panel.state.lifter.biacromial * np.cos(np.radians(15))
    )


def test_the_difference_names_what_was_changed():
    panel = GripPanel("front pulldown", sex="women")
    panel.keep()
    assert panel.picture.said["verdict"] == panel.verdict(panel.state)  # nothing differs yet
    panel.sex.value, panel.along.value = "men", 80
    panel.arm_weight.value = True
    assert panel.picture.said["verdict"].startswith(
        "Another lifter, 30 % later in the rep, with the arm's own weight: "
    )
    panel.sex.value, panel.along.value, panel.arm_weight.value = "women", 20, False
    panel.pull_choice.value = "pull-up"
    assert panel.picture.said["verdict"].startswith("Pull-up instead of front pulldown, 30 % earlier in the rep: ")


def test_saved_set_ups_reopen_to_the_same_picture(panel):
    control = controls(panel)[0]
    control.value = control.min
    saved = panel.content("json").decode()
    other = type(panel)()
    other.open_text(saved)
    assert other.picture.said["trouble"] == ""
    assert (other.words, other.overlay) == (panel.words, panel.overlay)
    assert other.content("json").decode() == saved


def test_a_set_up_brings_its_lifter_and_what_the_panel_has_no_slider_for():
    trunk = TrunkPanel("front pulldown", sex="women", stature=1.68, biacromial=0.372)
    trunk.sliders["trunk_lean"].value = 30
    trunk.sliders["touch_up"].value = -12
    grip = GripPanel("seated row close")
    grip.open_text(trunk.content("json").decode())
    assert grip.state.lifter.biacromial == pytest.approx(0.372)
    assert grip.state.pull == trunk.state.pull
    assert grip.pull_choice.value == "front pulldown" and grip.measures["stature"].value == "168"


def drawn(panel, monkeypatch):
    """Counts how often a panel computes and draws from now on."""
    calls, draw = [], panel.draw
    monkeypatch.setattr(panel, "draw", lambda state: calls.append(state) or draw(state))
    return calls


def test_opening_a_set_up_draws_once(panel, monkeypatch):
    saved = panel.content("json").decode()
    for control in controls(panel):
        control.value = control.min if control.value != control.min else control.max
    calls = drawn(panel, monkeypatch)
    panel.open_text(saved)
    assert len(calls) == 1


def test_quiet_lasts_until_the_outer_one_ends(monkeypatch):
    panel = GripPanel()
    calls = drawn(panel, monkeypatch)
    with panel.quiet():
        with panel.quiet():
            panel.along.value = 20
        panel.along.value = 30
        assert panel.is_quiet and not calls
    panel.along.value = 40
    assert len(calls) == 1 and not panel.is_quiet


@pytest.mark.parametrize("kind", [GripPanel, TrunkPanel, GirdlePanel, WorkPanel])
def test_no_sentence_and_no_picture_changes_a_pulls_name(kind):
    """Minus signs belong to numbers: "pull-up" keeps its hyphen, also in the difference to itself."""
    panel = kind()
    for name in sm.pulls:
        panel.pull_choice.value = name
        panel.keep()
        panel.along.value = 100 - panel.along.value
        said = [panel.words, panel.overlay, panel.picture.said["verdict"], panel.picture.said["verdict"]]
        assert name in panel.words.lower()
        assert not any(name.replace("-", "−") in text.lower() for text in said if "-" in name)
        panel.drop()


def test_the_lat_panel_calls_every_muscle_by_its_name_and_keeps_it_drawable_at_every_insertion():
    panel = LatPanel()
    for muscle in sm.muscles.shoulder_muscles():
        panel.muscle.value = muscle
        panel.keep()
        for deeper in (panel.sliders["deeper_mm"].min, panel.sliders["deeper_mm"].max):
            panel.sliders["plane_deg"].value = -20
            panel.sliders["deeper_mm"].value = deeper
            assert panel.words.lower().startswith(muscle) and panel.picture.said["verdict"].startswith(
                "Against the kept one"
            )
            assert "plane −20°" in panel.words and "-" not in panel.words
            assert np.isfinite(panel.views[0].path.get_data()).all() and np.abs(panel.state.now).max() < 150


def test_paths_from_all_three_bones_move_with_their_insertion():
    """Thorax, clavicle and scapula each have a path set."""
    panel = LatPanel()
    frames = {row["muscle"]: row["frame"] for row in sm.muscles.landmarks()}
    assert set(frames.values()) == {"t", "c", "s"}
    for frame in "tcs":
        panel.muscle.value = next(name for name, bone in frames.items() if bone == frame)
        panel.sliders["deeper_mm"].value = 0
        before = panel.state.now
        panel.sliders["deeper_mm"].value = 10
        assert panel.picture.said["trouble"] == "" and not np.allclose(panel.state.now, before)


def test_an_insertion_left_where_it_is_has_the_tables_moment_arms():
    panel, elevation = LatPanel(), np.radians(np.arange(0, 151, 5))
    for muscle in sm.muscles.shoulder_muscles():
        panel.muscle.value = muscle
        for column, axis in enumerate(("adduction", "extension", "horizontal_abduction", "internal_rotation")):
            arm = sm.moment_arm(muscle, elevation, 0.0 * elevation, axis)
            np.testing.assert_allclose(panel.state.arms[:, column], 1000 * arm, rtol=0, atol=1e-9)


def test_a_set_up_with_a_measure_that_has_no_box_moves_nothing():
    panel = GripPanel(sex="women")
    saved = json.loads(panel.content("json"))
    saved["lifter"] = {"sex": "men", "chest_depth": 0.25}
    panel.open_text(json.dumps(saved))
    assert (
        "chest_depth" in panel.picture.said["trouble"]
        and "is not known" in panel.picture.said["trouble"]
        and panel.sex.value == "women"
    )


def test_pictures_have_something_in_them(panel):
    svg, png = panel.content("svg"), panel.content("png")
    assert svg.startswith(b"<?xml") and svg.count(b"<path") + svg.count(b"<text") > 20
    assert png.startswith(b"\x89PNG")


@pytest.mark.parametrize("kind", [kind for kind in PANELS if kind not in IN_WORDS], ids=lambda kind: kind.__name__)
def test_tables_have_units_and_numbers(kind):
    rows = kind().content("csv").decode("utf-8-sig").strip().split("\n")
    assert len(rows) > (5 if kind is MyLifterPanel else 20) and any(
        unit in rows[0] for unit in ("[N m]", "[mm]", "[kg]")
    )
    assert np.isfinite(np.array([row.split(",") for row in rows[1:]], dtype=float)).all()


def test_the_saved_table_is_the_rep():
    panel = GripPanel("seated row wide")
    header, *rows = panel.content("csv").decode("utf-8-sig").strip().split("\n")
    column = header.split(",").index("extension torque [N m]")
    saved = [float(row.split(",")[column]) for row in rows]
    pull = sm.pulls["seated row wide"].change(girdle_travel=0.0)
    fresh = sm.rep(sm.Lifter.average("men"), pull, arm_weight=False).shoulder_torque.sel(axis="extension")
    np.testing.assert_allclose(saved, fresh, atol=5e-5)


def test_the_saved_table_says_where_the_blade_goes():
    panel = TrunkPanel("close-grip pulldown")
    panel.blade.value = "travels"
    header, *rows = panel.content("csv").decode("utf-8-sig").strip().split("\n")
    saved = dict(zip(header.split(","), np.array([row.split(",") for row in rows], dtype=float).T, strict=True))
    one = sm.rep(sm.Lifter.average("men"), sm.pulls["close-grip pulldown"], muscles=False)
    wanted = {
        "GH centre forward [cm]": 100 * one.gh_centre.sel(space="forward"),
        "GH centre up [cm]": 100 * one.gh_centre.sel(space="up"),
        "GH centre right [cm]": 100 * one.gh_centre.sel(space="right"),
        "girdle retraction [deg]": np.degrees(one.girdle_posture.sel(girdle_axis="retraction")),
        "girdle elevation [deg]": -np.degrees(one.girdle_posture.sel(girdle_axis="depression")),
        "elbow turned past the ribs [deg]": np.degrees(one.elbow_past_ribs),
        "w [cm]": 100 * one.hand_offset,
        "a [cm]": 100 * one.line_offset,
    }
    for name, values in wanted.items():
        np.testing.assert_allclose(saved[name], values, atol=5e-5, err_msg=name)
    for name in (
        "GH centre up [cm]",
        "girdle retraction [deg]",
        "girdle elevation [deg]",
        "elbow turned past the ribs [deg]",
    ):
        assert np.ptp(saved[name]) > 1, name


@pytest.mark.parametrize(
    ("spoil", "says"),
    [
        (lambda p: setattr(p.load, "value", "-5"), "load_kg = -5 kg is outside"),
        (lambda p: setattr(p.load, "value", "heavy"), "is not a number; type digits or leave it blank"),
        (lambda p: setattr(p.measures["biacromial"], "value", "372"), "biacromial = 372.0 cm is outside"),
        (lambda p: setattr(p.measures["stature"], "value", "90"), "stature = 90.0 cm is outside"),
        (lambda p: p.open_text("no set-up"), "was not saved by these panels"),
        (lambda p: p.open_text('{"kind": "recipe", "version": 1, "lifter": {}, "pull": {}, "view": {}}'), "this is a"),
        (lambda p: p.door.open_path("/nowhere/set-up.json"), "/nowhere/set-up.json: there is no such file"),
    ],
)
def test_wrong_input_is_one_line_and_the_last_good_picture_stays(spoil, says):
    panel = GripPanel("front pulldown")
    picture, words = panel.overlay, panel.picture.said["verdict"]
    spoil(panel)
    assert says in panel.picture.said["trouble"]
    assert (panel.overlay, panel.picture.said["verdict"]) == (picture, words)
    panel.load.value = "45"
    panel.measures["biacromial"].value = panel.measures["stature"].value = ""
    assert panel.picture.said["trouble"] == "" and "45 kg" in panel.words


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"pull": {"grip_ratio": 2.9}}, "grip_ratio = 2.9 is outside 0.3 to 2.2"),
        ({"pull": {"name": "front pull down"}}, "nearest: front pulldown"),
        ({"pull": {"trunk_lean": 20}}, "trunk_lean = 1145.9°"),
        ({"pull": {"extra": 1}}, "the pull has 'extra', which is not known"),
        ({"lifter": {"stature": -1}}, "stature = -100.0 cm"),
        ({"lifter": {"shoe": 44}}, "measure 'shoe' is not known"),
        ({"view": {"along": 7}}, "along = 7 is outside 0 to 1"),
        ({"version": 99}, "version 99"),
        ({"version": 1}, "version 1"),
        ({"pull": {"girdle_travel": 0.5}}, "girdle_travel = 0.5 is neither 0 nor 1"),
        ({"pull": {"girdle_travel": -1}}, "girdle_travel = -1 is outside 0 to 1.5"),
        ({"pull": {"girdle_travel": None}}, "girdle_travel is missing"),
    ],
)
def test_a_spoilt_set_up_moves_nothing(change, says):
    panel = GripPanel("front pulldown")
    content = json.loads(panel.content("json"))
    for part, values in change.items():
        content[part] = values if part == "version" else content[part] | values
    before = panel.content("json"), panel.overlay
    panel.open_text(json.dumps(content))
    assert says in panel.picture.said["trouble"]
    assert (panel.content("json"), panel.overlay) == before


def test_a_set_up_of_another_panel_is_refused():
    panel = OneArmPanel()
    panel.open_text(GripPanel().content("json").decode())
    assert "not a" in panel.picture.said["trouble"]
    values = json.loads(panel.content("json"))
    values["values"]["load_kg"] = 900
    panel.open_text(json.dumps(values))
    assert "load_kg = 900 is outside 0 to 30" in panel.picture.said["trouble"]


def test_a_path_opens_a_saved_set_up(tmp_path):
    panel = TrunkPanel("chin-up")
    (tmp_path / "mine.json").write_bytes(panel.content("json"))
    other = TrunkPanel("one-arm row")
    other.door.open_path(f"file://{tmp_path}/mine.json")
    assert other.words == panel.words


def test_another_pull_brings_its_own_defaults():
    panel = GripPanel("front pulldown")
    panel.pull_choice.value = "pull-up"
    assert panel.load.value == "" and "86 kg" in panel.words
    assert panel.sliders["grip_ratio"].value == 1.5
    panel.pull_choice.value = "seated row close"
    assert panel.sliders["grip_ratio"].value == pytest.approx(0.3)
    assert panel.state.pull == sm.pulls["seated row close"].change(girdle_travel=0.0)


PULL_PANELS = {GripPanel: "held", TrunkPanel: "held", GirdlePanel: "travels", WorkPanel: "travels"}


@pytest.mark.parametrize(("kind", "start"), PULL_PANELS.items(), ids=lambda value: getattr(value, "__name__", value))
def test_the_blade_is_held_or_travels_and_stays_so_when_another_pull_is_chosen(kind, start):
    panel = kind("front pulldown")
    assert panel.blade.value == start and panel.state.pull.girdle_travel == {"held": 0, "travels": 1}[start]
    other = next(words for words in panel.blade.options if words != start)
    for name in ("seated row wide", "pull-up"):
        panel.pull_choice.value = name
        assert panel.blade.value == start and panel.state.rep.gh_centre.values.any() == (start == "travels")
    panel.blade.value = other
    panel.pull_choice.value = "seated row wide"
    assert panel.blade.value == other and panel.state.rep.gh_centre.values.any() == (other == "travels")
    saved, fresh = panel.content("json").decode(), kind()
    fresh.open_text(saved)
    assert fresh.blade.value == other and (fresh.words, fresh.overlay) == (panel.words, panel.overlay)


def test_a_travel_that_no_panel_has_moves_nothing_in_any_of_them():
    for kind in PULL_PANELS:
        panel = kind("front pulldown")
        content = json.loads(panel.content("json"))
        content["pull"] |= {"girdle_travel": 0.5, "grip_ratio": 2.0}
        content["lifter"] = {"sex": "women", "stature": 1.7}
        before = panel.content("json"), panel.overlay
        panel.open_text(json.dumps(content))
        assert "girdle_travel = 0.5 is neither 0 nor 1" in panel.picture.said["trouble"]
        assert (panel.content("json"), panel.overlay) == before and panel.sex.value == "men"


@pytest.mark.parametrize("kind", [GripPanel, TrunkPanel, GirdlePanel])
def test_the_curves_are_a_fresh_sweep_after_every_control(kind):
    """They are kept for a while: every control but the swept one and the place in the rep makes others."""
    panel = kind("seated row wide")
    controls = [(panel.load, "55"), (panel.blade, "travels" if panel.blade.value == "held" else "held")]
    controls += [(panel.arm_weight, not panel.arm_weight.value), (panel.sex, "women"), (panel.along, 80)]
    controls += [(slider, slider.value - slider.step) for slider in panel.sliders.values()]
    for control, value in controls:
        control.value = value
        state, point = panel.state, round(panel.state.along * 20)
        swept = {panel.field: panel.x_values[::4] / panel.per_si}
        shown = {"points": 21, "arm_weight": state.arm_weight, "muscles": False}
        fresh = sm.sweep(state.lifter, state.pull, **shown, **swept)[panel.quantity].values[:, point]
        curves = np.array([curve.get_ydata() for _, _, _, curve, _, _ in panel.curves.parts]).T
        np.testing.assert_allclose(curves[::4], fresh, atol=1e-9, err_msg=str(value))


def test_the_girdle_panel_says_where_the_shoulder_stands_and_how_far_the_blade_carries_the_bar():
    panel = GirdlePanel("seated row wide")
    for along in (0, 100):
        panel.along.value = along
        forward = 100 * float(panel.state.rep.gh_centre.sel(space="forward")[panel.state.point])
        assert f"stands {abs(forward):.0f} cm {'forward' if forward > 0 else 'back'} from rest" in panel.words
    way = sm.work_done(panel.state.lifter, panel.state.pull).way
    says = (
        f"the blade carries the bar {100 * float(way.sel(joint='girdle')):.0f} of its {100 * float(way.sum()):.0f} cm"
    )
    assert says in panel.words
    panel.load.value = "0"
    assert panel.picture.said["trouble"] == "" and says in panel.words  # the load does not matter
    panel.blade.value = "held"
    assert "carries the bar nowhere" in panel.words


def test_every_girdle_muscle_has_a_bar():
    panel = GirdlePanel()
    labels = [label.get_text() for label in panel.bars.axes.get_yticklabels()]
    called = {" ".join(reversed(name.split())) if "trapezius" in name else name for name in sm.muscles.girdle_muscles()}
    assert called <= set(labels) and len(labels) == len(panel.bars.bars) / 2


def test_every_pull_shows_in_every_pull_panel():
    for make in (GripPanel, TrunkPanel):
        panel = make()
        for name in sm.pulls:
            panel.pull_choice.value = name
            assert panel.picture.said["trouble"] == "" and panel.words.lower().startswith(name)


def test_the_save_buttons_hand_over_a_download(monkeypatch):
    panel, sent = GripPanel(), []
    monkeypatch.setattr(panel.door, "send", lambda content, buffers=None: sent.append((content, buffers)))
    for kind in ("svg", "png", "csv", "json"):
        panel.save(kind)
    assert [content["name"] for content, _ in sent] == [f"grip-panel.{kind}" for kind in ("svg", "png", "csv", "json")]
    assert all(buffers[0] for _, buffers in sent)


def test_a_guess_is_taken_before_the_answer_shows():
    guess = Guess("Which?", "the same", "Because.", choices=["more", "the same"])
    assert guess.verdict.value == ""
    guess.judge()
    assert "Pick one first" in guess.verdict.value and "Because" not in guess.verdict.value
    guess.guess.value = "more"
    guess.judge()
    assert "Not quite: The same. Because." in guess.verdict.value
    guess.guess.value = "the same"
    guess.judge()
    assert "Yes: The same." in guess.verdict.value


def test_a_number_counts_as_right_when_close():
    guess = Guess("How many?", 25.5, "F times a.", unit="N m", close=0.1)
    for value, verdict in (("27", "Yes"), ("30,0", "Not quite"), ("25,6 ", "Yes")):
        guess.guess.value = value
        guess.judge()
        assert f"{verdict}: 25.5 N m. F times a." in guess.verdict.value


def test_an_answer_outside_the_choices_is_refused():
    with pytest.raises(ValueError, match="answer 'less' is not among the choices"):
        Guess("Which?", "less", "", choices=["more", "the same"])


def test_an_untouched_box_is_no_guess_and_an_answer_of_nothing_needs_a_margin():
    guess = Guess("How much more?", 0.0, "It stays.", unit="N m", within=0.5)
    for typed in ("", "  ", "much"):
        guess.guess.value = typed
        guess.judge()
        assert "Type a number first" in guess.verdict.value and "It stays" not in guess.verdict.value
    guess.guess.value = "−0,3"
    guess.judge()
    assert "Yes: 0 N m. It stays." in guess.verdict.value
    with pytest.raises(ValueError, match="an answer of 0 needs within"):
        Guess("How much more?", 0.0, "")


@pytest.mark.parametrize("commit", ["judge", "show"])
def test_panel_and_answers_wait_for_the_guess(commit, monkeypatch):
    panel = GripPanel()
    guess, sent = Guess("Which?", "the same", "Because.", choices=["more", "the same"], then=panel), []
    monkeypatch.setattr(guess.verdict, "send", sent.append)
    assert guess.then.layout.display == "none" and panel in guess.then.children
    guess.judge()  # nothing picked
    assert guess.then.layout.display == "none" and not sent
    guess.guess.value = "more"
    getattr(guess, commit)()
    assert guess.then.layout.display == "flex" and sent == [{"kind": "open"}]
    assert "The same. Because." in guess.verdict.value


def test_the_place_of_the_right_choice_tells_nothing():
    choices = ["first", "second", "third", "fourth"]
    places = [shuffled(f"Question {number}?", choices).index("fourth") for number in range(200)]
    counts = np.bincount(places, minlength=4)
    assert counts.sum() == 200 and counts.min() > 25  # 50 each on average; fewer than 26 has odds below 1 in 20,000
    assert Guess("Which?", "first", "", choices=choices).guess.options == tuple(shuffled("Which?", choices))


def test_a_check_is_a_line_or_a_loud_failure(capsys):
    checked("147.1 N × 9.3 cm", 13.71, 13.7, 0.05, "N m")
    checked("both arms are level", np.array([True, True]))
    checked("half of nothing less one", -1.0, -1.0, 0.0)
    assert capsys.readouterr().out.splitlines() == [
        "✓ checked by hand: 147.1 N × 9.3 cm = 13.7 N m",
        "✓ checked: both arms are level",
        "✓ checked by hand: half of nothing less one = −1",
    ]
    for wrong in ((14.0, 13.7, 0.05), ([13.7, 14.0], [13.7, 13.7], 0.05), (np.nan, 13.7, 0.05), (False,)):
        with pytest.raises(AssertionError, match="✗"):
            checked("by hand", *wrong)
    assert capsys.readouterr().out == ""


def test_a_slider_stays_between_its_ends_and_says_the_grip_in_centimetres():
    panel = GripPanel(sex="women", biacromial=0.372)
    grip = panel.sliders["grip_ratio"]
    assert grip.also == [pytest.approx(37.2), "cm apart"] and grip.stops["1.5 ×"] == 1.5 and grip.main
    for value, shown in ((5.0, 2.2), (-1.0, 0.3), (1.0, 1.0)):
        grip.value = value
        assert grip.value == shown
    panel.measures["biacromial"].value = "40"
    assert grip.also[0] == pytest.approx(40)
    panel.pull_choice.value = "seated row close"
    assert grip.start == grip.value == pytest.approx(0.3)


@pytest.mark.parametrize("kind", PANELS, ids=lambda kind: kind.__name__)
def test_a_verdict_is_two_lines_at_most(kind):
    """Two lines in the notebook hold 2 x 125 letters; a difference from any other pull too."""
    panel = kind()
    seen = [panel.picture.said["verdict"]]
    if hasattr(panel, "pull_choice"):
        panel.keep()
        for name in panel.pull_choice.options:
            panel.pull_choice.value = name
            seen += [panel.verdict(panel.state), panel.picture.said["verdict"]]
    limit = 320 if kind is AskedPanel else 250
    assert max(map(len, seen)) <= limit, max(seen, key=len)
    assert not any("± 0 " in words or "nan" in words for words in seen)


def test_a_page_that_opens_gets_everything_and_a_move_only_what_changed(monkeypatch):
    panel, sent = GripPanel(), []
    monkeypatch.setattr(panel.picture, "send", sent.append)
    panel.picture.show_all()
    whole = sent.pop()
    assert whole["kind"] == "all" and whole["still"] == "grip_panel" and whole["frame"].startswith("<svg")
    assert len(whole["moves"]) == len(whole["layer"])
    panel.sliders["grip_ratio"].value = 1.0
    (move,) = sent
    assert move["kind"] == "move" and 0 < len(move["moves"]) < len(whole["moves"])
    assert move["said"]["verdict"] == panel.picture.said["verdict"] and move["said"]["words"] == panel.words
    json.dumps([whole, move])


@pytest.mark.parametrize(
    "kind", [*PANELS[:-1], SessionPanel, Guess, Picture, Slider, Verdict], ids=lambda kind: kind.__name__
)
def test_a_panel_hides_no_method_of_the_widget_it_is(kind):
    base = next(part for part in kind.__mro__ if not part.__module__.startswith("shoulder_model"))

    class Nothing(base):
        """What every subclass gets from the machinery alone."""

    class Plain:
        """What every class has."""

    ours = {name for part in kind.__mro__ if part.__module__.startswith("shoulder_model") for name in vars(part)}
    assert not (
        ours
        - set(vars(Nothing))
        - set(vars(Plain))
        - {"__init__", "__annotations__", "_esm", "_css", "_repr_mimebundle_"}
    ) & set(dir(base))


def test_a_curve_has_a_gap_where_the_arm_does_not_reach():
    panel = GripPanel("front pulldown")
    content = json.loads(panel.content("json"))
    content["pull"] |= {"touch_forward": 0.5, "touch_up": -0.3, "grip_ratio": 1.0}
    panel.open_text(json.dumps(content))
    assert panel.picture.said["trouble"] == ""
    curve = panel.curves.parts[1][3].get_ydata()
    assert np.isnan(curve).any() and np.isfinite(curve).any()
    assert "nan" not in panel.overlay


def test_what_is_printed_inside_folded_stays_under_a_line_to_click(monkeypatch, capsys):
    shown = []
    monkeypatch.setattr(sys.modules["shoulder_model.panels.folded"], "display", shown.append)
    with folded("Answer"):
        print("25.5 N m < 30")
    assert capsys.readouterr().out == ""
    assert shown[0].data == "<details><summary>Answer</summary><pre>25.5 N m &lt; 30</pre></details>"


def test_every_muscle_is_in_one_bar_and_has_one_of_its_own_on_demand():
    for bars in (GROUPED, SINGLE):
        assert sorted(name for bar in bars.values() for name in bar) == sorted(sm.muscles.MUSCLES)
    panel = WorkPanel()
    for ticked, bars in ((True, SINGLE), (False, GROUPED)):
        panel.every_muscle.value = ticked
        names = [name.get_text() for name in panel.bars.names if name.get_visible()]
        assert names == list(bars) == list(panel.state.bars)
        assert sum(bar.get_visible() for bar in panel.bars.bars) == len(bars)


def test_bars_show_the_chosen_balance_and_a_mark_the_other():
    panel, man = WorkPanel("seated row close"), sm.Lifter.average("men")
    size = sm.muscles.cross_sections()[0]
    for chosen, other in (("plane", "all axes"), ("all axes", "plane")):
        panel.balance.value = chosen
        shown = 100 * np.array([*panel.state.bars.values()]), panel.bars.other.get_xdata()[::3]
        np.testing.assert_allclose([bar.get_width() for bar in panel.bars.bars if bar.get_visible()], shown[0])
        for effort, balance in zip(shown, (chosen, other), strict=True):
            one = sm.rep(man, panel.state.pull, balance=balance).isel(point=panel.state.point)
            for value, members in zip(effort, GROUPED.values(), strict=True):
                which = [sm.muscles.MUSCLES.index(name) for name in members]
                assert value == pytest.approx(100 * np.average(one.activation[which], weights=size[which]), abs=1e-6)
        assert np.abs(shown[0] - shown[1]).max() > 5
        assert {"plane": "in the plane", "all axes": "about all axes"}[other] in panel.bars.other_words.get_text()


def test_a_load_beyond_the_largest_is_one_line_and_grey_bars_as_they_stand_at_the_limit():
    panel = WorkPanel()
    assert panel.state.held and "cannot be held" not in panel.words and "Working hardest" in panel.words
    coloured = {bar.get_facecolor() for bar in panel.bars.bars if bar.get_visible()}
    panel.sliders["load_kg"].value = 200
    limit = panel.state.largest[panel.state.point]
    assert f"200 kg cannot be held here: this posture holds up to {limit:.0f} kg." in panel.words
    assert "Working" not in panel.words
    shown = {bar.get_facecolor() for bar in panel.bars.bars if bar.get_visible()}
    assert not panel.state.held and not coloured & shown
    at_limit = sm.rep(
        panel.state.lifter, panel.state.pull.change(load_kg=0.999 * panel.state.largest[panel.state.point])
    )
    np.testing.assert_allclose(
        panel.state.rep.activation[panel.state.point], at_limit.activation[panel.state.point], atol=0.06
    )


def test_the_whole_rep_comes_with_its_span_and_what_opens_it_most():
    panel = WorkPanel("seated row wide")
    for control, value in ((panel.balance, "all axes"), (panel.known_kg, "70"), (panel.known_repetitions, "6")):
        control.value = value
        state = panel.state
        span = sm.load_span(state.lifter, state.pull, balance=state.options["balance"], strength=state.strength)
        assert f"The whole rep holds up to {span.value:.0f} kg ({span.low:.0f} to {span.high:.0f})" in panel.words
        widest = max(span.by, key=lambda name: span.by[name][1] - span.by[name][0])
        opens = {
            "balance": "the balance",
            "counted part": "the start of the rep",
            "strength": "how strong the lifter is",
        }
        (said,) = [name for name, words in opens.items() if words in panel.words.partition("comes from")[2]]
        assert said == widest


def test_where_not_even_the_arm_is_held_the_sentence_says_so_and_no_number_is_missing():
    panel, seen = WorkPanel(), set()
    panel.known_kg.value = "6"  # next to no strength
    for name in ("bent-over row", "one-arm row", "straight-arm pulldown", "chin-up"):
        panel.pull_choice.value = name
        for along in (0, 50, 100):
            panel.along.value = along
            here, whole = panel.state.largest[panel.state.point], panel.state.span.value
            assert panel.picture.said["trouble"] == ""
            for said in (panel.words, panel.overlay, panel.picture.said["verdict"]):
                assert "nan" not in said.lower()
            assert ("Here the model cannot hold up even the arm." in panel.words) == bool(np.isnan(here))
            assert ("The whole rep cannot be held" in panel.words) == bool(np.isnan(whole))
            assert panel.state.held == bool(here >= panel.state.pull.mass_on_bar(panel.state.lifter))
            seen.add((bool(np.isnan(here)), bool(np.isnan(whole))))
            panel.keep()
    assert {here for here, _ in seen} == {whole for _, whole in seen} == {False, True}


def test_hand_hold_balance_and_blade_change_who_does_how_much():
    panel = WorkPanel("front pulldown")
    before = [*panel.state.bars.values()]
    for control, value in (
        (panel.turn, "supinated"),
        (panel.hands, "separate handles"),
        (panel.balance, "all axes"),
        (panel.blade, "held"),
    ):
        was = control.value
        control.value = value
        assert panel.picture.said["trouble"] == "" and not np.allclose([*panel.state.bars.values()], before), value
        control.value = was
    np.testing.assert_allclose([*panel.state.bars.values()], before)


def test_what_the_hands_hold_is_the_pulls():
    panel = WorkPanel("front pulldown")
    assert panel.hands.value == "a bar" and panel.state.rep.side_force.values.any()
    panel.hands.value = "separate handles"
    assert panel.state.pull.hold == "handles" and not panel.state.rep.side_force.values.any()
    other = WorkPanel("seated row wide")
    other.open_text(panel.content("json").decode())
    assert other.hands.value == "separate handles" and other.words == panel.words
    panel.pull_choice.value = "seated row wide"
    assert panel.hands.value == "a bar"


def test_a_known_lift_narrows_the_band_and_a_set_up_brings_it_back():
    panel = WorkPanel("seated row wide")
    wide = panel.state.strength.high / panel.state.strength.low
    panel.known_kg.value, panel.known_repetitions.value = "70", "6"
    assert panel.state.strength.high / panel.state.strength.low < wide and "70 kg for 6 repetitions" in panel.words
    other = WorkPanel()
    other.open_text(panel.content("json").decode())
    assert other.words == panel.words
    panel.known_repetitions.value = "40"
    assert "repetitions = 40" in panel.picture.said["trouble"]
    panel.known_repetitions.value, panel.known_kg.value = "6", "-3"
    assert "known front pulldown = -3 kg is outside 1 kg to 500 kg" in panel.picture.said["trouble"]


def test_the_work_panel_names_the_same_groups_in_picture_and_sentence():
    panel = WorkPanel()
    for along in (0, 40, 90):
        panel.along.value = along
        for view in (panel.back, panel.side):
            named = [words.get_text() for words in view.bands.words]
            assert all(f"{name} " in panel.picture.said["verdict"] for name in named if name) and any(named)


def test_on_a_page_the_small_print_is_whole(panel):
    assert panel.picture.said["small"] == panel.small(panel.state)


def test_on_a_projector_the_small_print_is_brief(projected):
    state = projected.state
    assert projected.picture.said["small"] == projected.brief(state) != projected.small(state)
    assert len(projected.brief(state)) < len(projected.small(state))
    assert Panel.brief(projected, state) == projected.small(state)


@pytest.mark.parametrize("kind", [GripPanel, TrunkPanel, GirdlePanel, WorkPanel])
def test_brief_small_print_says_how_sure_and_what_to_mind(kind):
    with projector():
        panel = kind()
    for name, pull in sm.pulls.items():
        panel.pull_choice.value = name
        small = panel.picture.said["small"]
        sure = "no load to try" if kind is WorkPanel else f"about ± {panel.state.margin.max():.0f} N m."
        assert sure in small and small.endswith(caution_words(pull)) and len(small) < 240


def test_large_letters_on_a_projector(projected):
    assert projected.stage.width == pytest.approx(7 * 72)
    written = [text for text in projected.stage.figure.findobj(Text) if text.get_text() and text.get_visible()]
    assert len(written) > 5 and min(text.get_fontsize() for text in written) >= SMALL
    for ghost in projected.ghosts:
        ghost.keep()
    before = projected.overlay
    main = next(slider for slider in projected.picture.sliders.values() if slider.main)
    main.value = main.max
    assert projected.overlay != before and projected.picture.said["trouble"] == ""


def test_further_sliders_are_shown_in_a_lecture_by_their_words(panel):
    names = [slider.description for slider in panel.picture.sliders.values()]
    with pytest.raises(UnknownName, match="slider"):
        panel.show_sliders([names[0], "Weather"])
    second = names[min(1, len(names) - 1)]  # one panel has the main one only
    panel.show_sliders([f"{second} [some unit]"])
    marked = [slider.description for slider in panel.picture.sliders.values() if "in-lecture" in slider._dom_classes]
    assert marked == [second]
