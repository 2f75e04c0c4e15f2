"""Ten thousand trial tables gone wrong: ``python tests/benchmarks/trial_table_mutations.py [COUNT]`` prints what became of them.

Stops at the first one that ends in anything but one line of at most 300 signs, or that is read wrong.
"""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))
from tests.benchmarks.refusals import print_outcomes
from tests.own.evidence.trial_tables import outcome, tables_gone_wrong

if __name__ == "__main__":
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 10_000
    print_outcomes("tables", tables_gone_wrong(1, count), outcome)
