"""Clients saved and opened again; files that cannot be used are refused whole."""

import json

import pytest
from hypothesis import given as over
from hypothesis import settings
from hypothesis import strategies as st

import shoulder_model as sm
from shoulder_model.inputs import InputError
from shoulder_model.week import Client, Known, all_no, equipment
from shoulder_model.week.record import client_of, read_records, record_of, records_text
from shoulder_model.week.wish_names import WISHES


def person(**fields):
    return Client(sm.Lifter.from_measures("women", stature=1.7), **fields)


some = st.fixed_dictionaries(
    {
        "experience": st.sampled_from(["novice", "intermediate", "advanced"]),
        "days": st.integers(1, 6),
        "goal": st.sampled_from([0.0, 0.3, 1.0]),
        "equipment": st.lists(st.sampled_from(equipment()), unique=True).map(tuple),
        "prefer": st.lists(st.sampled_from(["pull-up", "towel row"]), unique=True).map(tuple),
        "wishes": st.permutations(list(WISHES)).map(lambda names: tuple(names[:4])),
        "wide_grip": st.booleans(),
        "name": st.text(st.characters(exclude_characters="\0", exclude_categories=["Cs"]), max_size=20),
        "own_weight_repetitions": st.integers(0, 30),
        "known": st.lists(st.just(Known("front pulldown at 1.5 ×", 42.5, 9)), max_size=1).map(tuple),
        "steps": st.dictionaries(st.just("pulldown"), st.sampled_from([2.5, 7.0]), max_size=1),
    }
)


@settings(max_examples=60, deadline=None)
@over(fields=st.lists(some, min_size=1, max_size=4))
def test_several_clients_come_back_as_they_were(fields):
    clients = [person(health=all_no(), **each) for each in fields]
    records, shown = read_records(records_text([record_of(one, {"stature": 1.7}) for one in clients], len(clients) - 1))
    assert [client_of(record) for record in records] == clients and shown == len(clients) - 1


def spoilt(**changes):
    return {**record_of(person(health=all_no()), {"stature": 1.7}), **changes}


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"days": True}, "days: give a number"),
        ({"days": 10**17}, "days = 1e.17"),
        ({"days": [3]}, "days: give a number"),
        ({"wide_grip": "false"}, "wide_grip: give true or false"),
        ({"wide_grip": 0}, "wide_grip: give true or false"),
        ({"health": []}, "health: give names with values"),
        ({"health": {"shoulder": True}}, "shoulder"),
        ({"equipment": "pulldown"}, "equipment: give a list"),
        ({"equipment": [["pulldown"]]}, "equipment: give a list"),
        ({"measures": {"stature": "1.7"}}, "stature: give a number"),
        ({"measures": {"hat": 1}}, "measures: give some of"),
        ({"measures": {"stature": 17.0}}, "stature"),
        ({"known": [["front pulldown at 1.5 ×", 40]]}, "known"),
        ({"known": [["front pulldown at 1.5 ×", True, 8]]}, "known: a load has a name and numbers"),
        ({"sex": ["men"]}, "sex"),
        ({"favourite colour": "red"}, "favourite colour"),
        ({"name": "x" * 100}, "name"),
    ],
)
def test_a_spoilt_client_is_refused_in_one_line(changes, says):
    text = records_text([spoilt(), spoilt(**changes)])
    with pytest.raises(InputError, match=says) as refused:
        read_records(text)
    assert (
        str(refused.value).startswith("client 2:") and "\n" not in str(refused.value) and len(str(refused.value)) <= 300
    )


@pytest.mark.parametrize(
    "text",
    ["", "[]", "null", "{", '{"kind": "clients of a week"}', "[" * 5000, json.dumps({"kind": "other", "clients": []}),
     records_text([spoilt(days=10**400)]), records_text([spoilt(name="a\0b")]), records_text([spoilt(name="\ud800")]),
     records_text([spoilt()]).replace('"days"', '"days": 2, "days"'), records_text([spoilt(goal=float("nan"))]),
     records_text([]), records_text([spoilt()], 3), records_text([spoilt()], True), "x" * 500_000],
)  # fmt: skip
def test_other_files_are_refused(text):
    with pytest.raises(InputError) as refused:
        read_records(text)
    assert "\n" not in str(refused.value)
