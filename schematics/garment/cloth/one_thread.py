"""Linear algebra on one thread: on matrices so small, threads wait for each other longer than they work."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

import scipy.linalg  # noqa: F401 - only what is loaded can be limited
from threadpoolctl import threadpool_limits


@contextmanager
def one_thread() -> Iterator[None]:
    """Linear algebra in here is done on one thread, so that it comes to the same bytes on any machine."""
    with threadpool_limits(limits=1, user_api="blas"):
        yield
