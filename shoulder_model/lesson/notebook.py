"""Cells of a notebook, read as the JSON that it is: the usual library checks a scheme, and loading that takes seconds."""

import json
from pathlib import Path


def cells(path):
    """Cells of the notebook at ``path`` (path-like, of format 4), in order.

    Returns
    -------
    list of tuple
        Kind ("markdown" or "code") and text of each.

    Raises
    ------
    ValueError
        A file that is no notebook of this format.
    """
    text = Path(path).read_text(encoding="utf-8")
    try:
        return [(cell["cell_type"], "".join(cell["source"])) for cell in json.loads(text)["cells"]]
    except (KeyError, TypeError) as error:
        raise ValueError(f"{path} is no notebook of format 4") from error
