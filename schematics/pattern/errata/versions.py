"""Two versions of a design as the errata of the older one's pattern."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from schematics.checks.evaluation import Result
from schematics.design.design import Design
from schematics.drawing.ink.sheet import A4
from schematics.pattern.corrections import HEAD, head_changes
from schematics.pattern.errata.errata import Erratum, Mend, errata_of
from schematics.pattern.errata.lines import parts_of
from schematics.pattern.written import written_pattern


@dataclass(frozen=True, slots=True, kw_only=True)
class Errata:
    """What is to be corrected, sizes added and left out, and the pages of the old version's lines.

    Of a design that is of another ``construction`` nothing but that is reported: no line of it is as it was.
    """

    corrections: tuple[Erratum, ...]
    added: tuple[str, ...]
    removed: tuple[str, ...]
    construction: bool
    pages: dict[int, int]

    @property
    def same(self) -> bool:
        """Whether the pattern reads as it did."""
        return not (self.corrections or self.added or self.removed)

    def page(self, erratum: Erratum) -> int | None:
        """The page of the old version, on A4, that a correction is on, where there is one."""
        return None if erratum.line is None else self.pages.get(erratum.line)


def compare_patterns(
    old: Design, old_results: Sequence[Result], new: Design, new_results: Sequence[Result]
) -> Errata:
    """The errata that make the old version's pattern the new one's, in the new one's terms."""
    before, after = ([result.size.name for result in results] for results in (old_results, new_results))
    another = old.construction != new.construction
    lines: tuple[Erratum, ...] = ()
    if not another:
        written = (written_pattern(*each, new.terms) for each in ((old, old_results), (new, new_results)))
        lines = errata_of(next(written), before, next(written), after)
    return Errata(
        corrections=(*_heads(old, new), *lines),
        added=tuple(name for name in after if name not in before),
        removed=tuple(name for name in before if name not in after),
        construction=another,
        pages=_pages(old, old_results) if lines else {},
    )


def _heads(old: Design, new: Design) -> Iterator[Erratum]:
    for change in head_changes(old, new):
        yield Erratum(kind=Mend.READ, part=HEAD, place=change.name, sizes=(), old=change.old, new=change.new)


def _pages(design: Design, results: Sequence[Result]) -> dict[int, int]:
    """The page of each line by its number, as the pattern is typeset on A4."""
    from schematics.document.page_numbers import page_numbers
    from schematics.pattern.pattern_files import document_content, page_look, pattern_document

    names = [result.size.name for result in results]
    lines = [line for part in parts_of(written_pattern(design, results), names) for line in part.lines]
    look = page_look(design, A4)
    pdf = document_content(pattern_document(design, results, "pdf"), "pdf", look)
    pages = page_numbers(pdf, [line.printed for line in lines], look.foot)
    return {line.number: page for line, page in zip(lines, pages, strict=True) if page}
