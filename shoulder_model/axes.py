"""Names of axes, components and joints, in the order that arrays have them; signs.

Vectors are in thorax axes (X forward, Y up along the trunk, Z right; ISB, J Biomech 2005;38:981). A torque is
what a pulling lifter's right side supplies: about X it adducts, about -Z it extends, about -Y it abducts
horizontally. About the sternoclavicular (SC) joint -Y retracts the girdle and X depresses it.
"""

AXES = ("adduction", "extension", "horizontal_abduction")  # of the shoulder
OPPOSITE = dict(zip(AXES, ("abduction", "flexion", "horizontal adduction"), strict=True))
MUSCLE_AXES = (*AXES, "internal_rotation")  # the last about the humerus' own shaft
GIRDLE_AXES = ("retraction", "depression")
JOINTS = ("shoulder", "elbow", "girdle")
SPACE = ("forward", "up", "right")


def movement(axis, value):
    """The movement that a component of this sign makes, in words.

    Parameters
    ----------
    axis : str
        One of `AXES`.
    value : float
        Of either sign, in any unit.

    >>> movement("extension", 3.0), movement("horizontal_abduction", -3.0)
    ('extension', 'horizontal adduction')
    """
    return axis.replace("_", " ") if value > 0 else OPPOSITE[axis]
