"""Makes every figure: ``python figures/build.py [name ...]`` writes name.svg and name.png beside its recipe.

A lecture and slides have the same figures with letters for a projector, as projector/name.svg.

A recipe is a file here with ``WORDS``, the text that stands for the picture, and ``stage()``, which
returns a `shoulder_model.draw.stage.Stage`; where things stand on a page and for a projector it
says in one table (``LAYOUT``). Pages embed the SVG with ``WORDS`` as its alt text.
"""

import importlib.util
import sys
from functools import cache
from pathlib import Path

from shoulder_model.draw.look import projector

HERE = Path(__file__).parent


def recipes():
    """Names of all recipes."""
    return sorted(path.stem for path in HERE.glob("*.py") if path.stem != "build")


@cache
def recipe(name):
    """The module of one recipe; some work out their numbers when they are loaded."""
    spec = importlib.util.spec_from_file_location(f"figure_{name}", HERE / f"{name}.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def build(name, folder=HERE):
    """Draw one figure into ``folder`` as SVG and PNG, and for a projector."""
    stage = recipe(name).stage()
    for kind in ("svg", "png"):
        (folder / f"{name}.{kind}").write_bytes(stage.save(kind))
    with projector():
        large = recipe(name).stage()
    (folder / "projector").mkdir(exist_ok=True)
    (folder / "projector" / f"{name}.svg").write_bytes(large.save("svg"))


if __name__ == "__main__":
    for wanted in sys.argv[1:] or recipes():
        build(wanted)
        print(f"{wanted}: {recipe(wanted).WORDS}")
