"""Ten thousand run sheets gone wrong: ``python tests/benchmarks/run_sheet_mutations.py [COUNT]`` prints what became of them.

Stops at the first one that ends in anything but one line of at most 300 signs, or that is read outside a limit.
"""

import sys
import tempfile
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))
from tests.benchmarks.refusals import print_outcomes
from tests.own.lecture.mutations import SOURCES, folder_of, outcome, sheets_gone_wrong

if __name__ == "__main__":
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 10_000
    with tempfile.TemporaryDirectory() as name:
        folder = folder_of(Path(name))
        for text in SOURCES.values():  # makes the panels that set-ups are tried on
            outcome(text.encode(), folder)
        print_outcomes("sheets", sheets_gone_wrong(1, count), lambda content: outcome(content, folder))
