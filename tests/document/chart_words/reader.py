"""Reads printed rows as a maker of one size does and works them: an account of stitches used and made.

Knows nothing of the program's charts: what a stitch uses and makes is told by its name alone.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field

_SIZE_STRING = re.compile(r"(\d+) \((\d+(?:, \d+)*)\)")
_ROW = re.compile(
    r"(?:Sizes? (?P<only>.+?) only, row|Row) (?P<number>\d+) \((?P<side>RS|WS)\)(?:, chart row \d+)?: "
    r"(?P<work>.+)\. "
    r"\[(?P<count>\d+) sts?\]"
)
_AGAIN = re.compile(
    r"Rep Rows? (?P<first>\d+)(?:-(?P<last>\d+))? (?P<times>\d+) times? more(?P<changes>.*)\. "
    r"\[(?P<count>\d+) sts?\]"
)
_END = r"(?P<end>to end|to last (?:st|\d+ sts))"
_EACH = re.compile(rf"(?P<name>.+) (?:in each st(?: and ch)?|round each post) {_END}")
_NUMBER_OF_TIMES = {"once": 1, "twice": 2}
_LEAVING = r"leaving the (?:other )?(?:(\d+) sts|st) of the row below unworked"
_ORDINAL = re.compile(r"(\d+)(?:st|nd|rd|th)\b")


@dataclass(slots=True)
class RowInHand:
    """One row in hand: stitches of the row below that are left, and stitches made."""

    left: int
    made: int = 0
    surface: frozenset[str] = frozenset()
    """The stitches that are worked on the surface wherever they are."""

    def use(self, uses: int, makes: int) -> None:
        assert uses <= self.left, "more stitches are used than there are"
        self.left -= uses
        self.made += makes

    def row(self, text: str) -> None:
        """A whole row: nothing is left over."""
        self.work(text)
        assert self.left == 0, f"{self.left} stitches are left over: {text}"

    def work(self, text: str) -> None:
        """Items with commas between them."""
        for item in _items(text):
            self._item(item)

    def _over_and_over(self, inside: str, over: int) -> None:
        """Up to so many stitches from the end."""
        assert self.left > over, "nothing is left to repeat on"
        while self.left > over:
            before = self.left
            self.work(inside)
            assert self.left < before, "the repeat uses nothing"
        assert self.left == over, "the repeat ends in the middle"

    def _item(self, item: str) -> None:
        if re.fullmatch(r"with [A-Z]", item):
            return
        if each := _EACH.fullmatch(item):
            while self.left > _left_over(each["end"]):
                self.use(*_stitch(each["name"]))
            assert self.left == _left_over(each["end"])
        elif self._on_surface(item) or re.fullmatch(_LEAVING, item):
            pass
        elif repeat := re.fullmatch(rf"\[(.+)\] {_END}", item):
            self._over_and_over(repeat[1], _left_over(repeat["end"]))
        elif group := re.fullmatch(r"\[(.+)\] (?:(once|twice)|(\d+) times)", item):
            for _ in range(int(group[3]) if group[3] else _NUMBER_OF_TIMES[group[2]]):
                self.work(group[1])
        elif over := re.fullmatch(r"over next (?:(\d+) sts|st) \((.+)\)", item):
            self._crossing(int(over[1] or 1), over[2])
        elif into := re.fullmatch(r"(.+) in (next st|same st|next ch-(\d+) sp)", item):
            inside = RowInHand(left=10_000)
            inside.work(into[1].removeprefix("(").removesuffix(")") if into[1].startswith("(") else into[1])
            uses = int(into[3]) if into[3] else 1 if into[2] == "next st" else 0
            self.use(uses, inside.made)
        elif back := re.fullmatch(
            r"working (?:in front of|behind) (?:this|these) (.+) (?:round|in) (?:each of )?the (?:(\d+) )?"
            r"(?:skipped|missed).*",
            item,
        ):
            self.use(0, int(back[2] or 1) * _stitch(back[1])[1])
        elif many := re.fullmatch(
            r"(.+?) (?:in|round) (?:free (?:front|back) loop of )?(?:next|each of (?:the )?next (\d+)) "
            r"(?:post or raised strand|raised strand|post|st)s?(?: (?:\d+ rows below|of the row below))?",
            item,
        ):
            uses, makes = _stitch(many[1])
            count = int(many[2] or 1)
            self.use(uses * count, makes * count)
        else:
            self.use(*_plain(item))

    def _on_surface(self, item: str) -> bool:
        name = re.sub(r"^working (?:in front of|behind) (?:this|these) ", "", item).split()[0]
        return item.endswith("(on the surface)") or name in self.surface

    def _crossing(self, size: int, text: str) -> None:
        """Every stitch of those that are crossed is named once, unless strands are named in its place."""
        named: list[int] = []
        made = left = strands = told = 0
        for item in _items(text):
            if chain := re.fullmatch(r"ch (\d+)", item):
                made += int(chain[1])
            elif leaving := re.fullmatch(_LEAVING, item):
                told = int(leaving[1] or 1)
            elif not self._on_surface(item):
                where = re.sub(r" of the \d+ raised.*", " raised strand", item)
                places = _places(where) or [1]
                if where.endswith("strand") or "the raised strand" in where:
                    strands += len(places)
                else:
                    named += places
                left += len(places) if re.search(r"rows below|the posts?\b|strand", item) else 0
                name = re.sub(r"^working (in front of|behind) (this|these) ", "", item)
                if not re.match(r"skip|miss", name):
                    made += len(places) * _stitch(re.split(r" (?:round|in) (?:the |\d)", name)[0])[1]
        assert len(set(named)) == len(named) == size - strands, "a stitch is not named, or twice"
        assert set(named) <= set(range(1, size + 1))
        assert told == left, "stitches left unworked are told wrongly"
        self.use(size, made)


def _places(item: str) -> list[int]:
    """``1st``, ``3rd and 4th``, ``5th to 7th``."""
    numbers = [int(each) for each in _ORDINAL.findall(item)]
    if " to " not in item:
        return numbers
    step = 1 if numbers[1] > numbers[0] else -1
    return list(range(numbers[0], numbers[1] + step, step))


def _left_over(end: str) -> int:
    if end == "to end":
        return 0
    return int(number[0]) if (number := re.search(r"\d+", end)) else 1


def _items(text: str) -> list[str]:
    """The text between commas that stand in no brackets."""
    items, depth, start = [], 0, 0
    for at, sign in enumerate(text):
        depth += (sign in "([") - (sign in ")]")
        if sign == "," and depth == 0:
            items.append(text[start:at].strip())
            start = at + 1
    return [each for each in (*items, text[start:].strip()) if each]


def _plain(item: str) -> tuple[int, int]:
    """``3 sc``, ``ch 2``, ``skip next st``, ``5-dc pc``."""
    if skipped := re.fullmatch(r"(?:skip|miss) (?:next (?:st|post)|(\d+) (?:st|post)s)", item):
        return int(skipped[1] or 1), 0
    if chain := re.fullmatch(r"ch (\d+)", item):
        return 0, int(chain[1])
    count, name = 1, item
    if counted := re.fullmatch(r"(\d+) (.+)", item):
        count, name = int(counted[1]), counted[2]
    uses, makes = _stitch(name)
    return uses * count, makes * count


_ONE = r"(?:FP|BP)?(?:e|ex)?(?:sl st|ss|sc|hdc|htr|dc|tr|dtr|trtr|quadtr)"


def _stitch(name: str) -> tuple[int, int]:
    """What one stitch of that name uses and makes."""
    name = re.sub(r" (blo|flo|in 3rd loop)$", "", name)
    if together := re.fullmatch(r"(?:sc|hdc|htr|dc|tr|dtr)(\d)tog", name):
        return int(together[1]), 1
    if fan := re.fullmatch(r"(\d)-\w+ sh", name):
        return 1, int(fan[1])
    known = {"sh": (1, 5), "V-st": (1, 3), "picot": (0, 0)}
    if name in known:
        return known[name]
    assert re.fullmatch(rf"{_ONE}|pc|bo|cl|puff|\d-\w+ (?:pc|bo|cl)|\d-loop puff", name), name
    return 1, 1


def on_surface(notes: Sequence[str]) -> frozenset[str]:
    """The stitches that the notes of a piece say are worked on the surface."""
    told = [match[1] for note in notes if (match := re.match(r"Work every (.+?) on the surface of", note))]
    return frozenset(name for names in told for name in re.split(r", | and ", names))


def of_size(text: str, index: int) -> str:
    """The text as one size has it: its number out of each size string."""
    return _SIZE_STRING.sub(lambda match: [match[1], *match[2].split(", ")][index], text)


@dataclass(slots=True)
class Maker:
    """Works the printed lines of a piece in one size, and checks every count that is printed."""

    size: str
    names: Sequence[str]
    stitches: int
    surface: frozenset[str] = frozenset()
    rows: int = 0
    _works: dict[int, str] = field(default_factory=dict)

    def follow(self, lines: Sequence[str]) -> None:
        for line in lines:
            self._line(line)

    def _line(self, line: str) -> None:
        worked = list(self.names)
        if only := re.match(r"Sizes? (.+?) only", line):
            worked = re.split(r", | and ", only[1])
        if self.size not in worked:
            return
        index = worked.index(self.size)
        sides = re.sub(
            r"\((RS|WS) \(((?:RS|WS)(?:, (?:RS|WS))*)\)\)",
            lambda m: f"({[m[1], *m[2].split(', ')][index]})",
            line,
        )
        text = of_size(sides, index)
        if row := _ROW.fullmatch(text):
            self._works[int(row["number"])] = row["work"]
            self._row(row["work"])
            assert self.rows == int(row["number"]), text
        else:
            again = _AGAIN.fullmatch(text)
            assert again, text
            numbers = range(int(again["first"]), int(again["last"] or again["first"]) + 1)
            row = again
            for _ in range(int(again["times"])):
                before = self.stitches
                for number in numbers:
                    self._row(self._works[number])
                change = re.search(r"with (\d+) sts? (more|fewer) each time", again["changes"])
                expected = int(change[1]) * (1 if change[2] == "more" else -1) if change else 0
                assert self.stitches - before == expected
        assert self.stitches == int(row["count"]), (text, self.stitches)

    def _row(self, work: str) -> None:
        row_in_hand = RowInHand(left=self.stitches, surface=self.surface)
        row_in_hand.row(work.removesuffix("; turn"))
        self.stitches = row_in_hand.made
        self.rows += 1
