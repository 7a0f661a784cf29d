"""Changes near those that were asked for, with the panel's rows that go with them."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from schematics.design.design import Design, Size
from schematics.errors import UsageError
from schematics.fitting.to_measure.asked_changes import AskedChange, differing_counts, with_changes
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.constructions.base import counts_of

_PANEL_ROWS = "panel.rows"
_FARTHEST = 6
"""A count is tried so much farther from the one asked for."""

Minded = Callable[[Size], tuple[int, int] | None]
"""How many seams, and how much in all, is to be minded of a size; None where it cannot be worn."""


@dataclass(frozen=True, slots=True)
class _Worn:
    """Changes that can be worn, as they are asked for, and what they leave to be minded."""

    texts: tuple[str, ...]
    minded: tuple[int, int]


_Try = Callable[[Sequence[AskedChange]], _Worn | None]


def workable_changes(
    design: Design, size: Size, changes: Sequence[AskedChange], minded: Minded
) -> tuple[str, ...]:
    """What to ask for instead, as ``--change`` takes it: the nearest that can be worn.

    The nearest that leaves no more to mind than the size as it stands is preferred. Of a single count those
    near it are tried, then those between it and what it is, halving the distance.

    Args:
        design: the design in the maker's fabrics.
        size: the size as it stands.
        changes: what was asked for, and cannot be worn.
        minded: what is to be minded of a size.

    Returns:
        Such as ``("body rows -4", "panel rows -10")``; empty where nothing can be worn.
    """
    counts, unchanged = counts_of(size), minded(size)
    absolute = {each.key for each in changes if not each.relative}
    panelled = all(each.key != _PANEL_ROWS for each in changes)
    asked = [
        each if each.relative else replace(each, number=each.number - counts[each.key], relative=True)
        for each in changes
    ]

    def tried(near: Sequence[AskedChange]) -> _Worn | None:
        body = _changed(design, size, near)
        whole = _panelled(design, size, body) if body is not None and panelled else body
        differing = [] if whole is None else differing_counts(size, whole, absolute)
        try:
            left = minded(with_changes(design, size, differing)) if differing else None
        except UsageError:
            return None
        return None if left is None else _Worn(tuple(each.text for each in differing), left)

    workable: list[_Worn] = []
    for near in _near(asked):
        worn = tried(near)
        if worn is not None:
            workable.append(worn)
            if unchanged is not None and worn.minded <= unchanged:
                break
    if not workable and len(asked) == 1 and unchanged is not None:
        workable = [*_farthest(tried, asked[0])]
    return min(workable, key=lambda each: each.minded).texts if workable else ()


def _near(asked: Sequence[AskedChange]) -> Iterator[Sequence[AskedChange]]:
    """The changes; then, of a single one, those by the next numbers to either side."""
    yield asked
    if len(asked) == 1:
        (only,) = asked
        for farther in range(1, _FARTHEST + 1):
            for by in (only.number - farther, only.number + farther):
                if by * only.number > 0:
                    yield [replace(only, number=by)]


def _farthest(tried: _Try, asked: AskedChange) -> Iterator[_Worn]:
    """The change by the largest number towards the one asked for that can be worn, if there is any."""
    low, high, farthest = 0, asked.number, None
    while abs(high - low) > 1:
        middle = low + int((high - low) / 2)
        step = 1 if high < low else -1
        for by in range(middle, low, step)[:_FARTHEST]:
            worn = tried([replace(asked, number=by)])
            if worn is not None:
                low, farthest = by, worn
                break
        else:
            high = middle
    if farthest is not None:
        yield farthest


def _changed(design: Design, size: Size, changes: Sequence[AskedChange]) -> Size | None:
    """The size with the changes; a shorter body also with all that ends with it."""
    try:
        return with_changes(design, size, changes)
    except UsageError:
        (first, *more) = changes
        construction = CONSTRUCTIONS[design.construction]
        if not more and first.number < 0 and first.key == construction.rows_key:
            shorter = construction.shorter(size.body, size.arms, -first.number)
            return None if shorter is None else replace(size, body=shorter[0], arms=shorter[1])
        return None


def _panelled(design: Design, before: Size, after: Size) -> Size:
    """The size with the rows of the panel that come nearest to the body's front."""
    fronts = [_front_cm(design, each) for each in (before, after)]
    rule = design.parts.centre_panel.row_rule.rule
    return replace(after, panel_rows=rule.nearest(before.panel_rows * fronts[1] / fronts[0]))


def _front_cm(design: Design, size: Size) -> float:
    garment = CONSTRUCTIONS[design.construction].build(size, design.parts)
    return garment.piece("body").edge("front").length_cm
