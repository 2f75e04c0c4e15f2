"""A week in every case of a grid: ``python tests/benchmarks/week_grid.py`` (a minute and a half).

13 invented places to train × 2 people × 3 levels × 1 to 6 days × 3 goals × a low back that is well or sore: 2,808 cases. Prints in
how many there is a week, how many have no pull that can be done, what is missed how often, and how long a week takes.
"""

import sys
import time
from collections import Counter
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).parents[2]))
from shoulder_model.week import Client, Plan, all_no, can_be_done, candidates, plan_week, rules
from tests.own.week.test_plan import THERE, grid


def main():
    """Plan them all and print what was found."""
    times, missed, ends = [], Counter(), Counter()
    for place, lifter, experience, days, goal, back in grid(1):
        health = all_no() | {"low back": back}
        client = Client(lifter, experience, days, goal, health=health, equipment=THERE[place])
        start = time.perf_counter()
        answer = plan_week(client)
        times.append(time.perf_counter() - start)
        can = any(can_be_done(client, rules(experience), one) for one in candidates())
        ends[
            type(answer).__name__, "a pull can be done" if can else f"no pull can be done ({place}, low back: {back})"
        ] += 1
        missed.update(tuple(answer.missing) if isinstance(answer, Plan) else ())
    print(
        f"{len(times)} cases; a week takes {1000 * np.median(times):.0f} ms (median), {1000 * max(times):.0f} ms at most"
    )
    for (kind, why), count in ends.most_common():
        print(f"{count:6d} {kind}: {why}")
    for wish, count in missed.most_common():
        print(f"{count:6d} miss something of “{wish}”")


if __name__ == "__main__":
    main()
