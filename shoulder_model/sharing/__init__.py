"""Sharing: arrays in, arrays out. Who supplies a torque with the least effort, and how far a load can grow.

Both know nothing of arms, pulls or people: tables of what each of m muscles supplies to k torques, thousands at once.
"""

from .largest_load import LargestLoad, largest_load
from .least_effort import LeastEffort, least_effort

__all__ = ["LargestLoad", "LeastEffort", "largest_load", "least_effort"]
