"""How a planned week is trained: warm-up, rest, the log that comes back, a verdict on each pull, the next block."""

from .block import NextBlock, next_block
from .dose import Start, left_words, progress_words, rest_words, starts
from .log import Entry, blank_log, log_text, read_log
from .verdict import Verdict, verdicts

__all__ = [
    "Entry",
    "NextBlock",
    "Start",
    "Verdict",
    "blank_log",
    "left_words",
    "log_text",
    "next_block",
    "progress_words",
    "read_log",
    "rest_words",
    "starts",
    "verdicts",
]
