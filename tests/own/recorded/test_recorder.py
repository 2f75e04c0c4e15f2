"""Every state of a small grid, unpacked, is what a panel shows and says that is taken there anew."""

import pytest

from shoulder_model.inputs import InputError
from shoulder_model.panels import GripPanel, OneArmPanel
from shoulder_model.recorded.fragment import fragment
from shoulder_model.recorded.grids import KINDS, Grid, Varied
from shoulder_model.recorded.packing import packed
from shoulder_model.recorded.recorder import LAYOUTS, LINES, Walker, _walked, page_text, record
from shoulder_model.recorded.set_up import SetUp
from tests.panel_walk import Page

from .small import SMALL, small_grid
from .unpack import unpacked


def shown(panel):
    """Attributes of a panel as a page that follows it has them, by element and name."""
    return [{name: page_text(value) for name, value in one.items()} for one in panel.layer]


def recorded(row):
    """A row of a layout's table, as `shown` has it."""
    elements = {}
    for key, text in row.items():
        place, name = key.split(" ")
        elements.setdefault(int(place), {})
        if text is not None:
            elements[int(place)][name] = text
    return [elements[place] for place in sorted(elements)]


@pytest.mark.parametrize("kind", KINDS)
def test_every_state_is_that_of_a_panel_taken_there_anew(kind, monkeypatch):
    small_grid(monkeypatch, kind)
    start = KINDS[kind].make()
    if kind == "grip":
        start.keep()
    made = record(SetUp.of(start), processes=1)
    _, (wide, narrow, words) = unpacked(packed({}, list(made.tables.values())))
    assert len(wide) == len(narrow) == len(words) == made.grid.size > 11
    panels = {layout: SetUp.of(start).panel(layout == "narrow") for layout in LAYOUTS}
    pages = {layout: Page(panel.picture) for layout, panel in panels.items()}
    for layout, still in made.stills.items():
        assert (pages[layout].frame, panels[layout].stage.layer()) == (still.frame, still.layer)
    for number in reversed(made.grid.walk):  # the other way round, so that what went before is another state
        made.grid.put(number, *panels.values())
        for layout, rows in zip(LAYOUTS, (wide, narrow), strict=True):
            panels[layout].update()
            assert recorded(rows[number]) == shown(pages[layout]), (kind, layout, number)
            said = {line: words[number][line] for line in LINES[:4]}
            assert said | {"bands": ""} == pages[layout].said  # they are left out
        assert words[number]["set_up"] == panels["wide"].set_up(panels["wide"].state)


def test_a_state_that_the_model_refuses_has_its_trouble_line_and_no_picture(monkeypatch):
    small_grid(monkeypatch, "one-arm")
    read = OneArmPanel.read

    def refusing(panel):
        if panel.sliders["elevation_deg"].place > 100:
            raise InputError("elevation", "elevation: not so high")
        return read(panel)

    monkeypatch.setattr(OneArmPanel, "read", refusing)
    made = record(SetUp.of(OneArmPanel()), processes=1)
    _, tables = unpacked(packed({}, list(made.tables.values())))
    refused = [row["trouble"] for row in tables[2]]
    assert set(refused) == {"", "elevation: not so high"} and refused.count("") == 3 * made.grid.size // 4
    for rows in tables[:2]:
        assert [any(row.values()) for row in rows] == [not trouble for trouble in refused]


def test_two_processes_record_what_one_does():
    walker = Walker(SetUp.of(OneArmPanel()))
    pieces = [walker.grid.walk[:8], walker.grid.walk[-6:]]
    one, two = ([*_walked(walker, pieces, processes)] for processes in (1, 2))
    assert [rows for _, rows in one] == [rows for _, rows in two] == [8, 6]
    for (alone, _), (other, _) in zip(one, two, strict=True):
        assert {name: table.columns for name, table in alone.items()} == {
            name: table.columns for name, table in other.items()
        }


@pytest.mark.parametrize("kind", KINDS)
def test_the_grid_has_the_start_and_reaches_the_named_stops(kind):
    panel = KINDS[kind].make()
    for finer in (False, True):
        grid = Grid(kind, panel, finer)
        names = [varied.short for varied in grid.axes]
        assert len(set(names)) == len(names)
        for (varied, values), place in zip(grid.axes.items(), grid.start, strict=True):
            assert values[place] == varied.of(panel).value and list(values) == sorted(set(values), key=values.index)
        main = next(control for control in panel.sliders.values() if control.main)
        values = next(values for varied, values in grid.axes.items() if varied.of(panel) is main)
        assert set(main.stops.values()) <= set(values)
    assert sorted(grid.walk) == list(range(grid.size))


def test_a_start_between_the_steps_takes_the_place_of_its_neighbour_and_one_beyond_comes_to_the_end():
    panel, lean = GripPanel(), Varied("grip_ratio", "grip", 0.5, low=0.3, high=1.3)
    for start, expected in ((0.9, (0.3, 0.9, 1.3)), (2.0, (0.3, 0.8, 1.3, 2.0)), (0.3, (0.3, 0.8, 1.3))):
        panel.sliders["grip_ratio"].value = start
        assert lean.values(panel) == expected
    assert Varied("grip_ratio", "grip").values(panel) is None


def test_a_panel_whose_set_up_is_refused_is_not_recorded():
    panel = GripPanel()
    panel.load.value = "much"
    with pytest.raises(InputError, match="load_kg"):
        SetUp.of(panel)


def test_the_page_says_what_does_not_move(monkeypatch):
    small_grid(monkeypatch, "grip")
    panel = GripPanel("front pulldown", sex="women", stature=1.68)
    html = fragment(record(SetUp.of(panel), processes=1), panel, "<svg></svg>").html
    for words in ("Pull: front pulldown", "Lifter: women", "stature: 168 cm", "mass: ≈", "Elbow cue: 0° out"):
        assert words in html, words
    assert "arm's own weight" not in html.partition('class="fixed"')[2].partition("</div>")[0]
    assert SMALL["grip"][-1].short == "grip"
