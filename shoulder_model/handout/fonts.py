"""DejaVu, which matplotlib brings along, cut down to the characters of one page and put into its style sheet."""

import base64
import io
from functools import lru_cache
from pathlib import Path

import matplotlib as mpl
from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont

FACES = (  # family, weight, style, file
    ("DejaVu Sans", 400, "normal", "DejaVuSans.ttf"),
    ("DejaVu Sans", 700, "normal", "DejaVuSans-Bold.ttf"),
    ("DejaVu Sans", 400, "italic", "DejaVuSans-Oblique.ttf"),
    ("DejaVu Sans Mono", 400, "normal", "DejaVuSansMono.ttf"),
)
FOLDER = Path(mpl.get_data_path()) / "fonts" / "ttf"


def font_faces(text):
    """``@font-face`` rules (text) with every character of ``text`` (str), four faces, as WOFF in the rules themselves."""
    characters = frozenset(character for character in text if character.isprintable()) | {" "}
    return "\n".join(
        f"@font-face {{ font-family: '{family}'; font-weight: {weight}; font-style: {style}; "
        f"src: url(data:font/woff;base64,{base64.b64encode(subset(file, characters)).decode()}) format('woff'); }}"
        for family, weight, style, file in FACES
    )


@lru_cache(maxsize=32)
def subset(file, characters):
    """One of matplotlib's fonts with some characters only.

    Parameters
    ----------
    file : str
        Its name among matplotlib's fonts.
    characters : frozenset of str
        Those that the font does not have are left out.

    Returns
    -------
    bytes
        WOFF, text of no other format.
    """
    options = Options(hinting=False, layout_features=["kern"], notdef_outline=True, name_IDs=[], drop_tables=["FFTM"])
    with TTFont(FOLDER / file, lazy=True) as font:
        cut = Subsetter(options)
        cut.populate(unicodes=[ord(character) for character in characters])
        cut.subset(font)
        font.flavor = "woff"
        store = io.BytesIO()
        font.save(store)
    return store.getvalue()
