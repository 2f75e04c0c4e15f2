"""Muscle groups that a week has targets for, and the kind of the model's figures that is read for them."""

GROUPS = ("lat", "mid-back")  # the elbow flexors are counted beside them
KIND = "active muscle"  # a muscle that holds the blade is trained, too
