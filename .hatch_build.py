"""A package that is installed without its checkout brings the chapters and their figures along."""

from pathlib import Path

from hatchling.builders.hooks.plugin.interface import BuildHookInterface


class Course(BuildHookInterface):
    """Adds them to a wheel; an installation in place reads them where they lie."""

    def initialize(self, version, build_data):
        """Called by the build with its kind (``standard`` or ``editable``)."""
        if version != "standard":
            return
        home = Path(self.root)
        for path in (*home.glob("workbook/*.ipynb"), *home.glob("figures/**/*.svg")):
            name = path.relative_to(home).as_posix()
            build_data["force_include"][name] = f"shoulder_model/course/{name}"
