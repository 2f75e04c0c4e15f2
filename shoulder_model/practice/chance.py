"""Chance with a seed: the same draws on every machine and in every edition of Python.

`random.Random.random` is the one call whose numbers Python promises to keep for a seed; everything else is made of it here.
"""

import random


class Chance:
    """Draws that hang on a ``seed`` (text or whole number) and on nothing else."""

    def __init__(self, seed):
        self._source = random.Random(str(seed))

    def place(self, count):
        """A whole number from 0 to below ``count``, a whole number."""
        return int(self._source.random() * count)

    def number(self, low, high, step):
        """A number from ``low`` to ``high``, both included, in steps of ``step``; all in the caller's unit.

        >>> Chance("a gym").number(20, 60, 2.5) % 2.5
        0.0
        """
        steps = self.place(round((high - low) / step) + 1)
        value = round(low + steps * step, 6)
        return int(value) if float(step).is_integer() and float(low).is_integer() else value

    def one_of(self, things):
        """One of some ``things``, a sequence with names or values."""
        return things[self.place(len(things))]

    def shuffled(self, things):
        """All ``things``, a sequence, as a tuple in a new order."""
        left = list(things)
        return tuple(left.pop(self.place(len(left))) for _ in range(len(left)))

    def some(self, things, count):
        """So many different ones of ``things``, as a tuple; ``count`` is a whole number."""
        return self.shuffled(things)[:count]
