"""Body and panel worked from their sections, whole or divided at the shoulders."""

from __future__ import annotations

import re
from dataclasses import dataclass

from tests.pattern.reader.complaint import CannotWorkError, agree, number_in
from tests.pattern.reader.hands import Made
from tests.pattern.reader.page import Block, Grid, Heading, Line, Words
from tests.pattern.reader.piece import Piece, small
from tests.pattern.reader.row_words import Sts
from tests.pattern.reader.rows import Rows
from tests.pattern.reader.sizes import Chosen
from tests.pattern.reader.stitches import Vocabulary

_LABEL = re.compile(r"Row (\d+)(?: \(|, )(RS|WS)\)?")


@dataclass(frozen=True)
class Shoulder:
    """One front with its shoulder: stitches at its beginning and at the hem, rows down its neck edge."""

    piece: Piece
    stitches: int
    chained: int
    begun: int
    """Its first row."""
    front_row: int
    """The row that takes in the chain, the first of its front edge; 0 where none is chained."""
    marked: int


@dataclass(frozen=True)
class Body:
    """The body as made; ``left`` are the stitches between the shoulders, if it is divided there."""

    piece: Piece
    first_row: int
    left: int = 0
    shoulders: tuple[Shoulder, ...] = ()

    @property
    def rows(self) -> int:
        return self.shoulders[0].piece.number if self.shoulders else self.piece.number

    @property
    def stitches(self) -> int:
        """Of all rows, of both parts where it is divided; what is chained at a row's end is none."""
        done = len(self.piece.rows)
        rows = [*self.piece.rows[1:], *(row for each in self.shoulders for row in each.piece.rows[done:])]
        return sum(len(row.stitches) for row in rows) - sum(each.chained for each in self.shoulders)

    @property
    def increase_rows(self) -> tuple[int, ...]:
        """The rows that have more stitches than the one before; none of a divided body."""
        counts = [len(row.stitches) for row in self.piece.rows]
        return tuple(row for row in range(2, len(counts)) if counts[row] > counts[row - 1])

    @property
    def last_row(self) -> int:
        return self.shoulders[0].piece.count if self.shoulders else self.piece.count

    @property
    def front_rows(self) -> tuple[int, int]:
        """The first and the last row of each front edge; the first is 0 where the rows do not tell it."""
        return (self.shoulders[0].front_row if self.shoulders else 1), self.rows


def begun(name: str, blocks: list[Block], chosen: Chosen, vocabulary: Vocabulary) -> Piece:
    """The piece with its chain, and what its notes say of all rows."""
    piece = Piece(name, vocabulary)
    for block in blocks:
        if isinstance(block, Words):
            if match := re.search(
                r"Ch (\d+)(?: \(.+?\))? at the beginning of a row does not count", block.text
            ):
                piece.turning = int(match[1])
            if match := re.search(r"In Row 1 the (.+?) faces you", block.text):
                piece.facing = chosen.pick(match[1])
            if match := re.search(r"Inc \(increase\): 2 (?:sts|(.+)) in one st", block.text):
                piece.base = match[1] or ""
            elif "Inc (increase)" in block.text:
                raise CannotWorkError(name, f"no maker can tell what an increase is in {block.text!r}")
        elif isinstance(block, Line) and block.label == "Foundation":
            match = re.fullmatch(r"Ch (\d+)\.", chosen.pick(block.work))
            if match is None:
                raise CannotWorkError(name, f"no chain is told in {block.work!r}")
            piece.foundation(int(match[1]))
            return piece
    raise CannotWorkError(name, "no foundation chain is told")


def work_body(blocks: list[Block], chosen: Chosen, vocabulary: Vocabulary) -> Body:
    """The body from its section."""
    piece = begun("Body", blocks, chosen, vocabulary)
    parts = _divided(blocks)
    _rows(piece, parts[0], chosen)
    if len(parts) == 1:
        _fastened(piece, blocks, chosen)
        return Body(piece, _first_count(piece))
    shoulders: list[Shoulder] = []
    for number, part in enumerate(parts[1:]):
        shoulders.append(_Shoulders(piece, chosen, number, tuple(shoulders)).work(part))
    first, second = shoulders
    agree("Body", "sts of both shoulders", first.stitches, second.stitches)
    agree("Body", "rows of both fronts", first.piece.number, second.piece.number)
    agree("Body", "sts chained at both fronts", first.chained, second.chained)
    agree("Body", "the marked row of both fronts", first.marked, second.marked)
    return Body(piece, _first_count(piece), piece.count - 2 * first.stitches, (first, second))


def work_panel(blocks: list[Block], chosen: Chosen, vocabulary: Vocabulary) -> Piece:
    """The panel from its section; where its rows are still to be added, as many rows of as many stitches."""
    piece = begun("Panel", blocks, chosen, vocabulary)
    for block in blocks:
        match = isinstance(block, Line) and re.fullmatch(r".+ over (\d+) sts:", chosen.pick(block.work))
        if match and isinstance(block, Line):
            agree("Panel", "sts on the chain", int(match[1]), piece.chained - piece.turning)
            last = int(chosen.pick(block.label).split()[-1])
            piece.rows = [Made(("",) * int(match[1]), "RS")] * (last + 1)
            piece.number = last
            return piece
    _rows(piece, blocks, chosen)
    _fastened(piece, blocks, chosen)
    return piece


def _first_count(piece: Piece) -> int:
    return len(piece.rows[1].stitches)


def _divided(blocks: list[Block]) -> list[list[Block]]:
    """The blocks before the shoulders, and those of each."""
    parts: list[list[Block]] = [[]]
    for block in blocks:
        if isinstance(block, Heading) and block.text.endswith("shoulder and front"):
            parts.append([])
        else:
            parts[-1].append(block)
    return parts


def _rows(piece: Piece, blocks: list[Block], chosen: Chosen) -> None:
    """Work all lines."""
    rows = Rows(piece, chosen)
    for block in blocks:
        if isinstance(block, Words):
            piece.note(block.text)
        elif isinstance(block, Grid) and rows.kinds:
            rows.table(block)
        elif isinstance(block, Line) and block.label not in ("Foundation", "Marker") and not rows.line(block):
            raise CannotWorkError(piece.where(), f"no maker can tell what {block.label!r} is")
    rows.ended()


def _fastened(piece: Piece, blocks: list[Block], chosen: Chosen) -> None:
    form = r"Fasten off at the end of Row (\d+) instead of turning\."
    for block in blocks:
        if isinstance(block, Words) and (match := re.fullmatch(form, chosen.pick(block.text))):
            agree(piece.where(), "the row at whose end one fastens off", int(match[1]), piece.number)
            return
    raise CannotWorkError(piece.where(), "it is not told that the piece ends there")


@dataclass(frozen=True)
class _Shoulders:
    """Works one of the two parts from the row where the body divides."""

    piece: Piece
    chosen: Chosen
    number: int
    before: tuple[Shoulder, ...]

    def work(self, blocks: list[Block]) -> Shoulder:
        """The part from its lines."""
        name = f"Body, {('first', 'second')[self.number]} shoulder"
        first = self.piece.number + 1
        part: Piece | None = None
        rest: list[Block] = []
        marked = chained = front_row = stitches = 0
        for block in blocks:
            if not isinstance(block, Line):
                continue
            chosen, label = self.chosen.of_label(block.label)
            if chosen is None:
                continue
            work, count = chosen.pick(block.work), chosen.pick(block.count)
            if part is None:
                part = self._begin(name, label, work)
                stitches = part.count
                self._counted(part, count)
            elif label == "Marker":
                _lines(part, rest, self.chosen)
                marked = int(re.findall(r"Row (\d+)", work)[0])
            elif "ch" in work.lower().split() and "neck edge" in work:
                _lines(part, rest, self.chosen)
                chained = self._extend(part, label, work, (part.number + 1 - first) % 2 == 0)
                front_row = part.number
                self._counted(part, count)
            else:
                rest.append(block)
        if part is None:
            raise CannotWorkError(name, "it is never begun")
        _lines(part, rest, self.chosen)
        _fastened(part, blocks, self.chosen)
        return Shoulder(part, stitches, chained, first, front_row, marked)

    @staticmethod
    def _counted(part: Piece, count: str) -> None:
        agree(part.where(), "count", number_in(count, part.where()), part.count)

    def _begin(self, name: str, label: str, work: str) -> Piece:
        where = f"{name}, {label}"
        match = _LABEL.fullmatch(label)
        if not match or int(match[1]) != self.piece.number + 1:
            raise CannotWorkError(where, f"Row {self.piece.number} is the last that is done")
        below = self.piece.rows[-1].seen_from(self.piece.facing).stitches
        st, skip = self.piece.vocabulary.pattern, self.piece.vocabulary.skip
        chain = f"ch {self.piece.turning}, " if self.piece.turning else ""
        if match[2] != self.piece.facing or not self.piece.turned:
            raise CannotWorkError(where, f"{self.piece.facing} faces")
        if self.number == 0:
            form = rf"{chain}({st}) in each of first (\d+) sts, turn\. Leave the other sts unworked\."
            if not (told := re.fullmatch(form, small(work))):
                raise CannotWorkError(where, f"no maker can tell what {work!r} is")
            part = self.piece.branch(name, below[: int(told[2])])
            agree(where, "sts that the shoulder can have", int(told[2]), part.count)
            part.take((Sts(part.count, told[1]),), turns=True)
            return part
        form = (
            rf"With this side facing, {skip} the next (\d+) sts of Row (\d+) after the first shoulder, join "
            rf"yarn in next st\. (.+)"
        )
        told = re.fullmatch(form, work)
        own = told and re.fullmatch(
            rf"{chain}({st}) in same st and in each st to end, turn\.", small(told[3])
        )
        if not told or not own:
            raise CannotWorkError(where, f"no maker can tell what {work!r} is")
        agree(where, "the row worked into", int(told[2]), self.piece.number)
        waiting = below[self.before[0].stitches + int(told[1]) :]
        if not waiting:
            raise CannotWorkError(where, "no st is left for it")
        part = self.piece.branch(name, waiting)
        part.take((Sts(part.count, own[1]),), turns=True)
        return part

    def _extend(self, part: Piece, label: str, work: str, as_first: bool) -> int:
        """The row that takes in a chain at the neck edge; how many stitches that adds."""
        where = f"{part.name}, {label}"
        match = _LABEL.fullmatch(label)
        if not match or int(match[1]) != part.number + 1 or match[2] != part.facing:
            raise CannotWorkError(where, f"Row {part.number} is done, and {part.facing} faces")
        at_neck_first = as_first == bool(self.number)
        st, slip = part.vocabulary.pattern, part.vocabulary.slip
        to_end, to_neck = rf"(?:{st}) (?:in each st )?to end", rf"(?:{st}) (?:in each st )?to the neck edge"
        begins = (
            rf"Ch (\d+), ({st}) in (\d+)\w\w ch from hook and in each ch to the neck edge, {to_end}, turn\."
        )
        chain = f"Ch {part.turning}, " if part.turning else ""
        ends = (
            rf"Join a separate length of yarn with {slip} in the st at the neck edge of Row (\d+), ch (\d+), "
            rf"fasten off\. With the working yarn: {chain}{to_neck}, ({st}) in each of (\d+) ch, turn\."
        )
        below = part.rows[-1].seen_from(part.facing).stitches
        if told := re.fullmatch(begins, work):
            more, begins_there = int(told[1]) - int(told[3]) + 1, True
            below = (*("ch",) * more, *below)
            name = told[2]
        elif told := re.fullmatch(ends, work, re.IGNORECASE):
            more, begins_there = int(told[2]), False
            agree(where, "chains worked into", int(told[4]), more)
            agree(where, "the row that the chain is joined to", int(told[1]), part.number)
            below = (*below, *("ch",) * more)
            name = told[3]
        else:
            raise CannotWorkError(where, f"no maker can tell what {work!r} is")
        if begins_there != at_neck_first:
            raise CannotWorkError(where, "the row does not meet the neck edge there")
        if more < 1:
            raise CannotWorkError(where, "the chain adds no st")
        part.rows[-1] = Made(below, part.facing)
        part.take((Sts(len(below), name),), turns=True)
        return more


def _lines(part: Piece, blocks: list[Block], chosen: Chosen) -> None:
    """Work the lines put by, and put none by any more."""
    _rows(part, blocks, chosen)
    blocks.clear()
