"""What becomes of a source: what a build made of it, or why it was not built."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from schematics.errors import SchematicsError


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildReport:
    """What a build made of a design, and where it is.

    ``verdicts`` are those of the sizes asked for, worst severity by name. ``files`` are all the files of
    these sizes and of the whole design, ``written`` those that changed. ``edited`` had been changed by
    somebody else and were written anew. ``orphans`` belong to sizes the design no longer has and
    ``removed`` did. ``problems`` says what could not be made for want of a library, ``unplaced`` what
    had no room on its sheet, ``asked`` what is asked about wearers' own measurements. ``graded`` are those
    of all ``size_count`` sizes for which grading found counts.
    """

    path: Path
    folder: Path
    title: str
    verdicts: tuple[tuple[str, str], ...]
    files: tuple[Path, ...]
    written: tuple[Path, ...] = ()
    edited: tuple[Path, ...] = ()
    orphans: tuple[Path, ...] = ()
    removed: tuple[Path, ...] = ()
    problems: tuple[str, ...] = ()
    unplaced: tuple[str, ...] = ()
    asked: tuple[str, ...] = ()
    graded: tuple[str, ...] = ()
    size_count: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Failure:
    """A source that was not built, and why; what an earlier run made of it is as it was."""

    path: Path
    error: SchematicsError
