"""Muscles: where they run, how far from each joint, how long, how large, how hard they can pull."""

from .body import Body, body_from, deviations, drawn_bodies, reference_body
from .capacity import Strength, capacity, capacity_band, expected_strength
from .elbow import elbow_arms, elbow_excursion, elbow_moment_arm
from .force_length import fibre_length, force_length_factor
from .geometry import MuscleGeometry, muscle_geometry
from .girdle import girdle_muscles, girdle_paths
from .hand_turn import beyond_forearm, drive, forearm_turn, leverage, pull_band
from .paths import (
    landmarks,
    lat_planes,
    moment_arm,
    moment_arms,
    muscle_length,
    path_points,
    path_sets,
    paths,
    shoulder_muscles,
)
from .scapula import turned_scapula, upward_rotation
from .table import LAT, MUSCLES, cross_sections, muscle_table

__all__ = [
    "LAT",
    "MUSCLES",
    "Body",
    "MuscleGeometry",
    "Strength",
    "beyond_forearm",
    "body_from",
    "capacity",
    "capacity_band",
    "cross_sections",
    "deviations",
    "drawn_bodies",
    "drive",
    "elbow_arms",
    "elbow_excursion",
    "elbow_moment_arm",
    "expected_strength",
    "fibre_length",
    "force_length_factor",
    "forearm_turn",
    "girdle_muscles",
    "girdle_paths",
    "landmarks",
    "lat_planes",
    "leverage",
    "moment_arm",
    "moment_arms",
    "muscle_geometry",
    "muscle_length",
    "muscle_table",
    "path_points",
    "path_sets",
    "paths",
    "pull_band",
    "reference_body",
    "shoulder_muscles",
    "turned_scapula",
    "upward_rotation",
]
