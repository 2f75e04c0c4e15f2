"""Who works: this process, more of them, threads, or a cluster; results come back in the order of the jobs."""

from collections import deque
from contextlib import contextmanager

from ..inputs import Allowed, InputError, whole

WORKERS = Allowed(1, 1024, "processes", "1 works here, more in as many processes")
RETRIES = 3  # of a job whose worker on a cluster died
AHEAD = 3  # jobs that each worker has waiting


@contextmanager
def workers_of(workers, executor=None):
    """Who works, and how many jobs it gets ahead.

    Parameters
    ----------
    workers : int
        Processes, a whole number; 1 is this one.
    executor : optional
        A ``concurrent.futures`` executor, or a client of a Dask cluster; then ``workers`` does not matter.

    Yields
    ------
    executor or None, int
        None: this process.
    """
    workers = whole("workers", workers, WORKERS)
    if executor is not None:
        yield _given(executor)
    elif workers > 1:
        from ..processes import Ended, processes  # not at the top: where Python runs in a page there are none

        try:
            with processes(workers) as works:
                yield works, AHEAD * workers
        except Ended:
            raise InputError(
                "workers",
                f"workers = {workers}: a process ended. In a script, put the call below: if __name__ == '__main__':",
            ) from None
    else:
        yield None, 1


def _given(executor):
    if hasattr(executor, "get_executor"):  # a client of a cluster
        return executor.get_executor(retries=RETRIES), AHEAD * max(1, sum(executor.ncores().values()))
    if not callable(getattr(executor, "submit", None)):
        raise InputError(
            "executor", "executor has no submit; give a concurrent.futures executor or a client of a Dask cluster"
        )
    return executor, AHEAD * getattr(executor, "_max_workers", 2)


def in_order(job, of, things, works):
    """Pairs of a thing and what ``job(of, thing)`` gives, in the order of ``things``; some are worked on ahead.

    Parameters
    ----------
    job : callable
        Of a module, so that other processes find it; gives anything.
    of : object
        What all jobs share.
    things : iterable
    works : tuple
        Of `workers_of`.
    """
    executor, width = works
    if executor is None:
        yield from ((thing, job(of, thing)) for thing in things)
        return
    left, ahead = iter(things), deque()
    try:
        while True:
            while len(ahead) < width and (thing := next(left, None)) is not None:
                ahead.append((thing, executor.submit(job, of, thing)))
            if not ahead:
                return
            thing, future = ahead.popleft()
            yield thing, future.result()
    finally:
        for _, future in ahead:
            future.cancel()


class _NoBar:
    """Stands for a bar where none is to be seen."""

    def __enter__(self):
        return self

    def __exit__(self, *_):
        return False

    def update(self, _=1):
        pass


def bar_of(total, done, unit, shown):
    """A progress bar in a notebook or a terminal, at ``done`` of ``total`` (whole numbers) in a ``unit`` (text); a flag whether it is ``shown``."""
    if not shown:
        return _NoBar()
    try:
        from tqdm.auto import tqdm
    except ImportError:  # where Python runs in a page
        return _NoBar()
    return tqdm(total=total, initial=done, unit=f" {unit}", unit_scale=True)
