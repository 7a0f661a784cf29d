"""What changed between two versions of a design, as the list of corrections a designer publishes.

Both versions' figures are compared as they are printed, so a change too small to print is none.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from schematics.checks.evaluation import Result
from schematics.checks.wording import listed
from schematics.crochet.terms import Terms
from schematics.design.design import Design
from schematics.document.document import NONE, Document, Figure, Section, plain
from schematics.pattern import figures


@dataclass(frozen=True, slots=True, kw_only=True)
class Correction:
    """One figure that reads otherwise; ``old`` or ``new`` is empty where a version has none.

    ``section`` is the heading it is printed under, ``key`` the figure's name for programs, ``unit`` empty
    where it has none.
    """

    section: str
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
    """One line for each thing corrected, all its units together, and seams that read alike.

    Such as ``body neck edge: read 38 cm, 15 in, 36 sts, not 36 cm, 14 in, 34 sts``.
    """
    names: dict[tuple[str, str], list[str]] = {}
    for name, group in itertools.groupby(corrections, key=lambda correction: correction.name):
        seam = _SEAM.fullmatch(name)
        letter, what = seam.groups() if seam else ("", name)
        names.setdefault((what, _reading(list(group))), []).append(letter)
    for (what, reading), letters in names.items():
        place = f"seam{'s' if len(letters) > 1 else ''} {listed(letters)}: " if letters[0] else ""
        yield f"{place}{what}: {reading}"


_SEAM = re.compile(r"seam (\w+): (.+)")


def _reading(group: Sequence[Correction]) -> str:
    old = ", ".join(_printed_text(each.old, each.unit) for each in group if each.old)
    new = ", ".join(_printed_text(each.new, each.unit) for each in group if each.new)
    if not old:
        return f"add {new}"
    return f"read {new}, not {old}" if new else f"delete {old}"


def _printed_text(text: str, unit: str) -> str:
    """With its unit; words with a comma in them in quotation marks."""
    if unit:
        return f"{text} {unit}"
    return f"\N{LEFT DOUBLE QUOTATION MARK}{text}\N{RIGHT DOUBLE QUOTATION MARK}" if ", " in text else text


def compare(
    old: Design, old_results: Sequence[Result], new: Design, new_results: Sequence[Result]
) -> Comparison:
    """The corrections that make the old version's figures the new one's, in the new one's terms."""
    terms = new.terms
    before, after = _printed(old, old_results, terms), _printed(new, new_results, terms)
    by_size = {name: tuple(_changes(before[name], after[name])) for name in after if name in before}
    everywhere = _everywhere(by_size)
    rest = {
        name: tuple(each for each in changes if each not in everywhere) for name, changes in by_size.items()
    }
    return Comparison(
        everywhere=(*head_changes(old, new), *everywhere),
        by_size={name: changes for name, changes in rest.items() if changes},
        added=tuple(name for name in after if name not in before),
        removed=tuple(name for name in before if name not in after),
    )


def head_changes(old: Design, new: Design) -> Iterator[Correction]:
    """The sentence on a whole design that reads otherwise."""
    heads = (
        ("title", old.title, new.title),
        ("construction", old.construction, new.construction),
        ("stitch names", f"{old.terms.value} terms", f"{new.terms.value} terms"),
    )
    for name, before, after in heads:
        if before != after:
            yield Correction(section=HEAD, key=name, name=name, unit="", old=before, new=after)


HEAD = "Head"
"""The section of what is printed above all sections."""

_Printed = dict[str, tuple[Section, Figure, str]]
"""Every figure of one size by its key, with its section and the text printed."""


def _printed(design: Design, results: Sequence[Result], terms: Terms) -> dict[str, _Printed]:
    document: Document = figures(design, results, terms)
    return {
        name: {figure.key: (section, figure, figure.text(index)) for section, figure in document.figures}
        for index, name in enumerate(document.sizes)
    }


def _changes(before: _Printed, after: _Printed) -> Iterator[Correction]:
    """The new version's figures in its order, then those it no longer has.

    Rows that are printed stitch by stitch are corrected by their table, all at once; with a rule for all of
    them there is none.
    """
    table_named = False
    for key in dict.fromkeys([*after, *before]):
        old, new = _text(before, key), _text(after, key)
        if old == new:
            continue
        section, figure, _ = after.get(key) or before[key]
        if not figure.detail:
            yield Correction(
                section=plain(section.heading), key=key, name=figure.name, unit=figure.unit, old=old, new=new
            )
        elif key.startswith(f"{_STITCH_BY_STITCH.key}.") and len(section.tables) > 1 and not table_named:
            yield replace(_STITCH_BY_STITCH, section=plain(section.heading))
            table_named = True


_STITCH_BY_STITCH = Correction(
    section="",
    key="increases.row",
    name="increase rows, stitch by stitch",
    unit="",
    old="that of the old version",
    new="the table of the new version",
)


def _text(printed: _Printed, key: str) -> str:
    text = printed[key][2] if key in printed else NONE
    return "" if text == NONE else text


def _everywhere(by_size: Mapping[str, tuple[Correction, ...]]) -> tuple[Correction, ...]:
    """What is the same correction in every size, where there are several."""
    if len(by_size) < 2:
        return ()
    first, *others = by_size.values()
    return tuple(each for each in first if all(each in changes for changes in others))
