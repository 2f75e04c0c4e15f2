"""Panels for the workbook: controls that set values. One panel a file.

>>> from shoulder_model.panels import GripPanel, Guess, OneArmPanel, TrunkPanel, folded
"""

from .folded import folded
from .grip import GripPanel
from .guess import Guess
from .one_arm import OneArmPanel
from .trunk import TrunkPanel

__all__ = ["GripPanel", "Guess", "OneArmPanel", "TrunkPanel", "folded"]
