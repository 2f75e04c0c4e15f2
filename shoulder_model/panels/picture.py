"""What a panel shows: the verdict in a sentence, its small print, a refused input in a line, and the picture in two layers.

The page builds the moving layer once; a move is one message with the attributes that changed and the new words. While nobody
moves anything the page asks for the next step of a slider to either side, and shows it at once when the step is taken; the
message that follows says the same, or puts it right. When nothing has moved for a while and bands are awaited, the page says
that it is settled, and once more after each answer until the bands are there.
"""

from pathlib import Path

import anywidget


class Picture(anywidget.AnyWidget):
    """Words and picture of one panel.

    ``said`` (dict of str): "verdict", "small", "bands", "trouble" stand above the picture, "words" is what the picture says to a screen
    reader. ``sliders`` (dict of name -> `slider.Slider`) are those whose next steps the page may ask for; ``ahead(name, value)``
    gives moves and words of such a step, or None. ``fit(narrow)`` is called when the page is a narrow one, or no longer.
    ``bands()`` says how the bands stand, "off", "awaited" or "there"; ``settle()`` is called while they are awaited and nothing moves.

    Parameters
    ----------
    stage : draw.stage.Stage
    still : str
        Name of the figure that stands for this panel on a page that is not running; it is hidden while the panel lives.
    """

    _esm = Path(__file__).with_name("picture.js").read_text("utf-8")
    _css = Path(__file__).with_name("picture.css").read_text("utf-8")

    def __init__(self, stage, still):
        super().__init__()
        self.stage, self.still = stage, still
        self.said = dict.fromkeys(("verdict", "small", "bands", "trouble", "words"), "")
        self.sliders, self.ahead, self.fit = {}, None, None
        self.bands, self.settle = lambda: "off", None
        self._frame = None
        self.on_msg(lambda _, content, __: self._answer(content))

    def _answer(self, content):
        if content.get("kind") == "ready":
            self.show_all()
        elif content.get("kind") == "fit" and self.fit:
            self.fit(bool(content.get("narrow")))
        elif content.get("kind") == "settled" and self.settle:
            self.settle()
        elif content.get("kind") == "ahead":
            slider, value = content["slider"], float(content["value"])
            there = self.ahead(slider, value)
            if there is not None:
                self._tell("ahead", *there, slider=slider, value=value)

    def show_all(self):
        """Give the page everything: a page that has just been opened has nothing yet."""
        if self._frame is None:
            self._frame = self.stage.frame()
        now = list(enumerate(self.stage.attributes()))
        size = [self.stage.width, self.stage.height]
        whole = {"frame": self._frame, "layer": self.stage.layer(), "size": size, "still": self.still}
        self._tell("all", now, self.said, **whole)

    def take(self, stage):
        """Show another ``stage`` (`draw.stage.Stage`) from now on."""
        self.stage, self._frame = stage, None
        self.stage.moves()  # the page is given everything
        self.show_all()

    def show(self, *, new_frame=False, in_words=True):
        """Give the page what changed; ``new_frame`` (bool) where the still layer did too.

        ``in_words`` is False where the words are still being worked out, and will follow with `say`.
        """
        moves = self.stage.moves()
        if new_frame:
            self._frame = None
            self.show_all()
        else:
            self._tell("move", moves, self.said if in_words else None)

    def say(self):
        """Give the page the words only."""
        self._tell("move", [], self.said)

    def show_bands(self):
        """Give the page the bands with their words where they are there; else it learns that they are still awaited."""
        there = self.bands() == "there"
        self._tell("bands", self.stage.moves() if there else [], self.said if there else None)

    def _tell(self, kind, moves, said, **more):
        """One message; ``at`` says where the sliders stood for it."""
        at = {name: slider.value for name, slider in self.sliders.items()}
        self.send({"kind": kind, "moves": moves, "said": said, "at": at, "bands": self.bands()} | more)
