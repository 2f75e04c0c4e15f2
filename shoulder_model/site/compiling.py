"""Compiles what the page loads, once, at build time; what was compiled before is taken from the store."""

import hashlib
import json
import shutil
from pathlib import Path

from .download import run
from .parts import parts

HERE = Path(__file__).parent
SCRIPT, CODE = HERE / "compile.mjs", HERE / "in_wheel.py"


def compile_wheels(folder, store):
    """Compile the wheels of the distribution in ``folder`` (path), where Node.js is found; its lock follows.

    ``store`` (`download.Store`) keeps them for the next build.

    Returns
    -------
    str
        A sentence for whoever builds, in words.
    """
    if shutil.which("node") is None:
        return "Node.js is not here, so Python is compiled by each reader's browser: the start takes longer there."
    lock_file = folder / parts().core.lock
    lock = json.loads(lock_file.read_text(encoding="utf-8"))
    rows = [row for row in lock["packages"].values() if row["file_name"].endswith(".whl")]
    kept = store.folder / "compiled"
    kept.mkdir(parents=True, exist_ok=True)
    recipe = hashlib.sha256(CODE.read_bytes() + (folder / "python_stdlib.zip").read_bytes()).hexdigest()
    places = {
        row["name"]: kept / f"{hashlib.sha256((recipe + row['sha256']).encode()).hexdigest()[:24]}.whl" for row in rows
    }
    new = [row for row in rows if not places[row["name"]].exists()]
    for row in new:
        shutil.copyfile(folder / row["file_name"], places[row["name"]].with_suffix(".part"))
    if new:
        files = [places[row["name"]].with_suffix(".part") for row in new]
        run(["node", SCRIPT, folder, CODE, *files], "compiling Python for the page")
        for file in files:
            file.rename(file.with_suffix(".whl"))
    before = sum((folder / row["file_name"]).stat().st_size for row in rows)
    for row in rows:
        shutil.copyfile(places[row["name"]], folder / row["file_name"])
        row["sha256"] = hashlib.sha256((folder / row["file_name"]).read_bytes()).hexdigest()
    lock_file.write_text(json.dumps(lock), encoding="utf-8")
    after = sum((folder / row["file_name"]).stat().st_size for row in rows)
    return (
        f"{len(rows)} packages are compiled, {len(new)} of them now: {before / 1e6:.0f} MB became {after / 1e6:.0f} MB."
    )


def named_by_content(folder):
    """Give each wheel in ``folder`` (path) a name that changes with its content, and the lock the new names.

    A browser that still has the files of an older site then never mixes the two.
    """
    lock_file = folder / parts().core.lock
    lock = json.loads(lock_file.read_text(encoding="utf-8"))
    for row in lock["packages"].values():
        name, version, *tags = row["file_name"].split("-")
        new = "-".join([name, version, f"1{row['sha256'][:12]}", *tags[-3:]])
        (folder / row["file_name"]).rename(folder / new)
        row["file_name"] = new
    lock_file.write_text(json.dumps(lock), encoding="utf-8")
