"""A stitch chart: the rows of a fabric's set-up, repeat and closing.

A row is written in working order, as a maker reads it: ``hdc, (2 FPdc, 2 hdc) across, hdc``. What is marked
*across* is worked as often as it fits between the rest; a row without it is worked once as it stands.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from enum import StrEnum

from schematics.crochet.stitches import Loop, Stitch


class ChartSection(StrEnum):
    """The parts of a chart, bottom to top; the value is the key in a spec."""

    SETUP = "setup"
    REPEAT = "repeat"
    CLOSING = "closing"

    @property
    def words(self) -> str:
        """The section's name as printed."""
        return "set-up" if self is ChartSection.SETUP else self.value


class Side(StrEnum):
    """The side of the fabric that faces the maker."""

    RIGHT = "RS"
    WRONG = "WS"

    @property
    def words(self) -> str:
        """The abbreviation in full."""
        return f"{self.name.lower()} side"

    @property
    def other(self) -> Side:
        """The side that faces after a turn."""
        return Side.WRONG if self is Side.RIGHT else Side.RIGHT


class Passing(StrEnum):
    """On which side a stitch of a crossing passes those worked before it."""

    FRONT = "in front"
    BEHIND = "behind"


@dataclass(frozen=True, slots=True, kw_only=True)
class Worked:
    """A stitch as it is worked.

    ``loop`` None is both loops. ``rows_below`` is how far down the stitch stands that it goes into or
    round: 1 is the row below. One on the ``surface`` lies on the fabric: it uses and makes nothing, and the
    next row passes over it. ``colour`` is the letter of its yarn.
    """

    stitch: Stitch
    loop: Loop | None = None
    rows_below: int = 1
    surface: bool = False
    colour: str = ""

    @property
    def uses(self) -> int:
        """Stitches it uses of the row below."""
        return 0 if self.surface else self.stitch.uses

    @property
    def makes(self) -> int:
        """Stitches it leaves for the row above."""
        return 0 if self.surface else self.stitch.makes

    @property
    def abbreviation(self) -> str:
        """The trade's abbreviation and where it is worked, without its colour."""
        parts = [
            "surface" if self.surface else "",
            self.stitch.abbreviation,
            self.loop or "",
            f"{self.rows_below} rows below" if self.rows_below > 1 else "",
        ]
        return " ".join(part for part in parts if part)

    @property
    def free_loop(self) -> str:
        """``free front loop``: what one worked in a row further down goes into; empty where it is another."""
        single = self.rows_below > 1 and self.loop in (Loop.BACK, Loop.FRONT)
        return f"free {self.loop.name.lower()} loop" if single and self.loop else ""

    @property
    def name(self) -> str:
        """What a pattern calls it: the trade's abbreviation, and how far down it is worked."""
        loop = None if self.free_loop else self.loop
        below = f"{self.rows_below} rows below" if self.rows_below > 1 else ""
        return " ".join(filter(None, (self.stitch.abbreviation, loop, below)))

    @property
    def words(self) -> str:
        """What a pattern calls it in full: the stitch's name, loop, and how far down it is worked."""
        below = f"{self.rows_below} rows below" if self.rows_below > 1 else ""
        if self.free_loop:
            below = f"in the {self.free_loop} of the stitch {below}"
        elif self.loop:
            below = ", ".join(filter(None, (self.loop.words, below)))
        parts = [self.stitch.words, below, "on the surface" if self.surface else ""]
        return ", ".join(filter(None, parts))


@dataclass(frozen=True, slots=True, kw_only=True)
class StitchRun:
    """The same stitch ``count`` times.

    In a crossing ``places`` are the stitches it is worked into, counted from 1 at the crossing's first, and
    ``passing`` the side of the stitches worked before on which it lies. ``column`` is where it is written,
    from 1.
    """

    worked: Worked
    count: int = 1
    places: tuple[int, ...] = ()
    passing: Passing | None = None
    column: int = field(default=1, compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class StitchGroup:
    """Items worked ``times`` times over."""

    items: tuple[Item, ...]
    times: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Crossing:
    """Stitches worked in another order than those stand that they go into, which its brackets count."""

    items: tuple[Item, ...]
    column: int = field(default=1, compare=False)


class Into(StrEnum):
    """Where several stitches are worked together; the value is how a row says it."""

    STITCH = "in next st"
    SAME = "in same st"
    SPACE = "in ch sp"


@dataclass(frozen=True, slots=True, kw_only=True)
class SeveralInOne:
    """Stitches all worked into one stitch, or into the space under ``chains`` chains."""

    items: tuple[Item, ...]
    into: Into
    chains: int = 0
    column: int = field(default=1, compare=False)

    @property
    def uses(self) -> int:
        """Stitches of the row below that it is worked into or passes over."""
        return {Into.STITCH: 1, Into.SAME: 0, Into.SPACE: self.chains}[self.into]


Item = StitchRun | StitchGroup | Crossing | SeveralInOne


@dataclass(frozen=True, slots=True)
class Tally:
    """Stitches used of the row below, and stitches made for the row above."""

    uses: int = 0
    makes: int = 0

    def __add__(self, other: Tally) -> Tally:
        return Tally(self.uses + other.uses, self.makes + other.makes)

    def __mul__(self, times: int) -> Tally:
        return Tally(self.uses * times, self.makes * times)


def tally(items: Iterable[Item]) -> Tally:
    """What the items use and make."""
    total = Tally()
    for item in items:
        match item:
            case StitchRun():
                total += Tally(item.worked.uses, item.worked.makes) * item.count
            case StitchGroup():
                total += tally(item.items) * item.times
            case Crossing():
                total += tally(item.items)
            case SeveralInOne():
                total += Tally(item.uses, tally(item.items).makes)
    return total


def runs(items: Iterable[Item]) -> Iterator[StitchRun]:
    """Every run of the items once, as written."""
    for item in items:
        if isinstance(item, StitchRun):
            yield item
        else:
            yield from runs(item.items)


@dataclass(frozen=True, slots=True, kw_only=True)
class RowPart:
    """Items worked once, or as often as they fit: ``across``. They are written at ``column``, from 1."""

    items: tuple[Item, ...]
    across: bool = False
    column: int = field(default=1, compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class ChartRow:
    """A row in working order. Of several parts worked across, each is worked as often as the others."""

    parts: tuple[RowPart, ...]

    def __str__(self) -> str:
        return _row_text(self.parts)

    @property
    def column(self) -> int | None:
        """The column of the text at which a row of one part is written, from 1; None if it has several."""
        return self.parts[0].column if len(self.parts) == 1 else None

    @property
    def once(self) -> Tally:
        """What is used and made besides the stitches worked across."""
        return tally(item for part in self.parts if not part.across for item in part.items)

    @property
    def across(self) -> Tally:
        """What all that is worked across uses and makes when it is worked one time."""
        return tally(item for part in self.parts if part.across for item in part.items)

    def runs(self) -> Iterator[StitchRun]:
        """Every run of stitches once, as written."""
        return runs(item for part in self.parts for item in part.items)

    def times(self, width: int) -> int:
        """How often what is worked across is worked on a row below of ``width`` stitches; 0 where nothing is.

        Raises:
            ValueError: the row does not come out even on so many stitches.
        """
        left, each = width - self.once.uses, self.across.uses
        if left < 0 or (left if each == 0 else left % each):
            raise ValueError(f"'{self}' does not fit {width} stitches")
        return left // each if each else 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Chart:
    """The rows of a fabric, bottom to top.

    ``first_side`` faces the maker in row 1. ``adds`` is how many stitches more each section leaves than it
    found, the repeat each time it is worked: a panel that tapers loses some. ``colours`` has the words for
    each letter; ``carried`` says whether a yarn that rests is carried along or cut.
    """

    repeat: tuple[ChartRow, ...]
    setup: tuple[ChartRow, ...] = ()
    closing: tuple[ChartRow, ...] = ()
    first_side: Side = Side.RIGHT
    adds: tuple[int, int, int] = (0, 0, 0)
    colours: tuple[tuple[str, str], ...] = ()
    carried: bool = True

    @property
    def rows(self) -> tuple[ChartRow, ...]:
        """All rows, each section once; row 1 first."""
        return (*self.setup, *self.repeat, *self.closing)

    def sections(self) -> Iterator[tuple[ChartSection, range]]:
        """The sections that have rows, with their row numbers."""
        first = 1
        for section, rows in zip(ChartSection, (self.setup, self.repeat, self.closing), strict=True):
            if rows:
                yield section, range(first, first + len(rows))
            first += len(rows)

    def used(self) -> tuple[Worked, ...]:
        """Every stitch of the chart once, as first met."""
        return tuple(dict.fromkeys(run.worked for row in self.rows for run in row.runs()))

    def side(self, number: int) -> Side:
        """The side that faces in the row of that number, where the piece is turned after each row."""
        return self.first_side if number % 2 else self.first_side.other

    def top(self, stitches: int, repeats: int) -> int:
        """The stitches left at the top of a piece of so many ``stitches`` at its foot."""
        setup, repeat, closing = self.adds
        return stitches + setup + repeat * repeats + closing


def _row_text(parts: Iterable[RowPart]) -> str:
    texts: list[str] = []
    colour = ""
    for part in parts:
        written, colour = _texts(part.items, colour, bracket=part.across)
        texts += written
    return ", ".join(texts)


def _texts(items: tuple[Item, ...], colour: str | None, *, bracket: bool = False) -> tuple[list[str], str]:
    """Items as written after ``colour`` (None: unknown), with each change of it; and the last colour.

    ``bracket``: they are worked across, in brackets unless they are one stitch.
    """
    shades = list(dict.fromkeys(run.worked.colour for run in runs(items)))
    last = [run.worked.colour for run in runs(items)][-1]
    if bracket:
        before = _change(shades[0], colour) if len(shades) == 1 else []
        inside, _ = _texts(items, shades[0] if len(shades) == 1 else None)
        alone = (
            len(items) == 1 and not isinstance(items[0], StitchGroup) and getattr(items[0], "count", 1) == 1
        )
        written = ", ".join(inside)
        return [*before, f"{written} across" if alone else f"({written}) across"], last
    texts: list[str] = []
    for item in items:
        within = (item,) if isinstance(item, StitchRun) else item.items
        own = list(dict.fromkeys(run.worked.colour for run in runs(within)))
        if len(own) == 1:
            texts += _change(own[0], colour)
        texts.append(_item_text(item, own[0] if len(own) == 1 else None))
        colour = [run.worked.colour for run in runs(within)][-1]
    return texts, last


def _change(colour: str, before: str | None) -> list[str]:
    return [f"with {colour}"] if colour and colour != before else []


def _item_text(item: Item, colour: str | None) -> str:
    if isinstance(item, StitchRun):
        return _run_text(item)
    texts, _ = _texts(item.items, colour)
    inside = ", ".join(texts)
    match item:
        case StitchGroup():
            return f"({inside}) x {item.times}"
        case Crossing():
            return f"({inside})"
        case SeveralInOne():
            where = f"in ch-{item.chains} sp" if item.into is Into.SPACE else item.into.value
            one = len(item.items) == 1 and isinstance(item.items[0], StitchRun)
            return f"{inside if one else f'({inside})'} {where}"


def _run_text(run: StitchRun) -> str:
    name = run.worked.abbreviation
    if run.worked.stitch.abbreviation in ("ch", "sk"):
        return f"{name} {run.count}" if run.count > 1 else name
    parts = [str(run.count) if run.count > 1 else "", name]
    if run.places:
        target = "round post" if run.worked.stitch.post else "in st"
        first, last = run.places[0], run.places[-1]
        several = f"s {first} {'and' if len(run.places) == 2 else 'to'} {last}"
        parts.append(f"{target} {first}" if len(run.places) == 1 else f"{target}{several}")
    return " ".join(part for part in (*parts, run.passing or "") if part)
