"""Makes every figure: ``python figures/build.py [name ...]`` writes name.svg and name.png beside its recipe.

A lecture and slides have the same figures with letters for a projector, as projector/name.svg.

A recipe is a file here with ``WORDS``, the text that stands for the picture, and ``stage()``, which
returns a `shoulder_model.draw.stage.Stage`; where things stand on a page and for a projector it
says in one table (``LAYOUT``). Pages embed the SVG with ``WORDS`` as its alt text.

A recipe called ``..._film`` has ``film()`` in its place, images and the seconds that each stands, and
becomes name.gif, which plays twice and then rests.
"""

import importlib.util
import sys
from functools import cache
from pathlib import Path

from PIL import Image

from shoulder_model.draw.look import projector

HERE = Path(__file__).parent
COLOURS = 128  # of a film


def films():
    """Names of the recipes of a moving picture."""
    return sorted(path.stem for path in HERE.glob("*_film.py"))


def recipes():
    """Names of the recipes of a still picture."""
    return sorted(path.stem for path in HERE.glob("*.py") if path.stem not in ("build", *films()))


@cache
def recipe(name):
    """The module of one recipe; some work out their numbers when they are loaded."""
    spec = importlib.util.spec_from_file_location(f"figure_{name}", HERE / f"{name}.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def build_film(name, folder=HERE):
    """Draw one moving picture into ``folder``, with the same colours all through."""
    images, seconds = zip(*recipe(name).film(), strict=True)
    palette = images[0].quantize(COLOURS)
    first, *others = [image.quantize(palette=palette, dither=Image.Dither.NONE) for image in images]
    times = [round(1000 * one) for one in seconds]
    first.save(folder / f"{name}.gif", save_all=True, append_images=others, duration=times, loop=1, optimize=True)


def plain_letters(svg):
    """An SVG's bytes in ASCII, other letters as references: pages that pass a picture on letter by letter know no others."""
    return svg.decode("utf-8").encode("ascii", "xmlcharrefreplace")


def build(name, folder=HERE):
    """Draw one figure into ``folder`` as SVG and PNG, and for a projector; a film as GIF."""
    if name in films():
        return build_film(name, folder)
    stage = recipe(name).stage()
    (folder / f"{name}.png").write_bytes(stage.save("png"))
    (folder / f"{name}.svg").write_bytes(plain_letters(stage.save("svg")))
    with projector():
        large = recipe(name).stage()
    (folder / "projector").mkdir(exist_ok=True)
    (folder / "projector" / f"{name}.svg").write_bytes(plain_letters(large.save("svg")))


if __name__ == "__main__":
    for wanted in sys.argv[1:] or [*recipes(), *films()]:
        build(wanted)
        print(f"{wanted}: {recipe(wanted).WORDS}")
