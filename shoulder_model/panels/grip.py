"""The grip panel: how wide the hands hold, and what that asks of the shoulder."""

import numpy as np

from .pull_panel import PullPanel, grip_slider
from .slider import slider


class GripPanel(PullPanel):
    """Sweep the grip from close handles to twice the shoulders; an elbow cue beside it."""

    name, field, start = "grip-panel", "grip_ratio", "front pulldown"
    x_label = "grip: the hands' distance over the shoulders'"
    x_brief = "grip [× shoulders]"
    x_values = np.linspace(0.3, 2.2, 20)

    def field_sliders(self):
        return {
            "grip_ratio": grip_slider(main=True),
            "elbow_cue": slider("Elbow cue [° out]", 0, -40, 40, 1),
        }
