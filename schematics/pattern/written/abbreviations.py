"""Abbreviations, signs and special stitches: those the pattern uses, nothing else."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from schematics.checks.wording import sentence_case
from schematics.crochet.stitch_list import STITCHES
from schematics.crochet.stitches import Loop
from schematics.crochet.terms import Terms
from schematics.document.document import Section, Table
from schematics.pattern.book import Book
from schematics.pattern.sections.terms_used import OVER_AND_OVER, long_stitches, stitches_used

_SHORT = (
    (r"\bsts?\b", "st, sts", "stitch, stitches"),
    (r"\b(?:RS|WS)\b", "RS, WS", "right side, the one that is seen when worn; wrong side, the other"),
    (r"\brnd\b", "rnd", "round"),
    (r"\brep\b", "rep", "repeat"),
    (r"\binc\b", "inc", "increase: 2 stitches worked in one stitch"),
    (r"\bsps?\b", "sp", "space, the gap under a chain"),
)
_SIGNS = (
    (r"\] to (?:end|last)", "[…] to last st", OVER_AND_OVER),
    (r"\] \d[\d(), ]* times?\b", "[…] 3 times", "work what stands in the brackets so many times in all"),
    (r"× \d", "[1, 2] × 3, 1 × 5", "in a list of numbers: 1, 2, 1, 2, 1, 2, then five ones"),
)
"""What shows that a short form or a sign is used, the form, and what it stands for."""


def section(book: Book, texts: Iterable[str]) -> Section:
    """The abbreviations of a pattern whose other parts, in US terms, have these texts."""
    all_texts = _without_names("\n".join(texts), [size.name for size in book.design.sizes])
    special = (
        *(
            (stitch.abbreviation, f"{sentence_case(stitch.definition)}.")
            for stitch in stitches_used(book)
            if stitch.definition and _uses(all_texts, stitch.abbreviation)
        ),
        *long_stitches(book, Terms.US),
    )
    basic = tuple(_basics(book, "\n".join((all_texts, *(definition for _, definition in special)))))
    text = "\n".join((all_texts, *(definition for _, definition in (*special, *basic))))
    rows = sorted(_short_forms(book, text), key=lambda row: book.terms.text(row[0]).casefold())
    signs = [(sign, words) for shown, sign, words in _SIGNS if re.search(shown, text, re.IGNORECASE)]
    tables = [Table(header=("term", "meaning"), rows=(*rows, *signs))]
    for caption, taught in (("Basic stitches", basic), ("Special stitches", special)):
        if taught:
            tables.append(Table(caption=caption, header=("stitch", "how it is worked"), rows=taught))
    return Section("Abbreviations", tuple(tables), "abbreviations")


def _without_names(text: str, names: Iterable[str]) -> str:
    """The text but for sizes that have the name of a person, which may be spelt as a stitch is."""
    for name in names:
        if name.isalpha() and len(name) > 1:
            text = re.sub(rf"\b{re.escape(name)}\b", "", text)
    return text


def _basics(book: Book, text: str) -> Iterator[tuple[str, str]]:
    """How the basic stitches are worked that the text uses, where the design's level is a beginner's."""
    level = book.design.publication.level
    for stitch in STITCHES if level and level.taught else ():
        if stitch.basics and _uses(text, stitch.abbreviation):
            yield stitch.abbreviation, f"{sentence_case(stitch.basics)}."


def _short_forms(book: Book, text: str) -> Iterator[tuple[str, str]]:
    """Those that the text uses, in any order."""
    for stitch in (*STITCHES, *(each for each in stitches_used(book) if each not in STITCHES)):
        if _uses(text, stitch.abbreviation):
            yield stitch.abbreviation, stitch.words
    for loop in Loop:
        if re.search(rf"\b{re.escape(loop.value)}\b", text):
            yield loop.value, loop.words
    for shown, short, words in _SHORT:
        if re.search(shown, text if short[0].isupper() else text.lower()):
            yield short, words


def _uses(text: str, abbreviation: str) -> bool:
    """Whether the text has it as it is spelt, or as it begins a sentence, or more than one of it."""
    spellings = {each for each in (abbreviation, abbreviation[0].upper() + abbreviation[1:]) if each in text}
    spelt = "|".join(map(re.escape, spellings))
    return bool(spellings) and re.search(rf"(?<![\w-])(?:{spelt})s?(?![\w-])", text) is not None
