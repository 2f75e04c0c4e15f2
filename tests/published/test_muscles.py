"""Signs, orders, lines and bands that cadaver studies have printed, one test each.

Landmarks from memory were moved to meet these statements (shoulder_model/recipes/landmarks.py), so a pass here says
that the model can hold them all at once, not that it predicts them.
"""

import numpy as np
import pytest

from shoulder_model import moment_arm
from shoulder_model.axes import MUSCLE_AXES
from shoulder_model.mechanics import raised_arm
from shoulder_model.muscles import (
    elbow_moment_arm,
    landmarks,
    moment_arms,
    shoulder_muscles,
    turned_scapula,
    upward_rotation,
)

pytestmark = pytest.mark.published
LD = tuple(f"latissimus dorsi {part}" for part in ("superior", "middle", "inferior"))
PECTORALIS = tuple(f"pectoralis major {part}" for part in ("clavicular", "sternal", "costal"))
RAISED = np.radians(np.arange(0, 121, 15))
CROSS_BOTH = ("triceps long head", "biceps brachii")  # not in the studies' lists of shoulder muscles
LISTED = tuple(name for name in shoulder_muscles() if name not in CROSS_BOTH)


def arms(axis, muscles, plane_deg):
    """Moment arms (posture, muscle) [m] while the arm is raised from 0 to 120° in one plane."""
    return np.stack([moment_arm(name, RAISED, np.radians(plane_deg), axis) for name in muscles], axis=-1)


def level_arms(muscles):
    """Horizontal abduction arms (plane, muscle) [m] of an arm at 90°, from the side to the front and across."""
    planes = np.radians(np.arange(0, 121, 15))
    return np.stack(
        [moment_arm(name, np.full(9, np.pi / 2), planes, "horizontal_abduction") for name in muscles], axis=-1
    )


def largest(values, count):
    """Names of the muscles with the ``count`` largest mean arms."""
    order = np.argsort(-values.mean(axis=0))
    return {LISTED[i] for i in order[:count]}


def leading(outside, values, expected):
    """The muscles with the largest mean arms are those that are printed."""
    found = largest(values, len(expected))
    outside(", ".join(sorted(expected)), ", ".join(sorted(found)))
    assert found == expected


def positive(outside, values):
    """No arm is on the other side."""
    outside("above 0", 1000 * values.min(), "mm")
    assert np.all(values > 0)


def test_largest_adductors_j_anat_2008_213_383(outside):
    expected = {
        "teres major",
        "latissimus dorsi middle",
        "latissimus dorsi inferior",
        "pectoralis major sternal",
        "pectoralis major costal",
    }
    leading(outside, arms("adduction", LISTED, 0), expected)


def test_largest_extensors_j_anat_2008_213_383(outside):
    leading(outside, arms("extension", LISTED, 90), {"teres major", "deltoid posterior"})


def test_best_flexors_j_anat_2008_213_383(outside):
    leading(outside, -arms("extension", LISTED, 90), {"pectoralis major clavicular", "deltoid anterior"})


def test_best_abductors_j_anat_2008_213_383(outside):
    leading(outside, -arms("adduction", LISTED, 0), {"deltoid middle", "deltoid anterior"})


def test_largest_depressors(outside):
    # J Shoulder Elbow Surg 1997;6:429
    found, printed = largest(arms("adduction", LISTED, 0), 5), {"pectoralis", "latissimus", "teres"}
    outside(", ".join(sorted(printed)), ", ".join(sorted(found)))
    assert {name.split()[0] for name in found} == printed


def test_largest_horizontal_flexor(outside):
    # J Shoulder Elbow Surg 1997;6:429
    found = largest(-level_arms(LISTED), 1)
    outside("a part of pectoralis major", ", ".join(found))
    assert found <= set(PECTORALIS)


def test_largest_horizontal_extensors(outside):
    # J Shoulder Elbow Surg 1997;6:429
    leading(outside, level_arms(LISTED), {"deltoid posterior", "infraspinatus"})


@pytest.mark.parametrize(("axis", "plane"), [("adduction", 0), ("extension", 90)])
def test_latissimus_and_teres_major_depress_j_anat_2019_234_1(axis, plane, outside):
    positive(outside, arms(axis, (*LD, "teres major"), plane))


@pytest.mark.parametrize("plane", [0, 90])
def test_latissimus_and_pectoralis_rotate_inward_j_orthop_res_2011_29_658(plane, outside):
    positive(outside, arms("internal_rotation", (*LD, *PECTORALIS), plane))


def test_posterior_deltoid_adducts_near_the_side_clin_biomech_1997_12_32(outside):
    raised, plane = np.radians([5, 15, 30]), np.full(3, np.radians(40))
    positive(outside, moment_arm("deltoid posterior", raised, plane, "adduction"))


# J Orthop Res 2011;29:658: largest axial rotation arms in abduction and flexion [mm]; inward positive
ROTATION_PEAKS = {"subscapularis": (24.4, 27.0), "infraspinatus": (-28.3, -23.3), "teres minor": (-26.5, -22.1)}


@pytest.mark.parametrize("name", ROTATION_PEAKS)
def test_axial_rotation_peaks(name, outside):
    for plane, peak in zip((0, 90), ROTATION_PEAKS[name], strict=True):
        turning = 1000 * arms("internal_rotation", (name,), plane)[:, 0] * np.sign(peak)
        outside(abs(peak), turning.max(), "mm", what=f"plane {plane}°")
        assert abs(turning.max() - abs(peak)) < 10


def test_middle_deltoids_abduction_peak(outside):
    # read, but the paper cannot be located: about 30 mm
    peak = -1000 * arms("adduction", ("deltoid middle",), 0).min()
    outside.undecided(30, peak, "mm", holds=abs(peak - 30) < 10)


# J Anat 2009;215:184, Table A2: lines of action at 0, 30, 90° of abduction; medial negative, anterior, superior. The last
# number of superior at 90° follows from unit length. Axes taken as the scapula's, 35° in front of the frontal (inferred).
TABLE_A2 = {
    LD[0]: ([(-0.990, -0.016, -0.141), (-0.980, -0.045, -0.194), (-0.989, 0.132, 0.067)], 15),
    LD[1]: ([(-0.716, 0.045, -0.697), (-0.708, 0.040, -0.705), (-0.874, 0.033, -0.485)], 10),
    LD[2]: ([(-0.554, 0.067, -0.830), (-0.533, 0.062, -0.844), (-0.766, 0.041, -0.642)], 10),
}
# J Anat 2009;215:184, Table A2, the same at 30, 60, 90, 120° of flexion: medial and anterior read, the third downward from unit length
IN_FRONT = {
    LD[0]: [(-0.995, -0.07), (-0.998, -0.063), (-0.999, -0.034), (-0.99, 0.136)],
    LD[1]: [(-0.78, 0.061), (-0.853, 0.032), (-0.898, -0.004), (-0.902, -0.017)],
    LD[2]: [(-0.624, 0.087), (-0.732, 0.065), (-0.806, 0.019), (-0.822, -0.005)],
}
# J Anat 2009;215:184: extension arms [mm] at 0, 30, 60, 90, 120° of flexion that follow (D), lines read as fixed to the scapula / to the thorax
EXTENSION = {
    LD[0]: [(27, 1), (33, 11), (31, 19), (27, 27), (22, 33)],
    LD[1]: [(16, -2), (31, 17), (41, 34), (41, 41), (33, 38)],
    LD[2]: [(11, -3), (28, 18), (42, 37), (45, 45), (38, 41)],
}


def angles_to(part, lines, elevations, plane):
    """Angles between the model's line of a lat part and measured ones in scapula axes. [deg]"""
    row = landmarks()[shoulder_muscles().index(part)]
    origin, insertion = (np.array([float(row[f"{end}_{k}"]) for k in "xyz"]) for end in ("origin", "insertion"))
    tilt = np.radians(35)
    lateral, anterior = np.array([np.sin(tilt), 0, np.cos(tilt)]), np.array([np.cos(tilt), 0, -np.sin(tilt)])
    angles = []
    for degrees, (x, y, z) in zip(elevations, lines, strict=True):
        line = origin - raised_arm(np.radians(degrees), plane) @ insertion
        scapula = turned_scapula(np.radians(degrees), plane)
        seen = scapula @ (x * lateral + y * anterior + z * np.array([0, 1, 0]))
        angles.append(np.degrees(np.arccos(seen @ line / np.linalg.norm(seen) / np.linalg.norm(line))))
    return np.array(angles)


@pytest.mark.parametrize("part", IN_FRONT)
def test_lines_of_action_in_front(part, outside):
    lines = [(x, y, -np.sqrt(max(0.0, 1 - x * x - y * y))) for x, y in IN_FRONT[part]]
    found = angles_to(part, lines, (30, 60, 90, 120), np.pi / 2)
    outside("the measured line", np.median(found), "° off in the median")
    assert np.median(found) < 13 and found.max() < 20


@pytest.mark.parametrize("part", EXTENSION)
def test_extension_arms_in_front(part, outside):
    arm = 1000 * moment_arm(part, np.radians([0, 30, 60, 90, 120]), np.full(5, np.pi / 2), "extension")
    either = np.array(EXTENSION[part])
    outside([f"{low} to {high}" for low, high in np.sort(either)], arm, "mm")
    assert np.all((arm > either.min(axis=1) - 10) & (arm < either.max(axis=1) + 10)), arm


@pytest.mark.parametrize("part", TABLE_A2)
def test_lines_of_action(part, outside):
    measured, bar = TABLE_A2[part]
    found = np.median(angles_to(part, measured, (0, 30, 90), 0.0))
    outside("the measured line", found, "° off in the median")
    assert found < bar


# J Anat 2009;215:184: adduction arms at 0, 30, 60, 90, 120° [mm], derived from those lines and a 48 mm insertion (D); bands 15 and 10 mm
DERIVED = {LD[1]: (34, 44, 48, 41, 27), LD[2]: (27, 38, 47, 45, 33)}


@pytest.mark.parametrize("part", DERIVED)
def test_derived_adduction_arms(part, outside):
    arm = 1000 * moment_arm(part, np.radians([0, 30, 60, 90, 120]), np.zeros(5), "adduction")
    outside(DERIVED[part], arm, "mm")
    assert np.all(np.abs(arm - DERIVED[part]) < [15, 10, 10, 10, 10])


@pytest.mark.parametrize("part", LD[1:])
def test_adduction_arm_peaks_in_mid_range(part, outside):
    # J Anat 2009;215:184, derived
    elevation = np.radians(np.arange(0, 151))
    peak = np.argmax(moment_arm(part, elevation, 0 * elevation, "adduction"))
    outside("30 to 100", peak, "°")
    assert 30 <= peak <= 100


def test_no_latissimus_arm_passes_the_lowest_insertion(outside):
    # J Anat 2017;230:631: at most 66 mm below the GH centre (derived)
    elevation, plane = np.meshgrid(np.radians(np.arange(0, 181, 5)), np.radians(np.arange(-30, 121, 15)))
    found = moment_arms(raised_arm(elevation, plane), turned_scapula(elevation, plane))
    longest = np.abs(found[..., [shoulder_muscles().index(part) for part in LD], :]).max()
    outside("at most 66", 1000 * longest, "mm")
    assert longest < 0.066


def test_elbow_peaks(outside):
    # J Biomech 1995;28:513, from memory (MM): biceps 4.7, brachioradialis 7.7 cm
    flexion = np.radians(np.arange(0, 144))
    for name, peak in {"biceps brachii": 4.7, "brachioradialis": 7.7}.items():
        found = 100 * elbow_moment_arm(name, flexion).max()
        outside.undecided(peak, found, "cm", what=name, holds=abs(found - peak) < 0.5)


@pytest.mark.identity
def test_triceps_extends_all_the_way():
    assert np.all(elbow_moment_arm("triceps long head", np.radians(np.arange(0, 144))) < 0)


# J Bone Joint Surg Am 2009;91:378: upward rotation [deg] at 30, 45, ... 120° of elevation
RHYTHM = {
    0: (15.6, 21.1, 26.5, 31.5, 36.5, 41.7, 46.4),
    40: (15.5, 20.9, 26.0, 30.5, 34.4, 38.6, 43.5),
    90: (15.1, 19.6, 24.4, 28.7, 32.9, 37.4, 43.3),
}


@pytest.mark.parametrize("plane", RHYTHM)
def test_scapular_rhythm(plane, outside):
    elevation = np.radians([30, 45, 60, 75, 90, 105, 120])
    turned = np.degrees(upward_rotation(elevation, np.radians(plane)))
    outside(RHYTHM[plane][-1] - RHYTHM[plane][0], turned[-1] - turned[0], "° from 30 to 120° of elevation")
    np.testing.assert_allclose(turned - turned[0], np.array(RHYTHM[plane]) - RHYTHM[plane][0], atol=1e-9)
    # ratios of GH to scapular motion between 30 and 120°, derived: 1.92, 2.21, 2.19
    ratio = (90 - (turned[-1] - turned[0])) / (turned[-1] - turned[0])
    assert ratio == pytest.approx({0: 1.92, 40: 2.21, 90: 2.19}[plane], abs=0.01)


@pytest.mark.identity
def test_the_table_names_its_sources():
    for row in landmarks():
        assert row["mark"] in ("R", "D", "ML") and len(row["source"]) > 30 and float(row["origin_range_mm"]) > 0


@pytest.mark.identity
def test_axes_have_their_names():
    assert MUSCLE_AXES == ("adduction", "extension", "horizontal_abduction", "internal_rotation")
