"""Files in and out of the browser: drop or choose one to open it, save one to the downloads."""

from pathlib import Path

import anywidget
import traitlets

STYLE = """
.file-door { display: inline-block; padding: 3px 8px; border: 1px dashed #8a8a8a; border-radius: 4px;
  font-size: var(--jp-widgets-font-size); }
.file-door input { width: 7.5em; font-size: inherit; color: transparent; }
"""


class FileDoor(anywidget.AnyWidget):
    """Drop zone and file chooser; ``opened`` holds the last file as name, text (read as UTF-8), data (its bytes) and a running count.

    ``words`` holds what stands on it, and the ending of the files that it takes.
    """

    _esm = Path(__file__).with_name("file_door.js")
    _css = STYLE
    opened = traitlets.Dict().tag(sync=True)
    words = traitlets.Tuple(("Open a set-up: drop it here or ", ".json")).tag(sync=True)

    def save(self, name, content, mime):
        """Hand ``content`` (bytes) to the browser as a download called ``name``."""
        self.send({"kind": "save", "name": name, "mime": mime}, buffers=[content])
