"""Ribbing worked sideways onto an edge: two edge stitches to every two rows, and the ring closed."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from tests.pattern.reader.complaint import CannotWorkError, agree, number_in
from tests.pattern.reader.page import Block, Line, Words
from tests.pattern.reader.piece import Piece
from tests.pattern.reader.row_words import times
from tests.pattern.reader.rows import Rows
from tests.pattern.reader.sizes import Chosen
from tests.pattern.reader.stitches import Vocabulary


@dataclass
class Band:
    """The band in hand; ``edge`` are the stitches it is worked onto, ``used`` those that are joined."""

    name: str
    vocabulary: Vocabulary
    edge: int
    chain: int = 0
    stitches: int = 0
    rows: int = 0
    used: int = 0
    side: str = "RS"
    turned: bool = True
    outside: bool = True
    """The yarn is at the outer edge of the band, not at the poncho."""
    ended: bool = False
    closed: bool = False
    told: dict[int, str] = field(default_factory=dict)

    def line(self, line: Line, chosen: Chosen) -> None:
        """Work one line of the size."""
        only, label = chosen.of_label(line.label)
        if only is None:
            return
        work, count = only.pick(line.work), only.pick(line.count)
        if label == "Foundation":
            self._chain(work)
        elif label == "Close the ring":
            self._close(work)
        elif match := re.fullmatch(r"Row (\d+) \((RS|WS)\)", label):
            self._next(int(match[1]), match[2], work)
            self._count(count)
        elif match := re.fullmatch(r"Rows (\d+) (?:to|and) (\d+)", label):
            self._repeat(int(match[1]), int(match[2]), work)
            self._count(count)
        else:
            raise CannotWorkError(self.name, f"no maker can tell what {label!r} is")

    @property
    def _where(self) -> str:
        return f"{self.name}, Row {self.rows + 1}"

    def _chain(self, work: str) -> None:
        match = re.fullmatch(r"Ch (\d+)(?: \(.+\))?\. Its far end is the outer edge of the band\.", work)
        if match is None:
            raise CannotWorkError(self.name, f"no chain is told in {work!r}")
        self.chain = int(match[1])

    def _next(self, number: int, side: str, work: str) -> None:
        if number != self.rows + 1:
            raise CannotWorkError(f"{self.name}, Row {number}", f"Row {self.rows} is the last that is done")
        if side and side != self.side:
            raise CannotWorkError(self._where, f"the label says {side}, but {self.side} faces")
        if not self.turned:
            raise CannotWorkError(self._where, "the work was not turned")
        if match := re.fullmatch(r"As Row (\d+)\.(.*)", work):
            if int(match[1]) not in self.told:
                raise CannotWorkError(self._where, f"Row {match[1]} has not been told")
            work = self.told[int(match[1])] + match[2]
        self.told[number] = work
        self._row(work)
        self.rows += 1

    def _row(self, work: str) -> None:
        st, slip, slips = self.vocabulary.pattern, self.vocabulary.slip, self.vocabulary.slips
        chain = r"(?:[Cc]h (?P<turning>\d+)(?: \([^)]+\))?, )?"
        joins = rf"{slip} in each of (?P<which>first|next) 2 edge sts(?P<turn>, turn)?\."
        out = rf"{self.vocabulary.skip} the 2 {slips}, (?P<st>{st}) in each st to end"
        last = rf"(?P<last> Every edge st has its {slip}\.)"
        if match := re.fullmatch(
            rf"(?P<st>{st}) in (?P<into>\d+)\w\w ch from hook and in each ch to end, {joins}", work, re.I
        ):
            self.stitches = self.chain - int(match["into"]) + 1
            self._in(match["st"], first=match["which"] == "first", turn=bool(match["turn"]))
        elif match := re.fullmatch(rf"{chain}(?P<st>{st}) in each st to end, {joins}", work, re.I):
            self._in(match["st"], first=match["which"] == "first", turn=bool(match["turn"]))
        elif match := re.fullmatch(rf"{out}(?P<turn>, turn)?\.{last}?", work, re.I):
            self._known(match["st"])
            if self.outside:
                raise CannotWorkError(self._where, "there are no sl sts to skip at the outer edge")
            self.outside = True
            self._turn(bool(match["turn"]))
            if match["last"]:
                self.ended = True
                agree(self._where, "edge sts that have their sl st", self.edge, self.used)
        else:
            raise CannotWorkError(self._where, f"no maker can tell what {work!r} is")

    def _in(self, st: str, *, first: bool, turn: bool) -> None:
        self._known(st)
        if not self.outside:
            raise CannotWorkError(self._where, "the yarn is at the poncho already")
        if first != (self.used == 0):
            raise CannotWorkError(self._where, f"{self.used} edge sts are used already")
        self.used += 2
        if self.used > self.edge:
            raise CannotWorkError(self._where, f"the edge has {self.edge} sts, {self.used} are asked for")
        self.outside = False
        self._turn(turn)

    def _known(self, st: str) -> None:
        name = st if self.vocabulary.kind(st) else st[0].lower() + st[1:]
        if self.vocabulary.kind(name) is None:
            raise CannotWorkError(self._where, f"the abbreviations do not explain {st!r}")

    def _turn(self, turns: bool) -> None:
        self.turned = turns
        if turns:
            self.side = "WS" if self.side == "RS" else "RS"

    def _repeat(self, first: int, last: int, work: str) -> None:
        where = f"{self.name}, Rows {first} to {last}"
        match = re.fullmatch(r"Rep Rows (\d+) and (\d+), (once|twice|\d+ times)\.", work)
        if match is None or int(match[2]) != int(match[1]) + 1:
            raise CannotWorkError(where, f"no maker can tell what {work!r} is")
        agree(where, "rows of the repeats", 2 * times(match[3]), last - first + 1)
        for row in range(first, last + 1):
            like = int(match[1]) + (row - first) % 2
            if like not in self.told:
                raise CannotWorkError(where, f"Row {like} has not been told")
            self._next(row, "", self.told[like])

    def _count(self, printed: str) -> None:
        """Told after Row 1 and after the last row, and never wrong between."""
        if not printed and self.rows > 1 and not self.ended:
            return
        agree(f"{self.name}, Row {self.rows}", "count", number_in(printed, self._where), self.stitches)

    def _close(self, work: str) -> None:
        where = f"{self.name}, closing"
        if not self.ended or not self.outside:
            raise CannotWorkError(where, "the last row is not done, or the yarn is not at the outer edge")
        slip = self.vocabulary.slip
        match = re.fullmatch(
            r"With the (RS|WS) facing you, lay the foundation chain in front of Row "
            rf"(\d+), right sides together\. From the outer edge to the poncho, {slip} through "
            r"the free loop of the next foundation ch and both loops of the next st of that row, "
            r"(once|twice|\d+ times) in all\. Fasten off\.",
            work,
        )
        if match is None:
            raise CannotWorkError(where, f"no maker can tell what {work!r} is")
        if not self.turned or match[1] != self.side:
            raise CannotWorkError(where, f"{self.side} faces at the end of Row {self.rows}")
        agree(where, "last row", int(match[2]), self.rows)
        agree(where, "sts joined to the foundation", times(match[3]), self.stitches)
        self.closed = True

    def charted(self, piece: Piece) -> None:
        """Take over the rows of a chart, each odd one joined to two edge stitches."""
        where = f"{self.name}, Row {piece.number}"
        if piece.number % 2:
            raise CannotWorkError(where, "the last row ends at the poncho")
        agree(where, "edge sts that have their sl st", self.edge, piece.number)
        self.rows, self.stitches, self.ended = piece.number, piece.count, True
        self.turned, self.side = piece.turned, piece.facing


def work_band(name: str, blocks: list[Block], chosen: Chosen, vocabulary: Vocabulary, edge: int) -> Band:
    """The band of a section, worked onto so many edge stitches and closed."""
    band = Band(name, vocabulary, edge)
    rows: Rows | None = None
    for block in blocks:
        if isinstance(block, Words) and block.text.startswith(
            f"Size {chosen.name}: this band cannot be worked"
        ):
            raise CannotWorkError(name, block.text)
        if isinstance(block, Words) and block.text.startswith("Work the rows below"):
            rows = Rows(_joined(block.text, band), chosen)
        elif isinstance(block, Words) and rows:
            rows.piece.note(block.text)
        elif isinstance(block, Line) and not block.label.startswith("Pick-up"):
            closing = chosen.of_label(block.label)[1] == "Close the ring"
            if rows and closing:
                band.charted(rows.piece)
            if rows and not closing:
                rows.line(block)
            else:
                band.line(block, chosen)
    if not band.closed:
        raise CannotWorkError(name, "the ring is never closed")
    return band


def _joined(text: str, band: Band) -> Piece:
    """The piece that the rows of a chart are worked on, once it is told how they are joined."""
    slip, slips = band.vocabulary.slip, band.vocabulary.slips
    match = re.fullmatch(
        rf"Work the rows below, joined to the edge like this\. At the end of Row 1, before you turn, {slip} "
        rf"in each of first 2 edge sts; at the end of each odd row after it, {slip} in each of next 2 edge "
        rf"sts\. At the beginning of each even row {band.vocabulary.skip} the 2 {slips}(?: in place of the "
        rf"ch (\d+))?\. After the last row every edge st has its {slip}\.",
        text,
    )
    if match is None:
        raise CannotWorkError(band.name, f"no maker can tell what {text!r} is")
    piece = Piece(band.name, band.vocabulary, turning=int(match[1] or 0))
    piece.foundation(band.chain)
    return piece
