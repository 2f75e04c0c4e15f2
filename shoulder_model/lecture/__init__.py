"""The lecture: run sheets, the page that steps through one, and the protocol of a class."""

from .panel import LecturePanel
from .run_sheet import read_run_sheet, sheets

__all__ = ["LecturePanel", "read_run_sheet", "sheets"]
