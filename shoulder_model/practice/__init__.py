"""Questions with numbers of their own, what is said to an answer, a record of what is known, a mock exam.

objectives, items/ ─> bank: make(template, seed) ─> Item ─> verdict, with the slip that gives just this answer
                                                     │
record: answers, and nothing else ─> schedule, progress, exam ─> desk: what the page shows, what it may do
"""

from .exam import share_interval
from .record import Answer, Record
from .schedule import cards

__all__ = ["Answer", "Record", "cards", "share_interval"]
