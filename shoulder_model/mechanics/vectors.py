"""Vectors with their three components last."""

import numpy as np


def stack(x, y, z):
    """Vectors (..., 3) from components ``x``, ``y``, ``z`` that broadcast, in any one unit."""
    return np.stack(np.broadcast_arrays(x, y, z), axis=-1)


def dot(p, q):
    """Dot product (...) of ``p`` and ``q`` (..., 3), in the product of their units."""
    return np.einsum("...i,...i->...", p, q)


def cross(p, q):
    """Cross product (..., 3) of ``p`` and ``q`` (..., 3), in the product of their units; faster than the general one."""
    px, py, pz = np.moveaxis(p, -1, 0)
    qx, qy, qz = np.moveaxis(q, -1, 0)
    return stack(py * qz - pz * qy, pz * qx - px * qz, px * qy - py * qx)


def unit(v):
    """Vectors of length 1, without unit, along ``v`` (..., 3)."""
    return v / np.sqrt(dot(v, v))[..., None]
