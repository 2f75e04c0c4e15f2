"""Reps of many people over many set-ups, worked out as far as somebody asks and no further."""

from functools import cached_property

import numpy as np

from ..inputs import choice
from ..mechanics import rep_mechanics
from ..muscles import muscle_geometry
from .counted_part import counted_mean, first_counted
from .rep_and_sweep import (
    VARIABLES,
    at_full_size,
    crowd_of,
    geometry_variables,
    load_variables,
    muscle_variables,
    on_axes,
    supply_variables,
)
from .supply import activations, largest_loads, supply

OF_MUSCLES = ("scapular_upward_rotation", "muscle_moment_arm", "elbow_moment_arm", "girdle_moment_arm", "muscle_length")
OF_SUPPLY = (
    "capacity", "activation", "adds_kg", "shortfall", "side_force", "largest_load_kg", "gives_out", "whole_rep_load_kg",
)  # fmt: skip
OF_LOADS = (
    "force", "shoulder_torque", "elbow_torque", "girdle_torque", "shoulder_turn", "elbow_turn", "girdle_turn",
)  # fmt: skip


class ManyReps:
    """One rep for each lifter of a crowd and each combination of some fields' values.

    Parameters
    ----------
    lifter : people.Lifter
        One lifter or a crowd.
    pull : mechanics.Pull
    options : options.RepOptions
    fields : dict
        Name of a field of `mechanics.pull.ALLOWED` -> values (n,), in its unit.

    Attributes
    ----------
    shape : tuple
        Whole numbers: people, then each field's values.
    """

    def __init__(self, lifter, pull, options, fields):
        crowd = crowd_of(lifter)
        self.shape = (*crowd, *(len(values) for values in fields.values()))
        self._active = {}
        self.lifter, self.pull, self.options = on_axes(lifter, pull, options, crowd, fields)

    @cached_property
    def whole(self):
        """The `mechanics.RepMechanics`, lengths in metres."""
        return rep_mechanics(self.lifter, self.pull, self.options.points, arm_weight=self.options.arm_weight)

    @cached_property
    def geometry(self):
        """The `muscles.MuscleGeometry`, lengths in metres."""
        return muscle_geometry(
            self.whole.posture, self.whole.path.girdle, self.options.body_of(), self.options.compiled
        )

    @cached_property
    def torques(self):
        """The `mechanics.JointTorques` at the pull's own load, which broadcast over ``shape`` and points. [N m]"""
        return self.whole.cases.total(np.asarray(self.pull.mass_on_bar(self.lifter), float))

    @cached_property
    def load_kg(self):
        """The largest load of the counted part of each rep, (..., 1); NaN where not even the arm is held. [kg]"""
        loads = largest_loads(self.lifter, self.pull, self.whole, self.geometry, self.options)
        loads = np.broadcast_to(loads, (*self.shape, self.options.points))
        return loads[..., first_counted(self.options.points) :].min(axis=-1, keepdims=True)

    def active_cross_section(self, effort):
        """Activation × cross-section averaged over the counted part, at a share ``effort`` of the largest load. (..., muscle) [cm²]"""
        if effort not in self._active:
            kg = effort * self.load_kg
            active = activations(self.lifter, self.pull, self.whole, self.geometry, self.options, kg)
            self._active[effort] = counted_mean(active) * self.options.body_of().cross_section
        return self._active[effort]

    def variable(self, name):
        """A variable of `rep_and_sweep.rep` by ``name`` (text): its trailing dims and its array (..., dims), in its unit."""
        choice("variable", name, tuple(VARIABLES))
        if name in OF_MUSCLES:
            found = muscle_variables(self.geometry)
        elif name in OF_SUPPLY:
            found = supply_variables(supply(self.lifter, self.pull, self.whole, self.geometry, self.options))
        elif name in OF_LOADS:
            found = load_variables(self.whole, self.lifter, self.pull)
        else:
            found = geometry_variables(self.whole, self.pull)
        dims, values = found[name]
        return dims, at_full_size(dims, values, self.shape, self.options.points)
