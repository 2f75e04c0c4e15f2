"""Which controls of a panel move on a recorded page, and to which values; all others stay as they are set.

A slider's values are its own, at a coarser step where that keeps the page small. The value that the panel starts with is
always among them: it takes the place of its nearest neighbour. The last control of a grid is the one that moves the picture in the
smallest steps, since the record is packed in that order; it is walked with the place along the rep innermost, which the model
has in one go.
"""

from dataclasses import dataclass
from math import prod

import numpy as np

from ..inputs import choice
from ..panels import GirdlePanel, GripPanel, LatPanel, OneArmPanel, TrunkPanel, WorkPanel
from ..panels.slider import Slider

SAME = 1e-6  # two values of a slider that are nearer are one


@dataclass(frozen=True)
class Varied:
    """One control that moves.

    Parameters
    ----------
    control : str
        Its name among the panel's sliders, or of the panel's attribute that it is.
    short : str
        Its name in the page's address.
    step, finer : float, optional
        Between a slider's values, and on the finer grid, in the slider's unit; 1 for a choice. Without ``step`` it moves on the
        finer grid only.
    low, high : float, optional
        Ends, where they are not the slider's own.
    """

    control: str
    short: str
    step: float | None = None
    finer: float | None = None
    low: float | None = None
    high: float | None = None

    def of(self, panel):
        """The control itself among those of ``panel`` (`panels.panel.Panel`): a widget, of a slider with a unit."""
        return panel.sliders[self.control] if self.control in panel.sliders else getattr(panel, self.control)

    def values(self, panel, finer=False):
        """The values that are recorded of ``panel`` (`panels.panel.Panel`), ``finer`` or not (bool): a tuple, or None for one that stays."""
        control, step = self.of(panel), self.step_of(finer)
        if step is None:
            return None
        if isinstance(control, Slider):
            return self._of_slider(control, step)
        return tuple(getattr(control, "options", (False, True)))

    def step_of(self, finer):
        """The step of a slider on the grid, ``finer`` or not (bool), in its unit; None where it stays."""
        return self.finer if finer and self.finer else self.step

    def _of_slider(self, control, step):
        low = control.min if self.low is None else self.low
        high = control.max if self.high is None else self.high
        regular = low + step * np.arange(int((high - low) / step + SAME) + 1)
        values, start = [round(float(value), 6) for value in regular], control.value
        if start < values[0] - SAME:
            return (start, *values)
        if start > values[-1] + SAME:
            return (*values, start)
        values[int(np.argmin(np.abs(regular - start)))] = start
        return tuple(values)


@dataclass(frozen=True)
class Kind:
    """A kind of panel that can be recorded.

    ``make`` (class) makes one; ``title`` (str) says in plain words what it is about; ``chapter`` (str) has it; ``grid`` (tuple of
    `Varied`) is walked with the last one innermost.
    """

    make: type
    title: str
    chapter: str
    grid: tuple


INNERMOST = "along"
ALONG, ARM = Varied(INNERMOST, "along", 25, 10), Varied("arm_weight", "own", 1)
KINDS = {
    "grip": Kind(
        GripPanel, "How wide should the hands be?", "03_grip_width",
        (Varied("blade", "blade", None, 1), ARM, Varied("elbow_cue", "elbow", None, 20), Varied(INNERMOST, "along", 10),
         Varied("grip_ratio", "grip", 0.05)),
    ),
    "trunk": Kind(
        TrunkPanel, "From pulldown to row: how far does the trunk lean?", "04_from_pulldown_to_row",
        (ARM, ALONG, Varied("touch_up", "touch", 10, 5), Varied("trunk_lean", "lean", 5)),
    ),
    "one-arm": Kind(
        OneArmPanel, "A weight held still: what do shoulder and elbow have to do?", "02_one_arm_one_plane",
        (ARM, Varied("muscle_arm_cm", "muscle", None, 2), Varied("load_kg", "load", 5),
         Varied("elbow_flexion_deg", "elbow", 45, 15), Varied("elevation_deg", "raised", 5)),
    ),
    "lat": Kind(
        LatPanel, "Where does this muscle have its best lever?", "05_where_the_lat_pulls",
        (Varied("muscle", "muscle", 1), Varied("turning", "turning", 1), Varied("deeper_mm", "insertion", None, 10),
         Varied("plane_deg", "plane", 30, low=0, high=90), Varied("elevation_deg", "raised", 5)),
    ),
    "girdle": Kind(
        GirdlePanel, "What does a pull ask of the shoulder blades?", "06_shoulder_blades",
        (Varied("blade", "blade", 1), ALONG, Varied("trunk_lean", "lean", 30, 15), Varied("grip_ratio", "grip", 0.1, 0.05)),
    ),
    "work": Kind(
        WorkPanel, "Who does the work, and how much does the rep hold?", "07_who_does_the_work",
        (Varied("turn", "hand", 1), Varied("load_kg", "load", 20, 10, low=0, high=120), ALONG,
         Varied("grip_ratio", "grip", 0.1, 0.05)),
    ),
}  # fmt: skip


def kind_of(panel):
    """Name (str) of the kind of ``panel`` (any panel) among `KINDS`, or None for one that cannot be recorded."""
    return next((name for name, kind in KINDS.items() if type(panel) is kind.make), None)


class Grid:
    """The states of one panel that are recorded.

    Parameters
    ----------
    name : str
        Of its kind, among `KINDS`.
    panel : panels.panel.Panel
        As it starts.
    finer : bool
        On the finer grid.
    """

    def __init__(self, name, panel, finer=False):
        grid = KINDS[choice("panel", name, tuple(KINDS))].grid
        pairs = [(varied, varied.values(panel, finer)) for varied in grid]
        self.finer = finer
        self.axes = {varied: values for varied, values in pairs if values is not None and len(values) > 1}
        self.start = tuple(_nearest(values, varied.of(panel).value) for varied, values in self.axes.items())

    @property
    def size(self):
        """How many states there are: a whole number."""
        return prod(len(values) for values in self.axes.values())

    @property
    def walk(self):
        """Numbers of all states in the order in which they are walked, an array of whole numbers."""
        numbers = np.arange(self.size).reshape([len(values) for values in self.axes.values()])
        inner = [place for place, varied in enumerate(self.axes) if varied.control == INNERMOST]
        return np.moveaxis(numbers, inner, [-1] * len(inner)).ravel()

    @property
    def inner(self):
        """How many states follow each other with one control moving only: a whole number."""
        return next((len(values) for varied, values in self.axes.items() if varied.control == INNERMOST), 1)

    def put(self, number, *panels):
        """Set the controls of some panels, without a redraw.

        Parameters
        ----------
        number : int
            Of the state, a whole number from 0.
        *panels : panels.panel.Panel
        """
        places = np.unravel_index(number, [len(values) for values in self.axes.values()])
        for panel in panels:
            with panel.quiet():
                for (varied, values), place in zip(self.axes.items(), places, strict=True):
                    varied.of(panel).value = values[place]


def _nearest(values, wanted):
    """Place of a control's value among the recorded ones; words are there or not."""
    if isinstance(wanted, (str, bool)):
        return values.index(wanted)
    return min(range(len(values)), key=lambda place: abs(values[place] - wanted))
