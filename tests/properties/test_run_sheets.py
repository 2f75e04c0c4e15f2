"""A run sheet gone wrong is refused in one line, or read as one that obeys every limit. `tests/benchmarks` does many more."""

from collections import Counter

from tests.own.lecture.mutations import folder_of, outcome, sheets_gone_wrong

MANY = 500


def test_a_sheet_gone_wrong_is_refused_in_one_line_or_read_within_all_limits(tmp_path):
    folder = folder_of(tmp_path)
    seen = Counter(outcome(content, folder) for content in sheets_gone_wrong(4, MANY))
    assert 20 < seen["read"] < MANY / 2 and len(seen) > 30  # neither all harmless nor all wrong in one way
