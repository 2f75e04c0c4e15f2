"""A package that is installed without its checkout brings the chapters and their figures along."""

import os
from pathlib import Path

from hatchling.builders.hooks.plugin.interface import BuildHookInterface


class Course(BuildHookInterface):
    """Adds them to a wheel; an installation in place reads them where they lie."""

    def initialize(self, version, build_data):
        """Called by the build with its kind (``standard`` or ``editable``); a site has the figures beside the package."""
        if version != "standard":
            return
        home = Path(self.root)
        figures = () if os.environ.get("SHOULDER_MODEL_BARE") else home.glob("figures/**/*.svg")
        checks = home.glob("tests/published/test_*.py")  # read, to say which numbers they use
        for path in (*home.glob("workbook/*.ipynb"), *figures, *checks):
            name = path.relative_to(home).as_posix()
            build_data["force_include"][name] = f"shoulder_model/course/{name}"
