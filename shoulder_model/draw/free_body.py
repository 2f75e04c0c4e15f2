"""The forearm cut free at the elbow: every force on it, to one scale."""

import numpy as np

from .artists import Arrow, label, moving
from .body import FIST, FOREARM, Outline, limb
from .lifter_view import Ghost
from .look import BLACK, BLUE, EDGE, GREY, PALE, SKIN, VERMILLION, by_sheet

PAGE = ((-0.42, 0.48), (-0.56, 0.56)), (-0.40, 0.06), (-0.40, -0.465)  # limits; where words begin, and their rows [m]
PROJECTOR = ((-0.56, 0.63), (-0.60, 0.40)), (-0.54, 0.16), (-0.45, -0.55)
PHONE = ((-0.56, 0.63), (-0.77, 0.60)), (-0.54, 0.16), (-0.60, -0.70)
LONGEST = 0.30  # m on the picture, for the largest force
SHORTEST = 0.04  # smaller forces are drawn this long


class FreeBody:
    """Forearm, muscle force, joint force, load and its own weight."""

    def __init__(self, axes):
        self.axes = axes
        (x, y), begins, rows = by_sheet(PAGE, PROJECTOR, PHONE)
        axes.set(xlim=x, ylim=y, aspect="equal", xticks=[], yticks=[])
        axes.set_title("the forearm, cut free", pad=4)
        for side in axes.spines.values():
            side.set_color(PALE)
            side.set_visible(True)
        self.ghost = Ghost(axes, 2)
        self.fore, self.fist = Outline(axes, SKIN, z=2), Outline(axes, SKIN, z=2.1)
        self.arm = moving(axes, colour=EDGE, width=1.0, z=2.2, marker="o", markersize=4.5)
        self.arrows = {
            "muscle": Arrow(axes, VERMILLION, width=3, head=0.05, z=4),
            "joint": Arrow(axes, BLUE, width=3, head=0.05, z=4),
            "load": Arrow(axes, BLACK, width=2.2, head=0.045, z=4),
            "weight": Arrow(axes, GREY, width=1.8, head=0.035, z=3.5),
        }
        self.words = {name: label(axes, arrow.colour, fontweight="bold") for name, arrow in self.arrows.items()}
        for k, (name, words) in enumerate(self.words.items()):
            words.set_position((begins[k // 2], rows[k % 2]))
            words.set_fontweight("bold" if name != "weight" else "normal")

    def show(self, held, muscle_arm):
        """Move to a `mechanics.HeldWeight` of one posture, its muscle's line drawn ``muscle_arm`` [m] from the joint."""
        elbow = held.posture.elbow
        along = held.posture.hand - elbow
        x, y = along[:2].tolist()
        long = np.hypot(x, y) or 1.0
        self.arm.set_data([0, x], [0, y])
        self.fore.put(limb(FOREARM, (0.0, 0.0), (x, y)))
        self.fist.put(FIST @ np.array(((x, y), (0, 0), (x / long, y / long), (-y / long, x / long))))
        toward_shoulder = -held.posture.upper_arm_direction
        side = 1.0 if held.elbow_flexion_torque >= 0 else -1.0  # flexors in front of the joint, extensors behind it
        forces = {
            "muscle": (muscle_arm * side * held.posture.humerus[:, 0], held.tension * toward_shoulder),
            "joint": (np.zeros(3), held.joint_force),
            "load": (along, held.forces[0]),
            "weight": (held.positions[-1] - elbow, held.forces[-1]) if len(held.forces) > 1 else (along, np.zeros(3)),
        }
        largest = max(np.linalg.norm(force) for _, force in forces.values()) or 1.0
        for name, (place, force) in forces.items():
            size = np.linalg.norm(force)
            length = max(LONGEST * size / largest, SHORTEST) / size if size > 0.05 else 0.0
            self.arrows[name].set_visible(bool(length))
            self.arrows[name].show(place[:2], (place + length * force)[:2])
            self.words[name].set_text(f"{name} {size:.0f} N" if size > 0.05 else "")

    def keep(self):
        """Leave the forearm as a grey outline."""
        self.ghost.keep([self.fore, self.fist], np.zeros(2))

    def drop(self):
        """Take the ghost away."""
        self.ghost.drop()
