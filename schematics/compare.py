"""What changed between two versions of a design, as the list of corrections a designer publishes.

Both versions' figures are compared as they are printed, so a change too small to print is none.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from schematics.design import Design
from schematics.evaluate import Result
from schematics.figures import figures
from schematics.figures.document import NONE, Document, Figure
from schematics.terms import Terms


@dataclass(frozen=True, slots=True, kw_only=True)
class Correction:
    """One figure that reads otherwise; ``old`` or ``new`` is empty where a version has none.

    ``key`` is the figure's name for programs, ``unit`` empty where it has none.
    """

    key: str
    name: str
    unit: str
    old: str
    new: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparison:
    """Corrections of all sizes alike, the others by size in the new order; sizes added and left out."""

    everywhere: tuple[Correction, ...]
    by_size: Mapping[str, tuple[Correction, ...]]
    added: tuple[str, ...]
    removed: tuple[str, ...]

    @property
    def same(self) -> bool:
        """Whether nothing that is printed has changed."""
        return not (self.everywhere or self.by_size or self.added or self.removed)


def correction_lines(corrections: Sequence[Correction]) -> Iterator[str]:
    """One line for each thing corrected, all its units together.

    Such as ``body neck edge: read 38 cm, 15 in, 36 sts, not 36 cm, 14 in, 34 sts``.
    """
    for name, found in itertools.groupby(corrections, key=lambda correction: correction.name):
        group = list(found)
        old = ", ".join(_with_unit(each.old, each.unit) for each in group if each.old)
        new = ", ".join(_with_unit(each.new, each.unit) for each in group if each.new)
        if not old:
            yield f"{name}: add {new}"
        elif not new:
            yield f"{name}: delete {old}"
        else:
            yield f"{name}: read {new}, not {old}"


def _with_unit(text: str, unit: str) -> str:
    return f"{text} {unit}" if unit else text


def compare(
    old: Design, old_results: Sequence[Result], new: Design, new_results: Sequence[Result]
) -> Comparison:
    """The corrections that make the old version's figures the new one's, in the new one's terms."""
    terms = new.terms
    before, after = _printed(old, old_results, terms), _printed(new, new_results, terms)
    by_size = {name: tuple(_changes(before[name], after[name])) for name in after if name in before}
    everywhere = _everywhere(by_size)
    rest = {name: tuple(each for each in found if each not in everywhere) for name, found in by_size.items()}
    return Comparison(
        everywhere=(*_head_changes(old, new), *everywhere),
        by_size={name: found for name, found in rest.items() if found},
        added=tuple(name for name in after if name not in before),
        removed=tuple(name for name in before if name not in after),
    )


def _head_changes(old: Design, new: Design) -> Iterator[Correction]:
    heads = (
        ("title", "title", old.title, new.title),
        ("construction", "construction", old.construction, new.construction),
    )
    for key, name, before, after in heads:
        if before != after:
            yield Correction(key=key, name=name, unit="", old=before, new=after)


_Printed = dict[str, tuple[Figure, str]]
"""Every figure of one size by its key, with the text printed."""


def _printed(design: Design, results: Sequence[Result], terms: Terms) -> dict[str, _Printed]:
    document: Document = figures(design, results, terms)
    return {
        name: {
            figure.key: (figure, figure.text(index)) for _, figure in document.figures if not figure.detail
        }
        for index, name in enumerate(document.sizes)
    }


def _changes(before: _Printed, after: _Printed) -> Iterator[Correction]:
    """The new version's figures in its order, then those it no longer has."""
    for key in dict.fromkeys([*after, *before]):
        old, new = _text(before, key), _text(after, key)
        if old != new:
            figure = (after.get(key) or before[key])[0]
            yield Correction(key=key, name=figure.name, unit=figure.unit, old=old, new=new)


def _text(printed: _Printed, key: str) -> str:
    text = printed[key][1] if key in printed else NONE
    return "" if text == NONE else text


def _everywhere(by_size: Mapping[str, tuple[Correction, ...]]) -> tuple[Correction, ...]:
    """What is the same correction in every size, where there are several."""
    if len(by_size) < 2:
        return ()
    first, *others = by_size.values()
    return tuple(each for each in first if all(each in found for found in others))
