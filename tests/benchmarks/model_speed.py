"""Speed and size of the numbers: ``python tests/benchmarks/model_speed.py``. Figures, not tests."""

import statistics
import subprocess
import sys
import time
import tracemalloc

import numpy as np

import shoulder_model as sm


def median_ms(call, times):
    """Median time of ``call`` over ``times`` runs, after one to warm up. [ms]"""
    call()
    taken = []
    for _ in range(times):
        start = time.perf_counter()
        call()
        taken.append(time.perf_counter() - start)
    return 1e3 * statistics.median(taken)


def import_seconds():
    """Median time of ``import shoulder_model`` in a fresh interpreter, its own start left out. [s]"""
    code = "import time; t = time.perf_counter(); import shoulder_model; print(time.perf_counter() - t)"
    runs = [subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True) for _ in range(5)]
    return statistics.median(float(run.stdout) for run in runs)


def main():
    lifter, pull = sm.Lifter.average("men"), sm.pulls["front pulldown"]
    grips, leans = np.linspace(1, 2, 41), np.radians(np.arange(41))

    def grid():
        return sm.sweep(lifter, pull, grip_ratio=grips, trunk_lean=leans)

    def work_grid():
        return sm.sweep(lifter, pull, grip_ratio=grips, trunk_lean=leans, work=True)

    bare = median_ms(lambda: sm.rep(lifter, pull, work=False), 300)
    print(f"rep of 41 points, no work     {bare:8.2f} ms   (wanted: under 3)")
    print(f"  with who does the work      {median_ms(lambda: sm.rep(lifter, pull), 300):8.2f} ms")
    print(f"sweep of 41 x 41 x 41         {median_ms(grid, 15) / 1e3:8.3f} s    (wanted: under 0.5)")
    print(f"  with who does the work      {median_ms(work_grid, 3) / 1e3:8.3f} s")
    tracemalloc.start()
    grid()
    print(f"  its peak memory             {tracemalloc.get_traced_memory()[1] / 1e6:8.0f} MB   (wanted: under 300)")
    tracemalloc.stop()
    print(f"import shoulder_model         {import_seconds():8.2f} s    (wanted: under 1)")


if __name__ == "__main__":
    main()
