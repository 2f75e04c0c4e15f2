"""Ten thousand class lists and answers gone wrong: ``python tests/benchmarks/homework_mutations.py [COUNT]`` prints
what became of them.

As many again as programs write them have to be read with the same in them. Stops at the first one that ends in
anything but whole answers or one line of at most 300 signs.
"""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))
from shoulder_model.homework.answers import read_answers
from shoulder_model.homework.class_list import read_class
from tests.benchmarks.refusals import print_outcomes
from tests.own.homework.mutations import (
    OPENED,
    answers_as_written,
    answers_gone_wrong,
    answers_outcome,
    class_outcome,
    classes_as_written,
    classes_gone_wrong,
    moved_answers,
    strangers,
)

if __name__ == "__main__":
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 10_000
    for students, content in classes_as_written(2, count):
        assert read_class(content) == students, content
    for texts, content in answers_as_written(3, count):
        assert read_answers(content, OPENED).texts == tuple(tuple(some) if any(some) else None for some in texts), (
            content
        )
    print(f"{count} class lists and {count} tables of answers as programs write them: all read, with the same in them")
    read = wrong = 0
    for texts, content in moved_answers(4, count):
        found = strangers(texts, content)
        read += found is not None
        wrong += bool(found)
    moved = f"{count} tables with a cell or a row moved, left out or cut off"
    print(f"{moved}: {read} read, {wrong} of them with an answer at another place")
    print_outcomes("class lists", classes_gone_wrong(1, count), class_outcome)
    print_outcomes("tables of answers", answers_gone_wrong(1, count), answers_outcome)
