"""What is stored was made with the model as it is now, and says what indices have to say."""

import pytest

from shoulder_model.inputs import InputError
from shoulder_model.people import SEXES
from shoulder_model.recipes.what_matters import ANSWERS, PULLS
from shoulder_model.spread import SETS, stored_matters, stored_pulls
from shoulder_model.spread.fingerprint import _content, _files, fingerprint
from shoulder_model.spread.stored import made_with


def test_what_is_stored_was_made_with_this_model():
    assert made_with() == fingerprint(), "make it again: python -m shoulder_model.recipes.what_matters"


def test_a_fingerprint_moves_with_a_table_and_with_a_line_of_code(monkeypatch, tmp_path):
    here = fingerprint()
    paths = list(_files())
    for name in ("capacity.csv", "least_effort.py"):
        changed = tmp_path / name
        changed.write_bytes(next(path for path in paths if path.name == name).read_bytes() + b"\nX = 1\n")
        others = [changed if path.name == name else path for path in paths]
        monkeypatch.setattr("shoulder_model.spread.fingerprint._files", lambda others=others: iter(others))
        monkeypatch.setattr("shoulder_model.spread.fingerprint._place", lambda path: path.name)
        fingerprint.cache_clear()
        assert fingerprint() != here
    monkeypatch.undo()
    fingerprint.cache_clear()
    assert fingerprint() == here


def test_comments_and_docstrings_do_not_count(tmp_path):
    first, second = tmp_path / "first.py", tmp_path / "second.py"
    first.write_text('"""One."""\n\n\ndef f():\n    """Two."""\n    return 1\n')
    second.write_text('"""Another\nhead."""\n\n# more\ndef f():\n    """Three."""\n\n    return 1\n')
    assert _content(first) == _content(second) == b"def f():\n    return 1"


@pytest.mark.parametrize("sex", SEXES)
@pytest.mark.parametrize("pull", PULLS)
@pytest.mark.parametrize("answer", ANSWERS)
def test_indices_are_ones(sex, pull, answer):
    found = stored_matters(sex, pull, answer)
    assert stored_pulls() == PULLS and {*found.inputs, *found.kinds} == set(SETS)
    assert found.low <= found.mean <= found.high and found.sd >= 0
    for one in (*found.inputs.values(), *found.kinds.values()):
        assert one.total_band[0] <= one.total <= one.total_band[1] or one.total == 0
        assert 0 <= one.narrower <= 1 and -0.35 < one.first < 1.35 and -0.05 < one.total < 1.5
    assert found.inputs["specific tension"].total == 0.0, "strength is anchored"


def test_unknown_names_are_refused():
    with pytest.raises(InputError, match="front pulldown"):
        stored_matters("men", "front pull-down", "lat_share")
    with pytest.raises(InputError, match="lat_share"):
        stored_matters("men", "front pulldown", "lat share")
