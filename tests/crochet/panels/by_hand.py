"""Rows worked as a maker does, stitch after stitch, knowing nothing of how the program reads or counts them.

A row becomes a list of plain tokens, each a stitch; those of the row below are taken up one after the other.
What a stitch goes round or into is found by walking from stitch to stitch, not by columns.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace

US_OF_UK = {
    "ss": "sl st", "dc": "sc", "htr": "hdc", "tr": "dc", "dtr": "tr", "trtr": "dtr", "miss": "sk",
    "FPtr": "FPdc", "BPtr": "BPdc", "FPdtr": "FPtr", "BPdtr": "BPtr", "FPhtr": "FPhdc", "dc2tog": "sc2tog",
    "tr2tog": "dc2tog", "5-tr pc": "5-dc pc", "5-tr bo": "5-dc bo",
}  # fmt: skip
"""UK names of the panels below and the US ones (the Craft Yarn Council's table of terms, from memory)."""

USES_AND_MAKES = {
    "ch": (0, 1), "sk": (1, 0), "picot": (0, 0), "sl st": (1, 1), "sc": (1, 1), "hdc": (1, 1), "dc": (1, 1),
    "tr": (1, 1), "dtr": (1, 1), "trtr": (1, 1), "esc": (1, 1), "ehdc": (1, 1), "edc": (1, 1),
    "FPsc": (1, 1), "BPsc": (1, 1), "FPhdc": (1, 1), "BPhdc": (1, 1), "FPdc": (1, 1), "BPdc": (1, 1),
    "FPtr": (1, 1), "BPtr": (1, 1), "FPdtr": (1, 1), "BPdtr": (1, 1),
    "cl": (1, 1), "bo": (1, 1), "pc": (1, 1), "puff": (1, 1), "sh": (1, 5), "V-st": (1, 3),
    "sc2tog": (2, 1), "hdc2tog": (2, 1), "dc2tog": (2, 1), "sc3tog": (3, 1), "dc3tog": (3, 1),
    "FPdc2tog": (2, 1), "BPtr3tog": (3, 1),
    "5-dc pc": (1, 1), "4-dc pc": (1, 1), "5-dc bo": (1, 1), "4-tr bo": (1, 1), "3-dc cl": (1, 1),
    "2-hdc cl": (1, 1), "3-loop puff": (1, 1), "5-loop puff": (1, 1), "7-dc sh": (1, 7), "3-dc sh": (1, 3),
}  # fmt: skip
"""Typed from what the stitches are: how many stitches each takes up, and how many the next row finds."""


@dataclass(frozen=True, kw_only=True)
class Token:
    """One stitch of a row, written out."""

    name: str
    uses: int
    makes: int
    depth: int = 1
    surface: bool = False
    loop: str = ""
    place: int | None = None
    begins: int | None = None
    """The number of stitches of the crossing that begins with this one."""
    shares: str = ""
    """``next``: the first of several in one; ``on``: the others; ``same``; ``space 2``: the first there."""


@dataclass(eq=False)
class Made:
    """A stitch of the fabric, and what it stands on; its row from nought, -1 for the foundation chain.

    ``column`` is counted from nought at the left, the right side facing.
    """

    token: Token
    on: list[Made] = field(default_factory=list)
    row: int = -1
    column: int = -1


@dataclass(eq=False)
class Step:
    """A token as it was worked: into which stitches of the row below, round or into which further down."""

    token: Token
    into: list[Made]
    round: Made | None


@dataclass(eq=False)
class Row:
    """A row as it was worked; ``right``: with the right side facing."""

    steps: list[Step]
    made: list[Made]
    right: bool


def tokens(text: str, width: int, own: Mapping[str, tuple[int, int]], *, uk: bool = False) -> list[Token]:
    """The row written out on so many stitches: what is across is tried more and more often until it fits."""
    table = USES_AND_MAKES | dict(own)
    parts = [(part.endswith("across"), _part(part, table, uk=uk)) for part in _split(text)]
    once, across = (
        sum(token.uses for each, row in parts if each is repeated for token in row)
        for repeated in (False, True)
    )
    times, used = 0, once
    while across and used < width:
        times, used = times + 1, used + across
    if used == width:
        return [token for each, row in parts for token in row * (times if each else 1)]
    message = f"{text} does not fit {width}"
    raise ValueError(message)


def _split(text: str) -> list[str]:
    parts, depth = [""], 0
    for sign in text:
        depth += (sign == "(") - (sign == ")")
        if sign == "," and depth == 0:
            parts.append("")
        else:
            parts[-1] += sign
    return [part.strip() for part in parts]


def _part(text: str, table: Mapping[str, tuple[int, int]], *, uk: bool) -> list[Token]:
    text = text.removesuffix("across").strip()
    if re.fullmatch("with [A-Z]", text):
        return []
    if text.startswith("("):
        end = _closing(text)
        inside = [token for part in _split(text[1:end]) for token in _part(part, table, uk=uk)]
        after = text[end + 1 :].strip()
        if times := re.match(r"x (\d+)", after):
            return _crossed(inside) * int(times[1])
        return _shared(inside, after) if after else _crossed(inside)
    where = re.search(r" in (next st|same st|ch-\d+ sp|ch sp)$", text)
    run = _run(text[: where.start()] if where else text, table, uk=uk)
    return _shared(run, where[0].strip()) if where else run


def _closing(text: str) -> int:
    depth = 0
    for place, sign in enumerate(text):
        depth += (sign == "(") - (sign == ")")
        if depth == 0:
            return place
    raise ValueError(text)


def _crossed(inside: list[Token]) -> list[Token]:
    if all(token.place is None for token in inside):
        return inside
    return [replace(inside[0], begins=sum(token.uses for token in inside)), *inside[1:]]


def _shared(inside: list[Token], where: str) -> list[Token]:
    if where == "in same st":
        return [replace(token, uses=0, shares="same") for token in inside]
    size = 1 if where == "in next st" else int((re.search(r"\d+", where) or ["1"])[0])
    first = "next" if where == "in next st" else f"space {size}"
    return [
        replace(token, uses=0 if number else size, shares="on" if number else first)
        for number, token in enumerate(inside)
    ]


def _run(text: str, table: Mapping[str, tuple[int, int]], *, uk: bool) -> list[Token]:
    form = re.fullmatch(
        r"(?:(?P<count>\d+) )?(?P<surface>surface )?(?P<name>.+?)(?: (?P<chains>\d+))?"
        r"(?: (?P<loop>blo|flo|in 3rd loop))?(?: (?P<depth>\d+) rows? below)?"
        r"(?: (?:round posts?|in sts?) (?P<places>\d+(?: (?:and|to) \d+)?))?(?: (?:in front|behind))?",
        text,
    )
    if form is None:
        raise ValueError(text)
    name = US_OF_UK.get(form["name"], form["name"]) if uk else form["name"]
    uses, makes = table[name]
    surface = bool(form["surface"])
    one = Token(
        name=name, uses=0 if surface else uses, makes=0 if surface else makes,
        depth=int(form["depth"] or 1), surface=surface, loop=form["loop"] or "",
    )  # fmt: skip
    count = int(form["count"] or form["chains"] or 1)
    places: Iterable[int | None] = _places(form["places"]) if form["places"] else [None] * count
    return [replace(one, place=place) for place in places]


def _places(text: str) -> list[int]:
    first, *rest = text.split()
    if not rest:
        return [int(first)]
    last = int(rest[1])
    if rest[0] == "and":
        return [int(first), last]
    return list(range(int(first), last + 1)) if last > int(first) else list(range(int(first), last - 1, -1))


def work(rows: Iterable[list[Token]], foundation: int, *, right: bool) -> Iterator[Row]:
    """The rows, each worked back over the one below; ``right``: the right side faces in the first."""
    chain = Token(name="foundation", uses=0, makes=1)
    offered = [Made(token=chain) for _ in range(foundation)]
    _number(offered, -1, right=not right)
    for number, row in enumerate(rows):
        worked = _work_row(row, offered[::-1], right=right)
        _number(worked.made, number, right=right)
        yield worked
        offered, right = worked.made, not right


def _number(made: list[Made], row: int, *, right: bool) -> None:
    for column, stitch in enumerate(made[::-1] if right else made):
        stitch.row, stitch.column = row, column


def _work_row(row: list[Token], offered: list[Made], *, right: bool) -> Row:
    steps: list[Step] = []
    made: list[Made] = []
    taken = begun = 0
    shared: list[Made] = []
    loose: list[Made] = []
    skipped: list[Made] = []
    for token in row:
        if token.begins:
            begun = taken
        into = offered[taken : taken + token.uses]
        taken += token.uses
        if token.name == "sk":
            skipped += into
            continue
        if token.name != "ch":
            _stand(loose, skipped)
        if token.shares in ("same", "on"):
            into = shared
        ahead = into or offered[min(taken, len(offered) - 1) :][:1]
        aimed = ahead[len(ahead) // 2]
        if token.place is not None:
            aimed = offered[begun + token.place - 1]
            if not token.surface and not token.name.startswith(("FP", "BP")):
                into = [aimed]
        if into:
            shared = into
        post = token.name.startswith(("FP", "BP"))
        foot = _down(aimed, token.depth - 1) if post or token.depth > 1 or token.surface else None
        steps.append(Step(token=token, into=into, round=foot))
        made += [Made(token=token, on=into) for _ in range(token.makes)]
        if token.name == "ch" and not token.shares:
            loose.append(made[-1])
    _stand(loose, skipped)
    if taken != len(offered):
        message = f"{len(offered)} stitches are offered and {taken} taken up"
        raise ValueError(message)
    return Row(steps=steps, made=made, right=right)


def _stand(loose: list[Made], skipped: list[Made]) -> None:
    """Chains stand over the stitches they are made in place of."""
    for number, chain in enumerate(loose):
        if skipped:
            chain.on = [skipped[number * len(skipped) // len(loose)]]
    loose.clear()
    skipped.clear()


def _down(stitch: Made, rows: int) -> Made:
    for _ in range(rows):
        stitch = stitch.on[len(stitch.on) // 2]
    return stitch
