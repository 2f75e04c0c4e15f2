"""Vectors with their three components last, by sums that are written out.

`numpy.einsum` and products of matrices add up in an order that hangs on how many vectors there are and how they lie in memory,
so the last bit of one would change with its neighbours.
"""

import numpy as np


def stack(x, y, z):
    """Vectors (..., 3) from components ``x``, ``y``, ``z`` that broadcast, in any one unit."""
    vectors = np.empty((*np.broadcast_shapes(np.shape(x), np.shape(y), np.shape(z)), 3))
    vectors[..., 0], vectors[..., 1], vectors[..., 2] = x, y, z
    return vectors


def dot(p, q):
    """Dot product (...) of ``p`` and ``q`` (..., 3), in the product of their units."""
    return p[..., 0] * q[..., 0] + p[..., 1] * q[..., 1] + p[..., 2] * q[..., 2]


def cross(p, q):
    """Cross product (..., 3) of ``p`` and ``q`` (..., 3), in the product of their units; faster than the general one."""
    px, py, pz = p[..., 0], p[..., 1], p[..., 2]
    qx, qy, qz = q[..., 0], q[..., 1], q[..., 2]
    return stack(py * qz - pz * qy, pz * qx - px * qz, px * qy - py * qx)


def turned(axes, v):
    """Vectors (..., 3) of a bone with ``axes`` (..., 3, 3) as columns, from ``v`` (..., 3) in the bone's axes, in their unit."""
    return axes[..., 0] * v[..., 0, None] + axes[..., 1] * v[..., 1, None] + axes[..., 2] * v[..., 2, None]


def unit(v):
    """Vectors of length 1, without unit, along ``v`` (..., 3)."""
    return v / np.sqrt(dot(v, v))[..., None]
