"""A bounded number of processes that work requests out, and of requests that wait for one."""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable
from concurrent.futures import BrokenExecutor, Executor, Future
from typing import Any

from starlette.exceptions import HTTPException

from schematics.library.web.reply import Reply

_PATIENCE = 5
"""Seconds after which who was refused is asked to come again."""
_RENEWED_AFTER = 500
"""Requests after which fresh processes are taken, and what the old ones remembered is let go of."""


class Workers:
    """Hands jobs to processes.

    Args:
        processes: makes an executor of ``at_once`` processes.
        at_once: jobs done at a time.
        waiting: jobs that may wait besides; any more are refused.
        rehearsed: what fresh processes do first, so that nobody waits for what is only worked out once.
    """

    def __init__(
        self,
        processes: Callable[[], Executor],
        at_once: int,
        waiting: int,
        rehearsed: Callable[[], object] | None = None,
    ) -> None:
        self._processes, self._at_once, self._rehearsed = processes, at_once, rehearsed
        self._most, self._most_dear = at_once + waiting, max(1, at_once // 2)
        self._executor = self._fresh()
        self._taken = self._dear = self._done = 0

    async def do(
        self, gone: Callable[[], Awaitable[Any]], job: Callable[..., Reply], *about: Any, dear: bool = False
    ) -> Reply:
        """What comes of a job.

        Args:
            gone: waits until whoever asked has gone; a job not begun by then is dropped.
            job: a function that a process can load.
            about: its arguments.
            dear: whether it searches long; fewer of such are taken.

        Raises:
            HTTPException: 503 where as many as may are waiting, 500 where the process ended.
        """
        if self._taken >= self._most or (dear and self._dear >= self._most_dear):
            raise HTTPException(503, headers={"Retry-After": str(_PATIENCE)})
        executor = self._executor
        try:
            future = executor.submit(job, *about)
        except BrokenExecutor:
            self._renew(executor)
            raise HTTPException(500) from None
        self._counted(future, int(dear))
        reply = asyncio.wrap_future(future)
        leaving = asyncio.ensure_future(gone())
        try:
            await asyncio.wait({reply, leaving}, return_when=asyncio.FIRST_COMPLETED)
            if not reply.done():
                raise HTTPException(408)
            return reply.result()
        except BrokenExecutor:
            self._renew(executor)
            raise HTTPException(500) from None
        finally:
            leaving.cancel()
            reply.cancel()
            if self._done >= _RENEWED_AFTER:
                self._renew(executor)

    def close(self) -> None:
        """End the processes, once they have done what they are at."""
        self._executor.shutdown(wait=True, cancel_futures=True)

    def _counted(self, future: Future[Reply], dear: int) -> None:
        """Count a job in, and out when its process is free again."""
        loop = asyncio.get_running_loop()
        self._taken, self._dear = self._taken + 1, self._dear + dear

        def out() -> None:
            self._taken, self._dear, self._done = self._taken - 1, self._dear - dear, self._done + 1

        def free(_: Future[Reply]) -> None:
            if not loop.is_closed():
                loop.call_soon_threadsafe(out)

        future.add_done_callback(free)

    def _renew(self, old: Executor) -> None:
        """Take fresh processes, once for all that find the old ones gone; those end when they have done."""
        if old is self._executor:
            self._executor, self._done = self._fresh(), 0
            old.shutdown(wait=False)

    def _fresh(self) -> Executor:
        executor = self._processes()
        if self._rehearsed is not None:
            for _ in range(self._at_once):
                executor.submit(self._rehearsed)
        return executor
