"""A set-up as JSON, and a rep as a table: what a panel saves and opens again."""

import json
from dataclasses import asdict

import numpy as np

from ..inputs import Allowed, InputError, choice, number
from ..mechanics import Pull, pulls
from ..mechanics.pull import FIELDS
from ..people import Lifter
from ..tables import columns_text

PULL_KIND, VALUES_KIND = "pull set-up", "panel set-up"
VERSION = 2  # 2: pulls have a shoulder blade that travels


def _text(kind, **parts):
    return json.dumps({"kind": kind, "version": VERSION, **parts}, indent=1, ensure_ascii=False) + "\n"


def _parts(kind, text, *names):
    """The named parts of a set-up of this kind, as dicts."""
    try:
        content = json.loads(text)
        saved_as = content["kind"], content["version"]
        parts = [dict(content[name]) for name in names] if saved_as == (kind, VERSION) else None
    except (ValueError, KeyError, TypeError):
        raise InputError(
            "set-up", "set-up: this file was not saved by these panels; choose a .json file that a panel saved"
        ) from None
    if parts is None:
        raise InputError(
            "set-up", f"set-up: this is a {saved_as[0]!r}, version {saved_as[1]!r}, not a {kind!r}, version {VERSION}"
        )
    return parts


def setup_text(measures, pull, view):
    """JSON text of one pull set-up.

    Parameters
    ----------
    measures : dict
        ``sex`` and what was measured of the lifter, as `Lifter.from_measures` takes them. [m], [kg]
    pull : Pull
    view : dict
        What the panel adds: rep position, switches.
    """
    return _text(PULL_KIND, lifter=measures, pull=asdict(pull), view=view)


def read_setup(text):
    """Measures, pull and view of a pull set-up; everything is checked before anything is returned.

    Raises
    ------
    InputError
        Text that is no set-up, or a set-up with a value the model cannot use.
    """
    measures, fields, view = _parts(PULL_KIND, text, "lifter", "pull", "view")
    unknown = set(fields) ^ set(FIELDS)
    if unknown:
        raise InputError("set-up", f"set-up: it has other fields than a pull: {', '.join(sorted(unknown))}")
    choice("pull", fields["name"], tuple(pulls))
    try:
        pull = Pull(**fields)
        Lifter.from_measures(**measures)
    except TypeError:
        raise InputError("set-up", "set-up: it has values of the wrong kind; save it again from a panel") from None
    return measures, pull, view


def values_text(panel, values):
    """JSON text of a panel's control values."""
    return _text(VALUES_KIND, panel={"name": panel}, values=values)


def read_values(panel, text, allowed):
    """The control values of a set-up of this panel.

    ``allowed`` gives for each value its choices or, for a number, its ends (low, high).
    """
    whose, values = _parts(VALUES_KIND, text, "panel", "values")
    if whose.get("name") != panel or set(values) != set(allowed):
        raise InputError("set-up", f"set-up: it is for {whose.get('name')!r}, this is {panel!r}; open it there")
    for name, ends in allowed.items():
        if isinstance(ends[0], str):
            choice(name, values[name], ends)
        else:
            number(name, values[name], Allowed(float(ends[0]), float(ends[1]), "", "the slider ends there"))
    return values


def rep_table(rep):
    """The rep of one lifter as CSV text: a row a point, units in the column heads, surface units.

    Places are counted from where the GH centre rests, w and a from where it stands.
    """
    columns = {"rep [%]": 100 * rep.progress.values}
    for axis in rep.axis.values:
        columns[f"{axis.replace('_', ' ')} torque [N m]"] = rep.shoulder_torque.sel(axis=axis).values
    columns["elbow flexion torque [N m]"] = rep.elbow_torque.values
    for axis in rep.girdle_axis.values:
        columns[f"girdle {axis} torque [N m]"] = rep.girdle_torque.sel(girdle_axis=axis).values
    for name in ("elevation", "plane_of_elevation", "elbow_flexion"):
        columns[f"{name.replace('_', ' ')} [deg]"] = np.degrees(rep[name].values)
    columns["elbow turned past the ribs [deg]"] = np.degrees(rep.elbow_past_ribs.values)
    retraction, depression = np.degrees(rep.girdle_posture.values).T
    columns |= {"girdle retraction [deg]": retraction, "girdle elevation [deg]": 0.0 - depression}
    columns |= {"w [cm]": 100 * rep.hand_offset.values, "a [cm]": 100 * rep.line_offset.values}
    for words, part in (("GH centre", "gh_centre"), ("elbow", "elbow"), ("hand", "hand")):
        for direction in rep.space.values:
            columns[f"{words} {direction} [cm]"] = 100 * rep[part].sel(space=direction).values
    for muscle in rep.muscle.values:
        for axis in rep.axis.values:
            arm = rep.muscle_moment_arm.sel(muscle=muscle, axis=axis)
            columns[f"{muscle} {axis.replace('_', ' ')} arm [mm]"] = 1000 * arm.values
    return columns_text(columns)
