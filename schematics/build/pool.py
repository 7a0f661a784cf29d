"""Pieces of work handed to an executor, a bounded number at a time, so that memory stays flat."""

from __future__ import annotations

import os
import signal
import threading
from collections import deque
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import FIRST_COMPLETED, BrokenExecutor, Executor, Future, wait
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any

from schematics.errors import SchematicsError


class WorkerError(SchematicsError):
    """A process that drew was ended from outside."""


@dataclass(frozen=True, slots=True)
class Step:
    """A piece of work, and what becomes of its result: more steps."""

    work: Callable[..., Any]
    arguments: tuple[Any, ...]
    then: Callable[[Any], Iterable[Step]]


def work_off(steps: Iterable[Step], executor: Executor, at_once: int, after_each: Callable[[], None]) -> None:
    """Do all steps and those that come of them, at most ``at_once`` of them handed out at any time.

    What comes of a step goes before steps not yet begun, so that few things are open at a time.

    Raises:
        WorkerError: a process of the pool was ended from outside.
    """
    fresh = iter(steps)
    ready: deque[Step] = deque()
    out: dict[Future[Any], Step] = {}
    try:
        while True:
            while len(out) < at_once:
                step = ready.popleft() if ready else next(fresh, None)
                if step is None:
                    break
                out[executor.submit(step.work, *step.arguments)] = step
            if not out:
                return
            for future in wait(out, return_when=FIRST_COMPLETED).done:
                ready.extend(out.pop(future).then(future.result()))
                after_each()
    except BrokenExecutor as error:
        raise WorkerError(
            "a drawing process was ended from outside, perhaps for want of memory; --jobs 1 needs least"
        ) from error
    finally:
        for future in out:
            future.cancel()


class Inline(Executor):
    """Does everything at once in this process."""

    def submit(self, fn: Callable[..., Any], /, *args: Any, **kwargs: Any) -> Future[Any]:
        """Do it now; the future is done already."""
        future: Future[Any] = Future()
        future.set_result(fn(*args, **kwargs))
        return future


@contextmanager
def processes(jobs: int) -> Iterator[Executor]:
    """An executor of so many processes; a single job is done in this one.

    The processes leave interrupts to this one, and end when it is killed.
    """
    if jobs == 1:
        yield Inline()
        return
    import multiprocessing
    from concurrent.futures import ProcessPoolExecutor

    server = "forkserver" in multiprocessing.get_all_start_methods()
    context = multiprocessing.get_context("forkserver" if server else "spawn")
    if server:
        multiprocessing.set_forkserver_preload(["schematics.build.preload"])
    pool = ProcessPoolExecutor(jobs, mp_context=context, initializer=_settle)
    try:
        yield pool
    finally:
        pool.shutdown(wait=True, cancel_futures=True)


def _settle() -> None:
    import multiprocessing

    signal.signal(signal.SIGINT, signal.SIG_IGN)
    parent = multiprocessing.parent_process()
    if parent is not None:
        threading.Thread(target=_end_with, args=(parent.sentinel,), daemon=True).start()


def _end_with(sentinel: int) -> None:
    from multiprocessing.connection import wait as wait_for

    wait_for([sentinel])
    os._exit(1)
