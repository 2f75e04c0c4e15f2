"""What becomes of files gone wrong: how many are read, how many refused and why, and how long the slowest takes."""

import time
from collections import Counter


def print_outcomes(things, contents, outcome):
    """Print what became of ``contents`` (bytes each) by ``outcome(content)``: "read" or a kind of refusal; ``things`` names them."""
    seen, slowest, begun = Counter(), 0.0, time.perf_counter()
    for content in contents:
        start = time.perf_counter()
        seen[outcome(content)] += 1
        slowest = max(slowest, time.perf_counter() - start)
    took, count = time.perf_counter() - begun, seen.total()
    print(
        f"{count} {things} in {took:.0f} s, the slowest in {slowest:.2f} s: {seen['read']} read, {count - seen['read']} refused"
    )
    print(f"{len(seen) - 1} kinds of refusal, the most frequent:")
    for said, times in seen.most_common(26):
        if said != "read":
            print(f"{times:6d}  {said}")
