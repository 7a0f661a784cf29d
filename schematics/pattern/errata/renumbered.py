"""Rows that are worked as before under other numbers, reported once for all that follow each other."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field

from schematics.document.chart_words.in_sizes import texts_in_sizes
from schematics.pattern.errata.lines import Reading

_LABEL = re.compile(
    r"(?P<noun>Row|Rnd)s? (?P<first>\d+)(?: (?:to|and) (?P<last>\d+))?(?P<side>(?: \(|, )(?:RS|WS)\)?)?"
)


@dataclass(frozen=True, slots=True)
class Shift:
    """A line that has only other numbers: by size, its first and last row, before and after."""

    line: int
    noun: str
    rows: Mapping[str, tuple[int, int, int, int]]

    @property
    def by(self) -> Mapping[str, int]:
        """How many rows later it is, in each size."""
        return {size: after - before for size, (before, _, after, _) in self.rows.items()}


def shift_of(line: int, readings: Mapping[str, tuple[Reading, Reading]]) -> Shift | None:
    """The line if nothing but its numbers has changed, and the side that faces with them; else None."""
    rows: dict[str, tuple[int, int, int, int]] = {}
    noun = ""
    for size, (old, new) in readings.items():
        before, after = _LABEL.fullmatch(old.label), _LABEL.fullmatch(new.label)
        if old.text != new.text or before is None or after is None or before["noun"] != after["noun"]:
            return None
        was = int(before["first"]), int(before["last"] or before["first"])
        now = int(after["first"]), int(after["last"] or after["first"])
        by = now[0] - was[0]
        turned = before["side"] != after["side"]
        if now[1] - was[1] != by or turned != bool(by % 2 and before["side"]):
            return None
        rows[size] = (*was, *now)
        noun = before["noun"]
    return Shift(line, noun, rows)


@dataclass(slots=True)
class Renumbered:
    """Such lines, one after the other, while they are shifted alike in the same sizes."""

    shifts: list[Shift] = field(default_factory=list)

    def takes(self, shift: Shift) -> bool:
        """Whether the line is one of them, which it then is."""
        if self.shifts:
            last = self.shifts[-1]
            follows = all(
                size in last.rows and last.rows[size][1] + 1 == rows[0] for size, rows in shift.rows.items()
            )
            if not (follows and last.by == shift.by and last.noun == shift.noun):
                return False
        self.shifts.append(shift)
        return True

    @property
    def line(self) -> int | None:
        """The number of the first of the lines; None where there are none."""
        return self.shifts[0].line if self.shifts else None

    @property
    def sizes(self) -> tuple[str, ...]:
        """The sizes that work these rows."""
        return tuple(self.shifts[0].rows)

    @property
    def old_words(self) -> str:
        """Such as ``Rows 31 to 58``."""
        return self._words(0)

    @property
    def new_words(self) -> str:
        """Such as ``Rows 32 to 59, RS and WS changing places``."""
        sides = ", RS and WS changing places" if any(by % 2 for by in self.shifts[0].by.values()) else ""
        return f"{self._words(2)}{sides}"

    def _words(self, at: int) -> str:
        firsts = [str(rows[at]) for rows in self.shifts[0].rows.values()]
        lasts = [str(rows[at + 1]) for rows in self.shifts[-1].rows.values()]
        first, last, noun = texts_in_sizes(firsts), texts_in_sizes(lasts), self.shifts[0].noun
        return f"{noun} {first}" if firsts == lasts else f"{noun}s {first} to {last}"
