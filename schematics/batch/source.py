"""What is to be built: a spec on disk, or a design a Python caller holds."""

from __future__ import annotations

import pickle
import re
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass, fields
from pathlib import Path
from typing import TYPE_CHECKING

from schematics.batch.digest import digest

if TYPE_CHECKING:
    from schematics.design.design import Design

_MORE_THAN_A_SPEC = 4_000_000
"""Bytes; the reader refuses files far smaller."""


_ENDING = r"\.(?:png|jpe?g|svg|ttf|otf)"
_NAMED = re.compile(
    rf"""\"([^"\n]+{_ENDING})\"|'([^'\n]+{_ENDING})'|([^\s"'\[\]{{}},]+{_ENDING})(?![\w.])""", re.IGNORECASE
)
"""Names of images and fonts, quoted or not."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """A spec or a design before it is worked out.

    ``slug`` names the folder it is built into, ``digest`` is that of its content, and ``payload`` is the
    pickled design where there is one; else the spec at ``path`` is read by whoever works it out.
    """

    path: Path
    slug: str
    digest: str
    payload: bytes | None = None


def spec_source(path: Path) -> Source:
    """The spec at ``path``, unread but for its digest."""
    return Source(path=path, slug=path.stem, digest=spec_digest(path))


def spec_digest(path: Path) -> str:
    """The digest of a spec's text and name, both of which are printed in what is made of it.

    The files beside it that it names, images and fonts, are in it too.

    Empty where the file cannot be read: whoever reads it as a spec says why.
    """
    try:
        if not path.is_file():
            return ""
        with path.open("rb") as file:
            text = file.read(_MORE_THAN_A_SPEC)
        return digest(path.name, text, *_beside(path.parent, text))
    except (OSError, ValueError):
        return ""


def _beside(folder: Path, text: bytes) -> Iterator[bytes]:
    """The content of each file that a spec's text may name, as far as there is one."""
    for quoted, other, bare in _NAMED.findall(text.decode("utf-8", errors="replace")):
        with suppress(OSError, ValueError):
            yield (folder / (quoted or other or bare)).read_bytes()


def design_source(design: Design) -> Source:
    """A design in memory; it may differ from the spec it was read from."""
    return Source(
        path=design.path,
        slug=design.slug,
        digest=digest("design", repr([getattr(design, each.name) for each in fields(design)])),
        payload=pickle.dumps(design, protocol=pickle.HIGHEST_PROTOCOL),
    )
