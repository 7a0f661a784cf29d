"""What a swatch a stitch or a row off would do, as a document."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace

from schematics.analysis.sensitivity.effects import Effects, FindingFigure, Length, Moved, effects
from schematics.analysis.sensitivity.sure_table import sure_section
from schematics.analysis.sensitivity.swatch_changes import CHANGES, Change, Outlook, outlooks
from schematics.checks.evaluation import Result
from schematics.crochet.fabric import Fabric, Swatch
from schematics.design.design import Design
from schematics.document.common import design_title, rated
from schematics.document.document import Cell, Document, Quantity, Section, Table, Words
from schematics.garment.printed_lengths import grain_of
from schematics.units import AnyGrain, Grain, Unit, figure

_SHIFTED = {Unit.CM: Grain.USUAL, Unit.IN: Grain.FINE}
"""How finely the change of a length is printed: often it is by less than an eighth of an inch."""

_HEADER = ("", "now", *(f"{change.by:+d} {change.counted.value.removesuffix('s')}" for change in CHANGES))
_STILL_CM = 0.005
"""What moves less is left blank."""


def sensitivity_document(design: Design, results: Sequence[Result]) -> Document:
    """For each size and fabric what moves, and the findings whose verdict flips.

    Args:
        design: the design.
        results: the sizes to be shown, as they are.
    """
    design = replace(design, sizes=tuple(result.size for result in results))
    worked = tuple(outlooks(design))
    return Document(
        title=design_title(design),
        lead=(
            f"What one stitch or row more or fewer in {design.unit.gauge_span[1]} of a swatch would do. The "
            "counts of the spec stay; stitches picked up along row ends follow the gauge. Lengths are in "
            f"{design.unit.words}; what does not move is left out. Before that stands how sure each verdict "
            "is, as swatches, stretch, hand and body may be off.",
        ),
        sections=tuple(
            section
            for index, result in enumerate(results)
            for section in _sections(design, index, result, worked)
        ),
    )


def _sections(design: Design, index: int, result: Result, worked: Sequence[Outlook]) -> Iterator[Section]:
    """How sure the verdicts of a size are, then what each swatch moves."""
    yield sure_section(result, design.unit)
    for fabric in design.parts.fabrics.values():
        own = [each for each in worked if each.fabric.name == fabric.name]
        yield _section(design, index, result, fabric, own)


def _section(
    design: Design, index: int, result: Result, fabric: Fabric, worked: Sequence[Outlook]
) -> Section:
    changed = {each.change: each for each in worked}
    outcomes = [
        (each.design, each.results[index]) if (each := changed.get(change)) else None for change in CHANGES
    ]
    moves = effects(design, result, outcomes)
    flips = (
        _flip(change, moved, figure)
        for moved in moves.findings
        for change, figure in zip(CHANGES, moved.changed, strict=True)
        if figure is not None and _flips(moved, figure)
    )
    return Section(
        f"Size {result.size.name}, swatch of {fabric.name}: {design.parts.used_for(fabric)}",
        (_table(design.unit, fabric, changed, moves), *flips),
    )


def _table(unit: Unit, fabric: Fabric, changed: Mapping[Change, Outlook], moves: Effects) -> Table:
    swatches = [changed[change].swatch if change in changed else None for change in CHANGES]
    codes = Counter(each.code for each in moves.findings)
    return Table(
        header=_HEADER,
        rows=(
            ("stitches in the swatch", *_counts(fabric.swatch, swatches, lambda each: each.stitches)),
            ("rows in the swatch", *_counts(fabric.swatch, swatches, lambda each: each.rows)),
            *(_length_row(unit, each) for each in moves.lengths),
            *(_finding_row(unit, each, place=codes[each.code] > 1) for each in moves.findings),
        ),
    )


def _counts(
    swatch: Swatch, changed: Sequence[Swatch | None], count: Callable[[Swatch], float]
) -> Iterator[Cell]:
    now = f"{count(swatch):.4g}"
    yield Quantity(count(swatch), now)
    for each in changed:
        text = "-" if each is None else f"{count(each):.4g}"
        yield "" if text == now else Quantity(None if each is None else count(each), text)


def _length_row(unit: Unit, length: Length) -> tuple[Cell, ...]:
    shifts = (_shift(length.now_cm, each, unit) for each in length.changed_cm)
    return length.name, _quantity(length.now_cm, unit, grain_of(length.key)), *shifts


def _shift(now_cm: float, then_cm: float | None, unit: Unit) -> Cell:
    if then_cm is None:
        return Quantity(None, "-")
    if abs(then_cm - now_cm) < _STILL_CM:
        return ""
    return _quantity(then_cm - now_cm, unit, _SHIFTED[unit], signed=True)


def _finding_row(unit: Unit, moved: Moved, *, place: bool) -> tuple[Cell, ...]:
    where = f" {moved.place.removeprefix('seams ').removeprefix('seam ')}" if place else ""
    now = moved.now
    cells: Iterator[Cell] = (
        Quantity(None, "-")
        if each is None
        else _figure(unit, each, with_verdict=_flips(moved, each))
        if now.differs(each)
        else ""
        for each in moved.changed
    )
    return f"{moved.words or moved.code}{where}", _figure(unit, now, with_verdict=True), *cells


def _figure(unit: Unit, figure: FindingFigure, *, with_verdict: bool) -> Quantity:
    verdict = (rated(figure.finding.severity),) if with_verdict else ()
    if figure.figure_cm is None:
        return Quantity(None, verdict)
    length = _quantity(figure.figure_cm, unit, Grain.USUAL)
    return replace(length, words=(f"{length.words} ", *verdict)) if with_verdict else length


def _flip(change: Change, moved: Moved, figure: FindingFigure) -> Words:
    before, after = moved.now.finding.severity, figure.finding.severity
    return (
        f"{change.words}: {moved.code} from {before.value} to ", rated(after), f": {figure.finding.reason}",
    )  # fmt: skip


def _flips(moved: Moved, figure: FindingFigure) -> bool:
    return figure.finding.severity is not moved.now.finding.severity


def _quantity(length_cm: float, unit: Unit, grain: AnyGrain, *, signed: bool = False) -> Quantity:
    text = figure(length_cm, unit, grain)
    return Quantity(unit.from_cm(length_cm), f"{'+' if signed and length_cm > 0 else ''}{text}")
