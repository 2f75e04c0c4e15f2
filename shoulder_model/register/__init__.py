"""The register: every number of the package with its source, where it is used, and what checks it against the outside."""

from .outside import HEADS, OutsideCheck, by_topic, outside_checks, short_form
from .rows import COLUMNS, Number, find, numbers
from .used import uses

__all__ = [
    "COLUMNS",
    "HEADS",
    "Number",
    "OutsideCheck",
    "by_topic",
    "find",
    "numbers",
    "outside_checks",
    "short_form",
    "uses",
]
