"""Many rows in blocks, so that working memory does not grow with their number."""

import numpy as np


def blocks(count, size):
    """Slices of at most ``size`` rows that cover ``count`` rows in order; at least one, if empty.

    Parameters
    ----------
    count, size : int
        Rows, and rows at once.

    >>> blocks(5, 2)
    [slice(0, 2, None), slice(2, 4, None), slice(4, 5, None)]
    """
    return [slice(start, min(start + size, count)) for start in range(0, count, size)] or [slice(0, 0)]


def in_blocks(compute, count, size):
    """What ``compute`` gives for blocks of rows, put together again.

    Parameters
    ----------
    compute : callable
        Takes a slice of the rows, gives a sequence of arrays with as many rows.
    count, size : int
        Rows, and rows at once.

    Returns
    -------
    list of ndarray, shape (count, ...)

    >>> x = np.arange(3.0)
    >>> in_blocks(lambda here: (x[here] + 1, -x[here]), 3, 2)
    [array([1., 2., 3.]), array([-0., -1., -2.])]
    """
    wholes = None
    for here in blocks(count, size):
        parts = compute(here)
        if here == slice(0, count):
            return list(parts)
        if wholes is None:
            wholes = [np.empty((count, *part.shape[1:]), part.dtype) for part in parts]
        for whole, part in zip(wholes, parts, strict=True):
            whole[here] = part
    return wholes
