"""Files in and out of the browser: drop or choose one or give its path to open it, save one to the downloads."""

from pathlib import Path

import anywidget
import traitlets

from ..given_file import has_disk, read_given
from ..inputs import InputError, echo

STYLE = """
.file-door { display: inline-block; padding: 3px 8px; border: 1px dashed #8a8a8a; border-radius: 4px;
  font-size: var(--jp-widgets-font-size); }
.file-door input { width: 7.5em; font-size: inherit; color: transparent; }
.file-path { width: 14em; margin-left: 4px; padding: 3px 6px; font-size: var(--jp-widgets-font-size);
  color: var(--jp-ui-font-color1, #000); background: var(--jp-layout-color1, #fff);
  border: 1px solid var(--jp-border-color1, #8a8a8a); }
"""


class FileDoor(anywidget.AnyWidget):
    """Drop zone, file chooser and, where the reader has files beside the kernel, a box for a path.

    ``words`` (two texts) are what stands on it and the endings of the files that it takes; ``largest`` (int) is the most bytes
    of one; ``path`` (bool) says whether a path may be typed.

    Parameters
    ----------
    take : callable
        Called with a file's name, text, and its bytes.
    refuse : callable
        Called with one line of words about a file that cannot be taken.
    """

    _esm = Path(__file__).with_name("file_door.js").read_text("utf-8")
    _css = STYLE
    words = traitlets.Tuple(("Open a set-up: drop it here or ", ".json")).tag(sync=True)
    largest = traitlets.Int(5_000_000).tag(sync=True)
    path = traitlets.Bool(False).tag(sync=True)

    def __init__(self, take, refuse, **traits):
        if "path" in traits:
            traits["path"] = traits["path"] and has_disk()
        super().__init__(**traits)
        self.take, self.refuse = take, refuse
        self.on_msg(self._hear)

    def _hear(self, _, content, buffers):
        if content.get("kind") == "opened":
            self.receive(str(content.get("name", "")), bytes(buffers[0]) if buffers else None)
        elif content.get("kind") == "path":
            self.open_path(str(content.get("typed", "")))

    def receive(self, name, content):
        """Take a file by its ``name``, text, and ``content``, bytes; None stands for a file that is too large to be sent."""
        if content is None or len(content) > self.largest:
            self.refuse(f"file: {echo(name)} has more than {self.largest // 1000} kB, too large to be opened here")
        else:
            self.take(name, content)

    def open_path(self, typed):
        """Take the file whose path somebody ``typed``, text; what cannot be read is refused in one line."""
        if not self.path or not typed.strip():
            return
        try:
            name, content = read_given(typed, self.largest)
        except InputError as error:
            self.refuse(str(error))
            return
        self.take(name, content)

    def save(self, name, content, mime):
        """Hand ``content`` (bytes) to the browser as a download called ``name``."""
        self.send({"kind": "save", "name": name, "mime": mime}, buffers=[content])
