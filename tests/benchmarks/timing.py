"""How the benchmarks time."""

import time

ROUNDS = 3


def per_second(call, count):
    """Best rate of a few rounds."""
    best = 0.0
    for _ in range(ROUNDS):
        start = time.perf_counter()
        call()
        best = max(best, count / (time.perf_counter() - start))
    return best
