"""Places of a picture that can be picked, with letters in an order that tells nothing."""

from ...document.scene import Mark


def lettered(chance, places):
    """Marks for some places, with letters in an order that tells nothing.

    Parameters
    ----------
    chance : chance.Chance
    places : dict
        Name -> x, y of a picture 100 wide, and words that say where it is.

    Returns
    -------
    tuple of scene.Mark, in the order of their letters, and dict
        Name -> letter.
    """
    names = chance.shuffled(places)
    letters = dict(zip(names, "ABCDEFGH", strict=False))
    return tuple(Mark(letters[name], *places[name]) for name in names), letters


def line_between(letters, one, other):
    """The answer that joins two named places: their letters as text, in the order of the alphabet.

    ``letters`` is the dict of `lettered`; ``one`` and ``other`` are names.
    """
    return "".join(sorted((letters[one], letters[other])))
