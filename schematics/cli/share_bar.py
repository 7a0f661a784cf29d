"""A bar on the error stream for what takes long."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager


@contextmanager
def share_bar(words: str, *, shown: bool = True) -> Iterator[Callable[[float], None]]:
    """On a terminal a bar with those words on the error stream; gives what moves it, from 0 to 1."""
    if not shown or not sys.stderr.isatty():
        yield lambda _share: None
        return
    from rich.console import Console
    from rich.progress import Progress

    with Progress(console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task(words, total=1.0)
        yield lambda share: bar.update(task, completed=share)
