"""Who may import whom: every import statement of the package, lazy ones too, held to one table."""

import ast
import subprocess
import sys
from pathlib import Path

import pytest

import shoulder_model as sm

HOME = Path(sm.__file__).parent
GROUND = (
    "axes", "blocks", "checkout", "given_file", "in_page", "inputs", "json_file", "printed", "processes", "tables", "table_file", "toml_file", "sources", "words",
)  # fmt: skip
PEOPLE = (*GROUND, "people")
MECHANICS = (*PEOPLE, "mechanics")
MUSCLES = (*MECHANICS, "muscles")
REPETITION = (*MUSCLES, "sharing", "repetition")
NUMBERS = (*REPETITION, "spread", "evidence", "week", "training", "document", "week_page", "register")
ALLOWED = {  # room -> what it may import beside itself
    "axes": (),
    "blocks": (),
    "checkout": ("inputs",),
    "in_page": ("inputs",),
    "inputs": (),
    "tables": (),
    "given_file": ("inputs",),
    "printed": (),
    "processes": (),
    "json_file": ("given_file", "inputs"),
    "table_file": ("given_file", "inputs", "tables"),
    "toml_file": ("given_file", "inputs"),
    "sources": ("inputs", "tables"),
    "words": ("axes", "inputs", "sources"),
    "people": GROUND,
    "mechanics": PEOPLE,
    "muscles": MECHANICS,
    "sharing": ("blocks", "inputs"),
    "repetition": (*MUSCLES, "sharing"),
    "spread": REPETITION,
    "evidence": GROUND,
    "week": REPETITION,
    "training": (*REPETITION, "week"),
    "document": GROUND,
    "register": GROUND,
    "week_page": (*REPETITION, "week", "training", "document"),
    "practice": NUMBERS,
    "homework": (*NUMBERS, "practice"),
    "draw": NUMBERS,
    "panels": (*NUMBERS, "practice", "draw"),
    "lesson": (*NUMBERS, "draw", "panels"),
    "recorded": (*NUMBERS, "draw", "panels"),
    "handout": (*NUMBERS, "draw", "panels", "lesson", "recorded"),
    "lecture": (*NUMBERS, "draw", "panels", "lesson", "handout"),
    "lab": ("checkout", "inputs"),
    "site": (*GROUND, "lab", "recorded", "handout"),
    "recipes": (*NUMBERS, "lab"),
    "__init__": (*NUMBERS, "practice"),
    "__main__": ("checkout", "inputs", "lab", "handout", "lecture", "homework", "site"),
}
OUTSIDE = {  # packages that only some rooms may import
    "matplotlib": ("draw", "panels", "lesson", "handout"),
    "fpdf": ("document/pdf.py",),
    "ipywidgets": ("panels", "recorded/set_up.py", "lecture/panel.py", "lecture/controls.py"),
    "anywidget": ("panels", "lecture/panel.py"),
    "IPython": ("panels", "lesson", "in_page"),
    "nbformat": ("lab", "recipes", "site"),
    "mistune": ("lesson",),
    "latex2mathml": ("lesson",),
    "fontTools": ("handout",),
    "pint": ("practice/quantity.py",),
    "fsrs": ("practice/schedule.py",),
    "platformdirs": ("practice/record.py", "lab/places.py", "site/command.py"),
    "sympy": ("muscles/symbolic.py",),
    "numba": ("muscles/compiled.py",),
    "tqdm": ("spread/workers.py",),
    "zarr": ("spread/study_file.py",),
    "boost_histogram": ("spread/tally.py",),
    "dask": (),
    "distributed": (),
    "scipy": (
        "evidence/effect_size.py",
        "evidence/power.py",
        "practice/exam.py",
        "sharing/facet_walk.py",
        "spread/matters.py",
        "week/programme.py",
        "recipes",
    ),
    "pyodide_js": ("in_page",),
    "jupyterlab": ("lab/server.py",),
    "jupyter_server": ("lab/server.py",),
    "jupyter_client": ("lab", "lecture/check.py"),
    "jupyterhub": ("lab/hub/__main__.py",),
}
FILES = sorted(path.relative_to(HOME) for path in HOME.rglob("*.py"))


def room(path):
    """The room of a file: its folder, or the file itself at the top."""
    return path.parts[0] if len(path.parts) > 1 else path.stem


def imports(path):
    """Modules that a file imports, absolute: shoulder_model.x.y or the name of another package."""
    package = ["shoulder_model", *path.parts[:-1]]
    for node in ast.walk(ast.parse((HOME / path).read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            base = package[: len(package) - node.level + 1] if node.level else []
            module = ".".join([*base, *([node.module] if node.module else [])])
            if module != "shoulder_model":  # `from .. import words` is about words, not about the package's face
                yield module
            yield from (f"{module}.{alias.name}" for alias in node.names)


def test_every_room_is_in_the_table_and_the_table_has_no_other():
    assert {room(path) for path in FILES} == set(ALLOWED)


@pytest.mark.parametrize("path", FILES, ids=str)
def test_a_file_imports_downwards_only(path):
    for module in imports(path):
        first, *rest = module.split(".")
        if first == "shoulder_model":
            other = rest[0] if rest else "__init__"
            assert other == room(path) or other in ALLOWED[room(path)], f"{path} imports {module}"
        elif first in OUTSIDE:
            places = OUTSIDE[first]
            assert room(path) in places or path.as_posix() in places, f"{path} imports {module}"


def test_within_a_room_nobody_goes_round_in_a_circle():
    below = {path: set() for path in FILES}
    by_module = {".".join(["shoulder_model", *path.with_suffix("").parts]): path for path in FILES}
    for path in FILES:
        if path.name != "__init__.py":
            below[path] = {by_module[name] for name in imports(path) if name in by_module} - {path}
    while below:
        ground = [path for path, others in below.items() if not others & set(below)]
        assert ground, f"a circle among {sorted(map(str, below))}"
        for path in ground:
            del below[path]


def test_numbers_come_without_pictures_and_controls():
    code = (
        "import sys, shoulder_model; "
        "print([name for name in ('matplotlib', 'ipywidgets', 'sympy', 'scipy', 'numba') if name in sys.modules])"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert run.stdout.strip() == "[]"


def test_public_names_are_there_and_have_a_docstring():
    for name in sm.__all__:
        assert getattr(sm, name).__doc__ or not callable(getattr(sm, name)), name
    for place in (
        sm.people,
        sm.mechanics,
        sm.muscles,
        sm.sharing,
        sm.repetition,
        sm.evidence,
        sm.week,
        sm.training,
        sm.register,
    ):
        assert place.__doc__ and sorted(place.__all__) == sorted(set(place.__all__))
        for name in place.__all__:
            assert hasattr(place, name), f"{place.__name__}.{name}"
