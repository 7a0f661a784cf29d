"""The errata that make the old version of a written pattern the new one, in the sizes that both have."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum

from schematics.document.document import Document
from schematics.pattern.errata.alignment import aligned
from schematics.pattern.errata.difference import difference
from schematics.pattern.errata.lines import Headed, PatternLine, Reading, parts_of
from schematics.pattern.errata.places import place_of
from schematics.pattern.errata.renumbered import Renumbered, Shift, shift_of

__all__ = ["Erratum", "Mend", "errata_of"]


class Mend(StrEnum):
    """What is to be done to a line of the old version."""

    READ = "read"
    ADD = "add"
    DELETE = "delete"
    RENUMBER = "renumber"


@dataclass(frozen=True, slots=True, kw_only=True)
class Erratum:
    """One correction.

    Attributes:
        kind: what is to be done.
        part: the heading that the line is below.
        place: the line's label, or how it begins; of a line to be added, that of the line before it, lines to
            be deleted not counted, and empty where it is to be the first; of rows that are numbered
            otherwise, all of them.
        sizes: whom it is for; empty if it is all that the old version has.
        old: what is read in the old version, empty for a line to be added.
        new: what is to be read, empty for one to be deleted.
        line: the number of the old line, or of that before the new one; None where there is none.
        whole: of a part that only one version has.
    """

    kind: Mend
    part: str
    place: str
    sizes: tuple[str, ...]
    old: str = ""
    new: str = ""
    line: int | None = None
    whole: bool = False


def errata_of(
    old: Document, old_names: Sequence[str], new: Document, new_names: Sequence[str]
) -> tuple[Erratum, ...]:
    """The errata in the order of the old version; parts that are new after the part they follow."""
    shared = tuple(name for name in old_names if name in new_names)
    before = {part.path: part for part in parts_of(old, old_names)}
    after = {part.path: part for part in parts_of(new, new_names)}
    compared = _Compared(shared, tuple(old_names))
    return tuple(
        erratum
        for path in _in_order(tuple(before), tuple(after))
        for erratum in compared.errata(", ".join(path), before.get(path), after.get(path))
    )


def _in_order(old: Sequence[tuple[str, ...]], new: Sequence[tuple[str, ...]]) -> Iterator[tuple[str, ...]]:
    """The old version's paths, each new one after that which it follows in the new version."""
    order = list(old)
    for index, path in enumerate(new):
        if path not in order:
            order.insert(order.index(new[index - 1]) + 1 if index else 0, path)
    return iter(order)


@dataclass(frozen=True, slots=True)
class _Change:
    """A line that was changed, added or left out; ``kept`` is the last old line before it that stays."""

    old: PatternLine | None
    new: PatternLine | None
    kept: PatternLine | None


@dataclass(frozen=True, slots=True)
class _Compared:
    """The sizes that both versions have, and those of the old one."""

    shared: tuple[str, ...]
    all_old: tuple[str, ...]

    def errata(self, heading: str, old: Headed | None, new: Headed | None) -> Iterator[Erratum]:
        """What has changed below one heading."""
        whole = old is None or new is None
        shifts = Renumbered()
        for change, sizes in self._in_order(old, new):
            shift = _shift(change, sizes)
            if shift and shifts.takes(shift):
                continue
            yield from self._renumbered(shifts, heading)
            shifts = Renumbered()
            if shift:
                shifts.takes(shift)
            else:
                yield self._erratum(old, heading, change, sizes, whole)
        yield from self._renumbered(shifts, heading)

    def _in_order(self, old: Headed | None, new: Headed | None) -> list[tuple[_Change, tuple[str, ...]]]:
        """Every change with its sizes; what is added comes after all that it replaces."""
        sizes_of: dict[_Change, list[str]] = {}
        after: dict[PatternLine | None, int] = {}
        for size in self.shared:
            for change, passed in _changes(size, old, new):
                sizes_of.setdefault(change, []).append(size)
                if change.old is None:
                    after[change.kept] = max(after.get(change.kept, -1), passed)

        def place(change: _Change) -> tuple[int, int, int]:
            number = change.new.number if change.new else -1
            if change.old:
                return change.old.number, 0, number
            return after[change.kept], 1, number

        return [(change, tuple(sizes_of[change])) for change in sorted(sizes_of, key=place)]

    def _renumbered(self, shifts: Renumbered, heading: str) -> Iterator[Erratum]:
        if shifts.line is not None:
            yield Erratum(
                kind=Mend.RENUMBER,
                part=heading,
                place=shifts.old_words,
                sizes=self._named(shifts.sizes),
                new=shifts.new_words,
                line=shifts.line,
            )

    def _erratum(
        self, part: Headed | None, heading: str, change: _Change, sizes: tuple[str, ...], whole: bool
    ) -> Erratum:
        old, new = change.old, change.new
        at = old or change.kept
        before = old.among(sizes) if old else Reading("", "")
        after = new.among(sizes) if new else Reading("", "")
        kind = Mend.READ if old and new else Mend.ADD if new else Mend.DELETE
        read = _quoted(before, after) if kind is Mend.READ else (before.words, after.words)
        readers = sizes if old else tuple(size for size in self.shared if at and size in at.sizes)
        return Erratum(
            kind=kind,
            part=heading,
            place=place_of(part, at, readers) if part and at else "",
            sizes=self._named(sizes),
            old=read[0],
            new=read[1],
            line=at.number if at else None,
            whole=whole,
        )

    def _named(self, sizes: Sequence[str]) -> tuple[str, ...]:
        return () if tuple(sizes) == self.all_old else tuple(sizes)


def _quoted(old: Reading, new: Reading) -> tuple[str, str]:
    """Of a changed line what has to be quoted."""
    if old.text == new.text and old.text.count(old.label) == 0:
        return old.label, new.label
    if old.label == new.label:
        return difference(old.text, new.text)
    return difference(old.words, new.words)


def _changes(size: str, old: Headed | None, new: Headed | None) -> Iterator[tuple[_Change, int]]:
    """What changes in one size, and the number of the last old line before it."""
    before, after = old.of(size) if old else (), new.of(size) if new else ()
    pairs = aligned(*([line.among([size]) for line in lines] for lines in (before, after)))
    kept, passed = None, -1
    for old_at, new_at in pairs:
        was = None if old_at is None else before[old_at]
        now = None if new_at is None else after[new_at]
        if not (was and now and was.among([size]) == now.among([size])):
            yield _Change(was, now, None if was else kept), passed
        kept = was if was and now else kept
        passed = was.number if was else passed


def _shift(change: _Change, sizes: Sequence[str]) -> Shift | None:
    old, new = change.old, change.new
    if old is None or new is None:
        return None
    return shift_of(old.number, {size: (old.among([size]), new.among([size])) for size in sizes})
