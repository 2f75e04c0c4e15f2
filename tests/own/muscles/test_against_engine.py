"""The same landmarks as tendons of a general-purpose physics engine (MuJoCo): equal lengths and moment arms."""

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

import shoulder_model as sm
from shoulder_model.mechanics import girdle_at, of_girdle, sc_joint
from shoulder_model.muscles import girdle_paths, landmarks, paths
from shoulder_model.muscles.girdle import girdle_landmarks, through_humerus_arms

mujoco = pytest.importorskip("mujoco")
TOLERANCE = 1e-6  # m


SC = sc_joint(sm.Lifter.average("men"))


def engine_model():
    """Clavicle on a ball joint at the SC joint, scapula and humerus on ball joints at its end; tendons with their spheres.

    Clavicle and scapula are given their turns in thorax axes, so each hangs in a frame that the other does not turn:
    the GH centre is a body that slides, told where the clavicle puts it.
    """
    sites, spheres, tendons = {frame: [] for frame in "tcsh"}, [], []
    for k, row in enumerate(landmarks()):
        for end, frame in (("origin", row["frame"]), ("insertion", "h")):
            place = " ".join(row[f"{end}_{axis}"] for axis in "xyz")
            sites[frame].append(f'<site name="{end}{k}" pos="{place}"/>')
        around = ""
        if float(row["wrap"]):
            spheres.append(f'<geom name="sphere{k}" type="sphere" size="{row["wrap"]}" contype="0" conaffinity="0"/>')
            around = f'<geom geom="sphere{k}"/>'
        tendons.append(f'<spatial><site site="origin{k}"/>{around}<site site="insertion{k}"/></spatial>')
    for k, (origin, insertion) in enumerate(zip(*girdle_landmarks(), strict=True)):
        for name, point, frame in (("from", origin, "t"), ("to", insertion, "s")):
            sites[frame].append(f'<site name="{name}{k}" pos="{" ".join(map(str, point))}"/>')
        tendons.append(f'<spatial><site site="from{k}"/><site site="to{k}"/></spatial>')
    mass = '<inertial pos="0 0 0" mass="1" diaginertia="1 1 1"/>'
    on_centre = "".join(f'<body>{mass}<joint type="ball"/>{"".join(sites[frame])}</body>' for frame in "csh")
    slides = "".join(f'<joint type="slide" axis="{axis}"/>' for axis in ("1 0 0", "0 1 0", "0 0 1"))
    return mujoco.MjModel.from_xml_string(
        f"<mujoco><worldbody>{''.join(sites['t'])}<body>{mass}{slides}{''.join(spheres)}{on_centre}</body></worldbody>"
        f"<tendon>{''.join(tendons)}</tendon></mujoco>"
    )


def engine_paths(model, postures):
    """Tendon lengths, and how each changes with the centre's way (3) and the turns of clavicle, scapula, humerus (3 each).

    Turns in world axes; one posture after the other.
    """
    data = mujoco.MjData(model)
    length, slope = np.empty((len(postures), model.ntendon)), np.empty((len(postures), model.ntendon, 4, 3))
    jacobian = np.zeros((model.ntendon, model.nv))
    for k, posture in enumerate(postures):
        data.qpos[:] = posture
        mujoco.mj_kinematics(model, data)
        mujoco.mj_comPos(model, data)
        mujoco.mj_tendon(model, data)
        length[k] = data.ten_length
        if data.ten_J.size == jacobian.size:
            jacobian[:] = data.ten_J.reshape(jacobian.shape)
        else:
            mujoco.mju_sparse2dense(
                jacobian, data.ten_J.ravel(), model.ten_J_rownnz, model.ten_J_rowadr, model.ten_J_colind
            )
        slope[k, :, 0] = jacobian[:, :3]
        for bone in (1, 2, 3):  # joints turn in the bone's own axes
            slope[k, :, bone] = jacobian[:, 3 * bone : 3 * bone + 3] @ data.xmat[1 + bone].reshape(3, 3).T
    return length, slope


def quaternions(rotation):
    """Scalar first, as the engine takes them."""
    return rotation.as_quat()[:, [3, 0, 1, 2]]


def random_postures(count):
    """Humerus (any turn), scapula, retraction and elevation of ``count`` random postures."""
    rng = np.random.default_rng(7)
    humerus = Rotation.random(count, random_state=1)
    scapula = Rotation.from_rotvec(0.3 * Rotation.random(count, random_state=2).as_rotvec())
    return humerus, scapula, rng.uniform(-0.4, 0.4, count), rng.uniform(-0.2, 0.7, count)


def engine_postures(humerus, scapula, girdle):
    """The same as the engine's coordinates: the centre's place, then three quaternions."""
    clavicle = Rotation.from_matrix(girdle.clavicle)
    return np.hstack([girdle.gh, *(quaternions(bone) for bone in (clavicle, scapula, humerus))])


def test_lengths_and_arms_about_all_joints_of_300_random_postures():
    humerus, scapula, retraction, elevation = random_postures(300)
    girdle = girdle_at(sm.Lifter.average("men"), retraction, elevation)
    bones = humerus.as_matrix(), scapula.as_matrix()
    length, torque = paths(*bones, girdle=girdle)
    on_girdle = girdle_paths(bones[1], girdle)
    through_humerus = through_humerus_arms(bones[0], torque, girdle)
    engine_length, slope = engine_paths(engine_model(), engine_postures(humerus, scapula, girdle))
    count = len(landmarks())
    np.testing.assert_allclose(length, engine_length[:, :count], rtol=0, atol=TOLERANCE)
    np.testing.assert_allclose(torque, -slope[:, :count, 3], rtol=0, atol=TOLERANCE)
    np.testing.assert_allclose(on_girdle[0], engine_length[:, count:], rtol=0, atol=TOLERANCE)
    # about the SC joint everything turns together: the centre by lever x turn, and all three bones
    lever = -girdle.sc
    about_sc = -(np.cross(lever[:, None], slope[:, :, 0]) + slope[:, :, 1:].sum(axis=2))
    expected = of_girdle(about_sc)
    np.testing.assert_allclose(
        np.concatenate([through_humerus, on_girdle[1]], axis=1), expected, rtol=0, atol=TOLERANCE
    )
