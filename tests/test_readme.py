"""The README's Python runs as it stands there."""

import re
import tomllib
from pathlib import Path

README = (Path(__file__).parents[1] / "README.md").read_text(encoding="utf-8")


def test_the_numbers_without_a_notebook():
    (code,) = re.findall(r"```python\n(.*?)```", README, re.DOTALL)
    names = {}
    exec(code, names)
    assert names["rep"].shoulder_torque.dims == ("point", "axis")
    assert names["grid"].sizes["grip_ratio"] == names["grid"].sizes["trunk_lean"] == 41


def test_every_place_it_names_is_there():
    home = Path(__file__).parents[1]
    for place in re.findall(r"`((?:shoulder_model|tests|workbook|figures)/[\w/.]+)`", README):
        assert (home / place).exists(), place


def test_its_changes_begin_with_this_version():
    home = Path(__file__).parents[1]
    version = tomllib.loads((home / "pyproject.toml").read_text(encoding="utf-8"))["project"]["version"]
    assert re.search(r"## Changes\n\n\*\*([\d.]+)\*\*", README)[1] == version
    assert f"Version {version}" in README
