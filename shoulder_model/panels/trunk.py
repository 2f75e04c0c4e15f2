"""The trunk panel: how far the trunk leans and where the pull ends, from pulldown to row."""

import numpy as np

from .pull_panel import PullPanel, lean_slider
from .slider import slider


class TrunkPanel(PullPanel):
    """Sweep the lean from bent over to lying back; the height of the touch point beside it."""

    name, field, start = "trunk-panel", "trunk_lean", "seated row wide"
    x_label = "trunk lean [°], backward positive"
    x_values = np.arange(-90.0, 91.0, 7.5)
    per_si = float(np.degrees(1.0))

    def field_sliders(self):
        return {
            "trunk_lean": lean_slider(15, main=True),
            "touch_up": slider("Touch point [cm up]", -7, -45, 15, 1),
        }
