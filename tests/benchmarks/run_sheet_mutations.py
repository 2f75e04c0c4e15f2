"""Ten thousand run sheets gone wrong: ``python tests/benchmarks/run_sheet_mutations.py [COUNT]`` prints what became of them.

Stops at the first one that ends in anything but one line of at most 300 signs, or that is read outside a limit.
"""

import sys
import tempfile
import time
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))
from tests.own.lecture.mutations import SOURCES, folder_of, outcome, sheets_gone_wrong

if __name__ == "__main__":
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 10_000
    seen, slowest, begun = Counter(), 0.0, time.perf_counter()
    with tempfile.TemporaryDirectory() as name:
        folder = folder_of(Path(name))
        for text in SOURCES.values():  # makes the panels that set-ups are tried on
            outcome(text.encode(), folder)
        for content in sheets_gone_wrong(1, count):
            start = time.perf_counter()
            seen[outcome(content, folder)] += 1
            slowest = max(slowest, time.perf_counter() - start)
    took = time.perf_counter() - begun
    print(
        f"{count} sheets in {took:.0f} s, the slowest in {slowest:.2f} s: {seen['read']} read, {count - seen['read']} refused"
    )
    print(f"{len(seen) - 1} kinds of refusal, the most frequent:")
    for said, times in seen.most_common(26):
        if said != "read":
            print(f"{times:6d}  {said}")
