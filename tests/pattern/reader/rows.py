"""The lines of a piece worked in turn: single rows, ranges, rows by a rule, repeats, tables of rows."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from itertools import pairwise

from tests.pattern.reader.complaint import CannotWorkError, agree, number_in
from tests.pattern.reader.page import Grid, Line
from tests.pattern.reader.piece import Piece, small, with_more
from tests.pattern.reader.row_words import times
from tests.pattern.reader.sizes import Chosen, listed_names

_ONE = re.compile(r"Row (\d+)(?: \((RS|WS)\)|, (RS|WS))?")
_RANGE = re.compile(r"Rows (\d+) (to|and) (\d+)")
_LIST = re.compile(r"Rows? ((?:\d+, )*\d+(?: and \d+)?)(?P<on> and so on)?")
_REP = re.compile(
    r"Rep Rows? (?P<first>\d+)(?: (?P<joint>and|to) (?P<last>\d+))?(?:,? (?P<times>once|twice|\d+ times))?"
    r"(?P<inc>, ending with an increase row)?(?:; RS and WS change places each time)?"
    r"(?:, each time with this for Row (?P<other>\d+): (?P<work>.+))?\."
)
_GROW = re.compile(
    r"Increase in every (?:(\d+)(?:st|nd|rd|th) )?row as told below, (\d+) sts each time"
    r"(?:; all other rows are as Row (\d+))?\."
)
_AS = re.compile(r"As Row (\d+)\.")
_MORE = re.compile(
    r"As Row (?P<row>\d+), with (?P<bracket>\d+) more \D+ in each bracket"
    r"(?: and (?P<end>\d+) more at each end)? each time\."
)


@dataclass(frozen=True)
class _Rule:
    """Increase rows that are as another row, with more each time."""

    rows: tuple[int, ...]
    on: bool
    like: int
    bracket: int
    end: int

    def turn(self, row: int) -> int | None:
        """Which of them the row is, from 1; None if none."""
        if row in self.rows:
            return self.rows.index(row) + 1
        step = self.rows[1] - self.rows[0] if self.on else 0
        if step and row > self.rows[-1] and (row - self.rows[0]) % step == 0:
            return (row - self.rows[0]) // step + 1
        return None


@dataclass(frozen=True)
class _Growing:
    """Rows told as a whole before the rules for them: an increase row ``every`` so many, so many sts each."""

    first: int
    last: int
    every: int
    adds: int
    count: str


@dataclass
class Rows:
    """Works lines for one size on a piece."""

    piece: Piece
    chosen: Chosen
    told: dict[int, str] = field(default_factory=dict)
    rules: list[_Rule] = field(default_factory=list)
    between: int | None = None
    kinds: dict[str, str] = field(default_factory=dict)
    growing: _Growing | None = None
    open: bool = False
    """Rows are promised whose last one has not been named yet."""

    @property
    def done(self) -> int:
        return self.piece.number

    def line(self, line: Line) -> bool:
        """Work the line, if it is one of rows; say whether it was."""
        chosen, label = self.chosen.of_label(line.label)
        if chosen is None:
            return True
        work, count = chosen.pick(line.work), chosen.pick(line.count)
        if "–" in label:
            return True
        if self.growing and not _MORE.fullmatch(work):
            self._grow()
        if match := _GROW.fullmatch(work):
            self._growing(label, match, count)
        elif match := _ONE.fullmatch(label):
            if more := _MORE.fullmatch(work):
                self._rule((int(match[1]),), on=False, more=more)
                if not self.growing:
                    self.growing = _Growing(int(match[1]), int(match[1]), 1, 0, count)
            else:
                self._rows(int(match[1]), int(match[1]), work, match[2] or match[3] or "", count)
        elif match := _RANGE.fullmatch(label):
            self._rows(*self._range(match), work, "", count)
        elif (match := _LIST.fullmatch(label)) and (more := _MORE.fullmatch(work)):
            self._rule(tuple(map(int, re.findall(r"\d+", match[1]))), on=bool(match["on"]), more=more)
        elif label in ("Increase row", "Even row"):
            self.kinds[label] = work
            self.open = True
        elif label == "Markers":
            self._markers(work, line.work)
        else:
            return False
        return True

    def _range(self, match: re.Match[str]) -> tuple[int, int]:
        """The first and the last; ``and`` stands between two alone."""
        first, last = int(match[1]), int(match[3])
        if match[2] == "and" and last != first + 1:
            raise CannotWorkError(self.piece.where(), f"rows {match[0]!r} do not follow each other")
        return first, last

    def table(self, grid: Grid) -> None:
        """Rows of the two kinds, by a table of sizes."""
        where = f"{self.piece.name}, table of increase rows"
        rows = [row for row in grid.rows if row[0] == self.chosen.name]
        if len(rows) != 1:
            raise CannotWorkError(where, f"size {self.chosen.name} is told {len(rows)} times")
        _, increases, last, count = rows[0]
        at = set() if increases == "none" else set(map(int, listed_names(increases)))
        if missed := [row for row in at if not self.done < row <= int(last)]:
            raise CannotWorkError(where, f"increase rows {missed} are not among the rows that are left")
        for row in range(self.done + 1, int(last) + 1):
            kind = "Increase row" if row in at else "Even row"
            self.piece.work(self.kinds[kind], "", count if row == int(last) else "")
        self.open = False
        agree(where, "sts in the last row", int(count), self.piece.count)

    def ended(self) -> None:
        if self.growing:
            self._grow()
        if self.open:
            raise CannotWorkError(self.piece.where(), "it is never told which row is the last of these")

    def _rows(self, first: int, last: int, work: str, side: str, count: str) -> None:
        where = f"{self.piece.name}, Row {first}"
        if first != self.done + 1:
            raise CannotWorkError(where, f"Row {self.done} is the last that is done")
        if last < first:
            raise CannotWorkError(where, f"the rows end with Row {last}, before they begin")
        if match := _REP.fullmatch(work):
            self._repeat(first, last, match)
        else:
            if match := _AS.fullmatch(work):
                work = self._of(int(match[1]), where)
            for row in range(first, last + 1):
                self.told[row] = work
                self.piece.work(work, side if row == first else "", "")
        if count:
            agree(
                f"{self.piece.name}, Row {last}",
                "count",
                number_in(count, self.piece.where()),
                self.piece.count,
            )

    def _repeat(self, first: int, last: int, match: re.Match[str]) -> None:
        where = f"{self.piece.name}, Rows {first} to {last}"
        begin, end = int(match["first"]), int(match["last"] or match["first"])
        high = end - begin + 1
        if match["joint"] and (match["joint"] == "and") != (high == 2):
            raise CannotWorkError(where, f"Rows {begin} {match['joint']} {end} cannot be")
        if match["times"]:
            agree(where, "rows of the repeats", times(match["times"]) * high, last - first + 1)
        elif high > 1 and not match["inc"]:
            raise CannotWorkError(where, "it is not told how often the rows are repeated")
        if match["other"]:
            self.told[int(match["other"])] = f"{match['work']}."
        before = self.piece.count
        for row in range(first, last + 1):
            before = self.piece.count
            self.told[row] = self._of(begin + (row - first) % high, where)
            self.piece.work(self.told[row], "", "")
        if match["inc"] and self.piece.count <= before:
            raise CannotWorkError(where, f"Row {last} is no increase row")

    def _of(self, row: int, where: str) -> str:
        if row not in self.told:
            raise CannotWorkError(where, f"Row {row} has not been told")
        return self.told[row]

    def _growing(self, label: str, match: re.Match[str], count: str) -> None:
        rows = _RANGE.fullmatch(label)
        if rows is None or int(rows[1]) != self.done + 1:
            raise CannotWorkError(self.piece.where(), f"no maker can tell which rows {label!r} are")
        self.growing = _Growing(*self._range(rows), int(match[1] or 1), int(match[2]), count)
        self.between = int(match[3]) if match[3] else None

    def _rule(self, rows: tuple[int, ...], *, on: bool, more: re.Match[str]) -> None:
        steps = {late - soon for soon, late in pairwise(rows)}
        if len(steps) > 1:
            raise CannotWorkError(f"{self.piece.name}, Rows {rows}", "they are not evenly spaced")
        self.rules.append(_Rule(rows, on, int(more["row"]), int(more["bracket"]), int(more["end"] or 0)))

    def _grow(self) -> None:
        """The rows told as a whole: increase rows at one distance from that before them, by the rules."""
        assert self.growing is not None
        growing, self.growing = self.growing, None
        increased = growing.first - 1
        for row in range(growing.first, growing.last + 1):
            before, where = self.piece.count, f"{self.piece.name}, Row {row}"
            rule = [(rule, turn) for rule in self.rules if (turn := rule.turn(row))]
            if len(rule) > 1:
                raise CannotWorkError(where, "two rules tell how it is worked")
            if rule:
                self._as_rule(*rule[0])
                if growing.adds:
                    agree(where, "sts that it adds", growing.adds, self.piece.count - before)
                agree(where, "rows from one increase row to the next", growing.every, row - increased)
                increased = row
            elif self.between:
                self.piece.work(self._of(self.between, where), "", "")
            else:
                raise CannotWorkError(where, "nothing tells how it is worked")
        where = f"{self.piece.name}, Row {growing.last}"
        agree(where, "the last increase row", growing.last, increased)
        agree(where, "count", number_in(growing.count, self.piece.where()), self.piece.count)
        self.rules, self.between = [], None

    def _as_rule(self, rule: _Rule, turn: int) -> None:
        where = self.piece.where(self.piece.number + 1)
        text = small(self._of(rule.like, where))
        if not text.endswith(", turn."):
            raise CannotWorkError(where, "the row it is worked as is not turned")
        chain = f"ch {self.piece.turning}, " if self.piece.turning else ""
        items = self.piece.items(text.removeprefix(chain).removesuffix(", turn."), where)
        self.piece.take(with_more(items, rule.bracket * turn, rule.end * turn, where), turns=True)

    def _markers(self, picked: str, printed: str) -> None:
        """Markers hung along Row 1, the same from either edge."""
        where = f"{self.piece.name}, Markers"
        match = re.search(r"wherever one is named: (.+?)\. In every row", printed)
        if match is None or self.done != 1:
            raise CannotWorkError(where, "it is not told where in Row 1 they hang")
        text = self.chosen.pick(match[1]) if not match[1].startswith("size") else self._own(match[1])
        if text == "none":
            return
        counts = [int(part.split()[0]) for part in text.split(", marker, ")]
        agree(where, "sts of Row 1", sum(counts), self.piece.count)
        if counts != counts[::-1]:
            raise CannotWorkError(where, f"it is not told from which edge {counts} are counted")
        gaps = tuple(sum(counts[:place]) for place in range(1, len(counts)))
        row = self.piece.rows[-1]
        self.piece.rows[-1] = type(row)(row.stitches, row.side, row.surface, gaps)

    def _own(self, text: str) -> str:
        for part in text.split("; "):
            names, work = part.split(": ")
            if chosen := self.chosen.among(listed_names(re.sub(r"^sizes? ", "", names))):
                return chosen.pick(work)
        raise CannotWorkError(f"{self.piece.name}, Markers", f"size {self.chosen.name} is not among them")
