"""Studies: the same bits whatever the blocks and whoever works; what is finished is kept; wrong calls."""

import contextlib
import os
import random
import signal
import subprocess
import sys
import time
import warnings
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
import xarray as xr
import zarr
from numpy.testing import assert_allclose

import shoulder_model as sm
from shoulder_model.inputs import InputError
from shoulder_model.repetition import group_shares
from shoulder_model.spread import as_tabled, draw, merged, strength_of, studies
from shoulder_model.spread.fingerprint import fingerprint
from shoulder_model.spread.tally import ERROR

HOME = Path(sm.__file__).parents[1]
WOMEN = sm.Crowd(12, "women", 4)
ANSWERS = ("lat_share", "whole_rep_load_kg", "best_grip_by_mid_back_share", "shoulder_torque", "muscle_moment_arm")
FEW = ("lat_share", "best_grip_by_lat_share")
SET_UP = {
    "pulls": ["front pulldown", "seated row wide"], "grip_ratio": [1.0, 1.6], "trunk_lean": [0.0, 0.3], "answers": ANSWERS,
    "points": 5, "draws": 1, "seed": 2, "progress": False,
}  # fmt: skip


def study(crowd=WOMEN, **changed):
    return sm.study(crowd, **{**SET_UP, **changed})


@pytest.fixture(scope="module")
def whole():
    return study()


def test_a_study_is_what_reps_one_by_one_are(whole):
    person, deviate = WOMEN.lifters(slice(3, 4)), WOMEN.deviates(slice(3, 4), "strength")
    one = sm.Lifter("women", **{name: float(getattr(person, name)[0]) for name in sm.people.MEASURES})
    pull = sm.pulls["front pulldown"].change(grip_ratio=1.6, trunk_lean=0.3)
    for number, drawn in enumerate((as_tabled(), draw(2, 0))):
        strength = drawn.strength(strength_of(one, float(deviate[0])), "women")
        rep = sm.rep(one, drawn.pull(pull), points=5, strength=strength, **drawn.options)
        there = whole.sel(draw=number, pull="front pulldown", grip_ratio=1.6, trunk_lean=0.3).isel(lifter=3)
        for name in ("whole_rep_load_kg", "shoulder_torque", "muscle_moment_arm"):
            assert_allclose(there[name].values, rep[name].values, rtol=1e-9, atol=1e-12)
        half = 0.5 * float(rep.whole_rep_load_kg)
        loaded = sm.rep(one, drawn.pull(pull).change(load_kg=half), points=5, strength=strength, **drawn.options)
        shares, _ = group_shares(sm.repetition.active_cross_section(loaded, drawn.body))
        assert_allclose(float(there.lat_share), float(shares["lat"]), rtol=1e-6)


def test_the_best_grip_is_the_one_with_most_of_it():
    both = study(answers=["mid_back_share", "best_grip_by_mid_back_share"], draws=0)
    best = both.mid_back_share.grip_ratio.values[both.mid_back_share.argmax("grip_ratio").values]
    assert np.array_equal(both.best_grip_by_mid_back_share.values, best)


@pytest.mark.parametrize("rows", [1, 7, 1000])
def test_blocks_of_any_size_give_the_same_bits(whole, rows):
    assert study(rows=rows).identical(whole)
    assert study(rows=rows, memory_mb=20_000).identical(whole)


def test_threads_and_processes_give_the_same_bits(whole):
    with ThreadPoolExecutor(2) as threads:
        assert study(rows=3, executor=threads).identical(whole)
    assert study(rows=5, workers=2).identical(whole)


@pytest.fixture
def cluster():
    distributed = pytest.importorskip("distributed")
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        made = distributed.LocalCluster(
            n_workers=2, threads_per_worker=1, processes=True, host="127.0.0.1", dashboard_address=None, protocol="tcp"
        )
        with made, distributed.Client(made) as client:
            yield made, client


@pytest.mark.filterwarnings("ignore")
def test_a_cluster_gives_the_same_bits_and_outlives_a_worker(whole, cluster):
    _, client = cluster
    pids, killed = list(client.run(os.getpid).values()), []
    taken = studies.Arrays.take

    def take_and_kill(kept, block, answers):
        taken(kept, block, answers)
        if kept.complete == 5:
            killed.append(pids[0])
            os.kill(pids[0], signal.SIGTERM if sys.platform == "win32" else signal.SIGKILL)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(studies.Arrays, "take", take_and_kill)
        found = study(rows=1, executor=client)
    assert killed and found.identical(whole)
    assert pids[0] not in client.run(os.getpid).values()


def test_a_study_with_a_file_gives_the_same_and_opens_again(whole, tmp_path):
    found = study(rows=5, file=tmp_path / "women")
    assert found.identical(whole)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(studies, "answers_of", None)  # nothing is worked out again
        assert study(rows=3, file=tmp_path / "women").identical(whole)


@pytest.mark.parametrize("keep", ["arrays", "summary"])
def test_what_is_finished_outlives_an_interruption(tmp_path, keep, monkeypatch):
    wanted, worked = study(keep=keep, answers=FEW), studies.answers_of
    done = []

    def until_the_ninth(plan, block):
        if len(done) == 9:
            raise KeyboardInterrupt
        done.append(block)
        return worked(plan, block)

    monkeypatch.setattr(studies, "answers_of", until_the_ninth)
    with pytest.raises(KeyboardInterrupt):
        study(keep=keep, answers=FEW, rows=2, file=tmp_path / "women")
    monkeypatch.setattr(studies, "answers_of", lambda plan, block: done.append(block) or worked(plan, block))
    assert study(keep=keep, answers=FEW, rows=2, file=tmp_path / "women").identical(wanted)
    assert len(done) == len(set(done)) == 2 * 2 * 6, "a block was worked out twice, or not at all"


PROGRAM = """
import signal, sys
signal.signal(signal.SIGINT, signal.default_int_handler)  # what runs the tests may have been started without it
from shoulder_model.spread import kept
kept.EVERY = 0.0
from tests.own.spread.test_study import FEW, study
print("begun", flush=True)
study(keep=sys.argv[1], answers=FEW, rows=1, file=sys.argv[2])
"""


@pytest.mark.skipif(sys.platform == "win32", reason="no SIGKILL there")
@pytest.mark.parametrize("keep", ["arrays", "summary"])
def test_a_killed_study_goes_on_to_the_same_bits(tmp_path, keep):
    chance, file = random.Random(2), tmp_path / "women"
    for _ in range(3):
        command = [sys.executable, "-c", PROGRAM, keep, str(file)]
        with subprocess.Popen(
            command, stdout=subprocess.PIPE, cwd=HOME, env={**os.environ, "PYTHONPATH": str(HOME)}
        ) as process:
            process.stdout.readline()
            time.sleep(chance.uniform(0.1, 0.6))
            process.kill()
    assert study(keep=keep, answers=FEW, rows=1, file=file).identical(study(keep=keep, answers=FEW))


@pytest.mark.skipif(sys.platform == "win32", reason="no such signal there")
def test_ctrl_c_ends_a_study_with_workers_and_keeps_what_is_finished(tmp_path):
    file = tmp_path / "women"
    program = PROGRAM.replace("file=sys.argv[2]", "file=sys.argv[2], workers=2, draws=200")
    command, pipes = (
        [sys.executable, "-c", program, "arrays", str(file)],
        {"stdout": subprocess.PIPE, "stderr": subprocess.PIPE},
    )
    with subprocess.Popen(
        command, cwd=HOME, env={**os.environ, "PYTHONPATH": str(HOME)}, start_new_session=True, text=True, **pipes
    ) as process:
        done, until = 0, time.monotonic() + 60
        while done < 5 and time.monotonic() < until:
            time.sleep(0.1)
            with contextlib.suppress(Exception):
                done = int(zarr.open_group(str(file), mode="r")["complete"][0])
        os.killpg(process.pid, signal.SIGINT)
        said = process.communicate(timeout=60)[1]
    assert done >= 5 and said.count("Traceback") == 1 and said.rstrip().endswith("KeyboardInterrupt")
    assert int(zarr.open_group(str(file), mode="r")["complete"][0]) >= done


@pytest.mark.skipif(sys.platform == "win32", reason="no SIGKILL there")
def test_workers_of_a_killed_study_end_too():
    psutil = pytest.importorskip("psutil")
    program = PROGRAM.replace("rows=1, file=sys.argv[2]", "rows=1, workers=2, draws=50")
    command = [sys.executable, "-c", program, "summary"]
    with subprocess.Popen(
        command, stdout=subprocess.PIPE, cwd=HOME, env={**os.environ, "PYTHONPATH": str(HOME)}
    ) as process:
        process.stdout.readline()
        workers, until = [], time.monotonic() + 30
        while len(workers) < 3 and time.monotonic() < until:  # two, and multiprocessing's own
            workers = psutil.Process(process.pid).children(recursive=True)
            time.sleep(0.05)
        process.kill()
    assert len(workers) >= 2
    assert psutil.wait_procs(workers, timeout=30)[1] == []


def test_a_torn_block_is_worked_out_again(tmp_path, whole):
    """What a power cut leaves: numbers that were written, and no word of it."""
    study(rows=2, file=tmp_path / "women")
    group = zarr.open_group(str(tmp_path / "women"), mode="r+")
    group["complete"][0] = 7
    group["lat_share"][1, 1] = 99.0
    assert study(rows=2, file=tmp_path / "women").identical(whole)


def test_a_file_of_another_study_is_refused(tmp_path):
    study(answers=["force"], draws=0, file=tmp_path / "women")
    with pytest.raises(InputError, match="another study, it has other seed"):
        study(answers=["force"], draws=0, file=tmp_path / "women", seed=9)
    with pytest.raises(InputError, match="another study, it has other people"):
        study(sm.Crowd(12, "women", 5), answers=["force"], draws=0, file=tmp_path / "women")
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("shoulder_model.spread.study_file.fingerprint", lambda: "another")
        with pytest.raises(InputError, match="the model has changed since"):
            study(answers=["force"], draws=0, file=tmp_path / "women")
    (tmp_path / "notes").mkdir()
    (tmp_path / "notes" / "mine.txt").write_text("mine")
    with pytest.raises(InputError, match="something else than a study"):
        study(answers=["force"], draws=0, file=tmp_path / "notes")
    assert (tmp_path / "notes" / "mine.txt").read_text() == "mine"


def test_a_summary_has_the_quantiles_of_the_arrays(whole):
    answers = ("lat_share", "whole_rep_load_kg", "shoulder_torque")
    summary = study(answers=answers, keep="summary", quantiles=[0.05, 0.5, 0.95])
    for name in answers:
        exact = whole[name].quantile([0.05, 0.5, 0.95], "lifter", method="inverted_cdf").transpose(..., "quantile")
        grain = 1e-4 if name == "lat_share" else 0.01
        off = np.abs(summary[name].values - exact.values)
        assert np.all(off <= 1.01 * ERROR * np.hypot(exact.values, grain)), name
        assert np.all(summary[f"{name}_missing"] == 0)


def test_summaries_of_other_people_merge():
    def of(seed, **changed):
        return study(sm.Crowd(20, "men", seed), answers=["force"], draws=0, keep="summary", **changed)

    both = merged(of(1), of(2))
    assert both.attrs["people"] == 40 and int(both.force_counts.sum()) == 40 * 2 * 4
    assert merged(of(1)).identical(of(1))
    for wrong in (of(2, grip_ratio=[1.0, 1.7]), study(answers=["force"], draws=0), None):
        with pytest.raises(InputError, match="summaries"):
            merged(of(1), wrong)


def test_what_is_out_of_reach_is_missing_and_the_rest_is_there():
    """Of the widest grip some people's arms are too short; the others' answers are those of a study without them."""
    crowd, far = sm.draw_lifters(40, "men", 3), sm.pulls["front pulldown"].change(touch_forward=0.5, girdle_travel=0.0)
    found = study(
        crowd,
        pulls=far,
        grip_ratio=[1.0, 2.4],
        trunk_lean=None,
        answers=["hand_offset", "elbow_flexion"],
        draws=0,
        rows=16,
    )
    reached = np.isfinite(found.elbow_flexion.isel(draw=0, pull=0, point=0)).values
    assert reached[:, 0].all() and 0 < reached[:, 1].sum() < 40
    for k in np.flatnonzero(~reached[:, 1])[:3]:
        one = sm.Lifter("men", **{name: float(getattr(crowd, name)[k]) for name in sm.people.MEASURES})
        with pytest.raises(InputError, match="reach"):
            sm.rep(one, far.change(grip_ratio=2.4))
    summary = study(
        crowd, pulls=far, grip_ratio=[1.0, 2.4], trunk_lean=None, answers=["short_of_touch"], draws=0, keep="summary"
    )
    assert summary.short_of_touch_missing.values.ravel().tolist() == [0, 40 - reached[:, 1].sum()]


def test_one_person_and_arrays_are_crowds_too():
    one = study(sm.Lifter.average("men"), answers=["force"], draws=0, strength="expected")
    assert one.sizes["lifter"] == 1
    some = study(sm.draw_lifters(3, "men", 1), answers=["whole_rep_load_kg"], draws=0)
    assert some.whole_rep_load_kg.shape == (1, 2, 3, 2, 2)
    assert some.whole_rep_load_kg.attrs["units"] == "kg" and some.attrs["model"] == fingerprint()


def test_memory_stays_inside_what_was_allowed():
    """The largest block that 60 MB allow, and not even one person in 1 MB."""
    import tracemalloc

    tracemalloc.start()
    made = {"answers": ["muscle_length"], "draws": 0, "seed": 0, "strength": "drawn", "anchored": True}
    plan = studies._plan(sm.Crowd(2000, "men", 1), "pull-up", {"grip_ratio": [1.0, 1.5]}, {"points": 21}, **made)
    plan = replace(plan, rows=studies.rows_of("arms", plan.a_person, 2000, 60.0, 1))
    tracemalloc.reset_peak()
    studies.answers_of(plan, plan.blocks[0])
    peak = tracemalloc.get_traced_memory()[1] / 1e6
    tracemalloc.stop()
    assert 20 < peak < 60
    with pytest.raises(InputError, match="one person takes"):
        study(grip_ratio=np.linspace(1, 2, 100), memory_mb=1.0)


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"answers": ["lat share"]}, "lat_share"),
        ({"answers": "best_grip_by_lat_share", "grip_ratio": None}, "several grips"),
        ({"pulls": []}, "pulls is empty"),
        ({"pulls": ["front pull-down"]}, "front pulldown"),
        ({"executor": object()}, "executor has no submit"),
        ({"keep": "all"}, "keep"),
        ({"draws": -1}, "draws"),
        ({"grip_ratio": [1.0, 9.0]}, "grip_ratio"),
        ({"point": 3}, "option"),
        ({"quantiles": [1.5], "keep": "summary"}, "quantiles"),
        ({"crowd": sm.Crowd(10**8, "men", 1), "answers": "lat_share"}, "GB in memory; give file"),
        ({"keep": "summary", "points": 2001}, "GB in memory; ask fewer"),
    ],
)
def test_wrong_calls_are_refused_before_anything_is_worked_out(changed, said, monkeypatch):
    monkeypatch.setattr(studies, "answers_of", None)
    with pytest.raises(InputError, match=said):
        study(**changed)


def test_the_bar_counts_postures(capsys):
    study(answers=["force"], draws=0, progress=True)
    said = capsys.readouterr().err
    assert "100%" in said and "postures" in said and "480" in said


def test_a_study_and_its_file_open_in_xarray(tmp_path, whole):
    whole.to_netcdf(tmp_path / "copy.nc", engine="scipy")
    study(file=tmp_path / "women")
    for opened in (
        xr.open_dataset(tmp_path / "copy.nc", engine="scipy"), xr.open_zarr(tmp_path / "women", chunks=None, consolidated=False)
    ):  # fmt: skip
        with opened:
            for name in ANSWERS:
                assert opened[name].dims == whole[name].dims and np.array_equal(
                    opened[name], whole[name], equal_nan=True
                )
            assert opened.grip_ratio.values.tolist() == [1.0, 1.6]
