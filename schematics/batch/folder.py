"""A design's folder on disk: what is whole in it, and new files put in place all together.

New files wait, whole and hidden, in a folder beside those they replace. Only when all are there are they
moved into place, one after another, between two writings of the manifest: the first knows the old and the
new hashes, the second only the new. A run that is killed leaves whole files, and a manifest by which the
next run tells the program's files from everybody else's.
"""

from __future__ import annotations

import os
from collections.abc import Collection, Iterable, Mapping
from contextlib import suppress
from dataclasses import dataclass, replace
from pathlib import Path

from schematics.batch.digest import sha256
from schematics.batch.manifest import MANIFEST, Entry, Manifest, ManifestError, read_manifest, to_text
from schematics.errors import UsageError
from schematics.reading.files.saving import WriteError, reason, refused

WAITING = ".waiting"
"""Folder in a design's folder for files that are not all there yet."""
_WAITS = "{}.schematics-waiting"
"""Name of such a file; what has another name is somebody else's."""
_SHOWN = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class Committed:
    """What a commit did; places are relative to the design's folder.

    ``edited`` had been changed since the program wrote them, and were written anew.
    """

    written: tuple[str, ...]
    edited: tuple[str, ...]
    orphans: tuple[str, ...]
    removed: tuple[str, ...]


class DesignFolder:
    """The folder of one design while it is being built; one run at a time may change it."""

    def __init__(self, folder: Path, force: bool = False) -> None:
        """Look at the folder.

        Raises:
            ManifestError: the manifest there is no manifest, and ``force`` does not say to replace it.
        """
        self.folder = folder
        self._force = force
        try:
            self.manifest = read_manifest(folder)
        except ManifestError:
            if not force:
                raise
            self.manifest = Manifest()
        self._staged: dict[str, tuple[Path, Entry]] = {}
        self._kept: dict[str, Entry] = {}
        self._hashes: dict[str, str | None] = {}
        self._number = 0
        self._written: list[str] = []
        self._edited: list[str] = []

    def is_current(self, key: str, sizes: Collection[str] | None) -> bool:
        """Whether all files of the sizes (of all when None) are there as ``key`` makes them."""
        if self._force or self.manifest.key != key:
            return False
        names = {size.name for size in self.manifest.sizes}
        asked = names if sizes is None else set(sizes)
        files = self.manifest.files.items()
        wanted = {place: entry for place, entry in files if entry.size is None or entry.size in asked}
        return asked <= names & {entry.size for entry in wanted.values()} and all(
            entry.key == key and self.on_disk(place) == entry.sha256 for place, entry in wanted.items()
        )

    def on_disk(self, place: str) -> str | None:
        """The hash of the file that is there now, None where nothing is; empty where it is no file.

        Raises:
            WriteError: it cannot be read.
        """
        if place not in self._hashes:
            path = self.folder / place
            try:
                nothing = "" if os.path.lexists(path) else None
                self._hashes[place] = sha256(path.read_bytes()) if path.is_file() else nothing
            except OSError as error:
                raise WriteError(f"cannot read {path}: {reason(error)}") from error
        return self._hashes[place]

    def source_of(self, places: Iterable[str]) -> str | None:
        """What all the places were made from, if they are whole and were made from the same."""
        entries = [self.manifest.files.get(place) for place in places]
        sources = {entry.source for entry in entries if entry}
        whole = all(
            entry is not None and self.on_disk(place) == entry.sha256
            for place, entry in zip(places, entries, strict=True)
        )
        return sources.pop() if whole and len(sources) == 1 and not self._force else None

    def clear(self) -> None:
        """Remove what a killed run left waiting, and the folder for it, if nothing else is in it."""
        waiting = self.folder / WAITING
        for path in waiting.glob(_WAITS.format("*")):
            with suppress(OSError):
                path.unlink()
        with suppress(OSError):
            waiting.rmdir()

    def stage(self, place: str, content: bytes, *, size: str | None, key: str, source: str) -> None:
        """Have a file wait for its place.

        Raises:
            WriteError: the system refused.
        """
        self._number += 1
        waiting = self._lay(f"{self._number}", place, content)
        self._staged[place] = waiting, Entry(sha256=sha256(content), size=size, key=key, source=source)

    def _lay(self, name: str, place: str, content: bytes) -> Path:
        """Write what is to take a place where the next run clears it away if this one is killed."""
        waiting = self.folder / WAITING / _WAITS.format(name)
        try:
            waiting.parent.mkdir(parents=True, exist_ok=True)
            with waiting.open("wb") as file:
                file.write(content)
                file.flush()
                os.fsync(file.fileno())
        except (FileExistsError, NotADirectoryError) as error:
            raise refused(waiting, error) from error
        except OSError as error:
            raise refused(self.folder / place, error) from error
        return waiting

    def keep(self, place: str, key: str) -> None:
        """Have a whole file stay, as one that ``key`` makes."""
        self._kept[place] = replace(self.manifest.files[place], key=key)

    def content(self, place: str) -> bytes:
        """The content of a file as it will be: of the one waiting, or the one there.

        Raises:
            WriteError: it cannot be read.
        """
        waiting = self._staged[place][0] if place in self._staged else None
        path = waiting if waiting is not None and waiting.exists() else self.folder / place
        try:
            return path.read_bytes()
        except OSError as error:
            raise WriteError(f"cannot read {path}: {reason(error)}") from error

    def hash(self, place: str) -> str:
        """The hash of `content`."""
        return (self._staged[place][1] if place in self._staged else self.manifest.files[place]).sha256

    def drop(self, places: Iterable[str]) -> None:
        """Let files stay as they are, not put in place nor known to be of this build."""
        for place in places:
            self._staged.pop(place, None)
            self._kept.pop(place, None)

    def advance(self, new: Manifest, places: Collection[str], now: Collection[str]) -> None:
        """Move the files waiting for the places ``now`` while more is to come; see `commit`."""
        self._refuse_misplaced(places)
        self._refuse_to_replace_others_files()
        staged = {place: waiting for place, waiting in self._staged.items() if place in now}
        moving = {
            place: path for place, (path, entry) in staged.items() if self.on_disk(place) != entry.sha256
        }
        edited = [place for place in moving if self._is_edited(place)]
        former = {place: value for place in moving if (value := self.on_disk(place)) and place not in edited}
        orphans = self._orphans(places)
        if moving or orphans != self.manifest.orphans:
            files = self._files(places) | {place: entry for place, (_, entry) in staged.items()}
            self._write(new, key=None, files=files, former=former, orphans=orphans)
        for place, path in moving.items():
            self._move(path, place)
        self._written += moving
        self._edited += edited

    def commit(self, new: Manifest, places: Collection[str], *, prune: bool) -> Committed:
        """Move everything into place.

        Args:
            new: key, title, sizes and notes of the design; its files are filled in here.
            places: every place the design has a file for, whether it was built now or not.
            prune: whether to remove the program's files in other places.

        Raises:
            UsageError: a file at one of the places is not the program's; nothing was changed.
            WriteError: the system refused; every file is whole, old or new.
        """
        self.advance(new, places, self._staged)
        files = (
            self._files(places) | self._kept | {place: entry for place, (_, entry) in self._staged.items()}
        )
        orphans = self._orphans(places)
        removed = self._prune(orphans) if prune else ()
        orphans = {place: value for place, value in orphans.items() if place not in removed}
        self._write(new, key=new.key, files=files, former={}, orphans=orphans)
        self.clear()
        return Committed(
            written=tuple(self._written), edited=tuple(self._edited), orphans=tuple(orphans), removed=removed
        )

    def _files(self, places: Collection[str]) -> dict[str, Entry]:
        return {place: entry for place, entry in self.manifest.files.items() if place in places}

    def _orphans(self, places: Collection[str]) -> dict[str, str]:
        gone = {place: entry.sha256 for place, entry in self.manifest.files.items()}
        gone |= self.manifest.orphans
        return {place: value for place, value in gone.items() if place not in places and self.on_disk(place)}

    def discard(self) -> None:
        """Give up: what waits is removed, and the folder, if nothing else is in it."""
        self.clear()
        with suppress(OSError):
            self.folder.rmdir()

    def _refuse_misplaced(self, places: Collection[str]) -> None:
        """Refuse a file where a folder is to be, and a folder where a file is."""
        folders = sorted({(self.folder / place).parent for place in self._staged})
        paths = [self.folder / place for place in sorted({*places, MANIFEST})]
        wrong = [f"{each} is a file, not a folder" for each in folders if each.exists() and not each.is_dir()]
        taken = [each for each in paths if each.is_dir() and not each.is_symlink()]
        wrong += [f"{each} is a folder, not a file" for each in taken]
        if wrong:
            raise WriteError(f"nothing was written to {self.folder}: {wrong[0]}; move it away")

    def _refuse_to_replace_others_files(self) -> None:
        others = [
            place
            for place, (_, entry) in self._staged.items()
            if not self.manifest.knows(place) and self.on_disk(place) not in (None, entry.sha256)
        ]
        if others and not self._force:
            named = ", ".join(str(self.folder / place) for place in others[:_SHOWN])
            more = f" and {len(others) - _SHOWN} more" if len(others) > _SHOWN else ""
            raise UsageError(
                f"nothing was written to {self.folder}: {named}{more} would be replaced and "
                f"{'is' if len(others) == 1 else 'are'} not from this program; move away what you want to "
                "keep, then say --force, or build into another folder with --out"
            )

    def _is_edited(self, place: str) -> bool:
        entry = self.manifest.files.get(place)
        own = self.manifest.former.get(place)
        return entry is not None and self.on_disk(place) not in (None, entry.sha256, own)

    def _write(
        self,
        new: Manifest,
        *,
        key: str | None,
        files: Mapping[str, Entry],
        former: Mapping[str, str],
        orphans: Mapping[str, str],
    ) -> None:
        self.manifest = replace(new, key=key, files=files, former=former, orphans=orphans)
        content = to_text(self.manifest).encode(errors="replace")
        if self.on_disk(MANIFEST) != sha256(content):
            self._move(self._lay(MANIFEST, MANIFEST, content), MANIFEST)
            self._hashes[MANIFEST] = sha256(content)

    def _move(self, waiting: Path, place: str) -> None:
        path = self.folder / place
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
            waiting.replace(path)
        except OSError as error:
            raise refused(path, error) from error
        self._hashes.pop(place, None)

    def _prune(self, orphans: Mapping[str, str]) -> tuple[str, ...]:
        """Remove the orphans that are still as they were written, and folders that are empty then."""
        removed = tuple(place for place, value in orphans.items() if self.on_disk(place) == value)
        for place in removed:
            path = self.folder / place
            try:
                path.unlink(missing_ok=True)
            except OSError as error:
                raise WriteError(f"cannot remove {path}: {reason(error)}") from error
            self._hashes.pop(place, None)
            if path.parent != self.folder and not any(path.parent.iterdir()):
                path.parent.rmdir()
        return removed
