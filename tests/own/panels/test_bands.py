"""Bands of panels: worked out as by hand, there only for what is shown, gone with the next move."""

import json
import threading

import numpy as np
import pytest

import shoulder_model as sm
from shoulder_model.draw.look import projector
from shoulder_model.inputs import InputError
from shoulder_model.mechanics import raised_arm
from shoulder_model.muscles import moment_arms, shoulder_muscles, turned_scapula
from shoulder_model.panels import EvidencePanel, GirdlePanel, GripPanel, LatPanel, OneArmPanel, TrunkPanel, WorkPanel
from shoulder_model.panels.band_words import band_words
from shoulder_model.panels.bands import PEOPLE, SEED
from shoulder_model.panels.with_bands import WithBands
from shoulder_model.recorded.set_up import SetUp, fixed_words
from shoulder_model.repetition import GROUP_MUSCLES
from shoulder_model.spread import as_tabled, band_of, drawn_inputs, drawn_strength, spread_of

from .test_phone import faults

TORQUES = {GripPanel: "shoulder_torque", TrunkPanel: "shoulder_torque", GirdlePanel: "girdle_torque"}
BANDED = (*TORQUES, OneArmPanel, LatPanel, WorkPanel)
FEW = 30, 6  # people and draws
RUNA = {"stature": 1.68, "mass": 64.0}


@pytest.fixture(autouse=True)
def few(monkeypatch):
    """Fewer people and draws than on a page, as quick."""
    for kind, counts in ((WithBands, FEW), (WorkPanel, FEW), (LatPanel, (0, FEW[1])), (OneArmPanel, (FEW[0], 0))):
        monkeypatch.setattr(kind, "counts", counts)


def settled(panel):
    """A panel whose bands are there."""
    panel.settle(1e9)
    assert panel.bands.stand == "there"
    return panel


def bars(curves, kind):
    """Ends of the bars beside the values of ``curves``, (curve, 2); gaps where there are none."""
    ends = [pair[kind].get_ydata() for pair in curves.bands.bars]
    return np.array([end if len(end) else (np.nan, np.nan) for end in ends], dtype=float)


def as_sent(panel):
    """What the page is sent from now on."""
    sent = []
    panel.picture.send = sent.append
    panel.picture.show_all()
    return sent


@pytest.mark.parametrize("kind", TORQUES, ids=lambda kind: kind.__name__)
def test_bars_of_torques_are_the_spread_by_hand(kind):
    panel = settled(kind(sex="women", **RUNA))
    state = panel.state

    def torque(lifter, drawn):
        options = {"arm_weight": state.arm_weight, "muscles": False, "work": False}
        return sm.rep(lifter, drawn.pull(state.pull), **options)[TORQUES[kind]].values[..., 20, :]

    crowd = sm.draw_lifters(FEW[0], "women", SEED, **RUNA)
    spread = spread_of(torque, state.lifter, crowd, drawn_inputs(FEW[1], SEED))
    for place, band in enumerate((spread.people, spread.unknown)):
        drawn = bars(panel.curves, place)
        is_there = np.isfinite(drawn[:, 0])
        assert is_there.any()
        assert drawn[is_there] == pytest.approx(np.stack(band, axis=-1)[is_there])
        assert np.abs(np.stack(band, axis=-1)[~is_there]).max(initial=0) < 0.5


def test_efforts_and_loads_are_the_spread_by_hand_with_strength_drawn_too():
    panel = WorkPanel(sex="women", **RUNA)
    panel.sliders["load_kg"].value = 15
    people, draws = settled(panel).counts
    crowd, lifter = sm.draw_lifters(people, "women", SEED, **RUNA), panel.state.lifter
    more = drawn_strength(crowd, SEED).factor
    usual = sm.expected_strength(lifter)
    strength = type(usual)(more, more, more, usual.elbow, "")
    whole = sm.rep(crowd, panel.state.pull, strength=strength)
    low, high = band_of(whole.whole_rep_load_kg.values)
    assert f"Among women of these measures the whole rep holds {low:.0f} to {high:.0f} kg; " in panel.words
    assert bars(panel.curves, 0)[0] == pytest.approx(band_of(whole.largest_load_kg.values[:, 20]))
    loads, flexors = [], []
    for one in drawn_inputs(draws, SEED):
        found = sm.rep(lifter, one.pull(panel.state.pull), strength=one.strength(usual, "women"), **one.options)
        loads.append(float(found.whole_rep_load_kg))
        which = [list(found.muscle.values).index(name) for name in GROUP_MUSCLES["elbow flexors"]]
        flexors.append(np.average(found.activation.values[20, which], weights=one.body.cross_section[which]))
    low, high = band_of(loads)
    assert f"what nobody has measured leaves {low:.0f} to {high:.0f}, the smaller part." in panel.words
    ends = np.array(panel.bars.bands["not known"][1].get_xdata()).reshape(-1, 3)[:, :2]
    assert ends[[*panel.state.bars].index("elbow flexors")] / 100 == pytest.approx(band_of(flexors))


def test_levers_are_those_of_drawn_bodies_and_no_people():
    panel = settled(LatPanel())
    arms = []
    for drawn in drawn_inputs(FEW[1], SEED):
        elevation = np.radians(60.0)
        humerus = raised_arm(elevation, 0.0)
        scapula = turned_scapula(elevation, 0.0, rhythm=drawn.body.rhythm)
        which = shoulder_muscles().index("latissimus dorsi middle")
        arms.append(1000 * moment_arms(humerus, scapula, drawn.body.paths)[which])
    assert bars(panel.curves, 1) == pytest.approx(np.stack(band_of(arms), axis=-1), rel=0.02)
    assert np.isnan(bars(panel.curves, 0)).all() and "People's band is left out" in panel.picture.said["bands"]


def test_a_held_weight_has_people_only():
    panel = settled(OneArmPanel(sex="women"))
    held = [
        sm.held_weight(sm.Lifter("women", *one), 5.0, 0.0, np.pi / 2)
        for one in zip(*(v for v in vars(sm.draw_lifters(FEW[0], "women", SEED)).values() if np.ndim(v)), strict=True)
    ]
    low, high = band_of([float(one.elbow_flexion_torque) for one in held])
    assert bars(panel.curves, 0)[1] == pytest.approx((low, high))
    assert np.isnan(bars(panel.curves, 1)).all()


@pytest.mark.parametrize("kind", BANDED, ids=lambda kind: kind.__name__)
def test_bands_go_with_a_move_and_are_asked_for_again(kind):
    panel = kind()
    sent = as_sent(panel)
    assert sent[-1]["bands"] == "awaited" and panel.picture.said["bands"] == ""
    before = panel.stage.attributes()
    settled(panel)
    told = panel.picture.said["bands"]
    assert (sent[-1]["kind"], sent[-1]["bands"]) == ("bands", "there") and sent[-1]["said"]["bands"] == told
    assert told and panel.words.endswith(told) and panel.stage.attributes() != before
    main = next(iter(panel.sliders.values()))
    start, there = main.value, panel.stage.attributes()
    main.value = start + main.step
    assert (sent[-1]["kind"], sent[-1]["bands"], sent[-1]["said"]["bands"]) == ("move", "awaited", "")
    fresh = kind()
    next(iter(fresh.sliders.values())).value = start + main.step
    assert panel.stage.attributes() == fresh.stage.attributes()  # nothing of the old bands is left
    main.value = start
    settled(panel)
    assert panel.stage.attributes() == there and panel.picture.said["bands"] == told


@pytest.mark.parametrize("kind", [GripPanel, LatPanel])
def test_a_step_ahead_takes_the_bands_away_and_leaves_them_where_they_are(kind):
    panel = settled(kind())
    name, slider = next(iter(panel.picture.sliders.items()))
    before = panel.stage.attributes()
    moves, said = panel.ahead(name, slider.value + slider.step)
    assert panel.stage.attributes() == before and said["bands"] == ""
    fresh = kind()
    next(iter(fresh.sliders.values())).value = slider.value + slider.step
    page = [dict(one) for one in before]
    for place, changed in moves:
        page[place] |= changed
    page = [{name: value for name, value in one.items() if value is not None} for one in page]
    assert page == fresh.stage.attributes()


def test_a_little_work_at_a_time_and_a_move_in_between():
    panel = GripPanel()
    sent, rounds = as_sent(panel), 0
    panel.picture.settle = lambda: panel.settle(0.0)  # one bit at a time
    while panel.bands.stand == "awaited":
        panel.picture._answer({"kind": "settled"})
        rounds += 1
        assert sent[-1]["kind"] == "bands"
        if rounds == 2:
            assert sent[-1] | {"at": 0} == {"kind": "bands", "moves": [], "said": None, "bands": "awaited", "at": 0}
            panel.sliders["grip_ratio"].value = 1.0
    assert rounds > 3 and panel.bands.shown is panel.bands.answers(panel.state)
    assert panel.bands.shown.question.key[1].grip_ratio == 1.0
    count = len(sent)
    panel.picture._answer({"kind": "settled"})  # another page of the same panel
    assert len(sent) == count


def test_what_comes_back_is_not_worked_out_again():
    panel = settled(GripPanel())
    first = panel.bands.shown
    for value in (1.0, 1.5):
        panel.sliders["grip_ratio"].value = value
        settled(panel)
    assert panel.bands.shown is first
    panel.along.value = 75
    panel.settle(0.0)
    assert panel.bands.shown is first  # all along the rep it is the same


def test_the_switch_takes_them_away_and_is_saved():
    panel = settled(GripPanel())
    with_bands = panel.stage.attributes()
    panel.bands.switch.value = False
    assert panel.bands.stand == "off" and panel.picture.said["bands"] == "" and panel.stage.attributes() != with_bands
    panel.picture._answer({"kind": "settled"})
    assert panel.bands.shown is None
    assert "people" not in panel.content("csv").decode()
    saved = panel.content("json").decode()
    other = GripPanel()
    other.open_text(saved)
    assert not other.bands.is_on and other.picture.said["trouble"] == ""


@pytest.mark.parametrize("kind", BANDED, ids=lambda kind: kind.__name__)
def test_a_set_up_from_before_still_opens_and_a_wrong_switch_is_refused(kind):
    panel = kind()
    saved = json.loads(panel.content("json"))
    part = saved.get("view") or saved["values"]
    assert part.pop("bands") is True
    panel.bands.switch.value = False
    panel.open_text(json.dumps(saved))
    assert panel.picture.said["trouble"] == "" and panel.bands.is_on
    part["bands"] = "yes"
    with pytest.raises(InputError, match="bands"):
        panel.apply(json.dumps(saved))


def test_they_start_off_on_a_projector_and_are_none_where_nothing_is_drawn():
    with projector():
        panel = GripPanel()
    assert panel.bands.stand == "off"
    panel.bands.switch.value = True
    assert settled(panel).picture.said["bands"]
    assert EvidencePanel().bands is None


def test_the_table_has_them_at_every_point_of_the_rep():
    panel = GripPanel()
    rows = [row.split(",") for row in panel.content("csv").decode("utf-8-sig").splitlines()]
    settled(panel)
    text = panel.content("csv").decode("utf-8-sig")
    assert "extension torque people low [N m]" in text
    ends = panel.bands.shown.bands[1].high[20, 2]
    assert f"{ends:.4f}" in text.splitlines()[21] and len(rows) == 42


def test_a_refused_entry_leaves_the_bands_of_what_is_shown():
    panel = settled(GripPanel())
    before, told = panel.stage.attributes(), panel.picture.said["bands"]
    panel.load.value = "heavy"
    assert panel.picture.said["trouble"] and panel.stage.attributes() == before
    assert panel.picture.said["bands"] == told
    panel.keep()  # what stayed in sight is kept, and the bands are awaited anew
    assert panel.bands.stand == "awaited" and panel.picture.said["bands"] == ""
    assert settled(panel).picture.said["trouble"]


def test_who_does_not_reach_is_left_out():
    panel = GripPanel(stature=1.60)
    panel.sliders["grip_ratio"].value = 2.2
    panel.sliders["elbow_cue"].value = 40
    panel.pull_choice.value = "pull-up"
    panel.sliders["grip_ratio"].value = 2.2
    question = panel.ask(panel.state)
    crowd = question.crowd(slice(0, FEW[0])).lifter

    def alone(one):
        try:
            return question.answer(question.crowd(slice(one, one + 1)), as_tabled())[0]
        except InputError:
            return np.full((41, 3), np.nan)

    answers = panel.bands.worked_out([panel.state])[0].people
    assert np.shape(crowd.stature) == FEW[:1]
    by_hand = np.array([alone(one) for one in range(0, FEW[0], 3)])
    np.testing.assert_allclose(answers[::3], by_hand)


def test_a_crowd_in_which_some_do_not_reach_still_has_its_band():
    panel = GripPanel()
    question = panel.ask(panel.state)

    def answer(who, drawn):
        if np.any(np.asarray(who.lifter.stature) > 1.80):
            raise InputError("stature", "too tall")
        return question.answer(who, drawn)

    asked = type(question)(("some",), answer, question.person, question.crowd, PEOPLE, 3)
    panel.bands.ask = lambda state: asked
    people = panel.bands.worked_out([panel.state])[0].people
    tall = question.crowd(slice(0, PEOPLE)).lifter.stature > 1.80
    assert 0 < tall.sum() < PEOPLE / 2
    assert (np.isnan(people[:, 0, 0]) == tall).all()
    low = panel.bands.worked_out([panel.state])[0].bands[0].low
    np.testing.assert_allclose(low, np.percentile(people[~tall], 5, axis=0))


def test_beside_a_kept_one_the_bands_are_of_the_change_person_by_person():
    panel = GripPanel(sex="women", **RUNA)
    panel.keep()
    was = panel.state
    panel.sliders["grip_ratio"].value = 2.0
    settled(panel)

    def adduction(lifter, drawn):
        options = {"arm_weight": False, "muscles": False, "work": False}
        now, kept = (
            sm.rep(lifter, drawn.pull(pull), **options).shoulder_torque.values[..., 20, 0]
            for pull in (panel.state.pull, was.pull)
        )
        return now - kept

    crowd = sm.draw_lifters(FEW[0], "women", SEED, **RUNA)
    spread = spread_of(adduction, was.lifter, crowd, drawn_inputs(FEW[1], SEED))
    (a, b), (c, d) = ([f"{end:.0f}" for end in band] for band in (spread.people, spread.unknown))
    told = panel.picture.said["bands"]
    assert told.startswith(f"Change of adduction: among women of these measures {a if a == b else f'{a} to {b}'} N m; ")
    assert f"what nobody has measured {'hardly moves it' if c == d else f'leaves {c} to {d}'}" in told
    panel.measures["mass"].value = "70"  # others than those of the kept one
    assert "among" not in settled(panel).picture.said["bands"]


def test_words_say_which_is_larger_and_what_is_open():
    both = band_words("men", (18.2, 24.4), (17.0, 25.0), " N m of extension")
    assert both == "Among men 18 to 24 N m of extension; what nobody has measured leaves 17 to 25, the larger part."
    assert band_words("men", (1.0, 2.0), (1.0, 2.1), " kg").endswith("leaves 1 to 2, about as much.")
    assert band_words("men", (20.9, 21.0), (20.6, 22.4), " kg").endswith("leaves 21 to 22, the larger part.")
    one = "Among men 21 kg; what nobody has measured hardly moves it."
    assert band_words("men", (20.9, 21.0), (20.6, 21.4), " kg") == one  # both are written as one number
    assert band_words("men", None, (20.6, 21.4), " kg") == "What nobody has measured leaves 21 kg."
    turned = band_words("men", (-6.0, -2.0), (-4.0, -3.0), " N m of flexion", swapped=True)
    assert turned == "Among men 2 to 6 N m of flexion; what nobody has measured leaves 3 to 4, the smaller part."
    change = band_words("men", None, (-2.0, 5.0), " mm", change_of="the lever")
    assert change == "Change of the lever: what nobody has measured leaves −2 to 5 mm: its direction is open."
    few = band_words("men", (-1.0, 2.0), (-2.0, 5.0), " mm", change_of="the lever", brief=True)
    assert few == "Change: among men −1 to 2 mm; not known: −2 to 5: its direction is open."
    assert band_words("men", (np.nan, np.nan), None, " kg").startswith("Too few people")


def test_moves_and_bands_from_two_threads_end_in_one_picture():
    panel = GripPanel()
    page = as_sent(panel)

    def moves():
        for step in range(12):
            panel.sliders["grip_ratio"].value = 0.5 + 0.05 * step

    threads = [threading.Thread(target=moves), *(threading.Thread(target=panel.settle) for _ in range(6))]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    settled(panel)
    fresh = GripPanel()
    fresh.sliders["grip_ratio"].value = panel.sliders["grip_ratio"].value
    assert settled(fresh).stage.attributes() == panel.stage.attributes()
    assert page[-1]["bands"] == "there"


def test_a_recorded_page_has_neither_bands_nor_their_switch():
    panel = settled(GripPanel())
    again = SetUp.of(panel).panel()
    assert again.picture.said["bands"] == "" and not any("Bands" in words for words in fixed_words(panel, ()))


@pytest.mark.parametrize("kind", BANDED, ids=lambda kind: kind.__name__)
def test_on_a_phone_no_words_touch_with_the_bands_there(kind):
    panel = kind()
    panel.fit(True)
    assert faults(settled(panel).stage.figure) == []
