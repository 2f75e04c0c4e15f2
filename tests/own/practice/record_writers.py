"""Programs that write a record beside others: run as ``python record_writers.py FILE NAME COUNT``, a line for each
answer on disk."""

import os
import subprocess
import sys
from pathlib import Path

from shoulder_model.practice.record import Answer, Record

HOME = Path(__file__).parents[3]
HERE = {
    "cwd": HOME,
    "env": {**os.environ, "PYTHONPATH": str(HOME)},
}  # the package beside these tests, not an installed one


def answer(name, number):
    """An invented answer, told apart by the name of its writer and its number."""
    return Answer(1.7e9 + number, f"item {name}", str(number), "12.5 N m", 1.0, "", 3.5)


def writer(path, name, count, first=0):
    """Start a process that writes so many answers and prints the number of each once it is on disk."""
    command = [sys.executable, __file__, str(path), name, str(count), str(first)]
    return subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, **HERE)


def numbers(record, name):
    """The numbers of one writer's answers, in the order of the record."""
    return [int(given.seed) for given in record.answers() if given.template == f"item {name}"]


if __name__ == "__main__":
    path, name, count, first = sys.argv[1], sys.argv[2], int(sys.argv[3]), int(sys.argv[4])
    record = Record(path)
    for number in range(first, first + count):
        said = record.add(answer(name, number))
        print(said or number, flush=True)
    while record.waiting:
        record.add_all(())
