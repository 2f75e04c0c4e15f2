"""Vectors with their three components last."""

import numpy as np


def stack(x, y, z):
    """Vectors (..., 3) from components ``x``, ``y``, ``z`` that broadcast, in any one unit."""
    vectors = np.empty((*np.broadcast_shapes(np.shape(x), np.shape(y), np.shape(z)), 3))
    vectors[..., 0], vectors[..., 1], vectors[..., 2] = x, y, z
    return vectors


def dot(p, q):
    """Dot product (...) of ``p`` and ``q`` (..., 3), in the product of their units."""
    return np.einsum("...i,...i->...", p, q)


def cross(p, q):
    """Cross product (..., 3) of ``p`` and ``q`` (..., 3), in the product of their units; faster than the general one."""
    px, py, pz = p[..., 0], p[..., 1], p[..., 2]
    qx, qy, qz = q[..., 0], q[..., 1], q[..., 2]
    return stack(py * qz - pz * qy, pz * qx - px * qz, px * qy - py * qx)


def unit(v):
    """Vectors of length 1, without unit, along ``v`` (..., 3)."""
    return v / np.sqrt(dot(v, v))[..., None]
