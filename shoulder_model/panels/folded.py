"""Lines that a reader unfolds, and lines that say what was checked: for the worked numbers of a chapter."""

import contextlib
import io
from html import escape

import numpy as np
from IPython.display import Markdown, display


@contextlib.contextmanager
def folded(title="Answer"):
    """Collect what is printed inside and show it under a line to click; a `Guess` above opens it.

    >>> with folded("Answer"):  # doctest: +SKIP
    ...     print("25.5 N m")
    """
    printed = io.StringIO()
    with contextlib.redirect_stdout(printed):
        yield
    lines = escape(printed.getvalue().rstrip("\n"), quote=False).split("\n")
    lines = "\n".join(line if line.strip() else "&nbsp;" for line in lines)  # a blank line would end the fold
    display(Markdown(f"<details><summary>{escape(title)}</summary><pre>{lines}</pre></details>"))


def checked(words, value, by_hand=True, within=0.0, unit=""):
    """Print that ``value`` is what the hand says, or fail loudly.

    Parameters
    ----------
    words : str
        How it is worked out by hand, such as "147.1 N × 10.7 cm"; or, without ``by_hand``, what must be true.
    value : float, array_like or bool
        The model's, in ``unit``.
    by_hand : float or array_like, optional
        The same by hand. [unit]
    within : float
        How far apart they may be. [unit]
    unit : str

    Raises
    ------
    AssertionError
        With both numbers.

    >>> checked("147.1 N × 10.7 cm", 15.73, 15.7, within=0.05, unit="N m")
    ✓ checked by hand: 147.1 N × 10.7 cm = 15.7 N m
    >>> checked("both shoulders are level", True)
    ✓ checked: both shoulders are level
    """
    if by_hand is True:
        assert np.all(value), f"✗ this does not hold: {words}"
        print(f"✓ checked: {words}")
        return
    apart = float(np.max(np.abs(np.asarray(value, float) - by_hand)))
    shown = f"{by_hand:.4g} {unit}".strip() if np.ndim(by_hand) == 0 else ""
    assert apart <= within, f"✗ by hand {words} = {by_hand} {unit}, but the model says {value}"
    print(f"✓ checked by hand: {words}{f' = {shown}' if shown else ''}".replace("= -", "= −"))
