"""Abbreviations, signs and special stitches: those the pattern uses, nothing else."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from schematics.checks.wording import sentence_case
from schematics.crochet.stitch_list import STITCHES
from schematics.crochet.stitches import Loop, Stitch
from schematics.crochet.terms import Terms
from schematics.document.document import Section, Table
from schematics.pattern.book import Book
from schematics.pattern.sections.abbreviations import (
    OVER_AND_OVER,
    long_stitches,
    stitches_named,
    stitches_used,
)

_SIGNS = (
    (r"\brnd\b", "rnd", "round"),
    (r"\brep\b", "rep", "repeat"),
    (r"\binc\b", "inc", "increase: 2 stitches worked in one stitch"),
    (r"\] to (?:end|last)", "[…] to last st", OVER_AND_OVER),
    (r"\] \d[\d(), ]* times?\b", "[…] 3 times", "work what stands in the brackets so many times in all"),
    (r"× \d", "[1, 2] × 3, 1 × 5", "in a list of numbers: 1, 2, 1, 2, 1, 2, then five ones"),
)
"""What shows that a sign is used, the sign, and what it stands for."""


def section(book: Book, texts: Iterable[str]) -> Section:
    """Of the pattern whose other parts, in US terms, have these texts."""
    text = "\n".join(texts)
    tables = [Table(header=("term", "meaning"), rows=tuple(_rows(book, text)))]
    special = (
        *(
            (stitch.abbreviation, f"{sentence_case(stitch.definition)}.")
            for stitch in stitches_used(book)
            if stitch.definition
        ),
        *long_stitches(book, Terms.US),
    )
    if special:
        tables.append(Table(caption="Special stitches", header=("stitch", "how it is worked"), rows=special))
    return Section("Abbreviations", tuple(tables), "abbreviations")


def _named(book: Book) -> tuple[Stitch, ...]:
    """Those used, and those that the definitions of special ones name, in the order of the trade."""
    used = stitches_used(book)
    named = {each for stitch in used for each in stitches_named(stitch.definition)}
    return (
        *(stitch for stitch in STITCHES if stitch in named.union(used)),
        *(each for each in used if each not in STITCHES),
    )


def _rows(book: Book, text: str) -> Iterator[tuple[str, str]]:
    yield "st, sts", "stitch, stitches"
    for stitch in _named(book):
        yield stitch.abbreviation, stitch.words
    for loop in Loop:
        if re.search(rf"\b{re.escape(loop.value)}\b", text):
            yield loop.value, loop.words
    yield "RS, WS", "right side, the one that is seen when worn; wrong side, the other"
    for shown, sign, words in _SIGNS:
        if re.search(shown, text, re.IGNORECASE):
            yield sign, words
