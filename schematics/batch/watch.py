"""Which specs to build again whenever some are saved."""

from __future__ import annotations

import os
import threading
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from schematics.batch.source import spec_digest

_QUIET_MS = 30
"""How long nothing may happen before a file is read: editors write in several goes."""
_LONGEST_MS = 300
"""How long to wait for that where something happens all the time."""
_LOOK_MS = 1000
"""How often to look without a signal, where a folder was removed and made again."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Round:
    """Specs that say something else than in the round before, or are new; and those that are gone."""

    changed: tuple[Path, ...]
    gone: tuple[Path, ...] = ()


def rounds(find: Callable[[], Sequence[Path]], stop: threading.Event | None = None) -> Iterator[Round]:
    """First all specs, then, whenever some are saved, those whose text is another.

    The folders are watched rather than the files, so that a file may be replaced, or removed and made again.

    Args:
        find: gives the specs there are to look after, asked each time.
        stop: ends the watch when set.
    """
    from watchfiles import watch

    paths = tuple(find())
    seen = {path: spec_digest(path) for path in paths}
    yield Round(changed=paths)
    folders = {Path(os.path.realpath(path.parent)) for path in paths}
    signals = watch(
        *(folder for folder in folders if folder.is_dir()),
        step=_QUIET_MS,
        debounce=_LONGEST_MS,
        rust_timeout=_LOOK_MS,
        yield_on_timeout=True,
        recursive=False,
        stop_event=stop,
    )
    for _ in signals:
        now = {path: spec_digest(path) for path in find()}
        changed = tuple(path for path, text in now.items() if text and seen.get(path) != text)
        gone = tuple(path for path, text in seen.items() if text and not now.get(path))
        seen = now
        if changed or gone:
            yield Round(changed=changed, gone=gone)
