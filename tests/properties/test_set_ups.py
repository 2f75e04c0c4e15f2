"""Set-ups of all panels, saved, opened again and gone wrong."""

import os
import random
from collections import Counter

import pytest

from tests.gone_wrong import json_gone_wrong
from tests.own.panels.mutations import PANELS, checked_outcome, opened_outcome, texts_of, to_some_state

TRIES = int(os.environ.get("SHOULDER_MODEL_TRIES", "10000"))  # of all panels together
BY_KIND = pytest.mark.parametrize("kind", PANELS, ids=lambda kind: kind.__name__)


@BY_KIND
def test_what_a_panel_saves_opens_in_a_fresh_one_to_the_same(kind):
    rng, panel, fresh = random.Random(4), kind(), kind()
    for _ in range(6):
        to_some_state(rng, panel)
        saved = panel.content("json")
        fresh.open_text(saved)
        refused, again = fresh.picture.said["trouble"], fresh.content("json")
        assert not refused, saved
        assert hash(again) == hash(saved), saved
        panel.update()
        assert fresh.words == panel.words


@BY_KIND
def test_a_set_up_gone_wrong_is_refused_in_one_line_or_opened_whole(kind):
    rng = random.Random(1)
    panel, texts = texts_of(rng, kind, 5)
    seen = Counter(checked_outcome(panel, json_gone_wrong(rng, rng.choice(texts))) for _ in range(TRIES // len(PANELS)))
    assert 0 < seen["read"] < seen.total() and len(seen) > 15
    fresh = kind()
    panel.open_text(texts[-1])
    for _ in range(max(20, TRIES // len(PANELS) // 50)):
        opened_outcome(panel, fresh, json_gone_wrong(rng, rng.choice(texts)))
