"""What becomes of wrong calls: ``python tests/benchmarks/wrong_calls.py [WORD]`` prints how many were refused, raw or accepted.

With a WORD it lists every call that ended so: "raw", "accepted", "but".
"""

import sys
import warnings
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))
from tests.wrong_calls import outcome, wrong_calls

if __name__ == "__main__":
    warnings.simplefilter("ignore")
    seen = Counter()
    for wrong in wrong_calls():
        ended = outcome(wrong)
        seen[ended] += 1
        if len(sys.argv) > 1 and sys.argv[1] in ended:
            print(f"{wrong}: {ended}")
    print(f"{seen.total()} wrong calls tried")
    for ended, times in seen.most_common():
        print(f"{times:6d}  {ended}")
