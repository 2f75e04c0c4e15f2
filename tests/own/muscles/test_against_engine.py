"""The same landmarks as tendons of a general-purpose physics engine (MuJoCo): equal lengths and moment arms."""

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

from shoulder_model.muscles import landmarks, paths

mujoco = pytest.importorskip("mujoco")
TOLERANCE = 1e-6  # m


def engine_model():
    """Scapula and humerus on ball joints about one centre; every muscle a spatial tendon, with its sphere."""
    sites, spheres, tendons = {"t": [], "s": [], "h": []}, [], []
    for k, row in enumerate(landmarks()):
        for end, frame in (("origin", row["frame"]), ("insertion", "h")):
            place = " ".join(row[f"{end}_{axis}"] for axis in "xyz")
            sites[frame].append(f'<site name="{end}{k}" pos="{place}"/>')
        around = ""
        if float(row["wrap"]):
            spheres.append(f'<geom name="sphere{k}" type="sphere" size="{row["wrap"]}" contype="0" conaffinity="0"/>')
            around = f'<geom geom="sphere{k}"/>'
        tendons.append(f'<spatial><site site="origin{k}"/>{around}<site site="insertion{k}"/></spatial>')
    mass = '<inertial pos="0 0 0" mass="1" diaginertia="1 1 1"/>'
    bodies = "".join(f'<body>{mass}<joint type="ball"/>{"".join(sites[frame])}</body>' for frame in "sh")
    return mujoco.MjModel.from_xml_string(
        f"<mujoco><worldbody>{''.join(spheres)}{''.join(sites['t'])}{bodies}</worldbody>"
        f"<tendon>{''.join(tendons)}</tendon></mujoco>"
    )


def engine_paths(model, postures):
    """Tendon lengths and torques per newton about the humerus' joint, in world axes, one posture after the other."""
    data = mujoco.MjData(model)
    length, torque = np.empty((len(postures), model.ntendon)), np.empty((len(postures), model.ntendon, 3))
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
        torque[k] = -jacobian[:, 3:] @ data.xmat[2].reshape(3, 3).T  # the last three turn the humerus, in its own axes
    return length, torque


def quaternions(rotation):
    """Scalar first, as the engine takes them."""
    return rotation.as_quat()[:, [3, 0, 1, 2]]


def test_lengths_and_moment_arms_of_300_random_postures():
    humerus = Rotation.random(300, random_state=1)
    scapula = Rotation.from_rotvec(0.3 * Rotation.random(300, random_state=2).as_rotvec())
    length, torque = paths(humerus.as_matrix(), scapula.as_matrix())
    engine_length, engine_torque = engine_paths(engine_model(), np.hstack([quaternions(scapula), quaternions(humerus)]))
    np.testing.assert_allclose(length, engine_length, rtol=0, atol=TOLERANCE)
    np.testing.assert_allclose(torque, engine_torque, rtol=0, atol=TOLERANCE)
