"""What a box of controls is called, for those who do not see where it stands."""

from pathlib import Path

import anywidget
import traitlets

STYLE = """
:is(.pull-panel, .guess) :is(button, input, select):focus-visible { outline: 3px solid #d97706 !important; outline-offset: 1px; }
.group-name { display: none; }
.group-name.heading { display: block; font-weight: 700; margin: 2px 0.7em 2px 2px; line-height: 1.4;
  font-size: var(--jp-content-font-size1, 14px); color: var(--jp-content-font-color1, #111); }
"""


class GroupName(anywidget.AnyWidget):
    """Names the box that it stands in, and the controls in it whose own words say nothing.

    Parameters
    ----------
    words : str
        The name.
    shown : bool
        Whether it is a heading that is seen, too.
    tips : dict of str
        What checkboxes in it say when they are pointed at, by the words beside them; ipywidgets shows none.
    for_input : str
        What the box's text field or its choices are called, where their own label is a bare unit or none; empty where they have
        one.
    """

    _esm = Path(__file__).with_name("group_name.js").read_text("utf-8")
    _css = STYLE
    words = traitlets.Unicode().tag(sync=True)
    shown = traitlets.Bool().tag(sync=True)
    for_input = traitlets.Unicode().tag(sync=True)
    tips = traitlets.Dict().tag(sync=True)

    def __init__(self, words, *, shown=False, for_input="", tips=()):
        super().__init__(words=words, shown=shown, for_input=for_input, tips=dict(tips))
