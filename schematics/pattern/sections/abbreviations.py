"""The abbreviations and signs the figures use, in the terms asked for and in the others.

Source: the Craft Yarn Council's lists, from memory.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

from schematics.crochet.stitches import STITCHES, Loop, Stitch
from schematics.crochet.terms import Terms
from schematics.document.document import Section, Table, listed_section
from schematics.pattern.book import Book


def section(book: Book) -> Section:
    """What is used, nothing else."""
    other = Terms.UK if book.terms is Terms.US else Terms.US
    rows = [*_stitch_rows(book, other), *_general_rows(book)]
    return listed_section(
        key="abbreviations",
        heading="Abbreviations",
        sentences=(f"Stitch names are in {book.terms.value} terms, after the Craft Yarn Council's lists.",),
        tables=(
            Table(
                caption="Abbreviations and signs",
                header=("abbreviation", "what it stands for", f"in {other.value} terms"),
                rows=tuple(rows),
            ),
        ),
    )


def _stitch_rows(book: Book, other: Terms) -> Iterator[tuple[str, str, str]]:
    fabrics = dict.fromkeys(piece.fabric for piece in book.pieces())
    used = {"ch", "sl st"}
    loops: set[Loop] = set()
    for fabric in fabrics:
        used |= {stitch.abbreviation for stitch in stitches_named(fabric.stitch)}
        loops |= {loop for loop in Loop if re.search(rf"\b({loop}|{loop.name} loop)\b", fabric.stitch, re.I)}
        for worked in fabric.chart.used() if fabric.chart else ():
            used.add(worked.stitch.abbreviation)
            loops |= {worked.loop} if worked.loop else set()
    for stitch in STITCHES:
        if stitch.abbreviation in used:
            yield book.terms.abbreviation(stitch), book.terms.words(stitch), _told(stitch, other)
    for loop in Loop:
        if loop in loops:
            yield loop.value, loop.words, loop.value


def _told(stitch: Stitch, terms: Terms) -> str:
    short, words = terms.abbreviation(stitch), terms.words(stitch)
    return short if short == words else f"{short}, {words}"


def _general_rows(book: Book) -> Iterator[tuple[str, str, str]]:
    yield "st, sts", "stitch, stitches", "st, sts"
    if any(garment.increases is not None for garment in book.each(lambda each: each)):
        yield "inc", "increase: work 2 stitches into the next stitch", "inc"
    if any(piece.fabric.chart for piece in book.pieces()):
        sign = "( … ) across"
        yield sign, "work what stands in the brackets over and over, up to the stitches named after it", sign
    yield "[ ] × 3", "work, or take, what stands in the brackets so many times in all", "[ ] × 3"
    if len(book.names) > 1:
        yield f"{_example(book)}", "figures for the sizes in their order", "the same"


def _example(book: Book) -> str:
    first, second, *_ = book.names
    return f"{first} ({second}{', …' if len(book.names) > 2 else ''})"


def stitches_named(us_text: str) -> tuple[Stitch, ...]:
    """The stitches that a text in US terms names, by words or by abbreviation, each once."""
    found = (match[0] for match in _names().finditer(us_text))
    keys = (" ".join(name.split()) for name in found)
    return tuple(dict.fromkeys(_by_name()[key if key in _by_name() else _singular(key)] for key in keys))


def _singular(name: str) -> str:
    folded = name.casefold()
    return folded if folded in _by_name() else folded.removesuffix("s")


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
    words: list[str] = []
    short: list[str] = []
    for name, stitch in _by_name().items():
        (short if name == stitch.abbreviation else words).append(name)
    phrases = "|".join(
        r"\s+".join(map(re.escape, each.split())) for each in sorted(words, key=len, reverse=True)
    )
    abbreviations = "|".join(re.escape(each) for each in sorted(short, key=len, reverse=True))
    return re.compile(rf"\b(?:(?i:(?:{phrases}))s?|{abbreviations})\b")
