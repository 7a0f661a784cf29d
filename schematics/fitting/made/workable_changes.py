"""Changes near those that were asked for, with the panel's rows that go with them."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from schematics.design.design import Design, Size
from schematics.errors import UsageError
from schematics.fitting.made.asked_changes import AskedChange, plain_name, with_changes
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.constructions.base import counts_of

_PANEL_ROWS = "panel.rows"
_FARTHEST = 6
"""A count is tried so much farther from the one asked for."""

Minded = Callable[[Size], tuple[int, int] | None]
"""How many seams, and how much in all, is to be minded of a size; None where it cannot be worn."""


def workable_changes(
    design: Design, size: Size, changes: Sequence[AskedChange], minded: Minded
) -> tuple[str, ...]:
    """What to ask for instead, as ``--change`` takes it: the nearest that can be worn.

    The nearest that leaves no more to mind than the size as it stands is preferred.

    Args:
        design: the design in the maker's fabrics.
        size: the size as it stands.
        changes: what was asked for, and cannot be worn.
        minded: what is to be minded of a size.

    Returns:
        Such as ``("body rows -4", "panel rows -10")``; empty where nothing near can be worn.
    """
    if not changes or any(each.key == _PANEL_ROWS for each in changes):
        return ()
    found: list[tuple[tuple[int, int], tuple[str, ...]]] = []
    as_it_stands = minded(size)
    for body in _near(design, size, changes):
        asked = _asked(size, _panelled(design, size, body))
        try:
            left = minded(with_changes(design, size, asked))
        except UsageError:
            continue
        if left is not None and asked:
            found.append((left, tuple(each.text for each in asked)))
            if as_it_stands is not None and left <= as_it_stands:
                break
    return min(found, key=lambda each: each[0])[1] if found else ()


def _near(design: Design, size: Size, changes: Sequence[AskedChange]) -> Iterator[Size]:
    """The size with the changes; then, of a single one, with the next counts to either side."""
    counts = counts_of(size)
    asked = [each.number - (0 if each.relative else counts[each.key]) for each in changes]
    steps = [0]
    if len(changes) == 1:
        steps += [side * farther for farther in range(1, _FARTHEST + 1) for side in (-1, 1)]
    for step in steps:
        by = [each + step for each in asked]
        if step == 0 or by[0] * asked[0] > 0:
            yield from _changed(
                design, size, [_change(each.key, at) for each, at in zip(changes, by, strict=True)]
            )


def _changed(design: Design, size: Size, changes: Sequence[AskedChange]) -> Iterator[Size]:
    """The size with the changes; a shorter body also with all that ends with it."""
    try:
        yield with_changes(design, size, changes)
    except UsageError:
        (first, *more) = changes
        if not more and first.number < 0 and first.key in ("body.rows", "body.front_rows"):
            shorter = CONSTRUCTIONS[design.construction].shorter(size.body, size.arms, -first.number)
            if shorter is not None:
                yield replace(size, body=shorter[0], arms=shorter[1])


def _panelled(design: Design, before: Size, after: Size) -> Size:
    """The size with the rows of the panel that come nearest to the body's front."""
    fronts = [_front_cm(design, each) for each in (before, after)]
    rule = design.parts.centre_panel.row_rule.rule
    return replace(after, panel_rows=rule.nearest(before.panel_rows * fronts[1] / fronts[0]))


def _front_cm(design: Design, size: Size) -> float:
    garment = CONSTRUCTIONS[design.construction].build(size, design.parts)
    return garment.piece("body").edge("front").length_cm


def _asked(before: Size, after: Size) -> list[AskedChange]:
    new = counts_of(after)
    return [
        _change(key, new[key] - old)
        for key, old in counts_of(before).items()
        if type(old) is int and new[key] != old
    ]


def _change(key: str, by: int) -> AskedChange:
    return AskedChange(key=key, number=by, relative=True, text=f"{plain_name(key)} {by:+d}")
