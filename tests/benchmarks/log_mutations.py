"""Ten thousand logs gone wrong: ``python tests/benchmarks/log_mutations.py [COUNT]`` prints what became of them.

As many again as programs write them have to be read with the same in them. Stops at the first one that ends in anything but whole
entries or one line of at most 300 signs.
"""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))
from shoulder_model.training.log import read_log
from tests.benchmarks.refusals import print_outcomes
from tests.own.training.mutations import NAMES, logs_as_written, logs_gone_wrong, moved_logs, outcome, strangers

if __name__ == "__main__":
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 10_000
    for entries, content in logs_as_written(2, count):
        assert read_log(content, NAMES) == entries, content
    print(f"{count} logs as programs write them: all read, with the same in them")
    read = wrong = 0
    for entries, content in moved_logs(3, count):
        found = strangers(entries, content)
        read += found is not None
        wrong += bool(found)
    print(
        f"{count} logs with a cell or a line moved, left out or cut off: {read} read, {wrong} of them with another set in it"
    )
    print_outcomes("logs", logs_gone_wrong(1, count), outcome)
