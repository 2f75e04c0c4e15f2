"""A cell that is run again gives up what it showed before, and nothing that somebody can still see or ask for."""

import gc
import weakref

import ipywidgets as w
import psutil
import pytest
from jupyter_client import KernelManager

from shoulder_model.panels import Guess, OneArmPanel, of_cell
from shoulder_model.panels.of_cell import parts, take_place
from shoulder_model.panels.panel import WRAP

WARM_UP, RUNS, MB = 36, 30, 2**20  # the kernel's own memory grows for about 36 runs
LEAST = 0.1  # MB that a run may leave behind; a panel takes more than 2
CELL = "Guess('How many?', 3.0, 'So.', then=OneArmPanel())"
COUNT = """
gc.collect()
print(len(ipywidgets.widgets.widget._instances), sum(isinstance(one, Figure) for one in gc.get_objects()))
"""


@pytest.fixture(autouse=True)
def nothing_shown(monkeypatch):
    monkeypatch.setattr(of_cell, "_shown", {})
    monkeypatch.setattr(of_cell, "_left", [])


def is_open(widget):
    return widget.comm is not None


def test_a_cell_run_again_closes_everything_it_showed_before_and_lets_go_of_it():
    panel = OneArmPanel()
    names = {"_oh": {3: panel}, "_3": panel, "Out": {}}
    take_place(panel, "cell", "first run", names)
    every, picture = [*parts(panel).values()], weakref.ref(panel.stage.figure)
    assert len(every) > 50 and all(map(is_open, every))
    del panel
    take_place(OneArmPanel(), "cell", "second run", names)
    assert [one for one in every if is_open(one)] == [WRAP] and names == {"_oh": {}, "Out": {}}
    del every
    gc.collect()
    assert picture() is None


def test_what_another_cell_shows_lives_until_that_one_is_run_again_too():
    panel = OneArmPanel()
    for cell in ("one", "other"):
        take_place(panel, cell, "first run", {})
    take_place(OneArmPanel(), "one", "second run", {})
    assert is_open(panel) and is_open(panel.picture)
    take_place(OneArmPanel(), "other", "second run", {})
    assert not is_open(panel)


@pytest.mark.parametrize(
    "held", [lambda panel: panel, lambda panel: [1, {"mine": panel}], lambda panel: w.HBox([panel])]
)
def test_what_has_a_name_lives_as_long_as_the_name(held):
    panel = OneArmPanel()
    names = {"mine": held(panel), "_": panel, "_7": panel}
    take_place(panel, "cell", "first run", names)
    take_place(OneArmPanel(), "cell", "second run", names)
    assert is_open(panel) and is_open(panel.picture)
    del names["mine"]
    take_place(OneArmPanel(), "any other cell", "a run", names)
    assert not is_open(panel)


def test_a_name_that_goes_over_to_the_new_panel_keeps_the_old_one_no_longer():
    names = {"panel": OneArmPanel()}
    old = names["panel"]
    take_place(old, "cell", "first run", names)
    names["panel"] = OneArmPanel()
    take_place(names["panel"], "cell", "second run", names)
    assert not is_open(old) and is_open(names["panel"])


def test_a_panel_behind_a_guess_goes_with_it_and_stays_where_the_next_guess_has_it():
    panel = OneArmPanel()
    for run in ("first", "second", "third"):
        guess = Guess("How many?", 3.0, "So.", then=panel if run != "third" else None)
        take_place(guess, "cell", run, {})
        assert is_open(guess) and is_open(panel) == (run != "third")


def test_one_run_may_show_several():
    both = OneArmPanel(), OneArmPanel()
    for panel in both:
        take_place(panel, "cell", "the same run", {})
    assert all(map(is_open, both))


def test_names_that_hold_themselves_or_a_great_deal_are_no_trouble():
    panel, round_and_round = OneArmPanel(), {}
    round_and_round["again"] = round_and_round
    names = {"mine": round_and_round, "many": [0.0] * 100_000}
    take_place(panel, "cell", "first run", names)
    take_place(OneArmPanel(), "cell", "second run", names)
    assert not is_open(panel)


def test_shown_outside_a_notebook_a_panel_closes_nothing():
    both = OneArmPanel(), OneArmPanel()
    for panel in both:
        assert "application/vnd.jupyter.widget-view+json" in panel._repr_mimebundle_()
    assert all(map(is_open, both)) and not of_cell._shown


class Kernel:
    """A notebook's kernel, and what it takes of memory."""

    def __init__(self):
        self.manager = KernelManager(kernel_name="python3")
        self.manager.start_kernel()
        self.client = self.manager.client()
        self.client.start_channels()
        self.client.wait_for_ready(timeout=60)
        self.process = psutil.Process(self.manager.provisioner.pid)

    def run(self, code, cell):
        """What a ``cell`` with this ``code`` prints."""
        session, printed = self.client.session, []
        content = {"code": code, "silent": False, "store_history": True, "user_expressions": {}, "allow_stdin": False}
        asked = session.msg("execute_request", content)
        asked["metadata"] = {"cellId": cell}
        self.client.shell_channel.send(asked)
        while True:
            told = self.client.get_iopub_msg(timeout=60)
            if told["parent_header"].get("msg_id") != asked["header"]["msg_id"]:
                continue
            assert told["msg_type"] != "error", told["content"]
            if told["msg_type"] == "stream":
                printed.append(told["content"]["text"])
            elif told["content"].get("execution_state") == "idle":
                return "".join(printed)

    def stop(self):
        """End it."""
        self.client.stop_channels()
        self.manager.shutdown_kernel(now=True)


@pytest.fixture(scope="module")
def kernel():
    kernel = Kernel()
    kernel.run(
        "import gc, ipywidgets; from matplotlib.figure import Figure; from shoulder_model.panels import Guess, OneArmPanel",
        "first",
    )
    yield kernel
    kernel.stop()


def runs(kernel, code, count):
    """Run a cell so often; now and then the kernel collects what nobody holds, as Python does by itself, but less often."""
    for number in range(count):
        kernel.run(code, code)
        if number % 5 == 4:
            kernel.run("gc.collect()", "collect")


def test_thirty_runs_of_a_cell_leave_nothing_in_the_kernel(kernel):
    runs(kernel, CELL, WARM_UP)
    before, memory = kernel.run(COUNT, "count"), kernel.process.memory_info().rss
    runs(kernel, CELL, RUNS)
    now, was = (tuple(map(int, text.split())) for text in (kernel.run(COUNT, "count"), before))
    assert now[0] == was[0] and now[1] <= was[1]
    assert (kernel.process.memory_info().rss - memory) / RUNS < LEAST * MB


def test_a_cell_that_ends_with_a_panel_has_one_open_however_often_it_is_run(kernel):
    counts = []
    for _ in range(3):
        runs(kernel, "OneArmPanel()", 3)
        counts.append(kernel.run(COUNT, "count").split()[0])  # the notebook itself holds its last three results
    assert len(set(counts)) == 1


def test_a_saved_picture_leaves_nothing_in_the_kernel(kernel):
    kernel.run("panel = OneArmPanel()", "panel")
    for _ in range(4):
        kernel.run("panel.save('png')", "save")
    memory = kernel.process.memory_info().rss
    for _ in range(10):
        kernel.run("panel.save('png')", "save")
    assert (kernel.process.memory_info().rss - memory) / 10 < LEAST * MB
