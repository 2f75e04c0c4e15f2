"""A muscle's path in its own plane, in symbols: what `paths` computes, derived.

``o`` and ``i`` are the distances of origin and insertion from the joint's centre, ``gamma`` the angle
between them, ``R`` the radius of the sphere. Raising the arm changes ``gamma`` only; the moment arm
about the plane's normal is the slope of the length, positive where the pull closes ``gamma``.
"""

import sympy as sp

o, i, R = sp.symbols("o i R", positive=True)
gamma = sp.symbols("gamma", positive=True)


def straight_length():
    """Length of the straight path in the symbols above, by the law of cosines."""
    return sp.sqrt(o**2 + i**2 - 2 * o * i * sp.cos(gamma))


def wrapped_length():
    """Two tangents and the arc between them, in symbols."""
    arc = gamma - sp.acos(R / o) - sp.acos(R / i)
    return sp.sqrt(o**2 - R**2) + sp.sqrt(i**2 - R**2) + R * arc


def moment_arm(length):
    """The slope of a ``length`` (an expression) against ``gamma``, simplified: a moment arm in symbols."""
    return sp.simplify(sp.diff(length, gamma))


def line_distance():
    """Distance of the straight line from the centre in symbols: twice the triangle's area over its base."""
    return o * i * sp.sin(gamma) / straight_length()


def wrap_angle():
    """The angle at which the straight line touches the sphere, in symbols; beyond it the path wraps."""
    return sp.acos(R / o) + sp.acos(R / i)


def wrapped_minus_straight_at_touch():
    """Difference of the two lengths, in symbols, where the line just touches the sphere: 0, so nothing jumps."""
    touching = {gamma: wrap_angle()}
    return sp.simplify(wrapped_length().subs(touching) ** 2 - sp.expand_trig(straight_length().subs(touching) ** 2))


def length():
    """The length in symbols, whatever the angle: straight up to `wrap_angle`, wrapped beyond."""
    return sp.Piecewise((straight_length(), gamma <= wrap_angle()), (wrapped_length(), True))
