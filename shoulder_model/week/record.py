"""Clients as records that can be saved and opened again: a client's measures, answers and wishes as plain values.

A file of records is JSON. It is checked whole before anything is made of it, and nothing in it is run.
"""

import json
from dataclasses import MISSING, astuple, fields

from ..inputs import InputError, checked_call, choice, mapping
from ..json_file import JsonKind, is_same
from ..people import Lifter
from .client import Client, a_client
from .load import Carried, Known

KIND, VERSION = "clients of a week", 1
FILE = JsonKind(
    "clients",
    "this file was not saved by these panels; choose a .json file of clients that the planner saved",
    largest=400_000, deepest=6,
)  # fmt: skip
MEASURES = ("stature", "mass", "biacromial")  # [m], [kg], [m]; only what was measured
MOST_CLIENTS = 200
LOADS = {"known": Known, "carried": Carried}
CLIENT = JsonKind("client", "it holds names with values")
OWN = {field.name: field for field in fields(Client) if field.name not in ("lifter", *LOADS)}


@checked_call
def record_of(client, measures):
    """A ``client`` (`client.Client`) as a dict of plain values; ``measures`` is what was measured: stature, mass, biacromial [m], [kg].
    Others raise `InputError`.

    >>> from shoulder_model import Lifter
    >>> record_of(Client(Lifter.average("men")), {})["experience"]
    'novice'
    """
    a_client(client)
    for name in mapping("measures", measures, "stature, mass and biacromial to what was measured"):
        choice("measures", name, MEASURES)
    plain = {name: getattr(client, name) for name in OWN}
    plain = {name: list(value) if isinstance(value, tuple) else value for name, value in plain.items()}
    loads = {name: [list(astuple(one)) for one in getattr(client, name)] for name in LOADS}
    measured = {name: measures[name] for name in MEASURES if measures.get(name) is not None}
    return {"sex": client.lifter.sex, "measures": measured, **plain, **loads}


@checked_call
def client_of(record):
    """The `Client` of one ``record``, a dict as `record_of` gives it; what it leaves out is the usual.

    Raises
    ------
    InputError
        A field that there is not, a value of the wrong kind, or one that `Client` refuses.
    """
    CLIENT.names("it", record, (), (*OWN, *LOADS, "sex", "measures"))
    values = {name: _of_kind(name, record[name]) for name in OWN if name in record}
    measures = _measures(record.get("measures", {}))
    sex = record.get("sex", "women")
    if not isinstance(sex, str):
        raise InputError("sex", "sex: give women or men, as text")
    loads = {name: _loads(name, record[name]) for name in LOADS if name in record}
    return Client(Lifter.from_measures(sex, **measures), **loads, **values)


def _of_kind(name, value):
    """A value of the kind that the field has; lists become tuples."""
    usual = OWN[name].default_factory() if OWN[name].default is MISSING else OWN[name].default
    if isinstance(usual, tuple):
        if not isinstance(value, list) or not all(isinstance(one, str) for one in value):
            raise InputError(name, f"{name}: give a list of names")
        return tuple(value)
    numbers = (int, float) if isinstance(usual, int | float) and not isinstance(usual, bool) else ()
    if isinstance(value, bool) is not isinstance(usual, bool) or not isinstance(value, numbers or type(usual)):
        kind = {bool: "true or false", str: "a text", dict: "names with values"}.get(type(usual), "a number")
        raise InputError(name, f"{name}: give {kind}")
    return value


def _number(name, value):
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise InputError(name, f"{name}: give a number")
    return value


def _measures(measures):
    if not isinstance(measures, dict) or set(measures) - set(MEASURES):
        raise InputError("measures", f"measures: give some of {', '.join(MEASURES)}")
    return {name: _number(name, value) for name, value in measures.items()}


def _loads(name, rows):
    """The loads of one of `LOADS`, each a list of a name, numbers or nothing, and words."""
    kind = LOADS[name]
    wide = len(fields(kind))
    if not isinstance(rows, list) or not all(isinstance(row, list) and len(row) == wide for row in rows):
        told = ", ".join(field.name for field in fields(kind))
        raise InputError(name, f"{name}: give for each load {told}")
    for row in rows:
        for cell in row:
            if isinstance(cell, bool) or not isinstance(cell, str | int | float | None):
                raise InputError(name, f"{name}: a load has a name and numbers")
    return tuple(kind(*row) for row in rows)


def records_text(records, shown=0):
    """JSON text of some ``records``, a list of dicts, and the place (int) of the one that is ``shown``."""
    content = {"kind": KIND, "version": VERSION, "shown": shown, "clients": list(records)}
    return json.dumps(content, indent=1, ensure_ascii=False) + "\n"


@checked_call
def read_records(content):
    """The records in a saved file, ``content`` text or bytes: a list of dicts, each checked as a client, and the place of the one shown.

    Raises
    ------
    InputError
        In one line: it is no such file, or which client has what that cannot be used.
    """
    made = _content(content)
    clients, shown = made["clients"], made.get("shown", 0)
    if not isinstance(clients, list) or not 1 <= len(clients) <= MOST_CLIENTS:
        raise InputError("clients", f"clients: a file has 1 to {MOST_CLIENTS} of them")
    for place, record in enumerate(clients, 1):
        try:
            client_of(record)
        except InputError as error:
            raise InputError(error.field, f"client {place}: {error}"[:300]) from None
    if isinstance(shown, bool) or not isinstance(shown, int) or not 0 <= shown < len(clients):
        raise InputError("shown", "shown: give the place of one of the clients, 0 the first")
    return clients, shown


def _content(content):
    """What stands in a saved file of this kind and version."""
    made = FILE.read(content)
    if not is_same(made.get("kind"), KIND):
        raise FILE.wrong(FILE.not_one)
    if not is_same(made.get("version"), VERSION):
        raise FILE.wrong(f"this file is of another version than {VERSION}; save it again")
    FILE.names("it", made, ("kind", "version", "clients"), ("shown",))
    return made
