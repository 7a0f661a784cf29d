"""What is wrong with a chart, and the words for it."""

from __future__ import annotations

from dataclasses import dataclass

from schematics.crochet.charts.chart import ChartRow, ChartSection

NO_STITCH_LEFT = "the row leaves no stitch for the row above"


@dataclass(frozen=True, slots=True, kw_only=True)
class ChartFault:
    """What is wrong with a chart, with one section, or with its row of that ``index`` from nought.

    ``column`` is where in the row's text, counted from 1, if it is at one place.
    """

    sentence: str
    section: ChartSection | None = None
    index: int | None = None
    column: int | None = None


class ChartFaultError(ValueError):
    """A chart that cannot be worked."""

    def __init__(self, fault: ChartFault) -> None:
        self.fault = fault
        super().__init__(fault.sentence)


class UnevenRowError(ChartFaultError):
    """A row that does not use as many stitches as the one below offers."""


def uneven_words(row: ChartRow, offered: int) -> str:
    """Why a row does not come out even on so many stitches."""
    once, across = row.once.uses, row.across.uses
    over = f"the row below has {count_words(offered)}"
    if across == 0:
        return f"the row uses {count_words(once)}, but {over}; expected {count_words(offered)}"
    left = offered - once
    if left < 0:
        used = f"the row uses {count_words(once)} besides those worked across"
        return f"{used}, but {over}; expected at most {offered}"
    return (
        f"{over}, of which {count_words(left)} {'is' if left == 1 else 'are'} left for what is worked "
        f"across, {across} at a time; expected a number that {across} goes into"
    )


def with_article(words: str) -> str:
    """``a half double crochet``, ``an extended double crochet``."""
    return f"{'an' if words[0].lower() in 'aeiou' else 'a'} {words}"


def count_words(count: int, noun: str = "stitch") -> str:
    """``1 stitch`` or ``3 stitches``."""
    plural = f"{noun}es" if noun.endswith("h") else f"{noun}s"
    return f"{count} {noun if count == 1 else plural}"
