"""The lat panel: one muscle over the raised arm, its moment arms and its length."""

from dataclasses import dataclass

import ipywidgets as w
import numpy as np
from matplotlib.patches import Polygon

from ..axes import MUSCLE_AXES, OPPOSITE
from ..draw.artists import label
from ..draw.look import AXIS_LOOK, BLACK, GREY, ROTATION_LOOK
from ..draw.muscle_view import MuscleView
from ..draw.torque_curves import TorqueCurves
from ..mechanics import posed_arm, raised_arm
from ..muscles import landmarks, moment_arms, path_points, path_sets, paths, shoulder_muscles, turned_scapula
from ..people import Lifter
from ..tables import number_rows, read_table
from ..words import listed, torque_change_words, with_margin, written
from .bands import DRAWS, Question, Who
from .panel import PROJECTED_HEIGHT, WRAP, Panel, Sheet, dropdown
from .saved import read_values, values_text
from .slider import slider

SIDES = {  # axis -> words for a positive lever and for a negative one
    axis: (axis.replace("_", " "), other)
    for axis, other in (OPPOSITE | {"internal_rotation": "external rotation"}).items()
}
SERVES = {  # the same as what the muscle does with it
    "adduction": ("adduct", "abduct"),
    "extension": ("extend", "flex"),
    "horizontal_abduction": ("abduct horizontally", "adduct horizontally"),
    "internal_rotation": ("turn in", "turn out"),
}
ELEVATIONS = np.arange(0.0, 151.0, 5.0)  # degrees
ONE_BODY = "People's band is left out: the muscles are one reference body's."
LENGTH_LOOK = {"length": (BLACK, "-", "o", "")}
PUBLISHED = read_table("lat_arms.csv")  # adduction arms and their bands in abduction [mm]


@dataclass(frozen=True)
class LatState:
    """One muscle in one posture, and its curves over elevation."""

    values: dict
    arms: np.ndarray
    margin: np.ndarray
    longer: np.ndarray
    now: np.ndarray
    now_margin: np.ndarray
    now_longer: float
    longer_margin: np.ndarray


class LatPanel(Panel):
    """Muscle, elevation, plane of elevation, how deep the insertion sits, scapula turning or not."""

    counts = 0, DRAWS
    page = Sheet(
        4.0,
        {
            "from behind": [0.002, 0.02, 0.182, 0.9],
            "from the side": [0.189, 0.02, 0.182, 0.9],
            "curves": [0.445, 0.145, 0.265, 0.56],
            "lengths": [0.785, 0.145, 0.2, 0.56],
        },
        {"x": "elevation of the upper arm [°]", "y": "moment arm [mm]", "lengths": "longer than hanging [mm]"},
    )
    projected = Sheet(
        PROJECTED_HEIGHT,
        {
            "from behind": [0.004, 0.013, 0.185, 0.885],
            "from the side": [0.197, 0.013, 0.185, 0.885],
            "curves": [0.474, 0.215, 0.506, 0.385],
        },
        {"x": "arm raised [°]", "y": "arm [mm]"},
    )
    phone = Sheet.phone(
        562,
        {
            "from behind": [1, 342, 150, 202],
            "from the side": [155, 342, 150, 202],
            "curves": [46, 158, 248, 112],
            "lengths": [46, 33, 248, 70],
        },
        {"x": "arm raised [°]", "y": "moment arm [mm]", "lengths": "longer [mm]"},
    )

    def __init__(self, muscle="latissimus dorsi middle"):
        figure = self.make_figure()
        self.muscle = dropdown("Muscle", shoulder_muscles(), muscle, 20)
        self.turning = w.Checkbox(
            True, description="shoulder blade turns with the arm", indent=False, layout=w.Layout(width="19em")
        )
        self.sliders = {
            "elevation_deg": slider(
                "Arm raised [°]", 60, 0, 150, 1, stops={"hanging": 0, "level": 90, "overhead": 150}, main=True
            ),
            "plane_deg": slider("Plane [° in front of the side]", 0, -20, 110, 5),
            "deeper_mm": slider("Insertion [mm further down]", 0, -15, 15, 1),
        }
        main, *others = self.sliders.values()
        rows = [w.HBox([self.muscle, self.turning], layout=WRAP), w.HBox([main]), w.HBox(others, layout=WRAP)]
        super().__init__("lat-panel", figure, rows)
        self.follow(self.muscle, self.turning, *self.sliders.values())

    def make_views(self, figure):
        """Two views of the muscle, its moment arms and, where there is room, its length over elevation, the published band."""
        sheet = self.sheet
        self.views = [MuscleView(sheet.axes(figure, title), title) for title in ("from behind", "from the side")]

        def curves(place, y, looks):
            return TorqueCurves(
                sheet.axes(figure, place),
                sheet.labels["x"],
                ELEVATIONS[[0, -1]],
                y,
                looks,
                unit="mm",
                strip="insertion",
                up=22,
            )

        self.curves = curves("curves", sheet.labels["y"], AXIS_LOOK | ROTATION_LOOK)
        has_lengths = "lengths" in sheet.places
        self.lengths = curves("lengths", sheet.labels["lengths"], LENGTH_LOOK) if has_lengths else None
        self.ghosts = tuple(filter(None, (*self.views, self.curves, self.lengths)))
        axes = self.curves.axes
        self.published = axes.add_patch(
            Polygon([(0, 0)], facecolor="none", edgecolor=GREY, lw=1.2, ls="--", zorder=1, animated=True)
        )
        self.published_words = label(axes, GREY, ha="right", va="bottom", transform=axes.transAxes)
        self.published_words.set_position((0.99, 0.02))

    @staticmethod
    def _moved_paths(values, deeper, body=None):
        """The three path sets of a body with the insertion of the muscle in ``values`` moved down the shaft by ``deeper``. [m]"""
        which = shoulder_muscles().index(values["muscle"])
        moved = []
        for paths_here in body.paths if body else path_sets():
            shift = np.where((paths_here.rows == which)[:, None], [0.0, -deeper, 0.0], 0.0)
            insertion = paths_here.insertion + shift
            moved.append(paths_here.moved(paths_here.origin, insertion, clear=0.999))  # an unmoved one keeps its sphere
        return tuple(moved)

    def _insertion_doubt(self):
        """How far footprints let the insertion slide along the shaft. [m]"""
        row = next(row for row in landmarks() if row["muscle"] == self.muscle.value)
        return float(row["insertion_range_mm"]) / 1000

    def _arms(self, values, elevation_deg, deeper, body=None):
        """Moment arms (..., 4) and lengths (...) of a body, the reference one without it, in millimetres."""
        elevation, plane = np.radians(elevation_deg), np.radians(values["plane_deg"])
        humerus = raised_arm(elevation, plane)
        rhythm = body.rhythm if body else 1.0
        scapula = turned_scapula(elevation, plane, rhythm=rhythm) if values["turning"] else np.eye(3)
        which, sets = shoulder_muscles().index(values["muscle"]), self._moved_paths(values, deeper, body)
        arms = moment_arms(humerus, scapula, sets)[..., which, :]
        return 1000 * arms, 1000 * paths(humerus, scapula, sets)[0][..., which]

    def read(self):
        values = {name: control.place for name, control in self.sliders.items()}
        values |= {"muscle": self.muscle.value, "turning": self.turning.value}
        deeper, x = values["deeper_mm"] / 1000, np.r_[ELEVATIONS, values["elevation_deg"]]
        arms, length = self._arms(values, x, deeper)
        doubt = self._insertion_doubt()
        ends = [self._arms(values, x, deeper + shift) for shift in (-doubt, doubt)]
        margin = np.max([np.abs(end - arms) for end, _ in ends], axis=0)
        longer = length - length[0]
        sure = np.max([np.abs(end - end[0] - longer) for _, end in ends], axis=0)
        return LatState(values, arms[:-1], margin[:-1], longer[:-1], arms[-1], margin[-1], float(longer[-1]), sure)

    def draw(self, state):
        elevation, plane = np.radians(state.values["elevation_deg"]), np.radians(state.values["plane_deg"])
        humerus = raised_arm(elevation, plane)
        scapula = turned_scapula(elevation, plane) if state.values["turning"] else np.eye(3)
        sets = self._moved_paths(state.values, state.values["deeper_mm"] / 1000)
        path = path_points(state.values["muscle"], humerus, scapula, sets)
        elbow = posed_arm(Lifter.average("men"), elevation, plane, 0.0).elbow
        for view in self.views:
            view.show(path, elbow)
        self._published(state)
        x_now = state.values["elevation_deg"]
        self.curves.show(ELEVATIONS, state.arms, state.margin, x_now, state.now, state.now_margin)
        if self.lengths:
            doubt, last = state.longer_margin[:-1, None], state.longer_margin[-1:]
            self.lengths.show(ELEVATIONS, state.longer[:, None], doubt, x_now, [state.now_longer], last)

    def ask(self, state):
        x = np.r_[ELEVATIONS, state.values["elevation_deg"]]
        deeper = state.values["deeper_mm"] / 1000
        return Question(
            tuple(state.values.items()),
            lambda _, drawn: self._arms(state.values, x, deeper, drawn.body)[0],
            Who(None),
            None,
            *self.counts,
        )

    def draw_bands(self, state, answers):
        ends = np.stack(answers.bands[1], axis=-1)
        which = int(np.argmax(np.abs(state.now)))
        along = which, ELEVATIONS, ends[:-1, which]
        self.curves.show_bands(state.values["elevation_deg"], None, ends[-1], along)

    def say_bands(self, state, answers, kept, its):
        now, change = state.now, {}
        if kept is None or kept.values == state.values:
            which = int(np.argmax(np.abs(now)))
            ends, words = answers.at(-1, which), f" mm to {SERVES[MUSCLE_AXES[which]][int(now[which] < 0)]}"
        else:
            which = int(np.argmax(np.abs(now - kept.now)))
            ends, words = answers.change(its, (-1, which), (-1, which), same_people=False), " mm"
            change = {"change_of": f"the lever for {SIDES[MUSCLE_AXES[which]][0]}"}
        swapped = not change and bool(now[which] < 0)
        return f"{self.both_bands('', *ends, words, swapped=swapped, **change)} {ONE_BODY}"

    def band_columns(self, state, answers):
        return {
            f"{axis.replace('_', ' ')} arm not known {end} [mm]": values[:-1, k]
            for end, values in answers.bands[1]._asdict().items()
            for k, axis in enumerate(MUSCLE_AXES)
        }

    def _published(self, state):
        here = state.values["muscle"], state.values["plane_deg"]
        known = [row for row in PUBLISHED if (row["muscle"], float(row["plane_deg"])) == here]
        self.published.set_visible(bool(known))
        self.published_words.set_text("dashed: from measured lines" if known else "")
        if known:
            x, middle, band = np.array(
                [[float(row[k]) for k in ("elevation_deg", "arm_mm", "band_mm")] for row in known]
            ).T
            self.published.set_xy(np.column_stack([np.r_[x, x[::-1]], np.r_[middle + band, (middle - band)[::-1]]]))

    def set_up(self, state):
        v = state.values
        return f"{v['muscle'].capitalize()}, arm raised {v['elevation_deg']:.0f}° {plane_words(v['plane_deg'])}"

    def verdict(self, state):
        order = np.argsort(-np.abs(np.round(state.now)), kind="stable")
        parts = [
            f"{with_margin(abs(state.now[i]), state.now_margin[i])} mm to {SERVES[MUSCLE_AXES[i]][int(state.now[i] < 0)]}"
            for i in order
            if round(abs(state.now[i]))
        ]
        if not parts:
            return "Here the muscle has no lever about the shoulder."
        return f"Its lever here: {listed(parts)}."

    def small(self, state):
        best = ELEVATIONS[np.argmax(np.abs(state.arms[:, :3]).max(axis=1))]
        way = "longer" if state.now_longer >= 0 else "shorter"
        return (
            f"Its largest moment arm is at {best:.0f}°. Its path is {abs(state.now_longer):.0f} mm {way} than with the arm "
            "hanging. The ± is an insertion 1 cm higher or lower; landmarks are partly from memory."
        )

    def brief(self, state):
        return "The ± is an insertion 1 cm higher or lower; landmarks are partly from memory."

    def compare(self, state, kept):
        same = kept.values["muscle"] == state.values["muscle"]
        whose = "" if same else f"{kept.values['muscle']}, "
        told = np.arange(len(state.now))
        if self.on_projector:  # there is room for what changed most
            told = np.argsort(-np.abs(state.now - kept.now), kind="stable")[:2]
        names = {MUSCLE_AXES[i]: SIDES[MUSCLE_AXES[i]] for i in told}
        change = torque_change_words(state.now[told], kept.now[told], names, "mm")
        most = ", above all" if self.on_projector else ""
        return f"Against the kept one ({whose}{kept.values['elevation_deg']:.0f}°){most}: {change}."

    def table(self, state):
        columns = {"elevation [deg]": ELEVATIONS}
        columns |= {f"{axis.replace('_', ' ')} arm [mm]": state.arms[:, k] for k, axis in enumerate(MUSCLE_AXES)}
        return number_rows(columns | {"longer than hanging [mm]": state.longer})

    def setup(self, state):
        return values_text(self.name, state.values | {"bands": self.bands.is_on})

    def checked(self, content):
        limits = {name: (control.min, control.max) for name, control in self.sliders.items()}
        return read_values(
            self.name, content, {"muscle": shoulder_muscles(), "turning": bool, **limits, "bands": bool}, ("bands",)
        )

    def put(self, checked):
        values = checked
        self.muscle.value, self.turning.value = values["muscle"], values["turning"]
        for name, control in self.sliders.items():
            control.value = values[name]
        self.bands.switch.value = values.get("bands", self.bands.start)


def plane_words(degrees):
    """Where a raised arm points, by the plane it is raised in."""
    if round(degrees) == 0:
        return "straight out to the side"
    if round(degrees) == 90:
        return "straight ahead"
    return f"in a plane {written(degrees)}° in front of the side"
