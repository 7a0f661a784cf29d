"""The service as a whole: its processes, its application, and the port it listens on."""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from contextlib import suppress
from functools import partial
from pathlib import Path

from schematics.batch.pool import new_processes
from schematics.design.design import Design
from schematics.library.web.application import application
from schematics.library.web.drafts import Drafts
from schematics.library.web.guard import LOOPBACK, Names
from schematics.library.web.listening import listen, server
from schematics.library.web.maker_pages import answer_page
from schematics.library.web.workers import Workers

_MOST_PROCESSES = 8
_MODULES = ("schematics.library.web.maker_pages", "schematics.library.web.drafts")
_SOMEBODY = {"age": "6"}
WAITING_FOR_EACH = 4
"""Requests that may wait for each process."""


def run(
    designs: Sequence[Design],
    edited: Sequence[Path],
    *,
    host: str,
    port: int,
    names: Sequence[str],
    jobs: int | None,
    announce: Callable[[str], object],
) -> None:
    """Serve until interrupted.

    Args:
        designs: those that makers may have.
        edited: the specs that are shown as they are edited.
        host: the address to listen on.
        port: the port; 0 for one that is free.
        names: what it is called besides that and the names of this machine for itself.
        jobs: processes; as many as there are processors, within reason, when None.
        announce: is given the line that says where it is.

    Raises:
        UsageError: it cannot listen there.
    """
    listening = listen(host, port)
    at_once = jobs or min(os.cpu_count() or 1, _MOST_PROCESSES)
    rehearsed = partial(answer_page, designs[0], _SOMEBODY) if designs else None
    processes = partial(new_processes, at_once, *_MODULES)
    workers = Workers(processes, at_once, at_once * WAITING_FOR_EACH, rehearsed)
    drafts = Drafts(edited, partial(new_processes, 1, *_MODULES)) if edited else None
    try:
        shown = f"[{host}]" if ":" in host else host
        own = Names(frozenset((shown.lower(), *LOOPBACK)), frozenset(each.lower() for each in names))
        app = application(designs, workers, own, drafts)
        announce(f"http://{shown}:{listening.getsockname()[1]}/ until Ctrl-C")
        with suppress(KeyboardInterrupt):
            server(app).run(sockets=[listening])
    finally:
        workers.close()
        if drafts:
            drafts.close()
        listening.close()
