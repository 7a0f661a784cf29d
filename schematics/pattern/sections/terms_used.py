"""The abbreviations and signs the figures use, in the terms asked for and in the others.

Source: the Craft Yarn Council's lists, from memory.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from functools import cache

from schematics.checks.wording import sentence_case
from schematics.crochet.charts.chart import Worked
from schematics.crochet.stitch_list import STITCHES
from schematics.crochet.stitches import Loop, Stitch
from schematics.crochet.terms import Terms
from schematics.document.chart_words.unworked import unworked_clause
from schematics.document.document import Section, Table, listed_section
from schematics.pattern.book import Book


def section(book: Book) -> Section:
    """The stitches and terms that are used, and nothing else."""
    other = Terms.UK if book.terms is Terms.US else Terms.US
    return listed_section(
        key="abbreviations",
        heading="Abbreviations",
        sentences=(f"Stitch names are in {book.terms.value} terms, after the Craft Yarn Council's lists.",),
        tables=(
            Table(
                caption="Abbreviations and signs",
                header=("abbreviation", "what it stands for", f"in {other.value} terms"),
                rows=(*_stitch_rows(book, other), *_general_rows(book)),
            ),
            *([special] if (special := _special_table(book)).rows else []),
        ),
    )


def stitches_used(book: Book) -> tuple[Stitch, ...]:
    """Those that are named or charted: of the trade in its order, then the design's own."""
    named = {stitch for stitch in STITCHES if stitch.abbreviation in ("ch", "sl st")}
    for fabric in book.fabrics:
        named |= set(stitches_named(fabric.stitch))
        named |= {worked.stitch for worked in fabric.chart.used()} if fabric.chart else set()
    own = sorted(named - set(STITCHES), key=lambda stitch: stitch.abbreviation)
    return (*(stitch for stitch in STITCHES if stitch in named), *own)


def _special_table(book: Book) -> Table:
    """How the stitches are worked that are not every maker's."""
    used = {worked: None for fabric in book.fabrics if fabric.chart for worked in fabric.chart.used()}
    defined = [
        (book.terms.abbreviation(stitch), _sentence(book.terms.text(stitch.definition),
         [worked for worked in used if worked.stitch == stitch]))
        for stitch in stitches_used(book) if stitch.definition
    ]  # fmt: skip
    return Table(
        caption="Special stitches",
        header=("stitch", "how it is worked"),
        rows=(*defined, *long_stitches(book, book.terms)),
    )


def long_stitches(book: Book, terms: Terms) -> Iterator[tuple[str, str]]:
    """The stitches worked into rows further down, and how they are worked."""
    used = {worked: None for fabric in book.fabrics if fabric.chart for worked in fabric.chart.used()}
    long: dict[tuple[str, str, bool], list[Worked]] = {}
    for worked in used:
        if worked.rows_below > 1 and not worked.stitch.post:
            alike = terms.abbreviation(worked.stitch), worked.free_loop, worked.surface
            long.setdefault(alike, []).append(worked)
    yield from (_long_stitch(name, loop, those) for (name, loop, _), those in long.items())


def _sentence(definition: str, used: Sequence[Worked]) -> str:
    return f"{sentence_case(definition)}{unworked_clause(used)}."


def _long_stitch(name: str, loop: str, used: Sequence[Worked]) -> tuple[str, str]:
    """One that is worked into rows further down (how: common practice, no source)."""
    depths = [str(depth) for depth in sorted({worked.rows_below for worked in used})]
    rows = f"{' or '.join(depths)} rows below"
    place = f"the {loop} of the stitch" if loop else "the stitch"
    definition = f"work {name} into {place} {rows}, its first loop pulled up to the height of the row in hand"
    return f"{name} {rows}", _sentence(definition, used)


def _stitch_rows(book: Book, other: Terms) -> Iterator[tuple[str, str, str]]:
    loops: set[Loop] = set()
    for fabric in book.fabrics:
        loops |= {loop for loop in Loop if re.search(rf"\b({loop}|{loop.name} loop)\b", fabric.stitch, re.I)}
        loops |= {worked.loop for worked in fabric.chart.used() if worked.loop} if fabric.chart else set()
    for stitch in stitches_used(book):
        yield book.terms.abbreviation(stitch), book.terms.words(stitch), _in_terms(stitch, other)
    for loop in Loop:
        if loop in loops:
            yield loop.value, loop.words, loop.value


def _in_terms(stitch: Stitch, terms: Terms) -> str:
    short, words = terms.abbreviation(stitch), terms.words(stitch)
    return short if short == words else f"{short}, {words}"


OVER_AND_OVER = "work what stands in the brackets over and over, up to the last stitch"


def _general_rows(book: Book) -> Iterator[tuple[str, str, str]]:
    yield "st, sts", "stitch, stitches", "st, sts"
    if any(garment.increases is not None for garment in book.garments):
        yield "inc", "increase: work 2 stitches into the next stitch", "inc"
    if any(piece.fabric.chart for piece in book.pieces):
        yield "[ ] to last st", OVER_AND_OVER, "the same"
        yield "RS, WS", "right side, wrong side of the fabric", "RS, WS"
    yield (
        "[ ] × 3, [ ] 3 times",
        "work, or take, what stands in the brackets so many times in all",
        "the same",
    )
    if len(book.names) > 1:
        first, second, *others = book.names
        example = f"{first} ({second}{', …' if others else ''})"
        yield example, "figures for the sizes in their order", "the same"


def stitches_named(us_text: str) -> tuple[Stitch, ...]:
    """The stitches that a text in US terms names, by words or by abbreviation, each once."""
    names = (" ".join(match[0].split()) for match in _names().finditer(us_text))
    return tuple(dict.fromkeys(map(_named, names)))


def _named(name: str) -> Stitch:
    """The stitch of that name as spelt, in small letters, or without its plural s."""
    by_name, folded = _by_name(), name.casefold()
    return by_name.get(name) or by_name.get(folded) or by_name[folded.removesuffix("s")]


@cache
def _by_name() -> dict[str, Stitch]:
    """Stitches by abbreviation as spelt and by their words in small letters, with and without *crochet*."""
    names: dict[str, Stitch] = {}
    for stitch in STITCHES:
        names[stitch.abbreviation] = stitch
        names[stitch.words] = stitch
        short = stitch.words.removesuffix(" crochet")
        if short not in ("single", "double"):
            names.setdefault(short, stitch)
    return names


@cache
def _names() -> re.Pattern[str]:
    """Longest first, so that a half double crochet is not taken for a double crochet."""
    names = sorted(_by_name(), key=len, reverse=True)
    short = {stitch.abbreviation for stitch in STITCHES}
    phrases = "|".join(r"\s+".join(map(re.escape, each.split())) for each in names if each not in short)
    abbreviations = "|".join(re.escape(each) for each in names if each in short)
    return re.compile(rf"\b(?:(?i:(?:{phrases}))s?|{abbreviations})\b")
