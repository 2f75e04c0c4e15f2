"""Studies of crowds, two cores: ``python tests/benchmarks/study_speed.py [LIFTERS]``.

Prints a table: 10,000 lifters x 21 grips x 12 pulls x 21 points with all muscles' moment arms (wanted: under 120 s, peak under
1 GB), the same with plain arrays for a tenth, and with the work shared for a fiftieth of the people, and 1,000, 10,000 and 100,000 lifters with the mechanics alone,
whose time should grow in proportion and whose memory should not. Figures, not tests.
"""

import os

os.environ.update(OMP_NUM_THREADS="1", OPENBLAS_NUM_THREADS="1", MKL_NUM_THREADS="1")  # before numpy

import sys
import time
from pathlib import Path

import numpy as np
import psutil

sys.path.insert(0, str(Path(__file__).parents[2]))
import shoulder_model as sm

GRIPS, POINTS, CORES = np.linspace(1.0, 2.0, 21), 21, 2
MEMORY = 700.0  # for the blocks of both, beside two processes of some 150 MB each
PULLS = sorted(sm.pulls)[:12]


class Peak:
    """Largest memory of this process and its children together, looked at all the time. [MB]"""

    def __enter__(self):
        import threading

        self.most, self._on, self._me = 0.0, True, psutil.Process()
        self._thread = threading.Thread(target=self._look)
        self._thread.start()
        return self

    def _look(self):
        while self._on:
            total = 0
            for process in (self._me, *self._me.children(recursive=True)):
                try:
                    total += process.memory_full_info().uss
                except psutil.Error:
                    continue
            self.most = max(self.most, total / 1e6)
            time.sleep(0.5)

    def __exit__(self, *_):
        self._on = False
        self._thread.join()


def row(words, people, pulls, answers, **options):
    crowd = sm.Crowd(people, "men", 1)
    begun = time.perf_counter()
    with Peak() as peak:
        sm.study(
            crowd, pulls, grip_ratio=GRIPS, points=POINTS, answers=answers, workers=CORES, progress=False, **options
        )
    took = time.perf_counter() - begun
    postures = people * len(pulls) * len(GRIPS) * POINTS
    print(
        f"{words:<44}{people:>9,}{postures / 1e6:>9.1f}{took:>9.1f}{postures / took / CORES:>13,.0f}{peak.most:>9.0f}",
        flush=True,
    )


def main():
    people = int(sys.argv[1]) if len(sys.argv) > 1 else 10_000
    print(f"{'':<44}{'lifters':>9}{'millions':>9}{'s':>9}{'/s and core':>13}{'MB':>9}")
    row("all moment arms, compiled", people, PULLS, ["lat_moment_arm"], compiled=True)
    row("all moment arms, plain arrays", people // 10, PULLS, ["lat_moment_arm"])
    row("work shared, compiled arms", people // 50, PULLS, ["lat_share", "whole_rep_load_kg"], compiled=True)
    for count in (people // 10, people, 10 * people):
        row("mechanics alone, one pull, counted", count, PULLS[:1], ["most_shoulder_torque"], keep="summary")


if __name__ == "__main__":
    main()
