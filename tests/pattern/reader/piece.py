"""A flat piece: its chain, and every row worked on it."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace

from tests.pattern.reader.complaint import CannotWorkError, agree, number_in
from tests.pattern.reader.hands import Hands, Made
from tests.pattern.reader.row_words import Group, Item, Sts, Words
from tests.pattern.reader.stitches import Vocabulary

_OTHER = {"RS": "WS", "WS": "RS"}


@dataclass
class Piece:
    """What has been worked of a piece; ``rows[0]`` is its chain, as if it had been worked before Row 1."""

    name: str
    vocabulary: Vocabulary
    turning: int = 0
    base: str = ""
    facing: str = "RS"
    turned: bool = True
    rows: list[Made] = field(default_factory=list)
    number: int = 0
    """That of the last row."""
    chained: int = 0
    notes: frozenset[str] = frozenset()
    """Of which kinds of stitches it says how they stand to the row below, ``post``, ``long``, ``surface``;
    ``below`` where it says how rows further down are counted.
    """
    surface: frozenset[str] = frozenset()
    """Stitches that it says are always worked on the surface."""

    def note(self, text: str) -> None:
        """What a paragraph says of stitches that are not worked into the row below."""
        instead = re.search(r"(Each .+?) stands in place of one stitch of the row below: leave the stitch "
                            r"(?:behind|in front of) it unworked[ .]", text)  # fmt: skip
        if instead:
            self.notes |= set(re.findall(r"each (post|long) stitch", instead[1].lower()))
        lies = (
            r"Work (.+) on the surface of the fabric, between the stitches beside it: it uses no stitch of "
            r"the row below, so leave none unworked for it"
        )
        if told := re.match(lies, text):
            self.notes |= {"surface"}
            self.surface |= {name for each in re.findall(r"every (.+?)(?: and each|$)", told[1])
                             for name in re.split(r", | and ", each)}  # fmt: skip
        if re.match(r"The row below is the one worked last, 2 rows below is the one before it", text):
            self.notes |= {"below"}

    def foundation(self, chains: int) -> None:
        self.chained = chains
        self.rows = []

    def branch(self, name: str, stitches: tuple[str, ...]) -> Piece:
        """A part worked on by itself over these stitches of the last row, in the order of its first row."""
        part = replace(self, name=name, rows=[*self.rows])
        part.rows[-1] = Made(stitches, self.facing)
        return part

    @property
    def count(self) -> int:
        return len(self.rows[-1].stitches)

    def where(self, row: int | None = None) -> str:
        return f"{self.name}, Row {self.number if row is None else row}"

    def work(self, text: str, side: str, count: str) -> None:
        """The next row: its words, the side its label names if any, and its count if one is printed."""
        where = self.where(self.number + 1)
        if not self.turned:
            raise CannotWorkError(where, "the work was not turned, the yarn is at the other end")
        if side and side != self.facing:
            raise CannotWorkError(where, f"the label says {side}, but {self.facing} faces")
        body, turns = _turn(text, where)
        body, into = self._begun(body, where)
        if into:
            self.rows = [Made(("ch",) * (self.chained - into + 1), _OTHER[self.facing])]
        elif not self.rows:
            raise CannotWorkError(where, "there is nothing to work into")
        self.take(self.items(body, where), turns)
        self.counted(count)

    def take(self, items: tuple[Item, ...], turns: bool) -> None:
        """A row of these items onto the row below."""
        where = self.where(self.number + 1)
        hands = Hands(where, self.vocabulary, self.rows, self.facing, self.base, notes=self.notes)
        self.add(hands.work(items), turns)

    def add(self, row: Made, turns: bool) -> None:
        self.rows.append(row)
        self.number += 1
        self.turned = turns
        if turns:
            self.facing = _OTHER[self.facing]

    def items(self, text: str, where: str) -> tuple[Item, ...]:
        return Words(self.vocabulary, where, self.surface).items(text)

    def _begun(self, text: str, where: str) -> tuple[str, int]:
        """The row without how it is begun, and for a row into the chain, the first chain worked into."""
        along = rf"({self.vocabulary.pattern}) in (\d+)(?:st|nd|rd|th) ch from hook and in each ch to end"
        if match := re.fullmatch(along, text):
            return f"{match[1]} in each st to end", int(match[2])
        taken = r"take each ch for a st, beginning in (\d+)(?:st|nd|rd|th) ch from hook: (.+)"
        if match := re.fullmatch(taken, text):
            return match[2], int(match[1])
        if not self.turning:
            return text, 0
        chain = f"ch {self.turning}, "
        if not text.startswith(chain):
            raise CannotWorkError(where, f"it has no turning chain of {self.turning}")
        return text.removeprefix(chain), 0

    def counted(self, printed: str) -> None:
        """The count printed after the row just worked, if one is."""
        if printed:
            agree(self.where(), "count at the end", number_in(printed, self.where()), self.count)


def small(text: str) -> str:
    """The text with a small letter at its beginning, where that is no abbreviation in capitals."""
    return text[0].lower() + text[1:] if re.match(r"[A-Z][a-z]", text) else text


def _turn(text: str, where: str) -> tuple[str, bool]:
    """The row without its end, and whether it is turned."""
    text = small(text)
    if not text.endswith("."):
        raise CannotWorkError(where, f"it breaks off: {text[-20:]!r}")
    body = text.removesuffix(".")
    return body.removesuffix(", turn"), body.endswith(", turn")


def with_more(items: tuple[Item, ...], bracket: int, end: int, where: str) -> tuple[Item, ...]:
    """An increase row with so many more stitches in each bracket and at each end."""
    if bracket and not any(isinstance(item, Group) for item in items):
        raise CannotWorkError(where, "the row it is worked as has no brackets to grow")
    grown = [
        replace(item, items=_added(item.items, bracket)) if isinstance(item, Group) else item
        for item in items
    ]
    if end:
        grown = list(_added(tuple(grown), end))
        last = grown[-1]
        grown = [*grown[:-1], replace(last, count=last.count + end)] if isinstance(last, Sts) else [
            *grown, Sts(end, "")
        ]  # fmt: skip
    return tuple(grown)


def _added(items: tuple[Item, ...], more: int) -> tuple[Item, ...]:
    first = items[0]
    if isinstance(first, Sts):
        return (replace(first, count=first.count + more), *items[1:])
    return (Sts(more, ""), *items)
