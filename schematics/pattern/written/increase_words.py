"""An increase row in all sizes at once: stitches, increases and brackets, each number a size string."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from schematics.crochet.increase_spacing import EvenSpread
from schematics.document.chart_words.in_sizes import in_sizes
from schematics.document.chart_words.stitch_words import times_words
from schematics.pattern.written.plain_rows import INC, PlainRows


@dataclass(frozen=True, slots=True)
class Plain:
    """So many stitches without an increase."""

    stitches: int


@dataclass(frozen=True, slots=True)
class IncreaseStep:
    """One increase."""


@dataclass(frozen=True, slots=True)
class Bracket:
    """So many stitches and an increase, so many times."""

    stitches: int
    times: int


Token = Plain | IncreaseStep | Bracket
Tokens = tuple[Token, ...]


def bracketed(spread: EvenSpread) -> Tokens:
    """A row whose increases begin with a bracket: ``2 hdc, [4 hdc, inc] 9 times, 2 hdc``."""
    before, *inside, after = spread.plain
    stitches = inside[0] if inside else before
    return Plain(before - stitches), Bracket(stitches, spread.increases), Plain(after)


def begun_with_increase(spread: EvenSpread) -> Tokens:
    """A row with an increase before its brackets: ``2 hdc, inc, [4 hdc, inc] 8 times, 3 hdc``."""
    before, *inside, after = spread.plain
    return Plain(before), IncreaseStep(), Bracket(inside[0] if inside else 0, len(inside)), Plain(after)


def spread_evenly(spread: EvenSpread) -> Tokens:
    """A row in which brackets in the middle have a stitch more than the others."""
    before, *inside, after = spread.plain
    short = min(inside)
    longer = sum(each > short for each in inside)
    ahead = next(at for at, each in enumerate(inside) if each > short)
    return (
        Plain(before),
        IncreaseStep(),
        Bracket(short, ahead),
        Bracket(short + 1, longer),
        Bracket(short, len(inside) - ahead - longer),
        Plain(after),
    )


def tokens_of(spread: EvenSpread, turn: int) -> Tokens:
    """The increase row of that turn, from 0 on; where all brackets are alike, every other begins with one."""
    before, *inside, _ = spread.plain
    if len(set(inside)) > 1:
        return spread_evenly(spread)
    whole = turn % 2 == 0 and (not inside or before >= inside[0])
    return bracketed(spread) if whole else begun_with_increase(spread)


def shape(tokens: Tokens) -> tuple[type[Token], ...]:
    """What has to be the same in sizes that share one line."""
    return tuple(type(each) for each in tokens)


def in_words(sizes: Sequence[Tokens], rows: PlainRows, *, keep_brackets: bool = False) -> str:
    """The row in sizes of one `shape`, without its turning chain; what no size has is left out.

    ``keep_brackets``: also of what is worked once, for rows that are described by how the brackets grow.
    """
    if not keep_brackets:
        sizes = _merged(sizes)
    return ", ".join(
        word for tokens in zip(*sizes, strict=True) for word in _words(tokens, rows, keep_brackets)
    )


def _merged(sizes: Sequence[Tokens]) -> Sequence[Tokens]:
    """A first increase that is as those in the bracket after it becomes one of them, if so in all sizes."""
    for at in range(len(sizes[0]) - 2):
        parts = [tokens[at : at + 3] for tokens in sizes]
        merged = [_one_bracket(each) for each in parts]
        if None not in merged:
            return [
                (*tokens[:at], bracket, *tokens[at + 3 :])
                for tokens, bracket in zip(sizes, merged, strict=True)
                if bracket is not None
            ]
    return sizes


def _one_bracket(tokens: Tokens) -> Bracket | None:
    match tokens:
        case Plain(before), IncreaseStep(), Bracket(stitches, times) if before == stitches and times:
            return Bracket(stitches, times + 1)
    return None


def _words(tokens: Sequence[Token], rows: PlainRows, keep_brackets: bool) -> Iterator[str]:
    stitches = [each.stitches for each in tokens if not isinstance(each, IncreaseStep)]
    times = [each.times for each in tokens if isinstance(each, Bracket)]
    plain = rows.counted(in_sizes(stitches)) if any(stitches) else ""
    if times and (keep_brackets or set(times) != {1}):
        if plain and any(times):
            yield f"[{plain}, {INC}] {times_in_sizes(times)}"
        elif any(times):
            yield f"{INC} in each of next {in_sizes(times)} sts"
        return
    if plain:
        yield plain
    if not stitches or times:
        yield INC


def times_in_sizes(times: Sequence[int]) -> str:
    """``twice``, ``3 times``, ``2 (3, 3) times``."""
    words = in_sizes(times)
    return times_words(int(words) if words.isdecimal() else words)
