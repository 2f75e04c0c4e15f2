"""A number of the world is a row of ``data/``, never a literal: finds the literals in the rooms that compute."""

import ast
import math
from pathlib import Path

import pytest

import shoulder_model as sm

HOME = Path(sm.__file__).parent
ROOMS = ("people", "mechanics", "muscles", "sharing", "repetition", "week", "training", "evidence")
TRIVIAL = {0.0, 1.0, 2.0, 0.5}
WHAT_MAY_GO_IN = "Allowed"  # bounds of an input, which say themselves what to do
ANGLES = ("radians", "deg2rad")  # whole numbers in them are degrees
NO_ROW = {  # file or room, and the name it is given or the function it stands in -> why it needs no row
    ("sharing", ""): "solvers: arrays in, arrays out; steps and tolerances of an iteration",
    ("evidence/six_invented.py", ""): "invented trials, and called so",
    ("people/by_waist.py", "REACH"): "where an open end of a table is cut",
    ("people/lifter.py", "SPREAD"): "what may go in",
    ("people/lifter.py", "FLOOR"): "what may go in",
    ("people/silhouette.py", "SIDES_GAIN"): "geometry: a layer round a circle, and on a flat outline",
    ("mechanics/arm.py", "ROUNDED"): "a tolerance",
    ("mechanics/ribs.py", "STEP"): "steps of a search, and where it ends",
    ("mechanics/pull.py", "Pull"): "the set-up that a new pull begins with",
    ("muscles/body.py", "_moved_paths"): "keeps a drawn end off its sphere",
    ("muscles/scapula.py", "UPWARD_DEG"): "heads of columns",
    ("muscles/scapula.py", "measured_turn"): "an arm straight up",
    (
        "repetition/repetition_maximum.py",
        "SHARES",
    ): "the equations that rep_equations.csv prints; tests hold the two together",
    ("repetition/repetition_maximum.py", "measured_pulldown"): "says the outcome's own name, at 80 per cent",
    ("repetition/range_of_motion.py", "FULL_ELEVATION"): "steps between postures",
    ("repetition/range_of_motion.py", "FULL_PLANES"): "steps between postures",
    ("repetition/strength.py", "_change"): "a step of a search",
    ("repetition/strength.py", "calibrated"): "postures in which the strongest is looked for",
    ("repetition/supply.py", "AT_LIMIT"): "a tolerance",
    ("evidence/effect_size.py", "Z95"): "what an interval of 95 % is",
    ("evidence/effect_size.py", "t_quantile"): "what an interval of 95 % is",
    ("evidence/own_trial.py", "HIGHEST_CORRELATION"): "keeps a sum of few people finite",
    ("evidence/power.py", "FURTHEST"): "where a search ends",
    ("training/log.py", "_pull"): "how alike two words are",
}


class Literals(ast.NodeVisitor):
    """Literals of a file that may be numbers of the world: value, line, and the name they are given or stand in."""

    def __init__(self, text):
        self.found, self.names, self.in_degrees = [], [], False
        self.visit(ast.parse(text))

    def visit_Call(self, node):
        name = getattr(node.func, "attr", getattr(node.func, "id", ""))
        if name == WHAT_MAY_GO_IN:
            return
        before, self.in_degrees = self.in_degrees, self.in_degrees or name in ANGLES
        self.generic_visit(node)
        self.in_degrees = before

    def _inside(self, node, name):
        self.names.append(name)
        self.generic_visit(node)
        self.names.pop()

    def visit_FunctionDef(self, node):
        self._inside(node, node.name)

    visit_ClassDef = visit_FunctionDef

    def visit_Assign(self, node):
        first = node.targets[0].elts[0] if isinstance(node.targets[0], ast.Tuple) else node.targets[0]
        self._inside(node, getattr(first, "id", ""))

    def visit_Constant(self, node):
        kinds = (float, int) if self.in_degrees else (float,)
        if type(node.value) in kinds and not _trivial(node.value):
            self.found.append((node.value, node.lineno, self.names[0] if self.names else ""))


def _trivial(value):
    """0, 1, 2, a half, and powers of ten, which turn units and are tolerances."""
    size = abs(value)
    return size in TRIVIAL or math.isclose(10 ** round(math.log10(size)), size, rel_tol=1e-9)


def without_row(text, place):
    """Literals of a file's text that are no row and no explained exception; ``place`` is its path in the package."""
    explained = {name for where, name in NO_ROW if where in (place, place.partition("/")[0])}
    return [(*literal, place) for literal in Literals(text).found if not explained & {"", literal[2]}]


FILES = [path.relative_to(HOME).as_posix() for room in ROOMS for path in sorted((HOME / room).glob("*.py"))]


@pytest.mark.parametrize("place", FILES)
def test_no_number_of_the_world_is_a_literal(place):
    assert without_row((HOME / place).read_text(encoding="utf-8"), place) == []


def test_every_exception_is_still_needed():
    for place, name in NO_ROW:
        files = [one for one in FILES if one == place or one.startswith(f"{place}/")]
        found = [literal for one in files for literal in Literals((HOME / one).read_text(encoding="utf-8")).found]
        assert any(name in ("", literal[2]) for literal in found), (place, name)


@pytest.mark.parametrize(
    ("text", "values"),
    [
        ("DENSITY = 1.06", [1.06]),
        ("def arm(x):\n    return 0.31 * x", [0.31]),
        ("def arm(x, share=0.31):\n    return share * x", [0.31]),
        ("TILT = np.radians(35)", [35]),
        ("PARTS = {'front': 0.3, 'side': (0.25, 0.45)}", [0.3, 0.25, 0.45]),
        ("class A:\n    length: float = 0.29", [0.29]),
        ("TO_CM, HALF, NONE = 100.0, 0.5, 0.0", []),
        ("CLOSE = 1e-9", []),
        ("MASS = Allowed(20.0, 300.0, 'kg', 'give the mass')", []),
        ("rows = table[3:7]", []),
    ],
)
def test_the_finder_finds_an_artificial_offender(text, values):
    assert [value for value, *_ in without_row(text, "people/invented.py")] == values
