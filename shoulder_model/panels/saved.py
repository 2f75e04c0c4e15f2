"""A set-up as JSON, and a rep as a table: what a panel saves and opens again."""

import json
from dataclasses import asdict
from dataclasses import fields as dataclass_fields

import numpy as np

from ..inputs import Allowed, InputError, choice, echo, flag, scalar, whole
from ..json_file import JsonKind, is_same
from ..mechanics import Pull, pulls
from ..mechanics.pull import FIELDS
from ..people import SEXES, Lifter
from ..repetition.balance import BALANCES
from ..repetition.repetition_maximum import REPETITIONS
from ..repetition.strength import LOAD
from ..tables import number_rows

PULL_KIND, VALUES_KIND = "pull set-up", "panel set-up"
VERSION = 2  # 2: pulls have a shoulder blade that travels
FILE = JsonKind(
    "set-up",
    "this file was not saved by these panels; choose a .json file that a panel saved",
    largest=200_000, deepest=4,
)  # fmt: skip
MEASURES = tuple(one.name for one in dataclass_fields(Lifter) if one.name != "sex")
SHIFTS = ("touch_shift_forward", "touch_shift_up")  # of a pull; files from before have none
ALONG = Allowed(0.0, 1.0, "", "give the share of the rep")
HANDS = Allowed(1, 2, "", "count the hands on the load")


def _or_none(kind):
    return lambda name, value: None if value is None else kind(name, value)


VIEW = {  # what panels for pulls add to a set-up, each with its check
    "along": lambda name, value: scalar(name, value, ALONG),
    "arm_weight": flag,
    "balance": lambda name, value: choice(name, value, BALANCES),
    "known_kg": _or_none(lambda name, value: scalar(name, value, LOAD)),
    "known_repetitions": _or_none(lambda name, value: scalar(name, value, REPETITIONS)),
    "every_muscle": flag,
    "bands": flag,
}


def _text(kind, **parts):
    return json.dumps({"kind": kind, "version": VERSION, **parts}, indent=1, ensure_ascii=False) + "\n"


def _parts(kind, content, *names):
    """The named parts of a set-up of this kind."""
    made = FILE.read(content)
    if "kind" not in made or "version" not in made:
        raise FILE.wrong(FILE.not_one)
    if not (is_same(made["kind"], kind) and is_same(made["version"], VERSION)):
        saved_as = f"{echo(made['kind'])}, version {echo(made['version'])}"
        raise FILE.wrong(f"this is a {saved_as}, not a {kind!r}, version {VERSION}")
    FILE.names("it", made, ("kind", "version", *names))
    return [made[name] for name in names]


def setup_text(measures, pull, view):
    """JSON text of one pull set-up.

    Parameters
    ----------
    measures : dict
        ``sex`` and what was measured of the lifter, as `Lifter.from_measures` takes them. [m], [kg]
    pull : Pull
    view : dict
        What the panel adds: rep position, switches; names of `VIEW`.
    """
    return _text(PULL_KIND, lifter=measures, pull=asdict(pull), view=view)


def read_setup(content):
    """Measures (dict), pull and view (dict) of a pull set-up, ``content`` text or bytes, each value of its kind.

    Raises
    ------
    InputError
        One line: what is no set-up, or what value the model cannot use.
    """
    measures, fields, view = _parts(PULL_KIND, content, "lifter", "pull", "view")
    FILE.names("the pull", fields, [name for name in FIELDS if name not in SHIFTS], SHIFTS)
    FILE.names("the lifter", measures, ("sex",), measures)
    FILE.names("the view", view, (), VIEW)
    for name in measures.keys() - {"sex"}:
        choice("measure", name, MEASURES)
    for name, value in (*fields.items(), *measures.items()):
        if isinstance(value, bool | list | dict):
            raise InputError(name, f"{name} = {echo(value)} is neither one number nor a name")
    choice("sex", measures["sex"], SEXES)
    Lifter.from_measures(**measures)
    name, hands = choice("pull", fields["name"], tuple(pulls)), whole("hands", fields["hands"], HANDS)
    pull = Pull(**fields | {"name": name, "hands": hands})
    if pull.load_kg is None and pulls[name].load_kg is not None:
        raise InputError("load_kg", "load_kg is missing; give the load on the whole bar, in kg")
    return measures, pull, {name: VIEW[name](name, value) for name, value in view.items()}


def values_text(panel, values):
    """JSON text of a panel's control values."""
    return _text(VALUES_KIND, panel={"name": panel}, values=values)


def read_values(panel, content, allowed, also=()):
    """The control values of a set-up of this panel, each of its kind.

    Parameters
    ----------
    panel : str
        Its name.
    content : str or bytes
    allowed : dict
        Name -> its choices (tuple of str), `bool` for a switch, or the ends of a slider (low, high), in its unit.
    also : sequence of str
        Names among them that a file from before may lack.

    Raises
    ------
    InputError
        One line: what is no set-up, one of another panel, or a value that the panel does not have.
    """
    whose, values = _parts(VALUES_KIND, content, "panel", "values")
    FILE.names("the panel", whose, ("name",))
    if not is_same(whose["name"], panel):
        raise FILE.wrong(f"it is for {echo(whose['name'])}, this is {panel!r}; open it there")
    FILE.names(f"the {panel}", values, [name for name in allowed if name not in also], also)
    return {name: _of_kind(name, values[name], kind) for name, kind in allowed.items() if name in values}


def _of_kind(name, value, kind):
    if kind is bool:
        return flag(name, value)
    if isinstance(kind[0], str):
        return choice(name, value, kind)
    return scalar(name, value, Allowed(float(kind[0]), float(kind[1]), "", "the slider ends there"))


def rep_table(rep):
    """The rep of one lifter as rows of a table: a row a point, units in the column heads, surface units.

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
    return number_rows(columns)
