"""The manifest of a design's folder: which files the program wrote there, from what, and their hashes."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from dataclasses import asdict, dataclass, field
from pathlib import Path, PurePosixPath
from typing import Any

import schematics
from schematics.errors import SchematicsError

MANIFEST = "manifest.json"
_FORMAT = 1
_HASH = re.compile(r"[0-9a-f]{64}", re.ASCII)


class ManifestError(SchematicsError):
    """A manifest is there and cannot be understood, so that whose files lie about is not known."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """A file: its hash, the size it belongs to, the design's key and the digest of what it was made from."""

    sha256: str
    size: str | None
    key: str
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Planned:
    """A size: its name, its verdict, the digest of what is reported of it, and whether grading found counts.

    ``asked`` is what is asked about its wearer's own measurements.
    """

    name: str
    verdict: str
    digest: str
    graded: bool = False
    asked: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Manifest:
    """What the program knows of a design's folder.

    ``key`` is that of the design as it was last built, None while files are put in place or where some
    could not be made. ``files`` are by their place in the folder; ``former`` are hashes of files that
    are being replaced; ``orphans`` are files of sizes or sheets the design no longer has, by their hash.
    ``unplaced`` are pairs of a size and what had no room on its sheets.
    """

    key: str | None = None
    title: str = ""
    sizes: tuple[Planned, ...] = ()
    unplaced: tuple[tuple[str | None, str], ...] = ()
    files: Mapping[str, Entry] = field(default_factory=dict)
    former: Mapping[str, str] = field(default_factory=dict)
    orphans: Mapping[str, str] = field(default_factory=dict)

    def knows(self, place: str) -> bool:
        """Whether the program wrote the file at ``place``, or was about to."""
        return place in self.files or place in self.former or place in self.orphans


def to_text(manifest: Manifest) -> str:
    """The manifest as JSON; the same manifest gives the same text."""
    document: dict[str, Any] = {
        "format": _FORMAT,
        "program": f"schematics {schematics.__version__}",
        "title": manifest.title,
        "key": manifest.key,
        "sizes": [asdict(size) for size in manifest.sizes],
        "unplaced": [{"size": size, "what": what} for size, what in manifest.unplaced],
        "files": {place: asdict(entry) for place, entry in sorted(manifest.files.items())},
        "former": dict(sorted(manifest.former.items())),
        "orphans": dict(sorted(manifest.orphans.items())),
    }
    return json.dumps(document, ensure_ascii=False, indent=1, allow_nan=False) + "\n"


def read_manifest(folder: Path) -> Manifest:
    """The manifest in a design's folder; an empty one where there is none.

    Raises:
        ManifestError: there is a file of that name that is no manifest of this form.
    """
    path = folder / MANIFEST
    try:
        content = path.read_bytes()
    except (FileNotFoundError, NotADirectoryError):
        return Manifest()
    except IsADirectoryError:
        raise ManifestError(
            f"nothing was written to {folder}: {path} is a folder, not a file; move it away"
        ) from None
    except OSError as error:
        raise ManifestError(f"cannot read {path}: {error.strerror}") from error
    try:
        return _manifest(json.loads(content))
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError):
        raise ManifestError(
            f"{path} is not a list of files this program wrote; move it away, or say --force to replace it"
        ) from None


def _manifest(document: Any) -> Manifest:
    if document["format"] != _FORMAT:
        raise ValueError(document["format"])
    return Manifest(
        key=None if document["key"] is None else _hash(document["key"]),
        title=str(document["title"]),
        sizes=tuple(
            Planned(
                name=str(each["name"]),
                verdict=str(each["verdict"]),
                digest=_hash(each["digest"]),
                graded=each.get("graded") is True,
                asked=tuple(map(str, each.get("asked", ()))),
            )
            for each in document["sizes"]
        ),
        unplaced=tuple((_size(each["size"]), str(each["what"])) for each in document["unplaced"]),
        files={
            _place(place): Entry(
                sha256=_hash(entry["sha256"]),
                size=_size(entry["size"]),
                key=_hash(entry["key"]),
                source=_hash(entry["source"]),
            )
            for place, entry in document["files"].items()
        },
        former={_place(place): _hash(value) for place, value in document["former"].items()},
        orphans={_place(place): _hash(value) for place, value in document["orphans"].items()},
    )


def _place(text: str) -> str:
    """A place inside the folder, whoever wrote the manifest."""
    path = PurePosixPath(text)
    if not path.parts or path.is_absolute() or ".." in path.parts or "\\" in text or ":" in text:
        raise ValueError(text)
    return text


def _hash(value: str) -> str:
    if not _HASH.fullmatch(value):
        raise ValueError(value)
    return value


def _size(value: str | None) -> str | None:
    return None if value is None else str(value)
