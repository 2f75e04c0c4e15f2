"""Two notebooks write 10,000 answers, one of them killed 20 times: ``python tests/benchmarks/record_kills.py
[ANSWERS] [KILLS]``.

Prints what was lost: an answer that was said to be on disk and is not there, one that is there twice, one out of
its order. Ends with 1 where there is any.
"""

import random
import signal
import sys
import tempfile
import threading
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))
from shoulder_model.practice.record import Record
from tests.own.practice.record_writers import numbers, writer


def promised_by(process, told):
    """Collect what a writer says is on disk while it writes."""
    for line in process.stdout:
        if line.endswith("\n"):
            told.append(line.strip())


def watched(path, name, count, first):
    process, told = writer(path, name, count, first), []
    thread = threading.Thread(target=promised_by, args=(process, told))
    thread.start()
    return process, thread, told


def ended(process, thread):
    process.wait()
    thread.join()
    process.stdout.close()
    process.stderr.close()


def killed_again_and_again(path, count, kills, chance):
    """What the writer that is killed said was on disk, and how often it was killed while it wrote."""
    promised, hits = [], 0
    while True:
        first = len(numbers(Record(path), "killed"))  # one may be on disk that was not said any more
        if first >= count:
            return promised, hits
        process, thread, told = watched(path, "killed", count - first, first)
        until = chance.randint(1, 1 + (count - first) // (kills - hits + 1)) if hits < kills else count
        while process.poll() is None and len(told) < until:
            time.sleep(0.001)
        if hits < kills and process.poll() is None:
            process.send_signal(signal.SIGKILL)
            hits += 1
        ended(process, thread)
        promised += told


def losses(path, promised, name, count):
    """Lines of what is wrong with one writer's answers."""
    found = numbers(Record(path), name)
    lost = sorted({int(line) for line in promised if line.isdigit()} - set(found))
    lines = [f"{name}: {len(lost)} lost, the first {lost[0]}"] if lost else []
    if found != list(range(count)):
        lines.append(f"{name}: {len(found)} answers on disk, {len(set(found))} different, of {count}")
    return lines


if __name__ == "__main__":
    count, kills = (int(sys.argv[1]) // 2 if len(sys.argv) > 1 else 5000), int(sys.argv[2]) if len(sys.argv) > 2 else 20
    start = time.perf_counter()
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "practice.sqlite"
        process, thread, steady = watched(path, "steady", count, 0)
        killed, hits = killed_again_and_again(path, count, kills, random.Random(time.time()))
        ended(process, thread)
        late = [line for line in (*steady, *killed) if not line.isdigit()]
        record = Record(path)
        wrong = [*losses(path, steady, "steady", count), *losses(path, killed, "killed", count), *record.notes]
        taken, told = time.perf_counter() - start, len(steady) + len(killed) - len(late)
        print(f"{len(record.answers())} answers of two, one killed {hits} times while it wrote, in {taken:.0f} s")
        print(f"{told} were said to be on disk, {len(late)} to be late; {path.stat().st_size / 1000:.0f} kB")
    print("\n".join(wrong) or "none lost, none twice, all in order")
    sys.exit(bool(wrong))
