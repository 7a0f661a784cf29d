"""Pieces of work handed to an executor, a bounded number at a time, so that memory stays flat."""

from __future__ import annotations

import gc
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
class WorkStep:
    """A piece of work, and what becomes of its result: more steps."""

    work: Callable[..., Any]
    arguments: tuple[Any, ...]
    then: Callable[[Any], Iterable[WorkStep]]


def work_off(
    steps: Iterable[WorkStep], executor: Executor, at_once: int, after_each: Callable[[], None]
) -> None:
    """Do all steps and those that come of them, at most ``at_once`` of them handed out at any time.

    What comes of a step goes before steps not yet begun, so that few things are open at a time.

    Raises:
        WorkerError: a process of the pool was ended from outside.
    """
    fresh = iter(steps)
    ready: deque[WorkStep] = deque()
    out: dict[Future[Any], WorkStep] = {}
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


_NEW_OBJECTS = 100_000
"""So many more objects are made than let go of before rings of them are looked for: what is drawn has next to
none, and each search goes through all that is remembered."""


@contextmanager
def seldom_collected() -> Iterator[None]:
    """Rings of objects are seldom looked for, as long as it lasts."""
    before = gc.get_threshold()
    gc.set_threshold(_NEW_OBJECTS, *before[1:])
    try:
        yield
    finally:
        gc.set_threshold(*before)


class Inline(Executor):
    """Does everything at once in this process."""

    def submit(self, fn: Callable[..., Any], /, *args: Any, **kwargs: Any) -> Future[Any]:
        """Do it now; the future is done already."""
        future: Future[Any] = Future()
        future.set_result(fn(*args, **kwargs))
        return future


class _Settled(Executor):
    """A pool that hears of an interrupt before or after something is handed out, never between.

    A process is started there; one that is half started when the pool ends says so with a traceback.
    """

    def __init__(self, pool: Executor) -> None:
        self._pool = pool

    def submit(self, fn: Callable[..., Any], /, *args: Any, **kwargs: Any) -> Future[Any]:
        """Hand it to the pool."""
        with _interrupts_later():
            return self._pool.submit(fn, *args, **kwargs)


@contextmanager
def _interrupts_later() -> Iterator[None]:
    if threading.current_thread() is not threading.main_thread():
        yield  # only the main thread hears of interrupts
        return
    heard: list[int] = []
    before = signal.signal(signal.SIGINT, lambda number, _frame: heard.append(number))
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)
        if heard:
            signal.raise_signal(signal.SIGINT)


@contextmanager
def processes(jobs: int) -> Iterator[Executor]:
    """An executor of so many processes; a single job is done in this one.

    The processes leave interrupts to this one, which ends them at once then, and end when it is killed.
    """
    if jobs == 1:
        yield Inline()
        return
    import multiprocessing

    others = set(multiprocessing.active_children())
    pool = new_processes(jobs)
    try:
        yield _Settled(pool)
    except KeyboardInterrupt:
        with _interrupts_later():
            for process in set(multiprocessing.active_children()) - others:
                process.terminate()
        raise
    finally:
        with _interrupts_later():
            pool.shutdown(wait=True, cancel_futures=True)


def new_processes(jobs: int, *modules: str) -> Executor:
    """An executor of so many processes, which leave interrupts to this one and end when it is killed.

    Args:
        jobs: how many.
        modules: what they have imported from the beginning, besides what draws.
    """
    import multiprocessing
    from concurrent.futures import ProcessPoolExecutor

    server = "forkserver" in multiprocessing.get_all_start_methods()
    context = multiprocessing.get_context("forkserver" if server else "spawn")
    if server:
        multiprocessing.set_forkserver_preload(["schematics.batch.preload", *modules])
        _start_server()
    return ProcessPoolExecutor(jobs, mp_context=context, initializer=_settle)


def _start_server() -> None:
    """Start the process that others are forked from, deaf to interrupts while it imports what they need.

    It cannot report that it was interrupted but a traceback. This process hears of an interrupt then.
    """
    from multiprocessing import forkserver, resource_tracker

    resource_tracker.ensure_running()  # first, because it lets interrupts through again
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        forkserver.ensure_running()
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _settle() -> None:
    import multiprocessing

    signal.signal(signal.SIGINT, signal.SIG_IGN)
    gc.set_threshold(_NEW_OBJECTS, *gc.get_threshold()[1:])
    parent = multiprocessing.parent_process()
    if parent is not None:
        threading.Thread(target=_end_with, args=(parent.sentinel,), daemon=True).start()


def _end_with(sentinel: int) -> None:
    from multiprocessing.connection import wait as wait_for

    wait_for([sentinel])
    os._exit(1)
