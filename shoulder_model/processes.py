"""More processes of this machine; Ctrl+C is for the one that started them, and they end with it."""

import os
import signal
import threading
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager
from multiprocessing import get_context, parent_process
from multiprocessing.connection import wait

Ended = BrokenProcessPool  # a process has ended on its own


@contextmanager
def processes(workers):
    """A ``concurrent.futures`` executor of so many processes; at the end, jobs that wait for one are dropped.

    Parameters
    ----------
    workers : int
        How many, a whole number.
    """
    pool = _Pool(workers, mp_context=get_context("spawn"), initializer=_end_with_parent)
    try:
        yield pool
    finally:
        pool.shutdown(cancel_futures=True)


class _Pool(ProcessPoolExecutor):
    """Its processes never see Ctrl+C: they are started with the signal held, which they inherit."""

    def submit(self, *given, **named):
        with _held():
            return super().submit(*given, **named)


@contextmanager
def _held():
    """Ctrl+C waits until this is over, where the system can do that."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _end_with_parent():
    """A process whose parent was killed ends too; nobody would give it a job any more."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # where it could not be held

    def watch():
        wait([parent_process().sentinel])
        os._exit(1)

    threading.Thread(target=watch, daemon=True).start()
