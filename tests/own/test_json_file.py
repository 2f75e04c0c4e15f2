"""JSON that somebody gives: plain values within limits, or one line."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoulder_model.inputs import InputError
from shoulder_model.json_file import JsonKind, depth_of

KIND = JsonKind("set-up", "this is none; choose another file", largest=100_000, deepest=4)
LETTERS = st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\0"), max_size=8)
VALUES = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-(10**17), 10**17)
    | st.floats(allow_nan=False, allow_infinity=False)
    | LETTERS,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(LETTERS, inner, max_size=3),
    max_leaves=8,
)


@given(st.dictionaries(LETTERS, VALUES, max_size=4), st.booleans(), st.sampled_from(["utf-8", "utf-8-sig", "utf-16"]))
def test_what_is_written_is_read_or_lies_too_deep(value, ascii_only, encoding):
    text = json.dumps(value, ensure_ascii=ascii_only)
    if depth_of(text) <= KIND.deepest:
        assert KIND.read(text) == value
        assert KIND.read(text.encode(encoding)) == value


def test_brackets_in_texts_do_not_count_as_depth():
    assert depth_of(r'{"a": "[[[{\"[["}') == 1 and depth_of("[[]]") == 2 and depth_of('"\\') == 0


@pytest.mark.parametrize(
    ("content", "says"),
    [
        ('{"a": 1, "b": 2, "a": 3}', "'a' stands there twice"),
        ('{"c": {"x": 1, "x": 1}}', "'x' stands there twice"),
        ('{"a": NaN}', "NaN is no number"),
        ('{"a": -Infinity}', "-Infinity is no number"),
        ('{"a": 1e999}', "1e999 is no number"),
        (f'{{"a": 1{"0" * 400}}}', "too many digits"),
        (f'{{"a": 1{"0" * 9000}}}', "too many digits"),
        ('{"a": "\\ud800"}', "a letter in it is none"),
        ('{"\\u0000": 1}', "a letter in it is none"),
        ('{"a": ["\ud800"]}', "a letter in it is none"),
        ('{"a": "\0"}', "this is none"),
        (b'{"a": "\xff"}', "this is none"),
        (b"\xff\xfe\x00", "this is none"),
        ("[" * 50_000, "brackets stand inside brackets"),
        ('{"a":' * 9000 + "1" + "}" * 9000, "brackets stand inside brackets"),
        ("[1]", "this is none"),
        ("", "this is none"),
        ('{"a": 1} x', "this is none"),
        ('"' * 50_001, "this is none"),
        ("x" * 100_001, "more than 100 kB"),
        (7, "give the file's text or bytes"),
        (None, "give the file's text or bytes"),
    ],
    ids=lambda value: repr(value)[:20],
)
def test_what_cannot_be_used_is_refused_in_one_line(content, says):
    with pytest.raises(InputError) as caught:
        KIND.read(content)
    said = str(caught.value)
    assert says in said and said.startswith("set-up: ") and said.isprintable() and len(said) < 200


def test_names_that_are_missing_or_not_known_are_named():
    KIND.names("it", {"a": 1}, ("a",), ("b",))
    for given_names, says in (
        ({}, "it lacks 'a'"),
        ({"a": 1, "x" * 500: 1}, "which is not known"),
        ([1], r"it is \[1\]"),
    ):
        with pytest.raises(InputError, match=says) as caught:
            KIND.names("it", given_names, ("a",), ("b",))
        assert len(str(caught.value)) < 200
