"""A row worked stitch by stitch: what of the row below is used, what is made, where markers come to hang."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from tests.pattern.reader.complaint import CannotWorkError, agree
from tests.pattern.reader.row_words import (
    At,
    Back,
    Chains,
    Each,
    Group,
    Inc,
    Into,
    Item,
    Leave,
    Over,
    Skip,
    Sts,
)
from tests.pattern.reader.stitches import Kind, Vocabulary


@dataclass(frozen=True)
class Made:
    """A row as made: its stitches by name in working order, the side that faced, what lies on its surface.

    ``surface`` has the gap, counted from the beginning, in which each stitch on the surface lies; ``markers``
    the gaps in which markers hang.
    """

    stitches: tuple[str, ...]
    side: str
    surface: tuple[int, ...] = ()
    markers: tuple[int, ...] = ()

    def seen_from(self, side: str) -> Made:
        """The row in the order in which one works on it with that side facing."""
        if side == self.side:
            return self
        return Made(
            self.stitches[::-1],
            side,
            tuple(len(self.stitches) - gap for gap in self.surface),
            tuple(sorted(len(self.stitches) - gap for gap in self.markers)),
        )


@dataclass
class Hands:
    """Works one row over the ``rows`` made so far, the last of them the row below, with ``side`` facing."""

    where: str
    vocabulary: Vocabulary
    rows: Sequence[Made]
    side: str
    base: str = ""
    """The stitch that ``4 sts`` are of, where the pattern has no word for one."""
    made: list[str] = field(default_factory=list)
    surface: list[int] = field(default_factory=list)
    markers: list[int] = field(default_factory=list)
    used: int = 0
    skipped: list[int] = field(default_factory=list)
    elsewhere: int = 0
    """Stitches since those skipped for which one of the row below is left unworked."""
    notes: frozenset[str] = frozenset()
    """Of what the piece says how it stands to the row below: ``post``, ``long``, ``surface``."""

    def __post_init__(self) -> None:
        self.below = self.rows[-1].seen_from(self.side)
        self._mark()

    def work(self, items: Iterable[Item]) -> Made:
        """The whole row, which has to use every stitch of the row below."""
        self._items(items)
        left = len(self.below.stitches) - self.used
        if left:
            raise CannotWorkError(
                self.where, f"{left} of {len(self.below.stitches)} sts of the row below are left"
            )
        return Made(tuple(self.made), self.side, tuple(self.surface), tuple(self.markers))

    def take(self, count: int = 1) -> None:
        """Use so many stitches of the row below."""
        for _ in range(count):
            if self.used == len(self.below.stitches):
                raise CannotWorkError(
                    self.where, f"after {self.used} sts the row below has none left to work into"
                )
            self.used += 1
            self._mark()

    def make(self, name: str, count: int = 1) -> None:
        self.made += [name] * count

    def _mark(self) -> None:
        self.markers += [len(self.made) for gap in self.below.markers if gap == self.used]

    def _items(self, items: Iterable[Item]) -> None:
        for item in items:
            self._item(item)

    def _item(self, item: Item) -> None:
        match item:
            case Sts():
                for _ in range(item.count):
                    self._stitch(item.name)
            case Each():
                for _ in range(self._until(item)):
                    self._stitch(item.name)
            case Inc():
                for _ in range(item.count):
                    self.made.append(self.base)
                    self.take()
                    self.made.append(self.base)
                    self._between_two_inc()
            case Group():
                self._group(item)
            case Skip():
                self.elsewhere = 0
                self.skipped += range(self.used + 1, self.used + item.count + 1)
                self.take(item.count)
            case Chains():
                self.make("ch", item.count)
            case At():
                self._at(item)
            case Back():
                if len(self.skipped) < item.count:
                    raise CannotWorkError(
                        self.where, f"{item.count} sts are to be skipped ones, {len(self.skipped)} are"
                    )
                del self.skipped[: item.count]
                self.elsewhere += item.count if self.elsewhere else 0
                self.make(item.name, item.count)
            case Leave():
                self._left(item, self.elsewhere, self.elsewhere)
            case Over():
                self._over(item)
            case Into():
                self._into(item)

    def _between_two_inc(self) -> None:
        """A marker hangs between the two increases made at it, not within the first of them."""
        if self.markers and self.used in self.below.markers:
            self.markers[-1] = len(self.made)

    def _until(self, each: Each) -> int:
        if not each.marker:
            count = len(self.below.stitches) - each.left - self.used
        else:
            ahead = [gap for gap in self.below.markers if gap > self.used]
            if not ahead:
                raise CannotWorkError(self.where, "there is no marker ahead")
            count = ahead[0] - 1 - self.used
        if count < 0:
            raise CannotWorkError(self.where, f"{-count} sts too many are worked before the end of the row")
        return count

    def _group(self, group: Group) -> None:
        if group.times is not None:
            for _ in range(group.times):
                self._items(group.items)
            return
        end = len(self.below.stitches) - group.left
        while self.used < end:
            before = self.used
            self._items(group.items)
            if self.used == before:
                raise CannotWorkError(self.where, "what repeats uses no stitch, and never ends")
        if self.used > end:
            raise CannotWorkError(
                self.where, f"what repeats does not end {group.left} sts before the end of the row"
            )

    def _stitch(self, name: str) -> None:
        kind = self._kind(name)
        if name[:2] in ("FP", "BP"):
            self._told("post")
            self._post(1, self.used + 1, frozenset({"post"}))
        self.take(kind.uses)
        self.make(name or self.base, kind.makes)

    def _at(self, at: At) -> None:
        for _ in range(at.count):
            self._deep(at, self.used + 1)
            if at.surface:
                self.surface.append(self.used)
            else:
                self.elsewhere += at.elsewhere
                self.take(self._kind(at.name).uses)
                self.make(at.name, self._kind(at.name).makes)

    def _deep(self, at: At, place: int) -> None:
        """There has to be something to work into or round, at that place of the row so far below."""
        if at.surface or at.elsewhere:
            self._told("surface" if at.surface else "post" if at.round else "long")
        if at.below > 1 and "below" not in self.notes:
            raise CannotWorkError(self.where, "it is not told which row is 2 rows below")
        if at.below > 1 and not at.round and not self.vocabulary.defines(f"{at.name} {at.below} rows below"):
            raise CannotWorkError(self.where, f"it is not told how {at.name} {at.below} rows below is worked")
        if at.below > len(self.rows) - 1:
            raise CannotWorkError(self.where, f"there is no row {at.below} rows below")
        if at.round:
            self._post(at.below, place, at.round)
        elif place > len(self.rows[-at.below].stitches):
            raise CannotWorkError(self.where, f"{at.below} rows below there is no st {place}")

    def _told(self, kind: str) -> None:
        if kind not in self.notes:
            raise CannotWorkError(
                self.where, f"it is not told which st of the row below stands behind a {kind} st"
            )

    def _post(self, below: int, place: int, what: frozenset[str]) -> None:
        """A post at the place: that of the stitch, or a strand that lies on the surface before it."""
        row = self.rows[-below].seen_from(self.side)
        if place > len(row.stitches):
            raise CannotWorkError(self.where, f"{below} rows below there is no st {place}")
        if len(self.rows) - below == 0:
            raise CannotWorkError(self.where, "a chain has no posts to work round")
        own = row.stitches[place - 1]
        strand = "strand" in what and place - 1 in row.surface
        if not strand and ("post" not in what or own == "ch" or not self._kind(own).post):
            raise CannotWorkError(
                self.where, f"st {place} {below} rows below has no {' or '.join(sorted(what))}"
            )

    def _strands(self, at: At, over: range) -> list[int]:
        """The places of the raised strands that lie before stitches of a crossing."""
        row = self.rows[-at.below].seen_from(self.side) if at.below < len(self.rows) else Made((), self.side)
        places = sorted(gap + 1 for gap in row.surface if gap in over)
        agree(self.where, f"raised strands {at.below} rows below", at.strands, len(places))
        return places

    def _left(self, leave: Leave, elsewhere: int, over: int) -> None:
        agree(self.where, "sts that the crossing leaves unworked", leave.count, elsewhere)
        if leave.other != (leave.count < over):
            raise CannotWorkError(self.where, f"{leave.count} of the {over} sts that cross are left unworked")

    def _over(self, over: Over) -> None:
        free, start = set(range(1, over.count + 1)), self.used
        gone_round: list[int] = []
        elsewhere = 0
        for item, places in over.items:
            if isinstance(item, Chains):
                self.make("ch", item.count)
                continue
            if isinstance(item, Leave):
                self._left(item, elsewhere, over.count)
                continue
            if isinstance(item, At):
                found = [start + place for place in places]
                if item.strands:
                    strands = self._strands(item, range(start, start + over.count))
                    if max(places) > len(strands):
                        raise CannotWorkError(self.where, f"there is no strand {max(places)}")
                    found = [strands[place - 1] for place in places]
                    gone_round += found
                for place in found:
                    self._deep(item, place)
                if item.surface:
                    self.surface += [start + over.count - len(free)] * len(places)
                    continue
                elsewhere += len(places) if item.elsewhere else 0
                self.make(item.name, len(places))
            if not free.issuperset(places):
                raise CannotWorkError(self.where, f"{places} of {over.count} sts are worked twice")
            free -= set(places)
        if free:
            raise CannotWorkError(
                self.where, f"of the {over.count} sts that cross, {sorted(free)} are left out"
            )
        if len(set(gone_round)) < len(gone_round):
            raise CannotWorkError(self.where, "a raised strand has two sts round it")
        self.take(over.count)

    def _into(self, into: Into) -> None:
        if into.chains:
            space = self.below.stitches[self.used : self.used + into.chains]
            if space != ("ch",) * into.chains:
                raise CannotWorkError(self.where, f"there is no ch-{into.chains} sp at st {self.used + 1}")
            self.take(into.chains)
        elif into.place == "next":
            self.take()
        for item in into.items:
            if isinstance(item, Chains):
                self.make("ch", item.count)
            elif isinstance(item, Sts):
                self.make(item.name, item.count * self._kind(item.name).makes)
            else:
                raise CannotWorkError(self.where, f"{item} cannot be worked in one place")

    def _kind(self, name: str) -> Kind:
        kind = self.vocabulary.kind(name) if name else Kind()
        if kind is None:
            raise CannotWorkError(self.where, f"the abbreviations do not explain {name!r}")
        return kind
