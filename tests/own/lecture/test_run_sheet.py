"""Run sheets: what is read, what is refused and in which words, and the panels that come of it."""

import json
import os
import sys

import pytest

import shoulder_model as sm
from shoulder_model.checkout import HOME
from shoulder_model.lecture import run_sheet, sheet_reader
from shoulder_model.lecture.controls import PANELS, PULLED, PanelOf, controls, known_controls, make_panel, put
from shoulder_model.lecture.run_sheet import (
    RunSheetError,
    parse_run_sheet,
    read_run_sheet,
    sheets,
    write_template,
)
from shoulder_model.lecture.sheet_parts import FigureOf, SectionOf
from shoulder_model.panels import setup_text
from shoulder_model.panels.slider import Slider
from tests.own.lecture.sheet_checker import obeys

SHEET = """title = "A class"
minutes = 20
audience = "coaches"

[lifter]
name = "Runa"
sex = "women"
stature_cm = 168
mass_kg = 64
biacromial_cm = 37.2

[[step]]
title = "First"
minutes = 5
say = \"\"\"
One.

[[step]]
- two\"\"\"
ask = "Which?"
answers = [
  { say = "this", reply = "Yes.", right = true },
  { say = "that", reply = "No." },
]
section = "03_grip_width 3.2"
reveal = "It is this."

[[step]]
title = "Second"
minutes = 7.5
[step.panel]
kind = "grip"
pull = "front pulldown"
start = { "Grip" = 1.0, "Load" = 30, "Shoulder blade" = "held", "arm's own weight" = false }
keep = true
then = { "Grip" = 2.0 }
sliders = ["Elbow cue"]

[[step]]
title = "Third"
minutes = 2
note = "Point."
figure = "tape_law"
"""
RUNA = {"name": "Runa", "sex": "women", "stature": 1.68, "mass": 64.0, "biacromial": 0.372}


def refused(text, folder="."):
    """What is said about a sheet that cannot be read."""
    with pytest.raises(RunSheetError) as error:
        parse_run_sheet(text, folder, file="mine.toml")
    said = str(error.value)
    assert len(said) <= 300 and said.splitlines() == [said]
    return said


def test_a_sheet_is_read():
    sheet = parse_run_sheet(SHEET, ".")
    assert (sheet.title, sheet.minutes, sheet.audience, sheet.lifter) == ("A class", 20, "coaches", RUNA)
    first, second, third = sheet.steps
    assert [step.minutes for step in sheet.steps] == [5, 7.5, 2] and first.say == "One.\n\n[[step]]\n- two"
    assert [(answer.say, answer.reply, answer.right) for answer in first.answers] == [
        ("this", "Yes.", True),
        ("that", "No.", False),
    ]
    assert first.shows == SectionOf("03_grip_width", "3.2") and third.shows == FigureOf("tape_law")
    assert second.shows == PanelOf(
        "grip",
        "front pulldown",
        {"Grip": 1.0, "Load": 30.0, "Shoulder blade": "held", "arm's own weight": False},
        True,
        {"Grip": 2.0},
        ("Elbow cue",),
    )
    obeys(sheet)


@pytest.mark.parametrize("ending", ["\r\n", "\n"])
def test_line_ends_and_byte_order_marks_are_read(tmp_path, ending):
    path = tmp_path / "mine.toml"
    path.write_bytes(b"\xef\xbb\xbf" + SHEET.replace("\n", ending).encode())
    assert read_run_sheet(path).steps == parse_run_sheet(SHEET, ".").steps
    path.write_bytes(SHEET.replace("minutes = 7.5", "minutes = true").replace("\n", ending).encode())
    with pytest.raises(RunSheetError, match=r"mine\.toml, line 30: step 2: minutes is a number"):
        read_run_sheet(path)


BAD = [  # (what stands in the sheet, what stands there instead, what is said)
    ('{ say = "that", reply = "No." },', "", "line 21: step 1 has 1 answer; give 2 to 5"),
    ('{ say = "that", reply = "No." },', '{say="a"},{say="b"},{say="c"},{say="d"},{say="e"}', "line 21: step 1 has 6 answers"),
    ('reply = "No." }', 'reply = "No.", right = true }', "line 21: step 1 has more than one right answer"),
    ('reply = "No." }', 'reply = "No.", wright = true }', "line 23: answer 2 of step 1: unknown key 'wright'; nearest: right"),
    ('say = "that"', 'say = "this"', "line 21: step 1 has the same answer twice"),
    ('say = "that"', f'say = "{"x" * 91}"', "line 23: answer 2 of step 1: say has 91 characters; give at most 90"),
    ('say = "that", ', "", "line 23: answer 2 of step 1: say is missing"),
    ("right = true", "right = 1", "line 22: answer 1 of step 1: right is true or false"),
    ('ask = "Which?"\n', "", "line 20: step 1 has answers without a question"),
    ("answers = [", "answers = 3 #", "line 22: a line begins with a key or a [[step]]"),
    ('title = "A class"', f'title = "{"x" * 71}"', "line 1: title has 71 characters; give at most 70"),
    ('title = "A class"\n', "", "line 1: title is missing"),
    ('title = "A class"', 'title = "A\\nclass"', "line 1: title has several lines"),
    ('title = "A class"', 'title = "A\\u202eclass"', "line 1: title has a character that cannot be seen"),
    ('title = "A class"', 'title = "A\\u0007class"', "line 1: title has a character that cannot be seen"),
    ('title = "A class"', "title = A class", 'line 1: put text in "quotes"'),
    ('title = "A class"', 'title = "A class', "line 1: a text goes on over the end of its line"),
    ('title = "A class"', 'title = " "', "line 1: title is empty"),
    ('title = "A class"', 'title = 1979-05-27', "line 1: title is a text; put it in quotes"),
    ("minutes = 20", "minutes = 14", "line 2: the steps take 14.5 minutes, the sheet has 14"),
    ("minutes = 20", "minutes = 1e9", "line 2: minutes = 1e+09; give more than 0, at most 480"),
    ("minutes = 20", "minutes = nan", "line 2: minutes is a number"),
    ("minutes = 20", "minutes = inf", "line 2: minutes is a number"),
    ("minutes = 20", "minutes = true", "line 2: minutes is a number"),
    ("minutes = 20", f"minutes = {'9' * 400}", "line 2: minutes is a number"),
    ("minutes = 20", f"minutes = {'9' * 4400}", "line 2: the line has 4410 characters"),
    ("minutes = 20", f"minutes = {'[' * 3000}", "line 1: brackets stand inside brackets too often"),
    ("minutes = 20", "a.b.c.d.e.f = 20", "line 2: a key has too many points"),
    ("minutes = 20", "minutes = 20\nminutes = 20", "line 3: the same key stands twice"),
    ("minutes = 7.5", "minutes = 0", "line 30: step 2: minutes = 0; give more than 0"),
    ("minutes = 7.5", "minutes = -1", "line 30: step 2: minutes = -1; give more than 0"),
    ("minutes = 7.5", "minutes = 7,5", "line 30: only one key stands on a line"),
    ("minutes = 7.5\n", "", "line 28: step 2: minutes is missing"),
    ("minutes = 7.5", "minuets = 7.5", "line 30: step 2: unknown key 'minuets'; nearest: minutes"),
    ("audience", "audiences", "line 3: unknown key 'audiences'; nearest: audience"),
    ("37.2", "90", "line 10: the lifter: biacromial = 90.0 cm is outside"),
    ("37.2", '"37"', "line 10: the lifter: biacromial_cm is a number"),
    ('sex = "women"', 'sex = "woman"', "line 7: the lifter: no sex 'woman'; nearest: women"),
    ("stature_cm", "stature", "line 8: the lifter: unknown key 'stature'; nearest: stature_cm"),
    ("3.2", "3.99", "line 25: step 1: 03_grip_width has no section '3.99'; it begins with '3.1 Runa asks'"),
    ("03_grip_width", "3_grip", "line 25: step 1: no chapter '3_grip'; nearest: 03_grip_width"),
    ("tape_law", "../figures/tape_law", "line 43: step 3: no figure"),
    ("tape_law", "tapelaw", "line 43: step 3: no figure 'tapelaw'; nearest: tape_law"),
    ('note = "Point."', "panel = 3", "line 42: step 3 shows figure and panel; keep one of them"),
    ('figure = "tape_law"', "", "line 39: step 3 shows nothing"),
    ('note = "Point."', "quiz = true", "line 42: step 3 belongs to the exit quiz; give it ask and answers"),
    ('note = "Point."', 'ask = "What?"', "line 42: step 3 asks without answers"),
    ('kind = "grip"', 'kind = "grap"', "line 32: step 2: no panel 'grap'; nearest: grip"),
    ('kind = "grip"', 'kind = "lat"', "line 33: step 2: the lat panel takes no pull; leave it out"),
    ('kind = "grip"\n', "", "line 28: step 2: kind is missing"),
    ('"front pulldown"', '"pulldown"', "line 33: step 2: no pull 'pulldown'; nearest: front pulldown"),
    ('"Grip" = 1.0', '"Grup" = 1.0', "line 34: step 2: this panel has no 'Grup'; nearest: Grip"),
    ('"Grip" = 1.0', '"Pull" = "chin-up"', "line 34: step 2 has the pull twice"),
    ('"Grip" = 2.0', '"Grip" = 2.9', "line 36: step 2: Grip = 2.9 × shoulders is outside 0.3 × shoulders to 2.2"),
    ('"Grip" = 2.0', '"Grip" = "2.0"', "line 36: step 2: Grip takes a number without quotes, 0.3 to 2.2 × shoulders"),
    ('"Grip" = 2.0', '"Grip" = nan', "line 36: step 2: Grip = nan"),
    ('"Load" = 30', '"Load" = true', "line 34: step 2: Load takes a number"),
    ('"Load" = 30', '"Load" = 501', "line 34: step 2: load_kg = 501 kg is outside 0 kg to 500 kg"),
    ('"held"', '"hold"', "line 34: step 2: Shoulder blade 'hold' is not known; nearest: held"),
    ('"held"', "[1]", "line 34: step 2: Shoulder blade"),
    ('weight" = false', 'weight" = 0', "line 34: step 2: arm's own weight is true or false"),
    ("keep = true", "", "line 36: step 2 has then without keep"),
    ("keep = true", 'keep = "yes"', "line 35: step 2: keep is true or false"),
    ("keep = true", 'saved = "a.json"', "line 35: step 2 has saved beside pull or start"),
    ('["Elbow cue"]', '["Shoulder blade"]', "line 37: step 2: this panel has no 'Shoulder blade'"),
    ('["Elbow cue"]', '["Elbow cue", "Grip"]', "line 37: step 2: sliders names one more slider"),
    ("[step.panel]", "[panel]", "line 31: unknown key 'panel'"),
    ("[[step]]\ntitle = \"Third\"", "[[stop]]\ntitle = \"Third\"", "line 39: unknown key 'stop'; nearest: step"),
]  # fmt: skip


@pytest.mark.parametrize(("there", "instead", "said"), BAD, ids=[said[:60] for *_, said in BAD])
def test_what_is_wrong_is_said_in_one_line_with_its_place(there, instead, said):
    assert there in SHEET
    assert f"mine.toml, {said}" in refused(SHEET.replace(there, instead, 1))


def test_a_sheet_without_steps_is_refused():
    assert "give 1 to 60 steps" in refused('title = "x"\nminutes = 1\n')
    assert "give 1 to 60 steps" in refused('title = "x"\nminutes = 1\nstep = [1]\n')
    many = '[[step]]\ntitle = "x"\nminutes = 0.01\nsay = "x"\n' * 61
    assert "give 1 to 60 steps" in refused(f'title = "x"\nminutes = 1\n{many}')


def test_a_file_that_is_none_is_refused(tmp_path):
    def said(path):
        with pytest.raises(RunSheetError) as error:
            read_run_sheet(path)
        assert str(error.value).splitlines() == [str(error.value)] and len(str(error.value)) <= 300
        return str(error.value)

    assert "no run sheet 'nothing': give a .toml file, or one of" in said("nothing")
    assert "there is no such file" in said(tmp_path / "none.toml")
    assert "a folder or a device" in said(tmp_path)
    (tmp_path / "empty.toml").touch()
    assert "empty.toml, line 1: the file is empty" in said(tmp_path / "empty.toml")
    (tmp_path / "large.toml").write_text(f"# {'x' * 100}\n" * 10_000)
    assert "at most 100 kB" in said(tmp_path / "large.toml")
    (tmp_path / "latin.toml").write_bytes('title = "x"\nminutes = 3 # für\n'.encode("latin-1"))
    assert "latin.toml, line 2: there is a letter that is not UTF-8" in said(tmp_path / "latin.toml")
    (tmp_path / "cut.toml").write_bytes(b"\xff\xfe" + SHEET.encode("utf-16-le")[:-1])
    assert "not UTF-8" in said(tmp_path / "cut.toml")
    (tmp_path / "zero.toml").write_bytes(SHEET.replace("class", "cl\0ss").encode())
    assert "zero.toml, line 1:" in said(tmp_path / "zero.toml")
    assert "is no path" in said("mine\0.toml") and "is no path" in said("x" * 5000 + ".toml")
    assert "leads to no folder" in said("~nosuchuser/mine.toml")


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no pipes with names")
def test_a_pipe_or_a_device_is_refused_at_once(tmp_path):
    os.mkfifo(tmp_path / "pipe.toml")
    for path in (tmp_path / "pipe.toml", "/dev/zero"):
        if os.path.exists(path):
            with pytest.raises(RunSheetError, match=r"a folder or a device|give a \.toml file"):
                read_run_sheet(path)


SAVED = SHEET.replace('pull = "front pulldown"\n', 'saved = "wide.json"\n').replace(
    'start = { "Grip" = 1.0, "Load" = 30, "Shoulder blade" = "held", "arm\'s own weight" = false }\n', ""
)
PULL = sm.pulls["front pulldown"].change(trunk_lean=0.0, load_kg=30, girdle_travel=0.0, grip_ratio=1.3)
TEXT = setup_text({"sex": "men", "biacromial": 0.4}, PULL, {"along": 0.25, "arm_weight": False})


def test_a_saved_set_up_lies_beside_the_sheet(tmp_path):
    (tmp_path / "wide.json").write_text(TEXT, encoding="utf-8")
    shows = parse_run_sheet(SAVED, tmp_path).steps[1].shows
    assert shows.saved == TEXT and shows.start == {}
    panel = make_panel(shows, RUNA)
    assert panel.kept.pull.grip_ratio == pytest.approx(1.3) and panel.kept.lifter.biacromial == 0.4
    assert panel.state.pull.grip_ratio == pytest.approx(2.0) and panel.state.along == 0.25


@pytest.mark.parametrize(
    "name", ["../wide.json", "/etc/passwd", "sub/wide.json", r"..\\wide.json", "C:wide.json", ".hidden", ".."]
)
def test_saved_names_nothing_outside_the_folder(tmp_path, name):
    assert "line 33: step 2: give the plain name of a file" in refused(SAVED.replace("wide.json", name), tmp_path)


def test_saved_follows_no_link_out_of_the_folder(tmp_path):
    (tmp_path / "in").mkdir()
    (tmp_path / "wide.json").write_text(TEXT, encoding="utf-8")
    try:
        (tmp_path / "in" / "wide.json").symlink_to(tmp_path / "wide.json")
    except OSError:
        pytest.skip("this system makes no links")
    assert "leads to another folder" in refused(SAVED, tmp_path / "in")


def deep(n):
    return "[" * n + "]" * n


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (None, "there is no such file"),
        ("", "the file is empty"),
        ("{}", "not saved by these panels"),
        ("[]", "not saved by these panels"),
        ("7", "not saved by these panels"),
        (deep(40_000), "not saved by"),
        (TEXT[:-30], "not saved by these panels"),
        (TEXT.replace('"pull set-up"', '"panel set-up"'), "not a 'pull set-up'"),
        (TEXT.replace('"grip_ratio": 1.3', '"grip_ratio": 2.9'), "outside 0.3 to 2.2"),
        (TEXT.replace('"grip_ratio": 1.3', '"grip_ratio": "wide"'), "is not a number"),
        (TEXT.replace('"grip_ratio": 1.3', '"grip_ratio": [1, 2]'), "line 33"),
        (TEXT.replace('"grip_ratio": 1.3', '"grip_ratio": NaN'), "is no number"),
        (TEXT.replace('"men"', "[]"), "line 33"),
        (TEXT.replace('"men"', '"cats"'), "line 33"),
        (TEXT.replace('"along": 0.25', '"along": {}'), "line 33"),
        (TEXT.replace('"name": "front pulldown"', '"name": {"a": 1}'), "line 33"),
        (TEXT.replace("0.4", "4e300"), "line 33"),
    ],
)  # fmt: skip
def test_what_a_saved_file_holds_is_tried_in_a_panel(tmp_path, text, said):
    if text is not None:
        assert text != TEXT
        (tmp_path / "wide.json").write_text(text, encoding="utf-8")
    line = refused(SAVED, tmp_path)
    assert "mine.toml, line 33: step 2: " in line and said in line
    obeys(parse_run_sheet(SHEET, tmp_path))  # the next sheet is none the worse for it


def test_nothing_in_a_sheet_is_formatted():
    text = SHEET.replace("A class", "{0} {title} %s ${HOME} <b>").replace("One.", "{__class__} <script>")
    sheet = parse_run_sheet(text, ".")
    assert sheet.title == "{0} {title} %s ${HOME} <b>" and sheet.steps[0].say.startswith("{__class__} <script>")
    assert "{x}" in refused(SHEET.replace("tape_law", "{x}"))


def test_the_lectures_and_the_template_are_read():
    assert list(sheets()) == ["row_or_pulldown_45", "who_does_the_work_90"]
    for name in (*sheets(), "template"):
        sheet = read_run_sheet(name)
        obeys(sheet)
        assert sheet.name == name and read_run_sheet(sheet.name) == sheet
    assert sheets()["row_or_pulldown_45"] == f"{read_run_sheet('row_or_pulldown_45').title} (45 minutes)"


def test_the_template_explains_every_key(tmp_path):
    path = tmp_path / "my_class.toml"
    write_template(path)
    text = path.read_text(encoding="utf-8")
    assert read_run_sheet(path).steps == read_run_sheet("template").steps
    for keys in (
        sheet_reader.SHEET_KEYS,
        sheet_reader.LIFTER_KEYS,
        sheet_reader.STEP_KEYS,
        sheet_reader.ANSWER_KEYS,
        sheet_reader.PANEL_KEYS,
    ):
        for key in keys:
            assert f"{key} = " in text or f"[{key}]" in text or f".{key}]" in text, key
    for limit in (
        *sheet_reader.CHARACTERS.values(),
        sheet_reader.SHEET_TITLE,
        sheet_reader.STEP_TITLE,
        sheet_reader.ANSWER,
    ):
        assert limit == sheet_reader.CHARACTERS["name"] or f"at most {limit}" in text, limit
    assert all(kind in text for kind in PANELS)


def test_a_template_overwrites_nothing(tmp_path):
    path = tmp_path / "mine.toml"
    path.write_text("mine", encoding="utf-8")
    with pytest.raises(sm.InputError, match="is there already and stays as it is"):
        write_template(path)
    assert path.read_text(encoding="utf-8") == "mine"
    with pytest.raises(sm.InputError, match="cannot be written"):
        write_template(tmp_path / "none" / "mine.toml")


@pytest.mark.parametrize("kind", PANELS)
def test_every_control_of_a_panel_is_found_and_takes_its_own_value(kind):
    panel = make_panel(PanelOf(kind))
    found, known = controls(panel), known_controls(kind)
    assert set(found) == set(known) and set(panel.picture.sliders) <= set(found)
    for name, takes in known.items():
        assert takes.words.startswith(name) and " [" not in name
        if takes.choices and name != "Muscle":
            assert list(takes.choices) == list(found[name].options)
        elif isinstance(found[name], Slider):
            assert (takes.low, takes.high, takes.slider) == (found[name].min, found[name].max, True)
            assert (takes.unit and f"[{takes.unit}]" in takes.words) or name.startswith("Correlation")
    now = {
        name: control.value
        for name, control in found.items()
        if not isinstance(control.value, str) or known[name].choices
    }
    put(panel, now)
    assert {name: found[name].value for name in now} == now and not panel.picture.said["trouble"]


def test_values_are_put_with_one_redraw():
    panel, drawn = make_panel(PanelOf("grip", "front pulldown"), RUNA), []
    real, panel.draw = panel.draw, lambda state: drawn.append(state) or real(state)
    put(panel, {"Grip": 1.22, "Load": 25, "Elbow cue": -10.4, "Shoulder blade": "travels", "biacromial": 38.0})
    assert len(drawn) == 1 and panel.state is drawn[0]
    assert panel.sliders["grip_ratio"].value == 1.2 and panel.sliders["elbow_cue"].value == -10  # to the slider's step
    assert (panel.state.pull.load_kg, panel.state.pull.girdle_travel, panel.state.lifter.biacromial) == (25, 1.0, 0.38)


def test_another_pull_brings_its_own_and_what_stands_beside_it_wins():
    panel = make_panel(
        PanelOf("girdle", "front pulldown", {"Grip": 1.0, "Load": 20}, True, {"Load": 25, "Pull": "seated row wide"})
    )
    assert (panel.kept.pull.name, panel.kept.pull.grip_ratio, panel.kept.pull.load_kg) == ("front pulldown", 1.0, 20)
    assert (panel.state.pull.name, panel.state.pull.grip_ratio, panel.state.pull.load_kg) == (
        "seated row wide",
        1.8,
        25,
    )
    panel = make_panel(PanelOf("evidence", "", {"Muscle": "rear deltoid", "Question": "front or behind the neck"}))
    assert (
        panel.state.values["question"] == "front or behind the neck" and panel.state.values["muscle"] == "rear deltoid"
    )


def test_put_refuses_before_it_moves_anything_it_can_check():
    panel = make_panel(PanelOf("grip"))
    was = panel.state
    for values in (
        {"Grip": 3.0},
        {"Grup": 1.0},
        {"Grip": "wide"},
        {"Load": True},
        {"Shoulder blade": "gone"},
        {"Load": 501},
    ):
        with pytest.raises(sm.InputError):
            put(panel, values)
    assert panel.state == was


@pytest.mark.parametrize("kind", PULLED)
def test_the_lifter_of_the_sheet_stands_on_the_panel(kind):
    state = make_panel(PanelOf(kind, "front pulldown"), RUNA).state
    assert state.measures == pytest.approx({name: value for name, value in RUNA.items() if name != "name"})


def test_a_panel_is_as_its_step_says():
    panel = make_panel(parse_run_sheet(SHEET, ".").steps[1].shows, RUNA)
    assert panel.kept.pull.grip_ratio == 1.0 and panel.state.pull.grip_ratio == 2.0
    assert panel.sliders["grip_ratio"].start == 1.0  # "Back to start" is the start of the step
    assert panel.picture.said["verdict"].startswith("Wider by 37 cm")


def test_a_set_up_that_the_model_refuses_is_refused():
    text = SHEET.replace('"Load" = 30,', '"Load" = 30, "stature" = 900,')
    assert "line 34: step 2: stature = 900.0 cm is outside" in refused(text)
    evidence = SHEET.partition('[[step]]\ntitle = "Second"')[0] + (
        '[[step]]\ntitle = "Second"\nminutes = 2\n[step.panel]\nkind = "evidence"\n'
        'start = { "Question" = "row or pulldown", "Muscle" = "pectoralis major" }\n'
    )
    assert "line 33: step 2: Muscle 'pectoralis major' is not known" in refused(evidence)


def test_home_is_where_workbook_and_figures_lie(tmp_path):
    assert (HOME / "workbook" / "03_grip_width.ipynb").is_file() and (HOME / "figures" / "tape_law.svg").is_file()
    with pytest.raises(RunSheetError, match="line 25: step 1: no chapter '03_grip_width'"):
        parse_run_sheet(SHEET, ".", tmp_path)


def test_saved_set_ups_of_the_lectures_are_what_a_panel_saves():
    for path in run_sheet.SHEETS.glob("*.json"):
        text = path.read_text(encoding="utf-8")
        panel = make_panel(PanelOf("grip", saved=text))
        again, was = json.loads(panel.setup(panel.state)), json.loads(text)
        assert again.pop("lifter") == pytest.approx(was.pop("lifter")) and again == was


def test_reading_a_sheet_runs_no_chapter(monkeypatch):
    monkeypatch.setitem(sys.modules, "nbclient", None)
    monkeypatch.setattr("shoulder_model.lesson.chapter.Player", None)
    assert read_run_sheet("who_does_the_work_90")
