"""The panels of a chapter, recorded for its page to read."""

from html import escape

from ..lesson import Live, inlined
from ..recorded.fragment import fragment
from ..recorded.grids import kind_of
from ..recorded.recorder import record
from ..recorded.set_up import SetUp


def recorded_panels(chapter, processes):
    """Every panel of a chapter that can be recorded.

    Parameters
    ----------
    chapter : lesson.Chapter
    processes : int
        At most so many at once, a whole number.

    Returns
    -------
    dict of recorded.fragment.Fragment
        By the panels' `id`; a panel of another kind is not among them.
    """
    blocks = [block for section in chapter.sections for block in section.blocks if isinstance(block, Live)]
    panels = [block.panel for block in blocks if kind_of(block.panel)]
    return {id(panel): _recorded(panel, number, processes) for number, panel in enumerate(panels)}


def _recorded(panel, number, processes):
    set_up = SetUp.of(panel)
    said = panel.picture.said
    still = (
        f"{inlined(panel.content('svg').decode(), panel.words)}"
        f"<p><b>{escape(said['verdict'])}</b> {escape(said['small'])}</p>"
    )
    return fragment(record(set_up, processes=processes), set_up.panel(), still, number)
