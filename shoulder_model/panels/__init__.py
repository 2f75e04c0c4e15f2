"""Panels for the workbook: controls that set values. One panel a file.

>>> from shoulder_model.panels import GripPanel, Guess, WorkPanel, folded
"""

from .evidence import EvidencePanel
from .folded import checked, folded
from .girdle import GirdlePanel
from .grip import GripPanel
from .guess import Guess
from .lat import LatPanel
from .my_lifter import MyLifterPanel
from .one_arm import OneArmPanel
from .practice import PracticePanel
from .ratio import RatioPanel
from .register import RegisterPanel
from .saved import setup_text
from .session import SessionPanel
from .trunk import TrunkPanel
from .work import WorkPanel

__all__ = [
    "EvidencePanel",
    "GirdlePanel",
    "GripPanel",
    "Guess",
    "LatPanel",
    "MyLifterPanel",
    "OneArmPanel",
    "PracticePanel",
    "RatioPanel",
    "RegisterPanel",
    "SessionPanel",
    "TrunkPanel",
    "WorkPanel",
    "checked",
    "folded",
    "setup_text",
]
