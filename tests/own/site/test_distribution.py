"""The distribution for the page, put together from a small release made here; no registry is asked."""

import hashlib
import io
import json
import tarfile
import zipfile

import pytest

from shoulder_model.inputs import InputError
from shoulder_model.site import distribution, download
from shoulder_model.site.compiling import named_by_content
from shoulder_model.site.distribution import Registries, Release, lay_out
from shoulder_model.site.download import Missing, Store
from shoulder_model.site.parts import canonical, held, parts

LOCK = parts().core.lock
EVERY = sorted({*(name for one in parts().carriers for name in one.wheels), *(one.name for one in parts().plain)})


def wheel(name, text="x = 1\n"):
    """Bytes of a small wheel."""
    store = io.BytesIO()
    with zipfile.ZipFile(store, "w") as made:
        made.writestr(f"{name.replace('-', '_')}/__init__.py", text)
        made.writestr(f"{name}-1.dist-info/METADATA", "")
    return store.getvalue()


@pytest.fixture
def release(tmp_path):
    """A folder as that of the official release, with every package of the table."""
    folder = tmp_path / "release"
    folder.mkdir()
    rows = {}
    for name in EVERY:
        file = f"{name.replace('-', '_')}-1-py3-none-any.whl"
        (folder / file).write_bytes(wheel(name))
        digest = hashlib.sha256((folder / file).read_bytes()).hexdigest()
        rows[name] = {
            "name": name,
            "version": "1",
            "file_name": file,
            "sha256": digest,
            "depends": ["numpy", "not-needed"],
        }
    for name in parts().core.files:
        (folder / name).write_bytes(name.encode())
    (folder / LOCK).write_text(json.dumps({"info": {"python": f"{parts().python}.0"}, "packages": rows}))
    return folder


@pytest.fixture
def no_registry(monkeypatch):
    def refuse(*given, **named):
        raise AssertionError("a registry was asked")

    monkeypatch.setattr(download.subprocess, "run", refuse)


def packed(folder, path):
    with tarfile.open(path, "w:bz2") as archive:
        archive.add(folder, "pyodide")
    return path


@pytest.mark.parametrize("kind", ["folder", "archive"])
def test_a_release_becomes_a_distribution(kind, release, tmp_path, no_registry):
    source = Release(release if kind == "folder" else packed(release, tmp_path / "release.tar.bz2"))
    there = lay_out(
        tmp_path / "made",
        source,
        Store(tmp_path / "store"),
        {"shoulder_model-0.2-py3-none-any.whl": wheel("shoulder-model")},
    )
    lock = json.loads((tmp_path / "made" / LOCK).read_text())["packages"]
    assert set(lock) == {*EVERY, "shoulder-model"} == set(there.packages)
    assert set(there.packages) - set(there.start) == set(distribution.LATER)
    for row in lock.values():
        content = (tmp_path / "made" / row["file_name"]).read_bytes()
        assert hashlib.sha256(content).hexdigest() == row["sha256"]
        assert set(row["depends"]) <= set(lock)
    assert lock["shoulder-model"]["imports"] == ["shoulder_model"]
    assert (tmp_path / "made" / "pyodide.mjs").read_bytes() == b"pyodide.mjs"


def test_names_follow_the_content(release, tmp_path, no_registry):
    names = []
    for text in ("x = 1\n", "x = 2\n"):
        folder = tmp_path / f"made{len(names)}"
        lay_out(
            folder,
            Release(release),
            Store(tmp_path),
            {"shoulder_model-0.2-py3-none-any.whl": wheel("shoulder-model", text)},
        )
        named_by_content(folder)
        names.append(
            {row["name"]: row["file_name"] for row in json.loads((folder / LOCK).read_text())["packages"].values()}
        )
        assert all((folder / name).exists() for name in names[-1].values())
    assert {name for name in names[0] if names[0][name] != names[1][name]} == {"shoulder-model"}


def test_a_wheel_that_is_not_the_locks_stops_the_build(release, tmp_path, no_registry):
    file = next(release.glob("numpy-*.whl"))
    file.write_bytes(file.read_bytes() + b" ")
    with pytest.raises(
        InputError, match=r"numpy-1-py3-none-any\.whl \(by the lock\) is not the file that was expected"
    ):
        lay_out(tmp_path / "made", Release(release), Store(tmp_path / "store"), {})


def test_what_a_release_lacks_is_said(release, tmp_path):
    (release / "pyodide.asm.wasm").unlink()
    with pytest.raises(InputError, match=r"holds no pyodide\.asm\.wasm; give the full release"):
        lay_out(tmp_path / "made", Release(release), Store(tmp_path / "store"), {})
    (release / LOCK).unlink()
    with pytest.raises(InputError, match="give the full release"):
        Release(release)
    with pytest.raises(InputError, match="cannot be read"):
        Release(tmp_path / "nowhere.tar.bz2")


def test_another_python_is_refused(release, tmp_path):
    lock = json.loads((release / LOCK).read_text())
    lock["info"]["python"] = "3.15.0"
    (release / LOCK).write_text(json.dumps(lock))
    with pytest.raises(InputError, match=r"Python 3\.15\.0, the table is for"):
        lay_out(tmp_path / "made", Release(release), Store(tmp_path / "store"), {})


def test_a_carrier_with_another_wheel_stops_the_build(release, tmp_path, monkeypatch):
    """What a registry's package carries is held against the lock, whatever its own digest says."""
    core, carrier = io.BytesIO(), io.BytesIO()
    with tarfile.open(fileobj=core, mode="w:gz") as archive:
        for name in (*parts().core.files, LOCK):
            archive.add(release / name, f"package/{name}")
    with zipfile.ZipFile(carrier, "w") as made:
        for path in release.glob("*.whl"):
            made.writestr(
                f"{parts().carriers[0].folder}/{path.name}", path.read_bytes() + (b" " if "scipy" in path.name else b"")
            )
    monkeypatch.setattr(Store, "core", lambda self: core.getvalue())
    monkeypatch.setattr(Store, "package", lambda self, one, python=None: carrier.getvalue())
    with pytest.raises(InputError, match="scipy-1-py3-none-any"):
        lay_out(tmp_path / "made", Registries(Store(tmp_path / "store")), Store(tmp_path / "store"), {})


def test_a_fetched_file_is_kept_and_held_to_its_digest(tmp_path):
    store, asked, good = Store(tmp_path / "store"), [], hashlib.sha256(b"good").hexdigest()

    def fetch(content):
        def put(folder):
            asked.append(content)
            (tmp_path / folder / "as-it-came.whl").write_bytes(content)

        return put

    with pytest.raises(InputError, match="a part is not the file that was expected"):
        store.kept("a.whl", good, fetch(b"bad"), "a part")
    assert store.kept("a.whl", good, fetch(b"good"), "a part") == b"good"
    assert store.kept("a.whl", good, fetch(b"good"), "a part") == b"good"
    assert asked == [b"bad", b"good"]
    next(store.folder.rglob("a.whl")).write_bytes(b"spoilt on the disk")
    with pytest.raises(InputError, match="not the file"):
        store.kept("a.whl", good, fetch(b"good"), "a part")


def test_a_missing_program_and_a_failing_one_are_said_in_a_line(tmp_path):
    with pytest.raises(Missing, match="the core needs the program 'no-such-program', which is not here"):
        download.run(["no-such-program"], "the core")
    with pytest.raises(Missing, match="the core failed"):
        download.run([download.sys.executable, "-c", "import sys; sys.exit('nothing there')"], "the core")


def test_the_table_is_whole():
    assert len(EVERY) == sum(len(one.wheels) for one in parts().carriers) + len(parts().plain)
    assert EVERY == sorted(map(canonical, EVERY))
    digests = [parts().core.sha256, *(one.sha256 for one in (*parts().carriers, *parts().plain))]
    assert all(len(one) == 64 and set(one) <= set("0123456789abcdef") for one in digests)
    assert set(distribution.LATER) <= set(EVERY)
    assert held(b"", hashlib.sha256(b"").hexdigest(), "nothing") == b""
