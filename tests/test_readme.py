"""The README's Python runs as it stands there."""

import re
import tomllib
from pathlib import Path

README = (Path(__file__).parents[1] / "README.md").read_text(encoding="utf-8")


CODE = re.findall(r"```python\n(.*?)```", README, re.DOTALL)


def test_the_numbers_without_a_notebook():
    code, names = CODE[0], {}
    exec(code, names)
    assert names["rep"].shoulder_torque.dims == ("point", "axis")
    assert names["grid"].sizes["grip_ratio"] == names["grid"].sizes["trunk_lean"] == 41


def test_the_crowd_with_fewer_people_draws_and_cases(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    names, code = {}, CODE[1]
    for many, few in (
        ("10_000", "6"),
        ("draws=20, workers=2", "draws=1, points=5"),
        ('["pull-up"]', '["pull-up"], n=8, points=3'),
    ):
        assert many in code
        code = code.replace(many, few)
    exec("import numpy as np\nimport shoulder_model as sm\n" + code, names)
    assert dict(names["study"].whole_rep_load_kg.sizes) == {"draw": 2, "pull": 2, "grip_ratio": 5, "quantile": 5}
    assert (tmp_path / "women.zarr").is_dir() and "landmarks" in names["matters"].input


def test_every_place_it_names_is_there():
    home = Path(__file__).parents[1]
    for place in re.findall(r"`((?:shoulder_model|tests|workbook|figures)/[\w/.]+)`", README):
        assert (home / place).exists(), place


def test_its_changes_begin_with_this_version():
    home = Path(__file__).parents[1]
    version = tomllib.loads((home / "pyproject.toml").read_text(encoding="utf-8"))["project"]["version"]
    assert re.search(r"## Changes\n\n\*\*([\d.]+)\*\*", README)[1] == version
    assert f"Version {version}" in README
